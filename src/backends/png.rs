//! PNG: sheets as pictures, drawn from their SVG with letters as outlines, so that no font of the machine takes part.

use super::backend::{Backend, OutputFile, Picture, Product, Reads};
use super::svg;
use crate::base::text::{nearest, one_of};
use crate::drawing::{Sheet, outlined};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};

/// The sheet that is made into a picture if none is named.
const USUAL: &str = "brochure";

/// The PNG back-end. It makes files only if a picture is asked for.
pub struct Png;

impl Backend for Png {
    fn name(&self) -> &'static str {
        "png"
    }

    fn says(&self) -> &'static str {
        "the brochure as a PNG file, 2400 pixels wide unless `--png` says otherwise"
    }

    fn reads(&self) -> &'static [Reads] {
        &[Reads::Sheets]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let Some(picture) = product.picture else { return Ok(Vec::new()) };
        chosen(picture, product.sheets)?.into_iter().map(|sheet| file(sheet, picture.width)).collect()
    }
}

/// The sheets asked for, in the order of the set; the brochure if none is named.
fn chosen<'a>(picture: &Picture, sheets: &'a [Sheet]) -> Result<Vec<&'a Sheet>, String> {
    let ids = || sheets.iter().map(|sheet| sheet.id.as_str());
    let all = picture.sheets.iter().any(|name| name == "all");
    if let Some(name) = picture.sheets.iter().find(|name| !all && !ids().any(|id| id == *name)) {
        let meant = nearest(name, ids()).map_or_else(String::new, |id| format!("did you mean `{id}`? "));
        let known = one_of(ids().chain(["all"]));
        return Err(format!("there is no sheet `{name}`; {meant}sheets are {known}"));
    }
    let wanted = |id: &str| match picture.sheets.as_slice() {
        [] => id == USUAL,
        names => all || names.iter().any(|name| name == id),
    };
    Ok(sheets.iter().filter(|sheet| wanted(&sheet.id)).collect())
}

/// One sheet as a PNG file of a width in pixels.
///
/// # Errors
/// A sentence, if the picture can't be drawn.
pub fn file(sheet: &Sheet, width: u32) -> Result<OutputFile, String> {
    let failed = |why: String| format!("sheet `{}` can't be drawn: {why}", sheet.id);
    let svg = svg::file(&outlined(sheet));
    let tree = Tree::from_data(&svg.bytes, &Options::default()).map_err(|error| failed(error.to_string()))?;
    let (scale, height) = fit(width, sheet.paper.width, sheet.paper.height, tree.size().width());
    let pixmap = Pixmap::new(width, height);
    let mut pixmap = pixmap.ok_or_else(|| failed(format!("{width} × {height} pixels are too many")))?;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixmap.as_mut());
    let bytes = pixmap.encode_png().map_err(|error| failed(error.to_string()))?;
    Ok(OutputFile { name: svg.name.replace(".svg", ".png"), bytes })
}

/// Pixels for each unit of the picture, and the height in pixels of a sheet.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few thousand pixels")]
fn fit(width: u32, paper_width: f64, paper_height: f64, units: f32) -> (f32, u32) {
    let height = (f64::from(width) * paper_height / paper_width).round().max(1.0) as u32;
    ((f64::from(width) / f64::from(units)) as f32, height)
}

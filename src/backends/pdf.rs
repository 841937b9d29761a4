//! PDF: one file for the sheet set, in mm, with text as text, layers, bookmarks and page labels.

use super::backend::{Backend, OutputFile, Product, Reads};
use super::font_subset::{subset, used_glyphs};
use super::{pdf_mend, pdf_page};
use crate::drawing::{LayerKind, Sheet, font};
use printpdf::{
    FontId, FontMetrics, FontType, Layer, LayerIntent, LayerInternalId, LayerSubtype, PageAnnotId, PageAnnotation,
    ParsedFont, PdfDocument, PdfFont, PdfFontMetricsStub, PdfSaveOptions,
};
use std::collections::{BTreeMap, BTreeSet};

/// Name of the font in the file's resources.
pub const FONT: &str = "Plan";

/// The PDF back-end.
pub struct Pdf;

impl Backend for Pdf {
    fn name(&self) -> &'static str {
        "pdf"
    }

    fn says(&self) -> &'static str {
        "all sheets as one PDF file"
    }

    fn reads(&self) -> &'static [Reads] {
        &[Reads::Sheets]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        Ok(vec![OutputFile { name: "sheets.pdf".into(), bytes: file(product.sheets, &product.model.title.title)? }])
    }
}

/// The sheets as the bytes of one PDF file with a title.
///
/// # Errors
/// A sentence, if the file can't be put together.
pub fn file(sheets: &[Sheet], title: &str) -> Result<Vec<u8>, String> {
    let title: String = font::shown(title).collect();
    let mut document = PdfDocument::new(&title);
    "Boxwright".clone_into(&mut document.metadata.info.producer);
    "Boxwright".clone_into(&mut document.metadata.info.creator);
    for kind in LayerKind::ALL {
        document.resources.layers.map.insert(LayerInternalId(kind.name().into()), layer(kind));
    }
    document.resources.fonts.map.insert(FontId(FONT.into()), embedded_font(sheets));
    for (i, sheet) in sheets.iter().enumerate() {
        let bookmark = PageAnnotation { name: font::shown(&sheet.title).collect(), page: i + 1 };
        document.bookmarks.map.insert(PageAnnotId(format!("{i:06}")), bookmark);
        document.pages.push(pdf_page::page(sheet));
    }
    let options = PdfSaveOptions { optimize: true, subset_fonts: false, secure: true, image_optimization: None };
    pdf_mend::finish(document.to_lopdf_document(&options, &mut Vec::new()), sheets)
}

fn layer(kind: LayerKind) -> Layer {
    Layer {
        name: kind.name().into(),
        creator: "Boxwright".into(),
        intent: LayerIntent::View,
        usage: LayerSubtype::Artwork,
    }
}

/// The font with the glyphs of the sheets. U+FFFD stands for all characters that it lacks and shows as its box.
fn embedded_font(sheets: &[Sheet]) -> PdfFont {
    let glyphs: BTreeSet<u16> = sheets.iter().flat_map(used_glyphs).collect();
    let mut codes = BTreeMap::from([(u32::from(char::REPLACEMENT_CHARACTER), 0)]);
    let mut widths = BTreeMap::new();
    for (char, glyph) in font::glyphs().filter(|(_, glyph)| glyphs.contains(&glyph.id)) {
        codes.insert(u32::from(char), glyph.id);
        widths.insert(glyph.id, glyph.advance);
    }
    widths.insert(0, font::glyph(char::REPLACEMENT_CHARACTER).advance);
    PdfFont::new(ParsedFont {
        original_bytes: subset(font::BYTES, &glyphs),
        font_index: 0,
        font_name: Some(font::EMBEDDED_NAME.into()),
        codepoint_to_glyph: codes,
        glyph_widths: widths,
        units_per_em: 2000,
        font_metrics: FontMetrics { ascent: 1930, descent: -500 },
        font_type: FontType::TrueType,
        pdf_font_metrics: PdfFontMetricsStub {
            units_per_em: 2000,
            x_min: -200,
            y_min: -500,
            x_max: 2200,
            y_max: 2000,
            us_weight_class: 400,
            ..PdfFontMetricsStub::default()
        },
    })
}

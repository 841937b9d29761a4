//! Stocks and layups: the library's, changed by the layout.

use super::names::Resolver;
use crate::base::text::nearest;
use crate::diagnostic::Diagnostic;
use crate::language::expression::{Expr, Failed};
use crate::language::{BridgeDoc, LayerDoc, StockDoc};
use crate::model::layups;
use crate::model::materials::{self, Material, MaterialKind, default_stocks, material};
use crate::model::{Bridge, Grain, Layer, Panel, SheetSize, Stock};
use crate::source::{Span, Spanned};

/// Offcuts of one size, at most.
const MOST_OFFCUTS: u32 = 1000;

impl Resolver<'_> {
    /// Fills in the stocks: the usual ones, overridden and added to by the layout.
    pub fn resolve_stocks(&mut self) {
        let doc = self.doc;
        self.stocks = default_stocks();
        for (name, entry) in &doc.stocks {
            let Ok(stock) = self.stock(name, &entry.value, entry.span) else { continue };
            match self.stocks.iter_mut().find(|known| known.name == *name) {
                Some(known) => *known = stock,
                None => self.stocks.push(stock),
            }
        }
    }

    fn stock(&mut self, name: &str, doc: &StockDoc, span: Span) -> Result<Stock, Failed> {
        let mut stock = match &doc.material {
            Some(material) => self.material(material)?.stock(name),
            None => match default_stocks().into_iter().find(|known| known.name == name) {
                Some(known) => known,
                None => {
                    let error = Diagnostic::new(span, format!("stock `{name}` has no material"));
                    return Err(self.error(error.help("add `material:`, for example `material: birch-ply-12`")));
                }
            },
        };
        stock.span = Some(span);
        if let Some(thickness) = &doc.thickness {
            stock.thickness = self.positive(thickness, "the thickness")?;
        }
        if stock.thickness <= 0.0 {
            let message = format!("`{}` comes in any thickness", stock.material);
            return Err(self.error(Diagnostic::new(span, message).help("add `thickness:`")));
        }
        self.sizes(doc, &mut stock)?;
        stock.kerf = self.figure_or(doc.kerf.as_ref(), stock.kerf)?;
        stock.trim = self.figure_or(doc.trim.as_ref(), stock.trim)?;
        if let Some([long, wide]) = &doc.useful {
            stock.useful = (self.positive(long, "the length")?, self.positive(wide, "the width")?);
        }
        if let Some(stages) = &doc.stages {
            stock.stages = stages.value.parse().ok();
        }
        match doc.grain.as_ref().map(|grain| grain.value.as_str()) {
            Some("long") => stock.grain = Grain::Length,
            Some("short") => stock.grain = Grain::Width,
            Some(_) => stock.grain = Grain::Free,
            None => {}
        }
        self.refuse_bad_cut(doc, &stock, span)?;
        Ok(stock)
    }

    /// Sheets to buy, with a price for each where one is known, and then what is on hand.
    fn sizes(&mut self, doc: &StockDoc, stock: &mut Stock) -> Result<(), Failed> {
        if !doc.sheets.is_empty() {
            stock.sheets.clear();
        }
        for sheet in &doc.sheets {
            let (size, price) = (self.sheet_size(&sheet.size)?, self.price(sheet.more.as_ref())?);
            stock.sheets.push(SheetSize { size, price, on_hand: None });
        }
        let area = |sheet: &SheetSize| sheet.size.0 * sheet.size.1;
        let first = self.price(doc.price.as_ref())?.zip(stock.sheets.first().map(area));
        let own = stock.sheets.iter().find_map(|sheet| sheet.price.map(|price| (price, area(sheet))));
        if let Some((price, whole)) = first.or(own) {
            for sheet in &mut stock.sheets {
                sheet.price = sheet.price.or(Some(price * area(sheet) / whole));
            }
        }
        for offcut in &doc.offcuts {
            let size = self.sheet_size(&offcut.size)?;
            let count = match &offcut.more {
                Some(count) => self.whole_count(count)?,
                None => 1,
            };
            stock.sheets.push(SheetSize { size, price: Some(0.0), on_hand: Some(count) });
        }
        Ok(())
    }

    fn sheet_size(&mut self, [length, width]: &[Expr; 2]) -> Result<(f64, f64), Failed> {
        Ok((self.positive(length, "the sheet's length")?, self.positive(width, "the sheet's width")?))
    }

    fn price(&mut self, price: Option<&Expr>) -> Result<Option<f64>, Failed> {
        let Some(expr) = price else { return Ok(None) };
        let price = self.figure(expr)?;
        if price >= 0.0 {
            return Ok(Some(price));
        }
        Err(self.error(Diagnostic::new(expr.span, format!("a price of {price} is below 0")).help("write 0 or more")))
    }

    fn whole_count(&mut self, expr: &Expr) -> Result<u32, Failed> {
        let count = self.figure(expr)?;
        if count.fract() == 0.0 && (0.0..=f64::from(MOST_OFFCUTS)).contains(&count) {
            return Ok(count as u32);
        }
        let message = format!("{count} is no count of offcuts");
        Err(self
            .error(Diagnostic::new(expr.span, message).help(format!("write a whole number from 0 to {MOST_OFFCUTS}"))))
    }

    fn refuse_bad_cut(&mut self, doc: &StockDoc, stock: &Stock, span: Span) -> Result<(), Failed> {
        let least = stock.sheets.iter().map(|sheet| sheet.size.0.min(sheet.size.1)).fold(f64::INFINITY, f64::min);
        let bad = |value: f64| value < 0.0 || value >= least / 2.0;
        let (what, value, place) = if bad(stock.kerf) {
            ("kerf", stock.kerf, doc.kerf.as_ref())
        } else if bad(stock.trim) {
            ("trim", stock.trim, doc.trim.as_ref())
        } else {
            return Ok(());
        };
        let message = format!("a {what} of {value} mm leaves nothing of a sheet {least} mm wide");
        Err(self.error(Diagnostic::new(place.map_or(span, |expr| expr.span), message)))
    }

    fn material(&mut self, name: &Spanned<String>) -> Result<&'static Material, Failed> {
        if let Some(found) = material(&name.value) {
            return Ok(found);
        }
        let error = Diagnostic::new(name.span, format!("there is no material `{}`", name.value));
        Err(self.error(match nearest(&name.value, materials::names()) {
            Some(near) => error.help(format!("did you mean `{near}`?")),
            None => error.help("the language reference lists the materials"),
        }))
    }

    /// The panel of a layup, by the layout's own layups first.
    pub fn panel(&mut self, layup: Option<&Spanned<String>>, default: &str) -> Panel {
        let doc = self.doc;
        let name = layup.map_or(default, |name| name.value.as_str());
        if let Some(own) = doc.layups.get(name) {
            return self.own_panel(name, &own.value);
        }
        if let Some(found) = layups::layup(name) {
            return panel_of(name, library_layers(found));
        }
        if let Some(name) = layup {
            let error = Diagnostic::new(name.span, format!("there is no layup `{}`", name.value));
            let built_in: Vec<&str> = layups::names().collect();
            let known = built_in.into_iter().chain(doc.layups.keys().map(String::as_str));
            self.error(match nearest(&name.value, known) {
                Some(near) => error.help(format!("did you mean `{near}`?")),
                None => error.help(format!(
                    "built-in layups are {}; others go under `layups`",
                    crate::base::text::one_of(layups::names())
                )),
            });
        }
        panel_of(name, Vec::new())
    }

    fn own_panel(&mut self, name: &str, layers: &[LayerDoc]) -> Panel {
        let mut known = Vec::new();
        for layer in layers {
            let material = self.material(&layer.material);
            let thickness = self.positive(&layer.thickness, "the thickness");
            let frame = layer.frame.as_ref().map(|frame| self.members(frame)).transpose();
            if let (Ok(material), Ok(thickness), Ok(frame)) = (material, thickness, frame) {
                known.push(Made { material, thickness, frame });
            }
        }
        panel_of(name, known)
    }

    fn members(&mut self, doc: &BridgeDoc) -> Result<Members, Failed> {
        let material = self.material(&doc.material)?;
        let width = self.positive(&doc.width, "the width")?;
        let spacing = self.positive(&doc.spacing, "the spacing")?;
        if spacing > width {
            return Ok((material, width, spacing));
        }
        let message =
            format!("members {width} mm wide, {spacing} mm from middle to middle, leave nothing between them");
        Err(self.error(Diagnostic::new(doc.spacing.span, message)))
    }
}

/// Material, width and spacing of the members of a layer.
type Members = (&'static Material, f64, f64);

/// A layer with its materials.
struct Made {
    material: &'static Material,
    thickness: f64,
    frame: Option<Members>,
}

fn library_layers(layup: &layups::Layup) -> Vec<Made> {
    let frame = |at: usize| {
        let (layer, name, width, spacing) = layup.frame?;
        material(name).filter(|_| layer == at).map(|material| (material, width, spacing))
    };
    let layers = layup.layers.iter().enumerate();
    layers
        .filter_map(|(at, (name, mm))| Some(Made { material: material(name)?, thickness: *mm, frame: frame(at) }))
        .collect()
}

/// The panel of its layers.
fn panel_of(name: &str, made: Vec<Made>) -> Panel {
    let (mut thickness, mut areal_mass, mut layers) = (0.0, 0.0, Vec::new());
    for layer in made {
        let bridge = layer.frame.map(|(material, width, spacing)| Bridge {
            material: material.name.to_owned(),
            conductivity: material.conductivity.0,
            metal: material.kind == MaterialKind::Metal,
            width,
            spacing,
        });
        let share = bridge.as_ref().map_or(0.0, Bridge::share);
        let members = layer.frame.map_or(0.0, |(material, ..)| material.density);
        thickness += layer.thickness;
        areal_mass += (layer.material.density * (1.0 - share) + members * share) * layer.thickness / 1000.0;
        let (material, conductivity) = (layer.material.name.to_owned(), layer.material.conductivity.0);
        layers.push(Layer { material, thickness: layer.thickness, conductivity, bridge });
    }
    Panel { layup: name.to_owned(), thickness, areal_mass, layers }
}

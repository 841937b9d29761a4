//! What is bought beside sheets: edge bands by the metre, hardware by the piece.

use super::cut_list::{CutList, Row};
use crate::base::number::trimmed;
use crate::model::{Hardware, Model, Module};
use std::collections::BTreeMap;

/// Edge band of one look, thickness and width.
#[derive(Debug, Clone, PartialEq)]
pub struct BandTotal {
    /// Thickness, mm.
    pub thickness: f64,
    /// Width of the band: wider than the boards' edges, mm.
    pub width: f64,
    /// Material of the boards that it goes on, whose look it has.
    pub material: String,
    /// Their stocks.
    pub stocks: Vec<usize>,
    /// How many edges.
    pub edges: u32,
    /// Length of the finished edges, m.
    pub metres: f64,
    /// Length to buy, with what is cut off at the ends, in whole metres.
    pub buy: f64,
    /// Price of what is bought, if that of a metre is known.
    pub price: Option<f64>,
}

impl BandTotal {
    /// What it is, with `times` between thickness and width: `edge band 1 x 19 mm`.
    #[must_use]
    pub fn words(&self, times: &str) -> String {
        format!("edge band {} {times} {} mm", trimmed(self.thickness, 2), trimmed(self.width, 1))
    }

    /// Names of the stocks that it is for.
    #[must_use]
    pub fn names(&self, model: &Model) -> String {
        let stocks = self.stocks.iter().filter_map(|index| model.stocks.get(*index));
        stocks.map(|stock| stock.name.as_str()).collect::<Vec<_>>().join(", ")
    }
}

/// Widths that bands are sold in, mm: common practice, no source.
const WIDTHS: [f64; 7] = [15.0, 19.0, 22.0, 28.0, 33.0, 43.0, 54.0];
/// A band is so much wider than its board at least, to be trimmed flush on both sides, mm: common practice, no source.
const OVER: f64 = 2.0;
/// A band is left so much longer at each end of its edge and cut off there, mm: common practice, no source.
pub const BAND_END: f64 = 25.0;

/// The least width sold that covers a board's edge; of thicker boards what they need.
fn band_width(board: f64) -> f64 {
    WIDTHS.into_iter().find(|width| *width >= board + OVER).unwrap_or(board + OVER)
}

/// Hardware of one name and size.
#[derive(Debug, Clone, PartialEq)]
pub struct HardwareTotal {
    /// Name, e.g. `hinge`.
    pub name: String,
    /// Size, mm, if it has one.
    pub size: Option<f64>,
    /// Force, N, if it is chosen by one.
    pub force: Option<f64>,
    /// How many for which module.
    pub modules: Vec<(String, u32)>,
    /// How many in all.
    pub count: u32,
    /// Price, if that of a piece is known.
    pub price: Option<f64>,
}

impl HardwareTotal {
    /// Its name, and its force if it is chosen by one: `gas-strut, 60 N each`.
    #[must_use]
    pub fn words(&self) -> String {
        self.force.map_or_else(|| self.name.clone(), |force| format!("{}, {} N each", self.name, trimmed(force, 0)))
    }
}

/// Everything that is bought beside sheets.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Purchases {
    /// Bands, by material, thickness and width.
    pub bands: Vec<BandTotal>,
    /// Hardware, by name and size.
    pub hardware: Vec<HardwareTotal>,
}

/// What a layout needs beside sheets; `around` is what fixes its modules to what is around them.
pub fn purchases<'a>(
    model: &'a Model,
    list: &CutList,
    around: impl Iterator<Item = (&'a Module, &'a Hardware)>,
) -> Purchases {
    let own = model.modules.iter().flat_map(|module| module.hardware.iter().map(move |one| (module, one)));
    Purchases { bands: bands(model, list), hardware: hardware(model, own.chain(around)) }
}

/// A thickness in whole micrometres, to sort and compare by.
fn micrometres(mm: f64) -> i64 {
    (mm * 1000.0).round() as i64
}

fn bands(model: &Model, list: &CutList) -> Vec<BandTotal> {
    let mut all: BTreeMap<(&str, i64, i64), BandTotal> = BTreeMap::new();
    for row in &list.rows {
        let material = model.stocks.get(row.stock).map_or("", |stock| stock.material.as_str());
        let width = band_width(row.finished.2);
        for (thickness, length) in edges(row).into_iter().filter(|(thickness, _)| *thickness > 0.0) {
            let key = (material, micrometres(thickness), micrometres(width));
            let total = all.entry(key).or_insert_with(|| BandTotal {
                thickness,
                width,
                material: material.to_owned(),
                stocks: Vec::new(),
                edges: 0,
                metres: 0.0,
                buy: 0.0,
                price: None,
            });
            if !total.stocks.contains(&row.stock) {
                total.stocks.push(row.stock);
            }
            total.edges = total.edges.saturating_add(row.count);
            total.metres += length * f64::from(row.count) / 1000.0;
        }
    }
    let bought = |mut total: BandTotal| {
        let ends = f64::from(total.edges) * 2.0 * BAND_END / 1000.0;
        // Whole micrometres, so that a sum that is a hair above a whole metre is that metre.
        total.buy = crate::base::number::micrometres(total.metres + ends).ceil();
        total.price = model.prices.band_metre.map(|price| price * total.buy);
        total
    };
    all.into_values().map(bought).collect()
}

/// Band thickness and finished length of each edge of a row's piece.
fn edges(row: &Row) -> [(f64, f64); 4] {
    let (length, width, _) = row.finished;
    let bands = &row.bands;
    [(bands.front, length), (bands.back, length), (bands.left, width), (bands.right, width)]
}

fn hardware<'a>(model: &Model, bought: impl Iterator<Item = (&'a Module, &'a Hardware)>) -> Vec<HardwareTotal> {
    let mut all: BTreeMap<(&str, Option<i64>, Option<i64>), HardwareTotal> = BTreeMap::new();
    for (module, one) in bought {
        let total =
            all.entry((&one.name, one.size.map(micrometres), one.force.map(micrometres))).or_insert_with(|| {
                HardwareTotal {
                    name: one.name.clone(),
                    size: one.size,
                    force: one.force,
                    modules: Vec::new(),
                    count: 0,
                    price: None,
                }
            });
        total.count = total.count.saturating_add(one.count);
        match total.modules.iter_mut().find(|(name, _)| *name == module.name) {
            Some((_, count)) => *count = count.saturating_add(one.count),
            None => total.modules.push((module.name.clone(), one.count)),
        }
    }
    let priced = |mut total: HardwareTotal| {
        let each = model.prices.hardware.iter().find(|(name, _)| *name == total.name).map(|(_, price)| *price);
        total.price = each.map(|price| price * f64::from(total.count));
        total
    };
    all.into_values().map(priced).collect()
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{model, module, part};
    use super::*;
    use crate::model::{Bands, Prices};
    use crate::source::Span;

    #[test]
    fn bands_are_wider_than_their_boards() {
        assert_eq!([6.0, 12.0, 15.0, 18.0, 25.0, 60.0].map(band_width), [15.0, 15.0, 19.0, 22.0, 28.0, 62.0]);
    }

    /// By hand: two doors of 700 x 400 banded all round are 2 x 2.2 m on 8 edges, with 50 mm more for each 4.8 m, so 5 m
    /// to buy, at 0.90 a metre 4.50; four hinges at 3.20 are 12.80. Boards of 12 mm take bands of 15 mm.
    #[test]
    fn bands_and_hardware_are_summed_and_priced() {
        let bands = Bands { front: 1.0, back: 1.0, left: 1.0, right: 1.0 };
        let doors = crate::model::Part { bands, ..part("door", 2, 700.0, 400.0) };
        let hinge =
            |count| Hardware { name: "hinge".to_owned(), count, size: None, force: None, span: Span::default() };
        let mut one = module("cupboard", vec![doors]);
        one.hardware = vec![hinge(4)];
        let mut known = model(vec![one]);
        known.prices = Prices { band_metre: Some(0.9), hardware: vec![("hinge".to_owned(), 3.2)] };
        let found = purchases(&known, &crate::joinery::cut_list(&known), std::iter::empty());
        let band = &found.bands[0];
        assert!((band.metres - 4.4).abs() < 1e-9 && (band.price.unwrap() - 4.5).abs() < 1e-9);
        assert_eq!((band.edges, band.buy, band.words("x").as_str()), (8, 5.0, "edge band 1 x 15 mm"));
        assert_eq!((found.hardware[0].count, found.hardware[0].price), (4, Some(12.8)));
    }
}

//! What is bought beside sheets: edge bands by the metre, hardware by the piece.

use super::cut_list::{CutList, Row};
use crate::base::number::trimmed;
use crate::model::Model;
use std::collections::BTreeMap;

/// Edge band of one thickness.
#[derive(Debug, Clone, PartialEq)]
pub struct BandTotal {
    /// Thickness, mm.
    pub thickness: f64,
    /// Stock of the parts that it goes on, whose look it has.
    pub stock: usize,
    /// Length on the finished edges, m; what is cut off at their ends comes on top.
    pub metres: f64,
    /// Price, if that of a metre is known.
    pub price: Option<f64>,
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
    /// Bands, by stock and thickness.
    pub bands: Vec<BandTotal>,
    /// Hardware, by name and size.
    pub hardware: Vec<HardwareTotal>,
}

/// What a layout needs beside sheets.
#[must_use]
pub fn purchases(model: &Model, list: &CutList) -> Purchases {
    Purchases { bands: bands(model, list), hardware: hardware(model) }
}

/// A thickness in whole micrometres, to sort and compare by.
fn micrometres(mm: f64) -> i64 {
    (mm * 1000.0).round() as i64
}

fn bands(model: &Model, list: &CutList) -> Vec<BandTotal> {
    let mut sums: BTreeMap<(usize, i64), f64> = BTreeMap::new();
    for row in &list.rows {
        for (thickness, length) in edges(row).into_iter().filter(|(thickness, _)| *thickness > 0.0) {
            *sums.entry((row.stock, micrometres(thickness))).or_default() += length * f64::from(row.count) / 1000.0;
        }
    }
    let total = |((stock, thickness), metres): ((usize, i64), f64)| BandTotal {
        thickness: thickness as f64 / 1000.0,
        stock,
        metres,
        price: model.prices.band_metre.map(|price| price * metres),
    };
    sums.into_iter().map(total).collect()
}

/// Band thickness and finished length of each edge of a row's piece.
fn edges(row: &Row) -> [(f64, f64); 4] {
    let (length, width, _) = row.finished;
    let bands = &row.bands;
    [(bands.front, length), (bands.back, length), (bands.left, width), (bands.right, width)]
}

fn hardware(model: &Model) -> Vec<HardwareTotal> {
    let mut all: BTreeMap<(&str, Option<i64>, Option<i64>), HardwareTotal> = BTreeMap::new();
    for module in &model.modules {
        for one in &module.hardware {
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
    use crate::model::{Bands, Hardware, Prices};
    use crate::source::Span;

    /// By hand: two doors of 700 x 400 banded all round are 2 x 2.2 m, at 0.90 a metre 3.96; four hinges at 3.20 are 12.80.
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
        let found = purchases(&known, &crate::joinery::cut_list(&known));
        assert!((found.bands[0].metres - 4.4).abs() < 1e-9 && (found.bands[0].price.unwrap() - 3.96).abs() < 1e-9);
        assert_eq!((found.hardware[0].count, found.hardware[0].price), (4, Some(12.8)));
    }
}

//! Where links lead: the places of all named groups of a sheet set.

use super::font::text_box;
use super::item::{Group, Item};
use super::sheet::{LayerKind, Sheet};
use kurbo::{Rect, Shape};
use std::collections::BTreeMap;

/// Where a group stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot<'a> {
    /// Index of its sheet.
    pub sheet: usize,
    /// Id of its view.
    pub view: &'a str,
    /// Its layer.
    pub layer: LayerKind,
    /// Bounds of what it draws, paper mm.
    pub bounds: Rect,
}

/// The groups of a sheet set by their ids.
#[derive(Debug, Clone, Default)]
pub struct Spots<'a> {
    spots: BTreeMap<&'a str, Vec<Spot<'a>>>,
}

impl<'a> Spots<'a> {
    /// Of all sheets.
    #[must_use]
    pub fn new(sheets: &'a [Sheet]) -> Self {
        let mut spots = Self::default();
        for (sheet, view) in sheets.iter().enumerate().flat_map(|(i, sheet)| sheet.views.iter().map(move |v| (i, v))) {
            for layer in &view.layers {
                let spot = Spot { sheet, view: &view.id, layer: layer.kind, bounds: Rect::ZERO };
                layer.items.iter().for_each(|item| spots.add(item, spot));
            }
        }
        spots
    }

    fn add(&mut self, item: &'a Item, spot: Spot<'a>) {
        if let Item::Group(group) = item {
            if let Some(bounds) = bounds(group) {
                self.spots.entry(&group.id).or_default().push(Spot { bounds, ..spot });
            }
            group.items.iter().for_each(|item| self.add(item, spot));
        }
    }

    /// Where a link from a sheet leads: to the group of that id on the sheet itself, else to the first one.
    #[must_use]
    pub fn find(&self, from: usize, id: &str) -> Option<Spot<'a>> {
        let all = self.spots.get(id)?;
        // They stand in the order of the sheets.
        let own = all.get(all.partition_point(|spot| spot.sheet < from)).filter(|spot| spot.sheet == from);
        own.or(all.first()).copied()
    }
}

/// The groups of items that are links, with their bounds.
#[must_use]
pub fn links(items: &[Item]) -> Vec<(Rect, &str)> {
    let mut found = Vec::new();
    for item in items {
        if let Item::Group(group) = item {
            found.extend(bounds(group).zip(group.link.as_deref()));
            found.extend(links(&group.items));
        }
    }
    found
}

/// Bounds of what a group draws; `None` for nothing.
fn bounds(group: &Group) -> Option<Rect> {
    let of = |item: &Item| match item {
        Item::Path(path) => Some(path.shape.bounding_box()),
        Item::Text(text) => Some(text_box(text)),
        Item::Group(group) => bounds(group),
    };
    group.items.iter().filter_map(of).filter(|rect| rect.is_finite()).reduce(|a, b| a.union(b))
}

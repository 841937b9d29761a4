//! The key figures in columns, and under them the list of what the plans could not name.

use super::facts::{Fact, facts};
use super::labels::Named;
use crate::diagnostic::Finding;
use crate::drawing::lettering::wrap;
use crate::drawing::{Align, Item, LineClass, lettering, text_width};
use crate::model::{Arrangement, Model, Theme};
use crate::views::kit::words::words_of;
use kurbo::{Point, Rect};
use std::collections::{BTreeMap, BTreeSet};

/// Between columns, mm.
const BETWEEN: f64 = 8.0;
/// Least width of a column, mm.
const LEAST: f64 = 30.0;
/// Line pitch in letter heights.
const PITCH: f64 = 1.75;

/// Key figures and list.
pub(super) struct Info {
    facts: Vec<Fact>,
    names: Vec<String>,
    arrangements: usize,
    numbered: BTreeSet<usize>,
    overhead: BTreeMap<usize, Vec<String>>,
}

impl Info {
    /// The figures, and a list that is still empty.
    pub fn new(model: &Model, findings: &[Finding]) -> Self {
        Self {
            facts: facts(model, findings),
            names: model.modules.iter().map(|module| words_of(&module.name)).collect(),
            arrangements: model.arrangements.len(),
            numbered: BTreeSet::new(),
            overhead: BTreeMap::new(),
        }
    }

    /// Takes what one plan could not name.
    pub fn add(&mut self, arrangement: &Arrangement, named: &Named) {
        self.numbered.extend(&named.numbered);
        for index in &named.overhead {
            self.overhead.entry(*index).or_default().push(arrangement.name.clone());
        }
    }

    /// Height that it takes at most in a width, mm.
    pub fn height(&self, width: f64, theme: &Theme) -> f64 {
        let all = (1..).zip(&self.names).map(|(number, name)| format!("{number} {name}")).collect::<Vec<_>>();
        let list = wrap(&all.join("   "), theme.letters.note, width).len() + 1;
        let rows = self.facts.len().div_ceil(self.columns(width, theme));
        rows as f64 * row(theme) + list as f64 * PITCH * theme.letters.note + theme.letters.note
    }

    /// As many columns as hold the widest figure.
    fn columns(&self, width: f64, theme: &Theme) -> usize {
        let value = |fact: &Fact| text_width(&fact.value, theme.letters.figure);
        let name = |fact: &Fact| text_width(&fact.name, theme.letters.note);
        let widest = self.facts.iter().map(|fact| value(fact).max(name(fact))).fold(LEAST, f64::max);
        let fitting = ((width + BETWEEN) / (widest + BETWEEN)).floor().max(1.0) as usize;
        let fitting = fitting.min(self.facts.len().max(1));
        // The same number of rows with columns of one number each, as even as can be.
        let rows = self.facts.len().div_ceil(fitting).max(1);
        self.facts.len().div_ceil(rows).max(1)
    }

    /// Draws it from the top of a rectangle.
    pub fn items(&self, place: Rect, theme: &Theme) -> Vec<Item> {
        let letters = theme.letters;
        let columns = self.columns(place.width(), theme);
        let width = (place.width() - BETWEEN * (columns - 1) as f64) / columns as f64;
        let mut items = Vec::new();
        for (index, fact) in self.facts.iter().enumerate() {
            let x = place.x0 + (width + BETWEEN) * (index % columns) as f64;
            let top = place.y1 - row(theme) * (index / columns) as f64;
            items.push(Item::segment(Point::new(x, top), Point::new(x + width, top), LineClass::Detail));
            let name = Point::new(x, top - 2.2 - letters.note);
            items.push(Item::text(name, lettering::cut(&fact.name, letters.note, width), letters.note, Align::Start));
            let value = Point::new(x, name.y - 2.0 - letters.figure);
            let words = lettering::cut(&fact.value, letters.figure, width);
            items.push(Item::text(value, words, letters.figure, Align::Start));
        }
        let rows = self.facts.len().div_ceil(columns) as f64;
        let mut at = Point::new(place.x0, place.y1 - rows * row(theme) - letters.note);
        for line in self.list().iter().flat_map(|line| wrap(line, letters.note, place.width())) {
            items.push(Item::text(at, line, letters.note, Align::Start));
            at.y -= PITCH * letters.note;
        }
        items
    }

    /// What numbers and dashed outlines are.
    fn list(&self) -> Vec<String> {
        let name = |index: usize| self.names.get(index).cloned().unwrap_or_default();
        let numbered: Vec<String> =
            self.numbered.iter().map(|index| format!("{} {}", index + 1, name(*index))).collect();
        let overhead: Vec<String> = self
            .overhead
            .iter()
            .map(|(index, when)| match when.len() == self.arrangements {
                true => name(*index).to_lowercase(),
                false => format!("{} ({})", name(*index).to_lowercase(), when.join(", ")),
            })
            .collect();
        let mut lines = Vec::new();
        if !numbered.is_empty() {
            lines.push(numbered.join("   "));
        }
        if !overhead.is_empty() {
            lines.push(format!("Dashed, overhead: {}", overhead.join(", ")));
        }
        lines
    }
}

/// Height of a row of figures.
fn row(theme: &Theme) -> f64 {
    theme.letters.note + theme.letters.figure + 9.0
}

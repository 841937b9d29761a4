//! Narrow places of a layout's floors, known beforehand: of a layout that was changed at one place most are still there,
//! and what has to be wide gets past none of them. Then nothing needs to be measured.

use super::ground::{Ground, Line};

/// Places as wide as this are not kept, mm: no way needs more.
const WIDEST: f64 = 600.0;

/// Of more than this, none are kept: then it is quicker to measure.
const MOST: usize = 100;

/// The lines over the narrow places of each arrangement.
#[derive(Debug, Default)]
pub struct Narrows(Vec<(String, Vec<Line>)>);

impl Narrows {
    pub(super) fn add(&mut self, arrangement: &str, ground: &Ground) {
        let lines = Some(ground.clearance().lines_across(WIDEST)).filter(|lines| lines.len() <= MOST);
        self.0.push((arrangement.to_owned(), lines.unwrap_or_default()));
    }

    pub(super) fn lines(&self, arrangement: &str) -> &[Line] {
        self.0.iter().find(|(name, _)| name == arrangement).map_or(&[], |(_, lines)| lines)
    }
}

//! Parts of full sheets as small sheets of their own: a step there costs little, and changes what it is near to.

use super::dice::Dice;
use super::packing::Packing;

/// At most so many pieces are in a part.
const MOST_ITEMS: usize = 8;
/// At most so many parts, each of another sheet.
const MOST_PARTS: usize = 3;

/// Whether sheets have so many pieces that their parts are worth looking at.
pub(super) fn worthwhile(packing: &Packing) -> bool {
    let nodes: usize = packing.sheets.iter().map(|sheet| sheet.nodes.len()).sum();
    nodes > 2 * MOST_ITEMS * packing.sheets.len()
}

/// Some parts, with the loose pieces.
pub(super) struct Windows {
    /// Sheet and last node of each part.
    places: Vec<(usize, usize)>,
    pub inner: Packing,
}

impl Windows {
    /// Takes the loose pieces along.
    pub fn open(packing: &mut Packing, dice: &mut Dice) -> Self {
        let mut windows = Self { places: Vec::new(), inner: Packing::default() };
        for _ in 0..=dice.below(MOST_PARTS) {
            let index = dice.below(packing.sheets.len());
            let Some(sheet) = packing.sheets.get(index) else { continue };
            let mut at = dice.below(sheet.nodes.len());
            while let Some(parent) = sheet.parent(at).filter(|parent| sheet.items_under(*parent) <= MOST_ITEMS) {
                at = parent;
            }
            let known = windows.places.iter().any(|(known, _)| *known == index);
            if let Some(part) = sheet.part(at).filter(|_| !known) {
                windows.places.push((index, at));
                windows.inner.sheets.push(part);
            }
        }
        windows.inner.loose = std::mem::take(&mut packing.loose);
        windows
    }

    pub fn close(self, packing: &mut Packing) {
        for ((index, at), part) in self.places.into_iter().zip(&self.inner.sheets) {
            packing.sheets.get_mut(index).into_iter().for_each(|sheet| sheet.put_back(at, part));
        }
        packing.loose = self.inner.loose;
    }
}

//! Which stocks are sawn from the same sheets: those of one material, whatever their role.

use crate::base::tolerance::SAME_LENGTH;
use crate::model::{Grain, SheetSize, Stock};

/// Stocks that share their sheets, as one stock would have them.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Shared {
    /// Indices of the stocks in the model.
    pub stocks: Vec<usize>,
    /// Sizes to be bought, then what is on hand.
    pub sheets: Vec<SheetSize>,
    /// Grain of the sheets, as far as any of the stocks says.
    pub grain: Grain,
}

/// The stocks in groups that share sheets, in the order of the first of each.
pub(super) fn shared(stocks: &[Stock]) -> Vec<Shared> {
    let mut groups: Vec<(&Stock, Shared)> = Vec::new();
    for (index, stock) in stocks.iter().enumerate() {
        let joined = groups.iter_mut().find_map(|(first, group)| {
            let sheets = alike(first, stock).then(|| sheets(&group.sheets, &stock.sheets)).flatten()?;
            let grain = grain(group.grain, stock.grain)?;
            Some((group, sheets, grain))
        });
        match joined {
            Some((group, sheets, grain)) => {
                group.stocks.push(index);
                (group.sheets, group.grain) = (sheets, grain);
            }
            None => {
                let own = Shared { stocks: vec![index], sheets: stock.sheets.clone(), grain: stock.grain };
                groups.push((stock, own));
            }
        }
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

/// The same board, and sawn in the same way.
fn alike(a: &Stock, b: &Stock) -> bool {
    let board = a.material == b.material && (a.thickness - b.thickness).abs() < SAME_LENGTH;
    board && (a.kerf, a.trim, a.useful, a.stages) == (b.kerf, b.trim, b.useful, b.stages)
}

/// A stock without grain takes parts any way round, so it goes with both; grain along and across a sheet is not one sheet.
fn grain(a: Grain, b: Grain) -> Option<Grain> {
    match (a, b) {
        (Grain::Free, other) | (other, Grain::Free) => Some(other),
        _ => (a == b).then_some(a),
    }
}

/// The sheets of both, if they can be bought in the same sizes at the same prices. A price that only one says holds for
/// both; of what is on hand, a size that both list is one heap.
fn sheets(a: &[SheetSize], b: &[SheetSize]) -> Option<Vec<SheetSize>> {
    let bought = |all: &[SheetSize]| all.iter().filter(|one| one.on_hand.is_none()).count();
    if bought(a) != bought(b) {
        return None;
    }
    let mut all = a.to_vec();
    for other in b {
        let same = |own: &&mut SheetSize| own.size == other.size && own.on_hand.is_some() == other.on_hand.is_some();
        match (all.iter_mut().find(same), other.on_hand) {
            (Some(own), Some(count)) => own.on_hand = own.on_hand.max(Some(count)),
            (Some(own), None) => match (own.price, other.price) {
                (Some(price), Some(second)) if price != second => return None,
                _ => own.price = own.price.or(other.price),
            },
            (None, Some(_)) => all.push(*other),
            (None, None) => return None,
        }
    }
    Some(all)
}

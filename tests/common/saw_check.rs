//! Checks a cutting plan with nothing of the method under test: counts, sizes and turning; the cuts replayed on the
//! whole sheet with their fence settings, each from edge to edge of a panel that is there; and that the pieces could be
//! separated whatever cuts are listed.

use boxwright::joinery::nesting::{Cut, CutSheet, CuttingPlan, Division, Panel, Piece, Placed, Request, Turn};

fn micro(mm: f64) -> i64 {
    (mm * 1000.0).round() as i64
}

/// Low and high ends along the sheet's length and width, whole micrometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Block {
    pub low: [i64; 2],
    pub high: [i64; 2],
}

impl Block {
    fn of(x: f64, y: f64, length: f64, width: f64) -> Self {
        let low = [micro(x), micro(y)];
        Self { low, high: [low[0] + micro(length), low[1] + micro(width)] }
    }

    fn panel(panel: &Panel) -> Self {
        Self::of(panel.x, panel.y, panel.length, panel.width)
    }

    fn piece(piece: &Placed) -> Self {
        Self::of(piece.x, piece.y, piece.length, piece.width)
    }

    fn size(&self, axis: usize) -> i64 {
        self.high[axis] - self.low[axis]
    }

    fn inside(&self, other: &Self) -> bool {
        (0..2).all(|axis| self.low[axis] >= other.low[axis] && self.high[axis] <= other.high[axis])
    }
}

/// What is wrong with a plan, if anything.
pub fn check(request: &Request, plan: &CuttingPlan) -> Result<(), String> {
    let mut counts = vec![0_u32; request.pieces.len()];
    let mut used = vec![0_u32; request.sheets.len()];
    for sheet in &plan.sheets {
        let kind = &request.sheets[sheet.kind];
        used[sheet.kind] += 1;
        if kind.size != sheet.size || kind.stock.is_some_and(|stock| used[sheet.kind] > stock) {
            return Err(format!("there is no sheet {:?}, or not as many", sheet.size));
        }
        for placed in &sheet.pieces {
            counts[placed.piece] += 1;
            lies_well(&request.pieces[placed.piece], placed)?;
        }
        replay(request, sheet)?;
        separable(request, sheet)?;
    }
    let wanted = |index: usize| if plan.too_large.contains(&index) { 0 } else { request.pieces[index].count };
    let missing: u32 = (0..counts.len()).map(|index| wanted(index).abs_diff(counts[index])).sum();
    if missing as usize != plan.unplaced || (0..counts.len()).any(|index| counts[index] > wanted(index)) {
        return Err(format!("{missing} pieces are missing, {} are said to be", plan.unplaced));
    }
    let cost: f64 = plan.sheets.iter().map(|sheet| request.sheets[sheet.kind].cost).sum();
    let bounded = plan.bound <= plan.sheets.len() && plan.least_cost <= cost * (1.0 + 1e-9);
    if bounded || plan.unplaced > 0 { Ok(()) } else { Err("a bound is above the plan".to_owned()) }
}

fn lies_well(piece: &Piece, placed: &Placed) -> Result<(), String> {
    let size = if placed.turned { (piece.width, piece.length) } else { (piece.length, piece.width) };
    let same = micro(size.0) == micro(placed.length) && micro(size.1) == micro(placed.width);
    let square = micro(piece.length) == micro(piece.width);
    let allowed = square || piece.turn == Turn::Free || (piece.turn == Turn::Always) == placed.turned;
    if same && allowed { Ok(()) } else { Err(format!("{placed:?} of {piece:?} has a wrong size or is turned wrongly")) }
}

/// A panel on the saw table, the stage that it came from, and which side was divided then.
struct Loose {
    block: Block,
    stage: u8,
    last: Option<Division>,
}

/// Makes the cuts of the list and compares what is left with pieces and offcuts.
fn replay(request: &Request, sheet: &CutSheet) -> Result<(), String> {
    let block = Block::of(0.0, 0.0, sheet.size.0, sheet.size.1);
    let mut loose = vec![Loose { block, stage: 0, last: None }];
    for (index, cut) in sheet.cuts.iter().enumerate() {
        let number = index + 1;
        let panel = Block::panel(&cut.panel);
        let at = loose.iter().position(|loose| loose.block == panel);
        let panel = loose.swap_remove(at.ok_or_else(|| format!("cut {number}: there is no panel {panel:?}"))?);
        let stage = if cut.stage == 0 { 0 } else { panel.stage + u8::from(panel.last != Some(cut.division)) };
        if stage != cut.stage {
            return Err(format!("cut {number} is of stage {stage}, not {}", cut.stage));
        }
        let pieces = sheet.pieces.iter().filter(|piece| Block::piece(piece).inside(&panel.block)).count();
        if request.stages.is_some_and(|most| stage > most) && pieces > 1 {
            return Err(format!("cut {number} of stage {stage} is one too many"));
        }
        let last = if stage == 0 { None } else { Some(cut.division) };
        let parts = parts(&panel.block, cut, micro(request.kerf))?;
        let keeps_edge = |part: &Block| stage > 0 || sheet.pieces.iter().any(|piece| Block::piece(piece).inside(part));
        let parts = parts.into_iter().filter(keeps_edge);
        loose.extend(parts.map(|block| Loose { block, stage, last }));
    }
    left_over(request, sheet, loose.into_iter().map(|loose| loose.block).collect())
}

/// The two parts of a panel, without those that the saw cut takes whole.
fn parts(panel: &Block, cut: &Cut, kerf: i64) -> Result<Vec<Block>, String> {
    let axis = usize::from(cut.division == Division::Width);
    let fence = micro(cut.fence);
    if fence <= 0 || fence >= panel.size(axis) {
        return Err(format!("the fence at {fence} is not on the panel {panel:?}"));
    }
    let (mut near, mut far) = (*panel, *panel);
    if cut.from_far {
        far.low[axis] = panel.high[axis] - fence;
        near.high[axis] = far.low[axis] - kerf;
    } else {
        near.high[axis] = panel.low[axis] + fence;
        far.low[axis] = near.high[axis] + kerf;
    }
    Ok([near, far].into_iter().filter(|part| part.size(axis) > 0).collect())
}

fn left_over(request: &Request, sheet: &CutSheet, mut panels: Vec<Block>) -> Result<(), String> {
    let pieces = sheet.pieces.iter().map(Block::piece);
    for block in pieces.chain(sheet.offcuts.iter().map(|offcut| Block::panel(&offcut.panel))) {
        let at = panels.iter().position(|panel| *panel == block);
        panels.swap_remove(at.ok_or_else(|| format!("no cut frees {block:?}"))?);
    }
    if !panels.is_empty() {
        return Err(format!("{panels:?} are neither pieces nor offcuts"));
    }
    let (long, short) = (request.useful.0.max(request.useful.1), request.useful.0.min(request.useful.1));
    let useful = |panel: &Panel| panel.length.max(panel.width) >= long && panel.length.min(panel.width) >= short;
    match sheet.offcuts.iter().find(|offcut| useful(&offcut.panel) != offcut.useful) {
        Some(offcut) => Err(format!("{offcut:?} is marked wrongly")),
        None => Ok(()),
    }
}

fn separable(request: &Request, sheet: &CutSheet) -> Result<(), String> {
    let (kerf, trim) = (micro(request.kerf), micro(request.trim));
    let grown = |piece: &Placed| {
        let block = Block::piece(piece);
        Block { high: [block.high[0] + kerf, block.high[1] + kerf], ..block }
    };
    let blocks: Vec<Block> = sheet.pieces.iter().map(grown).collect();
    let edge = [micro(sheet.size.0) - trim + kerf, micro(sheet.size.1) - trim + kerf];
    if !blocks.iter().all(|block| block.inside(&Block { low: [trim; 2], high: edge })) {
        return Err("a piece reaches into the trim".to_owned());
    }
    if free(blocks) { Ok(()) } else { Err("the pieces can't be cut free from edge to edge".to_owned()) }
}

/// Whether cuts from edge to edge separate all blocks: some line in some direction meets no block's inside.
pub fn free(mut blocks: Vec<Block>) -> bool {
    if blocks.len() < 2 {
        return true;
    }
    for axis in 0..2 {
        blocks.sort_by_key(|block| block.low[axis]);
        let mut reach = blocks[0].high[axis];
        for at in 1..blocks.len() {
            if blocks[at].low[axis] >= reach {
                let rest = blocks.split_off(at);
                return free(blocks) && free(rest);
            }
            reach = reach.max(blocks[at].high[axis]);
        }
    }
    false
}

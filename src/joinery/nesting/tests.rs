//! The plan against an independent checker, random parts, and draws whose least number of sheets is proved.

use super::{CutSheet, CuttingPlan, MOST_PIECES, Piece, Request, SheetKind, Turn, nest, usual_effort};
use proptest::prelude::*;

/// A piece as it lies, with one kerf to the right and above, in whole micrometres.
#[derive(Clone, Copy)]
struct Block {
    low: [i64; 2],
    high: [i64; 2],
}

fn micro(mm: f64) -> i64 {
    (mm * 1000.0).round() as i64
}

/// Checks a plan with nothing of the method under test: counts, sizes, turning, trim, and that saw cuts of the kerf's
/// width, each from edge to edge, set every piece free.
fn check(request: &Request, plan: &CuttingPlan) -> Result<(), String> {
    let mut counts = vec![0_u32; request.pieces.len()];
    for sheet in &plan.sheets {
        if !request.sheets.iter().any(|kind| kind.size == sheet.size) {
            return Err(format!("there is no sheet {:?}", sheet.size));
        }
        for placed in &sheet.pieces {
            counts[placed.piece] += 1;
            let piece = &request.pieces[placed.piece];
            let size = if placed.turned { (piece.width, piece.length) } else { (piece.length, piece.width) };
            let same = micro(size.0) == micro(placed.length) && micro(size.1) == micro(placed.width);
            let square = micro(piece.length) == micro(piece.width);
            let allowed = square || piece.turn == Turn::Free || (piece.turn == Turn::Always) == placed.turned;
            if !same || !allowed {
                return Err(format!("piece {placed:?} of {piece:?} has a wrong size or is turned wrongly"));
            }
        }
        separable(request, sheet)?;
    }
    for (index, piece) in request.pieces.iter().enumerate() {
        let expected = if plan.too_large.contains(&index) { 0 } else { piece.count };
        if counts[index] != expected {
            return Err(format!("piece {index}: {} of {expected} placed", counts[index]));
        }
    }
    (plan.bound <= plan.sheets.len()).then_some(()).ok_or_else(|| "the bound is above the plan".to_owned())
}

fn separable(request: &Request, sheet: &CutSheet) -> Result<(), String> {
    let (kerf, trim) = (micro(request.kerf), micro(request.trim));
    let block = |piece: &super::Placed| Block {
        low: [micro(piece.x), micro(piece.y)],
        high: [micro(piece.x) + micro(piece.length) + kerf, micro(piece.y) + micro(piece.width) + kerf],
    };
    let blocks: Vec<Block> = sheet.pieces.iter().map(block).collect();
    let edge = [micro(sheet.size.0) - trim + kerf, micro(sheet.size.1) - trim + kerf];
    let inside = |block: &Block| (0..2).all(|axis| block.low[axis] >= trim && block.high[axis] <= edge[axis]);
    if !blocks.iter().all(inside) {
        return Err("a piece reaches into the trim".to_owned());
    }
    if free(blocks) { Ok(()) } else { Err("the pieces can't be cut free from edge to edge".to_owned()) }
}

/// Whether cuts from edge to edge separate all blocks: some line in some direction meets no block's inside.
fn free(mut blocks: Vec<Block>) -> bool {
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

fn request(sheets: &[(f64, f64)], kerf: f64, trim: f64, pieces: Vec<Piece>) -> Request {
    let kind = |size: &(f64, f64)| SheetKind { size: *size, cost: size.0 * size.1 };
    Request { sheets: sheets.iter().map(kind).collect(), kerf, trim, pieces, effort: 30_000 }
}

fn piece(length: f64, width: f64, count: u32, turn: Turn) -> Piece {
    Piece { length, width, count, turn }
}

/// The checker itself: five blocks round a centre, the classic pattern that no edge-to-edge cut separates.
#[test]
fn the_checker_knows_a_pinwheel() {
    let block = |x0, y0, x1, y1| Block { low: [x0, y0], high: [x1, y1] };
    let wheel = [block(0, 0, 2, 1), block(2, 0, 3, 2), block(1, 2, 3, 3), block(0, 1, 1, 3)];
    assert!(!free(wheel.to_vec()));
    assert!(free(wheel[..3].to_vec()));
}

/// Random cabinet parts: few sizes, some often, some with grain, some too large.
fn parts() -> impl Strategy<Value = Vec<Piece>> {
    let turn = prop_oneof![Just(Turn::Never), Just(Turn::Always), Just(Turn::Free)];
    let one = (400_u32..26_000, 400_u32..13_000, 0_u32..7, turn);
    prop::collection::vec(one, 0..25).prop_map(|all| {
        all.into_iter()
            .map(|(a, b, count, turn)| piece(f64::from(a) / 10.0, f64::from(b) / 10.0, count, turn))
            .collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn random_cabinets_make_valid_plans(pieces in parts(), kerf in 0_u32..50, trim in 0_u32..200, sizes in 1_usize..4) {
        let sheets = [(2500.0, 1250.0), (2440.0, 1220.0), (3050.0, 1525.0)];
        let request = request(&sheets[..sizes], f64::from(kerf) / 10.0, f64::from(trim) / 10.0, pieces);
        let plan = nest(&request);
        prop_assert_eq!(check(&request, &plan), Ok(()));
        prop_assert_eq!(&nest(&request), &plan);
    }
}

/// `tests/oracles/nesting.py` draws these jobs: the least number of sheets is proved by a plan and by area.
#[test]
fn proved_draws_are_met_or_nearly() {
    let text = include_str!("../../../tests/oracles/nesting.json");
    let jobs: Vec<serde_json::Value> = serde_json::from_str(text).unwrap();
    let (mut proved, mut found) = (0, 0);
    for job in &jobs {
        let turn = |free: &serde_json::Value| if free == true { Turn::Free } else { Turn::Never };
        let one = |p: &serde_json::Value| piece(p[0].as_f64().unwrap(), p[1].as_f64().unwrap(), 1, turn(&p[2]));
        let pieces = job["pieces"].as_array().unwrap().iter().map(one).collect();
        let (kerf, trim) = (job["kerf"].as_f64().unwrap(), job["trim"].as_f64().unwrap());
        let effort = usual_effort(job["pieces"].as_array().unwrap().len() as u32);
        let request = Request { effort, ..request(&[(2440.0, 1220.0)], kerf, trim, pieces) };
        let plan = nest(&request);
        assert_eq!(check(&request, &plan), Ok(()));
        let least = job["sheets"].as_u64().unwrap() as usize;
        assert!(plan.bound <= least && plan.sheets.len() >= least, "bound {} of {least}", plan.bound);
        proved += least;
        found += plan.sheets.len();
    }
    assert!(found <= proved + 2, "{found} sheets where {proved} are enough");
}

#[test]
fn a_piece_of_the_trimmed_sheets_size_fits_and_one_micrometre_more_does_not() {
    let fits = |length| {
        let plan = nest(&request(&[(2440.0, 1220.0)], 3.2, 10.0, vec![piece(length, 1200.0, 1, Turn::Free)]));
        plan.too_large.is_empty()
    };
    assert!(fits(2420.0));
    assert!(!fits(2420.001));
}

/// By hand: pieces of more than half the sheet in both directions never share a sheet, whatever their area.
#[test]
fn the_bound_sees_more_than_area() {
    let plan = nest(&request(&[(100.0, 100.0)], 0.0, 0.0, vec![piece(51.0, 51.0, 7, Turn::Free)]));
    assert_eq!((plan.bound, plan.sheets.len()), (7, 7));
}

#[test]
fn absurd_requests_are_answered() {
    let odd = [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e300];
    let pieces: Vec<Piece> = odd.iter().map(|size| piece(*size, 100.0, 2, Turn::Free)).collect();
    let plan = nest(&request(&[(2440.0, 1220.0)], 3.2, 10.0, pieces.clone()));
    assert_eq!((plan.sheets.len(), plan.too_large.len()), (0, odd.len()));
    for size in odd {
        let plan = nest(&request(&[(size, 1220.0)], size, size, vec![piece(100.0, 100.0, 1, Turn::Free)]));
        assert!(plan.bound <= plan.sheets.len());
    }
    let none = nest(&request(&[], 3.2, 10.0, vec![piece(100.0, 100.0, 1, Turn::Free)]));
    assert_eq!(none.too_large, [0]);
    let many = nest(&request(&[(2440.0, 1220.0)], 3.2, 10.0, vec![piece(1000.0, 1000.0, u32::MAX, Turn::Free)]));
    assert_eq!(many.unplaced, u32::MAX as usize - MOST_PIECES);
}

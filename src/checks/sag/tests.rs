//! Sags by hand.

use super::*;
use crate::checks::testing::{block, box3};
use crate::joinery::fixture::part;
use crate::model::{Place, Toward, materials};

fn piece(name: &str, at: Box3, load: Option<f64>) -> Part {
    let toward = |axis| Toward { axis, up: true };
    let lies = Lies { length: toward(Axis::X), width: toward(Axis::Y), face: toward(Axis::Z) };
    Part {
        thickness: at.z.1 - at.z.0,
        places: vec![Place { solid: at.into(), lies: Some(lies) }],
        load,
        ..part(name, 1, at.x.1 - at.x.0, at.y.1 - at.y.0)
    }
}

fn shelf_on(supports: &[Box3]) -> Option<Bent> {
    let mut module = block("shelf", box3((0.0, 1000.0), (0.0, 300.0), (0.0, 400.0)));
    let board = piece("board", box3((0.0, 1000.0), (0.0, 300.0), (200.0, 215.0)), Some(50.0));
    module.parts = supports.iter().map(|at| piece("support", *at, None)).collect();
    module.parts.push(board.clone());
    worst(&module, &board, &materials::material("poplar-ply-15").unwrap().stock("carcass"))
}

fn upright(x: f64) -> Box3 {
    box3((x, x + 15.0), (0.0, 300.0), (0.0, 200.0))
}

/// By hand: 970 mm between two uprights; 50 kg/m2 and 450 kg/m3 x 15 mm = 6.75 kg/m2 make 556.7e-6 N/mm2; of a strip 1 mm
/// wide I = 15^3 / 12 = 281.25 mm4; 5 x 556.7e-6 x 970^4 / (384 x 5500 x 281.25) = 4.149 mm.
#[test]
fn a_shelf_on_two_uprights() {
    let bent = shelf_on(&[upright(0.0), upright(985.0)]).unwrap();
    assert!((bent.span - 970.0).abs() < 1e-9 && (bent.sag - 4.149).abs() < 0.001, "{} {}", bent.span, bent.sag);
}

#[test]
fn a_third_upright_or_two_rails_along_it_shorten_the_span() {
    assert!((shelf_on(&[upright(0.0), upright(500.0), upright(985.0)]).unwrap().span - 485.0).abs() < 1e-9);
    let rail = |y: f64| box3((0.0, 1000.0), (y, y + 15.0), (110.0, 200.0));
    assert!((shelf_on(&[upright(0.0), upright(985.0), rail(0.0), rail(285.0)]).unwrap().span - 270.0).abs() < 1e-9);
}

#[test]
fn what_rests_at_one_place_has_no_span() {
    assert!(shelf_on(&[upright(0.0)]).is_none() && shelf_on(&[]).is_none());
}

#[test]
fn a_board_between_two_others_rests_on_them() {
    let end = |x: f64| box3((x, x + 15.0), (0.0, 300.0), (0.0, 400.0));
    assert!((shelf_on(&[end(-15.0), end(1000.0)]).unwrap().span - 1000.0).abs() < 1e-9);
}

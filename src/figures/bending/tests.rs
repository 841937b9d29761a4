//! Sags by hand.

use super::*;
use crate::checks::testing::{block, box3};
use crate::joinery::fixture::part;
use crate::joints::put_together;
use crate::model::{Place, Toward, materials};

fn piece(name: &str, at: Box3, [length, width, face]: [Axis; 3], load: Option<f64>) -> Part {
    let toward = |axis| Toward { axis, up: true };
    let size = |axis: Axis| at.range(axis).1 - at.range(axis).0;
    let lies = Lies { length: toward(length), width: toward(width), face: toward(face) };
    Part {
        thickness: size(face),
        places: vec![Place { solid: at.into(), lies: Some(lies) }],
        load,
        ..part(name, 1, size(length), size(width))
    }
}

const FLAT: [Axis; 3] = [Axis::X, Axis::Y, Axis::Z];
const UPRIGHT: [Axis; 3] = [Axis::Z, Axis::Y, Axis::X];

fn stock() -> Stock {
    materials::material("poplar-ply-15").unwrap().stock("carcass")
}

fn found(parts: Vec<Part>) -> Bending {
    let mut module = block("shelf", box3((0.0, 1000.0), (0.0, 300.0), (0.0, 400.0)));
    let stocks = [stock()];
    let pose = &mut module.poses[0];
    pose.solids.clear();
    let (parts, _, together) = put_together(parts, pose, &stocks, Wall::Right);
    (module.parts, module.together) = (parts, together);
    bending(&module, &stocks, &[])
}

fn shelf() -> Part {
    piece("board", box3((0.0, 1000.0), (0.0, 300.0), (200.0, 215.0)), FLAT, Some(50.0))
}

fn shelf_on(supports: &[Box3]) -> Bending {
    let supports = supports.iter().map(|at| piece("support", *at, UPRIGHT, None));
    found(std::iter::once(shelf()).chain(supports).collect())
}

fn upright(x: f64) -> Box3 {
    box3((x, x + 15.0), (0.0, 300.0), (0.0, 200.0))
}

/// An upright that stands, as the height of 400 is more than its depth of 300.
fn side(x: f64) -> Box3 {
    box3((x, x + 15.0), (0.0, 300.0), (-100.0, 400.0))
}

/// By hand: 970 mm between two uprights; 50 kg/m2 and 450 kg/m3 x 15 mm = 6.75 kg/m2 make 556.7e-6 N/mm2; of a strip 1 mm
/// wide I = 15^3 / 12 = 281.25 mm4; 5 x 556.7e-6 x 970^4 / (384 x 5500 x 281.25) = 4.149 mm.
#[test]
fn a_shelf_on_two_uprights() {
    let found = shelf_on(&[upright(0.0), upright(985.0)]);
    let bent = &found.bent[0];
    assert!((bent.span - 970.0).abs() < 1e-9 && (bent.sag - 4.149).abs() < 0.002, "{bent:?}");
    assert_eq!(bent.carries, Carries::Stated(50.0));
}

#[test]
fn a_third_upright_or_two_rails_along_it_shorten_the_span() {
    assert!((shelf_on(&[upright(0.0), upright(500.0), upright(985.0)]).bent[0].span - 485.0).abs() < 1e-9);
    let rail =
        |y: f64| piece("rail", box3((0.0, 1000.0), (y, y + 15.0), (110.0, 200.0)), [Axis::X, Axis::Z, Axis::Y], None);
    let sides = [0.0, 985.0].map(|x| piece("side", upright(x), UPRIGHT, None));
    let all = [shelf(), rail(0.0), rail(285.0)].into_iter().chain(sides).collect();
    assert!((found(all).bent[0].span - 270.0).abs() < 1e-9);
}

#[test]
fn what_rests_at_one_place_is_not_known() {
    let post = box3((0.0, 15.0), (0.0, 300.0), (-200.0, 200.0));
    for supports in [vec![post], vec![]] {
        let found = shelf_on(&supports);
        assert!(found.bent.is_empty() && found.unheld == [PieceAt { part: 0, place: 0 }], "{found:?}");
    }
}

#[test]
fn a_board_between_two_others_is_screwed_to_them() {
    assert!((shelf_on(&[side(-15.0), side(1000.0)]).bent[0].span - 1000.0).abs() < 1e-9);
    let loose = crate::model::Chosen { by: crate::model::JointWord::Glue, diameter: None, length: None, pitch: None };
    let shelf = Part { joint: Some(loose), ..shelf() };
    let sides = [-15.0, 1000.0].map(|x| piece("side", side(x), UPRIGHT, None));
    assert_eq!(found(std::iter::once(shelf).chain(sides).collect()).unheld.len(), 1, "glue alone carries nothing");
}

/// By hand: half of the shelf, (50 + 6.75) kg/m2 x 0.3 m2 / 2 = 8.5125 kg, and its own 450 kg/m3 x 15 x 300 x 90 mm = 0.18225 kg
/// lie on each joist of 300 mm: 8.69475 x 9.81 / 300 = 0.28432 N/mm over 270 mm between its posts; I = 15 x 90^3 / 12.
#[test]
fn joists_carry_the_shelf() {
    let joist =
        |x: f64| piece("joist", box3((x, x + 15.0), (0.0, 300.0), (110.0, 200.0)), [Axis::Y, Axis::Z, Axis::X], None);
    let post = |x: f64, y: f64| piece("post", box3((x, x + 15.0), (y, y + 15.0), (0.0, 110.0)), UPRIGHT, None);
    let mut parts = vec![shelf()];
    for x in [0.0, 985.0] {
        parts.extend([joist(x), post(x, 0.0), post(x, 285.0)]);
    }
    let found = found(parts);
    let (along, across) = stock().stiffness.unwrap();
    let inertia = 15.0 * 90.0_f64.powi(3) / 12.0;
    let by_hand = 5.0 * 0.28432 * 270.0_f64.powi(4) / (384.0 * f64::midpoint(along, across) * inertia);
    let joists: Vec<&Bent> = found.bent.iter().filter(|bent| matches!(bent.carries, Carries::Handed(_))).collect();
    assert_eq!(joists.len(), 2, "{found:?}");
    for bent in joists {
        assert!((bent.sag / by_hand - 1.0).abs() < 1e-3 && (bent.span - 270.0).abs() < 1e-9, "{bent:?} {by_hand}");
        let Carries::Handed(mass) = bent.carries else { panic!("handed down") };
        assert!((mass - 8.5125).abs() < 0.01, "{mass}");
    }
}

fn on_ends(at: &[f64]) -> Beam<usize> {
    let rest = |(on, x): (usize, &f64)| Rest { at: box3((*x, *x), (0.0, 100.0), (0.0, 10.0)), on };
    Beam { axis: Axis::X, range: (0.0, 1000.0), stiffness: 1e9, rests: at.iter().enumerate().map(rest).collect() }
}

/// Handbook formulas of a simply supported beam, E I = 1e9 N mm2, 100 N over 1 m: in the middle P L^3 / 48 E I = 2.0833 mm;
/// at a quarter the greatest sag P b (L^2 - b^2)^1.5 / (9 sqrt(3) L E I) = 1.4558 mm; spread 5 P L^3 / 384 E I = 1.3021 mm.
#[test]
fn sags_of_handbooks() {
    let beam = on_ends(&[0.0, 1000.0]);
    for (force, sag) in [((500.0, 500.0), 2.0833), ((250.0, 250.0), 1.4558), ((0.0, 1000.0), 1.3021)] {
        let (span, found) = beam.worst_span(&[(force, 100.0)]).unwrap();
        assert!((found - sag).abs() < 5e-4 && span == 1000.0, "{force:?}: {found} {sag}");
    }
}

/// By the lever: 100 N at 200 between supports at 0 and 500 are 60 and 40; what lies beyond the last support goes to it.
#[test]
fn forces_are_handed_down_by_the_lever() {
    let taken = |at: &[f64], force: f64| {
        on_ends(at).handed_down(&[((force, force), 100.0)]).into_iter().map(|(_, newton)| newton).collect::<Vec<_>>()
    };
    assert_eq!(taken(&[0.0, 500.0, 1000.0], 200.0), [60.0, 40.0, 0.0]);
    assert_eq!(taken(&[0.0, 500.0], 900.0), [0.0, 100.0]);
    assert_eq!(taken(&[0.0, 500.0, 500.0], 500.0), [0.0, 50.0, 50.0]);
}

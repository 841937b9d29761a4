//! A beam with an overhang, by the textbook's formulas.

use super::*;
use crate::model::Steel;

const TUBE: Rails = Rails { height: 120.0, width: 60.0, wall: 5.0, steel: Steel::S235 };

fn near(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() <= wanted.abs() / 1000.0
}

/// A worked example that a finite element program agrees with: a tube of 60 x 120 x 5 mm on supports 2,400 mm apart, 900 mm beyond the second,
/// 6 N/mm. I = 3,094,167 mm4, R = 6,187.5 and 13,612.5 N, greatest moment 3.190 kN m at 1,031 mm (R1^2 / 2 q), stress 61.9 N/mm2, 2.643 mm down
/// in the middle and 1.337 mm up at the tip.
#[test]
fn a_beam_with_an_overhang_bends_as_the_formulas_say() {
    let spread = Spread::of((0.0, 3300.0), 6.0 * 3300.0, 1650.0);
    let found = beam(spread, &[(0.0, 6187.5), (2400.0, 13_612.5)], &TUBE);
    assert!(near(found.inertia, 3_094_167.0) && near(found.moment, 3.190_43e6) && near(found.stress, 61.87));
    assert!((found.at - 1031.25).abs() <= 2.0 && (found.bend - 2.65).abs() <= 0.02, "{found:?}");
    assert!(found.stress * 2.5 < Steel::S235.yields() / 1.5);
    let hogging = -spread.moment(2400.0) + 6187.5 * 2400.0;
    assert!(near(hogging, -2.43e6), "{hogging}");
}

/// A plain beam bends 5 q L^4 / 384 E I.
#[test]
fn a_plain_beam_sags_in_its_middle() {
    let spread = Spread::of((0.0, 3000.0), 3000.0, 1500.0);
    let found = beam(spread, &[(0.0, 1500.0), (3000.0, 1500.0)], &TUBE);
    let wanted = 5.0 * 3000.0_f64.powi(4) / (384.0 * ELASTIC * found.inertia);
    assert!(near(found.bend, wanted) && near(found.moment, 3000.0 * 3000.0 / 8.0), "{found:?} {wanted}");
}

/// A load that grows along the beam meets mass and centre.
#[test]
fn a_spread_load_has_the_mass_and_the_centre() {
    let spread = Spread::of((500.0, 4500.0), 10_000.0, 2700.0);
    // Its moment about a place behind it is force x lever.
    assert!(near(spread.moment(6500.0), 10_000.0 * (6500.0 - 2700.0)));
}

//! Sides by moments about the middle.

use super::*;
use crate::checks::testing::{met, on_wheels, run};

/// A centre `e` beside the middle puts `1/2 + e / t` of an axle on one side, so the difference is `2 e / t` of it: on the
/// narrower track of 1,660 mm 4 % at 33.2 mm.
#[test]
fn the_narrower_track_decides() {
    let beside = |right: f64| {
        let mut model = on_wheels();
        model.vehicle.as_mut().unwrap().bare_right = right;
        model
    };
    assert!((met(&SideBalance, &beside(33.2)).unwrap().1 - 4.0).abs() < 1e-9);
    for right in [41.5, -41.5] {
        let found = run(&SideBalance, &beside(right));
        assert_eq!((found.len(), found[0].severity), (1, Severity::Caution));
        assert!((found[0].measured.as_ref().unwrap().value - 5.0).abs() < 1e-9);
        let side = if right > 0.0 { "the right wheels" } else { "the left wheels" };
        assert!(found[0].message.starts_with(side), "{}", found[0].message);
    }
}

//! Mounts by hand.

use super::*;
use crate::model::testing::subframe;
use proptest::prelude::*;

fn on(mounts: Mounts, apart: f64) -> Subframe {
    Subframe { apart, ..subframe(mounts) }
}

/// Barycentric weights of the centre in the triangle of mounts (0, -400), (0, 400), (3200, 0): 3,200 kg at (1400, 60) are 660, 1,140
/// and 1,400 kg.
#[test]
fn three_mounts_share_by_barycentric_weights() {
    let subframe = on(Mounts::ThreePoint { fixed: 0.0, pivot: 3200.0 }, 800.0);
    let found = mounts(&subframe, &Rider { mass: 3200.0, x: 1400.0, y: 60.0 });
    let loads: Vec<f64> = found.iter().map(|mount| mount.carries).collect();
    assert!(loads.iter().zip([1400.0, 660.0, 1140.0]).all(|(a, b)| (a - b).abs() < 1e-9), "{loads:?}");
}

/// Equal supports under a body whose centre is in their middle: a quarter each, half on the pair.
#[test]
fn four_mounts_share_evenly_in_the_middle() {
    let subframe = on(Mounts::FourPoint { sides: 2000.0, pivots: (500.0, 3500.0) }, 800.0);
    let found = mounts(&subframe, &Rider { mass: 2000.0, x: 2000.0, y: 0.0 });
    assert!(found.iter().all(|mount| (mount.carries - 500.0).abs() < 1e-9), "{found:?}");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// The mounts carry all of it, and their moments about both axes are those of the box.
    #[test]
    fn mounts_hold_the_box_in_balance(kind in 0..3, mass in 500.0..6000.0, x in 0.0..5000.0, y in -200.0..200.0) {
        let spring = crate::model::Spring { rate: 50.0, preload: 2000.0, travel: 80.0 };
        let mounts_of = match kind {
            0 => Mounts::ThreePoint { fixed: 3300.0, pivot: 700.0 },
            1 => Mounts::FourPoint { sides: 2500.0, pivots: (700.0, 4100.0) },
            _ => Mounts::Springs { fixed: 3300.0, at: 800.0, spring },
        };
        let found = mounts(&on(mounts_of, 850.0), &Rider { mass, x, y });
        let sum = |of: fn(&Mount) -> f64| found.iter().map(of).sum::<f64>();
        prop_assert!((sum(|mount| mount.carries) - mass).abs() < 1e-6);
        prop_assert!((sum(|mount| mount.carries * mount.x) - mass * x).abs() < 1e-3);
        prop_assert!((sum(|mount| mount.carries * mount.y) - mass * y).abs() < 1e-3);
    }
}

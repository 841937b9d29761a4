//! The worst side against every state there is.

use super::*;
use crate::geometry::Point3;
use crate::model::testing::{model, space, vehicle};
use proptest::prelude::*;

fn mass(group: Group, mass: f64, x: f64, y: f64) -> Mass {
    Mass { name: "item".to_owned(), group, mass, at: Point3 { x, y, z: 500.0 }, span: None }
}

fn items() -> impl Strategy<Value = Vec<Mass>> {
    let groups = prop::sample::select(vec![Group::Contents, Group::Cargo, Group::Thing(true), Group::Fittings]);
    let one = (groups, 1.0..400.0, 0.0..4000.0, 0.0..2000.0);
    prop::collection::vec(one, 1..9)
        .prop_map(|all| all.into_iter().map(|(group, m, x, y)| mass(group, m, x, y)).collect())
}

/// The greatest difference over sum of one axle, percent, by trying all subsets.
fn by_trying(vehicle: &Vehicle, list: &[Mass], rear: bool) -> f64 {
    let model = model(space(4000.0, 2000.0, 2000.0));
    let free: Vec<usize> = (0..list.len()).filter(|at| !always(list[*at].group)).collect();
    let mut most: f64 = 0.0;
    for state in 0..1_u32 << free.len() {
        let out = |at: usize| free.iter().position(|one| *one == at).is_some_and(|bit| state & (1 << bit) == 0);
        let aboard =
            (0..list.len()).filter(|at| !out(*at)).map(|at| on_supports(&model, vehicle, &list[at])[usize::from(rear)]);
        let (load, side) = aboard.fold((0.0, 0.0), |(load, side), one| (load + one.load, side + one.side));
        let track = if rear { vehicle.rear.track } else { vehicle.front.track };
        most = most.max((200.0 * side / track / load).abs());
    }
    most
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_state_leans_more(list in items()) {
        let vehicle = vehicle();
        let bare = [mass(Group::Vehicle, 2000.0, -600.0, 980.0), mass(Group::Vehicle, 1800.0, 3500.0, 1010.0)];
        let list: Vec<Mass> = bare.into_iter().chain(list).collect();
        let found = worst_side(&model(space(4000.0, 2000.0, 2000.0)), &vehicle, &list).map(|worst| worst.lean);
        let tried = by_trying(&vehicle, &list, false).max(by_trying(&vehicle, &list, true));
        if let Some(found) = found {
            prop_assert!((found - tried).abs() < 1e-9, "{found} {tried}");
        }
    }
}

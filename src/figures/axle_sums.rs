//! The sum of moments of a load case, worked out.

use crate::base::number::trimmed;
use crate::diagnostic::Worked;
use crate::model::Vehicle;
use crate::vehicle::{LoadCase, Mass, Weighed};

/// Where the limits of axles come from.
pub(crate) const PAPERS: &str = "papers of the vehicle, as the layout gives them";

/// The sum of one load case: the heaviest things one by one, the rest together.
pub(crate) fn sum(vehicle: &Vehicle, case: &LoadCase, weighed: &Weighed) -> Worked {
    const SHOWN: usize = 12;
    let kg = |value: f64| format!("{} kg", trimmed(value, 1));
    let moment = |item: &Mass| item.mass * vehicle.along(item.at.x);
    let mut items: Vec<&Mass> = case.aboard.iter().collect();
    items.sort_by(|a, b| b.mass.total_cmp(&a.mass));
    let mut worked = Worked::new(format!("Load case `{}`: {}", case.name, case.says));
    for item in items.iter().take(SHOWN) {
        let figures = format!("{} x {} mm", kg(item.mass), trimmed(vehicle.along(item.at.x), 0));
        worked = worked.step(
            &format!("{} ({})", item.name, item.group.words()),
            ["", &figures],
            format!("{} kg mm", trimmed(moment(item), 0)),
            "",
        );
    }
    let rest = items.iter().skip(SHOWN);
    let (mass, turn) = rest.fold((0.0, 0.0), |(mass, turn), item| (mass + item.mass, turn + moment(item)));
    let (front, rear) = (vehicle.kind.front_words(), "rear axle");
    let (all, wheelbase) = (trimmed(weighed.moment, 0), trimmed(vehicle.wheelbase, 0));
    worked
        .given(
            &format!("{} smaller things, {}", items.len().saturating_sub(SHOWN), kg(mass)),
            format!("{} kg mm", trimmed(turn, 0)),
            "",
        )
        .given("all", format!("{}, {all} kg mm", kg(weighed.total)), "the layout's masses; X from the front support")
        .step(
            rear,
            ["sum(m X) / wheelbase", &format!("{all} / {wheelbase}")],
            kg(weighed.rear),
            "moments about the front support",
        )
        .step(
            front,
            ["sum(m) - rear", &format!("{} - {}", trimmed(weighed.total, 1), trimmed(weighed.rear, 1))],
            kg(weighed.front),
            "",
        )
        .given("limits", format!("{} {}, {} {}", front, kg(vehicle.front.limit), rear, kg(vehicle.rear.limit)), PAPERS)
}

//! Tables of the vehicle's sheets: outside size, load cases, masses by kind, largest masses.

use super::report::Report;
use crate::base::number::{mm, trimmed};
use crate::vehicle::{self, Group, Held, Mass, Weighed, held, on_slope, size_limits};
use crate::views::kit::flexible::Flexible;
use std::borrow::Cow;
use std::collections::BTreeMap;

/// How many of the largest masses are listed.
const LARGEST: usize = 24;

/// Outside size with what the region allows.
pub(super) fn outside(report: &Report<'_>) -> Flexible {
    let size = vehicle::outside(report.model, report.vehicle);
    let limits = size_limits(report.vehicle);
    let row = |name: &str, value: f64, limit: f64| {
        let most = if limit.is_finite() { mm(limit) } else { "-".to_owned() };
        vec![name.to_owned(), mm(value), most]
    };
    let rows = vec![
        row("length", size.length, limits.length),
        row("width", size.width, limits.width),
        row("height", size.height, limits.height),
        row("rear overhang", size.overhang, size.most_overhang),
        vec![limits.source.to_owned(), String::new(), String::new()],
    ];
    let columns = [("outside", -1.0, false), ("size", 24.0, true), ("at most", 24.0, true)];
    Flexible::new("Outside size", &columns, rows).at_least(70.0)
}

/// All load cases with their axle loads.
pub(super) fn cases(report: &Report<'_>) -> Flexible {
    let kg = |value: f64| trimmed(value, 0);
    let row = |(case, weighed): (&vehicle::LoadCase, &Weighed)| {
        let front =
            weighed.front_sides.map_or_else(|| "-".to_owned(), |(left, right)| format!("{} / {}", kg(left), kg(right)));
        let group: Vec<String> = weighed.group.iter().map(|load| kg(*load)).collect();
        vec![
            case.name.clone(),
            case.says.clone(),
            kg(weighed.total),
            kg(report.vehicle.gross - weighed.total),
            kg(weighed.front),
            group.join(" + "),
            front,
            format!("{} / {}", kg(weighed.rear_sides.0), kg(weighed.rear_sides.1)),
            trimmed(weighed.lean(), 1),
            trimmed(weighed.front_share(), 1),
            trimmed(weighed.centre.z, 0),
            trimmed(weighed.stability(), 2),
            trimmed(weighed.tips_at(), 1),
        ]
    };
    let rows = report.cases.iter().zip(report.weighed).map(row).collect();
    let columns = [
        ("case", 30.0, false),
        ("what is aboard", -1.0, false),
        ("mass, kg", 16.0, true),
        ("left of gross, kg", 20.0, true),
        ("front axle or coupling, kg", 20.0, true),
        ("rear, kg", 22.0, true),
        ("front left / right, kg", 26.0, true),
        ("rear left / right, kg", 26.0, true),
        ("sides differ, %", 18.0, true),
        ("front share, %", 18.0, true),
        ("centre, mm high", 20.0, true),
        ("stability factor", 18.0, true),
        ("tips at, °", 16.0, true),
    ];
    Flexible::new("Load cases", &columns, rows)
}

/// Wheel loads on the side slope; nothing without one.
pub(super) fn slope(report: &Report<'_>) -> Option<Flexible> {
    let kg = |value: f64| trimmed(value, 0);
    let row = |weighed: &Weighed| {
        let cells = on_slope(report.vehicle, weighed).into_iter().flat_map(|one| [kg(one.uphill), kg(one.downhill)]);
        std::iter::once(weighed.case.clone()).chain(cells).collect::<Vec<String>>()
    };
    let first = report.weighed.first()?;
    let mut columns = vec![("case, kg", -1.0, false)];
    for one in on_slope(report.vehicle, first) {
        let (up, down) = match (one.axle, one.falls) {
            ("front axle", "right") => ("falls right: front left", "front right"),
            ("front axle", _) => ("falls left: front right", "front left"),
            (_, "right") => ("falls right: rear left", "rear right"),
            _ => ("falls left: rear right", "rear left"),
        };
        columns.extend([(up, 26.0, true), (down, 20.0, true)]);
    }
    let title = format!("Wheel loads on ground that slopes {}° across", trimmed(report.vehicle.side_slope, 1));
    (columns.len() > 1).then(|| Flexible::new(&title, &columns, report.weighed.iter().map(row).collect()))
}

/// Mounts of the subframe in every case; nothing without one.
pub(super) fn mounts(report: &Report<'_>) -> Option<Flexible> {
    let all = held(report.model, report.vehicle, report.cases);
    let first = all.first()?;
    let mut columns: Vec<(Cow<'static, str>, f64, bool)> = vec![("case, kg at rest".into(), -1.0, false)];
    columns.extend(first.mounts.iter().map(|mount| (mount.name.clone().into(), 30.0, true)));
    let rails = first.rail.is_some();
    if rails {
        columns.extend([("stress of a rail, N/mm2".into(), 34.0, true), ("it bends, mm".into(), 24.0, true)]);
    }
    let row = |held: &Held| {
        let mounts = held.mounts.iter().map(|mount| trimmed(mount.carries, 0));
        let rail = held.rail.iter().flat_map(|rail| [trimmed(rail.stress, 1), trimmed(rail.bend, 1)]);
        std::iter::once(held.case.clone()).chain(mounts).chain(rail).collect::<Vec<String>>()
    };
    Some(Flexible::with("Mounts of the subframe", columns, all.iter().map(row).collect()))
}

/// Masses by kind in every case.
pub(super) fn groups(report: &Report<'_>) -> Flexible {
    let mut sums: BTreeMap<usize, (&str, BTreeMap<usize, f64>)> = BTreeMap::new();
    for (case, load) in report.cases.iter().enumerate() {
        for item in &load.aboard {
            let entry = sums.entry(order(item.group)).or_insert((item.group.words(), BTreeMap::new()));
            *entry.1.entry(case).or_default() += item.mass;
        }
    }
    let count = report.cases.len();
    let row = |(words, by_case): &(&str, BTreeMap<usize, f64>)| {
        let cells = (0..count).map(|case| by_case.get(&case).map_or_else(|| "-".to_owned(), |mass| trimmed(*mass, 1)));
        std::iter::once((*words).to_owned()).chain(cells).collect()
    };
    let mut rows: Vec<Vec<String>> = sums.values().map(row).collect();
    let totals = report.weighed.iter().map(|weighed| trimmed(weighed.total, 1));
    rows.push(std::iter::once("sum".to_owned()).chain(totals).collect());
    let mut turned: Vec<Vec<String>> = Vec::new();
    for (case, load) in report.cases.iter().enumerate() {
        let cells = rows.iter().filter_map(|row| row.get(case + 1).cloned());
        turned.push(std::iter::once(load.name.clone()).chain(cells).collect());
    }
    let heads: Vec<&'static str> = sums.values().map(|(words, _)| *words).collect();
    let mut columns = vec![("case, kg", -1.0, false)];
    columns.extend(heads.iter().map(|head| (*head, 24.0, true)));
    columns.push(("sum", 24.0, true));
    Flexible::new("Masses by kind", &columns, turned)
}

/// Kinds in their order, tanks and people each together.
fn order(group: Group) -> usize {
    match group {
        Group::Vehicle => 0,
        Group::Shell => 1,
        Group::Parts => 2,
        Group::Fittings => 3,
        Group::Allowance => 4,
        Group::Contents => 5,
        Group::Cargo => 6,
        Group::Tank(_) => 7,
        Group::Thing(_) => 8,
        Group::Person(_) => 9,
    }
}

/// The largest masses of the full case, equal names together, with what they put on the rear axle.
pub(super) fn largest(report: &Report<'_>) -> Flexible {
    let full = report.cases.iter().find(|case| case.name == "full");
    let mut sums: Vec<(String, &Mass, f64, f64)> = Vec::new();
    for item in full.into_iter().flat_map(|case| &case.aboard) {
        let name = item.name.split(',').next().unwrap_or(&item.name).to_owned();
        let turn = item.mass * report.vehicle.along(item.at.x);
        match sums.iter_mut().find(|(known, of, ..)| *known == name && of.group == item.group) {
            Some((_, _, mass, moment)) => (*mass, *moment) = (*mass + item.mass, *moment + turn),
            None => sums.push((name, item, item.mass, turn)),
        }
    }
    sums.sort_by(|a, b| b.2.total_cmp(&a.2));
    let rows = sums.into_iter().take(LARGEST).map(|(name, item, mass, moment)| {
        let rear = moment / report.vehicle.wheelbase;
        vec![
            name,
            item.group.words().to_owned(),
            trimmed(mass, 1),
            trimmed(moment / mass, 0),
            trimmed(mass - rear, 1),
            trimmed(rear, 1),
        ]
    });
    let columns = [
        ("what", -1.0, false),
        ("kind", 40.0, false),
        ("mass, kg", 24.0, true),
        ("behind the front support, mm", 44.0, true),
        ("on the front, kg", 30.0, true),
        ("on the rear, kg", 30.0, true),
    ];
    Flexible::new("Largest masses of the case full, and what each puts on the axles", &columns, rows.collect())
}

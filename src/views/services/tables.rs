//! Tables of the services.

use crate::base::number::{mm, trimmed};
use crate::model::{Model, Word};
use crate::services::{day, drop, fall, nominal, water};
use crate::views::kit::flexible::Flexible;
use std::collections::BTreeMap;

/// What is said on every sheet of the services.
pub(super) const CAUTION: &str =
    "Design aid: electrical work, gas and water are for licensed people and the local code.";

/// Cables and pipes with their numbers.
pub(super) fn ways(model: &Model) -> Flexible {
    let services = &model.services;
    let volts = nominal(model);
    let cables = services.cables.iter().map(|cable| {
        let found = drop(cable, volts);
        [
            cable.name.clone(),
            format!("cable, {} mm², class {}", trimmed(cable.section, 2), cable.class),
            cable.run.ends.join(" to "),
            format!("{} m", trimmed(found.length, 2)),
            format!("{} A", trimmed(cable.amps, 1)),
            format!(
                "{} V, {} % lost{}",
                trimmed(found.volts, 2),
                trimmed(found.percent, 1),
                if cable.critical { ", critical" } else { "" }
            ),
        ]
    });
    let wastes = services.wastes.iter().map(|waste| {
        let found = fall(waste);
        [
            waste.name.clone(),
            format!("waste pipe, bore {}", mm(waste.bore)),
            waste.run.ends.join(" to "),
            format!("{} m", trimmed(waste.run.length() / 1000.0, 2)),
            String::new(),
            format!("falls {}, {} %", mm(found.drop), trimmed(found.percent, 1)),
        ]
    });
    let numbered = cables.chain(wastes).enumerate();
    let rows = numbered.map(|(index, row)| std::iter::once((index + 1).to_string()).chain(row).collect());
    let columns = [
        ("no.", 9.0, true),
        ("name", 28.0, false),
        ("what", 48.0, false),
        ("from and to", -1.0, false),
        ("length", 20.0, true),
        ("current", 18.0, true),
        ("drop or fall", 50.0, false),
    ];
    Flexible::new("Cables and waste pipes", &columns, rows.collect())
}

/// Tanks, and how long the water lasts.
pub(super) fn tanks(model: &Model) -> Flexible {
    let mut rows: Vec<Vec<String>> = Vec::new();
    for load in &model.loads {
        let Some(tank) = load.tank else { continue };
        let [x, y, z] = tank.size.map(|side| trimmed(side, 1));
        let at = [load.at.x, load.at.y, load.at.z].map(|value| trimmed(value, 1)).join(", ");
        let fill = tank.fill.map(|share| format!("{} %", trimmed(share * 100.0, 0))).join(" / ");
        let litres = format!("{} l", trimmed(tank.litres(), 0));
        rows.push(vec![load.name.clone(), tank.holds.words(), format!("{x} × {y} × {z}"), at, litres, fill]);
    }
    if let Some(water) = water(model) {
        let lasts = format!("{} l a day: {} days of fresh water", trimmed(water.daily, 1), trimmed(water.days, 1));
        rows.push(["use".to_owned(), lasts, String::new(), String::new(), String::new(), String::new()].into());
    }
    let columns = [
        ("tank", 36.0, false),
        ("holds", -1.0, false),
        ("inside size, mm", 40.0, false),
        ("middle at x, y, z", 40.0, false),
        ("volume", 20.0, true),
        ("empty / running / full", 40.0, false),
    ];
    Flexible::new("Tanks", &columns, rows)
}

/// Energy of a day.
pub(super) fn energy(model: &Model) -> Flexible {
    let mut rows: Vec<Vec<String>> = model
        .services
        .consumers
        .iter()
        .map(|one| {
            let wh = trimmed(one.watts * one.hours, 0);
            vec![one.name.clone(), trimmed(one.watts, 1), trimmed(one.hours, 2), wh]
        })
        .collect();
    if let Some(day) = day(model) {
        let row = |what: &str, wh: f64| vec![what.to_owned(), String::new(), String::new(), trimmed(wh, 0)];
        rows.push(row("used in a day", day.used));
        rows.push(row("comes in on a day", day.charged));
        rows.push(row("usable in the battery", day.stored));
        if day.used > 0.0 {
            rows.push(vec![
                "days without anything coming in".to_owned(),
                String::new(),
                String::new(),
                trimmed(day.stored / day.used, 1),
            ]);
        }
    }
    let columns = [("consumer", -1.0, false), ("W", 24.0, true), ("h a day", 24.0, true), ("Wh", 24.0, true)];
    Flexible::new("Energy", &columns, rows)
}

/// What each module is joined to.
pub(super) fn connections(model: &Model) -> Flexible {
    let mut all: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for module in &model.modules {
        for connection in &module.connects {
            all.entry(connection.service.name()).or_default().push(&module.name);
        }
    }
    let rows = all.into_iter().map(|(service, modules)| vec![service.to_owned(), modules.join(", ")]);
    Flexible::new("Connections", &[("service", 40.0, false), ("modules", -1.0, false)], rows.collect())
}

/// What the figures are worth.
pub(super) fn caution() -> Flexible {
    Flexible::new("Caution", &[("", -1.0, false)], vec![vec![CAUTION.to_owned()]])
}

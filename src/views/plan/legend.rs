//! The tables of a plan: its modules, and the findings that hold in it.

use crate::base::number::trimmed;
use crate::diagnostic::Finding;
use crate::drawing::text_width;
use crate::model::{Model, Module, PoseState, Wall};
use crate::views::kit::flexible::LETTERS;
use crate::views::kit::flexible::{CELL, Flexible};
use crate::views::kit::numbers::holds_in;
use crate::views::kit::scene::Scene;
use crate::views::kit::words::sentence;
use crate::views::plan::chains::numbered;

/// Least width of the findings, mm.
const NARROW: f64 = 62.0;

/// The modules of an arrangement, with what each is in words.
pub(in crate::views) fn modules(scene: &Scene<'_>) -> Flexible {
    let rows = numbered(scene).map(|(number, module, state)| {
        vec![number.to_string(), module.name.clone(), module.says.clone(), size(module), pose(module, state)]
    });
    let columns =
        [NUMBER, ("module", name_width(scene), false), ("what it is", -1.0, false), SIZE, ("pose", 17.0, false)];
    Flexible::new("Modules", &columns, rows.collect()).leading(module_links(scene))
}

/// The modules of an arrangement in a table as narrow as can be.
pub(in crate::views) fn compact_modules(scene: &Scene<'_>) -> Flexible {
    let rows: Vec<Vec<String>> = numbered(scene)
        .map(|(number, module, state)| vec![number.to_string(), module.name.clone(), size(module), pose(module, state)])
        .collect();
    let (sizes, poses) = (widest(&rows, 2, "size"), widest(&rows, 3, "pose"));
    let least = 7.0 + name_width(scene) + sizes + poses;
    let columns = [("no.", 7.0, true), ("module", -1.0, false), ("size", sizes, false), ("pose", poses, false)];
    Flexible::new("Modules: run × depth × height", &columns, rows).at_least(least).leading(module_links(scene))
}

/// From rows of modules to their labels.
fn module_links<'a>(scene: &Scene<'a>) -> impl Iterator<Item = (String, String)> + use<'a> {
    let names: Vec<&str> = numbered(scene).map(|(_, module, _)| module.name.as_str()).collect();
    names.into_iter().map(|name| (format!("listed-{name}"), format!("label-{name}")))
}

const NUMBER: (&str, f64, bool) = ("no.", 8.0, true);
const SIZE: (&str, f64, bool) = ("run × depth × height", 32.0, false);

/// Wide enough for the longest name, within reason.
fn name_width(scene: &Scene<'_>) -> f64 {
    let widths = scene.model.modules.iter().map(|module| text_width(&module.name, LETTERS));
    (widths.fold(0.0, f64::max) + 3.0).clamp(16.0, 34.0)
}

/// The pose, where a module has several.
fn pose(module: &Module, state: &PoseState) -> String {
    if module.poses.len() > 1 { state.name.clone() } else { String::new() }
}

/// Run along the facing side, depth and height.
pub(in crate::views) fn size(module: &Module) -> String {
    let plan = module.extent.plan();
    let (run, depth) = match module.faces {
        Wall::Front | Wall::Rear => (plan.height(), plan.width()),
        _ => (plan.width(), plan.height()),
    };
    let height = module.extent.z.1 - module.extent.z.0;
    [run, depth, height].map(|value| trimmed(value, 1)).join(" × ")
}

/// The openings: where they are and how large.
pub(in crate::views) fn openings(model: &Model) -> Flexible {
    let rows = model.openings.iter().map(|opening| {
        let range = |(low, high): (f64, f64)| format!("{} to {}", trimmed(low, 1), trimmed(high, 1));
        let sizes = [opening.along.1 - opening.along.0, opening.up.1 - opening.up.0];
        let roof = opening.lies_flat();
        vec![
            opening.name.clone(),
            opening.kind.words().to_owned(),
            wall_name(opening.wall).to_owned(),
            if roof { format!("{}, {}", range(opening.along), range(opening.up)) } else { range(opening.along) },
            sizes.map(|value| trimmed(value, 1)).join(" × "),
            if roof { String::new() } else { trimmed(opening.up.0, 1) },
        ]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    let columns = [
        ("opening", -1.0, false),
        ("kind", widest(&rows, 1, "kind"), false),
        ("wall", widest(&rows, 2, "wall"), false),
        ("from, to", widest(&rows, 3, "from, to").min(22.0), false),
        ("size", widest(&rows, 4, "size"), false),
        ("sill", widest(&rows, 5, "sill"), false),
    ];
    let names = model.openings.iter().map(|opening| &opening.name);
    let links = names.map(|name| (format!("listed-{name}"), format!("opening-{name}")));
    Flexible::new("Openings", &columns, rows).leading(links)
}

/// Width that the texts of a column need in one line, mm.
fn widest(rows: &[Vec<String>], column: usize, head: &str) -> f64 {
    let texts = rows.iter().filter_map(|row| row.get(column)).map(String::as_str).chain([head]);
    texts.map(|text| text_width(text, LETTERS)).fold(0.0, f64::max) + CELL
}

fn wall_name(wall: Wall) -> &'static str {
    match wall {
        Wall::Front => "front",
        Wall::Rear => "rear",
        Wall::Left => "left",
        Wall::Right => "right",
        Wall::Roof => "roof",
        Wall::Floor => "floor",
    }
}

/// The findings that hold in an arrangement.
pub(in crate::views) fn findings(scene: &Scene<'_>, findings: &[(usize, &Finding)]) -> Flexible {
    let mut holding: Vec<_> = findings.iter().filter(|(_, finding)| holds_in(finding, scene.arrangement)).collect();
    holding.sort_by_key(|(_, finding)| finding.severity);
    let rows = holding.into_iter().map(|(number, finding)| {
        vec![number.to_string(), format!("{}: {}", finding.kind(), finding.key.check), words(finding)]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    let checks = rows.iter().filter_map(|row| row.get(1)).map(|words| text_width(words, LETTERS) + CELL);
    let checks = checks.fold(20.0, f64::max).min(27.0);
    let columns = [("no.", 8.0, true), ("check", checks, false), ("finding", -1.0, false)];
    let numbers: Vec<String> = rows.iter().filter_map(|row| row.first().cloned()).collect();
    let links = numbers.into_iter().map(|number| (format!("listed-finding-{number}"), format!("finding-{number}")));
    Flexible::new("Findings", &columns, rows).at_least(NARROW).leading(links)
}

/// What is found, and why it is accepted.
pub(in crate::views) fn words(finding: &Finding) -> String {
    let found = sentence(&finding.message);
    match &finding.accepted {
        Some(reason) => format!("{found}. Accepted: {}", sentence(reason)),
        None => found,
    }
}

//! What stands behind a thing on a sheet: its lines of the file, and the values they came to.

use crate::backends::plain_id;
use crate::base::number::{mm, trimmed};
use crate::compile::Compiled;
use crate::figures::shell::wall_name;
use crate::geometry::Box3;
use crate::model::{Model, Module, Opening, Wall};
use crate::source::{SourceMap, Span};
use serde_json::{Value, json};

/// Lines of an entry that are shown.
const MOST_LINES: usize = 40;

/// What the page shows of the group of a sheet with this name, such as `module-galley`; `None` if nothing of the layout
/// stands behind it.
pub(super) fn about(compiled: &Compiled, group: &str) -> Option<Value> {
    let model = compiled.model.as_ref()?;
    // Several groups of one thing on a sheet are told apart by a number at the end.
    let counted = group.rsplit_once('-').filter(|(_, count)| count.bytes().all(|byte| byte.is_ascii_digit()));
    let found = thing(model, group).or_else(|| thing(model, counted?.0))?;
    let lines = lines(&compiled.sources, found.span, &found.name);
    let (file, position) = compiled.sources.place(found.span)?;
    Some(json!({
        "name": found.name,
        "says": found.says,
        "file": file,
        "line": lines.as_ref().map_or(position.line, |(first, _)| *first),
        "text": lines.map(|(_, text)| text),
        "values": found.values,
    }))
}

/// A thing of the layout.
struct Thing {
    name: String,
    says: String,
    span: Span,
    /// Name, figure, and how an expression names it, if one can.
    values: Vec<Value>,
}

fn thing(model: &Model, group: &str) -> Option<Thing> {
    let (kind, name) = group.split_once('-')?;
    let is = |other: &str| plain_id(other) == name;
    match kind {
        "module" | "moves" | "label" => model.modules.iter().find(|one| is(&one.name)).map(of_module),
        "opening" => model.openings.iter().find(|one| is(&one.name)).map(of_opening),
        "zone" | "name" => model.zones.iter().find(|one| is(&one.name)).map(|zone| {
            let span = zone.span;
            let values = [("run", zone.rect.width()), ("depth", zone.rect.height())];
            let values = values.map(|(name, value)| row(name, &mm(value), None)).into();
            Thing { name: zone.name.clone(), says: format!("zone, {}", zone.purpose.words()), span, values }
        }),
        "cutaway" => model.space.cutaways.iter().find(|one| is(&one.name)).map(|cutaway| Thing {
            name: cutaway.name.clone(),
            says: "cutaway".to_owned(),
            span: cutaway.span,
            values: edges(&cutaway.name, &cutaway.prism.bounds()),
        }),
        _ => None,
    }
}

fn of_module(module: &Module) -> Thing {
    let mut values = edges(&module.name, &module.extent);
    let Box3 { x, y, z } = module.extent;
    let size = [x, y, z].map(|(low, high)| trimmed(high - low, 1)).join(" x ");
    values.push(row("room", &format!("{size} mm"), None));
    let poses = module.poses.iter().map(|pose| pose.name.as_str()).collect::<Vec<_>>().join(", ");
    values.push(row("poses", &poses, None));
    Thing { name: module.name.clone(), says: format!("{}, {}", module.symbol, module.says), span: module.span, values }
}

fn of_opening(opening: &Opening) -> Thing {
    let (along, up) = (opening.along, opening.up);
    let ends = match opening.wall {
        Wall::Front | Wall::Rear => ["left", "right"],
        _ => ["front", "rear"],
    };
    let upward = if opening.lies_flat() { ["left", "right"] } else { ["sill", "head"] };
    let all = [(ends[0], along.0), (ends[1], along.1), (upward[0], up.0), (upward[1], up.1)];
    let values = all.into_iter().map(|(name, value)| row(name, &mm(value), None)).collect();
    let says = format!("{} in {}", opening.kind.words(), wall_name(opening.wall));
    Thing { name: opening.name.clone(), says, span: opening.span, values }
}

/// The six edges of a thing, as expressions name them.
fn edges(name: &str, extent: &Box3) -> Vec<Value> {
    let Box3 { x, y, z } = *extent;
    let all = [("front", x.0), ("rear", x.1), ("left", y.0), ("right", y.1), ("floor", z.0), ("top", z.1)];
    all.into_iter().map(|(edge, value)| row(edge, &mm(value), Some(format!("{name}.{edge}")))).collect()
}

fn row(name: &str, value: &str, write: Option<String>) -> Value {
    json!({ "name": name, "value": value, "write": write })
}

/// The lines of an entry: the one with its name, and those below that are indented further.
fn lines(sources: &SourceMap, span: Span, name: &str) -> Option<(usize, String)> {
    let (file, position) = (sources.file(span.file)?, sources.place(span)?.1);
    let all: Vec<&str> = file.text.lines().collect();
    let named = |line: &&str| {
        let line = line.trim_start().trim_start_matches("- ");
        line.strip_prefix(name).is_some_and(|rest| rest.trim_start().starts_with(':'))
    };
    let at = (0..position.line).rev().find(|at| all.get(*at).is_some_and(named))?;
    let first = all.get(at)?;
    let indent = first.len() - first.trim_start().len();
    let below = all.iter().skip(at + 1).take_while(|line| {
        let inside = line.len() - line.trim_start().len() > indent;
        line.trim().is_empty() || inside
    });
    let mut shown: Vec<&str> = std::iter::once(first).chain(below).copied().take(MOST_LINES).collect();
    while shown.last().is_some_and(|line| line.trim().is_empty()) {
        shown.pop();
    }
    Some((at + 1, shown.join("\n")))
}

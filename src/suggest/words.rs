//! A change in words.

use super::candidate::{Candidate, Change};
use super::search::Found;
use super::slot::{Group, Owner};
use crate::base::number::trimmed;
use crate::language::expression::{Expr, ExprKind};
use crate::source::{FileId, SourceMap};

/// Longest new value that is quoted, in characters.
const LONGEST: usize = 48;

/// The change as an order: "move `galley` 88 mm to the front (`rear: 2312`)".
pub(super) fn words(found: &Found, sources: &SourceMap) -> String {
    let candidate = &found.candidate;
    let change = match &candidate.change {
        Change::By(sign) => length(candidate, *sign, found),
        Change::To(new) => value(candidate, new),
    };
    let elsewhere = found.rewrite.edits.first().filter(|edit| edit.span.file != FileId(0));
    let file = elsewhere.and_then(|edit| sources.file(edit.span.file));
    let file = file.map_or_else(String::new, |file| format!(", in `{}`", file.name));
    let rest = if found.softened { "; a caution stays" } else { "" };
    format!("{change}{file}{rest}")
}

fn length(candidate: &Candidate, sign: f64, found: &Found) -> String {
    let Candidate { name, slot, .. } = candidate;
    let key = slot.key.as_str();
    let far = format!("{} mm", micro(candidate.distance(found.step)));
    if let Some((edge, ways)) = edge(key) {
        let way = if sign > 0.0 { ways.1 } else { ways.0 };
        let what = match (slot.owner, candidate.moves_all) {
            (Owner::Zone(_), _) => format!("the {edge} of the zone `{name}`"),
            (_, true) => format!("`{name}`"),
            (_, false) => format!("the {edge} of `{name}`"),
        };
        return format!("move {what} {far} {way}{}", written(key, &found.rewrite.value));
    }
    let what = match slot.owner {
        Owner::Parameter(_) => format!("the parameter `{name}`"),
        Owner::Box if key == "rise" => "the rise of the roof".to_owned(),
        Owner::Box => format!("the {key} of the box"),
        _ if slot.group == Group::Set => format!("`{key}` of `{name}`"),
        _ => format!("the {key} of `{name}`"),
    };
    let unit = match slot.owner {
        Owner::Parameter(_) => "",
        _ => " mm",
    };
    let figure = |value: f64| format!("{}{unit}", micro(value));
    match (figures(candidate, found.step), sign > 0.0) {
        (Some((old, new)), _) => format!("make {what} {} instead of {}", figure(new), figure(old)),
        (None, up) => {
            let more = if up { "more" } else { "less" };
            format!(
                "make {what} {}{unit} {more}{}",
                micro(candidate.distance(found.step)),
                written(key, &found.rewrite.value)
            )
        }
    }
}

/// A figure as it is written in a layout: no change is told as 0 mm.
fn micro(value: f64) -> String {
    trimmed(value, 3)
}

/// Old and new figure, where they are written as figures.
fn figures(candidate: &Candidate, step: f64) -> Option<(f64, f64)> {
    let old = match &candidate.old {
        None => candidate.current,
        Some(Expr { kind: ExprKind::Number(old), .. }) => *old,
        Some(_) => return None,
    };
    match candidate.value(step).kind {
        ExprKind::Number(new) => Some((old, new)),
        _ => None,
    }
}

fn written(key: &str, value: &str) -> String {
    let key = key.strip_prefix("second ").unwrap_or(key);
    match key {
        "" => format!(" (`{value}`)"),
        _ if value.chars().count() <= LONGEST => format!(" (`{key}: {value}`)"),
        _ => String::new(),
    }
}

/// The words for an edge, and for going down and up its axis.
fn edge(key: &str) -> Option<(&'static str, (&'static str, &'static str))> {
    let (x, y, z) = (("to the front", "to the rear"), ("to the left", "to the right"), ("down", "up"));
    Some(match key {
        "front" => ("front edge", x),
        "rear" => ("rear edge", x),
        "left" => ("left edge", y),
        "right" => ("right edge", y),
        "floor" => ("lower face", z),
        "top" => ("upper face", z),
        "centre-x" => ("middle", x),
        "centre-y" => ("middle", y),
        _ => return None,
    })
}

fn value(candidate: &Candidate, new: &ExprKind) -> String {
    let Candidate { name, slot, .. } = candidate;
    let word = |kind: &ExprKind| match kind {
        ExprKind::Name(word) => word.clone(),
        ExprKind::Bool(yes) => if *yes { "yes" } else { "no" }.to_owned(),
        ExprKind::Number(figure) => trimmed(*figure, 1),
        _ => String::new(),
    };
    let new = word(new);
    match (slot.group, slot.key.as_str()) {
        (Group::Own, "faces") => format!("turn `{name}` to face {new} (`faces: {new}`)"),
        (Group::Own, "mirror") => format!("swap left and right of `{name}` (`mirror: {new}`)"),
        (Group::Own, "hinge") => {
            let side = if new == "left" || new == "right" { format!("on the {new}") } else { format!("at the {new}") };
            format!("hinge `{name}` {side} (`hinge: {new}`)")
        }
        (Group::Own, "swings") => format!("let `{name}` swing {new} (`swings: {new}`)"),
        (Group::Own, "level") => format!("put the zone `{name}` on level {new} (`level: {new}`)"),
        (_, key) => format!("set `{key}: {new}` for `{name}`"),
    }
}

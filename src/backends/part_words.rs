//! Rows of the cut list in words: machining with its places, where pieces stand.

use crate::base::number::trimmed;
use crate::base::tolerance::NO_AREA;
use crate::geometry::Polygon;
use crate::joinery::Row;
use crate::model::Machining;
use kurbo::Point;

/// A text that no spreadsheet program takes for a formula.
pub(super) fn plain(text: &str) -> String {
    let risky = ['=', '+', '-', '@', '\t', '\r', '\n', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'];
    if text.trim_start_matches(' ').starts_with(risky) { format!("'{text}") } else { text.to_owned() }
}

/// Where each piece stands: `galley: left 0, front 15, up 60`.
pub(super) fn stands(row: &Row) -> String {
    let words = row.stands.iter().map(|stand| format!("{}: {}", stand.module, stand.words()));
    words.collect::<Vec<_>>().join("; ")
}

/// Machining in short words, positions on the finished piece from its datum corner as (along, across) in mm.
pub(super) fn machining(row: &Row) -> String {
    let mut words: Vec<String> = row.outline.iter().map(shape).collect();
    let mut before: Option<String> = None;
    for one in &row.machining {
        let (what, at) = in_words(one);
        match words.last_mut().filter(|_| before.as_ref() == Some(&what)) {
            Some(last) => *last += &format!(" {at}"),
            None => words.push(format!("{what} {at}")),
        }
        before = Some(what);
    }
    words.join("; ")
}

/// What is done, and where.
fn in_words(machining: &Machining) -> (String, String) {
    let side = |reverse: bool| if reverse { " on the back" } else { "" };
    match machining {
        Machining::Hole { at, diameter, depth, reverse } => {
            let what = format!("hole {} {}{} at", trimmed(*diameter, 1), deep(*depth), side(*reverse));
            (what, at_text(*at))
        }
        Machining::Groove { from, to, width, depth, reverse, holds } => {
            let size = format!("{} wide {} deep{}", trimmed(*width, 1), trimmed(*depth, 1), side(*reverse));
            let holds = holds.as_ref().map_or_else(String::new, |holds| format!(" for {holds}"));
            (format!("groove {size}{holds}"), format!("{} to {}", at_text(*from), at_text(*to)))
        }
        Machining::Cutout { name, outline, .. } => (format!("cutout {name}"), cutout(outline)),
    }
}

fn at_text(at: (f64, f64)) -> String {
    format!("({} {})", trimmed(at.0, 1), trimmed(at.1, 1))
}

fn deep(depth: Option<f64>) -> String {
    depth.map_or_else(|| "through".to_owned(), |depth| format!("{} deep", trimmed(depth, 1)))
}

fn cutout(outline: &Polygon) -> String {
    let bounds = outline.bounds();
    let place = format!(
        "{} x {} at {}",
        trimmed(bounds.width(), 1),
        trimmed(bounds.height(), 1),
        at_text((bounds.x0, bounds.y0))
    );
    let rectangle = (outline.area() - bounds.area()).abs() < NO_AREA;
    format!("{place}{}", if rectangle { "" } else { ", shaped" })
}

/// Outlines with more corners than this (curves) are only named; `model.json` has them whole.
const CORNERS: usize = 12;

fn shape(outline: &Polygon) -> String {
    let points = outline.points();
    if points.len() > CORNERS {
        return format!("shaped, {} corners (see model.json)", points.len());
    }
    let corner = |point: &Point| at_text((point.x, point.y));
    format!("shaped: {}", points.iter().map(corner).collect::<Vec<_>>().join(" "))
}

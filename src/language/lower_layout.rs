//! The tree of a layout file to its typed document.

mod cargo;
mod contents;
mod extends;
mod groups;
mod loads;
mod places;
mod plug_ins;
mod prices;
mod router;
mod rules;
mod services;
mod vehicle;

pub(super) use cargo::STANDS;
pub(super) use extends::{BaseDoc, extends};
pub(super) use places::{CORNERS, EDGE_KEYS, FLOOR_EDGES, ROOF_EDGES};
pub use prices::LABELS;
pub use router::MOST_TOOLS;
pub use rules::{MOST_LIMITS, SEVERITIES, rules};

use super::expression::Expr;
use super::layout::{DrawnDoc, LayoutDoc, RevisionDoc, SectionsDoc, SheetsDoc};
use super::named::Named;
use super::node::{Node, NodeValue};
use super::reader::{Fields, Own, Reader};
use crate::diagnostic::{Diagnostic, Sink};
use crate::model::{PaperSize, SheetKind, Theme, Word};
use crate::source::{SourceMap, Spanned};
use std::sync::Arc;

/// Most entries of the sections that everything else is checked against.
pub(super) const MOST: [(&str, usize); 9] = [
    ("plug-ins", 32),
    ("people", 64),
    ("openings", 200),
    ("zones", 200),
    ("modules", 2000),
    ("arrangements", 32),
    ("cargo", 64),
    ("loads", 64),
    ("load-cases", 32),
];

/// The document of a layout's tree. Entries with mistakes are left out, reported, and listed as broken.
pub(super) fn lower(root: &Node, sources: &SourceMap, sink: &mut Sink) -> Option<LayoutDoc> {
    let mut reader = Reader::new(sources, sink);
    let r = &mut reader;
    let mut f = r.fields(root, "the layout")?;
    f.section("boxwright");
    f.section("extends").map(|node| extends(r, node));
    let title = f.need(r, "title", Reader::text);
    let number = f.opt(r, "number", Reader::text);
    let revision = f.section("revision").map(|node| revisions(r, node)).unwrap_or_default();
    let drawn = f.opt(r, "drawn", drawn).unwrap_or_default();
    let symbols = list(r, &mut f, "symbols", Reader::text).into_iter().map(|folder| folder.value).collect();
    let plug_ins = named(r, &mut f, "plug-ins", |r, name, node| plug_ins::plug_in(r, name, node));
    let people = named(r, &mut f, "people", |r, name, node| places::person(r, name, node));
    let parameters = named(r, &mut f, "parameters", |r, _, node| expression(r, node));
    let space = f.need(r, "box", places::space).map(|space| Spanned::new(space, f.key_span("box")));
    let layups = named(r, &mut f, "layups", |r, name, node| places::layup(r, name, node));
    let openings = named(r, &mut f, "openings", |r, name, node| places::opening(r, name, node));
    let mut purposes = Own::new("purposes", "purpose", "the layout");
    f.section("purposes").inspect(|node| r.declare(node, &mut purposes));
    let zones = named(r, &mut f, "zones", |r, name, node| places::zone(r, name, node, &purposes));
    let modules = named(r, &mut f, "modules", |r, name, node| contents::module(r, name, node));
    let arrangements = named(r, &mut f, "arrangements", |r, name, node| contents::arrangement(r, name, node));
    let routes = list(r, &mut f, "routes", contents::route);
    let cargo = named(r, &mut f, "cargo", |r, name, node| cargo::cargo(r, name, node));
    let vehicle_span = f.key_span("vehicle");
    let vehicle = f.opt(r, "vehicle", vehicle::vehicle).map(|vehicle| Spanned::new(vehicle, vehicle_span));
    let loads = named(r, &mut f, "loads", |r, name, node| loads::load(r, name, node));
    let load_cases = named(r, &mut f, "load-cases", |r, name, node| loads::load_case(r, name, node));
    let services = f.opt(r, "services", services::services).unwrap_or_default();
    let climate = f.opt(r, "climate", services::climate);
    let rules = f.section("rules").map(|node| rules(r, node)).unwrap_or_default();
    let rule_files = list(r, &mut f, "rule-files", Reader::text).into_iter().map(|file| file.value).collect();
    let limits = f.section("limits").map(|node| contents::limits(r, node)).unwrap_or_default();
    let accepted = list(r, &mut f, "accepted", contents::accepted);
    let stocks = named(r, &mut f, "stocks", |r, name, node| contents::stock(r, name, node));
    let prices = f.opt(r, "prices", prices::prices);
    let labels = f.opt(r, "labels", prices::labels);
    let router = f.opt(r, "router", router::router);
    let sheets = f.opt(r, "sheets", sheets).unwrap_or_default();
    f.close(r);
    let title = title.unwrap_or_else(|| Spanned::new(String::new(), root.span.part(0, 0)));
    let (broken, named) = reader.into_names();
    #[rustfmt::skip]
    let doc = LayoutDoc {
        title, number, revision, drawn, symbols, plug_ins, people, parameters, space: space?, layups, openings, zones, modules,
        arrangements, routes, cargo, vehicle, loads, load_cases, services, climate, rules: Arc::new(rules), rule_files, limits, accepted, stocks, prices, labels, router, sheets,
        broken, named,
    };
    Some(doc)
}

fn expression(r: &mut Reader<'_>, node: &Node) -> Option<Expr> {
    if node.is_null() {
        r.unfit(node, "a value", "write a number or an expression");
        return None;
    }
    r.expr(node)
}

fn named<'r, T>(
    r: &mut Reader<'r>,
    f: &mut Fields<'_>,
    key: &'static str,
    read: impl FnMut(&mut Reader<'r>, &str, &Node) -> Option<T>,
) -> Named<T> {
    let most = MOST.iter().find(|(section, _)| *section == key).map_or(usize::MAX, |(_, most)| *most);
    let section = f.section(key).filter(|node| !r.refuse_many(node, key, most));
    section.map(|node| r.named(node, &format!("`{key}`"), read)).unwrap_or_default()
}

fn list<'r, T>(
    r: &mut Reader<'r>,
    f: &mut Fields<'_>,
    key: &'static str,
    read: impl FnMut(&mut Reader<'r>, &Node) -> Option<T>,
) -> Vec<Spanned<T>> {
    f.section(key).map(|node| r.list(node, &format!("`{key}`"), read)).unwrap_or_default()
}

/// One revision, or a list of them; the last is the current one.
fn revisions(r: &mut Reader<'_>, node: &Node) -> Vec<RevisionDoc> {
    if matches!(node.value, NodeValue::List(_)) {
        return r.list(node, "`revision`", revision).into_iter().map(|revision| revision.value).collect();
    }
    revision(r, node).into_iter().collect()
}

fn revision(r: &mut Reader<'_>, node: &Node) -> Option<RevisionDoc> {
    if !matches!(node.value, NodeValue::Map(_)) {
        return r.text(node).map(|mark| RevisionDoc { mark, note: None, date: None, by: None });
    }
    let mut f = r.fields(node, "`revision`")?;
    let mark = f.need(r, "mark", Reader::text);
    let note = f.opt(r, "note", Reader::text);
    let date = f.opt(r, "date", date);
    let by = f.opt(r, "by", Reader::text);
    f.close(r);
    Some(RevisionDoc { mark: mark?, note, date, by })
}

fn drawn(r: &mut Reader<'_>, node: &Node) -> Option<DrawnDoc> {
    let mut f = r.fields(node, "`drawn`")?;
    let by = f.opt(r, "by", Reader::text);
    let approved = f.opt(r, "approved", Reader::text);
    let owner = f.opt(r, "owner", Reader::text);
    let date = f.opt(r, "date", date);
    f.close(r);
    Some(DrawnDoc { by, approved, owner, date })
}

/// A day of the calendar, `YYYY-MM-DD` (ISO 8601).
fn date(r: &mut Reader<'_>, node: &Node) -> Option<Spanned<String>> {
    let text = r.text(node)?;
    if is_day(&text.value) {
        return Some(text);
    }
    let error = Diagnostic::new(node.span, format!("`{}` is not a date", text.value));
    r.error(error.help("write year, month and day: `2026-03-14`"));
    None
}

fn is_day(text: &str) -> bool {
    let digits = |part: &str, count: usize| part.len() == count && part.bytes().all(|byte| byte.is_ascii_digit());
    let parts: Vec<&str> = text.split('-').collect();
    let [year, month, day] = parts.as_slice() else { return false };
    if !(digits(year, 4) && digits(month, 2) && digits(day, 2)) {
        return false;
    }
    let [Ok(year), Ok(month), Ok(day)] = [year, month, day].map(|part| part.parse::<u32>()) else { return false };
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let days = match month {
        2 => 28 + u32::from(leap),
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => 0,
    };
    (1..=days).contains(&day)
}

fn sheets(r: &mut Reader<'_>, node: &Node) -> Option<SheetsDoc> {
    let mut f = r.fields(node, "`sheets`")?;
    let paper = f.known(r, "paper", PaperSize::ALL);
    let orientation = f.word(r, "orientation", &["landscape", "portrait"]);
    let only = f.opt(r, "only", kinds);
    let scale = f.opt(r, "scale", Reader::expr);
    let projection = f.word(r, "projection", &["first", "third"]);
    let figures = f.word(r, "figures", &["mm", "mm+inch"]);
    let sections = f.opt(r, "sections", sections);
    let theme = f.opt(r, "theme", Reader::text);
    f.close(r);
    Some(SheetsDoc { paper, orientation, only, scale, projection, figures, sections, theme, look: Theme::default() })
}

/// Kinds of sheets.
fn kinds(r: &mut Reader<'_>, node: &Node) -> Option<Vec<SheetKind>> {
    let kinds = r.list(node, "`only`", |r, node| r.known::<SheetKind>(node, "only"));
    Some(kinds.into_iter().map(|kind| kind.value.value).collect())
}

fn sections(r: &mut Reader<'_>, node: &Node) -> Option<SectionsDoc> {
    let mut f = r.fields(node, "`sections`")?;
    let along = f.opt(r, "along", Reader::expr);
    let across = f.opt(r, "across", Reader::expr);
    f.close(r);
    Some(SectionsDoc { along, across })
}

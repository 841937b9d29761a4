//! Where the tables of a plan stand: right of it, under it, or both.

use crate::drawing::Table;
use crate::views::kit::flexible::Flexible;
use crate::views::kit::flexible::HEADING;
use kurbo::{Point, Rect, Size};

/// Between plan, tables and title block, mm.
pub(in crate::views) const GAP: f64 = 6.0;
/// Widest table beside a plan, mm.
const WIDEST: f64 = 128.0;
/// Step in which the height of even columns is found, mm.
const STEP: f64 = 2.0;

/// A table with its heading.
#[derive(Debug, Clone)]
pub(in crate::views) struct PlacedTable {
    /// Words over it.
    pub heading: String,
    /// The table.
    pub table: Table,
    /// Upper left corner of the heading.
    pub at: Point,
}

impl PlacedTable {
    fn bottom(&self) -> f64 {
        self.at.y - HEADING - self.table.height()
    }
}

/// The tables of one plan.
#[derive(Debug)]
pub(in crate::views) struct Wanted<'a> {
    /// Modules: all of them should find a place.
    pub modules: &'a Flexible,
    /// Findings: as many as find a place.
    pub findings: &'a Flexible,
    /// Openings: all or none.
    pub openings: &'a Flexible,
}

/// Tables with their places, how many rows of the modules they show, and what they leave free.
#[derive(Debug)]
pub(in crate::views) struct Placed {
    /// The tables.
    pub tables: Vec<PlacedTable>,
    /// Rows of the modules shown.
    pub modules: usize,
    /// Rows of the findings shown.
    pub findings: usize,
    /// The openings are among the tables, or there are none.
    pub openings: bool,
    /// What is left for the plan.
    pub free: Rect,
}

/// Places tables in an area that a plan of a size is to stand in, too.
pub(in crate::views) fn place(wanted: &Wanted<'_>, area: Rect, plan: Size) -> Placed {
    let left = (area.x0 + plan.width + GAP).max(area.x1 - WIDEST);
    let beside = area.x1 - left >= wanted.modules.least;
    let right = beside.then_some(Rect { x0: left, ..area });
    let under = Rect { y1: area.y1 - plan.height - GAP, x1: if beside { left - GAP } else { area.x1 }, ..area };
    let (mut tables, modules, mut slots) = modules(wanted.modules, right, under);
    let (findings, shown) = flow(wanted.findings, 0, &mut slots);
    tables.extend(findings);
    say_more(&mut tables, wanted.findings, shown);
    let all = wanted.openings.rows.len();
    let fits = |slot: &&mut Rect| wanted.openings.fitting_in(**slot, 0) == all;
    let slot = slots.iter_mut().find(fits);
    let openings = slot.is_some() || all == 0;
    tables.extend(slot.into_iter().flat_map(|slot| flow(wanted.openings, 0, std::slice::from_mut(slot)).0));
    let free = lower(&mut tables, area, under);
    Placed { tables, modules, findings: shown, openings, free }
}

/// The modules right of the plan if they fit there, else under it in even columns, else in both; how many, and the
/// slots that are left.
fn modules(modules: &Flexible, right: Option<Rect>, under: Rect) -> (Vec<PlacedTable>, usize, Vec<Rect>) {
    let all = modules.rows.len();
    let mut right = right;
    let (mut tables, mut shown) = (Vec::new(), 0);
    let under_holds = even(modules, 0, under).is_some();
    let right_holds = right.is_some_and(|slot| modules.fitting_in(slot, 0) == all);
    if let Some(slot) = right.as_mut().filter(|_| right_holds || !under_holds) {
        (tables, shown) = flow(modules, 0, std::slice::from_mut(slot));
    }
    let mut rest = under;
    if shown < all {
        let mut slots = even(modules, shown, under).unwrap_or_else(|| columns(under, modules.least));
        let (more, to) = flow(modules, shown, &mut slots);
        let bottom = more.iter().map(PlacedTable::bottom).fold(under.y1 + GAP, f64::min);
        rest.y1 = bottom - GAP;
        tables.extend(more);
        shown = to;
    }
    (tables, shown, right.into_iter().chain([rest]).collect())
}

/// Columns for tables side by side.
fn columns(slot: Rect, least: f64) -> Vec<Rect> {
    let count = ((slot.width() + GAP) / (least + GAP)).floor().clamp(1.0, 6.0);
    let width = (slot.width() + GAP) / count - GAP;
    let column = |index: u32| {
        let x0 = slot.x0 + f64::from(index) * (width + GAP);
        Rect { x0, x1: x0 + width, ..slot }
    };
    (0..count as u32).map(column).collect()
}

/// Columns just high enough for all rows from one on, with as few columns as can be; `None` if they do not fit.
fn even(table: &Flexible, from: usize, slot: Rect) -> Option<Vec<Rect>> {
    let all = table.rows.len();
    let slots = columns(slot, table.least);
    let steps = (slot.height() / STEP).max(0.0) as u32;
    let lowered = (1..=steps).map(|step| {
        let y0 = slot.y1 - f64::from(step) * STEP;
        slots.iter().map(|column| Rect { y0, ..*column }).collect::<Vec<Rect>>()
    });
    let holds = |slots: &Vec<Rect>| slots.iter().fold(from, |at, slot| at + table.fitting_in(*slot, at)) == all;
    lowered.into_iter().find(holds)
}

/// Fills slots with the rows of a table from one on, and shortens the slots by what is used.
fn flow(table: &Flexible, from: usize, slots: &mut [Rect]) -> (Vec<PlacedTable>, usize) {
    let mut from = from;
    let mut tables = Vec::new();
    for slot in slots {
        let count = table.fitting_in(*slot, from);
        if count == 0 {
            continue;
        }
        let rows = table.table(slot.width(), from, from + count);
        let heading = if from == 0 { table.heading.clone() } else { format!("{}, continued", table.heading) };
        let at = Point::new(slot.x0, slot.y1);
        slot.y1 -= HEADING + rows.height() + GAP;
        tables.push(PlacedTable { heading, table: rows, at });
        from += count;
    }
    (tables, from)
}

/// Says at the last table of findings how many have found no place.
fn say_more(tables: &mut [PlacedTable], findings: &Flexible, shown: usize) {
    let more = findings.rows.len() - shown;
    if let Some(last) = tables.last_mut().filter(|table| more > 0 && table.heading.starts_with(&findings.heading)) {
        last.heading = format!("{} ({more} more on sheet Checks)", last.heading);
    }
}

/// Lowers the tables under the plan to the bottom, and returns what all tables leave free.
fn lower(tables: &mut [PlacedTable], area: Rect, under: Rect) -> Rect {
    let is_under = |table: &PlacedTable| table.at.y <= under.y1 && table.at.x < under.x1;
    let lowest = tables.iter().filter(|table| is_under(table)).map(PlacedTable::bottom).fold(f64::INFINITY, f64::min);
    let mut free = area;
    for table in tables {
        if is_under(table) {
            table.at.y -= lowest - area.y0;
            free.y0 = free.y0.max(table.at.y + GAP);
        } else {
            free.x1 = free.x1.min(table.at.x - GAP);
        }
    }
    free
}

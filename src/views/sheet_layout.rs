//! How a plan, its tables and its notes share a sheet: the scale, and a place for each.

use super::chains::chains;
use super::legend::{Flexible, LEAST};
use super::notes;
use super::placement::Placement;
use super::scene::Scene;
use crate::drawing::dimension::{Laid, Side};
use crate::drawing::{Paper, Table, scale, title_block_place};
use crate::model::{Arrangement, Model};
use kurbo::{Point, Rect};

/// From the frame to what stands in it (centring marks reach 5 mm in), mm.
const INSET: f64 = 7.0;
/// Between plan, tables and title block, mm.
const GAP: f64 = 6.0;
/// Height of a table's heading, mm.
pub(super) const HEADING: f64 = 4.6;
/// Widest table beside a plan, mm.
const WIDEST: f64 = 128.0;
/// Notes beside the title block are no narrower than this, mm.
const LEAST_NOTES: f64 = 125.0;
/// Width of the stamp of held sheets with its air, mm.
const STAMP: f64 = 62.0;

/// A table with its heading.
#[derive(Debug, Clone)]
pub(super) struct PlacedTable {
    /// Words over it.
    pub heading: String,
    /// The table.
    pub table: Table,
    /// Upper left corner of the heading.
    pub at: Point,
}

/// Where everything stands.
#[derive(Debug, Clone)]
pub(super) struct SheetLayout {
    /// Scale and place of the plan.
    pub place: Placement,
    /// Tables.
    pub tables: Vec<PlacedTable>,
    /// Where the notes stand.
    pub notes: Rect,
    /// A remark for the notes, if the scale asked for is not used.
    pub remark: Option<String>,
    /// How many rows of the modules have found a place.
    pub modules: usize,
}

/// What has to share the sheet.
#[derive(Debug)]
pub(super) struct Request<'a> {
    /// The layout.
    pub model: &'a Model,
    /// The arrangement.
    pub arrangement: &'a Arrangement,
    /// The sheet.
    pub paper: Paper,
    /// Its modules.
    pub modules: &'a Flexible,
    /// Its findings.
    pub findings: &'a Flexible,
    /// The sheet gets a stamp.
    pub held: bool,
}

/// The parts of a sheet: all of it, the strip at the bottom that title block and notes stand in, the notes' place.
struct Room {
    all: Rect,
    strip: f64,
    notes: Rect,
}

impl Request<'_> {
    /// Finds scale and places.
    pub fn layout(&self) -> SheetLayout {
        let asked = self.model.sheets.scale;
        let refused = asked.map(|asked| {
            let (wish, paper) = (scale::name(Some(asked)), self.paper.name);
            format!("Scale {wish} was asked for but does not fit on {paper}.")
        });
        if let Some(layout) = asked.and_then(|asked| self.at_scale(asked, None, false)) {
            return layout;
        }
        let smaller = |wish: &f64| asked.is_none_or(|asked| *wish > asked);
        let scales: Vec<f64> = scale::REDUCTIONS.into_iter().filter(smaller).collect();
        let remark = refused.as_deref();
        let whole = scales.iter().find_map(|wish| self.at_scale(*wish, remark, true));
        let largest = || scales.iter().find_map(|wish| self.at_scale(*wish, remark, false));
        whole.or_else(largest).unwrap_or_else(|| self.anyhow(remark))
    }

    fn scene(&self, place: Placement) -> Scene<'_> {
        Scene { model: self.model, arrangement: self.arrangement, place }
    }

    fn room(&self, remark: Option<&str>) -> Room {
        let block = title_block_place(self.paper);
        let all = self.paper.drawing_space().inset(-INSET);
        let stamp = if self.held { STAMP } else { 0.0 };
        let beside = Rect { x1: block.x0 - GAP - stamp, ..all };
        let over = beside.width() < LEAST_NOTES;
        let (x0, x1) = if over { (block.x0.max(all.x0), all.x1) } else { (beside.x0, beside.x1) };
        let height = notes::height(x1 - x0, remark);
        let top = if over { block.y1 + 3.0 + height } else { block.y1.max(all.y0 + height) };
        Room { all, strip: top, notes: Rect::new(x0, top - height, x1, top) }
    }

    /// The layout at one scale, if the plan fits; with `whole` only if all rows of the modules fit, too.
    fn at_scale(&self, wish: f64, remark: Option<&str>, whole: bool) -> Option<SheetLayout> {
        let room = self.room(remark);
        let block = block(&self.scene(Placement { scale: wish, origin: Point::ZERO }));
        let area = Rect { y0: room.strip + GAP, ..room.all };
        if block.width() > area.width() || block.height() > area.height() {
            return None;
        }
        let (tables, modules, free) = self.tables(area, block.width(), block.height());
        if whole && modules < self.modules.rows.len() {
            return None;
        }
        let origin = free.center() - block.center().to_vec2();
        let place = Placement { scale: wish, origin };
        Some(SheetLayout { place, tables, notes: room.notes, remark: remark.map(str::to_owned), modules })
    }

    /// Nothing fits: the smallest scale in the middle of the sheet.
    fn anyhow(&self, remark: Option<&str>) -> SheetLayout {
        let room = self.room(remark);
        let last = scale::REDUCTIONS.last().copied().unwrap_or(10_000.0);
        let place = Placement { scale: last, origin: room.all.center() };
        SheetLayout { place, tables: Vec::new(), notes: room.notes, remark: remark.map(str::to_owned), modules: 0 }
    }

    /// Tables right of a plan of a size and under it, how many modules they hold, and what they leave free.
    fn tables(&self, area: Rect, width: f64, height: f64) -> (Vec<PlacedTable>, usize, Rect) {
        let left = (area.x0 + width + GAP).max(area.x1 - WIDEST);
        let right = Rect { x0: left, ..area };
        let below = Rect { y1: area.y1 - height - GAP, ..area };
        let mut slots = vec![right];
        slots.extend(halves(below));
        slots.retain(|slot| slot.width() >= LEAST);
        let (mut tables, modules) = flow(self.modules, &mut slots);
        let beside = tables.iter().any(|table| table.at.x >= left && table.at.y == area.y1);
        if beside || tables.is_empty() {
            slots.retain(|slot| slot.x0 >= left && slot.y1 < area.y1);
            slots.push(Rect { x1: left - GAP, ..below });
            slots.retain(|slot| slot.width() >= LEAST);
        }
        let (findings, shown) = flow(self.findings, &mut slots);
        tables.extend(findings);
        say_more(&mut tables, self.findings, shown);
        let free = free(&mut tables, area, below);
        (tables, modules, free)
    }
}

/// Says at the last table of findings how many have found no place.
fn say_more(tables: &mut [PlacedTable], findings: &Flexible, shown: usize) {
    let more = findings.rows.len() - shown;
    if let Some(last) = tables.last_mut().filter(|table| more > 0 && table.heading.starts_with(findings.heading)) {
        last.heading = format!("{} ({more} more on sheet Findings)", last.heading);
    }
}

/// Lowers the tables under the plan to the bottom, and returns what all tables leave free.
fn free(tables: &mut [PlacedTable], area: Rect, below: Rect) -> Rect {
    let under = |table: &PlacedTable| table.at.y <= below.y1;
    let bottom = |table: &PlacedTable| table.at.y - HEADING - table.table.height();
    let starts_low = |table: &PlacedTable| under(table) && table.at.y == below.y1;
    let drop = tables.iter().filter(|t| starts_low(t)).map(bottom).fold(f64::INFINITY, f64::min) - area.y0;
    let mut free = area;
    for table in tables {
        if starts_low(table) {
            table.at.y -= drop;
            free.y0 = free.y0.max(table.at.y + GAP);
        } else {
            free.x1 = free.x1.min(table.at.x - GAP);
        }
    }
    free
}

fn halves(slot: Rect) -> Vec<Rect> {
    let middle = slot.center().x;
    vec![Rect { x1: middle - GAP / 2.0, ..slot }, Rect { x0: middle + GAP / 2.0, ..slot }]
}

/// Fills slots with the rows of a table, one after the other, and shortens the slots by what is used.
fn flow(flexible: &Flexible, slots: &mut [Rect]) -> (Vec<PlacedTable>, usize) {
    let mut from = 0;
    let mut tables = Vec::new();
    for slot in slots {
        let count = flexible.fitting(slot.width(), from, slot.height() - HEADING);
        if count == 0 || from == flexible.rows.len() {
            continue;
        }
        let table = flexible.table(slot.width(), from, from + count);
        let heading = if from == 0 { flexible.heading.to_owned() } else { format!("{}, continued", flexible.heading) };
        let at = Point::new(slot.x0, slot.y1);
        slot.y1 -= HEADING + table.height() + GAP;
        tables.push(PlacedTable { heading, table, at });
        from += count;
    }
    (tables, from)
}

/// The plan with its chains, relative to its origin.
fn block(scene: &Scene<'_>) -> Rect {
    let laid = chains(scene);
    laid.iter().fold(scene.outside(), |rect, (side, laid)| around(rect, *side, laid)).inflate(1.0, 1.0)
}

fn around(rect: Rect, side: Side, laid: &Laid) -> Rect {
    let rect = laid.boxes.iter().fold(rect, |rect, text| rect.union(*text));
    match side {
        Side::Above => Rect { y1: rect.y1.max(laid.reach), ..rect },
        Side::Below => Rect { y0: rect.y0.min(laid.reach), ..rect },
        Side::Left => Rect { x0: rect.x0.min(laid.reach), ..rect },
        Side::Right => Rect { x1: rect.x1.max(laid.reach), ..rect },
    }
}

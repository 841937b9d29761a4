//! How a plan, its tables and its notes share a sheet: the scale, and a place for each.

use super::chains::chains;
use super::legend::{Flexible, LEAST};
use super::notes;
use super::placement::Placement;
use super::scene::Scene;
use crate::drawing::dimension::{Laid, Side};
use crate::drawing::{Paper, Table, scale, title_block_place};
use crate::model::{Arrangement, Model, Wall};
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
    /// The paper.
    pub paper: Paper,
    /// Hatches in the roof have chains.
    pub roof: bool,
    /// Dimensions are drawn; only what fits no sheet at all goes without.
    pub dimensioned: bool,
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
    /// Its openings, where there is room for all of them.
    pub openings: &'a Flexible,
    /// The sheet gets a stamp.
    pub held: bool,
}

/// The parts of a sheet: all of it, the strip at the bottom that title block and notes stand in, the notes' place.
struct Room {
    all: Rect,
    strip: f64,
    notes: Rect,
}

/// Smaller than this no plan is drawn while a larger paper is left: 1:50.
const SMALLEST: f64 = 50.0;

impl Request<'_> {
    /// Finds paper, scale and places: the largest scale on the paper asked for that holds the plan and all modules,
    /// else the plan alone; where that would be too small, on a larger paper.
    pub fn layout(&self) -> SheetLayout {
        let asked = self.model.sheets.scale;
        if let Some(layout) = asked.and_then(|asked| self.at_scale(self.paper, asked, None, false)) {
            return layout;
        }
        let larger = |paper: &Paper| paper.width >= self.paper.width;
        let papers: Vec<Paper> = Paper::ALL.into_iter().filter(larger).collect();
        let legible = papers.iter().find_map(|paper| self.on_paper(*paper, SMALLEST));
        let any = || papers.iter().rev().find_map(|paper| self.on_paper(*paper, f64::INFINITY));
        legible.or_else(any).unwrap_or_else(|| self.anyhow())
    }

    /// The largest scale down to the smallest on one paper.
    fn on_paper(&self, paper: Paper, smallest: f64) -> Option<SheetLayout> {
        let asked = self.model.sheets.scale;
        let remark = self.remark(paper);
        let fitting = |wish: &f64| *wish <= smallest && asked.is_none_or(|asked| *wish > asked);
        let scales: Vec<f64> = scale::REDUCTIONS.into_iter().filter(fitting).collect();
        let find = |whole| scales.iter().find_map(|wish| self.at_scale(paper, *wish, remark.as_deref(), whole));
        find(true).or_else(|| find(false))
    }

    /// Says when paper or scale are not what was asked for.
    fn remark(&self, paper: Paper) -> Option<String> {
        let name = self.paper.name;
        match self.model.sheets.scale.map(|asked| scale::name(Some(asked))) {
            Some(asked) => Some(format!("Scale {asked} was asked for but does not fit on {name}.")),
            None if paper != self.paper => Some(format!("Paper {name} was asked for but the plan does not fit on it.")),
            None => None,
        }
    }

    fn scene(&self, place: Placement, roof: bool) -> Scene<'_> {
        Scene { model: self.model, arrangement: self.arrangement, place, roof }
    }

    fn room(&self, paper: Paper, remark: Option<&str>) -> Room {
        let block = title_block_place(paper);
        let all = paper.drawing_space().inset(-INSET);
        let stamp = if self.held { STAMP } else { 0.0 };
        let beside = Rect { x1: block.x0 - GAP - stamp, ..all };
        let over = beside.width() < LEAST_NOTES;
        let (x0, x1) = if over { (block.x0.max(all.x0), all.x1) } else { (beside.x0, beside.x1) };
        let height = notes::height(x1 - x0, remark);
        let top = if over { block.y1 + 3.0 + height } else { block.y1.max(all.y0 + height) };
        Room { all, strip: top, notes: Rect::new(x0, top - height, x1, top) }
    }

    /// The layout at one scale, if the plan fits; with `whole` only if all rows of the modules fit, too.
    fn at_scale(&self, paper: Paper, wish: f64, remark: Option<&str>, whole: bool) -> Option<SheetLayout> {
        let hatches = self.model.openings.iter().any(|opening| opening.wall == Wall::Roof);
        let with_roof = if hatches { self.with_chains(paper, wish, remark, whole, true) } else { None };
        with_roof.or_else(|| self.with_chains(paper, wish, remark, whole, false))
    }

    fn with_chains(
        &self,
        paper: Paper,
        wish: f64,
        remark: Option<&str>,
        whole: bool,
        roof: bool,
    ) -> Option<SheetLayout> {
        let room = self.room(paper, remark);
        let block = block(&self.scene(Placement { scale: wish, origin: Point::ZERO }, roof));
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
        let remark = remark.map(str::to_owned);
        Some(SheetLayout { place, paper, roof, dimensioned: true, tables, notes: room.notes, remark, modules })
    }

    /// The plan fits no sheet with its dimensions: small, without them, in the middle of the paper asked for.
    fn anyhow(&self) -> SheetLayout {
        let remark = Some("Too much for any sheet: drawn without dimensions.".to_owned());
        let room = self.room(self.paper, remark.as_deref());
        let area = Rect { y0: room.strip + GAP, ..room.all }.inset(-2.0 * GAP);
        let outside = self.scene(Placement { scale: 1.0, origin: Point::ZERO }, false).outside();
        let scale = scale::largest_that_fits(outside.width(), outside.height(), area.width(), area.height());
        let origin = area.center() - outside.center().to_vec2() / scale;
        let place = Placement { scale, origin };
        let (paper, notes) = (self.paper, room.notes);
        SheetLayout { place, paper, roof: false, dimensioned: false, tables: Vec::new(), notes, remark, modules: 0 }
    }

    /// Tables right of a plan of a size and under it, how many modules they hold, and what they leave free.
    fn tables(&self, area: Rect, width: f64, height: f64) -> (Vec<PlacedTable>, usize, Rect) {
        let left = (area.x0 + width + GAP).max(area.x1 - WIDEST);
        let right = Rect { x0: left, ..area };
        let beside = right.width() >= LEAST;
        let below = Rect { y1: area.y1 - height - GAP, x1: if beside { left - GAP } else { area.x1 }, ..area };
        let mut slots = if beside { vec![right] } else { Vec::new() };
        slots.extend(halves(below));
        let (mut tables, modules) = flow(self.modules, &mut slots);
        if tables.iter().all(|table| table.at.x >= left) {
            slots.truncate(usize::from(beside));
            slots.push(below);
        }
        let (findings, shown) = flow(self.findings, &mut slots);
        tables.extend(findings);
        say_more(&mut tables, self.findings, shown);
        let fits = |slot: &&mut Rect| {
            slot.width() >= LEAST
                && self.openings.fitting(slot.width(), 0, slot.height() - HEADING) == self.openings.rows.len()
        };
        if let Some(slot) = slots.iter_mut().find(fits) {
            tables.extend(flow(self.openings, std::slice::from_mut(slot)).0);
        }
        let free = free(&mut tables, area, below);
        (tables, modules, free)
    }
}

/// Says at the last table of findings how many have found no place.
fn say_more(tables: &mut [PlacedTable], findings: &Flexible, shown: usize) {
    let more = findings.rows.len() - shown;
    if let Some(last) = tables.last_mut().filter(|table| more > 0 && table.heading.starts_with(&findings.heading)) {
        last.heading = format!("{} ({more} more on sheet Findings)", last.heading);
    }
}

/// Lowers the tables under the plan to the bottom, and returns what all tables leave free.
fn free(tables: &mut [PlacedTable], area: Rect, below: Rect) -> Rect {
    let under = |table: &PlacedTable| table.at.y <= below.y1 && table.at.x < area.x0 + below.width();
    let bottoms = tables.iter().filter(|t| under(t)).map(|t| t.at.y - HEADING - t.table.height());
    let drop = bottoms.fold(f64::INFINITY, f64::min) - area.y0;
    let mut free = area;
    for table in tables {
        if under(table) {
            table.at.y -= drop;
            free.y0 = free.y0.max(table.at.y + GAP);
        } else {
            free.x1 = free.x1.min(table.at.x - GAP);
        }
    }
    free
}

/// Two places side by side where both are wide enough for a table.
fn halves(slot: Rect) -> Vec<Rect> {
    if slot.width() < 2.0 * LEAST + GAP {
        return vec![slot];
    }
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
        let heading = if from == 0 { flexible.heading.clone() } else { format!("{}, continued", flexible.heading) };
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

//! How a plan, its tables and its notes share a sheet: the scale, and a place for each.

use crate::drawing::dimension::{Laid, Side};
use crate::drawing::{Paper, scale};
use crate::model::{Arrangement, Model, Opening};
use crate::views::kit::flexible::Flexible;
use crate::views::kit::placement::Placement;
use crate::views::kit::scene::{Extra, Scene};
use crate::views::kit::table_layout::{GAP, PlacedTable, Wanted, place};
use crate::views::plan::chains::chains;
use crate::views::plan::notes;
use kurbo::{Point, Rect};

/// Where findings are that have no place on a plan.
const ELSEWHERE: &str = "Findings are listed on sheet Checks.";
/// Where openings are that have no place on a plan.
const OPENINGS_ELSEWHERE: &str = "Openings are listed on sheet Schedules.";

/// Where everything stands.
#[derive(Debug, Clone)]
pub(in crate::views) struct SheetLayout {
    /// Scale and place of the plan.
    pub place: Placement,
    /// Tables.
    pub tables: Vec<PlacedTable>,
    /// The paper.
    pub paper: Paper,
    /// Chains beside the usual ones.
    pub chains: Extra,
    /// Dimensions are drawn; only what fits no sheet at all goes without.
    pub dimensioned: bool,
    /// Where the notes stand.
    pub notes: Rect,
    /// More for the notes: the revision, a scale or paper that is not the one asked for, tables that are elsewhere.
    pub remarks: Vec<String>,
    /// The openings have found a place.
    pub openings: bool,
    /// How many rows of the modules have found a place.
    pub modules: usize,
    /// How many rows of the findings have found a place.
    pub findings: usize,
}

/// What has to share the sheet.
#[derive(Debug, Clone, Copy)]
pub(in crate::views) struct Request<'a> {
    /// The layout.
    pub model: &'a Model,
    /// The arrangement.
    pub arrangement: &'a Arrangement,
    /// The sheet.
    pub paper: Paper,
    /// Its modules.
    pub modules: &'a Flexible,
    /// Its modules in a narrower table.
    pub compact: &'a Flexible,
    /// Its findings.
    pub findings: &'a Flexible,
    /// Its openings, where there is room for all of them; else they are on the sheet of findings.
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
    /// Letters of the tables are larger where all that is listed finds its place nevertheless.
    pub fn layout(&self) -> SheetLayout {
        let found = self.largest();
        self.in_larger_letters(&found).unwrap_or(found)
    }

    fn in_larger_letters(&self, found: &SheetLayout) -> Option<SheetLayout> {
        let [modules, compact, findings, openings] =
            [self.modules, self.compact, self.findings, self.openings].map(Flexible::larger);
        let larger =
            Request { modules: &modules, compact: &compact, findings: &findings, openings: &openings, ..*self };
        let narrow = found.tables.first().is_some_and(|table| table.heading.starts_with(&compact.heading));
        let room =
            Room { all: found.paper.drawing_space().inset(-notes::INSET), strip: found.notes.y1, notes: found.notes };
        let at = Placement { origin: Point::ZERO, ..found.place };
        let layout = larger.with(if narrow { &compact } else { &modules }, at, &room, found.chains)?;
        let listed = |layout: &SheetLayout| (layout.modules, layout.findings, layout.openings);
        let same = found.dimensioned && listed(&layout) == listed(found);
        same.then(|| SheetLayout { paper: found.paper, remarks: found.remarks.clone(), ..layout })
    }

    fn largest(&self) -> SheetLayout {
        let asked = self.model.sheets.scale;
        if let Some(layout) = asked.and_then(|asked| self.at_scale(self.paper, asked, &self.revision(), false)) {
            return layout;
        }
        let larger = |paper: &Paper| paper.width >= self.paper.width;
        let upright = self.paper.is_portrait();
        let papers = Paper::ALL.map(|paper| if upright { paper.turned() } else { paper });
        let papers: Vec<Paper> = papers.into_iter().filter(larger).collect();
        let legible = papers.iter().find_map(|paper| self.on_paper(*paper, SMALLEST));
        let any = || papers.iter().rev().find_map(|paper| self.on_paper(*paper, f64::INFINITY));
        legible.or_else(any).unwrap_or_else(|| self.anyhow())
    }

    /// The largest scale down to the smallest on one paper.
    fn on_paper(&self, paper: Paper, smallest: f64) -> Option<SheetLayout> {
        let asked = self.model.sheets.scale;
        let remarks = self.remarks(paper);
        let fitting = |wish: &f64| *wish <= smallest && asked.is_none_or(|asked| *wish > asked);
        let scales: Vec<f64> = scale::REDUCTIONS.into_iter().filter(fitting).collect();
        let find = |whole| scales.iter().find_map(|wish| self.at_scale(paper, *wish, &remarks, whole));
        find(true).or_else(|| find(false))
    }

    /// What the revision is about.
    fn revision(&self) -> Vec<String> {
        let title = &self.model.title;
        let note =
            (!title.revision_note.is_empty()).then(|| format!("Revision {}: {}", title.revision, title.revision_note));
        note.into_iter().collect()
    }

    /// The revision, and when paper or scale are not what was asked for.
    fn remarks(&self, paper: Paper) -> Vec<String> {
        let name = self.paper.name;
        let remark = match self.model.sheets.scale.map(|asked| scale::name(Some(asked))) {
            Some(asked) => Some(format!("Scale {asked} was asked for but does not fit on {name}.")),
            None if paper != self.paper => Some(format!("Paper {name} was asked for but the plan does not fit on it.")),
            None => None,
        };
        self.revision().into_iter().chain(remark).collect()
    }

    fn scene(&self, place: Placement, chains: Extra) -> Scene<'_> {
        Scene { model: self.model, arrangement: self.arrangement, place, chains }
    }

    fn room(&self, paper: Paper, remarks: &[String]) -> Room {
        let longest = [remarks, &[format!("{ELSEWHERE} {OPENINGS_ELSEWHERE}")]].concat();
        let (notes, strip) = notes::place(paper, self.held, |width| notes::height(width, self.model, &longest));
        Room { all: paper.drawing_space().inset(-notes::INSET), strip, notes }
    }

    /// The layout at one scale, if the plan fits; with `whole` only if all rows of the modules fit, too. Chains beside
    /// the usual ones, then what modules are in words, are left out where that lets the plan fit.
    fn at_scale(&self, paper: Paper, wish: f64, remarks: &[String], whole: bool) -> Option<SheetLayout> {
        let hatches = self.model.openings.iter().any(Opening::lies_flat);
        let variants = [self.modules, self.compact].into_iter().flat_map(|modules| {
            Extra::FROM_ALL.into_iter().filter(move |extra| hatches || !extra.roof()).map(move |extra| (modules, extra))
        });
        let mut layouts = variants.filter_map(|(modules, extra)| {
            let room = self.room(paper, remarks);
            self.with(modules, Placement { scale: wish, origin: Point::ZERO }, &room, extra)
        });
        let found = layouts.find(|layout| !whole || layout.modules == self.modules.rows.len())?;
        let unlisted = found.findings == 0 && !self.findings.rows.is_empty();
        let more = [unlisted.then_some(ELSEWHERE), (!found.openings).then_some(OPENINGS_ELSEWHERE)];
        let more = more.into_iter().flatten().collect::<Vec<_>>().join(" ");
        let remarks = remarks.iter().cloned().chain((!more.is_empty()).then_some(more)).collect();
        Some(SheetLayout { paper, remarks, ..found })
    }

    /// The layout with one form of the modules' table, and some chains more or fewer, if the plan fits.
    fn with(&self, modules: &Flexible, at: Placement, room: &Room, extra: Extra) -> Option<SheetLayout> {
        let block = block(&self.scene(at, extra));
        let area = Rect { y0: room.strip + GAP, ..room.all };
        if block.width() > area.width() || block.height() > area.height() {
            return None;
        }
        let wanted = Wanted { modules, findings: self.findings, openings: self.openings };
        let placed = place(&wanted, area, block.size());
        let origin = placed.free.center() - block.center().to_vec2();
        Some(SheetLayout {
            place: Placement { origin, ..at },
            paper: self.paper,
            chains: extra,
            dimensioned: true,
            tables: placed.tables,
            notes: room.notes,
            remarks: Vec::new(),
            openings: placed.openings,
            modules: placed.modules,
            findings: placed.findings,
        })
    }

    /// The plan fits no sheet with its dimensions: small, without them, in the middle of the paper asked for.
    fn anyhow(&self) -> SheetLayout {
        let mut remarks = self.revision();
        remarks.push(format!("Too much for any sheet: drawn without dimensions. {OPENINGS_ELSEWHERE}"));
        let room = self.room(self.paper, &remarks);
        let area = Rect { y0: room.strip + GAP, ..room.all }.inset(-2.0 * GAP);
        let outside = self.scene(Placement { scale: 1.0, origin: Point::ZERO }, Extra::NONE).outside();
        let scale = scale::largest_that_fits(outside.width(), outside.height(), area.width(), area.height());
        let origin = area.center() - outside.center().to_vec2() / scale;
        let place = Placement { scale, origin };
        let (paper, notes) = (self.paper, room.notes);
        SheetLayout {
            place,
            paper,
            chains: Extra::NONE,
            dimensioned: false,
            tables: Vec::new(),
            notes,
            remarks,
            openings: false,
            modules: 0,
            findings: 0,
        }
    }
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

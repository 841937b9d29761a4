//! Cutting diagrams: a sheet of paper for each different stock sheet, true to scale, with its cuts in order.

mod cuts;
mod diagram;
mod job;
mod lettering;

use crate::base::number::trimmed;
use crate::drawing::{Paper, scale};
use crate::joinery::nesting::{CutSheet, CuttingPlan};
use crate::joinery::{CutList, CutPart, Row, StockTotal};
use crate::model::{Grain, Model};
use crate::views::kit::beside::{draw_notes, notes_height, place_rows, rest, wrapped};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::Draft;
use crate::views::kit::pages;
use crate::views::kit::placement::Placement;
use crate::views::kit::words::plain;
use crate::views::plan::notes::{self, INSET};
use diagram::Drawn;
pub use job::CuttingJob;
use kurbo::{Point, Rect, Size};

/// Width of the list beside the diagram and of its columns under it, mm.
const LIST: f64 = 107.0;
/// A place that takes fewer rows of the list than these, and not all, is left free.
const LEAST: usize = 5;
/// Left of the diagram and under it for dimensions, and over it for the caption, mm.
const AROUND: f64 = 13.0;
/// The notes say what finds no room in the diagram, and take room themselves: so often the two are fitted, at most.
const TRIES: usize = 4;
/// Runs of numbers of alike sheets that are told, at most; of more it is told how many they are.
const MOST_RUNS: usize = 6;
/// Different sheets of one stock that are drawn, at most; the cutting plan in `cutting-plan.csv` has all.
const MOST: usize = 100;

/// The jobs of a cut list.
pub(super) fn jobs<'a>(model: &Model, list: &'a CutList) -> Vec<CuttingJob<'a>> {
    list.totals.iter().filter_map(|total| job(model, list, total)).collect()
}

fn job<'a>(model: &Model, list: &'a CutList, total: &'a StockTotal) -> Option<CuttingJob<'a>> {
    let stock = total.stocks(model).next()?;
    let rows = list.rows.get(total.rows.clone())?;
    let sheet = |row: &Row| model.stocks.get(row.stock).map_or(Grain::Free, |stock| stock.grain);
    let grain = |row: &Row| row.grain != Grain::Free && sheet(row) != Grain::Free;
    Some(CuttingJob {
        id: stock.name.clone(),
        name: total.names(model),
        says: format!("{}, {} mm", stock.material, trimmed(stock.thickness, 1)),
        grain: total.grain,
        kerf: stock.kerf,
        trim: stock.trim,
        parts: rows.iter().map(|row| CutPart { number: row.number.clone(), grain: grain(row) }).collect(),
        plan: &total.plan,
    })
}

/// Sheets for all jobs.
pub(super) fn sheets(paper: Paper, held: bool, jobs: &[CuttingJob<'_>]) -> Vec<Draft> {
    jobs.iter()
        .flat_map(|job| different(job.plan).into_iter().flat_map(move |one| one.drafts(job, paper, held)))
        .collect()
}

/// A sheet with its places among the sheets of its plan, from 1; all of them are cut alike.
struct Different<'a> {
    sheet: &'a CutSheet,
    first: usize,
    others: Vec<usize>,
}

fn different(plan: &CuttingPlan) -> Vec<Different<'_>> {
    let mut all: Vec<Different<'_>> = Vec::new();
    for (index, sheet) in plan.sheets.iter().enumerate() {
        match all.iter().position(|known| known.sheet == sheet) {
            Some(known) => all.get_mut(known).into_iter().for_each(|known| known.others.push(index + 1)),
            None if all.len() < MOST => all.push(Different { sheet, first: index + 1, others: Vec::new() }),
            None => {}
        }
    }
    all
}

/// Where the diagram stands on the paper, and where its list may.
struct Layout {
    scale: f64,
    diagram: Rect,
    lists: Vec<Rect>,
}

impl Different<'_> {
    fn drafts(&self, job: &CuttingJob<'_>, paper: Paper, held: bool) -> Vec<Draft> {
        let full = paper.drawing_space().inset(-INSET);
        let mut notes = Vec::new();
        let mut settled = None;
        for _ in 0..TRIES {
            let (place, foot) = notes::place(paper, held, |width| notes_height(&notes, width));
            let layout = self.layout(Rect { y0: foot + INSET, ..full });
            let mut canvas = Canvas::default();
            let drawn = Drawn { job, sheet: self.sheet, caption: self.caption(job), place: self.place(&layout) };
            let said = drawn.draw(&mut canvas);
            let holds = wrapped(&said, place.width()).len() <= wrapped(&notes, place.width()).len();
            draw_notes(place, layout.scale, wrapped(&said, place.width()), &mut canvas);
            settled = Some((layout, canvas));
            if holds {
                break;
            }
            notes = said;
        }
        settled.map_or_else(Vec::new, |(layout, canvas)| self.with_list(job, (paper, held), layout, canvas))
    }

    /// The sheet with its list of cuts, and more sheets for what of the list has no place on it.
    fn with_list(
        &self,
        job: &CuttingJob<'_>,
        (paper, held): (Paper, bool),
        layout: Layout,
        mut canvas: Canvas,
    ) -> Vec<Draft> {
        let table = cuts::table(job, self.sheet);
        let mut left = Some(table);
        for mut slot in layout.lists {
            let Some(table) = left.take() else { break };
            if table.fitting_in(slot, 0) < table.rows.len().min(LEAST) {
                left = Some(table);
                continue;
            }
            let shown = place_rows(&table, &mut slot, "", &mut canvas);
            left = rest(&table, shown).map(|rest| if shown > 0 { cuts::continued(rest) } else { rest });
        }
        let mut drafts = vec![self.draft(job, paper, layout.scale, canvas)];
        if let Some(table) = left {
            let (id, title) = (format!("{}-cuts", self.id(job)), format!("{}, cuts", self.title(job)));
            drafts.extend(pages::sheets(paper, held, &id, &title, &[table], 0));
        }
        drafts
    }

    fn id(&self, job: &CuttingJob<'_>) -> String {
        plain(&format!("cutting-{}-{}", job.id, self.first))
    }

    fn title(&self, job: &CuttingJob<'_>) -> String {
        format!("Cutting diagram, {} {}", job.name, self.first)
    }

    /// Which sheets it is: `sheet 1 of 3`, `sheets 1 to 3 of 5`, `sheets 1, 4 of 5`.
    fn which(&self, job: &CuttingJob<'_>) -> String {
        let of = job.plan.sheets.len();
        let mut runs: Vec<(usize, usize)> = vec![(self.first, self.first)];
        for number in &self.others {
            match runs.last_mut() {
                Some(run) if run.1 + 1 == *number => run.1 = *number,
                _ => runs.push((*number, *number)),
            }
        }
        if runs.len() > MOST_RUNS {
            return format!("sheet {} of {of} × {}", self.first, self.others.len() + 1);
        }
        let run = |(first, last): &(usize, usize)| match last - first {
            0 => first.to_string(),
            1 => format!("{first}, {last}"),
            _ => format!("{first} to {last}"),
        };
        let numbers = runs.iter().map(run).collect::<Vec<_>>().join(", ");
        format!("sheet{} {numbers} of {of}", if self.others.is_empty() { "" } else { "s" })
    }

    fn caption(&self, job: &CuttingJob<'_>) -> String {
        let (length, width) = self.sheet.size;
        let on_hand = if self.sheet.on_hand { " on hand" } else { "" };
        let used: f64 =
            self.sheet.pieces.iter().map(|piece| piece.length * piece.width).sum::<f64>() / (length * width);
        let (length, width) = (trimmed(length, 1), trimmed(width, 1));
        let share = trimmed(used * 100.0, 0);
        format!(
            "{}{}{on_hand}: {length} × {width}, {share} % used",
            job.name,
            self.which(job).replacen("sheet", ", sheet", 1)
        )
    }

    fn draft(&self, job: &CuttingJob<'_>, paper: Paper, scale: f64, canvas: Canvas) -> Draft {
        let says = if job.says.is_empty() { String::new() } else { format!(" ({})", job.says) };
        Draft {
            paper,
            id: self.id(job),
            title: self.title(job),
            document_type: "Cutting diagram".to_owned(),
            supplement: format!("{}{says}, {}", job.name, self.which(job)),
            scale: Some(scale),
            views: vec![canvas.view("cutting", &self.title(job), Some(scale))],
        }
    }

    /// With the list beside the diagram if that does not make it smaller, and under it.
    fn layout(&self, area: Rect) -> Layout {
        let (length, width) = self.sheet.size;
        let largest = |area: Rect| {
            let room = area.size() - Size::new(AROUND, 2.0 * AROUND);
            scale::largest_that_fits(length, width, room.width, room.height)
        };
        let narrower = Rect { x1: area.x1 - LIST - INSET, ..area };
        let scale = largest(area);
        let is_beside = largest(narrower) <= scale;
        let diagram = if is_beside { narrower } else { area };
        let beside = Rect { x0: area.x1 - LIST, ..area };
        let under = Rect { y1: area.y1 - width / scale - 2.0 * AROUND, ..diagram };
        let lists = is_beside.then_some(beside).into_iter().chain(columns(under)).collect();
        Layout { scale, diagram, lists }
    }

    /// The diagram at the upper left of its place.
    fn place(&self, layout: &Layout) -> Placement {
        let high = self.sheet.size.1 / layout.scale;
        let origin = Point::new(layout.diagram.x0 + AROUND, layout.diagram.y1 - AROUND / 2.0 - high);
        Placement { scale: layout.scale, origin }
    }
}

/// Columns side by side, as wide as a list at least.
fn columns(area: Rect) -> impl Iterator<Item = Rect> {
    let count = ((area.width() + INSET) / (LIST + INSET)).floor().max(1.0);
    let wide = (area.width() + INSET) / count - INSET;
    (0..count as u32).map(move |index| {
        let x0 = area.x0 + f64::from(index) * (wide + INSET);
        Rect { x0, x1: x0 + wide, ..area }
    })
}

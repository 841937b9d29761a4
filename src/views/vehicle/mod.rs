//! The sheets of the vehicle: a side view with angles and axle loads, the twist of its frame, load cases, masses.

mod bars;
mod report;
mod side;
mod tables;
mod twist;

use crate::drawing::lettering::wrap;
use crate::drawing::{Align, Item, LayerKind, Paper};
use crate::figures::Figures;
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::Draft;
use crate::views::kit::flexible::HEADING;
use crate::views::kit::pages;
use crate::views::kit::pages::draw_table;
use crate::views::kit::table_layout::PlacedTable;
use crate::views::room::gallery::Gallery;
use kurbo::Point;
use report::{CAUTION, Report};

/// Letters of the caution, and from line to line, mm.
const LETTERS: f64 = 2.5;
const PITCH: f64 = 4.2;

/// The sheets of the vehicle; none for a layout without.
pub(super) fn sheets(paper: Paper, held: bool, figures: &Figures<'_>) -> Vec<Draft> {
    let model = figures.model;
    let Some(vehicle) = &model.vehicle else { return Vec::new() };
    let report = Report { model, vehicle, cases: figures.cases(), weighed: figures.weighed() };
    let mut pictures = vec![side::picture(&report)];
    pictures.extend(twist::picture(&report));
    let gallery = Gallery {
        paper,
        held,
        id: "vehicle",
        title: "Vehicle",
        document_type: "Vehicle",
        supplement: "Size, angles, axle loads".to_owned(),
        scale: None,
        largest: 10.0,
        notes: side::notes(&report),
        tables: vec![tables::outside(&report)],
        together: true,
    };
    let mut drafts = gallery.sheets(&pictures);
    drafts.extend(load_cases_sheet(paper, held, &report));
    let own = [tables::slope(&report), tables::mounts(&report)];
    let lists: Vec<_> = own.into_iter().flatten().chain([tables::groups(&report), tables::largest(&report)]).collect();
    drafts.extend(pages::sheets(paper, held, "masses", "Masses", &lists, 0));
    drafts
}

/// Bars over the table of the load cases; on narrow or low paper the table has sheets of its own.
fn load_cases_sheet(paper: Paper, held: bool, report: &Report<'_>) -> Vec<Draft> {
    const TITLE: &str = "Load cases";
    let slot = pages::slot(paper, held);
    let (mut canvas, table) = (Canvas::default(), tables::cases(report));
    let under = bars::draw(report, Point::new(slot.x0, slot.y1 - HEADING), slot.width(), &mut canvas);
    let caution = format!("{CAUTION} Sums: boxwright explain axle-load --in FILE.");
    let lines = wrap(&caution, LETTERS, slot.width());
    let low = under - 6.0 - PITCH * lines.len() as f64;
    let words = lines.into_iter().enumerate().map(|(index, line)| {
        Item::text(Point::new(slot.x0, under - 6.0 - PITCH * index as f64), line, LETTERS, Align::Start)
    });
    canvas.group(LayerKind::Notes, "caution", "Caution", words.collect());
    let top = low - 2.0;
    let shown = table.fitting(slot.width(), 0, top - slot.y0 - HEADING);
    let whole = shown >= table.rows.len();
    if whole {
        let placed = PlacedTable {
            heading: table.heading.clone(),
            table: table.table(slot.width(), 0, shown),
            at: Point::new(slot.x0, top),
        };
        draw_table(&placed, &mut canvas);
    }
    let mut drafts = vec![Draft {
        paper,
        id: "load-cases".to_owned(),
        title: TITLE.to_owned(),
        document_type: "Vehicle".to_owned(),
        supplement: "Masses and axle loads".to_owned(),
        scale: None,
        views: vec![canvas.view("load-cases", TITLE, None)],
    }];
    if !whole {
        drafts.extend(pages::sheets(paper, held, "load-cases-list", "Load cases, list", &[table], 0));
    }
    drafts
}

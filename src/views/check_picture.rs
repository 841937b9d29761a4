//! A small picture of what one check finds: the plan with its marks, the modules and the finding in words below.

use crate::diagnostic::{Finding, Severity};
use crate::drawing::{Look, Paper, Sheet};
use crate::model::{Arrangement, Model};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::flexible::HEADING;
use crate::views::kit::numbers::numbered;
use crate::views::kit::pages;
use crate::views::kit::placement::Placement;
use crate::views::kit::scene::{Extra, Scene};
use crate::views::kit::table_layout::PlacedTable;
use crate::views::plan::Plans;
use crate::views::plan::legend;
use kurbo::{Point, Vec2};

/// The picture's scale, 25 for 1:25.
const SCALE: f64 = 25.0;
/// Around the plan, for leaves that swing out, mm.
const MARGIN: f64 = 28.0;
/// Least width, mm.
const WIDTH: f64 = 110.0;
/// Between plan and tables, mm.
const GAP: f64 = 4.0;

/// The picture of a check's findings in a layout, in the arrangement of the gravest.
#[must_use]
pub fn check_picture(model: &Model, findings: &[Finding], check: &str) -> Option<Sheet> {
    let own: Vec<Finding> = findings.iter().filter(|one| one.key.check == check).cloned().collect();
    let first = own.iter().min_by_key(|one| one.severity)?;
    let named = first.arrangements.first().and_then(|name| model.arrangements.iter().find(|one| one.name == *name));
    let arrangement = named.or(model.arrangements.first())?;
    let own: Vec<Finding> = own.into_iter().filter(|one| one.severity != Severity::Met).collect();
    Some(sheet(model, arrangement, &numbered(&own), check))
}

fn sheet(model: &Model, arrangement: &Arrangement, findings: &[(usize, &Finding)], check: &str) -> Sheet {
    let unplaced = Placement { scale: SCALE, origin: Point::ZERO };
    let scene = Scene { model, arrangement, place: unplaced, chains: Extra::NONE };
    let outside = scene.outside();
    let width = (outside.width() + 2.0 * MARGIN).max(WIDTH);
    let (modules, words) = (legend::compact_modules(&scene), legend::findings(&scene, findings));
    let tables = [&modules, &words].map(|table| {
        let drawn = table.table(width - 2.0 * GAP, 0, table.rows.len());
        (table.heading.clone(), drawn)
    });
    let under: f64 = tables.iter().map(|(_, table)| HEADING + table.height() + GAP).sum();
    let height = outside.height() + 2.0 * MARGIN + under;
    let paper = Paper { name: "picture", width, height };
    let origin = Point::new((width - outside.width()) / 2.0, under + MARGIN) - outside.origin().to_vec2();
    let scene = Scene { place: Placement { origin, ..unplaced }, ..scene };
    let plans = Plans { model, findings, paper, held: false };
    let mut beside = Canvas::default();
    let mut at = Point::new(GAP, under);
    for (heading, table) in tables {
        let used = HEADING + table.height() + GAP;
        pages::draw_table(&PlacedTable { heading, table, at }, &mut beside);
        at -= Vec2::new(0.0, used);
    }
    let plan = plans.picture(&scene, false, &[]).view("plan", &format!("Plan, {}", arrangement.name), Some(SCALE));
    let views = vec![plan, beside.view("notes", "Modules and findings", None)];
    Sheet { id: check.to_owned(), title: format!("What {check} finds"), paper, views, look: Look::default() }
}

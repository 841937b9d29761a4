//! Views: from the model to drawings. Each file makes one kind of picture or table, or one piece of them.

mod aisles;
mod beside;
mod boot_sheet;
mod boot_view;
mod brochure;
mod canvas;
mod chains;
mod check_picture;
mod check_table;
mod clip;
mod cut_list_sheet;
mod cutting;
mod draft;
mod findings_sheet;
mod flexible;
mod furniture;
mod ink;
mod labels;
mod leaders;
mod legend;
mod marks;
mod notes;
mod numbers;
mod openings;
mod pages;
mod part_labels;
mod piece;
mod placement;
mod plan;
mod raster;
mod room;
#[cfg(test)]
mod sample;
mod scene;
mod schedules;
mod services;
mod sheet_layout;
mod shell;
mod shell_report;
mod table_layout;
#[cfg(test)]
mod tests;
mod vehicle;
mod walkways;

pub use check_picture::check_picture;
pub use cutting::CuttingJob;
pub use part_labels::part_labels;

use crate::checks::Ran;
use crate::diagnostic::{Counts, Finding};
use crate::drawing::{Paper, Sheet};
use crate::joinery::CutList;
use crate::model::{Arrangement, Model, Projection, Title};
use draft::Draft;
use rayon::prelude::*;
use walkways::Narrow;

/// The sheet set of a layout: an index, and after it the kinds of sheets that the layout wants.
#[must_use]
pub fn sheet_set(model: &Model, checks: &[Ran], findings: &[Finding], cut_list: &CutList) -> Vec<Sheet> {
    sheet_set_with(model, (checks, findings), cut_list, &|arrangement| walkways::narrow_places(model, arrangement))
}

/// The sheet set, with the narrowest places of each arrangement's ways given by a function.
fn sheet_set_with(
    model: &Model,
    (checks, findings): (&[Ran], &[Finding]),
    cut_list: &CutList,
    ways: &(dyn Fn(&Arrangement) -> Vec<Narrow> + Sync),
) -> Vec<Sheet> {
    let numbered = numbers::numbered(findings);
    let faults = Counts::of(findings).faults;
    let held = faults > 0;
    let paper = Paper::landscape(&model.sheets.paper).or(Paper::landscape("A3")).unwrap_or(FALLBACK);
    let paper = if model.sheets.portrait { paper.turned() } else { paper };
    let plans = plan::Plans { model, findings: &numbered, paper, held };
    let general = || {
        let drawn = model.arrangements.par_iter().map(|arrangement| plans.sheets(arrangement, &ways(arrangement)));
        drawn.collect::<Vec<_>>().into_iter().flatten().collect()
    };
    let checked = || {
        let tables = [Some(check_table::checks(checks, findings)), check_table::cautions(checks)];
        findings_sheet::sheets(paper, held, tables, &numbered, (&model.limits, &model.title.revisions))
    };
    let kinds: [(&str, &(dyn Fn() -> Vec<Draft> + Sync)); 14] = [
        ("plans", &general),
        ("roof-plan", &|| room::roof_plan::sheets(paper, held, model)),
        ("elevations", &|| room::elevations::sheets(paper, held, model)),
        ("sections", &|| room::sections::sheets(paper, held, model)),
        ("stowage", &|| boot_sheet::sheets(paper, held, model)),
        ("panels", &|| room::panels::sheets(paper, held, model)),
        ("modules", &|| room::module_sheets::sheets(paper, held, model, cut_list)),
        ("vehicle", &|| vehicle::sheets(paper, held, model)),
        ("shell", &|| shell_report::sheets(paper, held, model)),
        ("services", &|| services::sheets(paper, held, model)),
        ("checks", &checked),
        ("schedules", &|| schedules::sheets(paper, held, model, cut_list)),
        ("cut-list", &|| cut_list_sheet::sheets(paper, held, model, cut_list)),
        ("cutting", &|| cutting::sheets(paper, held, &cutting::jobs(model, cut_list))),
    ];
    let drawn = kinds.par_iter().filter(|(kind, _)| model.sheets.wants(kind)).map(|(_, sheets)| sheets());
    let drafts: Vec<Draft> = drawn.collect::<Vec<_>>().into_iter().flatten().collect();
    let index = schedules::index(paper, held, &drafts);
    let all = index.into_iter().chain(drafts).collect();
    let mut sheets = draft::finish(all, (&model.title, model.sheets.projection), faults);
    sheets.extend(model.sheets.wants("brochure").then(|| brochure::sheet(paper, model, findings)));
    sheets
}

/// Cutting diagrams alone, on A3.
#[must_use]
pub fn cutting_set(title: &str, jobs: &[CuttingJob<'_>]) -> Vec<Sheet> {
    let title = Title { title: title.to_owned(), ..Title::default() };
    draft::finish(cutting::sheets(FALLBACK, false, jobs), (&title, Projection::First), 0)
}

/// Used when a name is no sheet's.
const FALLBACK: Paper = Paper { name: "A3", width: 420.0, height: 297.0 };

//! Views: from the model to drawings. Each file makes one kind of picture or table, or one piece of them.

mod boot;
mod brochure;
mod check_picture;
mod cutting;
mod kit;
mod plan;
mod room;
#[cfg(test)]
mod sample;
mod services;
mod shell_report;
mod tables;
#[cfg(test)]
mod tests;
mod vehicle;

pub use check_picture::check_picture;
pub use cutting::CuttingJob;
pub use tables::part_labels::part_labels;

use crate::diagnostic::{Counts, Finding, Ran};
use crate::drawing::{Paper, Sheet};
use crate::figures::Figures;
use crate::model::{Arrangement, Projection, Title};
use kit::draft::Draft;
use plan::walkways::Narrow;
use rayon::prelude::*;

/// Sheets by their ids or kinds: `plan-day`, `plans`; every sheet where none is named.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Chosen(pub Vec<String>);

impl Chosen {
    /// Whether any sheet of a kind is wanted; its ids begin with one of `begins`.
    fn kind(&self, kind: &str, begins: &[&str]) -> bool {
        let of_kind = |name: &String| name == kind || begins.iter().any(|begin| name.starts_with(begin));
        self.0.is_empty() || self.0.iter().any(of_kind)
    }

    /// Whether a sheet of a wanted kind is wanted itself.
    fn sheet(&self, kind: &str, id: &str) -> bool {
        self.0.is_empty() || self.0.iter().any(|name| name == kind || name == id)
    }
}

/// What a sheet set is made from.
#[derive(Debug, Clone, Copy)]
pub struct SheetSet<'a> {
    /// The layout and what is known of it.
    pub figures: &'a Figures<'a>,
    /// The checks that were run.
    pub checks: &'a [Ran],
    /// What they found.
    pub findings: &'a [Finding],
}

/// The sheet set of a layout: an index, and after it the kinds of sheets that the layout wants and that are chosen. A
/// set of chosen sheets has no index and counts its own sheets.
#[must_use]
pub fn sheet_set(input: &SheetSet<'_>, chosen: &Chosen) -> Vec<Sheet> {
    let ways = |arrangement: &Arrangement| plan::walkways::narrow_places(input.figures, arrangement);
    sheet_set_with(input, chosen, &ways)
}

/// The sheet set, with the narrowest places of each arrangement's ways given by a function.
fn sheet_set_with(
    input: &SheetSet<'_>,
    chosen: &Chosen,
    ways: &(dyn Fn(&Arrangement) -> Vec<Narrow> + Sync),
) -> Vec<Sheet> {
    let SheetSet { figures, checks, findings } = *input;
    let model = figures.model;
    let numbered = kit::numbers::numbered(findings);
    let faults = Counts::of(findings).faults;
    let held = faults > 0;
    let paper = Paper::landscape(&model.sheets.paper).or(Paper::landscape("A3")).unwrap_or(FALLBACK);
    let paper = if model.sheets.portrait { paper.turned() } else { paper };
    let plans = plan::Plans { model, findings: &numbered, paper, held };
    let general = || {
        let shown = |arrangement: &&Arrangement| chosen.sheet("plans", &plan::id(arrangement));
        let shown: Vec<&Arrangement> = model.arrangements.iter().filter(shown).collect();
        let drawn = shown.par_iter().map(|arrangement| plans.sheets(arrangement, &ways(arrangement)));
        drawn.collect::<Vec<_>>().into_iter().flatten().collect()
    };
    let checked = || {
        let tables = [Some(tables::check_table::checks(checks, findings)), tables::check_table::cautions(checks)];
        tables::findings_sheet::sheets(paper, held, tables, &numbered, (&model.limits, &model.title.revisions))
    };
    let kinds: [(&str, &[&str], &(dyn Fn() -> Vec<Draft> + Sync)); 14] = [
        ("plans", &["plan-"], &general),
        ("roof-plan", &[], &|| room::roof_plan::sheets(paper, held, model)),
        ("elevations", &["elevation"], &|| room::elevations::sheets(paper, held, model)),
        ("sections", &["section"], &|| room::sections::sheets(paper, held, model)),
        ("stowage", &["stowage", "boot"], &|| boot::sheets(paper, held, figures)),
        ("panels", &["panel-"], &|| room::panels::sheets(paper, held, figures)),
        ("modules", &["module-"], &|| room::module_sheets::sheets(paper, held, model, figures.cut_list())),
        ("vehicle", &["vehicle"], &|| vehicle::sheets(paper, held, figures)),
        ("shell", &["shell", "heat-loss"], &|| shell_report::sheets(paper, held, figures)),
        ("services", &["services"], &|| services::sheets(paper, held, model)),
        ("checks", &["checks", "findings"], &checked),
        ("schedules", &["schedules", "inserts"], &|| tables::schedules::sheets(paper, held, figures)),
        ("cut-list", &["cut-list"], &|| tables::cut_list_sheet::sheets(paper, held, model, figures.cut_list())),
        ("cutting", &["cutting"], &|| cutting::sheets(paper, held, &cutting::jobs(model, figures.cut_list()))),
    ];
    let wanted = kinds.par_iter().filter(|(kind, begins, _)| model.sheets.wants(kind) && chosen.kind(kind, begins));
    let drawn = wanted.map(|(kind, _, sheets)| (kind, sheets())).collect::<Vec<_>>().into_iter();
    let drafts = drawn.flat_map(|(kind, drafts)| drafts.into_iter().filter(|one| chosen.sheet(kind, &one.id)));
    let drafts: Vec<Draft> = drafts.collect();
    let index = if chosen.0.is_empty() { tables::schedules::index(paper, held, &drafts) } else { Vec::new() };
    let all = index.into_iter().chain(drafts).collect();
    let mut sheets = kit::draft::finish(all, (&model.title, model.sheets.projection), faults);
    let brochure = model.sheets.wants("brochure") && chosen.kind("brochure", &[]);
    sheets.extend(brochure.then(|| brochure::sheet(paper, model, findings)));
    sheets
}

/// Cutting diagrams alone, on A3.
#[must_use]
pub fn cutting_set(title: &str, jobs: &[CuttingJob<'_>]) -> Vec<Sheet> {
    let title = Title { title: title.to_owned(), ..Title::default() };
    kit::draft::finish(cutting::sheets(FALLBACK, false, jobs), (&title, Projection::First), 0)
}

/// Used when a name is no sheet's.
const FALLBACK: Paper = Paper { name: "A3", width: 420.0, height: 297.0 };

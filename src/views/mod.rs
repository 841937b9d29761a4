//! Views: from the model to drawings. Each file makes one kind of picture or table, or one piece of them.

mod assembly;
mod boot;
mod brochure;
mod check_picture;
mod chosen;
mod cutting;
mod given;
mod kit;
mod parts;
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
pub use chosen::{Choice, Chosen};
pub use cutting::CuttingJob;
pub use parts::part_tiles;
pub use tables::part_labels::part_labels;

use crate::diagnostic::{Finding, Held, Ran};
use crate::drawing::{GivenSheet, Paper, Sheet};
use crate::figures::Figures;
use crate::model::{Arrangement, PaperSize, Projection, SheetKind, Title, Word};
use kit::draft::Draft;
use plan::walkways::Narrow;
use rayon::prelude::*;

/// What a sheet set is made from.
#[derive(Debug, Clone, Copy)]
pub struct SheetSet<'a> {
    /// The layout and what is known of it.
    pub figures: &'a Figures<'a>,
    /// The checks that were run.
    pub checks: &'a [Ran],
    /// What they found.
    pub findings: &'a [Finding],
    /// Sheets from outside, which come after those of the layout.
    pub given: &'a [GivenSheet],
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
    let SheetSet { figures, checks, findings, given } = *input;
    let model = figures.model;
    let numbered = kit::numbers::numbered(findings);
    let stamped = Held::new(model.errors, findings);
    let held = stamped.any();
    let paper = Paper::landscape(model.sheets.paper);
    let paper = if model.sheets.portrait { paper.turned() } else { paper };
    let plans = plan::Plans { model, findings: &numbered, paper, held };
    let general = || {
        let shown = |arrangement: &&Arrangement| chosen.sheet(SheetKind::Plans, &plan::id(arrangement));
        let shown: Vec<&Arrangement> = model.arrangements.iter().filter(shown).collect();
        let drawn = shown.par_iter().map(|arrangement| plans.sheets(arrangement, &ways(arrangement)));
        drawn.collect::<Vec<_>>().into_iter().flatten().collect()
    };
    let checked = || {
        let tables = [Some(tables::check_table::checks(checks, findings)), tables::check_table::cautions(checks)];
        tables::findings_sheet::sheets(paper, held, tables, &numbered, (&model.limits, &model.title.revisions))
    };
    let of_kind = |kind: SheetKind| match kind {
        SheetKind::Plans => general(),
        SheetKind::RoofPlan => room::roof_plan::sheets(paper, held, model),
        SheetKind::Elevations => room::elevations::sheets(paper, held, model),
        SheetKind::Sections => room::sections::sheets(paper, held, model),
        SheetKind::Stowage => boot::sheets(paper, held, figures),
        SheetKind::Panels => room::panels::sheets(paper, held, figures),
        SheetKind::Modules => room::module_sheets::sheets(paper, held, figures),
        SheetKind::Parts => parts::sheets(paper, held, figures),
        SheetKind::Assembly => assembly::sheets(paper, held, figures),
        SheetKind::Vehicle => vehicle::sheets(paper, held, figures),
        SheetKind::Shell => shell_report::sheets(paper, held, figures),
        SheetKind::Services => services::sheets(paper, held, model),
        SheetKind::Checks => checked(),
        SheetKind::Schedules => tables::schedules::sheets(paper, held, figures),
        SheetKind::CutList => tables::cut_list_sheet::sheets(paper, held, figures),
        SheetKind::Cutting => cutting::sheets(paper, held, &cutting::jobs(model, figures.cut_list())),
        // It is no draft: it has neither frame nor number.
        SheetKind::Brochure => Vec::new(),
    };
    let wants =
        |kind: SheetKind| chosen.kind(kind) && (model.sheets.wants(kind) || (kind.when_asked() && !chosen.all()));
    let wanted = SheetKind::ALL.par_iter().copied().filter(|kind| wants(*kind));
    let drawn = wanted.map(|kind| (kind, of_kind(kind))).collect::<Vec<_>>().into_iter();
    let drafts = drawn.flat_map(|(kind, drafts)| drafts.into_iter().filter(move |one| chosen.sheet(kind, &one.id)));
    let given = given.iter().filter(|one| chosen.given(&one.name)).flat_map(|one| given::sheets(paper, held, one));
    let drafts: Vec<Draft> = drafts.chain(given).collect();
    let index = if chosen.all() { tables::schedules::index(paper, held, &drafts) } else { Vec::new() };
    let all = index.into_iter().chain(drafts).collect();
    let mut sheets = kit::draft::finish(all, (&model.title, model.sheets.projection), stamped);
    sheets.extend(wants(SheetKind::Brochure).then(|| brochure::sheet(paper, model, findings)));
    sheets
}

/// Cutting diagrams alone, on A3.
#[must_use]
pub fn cutting_set(title: &str, jobs: &[CuttingJob<'_>]) -> Vec<Sheet> {
    let title = Title { title: title.to_owned(), ..Title::default() };
    kit::draft::finish(
        cutting::sheets(Paper::landscape(PaperSize::A3), false, jobs),
        (&title, Projection::First),
        Held::default(),
    )
}

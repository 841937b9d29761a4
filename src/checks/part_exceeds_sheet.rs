//! Parts that no sheet of their stock is large enough for.
//!
//! # Computes
//! The cut size of each part, bands off and scribe allowance on, and the usable size of each sheet of its stock, the trim
//! of all four edges off. A part with grain lies along the sheet's grain; one without may turn. What is measured is how
//! much the best sheet is too short or too narrow, in the direction that lacks more.
//!
//! # Why
//! It can't be cut. It is found before the wood is bought.
//!
//! # Limit
//! `least` 0 mm; a part that is larger than every sheet is a fault.
//!
//! # Source
//! Geometry.
//!
//! # Change it
//! List another sheet size: `stocks: { worktop: { sheets: [[3050, 1220]] } }`, or make the module smaller.

use super::check::{Check, Context, page_of};
use super::words::length;
use crate::base::number::{mm, trimmed};
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Severity, SourceClass};
use crate::model::{Grain, Module, Part, Stock};

/// The check `part-exceeds-sheet`.
pub struct PartExceedsSheet;

const NAME: &str = "part-exceeds-sheet";

static LIMITS: [Limit; 1] = [Limit::new("least", Least(0.0), Quantity::Length, SourceClass::Geometry, "geometry")];

impl Check for PartExceedsSheet {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "every part can be cut from a sheet of its stock"
    }

    fn manual(&self) -> String {
        page_of(include_str!("part_exceeds_sheet.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let mut findings = Vec::new();
        let mut tightest: Option<Finding> = None;
        for module in &context.model.modules {
            for part in &module.parts {
                let Some(stock) = context.model.stocks.get(part.stock) else { continue };
                let Some(finding) = look(context, module, part, stock) else { continue };
                if finding.severity != Severity::Met {
                    findings.push(finding);
                } else if tightest.as_ref().is_none_or(|known| spare(&finding) < spare(known)) {
                    tightest = Some(finding);
                }
            }
        }
        findings.extend(tightest);
        findings
    }
}

fn spare(finding: &Finding) -> f64 {
    finding.measured.as_ref().map_or(f64::INFINITY, |measured| measured.value)
}

fn look(context: &Context<'_>, module: &Module, part: &Part, stock: &Stock) -> Option<Finding> {
    let cut = part.cut_size();
    let usable = |(length, width): (f64, f64)| (length - 2.0 * stock.trim, width - 2.0 * stock.trim);
    let room = |sheet: (f64, f64)| (sheet.0 - cut.0).min(sheet.1 - cut.1);
    let ways = stock.sheets.iter().flat_map(|sheet| {
        let (length, width) = usable(sheet.size);
        let turned = (may_turn(part.grain, stock.grain), (width, length));
        [((may_lie(part.grain, stock.grain)), (length, width)), turned]
    });
    let best = ways.filter(|(may, _)| *may).map(|(_, sheet)| (room(sheet), sheet));
    let (spare, sheet) = best.max_by(|a, b| a.0.total_cmp(&b.0))?;
    let size = |(length, width): (f64, f64)| format!("{} x {} mm", trimmed(length, 1), trimmed(width, 1));
    let fits = spare >= -SAME_LENGTH;
    let which = format!("part `{}` of `{}` is {} to cut", part.name, module.name, size(cut));
    let message = if fits {
        format!("{which}, a sheet of `{}` has {} for it", stock.name, size(sheet))
    } else {
        format!("{which}, {} more than a sheet of `{}` has: {}", mm(-spare), stock.name, size(sheet))
    };
    let mut finding = Finding::new(NAME, if fits { Severity::Met } else { Severity::Fault }, &module.name, message);
    finding = finding.of_part(&part.name);
    finding.measured = length(spare);
    finding.required = Some(context.limits.get("least"));
    finding.spans = [Some(module.place_span), part.piece, Some(part.span)].into_iter().flatten().collect();
    Some(finding)
}

/// Whether a part may lie along the sheet, and whether across: grain runs with grain where both have some.
fn may_lie(part: Grain, sheet: Grain) -> bool {
    part == Grain::Free || sheet == Grain::Free || part == sheet
}

fn may_turn(part: Grain, sheet: Grain) -> bool {
    part == Grain::Free || sheet == Grain::Free || part != sheet
}

#[cfg(test)]
mod tests;

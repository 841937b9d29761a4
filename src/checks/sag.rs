//! How much boards bend under what they carry.
//!
//! # Computes
//! For each level board whose symbol says what it carries (`load`, kg/m2): its longest span between what it rests on, and
//! the sag in the middle, `5 q L^4 / (384 E I)`, of a board that only rests at the ends of the span. q is the load and
//! the board's own mass, E that of its stock in the direction of the span. It rests on pieces below it that reach over
//! half its breadth, on pieces that it butts against, and on pins at its ends; of its two directions the stiffer one
//! counts. What is glued to its edge, as a lip, is left out, so the true sag is less. Loads of the library: shelves 50,
//! open wall shelves and hat shelves 30, worktops 60, beds 120, lids of benches 160 kg/m2.
//!
//! # Why
//! A board that sags looks bad, jams doors and drawers, and in a moving vehicle works its joints loose.
//!
//! # Limit
//! `span-over-sag` 200: the span is at least so many times the sag; below is a caution.
//!
//! # Source
//! Formula: elementary bending of a simply supported beam under an even load. Limit: common practice, no source. E of plywood:
//! from its plies; other E and loads: from memory.
//!
//! # Change it
//! `limits: { sag: { span-over-sag: 150, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::with_tightest;
use crate::base::number::{mm, trimmed};
use crate::base::tolerance::BEARING;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Measure, Quantity, Severity};
use crate::geometry::{Axis, Box3};
use crate::model::{Lies, Module, Part, Stock};

/// The check `sag`.
pub struct Sag;

const NAME: &str = "sag";
/// Newton for each kilogram.
const GRAVITY: f64 = 9.81;
/// More than this many times the sag is as good as stiff.
const STIFF: f64 = 100_000.0;

static LIMITS: [Limit; 1] = [Limit::practice("span-over-sag", Least(200.0), Quantity::Count)];

impl Check for Sag {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "shelves, worktops and bed boards stay flat under their load"
    }

    fn manual(&self) -> String {
        page_of(include_str!("sag.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let mut findings = Vec::new();
        for module in &context.model.modules {
            for part in &module.parts {
                let Some(stock) = context.model.stocks.get(part.stock) else { continue };
                findings.extend(worst(module, part, stock).map(|bent| look(context, module, part, &bent)));
            }
        }
        with_tightest(findings)
    }
}

/// A board under its load.
struct Bent {
    span: f64,
    sag: f64,
    load: f64,
}

impl Bent {
    fn ratio(&self) -> f64 {
        (self.span / self.sag.max(f64::MIN_POSITIVE)).min(STIFF)
    }
}

/// The piece of a part that bends most; `None` where the part carries nothing that is stated, or does not lie level.
fn worst(module: &Module, part: &Part, stock: &Stock) -> Option<Bent> {
    let (load, (along, across)) = (part.load?, stock.stiffness?);
    let bent = part.places.iter().filter_map(|place| {
        let Lies { length, width, face } = place.lies?;
        if face.axis != Axis::Z {
            return None;
        }
        let board = place.bounds();
        let pinned = part.held.is_some();
        let ways = [(length.axis, width.axis, along), (width.axis, length.axis, across)];
        let bent = ways.map(|(axis, other, stiffness)| {
            let span = span(module, &board, axis, other, pinned && axis == length.axis)?;
            let pressure = (load + stock.density * part.thickness / 1e3) * GRAVITY / 1e6;
            let inertia = part.thickness.powi(3) / 12.0;
            Some(Bent { span, sag: 5.0 * pressure * span.powi(4) / (384.0 * stiffness * inertia), load })
        });
        bent.into_iter().flatten().max_by(|a, b| a.ratio().total_cmp(&b.ratio()))
    });
    bent.min_by(|a, b| a.ratio().total_cmp(&b.ratio()))
}

/// The longest stretch of a board along an axis between what it rests on; `None` where it rests at one place or none.
fn span(module: &Module, board: &Box3, axis: Axis, other: Axis, pinned: bool) -> Option<f64> {
    let own = board.range(axis);
    let pieces = module.parts.iter().flat_map(|part| &part.places).map(|place| place.bounds());
    let mut rests: Vec<(f64, f64)> = pieces.filter_map(|piece| rest(board, &piece, axis, other)).collect();
    if pinned {
        rests.extend([(own.0, own.0), (own.1, own.1)]);
    }
    rests.sort_by(|a, b| a.0.total_cmp(&b.0));
    let first = rests.first()?;
    let (mut reached, mut longest) = (first.1, 0.0_f64);
    for (low, high) in rests.iter().skip(1) {
        longest = longest.max(low - reached);
        reached = reached.max(*high);
    }
    let middle = f64::midpoint(own.0, own.1);
    let both = first.0 < middle && reached > middle;
    (both && longest > 0.0).then_some(longest)
}

/// The stretch along an axis where a board rests on a piece: on it, over half its breadth, or butted against its end.
fn rest(board: &Box3, piece: &Box3, axis: Axis, other: Axis) -> Option<(f64, f64)> {
    let shared = |axis: Axis| {
        let (a, b) = (board.range(axis), piece.range(axis));
        (a.0.max(b.0), a.1.min(b.1))
    };
    let (breadth, common) = (board.range(other), shared(other));
    if common.1 - common.0 < (breadth.1 - breadth.0) / 2.0 {
        return None;
    }
    let (own, along) = (board.range(axis), shared(axis));
    let under = (piece.z.1 - board.z.0).abs() < BEARING && along.1 > along.0;
    let upright = piece.z.0 < board.z.1 && piece.z.1 > board.z.0;
    let butts = upright && (along.1 - along.0).abs() < BEARING && (along.0 - own.0).min(own.1 - along.0) < BEARING;
    (under || butts).then_some(along)
}

fn look(context: &Context<'_>, module: &Module, part: &Part, bent: &Bent) -> Finding {
    let required = context.limits.get("span-over-sag");
    let limit = required.value();
    let fails = !required.holds(bent.ratio());
    let which = format!(
        "part `{}` of `{}` sags {} mm over {} under {} kg/m²",
        part.name,
        module.name,
        trimmed(bent.sag, 2),
        mm(bent.span),
        trimmed(bent.load, 1)
    );
    let message = if fails {
        let allowed = trimmed(bent.span / limit, 2);
        format!("{which}; a {}th of the span, {allowed} mm, is the most", trimmed(limit, 0))
    } else {
        which
    };
    let mut finding = Finding::new(NAME, if fails { Severity::Caution } else { Severity::Met }, &module.name, message);
    finding = finding.of_part(&part.name);
    finding.measured = Some(Measure { value: bent.ratio(), quantity: Quantity::Count });
    finding.required = Some(required);
    finding.spans = [Some(module.place_span), part.piece, Some(part.span)].into_iter().flatten().collect();
    finding
}

#[cfg(test)]
mod tests;

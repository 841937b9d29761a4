//! How much boards bend under what they carry, and what carries them.
//!
//! # Computes
//! From each level board whose symbol says what it carries (`load`, kg/m2) the load goes down, with the weight of what it
//! passes, to what the board rests on, and on from there until it comes to what stands. For each piece on this way: its
//! sag between two places where it rests, as of a simply supported beam, with forces where they act. A piece rests on pieces
//! and bought things below it that reach over half its breadth, on those that its end butts against and is screwed,
//! dowelled or let in to, on the wall that an end on edge is fixed to, on pins at its ends; on edge also on the face of
//! what stands or reaches further down and is screwed to it. Flat pieces between a board and what stands below them are packing. A flat
//! piece spans the stiffer one of its two ways; with what is glued on it, it is one section, as wide as itself and a tenth of its
//! length. Boards that stand on
//! the floor, run along a wall, hang at the roof, are higher than long or, as brackets at a wall, half as high as long are firm. What is glued to an edge, as a lip, and the
//! help of neighbouring spans are left out, so the true sag is less; what overhangs is only weight. Loads of the
//! library: shelves 50, open wall shelves and shelves of wardrobes 30, worktops 60, beds 120, lids of benches 160 kg/m2.
//!
//! Of a board that carries something and for which nothing was found that holds both of its ends, a note says so.
//!
//! # Why
//! A board that sags looks bad, jams doors and drawers, and in a moving vehicle works its joints loose; a stiff deck on soft
//! battens sags with them.
//!
//! # Limit
//! `span-over-sag` 200: the span is at least so many times the sag; below is a caution.
//!
//! # Source
//! Formula: elementary bending of a simply supported beam under point forces, by which spread ones are summed. Limit: common
//! practice, no source. Width of a glued skin: EN 1995-1-1, table 9.1, from memory. E of plywood: from its plies, on edge the mean of both ways; other E and loads: from memory.
//!
//! # Change it
//! `limits: { sag: { span-over-sag: 150, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::with_tightest;
use crate::base::number::{mm, trimmed};
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Measure, Quantity, Severity};
use crate::figures::bending::{Bent, Carries, bending};
use crate::model::{Module, Part, PieceAt};

/// The check `sag`.
pub struct Sag;

const NAME: &str = "sag";
/// More than this many times the sag is as good as stiff.
const STIFF: f64 = 100_000.0;

static LIMITS: [Limit; 1] = [Limit::practice("span-over-sag", Least(200.0), Quantity::Count)];

impl Check for Sag {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "shelves, worktops, bed boards and what carries them stay straight under their load"
    }

    fn manual(&self) -> String {
        page_of(include_str!("sag.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let mut findings = Vec::new();
        for (module, anchored) in context.model.modules.iter().zip(&context.figures.joints().anchored) {
            let found = bending(module, &context.model.stocks, anchored);
            for (index, part) in module.parts.iter().enumerate() {
                let own = found.bent.iter().filter(|bent| bent.piece.part == index);
                let worst = own.min_by(|a, b| ratio(a).total_cmp(&ratio(b)));
                findings.extend(worst.map(|bent| look(context, module, part, bent)));
                let unheld = found.unheld.iter().find(|piece| piece.part == index);
                findings.extend(unheld.map(|piece| unseen(module, part, *piece)));
            }
        }
        with_tightest(findings)
    }
}

fn ratio(bent: &Bent) -> f64 {
    (bent.span / bent.sag.max(f64::MIN_POSITIVE)).min(STIFF)
}

fn look(context: &Context<'_>, module: &Module, part: &Part, bent: &Bent) -> Finding {
    let required = context.limits.get("span-over-sag");
    let limit = required.value();
    let fails = !required.holds(ratio(bent));
    let under = match bent.carries {
        Carries::Stated(load) => format!("{} kg/m²", trimmed(load, 1)),
        Carries::Handed(mass) => format!("{} kg that rest on it", trimmed(mass, 1)),
    };
    let (sag, over) = (trimmed(bent.sag, 2), mm(bent.span));
    let which = format!("part `{}` of `{}` sags {sag} mm over {over} under {under}", part.name, module.name);
    let message = if fails {
        let allowed = trimmed(bent.span / limit, 2);
        format!("{which}; a {}th of the span, {allowed} mm, is the most", trimmed(limit, 0))
    } else {
        which
    };
    let mut finding = Finding::new(NAME, if fails { Severity::Caution } else { Severity::Met }, &module.name, message);
    finding.measured = Some(Measure { value: ratio(bent), quantity: Quantity::Count });
    finding.required = Some(required);
    place(finding, module, part, bent.piece)
}

/// Nothing holds both ends of what carries something, as far as can be seen.
fn unseen(module: &Module, part: &Part, piece: PieceAt) -> Finding {
    let message = format!(
        "part `{}` of `{}` carries something, and nothing that holds both of its ends was found: how much it sags is not known",
        part.name, module.name
    );
    let finding = Finding::new(NAME, Severity::Note, &module.name, message);
    place(finding, module, part, piece).asks(format!("ends of part {}", piece.part + 1))
}

fn place(mut finding: Finding, module: &Module, part: &Part, piece: PieceAt) -> Finding {
    finding.spans = [Some(module.place_span), part.piece, Some(part.span)].into_iter().flatten().collect();
    finding.of_part(&part.name).asks(format!("part {}", piece.part + 1))
}

//! Whether enough wood is left around everything that is cut into a board.
//!
//! # Computes
//! For each board all that is cut into it: bores, grooves and cut-outs of its symbol, cups, plates and runners of its hardware,
//! pilot holes and dowels of its joints. The least wood between two of them of which one is a bore, between two cut-outs, and
//! from each to the surface of the board: under a blind bore or a groove, beside a bore in an edge to both faces, beside a
//! bore in a face to the outline. Bores are cylinders with flat ends; a round cut-out is the polygon that is drawn. Grooves may
//! meet grooves, cut-outs may touch the outline (a notch). Boards that slope have no joints' bores, so these are not seen.
//!
//! # Why
//! A screw that runs into a row of bores, two screws from both sides at one place, a cup that shows on the good face: found
//! when the drill comes through.
//!
//! # Limit
//! `wood` 2 mm: so much wood is left; less is a fault.
//!
//! # Source
//! Common practice, no source.
//!
//! # Change it
//! Move the bore or the cut-out in the symbol, choose another joint for the part (`joint`), or a thicker stock.
//! `limits: { bore-clash: { wood: 1.5, because: "metal inserts" } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Severity};
use crate::joints::practice::LEAST_WOOD;
use crate::joints::{BoreSide, Cut, CutKind, Left, least_wood};
use crate::model::Module;

/// The check `bore-clash`.
pub struct BoreClash;

const NAME: &str = "bore-clash";

static LIMITS: [Limit; 1] = [Limit::practice("wood", Least(LEAST_WOOD), Quantity::Length)];

impl Check for BoreClash {
    fn name(&self) -> &str {
        NAME
    }

    fn says(&self) -> &str {
        "bores, grooves and cut-outs leave wood between them and around them"
    }

    fn manual(&self) -> String {
        page_of(include_str!("bore_clash.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        with_tightest(context.model.modules.iter().flat_map(|module| {
            let mut worst: Vec<Left<'_>> = Vec::new();
            for left in least_wood(module) {
                match worst.iter_mut().find(|known| known.piece.part == left.piece.part) {
                    Some(known) if left.wood < known.wood => *known = left,
                    Some(_) => {}
                    None => worst.push(left),
                }
            }
            worst.into_iter().filter_map(|left| look(context, module, &left)).collect::<Vec<_>>()
        }))
    }
}

fn look(context: &Context<'_>, module: &Module, left: &Left<'_>) -> Option<Finding> {
    let part = module.parts.get(left.piece.part)?;
    let required = context.limits.get("wood");
    let place = match &left.beside {
        Some(other) => format!("between {} and {}", words(&left.cut), words(other)),
        None => format!("beside {}", words(&left.cut)),
    };
    let what = format!("part `{}` of `{}`", part.name, module.name);
    let message = if left.wood < 0.0 {
        format!("in {what} no wood is left {place}: {} mm too little for them to touch", trimmed(-left.wood, 3))
    } else {
        format!("{what} keeps {} mm of wood {place}", trimmed(left.wood, 3))
    };
    let mut finding = judged(NAME, Severity::Fault, &module.name, (left.wood, required), message);
    finding.spans = [Some(module.place_span), part.piece, Some(part.span)].into_iter().flatten().collect();
    let number = left.piece.part + 1;
    Some(finding.of_part(&part.name).asks(format!("part {number}")))
}

/// A cut and where it is, from the datum corner.
fn words(cut: &Cut<'_>) -> String {
    let (along, across) = cut.at();
    let at = format!("{} / {}", trimmed(along, 1), trimmed(across, 1));
    match cut.kind {
        CutKind::Bore { side, diameter, fixing } => {
            let of = if fixing { "the joint's bore" } else { "the bore" };
            format!("{of} Ø{} at {at} {}", trimmed(diameter, 1), side_words(side))
        }
        CutKind::Groove => format!("the groove at {at}"),
        CutKind::Cutout(name, _) => format!("the cut-out `{name}`"),
    }
}

fn side_words(side: BoreSide) -> &'static str {
    match side {
        BoreSide::Face => "in its face",
        BoreSide::Reverse => "in its reverse",
        BoreSide::Front => "in its front edge",
        BoreSide::Back => "in its back edge",
        BoreSide::Left => "in its left end",
        BoreSide::Right => "in its right end",
    }
}

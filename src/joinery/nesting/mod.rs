//! Laying parts on sheets so that every cut of a panel saw goes from edge to edge.
//!
//! A piece takes its size plus one kerf in a sheet that is as large as the trimmed sheet plus one kerf. All sums are
//! in whole micrometres, so two plans of the same request are equal to the last digit. Plans are chosen by cost, then
//! by the largest offcut of the emptiest sheet, then by the number of cuts. The method is behind [`nest`] alone.

mod aims;
mod bound;
mod dice;
mod extent;
mod packing;
mod plan;
mod request;
mod saw;
mod search;
mod sheet;
mod task;
mod window;

pub use plan::{Cut, CutSheet, CuttingPlan, Division, Offcut, Panel, Placed};
pub use request::{MOST_PIECES, Piece, Request, SheetKind, Turn, usual_effort};

/// Lays the pieces on as cheap sheets as it can find. The same request gives the same plan.
///
/// Pieces without a positive size, and sheets that the trim eats up, count as not fitting.
#[must_use]
pub fn nest(request: &Request) -> CuttingPlan {
    let (task, left_out) = task::task(request);
    if task.items.is_empty() {
        let task::LeftOut { too_large, unplaced } = left_out;
        return CuttingPlan { too_large, unplaced, ..CuttingPlan::default() };
    }
    let bound = bound::Bound::new(&task);
    let packing = search::search(&task, &bound, request.effort);
    plan::plan(request, &task, left_out, &bound, packing)
}

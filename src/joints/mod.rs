//! Joints: how the pieces of a module go together in its first pose, and what follows from it for both pieces and for what
//! is bought.
//!
//! A joint is two bodies that meet, and what holds them. Meetings are found from the places of the pieces; a symbol says only
//! what is unusual (`joint`). Leaves hang on the boards that can take their hinges. Machining that follows is put into the
//! parts, so all lists and drawings have it; pilot holes of screws and dowels, which a hand workshop drills in place, are
//! told by [`bores`].

mod assembly;
mod bores;
mod fixings;
mod hanging;
mod hardware;
mod leaves;
mod locks;
mod meetings;
mod pieces;
pub mod practice;
mod room;
mod runners;
mod settle;
mod strut;
#[cfg(test)]
mod tests;
mod wood;
mod work;

pub use assembly::{Assembly, Kit, Step, assembly};
pub use bores::{Bore, BoreSide, bores};
pub use hardware::{CONNECTING_SCREW, INSERT_SCREW, PACKER, is_for_joints, sold_as};
pub use wood::{Cut, CutKind, Left, least_wood};

use crate::geometry::Axis;
use crate::model::{Hardware, Part, PoseState, Stock, Together, Wall};

/// Joints are looked for in modules of at most so many pieces.
pub const MOST_PIECES: usize = 1000;

/// The pieces of a module with the machining that follows from their joints, how they go together, and what is bought for it.
#[must_use]
pub fn put_together(
    parts: Vec<Part>,
    pose: &PoseState,
    stocks: &[Stock],
    faces: Wall,
) -> (Vec<Part>, Vec<Hardware>, Together) {
    let front = match faces {
        Wall::Front => Some((Axis::X, false)),
        Wall::Rear => Some((Axis::X, true)),
        Wall::Left => Some((Axis::Y, false)),
        Wall::Right => Some((Axis::Y, true)),
        Wall::Roof | Wall::Floor => None,
    };
    let pieces = pieces::pieces(&parts, &pose.moves);
    if pieces.len() > MOST_PIECES {
        return (parts.clone(), Vec::new(), Together { too_many: true, ..Together::default() });
    }
    let mut joints = meetings::meetings(&pieces, &pose.solids);
    let bought = pose.solids.iter().filter(|solid| solid.bought).map(|solid| solid.prism.bounds()).collect();
    let mut rooms = room::Rooms::new(&pieces, bought);
    let runners = runners::bores(&pieces, &joints, front);
    for bores in &runners {
        bores.at.iter().for_each(|at| rooms.bored(bores.piece, *at, bores.axis));
    }
    let leaves = leaves::leaves(&pieces, &pose.moves, stocks, &mut rooms);
    joints.extend(leaves.iter().flat_map(|leaf| hardware::hung(leaf, &parts)));
    let locks = locks::locks(&pieces, &joints, &pose.moves);
    let more = work::machining(&parts, &runners, &leaves, &locks);
    let moving = pieces.iter().filter(|piece| piece.moves.is_some()).map(|piece| piece.at).collect();
    let mut together = Together { joints, leaves, locks, moving, too_many: false };
    let parts = work::worked(parts, &more, &mut together);
    settle::settle(&parts, &mut together);
    let hardware = hardware::hardware(&parts, &together);
    (parts, hardware, together)
}

//! An order in which a module can be put together: found by taking it apart.
//!
//! A whole module is taken apart unit by unit, each along one straight direction past all that is still there; turned round,
//! that is an order in which it can be put together. What has been taken away is never in the way of what follows, so where
//! no unit can leave any more, no order of straight ways exists, and what is left is told (`stuck`). A drawer is one unit,
//! made up before by an order of its own. Dowels let pieces part along themselves only. Which of the units that can leave
//! does so first is a matter of use: leaves, drawers and loose shelves are the last to come, a piece joins others that stand
//! already, and what is low comes before what is high.

mod order;
mod steps;
mod unit;
mod ways;

pub use steps::{Assembly, Kit, Step};

use super::pieces::pieces;
use crate::model::{Joint, Module, Partner, PieceAt};
use order::{Order, order};
use steps::{Told, steps};
use unit::{Unit, units};
use ways::Ways;

/// How a module is put together in its first pose.
#[must_use]
pub fn assembly(module: &Module) -> Assembly {
    let Some(pose) = module.poses.first().filter(|_| !module.together.too_many) else { return Assembly::default() };
    let pieces = pieces(&module.parts, &pose.moves);
    let ways = Ways::new(&pieces, &pose.solids, &module.together.joints);
    let joints = &module.together.joints;
    let units = units(&pieces, pose, &ways, joints);
    let whole = order(&units, &ways, joints, module.faces);
    let told = Told { pieces: &pieces, ways: &ways, joints };
    let mut kits: Vec<Kit> = Vec::new();
    for unit in units.iter().filter(|unit| unit.bodies.len() > 1) {
        let own: Vec<PieceAt> = unit.bodies.iter().filter_map(|body| ways.piece(*body)).collect();
        let kind: Vec<usize> = own.iter().map(|piece| piece.part).collect();
        let same = |kit: &&mut Kit| {
            kit.copies.first().is_some_and(|first| first.iter().map(|one| one.part).eq(kind.iter().copied()))
        };
        if let Some(kit) = kits.iter_mut().find(same) {
            kit.copies.push(own);
            continue;
        }
        let singles: Vec<Unit> = unit.bodies.iter().map(|body| unit.alone(*body)).collect();
        let inner = order(&singles, &ways, joints, module.faces);
        let made = steps(&inner, &singles, &told, &[], &[]);
        kits.push(Kit {
            name: unit.name.clone(),
            copies: vec![own],
            steps: made,
            stuck: stuck(&inner, &singles, &ways),
        });
    }
    let before = |joint: &Joint| kits.iter().flat_map(|kit| &kit.copies).any(|copy| within(joint, copy));
    let done: Vec<bool> = joints.iter().map(before).collect();
    let made = steps(&whole, &units, &told, &kits, &done);
    Assembly { steps: made, stuck: stuck(&whole, &units, &ways), kits }
}

/// Both sides of a joint are among some pieces.
fn within(joint: &Joint, pieces: &[PieceAt]) -> bool {
    let Partner::Piece(other) = joint.other else { return false };
    pieces.contains(&joint.one) && pieces.contains(&other)
}

fn stuck(order: &Order, units: &[Unit], ways: &Ways) -> Vec<PieceAt> {
    let left = order.stuck.iter().filter_map(|unit| units.get(*unit));
    left.flat_map(|unit| unit.bodies.iter().filter_map(|body| ways.piece(*body))).collect()
}

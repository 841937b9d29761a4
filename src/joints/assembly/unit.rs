//! Units: what is brought to its place in one go.

use super::ways::Ways;
use crate::joints::pieces::Piece;
use crate::model::{Joint, Meeting, MoveKind, PoseState, Toward};

/// What is fixed to a loose piece may carry more, so many times over.
const LAYERS: usize = 4;

/// When a unit comes, if nothing else decides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Turn {
    /// It is fixed to others.
    Fixed,
    /// It only lies there, or on pins.
    Loose,
    /// A drawer or a pull-out.
    Drawer,
    /// A leaf.
    Leaf,
    /// It is bought.
    Bought,
}

/// What is brought to its place in one go.
#[derive(Debug, Clone)]
pub(super) struct Unit {
    /// Its bodies.
    pub bodies: Vec<usize>,
    pub turn: Turn,
    /// Which way it opens, if it slides.
    pub opens: Option<Toward>,
    pub name: String,
}

impl Unit {
    /// One of its bodies as a unit.
    pub fn alone(&self, body: usize) -> Self {
        Self { bodies: vec![body], turn: Turn::Fixed, opens: None, name: self.name.clone() }
    }
}

/// All units of a module: drawers whole, loose shelves and leaves with what is fixed to them alone, else piece by piece.
pub(super) fn units(pieces: &[Piece<'_>], pose: &PoseState, ways: &Ways, joints: &[Joint]) -> Vec<Unit> {
    let mut made = each(pieces, pose, ways);
    for _ in 0..LAYERS {
        if !gather(&mut made, ways, joints) {
            break;
        }
    }
    made
}

/// Adds fixed pieces to the loose one that all their joints lead to; whether there were any.
fn gather(units: &mut Vec<Unit>, ways: &Ways, joints: &[Joint]) -> bool {
    let unit_of = |units: &[Unit], body: usize| units.iter().position(|unit| unit.bodies.contains(&body));
    let pairs: Vec<(usize, usize)> = joints
        .iter()
        .filter(|joint| !matches!(joint.meeting, Meeting::Hinged | Meeting::Carried | Meeting::Bought))
        .filter_map(|joint| ways.held(joint))
        .collect();
    let host = |units: &[Unit], at: usize| {
        let own = units.get(at).filter(|unit| unit.turn == Turn::Fixed)?;
        let others = pairs.iter().filter_map(|(a, b)| match (own.bodies.contains(a), own.bodies.contains(b)) {
            (true, false) => Some(*b),
            (false, true) => Some(*a),
            _ => None,
        });
        let mut hosts: Vec<usize> = others.filter_map(|body| unit_of(units, body)).collect();
        hosts.dedup();
        match hosts[..] {
            [host] => units.get(host).filter(|unit| matches!(unit.turn, Turn::Loose | Turn::Leaf)).map(|_| host),
            _ => None,
        }
    };
    let moves: Vec<(usize, usize)> = (0..units.len()).filter_map(|at| Some((at, host(units, at)?))).collect();
    for (at, host) in &moves {
        let bodies = units.get_mut(*at).map(|unit| std::mem::take(&mut unit.bodies)).unwrap_or_default();
        units.get_mut(*host).into_iter().for_each(|unit| unit.bodies.extend(bodies.iter().copied()));
    }
    units.retain(|unit| !unit.bodies.is_empty());
    !moves.is_empty()
}

/// Units piece by piece, drawers whole.
fn each(pieces: &[Piece<'_>], pose: &PoseState, ways: &Ways) -> Vec<Unit> {
    let mut made: Vec<Unit> = Vec::new();
    let mut slides: Vec<(usize, usize)> = Vec::new();
    for (body, piece) in pieces.iter().enumerate() {
        let kind = piece.moves.and_then(|index| pose.moves.get(index)).map(|one| &one.kind);
        let name = piece.part.name.clone();
        match (kind, piece.moves) {
            (Some(MoveKind::Slide(slide)), Some(index)) => {
                if let Some((_, known)) = slides.iter().find(|(of, _)| *of == index) {
                    made.get_mut(*known).into_iter().for_each(|unit| unit.bodies.push(body));
                    continue;
                }
                slides.push((index, made.len()));
                let opens = Some(Toward { axis: slide.axis, up: slide.travel > 0.0 });
                let name = pose.moves.get(index).map_or_else(String::new, |one| one.name.clone());
                made.push(Unit { bodies: vec![body], turn: Turn::Drawer, opens, name });
            }
            (Some(MoveKind::Swing(_)), _) => {
                made.push(Unit { bodies: vec![body], turn: Turn::Leaf, opens: None, name })
            }
            _ => {
                let loose = piece.part.held.is_some();
                let turn = if loose { Turn::Loose } else { Turn::Fixed };
                made.push(Unit { bodies: vec![body], turn, opens: None, name });
            }
        }
    }
    let bought = (pieces.len()..ways.len()).map(|body| {
        let name =
            ways.solid(body).and_then(|solid| pose.solids.get(solid)).map_or_else(String::new, |one| one.name.clone());
        Unit { bodies: vec![body], turn: Turn::Bought, opens: None, name }
    });
    made.extend(bought);
    made
}

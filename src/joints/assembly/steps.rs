//! Steps: units that come one after the other in the same way are one step, with the joints that are made in it.

use super::order::{Order, Taken};
use super::unit::{Turn, Unit};
use super::ways::Ways;
use crate::joints::pieces::Piece;
use crate::model::{Joint, PieceAt, Toward};

/// Most units that one step puts in place.
const MOST: usize = 12;

/// One step.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// The pieces that are put in place, in their order; those of drawers too.
    pub pieces: Vec<PieceAt>,
    /// Bought solids of the first pose that are put in place, by index.
    pub bought: Vec<usize>,
    /// Which of the kits it is that comes whole.
    pub kit: Option<usize>,
    /// How many units come.
    pub count: usize,
    /// The side that they come from; `None` for the first, and for what no way was found for.
    pub from: Option<Toward>,
    /// Joints of the module that are made, by index.
    pub joints: Vec<usize>,
}

/// A drawer or the like that is made up before it comes.
#[derive(Debug, Clone, PartialEq)]
pub struct Kit {
    /// Name of its move.
    pub name: String,
    /// The pieces of each that is alike.
    pub copies: Vec<Vec<PieceAt>>,
    /// Steps of the first.
    pub steps: Vec<Step>,
    /// Its pieces that no order was found for.
    pub stuck: Vec<PieceAt>,
}

/// How a module is put together.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Assembly {
    /// What is made up first.
    pub kits: Vec<Kit>,
    /// The steps.
    pub steps: Vec<Step>,
    /// Pieces that can't be brought in one after the other along straight lines; they stand in the first steps.
    pub stuck: Vec<PieceAt>,
}

/// What steps are told of.
pub(super) struct Told<'a> {
    pub pieces: &'a [Piece<'a>],
    pub ways: &'a Ways,
    pub joints: &'a [Joint],
}

/// The steps of an order; `done` tells of joints that are made before.
pub(super) fn steps(order: &Order, units: &[Unit], told: &Told<'_>, kits: &[Kit], done: &[bool]) -> Vec<Step> {
    let mut done = done.to_vec();
    done.resize(told.joints.len(), false);
    let mut there = vec![false; told.ways.len()];
    let mut made = Vec::new();
    let mut rest = order.taken.as_slice();
    while let Some(first) = rest.first() {
        let count = alike(rest, units, told).clamp(1, MOST);
        let (own, others) = rest.split_at(count);
        let bodies: Vec<usize> =
            own.iter().filter_map(|taken| units.get(taken.unit)).flat_map(|unit| unit.bodies.iter().copied()).collect();
        bodies.iter().for_each(|body| there.get_mut(*body).into_iter().for_each(|there| *there = true));
        let stands = |body: usize| there.get(body).copied().unwrap_or(false);
        let mut joints = Vec::new();
        for (index, (joint, done)) in told.joints.iter().zip(&mut done).enumerate().filter(|(_, (_, done))| !**done) {
            if told.ways.held(joint).is_some_and(|(one, other)| stands(one) && stands(other)) {
                *done = true;
                joints.push(index);
            }
        }
        let pieces: Vec<PieceAt> = bodies.iter().filter_map(|body| told.ways.piece(*body)).collect();
        let kit = pieces
            .first()
            .and_then(|piece| kits.iter().position(|kit| kit.copies.iter().any(|copy| copy.contains(piece))));
        let bought = bodies.iter().filter_map(|body| told.ways.solid(*body)).collect();
        made.push(Step { pieces, bought, kit, count, from: first.from, joints });
        rest = others;
    }
    made
}

/// How many units from the first on are alike and come in the same way.
fn alike(rest: &[Taken], units: &[Unit], told: &Told<'_>) -> usize {
    let what = |taken: &Taken| {
        let unit = units.get(taken.unit)?;
        let kinds: Vec<(&str, (i64, i64))> = unit.bodies.iter().filter_map(|body| told.kind(*body)).collect();
        Some((unit.turn, kinds, taken.from, (unit.turn == Turn::Bought).then_some(&unit.name)))
    };
    let Some(first) = rest.first().and_then(what) else { return 1 };
    1 + rest.iter().skip(1).take_while(|taken| what(taken).is_some_and(|one| one == first)).count()
}

impl Told<'_> {
    /// Name and size of a piece: left and right ones are alike.
    fn kind(&self, body: usize) -> Option<(&str, (i64, i64))> {
        let piece = self.pieces.get(body)?;
        // Lengths are bounded, so millimetres are far within the range.
        #[allow(clippy::cast_possible_truncation)]
        let size = (piece.part.length.round() as i64, piece.part.width.round() as i64);
        Some((piece.part.name.as_str(), size))
    }
}

//! Locks and handles of fronts: their bores, and the boards that keep shut what a lock shuts.

use super::pieces::{AXES, Piece, meet, middle, point};
use super::practice::{LOCK_INSET, LOCK_REACH, LOCK_WOOD, TOUCH};
use crate::geometry::{Axis, Box3, Point3};
use crate::model::{Joint, Lock, Move, MoveKind, Partner, PieceAt};

/// A front with the directions in it.
struct Front<'p, 'a> {
    piece: &'p Piece<'a>,
    turns: usize,
    /// Along the edge that opens.
    axis: Axis,
    /// Toward that edge, and on which side of the front it lies.
    toward: Axis,
    high: bool,
    through: Axis,
    /// It is the front of a drawer.
    slides: bool,
}

/// The locks and handles of all fronts that have one.
pub(super) fn locks(pieces: &[Piece<'_>], joints: &[Joint], moves: &[Move]) -> Vec<Lock> {
    let firm: Vec<&Piece<'_>> = pieces.iter().filter(|piece| is_firm(piece, pieces, joints)).collect();
    let fronts = pieces.iter().filter_map(|piece| front(piece, moves));
    fronts.filter_map(|front| lock(&front, pieces, &firm)).collect()
}

/// A board that neither moves, nor is carried by hardware, nor is fixed to nothing but such boards.
fn is_firm(piece: &Piece<'_>, pieces: &[Piece<'_>], joints: &[Joint]) -> bool {
    let stays = |piece: &Piece<'_>| piece.moves.is_none() && piece.part.held.is_none();
    let find = |at: PieceAt| pieces.iter().find(|piece| piece.at == at);
    let mut others = joints.iter().filter_map(|joint| match joint.other {
        Partner::Piece(other) if joint.one == piece.at => find(other),
        Partner::Piece(other) if other == piece.at => find(joint.one),
        _ => None,
    });
    stays(piece) && others.next().is_none_or(|first| stays(first) || others.any(stays))
}

fn front<'p, 'a>(piece: &'p Piece<'a>, moves: &[Move]) -> Option<Front<'p, 'a>> {
    piece.part.lock?;
    let (turns, through) = (piece.moves?, piece.face()?);
    let (axis, toward, high, slides) = match &moves.get(turns)?.kind {
        MoveKind::Swing(swing) if swing.axis == through => return None,
        MoveKind::Swing(swing) => {
            let toward = swing.axis.third(through);
            let hinge = if swing.axis.plane().0 == toward { swing.hinge.x } else { swing.hinge.y };
            (swing.axis, toward, hinge <= middle(piece.bounds.range(toward)), false)
        }
        MoveKind::Slide(_) if through == Axis::Z => return None,
        MoveKind::Slide(_) => (through.third(Axis::Z), Axis::Z, true, true),
    };
    Some(Front { piece, turns, axis, toward, high, through, slides })
}

/// The lock in the middle of the edge that opens or, where no board behind it can keep it, at one of its ends.
fn lock(front: &Front<'_, '_>, pieces: &[Piece<'_>], firm: &[&Piece<'_>]) -> Option<Lock> {
    let by = front.piece.part.lock?;
    let bounds = front.piece.bounds;
    let inset = |axis: Axis| LOCK_INSET.min(front.piece.size(axis) / 2.0);
    let (low, high) = bounds.range(front.toward);
    let toward = if front.high { high - inset(front.toward) } else { low + inset(front.toward) };
    let (low, high) = bounds.range(front.axis);
    let along = [middle((low, high)), high - inset(front.axis), low + inset(front.axis)];
    let at = along.map(|along| {
        let at =
            point([(front.axis, along), (front.toward, toward), (front.through, middle(bounds.range(front.through)))]);
        // The bore goes through the box of a drawer, too, and leaves wood above it.
        let room = by.bores().iter().map(|(_, diameter)| diameter / 2.0).fold(0.0, f64::max) + LOCK_WOOD;
        let tops = behind(front, at, pieces).map(|piece| piece.bounds.range(front.toward).1 - room);
        at.on(front.toward, tops.fold(toward, f64::min))
    });
    // The ends of a drawer's front have the sides of its box behind them.
    let tries = if front.slides { 1 } else { at.len() };
    let kept = at.iter().take(tries).find_map(|at| keep(*at, firm).map(|keep| (*at, keep)));
    let (at, keep) = match (by.shuts(), kept) {
        (true, Some((at, keep))) => (at, Some(keep)),
        _ => (at[0], None),
    };
    let through = std::iter::once(front.piece).chain(behind(front, at, pieces)).map(|piece| piece.at).collect();
    Some(Lock { through, turns: front.turns, by, at, along: front.axis, across: front.through, keep })
}

/// Boards of a drawer right behind its front.
fn behind<'s>(front: &'s Front<'_, '_>, at: Point3, pieces: &'s [Piece<'_>]) -> impl Iterator<Item = &'s Piece<'s>> {
    let along = super::room::along(at, front.axis);
    let right_behind = move |piece: &&Piece<'_>| {
        let (low, high) = piece.bounds.range(front.axis);
        piece.at != front.piece.at
            && piece.moves == Some(front.turns)
            && piece.face() == Some(front.through)
            && front.piece.bounds.gap(&piece.bounds, front.through) < TOUCH
            && (low..=high).contains(&along)
    };
    pieces.iter().filter(|_| front.slides).filter(right_behind)
}

/// A fixed board within reach of a lock, and the place on it nearest to the lock.
fn keep(at: Point3, firm: &[&Piece<'_>]) -> Option<(PieceAt, Point3)> {
    let around = |axis: Axis| {
        let at = super::room::along(at, axis);
        (at - LOCK_REACH, at + LOCK_REACH)
    };
    let reach = AXES.into_iter().fold(Box3::default(), |reach, axis| reach.with(axis, around(axis)));
    let mut near = firm.iter().filter_map(|piece| {
        let common = AXES.map(|axis| meet(piece.bounds.range(axis), reach.range(axis)).map(|range| (axis, range)));
        let [Some(x), Some(y), Some(z)] = common else { return None };
        let place = [x, y, z].map(|(axis, (low, high))| (axis, super::room::along(at, axis).clamp(low, high)));
        let place = point(place);
        let off = AXES.map(|axis| super::room::along(place, axis) - super::room::along(at, axis));
        Some((off.iter().map(|off| off * off).sum::<f64>(), piece.at, place))
    });
    let first = near.next()?;
    let best = near.fold(first, |best, one| if one.0 < best.0 { one } else { best });
    Some((best.1, best.2))
}

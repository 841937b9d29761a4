//! What meets: faces and edges that touch, panels in grooves, what hardware carries.

use super::fixings::{Contact, fixing, points};
use super::pieces::{AXES, Piece, meet, middle};
use super::practice::{LEAST_HOLD, RUNNERS, TOUCH};
use crate::geometry::{Axis, Box3, common_bounds, overlap};
use crate::model::{Fixing, Joint, Meeting, Partner, Solid, Toward};

/// Hardware bridges no gap wider than this, mm.
const MOST_REACH: f64 = 100.0;

/// All joints of a module but those of its leaves.
pub(super) fn meetings(pieces: &[Piece<'_>], solids: &[Solid]) -> Vec<Joint> {
    let mut made = Vec::new();
    let mut along: Vec<usize> = (0..pieces.len()).collect();
    let low = |index: usize| pieces.get(index).map_or(0.0, |piece| piece.bounds.x.0);
    along.sort_by(|a, b| low(*a).total_cmp(&low(*b)).then(a.cmp(b)));
    let mut pairs: Vec<(usize, usize)> = Vec::new();
    for (at, index) in along.iter().enumerate() {
        let Some(a) = pieces.get(*index) else { continue };
        let near = |other: &&usize| low(**other) <= a.bounds.x.1 + MOST_REACH;
        let later = along.get(at + 1..).unwrap_or_default().iter().take_while(near);
        pairs.extend(later.map(|other| (*index.min(other), *index.max(other))));
    }
    pairs.sort_unstable();
    for (a, b) in pairs {
        made.extend(pieces.get(a).zip(pieces.get(b)).and_then(|(a, b)| pair(a, b)));
    }
    for a in pieces {
        for (number, solid) in solids.iter().enumerate().filter(|(_, solid)| solid.bought) {
            made.extend(bought(a, number, &solid.prism.bounds()));
        }
    }
    made
}

/// How two pieces meet; nothing where one moves past the other.
fn pair(a: &Piece<'_>, b: &Piece<'_>) -> Option<Joint> {
    let reach = reach(a).max(reach(b));
    let near = |axis: Axis| {
        a.bounds.range(axis).0 <= b.bounds.range(axis).1 + reach
            && b.bounds.range(axis).0 <= a.bounds.range(axis).1 + reach
    };
    if !AXES.into_iter().all(near) {
        return None;
    }
    if a.moves != b.moves {
        return carried(a, b).or_else(|| carried(b, a)).filter(|_| runs(a, b));
    }
    grooved(a, b)
        .or_else(|| grooved(b, a))
        .or_else(|| touching(a, b))
        .or_else(|| carried(a, b))
        .or_else(|| carried(b, a))
}

/// Only a drawer's runners lead from what moves to what stands.
fn runs(a: &Piece<'_>, b: &Piece<'_>) -> bool {
    let (moving, still) = if a.moves.is_some() { (a, b) } else { (b, a) };
    still.moves.is_none() && moving.part.held.as_deref().is_some_and(|held| RUNNERS.contains(&held))
}

fn reach(piece: &Piece<'_>) -> f64 {
    if piece.part.held.is_some() { piece.part.clear.clamp(0.0, MOST_REACH - 1.0) + TOUCH } else { TOUCH }
}

/// A panel that stands in a groove of another piece.
fn grooved(holder: &Piece<'_>, panel: &Piece<'_>) -> Option<Joint> {
    common_bounds(&holder.bounds, &panel.bounds)?;
    let at = holder.grooves().find_map(|groove| overlap(&groove, &panel.place.solid))?;
    let across = holder.place.lies.map(|lies| lies.face)?;
    let fixing = if panel.part.joint.is_some() { fixing(holder, panel, &Contact::in_groove()) } else { Fixing::Groove };
    Some(Joint {
        one: holder.at,
        other: Partner::Piece(panel.at),
        meeting: Meeting::InGroove,
        at,
        across,
        fixing,
        points: Vec::new(),
    })
}

/// Two pieces that touch.
fn touching(a: &Piece<'_>, b: &Piece<'_>) -> Option<Joint> {
    let touch = |axis: Axis| {
        let (ours, theirs) = (a.bounds.range(axis), b.bounds.range(axis));
        let up = (theirs.0 - ours.1).abs() <= TOUCH;
        let down = (ours.0 - theirs.1).abs() <= TOUCH;
        (up || down).then_some(Toward { axis, up })
    };
    AXES.into_iter().filter_map(touch).find_map(|toward| contact(a, b, toward)).or_else(|| slanted(a, b))
}

fn contact(a: &Piece<'_>, b: &Piece<'_>, toward: Toward) -> Option<Joint> {
    let by = if toward.up { 2.0 * TOUCH } else { -2.0 * TOUCH };
    let shared = overlap(&a.place.solid.moved(toward.axis, by), &b.place.solid)?;
    let (low, high) = a.bounds.range(toward.axis);
    let plane = if toward.up { high } else { low };
    Some(joined(a, b, toward, shared.with(toward.axis, (plane, plane))))
}

/// A sloping board on what carries it.
fn slanted(a: &Piece<'_>, b: &Piece<'_>) -> Option<Joint> {
    if a.place.lies.is_some() && b.place.lies.is_some() {
        return None;
    }
    let (over, under) = if middle(a.bounds.z) >= middle(b.bounds.z) { (a, b) } else { (b, a) };
    let shared = overlap(&over.place.solid.moved(Axis::Z, -2.0 * TOUCH), &under.place.solid)?;
    let level = middle(shared.z);
    Some(joined(over, under, Toward { axis: Axis::Z, up: false }, shared.with(Axis::Z, (level, level))))
}

/// The joint of two pieces over a flat contact; the one whose face is met comes first.
fn joined(a: &Piece<'_>, b: &Piece<'_>, toward: Toward, at: Box3) -> Joint {
    let faces = |piece: &Piece<'_>| piece.face().is_none_or(|axis| axis == toward.axis);
    let (first, second, toward) = match (faces(a), faces(b)) {
        (true, false) => (a, b, toward),
        (false, true) => (b, a, Toward { up: !toward.up, ..toward }),
        // Of two alike the thinner one is screwed through.
        _ if a.part.thickness <= b.part.thickness => (a, b, toward),
        _ => (b, a, Toward { up: !toward.up, ..toward }),
    };
    let meeting = match (faces(a), faces(b)) {
        (true, true) => Meeting::FaceOnFace,
        (false, false) => Meeting::EdgeOnEdge,
        _ => Meeting::EdgeOnFace,
    };
    let contact = Contact { meeting, at, toward };
    let fixing = if holds(&contact) { fixing(first, second, &contact) } else { Fixing::Rests };
    let points = points(first, second, &contact, &fixing);
    Joint { one: first.at, other: Partner::Piece(second.at), meeting, at, across: toward, fixing, points }
}

/// A contact is large enough to be a joint.
fn holds(contact: &Contact) -> bool {
    let (long, broad) = contact.size();
    long >= LEAST_HOLD.0 && broad >= LEAST_HOLD.1
}

/// A piece that hardware holds beside another.
fn carried(held: &Piece<'_>, bearer: &Piece<'_>) -> Option<Joint> {
    let by = held.part.held.as_ref()?;
    let across = |axis: &Axis| {
        let (ours, theirs) = (held.bounds.range(*axis), bearer.bounds.range(*axis));
        let (gap, up) = if theirs.0 >= ours.1 - TOUCH { (theirs.0 - ours.1, false) } else { (ours.0 - theirs.1, true) };
        (gap >= -TOUCH && gap <= held.part.clear + TOUCH).then_some((*axis, up))
    };
    let (axis, up) = [Axis::X, Axis::Y].iter().find_map(across)?;
    let (first, second) = axis.plane();
    let a = meet(held.bounds.range(first), bearer.bounds.range(first))?;
    let b = meet(held.bounds.range(second), bearer.bounds.range(second))?;
    if bearer.face() != Some(axis) || a.1 - a.0 < LEAST_HOLD.1 || b.1 - b.0 < LEAST_HOLD.1 {
        return None;
    }
    let (low, high) = bearer.bounds.range(axis);
    let plane = if up { high } else { low };
    Some(Joint {
        one: bearer.at,
        other: Partner::Piece(held.at),
        meeting: Meeting::Carried,
        at: Box3::default().with(first, a).with(second, b).with(axis, (plane, plane)),
        across: Toward { axis, up },
        fixing: Fixing::Held(by.clone()),
        points: Vec::new(),
    })
}

/// Something bought that lies against a piece.
fn bought(piece: &Piece<'_>, number: usize, solid: &Box3) -> Option<Joint> {
    let grown = |axis: Axis| {
        let (low, high) = solid.range(axis);
        (low - TOUCH, high + TOUCH)
    };
    let shared = AXES.iter().try_fold(Box3::default(), |shared, axis| {
        let (a, b) = (piece.bounds.range(*axis), grown(*axis));
        (a.0 <= b.1 && b.0 <= a.1).then(|| shared.with(*axis, (a.0.max(b.0), a.1.min(b.1))))
    })?;
    let size = |axis: Axis| shared.range(axis).1 - shared.range(axis).0;
    let axis = AXES.into_iter().min_by(|a, b| size(*a).total_cmp(&size(*b)))?;
    let (first, second) = axis.plane();
    let up = middle(solid.range(axis)) >= middle(piece.bounds.range(axis));
    (size(first) > 1.0 && size(second) > 1.0).then_some(Joint {
        one: piece.at,
        other: Partner::Bought(number),
        meeting: Meeting::Bought,
        at: shared,
        across: Toward { axis, up },
        fixing: Fixing::Rests,
        points: Vec::new(),
    })
}

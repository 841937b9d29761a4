//! What is bought for joints: screws and dowels by size, hinges, struts.

use super::pieces::middle;
use crate::geometry::Box3;
use crate::model::{
    Fixing, Hardware, Hinge, Hung, Joint, Leaf, LockWord, Meeting, Part, Partner, PieceAt, Together, Toward, Word,
};
use crate::source::Span;

/// The joints of a leaf with the boards that bear it, one for each board.
pub(super) fn hung(leaf: &Leaf, parts: &[Part]) -> Vec<Joint> {
    let place = |at: PieceAt| parts.get(at.part).and_then(|part| part.places.get(at.place));
    let mut made: Vec<Joint> = Vec::new();
    for Hinge { at, bearer } in &leaf.hinges {
        let Some((bearer, plate)) = bearer else { continue };
        if let Some(known) = made.iter_mut().find(|joint| joint.one == *bearer) {
            known.points.push(*plate);
            continue;
        }
        let (Some(own), Some(other)) = (place(*bearer), place(leaf.piece)) else { continue };
        let (own, other) = (own.bounds(), other.bounds());
        let through = own_axis(leaf, parts);
        let flat = Box3::default()
            .with(leaf.axis, other.range(leaf.axis))
            .with(through, (super::room::along(*at, through), super::room::along(*at, through)));
        let away = leaf.axis.third(through);
        let edge = super::room::along(*plate, away);
        let fixing = match leaf.hung {
            Hung::Cups => Fixing::CupHinges,
            Hung::Piano => Fixing::PianoHinge,
            Hung::Door => Fixing::DoorHinges,
        };
        made.push(Joint {
            one: *bearer,
            other: Partner::Piece(leaf.piece),
            meeting: Meeting::Hinged,
            at: flat.with(away, (edge, edge)),
            across: Toward { axis: away, up: middle(other.range(away)) >= middle(own.range(away)) },
            fixing,
            points: vec![*plate],
        });
    }
    made
}

/// The axis through a leaf.
pub(super) fn own_axis(leaf: &Leaf, parts: &[Part]) -> crate::geometry::Axis {
    let place = parts.get(leaf.piece.part).and_then(|part| part.places.get(leaf.piece.place));
    let lies = place.and_then(|place| place.lies);
    lies.map_or(crate::geometry::Axis::Z, |lies| lies.face.axis)
}

/// A screw into an insert of a panel; which one, the insert tells.
pub const INSERT_SCREW: &str = "insert-screw";
/// What fills the gap between a board and a panel at an insert.
pub const PACKER: &str = "packer";
/// A sleeve with its screw, which joins two modules side by side.
pub const CONNECTING_SCREW: &str = "connecting-screw";

/// What is bought for joints beside dowels, which are named by their size.
const SOLD: [&str; 9] = [
    "panel-screw",
    "carcass-screw",
    "hinge",
    "door-hinge",
    "piano-hinge",
    "gas-strut",
    INSERT_SCREW,
    PACKER,
    CONNECTING_SCREW,
];

/// Whether hardware of this name is bought for joints of some kind.
#[must_use]
pub fn is_for_joints(name: &str) -> bool {
    SOLD.contains(&name)
        || LockWord::of(name).is_some()
        || name.strip_prefix("dowel-").is_some_and(|size| size.parse::<f64>().is_ok())
}

/// Name and size of the screws or dowels of a joint, as hardware.
#[must_use]
pub fn sold_as(fixing: &Fixing) -> Option<(String, f64)> {
    match fixing {
        Fixing::Screws { diameter, length, .. } if *diameter < 3.5 => Some(("panel-screw".to_owned(), *length)),
        Fixing::Screws { length, .. } => Some(("carcass-screw".to_owned(), *length)),
        Fixing::Dowels { diameter, length } => {
            Some((format!("dowel-{}", crate::base::number::trimmed(*diameter, 1)), *length))
        }
        _ => None,
    }
}

/// All that is bought for the joints of a module.
pub(super) fn hardware(parts: &[Part], together: &Together) -> Vec<Hardware> {
    let mut all: Vec<Hardware> = Vec::new();
    let span = |at: PieceAt| parts.get(at.part).map_or_else(Span::default, |part| part.piece.unwrap_or(part.span));
    for joint in &together.joints {
        let count = u32::try_from(joint.points.len()).unwrap_or(u32::MAX);
        let Some((name, size)) = sold_as(&joint.fixing) else { continue };
        add(&mut all, Hardware { name, count, size: Some(size), force: None, span: span(joint.one) });
    }
    for leaf in &together.leaves {
        let (name, count, size) = match leaf.hung {
            Hung::Cups => ("hinge", leaf.hinges.len(), None),
            Hung::Door => ("door-hinge", leaf.hinges.len(), None),
            Hung::Piano => ("piano-hinge", 1, Some(leaf.tall)),
        };
        let count = u32::try_from(count).unwrap_or(u32::MAX);
        add(&mut all, Hardware { name: name.to_owned(), count, size, force: None, span: span(leaf.piece) });
        if let Some(force) = leaf.strut {
            let name = "gas-strut".to_owned();
            add(&mut all, Hardware { name, count: 2, size: None, force: Some(force), span: span(leaf.piece) });
        }
    }
    for lock in &together.locks {
        let name = lock.by.name().to_owned();
        let front = lock.through.first().map_or_else(Span::default, |piece| span(*piece));
        add(&mut all, Hardware { name, count: 1, size: None, force: None, span: front });
    }
    all
}

/// Adds hardware, or counts it to what is equal.
fn add(all: &mut Vec<Hardware>, one: Hardware) {
    if one.count == 0 {
        return;
    }
    let same = |known: &&mut Hardware| known.name == one.name && known.size == one.size && known.force == one.force;
    match all.iter_mut().find(same) {
        Some(known) => known.count = known.count.saturating_add(one.count),
        None => all.push(one),
    }
}

//! What modules are joined to around them, floor, walls, roof and neighbours, and which of their pieces hang together with it.

use crate::geometry::{Axis, Box3, common_bounds};
use crate::model::{CutKind, Fixing, JointWord, Meeting, Model, Module, Part, Partner, PieceAt, Wall};

/// A packer between a board and a wall is at most so thick, mm. Common practice, no source.
pub(crate) const PACKER: f64 = 40.0;
/// Modules this near are screwed together through a packer, mm. Common practice, no source.
const NEIGHBOUR: f64 = 25.0;
/// A board stands on the floor or on what is below it when it is this near, mm.
const STANDS: f64 = 0.1;

/// What a piece is fixed to outside of its module.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// A panel of the box.
    Panel(Wall),
    /// What stands in the way: a wheel box, a beam.
    Cutaway,
    /// Another module, by index.
    Module(usize),
}

impl Anchor {
    /// What it is, in words.
    #[must_use]
    pub fn words(self, model: &Model) -> String {
        match self {
            Self::Panel(wall @ (Wall::Roof | Wall::Floor)) => wall.name().to_owned(),
            Self::Panel(wall) => format!("{} wall", wall.name()),
            Self::Cutaway => "cutaway".to_owned(),
            Self::Module(index) => model.modules.get(index).map_or_else(String::new, |other| other.name.clone()),
        }
    }
}

/// A piece at what is around its module.
#[derive(Debug, Clone, PartialEq)]
pub struct Anchored {
    /// The piece.
    pub piece: PieceAt,
    /// What it is fixed to.
    pub to: Anchor,
    /// Thickness of the packer between them, mm.
    pub packer: f64,
}

/// Joints of a layout with what is around its modules.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Joints {
    /// For each module, in file order, its pieces at floor, walls, roof and neighbours.
    pub anchored: Vec<Vec<Anchored>>,
}

/// A piece that hangs together with nothing that stands.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Loose {
    /// The piece.
    pub piece: PieceAt,
    /// How far it is from the nearest piece that stands, mm; none where the module has none.
    pub gap: f64,
}

/// All joints with what is around modules.
pub(super) fn joints(model: &Model) -> Joints {
    let each = model.modules.iter().enumerate().map(|(index, module)| {
        let places = pieces(module).filter(|(piece, _)| !module.together.moving.contains(piece));
        places.flat_map(|(piece, bounds)| anchors(model, index, piece, &bounds)).collect()
    });
    Joints { anchored: each.collect() }
}

/// All pieces of a module that stand somewhere.
pub(crate) fn pieces(module: &Module) -> impl Iterator<Item = (PieceAt, Box3)> + '_ {
    module.parts.iter().enumerate().flat_map(|(part, of)| {
        of.places.iter().enumerate().map(move |(place, at)| (PieceAt { part, place }, at.bounds()))
    })
}

fn anchors(model: &Model, own: usize, piece: PieceAt, at: &Box3) -> Vec<Anchored> {
    let space = &model.space;
    let walls = [
        (Wall::Front, at.x.0),
        (Wall::Rear, space.length - at.x.1),
        (Wall::Left, at.y.0),
        (Wall::Right, space.width - at.y.1),
    ];
    let at_wall = walls.into_iter().filter(|(wall, gap)| *gap <= PACKER && !behind(model, own, piece, at, *wall));
    let at_floor = (at.z.0 <= STANDS).then_some((Wall::Floor, 0.0));
    let roof = space.roof.least_over(at.y.0, at.y.1).0 - at.z.1;
    let at_roof = (roof <= PACKER).then_some((Wall::Roof, roof));
    let panels = at_wall.chain(at_floor).chain(at_roof);
    let mut made: Vec<Anchored> =
        panels.map(|(wall, gap)| Anchored { piece, to: Anchor::Panel(wall), packer: gap.max(0.0) }).collect();
    for cutaway in &space.cutaways {
        made.extend(near(&cutaway.prism.bounds(), at, STANDS).map(|packer| Anchored {
            piece,
            to: match cutaway.kind {
                CutKind::Wall(wall) => Anchor::Panel(wall),
                _ => Anchor::Cutaway,
            },
            packer,
        }));
    }
    for (index, other) in model.modules.iter().enumerate().filter(|(index, _)| *index != own) {
        if near(&other.extent, at, NEIGHBOUR).is_none() {
            continue;
        }
        let gap = pieces(other).filter_map(|(_, bounds)| near(&bounds, at, NEIGHBOUR)).reduce(f64::min);
        made.extend(gap.map(|packer| Anchored { piece, to: Anchor::Module(index), packer }));
    }
    made
}

/// Another piece of the module stands between a piece and a wall.
fn behind(model: &Model, own: usize, piece: PieceAt, at: &Box3, wall: Wall) -> bool {
    let space = &model.space;
    let gap = match wall {
        Wall::Front => at.with(Axis::X, (0.0, at.x.0)),
        Wall::Rear => at.with(Axis::X, (at.x.1, space.length)),
        Wall::Left => at.with(Axis::Y, (0.0, at.y.0)),
        _ => at.with(Axis::Y, (at.y.1, space.width)),
    };
    let others = model.modules.get(own).into_iter().flat_map(pieces);
    others.filter(|(other, _)| *other != piece).any(|(_, other)| common_bounds(&other, &gap).is_some())
}

/// The gap between two boxes that lie beside each other, if it is small.
fn near(a: &Box3, b: &Box3, most: f64) -> Option<f64> {
    let gaps = [Axis::X, Axis::Y, Axis::Z].map(|axis| a.gap(b, axis));
    let apart = gaps.iter().filter(|gap| **gap > -5.0).count();
    let widest = gaps.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    (apart <= 1 && widest <= most).then_some(widest.max(0.0))
}

/// The pieces of a module that do not hang together with what stands.
pub(crate) fn loose(module: &Module, anchored: &[Anchored]) -> Vec<Loose> {
    let all: Vec<(PieceAt, Box3)> = pieces(module).collect();
    let solids = module.poses.first().map_or(&[][..], |pose| &pose.solids);
    let index = |piece: PieceAt| all.iter().position(|(at, _)| *at == piece);
    let bought = all.len();
    let mut ties: Vec<(usize, usize)> = Vec::new();
    for joint in &module.together.joints {
        let other = match joint.other {
            Partner::Piece(piece) => index(piece),
            Partner::Bought(solid) => Some(bought + solid),
        };
        let Some((one, other)) = index(joint.one).zip(other) else { continue };
        if joint.fixing != Fixing::Rests || joint.meeting == Meeting::Bought || rests(module, joint.one, joint.other) {
            ties.push((one, other));
        }
    }
    let mut firm = vec![false; bought + solids.len()];
    let stands = anchored.iter().filter_map(|one| index(one.piece));
    let on_floor =
        solids.iter().enumerate().filter(|(_, solid)| solid.bought && stands_or_hangs(module, &solid.prism.bounds()));
    let mut next: Vec<usize> = stands.chain(on_floor.map(|(at, _)| bought + at)).collect();
    while let Some(at) = next.pop() {
        let Some(known) = firm.get_mut(at).filter(|known| !**known) else { continue };
        *known = true;
        next.extend(ties.iter().filter_map(|(a, b)| match () {
            () if *a == at => Some(*b),
            () if *b == at => Some(*a),
            () => None,
        }));
    }
    let standing: Vec<Box3> = all.iter().zip(&firm).filter(|(_, firm)| **firm).map(|((_, at), _)| *at).collect();
    let gap = |at: &Box3| standing.iter().map(|other| distance(at, other)).fold(f64::INFINITY, f64::min);
    let adrift = all.iter().zip(&firm).filter(|(_, firm)| !**firm);
    adrift.map(|((piece, at), _)| Loose { piece: *piece, gap: gap(at) }).collect()
}

/// A symbol says that a piece only lies where it does.
fn rests(module: &Module, one: PieceAt, other: Partner) -> bool {
    let lies = |piece: PieceAt| {
        let part: Option<&Part> = module.parts.get(piece.part);
        part.and_then(|part| part.joint).is_some_and(|chosen| chosen.by == JointWord::None)
    };
    lies(one) || matches!(other, Partner::Piece(piece) if lies(piece))
}

/// Something bought stands on the module's floor or is fixed at its back or an end.
fn stands_or_hangs(module: &Module, at: &Box3) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() <= 3.0;
    let room = &module.extent;
    near(at.z.0, room.z.0) || [(at.x, room.x), (at.y, room.y)].iter().any(|(a, b)| near(a.0, b.0) || near(a.1, b.1))
}

/// How far two boxes are apart.
fn distance(a: &Box3, b: &Box3) -> f64 {
    [Axis::X, Axis::Y, Axis::Z].map(|axis| a.gap(b, axis).max(0.0)).iter().map(|gap| gap * gap).sum::<f64>().sqrt()
}

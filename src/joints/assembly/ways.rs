//! The bodies of a module and which of them are in the way of which.

use crate::geometry::{Axis, Box3, Lump, Prism};
use crate::joints::pieces::{AXES, Piece};
use crate::model::{Fixing, Joint, Partner, PieceAt, Solid, Toward};

/// A rim around a cut-out, on which what is set into it lies, mm.
const RIM: f64 = 20.0;

/// The six directions; the earlier of two that are as good is taken.
pub(super) const DIRECTIONS: [Toward; 6] = [
    Toward { axis: Axis::Z, up: true },
    Toward { axis: Axis::Y, up: false },
    Toward { axis: Axis::Y, up: true },
    Toward { axis: Axis::X, up: false },
    Toward { axis: Axis::X, up: true },
    Toward { axis: Axis::Z, up: false },
];

/// What a body is.
#[derive(Debug, Clone, Copy, PartialEq)]
enum What {
    Piece(PieceAt),
    /// Index of a solid of the first pose.
    Bought(usize),
}

/// Bodies, pieces first, and who meets whom on the way out.
pub(super) struct Ways {
    what: Vec<What>,
    bounds: Vec<Box3>,
    /// For each direction and each body the bodies in its way.
    blocked: [Vec<Vec<usize>>; 6],
}

impl Ways {
    pub fn new(pieces: &[Piece<'_>], solids: &[Solid], joints: &[Joint]) -> Self {
        let bought = || solids.iter().enumerate().filter(|(_, solid)| solid.bought);
        let what: Vec<What> = pieces
            .iter()
            .map(|piece| What::Piece(piece.at))
            .chain(bought().map(|(index, _)| What::Bought(index)))
            .collect();
        let own = pieces.iter().map(|piece| {
            let pockets: Vec<Prism> = piece.cutouts().chain(piece.grooves()).collect();
            Lump::new(&piece.place.solid, &pockets)
        });
        let thing = |solid: &Solid| match pieces.iter().find_map(|board| below(board, &solid.prism.bounds())) {
            Some(below) => Lump::new(&below, &[]),
            None => Lump::new(&solid.prism, &[]),
        };
        let lumps: Vec<Lump> = own.chain(bought().map(|(_, solid)| thing(solid))).collect();
        let bounds = lumps.iter().map(Lump::bounds).collect();
        let mut ways = Self {
            what,
            bounds,
            blocked: [const { Vec::new() }; 6].map(|_: Vec<Vec<usize>>| vec![Vec::new(); lumps.len()]),
        };
        for (a, one) in lumps.iter().enumerate() {
            for (b, other) in lumps.iter().enumerate().filter(|(b, _)| *b != a) {
                for axis in AXES {
                    if one.meets(other, axis, true) {
                        ways.block(a, b, Toward { axis, up: true });
                    }
                }
            }
        }
        for joint in joints.iter().filter(|joint| matches!(joint.fixing, Fixing::Dowels { .. })) {
            let Partner::Piece(other) = joint.other else { continue };
            let Some((one, other)) = ways.body(joint.one).zip(ways.body(other)) else { continue };
            for toward in DIRECTIONS.into_iter().filter(|toward| toward.up && toward.axis != joint.across.axis) {
                ways.block(one, other, toward);
                ways.block(other, one, toward);
            }
        }
        ways
    }

    /// The second is in the way of the first; then the first is in the way of the second the other way round.
    fn block(&mut self, a: usize, b: usize, toward: Toward) {
        for (body, by, toward) in [(a, b, toward), (b, a, Toward { up: !toward.up, ..toward })] {
            let Some(index) = DIRECTIONS.iter().position(|one| *one == toward) else { continue };
            let list = self.blocked.get_mut(index).and_then(|all| all.get_mut(body));
            list.into_iter().filter(|list| !list.contains(&by)).for_each(|list| list.push(by));
        }
    }

    /// The bodies in the way of one in a direction, by its index in [`DIRECTIONS`].
    pub fn in_the_way(&self, body: usize, direction: usize) -> &[usize] {
        self.blocked.get(direction).and_then(|all| all.get(body)).map_or(&[], Vec::as_slice)
    }

    /// How many bodies there are.
    pub fn len(&self) -> usize {
        self.what.len()
    }

    pub fn bounds(&self, body: usize) -> Box3 {
        self.bounds.get(body).copied().unwrap_or_default()
    }

    /// The piece that a body is.
    pub fn piece(&self, body: usize) -> Option<PieceAt> {
        match self.what.get(body) {
            Some(What::Piece(piece)) => Some(*piece),
            _ => None,
        }
    }

    /// The bought solid that a body is.
    pub fn solid(&self, body: usize) -> Option<usize> {
        match self.what.get(body) {
            Some(What::Bought(solid)) => Some(*solid),
            _ => None,
        }
    }

    fn body(&self, piece: PieceAt) -> Option<usize> {
        self.what.iter().position(|what| *what == What::Piece(piece))
    }

    /// The bodies that a joint holds together.
    pub fn held(&self, joint: &Joint) -> Option<(usize, usize)> {
        let other = match joint.other {
            Partner::Piece(piece) => What::Piece(piece),
            Partner::Bought(solid) => What::Bought(solid),
        };
        self.body(joint.one).zip(self.what.iter().position(|what| *what == other))
    }
}

/// What of a thing that is set into a cut-out of a level board from above reaches below that board: as much as the cut-out
/// lets through. Its rim lies on the board.
fn below(board: &Piece<'_>, thing: &Box3) -> Option<Prism> {
    if board.face() != Some(Axis::Z) || thing.z.1 < board.bounds.z.1 - 1.0 || thing.z.0 >= board.bounds.z.0 {
        return None;
    }
    let holds = |cut: &Prism| {
        let hole = cut.bounds().plan();
        hole.inflate(RIM, RIM).contains_rect(thing.plan()) && thing.plan().inflate(1.0, 1.0).contains_rect(hole)
    };
    let cut = board.cutouts().find(holds)?;
    Some(Prism { low: thing.z.0, high: board.bounds.z.0, ..cut })
}

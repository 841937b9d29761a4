//! How the pieces of a module go together: what meets, and what holds it.

use super::place::Toward;
use super::words::{JointWord, LockWord};
use crate::geometry::{Axis, Box3, Point3};

/// One piece of a module: which part, and which of its places.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PieceAt {
    /// Index of the part.
    pub part: usize,
    /// Index of the place.
    pub place: usize,
}

/// What a piece is joined to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Partner {
    /// Another piece.
    Piece(PieceAt),
    /// A bought solid of the first pose, by its index there.
    Bought(usize),
}

impl Partner {
    /// The piece, if it is one.
    #[must_use]
    pub fn piece(self) -> Option<PieceAt> {
        match self {
            Self::Piece(piece) => Some(piece),
            Self::Bought(_) => None,
        }
    }
}

/// How two bodies meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meeting {
    /// An edge stands on a face.
    EdgeOnFace,
    /// A face lies on a face.
    FaceOnFace,
    /// Edges lie against each other.
    EdgeOnEdge,
    /// A panel stands in a groove.
    InGroove,
    /// A leaf hangs at what bears it.
    Hinged,
    /// Hardware carries a piece across a gap: a shelf on pins, a drawer on runners.
    Carried,
    /// Something bought lies against a piece.
    Bought,
}

impl Meeting {
    /// Its name in files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::EdgeOnFace => "edge-on-face",
            Self::FaceOnFace => "face-on-face",
            Self::EdgeOnEdge => "edge-on-edge",
            Self::InGroove => "in-groove",
            Self::Hinged => "hinged",
            Self::Carried => "carried",
            Self::Bought => "bought",
        }
    }
}

/// What holds a joint together.
#[derive(Debug, Clone, PartialEq)]
pub enum Fixing {
    /// It only lies there.
    Rests,
    /// Glue alone.
    Glue,
    /// It stands in its groove or housing.
    Groove,
    /// Screws, with glue or without.
    Screws {
        /// Shank, mm.
        diameter: f64,
        /// mm.
        length: f64,
        /// With glue.
        glued: bool,
    },
    /// Dowels with glue.
    Dowels {
        /// mm.
        diameter: f64,
        /// mm.
        length: f64,
    },
    /// Cup hinges with their plates.
    CupHinges,
    /// A piano hinge along the joint.
    PianoHinge,
    /// Hinges of a door that people walk through.
    DoorHinges,
    /// Hardware that the symbol names: `shelf-pin`.
    Held(String),
    /// Another one that the symbol chose: `cam`, `pocket`.
    Chosen(&'static str),
}

impl Fixing {
    /// Its name in files.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Rests => "rests",
            Self::Glue => "glue",
            Self::Groove => "groove",
            Self::Screws { glued: false, .. } => "screws",
            Self::Screws { glued: true, .. } => "glue and screws",
            Self::Dowels { .. } => "dowels",
            Self::CupHinges => "cup hinges",
            Self::PianoHinge => "piano hinge",
            Self::DoorHinges => "door hinges",
            Self::Held(by) => by,
            Self::Chosen(name) => name,
        }
    }
}

/// Two bodies that meet, and what holds them.
#[derive(Debug, Clone, PartialEq)]
pub struct Joint {
    /// The piece whose face is met, that screws go through, or that bears the other.
    pub one: PieceAt,
    /// What meets it.
    pub other: Partner,
    /// How they meet.
    pub meeting: Meeting,
    /// Where they meet: flat across `across`, or the gap that hardware bridges.
    pub at: Box3,
    /// From `one` toward `other`.
    pub across: Toward,
    /// What holds it.
    pub fixing: Fixing,
    /// Where its screws, dowels or hinges are, in the face of `one`.
    pub points: Vec<Point3>,
}

/// One hinge of a leaf.
#[derive(Debug, Clone, PartialEq)]
pub struct Hinge {
    /// On the hinge line of the leaf's inner face: the middle of the cup, or of the hinge.
    pub at: Point3,
    /// The middle of its plate, with the piece that it is screwed to; `None` where no piece can take it.
    pub bearer: Option<(PieceAt, Point3)>,
}

/// How a leaf hangs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hung {
    /// On cup hinges.
    Cups,
    /// On a piano hinge.
    Piano,
    /// A door that people walk through.
    Door,
}

/// Something that swings, and what it hangs on.
#[derive(Debug, Clone, PartialEq)]
pub struct Leaf {
    /// Its piece.
    pub piece: PieceAt,
    /// Index of its move in the first pose.
    pub turns: usize,
    /// How it hangs.
    pub hung: Hung,
    /// Direction of the hinge line.
    pub axis: Axis,
    /// Along the hinge line, mm.
    pub tall: f64,
    /// Away from it, mm.
    pub wide: f64,
    /// Its hinges, in order along the hinge line.
    pub hinges: Vec<Hinge>,
    /// Force of each of its two struts, N, if it is a flap that struts hold up.
    pub strut: Option<f64>,
}

/// A lock or a handle of a front.
#[derive(Debug, Clone, PartialEq)]
pub struct Lock {
    /// The front, then the boards behind it that are bored with it.
    pub through: Vec<PieceAt>,
    /// Index of the move of the front in the first pose.
    pub turns: usize,
    /// Which.
    pub by: LockWord,
    /// Its middle, in the thickness of the front.
    pub at: Point3,
    /// Direction of the edge that opens, along which two bores lie.
    pub along: Axis,
    /// Through the front.
    pub across: Axis,
    /// The board that keeps it shut, with the place on it; `None` where none can, and for what does not shut.
    pub keep: Option<(PieceAt, Point3)>,
}

/// How a module goes together in its first pose.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Together {
    /// What meets.
    pub joints: Vec<Joint>,
    /// What swings.
    pub leaves: Vec<Leaf>,
    /// Locks and handles.
    pub locks: Vec<Lock>,
    /// Pieces that go with a move of the first pose: leaves, drawers with all that is of them.
    pub moving: Vec<PieceAt>,
    /// It has more pieces than joints are looked for among, so none was looked for.
    pub too_many: bool,
}

/// A joint that a symbol chooses for a part in the place of the usual one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chosen {
    /// Which.
    pub by: JointWord,
    /// Diameter of screw or dowel, mm, if not the usual one.
    pub diameter: Option<f64>,
    /// Length, mm.
    pub length: Option<f64>,
    /// Most from one to the next, mm.
    pub pitch: Option<f64>,
}

//! Joints and leaves in `model.json`.

use super::shapes::{Box3Wire, axis, box3, point3, toward};
use crate::base::number::micrometres;
use crate::model::{Chosen, Fixing, Hinge, Hung, Joint, Leaf, Lock, Partner, PieceAt, Together, Word};
use schemars::JsonSchema;
use serde::Serialize;

/// How the pieces of a module go together in its first pose.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Together")]
#[serde(rename_all = "kebab-case")]
pub(super) struct TogetherWire<'a> {
    joints: Vec<JointWire<'a>>,
    leaves: Vec<LeafWire>,
    locks: Vec<LockWire>,
    /// Pieces that go with a move: index of the part and of the place.
    moving: Vec<[usize; 2]>,
    /// It has more pieces than joints are looked for among.
    too_many: bool,
}

/// Two bodies that meet.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Joint")]
struct JointWire<'a> {
    /// The piece whose face is met, that screws go through, or that bears the other: index of its part and of its place.
    one: [usize; 2],
    /// Another piece, in the same way.
    other: Option<[usize; 2]>,
    /// A bought solid of the first pose, by index.
    bought: Option<usize>,
    meeting: &'static str,
    at: Box3Wire,
    /// From the one toward the other.
    across: String,
    fixing: &'a str,
    /// Of screws or dowels.
    diameter: Option<f64>,
    length: Option<f64>,
    /// Where its screws, dowels or hinges are.
    points: Vec<[f64; 3]>,
}

/// Something that swings.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Leaf")]
struct LeafWire {
    piece: [usize; 2],
    /// Index of its move in the first pose.
    turns: usize,
    #[schemars(extend("enum" = ["cups", "piano", "door"]))]
    hung: &'static str,
    /// Of the hinge line.
    axis: &'static str,
    tall: f64,
    wide: f64,
    hinges: Vec<HingeWire>,
    /// Force of each of its two struts, N.
    strut: Option<f64>,
}

/// A hinge of a leaf.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Hinge")]
struct HingeWire {
    at: [f64; 3],
    /// The piece that bears it; `null` where none can.
    bearer: Option<[usize; 2]>,
    /// The middle of its plate.
    plate: Option<[f64; 3]>,
}

/// A lock or a handle of a front.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Lock")]
#[serde(rename_all = "kebab-case")]
struct LockWire {
    /// The front, then the boards behind it that are bored with it.
    through: Vec<[usize; 2]>,
    /// Index of the move of the front.
    turns: usize,
    by: &'static str,
    /// Its middle, in the thickness of the front.
    at: [f64; 3],
    /// Direction of the edge that opens.
    along: &'static str,
    /// Through the front.
    across: &'static str,
    /// The piece that keeps it shut; `null` where none can, and for what does not shut.
    keep: Option<[usize; 2]>,
    /// The place on that piece.
    kept_at: Option<[f64; 3]>,
}

/// What a symbol chose to hold a part.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ChosenJoint")]
pub(super) struct ChosenWire {
    by: &'static str,
    diameter: Option<f64>,
    length: Option<f64>,
    pitch: Option<f64>,
}

pub(super) fn chosen_wire(chosen: &Chosen) -> ChosenWire {
    let Chosen { by, diameter, length, pitch } = *chosen;
    let [diameter, length, pitch] = [diameter, length, pitch].map(|figure| figure.map(micrometres));
    ChosenWire { by: by.name(), diameter, length, pitch }
}

fn piece(PieceAt { part, place }: PieceAt) -> [usize; 2] {
    [part, place]
}

pub(super) fn together_wire(together: &Together) -> TogetherWire<'_> {
    let Together { joints, leaves, locks, moving, too_many } = together;
    let moving = moving.iter().copied().map(piece).collect();
    let (joints, leaves) = (joints.iter().map(joint).collect(), leaves.iter().map(leaf).collect());
    let locks = locks.iter().map(lock).collect();
    TogetherWire { joints, leaves, locks, moving, too_many: *too_many }
}

fn joint(joint: &Joint) -> JointWire<'_> {
    let Joint { one, other, meeting, at, across, fixing, points } = joint;
    let (other, bought) = match other {
        Partner::Piece(other) => (Some(piece(*other)), None),
        Partner::Bought(solid) => (None, Some(*solid)),
    };
    let size = match fixing {
        Fixing::Screws { diameter, length, .. } | Fixing::Dowels { diameter, length } => Some((*diameter, *length)),
        _ => None,
    };
    JointWire {
        one: piece(*one),
        other,
        bought,
        meeting: meeting.name(),
        at: box3(at),
        across: toward(*across),
        fixing: fixing.name(),
        diameter: size.map(|size| micrometres(size.0)),
        length: size.map(|size| micrometres(size.1)),
        points: points.iter().copied().map(point3).collect(),
    }
}

fn lock(lock: &Lock) -> LockWire {
    let Lock { through, turns, by, at, along, across, keep } = lock;
    LockWire {
        through: through.iter().copied().map(piece).collect(),
        turns: *turns,
        by: by.name(),
        at: point3(*at),
        along: axis(*along),
        across: axis(*across),
        keep: keep.map(|(board, _)| piece(board)),
        kept_at: keep.map(|(_, at)| point3(at)),
    }
}

fn leaf(leaf: &Leaf) -> LeafWire {
    let Leaf { piece: own, turns, hung, axis: line, tall, wide, hinges, strut } = leaf;
    let hinge = |Hinge { at, bearer }: &Hinge| HingeWire {
        at: point3(*at),
        bearer: bearer.map(|(bearer, _)| piece(bearer)),
        plate: bearer.map(|(_, plate)| point3(plate)),
    };
    LeafWire {
        piece: piece(*own),
        turns: *turns,
        hung: match hung {
            Hung::Cups => "cups",
            Hung::Piano => "piano",
            Hung::Door => "door",
        },
        axis: axis(*line),
        tall: micrometres(*tall),
        wide: micrometres(*wide),
        hinges: hinges.iter().map(hinge).collect(),
        strut: *strut,
    }
}

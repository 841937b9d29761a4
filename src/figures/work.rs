//! The work on each kind of piece, told once for drawings and machines: outline, cut-outs, grooves and bores from its
//! datum corner, pilot holes and dowels of its joints with them, and what it meets where.
//!
//! Pieces of one row of the cut list whose joints bore them otherwise are kinds of their own, told apart by a letter.

use crate::base::number::micrometres;
use crate::geometry::{Axis, Box3, Polygon};
use crate::joinery::{CutList, Row};
use crate::joints::{Bore, BoreSide, bores};
use crate::model::{
    EdgeBore, Fixing, Hand, Joint, Lies, Machining, Meeting, Model, Module, Part, Partner, PieceAt, Toward,
    is_own_mirror_with,
};
use kurbo::{Affine, BezPath, Rect};
use std::collections::BTreeMap;

/// What a bore is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum BoreFor {
    /// Machining that the cut list has: cups, plates, pins, runners, pipes.
    Hardware,
    /// A dowel.
    Dowel,
    /// The pilot hole of a screw.
    Screw,
}

/// A bore of a piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WorkBore {
    /// From which side; what goes through from face to face is on the face.
    pub side: BoreSide,
    /// On a face from the datum corner along length and width; on an edge along it and below the face, mm.
    pub at: (f64, f64),
    /// mm.
    pub diameter: f64,
    /// mm; `None` goes through.
    pub depth: Option<f64>,
    /// What for.
    pub of: BoreFor,
}

/// Another body that a piece meets.
#[derive(Debug, Clone, PartialEq)]
pub struct Mate {
    /// On which side of the piece.
    pub side: BoreSide,
    /// Where: on a face along length and width, on an edge along it and below the face, mm.
    pub at: Rect,
    /// Numbers of the pieces, or names of what is bought.
    pub with: Vec<String>,
    /// What holds them together.
    pub by: String,
}

/// One kind of piece with all work on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Work {
    /// Index of its row in the cut list, which has its sizes, outline, cut-outs and grooves.
    pub row: usize,
    /// A letter where pieces of the row are bored otherwise.
    pub letter: Option<char>,
    /// Which of two mirror images it is, where that makes a difference: by its cut-outs and grooves, or by its bores.
    pub hand: Option<Hand>,
    /// How many pieces.
    pub count: u32,
    /// All bores, side by side.
    pub bores: Vec<WorkBore>,
    /// What meets it.
    pub mates: Vec<Mate>,
}

impl Work {
    /// Its number: that of its row, with its letter.
    #[must_use]
    pub fn number(&self, row: &Row) -> String {
        format!("{}{}", row.number, self.letter.map_or(String::new(), |letter| format!(" {letter}")))
    }

    /// Whether anything is done to the piece besides sawing and banding it.
    #[must_use]
    pub fn is_worked(&self, row: &Row) -> bool {
        row.outline.is_some() || !row.machining.is_empty() || !self.bores.is_empty()
    }

    /// Whether its reverse is worked from there.
    #[must_use]
    pub fn has_reverse(&self, row: &Row) -> bool {
        let grooved = |one: &Machining| matches!(one, Machining::Groove { reverse: true, .. });
        row.machining.iter().any(grooved) || self.bores.iter().any(|bore| bore.side == BoreSide::Reverse)
    }
}

/// From a piece's datum corner, along its length and its width, to the bench: x along the length to the right, y up, the
/// lower left corner at the origin. The face lies up; the datum corner is at the lower left of a right-hand piece and of one
/// without a hand, at the upper left of a left-hand one. For the reverse the piece is turned over about its length.
#[must_use]
pub fn on_bench(work: &Work, row: &Row, reverse: bool) -> Affine {
    if (work.hand == Some(Hand::Left)) == reverse {
        Affine::IDENTITY
    } else {
        Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, row.finished.1])
    }
}

/// The outline of a finished piece from its datum corner, with true arcs where it has any.
#[must_use]
pub fn outline_of(row: &Row) -> BezPath {
    let (length, width, _) = row.finished;
    let straight = || row.outline.clone().unwrap_or_else(|| Polygon::rect(Rect::new(0.0, 0.0, length, width))).path();
    row.curve.clone().unwrap_or_else(straight)
}

/// All kinds of pieces in the order of the cut list.
pub(super) fn works(model: &Model, list: &CutList) -> Vec<Work> {
    let parts = list.rows.iter().flat_map(|row| row.parts.iter().map(|part| (*part, row.number.as_str())));
    let numbers = parts.collect();
    list.rows.iter().enumerate().flat_map(|(index, row)| kinds(model, (index, row), &numbers)).collect()
}

/// The number in the cut list of each part of each module.
type Numbers<'a> = BTreeMap<(usize, usize), &'a str>;

fn kinds(model: &Model, (index, row): (usize, &Row), numbers: &Numbers<'_>) -> Vec<Work> {
    let own: Vec<WorkBore> = row.machining.iter().filter_map(machined).collect();
    let mut kinds: Vec<Work> = Vec::new();
    for (at, part) in &row.parts {
        let Some(module) = model.modules.get(*at) else { continue };
        let Some(of) = module.parts.get(*part) else { continue };
        // Where the symbol does not say where the pieces stand, nothing is known to meet them.
        let placed = u32::try_from(of.places.len()).unwrap_or(u32::MAX);
        for place in 0..of.places.len() {
            let piece = PieceAt { part: *part, place };
            let mut work =
                one(module, piece, &own, |part| numbers.get(&(*at, part)).copied().unwrap_or_default().to_owned());
            work.row = index;
            work.hand = row.hand.or_else(|| hand(of, place, &work.bores));
            add(&mut kinds, work);
        }
        if of.count > placed {
            let count = of.count - placed;
            let hand = row.hand;
            add(&mut kinds, Work { row: index, letter: None, hand, count, bores: own.clone(), mates: Vec::new() });
        }
    }
    if kinds.len() > 1 {
        kinds.iter_mut().zip('a'..='z').for_each(|(work, letter)| work.letter = Some(letter));
    }
    kinds
}

/// Adds a piece to the kind that is bored as it is.
fn add(kinds: &mut Vec<Work>, new: Work) {
    let Some(known) = kinds.iter_mut().find(|known| known.bores == new.bores && known.hand == new.hand) else {
        kinds.push(new);
        return;
    };
    known.count = known.count.saturating_add(new.count);
    for mate in new.mates {
        join(&mut known.mates, mate);
    }
}

fn join(mates: &mut Vec<Mate>, new: Mate) {
    let same = |mate: &&mut Mate| mate.side == new.side && mate.at == new.at && mate.by == new.by;
    match mates.iter_mut().find(same) {
        Some(known) => {
            let more: Vec<String> = new.with.into_iter().filter(|name| !known.with.contains(name)).collect();
            known.with.extend(more);
        }
        None => mates.push(new),
    }
}

fn machined(machining: &Machining) -> Option<WorkBore> {
    let Machining::Hole { at, diameter, depth, reverse } = machining else { return None };
    let side = if *reverse && depth.is_some() { BoreSide::Reverse } else { BoreSide::Face };
    Some(WorkBore { side, at: *at, diameter: *diameter, depth: *depth, of: BoreFor::Hardware })
}

/// One piece with what its joints do to it.
fn one(module: &Module, piece: PieceAt, own: &[WorkBore], number: impl Fn(usize) -> String) -> Work {
    let (mut all, mut mates) = (own.to_vec(), Vec::new());
    for joint in &module.together.joints {
        let is_one = joint.one == piece;
        if !is_one && joint.other != Partner::Piece(piece) {
            continue;
        }
        let of = if matches!(joint.fixing, Fixing::Dowels { .. }) { BoreFor::Dowel } else { BoreFor::Screw };
        for Bore { side, at, diameter, depth, .. } in
            bores(&module.parts, joint).into_iter().filter(|bore| bore.piece == piece)
        {
            let at = (micrometres(at.0), micrometres(at.1));
            let side = if side == BoreSide::Reverse && depth.is_none() { BoreSide::Face } else { side };
            let known = |other: &WorkBore| other.side == side && other.at == at;
            if !all.iter().any(known) {
                all.push(WorkBore { side, at, diameter, depth: depth.map(micrometres), of });
            }
        }
        let with = match (is_one, joint.other) {
            (false, _) => number(joint.one.part),
            (true, Partner::Piece(other)) => number(other.part),
            (true, Partner::Bought(solid)) => bought(module, solid),
        };
        if let Some(mate) = mate(module, piece, joint, with) {
            join(&mut mates, mate);
        }
    }
    all.sort_by(|a, b| {
        let size = b.diameter.total_cmp(&a.diameter).then(a.depth.unwrap_or(0.0).total_cmp(&b.depth.unwrap_or(0.0)));
        let place = a.at.1.total_cmp(&b.at.1).then(a.at.0.total_cmp(&b.at.0));
        (a.side as u8).cmp(&(b.side as u8)).then(a.of.cmp(&b.of)).then(size).then(place)
    });
    Work { row: 0, letter: None, hand: None, count: 1, bores: all, mates }
}

/// The hand of a piece whose joints make another piece of its mirror image.
fn hand(part: &Part, place: usize, bores: &[WorkBore]) -> Option<Hand> {
    let lies = part.places.get(place)?.lies?;
    let cut = part.machining.iter().filter(|one| !matches!(one, Machining::Hole { .. })).cloned();
    let on_face = |bore: &&WorkBore| matches!(bore.side, BoreSide::Face | BoreSide::Reverse);
    let holes = bores.iter().filter(on_face).map(|bore| {
        let reverse = bore.side == BoreSide::Reverse;
        Machining::Hole { at: bore.at, diameter: bore.diameter, depth: bore.depth, reverse }
    });
    let edges: Vec<EdgeBore> = bores.iter().filter(|bore| !on_face(bore)).map(in_edge).collect();
    let whole = Part { machining: cut.chain(holes).collect(), ..part.clone() };
    (!is_own_mirror_with(&whole, &edges)).then(|| lies.hand())
}

fn in_edge(bore: &WorkBore) -> EdgeBore {
    let long = matches!(bore.side, BoreSide::Front | BoreSide::Back);
    let near = matches!(bore.side, BoreSide::Front | BoreSide::Left);
    EdgeBore { long, near, at: bore.at, size: (bore.diameter, bore.depth.unwrap_or_default()) }
}

fn bought(module: &Module, solid: usize) -> String {
    let solid = module.poses.first().and_then(|pose| pose.solids.get(solid));
    solid.map_or_else(String::new, |solid| solid.name.clone())
}

/// Where a joint is on a piece; none for a sloping board.
fn mate(module: &Module, piece: PieceAt, joint: &Joint, with: String) -> Option<Mate> {
    let place = module.parts.get(piece.part)?.places.get(piece.place)?;
    let lies = place.lies?;
    let bounds = place.bounds();
    let toward = match joint.meeting {
        // The joint tells the axis only: the groove may be in either face.
        Meeting::InGroove => Toward {
            up: middle(joint.at.range(joint.across.axis)) > middle(bounds.range(joint.across.axis)),
            ..joint.across
        },
        _ if joint.one == piece => joint.across,
        _ => Toward { up: !joint.across.up, ..joint.across },
    };
    let from = |toward: Toward| along(&bounds, toward, &joint.at);
    let (side, [across, up]) = match side_of(lies, toward) {
        side @ (BoreSide::Face | BoreSide::Reverse) => (side, [lies.length, lies.width]),
        side @ (BoreSide::Front | BoreSide::Back) => (side, [lies.length, inward(lies)]),
        side @ (BoreSide::Left | BoreSide::Right) => (side, [lies.width, inward(lies)]),
    };
    let ((x0, x1), (y0, y1)) = (from(across), from(up));
    Some(Mate { side, at: Rect::new(x0, y0, x1, y1), with: vec![with], by: joint.fixing.name().to_owned() })
}

fn middle((low, high): (f64, f64)) -> f64 {
    f64::midpoint(low, high)
}

/// From the face into the board.
fn inward(lies: Lies) -> Toward {
    Toward { up: !lies.face.up, ..lies.face }
}

/// The side of a piece that looks a way.
fn side_of(lies: Lies, toward: Toward) -> BoreSide {
    let low = |of: Toward| toward.up != of.up;
    if toward.axis == lies.face.axis {
        if low(lies.face) { BoreSide::Reverse } else { BoreSide::Face }
    } else if toward.axis == lies.length.axis {
        if low(lies.length) { BoreSide::Left } else { BoreSide::Right }
    } else if low(lies.width) {
        BoreSide::Front
    } else {
        BoreSide::Back
    }
}

/// A box along a direction of a piece, from the piece's end and within it, mm.
fn along(piece: &Box3, toward: Toward, at: &Box3) -> (f64, f64) {
    let axis: Axis = toward.axis;
    let ((low, high), (from, to)) = (piece.range(axis), at.range(axis));
    let (a, b) = if toward.up { (from - low, to - low) } else { (high - to, high - from) };
    let within = |mm: f64| micrometres(mm.clamp(0.0, high - low));
    (within(a), within(b))
}

//! Puts the pieces of a module together again from the places its parts state, and says what does not fit.
//!
//! All of it is arithmetic on boxes and prisms in whole micrometres; nothing is sampled. Bores are left out of account.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test may stop at once")]

use boxwright::geometry::{Axis, Box3, Polygon, Prism, Region, Roof, free_volume, overlap};
use boxwright::model::{Machining, Module, Move, MoveKind, Part, Place, Solid, Stock, Swing, Toward};
use kurbo::{Affine, Point, Rect, Vec2};

/// Pieces this near touch, mm.
const TOUCH: f64 = 0.05;
/// A film of so much on the surface of a piece is rounding, mm.
const FILM: f64 = 0.001;
/// A gap below this between two faces is either wanted and stated, or a mistake, mm.
const NEAR_MISS: f64 = 8.0;
/// How much wider a groove may be than what stands in it, and how much of its depth may stay free, mm.
const PLAY: (f64, f64) = (0.5, 1.0);
/// How much of a groove's length may be run out of, at both ends together, mm.
const RUN_OUT: f64 = 60.0;

/// Room around a thing that is bought in its niche, mm.
const NICHE: f64 = 3.0;

const AXES: [Axis; 3] = [Axis::X, Axis::Y, Axis::Z];

struct Piece<'a> {
    part: &'a Part,
    place: &'a Place,
    /// Cut-outs and grooves.
    taken: Vec<Prism>,
}

impl Piece<'_> {
    fn solid(&self) -> &Prism {
        &self.place.solid
    }
}

/// Everything that is wrong with how a module's pieces fit.
pub fn complaints(module: &Module) -> Vec<String> {
    let mut wrong: Vec<String> = module.parts.iter().filter_map(without_place).collect();
    let pieces: Vec<Piece<'_>> = module.parts.iter().flat_map(pieces).collect();
    let solids = &module.poses[0].solids;
    let mut room: Vec<Prism> = solids.iter().filter(|solid| !solid.bought).map(|solid| solid.prism.clone()).collect();
    room.extend(module.poses[0].moves.iter().filter(|one| one.walk_through).filter_map(shut_leaf));
    wrong.extend(pieces.iter().filter_map(|piece| outside(piece, &room)));
    wrong.extend(shared(&pieces));
    wrong.extend(near_misses(&pieces));
    wrong.extend(jammed(&pieces));
    wrong.extend(adrift(module, &pieces));
    wrong.extend(pieces.iter().flat_map(|piece| empty_grooves(module, piece, &pieces)));
    wrong.extend(solids.iter().filter(|solid| !solid.bought).flat_map(|solid| gaps(solid, solids, &pieces)));
    wrong
}

/// Pieces of a module that take room in a column, beyond their cut-outs.
pub fn covering(module: &Module, column: &Prism) -> Vec<String> {
    let pieces: Vec<Piece<'_>> = module.parts.iter().flat_map(pieces).collect();
    let takes = |piece: &&Piece<'_>| {
        let free = beyond(column, piece.taken.iter());
        free - beyond(column, piece.taken.iter().chain([piece.solid()])) > film(column)
    };
    pieces.iter().filter(takes).map(|piece| format!("{} of {}", piece.part.name, module.name)).collect()
}

/// Mass of all pieces by their volumes, kg; grooves and bores are not taken off.
pub fn mass(module: &Module, stocks: &[Stock]) -> f64 {
    let whole = |part: &Part| part.places.iter().map(|place| standing(part, place)).sum::<f64>() * 1e-9;
    module.parts.iter().map(|part| whole(part) * stocks[part.stock].density).sum()
}

fn standing(part: &Part, place: &Place) -> f64 {
    let through = part.machining.iter().filter(|one| matches!(one, Machining::Cutout { .. }));
    let cutouts: Vec<Prism> = through.filter_map(|one| carved(part, place, one)).collect();
    beyond(&place.solid, cutouts.iter())
}

fn without_place(part: &Part) -> Option<String> {
    let placed = part.places.len();
    (placed != part.count as usize).then(|| format!("{}: {} pieces, {placed} places", part.name, part.count))
}

fn pieces(part: &Part) -> impl Iterator<Item = Piece<'_>> {
    let taken = |place: &Place| part.machining.iter().filter_map(|one| carved(part, place, one)).collect();
    part.places.iter().map(move |place| Piece { part, place, taken: taken(place) })
}

/// What a cut-out or a groove takes of a piece.
fn carved(part: &Part, place: &Place, machining: &Machining) -> Option<Prism> {
    match machining {
        Machining::Cutout { outline, .. } => place.carved(outline, (0.0, part.thickness)),
        Machining::Groove { depth, reverse, .. } => {
            let from = if *reverse { part.thickness - depth } else { 0.0 };
            place.carved(&Polygon::rect(machining.bounds()), (from, from + depth))
        }
        Machining::Hole { .. } => None,
    }
}

/// The volume of a prism that lies in none of the others.
fn beyond<'a>(prism: &Prism, others: impl Iterator<Item = &'a Prism>) -> f64 {
    let sky = Roof::Line(vec![Point::new(-1e5, 1e5), Point::new(1e5, 1e5)]);
    let others: Vec<&Prism> = others.collect();
    free_volume(prism, &others, &sky)
}

/// A door that people walk through, shut: it hangs in an opening that the solids leave free.
fn shut_leaf(one: &Move) -> Option<Prism> {
    let MoveKind::Swing(Swing { axis, hinge, along, length, thickness, shut, opens }) = &one.kind else { return None };
    let leaf = Vec2::from_angle(shut.to_radians()) * *length;
    let behind = Vec2::new(leaf.y, -leaf.x) / *length * *thickness * opens.signum();
    let corners = vec![*hinge, *hinge + leaf, *hinge + leaf + behind, *hinge + behind];
    Some(Prism { axis: *axis, outline: Polygon::new(corners), low: along.0, high: along.1 })
}

/// The volume of a film of rounding on a body, mm3.
fn film(body: &Prism) -> f64 {
    let [x, y, z] = AXES.map(|axis| {
        let range = body.bounds().range(axis);
        range.1 - range.0
    });
    2.0 * FILM * (x * y + y * z + z * x)
}

fn outside(piece: &Piece<'_>, room: &[Prism]) -> Option<String> {
    let volume = beyond(piece.solid(), room.iter().chain(&piece.taken));
    let name = &piece.part.name;
    (volume > film(piece.solid()))
        .then(|| format!("{name} is outside of the solids by {volume:.0} mm3: {}", shown(piece)))
}

fn shown(piece: &Piece<'_>) -> String {
    let Box3 { x, y, z } = piece.solid().bounds();
    format!("x {:?} y {:?} z {:?}", x, y, z)
}

/// Pairs that fill the same place, beyond what is cut out of either.
fn shared(pieces: &[Piece<'_>]) -> Vec<String> {
    let mut wrong = Vec::new();
    for (at, a) in pieces.iter().enumerate() {
        for b in &pieces[at + 1..] {
            if overlap(a.solid(), b.solid()).is_none() {
                continue;
            }
            let taken = || a.taken.iter().chain(&b.taken);
            let volume = beyond(a.solid(), taken()) - beyond(a.solid(), taken().chain([b.solid()]));
            if volume > film(a.solid()) {
                wrong.push(format!("{} and {} share {volume:.0} mm3", a.part.name, b.part.name));
            }
        }
    }
    wrong
}

/// Faces of two pieces that nearly meet, without a word that they are not to.
fn near_misses(pieces: &[Piece<'_>]) -> Vec<String> {
    let mut wrong = Vec::new();
    for (at, a) in pieces.iter().enumerate() {
        for b in &pieces[at + 1..] {
            let wanted = room_of(a, b).max(room_of(b, a)) + TOUCH;
            for axis in AXES {
                let (ours, theirs) = (a.solid().bounds().range(axis), b.solid().bounds().range(axis));
                let (gap, toward) =
                    if ours.1 <= theirs.0 { (theirs.0 - ours.1, 1.0) } else { (ours.0 - theirs.1, -1.0) };
                if gap <= wanted || gap >= NEAR_MISS {
                    continue;
                }
                let met = overlap(&a.solid().moved(axis, toward * (gap + TOUCH)), b.solid());
                let between = if toward > 0.0 { (ours.1, theirs.0) } else { (theirs.1, ours.0) };
                let seen = met.map(|met| Prism::from(met.with(axis, between)));
                if seen.as_ref().is_some_and(|gap| beyond(gap, pieces.iter().map(Piece::solid)) > film(gap)) {
                    wrong.push(format!("{} and {} miss each other by {gap:.2} mm", a.part.name, b.part.name));
                }
            }
        }
    }
    wrong
}

/// The room that a piece wants beside another. What holds it keeps it from others, not from the rest of its own recipe.
fn room_of(piece: &Piece<'_>, other: &Piece<'_>) -> f64 {
    let together = piece.part.piece.is_some() && piece.part.piece == other.part.piece;
    if together && piece.part.held.is_some() { 0.0 } else { piece.part.clear }
}

/// Pieces side by side in one plane that want room and have none.
fn jammed(pieces: &[Piece<'_>]) -> Vec<String> {
    let plane =
        |piece: &Piece<'_>| piece.place.lies.map(|lies| (lies.face.axis, piece.solid().bounds().range(lies.face.axis)));
    let mut wrong = Vec::new();
    for (at, a) in pieces.iter().enumerate() {
        for b in pieces[at + 1..].iter().filter(|b| plane(a).is_some() && plane(a) == plane(b)) {
            if a.part.clear.min(b.part.clear) > 0.0 && touch(a.solid(), b.solid(), TOUCH) {
                wrong.push(format!("{} and {} leave no joint", a.part.name, b.part.name));
            }
        }
    }
    wrong
}

fn touch(a: &Prism, b: &Prism, within: f64) -> bool {
    AXES.iter().any(|axis| [-within, within].iter().any(|by| overlap(&a.moved(*axis, *by), b).is_some()))
}

/// Pieces that hang in the air: nothing leads from them to the floor, a wall or a neighbour.
fn adrift(module: &Module, pieces: &[Piece<'_>]) -> Vec<String> {
    let bought = module.poses[0].solids.iter().filter(|solid| solid.bought).map(|solid| &solid.prism);
    let mut wrong = Vec::new();
    let reach: Vec<f64> = pieces
        .iter()
        .map(|piece| match &piece.part.held {
            Some(held) if !module.hardware.iter().any(|hardware| hardware.name == *held) => {
                wrong.push(format!("{} is held by {held}, which the module has not", piece.part.name));
                TOUCH
            }
            Some(_) => piece.part.clear + TOUCH,
            None => TOUCH,
        })
        .collect();
    let all: Vec<(&Prism, f64)> =
        pieces.iter().map(Piece::solid).zip(reach).chain(bought.map(|prism| (prism, TOUCH))).collect();
    let mut firm: Vec<bool> = all.iter().map(|(prism, _)| is_at_the_edge(module, prism)).collect();
    loop {
        let next: Vec<usize> = (0..all.len())
            .filter(|at| !firm[*at])
            .filter(|at| {
                (0..all.len()).any(|other| firm[other] && touch(all[*at].0, all[other].0, all[*at].1.max(all[other].1)))
            })
            .collect();
        if next.is_empty() {
            break;
        }
        next.into_iter().for_each(|at| firm[at] = true);
    }
    let loose = pieces.iter().zip(&firm).filter(|(_, firm)| !**firm);
    wrong.extend(loose.map(|(piece, _)| format!("{} touches nothing that stands: {}", piece.part.name, shown(piece))));
    wrong
}

/// Whether a piece reaches the floor, the back or an end of its module, where it can be fixed.
fn is_at_the_edge(module: &Module, prism: &Prism) -> bool {
    let (own, room) = (prism.bounds(), module.extent);
    let walls = [(own.x, room.x), (own.y, room.y)];
    (own.z.0 - room.z.0).abs() < TOUCH
        || walls.iter().any(|(a, b)| (a.0 - b.0).abs() < TOUCH || (a.1 - b.1).abs() < TOUCH)
}

/// Grooves into which nothing enters as it should.
fn empty_grooves(module: &Module, piece: &Piece<'_>, pieces: &[Piece<'_>]) -> Vec<String> {
    let Some(lies) = piece.place.lies else { return Vec::new() };
    let mut wrong = Vec::new();
    for machining in &piece.part.machining {
        let Machining::Groove { from, to, width, depth, holds, .. } = machining else { continue };
        if let Some(holds) = holds {
            if !module.hardware.iter().any(|hardware| hardware.name == *holds) {
                wrong.push(format!("{}: a groove for {holds}, which the module has not", piece.part.name));
            }
            continue;
        }
        let groove = carved(piece.part, piece.place, machining).unwrap();
        let others = pieces.iter().filter(|other| !std::ptr::eq(other.place, piece.place));
        let filled = others.filter_map(|other| overlap(&groove, other.solid())).reduce(|a, b| a.union(&b));
        let along_length = (from.0 - to.0).abs() > (from.1 - to.1).abs();
        let (along, across) = if along_length { (lies.length, lies.width) } else { (lies.width, lies.length) };
        let size = |at: &Box3, toward: Toward| at.range(toward.axis).1 - at.range(toward.axis).0;
        let free = |toward: Toward, of: f64| of - filled.map_or(0.0, |at| size(&at, toward));
        let length = (from.0 - to.0).hypot(from.1 - to.1);
        let free = [free(along, length), free(across, *width), free(lies.face, *depth)];
        if free[0] > RUN_OUT.min(length / 2.0) || free[1] > PLAY.0 || free[2] > PLAY.1 {
            wrong.push(format!("{}: a groove is free by {free:.2?} mm (along, across, deep)", piece.part.name));
        }
    }
    wrong
}

/// Openings in the outside of a solid wider than the room its pieces want beside them, on sides that its symbol does not call open.
fn gaps(solid: &Solid, solids: &[Solid], pieces: &[Piece<'_>]) -> Vec<String> {
    let mut wrong = Vec::new();
    let bounds = solid.prism.bounds();
    for axis in AXES {
        for up in [false, true] {
            if solid.open.contains(&Toward { axis, up }) {
                continue;
            }
            let range = bounds.range(axis);
            let (at, out) = if up { (range.1, TOUCH) } else { (range.0, -TOUCH) };
            let slab = |to: f64| (at.min(at + to), at.max(at + to));
            let shadow = |prism: &Prism, (low, high): (f64, f64)| {
                let polygons = prism.shadow(axis, low, high);
                Region::new(&polygons)
            };
            let face = flat_face(&solid.prism, axis, slab(-out));
            let beside = solids
                .iter()
                .flat_map(|other| if other.bought { fitted(&other.prism, axis) } else { vec![other.prism.clone()] });
            let beside = Region::all(beside.map(|other| shadow(&other, slab(out))));
            let joint = pieces.iter().filter(|piece| piece.part.held.is_none()).fold(0.0_f64, |joint, piece| {
                let own = overlap(piece.solid(), &solid.prism).is_some();
                if own { joint.max(piece.part.clear) } else { joint }
            });
            let closed = Region::all(
                pieces.iter().map(|piece| shadow(piece.solid(), slab(-out.signum() * (joint / 2.0 + TOUCH)))),
            );
            let free = face.subtract(&beside).subtract(&closed);
            if let Some(hole) = wider_than(joint, &free) {
                let side = if up { "high" } else { "low" };
                wrong.push(format!("solid {}: {hole:.1?} open at its {side} side of {axis:?}", solid.name));
            }
        }
    }
    wrong
}

/// What is bought stands in a niche a little larger than itself; here as its corners seen along an axis.
fn fitted(bought: &Prism, axis: Axis) -> Vec<Prism> {
    let by = NICHE + TOUCH;
    let across = AXES.into_iter().filter(|other| *other != axis).collect::<Vec<_>>();
    let corners = [(-by, -by), (-by, by), (by, -by), (by, by)];
    corners.map(|(a, b)| bought.moved(across[0], a).moved(across[1], b)).to_vec()
}

/// The face of a prism at one end of an axis, where it is flat: of a sloping side only its edge is seen.
fn flat_face(prism: &Prism, axis: Axis, slab: (f64, f64)) -> Region {
    let polygons = prism.shadow(axis, slab.0, slab.1);
    let deeper = if (slab.0 - prism.bounds().range(axis).0).abs() < 1e-6 { TOUCH } else { -TOUCH };
    let further = prism.shadow(axis, slab.0 + deeper, slab.1 + deeper);
    let face = Region::new(&polygons);
    if prism.axis == axis { face } else { face.intersect(&Region::new(&further)) }
}

/// Where a square wider than a joint goes into a region.
fn wider_than(joint: f64, region: &Region) -> Option<Rect> {
    let step = (joint + 2.0 * TOUCH) / 2.0;
    let mut inner = region.clone();
    for (a, b) in (0..9).map(|at| (f64::from(at / 3), f64::from(at % 3))) {
        inner = inner.intersect(&moved(region, Vec2::new(a * step, b * step)));
    }
    (!inner.is_empty()).then(|| inner.bounds())
}

fn moved(region: &Region, by: Vec2) -> Region {
    let polygons: Vec<Region> = region
        .parts()
        .map(|part| {
            let contours: Vec<Polygon> = part
                .contours()
                .map(|points| Polygon::new(points.into_iter().map(|point| Affine::translate(by) * point).collect()))
                .collect();
            let (outer, holes) = contours.split_first().unwrap();
            Region::new([outer]).subtract(&Region::new(holes))
        })
        .collect();
    Region::all(polygons)
}

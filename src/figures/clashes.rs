//! Pieces and bought things of a module that share room, in any of its poses.

use super::joints::pieces;
use crate::geometry::{Axis, Box3, Polygon, Prism, Roof, common_bounds, free_volume, overlap};
use crate::model::{Machining, Module, Part, PieceAt, Place, Solid};
use kurbo::Point;
use std::borrow::Cow;

/// A film of so much on the surface of what two share is rounding, mm.
const FILM: f64 = 0.01;
/// A rim around a cut-out, on which what is set into it lies, mm.
const RIM: f64 = 20.0;

/// Two things that share room.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Clash {
    /// Names of both.
    pub names: [String; 2],
    /// The parts among them.
    pub parts: Vec<usize>,
    /// The room they share.
    pub shared: Box3,
    /// The pose.
    pub pose: String,
}

/// Something that takes room.
struct Body<'m> {
    name: String,
    prism: Cow<'m, Prism>,
    part: Option<(usize, &'m Part, &'m Place)>,
    bought: bool,
    /// It stands in every pose where it does in the first.
    still: bool,
}

impl Body<'_> {
    /// Room that is cut out of it, as far as another body may stand in it.
    fn taken(&self, other: &Body<'_>) -> Vec<Prism> {
        let Some((_, part, place)) = self.part else { return Vec::new() };
        part.machining
            .iter()
            .filter_map(|one| carved(part, place, one, other.bought && lies_on(place, other)))
            .collect()
    }
}

/// Something bought that ends no higher than a little over a level board is set into it.
fn lies_on(place: &Place, other: &Body<'_>) -> bool {
    let (board, thing) = (place.bounds(), other.prism.bounds());
    place.lies.is_some_and(|lies| lies.face.axis == Axis::Z) && thing.z.1 >= board.z.1 - 1.0
}

fn carved(part: &Part, place: &Place, machining: &Machining, with_rim: bool) -> Option<Prism> {
    match machining {
        Machining::Cutout { outline, .. } if with_rim => {
            let grown = Polygon::rect(outline.bounds().inflate(RIM, RIM));
            place.carved(&grown, (0.0, part.thickness))
        }
        Machining::Cutout { outline, .. } => place.carved(outline, (0.0, part.thickness)),
        Machining::Groove { depth, reverse, .. } => {
            let from = if *reverse { part.thickness - depth } else { 0.0 };
            place.carved(&Polygon::rect(machining.bounds()), (from, from + depth))
        }
        Machining::Hole { .. } => None,
    }
}

/// All pairs of a module that share room.
pub(crate) fn clashes(module: &Module) -> Vec<Clash> {
    let Some(first) = module.poses.first() else { return Vec::new() };
    let mut found = Vec::new();
    // `part-loose` tells of a module that has too many.
    if module.together.too_many {
        return found;
    }
    let own: Vec<Body<'_>> = pieces(module).filter_map(|(at, _)| body(module, at)).collect();
    let bodies: Vec<Body<'_>> =
        own.into_iter().chain(first.solids.iter().filter(|one| one.bought).map(|one| set_in(module, one))).collect();
    look(&bodies, &first.name, |_, _| true, &mut found);
    for pose in module.poses.iter().skip(1) {
        let stays =
            |solid: &Solid| pose.solids.iter().any(|other| other.name == solid.name && other.prism == solid.prism);
        let gone: Vec<&Solid> = first.solids.iter().filter(|solid| !stays(solid)).collect();
        let still = |body: &Body<'_>| !gone.iter().any(|solid| overlap(&solid.prism, &body.prism).is_some());
        let mut there: Vec<Body<'_>> = pieces(module).filter_map(|(at, _)| body(module, at)).filter(still).collect();
        for solid in &pose.solids {
            let stood = first.solids.iter().any(|other| other.name == solid.name && other.prism == solid.prism);
            if solid.bought || !stood {
                there.push(Body { still: stood, ..set_in(module, solid) });
            }
        }
        look(&there, &pose.name, |a, b| !(a.still && b.still), &mut found);
    }
    found
}

fn body(module: &Module, at: PieceAt) -> Option<Body<'_>> {
    let part = module.parts.get(at.part)?;
    let place = part.places.get(at.place)?;
    Some(Body {
        name: part.name.clone(),
        prism: Cow::Borrowed(&place.solid),
        part: Some((at.part, part, place)),
        bought: false,
        still: true,
    })
}

/// A solid; of one that is set into a cut-out of a level board, only what goes through the cut-out reaches below the board.
fn set_in<'m>(module: &'m Module, solid: &'m Solid) -> Body<'m> {
    let at = solid.prism.bounds();
    let through = module.parts.iter().filter(|_| solid.bought).flat_map(|part| {
        let cutouts = part.machining.iter().filter(|one| matches!(one, Machining::Cutout { .. }));
        cutouts.flat_map(|cutout| part.places.iter().filter_map(|place| carved(part, place, cutout, false)))
    });
    let below = |cut: Prism| {
        let hole = cut.bounds();
        let inside = at.plan().contains_rect(hole.plan());
        let sits = cut.axis == Axis::Z && hole.z.0 > at.z.0 && hole.z.1 <= at.z.1 + 1.0 && hole.z.1 >= at.z.1 - RIM;
        (inside && sits).then_some(Prism { low: at.z.0, high: hole.z.0, ..cut })
    };
    match through.filter_map(below).next() {
        Some(prism) => Body { prism: Cow::Owned(prism), ..thing(solid) },
        None => thing(solid),
    }
}

fn thing(solid: &Solid) -> Body<'_> {
    Body { name: solid.name.clone(), prism: Cow::Borrowed(&solid.prism), part: None, bought: solid.bought, still: true }
}

fn look(bodies: &[Body<'_>], pose: &str, asked: impl Fn(&Body<'_>, &Body<'_>) -> bool, found: &mut Vec<Clash>) {
    let bounds: Vec<Box3> = bodies.iter().map(|body| body.prism.bounds()).collect();
    for (index, (a, at)) in bodies.iter().zip(&bounds).enumerate() {
        for (b, other) in bodies.iter().zip(&bounds).skip(index + 1) {
            if common_bounds(at, other).is_none() || !asked(a, b) {
                continue;
            }
            let Some(shared) = shared(a, b) else { continue };
            let parts = [a, b].iter().filter_map(|body| body.part.map(|(index, ..)| index)).collect();
            let names = [a.name.clone(), b.name.clone()];
            if !found.iter().any(|known: &Clash| known.names == names && known.parts == parts) {
                found.push(Clash { names, parts, shared, pose: pose.to_owned() });
            }
        }
    }
}

/// The room that two share beyond what is cut out of either.
fn shared(a: &Body<'_>, b: &Body<'_>) -> Option<Box3> {
    let shared = overlap(&a.prism, &b.prism)?;
    let size = |range: (f64, f64)| range.1 - range.0;
    let (x, y, z) = (size(shared.x), size(shared.y), size(shared.z));
    let film = 2.0 * FILM * (x * y + y * z + z * x);
    let taken: Vec<Prism> = a.taken(b).into_iter().chain(b.taken(a)).collect();
    let mut least: Vec<&Prism> = taken.iter().collect();
    let sky = Roof::Line(vec![Point::new(-1e6, 1e6), Point::new(1e6, 1e6)]);
    let without = free_volume(&a.prism, &least, &sky);
    least.push(&b.prism);
    (without - free_volume(&a.prism, &least, &sky) > film).then_some(shared)
}

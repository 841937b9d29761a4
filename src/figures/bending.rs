//! What carries what in a module, and how much it bends: boards with a stated load hand it down to what they rest on, which
//! hands it on, until it comes to what stands.

use super::joints::{Anchor, Anchored, pieces};
use crate::base::tolerance::BEARING;
use crate::geometry::{Axis, Box3};
use crate::model::{Fixing, Joint, Lies, Meeting, Module, Part, Partner, PieceAt, Stock, Wall};

mod beam;

use beam::{Beam, Rest, Spread};

/// Newton for each kilogram.
const GRAVITY: f64 = 9.81;
/// A flat board that runs along a wall and is no wider than this is a batten, fixed to it, mm.
const BATTEN: f64 = 120.0;
/// A groove is no deeper than this, mm.
const GROOVE: f64 = 20.0;
/// What is glued on a piece works with it over so much of its length beside it: plywood skins on webs, EN 1995-1-1, table 9.1,
/// from memory.
const SKIN: f64 = 0.1;
/// The edge of a board thinner than this bears nothing, mm.
const THIN: f64 = 9.0;
/// What bears a piece at its side reaches so much further down, mm.
const DEEPER: f64 = 20.0;

/// What bends a piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Carries {
    /// Its stated load, kg/m2.
    Stated(f64),
    /// What rests on it, kg.
    Handed(f64),
}

/// How much a piece bends.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Bent {
    pub piece: PieceAt,
    /// Between what it rests on, mm.
    pub span: f64,
    /// In that span, mm.
    pub sag: f64,
    pub carries: Carries,
}

/// How the pieces of a module bend.
#[derive(Debug, Default)]
pub(crate) struct Bending {
    pub bent: Vec<Bent>,
    /// What carries something, and nothing that holds both of its ends was found.
    pub unheld: Vec<PieceAt>,
}

/// A force on a piece, spread evenly over a place, N.
#[derive(Debug, Clone, Copy)]
struct Force {
    over: Box3,
    newton: f64,
}

/// What a piece rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Bearer {
    Piece(usize),
    /// Something that stands, whatever it carries.
    Firm,
}

/// A piece that may carry something.
struct Body<'m> {
    at: PieceAt,
    part: &'m Part,
    stock: &'m Stock,
    bounds: Box3,
    lies: Lies,
}

impl Body<'_> {
    /// It lies flat.
    fn is_flat(&self) -> bool {
        self.lies.face.axis == Axis::Z
    }

    fn size(&self, axis: Axis) -> f64 {
        let (low, high) = self.bounds.range(axis);
        high - low
    }

    /// The ways it may span, each with the other level axis: a flat one two, one on edge its level one.
    fn ways(&self) -> Vec<(Axis, Axis)> {
        match self.lies.face.axis {
            Axis::Z => {
                vec![(self.lies.length.axis, self.lies.width.axis), (self.lies.width.axis, self.lies.length.axis)]
            }
            Axis::X => vec![(Axis::Y, Axis::X)],
            Axis::Y => vec![(Axis::X, Axis::Y)],
        }
    }

    /// E along an axis, N/mm2; on edge the mean of both stiffnesses of its stock. `None` for a stock without one.
    fn modulus(&self, axis: Axis) -> Option<f64> {
        let (along, across) = self.stock.stiffness?;
        Some(match () {
            () if !self.is_flat() => f64::midpoint(along, across),
            () if axis == self.lies.length.axis => along,
            () => across,
        })
    }

    fn mass(&self) -> f64 {
        self.stock.density * self.size(Axis::X) * self.size(Axis::Y) * self.size(Axis::Z) / 1e9
    }

    /// Its own weight, and its stated load.
    fn own(&self) -> Force {
        let area = self.size(Axis::X) * self.size(Axis::Y) / 1e6;
        let load = self.part.load.map_or(0.0, |load| load * area);
        Force { over: self.bounds, newton: (load + self.mass()) * GRAVITY }
    }
}

/// The pieces of a module that carry something.
struct Chain<'m> {
    module: &'m Module,
    bodies: Vec<Body<'m>>,
    anchored: &'m [Anchored],
    space: &'m Box3,
}

/// How the pieces of a module bend that carry something, in its first pose.
pub(crate) fn bending(module: &Module, stocks: &[Stock], anchored: &[Anchored]) -> Bending {
    let body = |(at, bounds): (PieceAt, Box3)| {
        let part = module.parts.get(at.part)?;
        let lies = part.places.get(at.place)?.lies?;
        Some(Body { at, part, stock: stocks.get(part.stock)?, bounds, lies })
    };
    if module.parts.iter().all(|part| part.load.is_none()) {
        return Bending::default();
    }
    let bodies = pieces(module).filter_map(body).collect();
    Chain { module, bodies, anchored, space: &module.extent }.run()
}

impl Chain<'_> {
    fn run(&self) -> Bending {
        let mut found = Bending::default();
        let beams = self.beams();
        let mut forces: Vec<Vec<Force>> = vec![Vec::new(); self.bodies.len()];
        for index in self.order(&beams) {
            let Some(body) = self.bodies.get(index) else { continue };
            let handed: f64 = forces.get(index).into_iter().flatten().map(|force| force.newton).sum();
            if body.part.load.is_none() && handed == 0.0 {
                continue;
            }
            let Some(beam) = beams.get(index).and_then(Option::as_ref) else { continue };
            let own = body.own();
            let all = forces.get(index).into_iter().flatten().chain([&own]);
            let all: Vec<_> = all.map(|force| along(force, beam.axis)).collect();
            match beam.worst_span(&all) {
                Some((span, sag)) => {
                    let carries = body.part.load.map_or(Carries::Handed(handed / GRAVITY), Carries::Stated);
                    found.bent.push(Bent { piece: body.at, span, sag, carries });
                }
                None => found.unheld.push(body.at),
            }
            for (rest, newton) in beam.handed_down(&all) {
                if let Bearer::Piece(to) = rest.on
                    && let Some(known) = forces.get_mut(to)
                {
                    known.push(Force { over: rest.at, newton });
                }
            }
        }
        found
    }

    /// Bodies in an order in which each comes after all that rest on it; those that carry each other in turn are left out.
    fn order(&self, beams: &[Option<Beam<Bearer>>]) -> Vec<usize> {
        let bearers = |index: usize| {
            let rests = beams.get(index).and_then(Option::as_ref).map(|beam| beam.rests.as_slice());
            rests.unwrap_or_default().iter().filter_map(|rest| match rest.on {
                Bearer::Piece(to) => Some(to),
                Bearer::Firm => None,
            })
        };
        let mut waits = vec![0_usize; self.bodies.len()];
        for index in 0..self.bodies.len() {
            bearers(index).for_each(|to| waits.iter_mut().skip(to).take(1).for_each(|count| *count += 1));
        }
        let mut order: Vec<usize> = (0..waits.len()).filter(|index| waits.get(*index) == Some(&0)).collect();
        let mut next = 0;
        while let Some(index) = order.get(next).copied() {
            next += 1;
            for to in bearers(index) {
                if let Some(count) = waits.get_mut(to) {
                    *count -= 1;
                    if *count == 0 {
                        order.push(to);
                    }
                }
            }
        }
        order
    }

    /// How each body spans: of the two ways of a flat one that under which it and what it rests on bend least; `None` for
    /// what stands or has no stated stiffness.
    fn beams(&self) -> Vec<Option<Beam<Bearer>>> {
        let ways: Vec<Vec<Beam<Bearer>>> = (0..self.bodies.len()).map(|index| self.ways(index)).collect();
        let own = |index: usize, axis: Axis| self.bodies.get(index).map(|body| along(&body.own(), axis));
        let least = |index: usize| {
            let softness = |beam: &&Beam<Bearer>| beam.softness(own(index, beam.axis).as_slice());
            ways.get(index)?.iter().min_by(|a, b| softness(a).total_cmp(&softness(b)))
        };
        let with_bearers = |index: usize, beam: &Beam<Bearer>| {
            let forces = own(index, beam.axis);
            let bearer = |(rest, newton): (Rest<Bearer>, f64)| match rest.on {
                Bearer::Piece(to) => {
                    least(to).map(|under| under.softness(&[along(&Force { over: rest.at, newton }, under.axis)]))
                }
                Bearer::Firm => None,
            };
            let bearers = beam.handed_down(forces.as_slice()).into_iter().filter_map(bearer);
            bearers.filter(|softness| softness.is_finite()).fold(beam.softness(forces.as_slice()), f64::max)
        };
        let chosen = |(index, ways): (usize, &Vec<Beam<Bearer>>)| {
            let softness: Vec<f64> = ways.iter().map(|beam| with_bearers(index, beam)).collect();
            let best = (0..ways.len()).min_by(|a, b| match (softness.get(*a), softness.get(*b)) {
                (Some(a), Some(b)) => a.total_cmp(b),
                _ => std::cmp::Ordering::Equal,
            });
            best.and_then(|best| ways.get(best)).cloned()
        };
        ways.iter().enumerate().map(chosen).collect()
    }

    /// The ways a body may span; none for what stands or has no stated stiffness.
    fn ways(&self, index: usize) -> Vec<Beam<Bearer>> {
        let Some(body) = self.bodies.get(index).filter(|body| !self.is_firm(body)) else { return Vec::new() };
        let beam = |(axis, other): (Axis, Axis)| {
            let stiffness = self.stiffness(body, axis, other)?;
            Some(Beam { axis, range: body.bounds.range(axis), stiffness, rests: self.rests(index, axis, other) })
        };
        body.ways().into_iter().filter_map(beam).collect()
    }

    /// E I along an axis, N mm2: of a flat piece together with a board that is glued on it, as far as that works with it.
    fn stiffness(&self, body: &Body<'_>, axis: Axis, other: Axis) -> Option<f64> {
        let (modulus, height) = (body.modulus(axis)?, body.size(Axis::Z));
        let own = modulus * body.size(other) * height.powi(3) / 12.0;
        let skin = self.bodies.iter().find(|skin| {
            let on = (skin.bounds.z.0 - body.bounds.z.1).abs() < BEARING;
            body.is_flat() && skin.is_flat() && on && self.glued(body.at, skin.at)
        });
        let Some(skin) = skin else { return Some(own) };
        let breadth = skin.size(other).min(body.size(other) + SKIN * body.size(axis));
        let (modulus_of_skin, thick) = (skin.modulus(axis)?, skin.size(Axis::Z));
        let (a, b) = (modulus * body.size(other) * height, modulus_of_skin * breadth * thick);
        let apart = f64::midpoint(height, thick);
        Some(own + modulus_of_skin * breadth * thick.powi(3) / 12.0 + a * b / (a + b) * apart.powi(2))
    }

    /// The joints of two pieces.
    fn joints_of(&self, a: PieceAt, b: PieceAt) -> impl Iterator<Item = &Joint> {
        let of = move |joint: &&Joint| {
            let pair = (joint.one, joint.other);
            pair == (a, Partner::Piece(b)) || pair == (b, Partner::Piece(a))
        };
        self.module.together.joints.iter().filter(of)
    }

    fn glued(&self, a: PieceAt, b: PieceAt) -> bool {
        self.joints_of(a, b).any(|joint| {
            let glue = matches!(joint.fixing, Fixing::Glue | Fixing::Screws { glued: true, .. });
            glue && joint.meeting == Meeting::FaceOnFace
        })
    }

    /// The height at which a body finds a bearer below it: its underside, or below flat pieces that lie between.
    fn foot(&self, body: &Body<'_>, bearer: &Body<'_>) -> f64 {
        let (low, top) = (body.bounds.z.0, bearer.bounds.z.1);
        let between = |flat: &&Body<'_>| {
            let touches = (flat.bounds.z.1 - low).abs() < BEARING && (flat.bounds.z.0 - top).abs() < BEARING;
            let over = |other: &Box3| [Axis::X, Axis::Y].into_iter().all(|axis| flat.bounds.gap(other, axis) < 0.0);
            flat.is_flat() && touches && over(&body.bounds) && over(&bearer.bounds)
        };
        if body.is_flat() && self.is_firm(bearer) && self.bodies.iter().any(|flat| between(&flat)) { top } else { low }
    }

    /// It stands on the floor, is fixed along a wall, stands upright, or is a bracket at a wall, half as high as it reaches out.
    fn is_firm(&self, body: &Body<'_>) -> bool {
        let level = body.size(Axis::X).max(body.size(Axis::Y));
        if !body.is_flat() && body.size(Axis::Z) >= level {
            return true;
        }
        let narrow = body.size(Axis::X).min(body.size(Axis::Y)) <= BATTEN;
        let long = if body.size(Axis::X) >= body.size(Axis::Y) { Axis::X } else { Axis::Y };
        self.anchors(body).any(|wall| match wall {
            Wall::Floor => !body.is_flat(),
            Wall::Roof => true,
            wall if wall.across() == long => !body.is_flat() && body.size(Axis::Z) >= level / 2.0,
            _ => !body.is_flat() || narrow,
        })
    }

    fn anchors(&self, body: &Body<'_>) -> impl Iterator<Item = Wall> {
        let at = body.at;
        self.anchored.iter().filter(move |one| one.piece == at).filter_map(|one| match one.to {
            Anchor::Panel(wall) => Some(wall),
            Anchor::Cutaway => Some(Wall::Floor),
            Anchor::Module(_) => None,
        })
    }

    /// What a body rests on along an axis.
    fn rests(&self, index: usize, axis: Axis, other: Axis) -> Vec<Rest<Bearer>> {
        let Some(body) = self.bodies.get(index) else { return Vec::new() };
        let mut rests = Vec::new();
        for (number, bearer) in self.bodies.iter().enumerate().filter(|(number, _)| *number != index) {
            let thin = !bearer.is_flat() && bearer.part.thickness < THIN;
            let foot = (self.foot(body, bearer), body.bounds.z.1);
            let under = under(&body.bounds.with(Axis::Z, foot), &bearer.bounds, axis, other).filter(|_| !thin);
            let at_end = || {
                let deep = self.held(body.at, bearer.at, axis)?;
                butts(&body.bounds, &bearer.bounds, (axis, other), deep)
            };
            rests.extend(under.or_else(at_end).map(|at| Rest { at, on: Bearer::Piece(number) }));
        }
        if !body.is_flat() {
            rests.extend(self.at_sides(body, other));
        }
        rests.extend(self.at_bought(body, axis, other));
        rests.extend(self.at_ends(body, axis));
        rests
    }

    /// How deep one of two pieces may reach into the other where they are held together at an end, mm; `None` where they are not.
    fn held(&self, a: PieceAt, b: PieceAt, axis: Axis) -> Option<f64> {
        self.joints_of(a, b).find_map(|joint| {
            let grooved = joint.meeting == Meeting::InGroove;
            let holds = (joint.across.axis == axis || grooved) && bears(joint);
            holds.then_some(if grooved { GROOVE } else { BEARING })
        })
    }

    /// Where a board on edge is fixed to the face of something that reaches further down.
    fn at_sides(&self, body: &Body<'_>, across: Axis) -> Vec<Rest<Bearer>> {
        let mut rests = Vec::new();
        for joint in &self.module.together.joints {
            let Partner::Piece(piece) = joint.other else { continue };
            let to = match body.at {
                at if at == joint.one => piece,
                at if at == piece => joint.one,
                _ => continue,
            };
            let bearer = self.bodies.iter().position(|other| other.at == to);
            let Some((number, bearer)) = bearer.and_then(|number| Some((number, self.bodies.get(number)?))) else {
                continue;
            };
            if joint.across.axis == across
                && bears(joint)
                && (self.is_firm(bearer) || bearer.bounds.z.0 <= body.bounds.z.0 - DEEPER)
            {
                rests.push(Rest { at: joint.at, on: Bearer::Piece(number) });
            }
        }
        rests
    }

    /// Something bought that it lies on, or that its end or, on edge, its side is fixed to.
    fn at_bought(&self, body: &Body<'_>, axis: Axis, other: Axis) -> Vec<Rest<Bearer>> {
        let pose = self.module.poses.first();
        let bought = pose.into_iter().flat_map(|pose| &pose.solids).filter(|solid| solid.bought);
        let place = |at: Box3| {
            let beside = || {
                let shared =
                    at.range(axis).1.min(body.bounds.range(axis).1) - at.range(axis).0.max(body.bounds.range(axis).0);
                let meets = |axis: Axis| at.gap(&body.bounds, axis) <= BEARING;
                (!body.is_flat() && shared > 0.0 && meets(other) && meets(Axis::Z)).then(|| {
                    let (a, b) = (at.range(axis), body.bounds.range(axis));
                    body.bounds.with(axis, (a.0.max(b.0), a.1.min(b.1)))
                })
            };
            under(&body.bounds, &at, axis, other)
                .or_else(|| butts(&body.bounds, &at, (axis, other), BEARING))
                .or_else(beside)
        };
        bought.filter_map(|solid| place(solid.prism.bounds())).map(|at| Rest { at, on: Bearer::Firm }).collect()
    }

    /// Ends that pins hold, that are fixed to a wall, or that something is screwed to beyond the module.
    fn at_ends(&self, body: &Body<'_>, axis: Axis) -> Vec<Rest<Bearer>> {
        let (low, high) = body.bounds.range(axis);
        let end = |at: f64| Rest { at: body.bounds.with(axis, (at, at)), on: Bearer::Firm };
        let mut rests = Vec::new();
        if body.part.held.is_some() && axis == body.lies.length.axis {
            rests.extend([end(low), end(high)]);
        }
        let of_walls = self.anchors(body).filter_map(|wall| match wall {
            Wall::Front | Wall::Left => (wall.across() == axis).then_some(low),
            Wall::Rear | Wall::Right => (wall.across() == axis).then_some(high),
            Wall::Floor | Wall::Roof => None,
        });
        if !body.is_flat() {
            rests.extend(of_walls.map(end));
            let beside = self.anchored.iter().any(|one| one.piece == body.at && matches!(one.to, Anchor::Module(_)));
            let (from, to) = self.space.range(axis);
            let ends = [(low, low - from), (high, to - high)].into_iter().filter(|(_, gap)| beside && *gap <= BEARING);
            rests.extend(ends.map(|(at, _)| end(at)));
        }
        rests
    }
}

/// A force along an axis.
fn along(force: &Force, axis: Axis) -> Spread {
    (force.over.range(axis), force.newton)
}

/// A joint takes a load across it.
fn bears(joint: &Joint) -> bool {
    !matches!(joint.fixing, Fixing::Rests | Fixing::Glue)
}

/// The part of a body that lies on a piece over half its breadth.
fn under(body: &Box3, piece: &Box3, axis: Axis, other: Axis) -> Option<Box3> {
    let (along, common) = shared(body, piece, axis, other)?;
    let lies = (piece.z.1 - body.z.0).abs() < BEARING && along.1 > along.0;
    lies.then(|| body.with(axis, along).with(other, common))
}

/// The end of a body that butts against a piece over half its breadth, or reaches so deep into it.
fn butts(body: &Box3, piece: &Box3, (axis, other): (Axis, Axis), deep: f64) -> Option<Box3> {
    let (along, common) = shared(body, piece, axis, other)?;
    let own = body.range(axis);
    let upright = piece.z.0 < body.z.1 && piece.z.1 > body.z.0;
    let ends = (along.1 - along.0).abs() < deep && (along.0 - own.0).min(own.1 - along.1) < BEARING;
    (upright && ends).then(|| body.with(axis, along).with(other, common))
}

/// What two share along an axis and across it; `None` where that is less than half of the body's breadth.
fn shared(body: &Box3, piece: &Box3, axis: Axis, other: Axis) -> Option<((f64, f64), (f64, f64))> {
    let both = |axis: Axis| {
        let (a, b) = (body.range(axis), piece.range(axis));
        (a.0.max(b.0), a.1.min(b.1))
    };
    let (breadth, common) = (body.range(other), both(other));
    (common.1 - common.0 >= (breadth.1 - breadth.0) / 2.0).then(|| (both(axis), common))
}

#[cfg(test)]
mod tests;

//! What a load meets.

use super::super::check::Context;
use crate::base::tolerance::{GREATEST_LENGTH, SAME_LENGTH};
use crate::geometry::{Axis, Box3, Polygon, Prism, common_bounds, overlap};
use crate::model::{Arrangement, Load, Model, Module, PoseState, Vehicle, VehicleKind};
use crate::source::Span;
use kurbo::{Circle, Point, Shape};

/// What is taken of a frame's width on each side for its rails, mm; common practice, no source.
const RAIL: f64 = 50.0;
/// Width of a tyre, mm; common practice, no source.
const TYRE: f64 = 200.0;

/// Something that a load shares room with.
pub(super) struct Met {
    /// Its name, for the key.
    pub name: String,
    /// In words.
    pub says: String,
    /// The room that both take.
    pub shared: Box3,
    /// The arrangement, where it depends on one.
    pub arrangement: Option<String>,
    /// Whether its size is a guess.
    pub guessed: bool,
    pub span: Option<Span>,
}

impl Met {
    fn new(name: impl Into<String>, says: String, shared: Box3) -> Self {
        Self { name: name.into(), says, shared, arrangement: None, guessed: false, span: None }
    }
}

/// Everything that a load meets: the worst of each module, then the rest.
pub(super) fn all_met(context: &Context<'_>, load: &Load, room: &Prism) -> Vec<Met> {
    let model = context.model;
    let modules = context.arrangements().iter().flat_map(|one| modules(model, one, room));
    let vehicle = model.vehicle.iter().flat_map(|vehicle| under(model, vehicle, room));
    modules
        .chain(cutaways(model, room))
        .chain(others(model, load, room))
        .chain(shell(model, room))
        .chain(vehicle)
        .collect()
}

fn modules<'a>(model: &'a Model, arrangement: &'a Arrangement, room: &'a Prism) -> impl Iterator<Item = Met> + 'a {
    let bounds = room.bounds();
    let near = model.states(arrangement).filter(move |(module, _)| common_bounds(&module.extent, &bounds).is_some());
    near.filter_map(move |(module, state)| {
        let of = bodies(module, state).filter_map(|(name, prism)| Some((name, overlap(prism, room).filter(deep)?)));
        let (name, shared) = of.reduce(|best, next| if next.1.volume() > best.1.volume() { next } else { best })?;
        let mut met = Met::new(&module.name, format!("`{name}` of `{}`", module.name), shared);
        met.arrangement = Some(arrangement.name.clone());
        met.span = Some(module.place_span);
        Some(met)
    })
}

/// What is solid of a module in a pose: its pieces as they stand in the first one, and its solids but the hollow ones.
fn bodies<'a>(module: &'a Module, state: &'a PoseState) -> impl Iterator<Item = (&'a str, &'a Prism)> {
    let hollow = module.parts.iter().any(|part| !part.places.is_empty());
    let first = module.poses.first().is_some_and(|first| std::ptr::eq(first, state));
    let pieces = module.parts.iter().filter(move |_| first);
    let pieces = pieces.flat_map(|part| part.places.iter().map(|place| (part.name.as_str(), &place.solid)));
    let solids = state.solids.iter().filter(move |solid| solid.bought || !hollow);
    pieces.chain(solids.map(|solid| (solid.name.as_str(), &solid.prism)))
}

fn cutaways<'a>(model: &'a Model, room: &'a Prism) -> impl Iterator<Item = Met> + 'a {
    model.space.cutaways.iter().filter_map(move |cutaway| {
        let shared = overlap(&cutaway.prism, room).filter(deep)?;
        let met = Met::new(&cutaway.name, format!("the cutaway `{}`", cutaway.name), shared);
        let outside = room.bounds().z.1 <= SAME_LENGTH;
        (!outside && inside(model, room)).then_some(Met { span: Some(cutaway.span), ..met })
    })
}

/// Whether the middle of a room is in the box.
fn inside(model: &Model, room: &Prism) -> bool {
    let (at, space) = (room.bounds().centre(), &model.space);
    (0.0..=space.length).contains(&at.x) && (0.0..=space.width).contains(&at.y) && at.z >= 0.0
}

/// Loads that come later in the layout.
fn others<'a>(model: &'a Model, load: &'a Load, room: &'a Prism) -> impl Iterator<Item = Met> + 'a {
    let later = model.loads.iter().skip_while(move |other| other.name != load.name).skip(1);
    later.filter_map(move |other| {
        let shared = overlap(other.room.as_ref()?, room).filter(deep)?;
        Some(Met { span: Some(other.span), ..Met::new(&other.name, format!("`{}`", other.name), shared) })
    })
}

/// The panels of the box.
fn shell(model: &Model, room: &Prism) -> Vec<Met> {
    let space = &model.space;
    let (wall, floor, roof) = (space.walls.thickness, space.floor.thickness, space.roof_panel.thickness);
    let (long, wide) = ((-wall, space.length + wall), (-wall, space.width + wall));
    let tall = (-floor, space.height);
    let panel = |x, y, z| Box3 { x, y, z };
    let panels = [
        ("floor", panel(long, wide, (-floor, 0.0))),
        ("front wall", panel((-wall, 0.0), wide, tall)),
        ("rear wall", panel((space.length, space.length + wall), wide, tall)),
        ("left wall", panel(long, (-wall, 0.0), tall)),
        ("right wall", panel(long, (space.width, space.width + wall), tall)),
    ];
    let shared = |(name, panel): &(&str, Box3)| {
        let shared = overlap(&Prism::from(*panel), room).filter(deep)?;
        Some(Met { span: Some(space.span), ..Met::new(*name, format!("the {name}"), shared) })
    };
    let mut found: Vec<Met> = panels.iter().filter_map(shared).collect();
    // The roof: what lies above the lining and below the outside over the same place.
    let bounds = room.bounds();
    let over = common_bounds(&bounds, &panel((0.0, space.length), (0.0, space.width), (0.0, GREATEST_LENGTH)));
    if let Some(over) = over {
        let (low, _) = space.roof.least_over(over.y.0, over.y.1);
        let through = (bounds.z.1.min(low + roof) - bounds.z.0.max(low)).max(0.0);
        if through > SAME_LENGTH {
            let shared = over.with(Axis::Z, (bounds.z.0.max(low), bounds.z.1.min(low + roof)));
            found.push(Met { span: Some(space.span), ..Met::new("roof", "the roof".to_owned(), shared) });
        }
    }
    found
}

/// Rails, wheels and cab of the vehicle.
fn under(model: &Model, vehicle: &Vehicle, room: &Prism) -> Vec<Met> {
    let middle = model.space.width / 2.0 - vehicle.box_right;
    let (x, z) = (|along: f64| along - vehicle.box_from_front, |up: f64| up - vehicle.floor_height);
    let mut bodies: Vec<(&str, Prism)> = Vec::new();
    if let Some(frame) = vehicle.frame {
        let half = frame.width / 2.0;
        for side in [-1.0, 1.0] {
            let (a, b) = (middle + side * half, middle + side * (half - RAIL));
            let (x, z) = ((x(-vehicle.ahead), x(frame.rear)), (z(frame.bottom), z(frame.top)));
            bodies.push(("a rail of the frame", Box3 { x, y: (a.min(b), a.max(b)), z }.into()));
        }
    }
    bodies.extend(wheels(model, vehicle, 0.0).into_iter().map(|wheel| ("a wheel", wheel)));
    let mut found: Vec<Met> = bodies.iter().filter_map(|(says, body)| met(vehicle, says, body, room)).collect();
    if let Some(cab) = vehicle.cab {
        let half = cab.width / 2.0;
        let body =
            Box3 { x: (x(-vehicle.ahead), x(cab.rear)), y: (middle - half, middle + half), z: (z(0.0), z(cab.top)) };
        let (bounds, within) =
            (room.bounds(), |a: (f64, f64), b: (f64, f64)| a.0 >= b.0 - SAME_LENGTH && a.1 <= b.1 + SAME_LENGTH);
        let in_it = within(bounds.x, body.x) && within(bounds.y, body.y) && within(bounds.z, body.z);
        found.extend(met(vehicle, "the cab", &body.into(), room).filter(|_| !in_it));
    }
    found
}

/// The wheels as discs, so far raised, mm.
fn wheels(model: &Model, vehicle: &Vehicle, raised: f64) -> Vec<Prism> {
    let middle = model.space.width / 2.0 - vehicle.box_right;
    let mut all = Vec::new();
    for (at, along) in vehicle.wheels().into_iter().enumerate() {
        let first = at == 0 && vehicle.kind != VehicleKind::Trailer;
        let track = if first { vehicle.front.track } else { vehicle.rear.track };
        let up = vehicle.tyre_radius - vehicle.floor_height + raised;
        let centre = Point::new(along - vehicle.box_from_front, up);
        let round = Polygon::new(chords(Circle::new(centre, vehicle.tyre_radius)));
        for y in [-0.5, 0.5].map(|side| middle + side * track) {
            let (low, high) = (y - TYRE / 2.0, y + TYRE / 2.0);
            all.push(Prism { axis: Axis::Y, outline: round.clone(), low, high });
        }
    }
    all
}

/// Where wheels, as far up as their springs let them, reach into the box or its floor, and no wheel box makes room for them.
pub(super) fn wheels_in_box(model: &Model, vehicle: &Vehicle) -> Vec<Box3> {
    let space = &model.space;
    let (wall, floor) = (space.walls.thickness, space.floor.thickness);
    let whole = Box3 { x: (-wall, space.length + wall), y: (-wall, space.width + wall), z: (-floor, space.height) };
    let room = |shared: &Box3| {
        space.cutaways.iter().map(|cutaway| cutaway.prism.bounds()).any(|cut| {
            let within = |a: (f64, f64), b: (f64, f64)| a.0 >= b.0 - SAME_LENGTH && a.1 <= b.1 + SAME_LENGTH;
            let across = (shared.y.0.max(0.0), shared.y.1.min(space.width));
            within(shared.x, cut.x) && within(across, cut.y) && shared.z.1 <= cut.z.1 - floor + SAME_LENGTH
        })
    };
    let wheels = wheels(model, vehicle, vehicle.wheel_travel);
    let met = wheels.iter().filter_map(|wheel| overlap(&Prism::from(whole), wheel).filter(deep));
    met.filter(|shared| !room(shared)).collect()
}

fn met(vehicle: &Vehicle, says: &str, body: &Prism, room: &Prism) -> Option<Met> {
    let shared = overlap(body, room).filter(deep)?;
    Some(Met { guessed: true, span: Some(vehicle.span), ..Met::new(says, says.to_owned(), shared) })
}

/// A circle as a polygon, nowhere more than a tenth of a millimetre off.
fn chords(circle: Circle) -> Vec<Point> {
    let mut points = Vec::new();
    kurbo::flatten(circle.path_elements(0.1), 0.1, |element| match element {
        kurbo::PathEl::MoveTo(point) | kurbo::PathEl::LineTo(point) => points.push(point),
        _ => {}
    });
    points
}

/// Whether an overlap is more than a touch.
fn deep(of: &Box3) -> bool {
    [of.x, of.y, of.z].iter().all(|range| range.1 - range.0 > SAME_LENGTH)
}

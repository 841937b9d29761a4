//! Layouts made by hand for the tests of the views.

use crate::diagnostic::{Bound, Finding, Limit, Mark, Measure, Quantity, Severity, Sink, Suggestion};
use crate::geometry::{Axis, Box3, Prism};
use crate::language::read_theme;
use crate::model::testing::said;
use crate::model::{
    Arrangement, BoxSpace, CutKind, Cutaway, Model, Module, Move, MoveKind, Opening, OpeningKind, Panel, PlanLine,
    PoseState, SheetSettings, Slide, Solid, Swing, Swings, Theme, Title, Wall, Zone,
};
use crate::source::{MemoryWorld, SourceMap, Span};
use kurbo::{Point, Rect, Shape};

fn panel(thickness: f64) -> Panel {
    Panel { layup: "sandwich".into(), thickness, areal_mass: 9.0, layers: Vec::new() }
}

/// An empty box with one arrangement.
pub fn empty(length: f64, width: f64) -> Model {
    let title = Title {
        title: "Box for two surveyors".into(),
        number: "BW-1042".into(),
        revision: "B".into(),
        by: "R. Halden".into(),
        approved: "M. Okoro".into(),
        owner: "Northmoor Boxes".into(),
        date: "2026-03-14".into(),
        ..Title::default()
    };
    let space = crate::model::testing::space(length, width, 1950.0);
    let space = BoxSpace { walls: panel(62.0), roof_panel: panel(62.0), floor: panel(80.0), ..space };
    let sheets = SheetSettings { theme: theme(), ..SheetSettings::default() };
    Model { title, sheets, ..crate::model::testing::model(space) }
}

/// The theme of a layout that names none.
fn theme() -> Theme {
    let (mut sources, mut sink) = (SourceMap::default(), Sink::default());
    read_theme(&MemoryWorld::default(), "sample.yaml", None, false, (&mut sources, &mut sink))
}

pub fn solid(x: (f64, f64), y: (f64, f64), z: (f64, f64)) -> Solid {
    Solid {
        name: "body".into(),
        prism: Prism::from(Box3 { x, y, z }),
        curve: None,
        tags: vec![],
        bought: false,
        open: vec![],
        span: Span::default(),
    }
}

pub fn pose(name: &str, solids: Vec<Solid>) -> PoseState {
    PoseState { name: name.into(), solids, spaces: vec![], moves: vec![], linework: vec![], exports: vec![] }
}

/// Adds a module with its poses; its extent is the box around all solids.
pub fn add(model: &mut Model, name: &str, says: &str, faces: Wall, poses: Vec<PoseState>) {
    let bounds = poses.iter().flat_map(|pose| &pose.solids).map(|solid| solid.prism.bounds());
    let extent = bounds.reduce(|a, b| a.union(&b)).unwrap_or_default();
    model.modules.push(Module {
        name: name.into(),
        symbol: "sample/body".into(),
        says: says.into(),
        faces,
        extent,
        zone: None,
        outside: false,
        used_outside: false,
        through: None,
        sleepers: vec![],
        riders: vec![],
        poses,
        parts: vec![],
        together: crate::model::Together::default(),
        hardware: vec![],
        masses: vec![],
        connects: vec![],
        misfits: Vec::new(),
        span: Span::default(),
        place_span: Span::default(),
    });
    model.arrangements.iter_mut().for_each(|arrangement| arrangement.poses.push(0));
}

pub fn block(model: &mut Model, name: &str, x: (f64, f64), y: (f64, f64), z: (f64, f64)) {
    add(model, name, "A plain block", Wall::Left, vec![pose("shut", vec![solid(x, y, z)])]);
}

pub fn opening(name: &str, kind: OpeningKind, wall: Wall, along: (f64, f64), up: (f64, f64)) -> Opening {
    let hinge = match wall {
        Wall::Left | Wall::Right => Wall::Front,
        _ => Wall::Left,
    };
    Opening {
        name: name.into(),
        kind,
        wall,
        along,
        up,
        radius: 60.0,
        hinge: Some(hinge),
        swings: Swings::Out,
        opens: 90.0,
        slides: None,
        of_vehicle: false,
        escape: false,
        lining: 0.0,
        free_area: 0.0,
        u_value: None,
        span: Span::default(),
    }
}

fn swing(name: &str, hinge: (f64, f64), shut: f64, opens: f64, walk_through: bool) -> Move {
    let swing =
        Swing { axis: Axis::Z, hinge: hinge.into(), along: (0.0, 1900.0), length: 580.0, thickness: 30.0, shut, opens };
    Move { name: name.into(), kind: MoveKind::Swing(swing), walk_through, span: Span::default() }
}

fn drawer(x: (f64, f64), y: (f64, f64), travel: f64) -> Move {
    let body = Box3 { x, y, z: (200.0, 500.0) };
    let slide = Slide { body, axis: Axis::Y, travel, after: None, through: false };
    Move { name: "drawer".into(), kind: MoveKind::Slide(slide), walk_through: false, span: Span::default() }
}

fn openings(model: &mut Model) {
    model.openings = vec![
        opening("entry", OpeningKind::Door, Wall::Right, (2280.0, 2900.0), (0.0, 1850.0)),
        opening("galley-window", OpeningKind::Window, Wall::Left, (1900.0, 2700.0), (950.0, 1400.0)),
        opening("lounge-window", OpeningKind::Window, Wall::Right, (3050.0, 3750.0), (900.0, 1400.0)),
        opening("bed-window", OpeningKind::Window, Wall::Left, (300.0, 900.0), (1100.0, 1500.0)),
        opening("boot-hatch", OpeningKind::Hatch, Wall::Rear, (400.0, 1500.0), (80.0, 620.0)),
        opening("crawl", OpeningKind::PassThrough, Wall::Front, (700.0, 1380.0), (600.0, 1180.0)),
        opening("skylight", OpeningKind::RoofHatch, Wall::Roof, (2050.0, 2550.0), (800.0, 1300.0)),
    ];
}

fn galley(model: &mut Model) {
    let mut state = pose("shut", vec![solid((1500.0, 2950.0), (0.0, 580.0), (0.0, 900.0))]);
    state.moves = vec![drawer((2250.0, 2950.0), (60.0, 560.0), 450.0)];
    state.linework = vec![
        PlanLine { path: Rect::new(1600.0, 90.0, 2050.0, 470.0).to_path(0.1), height: 900.0, dashed: false },
        PlanLine { path: kurbo::Circle::new((2450.0, 300.0), 90.0).to_path(0.1), height: 900.0, dashed: false },
        PlanLine { path: kurbo::Circle::new((2720.0, 300.0), 110.0).to_path(0.1), height: 900.0, dashed: false },
    ];
    add(model, "galley", "Base cupboards under one worktop, with an optional sink and hob", Wall::Right, vec![state]);
}

/// A furnished box of 3960 x 2080 with openings in all walls and two arrangements.
pub fn furnished() -> Model {
    let mut model = empty(3960.0, 2080.0);
    openings(&mut model);
    model.arrangements =
        ["day", "night"].map(|name| Arrangement { name: name.into(), poses: vec![], span: Span::default() }).to_vec();
    let bed = |z: f64| solid((0.0, 1400.0), (0.0, 2080.0), (z, z + 160.0));
    let poses = vec![pose("raised", vec![bed(1450.0)]), pose("lowered", vec![bed(760.0)])];
    add(&mut model, "lift-bed", "Double bed that lifts to the roof", Wall::Rear, poses);
    galley(&mut model);
    let lockers = vec![solid((1500.0, 2950.0), (0.0, 300.0), (1450.0, 1900.0))];
    add(&mut model, "lockers", "Overhead lockers", Wall::Right, vec![pose("shut", lockers)]);
    let tall = vec![solid((1500.0, 2080.0), (1480.0, 2080.0), (0.0, 1900.0))];
    let mut tall = pose("shut", tall);
    tall.moves = vec![swing("door", (1500.0, 1480.0), 0.0, -95.0, false)];
    add(&mut model, "pantry", "Tall cupboard for stores", Wall::Left, vec![tall]);
    let mut wall = pose("shut", vec![solid((1418.0, 1436.0), (0.0, 700.0), (0.0, 1900.0))]);
    wall.solids.push(solid((1418.0, 1436.0), (1300.0, 2080.0), (0.0, 1900.0)));
    wall.moves = vec![swing("leaf", (1427.0, 700.0), 90.0, 90.0, true)];
    add(&mut model, "partition", "Partition with a door", Wall::Rear, vec![wall]);
    let lounge =
        vec![solid((3000.0, 3400.0), (0.0, 560.0), (0.0, 450.0)), solid((3400.0, 3960.0), (0.0, 2080.0), (0.0, 450.0))];
    add(&mut model, "lounge", "L-shaped lounge with storage under the seats", Wall::Front, vec![pose("day", lounge)]);
    let table = vec![solid((2860.0, 3340.0), (700.0, 1400.0), (700.0, 730.0))];
    add(&mut model, "table", "Table that drops", Wall::Rear, vec![pose("up", table)]);
    if let Some(night) = model.arrangements.last_mut() {
        night.poses = vec![1, 0, 0, 0, 0, 0, 0];
    }
    zones(&mut model);
    let wheel = Box3 { x: (2350.0, 3050.0), y: (0.0, 260.0), z: (0.0, 240.0) };
    model.space.cutaways =
        vec![Cutaway { name: "wheel-box".into(), prism: wheel.into(), kind: CutKind::Floor, span: Span::default() }];
    model
}

fn zones(model: &mut Model) {
    let zone = |name: &str, x0, y0, x1, y1| Zone {
        name: name.into(),
        purpose: said(name),
        rect: Rect::new(x0, y0, x1, y1),
        level: 0,
        span: Span::default(),
    };
    model.zones = vec![
        zone("sleeping", 0.0, 0.0, 1418.0, 2080.0),
        zone("kitchen", 1436.0, 0.0, 2960.0, 2080.0),
        zone("living", 2960.0, 0.0, 3960.0, 2080.0),
    ];
}

/// A fault, a caution and an accepted fault, with marks of each kind.
pub fn findings() -> Vec<Finding> {
    let mut fault =
        Finding::new("walkway", Severity::Fault, "entry galley", "the way is 412 mm wide, less than 500 mm");
    fault.marks = vec![Mark::Between(Point::new(2080.0, 1480.0), Point::new(2080.0, 580.0))];
    fault.measured = Some(Measure { value: 412.0, quantity: Quantity::Length });
    fault.required = Some(Limit::practice("least", Bound::Least(500.0), Quantity::Length).requirement(None));
    let words = "make the depth of `galley` 472 mm instead of 560 mm".into();
    fault.suggestion = Some(Suggestion { words, edits: Vec::new() });
    let mut caution = Finding::new(
        "headroom",
        Severity::Caution,
        "lift-bed",
        "1,450 mm are free under the raised bed, 1,805 mm wanted",
    );
    caution.marks = vec![Mark::Area(Rect::new(0.0, 0.0, 1400.0, 2080.0).to_path(0.1))];
    caution.arrangements = vec!["day".into()];
    let mut accepted = Finding::new("slide", Severity::Caution, "galley", "drawer 2 leaves 210 mm of standing room");
    accepted.marks = vec![Mark::At(Point::new(2600.0, 820.0))];
    accepted.accepted = Some("the cook stands beside it".into());
    vec![fault, caution, accepted]
}

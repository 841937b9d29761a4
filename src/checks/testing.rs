//! Small hand-made models for the tests of checks.

use super::check::{Check, Context};
use crate::base::memo::Memo;
use crate::diagnostic::{Finding, Severity};
use crate::figures::Figures;
use crate::geometry::{Axis, Box3, Prism};
pub(crate) use crate::model::testing::{model, space};
use crate::model::{Model, Module, Need, Opening, OpeningKind, Person, PoseState, Solid, Space, Swings, Wall};
use crate::source::Span;
use kurbo::Rect;

/// A box by its corner ranges.
pub fn box3(x: (f64, f64), y: (f64, f64), z: (f64, f64)) -> Box3 {
    Box3 { x, y, z }
}

/// A module in one pose with one solid, `body`, that fills its extent; it faces the right wall.
pub fn block(name: &str, extent: Box3) -> Module {
    let state = PoseState {
        name: "only".to_owned(),
        solids: vec![solid("body", extent.into())],
        spaces: Vec::new(),
        moves: Vec::new(),
        linework: Vec::new(),
        exports: Vec::new(),
    };
    Module {
        name: name.to_owned(),
        symbol: "test/block".to_owned(),
        says: "A block".to_owned(),
        faces: Wall::Right,
        extent,
        zone: None,
        outside: false,
        used_outside: false,
        through: None,
        sleepers: Vec::new(),
        riders: Vec::new(),
        poses: vec![state],
        parts: Vec::new(),
        together: crate::model::Together::default(),
        hardware: Vec::new(),
        masses: Vec::new(),
        connects: Vec::new(),
        misfits: Vec::new(),
        span: Span::default(),
        place_span: Span::default(),
    }
}

/// A solid of a prism.
pub fn solid(name: &str, prism: Prism) -> Solid {
    Solid {
        name: name.to_owned(),
        prism,
        curve: None,
        tags: Vec::new(),
        bought: false,
        open: Vec::new(),
        span: Span::default(),
    }
}

/// A standing space over a rectangle, 2 m high.
pub fn standing(rect: Rect) -> Space {
    Space {
        name: "stand".to_owned(),
        prism: Prism::upright(rect, 0.0, 2000.0),
        need: Need::Standing,
        people: 1,
        along: None,
        carries: None,
        span: Span::default(),
    }
}

/// A lying space on top of an extent, 1 m high.
pub fn lying(extent: Box3, people: u32, along: Option<Axis>) -> Space {
    let room = Box3 { z: (extent.z.1, extent.z.1 + 1000.0), ..extent };
    let (name, span) = ("lie".to_owned(), Span::default());
    Space { name, prism: room.into(), need: Need::Lying, people, along, carries: None, span }
}

/// The module with a space more in its first pose.
pub fn with_space(mut module: Module, space: Space) -> Module {
    module.poses[0].spaces.push(space);
    module
}

/// The model with a module more, in its first pose in every arrangement.
pub fn with(mut model: Model, module: Module) -> Model {
    model.modules.push(module);
    model.arrangements.iter_mut().for_each(|arrangement| arrangement.poses.push(0));
    model
}

/// The model with an opening more.
pub fn with_opening(mut model: Model, opening: Opening) -> Model {
    model.openings.push(opening);
    model
}

/// The model with a person more.
pub fn with_person(mut model: Model, stature: f64) -> Model {
    model.people.push(Person { name: "ada".to_owned(), stature, measured: true, mass: 70.0, span: Span::default() });
    model
}

/// A door that swings out, 1,800 mm high.
pub fn door(name: &str, wall: Wall, along: (f64, f64)) -> Opening {
    Opening {
        name: name.to_owned(),
        kind: OpeningKind::Door,
        wall,
        along,
        up: (0.0, 1800.0),
        radius: 0.0,
        hinge: None,
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

/// A truck of 4,000 kg with a box of 4 x 2 x 2 m that weighs nothing.
pub fn on_wheels() -> Model {
    let mut model = model(space(4000.0, 2000.0, 2000.0));
    let space = &mut model.space;
    for panel in [&mut space.walls, &mut space.roof_panel, &mut space.floor] {
        panel.areal_mass = 0.0;
    }
    model.vehicle = Some(crate::model::testing::vehicle());
    model
}

/// What a check finds in a model, without what is met.
pub fn run(check: &dyn Check, model: &Model) -> Vec<Finding> {
    let memo = Memo::default();
    let all = check.run(&Context::new(check, &Figures::new(model, &memo)));
    all.into_iter().filter(|finding| finding.severity != Severity::Met).collect()
}

/// The tightest place that meets a check's requirement: its subject and figure.
pub fn met(check: &dyn Check, model: &Model) -> Option<(String, f64)> {
    let memo = Memo::default();
    let all = check.run(&Context::new(check, &Figures::new(model, &memo)));
    let met = all.into_iter().find(|finding| finding.severity == Severity::Met)?;
    met.measured.map(|measured| (met.key.subject.to_string(), measured.value))
}

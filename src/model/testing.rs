//! Small models for tests of all rooms.

use super::{
    Arrangement, Axle, BoxSpace, Climate, DrawnBy, LabelGrid, Load, LoadKind, Model, Mounts, Panel, Prices, Region,
    Said, Services, SheetSettings, Subframe, Title, Vehicle, VehicleClass, VehicleKind, Word,
};
use crate::geometry::{Box3, Point3, Roof};
use crate::source::Span;
use kurbo::Point;

/// A box with a flat roof and panels of 40 mm.
pub(crate) fn space(length: f64, width: f64, height: f64) -> BoxSpace {
    let panel = || Panel { layup: "panel".to_owned(), thickness: 40.0, areal_mass: 8.0, layers: Vec::new() };
    BoxSpace {
        length,
        width,
        height,
        roof: Roof::Line(vec![Point::new(0.0, height), Point::new(width, height)]),
        walls: panel(),
        roof_panel: panel(),
        floor: panel(),
        cutaways: Vec::new(),
        span: Span::default(),
    }
}

/// A model with one arrangement, `day`, and nothing in its box.
pub(crate) fn model(space: BoxSpace) -> Model {
    Model {
        name: "test".to_owned(),
        title: Title::default(),
        people: Vec::new(),
        parameters: Vec::new(),
        space,
        openings: Vec::new(),
        zones: Vec::new(),
        modules: Vec::new(),
        arrangements: vec![Arrangement { name: "day".to_owned(), poses: Vec::new(), span: Span::default() }],
        routes: Vec::new(),
        cargo: Vec::new(),
        vehicle: None,
        loads: Vec::new(),
        load_cases: Vec::new(),
        services: Services::default(),
        climate: Climate::default(),
        prices: Prices::default(),
        labels: LabelGrid::default(),
        router: None,
        limits: Vec::new(),
        accepted: Vec::new(),
        stocks: Vec::new(),
        sheets: SheetSettings::default(),
        errors: 0,
    }
}

/// A truck of 4.2 m wheelbase, 620 mm from its front axle to the box.
pub(crate) fn vehicle() -> Vehicle {
    let axle = |limit, bare, track| Axle { limit, least: 0.0, bare, track, spread: 0.0, share: 0.5 };
    Vehicle {
        kind: VehicleKind::Truck,
        region: Region::Eu,
        class: VehicleClass::MotorCaravan,
        drawn_by: DrawnBy::Car,
        wheelbase: 4200.0,
        gross: 7800.0,
        box_from_front: 620.0,
        floor_height: 1120.0,
        tyre_radius: 465.0,
        bare_height: 780.0,
        bare_right: 0.0,
        box_right: 0.0,
        ahead: 1300.0,
        behind: 0.0,
        on_roof: 0.0,
        beside: 0.0,
        wheel_travel: 0.0,
        side_slope: 0.0,
        options: 0.0,
        allowance: 0.0,
        front: axle(3200.0, 2350.0, 1800.0),
        rear: axle(5600.0, 1650.0, 1660.0),
        cab: None,
        frame: None,
        underside: Vec::new(),
        overhang: (0.0, 0.0),
        subframe: None,
        seats: Vec::new(),
        span: Span::default(),
        axle_spans: [Span::default(); 2],
    }
}

/// A subframe on mounts 850 mm apart; the frame twists by 7 degrees.
pub(crate) fn subframe(mounts: Mounts) -> Subframe {
    Subframe {
        mounts,
        twist: 7.0,
        cab_gap: 100.0,
        least_gap: 20.0,
        sleeve_shear: 0.0,
        sleeve_stretch: 0.0,
        apart: 850.0,
        dynamic: 2.5,
        rails: None,
        span: Span::default(),
    }
}

/// A thing of a size about its middle.
pub(crate) fn load(name: &str, at: [f64; 3], size: [f64; 3], mass: f64) -> Load {
    let range = |axis: usize| (at[axis] - size[axis] / 2.0, at[axis] + size[axis] / 2.0);
    let room = Box3 { x: range(0), y: range(1), z: range(2) };
    Load {
        name: name.to_owned(),
        at: Point3 { x: at[0], y: at[1], z: at[2] },
        mass,
        size: Some(size),
        room: Some(room.into()),
        kind: LoadKind::Other,
        tank: None,
        filler: None,
        only_full: false,
        span: Span::default(),
    }
}

/// A word that is known, else one of the author's own.
pub(crate) fn said<W: Word>(name: &str) -> Said<W> {
    W::of(name).map_or_else(|| Said::Own(name.into()), Said::Known)
}

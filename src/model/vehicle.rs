//! The vehicle under the box, and what it carries beside the furniture.
//!
//! Lengths along the vehicle (`X`) are measured to the rear from the front axle, or from the coupling of a trailer; heights
//! (`Z`) from the ground. Points of loads and seats are in box coordinates, like everything in a layout.

use super::space_box::BoxSpace;
use super::words::{DrawnBy, Holds, LoadKind, Steel, SubframeKind, VehicleClass};
use crate::geometry::{Point3, Prism};
use crate::source::Span;
use kurbo::Point;

/// What kind of vehicle carries the box.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum VehicleKind {
    /// A chassis with a cab.
    #[default]
    Truck,
    /// A panel van: its own body is the shell.
    Van,
    /// Drawn by another vehicle; rests on its coupling in front.
    Trailer,
}

impl VehicleKind {
    /// What carries its front end.
    #[must_use]
    pub fn front_words(self) -> &'static str {
        if self == Self::Trailer { "coupling" } else { "front axle" }
    }
}

/// Whose rules on outside sizes hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Region {
    /// European Union.
    #[default]
    Eu,
    /// United Kingdom.
    Uk,
    /// Australia.
    Au,
}

/// One of the two supports: an axle, the middle of a group of axles, or a coupling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axle {
    /// Most load, kg.
    pub limit: f64,
    /// Least load, kg; 0 for none.
    pub least: f64,
    /// Load of the bare vehicle, kg.
    pub bare: f64,
    /// Between the middles of the wheels of both sides, mm; 0 for a coupling.
    pub track: f64,
    /// Between the first and the last axle of a group, mm; 0 for one axle.
    pub spread: f64,
    /// Part of a group's load on its first axle, 0 to 1.
    pub share: f64,
}

/// A box seen from the side, for drawings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cab {
    /// Its rear wall, X.
    pub rear: f64,
    /// Its roof, Z.
    pub top: f64,
    /// Its width, mm.
    pub width: f64,
    /// How it tilts, if it does.
    pub tilt: Option<Tilt>,
}

/// A cab that tilts forward about a line across.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tilt {
    /// The line: X and Z.
    pub about: Point,
    /// How far, degrees.
    pub angle: f64,
    /// Lower edge of the cab's rear wall, Z.
    pub bottom: f64,
}

/// The frame seen from the side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrameLine {
    /// Upper edge, Z.
    pub top: f64,
    /// Lower edge, Z.
    pub bottom: f64,
    /// Rear end, X.
    pub rear: f64,
    /// Over both rails, mm.
    pub width: f64,
}

/// What the box rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Subframe {
    /// Where it is held.
    pub mounts: Mounts,
    /// Twist of the frame over the wheelbase, degrees.
    pub twist: f64,
    /// Between cab and front wall, mm.
    pub cab_gap: f64,
    /// What must be left of the room between frame and box, mm.
    pub least_gap: f64,
    /// What the sleeve between cab and box takes crosswise, mm; 0 where there is none.
    pub sleeve_shear: f64,
    /// What it takes lengthwise, mm.
    pub sleeve_stretch: f64,
    /// Between the two mounts of a pair, mm.
    pub apart: f64,
    /// What forces at rest are multiplied by for the road.
    pub dynamic: f64,
    /// Its two longitudinals.
    pub rails: Option<Rails>,
    /// Where it is written.
    pub span: Span,
}

/// The mounts of a subframe, at places X.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Mounts {
    /// A pair that holds the box against rolling, and a pivot in the middle.
    ThreePoint {
        /// The pair.
        fixed: f64,
        /// The pivot, before or behind it.
        pivot: f64,
    },
    /// A pair between two pivots in the middle.
    FourPoint {
        /// The pair.
        sides: f64,
        /// The front and the rear pivot.
        pivots: (f64, f64),
    },
    /// A pair that holds the box, and a pair held down by springs.
    Springs {
        /// The pair that holds.
        fixed: f64,
        /// The pair with springs.
        at: f64,
        /// Each of them.
        spring: Spring,
    },
    /// Bolted to the frame all along.
    Rigid,
}

/// One spring that holds a mount down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spring {
    /// N for each mm.
    pub rate: f64,
    /// Force at rest, N.
    pub preload: f64,
    /// How far it may be pressed, mm.
    pub travel: f64,
}

/// Rectangular tubes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rails {
    /// Outside, upright, mm.
    pub height: f64,
    /// Outside, level, mm.
    pub width: f64,
    /// Thickness, mm.
    pub wall: f64,
    /// What it is made of.
    pub steel: Steel,
}

impl Subframe {
    /// Of which kind it is.
    #[must_use]
    pub fn kind(&self) -> SubframeKind {
        match self.mounts {
            Mounts::ThreePoint { .. } => SubframeKind::ThreePoint,
            Mounts::FourPoint { .. } => SubframeKind::FourPoint,
            Mounts::Springs { .. } => SubframeKind::Springs,
            Mounts::Rigid => SubframeKind::Rigid,
        }
    }

    /// Where the box is held against rolling, X; `None` where the whole frame does it.
    #[must_use]
    pub fn rolls_at(&self) -> Option<f64> {
        match self.mounts {
            Mounts::ThreePoint { fixed, .. } | Mounts::Springs { fixed, .. } => Some(fixed),
            Mounts::FourPoint { sides, .. } => Some(sides),
            Mounts::Rigid => None,
        }
    }
}

/// A seat for the road.
#[derive(Debug, Clone, PartialEq)]
pub struct Seat {
    /// Its name, if it has one.
    pub name: Option<String>,
    /// Middle of its upper face, box coordinates.
    pub at: Point3,
    /// Who sits there, if the layout says so.
    pub who: Option<String>,
}

/// The vehicle.
#[derive(Debug, Clone, PartialEq)]
pub struct Vehicle {
    /// What kind.
    pub kind: VehicleKind,
    /// Whose rules on sizes.
    pub region: Region,
    /// Whose rules on masses.
    pub class: VehicleClass,
    /// What draws a trailer.
    pub drawn_by: DrawnBy,
    /// Between the supports, mm.
    pub wheelbase: f64,
    /// Most mass in all, kg.
    pub gross: f64,
    /// Inside of the box's front wall, X.
    pub box_from_front: f64,
    /// The box's floor, Z.
    pub floor_height: f64,
    /// Wheel radius under load, mm.
    pub tyre_radius: f64,
    /// Centre of the bare vehicle, Z.
    pub bare_height: f64,
    /// The same, right of the vehicle's middle, mm.
    pub bare_right: f64,
    /// Middle of the box right of the vehicle's middle, mm.
    pub box_right: f64,
    /// From the front axle to the foremost point, mm.
    pub ahead: f64,
    /// From the rear axle to the rearmost point of the vehicle itself, mm.
    pub behind: f64,
    /// What stands on the roof, mm.
    pub on_roof: f64,
    /// What stands off the side walls, both sides together, mm.
    pub beside: f64,
    /// How far the wheels come up when the springs give, mm.
    pub wheel_travel: f64,
    /// Slope across on which the wheel loads are told, degrees; 0 for none.
    pub side_slope: f64,
    /// What may be fitted beside all that the layout has, kg.
    pub options: f64,
    /// What is added for what nobody counts, percent of what is built.
    pub allowance: f64,
    /// Front axle or coupling.
    pub front: Axle,
    /// Rear axle or group.
    pub rear: Axle,
    /// Cab.
    pub cab: Option<Cab>,
    /// Frame.
    pub frame: Option<FrameLine>,
    /// Corners of the underside, (X, Z).
    pub underside: Vec<Point>,
    /// Rear overhang at most: part of the wheelbase, and mm.
    pub overhang: (f64, f64),
    /// Subframe.
    pub subframe: Option<Subframe>,
    /// Seats on the road.
    pub seats: Vec<Seat>,
    /// Where `vehicle` is written.
    pub span: Span,
    /// Where the front axle or coupling, and the rear axle, are written.
    pub axle_spans: [Span; 2],
}

impl Vehicle {
    /// X of a place in the box.
    #[must_use]
    pub fn along(&self, x: f64) -> f64 {
        self.box_from_front + x
    }

    /// Outside of the box's front wall, X.
    #[must_use]
    pub fn front_wall(&self, space: &BoxSpace) -> f64 {
        self.along(-space.walls.thickness)
    }

    /// Mass of the bare vehicle, kg.
    #[must_use]
    pub fn bare(&self) -> f64 {
        self.front.bare + self.rear.bare
    }

    /// X of each axle with wheels, from the front.
    #[must_use]
    pub fn wheels(&self) -> Vec<f64> {
        let front = (self.kind != VehicleKind::Trailer).then_some(0.0);
        let half = self.rear.spread / 2.0;
        let rear = if half > 0.0 { vec![self.wheelbase - half, self.wheelbase + half] } else { vec![self.wheelbase] };
        front.into_iter().chain(rear).collect()
    }
}

/// What is in a tank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tank {
    /// Inside size along x, y, z, mm.
    pub size: [f64; 3],
    /// What it is for.
    pub holds: Holds,
    /// Kilograms a litre.
    pub density: f64,
    /// Filled share in the cases empty, running order, full; 0 to 1.
    pub fill: [f64; 3],
}

impl Tank {
    /// Volume, litres.
    #[must_use]
    pub fn litres(&self) -> f64 {
        self.size.iter().product::<f64>() / 1e6
    }
}

/// A tank or a thing beside the furniture.
#[derive(Debug, Clone, PartialEq)]
pub struct Load {
    /// Name in the layout.
    pub name: String,
    /// Its middle, box coordinates.
    pub at: Point3,
    /// Mass without what is in the tank, kg.
    pub mass: f64,
    /// Outside size, if known.
    pub size: Option<[f64; 3]>,
    /// The room that it takes; a tank without an outside size takes its inside.
    pub room: Option<Prism>,
    /// What it is.
    pub kind: LoadKind,
    /// The tank.
    pub tank: Option<Tank>,
    /// Where the tank is filled, box coordinates.
    pub filler: Option<Point3>,
    /// Aboard in the full case alone.
    pub only_full: bool,
    /// Where it is written.
    pub span: Span,
}

/// A load case of the layout's own: the case `full` but for what it says.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnCase {
    /// Name in the layout.
    pub name: String,
    /// Index of the arrangement.
    pub arrangement: Option<usize>,
    /// How many people ride along.
    pub people: Option<usize>,
    /// Contents of the furniture, 0 to 1.
    pub contents: f64,
    /// Whether the cargo is aboard.
    pub cargo: bool,
    /// Filled share of tanks by index in the loads.
    pub fill: Vec<(usize, f64)>,
    /// Where it is written.
    pub span: Span,
}

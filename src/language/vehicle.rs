//! The vehicle under the box, what it carries beside the furniture, and its load cases, as written.

use super::expression::Expr;
use super::figures::{FigureKey, FiguresDoc, needed, or};
use super::named::Named;
use super::place::PlaceDoc;
use crate::model::{DrawnBy, Holds, LoadKind, Steel, VehicleClass};
use crate::source::Spanned;

/// `vehicle:`.
#[derive(Debug, Clone, PartialEq)]
pub struct VehicleDoc {
    /// `truck`, `van` or `trailer`.
    pub kind: Option<Spanned<String>>,
    /// Whose table of outside sizes: `eu`, `uk`, `au`.
    pub region: Option<Spanned<String>>,
    /// Whose rules on masses.
    pub class: Option<Spanned<VehicleClass>>,
    /// What draws a trailer.
    pub drawn_by: Option<Spanned<DrawnBy>>,
    /// Figures of [`VEHICLE`].
    pub figures: FiguresDoc<16>,
    /// The front end rests on a coupling.
    pub coupled: bool,
    /// The front axle, or a trailer's coupling.
    pub front: FiguresDoc<4>,
    /// The rear axle, or the middle of a group of them.
    pub rear: FiguresDoc<6>,
    /// Cab in side view.
    pub cab: Option<FiguresDoc<7>>,
    /// Frame in side view.
    pub frame: Option<FiguresDoc<4>>,
    /// Corners of the underside: from the front axle, above the ground.
    pub underside: Vec<[Expr; 2]>,
    /// Limits of the rear overhang.
    pub overhang: Option<FiguresDoc<2>>,
    /// What the box rests on.
    pub subframe: Option<Spanned<SubframeDoc>>,
    /// Seats for the road, in box coordinates.
    pub seats: Vec<SeatDoc>,
}

/// A seat for the road: a point, or by name `{ at, who }`.
#[derive(Debug, Clone, PartialEq)]
pub struct SeatDoc {
    /// Its name.
    pub name: Option<Spanned<String>>,
    /// The point.
    pub at: Spanned<[Expr; 3]>,
    /// Who sits there.
    pub who: Option<Spanned<String>>,
}

const LENGTH: &str = " mm";
const MASS: &str = " kg";

/// Figures of the vehicle itself.
pub const VEHICLE: [FigureKey; 16] = [
    needed("wheelbase", (500.0, 15_000.0), LENGTH),
    needed("gross", (100.0, 60_000.0), MASS),
    needed("box-from-front-axle", (-15_000.0, 15_000.0), LENGTH),
    needed("floor-above-ground", (50.0, 3_000.0), LENGTH),
    needed("tyre-radius", (100.0, 1_500.0), LENGTH),
    needed("bare-centre-height", (50.0, 3_000.0), LENGTH),
    or(0.0, "bare-centre-right", (-1_000.0, 1_000.0), LENGTH),
    or(0.0, "box-right", (-1_000.0, 1_000.0), LENGTH),
    or(0.0, "ahead-of-front-axle", (0.0, 10_000.0), LENGTH),
    or(0.0, "behind-rear-axle", (0.0, 10_000.0), LENGTH),
    or(0.0, "on-roof", (0.0, 2_000.0), LENGTH),
    or(0.0, "beside-box", (0.0, 1_000.0), LENGTH),
    or(0.0, "wheel-travel", (0.0, 500.0), LENGTH),
    or(0.0, "side-slope", (0.0, 45.0), "°"),
    or(0.0, "optional-equipment", (0.0, 10_000.0), MASS),
    or(3.0, "allowance", (0.0, 50.0), " %"),
];

/// Figures of the front axle or coupling.
pub const FRONT: [FigureKey; 4] = [
    needed("limit", (1.0, 60_000.0), MASS),
    needed("bare", (0.0, 60_000.0), MASS),
    or(0.0, "track", (0.0, 3_500.0), LENGTH),
    or(0.0, "least", (0.0, 60_000.0), MASS),
];

/// Figures of the rear axle; `spread` is between the first and the last axle of a group, `share` the first one's part of
/// its load in percent.
pub const REAR: [FigureKey; 6] = [
    needed("limit", (1.0, 60_000.0), MASS),
    needed("bare", (0.0, 60_000.0), MASS),
    needed("track", (300.0, 3_500.0), LENGTH),
    or(0.0, "least", (0.0, 60_000.0), MASS),
    or(0.0, "spread", (0.0, 5_000.0), LENGTH),
    or(50.0, "share", (0.0, 100.0), " %"),
];

/// The cab: rear wall from the front axle, roof above the ground, width; how far it tilts about which line, and the lower edge of its
/// rear wall.
pub const CAB: [FigureKey; 7] = [
    needed("rear", (-10_000.0, 10_000.0), LENGTH),
    needed("top", (500.0, 4_500.0), LENGTH),
    or(2_200.0, "width", (500.0, 3_000.0), LENGTH),
    or(0.0, "tilt", (0.0, 90.0), "°"),
    or(0.0, "tilts-about", (-10_000.0, 10_000.0), LENGTH),
    or(600.0, "tilts-at-height", (0.0, 4_500.0), LENGTH),
    or(600.0, "bottom", (0.0, 4_500.0), LENGTH),
];

/// The frame: upper and lower edge above the ground, rear end from the front axle, width over both rails (850 mm is common
/// practice).
pub const FRAME: [FigureKey; 4] = [
    needed("top", (100.0, 3_000.0), LENGTH),
    needed("bottom", (50.0, 3_000.0), LENGTH),
    needed("rear", (-10_000.0, 25_000.0), LENGTH),
    or(850.0, "width", (200.0, 2_600.0), LENGTH),
];

/// The rear overhang at most: percent of the wheelbase, and a length.
pub const OVERHANG: [FigureKey; 2] =
    [or(60.0, "share-of-wheelbase", (0.0, 200.0), " %"), or(100_000.0, "most", (0.0, 100_000.0), LENGTH)];

/// A subframe: twist of the frame over the wheelbase in degrees, the gap between cab and box, the room that must stay between
/// frame and box, what a sleeve in the gap takes, how far the mounts of a pair are apart (the frame's width), and what
/// forces at rest are multiplied by for the road (2.5, common practice).
pub const SUBFRAME: [FigureKey; 7] = [
    needed("twist", (0.0, 45.0), "°"),
    or(0.0, "cab-gap", (0.0, 2_000.0), LENGTH),
    or(20.0, "least-gap", (0.0, 2_000.0), LENGTH),
    or(0.0, "sleeve-shear", (0.0, 2_000.0), LENGTH),
    or(0.0, "sleeve-stretch", (0.0, 2_000.0), LENGTH),
    or(0.0, "apart", (0.0, 2_600.0), LENGTH),
    or(2.5, "dynamic", (1.0, 10.0), ""),
];

const ALONG: (f64, f64) = (-5_000.0, 20_000.0);

/// Three points: the pair of mounts and the pivot, from the front axle.
pub const THREE_POINT: [FigureKey; 2] = [needed("fixed-at", ALONG, LENGTH), needed("pivot-at", ALONG, LENGTH)];

/// Four points: the pair of mounts, and the pivots before and behind it.
pub const FOUR_POINT: [FigureKey; 3] = [
    needed("sides-at", ALONG, LENGTH),
    needed("front-pivot-at", ALONG, LENGTH),
    needed("rear-pivot-at", ALONG, LENGTH),
];

/// Springs: the pair of fixed mounts, the pair that springs hold down, and each spring.
pub const SPRINGS: [FigureKey; 5] = [
    needed("fixed-at", ALONG, LENGTH),
    needed("springs-at", ALONG, LENGTH),
    needed("rate", (0.1, 10_000.0), " N/mm"),
    needed("preload", (0.0, 200_000.0), " N"),
    needed("travel", (0.0, 500.0), LENGTH),
];

/// The longitudinals: two rectangular tubes.
pub const RAILS: [FigureKey; 3] = [
    needed("height", (20.0, 500.0), LENGTH),
    needed("width", (20.0, 300.0), LENGTH),
    needed("wall", (1.0, 16.0), LENGTH),
];

/// `subframe:`.
#[derive(Debug, Clone, PartialEq)]
pub struct SubframeDoc {
    /// Figures of [`SUBFRAME`].
    pub figures: FiguresDoc<7>,
    /// Where it is held.
    pub mounts: MountsDoc,
    /// The longitudinals and their steel.
    pub rails: Option<(FiguresDoc<3>, Steel)>,
}

/// The mounts by the kind of subframe.
#[derive(Debug, Clone, PartialEq)]
pub enum MountsDoc {
    /// Figures of [`THREE_POINT`].
    ThreePoint(FiguresDoc<2>),
    /// Figures of [`FOUR_POINT`].
    FourPoint(FiguresDoc<3>),
    /// Figures of [`SPRINGS`].
    Springs(FiguresDoc<5>),
    /// None.
    Rigid,
}

/// One entry of `loads`.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadDoc {
    /// Its middle in box coordinates.
    pub at: Option<Spanned<[Expr; 3]>>,
    /// Or its edges.
    pub place: Option<PlaceDoc>,
    /// Mass of a thing, or of an empty tank, kg.
    pub mass: Option<Expr>,
    /// Inside size of a tank.
    pub tank: Option<Spanned<[Expr; 3]>>,
    /// Outside size of a thing, for what hangs below the floor.
    pub size: Option<Spanned<[Expr; 3]>>,
    /// What a tank holds.
    pub holds: Option<Spanned<Holds>>,
    /// Kilograms a litre.
    pub density: Option<Expr>,
    /// `always` or `full`.
    pub aboard: Option<Spanned<String>>,
    /// Share that is filled, 0 to 1, in the cases `empty`, `running`, `full`.
    pub fill: [Option<Expr>; 3],
    /// What it is.
    pub kind: Option<Spanned<LoadKind>>,
    /// Where a tank is filled, in box coordinates.
    pub filler: Option<Spanned<[Expr; 3]>>,
}

/// One load case of the layout's own.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadCaseDoc {
    /// An arrangement.
    pub arrangement: Option<Spanned<String>>,
    /// How many people ride along.
    pub people: Option<Expr>,
    /// Contents of the furniture, percent.
    pub contents: Option<Expr>,
    /// Whether the cargo is aboard.
    pub cargo: Option<Spanned<bool>>,
    /// Share of each tank that is filled.
    pub fill: Named<Expr>,
}

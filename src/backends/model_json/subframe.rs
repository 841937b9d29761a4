//! What the box rests on, in the model as JSON.

use crate::base::number::micrometres;
use crate::diagnostic::wire::Place;
use crate::model::{Mounts, Rails, Spring, Subframe, Word};
use crate::source::SourceMap;
use schemars::JsonSchema;
use serde::Serialize;

/// What the box rests on; places X count from the front axle.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Subframe")]
pub(super) struct SubframeWire<'a> {
    #[schemars(extend("enum" = ["three-point", "four-point", "springs", "rigid"]))]
    kind: &'static str,
    /// The pair of mounts that holds the box against rolling, X.
    fixed_at: Option<f64>,
    /// Pivots in the middle, X.
    pivots_at: Vec<f64>,
    springs: Option<SpringWire>,
    /// Between the mounts of a pair.
    apart: f64,
    /// Of the frame over the wheelbase, degrees.
    twist: f64,
    /// Between cab and box.
    cab_gap: f64,
    /// What must be left between frame and box.
    least_gap: f64,
    sleeve_shear: f64,
    sleeve_stretch: f64,
    /// What forces at rest are multiplied by for the road.
    dynamic: f64,
    rails: Option<RailsWire>,
    place: Option<Place<'a>>,
}

/// The pair of mounts that springs hold down: X, N/mm, N, mm.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Springs")]
struct SpringWire {
    at: f64,
    rate: f64,
    preload: f64,
    travel: f64,
}

/// The longitudinals: rectangular tubes.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Rails")]
struct RailsWire {
    height: f64,
    width: f64,
    wall: f64,
    steel: &'static str,
}

pub(super) fn subframe_wire(subframe: Subframe, sources: &SourceMap) -> SubframeWire<'_> {
    #[rustfmt::skip]
    let Subframe { mounts, twist, cab_gap, least_gap, sleeve_shear, sleeve_stretch, apart, dynamic, rails, span } = subframe;
    let (pivots_at, springs) = match mounts {
        Mounts::ThreePoint { pivot, .. } => (vec![micrometres(pivot)], None),
        Mounts::FourPoint { pivots: (front, rear), .. } => (vec![micrometres(front), micrometres(rear)], None),
        Mounts::Springs { at, spring, .. } => (Vec::new(), Some(spring_wire(at, spring))),
        Mounts::Rigid => (Vec::new(), None),
    };
    SubframeWire {
        kind: subframe.kind().name(),
        fixed_at: subframe.rolls_at().map(micrometres),
        pivots_at,
        springs,
        apart: micrometres(apart),
        twist: micrometres(twist),
        cab_gap: micrometres(cab_gap),
        least_gap: micrometres(least_gap),
        sleeve_shear: micrometres(sleeve_shear),
        sleeve_stretch: micrometres(sleeve_stretch),
        dynamic: micrometres(dynamic),
        rails: rails.map(rails_wire),
        place: Place::new(sources, span),
    }
}

fn spring_wire(at: f64, spring: Spring) -> SpringWire {
    let Spring { rate, preload, travel } = spring;
    let [at, rate, preload, travel] = [at, rate, preload, travel].map(micrometres);
    SpringWire { at, rate, preload, travel }
}

fn rails_wire(rails: Rails) -> RailsWire {
    let Rails { height, width, wall, steel } = rails;
    let [height, width, wall] = [height, width, wall].map(micrometres);
    RailsWire { height, width, wall, steel: steel.name() }
}

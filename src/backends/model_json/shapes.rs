//! Points, ranges and bodies in `model.json`.

use crate::base::number::micrometres;
use crate::diagnostic::wire::{Pair, pair};
use crate::geometry::{Axis, Box3, Point3, Polygon, Prism};
use crate::model::Toward;
use schemars::JsonSchema;
use serde::Serialize;

/// A body with straight sides along an axis.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Prism")]
pub(super) struct PrismWire {
    #[schemars(extend("enum" = ["x", "y", "z"]))]
    pub axis: &'static str,
    /// In the two other axes, in the order x, y, z.
    pub outline: Vec<Pair>,
    /// Along the axis.
    pub range: Pair,
}

/// A box with edges along the axes.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Box3")]
pub(super) struct Box3Wire {
    pub x: Pair,
    pub y: Pair,
    pub z: Pair,
}

pub(super) fn range(range: (f64, f64)) -> Pair {
    [micrometres(range.0), micrometres(range.1)]
}

pub(super) fn point3(point: Point3) -> [f64; 3] {
    [point.x, point.y, point.z].map(micrometres)
}

pub(super) fn polygon(polygon: &Polygon) -> Vec<Pair> {
    polygon.points().iter().map(|point| pair(*point)).collect()
}

pub(super) fn axis(axis: Axis) -> &'static str {
    match axis {
        Axis::X => "x",
        Axis::Y => "y",
        Axis::Z => "z",
    }
}

pub(super) fn prism(prism: &Prism) -> PrismWire {
    PrismWire { axis: axis(prism.axis), outline: polygon(&prism.outline), range: range((prism.low, prism.high)) }
}

pub(super) fn box3(b: &Box3) -> Box3Wire {
    Box3Wire { x: range(b.x), y: range(b.y), z: range(b.z) }
}

/// `+x`, `-x` and so on.
pub(super) fn toward(toward: Toward) -> String {
    let Toward { axis: along, up } = toward;
    format!("{}{}", if up { "+" } else { "-" }, axis(along))
}

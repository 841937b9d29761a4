//! A frame that twists under a box on a subframe.
//!
//! The box stays with the frame where the subframe holds it against rolling; ahead of and behind that the frame turns about its own line,
//! evenly along its length, so that at X it has turned against the box by `a = twist (fixed - X) / wheelbase`. A place of the cab `y` beside
//! that line and `z` above it then moves against the box sideways by `y (cos a - 1) - z sin a` and upward by `y sin a + z
//! (cos a - 1)`. The turn keeps X, so the gap between cab and box stays; the gap between the frame's rails and the box
//! above them closes by `w sin a` at half their width `w`.

use crate::model::{Model, Opening, OpeningKind, Vehicle, Wall};
use kurbo::Point;

/// How a place of the cab moves against the box.
#[derive(Debug, Clone, PartialEq)]
pub struct Moved {
    /// What.
    pub name: String,
    /// Where: y in the box, z above its floor, mm.
    pub at: Point,
    /// Sideways and upward, mm.
    pub by: Point,
}

impl Moved {
    /// How far, mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.by.to_vec2().hypot()
    }
}

/// What the twist does between cab and box.
#[derive(Debug, Clone, PartialEq)]
pub struct Twist {
    /// Angle between cab and box, degrees.
    pub angle: f64,
    /// Angle between the frame under the front wall and the box, degrees.
    pub frame_angle: f64,
    /// The four corners of the front wall.
    pub corners: Vec<Moved>,
    /// The four corners of the pass-through, if there is one.
    pub sleeve: Vec<Moved>,
    /// Greatest crosswise movement of the sleeve, mm.
    pub shear: f64,
    /// How much longer its longest thread gets over the gap, mm.
    pub stretch: f64,
    /// The box's lower corners against the frame, at both ends.
    pub ends: [End; 2],
    /// Between the frame's rails and the underside of the box: at rest, and what is left at the end where that is less, mm. `None`
    /// if the layout gives no frame.
    pub under: Option<(f64, f64)>,
}

/// An end of the box over the twisted frame.
#[derive(Debug, Clone, PartialEq)]
pub struct End {
    /// "front wall" or "rear wall".
    pub name: &'static str,
    /// Angle between frame and box there, degrees.
    pub angle: f64,
    /// Left and right corner.
    pub corners: [Moved; 2],
}

/// The twist of a layout's vehicle; `None` without a subframe that lets the frame turn.
#[must_use]
pub fn twist(model: &Model, vehicle: &Vehicle) -> Option<Twist> {
    let subframe = vehicle.subframe?;
    let space = &model.space;
    let front = vehicle.front_wall(space);
    let fixed = subframe.rolls_at()?;
    let rear = vehicle.along(space.length + space.walls.thickness);
    let turn = |x: f64| subframe.twist * (fixed - x) / vehicle.wheelbase;
    let (angle, frame_angle) = (turn(vehicle.cab.map_or(front, |cab| cab.rear)), turn(front));
    let axis = vehicle.frame.map_or(vehicle.floor_height, |frame| f64::midpoint(frame.top, frame.bottom));
    let moved_by = |angle: f64, (name, y, z): (&str, f64, f64)| {
        let from_axis = Point::new(y - space.width / 2.0 + vehicle.box_right, z + vehicle.floor_height - axis);
        Moved { name: name.to_owned(), at: Point::new(y, z), by: turned(from_axis, angle) }
    };
    let moved = |place: (&str, f64, f64)| moved_by(angle, place);
    let (low, left, right) = (-space.floor.thickness, -space.walls.thickness, space.width + space.walls.thickness);
    let top = |y: f64| space.roof.height_at(y) + space.roof_panel.thickness;
    let corners = [
        ("lower left corner", left, low),
        ("lower right corner", right, low),
        ("upper left corner", left, top(0.0)),
        ("upper right corner", right, top(space.width)),
    ];
    let sleeve: Vec<Moved> = hole(model).map_or(Vec::new(), |hole| {
        let ((left, right), (sill, head)) = (hole.along, hole.up);
        let corners = [
            ("sleeve, lower left", left, sill),
            ("sleeve, lower right", right, sill),
            ("sleeve, upper left", left, head),
            ("sleeve, upper right", right, head),
        ];
        corners.map(moved).into()
    });
    let shear = sleeve.iter().map(Moved::length).fold(0.0, f64::max);
    let under = vehicle.frame.map(|frame| {
        let rest = vehicle.floor_height - space.floor.thickness - frame.top;
        let most = frame_angle.abs().max(turn(rear).abs());
        (rest, rest - frame.width / 2.0 * most.to_radians().sin())
    });
    let end = |(name, x): (&'static str, f64)| {
        let corners = [("left", left), ("right", right)].map(|(side, y)| moved_by(turn(x), (side, y, low)));
        End { name, angle: turn(x), corners }
    };
    let ends = [("front wall", front), ("rear wall", rear)].map(end);
    let stretch = subframe.cab_gap.hypot(shear) - subframe.cab_gap;
    Some(Twist { angle, frame_angle, corners: corners.map(moved).into(), sleeve, shear, stretch, ends, under })
}

/// The pass-through in the front wall.
fn hole(model: &Model) -> Option<&Opening> {
    let is_pass = |opening: &&Opening| opening.kind == OpeningKind::PassThrough && opening.wall == Wall::Front;
    model.openings.iter().find(is_pass)
}

/// A rotation about the origin, less the place itself.
fn turned(at: Point, degrees: f64) -> Point {
    let (sin, cos) = degrees.to_radians().sin_cos();
    Point::new(at.x * (cos - 1.0) - at.y * sin, at.x * sin + at.y * (cos - 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By arithmetic: a wheel lifted 0.3 m on a track of 1.9 m is a twist of 8.97 degrees at most; a corner 1.2 m beside
    /// the axis then moves 187 mm up.
    #[test]
    fn a_corner_moves_as_the_geometry_says() {
        let angle = (0.3_f64 / 1.9).atan().to_degrees();
        assert!((angle - 8.97).abs() <= 0.005);
        let up = turned(Point::new(1200.0, 0.0), angle).y;
        assert!((up - 187.0).abs() <= 0.5, "{up}");
    }

    #[test]
    fn a_turn_keeps_the_distance_from_the_axis() {
        let at = Point::new(900.0, 1500.0);
        let to = at + turned(at, 9.0).to_vec2();
        assert!((to.to_vec2().hypot() - at.to_vec2().hypot()).abs() < 1e-9);
    }
}

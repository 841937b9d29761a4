//! Figures of people seen from above, to scale: plain shapes of our own.
//!
//! Breadths and lengths are shares of body height: shoulders 0.259, hips 0.191, head 0.130 long, as the segment lengths
//! of Drillis and Contini (1966) are widely quoted; the rest is drawn by eye.

use crate::drawing::{Fill, Item, LineClass};
use kurbo::{Affine, BezPath, Ellipse, Point, Rect, RoundedRect, Shape, Vec2};

/// Flattening of curves, mm in the box.
const FLAT: f64 = 0.5;

/// Where a figure is: its origin and the direction it looks or its feet point to, as a turn in degrees; then onto paper.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stance {
    /// Origin in the box, mm.
    pub at: Point,
    /// Direction of the figure's x axis, degrees counter-clockwise from the box's x axis.
    pub turn: f64,
    /// From the box to the paper.
    pub paper: Affine,
}

impl Stance {
    /// A shape of the figure's own frame on paper.
    pub fn place(&self, shape: &impl Shape) -> BezPath {
        let to_box = Affine::translate(self.at.to_vec2()) * Affine::rotate(self.turn.to_radians());
        self.paper * to_box * shape.to_path(FLAT)
    }

    fn part(&self, shape: &impl Shape, fill: Fill, line: LineClass) -> Item {
        Item::area(self.place(shape), Some(line), fill)
    }
}

fn ellipse(x: f64, y: f64, radii: (f64, f64)) -> Ellipse {
    Ellipse::new((x, y), Vec2::from(radii), 0.0)
}

fn bar(x: (f64, f64), y: (f64, f64), radius: f64) -> RoundedRect {
    Rect::new(x.0, y.0, x.1, y.1).to_rounded_rect(radius)
}

/// A bar with round ends from one point to another.
fn limb(from: (f64, f64), to: (f64, f64), width: f64) -> BezPath {
    let (a, b) = (Point::from(from), Point::from(to));
    let along = b - a;
    let half = width / 2.0;
    let flat = Rect::new(-half, -half, along.hypot() + half, half).to_rounded_rect(half);
    Affine::translate(a.to_vec2()) * Affine::rotate(along.atan2()) * flat.to_path(FLAT)
}

/// Thighs and feet of someone who sits at the origin and looks along x; tables hide them.
pub(super) fn sitting_legs(stance: &Stance, stature: f64) -> Vec<Item> {
    let h = stature;
    let pair = |shape: &dyn Fn(f64) -> BezPath| [-1.0, 1.0].map(|side| shape(side * 0.048 * h));
    let feet = pair(&|y| bar((0.25 * h, 0.37 * h), (y - 0.027 * h, y + 0.027 * h), 0.026 * h).to_path(FLAT));
    let thighs = pair(&|y| bar((-0.02 * h, 0.31 * h), (y - 0.043 * h, y + 0.043 * h), 0.04 * h).to_path(FLAT));
    feet.iter().chain(&thighs).map(|shape| stance.part(shape, Fill::People, LineClass::Figure)).collect()
}

/// Trunk, arms and head of someone who sits at the origin and looks along x.
pub(super) fn sitting_body(stance: &Stance, stature: f64) -> Vec<Item> {
    let h = stature;
    let mut items = Vec::new();
    for side in [-1.0, 1.0] {
        let (shoulder, elbow) = ((0.005 * h, side * 0.105 * h), (0.10 * h, side * 0.122 * h));
        let hand = (0.19 * h, side * 0.065 * h);
        items.push(stance.part(&limb(elbow, hand, 0.042 * h), Fill::People, LineClass::Figure));
        items.push(stance.part(&limb(shoulder, elbow, 0.05 * h), Fill::People, LineClass::Figure));
    }
    let trunk = bar((-0.065 * h, 0.065 * h), (-0.1295 * h, 0.1295 * h), 0.06 * h);
    items.push(stance.part(&trunk, Fill::People, LineClass::Figure));
    items.extend(head(stance, (0.012 * h, 0.0), (0.057 * h, 0.046 * h), h));
    items
}

/// A head with hair seen from above; the nose points along x.
fn head(stance: &Stance, at: (f64, f64), radii: (f64, f64), h: f64) -> Vec<Item> {
    let face = ellipse(at.0 + 0.008 * h, at.1, radii);
    let hair = ellipse(at.0 - 0.006 * h, at.1, (radii.0 * 0.98, radii.1 * 1.06));
    vec![
        stance.part(&face, Fill::People, LineClass::Figure),
        stance.part(&hair, Fill::People, LineClass::Figure),
    ]
}

/// Head, shoulders and one arm of someone who lies with the top of the head at the origin and the feet along x.
pub(super) fn lying_body(stance: &Stance, stature: f64) -> Vec<Item> {
    let h = stature;
    let part = |shape: &dyn Fn() -> BezPath| stance.part(&shape(), Fill::People, LineClass::Figure);
    vec![
        part(&|| bar((0.10 * h, 0.19 * h), (-0.03 * h, 0.03 * h), 0.01 * h).to_path(FLAT)),
        part(&|| bar((0.155 * h, 0.5 * h), (-0.1295 * h, 0.1295 * h), 0.075 * h).to_path(FLAT)),
        part(&|| ellipse(0.068 * h, 0.0, (0.065 * h, 0.047 * h)).to_path(FLAT)),
        part(&|| hair_of_lying(h)),
    ]
}

/// Hair over the upper part of the head.
fn hair_of_lying(h: f64) -> BezPath {
    let mut hair = BezPath::new();
    hair.move_to((0.052 * h, -0.049 * h));
    hair.curve_to((-0.014 * h, -0.053 * h), (-0.014 * h, 0.053 * h), (0.052 * h, 0.049 * h));
    hair.curve_to((0.03 * h, 0.02 * h), (0.03 * h, -0.02 * h), (0.052 * h, -0.049 * h));
    hair.close_path();
    hair
}

/// One arm that lies on the blanket.
pub(super) fn lying_arm(stance: &Stance, stature: f64) -> Vec<Item> {
    let h = stature;
    let (elbow, hand) = ((0.345 * h, -0.112 * h), (0.38 * h, -0.005 * h));
    let fore = limb(elbow, hand, 0.042 * h);
    let upper = limb((0.21 * h, -0.104 * h), elbow, 0.05 * h);
    [fore, upper].iter().map(|shape| stance.part(shape, Fill::People, LineClass::Figure)).collect()
}

/// The shape of the body and legs under a blanket from `from` (from the top of the head) to the feet.
pub(super) fn under_blanket(stature: f64, from: f64, to: f64) -> BezPath {
    let h = stature;
    let (breast, hip, feet) = (0.115 * h, 0.1 * h, 0.07 * h);
    let end = to.min(h);
    let mut body = BezPath::new();
    body.move_to((from, -breast));
    body.curve_to((0.45 * h, -hip), (0.6 * h, -hip), (end - 0.06 * h, -feet));
    body.curve_to((end, -feet), (end, feet), (end - 0.06 * h, feet));
    body.curve_to((0.6 * h, hip), (0.45 * h, hip), (from, breast));
    body
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bounds(items: &[Item]) -> Rect {
        let shapes = items.iter().filter_map(|item| if let Item::Path(path) = item { Some(&path.shape) } else { None });
        shapes.map(Shape::bounding_box).reduce(|a, b| a.union(b)).unwrap()
    }

    fn stance(turn: f64) -> Stance {
        Stance { at: Point::new(1000.0, 500.0), turn, paper: Affine::scale(0.1) }
    }

    // Drillis and Contini (1966), as quoted: shoulders 0.259 of the stature; at 1:10 1,800 mm gives 46.6 mm.
    #[test]
    fn shoulders_are_to_scale() {
        let seen = bounds(&sitting_body(&stance(90.0), 1800.0));
        assert!((seen.width() - 0.259 * 180.0).abs() < 5.0, "{seen:?}");
        let lying = bounds(&lying_body(&stance(0.0), 1800.0));
        assert!((lying.height() - 0.259 * 180.0).abs() < 0.1 && (lying.x0 - 100.0).abs() < 1.0, "{lying:?}");
        let whole = under_blanket(1800.0, 400.0, 5000.0).bounding_box();
        assert!(whole.x1 > 1700.0 && whole.x1 <= 1800.0, "{whole:?}");
    }
}

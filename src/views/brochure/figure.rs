//! Figures of people seen from above, to scale: plain shapes of our own.
//!
//! Breadths and lengths are shares of body height: shoulders 0.259, hips 0.191, head 0.130 long, as the segment lengths
//! of Drillis and Contini (1966) are widely quoted; the rest is drawn by eye.

use crate::drawing::{Fill, Item, LineClass};
use kurbo::{Affine, BezPath, Cap, Ellipse, Point, Rect, Shape, Stroke, StrokeOpts};

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

fn bar(x: (f64, f64), y: (f64, f64), radius: f64) -> BezPath {
    Rect::new(x.0, y.0, x.1, y.1).to_rounded_rect(radius).to_path(FLAT)
}

/// An arm with round ends along a curve from the shoulder to the hand; `side` is 1 at the left, -1 at the right.
fn arm(side: f64, h: f64) -> BezPath {
    let at = |x: f64, y: f64| Point::new(x * h, side * y * h);
    let mut line = BezPath::new();
    line.move_to(at(0.005, 0.1));
    line.curve_to(at(0.085, 0.112), at(0.125, 0.1), at(0.205, 0.05));
    kurbo::stroke(line, &Stroke::new(0.052 * h).with_caps(Cap::Round), &StrokeOpts::default(), FLAT)
}

/// Several parts as one silhouette: each with an edge, then all without, which hides the edges inside.
fn silhouette(stance: &Stance, parts: &[BezPath]) -> Vec<Item> {
    let placed: Vec<BezPath> = parts.iter().map(|part| stance.place(part)).collect();
    let edged = placed.iter().map(|part| Item::area(part.clone(), Some(LineClass::Figure), Fill::People));
    let plain = placed.iter().map(|part| Item::area(part.clone(), None, Fill::People));
    edged.chain(plain).collect()
}

/// Thighs and feet of someone who sits at the origin and looks along x; tables hide them.
pub(super) fn sitting_legs(stance: &Stance, stature: f64) -> Vec<Item> {
    let h = stature;
    let leg = |side: f64| {
        let y = side * 0.05 * h;
        let foot = bar((0.27 * h, 0.375 * h), (y - 0.026 * h, y + 0.026 * h), 0.025 * h);
        let thigh = bar((-0.04 * h, 0.32 * h), (y - 0.041 * h, y + 0.041 * h), 0.04 * h);
        silhouette(stance, &[foot, thigh])
    };
    [leg(-1.0), leg(1.0)].concat()
}

/// Trunk, arms and head of someone who sits at the origin and looks along x.
pub(super) fn sitting_body(stance: &Stance, stature: f64) -> Vec<Item> {
    let h = stature;
    let shoulders = Ellipse::new((0.0, 0.0), (0.068 * h, 0.1295 * h), 0.0).to_path(FLAT);
    let mut items = silhouette(stance, &[shoulders, arm(1.0, h), arm(-1.0, h)]);
    let head = Ellipse::new((0.014 * h, 0.0), (0.062 * h, 0.05 * h), 0.0);
    let crown = Ellipse::new((-0.002 * h, 0.0), (0.046 * h, 0.05 * h), 0.0);
    items.push(stance.part(&head, Fill::People, LineClass::Figure));
    items.push(stance.part(&crown, Fill::People, LineClass::Figure));
    items
}

/// Head and shoulders of someone who lies with the top of the head at the origin and the feet along x.
pub(super) fn lying_body(stance: &Stance, stature: f64) -> Vec<Item> {
    let h = stature;
    let neck = bar((0.1 * h, 0.19 * h), (-0.032 * h, 0.032 * h), 0.01 * h);
    let trunk = bar((0.155 * h, 0.5 * h), (-0.1295 * h, 0.1295 * h), 0.07 * h);
    let mut items = silhouette(stance, &[neck, trunk]);
    let head = Ellipse::new((0.065 * h, 0.0), (0.065 * h, 0.05 * h), 0.0);
    items.push(stance.part(&head, Fill::People, LineClass::Figure));
    items.push(stance.part(&hair_of_lying(h), Fill::People, LineClass::Figure));
    items
}

/// Hair over the upper part of the head.
fn hair_of_lying(h: f64) -> BezPath {
    let mut hair = BezPath::new();
    hair.move_to((0.056 * h, -0.051 * h));
    hair.curve_to((-0.016 * h, -0.055 * h), (-0.016 * h, 0.055 * h), (0.056 * h, 0.051 * h));
    hair.curve_to((0.034 * h, 0.022 * h), (0.034 * h, -0.022 * h), (0.056 * h, -0.051 * h));
    hair.close_path();
    hair
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

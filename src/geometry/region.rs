//! Regions of the plane: polygons with holes, their unions, differences and common parts.
//!
//! A region lives on a grid of whole steps of [`CLEARANCE_GRID`], so its operations are robust and the same on every
//! machine; a corner may be off by half a step. Degenerate cases: an outline of fewer than three different corners or
//! without area is empty; outlines that touch along an edge melt together; parts that touch in one point stay
//! separate contours; what is thinner than the grid is nothing. A point on the boundary is inside. Coordinates that
//! are no number count as 0, those beyond ten times [`GREATEST_LENGTH`] as that.

use super::polygon::Polygon;
use super::prism::{Axis, Prism};
use crate::base::content::{Content, Digest};
use crate::base::tolerance::{CLEARANCE_GRID, GREATEST_LENGTH};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::Overlay;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::i_float::int::point::IntPoint;
use kurbo::{Point, Rect, Vec2};

type Shape = Vec<Vec<IntPoint<i32>>>;

/// Steps of the grid in one millimetre.
const STEPS: f64 = 1.0 / CLEARANCE_GRID;

/// A set of polygons with holes.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Region {
    shapes: Vec<Shape>,
}

impl Content for Region {
    fn feed(&self, digest: &mut Digest) {
        let half = |step: i32| u64::from(step.cast_unsigned());
        digest.word(self.shapes.len() as u64);
        for shape in &self.shapes {
            digest.word(shape.len() as u64);
            for contour in shape {
                digest.word(contour.len() as u64);
                contour.iter().for_each(|point| digest.word(half(point.x) << 32 | half(point.y)));
            }
        }
    }
}

/// A point on the grid, in steps.
fn on_grid(point: Point) -> IntPoint<i32> {
    let most = 10.0 * GREATEST_LENGTH;
    let step = |value: f64| (value.clamp(-most, most) * STEPS).round() as i32;
    IntPoint::new(step(point.x), step(point.y))
}

/// A point in millimetres.
pub(super) fn off_grid(point: IntPoint<i32>) -> Point {
    Point::new(f64::from(point.x) / STEPS, f64::from(point.y) / STEPS)
}

impl Region {
    /// All that lies in at least one of the polygons.
    #[must_use]
    pub fn new<'a>(polygons: impl IntoIterator<Item = &'a Polygon>) -> Self {
        let outline = |polygon: &Polygon| polygon.points().iter().map(|point| on_grid(*point)).collect();
        let contours: Shape = polygons.into_iter().map(outline).collect();
        Self { shapes: Overlay::from_subj(&contours).overlay(OverlayRule::Subject, FillRule::NonZero) }
    }

    /// All that lies in at least one of the regions.
    #[must_use]
    pub fn all(regions: impl IntoIterator<Item = Self>) -> Self {
        let contours: Shape = regions.into_iter().flat_map(|region| region.shapes).flatten().collect();
        Self { shapes: Overlay::from_subj(&contours).overlay(OverlayRule::Subject, FillRule::NonZero) }
    }

    /// A rectangle.
    #[must_use]
    pub fn rect(rect: Rect) -> Self {
        Self::new([&Polygon::rect(rect)])
    }

    /// A prism seen from above: what it covers between two heights; empty where it only touches them.
    #[must_use]
    pub fn footprint(prism: &Prism, low: f64, high: f64) -> Self {
        if prism.axis == Axis::Z {
            return Self::footprints([prism], low, high);
        }
        let bounds = prism.outline.bounds();
        let band = Self::rect(Rect::new(bounds.x0, low, bounds.x1, high));
        let profile = Self::new([&prism.outline]).intersect(&band);
        let strips = profile.parts().map(|part| {
            let across = part.bounds();
            Polygon::rect(match prism.axis {
                Axis::X => Rect::new(prism.low, across.x0, prism.high, across.x1),
                Axis::Y | Axis::Z => Rect::new(across.x0, prism.low, across.x1, prism.high),
            })
        });
        Self::new(&strips.collect::<Vec<_>>())
    }

    /// The footprints of many prisms together. Those of upright ones are their outlines, which are joined in one go.
    #[must_use]
    pub fn footprints<'a>(prisms: impl IntoIterator<Item = &'a Prism>, low: f64, high: f64) -> Self {
        let meets = |prism: &&Prism| prism.high > low && prism.low < high && prism.high > prism.low;
        let (upright, lying): (Vec<&Prism>, Vec<&Prism>) = prisms.into_iter().partition(|prism| prism.axis == Axis::Z);
        let outlines = Self::new(upright.into_iter().filter(meets).map(|prism| &prism.outline));
        if lying.is_empty() {
            return outlines;
        }
        Self::all(lying.into_iter().map(|prism| Self::footprint(prism, low, high)).chain([outlines]))
    }

    /// The lowest height of a prism over this area; `None` where it is not over it.
    #[must_use]
    pub fn underside(&self, prism: &Prism) -> Option<f64> {
        let all = prism.bounds().z;
        let over = self.intersect(&Self::footprint(prism, all.0 - 1.0, all.1 + 1.0));
        if prism.axis == Axis::Z {
            return (!over.is_empty()).then_some(prism.low);
        }
        let profile = Self::new([&prism.outline]);
        let lowest = |part: Self| {
            let plan = part.bounds();
            let across = if prism.axis == Axis::X { (plan.y0, plan.y1) } else { (plan.x0, plan.x1) };
            let cut = profile.intersect(&Self::rect(Rect::new(across.0, all.0 - 1.0, across.1, all.1 + 1.0)));
            (!cut.is_empty()).then(|| cut.bounds().y0)
        };
        over.parts().filter_map(lowest).min_by(f64::total_cmp)
    }

    fn with(&self, other: &Self, rule: OverlayRule) -> Self {
        Self { shapes: Overlay::from_subj_and_clip(&self.shapes, &other.shapes).overlay(rule, FillRule::NonZero) }
    }

    /// What lies in either.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        self.with(other, OverlayRule::Union)
    }

    /// What lies in this one and not in the other.
    #[must_use]
    pub fn subtract(&self, other: &Self) -> Self {
        self.with(other, OverlayRule::Difference)
    }

    /// What lies in this one and in none of the others.
    #[must_use]
    pub fn subtract_all(&self, others: &[Self]) -> Self {
        let contours: Shape = others.iter().flat_map(|other| other.shapes.iter().flatten().cloned()).collect();
        Self {
            shapes: Overlay::from_subj_and_clip(&self.shapes, &contours)
                .overlay(OverlayRule::Difference, FillRule::NonZero),
        }
    }

    /// What lies in both.
    #[must_use]
    pub fn intersect(&self, other: &Self) -> Self {
        self.with(other, OverlayRule::Intersect)
    }

    /// Whether nothing is in it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.shapes.is_empty()
    }

    /// Its connected parts, each a region of one outer contour with its holes.
    pub fn parts(&self) -> impl Iterator<Item = Self> + '_ {
        self.shapes.iter().map(|shape| Self { shapes: vec![shape.clone()] })
    }

    /// All contours, without the first point repeated: outer ones counter-clockwise, holes clockwise.
    pub fn contours(&self) -> impl Iterator<Item = Vec<Point>> + '_ {
        self.shapes.iter().flatten().map(|contour| contour.iter().copied().map(off_grid).collect())
    }

    /// Its parts whose bounds, grown by `reach` on all sides, hold a point: all that can lie so near to it.
    #[must_use]
    pub fn parts_near(&self, point: Point, reach: f64) -> Self {
        let (low, high) = (on_grid(point - Vec2::new(reach, reach)), on_grid(point + Vec2::new(reach, reach)));
        let comes = |shape: &&Shape| {
            let outer = shape.first().map(Vec::as_slice).unwrap_or_default();
            let meets = |of: fn(&IntPoint<i32>) -> i32, low: i32, high: i32| {
                let (least, most) =
                    outer.iter().map(of).fold((i32::MAX, i32::MIN), |(a, b), at| (a.min(at), b.max(at)));
                least <= high && most >= low
            };
            meets(|point| point.x, low.x, high.x) && meets(|point| point.y, low.y, high.y)
        };
        Self { shapes: self.shapes.iter().filter(comes).cloned().collect() }
    }

    /// All edges, the region on their left.
    pub fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        self.grid_edges().map(|(a, b)| (off_grid(a), off_grid(b)))
    }

    /// All edges in grid steps, the region on their left.
    pub(super) fn grid_edges(&self) -> impl Iterator<Item = (IntPoint<i32>, IntPoint<i32>)> + '_ {
        self.shapes.iter().flatten().flat_map(|contour| {
            let next = contour.iter().skip(1).chain(contour.first());
            contour.iter().copied().zip(next.copied())
        })
    }

    /// The area, in square millimetres.
    #[must_use]
    pub fn area(&self) -> f64 {
        self.edges().map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum::<f64>() / 2.0
    }

    /// Whether a point lies inside or on the boundary.
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        let mut winding = 0_i32;
        for (a, b) in self.edges() {
            let side = (b - a).cross(point - a);
            if side == 0.0 && (a - point).dot(b - point) <= 0.0 {
                return true;
            }
            if a.y <= point.y && b.y > point.y && side > 0.0 {
                winding += 1;
            }
            if a.y > point.y && b.y <= point.y && side < 0.0 {
                winding -= 1;
            }
        }
        winding != 0
    }

    /// The smallest rectangle around it; a zero rectangle when empty.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let mut points = self.edges().map(|(a, _)| a);
        let Some(first) = points.next() else { return Rect::ZERO };
        points.fold(Rect::from_points(first, first), |rect, point| rect.union_pt(point))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> Region {
        Region::rect(Rect::new(x0, y0, x1, y1))
    }

    #[test]
    fn the_parts_near_a_point_are_those_whose_bounds_hold_it() {
        let two = rect(0.0, 0.0, 100.0, 100.0).union(&rect(200.0, 0.0, 300.0, 100.0));
        let near = |x: f64, y: f64| two.parts_near(Point::new(x, y), 5.0).area();
        assert_eq!(
            [near(50.0, 50.0), near(105.0, 50.0), near(105.01, 50.0), near(295.0, 104.0)],
            [10_000.0, 10_000.0, 0.0, 10_000.0]
        );
    }

    #[test]
    fn a_hole_takes_its_area_and_its_points() {
        let ring = rect(0.0, 0.0, 100.0, 100.0).subtract(&rect(20.0, 20.0, 50.0, 60.0));
        assert_eq!(ring.area(), 10_000.0 - 1_200.0);
        assert_eq!(ring.contours().count(), 2);
        assert!(!ring.contains(Point::new(30.0, 30.0)));
        assert!(ring.contains(Point::new(20.0, 30.0)), "the boundary is inside");
        assert!(ring.contains(Point::new(10.0, 10.0)));
        assert!(!ring.contains(Point::new(-1.0, 10.0)));
        assert_eq!(ring.bounds(), Rect::new(0.0, 0.0, 100.0, 100.0));
        let plug = rect(20.0, 20.0, 30.0, 60.0);
        assert_eq!(Region::all([ring, plug, rect(0.0, 0.0, 5.0, 5.0)]).area(), 10_000.0 - 800.0, "the hole stays");
    }

    #[test]
    fn touching_edges_melt_and_touching_corners_stay_apart() {
        assert_eq!(rect(0.0, 0.0, 10.0, 10.0).union(&rect(10.0, 0.0, 20.0, 10.0)).contours().count(), 1);
        let corner = rect(0.0, 0.0, 10.0, 10.0).union(&rect(10.0, 10.0, 20.0, 20.0));
        assert_eq!((corner.contours().count(), corner.parts().count()), (2, 2));
        assert!(rect(0.0, 0.0, 10.0, 10.0).intersect(&rect(10.0, 0.0, 20.0, 10.0)).is_empty());
    }

    #[test]
    fn degenerate_outlines_are_empty_and_wild_ones_do_no_harm() {
        let line = Polygon::new(vec![Point::new(0.0, 0.0), Point::new(50.0, 0.0), Point::new(20.0, 0.0)]);
        assert!(Region::new([&line, &Polygon::default()]).is_empty());
        let wild = Polygon::new(vec![
            Point::new(f64::NAN, 0.0),
            Point::new(f64::INFINITY, 0.0),
            Point::new(1e300, 1e300),
            Point::new(0.0, 1e300),
        ]);
        assert!(Region::new([&wild]).area() <= 4e12);
        assert_eq!(Region::default().bounds(), Rect::ZERO);
    }

    #[test]
    fn a_wedge_seen_from_above_keeps_its_low_part_free() {
        // 540 long and 300 high: at 230 it has run 414 of the 540.
        let wedge = vec![Point::new(3000.0, 0.0), Point::new(3540.0, 0.0), Point::new(3540.0, 300.0)];
        let wedge = Prism { axis: Axis::Y, outline: Polygon::new(wedge), low: 0.0, high: 2000.0 };
        assert_eq!(Region::footprint(&wedge, 230.0, 1800.0), rect(3414.0, 0.0, 3540.0, 2000.0));
        assert!(Region::footprint(&wedge, 300.0, 1800.0).is_empty());
        let block = Prism::upright(Rect::new(0.0, 0.0, 100.0, 50.0), 0.0, 230.0);
        assert!(Region::footprint(&block, 230.0, 1800.0).is_empty());
    }

    #[test]
    fn the_underside_follows_a_tapered_profile() {
        // A locker whose underside rises from 1,400 at the wall to 1,500 at its front, 400 away.
        let profile = [(0.0, 1400.0), (400.0, 1500.0), (400.0, 1900.0), (0.0, 1900.0)];
        let outline = Polygon::new(profile.iter().map(|(y, z)| Point::new(*y, *z)).collect());
        let locker = Prism { axis: Axis::X, outline, low: 0.0, high: 1000.0 };
        assert_eq!(rect(0.0, 200.0, 500.0, 600.0).underside(&locker), Some(1450.0));
        assert_eq!(rect(0.0, 400.0, 500.0, 600.0).underside(&locker), None);
    }

    #[test]
    fn overlapping_triangles_by_hand() {
        // Two right triangles of legs 100, mirrored: their common part is the triangle under both slopes, 100 x 50 / 2.
        let a = Polygon::new(vec![Point::new(0.0, 0.0), Point::new(100.0, 0.0), Point::new(0.0, 100.0)]);
        let b = Polygon::new(vec![Point::new(0.0, 0.0), Point::new(100.0, 0.0), Point::new(100.0, 100.0)]);
        let both = Region::new([&a]).intersect(&Region::new([&b]));
        assert_eq!(both.area(), 2500.0);
        assert_eq!(Region::new([&a, &b]).area(), 7500.0);
    }
}

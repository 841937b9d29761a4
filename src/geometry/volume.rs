//! Volume of a prism less other prisms and less what lies above the roof.
//!
//! Sections across y are taken apart into straight edges. Between two neighbouring corners or crossings along x the
//! free height is linear, so its middle value gives the area of the strip exactly. Areas are integrated along y between
//! all corners by Simpson's rule, which is exact for straight faces, and halved where an arch or a hidden crossing asks
//! for it.

use super::convex::Slot;
use super::overlap::overlap;
use super::polygon::Polygon;
use super::prism::{Axis, Prism};
use super::roof::Roof;
use super::section::merged;
use crate::base::tolerance;
use kurbo::{Point, Rect};

/// The volume, in cubic millimetres, of `space` less all of `minus` and less what lies above `roof`.
///
/// `minus` may overlap each other. The relative error is below [`tolerance::VOLUME`]; with straight faces and roof it
/// is rounding only.
#[must_use]
pub fn free_volume(space: &Prism, minus: &[&Prism], roof: &Roof) -> f64 {
    let near: Vec<&Prism> = minus.iter().copied().filter(|prism| overlap(space, prism).is_some()).collect();
    let (low, high) = space.bounds().y;
    let mut stops: Vec<f64> = near.iter().flat_map(|prism| stops_of(prism)).collect();
    stops.extend(stops_of(space));
    stops.extend(roof.corners());
    stops.retain(|y| low <= *y && *y <= high);
    stops.sort_by(f64::total_cmp);
    stops.dedup_by(|a, b| *a - *b <= tolerance::NO_DIRECTION);
    let area = |y: f64| free_area(space, &near, roof.height_at(y), y);
    let allowed = space.volume() * tolerance::VOLUME / (high - low).max(tolerance::SAME_LENGTH);
    stops.iter().zip(stops.iter().skip(1)).map(|(from, to)| integral(&area, *from, *to, allowed)).sum()
}

/// Places along y at which a prism's section may change its nature.
fn stops_of(prism: &Prism) -> Vec<f64> {
    let points = prism.outline.points().iter();
    match prism.axis {
        Axis::X => points.map(|point| point.x).collect(),
        Axis::Y => vec![prism.low, prism.high],
        Axis::Z => points.map(|point| point.y).collect(),
    }
}

/// Adaptive Simpson; both ends a hair inside, where the section is of the same nature as between them. `allowed` is the
/// error for each millimetre.
fn integral(area: &impl Fn(f64) -> f64, from: f64, to: f64, allowed: f64) -> f64 {
    const DEPTH: u32 = 22;
    let hair = (to - from) * tolerance::INSET;
    let (from, to) = (from + hair, to - hair);
    let middle = f64::midpoint(from, to);
    let values = [area(from), area(middle), area(to)];
    halved(area, (from, to), values, allowed, DEPTH)
}

fn halved(area: &impl Fn(f64) -> f64, (from, to): (f64, f64), values: [f64; 3], allowed: f64, depth: u32) -> f64 {
    let [low, middle, high] = values;
    let centre = f64::midpoint(from, to);
    let (left, right) = (area(f64::midpoint(from, centre)), area(f64::midpoint(centre, to)));
    let simpson = |width: f64, a: f64, b: f64, c: f64| width / 6.0 * (a + 4.0 * b + c);
    let whole = simpson(to - from, low, middle, high);
    let halves = simpson(centre - from, low, left, middle) + simpson(to - centre, middle, right, high);
    if depth == 0 || (halves - whole).abs() <= 15.0 * allowed * (to - from) {
        return halves + (halves - whole) / 15.0;
    }
    halved(area, (from, centre), [low, left, middle], allowed, depth - 1)
        + halved(area, (centre, to), [middle, right, high], allowed, depth - 1)
}

type Edge = (Point, Point);

/// Area in the plane (x, z) at `y` of the space below `lining` and outside `minus`.
fn free_area(space: &Prism, minus: &[&Prism], lining: f64, y: f64) -> f64 {
    let base = section(space, y);
    let cuts: Vec<Vec<Edge>> = minus.iter().map(|prism| section(prism, y)).filter(|edges| !edges.is_empty()).collect();
    let stops = stops_along(&base, &cuts, lining);
    stops
        .iter()
        .zip(stops.iter().skip(1))
        .map(|(from, to)| (to - from) * free_height(&base, &cuts, lining, f64::midpoint(*from, *to)))
        .sum()
}

/// Edges of a prism's section across y, in the plane (x, z).
fn section(prism: &Prism, y: f64) -> Vec<Edge> {
    let rects = |spans: Vec<(f64, f64)>, rect: &dyn Fn((f64, f64)) -> Rect| {
        spans.into_iter().flat_map(|span| Polygon::rect(rect(span)).edges().collect::<Vec<_>>()).collect()
    };
    match prism.axis {
        Axis::Y if prism.low <= y && y <= prism.high => prism.outline.edges().collect(),
        Axis::Y => Vec::new(),
        Axis::X => {
            rects(crossed(prism.outline.edges(), Slot::First, y), &|z| Rect::new(prism.low, z.0, prism.high, z.1))
        }
        Axis::Z => {
            rects(crossed(prism.outline.edges(), Slot::Second, y), &|x| Rect::new(x.0, prism.low, x.1, prism.high))
        }
    }
}

/// Stretches inside closed outlines along the line where the coordinate `slot` is `at`.
fn crossed(edges: impl Iterator<Item = Edge>, slot: Slot, at: f64) -> Vec<(f64, f64)> {
    let other = if slot == Slot::First { Slot::Second } else { Slot::First };
    let over = edges.filter(|(a, b)| (slot.of(*a) <= at) != (slot.of(*b) <= at));
    let mut places: Vec<f64> = over
        .map(|(a, b)| {
            let share = (at - slot.of(a)) / (slot.of(b) - slot.of(a));
            other.of(a.lerp(b, share))
        })
        .collect();
    places.sort_by(f64::total_cmp);
    places.chunks_exact(2).filter_map(|pair| if let [a, b] = pair { Some((*a, *b)) } else { None }).collect()
}

/// All places along x, inside the base, at which the free height may have a corner.
fn stops_along(base: &[Edge], cuts: &[Vec<Edge>], lining: f64) -> Vec<f64> {
    let range = base.iter().fold((f64::MAX, f64::MIN), |range, (a, _)| (range.0.min(a.x), range.1.max(a.x)));
    let all: Vec<Edge> = base.iter().chain(cuts.iter().flatten()).copied().collect();
    let mut stops: Vec<f64> = all.iter().map(|(a, _)| a.x).collect();
    let sloped: Vec<Edge> = all.into_iter().filter(|(a, b)| a.x != b.x).collect();
    let cap = (Point::new(range.0, lining), Point::new(range.1, lining));
    for (index, edge) in sloped.iter().enumerate() {
        stops.extend(meeting(*edge, cap));
        stops.extend(sloped.iter().take(index).filter_map(|other| meeting(*edge, *other)));
    }
    stops.retain(|x| range.0 <= *x && *x <= range.1);
    stops.sort_by(f64::total_cmp);
    stops.dedup();
    stops
}

/// First coordinate of the place where two edges cross.
fn meeting((a, b): Edge, (c, d): Edge) -> Option<f64> {
    let (along, other) = (b - a, d - c);
    let turn = along.cross(other);
    if turn == 0.0 {
        return None;
    }
    let share = (c - a).cross(other) / turn;
    let back = (c - a).cross(along) / turn;
    ((0.0..=1.0).contains(&share) && (0.0..=1.0).contains(&back)).then_some(a.x + along.x * share)
}

fn free_height(base: &[Edge], cuts: &[Vec<Edge>], lining: f64, x: f64) -> f64 {
    let taken = merged(cuts.iter().flat_map(|edges| crossed(edges.iter().copied(), Slot::First, x)).collect());
    let spans = crossed(base.iter().copied(), Slot::First, x).into_iter().map(|(low, high)| (low, high.min(lining)));
    let free = spans.filter(|(low, high)| low < high).map(|(low, high)| {
        let shared = |cut: &(f64, f64)| (cut.1.min(high) - cut.0.max(low)).max(0.0);
        high - low - taken.iter().map(shared).sum::<f64>()
    });
    free.sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn flat() -> Roof {
        Roof::Line(vec![Point::new(0.0, 2000.0), Point::new(2000.0, 2000.0)])
    }

    fn boot() -> Prism {
        Prism::upright(Rect::new(0.0, 0.0, 1500.0, 2000.0), 0.0, 700.0)
    }

    fn polygon(points: &[(f64, f64)]) -> Polygon {
        Polygon::new(points.iter().map(|(x, y)| Point::new(*x, *y)).collect())
    }

    fn near(value: f64, expected: f64) -> bool {
        (value - expected).abs() <= expected.abs() * tolerance::VOLUME
    }

    #[test]
    fn a_bare_boot_is_length_times_width_times_height() {
        assert!(near(free_volume(&boot(), &[], &flat()), 2.1e9));
    }

    #[test]
    fn a_sloped_underside_takes_a_wedge_and_a_wheel_box_a_box() {
        // Wedge: half of 600 x 400 over the width of 2000. Wheel box: 500 x 250 x 300.
        let outline = polygon(&[(900.0, 0.0), (1500.0, 0.0), (1500.0, 400.0)]);
        let wedge = Prism { axis: Axis::Y, outline, low: 0.0, high: 2000.0 };
        let wheel = Prism::upright(Rect::new(100.0, 0.0, 600.0, 250.0), 0.0, 300.0);
        let volume = free_volume(&boot(), &[&wedge, &wheel], &flat());
        assert!(near(volume, 2.1e9 - 600.0 * 400.0 / 2.0 * 2000.0 - 500.0 * 250.0 * 300.0));
    }

    #[test]
    fn intrusions_that_overlap_are_taken_once() {
        let a = Prism::upright(Rect::new(0.0, 0.0, 600.0, 600.0), 0.0, 300.0);
        let b = Prism::upright(Rect::new(300.0, 300.0, 900.0, 900.0), 100.0, 900.0);
        let shared = 300.0 * 300.0 * 200.0;
        let expected = 2.1e9 - (600.0 * 600.0 * 300.0 + 600.0 * 600.0 * 600.0 - shared);
        assert!(near(free_volume(&boot(), &[&a, &b], &flat()), expected));
    }

    #[test]
    fn two_wedges_of_crossed_axes_share_a_known_piece() {
        // x < 600 (1 - z / 600) and y < 600 (1 - z / 600): they share the integral of (600 - z)^2 = 600^3 / 3.
        let side = polygon(&[(0.0, 0.0), (600.0, 0.0), (0.0, 600.0)]);
        let a = Prism { axis: Axis::Y, outline: side.clone(), low: 0.0, high: 2000.0 };
        let b = Prism { axis: Axis::X, outline: side, low: 0.0, high: 1500.0 };
        let expected = 2.1e9 - (180_000.0 * 2000.0 + 180_000.0 * 1500.0 - 600.0_f64.powi(3) / 3.0);
        assert!(near(free_volume(&boot(), &[&a, &b], &flat()), expected));
    }

    #[test]
    fn under_an_arch_it_is_a_circular_segment() {
        // Everything above z = 1900 under the arch is the segment r^2 (t - sin t) / 2 over the length.
        let arch = Roof::Arch { width: 2000.0, side: 1900.0, rise: 100.0 };
        let space = Prism::upright(Rect::new(0.0, 0.0, 1500.0, 2000.0), 1900.0, 2500.0);
        let radius = (1000.0_f64.powi(2) + 100.0_f64.powi(2)) / 200.0;
        let angle = 2.0 * (1000.0 / radius).asin();
        let segment = radius * radius * (angle - angle.sin()) / 2.0;
        assert!(near(free_volume(&space, &[], &arch), segment * 1500.0));
    }

    #[test]
    fn a_ridge_roof_and_a_low_middle() {
        let ridge = Roof::Line(vec![Point::new(0.0, 500.0), Point::new(800.0, 900.0), Point::new(2000.0, 300.0)]);
        // Mean height by hand: below 700 all along. From (0, 500) up to 700 at y = 400; flat to y = 1200; down to 300.
        let section = 600.0 * 400.0 + 700.0 * 800.0 + 500.0 * 800.0;
        assert!(near(free_volume(&boot(), &[], &ridge), section * 1500.0));
    }

    #[test]
    fn an_upright_round_tank() {
        // Chords of a 96-sided polygon: area = 96 / 2 r^2 sin(360 / 96).
        let corner = |i: u32| {
            Point::new(700.0, 900.0) + kurbo::Vec2::from_angle(f64::from(i) * std::f64::consts::TAU / 96.0) * 200.0
        };
        let tank = Prism { axis: Axis::Z, outline: Polygon::new((0..96).map(corner).collect()), low: 0.0, high: 900.0 };
        let area = 48.0 * 200.0 * 200.0 * (std::f64::consts::TAU / 96.0).sin();
        assert!(near(free_volume(&boot(), &[&tank], &flat()), 2.1e9 - area * 700.0));
    }

    #[test]
    fn a_profile_space_equals_its_own_volume_and_vanishes_under_itself() {
        let outline =
            polygon(&[(0.0, 0.0), (900.0, 0.0), (900.0, 250.0), (500.0, 250.0), (500.0, 400.0), (0.0, 400.0)]);
        for axis in [Axis::X, Axis::Y, Axis::Z] {
            let space = Prism { axis, outline: outline.clone(), low: 100.0, high: 550.0 };
            assert!(near(free_volume(&space, &[], &flat()), space.volume()), "{axis:?}");
            assert!(free_volume(&space, &[&space], &flat()).abs() < 1.0, "{axis:?}");
        }
    }
}

//! Outlines of symbols: corners and arcs, as polygons of chords and as true curves.

use super::frame::{Frame, Local};
use super::instance::Instance;
use crate::base::number::micrometres;
use crate::base::tolerance::{CHORD, NO_AREA, SAME_LENGTH};
use crate::diagnostic::Diagnostic;
use crate::geometry::Polygon;
use crate::language::OutlinePoint;
use crate::language::expression::{Expr, Failed, Scope};
use crate::source::Span;
use kurbo::{BezPath, ParamCurve, Point, Vec2};

/// Most corners and arcs of one outline.
const MOST: usize = 200;

/// An outline in the plane of its two local axes.
#[derive(Debug, Clone)]
pub(super) struct Traced {
    /// Chords.
    pub points: Vec<Point>,
    /// The same with true arcs.
    pub curve: BezPath,
    /// Whether there is any arc.
    pub curved: bool,
}

impl Instance<'_, '_> {
    pub fn pair(&mut self, pair: &[Expr; 2]) -> Result<Point, Failed> {
        let [a, b] = pair;
        Ok(Point::new(self.figure(a)?, self.figure(b)?))
    }

    /// Follows corners and arcs. `closed` outlines are simple and have an area; open ones have two points at least.
    pub fn trace(&mut self, outline: &[OutlinePoint], closed: bool) -> Result<Traced, Failed> {
        let span = outline_span(outline);
        if outline.len() > MOST {
            let message = format!("an outline of {} corners; at most {MOST} are allowed", outline.len());
            return Err(self.fail(Diagnostic::new(span, message)));
        }
        let mut traced = Traced { points: Vec::new(), curve: BezPath::new(), curved: false };
        for point in outline {
            match point {
                OutlinePoint::Corner(pair) => traced.line_to(self.pair(pair)?),
                OutlinePoint::Arc { to, through } => {
                    let (end, middle) = (self.pair(to)?, self.pair(through)?);
                    if !traced.arc_to(middle, end) {
                        let message = "an arc needs a point before it and three points that are not on one line";
                        let place = through.first().map_or(span, |expr| expr.span);
                        return Err(self.fail(Diagnostic::new(place, message)));
                    }
                }
            }
        }
        if closed {
            traced.curve.close_path();
        }
        let least = if closed { 3 } else { 2 };
        if traced.points.len() < least {
            let message = format!("an outline of {} points; at least {least} are needed", traced.points.len());
            return Err(self.fail(Diagnostic::new(span, message)));
        }
        if closed {
            self.refuse_bad_outline(&traced, span)?;
        }
        Ok(traced)
    }

    fn refuse_bad_outline(&mut self, traced: &Traced, span: Span) -> Result<(), Failed> {
        let polygon = Polygon::new(traced.points.clone());
        if polygon.area() <= NO_AREA {
            return Err(self.fail(Diagnostic::new(span, "this outline encloses no area")));
        }
        if crosses_itself(&polygon) {
            let error = Diagnostic::new(span, "this outline crosses or touches itself");
            return Err(self.fail(error.help("give its corners one after the other around the shape")));
        }
        Ok(())
    }
}

impl Traced {
    /// An outline that starts at a point.
    pub fn start(point: Point) -> Self {
        let mut traced = Self { points: Vec::new(), curve: BezPath::new(), curved: false };
        traced.line_to(point);
        traced
    }

    /// The polygon in the box plane across a local axis.
    pub fn polygon(&self, frame: &Frame, across: Local) -> Polygon {
        Polygon::new(self.points.iter().map(|point| frame.across(across, *point)).collect())
    }

    /// The true curve in the box's plan.
    pub fn plan_curve(&self, frame: &Frame) -> BezPath {
        let origin = frame.across(Local::W, Point::ORIGIN);
        let right = frame.across(Local::W, Point::new(1.0, 0.0)) - origin;
        let back = frame.across(Local::W, Point::new(0.0, 1.0)) - origin;
        let map = kurbo::Affine::new([right.x, right.y, back.x, back.y, origin.x, origin.y]);
        map * self.curve.clone()
    }

    /// Adds a straight line, or the first point.
    pub fn line_to(&mut self, point: Point) {
        if self.points.is_empty() {
            self.curve.move_to(point);
        } else {
            self.curve.line_to(point);
        }
        self.points.push(point);
    }

    /// Adds the arc from the last point through `middle` to `end`; false where there is none.
    pub fn arc_to(&mut self, middle: Point, end: Point) -> bool {
        let Some(start) = self.points.last().copied() else { return false };
        let Some(arc) = arc_through(start, middle, end) else { return false };
        let step = 2.0 * (1.0 - CHORD / arc.radii.x.max(CHORD)).clamp(-1.0, 1.0).acos();
        let count = (arc.sweep_angle.abs() / step.max(0.01)).ceil().clamp(2.0, 400.0);
        let mut index = 1.0;
        while index < count {
            let angle = arc.start_angle + arc.sweep_angle * index / count;
            self.points.push(arc.center + Vec2::from_angle(angle) * arc.radii.x);
            index += 1.0;
        }
        self.points.push(end);
        arc.append_iter(0.01).for_each(|element| self.curve.push(element));
        self.curved = true;
        true
    }
}

/// The circular arc through three points; `None` where they lie on one line.
fn arc_through(a: Point, b: Point, c: Point) -> Option<kurbo::Arc> {
    let (ab, ac) = (b - a, c - a);
    let twice = 2.0 * ab.cross(ac);
    if twice.abs() <= SAME_LENGTH * (ab.hypot() + ac.hypot()) {
        return None;
    }
    let to_centre = Vec2::new(ac.y * ab.hypot2() - ab.y * ac.hypot2(), ab.x * ac.hypot2() - ac.x * ab.hypot2()) / twice;
    let (center, radius) = (a + to_centre, to_centre.hypot());
    let (start_angle, end_angle) = ((-to_centre).atan2(), (c - center).atan2());
    let full = std::f64::consts::TAU;
    let sweep_angle = if twice > 0.0 {
        (end_angle - start_angle).rem_euclid(full)
    } else {
        -(start_angle - end_angle).rem_euclid(full)
    };
    Some(kurbo::Arc { center, radii: Vec2::new(radius, radius), start_angle, sweep_angle, x_rotation: 0.0 })
}

/// Where an outline begins.
pub(super) fn outline_span(outline: &[OutlinePoint]) -> Span {
    let first = |point: &OutlinePoint| match point {
        OutlinePoint::Corner(pair) | OutlinePoint::Arc { to: pair, .. } => pair.first().map(|expr| expr.span),
    };
    outline.first().and_then(first).unwrap_or_default()
}

/// Whether any two edges that are not neighbours meet.
fn crosses_itself(polygon: &Polygon) -> bool {
    let edges: Vec<kurbo::Line> = polygon.edges().map(|(a, b)| kurbo::Line::new(a, b)).collect();
    let last = edges.len().saturating_sub(1);
    edges.iter().enumerate().any(|(i, edge)| {
        edges.iter().enumerate().skip(i + 2).any(|(j, other)| !(i == 0 && j == last) && meet(*edge, *other))
    })
}

fn meet(a: kurbo::Line, b: kurbo::Line) -> bool {
    let side = |line: kurbo::Line, point: Point| (line.p1 - line.p0).cross(point - line.p0);
    let (a0, a1) = (side(b, a.p0), side(b, a.p1));
    let (b0, b1) = (side(a, b.p0), side(a, b.p1));
    let crossing = a0 * a1 < 0.0 && b0 * b1 < 0.0;
    crossing || [a.p0, a.p1].iter().any(|p| near(b, *p)) || [b.p0, b.p1].iter().any(|p| near(a, *p))
}

fn near(line: kurbo::Line, point: Point) -> bool {
    let along = line.p1 - line.p0;
    let t = ((point - line.p0).dot(along) / along.hypot2().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
    (line.eval(t) - point).hypot() < SAME_LENGTH
}

/// A straight-edged rectangle path, rounded to micrometres, with round corners where the radius is above zero.
pub(super) fn rectangle(u: (f64, f64), v: (f64, f64), radius: f64) -> BezPath {
    use kurbo::Shape;
    let rect = kurbo::Rect::new(micrometres(u.0), micrometres(v.0), micrometres(u.1), micrometres(v.1));
    let radius = radius.min(rect.width() / 2.0).min(rect.height() / 2.0);
    if radius > 0.0 { rect.to_rounded_rect(radius).to_path(0.01) } else { rect.to_path(0.01) }
}

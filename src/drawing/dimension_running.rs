//! Running dimensions from a datum (ISO 129-1:2018, as quoted): an origin circle, one dimension line with an arrow at each
//! place, and the figures along the extension lines.

use super::dimension::{Laid, Side, Stop};
use super::dimension_figures::{GAP, HEIGHT, INCHES, inches};
use super::font::{text_box, text_width};
use super::item::{Align, Item, Text};
use super::line::{Fill, LineClass};
use crate::base::number::trimmed;
use crate::model::Figures;
use kurbo::{BezPath, Circle, Shape};

/// From the object to the start of an extension line, mm.
const OFF_OBJECT: f64 = 1.0;
/// From where dimension lines may stand to this one, mm.
const SPACING: f64 = 3.6;
/// From the dimension line to the bend of extension lines, mm.
const PAST: f64 = 1.5;
/// Length of the part in which an extension line makes way for its neighbours' figures, mm.
const BEND: f64 = 2.5;
/// Least distance between the middles of two figures, mm.
const PITCH: f64 = 3.6;
/// Radius of the origin circle, mm.
const ORIGIN: f64 = 1.5;
/// Length of an arrow head and half its width, mm; nearer stops have a dot.
const HEAD: (f64, f64) = (2.0, 0.35);
/// Radius of such a dot, mm.
const DOT: f64 = 0.45;

/// A row of places measured from the first of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Running {
    /// What values are measured from: it has the origin circle.
    pub datum: Stop,
    /// The places, in any order, on either side of the datum.
    pub stops: Vec<Stop>,
}

/// Lays running dimensions on a side of a view. `face` is the paper coordinate of the object's edge, `from` the one from
/// which the dimension line may stand.
#[must_use]
pub fn lay_running(figures: Figures, side: Side, (face, from): (f64, f64), running: &Running) -> Laid {
    let out = side.outward();
    let line = side.across(from) + out * SPACING;
    let mut stops: Vec<Stop> = std::iter::once(running.datum).chain(running.stops.iter().copied()).collect();
    stops.retain(|stop| stop.at.is_finite() && stop.value.is_finite());
    stops.sort_by(|a, b| a.at.total_cmp(&b.at));
    stops.dedup_by(|a, b| a.at == b.at);
    let mut laid = Laid { reach: side.across(line), ..Laid::default() };
    if let (Some(first), Some(last)) = (stops.first(), stops.last()) {
        let ends = [first, last].map(|stop| side.point(stop.at, line));
        laid.items.push(Item::segment(ends[0], ends[1], LineClass::Dimension));
    }
    let origin = Circle::new(side.point(running.datum.at, line), ORIGIN).to_path(0.001);
    laid.items.push(Item::area(origin, Some(LineClass::Visible), Fill::Paper));
    let places = spread(&stops.iter().map(|stop| stop.at).collect::<Vec<_>>());
    for (index, (stop, place)) in stops.iter().zip(places).enumerate() {
        let start = side.across(face) + out * OFF_OBJECT;
        let bend = line + out * PAST;
        let end = bend + out * BEND;
        let corners = [(stop.at, start), (stop.at, bend), (place, end)];
        let mut path = BezPath::new();
        path.move_to(side.point(corners[0].0, corners[0].1));
        corners.iter().skip(1).for_each(|(s, t)| path.line_to(side.point(*s, *t)));
        laid.items.push(Item::line(path, LineClass::Dimension));
        if stop.at != running.datum.at {
            let before = if stop.at > running.datum.at { index.wrapping_sub(1) } else { index + 1 };
            let near = stops.get(before).map_or(f64::INFINITY, |before| (before.at - stop.at).abs());
            laid.items.push(tip(side, (stop.at, line), (stop.at - running.datum.at).signum(), near));
        }
        figure(figures, side, (place, end), stop.value - running.datum.value, &mut laid);
    }
    laid
}

/// An arrow head that points away from the datum, or a dot where there is no room for one.
fn tip(side: Side, (at, line): (f64, f64), way: f64, room: f64) -> Item {
    if room < HEAD.0 + ORIGIN {
        return Item::area(Circle::new(side.point(at, line), DOT).to_path(0.001), None, Fill::Ink);
    }
    let mut head = BezPath::new();
    head.move_to(side.point(at, line));
    head.line_to(side.point(at - way * HEAD.0, line + HEAD.1));
    head.line_to(side.point(at - way * HEAD.0, line - HEAD.1));
    head.close_path();
    Item::area(head, None, Fill::Ink)
}

/// A figure that goes on where its extension line ends, read from the bottom or from the right.
fn figure(figures: Figures, side: Side, (place, end): (f64, f64), value: f64, laid: &mut Laid) {
    let out = side.outward();
    let millimetres = trimmed(value, 1);
    let inches = if figures == Figures::MmInch { inches(value) } else { String::new() };
    let (long, short) = (text_width(&millimetres, HEIGHT), text_width(&inches, INCHES));
    let between = if inches.is_empty() { 0.0 } else { GAP };
    // Along the reading direction, which runs outward on the upper and the right side, else inward.
    let onward = matches!(side, Side::Above | Side::Right);
    let [first, second] = if onward { [0.0, long + between] } else { [long + between + short, short] };
    let turn = if side.upright() { 0.0 } else { 90.0 };
    for (words, height, off) in [(millimetres, HEIGHT, first), (inches, INCHES, second)] {
        if words.is_empty() {
            continue;
        }
        let s = place + if side.upright() { -height / 2.0 } else { height / 2.0 };
        let at = side.point(s, end + out * (GAP + off));
        let text = Text { at, words, height, align: Align::Start, turn, inverse: false };
        let bounds = text_box(&text);
        let outer = match side {
            Side::Above => bounds.y1,
            Side::Below => bounds.y0,
            Side::Left => bounds.x0,
            Side::Right => bounds.x1,
        };
        laid.reach =
            if matches!(side, Side::Above | Side::Right) { laid.reach.max(outer) } else { laid.reach.min(outer) };
        laid.boxes.push(bounds);
        laid.items.push(Item::Text(text));
    }
}

/// Places at least `PITCH` apart, in order, that together lie as near as can be to the wished ones (pool adjacent
/// violators).
fn spread(wished: &[f64]) -> Vec<f64> {
    let mut pools: Vec<(f64, f64)> = Vec::new();
    for (index, wish) in wished.iter().enumerate() {
        let mut pool = (wish - PITCH * index as f64, 1.0);
        while let Some(last) = pools.last().copied().filter(|last| last.0 / last.1 > pool.0 / pool.1) {
            pools.pop();
            pool = (pool.0 + last.0, pool.1 + last.1);
        }
        pools.push(pool);
    }
    let level = pools.into_iter().flat_map(|(sum, count)| std::iter::repeat_n(sum / count, count as usize));
    level.enumerate().map(|(index, place)| place + PITCH * index as f64).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Rect;

    fn stop(at: f64, value: f64) -> Stop {
        Stop { at, value }
    }

    fn lay(side: Side, figures: Figures) -> Laid {
        let at = [100.0, 104.0, 104.5, 105.0, 130.0, 131.0, 90.0];
        let stops = at.iter().map(|at| stop(*at, (at - 95.0) * 20.0)).collect();
        lay_running(figures, side, (40.0, 40.0), &Running { datum: stop(95.0, 0.0), stops })
    }

    fn words(laid: &Laid) -> Vec<String> {
        laid.items
            .iter()
            .filter_map(|i| if let Item::Text(text) = i { Some(text.words.clone()) } else { None })
            .collect()
    }

    #[test]
    fn figures_count_from_the_datum_on_every_side() {
        for side in Side::ALL {
            let laid = lay(side, Figures::Mm);
            assert_eq!(words(&laid), ["-100", "0", "100", "180", "190", "200", "700", "720"]);
            let outward = matches!(side, Side::Above | Side::Right);
            assert!(if outward { laid.reach > 50.0 } else { laid.reach < 30.0 }, "{side:?} {}", laid.reach);
        }
    }

    #[test]
    fn no_figure_touches_another_or_a_line() {
        for (side, figures) in Side::ALL.into_iter().flat_map(|side| [(side, Figures::Mm), (side, Figures::MmInch)]) {
            let laid = lay(side, figures);
            let count = if figures == Figures::Mm { 8 } else { 16 };
            assert_eq!(laid.boxes.len(), count);
            for (index, a) in laid.boxes.iter().enumerate() {
                assert!(laid.boxes.iter().skip(index + 1).all(|b| a.intersect(*b).area() <= 1e-9), "{side:?} {a:?}");
                let lines = laid.items.iter().filter_map(|i| if let Item::Path(p) = i { Some(&p.shape) } else { None });
                let meets = |shape: &BezPath| {
                    shape.segments().any(|segment| {
                        let ends = kurbo::ParamCurve::subsegment(&segment, 0.0..1.0).bounding_box();
                        Rect::overlaps(&ends.inflate(1e-6, 1e-6), a.inflate(-0.1, -0.1))
                    })
                };
                assert!(!lines.into_iter().any(meets), "{side:?} {a:?}");
            }
        }
    }

    // By hand: three places within 1 mm spread about their middle; a far one stays.
    #[test]
    fn near_figures_make_way() {
        let apart = spread(&[10.0, 10.5, 11.0, 40.0]);
        assert!(apart.iter().zip([6.9, 10.5, 14.1, 40.0]).all(|(a, b)| (a - b).abs() < 1e-9), "{apart:?}");
        assert!(spread(&[]).is_empty());
    }

    #[test]
    fn one_origin_and_an_arrow_for_each_place() {
        let laid = lay(Side::Below, Figures::Mm);
        let fills = |wanted: Fill| {
            laid.items.iter().filter(|i| matches!(i, Item::Path(path) if path.fill == Some(wanted))).count()
        };
        assert_eq!((fills(Fill::Paper), fills(Fill::Ink)), (1, 7));
    }
}

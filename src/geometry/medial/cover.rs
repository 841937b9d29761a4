//! What the discs of a cell lie in as it grows: nothing else can change the cell.

use super::border::Vector;
use super::envelope::Envelope;
use super::touch::Cell;
use crate::geometry::places::meet;
use kurbo::Rect;

/// Room for rounding, in steps.
const ROOM: f64 = 1.0;

/// A disc: its centre and its radius.
type Disc = (Vector, f64);

/// The discs of a stretch. How far a disc reaches in any direction grows to one end of its stretch or the other, so all lie
/// in the hull of the two at the ends.
#[derive(Debug)]
struct Part {
    around: Rect,
    ends: [Disc; 2],
}

/// All discs of a cell.
#[derive(Debug, Default)]
pub(super) struct Cover {
    all: Rect,
    parts: Vec<Part>,
    /// Where discs that still grow without end touch their own thing, and their direction.
    open: [Option<(Vector, Vector)>; 2],
}

impl Cover {
    /// Measures the discs of an envelope.
    pub fn measure(&mut self, cell: &impl Cell, envelope: &Envelope) {
        self.parts.clear();
        self.open = [None; 2];
        self.all = NOTHING;
        for stretch in envelope.wide() {
            let radius = |at: f64| stretch.lowest.map_or(f64::INFINITY, |(_, function)| cell.radius(at, function));
            let places = [stretch.from, stretch.to].map(|at| (at, radius(at)));
            if places.iter().any(|(_, radius)| !radius.is_finite()) {
                self.open = places.map(|(at, radius)| (!radius.is_finite()).then(|| cell.away(at)));
                return;
            }
            let ends = places.map(|(at, radius)| (cell.centre(at, radius), radius.abs()));
            let around = hull(square(ends[0]), square(ends[1]));
            self.all = hull(self.all, around);
            self.parts.push(Part { around, ends });
        }
    }

    /// Whether some disc still grows without end.
    pub fn is_open(&self) -> bool {
        self.open.iter().any(Option::is_some)
    }

    /// Whether a rectangle lies before a disc that still grows without end.
    pub fn closes(&self, bounds: &Rect) -> bool {
        self.open.iter().flatten().any(|(from, way)| {
            let x = if way.0 > 0.0 { bounds.x1 } else { bounds.x0 };
            let y = if way.1 > 0.0 { bounds.y1 } else { bounds.y0 };
            way.0 * (x - from.0) + way.1 * (y - from.1) > ROOM
        })
    }

    /// Whether a rectangle comes near the discs.
    pub fn is_near(&self, bounds: &Rect) -> bool {
        meet(&self.all, bounds) || self.is_open()
    }

    /// Whether a rectangle comes to any disc, or nearly.
    pub fn comes(&self, bounds: &Rect) -> bool {
        self.is_open() || (self.parts.iter().any(|part| meet(&part.around, bounds) && part.comes(bounds)))
    }
}

/// A rectangle that any other makes its own.
const NOTHING: Rect = Rect { x0: f64::INFINITY, y0: f64::INFINITY, x1: f64::NEG_INFINITY, y1: f64::NEG_INFINITY };

fn hull(a: Rect, b: Rect) -> Rect {
    Rect { x0: a.x0.min(b.x0), y0: a.y0.min(b.y0), x1: a.x1.max(b.x1), y1: a.y1.max(b.y1) }
}

/// The square round a disc, and some room.
fn square(((x, y), radius): Disc) -> Rect {
    let wide = radius + ROOM;
    Rect { x0: x - wide, y0: y - wide, x1: x + wide, y1: y + wide }
}

impl Part {
    /// How far a disc of the hull that goes evenly from one end to the other stays off a rectangle is a convex function of
    /// how far it has gone, so it lies above its tangents at both ends, and its least value above where they cross.
    fn comes(&self, bounds: &Rect) -> bool {
        let [(from, first), (to, last)] = self.ends;
        let (run, growth) = ((to.0 - from.0, to.1 - from.1), last - first);
        let gap = |centre: Vector, radius: f64| {
            let off =
                (centre.0 - centre.0.clamp(bounds.x0, bounds.x1), centre.1 - centre.1.clamp(bounds.y0, bounds.y1));
            let distance = (off.0 * off.0 + off.1 * off.1).sqrt();
            let slope = (off.0 * run.0 + off.1 * run.1) / distance - growth;
            (distance - radius, slope)
        };
        let (start, rise) = gap(from, first);
        let (end, fall) = gap(to, last);
        if start <= ROOM || end <= ROOM {
            return true;
        }
        if rise >= 0.0 || fall <= 0.0 {
            return false;
        }
        let at = (end - fall - start) / (rise - fall);
        start + rise * at <= ROOM
    }
}

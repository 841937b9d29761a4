//! A picture of bodies, pulled apart or together: what is seen of each.

use super::apart::{Way, offsets};
use super::bodies::Standing;
use crate::geometry::{Axis, Body, Eye, Polygon, Region, Seen, nearest_on, seen};
use crate::model::PieceAt;
use kurbo::{Point, Rect, Vec2};

/// Widths of gaps that are tried, times the least.
const FACTORS: [f64; 3] = [1.0, 1.6, 2.4];
/// A piece is seen well enough when a circle of this radius has room on it, mm, and so much of it is seen, mm2.
const SEEN: (f64, f64) = (5.0, 3000.0);
/// Steps in which a place on a face is looked for, each way.
const STEPS: u32 = 9;

/// A picture.
pub(super) struct Scene {
    pub eye: Eye,
    /// What is seen, in the order of the pieces.
    pub seen: Vec<Seen>,
    /// The piece of each body.
    pub of: Vec<PieceAt>,
    pub bounds: Rect,
    /// What each body is called.
    pub labels: Vec<String>,
    /// Numbers are drawn.
    pub numbered: bool,
    /// Width of the words over it, mm on paper.
    pub words: f64,
}

impl Scene {
    /// All pulled apart, from the side and with the gaps that show the most parts.
    pub fn apart(standing: &[Standing], ways: &[Way]) -> Self {
        let eyes = [Eye { high_x: true, high_y: false }, Eye { high_x: false, high_y: false }];
        let [first, second] = eyes.map(|eye| Self::at(standing, ways, eye, 1.0));
        let best = if second.hidden() < first.hidden() { second } else { first };
        let mut best = (best.hidden(), best);
        for factor in FACTORS.into_iter().skip(1) {
            if best.0 == 0 {
                break;
            }
            let wider = Self::at(standing, ways, best.1.eye, factor);
            let hidden = wider.hidden();
            if hidden < best.0 {
                best = (hidden, wider);
            }
        }
        best.1
    }

    /// Pulled apart, from a side.
    pub fn of(standing: &[Standing], ways: &[Way], eye: Eye) -> Self {
        Self::at(standing, ways, eye, 1.0)
    }

    /// Where all stand.
    pub fn together(standing: &[Standing], eye: Eye) -> Self {
        let bodies = standing.iter().map(|one| one.body.clone()).collect();
        Self { numbered: false, ..Self::new(standing, bodies, eye) }
    }

    fn at(standing: &[Standing], ways: &[Way], eye: Eye, factor: f64) -> Self {
        let moved =
            standing.iter().zip(offsets(standing, ways, factor)).map(|(one, (axis, by))| moved(&one.body, axis, by));
        Self::new(standing, moved.collect(), eye)
    }

    fn new(standing: &[Standing], bodies: Vec<Body>, eye: Eye) -> Self {
        let seen = seen(&bodies, eye);
        let bounds = seen.iter().map(|one| one.area.bounds()).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO);
        let of: Vec<PieceAt> = standing.iter().map(|one| one.piece).collect();
        let labels = of.iter().map(|piece| (piece.part + 1).to_string()).collect();
        Self { eye, seen, of, bounds, labels, numbered: true, words: 0.0 }
    }

    /// The same with other names of pieces.
    pub fn labelled(self, label: impl Fn(PieceAt) -> String) -> Self {
        Self { labels: self.of.iter().map(|piece| label(*piece)).collect(), ..self }
    }

    /// Each piece with what is seen of it.
    pub fn pieces(&self) -> impl Iterator<Item = (PieceAt, &[Seen])> {
        let of = |one: &Seen| self.of.get(one.body).copied();
        self.seen.chunk_by(|a, b| a.body == b.body).filter_map(move |seen| Some((of(seen.first()?)?, seen)))
    }

    /// How many parts are not seen well.
    fn hidden(&self) -> usize {
        let mut parts: Vec<usize> = self.of.iter().map(|piece| piece.part).collect();
        parts.dedup();
        let shown = |part: &usize| {
            let mut own = self.pieces().filter(|(piece, _)| piece.part == *part);
            own.any(|(_, seen)| {
                well(seen) && seen.iter().any(|one| roomiest(&one.area).is_some_and(|(_, r)| r >= SEEN.0))
            })
        };
        parts.iter().filter(|part| !shown(part)).count()
    }
}

/// Enough of a piece is seen to know it by.
pub(super) fn well(seen: &[Seen]) -> bool {
    seen.iter().map(|one| one.area.area()).sum::<f64>() >= SEEN.1
}

fn moved(body: &Body, axis: Axis, by: f64) -> Body {
    let (first, _) = body.prism.axis.plane();
    let way = match () {
        () if axis == body.prism.axis => Vec2::ZERO,
        () if axis == first => Vec2::new(by, 0.0),
        () => Vec2::new(0.0, by),
    };
    Body {
        prism: body.prism.moved(axis, by),
        holes: body.holes.iter().map(|hole| hole.moved(way)).collect(),
        marks: body.marks.iter().map(|(high, line): &(bool, Polygon)| (*high, line.moved(way))).collect(),
    }
}

/// A place in a region with much room around it, and how much.
pub(super) fn roomiest(region: &Region) -> Option<(Point, f64)> {
    let bounds = region.bounds();
    let edges: Vec<(Point, Point)> = region.edges().collect();
    let step = |low: f64, high: f64, at: u32| low + (high - low) * (f64::from(at) + 0.5) / f64::from(STEPS);
    let spots = (0..STEPS).flat_map(|row| (0..STEPS).map(move |column| (row, column)));
    let middles = edges.iter().zip(edges.iter().skip(edges.len() / 2)).map(|(a, b)| a.0.midpoint(b.0));
    let all =
        spots.map(|(row, column)| Point::new(step(bounds.x0, bounds.x1, column), step(bounds.y0, bounds.y1, row)));
    let mut best: Option<(Point, f64)> = None;
    for at in all.chain(middles) {
        let radius = edges.iter().map(|edge| nearest_on(edge.0, edge.1, at).distance(at)).fold(f64::MAX, f64::min);
        if best.is_none_or(|(_, most)| radius > most) && region.contains(at) {
            best = Some((at, radius));
        }
    }
    best
}

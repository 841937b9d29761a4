//! The widest ways from given starts to many goals.

use super::clearance_arc::Spot;
use super::clearance_ends::{End, Stand};
use super::clearance_graph::Graph;
use super::clearance_search::{Net, Searched, Shortest};
use crate::base::tolerance::{CLEARANCE_GRID, SAME_RADIUS};
use kurbo::Point;
use std::sync::Arc as Shared;

/// A way and its narrowest place.
#[derive(Debug, Clone, PartialEq)]
pub struct Widest {
    /// Diameter of the disc, mm.
    pub width: f64,
    /// Centre of the disc at the narrowest place; of several equally narrow ones the first on the way; the middle where the
    /// way is as narrow for a stretch.
    pub at: Point,
    /// The two points of the boundary that it touches there; where it touches on one side only (an end near a wall),
    /// that point and the one opposite on the disc.
    pub across: (Point, Point),
    /// The course of the disc's centre, the shortest among those of this width on the graph.
    pub path: Vec<Point>,
}

/// All ways from some starts: how wide each place can be reached is worked out once.
#[derive(Debug, Clone)]
pub struct Ways {
    net: Net,
    /// The radius of the widest disc that gets to each place.
    reached: Vec<f64>,
}

/// A way's last piece: from a place of the net to the goal.
#[derive(Debug, Clone, Copy)]
struct Last {
    from: usize,
    goal: Stand,
    /// Along this arc, to this place of it; `None` where the place itself is the goal.
    arc: Option<(usize, Spot)>,
    narrowest: Spot,
    length: f64,
}

impl Default for Ways {
    fn default() -> Self {
        Self::new(Shared::new(Graph::new(&super::region::Region::default())), &[])
    }
}

impl Ways {
    pub(super) fn new(graph: Shared<Graph>, starts: &[End]) -> Self {
        let of = |(number, end)| graph.stands(end).into_iter().map(move |stand| (number, stand));
        let stands: Vec<(usize, Stand)> = starts.iter().enumerate().flat_map(of).collect();
        let net = Net::new(graph, &stands);
        let first: Vec<(usize, f64)> = net.starts.keys().map(|place| (*place, -net.spot(*place).r)).collect();
        let searched = net.search(&first, |cost, link| cost.max(-link.narrowest.r));
        let reached = searched.cost.into_iter().map(|cost| if cost.is_finite() { -cost } else { 0.0 }).collect();
        Self { net, reached }
    }

    /// The widest disc that gets from a start to the goal, by the start from where the way is shortest, with the number
    /// of that start; `None` if there is no way.
    #[must_use]
    pub fn widest(&self, goal: &End) -> Option<(usize, Widest)> {
        self.widest_to(std::slice::from_ref(goal)).pop().flatten()
    }

    /// The same for each of many goals, with one search for all of them.
    #[must_use]
    pub fn widest_to(&self, goals: &[End]) -> Vec<Option<(usize, Widest)>> {
        let lasts: Vec<(Vec<Last>, f64)> = goals
            .iter()
            .map(|goal| self.lasts_of(goal))
            .map(|lasts| {
                let radius = self.radius(&lasts);
                (lasts, radius.unwrap_or(0.0))
            })
            .collect();
        let mut turns: Vec<usize> = (0..goals.len()).collect();
        turns.sort_by(|a, b| {
            let of = |at: &usize| lasts.get(*at).map_or(0.0, |(_, radius)| *radius);
            of(b).total_cmp(&of(a))
        });
        let mut shortest = Shortest::new(&self.net);
        let mut ways = vec![None; goals.len()];
        for turn in turns {
            if let (Some((lasts, radius)), Some(way)) = (lasts.get(turn), ways.get_mut(turn))
                && *radius > 0.0
            {
                shortest.let_in(*radius);
                *way = self.shortest(*radius, lasts, &shortest.found);
            }
        }
        ways
    }

    /// The diameter of the widest disc that gets from a start to the goal; 0 if there is no way. Quicker than the way.
    #[must_use]
    pub fn width(&self, goal: &End) -> f64 {
        self.radius(&self.lasts_of(goal)).map_or(0.0, |radius| 2.0 * radius)
    }

    fn lasts_of(&self, goal: &End) -> Vec<Last> {
        self.net.graph.stands(goal).into_iter().flat_map(|stand| self.lasts(stand)).collect()
    }

    fn radius(&self, lasts: &[Last]) -> Option<f64> {
        let wide = |last: &Last| self.reached.get(last.from).map_or(0.0, |reached| reached.min(last.narrowest.r));
        lasts.iter().map(wide).max_by(f64::total_cmp).filter(|radius| *radius > CLEARANCE_GRID)
    }

    /// The last pieces by which a goal is reached.
    fn lasts(&self, goal: Stand) -> Vec<Last> {
        let (arc, on_arc) = match goal {
            Stand::Node(node) => {
                return vec![Last { from: node, goal, arc: None, narrowest: self.net.spot(node), length: 0.0 }];
            }
            Stand::OnArc(arc, spot) | Stand::Off(_, arc, spot) => (arc, spot),
        };
        let (Some(ends), Some(graph_arc)) = (self.net.piece(arc, on_arc), self.net.graph.arcs.get(arc)) else {
            return Vec::new();
        };
        let to = |from: usize| {
            let piece = graph_arc.arc.piece(arc, self.net.spot(from), on_arc);
            let (narrowest, more) = match goal {
                Stand::Off(spot, ..) if spot.r <= piece.narrowest.r => (spot, spot.p.distance(on_arc.p)),
                Stand::Off(spot, ..) => (piece.narrowest, spot.p.distance(on_arc.p)),
                _ => (piece.narrowest, 0.0),
            };
            Last { from, goal, arc: Some((arc, on_arc)), narrowest, length: piece.length + more }
        };
        vec![to(ends.0), to(ends.1)]
    }

    /// The shortest way on which a disc of this radius passes, of what a search for it has found.
    fn shortest(&self, radius: f64, lasts: &[Last], found: &Searched) -> Option<(usize, Widest)> {
        let length = |last: &Last| found.cost.get(last.from).map_or(f64::INFINITY, |cost| cost + last.length);
        let wide = lasts.iter().filter(|last| last.narrowest.r >= radius - SAME_RADIUS);
        let last = wide.min_by(|a, b| length(a).total_cmp(&length(b))).filter(|last| length(last).is_finite())?;
        let (start, pieces) = self.pieces(last, found)?;
        let at = narrow_place(&pieces, radius).unwrap_or_else(|| self.net.spot(start).p);
        let mut path = vec![self.net.spot(start).p];
        path.extend(pieces.iter().flat_map(|piece| piece.course.iter().skip(1)));
        path.dedup();
        let way = Widest { width: 2.0 * radius, at, across: self.net.graph.across(at, radius), path };
        Some((*self.net.starts.get(&start)?, way))
    }

    /// The start of a way, and its pieces from there on.
    fn pieces(&self, last: &Last, found: &Searched) -> Option<(usize, Vec<Piece>)> {
        let mut pieces = Vec::new();
        if let Some((arc, on_arc)) = last.arc {
            if let Stand::Off(..) = last.goal {
                let end = self.net.graph.place(last.goal);
                pieces.push(Piece { ends: [on_arc, end], narrowest: end, course: vec![on_arc.p, end.p] });
            }
            pieces.push(self.to_spot(last.from, on_arc, Some(arc), last.narrowest));
        }
        let mut place = last.from;
        while let Some(Some((from, index))) = found.came.get(place) {
            let link = self.net.link_at(*index)?;
            pieces.push(self.to_spot(*from, self.net.spot(place), link.arc, link.narrowest));
            place = *from;
        }
        pieces.reverse();
        Some((place, pieces))
    }

    /// The piece from a place of the net to a spot, along an arc or straight.
    fn to_spot(&self, from: usize, to: Spot, arc: Option<usize>, narrowest: Spot) -> Piece {
        let from = self.net.spot(from);
        let arc = arc.and_then(|index| self.net.graph.arcs.get(index));
        let course = arc.map_or_else(|| vec![from.p, to.p], |graph_arc| graph_arc.arc.flatten(from.p, to.p));
        Piece { ends: [from, to], narrowest, course }
    }
}

/// A piece of a way: its ends, its narrowest place, and its course with both ends.
struct Piece {
    ends: [Spot; 2],
    narrowest: Spot,
    course: Vec<Point>,
}

/// The narrowest place of a way: the first, and the middle of it where the way is as narrow for a stretch.
fn narrow_place(pieces: &[Piece], radius: f64) -> Option<Point> {
    let narrow = |spot: &Spot| spot.r <= radius + SAME_RADIUS;
    let all_along = |piece: &&Piece| piece.ends.iter().all(narrow);
    let reaches = |piece: &Piece| narrow(&piece.narrowest) || piece.ends.iter().any(narrow);
    let at = pieces.iter().position(reaches)?;
    let (first, rest) = pieces.get(at..)?.split_first()?;
    let lone = first.ends.iter().find(|end| narrow(end)).unwrap_or(&first.narrowest).p;
    let stretch = |from: &[Piece]| -> Vec<Point> {
        from.iter().take_while(|piece| all_along(piece)).flat_map(|piece| piece.course.iter().copied()).collect()
    };
    let course = if all_along(&first) { stretch(pieces.get(at..)?) } else { stretch(rest) };
    let begins = narrow(&first.ends[1]);
    Some(if begins { middle(&course).unwrap_or(lone) } else { lone })
}

/// The middle of a course by its length; `None` if it is empty.
fn middle(course: &[Point]) -> Option<Point> {
    let steps = || course.windows(2).filter_map(|pair| if let [a, b] = pair { Some((*a, *b)) } else { None });
    let mut left = steps().map(|(a, b)| a.distance(b)).sum::<f64>() / 2.0;
    for (a, b) in steps() {
        let length = a.distance(b);
        if left <= length && length > 0.0 {
            return Some(a.lerp(b, left / length));
        }
        left -= length;
    }
    course.first().copied()
}

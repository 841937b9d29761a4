//! Walls that lean or bulge: how far they stand inward at each height, and the room that they take.

use super::names::{Resolver, roof_unknown};
use crate::base::number::micrometres;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Diagnostic;
use crate::geometry::{Axis, Polygon, Prism};
use crate::language::expression::{Expr, Failed};
use crate::model::{BoxSpace, CutKind, Cutaway, Opening, Wall};
use crate::source::{Span, Spanned};
use kurbo::Point;

/// The walls in the order of the document.
const WALLS: [Wall; 4] = [Wall::Left, Wall::Right, Wall::Front, Wall::Rear];
/// A wall that stands in further than this share of the box is none.
const MOST_SHARE: f64 = 0.4;

/// How far a wall stands inward at a height; beyond its ends as there.
fn inward(line: &[Point], z: f64) -> f64 {
    let after = line.partition_point(|point| point.x <= z);
    match (after.checked_sub(1).and_then(|at| line.get(at)), line.get(after)) {
        (Some(a), Some(b)) => a.y + (b.y - a.y) * (z - a.x) / (b.x - a.x),
        (Some(a), None) | (None, Some(a)) => a.y,
        (None, None) => 0.0,
    }
}

impl Resolver<'_> {
    /// The place of a wall's inner face at a height.
    pub fn wall_at(&mut self, wall: usize, z: f64, span: Span) -> Result<f64, Failed> {
        let Some(lines) = &self.walls else { return Err(self.error(roof_unknown(span))) };
        let inward = lines.get(wall).map_or(0.0, |line| inward(line, z));
        let space = &self.doc.space.value;
        Ok(match wall {
            1 => self.figure(&space.width)? - inward,
            3 => self.figure(&space.length)? - inward,
            _ => inward,
        })
    }

    /// Reads how far the walls stand inward.
    pub fn read_walls(&mut self, length: f64, width: f64) {
        let doc = &self.doc.space.value.walls;
        let mut lines: [Vec<Point>; 4] = Default::default();
        for ((line, written), wall) in lines.iter_mut().zip(doc).zip(WALLS) {
            let reach = if matches!(wall, Wall::Left | Wall::Right) { width } else { length };
            let Some(written) = written else { continue };
            if let Ok(points) = self.wall_line(written, wall, reach * MOST_SHARE) {
                *line = points;
            }
        }
        self.walls = Some(lines);
    }

    fn wall_line(&mut self, doc: &Spanned<Vec<[Expr; 2]>>, wall: Wall, most: f64) -> Result<Vec<Point>, Failed> {
        let mut points: Vec<Point> = Vec::new();
        for [height, off] in &doc.value {
            let point = Point::new(micrometres(self.figure(height)?), micrometres(self.figure(off)?));
            if points.last().is_some_and(|last| last.x >= point.x) {
                let message = "the heights of a wall go upward, each higher than the one before";
                return Err(self.error(Diagnostic::new(height.span, message)));
            }
            if !(0.0..=most).contains(&point.y) {
                let message = format!("the {} wall stands {} mm inward", wall.name(), point.y);
                let help = format!(
                    "it can be 0 to {most}; the box is as wide and long as the room is at its widest, and walls stand inward from there"
                );
                return Err(self.error(Diagnostic::new(off.span, message).help(help)));
            }
            points.push(point);
        }
        Ok(points)
    }

    /// The box with what its walls take, left free where there are openings in them.
    pub fn with_walls(&self, mut space: BoxSpace, openings: &[Opening]) -> BoxSpace {
        for (line, wall) in self.walls.iter().flatten().zip(WALLS) {
            let own: Vec<&Opening> = openings.iter().filter(|opening| opening.wall == wall).collect();
            for (number, prism) in pieces(&space, line, wall, &own).into_iter().enumerate() {
                let name = format!("{}-wall-{}", wall.name(), number + 1);
                space.cutaways.push(Cutaway { name, prism, kind: CutKind::Wall(wall), span: space.span });
            }
        }
        space
    }
}

/// What a wall takes: a prism for each stretch of its line between openings.
fn pieces(space: &BoxSpace, line: &[Point], wall: Wall, openings: &[&Opening]) -> Vec<Prism> {
    let top = space.roof.highest();
    let ends = line.iter().map(|point| point.x).chain([0.0, top]);
    let edges = openings.iter().flat_map(|opening| [opening.up.0, opening.up.1]);
    let mut heights: Vec<f64> = ends.chain(edges).filter(|z| (0.0..=top).contains(z)).collect();
    heights.sort_by(f64::total_cmp);
    heights.dedup_by(|a, b| (*a - *b).abs() <= SAME_LENGTH);
    let side = matches!(wall, Wall::Left | Wall::Right);
    let (axis, reach, long) =
        if side { (Axis::X, space.width, space.length) } else { (Axis::Y, space.length, space.width) };
    let face = |off: f64| if matches!(wall, Wall::Left | Wall::Front) { off } else { reach - off };
    let mut made = Vec::new();
    for (low, high) in heights.iter().zip(heights.iter().skip(1)).map(|(a, b)| (*a, *b)) {
        let (at_low, at_high) = (inward(line, low), inward(line, high));
        if line.is_empty() || at_low.max(at_high) <= SAME_LENGTH {
            continue;
        }
        let mut corners = vec![(face(0.0), low)];
        corners.extend((at_low > SAME_LENGTH).then(|| (face(micrometres(at_low)), low)));
        corners.extend((at_high > SAME_LENGTH).then(|| (face(micrometres(at_high)), high)));
        corners.push((face(0.0), high));
        let outline = Polygon::new(corners.into_iter().map(Point::from).collect());
        let middle = f64::midpoint(low, high);
        let mut holes: Vec<(f64, f64)> =
            openings.iter().filter(|o| o.up.0 < middle && middle < o.up.1).map(|o| o.along).collect();
        holes.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut from = 0.0;
        for (start, end) in holes.into_iter().chain([(long, long)]) {
            if start - from > SAME_LENGTH {
                made.push(Prism { axis, outline: outline.clone(), low: from, high: start });
            }
            from = end.max(from);
        }
    }
    made
}

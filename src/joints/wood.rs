//! How much wood is left in a piece between its bores, cut-outs and grooves, and beside them to its surface.
//!
//! All in the piece's own directions: along its length, along its width, below its face.

use super::bores::{Bore, BoreSide, bores};
use crate::geometry::{Polygon, nearest_on};
use crate::model::{Machining, Module, Part, PieceAt};
use kurbo::{Point, Rect};

/// What is further apart than this is no matter, mm.
const REACH: f64 = 10.0;

/// Something that is cut into a piece.
#[derive(Debug, Clone)]
pub struct Cut<'m> {
    /// What it is.
    pub kind: CutKind<'m>,
    /// Its middle line or its body: least and greatest along length, width and below the face.
    spine: [(f64, f64); 3],
    /// Around its middle line.
    radius: f64,
}

/// What it is.
#[derive(Debug, Clone, Copy)]
pub enum CutKind<'m> {
    /// A round hole.
    Bore {
        /// From which side.
        side: BoreSide,
        /// mm.
        diameter: f64,
        /// For a screw or a dowel of a joint.
        fixing: bool,
    },
    /// A groove.
    Groove,
    /// A cut-out: its name and its outline.
    Cutout(&'m str, &'m Polygon),
}

/// The least wood beside a cut of a piece.
#[derive(Debug)]
pub struct Left<'m> {
    /// In which piece.
    pub piece: PieceAt,
    /// Beside what.
    pub cut: Cut<'m>,
    /// The other cut; `None` for the piece's own surface.
    pub beside: Option<Cut<'m>>,
    /// mm; less than nothing where they run into each other.
    pub wood: f64,
}

impl Cut<'_> {
    /// Where it begins on its side: along the length and the width, or along an edge and below the face.
    #[must_use]
    pub fn at(&self) -> (f64, f64) {
        let [x, y, z] = self.spine.map(|(low, high)| f64::midpoint(low, high));
        match self.kind {
            CutKind::Bore { side: BoreSide::Front | BoreSide::Back, .. } => (x, z),
            CutKind::Bore { side: BoreSide::Left | BoreSide::Right, .. } => (y, z),
            _ => (x, y),
        }
    }

    /// The axis that a bore runs along.
    fn axis(&self) -> Option<usize> {
        match self.kind {
            CutKind::Bore { side: BoreSide::Face | BoreSide::Reverse, .. } => Some(2),
            CutKind::Bore { side: BoreSide::Front | BoreSide::Back, .. } => Some(1),
            CutKind::Bore { .. } => Some(0),
            _ => None,
        }
    }

    /// The box around it.
    fn around(&self) -> [(f64, f64); 3] {
        let axis = self.axis();
        let mut index = 0;
        self.spine.map(|(low, high)| {
            let by = if axis == Some(index) { 0.0 } else { self.radius };
            index += 1;
            (low - by, high + by)
        })
    }
}

/// For each piece that something is cut into, the place with the least wood.
#[must_use]
pub fn least_wood(module: &Module) -> Vec<Left<'_>> {
    let mut drilled: Vec<(PieceAt, Bore)> = Vec::new();
    for joint in &module.together.joints {
        drilled.extend(bores(&module.parts, joint).into_iter().map(|bore| (bore.piece, bore)));
    }
    drilled.sort_by_key(|(piece, _)| *piece);
    let mut found = Vec::new();
    for (index, part) in module.parts.iter().enumerate() {
        let of_part: Vec<Cut<'_>> = part.machining.iter().map(|one| machined(part, one)).collect();
        for place in 0..part.places.len() {
            let piece = PieceAt { part: index, place };
            let from = drilled.partition_point(|(other, _)| *other < piece);
            let own = drilled.iter().skip(from).take_while(|(other, _)| *other == piece).map(|(_, bore)| bore);
            let cuts = of_part.iter().cloned().chain(own.map(|bore| drilled_by(part, bore))).collect();
            found.extend(least(piece, part, cuts));
        }
    }
    found
}

/// What the symbol and the hardware cut into a piece of a part.
pub(super) fn machined<'m>(part: &Part, machining: &'m Machining) -> Cut<'m> {
    let bounds = machining.bounds();
    let flat = |z: (f64, f64)| [(bounds.x0, bounds.x1), (bounds.y0, bounds.y1), z];
    let below =
        |depth: f64, reverse: bool| if reverse { (part.thickness - depth, part.thickness) } else { (0.0, depth) };
    match machining {
        Machining::Hole { at, diameter, depth, reverse } => {
            let side = if *reverse { BoreSide::Reverse } else { BoreSide::Face };
            let spine = [(at.0, at.0), (at.1, at.1), below(depth.unwrap_or(part.thickness), *reverse)];
            Cut { kind: CutKind::Bore { side, diameter: *diameter, fixing: false }, spine, radius: diameter / 2.0 }
        }
        Machining::Groove { depth, reverse, .. } => {
            Cut { kind: CutKind::Groove, spine: flat(below(*depth, *reverse)), radius: 0.0 }
        }
        Machining::Cutout { name, outline, .. } => {
            Cut { kind: CutKind::Cutout(name, outline), spine: flat((0.0, part.thickness)), radius: 0.0 }
        }
    }
}

/// What a joint bores into a piece of a part.
pub(super) fn drilled_by<'m>(part: &Part, bore: &Bore) -> Cut<'m> {
    let (a, b) = bore.at;
    let far = |size: f64, depth: f64| (size - depth.min(size), size);
    let near = |size: f64, depth: f64| (0.0, depth.min(size));
    let deep = bore.depth.unwrap_or(f64::INFINITY);
    let spine = match bore.side {
        BoreSide::Face => [(a, a), (b, b), near(part.thickness, deep)],
        BoreSide::Reverse => [(a, a), (b, b), far(part.thickness, deep)],
        BoreSide::Front => [(a, a), near(part.width, deep), (b, b)],
        BoreSide::Back => [(a, a), far(part.width, deep), (b, b)],
        BoreSide::Left => [near(part.length, deep), (a, a), (b, b)],
        BoreSide::Right => [far(part.length, deep), (a, a), (b, b)],
    };
    let kind = CutKind::Bore { side: bore.side, diameter: bore.diameter, fixing: true };
    Cut { kind, spine, radius: bore.diameter / 2.0 }
}

/// The place with the least wood in a piece.
fn least<'m>(piece: PieceAt, part: &Part, mut cuts: Vec<Cut<'m>>) -> Option<Left<'m>> {
    cuts.sort_by(|a, b| a.around()[0].0.total_cmp(&b.around()[0].0));
    let arounds: Vec<[(f64, f64); 3]> = cuts.iter().map(Cut::around).collect();
    let outline = part.outline.clone().unwrap_or_else(|| Polygon::rect(Rect::new(0.0, 0.0, part.length, part.width)));
    let mut found: Option<(f64, usize, Option<usize>)> = None;
    let mut take = |wood: f64, one: usize, other: Option<usize>| {
        if found.is_none_or(|(known, ..)| wood < known) {
            found = Some((wood, one, other));
        }
    };
    for (index, cut) in cuts.iter().enumerate() {
        if let Some(wood) = to_surface(cut, part, &outline) {
            take(wood, index, None);
        }
        let around = cut.around();
        let later = cuts.iter().zip(&arounds).enumerate().skip(index + 1);
        for (other, (beside, theirs)) in later.take_while(|(_, (_, theirs))| theirs[0].0 <= around[0].1 + REACH) {
            if gap(around[1], theirs[1]) <= REACH
                && let Some(wood) = between(cut, beside)
            {
                take(wood, index, Some(other));
            }
        }
    }
    let (wood, one, other) = found?;
    let beside = other.and_then(|other| cuts.get(other).cloned());
    Some(Left { piece, cut: cuts.swap_remove(one), beside, wood })
}

/// From one range to another; less than nothing where they overlap.
fn gap(a: (f64, f64), b: (f64, f64)) -> f64 {
    (b.0 - a.1).max(a.0 - b.1)
}

/// Wood between two cuts, mm; `None` for two of which neither is a bore and which may meet.
pub(super) fn between(a: &Cut<'_>, b: &Cut<'_>) -> Option<f64> {
    match (a.kind, b.kind) {
        (CutKind::Cutout(_, one), CutKind::Cutout(_, other)) => sliver(one, other),
        (CutKind::Bore { .. }, CutKind::Cutout(_, outline)) => Some(to_outline(a, outline, true)),
        (CutKind::Cutout(_, outline), CutKind::Bore { .. }) => Some(to_outline(b, outline, true)),
        (CutKind::Bore { .. }, _) => a.axis().map(|axis| beside_bore(a, axis, b)),
        (_, CutKind::Bore { .. }) => b.axis().map(|axis| beside_bore(b, axis, a)),
        _ => None,
    }
}

/// Wood between a bore along an axis and another bore or a groove.
fn beside_bore(bore: &Cut<'_>, axis: usize, other: &Cut<'_>) -> f64 {
    let parallel = other.axis() == Some(axis);
    let (body, radius) = if parallel { (other.spine, other.radius) } else { (other.around(), 0.0) };
    let (mut aside, mut along) = (0.0_f64, 0.0);
    for (index, (own, theirs)) in bore.spine.iter().zip(&body).enumerate() {
        let apart = gap(*own, *theirs);
        if index == axis {
            along = apart;
        } else {
            aside = aside.hypot(apart.max(0.0));
        }
    }
    let aside = aside - bore.radius - radius;
    match (aside > 0.0, along > 0.0) {
        (_, false) => aside,
        (false, true) => along,
        (true, true) => aside.hypot(along),
    }
}

/// Wood from a bore to the outline of its piece, or to that of a cut-out.
fn to_outline(bore: &Cut<'_>, outline: &Polygon, cutout: bool) -> f64 {
    let [x, y, _] = bore.spine;
    let (from, to) = (Point::new(x.0, y.0), Point::new(x.1, y.1));
    let least = outline.edges().map(|edge| lines_apart((from, to), edge)).fold(f64::INFINITY, f64::min);
    let inside = holds(outline, from) || holds(outline, to);
    if inside == cutout { -least.max(0.0) - bore.radius } else { least - bore.radius }
}

/// Whether a point lies in an outline.
fn holds(outline: &Polygon, point: Point) -> bool {
    let crosses = |(a, b): &(Point, Point)| {
        (a.y > point.y) != (b.y > point.y) && point.x < a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x)
    };
    outline.edges().filter(crosses).count() % 2 == 1
}

/// Wood between two cut-outs; `None` where they touch, or one is in the other, and so are one.
fn sliver(one: &Polygon, other: &Polygon) -> Option<f64> {
    let apart = |edge: (Point, Point)| other.edges().map(move |theirs| lines_apart(edge, theirs));
    let least = one.edges().flat_map(apart).fold(f64::INFINITY, f64::min);
    (least > 0.0).then_some(least)
}

/// How far two straight lines are apart.
fn lines_apart((a, b): (Point, Point), (c, d): (Point, Point)) -> f64 {
    let side = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    let crosses = side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0;
    if crosses {
        return 0.0;
    }
    let ends = [(c, a, b), (d, a, b), (a, c, d), (b, c, d)];
    ends.into_iter().map(|(point, from, to)| nearest_on(from, to, point).distance(point)).fold(f64::INFINITY, f64::min)
}

/// Wood between a cut and the surface of its piece, but for where it comes in.
fn to_surface(cut: &Cut<'_>, part: &Part, outline: &Polygon) -> Option<f64> {
    let [x, y, z] = cut.spine;
    let ahead = |range: (f64, f64), size: f64| if range.0 > 0.0 { range.0 } else { size - range.1 };
    let aside = |range: (f64, f64), size: f64| range.0.min(size - range.1) - cut.radius;
    match cut.kind {
        CutKind::Bore { side: BoreSide::Face | BoreSide::Reverse, .. } => {
            let through = z.0 <= 0.0 && z.1 >= part.thickness;
            let below = if through { f64::INFINITY } else { ahead(z, part.thickness) };
            Some(below.min(to_outline(cut, outline, false)))
        }
        CutKind::Bore { side: BoreSide::Front | BoreSide::Back, .. } => {
            Some(aside(z, part.thickness).min(aside(x, part.length)).min(ahead(y, part.width)))
        }
        CutKind::Bore { .. } => Some(aside(z, part.thickness).min(aside(y, part.width)).min(ahead(x, part.length))),
        CutKind::Groove => Some(ahead(z, part.thickness)),
        CutKind::Cutout(_, own) => sliver(own, outline),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::joinery::fixture::part;

    fn hole(at: (f64, f64), depth: Option<f64>, reverse: bool) -> Machining {
        Machining::Hole { at, diameter: 6.0, depth, reverse }
    }

    fn square(x0: f64, y0: f64, x1: f64, y1: f64) -> Machining {
        Machining::Cutout { name: "sink".to_owned(), outline: Polygon::rect(Rect::new(x0, y0, x1, y1)), curve: None }
    }

    fn groove(depth: f64, reverse: bool) -> Machining {
        Machining::Groove { from: (0.0, 50.0), to: (400.0, 50.0), width: 6.0, depth, reverse, holds: None }
    }

    /// A board of 400 x 100 x 16 mm.
    fn wood(machining: Vec<Machining>) -> f64 {
        let board = Part { thickness: 16.0, machining, ..part("board", 1, 400.0, 100.0) };
        let cuts = board.machining.iter().map(|one| machined(&board, one)).collect();
        least(PieceAt { part: 0, place: 0 }, &board, cuts).map_or(f64::INFINITY, |left| left.wood)
    }

    fn alike(a: f64, b: f64) {
        assert!((a - b).abs() < 1e-9, "{a} {b}");
    }

    /// By hand: two bores of 6 mm whose middles are 10 apart leave 4; the same from both faces, 5 and 6 deep in 16 mm, leave
    /// 5 between their ends; 10 mm aside of each other and 5 deep beyond, the hypotenuse of 4 and 5.
    #[test]
    fn wood_between_bores() {
        alike(wood(vec![hole((100.0, 50.0), None, false), hole((110.0, 50.0), None, false)]), 4.0);
        alike(wood(vec![hole((100.0, 50.0), Some(5.0), false), hole((100.0, 50.0), Some(6.0), true)]), 5.0);
        alike(wood(vec![hole((100.0, 50.0), Some(5.0), false), hole((110.0, 50.0), Some(6.0), true)]), 41.0_f64.sqrt());
        alike(wood(vec![hole((100.0, 50.0), None, false), hole((102.0, 50.0), None, false)]), -4.0);
    }

    /// By hand: 12 deep in 16 mm leave 4 below; 5 mm from the edge less a radius of 3 are 2, and as far beyond the edge -5.
    #[test]
    fn wood_to_the_surface() {
        alike(wood(vec![hole((100.0, 50.0), Some(12.0), false)]), 4.0);
        alike(wood(vec![hole((100.0, 5.0), None, false)]), 2.0);
        alike(wood(vec![hole((100.0, -2.0), None, false)]), -5.0);
        alike(wood(vec![groove(7.0, false)]), 9.0);
    }

    /// By hand: a cut-out from 105 leaves 2 beside a bore of 6 mm at 100, and none around one in it; one that ends 1.5 before
    /// the edge leaves a sliver, one that reaches it is a notch.
    #[test]
    fn wood_beside_cut_outs() {
        alike(wood(vec![hole((100.0, 50.0), None, false), square(105.0, 20.0, 200.0, 80.0)]), 2.0);
        alike(wood(vec![hole((120.0, 50.0), None, false), square(105.0, 20.0, 200.0, 80.0)]), -18.0);
        alike(wood(vec![square(105.0, 20.0, 200.0, 98.5)]), 1.5);
        assert_eq!(wood(vec![square(105.0, 20.0, 200.0, 100.0)]), f64::INFINITY);
        alike(wood(vec![square(105.0, 20.0, 200.0, 80.0), square(203.0, 20.0, 300.0, 80.0)]), 3.0);
    }

    /// By hand: a groove 7 deep and 6 wide around 50; a bore of 6 mm at 58 beside it leaves 2, one from the back 6 deep leaves 3
    /// below it; a bore in the edge, 20 deep from 100 inward at half of 16 mm, is 27 from the groove.
    #[test]
    fn wood_beside_grooves() {
        alike(wood(vec![groove(7.0, false), hole((100.0, 58.0), None, false)]), 2.0);
        alike(wood(vec![groove(7.0, false), hole((100.0, 50.0), Some(6.0), true)]), 3.0);
        let board = Part { thickness: 16.0, ..part("board", 1, 400.0, 100.0) };
        let piece = PieceAt { part: 0, place: 0 };
        let bore = Bore { piece, side: BoreSide::Back, at: (200.0, 8.0), diameter: 6.0, depth: Some(20.0) };
        let deeper = Bore { depth: Some(45.0), ..bore };
        let cut = machined(&board, &groove(7.0, false)).spine;
        let groove = Cut { kind: CutKind::Groove, spine: cut, radius: 0.0 };
        assert_eq!(between(&drilled_by(&board, &bore), &groove), Some(27.0));
        alike(between(&drilled_by(&board, &deeper), &groove).unwrap(), 2.0);
        let face = machined(&board, &hole((205.0, 96.0), None, false)).spine;
        let across = Cut {
            kind: CutKind::Bore { side: BoreSide::Face, diameter: 6.0, fixing: false },
            spine: face,
            radius: 3.0,
        };
        assert_eq!(between(&drilled_by(&board, &bore), &across), Some(-1.0), "6 mm at 200 and at 205 cross");
    }
}

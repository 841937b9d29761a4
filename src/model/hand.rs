//! Whether a part and its mirror image are the same piece of work.

use super::make::{Bands, Machining, Part};
use super::place::{Hand, Lies, Place};
use crate::geometry::Polygon;

/// A part whose mirror image is another piece, as one part for each hand that its places ask for.
#[must_use]
pub fn by_hand(part: Part) -> Vec<Part> {
    if is_own_mirror(&part) {
        return vec![part];
    }
    let hand = |place: &Place| place.lies.as_ref().map(Lies::hand);
    let mut made = Vec::new();
    for wanted in [None, Some(Hand::Left), Some(Hand::Right)] {
        let places: Vec<Place> = part.places.iter().filter(|place| hand(place) == wanted).cloned().collect();
        if !places.is_empty() {
            let count = u32::try_from(places.len()).unwrap_or(u32::MAX);
            made.push(Part { count, hand: wanted, places, ..part.clone() });
        }
    }
    if made.is_empty() { vec![part] } else { made }
}

/// A bore into an edge of a board.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgeBore {
    /// Into a long edge, and not a short one.
    pub long: bool,
    /// Into the edge at the datum corner, and not the one opposite.
    pub near: bool,
    /// Along the edge and below the face, mm.
    pub at: (f64, f64),
    /// Diameter and depth, mm.
    pub size: (f64, f64),
}

/// A reflection of a board: its length, its width, its two faces.
#[derive(Clone, Copy)]
struct Flip {
    length: bool,
    width: bool,
    faces: bool,
}

const fn flip(length: bool, width: bool, faces: bool) -> Flip {
    Flip { length, width, faces }
}

/// The reflections that make a mirror image; two at once are a turn and make none.
const MIRRORS: [Flip; 4] =
    [flip(true, false, false), flip(false, true, false), flip(false, false, true), flip(true, true, true)];

/// Whether the mirror image of a part is the part itself, turned. Faces count only where something is cut into one.
fn is_own_mirror(part: &Part) -> bool {
    is_own_mirror_with(part, &[])
}

/// The same of a part with bores in its edges.
#[must_use]
pub fn is_own_mirror_with(part: &Part, edges: &[EdgeBore]) -> bool {
    if !part.faced && edges.is_empty() && !part.machining.iter().any(Machining::one_sided) {
        return true;
    }
    MIRRORS.iter().any(|flip| flip.keeps(part) && flip.keeps_bores(part, edges))
}

impl Flip {
    fn keeps(self, part: &Part) -> bool {
        let size = (part.length, part.width);
        let marks = |flip: Self| {
            let mut marks: Vec<Mark> = part.machining.iter().map(|one| flip.mark(one, size)).collect();
            marks.sort();
            marks
        };
        let plain = flip(false, false, false);
        let outline = |flip: Self| part.outline.as_ref().map(|outline| flip.corners(outline, size));
        !(self.faces && part.faced)
            && self.edges(part.bands) == part.bands
            && self.edges(part.scribe) == part.scribe
            && outline(self) == outline(plain)
            && marks(self) == marks(plain)
    }

    fn keeps_bores(self, part: &Part, edges: &[EdgeBore]) -> bool {
        let marks = |flip: Self| {
            let mut marks: Vec<_> = edges.iter().map(|one| flip.edge_bore(one, part)).collect();
            marks.sort_unstable();
            marks
        };
        marks(self) == marks(flip(false, false, false))
    }

    fn edge_bore(self, bore: &EdgeBore, part: &Part) -> (bool, bool, [i64; 4]) {
        let EdgeBore { long, near, at, size } = *bore;
        // An edge goes to the one opposite where the board is turned over across it.
        let (over, along) = if long { (self.width, self.length) } else { (self.length, self.width) };
        let whole_edge = if long { part.length } else { part.width };
        let x = if along { whole_edge - at.0 } else { at.0 };
        let z = if self.faces { part.thickness - at.1 } else { at.1 };
        (long, near != over, [whole(x), whole(z), whole(size.0), whole(size.1)])
    }

    fn edges(self, edges: Bands) -> Bands {
        let Bands { front, back, left, right } = edges;
        let (left, right) = if self.length { (right, left) } else { (left, right) };
        let (front, back) = if self.width { (back, front) } else { (front, back) };
        Bands { front, back, left, right }
    }

    /// A point in whole micrometres.
    fn point(self, (along, across): (f64, f64), (length, width): (f64, f64)) -> (i64, i64) {
        let along = if self.length { length - along } else { along };
        let across = if self.width { width - across } else { across };
        (whole(along), whole(across))
    }

    fn corners(self, outline: &Polygon, size: (f64, f64)) -> Vec<(i64, i64)> {
        let mut corners: Vec<_> = outline.points().iter().map(|point| self.point((point.x, point.y), size)).collect();
        corners.sort_unstable();
        corners
    }

    fn mark(self, machining: &Machining, size: (f64, f64)) -> Mark {
        let back = |reverse: &bool| *reverse != self.faces;
        let (points, figures, back) = match machining {
            Machining::Groove { from, to, width, depth, reverse, .. } => {
                let mut ends = vec![self.point(*from, size), self.point(*to, size)];
                ends.sort_unstable();
                (ends, [whole(*width), whole(*depth)], back(reverse))
            }
            Machining::Hole { at, diameter, depth: Some(depth), reverse } => {
                (vec![self.point(*at, size)], [whole(*diameter), whole(*depth)], back(reverse))
            }
            Machining::Hole { at, diameter, depth: None, .. } => {
                (vec![self.point(*at, size)], [whole(*diameter), 0], false)
            }
            Machining::Cutout { outline, .. } => (self.corners(outline, size), [0, 0], false),
        };
        Mark { points, figures, back }
    }
}

/// A machining as far as mirror images are concerned.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Mark {
    points: Vec<(i64, i64)>,
    figures: [i64; 2],
    back: bool,
}

fn whole(mm: f64) -> i64 {
    // Lengths are bounded, so micrometres are far within the range.
    #[allow(clippy::cast_possible_truncation)]
    let whole = (mm * 1e3).round() as i64;
    whole
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::joinery::fixture::part;

    fn side() -> Part {
        let mut side = part("side", 1, 800.0, 400.0);
        let (from, to) = ((0.0, 380.0), (800.0, 380.0));
        let groove = Machining::Groove { from, to, width: 6.0, depth: 7.0, reverse: false, holds: None };
        side.machining = vec![groove];
        side
    }

    /// A groove from end to end is the same turned end for end; a band, a second groove or a stopped one may end that.
    #[test]
    fn a_carcass_side_has_a_hand_as_soon_as_its_ends_differ() {
        let mut side = side();
        assert!(is_own_mirror(&side));
        side.bands.front = 1.0;
        assert!(is_own_mirror(&side), "both ends are still alike");
        side.bands.left = 1.0;
        assert!(!is_own_mirror(&side));
        side.bands.right = 1.0;
        assert!(is_own_mirror(&side));
        side.machining.push(Machining::Hole { at: (64.0, 37.0), diameter: 5.0, depth: Some(11.0), reverse: false });
        assert!(!is_own_mirror(&side));
        side.machining.remove(0);
        side.machining[0] = Machining::Hole { at: (64.0, 37.0), diameter: 5.0, depth: None, reverse: false };
        assert!(is_own_mirror(&side), "what goes through is seen from both faces");
    }

    /// Dowels in the middle of both ends, as far from the front: turned over about its length it is its own mirror image.
    /// Out of the middle of the thickness it has a face; as far from the front and from the back it has no hand all the same.
    #[test]
    fn bores_in_edges_may_give_a_hand() {
        let side = part("side", 1, 400.0, 100.0);
        let middle = side.thickness / 2.0;
        let ends =
            |y: f64, z: f64| [true, false].map(|near| EdgeBore { long: false, near, at: (y, z), size: (6.0, 22.0) });
        assert!(is_own_mirror_with(&side, &ends(20.0, middle)));
        assert!(is_own_mirror_with(&side, &ends(20.0, middle - 1.0)), "end for end it is its own mirror image");
        let one = |y: f64, z: f64| ends(y, z)[..1].to_vec();
        assert!(is_own_mirror_with(&side, &one(20.0, middle)), "turned over");
        assert!(!is_own_mirror_with(&side, &one(20.0, middle - 1.0)), "it has a face and a front");
        assert!(is_own_mirror_with(&side, &one(50.0, middle - 1.0)), "it has a face and no front");
        let both = [one(20.0, middle - 1.0), one(80.0, middle - 1.0)].concat();
        assert!(is_own_mirror_with(&side, &both));
        let long = EdgeBore { long: true, near: true, at: (50.0, middle - 1.0), size: (6.0, 22.0) };
        assert!(!is_own_mirror_with(&side, &[long]));
        assert!(is_own_mirror_with(&side, &[EdgeBore { at: (200.0, middle - 1.0), ..long }]), "in its middle");
    }

    /// Holes in opposite corners, one in each face: the mirror image through the middle of the board puts each where the other
    /// is, and no other does. Both in one face, only a turn does, which makes no mirror image.
    #[test]
    fn a_board_may_be_its_mirror_image_through_its_middle() {
        let hole = |at, reverse| Machining::Hole { at, diameter: 5.0, depth: Some(11.0), reverse };
        let mut board = part("board", 1, 800.0, 400.0);
        board.machining = vec![hole((64.0, 37.0), false), hole((736.0, 363.0), true)];
        assert!(is_own_mirror(&board));
        board.machining[1] = hole((736.0, 363.0), false);
        assert!(!is_own_mirror(&board));
        board.machining[1] = hole((735.0, 363.0), true);
        assert!(!is_own_mirror(&board));
    }

    #[test]
    fn a_good_face_gives_a_hand_to_an_uneven_outline() {
        let mut wall = part("wall", 1, 2000.0, 800.0);
        let corners = [(0.0, 0.0), (2000.0, 0.0), (1900.0, 800.0), (0.0, 800.0)].map(kurbo::Point::from).to_vec();
        wall.outline = Some(Polygon::new(corners));
        assert!(is_own_mirror(&wall), "turned over it is the other one");
        wall.faced = true;
        assert!(!is_own_mirror(&wall));
    }

    #[test]
    fn the_same_on_both_faces_is_its_own_mirror() {
        let mut divider = part("divider", 1, 800.0, 400.0);
        let hole = |reverse| Machining::Hole { at: (64.0, 37.0), diameter: 5.0, depth: Some(7.0), reverse };
        divider.machining = vec![hole(false)];
        assert!(!is_own_mirror(&divider));
        divider.machining.push(hole(true));
        assert!(is_own_mirror(&divider));
    }
}

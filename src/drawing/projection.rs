//! Where the views of one thing stand about each other, and the symbol that says so (ISO 5456-2:1996, as quoted).

use super::item::Item;
use super::line::LineClass;
use crate::model::Projection;
use kurbo::{BezPath, Circle, Point, Shape, Vec2};

/// The side from which a thing is seen, as a person sees it who stands before its main view.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SeenFrom {
    /// The main view.
    Front,
    /// From above.
    Above,
    /// From below.
    Below,
    /// From the left.
    Left,
    /// From the right.
    Right,
    /// From behind.
    Behind,
}

impl Projection {
    /// Columns to the right of the main view and rows above it at which a view stands. A view from behind stands at the
    /// far right in both.
    #[must_use]
    pub fn place(self, seen: SeenFrom) -> (i32, i32) {
        let first = match seen {
            SeenFrom::Front => (0, 0),
            SeenFrom::Above => (0, -1),
            SeenFrom::Below => (0, 1),
            SeenFrom::Left => (1, 0),
            SeenFrom::Right => (-1, 0),
            SeenFrom::Behind => return (2, 0),
        };
        if self == Self::First { first } else { (-first.0, -first.1) }
    }

    /// In words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::First => "First-angle projection",
            Self::Third => "Third-angle projection",
        }
    }
}

/// A truncated cone from the side, and from its narrow end, which is on the left; about 15 by 7 mm, centred on a point.
pub(super) fn symbol(projection: Projection, centre: Vec2) -> Vec<Item> {
    let (cone, rings) = if projection == Projection::First { (-4.2, 4.0) } else { (4.2, -4.0) };
    let at = |x: f64, y: f64| Point::new(x, y) + centre;
    let mut shape = BezPath::new();
    shape.move_to(at(cone - 2.8, -1.4));
    shape.line_to(at(cone + 2.8, -2.8));
    shape.line_to(at(cone + 2.8, 2.8));
    shape.line_to(at(cone - 2.8, 1.4));
    shape.close_path();
    let circle = |radius: f64| Item::line(Circle::new(at(rings, 0.0), radius).to_path(0.001), LineClass::Visible);
    let axis = |x: f64, half: f64| Item::segment(at(x - half, 0.0), at(x + half, 0.0), LineClass::Centre);
    vec![
        Item::line(shape, LineClass::Visible),
        circle(1.4),
        circle(2.8),
        axis(cone, 3.8),
        axis(rings, 3.6),
        Item::segment(at(rings, -3.6), at(rings, 3.6), LineClass::Centre),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    // ISO 5456-2:1996, 5.2 and 5.3, as quoted: first angle puts the view from the left on the right and the view from
    // above below; third angle the other way round.
    #[test]
    fn views_stand_as_the_standard_says() {
        let of = |projection: Projection| {
            [SeenFrom::Above, SeenFrom::Below, SeenFrom::Left, SeenFrom::Right].map(|seen| projection.place(seen))
        };
        assert_eq!(of(Projection::First), [(0, -1), (0, 1), (1, 0), (-1, 0)]);
        assert_eq!(of(Projection::Third), [(0, 1), (0, -1), (-1, 0), (1, 0)]);
        assert_eq!(Projection::First.place(SeenFrom::Behind), Projection::Third.place(SeenFrom::Behind));
    }

    // The symbol is itself two views of a cone whose narrow end is on the left, seen from the left.
    #[test]
    fn the_symbol_keeps_its_own_rule() {
        for projection in [Projection::First, Projection::Third] {
            let items = symbol(projection, Vec2::ZERO);
            let middle = |index: usize| match &items[index] {
                Item::Path(path) => path.shape.bounding_box().center().x,
                _ => panic!("a path"),
            };
            let columns = f64::from(projection.place(SeenFrom::Left).0);
            assert!((middle(1) - middle(0)) * columns > 0.0, "{projection:?}");
        }
    }
}

//! The shortest way between two rectangles, stretched round others like a string.

use crate::base::tolerance::SAME_RADIUS as SKIN;
use kurbo::{Point, Rect};

/// Length of the shortest way from one rectangle to another round some walls, mm; 0 where they meet, infinite where the walls
/// let nothing through. Between walls that touch there is no way.
#[must_use]
pub fn stretched(from: Rect, to: Rect, walls: &[Rect]) -> f64 {
    let turns = |at: usize, corner: Point| {
        let mut others = walls.iter().enumerate().filter(|(other, _)| *other != at);
        !others.any(|(_, wall)| touches(*wall, corner))
    };
    let of = |(at, wall): (usize, &Rect)| corners(*wall).into_iter().filter(move |corner| turns(at, *corner));
    let corners: Vec<Point> = walls.iter().enumerate().flat_map(of).collect();
    let free = |a: Point, b: Point| !walls.iter().any(|wall| goes_through(a, b, *wall));
    let near = |rect: Rect, p: Point| Point::new(p.x.clamp(rect.x0, rect.x1), p.y.clamp(rect.y0, rect.y1));
    let starts = corners_of(from).into_iter().chain([to.center()]).chain(corners_of(to)).chain(corners.iter().copied());
    let straight = starts.map(|p| near(from, p)).map(|p| (p, near(to, p))).filter(|(p, q)| free(*p, *q));
    let mut best = straight.map(|(p, q)| p.distance(q)).fold(f64::INFINITY, f64::min);
    let reach = |rect: Rect, corner: Point| {
        let p = near(rect, corner);
        if free(p, corner) { p.distance(corner) } else { f64::INFINITY }
    };
    let mut far: Vec<f64> = corners.iter().map(|corner| reach(from, *corner)).collect();
    let mut open: Vec<usize> = (0..corners.len()).collect();
    while let Some(at) = (0..open.len()).min_by(|a, b| far_of(&far, &open, *a).total_cmp(&far_of(&far, &open, *b))) {
        let index = open.swap_remove(at);
        let (Some(length), Some(corner)) = (far.get(index).copied(), corners.get(index).copied()) else { break };
        if length >= best {
            break;
        }
        best = best.min(length + reach(to, corner));
        for next in &open {
            if let (Some(other), Some(known)) = (corners.get(*next), far.get_mut(*next))
                && free(corner, *other)
            {
                *known = known.min(length + corner.distance(*other));
            }
        }
    }
    best
}

fn far_of(far: &[f64], open: &[usize], at: usize) -> f64 {
    open.get(at).and_then(|index| far.get(*index)).copied().unwrap_or(f64::INFINITY)
}

fn corners(rect: Rect) -> [Point; 4] {
    [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)].map(Point::from)
}

fn corners_of(rect: Rect) -> Vec<Point> {
    corners(rect).to_vec()
}

/// Whether a point lies in a rectangle or on its border.
fn touches(rect: Rect, p: Point) -> bool {
    p.x >= rect.x0 - SKIN && p.x <= rect.x1 + SKIN && p.y >= rect.y0 - SKIN && p.y <= rect.y1 + SKIN
}

/// Whether a straight line goes through the inside of a rectangle.
fn goes_through(a: Point, b: Point, rect: Rect) -> bool {
    let rect = rect.inset(-SKIN);
    let range = |from: f64, to: f64, low: f64, high: f64| {
        let along = to - from;
        if along == 0.0 {
            return if from > low && from < high { (0.0, 1.0) } else { (1.0, 0.0) };
        }
        let (p, q) = ((low - from) / along, (high - from) / along);
        (p.min(q), p.max(q))
    };
    let (x, y) = (range(a.x, b.x, rect.x0, rect.x1), range(a.y, b.y, rect.y0, rect.y1));
    x.0.max(y.0).max(0.0) < x.1.min(y.1).min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TRAY: Rect = Rect::new(0.0, 0.0, 800.0, 800.0);

    #[test]
    fn without_walls_it_is_the_gap() {
        assert_eq!(stretched(Rect::new(1100.0, 400.0, 1150.0, 450.0), TRAY, &[]), 300.0);
        assert_eq!(stretched(Rect::new(1100.0, 1200.0, 1150.0, 1250.0), TRAY, &[]), 500.0, "3, 4, 5");
        assert_eq!(stretched(Rect::new(700.0, 400.0, 750.0, 450.0), TRAY, &[]), 0.0);
    }

    /// Past the end of a wall at (820, 900): from (1120, 500) to there 3, 4, 5; from there to the tray's corner at (800, 800).
    #[test]
    fn a_wall_is_gone_round() {
        let wall = Rect::new(800.0, -50.0, 820.0, 900.0);
        let thing = Rect::new(1120.0, 480.0, 1160.0, 500.0);
        let wanted = 500.0 + 20.0 + 100.0;
        assert!((stretched(thing, TRAY, &[wall]) - wanted).abs() < SKIN, "{}", stretched(thing, TRAY, &[wall]));
        let short = Rect::new(800.0, 0.0, 820.0, 470.0);
        assert_eq!(stretched(thing, TRAY, &[short]), 320.0, "straight past the wall");
    }

    #[test]
    fn shut_in_there_is_no_way() {
        let ring = [
            Rect::new(-20.0, -20.0, 820.0, 0.0),
            Rect::new(-20.0, 800.0, 820.0, 820.0),
            Rect::new(-20.0, -20.0, 0.0, 820.0),
            Rect::new(800.0, -20.0, 820.0, 820.0),
        ];
        assert_eq!(stretched(Rect::new(900.0, 400.0, 950.0, 450.0), TRAY, &ring), f64::INFINITY);
        let inside = Rect::new(100.0, 100.0, 200.0, 200.0);
        assert_eq!(stretched(Rect::new(400.0, 400.0, 450.0, 450.0), inside, &ring), 200.0f64.hypot(200.0));
    }
}

//! Numbers beside a picture on leaders that do not cross: lying pieces to the right of it, upright ones above it.

use crate::drawing::LayerKind;
use crate::views::canvas::Canvas;
use crate::views::ink::{RING, on_leader};
use kurbo::{Point, Rect};

/// From the picture to the rings, mm.
const OFF: f64 = 6.0;
/// From ring to ring, mm.
const PITCH: f64 = 2.0 * RING + 0.8;

/// Draws the numbers of pieces, each given with what is seen of it.
pub(super) fn leaders(wanted: Vec<(usize, Rect)>, bounds: Rect, canvas: &mut Canvas) {
    let (lying, upright): (Vec<_>, Vec<_>) = wanted.into_iter().partition(|(_, at)| at.width() >= at.height());
    let middle = |(_, at): &(usize, Rect), level: bool| if level { at.center().x } else { at.center().y };
    for (mut group, level) in [(lying, false), (upright, true)] {
        group.sort_by(|a, b| middle(a, level).total_cmp(&middle(b, level)).then(a.0.cmp(&b.0)));
        let wishes: Vec<f64> = group.iter().map(|one| middle(one, level)).collect();
        for ((number, at), along) in group.iter().zip(apart(&wishes)) {
            let (ring, target) = if level {
                (Point::new(along, bounds.y1 + OFF + RING), Point::new(at.center().x, at.y1 - inset(at.height())))
            } else {
                (Point::new(bounds.x1 + OFF + RING, along), Point::new(at.x1 - inset(at.width()), at.center().y))
            };
            let items = on_leader(ring, target, *number);
            canvas.group(LayerKind::Labels, &format!("number-{number}"), &format!("Part {number}"), items);
        }
    }
}

/// How far inside a piece a leader ends, mm.
fn inset(length: f64) -> f64 {
    (length / 3.0).min(3.0)
}

/// Places in the same order, no two nearer than a ring's pitch, each group about the middle of its wishes.
fn apart(wishes: &[f64]) -> Vec<f64> {
    let mut groups: Vec<(f64, Vec<f64>)> = Vec::new();
    let start = |wishes: &[f64]| {
        let middle = wishes.iter().sum::<f64>() / wishes.len().max(1) as f64;
        middle - PITCH * (wishes.len().saturating_sub(1)) as f64 / 2.0
    };
    for wish in wishes {
        let mut own = vec![*wish];
        while let Some((from, before)) = groups.last() {
            if from + PITCH * before.len() as f64 <= start(&own) {
                break;
            }
            own = before.iter().copied().chain(own).collect();
            groups.pop();
        }
        groups.push((start(&own), own));
    }
    let places = groups.into_iter().flat_map(|(from, own)| (0..own.len()).map(move |at| from + PITCH * at as f64));
    places.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_keep_their_order_and_distance() {
        assert_eq!(apart(&[10.0, 30.0]), [10.0, 30.0]);
        assert_eq!(apart(&[10.0, 10.0]), [10.0 - PITCH / 2.0, 10.0 + PITCH / 2.0]);
        let many = apart(&[0.0, 1.0, 2.0, 3.0, 50.0, 51.0]);
        assert!(many.windows(2).all(|pair| pair[1] - pair[0] >= PITCH - 1e-9), "{many:?}");
        assert!((many[..4].iter().sum::<f64>() / 4.0 - 1.5).abs() < 1e-9);
    }

    // Leaders from one side, in the order of their targets, to targets at the same distance do not cross.
    #[test]
    fn leaders_of_a_ladder_do_not_cross() {
        let pieces: Vec<(usize, Rect)> = (0..8)
            .map(|at| (at + 1, Rect::new(0.0, f64::from(at as u32) * 2.0, 60.0, f64::from(at as u32) * 2.0 + 1.0)))
            .collect();
        let wishes: Vec<f64> = pieces.iter().map(|(_, at)| at.center().y).collect();
        let rings = apart(&wishes);
        assert!(rings.windows(2).zip(wishes.windows(2)).all(|(r, w)| r[0] < r[1] && w[0] < w[1]));
    }
}

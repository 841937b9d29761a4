//! What stands in a part of the diagram: its number and size, as large and upright as there is room, and its grain.

use crate::drawing::{Item, LineClass, Text, text_box, text_width};
use crate::views::kit::ink::{centred, double_arrow};
use kurbo::{Point, Rect, Vec2};

/// Air between letters and the edges of a part, mm.
const AIR: f64 = 0.7;
/// From one line to the next, in heights of letters.
const PITCH: f64 = 1.7;
/// Length of an arrow along the grain, and how much room it takes across, mm.
const ARROW: (f64, f64) = (7.0, 1.6);

/// Texts that name a part.
pub(super) struct Lettered {
    pub texts: Vec<Text>,
    /// Number and size are both there.
    pub complete: bool,
}

/// The number and the size of a part in its rectangle on paper; nothing if not even the number has room.
pub(super) fn lettered(place: Rect, number: &str, size: &str) -> Lettered {
    let both = format!("{number}  {size}");
    let ways: [(&[(&str, f64)], bool); 4] = [
        (&[(number, 2.5), (size, 1.8)], true),
        (&[(number, 1.8), (size, 1.8)], true),
        (&[(&both, 1.8)], true),
        (&[(number, 1.8)], false),
    ];
    for (lines, complete) in ways {
        for turned in [false, true] {
            if fits(place, lines, turned) {
                return Lettered { texts: texts(place.center(), lines, turned), complete };
            }
        }
    }
    Lettered { texts: Vec::new(), complete: false }
}

/// A short key in a part that has no room for its number.
pub(super) fn keyed(place: Rect, key: &str) -> Option<Text> {
    let lines = [(key, 1.8)];
    [false, true]
        .into_iter()
        .find(|turned| fits(place, &lines, *turned))
        .and_then(|turned| texts(place.center(), &lines, turned).pop())
}

fn height(lines: &[(&str, f64)]) -> f64 {
    let last = lines.last().map_or(0.0, |(_, height)| *height);
    lines.iter().skip(1).map(|(_, height)| height * PITCH).sum::<f64>()
        + lines.first().map_or(0.0, |(_, height)| *height)
        + 0.3 * last
}

fn fits(place: Rect, lines: &[(&str, f64)], turned: bool) -> bool {
    let wide = lines.iter().map(|(words, height)| text_width(words, *height)).fold(0.0, f64::max);
    let (along, across) = if turned { (place.height(), place.width()) } else { (place.width(), place.height()) };
    wide + 2.0 * AIR <= along && height(lines) + 2.0 * AIR <= across
}

/// Lines about a middle, the first on top, or on the left where they are turned.
fn texts(middle: Point, lines: &[(&str, f64)], turned: bool) -> Vec<Text> {
    let mut top = height(lines) / 2.0;
    let mut texts = Vec::new();
    for (index, (words, height)) in lines.iter().enumerate() {
        top -= if index == 0 { *height } else { height * PITCH };
        let off = top + height / 2.0;
        let at = middle + if turned { Vec2::new(-off, 0.0) } else { Vec2::new(0.0, off) };
        texts.push(centred(at, words, *height, turned));
    }
    texts
}

/// An arrow along the grain, clear of the texts; and its place.
pub(super) fn grain(place: Rect, texts: &[Text], upright: bool) -> Option<(Rect, Vec<Item>)> {
    let size = if upright { (ARROW.1, ARROW.0) } else { ARROW };
    let inner = place.inflate(-AIR, -AIR);
    let letters = texts
        .iter()
        .map(text_box)
        .reduce(|a, b| a.union(b))
        .unwrap_or(Rect::from_center_size(place.center(), (0.0, 0.0)));
    let (x, y) = (size.0 / 2.0 + AIR, size.1 / 2.0 + AIR);
    let middle = letters.center();
    let beside = [
        Point::new(middle.x, letters.y0 - y),
        Point::new(middle.x, letters.y1 + y),
        Point::new(letters.x1 + x, middle.y),
        Point::new(letters.x0 - x, middle.y),
    ];
    let arrow =
        beside.into_iter().map(|at| Rect::from_center_size(at, size)).find(|arrow| inner.union(*arrow) == inner)?;
    let (a, b) = if upright {
        (Point::new(arrow.center().x, arrow.y0), Point::new(arrow.center().x, arrow.y1))
    } else {
        (Point::new(arrow.x0, arrow.center().y), Point::new(arrow.x1, arrow.center().y))
    };
    Some((arrow, double_arrow(a, b, LineClass::Dimension)))
}

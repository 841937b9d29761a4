//! A scale bar: real lengths that stay right when a sheet is printed at another size.

use super::item::{Align, Group, Item};
use super::line::{Fill, LineClass};
use crate::base::number::trimmed;
use kurbo::{Point, Rect, Shape};

/// Greatest length of one part on paper, mm.
const PART: f64 = 25.0;
/// Parts of a bar.
const PARTS: u8 = 4;
/// Height of the bar, mm.
const BAR: f64 = 2.0;
/// Height of the figures, mm.
const FIGURE: f64 = 2.5;
/// Height of the whole, from the bar's lower edge to the top of the figures, mm.
pub const HEIGHT: f64 = BAR + 1.2 + FIGURE;

/// A bar for a scale (20 for 1:20) whose lower left corner is at a point, and its bounds.
#[must_use]
pub fn scale_bar(at: Point, scale: f64) -> (Item, Rect) {
    let real = part_length(scale);
    let part = real / scale;
    let mut items = Vec::new();
    for i in 0..PARTS {
        let x = at.x + part * f64::from(i);
        let fill = if i % 2 == 0 { Fill::Ink } else { Fill::Paper };
        let shape = Rect::new(x, at.y, x + part, at.y + BAR).to_path(0.1);
        items.push(Item::area(shape, Some(LineClass::Detail), fill));
    }
    let metres = real * f64::from(PARTS) >= 1000.0;
    for i in 0..=PARTS {
        let value = real * f64::from(i);
        let figure = if metres { trimmed(value / 1000.0, 2) } else { trimmed(value, 1) };
        let place = Point::new(at.x + part * f64::from(i), at.y + BAR + 1.2);
        if i == PARTS {
            items.push(unit_figure(place, &figure, if metres { "m" } else { "mm" }));
        } else {
            items.push(Item::text(place, figure, FIGURE, Align::Middle));
        }
    }
    let bounds = Rect::new(at.x - 3.0, at.y, at.x + part * f64::from(PARTS) + 8.0, at.y + HEIGHT);
    (Item::Group(Group { id: "scale-bar".into(), title: "Scale bar".into(), items, link: None }), bounds)
}

/// The last figure with its unit behind it: the figure stays centred over its mark.
fn unit_figure(place: Point, figure: &str, unit: &str) -> Item {
    let start = place.x - super::font::text_width(figure, FIGURE) / 2.0;
    Item::text(Point::new(start, place.y), format!("{figure} {unit}"), FIGURE, Align::Start)
}

/// Real length of one part: 1, 2 or 5 times a power of ten, the greatest that stays short enough on paper.
fn part_length(scale: f64) -> f64 {
    let steps = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0, 10_000.0, 20_000.0];
    steps.into_iter().rev().find(|real| real / scale <= PART).unwrap_or(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_are_round_and_true() {
        for (scale, real) in [(1.0, 20.0), (10.0, 200.0), (20.0, 500.0), (50.0, 1000.0), (100.0, 2000.0)] {
            assert_eq!(part_length(scale), real);
        }
    }

    #[test]
    fn figures_name_the_real_length() {
        let (Item::Group(bar), bounds) = scale_bar(Point::new(30.0, 20.0), 20.0) else { panic!("a group") };
        let figures: Vec<&str> = bar
            .items
            .iter()
            .filter_map(|i| if let Item::Text(t) = i { Some(t.words.as_str()) } else { None })
            .collect();
        assert_eq!(figures, ["0", "0.5", "1", "1.5", "2 m"]);
        assert!(bounds.width() > 100.0);
        // Four parts of 500 mm at 1:20 are 25 mm each on paper, 100 mm in all, from the bar's corner.
        let drawn =
            bar.items.iter().filter_map(|i| if let Item::Path(p) = i { Some(p.shape.bounding_box()) } else { None });
        let drawn: Vec<(f64, f64)> = drawn.map(|part| (part.x0, part.x1)).collect();
        assert_eq!(drawn, [(30.0, 55.0), (55.0, 80.0), (80.0, 105.0), (105.0, 130.0)]);
    }
}

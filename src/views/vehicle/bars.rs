//! Load cases as bars: each axle's load as part of its limit.

use super::report::Report;
use crate::base::number::trimmed;
use crate::drawing::lettering::fit;
use crate::drawing::{Align, Fill, Item, LayerKind, LineClass};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::placement::outline;
use kurbo::{Point, Rect, Vec2};

/// Length of a bar at its limit, where there is room, mm.
const LONGEST: f64 = 90.0;
/// Longest bar, as a part of its limit.
const MOST: f64 = 1.3;
/// Height of a bar and from case to case, mm.
const BAR: f64 = 3.2;
const PITCH: f64 = 10.5;
const LETTERS: f64 = 2.5;
/// Room for the names of the cases, and for the figures behind the bars, mm.
const NAMES: f64 = 46.0;
const FIGURES: f64 = 48.0;

/// Draws the bars under an upper left corner in a width; how low they reach.
pub(super) fn draw(report: &Report<'_>, corner: Point, width: f64, canvas: &mut Canvas) -> f64 {
    let longest = ((width - NAMES - FIGURES) / MOST).min(LONGEST);
    let front = report.vehicle.kind.front_words();
    let title = format!("Load of the {front} (upper bar) and of the rear axle (lower bar), as part of the limit");
    let (words, height) = fit(&title, 3.5, width);
    canvas.group(LayerKind::Labels, "title", &title, vec![Item::text(corner, words, height, Align::Start)]);
    let origin = corner - Vec2::new(0.0, 12.0);
    let height = PITCH * report.weighed.len() as f64;
    let limit = origin.x + NAMES + longest;
    for (index, weighed) in report.weighed.iter().enumerate() {
        let top = origin.y - PITCH * index as f64;
        let name = Item::text(
            Point::new(origin.x, top - BAR - LETTERS / 2.0 - 0.5),
            weighed.case.clone(),
            LETTERS,
            Align::Start,
        );
        let mut items = vec![name];
        let bars = [(weighed.front, report.vehicle.front.limit), (weighed.rear, report.vehicle.rear.limit)];
        for (row, (load, most)) in bars.into_iter().enumerate() {
            let upper = top - (BAR + 1.0) * row as f64;
            let length = longest * (load / most).clamp(0.0, MOST);
            let rect = Rect::new(origin.x + NAMES, upper - BAR, origin.x + NAMES + length, upper);
            let fill = if load > most { Fill::Mark } else { Fill::Furniture };
            items.push(Item::area(outline(rect), Some(LineClass::Detail), fill));
            let words =
                format!("{} of {} kg, {} %", trimmed(load, 0), trimmed(most, 0), trimmed(load / most * 100.0, 0));
            let at = Point::new(limit + longest * (MOST - 1.0) + 2.0, upper - BAR + 0.4);
            items.push(Item::text(at, words, LETTERS, Align::Start));
        }
        canvas.group(LayerKind::Furniture, &format!("case-{}", weighed.case), &weighed.case, items);
    }
    let ends = [origin.y + 2.0, origin.y - height].map(|y| Point::new(limit, y));
    let line = Item::segment(ends[0], ends[1], LineClass::Mark);
    let word = Item::text(Point::new(limit, origin.y + 3.0), "limit", LETTERS, Align::Middle);
    canvas.group(LayerKind::Findings, "limit", "Limit of the axles", vec![line, word]);
    origin.y - height
}

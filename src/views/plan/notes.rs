//! What stands over the title block of a plan: scale bar, direction of the front, notes and the caution.

use crate::base::number::trimmed;
use crate::drawing::{Align, Fill, Item, LayerKind, LineClass, Paper, lettering::wrap, scale_bar, title_block_place};
use crate::model::{Figures, Model};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::{STAMP, foot};
use crate::views::kit::ink::head;
use crate::views::kit::scene::CUT;
use crate::views::kit::table_layout::GAP;
use kurbo::{Point, Rect};

/// From the frame to what stands in it (centring marks reach 5 mm in), mm.
pub(in crate::views) const INSET: f64 = 7.0;
/// Height of notes, mm.
const LETTERS: f64 = 1.8;
/// From line to line, mm.
const PITCH: f64 = 3.1;
/// Height of the row with the scale bar, mm.
const BAR: f64 = 9.0;
/// Height of the row with the arrow, mm.
const ARROW: f64 = 6.5;

/// What the figures of dimensions are.
pub(in crate::views) fn units(model: &Model) -> &'static str {
    match model.sheets.figures {
        Figures::Mm => "Dimensions in mm.",
        Figures::MmInch => "Dimensions in mm, in brackets inches to the nearest 1/16.",
    }
}

/// The lines of the notes in a width.
fn lines(width: f64, model: &Model, remarks: &[String]) -> Vec<String> {
    let plane = trimmed(CUT, 0);
    let mut notes = vec![
        format!(
            "{} Plan cut {plane} mm above the floor and seen from above: thick lines are cut, thin ones below, dashed ones \
             above or hidden. {}.",
            units(model),
            model.sheets.projection.words()
        ),
        "Design aid: local codes and licensed people decide on escape, gas, electrics and axle loads.".to_owned(),
    ];
    notes.extend(remarks.iter().cloned());
    notes.iter().flat_map(|note| wrap(note, LETTERS, width)).collect()
}

/// Notes beside the title block are no narrower than this, mm.
const LEAST: f64 = 125.0;

/// Part of their width that notes take, so that they stay on their place in the wider letters of a viewer that leaves the
/// font of an SVG file out.
const OTHER_LETTERS: f64 = 0.92;

/// The place of notes whose height follows from their width, beside the title block or over it; and what views and tables
/// have to stay above.
pub(in crate::views) fn place(paper: Paper, held: bool, height: impl Fn(f64) -> f64) -> (Rect, f64) {
    let (block, foot) = (title_block_place(paper), foot(paper, held));
    let all = paper.drawing_space().inset(-INSET);
    let stamp = if held { STAMP } else { 0.0 };
    let beside = Rect { x1: block.x0 - GAP - stamp, ..all };
    let over = beside.width() < LEAST;
    let (x0, x1) = if over { (block.x0.max(all.x0), all.x1) } else { (beside.x0, beside.x1) };
    let x1 = x0 + (x1 - x0) * OTHER_LETTERS;
    let height = height(x1 - x0);
    let top = if over { foot + 3.0 + height } else { foot.max(all.y0 + height) };
    (Rect::new(x0, top - height, x1, top), top)
}

/// Height of it all, mm.
pub(in crate::views) fn height(width: f64, model: &Model, remarks: &[String]) -> f64 {
    BAR + ARROW + PITCH * lines(width, model, remarks).len() as f64
}

/// Draws it in a place of that height.
pub(in crate::views) fn draw(place: Rect, scale: f64, (model, remarks): (&Model, &[String]), canvas: &mut Canvas) {
    let mut top = place.y1;
    let (bar, _) = scale_bar(Point::new(place.x0 + 1.5, top - 6.0), scale);
    canvas.put(LayerKind::Notes, bar);
    canvas.group(LayerKind::Notes, "front", "Direction of the front", front(Point::new(place.x0, top - BAR - 2.5)));
    top -= BAR + ARROW;
    let words = lines(place.width(), model, remarks).into_iter().enumerate().map(|(index, line)| {
        let at = Point::new(place.x0, top - LETTERS - PITCH * index as f64);
        Item::text(at, line, LETTERS, Align::Start)
    });
    let words = words.collect();
    canvas.group(LayerKind::Notes, "notes", "Notes", words);
}

/// An arrow to the left, where the front is.
fn front(tip: Point) -> Vec<Item> {
    let start = Point::new(tip.x + 14.0, tip.y);
    let end = |off: f64| Point::new(start.x, start.y + off);
    vec![
        Item::segment(tip, start, LineClass::Visible),
        head(tip, tip - start, Fill::Ink),
        Item::segment(end(-1.2), end(1.2), LineClass::Visible),
        Item::text(Point::new(start.x + 2.0, tip.y - 1.25), "front of the vehicle", 2.5, Align::Start),
    ]
}

//! One piece: its heading, its face, its reverse if that is worked, and what is listed under it.

use super::labels::{LETTERS, PITCH};
use super::legend;
use super::picture::Picture;
use crate::base::number::trimmed;
use crate::drawing::{Align, Item, LayerKind, lettering::wrap, scale};
use crate::figures::Work;
use crate::joinery::Row;
use crate::model::{Grain, Model};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::words::{plain, words_of};
use kurbo::{Point, Rect, Size};

/// Scales that pieces are drawn at, and how large a piece may become on paper at each, mm.
const SCALES: [(f64, Size); 7] = [
    (2.0, Size::new(60.0, 40.0)),
    (5.0, Size::new(130.0, 90.0)),
    (10.0, Size::new(230.0, 150.0)),
    (20.0, Size::new(400.0, 250.0)),
    (50.0, Size::new(400.0, 250.0)),
    (100.0, Size::new(1000.0, 1000.0)),
    (200.0, Size::new(10_000.0, 10_000.0)),
];
/// A narrow piece may be longer: as (length, width) at 1:5, mm.
const NARROW: Size = Size::new(190.0, 26.0);
/// The list under a piece is at least so wide, mm.
const LIST: f64 = 88.0;
/// Letters of the heading, mm.
const HEADING: f64 = 2.5;
/// From a piece up to its heading, and from one side of it to the next, mm.
const OVER: f64 = 5.0;
/// From figures that reach over a piece to its heading, mm.
const HEAD_OFF: f64 = 1.5;
const BETWEEN: f64 = 8.0;
/// Left of a piece for dimensions, at least, mm.
const BESIDE: f64 = 22.0;

/// A piece drawn somewhere.
#[derive(Default)]
pub(super) struct Block {
    pub id: String,
    pub title: String,
    pub number: String,
    pub scale: f64,
    pub bounds: Rect,
    pub canvas: Canvas,
}

/// Draws a piece so that it fits a sheet, as large as is usual.
pub(super) fn block(model: &Model, work: &Work, row: &Row, most: Size) -> Block {
    let mut best = None;
    for (scale, largest) in SCALES {
        let on_paper = Size::new(row.finished.0 / scale, row.finished.1 / scale);
        let holds = |size: Size| on_paper.width <= size.width && on_paper.height <= size.height;
        let usual = holds(largest) || (scale == 5.0 && holds(NARROW));
        if !usual || on_paper.width > most.width - BESIDE {
            continue;
        }
        let made = drawn(model, work, row, (scale, most));
        let fits = made.bounds.width() <= most.width && made.bounds.height() <= most.height;
        best = Some(made);
        if fits {
            break;
        }
    }
    best.unwrap_or_default()
}

fn drawn(model: &Model, work: &Work, row: &Row, (scale, most): (f64, Size)) -> Block {
    let mut canvas = Canvas::default();
    let face = Picture { work, row, reverse: false, scale, at: Point::ZERO };
    face.draw(model.sheets.figures, &mut canvas);
    let mut foot = canvas.bounds().map_or(0.0, |bounds| bounds.y0);
    let two = work.has_reverse(row);
    if two {
        let mut tried = Canvas::default();
        Picture { reverse: true, ..face }.draw(model.sheets.figures, &mut tried);
        let over = tried.bounds().map_or(0.0, |bounds| bounds.y1 - face.rect().y1);
        let top = foot - BETWEEN - over;
        let reverse = Picture { reverse: true, at: Point::new(0.0, top - face.rect().height()), ..face };
        side("Reverse, turned over", top, &mut canvas);
        reverse.draw(model.sheets.figures, &mut canvas);
        foot = canvas.bounds().map_or(foot, |bounds| bounds.y0);
    }
    let all = canvas.bounds().unwrap_or_default();
    let left = all.x0;
    let wide = (face.rect().x1 - left).max(LIST).min(most.width);
    let mut lines = texts(&legend::lines(work, row), LETTERS, (left, foot - PITCH), wide);
    lines.extend(heading(
        model,
        work,
        row,
        (scale, two),
        (left, all.y1.max(face.rect().y1 + OVER - HEAD_OFF) + HEAD_OFF),
        wide,
    ));
    canvas.group(LayerKind::Notes, "list", "Work on the piece", lines);
    let number = work.number(row);
    Block {
        id: plain(&number),
        title: format!("{number} {}", row.name),
        number: row.number.clone(),
        scale,
        bounds: canvas.bounds().unwrap_or_default().inflate(0.5, 0.5),
        canvas,
    }
}

/// Says which side is shown.
fn side(words: &str, top: f64, canvas: &mut Canvas) {
    let text = Item::text(Point::new(0.0, top + OVER - 1.0), words, LETTERS, Align::Start);
    canvas.group(LayerKind::Notes, "side", words, vec![text]);
}

/// Words in lines, the first with its top at a place.
fn texts(words: &[String], letters: f64, (x, top): (f64, f64), wide: f64) -> Vec<Item> {
    let lines = words.iter().flat_map(|words| wrap(words, letters, wide)).filter(|line| !line.is_empty());
    let pitch = letters + PITCH - LETTERS;
    let line = |(at, words): (usize, String)| {
        Item::text(Point::new(x, top - letters - pitch * at as f64), words, letters, Align::Start)
    };
    lines.enumerate().map(line).collect()
}

/// Number, name, count; size, stock, grain, modules and scale.
fn heading(
    model: &Model,
    work: &Work,
    row: &Row,
    (scale, two): (f64, bool),
    (x, foot): (f64, f64),
    wide: f64,
) -> Vec<Item> {
    let hand = work.hand.map_or(String::new(), |hand| format!(", {} hand", hand.name()));
    let first = format!("{}  {}{hand}  × {}", work.number(row), words_of(&row.name), work.count);
    let (length, width, thickness) = row.finished;
    let size = [length, width, thickness].map(|mm| trimmed(mm, 1)).join(" × ");
    let stock = model.stocks.get(row.stock).map_or("", |stock| stock.name.as_str());
    let grain = match row.grain {
        Grain::Length => ", grain along",
        Grain::Width => ", grain across",
        Grain::Free => "",
    };
    let modules = row.modules.iter().map(|(name, _)| name.as_str()).collect::<Vec<_>>().join(", ");
    let side = if two { "; face" } else { "" };
    let second = format!("{size}, {stock}{grain}, for {modules}, {}{side}", scale::name(Some(scale)));
    let count = |words: &str, letters: f64| wrap(words, letters, wide).len() as f64;
    let upper = count(&first, HEADING) * (HEADING + PITCH - LETTERS);
    let lower = count(&second, LETTERS) * PITCH;
    let mut items = texts(&[first], HEADING, (x, foot + lower + upper), wide);
    items.extend(texts(&[second], LETTERS, (x, foot + lower), wide));
    items
}

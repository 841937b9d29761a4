//! Labels for the pieces in the order of cutting: number, job, size, bands, sheet and cut, module, a small outline with its
//! banded edges and grain, and a code to scan.

use crate::base::number::trimmed;
use crate::diagnostic::Held;
use crate::drawing::lettering::{HEIGHTS, fit, wrap};
use crate::drawing::{Align, Fill, Item, LayerKind, LineClass, Look, Paper, Sheet, text_width};
use crate::figures::{Figures, Work};
use crate::joinery::{Row, SawnPiece, band_words, edge_words, sawn};
use crate::model::{Grain, Hand, LabelGrid, Model};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::head;
use crate::views::kit::placement::{circle, outline};
use kurbo::{BezPath, Point, Rect, Vec2};
use qrcode::{Color, EcLevel, QrCode};

const A4: Paper = Paper { name: "A4", width: 210.0, height: 297.0 };
/// From the edge of a label to what stands on it, mm.
const INSET: f64 = 3.0;
/// Side of the code with its quiet zone, as part of the label's height, and at most, mm.
const CODE: f64 = 0.62;
const MOST_CODE: f64 = 24.0;
/// What letters reach under their line, with some air, as part of their height.
const UNDER: f64 = 0.5;
/// Least letters, mm.
const LEAST: f64 = 1.8;
/// The job's part of the first line.
const JOB: f64 = 0.36;
/// Empty cells around a code that readers want; ISO/IEC 18004.
const QUIET: usize = 4;

/// Sheets of labels, one label for each piece of the cut list, in the order in which the saw sets them free; none for an
/// empty list.
#[must_use]
pub fn part_labels(figures: &Figures<'_>, held: Held) -> Vec<Sheet> {
    let (model, list) = (figures.model, figures.cut_list());
    let grid = &model.labels;
    let pieces = sawn(model, list);
    let sheets = pieces.chunks(grid.rows * grid.columns).enumerate();
    let sheet = |(index, pieces): (usize, &[SawnPiece<'_>])| {
        let mut canvas = Canvas::default();
        for (at, piece) in pieces.iter().enumerate() {
            label(figures, piece, place(grid, at), held, &mut canvas);
        }
        let title = format!("Labels, page {}", index + 1);
        Sheet {
            id: format!("labels-{}", index + 1),
            title: title.clone(),
            paper: A4,
            views: vec![canvas.view("labels", &title, Some(1.0))],
            look: Look::default(),
        }
    };
    sheets.map(sheet).collect()
}

/// Where a label lies on the sheet, row by row from the top.
fn place(grid: &LabelGrid, at: usize) -> Rect {
    let (row, column) = (at / grid.columns, at % grid.columns);
    let left = grid.margin.width + grid.pitch.width * column as f64;
    let top = A4.height - grid.margin.height - grid.pitch.height * row as f64;
    Rect::new(left, top - grid.size.height, left + grid.size.width, top)
}

fn label(figures: &Figures<'_>, piece: &SawnPiece<'_>, rect: Rect, held: Held, canvas: &mut Canvas) {
    let model = figures.model;
    let work = figures.work_of(piece.index, piece.copy);
    let inner = rect.inset(-INSET);
    let code = (rect.height() * CODE).min(MOST_CODE).min(inner.width() / 2.0);
    let width = inner.width() - code - 1.0;
    let mut items = Vec::new();
    let base = lettered(&lines(model, (piece, work), held, width), inner, &mut items);
    let job = job(model);
    if !job.is_empty() {
        let (job, letters) = fit(&job, LEAST, inner.width() * JOB);
        items.push(Item::text(Point::new(inner.x1, inner.y1 - letters), job, letters, Align::End));
    }
    items.extend(small(piece.row, hand_of(piece, work), Rect::new(inner.x0, inner.y0, inner.x0 + width, base - 1.5)));
    let words = piece.code(model);
    items.extend(code_items(&words, Rect::new(inner.x1 - code, inner.y0, inner.x1, inner.y0 + code)));
    let id = format!("label-{}-{}", piece.row.number, piece.copy);
    canvas.group(LayerKind::Labels, &id, &words, items);
}

/// Job and revision: `MR-104, rev. B`.
fn job(model: &Model) -> String {
    let (number, revision) = (&model.title.number, &model.title.revision);
    let revision = if revision.is_empty() { String::new() } else { format!("rev. {revision}") };
    [number.clone(), revision].into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(", ")
}

/// The lines of a label with their letters; the first has the job beside it, the others the code.
fn lines(model: &Model, (piece, work): (&SawnPiece<'_>, Option<&Work>), held: Held, width: f64) -> Vec<(String, f64)> {
    let row = piece.row;
    let stock = model.stocks.get(row.stock).map_or("", |stock| stock.name.as_str());
    let letter = work.and_then(|work| work.letter).map_or(String::new(), |letter| format!(", kind {letter}"));
    let hand = hand_of(piece, work).map_or(String::new(), |hand| format!(", {} hand", hand.name()));
    let held = if held.any() { format!("{}: ", held.word()) } else { String::new() };
    let size = [row.finished.0, row.finished.1, row.finished.2].map(|side| trimmed(side, 1)).join(" × ");
    let scribe = edge_words(&row.scribe).map_or(String::new(), |edges| format!(", scribe {edges}"));
    let of = if row.count > 1 { format!(", {} of {}", piece.copy, row.count) } else { String::new() };
    let bands = band_words(row);
    let sawn = piece.from.map_or_else(
        || "in no cutting plan".to_owned(),
        |from| {
            let cut = from.cut.map_or(String::new(), |cut| format!(", cut {cut}"));
            format!("{}, sheet {} of {}{cut}", from.total.names(model), from.sheet, from.total.plan.sheets.len())
        },
    );
    let (number, letters) = fit(&format!("{held}{}", piece.number()), 3.5, width);
    let mut lines = vec![(number, letters)];
    lines.extend(spread(&format!("{}{letter}{hand}", row.name), 2.5, width));
    lines.extend(spread(&format!("{size}, {stock}"), 2.5, width));
    lines.extend(spread(&format!("saw {} × {}{scribe}", trimmed(row.cut.0, 1), trimmed(row.cut.1, 1)), LEAST, width));
    if !bands.is_empty() {
        lines.extend(spread(&format!("bands {bands}"), LEAST, width));
    }
    lines.extend(spread(&sawn, LEAST, width));
    lines.extend(spread(&format!("for {}{of}", piece.module), LEAST, width));
    lines
}

/// Which of two mirror images a piece is; a row has the hand that its cut-outs give it, a kind that of its bores, too.
fn hand_of(piece: &SawnPiece<'_>, work: Option<&Work>) -> Option<Hand> {
    work.map_or(piece.row.hand, |work| work.hand)
}

/// Words in one line as large as they fit, or in several of the least letters.
fn spread(words: &str, most: f64, width: f64) -> Vec<(String, f64)> {
    let fits = |letters: &f64| *letters <= most && text_width(words, *letters) <= width;
    match HEIGHTS.into_iter().find(fits) {
        Some(letters) => vec![(words.to_owned(), letters)],
        None => wrap(words, LEAST, width).into_iter().map(|line| (line, LEAST)).collect(),
    }
}

/// Writes lines from the top, smaller where a label is too low for them; where the last stands.
fn lettered(lines: &[(String, f64)], inner: Rect, items: &mut Vec<Item>) -> f64 {
    let under = |at: usize| at.checked_sub(1).and_then(|at| lines.get(at)).map_or(0.0, |(_, over)| over * UNDER);
    let high: f64 = lines.iter().enumerate().map(|(at, (_, letters))| letters + under(at)).sum();
    let share = (inner.height() / high).min(1.0);
    let mut base = inner.y1;
    for (at, (words, letters)) in lines.iter().enumerate() {
        base -= (letters + under(at)) * share;
        items.push(Item::text(Point::new(inner.x0, base), words.clone(), letters * share, Align::Start));
    }
    base
}

/// The piece in small, face up, length to the right: banded edges thick, a dot at the datum corner, an arrow along the grain.
fn small(row: &Row, hand: Option<Hand>, room: Rect) -> Vec<Item> {
    if room.width() < 4.0 || room.height() < 3.0 {
        return Vec::new();
    }
    let (length, width, _) = row.finished;
    let scale = (room.width() / length).min(room.height() / width);
    let size = (length * scale, (width * scale).max(1.2));
    let rect = Rect::from_origin_size(Point::new(room.x0, room.y0), size);
    let mut items = vec![Item::line(outline(rect), LineClass::Detail)];
    let corners = [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)].map(Point::from);
    // The front edge is below, of a left-hand piece above.
    let [lower_left, lower_right, upper_right, upper_left] = match hand {
        Some(Hand::Left) => [corners[3], corners[2], corners[1], corners[0]],
        _ => corners,
    };
    items.push(Item::area(circle(lower_left, 0.7), None, Fill::Ink));
    let bands = &row.bands;
    let edges = [
        (bands.front, lower_left, lower_right),
        (bands.back, upper_left, upper_right),
        (bands.left, lower_left, upper_left),
        (bands.right, lower_right, upper_right),
    ];
    let banded = edges.into_iter().filter(|(thickness, ..)| *thickness > 0.0);
    items.extend(banded.map(|(_, from, to)| Item::segment(from, to, LineClass::Frame)));
    let along = match row.grain {
        Grain::Length => Some(Vec2::new(1.0, 0.0) * rect.width() * 0.3),
        Grain::Width => Some(Vec2::new(0.0, 1.0) * rect.height() * 0.3),
        Grain::Free => None,
    };
    if let Some(along) = along.filter(|along| along.hypot() > 1.2) {
        let middle = rect.center();
        items.push(Item::segment(middle - along, middle + along, LineClass::Detail));
        items.push(head(middle + along, along, Fill::Ink));
    }
    items
}

/// A code that a scanner reads (ISO/IEC 18004, level M); nothing for a text that none can hold.
fn code_items(text: &str, rect: Rect) -> Option<Item> {
    let code = QrCode::with_error_correction_level(text.as_bytes(), EcLevel::M).ok()?;
    let (side, cells) = (code.width(), code.to_colors());
    let cell = rect.width() / (side + 2 * QUIET) as f64;
    let at = |column: usize, row: usize| {
        Point::new(rect.x0 + cell * (column + QUIET) as f64, rect.y1 - cell * (row + QUIET) as f64)
    };
    let mut shape = BezPath::new();
    for (row, line) in cells.chunks(side).enumerate() {
        let mut column = 0;
        while column < side {
            let run = line.iter().skip(column).take_while(|color| **color == Color::Dark).count();
            if run > 0 {
                let (from, to) = (at(column, row), at(column + run, row + 1));
                shape.extend(outline(Rect::from_points(from, to)));
            }
            column += run.max(1);
        }
    }
    Some(Item::area(shape, None, Fill::Ink))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_lie_on_their_grid() {
        let grid = LabelGrid::default();
        assert_eq!(place(&grid, 0), Rect::new(0.0, 256.5, 70.0, 292.5));
        assert_eq!(place(&grid, 4), Rect::new(70.0, 220.5, 140.0, 256.5));
        assert_eq!(place(&grid, 23), Rect::new(140.0, 4.5, 210.0, 40.5));
    }

    /// ISO/IEC 18004: a short text is version 1, 21 cells wide; three corners are squares of 7 with a ring inside.
    #[test]
    fn the_code_has_its_quiet_zone_and_finder_squares() {
        let rect = Rect::new(0.0, 0.0, 29.0, 29.0);
        let Some(Item::Path(path)) = code_items("galley-03", rect) else { panic!("no code") };
        let dark = |x: f64, y: f64| kurbo::Shape::contains(&path.shape, Point::new(x, y));
        for (x, y) in [(4.5, 24.5), (24.5, 24.5), (4.5, 4.5)] {
            assert!(dark(x, y), "{x} {y}");
        }
        assert!(!dark(3.5, 24.5) && !dark(5.5, 23.5) && dark(6.5, 22.5));
        assert!(code_items(&"x".repeat(5000), rect).is_none());
    }
}

//! One stock sheet: parts with numbers, sizes and grain, waste hatched, offcuts worth keeping, numbers of the cuts.

use super::job::CuttingJob;
use super::{cuts, lettering};
use crate::base::number::trimmed;
use crate::drawing::dimension::{Chain, Side, Stop, lay};
use crate::drawing::{Align, Fill, Hatch, Item, LayerKind, LineClass, Text, hatch, lettering::fit, text_box};
use crate::joinery::nesting::{CutSheet, Panel, Placed};
use crate::model::{Figures, Grain};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::{Taken, centred};
use crate::views::kit::placement::{Placement, outline};
use kurbo::{Point, Rect};

/// Between the diagram and its caption, mm.
const CAPTION: f64 = 2.5;

/// A sheet to be drawn at its place.
pub(super) struct Drawn<'a> {
    pub job: &'a CuttingJob<'a>,
    pub sheet: &'a CutSheet,
    pub caption: String,
    pub place: Placement,
}

/// A part that is named in the notes.
struct Keyed {
    key: Option<String>,
    piece: usize,
    at: (f64, f64),
    size: String,
}

fn notes(job: &CuttingJob<'_>, keyed: &[Keyed], left_out: &[usize]) -> Vec<String> {
    let grain = match job.grain {
        Grain::Length => " Arrows: grain, along the sheet.",
        Grain::Width => " Arrows: grain, across the sheet.",
        Grain::Free => "",
    };
    let trim = if job.trim > 0.0 {
        format!(
            ", {} trimmed off each edge: far edge first, then the near one with the fresh edge at the fence",
            trimmed(job.trim, 1)
        )
    } else {
        String::new()
    };
    let mut notes = vec![format!(
        "Cut sizes in mm. Saw cut {}{trim}. Numbers on dark: cuts in order; a stage is all cuts one way, then the panels are turned. Hatched: waste. Dashed: offcuts worth \
         keeping.{grain}",
        trimmed(job.kerf, 1)
    )];
    if !keyed.is_empty() {
        let mut words: Vec<String> = Vec::new();
        for one in keyed.iter().map(|one| one.words(job)) {
            if !words.contains(&one) {
                words.push(one);
            }
        }
        notes.push(format!("Small parts: {}.", words.join("; ")));
    }
    if !left_out.is_empty() {
        let cuts = left_out.iter().map(usize::to_string).collect::<Vec<_>>().join(", ");
        let which = if left_out.len() == 1 { "number of cut" } else { "numbers of cuts" };
        notes.push(format!("No room for the {which} {cuts}: see the list."));
    }
    notes
}

impl Keyed {
    fn words(&self, job: &CuttingJob<'_>) -> String {
        let number = job.parts.get(self.piece).map_or("", |part| part.number.as_str());
        match &self.key {
            Some(key) if key == number => format!("{number} is {}", self.size),
            Some(key) => format!("{key} is {number}, {}", self.size),
            None => {
                let (x, y) = self.at;
                format!("{number}, {}, at {}, {}", self.size, trimmed(x, 1), trimmed(y, 1))
            }
        }
    }
}

fn keyed(piece: &Placed, key: Option<String>) -> Keyed {
    let size = format!("{} × {}", trimmed(piece.length, 1), trimmed(piece.width, 1));
    Keyed { key, piece: piece.piece, at: (piece.x, piece.y), size }
}

/// a, b, ... z, a1, b1, ...
fn key(index: usize) -> String {
    let letter = char::from(b'a' + (index % 26) as u8);
    if index < 26 { letter.to_string() } else { format!("{letter}{}", index / 26) }
}

impl Drawn<'_> {
    /// Draws the sheet; gives what the notes have to say.
    pub fn draw(&self, canvas: &mut Canvas) -> Vec<String> {
        let (length, width) = self.sheet.size;
        let whole = self.place.rect(Rect::new(0.0, 0.0, length, width));
        self.waste(whole, canvas);
        let mut taken = Taken::default();
        let keyed = self.parts(canvas, &mut taken);
        self.offcuts(canvas, &mut taken);
        let (numbers, left_out) = cuts::numbers(self.sheet, self.job.kerf, self.place, &mut taken);
        canvas.group(LayerKind::Labels, "cuts", "Numbers of the cuts", numbers);
        self.around(whole, canvas);
        notes(self.job, &keyed, &left_out)
    }

    fn rect(&self, panel: &Panel) -> Rect {
        self.place.rect(Rect::new(panel.x, panel.y, panel.x + panel.length, panel.y + panel.width))
    }

    /// The whole sheet, hatched but for parts and offcuts worth keeping.
    fn waste(&self, whole: Rect, canvas: &mut Canvas) {
        let pieces = self.sheet.pieces.iter().map(|piece| self.rect(&panel(piece)));
        let useful = self.sheet.offcuts.iter().filter(|offcut| offcut.useful).map(|offcut| self.rect(&offcut.panel));
        let mut shape = outline(whole);
        pieces.chain(useful).for_each(|rect| shape.extend(outline(rect)));
        let hatched = Item::line(hatch(&shape, Hatch::Wood), LineClass::Dimension);
        let edge = Item::line(outline(whole), LineClass::Cut);
        canvas.group(LayerKind::Furniture, "sheet", "The whole sheet", vec![hatched, edge]);
    }

    fn parts(&self, canvas: &mut Canvas, taken: &mut Taken) -> Vec<Keyed> {
        let mut keyed = Vec::new();
        let mut keys = Vec::new();
        for piece in &self.sheet.pieces {
            let Some(part) = self.job.parts.get(piece.piece) else { continue };
            let place = self.rect(&panel(piece));
            let (texts, note) = named(place, piece, &part.number, &mut keys);
            keyed.extend(note);
            let mut items = vec![Item::area(outline(place), Some(LineClass::Visible), Fill::Furniture)];
            texts.iter().for_each(|text| taken.add(text_box(text)));
            let arrow = part.grain.then(|| lettering::grain(place, &texts, self.job.grain == Grain::Width)).flatten();
            if let Some((arrow, drawn)) = arrow {
                taken.add(arrow);
                items.extend(drawn);
            }
            canvas.group(LayerKind::Furniture, &format!("part-{}", part.number), &part.number, items);
            let texts = texts.into_iter().map(Item::Text).collect();
            canvas.group(LayerKind::Labels, &format!("number-{}", part.number), &part.number, texts);
        }
        keyed
    }

    fn offcuts(&self, canvas: &mut Canvas, taken: &mut Taken) {
        for offcut in self.sheet.offcuts.iter().filter(|offcut| offcut.useful) {
            let place = self.rect(&offcut.panel);
            let edge = Item::area(outline(place), Some(LineClass::Above), Fill::Paper);
            canvas.group(LayerKind::Furniture, "offcut", "Offcut worth keeping", vec![edge]);
            let upright = place.height() > place.width();
            let room = place.height().max(place.width()) - 2.0;
            let (words, height) = fit(&format!("offcut {}", cuts::size(&offcut.panel)), 2.5, room);
            let text: Text = centred(place.center(), &words, height, upright);
            taken.add(text_box(&text));
            canvas.group(LayerKind::Labels, "offcut-size", "Size of an offcut", vec![Item::Text(text)]);
        }
    }

    /// The caption over the sheet, and its size.
    fn around(&self, whole: Rect, canvas: &mut Canvas) {
        let chain = |low: f64, high: f64, size: f64| Chain {
            caption: String::new(),
            stops: vec![Stop { at: low, value: 0.0 }, Stop { at: high, value: size }],
        };
        let (length, width) = self.sheet.size;
        let mut laid = lay(Figures::Mm, Side::Below, (whole.y0, whole.y0), &[chain(whole.x0, whole.x1, length)]);
        let upright = lay(Figures::Mm, Side::Left, (whole.x0, whole.x0), &[chain(whole.y0, whole.y1, width)]);
        laid.items.extend(upright.items);
        canvas.group(LayerKind::Dimensions, "size", "Size of the sheet", laid.items);
        let caption = Item::text(Point::new(whole.x0, whole.y1 + CAPTION), self.caption.clone(), 2.5, Align::Start);
        canvas.group(LayerKind::Labels, "caption", "Caption", vec![caption]);
    }
}

fn panel(piece: &Placed) -> Panel {
    Panel { x: piece.x, y: piece.y, length: piece.length, width: piece.width }
}

/// The texts of a part, and what the notes say of it if it has no room for all. Equal parts have one key.
fn named(place: Rect, piece: &Placed, number: &str, keys: &mut Vec<usize>) -> (Vec<Text>, Option<Keyed>) {
    let size = format!("{} × {}", trimmed(piece.length, 1), trimmed(piece.width, 1));
    let full = lettering::lettered(place, number, &size);
    if full.complete {
        return (full.texts, None);
    }
    if !full.texts.is_empty() {
        return (full.texts, Some(keyed(piece, Some(number.to_owned()))));
    }
    let known = keys.iter().position(|kind| *kind == piece.piece);
    let key = key(known.unwrap_or(keys.len()));
    match lettering::keyed(place, &key) {
        Some(text) => {
            keys.extend(known.is_none().then_some(piece.piece));
            (vec![text], Some(keyed(piece, Some(key))))
        }
        None => (Vec::new(), Some(keyed(piece, None))),
    }
}

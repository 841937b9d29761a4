//! Pictures side by side on as many sheets as they need, all at one scale.

use super::rows::{CAPTION, Placed, arrange, spread};
use crate::drawing::{Align, Item, LayerKind, Paper, View, lettering::wrap, scale, scale_bar, text_width};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::Draft;
use crate::views::kit::flexible::{Flexible, HEADING};
use crate::views::kit::pages::draw_table;
use crate::views::kit::placement::Placement;
use crate::views::kit::table_layout::PlacedTable;
use crate::views::kit::words::plain;
use crate::views::plan::notes;
use kurbo::{Point, Rect, Size, Vec2};

/// Height of the row with the scale bar, mm.
const BAR: f64 = 13.0;
/// So many smaller scales are tried to have all on one sheet.
const SMALLER: usize = 2;
/// From the frame to what stands in it, mm.
const INSET: f64 = 8.0;
/// Letters of captions and of notes, and from line to line of notes, mm.
const WORDS: f64 = 3.5;
const LETTERS: f64 = 2.5;
const PITCH: f64 = 4.2;

/// Draws something where and as large as it is placed.
pub(in crate::views) type Draw<'a> = Box<dyn Fn(Placement, &mut Canvas) + 'a>;

/// One picture.
pub(in crate::views) struct Picture<'a> {
    /// Name for files and styles.
    pub id: String,
    /// Words over it.
    pub title: String,
    /// Its name in the title of its sheet.
    pub short: &'a str,
    /// True size of the thing without dimensions, mm.
    pub size: Size,
    /// Draws it.
    pub draw: Draw<'a>,
}

/// What the sheets are about.
pub(in crate::views) struct Gallery<'a> {
    pub paper: Paper,
    pub held: bool,
    /// Stem of the sheets' ids.
    pub id: &'a str,
    /// Name for people.
    pub title: &'a str,
    pub document_type: &'a str,
    pub supplement: String,
    /// A scale that is asked for: taken if every picture fits a sheet at it.
    pub scale: Option<f64>,
    /// Largest scale that makes sense: 5 for 1:5.
    pub largest: f64,
    pub notes: Vec<String>,
    /// Tables under the pictures, where there is room on the last sheet, else on sheets of their own.
    pub tables: Vec<Flexible>,
    /// A smaller scale is better than a second sheet.
    pub together: bool,
}

/// The pictures drawn at one scale, their places, and what is free on the last sheet.
struct Arranged {
    scale: f64,
    drawn: Vec<Drawn>,
    placed: Vec<Placed>,
    sheets: usize,
    /// What is free beside and under them on the last sheet.
    rest: [Rect; 2],
}

impl Gallery<'_> {
    /// The sheets; none for no pictures.
    pub fn sheets(&self, pictures: &[Picture<'_>]) -> Vec<Draft> {
        if pictures.is_empty() {
            return Vec::new();
        }
        let Arranged { scale, drawn, placed, sheets: count, rest } = self.fitting(pictures);
        let mut drafts: Vec<Draft> = (0..count)
            .map(|sheet| {
                let own = placed.iter().filter(|placed| placed.sheet == sheet);
                let mut views: Vec<View> = own
                    .filter_map(|placed| {
                        Some(drawn.get(placed.picture)?.view(pictures.get(placed.picture)?, placed.corner, scale))
                    })
                    .collect();
                let mut beside = Canvas::default();
                self.notes(scale, &mut beside);
                views.push(beside.view("notes", "Notes", None));
                let of = placed.iter().filter(|placed| placed.sheet == sheet);
                let names: Vec<&str> = of.filter_map(|placed| Some(pictures.get(placed.picture)?.short)).collect();
                self.draft(sheet, count, scale, &names.join(" and "), views)
            })
            .collect();
        self.tables(rest, &mut drafts);
        drafts
    }

    /// Over the title block, the stamp and the notes.
    fn area(&self) -> Rect {
        Rect { y0: self.notes_place().1 + INSET, ..self.paper.drawing_space().inset(-INSET) }
    }

    /// The place of the notes, and what pictures stay above.
    fn notes_place(&self) -> (Rect, f64) {
        notes::place(self.paper, self.held, |width| BAR + PITCH * self.lines(width).len() as f64)
    }

    fn lines(&self, width: f64) -> Vec<String> {
        self.notes.iter().flat_map(|note| wrap(note, LETTERS, width)).collect()
    }

    /// The scale that is asked for, if the pictures fit at it, else the largest at which they do.
    fn fitting(&self, pictures: &[Picture<'_>]) -> Arranged {
        let area = self.area();
        let most = Size::new(area.width(), area.height() - CAPTION);
        let whole = |picture: &Picture<'_>, scale: f64| Drawn::new(picture, scale, None);
        let at = |scale: f64| self.arranged(scale, pictures.iter().map(|picture| whole(picture, scale)).collect());
        // Drawing takes its time: the first picture that is too large ends a try.
        let fitting = |scale: f64| {
            let draw = |picture: &Picture<'_>| Some(Drawn::new(picture, scale, Some(most))).filter(|d| d.fits(most));
            let drawn: Option<Vec<Drawn>> = pictures.iter().map(draw).collect();
            drawn.map(|drawn| self.arranged(scale, drawn))
        };
        let could_fit = |scale: f64| {
            let most = area.size() * scale;
            pictures.iter().all(|one| one.size.width <= most.width && one.size.height <= most.height)
        };
        let mut wanted = scale::REDUCTIONS.into_iter().filter(|scale| *scale >= self.largest && could_fit(*scale));
        let first = self.scale.and_then(fitting).or_else(|| wanted.find_map(fitting));
        let first = first.unwrap_or_else(|| at(self.largest));
        if self.whole(&first) || !self.together || self.scale.is_some() {
            return first;
        }
        wanted.take(SMALLER).map(at).find(|arranged| self.whole(arranged)).unwrap_or(first)
    }

    fn arranged(&self, scale: f64, drawn: Vec<Drawn>) -> Arranged {
        let (area, boxes) = (self.area(), drawn.iter().map(|drawn| drawn.bounds).collect::<Vec<_>>());
        let (mut placed, sheets, mut rest) = arrange(&boxes, area);
        if !self.together {
            spread(&mut placed, &boxes, area);
            rest[0] = rest[1];
        }
        Arranged { scale, drawn, placed, sheets, rest }
    }

    /// All on one sheet, with the tables.
    fn whole(&self, arranged: &Arranged) -> bool {
        arranged.sheets == 1 && placed(&self.tables, arranged.rest).1
    }

    fn draft(&self, sheet: usize, count: usize, scale: f64, names: &str, views: Vec<View>) -> Draft {
        let number = if count > 1 { format!("-{}", sheet + 1) } else { String::new() };
        let page = if count > 1 { format!(", {names}") } else { String::new() };
        Draft {
            paper: self.paper,
            id: format!("{}{number}", self.id),
            title: format!("{}{page}", self.title),
            document_type: self.document_type.to_owned(),
            supplement: self.supplement.clone(),
            scale: Some(scale),
            views,
        }
    }

    fn notes(&self, scale: f64, canvas: &mut Canvas) {
        let (place, _) = self.notes_place();
        let (bar, _) = scale_bar(Point::new(place.x0 + 1.5, place.y1 - 6.0), scale);
        canvas.put(LayerKind::Notes, bar);
        let words = self.lines(place.width()).into_iter().enumerate().map(|(index, line)| {
            Item::text(Point::new(place.x0, place.y1 - BAR - PITCH * index as f64), line, LETTERS, Align::Start)
        });
        canvas.group(LayerKind::Notes, "notes", "Notes", words.collect());
    }

    /// The tables in what is left of the last sheet, in larger letters if all have room so, and what of them has no room there
    /// on sheets of their own: of the first the rest of its rows, others whole.
    fn tables(&self, rest: [Rect; 2], drafts: &mut Vec<Draft>) {
        let larger: Vec<Flexible> = self.tables.iter().map(Flexible::larger).collect();
        let tables = [&larger, &self.tables].into_iter().find(|tables| placed(tables, rest).1).unwrap_or(&self.tables);
        let (placed, _) = placed(tables, rest);
        let (mut left, mut shown): (Vec<Flexible>, usize) = (Vec::new(), 0);
        for (at, (table, (slot, rows))) in tables.iter().zip(placed).enumerate() {
            if let Some(draft) = drafts.last_mut().filter(|_| rows > 0) {
                put(table, slot, rows, draft);
            }
            if rows < table.rows.len() {
                shown = if at == 0 { rows } else { shown };
                left.push(table.clone());
            }
        }
        if !left.is_empty() {
            let (id, title) = (format!("{}-list", self.id), format!("{}, list", self.title));
            drafts.extend(crate::views::kit::pages::sheets(self.paper, self.held, &id, &title, &left, shown));
        }
    }
}

/// Where the tables stand, with how many of their rows; and whether all have room.
fn placed(tables: &[Flexible], mut rest: [Rect; 2]) -> (Vec<(Rect, usize)>, bool) {
    let mut all = true;
    let place = |(at, table): (usize, &Flexible)| {
        let (slot, fitting) = best(table, rest);
        let whole = fitting == table.rows.len();
        let rows = if at == 0 || whole { fitting } else { 0 };
        all &= whole;
        if rows > 0 {
            let used = taken(table, slot, rows);
            rest = rest.map(|place| under(place, slot, used));
        }
        (slot, rows)
    };
    (tables.iter().enumerate().map(place).collect(), all)
}

/// What the first rows of a table take at the top of a place.
fn taken(table: &Flexible, slot: Rect, rows: usize) -> Rect {
    let table = table.table(slot.width(), 0, rows);
    Rect { y0: slot.y1 - HEADING - table.height(), x1: slot.x0 + table.width(), ..slot }
}

/// Draws the first rows of a table at the top of a place.
fn put(table: &Flexible, slot: Rect, rows: usize, draft: &mut Draft) {
    let placed = PlacedTable {
        heading: table.heading.clone(),
        table: table.table(slot.width(), 0, rows),
        at: Point::new(slot.x0, slot.y1),
    };
    let mut canvas = Canvas::default();
    draw_table(&placed, &mut canvas);
    draft.views.push(canvas.view(&plain(&format!("list-{}", table.heading)), &table.heading, None));
}

/// What is left of a place once a table stands in a slot.
fn under(place: Rect, slot: Rect, used: Rect) -> Rect {
    let touched = place == slot || place.intersect(used).area() > 0.0;
    if touched { Rect { y1: place.y1.min(used.y0 - INSET), ..place } } else { place }
}

/// The place that takes more rows of a table, and how many.
fn best(table: &Flexible, places: [Rect; 2]) -> (Rect, usize) {
    let [first, second] = places.map(|place| (place, table.fitting_in(place, 0)));
    if second.1 > first.1 { second } else { first }
}

/// A picture drawn at the paper's origin.
struct Drawn {
    canvas: Canvas,
    /// Bounds of all it draws, with room for its caption.
    bounds: Rect,
}

impl Drawn {
    /// The picture at a scale; perhaps not all of it where it is larger than `most`.
    fn new(picture: &Picture<'_>, scale: f64, most: Option<Size>) -> Self {
        let mut canvas = most.map_or_else(Canvas::default, Canvas::within);
        (picture.draw)(Placement { scale, origin: Point::ZERO }, &mut canvas);
        let bounds = canvas.bounds().unwrap_or(Rect::ZERO);
        let caption = text_width(&picture.title, WORDS) + 1.0;
        Self { canvas, bounds: Rect { x1: bounds.x1.max(bounds.x0 + caption), ..bounds } }
    }

    fn fits(&self, most: Size) -> bool {
        self.bounds.width() <= most.width && self.bounds.height() <= most.height
    }

    /// The picture under its caption, whose upper left corner is given.
    fn view(&self, picture: &Picture<'_>, corner: Point, scale: f64) -> View {
        let mut canvas = self.canvas.clone();
        canvas.move_by(corner - Point::new(self.bounds.x0, self.bounds.y1 + CAPTION));
        let caption = Item::text(corner - Vec2::new(0.0, WORDS), picture.title.clone(), WORDS, Align::Start);
        canvas.group(LayerKind::Labels, "caption", &picture.title, vec![caption]);
        canvas.view(&picture.id, &picture.title, Some(scale))
    }
}

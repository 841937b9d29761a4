//! A sheet for each module that is built: front, side and top with the numbers of its parts, and a list of them.

use super::gallery::{Gallery, Picture};
use super::heights::{self, Around};
use super::leaders::leaders;
use super::look::Look;
use crate::base::number::trimmed;
use crate::drawing::{Fill, Item, LayerKind, LineClass, Paper, SeenFrom, dimension::Side};
use crate::geometry::{Axis, Box3};
use crate::joinery::{CutList, Row};
use crate::model::{Model, Module, Part, Projection, SheetSettings, Wall};
use crate::views::canvas::{Canvas, plain};
use crate::views::draft::Draft;
use crate::views::ink::{RING, Taken, ring, square};
use crate::views::legend::Flexible;
use crate::views::placement::{Placement, outline};
use crate::views::raster::Raster;
use kurbo::{Rect, Vec2};

/// Between two views of a module, for dimensions and numbers, mm.
const BETWEEN: f64 = 26.0;
/// Narrower than this the list of parts is hard to read, mm.
const LIST: f64 = 125.0;
/// Cells of a piece that have to be seen for its number to be put there.
const SEEN: usize = 6;

/// Sheets of all modules with parts.
pub(in crate::views) fn sheets(paper: Paper, held: bool, model: &Model, list: &CutList) -> Vec<Draft> {
    let built = model.modules.iter().filter(|module| !module.parts.is_empty());
    built.flat_map(|module| ModuleSheet { settings: &model.sheets, module, list }.sheets(paper, held)).collect()
}

struct ModuleSheet<'a> {
    settings: &'a SheetSettings,
    module: &'a Module,
    list: &'a CutList,
}

/// A piece with the index of its part, in the module's own directions: along its front, into it, up.
type Piece = (usize, Box3);

impl ModuleSheet<'_> {
    fn sheets(&self, paper: Paper, held: bool) -> Vec<Draft> {
        let id = plain(&format!("module-{}", self.module.name));
        let pieces = self.pieces();
        let picture = Picture {
            id: id.clone(),
            title: "Front, side and top".to_owned(),
            short: &self.module.name,
            draw: Box::new(|place, canvas| self.draw(&pieces, place, canvas)),
        };
        let gallery = Gallery {
            paper,
            held,
            id: &id,
            title: &format!("Module {}", self.module.name),
            document_type: "Module",
            supplement: self.module.says.clone(),
            scale: None,
            largest: 5.0,
            notes: vec![format!(
                "Pieces where they stand in the module, seen from the front, from the {} and from above; numbers are those of \
                 the list. {}. Dashed: hidden. Sizes are finished sizes; the cut list has the sizes to saw. Dimensions in mm.",
                if self.settings.projection == Projection::First { "left" } else { "right" },
                self.settings.projection.words()
            )],
            table: Some(self.table()),
            together: true,
        };
        if pieces.is_empty() {
            let (title, tables) = (format!("Module {}", self.module.name), [self.table()]);
            return crate::views::pages::sheets(paper, held, &id, &title, &tables, 0);
        }
        gallery.sheets(&[picture])
    }

    /// All pieces whose place is known, from the module's front left lower corner.
    fn pieces(&self) -> Vec<Piece> {
        let mut pieces: Vec<Piece> = Vec::new();
        for (index, part) in self.module.parts.iter().enumerate() {
            pieces.extend(part.places.iter().map(|place| (index, self.own(place))));
        }
        let Some(whole) = pieces.iter().map(|(_, at)| *at).reduce(|a, b| a.union(&b)) else { return pieces };
        for (_, at) in &mut pieces {
            *at = at.moved(Axis::X, -whole.x.0).moved(Axis::Y, -whole.y.0).moved(Axis::Z, -whole.z.0);
        }
        pieces
    }

    /// A box in the directions of who stands before the module.
    fn own(&self, place: &Box3) -> Box3 {
        let back = |(low, high): (f64, f64)| (-high, -low);
        let (x, y) = match self.module.faces {
            Wall::Front => (back(place.y), place.x),
            Wall::Rear => (place.y, back(place.x)),
            Wall::Left => (place.x, place.y),
            _ => (back(place.x), back(place.y)),
        };
        Box3 { x, y, z: place.z }
    }

    /// The front, a view from the side right of it, and the view from above, as the projection arranges them.
    fn draw(&self, pieces: &[Piece], place: Placement, canvas: &mut Canvas) {
        let Some(whole) = pieces.iter().map(|(_, at)| *at).reduce(|a, b| a.union(&b)) else { return };
        let projection = self.settings.projection;
        let at = |x: f64, y: f64| Placement { origin: place.origin + Vec2::new(x, y), ..place };
        let aside = place.length(whole.x.1) + BETWEEN;
        let side = match projection {
            Projection::First => (Look::inside(Wall::Rear), aside + place.length(whole.y.1)),
            Projection::Third => (Look::inside(Wall::Front), aside),
        };
        let above = projection.place(SeenFrom::Above).1 > 0;
        let up = if above { place.length(whole.z.1) + BETWEEN } else { -place.length(whole.y.1) - BETWEEN };
        let mut seen = vec![false; self.module.parts.len()];
        let mut views = [
            View { name: "front", look: Look::inside(Wall::Right), place, sides: &[Side::Left, Side::Below] },
            View { name: "side", look: side.0, place: at(side.1, 0.0), sides: &[Side::Below] },
            View { name: "top", look: Look::inside(Wall::Floor), place: at(0.0, up), sides: &[Side::Left] },
        ];
        for view in &mut views {
            self.draw_view(pieces, view, &mut seen, canvas);
        }
    }

    /// One view; each part gets its number in the first view that it is seen in, what is never seen in the last.
    fn draw_view(&self, pieces: &[Piece], view: &View<'_>, seen: &mut [bool], canvas: &mut Canvas) {
        let mut sorted: Vec<&Piece> = pieces.iter().collect();
        sorted.sort_by(|a, b| view.look.depth(&b.1).0.total_cmp(&view.look.depth(&a.1).0));
        for (index, at) in &sorted {
            let Some(part) = self.module.parts.get(*index) else { continue };
            let title = format!("{} {}", self.number(part), part.name);
            let name = format!("{}-{}", view.name, part.name);
            let items = vec![Item::area(outline(view.shape(at)), Some(LineClass::Visible), Fill::Furniture)];
            canvas.group(LayerKind::Furniture, &name, &title, items);
            let hidden = vec![Item::line(outline(view.shape(at)), LineClass::Above)];
            canvas.group(LayerKind::Hidden, &name, &title, hidden);
        }
        let bounds = sorted.iter().map(|(_, at)| view.look.rect(at)).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO);
        let around = Around { figures: self.settings.figures, outer: bounds, place: view.place };
        let mut taken = Taken::default();
        for side in view.sides {
            let upward = side.upright();
            let ends = if upward { vec![bounds.y0, bounds.y1] } else { vec![bounds.x0, bounds.x1] };
            let wanted = vec![("", edges(pieces, view.look, upward)), ("", ends)];
            heights::draw(*side, &wanted, &around, &mut taken, canvas);
        }
        self.numbers(&sorted, view, seen, canvas);
    }

    fn numbers(&self, pieces: &[&Piece], view: &View<'_>, seen: &mut [bool], canvas: &mut Canvas) {
        let bounds = pieces.iter().map(|(_, at)| view.shape(at)).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO);
        let mut owners = Raster::new(bounds);
        for (piece, (_, at)) in pieces.iter().enumerate() {
            owners.fill(&outline(view.shape(at)), u32::try_from(piece + 1).unwrap_or(u32::MAX));
        }
        let mut taken = Taken::default();
        let mut beside: Vec<(usize, Rect)> = Vec::new();
        for (index, part) in self.module.parts.iter().enumerate() {
            let own = pieces.iter().enumerate().filter(|(_, (of, _))| *of == index);
            let cells = own
                .map(|(piece, (_, at))| (owners.count(u32::try_from(piece + 1).unwrap_or(u32::MAX)), view.shape(at)));
            let Some((cells, at)) = cells.max_by_key(|(cells, _)| *cells) else { continue };
            let done = seen.get(index).copied().unwrap_or(true);
            if done || (cells < SEEN && view.name != "top") {
                continue;
            }
            seen.iter_mut().skip(index).take(1).for_each(|seen| *seen = true);
            let place = square(at.center(), RING);
            if cells >= SEEN && at.contains_rect(place) && taken.is_free(place) {
                taken.add(place);
                let title = format!("{}: {}", index + 1, part.name);
                canvas.group(LayerKind::Labels, &format!("number-{}", part.name), &title, ring(at.center(), index + 1));
            } else {
                beside.push((index + 1, at));
            }
        }
        leaders(beside, bounds, canvas);
    }

    /// The part's number in the cut list.
    fn number(&self, part: &Part) -> &str {
        self.row(part).map_or("", |row| row.number.as_str())
    }

    fn row(&self, part: &Part) -> Option<&Row> {
        let named = |row: &&Row| row.name.split(" / ").any(|name| name == part.name);
        let own = |row: &&Row| row.modules.iter().any(|(name, _)| *name == self.module.name);
        let same = |row: &&Row| row.finished == (part.length, part.width, part.thickness);
        self.list.rows.iter().find(|row| named(row) && own(row) && same(row))
    }

    fn table(&self) -> Flexible {
        let rows = self.module.parts.iter().enumerate().map(|(index, part)| {
            let size = [part.length, part.width, part.thickness].map(|value| trimmed(value, 1)).join(" × ");
            vec![
                (index + 1).to_string(),
                self.number(part).to_owned(),
                part.name.clone(),
                part.count.to_string(),
                size,
                part.note.clone().unwrap_or_default(),
            ]
        });
        let columns = [
            ("no.", 7.0, true),
            ("cut list", 24.0, false),
            ("part", 24.0, false),
            ("count", 10.0, true),
            ("finished size", 27.0, false),
            ("note", -1.0, false),
        ];
        let mut table = Flexible::new(&format!("Parts of {}", self.module.name), &columns, rows.collect());
        table.least = LIST;
        table
    }
}

/// One view of a module, where it stands on the paper.
struct View<'a> {
    name: &'a str,
    look: Look,
    place: Placement,
    /// Sides with dimensions.
    sides: &'a [Side],
}

impl View<'_> {
    fn shape(&self, at: &Box3) -> Rect {
        self.place.rect(self.look.rect(at))
    }
}

/// Thinner than this is a board seen on edge, mm.
const BOARD: f64 = 30.0;
/// Shorter than this it does not divide the module, mm.
const DIVIDES: f64 = 100.0;

/// Faces of the boards that divide the module, nearer to its low end, and its ends.
fn edges(pieces: &[Piece], look: Look, upward: bool) -> Vec<f64> {
    let range = |rect: Rect| if upward { (rect.y0, rect.y1) } else { (rect.x0, rect.x1) };
    let rects: Vec<Rect> = pieces.iter().map(|(_, at)| look.rect(at)).collect();
    let ends = rects.iter().map(|rect| range(*rect)).reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
    let Some((least, most)) = ends else { return Vec::new() };
    let divides = |rect: &&Rect| {
        let (low, high) = range(**rect);
        let across = if upward { rect.width() } else { rect.height() };
        high - low < BOARD && across > DIVIDES && low > least + BOARD && high < most - BOARD
    };
    let mut values: Vec<f64> = rects.iter().filter(divides).map(|rect| range(*rect).0).collect();
    values.sort_by(f64::total_cmp);
    values.dedup_by(|a, b| (*a - *b).abs() < BOARD);
    values.extend([least, most]);
    values
}

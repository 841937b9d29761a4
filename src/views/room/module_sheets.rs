//! A sheet for each module that is built: front, side and top with the numbers of its parts, and a list of them.

use super::fixings;
use super::gallery::{Gallery, Picture};
use super::heights::{self, Around};
use super::hinges;
use super::look::Look;
use super::part_numbers::{Wanted, numbers};
use super::pieces::{Piece, pieces, whole};
use crate::base::number::trimmed;
use crate::drawing::{Fill, Item, LayerKind, LineClass, Paper, SeenFrom, dimension::Side};
use crate::figures::Figures;
use crate::geometry::Box3;
use crate::joinery::{Row, Stand, machining, row_note, stand, standing};
use crate::model::{Hardware, Module, Part, Projection, SheetSettings, Wall};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::Draft;
use crate::views::kit::flexible::Flexible;
use crate::views::kit::ink::Taken;
use crate::views::kit::misfit::hatched;
use crate::views::kit::placement::Placement;
use crate::views::kit::raster::Raster;
use crate::views::kit::words::plain;
use kurbo::{BezPath, Rect, Size, Vec2};
use rayon::prelude::*;

/// Between two views of a module, for dimensions and numbers, mm.
const BETWEEN: f64 = 26.0;
/// Narrower than this the list of parts is hard to read, mm.
const LIST: f64 = 125.0;
/// Cells of a piece that have to be seen for its number to be put there.
const SEEN: usize = 6;

/// Sheets of all modules with parts.
pub(in crate::views) fn sheets(paper: Paper, held: bool, figures: &Figures<'_>) -> Vec<Draft> {
    let (model, list) = (figures.model, figures.cut_list());
    let built: Vec<(usize, &Module)> =
        model.modules.iter().enumerate().filter(|(_, module)| !module.parts.is_empty()).collect();
    let rows = |(at, module): &(usize, &Module)| list.rows_of(*at, module.parts.len());
    let around = |at: usize| {
        let all = figures.fastened().get(at).into_iter().flatten();
        all.map(|one| (one.to.words(model), &one.bought)).collect()
    };
    let drafts = built.par_iter().map(|built| {
        let sheet =
            ModuleSheet { settings: &model.sheets, module: built.1, rows: rows(built), around: around(built.0) };
        sheet.sheets(paper, held)
    });
    drafts.collect::<Vec<_>>().into_iter().flatten().collect()
}

struct ModuleSheet<'a> {
    settings: &'a SheetSettings,
    module: &'a Module,
    /// The rows of its parts in the cut list.
    rows: Vec<Option<&'a Row>>,
    /// What fixes it to what is around it, with what that is.
    around: Vec<(String, &'a Hardware)>,
}

impl ModuleSheet<'_> {
    fn sheets(&self, paper: Paper, held: bool) -> Vec<Draft> {
        let id = plain(&format!("module-{}", self.module.name));
        let pieces = pieces(self.module);
        let picture = Picture {
            id: id.clone(),
            title: "Front, side and top".to_owned(),
            short: &self.module.name,
            size: whole(&pieces).map_or(Size::ZERO, |all| Size::new(all.x.1 + all.y.1, all.z.1 + all.y.1)),
            draw: Box::new(|place, canvas| self.draw(&pieces, place, canvas)),
        };
        let gallery = Gallery {
            paper,
            held,
            id: &id,
            title: &format!("Module {}", self.module.name),
            document_type: "Module",
            supplement: format!("Module {}", self.module.name),
            scale: None,
            largest: 5.0,
            notes: vec![format!(
                "Pieces where they stand in the module, seen from the front, from the {} and from above; numbers are those of \
                 the list. {}. Dashed: hidden, grooves, bores, and lines that meet at a hinge. Stands at: the left front lower corner of a piece from that of the \
                 module, as you stand before it; of figures with / between them there is a piece at each. Sizes are finished sizes; the cut \
                 list has the sizes to saw and the bands, and says what edges, hands and places of machining mean. {} Dimensions in mm.",
                if self.settings.projection == Projection::First { "left" } else { "right" },
                self.settings.projection.words(),
                fixings::setting_out()
            )],
            tables: self.tables(),
            together: true,
        };
        if pieces.is_empty() {
            let (title, tables) = (format!("Module {}", self.module.name), self.tables());
            return crate::views::kit::pages::sheets(paper, held, &id, &title, &tables, 0);
        }
        gallery.sheets(&[picture])
    }

    /// The front, a view from the side right of it, and the view from above, as the projection arranges them.
    fn draw(&self, pieces: &[Piece], place: Placement, canvas: &mut Canvas) {
        let Some(whole) = whole(pieces) else { return };
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
        let views = [
            View {
                name: "front",
                look: Look::inside(Wall::Right),
                place,
                sides: &[Side::Left, Side::Below],
                last: false,
            },
            View { name: "side", look: side.0, place: at(side.1, 0.0), sides: &[Side::Below], last: false },
            View { name: "top", look: Look::inside(Wall::Floor), place: at(0.0, up), sides: &[Side::Left], last: true },
        ];
        let mut taken = Taken::default();
        for view in &views {
            self.draw_view(pieces, view, &mut taken, canvas);
        }
        let [front, ..] = &views;
        hinges::draw(self.module, pieces, |at| front.shape(at), canvas);
        if canvas.is_too_large() {
            return;
        }
        let Some(all) = views.iter().map(|view| view.bounds(pieces)).reduce(|a, b| a.union(b)) else { return };
        let mut lines = Raster::new(all.inflate(BETWEEN, BETWEEN));
        canvas.items().for_each(|item| lines.trace(item));
        let lines = lines.sums(|cell| cell > 0);
        let mut again = Vec::new();
        for view in &views {
            let wanted = self.wanted(pieces, view, &mut seen);
            again.extend(numbers(&wanted, view.bounds(pieces), &lines, &mut taken, canvas));
        }
        for view in &views {
            let mut seen: Vec<bool> = (1..=self.module.parts.len()).map(|number| !again.contains(&number)).collect();
            let wanted = self.wanted(pieces, &View { last: true, ..*view }, &mut seen);
            again = numbers(&wanted, view.bounds(pieces), &lines, &mut taken, canvas);
        }
    }

    /// One view with its dimensions.
    fn draw_view(&self, pieces: &[Piece], view: &View<'_>, taken: &mut Taken, canvas: &mut Canvas) {
        for piece in view.far_to_near(pieces) {
            let Some(part) = self.module.parts.get(piece.part) else { continue };
            let title = format!("{} {}", self.number(piece.part), part.name);
            let name = format!("{}-{}", view.name, part.name);
            let outlines = piece.outlines(view.look, view.place);
            let area = |shape: &BezPath| Item::area(shape.clone(), Some(LineClass::Visible), Fill::Furniture);
            let items = outlines.iter().map(area).chain(piece.cuts(view.look, view.place)).collect();
            canvas.group(LayerKind::Furniture, &name, &title, items);
            let hidden = outlines.into_iter().map(|shape| Item::line(shape, LineClass::Above)).collect();
            canvas.group(LayerKind::Hidden, &name, &title, hidden);
        }
        let rects = pieces.iter().map(|piece| view.look.rect(&piece.at));
        let outer = rects.reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO);
        hatched(self.module, view.place.rect(outer), canvas);
        let around = Around { figures: self.settings.figures, outer, place: view.place };
        for side in view.sides {
            let upward = side.upright();
            let ends = if upward { vec![outer.y0, outer.y1] } else { vec![outer.x0, outer.x1] };
            let wanted = vec![("", edges(pieces, view.look, upward)), ("", ends)];
            heights::draw(*side, &wanted, &around, taken, canvas);
        }
    }

    /// The parts that get their numbers in a view, each with what is seen best of it: the first view that it is seen in,
    /// for what is never seen the last.
    fn wanted(&self, pieces: &[Piece], view: &View<'_>, seen: &mut [bool]) -> Vec<Wanted> {
        let sorted = view.far_to_near(pieces);
        let mut owners = Raster::new(view.bounds(pieces));
        let value = |piece: usize| u32::try_from(piece + 1).unwrap_or(u32::MAX);
        for (at, piece) in sorted.iter().enumerate() {
            piece.outlines(view.look, view.place).iter().for_each(|shape| owners.fill(shape, value(at)));
        }
        let (counts, mut wanted) = (owners.counts(), Vec::new());
        let count = |at: usize| counts.get(at + 1).copied().unwrap_or(0);
        for (index, part) in self.module.parts.iter().enumerate() {
            let own = sorted.iter().enumerate().filter(|(_, piece)| piece.part == index);
            let cells = own.map(|(at, piece)| (count(at), view.shape(&piece.at)));
            let Some((cells, at)) = cells.max_by_key(|(cells, _)| *cells) else { continue };
            let Some(done) = seen.get_mut(index).filter(|done| !**done) else { continue };
            if cells >= SEEN || view.last {
                *done = true;
                wanted.push(Wanted { number: index + 1, name: part.name.clone(), at, plain: cells >= SEEN });
            }
        }
        wanted
    }

    /// The part's number in the cut list.
    fn number(&self, part: usize) -> &str {
        self.row(part).map_or("", |row| row.number.as_str())
    }

    fn row(&self, part: usize) -> Option<&Row> {
        self.rows.get(part).copied().flatten()
    }

    /// Where the pieces of a part stand, from the left, the front and the floor of the module.
    fn stands(&self, part: &Part) -> String {
        let stands: Vec<Stand> = part.places.iter().map(|place| stand(self.module, &place.bounds())).collect();
        standing(&stands)
    }

    /// The list of parts, and what holds them together.
    fn tables(&self) -> Vec<Flexible> {
        let fixings = fixings::table(self.module, &self.around).at_least(LIST);
        std::iter::once(self.table()).chain(Some(fixings).filter(|table| !table.rows.is_empty())).collect()
    }

    fn table(&self) -> Flexible {
        let rows = self.module.parts.iter().enumerate().map(|(index, part)| {
            let size = [part.length, part.width, part.thickness].map(|value| trimmed(value, 1)).join(" × ");
            let row = self.row(index);
            let note = row.map(|row| {
                [machining(row), row_note(row)]
                    .into_iter()
                    .filter(|word| !word.is_empty())
                    .collect::<Vec<_>>()
                    .join("; ")
            });
            let hand = part.hand.map_or_else(String::new, |hand| format!(", {} hand", hand.name()));
            vec![
                (index + 1).to_string(),
                row.map_or_else(String::new, |row| row.number.clone()),
                format!("{}{hand}", part.name),
                part.count.to_string(),
                size,
                self.stands(part),
                note.unwrap_or_default(),
            ]
        });
        let columns = [
            ("no.", 7.0, true),
            ("cut list", 24.0, false),
            ("part", 24.0, false),
            ("count", 10.0, true),
            ("finished size", 27.0, false),
            ("stands at", 38.0, false),
            ("work, note", -1.0, false),
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
    /// Parts that are not seen in it get their numbers there too.
    last: bool,
}

impl View<'_> {
    fn shape(&self, at: &Box3) -> Rect {
        self.place.rect(self.look.rect(at))
    }

    fn bounds(&self, pieces: &[Piece]) -> Rect {
        pieces.iter().map(|piece| self.shape(&piece.at)).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
    }

    fn far_to_near<'p>(&self, pieces: &'p [Piece]) -> Vec<&'p Piece> {
        let mut sorted: Vec<&Piece> = pieces.iter().collect();
        sorted.sort_by(|a, b| self.look.depth(&b.at).0.total_cmp(&self.look.depth(&a.at).0));
        sorted
    }
}

/// Thinner than this is a board seen on edge, mm.
const BOARD: f64 = 30.0;
/// It divides the module if it goes through so much of it.
const DIVIDES: f64 = 0.5;

/// Faces of the boards that divide the module, nearer to its low end, and its ends.
fn edges(pieces: &[Piece], look: Look, upward: bool) -> Vec<f64> {
    let range = |rect: Rect| if upward { (rect.y0, rect.y1) } else { (rect.x0, rect.x1) };
    let rects: Vec<Rect> = pieces.iter().map(|piece| look.rect(&piece.at)).collect();
    let ends = rects.iter().map(|rect| range(*rect)).reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
    let Some((least, most)) = ends else { return Vec::new() };
    let all = rects.iter().copied().reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO);
    let whole = if upward { all.width() } else { all.height() };
    let divides = |rect: &&Rect| {
        let (low, high) = range(**rect);
        let across = if upward { rect.width() } else { rect.height() };
        high - low < BOARD && across > DIVIDES * whole && low > least + BOARD && high < most - BOARD
    };
    let mut values: Vec<f64> = rects.iter().filter(divides).map(|rect| range(*rect).0).collect();
    values.sort_by(f64::total_cmp);
    values.dedup_by(|a, b| (*a - *b).abs() < BOARD);
    values.extend([least, most]);
    values
}

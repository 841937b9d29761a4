//! A sheet for each hold with cargo: seen from the left, from the front and from above, with a
//! list of the pieces and of what is left over.

mod view;

use crate::base::number::trimmed;
use crate::drawing::dimension::{Chain, Side, Stop, lay};
use crate::drawing::{Align, Item, LayerKind, Paper, SeenFrom, scale};
use crate::figures::{self, Hold, Stowage};
use crate::model::{Figures, Model, Module, Opening};
use crate::views::boot::view::{From, HoldView, Numbered};
use crate::views::kit::beside::{draw_notes, notes_height, place_rows, rest, wrapped};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::{self, Draft};
use crate::views::kit::flexible::Flexible;
use crate::views::kit::pages;
use crate::views::kit::placement::Placement;
use crate::views::kit::words::plain;
use crate::views::plan::notes::{self, INSET};
use kurbo::{Point, Rect, Size, Vec2};

/// Width of the list beside the views, mm.
const LIST: f64 = 140.0;
/// Less than this is too narrow for the views beside the list, mm.
const LEAST: f64 = 120.0;
/// Width of notes beside the views, mm.
const NOTES: f64 = 110.0;
/// Around each view for its caption and its dimension, mm.
const AROUND: f64 = 13.0;
/// Between two views side by side, mm.
const BETWEEN: f64 = 12.0;

/// Sheets for all cargo of a layout.
pub(in crate::views) fn sheets(paper: Paper, held: bool, figures: &figures::Figures<'_>) -> Vec<Draft> {
    let model = figures.model;
    let mut drafts = Vec::new();
    for stowage in figures.stowage() {
        let Some(module) = model.modules.get(stowage.module) else { continue };
        for (index, hold) in stowage.holds.iter().enumerate() {
            let last = index + 1 == stowage.holds.len();
            drafts.extend(BootSheet { model, module, stowage, hold, paper, held, last }.sheets());
        }
    }
    drafts
}

/// One hold on its sheet.
struct BootSheet<'a> {
    model: &'a Model,
    module: &'a Module,
    stowage: &'a Stowage,
    hold: &'a Hold,
    paper: Paper,
    held: bool,
    /// The last hold of its module: what is left over is listed here.
    last: bool,
}

impl BootSheet<'_> {
    fn sheets(&self) -> Vec<Draft> {
        let pieces = self.pieces();
        let list = self.list(&pieces);
        let full = self.paper.drawing_space().inset(-INSET);
        let words = self.words();
        let (place, foot) = notes::place(self.paper, self.held, |width| notes_height(&words, width));
        let beside = full.width() - LIST - INSET >= LEAST;
        let over = Rect { y0: foot + INSET, x1: if beside { full.x1 - LIST - INSET } else { full.x1 }, ..full };
        let placed: Vec<Numbered> = pieces.iter().map(|(piece, _)| *piece).collect();
        // Without a list beside the views the notes may stand there, too.
        let column = Rect { x0: full.x1 - NOTES, ..full };
        let aside = Rect { x1: column.x0 - INSET, y0: draft::foot(self.paper, self.held) + INSET, ..full };
        let aside_is_larger = !beside && self.scales(aside).0 < self.scales(over).0;
        let (area, place) = if aside_is_larger { (aside, column) } else { (over, place) };
        let (scale, views) = self.views(&placed, area);
        let mut beside_views = Canvas::default();
        draw_notes(place, scale, wrapped(&words, place.width()), &mut beside_views);
        let mut shown = vec![0; list.len()];
        if beside {
            let mut slot = Rect { x0: full.x1 - LIST, y0: foot + INSET, ..full };
            for (table, shown) in list.iter().zip(&mut shown) {
                *shown = place_rows(table, &mut slot, " (more on the next sheet)", &mut beside_views);
            }
        }
        let mut drafts = vec![self.draft(scale, vec![views, beside_views.view("notes", "Notes and list", None)])];
        let rest: Vec<Flexible> = list.iter().zip(&shown).filter_map(|(table, shown)| rest(table, *shown)).collect();
        if !rest.is_empty() {
            let (id, title) = (format!("{}-list", self.id()), format!("{}, list", self.title()));
            drafts.extend(pages::sheets(self.paper, self.held, &id, &title, &rest, 0));
        }
        drafts
    }

    fn id(&self) -> String {
        let whole = self.stowage.arrangements.len() == self.model.arrangements.len();
        let arrangement = self.stowage.arrangement_names(self.model).into_iter().next().filter(|_| !whole);
        let more = self.stowage.holds.len() > 1;
        let names = [Some(self.module.name.clone()), more.then(|| self.hold.room.space.name.clone()), arrangement];
        plain(&format!("stowage-{}", names.into_iter().flatten().collect::<Vec<_>>().join("-")))
    }

    fn title(&self) -> String {
        let more = if self.stowage.holds.len() > 1 { format!(" {}", self.hold.room.space.name) } else { String::new() };
        format!("Stowage, {}{more}", self.module.name)
    }

    fn arrangements(&self) -> String {
        let names = self.stowage.arrangement_names(self.model);
        if names.len() == self.model.arrangements.len() { "all arrangements".to_owned() } else { names.join(", ") }
    }

    fn draft(&self, scale: f64, views: Vec<crate::drawing::View>) -> Draft {
        Draft {
            paper: self.paper,
            id: self.id(),
            title: self.title(),
            document_type: "Stowage plan".to_owned(),
            supplement: format!("{}; {}", self.title(), self.arrangements()),
            scale: Some(scale),
            views,
        }
    }

    /// The pieces with their numbers, kind by kind, and each one's row.
    fn pieces(&self) -> Vec<(Numbered, Vec<String>)> {
        let mut placed: Vec<_> = self.hold.packing.placed.iter().collect();
        let key = |place: &crate::geometry::Box3| [place.z.0, place.x.0, place.y.0];
        placed.sort_by(|a, b| {
            a.parcel
                .cmp(&b.parcel)
                .then_with(|| key(&a.place).partial_cmp(&key(&b.place)).unwrap_or(std::cmp::Ordering::Equal))
        });
        let numbered = placed.into_iter().enumerate().filter_map(|(index, one)| {
            let cargo = self.model.cargo.get(one.parcel)?;
            let place = one.place;
            let sides = [place.x, place.y, place.z].map(|(low, high)| high - low);
            let row = vec![
                (index + 1).to_string(),
                cargo.name.clone(),
                figures(&cargo.parcel.size, " × "),
                trimmed(cargo.mass, 1),
                figures(&sides, " × "),
                figures(&[place.x.0, place.y.0, place.z.0], ", "),
            ];
            Some((Numbered { number: index + 1, place }, row))
        });
        numbered.collect()
    }

    fn list(&self, pieces: &[(Numbered, Vec<String>)]) -> Vec<Flexible> {
        let columns = [
            ("no.", 8.0, true),
            ("piece", -1.0, false),
            ("size", 27.0, false),
            ("mass, kg", 14.0, true),
            ("along × across × high", 32.0, false),
            ("front, left, floor", 29.0, false),
        ];
        let rows = pieces.iter().map(|(_, row)| row.clone()).collect();
        let mut tables = vec![Flexible::new("Pieces", &columns, rows)];
        if self.last && !self.stowage.left.is_empty() {
            let row = |(at, count): &(usize, usize)| {
                let cargo = self.model.cargo.get(*at)?;
                Some(vec![
                    count.to_string(),
                    cargo.name.clone(),
                    figures(&cargo.parcel.size, " × "),
                    trimmed(cargo.mass, 1),
                ])
            };
            let columns =
                [("count", 12.0, true), ("piece", -1.0, false), ("size", 32.0, false), ("mass each, kg", 24.0, true)];
            let rows = self.stowage.left.iter().filter_map(row).collect();
            tables.push(Flexible::new("Left over: no place was found for", &columns, rows));
        }
        tables
    }

    /// Length, width and height of the space, mm.
    fn size(&self) -> [f64; 3] {
        let bounds = self.hold.room.space.prism.bounds();
        [bounds.x, bounds.y, bounds.z].map(|(low, high)| high - low)
    }

    /// The largest scale in an area, and whether three views fit at it.
    fn scales(&self, area: Rect) -> (f64, bool) {
        let [long, wide, high] = self.size();
        let room = area.size() - Size::new(2.0 * AROUND, 4.0 * AROUND);
        let fits = |width: f64, gap: f64| scale::largest_that_fits(width, high + wide, room.width - gap, room.height);
        let (three, two) = (fits(long + wide, BETWEEN), fits(long, 0.0));
        (three.min(two), three <= two)
    }

    /// The three views, or two where three would be smaller.
    fn views(&self, pieces: &[Numbered], area: Rect) -> (f64, crate::drawing::View) {
        let [long, wide, high] = self.size();
        let (scale, three) = self.scales(area);
        let openings: Vec<&Opening> = self.openings();
        let view = HoldView { model: self.model, hold: self.hold, pieces, openings: &openings };
        let mut canvas = Canvas::default();
        let projection = self.model.sheets.projection;
        let (long, wide, high) = (long / scale, wide / scale, high / scale);
        let across = if projection.place(SeenFrom::Left).0 > 0 { long } else { -wide };
        let under = if projection.place(SeenFrom::Above).1 > 0 { high } else { -wide };
        let to_front = Vec2::new(across + BETWEEN.copysign(across), 0.0);
        let to_above = Vec2::new(0.0, under + (2.0 * AROUND).copysign(under));
        let main = Point::new(
            area.x0 + AROUND + if three { (-to_front.x).max(0.0) } else { 0.0 },
            area.y1 - AROUND - high - if under > 0.0 { wide + 2.0 * AROUND } else { 0.0 },
        );
        let figures = self.model.sheets.figures;
        draw_view(&view, From::Left, (main, scale), figures, &mut canvas);
        draw_view(&view, From::Above, (main + to_above, scale), figures, &mut canvas);
        if three {
            draw_view(&view, From::Front, (main + to_front, scale), figures, &mut canvas);
        }
        (scale, canvas.view("stowage", &self.title(), Some(scale)))
    }

    /// The openings that some of the cargo goes through.
    fn openings(&self) -> Vec<&Opening> {
        let used =
            |at: usize| self.model.cargo.iter().any(|c| c.module == self.stowage.module && c.through == Some(at));
        self.model.openings.iter().enumerate().filter(|(at, _)| used(*at)).map(|(_, opening)| opening).collect()
    }

    /// What the notes say.
    fn words(&self) -> [String; 3] {
        let names: Vec<&str> = self.openings().into_iter().map(|opening| opening.name.as_str()).collect();
        let through = if names.is_empty() { String::new() } else { format!(" Double-dotted: {}.", names.join(", ")) };
        let stowed: f64 = self
            .hold
            .packing
            .placed
            .iter()
            .filter_map(|one| self.model.cargo.get(one.parcel))
            .map(|cargo| cargo.mass)
            .sum();
        let carries = self
            .hold
            .room
            .space
            .carries
            .map_or_else(String::new, |kg| format!(" of {} kg that it carries", trimmed(kg, 1)));
        let free = self.hold.packing.largest_free.map_or_else(String::new, |free| {
            let sides = [free.x, free.y, free.z].map(|(low, high)| high - low);
            format!("; the largest free box is {} mm", figures(&sides, " × "))
        });
        let litres =
            [self.hold.stowed, self.hold.litres, self.hold.litres - self.hold.stowed].map(|litres| trimmed(litres, 0));
        let [used, all, left] = litres;
        [
            format!(
                "In {}. {used} of {all} litres are used, {left} are left{free}. Cargo: {} kg{carries}.",
                self.arrangements(),
                trimmed(stowed, 1)
            ),
            format!(
                "{} Places are measured from the front, the left wall and the floor of the box. {}. Dashed: hidden, or nearer than cargo.{through}",
                notes::units(self.model),
                self.model.sheets.projection.words()
            ),
            "One way to stow that was found; the order of loading and lashing are not looked at.".to_owned(),
        ]
    }
}

/// One view with its caption and its dimensions; its lower left corner is at a point of the paper.
fn draw_view(view: &HoldView<'_>, from: From, (corner, scale): (Point, f64), figures: Figures, canvas: &mut Canvas) {
    let bounds = view.hold.room.space.prism.bounds();
    let real = from.look().rect(&bounds);
    let place = Placement { scale, origin: corner - real.origin().to_vec2() / scale };
    view.draw(from, place, canvas);
    let paper = place.rect(real);
    let caption = match from {
        From::Above => "From above",
        From::Left => "From the left",
        From::Front => "From the front",
    };
    let text = Item::text(Point::new(paper.x0, paper.y1 + 2.5), caption, 2.5, Align::Start);
    canvas.group(LayerKind::Labels, &format!("caption-{caption}"), caption, vec![text]);
    let chain = |low: f64, high: f64, size: f64| Chain {
        caption: String::new(),
        stops: vec![Stop { at: low, value: 0.0 }, Stop { at: high, value: size }],
    };
    let mut laid = lay(figures, Side::Below, (paper.y0, paper.y0), &[chain(paper.x0, paper.x1, real.width())]);
    if from != From::Front {
        let upright = chain(paper.y0, paper.y1, real.height());
        laid.items.extend(lay(figures, Side::Left, (paper.x0, paper.x0), &[upright]).items);
    }
    canvas.group(LayerKind::Dimensions, &format!("size-{caption}"), "Size of the space", laid.items);
}

fn figures(values: &[f64], between: &str) -> String {
    values.iter().map(|value| trimmed(*value, 1)).collect::<Vec<_>>().join(between)
}

#[cfg(test)]
mod tests;

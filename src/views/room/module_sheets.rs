//! A sheet for each module that is built: front, side and top with the numbers of its parts, and a list of them.

use super::gallery::{Gallery, Picture};
use super::heights;
use super::look::Look;
use crate::base::number::trimmed;
use crate::drawing::{Fill, Item, LayerKind, LineClass, Paper, dimension::Side};
use crate::geometry::Box3;
use crate::joinery::{CutList, Row};
use crate::model::{Model, Module, Part, Wall};
use crate::views::canvas::{Canvas, plain};
use crate::views::draft::Draft;
use crate::views::ink::{RING, Taken, on_leader, ring, square};
use crate::views::legend::Flexible;
use crate::views::placement::{Placement, outline};
use crate::views::raster::Raster;
use kurbo::{Point, Rect, Vec2};

/// Sheets of all modules with parts.
pub(in crate::views) fn sheets(paper: Paper, held: bool, model: &Model, list: &CutList) -> Vec<Draft> {
    let built = model.modules.iter().filter(|module| !module.parts.is_empty());
    built.flat_map(|module| ModuleSheet { model, module, list }.sheets(paper, held)).collect()
}

struct ModuleSheet<'a> {
    model: &'a Model,
    module: &'a Module,
    list: &'a CutList,
}

impl ModuleSheet<'_> {
    fn sheets(&self, paper: Paper, held: bool) -> Vec<Draft> {
        let id = plain(&format!("module-{}", self.module.name));
        let pictures: Vec<Picture<'_>> = self
            .looks()
            .into_iter()
            .map(|(name, look)| Picture {
                id: format!("{id}-{name}"),
                title: super::elevations::capital(name),
                draw: Box::new(move |place, canvas| self.draw(look, place, canvas)),
            })
            .collect();
        let gallery = Gallery {
            paper,
            held,
            id: &id,
            title: &format!("Module {}", self.module.name),
            document_type: "Module",
            supplement: self.module.says.clone(),
            scale: None,
            largest: 5.0,
            notes: vec![
                "Pieces where they stand in the module; numbers are those of the list. Dashed: hidden. Sizes are finished sizes; \
                 the cut list has the sizes to saw. Dimensions in mm."
                    .to_owned(),
            ],
            table: Some(self.table()),
        };
        gallery.sheets(&pictures)
    }

    /// From where a person stands, from that person's right hand, and from above.
    fn looks(&self) -> [(&'static str, Look); 3] {
        let (front, side) = match self.module.faces {
            Wall::Front => (Wall::Rear, Wall::Left),
            Wall::Rear => (Wall::Front, Wall::Right),
            Wall::Left => (Wall::Right, Wall::Front),
            _ => (Wall::Left, Wall::Rear),
        };
        [("front", Look::inside(front)), ("side", Look::inside(side)), ("top", Look::inside(Wall::Floor))]
    }

    fn draw(&self, look: Look, place: Placement, canvas: &mut Canvas) {
        let mut pieces: Vec<(usize, Box3)> = Vec::new();
        for (index, part) in self.module.parts.iter().enumerate() {
            pieces.extend(part.places.iter().map(|place| (index, *place)));
        }
        let Some(whole) = pieces.iter().map(|(_, at)| *at).reduce(|a, b| a.union(&b)) else { return };
        pieces.sort_by(|a, b| look.depth(&b.1).0.total_cmp(&look.depth(&a.1).0));
        let shape = |at: &Box3| place.rect(look.rect(at));
        for (index, at) in &pieces {
            let Some(part) = self.module.parts.get(*index) else { continue };
            let title = format!("{} {}", self.number(part), part.name);
            let items = vec![Item::area(outline(shape(at)), Some(LineClass::Visible), Fill::Furniture)];
            canvas.group(LayerKind::Furniture, &format!("part-{}", part.name), &title, items);
            let hidden = vec![Item::line(outline(shape(at)), LineClass::Above)];
            canvas.group(LayerKind::Hidden, &format!("part-{}", part.name), &title, hidden);
        }
        let bounds = look.rect(&whole);
        let mut taken = Taken::default();
        let along = vec![("", edges(&pieces, look, false)), ("", vec![bounds.x0, bounds.x1])];
        let up = vec![("", edges(&pieces, look, true)), ("", vec![bounds.y0, bounds.y1])];
        heights::draw(Side::Below, &along, bounds, place, &mut taken, canvas);
        heights::draw(Side::Left, &up, bounds, place, &mut taken, canvas);
        self.numbers(&pieces, look, place, &mut taken, canvas);
    }

    /// The number of each part once in a view: on the piece that is seen best, else on a leader from beside the module.
    fn numbers(&self, pieces: &[(usize, Box3)], look: Look, place: Placement, taken: &mut Taken, canvas: &mut Canvas) {
        let shape = |at: &Box3| place.rect(look.rect(at));
        let bounds = pieces.iter().map(|(_, at)| shape(at)).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO);
        let mut owners = Raster::new(bounds);
        for (piece, (_, at)) in pieces.iter().enumerate() {
            owners.fill(&outline(shape(at)), u32::try_from(piece + 1).unwrap_or(u32::MAX));
        }
        let mut outside: Vec<(usize, Point)> = Vec::new();
        for (index, part) in self.module.parts.iter().enumerate() {
            let own = pieces.iter().enumerate().filter(|(_, (of, _))| *of == index);
            let seen =
                own.map(|(piece, (_, at))| (owners.count(u32::try_from(piece + 1).unwrap_or(u32::MAX)), shape(at)));
            let Some((_, at)) = seen.filter(|(cells, _)| *cells > 0).max_by_key(|(cells, _)| *cells) else { continue };
            let number = index + 1;
            let middle = at.center();
            let place = square(middle, RING);
            let title = format!("{number}: {}", part.name);
            if at.contains_rect(place) && taken.is_free(place) {
                taken.add(place);
                canvas.group(LayerKind::Labels, &format!("number-{}", part.name), &title, ring(middle, number));
            } else {
                outside.push((number, middle));
            }
        }
        leaders(outside, bounds, canvas);
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
            let stock = self.model.stocks.get(part.stock).map_or("", |stock| stock.name.as_str());
            let note = part.note.clone().unwrap_or_default();
            vec![
                (index + 1).to_string(),
                self.number(part).to_owned(),
                part.name.clone(),
                part.count.to_string(),
                size,
                stock.to_owned(),
                note,
            ]
        });
        let columns = [
            ("no.", 9.0, true),
            ("cut list", 28.0, false),
            ("part", 36.0, false),
            ("count", 13.0, true),
            ("finished size", 34.0, false),
            ("stock", 22.0, false),
            ("note", -1.0, false),
        ];
        Flexible::new(&format!("Parts of {}", self.module.name), &columns, rows.collect())
    }
}

/// Edges of the larger pieces, so that thicknesses do not fill the chain.
fn edges(pieces: &[(usize, Box3)], look: Look, upward: bool) -> Vec<f64> {
    let mut values = Vec::new();
    for (_, at) in pieces {
        let rect = look.rect(at);
        let (low, high) = if upward { (rect.y0, rect.y1) } else { (rect.x0, rect.x1) };
        let thin = high - low < 30.0;
        let across = if upward { rect.width() } else { rect.height() };
        if thin && across > 100.0 {
            values.push(f64::midpoint(low, high));
        }
    }
    let mut ends: Vec<f64> = Vec::new();
    for (_, at) in pieces {
        let rect = look.rect(at);
        ends.extend(if upward { [rect.y0, rect.y1] } else { [rect.x0, rect.x1] });
    }
    let least = ends.iter().copied().fold(f64::INFINITY, f64::min);
    let most = ends.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    values.retain(|value| *value > least + 30.0 && *value < most - 30.0);
    values.extend([least, most]);
    values
}

/// Rings right of a picture, from top to bottom in the order of what they point to, so that leaders do not cross.
fn leaders(mut wanted: Vec<(usize, Point)>, bounds: Rect, canvas: &mut Canvas) {
    wanted.sort_by(|a, b| b.1.y.total_cmp(&a.1.y).then(a.1.x.total_cmp(&b.1.x)));
    let pitch = 2.0 * RING + 1.0;
    let height = pitch * wanted.len() as f64;
    let top = bounds.center().y + height / 2.0 - RING;
    for (row, (number, target)) in wanted.into_iter().enumerate() {
        let middle = Point::new(bounds.x1 + 8.0 + RING, top - pitch * row as f64) + Vec2::ZERO;
        let items = on_leader(middle, target, number);
        canvas.group(LayerKind::Labels, &format!("number-{number}"), &format!("Part {number}"), items);
    }
}

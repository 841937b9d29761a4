//! A long and a cross section: what two planes cut, with the build-up of the panels, headroom and the poses of beds.

use super::gallery::{Gallery, Picture};
use super::look::Look;
use super::painter::Painter;
use super::planes::fullest_plane;
use super::slice::Slice;
use super::{heights, rings, shell};
use crate::base::number::{mm, trimmed};
use crate::drawing::{Align, Fill, Item, LayerKind, LineClass, Paper, Text, dimension::Side, text_box};
use crate::figures::STEP;
use crate::geometry::Axis;
use crate::model::{Arrangement, Model, Wall};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::Draft;
use crate::views::kit::ink::{Taken, double_arrow};
use crate::views::kit::placement::{Placement, outline};
use kurbo::{Point, Rect, Vec2};

/// A person needs this much width to stand, mm.
const STANDING: f64 = 300.0;
/// Letters of a headroom figure, mm.
const LETTERS: f64 = 2.5;

/// Sheets with both sections.
pub(in crate::views) fn sheets(paper: Paper, held: bool, model: &Model) -> Vec<Draft> {
    let Some(arrangement) = model.arrangements.first() else { return Vec::new() };
    let section = |look: Wall, at: f64| Section { model, arrangement, look: Look::inside(look), at };
    let planes = model.sheets.sections;
    let plane = |given: Option<f64>, axis: Axis| given.unwrap_or_else(|| fullest_plane(model, arrangement, axis));
    let along = section(Wall::Left, plane(planes.along, Axis::Y));
    let across = section(Wall::Front, plane(planes.across, Axis::X));
    let from = |at: f64, wall: &str| format!("{} from the {wall} wall", mm(at));
    let pictures = [
        along.picture("along", format!("Section along, {}, seen to the left", from(along.at, "left"))),
        across.picture("across", format!("Section across, {}, seen to the front", from(across.at, "front"))),
    ];
    let gallery = Gallery {
        paper,
        held,
        id: "sections",
        title: "Sections",
        document_type: "Sections",
        supplement: format!("Arrangement: {}", arrangement.name),
        scale: model.sheets.scale,
        largest: 10.0,
        notes: notes(model),
        tables: Vec::new(),
        together: false,
    };
    gallery.sheets(&pictures)
}

fn notes(model: &Model) -> Vec<String> {
    let space = &model.space;
    let build_up = |name: &str, panel: &crate::model::Panel| {
        let layers = panel.layers.iter().map(|layer| format!("{} {}", layer.material, trimmed(layer.thickness, 1)));
        let layers = layers.collect::<Vec<_>>().join(", ");
        format!("{name} {}{}{layers}", mm(panel.thickness), if layers.is_empty() { "" } else { ": " })
    };
    let panels = [("Walls", &space.walls), ("Roof", &space.roof_panel), ("Floor", &space.floor)];
    let panels: Vec<String> = panels.iter().map(|(name, panel)| build_up(name, panel)).collect();
    vec![
        format!("From inside to outside: {}.", panels.join("; ")),
        "Thick: cut. Double-dotted: other poses. Arrows: free height where a person can stand. Dimensions in mm."
            .to_owned(),
    ]
}

#[derive(Clone, Copy)]
struct Section<'a> {
    model: &'a Model,
    arrangement: &'a Arrangement,
    look: Look,
    at: f64,
}

impl<'a> Section<'a> {
    fn picture(self, short: &'a str, title: String) -> Picture<'a> {
        Picture {
            id: format!("section-{short}"),
            title,
            short,
            size: shell::inside(&self.model.space, self.look, self.at).bounds().size(),
            draw: Box::new(move |place, canvas| self.draw(place, canvas)),
        }
    }
}

impl Section<'_> {
    fn draw(&self, place: Placement, canvas: &mut Canvas) {
        let slice = Slice::new(self.model, self.arrangement, self.look, self.at, place);
        slice.draw(canvas);
        let (painter, around, room) = (&slice.painter, slice.around(), &slice.room);
        let (bounds, outer) = (room.bounds(), slice.outer());
        let layers = shell::layers(&self.model.space, room, place);
        canvas.group(LayerKind::Shell, "layers", "Layers of the panels", layers);
        let mut taken = Taken::default();
        let below = vec![("inside", vec![bounds.x0, bounds.x1]), ("outside", vec![outer.x0, outer.x1])];
        heights::draw(Side::Below, &below, &around, &mut taken, canvas);
        let top = |x: f64| room.points().iter().filter(|p| (p.x - x).abs() < 1.0).map(|p| p.y).fold(0.0, f64::max);
        let (left, right) = (top(bounds.x0), top(bounds.x1));
        heights::draw_running(Side::Left, (0.0, &heights::heights(painter, left)), &around, &mut taken, canvas);
        let wanted = vec![("inside", vec![0.0, right]), ("outside", vec![outer.y0, outer.y1])];
        heights::draw(Side::Right, &wanted, &around, &mut taken, canvas);
        self.headroom(painter, bounds, place, &mut taken, canvas);
        rings::module_numbers(painter, place, place.rect(bounds), &mut taken, canvas);
    }

    /// An arrow with the free height where most room to stand is in the plane.
    fn headroom(&self, painter: &Painter<'_>, room: Rect, place: Placement, taken: &mut Taken, canvas: &mut Canvas) {
        let Some((from, to)) = self.widest_free(painter, room) else { return };
        let x = f64::midpoint(from, to);
        let (foot, top) = (self.foot(painter, x), self.free_height(painter, x, room));
        let ends = [Point::new(x, foot), Point::new(x, top)].map(|point| place.to_paper(point));
        let mut items = double_arrow(ends[0], ends[1], LineClass::Dimension);
        let at = ends[0].lerp(ends[1], 0.5) + Vec2::new(LETTERS / 2.0, 0.0);
        let text =
            Text { at, words: mm(top - foot), height: LETTERS, align: Align::Middle, turn: 90.0, inverse: false };
        taken.add(text_box(&text));
        taken.add(Rect::from_points(ends[0], ends[1]).inflate(0.5, 0.0));
        let behind = text_box(&text).inflate(0.4, 0.6);
        items.push(Item::area(outline(behind), None, Fill::Paper));
        items.push(Item::Text(text));
        canvas.group(LayerKind::Dimensions, "headroom", "Free height", items);
    }

    /// Height of what one stands on at a place: the floor, or what the plane cuts that is low enough to step on, mm.
    fn foot(&self, painter: &Painter<'_>, x: f64) -> f64 {
        let low = self.cut(painter).into_iter().filter(|cut| cut.x0 < x && x < cut.x1 && cut.y1 <= STEP);
        low.map(|cut| cut.y1).fold(0.0, f64::max)
    }

    /// The lowest of the roof and of what the plane cuts above a place, mm.
    fn free_height(&self, painter: &Painter<'_>, x: f64, room: Rect) -> f64 {
        let roof = &self.model.space.roof;
        let across = self.look.seen(Point::new(x, 0.0)).x;
        let lining = if self.look.axis() == Axis::X { roof.height_at(across) } else { room.y1 };
        let over = self.cut(painter).into_iter().filter(|cut| cut.x0 < x && x < cut.x1 && cut.y0 > STEP);
        over.map(|cut| cut.y0).fold(lining, f64::min)
    }

    /// What the plane cuts, as it is seen.
    fn cut(&self, painter: &Painter<'_>) -> Vec<Rect> {
        let solids = painter.states.iter().flat_map(|(_, state)| &state.solids).map(|solid| &solid.prism);
        let all = solids.chain(self.model.space.cutaways.iter().map(|cutaway| &cutaway.prism));
        all.filter(|prism| painter.is_cut(prism)).map(|prism| self.look.rect(&prism.bounds())).collect()
    }

    /// The longest stretch of floor that nothing lower than a head stands on.
    fn widest_free(&self, painter: &Painter<'_>, room: Rect) -> Option<(f64, f64)> {
        let head = self.model.tallest() / 2.0;
        let mut taken: Vec<(f64, f64)> =
            self.cut(painter).iter().filter(|cut| cut.y1 > STEP && cut.y0 < head).map(|cut| (cut.x0, cut.x1)).collect();
        taken.sort_by(|a, b| a.0.total_cmp(&b.0));
        let (mut from, mut free) = (room.x0, Vec::new());
        for (low, high) in taken.into_iter().chain([(room.x1, room.x1)]) {
            free.push((from, low));
            from = from.max(high);
        }
        free.into_iter().filter(|(a, b)| b - a >= STANDING).max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))
    }
}

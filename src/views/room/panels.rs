//! Opening sheets for the shell maker: each wall, the roof and the floor with its holes, from the datum corner.

use super::gallery::{Gallery, Picture};
use super::heights::{self, Around};
use super::look::Look;
use super::{openings, shell};
use crate::base::number::trimmed;
use crate::drawing::{Align, Fill, Item, LayerKind, LineClass, Paper, Text, dimension::Side, text_box};
use crate::geometry::{Axis, Polygon};
use crate::model::{Model, Opening, Wall};
use crate::views::canvas::Canvas;
use crate::views::draft::Draft;
use crate::views::ink::{RING, Taken, centred, ring, square};
use crate::views::legend::Flexible;
use crate::views::placement::{Placement, circle, outline, polyline};
use kurbo::{Point, Rect};

const WALLS: [Wall; 6] = [Wall::Left, Wall::Right, Wall::Front, Wall::Rear, Wall::Roof, Wall::Floor];
/// Narrower than this the list of openings is hard to read, mm.
const LIST: f64 = 176.0;
/// How far middle lines reach over a hole, mm.
const OVER: f64 = 3.0;
/// Letters of names of openings, mm.
const LETTERS: f64 = 2.5;

/// Sheets of the six panels.
pub(in crate::views) fn sheets(paper: Paper, held: bool, model: &Model) -> Vec<Draft> {
    let mut drafts = Vec::new();
    for wall in WALLS {
        let picture = Picture {
            id: format!("panel-{}", wall.name()),
            title: format!("{}, {}", panel_name(wall), seen_from(wall)),
            short: wall.name(),
            size: shell::inside(&model.space, Look::inside(wall), 0.0).bounds().size(),
            draw: Box::new(move |place, canvas| Panel { model, wall }.draw(place, canvas)),
        };
        let table = table(model, wall);
        let id = format!("panel-{}", wall.name());
        let gallery = Gallery {
            paper,
            held,
            id: &id,
            title: &format!("Openings, {}", wall.name()),
            document_type: "Shell openings",
            supplement: format!("Panel: {}", wall.name()),
            scale: model.sheets.scale,
            largest: 10.0,
            notes: notes(model, wall),
            table: (!table.rows.is_empty()).then_some(table),
            together: false,
        };
        drafts.extend(gallery.sheets(&[picture]));
    }
    drafts
}

fn panel_name(wall: Wall) -> String {
    let name = super::elevations::capital(wall.name());
    if matches!(wall, Wall::Roof | Wall::Floor) { name } else { format!("{name} wall") }
}

fn seen_from(wall: Wall) -> &'static str {
    match wall {
        Wall::Roof => "seen from above",
        Wall::Floor => "seen from above, through the box",
        _ => "seen from outside",
    }
}

fn notes(model: &Model, wall: Wall) -> Vec<String> {
    let space = &model.space;
    let panel = match wall {
        Wall::Roof => &space.roof_panel,
        Wall::Floor => &space.floor,
        _ => &space.walls,
    };
    let datum = match wall {
        Wall::Left | Wall::Right => "the front lower corner",
        Wall::Front | Wall::Rear => "the lower corner at the left wall",
        Wall::Roof | Wall::Floor => "the front corner at the left wall",
    };
    let roof = if wall == Wall::Roof && space.roof.radius().is_some() {
        " The roof is curved: sizes across it are level, not along the curve."
    } else {
        ""
    };
    vec![
        format!(
            "The inside face of the panel, {} ({} mm, {} kg/m²); joints at its edges are not shown. Places are measured from \
             {datum} of the inside face (datum).{roof}",
            panel.layup,
            trimmed(panel.thickness, 1),
            trimmed(panel.areal_mass, 1)
        ),
        "Sizes are those of the hole in the panel. Dimensions in mm.".to_owned(),
    ]
}

/// The name over or under a hole, else its number in it, whatever has room.
fn name((words, number): (&str, usize), hole: Rect, (panel, holes): (Rect, &[Rect]), taken: &mut Taken) -> Vec<Item> {
    for y in [hole.y1 + OVER + 1.0, hole.y0 - OVER - LETTERS - 1.0] {
        let text =
            Text { align: Align::Start, at: Point::new(hole.x0, y), ..centred(Point::ZERO, words, LETTERS, false) };
        let around = text_box(&text).inflate(0.5, 0.5);
        let alone = panel.contains_rect(around) && holes.iter().all(|other| !other.overlaps(around));
        if alone && taken.is_free(text_box(&text)) {
            taken.add(text_box(&text));
            let plate = Item::area(outline(text_box(&text).inflate(0.4, 0.2)), None, Fill::Shell);
            return vec![plate, Item::Text(text)];
        }
    }
    let place = square(hole.center(), RING);
    if !taken.is_free(place) {
        return Vec::new();
    }
    taken.add(place);
    ring(hole.center(), number)
}

/// Number, position, size and radius of each opening.
fn table(model: &Model, wall: Wall) -> Flexible {
    let rows = openings::of_wall(model, wall).enumerate().map(|(index, opening)| {
        let size = [opening.along.1 - opening.along.0, opening.up.1 - opening.up.0].map(|value| trimmed(value, 1));
        vec![
            (index + 1).to_string(),
            opening.name.clone(),
            opening.kind.words().to_owned(),
            trimmed(opening.along.0, 1),
            trimmed(opening.up.0, 1),
            size.join(" × "),
            trimmed(opening.radius, 1),
            hinge(opening),
        ]
    });
    let columns = [
        ("no.", 8.0, true),
        ("opening", 36.0, false),
        ("kind", 24.0, false),
        ("from the datum along", 26.0, true),
        ("across or up", 22.0, true),
        ("size", 30.0, false),
        ("radius", 16.0, true),
        ("hinge", -1.0, false),
    ];
    let mut table = Flexible::new("Openings of this panel", &columns, rows.collect());
    table.least = LIST;
    table
}

fn hinge(opening: &Opening) -> String {
    let side = match opening.hinge {
        Some(Wall::Roof) => "top",
        Some(Wall::Floor) => "bottom",
        Some(wall) => wall.name(),
        None => return String::new(),
    };
    side.to_owned()
}

struct Panel<'a> {
    model: &'a Model,
    wall: Wall,
}

impl Panel<'_> {
    fn look(&self) -> Look {
        match self.wall {
            Wall::Roof | Wall::Floor => Look::inside(self.wall),
            _ => Look::outside(self.wall),
        }
    }

    fn draw(&self, place: Placement, canvas: &mut Canvas) {
        let (look, space) = (self.look(), &self.model.space);
        let plane = if self.wall == Wall::Right { space.width } else { 0.0 };
        let outline = shell::inside(space, look, plane);
        let bounds = outline.bounds();
        let sheet = Item::area(place.closed(outline.points()), Some(LineClass::Cut), Fill::Shell);
        canvas.group(LayerKind::Shell, "panel", "Panel, inside face", vec![sheet]);
        self.cutaways(&outline, place, canvas);
        let around = Around { figures: self.model.sheets.figures, outer: bounds, place };
        let mut taken = Taken::default();
        for (index, opening) in openings::of_wall(self.model, self.wall).enumerate() {
            self.opening(opening, index + 1, place, &mut taken, canvas);
        }
        let datum = self.datum(bounds);
        let mark = place.to_paper(datum);
        let cross = [(-4.0, 0.0), (4.0, 0.0), (0.0, -4.0), (0.0, 4.0)].map(|(x, y)| Point::new(mark.x + x, mark.y + y));
        let mut items = vec![Item::line(circle(mark, 2.0), LineClass::Visible)];
        items.extend([(0, 1), (2, 3)].map(|(a, b)| Item::segment(cross[a], cross[b], LineClass::Centre)));
        canvas.group(LayerKind::Dimensions, "datum", "Datum", items);
        let along = heights::openings(self.model, look, (bounds.x0, bounds.x1), false);
        let up = heights::openings(self.model, look, (bounds.y0, bounds.y1), true);
        let beside = if datum.x > bounds.x0 { Side::Right } else { Side::Left };
        heights::draw_running(Side::Below, (datum.x, &along), &around, &mut taken, canvas);
        heights::draw_running(beside, (datum.y, &up), &around, &mut taken, canvas);
    }

    /// The corner that places are measured from.
    fn datum(&self, bounds: Rect) -> Point {
        let zero = self.look().seen(Point::ZERO).x;
        Point::new(if (zero - bounds.x0).abs() < 1.0 { bounds.x0 } else { bounds.x1 }, bounds.y0)
    }

    /// The hole with its middle lines and its name.
    fn opening(&self, opening: &Opening, number: usize, place: Placement, taken: &mut Taken, canvas: &mut Canvas) {
        let look = self.look();
        let rect = place.rect(openings::seen_rect(look, opening));
        let middle = rect.center();
        let line = |a: (f64, f64), b: (f64, f64)| Item::segment(a.into(), b.into(), LineClass::Centre);
        let items = vec![
            Item::area(openings::seen_outline(look, opening, place), Some(LineClass::Visible), Fill::Paper),
            line((rect.x0 - OVER, middle.y), (rect.x1 + OVER, middle.y)),
            line((middle.x, rect.y0 - OVER), (middle.x, rect.y1 + OVER)),
        ];
        let title = format!("{}: {}", opening.name, opening.kind.words());
        canvas.group(LayerKind::Shell, &format!("opening-{}", opening.name), &title, items);
        let panel = place.rect(shell::inside(&self.model.space, look, 0.0).bounds());
        let holes = openings::of_wall(self.model, self.wall)
            .map(|other| place.rect(openings::seen_rect(look, other)).inflate(OVER, OVER));
        let name = name((&opening.name, number), rect, (panel, &holes.collect::<Vec<_>>()), taken);
        canvas.group(LayerKind::Labels, &format!("name-{}", opening.name), &title, name);
    }

    /// What is cut away of the panel, dashed.
    fn cutaways(&self, outline: &Polygon, place: Placement, canvas: &mut Canvas) {
        let look = self.look();
        let room = outline.bounds();
        let (near, far) = match look.axis() {
            Axis::X => (0.0, self.model.space.length),
            Axis::Y => (0.0, self.model.space.width),
            Axis::Z => (0.0, self.model.space.height),
        };
        let face = if matches!(self.wall, Wall::Rear | Wall::Right | Wall::Roof) { far } else { near };
        for cutaway in &self.model.space.cutaways {
            let slice = cutaway.prism.shadow(look.axis(), face - 0.5, face + 0.5);
            let shapes = slice.iter().map(|shape| look.polygon(shape));
            let lines: Vec<Item> = shapes
                .filter(|shape| shape.bounds().intersect(room).area() > 0.0)
                .map(|shape| {
                    let points = shape.points().iter().map(|p| place.to_paper(*p)).collect::<Vec<_>>();
                    let mut path = polyline(points);
                    path.close_path();
                    Item::line(path, LineClass::Above)
                })
                .collect();
            let title = format!("Cutaway {}", cutaway.name);
            canvas.group(LayerKind::Hidden, &format!("cutaway-{}", cutaway.name), &title, lines);
        }
    }
}

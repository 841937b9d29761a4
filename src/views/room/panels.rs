//! Opening sheets for the shell maker: each wall, the roof and the floor with its holes, from the datum corner.

use super::gallery::{Gallery, Picture};
use super::heights::{self, Around};
use super::look::Look;
use super::{openings, shell};
use crate::base::number::trimmed;
use crate::drawing::{Align, Fill, Item, LayerKind, LineClass, Paper, Text, dimension::Side, text_box};
use crate::figures::Figures;
use crate::geometry::Polygon;
use crate::model::{CutKind, Cutaway, Model, Opening, OpeningKind, Wall};
use crate::shell::inserts::Insert;
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::Draft;
use crate::views::kit::flexible::Flexible;
use crate::views::kit::ink::{RING, Taken, centred, ring, square};
use crate::views::kit::placement::{Placement, circle, outline};
use crate::views::kit::words::sentence;
use kurbo::{Point, Rect, Shape, Vec2};

const WALLS: [Wall; 6] = [Wall::Left, Wall::Right, Wall::Front, Wall::Rear, Wall::Roof, Wall::Floor];
/// Narrower than this the list of openings is hard to read, mm.
const LIST: f64 = 176.0;
/// Half the thickness of the slice at the inside face, mm.
const FACE: f64 = 0.5;
/// How far middle lines reach over a hole, mm.
const OVER: f64 = 3.0;
/// Letters of names of openings, mm.
const LETTERS: f64 = 2.5;
/// Half the size of the cross at an insert, mm.
const INSERT: f64 = 0.9;

/// Sheets of the six panels.
pub(in crate::views) fn sheets(paper: Paper, held: bool, figures: &Figures<'_>) -> Vec<Draft> {
    let model = figures.model;
    let panel = |wall| Panel { model, wall, placed: &figures.inserts().placed };
    let mut drafts = Vec::new();
    for wall in WALLS {
        let picture = Picture {
            id: format!("panel-{}", wall.name()),
            title: format!("{}, {}", panel_name(wall), seen_from(wall)),
            short: wall.name(),
            size: panel(wall).outline().bounds().size(),
            draw: Box::new(move |place, canvas| panel(wall).draw(place, canvas)),
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
            tables: Some(table).filter(|table| !table.rows.is_empty()).into_iter().collect(),
            together: true,
        };
        drafts.extend(gallery.sheets(&[picture]));
    }
    drafts
}

fn panel_name(wall: Wall) -> String {
    let name = sentence(wall.name());
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
        " The roof is curved: sizes across it are level, not along the curve.".to_owned()
    } else if let (Wall::Front | Wall::Rear, Some(radius)) = (wall, space.roof.radius()) {
        format!(" The upper edge is an arc of radius {}.", trimmed(radius, 1))
    } else {
        String::new()
    };
    vec![
        format!(
            "The inside face of the panel, {} ({} mm, {} kg/m²); joints at its edges are not shown; white is cut away. Places are measured from \
             {datum} of the inside face (datum).{roof}",
            panel.layup,
            trimmed(panel.thickness, 1),
            trimmed(panel.areal_mass, 1)
        ),
        "Sizes are those of the hole in the panel. Crosses: inserts, listed on sheet Inserts. Dimensions in mm."
            .to_owned(),
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
    if opening.kind == OpeningKind::DoubleDoor {
        return "both ends".to_owned();
    }
    if let Some((toward, travel)) = opening.slides {
        return format!("slides to the {}, {}", toward.name(), trimmed(travel, 1));
    }
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
    /// The inserts of all panels.
    placed: &'a [Insert],
}

impl Panel<'_> {
    fn look(&self) -> Look {
        match self.wall {
            Wall::Roof | Wall::Floor => Look::inside(self.wall),
            _ => Look::outside(self.wall),
        }
    }

    /// The inside face, as it is seen, true mm.
    fn outline(&self) -> Polygon {
        let space = &self.model.space;
        shell::inside(space, self.look(), if self.wall == Wall::Right { space.width } else { 0.0 })
    }

    fn draw(&self, place: Placement, canvas: &mut Canvas) {
        let look = self.look();
        let outline = self.outline();
        let bounds = outline.bounds();
        let sheet = Item::area(place.closed(outline.points()), Some(LineClass::Cut), Fill::Shell);
        canvas.group(LayerKind::Shell, "panel", "Panel, inside face", vec![sheet]);
        if self.wall == Wall::Roof {
            let ridges = super::roof_plan::ridges(self.model, bounds, place);
            canvas.group(LayerKind::Shell, "ridge", "Corners of the roof", ridges);
        }
        let around = Around { figures: self.model.sheets.figures, outer: bounds, place };
        let mut taken = Taken::default();
        self.inserts(place, &mut taken, canvas);
        self.cutaways(&outline, place, &mut taken, canvas);
        for (index, opening) in openings::of_wall(self.model, self.wall).enumerate() {
            self.opening(opening, index + 1, place, &mut taken, canvas);
        }
        let datum = self.datum(bounds);
        let mark = place.to_paper(datum);
        let cross = [(-4.0, 0.0), (4.0, 0.0), (0.0, -4.0), (0.0, 4.0)].map(|(x, y)| Point::new(mark.x + x, mark.y + y));
        let mut items = vec![Item::line(circle(mark, 2.0), LineClass::Visible)];
        items.extend([(0, 1), (2, 3)].map(|(a, b)| Item::segment(cross[a], cross[b], LineClass::Centre)));
        canvas.group(LayerKind::Dimensions, "datum", "Datum", items);
        let both = |upward: bool, ends: (f64, f64)| -> Vec<f64> {
            let mut values = heights::openings(self.model, look, ends, upward);
            values.extend(self.corners(&outline, upward));
            values
        };
        let (along, up) = (both(false, (bounds.x0, bounds.x1)), both(true, (bounds.y0, bounds.y1)));
        let beside = if datum.x > bounds.x0 { Side::Right } else { Side::Left };
        heights::draw_running(Side::Below, (datum.x, &along), &around, &mut taken, canvas);
        heights::draw_running(beside, (datum.y, &up), &around, &mut taken, canvas);
    }

    /// The places of inserts, as crosses.
    fn inserts(&self, place: Placement, taken: &mut Taken, canvas: &mut Canvas) {
        let own = self.placed.iter().filter(|insert| insert.wall == self.wall);
        for insert in own {
            let middle = place.to_paper(self.look().seen(insert.at));
            taken.add(square(middle, INSERT));
            let arms = [Vec2::new(INSERT, 0.0), Vec2::new(0.0, INSERT)];
            let cross = arms.map(|arm| Item::segment(middle - arm, middle + arm, LineClass::Detail));
            canvas.group(LayerKind::Furniture, &format!("insert-{}", insert.holds), &insert.holds, cross.into());
        }
    }

    /// All holes with their middle lines, on paper.
    fn holes(&self, place: Placement) -> Vec<Rect> {
        let holes = openings::of_wall(self.model, self.wall).map(|opening| openings::seen_rect(self.look(), opening));
        holes.map(|hole| place.rect(hole).inflate(OVER, OVER)).collect()
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
        let panel = place.rect(self.outline().bounds());
        let name = name((&opening.name, number), rect, (panel, &self.holes(place)), taken);
        canvas.group(LayerKind::Labels, &format!("name-{}", opening.name), &title, name);
    }

    /// What is cut away of the panel, as it is seen, true mm.
    fn cut_away(&self, outline: &Polygon) -> Vec<(&str, Polygon)> {
        let (look, space) = (self.look(), &self.model.space);
        let far = match self.wall {
            Wall::Rear => space.length,
            Wall::Right => space.width,
            Wall::Roof => space.roof.highest(),
            Wall::Front | Wall::Left | Wall::Floor => 0.0,
        };
        let room = outline.bounds();
        let others = |cutaway: &&Cutaway| cutaway.kind != CutKind::Wall(self.wall);
        let slices = space.cutaways.iter().filter(others).flat_map(|cutaway| {
            let slice = cutaway.prism.shadow(look.axis(), far - FACE, far + FACE);
            slice.into_iter().map(|shape| (cutaway.name.as_str(), look.polygon(&shape)))
        });
        slices.filter(|(_, shape)| shape.bounds().intersect(room).area() > 0.0).collect()
    }

    /// Places along (`false`) or up (`true`) that the panel has corners at: its own and those of what is cut away.
    fn corners(&self, outline: &Polygon, upward: bool) -> Vec<f64> {
        let bounds = outline.bounds();
        let of = |point: &Point| if upward { point.y } else { point.x };
        let straight = self.model.space.roof.radius().is_none();
        let own = outline.points().iter().filter(|p| straight || p.x <= bounds.x0 || p.x >= bounds.x1).map(of);
        let cut = self.cut_away(outline);
        let cut = cut.iter().flat_map(|(_, shape)| shape.points().iter().map(of).collect::<Vec<_>>());
        let (low, high) = if upward { (bounds.y0, bounds.y1) } else { (bounds.x0, bounds.x1) };
        own.chain(cut).filter(|value| (low..=high).contains(value)).chain([low, high]).collect()
    }

    /// What is cut away, as it leaves the panel, with its name.
    fn cutaways(&self, outline: &Polygon, place: Placement, taken: &mut Taken, canvas: &mut Canvas) {
        let panel = place.rect(outline.bounds());
        for (name, shape) in self.cut_away(outline) {
            let path = place.closed(shape.points());
            let title = format!("Cutaway {name}");
            let items = vec![Item::area(path.clone(), Some(LineClass::Visible), Fill::Paper)];
            canvas.group(LayerKind::Shell, &format!("cutaway-{name}"), &title, items);
            let text = centred(place.rect(shape.bounds()).intersect(panel).center(), name, LETTERS, false);
            let around = text_box(&text);
            let inside =
                [(around.x0, around.y0), (around.x1, around.y0), (around.x0, around.y1), (around.x1, around.y1)];
            let alone = self.holes(place).iter().all(|hole| !hole.overlaps(around));
            if alone && inside.into_iter().all(|corner| path.contains(corner.into())) && taken.is_free(around) {
                taken.add(around);
                canvas.group(LayerKind::Labels, &format!("cutaway-{name}"), &title, vec![Item::Text(text)]);
            }
        }
    }
}

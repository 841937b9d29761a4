//! The roof plan: what hangs from the roof and is in it, seen as in a mirror on the floor.

use super::gallery::{Gallery, Picture};
use super::heights::Around;
use super::look::Look;
use super::painter::Painter;
use super::{heights, openings, rings, shell};
use crate::drawing::{Fill, Item, LayerKind, LineClass, Paper, dimension::Side};
use crate::model::{Arrangement, Model, Module, PoseState, Wall};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::draft::Draft;
use crate::views::kit::ink::Taken;
use crate::views::kit::placement::Placement;

/// What begins higher than this above the floor hangs, mm.
const HANGS: f64 = 1000.0;

/// The sheet of the roof plan.
pub(in crate::views) fn sheets(paper: Paper, held: bool, model: &Model) -> Vec<Draft> {
    let Some(arrangement) = model.arrangements.first() else { return Vec::new() };
    let picture = Picture {
        id: "roof-plan".to_owned(),
        title: "Roof and what hangs, reflected".to_owned(),
        short: "roof",
        size: shell::inside(&model.space, Look::inside(Wall::Roof), 0.0).bounds().size(),
        draw: Box::new(move |place, canvas| draw(model, arrangement, place, canvas)),
    };
    let gallery = Gallery {
        paper,
        held,
        id: "roof-plan",
        title: "Reflected roof plan",
        document_type: "Reflected roof plan",
        supplement: format!("Arrangement: {}", arrangement.name),
        scale: model.sheets.scale,
        largest: 10.0,
        notes: vec![
            "The roof as in a mirror on the floor, so that it lies as the plans do: front to the left, left wall below. Shown is \
             what begins more than 1,000 mm above the floor, and what is in the roof. Dimensions in mm."
                .to_owned(),
        ],
        tables: Vec::new(),
        together: false,
    };
    gallery.sheets(&[picture])
}

fn hangs(state: &PoseState) -> bool {
    !state.solids.is_empty() && state.solids.iter().all(|solid| solid.prism.bounds().z.0 >= HANGS)
}

fn draw(model: &Model, arrangement: &Arrangement, place: Placement, canvas: &mut Canvas) {
    let look = Look::inside(Wall::Roof);
    let states: Vec<(&Module, &PoseState)> = model.states(arrangement).filter(|(module, _)| !module.outside).collect();
    let painter = Painter { look, plane: HANGS, states };
    let room = shell::inside(&model.space, look, 0.0);
    let wall = model.space.walls.thickness;
    let outer = room.bounds().inflate(wall, wall);
    let mut ring = crate::views::kit::placement::outline(place.rect(outer));
    ring.extend(crate::views::kit::placement::outline(place.rect(room.bounds())));
    canvas.group(LayerKind::Shell, "walls", "Walls", vec![Item::area(ring, Some(LineClass::Cut), Fill::Shell)]);
    let bounds = room.bounds();
    canvas.group(LayerKind::Shell, "ridge", "Corners of the roof", ridges(model, bounds, place));
    openings::draw(model, look, place, canvas);
    painter.paint(place, canvas);
    canvas.clip(place.rect(outer).inflate(0.5, 0.5));
    let around = Around { figures: model.sheets.figures, outer, place };
    let mut taken = Taken::default();
    let ends = (bounds.x0, bounds.x1);
    let up = (bounds.y0, bounds.y1);
    let middle = bounds.center().y;
    let below = vec![("hanging", edges(&painter, ends, Some((true, middle)))), ("inside", vec![ends.0, ends.1])];
    heights::draw(Side::Below, &below, &around, &mut taken, canvas);
    let above = vec![
        ("openings", heights::openings(model, look, ends, false)),
        ("hanging", edges(&painter, ends, Some((false, middle)))),
    ];
    let above = above.into_iter().filter(|(_, values)| values.len() > 2).collect();
    heights::draw(Side::Above, &above, &around, &mut taken, canvas);
    let left = vec![("hanging", edges(&painter, up, None)), ("inside", vec![up.0, up.1])];
    heights::draw(Side::Left, &left, &around, &mut taken, canvas);
    let right = vec![("openings", heights::openings(model, look, up, true))];
    heights::draw(Side::Right, &right, &around, &mut taken, canvas);
    rings::module_numbers(&painter, place, place.rect(bounds), &mut taken, canvas);
}

/// Edges of what hangs: along the box on the side of the left wall or of the right one, or across it.
fn edges(painter: &Painter<'_>, ends: (f64, f64), along: Option<(bool, f64)>) -> Vec<f64> {
    let mut values = vec![ends.0, ends.1];
    for (_, state) in painter.states.iter().filter(|(_, state)| hangs(state)) {
        let boxes = state.solids.iter().map(|solid| solid.prism.bounds());
        let Some(bounds) = boxes.reduce(|a, b| a.union(&b)) else { continue };
        match along {
            Some((left, middle)) if (bounds.plan().center().y < middle) == left => {
                values.extend([bounds.x.0, bounds.x.1])
            }
            None => values.extend([bounds.y.0, bounds.y.1]),
            Some(_) => {}
        }
    }
    values.retain(|value| (ends.0..=ends.1).contains(value));
    values
}

/// The lines in which a straight roof has corners.
pub(super) fn ridges(model: &Model, bounds: kurbo::Rect, place: Placement) -> Vec<Item> {
    let corners = model.space.roof.corners().into_iter().filter(|y| *y > bounds.y0 + 1.0 && *y < bounds.y1 - 1.0);
    corners
        .map(|y| {
            let ends = [bounds.x0, bounds.x1].map(|x| place.to_paper(kurbo::Point::new(x, y)));
            Item::segment(ends[0], ends[1], LineClass::Detail)
        })
        .collect()
}

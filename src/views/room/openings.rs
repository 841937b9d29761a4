//! Openings as they are seen face on.

use super::look::Look;
use super::painter::hinge_sign;
use crate::drawing::{Fill, Item, LayerKind, LineClass};
use crate::model::{Model, Opening, Swings, Wall};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::placement::Placement;
use kurbo::{BezPath, Point, Rect, Shape};

/// Flattening of rounded corners, mm.
const FLAT: f64 = 0.05;
/// Length of an arrow's head, paper mm.
const HEAD: f64 = 2.5;

/// The rectangle of an opening as it is seen, true mm.
pub(in crate::views) fn seen_rect(look: Look, opening: &Opening) -> Rect {
    let corner = |along: f64, up: f64| look.seen(Point::new(along, up));
    Rect::from_points(corner(opening.along.0, opening.up.0), corner(opening.along.1, opening.up.1))
}

/// Its outline on paper, with its corner radius.
pub(in crate::views) fn seen_outline(look: Look, opening: &Opening, place: Placement) -> BezPath {
    let rect = seen_rect(look, opening);
    let radius = opening.radius.min(rect.width() / 2.0).min(rect.height() / 2.0);
    place.path(&rect.to_rounded_rect(radius).to_path(FLAT))
}

/// The openings of the wall that is looked at.
pub(in crate::views) fn of_wall(model: &Model, wall: Wall) -> impl Iterator<Item = &Opening> {
    model.openings.iter().filter(move |opening| opening.wall == wall)
}

/// Draws the openings of the wall behind the furniture, and dashed over it.
pub(in crate::views) fn draw(model: &Model, look: Look, place: Placement, canvas: &mut Canvas) {
    for opening in of_wall(model, look.at) {
        let outline = seen_outline(look, opening, place);
        let title = format!("{}: {}", opening.name, opening.kind.words());
        let mut items = vec![Item::area(outline.clone(), Some(LineClass::Visible), Fill::Paper)];
        items.extend(opening.leaves().iter().filter_map(|leaf| hinge_lines(look, leaf, place)));
        items.extend(slide_line(look, opening, place));
        canvas.group(LayerKind::Shell, &format!("opening-{}", opening.name), &title, items);
        let hidden = vec![Item::line(outline, LineClass::Above)];
        canvas.group(LayerKind::Hidden, &format!("opening-{}", opening.name), &title, hidden);
    }
}

/// The way of a sliding leaf, with a head at its end.
fn slide_line(look: Look, opening: &Opening, place: Placement) -> Vec<Item> {
    let Some(open) = opening.slid() else { return Vec::new() };
    let at = |along: f64, up: f64| place.to_paper(look.seen(Point::new(along, up)));
    let (from, to) = (opening.hole().center(), open.center());
    let (start, end) = (at(from.x, from.y), at(to.x, to.y));
    let back = if end.x > start.x { -HEAD } else { HEAD };
    let head = |up: f64| Item::segment(Point::new(end.x + back, end.y + up), end, LineClass::Detail);
    vec![Item::segment(start, end, LineClass::Detail), head(HEAD / 3.0), head(-HEAD / 3.0)]
}

/// Dashed lines that meet at the hinge of what swings.
fn hinge_lines(look: Look, opening: &Opening, place: Placement) -> Option<Item> {
    let hinge = opening.hinge.filter(|_| opening.swings != Swings::No)?;
    let rect = place.rect(seen_rect(look, opening));
    let low_is_left = look.seen(Point::new(1.0, 0.0)).x > 0.0;
    let edge = match hinge {
        Wall::Roof => Rect { y0: rect.y1, ..rect },
        Wall::Floor => Rect { y1: rect.y0, ..rect },
        side if matches!(side, Wall::Front | Wall::Left) == low_is_left => Rect { x1: rect.x0, ..rect },
        _ => Rect { x0: rect.x1, ..rect },
    };
    Some(Item::line(hinge_sign(rect, edge), LineClass::Above))
}

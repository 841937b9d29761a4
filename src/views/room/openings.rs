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
        items.extend(hinge_lines(look, opening, place));
        canvas.group(LayerKind::Shell, &format!("opening-{}", opening.name), &title, items);
        let hidden = vec![Item::line(outline, LineClass::Above)];
        canvas.group(LayerKind::Hidden, &format!("opening-{}", opening.name), &title, hidden);
    }
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

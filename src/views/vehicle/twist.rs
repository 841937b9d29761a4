//! The front wall and the sleeve as the frame twists: at rest, and as the cab stands against them.

use super::report::Report;
use crate::base::number::{mm, trimmed};
use crate::drawing::{Align, Fill, Item, LayerKind, LineClass};
use crate::vehicle::{Moved, Twist, twist};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::placement::Placement;
use crate::views::room::gallery::Picture;
use kurbo::{Point, Size};

const LETTERS: f64 = 2.5;
const PITCH: f64 = 4.2;

/// The picture; none without a subframe that lets the frame twist.
pub(super) fn picture<'a>(report: &'a Report<'_>) -> Option<Picture<'a>> {
    let found = twist(report.model, report.vehicle)?;
    let space = &report.model.space;
    Some(Picture {
        id: "vehicle-twist".to_owned(),
        title: format!("Cab against front wall at a twist of {}°, from the rear", trimmed(found.angle, 1)),
        short: "twist",
        size: Size::new(space.width, space.height),
        draw: Box::new(move |place, canvas| draw(&found, place, canvas)),
    })
}

fn draw(found: &Twist, place: Placement, canvas: &mut Canvas) {
    let rest = |moved: &[Moved]| ring(moved.iter().map(|one| one.at).collect());
    let turned = |moved: &[Moved]| ring(moved.iter().map(|one| one.at + one.by.to_vec2()).collect());
    let wall = Item::area(place.closed(&rest(&found.corners)), Some(LineClass::Visible), Fill::Shell);
    canvas.group(LayerKind::Shell, "wall", "Front wall", vec![wall]);
    let cab = Item::line(place.closed(&turned(&found.corners)), LineClass::Moving);
    canvas.group(LayerKind::Furniture, "turned", "Where the cab has the same corners", vec![cab]);
    if !found.sleeve.is_empty() {
        let hole = Item::area(place.closed(&rest(&found.sleeve)), Some(LineClass::Visible), Fill::Paper);
        let moved = Item::line(place.closed(&turned(&found.sleeve)), LineClass::Moving);
        canvas.group(LayerKind::Shell, "sleeve", "Pass-through and its sleeve", vec![hole, moved]);
    }
    let low = found.corners.iter().chain(&found.sleeve).map(|one| one.at.y.min(one.at.y + one.by.y));
    let low = low.fold(f64::INFINITY, f64::min);
    let left = found.corners.iter().map(|one| one.at.x).fold(f64::INFINITY, f64::min);
    let at = place.to_paper(Point::new(left, low));
    let words = words(found).into_iter().enumerate().map(|(index, words)| {
        Item::text(Point::new(at.x, at.y - 2.0 - PITCH * (index as f64 + 1.0)), words, LETTERS, Align::Start)
    });
    canvas.group(LayerKind::Labels, "twist", "What the twist does", words.collect());
}

/// Corners in the order lower left, lower right, upper left, upper right as a ring.
fn ring(mut corners: Vec<Point>) -> Vec<Point> {
    if corners.len() == 4 {
        corners.swap(2, 3);
    }
    corners
}

fn words(found: &Twist) -> Vec<String> {
    let whole = |value: f64| mm(value.round());
    let corner = found.corners.iter().map(Moved::length).fold(0.0, f64::max);
    let mut words = vec![format!("Corners of the wall move by up to {}.", whole(corner))];
    if !found.sleeve.is_empty() {
        words.push(format!(
            "The sleeve is sheared by {} and stretched by {}.",
            whole(found.shear),
            whole(found.stretch)
        ));
    }
    if let Some((rest, left)) = found.under {
        words.push(format!("Of {} over the frame {} are left.", whole(rest), whole(left)));
    }
    words
}

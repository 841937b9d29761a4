//! The plan with the ways of cables and waste pipes.

use crate::drawing::{Fill, Item, LayerKind, LineClass};
use crate::geometry::Point3;
use crate::model::{Model, Run};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::{RING, Taken, ring, square};
use crate::views::kit::placement::{Placement, outline, polyline};
use crate::views::room::gallery::Picture;
use kurbo::{Point, Rect, Size};

/// Places tried along a way for its number.
const TRIES: u32 = 24;

/// The picture; none without cables and pipes.
pub(super) fn picture(model: &Model) -> Option<Picture<'_>> {
    let services = &model.services;
    let space = &model.space;
    (!services.cables.is_empty() || !services.wastes.is_empty()).then(|| Picture {
        id: "services-plan".to_owned(),
        title: "Plan".to_owned(),
        short: "plan",
        size: Size::new(space.length, space.width),
        draw: Box::new(move |place, canvas| draw(model, place, canvas)),
    })
}

/// All ways with their kind of line, cables first.
pub(super) fn ways(model: &Model) -> impl Iterator<Item = (&str, &Run, LineClass)> {
    let cables = model.services.cables.iter().map(|cable| (cable.name.as_str(), &cable.run, LineClass::Cut));
    cables.chain(model.services.wastes.iter().map(|waste| (waste.name.as_str(), &waste.run, LineClass::Above)))
}

fn draw(model: &Model, place: Placement, canvas: &mut Canvas) {
    let space = &model.space;
    let at = |point: Point3| place.to_paper(Point::new(point.x, point.y));
    let rect = |x: (f64, f64), y: (f64, f64)| place.rect(Rect::new(x.0, y.0, x.1, y.1));
    let wall = space.walls.thickness;
    let outer = rect((-wall, space.length + wall), (-wall, space.width + wall));
    let inner = rect((0.0, space.length), (0.0, space.width));
    let shell = vec![
        Item::area(outline(outer), Some(LineClass::Detail), Fill::Shell),
        Item::area(outline(inner), Some(LineClass::Detail), Fill::Paper),
    ];
    canvas.group(LayerKind::Shell, "box", "Box", shell);
    for module in &model.modules {
        let item =
            Item::area(outline(rect(module.extent.x, module.extent.y)), Some(LineClass::Detail), Fill::Furniture);
        canvas.group(LayerKind::Furniture, &format!("module-{}", module.name), &module.name, vec![item]);
    }
    for load in &model.loads {
        let Some(size) = load.size.or(load.tank.map(|tank| tank.size)) else { continue };
        let half = |middle: f64, size: f64| (middle - size / 2.0, middle + size / 2.0);
        let shape = rect(half(load.at.x, size[0]), half(load.at.y, size[1]));
        let item = Item::line(outline(shape), LineClass::Moving);
        canvas.group(LayerKind::Furniture, &format!("load-{}", load.name), &load.name, vec![item]);
    }
    let mut taken = Taken::default();
    for (index, (name, run, line)) in ways(model).enumerate() {
        let points: Vec<Point> = run.points.iter().map(|point| at(*point)).collect();
        canvas.group(
            LayerKind::Dimensions,
            &format!("way-{name}"),
            name,
            vec![Item::line(polyline(points.iter().copied()), line)],
        );
        let middle = number_place(&points, &taken);
        taken.add(square(middle, RING));
        canvas.group(LayerKind::Labels, &format!("number-{name}"), name, ring(middle, index + 1));
    }
}

/// A place on a way for its number: near its middle, clear of other numbers.
fn number_place(points: &[Point], taken: &Taken) -> Point {
    let along = |share: f64| at_share(points, share);
    let tries = (0..TRIES).map(|step| {
        let off = f64::from(step.div_ceil(2)) / f64::from(TRIES);
        if step % 2 == 0 { 0.5 + off } else { 0.5 - off }
    });
    let mut places = tries.filter(|share| (0.0..=1.0).contains(share)).map(along);
    places.find(|place| taken.is_free(square(*place, RING))).unwrap_or_else(|| along(0.5))
}

/// The point at a share of the length of a chain.
fn at_share(points: &[Point], share: f64) -> Point {
    let legs = || points.iter().zip(points.iter().skip(1));
    let mut left = legs().map(|(a, b)| a.distance(*b)).sum::<f64>() * share;
    for (a, b) in legs() {
        let leg = a.distance(*b);
        if left <= leg && leg > 0.0 {
            return a.lerp(*b, left / leg);
        }
        left -= leg;
    }
    points.last().copied().unwrap_or_default()
}

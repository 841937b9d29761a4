//! The underside of the vehicle seen from the side: what the ground may touch.

use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::Axis;
use crate::model::{BoxSpace, CutKind, Load, Model, Vehicle};
use kurbo::Point;

/// Outlines of the underside in (X, Z).
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Underside {
    /// Chains of points, each straight from one to the next.
    pub chains: Vec<(String, Vec<Point>)>,
}

impl Underside {
    /// All straight pieces with what they belong to.
    pub fn edges(&self) -> impl Iterator<Item = (&str, Point, Point)> {
        self.chains.iter().flat_map(|(name, chain)| {
            let single = if chain.len() == 1 { chain.first().map(|point| (*point, *point)) } else { None };
            let pairs = chain.iter().zip(chain.iter().skip(1)).map(|(a, b)| (*a, *b));
            pairs.chain(single).map(move |(a, b)| (name.as_str(), a, b))
        })
    }

    /// All corners with what they belong to.
    pub fn corners(&self) -> impl Iterator<Item = (&str, Point)> {
        self.chains.iter().flat_map(|(name, chain)| chain.iter().map(move |point| (name.as_str(), *point)))
    }
}

/// The underside of box, frame, loads below the floor, and the corners that the layout gives.
#[must_use]
pub fn underside(model: &Model, vehicle: &Vehicle) -> Underside {
    let mut chains = vec![("box".to_owned(), of_box(&model.space, vehicle))];
    if let Some(frame) = vehicle.frame {
        let ends = [-vehicle.ahead, frame.rear].map(|x| Point::new(x, frame.bottom));
        chains.push(("frame".to_owned(), ends.to_vec()));
    }
    if !vehicle.underside.is_empty() {
        chains.push(("underside".to_owned(), vehicle.underside.clone()));
    }
    let below = model.loads.iter().filter_map(|load| below(load, vehicle));
    chains.extend(below);
    Underside { chains }
}

/// The lower edge of the box from its front to its rear outside, with a slope off the rear or front edge.
fn of_box(space: &BoxSpace, vehicle: &Vehicle) -> Vec<Point> {
    let (wall, floor) = (space.walls.thickness, space.floor.thickness);
    let (front, rear) = (-wall, space.length + wall);
    let mut chain = vec![Point::new(front, -floor), Point::new(rear, -floor)];
    for cutaway in
        space.cutaways.iter().filter(|cutaway| cutaway.kind == CutKind::Floor && cutaway.prism.axis == Axis::Y)
    {
        let Some((low, high)) = slope(cutaway.prism.outline.points(), space.length) else { continue };
        // The outside of the slope lies `floor` square below its inside, so this much straight below.
        let (run, drop) = (high - low, floor * low.distance(high) / (high.x - low.x).abs());
        let level = low.x + (drop - floor) * run.x / run.y;
        let upright = |x: f64| low.y + run.y / run.x * (x - low.x) - drop;
        if run.x > 0.0 {
            chain.pop();
            chain.extend([Point::new(level, -floor), Point::new(rear, upright(rear))]);
        } else {
            chain.remove(0);
            chain.splice(0..0, [Point::new(front, upright(front)), Point::new(level, -floor)]);
        }
    }
    chain.iter().map(|point| Point::new(vehicle.along(point.x), point.y + vehicle.floor_height)).collect()
}

/// The sloped edge of a wedge: its point on the floor, and its point on the rear or front wall.
fn slope(points: &[Point], length: f64) -> Option<(Point, Point)> {
    let on_floor = |point: &&Point| point.y.abs() < SAME_LENGTH;
    let on_wall = |point: &&Point| {
        point.y > SAME_LENGTH && (point.x.abs() < SAME_LENGTH || (point.x - length).abs() < SAME_LENGTH)
    };
    let high = *points.iter().find(on_wall)?;
    let low = points.iter().filter(on_floor).max_by(|a, b| (a.x - high.x).abs().total_cmp(&(b.x - high.x).abs()))?;
    (points.len() == 3).then_some((*low, high))
}

/// The lower edge of a load that reaches below the floor.
fn below(load: &Load, vehicle: &Vehicle) -> Option<(String, Vec<Point>)> {
    let size = load.size.or(load.tank.map(|tank| tank.size))?;
    let low = load.at.z - size[2] / 2.0;
    let x = vehicle.along(load.at.x);
    let z = low + vehicle.floor_height;
    let ends = [x - size[0] / 2.0, x + size[0] / 2.0].map(|x| Point::new(x, z));
    (low < 0.0).then(|| (load.name.clone(), ends.to_vec()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Polygon, Prism};
    use crate::model::Cutaway;
    use crate::source::Span;

    fn space() -> BoxSpace {
        let outline = Polygon::new([(3700.0, 0.0), (4000.0, 0.0), (4000.0, 400.0)].map(Point::from).to_vec());
        let prism = Prism { axis: Axis::Y, outline, low: 0.0, high: 2000.0 };
        let mut space = crate::model::testing::space(4000.0, 2000.0, 2000.0);
        space.floor.thickness = 60.0;
        space.cutaways.push(Cutaway {
            name: "departure".to_owned(),
            prism,
            kind: CutKind::Floor,
            span: Span::default(),
        });
        space
    }

    /// By hand: the slope is that of 3-4-5; its outside is 60 mm square from its inside, so 100 mm straight below it. It
    /// meets the floor's underside 30 mm behind the inside corner, and the wall's outside, 40 mm behind the inside, at 353.3.
    #[test]
    fn the_slope_is_as_thick_as_the_floor() {
        let vehicle = crate::model::testing::vehicle();
        let chain = of_box(&space(), &vehicle);
        let back = |point: &Point| (point.x - vehicle.box_from_front, point.y - vehicle.floor_height);
        let found: Vec<(f64, f64)> = chain.iter().map(back).collect();
        let wanted = [(-40.0, -60.0), (3730.0, -60.0), (4040.0, 400.0 + 40.0 * 4.0 / 3.0 - 100.0)];
        assert_eq!(found.len(), 3);
        assert!(found.iter().zip(wanted).all(|(a, b)| (a.0 - b.0).hypot(a.1 - b.1) < 1e-9), "{found:?}");
    }
}

//! The vehicle from its left side: plain wheels, frame, cab and body, with tangent planes, axle loads and dimensions.

use super::report::{CAUTION, Report};
use crate::base::number::{mm, trimmed};
use crate::base::tolerance::SAME_LENGTH;
use crate::drawing::{Align, Fill, Item, LayerKind, LineClass, dimension::Side};
use crate::geometry::Axis;
use crate::model::{CutKind, Load, VehicleKind};
use crate::vehicle::{Angles, Touch, angles, outside, underside};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::Taken;
use crate::views::kit::placement::{Placement, circle, outline};
use crate::views::room::gallery::Picture;
use crate::views::room::heights::{Around, draw};
use kurbo::{Point, Rect, Size};

/// Letters of loads and angles, mm.
const LETTERS: f64 = 2.5;
/// Radius of the sign of the centre of gravity, mm.
const CENTRE: f64 = 2.0;
/// How far tangent planes reach past what they touch, true mm.
const PAST: f64 = 500.0;
/// Room for the words of an angle, mm.
const ANGLE: f64 = 26.0;
/// From line to line of the words under the ground, mm.
const PITCH: f64 = 4.2;

/// The picture.
pub(super) fn picture<'a>(report: &'a Report<'_>) -> Picture<'a> {
    let size = outside(report.model, report.vehicle);
    Picture {
        id: "vehicle-side".to_owned(),
        title: "From the left".to_owned(),
        short: "side",
        size: Size::new(size.length, size.height),
        draw: Box::new(move |place, canvas| View { report, place }.draw(canvas)),
    }
}

/// Notes under the picture.
pub(super) fn notes(report: &Report<'_>) -> Vec<String> {
    let centre = report.full().map(|full| {
        format!(
            "Quartered disc: centre of gravity in the case `full`, {} behind the {}, {} above the ground.",
            mm(full.centre.x.round()),
            report.vehicle.kind.front_words(),
            mm(full.centre.z.round())
        )
    });
    let angles = "Slanted lines: planes tangent to the tyres that just touch the underside (ISO 612). Loads are those of the \
                  worst case of each axle, with its limit.";
    centre.into_iter().chain([angles.to_owned(), CAUTION.to_owned()]).collect()
}

struct View<'a> {
    report: &'a Report<'a>,
    place: Placement,
}

impl View<'_> {
    fn draw(&self, canvas: &mut Canvas) {
        let vehicle = self.report.vehicle;
        let size = outside(self.report.model, vehicle);
        let low = vehicle.along(-self.report.model.space.walls.thickness).min(-vehicle.ahead);
        let outer = Rect::new(low, 0.0, low + size.length, size.height);
        self.ground(outer, canvas);
        self.body(canvas);
        self.cab_and_frame(canvas);
        self.below(canvas);
        self.wheels(canvas);
        let mut taken = Taken::default();
        self.angles(outer, canvas);
        self.centre(canvas);
        let lowest = self.loads(canvas);
        let figures = self.report.model.sheets.figures;
        let floor = -lowest * self.place.scale;
        let around = Around { figures, outer: Rect { y0: floor, ..outer }, place: self.place };
        let lengths = vec![("axles", self.supports(outer)), ("overall", vec![outer.x0, outer.x1])];
        draw(Side::Below, &lengths, &around, &mut taken, canvas);
        let upward = vec![("heights", vec![0.0, vehicle.floor_height, size.height])];
        let beside = outer.x1 + PAST + ANGLE * self.place.scale;
        let around = Around { figures, outer: Rect { x1: beside, ..outer }, place: self.place };
        draw(Side::Right, &upward, &around, &mut taken, canvas);
    }

    /// Ends of the vehicle and its supports.
    fn supports(&self, outer: Rect) -> Vec<f64> {
        let vehicle = self.report.vehicle;
        vec![outer.x0, 0.0, vehicle.wheelbase, outer.x1]
    }

    fn ground(&self, outer: Rect, canvas: &mut Canvas) {
        let ends = [outer.x0 - PAST, outer.x1 + PAST].map(|x| self.place.to_paper(Point::new(x, 0.0)));
        canvas.group(LayerKind::Shell, "ground", "Ground", vec![Item::segment(ends[0], ends[1], LineClass::Visible)]);
    }

    /// The box from outside, with its floor line.
    fn body(&self, canvas: &mut Canvas) {
        let (model, vehicle) = (self.report.model, self.report.vehicle);
        let sides = underside(model, vehicle);
        let Some((_, chain)) = sides.chains.first() else { return };
        let space = &model.space;
        let top = vehicle.floor_height + space.roof.height_at(0.0) + space.roof_panel.thickness;
        let crown = space.roof.highest();
        let crown = vehicle.floor_height + crown + space.roof_panel.thickness;
        let ends = chain.first().zip(chain.last()).map(|(first, last)| (first.x, last.x)).unwrap_or_default();
        let mut points = chain.clone();
        points.extend(self.upper_edge(ends, crown));
        let body = Item::area(self.place.closed(&points), Some(LineClass::Visible), Fill::Shell);
        let line = [ends.0, ends.1].map(|x| self.place.to_paper(Point::new(x, top)));
        let eaves = Item::segment(line[0], line[1], LineClass::Detail);
        let corners = space.cutaways.iter().filter(|cutaway| cutaway.kind == CutKind::Corner);
        let begin = corners.flat_map(|cutaway| {
            let x = cutaway.prism.bounds().x;
            [x.0, x.1].into_iter().filter(|x| *x > SAME_LENGTH && *x < space.length - SAME_LENGTH)
        });
        let mut begin: Vec<f64> = begin.collect();
        begin.sort_by(f64::total_cmp);
        begin.dedup();
        let edges = begin.into_iter().map(|x| {
            let x = vehicle.along(x);
            let line =
                [vehicle.floor_height - space.floor.thickness, crown].map(|z| self.place.to_paper(Point::new(x, z)));
            Item::segment(line[0], line[1], LineClass::Visible)
        });
        let items = [body, eaves].into_iter().chain(edges).collect();
        canvas.group(LayerKind::Shell, "body", "Box", items);
    }

    /// The upper edge of the box from its rear to its front outside, with slopes off the roof's ends.
    fn upper_edge(&self, (front, rear): (f64, f64), crown: f64) -> Vec<Point> {
        let (space, vehicle) = (&self.report.model.space, self.report.vehicle);
        let mut edge = vec![Point::new(rear, crown), Point::new(front, crown)];
        let roofs = space.cutaways.iter().filter(|cut| cut.kind == CutKind::Roof && cut.prism.axis == Axis::Y);
        for cut in roofs {
            let bounds = cut.prism.outline.bounds();
            let (long, high) = (bounds.width(), bounds.height());
            // The outside lies the roof's thickness square above the inside of the slope.
            let lift = space.roof_panel.thickness * long.hypot(high) / long;
            let level = (lift - space.roof_panel.thickness) * long / high;
            let foot = |past: f64| vehicle.floor_height + bounds.y0 - past * high / long + lift;
            let at_rear = bounds.x1 >= space.length - SAME_LENGTH;
            if at_rear {
                let past = rear - vehicle.along(space.length);
                let slope = [Point::new(rear, foot(past)), Point::new(vehicle.along(bounds.x0) + level, crown)];
                edge.splice(0..1, slope);
            } else {
                let past = vehicle.along(0.0) - front;
                edge.pop();
                edge.extend([Point::new(vehicle.along(bounds.x1) - level, crown), Point::new(front, foot(past))]);
            }
        }
        edge
    }

    fn cab_and_frame(&self, canvas: &mut Canvas) {
        let vehicle = self.report.vehicle;
        let mut rects = Vec::new();
        if let Some(frame) = vehicle.frame {
            rects.push(("frame", Rect::new(-vehicle.ahead, frame.bottom, frame.rear, frame.top)));
        }
        if let Some(cab) = vehicle.cab {
            let low = vehicle.frame.map_or(vehicle.tyre_radius, |frame| frame.top);
            rects.push(("cab", Rect::new(-vehicle.ahead, low, cab.rear, cab.top)));
        }
        for (name, rect) in rects {
            let item = Item::area(outline(self.place.rect(rect)), Some(LineClass::Visible), Fill::Paper);
            canvas.group(LayerKind::Furniture, name, name, vec![item]);
        }
    }

    /// Tanks and things under the floor, and the corners that the layout gives.
    fn below(&self, canvas: &mut Canvas) {
        let vehicle = self.report.vehicle;
        for load in &self.report.model.loads {
            let Some(rect) = self.side_of(load) else { continue };
            let item = Item::area(outline(self.place.rect(rect)), Some(LineClass::Detail), Fill::Furniture);
            canvas.group(LayerKind::Furniture, &format!("load-{}", load.name), &load.name, vec![item]);
        }
        let corners: Vec<Item> = vehicle
            .underside
            .iter()
            .zip(vehicle.underside.iter().skip(1))
            .map(|(a, b)| Item::segment(self.place.to_paper(*a), self.place.to_paper(*b), LineClass::Visible))
            .collect();
        canvas.group(LayerKind::Furniture, "underside", "Underside", corners);
    }

    fn side_of(&self, load: &Load) -> Option<Rect> {
        let size = load.size.or(load.tank.map(|tank| tank.size))?;
        let vehicle = self.report.vehicle;
        let middle = Point::new(vehicle.along(load.at.x), load.at.z + vehicle.floor_height);
        let rect = Rect::from_center_size(middle, (size[0], size[2]));
        (load.at.z < 0.0).then_some(rect)
    }

    fn wheels(&self, canvas: &mut Canvas) {
        let vehicle = self.report.vehicle;
        let radius = vehicle.tyre_radius / self.place.scale;
        for (index, x) in vehicle.wheels().into_iter().enumerate() {
            let middle = self.place.to_paper(Point::new(x, vehicle.tyre_radius));
            let tyre = Item::area(circle(middle, radius), Some(LineClass::Cut), Fill::Paper);
            let rim = Item::line(circle(middle, radius * 0.6), LineClass::Detail);
            canvas.group(LayerKind::Furniture, &format!("wheel-{}", index + 1), "Wheel", vec![tyre, rim]);
        }
        if vehicle.kind == VehicleKind::Trailer {
            let at = self.place.to_paper(Point::new(0.0, vehicle.frame.map_or(vehicle.tyre_radius, |frame| frame.top)));
            let ball = Item::area(circle(at, 1.2), Some(LineClass::Visible), Fill::Ink);
            canvas.group(LayerKind::Furniture, "coupling", "Coupling", vec![ball]);
        }
    }

    /// The tangent planes with their angles at their outer ends; the ramp's angle is with the loads.
    fn angles(&self, outer: Rect, canvas: &mut Canvas) {
        let vehicle = self.report.vehicle;
        let Angles { approach, departure, ramp } = angles(vehicle, &underside(self.report.model, vehicle));
        let wheels = vehicle.wheels();
        let (first, last) = (wheels.first().copied().unwrap_or(0.0), wheels.last().copied().unwrap_or(0.0));
        if let Some(touch) = &departure {
            self.plane(("departure", Align::Start), touch, (last, outer.x1 + PAST), canvas);
        }
        if let Some(touch) = &approach {
            self.plane(("approach", Align::End), touch, (first, outer.x0 - PAST), canvas);
        }
        if let (Some(touch), Some(next)) = (&ramp, wheels.get(1)) {
            let to = |x: f64, z: f64| self.place.to_paper(Point::new(x, z));
            let radius = vehicle.tyre_radius;
            let contact = |wheel: f64, side: f64| {
                let (d, h) = ((touch.at.x - wheel).abs(), touch.at.y - radius);
                let angle = h.atan2(d) + (radius / d.hypot(h)).asin();
                to(wheel + side * radius * angle.sin(), radius * (1.0 - angle.cos()))
            };
            let peak = to(touch.at.x, touch.at.y);
            let lines =
                [contact(first, 1.0), contact(*next, -1.0)].map(|from| Item::segment(from, peak, LineClass::Dimension));
            canvas.group(LayerKind::Dimensions, "ramp", "Ramp angle", lines.into());
        }
    }

    /// One plane from its tyre to an X beyond the vehicle, with its angle there.
    fn plane(&self, (name, align): (&str, Align), touch: &Touch, (wheel, end): (f64, f64), canvas: &mut Canvas) {
        let side = (end - wheel).signum();
        let (angle, radius) = (touch.angle.to_radians(), self.report.vehicle.tyre_radius);
        let contact = Point::new(wheel + side * radius * angle.sin(), radius * (1.0 - angle.cos()));
        let far = Point::new(end, contact.y + (end - contact.x).abs() * angle.tan());
        let [from, to] = [contact, far].map(|point| self.place.to_paper(point));
        let words = format!("{name} {}°", trimmed(touch.angle, 1));
        let text = Item::text(Point::new(to.x + side * 1.0, to.y - LETTERS / 2.0), words, LETTERS, align);
        let items = vec![Item::segment(from, to, LineClass::Dimension), text];
        canvas.group(LayerKind::Dimensions, name, &format!("The {name} angle"), items);
    }

    fn centre(&self, canvas: &mut Canvas) {
        let Some(full) = self.report.full() else { return };
        let middle = self.place.to_paper(Point::new(full.centre.x, full.centre.z));
        let quarter = |start: f64| {
            let mut shape = crate::views::kit::placement::arc(middle, CENTRE, start, 90.0);
            shape.line_to(middle);
            shape.close_path();
            Item::area(shape, None, Fill::Ink)
        };
        let ring = Item::area(circle(middle, CENTRE), Some(LineClass::Detail), Fill::Paper);
        canvas.group(LayerKind::Labels, "centre", "Centre of gravity, full", vec![ring, quarter(0.0), quarter(180.0)]);
    }

    /// Loads under the supports and the ramp angle between them; how far below the ground it reaches, mm.
    fn loads(&self, canvas: &mut Canvas) -> f64 {
        let (vehicle, weighed) = (self.report.vehicle, &self.report.weighed);
        let most = |load: &dyn Fn(&crate::vehicle::Weighed) -> f64| weighed.iter().map(load).fold(0.0, f64::max);
        let mut row = |name: &str, x: f64, lines: Vec<String>| {
            let at = self.place.to_paper(Point::new(x, 0.0));
            let items = lines.into_iter().enumerate().map(|(index, words)| {
                let base = at.y - PITCH * (index as f64 + 1.0);
                Item::text(Point::new(at.x, base), words, LETTERS, Align::Middle)
            });
            canvas.group(LayerKind::Labels, name, name, items.collect());
        };
        let load = |value: f64, limit: f64| format!("{} of {} kg", trimmed(value, 0), trimmed(limit, 0));
        let front = load(most(&|one| one.front), vehicle.front.limit);
        let rear = load(most(&|one| one.rear), vehicle.rear.limit);
        row("load-front", 0.0, vec![vehicle.kind.front_words().to_owned(), front]);
        row("load-rear", vehicle.wheelbase, vec!["rear axle".to_owned(), rear]);
        let found = angles(vehicle, &underside(self.report.model, vehicle));
        if let Some(ramp) = found.ramp {
            row("ramp-angle", vehicle.wheelbase / 2.0, vec![format!("ramp {}°", trimmed(ramp.angle, 1))]);
        }
        PITCH * 2.0 + 2.0
    }
}

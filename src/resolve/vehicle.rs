//! The vehicle, what it carries beside the furniture, and its load cases.

use super::names::Resolver;
use crate::diagnostic::Diagnostic;
use crate::geometry::{Box3, Point3, Prism};
use crate::language::expression::{Expr, Failed};
use crate::language::{CAB, FRAME, FRONT, LoadCaseDoc, LoadDoc, OVERHANG, REAR, SUBFRAME, VEHICLE, VehicleDoc};
use crate::model::{
    Arrangement, Axle, Cab, FrameLine, Holds, Load, LoadKind, OwnCase, Region, Subframe, Tank, Vehicle, VehicleKind,
};
use crate::source::{Span, Spanned};
use kurbo::Point;

/// Fill of tanks that say none, in the cases empty, running order and full: fuel 90 % in running order as Regulation (EU)
/// 1230/2012 has it; fresh water full when it rides along, which is an input (sources differ); waste tanks empty.
const FILL: [(Holds, [f64; 3]); 5] = [
    (Holds::Fresh, [0.0, 1.0, 1.0]),
    (Holds::Grey, [0.0, 0.0, 0.0]),
    (Holds::Black, [0.0, 0.0, 0.0]),
    (Holds::Fuel, [0.0, 0.9, 1.0]),
    (Holds::Other, [0.0, 1.0, 1.0]),
];
/// Diesel, kilograms a litre: 0.82 to 0.845 at 15 °C by EN 590.
const DIESEL: f64 = 0.835;

impl Resolver<'_> {
    /// The vehicle, if the layout has one that could be made.
    pub fn vehicle(&mut self) -> Option<Vehicle> {
        let entry = self.doc.vehicle.as_ref()?;
        self.one_vehicle(&entry.value, entry.span).ok()
    }

    fn one_vehicle(&mut self, doc: &VehicleDoc, span: Span) -> Result<Vehicle, Failed> {
        let figures = self.figures(&VEHICLE, &doc.figures);
        let front = self.figures(&FRONT, &doc.front);
        let rear = self.figures(&REAR, &doc.rear);
        let cab = doc.cab.as_ref().map(|cab| self.figures(&CAB, cab)).transpose();
        let frame = doc.frame.as_ref().map(|frame| self.figures(&FRAME, frame)).transpose();
        let overhang = doc.overhang.as_ref().map(|limit| self.figures(&OVERHANG, limit)).transpose();
        let subframe = doc.subframe.as_ref().map(|subframe| self.subframe(subframe)).transpose();
        let underside: Result<Vec<Point>, Failed> = doc.underside.iter().map(|point| self.corner(point)).collect();
        let seats: Result<Vec<_>, Failed> = doc.seats.iter().map(|seat| self.point3(&seat.value)).collect();
        let kind = kind_of(doc);
        let [limit, bare, track, least] = front?;
        let front = Axle { limit, least, bare, track, spread: 0.0, share: 1.0 };
        self.refuse_wrong_front(doc, kind, front, span)?;
        let [limit, bare, track, least, spread, share] = rear?;
        let rear = Axle { limit, least, bare, track, spread, share: share / 100.0 };
        let [wheelbase, gross, from_front, floor, tyre, height, right, box_right, ahead, behind, on_roof, beside] =
            figures?;
        let [share, most] = overhang?.unwrap_or([0.0, 0.0]);
        for (axle, doc) in [(front, doc.front.span), (rear, doc.rear.span)] {
            self.refuse_odd_axle(axle, doc)?;
        }
        let frame = frame?;
        if let Some([top, bottom, ..]) = frame.filter(|[top, bottom, ..]| top <= bottom) {
            let message = format!("the frame's `top` of {top} mm is not above its `bottom` of {bottom} mm");
            let place = doc.frame.as_ref().map_or(span, |frame| frame.span);
            return Err(self.error(Diagnostic::new(place, message).help("both are heights above the ground")));
        }
        Ok(Vehicle {
            kind,
            region: region_of(doc),
            wheelbase,
            gross,
            box_from_front: from_front,
            floor_height: floor,
            tyre_radius: tyre,
            bare_height: height,
            bare_right: right,
            box_right,
            ahead,
            behind,
            on_roof,
            beside,
            front,
            rear,
            cab: cab?.map(|[rear, top, width]| Cab { rear, top, width }),
            frame: frame.map(|[top, bottom, rear, width]| FrameLine { top, bottom, rear, width }),
            underside: underside?,
            overhang: (share / 100.0, most),
            subframe: subframe?,
            seats: seats?,
            span,
            axle_spans: [doc.front.span, doc.rear.span],
        })
    }

    fn corner(&mut self, [x, z]: &[Expr; 2]) -> Result<Point, Failed> {
        let (x, z) = (self.figure(x), self.within(z, (0.0, 5_000.0), "height above the ground", " mm"));
        Ok(Point::new(x?, z?))
    }

    fn subframe(&mut self, doc: &Spanned<crate::language::FiguresDoc<6>>) -> Result<Subframe, Failed> {
        let [fixed_at, twist, cab_gap, least_gap, sleeve_shear, sleeve_stretch] =
            self.figures(&SUBFRAME, &doc.value)?;
        Ok(Subframe { fixed_at, twist, cab_gap, least_gap, sleeve_shear, sleeve_stretch, span: doc.span })
    }

    /// The bare load and the least load of an axle lie below its limit.
    fn refuse_odd_axle(&mut self, axle: Axle, span: Span) -> Result<(), Failed> {
        for (name, value) in [("bare", axle.bare), ("least", axle.least)] {
            if value > axle.limit {
                let message = format!("`{name}` of {value} kg is more than the axle's `limit` of {} kg", axle.limit);
                return Err(self.error(Diagnostic::new(span, message).help("all three are kilograms on this axle")));
            }
        }
        Ok(())
    }

    /// A trailer rests on a coupling, everything else on a front axle with wheels.
    fn refuse_wrong_front(
        &mut self,
        doc: &VehicleDoc,
        kind: VehicleKind,
        front: Axle,
        span: Span,
    ) -> Result<(), Failed> {
        let trailer = kind == VehicleKind::Trailer;
        if trailer != doc.coupled {
            let (has, wants) =
                if trailer { ("a `front` axle", "a `coupling`") } else { ("a `coupling`", "a `front` axle") };
            let kind = if trailer { "a trailer" } else { "a vehicle that is no trailer" };
            let error = Diagnostic::new(doc.front.span, format!("{kind} has {has} here and wants {wants}"));
            return Err(
                self.error(error.help("trailers have `axles: { coupling, rear }`, others `axles: { front, rear }`"))
            );
        }
        if !trailer && front.track <= 0.0 {
            let error = Diagnostic::new(doc.front.span, "the front axle has no `track`");
            return Err(
                self.error(error.help("add `track: 1800`; for a trailer write `kind: trailer` and `coupling:`"))
            );
        }
        if trailer && front.track > 0.0 {
            let error = Diagnostic::new(doc.front.span, "a trailer's coupling has no `track`");
            return Err(self.error(error.help("remove `track`, or `kind: trailer`")));
        }
        if trailer && self.doc.vehicle.as_ref().is_some_and(|vehicle| vehicle.value.subframe.is_some()) {
            let error = Diagnostic::new(span, "a trailer has no cab that its box moves against, and no `subframe`");
            return Err(self.error(error.help("remove `subframe`")));
        }
        Ok(())
    }

    /// Tanks and things that could be made.
    pub fn loads(&mut self) -> Vec<Load> {
        let doc = self.doc;
        let mut made = Vec::new();
        for (name, entry) in &doc.loads {
            if let Ok(load) = self.load(name, &entry.value, entry.span) {
                made.push(load);
            }
        }
        made
    }

    fn load(&mut self, name: &str, doc: &LoadDoc, span: Span) -> Result<Load, Failed> {
        const MASS: (f64, f64) = (0.0, 10_000.0);
        let at = self.point3(&doc.at.value);
        let mass = doc.mass.as_ref().map_or(Ok(0.0), |mass| self.within(mass, MASS, "mass", " kg"));
        let size = doc.size.as_ref().map(|size| self.size3(&size.value)).transpose();
        let tank = doc.tank.as_ref().map(|size| self.tank(doc, &size.value)).transpose();
        let only_full = doc.aboard.as_ref().is_some_and(|aboard| aboard.value == "full");
        let filler = doc.filler.as_ref().map(|point| self.point3(&point.value)).transpose();
        if let Some(point) = doc.filler.as_ref().filter(|_| doc.tank.is_none()) {
            let error = Diagnostic::new(point.span, "a `filler` at something that is no tank");
            return Err(self.error(error.help("add `tank: [length, width, height]`, or remove `filler`")));
        }
        let kind = doc.kind.as_ref().map_or(LoadKind::Other, |kind| kind.value);
        let (at, size, tank) = (at?, size?, tank?);
        let room = size.or(tank.map(|tank| tank.size)).map(|size| room(at, size));
        let name = name.to_owned();
        Ok(Load { name, at, mass: mass?, size, room, kind, tank, filler: filler?, only_full, span })
    }

    fn size3(&mut self, size: &[Expr; 3]) -> Result<[f64; 3], Failed> {
        let [x, y, z] = size.each_ref().map(|side| self.positive(side, "a size"));
        Ok([x?, y?, z?])
    }

    fn tank(&mut self, doc: &LoadDoc, written: &[Expr; 3]) -> Result<Tank, Failed> {
        const LARGEST: f64 = 5_000.0;
        let size = self.size3(written)?;
        if let Some((side, expr)) = size.iter().zip(written).find(|(side, _)| **side > LARGEST) {
            let message = format!("a tank {side} mm long; its sides are at most {LARGEST} mm");
            return Err(self.error(Diagnostic::new(expr.span, message).help("`tank` is [length, width, height] in mm")));
        }
        let holds = doc.holds.as_ref().map_or(Holds::Other, |holds| holds.value);
        let usual = if holds == Holds::Fuel { DIESEL } else { 1.0 };
        let density = doc.density.as_ref();
        let density = density.map_or(Ok(usual), |density| self.within(density, (0.0, 20.0), "density", " kg/l"))?;
        let mut fill = FILL.iter().find(|(known, _)| *known == holds).map_or([0.0; 3], |(_, fill)| *fill);
        for (share, expr) in fill.iter_mut().zip(&doc.fill) {
            if let Some(expr) = expr {
                *share = self.within(expr, (0.0, 1.0), "fill", "")?;
            }
        }
        Ok(Tank { size, holds, density, fill })
    }

    /// The layout's own load cases that could be made.
    pub fn load_cases(&mut self, arrangements: &[Arrangement], loads: &[Load]) -> Vec<OwnCase> {
        let doc = self.doc;
        let mut made = Vec::new();
        for (name, entry) in &doc.load_cases {
            if let Ok(case) = self.load_case(name, &entry.value, entry.span, arrangements, loads) {
                made.push(case);
            }
        }
        made
    }

    fn load_case(
        &mut self,
        name: &str,
        doc: &LoadCaseDoc,
        span: Span,
        arrangements: &[Arrangement],
        loads: &[Load],
    ) -> Result<OwnCase, Failed> {
        let mut arrangement = None;
        if let Some(wanted) = &doc.arrangement {
            arrangement = arrangements.iter().position(|known| known.name == wanted.value);
            if arrangement.is_none() {
                self.unknown_entry(wanted, "arrangement", arrangements.iter().map(|known| &known.name));
                return Err(Failed);
            }
        }
        let people = doc.people.as_ref().map(|people| self.within(people, (0.0, 64.0), "people", "")).transpose()?;
        let contents = doc.contents.as_ref();
        let contents = contents.map_or(Ok(100.0), |share| self.within(share, (0.0, 100.0), "contents", " %"))?;
        let mut fill = Vec::new();
        for (tank, share) in &doc.fill {
            let name = Spanned::new(tank.clone(), share.span);
            let at = loads.iter().position(|load| load.name == *tank && load.tank.is_some());
            let is_tank = self.doc.loads.get(tank).is_some_and(|load| load.value.tank.is_some());
            match at {
                // It could not be made, which was reported.
                None if is_tank => {}
                Some(at) => fill.push((at, self.within(&share.value, (0.0, 1.0), tank, "")?)),
                None => self.unknown_entry(
                    &name,
                    "tank",
                    loads.iter().filter(|load| load.tank.is_some()).map(|load| &load.name),
                ),
            }
        }
        // Rounded from a range of 0 to 64.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let people = people.map(|people| people.round() as usize);
        let cargo = doc.cargo.as_ref().is_none_or(|cargo| cargo.value);
        Ok(OwnCase { name: name.to_owned(), arrangement, people, contents: contents / 100.0, cargo, fill, span })
    }
}

fn kind_of(doc: &VehicleDoc) -> VehicleKind {
    match doc.kind.as_ref().map(|kind| kind.value.as_str()) {
        Some("trailer") => VehicleKind::Trailer,
        Some("van") => VehicleKind::Van,
        _ => VehicleKind::Truck,
    }
}

fn region_of(doc: &VehicleDoc) -> Region {
    match doc.region.as_ref().map(|region| region.value.as_str()) {
        Some("uk") => Region::Uk,
        Some("au") => Region::Au,
        _ => Region::Eu,
    }
}
/// The box of a size about its middle.
fn room(at: Point3, size: [f64; 3]) -> Prism {
    let range = |middle: f64, side: f64| (middle - side / 2.0, middle + side / 2.0);
    let [x, y, z] = size;
    Box3 { x: range(at.x, x), y: range(at.y, y), z: range(at.z, z) }.into()
}

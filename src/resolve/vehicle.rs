//! The vehicle, what it carries beside the furniture, and its load cases.

use super::names::Resolver;
use crate::diagnostic::Diagnostic;
use crate::language::expression::{Expr, Failed};
use crate::language::{CAB, FRAME, FRONT, FiguresDoc, LoadCaseDoc, OVERHANG, REAR, SeatDoc, VEHICLE, VehicleDoc};
use crate::model::{
    Arrangement, Axle, BoxSpace, Cab, DrawnBy, FrameLine, Load, OwnCase, Region, Seat, Tilt, Vehicle, VehicleClass,
    VehicleKind, Word,
};
use crate::source::{Span, Spanned};
use kurbo::Point;

impl Resolver<'_> {
    /// The vehicle, if the layout has one that could be made.
    pub fn vehicle(&mut self, space: &BoxSpace) -> Option<Vehicle> {
        let entry = self.doc.vehicle.as_ref()?;
        self.one_vehicle(&entry.value, entry.span, space).ok()
    }

    fn one_vehicle(&mut self, doc: &VehicleDoc, span: Span, space: &BoxSpace) -> Result<Vehicle, Failed> {
        let figures = self.figures(&VEHICLE, &doc.figures);
        let front = self.figures(&FRONT, &doc.front);
        let rear = self.figures(&REAR, &doc.rear);
        let cab = doc.cab.as_ref().map(|cab| self.cab(cab)).transpose();
        let frame = doc.frame.as_ref().map(|frame| self.frame_line(frame)).transpose();
        let overhang = doc.overhang.as_ref().map(|limit| self.figures(&OVERHANG, limit)).transpose();
        let subframe = doc.subframe.as_ref().map(|subframe| self.subframe(subframe, doc.frame.as_ref())).transpose();
        let underside: Result<Vec<Point>, Failed> = doc.underside.iter().map(|point| self.corner(point)).collect();
        let seats: Result<Vec<Seat>, Failed> = doc.seats.iter().map(|seat| self.seat(seat)).collect();
        let kind = kind_of(doc);
        let [limit, bare, track, least] = front?;
        let front = Axle { limit, least, bare, track, spread: 0.0, share: 1.0 };
        self.refuse_wrong_front(doc, kind, front, span)?;
        let [limit, bare, track, least, spread, share] = rear?;
        let rear = Axle { limit, least, bare, track, spread, share: share / 100.0 };
        let [wheelbase, gross, box_from_front, floor_height, tyre_radius, bare_height, ..] = figures?;
        let [.., bare_right, box_right, ahead, behind, on_roof, beside, wheel_travel, side_slope, options, allowance] =
            figures?;
        let [share, most] = overhang?.unwrap_or([0.0, 0.0]);
        for (axle, doc) in [(front, doc.front.span), (rear, doc.rear.span)] {
            self.refuse_odd_axle(axle, doc)?;
        }
        let vehicle = Vehicle {
            kind,
            region: region_of(doc),
            class: self.class(doc, kind)?,
            drawn_by: self.drawn_by(doc, kind)?,
            wheelbase,
            gross,
            box_from_front,
            floor_height,
            tyre_radius,
            bare_height,
            bare_right,
            box_right,
            ahead,
            behind,
            on_roof,
            beside,
            wheel_travel,
            side_slope,
            options,
            allowance,
            front,
            rear,
            cab: cab?,
            frame: frame?,
            underside: underside?,
            overhang: (share / 100.0, most),
            subframe: subframe?,
            seats: seats?,
            span,
            axle_spans: [doc.front.span, doc.rear.span],
        };
        self.refuse_contradictions(doc, &vehicle, space)?;
        self.with_gap(doc, vehicle, space)
    }

    fn frame_line(&mut self, doc: &FiguresDoc<4>) -> Result<FrameLine, Failed> {
        let [top, bottom, rear, width] = self.figures(&FRAME, doc)?;
        if top <= bottom {
            let message = format!("the frame's `top` of {top} mm is not above its `bottom` of {bottom} mm");
            return Err(self.error(Diagnostic::new(doc.span, message).help("both are heights above the ground")));
        }
        Ok(FrameLine { top, bottom, rear, width })
    }

    fn cab(&mut self, doc: &FiguresDoc<7>) -> Result<Cab, Failed> {
        let [rear, top, width, angle, x, z, bottom] = self.figures(&CAB, doc)?;
        let tilt = (angle > 0.0).then_some(Tilt { about: Point::new(x, z), angle, bottom });
        Ok(Cab { rear, top, width, tilt })
    }

    /// Whose rules on masses hold: a trailer is none that drives itself, and the other way round.
    fn class(&mut self, doc: &VehicleDoc, kind: VehicleKind) -> Result<VehicleClass, Failed> {
        let (usual, other) = match kind {
            VehicleKind::Trailer => (VehicleClass::Caravan, VehicleClass::MotorCaravan),
            _ => (VehicleClass::MotorCaravan, VehicleClass::Caravan),
        };
        let Some(class) = &doc.class else { return Ok(usual) };
        if class.value == other {
            let what = if kind == VehicleKind::Trailer { "a trailer" } else { "what drives itself" };
            let error = Diagnostic::new(class.span, format!("{what} is no `{}`", other.name()));
            return Err(self.error(error.help(format!("write `class: {}` or `class: goods`", usual.name()))));
        }
        Ok(class.value)
    }

    fn drawn_by(&mut self, doc: &VehicleDoc, kind: VehicleKind) -> Result<DrawnBy, Failed> {
        let Some(drawn_by) = &doc.drawn_by else { return Ok(DrawnBy::Car) };
        if kind != VehicleKind::Trailer {
            let error = Diagnostic::new(drawn_by.span, "only a trailer is `drawn-by` something");
            return Err(self.error(error.help("remove it, or write `kind: trailer`")));
        }
        Ok(drawn_by.value)
    }

    fn corner(&mut self, [x, z]: &[Expr; 2]) -> Result<Point, Failed> {
        let (x, z) = (self.figure(x), self.within(z, (0.0, 5_000.0), "height above the ground", " mm"));
        Ok(Point::new(x?, z?))
    }

    fn seat(&mut self, doc: &SeatDoc) -> Result<Seat, Failed> {
        if let Some(who) = &doc.who {
            self.check_person(who);
        }
        let text = |name: &Option<Spanned<String>>| name.as_ref().map(|name| name.value.clone());
        Ok(Seat { name: text(&doc.name), at: self.point3(&doc.at.value)?, who: text(&doc.who) })
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

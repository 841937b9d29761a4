//! Outside size of the vehicle with its box, against a region's table, and the rear overhang.

use crate::model::{DrawnBy, Model, Region, Vehicle, VehicleKind};

/// What a region allows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Length, mm; of the vehicle, without what it draws or is drawn by.
    pub length: f64,
    /// Width, mm.
    pub width: f64,
    /// Height, mm; infinite where none is set.
    pub height: f64,
    /// Rear overhang: part of the wheelbase, and mm; infinite where none is set.
    pub overhang: (f64, f64),
    /// Where the figures come from.
    pub source: &'static str,
    /// Whether that text was read; else it is from memory.
    pub read: bool,
}

/// The table of a vehicle's region.
#[must_use]
pub fn size_limits(vehicle: &Vehicle) -> Limits {
    let four_wheels = vehicle.rear.spread > 0.0;
    let trailer = vehicle.kind == VehicleKind::Trailer;
    let short = trailer && !(four_wheels && vehicle.drawn_by == DrawnBy::GoodsVehicle);
    let mut limits = match vehicle.region {
        Region::Eu => Limits {
            length: 12_000.0,
            width: 2_550.0,
            height: 4_000.0,
            overhang: (f64::INFINITY, f64::INFINITY),
            source: "Regulation (EU) 1230/2012, annex I; 2.60 m are for bodies for goods at controlled temperature alone (96/53/EC, article 2)",
            read: true,
        },
        Region::Uk => Limits {
            length: if short { 7_000.0 } else { 12_000.0 },
            width: 2_550.0,
            height: f64::INFINITY,
            overhang: (0.6, f64::INFINITY),
            source: "length: SI 1986/1078, regulation 7 (trailers 7 m, 12 m behind a goods vehicle of more than 3.5 t if they have four wheels); overhang: gov.uk, 60 % of the wheelbase; width from memory, not verified",
            read: false,
        },
        Region::Au => Limits {
            length: 12_500.0,
            width: 2_500.0,
            height: 4_300.0,
            overhang: (0.6, 3_700.0),
            source: "National inspection manual (2.50 x 4.3 m); overhang: NHVR; length from memory, not verified",
            read: true,
        },
    };
    if vehicle.overhang.0 > 0.0 {
        limits.overhang = vehicle.overhang;
    }
    limits
}

/// Outside size, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outside {
    /// From the foremost to the rearmost point.
    pub length: f64,
    /// Over the side walls, with what stands off them.
    pub width: f64,
    /// From the ground to the roof, with what stands on it.
    pub height: f64,
    /// From the rear axle, or the middle of the group, to the rearmost point.
    pub overhang: f64,
    /// What the overhang may be; infinite where no rule is known.
    pub most_overhang: f64,
}

/// Measures the outside.
#[must_use]
pub fn outside(model: &Model, vehicle: &Vehicle) -> Outside {
    let space = &model.space;
    let rear = vehicle.along(space.length + space.walls.thickness).max(vehicle.wheelbase + vehicle.behind);
    let rear = vehicle.frame.map_or(rear, |frame| rear.max(frame.rear));
    let front = (-vehicle.ahead).min(vehicle.front_wall(space));
    let crown = space.roof.highest();
    let roof = vehicle.floor_height + crown + space.roof_panel.thickness + vehicle.on_roof;
    let cab = vehicle.cab.map_or((0.0, 0.0), |cab| (cab.width, cab.top));
    let (share, most) = size_limits(vehicle).overhang;
    let rules = vehicle.kind != VehicleKind::Trailer || vehicle.overhang.0 > 0.0;
    Outside {
        length: rear - front,
        width: (space.width + 2.0 * space.walls.thickness + vehicle.beside).max(cab.0),
        height: roof.max(cab.1),
        overhang: rear - vehicle.wheelbase,
        most_overhang: if rules { (share * vehicle.wheelbase).min(most) } else { f64::INFINITY },
    }
}

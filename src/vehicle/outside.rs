//! Outside size of the vehicle with its box, against a region's table, and the rear overhang.

use crate::model::{Model, Region, Vehicle, VehicleKind};

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

/// Walls of at least this thickness count as insulated, mm; Regulation (EU) 1230/2012, annex I, part C, 1.1.
const INSULATED: f64 = 45.0;

/// The table of a vehicle's region.
#[must_use]
pub fn size_limits(model: &Model, vehicle: &Vehicle) -> Limits {
    let mut limits = match vehicle.region {
        Region::Eu => Limits {
            length: 12_000.0,
            width: if model.space.walls.thickness >= INSULATED { 2_600.0 } else { 2_550.0 },
            height: 4_000.0,
            overhang: (f64::INFINITY, f64::INFINITY),
            source: "Regulation (EU) 1230/2012, annex I, part C, 1.1 (2.60 m wide with walls of 45 mm or more)",
            read: true,
        },
        Region::Uk => Limits {
            length: 12_000.0,
            width: 2_550.0,
            height: f64::INFINITY,
            overhang: (0.6, f64::INFINITY),
            source: "overhang: gov.uk, 60 % of the wheelbase; length and width from memory, not verified",
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
    let front = (-vehicle.ahead).min(vehicle.along(-space.walls.thickness));
    let crown = space.roof.highest();
    let roof = vehicle.floor_height + crown + space.roof_panel.thickness + vehicle.on_roof;
    let cab = vehicle.cab.map_or((0.0, 0.0), |cab| (cab.width, cab.top));
    let (share, most) = size_limits(model, vehicle).overhang;
    let rules = vehicle.kind != VehicleKind::Trailer || vehicle.overhang.0 > 0.0;
    Outside {
        length: rear - front,
        width: (space.width + 2.0 * space.walls.thickness + vehicle.beside).max(cab.0),
        height: roof.max(cab.1),
        overhang: rear - vehicle.wheelbase,
        most_overhang: if rules { (share * vehicle.wheelbase).min(most) } else { f64::INFINITY },
    }
}

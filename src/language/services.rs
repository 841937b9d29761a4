//! Water, electricity, waste pipes and climate, as written.

use super::expression::Expr;
use super::figures::{FigureKey, FiguresDoc, needed, or};
use super::named::Named;
use crate::source::Spanned;

/// `services:`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ServicesDoc {
    /// Water use.
    pub water: Option<Spanned<FiguresDoc<1>>>,
    /// The battery.
    pub battery: Option<Spanned<FiguresDoc<4>>>,
    /// What uses the battery.
    pub consumers: Named<FiguresDoc<2>>,
    /// Cables.
    pub cables: Named<CableDoc>,
    /// Waste pipes.
    pub wastes: Named<PipeDoc>,
}

/// Water that one person uses in a day.
pub const WATER: [FigureKey; 1] = [or(15.0, "per-person", (0.1, 500.0), " l")];

/// The battery: nominal voltage, capacity, usable share, and what comes in on a day.
pub const BATTERY: [FigureKey; 4] = [
    needed("volts", (5.0, 100.0), " V"),
    needed("capacity", (1.0, 10_000.0), " Ah"),
    or(80.0, "usable", (1.0, 100.0), " %"),
    or(0.0, "charge", (0.0, 10_000.0), " Ah"),
];

/// A consumer: power and hours a day.
pub const CONSUMER: [FigureKey; 2] = [needed("watts", (0.0, 20_000.0), " W"), needed("hours", (0.0, 24.0), " h")];

/// Current, copper section in mm2, class of the conductor, temperature.
pub const CABLE: [FigureKey; 4] = [
    needed("amps", (0.001, 1_000.0), " A"),
    needed("section", (0.1, 500.0), " mm²"),
    or(5.0, "class", (1.0, 5.0), ""),
    or(20.0, "temperature", (-40.0, 120.0), " °C"),
];

/// Inside diameter of a pipe.
pub const PIPE: [FigureKey; 1] = [or(40.0, "bore", (5.0, 200.0), " mm")];

/// An end of a cable or pipe.
#[derive(Debug, Clone, PartialEq)]
pub enum EndDoc {
    /// A module or a load, by name.
    Named(Spanned<String>),
    /// A point in box coordinates.
    At(Spanned<[Expr; 3]>),
}

/// Where something runs.
#[derive(Debug, Clone, PartialEq)]
pub struct RouteEndsDoc {
    /// Start.
    pub from: EndDoc,
    /// End.
    pub to: EndDoc,
    /// Points on the way; none goes along the walls.
    pub via: Vec<Spanned<[Expr; 3]>>,
}

/// One cable.
#[derive(Debug, Clone, PartialEq)]
pub struct CableDoc {
    /// Its way.
    pub ends: RouteEndsDoc,
    /// Figures of [`CABLE`].
    pub figures: FiguresDoc<4>,
    /// Whether what it feeds must not fail.
    pub critical: Option<Spanned<bool>>,
}

/// One waste pipe.
#[derive(Debug, Clone, PartialEq)]
pub struct PipeDoc {
    /// Its way.
    pub ends: RouteEndsDoc,
    /// Figures of [`PIPE`].
    pub figures: FiguresDoc<1>,
}

/// `climate:`: air inside and outside, relative humidity inside, air changes an hour, heater power.
pub const CLIMATE: [FigureKey; 11] = [
    or(20.0, "inside", (-20.0, 40.0), " °C"),
    or(-10.0, "outside", (-60.0, 40.0), " °C"),
    or(50.0, "humidity", (1.0, 99.0), " %"),
    or(1.0, "air-changes", (0.0, 30.0), ""),
    or(0.0, "heater", (0.0, 50_000.0), " W"),
    or(80.0, "outside-humidity", (1.0, 100.0), " %"),
    or(35.0, "summer-outside", (0.0, 60.0), " °C"),
    or(26.0, "summer-inside", (0.0, 60.0), " °C"),
    or(900.0, "sun", (0.0, 1_400.0), " W/m²"),
    or(40.0, "absorbs", (0.0, 100.0), " %"),
    or(0.0, "cooler", (0.0, 50_000.0), " W"),
];

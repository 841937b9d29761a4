//! Water, electricity, waste pipes, and the climate that the shell is for.

use crate::geometry::Point3;
use crate::source::Span;

/// The services of a layout; all of them may be left out.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Services {
    /// Litres a person uses in a day, and where it is written.
    pub water: Option<(f64, Span)>,
    /// The battery.
    pub battery: Option<Battery>,
    /// What uses it.
    pub consumers: Vec<Consumer>,
    /// Cables.
    pub cables: Vec<Cable>,
    /// Waste pipes.
    pub wastes: Vec<Waste>,
}

impl Services {
    /// Whether nothing is said of them.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// A battery.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Battery {
    /// Nominal voltage.
    pub volts: f64,
    /// Capacity, Ah.
    pub capacity: f64,
    /// Share that may be used, 0 to 1.
    pub usable: f64,
    /// What comes in on a day, Ah.
    pub charge: f64,
    /// Where it is written.
    pub span: Span,
}

/// Something that uses the battery.
#[derive(Debug, Clone, PartialEq)]
pub struct Consumer {
    /// Name in the layout.
    pub name: String,
    /// Power, W.
    pub watts: f64,
    /// Hours a day.
    pub hours: f64,
    /// Where it is written.
    pub span: Span,
}

/// Where a cable or pipe runs.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// What it starts and ends at, in words.
    pub ends: [String; 2],
    /// Its corners from start to end, box coordinates.
    pub points: Vec<Point3>,
}

impl Run {
    /// Length, mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        let legs = self.points.iter().zip(self.points.iter().skip(1));
        legs.map(|(a, b)| (b.x - a.x).hypot(b.y - a.y).hypot(b.z - a.z)).sum()
    }

    /// Length seen from above, mm.
    #[must_use]
    pub fn level_length(&self) -> f64 {
        let legs = self.points.iter().zip(self.points.iter().skip(1));
        legs.map(|(a, b)| (b.x - a.x).hypot(b.y - a.y)).sum()
    }

    /// How much lower it ends than it starts, mm.
    #[must_use]
    pub fn fall(&self) -> f64 {
        self.points.first().zip(self.points.last()).map_or(0.0, |(first, last)| first.z - last.z)
    }
}

/// A cable, there and back.
#[derive(Debug, Clone, PartialEq)]
pub struct Cable {
    /// Name in the layout.
    pub name: String,
    /// Its way.
    pub run: Run,
    /// Current, A.
    pub amps: f64,
    /// Copper section, mm2.
    pub section: f64,
    /// Class of the conductor by IEC 60228: 1, 2 or 5.
    pub class: u8,
    /// Temperature of the conductor, degrees Celsius.
    pub temperature: f64,
    /// Whether what it feeds must not fail.
    pub critical: bool,
    /// Where it is written.
    pub span: Span,
}

/// A waste pipe.
#[derive(Debug, Clone, PartialEq)]
pub struct Waste {
    /// Name in the layout.
    pub name: String,
    /// Its way.
    pub run: Run,
    /// Inside diameter, mm.
    pub bore: f64,
    /// Where it is written.
    pub span: Span,
}

/// Air inside and outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Climate {
    /// Inside, degrees Celsius.
    pub inside: f64,
    /// Outside, degrees Celsius.
    pub outside: f64,
    /// Relative humidity inside, 0 to 1.
    pub humidity: f64,
    /// Air changes an hour.
    pub air_changes: f64,
    /// Heater power, W; 0 for none given.
    pub heater: f64,
    /// Relative humidity outside, 0 to 1.
    pub outside_humidity: f64,
    /// Outside on a hot day, degrees Celsius.
    pub summer_outside: f64,
    /// Inside on it.
    pub summer_inside: f64,
    /// Sun on the roof, W/m2.
    pub sun: f64,
    /// Part of it that the roof takes up, 0 to 1.
    pub absorbs: f64,
    /// Power of a cooler, W; 0 for none given.
    pub cooler: f64,
    /// Where it is written, if it is.
    pub span: Option<Span>,
}

impl Default for Climate {
    /// 20 °C and 50 % inside, -10 °C and 80 % outside, one air change an hour, no heater; 35 °C outside and 26 °C inside on a hot day with 900 W/m2 on
    /// a light roof, no cooler; common practice, no source.
    fn default() -> Self {
        Self {
            inside: 20.0,
            outside: -10.0,
            humidity: 0.5,
            air_changes: 1.0,
            heater: 0.0,
            outside_humidity: 0.8,
            summer_outside: 35.0,
            summer_inside: 26.0,
            sun: 900.0,
            absorbs: 0.4,
            cooler: 0.0,
            span: None,
        }
    }
}

//! Energy of a day against the battery, and the voltage drop of cables.

use crate::base::tolerance::ROUNDING;
use crate::model::{Cable, Model};

/// Rise of copper's resistance with temperature, 1/K; IEC 60228, annex.
const ALPHA: f64 = 0.003_93;

/// Section in mm2, then ohms a kilometre at 20 degrees Celsius of classes 1 and 2, and of class 5; IEC 60228 as quoted by
/// five or more public tables.
const TABLE: [(f64, f64, f64); 8] = [
    (1.5, 12.1, 13.3),
    (2.5, 7.41, 7.98),
    (4.0, 4.61, 4.95),
    (6.0, 3.08, 3.30),
    (10.0, 1.83, 1.91),
    (16.0, 1.15, 1.21),
    (25.0, 0.727, 0.780),
    (35.0, 0.524, 0.554),
];
/// Resistivity of copper at 20 degrees Celsius for sections that the table lacks, ohm mm2/m; 1/58.
const COPPER: f64 = 0.017_241;

/// Ohms a kilometre of one conductor at a temperature.
#[must_use]
pub fn resistance(section: f64, class: u8, temperature: f64) -> f64 {
    let row = TABLE.iter().find(|row| (row.0 - section).abs() < ROUNDING);
    let at_20 = row.map_or(COPPER / section * 1000.0, |row| if class == 5 { row.2 } else { row.1 });
    at_20 * (1.0 + ALPHA * (temperature - 20.0))
}

/// Nominal voltage where the layout has no battery.
const USUAL: f64 = 12.0;

/// The nominal voltage of a layout.
#[must_use]
pub fn nominal(model: &Model) -> f64 {
    model.services.battery.map_or(USUAL, |battery| battery.volts)
}

/// Voltage drop of a cable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drop {
    /// One way, m.
    pub length: f64,
    /// Ohms a kilometre of one conductor.
    pub resistance: f64,
    /// Volts, there and back.
    pub volts: f64,
    /// Of the nominal voltage, percent.
    pub percent: f64,
}

/// The drop of a cable on a nominal voltage: `2 L I R'`.
#[must_use]
pub fn drop(cable: &Cable, nominal: f64) -> Drop {
    let length = cable.run.length() / 1000.0;
    let resistance = resistance(cable.section, cable.class, cable.temperature);
    let volts = 2.0 * length * cable.amps * resistance / 1000.0;
    Drop { length, resistance, volts, percent: volts / nominal * 100.0 }
}

/// Energy of a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Day {
    /// Used by all consumers, Wh.
    pub used: f64,
    /// Of the battery, what may be used, Wh.
    pub stored: f64,
    /// What comes in, Wh.
    pub charged: f64,
    /// Days until the battery is empty; infinite where as much comes in as is used.
    pub days: f64,
}

/// The energy balance of a layout with a battery.
#[must_use]
pub fn day(model: &Model) -> Option<Day> {
    let battery = model.services.battery?;
    let used: f64 = model.services.consumers.iter().map(|consumer| consumer.watts * consumer.hours).sum();
    let stored = battery.volts * battery.capacity * battery.usable;
    let charged = battery.volts * battery.charge;
    let days = if used > charged { stored / (used - charged) } else { f64::INFINITY };
    Some(Day { used, stored, charged, days })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Point3;
    use crate::model::Run;
    use crate::source::Span;

    /// A public exam's example: 20 A over 100 ft of 10,380 circular mils, K = 12.9 at 120 V: 4.97 V, 4.1 %. 10,380 circular
    /// mils are 5.26 mm2; K = 12.9 ohm cmil/ft is 0.021446 ohm mm2/m, copper at 82 degrees.
    #[test]
    fn the_drop_is_that_of_a_published_example() {
        let section = 10_380.0 * 5.067_075e-4;
        let k = 12.9 * 5.067_075e-4 / 0.3048;
        let temperature = 20.0 + (k / COPPER - 1.0) / ALPHA;
        let to = Point3 { x: 100.0 * 304.8, ..Point3::default() };
        let run = Run { ends: [String::new(), String::new()], points: vec![Point3::default(), to] };
        let (name, span) = (String::new(), Span::default());
        let cable = Cable { name, run, amps: 20.0, section, class: 2, temperature, critical: false, span };
        let found = drop(&cable, 120.0);
        assert!((found.volts - 4.97).abs() <= 0.01 && (found.percent - 4.1).abs() <= 0.05, "{found:?}");
    }

    /// The table of IEC 60228 is near the resistivity of its copper: up to 7 % more for flexible strands.
    #[test]
    fn the_table_is_near_the_resistivity() {
        for (section, solid, flexible) in TABLE {
            let plain = COPPER / section * 1000.0;
            assert!((1.0..1.09).contains(&(solid / plain)) && (1.06..1.17).contains(&(flexible / plain)), "{section}");
            assert_eq!((resistance(section, 2, 20.0), resistance(section, 5, 20.0)), (solid, flexible));
        }
    }
    /// Copper at 70 degrees has 1.1965 times its resistance at 20 (IEC 60228: 0.00393 a kelvin): 7.41 ohm/km become 8.866.
    #[test]
    fn warm_copper_resists_more() {
        assert!((resistance(2.5, 2, 70.0) - 8.866).abs() < 0.0005);
        assert!((resistance(50.0, 5, 20.0) - 0.344_82).abs() < 1e-9, "a section that the table lacks");
    }

    /// 24 V x 200 Ah x 80 % are 3,840 Wh; 50 W x 8 h and 100 W x 2 h are 600 Wh; 24 V x 10 Ah come in: 3,840 / 360 days.
    #[test]
    fn a_day_is_a_balance_of_energy() {
        let mut model = crate::model::testing::model(crate::model::testing::space(4000.0, 2000.0, 2000.0));
        assert_eq!((day(&model), nominal(&model)), (None, 12.0));
        let span = Span::default();
        model.services.battery =
            Some(crate::model::Battery { volts: 24.0, capacity: 200.0, usable: 0.8, charge: 10.0, span });
        let consumer = |watts, hours| crate::model::Consumer { name: String::new(), watts, hours, span };
        model.services.consumers = vec![consumer(50.0, 8.0), consumer(100.0, 2.0)];
        let found = day(&model).unwrap();
        assert_eq!((found.used, found.charged, nominal(&model)), (600.0, 240.0, 24.0));
        assert!((found.stored - 3840.0).abs() < 1e-9 && (found.days - 3840.0 / 360.0).abs() < 1e-9, "{found:?}");
        model.services.consumers.truncate(1);
        model.services.battery.as_mut().unwrap().charge = 17.0;
        assert_eq!(day(&model).unwrap().days, f64::INFINITY);
    }
}

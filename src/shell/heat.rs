//! Heat through a panel by ISO 6946: resistances, the combined method for layers with members in them, temperatures.

use crate::model::materials::AIR;
use crate::model::{Bridge, Layer, Panel, Wall};

/// Outside surface resistance, m2 K/W; ISO 6946.
pub const RSE: f64 = 0.04;
/// Inside surface resistance where furniture or curtains keep the air off, for mould; ISO 13788, 4.4.1.
pub const RSI_STILL: f64 = 0.25;

/// Inside surface resistance, m2 K/W, by the direction of the heat flow; ISO 6946.
#[must_use]
pub fn rsi(side: Wall) -> f64 {
    match side {
        Wall::Roof => 0.10,
        Wall::Floor => 0.17,
        _ => 0.13,
    }
}

/// Resistance of a layer, m2 K/W: thickness over conductivity, or that of an air layer.
#[must_use]
pub fn resistance(layer: &Layer, side: Wall) -> f64 {
    if layer.material == AIR { air_layer(layer.thickness, side) } else { layer.thickness / 1000.0 / layer.conductivity }
}

/// Which method gave a transmittance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// Plain layers: sums of resistances (ISO 6946, 6.7.1).
    Layers,
    /// Upper and lower limit (ISO 6946, 6.7.2).
    Combined,
    /// Two-dimensional conduction, since the combined method does not take metal or limits that differ by more than half.
    Conduction,
}

/// A panel's transmittance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Transmittance {
    /// W/(m2 K).
    pub u: f64,
    /// Upper limit of the resistance with surfaces, m2 K/W.
    pub upper: f64,
    /// Lower limit of the resistance with surfaces, m2 K/W.
    pub lower: f64,
    /// How it was found.
    pub method: Method,
}

/// Greatest ratio of the upper to the lower limit that the combined method takes; ISO 6946, 6.7.2.1.
pub const MOST_RATIO: f64 = 1.5;
/// Part of a layer that its members take, 0 to 1.
#[must_use]
pub fn member_share(layer: &Layer) -> f64 {
    layer.bridge.as_ref().map_or(0.0, Bridge::share)
}

/// Whether a layer of a panel has members of metal.
#[must_use]
pub fn has_metal_members(panel: &Panel) -> bool {
    panel.layers.iter().any(|layer| layer.bridge.as_ref().is_some_and(|bridge| bridge.metal))
}

/// Upper and lower limit of the resistance from air to air, m2 K/W; equal for plain layers.
#[must_use]
pub fn limits(layers: &[Layer], side: Wall, surfaces: f64) -> (f64, f64) {
    let framed = layers.iter().position(|layer| layer.bridge.is_some());
    let plain: f64 = surfaces + layers.iter().map(|layer| resistance(layer, side)).sum::<f64>();
    let Some((at, layer, bridge)) =
        framed.and_then(|at| layers.get(at).and_then(|layer| Some((at, layer, layer.bridge.as_ref()?))))
    else {
        return (plain, plain);
    };
    let share = member_share(layer);
    let member = layer.thickness / 1000.0 / bridge.conductivity;
    let through = plain - resistance(layer, side) + member;
    let upper = 1.0 / ((1.0 - share) / plain + share / through);
    let mixed = layer.thickness / 1000.0 / (layer.conductivity * (1.0 - share) + bridge.conductivity * share);
    let others: f64 =
        layers.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, layer)| resistance(layer, side)).sum();
    (upper, surfaces + others + mixed)
}

/// The transmittance of a panel with given surface resistances.
#[must_use]
pub fn transmittance(panel: &Panel, side: Wall, surfaces: (f64, f64)) -> Transmittance {
    let (upper, lower) = limits(&panel.layers, side, surfaces.0 + surfaces.1);
    let framed = panel.layers.iter().any(|layer| layer.bridge.is_some());
    let made = |resistance: f64, method| Transmittance { u: 1.0 / resistance, upper, lower, method };
    if !framed {
        return made(upper, Method::Layers);
    }
    if has_metal_members(panel) || upper / lower > MOST_RATIO {
        return match super::conduction::panel_section(panel, surfaces) {
            Some(section) => made(1.0 / section.u, Method::Conduction),
            None => made(lower, Method::Combined),
        };
    }
    made(f64::midpoint(upper, lower), Method::Combined)
}

/// Temperatures from the inside air through every face of the layers to the outside air, degrees Celsius: `layers + 3`
/// values. Members are left out: this is the middle between two of them.
#[must_use]
pub fn temperatures(panel: &Panel, side: Wall, rsi: f64, (inside, outside): (f64, f64)) -> Vec<f64> {
    let layers = panel.layers.iter().map(|layer| resistance(layer, side));
    let steps: Vec<f64> = std::iter::once(rsi).chain(layers).chain([RSE]).collect();
    let whole: f64 = steps.iter().sum();
    let mut passed = 0.0;
    let mut all = vec![inside];
    for step in steps {
        passed += step;
        all.push(inside - (inside - outside) * passed / whole);
    }
    all
}

/// Resistance of an air layer, m2 K/W, by its thickness in mm and the direction of the heat flow; ISO 6946:2017, D.2, with
/// emissivities of 0.9 and a mean of 10 degrees Celsius.
#[must_use]
pub fn air_layer(thickness: f64, side: Wall) -> f64 {
    const STEFAN: f64 = 5.670_374_4e-8;
    let d = thickness / 1000.0;
    let moved = match side {
        Wall::Roof => 1.95,
        Wall::Floor => 0.12 * d.powf(-0.44),
        _ => 1.25,
    };
    let radiated = 4.0 * STEFAN * 283.15_f64.powi(3) / (2.0 / 0.9 - 1.0);
    1.0 / ((0.025 / d).max(moved) + radiated)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn layer(thickness: f64, conductivity: f64) -> Layer {
        Layer { material: "layer".to_owned(), thickness, conductivity, bridge: None }
    }

    fn u(layers: &[(f64, f64)], surfaces: f64) -> f64 {
        let layers: Vec<Layer> = layers.iter().map(|(mm, lambda)| layer(*mm, *lambda)).collect();
        1.0 / limits(&layers, Wall::Left, surfaces).0
    }

    /// A public calculator's wall of render, wood, wool and render: R 7.00, U 0.14.
    #[test]
    fn a_plain_wall_is_that_of_a_public_calculator() {
        let found = u(&[(15.0, 0.70), (140.0, 0.13), (200.0, 0.035), (15.0, 0.87)], 0.17);
        assert!((found - 0.14).abs() <= 0.005 && (1.0 / found - 7.00).abs() <= 0.005, "{found}");
    }

    /// Published examples of a wall with two air layers (U 0.404) and a flat roof on steel (U 0.317).
    #[test]
    fn published_walls_and_roofs_are_met() {
        // The air layers and the insulation are given as resistances: 1 m of conductivity 1/R.
        let air = |r: f64| (1000.0, 1.0 / r);
        let found = u(&[air(1.75), air(0.18), (19.0, 0.13), air(0.18), (16.0, 0.25)], 0.11 + 0.043);
        assert!((found - 0.404).abs() <= 0.0005, "{found}");
        let found = u(&[(6.0, 0.25), (76.0, 0.0253), (38.0, 50.0)], 0.086 + 0.043);
        assert!((found - 0.317).abs() <= 0.0005, "{found}");
    }

    /// A worked example of a British handbook (its inputs from memory, the arithmetic by hand): brick, cavity, plywood,
    /// wool between 15 % timber, board: R' 3.367, R'' 3.214, R 3.291, U 0.304.
    #[test]
    fn the_combined_method_meets_a_handbook_example() {
        let cavity = layer(1000.0, 1.0 / 0.09);
        let bridge = Bridge {
            material: "timber".to_owned(),
            conductivity: 0.13,
            metal: false,
            // 15 % with the 1 % that is added for members at edges.
            width: 14.0,
            spacing: 100.0,
        };
        let wool = Layer { bridge: Some(bridge), ..layer(140.0, 0.038) };
        let layers = [layer(12.5, 0.25), wool, layer(9.0, 0.13), cavity, layer(102.0, 0.77)];
        let (upper, lower) = limits(&layers, Wall::Left, 0.17);
        assert!((upper - 3.367).abs() <= 0.002 && (lower - 3.214).abs() <= 0.002, "{upper} {lower}");
        let panel = Panel { layup: "wall".to_owned(), thickness: 0.0, areal_mass: 0.0, layers: layers.to_vec() };
        let found = transmittance(&panel, Wall::Left, (0.13, 0.04));
        assert_eq!(found.method, Method::Combined);
        assert!((found.u - 0.304).abs() <= 0.002, "{}", found.u);
    }

    /// ISO 6946:2007, table 2 as quoted: mm, then up, horizontal, down.
    #[test]
    fn air_layers_are_those_of_the_table() {
        let table = [
            (5.0, 0.11, 0.11, 0.11),
            (7.0, 0.13, 0.13, 0.13),
            (10.0, 0.15, 0.15, 0.15),
            (15.0, 0.16, 0.17, 0.17),
            (25.0, 0.16, 0.18, 0.19),
            (50.0, 0.16, 0.18, 0.21),
            (100.0, 0.16, 0.18, 0.22),
            (300.0, 0.16, 0.18, 0.23),
        ];
        for (mm, up, level, down) in table {
            for (side, printed) in [(Wall::Roof, up), (Wall::Left, level), (Wall::Floor, down)] {
                assert!((air_layer(mm, side) - printed).abs() <= 0.005, "{mm} {side:?}: {}", air_layer(mm, side));
            }
        }
    }

    /// By hand with ISO 6946 and 13788: 60 mm of core, two skins of 2 mm, 20 and -10 degrees, 50 %.
    #[test]
    fn a_sandwich_panel_stays_warm_enough_against_mould() {
        let layers = [layer(2.0, 0.3), layer(60.0, 0.035), layer(2.0, 0.3)];
        assert!((1.0 / limits(&layers, Wall::Left, 0.17).0 - 0.527).abs() <= 0.0005);
        let panel = Panel { layup: "panel".to_owned(), thickness: 64.0, areal_mass: 0.0, layers: layers.to_vec() };
        let surface = temperatures(&panel, Wall::Left, RSI_STILL, (20.0, -10.0))[1];
        assert!((surface - 16.28).abs() <= 0.005, "{surface}");
        let humidity = super::super::dew::humidity_at(surface, 20.0, 0.5);
        assert!((humidity - 0.631).abs() <= 0.0005, "{humidity}");
    }
}

//! Water that vapour leaves inside a panel, by Glaser's method (ISO 13788).
//!
//! Vapour goes through each layer like heat, with `sd = mu d` as its resistance. Over `sd` the pressure is the straightest line from inside to
//! outside that nowhere lies above saturation: a string pulled tight below it. Where it touches, water stays.

use super::dew::saturation;
use super::heat::{rsi, temperatures};
use crate::base::tolerance::ROUNDING;
use crate::model::materials::material;
use crate::model::{Climate, Layer, Panel, Wall};

/// Conductivity of still air for vapour, kg/(m s Pa); ISO 13788.
const DELTA: f64 = 2e-10;
/// Grams in a kilogram times seconds in a day.
const GRAMS_A_DAY: f64 = 1000.0 * 86_400.0;

/// Water between two layers.
#[derive(Debug, Clone, PartialEq)]
pub struct Wet {
    /// Layer inside of it and layer outside of it, by index.
    pub between: (usize, usize),
    /// How much comes, g/(m2 day).
    pub grams: f64,
    /// Temperature there, degrees Celsius.
    pub celsius: f64,
}

/// Where water stays in a panel in a climate that does not change; members in it are left out. A layer of a material without a known
/// resistance lets vapour through.
#[must_use]
pub fn wet_places(panel: &Panel, side: Wall, climate: &Climate) -> Vec<Wet> {
    let all = temperatures(panel, side, rsi(side), (climate.inside, climate.outside));
    // From the inside face on: what the air outside has is the last.
    let faces = all.get(1..all.len().saturating_sub(1)).unwrap_or_default();
    let mut at = 0.0;
    let mut string = vec![(0.0, saturation(climate.inside) * climate.humidity)];
    for (layer, celsius) in panel.layers.iter().zip(faces.iter().skip(1)) {
        at += sd(layer);
        string.push((at, saturation(*celsius)));
    }
    if let Some(last) = string.last_mut() {
        last.1 = saturation(climate.outside) * climate.outside_humidity;
    }
    let touched = pulled_tight(&string);
    let slope = |a: usize, b: usize| match (string.get(a), string.get(b)) {
        (Some(a), Some(b)) if b.0 - a.0 > ROUNDING => (a.1 - b.1) / (b.0 - a.0),
        _ => 0.0,
    };
    let wet = touched.windows(3).filter_map(|three| {
        let [before, here, after] = three else { return None };
        let grams = DELTA * (slope(*before, *here) - slope(*here, *after)) * GRAMS_A_DAY;
        let celsius = faces.get(*here).copied()?;
        (grams > ROUNDING).then_some(Wet { between: (here - 1, *here), grams, celsius })
    });
    wet.collect()
}

/// Thickness of still air that holds vapour up as much as a layer, m.
fn sd(layer: &Layer) -> f64 {
    material(&layer.material).map_or(1.0, |material| material.vapour) * layer.thickness / 1000.0
}

/// Indices of the points that a string from the first to the last touches when it is pulled tight below the others: the lower side of their
/// convex hull.
fn pulled_tight(points: &[(f64, f64)]) -> Vec<usize> {
    let mut kept: Vec<usize> = Vec::new();
    for (index, c) in points.iter().enumerate() {
        while let [.., a, b] = kept[..] {
            let (Some(a), Some(b)) = (points.get(a), points.get(b)) else { break };
            let above = (b.1 - a.1) * (c.0 - a.0) >= (c.1 - a.1) * (b.0 - a.0);
            if !above {
                break;
            }
            kept.pop();
        }
        kept.push(index);
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    fn layer(material: &str, thickness: f64, conductivity: f64) -> Layer {
        Layer { material: material.to_owned(), thickness, conductivity, bridge: None }
    }

    /// A worked example: plywood of 9 mm (mu 220, 0.17 W/(m K)), 40 mm of mineral wool (1, 0.038), aluminium of 1.5 mm (tight); 20 degrees and 50 % inside,
    /// -10 and 80 % outside, 0.13 and 0.04 m2 K/W. The air behind the metal has -9.06 degrees, and 7.58 g stay there on a square metre each day.
    #[test]
    fn water_stays_behind_metal() {
        let layers =
            vec![layer("birch-ply-9", 9.0, 0.17), layer("mineral-wool", 40.0, 0.038), layer("aluminium", 1.5, 160.0)];
        let panel = Panel { layup: "wall".to_owned(), thickness: 50.5, areal_mass: 0.0, layers };
        let climate = Climate { outside_humidity: 0.8, ..Climate::default() };
        let found = wet_places(&panel, Wall::Left, &climate);
        let [wet] = &found[..] else { panic!("{found:?}") };
        assert_eq!(wet.between, (1, 2));
        assert!((wet.celsius + 9.06).abs() <= 0.02 && (wet.grams / 7.58 - 1.0).abs() <= 0.01, "{wet:?}");
    }

    /// Warm inside and tight inside: with the insulation outside nothing stays.
    #[test]
    fn what_is_tight_inside_and_open_outside_stays_dry() {
        let layers =
            vec![layer("aluminium", 1.5, 160.0), layer("mineral-wool", 40.0, 0.038), layer("birch-ply-9", 9.0, 0.17)];
        let panel = Panel { layup: "wall".to_owned(), thickness: 50.5, areal_mass: 0.0, layers };
        assert_eq!(wet_places(&panel, Wall::Left, &Climate::default()), []);
    }

    #[test]
    fn a_string_lies_below_all_points() {
        let points = [(0.0, 10.0), (1.0, 9.0), (2.0, 3.0), (3.0, 6.0), (4.0, 1.0)];
        assert_eq!(pulled_tight(&points), [0, 2, 4]);
    }
}

//! Heat that comes in on a hot day, and how long a cold box takes to get warm.

use super::heat::RSE;
use super::losses::{AIR, Losses};
use super::{opening_area, surfaces};
use crate::model::{Model, OpeningKind, Wall};

/// Part of the sun on a window that comes in; double acrylic, from memory, not verified.
pub const LETS_IN: f64 = 0.7;
/// Sun on a wall for each part on a level roof at noon; common practice, no source.
pub const ON_A_WALL: f64 = 0.5;
/// Heat of a person at rest, W; common practice, no source.
pub const PERSON: f64 = 100.0;
/// Heat of wood and board, J/(kg K); EN ISO 10456, from memory.
const OF_WOOD: f64 = 1600.0;
/// Part of the shell's mass that is as warm as the air inside; half by a straight line through the panel.
const WARM_SHELL: f64 = 0.5;
/// Part of the furniture that follows within hours; common practice, no source.
const WARM_FURNITURE: f64 = 0.5;

/// What comes in on the summer's day of the climate, W.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gains {
    /// Through the shell and with the air, by the difference of air temperatures.
    pub through: f64,
    /// Sun on the roof.
    pub roof: f64,
    /// Sun through the windows of the wall that has most, and through the roof.
    pub windows: f64,
    /// People.
    pub people: f64,
}

impl Gains {
    /// All of it, W.
    #[must_use]
    pub fn watts(&self) -> f64 {
        self.through + self.roof + self.windows + self.people
    }
}

/// The gains of a layout. Sun on the roof comes in as `area U absorbs sun Rse`: the outside face is warmer than the air by `absorbs sun Rse`.
#[must_use]
pub fn gains(model: &Model, losses: &Losses) -> Gains {
    let climate = &model.climate;
    let difference = climate.summer_outside - climate.summer_inside;
    let shell: f64 = losses.through.iter().map(|loss| loss.area * loss.u).sum::<f64>() + losses.at_edges;
    let roof = surfaces(&model.space, &model.openings);
    let roof: Vec<&str> = roof.iter().filter(|one| one.side == Wall::Roof).map(|one| one.name.as_str()).collect();
    let on_roof = losses.through.iter().filter(|loss| roof.contains(&loss.name.as_str()));
    let roof = on_roof.map(|loss| loss.area * loss.u).sum::<f64>();
    let glass = |wall: Wall| {
        let windows = model.openings.iter().filter(|one| one.wall == wall);
        let lets = windows.filter(|one| matches!(one.kind, OpeningKind::Window | OpeningKind::RoofHatch));
        lets.map(|one| opening_area(one) / 1e6).sum::<f64>()
    };
    let walls = [Wall::Front, Wall::Rear, Wall::Left, Wall::Right].map(glass).into_iter().fold(0.0, f64::max);
    Gains {
        through: (shell + AIR * climate.air_changes * losses.volume) * difference,
        roof: roof * climate.absorbs * climate.sun * RSE,
        windows: climate.sun * LETS_IN * (glass(Wall::Roof) + ON_A_WALL * walls),
        people: PERSON * model.people.len() as f64,
    }
}

/// Heat that warms the box by 1 K, J/K: air, half of the shell and half of the furniture's pieces.
#[must_use]
pub fn capacity(model: &Model, losses: &Losses) -> f64 {
    const OF_AIR: f64 = AIR * 3600.0;
    let shell: f64 = surfaces(&model.space, &model.openings).iter().map(|one| one.area * one.panel.areal_mass).sum();
    let pieces = model.modules.iter().flat_map(|module| &module.parts);
    let pieces: f64 = pieces.map(|part| model.part_mass(part) * f64::from(part.count)).sum();
    OF_AIR * losses.volume + OF_WOOD * (WARM_SHELL * shell + WARM_FURNITURE * pieces)
}

/// Hours from the temperature outside to that inside with a heater, if it is strong enough: `C / H ln(P / (P - H difference))`, with the losses
/// `H` in W/K.
#[must_use]
pub fn hours_to_warm(capacity: f64, losses: f64, difference: f64, heater: f64) -> Option<f64> {
    let left = heater - losses * difference;
    (left > 0.0 && losses > 0.0 && difference > 0.0).then(|| capacity / losses * (heater / left).ln() / 3600.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 1.2 MJ/K, 60 W/K, 30 K: 1,800 W go out when it is warm. 4,000 W take 20,000 s x ln(4000 / 2200) = 3.32 h; 1,800 W never get there.
    #[test]
    fn warming_up_takes_its_time() {
        let hours = hours_to_warm(1.2e6, 60.0, 30.0, 4000.0).unwrap();
        assert!(
            (hours - 20_000.0 / 3600.0 * (4000.0_f64 / 2200.0).ln()).abs() < 1e-9 && (hours - 3.32).abs() < 0.005,
            "{hours}"
        );
        assert_eq!(hours_to_warm(1.2e6, 60.0, 30.0, 1800.0), None);
    }
}

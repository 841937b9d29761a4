//! Heat loss of the whole shell, and the heater that it needs.

use super::heat::{RSE, Transmittance, resistance, rsi, transmittance};
use super::{Surface, layered, opening_area, panel_of, surfaces, usual_u};
use crate::geometry::{Prism, free_volume};
use crate::model::{BoxSpace, Model, Opening, Panel, Wall};
use kurbo::Rect;

/// Heat that warms 1 m3 of air by 1 K, Wh; dry air at 20 degrees Celsius.
pub const AIR: f64 = 0.34;

/// One surface or opening of the shell.
#[derive(Debug, Clone, PartialEq)]
pub struct Loss {
    /// What.
    pub name: String,
    /// Its layup, or what fills it.
    pub made_of: String,
    /// Area, m2.
    pub area: f64,
    /// Transmittance, W/(m2 K).
    pub u: f64,
}

/// Heat that goes out.
#[derive(Debug, Clone, PartialEq)]
pub struct Losses {
    /// Through each surface and opening.
    pub through: Vec<Loss>,
    /// Of the air inside, m3.
    pub volume: f64,
    /// Where two panels meet: length, m.
    pub edges: f64,
    /// What these let through on top of the inside areas, W/K.
    pub at_edges: f64,
    /// Sum of area times transmittance, and of edges, over the whole area, W/(m2 K).
    pub mean_u: f64,
    /// Through the shell at the climate's temperatures, W.
    pub conducted: f64,
    /// With the air that is changed, W.
    pub aired: f64,
}

impl Losses {
    /// All heat that goes out, W.
    #[must_use]
    pub fn watts(&self) -> f64 {
        self.conducted + self.aired
    }
}

/// The transmittance of a panel on a side of the box.
#[must_use]
pub fn panel_u(panel: &Panel, side: Wall) -> Transmittance {
    transmittance(panel, side, (rsi(side), RSE))
}

/// The heat loss of a layout in its climate.
#[must_use]
pub fn losses(model: &Model) -> Losses {
    // The same for all walls, and dear where a panel has members.
    let of_layers: Vec<(&str, Wall, f64)> = layered(&model.space)
        .into_iter()
        .map(|(_, side, panel)| (panel.layup.as_str(), side, panel_u(panel, side).u))
        .collect();
    let u = |panel: &Panel, side: Wall| {
        let like = |one: Wall| rsi(one).to_bits() == rsi(side).to_bits();
        let known = of_layers.iter().find(|(layup, one, _)| *layup == panel.layup && like(*one));
        known.map_or_else(|| panel_u(panel, side).u, |(.., u)| *u)
    };
    let surface = |surface: Surface<'_>| Loss {
        u: u(surface.panel, surface.side),
        made_of: surface.panel.layup.clone(),
        name: surface.name,
        area: surface.area,
    };
    let mut through: Vec<Loss> = surfaces(&model.space, &model.openings).into_iter().map(surface).collect();
    through.extend(model.openings.iter().map(|opening| {
        let panel = panel_of(&model.space, opening.wall);
        let own = opening_u(opening);
        let u = own.unwrap_or_else(|| u(panel, opening.wall));
        let made_of = if own.is_some() { opening.kind.words().to_owned() } else { panel.layup.clone() };
        Loss { name: opening.name.clone(), made_of, area: opening_area(opening) / 1e6, u }
    }));
    let area: f64 = through.iter().map(|loss| loss.area).sum();
    let (edges, at_edges) = edges(&model.space);
    let conductance: f64 = through.iter().map(|loss| loss.area * loss.u).sum::<f64>() + at_edges;
    let climate = &model.climate;
    let difference = climate.inside - climate.outside;
    let volume = volume(model);
    Losses {
        mean_u: if area > 0.0 { conductance / area } else { 0.0 },
        conducted: conductance * difference,
        aired: AIR * climate.air_changes * volume * difference,
        edges,
        at_edges,
        through,
        volume,
    }
}

/// Heat through an edge of two walls on top of that through their inside faces: 0.56 times conductivity and length. Textbooks give 0.54 (Langmuir), from
/// memory; relaxation on squares tends to 0.56.
const EDGE: f64 = 0.56;

/// Length of the edges of a box, m, and their conductance, W/K: of each two panels the mean of their conductivities over all layers. What its
/// eight corners add is left out, since it is a thousandth.
fn edges(space: &BoxSpace) -> (f64, f64) {
    let conductivity = |panel: &Panel, side: Wall| {
        let whole: f64 = panel.layers.iter().map(|layer| resistance(layer, side)).sum();
        if whole > 0.0 { panel.thickness / 1000.0 / whole } else { 0.0 }
    };
    let wall = conductivity(&space.walls, Wall::Left);
    let (roof, floor) = (conductivity(&space.roof_panel, Wall::Roof), conductivity(&space.floor, Wall::Floor));
    let (around, up) = space.edges();
    let sum = around * (f64::midpoint(wall, roof) + f64::midpoint(wall, floor)) + up * wall;
    (2.0 * around + up, EDGE * sum)
}

/// Transmittance of what fills an opening, W/(m2 K): the layout's, else the usual one; `None` for a leaf made of its panel.
#[must_use]
pub fn opening_u(opening: &Opening) -> Option<f64> {
    opening.u_value.or(usual_u(opening.kind))
}

/// Volume of the box less its cutaways, m3.
fn volume(model: &Model) -> f64 {
    let space = &model.space;
    let top = space.roof.highest();
    let whole = Prism::upright(Rect::new(0.0, 0.0, space.length, space.width), 0.0, top);
    let cut: Vec<&Prism> = space.cutaways.iter().map(|cutaway| &cutaway.prism).collect();
    free_volume(&whole, &cut, &space.roof) / 1e9
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::Layer;
    use crate::model::testing::space;

    /// By hand: edges of 2 x 2 (4 + 2) + 4 x 2 = 32 m; 40 mm of 0.04 W/(m K) all round: 0.56 x 0.04 x 32 = 0.7168 W/K.
    #[test]
    fn edges_are_those_of_a_box() {
        let layer = Layer { material: "core".to_owned(), thickness: 40.0, conductivity: 0.04, bridge: None };
        let mut space = space(4000.0, 2000.0, 2000.0);
        for panel in [&mut space.walls, &mut space.roof_panel, &mut space.floor] {
            (panel.thickness, panel.layers) = (40.0, vec![layer.clone()]);
        }
        let (length, conductance) = edges(&space);
        assert!((length - 32.0).abs() < 1e-9 && (conductance - 0.7168).abs() < 1e-9, "{length} {conductance}");
    }

    /// Heat round a corner of two walls, solved here by relaxation on squares: walls 12 squares thick and 48 long from the inner corner, inside at
    /// 1, outside at 0, ends closed. More than through the inside faces is 0.56 conductivities.
    #[test]
    fn an_edge_lets_through_half_a_conductivity() {
        const WALL: usize = 12;
        const SIDE: usize = 5 * WALL;
        let mut warm = vec![0.5_f64; SIDE * SIDE];
        let fixed = |x: usize, y: usize| match (x, y) {
            (0, _) | (_, 0) => Some(0.0),
            (x, y) if x >= WALL && y >= WALL => Some(1.0),
            _ => None,
        };
        for _ in 0..4_000 {
            for at in 0..SIDE * SIDE {
                let (x, y) = (at % SIDE, at / SIDE);
                warm[at] = fixed(x, y).unwrap_or_else(|| {
                    let right = if x + 1 < SIDE { warm[at + 1] } else { warm[at - 1] };
                    let below = if y + 1 < SIDE { warm[at + SIDE] } else { warm[at - SIDE] };
                    (warm[at - 1] + right + warm[at - SIDE] + below) / 4.0
                });
            }
        }
        // Heat that comes out on one face, and through as much plain wall; the last node on the closed end stands for half a square.
        let share = |at: usize| if at + 1 == SIDE { 0.5 } else { 1.0 };
        let out: f64 = (1..SIDE).map(|x| warm[SIDE + x] * share(x)).sum();
        let inside = (SIDE - 1 - WALL) as f64 / WALL as f64;
        let more = 2.0 * (out - inside);
        assert!((more - EDGE).abs() <= 0.015, "{more}");
    }
}

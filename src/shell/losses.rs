//! Heat loss of the whole shell, and the heater that it needs.

use super::heat::{RSE, Transmittance, rsi, transmittance};
use super::{Surface, opening_area, panel_of, surfaces, usual_u};
use crate::geometry::{Prism, free_volume};
use crate::model::{Model, Opening, Panel, Wall};
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
    /// Sum of area times transmittance over the whole area, W/(m2 K).
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
    let surface = |surface: Surface<'_>| Loss {
        u: panel_u(surface.panel, surface.side).u,
        made_of: surface.panel.layup.clone(),
        name: surface.name,
        area: surface.area,
    };
    let mut through: Vec<Loss> = surfaces(&model.space, &model.openings).into_iter().map(surface).collect();
    through.extend(model.openings.iter().map(|opening| {
        let panel = panel_of(&model.space, opening.wall);
        let own = opening_u(opening);
        let u = own.unwrap_or_else(|| panel_u(panel, opening.wall).u);
        let made_of = if own.is_some() { opening.kind.words().to_owned() } else { panel.layup.clone() };
        Loss { name: opening.name.clone(), made_of, area: opening_area(opening) / 1e6, u }
    }));
    let area: f64 = through.iter().map(|loss| loss.area).sum();
    let conductance: f64 = through.iter().map(|loss| loss.area * loss.u).sum();
    let climate = &model.climate;
    let difference = climate.inside - climate.outside;
    let volume = volume(model);
    Losses {
        mean_u: if area > 0.0 { conductance / area } else { 0.0 },
        conducted: conductance * difference,
        aired: AIR * climate.air_changes * volume * difference,
        through,
        volume,
    }
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

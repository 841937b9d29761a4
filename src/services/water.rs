//! How long the water lasts.

use crate::model::{Holds, Model};

/// Water aboard and its use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Water {
    /// Fresh water, litres, as travelling full.
    pub fresh: f64,
    /// Room for grey water, litres.
    pub grey: f64,
    /// Used by all people in a day, litres.
    pub daily: f64,
    /// Days until the fresh water is gone.
    pub days: f64,
    /// Days until the grey tank is full; infinite without one.
    pub grey_days: f64,
}

/// The water of a layout; `None` where it says no use, has nobody aboard or no fresh water.
#[must_use]
pub fn water(model: &Model) -> Option<Water> {
    let (each, _) = model.services.water?;
    let tanks = |holds: Holds| model.loads.iter().filter_map(|load| load.tank).filter(move |tank| tank.holds == holds);
    let fresh: f64 = tanks(Holds::Fresh).map(|tank| tank.litres() * tank.fill[2]).sum();
    let grey: f64 = tanks(Holds::Grey).map(|tank| tank.litres() * (1.0 - tank.fill[2])).sum();
    let daily = each * model.people.len() as f64;
    let grey_days = if grey > 0.0 { grey / daily } else { f64::INFINITY };
    (daily > 0.0).then(|| Water { fresh, grey, daily, days: fresh / daily, grey_days })
}

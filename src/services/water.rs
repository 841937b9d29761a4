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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Point3;
    use crate::model::testing::{model, space};
    use crate::model::{Load, LoadKind, Person, Tank};
    use crate::source::Span;

    fn tank(holds: Holds, fill: f64) -> Load {
        let tank = Tank { size: [500.0, 500.0, 400.0], holds, density: 1.0, fill: [0.2, 0.9, fill] };
        let (name, span) = ("tank".to_owned(), Span::default());
        Load {
            name,
            at: Point3::default(),
            mass: 10.0,
            size: None,
            room: None,
            kind: LoadKind::Other,
            filler: None,
            tank: Some(tank),
            only_full: false,
            span,
        }
    }

    /// Tanks of 100 l: 80 l and 50 l of fresh water, room for 75 l of grey water, fuel beside them; 2 people use 13 l each, so
    /// it lasts 130 / 26 = 5 days and the grey tank 75 / 26.
    #[test]
    fn water_is_counted_as_travelling_full() {
        let mut model = model(space(4000.0, 2000.0, 2000.0));
        model.loads =
            vec![tank(Holds::Fresh, 0.8), tank(Holds::Grey, 0.25), tank(Holds::Fuel, 1.0), tank(Holds::Fresh, 0.5)];
        let person =
            Person { name: "ada".to_owned(), stature: 1700.0, measured: true, mass: 70.0, span: Span::default() };
        model.people = vec![person.clone(), person];
        assert_eq!(water(&model), None);
        model.services.water = Some((13.0, Span::default()));
        let found = water(&model).unwrap();
        let figures = [found.fresh, found.grey, found.daily, found.days, found.grey_days];
        for (value, by_hand) in figures.into_iter().zip([130.0, 75.0, 26.0, 5.0, 75.0 / 26.0]) {
            assert!((value - by_hand).abs() < 1e-9, "{found:?}");
        }
        model.loads.remove(1);
        assert_eq!(water(&model).unwrap().grey_days, f64::INFINITY);
    }
}

//! Where people lie and sit, as the checks see it, for pictures.

use super::berths::{beds, night, places};
use super::seat_room::sitting_places;
use crate::geometry::Axis;
use crate::model::{Arrangement, Model, Module, Person, Wall};
use kurbo::Rect;

/// The room of one person who lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lying<'a> {
    /// The bed.
    pub module: &'a Module,
    /// Seen from above.
    pub rect: Rect,
    /// The direction of lying: along x or along y.
    pub along: Axis,
    /// Height of the mattress top above the floor, mm.
    pub top: f64,
    /// Who lies here, if anybody does.
    pub sleeper: Option<&'a Person>,
}

/// The room of those who sit side by side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sitting<'a> {
    /// The seat, or the table or desk with a loose chair.
    pub module: &'a Module,
    /// Seen from above.
    pub rect: Rect,
    /// Where they look.
    pub faces: Wall,
    /// Height of the seat above the floor, mm; `None` for a loose chair.
    pub seat: Option<f64>,
    /// How many sit here.
    pub people: u32,
}

/// Every berth of an arrangement.
#[must_use]
pub fn lying<'a>(model: &'a Model, arrangement: &'a Arrangement) -> Vec<Lying<'a>> {
    let mut all = Vec::new();
    for bed in beds(model, arrangement) {
        let sleepers = bed.sleepers.iter().map(|person| Some(*person)).chain(std::iter::repeat(None));
        let lies = |(strip, sleeper): (super::berths::Strip, _)| Lying {
            module: bed.module,
            rect: strip.rect,
            along: bed.lies,
            top: bed.top(),
            sleeper,
        };
        all.extend(bed.strips().into_iter().zip(sleepers).map(lies));
    }
    all
}

/// Every place to sit of an arrangement.
#[must_use]
pub fn sitting<'a>(model: &'a Model, arrangement: &'a Arrangement) -> Vec<Sitting<'a>> {
    let sits = |place: super::seat_room::Place<'a>| Sitting {
        module: place.module,
        rect: place.plan(),
        faces: place.faces(),
        seat: place.seat,
        people: place.space.people.max(1),
    };
    sitting_places(model, arrangement).into_iter().map(sits).collect()
}

/// How many can lie in an arrangement; places too short or too narrow for anybody do not count.
#[must_use]
pub fn berths_of(model: &Model, arrangement: &Arrangement) -> u32 {
    places(model, arrangement)
}

/// Whether people sleep in an arrangement.
#[must_use]
pub fn is_night(model: &Model, arrangement: &Arrangement) -> bool {
    night(model).is_some_and(|night| night.name == arrangement.name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::testing::{block, box3, lying as lies, model, space, with, with_person, with_space};

    #[test]
    fn named_people_lie_in_their_strips() {
        let extent = box3((2000.0, 3400.0), (0.0, 1950.0), (0.0, 600.0));
        let bed = with_space(block("bed", extent), lies(extent, 2, Some(Axis::Y)));
        let model = with_person(with(model(space(4000.0, 2000.0, 2000.0)), bed), 1700.0);
        let found = lying(&model, &model.arrangements[0]);
        assert_eq!(found.iter().map(|one| one.sleeper.is_some()).collect::<Vec<_>>(), [true, false]);
        assert_eq!((found[1].rect, found[1].top), (Rect::new(2700.0, 0.0, 3400.0, 1950.0), 600.0));
        assert!(is_night(&model, &model.arrangements[0]) && sitting(&model, &model.arrangements[0]).is_empty());
    }
}

//! Who sleeps where: the lying spaces of an arrangement with their sleepers, and each sleeper's own strip.
//!
//! Sleepers are those whom the layout names at the module, for a space of it or in order; others get, the tallest first, the
//! longest free place that is long and wide enough for them. A space for several people is shared out across its width into strips of one size.

use super::shell::at_the;
use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::Axis;
use crate::model::{Arrangement, Model, Module, Need, Person, Space, Taker, Wall};
use kurbo::Rect;

/// A lying space with its sleepers and its sizes.
pub(crate) struct Bed<'a> {
    pub module: &'a Module,
    pub space: &'a Space,
    /// Who sleeps here; may be fewer than the space is for.
    pub sleepers: Vec<&'a Person>,
    /// The direction of lying: along x or along y.
    pub lies: Axis,
    /// Along the direction of lying, mm.
    pub length: f64,
    /// Across it, mm.
    pub width: f64,
}

/// The room of one sleeper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Strip {
    /// Seen from above.
    pub rect: Rect,
    /// Which side of the bed it is at; `None` in the middle, or if it is the only one.
    pub at: Option<Wall>,
}

/// Narrower than this for each person is no place to sleep, mm; common practice, no source.
pub(crate) const NARROWEST: f64 = 500.0;

/// The lying spaces of an arrangement with their sleepers.
pub(crate) fn beds<'a>(model: &'a Model, arrangement: &'a Arrangement) -> Vec<Bed<'a>> {
    let mut beds = Vec::new();
    for (module, state) in model.states(arrangement) {
        let mut anywhere = module.sleepers.iter().filter(|taker| taker.space.is_none());
        for space in state.spaces.iter().filter(|space| space.need == Need::Lying) {
            let own = module.sleepers.iter().filter(|taker| taker.space.as_ref() == Some(&space.name));
            let mut takers: Vec<&Taker> = own.collect();
            takers.extend(anywhere.by_ref().take(places_of(space).saturating_sub(takers.len())));
            let who = |taker: &&Taker| model.people.iter().find(|person| person.name == taker.who);
            let sleepers = takers.iter().filter_map(who).collect();
            let (lies, length, width) = sides(space);
            beds.push(Bed { module, space, sleepers, lies, length, width });
        }
    }
    for person in unnamed(model) {
        let free = beds.iter_mut().filter(|bed| bed.sleepers.len() < places_of(bed.space) && bed.takes(person.stature));
        let longest = free.reduce(|best, next| if next.length > best.length { next } else { best });
        if let Some(bed) = longest {
            bed.sleepers.push(person);
        }
    }
    beds
}

fn places_of(space: &Space) -> usize {
    space.people.max(1) as usize
}

/// Berths in the arrangement that has most.
pub(crate) fn most_berths(model: &Model) -> usize {
    let berths = |arrangement: &Arrangement| {
        let spaces = model.states(arrangement).flat_map(|(_, state)| &state.spaces);
        spaces.filter(|space| space.need == Need::Lying).map(places_of).sum::<usize>()
    };
    model.arrangements.iter().map(berths).max().unwrap_or(0)
}

/// Those whom no module names, the tallest first.
pub(crate) fn unnamed(model: &Model) -> Vec<&Person> {
    let named = |person: &Person| {
        let all = model.modules.iter().flat_map(|module| &module.sleepers);
        all.into_iter().any(|taker| taker.who == person.name)
    };
    let mut others: Vec<&Person> = model.people.iter().filter(|person| !named(person)).collect();
    others.sort_by(|a, b| b.stature.total_cmp(&a.stature));
    others
}

/// The direction of lying, length along it, and width; without a direction the longer side is the length.
fn sides(space: &Space) -> (Axis, f64, f64) {
    let plan = space.prism.bounds().plan();
    let lies = match space.along {
        Some(Axis::Y) => Axis::Y,
        None if plan.height() > plan.width() => Axis::Y,
        _ => Axis::X,
    };
    let (length, width) = if lies == Axis::Y { (plan.height(), plan.width()) } else { (plan.width(), plan.height()) };
    (lies, length, width)
}

/// How many people can lie in an arrangement: places that are long and wide enough for the shortest person, and those that
/// are taken.
pub(crate) fn places(model: &Model, arrangement: &Arrangement) -> u32 {
    let shortest = model.shortest();
    let count = |bed: &Bed<'_>| if bed.takes(shortest) { places_of(bed.space) } else { bed.sleepers.len() };
    // At most as many as the bound on people of a space, for each of a bounded number of spaces.
    #[allow(clippy::cast_possible_truncation)]
    let all = beds(model, arrangement).iter().map(|bed| count(bed) as u32).sum();
    all
}

/// The arrangement in which people sleep: `night`, or, if there is none, the first of those with the most berths.
pub(crate) fn night(model: &Model) -> Option<&Arrangement> {
    let named = model.arrangements.iter().find(|arrangement| arrangement.name == "night");
    named.or_else(|| model.arrangements.iter().rev().max_by_key(|arrangement| places(model, arrangement)))
}

impl Bed<'_> {
    /// Whether somebody so tall finds a place here that is long and wide enough.
    pub fn takes(&self, stature: f64) -> bool {
        let each = self.width / f64::from(self.space.people.max(1));
        self.length + SAME_LENGTH >= stature && each + SAME_LENGTH >= NARROWEST
    }

    /// Height of the mattress top above the floor, mm.
    pub fn top(&self) -> f64 {
        self.space.prism.bounds().z.0
    }

    /// The lying space seen from above; one that is no rectangle counts as the rectangle around it.
    pub fn plan(&self) -> Rect {
        self.space.prism.bounds().plan()
    }

    /// The room of each sleeper, from the front to the rear or from left to right.
    pub fn strips(&self) -> Vec<Strip> {
        let (plan, count) = (self.plan(), self.space.people.max(1));
        let (low, high) = if self.lies == Axis::Y { (Wall::Front, Wall::Rear) } else { (Wall::Left, Wall::Right) };
        let cut = |index: u32, from: f64, to: f64| from + (to - from) * f64::from(index) / f64::from(count);
        let strip = |index: u32| {
            let rect = match self.lies {
                Axis::Y => Rect { x0: cut(index, plan.x0, plan.x1), x1: cut(index + 1, plan.x0, plan.x1), ..plan },
                _ => Rect { y0: cut(index, plan.y0, plan.y1), y1: cut(index + 1, plan.y0, plan.y1), ..plan },
            };
            let at = match index {
                _ if count == 1 => None,
                0 => Some(low),
                last if last + 1 == count => Some(high),
                _ => None,
            };
            Strip { rect, at }
        };
        (0..count).map(strip).collect()
    }

    /// In words, who lies in a strip: "`ada`" where nobody else does, else "who sleeps at the rear of `bed`".
    pub fn who(&self, strip: &Strip) -> String {
        let bed = &self.module.name;
        match (self.sleepers.as_slice(), strip.at) {
            ([only], _) => format!("`{}` in `{bed}`", only.name),
            ([], None) if self.space.people <= 1 => format!("a sleeper in `{bed}`"),
            (_, None) => format!("who sleeps in the middle of `{bed}`"),
            (_, Some(side)) => format!("who sleeps {} of `{bed}`", at_the(side)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::testing::{block, box3, lying, model, space, with, with_person, with_space};

    fn double(along: Option<Axis>) -> Model {
        let extent = box3((2000.0, 3400.0), (0.0, 1950.0), (0.0, 600.0));
        with(model(space(4000.0, 2000.0, 2000.0)), with_space(block("bed", extent), lying(extent, 2, along)))
    }

    #[test]
    fn strips_lie_side_by_side_across_the_width() {
        let across = double(Some(Axis::Y));
        let beds = beds(&across, &across.arrangements[0]);
        let strips = beds[0].strips();
        assert_eq!(strips[0], Strip { rect: Rect::new(2000.0, 0.0, 2700.0, 1950.0), at: Some(Wall::Front) });
        assert_eq!(strips[1], Strip { rect: Rect::new(2700.0, 0.0, 3400.0, 1950.0), at: Some(Wall::Rear) });
        assert_eq!((beds[0].length, beds[0].width, beds[0].top()), (1950.0, 1400.0, 600.0));
        assert_eq!(beds[0].who(&strips[1]), "who sleeps at the rear of `bed`");
    }

    #[test]
    fn without_a_direction_people_lie_along_the_longer_side() {
        let (along, unknown) = (double(Some(Axis::X)), double(None));
        let at = |model: &Model| beds(model, &model.arrangements[0])[0].strips()[0];
        assert_eq!(at(&along), Strip { rect: Rect::new(2000.0, 0.0, 3400.0, 975.0), at: Some(Wall::Left) });
        assert_eq!(at(&unknown).rect, Rect::new(2000.0, 0.0, 2700.0, 1950.0));
    }

    #[test]
    fn one_sleeper_in_a_double_bed_is_called_by_name() {
        let one = with_person(double(Some(Axis::Y)), 1700.0);
        let beds = beds(&one, &one.arrangements[0]);
        assert_eq!(beds[0].who(&beds[0].strips()[0]), "`ada` in `bed`");
    }

    #[test]
    fn people_sleep_at_night_or_where_most_can() {
        let mut two = double(None);
        let night = Arrangement { name: "late".to_owned(), ..two.arrangements[0].clone() };
        two.arrangements.push(night);
        assert_eq!(super::night(&two).unwrap().name, "day", "the first of those with as many");
        two.arrangements[1].name = "night".to_owned();
        assert_eq!(super::night(&two).unwrap().name, "night");
        assert_eq!(places(&two, &two.arrangements[0]), 2);
    }
}

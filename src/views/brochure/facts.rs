//! Key figures of a layout, and what they are called.

use crate::base::number::trimmed;
use crate::diagnostic::{Finding, Severity};
use crate::figures;
use crate::model::{Arrangement, Model, Tag};
use crate::views::kit::words::words_of;

/// Cubic millimetres in a litre.
const LITRE: f64 = 1e6;
/// Square millimetres in a square metre.
const SQUARE_METRE: f64 = 1e6;
/// The check whose notes say what storage spaces hold.
const STORAGE: &str = "boot-volume";

/// A figure with its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Fact {
    /// `4.08 × 2.20 × 2.12 m`.
    pub value: String,
    /// `outside, long × wide × high`.
    pub name: String,
}

/// All that is known, in order.
pub(super) fn facts(model: &Model, findings: &[Finding]) -> Vec<Fact> {
    let space = &model.space;
    let wall = 2.0 * space.walls.thickness;
    let high = space.roof.highest();
    let shell = space.roof_panel.thickness + space.floor.thickness;
    let outside = [space.length + wall, space.width + wall, high + shell];
    let inside = [space.length, space.width, high];
    let mut facts = vec![
        fact(metres(&outside), "outside, long × wide × high"),
        fact(metres(&inside), "inside, long × wide × high"),
        fact(format!("{:.1} m²", space.length * space.width / SQUARE_METRE), "floor"),
    ];
    let most = |count: &dyn Fn(&Arrangement) -> usize| model.arrangements.iter().map(count).max().unwrap_or(0);
    let berths = most(&|arrangement| figures::berths_of(model, arrangement) as usize);
    let seats = most(&|arrangement| {
        let places = figures::sitting(model, arrangement).into_iter();
        places.filter(|place| place.seat.is_some()).map(|place| place.people as usize).sum()
    });
    facts.extend((berths > 0).then(|| fact(berths.to_string(), if berths == 1 { "berth" } else { "berths" })));
    facts.extend((seats > 0).then(|| fact(seats.to_string(), if seats == 1 { "seat" } else { "seats" })));
    facts.extend(storage(model, findings));
    let water = litres_of_tanks(model);
    facts.extend((water >= 1.0).then(|| fact(format!("{} l", trimmed(water, 0)), "water tank")));
    facts
}

fn fact(value: String, name: &str) -> Fact {
    Fact { value, name: name.to_owned() }
}

/// Millimetres as metres with two decimals.
fn metres(sides: &[f64]) -> String {
    let sides: Vec<String> = sides.iter().map(|side| format!("{:.2}", side / 1000.0)).collect();
    format!("{} m", sides.join(" × "))
}

/// What all storage spaces hold in every arrangement, as the check computes it.
fn storage(model: &Model, findings: &[Finding]) -> Option<Fact> {
    let notes = findings.iter().filter(|finding| finding.key.check == STORAGE && finding.severity == Severity::Note);
    let notes: Vec<&Finding> = notes.filter(|finding| finding.measured.is_some()).collect();
    let litres = |arrangement: &Arrangement| -> f64 {
        let own = notes.iter().filter(|note| note.arrangements.contains(&arrangement.name));
        own.filter_map(|note| note.measured.map(|measured| measured.value)).sum()
    };
    let least = model.arrangements.iter().map(litres).reduce(f64::min).filter(|least| *least >= 1.0)?;
    let first = notes.first()?;
    let name = if notes.iter().all(|note| note.key.subject == first.key.subject) {
        words_of(&first.key.subject.to_string()).to_lowercase()
    } else {
        "storage".to_owned()
    };
    Some(fact(format!("{} l", trimmed(least, 0)), &name))
}

/// Litres of all tanks by their outsides, less 6 in 100 for walls and air; common practice, no source.
fn litres_of_tanks(model: &Model) -> f64 {
    let first = model.arrangements.first();
    let solids = first.into_iter().flat_map(|arrangement| model.solids(arrangement));
    let tanks = solids.filter(|(_, solid)| solid.is(Tag::Tank));
    tanks.map(|(_, solid)| solid.prism.volume() / LITRE * 0.94).sum()
}

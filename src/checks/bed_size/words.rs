//! Findings of the check `bed-size` in words, and the table of trade mattresses.

use super::super::words::{area, length};
use crate::base::number::{mm, trimmed};
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::{Bound, Finding, Measure, Quantity, Requirement, Severity};
use crate::figures::berths::{Bed, NARROWEST};
use crate::model::{Arrangement, Model, Person};
use crate::source::Span;

/// The check's name.
pub(super) const NAME: &str = "bed-size";

/// A finding that one side of a bed is too small. `side` is its word and its size; `who` the sleeper and their stature.
pub(super) fn size_finding(
    arrangement: &Arrangement,
    bed: &Bed<'_>,
    severity: Severity,
    (word, measured): (&'static str, f64),
    required: Requirement,
    (who, stature): (&str, f64),
) -> Finding {
    let least = required.value();
    let tall = if stature > 0.0 { format!(", {} tall", mm(stature)) } else { String::new() };
    let (space, owner) = (&bed.space.name, &bed.module.name);
    let message = format!(
        "the lying space `{space}` of `{owner}` is {} {word} for {who}{tall}, who needs {}",
        mm(measured),
        mm(least)
    );
    let finding = Finding::new(NAME, severity, owner, message).of_part(space).asks(word);
    let mut finding = finding.names("who", who).figure("stature", stature, Quantity::Length);
    finding.arrangements = vec![arrangement.name.clone()];
    finding.measured = length(measured);
    finding.required = Some(required);
    finding.spans = vec![bed.module.place_span, bed.space.span];
    finding.marks = vec![area(bed.space.prism.bounds().plan())];
    finding
}

/// The note with the nearest trade mattress.
pub(super) fn nearest(arrangement: &Arrangement, bed: &Bed<'_>) -> Finding {
    let off = |m: &Mattress| (m.length - bed.length).abs() + (m.width - bed.width).abs();
    let goes_in = |m: &&Mattress| m.length <= bed.length + SAME_LENGTH && m.width <= bed.width + SAME_LENGTH;
    let near = MATTRESSES.iter().filter(goes_in).min_by(|a, b| off(a).total_cmp(&off(b)));
    let side = |value: f64| trimmed(value, 1);
    let size = format!(
        "the lying space `{}` of `{}` is {} x {}",
        bed.space.name,
        bed.module.name,
        side(bed.length),
        mm(bed.width)
    );
    let none = || "; no trade mattress goes in".to_owned();
    let trade = near.map_or_else(none, |m| {
        let sure = if m.from_memory { ", from memory" } else { "" };
        format!("; the nearest trade mattress that goes in is {} ({} x {}{sure})", m.name, side(m.length), mm(m.width))
    });
    let finding = Finding::new(NAME, Severity::Note, &bed.module.name, size + &trade).of_part(&bed.space.name);
    let mut finding = finding.asks("mattress").figure("width", bed.width, Quantity::Length);
    finding.arrangements = vec![arrangement.name.clone()];
    finding.measured = length(bed.length);
    finding.spans = vec![bed.module.place_span, bed.space.span];
    finding
}

/// The finding that there are fewer berths than people.
pub(super) fn berths_finding(model: &Model, night: &Arrangement, people: usize, berths: usize) -> Finding {
    let count = |n: usize, one: &str, more: &str| if n == 1 { format!("1 {one}") } else { format!("{n} {more}") };
    let message = format!("{}, {}", count(people, "person", "people"), count(berths, "berth", "berths"));
    let mut finding =
        Finding::new(NAME, Severity::Fault, "berths", message).figure("people", people as f64, Quantity::Count);
    finding.arrangements = vec![night.name.clone()];
    finding.measured = Some(Measure { value: berths as f64, quantity: Quantity::Count });
    finding.required = Some(Requirement::geometry(Bound::Least(people as f64), Quantity::Count));
    finding.spans = spans(model, night);
    finding.help = Some("add a bed, or a pose with a lying space".to_owned());
    finding
}

/// The finding that somebody finds no berth that is long enough, with the longest that is free.
pub(super) fn too_tall_finding(night: &Arrangement, person: &Person, beds: &[Bed<'_>]) -> Finding {
    let free = beds.iter().filter(|bed| bed.sleepers.len() < bed.space.people.max(1) as usize);
    let longest = free.reduce(|best, next| if next.length > best.length { next } else { best });
    let near = longest.map_or_else(String::new, |bed| {
        let (space, owner) = (&bed.space.name, &bed.module.name);
        format!("; the longest that is free is `{space}` of `{owner}`, {} x {}", mm(bed.length), mm(bed.width))
    });
    let who = &person.name;
    let message = format!("`{who}`, {} tall, fits no free berth{near}", mm(person.stature));
    let mut finding = Finding::new(NAME, Severity::Fault, "berths", message).names("who", who);
    finding.arrangements = vec![night.name.clone()];
    let narrow = longest.filter(|bed| bed.length + SAME_LENGTH >= person.stature);
    let (measured, least) = match narrow {
        Some(bed) => (bed.width / f64::from(bed.space.people.max(1)), NARROWEST),
        None => (longest.map_or(0.0, |bed| bed.length), person.stature),
    };
    finding.measured = length(measured);
    finding.required = Some(Requirement::geometry(Bound::Least(least), Quantity::Length));
    finding.spans = longest.map(|bed| bed.module.place_span).into_iter().chain([person.span, night.span]).collect();
    finding.help = Some("make a berth longer, or say who sleeps where with `sleepers`".to_owned());
    finding
}

fn spans(model: &Model, night: &Arrangement) -> Vec<Span> {
    std::iter::once(night.span).chain(model.people.iter().map(|person| person.span)).collect()
}

/// A mattress as the trade sells it, mm.
struct Mattress {
    name: &'static str,
    length: f64,
    width: f64,
    from_memory: bool,
}

const INCH: f64 = 25.4;

const fn mattress(name: &'static str, width: f64, length: f64, from_memory: bool) -> Mattress {
    Mattress { name, length, width, from_memory }
}

/// Secondary sources (a table of common bed sizes); the last column says which are from memory, not verified.
const MATTRESSES: [Mattress; 15] = [
    mattress("EU 90", 900.0, 2000.0, false),
    mattress("EU 140", 1400.0, 2000.0, false),
    mattress("EU 160", 1600.0, 2000.0, false),
    mattress("EU 180", 1800.0, 2000.0, false),
    mattress("US twin", 39.0 * INCH, 75.0 * INCH, false),
    mattress("US full", 54.0 * INCH, 75.0 * INCH, false),
    mattress("US queen", 60.0 * INCH, 80.0 * INCH, false),
    mattress("US king", 76.0 * INCH, 80.0 * INCH, false),
    mattress("UK king", 1500.0, 2000.0, false),
    mattress("UK double", 1350.0, 1900.0, true),
    mattress("NZ super king", 1830.0, 2030.0, false),
    mattress("AU double", 1380.0, 1880.0, true),
    mattress("AU queen", 1530.0, 2030.0, true),
    mattress("AU king", 1830.0, 2030.0, true),
    mattress("US California king", 72.0 * INCH, 84.0 * INCH, false),
];

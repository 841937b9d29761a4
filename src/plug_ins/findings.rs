//! From what a plug-in answers to findings: nothing that the layout has not, and no verdict that its figures gainsay.

use super::things::Things;
use super::wire::{
    AboutWire, ArgumentWire, FindingWire, MarkWire, MeasureWire, PlaceWire, RequiredWire, bound, class, unit,
};
use super::words::{short, text};
use crate::backends::read_path;
use crate::base::number::micrometres;
use crate::diagnostic::{Finding, Key, Mark, Measure, Ran, Requirement, Severity};
use crate::figures::Figures;
use crate::source::Span;
use kurbo::Point;
use std::collections::BTreeSet;

/// Most findings of one answer.
pub(super) const MOST: usize = 1000;
/// Most of any list in a finding.
const MOST_OF_EACH: usize = 64;
/// Longest text of a finding, characters.
const LONGEST: usize = 1000;
/// Longest name or word.
const LONGEST_NAME: usize = 100;
/// How far marks may lie from the corner of the box, mm.
const FARTHEST: f64 = 100_000.0;

/// The findings of an answer; `checks` are the plug-in's checks with their limits as they hold, `prefix` is what their names
/// begin with.
///
/// # Errors
/// What is wrong with one of them.
pub(super) fn findings(
    wires: &[FindingWire],
    (prefix, checks): (&str, &[Ran]),
    figures: &Figures<'_>,
) -> Result<Vec<Finding>, String> {
    if wires.len() > MOST {
        return Err(format!("it gave {} findings, and {MOST} are the most: say more in one of them", wires.len()));
    }
    let things = Things::of(figures.model);
    let mut seen: BTreeSet<(Key, String)> = BTreeSet::new();
    let mut all = Vec::new();
    for (index, wire) in wires.iter().enumerate() {
        let wrong = |why: String| {
            format!(
                "its finding {} (`{}` of `{}`) is wrong: {why}",
                index + 1,
                short(&wire.check),
                short(&wire.subject)
            )
        };
        let finding = finding(wire, (prefix, checks), figures, &things).map_err(wrong)?;
        let none = [String::new()];
        let within = if finding.arrangements.is_empty() { &none[..] } else { &finding.arrangements };
        for arrangement in within {
            if !seen.insert((finding.key.clone(), arrangement.clone())) {
                return Err(wrong("an earlier one is the same finding; tell them apart by `about`".to_owned()));
            }
        }
        all.push(finding);
    }
    Ok(all)
}

fn finding(
    wire: &FindingWire,
    (prefix, checks): (&str, &[Ran]),
    figures: &Figures<'_>,
    things: &Things<'_>,
) -> Result<Finding, String> {
    #[rustfmt::skip]
    let FindingWire {
        check, severity, subject, about, arrangements, message, measured, required, arguments, places, marks, help,
        suggestion: (), accepted: (),
    } = wire;
    let full = format!("{prefix}:{check}");
    let own = checks.iter().find(|one| one.name == *check || one.name == full);
    let own = own.ok_or_else(|| format!("it describes no check `{}`", short(check)))?;
    let all = [Severity::Fault, Severity::Caution, Severity::Note, Severity::Met];
    let severity = all.into_iter().find(|one| one.word() == severity);
    let severity = severity.ok_or("a severity is fault, caution, note or met")?;
    let (subject, at) = things.subject(subject)?;
    few(about.len().max(arguments.len()).max(places.len()).max(marks.len()))?;
    let mut finding = Finding::new(own.name.clone(), severity, subject, text(message, LONGEST)?);
    for AboutWire { kind, name } in about {
        let name = text(name, LONGEST_NAME)?;
        finding = match kind.as_str() {
            "question" => finding.asks(name),
            "part" => finding.of_part(&name),
            "other" => finding.with_other(&name),
            _ => return Err(format!("there is no kind `{}`; kinds are question, part, other", short(kind))),
        };
    }
    for argument in arguments {
        finding = with_argument(finding, argument)?;
    }
    finding.arrangements = arrangements.clone();
    let strange = arrangements.iter().find(|name| figures.model.arrangements.iter().all(|one| one.name != **name));
    if let Some(strange) = strange {
        return Err(format!("the layout has no arrangement `{}`", short(strange)));
    }
    finding.measured = measured.as_ref().map(measure).transpose()?;
    finding.required = required.as_ref().map(|wire| requirement(wire, own)).transpose()?;
    finding.spans = places.iter().map(|place| span(place, figures)).collect::<Result<_, _>>()?;
    if finding.spans.is_empty() {
        finding.spans = at;
    }
    finding.marks = marks.iter().map(mark).collect::<Result<_, _>>()?;
    finding.help = help.as_ref().map(|help| text(help, LONGEST)).transpose()?;
    verdict(&finding)?;
    Ok(finding)
}

fn few(count: usize) -> Result<(), String> {
    if count > MOST_OF_EACH { Err(format!("one of its lists has more than {MOST_OF_EACH} entries")) } else { Ok(()) }
}

fn with_argument(finding: Finding, argument: &ArgumentWire) -> Result<Finding, String> {
    let name = text(&argument.name, LONGEST_NAME)?;
    match (&argument.figure, &argument.says) {
        (Some(figure), None) => {
            let Measure { value, quantity } = measure(figure)?;
            Ok(finding.figure(name, value, quantity))
        }
        (None, Some(says)) => Ok(finding.names(name, text(says, LONGEST)?)),
        _ => Err(format!("the argument `{name}` has either `figure` or `says`")),
    }
}

/// A fault or a caution is what misses its limit, and nothing else is.
fn verdict(finding: &Finding) -> Result<(), String> {
    let (Some(measured), Some(required)) = (&finding.measured, &finding.required) else { return Ok(()) };
    if measured.quantity != required.quantity {
        return Err("what is measured and what is required have different units".to_owned());
    }
    let holds = required.holds(measured.value);
    let says = matches!(finding.severity, Severity::Note | Severity::Met);
    match (holds, says) {
        (true, false) => Err(format!("it is a {}, but {measured} meets {}", finding.severity.word(), required.words())),
        (false, true) if finding.severity == Severity::Met => {
            Err(format!("it is met, but {measured} misses {}", required.words()))
        }
        _ => Ok(()),
    }
}

fn measure(wire: &MeasureWire) -> Result<Measure, String> {
    let MeasureWire { value, unit: of } = wire;
    if !value.is_finite() {
        return Err("a figure is no number".to_owned());
    }
    Ok(Measure { value: *value, quantity: unit(of)? })
}

fn requirement(wire: &RequiredWire, own: &Ran) -> Result<Requirement, String> {
    let RequiredWire { name, value, unit: of, bound: word, to, within, class: sure, source } = wire;
    let quantity = unit(of)?;
    let plain = Requirement::new(bound(word, *value, *to)?, quantity, class(sure)?, text(source, LONGEST)?);
    let plain = match *within {
        within if !(within.is_finite() && within >= 0.0) => return Err("`within` is a figure from 0 on".to_owned()),
        // What rounding allows by itself is told in questions, too.
        within if within <= micrometres(plain.slack()) => plain,
        within => plain.within(within),
    };
    let Some(name) = name else { return Ok(plain) };
    let limit = own.limits.iter().find(|(known, _)| *known == name.as_str()).map(|(_, limit)| limit.clone());
    let limit = limit.ok_or_else(|| format!("its check has no limit `{}`", short(name)))?;
    let same = (limit.value() - value).abs() <= limit.slack() && limit.quantity == quantity;
    // It is handed back, so it is the limit itself to the last bit.
    if same {
        Ok(limit)
    } else {
        Err(format!("the limit `{name}` is {}, and it is handed back as {value}", limit.words()))
    }
}

fn span(place: &PlaceWire, figures: &Figures<'_>) -> Result<Span, String> {
    let PlaceWire { file, line, column, end_line, end_column } = place;
    let found = figures.sources.and_then(|sources| sources.span(file, (*line, *column), (*end_line, *end_column)));
    found.ok_or_else(|| format!("there is no place {line}:{column} to {end_line}:{end_column} in `{}`", short(file)))
}

fn mark(wire: &MarkWire) -> Result<Mark, String> {
    let point = |[x, y]: [f64; 2]| {
        let near = |value: f64| value.is_finite() && value.abs() <= FARTHEST;
        if near(x) && near(y) { Ok(Point::new(x, y)) } else { Err("a mark lies farther off than 100 m".to_owned()) }
    };
    Ok(match wire {
        MarkWire::At(at) => Mark::At(point(*at)?),
        MarkWire::Between([from, to]) => Mark::Between(point(*from)?, point(*to)?),
        MarkWire::Area(data) => Mark::Area(read_path(data)?),
    })
}

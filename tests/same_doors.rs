//! Three built-in checks and a back-end, written anew over the forms of plug-ins: findings, suggestions and bytes are those of
//! the built-in ones.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]
#![cfg(feature = "plug-ins")]

mod common;

use boxwright::backends::{Found, OutputFile, Report};
use boxwright::compile::{Compiled, Options, Session, Wanted, compile};
use boxwright::diagnostic::wire::json_text;
use boxwright::plug_ins::PlugIn;
use boxwright::registry::Registry;
use boxwright_guest::{
    Answer, Check, Description, File, Finding, Limit, Model, Module, Part, Place, Question, Reads, Stock, answered,
};
use std::sync::Arc;

/// The built-in checks that are made over the forms.
const CHECKS: [&str; 3] = ["water", "waste-fall", "part-exceeds-sheet"];

/// The plug-in's functions.
fn functions(function: &str, question: &[u8]) -> Vec<u8> {
    match function {
        "describe" => serde_json::to_vec(&description()).unwrap(),
        "check" => serde_json::to_vec(&answered(question, |q| find(q).map(Answer::of_findings))).unwrap(),
        _ => {
            // The findings stand last in the question; nothing else is read.
            let text = std::str::from_utf8(question).unwrap();
            let (_, findings) = text.split_once("\"findings\":").unwrap();
            let file = File::text("findings.json", indented(findings.strip_suffix('}').unwrap()) + "\n");
            serde_json::to_vec(&Answer::of_files(vec![file])).unwrap()
        }
    }
}

/// As the built-in checks say it of themselves.
fn description() -> Description {
    let registry = Registry::standard();
    let reads = Reads::model(&[
        "people",
        "loads",
        "services",
        "stocks",
        "modules/*/name",
        "modules/*/parts",
        "modules/*/placed",
    ]);
    let check = |name: &str| {
        let own = registry.check(name).unwrap();
        let limit = |limit: &boxwright::diagnostic::Limit| Limit {
            name: limit.name.to_string(),
            value: limit.default.value(),
            unit: limit.quantity.unit().to_owned(),
            bound: "least".to_owned(),
            class: limit.class.name().to_owned(),
            source: limit.source.to_string(),
            ..Limit::default()
        };
        Check {
            name: name.to_owned(),
            says: own.says().to_owned(),
            manual: own.manual(),
            caution: own.caution().map(str::to_owned),
            limits: own.limits().iter().map(limit).collect(),
            reads: reads.clone(),
        }
    };
    let all = CHECKS.into_iter().fold(Description::new("doors", "built-in checks"), |all, name| all.check(check(name)));
    all.backend("findings-json", "All findings", Reads::model(&[]).findings(&["*"]))
}

fn find(question: &Question) -> Result<Vec<Finding>, String> {
    Ok([falls(question)?, water(question)?, parts(question)?].concat())
}

/// A number with at most so many decimals, without zeros at its end.
fn trimmed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

fn mm(value: f64) -> String {
    format!("{} mm", trimmed(value, 1))
}

/// All findings but those that are met, and of these the tightest.
fn with_tightest(findings: Vec<Finding>) -> Vec<Finding> {
    let (met, mut others): (Vec<Finding>, Vec<Finding>) = findings.into_iter().partition(|one| one.severity == "met");
    let spare = |one: &Finding| one.required.as_ref().unwrap().spare(one.measured.as_ref().unwrap().value);
    others.extend(met.into_iter().min_by(|a, b| spare(a).total_cmp(&spare(b))));
    others
}

fn falls(question: &Question) -> Result<Vec<Finding>, String> {
    let mut all = Vec::new();
    for waste in &question.model.services.wastes {
        let points = &waste.run.points;
        let legs = || points.iter().zip(points.iter().skip(1));
        let length: f64 = legs().map(|(a, b)| (b[0] - a[0]).hypot(b[1] - a[1])).sum();
        let drop = points.first().zip(points.last()).map_or(0.0, |(first, last)| first[2] - last[2]);
        let rise = legs().map(|(a, b)| b[2] - a[2]).filter(|rise| *rise > 0.001).fold(0.0, f64::max);
        let percent = drop / length * 100.0;
        let required = question.limit("waste-fall", if waste.bore <= 63.5 { "small" } else { "large" })?;
        let rises = if rise > 0.0 { ", and a leg of it rises" } else { "" };
        let (fallen, over) = (mm(drop), mm(length));
        let message = format!("`{}` falls {fallen} over {over}, {} %{rises}", waste.name, trimmed(percent, 2));
        let mut finding = Finding::judged("waste-fall", "caution", &waste.name, message, (percent, required));
        if rise > 0.0 && finding.severity == "met" {
            finding.severity = "caution".to_owned();
            let (value, unit) = (rise, "mm".to_owned());
            finding.measured = Some(boxwright_guest::Measure { value, unit: unit.clone() });
            let (class, source) = ("geometry".to_owned(), "geometry".to_owned());
            finding.required = Some(Limit { unit, bound: "most".to_owned(), class, source, ..Limit::default() });
        }
        finding.places = waste.place.iter().cloned().collect();
        all.push(finding);
    }
    Ok(with_tightest(all))
}

fn water(question: &Question) -> Result<Vec<Finding>, String> {
    let Model { people, loads, services, .. } = &question.model;
    let daily = services.water.as_ref().map_or(0.0, |water| water.per_person) * people.len() as f64;
    if daily <= 0.0 {
        return Ok(Vec::new());
    }
    let litres = |holds: &str, share: fn(f64) -> f64| -> f64 {
        let tanks = loads.iter().filter_map(|load| load.tank.as_ref()).filter(|tank| tank.holds == holds);
        tanks.map(|tank| tank.size.iter().product::<f64>() / 1e6 * share(tank.fill.full)).sum()
    };
    let (fresh, grey) = (litres("fresh-water", |full| full), litres("grey-water", |full| 1.0 - full));
    let days = fresh / daily;
    let persons = if people.len() == 1 { "1 person".to_owned() } else { format!("{} people", people.len()) };
    let [aboard, lasts, used] = [trimmed(fresh, 0), trimmed(days, 1), trimmed(daily, 1)];
    let message = format!("{aboard} l of fresh water last {persons} {lasts} days at {used} l a day");
    let first = Finding::judged("water", "caution", "fresh water", message, (days, question.limit("water", "days")?));
    let share = if fresh > 0.0 { grey / fresh * 100.0 } else { 100.0 };
    let (room, of) = (trimmed(grey, 0), trimmed(share, 0));
    let message = format!("there is room for {room} l of grey water, {of} % of the fresh water");
    let second = Finding::judged("water", "caution", "grey water", message, (share, question.limit("water", "grey")?));
    let mut all = with_tightest(vec![first, second]);
    all.iter_mut().for_each(|one| one.places = services.water.iter().filter_map(|water| water.place.clone()).collect());
    Ok(all)
}

fn parts(question: &Question) -> Result<Vec<Finding>, String> {
    let limit = question.limit("part-exceeds-sheet", "least")?;
    let (mut all, mut tightest): (Vec<Finding>, Option<Finding>) = (Vec::new(), None);
    let spare = |one: &Finding| one.measured.as_ref().unwrap().value;
    for module in &question.model.modules {
        for part in &module.parts {
            let stock = question.model.stocks.iter().find(|stock| Some(&stock.name) == part.stock.as_ref());
            let Some(found) = stock.and_then(|stock| look(module, part, stock, limit)) else { continue };
            if found.severity != "met" {
                all.push(found);
            } else if tightest.as_ref().is_none_or(|known| spare(&found) < spare(known)) {
                tightest = Some(found);
            }
        }
    }
    all.extend(tightest);
    Ok(all)
}

fn look(module: &Module, part: &Part, stock: &Stock, limit: &Limit) -> Option<Finding> {
    let (bands, scribe) = (&part.bands, &part.scribe);
    let whole = |value: f64| (value * 1000.0).round() / 1000.0 + 0.0;
    let length = whole(part.length - bands.left - bands.right + scribe.left + scribe.right);
    let width = whole(part.width - bands.front - bands.back + scribe.front + scribe.back);
    let (lies, turns) = match (part.grain.as_str(), stock.grain.as_str()) {
        ("free", _) | (_, "free") => (true, true),
        (one, other) => (one == other, one != other),
    };
    let ways = stock.sheets.iter().flat_map(|sheet| {
        let [long, wide] = sheet.size.map(|side| side - 2.0 * stock.trim);
        [(lies, (long, wide)), (turns, (wide, long))]
    });
    let best = ways.filter(|(may, _)| *may).map(|(_, sheet)| ((sheet.0 - length).min(sheet.1 - width), sheet));
    let (spare, sheet) = best.max_by(|a, b| a.0.total_cmp(&b.0))?;
    let size = |(long, wide): (f64, f64)| format!("{} x {} mm", trimmed(long, 1), trimmed(wide, 1));
    let which = format!("part `{}` of `{}` is {} to cut", part.name, module.name, size((length, width)));
    let (fits, has) = (spare >= -0.001, size(sheet));
    let message = match fits {
        true => format!("{which}, a sheet of `{}` has {has} for it", stock.name),
        false => format!("{which}, {} more than a sheet of `{}` has: {has}", mm(-spare), stock.name),
    };
    let mut finding = Finding::new("part-exceeds-sheet", if fits { "met" } else { "fault" }, &module.name, message);
    finding = finding.of_part(&part.name);
    finding.measured = Some(boxwright_guest::Measure { value: spare, unit: "mm".to_owned() });
    finding.required = Some(limit.clone());
    let places: [&Option<Place>; 3] = [&module.placed, &part.piece, &part.place];
    finding.places = places.into_iter().flatten().cloned().collect();
    Some(finding)
}

/// JSON text with line ends and two blanks for each depth.
fn indented(text: &str) -> String {
    let (mut made, mut depth, mut quoted, mut escaped) = (String::new(), 0, false, false);
    let line = |made: &mut String, depth: usize| made.push_str(&format!("\n{}", "  ".repeat(depth)));
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        if quoted {
            made.push(sign);
            (quoted, escaped) = (escaped || sign != '"', !escaped && sign == '\\');
            continue;
        }
        match sign {
            '[' | '{' => {
                made.push(sign);
                match signs.next_if(|next| [']', '}'].contains(next)) {
                    Some(shut) => made.push(shut),
                    None => {
                        depth += 1;
                        line(&mut made, depth);
                    }
                }
            }
            ']' | '}' => {
                depth -= 1;
                line(&mut made, depth);
                made.push(sign);
            }
            ',' => {
                made.push(sign);
                line(&mut made, depth);
            }
            ':' => made.push_str(": "),
            _ => {
                quoted = sign == '"';
                made.push(sign);
            }
        }
    }
    made
}

/// The report of what some checks find in a layout, with suggestions.
fn report(compiled: &Compiled) -> String {
    let errors = (compiled.errors.errors(), 0);
    let (model, checks) = (compiled.model.as_ref(), compiled.checks.as_slice());
    let found = Found { errors, model, checks, findings: &compiled.findings, sources: &compiled.sources };
    json_text(&Report::new("layout", found))
}

fn only(names: &[&str], of: &Registry) -> Registry {
    let mut some = of.clone();
    some.checks.retain(|check| names.contains(&check.name()));
    some
}

/// The file of a back-end.
fn file(compiled: &Compiled, name: &str) -> Vec<OutputFile> {
    let backend = compiled.registry.backends.iter().find(|backend| backend.name() == name).unwrap();
    let session = Session::new(compiled.registry.clone(), Options::default());
    let wanted = Wanted { reads: Vec::new(), ..Wanted::default() };
    let outputs = session.draw(compiled, &wanted).unwrap().unwrap();
    backend.files(&outputs.product(compiled)).unwrap()
}

#[test]
fn findings_and_bytes_are_those_of_the_built_in_ones() {
    let plug_in = Arc::new(PlugIn::linked("doors.rs", functions).unwrap());
    let both = Registry::standard().with(&plug_in).unwrap();
    let built_in = only(&CHECKS, &both);
    let names = CHECKS.map(|name| format!("doors:{name}"));
    let outside = only(&names.each_ref().map(String::as_str), &both);
    let mut files = common::yaml_files("layouts/");
    files.extend(common::yaml_files("tests/suite/"));
    let world = common::world(&files);
    let of_checks = |path: &str| CHECKS.iter().any(|name| path.starts_with(&format!("tests/suite/{name}-")));
    let layouts =
        files.iter().map(|(path, _)| path.as_str()).filter(|path| path.starts_with("layouts/") || of_checks(path));
    let (mut seen, mut found) = (0, 0);
    for path in layouts {
        let [one, other] = [&built_in, &outside].map(|registry| compile(&world, path, registry, &Options::default()));
        if one.errors.errors().iter().any(|error| error.message.starts_with("there is no check")) {
            continue;
        }
        assert!(one.model.is_some(), "{path}");
        assert_eq!(report(&one), report(&other).replace("doors:", ""), "{path}");
        let [own, theirs] = ["findings-json", "doors:findings-json"].map(|name| file(&one, name).remove(0));
        assert_eq!(own.bytes, theirs.bytes, "{path}");
        assert_eq!(theirs.name, "doors-findings.json");
        (seen, found) = (seen + 1, found + one.findings.len());
    }
    assert!(seen >= 9 && found >= 12, "{seen} layouts, {found} findings");
}

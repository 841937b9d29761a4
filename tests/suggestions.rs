//! Every suggestion is applied to the text and compiled: the finding has to be gone and no new fault there.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at once")]

mod common;

use boxwright::compile::{Compiled, Options, compile};
use boxwright::diagnostic::{Finding, Severity, Suggestion, edited};
use boxwright::model::{Model, OpeningKind, VehicleKind};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;

fn run(path: &str, files: &[(String, String)]) -> Compiled {
    let world = files.iter().fold(MemoryWorld::default(), |world, (path, text)| world.with(path, text));
    compile(&world, path, &Registry::standard(), &Options { allow_outside: true, ..Options::default() })
}

/// The files with a suggestion applied.
fn applied(compiled: &Compiled, suggestion: &Suggestion, files: &[(String, String)]) -> Vec<(String, String)> {
    let mut files = files.to_vec();
    for edit in &suggestion.edits {
        let name = &compiled.sources.file(edit.span.file).unwrap().name;
        let file = files.iter_mut().find(|(path, _)| path == name).unwrap();
        file.1 = edited(&file.1, edit.span.file, std::slice::from_ref(edit));
    }
    files
}

fn open(findings: &[Finding], most: Severity) -> impl Iterator<Item = &Finding> {
    findings.iter().filter(move |finding| finding.accepted.is_none() && finding.severity <= most)
}

/// Which part of the rule in `DEVELOPERS.md` a suggestion breaks.
fn broken_rule(before: &Model, after: &Model, suggestion: &Suggestion) -> Option<String> {
    let people = |model: &Model| model.people.iter().map(|one| (one.stature, one.mass)).collect::<Vec<_>>();
    let limits = |model: &Model| model.limits.iter().map(|one| one.value).collect::<Vec<_>>();
    let levels = |model: &Model| model.zones.iter().map(|one| one.level).collect::<Vec<_>>();
    let loads = |model: &Model| model.cargo.iter().map(|one| (one.parcel.size, one.mass)).collect::<Vec<_>>();
    let same = people(before) == people(after) && limits(before) == limits(after) && loads(before) == loads(after);
    if !same || before.accepted.len() != after.accepted.len() || before.climate != after.climate {
        return Some("it changes what is given".to_owned());
    }
    if levels(before) != levels(after) {
        return Some("it hides the finding".to_owned());
    }
    let doors = |model: &Model| {
        let doors = model.openings.iter().filter(|opening| opening.kind == OpeningKind::Door);
        doors.map(|door| (door.along, door.up, door.hinge)).collect::<Vec<_>>()
    };
    let body = |model: &Model| (model.space.length, model.space.width, model.space.height);
    let van = before.vehicle.as_ref().is_some_and(|vehicle| vehicle.kind == VehicleKind::Van);
    if van && (body(before) != body(after) || doors(before) != doors(after)) {
        return Some("it changes the body of a van".to_owned());
    }
    let out = |model: &Model, index: usize| {
        let extent = model.modules[index].extent;
        let (x, y) = (extent.x, extent.y);
        (-x.0).max(x.1 - model.space.length).max(-y.0).max(y.1 - model.space.width).max(0.0)
    };
    if (0..before.modules.len()).any(|index| out(after, index) > out(before, index) + 0.001) {
        return Some("it leads out of the room".to_owned());
    }
    let off = |text: &&str| ["no", "none", "false"].contains(text);
    let texts = suggestion.edits.iter().flat_map(|edit| edit.text.split(['{', '}', ',', ':', '\n']).map(str::trim));
    texts.into_iter().find(off).map(|text| format!("it takes something away: {text}"))
}

/// What is wrong with a suggestion, if anything.
fn wrong(path: &str, before: &Compiled, finding: &Finding, files: &[(String, String)]) -> Option<String> {
    let suggestion = finding.suggestion.as_ref()?;
    let after = run(path, &applied(before, suggestion, files));
    let softened = suggestion.words.ends_with("; a caution stays");
    let least = if softened { Severity::Fault } else { Severity::Caution };
    let says = format!("{path}: {}: {}", finding.message, suggestion.words);
    let models = before.model.as_ref().zip(after.model.as_ref());
    if let Some(why) = models.and_then(|(before, after)| broken_rule(before, after, suggestion)) {
        return Some(format!("{says}: {why}"));
    }
    if after.errors.errors().len() > before.errors.errors().len() {
        return Some(format!("{says}: does not compile"));
    }
    if open(&after.findings, least).any(|other| other.key == finding.key) {
        return Some(format!("{says}: the finding is still there"));
    }
    let faults = open(&before.findings, Severity::Fault).map(|one| &one.key).collect::<Vec<_>>();
    let new = open(&after.findings, Severity::Fault).find(|other| !faults.contains(&&other.key))?;
    Some(format!("{says}: new fault: {}", new.message))
}

/// Whether a change of a figure by one millimetre less would do as well, with no new fault or caution.
fn could_be_less(path: &str, before: &Compiled, finding: &Finding, files: &[(String, String)]) -> Option<String> {
    let suggestion = finding.suggestion.as_ref()?;
    let [edit] = &suggestion.edits[..] else { return None };
    let figure = |text: &str| text.parse::<f64>().ok();
    let (old, new) = (figure(before.sources.text(edit.span))?, figure(&edit.text)?);
    let less = new + (old - new).signum();
    if (old - new).abs() < 1.5 || !suggestion.words.contains(" mm") {
        return None;
    }
    let mut smaller = finding.clone();
    smaller.suggestion.as_mut()?.edits[0].text = less.to_string();
    let after = run(path, &applied(before, smaller.suggestion.as_ref()?, files));
    let same = |other: &Finding| other.key.check == finding.key.check && other.key.subject == finding.key.subject;
    // One that is accepted at its new figure is still there.
    let stays = after.findings.iter().filter(|other| other.severity <= Severity::Caution).any(same);
    let known: Vec<_> = open(&before.findings, Severity::Caution).map(|one| &one.key).collect();
    let new = open(&after.findings, Severity::Caution).any(|other| !known.contains(&&other.key));
    (!stays && !new && wrong(path, before, &smaller, files).is_none())
        .then(|| format!("{path}: {}: {less} will do", suggestion.words))
}

/// Checks whose figures are the vehicle's papers, the climate or the choice of a tank or cable: no edge that could be moved.
const OF_INPUTS: [&str; 18] = [
    "axle-load",
    "payload",
    "side-balance",
    "roll-threshold",
    "outside-size",
    "overhang",
    "ground-angles",
    "twist-gap",
    "subframe",
    "surface-dew",
    "cold-bridge",
    "panel-moisture",
    "heating",
    "cooling",
    "water",
    "battery",
    "voltage-drop",
    "waste-fall",
];

/// What is wrong with the suggestions of one layout; counts those given and those wanted.
fn prove(path: &str, files: &[(String, String)], count: &mut (usize, usize)) -> Vec<String> {
    let compiled = run(path, files);
    let mut all = Vec::new();
    for finding in open(&compiled.findings, Severity::Caution) {
        count.1 += usize::from(!OF_INPUTS.contains(&finding.key.check.as_ref()));
        count.0 += usize::from(finding.suggestion.is_some());
        all.extend(wrong(path, &compiled, finding, files));
        all.extend(could_be_less(path, &compiled, finding, files));
    }
    all
}

#[test]
fn suggestions_of_the_suite_hold_and_are_smallest() {
    let files = common::yaml_files("tests/suite/");
    let mut count = (0, 0);
    let layouts = common::directly_in(&files, "tests/suite/");
    let all: Vec<String> = layouts.flat_map(|(path, _)| prove(path, &files, &mut count)).collect();
    assert!(all.is_empty(), "{}", all.join("\n"));
    assert!(count.0 * 10 >= count.1 * 6, "{} suggestions for {} findings", count.0, count.1);
}

/// The first figure after a key, times a factor.
fn spoilt(text: &str, key: &str, factor: f64) -> Option<String> {
    let at = text.find(key)? + key.len();
    let digits = text[at..].find(|c: char| !c.is_ascii_digit())?;
    let figure: f64 = text[at..at + digits].parse().ok()?;
    Some(format!("{}{:.0}{}", &text[..at], figure * factor, &text[at + digits..]))
}

/// The smallest demo, unless `ALL_DEMOS` is set: every change is proved by compiling the whole layout.
#[test]
fn suggestions_of_spoilt_demos_hold() {
    let files = common::yaml_files("layouts/");
    let wanted = |path: &str| std::env::var_os("ALL_DEMOS").is_some() || path.ends_with("skua.yaml");
    let mut count = (0, 0);
    let mut all = Vec::new();
    for (path, text) in common::directly_in(&files, "layouts/").filter(|(path, _)| wanted(path)) {
        for (key, factor) in [("length: ", 0.97), ("height: ", 0.93), ("aisle: ", 0.5), ("stature: ", 1.12)] {
            let Some(text) = spoilt(text, key, factor) else { continue };
            let mut files = files.clone();
            files.iter_mut().filter(|(name, _)| name == path).for_each(|file| file.1.clone_from(&text));
            all.extend(prove(path, &files, &mut count));
        }
    }
    assert!(all.is_empty(), "{}", all.join("\n"));
    assert!(count.0 > 0, "{} suggestions for {} findings", count.0, count.1);
}

const CHEST: &str = "symbol: t/chest
says: A closed chest
size:
  run: { default: 600, least: 50, most: 4000 }
  depth: { default: 400, least: 300, most: 4000 }
  height: { default: 500, least: 10, most: 2500 }
solids:
  body: { u: [0, run], v: [0, depth], w: [0, height] }
";
const BOX: &str = "boxwright: 1
title: Box
symbols: [symbols]
box: { length: 4000, width: 2000, height: 1900 }
openings:
  entry: { kind: door, wall: right, front: 2700, run: 600, height: 1800 }
";

fn files(modules: &str) -> Vec<(String, String)> {
    let text = |path: &str, text: String| (path.to_owned(), text);
    vec![text("a.yaml", format!("{BOX}{modules}")), text("symbols/t/chest.yaml", CHEST.to_owned())]
}

/// The suggestion of the only open finding, and the layout's text with it.
fn only(files: &[(String, String)]) -> (String, String) {
    let compiled = run("a.yaml", files);
    let found: Vec<&Finding> = open(&compiled.findings, Severity::Caution).collect();
    let [finding] = found[..] else { panic!("{found:?} {:?}", compiled.errors.errors()) };
    assert_eq!(wrong("a.yaml", &compiled, finding, files), None);
    let suggestion = finding.suggestion.as_ref().unwrap();
    let changed = applied(&compiled, suggestion, files);
    (suggestion.words.clone(), changed[0].1.strip_prefix(BOX).unwrap_or(&changed[0].1).to_owned())
}

/// The places of two chests name a parameter: it is changed, not one of them.
#[test]
fn the_value_that_several_share_is_changed_first() {
    let (words, text) = only(&files(
        "parameters: { gap: 40 }
modules:
  a: { symbol: t/chest, faces: right, place: { front: 0, left: 0 } }
  b: { symbol: t/chest, faces: right, place: { front: 540 + gap, left: 0 } }
  c: { symbol: t/chest, faces: right, place: { front: 1300 + gap, left: 0 } }
",
    ));
    assert_eq!(words, "make the parameter `gap` 60 instead of 40");
    assert!(text.contains("gap: 60"), "{text}");
}

/// A van 100 mm too narrow for the chest: not the van gives way.
#[test]
fn the_body_of_a_van_stays() {
    let van = "vehicle: { kind: van, wheelbase: 3600, gross: 3500, box-from-front-axle: 620, floor-above-ground: 600,
  tyre-radius: 330, bare-centre-height: 600, axles: { front: { limit: 1800, bare: 1100, track: 1750 },
  rear: { limit: 2000, bare: 800, track: 1700 } } }
modules:
  a: { symbol: t/chest, faces: right, place: { front: 0, left: 0 }, size: { depth: 2100 } }
";
    let all = files(van);
    let compiled = run("a.yaml", &all);
    let inside = compiled.findings.iter().find(|finding| finding.key.check == "inside-box").unwrap();
    assert_eq!(wrong("a.yaml", &compiled, inside, &all), None);
    assert_eq!(inside.suggestion.as_ref().unwrap().words, "make the depth of `a` 2000 mm instead of 2100 mm");
}

/// Sizes out of a symbol's range are errors, and have suggestions too: alone, and where a neighbour is in the way.
#[test]
fn a_size_out_of_range_is_brought_into_it() {
    let words = |modules: &str| {
        let all = files(modules);
        let compiled = run("a.yaml", &all);
        let [error] = compiled.errors.errors() else { panic!("{:?}", compiled.errors.errors()) };
        let suggestion = error.suggestion.as_ref().unwrap();
        assert!(run("a.yaml", &applied(&compiled, suggestion, &all)).errors.is_empty());
        suggestion.words.clone()
    };
    let alone = "modules:
  a: { symbol: t/chest, faces: right, place: { front: 0, left: 0 }, size: { depth: 260 } }
";
    assert_eq!(words(alone), "make the depth of `a` 300 mm instead of 260 mm");
    let between = "modules:
  a: { symbol: t/chest, faces: right, place: { front: 0, left: 0 } }
  b: { symbol: t/chest, faces: right, place: { front: a.rear, rear: c.front, left: 0 } }
  c: { symbol: t/chest, faces: right, place: { front: 630, left: 0 } }
";
    assert_eq!(words(between), "move `c` 20 mm to the rear (`front: 650`)");
}

#[test]
fn a_module_moves_by_what_it_overlaps() {
    let (words, text) = only(&files(
        "modules:
  a: { symbol: t/chest, faces: right, place: { front: 0, left: 0 } }
  b: { symbol: t/chest, faces: right, place: { front: 560.5, left: 0 } }
",
    ));
    assert_eq!(words, "move `b` 39.5 mm to the rear (`front: 600`)");
    assert!(text.contains("place: { front: 600, left: 0 }"), "{text}");
}

#[test]
fn expressions_keep_their_names() {
    for (edge, new) in [
        ("box.rear + 12", "box.rear"),
        ("box.rear - 10 + 30", "box.rear - 10 + 10"),
        ("\"box.rear + 2 * 10\"", "\"box.rear + 2 * 10 - 20\""),
        ("(box.rear + 25)", "(box.rear + 25) - 25"),
        ("box.length * 1.01", "box.length * 1.01 - 40"),
        ("4 m + 20", "4 m"),
    ] {
        let (_, text) = only(&files(&format!(
            "modules: {{ a: {{ symbol: t/chest, faces: right, place: {{ rear: {edge}, left: 0 }} }} }}
"
        )));
        assert!(text.contains(&format!("rear: {new},")), "{edge}: {text}");
    }
}

/// A chest of 1,950 mm in a box of 1,900 mm: only its height can change, and that is not written.
#[test]
fn what_is_not_written_is_put_in() {
    let tall = CHEST.replace("t/chest", "t/tall").replace("default: 500", "default: 1950");
    for (module, new) in [
        ("{ symbol: t/tall, faces: right, PLACE }", "{ symbol: t/tall, size: { height: 1900 }, faces: right, PLACE }"),
        ("{ symbol: 't/tall',\n    PLACE }", "{ symbol: 't/tall', size: { height: 1900 },\n    PLACE }"),
        (
            "\n    symbol: t/tall   # left\n    PLACE",
            "\n    symbol: t/tall   # left\n    size: { height: 1900 }\n    PLACE",
        ),
        (
            "{ symbol: t/tall, size: { run: 700 }, PLACE }",
            "{ symbol: t/tall, size: { run: 700, height: 1900 }, PLACE }",
        ),
        (
            "\n    size:\n      run: '700'   # long\n    symbol: t/tall\n    PLACE",
            "\n    size:\n      run: '700'   # long\n      height: 1900\n    symbol: t/tall\n    PLACE",
        ),
    ] {
        let layout = |module: &str| {
            let module = module.replace("PLACE", "place: { front: 0, left: 0 }");
            format!("modules:\n  a: {module}\n")
        };
        let mut files = files(&layout(module));
        files.push(("symbols/t/tall.yaml".to_owned(), tall.clone()));
        let (words, text) = only(&files);
        assert_eq!(words, "make the height of `a` 1900 mm instead of 1950 mm");
        assert_eq!(text, layout(new));
    }
}

#[test]
fn values_of_a_base_are_changed_there() {
    let mut all = files(
        "modules:
  a: { symbol: t/chest, faces: right, place: { front: 0, left: 0 } }
  b: { symbol: t/chest, faces: right, place: { front: 560, left: 0 } }
",
    );
    all[0].0 = "base.yaml".to_owned();
    all.insert(0, ("a.yaml".to_owned(), "boxwright: 1\nextends: base.yaml\ntitle: Other\n".to_owned()));
    let (words, _) = only(&all);
    assert_eq!(words, "move `b` 40 mm to the rear (`front: 600`), in `base.yaml`");
}

#[test]
fn a_door_that_is_stopped_swings_out_instead() {
    let mut all = files(
        "modules:
  a: { symbol: t/chest, faces: right, place: { front: 2200, right: box.right - 330 } }
",
    );
    all[0].1 = all[0].1.replace("height: 1800", "height: 1800, hinge: front, swings: in");
    let compiled = run("a.yaml", &all);
    let swing = compiled.findings.iter().find(|finding| finding.key.check == "swing").unwrap();
    assert_eq!(wrong("a.yaml", &compiled, swing, &all), None);
    assert_eq!(swing.suggestion.as_ref().unwrap().words, "let `entry` swing out (`swings: out`)");
}

#[test]
fn one_thread_or_many_say_the_same() {
    let files = common::yaml_files("tests/suite/");
    let words = || -> Vec<Option<String>> {
        let findings = ["walkway-narrow", "swing-short", "slide-chest"]
            .into_iter()
            .flat_map(|name| run(&format!("tests/suite/{name}.yaml"), &files).findings);
        findings.map(|finding| finding.suggestion.map(|suggestion| suggestion.words)).collect()
    };
    let alone = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
    assert_eq!(alone.install(words), words());
}

#[test]
fn notes_and_accepted_findings_get_none() {
    let accepted = files(
        "modules:
  a: { symbol: t/chest, faces: right, place: { front: 0, left: 0 } }
  b: { symbol: t/chest, faces: right, place: { front: 560, left: 0 } }
accepted:
  - { check: no-overlap, of: a and b, because: they are one piece }
",
    );
    let compiled = run("a.yaml", &accepted);
    let accepted: Vec<&Finding> = compiled.findings.iter().filter(|one| one.accepted.is_some()).collect();
    assert_eq!(accepted.len(), 1);
    assert!(compiled.findings.iter().all(|one| one.suggestion.is_none()));
    assert!(open(&compiled.findings, Severity::Caution).next().is_none());
}

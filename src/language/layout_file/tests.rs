//! Tests of reading whole layouts: a complete file, `extends`, and every kind of mistake with its place and advice.

use super::*;
use crate::language::expression::ExprKind;
use crate::language::{CutawayShape, RoofDoc};
use crate::source::MemoryWorld;
use proptest::prelude::*;

const WHOLE: &str = r#"boxwright: 1
title: Marram, coast survey truck
number: 104
revision: { mark: B, note: wet room moved forward }
drawn: { by: workshop, date: 2026-03-14 }
symbols: [furniture]
people:
  surveyor:  { stature: 1840, mass: 82 }
  assistant: { stature: 1690 }
parameters:
  aisle: 620
  bench: 22 in
box:
  length: 3960
  width: 2080
  height: 1960
  roof: { shape: arch, rise: 65 }
  shell: { walls: glass-foam-40 }
  cutaways:
    departure: { edge: rear-floor, along: 540, height: 300 }
    wheel-left: { box: { front: 2350, rear: 3150, left: 0, right: 260, top: 210 } }
layups:
  thin: [{ material: glass-skin, thickness: 2 }]
openings:
  entry: { kind: door, wall: right, front: 1500, run: 600, sill: 30, height: 1740, hinge: front, swings: out }
  pass: { kind: pass-through, wall: front, centre: box.width / 2, run: 620, sill: 420, height: 700 }
  fan: { kind: roof-hatch, centre: [2050, 1040], run: 400, depth: 400, escape: no }
zones:
  wash: { purpose: wet-room, front: 0, rear: 860, left: 0, right: 900 }
modules:
  galley:
    symbol: galley/base-run
    faces: right
    place: { front: pass.rear + 20, left: box.left }
    size: { depth: bench, height: 910 }
    zone: wash
    set: { drawers: 3, sink: single, stool: yes }
    sleepers: [surveyor, assistant]
arrangements:
  travel: { galley: shut }
  day:
routes:
  - { from: entry, to: pass, in: [day], least: 480 }
limits:
  walkway: { least: 560, because: owner asked for it }
accepted:
  - { check: bed-access, of: galley, about: drawer 1, in: [day, travel], up-to: 440 mm, because: "inner sleeper climbs over" }
stocks:
  carcass: { material: poplar-ply-15, sheets: [[2440, 1220]], grain: long, kerf: 3.2, trim: 10, price: 96 }
sheets: { paper: A3, scale: 20 }
"#;

fn read_in(world: &MemoryWorld, path: &str) -> (Option<LayoutDoc>, Vec<Diagnostic>, SourceMap) {
    let (mut sources, mut sink) = (SourceMap::default(), Sink::default());
    let doc = read_layout(world, path, false, &mut sources, &mut sink);
    (doc, sink.errors().to_vec(), sources)
}

fn read(text: &str) -> (Option<LayoutDoc>, Vec<Diagnostic>, SourceMap) {
    read_in(&MemoryWorld::default().with("a.yaml", text), "a.yaml")
}

/// Errors of a layout whose box is sound, as (message, quoted place, help).
fn mistakes(more: &str) -> Vec<(String, String, String)> {
    let text = format!("boxwright: 1\ntitle: T\nbox: {{ length: 4000, width: 2000, height: 1900 }}\n{more}\n");
    let (_, errors, sources) = read(&text);
    let show = |error: &Diagnostic| {
        (error.message.clone(), sources.text(error.span).to_owned(), error.help.clone().unwrap_or_default())
    };
    errors.iter().map(show).collect()
}

fn mistake(more: &str) -> (String, String) {
    let all = mistakes(more);
    assert_eq!(all.len(), 1, "{more}: {all:?}");
    assert!(!all[0].2.is_empty(), "no help: {all:?}");
    (all[0].0.clone(), all[0].1.clone())
}

#[test]
fn a_whole_layout() {
    let (doc, errors, sources) = read(WHOLE);
    assert_eq!(errors, vec![]);
    let doc = doc.unwrap();
    assert_eq!(doc.title.value, "Marram, coast survey truck");
    assert_eq!(doc.number.unwrap().value, "104");
    assert_eq!(doc.people.len(), 2);
    assert!(matches!(doc.parameters["bench"].value.kind, ExprKind::Number(value) if (value - 558.8).abs() < 1e-9));
    assert!(matches!(doc.space.value.roof, RoofDoc::Arch(_)));
    assert_eq!(sources.text(doc.space.span), "box");
    let CutawayShape::Block { faces, .. } = &doc.space.value.cutaways["wheel-left"].value.shape else { panic!() };
    assert_eq!(faces.iter().filter(|face| face.is_some()).count(), 5);
    assert_eq!(doc.openings["fan"].value.centre.as_ref().unwrap().value.len(), 2);
    assert!(!doc.openings["fan"].value.escape.as_ref().unwrap().value);
    let galley = &doc.modules["galley"].value;
    assert_eq!(sources.text(galley.place.front.as_ref().unwrap().span), "pass.rear + 20");
    assert_eq!(sources.text(galley.place.span), "place");
    assert_eq!(galley.set.len(), 3);
    assert_eq!(galley.sleepers.len(), 2);
    assert_eq!(doc.arrangements["travel"].value.poses[0].1.value, "shut");
    assert!(doc.arrangements["day"].value.poses.is_empty());
    assert_eq!(doc.routes[0].value.arrangements[0].value, "day");
    let accepted = &doc.accepted[0].value;
    assert_eq!((accepted.about[0].value.as_str(), accepted.arrangements.len()), ("drawer 1", 2));
    assert!(accepted.up_to.is_some());
    assert_eq!((doc.limits[0].check.value.as_str(), doc.limits[0].name.value.as_str()), ("walkway", "least"));
    assert_eq!(doc.stocks["carcass"].value.sheets.len(), 1);
    assert!(doc.broken.is_empty());
}

#[test]
fn unknown_keys_point_at_the_key() {
    assert_eq!(mistake("harbour: 3"), ("unknown key `harbour` in the layout".into(), "harbour".into()));
    let all = mistakes("people:\n  a: { statur: 1800, stature: 1700 }");
    assert_eq!(all[0].0, "unknown key `statur` in person `a`");
    assert_eq!(
        (all[0].1.as_str(), all[0].2.as_str()),
        ("statur", "did you mean `stature`? keys here are stature, mass")
    );
    let all = mistakes("people:\n  a: { stature:1800 }");
    assert_eq!(all[0].2, "a space is missing after the colon: `stature: ...`");
}

#[test]
fn wrong_kinds_say_what_was_wanted_and_found() {
    for (text, message, place) in [
        ("people: [a]", "`people` needs names with values, and a list stands here", "[a]"),
        ("people: { a: 1800 }", "person `a` needs a map of keys, and a number stands here", "1800"),
        ("parameters: { a: [1] }", "`a` needs a number, and a list stands here", "[1]"),
        ("parameters: { a: }", "`a` needs a value, and nothing stands here", ""),
        ("parameters: { a: 3 + }", "a value is missing after `+`", "+"),
        ("parameters: { a: '3 + * 2' }", "a value is missing after `+`", "+"),
        ("parameters: { a: \"3 \\x2b\" }", "a value is missing after `+`", "\"3 \\x2b\""),
        ("parameters: { a_b: 3 }", "`a_b` can't be a name", "a_b"),
        ("routes: { from: a }", "`routes` needs a list, and a map of keys stands here", "{ from: a }"),
        ("drawn: { date: 2026-02-29 }", "`2026-02-29` is not a date", "2026-02-29"),
        ("sheets: { paper: A5 }", "`paper` can't be `A5`", "A5"),
        ("sheets: { orientation: portait }", "`orientation` can't be `portait`", "portait"),
        ("sheets: { projection: fist }", "`projection` can't be `fist`", "fist"),
        ("sheets: { figures: inch }", "`figures` can't be `inch`", "inch"),
        ("sheets: { projektion: first }", "unknown key `projektion` in `sheets`", "projektion"),
        ("revision: [{ note: a }]", "`revision` has no `mark`", "{ note: a }"),
        ("revision: [A, { mark: B, date: 2026-13-01 }]", "`2026-13-01` is not a date", "2026-13-01"),
        ("number:", "`number` in the layout has no value", "number"),
        ("number: ''", "this text is empty", "''"),
        ("openings: { a: { kind: doors } }", "`kind` can't be `doors`", "doors"),
        ("openings: { a: { wall: left } }", "opening `a` has no `kind`", "{ wall: left }"),
        (
            "openings: { a: { kind: hatch, centre: [1, 2, 3] } }",
            "`centre` needs two numbers, and 3 are written",
            "[1, 2, 3]",
        ),
        ("modules: { a: { symbol: bed } }", "`bed` is not the name of a symbol", "bed"),
        ("modules: { a: { symbol: b/c, place: { front: a b } } }", "an operator is missing before `b`", "b"),
        ("modules: { a: { symbol: b/c, mirror: 3 } }", "`mirror` needs `yes` or `no`, and a number stands here", "3"),
        ("limits: { walkway: { least: 560 } }", "the changed limit of `walkway` has no `because`", "{ least: 560 }"),
        ("limits: { walkway: { because: x } }", "`walkway` changes no limit", "{ because: x }"),
        ("layups: { a: [] }", "a layup needs layers, and a list stands here", "[]"),
    ] {
        assert_eq!(mistake(text), (message.to_owned(), place.to_owned()), "{text}");
    }
}

#[test]
fn roofs() {
    let roof = |text: &str| {
        let text =
            format!("boxwright: 1\ntitle: T\nbox: {{ length: 4000, width: 2000, height: 1900, roof: {text} }}\n");
        read(&text)
    };
    for (text, wanted) in [("flat", true), ("{ shape: flat }", true), ("[[0, 1900], [2000, 1950]]", false)] {
        let (doc, errors, _) = roof(text);
        assert_eq!(errors, vec![], "{text}");
        assert_eq!(doc.unwrap().space.value.roof == RoofDoc::Flat, wanted, "{text}");
    }
    for (text, message) in [
        ("{ shape: arch }", "`roof` has no `rise`"),
        ("{ shape: dome, rise: 3 }", "`shape` can't be `dome`"),
        ("{ rise: 3 }", "`roof` has no `shape`"),
        ("65", "`roof` needs a shape, and a number stands here"),
        ("[[0, 1900], [2000]]", "`roof` needs two numbers, and 1 are written"),
    ] {
        let (doc, errors, _) = roof(text);
        assert_eq!((doc, errors.len(), errors[0].message.as_str()), (None, 1, message), "{text}");
    }
}

#[test]
fn one_run_reports_many_and_keeps_the_rest() {
    let text = "boxwright: 1\ntitle: T\nbox: { length: 4000, width: 2000, height: 1900 }\nparameters:\n  a: 3 +\n  b: 4\n\
                modules:\n  x: { symbol: b/c, size: { rum: 3 } }\n  y: { symbol: b/c, place: { front: x.rear } }\n";
    let (doc, errors, _) = read(text);
    let doc = doc.unwrap();
    assert_eq!(errors.len(), 2);
    assert_eq!(doc.broken, ["a", "x"]);
    assert_eq!(doc.parameters.keys().collect::<Vec<_>>(), ["b"]);
    assert_eq!(doc.modules.keys().collect::<Vec<_>>(), ["y"]);
}

#[test]
fn the_head_of_a_file() {
    let head = |text: &str| {
        let (doc, errors, sources) = read(text);
        assert!(doc.is_none());
        (errors[0].message.clone(), sources.text(errors[0].span).to_owned())
    };
    assert_eq!(head("title: T\n"), ("the file does not begin with `boxwright: 1`".into(), "title".into()));
    assert_eq!(head("boxwright: 2\n"), ("version 2 of the language is not known".into(), "2".into()));
    assert_eq!(head("- a\n").0, "a layout is a map of keys, and the file is a list");
    assert_eq!(head("boxwright: 1\n").0, "the layout has no `title`");
    let (doc, errors, sources) = read_in(&MemoryWorld::default(), "no.yaml");
    assert!(doc.is_none());
    assert_eq!(errors[0].message, "`no.yaml` can't be read: there is no file `no.yaml`");
    assert_eq!(sources.place(errors[0].span).unwrap().0, "no.yaml");
}

#[test]
fn extends_merges_replaces_and_removes() {
    let over = "boxwright: 1\nextends: base/whole.yaml\ntitle: Marram two\nparameters: { aisle: 560 }\npeople: { assistant: null }\n\
                modules:\n  galley: { place: { front: null, rear: box.rear }, sleepers: [surveyor] }\nroutes: null\n";
    let world = MemoryWorld::default().with("l/base/whole.yaml", WHOLE).with("l/two.yaml", over);
    let (doc, errors, sources) = read_in(&world, "l/two.yaml");
    assert_eq!(errors, vec![]);
    let doc = doc.unwrap();
    assert_eq!(doc.title.value, "Marram two");
    assert_eq!(doc.people.keys().collect::<Vec<_>>(), ["surveyor"]);
    assert!(matches!(doc.parameters["aisle"].value.kind, ExprKind::Number(560.0)));
    assert_eq!(doc.parameters.len(), 2);
    let place = &doc.modules["galley"].value.place;
    assert!(place.front.is_none() && place.rear.is_some() && place.left.is_some());
    assert!(doc.routes.is_empty());
    assert_eq!(sources.place(place.left.as_ref().unwrap().span).unwrap().0, "l/base/whole.yaml");
    assert_eq!(sources.place(place.rear.as_ref().unwrap().span).unwrap().0, "l/two.yaml");
}

#[test]
fn extends_goes_wrong() {
    let error = |files: &[(&str, &str)], wanted: &str| {
        let world = files.iter().fold(MemoryWorld::default(), |world, (path, text)| world.with(path, text));
        let (_, errors, _) = read_in(&world, files[0].0);
        assert!(errors[0].message.contains(wanted), "{errors:?}");
    };
    error(
        &[("a.yaml", "boxwright: 1\nextends: b.yaml\n"), ("b.yaml", "boxwright: 1\nextends: a.yaml\n")],
        "in a circle: a.yaml → b.yaml → a.yaml",
    );
    error(&[("l/a.yaml", "boxwright: 1\nextends: ../b.yaml\n")], "leaves the layout's folder");
    error(&[("a.yaml", "boxwright: 1\nextends: /b.yaml\n")], "not relative to the file");
    error(&[("a.yaml", "boxwright: 1\nextends: b.yaml\n")], "`b.yaml` can't be read");
    error(&[("a.yaml", "boxwright: 1\nextends: 3\n")], "`extends` needs a file, and a number stands here");
    error(
        &[("a.yaml", "boxwright: 1\nextends: b.yaml\nmodules: { x: null }\n"), ("b.yaml", WHOLE)],
        "there is no `x` in the base to remove",
    );
    let many: Vec<(String, String)> =
        (0..20).map(|at| (format!("{at}"), format!("boxwright: 1\nextends: \"{}\"\n", at + 1))).collect();
    let many: Vec<(&str, &str)> = many.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect();
    error(&many, "more than 16 layouts extend each other");
}

#[test]
fn the_great_sections_are_bounded() {
    for (section, most) in [("people", 64), ("openings", 200), ("zones", 200), ("modules", 2000), ("arrangements", 32)]
    {
        let written = |count: usize| -> Vec<String> {
            let entries: String = (0..count).map(|at| format!("  a{at}: {{}}\n")).collect();
            let head = "boxwright: 1\ntitle: T\nbox: { length: 1, width: 1, height: 1 }\n";
            read(&format!("{head}{section}:\n{entries}")).1.into_iter().map(|error| error.message).collect()
        };
        let refused = format!("`{section}` has {} entries; at most {most} are allowed", most + 1);
        assert_eq!(written(most + 1), [refused]);
        assert!(!written(most).iter().any(|error| error.contains("at most")), "{section}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn a_layout_with_any_piece_changed_is_read_or_reported(
        from in 0..WHOLE.len(),
        length in 0_usize..12,
        piece in "[a-z0-9:{}\\[\\], \n\t\"'é&*!#|>+-]{0,8}",
    ) {
        let mut text = WHOLE.to_owned();
        let to = (from + length).min(text.len());
        text.replace_range(from..to, &piece);
        let (doc, errors, sources) = read(&text);
        prop_assert!(doc.is_some() || !errors.is_empty());
        for error in errors {
            prop_assert!(sources.file(error.span.file).unwrap().text.get(error.span.start as usize..error.span.end as usize).is_some());
        }
    }

    #[test]
    fn any_text_is_read_or_reported(text in any::<String>(), deep in "(boxwright: 1\n)?(box|modules|zones): .{0,40}\n") {
        for text in [&text, &deep] {
            let (doc, errors, _) = read(text);
            prop_assert!(doc.is_some() || !errors.is_empty());
        }
    }
}

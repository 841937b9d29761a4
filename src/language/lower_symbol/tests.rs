//! Tests of reading symbols: one with every form of every entry, and the mistakes.

use super::*;
use crate::language::expression::ExprKind;
use crate::language::read_symbol;
use crate::language::symbol::{LineShape, MachiningKind, MoveShape, OutlinePoint, PartSize, SolidShape, TALLEST};
use crate::model::{Grain, Need, Said, Service, Tag};
use proptest::prelude::*;

const WHOLE: &str = "symbol: test/all
says: Everything once
size:
  run:    { default: 1200, least: 300, most: 2600 }
  depth:  { default: 560, least: 350, most: 700 }
  height: { default: 900, least: 750, most: 1000 }
settings:
  drawers: { kind: whole, default: 3, least: 0, most: 6 }
  sink:    { kind: one-of, values: [none, single, double], default: single }
  stool:   { kind: yes-no, default: no }
  toe:     { kind: length, default: 60, least: 0, most: 120 }
let: { bay: run / 2 }
exports: { worktop: floor + height }
poses: { raised: { deck: 1380 }, lowered: { deck: 720 } }
tags: [hot]
solids:
  carcass: { u: [0, run], v: [t.front, depth], w: [toe, height - t.worktop] }
  hob:     { when: stool, u: [0, 1], v: [0, 1], w: [0, 1], bought: true, tags: [hob, hot] }
  bench:   { outline: [[0, 0], [run, 0], { arc: [300, 600], through: [500, 500] }], w: [0, 450] }
  locker:  { profile: [[0, 0], [depth, 0], [depth, 300]], u: [0, run] }
  hood:    { front: [[0, 0], [run, 0], [run, 200]], v: [0, 100] }
  shelf:   { each: i in 1..drawers + 1, u: [0, run], v: [0, depth], w: [i * 300, i * 300 + 15] }
spaces:
  stand:   { u: [0, run], v: [-600, 0], need: standing }
  lie:     { u: [0, run], v: [0, depth], w: [deck, height], need: lying, people: 2, along: u }
moves:
  drawer:  { each: i in 1..drawers, slides: out, u: [0, bay], w: [60, 300], travel: depth - 90 }
  door:    { hinged: left, side: right, v: [0, depth], w: [60, 900], opens: 95, at: run, inward: yes }
  lid:     { lid: back, u: [0, run], v: [0, depth], at: 450, opens: 85 }
  walk:    { hinged: right, u: [0, run], w: [0, height], opens: 90, walk-through: true, thickness: 20 }
plan:
  - { when: sink != none, round-rect: { u: [60, bay], v: [70, 450] }, radius: 60 }
  - { circle: [100, 200], radius: 90, at: 30, dashed: yes }
  - { line: [[0, 0], [run, depth]] }
  - { rect: { u: [0, 1], v: [0, 1] } }
  - { outline: [[0, 0], [1, 0], [1, 1]] }
parts:
  side:    { stock: carcass, at: [{ u: [0, t], v: [0, depth], w: [0, 9] }, { u: [run - t, run], v: [0, depth], w: [0, 9] }], long: w, bands: { front: 1, top: 2 } }
  rail:    { count: 2, length: run - 2 * t, width: 90, stock: carcass, grain: width, bands: { front: 1 }, scribe: { left: 10 }, note: glue }
  top:
    stock: worktop
    at: { u: [0, run], v: [0, depth], w: [0, t] }
    cutouts: [{ name: sink, when: sink != none, rect: { length: [1, 2], width: [3, 4] } }, { name: tap, circle: [5, 6], radius: 7 }]
    holes: [{ at: [1, 2], diameter: 5, depth: 12, each: i in 1..2 }]
    grooves: [{ from: [0, 1], to: [2, 1], width: 6, depth: 7 }]
hardware:
  drawer-runner-pair: { count: drawers, size: 450 }
  hinge: 2
mass: { fixed: 4.5, contents: 12 }
connects: [cold-water, 12v]
";

fn read(text: &str) -> (Option<SymbolDoc>, Vec<Diagnostic>, SourceMap) {
    let (mut sources, mut sink) = (SourceMap::default(), Sink::default());
    let doc = read_symbol("test/all.yaml", text, "test/all", &mut sources, &mut sink);
    (doc, sink.errors().to_vec(), sources)
}

/// The errors after the piece `from` of the whole symbol has become `to`, as (message, place).
fn mistakes(from: &str, to: &str) -> Vec<(String, String)> {
    assert!(WHOLE.contains(from), "{from}");
    let (doc, errors, sources) = read(&WHOLE.replacen(from, to, 1));
    assert!(doc.is_none(), "{to}");
    errors
        .iter()
        .map(|error| {
            assert!(error.help.is_some(), "{error:?}");
            (error.message.clone(), sources.text(error.span).to_owned())
        })
        .collect()
}

#[test]
fn a_whole_symbol() {
    let (doc, errors, sources) = read(WHOLE);
    assert_eq!(errors, vec![]);
    let doc = doc.unwrap();
    assert_eq!(doc.settings.len(), 4);
    assert!(matches!(doc.settings["stool"].value.default.kind, ExprKind::Bool(false)));
    assert_eq!(doc.poses["lowered"].value.variables.len(), 1);
    let shape = |name: &str| &doc.solids[name].value.shape;
    assert!(matches!(shape("carcass"), SolidShape::Block(_)));
    let SolidShape::Outline(points, _) = shape("bench") else { panic!() };
    assert!(matches!(points[2], OutlinePoint::Arc { .. }));
    assert!(matches!(shape("locker"), SolidShape::Profile(..)) && matches!(shape("hood"), SolidShape::Front(..)));
    let each = doc.solids["shelf"].value.each.as_ref().unwrap();
    assert_eq!(
        (each.counter.as_str(), sources.text(each.from.span), sources.text(each.to.span)),
        ("i", "1", "drawers + 1")
    );
    let SolidShape::Block([_, _, w]) = &doc.spaces["stand"].value.shape else { panic!() };
    assert_eq!(w.high.kind, ExprKind::Name(TALLEST.to_owned()));
    let lie = &doc.spaces["lie"].value;
    assert_eq!((lie.need.value, lie.along.as_ref().unwrap().value), (Need::Lying, 'u'));
    let MoveShape::Slide { body, .. } = &doc.moves["drawer"].value.shape else { panic!() };
    assert_eq!(body[1].high.kind, ExprKind::Name("depth".into()));
    assert!(
        matches!(&doc.moves["door"].value.shape, MoveShape::Leaf { inward: true, side, .. } if side.value == "right")
    );
    assert!(doc.moves["walk"].value.walk_through);
    assert!(matches!(doc.plan[0].value.shape, LineShape::Rect(_, _, Some(_))) && doc.plan[1].value.dashed);
    assert!(matches!(&doc.parts["side"].value.size, PartSize::Placed { at, long: Some(_) } if at.len() == 2));
    assert_eq!(doc.parts["rail"].value.grain, Grain::Width);
    let kinds: Vec<&str> = doc.parts["top"]
        .value
        .machining
        .iter()
        .map(|machining| match machining.kind {
            MachiningKind::Groove { .. } => "groove",
            MachiningKind::Hole { .. } => "hole",
            MachiningKind::Cutout { .. } => "cutout",
        })
        .collect();
    assert_eq!(kinds, ["groove", "hole", "cutout", "cutout"]);
    assert!(doc.hardware["hinge"].value.size.is_none());
    assert_eq!(doc.connects[1].value, Service::Volts12);
    assert_eq!(doc.solids["hob"].value.tags, [Said::Known(Tag::Hob), Said::Own("hot".into())]);
}

#[test]
fn a_symbol_without_poses_has_one() {
    let (doc, errors, _) = read(&WHOLE.replace("poses: { raised: { deck: 1380 }, lowered: { deck: 720 } }\n", ""));
    assert_eq!(errors, vec![]);
    assert_eq!(doc.unwrap().poses.keys().collect::<Vec<_>>(), ["as-built"]);
}

/// A piece of the symbol, what it becomes, the message and the piece that it points at (empty for any).
const MISTAKES: &[(&str, &str, &str, &str)] = &[
    ("symbol: test/all", "symbol: test/other", "the file `test/all.yaml` holds the symbol `test/other`", "test/other"),
    ("default: 1200, ", "", "a size has no `default`", "{ least: 300, most: 2600 }"),
    ("kind: whole", "kind: hole", "`kind` can't be `hole`", "hole"),
    ("values: [none, single, double], ", "", "setting `sink` has no `values`", "{ kind: one-of, default: single }"),
    ("lowered: { deck: 720 }", "lowered: { dek: 720 }", "this pose does not set `deck`", "lowered"),
    (
        "v: [t.front, depth], w: [toe",
        "w: [toe",
        "solid `carcass` has no `v`",
        "{ u: [0, run], w: [toe, height - t.worktop] }",
    ),
    ("i in 1..drawers + 1", "i in 1 to 4", "`each` needs a name and a range", "i in 1 to 4"),
    ("i in 1..drawers + 1", "i in 1..drawers +", "a value is missing after `+`", "+"),
    ("need: lying", "need: sleep", "`need` can't be `sleep`", "sleep"),
    ("along: u", "along: x", "`along` can't be `x`", "x"),
    (
        "w: [deck, height], need: lying",
        "need: lying",
        "space `lie` has no `w`",
        "{ u: [0, run], v: [0, depth], need: lying, people: 2, along: u }",
    ),
    ("slides: out", "slides: in", "`slides` can't be `in`", "in"),
    (
        "slides: out, ",
        "",
        "move `drawer` moves in one way, and 0 are written",
        "{ each: i in 1..drawers, u: [0, bay], w: [60, 300], travel: depth - 90 }",
    ),
    ("travel: depth - 90", "travel: depth - 90, after: dor", "the symbol has no move `dor`", "dor"),
    ("travel: depth - 90", "travel: depth - 90, after: drawer", "move `drawer` cannot go after itself", "drawer"),
    (
        "hinged: left, side: right",
        "hinged: left, slides: out, side: right",
        "move `door` moves in one way, and 2 are written",
        "hinged",
    ),
    (
        "{ rect: { u: [0, 1], v: [0, 1] } }",
        "{ dashed: yes }",
        "a plan line has one shape, and 0 are written",
        "{ dashed: yes }",
    ),
    (
        "rect: { u: [0, 1], v: [0, 1] }",
        "rect: { u: [0, 1], v: [0, 1, 2] }",
        "`v` needs two numbers, and 3 are written",
        "[0, 1, 2]",
    ),
    (
        "count: 2, length: run - 2 * t, width: 90, ",
        "",
        "part `rail` has no size",
        "{ stock: carcass, grain: width, bands: { front: 1 }, scribe: { left: 10 }, note: glue }",
    ),
    ("long: w", "count: 2", "part `side` has `at` and `count`", "count"),
    ("bands: { front: 1 }, scribe", "bands: { top: 1 }, scribe", "unknown key `top` in `bands`", "top"),
    ("stock: worktop", "stok: worktop", "unknown key `stok` in part `top`", "stok"),
    ("circle: [5, 6], radius: 7", "radius: 7", "a cutout has one shape, and 0 are written", "{ name: tap, radius: 7 }"),
    ("tags: [hob, hot]", "tags: [hobb, hot]", "unknown tag `hobb`", "hobb"),
    ("connects: [cold-water", "connects: [cold-watr", "`connects` can't be `cold-watr`", "cold-watr"),
    (
        "outline: [[0, 0], [run, 0], {",
        "outline: [{",
        "an outline can't begin with an arc",
        "{ arc: [300, 600], through: [500, 500] }",
    ),
];

#[test]
fn mistakes_at_their_places() {
    for (from, to, message, place) in MISTAKES {
        let found = mistakes(from, to);
        let (first, at) = found.first().unwrap();
        assert_eq!(first, message, "{to}");
        assert!(place.is_empty() || at == place, "{to}: {at}");
        assert!(found.len() <= 2, "{found:?}");
    }
}

#[test]
fn a_symbol_with_a_key_written_twice_is_refused() {
    assert_eq!(mistakes("hinge: 2", "drawer-runner-pair: 2")[0].0, "the key `drawer-runner-pair` is written twice");
}

#[test]
fn a_layout_is_no_symbol() {
    let (_, errors, _) = read("boxwright: 1\ntitle: T\n");
    assert_eq!(errors[0].message, "this is a layout, and a symbol is wanted");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn any_change_is_read_or_reported(from in 0..WHOLE.len(), length in 0_usize..12, piece in "[a-z0-9:{}\\[\\], \n.]{0,6}") {
        let mut text = WHOLE.to_owned();
        text.replace_range(from..(from + length).min(text.len()), &piece);
        let (doc, errors, _) = read(&text);
        prop_assert_eq!(doc.is_some(), errors.is_empty());
    }
}

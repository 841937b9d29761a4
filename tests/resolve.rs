//! Placement, names, poses and parts, against positions worked out by hand.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at once")]

use boxwright::compile::{Options, read};
use boxwright::geometry::Box3;
use boxwright::model::{Bands, Machining, Model, MoveKind};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;

const HEAD: &str = "boxwright: 1\ntitle: T\nsymbols: [own]\nbox: { length: 4000, width: 2000, height: 1900 }\n";

const BENCH: &str = "
symbol: t/bench
says: A bench with a lid, a door and a drawer
size:
  run:    { default: 1000, least: 200, most: 3000 }
  depth:  { default: 500, least: 200, most: 900 }
  height: { default: 450, least: 200, most: 2000 }
settings:
  doors: { kind: whole, default: 1, least: 0, most: 4 }
  wood:  { kind: one-of, values: [ash, elm], default: ash }
let: { inside: run - 2 * t.carcass }
exports: { seat: floor + top, inside: inside }
poses: { low: { top: height / 2 }, high: { top: height } }
solids:
  base: { u: [0, run], v: [0, depth], w: [0, top] }
spaces:
  stand: { u: [0, run], v: [-600, 0], need: standing }
moves:
  door: { each: i in 1..doors, hinged: left, u: [(i - 1) * 200, i * 200], w: [0, 100], opens: 90, thickness: 20 }
  lid:  { lid: back, u: [0, run], v: [0, depth], at: top, opens: 80, thickness: 12 }
  drawer: { slides: out, u: [0, 200], v: [0, depth], w: [0, 100], travel: 300 }
parts:
  side:
    stock: carcass
    at:
      - { u: [0, t], v: [0, depth], w: [0, height] }
      - { u: [run - t, run], v: [0, depth], w: [0, height] }
    long: w
    bands: { front: 1, top: 2 }
  rail: { when: wood == elm, count: 2, length: inside, width: 90, stock: carcass }
";

fn compiled(layout: &str) -> (Option<Model>, Vec<String>) {
    let world = MemoryWorld::default().with("a.yaml", &format!("{HEAD}{layout}")).with("own/t/bench.yaml", BENCH);
    let compiled = read(&world, "a.yaml", &Registry::standard(), &Options::default());
    let errors = compiled.errors.errors().iter().map(|error| error.message.clone()).collect();
    (compiled.model, errors)
}

fn model(layout: &str) -> Model {
    let (model, errors) = compiled(layout);
    model.unwrap_or_else(|| panic!("{errors:?}"))
}

fn extent(layout: &str, name: &str) -> Box3 {
    model(layout).modules.iter().find(|module| module.name == name).unwrap().extent
}

#[test]
fn two_edges_fix_a_size_and_an_edge_with_a_size_the_other() {
    let layout =
        "modules:\n  a: { symbol: t/bench, faces: right, place: { front: 100, rear: box.rear - 900, left: 0 } }\n";
    assert_eq!(extent(layout, "a"), Box3 { x: (100.0, 3100.0), y: (0.0, 500.0), z: (0.0, 450.0) });
    let layout =
        "modules:\n  a: { symbol: t/bench, place: { rear: box.rear, centre-y: box.width / 2 }, size: { run: 800 } }\n";
    assert_eq!(extent(layout, "a"), Box3 { x: (3500.0, 4000.0), y: (600.0, 1400.0), z: (0.0, 450.0) });
}

#[test]
fn a_module_stands_on_the_floor_unless_it_hangs_from_its_top_by_its_height() {
    let hung = "modules:\n  a: { symbol: t/bench, place: { front: 0, left: 0, top: 1900 }, size: { height: 300 } }\n";
    assert_eq!(extent(hung, "a").z, (1600.0, 1900.0));
    let tall = "modules:\n  a: { symbol: t/bench, place: { front: 0, left: 0, top: 1900 } }\n";
    assert_eq!(extent(tall, "a").z, (0.0, 1900.0));
}

#[test]
fn modules_refer_to_each_other_in_any_order() {
    let layout = "
modules:
  a: { symbol: t/bench, faces: left, place: { front: b.rear + gap, left: b.right } }
  b: { symbol: t/bench, faces: left, place: { rear: c.front, left: 50 }, size: { depth: 400 } }
  c: { symbol: t/bench, faces: left, place: { front: 2 m, left: 20 in } }
parameters: { gap: 12.5 }
";
    assert_eq!(extent(layout, "b").x, (1000.0, 2000.0));
    assert_eq!(extent(layout, "a"), Box3 { x: (2012.5, 3012.5), y: (450.0, 950.0), z: (0.0, 450.0) });
    assert_eq!(extent(layout, "c").y.0, 508.0, "an inch is 25.4 mm by definition");
}

#[test]
fn an_export_that_depends_on_the_pose_is_asked_for_with_it() {
    let layout = "
modules:
  a: { symbol: t/bench, place: { front: 0, left: 0 } }
  b: { symbol: t/bench, place: { front: 600, left: 0, floor: a.high.seat }, size: { height: a.low.seat + 10, run: a.inside } }
";
    assert_eq!(extent(layout, "b"), Box3 { x: (600.0, 1100.0), y: (0.0, 970.0), z: (450.0, 685.0) });
    let (_, errors) = compiled(
        "modules:\n  a: { symbol: t/bench, place: { front: 0, left: 0, floor: b.seat } }\n  b: { symbol: t/bench, place: { front: 600, left: 0 } }\n",
    );
    assert_eq!(errors, ["`b.seat` differs from pose to pose"]);
}

#[test]
fn a_circle_prints_its_chain() {
    let layout = "
modules:
  a: { symbol: t/bench, faces: left, place: { front: b.rear, left: 0 } }
  b: { symbol: t/bench, faces: left, place: { front: a.rear, left: 0 } }
";
    let (_, errors) = compiled(layout);
    assert!(errors.iter().any(|error| error.contains("b.rear → a.rear → b.rear")), "{errors:?}");
}

#[test]
fn parts_follow_from_their_places() {
    let model = model("modules:\n  a: { symbol: t/bench, place: { front: 0, left: 0 }, set: { wood: elm } }\n");
    let [side, rail] = model.modules[0].parts.as_slice() else { panic!("two kinds of parts") };
    assert_eq!((side.count, side.length, side.width, side.thickness), (2, 450.0, 500.0, 15.0));
    let bands = Bands { front: 1.0, back: 0.0, left: 0.0, right: 2.0 };
    assert_eq!(side.bands, bands, "the length goes up, so the top is the right end and the front the lower edge");
    assert_eq!(side.places.len(), 2);
    assert_eq!((rail.count, rail.length, rail.width), (2, 970.0, 90.0));
}

/// A leaf hinged at the left of a person in front, seen from above; the person stands to the rear of the module.
#[test]
fn leaves_turn_towards_the_person() {
    let model = model(
        "modules:\n  a: { symbol: t/bench, faces: rear, place: { front: 1000, left: 300 }, set: { doors: 2 } }\n",
    );
    let moves = &model.modules[0].poses[0].moves;
    let swing = |at: usize| match &moves[at].kind {
        MoveKind::Swing(swing) => swing.clone(),
        MoveKind::Slide(_) => panic!("{} slides", moves[at].name),
    };
    let door = swing(1);
    assert_eq!((door.hinge.x, door.hinge.y), (1500.0, 500.0), "facing side x = 1500, second door from y = 500");
    assert_eq!((door.shut, door.opens), (90.0, -90.0), "shut towards the right wall, opening to the rear");
    let lid = swing(2);
    assert_eq!((lid.hinge.x, lid.hinge.y), (1000.0, 225.0), "in x and z: at the back edge, on the lid's upper face");
    assert_eq!((lid.shut, lid.opens), (0.0, 80.0), "shut to the rear, opening upward");
    let MoveKind::Slide(drawer) = &moves[3].kind else { panic!("the drawer slides") };
    assert_eq!(drawer.travel, 300.0, "to the rear");
}

#[test]
fn mirroring_swaps_the_hand() {
    let model = model("modules:\n  a: { symbol: t/bench, mirror: yes, place: { front: 1000, left: 300 } }\n");
    let MoveKind::Swing(door) = &model.modules[0].poses[0].moves[0].kind else { panic!("a door") };
    assert_eq!((door.hinge.y, door.shut, door.opens), (1300.0, -90.0, 90.0));
}

#[test]
fn many_errors_come_in_one_run() {
    let (model, errors) = compiled(
        "modules:
  a: { symbol: t/bench, place: { front: boxx.rear, left: 0 } }
  b: { symbol: t/bench, place: { front: 0, left: 0, right: 900 }, size: { run: 500 } }
  c: { symbol: t/bench, place: { left: 0 }, set: { doors: 9 } }
  d: { symbol: t/bench, place: { front: 3 / 0, left: 0 }, set: { wood: oak } }
",
    );
    assert!(model.is_none());
    let has = |words: &str| assert!(errors.iter().any(|error| error.contains(words)), "{words}: {errors:?}");
    has("unknown name `boxx`");
    has("module `b` is fixed 3 times in one direction: left, right, run");
    has("module `c` has no place between front and rear");
    has("`doors` of module `c` is 9; it takes 0 to 4");
    has("division by zero");
    has("`wood` must be `ash` or `elm`");
}

/// A part knows its thickness in `when` and `each`, and its holes know its counter as well as their own.
#[test]
fn parts_know_their_thickness_and_both_counters() {
    const RACK: &str = "
symbol: t/rack
says: Boards with rows of holes
size:
  run:    { default: 1000, least: 200, most: 3000 }
  depth:  { default: 500, least: 200, most: 900 }
  height: { default: 450, least: 200, most: 2000 }
parts:
  board:
    each: i in 1..round(t / 5)
    when: t > 10
    length: 1000
    width: 100 * i
    stock: carcass
    holes:
      - { each: j in 1..i, at: [100 * j, 50 * i], diameter: 5 }
      - { each: i in 8..9, at: [100 * i, 50], diameter: 5 }
";
    let layout = format!("{HEAD}modules:\n  a: {{ symbol: t/rack, place: {{ front: 0, left: 0 }} }}\n");
    let world = MemoryWorld::default().with("a.yaml", &layout).with("own/t/rack.yaml", RACK);
    let model = read(&world, "a.yaml", &Registry::standard(), &Options::default()).model.unwrap();
    let parts = &model.modules[0].parts;
    assert_eq!(parts.iter().map(|part| part.width).collect::<Vec<_>>(), [100.0, 200.0, 300.0], "15 / 5 boards");
    let holes = |at: usize| -> Vec<(f64, f64)> {
        let place = |machining: &Machining| match machining {
            Machining::Hole { at, .. } => *at,
            _ => panic!("only holes"),
        };
        parts[at].machining.iter().map(place).collect()
    };
    assert_eq!(holes(0), [(100.0, 50.0), (800.0, 50.0), (900.0, 50.0)], "the inner counter hides the outer one");
    assert_eq!(holes(1), [(100.0, 100.0), (200.0, 100.0), (800.0, 50.0), (900.0, 50.0)]);
}

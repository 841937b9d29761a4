//! Layouts at the bounds that the language reference gives, and one past them: the first are let in and checked to the end,
//! the others get an error that says the bound. Each row of its table has a layout here.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod common;

use boxwright::compile::{Options, compile, read};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use std::fmt::Write as _;

const MANY: &str = "symbol: own/many
says: Many small blocks, places to stand and drawers
size:
  run:    { default: 800, least: 50, most: 3000 }
  depth:  { default: 200, least: 50, most: 3000 }
  height: { default: 900, least: 10, most: 1800 }
settings:
  solids: { kind: whole, default: 0, least: 0, most: 1000 }
  spaces: { kind: whole, default: 0, least: 0, most: 1000 }
  moves:  { kind: whole, default: 0, least: 0, most: 1000 }
solids:
  block: { each: i in 1..solids, u: [(i - 1) * run / solids, (i - 0.5) * run / solids], v: [0, depth], w: [0, height] }
spaces:
  stand: { each: i in 1..spaces, u: [(i - 1) * run / spaces, i * run / spaces], v: [-600, 0], w: [0, 1900], need: standing }
moves:
  drawer: { each: i in 1..moves, slides: out, u: [(i - 1) * run / moves, i * run / moves], v: [0, depth], w: [0, height], travel: 100 }
";

/// A long box with a door and some modules of many things along the left wall.
struct Long<'a> {
    modules: usize,
    arrangements: usize,
    set: &'a str,
    /// Settings of one more module.
    more: Option<&'a str>,
}

impl Long<'_> {
    fn text(&self) -> String {
        let length = 1000 * self.modules + 3000;
        let mut text = format!(
            "boxwright: 1\ntitle: Long\nsymbols: [symbols]\nbox: {{ length: {length}, width: 2300, height: 2150 }}\n\
             openings:\n  door: {{ kind: door, wall: right, front: 100, run: 700, height: 1880 }}\nmodules:\n"
        );
        let size = "size: { run: 900, depth: 200, height: 900 }";
        for (at, set) in (0..self.modules).map(|_| self.set).chain(self.more).enumerate() {
            let front = 1000 * (at + 1);
            let place = format!("faces: right, place: {{ front: {front}, left: 0 }}");
            writeln!(text, "  m{at}: {{ symbol: own/many, {place}, {size}, set: {{ {set} }} }}").unwrap();
        }
        text += "arrangements:\n";
        (0..self.arrangements).for_each(|at| writeln!(text, "  a{at}: {{}}").unwrap());
        text
    }

    fn world(&self) -> MemoryWorld {
        MemoryWorld::default().with("long.yaml", &self.text()).with("symbols/own/many.yaml", MANY)
    }
}

/// Many things at one place, on top of each other: what is worst for checks that look at pairs.
#[test]
fn heaps_are_checked_to_the_end() {
    // Four and four that face each other: each two of a side are in one place, and each two across the way meet.
    for (set, check, pairs) in [("solids: 1000", "no-overlap", 12), ("moves: 1000", "moves-clash", 16)] {
        let size = "size: { run: 900, depth: 200, height: 900 }";
        let heap: String = (0..8)
            .map(|at| {
                let (faces, left) = [("right", 500), ("left", 850)][at % 2];
                format!("  m{at}: {{ symbol: own/many, faces: {faces}, place: {{ front: 1000, left: {left} }}, {size}, set: {{ {set} }} }}\n")
            })
            .collect();
        let world = layout(&format!("symbols: [symbols]\nmodules:\n{heap}")).with("symbols/own/many.yaml", MANY);
        let compiled = compile(&world, "long.yaml", &Registry::standard(), &Options::default());
        assert!(compiled.errors.is_empty(), "{set}: {:?}", compiled.errors.errors());
        let found = compiled.findings.iter().filter(|finding| finding.key.check == check).count();
        assert_eq!(found, pairs, "{set}: findings of {check}");
    }
}

const POSTS: &str = "symbol: own/posts
says: A thousand posts with ways between them
size:
  run:    { default: 15000, least: 50, most: 100000 }
  depth:  { default: 24000, least: 50, most: 100000 }
  height: { default: 900, least: 10, most: 1800 }
settings:
  gap: { kind: length, default: 600, least: 50, most: 10000 }
  stands: { kind: whole, default: 1, least: 1, most: 1000 }
solids:
  block: { each: i in 0..999, u: [\"(i - 25 * floor(i / 25)) * gap\", \"(i - 25 * floor(i / 25)) * gap + 40\"], v: [floor(i / 25) * gap + 10, floor(i / 25) * gap + 50], w: [0, height] }
spaces:
  stand: { each: i in 1..stands, u: [\"(i - 1 - 25 * floor((i - 1) / 25)) * gap\", \"(i - 1 - 25 * floor((i - 1) / 25)) * gap + 500\"], v: [floor((i - 1) / 25) * gap + 60, floor((i - 1) / 25) * gap + 560], w: [0, 1900], need: standing }
";

/// A floor of free-standing posts of 40 mm has a way between any two of them, which is as wide as they are apart.
#[test]
fn floors_of_many_posts_are_walked_to_the_end() {
    for (modules, columns, gap, stands) in [(10, 6, 600, 1), (10, 6, 600, 600), (48, 9, 390, 1)] {
        let (run, depth) = (25 * gap, 40 * gap);
        let rows = (modules - 1) / columns + 1;
        let (length, width) = (columns * run + 3000, rows * depth + 3000);
        let places: String = (0..modules)
            .map(|at| {
                let (front, left) = (1500 + at % columns * run, 700 + at / columns * depth);
                format!("  m{at}: {{ symbol: own/posts, faces: right, place: {{ front: {front}, left: {left} }}, size: {{ run: {run}, depth: {depth} }}, set: {{ gap: {gap}, stands: {stands} }} }}\n")
            })
            .collect();
        let text = format!(
            "boxwright: 1\ntitle: Posts\nsymbols: [symbols]\nbox: {{ length: {length}, width: {width}, height: 2150 }}\n\
             openings:\n  door: {{ kind: door, wall: right, front: 100, run: 700, height: 1880 }}\n\
             modules:\n{places}limits: {{ walkway: {{ least: 700, because: \"try\" }} }}\n"
        );
        let world = MemoryWorld::default().with("long.yaml", &text).with("symbols/own/posts.yaml", POSTS);
        let compiled = compile(&world, "long.yaml", &Registry::standard(), &Options::default());
        assert!(compiled.errors.is_empty(), "{modules}: {:?}", compiled.errors.errors());
        let narrows = format!("narrows to {} mm", gap - 40);
        let walkway = compiled.findings.iter().filter(|finding| finding.key.check == "walkway");
        let mut messages = walkway.map(|finding| finding.message.as_str());
        assert!(messages.any(|message| message.contains(&narrows)), "{modules}: {narrows}");
    }
}

#[test]
fn large_layouts_are_checked_to_the_end() {
    for (modules, arrangements, set) in [
        (10, 1, "solids: 1000, spaces: 1"),
        (1, 1, "spaces: 1000"),
        (50, 1, "solids: 1000"),
        (30, 2, "solids: 1000"),
        (3, 2, "spaces: 1000"),
        (10, 2, "moves: 1000"),
    ] {
        let world = Long { modules, arrangements, set, more: None }.world();
        let compiled = compile(&world, "long.yaml", &Registry::standard(), &Options::default());
        assert!(compiled.errors.is_empty() && !compiled.findings.is_empty(), "{set}: {:?}", compiled.errors.errors());
    }
}

// Layouts at one bound each.

const HEAD: &str = "boxwright: 1\ntitle: Bound\nbox: { length: 20000, width: 3000, height: 2150 }\n";

/// A symbol whose outline, poses and solids are as many as asked for.
fn symbol(corners: usize, poses: usize, solids: usize) -> String {
    let corner = |at: usize| {
        let share = at as f64 / (corners - 3) as f64;
        format!("[{:.1}, {:.1}]", 10.0 + 780.0 * share, 100.0 + 50.0 * (at % 2) as f64)
    };
    let outline: Vec<String> = (0..corners - 2).map(corner).collect();
    let poses: String = (0..poses).map(|at| format!("  p{at}: {{ top: {} }}\n", 100 + at)).collect();
    format!(
        "symbol: own/bound\nsays: A block\nsize:\n  run: {{ default: 800, least: 800, most: 800 }}\n  depth: {{ default: 200, least: 200, most: 200 }}\n  height: {{ default: 900, least: 900, most: 900 }}\n\
         poses:\n{poses}solids:\n  body: {{ outline: [[0, 0], {}, [800, 0]], w: [0, top] }}\n  \
         block: {{ each: i in 1..{solids}, u: [i * 800 / {solids} - 0.5, i * 800 / {solids}], v: [0, 50], w: [0, 90] }}\n",
        outline.join(", ")
    )
}

fn with_symbol(text: &str) -> MemoryWorld {
    let layout = format!(
        "{HEAD}symbols: [symbols]\nmodules:\n  m: {{ symbol: own/bound, faces: right, place: {{ front: 1000, left: 0 }} }}\n"
    );
    MemoryWorld::default().with("long.yaml", &layout).with("symbols/own/bound.yaml", text)
}

fn layout(more: &str) -> MemoryWorld {
    MemoryWorld::default().with("long.yaml", &format!("{HEAD}{more}"))
}

/// A section with so many entries.
fn section(name: &str, count: usize, entry: impl Fn(usize) -> String) -> MemoryWorld {
    let entries: String = (0..count).map(|at| format!("  e{at}: {{ {} }}\n", entry(at))).collect();
    layout(&format!("{name}:\n{entries}"))
}

/// So many values: four of the head, three of the box, a map and the rest parameters, whose names are short and no words.
fn values(count: usize) -> MemoryWorld {
    let letters: Vec<char> = "bcdfghjklmnpqrstvwxz".chars().collect();
    let name =
        |at: usize| (0..4).map(|place| letters[at / letters.len().pow(place) % letters.len()]).collect::<String>();
    let parameters: Vec<String> = (0..count - 8).map(|at| format!("{}: 1", name(at))).collect();
    layout(&format!("parameters: {{{}}}\n", parameters.join(",")))
}

fn of_bytes(count: usize) -> MemoryWorld {
    let line = format!("# {}\n", "x".repeat(97));
    let text = format!("{HEAD}{}", line.repeat((count - HEAD.len()) / line.len()));
    let rest = count - text.len();
    MemoryWorld::default().with("long.yaml", &(text + &" ".repeat(rest)))
}

fn chain(count: usize) -> MemoryWorld {
    let file = |at: usize| if at == 0 { "long.yaml".to_owned() } else { format!("b{at}.yaml") };
    let world = MemoryWorld::default().with(&file(count), HEAD);
    (0..count).fold(world, |world, at| world.with(&file(at), &format!("boxwright: 1\nextends: {}\n", file(at + 1))))
}

fn pieces(count: usize) -> MemoryWorld {
    let can = "size: [80, 80, 80], mass: 1, in: boot, through: hatch";
    layout(&format!(
        "symbols: [symbols]\nopenings:\n  hatch: {{ kind: hatch, wall: left, front: 2700, run: 900, sill: 40, height: 460 }}\n\
         modules:\n  boot: {{ symbol: stow/boot, faces: front, size: {{ height: 640 }},\n    \
         place: {{ front: 2600, rear: 4600, left: 0, right: 2500 }} }}\n\
         cargo:\n  cup: {{ {can}, count: 1 }}\n  can: {{ {can}, count: {} }}\n",
        count - 1
    ))
}

fn many(modules: usize, more: bool) -> MemoryWorld {
    Long { modules, arrangements: 1, set: "solids: 1000", more: more.then_some("solids: 1") }.world()
}

/// A bound: its row in the table, how the table says it, the number, and a layout with so much.
struct Bound {
    row: &'static str,
    shown: &'static str,
    most: usize,
    world: Box<dyn Fn(usize) -> MemoryWorld>,
    says: &'static str,
}

fn bound(
    row: &'static str,
    shown: &'static str,
    most: usize,
    says: &'static str,
    world: impl Fn(usize) -> MemoryWorld + 'static,
) -> Bound {
    Bound { row, shown, most, world: Box::new(world), says }
}

fn of_text() -> Vec<Bound> {
    let file = "a file, of any kind";
    vec![
        bound(file, "1 MiB", 1 << 20, "at most 1048576 are read", of_bytes),
        bound(file, "100,000 values", 100_000, "more than 100000 values", values),
        bound(file, "64 levels deep", 64, "lie more than 64 deep", |deep| {
            layout(&format!("drawn: {}1{}\n", "[".repeat(deep - 1), "]".repeat(deep - 1)))
        }),
        bound("a text", "400 characters", 400, "more than 400 characters", |long| {
            layout(&format!("number: {}\n", "x".repeat(long)))
        }),
        bound("a name", "60 characters", 60, "at most 60 are allowed", |long| {
            layout(&format!("people: {{ {}: {{ stature: 1700, mass: 70 }} }}\n", "x".repeat(long)))
        }),
        bound("an expression", "1,000 characters", 1000, "more than 1000 characters", |long| {
            layout(&format!("parameters: {{ a: 1{}+ 1 }}\n", " ".repeat(long - 4)))
        }),
        bound("an expression", "64 operations deep", 64, "more than 64 operations deep", |deep| {
            layout(&format!("parameters: {{ a: 1{} }}\n", " + 1".repeat(deep - 1)))
        }),
        bound("a figure", "100,000 either way", 100_000, "-100001 is out of range", |figure| {
            layout(&format!("loads: {{ a: {{ mass: 1, at: [100, 100, -{figure}] }} }}\n"))
        }),
        bound("layouts that extend each other", "16", 16, "more than 16 layouts extend each other", chain),
    ]
}

fn of_sections() -> Vec<Bound> {
    let person = |_| "stature: 1700, mass: 70".to_owned();
    let window =
        |at: usize| format!("kind: window, wall: left, front: {}, run: 50, sill: 900, height: 300", 100 + 90 * at);
    let zone = |at: usize| format!("purpose: storage, front: {}, rear: {}, left: 0, right: 500", 90 * at, 90 * at + 80);
    let module = |at: usize| {
        let place = format!("front: {}, left: {}", at % 199 * 100, at / 199 * 200);
        format!(
            "symbol: own/many, faces: right, size: {{ run: 50, depth: 60, height: 900 }}, set: {{ solids: 1 }}, place: {{ {place} }}"
        )
    };
    let modules = move |count| {
        let entries: String = (0..count).map(|at| format!("  e{at}: {{ {} }}\n", module(at))).collect();
        layout(&format!("symbols: [symbols]\nmodules:\n{entries}")).with("symbols/own/many.yaml", MANY)
    };
    let load = |at: usize| format!("mass: 1, at: [{}, 100, 100]", 10 + at);
    vec![
        bound("`people`", "64", 64, "`people` has 65 entries", move |count| section("people", count, person)),
        bound("`openings`", "200", 200, "`openings` has 201", move |count| section("openings", count, window)),
        bound("`zones`", "200", 200, "`zones` has 201", move |count| section("zones", count, zone)),
        bound("`modules`", "2,000", 2000, "`modules` has 2001", modules),
        bound("`arrangements`", "32", 32, "`arrangements` has 33", |count| {
            section("arrangements", count, |_| String::new())
        }),
        bound("`cargo`", "64 kinds", 64, "`cargo` has 65", |count| {
            section("cargo", count, |_| "size: [80, 80, 80], mass: 1, count: 1, in: m".to_owned())
        }),
        bound("`cargo`", "500 pieces in all", 500, "the cargo has 501 pieces; at most 500", pieces),
        bound("`loads`", "64", 64, "`loads` has 65", move |count| section("loads", count, load)),
        bound("house rules", "200", 200, "the layout has 201 rules; at most 200", |count| {
            section("rules", count, |_| {
                "each: module m, needs: m.height >= 0, says: \"flat\", because: \"a bound\"".to_owned()
            })
        }),
        bound("`load-cases`", "32", 32, "`load-cases` has 33", |count| {
            section("load-cases", count, |_| "people: 0".to_owned())
        }),
    ]
}

fn of_symbols() -> Vec<Bound> {
    let arrangements = |set: &'static str, more: &'static str, modules: usize, most: usize| {
        move |count: usize| Long { modules, arrangements: 2, set, more: (count > most).then_some(more) }.world()
    };
    vec![
        bound("corners of an outline", "200", 200, "201 corners; at most 200", |count| {
            with_symbol(&symbol(count, 2, 1))
        }),
        bound("poses of a symbol", "64", 64, "`poses` has 65", |count| with_symbol(&symbol(10, count, 1))),
        bound("entries that one `each` makes", "1,000", 1000, "`each` would make 1001 items; at most 1000", |count| {
            with_symbol(&symbol(10, 2, count))
        }),
        bound("entries that all symbols of a layout make", "50,000", 50_000, "more than 50000 items", |count| {
            many(50, count > 50_000)
        }),
        bound(
            "solids in all arrangements together",
            "60,000",
            60_000,
            "60002 solids; at most 60000",
            arrangements("solids: 1000", "solids: 1", 30, 60_000),
        ),
        bound(
            "standing spaces in all arrangements together",
            "6,000",
            6000,
            "6002 standing spaces; at most 6000",
            arrangements("spaces: 1000", "spaces: 1", 3, 6000),
        ),
        bound(
            "moves in all arrangements together",
            "20,000",
            20_000,
            "20002 moves; at most 20000",
            arrangements("moves: 1000", "moves: 1", 10, 20_000),
        ),
    ]
}

fn errors(world: &MemoryWorld) -> Vec<String> {
    let read = read(world, "long.yaml", &Registry::standard(), &Options::default());
    read.errors.errors().iter().map(|error| error.message.clone()).collect()
}

/// Errors of their own that a layout at these bounds has: what is made so deep or of so many is not checked further.
const NOT_WHOLE: [&str; 2] = ["64 levels deep", "64 kinds"];

fn hold(bounds: &[Bound]) {
    for Bound { row, shown, most, world, says } in bounds {
        let at = errors(&world(*most));
        assert!(at.is_empty() || NOT_WHOLE.contains(shown), "{row}, {shown}: {at:?}");
        assert!(!at.iter().any(|error| error.contains(says)), "{row}, {shown}: {at:?}");
        let past = errors(&world(most + 1));
        assert!(past.iter().any(|error| error.contains(says)), "{row}, {shown} and one: {past:?}");
    }
}

#[test]
fn every_row_of_the_table_has_a_layout() {
    let page = common::text("layouts/README.md");
    let table = page.split("\n## Bounds\n").nth(1).unwrap();
    let rows: Vec<Vec<&str>> = table
        .lines()
        .filter(|line| line.starts_with("| "))
        .map(|line| line.split('|').map(str::trim).collect())
        .collect();
    let bounds: Vec<Bound> = [of_text(), of_sections(), of_symbols()].into_iter().flatten().collect();
    assert!(rows.len() > 20);
    for row in rows.iter().skip(1) {
        let shown: Vec<&str> = bounds.iter().filter(|bound| bound.row == row[1]).map(|bound| bound.shown).collect();
        assert!(!shown.is_empty() && shown.iter().all(|shown| row[2].contains(shown)), "{row:?}: {shown:?}");
    }
}

#[test]
fn texts_are_let_in_up_to_the_bound() {
    hold(&of_text());
}

#[test]
fn sections_are_let_in_up_to_the_bound() {
    hold(&of_sections());
}

#[test]
fn what_symbols_make_is_let_in_up_to_the_bound() {
    hold(&of_symbols());
}

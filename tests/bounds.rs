//! Layouts at the bounds that the language reference gives, and one past them: the first are let in and checked with work
//! that goes with their size, the others get an error that says the bound.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

use boxwright::compile::{Compiled, Options, compile, read};
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

    fn errors(&self) -> Vec<String> {
        let read = read(&self.world(), "long.yaml", &Registry::standard(), &Options::default());
        read.errors.errors().iter().map(|error| error.message.clone()).collect()
    }

    fn checked(&self) -> Compiled {
        compile(&self.world(), "long.yaml", &Registry::standard(), &Options::default())
    }
}

#[test]
fn what_all_arrangements_hold_is_let_in_up_to_the_bound() {
    for (modules, arrangements, set, more, what, most) in [
        (30, 2, "solids: 1000", "solids: 1", "solids", 60_000),
        (3, 2, "spaces: 1000", "spaces: 1", "standing spaces", 6000),
        (10, 2, "moves: 1000", "moves: 1", "moves", 20_000),
    ] {
        let at_bound = Long { modules, arrangements, set, more: None };
        assert_eq!(at_bound.errors(), [""; 0], "{most} {what}");
        let past = Long { more: Some(more), ..at_bound }.errors();
        let says = format!("with `a1` the arrangements hold {} {what}; at most {most} are allowed", most + 2);
        assert_eq!(past, [says]);
    }
}

#[test]
fn large_layouts_are_checked_to_the_end() {
    for (modules, set) in [(2, "solids: 1000, spaces: 1"), (1, "spaces: 1000"), (5, "solids: 1000"), (1, "moves: 200")]
    {
        let compiled = Long { modules, arrangements: 1, set, more: None }.checked();
        assert!(compiled.errors.is_empty() && !compiled.findings.is_empty(), "{set}: {:?}", compiled.errors.errors());
    }
}

//! Tests of finding symbols.

use super::*;
use crate::source::{MemoryWorld, Span};

const TINY: &str = "says: A box
size:
  run: { default: 1, least: 1, most: 2 }
  depth: { default: 1, least: 1, most: 2 }
  height: { default: 1, least: 1, most: 2 }
solids: { all: { u: [0, run], v: [0, depth], w: [0, height] } }
";

fn name(text: &str) -> Spanned<String> {
    Spanned::new(text.to_owned(), Span::default())
}

fn world() -> MemoryWorld {
    MemoryWorld::default()
        .with("l/own/bed/flat.yaml", &format!("symbol: bed/flat\n{TINY}"))
        .with("l/own/bed/odd.yaml", &format!("symbol: bed/old\n{TINY}"))
        .with("l/own/bed/bad.yaml", "symbol: bed/bad\nsays: x\n")
}

#[test]
fn own_folders_come_first_and_are_read_once() {
    let (world, mut sources, mut sink) = (world(), SourceMap::default(), Sink::default());
    sources.add("l/a.yaml".into(), String::new());
    let memo = Memo::default();
    let mut symbols = Symbols::new(&world, "l/a.yaml", (&[name("own")], false), &memo);
    let first = symbols.get(&name("bed/flat"), &mut sources, &mut sink).unwrap();
    let second = symbols.get(&name("bed/flat"), &mut sources, &mut sink).unwrap();
    assert!(Arc::ptr_eq(&first, &second) && sink.is_empty());
    assert_eq!(sources.place(first.symbol.span).unwrap().0, "l/own/bed/flat.yaml");
}

#[test]
fn failures_are_reported_once() {
    let (world, mut sources, mut sink) = (world(), SourceMap::default(), Sink::default());
    let memo = Memo::default();
    let mut symbols = Symbols::new(&world, "l/a.yaml", (&[name("../l/own")], false), &memo);
    for wrong in ["bed/bad", "bed/odd", "bed/none", "../own/bed/flat", "bed"] {
        assert!(symbols.get(&name(wrong), &mut sources, &mut sink).is_none());
        let count = sink.errors().len();
        assert!(symbols.get(&name(wrong), &mut sources, &mut sink).is_none());
        assert_eq!(sink.errors().len(), count, "{wrong}");
    }
    let has = |wanted: &str| sink.errors().iter().any(|error| error.message.contains(wanted));
    assert!(
        has("the symbol has no `size`") && has("holds the symbol `bed/old`") && has("there is no symbol `bed/none`")
    );
}

#[test]
fn folders_may_not_leave_the_layouts_folder() {
    let (world, mut sources, mut sink) = (world(), SourceMap::default(), Sink::default());
    let memo = Memo::default();
    let mut symbols = Symbols::new(&world, "l/sub/a.yaml", (&[name("../own")], false), &memo);
    assert!(symbols.get(&name("bed/flat"), &mut sources, &mut sink).is_none());
    assert!(sink.errors()[0].message.contains("leaves the layout's folder"));
    let mut sink = Sink::default();
    let mut symbols = Symbols::new(&world, "l/sub/a.yaml", (&[name("../own")], true), &memo);
    assert!(symbols.get(&name("bed/flat"), &mut sources, &mut sink).is_some() && sink.is_empty());
}

#[test]
fn every_built_in_symbol_reads() {
    let names = library_names();
    assert!(names.is_sorted());
    for symbol in names {
        let (mut sources, mut sink) = (SourceMap::default(), Sink::default());
        let text = library_text(&symbol).unwrap();
        read_symbol(&symbol, text, &symbol, &mut sources, &mut sink);
        assert_eq!(sink.errors(), &[], "{symbol}");
    }
}

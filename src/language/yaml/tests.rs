//! Tests of the YAML reader. Values of plain scalars follow YAML 1.2.2, section 10.3.2 (core schema).

use super::*;
use proptest::prelude::*;

fn read(text: &str) -> (Option<Node>, Vec<Diagnostic>) {
    let mut sink = Sink::default();
    let node = parse(FileId(0), text, &mut sink);
    (node, sink.errors().to_vec())
}

fn good(text: &str) -> Node {
    let (node, errors) = read(text);
    assert_eq!(errors, vec![], "{text}");
    node.unwrap()
}

fn value(text: &str) -> NodeValue {
    let node = good(&format!("a: {text}\n"));
    node.as_map().unwrap().get("a").unwrap().node.value.clone()
}

fn quoted(text: &str, span: Span) -> String {
    text[span.start as usize..span.end as usize].to_owned()
}

/// The first error: its text, and the piece of the file it points at.
fn error(text: &str) -> (String, String) {
    let (_, errors) = read(text);
    let first = errors.first().unwrap_or_else(|| panic!("no error in {text:?}"));
    assert!(first.help.is_some(), "{first:?}");
    (first.message.clone(), quoted(text, first.span))
}

fn plain(text: &str) -> NodeValue {
    NodeValue::Text(text.to_owned(), false)
}

#[test]
fn core_schema() {
    assert_eq!(value("~"), NodeValue::Null);
    assert_eq!(value(""), NodeValue::Null);
    assert_eq!(value("null"), NodeValue::Null);
    assert_eq!(value("True"), NodeValue::Bool(true));
    assert_eq!(value("0"), NodeValue::Int(0));
    assert_eq!(value("-19"), NodeValue::Int(-19));
    assert_eq!(value("0o7"), NodeValue::Int(7));
    assert_eq!(value("0x3A"), NodeValue::Int(58));
    assert_eq!(value("12e3"), NodeValue::Float(12_000.0));
    assert_eq!(value("-2E+02"), NodeValue::Float(-200.0));
    assert_eq!(value("12.5"), NodeValue::Float(12.5));
    assert_eq!(value("99999999999999999999"), NodeValue::Float(1e20));
}

#[test]
fn what_other_readers_turn_into_something_else_stays_text() {
    for text in
        ["y", "no", "on", "off", "yes", "010", "1_000", "0o9", "0x", "1.2.3", "2026-03-14", "1:20", "1e", "e3", "."]
    {
        assert_eq!(value(text), plain(text), "{text}");
    }
    assert_eq!(value("'12'"), NodeValue::Text("12".into(), true));
}

#[test]
fn numbers_without_end_are_refused() {
    assert_eq!(error("a: .inf\n"), ("`.inf` is not a number that can be measured".into(), ".inf".into()));
    assert_eq!(error("a: .nan\n").1, ".nan");
    assert_eq!(error("a: 1e999\n"), ("the number `1e999` is too large".into(), "1e999".into()));
}

#[test]
fn spans_cover_values_keys_maps_and_lists() {
    let text = "é: ö\nbox:\n  size: { run: 860, depth: x y }   # note\n  list:\n  - 1\n  - [2, 3]\n\nlast: 'q''r'\n";
    let root = good(text);
    assert_eq!(quoted(text, root.span), text.trim_end());
    let map = root.as_map().unwrap();
    assert_eq!(quoted(text, map["é"].key_span), "é");
    assert_eq!(quoted(text, map["é"].node.span), "ö");
    assert_eq!(quoted(text, map["last"].node.span), "'q''r'");
    let inner = &map["box"].node;
    assert!(quoted(text, inner.span).starts_with("size: {") && quoted(text, inner.span).ends_with("[2, 3]"));
    let size = &inner.as_map().unwrap()["size"].node;
    assert_eq!(quoted(text, size.span), "{ run: 860, depth: x y }");
    assert_eq!(quoted(text, size.as_map().unwrap()["depth"].node.span), "x y");
    let list = &inner.as_map().unwrap()["list"].node;
    assert_eq!(quoted(text, list.span), "1\n  - [2, 3]");
}

#[test]
fn duplicate_keys_point_at_both() {
    let text = "a: 1\nb: 2\na: 3\n";
    let (node, errors) = read(text);
    assert_eq!(errors.len(), 1);
    assert_eq!(errors[0].message, "the key `a` is written twice");
    assert_eq!((errors[0].span.start, errors[0].notes[0].span.start), (10, 0));
    assert_eq!(node.unwrap().as_map().unwrap()["a"].node.value, NodeValue::Int(1));
}

#[test]
fn what_is_not_part_of_the_language() {
    assert_eq!(error("a: !t x\n"), ("the tag `!t` is not part of the language".into(), "!t".into()));
    assert_eq!(error("a: 1\n---\nb: 2\n").0, "a second document begins here");
    assert_eq!(error("? [a]\n: b\n"), ("a list or map stands where a key is wanted".into(), "[".into()));
    assert_eq!(error(": x\n").0, "a key is missing before the colon");
    assert_eq!(error("%YAML 1.2\n---\na: 1\n").0, "`%` lines are not part of the language");
    for empty in ["", "# only a note\n", "---\n", "~\n"] {
        assert_eq!(error(empty).0, "the file is empty");
    }
}

#[test]
fn characters_that_hide() {
    assert_eq!(error("a: x\u{202e}y\n").0, "the character U+202E turns the direction of the text around it");
    assert_eq!(error("a: x\u{7}y\n"), ("the character U+0007 is a control character".into(), "\u{7}".into()));
    assert_eq!(error("a: \"x\\ay\"\n"), ("this text has the character U+0007 in it".into(), "\"x\\ay\"".into()));
    assert_eq!(error("a: \"x\\ny\"\n").0, "this text has a line end in it");
    assert_eq!(error("a: 1\rb: 2\n").0, "the character U+000D is a line end of another kind");
    assert_eq!(good("a: 1\r\nb: 2\r\n").as_map().unwrap().len(), 2);
    assert_eq!(value("|\n  x\n  y\tz"), NodeValue::Text("x\ny\tz\n".into(), true));
    assert_eq!(good("\u{feff}a: 1\n").as_map().unwrap().len(), 1);
}

#[test]
fn syntax_in_plain_words_at_the_place() {
    let cases = [
        ("a: [1, 2\n", "this `[` is never closed", "["),
        ("a: {b: 1\n", "this `{` is never closed", "{"),
        ("a: 'x\nb: 3\n", "this quote is never closed", "'"),
        ("a: b: c\n", "a second `: ` stands in one value", ":"),
        ("a: 1\n  b: 2\n", "a second `: ` stands in one value", ":"),
        ("a:\n  b: 1\n c: 2\n", "this line does not fit under the lines above", "c"),
        ("é: 1\n\tb: 2\n", "a tab is used to indent", "1"),
        ("a:\n\t- b\n", "a tab is used to indent", "-"),
        ("a:\n \tb: 1\n", "a tab is used to indent", "\t"),
        ("\ta: 1\n", "a tab is used to indent", "\t"),
        ("-\ta: 1\n", "a tab is used to indent", "\t"),
        ("a: &b[1]\n", "a space is missing after the `&name`", "["),
        ("a: [?, 1]\n", "a lone `?` is no value", "?"),
        ("a: @x\n", "a value can't begin with `@`", "@"),
        ("é: %x\n", "a value can't begin with `%`", "%"),
        ("a: *x\n", "this `*name` refers to nothing above", "*"),
        ("a: 1\nb\nc: 2\n", "this line has no `key: value`", "b"),
        ("{a: 1}}\n", "this bracket closes nothing", "}"),
        ("a: [1, 2\nb: 3\n", "this colon stands inside brackets where no key can be", ":"),
        ("- a\nb: 1\n", "a `- ` is missing in this list", "b"),
        ("a: { b: c d: e }\n", "between `{` and `}` a comma is missing", ":"),
    ];
    for (text, message, place) in cases {
        assert_eq!(error(text), (message.to_owned(), place.to_owned()), "{text:?}");
    }
}

#[test]
fn repeated_values() {
    let root = good("a: &x { b: 1 }\nc: *x\n");
    assert_eq!(root.as_map().unwrap()["a"].node, root.as_map().unwrap()["c"].node);
    assert_eq!(good("&a b: *a\n").as_map().unwrap()["b"].node.value, plain("b"));
    assert_eq!(good("a: [&x [1], &y { b: 2 }]\n").as_map().unwrap().len(), 1);
    assert_eq!(error("a: &x [1, *x]\n").0, "this value repeats itself without end");
}

#[test]
fn bounds() {
    let mut bomb = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n".to_owned();
    for level in 1..10 {
        let before = level - 1;
        bomb += &format!("a{level}: &a{level} [{}]\n", vec![format!("*a{before}"); 9].join(", "));
    }
    assert_eq!(error(&bomb).0, "the file has more than 100000 values");
    for text in ["[".repeat(100_000), "- ".repeat(5_000), "{a: ".repeat(1_000)] {
        assert_eq!(read(&text).1[0].message, "lists and maps lie more than 64 deep");
    }
    assert!(read(&format!("a: {}1{}\n", "[".repeat(63), "]".repeat(63))).1.is_empty());
    assert!(!read(&format!("a: {}1{}\n", "[".repeat(64), "]".repeat(64))).1.is_empty());
    let long = format!("a: {}\n", "x".repeat(MOST_BYTES));
    assert!(read(&long).1[0].message.contains("at most 1048576 are read"));
}

fn spans_are_sound(text: &str, node: &Node) {
    assert!(text.get(node.span.start as usize..node.span.end as usize).is_some(), "{:?}", node.span);
    match &node.value {
        NodeValue::List(nodes) => nodes.iter().for_each(|node| spans_are_sound(text, node)),
        NodeValue::Map(map) => map.values().for_each(|entry| {
            assert!(text.get(entry.key_span.start as usize..entry.key_span.end as usize).is_some());
            spans_are_sound(text, &entry.node);
        }),
        _ => {}
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_text_gives_sound_spans(text in prop_oneof![
        any::<String>(),
        "[a-c:\\-\\[\\]{},&*!#'\"|> \n\t~0-9é]{0,60}",
        "([ ]{0,4}[a-d]: ?([a-z0-9+*]{0,4}|\\{ [a-c]: [0-9] \\})?\n){0,12}",
    ]) {
        let (node, errors) = read(&text);
        prop_assert!(node.is_some() || !errors.is_empty());
        if let Some(node) = node {
            spans_are_sound(&text, &node);
        }
        for error in errors {
            prop_assert!(text.get(error.span.start as usize..error.span.end as usize).is_some(), "{error:?}");
        }
    }
}

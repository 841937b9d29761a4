//! Tests of the terminal report: its exact text, and that no span can upset it.

use super::*;
use crate::diagnostic::{Bound, Limit, Measure, Quantity, Severity, Suggestion};
use proptest::prelude::*;

const TEXT: &str = "boxwright: 1\nmodules:\n  bed:\n    symbol: bed/lift\n    place: { reer: box.rear }   # é\n  höhe: { symbol: x/y }\n";

fn span(sources: &SourceMap, piece: &str) -> Span {
    let start = sources.file(FileId(0)).unwrap().text.find(piece).unwrap();
    Span { file: FileId(0), start: u32::try_from(start).unwrap(), end: u32::try_from(start + piece.len()).unwrap() }
}

fn map() -> SourceMap {
    let mut sources = SourceMap::default();
    sources.add("layouts/a.yaml".to_owned(), TEXT.to_owned());
    sources.add("symbols/b.yaml".to_owned(), "symbol: b\n".to_owned());
    sources
}

fn finding(sources: &SourceMap) -> Finding {
    let measure = |value| Measure { value, quantity: Quantity::Length };
    Finding {
        arrangements: vec!["day".to_owned(), "night".to_owned()],
        measured: Some(measure(412.46)),
        required: Some(Limit::practice("least", Bound::Least(450.0), Quantity::Length).requirement(None)),
        spans: vec![span(sources, "bed"), span(sources, "höhe")],
        suggestion: Some(Suggestion { words: "move `bed` 38 mm to the rear".to_owned(), edits: Vec::new() }),
        ..Finding::new("walkway", Severity::Fault, "bed", "the way to `bed` is 412.5 mm wide")
    }
}

#[test]
fn an_error_shows_its_place_and_help() {
    let sources = map();
    let mut sink = Sink::default();
    let error = Diagnostic::new(span(&sources, "reer"), "unknown key `reer` in `place`");
    sink.push(
        error
            .label("not known here")
            .note(Span { file: FileId(1), start: 0, end: 6 }, "used here")
            .help("did you mean `rear`?"),
    );
    assert_eq!(
        errors(&sink, &sources, false),
        "\
error: unknown key `reer` in `place`
 --> layouts/a.yaml:5:14
  |
5 |     place: { reer: box.rear }   # é
  |              ^^^^ not known here
  |
 ::: symbols/b.yaml:1:1
  |
1 | symbol: b
  | ------ used here
  |
  = help: did you mean `rear`?

"
    );
}

#[test]
fn a_finding_shows_figures_source_arrangements_and_change() {
    let sources = map();
    assert_eq!(
        findings(&[finding(&sources)], &sources, false),
        "\
fault[walkway]: the way to `bed` is 412.5 mm wide
 --> layouts/a.yaml:3:3
  |
3 |   bed:
  |   ^^^
...
6 |   höhe: { symbol: x/y }
  |   ----
  |
  = measured: 412.5 mm
  = required: 450 mm (common practice, no source)
  = in: day, night
  = suggestion: move `bed` 38 mm to the rear

"
    );
}

#[test]
fn an_accepted_finding_is_short() {
    let sources = map();
    let accepted = Finding { accepted: Some("owner asked for it".to_owned()), ..finding(&sources) };
    let text = findings(&[accepted], &sources, false);
    assert_eq!(text, "accepted[walkway]: the way to `bed` is 412.5 mm wide\n |\n = because: owner asked for it\n\n");
}

#[test]
fn colour_adds_escapes_and_plain_has_none() {
    let sources = map();
    assert!(findings(&[finding(&sources)], &sources, true).contains('\u{1b}'));
    assert!(!findings(&[finding(&sources)], &sources, false).contains('\u{1b}'));
}

#[test]
fn escapes_of_the_input_do_not_reach_the_terminal() {
    let mut sources = SourceMap::default();
    sources.add("a\u{1b}[31m.yaml".to_owned(), "a: \u{1b}[31mred\n".to_owned());
    let mut sink = Sink::default();
    sink.push(Diagnostic::new(Span::default(), "x\u{1b}[31m").label("\u{1b}[31m").help("\u{1b}[31m"));
    let text = errors(&sink, &sources, false);
    assert!(!text.contains('\u{1b}'), "{text:?}");
}

#[test]
fn a_span_over_several_lines_shows_the_first() {
    let sources = map();
    let mut sink = Sink::default();
    sink.push(Diagnostic::new(span(&sources, "symbol: bed/lift\n    place: { reer"), "two lines"));
    assert!(
        errors(&sink, &sources, false).contains("   |     ^^^^^^^^^^^^^^^^\n")
            || errors(&sink, &sources, false).contains("|     ^^^^^^^^^^^^^^^^\n")
    );
}

proptest! {
    #[test]
    fn no_span_upsets_the_report(
        text in prop_oneof![any::<String>(), "[a-zé\n\r\t 漢]{0,30}"],
        spans in prop::collection::vec((0_u32..3, 0_u32..60, 0_u32..60), 1..4),
        colour in any::<bool>(),
    ) {
        let mut sources = SourceMap::default();
        sources.add("a.yaml".to_owned(), text.clone());
        sources.add("b.yaml".to_owned(), String::new());
        let span = |(file, start, end): &(u32, u32, u32)| Span { file: FileId(*file), start: *start, end: *end };
        let mut error = Diagnostic::new(span(&spans[0]), text.clone()).label(text.clone()).help(text.clone());
        for place in &spans {
            error = error.note(span(place), text.clone());
        }
        let mut sink = Sink::default();
        sink.push(error);
        prop_assert!(!errors(&sink, &sources, colour).is_empty());
        let odd = Finding { spans: spans.iter().map(span).collect(), ..finding(&map()) };
        prop_assert!(!findings(&[odd], &sources, colour).is_empty());
    }

    #[test]
    fn ranges_are_whole_characters_of_one_line(text in any::<String>(), start in any::<u32>(), end in any::<u32>(), near in 0_u32..40) {
        for (start, end) in [(start, end), (near, near.saturating_add(end % 40))] {
            let range = sound_range(&text, Span { file: FileId(0), start, end });
            let piece = text.get(range);
            prop_assert!(piece.is_some_and(|piece| !piece.contains('\n')));
        }
    }
}

//! One entry more in the `accepted` of a layout's text; everything else in it stays as it is.

use super::node::{Node, NodeValue};
use super::yaml::parse;
use crate::diagnostic::Sink;
use crate::source::FileId;

/// The text with an entry, a flow map, behind those that are there; `None` where the text is written in a way that has no
/// plain place for it.
#[must_use]
pub fn add_accepted(text: &str, entry: &str) -> Option<String> {
    let root = parse(FileId(0), text, &mut Sink::default())?;
    let end = if text.contains("\r\n") { "\r\n" } else { "\n" };
    let Some(found) = root.as_map()?.get("accepted") else {
        let gap = if text.ends_with('\n') { "" } else { end };
        return Some(format!("{text}{gap}{end}accepted:{end}  - {entry}{end}"));
    };
    let (at, added) = match &found.node.value {
        NodeValue::Null if found.node.span.start == found.node.span.end => {
            (line_end(text, found.key_span.end as usize)?, format!("{end}  - {entry}"))
        }
        NodeValue::List(entries) => behind(text, &found.node, entries.last()?, (entry, end))?,
        _ => return None,
    };
    Some(format!("{}{added}{}", text.get(..at)?, text.get(at..)?))
}

/// Where the entry goes behind the last one of a list, and what is put there.
fn behind(text: &str, list: &Node, last: &Node, (entry, end): (&str, &str)) -> Option<(usize, String)> {
    let (start, stop) = (last.span.start as usize, last.span.end as usize);
    let stop = start + text.get(start..stop)?.trim_end().len();
    if text.get(list.span.start as usize..)?.starts_with('[') {
        return Some((stop, format!(", {entry}")));
    }
    let line = text.get(..start)?.rfind('\n').map_or(0, |at| at + 1);
    let before = text.get(line..start)?;
    let dash = before.find('-').filter(|at| before.get(..*at).is_some_and(|blank| blank.trim().is_empty()))?;
    Some((line_end(text, stop)?, format!("{end}{}- {entry}", before.get(..dash)?)))
}

/// The end of the line that a place is in.
fn line_end(text: &str, at: usize) -> Option<usize> {
    let rest = text.get(at..)?;
    let line = rest.find('\n').map_or(rest, |end| rest.get(..end).unwrap_or(rest));
    Some(at + line.strip_suffix('\r').unwrap_or(line).len())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The text with an entry, and whether it reads as what it said with the entry behind it.
    fn added(text: &str) -> Option<String> {
        let entries = |text: &str| {
            let root = parse(FileId(0), text, &mut Sink::default()).unwrap();
            let map = root.as_map().unwrap();
            let count = map.get("accepted").map_or(0, |found| match &found.node.value {
                NodeValue::List(entries) => entries.len(),
                _ => 0,
            });
            (map.len() - usize::from(map.contains_key("accepted")), count)
        };
        let made = add_accepted(text, "{ of: new }")?;
        let (before, after) = (entries(text), entries(&made));
        assert_eq!((before.0, before.1 + 1), after, "{made}");
        Some(made)
    }

    #[test]
    fn an_entry_is_put_behind_the_others() {
        let cases = [
            ("a: 1\n", "a: 1\n\naccepted:\n  - { of: new }\n"),
            ("a: 1", "a: 1\n\naccepted:\n  - { of: new }\n"),
            ("a: 1\r\n", "a: 1\r\n\r\naccepted:\r\n  - { of: new }\r\n"),
            (
                "accepted:\n- { of: é } # why\n# rest\nb: 2\n",
                "accepted:\n- { of: é } # why\n- { of: new }\n# rest\nb: 2\n",
            ),
            (
                "accepted:\n  - of: a\n    because: long\n      text # x\n\nb: 2\n",
                "accepted:\n  - of: a\n    because: long\n      text # x\n  - { of: new }\n\nb: 2\n",
            ),
            ("accepted:\r\n  - { of: a }\r\nb: 2\r\n", "accepted:\r\n  - { of: a }\r\n  - { of: new }\r\nb: 2\r\n"),
            ("accepted: [{ of: a }] # x\n", "accepted: [{ of: a }, { of: new }] # x\n"),
            ("accepted: # none yet\nb: 2\n", "accepted: # none yet\n  - { of: new }\nb: 2\n"),
        ];
        for (text, wanted) in cases {
            assert_eq!(added(text).as_deref(), Some(wanted), "{text:?}");
        }
    }

    #[test]
    fn what_has_no_plain_place_is_left() {
        for text in ["accepted: null\n", "accepted: ~\n", "accepted: 5\n", "accepted: []\n", "- 1\n", "", "a: [\n"] {
            assert_eq!(added(text), None, "{text:?}");
        }
    }
}

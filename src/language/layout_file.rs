//! Reads a layout file with everything it extends, and its theme.

use super::layout::LayoutDoc;
use super::lower_layout::{BaseDoc, extends, lower};
use super::node::{Entry, Map, Node, NodeValue};
use super::path::{folder_of, follow};
use super::reader::Reader;
use super::rule_files::read_rules;
use super::theme::read_theme;
use super::turn::Turn;
use super::yaml;
use crate::diagnostic::{Diagnostic, Sink};
use crate::source::{SourceMap, Span, Spanned, World};

/// Greatest count of files that extend each other.
const MOST_BASES: usize = 16;

/// Reads the layout at `path`.
///
/// Follows `extends`, which may leave the layout's folder only with `allow_outside`. Returns what could be read; when
/// the sink has errors after it, entries with mistakes are missing from the document and named in its `broken`.
pub fn read_layout(
    world: &dyn World,
    path: &str,
    allow_outside: bool,
    sources: &mut SourceMap,
    sink: &mut Sink,
) -> Option<LayoutDoc> {
    let (mut chain, mut turns) = (Vec::new(), Vec::new());
    let mut next = Some((path.to_owned(), None));
    while let Some((path, from)) = next {
        let node = read_file(world, &path, from, sources, sink)?;
        let base = base_of(&node, sources, sink)?;
        let (base, turn) = base.map_or((None, Turn::default()), |base| (Some(base.file), base.turn));
        chain.push((path, node));
        turns.push(turn);
        next = match base {
            Some(base) => Some((base_path(&base, &chain, allow_outside, sink)?, Some(base.span))),
            None => None,
        };
    }
    let (_, mut root) = chain.pop()?;
    turns.pop();
    while let Some(((_, over), turn)) = chain.pop().zip(turns.pop()) {
        if turn.any() {
            turn.layout(&mut root);
        }
        root = merge(root, over, sink);
    }
    let mut doc = lower(&root, sources, sink)?;
    read_rules(world, path, allow_outside, &mut doc, (sources, sink));
    let named = doc.sheets.theme.as_ref();
    doc.sheets.look = read_theme(world, path, named, allow_outside, (sources, sink));
    Some(doc)
}

fn read_file(
    world: &dyn World,
    path: &str,
    from: Option<Span>,
    sources: &mut SourceMap,
    sink: &mut Sink,
) -> Option<Node> {
    let text = match world.read(path) {
        Ok(text) => text,
        Err(why) => {
            let place =
                from.unwrap_or_else(|| Span { file: sources.add(path.to_owned(), String::new()), start: 0, end: 0 });
            let error = Diagnostic::new(place, format!("`{path}` can't be read: {why}"));
            sink.push(error.help("check the file's name and folder"));
            return None;
        }
    };
    let file = sources.add(path.to_owned(), text.clone());
    let node = yaml::parse(file, &text, sink)?;
    check_version(&node, sink).then_some(node)
}

fn check_version(node: &Node, sink: &mut Sink) -> bool {
    let Some(map) = node.as_map() else {
        let error = Diagnostic::new(node.span, format!("a layout is a map of keys, and the file is {}", node.kind()));
        sink.push(error.help("begin with `boxwright: 1` and `title: ...`"));
        return false;
    };
    match map.get("boxwright") {
        Some(Entry { node: Node { value: NodeValue::Int(1), .. }, .. }) => true,
        Some(entry) => {
            let version = match entry.node.value {
                NodeValue::Int(version) => format!("version {version} of the language is not known"),
                _ => format!("`boxwright` needs the version of the language, and {} stands here", entry.node.kind()),
            };
            let error = Diagnostic::new(entry.node.span, version);
            sink.push(error.help("write `boxwright: 1`"));
            false
        }
        None => {
            let first = map.values().next().map_or(node.span, |entry| entry.key_span);
            let error = Diagnostic::new(first, "the file does not begin with `boxwright: 1`");
            let help = if map.contains_key("symbol") {
                "this is a symbol; name the layout that uses it"
            } else {
                "write `boxwright: 1` in its first line"
            };
            sink.push(error.help(help));
            false
        }
    }
}

/// What a layout says of the one that it extends, if it does; `None` where that can't be read.
#[allow(clippy::option_option, reason = "nothing written is no mistake")]
fn base_of(node: &Node, sources: &SourceMap, sink: &mut Sink) -> Option<Option<BaseDoc>> {
    match node.as_map().and_then(|map| map.get("extends")) {
        Some(entry) => extends(&mut Reader::new(sources, sink), &entry.node).map(Some),
        None => Some(None),
    }
}

fn base_path(base: &Spanned<String>, chain: &[(String, Node)], allow_outside: bool, sink: &mut Sink) -> Option<String> {
    let (root, from) = (chain.first()?.0.as_str(), chain.last()?.0.as_str());
    let path = match follow(folder_of(root), folder_of(from), &base.value, allow_outside) {
        Ok(path) => path,
        Err(why) => {
            sink.push(
                Diagnostic::new(base.span, format!("`extends` {why}")).help("keep the files of a layout in its folder"),
            );
            return None;
        }
    };
    if chain.iter().any(|(known, _)| *known == path) {
        let mut files: Vec<&str> = chain.iter().map(|(known, _)| known.as_str()).collect();
        files.push(&path);
        let error =
            Diagnostic::new(base.span, format!("these layouts extend each other in a circle: {}", files.join(" → ")));
        sink.push(error.help("one of them has to stand without `extends`"));
        return None;
    }
    if chain.len() > MOST_BASES {
        let error = Diagnostic::new(base.span, format!("more than {MOST_BASES} layouts extend each other"));
        sink.push(error.help("merge some of them"));
        return None;
    }
    Some(path)
}

/// Lays `over` on `base`: maps key by key, `null` removes, anything else replaces. The depth is bounded by the reader's.
fn merge(base: Node, over: Node, sink: &mut Sink) -> Node {
    let span = over.span;
    match (base.value, over.value) {
        (NodeValue::Map(base), NodeValue::Map(over)) => Node::new(NodeValue::Map(merge_maps(base, over, sink)), span),
        (_, value) => Node::new(value, span),
    }
}

fn merge_maps(mut base: Map, over: Map, sink: &mut Sink) -> Map {
    for (key, entry) in over {
        match base.get_mut(&key) {
            Some(_) if entry.node.is_null() => {
                base.shift_remove(&key);
            }
            Some(slot) => {
                let old = std::mem::replace(&mut slot.node, Node::new(NodeValue::Null, entry.key_span));
                *slot = Entry { key_span: entry.key_span, node: merge(old, entry.node, sink) };
            }
            None if entry.node.is_null() => {
                let error = Diagnostic::new(entry.key_span, format!("there is no `{key}` in the base to remove"));
                let help = format!("check the name; to add an entry without keys, write `{key}: {{}}`");
                sink.push(error.help(help));
            }
            None => {
                base.insert(key, entry);
            }
        }
    }
    base
}

#[cfg(test)]
mod tests;

//! YAML 1.2 text to a tree of nodes in which every value and key keeps its byte range.
//!
//! No recursion on the input; size, depth and count of nodes are bounded. Tags, several documents, duplicate keys,
//! keys that are lists or maps, and control characters are errors with their place.

mod scalar;
mod strict;
mod syntax;
#[cfg(test)]
mod tests;

use super::node::{Entry, Map, Node, NodeValue};
use crate::diagnostic::{Diagnostic, Sink};
use crate::source::{FileId, Span};
use granit_parser::{Event, Parser, ScalarStyle, StructureStyle};
use indexmap::map::Entry as Slot;
use std::collections::BTreeMap;

/// Greatest size of a file in bytes.
pub const MOST_BYTES: usize = 1 << 20;
/// Greatest count of nodes, repeated ones counted each time.
pub const MOST_NODES: usize = 100_000;
/// Greatest depth of lists and maps in each other.
pub const MOST_DEPTH: usize = 64;

/// Reads a file's text. Returns nothing when the text can't be read as YAML or is empty; the reasons go to the sink.
/// Smaller mistakes (a duplicate key, a tag) are reported too, but still give a tree.
pub fn parse(file: FileId, text: &str, sink: &mut Sink) -> Option<Node> {
    let whole = Span { file, start: 0, end: u32::try_from(text.len()).unwrap_or(u32::MAX) };
    if text.len() > MOST_BYTES {
        let message = format!("the file has {} bytes; at most {MOST_BYTES} are read", text.len());
        sink.push(Diagnostic::new(whole.part(0, 1), message).help("split it, or check that it is the right file"));
        return None;
    }
    if !characters_are_sound(text, whole, sink) {
        return None;
    }
    let mut builder = Builder { text, whole, sink, open: Vec::new(), root: None, anchors: BTreeMap::new(), nodes: 0 };
    if let Err(error) = builder.read() {
        builder.sink.push(error);
        return None;
    }
    match builder.root.take() {
        Some(root) if !root.is_null() => Some(root),
        _ => {
            sink.push(
                Diagnostic::new(whole.part(text.len(), text.len()), "the file is empty")
                    .help("begin with `boxwright: 1` or `symbol: group/name`"),
            );
            None
        }
    }
}

fn characters_are_sound(text: &str, whole: Span, sink: &mut Sink) -> bool {
    let mut found = 0;
    let mut characters = text.char_indices().peekable();
    while let Some((at, character)) = characters.next() {
        let lone_return = character == '\r' && characters.peek().is_none_or(|(_, next)| *next != '\n');
        let why = if lone_return { Some("is a line end of another kind") } else { scalar::refused(character) };
        if let Some(why) = why {
            found += 1;
            if found > 5 {
                break;
            }
            let message = format!("the character U+{:04X} {why}", u32::from(character));
            sink.push(Diagnostic::new(whole.part(at, at + character.len_utf8()), message).help("remove it"));
        }
    }
    found == 0
}

/// A node with the count of nodes in it.
type Sized = (Node, usize);

struct Open {
    content: Content,
    span: Span,
    flow: bool,
    anchor: usize,
    nodes: usize,
}

enum Content {
    List(Vec<Node>),
    Map { entries: Map, key: Option<(String, Span)> },
}

struct Builder<'a> {
    text: &'a str,
    whole: Span,
    sink: &'a mut Sink,
    open: Vec<Open>,
    root: Option<Node>,
    anchors: BTreeMap<usize, Sized>,
    nodes: usize,
}

type Step = Result<(), Diagnostic>;

impl<'a> Builder<'a> {
    fn read(&mut self) -> Step {
        let options = granit_parser::options! {
            disallow_directives: true,
            flow_nesting_limit: MOST_DEPTH,
            block_nesting_limit: MOST_DEPTH,
        };
        let mut documents = 0;
        for item in Parser::new_from_str_with_options(self.text, options) {
            let (event, place) = item.map_err(|error| {
                let at = error.marker().byte_offset().unwrap_or(self.text.len());
                syntax::diagnostic(error.kind(), self.one_character(at))
            })?;
            let span = self.span(&place);
            if let (true, Some(tag)) = (event.tag().is_some(), place.tag_span()) {
                let message = format!("the tag `{}` is not part of the language", tag.slice(self.text).unwrap_or("!"));
                self.sink.push(Diagnostic::new(self.span(&tag), message).help("remove it; texts may be put in quotes"));
            }
            match event {
                Event::DocumentStart(..) => {
                    documents += 1;
                    if documents > 1 {
                        let error = Diagnostic::new(span, "a second document begins here");
                        return Err(error.help("one file holds one layout or one symbol; remove the `---`"));
                    }
                }
                Event::Scalar(value, style, anchor, _) => self.scalar(&value, style, anchor, span)?,
                Event::Alias(id) => self.alias(id, span)?,
                Event::SequenceStart(style, anchor, _) => self.begin(Content::List(Vec::new()), style, anchor, span)?,
                Event::MappingStart(style, anchor, _) => {
                    self.begin(Content::Map { entries: Map::new(), key: None }, style, anchor, span)?;
                }
                Event::SequenceEnd | Event::MappingEnd => self.end(span)?,
                _ => {}
            }
        }
        Ok(())
    }

    fn span(&self, place: &granit_parser::Span) -> Span {
        place.byte_range().map_or(self.whole, |range| self.whole.part(range.start, range.end))
    }

    fn one_character(&self, at: usize) -> Span {
        let width = self.text.get(at..).and_then(|rest| rest.chars().next()).map_or(0, char::len_utf8);
        self.whole.part(at, at + width)
    }

    /// Whether the next node of the innermost map is a key.
    fn wants_key(&self) -> bool {
        matches!(self.open.last(), Some(Open { content: Content::Map { key: None, .. }, .. }))
    }

    fn begin(&mut self, content: Content, style: StructureStyle, anchor: usize, span: Span) -> Step {
        if self.wants_key() {
            let error = Diagnostic::new(span, "a list or map stands where a key is wanted");
            return Err(error.help("a key is a plain word before a colon; is a value missing above?"));
        }
        if self.open.len() >= MOST_DEPTH {
            return Err(syntax::diagnostic(&granit_parser::ErrorKind::RecursionLimitExceeded, span));
        }
        strict::collection(self.text, span, style, anchor != 0)?;
        self.count(1, span)?;
        self.open.push(Open { content, span, flow: style == StructureStyle::Flow, anchor, nodes: 1 });
        Ok(())
    }

    fn end(&mut self, place: Span) -> Step {
        let Some(open) = self.open.pop() else { return Ok(()) };
        let mut span = open.span;
        let (value, last) = match open.content {
            Content::List(nodes) => {
                let last = nodes.last().map(|node| node.span.end);
                (NodeValue::List(nodes), last)
            }
            Content::Map { entries, .. } => {
                let last = entries.last().map(|(_, entry)| entry.node.span.end.max(entry.key_span.end));
                (NodeValue::Map(entries), last)
            }
        };
        let last = if open.flow { Some(place.end) } else { last };
        span.end = last.unwrap_or(span.end).max(span.end);
        self.take((Node::new(value, span), open.nodes), open.anchor)
    }

    fn scalar(&mut self, value: &str, style: ScalarStyle, anchor: usize, span: Span) -> Step {
        self.check_characters(value, style, span);
        if self.open.last().is_some_and(|open| open.flow) && style == ScalarStyle::Plain {
            strict::plain_in_brackets(self.text, value, span)?;
        }
        if self.wants_key() {
            if anchor != 0 {
                let node = Node::new(self.resolve(value, style, span), span);
                self.anchors.insert(anchor, (node, 1));
            }
            return self.key(value.to_owned(), span);
        }
        let value = self.resolve(value, style, span);
        self.count(1, span)?;
        self.take((Node::new(value, span), 1), anchor)
    }

    fn resolve(&mut self, value: &str, style: ScalarStyle, span: Span) -> NodeValue {
        if style != ScalarStyle::Plain {
            return NodeValue::Text(value.to_owned(), true);
        }
        scalar::resolve(value).unwrap_or_else(|message| {
            self.sink.push(Diagnostic::new(span, message).help("write a plain number, for example `620`"));
            NodeValue::Refused
        })
    }

    fn check_characters(&mut self, value: &str, style: ScalarStyle, span: Span) {
        let block = matches!(style, ScalarStyle::Literal | ScalarStyle::Folded);
        let bad = value.chars().find(|character| {
            scalar::refused(*character).is_some() || (!block && matches!(character, '\n' | '\r' | '\t'))
        });
        if let Some(character) = bad {
            let name = match character {
                '\n' => "a line end".to_owned(),
                '\t' => "a tab".to_owned(),
                _ => format!("the character U+{:04X}", u32::from(character)),
            };
            let error = Diagnostic::new(span, format!("this text has {name} in it"));
            self.sink.push(error.help("keep the text on one line, without invisible characters"));
        }
    }

    fn alias(&mut self, id: usize, span: Span) -> Step {
        let Some((node, nodes)) = self.anchors.get(&id).cloned() else {
            let error = Diagnostic::new(span, "this value repeats itself without end");
            return Err(error.help("`*name` may not stand inside the value marked `&name`"));
        };
        if !self.wants_key() {
            self.count(nodes, span)?;
            return self.take((node, nodes), 0);
        }
        match node.value {
            NodeValue::Text(text, _) => self.key(text, span),
            _ => Err(Diagnostic::new(span, "a repeated value can't be a key").help("write the key itself")),
        }
    }

    fn key(&mut self, name: String, span: Span) -> Step {
        if name.is_empty() || span.start == span.end {
            return Err(Diagnostic::new(span, "a key is missing before the colon").help("write a name before `:`"));
        }
        if let Some(Open { content: Content::Map { key, .. }, .. }) = self.open.last_mut() {
            *key = Some((name, span));
        }
        Ok(())
    }

    fn count(&mut self, more: usize, span: Span) -> Step {
        self.nodes += more;
        if self.nodes <= MOST_NODES {
            return Ok(());
        }
        let error = Diagnostic::new(span, format!("the file has more than {MOST_NODES} values"));
        Err(error.help("are values repeated with `*name` inside each other?"))
    }

    /// Puts a finished node where it belongs.
    fn take(&mut self, (node, nodes): Sized, anchor: usize) -> Step {
        if anchor != 0 {
            self.count(nodes, node.span)?;
            self.anchors.insert(anchor, (node.clone(), nodes));
        }
        let Some(open) = self.open.last_mut() else {
            self.root = Some(node);
            return Ok(());
        };
        open.nodes += nodes;
        match &mut open.content {
            Content::List(list) => list.push(node),
            Content::Map { entries, key } => {
                if let Some((name, key_span)) = key.take() {
                    insert(entries, name, Entry { key_span, node }, self.sink);
                }
            }
        }
        Ok(())
    }
}

fn insert(entries: &mut Map, name: String, entry: Entry, sink: &mut Sink) {
    match entries.entry(name) {
        Slot::Vacant(slot) => {
            slot.insert(entry);
        }
        Slot::Occupied(slot) => {
            let error = Diagnostic::new(entry.key_span, format!("the key `{}` is written twice", slot.key()));
            let error = error.label("again here").note(slot.get().key_span, "first here");
            sink.push(error.help("keep one of them, or give one another name"));
        }
    }
}

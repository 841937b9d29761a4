//! Reads nodes as what the languages want: words, numbers, lists and maps with known keys. Every mistake goes to the
//! sink with its place; nothing is silently dropped.

#[cfg(test)]
mod heard;
mod own;
mod values;
mod words;

#[cfg(test)]
pub(super) use heard::take as heard;
pub(super) use own::{MOST_OWN, Own};

use super::named::Named;
use super::node::{Map, Node, NodeValue};
use crate::base::text::{nearest, one_of};
use crate::diagnostic::{Diagnostic, Sink};
use crate::language::expression::{is_check_name, is_name};
use crate::model::Word;
use crate::source::{SourceMap, Span, Spanned};
use std::collections::BTreeSet;

/// Longest list of allowed names that a message prints.
const SHORT_LIST: usize = 12;
/// Longest name, in characters.
const LONGEST_NAME: usize = 60;

/// Reads nodes of any file of the source map.
pub(super) struct Reader<'a> {
    sources: &'a SourceMap,
    sink: &'a mut Sink,
    failures: usize,
    broken: Vec<String>,
    named: BTreeSet<String>,
    subject: String,
}

/// A map that is being read key by key. Keys that were never asked for are errors when it is closed.
pub(super) struct Fields<'n> {
    owner: String,
    span: Span,
    map: &'n Map,
    asked: Vec<&'static str>,
    absent: Vec<&'static str>,
}

impl<'a> Reader<'a> {
    pub(super) fn new(sources: &'a SourceMap, sink: &'a mut Sink) -> Self {
        Self { sources, sink, failures: 0, broken: Vec::new(), named: BTreeSet::new(), subject: "this".to_owned() }
    }

    /// Takes an error.
    pub(super) fn error(&mut self, error: Diagnostic) {
        self.failures += 1;
        self.sink.push(error);
    }

    /// How many errors have come so far.
    pub(super) fn failures(&self) -> usize {
        self.failures
    }

    /// Names of the entries that could not be read, so that nobody complains about references to them; and all names that
    /// expressions have.
    pub(super) fn into_names(self) -> (Vec<String>, BTreeSet<String>) {
        (self.broken, self.named)
    }

    /// Opens a map. `owner` is what it belongs to, as named in messages.
    pub(super) fn fields<'n>(&mut self, node: &'n Node, owner: &str) -> Option<Fields<'n>> {
        match &node.value {
            NodeValue::Map(map) => {
                Some(Fields { owner: owner.to_owned(), span: node.span, map, asked: Vec::new(), absent: Vec::new() })
            }
            _ => {
                self.expected(
                    node,
                    &format!("{owner} needs a map of keys"),
                    "write `{ key: value, ... }`, or keys on indented lines below",
                );
                None
            }
        }
    }

    /// "This needs that, and something else stands here". A node that was refused already is passed over.
    pub(super) fn expected(&mut self, node: &Node, wanted: &str, help: &str) {
        if node.value == NodeValue::Refused {
            self.failures += 1;
            return;
        }
        let message = format!("{wanted}, and {} stands here", node.kind());
        self.error(Diagnostic::new(node.span, message).label(format!("this is {}", node.kind())).help(help));
    }

    /// "`key` needs that, and something else stands here", with the key that is being read.
    pub(super) fn unfit(&mut self, node: &Node, wanted: &str, help: &str) {
        let wanted = format!("{} needs {wanted}", self.subject);
        self.expected(node, &wanted, help);
    }

    /// What is being read, for messages: a key in backquotes.
    pub(super) fn subject(&self) -> &str {
        &self.subject
    }

    /// Reads with another subject of messages.
    fn about<T>(&mut self, key: &str, read: impl FnOnce(&mut Self) -> T) -> T {
        let outer = std::mem::replace(&mut self.subject, format!("`{key}`"));
        let value = read(self);
        self.subject = outer;
        value
    }

    /// Named entries, each read by `read`. An entry with any mistake is left out and remembered as broken. Nothing
    /// written counts as no entries.
    pub(super) fn named<T>(
        &mut self,
        node: &Node,
        owner: &str,
        read: impl FnMut(&mut Self, &str, &Node) -> Option<T>,
    ) -> Named<T> {
        self.entries(node, owner, is_name, read)
    }

    /// The same, named by names of checks.
    pub(super) fn by_check<T>(
        &mut self,
        node: &Node,
        owner: &str,
        read: impl FnMut(&mut Self, &str, &Node) -> Option<T>,
    ) -> Named<T> {
        self.entries(node, owner, is_check_name, read)
    }

    fn entries<T>(
        &mut self,
        node: &Node,
        owner: &str,
        fits: fn(&str) -> bool,
        mut read: impl FnMut(&mut Self, &str, &Node) -> Option<T>,
    ) -> Named<T> {
        let mut named = Named::new();
        if node.is_null() {
            return named;
        }
        let NodeValue::Map(map) = &node.value else {
            self.expected(
                node,
                &format!("{owner} needs names with values"),
                "write `name: value` on indented lines below",
            );
            return named;
        };
        for (name, entry) in map {
            let before = self.failures;
            self.check_name(name, fits, entry.key_span);
            let value = self.about(name, |reader| read(reader, name, &entry.node));
            match value.filter(|_| self.failures == before) {
                Some(value) => {
                    named.insert(name.clone(), Spanned::new(value, entry.key_span));
                }
                None => self.broken.push(name.clone()),
            }
        }
        named
    }

    /// Refuses a section with more than `most` entries; nobody complains about references to them either.
    pub(super) fn refuse_many(&mut self, node: &Node, key: &str, most: usize) -> bool {
        let Some(map) = node.as_map() else { return false };
        let Some((_, first)) = map.get_index(most) else { return false };
        let message = format!("`{key}` has {} entries; at most {most} are allowed", map.len());
        let error = Diagnostic::new(first.key_span, message).label("one too many");
        self.error(error.help("leave some out, or make two files"));
        self.broken.extend(map.keys().cloned());
        true
    }

    fn check_name(&mut self, name: &str, fits: fn(&str) -> bool, span: Span) {
        let length = name.chars().count();
        if length > LONGEST_NAME {
            let message = format!("a name of {length} characters; at most {LONGEST_NAME} are allowed");
            self.error(Diagnostic::new(span, message).help("give it a shorter one"));
            return;
        }
        if fits(name) {
            return;
        }
        let error = Diagnostic::new(span, format!("`{name}` can't be a name"));
        let help = if name.contains(':') {
            "a space is missing after the colon".to_owned()
        } else {
            let plain: String = name.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
            let plain = plain.trim_matches(|c: char| !c.is_alphabetic());
            let rule = "a name is a letter, then letters, digits and hyphens";
            if is_name(plain) { format!("{rule}: `{plain}`") } else { rule.to_owned() }
        };
        self.error(error.help(help));
    }

    /// The entries of a list, each read by `read`; those with mistakes are left out. Nothing written is an empty list.
    pub(super) fn list<T>(
        &mut self,
        node: &Node,
        owner: &str,
        mut read: impl FnMut(&mut Self, &Node) -> Option<T>,
    ) -> Vec<Spanned<T>> {
        match &node.value {
            NodeValue::Null => Vec::new(),
            NodeValue::List(nodes) => {
                let mut good = Vec::new();
                for node in nodes {
                    let before = self.failures;
                    let value = read(self, node).filter(|_| self.failures == before);
                    good.extend(value.map(|value| Spanned::new(value, node.span)));
                }
                good
            }
            _ => {
                self.expected(
                    node,
                    &format!("{owner} needs a list"),
                    "write `[a, b]`, or entries with `- ` on indented lines below",
                );
                Vec::new()
            }
        }
    }
}

impl<'n> Fields<'n> {
    /// The node of a key, if it is written. A key without a value is an error.
    pub(super) fn node(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<&'n Node> {
        let node = self.section(key)?;
        if node.is_null() {
            let error = Diagnostic::new(self.key_span(key), format!("`{key}` in {} has no value", self.owner));
            reader.error(error.help("write a value after the colon, or remove the key"));
            return None;
        }
        Some(node)
    }

    /// The node of a key that may be left empty.
    pub(super) fn section(&mut self, key: &'static str) -> Option<&'n Node> {
        self.asked.push(key);
        self.map.get(key).map(|entry| &entry.node)
    }

    /// Whether a key is written.
    pub(super) fn has(&self, key: &str) -> bool {
        self.map.contains_key(key)
    }

    /// Where a key is written, else where the map is.
    pub(super) fn key_span(&self, key: &str) -> Span {
        self.map.get(key).map_or(self.span, |entry| entry.key_span)
    }

    /// Where the map is.
    pub(super) fn span(&self) -> Span {
        self.span
    }

    /// What the map belongs to.
    pub(super) fn owner(&self) -> &str {
        &self.owner
    }

    /// The value of a key that may be left out.
    pub(super) fn opt<'r, T>(
        &mut self,
        reader: &mut Reader<'r>,
        key: &'static str,
        read: impl FnOnce(&mut Reader<'r>, &Node) -> Option<T>,
    ) -> Option<T> {
        let node = self.node(reader, key)?;
        reader.about(key, |reader| read(reader, node))
    }

    /// The value of a key that must be there.
    pub(super) fn need<'r, T>(
        &mut self,
        reader: &mut Reader<'r>,
        key: &'static str,
        read: impl FnOnce(&mut Reader<'r>, &Node) -> Option<T>,
    ) -> Option<T> {
        if !self.has(key) {
            self.missing(key);
        }
        self.opt(reader, key, read)
    }

    /// Notes a missing key; it is reported when the map is closed.
    pub(super) fn missing(&mut self, key: &'static str) {
        self.absent.push(key);
    }

    /// One of a few words, if the key is written.
    pub(super) fn word(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        allowed: &[&str],
    ) -> Option<Spanned<String>> {
        let node = self.node(reader, key)?;
        reader.word(node, key, allowed)
    }

    /// A word of a list, or of a part of one.
    pub(super) fn known<W: Word>(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        of: &[W],
    ) -> Option<Spanned<W>> {
        let node = self.node(reader, key)?;
        reader.known_of(node, key, of)
    }

    /// A word of a list, which must be there.
    pub(super) fn need_known<W: Word>(&mut self, reader: &mut Reader<'_>, key: &'static str) -> Option<Spanned<W>> {
        self.needs_one_of(reader, key, &W::names());
        self.known(reader, key, W::ALL)
    }

    /// One of a few words, which must be there.
    pub(super) fn need_word(
        &mut self,
        reader: &mut Reader<'_>,
        key: &'static str,
        allowed: &[&str],
    ) -> Option<Spanned<String>> {
        self.needs_one_of(reader, key, allowed);
        self.word(reader, key, allowed)
    }

    fn needs_one_of(&self, reader: &mut Reader<'_>, key: &str, allowed: &[&str]) {
        if !self.has(key) {
            let error = Diagnostic::new(self.span, format!("{} has no `{key}`", self.owner));
            let help = format!("add `{key}:` with {}", one_of(allowed.iter().copied()));
            reader.error(error.label(format!("`{key}` is missing here")).help(help));
        }
    }

    /// Closes the map: every key that was not asked for is an error, and every missing one, unless an unknown key is
    /// a likely slip of it.
    pub(super) fn close(self, reader: &mut Reader<'_>) {
        #[cfg(test)]
        heard::keys(self.span, &self.asked);
        let unknown = || self.map.keys().filter(|key| !self.asked.contains(&key.as_str()));
        for key in self.absent.iter().filter(|key| !unknown().any(|slip| nearest(slip, [**key]).is_some())) {
            let error = Diagnostic::new(self.span, format!("{} has no `{key}`", self.owner));
            reader.error(error.label(format!("`{key}` is missing here")).help(format!("add `{key}: ...`")));
        }
        for (key, entry) in self.map {
            if self.asked.contains(&key.as_str()) {
                continue;
            }
            let error = Diagnostic::new(entry.key_span, format!("unknown key `{key}` in {}", self.owner));
            reader.error(error.label("not known here").help(self.help_for(key)));
        }
    }

    fn help_for(&self, key: &str) -> String {
        let mut allowed: Vec<&str> = Vec::new();
        for asked in &self.asked {
            if !allowed.contains(asked) {
                allowed.push(asked);
            }
        }
        if let Some((before, _)) = key.split_once(':').filter(|(before, _)| allowed.contains(before)) {
            return format!("a space is missing after the colon: `{before}: ...`");
        }
        let meant = nearest(key, allowed.iter().copied());
        let list = (allowed.len() <= SHORT_LIST).then(|| format!("keys here are {}", allowed.join(", ")));
        match (meant, list) {
            (Some(meant), Some(list)) => format!("did you mean `{meant}`? {list}"),
            (Some(meant), None) => format!("did you mean `{meant}`?"),
            (None, Some(list)) => list,
            (None, None) => "check the spelling and the indent, or remove the key".to_owned(),
        }
    }
}

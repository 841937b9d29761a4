//! The tree of a YAML file: values of the core schema, each with its byte range.

use super::turn::Turn;
use crate::source::{Span, Spanned};
use indexmap::IndexMap;

/// One value with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// What it is.
    pub value: NodeValue,
    /// Where it stands: the scalar with its quotes, or the whole map or list.
    pub span: Span,
    /// How it is meant in a layout that is taken mirrored or turned.
    pub turn: Turn,
}

/// Kinds of values.
#[derive(Debug, Clone, PartialEq)]
pub enum NodeValue {
    /// Nothing, `~` or `null`.
    Null,
    /// Something that can't be used and has been reported.
    Refused,
    /// `true` or `false`.
    Bool(bool),
    /// A whole number.
    Int(i64),
    /// Any other finite number.
    Float(f64),
    /// A text; true when it was quoted or a block.
    Text(String, bool),
    /// A list.
    List(Vec<Node>),
    /// A map.
    Map(Map),
}

/// Entries in file order.
pub type Map = IndexMap<String, Entry>;

/// One entry of a map.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Where the key stands.
    pub key_span: Span,
    /// The value.
    pub node: Node,
}

impl Node {
    /// A value at a place.
    #[must_use]
    pub fn new(value: NodeValue, span: Span) -> Self {
        Self { value, span, turn: Turn::default() }
    }

    /// What the value is, in words for a message.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        match self.value {
            NodeValue::Null | NodeValue::Refused => "nothing",
            NodeValue::Bool(_) => "a yes or no",
            NodeValue::Int(_) | NodeValue::Float(_) => "a number",
            NodeValue::Text(..) => "a text",
            NodeValue::List(_) => "a list",
            NodeValue::Map(_) => "a map of keys",
        }
    }

    /// The map, if it is one.
    #[must_use]
    pub fn as_map(&self) -> Option<&Map> {
        match &self.value {
            NodeValue::Map(map) => Some(map),
            _ => None,
        }
    }

    /// Whether nothing is written.
    #[must_use]
    pub fn is_null(&self) -> bool {
        self.value == NodeValue::Null
    }

    /// The text of an entry of this map, if both are what the names say.
    #[must_use]
    pub fn text_of(&self, key: &str) -> Option<Spanned<&str>> {
        let node = &self.as_map()?.get(key)?.node;
        match &node.value {
            NodeValue::Text(text, _) => Some(Spanned::new(text.as_str(), node.span)),
            _ => None,
        }
    }
}

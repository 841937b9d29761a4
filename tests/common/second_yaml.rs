//! Values of YAML as `serde_yaml` reads them and as our reader does, in one form.

use boxwright::diagnostic::Sink;
use boxwright::language::node::{Node, NodeValue};
use boxwright::language::yaml;
use boxwright::source::FileId;
use serde::de::{Deserialize, Deserializer, EnumAccess, Error, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// A value, whoever reads it. Numbers are compared as 64-bit ones, keys as texts: in both languages a key is a name.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    Nothing,
    Truth(bool),
    Number(f64),
    Text(String),
    List(Vec<Value>),
    Map(Vec<(String, Value)>),
}

/// What a reader made of a text: a value, or why there is none.
pub type Read = Result<Value, String>;

/// By our reader.
pub fn ours(text: &str) -> Read {
    let mut sink = Sink::default();
    let node = yaml::parse(FileId::default(), text, &mut sink);
    match (node, sink.errors().first()) {
        (Some(node), None) => Ok(plain(&node)),
        (_, error) => Err(error.map_or_else(String::new, |error| error.message.clone())),
    }
}

/// By `serde_yaml`.
pub fn theirs(text: &str) -> Read {
    serde_yaml::from_str(text).map_err(|error| error.to_string())
}

fn plain(node: &Node) -> Value {
    match &node.value {
        NodeValue::Null | NodeValue::Refused => Value::Nothing,
        NodeValue::Bool(truth) => Value::Truth(*truth),
        NodeValue::Int(number) => Value::Number(*number as f64),
        NodeValue::Float(number) => Value::Number(*number),
        NodeValue::Text(text, _) => Value::Text(text.clone()),
        NodeValue::List(nodes) => Value::List(nodes.iter().map(plain).collect()),
        NodeValue::Map(map) => Value::Map(map.iter().map(|(key, entry)| (key.clone(), plain(&entry.node))).collect()),
    }
}

impl fmt::Display for Value {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nothing => to.write_str("nothing"),
            Self::Truth(truth) => write!(to, "{truth}"),
            Self::Number(number) => write!(to, "{number}"),
            Self::Text(text) => write!(to, "{text:?}"),
            Self::List(values) => {
                write!(to, "[{}]", values.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "))
            }
            Self::Map(entries) => {
                let entries: Vec<String> = entries.iter().map(|(key, value)| format!("{key:?}: {value}")).collect();
                write!(to, "{{{}}}", entries.join(", "))
            }
        }
    }
}

struct AnyValue;

impl<'de> Visitor<'de> for AnyValue {
    type Value = Value;

    fn expecting(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str("a value without a tag")
    }

    fn visit_unit<E: Error>(self) -> Result<Value, E> {
        Ok(Value::Nothing)
    }

    fn visit_bool<E: Error>(self, truth: bool) -> Result<Value, E> {
        Ok(Value::Truth(truth))
    }

    fn visit_i64<E: Error>(self, number: i64) -> Result<Value, E> {
        Ok(Value::Number(number as f64))
    }

    fn visit_u64<E: Error>(self, number: u64) -> Result<Value, E> {
        Ok(Value::Number(number as f64))
    }

    fn visit_i128<E: Error>(self, number: i128) -> Result<Value, E> {
        Ok(Value::Number(number as f64))
    }

    fn visit_u128<E: Error>(self, number: u128) -> Result<Value, E> {
        Ok(Value::Number(number as f64))
    }

    fn visit_f64<E: Error>(self, number: f64) -> Result<Value, E> {
        Ok(Value::Number(number))
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Value, E> {
        Ok(Value::Text(text.to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Value, A::Error> {
        let mut values = Vec::new();
        while let Some(value) = list.next_element()? {
            values.push(value);
        }
        Ok(Value::List(values))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Value, A::Error> {
        let mut entries: Vec<(String, Value)> = Vec::new();
        while let Some((key, value)) = map.next_entry::<String, Value>()? {
            if entries.iter().any(|(other, _)| *other == key) {
                return Err(A::Error::custom("a key twice"));
            }
            entries.push((key, value));
        }
        Ok(Value::Map(entries))
    }

    fn visit_enum<A: EnumAccess<'de>>(self, _: A) -> Result<Value, A::Error> {
        Err(A::Error::custom("a tag"))
    }
}

impl<'de> Deserialize<'de> for Value {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(AnyValue)
    }
}

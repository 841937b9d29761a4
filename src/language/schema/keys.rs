//! Pieces that the schemas of the languages are put together from.

use crate::language::figures::FigureKey;
use crate::language::reader::MOST_OWN;
use crate::model::Word;
use serde_json::{Map, Value, json};

/// Longest name of a thing, in characters.
const LONGEST_NAME: usize = 60;

/// A letter, then letters and digits, with single hyphens between them. Beyond ASCII every character counts as a letter: the
/// dialects of patterns have no common word for those.
const NAME: &str = "[^\\u0000-@\\[-`{-\\u007f][^\\u0000-/:-@\\[-`{-\\u007f]*(?:-[^\\u0000-/:-@\\[-`{-\\u007f]+)*";

/// A map with known keys, on its way to a schema.
#[derive(Debug, Clone)]
pub(super) struct Keys {
    says: &'static str,
    properties: Map<String, Value>,
    required: Vec<&'static str>,
}

impl Keys {
    /// A map without keys yet.
    pub fn of(says: &'static str) -> Self {
        Self { says, properties: Map::new(), required: Vec::new() }
    }

    /// A key that may be left out.
    pub fn opt(mut self, key: &'static str, says: &str, of: Value) -> Self {
        let of = if says.is_empty() { of } else { said(of, says) };
        self.properties.insert(key.to_owned(), of);
        self
    }

    /// A key that must be there.
    pub fn need(mut self, key: &'static str, says: &str, of: Value) -> Self {
        self.required.push(key);
        self.opt(key, says, of)
    }

    /// Keys of one kind that may be left out.
    pub fn opts(self, keys: &[&'static str], says: &str, of: &Value) -> Self {
        keys.iter().fold(self, |all, key| all.opt(key, says, of.clone()))
    }

    /// Keys of one kind that must be there.
    pub fn needs(self, keys: &[&'static str], says: &str, of: &Value) -> Self {
        keys.iter().fold(self, |all, key| all.need(key, says, of.clone()))
    }

    /// The keys of a table of figures.
    pub fn figures(self, table: &[FigureKey]) -> Self {
        table.iter().fold(self, |all, key| match key.default {
            Some(_) => all.opt(key.name, "", figure(key)),
            None => all.need(key.name, "", figure(key)),
        })
    }

    /// The schema: these keys and no others.
    pub fn closed(self) -> Value {
        let mut schema = json!({
            "description": self.says,
            "type": "object",
            "properties": self.properties,
            "additionalProperties": false,
        });
        if !self.required.is_empty() {
            schema["required"] = json!(self.required);
        }
        schema
    }
}

/// A schema with words for people.
pub(super) fn said(mut schema: Value, says: &str) -> Value {
    schema["description"] = json!(says);
    schema
}

/// What stands under `$defs`.
pub(super) fn by_name(name: &str) -> Value {
    json!({ "$ref": format!("#/$defs/{name}") })
}

/// One of several forms.
pub(super) fn any(forms: impl IntoIterator<Item = Value>) -> Value {
    json!({ "anyOf": forms.into_iter().collect::<Vec<_>>() })
}

/// One of a few words.
pub(super) fn words(words: &[&str]) -> Value {
    json!({ "enum": words })
}

/// A word of a list.
pub(super) fn known<W: Word>() -> Value {
    words(&W::names())
}

/// A word of a list or the author's own, which a schema can't tell from a slip.
pub(super) fn known_or_own<W: Word>(own: &str) -> Value {
    any([known::<W>(), by_name(own)])
}

/// Words that the author declares.
pub(super) fn own() -> Value {
    let mut names = list(by_name("name"));
    names["maxItems"] = json!(MOST_OWN);
    any([json!({ "type": "string", "pattern": format!("^\\s*{NAME}\\s*$") }), names])
}

/// A number or an expression.
pub(super) fn number() -> Value {
    by_name("number")
}

/// A figure of a table: a number in its range, or an expression.
fn figure(key: &FigureKey) -> Value {
    let (least, most) = key.range;
    let number = json!({ "type": "number", "minimum": least, "maximum": most });
    let mut schema = any([number, by_name("expression")]);
    let unit = key.unit.trim();
    if !unit.is_empty() {
        schema["description"] = json!(unit);
    }
    if let Some(default) = key.default {
        schema["default"] = json!(default);
    }
    schema
}

/// A list; nothing written is an empty one.
pub(super) fn list(of: Value) -> Value {
    json!({ "type": ["array", "null"], "items": of })
}

/// A list that must be written.
pub(super) fn full_list(of: Value) -> Value {
    json!({ "type": "array", "items": of })
}

/// A list of just so many entries.
pub(super) fn just(count: usize, of: &Value) -> Value {
    json!({ "type": "array", "items": of, "minItems": count, "maxItems": count })
}

/// Entries by their names, of a key that may be left out but not empty.
pub(super) fn named_some(of: Value) -> Value {
    json!({ "type": "object", "propertyNames": by_name("new-name"), "additionalProperties": of })
}

/// Names that the author gives, each with a value; nothing written is none.
pub(super) fn named(of: Value) -> Value {
    json!({ "type": ["object", "null"], "propertyNames": by_name("new-name"), "additionalProperties": of })
}

/// Values by names of checks.
pub(super) fn by_check(of: Value) -> Value {
    let mut named = named(of);
    named["propertyNames"] = by_name("new-check-name");
    named
}

/// Names of a section that may have so many entries.
pub(super) fn at_most(most: usize, mut named: Value) -> Value {
    named["maxProperties"] = json!(most);
    named
}

/// A whole schema. Each language has its own values, and of those that all share the ones that it names.
pub(super) fn document(title: &str, says: &str, main: Value, own: Vec<(&'static str, Value)>) -> Value {
    let mut defs: Map<String, Value> = own.into_iter().map(|(name, of)| (name.to_owned(), of)).collect();
    let mut left = shared();
    loop {
        let text = format!("{main}{}", Value::Object(defs.clone()));
        let named = |(name, _): &(&str, Value)| text.contains(&format!("\"#/$defs/{name}\""));
        let (more, rest): (Vec<_>, Vec<_>) = left.into_iter().partition(named);
        if more.is_empty() {
            break;
        }
        defs.extend(more.into_iter().map(|(name, of)| (name.to_owned(), of)));
        left = rest;
    }
    let mut schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title,
        "description": says,
        "$defs": defs,
    });
    if let (Value::Object(schema), Value::Object(main)) = (&mut schema, main) {
        for (key, value) in main {
            schema.entry(key).or_insert(value);
        }
    }
    schema
}

/// Single values, pairs and outlines.
fn shared() -> Vec<(&'static str, Value)> {
    let pair = just(2, &number());
    let arc = Keys::of("An arc from the corner before, through one point, to the other")
        .need("arc", "Where it ends", by_name("pair"))
        .need("through", "A point on it", by_name("pair"));
    let points = json!({
        "description": "Corners, and arcs to the next corner",
        "type": "array",
        "minItems": 2,
        "prefixItems": [by_name("pair")],
        "items": any([by_name("pair"), by_name("arc")]),
    });
    let name = format!("^\\s*{NAME}\\s*$");
    vec![
        ("text", json!({ "type": ["string", "number", "boolean"], "pattern": "\\S" })),
        ("name", json!({ "type": ["string", "boolean"], "pattern": name })),
        ("check-name", json!({ "type": ["string", "boolean"], "pattern": format!("^\\s*({NAME}:)?{NAME}\\s*$") })),
        ("names", any([json!({ "type": "string", "pattern": name }), full_list(by_name("name"))])),
        ("new-name", json!({ "pattern": format!("^{NAME}$"), "maxLength": LONGEST_NAME })),
        ("new-check-name", json!({ "pattern": format!("^({NAME}:)?{NAME}$"), "maxLength": LONGEST_NAME })),
        ("symbol-name", json!({ "type": "string", "pattern": format!("^\\s*(?!recipes/){NAME}/{NAME}\\s*$") })),
        ("flag", json!({ "enum": [true, false, "yes", "no"] })),
        ("expression", json!({ "type": "string", "pattern": "\\S" })),
        ("number", any([json!({ "type": "number" }), by_name("expression")])),
        ("condition", any([json!({ "type": "boolean" }), by_name("expression")])),
        ("value", any([json!({ "type": ["number", "boolean"] }), by_name("expression")])),
        ("pair", pair),
        ("triple", just(3, &number())),
        ("range", said(by_name("pair"), "From, to")),
        ("points", points),
        ("arc", arc.closed()),
    ]
}

/// What a layout that extends another may leave out or take away: `of` without what must be there, and with nothing in the
/// place of what may be left out. Lists are replaced whole, so they stay as they are.
pub(super) fn loosened(of: &Value) -> Value {
    let Value::Object(schema) = of else { return of.clone() };
    if let Some(path) = of["$ref"].as_str() {
        let mut of = of.clone();
        of["$ref"] = json!(path.replace("#/$defs/", "#/$defs/part-of-"));
        return of;
    }
    if let Some(forms) = of["anyOf"].as_array() {
        let (maps, others): (Vec<&Value>, Vec<&Value>) = forms.iter().partition(|form| form["properties"].is_object());
        let map = (!maps.is_empty()).then(|| loose_map(&maps));
        let mut of = of.clone();
        of["anyOf"] = json!(others.into_iter().map(loosened).chain(map).collect::<Vec<_>>());
        return of;
    }
    if of["properties"].is_object() {
        return loose_map(&[of]);
    }
    let mut loose = schema.clone();
    if let Some(others) = schema.get("additionalProperties") {
        loose.insert("additionalProperties".to_owned(), any([loosened(others), json!({ "type": "null" })]));
        loose.remove("maxProperties");
    }
    loose.into()
}

/// One map for several forms of it: a variant may turn one into another.
fn loose_map(maps: &[&Value]) -> Value {
    let mut forms: Map<String, Value> = Map::new();
    for (key, of) in maps.iter().flat_map(|map| map["properties"].as_object()).flatten() {
        let known = forms.entry(key.clone()).or_insert_with(|| json!([]));
        let of = loosened(of);
        if let Some(known) = known.as_array_mut().filter(|known| !known.contains(&of)) {
            known.push(of);
        }
    }
    for (key, known) in &mut forms {
        let needed = |map: &&Value| map["required"].as_array().is_some_and(|all| all.iter().any(|one| one == key));
        if let Some(known) = known.as_array_mut().filter(|_| !maps.iter().all(needed)) {
            known.push(json!({ "type": "null" }));
        }
        *known = json!({ "anyOf": known });
    }
    let others = match maps.first().and_then(|map| map.get("additionalProperties")) {
        Some(of) if of.is_object() => any([loosened(of), json!({ "type": "null" })]),
        _ => json!(false),
    };
    json!({ "type": "object", "properties": forms, "additionalProperties": others })
}

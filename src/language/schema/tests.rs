//! The schemas against what the readers take, over all files of the project.

use super::{layout_schema, recipe_schema, rules_schema, symbol_schema, theme_schema};
use crate::diagnostic::Sink;
use crate::language::lower_layout::lower as lower_layout;
use crate::language::lower_symbol::{lower as lower_symbol, lower_recipe};
use crate::language::node::{Node, NodeValue};
use crate::language::reader::{Reader, heard};
use crate::language::rule_files::file_of_rules;
use crate::language::theme::theme;
use crate::language::yaml;
use crate::model::Theme;
use crate::source::{SourceMap, Span};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// Names of places in a schema, each with the keys of its maps or with its words.
type Places = BTreeMap<String, BTreeSet<String>>;

/// A part of a schema with the name of its place: that of its definition, then the way from there.
type At<'a> = (String, &'a Value);

/// What the schema says: keys of maps, words of values.
#[derive(Debug, Default, PartialEq)]
struct Said {
    keys: Places,
    words: Places,
}

fn strings(of: &Value) -> impl Iterator<Item = String> {
    let text = |value: &Value| value.as_str().map_or_else(|| value.to_string(), str::to_owned);
    of.as_array().into_iter().flatten().map(text)
}

/// Entries of a list.
fn entries<'a>((name, of): &At<'a>) -> Vec<At<'a>> {
    let all = of["prefixItems"].as_array().into_iter().flatten().chain(of.get("items"));
    all.map(|one| (format!("{name}[]"), one)).collect()
}

/// Values of a map under keys that its author chooses.
fn others<'a>((name, of): &At<'a>) -> Option<At<'a>> {
    of.get("additionalProperties").filter(|one| one.is_object()).map(|one| (format!("{name}.*"), one))
}

/// The value of a map under a key.
fn of_key<'a>(at: &At<'a>, key: &str) -> Option<At<'a>> {
    let (name, of) = at;
    let known = of["properties"].get(key).map(|one| (format!("{name}.{key}"), one));
    known.or_else(|| others(at))
}

/// The parts that stand under a part of a schema, but what it refers to by name.
fn under<'a>(at: &At<'a>) -> Vec<At<'a>> {
    let (name, of) = at;
    let alternatives = of["anyOf"].as_array().into_iter().flatten().map(|one| (name.clone(), one));
    let properties = of["properties"].as_object().into_iter().flatten();
    let properties = properties.map(|(key, one)| (format!("{name}.{key}"), one));
    alternatives.chain(properties).chain(entries(at)).chain(others(at)).collect()
}

fn explore(at: &At<'_>, said: &mut Said) {
    let (name, of) = at;
    if let Some(properties) = of["properties"].as_object() {
        said.keys.entry(name.clone()).or_default().extend(properties.keys().cloned());
    }
    if of.get("enum").is_some() {
        said.words.entry(name.clone()).or_default().extend(strings(&of["enum"]));
    }
    under(at).iter().for_each(|inner| explore(inner, said));
}

/// Names resolved and alternatives laid side by side.
fn plain<'a>(schema: &'a Value, (name, of): At<'a>) -> Vec<At<'a>> {
    if let Some(named) = of["$ref"].as_str().and_then(|path| path.strip_prefix("#/$defs/")) {
        return plain(schema, (named.to_owned(), &schema["$defs"][named]));
    }
    match of["anyOf"].as_array() {
        Some(forms) => forms.iter().flat_map(|form| plain(schema, (name.clone(), form))).collect(),
        None => vec![(name, of)],
    }
}

/// What readers took at each place of a file.
struct Taken {
    keys: Vec<(Span, Vec<String>)>,
    words: Vec<(Span, Vec<String>)>,
}

/// Adds what was taken at a node, and below it, to the places of the schema that it stands for.
fn walk(schema: &Value, at: Vec<At<'_>>, node: &Node, taken: &Taken, said: &mut Said) {
    let at: Vec<At<'_>> = at.into_iter().flat_map(|one| plain(schema, one)).collect();
    let heard = |all: &[(Span, Vec<String>)]| -> BTreeSet<String> {
        all.iter().filter(|(span, _)| *span == node.span).flat_map(|(_, heard)| heard.clone()).collect()
    };
    match &node.value {
        NodeValue::Map(map) => {
            if let Some((name, _)) = at.iter().find(|(_, of)| of["properties"].is_object()) {
                said.keys.entry(name.clone()).or_default().extend(heard(&taken.keys));
            }
            for (key, entry) in map {
                let inner = at.iter().filter_map(|at| of_key(at, key)).collect();
                walk(schema, inner, &entry.node, taken, said);
            }
        }
        NodeValue::List(nodes) => {
            let entries: Vec<At<'_>> = at.iter().flat_map(entries).collect();
            nodes.iter().for_each(|inner| walk(schema, entries.clone(), inner, taken, said));
        }
        _ => {
            if let Some((name, _)) = at.iter().find(|(_, of)| of.get("enum").is_some()) {
                let words = heard(&taken.words);
                if !words.is_empty() {
                    said.words.entry(name.clone()).or_default().extend(words);
                }
            }
        }
    }
}

fn files(folder: &str, deep: bool) -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut entries: Vec<PathBuf> = std::fs::read_dir(root).unwrap().map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    let inside = |path: PathBuf| match path.is_dir() {
        true if deep => files(path.to_str().unwrap(), true),
        true => Vec::new(),
        false => vec![path],
    };
    let yaml = |path: &PathBuf| path.extension().is_some_and(|ending| ending == "yaml");
    entries.into_iter().flat_map(inside).filter(yaml).collect()
}

/// What the reader of a language took in all files, by places of its schema.
fn taken(schema: &Value, start: &str, files: &[PathBuf], read: impl Fn(&Node, &SourceMap, &mut Sink)) -> Said {
    let mut said = Said::default();
    for path in files {
        let (mut sources, mut sink) = (SourceMap::default(), Sink::default());
        let Ok(text) = std::fs::read_to_string(path) else { continue };
        let file = sources.add(path.display().to_string(), text.clone());
        let Some(node) = yaml::parse(file, &text, &mut sink) else { continue };
        drop(heard());
        read(&node, &sources, &mut sink);
        let (keys, words) = heard();
        let at = if start.is_empty() { schema } else { &schema["$defs"][start] };
        walk(schema, vec![(start.to_owned(), at)], &node, &Taken { keys, words }, &mut said);
    }
    said
}

/// All that a schema says, but of the parts of layouts, which are made from the whole.
fn said(schema: &Value, start: &str) -> Said {
    let mut said = Said::default();
    if start.is_empty() {
        explore(&(String::new(), schema), &mut said);
    }
    for (name, of) in schema["$defs"].as_object().unwrap().iter().filter(|(name, _)| !name.starts_with("part-of-")) {
        explore(&(name.clone(), of), &mut said);
    }
    said
}

/// Every key and word of a schema is taken by the reader, and the other way round. `loose` names places where the reader
/// asks for no keys or words but looks for itself.
fn the_same(mut schema: Said, mut reader: Said, loose: &[&str]) {
    for name in loose {
        for said in [&mut schema, &mut reader] {
            said.keys.remove(*name);
            said.words.remove(*name);
        }
    }
    assert_eq!(schema.keys, reader.keys);
    assert_eq!(schema.words, reader.words);
}

const EVERY: &str = "tests/oracles/schemas";

#[test]
fn layouts_and_their_schema_have_the_same_keys_and_words() {
    let schema = layout_schema();
    let all: Vec<PathBuf> = ["tests/suite", "tests/suite/base", "layouts", EVERY]
        .into_iter()
        .flat_map(|folder| files(folder, false))
        .collect();
    let reader = taken(&schema, "layout", &all, |node, sources, sink| drop(lower_layout(node, sources, sink)));
    the_same(said(&schema, "layout"), reader, &["flag", "roof", "layout.limits.*"]);
}

#[test]
fn symbols_and_their_schema_have_the_same_keys_and_words() {
    let schema = symbol_schema();
    let all: Vec<PathBuf> =
        ["symbols", "tests/suite/symbols", EVERY].into_iter().flat_map(|folder| files(folder, true)).collect();
    let all: Vec<PathBuf> = all.into_iter().filter(|path| !path.to_str().unwrap().contains("/recipes/")).collect();
    let reader = taken(&schema, "", &all, |node, sources, sink| drop(lower_symbol(node, sources, sink)));
    the_same(said(&schema, ""), reader, &["flag", "solid.open", "solid.open[]"]);
}

#[test]
fn recipes_and_their_schema_have_the_same_keys_and_words() {
    let schema = recipe_schema();
    let folders = ["symbols/recipes", "tests/suite/symbols/recipes", "tests/oracles/schemas/symbols/recipes"];
    let all: Vec<PathBuf> = folders.into_iter().flat_map(|folder| files(folder, false)).collect();
    let reader = taken(&schema, "", &all, |node, sources, sink| drop(lower_recipe(node, sources, sink)));
    the_same(said(&schema, ""), reader, &["flag"]);
}

#[test]
fn themes_and_their_schema_have_the_same_keys_and_words() {
    let schema = theme_schema();
    let folders = ["src/language/theme", "tests/suite/themes"];
    let all: Vec<PathBuf> = folders.into_iter().flat_map(|folder| files(folder, false)).collect();
    let reader = taken(&schema, "", &all, |node, sources, sink| {
        theme(&mut Reader::new(sources, sink), node, Theme::default());
    });
    the_same(said(&schema, ""), reader, &["flag"]);
}

#[test]
fn files_of_rules_and_their_schema_have_the_same_keys_and_words() {
    let schema = rules_schema();
    let all = vec![PathBuf::from(EVERY).join("rules.yaml"), PathBuf::from("layouts/rules/workshop.yaml")];
    let reader = taken(&schema, "", &all, |node, sources, sink| {
        file_of_rules(&mut Reader::new(sources, sink), node);
    });
    the_same(said(&schema, ""), reader, &[]);
}

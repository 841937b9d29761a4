//! SVG sheets for people who style and show them: all classes and ids documented, and nothing but a picture in them
//! whatever the texts of a layout are.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at once")]

#[path = "common/mod.rs"]
mod common;

use boxwright::backends::{Backend, OutputFile, Svg};
use boxwright::compile::{Compiled, Options, compile, produce};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use common::{text, world, yaml_files};
use std::collections::BTreeSet;

fn compiled(text: &str) -> Compiled {
    let world = MemoryWorld::default().with("box.yaml", text);
    compile(&world, "box.yaml", &Registry::standard(), &Options::default())
}

fn files(compiled: &Compiled) -> Vec<OutputFile> {
    let outputs = produce(compiled).unwrap_or_else(|| panic!("{:?}", compiled.errors.errors()));
    Svg.files(&outputs.product(compiled)).unwrap()
}

fn marram() -> Vec<(String, String)> {
    let compiled =
        compile(&world(&yaml_files("layouts")), "layouts/marram.yaml", &Registry::standard(), &Options::default());
    files(&compiled).into_iter().map(|file| (file.name, String::from_utf8(file.bytes).unwrap())).collect()
}

#[test]
fn every_class_and_the_ids_are_documented() {
    let (readme, files) = (text("layouts/README.md"), marram());
    let mut classes = BTreeSet::new();
    let mut ids = BTreeSet::new();
    for (_, svg) in &files {
        let tree = roxmltree::Document::parse(svg).unwrap();
        for node in tree.descendants() {
            classes.extend(node.attribute("class").unwrap_or("").split_whitespace().map(str::to_owned));
            ids.extend(node.attribute("id").map(str::to_owned));
        }
    }
    assert!(classes.len() > 25, "{classes:?}");
    let missing: Vec<&String> = classes.iter().filter(|class| !readme.contains(&format!("`{class}`"))).collect();
    assert!(missing.is_empty(), "{missing:?}");
    for id in ["plan-furniture-module-galley", "plan-shell-opening-entry", "table-notes-row-finding-3"] {
        assert!(ids.contains(id) && readme.contains(&format!("`{id}`")), "{id}");
    }
    for (name, svg) in &files {
        let tree = roxmltree::Document::parse(svg).unwrap();
        let groups = tree.descendants().filter(|node| node.attribute("class").is_some_and(|class| class == "item"));
        let said = |node: &roxmltree::Node<'_, '_>| node.first_element_child().is_some_and(|c| c.has_tag_name("title"));
        assert!(groups.into_iter().all(|node| said(&node)), "{name}");
        assert!(tree.root_element().children().any(|node| node.has_tag_name("desc")), "{name}");
    }
}

/// Texts that would be more than texts if they were not escaped.
const HOSTILE: [&str; 5] = [
    "<script>alert(1)</script>",
    "]]> & &amp; <!-- --> <![CDATA[",
    "' onload='alert(1)' x=\"",
    "url(#x);} .line-cut{stroke:none} </style><a href=\"javascript:x\">",
    "&#x1b; &lt; \u{1f600} \u{fb01}",
];

#[test]
fn texts_of_a_layout_stay_texts() {
    let quoted: Vec<String> = HOSTILE.iter().map(|text| format!("'{}'", text.replace('\'', "''"))).collect();
    let [title, note, mark, owner, because] = [0, 1, 2, 3, 4].map(|at: usize| quoted[at].as_str());
    let layout = format!(
        "boxwright: 1\ntitle: {title}\nnumber: {title}\nrevision: [{{ mark: {mark}, note: {note}, by: {owner} }}]\n\
         drawn: {{ by: {because}, approved: {title}, owner: {owner} }}\n\
         box: {{ length: 2400, width: 1900, height: 1950 }}\n\
         zones:\n  script: {{ purpose: lounge, front: 0, rear: 900, left: 0, right: 900 }}\n\
         modules:\n  onload:\n    symbol: stow/wardrobe\n    faces: right\n    place: {{ front: 0, left: 0 }}\n\
         limits:\n  walkway: {{ least: 400, because: {because} }}\n"
    );
    let compiled = compiled(&layout);
    let files = files(&compiled);
    assert!(files.len() >= 3, "{}", files.len());
    let mut words = BTreeSet::new();
    for file in &files {
        let source = std::str::from_utf8(&file.bytes).unwrap();
        let tree = roxmltree::Document::parse(source).unwrap_or_else(|error| panic!("{}: {error}", file.name));
        for node in tree.descendants().filter(roxmltree::Node::is_element) {
            let name = node.tag_name().name();
            let known = ["svg", "title", "desc", "style", "rect", "g", "a", "path", "text"];
            assert!(known.contains(&name), "{}: <{name}>", file.name);
            for attribute in node.attributes() {
                assert!(!attribute.name().starts_with("on"), "{}: {}", file.name, attribute.name());
                let address = attribute.name() == "href" && !attribute.value().contains('#');
                assert!(!address && !attribute.value().contains("javascript"), "{}", attribute.value());
            }
            if matches!(name, "title" | "text") {
                words.extend(node.text().map(|text| text.trim().replace('\u{a0}', " ")));
            }
        }
        let style = tree.descendants().find(|node| node.has_tag_name("style")).unwrap();
        assert!(!style.text().unwrap().contains("url(#x)"));
    }
    assert!(words.iter().any(|text| text.contains(HOSTILE[0])), "{words:?}");
    assert!(words.iter().any(|text| text.contains("' onload='alert(1)'")), "{words:?}");
}

/// Control characters never reach a sheet: the language refuses them, with their place.
#[test]
fn control_characters_are_refused() {
    for control in ['\u{0}', '\u{7}', '\u{1b}', '\u{202e}'] {
        let compiled = compiled(&format!(
            "boxwright: 1\ntitle: a{control}b\nbox: {{ length: 2400, width: 1900, height: 1950 }}\n"
        ));
        assert!(compiled.model.is_none() && !compiled.errors.is_empty(), "{control:?}");
    }
    let escaped = compiled("boxwright: 1\ntitle: \"a\\x07b\"\nbox: { length: 2400, width: 1900, height: 1950 }\n");
    assert!(escaped.model.is_none() || files(&escaped).iter().all(|file| !file.bytes.contains(&7)));
}

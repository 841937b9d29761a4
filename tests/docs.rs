//! Compiles every example of the documents and runs the commands of the README, on the lists of parts that it shows.
//!
//! A `yaml` block that begins with `boxwright:` is a whole layout. Any other block of `layouts/README.md` is laid over a
//! small layout by `extends`, one of `README.md` over the demo whose picture it stands beside. In `symbols/README.md` a block that begins with
//! `symbol:` is a whole symbol, one that begins with `recipe:` a recipe, which a small symbol uses, any other takes the
//! place of the same keys of a small symbol.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod common;

use boxwright::compile::{Options, compile, produce};
use boxwright::model::{SheetKind, Word};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use std::process::Command;

/// The layout of the README and its picture.
const DEMO: &str = "layouts/marram.yaml";
const PICTURE: &str = "layouts/marram.svg";

const BASE: &str = "\
boxwright: 1
title: Base of the examples
people: { anna: { stature: 1690, mass: 68 } }
box: { length: 4000, width: 2000, height: 1900 }
openings:
  entry: { kind: door, wall: right, front: 1700, run: 600, sill: 0, height: 1800, hinge: front, swings: out }
";

/// A symbol's sections, each under its key.
const SYMBOL: [(&str, &str); 4] = [
    ("symbol", "symbol: own/example\n"),
    ("says", "says: A plain chest\n"),
    (
        "size",
        "size:\n  run: { default: 600, least: 300, most: 1200 }\n  depth: { default: 400, least: 300, most: 600 }\n  \
         height: { default: 500, least: 300, most: 900 }\n",
    ),
    ("solids", "solids:\n  body: { u: [0, run], v: [0, depth], w: [0, height] }\n"),
];

/// A fenced block with the line it starts on.
#[derive(Debug, PartialEq)]
struct Block {
    line: usize,
    text: String,
}

fn blocks(page: &str, kind: &str) -> Vec<Block> {
    let (mut blocks, mut open): (Vec<Block>, Option<Block>) = (Vec::new(), None);
    for (at, line) in page.lines().enumerate() {
        match &mut open {
            Some(_) if line.starts_with("```") => blocks.extend(open.take().filter(|block| block.line > 0)),
            Some(block) => block.text += &format!("{line}\n"),
            None if line.starts_with("```") => {
                let wanted = line.trim_start_matches('`').trim() == kind;
                open = Some(Block { line: if wanted { at + 2 } else { 0 }, text: String::new() });
            }
            None => {}
        }
    }
    blocks
}

/// Errors of a layout in a world, one a line.
fn errors(world: &MemoryWorld, path: &str) -> Vec<String> {
    let compiled = compile(world, path, &Registry::standard(), &Options::default());
    let place = |span| compiled.sources.place(span).map_or(String::new(), |(name, at)| format!("{name}:{}", at.line));
    compiled.errors.errors().iter().map(|error| format!("{}: {}", place(error.span), error.message)).collect()
}

fn layout_errors(base: &str, block: &str) -> Vec<String> {
    let whole = block.lines().any(|line| line.starts_with("boxwright:"));
    let text = if whole { block.to_owned() } else { format!("boxwright: 1\nextends: base.yaml\n{block}") };
    errors(&MemoryWorld::default().with("base.yaml", base).with("example.yaml", &text), "example.yaml")
}

fn key(line: &str) -> Option<&str> {
    line.split_once(':').map(|(key, _)| key).filter(|key| key.starts_with(|c: char| c.is_ascii_lowercase()))
}

fn symbol_errors(block: &str) -> Vec<String> {
    let Some(recipe) = block.strip_prefix("recipe:").and_then(|rest| rest.lines().next()) else {
        return symbol_in(block, &[]);
    };
    let recipe = recipe.trim();
    let uses = "at: { u: [0, run], v: [0, depth], w: [0, height] }";
    let file = (format!("mine/recipes/{recipe}.yaml"), block.to_owned());
    symbol_in(&format!("pieces:\n  own: {{ recipe: {recipe}, {uses} }}\n"), &[file])
}

fn symbol_in(block: &str, files: &[(String, String)]) -> Vec<String> {
    let said: Vec<&str> = block.lines().filter_map(key).collect();
    let rest = SYMBOL.iter().filter(|(key, _)| !said.contains(key)).map(|(_, text)| *text);
    let symbol = rest.collect::<String>() + block;
    let name = symbol.lines().find_map(|line| line.strip_prefix("symbol:")).unwrap().trim().to_owned();
    let layout = format!(
        "{BASE}symbols: [mine]\nmodules: {{ one: {{ symbol: {name}, faces: front, place: {{ rear: box.rear, left: 0 }} }} }}\n"
    );
    let world = MemoryWorld::default().with("layout.yaml", &layout).with(&format!("mine/{name}.yaml"), &symbol);
    let world = files.iter().fold(world, |world, (path, text)| world.with(path, text));
    errors(&world, "layout.yaml")
}

fn compile_all(page: &str, errors: impl Fn(&str) -> Vec<String>, least: usize) {
    let blocks = blocks(&common::text(page), "yaml");
    assert!(blocks.len() >= least, "{page} has only {} examples", blocks.len());
    let tell = |block: &Block| errors(&block.text).into_iter().map(|e| format!("{page}:{}: {e}", block.line)).collect();
    let wrong: Vec<String> = blocks.iter().flat_map::<Vec<String>, _>(tell).collect();
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn examples_of_the_readme_compile() {
    compile_all("README.md", |block| layout_errors(&common::text(DEMO), block), 1);
}

#[test]
fn examples_of_the_layout_language_compile() {
    compile_all("layouts/README.md", |block| layout_errors(BASE, block), 10);
}

#[test]
fn examples_of_the_symbol_language_compile() {
    compile_all("symbols/README.md", symbol_errors, 5);
}

#[test]
fn a_wrong_example_is_seen() {
    let page = "a\n```yaml\nzones: 5\n```\n```sh\nls\n```\n";
    assert_eq!(blocks(page, "yaml"), [Block { line: 3, text: "zones: 5\n".to_owned() }]);
    assert!(!layout_errors(BASE, "zones: 5\n").is_empty());
    assert_eq!(layout_errors(BASE, "parameters: { aisle: 600 }\n"), Vec::<String>::new());
    assert!(!symbol_errors("solids: 5\n").is_empty());
    assert_eq!(symbol_errors("let: { half: run / 2 }\n"), Vec::<String>::new());
}

#[test]
fn the_picture_of_the_readme_is_what_the_demo_gives() {
    let registry = Registry::standard();
    let compiled =
        compile(&MemoryWorld::default().with(DEMO, &common::text(DEMO)), DEMO, &registry, &Options::default());
    let outputs = produce(&compiled).unwrap();
    let product = outputs.product(&compiled);
    let svg = registry.backends.iter().find(|backend| backend.name() == "svg").unwrap();
    let files = svg.files(&product).unwrap();
    let plan = files.into_iter().find(|file| file.name == "plan-day.svg").unwrap();
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(common::root().join(PICTURE), &plan.bytes).unwrap();
    }
    let same = common::text(PICTURE).as_bytes() == plan.bytes;
    assert!(same, "the drawings have changed: look at the demo, then run with UPDATE=1 for a new {PICTURE}");
    assert!(common::text("README.md").contains(PICTURE));
}

/// Arguments for the command in a line such as `cargo run --release -- build layouts/a.yaml`.
fn arguments(line: &str) -> Option<Vec<&str>> {
    let line = line.split(" # ").next().unwrap_or(line);
    let rest = line.strip_prefix("cargo run --release -- ").or_else(|| line.strip_prefix("boxwright "));
    rest.map(|rest| rest.split_whitespace().collect())
}

#[test]
fn commands_of_the_readme_work() {
    let page = common::text("README.md");
    let folder = tempfile::tempdir().unwrap();
    std::fs::create_dir(folder.path().join("layouts")).unwrap();
    for (path, text) in common::yaml_files("layouts/") {
        std::fs::write(folder.path().join(path), text).unwrap();
    }
    std::fs::create_dir(folder.path().join("layouts/rules")).unwrap();
    std::fs::write(folder.path().join(common::WORKSHOP), common::text(common::WORKSHOP)).unwrap();
    for (kind, name) in [("csv", "parts.csv"), ("json", "jobs.json")] {
        let block = blocks(&page, kind).into_iter().next().unwrap();
        std::fs::write(folder.path().join(name), block.text).unwrap();
    }
    let own = blocks(&common::text("symbols/README.md"), "yaml").into_iter().next().unwrap();
    std::fs::create_dir_all(folder.path().join("mine/own")).unwrap();
    std::fs::write(folder.path().join("mine/own/chest.yaml"), own.text).unwrap();
    let blocks = blocks(&page, "sh");
    let lines: Vec<&str> = blocks.iter().flat_map(|block| block.text.lines()).collect();
    assert!(lines.contains(&"cargo test --release"), "the README says how to run the tests");
    let commands: Vec<Vec<&str>> = lines.iter().filter_map(|line| arguments(line)).collect();
    assert!(commands.iter().any(|command| command.first() == Some(&"build")));
    for command in commands {
        let output =
            Command::new(env!("CARGO_BIN_EXE_boxwright")).args(&command).current_dir(&folder).output().unwrap();
        assert!(output.status.success(), "{command:?}: {}", String::from_utf8_lossy(&output.stdout));
    }
}

/// A number below a hundred in words, with a capital.
fn in_words(number: usize) -> String {
    const SMALL: [&str; 20] = [
        "zero",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
        "thirteen",
        "fourteen",
        "fifteen",
        "sixteen",
        "seventeen",
        "eighteen",
        "nineteen",
    ];
    const TENS: [&str; 8] = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
    let words = match (number / 10, number % 10) {
        (0 | 1, _) => SMALL[number].to_owned(),
        (tens, 0) => TENS[tens - 2].to_owned(),
        (tens, rest) => format!("{}-{}", TENS[tens - 2], SMALL[rest]),
    };
    words[..1].to_uppercase() + &words[1..]
}

/// The names that a page lists after `N checks`, up to the end of the paragraph, in its order.
fn listed(page: &str, count: usize) -> Option<Vec<String>> {
    let (_, rest) = page.split_once(&format!("{} checks", in_words(count)))?;
    let (_, list) = rest.split_once(": ")?;
    let list = list.split(".\n").next()?;
    let words = list.split(|c: char| !c.is_ascii_lowercase() && c != '-').filter(|word| !word.is_empty());
    Some(
        words
            .filter(|word| !["of", "the", "vehicle", "shell", "services", "parts", "and"].contains(word))
            .map(str::to_owned)
            .collect(),
    )
}

#[test]
fn pages_list_all_checks_in_the_order_of_the_registry() {
    let registry = Registry::standard();
    let names: Vec<&str> = registry.checks.iter().map(|check| check.name()).collect();
    for path in ["README.md", "CHANGELOG.md"] {
        let found = listed(&common::text(path), names.len());
        assert_eq!(
            found.as_deref(),
            Some(names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>().as_slice()),
            "{path}"
        );
    }
}

#[test]
fn the_manual_of_layouts_names_all_kinds_of_sheets() {
    let page = common::text("layouts/README.md");
    let row = page.lines().find(|line| line.starts_with("| `only` | list of ")).unwrap();
    let words: Vec<&str> = row.split('|').nth(2).unwrap().split('`').skip(1).step_by(2).collect();
    assert_eq!(words, SheetKind::names());
}

#[test]
fn a_list_of_checks_is_read() {
    assert_eq!(
        [0, 9, 10, 19, 20, 44, 99].map(in_words).join(" "),
        "Zero Nine Ten Nineteen Twenty Forty-four Ninety-nine"
    );
    let page = "Three checks look: `one`,\n`two`; of the vehicle `three-four`.\nMore `five`.\n";
    assert_eq!(listed(page, 3).unwrap(), ["one", "two", "three-four"]);
    assert_eq!(listed(page, 4), None);
}

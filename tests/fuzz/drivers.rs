//! What is fuzzed: one function for each kind of text, which says what is wrong with what was made of it.

use super::common;
use boxwright::backends::OutputFile;
use boxwright::compile::{Compiled, Options, Session, Wanted, compile, produce};
use boxwright::diagnostic::Diagnostic;
use boxwright::joinery::nesting::{SheetKind, nest};
use boxwright::joinery::{Saw, read_parts};
use boxwright::language::expression::{parse, parse_rule, parse_things};
use boxwright::model::Grain;
use boxwright::plug_ins::PlugIn;
use boxwright::registry::Registry;
use boxwright::source::{FileId, MemoryWorld, Span};
use std::cell::RefCell;
use std::sync::OnceLock;

/// Effort of a plan, little: the reader is what is looked at.
const EFFORT: u64 = 2_000;
/// A file of house rules, and the layout that names it.
const RULES: &str = "layouts/rules/workshop.yaml";
const WITH_RULES: &str = "layouts/skua.yaml";
/// A list of more pieces is read and not laid.
const MOST_LAID: usize = 2_000;

/// Compiles, draws, and makes the output whose turn it is; nothing if the layout no longer compiles.
pub fn files(subject: &Subject, text: &str, registry: &Registry, turn: u64) -> Option<Vec<OutputFile>> {
    let world = subject.world.clone().with(&subject.spoilt, text);
    let compiled = compile(&world, &subject.layout, registry, &Options::default());
    let outputs = produce(&compiled);
    let product = outputs.as_ref()?.product(&compiled);
    let count = registry.backends.len().max(1) as u64;
    let backend = registry.backends.get(usize::try_from(turn % count).unwrap())?;
    Some(backend.files(&product).unwrap_or_default())
}

/// A file to spoil, and the layout that reads it.
pub struct Subject {
    /// Its path.
    pub spoilt: String,
    /// Its text.
    pub text: String,
    layout: String,
    world: MemoryWorld,
}

impl Subject {
    /// Whether its layout compiles before it is spoilt; those that do reach further, so they are taken more often.
    pub fn compiles(&self, registry: &Registry) -> bool {
        let world = self.world.clone().with(&self.spoilt, &self.text);
        compile(&world, &self.layout, registry, &Options::default()).model.is_some()
    }
}

/// Each demo and suite layout by itself, each symbol through a layout that places it, each theme through one that wears it.
pub fn subjects() -> Vec<Subject> {
    let mut files = common::yaml_files("layouts/");
    files.extend(common::yaml_files("tests/suite/"));
    let world = common::world(&files);
    let layouts = files.iter().map(|(path, text)| Subject {
        spoilt: path.clone(),
        text: text.clone(),
        layout: if path == RULES { WITH_RULES.to_owned() } else { path.clone() },
        world: world.clone(),
    });
    let symbols = common::yaml_files("symbols/").into_iter().map(|(path, text)| {
        let name = path.trim_start_matches("symbols/").trim_end_matches(".yaml");
        let place = format!(
            "boxwright: 1\ntitle: t\nsymbols: [mine]\nbox: {{ length: 6000, width: 2400, height: 2100 }}\n\
             openings: {{ entry: {{ kind: door, wall: right, front: 200, run: 600, sill: 0, height: 1800 }} }}\n\
             modules: {{ one: {{ symbol: {name}, faces: front, place: {{ rear: box.rear, left: box.left }} }} }}\n"
        );
        let spoilt = format!("mine/{name}.yaml");
        Subject { spoilt, text, layout: "t.yaml".to_owned(), world: MemoryWorld::default().with("t.yaml", &place) }
    });
    let themes = common::yaml_files("tests/suite/themes/").into_iter().map(|(_, text)| {
        let wears =
            "boxwright: 1\ntitle: t\nbox: { length: 4000, width: 2000, height: 2000 }\nsheets: { theme: own.yaml }\n";
        let (spoilt, layout) = ("own.yaml".to_owned(), "t.yaml".to_owned());
        Subject { spoilt, text, layout, world: MemoryWorld::default().with("t.yaml", wears) }
    });
    layouts.chain(symbols).chain(themes).collect()
}

/// Lists of parts as other programs write them.
pub fn lists() -> Vec<String> {
    let table = "number;length;width;count;grain\nA-01;600;400;2;length\nA-02;560,5;380;4;free\n";
    let plain = "length,width,count\n600,400,2\n560,380,4\n";
    let jobs = r#"{ "version": 1, "jobs": [ { "id": "one", "sheets": [ { "w": 2440, "h": 1220 } ], "kerf": 3.2,
        "parts": [ { "id": "A", "w": 600, "h": 400, "count": 2, "rot": 1 } ] } ] }"#;
    let blocks = ["README.md", "CHANGELOG.md"].map(common::text);
    let shown = blocks.iter().flat_map(|page| page.split("```")).filter(|block| {
        let block = block.trim_start_matches(|c: char| c.is_alphanumeric()).trim_start();
        block.starts_with('{') || block.lines().next().is_some_and(|line| line.contains("length") && line.contains(','))
    });
    let shown = shown.map(|block| block.trim_start_matches(|c: char| c.is_alphanumeric()).trim_start().to_owned());
    [table, plain, jobs].map(str::to_owned).into_iter().chain(shown).collect()
}

/// Reads a list and lays what it asks for.
pub fn parts(text: &str, read: &mut u64) -> Vec<String> {
    let sheets = vec![SheetKind { size: (2440.0, 1220.0), cost: 1.0, stock: None }];
    let (kerf, trim, useful, stages, grain) = (Some(3.2), Some(10.0), (300.0, 300.0), None, Grain::Length);
    let saw = Saw { sheets, kerf, trim, useful, stages, grain };
    let Ok(list) = read_parts("list", text, FileId::default(), &saw) else { return Vec::new() };
    *read += 1;
    let laid = list.jobs.iter().filter_map(|job| {
        let pieces: usize = job.request.pieces.iter().map(|piece| piece.count as usize).sum();
        if pieces > MOST_LAID {
            return None;
        }
        let plan = nest(&boxwright::joinery::nesting::Request { effort: EFFORT, ..job.request.clone() });
        let laid: usize = plan.sheets.iter().map(|sheet| sheet.pieces.len()).sum();
        let large = plan.too_large.iter().map(|kind| job.request.pieces[*kind].count as usize).sum::<usize>();
        let (unplaced, sum) = (plan.unplaced, laid + large + plan.unplaced);
        (sum != pieces).then(|| format!("{pieces} pieces: {laid} laid, {large} too large, {unplaced} left out"))
    });
    laid.collect()
}

/// All values of the project's layouts and symbols that hold an expression.
pub fn expressions() -> Vec<String> {
    let files = ["layouts/", "symbols/", "tests/suite/"].into_iter().flat_map(common::yaml_files);
    let lines: Vec<String> = files.flat_map(|(_, text)| text.lines().map(str::to_owned).collect::<Vec<_>>()).collect();
    let values = lines.iter().flat_map(|line| line.split([':', ',', '{', '}', '[', ']'])).map(str::trim);
    let mut values: Vec<String> = values
        .filter(|value| value.contains([' ', '.', '(']) && parse_rule(value, Span::default()).is_ok())
        .map(str::to_owned)
        .collect();
    values.sort();
    values.dedup();
    values
}

/// Parses an expression, also as one of a house rule and as what a rule is about; a mistake must lie inside it.
pub fn expression(text: &str, parsed: &mut u64) -> Vec<String> {
    let end = u32::try_from(text.len()).unwrap();
    let span = Span { end, ..Span::default() };
    let inside = |error: &Diagnostic| {
        let wrong = error.span.end > end || error.span.start > error.span.end || error.message.is_empty();
        wrong.then(|| format!("the mistake lies at {:?} of {end}", error.span))
    };
    let things = parse_things(text, span).err().and_then(|error| inside(&error));
    let of_rules = parse_rule(text, span).err().and_then(|error| inside(&error));
    let plain = match parse(text, span) {
        Ok(expr) => {
            *parsed += 1;
            (expr.span.end > end).then(|| format!("the tree ends at {} of {end}", expr.span.end))
        }
        Err(error) => inside(&error),
    };
    plain.into_iter().chain(of_rules).chain(things).collect()
}

thread_local! {
    /// What the plug-in says next: its description, and its answer to everything else.
    static SAYS: RefCell<[String; 2]> = const { RefCell::new([String::new(), String::new()]) };
}

fn said(function: &str, _question: &[u8]) -> Vec<u8> {
    SAYS.with_borrow(|says| says[usize::from(function != "describe")].clone().into_bytes())
}

/// What a plug-in may say: its description, then answers to `check`, `backend` and `sheet`.
pub fn answers() -> [String; 4] {
    let limit =
        r#"{"name":"least","value":900,"unit":"mm","bound":"least","class":"from-memory","source":"from memory"}"#;
    let check = format!(
        r#"{{"name":"a","says":"b","manual":"c","caution":"d","limits":[{limit}],"reads":{{"model":["modules/*/name"]}}}}"#
    );
    let part = |name: &str| format!(r#"[{{"name":"{name}","says":"e","reads":{{"model":["box/length"]}}}}]"#);
    let [backend, sheet] = ["b", "s"].map(part);
    let finding = r#"{"check":"a","severity":"fault","subject":"locker","about":[{"kind":"part","name":"door"}],"arrangements":[],"message":"m","measured":{"value":880,"unit":"mm"},"required":LIMIT,"arguments":[{"name":"n","figure":{"value":1,"unit":"kg"}}],"places":[{"file":"t.yaml","line":1,"column":1,"end_line":1,"end_column":4}],"marks":[{"at":[1,2]},{"between":[[1,2],[3,4]]},{"area":"M0 0L9 0L9 9Z"}],"help":"h"}"#;
    let text = r#"{"text":{"at":[20,20],"words":"w","height":2.5,"align":"start","turn":90}}"#;
    let group = format!(
        r#"{{"group":{{"id":"g","title":"g","items":[{text},{{"path":{{"shape":"M0 0C1 1 2 2 3 3Z","line":"cut","fill":"ink"}}}}]}}}}"#
    );
    let view = format!(r#"{{"id":"v","title":"v","scale":20,"layers":[{{"kind":"notes","items":[{group}]}}]}}"#);
    let table = r#"{"heading":"h","columns":[{"head":"a","width":20},{"head":"b","figures":true}],"rows":[["x","1"]]}"#;
    let answer = |key: &str, value: &str| format!(r#"{{"format":"boxwright-answer","version":1,"{key}":{value}}}"#);
    [
        format!(
            r#"{{"format":"boxwright-plug-in","version":1,"name":"house","says":"f","checks":[{check}],"backends":{backend},"sheets":{sheet}}}"#
        ),
        answer("findings", &format!("[{}]", finding.replace("LIMIT", limit))),
        answer("files", r#"[{"name":"a.txt","text":"t"},{"name":"b.bin","base64":"AAEC"}]"#),
        answer("sheets", &format!(r#"[{{"title":"t","tables":[{table}]}},{{"title":"u","views":[{view}]}}]"#)),
    ]
}

/// Takes a text for what a plug-in says of itself and for each of its answers; why it is refused has words.
pub fn answered(text: &str, good: &mut u64) -> Vec<String> {
    static LAYOUT: OnceLock<Compiled> = OnceLock::new();
    let compiled = LAYOUT.get_or_init(|| {
        let text = "boxwright: 1\ntitle: t\nbox: { length: 4000, width: 2000, height: 2000 }\nmodules: { locker: { symbol: \
                    stow/overhead-locker, faces: right, place: { front: 700, left: 0, top: box.top }, size: { height: 360 } } }\n";
        let world = MemoryWorld::default().with("t.yaml", text);
        compile(&world, "t.yaml", &Registry::default(), &Options::default())
    });
    let set = |description: &str, answer: &str| SAYS.set([description.to_owned(), answer.to_owned()]);
    let mut silent = Vec::new();
    set(text, "");
    match PlugIn::linked("fuzz", said) {
        Ok(_) => *good += 1,
        Err(why) => silent.extend(why.is_empty().then(|| "a description is refused without a word".to_owned())),
    }
    set(&answers()[0], text);
    // Answers are kept by what the plug-in is made of, so each is another plug-in.
    let plug_in = PlugIn::linked(text, said).unwrap();
    let figures = compiled.figures().unwrap();
    let session = Session::new(Registry::default(), Options::default());
    let outputs = session.draw(compiled, &Wanted::default()).unwrap().unwrap();
    let checks = plug_in.try_checks(&figures).into_iter();
    for tried in checks.chain(plug_in.try_outputs(&outputs.product(compiled))) {
        match tried.made {
            Ok(_) => *good += 1,
            Err(why) => silent.extend(why.is_empty().then(|| format!("{} are refused without a word", tried.what))),
        }
    }
    silent
}

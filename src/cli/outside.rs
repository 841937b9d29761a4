//! A check and a back-end that are made at run time, with names that no source holds, are treated as built-in ones are.

use super::report::{self, Checked};
use super::{Command, build, explain, parsed};
use crate::backends::{Backend, OutputFile, Product, Reads};
use crate::checks::{Check, Context};
use crate::compile::{Compiled, Options, Session, compile};
use crate::diagnostic::{Bound, Finding, Limit, Measure, Quantity, Severity, SourceClass};
use crate::geometry::Axis;
use crate::registry::Registry;
use crate::source::MemoryWorld;
use serde_json::Value;
use std::path::PathBuf;
use std::sync::Arc;

/// Modules are no higher than the house allows.
struct House {
    name: String,
    page: String,
    limits: Vec<Limit>,
}

impl Check for House {
    fn name(&self) -> &str {
        &self.name
    }

    fn says(&self) -> &str {
        "modules of the house are low"
    }

    fn manual(&self) -> String {
        self.page.clone()
    }

    fn caution(&self) -> Option<&str> {
        Some(&self.page)
    }

    fn limits(&self) -> &[Limit] {
        &self.limits
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let judge = |module: &crate::model::Module| {
            let (low, high) = module.extent.range(Axis::Z);
            let required = context.limits.get(&self.limits[0].name);
            let severity = if required.holds(high - low) { Severity::Met } else { Severity::Fault };
            let mut finding = Finding::new(self.name.clone(), severity, &module.name, "too high for the house");
            finding.measured = Some(Measure { value: high - low, quantity: Quantity::Length });
            finding.required = Some(required);
            finding.spans = vec![module.place_span];
            finding
        };
        context.model.modules.iter().map(judge).collect()
    }
}

/// Counts findings.
struct Tally(String);

impl Backend for Tally {
    fn name(&self) -> &str {
        &self.0
    }

    fn says(&self) -> &str {
        "How many findings there are"
    }

    fn reads(&self) -> &[Reads] {
        &[]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let bytes = product.findings.len().to_string().into_bytes();
        Ok(vec![OutputFile { name: format!("{}.txt", self.0), bytes }])
    }
}

fn registry() -> Registry {
    let registry = Registry::standard();
    let name = format!("house:low-{}", registry.checks.len());
    let source = format!("rule book, page {}", 7);
    let (default, quantity, class) = (Bound::Most(300.0), Quantity::Length, SourceClass::CommonPractice);
    let limit = Limit { name: format!("most-{}", 1).into(), default, quantity, class, source: source.into() };
    let page = format!("# Computes\nHeights, for {name}.\n");
    let check = Arc::new(House { name, page, limits: vec![limit] });
    let tally = Arc::new(Tally(format!("tally-{}", registry.backends.len())));
    registry.joined(vec![check], vec![tally]).unwrap()
}

/// A box with one locker, 360 mm high, and more lines.
fn compiled(registry: &Registry, more: &str) -> Compiled {
    let text = format!(
        "boxwright: 1\ntitle: House\nbox: {{ length: 4000, width: 2000, height: 2000 }}\nmodules:\n  locker: {{ symbol: \
         stow/overhead-locker, faces: right, place: {{ front: 700, left: box.left, top: box.top }}, size: {{ run: 2200, \
         height: 360, depth: 400 }} }}\n{more}"
    );
    compile(&MemoryWorld::default().with("house.yaml", &text), "house.yaml", registry, &Options::default())
}

fn own<'a>(registry: &Registry, compiled: &'a Compiled) -> &'a Finding {
    let name = registry.checks.last().unwrap().name();
    compiled.findings.iter().find(|finding| finding.key.check == name).unwrap()
}

#[test]
fn it_finds_suggests_is_limited_and_accepted() {
    let registry = registry();
    let name = registry.checks.last().unwrap().name().to_owned();
    let plain = compiled(&registry, "");
    let found = own(&registry, &plain);
    assert!(found.is_open_fault() && found.measured.unwrap().value == 360.0, "{found:?}");
    assert!(found.suggestion.as_ref().unwrap().words.contains("60 mm"), "{found:?}");
    let changed = format!("limits: {{ {name}: {{ most-1: 400, because: \"high house\" }} }}\n");
    let changed = compiled(&registry, &changed);
    assert_eq!(own(&registry, &changed).severity, Severity::Met);
    assert_eq!(changed.checks.last().unwrap().limits.value("most-1"), 400.0);
    let unknown = compiled(&registry, &format!("limits: {{ {name}: {{ least: 400, because: \"high\" }} }}\n"));
    assert_eq!(unknown.errors.errors()[0].message, format!("check `{name}` has no limit `least`"));
    let accepted = format!("accepted: [ {{ check: {name}, of: locker, because: \"it was there\" }} ]\n");
    let accepted = compiled(&registry, &accepted);
    assert_eq!(own(&registry, &accepted).accepted.as_deref(), Some("it was there"));
    let near = compiled(&registry, &format!("accepted: [ {{ check: {name}x, of: locker, because: \"why\" }} ]\n"));
    assert_eq!(near.errors.errors()[0].help, Some(format!("did you mean `{name}`?")));
}

#[test]
fn it_is_explained_and_reported() {
    let registry = registry();
    let check = registry.checks.last().unwrap();
    let name = check.name();
    assert!(explain::list(&registry).contains(&format!("{name}  ")), "{}", explain::list(&registry));
    let page = explain::page(registry.check(name).unwrap());
    assert!(page.contains(&check.manual()) && page.contains("# Caution"), "{page}");
    assert!(page.contains("most-1: 300 }    # at most 300 mm; rule book, page 7; common practice"), "{page}");
    let layout = [Checked { file: "house.yaml".to_owned(), home: PathBuf::new(), compiled: compiled(&registry, "") }];
    let json: Value = serde_json::from_str(&report::json(&layout)).unwrap();
    let of_name =
        |list: &Value, key: &str| list.as_array().unwrap().iter().find(|one| one[key] == name).cloned().unwrap();
    assert_eq!(of_name(&json[0]["checks"], "name")["limits"][0]["name"], "most-1");
    assert_eq!(of_name(&json[0]["findings"], "check")["subject"], "locker");
    let log: Value = serde_json::from_str(&report::sarif(&layout)).unwrap();
    let rule = of_name(&log["runs"][0]["tool"]["driver"]["rules"], "id");
    assert_eq!(rule["help"]["text"], check.manual());
    let result = of_name(&log["runs"][0]["results"], "ruleId");
    let index = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
    assert_eq!(log["runs"][0]["tool"]["driver"]["rules"][index]["id"], name);
}

#[test]
fn none_takes_the_place_of_another() {
    let registry = registry();
    let same = registry.checks.last().unwrap().clone();
    let name = same.name().to_owned();
    assert_eq!(registry.joined(vec![same], Vec::new()).unwrap_err(), name);
    let svg = registry.backends[0].clone();
    assert_eq!(registry.joined(Vec::new(), vec![svg]).unwrap_err(), "svg");
}

#[test]
fn it_builds() {
    let registry = registry();
    let output = registry.backends.last().unwrap().name().to_owned();
    let words = |only: &str| ["boxwright", "build", "house.yaml", "--only", only].map(Into::into);
    let arguments = parsed(&registry, words(&output)).unwrap();
    assert!(parsed(&Registry::standard(), words(&output)).is_err(), "not known without it");
    let Command::Build(build) = arguments.command else { panic!("no build") };
    let session = Session::new(registry.clone(), Options::default());
    let compiled = compiled(&registry, "");
    let files = build::make(&session, &compiled, &build).unwrap().files;
    assert_eq!(files.len(), 1);
    assert_eq!(
        (&files[0].name, files[0].bytes.clone()),
        (&format!("{output}.txt"), compiled.findings.len().to_string().into_bytes())
    );
}

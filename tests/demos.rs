//! The demo layouts: clean in every arrangement but for what they accept, and their sheets the same in SVG and PDF.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

#[path = "common/mod.rs"]
mod common;
#[path = "common/read_back.rs"]
mod read_back;

use boxwright::backends::{pdf_file, svg_file};
use boxwright::compile::{Compiled, Options, compile, produce};
use boxwright::diagnostic::Severity;
use boxwright::registry::Registry;
use common::{world, yaml_files};
use read_back::{compare, from_pdf, from_svg};

fn demos() -> Vec<(String, Compiled)> {
    let files = yaml_files("layouts");
    let world = world(&files);
    let compiled = |path: &String| compile(&world, path, &Registry::standard(), &Options::default());
    files.iter().map(|(path, _)| (path.clone(), compiled(path))).collect()
}

#[test]
fn every_demo_is_clean_by_day_by_night_and_on_the_road() {
    let demos = demos();
    assert!(demos.len() >= 3, "{}", demos.len());
    for (path, compiled) in demos {
        let model = compiled.model.as_ref().unwrap_or_else(|| panic!("{path}: {:?}", compiled.errors.errors()));
        let open = compiled.findings.iter().filter(|f| f.severity < Severity::Note && f.accepted.is_none());
        let worse: Vec<&String> = open.map(|f| &f.message).collect();
        assert!(worse.is_empty(), "{path}: {worse:?}");
        for wanted in ["day", "night", "travel"] {
            assert!(model.arrangements.iter().any(|arrangement| arrangement.name == wanted), "{path}: {wanted}");
        }
    }
}

#[test]
fn svg_and_pdf_of_every_sheet_agree() {
    for (path, compiled) in demos() {
        let outputs = produce(&compiled).unwrap();
        let pages = from_pdf(&pdf_file(&outputs.sheets, "Test").unwrap());
        assert_eq!(pages.len(), outputs.sheets.len(), "{path}");
        for (sheet, page) in outputs.sheets.iter().zip(&pages) {
            let svg = from_svg(&svg_file(sheet).bytes);
            let worst = compare(&svg, page, 0.05).unwrap_or_else(|error| panic!("{path}, {}: {error}", sheet.id));
            assert!(worst < 0.005, "{path}, {}: {worst}", sheet.id);
        }
    }
}

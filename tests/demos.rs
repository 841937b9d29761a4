//! The demo layouts: clean in every arrangement but for what they accept, and their sheets the same in SVG and PDF.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

#[path = "common/mod.rs"]
mod common;
#[path = "common/read_back.rs"]
mod read_back;

use boxwright::backends::{Backend, Svg, pdf_file, svg_file};
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

/// Every sheet set leads from findings, modules and openings to their places and back; whatever is linked is there.
#[test]
fn links_lead_to_places() {
    for (path, compiled) in demos() {
        let outputs = produce(&compiled).unwrap();
        let document = lopdf::Document::load_mem(&pdf_file(&outputs.sheets, "Test").unwrap()).unwrap();
        let pages: Vec<lopdf::ObjectId> = document.get_pages().into_values().collect();
        let mut count = 0;
        for page in &pages {
            let Ok(links) = document.get_dictionary(*page).unwrap().get(b"Annots") else { continue };
            for link in links.as_array().unwrap() {
                let to = link.as_dict().unwrap().get(b"Dest").unwrap().as_array().unwrap();
                assert!(pages.contains(&to[0].as_reference().unwrap()), "{path}");
                count += 1;
            }
        }
        assert!(count > 30, "{path}: {count} links");
        let files = Svg.files(&outputs.product(&compiled)).unwrap();
        let texts: Vec<(String, String)> =
            files.into_iter().map(|file| (file.name, String::from_utf8(file.bytes).unwrap())).collect();
        let mut addresses = 0;
        for (name, text) in &texts {
            for address in text.split(" href=\"").skip(1).filter_map(|rest| rest.split('"').next()) {
                let (file, id) = address.split_once('#').unwrap();
                let file = if file.is_empty() { name } else { file };
                let (_, to) = texts.iter().find(|(name, _)| name == file).unwrap_or_else(|| panic!("{address}"));
                assert!(to.contains(&format!(" id=\"{id}\"")), "{path}, {name}: {address}");
                addresses += 1;
            }
        }
        assert_eq!(addresses, count, "{path}");
    }
}

/// A set that goes by mail, and a picture that goes into a page.
#[test]
fn files_are_small() {
    for (path, compiled) in demos() {
        let sheets = produce(&compiled).unwrap().sheets;
        let pdf = pdf_file(&sheets, "Test").unwrap().len();
        assert!(pdf < 600_000, "{path}: {pdf} bytes of PDF");
        for sheet in &sheets {
            let svg = svg_file(sheet).bytes.len();
            assert!(svg < 200_000, "{path}, {}: {svg} bytes of SVG", sheet.id);
        }
    }
}

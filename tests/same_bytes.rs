//! Same layout, same bytes: whatever the line ends, blanks, order of keys and working folder.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at once")]

#[path = "common/command.rs"]
mod command;
#[path = "common/mod.rs"]
mod common;

use command::bytes;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

type Files = BTreeMap<String, Vec<u8>>;

/// A folder with the demo layouts in `layouts/`.
fn demos() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("layouts")).unwrap();
    let rules = (common::WORKSHOP.to_owned(), common::text(common::WORKSHOP));
    for (path, text) in common::yaml_files("layouts").into_iter().chain([rules]) {
        let to = folder.path().join(path);
        fs::create_dir_all(to.parent().unwrap()).unwrap();
        fs::write(to, text).unwrap();
    }
    folder
}

/// Builds a layout from a working folder and gives the files of `NAME`.
fn built(from: &Path, layout: &str, name: &str, more: &[&str]) -> Files {
    let out = tempfile::tempdir().unwrap();
    let mut command = assert_cmd::cargo::cargo_bin_cmd!("boxwright");
    command.current_dir(from).args(["build", layout, "--quiet", "--out"]).arg(out.path()).args(more);
    let code = command.output().unwrap().status.code().unwrap();
    assert!(code < 2, "{layout}: {code}");
    bytes(&out.path().join(name))
}

fn same(one: &Files, other: &Files, what: &str) {
    assert_eq!(one.keys().collect::<Vec<_>>(), other.keys().collect::<Vec<_>>(), "{what}");
    for (name, bytes) in one {
        if *bytes != other[name] {
            let (one, other) = (String::from_utf8_lossy(bytes), String::from_utf8_lossy(&other[name]));
            let line = one.lines().zip(other.lines()).find(|(one, other)| one != other);
            panic!("{what}: {name} differs: {line:?}");
        }
    }
}

#[test]
fn the_working_folder_and_the_path_as_typed_change_nothing() {
    let folder = demos();
    let root = folder.path();
    fs::write(root.join("layouts/variant.yaml"), "boxwright: 1\nextends: marram.yaml\ntitle: A variant\n").unwrap();
    fs::create_dir(root.join("elsewhere")).unwrap();
    let absolute = root.join("layouts/variant.yaml");
    let absolute = absolute.to_str().unwrap();
    let first = built(root, "layouts/variant.yaml", "variant", &[]);
    let ways = [
        (root.to_owned(), "./layouts/variant.yaml"),
        (root.join("layouts"), "variant.yaml"),
        (root.join("layouts"), "./variant.yaml"),
        (root.join("elsewhere"), "../layouts/variant.yaml"),
        (root.join("elsewhere"), "../elsewhere/../layouts/./variant.yaml"),
        (root.join("elsewhere"), absolute),
    ];
    for (from, layout) in ways {
        same(&first, &built(&from, layout, "variant", &[]), layout);
    }
    let place = root.to_str().unwrap().as_bytes();
    for (name, bytes) in &first {
        assert!(!bytes.windows(place.len()).any(|window| window == place), "{name} tells where it was made");
    }
    let findings = String::from_utf8(first["findings.json"].clone()).unwrap();
    assert!(findings.contains("\"file\": \"variant.yaml\"") || findings.contains("\"file\": \"marram.yaml\""));
}

/// Reports to programs: of a clean layout, of one with findings and fixes, and of some that do not compile.
#[test]
fn reports_do_not_tell_where_the_command_ran() {
    let folder = demos();
    let root = folder.path();
    let base = fs::read_to_string(root.join("layouts/marram.yaml")).unwrap();
    fs::write(root.join("layouts/50 % für uns.yaml"), base.replace("aisle: 760 ", "aisle: 420 ")).unwrap();
    for (name, base) in [("lost", "maram.yaml"), ("out", "../jobs/job.yaml"), ("round", "round.yaml")] {
        fs::write(root.join(format!("layouts/{name}.yaml")), format!("boxwright: 1\nextends: {base}\n")).unwrap();
    }
    fs::create_dir(root.join("jobs")).unwrap();
    fs::write(root.join("jobs/job.yaml"), "boxwright: 1\nextends: ../layouts/teasel.yaml\ntitle: A job\n").unwrap();
    let said = |from: &Path, to: &str, form: &str| {
        let mut command = assert_cmd::cargo::cargo_bin_cmd!("boxwright");
        command.current_dir(from).args(["check", "--allow-outside", "--format", form]);
        command.args(["marram", "50 % für uns", "lost", "out", "round"].map(|name| format!("{to}layouts/{name}.yaml")));
        command.args([format!("{to}jobs/job.yaml"), format!("{to}layouts/none.yaml")]);
        String::from_utf8(command.output().unwrap().stdout).unwrap()
    };
    let whole = format!("{}/", root.to_str().unwrap());
    for form in ["json", "sarif"] {
        let first = said(root, "", form);
        let ways = [(root.to_owned(), "./"), (root.join("jobs"), "../"), (root.join("layouts"), "../jobs/../")];
        for (from, to) in ways.into_iter().chain([(Path::new("/").to_owned(), whole.as_str())]) {
            let other = said(&from, to, form);
            let line = first.lines().zip(other.lines()).find(|(one, other)| one != other);
            assert!(first == other, "{form} from {}: {line:?}", from.display());
        }
        assert!(!first.contains(root.to_str().unwrap()), "{form} tells where it was made");
        assert!(first.contains("did you mean `marram.yaml`"), "{first}");
    }
    let log: serde_json::Value = serde_json::from_str(&said(root, "", "sarif")).unwrap();
    let results = log["runs"][0]["results"].as_array().unwrap();
    let places = results.iter().map(|result| &result["locations"][0]["physicalLocation"]["artifactLocation"]);
    let places: std::collections::BTreeSet<(&str, &str)> =
        places.map(|place| (place["uriBaseId"].as_str().unwrap(), place["uri"].as_str().unwrap())).collect();
    // RFC 3986, 2.1 and 2.5: a blank is %20, a percent sign %25, the letter with two dots the bytes C3 BC.
    for place in [("LAYOUTS1", "marram.yaml"), ("LAYOUTS1", "50%20%25%20f%C3%BCr%20uns.yaml")] {
        assert!(places.contains(&place), "{places:?}");
    }
    assert!(places.iter().any(|(base, _)| *base == "LAYOUTS2"), "{places:?}");
    assert_eq!(log["runs"][0]["originalUriBaseIds"].as_object().unwrap().len(), 2);
}

/// Files outside the folder are named by their last part.
#[test]
fn files_outside_the_folder_are_named_alike_from_everywhere() {
    let folder = demos();
    let root = folder.path();
    fs::create_dir(root.join("jobs")).unwrap();
    fs::write(root.join("jobs/job.yaml"), "boxwright: 1\nextends: ../layouts/teasel.yaml\ntitle: A job\n").unwrap();
    let more = ["--allow-outside", "--only", "findings-json,model-json,report-json"];
    let first = built(root, "jobs/job.yaml", "job", &more);
    same(&first, &built(&root.join("jobs"), "job.yaml", "job", &more), "from within");
    same(&first, &built(&root.join("layouts"), "../jobs/job.yaml", "job", &more), "from beside");
    let absolute = root.join("jobs/job.yaml");
    same(&first, &built(Path::new("/"), absolute.to_str().unwrap(), "job", &more), "by its whole path");
    assert!(String::from_utf8(first["model.json"].clone()).unwrap().contains("\"file\":\"teasel.yaml\""));
}

#[test]
fn line_ends_marks_and_blanks_change_nothing() {
    let folder = demos();
    let path = folder.path().join("layouts/marram.yaml");
    let text = fs::read_to_string(&path).unwrap();
    let first = built(folder.path(), "layouts/marram.yaml", "marram", &[]);
    let blanks = text.lines().map(|line| format!("{line}  \t \n")).collect::<String>();
    let all = format!("\u{feff}{}", blanks.replace('\n', "\r\n"));
    for (what, other) in [
        ("CRLF", text.replace('\n', "\r\n")),
        ("byte order mark", format!("\u{feff}{text}")),
        ("blanks at line ends", blanks),
        ("no line end at the end", text.trim_end().to_owned()),
        ("empty lines at the end", format!("{text}\n\n\n")),
        ("all of it", all),
    ] {
        fs::write(&path, other).unwrap();
        same(&first, &built(folder.path(), "layouts/marram.yaml", "marram", &[]), what);
    }
}

/// The text in pieces that begin at each top-level key; what stands before the first key is the first piece.
fn pieces(text: &str) -> (String, Vec<String>) {
    let (mut head, mut pieces) = (String::new(), Vec::<String>::new());
    for line in text.split_inclusive('\n') {
        if line.starts_with(|c: char| c.is_ascii_alphabetic()) {
            pieces.push(line.to_owned());
        } else if let Some(last) = pieces.last_mut() {
            last.push_str(line);
        } else {
            head.push_str(line);
        }
    }
    (head, pieces)
}

/// JSON without the places in files, which tell the truth and so move with the lines.
fn without_places(value: &mut serde_json::Value) {
    match value {
        serde_json::Value::Object(map) => {
            for key in ["line", "column", "end_line", "end_column"] {
                map.remove(key);
            }
            map.values_mut().for_each(without_places);
        }
        serde_json::Value::Array(list) => list.iter_mut().for_each(without_places),
        _ => {}
    }
}

fn placeless(files: Files) -> Files {
    let strip = |(name, bytes): (String, Vec<u8>)| {
        if !name.ends_with(".json") {
            return (name, bytes);
        }
        let mut value: serde_json::Value = serde_json::from_slice(&bytes).unwrap();
        without_places(&mut value);
        (name, serde_json::to_vec_pretty(&value).unwrap())
    };
    files.into_iter().map(strip).collect()
}

#[test]
fn the_order_of_top_level_keys_changes_nothing_but_places() {
    let folder = demos();
    for name in ["marram", "skua"] {
        let layout = format!("layouts/{name}.yaml");
        let path = folder.path().join(&layout);
        let text = fs::read_to_string(&path).unwrap();
        let first = placeless(built(folder.path(), &layout, name, &[]));
        let (head, mut pieces) = pieces(&text);
        assert!(pieces.len() > 5 && format!("{head}{}", pieces.concat()) == text);
        pieces.reverse();
        fs::write(&path, format!("{head}{}", pieces.concat())).unwrap();
        same(&first, &placeless(built(folder.path(), &layout, name, &[])), &format!("{name} from its end"));
        pieces.rotate_left(3);
        fs::write(&path, format!("{head}{}", pieces.concat())).unwrap();
        same(&first, &placeless(built(folder.path(), &layout, name, &[])), &format!("{name} turned round"));
    }
}

/// The layout with its modules in the other order.
fn modules_reversed(text: &str) -> String {
    let (head, mut pieces) = pieces(text);
    let modules = pieces.iter_mut().find(|piece| piece.starts_with("modules:")).unwrap();
    let mut each: Vec<String> = Vec::new();
    for line in modules.split_inclusive('\n').skip(1) {
        if line.starts_with("  ") && line.as_bytes()[2].is_ascii_alphabetic() {
            each.push(line.to_owned());
        } else {
            each.last_mut().unwrap().push_str(line);
        }
    }
    assert!(each.len() > 4);
    each.reverse();
    *modules = format!("modules:\n{}", each.concat());
    format!("{head}{}", pieces.concat())
}

fn json(files: &Files, name: &str) -> serde_json::Value {
    let mut value = serde_json::from_slice(&files[name]).unwrap();
    without_places(&mut value);
    value
}

/// What the findings say, in no order. Messages that list modules list them in their order, and of several equal places
/// the first stands for all in what is met.
fn said(files: &Files) -> Vec<String> {
    let findings = json(files, "findings.json");
    let text = |finding: &serde_json::Value| {
        let mut finding = finding.clone();
        let met = finding["severity"] == "met";
        let order = ["message", "arguments", "places", "subject", "about", "marks"];
        // What covers an opening is told by how much of it.
        let own_order = finding["check"] == "opening-blocked";
        for key in order.iter().take(if met { 6 } else { 3 }).skip(if own_order && !met { 2 } else { 0 }) {
            finding.as_object_mut().unwrap().remove(*key);
        }
        finding.to_string()
    };
    let mut said: Vec<String> = findings["findings"].as_array().unwrap().iter().map(text).collect();
    said.sort();
    said
}

/// Rows of a table without the numbers of parts and without what lists modules in their order, in no order.
fn rows(files: &Files, name: &str) -> Vec<Vec<String>> {
    let mut reader = csv::Reader::from_reader(files[name].as_slice());
    let head = reader.headers().unwrap().clone();
    let order = ["part number", "modules", "where", "name", "too large", "module", "code"];
    let row = |record: csv::StringRecord| {
        let cells = head.iter().zip(&record).filter(|(column, _)| !order.contains(column));
        cells.map(|(_, cell)| cell.to_owned()).collect::<Vec<String>>()
    };
    let mut rows: Vec<Vec<String>> = reader.records().map(|record| row(record.unwrap())).collect();
    rows.sort();
    rows
}

/// Figures, findings, parts and where they lie on their sheets do not depend on the order of the modules. Their numbers
/// do, with the numbers of parts that several modules share, and the order of rows and lists.
#[test]
fn the_order_of_modules_changes_numbers_and_nothing_else() {
    let folder = demos();
    for name in ["marram", "skua", "teasel"] {
        let layout = format!("layouts/{name}.yaml");
        let path = folder.path().join(&layout);
        let only = ["--only", "findings-json,report-json,cut-list"];
        let first = built(folder.path(), &layout, name, &only);
        fs::write(&path, modules_reversed(&fs::read_to_string(&path).unwrap())).unwrap();
        let other = built(folder.path(), &layout, name, &only);
        assert_ne!(first, other, "{name}: the test turns something round");
        assert!(said(&first) == said(&other), "{name}: findings");
        for table in ["cut-list.csv", "cutting-plan.csv"] {
            assert_eq!(rows(&first, table), rows(&other, table), "{name}: {table}");
        }
        let report = |files: &Files| in_no_order(json(files, "report.json")).to_string();
        assert!(report(&first) == report(&other), "{name}: report.json");
    }
}

/// JSON with its lists of objects sorted.
fn in_no_order(value: serde_json::Value) -> serde_json::Value {
    match value {
        serde_json::Value::Object(map) => map.into_iter().map(|(key, value)| (key, in_no_order(value))).collect(),
        serde_json::Value::Array(list) => {
            let mut list: Vec<serde_json::Value> = list.into_iter().map(in_no_order).collect();
            if list.iter().all(serde_json::Value::is_object) {
                list.sort_by_cached_key(ToString::to_string);
            }
            list.into()
        }
        other => other,
    }
}

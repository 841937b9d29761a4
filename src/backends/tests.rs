//! The text back-ends, read back with the libraries that others use for these forms.

use super::{Backend, CsvForm, CutListCsv, FindingsJson, ModelJson, Product};
use super::{Found, Report};
use crate::diagnostic::wire::json_text;
use crate::diagnostic::{Bound, Diagnostic, Finding, Limit, Mark, Measure, Quantity, Severity, Sink};
use crate::figures::Figures;
use crate::geometry::Polygon;
use crate::joinery::fixture::{model, module, part};
use crate::model::{Bands, Machining, Model};
use crate::source::{FileId, SourceMap, Span};
use kurbo::{Point, Rect, Shape};

const TEXT: &str = "title: Überbau\nmodules:\n  galley: {}\n";

struct Case {
    model: &'static Model,
    findings: Vec<Finding>,
    figures: Figures<'static>,
    errors: Sink,
    sources: SourceMap,
}

impl Case {
    fn product(&self) -> Product<'_> {
        let Self { model, findings, figures, errors, sources } = self;
        Product {
            model,
            figures,
            checks: &[],
            findings,
            sums: &[],
            sheets: &[],
            labels: &[],
            tiles: Ok(&[]),
            errors,
            sources,
            picture: None,
            csv: CsvForm::default(),
        }
    }

    fn file(&self, backend: &dyn Backend, name: &str) -> String {
        let files = backend.files(&self.product()).unwrap();
        assert_eq!(files, backend.files(&self.product()).unwrap(), "same product, same bytes");
        String::from_utf8(files.into_iter().find(|file| file.name == name).unwrap().bytes).unwrap()
    }
}

fn case(faults: usize) -> Case {
    let mut side = part("side", 2, 800.0, 560.0);
    side.bands = Bands { front: 1.0, ..Bands::default() };
    let hole = |x: f64| Machining::Hole { at: (x, 37.0), diameter: 5.0, depth: Some(12.0), reverse: false };
    let groove = Machining::Groove {
        from: (0.0, 543.0),
        to: (800.0, 543.0),
        width: 6.2,
        depth: 7.0,
        reverse: false,
        holds: None,
    };
    side.machining = vec![hole(64.0), hole(96.0), groove];
    let mut top = part("top", 1, 1200.0, 600.0);
    top.note = Some("=1+1, \"quoted\"\nand a second line".to_owned());
    top.scribe.right = 10.0;
    let outline = Polygon::rect(Rect::new(300.0, 100.0, 700.0, 400.0));
    top.machining = vec![Machining::Cutout { name: "sink".to_owned(), outline, curve: None }];
    let model = model(vec![module("galley", vec![side, top, part("long", 1, 3000.0, 200.0)])]);
    let mut sources = SourceMap::default();
    sources.add("layouts/fixture.yaml".to_owned(), TEXT.to_owned());
    let model: &'static Model = Box::leak(Box::new(model));
    let figures = crate::figures::alone(model);
    let mut accepted = finding();
    accepted.accepted = Some("owner asked for it".to_owned());
    let findings = std::iter::repeat_n(finding(), faults).chain([accepted]).collect();
    Case { model, findings, figures, errors: Sink::default(), sources }
}

/// Points at `galley`, line 3 column 3, byte 27: the capital letter with two dots has two bytes.
fn span() -> Span {
    let start = u32::try_from(TEXT.find("galley").unwrap()).unwrap();
    Span { file: FileId(0), start, end: start + 6 }
}

fn finding() -> Finding {
    let mut finding =
        Finding::new("walkway", Severity::Fault, "galley", "the way is 412 mm wide and 480 mm is required");
    let measure = |value| Measure { value, quantity: Quantity::Length };
    finding.arrangements = vec!["day".to_owned()];
    finding.measured = Some(measure(412.000_49));
    finding.required = Some(Limit::practice("least", Bound::Least(480.0), Quantity::Length).requirement(None));
    finding.spans = vec![span()];
    let (a, b) = (Point::new(1.0, 2.0), Point::new(3.0, 1.0 / 3.0));
    finding.marks = vec![Mark::At(a), Mark::Between(a, b), Mark::Area(Rect::new(0.0, 0.0, 5.0, 5.0).to_path(0.1))];
    finding
}

fn records(text: &str) -> Vec<std::collections::BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let headers = reader.headers().unwrap().clone();
    let row =
        |record: csv::StringRecord| headers.iter().zip(record.iter()).map(|(k, v)| (k.into(), v.into())).collect();
    reader.records().map(|record| row(record.unwrap())).collect()
}

#[test]
fn the_cut_list_reads_back() {
    let rows = records(&case(0).file(&CutListCsv, "cut-list.csv"));
    let kinds: Vec<_> = rows.iter().map(|row| row["row"].as_str()).collect();
    assert_eq!(kinds, ["part", "part", "part", "total", "band"]);
    let side = &rows[2];
    assert_eq!(
        (side["part number"].as_str(), side["modules"].as_str(), side["count"].as_str()),
        ("galley-01", "galley x2", "2")
    );
    assert_eq!((side["finished width mm"].as_str(), side["cut width mm"].as_str()), ("560", "559"));
    assert_eq!((side["band front mm"].as_str(), side["band left mm"].as_str()), ("1", ""));
    assert_eq!(
        side["machining"],
        "hole 5 wide 12 deep at (64 37) (96 37); groove 6.2 wide 7 deep (0 543) to (800 543)"
    );
    // By hand: 0.8 x 0.56 x 0.012 x 695 = 3.736 kg.
    assert_eq!((side["mass each kg"].as_str(), side["mass total kg"].as_str()), ("3.736", "7.473"));
    // By hand: two edges of 0.8 m and 50 mm more for each.
    assert_eq!((rows[4]["metres"].as_str(), rows[4]["metres to buy"].as_str()), ("1.60", "2"));
    assert_eq!(rows[4]["name"], "edge band 1 x 15 mm");
    assert_eq!(rows[1]["machining"], "cutout sink 400 x 300 at (300 100)");
    assert_eq!(rows[1]["note"], "'=1+1, \"quoted\"\nand a second line; left on for scribing: right 10 mm");
}

#[test]
fn totals_name_what_is_too_large() {
    let rows = records(&case(0).file(&CutListCsv, "cut-list.csv"));
    assert_eq!((rows[0]["part number"].as_str(), rows[0]["too large"].as_str()), ("galley-03", "too large"));
    let total = &rows[3];
    assert_eq!((total["too large"].as_str(), total["count"].as_str()), ("too large: galley-03", "4"));
    assert_eq!((total["sheets"].as_str(), total["sheets at least"].as_str()), ("1", "1"));
    // By hand: cut areas 2 x 0.8 x 0.559 + 1.21 x 0.6 + 3 x 0.2 m2; the last is on no sheet of 2.9768 m2.
    assert_eq!((total["area m2"].as_str(), total["waste %"].as_str()), ("2.220", "45.6"));
    assert_eq!(total["note"], "1 of 2440 x 1220");
}

#[test]
fn open_faults_hold_every_row() {
    for (name, marks) in [("cut-list.csv", 5), ("cutting-plan.csv", 3)] {
        let rows = records(&case(2).file(&CutListCsv, name));
        assert_eq!(
            (rows[0]["row"].as_str(), rows[0]["name"].as_str()),
            ("HELD", "2 faults found: do not cut from this list")
        );
        assert_eq!(rows.iter().filter(|row| row["row"].starts_with("HELD ")).count(), marks);
        assert!(!case(0).file(&CutListCsv, name).contains("HELD"), "an accepted fault holds nothing");
    }
}

/// RFC 4180: lines end with CR LF, and a field with quotes, commas or line ends is quoted.
#[test]
fn lines_end_as_the_standard_says() {
    let text = case(0).file(&CutListCsv, "cut-list.csv");
    assert!(text.ends_with("\r\n") && text.contains("\"'=1+1, \"\"quoted\"\"\nand"));
    assert_eq!(text.replace("\r\n", "").matches('\n').count(), 1, "only the note's own line end is bare");
}

#[test]
fn the_cutting_plan_lists_each_piece() {
    let rows = records(&case(0).file(&CutListCsv, "cutting-plan.csv"));
    let mut numbers: Vec<_> = rows.iter().map(|row| row["part number"].as_str()).collect();
    numbers.sort_unstable();
    assert_eq!(numbers, ["galley-01", "galley-01", "galley-02"]);
    assert!(rows.iter().all(|row| row["sheet"] == "1" && row["turned"].is_empty()));
    let cuts: Vec<usize> = rows.iter().map(|row| row["cut"].parse().unwrap()).collect();
    assert!(cuts.is_sorted() && cuts[0] > 4, "{cuts:?}");
    let mut codes: Vec<_> = rows.iter().map(|row| row["code"].as_str()).collect();
    codes.sort_unstable();
    assert_eq!(codes, ["galley-01.1", "galley-01.2", "galley-02"]);
}

#[test]
fn findings_read_back_with_their_place() {
    let json: serde_json::Value = serde_json::from_str(&case(2).file(&FindingsJson, "findings.json")).unwrap();
    assert_eq!((&json["faults"], &json["accepted"], &json["compiled"]), (&2.into(), &1.into(), &true.into()));
    let first = &json["findings"][0];
    let place =
        serde_json::json!({"file": "layouts/fixture.yaml", "line": 3, "column": 3, "end_line": 3, "end_column": 9});
    assert_eq!(first["places"][0], place);
    assert_eq!(first["measured"], serde_json::json!({"value": 412.0, "unit": "mm"}));
    assert_eq!(first["required"]["class"], "common-practice");
    assert_eq!(first["marks"][1]["between"], serde_json::json!([[1.0, 2.0], [3.0, 0.333]]));
    assert!(first["marks"][2]["area"].as_str().unwrap().starts_with("M0,0"));
    assert_eq!(json["findings"][2]["accepted"], "owner asked for it");
}

#[test]
fn errors_are_reported_in_the_same_form() {
    let case = case(0);
    let error = Diagnostic::new(span(), "the module has no symbol").note(span(), "here").help("add `symbol: ...`");
    let text = json_text(&Report::new(
        "fixture",
        Found { errors: (&[error], 3), model: None, checks: &[], findings: &[], sources: &case.sources },
    ));
    let json: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!((&json["compiled"], &json["more_errors"]), (&false.into(), &3.into()));
    assert_eq!(json["errors"][0]["place"]["line"], 3);
    assert_eq!(json["errors"][0]["others"][0]["says"], "here");
}

#[test]
fn the_model_reads_back() {
    let json: serde_json::Value = serde_json::from_str(&case(1).file(&ModelJson, "model.json")).unwrap();
    assert_eq!((&json["format"], &json["version"], &json["held"]), (&"boxwright-model".into(), &4.into(), &1.into()));
    assert_eq!(json["box"]["roof"]["line"][1], serde_json::json!([2000.0, 1960.0]));
    let galley = &json["modules"][0];
    assert_eq!(galley["poses"][0]["solids"][0]["prism"]["range"], serde_json::json!([0.0, 900.0]));
    assert_eq!(galley["parts"][1]["machining"][0]["cutout"]["name"], "sink");
    assert_eq!(json["arrangements"][0]["poses"][0], serde_json::json!({"module": "galley", "pose": "shut"}));
    let total = &json["cut-list"]["totals"][0];
    assert_eq!((&total["sheets-used"], &total["too-large"][0]), (&1.into(), &"galley-03".into()));
    assert_eq!(total["sheets"][0]["pieces"].as_array().unwrap().len(), 3);
}

/// Keys come in the order the docs give, not sorted.
#[test]
fn keys_keep_their_order() {
    let text = case(0).file(&ModelJson, "model.json");
    let at = |key: &str| text.find(&format!(",\"{key}\":")).unwrap();
    let order =
        ["version", "held", "name", "title", "people", "box", "openings", "modules", "arrangements", "cut-list"];
    assert!(order.windows(2).all(|pair| at(pair[0]) < at(pair[1])));
}

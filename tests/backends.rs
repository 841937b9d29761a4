//! The SVG and the PDF of a sheet show the same things at the same place, whatever its texts hold.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

#[path = "common/read_back.rs"]
mod read_back;
#[path = "common/test_sheet.rs"]
mod test_sheet;

use boxwright::backends::{pdf_file, svg_file};
use boxwright::drawing::{Align, Item, Layer, LayerKind, LineClass, Look, Paper, Sheet, View, font};
use boxwright::model::PaperSize;
use kurbo::Point;
use read_back::{Drawn, compare, from_pdf, from_svg, pdf_layers};
use test_sheet::sheet;

fn sheets() -> Vec<Sheet> {
    let a3 = Paper::landscape(PaperSize::A3);
    let a4 = Paper::landscape(PaperSize::A4).turned();
    vec![sheet("plan-day", "General plan, day", a3), sheet("plan-night", "General plan, žluť", a4)]
}

fn with_texts(texts: &[&str]) -> Sheet {
    let items = texts
        .iter()
        .enumerate()
        .map(|(i, words)| Item::text(Point::new(30.0, 200.0 - 6.0 * i as f64), *words, 2.5, Align::Start));
    let layer = Layer { kind: LayerKind::Notes, items: items.collect() };
    let title = texts.concat();
    let view = View { id: title.clone(), title: title.clone(), scale: None, layers: vec![layer] };
    Sheet {
        id: "texts".into(),
        title,
        paper: Paper::landscape(PaperSize::A3),
        views: vec![view],
        look: Look::default(),
    }
}

const HOSTILE: [&str; 9] = [
    "<script>alert(1)</script>",
    "]]> & &amp; <!-- -->",
    "\"quoted\" 'single' \\ ) ( %",
    "cle\u{301} with a combining mark",
    "a\u{0}b\u{7}c\u{1b}[31m\u{fffe}\u{ffff}",
    "face 😀 and 漢字",
    "right \u{202e}tfel\u{202c} to left",
    "  two  spaces  ",
    "line\nend\ttab",
];

#[test]
fn svg_and_pdf_agree() {
    let sheets = sheets();
    let pages = from_pdf(&pdf_file(&sheets, "Test").unwrap());
    assert_eq!(pages.len(), 2);
    for (sheet, page) in sheets.iter().zip(&pages) {
        let svg = from_svg(&svg_file(sheet).bytes);
        assert!(svg.drawn.len() > 150, "{}", svg.drawn.len());
        let worst = compare(&svg, page, 0.05).unwrap();
        assert!(worst < 0.005, "{worst}");
        assert_eq!((svg.width, svg.height), (sheet.paper.width, sheet.paper.height));
    }
}

#[test]
fn every_kind_of_thing_is_read_back() {
    let page = from_svg(&svg_file(&sheets()[0]).bytes);
    let lines = |layer: &str| {
        page.drawn.iter().filter(|drawn| matches!(drawn, Drawn::Line { layer: on, .. } if on == layer)).count()
    };
    assert_eq!(lines("zones"), LineClass::ALL.len());
    assert_eq!(lines("shell"), 2);
    let turned = page.drawn.iter().filter(|drawn| matches!(drawn, Drawn::Text { turn, .. } if *turn == 90.0)).count();
    assert_eq!(turned, 3);
}

#[test]
fn a_moved_line_is_noticed() {
    let mut moved = sheets().remove(0);
    let page = &from_pdf(&pdf_file(&[moved.clone()], "Test").unwrap())[0];
    let Item::Path(path) = &mut moved.views[1].layers[0].items[0] else { panic!("a path") };
    path.shape = kurbo::Affine::translate((0.06, 0.0)) * path.shape.clone();
    assert!(compare(&from_svg(&svg_file(&moved).bytes), page, 0.05).is_err());
}

#[test]
fn same_sheets_same_bytes() {
    let sheets = sheets();
    assert_eq!(pdf_file(&sheets, "Test").unwrap(), pdf_file(&sheets, "Test").unwrap());
    assert_eq!(svg_file(&sheets[0]), svg_file(&sheets[0]));
    assert_ne!(pdf_file(&sheets, "Test").unwrap(), pdf_file(&sheets, "Rest").unwrap());
}

#[test]
fn hostile_texts_stay_texts() {
    let sheet = with_texts(&HOSTILE);
    let svg = svg_file(&sheet).bytes;
    let page = from_svg(&svg);
    let source = String::from_utf8(svg).unwrap();
    let tree = roxmltree::Document::parse(&source).unwrap();
    assert!(tree.descendants().all(|node| !node.has_tag_name("script")));
    let texts: Vec<&str> = page
        .drawn
        .iter()
        .filter_map(|d| if let Drawn::Text { words, .. } = d { Some(words.as_str()) } else { None })
        .collect();
    let wanted: Vec<String> = HOSTILE.iter().map(|words| font::shown(words).collect()).collect();
    assert_eq!(texts, wanted);
    assert_eq!(texts[4], "abc[31m");
    let pdf = &from_pdf(&pdf_file(&[sheet], &HOSTILE.concat()).unwrap())[0];
    for (drawn, words) in pdf.drawn.iter().zip(&wanted) {
        let Drawn::Text { words: read, .. } = drawn else { panic!("{drawn:?}") };
        let boxes: String = words.chars().map(|c| if font::supports(c) { c } else { '\u{fffd}' }).collect();
        assert_eq!(read, &boxes);
    }
}

#[test]
fn numbers_that_are_none_do_no_harm() {
    let mut sheet = with_texts(&["x"]);
    let bad = [f64::NAN, f64::INFINITY, -1e300];
    let points = bad.map(|value| Point::new(value, value));
    sheet.views[0].layers[0].items.extend(points.map(|at| Item::text(at, "y", 2.5, Align::End)));
    assert!(from_svg(&svg_file(&sheet).bytes).drawn.len() == 4);
    assert!(from_pdf(&pdf_file(&[sheet], "").unwrap())[0].drawn.len() == 4);
}

#[test]
fn pdf_has_layers_bookmarks_labels_and_a_title() {
    let bytes = pdf_file(&sheets(), "Žluť").unwrap();
    assert!(bytes.starts_with(b"%PDF-1.7"));
    let expected: Vec<&str> = LayerKind::ALL.iter().map(|kind| kind.name()).collect();
    assert_eq!(pdf_layers(&bytes), expected);
    let document = lopdf::Document::load_mem(&bytes).unwrap();
    let toc: Vec<String> = document.get_toc().unwrap().toc.into_iter().map(|entry| entry.title).collect();
    assert_eq!(toc, ["General plan, day", "General plan, žluť"]);
    let labels = document.catalog().unwrap().get(b"PageLabels").unwrap().as_dict().unwrap();
    let labels = labels.get(b"Nums").unwrap().as_array().unwrap();
    assert_eq!(labels[1].as_dict().unwrap().get(b"P").unwrap().as_str().unwrap(), b"plan-day");
    let info = document.get_dictionary(document.trailer.get(b"Info").unwrap().as_reference().unwrap()).unwrap();
    assert_eq!(lopdf::decode_text_string(info.get(b"Title").unwrap()).unwrap(), "Žluť");
    assert!(info.get(b"CreationDate").is_err() && info.get(b"GTS_PDFXVersion").is_err());
}

#[test]
fn no_sheets_and_empty_sheets_are_files_too() {
    let empty = Sheet {
        id: "e".into(),
        title: String::new(),
        paper: Paper::landscape(PaperSize::A4),
        views: vec![],
        look: Look::default(),
    };
    assert!(from_svg(&svg_file(&empty).bytes).drawn.is_empty());
    assert!(from_pdf(&pdf_file(&[empty], "").unwrap())[0].drawn.is_empty());
    assert!(pdf_file(&[], "").unwrap().starts_with(b"%PDF-1.7"));
}

#[test]
fn svg_names_are_plain_and_unique() {
    let mut sheet = with_texts(&["x"]);
    sheet.id = "../../up & away".into();
    sheet.views.push(sheet.views[0].clone());
    let file = svg_file(&sheet);
    assert_eq!(file.name, "------up---away.svg");
    let source = String::from_utf8(file.bytes).unwrap();
    let tree = roxmltree::Document::parse(&source).unwrap();
    let mut ids: Vec<&str> = tree.descendants().filter_map(|node| node.attribute("id")).collect();
    let count = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!((count, ids.len()), (4, 4));
}

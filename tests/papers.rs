//! Every sheet on every paper, upright and lying: frame, title block, numbers and stamp in their places, and true to
//! scale in the PDF.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop at once")]

#[path = "common/read_back.rs"]
mod read_back;

use boxwright::backends::pdf_file;
use boxwright::compile::{Compiled, Options, compile, produce};
use boxwright::drawing::{Item, Sheet, text_box, title_block_place};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use kurbo::{Rect, Shape};
use read_back::{Drawn, Page, from_pdf};

/// Papers in both orientations: how `sheets:` asks for them, width and height (ISO 216), mm.
const PAPERS: [(&str, f64, f64); 8] = [
    ("paper: A4", 297.0, 210.0),
    ("paper: A4, orientation: portrait", 210.0, 297.0),
    ("paper: A3", 420.0, 297.0),
    ("paper: A3, orientation: portrait", 297.0, 420.0),
    ("paper: A2", 594.0, 420.0),
    ("paper: A2, orientation: portrait", 420.0, 594.0),
    ("paper: A1", 841.0, 594.0),
    ("paper: A1, orientation: portrait", 594.0, 841.0),
];

/// A layout with a fault, cargo and two revisions.
const HELD: &str = "boxwright: 1
title: A box with a fault
revision: [{ mark: A, note: first issue, date: 2026-01-10, by: R. Halden }, { mark: B, note: door moved }]
box: { length: 2400, width: 1900, height: 1950 }
openings:
  entry: { kind: door, wall: right, front: 300, run: 600, sill: 0, height: 1800, hinge: front, swings: out }
modules:
  boot:
    symbol: stow/boot
    faces: front
    place: { front: 1200, rear: box.rear, left: box.left, right: box.right }
    size: { height: 640 }
  shelf:
    symbol: stow/wardrobe
    faces: right
    place: { front: 1100, left: box.left }
    size: { run: 800, depth: 500, height: 1700 }
  other:
    symbol: stow/wardrobe
    faces: left
    place: { front: 1000, left: 300 }
    size: { run: 800, depth: 500, height: 1700 }
cargo:
  crate: { size: [600, 400, 300], mass: 12, count: 3, in: boot }
";

fn compiled(text: &str) -> Compiled {
    let world = MemoryWorld::default().with("box.yaml", text);
    compile(&world, "box.yaml", &Registry::standard(), &Options::default())
}

/// All sheets but the brochure, which has no frame.
fn sheets(text: &str) -> Vec<Sheet> {
    let compiled = compiled(text);
    let outputs = produce(&compiled).unwrap_or_else(|| panic!("{:?}", compiled.errors.errors()));
    outputs.sheets.into_iter().filter(|sheet| sheet.id != "brochure").collect()
}

fn boxes(items: &[Item], into: &mut Vec<(Rect, String)>) {
    for item in items {
        match item {
            Item::Path(path) => into.push((path.shape.bounding_box(), "a path".to_owned())),
            Item::Text(text) => into.push((text_box(text), text.words.clone())),
            Item::Group(group) => boxes(&group.items, into),
        }
    }
}

/// What is drawn in a view, or in all but the frame.
fn drawn(sheet: &Sheet, wanted: impl Fn(&str) -> bool) -> Vec<(Rect, String)> {
    let mut all = Vec::new();
    let views = sheet.views.iter().filter(|view| wanted(&view.id));
    views.flat_map(|view| &view.layers).for_each(|layer| boxes(&layer.items, &mut all));
    all
}

#[test]
fn every_sheet_keeps_to_its_frame_on_every_paper() {
    for (paper, width, height) in PAPERS {
        let sheets = sheets(&format!("{HELD}sheets: {{ {paper} }}\n"));
        assert!(sheets.len() >= 4, "{paper}: {}", sheets.len());
        let count = sheets.len();
        for (index, sheet) in sheets.iter().enumerate() {
            let name = format!("{paper}, {}", sheet.id);
            assert_eq!((sheet.paper.width, sheet.paper.height), (width, height), "{name}");
            let space = Rect::new(20.0, 10.0, width - 10.0, height - 10.0);
            let block = title_block_place(sheet.paper);
            assert_eq!((block.x1, block.y0, block.width()), (width - 10.0, 10.0, 180.0), "{name}");
            assert!(block.x0 >= 20.0, "{name}");
            let stamps = drawn(sheet, |id| id == "held");
            assert!(stamps.iter().any(|(_, words)| words.starts_with("HELD: ")), "{name}");
            for (place, what) in drawn(sheet, |id| id != "frame") {
                assert!(space.union(place) == space, "{name}: {what} at {place:?}");
                assert!(block.intersect(place).area() <= 0.0, "{name}: {what} at {place:?} is on the title block");
            }
            let stamp = stamps.iter().map(|(place, _)| *place).reduce(|a, b| a.union(b)).unwrap();
            for (place, what) in drawn(sheet, |id| id != "frame" && id != "held") {
                assert!(stamp.intersect(place).area() <= 0.0, "{name}: {what} at {place:?} is on the stamp");
            }
            let said: Vec<String> = drawn(sheet, |id| id == "frame").into_iter().map(|(_, words)| words).collect();
            let number = format!("{} / {count}", index + 1);
            for wanted in [number.as_str(), "A box with a fault", "B", paper.split([' ', ',']).nth(1).unwrap()] {
                assert!(said.iter().any(|words| words == wanted), "{name}: {wanted}");
            }
        }
        let all: Vec<String> = sheets.iter().flat_map(|sheet| drawn(sheet, |_| true)).map(|(_, words)| words).collect();
        for wanted in ["Revisions", "first issue", "R. Halden", "2026-01-10", "door moved"] {
            assert!(all.iter().any(|words| words == wanted), "{paper}: {wanted}");
        }
    }
}

/// Lengths of all straight pieces of a layer, mm.
fn lengths(page: &Page, layer: &str) -> Vec<f64> {
    let shapes = page.drawn.iter().filter_map(|drawn| match drawn {
        Drawn::Line { layer: on, shape, .. } if on == layer => Some(shape),
        _ => None,
    });
    shapes.flat_map(|shape| shape.segments()).map(|segment| kurbo::ParamCurveArclen::arclen(&segment, 1e-6)).collect()
}

/// Wanted true lengths of a layer are there at a scale, to 0.1 mm on paper.
fn has(page: &Page, layer: &str, scale: f64, wanted: &[f64], name: &str) {
    let found = lengths(page, layer);
    for length in wanted {
        let near = found.iter().map(|found| (found - length / scale).abs()).fold(f64::INFINITY, f64::min);
        assert!(near < 0.1, "{name}: {length} at 1:{scale} is {near} mm off");
    }
}

// By hand from the file: box 2400 by 1900 in walls of 42 (skins of 1 mm on 40 of foam), door 600, boot 1200 deep,
// wardrobe 800 by 485 behind its doors of 15. The frame: ISO 5457, drawing space; ISO 7200, width of the title block.
#[test]
fn five_lengths_of_every_sheet_are_true_in_the_pdf() {
    for (paper, width, height) in PAPERS {
        let sheets = sheets(&format!("{HELD}sheets: {{ {paper} }}\n"));
        let pages = from_pdf(&pdf_file(&sheets, "Test").unwrap());
        for (sheet, page) in sheets.iter().zip(&pages) {
            let name = format!("{paper}, {}", sheet.id);
            has(page, "frame", 1.0, &[width - 30.0, height - 20.0, 180.0, 40.0, 10.0], &name);
            let scale = sheet.views.iter().find_map(|view| view.scale);
            match (sheet.id.split('-').next().unwrap(), scale) {
                ("plan", Some(scale)) => {
                    has(page, "dimensions", scale, &[2400.0, 1900.0], &name);
                    has(page, "furniture", scale, &[800.0, 485.0], &name);
                    has(page, "shell", scale, &[600.0, 1900.0], &name);
                }
                ("stowage", Some(scale)) => {
                    has(page, "shell", scale, &[1200.0, 640.0, 1900.0], &name);
                    has(page, "dimensions", scale, &[1200.0, 640.0], &name);
                }
                ("elevations", Some(scale)) if sheet.title.contains("left") => {
                    has(page, "shell", scale, &[2400.0], &name);
                    has(page, "dimensions", scale, &[2400.0], &name);
                }
                ("panel", Some(scale)) if sheet.id.ends_with("floor") => {
                    has(page, "shell", scale, &[2400.0, 1900.0], &name);
                    has(page, "dimensions", scale, &[2400.0, 1900.0], &name);
                }
                _ => {}
            }
        }
    }
}

/// A length that is a little off is noticed.
#[test]
fn a_wrong_scale_is_noticed() {
    let sheets = sheets(&format!("{HELD}sheets: {{ paper: A3 }}\n"));
    let at = sheets.iter().position(|sheet| sheet.id.starts_with("plan")).unwrap();
    let page = &from_pdf(&pdf_file(&sheets[at..=at], "Test").unwrap())[0];
    let scale = sheets[at].views.iter().find_map(|view| view.scale).unwrap();
    let found = lengths(page, "shell");
    let off = |length: f64| found.iter().all(|found| (found - length / scale).abs() >= 0.1);
    assert!(off(603.0) && !off(600.0));
}

/// What a third-angle set shows: its symbol, its words, and the view from above over the one from the left.
#[test]
fn third_angle_turns_the_views_about() {
    for (projection, sign) in [("first", 1.0), ("third", -1.0)] {
        let sheets = sheets(&format!("{HELD}sheets: {{ paper: A3, projection: {projection} }}\n"));
        let sheet = sheets.iter().find(|sheet| sheet.id.starts_with("stowage")).unwrap();
        let all = drawn(sheet, |_| true);
        let at = |wanted: &str| all.iter().find(|(_, words)| words == wanted).unwrap().0.center();
        assert!((at("From the left").y - at("From above").y) * sign > 0.0, "{projection}");
        let words: Vec<&str> = all.iter().map(|(_, words)| words.as_str()).collect();
        let said = if sign > 0.0 { "First-angle projection." } else { "Third-angle projection." };
        assert!(words.join(" ").contains(said), "{projection}");
    }
}

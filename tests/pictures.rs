//! Pictures of the demos: PNG of a chosen width, without paper, letters as outlines, the same bytes each time.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop at once")]

#[path = "common/mod.rs"]
mod common;
#[path = "common/read_back.rs"]
mod read_back;

use assert_cmd::Command;
use assert_cmd::cargo::cargo_bin_cmd;
use boxwright::backends::{pdf_file, png_file, svg_file};
use boxwright::compile::{Options, Outputs, compile, produce};
use boxwright::drawing::Sheet;
use boxwright::registry::Registry;
use resvg::tiny_skia::Pixmap;
use std::fs;
use tempfile::TempDir;

const DEMO: &str = "layouts/skua.yaml";

fn outputs(theme: &str) -> Outputs<'static> {
    let text = format!("{}\nsheets: {{ theme: {theme} }}\n", common::text(DEMO));
    let world = boxwright::source::MemoryWorld::default().with(DEMO, &text);
    let compiled = compile(&world, DEMO, &Registry::standard(), &Options::default());
    produce(Box::leak(Box::new(compiled))).unwrap()
}

fn brochure<'a>(outputs: &'a Outputs<'_>) -> &'a Sheet {
    outputs.sheets.last().unwrap()
}

/// Width and height from the header (PNG, third edition: signature of 8 bytes, then IHDR with both as big-endian).
fn size(png: &[u8]) -> (u32, u32) {
    assert_eq!(&png[..8], b"\x89PNG\r\n\x1a\n");
    assert_eq!(&png[12..16], b"IHDR");
    let number = |at: usize| u32::from_be_bytes(png[at..at + 4].try_into().unwrap());
    (number(16), number(20))
}

fn text(sheet: &Sheet) -> String {
    String::from_utf8(svg_file(sheet).bytes).unwrap()
}

fn folder() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("a.yaml"), common::text(DEMO)).unwrap();
    folder
}

fn build(folder: &TempDir, arguments: &str) -> Command {
    let mut command = cargo_bin_cmd!("boxwright");
    command.current_dir(folder.path()).args(["build", "a.yaml"]).args(arguments.split_whitespace());
    command
}

#[test]
fn a_picture_is_as_wide_as_asked_and_always_the_same() {
    let outputs = outputs("sober");
    let sheet = brochure(&outputs);
    assert_eq!(sheet.id, "brochure");
    for width in [100, 777] {
        let file = png_file(sheet, width).unwrap();
        assert_eq!(file.name, "brochure.png");
        // ISO 216: A3 is 420 x 297 mm.
        assert_eq!(size(&file.bytes), (width, (f64::from(width) * 297.0 / 420.0).round() as u32));
        assert_eq!(file, png_file(sheet, width).unwrap());
    }
}

#[test]
fn without_paper_the_corner_is_clear() {
    let corner = |outputs: &Outputs| {
        let picture = Pixmap::decode_png(&png_file(brochure(outputs), 300).unwrap().bytes).unwrap();
        assert!(picture.pixels().iter().any(|pixel| pixel.alpha() == 255), "something is drawn");
        picture.pixels()[0].alpha()
    };
    let mut outputs = outputs("warm");
    assert_eq!(corner(&outputs), 255);
    assert!(text(brochure(&outputs)).contains("<rect"));
    outputs.leave_paper_out();
    assert_eq!(corner(&outputs), 0);
    assert!(outputs.sheets.iter().all(|sheet| !text(sheet).contains("<rect")));
}

#[test]
fn outlines_leave_no_text_and_no_font() {
    let mut outputs = outputs("sober");
    assert!(text(brochure(&outputs)).contains("<text"));
    let seen = Pixmap::decode_png(&png_file(brochure(&outputs), 400).unwrap().bytes).unwrap();
    outputs.outline_texts();
    for sheet in &outputs.sheets {
        assert!(!text(sheet).contains("<text") && !text(sheet).contains("@font-face"), "{}", sheet.id);
    }
    let after = Pixmap::decode_png(&png_file(brochure(&outputs), 400).unwrap().bytes).unwrap();
    assert!(seen == after, "the picture is the same");
    let pages = read_back::from_pdf(&pdf_file(&outputs.sheets, "Test").unwrap());
    for (sheet, page) in outputs.sheets.iter().zip(&pages) {
        assert!(page.drawn.iter().all(|drawn| !matches!(drawn, read_back::Drawn::Text { .. })), "{}", sheet.id);
        let svg = read_back::from_svg(&svg_file(sheet).bytes);
        read_back::compare(&svg, page, 0.05).unwrap();
    }
}

#[test]
fn both_back_ends_follow_the_theme() {
    let (sober, warm) = (outputs("sober"), outputs("warm"));
    let [one, other] = [&sober, &warm].map(|outputs| text(brochure(outputs)));
    // The floor of the built-in themes.
    assert!(one.contains(".fill-floor{fill:#c9cccd}") && other.contains(".fill-floor{fill:#d9c19b}"));
    let pages = read_back::from_pdf(&pdf_file(&warm.sheets, "Test").unwrap());
    read_back::compare(&read_back::from_svg(other.as_bytes()), pages.last().unwrap(), 0.05).unwrap();
    let plans = |outputs: &Outputs| text(&outputs.sheets[0]);
    assert_eq!(plans(&sober), plans(&warm), "a workshop's sheets have no theme");
}

#[test]
fn the_command_makes_pictures_when_asked() {
    let folder = folder();
    let exists = |name: &str| folder.path().join("out/a").join(name).is_file();
    build(&folder, "--only svg").assert().code(0);
    assert!(exists("brochure.svg") && !exists("brochure.png"));
    build(&folder, "--only svg --png 300 --png-of plan-day,brochure --transparent --outlines").assert().code(0);
    assert!(exists("brochure.png") && exists("plan-day.png") && !exists("plan-night.png"));
    let first = fs::read(folder.path().join("out/a/brochure.png")).unwrap();
    assert_eq!(size(&first).0, 300);
    build(&folder, "--only png --png 300 --transparent").env("RAYON_NUM_THREADS", "1").assert().code(0);
    assert_eq!(first, fs::read(folder.path().join("out/a/brochure.png")).unwrap());
    assert!(!exists("brochure.svg"));
}

#[test]
fn widths_and_sheets_that_cannot_be_are_told() {
    let folder = folder();
    for (arguments, wanted) in [
        ("--png 99", "write a whole number of pixels from 100 to 20000"),
        ("--png 20001", "from 100 to 20000"),
        ("--png wide", "write a whole number of pixels"),
        ("--png 200 --png-of plan-dya", "there is no sheet `plan-dya`; did you mean `plan-day`? sheets are"),
    ] {
        let output = build(&folder, arguments).output().unwrap();
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(output.status.code() == Some(2) && told.contains(wanted), "{arguments}: {told}");
    }
}

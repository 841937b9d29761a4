//! Hostile text: cells that spreadsheet programs would run, escapes that terminals would obey, and names of files that
//! do not fit everywhere.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/command.rs"]
mod command;
#[path = "common/mod.rs"]
mod common;

use boxwright::backends::{CsvForm, OutputFile, Separator};
use boxwright::compile::{Compiled, Options, compile, produce};
use boxwright::registry::Registry;
use calamine::{Data, Reader, Xlsx};
use command::{boxwright, folder, names, stderr, stdout, write};
use std::fs;
use std::io::Cursor;

/// Texts that spreadsheet programs take for formulas, also after blanks and in wide forms (OWASP, "CSV injection").
const FORMULAS: [&str; 10] = [
    "=1+1",
    "+1+1",
    "-2+3",
    "@SUM(1;2)",
    "\t=1+1",
    "\r=1+1",
    "\n=1+1",
    "  =HYPERLINK(\"http://x\")",
    "\u{ff1d}1+1",
    "=cmd|' /C calc'!A0",
];

fn demo() -> Compiled {
    let world = common::world(&common::yaml_files("layouts"));
    compile(&world, "layouts/marram.yaml", &Registry::standard(), &Options::default())
}

/// The cut list of a demo with hostile words wherever words can stand, and masses below zero.
fn hostile_lists(backend: &str) -> Vec<OutputFile> {
    hostile_lists_as(backend, CsvForm::default())
}

fn hostile_lists_as(backend: &str, csv: CsvForm) -> Vec<OutputFile> {
    let (mut compiled, registry) = (demo(), Registry::standard());
    let model = compiled.model.as_mut().unwrap();
    for (at, module) in model.modules.iter_mut().enumerate() {
        module.name = FORMULAS[at % FORMULAS.len()].to_owned();
        for (at, part) in module.parts.iter_mut().enumerate() {
            let word = FORMULAS[at % FORMULAS.len()].to_owned();
            (part.name, part.note, part.held) = (word.clone(), Some(word.clone()), Some(word));
        }
    }
    for (at, stock) in model.stocks.iter_mut().enumerate() {
        stock.material = FORMULAS[at % FORMULAS.len()].to_owned();
        stock.density = -stock.density;
    }
    let mut outputs = produce(&compiled).unwrap();
    outputs.csv = csv;
    let backend = registry.backends.iter().find(|one| one.name() == backend).unwrap();
    backend.files(&outputs.product(&compiled)).unwrap()
}

fn may_run(cell: &str) -> bool {
    let first = cell.trim_start_matches(' ').chars().next();
    first.is_some_and(|c| "=+-@\t\r\n\u{ff1d}\u{ff0b}\u{ff0d}\u{ff20}".contains(c)) && cell.parse::<f64>().is_err()
}

fn cells(file: &OutputFile) -> Vec<String> {
    parted(file, b',')
}

fn parted(file: &OutputFile, separator: u8) -> Vec<String> {
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).delimiter(separator).from_reader(file.bytes.as_slice());
    reader.records().flat_map(|record| record.unwrap().iter().map(str::to_owned).collect::<Vec<_>>()).collect()
}

fn is_below_zero(cell: &str) -> bool {
    cell.parse::<f64>().is_ok_and(|figure| figure < 0.0)
}

#[test]
fn no_cell_of_a_table_can_run_as_a_formula() {
    let (mut guarded, mut below_zero) = (0, 0);
    let form = |separator, mark| hostile_lists_as("cut-list", CsvForm { separator, mark });
    let other = [form(Separator::Semicolon, true), form(Separator::Tab, false)].concat();
    let usual: Vec<_> = hostile_lists("cut-list").iter().map(cells).collect();
    for (file, separator) in other.iter().zip([b';', b';', b'\t', b'\t']) {
        let alike = usual.iter().find(|cells| cells.len() == parted(file, separator).len()).unwrap();
        for (cell, usual) in parted(file, separator).iter().zip(alike) {
            // A mark stands before the first head; figures have a comma where they had a point.
            let cell = cell.trim_start_matches('\u{feff}');
            let same = cell == usual || (separator == b';' && *cell == usual.replace('.', ",") && !may_run(usual));
            assert!(same, "{}: {cell:?} for {usual:?}", file.name);
        }
    }
    for file in hostile_lists("cut-list") {
        for cell in cells(&file) {
            assert!(!may_run(&cell), "{}: {cell:?}", file.name);
            guarded += usize::from(cell.strip_prefix('\'').is_some_and(may_run));
            below_zero += usize::from(is_below_zero(&cell));
        }
    }
    assert!(guarded > 100 && below_zero > 20, "{guarded} guarded, {below_zero} below zero");
}

#[test]
fn no_cell_of_a_spreadsheet_is_a_formula() {
    for file in hostile_lists("cut-list-xlsx") {
        let mut book: Xlsx<_> = Xlsx::new(Cursor::new(file.bytes)).unwrap();
        let mut words = 0;
        for sheet in book.sheet_names() {
            assert_eq!(book.worksheet_formula(&sheet).unwrap().used_cells().count(), 0, "{sheet}");
            let cells = book.worksheet_range(&sheet).unwrap();
            words +=
                cells.used_cells().filter(|(_, _, cell)| matches!(cell, Data::String(text) if may_run(text))).count();
        }
        assert!(words > 10, "{words} hostile words, as text");
    }
}

/// `OFFICE=soffice` opens the tables in that program; without it they are not looked at this way. Each form is opened as a
/// user of such a program opens it: separator, sign of quotes, UTF-8, first line, and the language that the program is set
/// to (1033 is English, 1031 German, with decimal commas).
#[test]
fn an_office_program_takes_words_for_words_and_figures_for_figures() {
    let Ok(office) = std::env::var("OFFICE") else {
        println!("OFFICE is not set: not opened");
        return;
    };
    let forms = [
        (Separator::Comma, false, "44,34,76,1,,1033"),
        (Separator::Semicolon, false, "59,34,76,1,,1031"),
        (Separator::Semicolon, true, "59,34,76,1,,1031"),
        (Separator::Tab, true, "9,34,76,1,,1033"),
    ];
    let folder = tempfile::tempdir().unwrap();
    for (separator, mark, set) in forms {
        let mut all = (0, 0);
        for file in hostile_lists_as("cut-list", CsvForm { separator, mark }) {
            let path = folder.path().join(&file.name);
            fs::write(&path, &file.bytes).unwrap();
            let mut command = std::process::Command::new(&office);
            command.arg("--headless").arg(format!("--infilter=CSV:{set},false,true,false,false,false,-1"));
            command.args(["--convert-to", "xlsx", "--outdir"]).arg(folder.path()).arg(&path);
            let output = command.output().unwrap();
            let made = path.with_extension("xlsx");
            assert!(made.is_file(), "{}", String::from_utf8_lossy(&output.stderr));
            let mut book: Xlsx<_> = Xlsx::new(Cursor::new(fs::read(&made).unwrap())).unwrap();
            fs::remove_file(made).unwrap();
            let sheet = book.sheet_names().remove(0);
            assert_eq!(book.worksheet_formula(&sheet).unwrap().used_cells().count(), 0, "{}", file.name);
            let read = book.worksheet_range(&sheet).unwrap();
            assert_eq!(read.get((0, 0)), Some(&Data::String("row".to_owned())), "no mark in the first cell");
            let read = figures(read.used_cells().filter_map(|(_, _, cell)| match cell {
                Data::Float(figure) => Some(*figure),
                _ => None,
            }));
            // The cells of the usual form are the same figures.
            let usual = hostile_lists("cut-list").into_iter().find(|one| one.name == file.name).unwrap();
            let written = figures(cells(&usual).iter().filter_map(|cell| cell.parse::<f64>().ok()));
            assert_eq!(
                read, written,
                "{} with {separator:?}: as many figures, broken ones and ones below zero",
                file.name
            );
            (all.0, all.1) = (all.0 + read.1, all.1 + read.2);
        }
        assert!(all.0 > 100 && all.1 > 20, "only {all:?} broken figures and figures below zero");
    }
}

/// How many figures, how many are no whole numbers, how many are below zero.
fn figures(all: impl Iterator<Item = f64>) -> (usize, usize, usize) {
    all.fold((0, 0, 0), |(count, broken, below), figure| {
        (count + 1, broken + usize::from(figure.fract() != 0.0), below + usize::from(figure < 0.0))
    })
}

#[cfg(unix)]
#[test]
fn escapes_in_names_of_files_are_shown_and_not_obeyed() {
    let folder = folder();
    let good = fs::read_to_string(folder.path().join("good.yaml")).unwrap();
    let name = "x\u{1b}[31mred\u{9b}2J\u{202e}\r.yaml";
    write(&folder, name, &good);
    write(&folder, "parts\u{1b}[2J.csv", "number,length,width,count\n\u{1b}]0;owned\u{7},3000,3000,1\n");
    let cases = [
        vec!["check", name],
        vec!["build", name],
        vec!["build", name, name],
        vec!["check", "--quiet", name],
        vec!["check", "gone\u{1b}[2J.yaml"],
        vec!["build", "good.yaml", "--out", "out\u{1b}[2J"],
        vec!["explain", "heating", "--in", name],
        vec!["explain", "walk\u{1b}[2Jway"],
        vec!["explain", "walkway", "--picture", "none\u{1b}[2J/x.svg"],
        vec!["symbols", "a/\u{1b}[2J"],
        vec!["new", "a\u{1b}[2J"],
        vec!["new", "none\u{1b}[2J/a"],
        vec!["nest", "parts\u{1b}[2J.csv", "--effort", "1"],
        vec!["nest", "gone\u{1b}[2J.csv"],
    ];
    for arguments in cases {
        let mut command = boxwright(&folder);
        command.args(&arguments);
        let output = command.output().unwrap();
        for stream in [&output.stdout, &output.stderr] {
            let text = std::str::from_utf8(stream).unwrap();
            let bad = text.chars().find(|c| *c != '\n' && !boxwright::source::is_shown(*c));
            assert_eq!(bad, None, "{arguments:?}: {text:?}");
        }
        assert!(!output.stdout.is_empty() || !output.stderr.is_empty(), "{arguments:?}");
    }
}

/// On a terminal, made by `script` of util-linux: `TERM=dumb` and `NO_COLOR` mean no escapes at all.
#[cfg(target_os = "linux")]
#[test]
fn a_dumb_terminal_gets_plain_text() {
    let folder = folder();
    let on_terminal = |variable: &str, value: &str| {
        let line = format!("{} build tight.yaml", env!("CARGO_BIN_EXE_boxwright"));
        let mut command = std::process::Command::new("script");
        command.args(["--quiet", "--return", "--command", &line, "/dev/null"]).current_dir(folder.path());
        command.env_remove("NO_COLOR").env("TERM", "xterm").env(variable, value);
        let output = command.output().expect("`script` of util-linux");
        assert_eq!(output.status.code(), Some(1), "{}", String::from_utf8_lossy(&output.stdout));
        String::from_utf8(output.stdout).unwrap()
    };
    assert!(on_terminal("TERM", "xterm").contains("\u{1b}[K"), "a terminal sees progress");
    assert!(on_terminal("TERM", "xterm").contains("\u{1b}[1m"), "and colours");
    assert!(!on_terminal("TERM", "dumb").contains('\u{1b}'));
    assert!(!on_terminal("NO_COLOR", "1").contains("\u{1b}[1m"));
}

/// Names that some system can't have are refused by every command, in the same words.
#[test]
fn names_that_fit_nowhere_get_the_same_error_everywhere() {
    let folder = folder();
    let good = fs::read_to_string(folder.path().join("good.yaml")).unwrap();
    for (name, why) in [
        ("nul.yaml", "a device"),
        ("Con.v2.yaml", "a device"),
        ("first..yaml", "a dot or blank at its end"),
        ("first .yaml", "a dot or blank at its end"),
        ("a:b.yaml", "don't allow `:`"),
        ("a*.yaml", "don't allow `*`"),
        ("a\\b.yaml", "don't allow `\\`"),
        (".yaml", "nothing stands before"),
        (".hidden.yaml", "begins with a dot"),
    ] {
        if fs::write(folder.path().join(name), &good).is_err() {
            continue;
        }
        for command in [vec!["check"], vec!["build"], vec!["explain", "heating", "--in"]] {
            let mut run = boxwright(&folder);
            run.args(&command).arg(name);
            run.assert().code(2);
            let told = stdout(&mut run);
            assert!(told.contains("a layout's file can't be named") && told.contains(why), "{name}: {told}");
        }
        let json = stdout(boxwright(&folder).args(["check", "--format", "json", name]));
        assert!(json.contains("a layout's file can't be named"), "{name}: {json}");
    }
    for name in ["nul", "com1", "a:b", "a*", "a\\b"] {
        boxwright(&folder).args(["new", name]).assert().code(2);
    }
    assert!(!folder.path().join("out").exists());
}

#[test]
fn layouts_that_would_share_a_folder_where_case_is_ignored_are_refused() {
    let folder = folder();
    fs::create_dir(folder.path().join("other")).unwrap();
    fs::copy(folder.path().join("good.yaml"), folder.path().join("other/Good.yaml")).unwrap();
    let told = stderr(boxwright(&folder).args(["build", "good.yaml", "other/Good.yaml"]));
    assert!(told.contains("where case is ignored"), "{told}");
    assert!(!folder.path().join("out").exists());
    boxwright(&folder).args(["build", "good.yaml", "--only", "model-json"]).assert().code(0);
    let mut second = boxwright(&folder);
    second.args(["build", "other/Good.yaml", "--only", "model-json"]).assert().code(2);
    assert!(stderr(&mut second).contains("one folder where case is ignored"));
    assert_eq!(names(&folder.path().join("out")), ["good"]);
}

//! Whether an output is what its name says, by readers of other people: XML, PDF, spreadsheets, JSON.

use boxwright::backends::OutputFile;
use calamine::{Reader, Xlsx};
use std::io::Cursor;

/// What is wrong with a file, if anything.
pub fn unsound(file: &OutputFile) -> Option<String> {
    let (_, ending) = file.name.rsplit_once('.')?;
    let wrong = match ending {
        "svg" => {
            text(file).and_then(|text| roxmltree::Document::parse(text).map(drop).map_err(|error| error.to_string()))
        }
        "json" => text(file).and_then(|text| {
            serde_json::from_str::<serde_json::Value>(text).map(drop).map_err(|error| error.to_string())
        }),
        "csv" => text(file).and_then(table),
        "pdf" => lopdf::Document::load_mem(&file.bytes)
            .map_err(|error| error.to_string())
            .and_then(|pdf| if pdf.get_pages().is_empty() { Err("no pages".to_owned()) } else { Ok(()) }),
        "xlsx" => Xlsx::new(Cursor::new(&file.bytes)).map_err(|error| error.to_string()).and_then(sheets),
        "png" if !file.bytes.starts_with(b"\x89PNG\r\n\x1a\n") => Err("no PNG signature".to_owned()),
        _ => Ok(()),
    };
    wrong.err().map(|why| format!("{} is unsound: {why}", file.name))
}

fn text(file: &OutputFile) -> Result<&str, String> {
    std::str::from_utf8(&file.bytes).map_err(|error| error.to_string())
}

/// Every row is read, and no cell is a number that is none.
fn table(text: &str) -> Result<(), String> {
    let mut reader = csv::ReaderBuilder::new().flexible(true).has_headers(false).from_reader(text.as_bytes());
    for row in reader.records() {
        let row = row.map_err(|error| error.to_string())?;
        if let Some(cell) = row.iter().find(|cell| ["NaN", "inf", "-inf"].contains(cell)) {
            return Err(format!("a cell is `{cell}`"));
        }
    }
    Ok(())
}

fn sheets(mut book: Xlsx<Cursor<&Vec<u8>>>) -> Result<(), String> {
    for name in book.sheet_names() {
        book.worksheet_range(&name).map_err(|error| error.to_string())?;
    }
    Ok(())
}

#[test]
fn a_file_that_is_not_what_it_says_is_seen() {
    let wrong =
        |name: &str, bytes: &[u8]| unsound(&OutputFile { name: name.to_owned(), bytes: bytes.to_vec() }).is_some();
    assert!(wrong("a.svg", b"<svg><g></svg>") && !wrong("a.svg", b"<svg><g/></svg>"));
    assert!(wrong("a.json", b"{ \"a\": NaN }") && !wrong("a.json", b"{ \"a\": 1 }"));
    assert!(wrong("a.csv", b"a,b\n1,NaN\n") && wrong("a.csv", b"\xff\n") && !wrong("a.csv", b"a,b\n1,2\n"));
    assert!(wrong("a.pdf", b"%PDF-1.7\n") && wrong("a.xlsx", b"PK") && wrong("a.png", b"GIF89a"));
}

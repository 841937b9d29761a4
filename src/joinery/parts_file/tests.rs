//! Lists of parts: what is read, and where errors point.

use super::*;
use crate::diagnostic::Diagnostic;
use crate::joinery::nesting::SheetKind;
use crate::joinery::nesting::Turn;
use crate::model::Grain;

fn saw() -> Saw {
    let sheets = vec![SheetKind { size: (2440.0, 1220.0), cost: 1.0, stock: None }];
    Saw { sheets, kerf: None, trim: None, useful: (500.0, 150.0), stages: None, grain: Grain::Length }
}

/// Messages with the text they point at.
type Told = Vec<(String, String)>;

fn told(sink: &Sink, text: &str) -> Told {
    let place =
        |error: &Diagnostic| text.get(error.span.start as usize..error.span.end as usize).unwrap_or("").to_owned();
    sink.errors().iter().map(|error| (error.message.clone(), place(error))).collect()
}

fn read(text: &str) -> Result<Vec<PartsJob>, Told> {
    let list = read_parts("job", text, FileId(0), &saw()).map_err(|errors| told(&errors, text))?;
    assert_eq!(told(&list.notes, text), []);
    Ok(list.jobs)
}

/// What is said of a list that can be laid.
fn notes(text: &str) -> Told {
    told(&read_parts("job", text, FileId(0), &saw()).unwrap().notes, text)
}

#[test]
fn a_table_is_read_by_its_head() {
    let text = "width;Length;number;bands;count;grain\r\n400;600.5;side;1 0 0.5 0;2;length\r\n\r\n300;300;\"top; oak\";;1;\r\n";
    let job = read(text).unwrap().remove(0);
    let sizes: Vec<_> = job.request.pieces.iter().map(|p| (p.length, p.width, p.count, p.turn)).collect();
    assert_eq!(sizes, [(600.0, 399.0, 2, Turn::Never), (300.0, 300.0, 1, Turn::Free)]);
    let names: Vec<_> = job.parts.iter().map(|part| part.number.as_str()).collect();
    assert_eq!(names, ["side", "top; oak"]);
    assert_eq!((job.request.kerf, job.request.trim), (3.2, 10.0));
}

#[test]
fn errors_of_a_table_point_at_the_field() {
    let wrong = |text| read(text).unwrap_err();
    let told = wrong("number,lenght,width\na,1,2\n");
    assert_eq!(told[0], ("there is no column `lenght`".to_owned(), "lenght".to_owned()));
    let told = wrong("number,length,width,count,grain,bands\n\"a,b\",6OO,-4,1.5,up,1 2\nc,1,1\n");
    let places: Vec<&str> = told.iter().map(|(_, place)| place.as_str()).collect();
    assert_eq!(places, ["6OO", "-4", "1.5", "up", "1 2"]);
    assert_eq!(wrong("")[0].0, "this list of parts is empty");
    assert_eq!(wrong("length,width,bands\n10,10,5\n")[0].1, "5");
}

#[test]
fn jobs_in_json_are_read() {
    let text = r#"{"note": 1, "instances": [{"id": 7, "class": null, "kerf": 3, "bins": [{"w": 100, "h": 50, "stock": null,
        "cost": null}], "items": [{"w": 10, "h": 20, "n": 3, "rot": 1, "v": 5}, {"w": 5, "h": 5}], "known": {}}]}"#;
    let job = read(text).unwrap().remove(0);
    let pieces: Vec<_> = job.request.pieces.iter().map(|p| (p.length, p.width, p.count, p.turn)).collect();
    assert_eq!(pieces, [(10.0, 20.0, 3, Turn::Free), (5.0, 5.0, 1, Turn::Never)]);
    assert_eq!((job.id.as_str(), job.request.kerf, job.request.trim), ("7", 3.0, 0.0));
    assert_eq!(job.request.sheets, [SheetKind { size: (100.0, 50.0), cost: 5000.0, stock: None }]);
}

#[test]
fn errors_of_json_have_a_place() {
    let text = "{\"instances\": [{\"id\": \"a\",\n  \"items\": [{\"w\": -3, \"h\": 5}]}]}";
    let Err(sink) = read_parts("job", text, FileId(0), &saw()) else { panic!("a length below 0 was read") };
    let error = &sink.errors()[0];
    assert_eq!(error.message, "`w` is -3");
    let line = text[..error.span.start as usize].matches('\n').count() + 1;
    assert_eq!(line, 2);
    assert!(read("{\"instances\": [{\"id\": \"a\"}]}").unwrap_err()[0].0.contains("items"));
    assert!(read("{").is_err());
}

/// A comma is a decimal mark where fields are parted by another one; a mark between thousands is refused.
#[test]
fn decimal_commas_are_read_where_no_comma_parts_the_fields() {
    let job = read("length;width;bands\n600,5;400;0,5 0 0 0\n").unwrap().remove(0);
    assert_eq!((job.request.pieces[0].length, job.request.pieces[0].width), (600.5, 399.5));
    let job = read("length\twidth\n600,25\t400.5\n").unwrap().remove(0);
    assert_eq!((job.request.pieces[0].length, job.request.pieces[0].width), (600.25, 400.5));
    assert_eq!(read("length;width\n1.234,5;400\n").unwrap_err()[0].1, "1.234,5");
    assert_eq!(read("length,width\n600,5,400\n").unwrap_err()[0].0, "`400` is in a column without a name");
}

#[test]
fn figures_beyond_the_bounds_are_refused_at_their_place() {
    let one = |text: &str| read(text).unwrap_err().remove(0);
    let table = |row: &str| one(&format!("length,width,count\n{row}\n"));
    assert_eq!(table("0.0004,50,1"), ("the length is `0.0004`".to_owned(), "0.0004".to_owned()));
    assert_eq!(table("50,100000.1,1"), ("the width is `100000.1`".to_owned(), "100000.1".to_owned()));
    assert_eq!(table("50,50,100001"), ("the count is `100001`".to_owned(), "100001".to_owned()));
    assert_eq!(table("50,50,1.5"), ("the count is `1.5`".to_owned(), "1.5".to_owned()));
    let item = |item: &str| {
        one(&format!("{{\"instances\": [{{\"id\": 1, \"items\": [{{\"w\": 5, \"h\": 5}}, {{{item}}}]}}]}}"))
    };
    assert_eq!(item("\"w\": 2e-4, \"h\": 5"), ("`w` is 0.0002".to_owned(), "2e-4".to_owned()));
    assert_eq!(item("\"w\": 5, \"h\": 200000"), ("`h` is 200000".to_owned(), "200000".to_owned()));
    assert_eq!(item("\"w\": 5, \"h\": 5, \"n\": 1.5"), ("`n` is 1.5".to_owned(), "1.5".to_owned()));
    assert_eq!(item("\"w\": 5, \"h\": 5, \"rot\": 2"), ("`rot` is 2".to_owned(), "2".to_owned()));
    assert_eq!(item("\"w\": 5, \"h\": 5, \"rot\": \"yes\""), ("`rot` is \"yes\"".to_owned(), "\"yes\"".to_owned()));
}

#[test]
fn a_saw_cut_or_trim_that_leaves_nothing_of_a_sheet_is_refused() {
    let job = |more: &str| {
        let bins = "\"bins\": [{\"w\": 900, \"h\": 300}]";
        read(&format!("{{\"instances\": [{{\"id\": 1, {more}{bins}, \"items\": [{{\"w\": 5, \"h\": 5}}]}}]}}"))
    };
    let kerf = ("a saw cut of 300 mm is as wide as a sheet 300 mm wide".to_owned(), "300".to_owned());
    assert_eq!(job("\"kerf\": 300, ").unwrap_err(), [kerf]);
    let trim = ("trimming 150 mm off each edge leaves nothing of a sheet 300 mm wide".to_owned(), "150".to_owned());
    assert_eq!(job("\"trim\": 150, ").unwrap_err(), [trim]);
    assert!(job("\"kerf\": 299, ").is_ok());
    assert_eq!(job("\"kerf\": -1, ").unwrap_err()[0].0, "`kerf` is -1");
    let wide = Saw { kerf: Some(1220.0), ..saw() };
    let Err(errors) = read_parts("job", "length,width\n5,5\n", FileId(0), &wide) else { panic!("a kerf of 1220") };
    assert!(errors.errors()[0].message.contains("saw cut of 1220 mm"));
}

#[test]
fn what_is_odd_is_said_and_laid() {
    let said = notes("number,length,width,count\na,10,10,\nb,10,10,0\na,20,20,1\n");
    let messages: Vec<&str> = said.iter().map(|(message, _)| message.as_str()).collect();
    assert_eq!(messages, ["this row has no count", "the count is 0", "`a` is the number of two rows"]);
    let text = r#"{"instances": [{"id": 1, "bins": [{"w": 9, "h": 9}, {"w": 5, "h": 5, "stock": 0}], "items": [{"w": 1, "h": 1, "n": 0}]}]}"#;
    let zero = |key: &str| (format!("`{key}` is 0"), "0".to_owned());
    assert_eq!(notes(text), [zero("stock"), zero("n")]);
}

#[test]
fn two_jobs_of_one_name_are_refused() {
    let text = r#"{"instances": [{"id": "a", "items": []}, {"id": "b", "items": []}, {"id": "a", "items": []}]}"#;
    assert_eq!(read(text).unwrap_err(), [("two jobs are called `a`".to_owned(), "\"a\"".to_owned())]);
}

/// The places of very many errors are not all looked up, which would read the text again for each.
#[test]
fn very_many_errors_end_soon() {
    let items = vec!["{\"w\": 0, \"h\": 0}"; 20_000].join(",");
    let errors = read(&format!("{{\"instances\": [{{\"id\": 1, \"items\": [{items}]}}]}}")).unwrap_err();
    assert_eq!(errors.len(), 50);
}

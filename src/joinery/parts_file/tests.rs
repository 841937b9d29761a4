//! Lists of parts: what is read, and where errors point.

use super::*;
use crate::joinery::nesting::Turn;

fn saw() -> Saw {
    let sheets = vec![SheetKind { size: (2440.0, 1220.0), cost: 1.0, stock: None }];
    Saw { sheets, kerf: None, trim: None, useful: (500.0, 150.0), stages: None, grain: Grain::Length }
}

fn read(text: &str) -> Result<Vec<PartsJob>, Vec<(String, String)>> {
    let place =
        |error: &Diagnostic| text.get(error.span.start as usize..error.span.end as usize).unwrap_or("").to_owned();
    let told = |sink: Sink| sink.errors().iter().map(|error| (error.message.clone(), place(error))).collect();
    read_parts("job", text, FileId(0), &saw()).map_err(told)
}

#[test]
fn a_table_is_read_by_its_head() {
    let text =
        "width;Length;number;bands;count;grain\r\n400;600.5;side;1 0 0.5 0;2;length\r\n\r\n300;300;\"top; oak\";;;\r\n";
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
    assert!(error.message.contains("a length of -3"), "{}", error.message);
    let line = text[..error.span.start as usize].matches('\n').count() + 1;
    assert_eq!(line, 2);
    assert!(read("{\"instances\": [{\"id\": \"a\"}]}").unwrap_err()[0].0.contains("items"));
    assert!(read("{").is_err());
}

//! A sheet: what is bought for the furniture, by supplier.

use boxwright_guest::{Column, Description, Question, Reads, Sheet, Table};
use std::collections::BTreeMap;

boxwright_guest::describe!(description);
boxwright_guest::answers!(sheet: draw);

/// Who sells what: put your own suppliers here. The names are invented.
const SUPPLIERS: [(&str, &str); 4] = [
    ("hinge", "Harbour Hinges"),
    ("runner", "Runner Yard"),
    ("strut", "Runner Yard"),
    ("screw", "Brass and Bolt"),
];

fn description() -> Description {
    let paths = ["modules/*/name", "modules/*/hardware/*/name", "modules/*/hardware/*/count", "modules/*/hardware/*/size"];
    Description::new("bought", "what is bought, by supplier").sheet(
        "by-supplier",
        "hardware of all modules by supplier",
        Reads::model(&paths),
    )
}

fn supplier(hardware: &str) -> &'static str {
    SUPPLIERS.iter().find(|(word, _)| hardware.contains(word)).map_or("not known", |(_, supplier)| supplier)
}

fn draw(question: &Question) -> Result<Vec<Sheet>, String> {
    // Sizes are whole tenths of a millimetre, so that equal ones have one key.
    let mut all: BTreeMap<&str, BTreeMap<(String, i64), (u32, Vec<String>)>> = BTreeMap::new();
    for module in &question.model.modules {
        for one in &module.hardware {
            let key = (one.name.replace('-', " "), (one.size.unwrap_or(0.0) * 10.0) as i64);
            let (count, modules) = all.entry(supplier(&one.name)).or_default().entry(key).or_default();
            *count += one.count;
            modules.push(format!("{} for {}", one.count, module.name));
        }
    }
    let table = |(supplier, bought): (&str, BTreeMap<(String, i64), (u32, Vec<String>)>)| {
        let row = |((name, size), (count, modules)): ((String, i64), (u32, Vec<String>))| {
            let size = if size > 0 { format!("{}", size as f64 / 10.0) } else { String::new() };
            vec![name, size, count.to_string(), modules.join(", ")]
        };
        Table {
            heading: format!("From {supplier}"),
            columns: vec![
                Column::words("what", Some(50.0)),
                Column::figures("size, mm", 22.0),
                Column::figures("count", 18.0),
                Column::words("modules", None),
            ],
            rows: bought.into_iter().map(row).collect(),
        }
    };
    Ok(vec![Sheet { title: "Hardware by supplier".to_owned(), tables: all.into_iter().map(table).collect() }])
}

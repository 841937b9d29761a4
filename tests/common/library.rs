//! Every symbol of the library, made at its least, usual and greatest sizes with each value of each setting.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at once")]
#![allow(dead_code, reason = "each test uses some of it")]

use boxwright::compile::{Alone, Case, Options, Session, read};
use boxwright::diagnostic::Sink;
use boxwright::language::{SymbolDoc, library_names, library_text, read_symbol};
use boxwright::model::{Model, Module, Stock};
use boxwright::registry::Registry;
use boxwright::source::{MemoryWorld, SourceMap};
use std::fmt::Write;
use std::sync::LazyLock;

/// A box that every symbol has room in.
pub const ROOMY: &str = "box: { length: 9000, width: 9000, height: 4000 }\n";
/// Stocks unlike the usual ones: nothing may rest on their thickness.
pub const OTHER_STOCKS: &str = "stocks:
  carcass: { thickness: 18 }
  front: { thickness: 16 }
  back: { thickness: 4 }
  worktop: { thickness: 28 }
  board: { thickness: 15 }
  partition: { thickness: 15 }
";

pub fn layout(symbol: &str, cases: &[Case], head: &str) -> String {
    let mut text = format!("boxwright: 1\ntitle: Symbols\n{head}modules:\n");
    for (at, case) in cases.iter().enumerate() {
        let sizes = ["run", "depth", "height"].iter().zip(case.size);
        let sizes: Vec<String> = sizes.filter_map(|(name, size)| size.map(|size| format!("{name}: {size}"))).collect();
        let set: Vec<String> = case.set.iter().map(|(name, value)| format!("{name}: {value}")).collect();
        let (sizes, set) = (sizes.join(", "), set.join(", "));
        let place = "faces: rear, place: { front: 3000, left: 3000 }";
        writeln!(text, "  m{at}: {{ symbol: {symbol}, {place}, size: {{ {sizes} }}, set: {{ {set} }} }}").unwrap();
    }
    text
}

/// The model, or the errors one a line.
pub fn make(text: &str) -> Result<Model, Vec<String>> {
    let world = MemoryWorld::default().with("layout.yaml", text);
    let compiled = read(&world, "layout.yaml", &Registry::standard(), &Options::default());
    let tell = |span| compiled.sources.place(span).map_or(String::new(), |(name, at)| format!("{name}:{}", at.line));
    let errors = compiled.errors.errors().iter().map(|error| format!("{}: {}", tell(error.span), error.message));
    compiled.model.ok_or(errors.collect())
}

pub fn document(name: &str) -> SymbolDoc {
    let mut sink = Sink::default();
    read_symbol(name, library_text(name).unwrap(), name, &mut SourceMap::default(), &mut sink).unwrap()
}

/// One module as made, with the stocks of its layout.
pub struct Made {
    pub name: String,
    pub case: Case,
    pub made: Result<(Module, Vec<Stock>), Vec<String>>,
}

/// Every symbol with all its cases, made once for all tests.
pub static LIBRARY: LazyLock<Vec<Made>> = LazyLock::new(|| {
    let wanted = std::env::var("SYMBOL").unwrap_or_default();
    library_names().iter().filter(|name| name.contains(&wanted)).flat_map(|name| all_of(name)).collect()
});

/// One symbol in usual stocks with all its settings, and in other stocks with the usual ones.
pub fn all_of(name: &str) -> Vec<Made> {
    let session = Session::new(Registry::standard(), Options::default());
    let alone = Alone { name, folder: None, head: "" };
    let cases = session.cases(&MemoryWorld::default(), alone).unwrap_or_else(|_| panic!("{name}"));
    let mut all = Vec::new();
    for (head, cases) in [(ROOMY.to_owned(), &cases[..]), (format!("{ROOMY}{OTHER_STOCKS}"), &cases[..3])] {
        let model = make(&layout(name, cases, &head));
        for (at, case) in cases.iter().enumerate() {
            let made = model.as_ref().map(|model| (model.modules[at].clone(), model.stocks.clone()));
            all.push(Made { name: name.to_owned(), case: case.clone(), made: made.map_err(Clone::clone) });
        }
    }
    all
}

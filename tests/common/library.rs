//! Every symbol of the library, made at its least, usual and greatest sizes with each value of each setting.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at once")]
#![allow(dead_code, reason = "each test uses some of it")]

use boxwright::compile::{Options, read};
use boxwright::diagnostic::Sink;
use boxwright::language::{SettingKind, SymbolDoc, library_names, library_text, read_symbol};
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

/// One module to make: its sizes (run, depth, height) where they are not left to the symbol, and its settings.
#[derive(Debug, Clone, Default)]
pub struct Case {
    pub size: [Option<f64>; 3],
    pub set: Vec<(String, String)>,
}

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

/// The usual settings, and each setting at each of its values.
pub fn settings(symbol: &SymbolDoc) -> Vec<Vec<(String, String)>> {
    let mut all = vec![Vec::new()];
    let source = library_text(&symbol.symbol.value).unwrap();
    for (name, setting) in &symbol.settings {
        let values: Vec<String> = match &setting.value.kind {
            SettingKind::YesNo => vec!["yes".to_owned(), "no".to_owned()],
            SettingKind::OneOf { values } => values.iter().map(|value| value.value.clone()).collect(),
            SettingKind::Whole { least, most } | SettingKind::Length { least, most } => {
                [least, most].map(|expr| source[expr.span.start as usize..expr.span.end as usize].to_owned()).to_vec()
            }
        };
        all.extend(values.into_iter().map(|value| vec![(name.clone(), value)]));
    }
    all
}

/// The bounds of some sizes as the resolver states them when it refuses wrong ones.
pub fn bounds(symbol: &str, case: &Case, indices: &[usize]) -> Vec<(f64, f64)> {
    let mut wrong = case.clone();
    indices.iter().for_each(|index| wrong.size[*index] = Some(0.5));
    let errors = make(&layout(symbol, &[wrong], ROOMY)).unwrap_err();
    let stated = |index: &usize| {
        let word = format!("the {} of module", ["run", "depth", "height"][*index]);
        let message =
            errors.iter().find(|error| error.contains(&word)).unwrap_or_else(|| panic!("{symbol}: {errors:?}"));
        let (least, most) =
            message.rsplit("takes ").next().unwrap().trim_end_matches(" mm").split_once(" to ").unwrap();
        (least.parse().unwrap(), most.parse().unwrap())
    };
    indices.iter().map(stated).collect()
}

/// The sizes that a symbol takes when the layout says none.
pub fn usual(symbol: &str) -> [f64; 3] {
    let extent = make(&layout(symbol, &[Case::default()], ROOMY)).unwrap().modules[0].extent;
    [extent.y, extent.x, extent.z].map(|range| range.1 - range.0)
}

/// Least, usual and greatest sizes for some settings. Bounds may hang on the height, so that one comes first.
pub fn sized(symbol: &str, usual: [f64; 3], set: &[(String, String)]) -> Vec<Case> {
    let start = Case { size: usual.map(Some), set: set.to_vec() };
    let heights = bounds(symbol, &start, &[2]);
    type Pick = fn((f64, f64), f64) -> f64;
    let picks: [Pick; 3] =
        [|bounds, _| bounds.0, |bounds, usual| usual.max(bounds.0).min(bounds.1), |bounds, _| bounds.1];
    let case = |pick: Pick| {
        let mut case = start.clone();
        case.size[2] = Some(pick(heights[0], usual[2]));
        for (index, bounds) in bounds(symbol, &case, &[0, 1]).into_iter().enumerate() {
            case.size[index] = Some(pick(bounds, usual[index]));
        }
        case
    };
    picks.map(case).to_vec()
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
    let usual = usual(name);
    let cases: Vec<Case> = settings(&document(name)).iter().flat_map(|set| sized(name, usual, set)).collect();
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

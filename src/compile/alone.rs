//! A symbol by itself: made in a roomy box at its least, usual and greatest sizes, with each value of each setting.

use super::{Compiled, Session};
use crate::base::number::{mm, trimmed};
use crate::diagnostic::{Finding, Severity};
use crate::resolve::{Takes, takes};
use crate::source::{MemoryWorld, Overlay, World};
use std::fmt::Write;

/// The file of the layout that is written for a symbol; it is never on a disk.
const LAYOUT: &str = "symbol-alone.yaml";
/// Name of the one module.
const MODULE: &str = "it";
/// A box that every symbol has room in, mm.
const BOX: &str = "box: { length: 9000, width: 9000, height: 4000 }\n";
/// Run, depth and height, as layouts call them.
const SIZES: [&str; 3] = ["run", "depth", "height"];

/// A symbol to look at by itself.
#[derive(Debug, Clone, Copy)]
pub struct Alone<'a> {
    /// Its name, `group/name`.
    pub name: &'a str,
    /// The folder of symbols that it stands in; none for the library.
    pub folder: Option<&'a str>,
    /// What else the layout says at its top, such as stocks: lines of YAML.
    pub head: &'a str,
}

/// One way to make a symbol.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Case {
    /// Run, depth and height, mm; of the symbol's own where none is said.
    pub size: [Option<f64>; 3],
    /// Settings with their values, as a layout writes them; others are the usual ones.
    pub set: Vec<(String, String)>,
}

/// What comes of a symbol in all its cases.
#[derive(Debug, Default)]
pub struct Tried {
    /// How many cases were made.
    pub cases: usize,
    /// What is found, with the case that shows it.
    pub found: Vec<(Case, Finding)>,
    /// The first case that can't be made, with its errors.
    pub broken: Option<(Case, Box<Compiled>)>,
}

impl Case {
    /// The sizes and settings in words.
    #[must_use]
    pub fn told(&self) -> String {
        let sizes = SIZES.iter().zip(self.size).filter_map(|(name, size)| Some(format!("{name} {}", mm(size?))));
        let set = self.set.iter().map(|(name, value)| format!("{name}: {value}"));
        sizes.chain(set).collect::<Vec<_>>().join(", ")
    }

    /// The line of a layout that makes a module of a symbol so, in the corner between the front wall and the left one.
    #[must_use]
    pub fn module(&self, name: &str, symbol: &str) -> String {
        let sizes = SIZES.iter().zip(self.size);
        let sizes: Vec<String> =
            sizes.filter_map(|(name, size)| Some(format!("{name}: {}", trimmed(size?, 3)))).collect();
        let set: Vec<String> = self.set.iter().map(|(name, value)| format!("{name}: {value}")).collect();
        let (sizes, set) = (sizes.join(", "), set.join(", "));
        let place = "faces: right, place: { front: 0, left: 0 }";
        format!("  {name}: {{ symbol: {symbol}, {place}, size: {{ {sizes} }}, set: {{ {set} }} }}\n")
    }
}

impl Session {
    /// Makes a symbol in all its cases and runs the checks of the registry on each.
    #[must_use]
    pub fn alone(&self, world: &dyn World, symbol: Alone<'_>) -> Tried {
        let mut tried = Tried::default();
        let cases = match self.cases(world, symbol) {
            Ok(cases) => cases,
            Err(broken) => return Tried { broken: Some(broken), ..tried },
        };
        for case in cases {
            let mut compiled = self.one(world, symbol, &case);
            if compiled.model.is_none() || self.check(&mut compiled).is_err() {
                tried.broken.get_or_insert((case, Box::new(compiled)));
                continue;
            }
            tried.cases += 1;
            let graver = compiled.findings.into_iter().filter(|one| one.severity < Severity::Note);
            tried.found.extend(graver.map(|one| (case.clone(), one)));
        }
        tried
    }

    /// The cases of a symbol: with the usual settings, and with each value of each setting, at the least, usual and greatest
    /// sizes. Bounds may hang on the height, so that comes first.
    ///
    /// # Errors
    /// The case that can't be made, with its errors.
    pub fn cases(&self, world: &dyn World, symbol: Alone<'_>) -> Result<Vec<Case>, (Case, Box<Compiled>)> {
        let usual = self.usual(world, symbol)?;
        let settings = self.takes(world, symbol, &Case::default())?.settings;
        let each = settings
            .iter()
            .enumerate()
            .flat_map(|(at, (_, values))| (0..values.len()).map(move |value| Some((at, value))));
        let mut cases = Vec::new();
        for chosen in std::iter::once(None).chain(each) {
            for pick in [least, between, most] {
                let mut case = Case { size: usual.map(Some), set: Vec::new() };
                // What a setting takes may hang on the sizes, and they on it.
                for axes in [&[2][..], &[0, 1], &[]] {
                    let known = self.takes(world, symbol, &case)?;
                    case.set = chosen.and_then(|chosen| known.value(chosen)).into_iter().collect();
                    let sizes = self.takes(world, symbol, &case)?.sizes;
                    for axis in axes {
                        case.size[*axis] = Some(pick(sizes[*axis], usual[*axis]));
                    }
                }
                cases.push(case);
            }
        }
        Ok(cases)
    }

    /// The sizes that a symbol has when a layout says none.
    fn usual(&self, world: &dyn World, symbol: Alone<'_>) -> Result<[f64; 3], (Case, Box<Compiled>)> {
        let compiled = self.one(world, symbol, &Case::default());
        let extent = compiled.model.as_ref().and_then(|model| model.modules.first()).map(|module| module.extent);
        // The module faces right, so it runs along the box.
        let Some(extent) = extent else { return Err((Case::default(), Box::new(compiled))) };
        Ok([extent.x, extent.y, extent.z].map(|range| range.1 - range.0))
    }

    fn takes(&self, world: &dyn World, symbol: Alone<'_>, case: &Case) -> Result<Takes, (Case, Box<Compiled>)> {
        let compiled = self.one(world, symbol, case);
        let known = compiled.written.as_ref();
        let known = known.and_then(|written| takes(&written.doc, written.symbols.clone(), &self.memo).pop().flatten());
        known.ok_or_else(|| (case.clone(), Box::new(compiled)))
    }

    /// The layout of one case.
    fn one(&self, world: &dyn World, symbol: Alone<'_>, case: &Case) -> Compiled {
        let mut text = format!("boxwright: 1\ntitle: One\n{BOX}{}", symbol.head);
        if let Some(folder) = symbol.folder {
            // A text of JSON is one of YAML, too, whatever is in it.
            let _ = writeln!(text, "symbols: [{}]", serde_json::Value::from(folder));
        }
        let text = text + "modules:\n" + &case.module(MODULE, symbol.name);
        self.read(&Overlay::new(world, MemoryWorld::default().with(LAYOUT, &text)), LAYOUT)
    }
}

fn least(bounds: (f64, f64), _: f64) -> f64 {
    bounds.0
}

fn between(bounds: (f64, f64), usual: f64) -> f64 {
    usual.min(bounds.1).max(bounds.0)
}

fn most(bounds: (f64, f64), _: f64) -> f64 {
    bounds.1
}

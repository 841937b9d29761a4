//! The whole way from a layout file to its model and findings, and on to sheets and cut list.

mod acceptance;
mod alone;
mod outside;
mod unused;

use crate::backends::{CsvForm, Picture, Product, Reads};
use crate::base::memo::Memo;
use crate::base::stop::{Stop, Stopped};
use crate::base::text::{nearest, one_of};
use crate::checks::{Check, Context, ran};
use crate::diagnostic::{Counts, Diagnostic, Finding, Held, Ran, Sink, Worked};
use crate::drawing::{Sheet, outlined};
use crate::figures::Figures;
use crate::joinery::CutList;
use crate::language::{LayoutDoc, SymbolDoc, Symbols, read_layout};
use crate::model::Model;
use crate::plug_ins::Bounds;
use crate::registry::Registry;
use crate::resolve::resolve;
use crate::rules::house_rules;
use crate::source::{FileId, SourceMap, Span, Spanned, World, layout_name, refused_name};
use crate::suggest::{Input, for_errors, suggestions};
use crate::views::{Chosen, SheetSet, part_labels, part_tiles, sheet_set};
use outside::Outside;
use rayon::prelude::*;
use std::sync::Arc;

pub use alone::{Alone, Case, Tried};

/// How to compile.
#[derive(Debug, Clone, Copy, Default)]
pub struct Options {
    /// `extends` and `symbols` may leave the folder of the layout.
    pub allow_outside: bool,
    /// How far plug-ins may go.
    pub bounds: Bounds,
}

/// What a compile has found out. `model` is `None` exactly when there are errors in spite of which nothing can be drawn; with
/// others it is a draft.
#[derive(Debug, Default)]
pub struct Compiled {
    /// All files read.
    pub sources: SourceMap,
    /// What keeps it from compiling, or makes a draft of it.
    pub errors: Sink,
    /// The resolved layout.
    pub model: Option<Model>,
    /// Checks and back-ends of this layout: those of its session, and what the layout itself brings.
    pub registry: Registry,
    /// The checks that were run, in their order.
    pub checks: Vec<Ran>,
    /// What the checks found: worst first, then in the order of the checks.
    pub findings: Vec<Finding>,
    written: Option<Written>,
    memo: Arc<Memo>,
}

impl Compiled {
    /// What keeps its outputs from use.
    #[must_use]
    pub fn held(&self) -> Held {
        Held::new(self.model.as_ref().map_or(0, |model| model.errors), &self.findings)
    }

    /// How many faults are found and not accepted.
    #[must_use]
    pub fn faults(&self) -> usize {
        Counts::of(&self.findings).faults
    }

    /// What is written, if it could be read.
    #[must_use]
    pub fn document(&self) -> Option<&LayoutDoc> {
        self.written.as_ref().map(|written| &written.doc)
    }

    /// What is known of the layout beyond its model; `None` if it did not compile.
    #[must_use]
    pub fn figures(&self) -> Option<Figures<'_>> {
        self.model.as_ref().map(|model| Figures::new(model, &self.memo).of_files(&self.sources))
    }
}

/// What a layout's model is made from.
#[derive(Debug)]
struct Written {
    path: String,
    doc: LayoutDoc,
    symbols: Vec<Option<Arc<SymbolDoc>>>,
    /// Folders of symbols from which none was taken.
    folders: Vec<Spanned<String>>,
}

/// Compiles layouts, one after the other, and finds again what has not changed since the last ones.
///
/// The stages are asked for one by one: [`read`](Self::read), [`check`](Self::check), [`suggest`](Self::suggest) and
/// [`draw`](Self::draw). What they give is the same, byte for byte, as from a session that has seen nothing before.
#[derive(Debug, Default)]
pub struct Session {
    /// Checks and back-ends of every layout.
    pub registry: Registry,
    options: Options,
    memo: Arc<Memo>,
    stop: Stop,
}

impl Session {
    /// A session that has seen nothing yet.
    #[must_use]
    pub fn new(registry: Registry, options: Options) -> Self {
        Self { registry, options, ..Self::default() }
    }

    /// The same, with a table that makes each result again and compares, for tests.
    #[must_use]
    pub fn proving(registry: Registry, options: Options) -> Self {
        Self { memo: Arc::new(Memo::proving()), ..Self::new(registry, options) }
    }

    /// A handle by which another thread ends the stage that is at work.
    #[must_use]
    pub fn stop(&self) -> Stop {
        self.stop.clone()
    }

    /// Reads and resolves one layout, without any check.
    #[must_use]
    pub fn read(&self, world: &dyn World, path: &str) -> Compiled {
        self.memo.next_round();
        let (mut sources, mut errors) = (SourceMap::default(), Sink::default());
        let doc = read_layout(world, path, self.options.allow_outside, &mut sources, &mut errors);
        refuse_name(layout_name(path), &mut errors);
        let mut registry = self.registry.clone();
        let written = doc.map(|doc| {
            let Options { allow_outside, bounds } = self.options;
            let outside = Outside { world, path, allow_outside, bounds, memo: &self.memo };
            registry = outside.joined(&doc.plug_ins, &sources, &registry, &mut errors);
            let mut library = Symbols::new(world, path, (&doc.symbols, self.options.allow_outside), &self.memo);
            let symbols = doc.modules.values().map(|m| library.get(&m.value.symbol, &mut sources, &mut errors));
            let symbols: Vec<Option<Arc<SymbolDoc>>> = symbols.collect();
            let rules = house_rules(&doc, &symbols, &mut errors);
            if rules.len() == doc.rules.len() {
                match registry.joined(rules, Vec::new()) {
                    Ok(joined) => registry = joined,
                    Err(name) => errors.push(Diagnostic::new(doc.title.span, format!("`{name}` is there already"))),
                }
                refuse_unknown_checks(&doc, &registry, &mut errors);
            }
            let folders = library.unused(&sources);
            Written { path: path.to_owned(), doc, symbols, folders }
        });
        let model = written
            .as_ref()
            .and_then(|written| {
                resolve(layout_name(path), &written.doc, written.symbols.clone(), &self.memo, &mut errors)
            })
            .filter(|_| !errors.bars());
        Compiled { sources, errors, model, registry, written, memo: Arc::clone(&self.memo), ..Compiled::default() }
    }

    /// Runs all checks.
    ///
    /// # Errors
    /// When it was stopped; nothing is found then.
    pub fn check(&self, compiled: &mut Compiled) -> Result<(), Stopped> {
        let Some(figures) = compiled.figures() else { return Ok(()) };
        let mut findings = run_checks_of(&figures, &compiled.registry, &self.stop)?;
        if let Some(Written { doc, symbols, folders, .. }) = &compiled.written {
            let entries = unused::Entries { doc, symbols, folders };
            findings.extend(unused::unused(&entries, &figures, &compiled.registry));
            sort(&mut findings);
        }
        let checks = compiled.registry.checks.iter().map(|check| ran(check.as_ref(), figures.model)).collect();
        (compiled.findings, compiled.checks) = (findings, checks);
        Ok(())
    }

    /// Looks for what would clear the findings.
    ///
    /// # Errors
    /// When it was stopped; what was found until then is there.
    pub fn suggest(&self, compiled: &mut Compiled) -> Result<(), Stopped> {
        let Some((model, written)) = compiled.model.as_ref().zip(compiled.written.as_ref()) else { return Ok(()) };
        let Written { path, doc, symbols, .. } = written;
        let (sources, checks) = (&compiled.sources, &compiled.registry.checks);
        let memo = &self.memo;
        let input = Input { path, name: layout_name(path), doc, symbols, sources, model, checks, memo, judge: &grave };
        let for_errors = if compiled.errors.is_empty() { Vec::new() } else { for_errors(&input, &compiled.findings) };
        let found = suggestions(&input, &compiled.findings);
        for (span, suggestion) in for_errors {
            compiled.errors.suggest(span, &suggestion);
        }
        for (finding, suggestion) in compiled.findings.iter_mut().zip(found) {
            finding.suggestion = suggestion;
        }
        self.stop.check()
    }

    /// Makes what some outputs read: sheets, labels and sums only where they are asked for. `None` if the layout did not
    /// compile.
    ///
    /// # Errors
    /// When it was stopped.
    pub fn draw<'a>(&self, compiled: &'a Compiled, wanted: &Wanted) -> Result<Option<Outputs<'a>>, Stopped> {
        let Some(figures) = compiled.figures() else { return Ok(None) };
        let mut outputs = Outputs {
            figures,
            sheets: Vec::new(),
            labels: Vec::new(),
            tiles: Ok(Vec::new()),
            sums: Vec::new(),
            failed: Vec::new(),
            picture: None,
            csv: CsvForm::default(),
        };
        let makers: Vec<_> = match wanted.reads.contains(&Reads::Sheets) {
            true => compiled.registry.sheets.iter().filter(|maker| wanted.sheets.given(maker.name())).collect(),
            false => Vec::new(),
        };
        if wanted.reads.contains(&Reads::Sums) || makers.iter().any(|maker| maker.reads_sums()) {
            outputs.sums = sums(&outputs.figures, &compiled.registry);
            self.stop.check()?;
        }
        if wanted.reads.contains(&Reads::Sheets) {
            let made: Vec<_> = makers.iter().map(|maker| maker.sheets(&outputs.product(compiled))).collect();
            let (given, failed): (Vec<_>, Vec<_>) = made.into_iter().partition(Result::is_ok);
            outputs.failed = failed.into_iter().filter_map(Result::err).collect();
            let given: Vec<_> = given.into_iter().flatten().flatten().collect();
            let (checks, findings) = (&compiled.checks, &compiled.findings);
            let input = SheetSet { figures: &outputs.figures, checks, findings, given: &given };
            outputs.sheets = sheet_set(&input, &wanted.sheets);
            self.stop.check()?;
        }
        if wanted.reads.contains(&Reads::Labels) {
            outputs.labels = part_labels(&outputs.figures, compiled.held());
        }
        if wanted.reads.contains(&Reads::Tiles) {
            outputs.tiles = part_tiles(&outputs.figures, compiled.held());
        }
        self.stop.check()?;
        Ok(Some(outputs))
    }
}

/// What outputs are asked for.
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    /// What the outputs read.
    pub reads: Vec<Reads>,
    /// The sheets that are wanted.
    pub sheets: Chosen,
}

impl Wanted {
    /// Everything that a build makes where nothing is named.
    #[must_use]
    pub fn all() -> Self {
        Self { reads: vec![Reads::Sheets, Reads::Labels, Reads::Sums], sheets: Chosen::default() }
    }
}

/// Sheets, labels and sums of a compiled layout, with all that is known of it.
#[derive(Debug)]
pub struct Outputs<'a> {
    figures: Figures<'a>,
    /// The sheet set.
    pub sheets: Vec<Sheet>,
    /// Labels of the pieces.
    pub labels: Vec<Sheet>,
    /// Pieces in true size on tiles of paper, or why there are none.
    pub tiles: Result<Vec<Sheet>, String>,
    /// The worked sums of the checks that have some, in their order.
    pub sums: Vec<(String, Vec<Worked>)>,
    /// What outside could not be made, and why.
    pub failed: Vec<String>,
    /// The picture that is asked for, if one is.
    pub picture: Option<Picture>,
    /// How CSV files are written.
    pub csv: CsvForm,
}

impl Outputs<'_> {
    /// The cut list.
    #[must_use]
    pub fn cut_list(&self) -> &CutList {
        self.figures.cut_list()
    }

    /// Whether anything has asked for the cut list.
    #[must_use]
    pub fn has_cut_list(&self) -> bool {
        self.figures.has_cut_list()
    }

    /// Turns all texts of the sheets into outlines of their letters.
    pub fn outline_texts(&mut self) {
        self.sheets = self.sheets.iter().map(outlined).collect();
        self.labels = self.labels.iter().map(outlined).collect();
        self.tiles.iter_mut().flatten().for_each(|tile| *tile = outlined(tile));
    }

    /// Leaves the paper out of all sheets.
    pub fn leave_paper_out(&mut self) {
        self.sheets.iter_mut().for_each(|sheet| sheet.look.clear = true);
    }

    /// Everything a back-end may use.
    #[must_use]
    pub fn product<'b>(&'b self, compiled: &'b Compiled) -> Product<'b> {
        Product {
            model: self.figures.model,
            figures: &self.figures,
            checks: &compiled.checks,
            findings: &compiled.findings,
            sums: &self.sums,
            sheets: &self.sheets,
            labels: &self.labels,
            tiles: self.tiles.as_deref().map_err(String::as_str),
            errors: &compiled.errors,
            sources: &compiled.sources,
            picture: self.picture.as_ref(),
            csv: self.csv,
        }
    }
}

/// Reads, resolves and checks one layout, and looks for what would clear its findings.
#[must_use]
pub fn compile(world: &dyn World, path: &str, registry: &Registry, options: &Options) -> Compiled {
    let session = Session::new(registry.clone(), *options);
    let mut compiled = session.read(world, path);
    // Nobody else has the handle that would stop it.
    let _never_stopped = session.check(&mut compiled).and_then(|()| session.suggest(&mut compiled));
    compiled
}

/// Reads and resolves one layout, without any check.
#[must_use]
pub fn read(world: &dyn World, path: &str, registry: &Registry, options: &Options) -> Compiled {
    Session::new(registry.clone(), *options).read(world, path)
}

/// Makes everything that outputs read; `None` if the layout did not compile.
#[must_use]
pub fn produce(compiled: &Compiled) -> Option<Outputs<'_>> {
    Session::default().draw(compiled, &Wanted::all()).ok().flatten()
}

/// What one check finds that is graver than a note.
fn grave(figures: &Figures<'_>, check: &dyn Check) -> Vec<Finding> {
    settled(figures.model, check.grave(&Context::new(check, figures)))
}

/// Runs every check, joins findings that say the same of one thing in several arrangements, and marks accepted ones.
#[must_use]
pub fn run_checks(model: &Model, registry: &Registry) -> Vec<Finding> {
    let memo = Memo::default();
    run_checks_of(&Figures::new(model, &memo), registry, &Stop::default()).unwrap_or_default()
}

fn run_checks_of(figures: &Figures<'_>, registry: &Registry, stop: &Stop) -> Result<Vec<Finding>, Stopped> {
    figures.prepare();
    let run = |check: &Arc<dyn Check>| {
        stop.check().map(|()| settled(figures.model, check.run(&Context::new(check.as_ref(), figures))))
    };
    let found: Vec<Vec<Finding>> = registry.checks.par_iter().map(run).collect::<Result<_, Stopped>>()?;
    let mut findings: Vec<Finding> = found.into_iter().flatten().collect();
    findings.extend(acceptance::unused(figures.model, registry, &findings));
    sort(&mut findings);
    Ok(findings)
}

/// Open ones first, the gravest before.
fn sort(findings: &mut [Finding]) {
    findings.sort_by_key(|finding| (finding.accepted.is_some(), finding.severity));
}

/// The worked sums of all checks that have some.
fn sums(figures: &Figures<'_>, registry: &Registry) -> Vec<(String, Vec<Worked>)> {
    let of = |check: &Arc<dyn Check>| (check.name().to_owned(), check.worked(&Context::new(check.as_ref(), figures)));
    registry.checks.iter().map(of).filter(|(_, sums)| !sums.is_empty()).collect()
}

/// The findings of one check, joined, with the accepted ones marked.
fn settled(model: &Model, found: Vec<Finding>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for finding in found {
        join(&mut findings, finding);
    }
    findings.into_iter().flat_map(|finding| acceptance::judged(model, finding)).collect()
}

/// Outputs are named after the layout, so its name has to fit every system.
fn refuse_name(name: &str, errors: &mut Sink) {
    if let Some(why) = refused_name(name) {
        let start = Span { file: FileId(0), start: 0, end: 0 };
        let error = Diagnostic::new(start, format!("a layout's file can't be named `{name}`: {why}"));
        errors.push(error.help("rename it; letters, digits and hyphens fit everywhere, such as `first-box.yaml`"));
    }
}

fn join(findings: &mut Vec<Finding>, finding: Finding) {
    match findings.iter_mut().find(|known| known.says_as_much(&finding)) {
        Some(known) => {
            for arrangement in finding.arrangements {
                if !known.arrangements.contains(&arrangement) {
                    known.arrangements.push(arrangement);
                }
            }
        }
        None => findings.push(finding),
    }
}

fn refuse_unknown_checks(doc: &LayoutDoc, registry: &Registry, errors: &mut Sink) {
    for limit in &doc.limits {
        let Some(check) = known_check(&limit.check, registry, errors) else { continue };
        let names: Vec<&str> = check.limits().iter().map(|known| known.name.as_ref()).collect();
        if !names.contains(&limit.name.value.as_str()) {
            let message = format!("check `{}` has no limit `{}`", check.name(), limit.name.value);
            let error = Diagnostic::new(limit.name.span, message);
            errors.push(match names.as_slice() {
                [] => error.help("this check follows from the geometry alone"),
                names => error.help(format!("it has {}", one_of(names.iter().copied()))),
            });
        }
    }
    for entry in &doc.accepted {
        known_check(&entry.value.check, registry, errors);
    }
}

fn known_check<'a>(name: &Spanned<String>, registry: &'a Registry, errors: &mut Sink) -> Option<&'a dyn Check> {
    let found = registry.check(&name.value);
    if found.is_none() {
        let names = registry.checks.iter().map(|check| check.name());
        let error = Diagnostic::new(name.span, format!("there is no check `{}`", name.value));
        errors.push(match nearest(&name.value, names.clone()) {
            Some(near) => error.help(format!("did you mean `{near}`?")),
            None => error.help(format!("checks are {}", one_of(names))),
        });
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::{Measure, Quantity, Severity};

    fn joined(findings: [Finding; 2]) -> Vec<Finding> {
        findings.into_iter().fold(Vec::new(), |mut known, finding| {
            join(&mut known, finding);
            known
        })
    }

    fn finding(arrangement: &str, message: &str, mm: f64) -> Finding {
        let mut finding = Finding::new("walkway", Severity::Fault, "galley", message);
        finding.arrangements = vec![arrangement.to_owned()];
        finding.measured = Some(Measure { value: mm, quantity: Quantity::Length });
        finding
    }

    #[test]
    fn findings_are_joined_by_key_and_figures_whatever_their_words() {
        let both = joined([finding("day", "narrow", 300.0), finding("night", "too narrow", 300.0 + 1e-9)]);
        assert_eq!((both.len(), both[0].arrangements.join(" ").as_str()), (1, "day night"));
        let apart = |other: Finding| joined([finding("day", "narrow", 300.0), other]).len() == 2;
        assert!(apart(finding("night", "narrow", 310.0)), "another figure is another fact");
        assert!(apart(finding("night", "narrow", 300.0).of_part("stand")));
        assert!(apart(finding("night", "narrow", 300.0).names("where", "within `bed`")));
        assert!(apart(Finding { severity: Severity::Caution, ..finding("night", "narrow", 300.0) }));
    }
}

//! The whole way from a layout file to its model and findings, and on to sheets and cut list.

use crate::backends::{Picture, Product};
use crate::base::text::{nearest, one_of};
use crate::checks::{Check, Context, Grounds, Ran};
use crate::diagnostic::{Counts, Diagnostic, Finding, Severity, Sink, Worked};
use crate::drawing::{Sheet, outlined};
use crate::joinery::{CutList, cut_list};
use crate::language::{LayoutDoc, SymbolDoc, Symbols, read_layout};
use crate::model::Model;
use crate::registry::Registry;
use crate::resolve::resolve;
use crate::source::{SourceMap, Spanned, World};
use crate::suggest::{Input, suggestions};
use crate::views::{part_labels, sheet_set};
use rayon::prelude::*;
use std::sync::Arc;

/// How to compile.
#[derive(Debug, Clone, Copy, Default)]
pub struct Options {
    /// `extends` and `symbols` may leave the folder of the layout.
    pub allow_outside: bool,
}

/// What a compile has found out. `model` is `None` exactly when there are errors.
#[derive(Debug, Default)]
pub struct Compiled {
    /// All files read.
    pub sources: SourceMap,
    /// What kept it from compiling.
    pub errors: Sink,
    /// The resolved layout.
    pub model: Option<Model>,
    /// The checks that were run, in their order.
    pub checks: Vec<Ran>,
    /// What the checks found: worst first, then in the order of the checks.
    pub findings: Vec<Finding>,
    /// The worked sums of the checks that have some, in their order.
    pub sums: Vec<(&'static str, Vec<Worked>)>,
}

impl Compiled {
    /// How many faults are found and not accepted.
    #[must_use]
    pub fn faults(&self) -> usize {
        Counts::of(&self.findings).faults
    }
}

/// Sheets and cut list of a compiled layout.
#[derive(Debug)]
pub struct Outputs {
    /// The sheet set.
    pub sheets: Vec<Sheet>,
    /// Labels of the pieces.
    pub labels: Vec<Sheet>,
    /// The cut list.
    pub cut_list: CutList,
    /// The picture that is asked for, if one is.
    pub picture: Option<Picture>,
}

impl Outputs {
    /// Turns all texts of the sheets into outlines of their letters.
    pub fn outline_texts(&mut self) {
        self.sheets = self.sheets.iter().map(outlined).collect();
        self.labels = self.labels.iter().map(outlined).collect();
    }

    /// Leaves the paper out of all sheets.
    pub fn leave_paper_out(&mut self) {
        self.sheets.iter_mut().for_each(|sheet| sheet.look.clear = true);
    }

    /// Everything a back-end may use; `None` if the layout did not compile.
    #[must_use]
    pub fn product<'a>(&'a self, compiled: &'a Compiled) -> Option<Product<'a>> {
        compiled.model.as_ref().map(|model| Product {
            model,
            checks: &compiled.checks,
            findings: &compiled.findings,
            sums: &compiled.sums,
            sheets: &self.sheets,
            labels: &self.labels,
            cut_list: &self.cut_list,
            sources: &compiled.sources,
            picture: self.picture.as_ref(),
        })
    }
}

/// Reads, resolves and checks one layout, and looks for what would clear its findings.
#[must_use]
pub fn compile(world: &dyn World, path: &str, registry: &Registry, options: &Options) -> Compiled {
    let (mut compiled, written) = load(world, path, registry, options);
    if let Some((model, written)) = compiled.model.as_ref().zip(written) {
        compiled.checks = registry.checks.iter().map(|check| Ran::new(*check, model)).collect();
        compiled.sums = sums(model, registry);
        let mut findings = run_checks(model, registry);
        suggest(path, &written, &compiled.sources, model, registry, &mut findings);
        compiled.findings = findings;
    }
    compiled
}

/// Reads and resolves one layout, without any check.
#[must_use]
pub fn read(world: &dyn World, path: &str, registry: &Registry, options: &Options) -> Compiled {
    load(world, path, registry, options).0
}

/// What a layout's model is made from.
struct Written {
    doc: LayoutDoc,
    symbols: Vec<Option<Arc<SymbolDoc>>>,
}

fn load(world: &dyn World, path: &str, registry: &Registry, options: &Options) -> (Compiled, Option<Written>) {
    let (mut sources, mut errors) = (SourceMap::default(), Sink::default());
    let doc = read_layout(world, path, options.allow_outside, &mut sources, &mut errors);
    let written = doc.map(|doc| {
        refuse_unknown_checks(&doc, registry, &mut errors);
        let mut library = Symbols::new(world, path, &doc.symbols, options.allow_outside);
        let symbols = doc.modules.values().map(|m| library.get(&m.value.symbol, &mut sources, &mut errors)).collect();
        Written { doc, symbols }
    });
    let model = written
        .as_ref()
        .and_then(|written| resolve(stem(path), &written.doc, written.symbols.clone(), &mut errors))
        .filter(|_| errors.is_empty());
    (Compiled { sources, errors, model, checks: Vec::new(), findings: Vec::new(), sums: Vec::new() }, written)
}

fn suggest(
    path: &str,
    written: &Written,
    sources: &SourceMap,
    model: &Model,
    registry: &Registry,
    findings: &mut [Finding],
) {
    let (doc, symbols, checks) = (&written.doc, &written.symbols, &registry.checks);
    let input = Input { path, name: stem(path), doc, symbols, sources, model, checks, judge: &grave };
    let found = suggestions(&input, findings);
    for (finding, suggestion) in findings.iter_mut().zip(found) {
        finding.suggestion = suggestion;
    }
}

/// What one check finds that is graver than a note.
fn grave(model: &Model, grounds: &Grounds, check: &'static dyn Check) -> Vec<Finding> {
    settled(model, check.grave(&Context::new(check, model, grounds)))
}

/// Runs every check, joins findings that differ only in their arrangement, and marks accepted ones.
#[must_use]
pub fn run_checks(model: &Model, registry: &Registry) -> Vec<Finding> {
    let grounds = Grounds::new(model);
    let run = |check: &&'static dyn Check| settled(model, check.run(&Context::new(*check, model, &grounds)));
    let found: Vec<Vec<Finding>> = registry.checks.par_iter().map(run).collect();
    let mut findings: Vec<Finding> = found.into_iter().flatten().collect();
    findings.extend(unused_acceptances(model, registry, &findings));
    findings.sort_by_key(|finding| (finding.accepted.is_some(), finding.severity));
    findings
}

/// The worked sums of all checks that have some.
fn sums(model: &Model, registry: &Registry) -> Vec<(&'static str, Vec<Worked>)> {
    let grounds = Grounds::new(model);
    let of = |check: &&'static dyn Check| (check.name(), check.worked(&Context::new(*check, model, &grounds)));
    registry.checks.iter().map(of).filter(|(_, sums)| !sums.is_empty()).collect()
}

/// The findings of one check, joined, with the accepted ones marked.
fn settled(model: &Model, found: Vec<Finding>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for finding in found {
        join(&mut findings, finding);
    }
    for finding in &mut findings {
        finding.accepted = reason(model, finding);
    }
    findings
}

/// Makes cut list and sheets; `None` if the layout did not compile.
#[must_use]
pub fn produce(compiled: &Compiled) -> Option<Outputs> {
    let model = compiled.model.as_ref()?;
    let cut_list = cut_list(model);
    let sheets = sheet_set(model, &compiled.checks, &compiled.findings, &cut_list);
    let labels = part_labels(model, &cut_list, compiled.faults());
    Some(Outputs { sheets, labels, cut_list, picture: None })
}

/// Name of a file without folder and ending.
fn stem(path: &str) -> &str {
    let name = path.rsplit(['/', '\\']).next().unwrap_or(path);
    name.strip_suffix(".yaml").or_else(|| name.strip_suffix(".yml")).unwrap_or(name)
}

fn join(findings: &mut Vec<Finding>, finding: Finding) {
    let equal = findings.iter_mut().find(|known| {
        known.check == finding.check
            && known.severity == finding.severity
            && known.subject == finding.subject
            && known.message == finding.message
    });
    match equal {
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

fn reason(model: &Model, finding: &Finding) -> Option<String> {
    let entry = model.accepted.iter().find(|entry| entry.fits(finding))?;
    (finding.severity < Severity::Note).then(|| entry.because.clone())
}

fn unused_acceptances(model: &Model, registry: &Registry, findings: &[Finding]) -> Vec<Finding> {
    let unused = model
        .accepted
        .iter()
        .filter(|entry| !findings.iter().any(|finding| finding.accepted.is_some() && entry.fits(finding)));
    unused
        .filter_map(|entry| {
            let check = registry.check(&entry.check)?;
            let message = format!("nothing to accept: `{}` has no finding about `{}`", entry.check, entry.of);
            let mut note = Finding::new(check.name(), Severity::Note, &entry.of, message);
            note.spans.push(entry.span);
            note.help = Some("delete this entry of `accepted`".to_owned());
            Some(note)
        })
        .collect()
}

fn refuse_unknown_checks(doc: &LayoutDoc, registry: &Registry, errors: &mut Sink) {
    for limit in &doc.limits {
        let Some(check) = known_check(&limit.check, registry, errors) else { continue };
        let names: Vec<&str> = check.limits().iter().map(|known| known.name).collect();
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

fn known_check(name: &Spanned<String>, registry: &Registry, errors: &mut Sink) -> Option<&'static dyn Check> {
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

//! Trying a change: on the document with the finding's own check, and on the text with all checks.

use super::candidate::Candidate;
use super::goal::{Goal, Outcome};
use super::input::Input;
use super::learnt::Learnt;
use super::rewrite::Rewrite;
use super::rule::would_do;
use crate::checks::{Check, Context};
use crate::diagnostic::{Finding, Sink, edited};
use crate::figures::{Figures, Narrows};
use crate::language::{LayoutDoc, read_layout};
use crate::model::{Misfit, MisfitKind, Model, Module};
use crate::resolve::resolve;
use crate::source::{FileId, MemoryWorld, SourceMap};

/// What a trial looks at besides the finding's own check in its first arrangement.
#[derive(Default)]
pub(super) struct Scope<'a> {
    /// Checks that have found something worse with a change that clears the finding.
    pub others: Vec<&'a dyn Check>,
    /// All arrangements that the finding holds in.
    pub whole: bool,
}

/// Why a change does not hold.
pub(super) enum Fault<'a> {
    /// This check finds something worse.
    Other(&'a dyn Check),
    /// The finding is still there.
    Own,
    /// The text does not compile.
    Text,
}

/// One finding with all that a trial needs.
pub(super) struct Trial<'a> {
    pub input: &'a Input<'a>,
    pub check: &'a dyn Check,
    pub goal: Goal<'a>,
    pub before: &'a [Finding],
    /// Narrow places of the layout without a change.
    pub narrows: &'a Narrows,
    /// What was learnt from other findings.
    pub learnt: &'a Learnt,
}

impl<'a> Trial<'a> {
    /// What a change comes to within a scope.
    pub fn run(&self, candidate: &Candidate, step: f64, scope: &Scope<'_>) -> Outcome {
        let mut doc = self.input.doc.clone();
        let written = candidate.slot.write(&mut doc, candidate.value(step));
        let Some(mut model) = written.and_then(|()| self.resolve(&doc)) else { return Outcome::Refused };
        if !would_do(candidate, step, self.input.model, &model) {
            return Outcome::Refused;
        }
        self.keep_arrangements(&mut model, scope.whole);
        let figures = Figures::new(&model, self.input.memo).of_files(self.input.sources).knowing(self.narrows);
        let context = Context::new(self.check, &figures);
        if self.check.surely_stays(&context, self.goal.finding) {
            return Outcome::Unmoved;
        }
        let outcome = self.goal.outcome(&self.check.grave(&context));
        let fine = |check: &&dyn Check| self.goal.nothing_worse(self.before, &(self.input.judge)(&figures, *check));
        match outcome {
            Outcome::Cleared | Outcome::Softened if !scope.others.iter().all(fine) => Outcome::Open,
            outcome => outcome,
        }
    }

    fn resolve(&self, doc: &LayoutDoc) -> Option<Model> {
        let mut sink = Sink::default();
        let model = resolve(self.input.name, doc, self.input.symbols.to_vec(), self.input.memo, &mut sink)?;
        no_new_error(self.input.model, &model).then_some(model)
    }

    /// Leaves only arrangements that the finding holds in: the others are looked at when a change is proved.
    fn keep_arrangements(&self, model: &mut Model, whole: bool) {
        let mut names = self.goal.arrangements();
        names.truncate(if whole { names.len() } else { 1 });
        if names.is_empty() {
            return;
        }
        let kept: Vec<usize> = (0..model.arrangements.len())
            .filter(|at| model.arrangements.get(*at).is_some_and(|one| names.contains(&one.name.as_str())))
            .collect();
        for route in &mut model.routes {
            route.arrangements = route.arrangements.iter().filter_map(|at| kept.iter().position(|k| k == at)).collect();
        }
        model.arrangements.retain(|one| names.contains(&one.name.as_str()));
    }

    /// Compiles the edited files; all findings of the result, if the finding has come to `wanted` there and nothing
    /// else is worse.
    ///
    /// # Errors
    /// Why it does not hold.
    pub fn prove(&self, rewrite: &Rewrite, wanted: Outcome) -> Result<Vec<Finding>, Fault<'a>> {
        if let Some(after) = self.learnt.checked(&rewrite.edits).filter(|after| self.reached(after, wanted)) {
            return Ok(after);
        }
        let (mut sources, mut sink) = (SourceMap::default(), Sink::default());
        let world = self.edited_files(rewrite);
        let doc = read_layout(&world, self.input.path, true, &mut sources, &mut sink).filter(|_| !sink.bars());
        let model = doc.and_then(|doc| self.resolve(&doc)).ok_or(Fault::Text)?;
        let figures = Figures::new(&model, self.input.memo).of_files(&sources);
        let mut after = (self.input.judge)(&figures, self.check);
        if !self.reached(&after, wanted) {
            return Err(Fault::Own);
        }
        for check in
            self.input.checks.iter().map(AsRef::as_ref).filter(|check: &&dyn Check| check.name() != self.check.name())
        {
            after.extend((self.input.judge)(&figures, check));
            if !self.goal.nothing_worse(self.before, &after) {
                self.learnt.object(check.name());
                return Err(Fault::Other(check));
            }
        }
        self.learnt.keep(&rewrite.edits, &after);
        Ok(after)
    }

    /// Whether the finding has come to `wanted` or better among those of a changed layout, and nothing else is worse.
    pub fn reached(&self, after: &[Finding], wanted: Outcome) -> bool {
        let outcome = self.goal.outcome(after);
        (outcome == Outcome::Cleared || outcome == wanted) && self.goal.nothing_worse(self.before, after)
    }

    fn edited_files(&self, rewrite: &Rewrite) -> MemoryWorld {
        let files = (0..).map(FileId).map_while(|id| self.input.sources.file(id).map(|file| (id, file)));
        files.fold(MemoryWorld::default(), |world, (id, file)| {
            world.with(&file.name, &edited(&file.text, id, &rewrite.edits))
        })
    }
}

/// Whether a changed layout has no error that the layout has not.
fn no_new_error(before: &Model, after: &Model) -> bool {
    let all = |model: &Model| -> Vec<(String, MisfitKind, String)> {
        let of = |module: &Module| {
            let one = |misfit: &Misfit| (module.name.clone(), misfit.kind, misfit.what.clone());
            module.misfits.iter().map(one).collect::<Vec<_>>()
        };
        model.modules.iter().flat_map(of).collect()
    };
    let known = all(before);
    after.errors <= before.errors && all(after).iter().all(|one| known.contains(one))
}

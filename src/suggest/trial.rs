//! Trying a change: on the document with the finding's own check, and on the text with all checks.

use super::Input;
use super::candidate::Candidate;
use super::goal::{Goal, Outcome};
use super::rewrite::Rewrite;
use crate::checks::{Check, Context, Limits};
use crate::diagnostic::{Finding, Sink, edited};
use crate::language::{LayoutDoc, read_layout};
use crate::model::Model;
use crate::resolve::resolve;
use crate::source::{FileId, MemoryWorld, SourceMap};

/// One finding with all that a trial needs.
pub(super) struct Trial<'a> {
    pub input: &'a Input<'a>,
    pub check: &'static dyn Check,
    pub goal: Goal<'a>,
    pub before: &'a [Finding],
}

impl Trial<'_> {
    /// Whether a change clears the finding for its own check.
    pub fn run(&self, candidate: &Candidate, step: f64) -> Outcome {
        let mut doc = self.input.doc.clone();
        let written = candidate.slot.write(&mut doc, candidate.value(step));
        let model = written.and_then(|()| self.resolve(&doc));
        let Some(model) = model else { return Outcome::Refused };
        let limits = Limits::new(self.check, &model);
        self.goal.outcome(&self.check.run(&Context { model: &model, limits }))
    }

    fn resolve(&self, doc: &LayoutDoc) -> Option<Model> {
        let mut sink = Sink::default();
        resolve(self.input.name, doc, self.input.symbols.to_vec(), &mut sink)
    }

    /// Whether the files, so edited, compile to a layout where the finding has come to `wanted` and nothing else is
    /// worse.
    pub fn holds(&self, rewrite: &Rewrite, wanted: Outcome) -> bool {
        let (mut sources, mut sink) = (SourceMap::default(), Sink::default());
        let world = self.edited_files(rewrite);
        let doc = read_layout(&world, self.input.path, true, &mut sources, &mut sink).filter(|_| sink.is_empty());
        let Some(model) = doc.and_then(|doc| self.resolve(&doc)) else { return false };
        let after = (self.input.judge)(&model);
        let outcome = self.goal.outcome(&after);
        let reached = outcome == Outcome::Cleared || outcome == wanted;
        reached && self.goal.nothing_worse(self.before, &after)
    }

    fn edited_files(&self, rewrite: &Rewrite) -> MemoryWorld {
        let files = (0..).map(FileId).map_while(|id| self.input.sources.file(id).map(|file| (id, file)));
        files.fold(MemoryWorld::default(), |world, (id, file)| {
            world.with(&file.name, &edited(&file.text, id, &rewrite.edits))
        })
    }
}

//! What is seen of a layout: its findings or errors now, and the sheets of the last text that gave some.

use super::pictures::Pictures;
use crate::backends::{Found, Report};
use crate::compile::Compiled;
use crate::diagnostic::wire::json_text;
use serde_json::{Value, json};
use std::sync::Arc;

/// One sight of a layout.
#[derive(Default)]
pub(super) struct Sight {
    /// Counts the texts, from 1; 0 before anything was read.
    pub revision: u64,
    /// What the compiler made of the text.
    pub compiled: Arc<Compiled>,
    /// Sheets of this text, or of the last one that gave some.
    pub pictures: Option<Arc<Pictures>>,
}

impl Sight {
    /// The next sight: with sheets of its own, if the text gives some, else with those of before.
    pub fn next(&self, compiled: Compiled) -> Self {
        self.of(self.revision + 1, compiled)
    }

    fn of(&self, revision: u64, compiled: Compiled) -> Self {
        let compiled = Arc::new(compiled);
        let own = || Arc::new(Pictures::new(revision, Arc::clone(&compiled)));
        let pictures = compiled.model.is_some().then(own).or_else(|| self.pictures.clone());
        Self { revision, compiled, pictures }
    }

    /// The same text with more known of it: its suggestions, which stand on sheets, too.
    pub fn with(&self, compiled: Compiled) -> Self {
        self.of(self.revision, compiled)
    }

    /// Everything that the page shows beside the sheets, as JSON.
    pub fn told(&self, path: &str) -> String {
        let Compiled { sources, errors, model, checks, findings, .. } = &*self.compiled;
        let found =
            Found { errors: (errors.errors(), errors.dropped()), model: model.as_ref(), checks, findings, sources };
        let report = serde_json::to_value(Report::new(path, found)).unwrap_or_default();
        let heads = self.pictures.as_ref().and_then(|pictures| pictures.heads());
        let heads = heads.map(|heads| {
            heads.into_iter().map(|head| json!({ "id": head.id, "title": head.title })).collect::<Vec<_>>()
        });
        let shown = self.pictures.as_ref().map(|pictures| pictures.revision);
        json_text(&json!({
            "revision": self.revision,
            "path": path,
            "title": self.title(),
            "stamp": self.compiled.held().any().then(|| self.compiled.held().word()),
            "compiles": model.is_some(),
            "pictures": shown,
            "plans": self.plans(),
            "sheets": heads,
            "report": report,
        }))
    }

    fn title(&self) -> &str {
        let shown = self.compiled.model.as_ref().or_else(|| self.pictures.as_ref()?.compiled.model.as_ref());
        shown.map_or("", |model| model.title.title.as_str())
    }

    /// The plans of the arrangements, which are there before the list of all sheets is.
    fn plans(&self) -> Vec<Value> {
        let shown = self.pictures.as_ref().and_then(|pictures| pictures.compiled.model.as_ref());
        let plan = |name: &String| json!({ "id": format!("plan-{name}"), "title": name });
        shown.into_iter().flat_map(|model| &model.arrangements).map(|one| plan(&one.name)).collect()
    }
}

//! What findings may be about: everything in a layout that has a name, and some words.

use super::words::short;
use crate::base::text::nearest;
use crate::diagnostic::Subject;
use crate::model::Model;
use crate::source::Span;
use std::collections::BTreeMap;

/// Words for what has no name.
const WORDS: [&str; 9] =
    ["box", "vehicle", "berths", "heater", "battery", "fresh water", "grey water", "services", "layout"];

/// The names of a layout with their places.
pub(super) struct Things<'a>(BTreeMap<&'a str, Option<Span>>);

impl<'a> Things<'a> {
    /// Everything in a model that has a name.
    pub fn of(model: &'a Model) -> Self {
        let mut all = BTreeMap::new();
        let mut add = |name: &'a str, span: Option<Span>| _ = all.entry(name).or_insert(span);
        add("box", Some(model.space.span));
        WORDS.iter().for_each(|word| add(word, None));
        model.modules.iter().for_each(|one| add(&one.name, Some(one.place_span)));
        model.openings.iter().for_each(|one| add(&one.name, Some(one.span)));
        model.zones.iter().for_each(|one| add(&one.name, Some(one.span)));
        model.people.iter().for_each(|one| add(&one.name, Some(one.span)));
        model.routes.iter().for_each(|one| add(&one.name, Some(one.span)));
        model.arrangements.iter().for_each(|one| add(&one.name, Some(one.span)));
        model.cargo.iter().for_each(|one| add(&one.name, Some(one.span)));
        model.loads.iter().for_each(|one| add(&one.name, Some(one.span)));
        model.load_cases.iter().for_each(|one| add(&one.name, Some(one.span)));
        model.stocks.iter().for_each(|one| add(&one.name, one.span));
        let services = &model.services;
        services.consumers.iter().for_each(|one| add(&one.name, Some(one.span)));
        services.cables.iter().for_each(|one| add(&one.name, Some(one.span)));
        services.wastes.iter().for_each(|one| add(&one.name, Some(one.span)));
        Self(all)
    }

    /// The subject that a text names, one thing or `a and b`, with the places of both.
    ///
    /// # Errors
    /// What the layout has not.
    pub fn subject(&self, text: &str) -> Result<(Subject, Vec<Span>), String> {
        if let Some(span) = self.0.get(text) {
            return Ok((Subject::from(text), span.iter().copied().collect()));
        }
        let (first, second) = text.split_once(" and ").ok_or_else(|| self.missing(text))?;
        let spans = [first, second].map(|name| self.0.get(name).ok_or_else(|| self.missing(name)));
        let [one, other] = spans;
        let spans = [one?, other?].into_iter().flatten().copied().collect();
        Ok((Subject::pair(first, second), spans))
    }

    fn missing(&self, name: &str) -> String {
        let near = nearest(name, self.0.keys().copied());
        let near = near.map(|near| format!("; did you mean `{near}`?")).unwrap_or_default();
        format!("the layout has no `{}`{near}", short(name))
    }
}

//! Who takes which place: sleepers, and who sits where on the road.

use super::names::Resolver;
use crate::base::text::one_of;
use crate::diagnostic::Diagnostic;
use crate::language::TakerDoc;
use crate::model::{Need, PoseState, Taker};
use crate::source::{Span, Spanned};
use std::collections::BTreeMap;

impl Resolver<'_> {
    /// Those who are given a place of a module; the spaces that they name are there, for as many people.
    pub fn takers(&mut self, docs: &[TakerDoc], need: Need, poses: &[PoseState], module: &str) -> Vec<Taker> {
        let mut room: BTreeMap<&str, u32> = BTreeMap::new();
        for space in poses.iter().flat_map(|pose| &pose.spaces).filter(|space| space.need == need) {
            let most = room.entry(&space.name).or_default();
            *most = (*most).max(space.people.max(1));
        }
        let what = if need == Need::Lying { "lying space" } else { "sitting space" };
        let mut taken: BTreeMap<&str, u32> = BTreeMap::new();
        for TakerDoc { who, space } in docs {
            self.check_person(who);
            let Some(space) = space else { continue };
            let count = taken.entry(&space.value).or_default();
            *count += 1;
            match room.get(space.value.as_str()) {
                None if poses.is_empty() => {}
                None => self.no_such_space(space, what, module, room.keys().copied()),
                Some(most) if *count > *most => {
                    let message = format!("`{}` of `{module}` has room for {most}, and {count} are named", space.value);
                    self.error(Diagnostic::new(who.span, message).label("one too many").help("leave somebody out"));
                }
                Some(_) => {}
            }
        }
        let taker = |doc: &TakerDoc| Taker {
            who: doc.who.value.clone(),
            space: doc.space.as_ref().map(|space| space.value.clone()),
        };
        docs.iter().map(taker).collect()
    }

    fn no_such_space<'n>(
        &mut self,
        space: &Spanned<String>,
        what: &str,
        module: &str,
        known: impl Iterator<Item = &'n str>,
    ) {
        let error = Diagnostic::new(space.span, format!("`{module}` has no {what} `{}`", space.value));
        let known: Vec<&str> = known.collect();
        let help =
            if known.is_empty() { format!("its symbol has no {what}") } else { format!("it has {}", one_of(known)) };
        self.error(error.help(help));
    }

    /// Reports the name of a person who is not there.
    pub fn check_person(&mut self, who: &Spanned<String>) {
        let doc = self.doc;
        if !doc.people.contains_key(&who.value) {
            self.unknown_entry(who, "person", doc.people.keys());
        }
    }

    /// Nobody rides in two places.
    pub fn refuse_double_riders(&mut self) {
        let doc = self.doc;
        let seats = doc.vehicle.iter().flat_map(|vehicle| &vehicle.value.seats).filter_map(|seat| seat.who.as_ref());
        let riders = doc.modules.values().flat_map(|module| &module.value.riders).map(|rider| &rider.who);
        let mut seen: BTreeMap<&str, Span> = BTreeMap::new();
        let mut twice = Vec::new();
        for who in seats.chain(riders) {
            if let Some(first) = seen.insert(&who.value, who.span) {
                let message = format!("`{}` rides in two places", who.value);
                let error = Diagnostic::new(who.span, message).note(first, "and here");
                twice.push(error.help("leave one of them out"));
            }
        }
        for error in twice {
            self.error(error);
        }
    }
}

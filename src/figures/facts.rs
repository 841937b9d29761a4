//! The shared facts of one layout, each worked out when the first asks for it.

use super::fastened::{Fastened, fastened};
use super::ground::Ground;
use super::joints::{Joints, joints};
use super::narrows::Narrows;
use super::stowage::{Stowage, stowage};
use super::ways::{Floor, FoundWays, Way};
use super::work::{Work, works};
use crate::base::memo::Memo;
use crate::base::once::Once;
use crate::joinery::{CutList, Purchases, cut_list, purchases};
use crate::model::{Arrangement, Hand, Model, Route};
use crate::shell::inserts::{Inserts, inserts};
use crate::shell::losses::{Losses, losses};
use crate::source::SourceMap;
use crate::vehicle::{LoadCase, Weighed, load_cases, weigh};
use rayon::prelude::*;
use std::sync::Arc;

/// What checks, views and back-ends know of a layout beyond its model.
///
/// What takes long is kept in a [`Memo`] by its content, so that the next compile finds what has not changed.
#[derive(Debug)]
pub struct Figures<'a> {
    /// The resolved layout.
    pub model: &'a Model,
    /// The table for what takes long.
    pub memo: &'a Memo,
    /// The files, for checks that are told places as people count them; `None` where there are none.
    pub sources: Option<&'a SourceMap>,
    narrows: Option<&'a Narrows>,
    grounds: Vec<Once<Arc<Ground>>>,
    ways: Vec<Arc<FoundWays>>,
    stowage: Once<Vec<Stowage>>,
    cases: Once<Vec<LoadCase>>,
    weighed: Once<Vec<Weighed>>,
    losses: Once<Losses>,
    inserts: Once<Inserts>,
    fastened: Once<Vec<Vec<Fastened>>>,
    purchases: Once<Purchases>,
    cut_list: Once<CutList>,
    joints: Once<Joints>,
    works: Once<Vec<Work>>,
}

impl<'a> Figures<'a> {
    /// Nothing is worked out yet.
    #[must_use]
    pub fn new(model: &'a Model, memo: &'a Memo) -> Self {
        Self {
            model,
            memo,
            sources: None,
            narrows: None,
            grounds: model.arrangements.iter().map(|_| Once::new()).collect(),
            ways: model.arrangements.iter().map(|_| Arc::default()).collect(),
            stowage: Once::new(),
            cases: Once::new(),
            weighed: Once::new(),
            losses: Once::new(),
            inserts: Once::new(),
            fastened: Once::new(),
            purchases: Once::new(),
            cut_list: Once::new(),
            joints: Once::new(),
            works: Once::new(),
        }
    }

    /// The narrow places of its floors.
    #[must_use]
    pub fn narrows(&self) -> Narrows {
        let mut narrows = Narrows::default();
        for (at, arrangement) in self.model.arrangements.iter().enumerate() {
            narrows.add(&arrangement.name, &self.ground(at));
        }
        narrows
    }

    /// The same with the files that the layout was read from.
    #[must_use]
    pub fn of_files(self, sources: &'a SourceMap) -> Self {
        Self { sources: Some(sources), ..self }
    }

    /// The same with narrow places of a layout much like this one: what is worked out is the same, and sooner.
    #[must_use]
    pub fn knowing(self, narrows: &'a Narrows) -> Self {
        Self { narrows: Some(narrows), ..self }
    }

    /// Makes the ground of all arrangements side by side, so that no two checks make the same one.
    pub fn prepare(&self) {
        (0..self.grounds.len()).into_par_iter().for_each(|at| _ = self.ground(at).ways_in());
    }

    /// The walkable floor of one of the layout's arrangements.
    pub(crate) fn floor(&self, arrangement: &'a Arrangement) -> Floor<'a> {
        let at = self.model.arrangements.iter().position(|other| other.name == arrangement.name).unwrap_or_default();
        let found = self.ways.get(at).map(Arc::clone).unwrap_or_default();
        let narrows = self.narrows.map_or(&[][..], |narrows| narrows.lines(&arrangement.name));
        Floor { model: self.model, arrangement, memo: self.memo, ground: self.ground(at), found, narrows }
    }

    /// Every way of an arrangement that can be gone, at its narrowest place: the layout's routes, `more` routes, then from
    /// the doors to each standing space.
    #[must_use]
    pub fn measured_ways(&self, arrangement: &Arrangement, more: &[Route]) -> Vec<Way> {
        let own = self.model.arrangements.iter().find(|other| other.name == arrangement.name);
        own.map_or_else(Vec::new, |own| self.floor(own).measured(more))
    }

    fn ground(&self, at: usize) -> Arc<Ground> {
        let known = self.grounds.get(at).zip(self.model.arrangements.get(at));
        let make = |arrangement| Ground::known(self.model, arrangement, self.memo);
        known.map_or_else(Arc::default, |(place, arrangement)| Arc::clone(place.get(|| make(arrangement))))
    }

    /// All cargo, packed into the storage it is kept in.
    pub fn stowage(&self) -> &[Stowage] {
        self.stowage.get(|| stowage(self.model, self.memo))
    }

    /// All load cases; none without a vehicle.
    pub fn cases(&self) -> &[LoadCase] {
        self.cases.get(|| if self.model.vehicle.is_some() { load_cases(self.model) } else { Vec::new() })
    }

    /// The load cases on the axles, in the same order.
    pub fn weighed(&self) -> &[Weighed] {
        self.weighed.get(|| {
            let vehicle = self.model.vehicle.iter();
            vehicle.flat_map(|vehicle| self.cases().iter().map(|case| weigh(self.model, vehicle, case))).collect()
        })
    }

    /// Where the heat goes.
    pub fn losses(&self) -> &Losses {
        self.losses.get(|| losses(self.model))
    }

    /// The inserts that the panels need.
    pub fn inserts(&self) -> &Inserts {
        self.inserts.get(|| inserts(self.model))
    }

    /// The joints of modules with what is around them; those between their pieces are in the model.
    pub fn joints(&self) -> &Joints {
        self.joints.get(|| joints(self.model))
    }

    /// What fixes each module to what is around it, in file order.
    pub fn fastened(&self) -> &[Vec<Fastened>] {
        self.fastened.get(|| fastened(self.model, self.inserts(), self.joints()))
    }

    /// What is bought beside sheets.
    pub fn purchases(&self) -> &Purchases {
        self.purchases.get(|| {
            let around = self.model.modules.iter().zip(self.fastened());
            let around = around.flat_map(|(module, all)| all.iter().map(move |one| (module, &one.bought)));
            purchases(self.model, self.cut_list(), around)
        })
    }

    /// Whether the cut list was asked for.
    #[must_use]
    pub fn has_cut_list(&self) -> bool {
        self.cut_list.is_made()
    }

    /// The cut list with its sheets.
    pub fn cut_list(&self) -> &CutList {
        self.cut_list.get(|| cut_list(self.model))
    }

    /// The work on each kind of piece, in the order of the cut list.
    pub fn works(&self) -> &[Work] {
        self.works.get(|| works(self.model, self.cut_list()))
    }

    /// Which of two mirror images the pieces of a row of the cut list are: `left`, `right`, or `3 left, 3 right` where their
    /// bores part them; empty where it makes no difference.
    #[must_use]
    pub fn hands_of(&self, row: usize) -> String {
        let kinds = self.works().iter().filter(|work| work.row == row);
        let count = |hand| kinds.clone().filter(|work| work.hand == Some(hand)).map(|work| work.count).sum::<u32>();
        let all: u32 = kinds.clone().map(|work| work.count).sum();
        let told =
            [Hand::Left, Hand::Right].into_iter().map(|hand| (hand, count(hand))).filter(|(_, count)| *count > 0);
        let words = told.map(|(hand, count)| match count == all {
            true => hand.name().to_owned(),
            false => format!("{count} {}", hand.name()),
        });
        words.collect::<Vec<_>>().join(", ")
    }

    /// The kind that a copy of a row of the cut list is, counted from 1 in the order of sawing.
    #[must_use]
    pub fn work_of(&self, row: usize, copy: u32) -> Option<&Work> {
        let mut kinds = self.works().iter().filter(|work| work.row == row);
        let mut left = copy;
        kinds.find(|work| {
            let here = left <= work.count;
            left = left.saturating_sub(work.count);
            here
        })
    }
}

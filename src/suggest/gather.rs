//! The single changes that are worth a trial for a finding: values of the things that it speaks of, the parameters
//! named in them, and the sizes of the box.

use super::candidate::{Candidate, Change};
use super::input::Input;
use super::slot::{Group, MISFITS, Owner, SIZES, Slot};
use crate::diagnostic::Finding;
use crate::geometry::Axis;
use crate::language::expression::{Binary, Expr, ExprKind};
use crate::language::{LayoutDoc, ModuleDoc, PlaceDoc, SettingDoc, SettingKind};
use crate::model::{MisfitKind, Model, Module, Opening, Swings, Wall};

// Prices of changes, in millimetres that one would move something instead (common practice, no source).
const SIZE: f64 = 0.25;
const PARAMETER: f64 = 0.5;
const OPENING: f64 = 0.5;
const SETTING: f64 = 0.75;
const TURN: f64 = 400.0;
const SWAP: f64 = 20.0;
const OTHER_SWING: f64 = 30.0;
const WORD: f64 = 40.0;
const FEWER: f64 = 150.0;
const BOX: f64 = 1000.0;

/// Things that one finding's changes are taken from, at most.
const MOST_OWNERS: usize = 6;
/// Modules next to them, at most.
const MOST_NEAR: usize = 4;
const EDGES: [(&str, Axis); 8] = [
    ("front", Axis::X),
    ("rear", Axis::X),
    ("centre-x", Axis::X),
    ("left", Axis::Y),
    ("right", Axis::Y),
    ("centre-y", Axis::Y),
    ("floor", Axis::Z),
    ("top", Axis::Z),
];

/// Where the candidates are taken from; a later one is asked when the earlier ones have nothing that helps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ring {
    /// The parameters that several things share and that are named in what the finding speaks of.
    Shared,
    /// What the finding speaks of, and the parameters named there.
    Named,
    /// The modules next to it: their places and sizes.
    Near,
    /// The sizes of the box.
    Box,
}

/// All candidates of a ring for a finding, in a fixed order.
pub(super) fn candidates(input: &Input<'_>, finding: &Finding, ring: Ring) -> Vec<Candidate> {
    let misfit = finding.key.check == MISFITS;
    let mut gather = Gather { input, doc: input.doc.clone(), name: String::new(), misfit, made: Vec::new() };
    let named = owners(input, finding);
    let of_box = finding.key.subject.is("box") || finding.spans.contains(&input.model.space.span);
    match ring {
        Ring::Shared => {
            named.iter().take(MOST_OWNERS).for_each(|owner| gather.owner(*owner));
            let mut parameters = gather.parameters();
            gather.made.clear();
            parameters.retain(|owner| gather.is_shared(*owner));
            parameters.into_iter().for_each(|owner| gather.owner(owner));
        }
        Ring::Named => {
            gather.ends_of_ranges(&named);
            named.iter().take(MOST_OWNERS).for_each(|owner| gather.owner(*owner));
            gather.parameters().into_iter().for_each(|owner| gather.owner(owner));
        }
        Ring::Near => near(input.model, &named).into_iter().for_each(|at| gather.place_and_size(at)),
        // A van's body is what it is.
        Ring::Box if (named.is_empty() && !of_box) || input.model.is_van() => {}
        Ring::Box => gather.owner(Owner::Box),
    }
    gather.made
}

/// The modules that stand nearest in plan to those of the list.
fn near(model: &Model, owners: &[Owner]) -> Vec<usize> {
    let is_named = |at: usize| owners.contains(&Owner::Module(at));
    let of = |named: bool| model.modules.iter().enumerate().filter(move |(at, _)| is_named(*at) == named);
    let gap = |a: &Module, b: &Module| {
        let along = |axis| {
            let ((a, b), (c, d)) = (a.extent.range(axis), b.extent.range(axis));
            (c - b).max(a - d).max(0.0)
        };
        along(Axis::X).hypot(along(Axis::Y))
    };
    let far = |module: &Module| of(true).map(|(_, other)| gap(module, other)).min_by(f64::total_cmp);
    let mut found: Vec<(f64, usize)> = of(false).filter_map(|(at, module)| Some((far(module)?, at))).collect();
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found.into_iter().take(MOST_NEAR).map(|(_, at)| at).collect()
}

/// What a finding speaks of: the names in its subject, then what its places belong to.
fn owners(input: &Input<'_>, finding: &Finding) -> Vec<Owner> {
    let (doc, model) = (input.doc, input.model);
    let mut owners = Vec::new();
    for word in finding.key.subject.words() {
        let module = doc.modules.get_index_of(word).map(Owner::Module);
        let opening = doc.openings.get_index_of(word).map(Owner::Opening);
        owners.extend(module.or(opening).or_else(|| doc.zones.get_index_of(word).map(Owner::Zone)));
    }
    for span in &finding.spans {
        let module = model.modules.iter().position(|module| module.place_span == *span || module.span == *span);
        let opening = || model.openings.iter().position(|opening| opening.span == *span).map(Owner::Opening);
        let zone = || model.zones.iter().position(|zone| zone.span == *span).map(Owner::Zone);
        owners.extend(module.map(Owner::Module).or_else(opening).or_else(zone));
    }
    let mut once: Vec<Owner> = Vec::new();
    owners.retain(|owner| {
        let first = !once.contains(owner);
        once.push(*owner);
        first
    });
    owners
}

struct Gather<'a> {
    input: &'a Input<'a>,
    /// A copy to read from.
    doc: LayoutDoc,
    name: String,
    /// The finding is about a size or setting out of range.
    misfit: bool,
    made: Vec<Candidate>,
}

impl Gather<'_> {
    fn owner(&mut self, owner: Owner) {
        self.rename(owner);
        match owner {
            Owner::Module(at) => self.module(at),
            Owner::Opening(at) => self.opening(at),
            Owner::Zone(at) => self.zone(at),
            Owner::Parameter(_) => self.length(owner, (Group::Own, ""), None, PARAMETER),
            Owner::Box => {
                for key in ["length", "width", "height", "rise"] {
                    self.length(owner, (Group::Own, key), None, BOX);
                }
            }
        }
    }

    fn rename(&mut self, owner: Owner) {
        let doc = self.input.doc;
        let name = match owner {
            Owner::Module(at) => doc.modules.get_index(at).map(|entry| entry.0),
            Owner::Opening(at) => doc.openings.get_index(at).map(|entry| entry.0),
            Owner::Zone(at) => doc.zones.get_index(at).map(|entry| entry.0),
            Owner::Parameter(at) => doc.parameters.get_index(at).map(|entry| entry.0),
            Owner::Box => None,
        };
        self.name = name.map_or_else(|| "box".to_owned(), Clone::clone);
    }

    fn place_and_size(&mut self, at: usize) {
        let owner = Owner::Module(at);
        self.rename(owner);
        let Some(module) = self.input.model.modules.get(at) else { return };
        self.edges(owner, Group::Place, 0.0);
        let along_x = matches!(module.faces, Wall::Left | Wall::Right);
        for (key, axis) in SIZES.into_iter().zip([(Axis::X, Axis::Y), (Axis::Y, Axis::X), (Axis::Z, Axis::Z)]) {
            let axis = if along_x { axis.0 } else { axis.1 };
            let (low, high) = module.extent.range(axis);
            if self.edges_along(owner, Group::Place, axis) < 2 {
                self.length(owner, (Group::Size, key), Some(high - low), SIZE);
            }
        }
    }

    fn module(&mut self, at: usize) {
        let owner = Owner::Module(at);
        let Some(module) = self.input.model.modules.get(at) else { return };
        self.place_and_size(at);
        for wall in [Wall::Front, Wall::Rear, Wall::Left, Wall::Right] {
            if wall != module.faces {
                self.word(owner, (Group::Own, "faces"), wall.name(), TURN);
            }
        }
        let mirrored = self.input.doc.modules.get_index(at).and_then(|(_, doc)| doc.value.mirror.as_ref());
        let mirror = !mirrored.is_some_and(|mirror| mirror.value);
        self.put(owner, (Group::Own, "mirror"), Change::To(ExprKind::Bool(mirror)), (0.0, SWAP), false);
        let symbol = self.input.symbols.get(at).and_then(Option::as_ref);
        for (key, setting) in symbol.iter().flat_map(|symbol| &symbol.settings) {
            self.setting(owner, key, &setting.value);
        }
    }

    fn setting(&mut self, owner: Owner, key: &str, setting: &SettingDoc) {
        let slot = Slot::new(owner, Group::Set, key);
        let now = slot.read(&mut self.doc).map_or_else(|| setting.default.kind.clone(), |old| old.kind);
        match (&setting.kind, now) {
            (SettingKind::Whole { .. }, ExprKind::Number(count)) => {
                // The last one is not taken away: the designer asked for it.
                for by in [-1.0, 1.0].into_iter().filter(|by| count + by >= 1.0) {
                    let price = if by < 0.0 { FEWER } else { WORD };
                    self.put(owner, (Group::Set, key), Change::To(ExprKind::Number(count + by)), (count, price), false);
                }
            }
            (SettingKind::Length { .. }, ExprKind::Number(now)) => {
                self.length(owner, (Group::Set, key), Some(now), SETTING);
            }
            (SettingKind::Length { .. }, _) => self.length(owner, (Group::Set, key), None, SETTING),
            (SettingKind::YesNo, now) => {
                let yes = now == ExprKind::Bool(true) || now == ExprKind::Name("yes".to_owned());
                if !yes {
                    self.put(owner, (Group::Set, key), Change::To(ExprKind::Bool(true)), (0.0, WORD), false);
                }
            }
            (SettingKind::OneOf { values }, now) => {
                let other = |word: &str| word != "none" && now != ExprKind::Name(word.to_owned());
                for value in values.iter().filter(|value| other(&value.value)) {
                    self.word(owner, (Group::Set, key), &value.value, WORD);
                }
            }
            (SettingKind::Whole { .. }, _) => {}
        }
    }

    fn opening(&mut self, at: usize) {
        let owner = Owner::Opening(at);
        let Some(opening) = self.input.model.openings.get(at) else { return };
        // The doors of a van are what they are.
        if opening.kind.is_door() && self.input.model.is_van() {
            return;
        }
        self.edges(owner, Group::Own, OPENING);
        for key in ["centre", "second centre", "run", "depth", "sill", "height"] {
            self.length(owner, (Group::Own, key), None, OPENING);
        }
        if opening.hinge.is_some() && opening.swings != Swings::No {
            let swings = if opening.swings == Swings::In { "out" } else { "in" };
            self.word(owner, (Group::Own, "swings"), swings, OTHER_SWING);
        }
        for side in hinges(opening) {
            self.word(owner, (Group::Own, "hinge"), side, SWAP);
        }
    }

    /// Its edges: another level would only hide what it meets.
    fn zone(&mut self, at: usize) {
        let owner = Owner::Zone(at);
        self.edges(owner, Group::Own, 0.0);
    }

    fn edges(&mut self, owner: Owner, group: Group, cost: f64) {
        for (key, axis) in EDGES {
            let size = Slot::new(owner, Group::Size, "height").read(&mut self.doc).is_some();
            let hangs = key != "top" || size;
            let moves_all = self.edges_along(owner, group, axis) == 1 && hangs;
            self.length_of(owner, (group, key), None, cost, moves_all);
        }
    }

    /// How many edges are written along an axis.
    fn edges_along(&mut self, owner: Owner, group: Group, axis: Axis) -> usize {
        let keys = EDGES.into_iter().filter(|edge| edge.1 == axis);
        keys.filter(|(key, _)| Slot::new(owner, group, key).read(&mut self.doc).is_some()).count()
    }

    fn length(&mut self, owner: Owner, at: (Group, &str), current: Option<f64>, cost: f64) {
        self.length_of(owner, at, current, cost, false);
    }

    /// A length that is written, or that has a figure without being written.
    fn length_of(&mut self, owner: Owner, at: (Group, &str), current: Option<f64>, cost: f64, moves_all: bool) {
        let old = Slot::new(owner, at.0, at.1).read(&mut self.doc);
        let fits = old.as_ref().map_or(current.is_some(), is_sum);
        if fits {
            for sign in [1.0, -1.0] {
                self.put(owner, at, Change::By(sign), (current.unwrap_or_default(), cost), moves_all);
            }
        }
    }

    fn word(&mut self, owner: Owner, at: (Group, &str), word: &str, cost: f64) {
        self.put(owner, at, Change::To(ExprKind::Name(word.to_owned())), (0.0, cost), false);
    }

    fn put(&mut self, owner: Owner, at: (Group, &str), change: Change, (current, cost): (f64, f64), moves_all: bool) {
        let slot = Slot::new(owner, at.0, at.1);
        let (old, name) = (slot.read(&mut self.doc), self.name.clone());
        let module = self.input.model.modules.iter().find(|module| module.name == name);
        let misfit = module.is_some_and(|module| module.misfits.iter().any(|one| one.what == slot.key));
        self.made.push(Candidate { slot, name, change, old, current, cost, moves_all, misfit });
    }

    /// The least or greatest figures of settings out of range.
    fn ends_of_ranges(&mut self, owners: &[Owner]) {
        if !self.misfit {
            return;
        }
        for owner in owners {
            let Owner::Module(at) = *owner else { continue };
            let Some(module) = self.input.model.modules.get(at) else { continue };
            self.rename(*owner);
            for one in module.misfits.iter().filter(|one| one.kind == MisfitKind::Setting) {
                let end = one.figure.clamp(one.range.0, one.range.1.max(one.range.0));
                let price = (0.0, (one.figure - end).abs());
                self.put(*owner, (Group::Set, &one.what), Change::To(ExprKind::Number(end)), price, false);
            }
        }
    }

    /// Whether a parameter stands in two modules, openings or zones at least.
    fn is_shared(&self, owner: Owner) -> bool {
        let Owner::Parameter(at) = owner else { return false };
        let Some((name, _)) = self.input.doc.parameters.get_index(at) else { return false };
        let doc = self.input.doc;
        let places = doc.openings.values().map(|entry| &entry.value.place);
        let places = places.chain(doc.zones.values().map(|entry| &entry.value.place));
        let in_place = |place: &PlaceDoc| place.edges().any(|edge| names(edge, name));
        let in_module = |module: &ModuleDoc| {
            let sizes = module.size.iter().flatten();
            let mut all = sizes.chain(module.set.values().map(|entry| &entry.value));
            in_place(&module.place) || all.any(|expr| names(expr, name))
        };
        let modules = doc.modules.values().filter(|entry| in_module(&entry.value)).count();
        modules + places.filter(|place| in_place(place)).count() >= 2
    }

    /// The parameters that are named in what may be changed.
    fn parameters(&self) -> Vec<Owner> {
        let mut found = Vec::new();
        for old in self.made.iter().filter_map(|candidate| candidate.old.as_ref()) {
            old.each_name(&mut |name| {
                let at = self.input.doc.parameters.get_index_of(name).map(Owner::Parameter);
                found.extend(at.filter(|owner| !found.contains(owner)));
            });
        }
        found
    }
}

fn names(expr: &Expr, wanted: &str) -> bool {
    let mut found = false;
    expr.each_name(&mut |name| found |= name == wanted);
    found
}

/// Whether something may be added to it.
fn is_sum(expr: &Expr) -> bool {
    match &expr.kind {
        ExprKind::Bool(_) => false,
        ExprKind::Binary(operator, ..) => {
            matches!(operator, Binary::Add | Binary::Subtract | Binary::Multiply | Binary::Divide)
        }
        _ => true,
    }
}

/// The other sides that an opening may be hinged at; a door that people walk through has upright hinges.
fn hinges(opening: &Opening) -> Vec<&'static str> {
    let Some(now) = opening.hinge else { return Vec::new() };
    let sides = match opening.wall {
        Wall::Front | Wall::Rear => [Wall::Left, Wall::Right],
        _ => [Wall::Front, Wall::Rear],
    };
    let mut all: Vec<(Wall, &'static str)> = sides.into_iter().map(|side| (side, side.name())).collect();
    match (opening.kind, opening.wall) {
        (kind, _) if kind.is_door() => {}
        (_, Wall::Roof) => all.extend([(Wall::Left, "left"), (Wall::Right, "right")]),
        _ => all.extend([(Wall::Roof, "top"), (Wall::Floor, "bottom")]),
    }
    all.into_iter().filter(|(side, _)| *side != now).map(|(_, word)| word).collect()
}

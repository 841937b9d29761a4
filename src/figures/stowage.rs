//! The cargo of a layout packed into the storage spaces it is kept in: what the check, the drawings and the outputs
//! tell of it. A pure function of the model.

use super::storage::Room;
use crate::base::memo::Memo;
use crate::geometry::{Packing, Parcel, Prism};
use crate::model::{Model, Need, Space};

/// The cargo of one module in some arrangements.
#[derive(Debug, Clone, PartialEq)]
pub struct Stowage {
    /// Index of the module.
    pub module: usize,
    /// Indices of the arrangements in which it lies like this.
    pub arrangements: Vec<usize>,
    /// The module's storage spaces, in file order; none if it has none in these arrangements.
    pub holds: Vec<Hold>,
    /// Index and count of cargo that has found no place.
    pub left: Vec<(usize, usize)>,
}

/// One storage space with what lies in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Hold {
    /// The space with what stands in it.
    pub room: Room,
    /// What lies in it. Parcels are numbered as the model's cargo.
    pub packing: Packing,
    /// Litres of the space before anything is put in.
    pub litres: f64,
    /// Litres of what lies in it.
    pub stowed: f64,
}

const CUBIC_MM: f64 = 1e6;

/// All cargo of a layout, packed: for each module with cargo one entry that serves all arrangements, if the same places
/// do, else one for each group of arrangements in which its storage has the same room.
pub(super) fn stowage(model: &Model, memo: &Memo) -> Vec<Stowage> {
    let mut modules: Vec<usize> = model.cargo.iter().map(|cargo| cargo.module).collect();
    modules.sort_unstable();
    modules.dedup();
    modules.into_iter().flat_map(|module| of_module(model, module, memo)).collect()
}

fn of_module(model: &Model, module: usize, memo: &Memo) -> Vec<Stowage> {
    let packed = |rooms, arrangements| packed(model, module, (rooms, arrangements), memo);
    let mut groups: Vec<(Vec<Room>, Vec<usize>)> = Vec::new();
    for at in 0..model.arrangements.len() {
        let rooms = rooms(model, module, at);
        match groups.iter_mut().find(|(known, _)| *known == rooms) {
            Some((_, arrangements)) => arrangements.push(at),
            None => groups.push((rooms, vec![at])),
        }
    }
    if groups.len() > 1 {
        let shared = shared(&groups).map(|rooms| packed(rooms, (0..model.arrangements.len()).collect()));
        if let Some(stowage) = shared.filter(|stowage| stowage.left.is_empty()) {
            return vec![stowage];
        }
    }
    groups.into_iter().map(|(rooms, arrangements)| packed(rooms, arrangements)).collect()
}

fn rooms(model: &Model, module: usize, arrangement: usize) -> Vec<Room> {
    let Some(arrangement) = model.arrangements.get(arrangement) else { return Vec::new() };
    let pose = arrangement.poses.get(module).copied();
    let state = model.modules.get(module).zip(pose).and_then(|(module, pose)| module.poses.get(pose));
    let spaces = state.into_iter().flat_map(|state| &state.spaces).filter(|space| space.need == Need::Storage);
    spaces.map(|space: &Space| Room::new(model, arrangement, space)).collect()
}

/// The rooms with everything in them that stands there in any arrangement; `None` if the spaces themselves differ.
fn shared(groups: &[(Vec<Room>, Vec<usize>)]) -> Option<Vec<Room>> {
    let mut all = groups.first()?.0.clone();
    for (rooms, _) in groups.iter().skip(1) {
        if rooms.len() != all.len() {
            return None;
        }
        for (known, room) in all.iter_mut().zip(rooms) {
            if known.space.prism != room.space.prism {
                return None;
            }
            let more: Vec<Prism> = room.minus.iter().filter(|prism| !known.minus.contains(prism)).cloned().collect();
            known.minus.extend(more);
        }
    }
    Some(all)
}

/// Fills one storage space after the other.
fn packed(model: &Model, module: usize, (rooms, arrangements): (Vec<Room>, Vec<usize>), memo: &Memo) -> Stowage {
    let kept: Vec<usize> =
        (0..model.cargo.len()).filter(|at| model.cargo.get(*at).is_some_and(|c| c.module == module)).collect();
    let mut parcels: Vec<Parcel> =
        kept.iter().filter_map(|at| model.cargo.get(*at)).map(|cargo| cargo.parcel).collect();
    let mut holds = Vec::new();
    for room in rooms {
        let hold = hold(room, &kept, &mut parcels, memo);
        holds.push(hold);
    }
    let left = kept.iter().zip(&parcels).filter(|(_, parcel)| parcel.count > 0);
    let left = left.map(|(at, parcel)| (*at, parcel.count)).collect();
    Stowage { module, arrangements, holds, left }
}

fn hold(room: Room, kept: &[usize], parcels: &mut [Parcel], memo: &Memo) -> Hold {
    let mut packing = room.packed(parcels, memo);
    for (parcel, left) in parcels.iter_mut().zip(&packing.left) {
        parcel.count = *left;
    }
    let stowed = packing.placed.iter().map(|one| Prism::from(one.place).volume()).sum::<f64>() / CUBIC_MM;
    for one in &mut packing.placed {
        one.parcel = kept.get(one.parcel).copied().unwrap_or(one.parcel);
    }
    let litres = room.litres(memo);
    Hold { room, packing, litres, stowed }
}

impl Stowage {
    /// Name of the module that it is in.
    #[must_use]
    pub fn owner<'a>(&self, model: &'a Model) -> &'a str {
        model.modules.get(self.module).map_or("", |module| &module.name)
    }

    /// Names of its arrangements.
    #[must_use]
    pub fn arrangement_names(&self, model: &Model) -> Vec<String> {
        self.arrangements.iter().filter_map(|at| model.arrangements.get(*at)).map(|one| one.name.clone()).collect()
    }

    /// Litres of all its cargo that lies somewhere.
    #[must_use]
    pub fn stowed(&self) -> f64 {
        self.holds.iter().map(|hold| hold.stowed).sum()
    }

    /// Litres that are left.
    #[must_use]
    pub fn litres_left(&self) -> f64 {
        self.holds.iter().map(|hold| (hold.litres - hold.stowed).max(0.0)).sum()
    }

    /// What mass it may hold, kg, if every one of its spaces says so.
    #[must_use]
    pub fn carries(&self) -> Option<f64> {
        self.holds.iter().map(|hold| hold.room.space.carries).sum::<Option<f64>>().filter(|_| !self.holds.is_empty())
    }
}

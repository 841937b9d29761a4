//! How much all arrangements of a layout together may hold, so that anything that is let in is checked in seconds.

use super::names::Resolver;
use crate::diagnostic::Diagnostic;
use crate::model::{Model, Need, PoseState};

/// How many of something a module has in a pose.
type Count = fn(&PoseState) -> usize;

/// Counted once for each arrangement, since each is checked by itself.
const MOST: [(&str, usize, Count); 3] = [
    ("solids", 60_000, |state| state.solids.len()),
    ("standing spaces", 6_000, |state| state.spaces.iter().filter(|space| space.need == Need::Standing).count()),
    ("moves", 20_000, |state| state.moves.len()),
];

impl Resolver<'_> {
    /// Refuses a layout whose arrangements hold too much, at the arrangement that is one too many.
    pub(super) fn refuse_too_much(&mut self, model: &Model) {
        for (what, most, count) in MOST {
            let mut sum = 0;
            for arrangement in &model.arrangements {
                sum += model.states(arrangement).map(|(_, state)| count(state)).sum::<usize>();
                if sum > most {
                    let name = &arrangement.name;
                    let message =
                        format!("with `{name}` the arrangements hold {sum} {what}; at most {most} are allowed");
                    let help = "each is counted once in every arrangement: use fewer, or fewer arrangements";
                    self.error(Diagnostic::new(arrangement.span, message).help(help));
                    break;
                }
            }
        }
    }
}

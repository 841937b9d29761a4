//! Trying things: many versions of one layout, each checked, with figures to choose by.
//!
//! A version is a layout that extends the first one and says what it changes, so what was tried can be written down as it
//! stands. All of them are compiled by one session, side by side, and share what they have in common.

mod axis;
mod measure;

use crate::compile::{Compiled, Session};
use crate::diagnostic::Severity;
use crate::source::{MemoryWorld, Overlay, World};
use measure::Better;
use rayon::prelude::*;

pub use axis::{Axis, versions};
pub use measure::Measured;

/// The most versions of one run.
pub const MOST_VERSIONS: usize = 10_000;

/// One version: a value for each axis.
pub type Version = Vec<String>;

/// What came of a version.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried {
    /// Its values, in the order of the axes.
    pub version: Version,
    /// Faults and cautions, and the figures asked for; or the first error of one that does not compile.
    pub found: Result<Found, String>,
    /// No other is as good in everything and better in something.
    pub best: bool,
}

/// What was measured of a version that compiles.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Open faults.
    pub faults: usize,
    /// Open cautions.
    pub cautions: usize,
    /// The figures, in the order asked for; `None` for what the layout does not have.
    pub figures: Vec<Option<f64>>,
}

/// The text of a version: what it changes in the layout with this file name.
#[must_use]
pub fn text(file: &str, axes: &[Axis], version: &[String]) -> String {
    let changes = axes.iter().zip(version).map(|(axis, value)| axis.change(value)).collect();
    format!("boxwright: 1\nextends: {file}\n{}", axis::merged(changes))
}

/// Tries versions; `told` is called with each that is done, from any thread.
pub fn try_all(
    session: &Session,
    open: &(dyn Fn() -> Box<dyn World> + Sync),
    (path, axes): (&str, &[Axis]),
    (versions, figures): (Vec<Version>, &[Measured]),
    told: &(dyn Fn() + Sync),
) -> Vec<Tried> {
    let (folder, file) = path.rsplit_once('/').map_or(("", path), |(folder, file)| (folder, file));
    let own = |name: &str| if folder.is_empty() { name.to_owned() } else { format!("{folder}/{name}") };
    let one = |(number, version): (usize, Version)| {
        let world = open();
        let path = own(&format!("version-{}.yaml", number + 1));
        let overlay = Overlay::new(&*world, MemoryWorld::default().with(&path, &text(file, axes, &version)));
        let mut compiled = session.read(&overlay, &path);
        // Nobody else has the handle that would stop it.
        let _never_stopped = session.check(&mut compiled);
        let found = found(&compiled, figures);
        told();
        Tried { version, found, best: false }
    };
    let mut tried: Vec<Tried> = versions.into_par_iter().enumerate().map(one).collect();
    mark_best(&mut tried, figures);
    tried
}

fn found(compiled: &Compiled, asked: &[Measured]) -> Result<Found, String> {
    let error = compiled.errors.errors().first().map(|error| error.message.clone());
    let (None, Some(figures)) = (&error, compiled.figures()) else {
        return Err(error.unwrap_or_else(|| "nothing can be drawn of it".to_owned()));
    };
    let open = |severity| {
        let counts = |finding: &&crate::diagnostic::Finding| finding.severity == severity && finding.accepted.is_none();
        compiled.findings.iter().filter(counts).count()
    };
    let (faults, cautions) = (open(Severity::Fault), open(Severity::Caution));
    Ok(Found { faults, cautions, figures: asked.iter().map(|one| one.of(&figures)).collect() })
}

/// Marks every version that no other beats: as good in all and better in one. Faults and cautions count with the figures.
fn mark_best(tried: &mut [Tried], asked: &[Measured]) {
    let costs: Vec<Option<Vec<f64>>> = tried.iter().map(|one| costs(one, asked)).collect();
    let beats = |a: &[f64], b: &[f64]| {
        let pairs = || a.iter().zip(b);
        pairs().all(|(a, b)| a <= b) && pairs().any(|(a, b)| a < b)
    };
    for (one, own) in tried.iter_mut().zip(&costs) {
        one.best = own.as_ref().is_some_and(|own| !costs.iter().flatten().any(|other| beats(other, own)));
    }
}

/// The less, the better.
fn costs(tried: &Tried, asked: &[Measured]) -> Option<Vec<f64>> {
    let found = tried.found.as_ref().ok()?;
    let cost = |(one, value): (&Measured, &Option<f64>)| match (one.better(), value) {
        (_, None) => f64::INFINITY,
        (Better::Less, Some(value)) => *value,
        (Better::More, Some(value)) => -value,
    };
    let counts = [found.faults as f64, found.cautions as f64];
    Some(counts.into_iter().chain(asked.iter().zip(&found.figures).map(cost)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tried(faults: usize, cautions: usize, figures: [f64; 2]) -> Tried {
        let found = Found { faults, cautions, figures: figures.map(Some).into() };
        Tried { version: Vec::new(), found: Ok(found), best: false }
    }

    /// Against the definition, pair by pair, on all of 256 points.
    #[test]
    fn the_best_are_those_that_none_beats() {
        let asked = [Measured::Mass, Measured::Way];
        let mut all: Vec<Tried> = (0..256_u32)
            .map(|at| {
                tried((at % 3) as usize, (at / 3 % 3) as usize, [f64::from(at * 37 % 17), f64::from(at * 53 % 13)])
            })
            .collect();
        all.push(Tried { version: Vec::new(), found: Err(String::new()), best: false });
        mark_best(&mut all, &asked);
        assert!(!all[256].best);
        let of = |one: &Tried| one.found.clone().unwrap();
        for one in &all[..256] {
            let own = of(one);
            let beaten = all[..256].iter().map(of).any(|other| {
                let no_worse = other.faults <= own.faults
                    && other.cautions <= own.cautions
                    && other.figures[0] <= own.figures[0]
                    && other.figures[1] >= own.figures[1];
                no_worse && other != own
            });
            assert_eq!(one.best, !beaten, "{own:?}");
        }
    }
}

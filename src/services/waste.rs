//! Whether waste water runs off.

use crate::base::tolerance::SAME_LENGTH;
use crate::model::Waste;

/// The fall of a pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fall {
    /// Seen from above, mm.
    pub length: f64,
    /// How much lower it ends, mm.
    pub drop: f64,
    /// Percent.
    pub percent: f64,
    /// How much the leg that rises most rises, mm; 0 where none does.
    pub rise: f64,
}

/// The fall of a pipe along its way.
#[must_use]
pub fn fall(waste: &Waste) -> Fall {
    let run = &waste.run;
    let (length, drop) = (run.level_length(), run.fall());
    let legs = run.points.iter().zip(run.points.iter().skip(1));
    let rise = legs.map(|(a, b)| b.z - a.z).filter(|rise| *rise > SAME_LENGTH).fold(0.0, f64::max);
    let percent = if length > 0.0 { drop / length * 100.0 } else { f64::INFINITY };
    Fall { length, drop, percent, rise }
}

/// Bore up to which the steeper fall is wanted, mm: 2½ in; IPC 704.1.
pub const SMALL_BORE: f64 = 63.5;

//! Whether waste water runs off.

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
    /// Whether a leg of it rises.
    pub rises: bool,
}

/// The fall of a pipe along its way.
#[must_use]
pub fn fall(waste: &Waste) -> Fall {
    let run = &waste.run;
    let (length, drop) = (run.level_length(), run.fall());
    let rises = run.points.iter().zip(run.points.iter().skip(1)).any(|(a, b)| b.z > a.z + 1e-6);
    let percent = if length > 0.0 { drop / length * 100.0 } else { f64::INFINITY };
    Fall { length, drop, percent, rises }
}

/// Bore up to which the steeper fall is wanted, mm: 2½ in.
const SMALL: f64 = 63.5;

/// Fall that a bore wants, percent: 1/4 in a foot up to 2½ in, 1/8 in a foot from 3 in; IPC 704.1.
#[must_use]
pub fn wanted_fall(bore: f64) -> f64 {
    if bore <= SMALL { 100.0 / 48.0 } else { 100.0 / 96.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// IPC 704.1 as printed: 2.08 % and 1.04 %.
    #[test]
    fn falls_are_those_of_the_code() {
        assert!((wanted_fall(40.0) - 2.08).abs() <= 0.005 && (wanted_fall(76.2) - 1.04).abs() <= 0.005);
    }
}

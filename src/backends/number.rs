//! Numbers that every output can hold.

/// Farthest place from the corner of a sheet that is written, mm.
const FARTHEST: f64 = 1e6;

/// A coordinate that can be written: what is no number becomes 0, what is far off the sheet stays at 1 km.
#[must_use]
pub fn on_paper(value: f64) -> f64 {
    if value.is_nan() { 0.0 } else { value.clamp(-FARTHEST, FARTHEST) }
}

//! Scales of ISO 5455:1979 and the choice of one.

/// Reduction scales from 1:1 down, as the number after the colon. Up to 1:1000 as quoted; the steps below it go on by
/// the standard's rule of tens.
pub const REDUCTIONS: [f64; 13] =
    [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0, 10000.0];

/// The largest scale at which a real size (mm) fits a room on paper (mm): 20 for 1:20. If nothing fits, the smallest.
#[must_use]
pub fn largest_that_fits(real_width: f64, real_height: f64, room_width: f64, room_height: f64) -> f64 {
    let fits = |scale: &f64| real_width / scale <= room_width && real_height / scale <= room_height;
    REDUCTIONS.into_iter().find(fits).unwrap_or(10000.0)
}

/// A scale in words: `1:20`, or `-` where there is none.
#[must_use]
pub fn name(scale: Option<f64>) -> String {
    scale.map_or_else(|| "-".to_owned(), |scale| format!("1:{}", crate::base::number::trimmed(scale, 3)))
}

#[cfg(test)]
mod tests {
    use super::*;

    // ISO 5455:1979: 1, 2 and 5 in each ten.
    #[test]
    fn the_series_is_one_two_five() {
        for (i, scale) in REDUCTIONS.iter().enumerate() {
            let tens = 10f64.powi(i32::try_from(i / 3).unwrap());
            assert_eq!(*scale, [1.0, 2.0, 5.0][i % 3] * tens);
        }
    }

    #[test]
    fn picks_the_largest_that_fits() {
        assert_eq!(largest_that_fits(6000.0, 2400.0, 300.0, 200.0), 20.0);
        assert_eq!(largest_that_fits(6001.0, 2400.0, 300.0, 200.0), 50.0);
        assert_eq!(largest_that_fits(2400.0, 6000.0, 300.0, 200.0), 50.0);
        assert_eq!(largest_that_fits(0.0, 0.0, 300.0, 200.0), 1.0);
        assert_eq!(largest_that_fits(f64::NAN, 1.0, 300.0, 200.0), 10000.0);
    }

    #[test]
    fn names() {
        assert_eq!((name(Some(20.0)), name(None)), ("1:20".into(), "-".into()));
    }
}

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Point3;
    use crate::model::Run;
    use crate::source::Span;

    fn along(points: &[(f64, f64, f64)]) -> Fall {
        let points = points.iter().map(|(x, y, z)| Point3 { x: *x, y: *y, z: *z }).collect();
        let run = Run { ends: [String::new(), String::new()], points };
        fall(&Waste { name: String::new(), run, bore: 40.0, span: Span::default() })
    }

    /// 300 mm and 400 mm in plan are 500 mm on the way; 20 mm lower are 4 %. The height does not count as length.
    #[test]
    fn the_fall_is_over_the_length_seen_from_above() {
        let found = along(&[(0.0, 0.0, 120.0), (300.0, 400.0, 100.0)]);
        assert_eq!((found.length, found.drop, found.percent, found.rise), (500.0, 20.0, 4.0, 0.0));
        let corner = along(&[(0.0, 0.0, 120.0), (300.0, 0.0, 90.0), (300.0, 400.0, 99.0)]);
        assert_eq!((corner.length, corner.drop, corner.rise), (700.0, 21.0, 9.0));
        assert!((corner.percent - 3.0).abs() < 1e-12);
        assert_eq!(along(&[(0.0, 0.0, 120.0), (0.0, 0.0, 0.0)]).percent, f64::INFINITY);
    }
}

//! What a length, a count, a saw cut and a trim may be.

use super::super::nesting::{MOST_PIECES, Request};
use crate::base::tolerance::{GREATEST_LENGTH, SAME_LENGTH};

/// Why a length of a part or sheet is none, as the end of a sentence.
pub(super) fn no_length(mm: f64) -> Option<String> {
    if mm.is_nan() || mm <= 0.0 {
        Some("it must be more than 0".to_owned())
    } else if mm < SAME_LENGTH / 2.0 {
        Some(format!("it rounds to nothing: lengths are in mm, to {SAME_LENGTH} mm"))
    } else {
        too_long(mm)
    }
}

/// Why a saw cut, a trim or a band is none, as the end of a sentence.
pub(super) fn no_width(mm: f64) -> Option<String> {
    if mm.is_nan() || mm < 0.0 { Some("it must be 0 or more".to_owned()) } else { too_long(mm) }
}

fn too_long(mm: f64) -> Option<String> {
    (mm > GREATEST_LENGTH).then(|| format!("the greatest length is {GREATEST_LENGTH} mm"))
}

/// Why a figure is no count, as the end of a sentence.
pub(super) fn no_count(count: f64) -> Option<String> {
    if count.fract() != 0.0 || count.is_nan() || count < 0.0 {
        Some("it must be a whole number, 0 or more".to_owned())
    } else {
        (count > MOST_PIECES as f64).then(|| format!("at most {MOST_PIECES} pieces are laid at once"))
    }
}

/// A saw cut or a trim that leaves nothing of a sheet.
pub(super) struct TooWide {
    /// `kerf` or `trim`.
    pub key: &'static str,
    /// Index of the sheet.
    pub sheet: usize,
    /// What is wrong.
    pub says: String,
    /// What to do about it.
    pub help: String,
}

/// The first sheet of which the saw can leave nothing.
pub(super) fn too_wide(request: &Request) -> Option<TooWide> {
    let Request { kerf, trim, .. } = *request;
    request.sheets.iter().enumerate().find_map(|(sheet, kind)| {
        let least = kind.size.0.min(kind.size.1);
        let (key, what) = if kerf >= least {
            ("kerf", format!("a saw cut of {kerf} mm is as wide as"))
        } else if 2.0 * trim >= least {
            ("trim", format!("trimming {trim} mm off each edge leaves nothing of"))
        } else {
            return None;
        };
        let help = format!("make `{key}` less, or the sheet larger; all are in mm");
        Some(TooWide { key, sheet, says: format!("{what} a sheet {least} mm wide"), help })
    })
}

//! What a part must keep: something to cut, and everything that is cut into it within its edges.

use super::instance::Instance;
use crate::base::number::{mm, trimmed};
use crate::base::tolerance::PART_EDGE;
use crate::diagnostic::Diagnostic;
use crate::language::BandsDoc;
use crate::language::expression::{Failed, Scope};
use crate::model::{Bands, Machining};
use crate::source::Span;
use kurbo::Rect;

/// The face of a part, mm from its datum corner.
#[derive(Clone, Copy)]
pub(super) struct Face<'n> {
    pub name: &'n str,
    pub length: f64,
    pub width: f64,
}

impl Face<'_> {
    fn shown(&self) -> String {
        format!("{} x {} mm", trimmed(self.length, 1), trimmed(self.width, 1))
    }
}

impl Instance<'_, '_> {
    /// Refuses a part without a size.
    pub fn refuse_flat(&mut self, face: Face<'_>, span: Span) -> Result<(), Failed> {
        if face.length > 0.0 && face.width > 0.0 {
            return Ok(());
        }
        let message = format!("part `{}` would be {}", face.name, face.shown());
        let help = "make the module larger, or leave the part out with `when`";
        Err(self.fail(Diagnostic::new(span, message).help(help)))
    }

    /// Refuses bands that leave nothing to cut.
    pub fn refuse_all_band(&mut self, face: Face<'_>, bands: &Bands, doc: &BandsDoc) -> Result<(), Failed> {
        let left = Face {
            length: face.length - bands.left - bands.right,
            width: face.width - bands.front - bands.back,
            name: face.name,
        };
        if left.length > 0.0 && left.width > 0.0 {
            return Ok(());
        }
        let span = doc.sides.first().map(|(side, _)| side.span).unwrap_or_default();
        let message =
            format!("edge bands leave {} to cut of part `{}`, which is {}", left.shown(), face.name, face.shown());
        Err(self.fail(Diagnostic::new(span, message).help("make the part larger or its bands thinner")))
    }

    /// Refuses what reaches past the edges of its part.
    pub fn refuse_past_edges(&mut self, what: &str, bounds: Rect, face: Face<'_>, span: Span) -> Result<(), Failed> {
        let past = [-bounds.x0, bounds.x1 - face.length, -bounds.y0, bounds.y1 - face.width];
        let past = past.into_iter().fold(0.0, f64::max);
        if past <= PART_EDGE {
            return Ok(());
        }
        let message =
            format!("{what} of part `{}` reaches {} past its edges; the part is {}", face.name, mm(past), face.shown());
        let help = "it is measured from the datum corner: `[0, 0]` to `[length, width]`";
        Err(self.fail(Diagnostic::new(span, message).help(help)))
    }
}

/// What a machining is called.
pub(super) fn called(machining: &Machining) -> String {
    match machining {
        Machining::Groove { .. } => "a groove".to_owned(),
        Machining::Hole { .. } => "a hole".to_owned(),
        Machining::Cutout { name, .. } => format!("cutout `{name}`"),
    }
}

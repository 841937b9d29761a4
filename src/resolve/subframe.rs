//! What the box rests on.

use super::names::Resolver;
use crate::diagnostic::Diagnostic;
use crate::language::expression::Failed;
use crate::language::{FOUR_POINT, FRAME, FiguresDoc, MountsDoc, RAILS, SPRINGS, SUBFRAME, SubframeDoc, THREE_POINT};
use crate::model::{Mounts, Rails, Spring, Steel, Subframe};
use crate::source::{Span, Spanned};

impl Resolver<'_> {
    /// The subframe; a pair of mounts is as far apart as the frame is wide where nothing else is said.
    pub(super) fn subframe(
        &mut self,
        doc: &Spanned<SubframeDoc>,
        frame: Option<&FiguresDoc<4>>,
    ) -> Result<Subframe, Failed> {
        let [twist, cab_gap, least_gap, sleeve_shear, sleeve_stretch, apart, dynamic] =
            self.figures(&SUBFRAME, &doc.value.figures)?;
        let mounts = self.mounts(&doc.value.mounts, doc.span)?;
        let rails = doc.value.rails.as_ref().map(|(figures, steel)| self.rails(figures, *steel)).transpose()?;
        let usual = match frame {
            Some(frame) => self.figures(&FRAME, frame)?[3],
            None => FRAME.last().and_then(|width| width.default).unwrap_or(apart),
        };
        let apart = if apart > 0.0 { apart } else { usual };
        let span = doc.span;
        Ok(Subframe { mounts, twist, cab_gap, least_gap, sleeve_shear, sleeve_stretch, apart, dynamic, rails, span })
    }

    fn mounts(&mut self, doc: &MountsDoc, span: Span) -> Result<Mounts, Failed> {
        match doc {
            MountsDoc::ThreePoint(figures) => {
                let [fixed, pivot] = self.figures(&THREE_POINT, figures)?;
                self.refuse_one_place(("fixed-at", fixed), ("pivot-at", pivot), span)?;
                Ok(Mounts::ThreePoint { fixed, pivot })
            }
            MountsDoc::FourPoint(figures) => {
                let [sides, front, rear] = self.figures(&FOUR_POINT, figures)?;
                if !(front < sides && sides < rear) {
                    let message = format!(
                        "`sides-at` of {sides} mm is not between `front-pivot-at` of {front} mm and `rear-pivot-at` of {rear} mm"
                    );
                    return Err(self.error(Diagnostic::new(span, message).help("all three count from the front axle")));
                }
                Ok(Mounts::FourPoint { sides, pivots: (front, rear) })
            }
            MountsDoc::Springs(figures) => {
                let [fixed, at, rate, preload, travel] = self.figures(&SPRINGS, figures)?;
                self.refuse_one_place(("fixed-at", fixed), ("springs-at", at), span)?;
                Ok(Mounts::Springs { fixed, at, spring: Spring { rate, preload, travel } })
            }
            MountsDoc::Rigid => Ok(Mounts::Rigid),
        }
    }

    /// Two mounts at less than a hand's breadth carry no box.
    fn refuse_one_place(&mut self, one: (&str, f64), other: (&str, f64), span: Span) -> Result<(), Failed> {
        const LEAST_APART: f64 = 100.0;
        if (one.1 - other.1).abs() >= LEAST_APART {
            return Ok(());
        }
        let message = format!("`{}` of {} mm and `{}` of {} mm are one place", one.0, one.1, other.0, other.1);
        let help = format!("a box rests on mounts at least {LEAST_APART} mm apart along the vehicle");
        Err(self.error(Diagnostic::new(span, message).help(help)))
    }

    fn rails(&mut self, figures: &FiguresDoc<3>, steel: Steel) -> Result<Rails, Failed> {
        let [height, width, wall] = self.figures(&RAILS, figures)?;
        if 2.0 * wall >= height.min(width) {
            let message = format!("a tube of {height} x {width} mm has no room for two walls of {wall} mm");
            return Err(self.error(Diagnostic::new(figures.span, message).help("`wall` is its thickness")));
        }
        Ok(Rails { height, width, wall, steel })
    }
}

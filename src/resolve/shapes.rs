//! Solids, spaces and linework of a symbol in one pose.

use super::frame::{Frame, Local};
use super::instance::Instance;
use super::outline::{Traced, rectangle};
use crate::diagnostic::Diagnostic;
use crate::geometry::Prism;
use crate::language::expression::{Failed, Scope};
use crate::language::{LineShape, OutlinePoint, PlanLineDoc, RangeDoc, SolidDoc, SolidShape, SpaceDoc, SymbolDoc};
use crate::model::{Need, PlanLine, Solid, Space, Toward};
use crate::source::{Span, Spanned};
use kurbo::{BezPath, Circle, Shape};

/// A name with the counter of its `each`.
pub(super) fn counted(name: &str, index: Option<u32>) -> String {
    index.map_or_else(|| name.to_owned(), |index| format!("{name} {index}"))
}

/// The direction out of a side of the module.
fn outward(side: &str, frame: &Frame) -> Toward {
    let (local, high) = match side {
        "left" => (Local::U, false),
        "right" => (Local::U, true),
        "front" => (Local::V, false),
        "back" => (Local::V, true),
        "bottom" => (Local::W, false),
        _ => (Local::W, true),
    };
    frame.toward(local, high)
}

impl Instance<'_, '_> {
    /// All solids of the symbol.
    pub fn solids(&mut self, symbol: &SymbolDoc, frame: &Frame) -> Vec<Solid> {
        let mut made = Vec::new();
        for (name, entry) in &symbol.solids {
            let doc = &entry.value;
            let _reported = self.repeat(doc.when.as_ref(), doc.each.as_ref(), |scope, index| {
                made.push(scope.solid(counted(name, index), doc, frame, entry.span)?);
                Ok(())
            });
        }
        made
    }

    fn solid(&mut self, name: String, doc: &SolidDoc, frame: &Frame, span: Span) -> Result<Solid, Failed> {
        let (mut prism, traced) = self.prism(&doc.shape, frame)?;
        if let Some(gap) = &doc.under_roof {
            prism = self.block_under_roof(&prism.bounds(), gap)?;
        }
        let upright = matches!(doc.shape, SolidShape::Outline(..));
        let curve = traced.filter(|traced| traced.curved && upright).map(|traced| traced.plan_curve(frame));
        let tags = doc.tags.clone();
        let open = doc.open.iter().map(|side| outward(&side.value, frame)).collect();
        let solid = Solid { name, prism, curve, tags, bought: doc.bought, open, span };
        self.refuse_outside(&solid, frame)?;
        Ok(solid)
    }

    fn refuse_outside(&mut self, solid: &Solid, frame: &Frame) -> Result<(), Failed> {
        let (bounds, extent) = (solid.prism.bounds(), frame.extent);
        let past = [(bounds.x, extent.x), (bounds.y, extent.y), (bounds.z, extent.z)]
            .map(|(inner, outer)| (outer.0 - inner.0).max(inner.1 - outer.1))
            .into_iter()
            .fold(0.0, f64::max);
        if past <= crate::base::tolerance::SAME_LENGTH {
            return Ok(());
        }
        let message = format!(
            "solid `{}` reaches {} outside the size of module `{}`",
            solid.name,
            crate::base::number::mm(past),
            self.resolver.doc.modules.get_index(self.module).map_or("", |(name, _)| name.as_str())
        );
        let error = Diagnostic::new(solid.span, message);
        let place = self.resolver.doc.modules.get_index(self.module).map(|(_, entry)| entry.span);
        let error = match place {
            Some(place) => error.note(place, "the module is placed here"),
            None => error,
        };
        Err(self.fail(
            error.help("make the module larger, or mend the symbol: everything lies in 0..run, 0..depth, 0..height"),
        ))
    }

    fn ranges(&mut self, ranges: &[RangeDoc; 3]) -> Result<[(f64, f64); 3], Failed> {
        let [u, v, w] = ranges;
        Ok([self.range(u)?, self.range(v)?, self.range(w)?])
    }

    fn prism(&mut self, shape: &SolidShape, frame: &Frame) -> Result<(Prism, Option<Traced>), Failed> {
        let (across, outline, range) = match shape {
            SolidShape::Block(ranges) => {
                let [u, v, w] = self.ranges(ranges)?;
                return Ok((Prism::from(frame.block(u, v, w)), None));
            }
            SolidShape::Outline(outline, range) => (Local::W, outline, range),
            SolidShape::Profile(outline, range) => (Local::U, outline, range),
            SolidShape::Front(outline, range) => (Local::V, outline, range),
        };
        self.swept(across, outline, range, frame)
    }

    fn swept(
        &mut self,
        across: Local,
        outline: &[OutlinePoint],
        range: &RangeDoc,
        frame: &Frame,
    ) -> Result<(Prism, Option<Traced>), Failed> {
        let traced = self.trace(outline, true)?;
        let (low, high) = frame.range(across, self.range(range)?);
        let prism = Prism { axis: frame.axis(across), outline: traced.polygon(frame, across), low, high };
        Ok((prism, Some(traced)))
    }

    /// All spaces of the symbol.
    pub fn spaces(&mut self, symbol: &SymbolDoc, frame: &Frame) -> Vec<Space> {
        let mut made = Vec::new();
        for (name, entry) in &symbol.spaces {
            let doc = &entry.value;
            let _reported = self.repeat(doc.when.as_ref(), doc.each.as_ref(), |scope, index| {
                made.push(scope.space(counted(name, index), doc, frame, entry.span)?);
                Ok(())
            });
        }
        made
    }

    fn space(&mut self, name: String, doc: &SpaceDoc, frame: &Frame, span: Span) -> Result<Space, Failed> {
        let (prism, _) = self.prism(&doc.shape, frame)?;
        let people = match &doc.people {
            Some(expr) => self.count(expr, "people")?,
            None => 1,
        };
        let along = match doc.along.as_ref().map(|along| along.value) {
            Some('u') => Some(frame.axis(Local::U)),
            Some('v') => Some(frame.axis(Local::V)),
            _ => None,
        };
        if doc.need.value == Need::Lying && along.is_none() {
            let error = Diagnostic::new(doc.need.span, "a lying space does not say which way people lie");
            return Err(self.fail(error.help("add `along: u` or `along: v`")));
        }
        let carries =
            doc.carries.as_ref().map(|carries| self.positive(carries, "the mass that is carried")).transpose()?;
        Ok(Space { name, prism, need: doc.need.value, people, along, carries, span })
    }

    /// All extra linework of the symbol.
    pub fn linework(&mut self, symbol: &SymbolDoc, frame: &Frame) -> Vec<PlanLine> {
        let mut made = Vec::new();
        for entry in &symbol.plan {
            let doc = &entry.value;
            let _reported = self.repeat(doc.when.as_ref(), doc.each.as_ref(), |scope, _| {
                made.push(scope.plan_line(entry, frame)?);
                Ok(())
            });
        }
        made
    }

    fn plan_line(&mut self, entry: &Spanned<PlanLineDoc>, frame: &Frame) -> Result<PlanLine, Failed> {
        let doc = &entry.value;
        let (curve, curved) = match &doc.shape {
            LineShape::Line(outline) => {
                let traced = self.trace(outline, false)?;
                (traced.curve, traced.curved)
            }
            LineShape::Outline(outline) => {
                let traced = self.trace(outline, true)?;
                (traced.curve, traced.curved)
            }
            LineShape::Rect(u, v, radius) => {
                let radius = radius.as_ref().map_or(Ok(0.0), |radius| self.figure(radius))?;
                (rectangle(self.range(u)?, self.range(v)?, radius), radius > 0.0)
            }
            LineShape::Circle(centre, radius) => {
                let (centre, radius) = (self.pair(centre)?, self.figure(radius)?);
                (Circle::new(centre, radius.abs()).to_path(0.01), true)
            }
        };
        let path: BezPath = Traced { points: Vec::new(), curve, curved }.plan_curve(frame);
        let top = frame.extent.z.1 - frame.extent.z.0;
        let at = doc.at.as_ref().map_or(Ok(top), |at| self.figure(at))?;
        Ok(PlanLine { path, height: frame.along(Local::W, at), dashed: doc.dashed })
    }

    /// A count: a whole number from 0 to 10,000.
    pub fn count(&mut self, expr: &crate::language::expression::Expr, what: &str) -> Result<u32, Failed> {
        let value = self.figure(expr)?;
        if value.fract() == 0.0 && (0.0..=10_000.0).contains(&value) {
            // Checked just above.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            return Ok(value as u32);
        }
        let message = format!("{what} is {value}; it must be a whole number from 0 to 10000");
        Err(self.fail(Diagnostic::new(expr.span, message)))
    }
}

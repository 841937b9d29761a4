//! What stands upright and ends below the roof: its upper edge follows the lining, at a gap, as a true arc under an arch.

use super::instance::Instance;
use super::outline::Traced;
use super::part_place::Placed;
use crate::base::number::micrometres;
use crate::base::tolerance::NO_AREA;
use crate::diagnostic::Diagnostic;
use crate::geometry::{Axis, Box3, Polygon, Prism};
use crate::language::expression::{Expr, Failed, Scope};
use crate::model::{Lies, Place, Toward};
use kurbo::{Affine, Point, Shape};

impl Instance<'_, '_> {
    /// A block cut off below the lining.
    pub fn block_under_roof(&mut self, block: &Box3, gap: &Expr) -> Result<Prism, Failed> {
        let size = |range: (f64, f64)| range.1 - range.0;
        let axis = if size(block.x) <= size(block.y) { Axis::X } else { Axis::Y };
        let (low, high) = block.range(axis);
        let traced = self.under_roof(block, axis, gap)?;
        Ok(Prism { axis, outline: Polygon::new(traced.points), low, high })
    }

    /// A part cut off below the lining: it becomes as high as it then is, and has an outline unless that is a rectangle.
    pub fn part_under_roof(&mut self, placed: &mut Placed, gap: &Expr) -> Result<Option<Traced>, Failed> {
        let ([place], Some(lying)) = (placed.places.as_mut_slice(), placed.lying) else {
            let error = Diagnostic::new(gap.span, "a part under the roof stands at one place");
            return Err(self.fail(error.help("make a part for each place")));
        };
        let (block, Some(lies)) = (place.bounds(), place.lies) else { return Err(Failed) };
        let traced = self.under_roof(&block, lies.face.axis, gap)?;
        let bounds = Polygon::new(traced.points.clone()).bounds();
        let block = block.with(Axis::Z, (block.z.0, bounds.y1));
        *place = Place { solid: Prism::from(block), lies: Some(lies) };
        *if lying.0 == super::frame::Local::W { &mut placed.length } else { &mut placed.width } = bounds.height();
        let rectangle = (traced.curve.area().abs() - bounds.area()).abs() <= NO_AREA;
        Ok((!rectangle).then(|| on_face(traced, &block, &lies)))
    }

    /// The outline of an upright block across an axis, in the box plane across it.
    fn under_roof(&mut self, block: &Box3, axis: Axis, gap: &Expr) -> Result<Traced, Failed> {
        let below = self.figure(gap)?;
        let Some(roof) = &self.resolver.roof else { return Err(Failed) };
        let ((low, high), floor) = (block.range(axis.third(Axis::Z)), block.z.0);
        let edge = match axis {
            Axis::X => roof.edge((low, high), below, block.z.1),
            Axis::Y => {
                let top = (roof.least_over(block.y.0, block.y.1).0 - below).min(block.z.1);
                vec![(Point::new(low, top), None), (Point::new(high, top), None)]
            }
            Axis::Z => {
                let error = Diagnostic::new(gap.span, "what lies level can't follow the roof");
                return Err(self.fail(error.help("`under-roof` is for upright boards and walls")));
            }
        };
        if edge.iter().any(|(to, _)| to.y <= floor) {
            let error = Diagnostic::new(gap.span, "the roof leaves no room above the lower edge of this");
            return Err(self.fail(error.help("move the module to where the roof is higher, or make the gap smaller")));
        }
        let rounded = |point: Point| Point::new(micrometres(point.x), micrometres(point.y));
        let mut traced = Traced::start(Point::new(low, floor));
        for (to, through) in edge {
            let arc = through.is_some_and(|through| traced.arc_to(rounded(through), rounded(to)));
            if !arc {
                traced.line_to(rounded(to));
            }
        }
        traced.line_to(Point::new(high, floor));
        traced.curve.close_path();
        Ok(traced)
    }
}

/// An outline in the box as one on the face of a part, from its datum corner.
fn on_face(traced: Traced, block: &Box3, lies: &Lies) -> Traced {
    let first = lies.face.axis.plane().0;
    let row = |toward: Toward| {
        let (low, high) = block.range(toward.axis);
        let (sign, shift) = if toward.up { (1.0, -low) } else { (-1.0, high) };
        let (a, b) = if toward.axis == first { (sign, 0.0) } else { (0.0, sign) };
        (a, b, shift)
    };
    let ((a, c, e), (b, d, f)) = (row(lies.length), row(lies.width));
    let map = Affine::new([a, b, c, d, e, f]);
    Traced { points: traced.points.iter().map(|point| map * *point).collect(), curve: map * traced.curve, ..traced }
}

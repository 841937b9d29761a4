//! The box: inside sizes, roof, shell, cutaways.

use super::names::Resolver;
use crate::base::number::micrometres;
use crate::diagnostic::Diagnostic;
use crate::geometry::{Axis, Polygon, Prism, Roof};
use crate::language::expression::{Expr, Failed};
use crate::language::{CutawayShape, RoofDoc};
use crate::model::{BoxSpace, Cutaway};
use crate::source::Spanned;
use kurbo::{Point, Rect};

/// No box is smaller inside, mm.
const LEAST_INSIDE: f64 = 500.0;

impl Resolver<'_> {
    /// The box, or nothing when one of its sizes failed.
    pub fn space(&mut self) -> Option<BoxSpace> {
        let entry = &self.doc.space;
        let doc = &entry.value;
        let length = self.inside_size(&doc.length, "the box's length");
        let width = self.inside_size(&doc.width, "the box's width");
        let height = self.inside_size(&doc.height, "the box's height");
        let (Ok(length), Ok(width), Ok(height)) = (length, width, height) else { return None };
        let (length, width, height) = (micrometres(length), micrometres(width), micrometres(height));
        let roof = self.roof_curve(&doc.roof, width, height).ok()?;
        self.roof = Some(roof.clone());
        let walls = self.panel(doc.shell.walls.as_ref(), "glass-foam-40");
        let roof_panel = self.panel(doc.shell.roof.as_ref(), "glass-foam-50");
        let floor = self.panel(doc.shell.floor.as_ref(), "glass-ply-foam-45");
        let cutaways = self.cutaways(length, width);
        Some(BoxSpace { length, width, height, roof, walls, roof_panel, floor, cutaways, span: entry.span })
    }

    /// A size of the box, in which a person fits; metres without their unit are the usual slip.
    fn inside_size(&mut self, expr: &Expr, what: &str) -> Result<f64, Failed> {
        let value = self.positive(expr, what)?;
        if value >= LEAST_INSIDE {
            return Ok(value);
        }
        let message = format!("{what} is {value} mm; it must be at least {LEAST_INSIDE} mm");
        let error = Diagnostic::new(expr.span, message);
        Err(self.error(error.help(format!("figures without a unit are millimetres; for metres, write `{value} m`"))))
    }

    fn roof_curve(&mut self, doc: &RoofDoc, width: f64, height: f64) -> Result<Roof, Failed> {
        let line = |points: &[(f64, f64)]| Roof::Line(points.iter().map(|point| Point::from(*point)).collect());
        match doc {
            RoofDoc::Flat => Ok(line(&[(0.0, height), (width, height)])),
            RoofDoc::Ridge(rise) => {
                let rise = self.rise(rise, width, "a ridge rises at 45 degrees at most")?;
                Ok(line(&[(0.0, height), (micrometres(width / 2.0), micrometres(height + rise)), (width, height)]))
            }
            RoofDoc::Arch(rise) => {
                let rise = self.rise(rise, width, "an arch rises at most as far as a half circle")?;
                Ok(Roof::Arch { width, side: height, rise })
            }
            RoofDoc::Line(points) => self.roof_line(points, width),
        }
    }

    fn rise(&mut self, expr: &Expr, width: f64, help: &str) -> Result<f64, Failed> {
        let rise = self.positive(expr, "the rise")?;
        if rise <= width / 2.0 {
            return Ok(rise);
        }
        let message = format!("a rise of {rise} mm is more than half the width of {width} mm");
        Err(self.error(Diagnostic::new(expr.span, message).help(help)))
    }

    fn roof_line(&mut self, doc: &Spanned<Vec<[Expr; 2]>>, width: f64) -> Result<Roof, Failed> {
        let mut points: Vec<Point> = Vec::new();
        for [y, z] in &doc.value {
            let point = Point::new(micrometres(self.figure(y)?), micrometres(self.positive(z, "the height")?));
            if points.last().is_some_and(|last| last.x >= point.x) {
                let message = "the points of a roof go from left to right, each further right than the one before";
                return Err(self.error(Diagnostic::new(y.span, message)));
            }
            points.push(point);
        }
        let ends = points.first().zip(points.last()).map(|(first, last)| (first.x, last.x));
        if ends == Some((0.0, width)) && points.len() >= 2 {
            return Ok(Roof::Line(points));
        }
        let message = format!("the points of a roof go from the left wall, y = 0, to the right wall, y = {width}");
        Err(self.error(Diagnostic::new(doc.span, message)))
    }

    fn cutaways(&mut self, length: f64, width: f64) -> Vec<Cutaway> {
        let doc = self.doc;
        let mut made = Vec::new();
        for (name, entry) in &doc.space.value.cutaways {
            let prism = match &entry.value.shape {
                CutawayShape::Wedge { edge, along, height } => self.wedge(edge, along, height, (length, width)),
                CutawayShape::Block { faces, span } => self.block(faces, *span, (length, width)),
            };
            if let Ok(prism) = prism {
                made.push(Cutaway { name: name.clone(), prism, span: entry.span });
            }
        }
        made
    }

    /// A triangular prism along an edge of the floor.
    fn wedge(
        &mut self,
        edge: &Spanned<String>,
        along: &Expr,
        height: &Expr,
        size: (f64, f64),
    ) -> Result<Prism, Failed> {
        let cut = micrometres(self.positive(along, "the cut along the floor")?);
        let up = micrometres(self.positive(height, "the cut's height")?);
        let (axis, reach, sweep) = match edge.value.as_str() {
            "left-floor" | "right-floor" => (Axis::X, size.1, size.0),
            _ => (Axis::Y, size.0, size.1),
        };
        if cut >= reach {
            let message = format!("the cut of {cut} mm takes the whole floor of {reach} mm");
            return Err(self.error(Diagnostic::new(along.span, message)));
        }
        let corners = match edge.value.as_str() {
            "front-floor" | "left-floor" => [(0.0, 0.0), (cut, 0.0), (0.0, up)],
            _ => [(reach - cut, 0.0), (reach, 0.0), (reach, up)],
        };
        let outline = Polygon::new(corners.map(Point::from).to_vec());
        Ok(Prism { axis, outline, low: 0.0, high: sweep })
    }

    fn block(
        &mut self,
        faces: &[Option<Expr>; 6],
        span: crate::source::Span,
        size: (f64, f64),
    ) -> Result<Prism, Failed> {
        let defaults = [Some(0.0), Some(size.0), Some(0.0), Some(size.1), Some(0.0), None];
        let names = ["front", "rear", "left", "right", "floor", "top"];
        let mut values = [0.0; 6];
        for (((value, face), default), name) in values.iter_mut().zip(faces).zip(defaults).zip(names) {
            *value = match (face, default) {
                (Some(expr), _) => micrometres(self.figure(expr)?),
                (None, Some(default)) => default,
                (None, None) => {
                    let error = Diagnostic::new(span, format!("this block does not say its `{name}`"));
                    return Err(self.error(error));
                }
            };
        }
        let [front, rear, left, right, floor, top] = values;
        for (low, high, names) in
            [(front, rear, "front to rear"), (left, right, "left to right"), (floor, top, "floor to top")]
        {
            if high <= low {
                let message = format!("this block has no size from {names}: {low} to {high}");
                return Err(self.error(Diagnostic::new(span, message)));
            }
        }
        Ok(Prism::upright(Rect::new(front, left, rear, right), floor, top))
    }
}

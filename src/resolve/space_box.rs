//! The box: inside sizes, roof, shell, cutaways.

use super::names::Resolver;
use crate::base::number::micrometres;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Diagnostic;
use crate::geometry::{Axis, Polygon, Prism, Roof};
use crate::language::expression::{Expr, Failed};
use crate::language::{CutawayShape, RoofDoc};
use crate::model::{BoxSpace, CutKind, Cutaway};
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
        self.read_walls(length, width);
        let walls = self.panel(doc.shell.walls.as_ref(), "glass-foam-40");
        self.wall_thickness = Some(walls.thickness);
        let roof_panel = self.panel(doc.shell.roof.as_ref(), "glass-foam-50");
        let floor = self.panel(doc.shell.floor.as_ref(), "glass-ply-foam-45");
        let cutaways = self.cutaways((length, width), &roof);
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

    fn cutaways(&mut self, size: (f64, f64), roof: &Roof) -> Vec<Cutaway> {
        let doc = self.doc;
        let mut made = Vec::new();
        for (name, entry) in &doc.space.value.cutaways {
            let cut = match &entry.value.shape {
                CutawayShape::Wedge { edge, along, other, angle } => {
                    self.wedge(edge, along, (other, *angle), size, roof)
                }
                CutawayShape::Block { faces, span } => {
                    self.block(faces, *span, size).map(|prism| (prism, CutKind::Floor))
                }
            };
            if let Ok((prism, kind)) = cut {
                made.push(Cutaway { name: name.clone(), prism, kind, span: entry.span });
            }
        }
        made
    }

    /// A triangular prism along an edge of floor or roof, or at an upright corner; along a side of the roof with the line of
    /// the lining.
    fn wedge(
        &mut self,
        edge: &Spanned<String>,
        along: &Expr,
        (other, angle): (&Expr, bool),
        size: (f64, f64),
        roof: &Roof,
    ) -> Result<(Prism, CutKind), Failed> {
        let cut = micrometres(self.positive(along, "the cut along the edge's first side")?);
        let up = if angle {
            let angle = self.within(other, (1.0, 89.0), "angle", "°")?;
            micrometres(cut * angle.to_radians().tan())
        } else {
            micrometres(self.positive(other, "the cut's other side")?)
        };
        let top = roof.highest();
        let (one, two) = edge.value.split_once('-').unwrap_or_default();
        let corner = matches!(two, "left" | "right");
        let sideways = matches!(one, "left" | "right");
        let (axis, reach, sweep) = if sideways { (Axis::X, size.1, size.0) } else { (Axis::Y, size.0, size.1) };
        let other_reach = if corner { size.1 } else { top };
        for (cut, reach, expr) in [(cut, reach, along), (up, other_reach, other)] {
            if cut >= reach {
                let message = format!("the cut of {cut} mm takes the whole side of {reach} mm");
                return Err(self.error(Diagnostic::new(expr.span, message)));
            }
        }
        let low = matches!(one, "front" | "left");
        let (end, inner) = if low { (0.0, cut) } else { (reach, reach - cut) };
        if corner {
            let (side, across) = if two == "left" { (0.0, up) } else { (size.1, size.1 - up) };
            let outline = triangle([(end, side), (inner, side), (end, across)]);
            return Ok((Prism { axis: Axis::Z, outline, low: 0.0, high: top }, CutKind::Corner));
        }
        if two == "floor" {
            let outline = triangle([(end, 0.0), (inner, 0.0), (end, up)]);
            return Ok((Prism { axis, outline, low: 0.0, high: sweep }, CutKind::Floor));
        }
        let foot = if sideways { roof.height_at(end) } else { top } - up;
        let slope = if sideways { micrometres(roof.height_at(inner)) } else { top };
        let mut corners = vec![(end, micrometres(foot)), (inner, slope)];
        corners.extend((top - slope > SAME_LENGTH).then_some((inner, top)));
        corners.push((end, top));
        let outline = Polygon::new(corners.into_iter().map(Point::from).collect());
        Ok((Prism { axis, outline, low: 0.0, high: sweep }, CutKind::Roof))
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

fn triangle(corners: [(f64, f64); 3]) -> Polygon {
    Polygon::new(corners.map(Point::from).to_vec())
}

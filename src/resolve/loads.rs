//! Tanks and things beside the furniture: what they are and where they stand.

use super::edges::{Edge, Given, edge_names};
use super::members::plan_edge;
use super::names::{Resolver, unknown_member};
use crate::base::number::micrometres;
use crate::diagnostic::Diagnostic;
use crate::geometry::{Axis, Box3, Point3, Prism};
use crate::language::LoadDoc;
use crate::language::expression::{Expr, Failed};
use crate::model::{Holds, Load, LoadKind, Tank};
use crate::source::Span;

/// Fill of tanks that say none, in the cases empty, running order and full: fuel 90 % in running order as Regulation (EU)
/// 1230/2012 has it; fresh water full when it rides along, which is an input (sources differ); waste tanks empty.
const FILL: [(Holds, [f64; 3]); 5] = [
    (Holds::Fresh, [0.0, 1.0, 1.0]),
    (Holds::Grey, [0.0, 0.0, 0.0]),
    (Holds::Black, [0.0, 0.0, 0.0]),
    (Holds::Fuel, [0.0, 0.9, 1.0]),
    (Holds::Other, [0.0, 1.0, 1.0]),
];
/// Diesel, kilograms a litre: 0.82 to 0.845 at 15 °C by EN 590.
const DIESEL: f64 = 0.835;

/// What expressions may ask of a load.
const MEMBERS: [&str; 11] =
    ["front", "rear", "left", "right", "centre-x", "centre-y", "floor", "top", "length", "width", "height"];

impl Resolver<'_> {
    /// Tanks and things that could be made.
    pub fn loads(&mut self) -> Vec<Load> {
        let doc = self.doc;
        let mut made = Vec::new();
        for (name, entry) in &doc.loads {
            if let Ok(load) = self.load(name, &entry.value, entry.span) {
                made.push(load);
            }
        }
        made
    }

    fn load(&mut self, name: &str, doc: &LoadDoc, span: Span) -> Result<Load, Failed> {
        const MASS: (f64, f64) = (0.0, 10_000.0);
        let mass = doc.mass.as_ref().map_or(Ok(0.0), |mass| self.within(mass, MASS, "mass", " kg"));
        let stands = self.stands(name, doc, span);
        let tank = doc.tank.as_ref().map(|size| self.tank(doc, &size.value)).transpose();
        let only_full = doc.aboard.as_ref().is_some_and(|aboard| aboard.value == "full");
        let filler = doc.filler.as_ref().map(|point| self.point3(&point.value)).transpose();
        if let Some(point) = doc.filler.as_ref().filter(|_| doc.tank.is_none()) {
            let error = Diagnostic::new(point.span, "a `filler` at something that is no tank");
            return Err(self.error(error.help("add `tank: [length, width, height]`, or remove `filler`")));
        }
        let kind = doc.kind.as_ref().map_or(LoadKind::Other, |kind| kind.value);
        let ((at, size), tank) = (stands?, tank?);
        let room = size.or(tank.map(|tank| tank.size)).map(|size| room(at, size));
        let name = name.to_owned();
        Ok(Load { name, at, mass: mass?, size, room, kind, tank, filler: filler?, only_full, span })
    }

    /// Its middle, and its outside size if that is known.
    fn stands(&mut self, name: &str, doc: &LoadDoc, span: Span) -> Result<(Point3, Option<[f64; 3]>), Failed> {
        if let (Some(at), None) = (&doc.at, &doc.place) {
            let size = doc.size.as_ref().map(|size| self.size3(&size.value)).transpose();
            return Ok((self.point3(&at.value)?, size?));
        }
        let what = format!("load `{name}`");
        let (mut at, mut size) = (Point3::default(), [0.0; 3]);
        for (side, axis) in size.iter_mut().zip([Axis::X, Axis::Y, Axis::Z]) {
            let given = load_given(doc, axis);
            if axis != Axis::Z {
                self.refuse_no_edge(given, axis, &what, span)?;
            }
            self.too_many(given, axis, &what, "size");
            let low = self.load_figure(doc, axis, Edge::Low, span)?;
            *side = micrometres(self.load_figure(doc, axis, Edge::High, span)? - low);
            *side = self.above_zero(
                *side,
                &format!("{what}, from {} to {}", edge_names(axis)[0], edge_names(axis)[1]),
                span,
            )?;
            *at.along_mut(axis) = micrometres(low + *side / 2.0);
        }
        Ok((at, Some(size)))
    }

    /// One figure of a load's outside.
    fn load_figure(&mut self, doc: &LoadDoc, axis: Axis, edge: Edge, span: Span) -> Result<f64, Failed> {
        if let Some(at) = &doc.at {
            let index = axis as usize;
            let middle = at.value.get(index).map_or(Ok(0.0), |middle| self.figure(middle))?;
            let side = size_of(doc, axis);
            if edge == Edge::Centre {
                return Ok(middle);
            }
            let Some(side) = side else { return Err(self.error(no_size(span))) };
            let side = self.figure(side)?;
            return Ok(match edge {
                Edge::Low => middle - side / 2.0,
                Edge::High => middle + side / 2.0,
                _ => side,
            });
        }
        let given = load_given(doc, axis);
        if axis == Axis::Z && given.edges() == 0 && edge != Edge::Size {
            // It stands on the floor, as modules do.
            return if edge == Edge::Low { Ok(0.0) } else { self.load_figure(doc, axis, Edge::Size, span) };
        }
        self.solve(given, edge, &mut |resolver| Err(resolver.error(no_size(span))))
    }

    /// An edge or a size of a load, for expressions.
    pub fn load_member(&mut self, at: usize, first: &str, member: &str, span: Span) -> Result<f64, Failed> {
        let Some((_, entry)) = self.doc.loads.get_index(at) else { return Err(Failed) };
        let (axis, edge) = match member {
            "floor" => (Axis::Z, Edge::Low),
            "top" => (Axis::Z, Edge::High),
            "length" => (Axis::X, Edge::Size),
            "width" => (Axis::Y, Edge::Size),
            "height" => (Axis::Z, Edge::Size),
            _ => match plan_edge(member) {
                Some(known) => known,
                None => return Err(self.error(unknown_member(first, member, &MEMBERS, span))),
            },
        };
        self.load_figure(&entry.value, axis, edge, entry.span)
    }

    fn size3(&mut self, size: &[Expr; 3]) -> Result<[f64; 3], Failed> {
        let [x, y, z] = size.each_ref().map(|side| self.positive(side, "a size"));
        Ok([x?, y?, z?])
    }

    fn tank(&mut self, doc: &LoadDoc, written: &[Expr; 3]) -> Result<Tank, Failed> {
        const LARGEST: f64 = 5_000.0;
        let size = self.size3(written)?;
        if let Some((side, expr)) = size.iter().zip(written).find(|(side, _)| **side > LARGEST) {
            let message = format!("a tank {side} mm long; its sides are at most {LARGEST} mm");
            return Err(self.error(Diagnostic::new(expr.span, message).help("`tank` is [length, width, height] in mm")));
        }
        let holds = doc.holds.as_ref().map_or(Holds::Other, |holds| holds.value);
        let usual = if holds == Holds::Fuel { DIESEL } else { 1.0 };
        let density = doc.density.as_ref();
        let density = density.map_or(Ok(usual), |density| self.within(density, (0.0, 20.0), "density", " kg/l"))?;
        let mut fill = FILL.iter().find(|(known, _)| *known == holds).map_or([0.0; 3], |(_, fill)| *fill);
        for (share, expr) in fill.iter_mut().zip(&doc.fill) {
            if let Some(expr) = expr {
                *share = self.within(expr, (0.0, 1.0), "fill", "")?;
            }
        }
        Ok(Tank { size, holds, density, fill })
    }
}

/// The box of a size about its middle.
fn room(at: Point3, size: [f64; 3]) -> Prism {
    let range = |middle: f64, side: f64| (middle - side / 2.0, middle + side / 2.0);
    let [x, y, z] = size;
    Box3 { x: range(at.x, x), y: range(at.y, y), z: range(at.z, z) }.into()
}

/// What is written of a load along an axis; `place` counts from the floor where it says nothing.
fn load_given(doc: &LoadDoc, axis: Axis) -> Given<'_> {
    let given = doc.place.as_ref().map(|place| Given::of_place(place, axis)).unwrap_or_default();
    match &doc.size {
        Some(size) => given.with_size(size.value.get(axis as usize)),
        None if given.fixes_size() => given,
        None => given.with_size(size_of(doc, axis)),
    }
}

/// The size that is written for an axis: outside, or a tank's inside.
fn size_of(doc: &LoadDoc, axis: Axis) -> Option<&Expr> {
    let size = doc.size.as_ref().or(doc.tank.as_ref())?;
    size.value.get(axis as usize)
}

fn no_size(span: Span) -> Diagnostic {
    let error = Diagnostic::new(span, "this load has an edge here and no size");
    error.help("add `size: [length, width, height]`, or give both edges")
}

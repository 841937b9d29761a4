//! Parts of a symbol: sizes from places or from figures, bands, machining, hardware, masses.

use super::frame::Frame;
use super::instance::Instance;
use super::outline::{Traced, outline_span};
use super::part_fit::{Face, called};
use super::part_place::Placed;
use super::piece::Piece;
use super::shapes::counted;
use crate::base::number::micrometres;
use crate::diagnostic::Diagnostic;
use crate::geometry::Polygon;
use crate::language::expression::{Expr, Failed, Scope};
use crate::language::{
    CutoutShape, HardwareDoc, JointDoc, MachiningDoc, MachiningKind, Named, OutlinePoint, PartDoc, PartSize, SymbolDoc,
};
use crate::model::{CONTENTS, Chosen, Connection, Hardware, Machining, MassItem, Part, Place, by_hand};
use crate::source::{Span, Spanned};
use kurbo::{BezPath, Point, Rect, Shape};

/// Thickest edge band, mm.
const BAND_MOST: f64 = 10.0;
/// Most that is left on for scribing, mm.
const SCRIBE_MOST: f64 = 100.0;

impl Instance<'_, '_> {
    /// All parts of the symbol and of its recipes; equal ones are joined.
    pub fn parts(&mut self, symbol: &SymbolDoc, frame: &Frame) -> Vec<Part> {
        let mut made: Vec<Part> = Vec::new();
        self.pieces(&mut |scope, recipe| scope.parts_of(&recipe.parts, frame, &mut made));
        self.parts_of(&symbol.parts, frame, &mut made);
        made
    }

    fn parts_of(&mut self, parts: &Named<PartDoc>, frame: &Frame, made: &mut Vec<Part>) {
        for (name, entry) in parts {
            let doc = &entry.value;
            let Ok(stock) = self.stock_index(&doc.stock) else { continue };
            self.thickness = self.resolver.stocks.get(stock).map(|stock| stock.thickness);
            let name = self.piece.as_ref().map_or_else(|| name.clone(), |piece| piece.part_name(name));
            let _reported = self.repeat(doc.when.as_ref(), doc.each.as_ref(), |scope, _| {
                if let Some(part) = scope.part(&name, doc, stock, frame, entry.span)? {
                    by_hand(part).into_iter().for_each(|part| join(made, part));
                }
                Ok(())
            });
            self.thickness = None;
        }
    }

    fn stock_index(&mut self, stock: &Spanned<String>) -> Result<usize, Failed> {
        let known: Vec<&str> = self.resolver.stocks.iter().map(|known| known.name.as_str()).collect();
        if let Some(at) = known.iter().position(|name| *name == stock.value) {
            return Ok(at);
        }
        let error = Diagnostic::new(stock.span, format!("there is no stock `{}`", stock.value));
        let help = format!("stocks are {}", crate::base::text::one_of(known));
        Err(self.fail(error.help(help)))
    }

    /// A part, or nothing where its count is 0.
    fn part(
        &mut self,
        name: &str,
        doc: &PartDoc,
        stock: usize,
        frame: &Frame,
        span: Span,
    ) -> Result<Option<Part>, Failed> {
        let thickness = self.thickness.unwrap_or(0.0);
        let size = match &doc.size {
            PartSize::Loose { count, length, width } => self.loose(count.as_ref(), length, width)?,
            PartSize::Placed { at, long } => {
                Some(self.placed(at, long.as_ref().map(|long| long.value), thickness, frame)?)
            }
        };
        let Some(mut size) = size else { return Ok(None) };
        let roofed = doc.under_roof.as_ref().map(|gap| self.part_under_roof(&mut size, gap)).transpose()?.flatten();
        let face = Face { name, length: micrometres(size.length), width: micrometres(size.width) };
        self.refuse_flat(face, span)?;
        let bands = self.edges(&doc.bands, size.lying, "an edge band", BAND_MOST)?;
        self.refuse_all_band(face, &bands, &doc.bands)?;
        let scribe = self.edges(&doc.scribe, size.lying, "a scribe allowance", SCRIBE_MOST)?;
        let traced = roofed.or(self.part_outline(doc.outline.as_deref(), face)?);
        let curve = traced.as_ref().filter(|traced| traced.curved).map(|traced| traced.curve.clone());
        let outline = traced.map(|traced| rounded_outline(&traced));
        let shaped = |place: Place| shaped(place, outline.as_ref(), thickness);
        Ok(Some(Part {
            name: counted(name, None),
            count: size.count,
            length: face.length,
            width: face.width,
            thickness,
            stock,
            grain: doc.grain,
            bands,
            scribe,
            curve,
            machining: self.machining(&doc.machining, face)?,
            faced: doc.faced,
            hand: None,
            places: size.places.into_iter().map(shaped).collect(),
            outline,
            held: doc.held.as_ref().map(|held| held.value.clone()),
            joint: doc.joint.as_ref().map(|joint| self.joint(joint)).transpose()?,
            lock: doc.lock,
            load: doc.load.as_ref().map(|load| self.positive(load, "the load")).transpose()?,
            clear: doc.clear.as_ref().map_or(Ok(0.0), |clear| self.figure(clear))?,
            note: doc.note.as_ref().map(|note| note.value.clone()),
            span,
            piece: self.piece.as_deref().map(|piece: &Piece| piece.span),
        }))
    }

    fn joint(&mut self, doc: &JointDoc) -> Result<Chosen, Failed> {
        let mut figure = |expr: &Option<Expr>, what| expr.as_ref().map(|expr| self.positive(expr, what)).transpose();
        Ok(Chosen {
            by: doc.by,
            diameter: figure(&doc.diameter, "the diameter")?,
            length: figure(&doc.length, "the length")?,
            pitch: figure(&doc.pitch, "the pitch")?,
        })
    }

    fn loose(&mut self, count: Option<&Expr>, length: &Expr, width: &Expr) -> Result<Option<Placed>, Failed> {
        let count = count.map_or(Ok(1), |count| self.count(count, "the count"))?;
        if count == 0 {
            return Ok(None);
        }
        let (length, width) = (self.figure(length)?, self.figure(width)?);
        Ok(Some(Placed { count, length, width, lying: None, places: Vec::new() }))
    }

    fn part_outline(&mut self, outline: Option<&[OutlinePoint]>, face: Face<'_>) -> Result<Option<Traced>, Failed> {
        let Some(points) = outline else { return Ok(None) };
        let traced = self.trace(points, true)?;
        let bounds = rounded_outline(&traced).bounds();
        self.refuse_past_edges("the outline", bounds, face, outline_span(points))?;
        Ok(Some(traced))
    }

    fn machining(&mut self, docs: &[MachiningDoc], face: Face<'_>) -> Result<Vec<Machining>, Failed> {
        let mut made = Vec::new();
        for doc in docs {
            self.repeat(doc.when.as_ref(), doc.each.as_ref(), |scope, _| {
                let machining = scope.one_machining(doc)?;
                scope.refuse_past_edges(&called(&machining), machining.bounds(), face, doc.span)?;
                made.push(machining);
                Ok(())
            })?;
        }
        Ok(made)
    }

    fn one_machining(&mut self, doc: &MachiningDoc) -> Result<Machining, Failed> {
        let reverse = doc.reverse;
        Ok(match &doc.kind {
            MachiningKind::Groove { from, to, width, depth, holds } => Machining::Groove {
                from: self.pair(from)?.into(),
                to: self.pair(to)?.into(),
                width: self.positive(width, "the groove's width")?,
                depth: self.positive(depth, "the groove's depth")?,
                reverse,
                holds: holds.as_ref().map(|holds| holds.value.clone()),
            },
            MachiningKind::Hole { at, diameter, depth } => Machining::Hole {
                at: self.pair(at)?.into(),
                diameter: self.positive(diameter, "the hole's diameter")?,
                depth: depth.as_ref().map(|depth| self.positive(depth, "the hole's depth")).transpose()?,
                reverse,
            },
            MachiningKind::Cutout { name, shape } => {
                let (outline, curve) = self.cutout(shape)?;
                Machining::Cutout { name: name.value.clone(), outline, curve }
            }
        })
    }

    fn cutout(&mut self, shape: &CutoutShape) -> Result<(Polygon, Option<BezPath>), Failed> {
        match shape {
            CutoutShape::Rect(length, width) => {
                let (length, width) = (self.range(length)?, self.range(width)?);
                Ok((Polygon::rect(Rect::new(length.0, width.0, length.1, width.1)), None))
            }
            CutoutShape::Circle(centre, radius) => {
                let (centre, radius) = (self.pair(centre)?, self.positive(radius, "the radius")?);
                let points = (0..72).map(|step| {
                    let turn = f64::from(step) * std::f64::consts::TAU / 72.0;
                    rounded(centre + kurbo::Vec2::from_angle(turn) * radius)
                });
                let curve = kurbo::Circle::new(centre, radius).to_path(0.01);
                Ok((Polygon::new(points.collect()), Some(curve)))
            }
            CutoutShape::Outline(outline) => {
                let traced = self.trace(outline, true)?;
                let polygon = rounded_outline(&traced);
                Ok((polygon, traced.curved.then_some(traced.curve)))
            }
        }
    }

    /// Hardware of the symbol and of its recipes; equal pieces are counted together.
    pub fn hardware(&mut self, symbol: &SymbolDoc) -> Vec<Hardware> {
        let mut made = Vec::new();
        self.hardware_of(&symbol.hardware, &mut made);
        self.pieces(&mut |scope, recipe| scope.hardware_of(&recipe.hardware, &mut made));
        made
    }

    fn hardware_of(&mut self, hardware: &Named<HardwareDoc>, made: &mut Vec<Hardware>) {
        for (name, entry) in hardware {
            let doc = &entry.value;
            let _reported = self.repeat(doc.when.as_ref(), None, |scope, _| {
                let count = scope.count(&doc.count, "the count")?;
                let size = doc.size.as_ref().map(|size| scope.figure(size)).transpose()?;
                if count == 0 {
                    return Ok(());
                }
                match made.iter_mut().find(|known| known.name == *name && known.size == size) {
                    Some(known) => known.count = known.count.saturating_add(count),
                    None => made.push(Hardware { name: name.clone(), count, size, force: None, span: entry.span }),
                }
                Ok(())
            });
        }
    }

    /// Masses beside the parts' own.
    pub fn masses(&mut self, symbol: &SymbolDoc, frame: &Frame) -> Vec<MassItem> {
        let mut made = Vec::new();
        for (name, expr) in [("fittings", &symbol.fixed_mass), (CONTENTS, &symbol.contents_mass)] {
            let Some(expr) = expr else { continue };
            match self.figure(expr) {
                Ok(mass) if mass > 0.0 => {
                    made.push(MassItem { name: name.to_owned(), mass, at: frame.extent.centre(), span: expr.span });
                }
                Ok(mass) if mass < 0.0 => {
                    self.fail(Diagnostic::new(expr.span, format!("the mass is {mass} kg; it can't be negative")));
                }
                _ => {}
            }
        }
        made
    }
}

/// Services of the symbol.
pub(super) fn connections(symbol: &SymbolDoc) -> Vec<Connection> {
    symbol.connects.iter().map(|service| Connection { service: service.value, span: service.span }).collect()
}

fn rounded(point: Point) -> Point {
    Point::new(micrometres(point.x), micrometres(point.y))
}

fn rounded_outline(traced: &Traced) -> Polygon {
    Polygon::new(traced.points.iter().copied().map(rounded).collect())
}

/// A place with the part's true outline in it.
fn shaped(place: Place, outline: Option<&Polygon>, thickness: f64) -> Place {
    match outline.and_then(|outline| place.carved(outline, (0.0, thickness))) {
        Some(solid) => Place { solid, ..place },
        None => place,
    }
}

/// Adds a part, or counts it to an equal one of the same line of the symbol.
fn join(made: &mut Vec<Part>, mut part: Part) {
    match made.iter_mut().find(|known| kind(known) == kind(&part)) {
        Some(known) => {
            known.count = known.count.saturating_add(part.count);
            known.places.append(&mut part.places);
        }
        None => made.push(part),
    }
}

/// What equal parts have in common: everything but how many and where.
fn kind(part: &Part) -> impl PartialEq + '_ {
    let size = (part.length, part.width, part.thickness, part.scribe);
    let make = (part.stock, part.grain, &part.bands, &part.outline, &part.machining, part.hand, part.faced, part.joint);
    (&part.name, part.span, part.piece, size, make, &part.note)
}

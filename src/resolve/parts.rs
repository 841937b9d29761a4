//! Parts of a symbol: sizes from places or from figures, bands, machining, hardware, masses.

use super::frame::{Frame, Local};
use super::instance::Instance;
use super::outline::outline_span;
use super::part_fit::{Face, bounds_of, called};
use super::shapes::counted;
use crate::base::number::{micrometres, trimmed};
use crate::diagnostic::Diagnostic;
use crate::geometry::{Box3, Polygon};
use crate::language::expression::{Expr, Failed, Scope};
use crate::language::{BandsDoc, CutoutShape, ExtentDoc, MachiningDoc, OutlinePoint, PartDoc, PartSize, SymbolDoc};
use crate::model::{Bands, CONTENTS, Connection, Hardware, Machining, MassItem, Part};
use crate::source::{Span, Spanned};
use kurbo::{Point, Rect};

/// How far an extent may be from the stock's thickness and still be it, mm.
const THICKNESS_SLACK: f64 = 0.05;

/// Which local directions a part's length, width and thickness take; `None` for a part without a place.
type Lies = Option<(Local, Local, Local)>;

impl Instance<'_, '_> {
    /// All parts of the symbol; equal ones are joined.
    pub fn parts(&mut self, symbol: &SymbolDoc, frame: &Frame) -> Vec<Part> {
        let mut made: Vec<Part> = Vec::new();
        for (name, entry) in &symbol.parts {
            let doc = &entry.value;
            let Ok(stock) = self.stock_index(&doc.stock) else { continue };
            self.thickness = self.resolver.stocks.get(stock).map(|stock| stock.thickness);
            let _reported = self.repeat(doc.when.as_ref(), doc.each.as_ref(), |scope, _| {
                if let Some(part) = scope.part(name, doc, stock, frame, entry.span)? {
                    join(&mut made, part);
                }
                Ok(())
            });
            self.thickness = None;
        }
        made
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
        let (size, lies) = match &doc.size {
            PartSize::Loose { count, length, width } => (self.loose(count.as_ref(), length, width)?, None),
            PartSize::Placed { at, long } => {
                let (size, lies) = self.placed(at, long.as_ref().map(|long| long.value), thickness, frame)?;
                (Some(size), Some(lies))
            }
        };
        let Some(size) = size else { return Ok(None) };
        let face = Face { name, length: micrometres(size.length), width: micrometres(size.width) };
        self.refuse_flat(face, span)?;
        let bands = self.bands(&doc.bands, lies)?;
        self.refuse_all_band(face, &bands, &doc.bands)?;
        Ok(Some(Part {
            name: counted(name, None),
            count: size.count,
            length: face.length,
            width: face.width,
            thickness,
            stock,
            grain: doc.grain,
            bands,
            scribe: self.scribe(doc)?,
            outline: self.part_outline(doc.outline.as_deref(), face)?,
            machining: self.machining(&doc.machining, face)?,
            places: size.places,
            note: doc.note.as_ref().map(|note| note.value.clone()),
            span,
        }))
    }

    fn loose(&mut self, count: Option<&Expr>, length: &Expr, width: &Expr) -> Result<Option<PartDims>, Failed> {
        let count = count.map_or(Ok(1), |count| self.count(count, "the count"))?;
        if count == 0 {
            return Ok(None);
        }
        Ok(Some(PartDims { count, length: self.figure(length)?, width: self.figure(width)?, places: Vec::new() }))
    }

    fn placed(
        &mut self,
        at: &[ExtentDoc],
        long: Option<char>,
        thickness: f64,
        frame: &Frame,
    ) -> Result<(PartDims, (Local, Local, Local)), Failed> {
        let mut places = Vec::new();
        let mut first: Option<[f64; 3]> = None;
        for extent in at {
            let [u, v, w] = &extent.ranges;
            let (u, v, w) = (self.range(u)?, self.range(v)?, self.range(w)?);
            let sizes = [u.1 - u.0, v.1 - v.0, w.1 - w.0];
            let known = *first.get_or_insert(sizes);
            if known.iter().zip(sizes).any(|(a, b)| (a - b).abs() > THICKNESS_SLACK) {
                let message = "the places of one part differ in size";
                return Err(self.fail(Diagnostic::new(extent.span, message).help("make two parts of it")));
            }
            places.push(frame.block(u, v, w));
        }
        let span = at.first().map(|extent| extent.span).unwrap_or_default();
        let sizes = first.unwrap_or_default();
        let Some(lies) = lie(sizes, long, thickness) else {
            let [u, v, w] = sizes.map(|size| trimmed(size, 2));
            let message =
                format!("a piece of {u} x {v} x {w} mm has no side of its stock's {} mm", trimmed(thickness, 2));
            return Err(self.fail(Diagnostic::new(span, message).help("one of u, v, w is the thickness: use `t`")));
        };
        let pick = |local: Local| sizes.get(index_of(local)).copied().unwrap_or(0.0);
        let count = u32::try_from(places.len()).unwrap_or(u32::MAX);
        Ok((PartDims { count, length: pick(lies.0), width: pick(lies.1), places }, lies))
    }

    fn bands(&mut self, doc: &BandsDoc, lies: Lies) -> Result<Bands, Failed> {
        let mut bands = Bands::default();
        for (side, expr) in &doc.sides {
            let thickness = self.figure(expr)?;
            if !(0.0..=10.0).contains(&thickness) {
                let message = format!("an edge band of {} mm; bands are 0 to 10 mm", trimmed(thickness, 2));
                return Err(self.fail(Diagnostic::new(expr.span, message)));
            }
            let Some(edge) = edge_of(&side.value, lies) else {
                let message = format!("this part has no edge at its `{}` to band", side.value);
                return Err(self.fail(Diagnostic::new(side.span, message).help(band_help(lies))));
            };
            *edge.of(&mut bands) = thickness;
        }
        Ok(bands)
    }

    fn part_outline(&mut self, outline: Option<&[OutlinePoint]>, face: Face<'_>) -> Result<Option<Polygon>, Failed> {
        let Some(points) = outline else { return Ok(None) };
        let outline = self.flat_outline(points)?;
        self.refuse_past_edges("the outline", outline.bounds(), face, outline_span(points))?;
        Ok(Some(outline))
    }

    fn flat_outline(&mut self, outline: &[OutlinePoint]) -> Result<Polygon, Failed> {
        self.trace(outline, true).map(|traced| Polygon::new(traced.points.into_iter().map(rounded).collect()))
    }

    fn machining(&mut self, docs: &[MachiningDoc], face: Face<'_>) -> Result<Vec<Machining>, Failed> {
        let mut made = Vec::new();
        for doc in docs {
            let (when, each, span) = match doc {
                MachiningDoc::Groove { from, .. } => (None, None, from[0].span),
                MachiningDoc::Hole { at, each, .. } => (None, each.as_ref(), at[0].span),
                MachiningDoc::Cutout { name, when, .. } => (when.as_ref(), None, name.span),
            };
            self.repeat(when, each, |scope, _| {
                let machining = scope.one_machining(doc)?;
                scope.refuse_past_edges(&called(&machining), bounds_of(&machining), face, span)?;
                made.push(machining);
                Ok(())
            })?;
        }
        Ok(made)
    }

    fn one_machining(&mut self, doc: &MachiningDoc) -> Result<Machining, Failed> {
        Ok(match doc {
            MachiningDoc::Groove { from, to, width, depth } => Machining::Groove {
                from: self.pair(from)?.into(),
                to: self.pair(to)?.into(),
                width: self.positive(width, "the groove's width")?,
                depth: self.positive(depth, "the groove's depth")?,
            },
            MachiningDoc::Hole { at, diameter, depth, .. } => Machining::Hole {
                at: self.pair(at)?.into(),
                diameter: self.positive(diameter, "the hole's diameter")?,
                depth: depth.as_ref().map(|depth| self.positive(depth, "the hole's depth")).transpose()?,
            },
            MachiningDoc::Cutout { name, shape, .. } => {
                Machining::Cutout { name: name.value.clone(), outline: self.cutout(shape)? }
            }
        })
    }

    fn cutout(&mut self, shape: &CutoutShape) -> Result<Polygon, Failed> {
        match shape {
            CutoutShape::Rect(length, width) => {
                let (length, width) = (self.range(length)?, self.range(width)?);
                Ok(Polygon::rect(Rect::new(length.0, width.0, length.1, width.1)))
            }
            CutoutShape::Circle(centre, radius) => {
                let (centre, radius) = (self.pair(centre)?, self.positive(radius, "the radius")?);
                let points = (0..72).map(|step| {
                    let turn = f64::from(step) * std::f64::consts::TAU / 72.0;
                    rounded(centre + kurbo::Vec2::from_angle(turn) * radius)
                });
                Ok(Polygon::new(points.collect()))
            }
            CutoutShape::Outline(outline) => self.flat_outline(outline),
        }
    }

    /// Hardware of the symbol.
    pub fn hardware(&mut self, symbol: &SymbolDoc) -> Vec<Hardware> {
        let mut made = Vec::new();
        for (name, entry) in &symbol.hardware {
            let doc = &entry.value;
            let _reported = self.repeat(doc.when.as_ref(), None, |scope, _| {
                let count = scope.count(&doc.count, "the count")?;
                let size = doc.size.as_ref().map(|size| scope.figure(size)).transpose()?;
                if count > 0 {
                    made.push(Hardware { name: name.clone(), count, size, span: entry.span });
                }
                Ok(())
            });
        }
        made
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
    symbol.connects.iter().map(|name| Connection { name: name.value.clone(), span: name.span }).collect()
}

fn rounded(point: Point) -> Point {
    Point::new(micrometres(point.x), micrometres(point.y))
}

struct PartDims {
    count: u32,
    length: f64,
    width: f64,
    places: Vec<Box3>,
}

/// One of the four edges of a part.
#[derive(Clone, Copy)]
enum PartEdge {
    Front,
    Back,
    Left,
    Right,
}

impl PartEdge {
    fn of(self, bands: &mut Bands) -> &mut f64 {
        match self {
            Self::Front => &mut bands.front,
            Self::Back => &mut bands.back,
            Self::Left => &mut bands.left,
            Self::Right => &mut bands.right,
        }
    }
}

fn edge_of(side: &str, lies: Lies) -> Option<PartEdge> {
    let Some((length, width, _)) = lies else {
        return Some(match side {
            "front" => PartEdge::Front,
            "back" => PartEdge::Back,
            "left" => PartEdge::Left,
            "right" => PartEdge::Right,
            _ => return None,
        });
    };
    let (local, low) = match side {
        "front" => (Local::V, true),
        "back" => (Local::V, false),
        "left" => (Local::U, true),
        "right" => (Local::U, false),
        "bottom" => (Local::W, true),
        "top" => (Local::W, false),
        _ => return None,
    };
    match (local == length, local == width, low) {
        (true, _, true) => Some(PartEdge::Left),
        (true, _, false) => Some(PartEdge::Right),
        (_, true, true) => Some(PartEdge::Front),
        (_, true, false) => Some(PartEdge::Back),
        _ => None,
    }
}

fn band_help(lies: Lies) -> &'static str {
    match lies {
        None => "a part with `length` and `width` has the edges front, back, left and right",
        Some((_, _, Local::U)) => "an upright part across the module has edges at front, back, top and bottom",
        Some((_, _, Local::V)) => "an upright part along the module has edges at left, right, top and bottom",
        Some((_, _, Local::W)) => "a flat part has edges at front, back, left and right",
    }
}

fn index_of(local: Local) -> usize {
    match local {
        Local::U => 0,
        Local::V => 1,
        Local::W => 2,
    }
}

/// Which directions are length, width and thickness; `None` where no extent is the thickness.
fn lie(sizes: [f64; 3], long: Option<char>, thickness: f64) -> Option<(Local, Local, Local)> {
    let long = long.map(|long| match long {
        'u' => Local::U,
        'v' => Local::V,
        _ => Local::W,
    });
    let size = |local: Local| sizes.get(index_of(local)).copied().unwrap_or(0.0);
    let flat = [Local::U, Local::V, Local::W]
        .into_iter()
        .filter(|local| Some(*local) != long)
        .find(|local| (size(*local) - thickness).abs() <= THICKNESS_SLACK)?;
    let (a, b) = super::frame::others(flat);
    let a_is_long = match long {
        Some(long) => a == long,
        None => size(a) >= size(b),
    };
    Some(if a_is_long { (a, b, flat) } else { (b, a, flat) })
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
    let make = (part.stock, part.grain, &part.bands, &part.outline, &part.machining);
    (&part.name, part.span, size, make, &part.note)
}

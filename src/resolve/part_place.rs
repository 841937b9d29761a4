//! Where the pieces of a part stand, and what follows from it: its size, and which of its edges is which.

use super::frame::{Frame, Local, others};
use super::instance::Instance;
use crate::base::number::{micrometres, trimmed};
use crate::base::text::one_of;
use crate::diagnostic::Diagnostic;
use crate::geometry::{Polygon, Prism};
use crate::language::expression::{Expr, Failed, Scope};
use crate::language::{BandsDoc, PartPlaceDoc, PartShape, RangeDoc};
use crate::model::{Bands, Lies, Place};
use crate::source::{Span, Spanned};
use kurbo::{Point, Vec2};

/// How far an extent may be from the stock's thickness and still be it, mm.
const THICKNESS_SLACK: f64 = 0.05;

/// Which local directions a part's length, width and thickness take; `None` for a part without a place and for a
/// sloping one.
pub(super) type Lying = Option<(Local, Local, Local)>;

/// Size and places of a part.
pub(super) struct Placed {
    pub count: u32,
    pub length: f64,
    pub width: f64,
    pub lying: Lying,
    pub places: Vec<Place>,
}

impl Instance<'_, '_> {
    pub fn placed(
        &mut self,
        at: &[PartPlaceDoc],
        long: Option<char>,
        thickness: f64,
        frame: &Frame,
    ) -> Result<Placed, Failed> {
        let mut all: Option<Placed> = None;
        for doc in at {
            let one = match &doc.shape {
                PartShape::Block(ranges) => self.block_place(doc, ranges, long, thickness, frame)?,
                PartShape::Slope(u, slope) => self.slope_place(u, slope, thickness, frame)?,
            };
            match &mut all {
                None => all = Some(one),
                Some(all) => self.add_place(all, one, doc.span)?,
            }
        }
        all.ok_or(Failed)
    }

    fn add_place(&mut self, all: &mut Placed, one: Placed, span: Span) -> Result<(), Failed> {
        let same = |a: f64, b: f64| (a - b).abs() <= THICKNESS_SLACK;
        if same(all.length, one.length) && same(all.width, one.width) && all.lying == one.lying {
            all.count = all.count.saturating_add(1);
            all.places.extend(one.places);
            return Ok(());
        }
        let message = "the places of one part differ in size";
        Err(self.fail(Diagnostic::new(span, message).help("make two parts of it")))
    }

    fn block_place(
        &mut self,
        doc: &PartPlaceDoc,
        ranges: &[RangeDoc; 3],
        long: Option<char>,
        thickness: f64,
        frame: &Frame,
    ) -> Result<Placed, Failed> {
        let [u, v, w] = ranges;
        let ranges = [self.range(u)?, self.range(v)?, self.range(w)?];
        let sizes = ranges.map(|range| range.1 - range.0);
        let Some(lying) = lie(sizes, long, thickness) else {
            let [u, v, w] = sizes.map(|size| trimmed(size, 2));
            let message =
                format!("a piece of {u} x {v} x {w} mm has no side of its stock's {} mm", trimmed(thickness, 2));
            let help = "one of u, v, w is the thickness: use `t`";
            return Err(self.fail(Diagnostic::new(doc.span, message).help(help)));
        };
        let high_face = doc.face.as_ref().map_or(Ok(true), |face| self.is_high_face(face, lying.2))?;
        let (length, width) = (frame.toward(lying.0, true), frame.toward(lying.1, true));
        let lies = Lies { length, width, face: frame.toward(lying.2, high_face) };
        let [u, v, w] = self.in_module(ranges);
        let solid = Prism::from(frame.block(u, v, w));
        let pick = |local: Local| sizes.get(index_of(local)).copied().unwrap_or(0.0);
        let places = vec![Place { solid, lies: Some(lies) }];
        Ok(Placed { count: 1, length: pick(lying.0), width: pick(lying.1), lying: Some(lying), places })
    }

    /// Ranges of a recipe's room as ranges of the module.
    fn in_module(&self, ranges: [(f64, f64); 3]) -> [(f64, f64); 3] {
        let origin = self.piece.as_ref().map_or([0.0; 3], |piece| piece.origin);
        let mut origin = origin.into_iter();
        ranges.map(|(low, high)| {
            let from = origin.next().unwrap_or(0.0);
            (low + from, high + from)
        })
    }

    fn is_high_face(&mut self, face: &Spanned<String>, flat: Local) -> Result<bool, Failed> {
        let (low, high) = match flat {
            Local::U => ("left", "right"),
            Local::V => ("front", "back"),
            Local::W => ("bottom", "top"),
        };
        if face.value == low || face.value == high {
            return Ok(face.value == high);
        }
        let message = format!("this piece has no face at its `{}`", face.value);
        Err(self.fail(Diagnostic::new(face.span, message).help(format!("its two faces are {}", one_of([low, high])))))
    }

    /// A board along the module whose lower face follows a line seen from the side.
    fn slope_place(
        &mut self,
        u: &RangeDoc,
        slope: &[[Expr; 2]; 2],
        thickness: f64,
        frame: &Frame,
    ) -> Result<Placed, Failed> {
        let u = self.range(u)?;
        let (from, to) = (self.pair(&slope[0])?, self.pair(&slope[1])?);
        let width = (to - from).hypot();
        if width <= thickness {
            let span = slope[1].first().map(|expr| expr.span).unwrap_or_default();
            let message = format!("this sloping board is {} mm wide", trimmed(width, 2));
            return Err(self.fail(Diagnostic::new(span, message).help("its two ends lie too near to each other")));
        }
        let along = (to - from) / width;
        let out = Vec2::new(-along.y, along.x) * if along.x < 0.0 { -thickness } else { thickness };
        let [_, v, w] = self.in_module([u, (from.x, to.x), (from.y, to.y)]);
        let (from, to) = (Point::new(v.0, w.0), Point::new(v.1, w.1));
        let corners = [from, to, to + out, from + out];
        let outline = Polygon::new(corners.iter().map(|corner| frame.across(Local::U, *corner)).collect());
        let (low, high) = frame.range(Local::U, self.in_module([u, v, w])[0]);
        let solid = Prism { axis: frame.axis(Local::U), outline, low, high };
        let places = vec![Place { solid, lies: None }];
        Ok(Placed { count: 1, length: u.1 - u.0, width: micrometres(width), lying: None, places })
    }

    /// A figure for each edge that is named.
    pub fn edges(&mut self, doc: &BandsDoc, lying: Lying, what: &str, most: f64) -> Result<Bands, Failed> {
        let mut edges = Bands::default();
        for (side, expr) in &doc.sides {
            let figure = self.figure(expr)?;
            if !(0.0..=most).contains(&figure) {
                let message = format!("{what} of {} mm; it can be 0 to {most} mm", trimmed(figure, 2));
                return Err(self.fail(Diagnostic::new(expr.span, message)));
            }
            let Some(edge) = edge_of(&side.value, lying) else {
                let message = format!("this part has no edge at its `{}`", side.value);
                return Err(self.fail(Diagnostic::new(side.span, message).help(edge_help(lying))));
            };
            *edge.of(&mut edges) = figure;
        }
        Ok(edges)
    }
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

fn edge_of(side: &str, lying: Lying) -> Option<PartEdge> {
    let Some((length, width, _)) = lying else {
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

fn edge_help(lying: Lying) -> &'static str {
    match lying {
        None => "a part with `length` and `width`, or a sloping one, has the edges front, back, left and right",
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
fn lie(sizes: [f64; 3], long: Option<char>, thickness: f64) -> Lying {
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
    let (a, b) = others(flat);
    let a_is_long = match long {
        Some(long) => a == long,
        None => size(a) >= size(b),
    };
    Some(if a_is_long { (a, b, flat) } else { (b, a, flat) })
}

//! Moves of a symbol: drawers, leaves, lids.

use super::frame::{Frame, Local, others};
use super::instance::Instance;
use super::shapes::counted;
use crate::diagnostic::Diagnostic;
use crate::language::expression::{Expr, Failed, Scope};
use crate::language::{MoveDoc, MoveShape, RangeDoc, SymbolDoc};
use crate::model::{Move, MoveKind, Slide, Swing};
use crate::source::Spanned;
use kurbo::{Point, Vec2};

/// Thickness of a leaf whose symbol gives none, mm; common practice for furniture fronts, no source.
const LEAF: f64 = 18.0;

/// A leaf in a module's own frame, before it is turned into the box.
struct Leaf {
    /// The hinge line's direction.
    hinge_line: Local,
    /// The hinge, in the plane of the other two axes.
    pivot: Point,
    /// From the hinge to the free edge, unit length.
    shut: Vec2,
    /// Where the free edge goes when it opens, unit length.
    towards: Vec2,
    /// Along the hinge line.
    along: (f64, f64),
    length: f64,
    thickness: f64,
    opens: f64,
}

/// How one side of a module is seen by a person who stands before it.
struct Side {
    across: Local,
    normal: Local,
    /// The person's left is the low end of `across`.
    left_is_low: bool,
    /// The normal's sign away from the module.
    outward: f64,
}

impl Instance<'_, '_> {
    /// All moves of the symbol.
    pub fn moves(&mut self, symbol: &SymbolDoc, frame: &Frame) -> Vec<Move> {
        let mut made = Vec::new();
        for (name, entry) in &symbol.moves {
            let doc = &entry.value;
            let _reported = self.repeat(doc.when.as_ref(), doc.each.as_ref(), |scope, index| {
                let kind = scope.move_kind(doc, frame)?;
                let walk_through = doc.walk_through;
                made.push(Move { name: counted(name, index), kind, walk_through, span: entry.span });
                Ok(())
            });
        }
        made
    }

    fn move_kind(&mut self, doc: &MoveDoc, frame: &Frame) -> Result<MoveKind, Failed> {
        match &doc.shape {
            MoveShape::Slide { direction, body, travel, after, through } => {
                let (after, through) = (after.as_ref().map(|after| after.value.clone()), *through);
                let slide = self.slide(direction, body, travel, frame)?;
                Ok(MoveKind::Slide(Slide { after, through, ..slide }))
            }
            MoveShape::Leaf { .. } => self.leaf(&doc.shape, frame).map(|leaf| MoveKind::Swing(leaf.swing(frame))),
            MoveShape::Lid { .. } => self.lid(&doc.shape).map(|leaf| MoveKind::Swing(leaf.swing(frame))),
        }
    }

    fn slide(
        &mut self,
        direction: &Spanned<String>,
        body: &[RangeDoc; 3],
        travel: &Expr,
        frame: &Frame,
    ) -> Result<Slide, Failed> {
        let [u, v, w] = body;
        let body = frame.block(self.range(u)?, self.range(v)?, self.range(w)?);
        let (local, sign) = match direction.value.as_str() {
            "left" => (Local::U, -1.0),
            "right" => (Local::U, 1.0),
            "up" => (Local::W, 1.0),
            "down" => (Local::W, -1.0),
            _ => (Local::V, -1.0),
        };
        let distance = self.positive(travel, "the travel")?;
        let travel = sign * frame.sign(local) * distance;
        Ok(Slide { body, axis: frame.axis(local), travel, after: None, through: false })
    }

    fn angle(&mut self, expr: &Expr) -> Result<f64, Failed> {
        let opens = self.figure(expr)?;
        if opens > 0.0 && opens <= 270.0 {
            return Ok(opens);
        }
        let message = format!("the leaf opens {opens} degrees; it must be more than 0 and at most 270");
        Err(self.fail(Diagnostic::new(expr.span, message)))
    }

    fn leaf_thickness(&mut self, expr: Option<&Expr>) -> Result<f64, Failed> {
        let Some(expr) = expr else { return Ok(LEAF) };
        let thickness = self.figure(expr)?;
        if thickness >= 0.0 {
            return Ok(thickness);
        }
        Err(self.fail(Diagnostic::new(expr.span, format!("the leaf is {thickness} mm thick; it must be 0 or more"))))
    }

    fn leaf(&mut self, shape: &MoveShape, frame: &Frame) -> Result<Leaf, Failed> {
        let MoveShape::Leaf { hinged, side, at, across, upward, opens, thickness, inward } = shape else {
            return Err(Failed);
        };
        let seen = side_of(&side.value);
        let (across_range, upward_range) = (self.range(across)?, self.range(upward)?);
        let thickness = self.leaf_thickness(thickness.as_ref())?;
        let extent = frame.extent.range(frame.axis(seen.normal));
        let default_at = if seen.outward < 0.0 { 0.0 } else { extent.1 - extent.0 };
        let at = at.as_ref().map_or(Ok(default_at), |at| self.figure(at))?;
        let outward = if *inward { -seen.outward } else { seen.outward };
        // The leaf turns about the face that it opens towards.
        let plane = if *inward { at + outward * thickness } else { at };
        let opens = self.angle(opens)?;
        let vertical = matches!(hinged.value.as_str(), "left" | "right");
        let hinge_low = match hinged.value.as_str() {
            "left" => seen.left_is_low,
            "right" => !seen.left_is_low,
            "top" => false,
            _ => true,
        };
        let (turning, along) = if vertical { (across_range, upward_range) } else { (upward_range, across_range) };
        let hinge = if hinge_low { turning.0 } else { turning.1 };
        let shut = if hinge_low { 1.0 } else { -1.0 };
        let turning_axis = if vertical { seen.across } else { Local::W };
        let hinge_line = if vertical { Local::W } else { seen.across };
        let in_plane = |turn: f64, normal: f64| plane_vec(hinge_line, turning_axis, turn, normal);
        Ok(Leaf {
            hinge_line,
            pivot: in_plane(hinge, plane).to_point(),
            shut: in_plane(shut, 0.0),
            towards: in_plane(0.0, outward),
            along,
            length: turning.1 - turning.0,
            thickness,
            opens,
        })
    }

    fn lid(&mut self, shape: &MoveShape) -> Result<Leaf, Failed> {
        let MoveShape::Lid { hinged, u, v, at, opens, thickness } = shape else { return Err(Failed) };
        let (u, v) = (self.range(u)?, self.range(v)?);
        let thickness = self.leaf_thickness(thickness.as_ref())?;
        let top = self.figure(at)?;
        let opens = self.angle(opens)?;
        let (hinge_line, turning, along, hinge_low) = match hinged.value.as_str() {
            "front" => (Local::U, v, u, true),
            "left" => (Local::V, u, v, true),
            "right" => (Local::V, u, v, false),
            _ => (Local::U, v, u, false),
        };
        let hinge = if hinge_low { turning.0 } else { turning.1 };
        let shut = if hinge_low { 1.0 } else { -1.0 };
        Ok(Leaf {
            hinge_line,
            pivot: Point::new(hinge, top),
            shut: Vec2::new(shut, 0.0),
            towards: Vec2::new(0.0, 1.0),
            along,
            length: turning.1 - turning.0,
            thickness,
            opens,
        })
    }
}

/// A vector in the plane across the hinge line, from its part along the turning axis and its part along the normal.
fn plane_vec(hinge_line: Local, turning: Local, turn: f64, normal: f64) -> Vec2 {
    let (first, _) = others(hinge_line);
    if first == turning { Vec2::new(turn, normal) } else { Vec2::new(normal, turn) }
}

fn side_of(side: &str) -> Side {
    match side {
        "back" => Side { across: Local::U, normal: Local::V, left_is_low: false, outward: 1.0 },
        "left" => Side { across: Local::V, normal: Local::U, left_is_low: false, outward: -1.0 },
        "right" => Side { across: Local::V, normal: Local::U, left_is_low: true, outward: 1.0 },
        _ => Side { across: Local::U, normal: Local::V, left_is_low: true, outward: -1.0 },
    }
}

impl Leaf {
    fn swing(&self, frame: &Frame) -> Swing {
        let shut = frame.direction(self.hinge_line, self.shut);
        let towards = frame.direction(self.hinge_line, self.towards);
        let turn = if shut.cross(towards) >= 0.0 { 1.0 } else { -1.0 };
        Swing {
            axis: frame.axis(self.hinge_line),
            hinge: frame.across(self.hinge_line, self.pivot),
            along: frame.range(self.hinge_line, self.along),
            length: self.length,
            thickness: self.thickness,
            shut: shut.atan2().to_degrees(),
            opens: turn * self.opens,
        }
    }
}

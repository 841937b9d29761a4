//! Members of dotted names: `box.length`, `galley.rear`, `bed.lowered.deck`, `entry.sill`.

use super::edges::{Edge, Given, runs_along_x};
use super::instance::Instance;
use super::names::{Owner, Resolver, roof_unknown, unknown_member};
use crate::base::number::micrometres;
use crate::diagnostic::Diagnostic;
use crate::geometry::Axis;
use crate::language::expression::{Expr, Failed, Value, number};
use crate::language::{ModuleDoc, OpeningDoc};
use crate::model::{MEDIAN_MAN, Wall};
use crate::source::Span;

const BOX: [&str; 15] = [
    "length",
    "width",
    "height",
    "front",
    "rear",
    "left",
    "right",
    "floor",
    "top",
    "crown",
    "ground",
    "outer-front",
    "outer-rear",
    "outer-left",
    "outer-right",
];
/// Place of `floor-above-ground` among the figures of a vehicle.
const FLOOR_ABOVE: usize = 3;
const PLAN_EDGES: [&str; 6] = ["front", "rear", "left", "right", "centre-x", "centre-y"];

impl Resolver<'_> {
    /// The value of a member of something.
    pub fn member(&mut self, owner: Owner, first: &str, members: &[&str], span: Span) -> Result<Value, Failed> {
        let value = match (owner, members) {
            (_, []) => Err(self.error(
                Diagnostic::new(span, format!("`{first}` alone is no value"))
                    .help(format!("name one of its edges, such as `{first}.rear`")),
            )),
            (Owner::Box, [member]) => self.box_member(member, span),
            (Owner::Module(at), [member]) => return self.module_member(at, first, member, span),
            (Owner::Module(at), [pose, member]) => return self.pose_member(at, first, pose, member, span),
            (Owner::Opening(at), [member]) => self.opening_member(at, first, member, span),
            (Owner::Zone(at), [member]) => self.zone_member(at, first, member, span),
            (Owner::Load(at), [member]) => self.load_member(at, first, member, span),
            (Owner::Person(at), [member]) => self.person_member(at, first, member, span),
            (Owner::Parameter(_), _) => {
                let message = format!("`{first}` is a parameter and has no parts");
                Err(self.error(Diagnostic::new(span, message)))
            }
            (_, [.., last]) => Err(self.error(unknown_member(first, last, &[], span))),
        };
        value.map(|figure| Value::Number(micrometres(figure)))
    }

    fn box_member(&mut self, member: &str, span: Span) -> Result<f64, Failed> {
        let space = &self.doc.space.value;
        match member {
            "length" | "rear" => self.figure(&space.length),
            "width" | "right" => self.figure(&space.width),
            "height" | "top" => self.figure(&space.height),
            "front" | "left" | "floor" => Ok(0.0),
            "ground" => match self.doc.vehicle.as_ref() {
                // The fourth figure of a vehicle is its floor above the ground.
                Some(vehicle) => match vehicle.value.figures.values.get(FLOOR_ABOVE).and_then(Option::as_ref) {
                    Some(floor) => Ok(-self.figure(floor)?),
                    None => Err(Failed),
                },
                None => Ok(0.0),
            },
            "outer-front" | "outer-left" => self.outer(0.0, -1.0, span),
            "outer-rear" => {
                let length = self.figure(&space.length)?;
                self.outer(length, 1.0, span)
            }
            "outer-right" => {
                let width = self.figure(&space.width)?;
                self.outer(width, 1.0, span)
            }
            "crown" => match &self.roof {
                Some(roof) => Ok(roof.highest()),
                None => Err(self.error(roof_unknown(span))),
            },
            _ => Err(self.error(unknown_member("box", member, &BOX, span))),
        }
    }

    /// The outer face of a wall, whose inner face is at `inner`.
    fn outer(&mut self, inner: f64, way: f64, span: Span) -> Result<f64, Failed> {
        let Some(thickness) = self.wall_thickness else { return Err(self.error(roof_unknown(span))) };
        Ok(inner + way * thickness)
    }

    fn person_member(&mut self, at: usize, first: &str, member: &str, span: Span) -> Result<f64, Failed> {
        let Some((_, person)) = self.doc.people.get_index(at) else { return Err(Failed) };
        match member {
            "stature" => self.figure_or(person.value.stature.as_ref(), MEDIAN_MAN),
            _ => Err(self.error(unknown_member(first, member, &["stature"], span))),
        }
    }

    fn zone_member(&mut self, at: usize, first: &str, member: &str, span: Span) -> Result<f64, Failed> {
        let Some((_, zone)) = self.doc.zones.get_index(at) else { return Err(Failed) };
        let Some((axis, edge)) = plan_edge(member) else {
            return Err(self.error(unknown_member(first, member, &PLAN_EDGES, span)));
        };
        let given = Given::of_place(&zone.value.place, axis);
        self.solve(given, edge, &mut |_| Err(Failed))
    }

    /// The middle of an opening in a layout that is taken mirrored or turned, as the layout itself means it.
    fn turned_centre(&mut self, (given, axis): (Given<'_>, Axis), turned: &str) -> Result<f64, Failed> {
        let centre = self.solve(given, Edge::Centre, &mut |_| Err(Failed))?;
        let space = &self.doc.space.value;
        match axis {
            Axis::Y if turned.contains("across") => Ok(self.figure(&space.width)? - centre),
            Axis::X if turned.contains("along") => Ok(self.figure(&space.length)? - centre),
            _ => Ok(centre),
        }
    }

    fn opening_member(&mut self, at: usize, first: &str, member: &str, span: Span) -> Result<f64, Failed> {
        let Some((_, opening)) = self.doc.openings.get_index(at) else { return Err(Failed) };
        let opening = &opening.value;
        let axis = opening_axis(opening);
        let given_along = Given::of_opening(opening, axis, 0);
        let along = |edge| Some((given_along, edge));
        let across = Given::of_opening(opening, Axis::Y, 1);
        let known = ["run", "sill", "height", "radius"].iter().chain(&PLAN_EDGES);
        if let Some(turned) = member.strip_prefix("centre>") {
            return self.turned_centre((given_along, axis), turned);
        }
        let wanted = match member {
            "run" => along(Edge::Size),
            "centre" => along(Edge::Centre),
            "sill" | "floor" => return self.figure_or(opening.sill.as_ref(), 0.0),
            "height" | "top" => return self.opening_height(opening, member),
            "radius" => return self.figure_or(opening.radius.as_ref(), 0.0),
            "depth" if opening.lies_flat() => Some((across, Edge::Size)),
            _ => plan_edge(member).and_then(|(at, edge)| match at {
                at if at == axis => along(edge),
                Axis::Y if opening.lies_flat() => Some((across, edge)),
                _ => None,
            }),
        };
        match wanted {
            Some((given, edge)) => self.solve(given, edge, &mut |_| Err(Failed)),
            None => {
                let known: Vec<&str> = known.copied().collect();
                Err(self.error(unknown_member(first, member, &known, span)))
            }
        }
    }

    fn opening_height(&mut self, opening: &OpeningDoc, member: &str) -> Result<f64, Failed> {
        let height = self.figure_or(opening.height.as_ref(), 0.0)?;
        let sill = if member == "top" { self.figure_or(opening.sill.as_ref(), 0.0)? } else { 0.0 };
        Ok(sill + height)
    }

    fn module_member(&mut self, at: usize, first: &str, member: &str, span: Span) -> Result<Value, Failed> {
        let Some((_, module)) = self.doc.modules.get_index(at) else { return Err(Failed) };
        if let Some((axis, edge)) = module_edge(&module.value, member) {
            return self.module_figure(at, axis, edge).map(|figure| Value::Number(micrometres(figure)));
        }
        let Some(symbol) = self.symbols.get(at).cloned().flatten() else { return Err(Failed) };
        if !symbol.exports.contains_key(member) {
            let mut known: Vec<&str> = vec!["front", "rear", "left", "right", "floor", "top", "run", "depth", "height"];
            known.extend(symbol.exports.keys().map(String::as_str));
            return Err(self.error(unknown_member(first, member, &known, span)));
        }
        let mut first_value: Option<Value> = None;
        for (pose, pose_name) in symbol.poses.keys().enumerate() {
            let key = format!("{first}.{pose_name}.{member}");
            let value = self.once(key, span, |resolver| resolver.export(at, pose, member))?;
            if first_value.as_ref().is_some_and(|known| *known != value) {
                let poses: Vec<String> = symbol.poses.keys().map(|pose| format!("{first}.{pose}.{member}")).collect();
                let message = format!("`{first}.{member}` differs from pose to pose");
                let help = format!("say which pose: {}", crate::base::text::one_of(poses.iter().map(String::as_str)));
                return Err(self.error(Diagnostic::new(span, message).help(help)));
            }
            first_value = Some(value);
        }
        first_value.ok_or(Failed)
    }

    fn pose_member(&mut self, at: usize, first: &str, pose: &str, member: &str, span: Span) -> Result<Value, Failed> {
        let Some(symbol) = self.symbols.get(at).cloned().flatten() else { return Err(Failed) };
        let Some(pose_index) = symbol.poses.get_index_of(pose) else {
            let known: Vec<&str> = symbol.poses.keys().map(String::as_str).collect();
            let error = unknown_member(first, pose, &known, span);
            return Err(self.error(error));
        };
        if !symbol.exports.contains_key(member) {
            let known: Vec<&str> = symbol.exports.keys().map(String::as_str).collect();
            return Err(self.error(unknown_member(&format!("{first}.{pose}"), member, &known, span)));
        }
        self.export(at, pose_index, member)
    }

    fn export(&mut self, at: usize, pose: usize, member: &str) -> Result<Value, Failed> {
        let symbol = self.symbols.get(at).cloned().flatten().ok_or(Failed)?;
        let expr = symbol.exports.get(member).ok_or(Failed)?;
        let figure = number(&expr.value, &mut Instance::new(self, at, Some(pose)))?;
        Ok(Value::Number(micrometres(figure)))
    }

    /// One figure of a module along an axis.
    pub fn module_figure(&mut self, at: usize, axis: Axis, edge: Edge) -> Result<f64, Failed> {
        let Some((_, module)) = self.doc.modules.get_index(at) else { return Err(Failed) };
        let module = &module.value;
        let size_index = size_index(module, axis);
        let mut given =
            Given::of_place(&module.place, axis).with_size(module.size.get(size_index).and_then(Option::as_ref));
        let zero = zero_floor(module.place.span);
        let stands = given.low.is_none() && !(given.high.is_some() && given.size.is_some());
        if axis == Axis::Z && stands {
            given.low = Some(&zero);
        }
        self.solve(given, edge, &mut |resolver| resolver.default_size(at, size_index))
    }

    fn default_size(&mut self, at: usize, size_index: usize) -> Result<f64, Failed> {
        let Some(symbol) = self.symbols.get(at).cloned().flatten() else { return Err(Failed) };
        let Some(size) = symbol.size.get(size_index) else { return Err(Failed) };
        Instance::new(self, at, None).figure(&size.default)
    }
}

fn zero_floor(span: Span) -> Expr {
    Expr { kind: crate::language::expression::ExprKind::Number(0.0), span }
}

/// Which of run, depth and height (0, 1, 2) lies along an axis.
pub(super) fn size_index(module: &ModuleDoc, axis: Axis) -> usize {
    match (axis, runs_along_x(module)) {
        (Axis::Z, _) => 2,
        (Axis::X, true) | (Axis::Y, false) => 0,
        (Axis::X, false) | (Axis::Y, true) => 1,
    }
}

/// The axis along which an opening's `run` lies.
pub(super) fn opening_axis(opening: &OpeningDoc) -> Axis {
    match opening.wall.as_ref().map(|wall| wall.value) {
        Some(Wall::Front | Wall::Rear) => Axis::Y,
        _ => Axis::X,
    }
}

impl<'d> Given<'d> {
    /// What an opening gives along an axis; `centre` is the index into its centre list.
    pub fn of_opening(opening: &'d OpeningDoc, axis: Axis, centre: usize) -> Self {
        let mut given = Self::of_place(&opening.place, axis);
        let flat = opening.lies_flat();
        let listed = opening.centre.as_ref().and_then(|list| list.value.get(centre));
        given.centre = given.centre.or(listed);
        let size = if flat && centre == 1 { opening.depth.as_ref() } else { opening.run.as_ref() };
        given.with_size(size)
    }
}

pub(super) fn plan_edge(member: &str) -> Option<(Axis, Edge)> {
    Some(match member {
        "front" => (Axis::X, Edge::Low),
        "rear" => (Axis::X, Edge::High),
        "left" => (Axis::Y, Edge::Low),
        "right" => (Axis::Y, Edge::High),
        "centre-x" => (Axis::X, Edge::Centre),
        "centre-y" => (Axis::Y, Edge::Centre),
        _ => return None,
    })
}

fn module_edge(module: &ModuleDoc, member: &str) -> Option<(Axis, Edge)> {
    let along = if runs_along_x(module) { (Axis::X, Axis::Y) } else { (Axis::Y, Axis::X) };
    Some(match member {
        "floor" => (Axis::Z, Edge::Low),
        "top" => (Axis::Z, Edge::High),
        "run" => (along.0, Edge::Size),
        "depth" => (along.1, Edge::Size),
        "height" => (Axis::Z, Edge::Size),
        _ => return plan_edge(member),
    })
}

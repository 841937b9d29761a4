//! One dimension of something placed: two edges, a centre and a size, of which two give the others.

use super::names::Resolver;
use crate::base::number::mm;
use crate::diagnostic::Diagnostic;
use crate::geometry::Axis;
use crate::language::expression::{Expr, Failed};
use crate::language::{ModuleDoc, PlaceDoc};
use crate::model::Wall;
use crate::source::Span;

/// Which figure of a dimension.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Edge {
    Low,
    High,
    Centre,
    Size,
}

/// What is written of one dimension.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Given<'d> {
    pub low: Option<&'d Expr>,
    pub high: Option<&'d Expr>,
    pub centre: Option<&'d Expr>,
    pub size: Option<&'d Expr>,
}

/// Words for messages: the edge names along an axis.
pub(super) fn edge_names(axis: Axis) -> [&'static str; 3] {
    match axis {
        Axis::X => ["front", "rear", "centre-x"],
        Axis::Y => ["left", "right", "centre-y"],
        Axis::Z => ["floor", "top", "centre"],
    }
}

impl<'d> Given<'d> {
    /// The edges that a `place` gives along an axis.
    pub fn of_place(place: &'d PlaceDoc, axis: Axis) -> Self {
        let (low, high, centre) = match axis {
            Axis::X => (&place.front, &place.rear, &place.centre_x),
            Axis::Y => (&place.left, &place.right, &place.centre_y),
            Axis::Z => (&place.floor, &place.top, &None),
        };
        Self { low: low.as_ref(), high: high.as_ref(), centre: centre.as_ref(), size: None }
    }

    /// The same with a size.
    pub fn with_size(mut self, size: Option<&'d Expr>) -> Self {
        self.size = size;
        self
    }

    /// How many edges (centre included) are given.
    pub fn edges(&self) -> usize {
        [self.low, self.high, self.centre].iter().flatten().count()
    }

    /// What counts where more than two are given: the first two of low edge, high edge, centre and size.
    fn firm(self) -> Self {
        let edges = self.edges();
        let both = self.low.is_some() && self.high.is_some();
        Self { centre: self.centre.filter(|_| !both), size: self.size.filter(|_| edges < 2), ..self }
    }

    /// What the edges that fix a size hang on, and by how much they miss: "580 mm more are needed: `rear` hangs on `bed.front`".
    pub fn gives_way(&self, axis: Axis, (size, least, most): (f64, f64, f64)) -> String {
        let miss = if size < least {
            format!("{} more are needed", mm(least - size))
        } else {
            format!("{} are too much", mm(size - most))
        };
        let [low, high, centre] = edge_names(axis);
        let mut ends = Vec::new();
        for (expr, edge) in [(self.low, low), (self.high, high), (self.centre, centre)] {
            let mut names: Vec<String> = Vec::new();
            expr.iter().for_each(|expr| {
                expr.each_name(&mut |name| names.extend((!name.starts_with("box.")).then(|| format!("`{name}`"))));
            });
            if !names.is_empty() {
                ends.push(format!("`{edge}` hangs on {}", names.join(" and ")));
            }
        }
        match ends.is_empty() {
            true => format!("{miss} between its edges"),
            false => format!("{miss}: {}", ends.join(", ")),
        }
    }

    /// Whether two edges fix the size, so that no size is needed.
    pub fn fixes_size(&self) -> bool {
        self.edges() >= 2
    }

    /// Any expression of it, for a place to point at.
    pub fn any_span(&self) -> Option<Span> {
        [self.size, self.low, self.high, self.centre].iter().flatten().next().map(|expr| expr.span)
    }
}

impl Resolver<'_> {
    /// One figure of a dimension. `fallback` gives the size when neither a size nor two edges are written.
    pub fn solve(
        &mut self,
        given: Given<'_>,
        edge: Edge,
        fallback: &mut dyn FnMut(&mut Self) -> Result<f64, Failed>,
    ) -> Result<f64, Failed> {
        let given = given.firm();
        match edge {
            Edge::Size => self.solve_size(given, fallback),
            Edge::Low => match (given.low, given.high, given.centre) {
                (Some(low), ..) => self.figure(low),
                (None, Some(high), Some(centre)) if given.size.is_none() => {
                    Ok(2.0 * self.figure(centre)? - self.figure(high)?)
                }
                (None, Some(high), _) => Ok(self.figure(high)? - self.solve_size(given, fallback)?),
                (None, None, Some(centre)) => Ok(self.figure(centre)? - self.solve_size(given, fallback)? / 2.0),
                (None, None, None) => Err(Failed),
            },
            Edge::High => match (given.high, given.low, given.centre) {
                (Some(high), ..) => self.figure(high),
                (None, Some(low), Some(centre)) if given.size.is_none() => {
                    Ok(2.0 * self.figure(centre)? - self.figure(low)?)
                }
                (None, Some(low), _) => Ok(self.figure(low)? + self.solve_size(given, fallback)?),
                (None, None, Some(centre)) => Ok(self.figure(centre)? + self.solve_size(given, fallback)? / 2.0),
                (None, None, None) => Err(Failed),
            },
            Edge::Centre => match given.centre {
                Some(centre) => self.figure(centre),
                None => {
                    let low = self.solve(given, Edge::Low, fallback)?;
                    Ok(f64::midpoint(low, self.solve(given, Edge::High, fallback)?))
                }
            },
        }
    }

    fn solve_size(
        &mut self,
        given: Given<'_>,
        fallback: &mut dyn FnMut(&mut Self) -> Result<f64, Failed>,
    ) -> Result<f64, Failed> {
        match (given.size, given.low, given.high, given.centre) {
            (Some(size), ..) => self.figure(size),
            (None, Some(low), Some(high), _) => Ok(self.figure(high)? - self.figure(low)?),
            (None, Some(low), None, Some(centre)) => Ok(2.0 * (self.figure(centre)? - self.figure(low)?)),
            (None, None, Some(high), Some(centre)) => Ok(2.0 * (self.figure(high)? - self.figure(centre)?)),
            _ => fallback(self),
        }
    }

    /// Reports when a dimension is given too often, and gives the name of what is one too many; `what` names the owner.
    /// The first two hold.
    pub fn too_many<'n>(
        &mut self,
        given: Given<'_>,
        axis: Axis,
        what: &str,
        size_name: &'n str,
    ) -> Option<(&'n str, Span)> {
        let count = given.edges() + usize::from(given.size.is_some());
        if count <= 2 {
            return None;
        }
        let [low, high, centre] = edge_names(axis);
        let names = [(given.low, low), (given.high, high), (given.centre, centre), (given.size, size_name)];
        let mut all = names.iter().filter_map(|(expr, name)| Some((*name, expr.as_ref()?.span)));
        let written: Vec<&str> = all.clone().map(|(name, _)| name).collect();
        let message = format!("{what} is fixed {count} times in one direction: {}", written.join(", "));
        let span = given.any_span().unwrap_or_default();
        let mut error = Diagnostic::new(span, message)
            .help(format!("two are enough; leave out `{}`", written.last().unwrap_or(&"")));
        for (expr, name) in names {
            if let Some(expr) = expr.filter(|expr| expr.span != span) {
                error = error.note(expr.span, format!("`{name}` is given here"));
            }
        }
        self.error(error.drawn());
        all.next_back()
    }

    /// Reports when no edge is given.
    pub fn refuse_no_edge(&mut self, given: Given<'_>, axis: Axis, what: &str, span: Span) -> Result<(), Failed> {
        if given.edges() > 0 {
            return Ok(());
        }
        let [low, high, centre] = edge_names(axis);
        let message = format!("{what} has no place between {low} and {high}");
        Err(self.error(Diagnostic::new(span, message).help(format!("give `{low}`, `{high}` or `{centre}`"))))
    }
}

/// Whether the facing side runs front to rear.
pub(super) fn runs_along_x(module: &ModuleDoc) -> bool {
    matches!(module.faces.as_ref().map(|faces| faces.value), Some(Wall::Left | Wall::Right))
}

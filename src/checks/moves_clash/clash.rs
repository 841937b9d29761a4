//! How far one move goes while another stands open.

use crate::base::tolerance::{GREATEST_LENGTH, LEAF_GAP, SAME_ANGLE, SAME_LENGTH};
use crate::diagnostic::Quantity;
use crate::figures::around::Hinged;
use crate::geometry::{Axis, Box3, Leaf, Met, Prism, swept, travel};
use crate::model::{Arrangement, Model, MoveKind, Slide};
use crate::source::Span;
use kurbo::Vec2;

/// Fronts of one plane differ by no more than this, mm; common practice, no source.
const ROW: f64 = 30.0;

/// How a move goes.
#[derive(Debug, Clone)]
enum Way<'a> {
    Swings(Hinged<'a>),
    Slides(&'a Slide),
}

/// The face that a move opens towards.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Front {
    axis: Axis,
    up: bool,
    at: f64,
}

impl Front {
    fn in_row(self, other: Self) -> bool {
        self.axis == other.axis && self.up == other.up && (self.at - other.at).abs() <= ROW
    }
}

/// A move, shut and open.
#[derive(Debug, Clone)]
pub(super) struct Moving<'a> {
    /// The module or opening it belongs to.
    pub owner: &'a str,
    /// The move of a module, by name.
    part: Option<String>,
    /// In words: "`drawer 2` of `galley`".
    pub says: String,
    /// Where it is written.
    pub spans: Vec<Span>,
    /// A box around all that it sweeps.
    pub room: Box3,
    /// Open, a leaf as far as it should open at least.
    pub open: Prism,
    shut: Prism,
    front: Front,
    way: Way<'a>,
    roof: &'a crate::geometry::Roof,
}

/// A move that stops short.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Short {
    /// How far it goes, degrees or mm.
    pub reached: f64,
    /// How far it goes with nothing in its way.
    pub full: f64,
    /// How far it should go.
    pub needed: f64,
    /// Reached of full.
    pub share: f64,
    /// Degrees or mm.
    pub quantity: Quantity,
    /// The open one must be open, as it stands in the way when it is shut.
    pub together: bool,
}

impl<'a> Moving<'a> {
    /// All moves of an arrangement: those of modules, then the leaves of openings that swing in.
    pub fn all(model: &'a Model, arrangement: &'a Arrangement, least: f64) -> Vec<Self> {
        let of_modules = model.moves(arrangement).filter_map(|(module, part)| match &part.kind {
            MoveKind::Swing(_) => Some(Self::swinging(model, Hinged::of_module(module, part)?, least)),
            MoveKind::Slide(slide) => {
                let says = format!("`{}` of `{}`", part.name, module.name);
                let name = part.name.clone();
                Some(Self::sliding(model, (&module.name, name), says, vec![module.place_span, part.span], slide))
            }
        });
        let of_openings = model.openings.iter().flat_map(|opening| Hinged::of_opening(model, opening));
        of_modules.chain(of_openings.map(|hinged| Self::swinging(model, hinged, least))).collect()
    }

    fn swinging(model: &'a Model, hinged: Hinged<'a>, least: f64) -> Self {
        let at = |angle| Prism {
            axis: hinged.axis,
            outline: hinged.leaf.outline(angle),
            low: hinged.along.0,
            high: hinged.along.1,
        };
        let Hinged { owner, ref says, ref spans, .. } = hinged;
        let (says, spans) = (says.clone(), spans.clone());
        let (open, shut) = (at(hinged.leaf.opens.abs().min(least)), at(0.0));
        Self {
            owner,
            part: hinged.part.clone(),
            says,
            spans,
            room: hinged.near(),
            open,
            shut,
            front: front(&hinged),
            way: Way::Swings(hinged),
            roof: &model.space.roof,
        }
    }

    fn sliding(
        model: &'a Model,
        (owner, part): (&'a str, String),
        says: String,
        spans: Vec<Span>,
        slide: &'a Slide,
    ) -> Self {
        let open = slide.body.moved(slide.axis, slide.travel);
        let up = slide.travel > 0.0;
        let (low, high) = slide.body.range(slide.axis);
        let front = Front { axis: slide.axis, up, at: if up { high } else { low } };
        let room = slide.body.union(&open);
        let (open, shut) = (Prism::from(open), Prism::from(slide.body));
        let (part, way, roof) = (Some(part), Way::Slides(slide), &model.space.roof);
        Self { owner, part, says, spans, room, open, shut, front, way, roof }
    }

    /// A leaf that lies flat when shut and falls shut by itself.
    fn is_lid(&self) -> bool {
        matches!(self.way, Way::Swings(_)) && self.front.axis == Axis::Z && self.front.up
    }

    /// Whether it says itself that another one must be open first.
    fn is_after(&self, other: &Self) -> bool {
        matches!(self.way, Way::Slides(slide) if other.part.as_deref().is_some_and(|part| slide.is_after(part)))
    }

    /// How far it goes with something in its way; `None` if that is not met.
    fn reaches(&self, obstacle: &Prism) -> Option<f64> {
        match &self.way {
            Way::Swings(hinged) => {
                let (low, high) = hinged.along;
                let leaf = Leaf { length: (hinged.leaf.length - LEAF_GAP).max(0.0), ..hinged.leaf };
                leaf.stop(&obstacle.shadow(hinged.axis, low, high)).map(|stop| stop.angle)
            }
            Way::Slides(slide) => {
                let far = (-GREATEST_LENGTH, GREATEST_LENGTH);
                let everywhere = Box3 { x: far, y: far, z: far };
                crate::geometry::common_bounds(&swept(&slide.body, slide.axis, slide.travel), &obstacle.bounds())?;
                let found = travel(&slide.body, slide.axis, slide.travel, &everywhere, self.roof, &[obstacle]);
                (found.met == Some(Met::Obstacle(0))).then_some(found.free)
            }
        }
    }

    /// How far it goes, and how far it should go at least.
    fn wanted(&self, least: f64) -> (f64, f64, Quantity) {
        match &self.way {
            Way::Swings(hinged) => (hinged.leaf.opens.abs(), hinged.leaf.opens.abs().min(least), Quantity::Angle),
            Way::Slides(slide) => (slide.travel.abs(), slide.travel.abs(), Quantity::Length),
        }
    }
}

/// Which way a leaf opens.
fn front(hinged: &Hinged<'_>) -> Front {
    let (first, second) = hinged.axis.plane();
    let along = Vec2::from_angle(hinged.leaf.shut.to_radians());
    let out = Vec2::new(-along.y, along.x) * hinged.leaf.opens.signum();
    if out.x.abs() > out.y.abs() {
        Front { axis: first, up: out.x > 0.0, at: hinged.leaf.hinge.x }
    } else {
        Front { axis: second, up: out.y > 0.0, at: hinged.leaf.hinge.y }
    }
}

/// How far `moved` goes while `open` is open, where that is too little and somebody would care.
pub(super) fn clash(moved: &Moving<'_>, open: &Moving<'_>, least: f64) -> Option<Short> {
    let one = moved.owner == open.owner;
    let together = one && (moved.is_after(open) || moved.reaches(&open.shut).is_some());
    if !together && (moved.front.in_row(open.front) || moved.is_lid() || open.is_lid()) {
        return None;
    }
    let reached = moved.reaches(&open.open)?;
    let (full, needed, quantity) = moved.wanted(least);
    let slack = if quantity == Quantity::Angle { SAME_ANGLE } else { SAME_LENGTH };
    let share = reached / full.max(f64::MIN_POSITIVE);
    (reached < needed - slack).then_some(Short { reached, full, needed, share, quantity, together })
}

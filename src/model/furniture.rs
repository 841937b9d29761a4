//! Modules with the solids, spaces and linework of each pose.

use super::joints::Together;
use super::make::{CONTENTS, Connection, Hardware, MassItem, Part};
use super::moves::Move;
use super::place::Toward;
use super::space_box::Wall;
use super::words::{Said, Tag};
use crate::geometry::{Axis, Box3, Prism};
use crate::source::Span;
use kurbo::BezPath;

/// What a space is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Need {
    /// A person stands here.
    Standing,
    /// A person sits here, with legs and head.
    Sitting,
    /// People lie here; the prism's low face is the mattress top.
    Lying,
    /// Things are kept here.
    Storage,
}

/// A prism that a module fills in one pose.
#[derive(Debug, Clone, PartialEq)]
pub struct Solid {
    /// Name in the symbol.
    pub name: String,
    /// The room it takes.
    pub prism: Prism,
    /// The outline with true curves, where the prism's is made of chords.
    pub curve: Option<BezPath>,
    /// What it is.
    pub tags: Vec<Said<Tag>>,
    /// Bought in (a mattress, an appliance), so no parts are made for it.
    pub bought: bool,
    /// Sides that no board closes.
    pub open: Vec<Toward>,
    /// Line of the symbol.
    pub span: Span,
}

impl Solid {
    /// Whether it has a tag.
    #[must_use]
    pub fn is(&self, tag: Tag) -> bool {
        self.tags.iter().any(|own| *own == tag)
    }

    /// Whether it has one of some tags.
    #[must_use]
    pub fn is_any(&self, tags: &[Tag]) -> bool {
        tags.iter().any(|tag| self.is(*tag))
    }
}

/// Room beside or in a module that a person or things need.
#[derive(Debug, Clone, PartialEq)]
pub struct Space {
    /// Name in the symbol.
    pub name: String,
    /// The room.
    pub prism: Prism,
    /// What for.
    pub need: Need,
    /// For how many people.
    pub people: u32,
    /// Along which axis people lie.
    pub along: Option<Axis>,
    /// What mass may be kept in it, kg, if the symbol says so.
    pub carries: Option<f64>,
    /// Line of the symbol.
    pub span: Span,
}

/// Linework of the plan beyond the outlines of solids.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanLine {
    /// The line in box coordinates (x, y), mm.
    pub path: BezPath,
    /// Height above the floor, mm.
    pub height: f64,
    /// Drawn dashed whatever its height.
    pub dashed: bool,
}

/// What a module is in one pose.
#[derive(Debug, Clone, PartialEq)]
pub struct PoseState {
    /// Name of the pose.
    pub name: String,
    /// What it fills.
    pub solids: Vec<Solid>,
    /// What it needs.
    pub spaces: Vec<Space>,
    /// What opens.
    pub moves: Vec<Move>,
    /// Extra plan linework.
    pub linework: Vec<PlanLine>,
    /// Figures that the symbol exports, by name.
    pub exports: Vec<(String, f64)>,
}

/// What of a module is not as its symbol, or the language, wants it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MisfitKind {
    /// A size out of the symbol's range.
    Size,
    /// A setting out of its range.
    Setting,
    /// A place that is given too often in one direction.
    Place,
}

/// Something of a module that is an error, and in spite of which it is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Misfit {
    /// What it is.
    pub kind: MisfitKind,
    /// The size, the setting, or what is written too often.
    pub what: String,
    /// The figure asked for, and the least and the greatest that the symbol takes; zero for a place.
    pub figure: f64,
    /// The least and the greatest figure.
    pub range: (f64, f64),
    /// Where it is written.
    pub span: Span,
}

/// Somebody whom the layout gives a place of a module.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taker {
    /// Name of the person.
    pub who: String,
    /// Name of the space; any of the module if the layout says none.
    pub space: Option<String>,
}

/// One placed symbol.
#[derive(Debug, Clone, PartialEq)]
pub struct Module {
    /// Name in the layout.
    pub name: String,
    /// The symbol's path name, e.g. `galley/base-run`.
    pub symbol: String,
    /// What the symbol says of itself.
    pub says: String,
    /// The side a person stands at: one of the four walls' directions.
    pub faces: Wall,
    /// The room it is given; all solids of all poses lie in it.
    pub extent: Box3,
    /// Index of its zone.
    pub zone: Option<usize>,
    /// It stands outside the box: steps, awnings, ladders.
    pub outside: bool,
    /// People stand outside, on the ground, who use it.
    pub used_outside: bool,
    /// Index of the opening that it is used or slides out through.
    pub through: Option<usize>,
    /// Who sleeps here, if the layout says so.
    pub sleepers: Vec<Taker>,
    /// Who sits here on the road, if the layout says so.
    pub riders: Vec<Taker>,
    /// One state for each pose, in file order; never empty.
    pub poses: Vec<PoseState>,
    /// What is sawn for it.
    pub parts: Vec<Part>,
    /// How the pieces go together in the first pose.
    pub together: Together,
    /// What is bought to fit it.
    pub hardware: Vec<Hardware>,
    /// Masses beside the parts'.
    pub masses: Vec<MassItem>,
    /// Services it needs.
    pub connects: Vec<Connection>,
    /// What is wrong with it; with anything it is drawn hatched.
    pub misfits: Vec<Misfit>,
    /// Where the layout places it (the module's name).
    pub span: Span,
    /// Where the layout gives its `place`.
    pub place_span: Span,
}

impl Module {
    /// Mass of what is fitted to it beside its parts, kg.
    #[must_use]
    pub fn fitted_mass(&self) -> f64 {
        self.masses.iter().filter(|item| item.name != CONTENTS).map(|item| item.mass).sum()
    }

    /// Mass of what it is made to hold, kg.
    #[must_use]
    pub fn contents_mass(&self) -> f64 {
        self.masses.iter().filter(|item| item.name == CONTENTS).map(|item| item.mass).sum()
    }
}

//! What is made: parts, stocks, hardware, masses, services.

use super::joints::Chosen;
use super::place::{Hand, Place};
use super::words::{LockWord, Service};
use crate::base::number::micrometres;
use crate::base::tolerance::SAME_LENGTH;
use crate::geometry::{Point3, Polygon};
use crate::source::Span;
use kurbo::{BezPath, Circle, Point, Rect, Shape, Vec2};

/// Which way the grain runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Grain {
    /// Along the length.
    Length,
    /// Along the width.
    Width,
    /// It does not matter; the part may turn.
    Free,
}

impl Grain {
    /// Its name in layouts and lists.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Width => "width",
            Self::Free => "free",
        }
    }
}

/// A figure for each edge, mm, 0 for none: the thickness of its band, or what is left on for scribing.
///
/// Front is the long edge and left the short edge at the datum corner; back and right are those opposite.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bands {
    /// Long edge at the datum corner.
    pub front: f64,
    /// Long edge opposite.
    pub back: f64,
    /// Short edge at the datum corner.
    pub left: f64,
    /// Short edge opposite.
    pub right: f64,
}

/// Machining of a board, from the datum corner (left, front), mm.
#[derive(Debug, Clone, PartialEq)]
pub enum Machining {
    /// A straight groove along its middle line.
    Groove {
        /// Start of the middle line.
        from: (f64, f64),
        /// End of the middle line.
        to: (f64, f64),
        /// Width, mm.
        width: f64,
        /// Depth, mm.
        depth: f64,
        /// On the back of the board, not on its face.
        reverse: bool,
        /// What is bought and laid into it; `None` where another part stands in it.
        holds: Option<String>,
    },
    /// A round hole.
    Hole {
        /// Its centre.
        at: (f64, f64),
        /// Diameter, mm.
        diameter: f64,
        /// Depth, mm; `None` goes through.
        depth: Option<f64>,
        /// On the back of the board, not on its face.
        reverse: bool,
    },
    /// A hole of any outline right through.
    Cutout {
        /// What for, e.g. `sink`.
        name: String,
        /// Its outline.
        outline: Polygon,
        /// The outline with true arcs, where it has any.
        curve: Option<BezPath>,
    },
}

impl Machining {
    /// What it takes of the face, with true arcs. A groove ends square at the ends of its middle line.
    #[must_use]
    pub fn shape(&self) -> BezPath {
        match self {
            Self::Groove { from, to, width, .. } => {
                let (from, to) = (Point::from(*from), Point::from(*to));
                let along = to - from;
                let side = Vec2::new(-along.y, along.x) / along.hypot().max(f64::MIN_POSITIVE) * (width / 2.0);
                Polygon::new(vec![from + side, to + side, to - side, from - side]).path()
            }
            Self::Hole { at, diameter, .. } => Circle::new(*at, diameter / 2.0).to_path(SAME_LENGTH),
            Self::Cutout { outline, curve, .. } => curve.clone().unwrap_or_else(|| outline.path()),
        }
    }

    /// The rectangle around what it takes of the face.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        match self {
            Self::Groove { .. } => self.shape().bounding_box(),
            Self::Hole { at, diameter, .. } => Rect::from_center_size(Point::from(*at), (*diameter, *diameter)),
            Self::Cutout { outline, .. } => outline.bounds(),
        }
    }

    /// Whether it is seen on one side of the board only.
    #[must_use]
    pub fn one_sided(&self) -> bool {
        matches!(self, Self::Groove { .. } | Self::Hole { depth: Some(_), .. })
    }
}

/// One kind of piece of a module. Sizes are finished sizes, bands included.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Name in the symbol.
    pub name: String,
    /// How many of it the module has.
    pub count: u32,
    /// Finished length, mm (along the grain where grain matters).
    pub length: f64,
    /// Finished width, mm.
    pub width: f64,
    /// Thickness of its stock, mm.
    pub thickness: f64,
    /// Index of its stock in the model.
    pub stock: usize,
    /// Grain.
    pub grain: Grain,
    /// Edge bands.
    pub bands: Bands,
    /// Left on at edges for fitting to a curved wall or roof, mm.
    pub scribe: Bands,
    /// True outline where it is no rectangle, from the datum corner.
    pub outline: Option<Polygon>,
    /// The outline with true arcs, where it has any.
    pub curve: Option<BezPath>,
    /// Machining.
    pub machining: Vec<Machining>,
    /// Its two faces differ; the machined one is the good one.
    pub faced: bool,
    /// Which of two mirror images it is; `None` where both are the same, or no place says.
    pub hand: Option<Hand>,
    /// Where the pieces stand, or empty where the symbol does not say.
    pub places: Vec<Place>,
    /// What holds it where it touches nothing, e.g. `shelf-pin`.
    pub held: Option<String>,
    /// What holds it to others in the place of what is usual.
    pub joint: Option<Chosen>,
    /// What shuts it, or what it is opened by, if it is a front.
    pub lock: Option<LockWord>,
    /// What it is made to carry, kg/m2, if its symbol says so.
    pub load: Option<f64>,
    /// Room around it that is wanted, mm: gaps of fronts, clearance of drawers and loose shelves.
    pub clear: f64,
    /// A word for the joiner.
    pub note: Option<String>,
    /// Line of the symbol or recipe that makes it.
    pub span: Span,
    /// Line of the symbol that uses the recipe, where one makes it.
    pub piece: Option<Span>,
}

impl Part {
    /// Mass of one piece, kg: volume of its true shape less cutouts, times density. Bands count as stock; grooves and
    /// drilled holes are not taken off.
    #[must_use]
    pub fn mass(&self, stock: &Stock) -> f64 {
        let whole = self.outline.as_ref().map_or(self.length * self.width, Polygon::area);
        let cut_out = |machining: &Machining| match machining {
            Machining::Cutout { outline, .. } => outline.area(),
            Machining::Groove { .. } | Machining::Hole { .. } => 0.0,
        };
        let area = whole - self.machining.iter().map(cut_out).sum::<f64>();
        area.max(0.0) * self.thickness * stock.density / 1e9
    }

    /// Its size as it leaves the saw, length x width, mm: finished less bands, plus what is left on for scribing.
    #[must_use]
    pub fn cut_size(&self) -> (f64, f64) {
        let (bands, scribe) = (self.bands, self.scribe);
        let length = self.length - bands.left - bands.right + scribe.left + scribe.right;
        let width = self.width - bands.front - bands.back + scribe.front + scribe.back;
        (micrometres(length), micrometres(width))
    }
}

/// A sheet material as the workshop buys it.
#[derive(Debug, Clone, PartialEq)]
pub struct Stock {
    /// Role that symbols ask for, e.g. `carcass`.
    pub name: String,
    /// Material, e.g. `poplar-ply-15`.
    pub material: String,
    /// Thickness, mm.
    pub thickness: f64,
    /// Density, kg/m3.
    pub density: f64,
    /// Modulus of elasticity in bending along and across the grain, N/mm2, if known.
    pub stiffness: Option<(f64, f64)>,
    /// Sheet sizes: those to be bought, then what is on hand.
    pub sheets: Vec<SheetSize>,
    /// Which way the sheet's grain runs; `Free` for boards without grain.
    pub grain: Grain,
    /// Width of the saw cut, mm.
    pub kerf: f64,
    /// Trimmed off each edge of a sheet, mm.
    pub trim: f64,
    /// The smallest offcut worth keeping, either way round, mm.
    pub useful: (f64, f64),
    /// Greatest number of cut stages; none for any number.
    pub stages: Option<u8>,
    /// Where it is written, if the layout does.
    pub span: Option<Span>,
}

/// One size of sheets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SheetSize {
    /// Length x width, mm.
    pub size: (f64, f64),
    /// Price of one, if known; what is on hand costs nothing.
    pub price: Option<f64>,
    /// How many there are of what is on hand; none for sizes that are bought.
    pub on_hand: Option<u32>,
}

/// Something bought and screwed on.
#[derive(Debug, Clone, PartialEq)]
pub struct Hardware {
    /// What, e.g. `drawer-runner-pair`.
    pub name: String,
    /// How many.
    pub count: u32,
    /// Size, mm, if it has one.
    pub size: Option<f64>,
    /// Force, N, if it is chosen by one.
    pub force: Option<f64>,
    /// Line of the symbol.
    pub span: Span,
}

/// Name of the mass item for what a module is made to hold.
pub const CONTENTS: &str = "contents";

/// A mass at a place.
#[derive(Debug, Clone, PartialEq)]
pub struct MassItem {
    /// What.
    pub name: String,
    /// Mass, kg.
    pub mass: f64,
    /// Where.
    pub at: Point3,
    /// Line of the symbol.
    pub span: Span,
}

/// A service that a module needs.
#[derive(Debug, Clone, PartialEq)]
pub struct Connection {
    /// Which.
    pub service: Service,
    /// Line of the symbol.
    pub span: Span,
}

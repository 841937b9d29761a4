//! The layout as a whole.

use super::accepted::Accepted;
use super::furniture::Module;
use super::make::Stock;
use super::prices::{LabelGrid, Prices};
use super::router::Router;
use super::services::{Climate, Services};
use super::space_box::{BoxSpace, Wall};
use super::theme::Theme;
use super::vehicle::{Load, OwnCase, Vehicle};
use super::words::{PaperSize, Purpose, Said, SheetKind, Word};
use crate::geometry::Parcel;
use crate::source::Span;
use kurbo::Rect;

/// Title data, as ISO 7200 names the fields.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Title {
    /// Title.
    pub title: String,
    /// Identification number.
    pub number: String,
    /// Mark of the current revision.
    pub revision: String,
    /// What the current revision changed.
    pub revision_note: String,
    /// All revisions, in file order: the last is the current one.
    pub revisions: Vec<Revision>,
    /// Creator.
    pub by: String,
    /// Approval person.
    pub approved: String,
    /// Legal owner.
    pub owner: String,
    /// Date of issue, as written.
    pub date: String,
}

/// One revision of the drawings. Empty texts were not written.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Revision {
    /// Mark.
    pub mark: String,
    /// What it changed.
    pub note: String,
    /// When, as written.
    pub date: String,
    /// Who changed it.
    pub by: String,
}

/// Stature of the median man, mm: ANSUR II, 4,082 men, measured 2010 to 2012 (open data).
pub const MEDIAN_MAN: f64 = 1755.0;
/// Stature of the median woman, mm: ANSUR II, 1,986 women.
pub const MEDIAN_WOMAN: f64 = 1626.0;

/// A person who lives aboard.
#[derive(Debug, Clone, PartialEq)]
pub struct Person {
    /// Name in the layout.
    pub name: String,
    /// Body height, mm; [`MEDIAN_MAN`] where the layout does not say it.
    pub stature: f64,
    /// Whether the layout says the stature.
    pub measured: bool,
    /// Body mass, kg.
    pub mass: f64,
    /// Where it is written.
    pub span: Span,
}

/// What an opening is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum OpeningKind {
    /// A door that people walk through.
    Door,
    /// A door of two leaves, hinged at both ends.
    DoubleDoor,
    /// A door that slides along its wall.
    SlidingDoor,
    /// A gate that lifts, hinged at its upper edge.
    LiftGate,
    /// A window.
    Window,
    /// A hatch in a wall.
    Hatch,
    /// A hatch in the roof.
    RoofHatch,
    /// A way to crawl through to the cab.
    PassThrough,
    /// A hole for air that never shuts.
    Vent,
}

impl OpeningKind {
    /// Its name in layouts.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Door => "door",
            Self::DoubleDoor => "double-door",
            Self::SlidingDoor => "sliding-door",
            Self::LiftGate => "lift-gate",
            Self::Window => "window",
            Self::Hatch => "hatch",
            Self::RoofHatch => "roof-hatch",
            Self::PassThrough => "pass-through",
            Self::Vent => "vent",
        }
    }

    /// Whether people walk through it.
    #[must_use]
    pub fn is_door(self) -> bool {
        matches!(self, Self::Door | Self::DoubleDoor | Self::SlidingDoor)
    }

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::RoofHatch => "roof hatch",
            Self::DoubleDoor => "double door",
            Self::SlidingDoor => "sliding door",
            Self::LiftGate => "lift gate",
            _ => self.name(),
        }
    }
}

impl Word for OpeningKind {
    const ALL: &'static [Self] = &[
        Self::Door,
        Self::DoubleDoor,
        Self::SlidingDoor,
        Self::LiftGate,
        Self::Window,
        Self::Hatch,
        Self::RoofHatch,
        Self::PassThrough,
        Self::Vent,
    ];

    fn name(self) -> &'static str {
        Self::name(self)
    }
}

/// Where a leaf goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Swings {
    /// Into the box.
    In,
    /// Out of the box.
    Out,
    /// No leaf, or a sliding one.
    No,
}

/// A hole in a panel.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// Name in the layout.
    pub name: String,
    /// What it is.
    pub kind: OpeningKind,
    /// The panel it is in.
    pub wall: Wall,
    /// Range along the panel: x for the left and right walls, roof and floor, y for front and rear, mm.
    pub along: (f64, f64),
    /// Range upward: z for walls (sill, head), y for roof and floor, mm.
    pub up: (f64, f64),
    /// Corner radius, mm.
    pub radius: f64,
    /// Side of the hinge: one of the wall's two ends, `Roof` for the top edge or `Floor` for the bottom edge.
    pub hinge: Option<Wall>,
    /// Where its leaf goes.
    pub swings: Swings,
    /// How far the leaf opens, degrees.
    pub opens: f64,
    /// Toward which end of its wall a sliding leaf goes, and how far, mm; `swings` says on which side of the wall.
    pub slides: Option<(Wall, f64)>,
    /// It is a door or window of the vehicle itself, with its leaf, frame and hinges.
    pub of_vehicle: bool,
    /// A way out in an emergency.
    pub escape: bool,
    /// Thickness of the lining frame in the hole, on each edge, mm.
    pub lining: f64,
    /// Area that always stays open to the air, mm2.
    pub free_area: f64,
    /// Heat transmittance, W/(m2 K), if the layout says one.
    pub u_value: Option<f64>,
    /// Where it is written.
    pub span: Span,
}

impl Opening {
    /// Whether it lies in roof or floor, so that its ranges are x and y.
    #[must_use]
    pub fn lies_flat(&self) -> bool {
        matches!(self.wall, Wall::Roof | Wall::Floor)
    }

    /// Its hinged leaves, each as an opening of its own: a double door has two, what slides or never opens none.
    #[must_use]
    pub fn leaves(&self) -> Vec<Self> {
        if self.kind != OpeningKind::DoubleDoor {
            return self.hinge.is_some().then(|| self.clone()).into_iter().collect();
        }
        let ends = match self.wall {
            Wall::Front | Wall::Rear => [Wall::Left, Wall::Right],
            _ => [Wall::Front, Wall::Rear],
        };
        let middle = f64::midpoint(self.along.0, self.along.1);
        let half = |(hinge, along)| Self { hinge: Some(hinge), along, ..self.clone() };
        ends.into_iter().zip([(self.along.0, middle), (middle, self.along.1)]).map(half).collect()
    }

    /// What a sliding leaf takes of its wall when it is open, in the coordinates of the panel, mm.
    #[must_use]
    pub fn slid(&self) -> Option<Rect> {
        let (toward, travel) = self.slides?;
        let by = if matches!(toward, Wall::Front | Wall::Left) { -travel } else { travel };
        Some(self.hole() + kurbo::Vec2::new(by, 0.0))
    }

    /// The whole hole in the coordinates of its panel, mm.
    #[must_use]
    pub fn hole(&self) -> Rect {
        Rect::new(self.along.0, self.up.0, self.along.1, self.up.1)
    }
}

/// A named part of the floor plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Zone {
    /// Name in the layout.
    pub name: String,
    /// What it is for.
    pub purpose: Said<Purpose>,
    /// Its rectangle in plan.
    pub rect: Rect,
    /// Zones of one level must not overlap.
    pub level: i64,
    /// Where it is written.
    pub span: Span,
}

/// A pose for every module.
#[derive(Debug, Clone, PartialEq)]
pub struct Arrangement {
    /// Name: day, night, travel.
    pub name: String,
    /// Index of the pose of each module, by module index.
    pub poses: Vec<usize>,
    /// Where it is written.
    pub span: Span,
}

/// An end of a route.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RouteEnd {
    /// An opening, by index.
    Opening(usize),
    /// A module (its standing spaces), by index.
    Module(usize),
}

/// A way that the layout asks for.
#[derive(Debug, Clone, PartialEq)]
pub struct Route {
    /// `from to`, for messages.
    pub name: String,
    /// Start.
    pub from: RouteEnd,
    /// End.
    pub to: RouteEnd,
    /// Indices of the arrangements it must hold in.
    pub arrangements: Vec<usize>,
    /// Least width, mm, if the layout says one.
    pub least: Option<f64>,
    /// Where it is written.
    pub span: Span,
}

/// Things of one kind that are carried.
#[derive(Debug, Clone, PartialEq)]
pub struct Cargo {
    /// Name in the layout.
    pub name: String,
    /// Size and count of one kind, and how each may stand.
    pub parcel: Parcel,
    /// Mass of one, kg.
    pub mass: f64,
    /// Index of the module whose storage spaces they are kept in.
    pub module: usize,
    /// Index of the opening that they go through, if the layout says one.
    pub through: Option<usize>,
    /// Where it is written.
    pub span: Span,
}

/// A limit changed by the layout.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitChange {
    /// The check.
    pub check: String,
    /// The limit's name.
    pub name: String,
    /// The new value, in the limit's unit.
    pub value: f64,
    /// Why.
    pub because: String,
    /// Where it is written.
    pub span: Span,
}

/// How the views of one thing stand about each other (ISO 5456-2).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Projection {
    /// First angle: what is seen from the left stands right, what is seen from above stands below.
    #[default]
    First,
    /// Third angle: what is seen from the left stands left, what is seen from above stands above.
    Third,
}

/// What dimension figures say.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Figures {
    /// Millimetres.
    #[default]
    Mm,
    /// Millimetres, and behind them inches in brackets.
    MmInch,
}

/// How the sheets are to be.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetSettings {
    /// `A4` to `A1`.
    pub paper: PaperSize,
    /// Sheets stand upright.
    pub portrait: bool,
    /// Kinds of sheets that are made; `None` for all but those that are made only when asked for.
    pub only: Option<Vec<SheetKind>>,
    /// 20 for 1:20; `None` takes the largest that fits.
    pub scale: Option<f64>,
    /// How views are arranged.
    pub projection: Projection,
    /// What dimension figures say.
    pub figures: Figures,
    /// How the brochure looks.
    pub theme: Theme,
    /// Where the sections are.
    pub sections: Planes,
}

impl SheetSettings {
    /// Whether sheets of a kind are made.
    #[must_use]
    pub fn wants(&self, kind: SheetKind) -> bool {
        self.only.as_ref().map_or(!kind.when_asked(), |only| only.contains(&kind))
    }
}

impl Default for SheetSettings {
    /// A3 landscape, at the largest scale that fits, in mm.
    fn default() -> Self {
        Self {
            paper: PaperSize::A3,
            portrait: false,
            only: None,
            scale: None,
            projection: Projection::First,
            figures: Figures::Mm,
            theme: Theme::default(),
            sections: Planes::default(),
        }
    }
}

/// Planes of the sections, mm from the left and from the front wall; `None` finds one.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Planes {
    /// Of the section along the box.
    pub along: Option<f64>,
    /// Of the section across it.
    pub across: Option<f64>,
}

/// The whole resolved layout.
#[derive(Debug, Clone, PartialEq)]
pub struct Model {
    /// Name of the layout file without folder and ending.
    pub name: String,
    /// Title data.
    pub title: Title,
    /// Who lives here, in file order.
    pub people: Vec<Person>,
    /// Parameters that are figures, in file order.
    pub parameters: Vec<(String, f64)>,
    /// The space and its shell.
    pub space: BoxSpace,
    /// Openings, in file order.
    pub openings: Vec<Opening>,
    /// Zones, in file order.
    pub zones: Vec<Zone>,
    /// Modules, in file order.
    pub modules: Vec<Module>,
    /// Arrangements, in file order; never empty.
    pub arrangements: Vec<Arrangement>,
    /// Routes that the layout asks for.
    pub routes: Vec<Route>,
    /// What is carried, in file order.
    pub cargo: Vec<Cargo>,
    /// The vehicle under the box.
    pub vehicle: Option<Vehicle>,
    /// Tanks and things beside the furniture, in file order.
    pub loads: Vec<Load>,
    /// Load cases of the layout's own.
    pub load_cases: Vec<OwnCase>,
    /// Water, electricity, waste pipes.
    pub services: Services,
    /// Air inside and outside.
    pub climate: Climate,
    /// Changed limits.
    pub limits: Vec<LimitChange>,
    /// Accepted findings.
    pub accepted: Vec<Accepted>,
    /// All stocks that parts refer to.
    pub stocks: Vec<Stock>,
    /// Prices beside those of sheets.
    pub prices: Prices,
    /// The grid of the labels.
    pub labels: LabelGrid,
    /// The router of the workshop, if it has one.
    pub router: Option<Router>,
    /// Sheet settings.
    pub sheets: SheetSettings,
    /// Errors in spite of which it is drawn: with any it is a draft.
    pub errors: usize,
}

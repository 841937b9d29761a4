//! The layout document: what the file says, typed, with places, not yet resolved.

use super::expression::Expr;
use super::figures::FiguresDoc;
use super::named::Named;
use super::place::PlaceDoc;
use super::router::RouterDoc;
use super::rule::RuleDoc;
use super::services::ServicesDoc;
use super::vehicle::{LoadCaseDoc, LoadDoc, VehicleDoc};
use crate::model::{HingeSide, OpeningKind, PaperSize, Purpose, Said, SheetKind, Theme, Wall};
use crate::source::{Span, Spanned};
use std::collections::BTreeSet;
use std::sync::Arc;

/// A layout file after `extends` has been applied.
#[derive(Debug, Clone, PartialEq)]
pub struct LayoutDoc {
    /// Title.
    pub title: Spanned<String>,
    /// Drawing number.
    pub number: Option<Spanned<String>>,
    /// Revision.
    pub revision: Vec<RevisionDoc>,
    /// Who and when.
    pub drawn: DrawnDoc,
    /// Folders with more symbols, relative to the file.
    pub symbols: Vec<Spanned<String>>,
    /// Plug-ins by their names.
    pub plug_ins: Named<PlugInDoc>,
    /// People; the span is the name's.
    pub people: Named<PersonDoc>,
    /// Parameters.
    pub parameters: Named<Expr>,
    /// The box.
    pub space: Spanned<BoxDoc>,
    /// Own layups: layers from inside to outside.
    pub layups: Named<Vec<LayerDoc>>,
    /// Openings.
    pub openings: Named<OpeningDoc>,
    /// Zones.
    pub zones: Named<ZoneDoc>,
    /// Modules.
    pub modules: Named<ModuleDoc>,
    /// Arrangements.
    pub arrangements: Named<ArrangementDoc>,
    /// Routes.
    pub routes: Vec<Spanned<RouteDoc>>,
    /// Things to be carried.
    pub cargo: Named<CargoDoc>,
    /// The vehicle under the box.
    pub vehicle: Option<Spanned<VehicleDoc>>,
    /// Tanks and things beside the furniture.
    pub loads: Named<LoadDoc>,
    /// Load cases of its own.
    pub load_cases: Named<LoadCaseDoc>,
    /// Water, electricity, waste pipes.
    pub services: ServicesDoc,
    /// Air inside and outside.
    pub climate: Option<FiguresDoc<11>>,
    /// House rules: its own, and those of its files.
    pub rules: Arc<Named<RuleDoc>>,
    /// Files with more rules, relative to the file.
    pub rule_files: Vec<Spanned<String>>,
    /// Changed limits.
    pub limits: Vec<LimitDoc>,
    /// Accepted findings.
    pub accepted: Vec<Spanned<AcceptedDoc>>,
    /// Stocks.
    pub stocks: Named<StockDoc>,
    /// Prices beside those of sheets.
    pub prices: Option<PricesDoc>,
    /// The grid of the labels.
    pub labels: Option<FiguresDoc<8>>,
    /// The router.
    pub router: Option<RouterDoc>,
    /// Sheets.
    pub sheets: SheetsDoc,
    /// Names of entries that could not be read and have been reported: references to them need no second error.
    pub broken: Vec<String>,
    /// All names that its expressions have.
    pub named: BTreeSet<String>,
}

/// `plug-ins: { name: { file, sha256 } }`.
#[derive(Debug, Clone, PartialEq)]
pub struct PlugInDoc {
    /// Path of its file, relative to the file it is named in.
    pub file: Spanned<String>,
    /// SHA-256 of its bytes in hexadecimal digits.
    pub sha256: Option<Spanned<String>>,
}

/// One entry of `revision`: `{ mark, note, date, by }`.
#[derive(Debug, Clone, PartialEq)]
pub struct RevisionDoc {
    /// Mark.
    pub mark: Spanned<String>,
    /// What changed.
    pub note: Option<Spanned<String>>,
    /// When, `YYYY-MM-DD`.
    pub date: Option<Spanned<String>>,
    /// Who changed it.
    pub by: Option<Spanned<String>>,
}

/// `drawn: { by, approved, owner, date }`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DrawnDoc {
    /// Creator.
    pub by: Option<Spanned<String>>,
    /// Approval person.
    pub approved: Option<Spanned<String>>,
    /// Legal owner.
    pub owner: Option<Spanned<String>>,
    /// Date as written, `YYYY-MM-DD`.
    pub date: Option<Spanned<String>>,
}

/// `people: { name: { stature, mass } }`.
#[derive(Debug, Clone, PartialEq)]
pub struct PersonDoc {
    /// Body height.
    pub stature: Option<Expr>,
    /// Body mass.
    pub mass: Option<Expr>,
}

/// How far a wall stands inward, `[[z, inward], ...]`.
pub type WallLine = Spanned<Vec<[Expr; 2]>>;

/// `box:`.
#[derive(Debug, Clone, PartialEq)]
pub struct BoxDoc {
    /// Inside length.
    pub length: Expr,
    /// Inside width.
    pub width: Expr,
    /// Height at the side walls.
    pub height: Expr,
    /// Roof.
    pub roof: RoofDoc,
    /// Layups of the shell.
    pub shell: ShellDoc,
    /// Cutaways.
    pub cutaways: Named<CutawayDoc>,
    /// How far walls stand inward, `[z, inward]`: left, right, front, rear.
    pub walls: [Option<WallLine>; 4],
}

/// `roof:`.
#[derive(Debug, Clone, PartialEq)]
pub enum RoofDoc {
    /// `{ shape: flat }`, also the default.
    Flat,
    /// `{ shape: arch, rise }`.
    Arch(Expr),
    /// `{ shape: ridge, rise }`: two straight slopes.
    Ridge(Expr),
    /// A list of `[y, z]` from the left wall to the right.
    Line(Spanned<Vec<[Expr; 2]>>),
}

/// `shell: { walls, roof, floor }`: names of layups.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ShellDoc {
    /// Walls.
    pub walls: Option<Spanned<String>>,
    /// Roof.
    pub roof: Option<Spanned<String>>,
    /// Floor.
    pub floor: Option<Spanned<String>>,
}

/// One layer of a layup: `{ material, thickness }`.
#[derive(Debug, Clone, PartialEq)]
pub struct LayerDoc {
    /// Material.
    pub material: Spanned<String>,
    /// Thickness.
    pub thickness: Expr,
    /// What is set into it.
    pub frame: Option<BridgeDoc>,
}

/// `frame: { material, width, spacing }` of a layer.
#[derive(Debug, Clone, PartialEq)]
pub struct BridgeDoc {
    /// Material.
    pub material: Spanned<String>,
    /// Width of one member.
    pub width: Expr,
    /// From middle to middle.
    pub spacing: Expr,
}

/// One cutaway.
#[derive(Debug, Clone, PartialEq)]
pub struct CutawayDoc {
    /// Its shape.
    pub shape: CutawayShape,
}

/// Shapes of cutaways.
#[derive(Debug, Clone, PartialEq)]
pub enum CutawayShape {
    /// `{ edge, along, height }`: a wedge off an edge of floor or roof, or off an upright corner.
    Wedge {
        /// Which edge.
        edge: Spanned<String>,
        /// On floor or roof; off a corner along the side wall.
        along: Expr,
        /// On the wall; off a corner along the end wall.
        other: Expr,
        /// The other is an angle, degrees.
        angle: bool,
    },
    /// `{ box: { front, rear, left, right, floor, top } }`; floor defaults to 0.
    Block {
        /// The six faces in that order.
        faces: Box<[Option<Expr>; 6]>,
        /// Where it is written.
        span: Span,
    },
}

/// One opening.
#[derive(Debug, Clone, PartialEq)]
pub struct OpeningDoc {
    /// `door`, `window`, `hatch`, `roof-hatch`, `pass-through`, `vent`.
    pub kind: Spanned<OpeningKind>,
    /// `front`, `rear`, `left`, `right`, for a vent also `roof` or `floor`; absent for a roof hatch.
    pub wall: Option<Spanned<Wall>>,
    /// Edges along the wall (front, rear, left, right).
    pub place: PlaceDoc,
    /// Middle along the wall, or both middles of a roof hatch.
    pub centre: Option<Spanned<Vec<Expr>>>,
    /// Size along the wall (x for a roof hatch).
    pub run: Option<Expr>,
    /// Size across (y) of a roof hatch.
    pub depth: Option<Expr>,
    /// Lower edge above the floor.
    pub sill: Option<Expr>,
    /// Height of the opening.
    pub height: Option<Expr>,
    /// Corner radius.
    pub radius: Option<Expr>,
    /// `front`, `rear`, `left`, `right`, `top`, `bottom`.
    pub hinge: Option<Spanned<HingeSide>>,
    /// `in`, `out`, `no`.
    pub swings: Option<Spanned<String>>,
    /// Angle.
    pub opens: Option<Expr>,
    /// Toward which end of its wall a sliding leaf goes.
    pub slides: Option<Spanned<Wall>>,
    /// How far it goes.
    pub travel: Option<Expr>,
    /// `vehicle`: a door or window of the vehicle itself.
    pub of: Option<Spanned<String>>,
    /// Way out in an emergency.
    pub escape: Option<Spanned<bool>>,
    /// Thickness of the lining frame in the hole, on each edge.
    pub lining: Option<Expr>,
    /// Area that always stays open to the air, mm2.
    pub free_area: Option<Expr>,
    /// Heat transmittance, W/(m2 K).
    pub u_value: Option<Expr>,
}

impl OpeningDoc {
    /// Whether it lies in roof or floor, so that it is placed along x and y.
    #[must_use]
    pub fn lies_flat(&self) -> bool {
        self.wall.as_ref().is_none_or(|wall| matches!(wall.value, Wall::Roof | Wall::Floor))
    }
}

/// One zone.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneDoc {
    /// Purpose.
    pub purpose: Spanned<Said<Purpose>>,
    /// Edges.
    pub place: PlaceDoc,
    /// Level, 0 by default.
    pub level: Option<Expr>,
}

/// One module.
#[derive(Debug, Clone, PartialEq)]
pub struct ModuleDoc {
    /// `group/name`.
    pub symbol: Spanned<String>,
    /// `front`, `rear`, `left`, `right`.
    pub faces: Option<Spanned<Wall>>,
    /// Swap left and right of the symbol.
    pub mirror: Option<Spanned<bool>>,
    /// Edges.
    pub place: PlaceDoc,
    /// `size: { run, depth, height }`.
    pub size: [Option<Expr>; 3],
    /// Zone.
    pub zone: Option<Spanned<String>>,
    /// Settings.
    pub set: Named<Expr>,
    /// `inside` or `outside`: where people stand who use it.
    pub used_from: Option<Spanned<String>>,
    /// The opening that it is used or slides out through.
    pub through: Option<Spanned<String>>,
    /// Who sleeps here.
    pub sleepers: Vec<TakerDoc>,
    /// Who sits here on the road.
    pub riders: Vec<TakerDoc>,
}

/// Somebody who takes a place of a module.
#[derive(Debug, Clone, PartialEq)]
pub struct TakerDoc {
    /// The person.
    pub who: Spanned<String>,
    /// The space of the symbol; any if left out.
    pub space: Option<Spanned<String>>,
}

/// One arrangement: module to pose; the value's span is the pose's, `keys` has the module names' spans.
#[derive(Debug, Clone, PartialEq)]
pub struct ArrangementDoc {
    /// Module name (with its place) to pose name.
    pub poses: Vec<(Spanned<String>, Spanned<String>)>,
}

/// One route.
#[derive(Debug, Clone, PartialEq)]
pub struct RouteDoc {
    /// Start.
    pub from: Spanned<String>,
    /// End.
    pub to: Spanned<String>,
    /// `in: [day]`; empty for all.
    pub arrangements: Vec<Spanned<String>>,
    /// Least width.
    pub least: Option<Expr>,
}

/// One kind of thing to be carried: `{ size, mass, count, in, through, stands }`.
#[derive(Debug, Clone, PartialEq)]
pub struct CargoDoc {
    /// Its three sides.
    pub size: Spanned<[Expr; 3]>,
    /// Mass of one.
    pub mass: Expr,
    /// How many; 1 by default.
    pub count: Option<Expr>,
    /// The module whose storage space it is kept in.
    pub module: Spanned<String>,
    /// The opening that it goes through.
    pub through: Option<Spanned<String>>,
    /// `any` (default), `upright`, `fixed`.
    pub stands: Option<Spanned<String>>,
}

/// One changed limit, flattened from `limits: { check: { name: value, because } }`.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitDoc {
    /// The check.
    pub check: Spanned<String>,
    /// The limit.
    pub name: Spanned<String>,
    /// Its value.
    pub value: Expr,
    /// Why.
    pub because: Spanned<String>,
}

/// One accepted finding.
#[derive(Debug, Clone, PartialEq)]
pub struct AcceptedDoc {
    /// The check.
    pub check: Spanned<String>,
    /// The subject.
    pub of: Spanned<String>,
    /// Moves, places and other things that tell the finding from others; none for all.
    pub about: Vec<Spanned<String>>,
    /// Arrangements; all if left out.
    pub arrangements: Vec<Spanned<String>>,
    /// The figure that it was accepted at.
    pub up_to: Option<Expr>,
    /// Why.
    pub because: Spanned<String>,
}

/// One stock.
#[derive(Debug, Clone, PartialEq)]
pub struct StockDoc {
    /// Material of the library.
    pub material: Option<Spanned<String>>,
    /// Sheet sizes, some with a price.
    pub sheets: Vec<SheetSizeDoc>,
    /// Sheets on hand, some with a count.
    pub offcuts: Vec<SheetSizeDoc>,
    /// The smallest offcut worth keeping.
    pub useful: Option<[Expr; 2]>,
    /// `2`, `3` or `free`.
    pub stages: Option<Spanned<String>>,
    /// `long`, `short`, `none`.
    pub grain: Option<Spanned<String>>,
    /// Saw cut.
    pub kerf: Option<Expr>,
    /// Edge trim.
    pub trim: Option<Expr>,
    /// Price of a sheet.
    pub price: Option<Expr>,
    /// Measured thickness, if it differs from the material's.
    pub thickness: Option<Expr>,
}

/// `[length, width]` or `{ size: [length, width], price }`, with `count` in place of the price for offcuts.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetSizeDoc {
    /// Length and width.
    pub size: [Expr; 2],
    /// Price or count.
    pub more: Option<Expr>,
}

/// `prices: { band-metre, hardware: { name: price } }`.
#[derive(Debug, Clone, PartialEq)]
pub struct PricesDoc {
    /// Of a metre of edge band.
    pub band_metre: Option<Expr>,
    /// Of one piece, by name.
    pub hardware: Named<Expr>,
}

/// `sheets: { paper, orientation, only, scale, projection, figures, sections, theme }`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SheetsDoc {
    /// `A4` to `A1`.
    pub paper: Option<Spanned<PaperSize>>,
    /// `landscape` or `portrait`.
    pub orientation: Option<Spanned<String>>,
    /// Kinds of sheets to make.
    pub only: Option<Vec<SheetKind>>,
    /// 20 for 1:20.
    pub scale: Option<Expr>,
    /// `first` or `third`.
    pub projection: Option<Spanned<String>>,
    /// `mm` or `mm+inch`.
    pub figures: Option<Spanned<String>>,
    /// Name or path of the brochure's theme.
    pub theme: Option<Spanned<String>>,
    /// The theme that it stands for.
    pub look: Theme,
    /// Planes of the sections.
    pub sections: Option<SectionsDoc>,
}

/// `sections: { along, across }`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SectionsDoc {
    /// From the left wall.
    pub along: Option<Expr>,
    /// From the front wall.
    pub across: Option<Expr>,
}

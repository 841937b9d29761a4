//! The two languages: YAML text to typed documents in which every value keeps its place.

pub mod expression;
mod layout;
pub mod node;
mod symbol;
pub mod yaml;

pub use layout::{
    AcceptedDoc, ArrangementDoc, BoxDoc, CutawayDoc, CutawayShape, DrawnDoc, LayerDoc, LayoutDoc, LimitDoc, ModuleDoc,
    OpeningDoc, PersonDoc, PlaceDoc, RevisionDoc, RoofDoc, RouteDoc, SheetsDoc, ShellDoc, StockDoc, ZoneDoc,
};
pub use symbol::{
    BandsDoc, CutoutShape, EachDoc, ExtentDoc, HardwareDoc, LineShape, MachiningDoc, MoveDoc, MoveShape, OutlinePoint,
    PartDoc, PartSize, PlanLineDoc, PoseDoc, RangeDoc, SettingDoc, SettingKind, SizeDoc, SolidDoc, SolidShape,
    SpaceDoc, SymbolDoc,
};

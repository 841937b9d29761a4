//! The two languages: YAML text to typed documents in which every value keeps its place.

mod add_accepted;
pub mod expression;
mod figures;
mod fittings;
mod layout;
mod layout_file;
mod library;
mod lower_layout;
mod lower_symbol;
mod named;
pub mod node;
mod path;
mod place;
mod reader;
mod router;
mod rule;
mod rule_files;
mod schema;
mod services;
mod symbol;
mod symbol_name;
mod theme;
mod turn;
mod turned;
mod vehicle;
pub mod yaml;

pub use add_accepted::add_accepted;
pub use figures::{FigureKey, FiguresDoc};
pub use fittings::{HardwareDoc, JointDoc};
pub use layout::{
    AcceptedDoc, ArrangementDoc, BoxDoc, BridgeDoc, CargoDoc, CutawayDoc, CutawayShape, DrawnDoc, LayerDoc, LayoutDoc,
    LimitDoc, ModuleDoc, OpeningDoc, PersonDoc, PlugInDoc, PricesDoc, RevisionDoc, RoofDoc, RouteDoc, SectionsDoc,
    SheetSizeDoc, SheetsDoc, ShellDoc, StockDoc, TakerDoc, ZoneDoc,
};
pub use layout_file::read_layout;
pub use library::{
    Symbols, library_hardware, library_names, library_text, read_recipe, read_symbol, recipe_names, recipe_text,
};
pub use lower_layout::LABELS;
pub use named::Named;
pub use path::named_path;
pub use place::PlaceDoc;
pub use router::{ROUTER, RouterDoc, TOOL, TOOL_NUMBER, ToolDoc};
pub use rule::{MOST_RULES, RuleDoc, SaysDoc};
pub use schema::{layout_schema, recipe_schema, rules_schema, symbol_schema, theme_schema};
pub use services::{
    BATTERY, CABLE, CLIMATE, CONSUMER, CableDoc, EndDoc, PIPE, PipeDoc, RouteEndsDoc, ServicesDoc, WATER,
};
pub use symbol::TALLEST;
pub use symbol::{
    BandsDoc, CutoutShape, EachDoc, ExtentDoc, LineShape, MachiningDoc, MachiningKind, MoveDoc, MoveShape,
    OutlinePoint, PartDoc, PartPlaceDoc, PartShape, PartSize, PieceDoc, PlanLineDoc, PoseDoc, RangeDoc, RecipeDoc,
    SettingDoc, SettingKind, SizeDoc, SolidDoc, SolidShape, SpaceDoc, SymbolDoc,
};
pub use symbol_name::is_symbol_name;
pub use theme::read_theme;
pub use vehicle::{
    CAB, FOUR_POINT, FRAME, FRONT, LoadCaseDoc, LoadDoc, MountsDoc, OVERHANG, RAILS, REAR, SPRINGS, SUBFRAME, SeatDoc,
    SubframeDoc, THREE_POINT, VEHICLE, VehicleDoc,
};

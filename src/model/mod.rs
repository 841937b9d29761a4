//! The resolved model: absolute, one state for each arrangement, no expressions left.

mod accepted;
mod furniture;
mod hand;
mod joints;
mod layout;
pub mod layups;
mod make;
pub mod materials;
mod moves;
mod place;
mod prices;
mod query;
mod router;
mod services;
mod space_box;
#[cfg(test)]
pub(crate) mod testing;
mod theme;
mod vehicle;
mod words;

pub use accepted::Accepted;
pub use furniture::{Misfit, MisfitKind, Module, Need, PlanLine, PoseState, Solid, Space, Taker};
pub use hand::{EdgeBore, by_hand, is_own_mirror_with};
pub use joints::{Chosen, Fixing, Hinge, Hung, Joint, Leaf, Lock, Meeting, Partner, PieceAt, Together};
pub use layout::{
    Arrangement, Cargo, Figures, LimitChange, MEDIAN_MAN, MEDIAN_WOMAN, Model, Opening, OpeningKind, Person, Planes,
    Projection, Revision, Route, RouteEnd, SheetSettings, Swings, Title, Zone,
};
pub use make::{Bands, CONTENTS, Connection, Grain, Hardware, Machining, MassItem, Part, SheetSize, Stock};
pub use moves::{Move, MoveKind, Slide, Swing};
pub use place::{Hand, Lies, Place, Toward};
pub use prices::{LabelGrid, Prices};
pub use router::{Router, Tool};
pub use services::{Battery, Cable, Climate, Consumer, Run, Services, Waste};
pub use space_box::{BoxSpace, Bridge, CutKind, Cutaway, Layer, Panel, Wall};
pub use theme::{Colour, Colours, Letters, Pattern, Theme, Widths};
pub use vehicle::{
    Axle, Cab, FrameLine, Load, Mounts, OwnCase, Rails, Region, Seat, Spring, Subframe, Tank, Tilt, Vehicle,
    VehicleKind,
};
pub use words::{
    DrawnBy, HingeSide, Holds, JointWord, LoadKind, LockWord, PaperSize, Purpose, RouterFiles, Said, Service,
    SheetKind, Steel, SubframeKind, Tag, ToolUse, VehicleClass, Word,
};

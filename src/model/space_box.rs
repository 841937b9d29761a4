//! The box, its shell and what is cut from it.

use super::words::{HingeSide, Word};
use crate::geometry::{Axis, Prism, Roof};
use crate::source::Span;

/// A wall, the roof or the floor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Wall {
    /// x = 0.
    Front,
    /// x = length.
    Rear,
    /// y = 0.
    Left,
    /// y = width.
    Right,
    /// Above.
    Roof,
    /// z = 0.
    Floor,
}

impl Wall {
    /// The four that stand.
    pub const UPRIGHT: [Self; 4] = [Self::Front, Self::Rear, Self::Left, Self::Right];

    /// Its name in layouts.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Rear => "rear",
            Self::Left => "left",
            Self::Right => "right",
            Self::Roof => "roof",
            Self::Floor => "floor",
        }
    }

    /// The direction square on to it.
    #[must_use]
    pub fn across(self) -> Axis {
        match self {
            Self::Front | Self::Rear => Axis::X,
            Self::Left | Self::Right => Axis::Y,
            Self::Roof | Self::Floor => Axis::Z,
        }
    }
}

impl Word for Wall {
    const ALL: &'static [Self] = &[Self::Front, Self::Rear, Self::Left, Self::Right, Self::Roof, Self::Floor];

    fn name(self) -> &'static str {
        Self::name(self)
    }
}

impl HingeSide {
    /// The panel that the side looks to.
    #[must_use]
    pub fn wall(self) -> Wall {
        match self {
            Self::Front => Wall::Front,
            Self::Rear => Wall::Rear,
            Self::Left => Wall::Left,
            Self::Right => Wall::Right,
            Self::Top => Wall::Roof,
            Self::Bottom => Wall::Floor,
        }
    }
}

/// One kind of shell panel: its layup.
#[derive(Debug, Clone, PartialEq)]
pub struct Panel {
    /// Name of the layup.
    pub layup: String,
    /// Whole thickness, mm.
    pub thickness: f64,
    /// Mass for each square metre, kg.
    pub areal_mass: f64,
    /// Its layers, from inside to outside.
    pub layers: Vec<Layer>,
}

impl Panel {
    /// Whether it is a glued panel: the steel outside of a vehicle's own body, or of a wall on ribs, is none.
    #[must_use]
    pub fn is_panel(&self) -> bool {
        self.layers.last().is_none_or(|layer| layer.material != "steel")
    }
}

impl BoxSpace {
    /// Length around the floor, and of the upright edges together, m.
    #[must_use]
    pub fn edges(&self) -> (f64, f64) {
        (2.0 * (self.length + self.width) / 1000.0, 4.0 * self.height / 1000.0)
    }
}

/// One layer of a panel.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// Material of the library.
    pub material: String,
    /// Thickness, mm.
    pub thickness: f64,
    /// Heat conductivity, W/(m K).
    pub conductivity: f64,
    /// What is set into it.
    pub bridge: Option<Bridge>,
}

/// Members set into a layer, as thick as it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Bridge {
    /// Material of the library.
    pub material: String,
    /// Heat conductivity, W/(m K).
    pub conductivity: f64,
    /// Of metal, so that the simplified method of ISO 6946 does not apply.
    pub metal: bool,
    /// Width of one, mm.
    pub width: f64,
    /// From middle to middle, mm.
    pub spacing: f64,
}

impl Bridge {
    /// Added to width over spacing for members at edges and openings; BR 443, 4.4.
    const AT_EDGES: f64 = 0.01;

    /// Part of its layer that the members take, 0 to 1.
    #[must_use]
    pub fn share(&self) -> f64 {
        (self.width / self.spacing + Self::AT_EDGES).min(1.0)
    }
}

/// What a cutaway is, and so what closes it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CutKind {
    /// A wedge off a lower edge, or a block: closed like the floor.
    Floor,
    /// A corner seen from above: closed like the walls.
    Corner,
    /// A wedge off an upper edge: closed like the roof.
    Roof,
    /// What a wall that leans or bulges takes; it is the wall itself.
    Wall(Wall),
}

impl Cutaway {
    /// In words.
    #[must_use]
    pub fn words(&self) -> String {
        match self.kind {
            CutKind::Wall(wall) => format!("the {} wall", wall.name()),
            _ => format!("the cutaway `{}`", self.name),
        }
    }
}

/// A part of the box's space that the shell takes: a wedge off an edge, or a wheel box.
#[derive(Debug, Clone, PartialEq)]
pub struct Cutaway {
    /// Name in the layout.
    pub name: String,
    /// The space taken.
    pub prism: Prism,
    /// What it is.
    pub kind: CutKind,
    /// Where it is written.
    pub span: Span,
}

/// The inside space.
#[derive(Debug, Clone, PartialEq)]
pub struct BoxSpace {
    /// Inside length, front to rear, mm.
    pub length: f64,
    /// Inside width, mm.
    pub width: f64,
    /// Height from the floor to the lining at the side walls, mm (the lower of both).
    pub height: f64,
    /// The lining above.
    pub roof: Roof,
    /// The four walls' panel.
    pub walls: Panel,
    /// The roof's panel.
    pub roof_panel: Panel,
    /// The floor's panel.
    pub floor: Panel,
    /// What is cut away, in file order.
    pub cutaways: Vec<Cutaway>,
    /// Where the box is written.
    pub span: Span,
}

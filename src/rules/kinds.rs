//! What rules may be about, and what they may ask of each.

use super::words::Words;
use crate::diagnostic::Quantity;

/// A kind of things.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    Box,
    Module,
    Opening,
    Zone,
    Person,
    Load,
    Tank,
    Part,
    Solid,
    Berth,
    Seat,
}

/// What a term comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Type {
    /// A figure; a plain number fits every unit.
    Figure(Option<Quantity>),
    Truth,
    Word(Words),
    Thing(Kind),
}

/// What is asked of a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Field {
    Name,
    Front,
    Rear,
    Left,
    Right,
    Floor,
    Top,
    CentreX,
    CentreY,
    Length,
    Width,
    Height,
    Run,
    Depth,
    Mass,
    Contents,
    Symbol,
    Group,
    Faces,
    Zone,
    Sleepers,
    Parts,
    Pose,
    Radius,
    What,
    Wall,
    Hinge,
    Swings,
    Opens,
    Escape,
    Area,
    FreeArea,
    Purpose,
    Level,
    Stature,
    Litres,
    Holds,
    Module,
    Thickness,
    Count,
    Material,
    Stock,
    Bought,
    People,
}

const MM: Type = Type::Figure(Some(Quantity::Length));
const KG: Type = Type::Figure(Some(Quantity::Mass));
const COUNT: Type = Type::Figure(Some(Quantity::Count));
const AREA: Type = Type::Figure(Some(Quantity::Area));

const EDGES: [(&str, Field, Type); 8] = [
    ("front", Field::Front, MM),
    ("rear", Field::Rear, MM),
    ("left", Field::Left, MM),
    ("right", Field::Right, MM),
    ("floor", Field::Floor, MM),
    ("top", Field::Top, MM),
    ("centre-x", Field::CentreX, MM),
    ("centre-y", Field::CentreY, MM),
];

const SIZES: [(&str, Field, Type); 3] =
    [("length", Field::Length, MM), ("width", Field::Width, MM), ("height", Field::Height, MM)];

const MODULE: [(&str, Field, Type); 12] = [
    ("run", Field::Run, MM),
    ("depth", Field::Depth, MM),
    ("height", Field::Height, MM),
    ("mass", Field::Mass, KG),
    ("contents", Field::Contents, KG),
    ("symbol", Field::Symbol, Type::Word(Words::Symbol)),
    ("group", Field::Group, Type::Word(Words::Any)),
    ("faces", Field::Faces, Type::Word(Words::Wall)),
    ("zone", Field::Zone, Type::Thing(Kind::Zone)),
    ("sleepers", Field::Sleepers, COUNT),
    ("parts", Field::Parts, COUNT),
    ("pose", Field::Pose, Type::Word(Words::Any)),
];

const OPENING: [(&str, Field, Type); 12] = [
    ("kind", Field::What, Type::Word(Words::Opening)),
    ("wall", Field::Wall, Type::Word(Words::Wall)),
    ("run", Field::Run, MM),
    ("depth", Field::Depth, MM),
    ("height", Field::Height, MM),
    ("sill", Field::Floor, MM),
    ("radius", Field::Radius, MM),
    ("hinge", Field::Hinge, Type::Word(Words::Hinge)),
    ("swings", Field::Swings, Type::Word(Words::Swings)),
    ("opens", Field::Opens, Type::Figure(Some(Quantity::Angle))),
    ("escape", Field::Escape, Type::Truth),
    ("free-area", Field::FreeArea, AREA),
];

const TANK: [(&str, Field, Type); 2] = [
    ("litres", Field::Litres, Type::Figure(Some(Quantity::Volume))),
    ("holds", Field::Holds, Type::Word(Words::Holds)),
];

const PART: [(&str, Field, Type); 8] = [
    ("module", Field::Module, Type::Thing(Kind::Module)),
    ("length", Field::Length, MM),
    ("width", Field::Width, MM),
    ("thickness", Field::Thickness, MM),
    ("count", Field::Count, COUNT),
    ("mass", Field::Mass, KG),
    ("material", Field::Material, Type::Word(Words::Any)),
    ("stock", Field::Stock, Type::Word(Words::Any)),
];

const PLACE: [(&str, Field, Type); 4] = [
    ("module", Field::Module, Type::Thing(Kind::Module)),
    ("length", Field::Length, MM),
    ("width", Field::Width, MM),
    ("people", Field::People, COUNT),
];

impl Kind {
    /// All of them, in the order of the documents.
    pub const ALL: [Self; 11] = [
        Self::Box,
        Self::Module,
        Self::Opening,
        Self::Zone,
        Self::Person,
        Self::Load,
        Self::Tank,
        Self::Part,
        Self::Solid,
        Self::Berth,
        Self::Seat,
    ];

    /// As it is written.
    pub fn name(self) -> &'static str {
        match self {
            Self::Box => "box",
            Self::Module => "module",
            Self::Opening => "opening",
            Self::Zone => "zone",
            Self::Person => "person",
            Self::Load => "load",
            Self::Tank => "tank",
            Self::Part => "part",
            Self::Solid => "solid",
            Self::Berth => "berth",
            Self::Seat => "seat",
        }
    }

    /// With `a` or `an`.
    pub fn one(self) -> String {
        let an = matches!(self, Self::Opening);
        format!("{} {}", if an { "an" } else { "a" }, self.name())
    }

    /// A tank is a load, too.
    pub fn base(self) -> Self {
        if self == Self::Tank { Self::Load } else { self }
    }

    /// Whether things of it are others in other arrangements.
    pub fn moves(self) -> bool {
        matches!(self, Self::Solid | Self::Berth | Self::Seat)
    }

    /// Whether it has a place in the box.
    pub fn has_place(self) -> bool {
        !matches!(self, Self::Person | Self::Box)
    }

    /// What may be asked of it.
    pub fn fields(self) -> Vec<(&'static str, Field, Type)> {
        let name = [("name", Field::Name, Type::Word(Words::Any))];
        let own: Vec<(&'static str, Field, Type)> = match self {
            Self::Box => SIZES.to_vec(),
            Self::Module => MODULE.to_vec(),
            Self::Opening => OPENING.to_vec(),
            Self::Zone => vec![
                ("purpose", Field::Purpose, Type::Word(Words::Any)),
                ("length", Field::Length, MM),
                ("width", Field::Width, MM),
                ("area", Field::Area, AREA),
                ("level", Field::Level, COUNT),
            ],
            Self::Person => vec![("stature", Field::Stature, MM), ("mass", Field::Mass, KG)],
            Self::Load => [SIZES.as_slice(), &[("mass", Field::Mass, KG)]].concat(),
            Self::Tank => [SIZES.as_slice(), &[("mass", Field::Mass, KG)], &TANK].concat(),
            Self::Part => PART.to_vec(),
            Self::Solid => [
                SIZES.as_slice(),
                &[("module", Field::Module, Type::Thing(Kind::Module)), ("bought", Field::Bought, Type::Truth)],
            ]
            .concat(),
            Self::Berth | Self::Seat => PLACE.to_vec(),
        };
        let edges: &[(&str, Field, Type)] = if matches!(self, Self::Person) { &[] } else { &EDGES };
        let name: &[(&str, Field, Type)] = if self == Self::Box { &[] } else { &name };
        [name, &own, edges].concat()
    }
}

impl Type {
    /// The unit of a figure that has one of its own.
    pub fn unit(self) -> Option<Quantity> {
        if let Self::Figure(unit) = self { unit } else { None }
    }

    /// In words for people, with `a`.
    pub fn words(self) -> String {
        let figure = |quantity| match quantity {
            Quantity::Length => "a length",
            Quantity::Angle => "an angle",
            Quantity::Volume => "a volume",
            Quantity::Area => "an area",
            Quantity::Count => "a count",
            Quantity::Mass => "a mass",
            Quantity::Percent | Quantity::Days | Quantity::Power | Quantity::Number => "a number",
        };
        match self {
            Self::Figure(quantity) => quantity.map_or("a number", figure).to_owned(),
            Self::Truth => "a yes or no".to_owned(),
            Self::Word(_) => "a word".to_owned(),
            Self::Thing(kind) => kind.one(),
        }
    }
}

//! Words of the languages as types: what checks and drawings tell apart is never compared as text.

use std::fmt;
use std::sync::Arc;

/// A list of words, each with one meaning.
pub trait Word: Copy + PartialEq + 'static {
    /// All of them, in the order in which messages list them.
    const ALL: &'static [Self];

    /// As it is written.
    fn name(self) -> &'static str;

    /// The word that is written so.
    #[must_use]
    fn of(name: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|word| word.name() == name)
    }

    /// How all of them are written.
    #[must_use]
    fn names() -> Vec<&'static str> {
        Self::ALL.iter().map(|word| word.name()).collect()
    }
}

/// A word that is known, or one that the author has declared.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Said<W> {
    /// One that checks and drawings know.
    Known(W),
    /// The author's own, which means nothing to them.
    Own(Arc<str>),
}

impl<W: Word> Said<W> {
    /// As it is written.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Known(word) => word.name(),
            Self::Own(name) => name,
        }
    }

    /// In words for people: `wet-room` is "wet room".
    #[must_use]
    pub fn words(&self) -> String {
        self.name().replace('-', " ")
    }
}

impl<W: Word> fmt::Display for Said<W> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl<W: Word> From<W> for Said<W> {
    fn from(word: W) -> Self {
        Self::Known(word)
    }
}

impl<W: Word> PartialEq<W> for Said<W> {
    fn eq(&self, other: &W) -> bool {
        matches!(self, Self::Known(word) if word == other)
    }
}

/// Makes an enum of words with how each is written.
macro_rules! words {
    ($(#[$about:meta])* $name:ident { $($(#[$says:meta])* $word:ident = $written:literal,)* }) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $($(#[$says])* $word,)*
        }

        impl Word for $name {
            const ALL: &'static [Self] = &[$(Self::$word),*];

            fn name(self) -> &'static str {
                match self {
                    $(Self::$word => $written,)*
                }
            }
        }
    };
}

words! {
    /// What a solid is, for checks and drawings.
    Tag {
        /// Worked at.
        Worktop = "worktop",
        /// A bowl for washing up.
        Sink = "sink",
        /// Burners or plates.
        Hob = "hob",
        /// Sat on.
        Seat = "seat",
        /// Of a seat or a bed made from seats.
        Cushion = "cushion",
        /// Leant at.
        Backrest = "backrest",
        /// Slept on.
        Mattress = "mattress",
        /// Eaten or worked at, sitting.
        Table = "table",
        /// A toilet.
        Toilet = "toilet",
        /// A shower tray.
        Shower = "shower",
        /// A bowl for washing hands.
        Basin = "basin",
        /// A fridge.
        Fridge = "fridge",
        /// A leaf.
        Door = "door",
        /// A drawer.
        Drawer = "drawer",
        /// Parts rooms.
        Wall = "wall",
        /// A cupboard overhead or strong.
        Locker = "locker",
        /// Something is put on it.
        Shelf = "shelf",
        /// Holds a liquid.
        Tank = "tank",
        /// A battery.
        Battery = "battery",
        /// Stepped on to get into bed.
        Step = "step",
        /// Keeps sleepers from falling.
        Guard = "guard",
        /// Held on to.
        Handle = "handle",
        /// Switched.
        Switch = "switch",
        /// Plugged into.
        Socket = "socket",
    }
}

words! {
    /// Joints that a symbol may choose.
    JointWord {
        /// Dowels with glue.
        Dowel = "dowel",
        /// Screws.
        Screw = "screw",
        /// Glue alone.
        Glue = "glue",
        /// Let into a housing.
        Housing = "housing",
        /// Cam fittings.
        Cam = "cam",
        /// Pocket screws.
        Pocket = "pocket",
        /// Nothing: it only lies there.
        None = "none",
    }
}

words! {
    /// What shuts a front, or what it is opened by.
    LockWord {
        /// A lock with a button to press, flush with the front.
        PushLock = "push-lock",
        /// A lock with a key or a wing.
        TurnLock = "turn-lock",
        /// A handle on two screws.
        Handle = "handle",
        /// A knob on one screw.
        Knob = "knob",
    }
}

impl LockWord {
    /// Whether it shuts against a board.
    #[must_use]
    pub fn shuts(self) -> bool {
        matches!(self, Self::PushLock | Self::TurnLock)
    }

    /// Its bores right through the front: how far from its middle along the edge that opens, and the diameter, mm. Common practice, no
    /// source.
    #[must_use]
    pub fn bores(self) -> &'static [(f64, f64)] {
        match self {
            Self::PushLock => &[(0.0, 26.0)],
            Self::TurnLock => &[(0.0, 19.0)],
            Self::Handle => &[(-48.0, 5.0), (48.0, 5.0)],
            Self::Knob => &[(0.0, 5.0)],
        }
    }
}

words! {
    /// What a zone is for.
    Purpose {
        /// Beds.
        Sleeping = "sleeping",
        /// Cooking.
        Galley = "galley",
        /// Washing, toilet.
        WetRoom = "wet-room",
        /// Sitting.
        Lounge = "lounge",
        /// Eating.
        Dining = "dining",
        /// All that is done by day.
        Living = "living",
        /// Working.
        Work = "work",
        /// Coming in.
        Entry = "entry",
        /// Keeping things.
        Storage = "storage",
        /// Keeping large things.
        Boot = "boot",
    }
}

words! {
    /// What a module is joined to.
    Service {
        /// Cold water.
        ColdWater = "cold-water",
        /// Hot water.
        HotWater = "hot-water",
        /// A waste pipe.
        Waste = "waste",
        /// Gas.
        Gas = "gas",
        /// Low voltage.
        Volts12 = "12v",
        /// Mains voltage.
        Volts230 = "230v",
        /// The tank for used water.
        GreyWater = "grey-water",
        /// The tank for fresh water.
        FreshWater = "fresh-water",
        /// Air.
        Vent = "vent",
    }
}

words! {
    /// What a tank holds.
    Holds {
        /// Water to drink and wash.
        Fresh = "fresh-water",
        /// Water from sinks and shower.
        Grey = "grey-water",
        /// From the toilet.
        Black = "black-water",
        /// Diesel and the like.
        Fuel = "fuel",
        /// Anything else.
        Other = "other",
    }
}

impl Holds {
    /// In words for people.
    #[must_use]
    pub fn words(self) -> String {
        self.name().replace('-', " ")
    }
}

words! {
    /// Whose rules on masses hold.
    VehicleClass {
        /// People live in it and it drives itself: category M1, special purpose.
        MotorCaravan = "motor-caravan",
        /// People live in it and it is drawn: category O.
        Caravan = "caravan",
        /// It carries goods: category N, or O for goods.
        Goods = "goods",
    }
}

words! {
    /// How a box is held on its vehicle.
    SubframeKind {
        /// On a pair of mounts and a pivot.
        ThreePoint = "three-point",
        /// On a pair of mounts between two pivots.
        FourPoint = "four-point",
        /// On a pair of mounts, and a pair that springs hold down.
        Springs = "springs",
        /// Bolted down all along.
        Rigid = "rigid",
    }
}

words! {
    /// Structural steel by EN 10025-2.
    Steel {
        /// Yield 235 N/mm2 up to 16 mm.
        S235 = "s235",
        /// Yield 275 N/mm2 up to 16 mm.
        S275 = "s275",
        /// Yield 355 N/mm2 up to 16 mm.
        S355 = "s355",
    }
}

impl Steel {
    /// Least yield strength of walls up to 16 mm, N/mm2; EN 10025-2, table 7, as others quote it.
    #[must_use]
    pub fn yields(self) -> f64 {
        match self {
            Self::S235 => 235.0,
            Self::S275 => 275.0,
            Self::S355 => 355.0,
        }
    }
}

words! {
    /// What draws a trailer.
    DrawnBy {
        /// A car or a light van.
        Car = "car",
        /// A goods vehicle of more than 3.5 t.
        GoodsVehicle = "goods-vehicle",
    }
}

words! {
    /// What a load is, for checks.
    LoadKind {
        /// A battery.
        Battery = "battery",
        /// A bottle of gas.
        GasBottle = "gas-bottle",
        /// An awning, rolled up.
        Awning = "awning",
        /// Stepped on to get in.
        Step = "step",
        /// Puts a fire out.
        Extinguisher = "extinguisher",
        /// Anything else.
        Other = "other",
    }
}

words! {
    /// The side of an opening that its leaf is hinged at.
    HingeSide {
        /// Toward the front wall.
        Front = "front",
        /// Toward the rear wall.
        Rear = "rear",
        /// Toward the left wall.
        Left = "left",
        /// Toward the right wall.
        Right = "right",
        /// The upper edge.
        Top = "top",
        /// The lower edge.
        Bottom = "bottom",
    }
}

words! {
    /// What a tool of a router may do.
    ToolUse {
        /// Bore as wide as it is, straight down.
        Drill = "drill",
        /// Mill wider bores.
        Bores = "bores",
        /// Cut grooves.
        Grooves = "grooves",
        /// Cut holes of any shape right through.
        CutOuts = "cut-outs",
        /// Cut pieces free.
        Outlines = "outlines",
    }
}

words! {
    /// What a file of router code is for.
    RouterFiles {
        /// A nested sheet.
        Sheets = "sheets",
        /// A piece that is sawn already.
        Pieces = "pieces",
    }
}

words! {
    /// A size of paper (ISO 216).
    PaperSize {
        /// 297 x 210 mm.
        A4 = "A4",
        /// 420 x 297 mm.
        A3 = "A3",
        /// 594 x 420 mm.
        A2 = "A2",
        /// 841 x 594 mm.
        A1 = "A1",
    }
}

words! {
    /// A kind of sheets, in the order of the set. The index is always made.
    SheetKind {
        /// The general plan of each arrangement.
        Plans = "plans",
        /// The roof from above.
        RoofPlan = "roof-plan",
        /// The walls from inside.
        Elevations = "elevations",
        /// Along and across the box.
        Sections = "sections",
        /// What is kept where.
        Stowage = "stowage",
        /// The panels of the shell.
        Panels = "panels",
        /// A sheet for each module.
        Modules = "modules",
        /// Each worked piece with its dimensions; only when asked for.
        Parts = "parts",
        /// How each module is put together; only when asked for.
        Assembly = "assembly",
        /// What carries the box.
        Vehicle = "vehicle",
        /// The insulation.
        Shell = "shell",
        /// Water, electricity, waste.
        Services = "services",
        /// All checks and findings.
        Checks = "checks",
        /// Tables of modules, openings, hardware, masses.
        Schedules = "schedules",
        /// What is sawn.
        CutList = "cut-list",
        /// How sheets are sawn.
        Cutting = "cutting",
        /// All on one page, for customers.
        Brochure = "brochure",
    }
}

impl SheetKind {
    /// What the ids of its sheets begin with.
    #[must_use]
    pub fn begins(self) -> &'static [&'static str] {
        match self {
            Self::Plans => &["plan-"],
            Self::RoofPlan => &["roof-plan"],
            Self::Elevations => &["elevation"],
            Self::Sections => &["section"],
            Self::Stowage => &["stowage", "boot"],
            Self::Panels => &["panel-"],
            Self::Modules => &["module-"],
            Self::Parts => &["parts"],
            Self::Assembly => &["assembly-"],
            Self::Vehicle => &["vehicle", "masses", "load-cases"],
            Self::Shell => &["shell", "heat-loss"],
            Self::Services => &["services"],
            Self::Checks => &["checks", "findings"],
            Self::Schedules => &["schedules", "inserts"],
            Self::CutList => &["cut-list"],
            Self::Cutting => &["cutting"],
            Self::Brochure => &["brochure"],
        }
    }

    /// Whether it is made only when it is asked for by name.
    #[must_use]
    pub fn when_asked(self) -> bool {
        matches!(self, Self::Assembly | Self::Parts)
    }

    /// The kind of the sheet with an id.
    #[must_use]
    pub fn of_id(id: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|kind| kind.begins().iter().any(|begin| id.starts_with(begin)))
    }
}

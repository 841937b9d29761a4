//! The parts of the resolved layout that most plug-ins read, as in `boxwright schema model`. What was not asked for is empty.
//!
//! Lengths are mm, masses kg; x to the rear, y to the right, z up, from the inside front left floor corner. A range is
//! `[low, high]`, a point `[x, y]`.

use super::findings::Place;
use serde::{Deserialize, Serialize};

/// Forms of which every part may be missing.
macro_rules! forms {
    ($($(#[$about:meta])* $name:ident { $($(#[$says:meta])* $field:ident: $of:ty,)* })*) => {
        $($(#[$about])*
        #[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
        #[serde(default)]
        pub struct $name {
            $($(#[$says])* pub $field: $of,)*
        })*
    };
}

forms! {
    /// The layout.
    Model {
        /// Name of the layout.
        name: String,
        /// The room inside.
        #[serde(rename = "box")]
        space: BoxSpace,
        /// Who lives there.
        people: Vec<Person>,
        /// Doors, windows, hatches.
        openings: Vec<Opening>,
        /// Named parts of the floor.
        zones: Vec<Zone>,
        /// The furniture.
        modules: Vec<Module>,
        /// A pose for every module.
        arrangements: Vec<Arrangement>,
        /// Tanks, and things beside the furniture.
        loads: Vec<Load>,
        /// Water, electricity, waste pipes.
        services: Services,
        /// Sheet materials.
        stocks: Vec<Stock>,
    }

    /// The room inside and the panels around it.
    BoxSpace {
        /// Along x.
        length: f64,
        /// Along y.
        width: f64,
        /// To the lining at the side walls.
        height: f64,
        /// The walls.
        walls: Layup,
    }

    /// A panel of the shell.
    Layup {
        /// Its name.
        layup: String,
        /// Its thickness.
        thickness: f64,
    }

    /// A hole in a panel.
    Opening {
        /// Its name.
        name: String,
        /// `door`, `window`, `hatch`, `roof-hatch`, `pass-through` or `vent`.
        kind: String,
        /// `front`, `rear`, `left`, `right`, `roof` or `floor`.
        wall: String,
        /// x, or y in the front and rear walls.
        along: [f64; 2],
        /// z, or y in roof and floor.
        up: [f64; 2],
        /// Always open to the air, mm².
        #[serde(rename = "free-area")]
        free_area: f64,
        /// Where the text says it.
        place: Option<Place>,
    }

    /// A named part of the floor.
    Zone {
        /// Its name.
        name: String,
        /// What it is for.
        purpose: String,
        /// Its range along x.
        x: [f64; 2],
        /// Its range along y.
        y: [f64; 2],
        /// Where the text says it.
        place: Option<Place>,
    }

    /// A piece of furniture.
    Module {
        /// Its name.
        name: String,
        /// `group/name`.
        symbol: String,
        /// What the symbol says of itself.
        says: String,
        /// The side at which a person stands.
        faces: String,
        /// The room that it is given.
        extent: Box3,
        /// The zone it stands in.
        zone: Option<String>,
        /// What it is in each pose.
        poses: Vec<Pose>,
        /// The pieces it is made of.
        parts: Vec<Part>,
        /// What is bought for it.
        hardware: Vec<Hardware>,
        /// Masses beside those of the parts.
        masses: Vec<Mass>,
        /// Where the text says it.
        place: Option<Place>,
        /// Where the text says its place.
        placed: Option<Place>,
    }

    /// A box with edges along the axes.
    Box3 {
        /// Along x.
        x: [f64; 2],
        /// Along y.
        y: [f64; 2],
        /// Along z.
        z: [f64; 2],
    }

    /// A body with straight sides along an axis.
    Prism {
        /// `x`, `y` or `z`.
        axis: String,
        /// In the two other axes, in the order x, y, z.
        outline: Vec<[f64; 2]>,
        /// Along the axis.
        range: [f64; 2],
    }

    /// What a module is in one pose.
    Pose {
        /// Its name.
        name: String,
        /// Bodies that it fills.
        solids: Vec<Solid>,
        /// Room that people or things need.
        spaces: Vec<Space>,
        /// What opens.
        moves: Vec<Move>,
    }

    /// A body that a module fills.
    Solid {
        /// Its name.
        name: String,
        /// Its shape.
        prism: Prism,
        /// What it is.
        tags: Vec<String>,
        /// Sides that no board closes: `+x` is toward greater x.
        open: Vec<String>,
    }

    /// Room that people or things need.
    Space {
        /// Its name.
        name: String,
        /// `standing`, `sitting`, `lying` or `storage`.
        need: String,
        /// Its shape.
        prism: Prism,
        /// What may be kept in it, kg.
        carries: Option<f64>,
    }

    /// Something that opens.
    Move {
        /// Its name.
        name: String,
    }

    /// A kind of piece.
    Part {
        /// Its name.
        name: String,
        /// How many.
        count: u32,
        /// Finished.
        length: f64,
        /// Finished.
        width: f64,
        /// Of the board.
        thickness: f64,
        /// Name of its stock.
        stock: Option<String>,
        /// `length`, `width` or `free`.
        grain: String,
        /// Edge bands, by their thickness.
        bands: Bands,
        /// Left on at edges for fitting.
        scribe: Bands,
        /// Where the symbol says it.
        place: Option<Place>,
        /// Where a symbol uses the recipe that makes it.
        piece: Option<Place>,
    }

    /// A figure for each edge.
    Bands {
        /// At the front.
        front: f64,
        /// At the back.
        back: f64,
        /// At the left end.
        left: f64,
        /// At the right end.
        right: f64,
    }

    /// A person who lives aboard.
    Person {
        /// The name.
        name: String,
        /// Body height.
        stature: f64,
        /// Body mass.
        mass: f64,
    }

    /// A tank, or a thing beside the furniture.
    Load {
        /// Its name.
        name: String,
        /// Without what is in the tank, kg.
        mass: f64,
        /// What is in it.
        tank: Option<Tank>,
    }

    /// What is in a tank.
    Tank {
        /// Inside.
        size: [f64; 3],
        /// `fresh-water`, `grey-water`, `black-water`, `fuel` or `other`.
        holds: String,
        /// Share that is filled in each case.
        fill: Fill,
    }

    /// Shares from 0 to 1.
    Fill {
        /// In the case `full`.
        full: f64,
    }

    /// Something bought to fit a module.
    Hardware {
        /// What it is.
        name: String,
        /// How many.
        count: u32,
        /// Its size, if it has one.
        size: Option<f64>,
    }

    /// A mass beside those of the parts.
    Mass {
        /// What it is.
        name: String,
        /// kg.
        mass: f64,
    }

    /// A pose for every module.
    Arrangement {
        /// Its name.
        name: String,
        /// One for each module.
        poses: Vec<PoseOf>,
    }

    /// The pose of a module.
    PoseOf {
        /// The module.
        module: String,
        /// Its pose.
        pose: String,
    }

    /// Water, electricity, waste pipes.
    Services {
        /// Water that a person uses.
        water: Option<Water>,
        /// Cables.
        cables: Vec<Cable>,
        /// Waste pipes.
        wastes: Vec<Waste>,
    }

    /// Water that a person uses in a day.
    Water {
        /// Litres.
        #[serde(rename = "per-person")]
        per_person: f64,
        /// Where the text says it.
        place: Option<Place>,
    }

    /// Where something runs.
    Run {
        /// Where it begins.
        from: String,
        /// Where it ends.
        to: String,
        /// Corners from start to end, in the box.
        points: Vec<[f64; 3]>,
    }

    /// A cable, there and back.
    Cable {
        /// Its name.
        name: String,
        /// Its way.
        run: Run,
        /// A.
        amps: f64,
        /// Copper, mm².
        section: f64,
        /// What it feeds must not fail.
        critical: bool,
        /// Where the text says it.
        place: Option<Place>,
    }

    /// A waste pipe.
    Waste {
        /// Its name.
        name: String,
        /// Its way.
        run: Run,
        /// Inside diameter.
        bore: f64,
        /// Where the text says it.
        place: Option<Place>,
    }

    /// A sheet material.
    Stock {
        /// Its name.
        name: String,
        /// What it is made of.
        material: String,
        /// `length`, `width` or `free`.
        grain: String,
        /// Cut off at each edge.
        trim: f64,
        /// Sizes that are bought.
        sheets: Vec<StockSheet>,
    }

    /// A size of a sheet that is bought.
    StockSheet {
        /// Length and width.
        size: [f64; 2],
    }
}

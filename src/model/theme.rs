//! How the brochure looks: colours, floor pattern, letters, line widths.

/// Red, green, blue.
pub type Colour = [u8; 3];

/// The colours of a theme.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Colours {
    /// The sheet.
    pub paper: Colour,
    /// The floor.
    pub floor: Colour,
    /// Cupboards, tables, frames of beds.
    pub furniture: Colour,
    /// Seats and backrests.
    pub upholstery: Colour,
    /// Duvets and pillows.
    pub bedding: Colour,
    /// Shower trays, sinks, basins.
    pub wet: Colour,
    /// Panes of windows.
    pub glass: Colour,
    /// Walls.
    pub wall: Colour,
    /// Figures of people.
    pub people: Colour,
    /// Lines.
    pub line: Colour,
    /// Joints of the floor.
    pub floor_line: Colour,
    /// Text.
    pub text: Colour,
}

/// What the floor is laid with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Pattern {
    /// One plain area.
    #[default]
    None,
    /// Boards from front to rear.
    Boards,
    /// Square tiles.
    Tiles,
}

/// Heights of capital letters, mm.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Letters {
    /// The title.
    pub title: f64,
    /// Names of arrangements.
    pub caption: f64,
    /// Key figures.
    pub figure: f64,
    /// Names of zones and modules.
    pub name: f64,
    /// Everything else.
    pub note: f64,
}

/// Line widths, mm.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Widths {
    /// Edges of walls.
    pub wall: f64,
    /// Edges of furniture.
    pub edge: f64,
    /// Lines on furniture, and what is overhead.
    pub detail: f64,
    /// Joints of the floor.
    pub floor: f64,
}

/// A theme.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Theme {
    /// Colours.
    pub colours: Colours,
    /// What the floor is laid with.
    pub pattern: Pattern,
    /// Width of a board or side of a tile, mm in the box.
    pub size: f64,
    /// Letters.
    pub letters: Letters,
    /// Lines.
    pub widths: Widths,
}

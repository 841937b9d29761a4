//! Line classes and fills, by meaning, and how they look on a workshop's sheets.

/// Kinds of line by what they mean (ISO 128; widths from its series, group 0.7/0.35 with 0.5 and 0.18 beside).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LineClass {
    /// Edge of something cut by the view's plane.
    Cut,
    /// Visible edge.
    Visible,
    /// Fine visible detail.
    Detail,
    /// Hidden, or above the cutting plane.
    Above,
    /// Extreme position or path of a moving part.
    Moving,
    /// Centre line or axis.
    Centre,
    /// Dimension, extension, leader and hatch lines.
    Dimension,
    /// Frame of the sheet and outline of the title block.
    Frame,
    /// Limits of zones.
    Zone,
    /// Marks of findings.
    Mark,
    /// Joints of a floor's boards or tiles.
    Floor,
    /// Edges of figures of people.
    Figure,
}

impl LineClass {
    /// Every class.
    pub const ALL: [Self; 12] = [
        Self::Cut,
        Self::Visible,
        Self::Detail,
        Self::Above,
        Self::Moving,
        Self::Centre,
        Self::Dimension,
        Self::Frame,
        Self::Zone,
        Self::Mark,
        Self::Floor,
        Self::Figure,
    ];

    /// Short name, used for style names in outputs.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Visible => "visible",
            Self::Detail => "detail",
            Self::Above => "above",
            Self::Moving => "moving",
            Self::Centre => "centre",
            Self::Dimension => "dimension",
            Self::Frame => "frame",
            Self::Zone => "zone",
            Self::Mark => "mark",
            Self::Floor => "floor",
            Self::Figure => "figure",
        }
    }

    /// Line width, mm.
    #[must_use]
    pub fn width(self) -> f64 {
        match self {
            Self::Frame => 0.7,
            Self::Cut => 0.5,
            Self::Visible | Self::Mark => 0.35,
            Self::Detail
            | Self::Above
            | Self::Moving
            | Self::Centre
            | Self::Dimension
            | Self::Zone
            | Self::Floor
            | Self::Figure => 0.18,
        }
    }

    /// Dash pattern in line widths, strokes and gaps by turns; empty for a full line. As in ISO 128-2 (dashed
    /// 12 d + 3 d; long-dash dotted 24 d, 3 d, 0.5 d, 3 d; double-dotted with one dot more).
    #[must_use]
    pub fn dash(self) -> &'static [f64] {
        match self {
            Self::Above => &[12.0, 3.0],
            Self::Centre => &[24.0, 3.0, 0.5, 3.0],
            Self::Moving => &[24.0, 3.0, 0.5, 3.0, 0.5, 3.0],
            Self::Zone => &[6.0, 6.0],
            _ => &[],
        }
    }

    /// Tone of the line: 0 black to 255 white for red, green, blue.
    #[must_use]
    pub fn tone(self) -> [u8; 3] {
        match self {
            Self::Mark => [190, 30, 45],
            Self::Zone => [110, 110, 110],
            _ => [0, 0, 0],
        }
    }
}

/// What an area is filled as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Fill {
    /// White, hides what is below.
    Paper,
    /// Shell panel, cut.
    Shell,
    /// Furniture cut by the plane.
    Cut,
    /// Furniture below the plane.
    Furniture,
    /// Solid black, for arrows and scale bars.
    Ink,
    /// Background of a finding's number.
    Mark,
    /// Floor.
    Floor,
    /// Seats and backrests.
    Upholstery,
    /// Duvets and pillows.
    Bedding,
    /// What gets wet: shower trays, sinks.
    Wet,
    /// Panes of windows.
    Glass,
    /// Figures of people.
    People,
}

impl Fill {
    /// Every fill.
    pub const ALL: [Self; 12] = [
        Self::Paper,
        Self::Shell,
        Self::Cut,
        Self::Furniture,
        Self::Ink,
        Self::Mark,
        Self::Floor,
        Self::Upholstery,
        Self::Bedding,
        Self::Wet,
        Self::Glass,
        Self::People,
    ];

    /// Short name, used for style names in outputs.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Paper => "paper",
            Self::Shell => "shell",
            Self::Cut => "cut",
            Self::Furniture => "furniture",
            Self::Ink => "ink",
            Self::Mark => "mark",
            Self::Floor => "floor",
            Self::Upholstery => "upholstery",
            Self::Bedding => "bedding",
            Self::Wet => "wet",
            Self::Glass => "glass",
            Self::People => "people",
        }
    }

    /// Tone: red, green, blue.
    #[must_use]
    pub fn tone(self) -> [u8; 3] {
        match self {
            Self::Paper | Self::Glass => [255, 255, 255],
            Self::Shell | Self::Wet => [205, 208, 210],
            Self::Cut => [226, 222, 214],
            Self::Furniture | Self::Floor | Self::Bedding => [246, 244, 239],
            Self::Upholstery | Self::People => [150, 150, 150],
            Self::Ink => [0, 0, 0],
            Self::Mark => [190, 30, 45],
        }
    }
}

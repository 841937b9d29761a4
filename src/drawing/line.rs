//! Line classes and fills, by meaning; a back-end asks for width, dash and tone.

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
}

impl LineClass {
    /// Every class.
    pub const ALL: [Self; 10] = [
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
        }
    }

    /// Line width, mm.
    #[must_use]
    pub fn width(self) -> f64 {
        match self {
            Self::Frame => 0.7,
            Self::Cut => 0.5,
            Self::Visible | Self::Mark => 0.35,
            Self::Detail | Self::Above | Self::Moving | Self::Centre | Self::Dimension | Self::Zone => 0.18,
        }
    }

    /// Dash pattern in mm, strokes and gaps by turns; empty for a full line. Multiples of the width as in ISO 128-2
    /// (dashed 12 d + 3 d; long-dash dotted 24 d, 3 d, 0.5 d, 3 d; double-dotted with one dot more).
    #[must_use]
    pub fn dash(self) -> Vec<f64> {
        let in_widths: &[f64] = match self {
            Self::Above => &[12.0, 3.0],
            Self::Centre => &[24.0, 3.0, 0.5, 3.0],
            Self::Moving => &[24.0, 3.0, 0.5, 3.0, 0.5, 3.0],
            Self::Zone => &[6.0, 6.0],
            _ => &[],
        };
        in_widths.iter().map(|units| units * self.width()).collect()
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
}

impl Fill {
    /// Every fill.
    pub const ALL: [Self; 6] = [Self::Paper, Self::Shell, Self::Cut, Self::Furniture, Self::Ink, Self::Mark];

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
        }
    }

    /// Tone: red, green, blue.
    #[must_use]
    pub fn tone(self) -> [u8; 3] {
        match self {
            Self::Paper => [255, 255, 255],
            Self::Shell => [205, 208, 210],
            Self::Cut => [226, 222, 214],
            Self::Furniture => [246, 244, 239],
            Self::Ink => [0, 0, 0],
            Self::Mark => [190, 30, 45],
        }
    }
}

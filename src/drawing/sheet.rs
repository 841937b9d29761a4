//! Sheets, views on them, layers in those.

use super::item::Item;
use super::look::Look;

/// A trimmed sheet of the ISO 216 A series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paper {
    /// `A4` to `A1`.
    pub name: &'static str,
    /// Width, mm.
    pub width: f64,
    /// Height, mm.
    pub height: f64,
}

/// What a layer holds; a viewer can switch layers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LayerKind {
    /// Frame and title block.
    Frame,
    /// Shell and openings.
    Shell,
    /// Furniture.
    Furniture,
    /// What of the shell is over or behind the furniture: hatches in the roof, cutaways.
    Hidden,
    /// Zones.
    Zones,
    /// Dimensions and measured widths.
    Dimensions,
    /// Findings.
    Findings,
    /// Names and numbers, over all lines.
    Labels,
    /// Notes, tables, scale bar.
    Notes,
}

impl LayerKind {
    /// Every kind, in drawing order from back to front.
    pub const ALL: [Self; 9] = [
        Self::Frame,
        Self::Shell,
        Self::Furniture,
        Self::Hidden,
        Self::Zones,
        Self::Dimensions,
        Self::Findings,
        Self::Labels,
        Self::Notes,
    ];

    /// Name for people.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Frame => "frame",
            Self::Shell => "shell",
            Self::Furniture => "furniture",
            Self::Hidden => "hidden",
            Self::Zones => "zones",
            Self::Labels => "labels",
            Self::Dimensions => "dimensions",
            Self::Findings => "findings",
            Self::Notes => "notes",
        }
    }
}

/// Items of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// The kind.
    pub kind: LayerKind,
    /// The items, back to front.
    pub items: Vec<Item>,
}

/// One picture on a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct View {
    /// A plain name, unique on the sheet: `plan`, `frame`, `notes`.
    pub id: String,
    /// Name for people.
    pub title: String,
    /// 20 for 1:20; `None` for what has no scale (frame, tables).
    pub scale: Option<f64>,
    /// Layers, back to front.
    pub layers: Vec<Layer>,
}

/// One sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// File stem and key: `plan-day`.
    pub id: String,
    /// Name for people, bookmarks and page labels: `General plan, day`.
    pub title: String,
    /// The paper.
    pub paper: Paper,
    /// Views, back to front.
    pub views: Vec<View>,
    /// How lines and fills look.
    pub look: Look,
}

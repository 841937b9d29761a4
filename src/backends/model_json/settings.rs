//! Prices, labels and sheets in `model.json`.

use super::shapes::range;
use crate::base::number::micrometres;
use crate::diagnostic::wire::Pair;
use crate::model::{
    Colour, Colours, Figures, LabelGrid, Letters, Pattern, Planes, Prices, Projection, SheetSettings, Theme, Widths,
    Word,
};
use schemars::JsonSchema;
use serde::Serialize;

/// Prices beside those of sheets, in the currency of the layout.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Prices")]
pub(super) struct PricesWire<'a> {
    band_metre: Option<f64>,
    hardware: Vec<PriceWire<'a>>,
}

/// Price of one piece.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Price")]
struct PriceWire<'a> {
    name: &'a str,
    price: f64,
}

/// Labels on a sheet of A4: across and down.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Labels")]
pub(super) struct LabelsWire {
    columns: usize,
    rows: usize,
    /// From label to label.
    pitch: Pair,
    /// From the left and upper edge of the sheet to the first.
    margin: Pair,
    size: Pair,
}

/// How the drawings are made.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Sheets")]
pub(super) struct SheetsWire<'a> {
    #[schemars(extend("enum" = ["A4", "A3", "A2", "A1"]))]
    paper: &'a str,
    #[schemars(extend("enum" = ["landscape", "portrait"]))]
    orientation: &'static str,
    /// Kinds of sheets that are made; `null` for all.
    only: Option<Vec<&'static str>>,
    /// 20 for 1:20; `null` takes the largest that fits.
    scale: Option<f64>,
    #[schemars(extend("enum" = ["first", "third"]))]
    projection: &'static str,
    #[schemars(extend("enum" = ["mm", "mm+inch"]))]
    figures: &'static str,
    sections: PlanesWire,
    theme: ThemeWire,
}

/// Planes of the sections; `null` finds one.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Sections")]
struct PlanesWire {
    /// From the left wall.
    along: Option<f64>,
    /// From the front wall.
    across: Option<f64>,
}

/// How the brochure looks.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Theme")]
struct ThemeWire {
    colours: ColoursWire,
    #[schemars(extend("enum" = ["none", "boards", "tiles"]))]
    pattern: &'static str,
    /// Width of a board or side of a tile.
    size: f64,
    /// Heights of capital letters.
    letters: LettersWire,
    /// Line widths.
    lines: LinesWire,
}

/// Colours, `#rrggbb`.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Colours")]
struct ColoursWire {
    paper: String,
    floor: String,
    furniture: String,
    upholstery: String,
    bedding: String,
    wet: String,
    glass: String,
    wall: String,
    people: String,
    line: String,
    floor_line: String,
    text: String,
}

/// Heights of capital letters.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Letters")]
struct LettersWire {
    title: f64,
    caption: f64,
    figure: f64,
    name: f64,
    note: f64,
}

/// Line widths.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Lines")]
struct LinesWire {
    wall: f64,
    edge: f64,
    detail: f64,
    floor: f64,
}

pub(super) fn prices_wire(prices: &Prices) -> PricesWire<'_> {
    let Prices { band_metre, hardware } = prices;
    let hardware = hardware.iter().map(|(name, price)| PriceWire { name, price: micrometres(*price) }).collect();
    PricesWire { band_metre: band_metre.map(micrometres), hardware }
}

pub(super) fn labels_wire(labels: &LabelGrid) -> LabelsWire {
    let LabelGrid { rows, columns, pitch, margin, size } = *labels;
    let [pitch, margin, size] = [pitch, margin, size].map(|size| range((size.width, size.height)));
    LabelsWire { columns, rows, pitch, margin, size }
}

pub(super) fn sheets_wire(settings: &SheetSettings) -> SheetsWire<'_> {
    let SheetSettings { paper, portrait, only, scale, projection, figures, theme, sections } = settings;
    let Planes { along, across } = *sections;
    SheetsWire {
        paper: paper.name(),
        orientation: if *portrait { "portrait" } else { "landscape" },
        only: only.as_ref().map(|only| only.iter().map(|kind| kind.name()).collect()),
        scale: scale.map(micrometres),
        projection: match projection {
            Projection::First => "first",
            Projection::Third => "third",
        },
        figures: match figures {
            Figures::Mm => "mm",
            Figures::MmInch => "mm+inch",
        },
        sections: PlanesWire { along: along.map(micrometres), across: across.map(micrometres) },
        theme: theme_wire(theme),
    }
}

fn theme_wire(theme: &Theme) -> ThemeWire {
    let Theme { colours, pattern, size, letters, widths } = *theme;
    let Letters { title, caption, figure, name, note } = letters;
    let [title, caption, figure, name, note] = [title, caption, figure, name, note].map(micrometres);
    let Widths { wall, edge, detail, floor } = widths;
    let [wall, edge, detail, floor] = [wall, edge, detail, floor].map(micrometres);
    ThemeWire {
        colours: colours_wire(colours),
        pattern: match pattern {
            Pattern::None => "none",
            Pattern::Boards => "boards",
            Pattern::Tiles => "tiles",
        },
        size: micrometres(size),
        letters: LettersWire { title, caption, figure, name, note },
        lines: LinesWire { wall, edge, detail, floor },
    }
}

fn colours_wire(colours: Colours) -> ColoursWire {
    let hex = |[red, green, blue]: Colour| format!("#{red:02x}{green:02x}{blue:02x}");
    let Colours { paper, floor, furniture, upholstery, bedding, wet, glass, wall, people, line, floor_line, text } =
        colours;
    ColoursWire {
        paper: hex(paper),
        floor: hex(floor),
        furniture: hex(furniture),
        upholstery: hex(upholstery),
        bedding: hex(bedding),
        wet: hex(wet),
        glass: hex(glass),
        wall: hex(wall),
        people: hex(people),
        line: hex(line),
        floor_line: hex(floor_line),
        text: hex(text),
    }
}

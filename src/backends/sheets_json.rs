//! The form of drawings for programs: sheets, their views, layers and items, as plug-ins read and give them.
//!
//! Paper millimetres from the lower left corner, y up; shapes are SVG path data in those, so y does not go down in them.

use crate::base::number::micrometres;
use crate::diagnostic::wire::{Lazy, Pair, json_schema, pair, path_data};
use crate::drawing::{Align, Fill, Group, Item, Layer, LayerKind, LineClass, Path, Sheet, Text, View};
use kurbo::{BezPath, Point};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// Most groups in groups.
const DEEPEST: usize = 16;
/// Heights of letters that can be drawn, mm.
const LETTERS: (f64, f64) = (0.5, 50.0);
/// How far points may lie off, mm.
const FARTHEST: f64 = 100_000.0;

/// The drawings of a layout.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Sheets")]
pub struct SheetsWire<'a> {
    #[schemars(extend("const" = "boxwright-sheets"))]
    format: &'static str,
    #[schemars(extend("const" = 1))]
    version: u32,
    sheets: Lazy<'a, Vec<SheetWire>>,
}

/// A sheet.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Sheet")]
struct SheetWire {
    id: String,
    title: String,
    /// Name of its size: `A3`.
    paper: String,
    width: f64,
    height: f64,
    views: Vec<ViewWire>,
}

/// A picture, back to front.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "View")]
pub struct ViewWire {
    /// Letters, digits, hyphens; unique on its sheet.
    id: String,
    title: String,
    /// 20 for 1:20; nothing for what has no scale.
    #[serde(default)]
    scale: Option<f64>,
    layers: Vec<LayerWire>,
}

/// Items of one kind.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Layer")]
struct LayerWire {
    #[schemars(extend("enum" = ["frame", "shell", "furniture", "hidden", "zones", "dimensions", "findings", "labels", "notes"]))]
    kind: String,
    items: Vec<ItemWire>,
}

/// What can be drawn.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "Item")]
enum ItemWire {
    /// A line, an area or both.
    Path(PathWire),
    /// A line of text.
    Text(TextWire),
    /// Items that belong together.
    Group(GroupWire),
}

/// A line, an area or both.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Path")]
struct PathWire {
    /// As SVG path data.
    shape: String,
    /// How it is drawn.
    #[serde(default)]
    #[schemars(extend("enum" = ["cut", "visible", "detail", "above", "moving", "centre", "dimension", "frame", "zone", "mark", "floor", "figure", null]))]
    line: Option<String>,
    /// How it is filled, even-odd.
    #[serde(default)]
    #[schemars(extend("enum" = ["paper", "shell", "cut", "furniture", "ink", "mark", "floor", "upholstery", "bedding", "wet", "glass", "people", null]))]
    fill: Option<String>,
}

/// A line of text.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Text")]
struct TextWire {
    /// On the base line.
    at: Pair,
    words: String,
    /// Of capital letters, mm.
    height: f64,
    /// Which point of the text `at` is.
    #[schemars(extend("enum" = ["start", "middle", "end"]))]
    align: String,
    /// Degrees counter-clockwise.
    #[serde(default)]
    turn: f64,
    /// White instead of black.
    #[serde(default)]
    inverse: bool,
}

/// Items with a name.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Group")]
struct GroupWire {
    /// Letters, digits, hyphens.
    id: String,
    title: String,
    items: Vec<ItemWire>,
    /// Id of the group that it leads to.
    #[serde(default)]
    link: Option<String>,
}

/// The form of some sheets, made when it is written.
#[must_use]
pub fn sheets_wire(sheets: &[Sheet]) -> SheetsWire<'_> {
    let all = Lazy::new(move || sheets.iter().map(sheet_wire).collect());
    SheetsWire { format: "boxwright-sheets", version: 1, sheets: all }
}

/// The JSON Schema of the form.
#[must_use]
pub fn sheets_schema() -> Value {
    json_schema::<SheetsWire<'_>>()
}

fn sheet_wire(sheet: &Sheet) -> SheetWire {
    // How lines and fills look is the writer's own matter.
    let Sheet { id, title, paper, views, look: _ } = sheet;
    SheetWire {
        id: id.clone(),
        title: title.clone(),
        paper: paper.name.to_owned(),
        width: micrometres(paper.width),
        height: micrometres(paper.height),
        views: views.iter().map(view_wire).collect(),
    }
}

fn view_wire(view: &View) -> ViewWire {
    let View { id, title, scale, layers } = view;
    let layer = |layer: &Layer| {
        let Layer { kind, items } = layer;
        LayerWire { kind: kind.name().to_owned(), items: items.iter().map(item_wire).collect() }
    };
    let (id, title) = (id.clone(), title.clone());
    ViewWire { id, title, scale: *scale, layers: layers.iter().map(layer).collect() }
}

fn item_wire(item: &Item) -> ItemWire {
    match item {
        Item::Path(Path { shape, line, fill }) => ItemWire::Path(PathWire {
            shape: path_data(shape),
            line: line.map(|line| line.name().to_owned()),
            fill: fill.map(|fill| fill.name().to_owned()),
        }),
        Item::Text(Text { at, words, height, align, turn, inverse }) => ItemWire::Text(TextWire {
            at: pair(*at),
            words: words.clone(),
            height: micrometres(*height),
            align: align_name(*align).to_owned(),
            turn: micrometres(*turn),
            inverse: *inverse,
        }),
        Item::Group(Group { id, title, items, link }) => ItemWire::Group(GroupWire {
            id: id.clone(),
            title: title.clone(),
            items: items.iter().map(item_wire).collect(),
            link: link.clone(),
        }),
    }
}

fn align_name(align: Align) -> &'static str {
    match align {
        Align::Start => "start",
        Align::Middle => "middle",
        Align::End => "end",
    }
}

impl ViewWire {
    /// The view that the form describes.
    ///
    /// # Errors
    /// What in it can't be drawn.
    pub fn view(&self) -> Result<View, String> {
        let Self { id, title, scale, layers } = self;
        plain(id)?;
        if scale.is_some_and(|scale| !(scale.is_finite() && scale > 0.0)) {
            return Err(format!("the scale of the view `{id}` is no positive number"));
        }
        let layer = |layer: &LayerWire| {
            let kind = named(&LayerKind::ALL, LayerKind::name, &layer.kind, "layer")?;
            Ok::<_, String>(Layer { kind, items: items(&layer.items, 0)? })
        };
        let layers = layers.iter().map(layer).collect::<Result<_, _>>()?;
        Ok(View { id: id.clone(), title: title.clone(), scale: *scale, layers })
    }
}

impl ViewWire {
    /// All words in it.
    #[must_use]
    pub fn texts(&self) -> Vec<&str> {
        let layers = self.layers.iter().flat_map(|layer| &layer.items);
        let (mut words, mut next) = (vec![self.title.as_str()], layers.collect::<Vec<_>>());
        while let Some(item) = next.pop() {
            match item {
                ItemWire::Path(_) => {}
                ItemWire::Text(text) => words.push(&text.words),
                ItemWire::Group(group) => {
                    words.push(&group.title);
                    next.extend(&group.items);
                }
            }
        }
        words
    }
}

fn items(wires: &[ItemWire], depth: usize) -> Result<Vec<Item>, String> {
    if depth > DEEPEST {
        return Err(format!("more than {DEEPEST} groups lie in each other"));
    }
    wires.iter().map(|wire| item(wire, depth)).collect()
}

fn item(wire: &ItemWire, depth: usize) -> Result<Item, String> {
    Ok(match wire {
        ItemWire::Path(PathWire { shape, line, fill }) => {
            let line = line.as_ref().map(|line| named(&LineClass::ALL, LineClass::name, line, "line"));
            let fill = fill.as_ref().map(|fill| named(&Fill::ALL, Fill::name, fill, "fill"));
            Item::Path(Path { shape: path(shape)?, line: line.transpose()?, fill: fill.transpose()? })
        }
        ItemWire::Text(TextWire { at, words, height, align, turn, inverse }) => {
            if !(LETTERS.0..=LETTERS.1).contains(height) || !turn.is_finite() {
                return Err(format!(
                    "the text `{words}` has no height from {} to {} mm, or no turn",
                    LETTERS.0, LETTERS.1
                ));
            }
            let align = named(&[Align::Start, Align::Middle, Align::End], align_name, align, "align")?;
            let at = near(Point::from((at[0], at[1])))?;
            Item::Text(Text { at, words: words.clone(), height: *height, align, turn: *turn, inverse: *inverse })
        }
        ItemWire::Group(GroupWire { id, title, items: inner, link }) => {
            plain(id)?;
            link.as_deref().map_or(Ok(()), plain)?;
            let items = items(inner, depth + 1)?;
            Item::Group(Group { id: id.clone(), title: title.clone(), items, link: link.clone() })
        }
    })
}

/// SVG path data as a path.
///
/// # Errors
/// What is wrong with it.
pub fn path(data: &str) -> Result<BezPath, String> {
    let path = BezPath::from_svg(data).map_err(|error| format!("`{}` is no path: {error}", short(data)))?;
    let points = path.elements().iter().filter_map(kurbo::PathEl::end_point);
    points.into_iter().try_for_each(|point| near(point).map(|_| ()))?;
    Ok(path)
}

fn near(point: Point) -> Result<Point, String> {
    let fits = |value: f64| value.is_finite() && value.abs() <= FARTHEST;
    if fits(point.x) && fits(point.y) { Ok(point) } else { Err("a point lies farther off than 100 m".to_owned()) }
}

fn short(text: &str) -> String {
    text.chars().take(40).collect()
}

fn plain(id: &str) -> Result<(), String> {
    let fine = (1..=80).contains(&id.len()) && id.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-');
    if fine { Ok(()) } else { Err(format!("`{}` is no id: up to 80 letters, digits and hyphens", short(id))) }
}

fn named<T: Copy>(all: &[T], name: fn(T) -> &'static str, word: &str, what: &str) -> Result<T, String> {
    let found = all.iter().copied().find(|one| name(*one) == word);
    let names = || all.iter().map(|one| name(*one)).collect::<Vec<_>>().join(", ");
    found.ok_or_else(|| format!("there is no {what} `{}`; there are {}", short(word), names()))
}

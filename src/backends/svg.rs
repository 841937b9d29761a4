//! SVG: one file for each sheet, in mm, with text as text and all styles in one block.

use super::backend::{Backend, OutputFile, Product, Reads};
use super::number::on_paper;
use super::svg_style::{line_class, style_block, style_rules};
use crate::base::number::{push_trimmed, trimmed};
use crate::drawing::{Align, Group, Item, Layer, LayerKind, Path, Sheet, Spots, Text, View, font};
use kurbo::{PathEl, Point};
use rayon::prelude::*;
use std::collections::BTreeSet;
use svg::Node;
use svg::node::Blob;
use svg::node::element::{Description, Element, Style, Title};

/// The SVG back-end.
pub struct Svg;

impl Backend for Svg {
    fn name(&self) -> &'static str {
        "svg"
    }

    fn says(&self) -> &'static str {
        "each sheet as an SVG file"
    }

    fn reads(&self) -> &'static [Reads] {
        &[Reads::Sheets]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let spots = Spots::new(product.sheets);
        let file = |(index, sheet): (usize, &Sheet)| OutputFile {
            name: file_name(sheet),
            bytes: document(sheet, Links { sheets: product.sheets, index, spots: &spots }).into_bytes(),
        };
        Ok(product.sheets.par_iter().enumerate().map(file).collect())
    }
}

/// One sheet as an SVG file, with links to its own places only.
#[must_use]
pub fn file(sheet: &Sheet) -> OutputFile {
    let sheets = std::slice::from_ref(sheet);
    let links = Links { sheets, index: 0, spots: &Spots::new(sheets) };
    OutputFile { name: file_name(sheet), bytes: document(sheet, links).into_bytes() }
}

/// A sheet for a page that has the styles and the font already.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Inset {
    /// The sheet as an `svg` element without a style.
    pub svg: String,
    /// Its styles, without its font.
    pub style: String,
}

/// One sheet of a set, for a page; links lead to the files of other sheets.
#[must_use]
pub fn inset(sheets: &[Sheet], index: usize) -> Option<Inset> {
    let links = Links { sheets, index, spots: &Spots::new(sheets) };
    sheets.get(index).map(|sheet| Inset { svg: drawn(sheet, links, None).to_string(), style: style_rules(sheet) })
}

fn file_name(sheet: &Sheet) -> String {
    format!("{}.svg", plain(&sheet.id))
}

/// Where the links of a sheet lead.
#[derive(Clone, Copy)]
struct Links<'a> {
    sheets: &'a [Sheet],
    index: usize,
    spots: &'a Spots<'a>,
}

impl Links<'_> {
    /// The address of a group: `#id`, with the file before it if it is on another sheet.
    fn address(&self, id: &str) -> Option<String> {
        let spot = self.spots.find(self.index, id)?;
        let file = self.sheets.get(spot.sheet).filter(|_| spot.sheet != self.index).map(file_name);
        Some(format!("{}#{}", file.unwrap_or_default(), group_id(&layer_id(&plain(spot.view), spot.layer), id)))
    }
}

fn layer_id(view: &str, kind: LayerKind) -> String {
    format!("{view}-{}", kind.name())
}

fn group_id(layer: &str, group: &str) -> String {
    format!("{layer}-{}", plain(group))
}

fn document(sheet: &Sheet, links: Links<'_>) -> String {
    let root = drawn(sheet, links, Some(style_block(sheet)));
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{root}\n")
}

fn drawn(sheet: &Sheet, links: Links<'_>, style: Option<String>) -> svg::Document {
    let mut page = Page { height: sheet.paper.height, ids: BTreeSet::new(), links };
    let (width, height) = (trimmed(sheet.paper.width, 3), trimmed(sheet.paper.height, 3));
    let made = format!("{} sheet, {width} × {height} mm. Made by Boxwright.", sheet.paper.name);
    let mut root = svg::Document::new()
        .set("width", format!("{width}mm"))
        .set("height", format!("{height}mm"))
        .set("viewBox", format!("0 0 {width} {height}"))
        .add(Title::new(words(&sheet.title)))
        .add(Description::new().add(svg::node::Text::new(made)));
    if let Some(style) = style {
        root.append(Style::new(style));
    }
    if !sheet.look.clear {
        root.append(element("rect", "fill-paper").set_all([("width", "100%"), ("height", "100%")]));
    }
    for view in &sheet.views {
        root.append(page.view(view));
    }
    root
}

/// What is known while a sheet is written: its height, to turn y over, the ids in use, where links lead.
struct Page<'a> {
    height: f64,
    ids: BTreeSet<String>,
    links: Links<'a>,
}

impl Page<'_> {
    fn view(&mut self, view: &View) -> Element {
        let id = self.unique(&plain(&view.id));
        let mut group = titled("g", &id, "view", &view.title);
        if let Some(scale) = view.scale {
            group.assign("data-scale", trimmed(scale, 3));
        }
        for layer in &view.layers {
            group.append(self.layer(&id, layer));
        }
        group
    }

    fn layer(&mut self, view: &str, layer: &Layer) -> Element {
        let name = layer.kind.name();
        let id = self.unique(&layer_id(view, layer.kind));
        let group = titled("g", &id, &format!("layer layer-{name}"), name);
        self.items(&id, &layer.items, group)
    }

    fn group(&mut self, layer: &str, group: &Group) -> Element {
        let id = self.unique(&group_id(layer, &group.id));
        let address = group.link.as_deref().and_then(|link| self.links.address(link));
        let mut element = titled(if address.is_some() { "a" } else { "g" }, &id, "item", &group.title);
        if let Some(address) = address {
            element.assign("href", address);
        }
        self.items(layer, &group.items, element)
    }

    fn items(&mut self, layer: &str, items: &[Item], mut parent: Element) -> Element {
        for item in items {
            match item {
                Item::Path(path) => parent.append(self.path(path)),
                Item::Text(text) if words(&text.words).trim().is_empty() => {}
                Item::Text(text) => parent.append(self.text(text)),
                Item::Group(group) => parent.append(self.group(layer, group)),
            }
        }
        parent
    }

    /// Paths and texts are nearly all of a sheet: they are written straight away, attributes in the order of their
    /// names, as the library has them.
    fn path(&self, path: &Path) -> Blob {
        let mut made = String::from("<path");
        if path.fill.is_some() || path.line.is_some() {
            made.push_str(" class=\"");
            if let Some(fill) = path.fill {
                made.push_str("fill-");
                made.push_str(fill.name());
            }
            if let Some(line) = path.line {
                made.push_str(if path.fill.is_some() { " " } else { "" });
                made.push_str(&line_class(line));
            }
            made.push('"');
        }
        made.push_str(" d=\"");
        self.outline(path, &mut made);
        made.push_str("\"/>");
        Blob::new(made)
    }

    /// The shape as path data: absolute, y turned over, thousandths of a mm.
    fn outline(&self, path: &Path, data: &mut String) {
        let mut letter = ' ';
        for element in path.shape.elements() {
            let (next, points): (char, &[Point]) = match element {
                PathEl::MoveTo(a) => ('M', &[*a]),
                PathEl::LineTo(a) => ('L', &[*a]),
                PathEl::QuadTo(a, b) => ('Q', &[*a, *b]),
                PathEl::CurveTo(a, b, c) => ('C', &[*a, *b, *c]),
                PathEl::ClosePath => ('Z', &[]),
            };
            data.push(if next == letter { ' ' } else { next });
            letter = next;
            for (index, point) in points.iter().enumerate() {
                data.push_str(if index > 0 { " " } else { "" });
                push_decimal(data, point.x);
                data.push(' ');
                push_decimal(data, self.height - point.y);
            }
        }
    }

    fn text(&self, text: &Text) -> Blob {
        let mut made = String::from("<text");
        let class = text_class(text);
        if !class.is_empty() {
            attribute(&mut made, "class", |made| made.push_str(class));
        }
        attribute(&mut made, "font-size", |made| push_decimal(made, font::em(text.height)));
        let width = font::text_width(&text.words, text.height);
        if width > 0.0 {
            attribute(&mut made, "lengthAdjust", |made| made.push_str("spacingAndGlyphs"));
            attribute(&mut made, "textLength", |made| push_decimal(made, width));
        }
        let (x, y) = (text.at.x, self.height - text.at.y);
        if text.turn != 0.0 {
            let turn = format!("rotate({} {} {})", decimal(-text.turn), decimal(x), decimal(y));
            attribute(&mut made, "transform", |made| made.push_str(&turn));
        }
        attribute(&mut made, "x", |made| push_decimal(made, x));
        attribute(&mut made, "y", |made| push_decimal(made, y));
        made.push('>');
        made.push_str(&svg::node::Text::new(spaced(&text.words)).to_string());
        made.push_str("</text>");
        Blob::new(made)
    }

    /// An id that is not in use on the sheet.
    fn unique(&mut self, wanted: &str) -> String {
        let mut id = wanted.to_owned();
        let mut count = 1;
        while !self.ids.insert(id.clone()) {
            count += 1;
            id = format!("{wanted}-{count}");
        }
        id
    }
}

fn text_class(text: &Text) -> &'static str {
    match (text.align, text.inverse) {
        (Align::Start, false) => "",
        (Align::Middle, false) => "middle",
        (Align::End, false) => "end",
        (Align::Start, true) => "inverse",
        (Align::Middle, true) => "middle inverse",
        (Align::End, true) => "end inverse",
    }
}

fn titled(name: &str, id: &str, class: &str, title: &str) -> Element {
    let mut made = element(name, class);
    made.assign("id", id);
    made.append(Title::new(words(title)));
    made
}

fn element(name: &str, class: &str) -> Element {
    let mut made = Element::new(name);
    if !class.is_empty() {
        made.assign("class", class);
    }
    made
}

/// Several attributes at once.
trait SetAll {
    fn set_all<const N: usize>(self, attributes: [(&str, &str); N]) -> Self;
}

impl SetAll for Element {
    fn set_all<const N: usize>(mut self, attributes: [(&str, &str); N]) -> Self {
        for (name, value) in attributes {
            self.assign(name, value);
        }
        self
    }
}

/// An attribute whose value needs no escapes.
fn attribute(text: &mut String, name: &str, value: impl FnOnce(&mut String)) {
    text.push(' ');
    text.push_str(name);
    text.push_str("=\"");
    value(text);
    text.push('"');
}

/// A coordinate: thousandths of a mm.
fn decimal(value: f64) -> String {
    trimmed(on_paper(value), 3)
}

fn push_decimal(text: &mut String, value: f64) {
    push_trimmed(text, on_paper(value), 3);
}

/// Words without characters that XML forbids.
fn words(words: &str) -> String {
    font::shown(words).collect()
}

/// Words whose spaces all count: XML would drop those at the ends and join those in a row.
fn spaced(words: &str) -> String {
    let chars: Vec<char> = font::shown(words).collect();
    let last = chars.len().saturating_sub(1);
    let counts = |i: usize| i == 0 || i == last || chars.get(i - 1) == Some(&' ');
    chars.iter().enumerate().map(|(i, char)| if *char == ' ' && counts(i) { '\u{a0}' } else { *char }).collect()
}

/// A name with letters, figures, hyphens and underscores only, as ids of groups have it.
pub fn plain(name: &str) -> String {
    let kept = |char: char| if char.is_alphanumeric() || char == '_' { char } else { '-' };
    if name.is_empty() { "unnamed".to_owned() } else { name.chars().map(kept).collect() }
}

//! Reads what is drawn on a page back from the bytes of an SVG or a PDF file, so that both can be compared.
//!
//! SVG is read with roxmltree and kurbo's path parser, PDF with lopdf's content decoder: no code of the back-ends.

#![allow(dead_code)]

use kurbo::{Affine, BezPath, PathEl, Point};
use std::collections::BTreeMap;

/// Points of PDF in a millimetre.
const POINTS: f64 = 72.0 / 25.4;

/// Something drawn, in paper mm with y up.
#[derive(Debug, Clone, PartialEq)]
pub enum Drawn {
    /// One part of a line.
    Line { layer: String, shape: BezPath, width: f64, dash: Vec<f64>, tone: [u8; 3] },
    /// A filled area.
    Fill { layer: String, shape: BezPath, tone: [u8; 3] },
    /// A text: start of its base line, direction and size of its em.
    Text { layer: String, words: String, start: Point, turn: f64, em: f64, tone: [u8; 3] },
}

/// One page: size and what is on it, back to front.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    pub width: f64,
    pub height: f64,
    pub drawn: Vec<Drawn>,
}

/// The greatest distance (mm) between the same things on two pages.
///
/// # Errors
/// What differs, if it is more than a distance up to `most`.
pub fn compare(a: &Page, b: &Page, most: f64) -> Result<f64, String> {
    let mut worst = (a.width - b.width).abs().max((a.height - b.height).abs());
    if a.drawn.len() != b.drawn.len() {
        return Err(format!("{} things against {}", a.drawn.len(), b.drawn.len()));
    }
    for (a, b) in a.drawn.iter().zip(&b.drawn) {
        let distance = apart(a, b).ok_or_else(|| format!("{a:?}\nis not\n{b:?}"))?;
        if distance > most {
            return Err(format!("{distance} mm apart:\n{a:?}\n{b:?}"));
        }
        worst = worst.max(distance);
    }
    Ok(worst)
}

/// Greatest distance of two things; `None` if they differ in more than place.
fn apart(a: &Drawn, b: &Drawn) -> Option<f64> {
    match (a, b) {
        (
            Drawn::Line { layer, shape, width, dash, tone },
            Drawn::Line { layer: layer_b, shape: shape_b, width: width_b, dash: dash_b, tone: tone_b },
        ) if layer == layer_b && tone == tone_b && dash.len() == dash_b.len() => {
            let dashes = dash.iter().zip(dash_b).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
            Some(shapes_apart(shape, shape_b)?.max(dashes).max((width - width_b).abs()))
        }
        (Drawn::Fill { layer, shape, tone }, Drawn::Fill { layer: layer_b, shape: shape_b, tone: tone_b })
            if layer == layer_b && tone == tone_b =>
        {
            shapes_apart(&open(shape), &open(shape_b))
        }
        (
            Drawn::Text { layer, words, start, turn, em, tone },
            Drawn::Text { layer: layer_b, words: words_b, start: start_b, turn: turn_b, em: em_b, tone: tone_b },
        ) if layer == layer_b && words == words_b && tone == tone_b => {
            let turned = (turn - turn_b).to_radians().sin().abs() * 100.0;
            Some(start.distance(*start_b).max((em - em_b).abs()).max(turned))
        }
        _ => None,
    }
}

/// A fill closes its parts anyway.
fn open(shape: &BezPath) -> BezPath {
    shape.elements().iter().filter(|element| !matches!(element, PathEl::ClosePath)).copied().collect()
}

fn shapes_apart(a: &BezPath, b: &BezPath) -> Option<f64> {
    if a.elements().len() != b.elements().len() {
        return None;
    }
    let mut worst: f64 = 0.0;
    for (a, b) in a.elements().iter().zip(b.elements()) {
        let distance = match (*a, *b) {
            (PathEl::MoveTo(a), PathEl::MoveTo(b)) | (PathEl::LineTo(a), PathEl::LineTo(b)) => a.distance(b),
            (PathEl::CurveTo(a, b, c), PathEl::CurveTo(d, e, f)) => a.distance(d).max(b.distance(e)).max(c.distance(f)),
            (PathEl::ClosePath, PathEl::ClosePath) => 0.0,
            _ => return None,
        };
        worst = worst.max(distance);
    }
    Some(worst)
}

/// Quadratic curves as cubic ones.
fn cubic(shape: &BezPath) -> BezPath {
    let mut last = Point::ZERO;
    let mut made = BezPath::new();
    for element in shape.elements() {
        match *element {
            PathEl::QuadTo(a, b) => made.curve_to(last + (a - last) * 2.0 / 3.0, b + (a - b) * 2.0 / 3.0, b),
            other => made.push(other),
        }
        last = element.end_point().unwrap_or(last);
    }
    made
}

fn parts(shape: &BezPath) -> Vec<BezPath> {
    let mut parts: Vec<BezPath> = Vec::new();
    for element in shape.elements() {
        if matches!(element, PathEl::MoveTo(_)) {
            parts.push(BezPath::new());
        }
        parts.last_mut().expect("a path begins with a move").push(*element);
    }
    parts
}

/// Declarations of a style block by class (or element) name.
type Styles = BTreeMap<String, BTreeMap<String, String>>;

fn styles(block: &str) -> Styles {
    let mut styles = Styles::new();
    for rule in block.split('}').filter_map(|rule| rule.split_once('{')) {
        let declared = rule.1.split(';').filter_map(|pair| pair.split_once(':'));
        let declared = declared.map(|(name, value)| (name.trim().to_owned(), value.trim().to_owned()));
        styles.entry(rule.0.trim().trim_start_matches('.').to_owned()).or_default().extend(declared);
    }
    styles
}

fn hex_tone(text: &str) -> [u8; 3] {
    let digits = text.strip_prefix('#').expect("a tone is written #rrggbb or #rgb");
    let digits: String = if digits.len() == 3 { digits.chars().flat_map(|c| [c, c]).collect() } else { digits.into() };
    [0, 2, 4].map(|i| u8::from_str_radix(&digits[i..i + 2], 16).expect("hexadecimal"))
}

/// Reads an SVG sheet.
pub fn from_svg(bytes: &[u8]) -> Page {
    let source = std::str::from_utf8(bytes).expect("SVG is UTF-8");
    let tree = roxmltree::Document::parse(source).expect("well-formed XML");
    let root = tree.root_element();
    let size = |name: &str| -> f64 {
        root.attribute(name).and_then(|value| value.strip_suffix("mm")).expect("mm").parse().expect("a number")
    };
    let (width, height) = (size("width"), size("height"));
    assert_eq!(root.attribute("viewBox"), Some(format!("0 0 {width} {height}").as_str()));
    let block = root.children().find(|node| node.has_tag_name("style")).and_then(|node| node.text()).unwrap_or("");
    let styles = styles(block);
    let up = Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, height]);
    let mut drawn = Vec::new();
    for node in root.descendants().filter(|node| node.is_element()) {
        let layer = node.ancestors().find_map(|node| node.attribute("class")?.strip_prefix("layer layer-"));
        let layer = layer.unwrap_or_default().to_owned();
        let classes: Vec<&str> = node.attribute("class").unwrap_or("").split_whitespace().collect();
        let declared = |name: &str| classes.iter().find_map(|class| styles.get(*class)?.get(name)).cloned();
        match node.tag_name().name() {
            "path" => {
                let data = node.attribute("d").expect("path data");
                let shape = up * cubic(&BezPath::from_svg(data).expect("path data"));
                if let Some(tone) = declared("fill") {
                    drawn.push(Drawn::Fill { layer: layer.clone(), shape: shape.clone(), tone: hex_tone(&tone) });
                }
                let Some(tone) = declared("stroke") else { continue };
                let width = declared("stroke-width").expect("a width").parse().expect("a number");
                let dash = declared("stroke-dasharray").unwrap_or_default();
                let dash: Vec<f64> = dash.split_whitespace().map(|part| part.parse().expect("a number")).collect();
                drawn.extend(parts(&shape).into_iter().map(|shape| Drawn::Line {
                    layer: layer.clone(),
                    shape,
                    width,
                    dash: dash.clone(),
                    tone: hex_tone(&tone),
                }));
            }
            "text" => {
                let tone = declared("fill").or_else(|| styles.get("text")?.get("fill").cloned());
                drawn.extend(svg_text(&node, layer, declared("text-anchor"), tone, height));
            }
            _ => {}
        }
    }
    Page { width, height, drawn }
}

fn svg_text(
    node: &roxmltree::Node<'_, '_>,
    layer: String,
    anchor: Option<String>,
    tone: Option<String>,
    height: f64,
) -> Option<Drawn> {
    let number = |name: &str| node.attribute(name).map_or(0.0, |value| value.parse::<f64>().expect("a number"));
    let words = node.text().unwrap_or("").trim_matches(['\n', ' ']).replace('\u{a0}', " ");
    let turn = node.attribute("transform").map_or(0.0, |transform| {
        let inside = transform.strip_prefix("rotate(").and_then(|rest| rest.strip_suffix(')')).expect("rotate(...)");
        let numbers: Vec<f64> = inside.split_whitespace().map(|part| part.parse().expect("a number")).collect();
        assert_eq!((numbers[1], numbers[2]), (number("x"), number("y")), "turns about its place");
        -numbers[0]
    });
    let back = match anchor.as_deref() {
        Some("middle") => number("textLength") / 2.0,
        Some("end") => number("textLength"),
        _ => 0.0,
    };
    let at = Point::new(number("x"), height - number("y"));
    let start = at - (Affine::rotate(turn.to_radians()) * Point::new(back, 0.0)).to_vec2();
    let tone = tone.map_or([0; 3], |tone| hex_tone(&tone));
    let seen = !words.trim().is_empty();
    seen.then(|| Drawn::Text { layer, words: words.clone(), start, turn, em: number("font-size"), tone })
}

/// Reads every page of a PDF.
pub fn from_pdf(bytes: &[u8]) -> Vec<Page> {
    let document = lopdf::Document::load_mem(bytes).expect("a PDF");
    document.get_pages().into_values().map(|page| PdfReader::read(&document, page)).collect()
}

/// Names of the layers in the order of the file's list.
pub fn pdf_layers(bytes: &[u8]) -> Vec<String> {
    let document = lopdf::Document::load_mem(bytes).expect("a PDF");
    let properties = document.catalog().unwrap().get(b"OCProperties").unwrap().as_dict().unwrap();
    let groups = properties.get(b"OCGs").unwrap().as_array().unwrap();
    groups.iter().map(|group| ocg_name(&document, group.as_reference().unwrap())).collect()
}

fn ocg_name(document: &lopdf::Document, id: lopdf::ObjectId) -> String {
    let name = document.get_dictionary(id).unwrap().get(b"Name").unwrap().as_str().unwrap();
    String::from_utf8_lossy(name).into_owned()
}

/// What a page's content has set so far.
struct PdfReader {
    layers: BTreeMap<Vec<u8>, String>,
    unicode: BTreeMap<u16, String>,
    page: Page,
    layer: String,
    shape: BezPath,
    stroke: [u8; 3],
    fill: [u8; 3],
    width: f64,
    dash: Vec<f64>,
    em: f64,
    matrix: Vec<f64>,
}

impl PdfReader {
    fn read(document: &lopdf::Document, id: lopdf::ObjectId) -> Page {
        let page = document.get_dictionary(id).unwrap();
        let media: Vec<f64> = numbers(page.get(b"MediaBox").unwrap().as_array().unwrap());
        let resources = page.get(b"Resources").unwrap().as_reference().unwrap();
        let resources = document.get_dictionary(resources).unwrap();
        let mut layers = BTreeMap::new();
        if let Ok(properties) = resources.get(b"Properties") {
            for (name, group) in properties.as_dict().unwrap().iter() {
                layers.insert(name.clone(), ocg_name(document, group.as_reference().unwrap()));
            }
        }
        let mut reader = Self {
            layers,
            unicode: to_unicode(document, id),
            page: Page { width: media[2] / POINTS, height: media[3] / POINTS, drawn: vec![] },
            layer: String::new(),
            shape: BezPath::new(),
            stroke: [0; 3],
            fill: [0; 3],
            width: 1.0,
            dash: vec![],
            em: 0.0,
            matrix: vec![],
        };
        let content = document.get_page_content(id);
        for step in lopdf::content::Content::decode(&content).unwrap().operations {
            reader.step(&step.operator, &step.operands);
        }
        reader.page
    }

    fn step(&mut self, operator: &str, operands: &[lopdf::Object]) {
        let n = numbers(operands);
        let at = |i: usize| Point::new(n[i] / POINTS, n[i + 1] / POINTS);
        match operator {
            "m" => self.shape.move_to(at(0)),
            "l" => self.shape.line_to(at(0)),
            "c" => self.shape.curve_to(at(0), at(2), at(4)),
            "h" => self.shape.close_path(),
            "w" => self.width = n[0] / POINTS,
            "d" => self.dash = numbers(operands[0].as_array().unwrap()).iter().map(|part| part / POINTS).collect(),
            "RG" => self.stroke = tone(&n),
            "rg" => self.fill = tone(&n),
            "S" => self.draw_lines(),
            "f*" => self.draw_fill(),
            "B*" => {
                self.draw_fill_of(self.shape.clone());
                self.draw_lines();
            }
            "Tf" => self.em = n[0] / POINTS,
            "Tm" => self.matrix = n,
            "Tj" => self.draw_text(operands[0].as_str().unwrap()),
            "BDC" => self.layer = self.layers[operands[1].as_name().unwrap()].clone(),
            "EMC" => self.layer.clear(),
            "J" | "j" | "BT" | "ET" => {}
            other => panic!("the reader does not know `{other}`"),
        }
    }

    /// Each part of the shape is a line of its own.
    fn draw_lines(&mut self) {
        let shape = std::mem::take(&mut self.shape);
        for shape in parts(&shape) {
            let (layer, width, dash, tone) = (self.layer.clone(), self.width, self.dash.clone(), self.stroke);
            self.page.drawn.push(Drawn::Line { layer, shape, width, dash, tone });
        }
    }

    fn draw_fill(&mut self) {
        let shape = std::mem::take(&mut self.shape);
        self.draw_fill_of(shape);
    }

    fn draw_fill_of(&mut self, shape: BezPath) {
        self.page.drawn.push(Drawn::Fill { layer: self.layer.clone(), shape, tone: self.fill });
    }

    fn draw_text(&mut self, codes: &[u8]) {
        let words = codes.chunks(2).map(|pair| self.unicode[&u16::from_be_bytes([pair[0], pair[1]])].as_str());
        let (words, m) = (words.collect(), &self.matrix);
        let start = Point::new(m[4] / POINTS, m[5] / POINTS);
        let turn = m[1].atan2(m[0]).to_degrees();
        let (layer, em, tone) = (self.layer.clone(), self.em, self.fill);
        self.page.drawn.push(Drawn::Text { layer, words, start, turn, em, tone });
    }
}

fn numbers(objects: &[lopdf::Object]) -> Vec<f64> {
    objects.iter().filter_map(|object| object.as_float().ok()).map(f64::from).collect()
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn tone(parts: &[f64]) -> [u8; 3] {
    [0, 1, 2].map(|i| (parts[i] * 255.0).round() as u8)
}

/// The characters of each glyph code, from the font's ToUnicode map (`bfchar` and `bfrange`).
fn to_unicode(document: &lopdf::Document, page: lopdf::ObjectId) -> BTreeMap<u16, String> {
    let mut codes = BTreeMap::new();
    for font in document.get_page_fonts(page).unwrap().values() {
        let stream = font.get(b"ToUnicode").unwrap().as_reference().unwrap();
        let stream = document.get_object(stream).unwrap().as_stream().unwrap();
        let map = stream.decompressed_content().unwrap_or_else(|_| stream.content.clone());
        read_map(std::str::from_utf8(&map).unwrap(), &mut codes);
    }
    codes
}

fn read_map(map: &str, codes: &mut BTreeMap<u16, String>) {
    let mut range = false;
    for line in map.lines() {
        if line.contains("beginbfrange") || line.contains("beginbfchar") {
            range = line.contains("beginbfrange");
        }
        let parts: Vec<&str> = line.split(['<', '>']).filter(|part| !part.trim().is_empty()).collect();
        if !line.starts_with('<') || parts.iter().any(|part| !part.chars().all(|c| c.is_ascii_hexdigit())) {
            continue;
        }
        let number = |i: usize| u16::from_str_radix(parts[i], 16).unwrap();
        if range {
            for code in number(0)..=number(1) {
                codes.insert(code, char::from_u32(u32::from(number(2) + code - number(0))).unwrap().to_string());
            }
        } else if parts.len() == 2 {
            let units: Vec<u16> = (0..parts[1].len() / 4)
                .map(|i| u16::from_str_radix(&parts[1][i * 4..i * 4 + 4], 16).unwrap())
                .collect();
            codes.insert(number(0), String::from_utf16(&units).unwrap());
        }
    }
}

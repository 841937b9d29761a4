//! Themes of the brochure: small files, two of them built in. What a file leaves out is as in `sober`.

use super::node::{Node, NodeValue};
use super::path::named_path;
use super::reader::{Fields, Reader};
use super::yaml;
use crate::base::number::trimmed;
use crate::base::text::{nearest, one_of};
use crate::diagnostic::{Diagnostic, Sink};
use crate::model::{Colour, Colours, Letters, Pattern, Theme, Widths};
use crate::source::{SourceMap, Spanned, World};

/// The themes inside the command. The first is used if none is named, and fills what a file leaves out.
const BUILT_IN: [(&str, &str); 2] =
    [("sober", include_str!("theme/sober.yaml")), ("warm", include_str!("theme/warm.yaml"))];

/// Heights of letters, widths of lines, boards and tiles that can be drawn, mm.
pub(super) const LETTERS: (f64, f64) = (1.0, 30.0);
pub(super) const WIDTHS: (f64, f64) = (0.05, 2.0);
pub(super) const SIZES: (f64, f64) = (40.0, 2000.0);

/// Keys of the colours.
pub(super) const COLOURS: [&str; 12] = [
    "paper",
    "floor",
    "furniture",
    "upholstery",
    "bedding",
    "wet",
    "glass",
    "wall",
    "people",
    "line",
    "floor-line",
    "text",
];
/// Patterns of floors.
pub(super) const PATTERNS: [&str; 3] = ["none", "boards", "tiles"];
/// Keys of the letters.
pub(super) const LETTER_KEYS: [&str; 5] = ["title", "caption", "figure", "name", "note"];
/// Keys of the lines.
pub(super) const LINE_KEYS: [&str; 4] = ["wall", "edge", "detail", "floor"];

/// Names of the built-in themes.
fn theme_names() -> impl Iterator<Item = &'static str> {
    BUILT_IN.iter().map(|(name, _)| *name)
}

/// The theme that a layout names: one that is built in, or a file whose path is relative to the file it is named in.
/// It may leave the layout's folder only with `allow_outside`. Mistakes go to the sink.
pub fn read_theme(
    world: &dyn World,
    layout_path: &str,
    named: Option<&Spanned<String>>,
    allow_outside: bool,
    (sources, sink): (&mut SourceMap, &mut Sink),
) -> Theme {
    let sober = built_in("sober", sources, sink).unwrap_or_default();
    let Some(named) = named else { return sober };
    if let Some(theme) = built_in(&named.value, sources, sink) {
        return theme;
    }
    if !is_path(&named.value) {
        sink.push(unknown(named));
        return sober;
    }
    let path = match named_path(layout_path, named, sources, allow_outside) {
        Ok(path) => path,
        Err(why) => {
            let error = Diagnostic::new(named.span, format!("`theme` {why}"));
            sink.push(error.help("keep the layout's theme in its folder"));
            return sober;
        }
    };
    match world.read(&path) {
        Ok(text) => parse(&path, &text, sober, sources, sink).unwrap_or(sober),
        Err(why) => {
            let error = Diagnostic::new(named.span, format!("the theme file `{path}` can't be read: {why}"));
            sink.push(error.help(format!("check its name and folder, or write {}", one_of(theme_names()))));
            sober
        }
    }
}

fn is_path(text: &str) -> bool {
    text.contains(['/', '\\']) || text.ends_with(".yaml") || text.ends_with(".yml")
}

fn unknown(named: &Spanned<String>) -> Diagnostic {
    let list = format!("write {}, or the path of a file such as `themes/our.yaml`", one_of(theme_names()));
    let help = match nearest(&named.value, theme_names()) {
        Some(meant) => format!("did you mean `{meant}`? {list}"),
        None => list,
    };
    Diagnostic::new(named.span, format!("there is no theme `{}`", named.value)).help(help)
}

fn built_in(name: &str, sources: &mut SourceMap, sink: &mut Sink) -> Option<Theme> {
    let (name, text) = BUILT_IN.iter().find(|(known, _)| *known == name)?;
    parse(&format!("themes/{name}.yaml"), text, Theme::default(), sources, sink)
}

fn parse(shown: &str, text: &str, base: Theme, sources: &mut SourceMap, sink: &mut Sink) -> Option<Theme> {
    let file = sources.add(shown.to_owned(), text.to_owned());
    let node = yaml::parse(file, text, sink)?;
    theme(&mut Reader::new(sources, sink), &node, base)
}

pub(super) fn theme(r: &mut Reader<'_>, node: &Node, base: Theme) -> Option<Theme> {
    let mut f = r.fields(node, "the theme")?;
    f.need(r, "theme", version);
    let colours = f.opt(r, "colours", |r, node| colours(r, node, base.colours)).unwrap_or(base.colours);
    let (pattern, size) = f.opt(r, "floor", |r, node| floor(r, node, &base)).unwrap_or((base.pattern, base.size));
    let letters = f.opt(r, "letters", |r, node| letters(r, node, base.letters)).unwrap_or(base.letters);
    let widths = f.opt(r, "lines", |r, node| widths(r, node, base.widths)).unwrap_or(base.widths);
    f.close(r);
    Some(Theme { colours, pattern, size, letters, widths })
}

fn version(r: &mut Reader<'_>, node: &Node) -> Option<()> {
    if node.value == NodeValue::Int(1) {
        return Some(());
    }
    r.error(Diagnostic::new(node.span, "this version of themes is not known").help("write `theme: 1`"));
    None
}

fn colours(r: &mut Reader<'_>, node: &Node, base: Colours) -> Option<Colours> {
    let mut f = r.fields(node, "`colours`")?;
    let [paper, floor, furniture, upholstery, bedding, wet, glass, wall, people, line, floor_line, text] =
        COLOURS.map(|key| colour(r, &mut f, key));
    f.close(r);
    Some(Colours {
        paper: paper.unwrap_or(base.paper),
        floor: floor.unwrap_or(base.floor),
        furniture: furniture.unwrap_or(base.furniture),
        upholstery: upholstery.unwrap_or(base.upholstery),
        bedding: bedding.unwrap_or(base.bedding),
        wet: wet.unwrap_or(base.wet),
        glass: glass.unwrap_or(base.glass),
        wall: wall.unwrap_or(base.wall),
        people: people.unwrap_or(base.people),
        line: line.unwrap_or(base.line),
        floor_line: floor_line.unwrap_or(base.floor_line),
        text: text.unwrap_or(base.text),
    })
}

/// `"#rrggbb"`. Without quotes it would be a comment, and nothing would stand there.
fn colour(r: &mut Reader<'_>, f: &mut Fields<'_>, key: &'static str) -> Option<Colour> {
    let node = f.section(key)?;
    let help = "write red, green and blue with six hexadecimal digits in quotes: `\"#c48a68\"`";
    if node.is_null() {
        let error = Diagnostic::new(f.key_span(key), format!("`{key}` has no colour"));
        r.error(error.help(format!("{help}; without quotes the rest of the line is a comment")));
        return None;
    }
    let text = r.text(node)?;
    let made = hexadecimal(&text.value);
    if made.is_none() {
        r.error(Diagnostic::new(node.span, format!("`{}` is not a colour", text.value)).help(help));
    }
    made
}

fn hexadecimal(text: &str) -> Option<Colour> {
    let digits = text.strip_prefix('#').filter(|digits| digits.len() == 6)?;
    let part = |at: usize| u8::from_str_radix(digits.get(at..at + 2)?, 16).ok();
    digits.bytes().all(|byte| byte.is_ascii_hexdigit()).then_some([part(0)?, part(2)?, part(4)?])
}

fn floor(r: &mut Reader<'_>, node: &Node, base: &Theme) -> Option<(Pattern, f64)> {
    let mut f = r.fields(node, "`floor`")?;
    let pattern = f.word(r, "pattern", &PATTERNS);
    let size = figure(r, &mut f, "size", SIZES).unwrap_or(base.size);
    f.close(r);
    let pattern = match pattern.as_ref().map(|word| word.value.as_str()) {
        Some("none") => Pattern::None,
        Some("boards") => Pattern::Boards,
        Some("tiles") => Pattern::Tiles,
        _ => base.pattern,
    };
    Some((pattern, size))
}

fn letters(r: &mut Reader<'_>, node: &Node, base: Letters) -> Option<Letters> {
    let mut f = r.fields(node, "`letters`")?;
    let [title, caption, figure, name, note] = LETTER_KEYS.map(|key| figure(r, &mut f, key, LETTERS));
    f.close(r);
    Some(Letters {
        title: title.unwrap_or(base.title),
        caption: caption.unwrap_or(base.caption),
        figure: figure.unwrap_or(base.figure),
        name: name.unwrap_or(base.name),
        note: note.unwrap_or(base.note),
    })
}

fn widths(r: &mut Reader<'_>, node: &Node, base: Widths) -> Option<Widths> {
    let mut f = r.fields(node, "`lines`")?;
    let [wall, edge, detail, floor] = LINE_KEYS.map(|key| figure(r, &mut f, key, WIDTHS));
    f.close(r);
    Some(Widths {
        wall: wall.unwrap_or(base.wall),
        edge: edge.unwrap_or(base.edge),
        detail: detail.unwrap_or(base.detail),
        floor: floor.unwrap_or(base.floor),
    })
}

/// A plain number of millimetres in a range.
fn figure(r: &mut Reader<'_>, f: &mut Fields<'_>, key: &'static str, (least, most): (f64, f64)) -> Option<f64> {
    let node = f.node(r, key)?;
    let range = format!("write millimetres from {} to {}", trimmed(least, 2), trimmed(most, 2));
    let value = match node.value {
        #[allow(clippy::cast_precision_loss, reason = "beyond 2^53 no length is meant")]
        NodeValue::Int(value) => value as f64,
        NodeValue::Float(value) => value,
        _ => {
            r.expected(node, &format!("`{key}` needs a number"), &range);
            return None;
        }
    };
    if (least..=most).contains(&value) {
        return Some(value);
    }
    r.error(Diagnostic::new(node.span, format!("`{key}` can't be {}", trimmed(value, 3))).help(range));
    None
}

#[cfg(test)]
mod tests;

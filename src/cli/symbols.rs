//! `boxwright symbols`: the furniture library, and what one symbol offers.

use super::arguments::Symbols;
use super::console::Console;
use super::outcome::Outcome;
use crate::base::text::nearest;
use crate::diagnostic::{Sink, report};
use crate::language::expression::Expr;
use crate::language::{SettingDoc, SettingKind, SymbolDoc, library_names, library_text, read_symbol};
use crate::source::SourceMap;
use std::io;

/// Lists the library, or shows one symbol.
pub(super) fn run(symbols: &Symbols, console: &mut Console) -> io::Result<Outcome> {
    let Some(name) = &symbols.name else {
        console.report(&list())?;
        return Ok(Outcome::Clean);
    };
    let Some(text) = library_text(name) else {
        console.complain(&unknown(name));
        return Ok(Outcome::Broken);
    };
    let (mut sources, mut errors) = (SourceMap::default(), Sink::default());
    match read_symbol(&format!("symbols/{name}.yaml"), text, name, &mut sources, &mut errors) {
        Some(symbol) => {
            console.report(&page(&symbol, &sources))?;
            Ok(Outcome::Clean)
        }
        None => {
            console.report(&report::errors(&errors, &sources, console.colour))?;
            Ok(Outcome::Broken)
        }
    }
}

fn list() -> String {
    let names = library_names();
    let width = names.iter().map(String::len).max().unwrap_or(0);
    names.iter().map(|name| format!("{name:width$}  {}\n", says(name))).collect()
}

/// What a symbol says of itself; empty if its file has mistakes, which its page then shows.
fn says(name: &str) -> String {
    let (mut sources, mut errors) = (SourceMap::default(), Sink::default());
    let symbol = library_text(name).and_then(|text| read_symbol(name, text, name, &mut sources, &mut errors));
    symbol.map(|symbol| symbol.says.value).unwrap_or_default()
}

fn unknown(name: &str) -> String {
    let names = library_names();
    let names = || names.iter().map(String::as_str);
    let last = |name: &str| name.rsplit('/').next().unwrap_or("").to_owned();
    match nearest(name, names()).or_else(|| names().find(|known| last(known) == last(name))) {
        Some(near) => format!("there is no symbol `{name}`; did you mean `{near}`?"),
        None => format!("there is no symbol `{name}`; `boxwright symbols` lists them all"),
    }
}

/// A symbol as a designer reads it: the expressions are shown as its file writes them.
fn page(symbol: &SymbolDoc, sources: &SourceMap) -> String {
    let text = |expr: &Expr| sources.text(expr.span).to_owned();
    let mut lines = vec![symbol.symbol.value.clone(), symbol.says.value.clone()];
    let sizes = ["run", "depth", "height"].into_iter().zip(&symbol.size);
    let sizes = sizes.map(|(name, size)| (name, text(&size.default), range(&text(&size.least), &text(&size.most))));
    lines.extend(table("Size, mm", sizes.map(|(name, default, range)| (name.to_owned(), default, range))));
    let settings = symbol
        .settings
        .iter()
        .map(|(name, setting)| (name.clone(), text(&setting.value.default), kind(&setting.value, sources)));
    lines.extend(table("Settings", settings));
    let poses = symbol.poses.iter().map(|(name, pose)| {
        let variables = pose.value.variables.iter().map(|(name, value)| format!("{name}: {}", text(&value.value)));
        (name.clone(), variables.collect::<Vec<_>>().join(", "), String::new())
    });
    if symbol.poses.len() > 1 {
        lines.extend(table("Poses, the first is the default", poses));
    }
    let exports = symbol.exports.iter().map(|(name, value)| (name.clone(), text(&value.value), String::new()));
    lines.extend(table("Values that layouts may use", exports));
    lines.join("\n") + "\n"
}

fn range(least: &str, most: &str) -> String {
    format!("{least} to {most}")
}

fn kind(setting: &SettingDoc, sources: &SourceMap) -> String {
    let text = |expr: &Expr| sources.text(expr.span).to_owned();
    match &setting.kind {
        SettingKind::Whole { least, most } => format!("whole number, {}", range(&text(least), &text(most))),
        SettingKind::Length { least, most } => format!("mm, {}", range(&text(least), &text(most))),
        SettingKind::YesNo => "yes or no".to_owned(),
        SettingKind::OneOf { values } => values.iter().map(|value| value.value.as_str()).collect::<Vec<_>>().join(", "),
    }
}

/// A heading with rows in columns; nothing when there are no rows.
fn table(heading: &str, rows: impl Iterator<Item = (String, String, String)>) -> Vec<String> {
    let rows: Vec<_> = rows.collect();
    let width = |column: fn(&(String, String, String)) -> usize| rows.iter().map(column).max().unwrap_or(0);
    let (first, second) = (width(|row| row.0.chars().count()), width(|row| row.1.chars().count()));
    let line = |(a, b, c): &(String, String, String)| format!("  {a:first$}  {b:second$}  {c}").trim_end().to_owned();
    let heading = (!rows.is_empty()).then(|| [String::new(), format!("{heading}:")]);
    heading.into_iter().flatten().chain(rows.iter().map(line)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_stands_in_columns() {
        let row = |a: &str, b: &str, c: &str| (a.to_owned(), b.to_owned(), c.to_owned());
        let lines = table("Size", [row("run", "1200", "300 to 2600"), row("depth", "560", "")].into_iter());
        assert_eq!(lines, ["", "Size:", "  run    1200  300 to 2600", "  depth  560"]);
        assert!(table("None", std::iter::empty()).is_empty());
    }
}

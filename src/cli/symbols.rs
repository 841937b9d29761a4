//! `boxwright symbols`: the furniture library, and what one symbol offers.

mod alone;

use super::arguments::Symbols;
use super::console::Console;
use super::disk::read_text;
use super::outcome::Outcome;
use crate::base::text::nearest;
use crate::diagnostic::{Sink, report};
use crate::language::expression::Expr;
use crate::language::{
    Named, RecipeDoc, SettingDoc, SettingKind, SymbolDoc, library_names, library_text, read_recipe, read_symbol,
    recipe_names, recipe_text,
};
use crate::source::{SourceMap, Spanned};
use std::io;
use std::path::Path;

/// The folder of recipes, beside the groups of symbols.
const RECIPES: &str = "recipes/";
/// A symbol's file is no longer than this, bytes.
const LARGEST: usize = 1 << 20;

/// Lists the library, or shows one symbol or recipe, of the library or in a file of one's own.
pub(super) fn run(symbols: &Symbols, console: &mut Console) -> io::Result<Outcome> {
    if let Some(folder) = &symbols.check {
        return alone::run(folder, console);
    }
    let Some(name) = &symbols.name else {
        console.report(&list())?;
        return Ok(Outcome::Clean);
    };
    let name = name.strip_suffix(".yaml").unwrap_or(name);
    let built_in = match name.strip_prefix(RECIPES) {
        Some(recipe) => recipe_text(recipe),
        None => library_text(name),
    };
    let path = format!("{name}.yaml");
    let text = match built_in {
        Some(text) => Ok(text.to_owned()),
        None if Path::new(&path).exists() => read_text(&path, LARGEST).map_err(|why| format!("{path}: {why}")),
        None => Err(unknown(name)),
    };
    let text = match text {
        Ok(text) => text,
        Err(why) => {
            console.complain(&why);
            return Ok(Outcome::Broken);
        }
    };
    let shown = if built_in.is_some() { format!("symbols/{path}") } else { path };
    let (mut sources, mut errors) = (SourceMap::default(), Sink::default());
    match described(&shown, &text, name, (&mut sources, &mut errors)) {
        Some(page) => {
            console.report(&page)?;
            Ok(Outcome::Clean)
        }
        None => {
            console.report(&report::errors(&errors, &sources, console.colour))?;
            Ok(Outcome::Broken)
        }
    }
}

/// The page of a symbol or a recipe, named by the last two steps of its path.
fn described(shown: &str, text: &str, path: &str, (sources, errors): (&mut SourceMap, &mut Sink)) -> Option<String> {
    let path = path.replace('\\', "/");
    let own = path.rmatch_indices('/').nth(1).map_or(path.as_str(), |(at, _)| path.get(at + 1..).unwrap_or_default());
    match own.strip_prefix(RECIPES) {
        Some(recipe) => read_recipe(shown, text, recipe, sources, errors).map(|recipe| recipe_page(&recipe, sources)),
        None => read_symbol(shown, text, own, sources, errors).map(|symbol| page(&symbol, sources)),
    }
}

fn list() -> String {
    let recipes: Vec<String> = recipe_names().iter().map(|name| format!("{RECIPES}{name}")).collect();
    let names = library_names();
    let width = names.iter().chain(&recipes).map(String::len).max().unwrap_or(0);
    let line = |name: &String, says: String| format!("{name:width$}  {says}\n");
    let symbols = names.iter().map(|name| line(name, says(name)));
    let heading = "\nRecipes, of which symbols make their pieces:\n".to_owned();
    symbols.chain([heading]).chain(recipes.iter().map(|name| line(name, recipe_says(name)))).collect()
}

/// What a recipe says of itself.
fn recipe_says(name: &str) -> String {
    let (mut sources, mut errors) = (SourceMap::default(), Sink::default());
    let own = name.strip_prefix(RECIPES).unwrap_or(name);
    let recipe = recipe_text(own).and_then(|text| read_recipe(name, text, own, &mut sources, &mut errors));
    recipe.map(|recipe| recipe.says.value).unwrap_or_default()
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
    lines.extend(settings(&symbol.settings, sources));
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

/// A recipe as the maker of a symbol reads it.
fn recipe_page(recipe: &RecipeDoc, sources: &SourceMap) -> String {
    let mut lines = vec![format!("{RECIPES}{}", recipe.recipe.value), recipe.says.value.clone()];
    lines.extend(settings(&recipe.settings, sources));
    let parts = recipe.parts.iter().map(|(name, part)| {
        let stock = part.value.stock.value.clone();
        (name.clone(), stock, String::new())
    });
    lines.extend(table("Parts and their stocks", parts));
    lines.join("\n") + "\n"
}

fn settings(settings: &Named<SettingDoc>, sources: &SourceMap) -> Vec<String> {
    let row = |(name, setting): (&String, &Spanned<SettingDoc>)| {
        let default = sources.text(setting.value.default.span).to_owned();
        (name.clone(), default, kind(&setting.value, sources))
    };
    table("Settings", settings.iter().map(row))
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

//! Symbols by name: from the layout's own folders first, then from the built-in library.

use super::lower_symbol::{lower, lower_recipe};
use super::path::{folder_of, follow, join};
use super::symbol::{RecipeDoc, SymbolDoc};
use super::yaml;
use crate::base::content::Key;
use crate::base::memo::Memo;
use crate::base::text::nearest;
use crate::diagnostic::{Diagnostic, Sink};
use crate::language::symbol_name::{RECIPES, is_symbol_name};
use crate::source::{FileId, SourceMap, Spanned, World};
use include_dir::{Dir, include_dir};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

static LIBRARY: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/symbols");

/// Names of all built-in symbols, sorted.
#[must_use]
pub fn library_names() -> Vec<String> {
    let files = LIBRARY.dirs().flat_map(Dir::files);
    let names =
        files.filter_map(|file| file.path().to_str()?.strip_suffix(".yaml").map(|name| name.replace('\\', "/")));
    let mut names: Vec<String> = names.filter(|name| is_symbol_name(name)).collect();
    names.sort();
    names
}

/// The text of a built-in symbol.
#[must_use]
pub fn library_text(name: &str) -> Option<&'static str> {
    if !is_symbol_name(name) {
        return None;
    }
    LIBRARY.get_file(format!("{name}.yaml")).and_then(|file| file.contents_utf8())
}

/// Reads a symbol from a text. `shown` is the file's name in messages, `name` what the symbol has to be called.
/// Nothing comes back when the text has any mistake; the mistakes go to the sink.
pub fn read_symbol(shown: &str, text: &str, name: &str, sources: &mut SourceMap, sink: &mut Sink) -> Option<SymbolDoc> {
    let file = sources.add(shown.to_owned(), text.to_owned());
    symbol_of(shown, (text, file), name, sources, sink)
}

fn symbol_of(
    shown: &str,
    (text, file): (&str, FileId),
    name: &str,
    sources: &SourceMap,
    sink: &mut Sink,
) -> Option<SymbolDoc> {
    let count = |sink: &Sink| sink.errors().len() + sink.dropped();
    let before = count(sink);
    let node = yaml::parse(file, text, sink)?;
    let symbol = lower(&node, sources, sink).filter(|_| count(sink) == before)?;
    if symbol.symbol.value != name {
        let message = format!("the file `{shown}` holds the symbol `{}`", symbol.symbol.value);
        sink.push(
            Diagnostic::new(symbol.symbol.span, message).help(format!("write `symbol: {name}`, or move the file")),
        );
        return None;
    }
    Some(symbol)
}

/// Names of all built-in recipes, sorted.
#[must_use]
pub fn recipe_names() -> Vec<String> {
    let files = LIBRARY.get_dir(RECIPES).into_iter().flat_map(Dir::files);
    let mut names: Vec<String> = files.filter_map(|file| Some(file.path().file_stem()?.to_str()?.to_owned())).collect();
    names.sort();
    names
}

/// The text of a built-in recipe.
#[must_use]
pub fn recipe_text(name: &str) -> Option<&'static str> {
    LIBRARY.get_file(format!("{RECIPES}/{name}.yaml")).and_then(|file| file.contents_utf8())
}

/// Reads a recipe from a text, as [`read_symbol`] does a symbol.
pub fn read_recipe(shown: &str, text: &str, name: &str, sources: &mut SourceMap, sink: &mut Sink) -> Option<RecipeDoc> {
    let file = sources.add(shown.to_owned(), text.to_owned());
    recipe_of(shown, (text, file), name, sources, sink)
}

fn recipe_of(
    shown: &str,
    (text, file): (&str, FileId),
    name: &str,
    sources: &SourceMap,
    sink: &mut Sink,
) -> Option<RecipeDoc> {
    let count = |sink: &Sink| sink.errors().len() + sink.dropped();
    let before = count(sink);
    let node = yaml::parse(file, text, sink)?;
    let recipe = lower_recipe(&node, sources, sink).filter(|_| count(sink) == before)?;
    if recipe.recipe.value == name {
        return Some(recipe);
    }
    let message = format!("the file `{shown}` holds the recipe `{}`", recipe.recipe.value);
    sink.push(Diagnostic::new(recipe.recipe.span, message).help(format!("write `recipe: {name}`, or move the file")));
    None
}

/// Names of all hardware that built-in symbols and recipes list.
#[must_use]
pub fn library_hardware() -> BTreeSet<String> {
    let symbols = library_names().into_iter().filter_map(|name| library_text(&name));
    let texts = symbols.chain(recipe_names().into_iter().filter_map(|name| recipe_text(&name)));
    let listed = |text: &str| {
        let root = yaml::parse(FileId::default(), text, &mut Sink::default())?;
        Some(root.as_map()?.get("hardware")?.node.as_map()?.keys().cloned().collect::<Vec<_>>())
    };
    texts.filter_map(listed).flatten().collect()
}

/// Finds and keeps the symbols of one layout.
pub struct Symbols<'a> {
    world: &'a dyn World,
    layout_path: String,
    folders: Vec<Spanned<String>>,
    allow_outside: bool,
    resolved: Option<Vec<String>>,
    /// The folders from which something was taken.
    taken: BTreeSet<String>,
    memo: &'a Memo,
    kept: BTreeMap<String, Option<Arc<SymbolDoc>>>,
    recipes: BTreeMap<String, Option<Arc<RecipeDoc>>>,
}

impl<'a> Symbols<'a> {
    /// `folders` are those that the layout names under `symbols`, relative to the file they are written in.
    pub fn new(
        world: &'a dyn World,
        layout_path: &str,
        (folders, allow_outside): (&[Spanned<String>], bool),
        memo: &'a Memo,
    ) -> Self {
        let (layout_path, folders) = (layout_path.to_owned(), folders.to_vec());
        Self {
            world,
            layout_path,
            folders,
            allow_outside,
            memo,
            resolved: None,
            taken: BTreeSet::new(),
            kept: BTreeMap::new(),
            recipes: BTreeMap::new(),
        }
    }

    /// The symbol of a name. A symbol is read once; its mistakes are reported once.
    pub fn get(&mut self, name: &Spanned<String>, sources: &mut SourceMap, sink: &mut Sink) -> Option<Arc<SymbolDoc>> {
        if let Some(kept) = self.kept.get(&name.value) {
            return kept.clone();
        }
        let found = self.find(name, sources, sink).and_then(|symbol| self.with_recipes(symbol, sources, sink));
        self.kept.insert(name.value.clone(), found.clone());
        found
    }

    fn find(&mut self, name: &Spanned<String>, sources: &mut SourceMap, sink: &mut Sink) -> Option<Arc<SymbolDoc>> {
        if !is_symbol_name(&name.value) {
            sink.push(unknown(name, &[]));
            return None;
        }
        let folders = self.folders(sources, sink);
        for folder in &folders {
            let path = join(folder, &format!("{}.yaml", name.value));
            if self.world.exists(&path) {
                self.taken.insert(folder.clone());
                return self.read(&path, name, sources, sink);
            }
        }
        match library_text(&name.value) {
            Some(text) => self.parsed(&format!("symbols/{}.yaml", name.value), text, &name.value, (sources, sink)),
            None if folders.len() < self.folders.len() => None,
            None => {
                sink.push(unknown(name, &folders));
                None
            }
        }
    }

    /// The symbol of a text, which is read once and then known again.
    fn parsed(
        &self,
        shown: &str,
        text: &str,
        name: &str,
        (sources, sink): (&mut SourceMap, &mut Sink),
    ) -> Option<Arc<SymbolDoc>> {
        let file = sources.add(shown.to_owned(), text.to_owned());
        let content = Key::of(&((shown, name), text, file.0));
        self.memo.find("symbol", content, || {
            let symbol = symbol_of(shown, (text, file), name, sources, sink)?;
            Some(SymbolDoc { content, ..symbol })
        })
    }

    /// The symbol with the recipes of all its pieces.
    fn with_recipes(
        &mut self,
        symbol: Arc<SymbolDoc>,
        sources: &mut SourceMap,
        sink: &mut Sink,
    ) -> Option<Arc<SymbolDoc>> {
        let recipes = symbol.pieces.values().map(|piece| self.recipe(&piece.value.recipe, sources, sink));
        let recipes: Vec<Option<Arc<RecipeDoc>>> = recipes.collect();
        let recipes: Vec<Arc<RecipeDoc>> = recipes.into_iter().collect::<Option<_>>()?;
        if recipes.is_empty() {
            return Some(symbol);
        }
        let contents: Vec<Key> = recipes.iter().map(|recipe| recipe.content).collect();
        let content = Key::of(&(symbol.content, contents));
        let whole = || {
            let mut whole = SymbolDoc { content, ..(*symbol).clone() };
            for (piece, recipe) in whole.pieces.values_mut().zip(&recipes) {
                piece.value.made = Some(Arc::clone(recipe));
            }
            whole
        };
        Some(self.memo.get("whole symbol", content, whole))
    }

    /// The recipe of a name, from the folder `recipes` of the layout's own symbols or of the library.
    fn recipe(&mut self, name: &Spanned<String>, sources: &mut SourceMap, sink: &mut Sink) -> Option<Arc<RecipeDoc>> {
        if let Some(kept) = self.recipes.get(&name.value) {
            return kept.clone();
        }
        let file = format!("{RECIPES}/{}.yaml", name.value);
        let folders = self.folders(sources, sink);
        let own = folders.into_iter().find(|folder| self.world.exists(&join(folder, &file)));
        self.taken.extend(own.clone());
        let own = own.map(|folder| join(&folder, &file));
        let built_in = || recipe_text(&name.value).map(str::to_owned);
        let (text, shown) = match own {
            Some(path) => (self.world.read(&path).ok(), path),
            None => (built_in(), format!("symbols/{file}")),
        };
        let found = match text {
            Some(text) => self.parsed_recipe(&shown, &text, &name.value, (sources, sink)),
            None => {
                sink.push(unknown_recipe(name));
                None
            }
        };
        self.recipes.insert(name.value.clone(), found.clone());
        found
    }

    fn parsed_recipe(
        &self,
        shown: &str,
        text: &str,
        name: &str,
        (sources, sink): (&mut SourceMap, &mut Sink),
    ) -> Option<Arc<RecipeDoc>> {
        let file = sources.add(shown.to_owned(), text.to_owned());
        let content = Key::of(&((shown, name), text, file.0));
        self.memo.find("recipe", content, || {
            let recipe = recipe_of(shown, (text, file), name, sources, sink)?;
            Some(RecipeDoc { content, ..recipe })
        })
    }

    fn read(
        &self,
        path: &str,
        name: &Spanned<String>,
        sources: &mut SourceMap,
        sink: &mut Sink,
    ) -> Option<Arc<SymbolDoc>> {
        match self.world.read(path) {
            Ok(text) => self.parsed(path, &text, &name.value, (sources, sink)),
            Err(why) => {
                let error = Diagnostic::new(name.span, format!("the symbol file `{path}` can't be read: {why}"));
                sink.push(error.help("check the file, or remove it to use the built-in symbol"));
                None
            }
        }
    }

    /// The layout's own folders from which nothing was taken, as they are written.
    pub fn unused(&mut self, sources: &SourceMap) -> Vec<Spanned<String>> {
        let folders = self.folders(sources, &mut Sink::default());
        // Where one has no path, that was reported.
        let paired = folders.len() == self.folders.len();
        let all = self.folders.iter().zip(folders).filter(|(_, path)| paired && !self.taken.contains(path));
        all.map(|(written, _)| written.clone()).collect()
    }

    /// The layout's own folders as paths, worked out once.
    fn folders(&mut self, sources: &SourceMap, sink: &mut Sink) -> Vec<String> {
        if let Some(resolved) = &self.resolved {
            return resolved.clone();
        }
        let root = folder_of(&self.layout_path);
        let mut resolved = Vec::new();
        for folder in &self.folders {
            let file = sources.file(folder.span.file).map_or(self.layout_path.as_str(), |file| file.name.as_str());
            match follow(root, folder_of(file), &folder.value, self.allow_outside) {
                Ok(path) => resolved.push(path),
                Err(why) => {
                    let error = Diagnostic::new(folder.span, format!("`symbols` {why}"));
                    sink.push(error.help("keep the layout's symbols in its folder"));
                }
            }
        }
        self.resolved = Some(resolved.clone());
        resolved
    }
}

fn unknown_recipe(name: &Spanned<String>) -> Diagnostic {
    let known = recipe_names();
    let error = Diagnostic::new(name.span, format!("there is no recipe `{}`", name.value));
    match nearest(&name.value, known.iter().map(String::as_str)) {
        Some(meant) => error.help(format!("did you mean `{meant}`?")),
        None => error.help(format!("recipes are {}", crate::base::text::one_of(known.iter().map(String::as_str)))),
    }
}

fn unknown(name: &Spanned<String>, folders: &[String]) -> Diagnostic {
    let known = library_names();
    let error = Diagnostic::new(name.span, format!("there is no symbol `{}`", name.value));
    let last = |name: &str| name.rsplit('/').next().unwrap_or("").to_owned();
    let same_name = known.iter().find(|known| last(known) == last(&name.value)).map(String::as_str);
    if let Some(meant) = nearest(&name.value, known.iter().map(String::as_str)).or(same_name) {
        return error.help(format!("did you mean `{meant}`?"));
    }
    let group = name.value.split('/').next().unwrap_or("");
    let group: Vec<&str> =
        known.iter().filter(|known| known.split('/').next() == Some(group)).map(String::as_str).collect();
    let places = if folders.is_empty() {
        "the built-in library".to_owned()
    } else {
        format!("{} and the built-in library", folders.join(", "))
    };
    if group.is_empty() {
        error.help(format!("it was looked for in {places}"))
    } else {
        error.help(format!("that group has {}", group.join(", ")))
    }
}

#[cfg(test)]
mod tests;

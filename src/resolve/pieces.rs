//! Pieces of a symbol: a recipe at a place, with its own names, settings and frame.

use super::instance::{Instance, default_value, is_word, kind_fits};
use super::names::{bare_word, minus_hint};
use super::piece::Piece;
use crate::base::number::trimmed;
use crate::base::text::{nearest, one_of};
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Diagnostic;
use crate::language::expression::{Expr, Failed, Scope, Value, evaluate};
use crate::language::{PieceDoc, RecipeDoc, SettingDoc, SettingKind};
use crate::source::{Span, Spanned};
use std::collections::BTreeMap;
use std::sync::Arc;

impl Instance<'_, '_> {
    /// Carries out `make` for every piece of a symbol, with the names of its recipe in force.
    pub fn pieces(&mut self, make: &mut impl FnMut(&mut Self, &RecipeDoc)) {
        let Ok(symbol) = self.symbol() else { return };
        for (name, entry) in &symbol.pieces {
            let doc = &entry.value;
            let Some(recipe) = doc.made.clone() else { continue };
            let _reported = self.repeat(doc.when.as_ref(), doc.each.as_ref(), |scope, _| {
                let piece = scope.piece(name, entry, Arc::clone(&recipe))?;
                scope.within(piece, |scope| make(scope, &recipe));
                Ok(())
            });
        }
    }

    fn piece(&mut self, name: &str, entry: &Spanned<PieceDoc>, recipe: Arc<RecipeDoc>) -> Result<Piece, Failed> {
        let doc = &entry.value;
        let [u, v, w] = &doc.at.ranges;
        let ranges = [self.range(u)?, self.range(v)?, self.range(w)?];
        let key = format!("{}:{name}{}", self.module_name(), self.turn_name());
        let mut piece = Piece {
            name: name.to_owned(),
            span: entry.span,
            origin: ranges.map(|range| range.0),
            size: ranges.map(|range| range.1 - range.0),
            settings: BTreeMap::new(),
            key,
            recipe: Arc::clone(&recipe),
        };
        for (setting, entry) in &doc.set {
            let Some(known) = recipe.settings.get(setting) else {
                return Err(self.unknown_setting(&recipe, setting, entry.span));
            };
            let value = self.chosen(&recipe, setting, &known.value, &entry.value)?;
            piece.settings.insert(setting.clone(), value);
        }
        Ok(piece)
    }

    /// The value that a symbol gives to a setting of a recipe; worked out among the names of the symbol.
    fn chosen(&mut self, recipe: &RecipeDoc, name: &str, known: &SettingDoc, expr: &Expr) -> Result<Value, Failed> {
        let words: Vec<String> = match &known.kind {
            SettingKind::OneOf { values } => values.iter().map(|value| value.value.clone()).collect(),
            _ => Vec::new(),
        };
        let word = bare_word(expr);
        let value = match (&known.kind, word) {
            (SettingKind::OneOf { .. }, Some(word)) if words.iter().any(|known| known == word) => {
                Value::Word(word.to_owned())
            }
            (SettingKind::YesNo, Some("yes")) => Value::Bool(true),
            (SettingKind::YesNo, Some("no")) => Value::Bool(false),
            _ => {
                self.words.clone_from(&words);
                let value = evaluate(expr, self);
                self.words.clear();
                value?
            }
        };
        let fits = match &value {
            Value::Word(word) => words.contains(word),
            Value::Number(number) => !matches!(known.kind, SettingKind::Whole { .. }) || number.fract() == 0.0,
            Value::Bool(_) => true,
        };
        if fits && kind_fits(&known.kind, &value) {
            return Ok(value);
        }
        let wanted = match &known.kind {
            SettingKind::OneOf { .. } => one_of(words.iter().map(String::as_str)),
            SettingKind::YesNo => "yes or no".to_owned(),
            SettingKind::Whole { .. } => "a whole number".to_owned(),
            SettingKind::Length { .. } => "a length".to_owned(),
        };
        let message = format!("`{name}` of the recipe `{}` must be {wanted}", recipe.recipe.value);
        Err(self.fail(Diagnostic::new(expr.span, message)))
    }

    fn unknown_setting(&mut self, recipe: &RecipeDoc, setting: &str, span: Span) -> Failed {
        let known: Vec<&str> = recipe.settings.keys().map(String::as_str).collect();
        let error = Diagnostic::new(span, format!("the recipe `{}` has no setting `{setting}`", recipe.recipe.value));
        self.fail(match nearest(setting, known.iter().copied()) {
            Some(near) => error.help(format!("did you mean `{near}`?")),
            None if known.is_empty() => error.help("it has no settings"),
            None => error.help(format!("it has {}", one_of(known))),
        })
    }

    /// The value of a name in a recipe: a size of its room, a setting, a `let` name.
    pub fn piece_name(&mut self, piece: &Piece, name: &str, span: Span) -> Result<Value, Failed> {
        let [run, depth, height] = piece.size;
        match name {
            "run" => return Ok(Value::Number(run)),
            "depth" => return Ok(Value::Number(depth)),
            "height" => return Ok(Value::Number(height)),
            _ => {}
        }
        if let Some(setting) = piece.recipe.settings.get(name) {
            return match piece.settings.get(name) {
                Some(value) => self.bounded(piece, name, &setting.value, value.clone()),
                None => default_value(self, &piece.recipe.recipe.value, name, &setting.value),
            };
        }
        if let Some(expr) = piece.recipe.lets.get(name) {
            return self.piece_let(piece, name, &expr.value, span);
        }
        if is_word(&piece.recipe.settings, name) {
            return Ok(Value::Word(name.to_owned()));
        }
        let names = ["run", "depth", "height"].into_iter();
        let names = names.chain(piece.recipe.settings.keys().map(String::as_str));
        let near = nearest(name, names.chain(piece.recipe.lets.keys().map(String::as_str)));
        let error = Diagnostic::new(span, format!("unknown name `{name}` in this recipe"));
        let error = match (minus_hint(name), near) {
            (Some(help), _) => error.help(help),
            (None, Some(near)) => error.help(format!("did you mean `{near}`?")),
            (None, None) => error.help("a recipe knows the sizes of its room, its settings and its `let` names"),
        };
        Err(self.fail(error))
    }

    fn piece_let(&mut self, piece: &Piece, name: &str, expr: &Expr, span: Span) -> Result<Value, Failed> {
        let (module, pose, kept) = (self.module, self.pose(), self.piece.clone());
        self.resolver.once(format!("{}.{name}", piece.key), span, |resolver| {
            let mut scope = Instance::new(resolver, module, pose);
            scope.piece = kept;
            evaluate(expr, &mut scope)
        })
    }

    /// A value that a symbol gave, within the bounds that the recipe states.
    fn bounded(&mut self, piece: &Piece, name: &str, setting: &SettingDoc, value: Value) -> Result<Value, Failed> {
        let (SettingKind::Whole { least, most } | SettingKind::Length { least, most }, Value::Number(number)) =
            (&setting.kind, &value)
        else {
            return Ok(value);
        };
        let (low, high) = (self.figure(least)?, self.figure(most)?);
        if *number >= low - SAME_LENGTH && *number <= high + SAME_LENGTH {
            return Ok(value);
        }
        let message = format!(
            "`{name}` of piece `{}` is {}; the recipe takes {} to {}",
            piece.name,
            trimmed(*number, 2),
            trimmed(low, 2),
            trimmed(high, 2)
        );
        Err(self.fail(Diagnostic::new(piece.span, message).note(least.span, "its bounds")))
    }
}

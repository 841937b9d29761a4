//! The scope of a symbol's expressions: one module, maybe in one pose, maybe inside an `each`.

use super::edges::Edge;
use super::names::{Resolver, bare_word, minus_hint};
use super::piece::Piece;
use crate::base::number::micrometres;
use crate::base::text::nearest;
use crate::diagnostic::Diagnostic;
use crate::geometry::Axis;
use crate::language::expression::{Expr, Failed, Function, Scope, Value, evaluate, number, truth};
use crate::language::{EachDoc, Named, RangeDoc, SettingDoc, SettingKind, SymbolDoc, TALLEST};
use crate::model::MEDIAN_MAN;
use crate::source::{Span, Spanned};
use std::rc::Rc;
use std::sync::Arc;

/// Most items that one `each` may make.
const EACH_MOST: f64 = 1000.0;
/// Most items that all symbols of a layout may make together.
pub(super) const MADE_MOST: usize = 50_000;

/// The scope of one module's symbol.
pub(super) struct Instance<'r, 'a> {
    pub resolver: &'r mut Resolver<'a>,
    pub module: usize,
    pose: Option<usize>,
    /// Counters of the `each` lines around, the innermost last.
    counters: Vec<(String, f64)>,
    /// Thickness of the present part's stock.
    pub thickness: Option<f64>,
    /// The piece whose recipe's names are in force, if any.
    pub piece: Option<Rc<Piece>>,
    /// Words that stand for themselves, beside those of the symbol's own settings.
    pub words: Vec<String>,
}

impl<'r, 'a> Instance<'r, 'a> {
    pub fn new(resolver: &'r mut Resolver<'a>, module: usize, pose: Option<usize>) -> Self {
        Self { resolver, module, pose, counters: Vec::new(), thickness: None, piece: None, words: Vec::new() }
    }

    pub fn symbol(&self) -> Result<Arc<SymbolDoc>, Failed> {
        self.resolver.symbols.get(self.module).cloned().flatten().ok_or(Failed)
    }

    /// Runs `make` with the names of a piece's recipe alone.
    pub fn within(&mut self, piece: Piece, make: impl FnOnce(&mut Self)) {
        let counters = std::mem::take(&mut self.counters);
        self.piece = Some(Rc::new(piece));
        make(self);
        self.piece = None;
        self.counters = counters;
    }

    /// The counters in force, as a text that tells one turn from another.
    pub fn turn_name(&self) -> String {
        self.counters.iter().map(|(_, index)| format!("#{index}")).collect()
    }

    pub fn pose(&self) -> Option<usize> {
        self.pose
    }

    pub fn module_name(&self) -> &'a str {
        self.resolver.doc.modules.get_index(self.module).map_or("", |(name, _)| name.as_str())
    }

    /// A figure within the bounds of lengths.
    pub fn figure(&mut self, expr: &Expr) -> Result<f64, Failed> {
        let value = number(expr, self)?;
        self.resolver.in_bounds(value, expr.span)
    }

    /// What the symbol exports, all of it, so that a broken one is not found years later.
    pub fn exports(&mut self, symbol: &SymbolDoc) -> Vec<(String, f64)> {
        let figure = |(name, entry): (&String, &Spanned<Expr>)| {
            number(&entry.value, self).ok().map(|figure| (name.clone(), micrometres(figure)))
        };
        symbol.exports.iter().filter_map(figure).collect()
    }

    /// A figure that must lie above zero.
    pub fn positive(&mut self, expr: &Expr, what: &str) -> Result<f64, Failed> {
        let value = self.figure(expr)?;
        self.resolver.above_zero(value, what, expr.span)
    }

    /// A range whose second figure is the larger one.
    pub fn range(&mut self, range: &RangeDoc) -> Result<(f64, f64), Failed> {
        let (low, high) = (self.figure(&range.low)?, self.figure(&range.high)?);
        if high - low > crate::base::tolerance::SAME_LENGTH {
            return Ok((low, high));
        }
        let show = |value| crate::base::number::trimmed(value, 2);
        let message = format!("this range goes from {} to {}", show(low), show(high));
        let help = format!("the second figure must be the larger one (in module `{}`)", self.module_name());
        let error = Diagnostic::new(range.high.span, message).help(help);
        Err(self.fail(self.placed_note(error)))
    }

    /// Adds the module that an error of a symbol comes from.
    fn placed_note(&self, error: Diagnostic) -> Diagnostic {
        match self.resolver.doc.modules.get_index(self.module) {
            Some((name, entry)) if entry.span.file != error.span.file => {
                error.note(entry.span, format!("module `{name}` uses this symbol"))
            }
            _ => error,
        }
    }

    /// Runs `make` once, or once for each value of the counter, where `when` holds.
    pub fn repeat(
        &mut self,
        when: Option<&Expr>,
        each: Option<&EachDoc>,
        mut make: impl FnMut(&mut Self, Option<u32>) -> Result<(), Failed>,
    ) -> Result<(), Failed> {
        let Some(each) = each else {
            self.count_one(when.map_or_else(Span::default, |when| when.span))?;
            return if self.holds(when)? { make(self, None) } else { Ok(()) };
        };
        let (from, turns) = self.turns(each)?;
        for turn in 0..turns {
            let index = from + f64::from(turn);
            self.count_one(each.span)?;
            self.counters.push((each.counter.clone(), index));
            let result = self.turn(when, index, &mut make);
            self.counters.pop();
            result?;
        }
        Ok(())
    }

    fn holds(&mut self, when: Option<&Expr>) -> Result<bool, Failed> {
        when.map_or(Ok(true), |when| truth(when, self))
    }

    fn turn(
        &mut self,
        when: Option<&Expr>,
        index: f64,
        make: &mut impl FnMut(&mut Self, Option<u32>) -> Result<(), Failed>,
    ) -> Result<(), Failed> {
        if !self.holds(when)? {
            return Ok(());
        }
        // The index is a whole number between -10^5 and 10^5; a negative one counts as 0 in names.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        make(self, Some(index.max(0.0) as u32))
    }

    /// The first value of a counter, and how many values it takes.
    fn turns(&mut self, each: &EachDoc) -> Result<(f64, u32), Failed> {
        let (from, to) = (self.figure(&each.from)?.round(), self.figure(&each.to)?.round());
        let turns = (to - from + 1.0).max(0.0);
        if turns <= EACH_MOST {
            // A whole number from 0 to 1000, checked just above.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            return Ok((from, turns as u32));
        }
        let message = format!("`each` would make {turns} items; at most {EACH_MOST} are allowed");
        let error = self.placed_note(Diagnostic::new(each.span, message));
        Err(self.fail(error))
    }

    /// Counts an item, also one whose `when` does not hold, against the bound; passing it is reported once.
    fn count_one(&mut self, span: Span) -> Result<(), Failed> {
        self.resolver.made += 1;
        if self.resolver.made <= MADE_MOST {
            return Ok(());
        }
        if self.resolver.made == MADE_MOST + 1 {
            let message = format!("the symbols of this layout make more than {MADE_MOST} items");
            let error = Diagnostic::new(span, message).help("use fewer modules or fewer repeats");
            return Err(self.fail(error));
        }
        Err(Failed)
    }

    fn setting(&mut self, symbol: &SymbolDoc, name: &str, setting: &SettingDoc, span: Span) -> Result<Value, Failed> {
        let key = format!("{}:{name}", self.module_name());
        let (module, doc) = (self.module, self.resolver.doc);
        self.resolver.once(key, span, |resolver| {
            let set = doc.modules.get_index(module).and_then(|(_, entry)| entry.value.set.get(name));
            match set {
                Some(entry) => set_value(resolver, name, setting, &entry.value),
                None => default_value(&mut Instance::new(resolver, module, None), &symbol.symbol.value, name, setting),
            }
        })
    }

    fn let_value(&mut self, name: &str, expr: &Expr, span: Span) -> Result<Value, Failed> {
        let pose = self.pose.map_or(String::new(), |pose| format!("@{pose}"));
        let key = format!("{}:{name}{pose}", self.module_name());
        let (module, pose) = (self.module, self.pose);
        self.resolver.once(key, span, |resolver| evaluate(expr, &mut Instance::new(resolver, module, pose)))
    }

    fn pose_variable(&mut self, symbol: &SymbolDoc, name: &str, span: Span) -> Option<Result<Value, Failed>> {
        let known = symbol.poses.values().any(|pose| pose.value.variables.contains_key(name));
        let pose = self.pose.and_then(|pose| symbol.poses.get_index(pose));
        match pose.and_then(|(pose_name, pose)| pose.value.variables.get(name).map(|expr| (pose_name, expr))) {
            Some((pose_name, expr)) => Some(self.let_value(&format!("{pose_name}.{name}"), &expr.value, span)),
            None if known => {
                let where_to =
                    pose.map_or_else(|| "outside a pose".to_owned(), |(name, _)| format!("in pose `{name}`"));
                let message = format!("the pose variable `{name}` has no value {where_to}");
                Some(Err(self.fail(Diagnostic::new(span, message).help("give it a value in every pose"))))
            }
            None => None,
        }
    }

    fn thickness_of(&mut self, stock: &str, span: Span) -> Result<Value, Failed> {
        let found = self.resolver.stocks.iter().find(|known| known.name == stock).map(|known| known.thickness);
        match found {
            Some(thickness) => Ok(Value::Number(thickness)),
            None => Err(self.fail(Diagnostic::new(span, format!("there is no stock `{stock}`")))),
        }
    }

    pub fn own_size(&mut self, name: &str) -> Option<Result<Value, Failed>> {
        let doc = self.resolver.doc;
        if name == TALLEST {
            let statures = doc.people.values().map(|person| person.value.stature.as_ref());
            let statures = statures.map(|stature| self.resolver.figure_or(stature, MEDIAN_MAN));
            let tallest = statures.filter_map(Result::ok).reduce(f64::max);
            return Some(Ok(Value::Number(tallest.unwrap_or(MEDIAN_MAN))));
        }
        let module = doc.modules.get_index(self.module).map(|(_, entry)| &entry.value)?;
        let along_x = super::edges::runs_along_x(module);
        let (axis, edge) = match name {
            "run" => (if along_x { Axis::X } else { Axis::Y }, Edge::Size),
            "depth" => (if along_x { Axis::Y } else { Axis::X }, Edge::Size),
            "height" => (Axis::Z, Edge::Size),
            "floor" => (Axis::Z, Edge::Low),
            _ => return None,
        };
        let key = format!("{}.{name}", self.module_name());
        let at = self.module;
        let span = module.place.span;
        Some(self.resolver.once(key, span, |resolver| {
            resolver.module_figure(at, axis, edge).map(|figure| Value::Number(micrometres(figure)))
        }))
    }

    fn unknown(&mut self, symbol: &SymbolDoc, name: &str, span: Span) -> Failed {
        let known = ["run", "depth", "height", "floor"]
            .into_iter()
            .chain(symbol.settings.keys().map(String::as_str))
            .chain(symbol.lets.keys().map(String::as_str));
        let error = Diagnostic::new(span, format!("unknown name `{name}` in this symbol"));
        let error = match (minus_hint(name), nearest(name, known)) {
            (Some(help), _) => error.help(help),
            (None, Some(near)) => error.help(format!("did you mean `{near}`?")),
            (None, None) => error.help("a symbol knows its sizes, settings, `let` names and pose variables"),
        };
        self.fail(error)
    }
}

impl Scope for Instance<'_, '_> {
    fn name(&mut self, name: &str, span: Span) -> Result<Value, Failed> {
        if let Some((_, index)) = self.counters.iter().rev().find(|(counter, _)| counter == name) {
            return Ok(Value::Number(*index));
        }
        if let (Some(thickness), "t") = (self.thickness, name) {
            return Ok(Value::Number(thickness));
        }
        if let Some(stock) = name.strip_prefix("t.") {
            return self.thickness_of(stock, span);
        }
        if let Some(piece) = self.piece.clone() {
            return self.piece_name(&piece, name, span);
        }
        if let Some(size) = self.own_size(name) {
            return size;
        }
        let symbol = self.symbol()?;
        if let Some(setting) = symbol.settings.get(name) {
            return self.setting(&symbol, name, &setting.value, span);
        }
        if let Some(expr) = symbol.lets.get(name) {
            return self.let_value(name, &expr.value, span);
        }
        if let Some(value) = self.pose_variable(&symbol, name, span) {
            return value;
        }
        if is_word(&symbol.settings, name) || self.words.iter().any(|word| word == name) {
            return Ok(Value::Word(name.to_owned()));
        }
        Err(self.unknown(&symbol, name, span))
    }

    fn lining(&mut self, function: Function, arguments: &[f64], span: Span) -> Result<f64, Failed> {
        let (Function::Ceiling, [u, v]) = (function, arguments) else {
            let error = Diagnostic::new(span, "a symbol asks for the lining with `ceiling(u, v)`");
            return Err(self.fail(error));
        };
        let frame = self.resolver.frame(self.module)?;
        let Some(roof) = &self.resolver.roof else { return Err(Failed) };
        let [du, dv, dw] = self.piece.as_ref().map_or([0.0; 3], |piece| piece.origin);
        let place = frame.point(*u + du, *v + dv, dw);
        Ok(micrometres(roof.height_at(place.y) - place.z))
    }

    fn fail(&mut self, error: Diagnostic) -> Failed {
        let error = match &self.piece {
            Some(piece) => piece.noted(error),
            None => error,
        };
        self.resolver.error(error)
    }

    fn depth(&mut self) -> &mut usize {
        Scope::depth(self.resolver)
    }
}

/// Whether a name is a value of a `one-of` setting.
pub(super) fn is_word(settings: &Named<SettingDoc>, name: &str) -> bool {
    settings.values().any(|setting| match &setting.value.kind {
        SettingKind::OneOf { values } => values.iter().any(|value| value.value == name),
        _ => false,
    })
}

pub(super) fn default_value(
    scope: &mut Instance<'_, '_>,
    owner: &str,
    name: &str,
    setting: &SettingDoc,
) -> Result<Value, Failed> {
    let value = match (&setting.kind, bare_word(&setting.default)) {
        (SettingKind::OneOf { values }, Some(word)) if values.iter().any(|value| value.value == word) => {
            Value::Word(word.to_owned())
        }
        (SettingKind::YesNo, Some("yes")) => Value::Bool(true),
        (SettingKind::YesNo, Some("no")) => Value::Bool(false),
        _ => evaluate(&setting.default, scope)?,
    };
    if kind_fits(&setting.kind, &value) {
        return Ok(value);
    }
    let message = format!("the default of `{name}` in `{owner}` is not of its kind");
    Err(scope.fail(Diagnostic::new(setting.default.span, message)))
}

pub(super) fn kind_fits(kind: &SettingKind, value: &Value) -> bool {
    matches!(
        (kind, value),
        (SettingKind::Whole { .. } | SettingKind::Length { .. }, Value::Number(_))
            | (SettingKind::YesNo, Value::Bool(_))
            | (SettingKind::OneOf { .. }, Value::Word(_))
    )
}

/// The value that a layout sets, by the setting's kind; the bounds are checked when the module is made.
fn set_value(resolver: &mut Resolver<'_>, name: &str, setting: &SettingDoc, expr: &Expr) -> Result<Value, Failed> {
    match (&setting.kind, bare_word(expr)) {
        (SettingKind::YesNo, Some("yes")) => Ok(Value::Bool(true)),
        (SettingKind::YesNo, Some("no")) => Ok(Value::Bool(false)),
        (SettingKind::YesNo, _) => truth(expr, resolver).map(Value::Bool),
        (SettingKind::OneOf { values }, word) => {
            let words: Vec<&str> = values.iter().map(|value| value.value.as_str()).collect();
            if let Some(word) = word.filter(|word| words.contains(word)) {
                return Ok(Value::Word(word.to_owned()));
            }
            let message = format!("`{name}` must be {}", crate::base::text::one_of(words.iter().copied()));
            let mut error = Diagnostic::new(expr.span, message);
            if let Some(near) = word.and_then(|word| nearest(word, words.iter().copied())) {
                error = error.help(format!("did you mean `{near}`?"));
            }
            Err(resolver.error(error))
        }
        (SettingKind::Whole { .. }, _) => {
            let value = number(expr, resolver)?;
            if value.fract() == 0.0 {
                return Ok(Value::Number(value));
            }
            Err(resolver.error(Diagnostic::new(expr.span, format!("`{name}` must be a whole number, not {value}"))))
        }
        (SettingKind::Length { .. }, _) => resolver.figure(expr).map(Value::Number),
    }
}

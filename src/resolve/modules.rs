//! Modules: placement and everything their symbols make.

use super::edges::Given;
use super::edges::runs_along_x;
use super::frame::Frame;
use super::furniture::Made;
use super::instance::Instance;
use super::members::size_index;
use super::names::Resolver;
use super::parts::connections;
use crate::base::content::Key;
use crate::base::number::trimmed;
use crate::base::text::{nearest, one_of};
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Diagnostic;
use crate::geometry::Axis;
use crate::language::expression::{Expr, Failed, Scope, Value};
use crate::language::{ModuleDoc, SettingKind, SymbolDoc};
use crate::model::{Misfit, MisfitKind, Module, Need};
use crate::source::{Span, Spanned};

impl Resolver<'_> {
    /// All modules that could be made, in file order.
    pub fn modules(&mut self) -> Vec<Module> {
        let doc = self.doc;
        let around = Key::shown(&(&self.roof, &self.stocks));
        let mut made = Vec::new();
        for (at, (name, entry)) in doc.modules.iter().enumerate() {
            if let Ok(module) = self.module(at, name, entry, around) {
                made.push(module);
            }
        }
        made
    }

    fn module(&mut self, at: usize, name: &str, entry: &Spanned<ModuleDoc>, around: Key) -> Result<Module, Failed> {
        let module = &entry.value;
        self.misfits.clear();
        let placed = self.check_place(name, module, entry.span);
        let symbol = self.symbols.get(at).cloned().flatten().ok_or(Failed)?;
        let settings = self.check_settings(at, name, module, &symbol);
        let zone = self.zone_of(module);
        placed?;
        let frame = self.frame(at)?;
        self.check_sizes(at, name, module, &symbol, &frame)?;
        settings?;
        let misfits = std::mem::take(&mut self.misfits);
        let made = match misfits.is_empty() {
            true => self.furniture((at, name), &symbol, &frame, around),
            false => self.in_spite((at, name), &symbol, &frame, around),
        };
        let Made { poses, parts, together, hardware, masses, .. } = made;
        let used_outside = module.used_from.as_ref().is_some_and(|from| from.value == "outside");
        let through = self.through_of(module);
        let sleepers = self.takers(&module.sleepers, Need::Lying, &poses, name);
        let riders = self.takers(&module.riders, Need::Sitting, &poses, name);
        Ok(Module {
            name: name.to_owned(),
            symbol: symbol.symbol.value.clone(),
            says: symbol.says.value.clone(),
            faces: frame.faces,
            extent: frame.extent,
            zone,
            outside: symbol.outside,
            used_outside: symbol.outside || used_outside,
            through,
            sleepers,
            riders,
            poses,
            parts,
            together,
            hardware,
            masses,
            connects: connections(&symbol),
            misfits,
            span: entry.span,
            place_span: if module.place.span == Span::default() { entry.span } else { module.place.span },
        })
    }

    fn check_place(&mut self, name: &str, module: &ModuleDoc, span: Span) -> Result<(), Failed> {
        let place_span = if module.place.span == Span::default() { span } else { module.place.span };
        let what = format!("module `{name}`");
        let mut result = Ok(());
        for axis in [Axis::X, Axis::Y, Axis::Z] {
            let index = size_index(module, axis);
            let size = module.size.get(index).and_then(Option::as_ref);
            let given = Given::of_place(&module.place, axis).with_size(size);
            let size_name = ["run", "depth", "height"].get(index).copied().unwrap_or("run");
            if axis != Axis::Z {
                result = result.and(self.refuse_no_edge(given, axis, &what, place_span));
            }
            if let Some((last, span)) = self.too_many(given, axis, &what, size_name) {
                let what = last.to_owned();
                self.misfits.push(Misfit { kind: MisfitKind::Place, what, figure: 0.0, range: (0.0, 0.0), span });
            }
        }
        result
    }

    fn check_sizes(
        &mut self,
        at: usize,
        name: &str,
        module: &ModuleDoc,
        symbol: &SymbolDoc,
        frame: &Frame,
    ) -> Result<(), Failed> {
        let mut result = Ok(());
        let along_x = runs_along_x(module);
        for axis in [Axis::X, Axis::Y, Axis::Z] {
            let (low, high) = frame.extent.range(axis);
            let index = size_index(module, axis);
            let word = ["run", "depth", "height"].get(index).copied().unwrap_or("run");
            let Some(size) = symbol.size.get(index) else { continue };
            let (Ok(least), Ok(most)) = (self.symbol_figure(at, &size.least), self.symbol_figure(at, &size.most))
            else {
                result = Err(Failed);
                continue;
            };
            let figure = high - low;
            if figure >= least - SAME_LENGTH && figure <= most + SAME_LENGTH && figure > 0.0 {
                continue;
            }
            let given = Given::of_place(&module.place, axis);
            let written = module.size.get(index).and_then(Option::as_ref).map(|expr| expr.span);
            let span = written.or(given.any_span()).unwrap_or(module.place.span);
            let from = if given.fixes_size() { ", as its two edges fix it" } else { "" };
            let message = format!(
                "the {word} of module `{name}` is {} mm{from}; `{}` takes {} to {} mm",
                trimmed(figure, 1),
                symbol.symbol.value,
                trimmed(least, 1),
                trimmed(most, 1)
            );
            let mut error = Diagnostic::new(span, message);
            if given.fixes_size() && figure > 0.0 {
                error = error.help(given.gives_way(axis, (figure, least, most)));
            }
            if axis == Axis::Z && given.edges() == 1 && given.high.is_some() {
                error = error.help("it stands on the floor; give `size: { height }` to hang it from its top");
            }
            if !along_x && axis == Axis::Y && figure > 0.0 && module.faces.is_none() {
                error = error.help("`faces` says which way the module is turned; without it, it faces the rear");
            }
            if figure > 0.0 {
                let (kind, what) = (MisfitKind::Size, word.to_owned());
                self.misfits.push(Misfit { kind, what, figure, range: (least, most), span });
                self.error(error.drawn());
            } else {
                result = Err(self.error(error));
            }
        }
        result
    }

    fn symbol_figure(&mut self, at: usize, expr: &Expr) -> Result<f64, Failed> {
        Instance::new(self, at, None).figure(expr)
    }

    fn check_settings(&mut self, at: usize, name: &str, module: &ModuleDoc, symbol: &SymbolDoc) -> Result<(), Failed> {
        let mut result = Ok(());
        for (setting, entry) in &module.set {
            if symbol.settings.contains_key(setting) {
                continue;
            }
            // What is no likely slip gets a note when the checks are run.
            if let Some(near) = nearest(setting, symbol.settings.keys().map(String::as_str)) {
                let message = format!("`{}` has no setting `{setting}`", symbol.symbol.value);
                let error = Diagnostic::new(entry.span, message).help(format!("did you mean `{near}`?"));
                self.error(error.drawn());
            }
        }
        for (setting, entry) in &symbol.settings {
            let place = module.set.get(setting).map_or(entry.span, |set| set.value.span);
            let value = Scope::name(&mut Instance::new(self, at, None), setting, place);
            let bounds = match &entry.value.kind {
                SettingKind::Whole { least, most } | SettingKind::Length { least, most } => Some((least, most)),
                SettingKind::YesNo | SettingKind::OneOf { .. } => None,
            };
            let checked = match (value, bounds) {
                (Ok(Value::Number(value)), Some((least, most))) => {
                    self.check_bounds(at, name, setting, value, (least, most), place)
                }
                (Ok(_), _) => Ok(()),
                (Err(failed), _) => Err(failed),
            };
            result = result.and(checked);
        }
        result
    }

    fn check_bounds(
        &mut self,
        at: usize,
        name: &str,
        setting: &str,
        value: f64,
        bounds: (&Expr, &Expr),
        span: Span,
    ) -> Result<(), Failed> {
        let (least, most) = (self.symbol_figure(at, bounds.0)?, self.symbol_figure(at, bounds.1)?);
        if value >= least - SAME_LENGTH && value <= most + SAME_LENGTH {
            return Ok(());
        }
        let message = format!(
            "`{setting}` of module `{name}` is {}; it takes {} to {}",
            trimmed(value, 2),
            trimmed(least, 2),
            trimmed(most, 2)
        );
        self.error(Diagnostic::new(span, message).drawn());
        let (kind, what) = (MisfitKind::Setting, setting.to_owned());
        self.misfits.push(Misfit { kind, what, figure: value, range: (least, most), span });
        Ok(())
    }

    fn zone_of(&mut self, module: &ModuleDoc) -> Option<usize> {
        let zone = module.zone.as_ref()?;
        let doc = self.doc;
        let found = doc.zones.get_index_of(&zone.value);
        if found.is_none() {
            self.unknown_entry(zone, "zone", doc.zones.keys());
        }
        found
    }

    /// The opening that a module is used or slides out through.
    fn through_of(&mut self, module: &ModuleDoc) -> Option<usize> {
        let through = module.through.as_ref()?;
        let doc = self.doc;
        let found = doc.openings.get_index_of(&through.value);
        if found.is_none() {
            self.unknown_entry(through, "opening", doc.openings.keys());
        }
        found
    }

    /// Reports a name that is not among the entries of its kind.
    pub fn unknown_entry<'n>(&mut self, name: &Spanned<String>, kind: &str, known: impl Iterator<Item = &'n String>) {
        if self.doc.broken.contains(&name.value) {
            return;
        }
        let known: Vec<&str> = known.map(String::as_str).collect();
        let error = Diagnostic::new(name.span, format!("there is no {kind} `{}`", name.value));
        let error = match nearest(&name.value, known.iter().copied()) {
            Some(near) => error.help(format!("did you mean `{near}`?")),
            None if known.is_empty() => error.help(format!("this layout has no {kind}")),
            None => error.help(format!("there is {}", one_of(known))),
        };
        self.error(error);
    }
}

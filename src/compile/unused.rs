//! Notes on entries of a layout that nothing uses: they change nothing, which their writer may not know.

use crate::base::text::nearest;
use crate::checks::{Check, Context};
use crate::diagnostic::{Finding, Limits, Severity, UNUSED};
use crate::figures::Figures;
use crate::language::{EndDoc, LayoutDoc, SymbolDoc};
use crate::model::{LimitChange, Model};
use crate::registry::Registry;
use crate::source::{Span, Spanned};
use std::collections::BTreeSet;
use std::sync::Arc;

/// Beyond every figure that a check measures, in whatever unit; a layout may write it.
const FAR: f64 = 100_000.0;

/// What a layout has beside its model.
pub(super) struct Entries<'a> {
    pub doc: &'a LayoutDoc,
    pub symbols: &'a [Option<Arc<SymbolDoc>>],
    /// Folders of symbols from which none was taken.
    pub folders: &'a [Spanned<String>],
}

/// A note for each entry that nothing uses.
pub(super) fn unused(entries: &Entries<'_>, figures: &Figures<'_>, registry: &Registry) -> Vec<Finding> {
    let Entries { doc, .. } = entries;
    let mut notes = Vec::new();
    for (name, entry) in doc.parameters.iter().filter(|(name, _)| !doc.named.contains(*name)) {
        notes.push(note("parameter", name, entry.span, format!("nothing uses `{name}`")));
    }
    for folder in entries.folders {
        let message = format!("no module has a symbol from the folder `{}`", folder.value);
        notes.push(note("symbols", &folder.value, folder.span, message));
    }
    let layups = [&doc.space.value.shell.walls, &doc.space.value.shell.roof, &doc.space.value.shell.floor];
    let is_used = |name: &str| layups.iter().any(|layup| layup.as_ref().is_some_and(|layup| layup.value == name));
    for (name, entry) in doc.layups.iter().filter(|(name, _)| !is_used(name)) {
        notes.push(note("layup", name, entry.span, format!("no panel has the layup `{name}`")));
    }
    settings(entries, &mut notes);
    without_vehicle(doc, &mut notes);
    prices(doc, figures.model, &mut notes);
    for change in figures.model.limits.iter().filter(|change| measures_nothing(change, figures, registry)) {
        let LimitChange { check, name, span, .. } = change;
        let message = format!("nothing in this layout is measured against `{name}` of `{check}`");
        notes.push(note("limit", &format!("{check} {name}"), *span, message));
    }
    notes
}

fn note(kind: &'static str, name: &str, span: Span, message: String) -> Finding {
    let help = if kind == "symbols" { "take a symbol from it, or delete it" } else { "use it, or delete it" };
    let note = Finding::new(UNUSED, Severity::Note, name, message).asks(kind);
    Finding { spans: vec![span], help: Some(help.to_owned()), ..note }
}

/// Settings that the symbol of their module does not have.
fn settings(entries: &Entries<'_>, notes: &mut Vec<Finding>) {
    for ((module, entry), symbol) in entries.doc.modules.iter().zip(entries.symbols) {
        let Some(symbol) = symbol else { continue };
        // A likely slip was an error.
        let slip = |name: &str| nearest(name, symbol.settings.keys().map(String::as_str)).is_some();
        let strange = |name: &str| !symbol.settings.contains_key(name) && !slip(name);
        for (setting, set) in entry.value.set.iter().filter(|(name, _)| strange(name)) {
            let message = format!("`{}` of `{module}` has no setting `{setting}`", symbol.symbol.value);
            notes.push(note("setting", &format!("{module} {setting}"), set.span, message));
        }
    }
}

/// Loads and load cases where nothing is weighed. A load may still be an end of a pipe or cable, the tank that people
/// drink from, or something that takes room.
fn without_vehicle(doc: &LayoutDoc, notes: &mut Vec<Finding>) {
    if doc.vehicle.is_some() {
        return;
    }
    let services = &doc.services;
    let cables = services.cables.values().map(|cable| &cable.value.ends);
    let runs = cables.chain(services.wastes.values().map(|waste| &waste.value.ends));
    let ends: BTreeSet<&str> = runs
        .flat_map(|run| [&run.from, &run.to])
        .filter_map(|end| if let EndDoc::Named(name) = end { Some(name.value.as_str()) } else { None })
        .collect();
    for (name, entry) in &doc.loads {
        let load = &entry.value;
        let drunk = services.water.is_some() && load.tank.is_some();
        let takes_room = load.size.is_some() || load.kind.is_some() || load.filler.is_some();
        if !drunk && !takes_room && !ends.contains(name.as_str()) {
            let message = format!("nothing weighs the load `{name}`: this layout has no `vehicle`");
            notes.push(note("load", name, entry.span, message));
        }
    }
    for (name, entry) in &doc.load_cases {
        let message = format!("nothing is weighed in the load case `{name}`: this layout has no `vehicle`");
        notes.push(note("load case", name, entry.span, message));
    }
}

/// Prices of hardware that no module has.
fn prices(doc: &LayoutDoc, model: &Model, notes: &mut Vec<Finding>) {
    let bought: BTreeSet<&str> =
        model.modules.iter().flat_map(|module| &module.hardware).map(|one| one.name.as_str()).collect();
    let priced = |name: &String| model.prices.hardware.iter().any(|(known, _)| known == name);
    for (name, entry) in doc.prices.iter().flat_map(|prices| &prices.hardware).filter(|(name, _)| priced(name)) {
        if !bought.contains(name.as_str()) {
            let message = format!("no module has `{name}`: its price counts for nothing");
            notes.push(note("price", name, entry.span, message));
        }
    }
}

/// Whether a check finds the same with the limit far below and far above everything.
fn measures_nothing(change: &LimitChange, figures: &Figures<'_>, registry: &Registry) -> bool {
    let Some(check) = registry.check(&change.check) else { return false };
    found(check, change, figures, -FAR) == found(check, change, figures, FAR)
}

fn found(check: &dyn Check, change: &LimitChange, figures: &Figures<'_>, far: f64) -> Vec<Finding> {
    let value = |name: &str| (name == change.name).then_some((far, ""));
    let limits = Limits::new(check.limits(), value);
    check.grave(&Context { limits, ..Context::new(check, figures) })
}

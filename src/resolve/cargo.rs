//! Things to be carried, each with the module and the opening that it names.

use super::names::Resolver;
use crate::base::text::one_of;
use crate::diagnostic::Diagnostic;
use crate::geometry::{Parcel, Stands};
use crate::language::CargoDoc;
use crate::language::expression::{Expr, Failed};
use crate::model::{Cargo, Module, Need, Opening};
use crate::source::{Span, Spanned};

/// Most pieces that all cargo of a layout may have.
const MOST_PIECES: usize = 500;
/// Heaviest piece, kg.
const HEAVIEST: f64 = 5000.0;

impl Resolver<'_> {
    /// All cargo that could be made.
    pub fn cargo(&mut self, modules: &[Module], openings: &[Opening]) -> Vec<Cargo> {
        let doc = self.doc;
        let mut made: Vec<Cargo> = Vec::new();
        for (name, entry) in &doc.cargo {
            if let Ok(cargo) = self.one_cargo(name, &entry.value, entry.span, modules, openings) {
                made.push(cargo);
            }
        }
        let mut pieces = 0;
        for cargo in &made {
            let before = pieces;
            pieces += cargo.parcel.count;
            if before <= MOST_PIECES && pieces > MOST_PIECES {
                let message =
                    format!("with `{}` the cargo has {pieces} pieces; at most {MOST_PIECES} are allowed", cargo.name);
                self.error(Diagnostic::new(cargo.span, message).help("pack small things in boxes, and list the boxes"));
            }
        }
        made
    }

    fn one_cargo(
        &mut self,
        name: &str,
        doc: &CargoDoc,
        span: Span,
        modules: &[Module],
        openings: &[Opening],
    ) -> Result<Cargo, Failed> {
        let [first, second, third] = &doc.size.value;
        let size = [first, second, third].map(|side| self.positive(side, "a size of cargo"));
        let mass = self.mass(&doc.mass);
        let count = doc.count.as_ref().map_or(Ok(1), |count| self.pieces(count));
        let module = self.kept_in(&doc.module, modules);
        let through = doc.through.as_ref().map(|through| self.gone_through(through, openings)).transpose();
        let stands = match doc.stands.as_ref().map(|stands| stands.value.as_str()) {
            Some("upright") => Stands::Upright,
            Some("fixed") => Stands::Fixed,
            _ => Stands::Any,
        };
        let [first, second, third] = size;
        let parcel = Parcel { size: [first?, second?, third?], count: count?, stands };
        Ok(Cargo { name: name.to_owned(), parcel, mass: mass?, module: module?, through: through?, span })
    }

    fn mass(&mut self, expr: &Expr) -> Result<f64, Failed> {
        let mass = self.positive(expr, "the mass")?;
        if mass <= HEAVIEST {
            return Ok(mass);
        }
        let message = format!("a mass of {mass} kg is not that of one piece");
        Err(self
            .error(Diagnostic::new(expr.span, message).help("mass is that of one piece in kilograms, at most 5000")))
    }

    fn pieces(&mut self, expr: &Expr) -> Result<usize, Failed> {
        let count = self.figure(expr)?;
        if count.fract() == 0.0 && (1.0..=MOST_PIECES as f64).contains(&count) {
            // A whole number from 1 to 500, checked just above.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            return Ok(count as usize);
        }
        let message = format!("the count is {count}; it must be a whole number from 1 to {MOST_PIECES}");
        Err(self.error(Diagnostic::new(expr.span, message)))
    }

    /// The module that cargo is kept in; it must have a storage space in some pose.
    fn kept_in(&mut self, name: &Spanned<String>, modules: &[Module]) -> Result<usize, Failed> {
        let doc = self.doc;
        let Some(at) = modules.iter().position(|module| module.name == name.value) else {
            if !doc.modules.contains_key(&name.value) {
                self.unknown_entry(name, "module", doc.modules.keys());
            }
            return Err(Failed);
        };
        let stores = |module: &Module| {
            module.poses.iter().any(|pose| pose.spaces.iter().any(|space| space.need == Need::Storage))
        };
        if modules.get(at).is_some_and(stores) {
            return Ok(at);
        }
        let error = Diagnostic::new(name.span, format!("module `{}` has no storage space", name.value));
        let others: Vec<&str> =
            modules.iter().filter(|module| stores(module)).map(|module| module.name.as_str()).collect();
        Err(self.error(match others.as_slice() {
            [] => error.help("add a module with one, such as `stow/boot`, and name it here"),
            others => error.help(format!("there is one in {}", one_of(others.iter().copied()))),
        }))
    }

    fn gone_through(&mut self, name: &Spanned<String>, openings: &[Opening]) -> Result<usize, Failed> {
        let doc = self.doc;
        let found = openings.iter().position(|opening| opening.name == name.value);
        if found.is_none() && !doc.openings.contains_key(&name.value) {
            self.unknown_entry(name, "opening", doc.openings.keys());
        }
        found.ok_or(Failed)
    }
}

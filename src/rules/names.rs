//! Names in rules, and what is asked of things: `m.height`, `m.zone.area`, `galley.worktop`, `aisle`.

use super::kinds::{Kind, Type};
use super::term::{Of, Term};
use super::typing::Typing;
use super::words::Words;
use crate::base::text::{nearest, one_of};
use crate::diagnostic::{Diagnostic, Quantity};
use crate::source::Span;

impl Typing<'_> {
    /// The term of a name with points.
    pub fn name(&mut self, name: &str, span: Span) -> Option<(Term, Type)> {
        let mut pieces = name.split('.');
        let first = pieces.next().unwrap_or_default();
        let slot = self.slots.iter().position(|(slot, _)| slot == first);
        let limit = self.limits.iter().position(|limit| limit == first);
        let found = match (slot, limit, first) {
            (Some(at), ..) => self.slots.get(at).map(|(_, kind)| (Of::Slot(at), Type::Thing(*kind))),
            (_, Some(at), _) => Some((Of::Limit(at), Type::Figure(None))),
            (_, _, "arrangement") => Some((Of::Arrangement, Type::Word(Words::Any))),
            _ => self.named(first),
        };
        let Some((of, mut kind)) = found else { return self.unknown(first, span) };
        let mut term = Term { of, span, unit: kind.unit() };
        for piece in pieces {
            let Type::Thing(of) = kind else {
                let message = format!("`{first}` is {} and has no `{piece}`", kind.words());
                return self.error(Diagnostic::new(span, message));
            };
            let (of, next) = self.field(term, of, (first, piece), span)?;
            term = Term { of, span, unit: next.unit() };
            kind = next;
        }
        Some((term, kind))
    }

    fn field(&mut self, of: Term, kind: Kind, (first, piece): (&str, &str), span: Span) -> Option<(Of, Type)> {
        let fields = kind.fields();
        if let Some((_, field, kind)) = fields.iter().find(|(name, ..)| *name == piece) {
            return Some((Of::Field(Box::new(of), *field), *kind));
        }
        let exported = |name: &str| self.exports().any(|known| known == name);
        let names = || fields.iter().map(|(name, ..)| *name);
        let near = nearest(piece, names().chain(self.exports().filter(|_| kind == Kind::Module)));
        if kind == Kind::Module && (exported(piece) || near.is_none()) {
            // What no symbol here exports, another layout's may: a module that is asked for it tells.
            return Some((Of::Export(Box::new(of), piece.to_owned()), Type::Figure(Some(Quantity::Length))));
        }
        let help = match near {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("it has {}", one_of(names())),
        };
        let error = Diagnostic::new(span, format!("`{first}` is {} and has no `{piece}`", kind.one()));
        self.error(error.help(help))
    }

    /// What the symbols of the layout export.
    fn exports(&self) -> impl Iterator<Item = &str> {
        self.symbols.iter().flatten().flat_map(|symbol| symbol.exports.keys().map(String::as_str))
    }

    fn unknown<T>(&mut self, name: &str, span: Span) -> Option<T> {
        let doc = self.doc;
        if doc.broken.iter().any(|broken| broken == name) {
            // That it could not be read has been said; an error keeps the rule from being used.
            return None;
        }
        let own = self.slots.iter().map(|(slot, _)| slot).chain(&self.limits);
        let of_layout = doc.parameters.keys().chain(doc.modules.keys()).chain(doc.openings.keys());
        let known = own.chain(of_layout).chain(doc.zones.keys()).chain(doc.people.keys()).chain(doc.loads.keys());
        let error = Diagnostic::new(span, format!("unknown name `{name}`"));
        let error = match nearest(name, known.map(String::as_str).chain(["box", "arrangement"])) {
            Some(near) => error.help(format!("did you mean `{near}`?")),
            None => {
                let slots: Vec<&str> = self.slots.iter().map(|(slot, _)| slot.as_str()).collect();
                error.help(format!(
                    "a name is {}, a limit of the rule, `box`, or a parameter or thing of the layout",
                    one_of(slots.into_iter())
                ))
            }
        };
        self.error(error)
    }
}

//! The written values of a layout that a suggestion may change, and how they are read and written.

use crate::language::expression::{Expr, ExprKind};
use crate::language::{LayoutDoc, ModuleDoc, Named, OpeningDoc, PlaceDoc, RoofDoc};
use crate::model::{HingeSide, Wall, Word};
use crate::source::{Span, Spanned};

/// Name of the check of what is out of range, which is no check of the registry.
pub(super) const MISFITS: &str = "range";

/// A section of the layout, with the entry's index where it has entries.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Owner {
    Module(usize),
    Opening(usize),
    Zone(usize),
    Parameter(usize),
    Box,
}

/// The map inside an entry in which a value stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Group {
    /// The entry itself.
    Own,
    /// `place`.
    Place,
    /// `size`.
    Size,
    /// `set`.
    Set,
}

/// One value: `modules.bench.place.rear`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Slot {
    pub owner: Owner,
    pub group: Group,
    pub key: String,
}

/// The keys of `size`, in the order of the document.
pub(super) const SIZES: [&str; 3] = ["run", "depth", "height"];

/// A value of the document, of any type.
enum Field<'d> {
    Figure(&'d mut Option<Expr>),
    Needed(&'d mut Expr),
    Setting(&'d mut Named<Expr>),
    Word(&'d mut Option<Spanned<String>>),
    Wall(&'d mut Option<Spanned<Wall>>),
    Hinge(&'d mut Option<Spanned<HingeSide>>),
    Flag(&'d mut Option<Spanned<bool>>),
}

impl Slot {
    pub fn new(owner: Owner, group: Group, key: &str) -> Self {
        Self { owner, group, key: key.to_owned() }
    }

    /// What is written there; words and flags as expressions.
    pub fn read(&self, doc: &mut LayoutDoc) -> Option<Expr> {
        match self.field(doc)? {
            Field::Figure(value) => value.clone(),
            Field::Needed(value) => Some(value.clone()),
            Field::Setting(set) => set.get(&self.key).map(|entry| entry.value.clone()),
            Field::Word(word) => word.as_ref().map(|word| named(&word.value, word.span)),
            Field::Wall(wall) => wall.as_ref().map(|wall| named(wall.value.name(), wall.span)),
            Field::Hinge(side) => side.as_ref().map(|side| named(side.value.name(), side.span)),
            Field::Flag(flag) => flag.as_ref().map(|flag| Expr { kind: ExprKind::Bool(flag.value), span: flag.span }),
        }
    }

    /// Writes a value; `None` if the document has no such place or it takes no such value.
    pub fn write(&self, doc: &mut LayoutDoc, new: Expr) -> Option<()> {
        match (self.field(doc)?, &new.kind) {
            (Field::Figure(value), _) => *value = Some(new),
            (Field::Needed(value), _) => *value = new,
            (Field::Setting(set), _) => {
                let span = set.get(&self.key).map_or_else(Span::default, |entry| entry.span);
                set.insert(self.key.clone(), Spanned::new(new, span));
            }
            (Field::Word(word), ExprKind::Name(name)) => *word = Some(Spanned::new(name.clone(), new.span)),
            (Field::Flag(flag), ExprKind::Bool(value)) => *flag = Some(Spanned::new(*value, new.span)),
            (Field::Wall(wall), ExprKind::Name(name)) => *wall = Some(Spanned::new(Wall::of(name)?, new.span)),
            (Field::Hinge(side), ExprKind::Name(name)) => *side = Some(Spanned::new(HingeSide::of(name)?, new.span)),
            (Field::Word(_) | Field::Wall(_) | Field::Hinge(_) | Field::Flag(_), _) => return None,
        }
        Some(())
    }

    fn field<'d>(&self, doc: &'d mut LayoutDoc) -> Option<Field<'d>> {
        match self.owner {
            Owner::Module(at) => self.of_module(&mut doc.modules.get_index_mut(at)?.1.value),
            Owner::Opening(at) => self.of_opening(&mut doc.openings.get_index_mut(at)?.1.value),
            Owner::Zone(at) => {
                let zone = &mut doc.zones.get_index_mut(at)?.1.value;
                if self.key == "level" {
                    return Some(Field::Figure(&mut zone.level));
                }
                edge(&mut zone.place, &self.key).map(Field::Figure)
            }
            Owner::Parameter(at) => Some(Field::Needed(&mut doc.parameters.get_index_mut(at)?.1.value)),
            Owner::Box => {
                let space = &mut doc.space.value;
                Some(Field::Needed(match (self.key.as_str(), &mut space.roof) {
                    ("length", _) => &mut space.length,
                    ("width", _) => &mut space.width,
                    ("height", _) => &mut space.height,
                    ("rise", RoofDoc::Arch(rise) | RoofDoc::Ridge(rise)) => rise,
                    _ => return None,
                }))
            }
        }
    }

    fn of_module<'d>(&self, module: &'d mut ModuleDoc) -> Option<Field<'d>> {
        match (self.group, self.key.as_str()) {
            (Group::Place, key) => edge(&mut module.place, key).map(Field::Figure),
            (Group::Size, key) => {
                let at = SIZES.iter().position(|size| *size == key)?;
                module.size.get_mut(at).map(Field::Figure)
            }
            (Group::Set, _) => Some(Field::Setting(&mut module.set)),
            (Group::Own, "faces") => Some(Field::Wall(&mut module.faces)),
            (Group::Own, "mirror") => Some(Field::Flag(&mut module.mirror)),
            (Group::Own, _) => None,
        }
    }

    fn of_opening<'d>(&self, opening: &'d mut OpeningDoc) -> Option<Field<'d>> {
        Some(match self.key.as_str() {
            "run" => Field::Figure(&mut opening.run),
            "depth" => Field::Figure(&mut opening.depth),
            "sill" => Field::Figure(&mut opening.sill),
            "height" => Field::Figure(&mut opening.height),
            "hinge" => Field::Hinge(&mut opening.hinge),
            "swings" => Field::Word(&mut opening.swings),
            "centre" => Field::Needed(opening.centre.as_mut()?.value.first_mut()?),
            "second centre" => Field::Needed(opening.centre.as_mut()?.value.get_mut(1)?),
            key => Field::Figure(edge(&mut opening.place, key)?),
        })
    }
}

fn named(word: &str, span: Span) -> Expr {
    Expr { kind: ExprKind::Name(word.to_owned()), span }
}

fn edge<'d>(place: &'d mut PlaceDoc, key: &str) -> Option<&'d mut Option<Expr>> {
    Some(match key {
        "front" => &mut place.front,
        "rear" => &mut place.rear,
        "left" => &mut place.left,
        "right" => &mut place.right,
        "floor" => &mut place.floor,
        "top" => &mut place.top,
        "centre-x" => &mut place.centre_x,
        "centre-y" => &mut place.centre_y,
        _ => return None,
    })
}

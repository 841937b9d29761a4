//! The sheets that are asked for.

use crate::base::text::{nearest, one_of};
use crate::drawing::Sheet;
use crate::model::{SheetKind, Word};
use std::str::FromStr;

/// One sheet, or all of a kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Choice {
    /// All of a kind, such as `plans`.
    Kind(SheetKind),
    /// The one with an id, such as `plan-day`, of the kind that has such ids.
    Id(SheetKind, String),
    /// Those of a plug-in by the name of one, such as `house:hardware`.
    Given(String),
}

impl FromStr for Choice {
    type Err = String;

    fn from_str(name: &str) -> Result<Self, String> {
        let of_id = || SheetKind::of_id(name).map(|kind| Self::Id(kind, name.to_owned()));
        if name.contains(':') {
            return Ok(Self::Given(name.to_owned()));
        }
        SheetKind::of(name).map(Self::Kind).or_else(of_id).ok_or_else(|| {
            let kinds = SheetKind::names();
            let meant = nearest(name, kinds.iter().copied()).map(|meant| format!("did you mean `{meant}`? "));
            let kinds = one_of(kinds);
            format!("{}write the id of a sheet, such as `plan-day`, or {kinds}", meant.unwrap_or_default())
        })
    }
}

/// Sheets by their kinds and ids; every sheet where none is named.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Chosen(pub Vec<Choice>);

impl Chosen {
    /// Whether all sheets are wanted.
    #[must_use]
    pub fn all(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether any sheet of a kind is wanted.
    #[must_use]
    pub fn kind(&self, kind: SheetKind) -> bool {
        let of_kind = |choice: &Choice| match choice {
            Choice::Kind(wanted) | Choice::Id(wanted, _) => *wanted == kind,
            Choice::Given(_) => false,
        };
        self.all() || self.0.iter().any(of_kind)
    }

    /// Whether a sheet of a kind is wanted itself.
    #[must_use]
    pub fn sheet(&self, kind: SheetKind, id: &str) -> bool {
        let it = |choice: &Choice| match choice {
            Choice::Kind(wanted) => *wanted == kind,
            Choice::Id(_, wanted) => wanted == id,
            Choice::Given(_) => false,
        };
        self.all() || self.0.iter().any(it)
    }

    /// Whether the sheets from outside with a name are wanted.
    #[must_use]
    pub fn given(&self, name: &str) -> bool {
        self.all() || self.0.iter().any(|choice| matches!(choice, Choice::Given(wanted) if wanted == name))
    }

    /// The first sheet that is named and is not among those that were made.
    #[must_use]
    pub fn missing(&self, made: &[Sheet]) -> Option<&str> {
        self.0.iter().find_map(|choice| match choice {
            Choice::Id(_, id) if !made.iter().any(|sheet| sheet.id == *id) => Some(id.as_str()),
            Choice::Given(name) if !made.iter().any(|sheet| sheet.id.starts_with(&name.replace(':', "-"))) => {
                Some(name.as_str())
            }
            _ => None,
        })
    }
}

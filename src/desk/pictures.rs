//! The sheets of a layout that compiled, drawn as they are asked for and kept.

use crate::backends::{Inset, Reads, png_file, svg_inset};
use crate::base::lock::locked;
use crate::base::stop::Stopped;
use crate::compile::{Compiled, Outputs, Session, Wanted};
use crate::drawing::Sheet;
use crate::views::Chosen;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock};

/// Width of a small picture, pixels.
const SMALL: u32 = 220;

/// What the list of sheets says of one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Head {
    /// Its id, such as `plan-day`.
    pub id: String,
    /// Its title.
    pub title: String,
}

/// The sheets of one text.
pub(super) struct Pictures {
    /// The number of the text.
    pub revision: u64,
    pub compiled: Arc<Compiled>,
    /// All sheets that the layout wants, in order, once they are drawn.
    set: OnceLock<Vec<Sheet>>,
    insets: Mutex<BTreeMap<String, Arc<Inset>>>,
    small: Mutex<BTreeMap<String, Arc<Vec<u8>>>>,
}

impl Pictures {
    /// Nothing is drawn yet.
    pub fn new(revision: u64, compiled: Arc<Compiled>) -> Self {
        Self { revision, compiled, set: OnceLock::new(), insets: Mutex::default(), small: Mutex::default() }
    }

    /// Draws the whole set.
    pub fn draw(&self, session: &Session) -> Result<(), Stopped> {
        let wanted = Wanted { reads: vec![Reads::Sheets], sheets: Chosen::default() };
        let sheets =
            session.draw(&self.compiled, &wanted)?.map_or_else(Vec::new, |outputs: Outputs<'_>| outputs.sheets);
        // What was drawn before it was known which sheets there are bears another number.
        locked(&self.insets).clear();
        let _ = self.set.set(sheets);
        Ok(())
    }

    /// The list of sheets; `None` until they are drawn.
    pub fn heads(&self) -> Option<Vec<Head>> {
        let head = |sheet: &Sheet| Head { id: sheet.id.clone(), title: sheet.title.clone() };
        self.set.get().map(|sheets| sheets.iter().map(head).collect())
    }

    /// One sheet: of the set, if that is drawn, else drawn alone.
    pub fn inset(&self, id: &str) -> Option<Arc<Inset>> {
        if let Some(known) = locked(&self.insets).get(id) {
            return Some(Arc::clone(known));
        }
        let (inset, keep) = match self.set.get() {
            Some(set) => (svg_inset(set, set.iter().position(|sheet| sheet.id == id)?)?, true),
            None => (self.alone(id)?, false),
        };
        let inset = Arc::new(inset);
        if keep {
            locked(&self.insets).insert(id.to_owned(), Arc::clone(&inset));
        }
        Some(inset)
    }

    /// It is not ended by what ends the work on the whole set.
    fn alone(&self, id: &str) -> Option<Inset> {
        let wanted = Wanted { reads: vec![Reads::Sheets], sheets: Chosen(vec![id.parse().ok()?]) };
        let sheets = Session::default().draw(&self.compiled, &wanted).ok()??.sheets;
        svg_inset(&sheets, sheets.iter().position(|sheet| sheet.id == id)?)
    }

    /// A small picture of a sheet of the set, as PNG.
    pub fn small(&self, id: &str) -> Option<Arc<Vec<u8>>> {
        let known = || locked(&self.small);
        if let Some(picture) = known().get(id) {
            return Some(Arc::clone(picture));
        }
        let sheet = self.set.get()?.iter().find(|sheet| sheet.id == id)?;
        let picture = Arc::new(png_file(sheet, SMALL).ok()?.bytes);
        known().insert(id.to_owned(), Arc::clone(&picture));
        Some(picture)
    }
}

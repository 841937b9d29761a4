//! `{"instances": [{"id", "kerf", "trim", "bins": [{"w", "h", "stock", "cost"}], "items": [{"w", "h", "n", "rot"}]}]}`,
//! the form in which instances of packing problems are passed on. Keys that are not listed are remarks.

use super::super::CutPart;
use super::super::nesting::{Piece, Request, SheetKind, Turn};
use super::figures::{no_count, no_length, no_width, too_wide};
use super::job::{PartsJob, PartsList, Saw, at, only};
use super::place::{Step, place};
use crate::diagnostic::{Diagnostic, Sink};
use crate::model::Grain;
use crate::source::{FileId, Span};
use serde::Deserialize;
use serde_json::Value;

/// So many places are looked up, at most.
const MOST_PLACES: usize = 300;

#[derive(Deserialize)]
struct File {
    instances: Vec<Instance>,
}

#[derive(Deserialize)]
struct Instance {
    id: Id,
    #[serde(default)]
    kerf: Option<f64>,
    #[serde(default)]
    trim: Option<f64>,
    #[serde(default)]
    bins: Vec<Bin>,
    items: Vec<Item>,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum Id {
    Text(String),
    Number(i64),
}

#[derive(Deserialize)]
struct Bin {
    w: f64,
    h: f64,
    #[serde(default)]
    stock: Option<f64>,
    #[serde(default)]
    cost: Option<f64>,
}

#[derive(Deserialize)]
struct Item {
    w: f64,
    h: f64,
    #[serde(default)]
    n: Option<f64>,
    #[serde(default)]
    rot: Option<Value>,
}

pub(super) fn jobs(text: &str, file: FileId, saw: &Saw) -> Result<PartsList, Sink> {
    let read: File = serde_json::from_str(text).map_err(|error| only(said(&error, text, file)))?;
    let mut reader = Reader { text, file, saw, errors: Sink::default(), notes: Sink::default(), placed: 0 };
    let jobs: Vec<PartsJob> =
        read.instances.into_iter().enumerate().map(|(index, instance)| reader.job(index, instance)).collect();
    reader.refuse_same_names(&jobs);
    if reader.errors.is_empty() { Ok(PartsList { jobs, notes: reader.notes }) } else { Err(reader.errors) }
}

/// The error with its place in the text.
fn said(error: &serde_json::Error, text: &str, file: FileId) -> Diagnostic {
    let lines = text.split_inclusive('\n').take(error.line().saturating_sub(1));
    let start = (lines.map(str::len).sum::<usize>() + error.column().saturating_sub(1)).min(text.len());
    let place = format!(" at line {} column {}", error.line(), error.column());
    let says = error.to_string();
    let message = format!("this is no list of parts: {}", says.strip_suffix(&place).unwrap_or(&says));
    let help = r#"the form is {"instances": [{"id": "a", "bins": [{"w": 2440, "h": 1220}], "items": [{"w": 600, "h": 400, "n": 2, "rot": 1}]}]}"#;
    Diagnostic::new(at(file, start..(start + 1).min(text.len())), message).help(help)
}

/// May the item turn, if the value says so.
fn turns(rot: Option<&Value>) -> Option<bool> {
    match rot {
        None | Some(Value::Null) => Some(false),
        Some(Value::Bool(turns)) => Some(*turns),
        Some(value) => match value.as_f64() {
            Some(0.0) => Some(false),
            Some(1.0) => Some(true),
            _ => None,
        },
    }
}

/// Reads the figures of jobs, and says where they are wrong or odd.
struct Reader<'a> {
    text: &'a str,
    file: FileId,
    saw: &'a Saw,
    errors: Sink,
    notes: Sink,
    /// Places looked up so far.
    placed: usize,
}

impl Reader<'_> {
    /// Each look-up reads the text from its start, and no more errors are shown than some dozens.
    fn span(&mut self, instance: usize, steps: &[Step]) -> Span {
        self.placed += 1;
        if self.placed > MOST_PLACES {
            return at(self.file, 0..0);
        }
        let steps: Vec<Step> =
            [Step::Key("instances"), Step::At(instance)].into_iter().chain(steps.iter().copied()).collect();
        at(self.file, place(self.text, &steps))
    }

    /// Says what is wrong with a figure, if anything is.
    fn figure(&mut self, instance: usize, steps: &[Step], value: f64, wrong: Option<String>) {
        let (Some(wrong), Some(Step::Key(key))) = (wrong, steps.last()) else { return };
        let span = self.span(instance, steps);
        self.errors.push(Diagnostic::new(span, format!("`{key}` is {value}")).help(wrong));
    }

    fn note(&mut self, instance: usize, steps: &[Step], message: String, help: &str) {
        let span = self.span(instance, steps);
        self.notes.push(Diagnostic::new(span, message).help(help));
    }

    fn job(&mut self, index: usize, instance: Instance) -> PartsJob {
        let sheets = instance.bins.iter().enumerate().map(|(bin, own)| self.sheet(index, bin, own)).collect::<Vec<_>>();
        let pieces: Vec<Piece> =
            instance.items.iter().enumerate().map(|(item, own)| self.piece(index, item, own)).collect();
        for (key, value) in [("kerf", instance.kerf), ("trim", instance.trim)] {
            let value = value.unwrap_or(0.0);
            self.figure(index, &[Step::Key(key)], value, no_width(value));
        }
        let part =
            |(index, piece): (usize, &Piece)| CutPart { number: index.to_string(), grain: piece.turn != Turn::Free };
        let own = !sheets.is_empty();
        let job = PartsJob {
            id: match instance.id {
                Id::Text(text) => text,
                Id::Number(number) => number.to_string(),
            },
            parts: pieces.iter().enumerate().map(part).collect(),
            named: false,
            grain: Grain::Length,
            request: Request {
                sheets: if own { sheets } else { self.saw.sheets.clone() },
                kerf: instance.kerf.or(self.saw.kerf).unwrap_or(0.0),
                trim: instance.trim.or(self.saw.trim).unwrap_or(0.0),
                useful: self.saw.useful,
                stages: self.saw.stages,
                pieces,
                effort: 0,
            },
        };
        if let Some(wide) = too_wide(&job.request).filter(|_| self.errors.is_empty()) {
            let error = Diagnostic::new(self.span(index, &[Step::Key(wide.key)]), wide.says).help(wide.help);
            let bin = own.then(|| self.span(index, &[Step::Key("bins"), Step::At(wide.sheet)]));
            self.errors.push(bin.into_iter().fold(error, |error, span| error.note(span, "this sheet")));
        }
        job
    }

    fn sheet(&mut self, instance: usize, bin: usize, own: &Bin) -> SheetKind {
        let steps = |key| [Step::Key("bins"), Step::At(bin), Step::Key(key)];
        self.figure(instance, &steps("w"), own.w, no_length(own.w));
        self.figure(instance, &steps("h"), own.h, no_length(own.h));
        if let Some(stock) = own.stock {
            let wrong = (stock.fract() != 0.0 || !(0.0..=f64::from(u32::MAX)).contains(&stock))
                .then(|| "it must be a whole number of sheets; leave it out for as many as are needed".to_owned());
            self.figure(instance, &steps("stock"), stock, wrong);
            if stock == 0.0 {
                let help = "none of these sheets is used; leave `stock` out if there are as many as are needed";
                self.note(instance, &steps("stock"), "`stock` is 0".to_owned(), help);
            }
        }
        if let Some(cost) = own.cost {
            let wrong = (cost < 0.0).then(|| "it must be 0 or more".to_owned());
            self.figure(instance, &steps("cost"), cost, wrong);
        }
        let stock = own.stock.map(|stock| stock as u32);
        SheetKind { size: (own.w, own.h), cost: own.cost.unwrap_or(own.w * own.h), stock }
    }

    fn piece(&mut self, instance: usize, item: usize, own: &Item) -> Piece {
        let steps = |key| [Step::Key("items"), Step::At(item), Step::Key(key)];
        self.figure(instance, &steps("w"), own.w, no_length(own.w));
        self.figure(instance, &steps("h"), own.h, no_length(own.h));
        let count = own.n.unwrap_or(1.0);
        self.figure(instance, &steps("n"), count, no_count(count));
        if count == 0.0 {
            self.note(instance, &steps("n"), "`n` is 0".to_owned(), "none of this part is laid");
        }
        let turns = turns(own.rot.as_ref());
        if let (None, Some(rot)) = (turns, &own.rot) {
            let span = self.span(instance, &steps("rot"));
            let help = "write 1 (or true) if the part may turn by a right angle, 0 (or false) if not";
            self.errors.push(Diagnostic::new(span, format!("`rot` is {rot}")).help(help));
        }
        let turn = if turns == Some(true) { Turn::Free } else { Turn::Never };
        Piece { length: own.w, width: own.h, count: count as u32, turn }
    }

    /// Diagrams and plans are known by the job.
    fn refuse_same_names(&mut self, jobs: &[PartsJob]) {
        let mut known = std::collections::BTreeMap::new();
        for (index, job) in jobs.iter().enumerate() {
            if let Some(first) = known.insert(job.id.as_str(), index) {
                let first = self.span(first, &[Step::Key("id")]);
                let span = self.span(index, &[Step::Key("id")]);
                let error = Diagnostic::new(span, format!("two jobs are called `{}`", job.id)).note(first, "the first");
                self.errors.push(error.help("give each job an `id` of its own: its diagrams bear it"));
            }
        }
    }
}

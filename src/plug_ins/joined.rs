//! Checks, outputs and sheets of plug-ins behind the traits of those that are built in.

use super::plug_in::{Asked, OwnCheck, OwnOutput, PlugIn};
use super::wire::{Answer, ColumnWire, FileWire, SheetAnswer, TableWire};
use super::words::{short, text};
use crate::backends::{Backend, OutputFile, Product, Reads, SheetMaker};
use crate::checks::{Check, Context};
use crate::diagnostic::{Finding, Limit, Severity};
use crate::drawing::{GivenSheet, GivenTable};
use crate::model::Model;
use crate::source::refused_name;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use std::collections::BTreeSet;
use std::sync::Arc;

/// How many times the work of most checks a run takes: loading a program and writing the question.
const WORK: usize = 20;
/// What a finding asks that says that a check could not be made.
const MADE: &str = "made";
/// Most files of an output, most sheets of one, most tables and pictures of a sheet.
const MOST: usize = 100;
/// Most rows and columns of a table, and longest text in it.
const MOST_ROWS: usize = 5000;
const MOST_COLUMNS: usize = 20;
const LONGEST: usize = 500;

impl PlugIn {
    /// Its checks, for the list of a registry.
    pub fn checks(self: &Arc<Self>) -> impl Iterator<Item = Arc<dyn Check>> {
        (0..self.checks.len()).map(|at| Arc::new(OutsideCheck(Arc::clone(self), at)) as Arc<dyn Check>)
    }

    /// Its outputs, for the list of a registry.
    pub fn backends(self: &Arc<Self>) -> impl Iterator<Item = Arc<dyn Backend>> {
        let needed = |output: &OwnOutput| {
            let reads = [(Reads::Sheets, !output.reading.sheets.none()), (Reads::Sums, !output.reading.report.none())];
            reads.into_iter().filter_map(|(reads, does)| does.then_some(reads)).collect()
        };
        self.backends.iter().enumerate().map(move |(at, output)| {
            Arc::new(OutsideOutput { plug_in: Arc::clone(self), at, reads: needed(output) }) as Arc<dyn Backend>
        })
    }

    /// Its sheets, for the list of a registry.
    pub fn sheets(self: &Arc<Self>) -> impl Iterator<Item = Arc<dyn SheetMaker>> {
        (0..self.sheets.len()).map(|at| Arc::new(OutsideSheet(Arc::clone(self), at)) as Arc<dyn SheetMaker>)
    }
}

/// A check of a plug-in.
struct OutsideCheck(Arc<PlugIn>, usize);

impl OutsideCheck {
    fn own(&self) -> Option<&OwnCheck> {
        self.0.checks.get(self.1)
    }

    /// That it could not be made is a fault: no finding would say that there is none.
    fn not_made(&self, why: &str) -> Finding {
        let message = format!("this check was not made, so nothing is known of what it looks for: {why}");
        let mut finding = Finding::new(self.name().to_owned(), Severity::Fault, "layout", message).asks(MADE);
        finding.help = Some(format!("mend the plug-in `{}`, or take it out of the layout", self.0.name));
        finding
    }
}

impl Check for OutsideCheck {
    fn name(&self) -> &str {
        self.own().map_or("", |own| &own.name)
    }

    fn says(&self) -> &str {
        self.own().map_or("", |own| &own.says)
    }

    fn manual(&self) -> String {
        self.own().map(|own| own.manual.clone()).unwrap_or_default()
    }

    fn caution(&self) -> Option<&str> {
        self.own().and_then(|own| own.caution.as_deref())
    }

    fn work(&self, _model: &Model) -> usize {
        WORK
    }

    fn limits(&self) -> &[Limit] {
        self.own().map_or(&[], |own| &own.limits)
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        match self.0.found(context.figures) {
            Ok(all) => all.into_iter().filter(|finding| finding.key.check == self.name()).collect(),
            Err(why) => vec![self.not_made(&why)],
        }
    }

    fn surely_stays(&self, _context: &Context<'_>, before: &Finding) -> bool {
        *before == self.not_made(before.message.split_once(": ").map_or("", |(_, why)| why))
    }
}

/// An output of a plug-in.
struct OutsideOutput {
    plug_in: Arc<PlugIn>,
    at: usize,
    reads: Vec<Reads>,
}

impl OutsideOutput {
    fn own(&self) -> Option<&OwnOutput> {
        self.plug_in.backends.get(self.at)
    }
}

impl Backend for OutsideOutput {
    fn name(&self) -> &str {
        self.own().map_or("", |own| &own.name)
    }

    fn says(&self) -> &str {
        self.own().map_or("", |own| &own.says)
    }

    fn reads(&self) -> &[Reads] {
        &self.reads
    }

    fn when_asked(&self) -> bool {
        self.own().is_some_and(|own| own.when_asked)
    }

    fn is_outside(&self) -> bool {
        true
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let Some(own) = self.own() else { return Ok(Vec::new()) };
        self.plug_in.files(&self.plug_in.asked("backend", own, product))
    }
}

impl PlugIn {
    /// The files of an answer to `backend`.
    pub(super) fn files(&self, asked: &Asked) -> Result<Vec<OutputFile>, String> {
        let mut seen = BTreeSet::new();
        let mut file = |wire: &FileWire| {
            let file = file(&self.name, wire)?;
            let fresh = seen.insert(file.name.to_lowercase());
            if fresh { Ok(file) } else { Err(format!("it gave two files called `{}`", short(&wire.name))) }
        };
        let read = |answer: Answer| {
            if answer.findings.is_some() || answer.sheets.is_some() {
                return Err("it answered `backend` with findings or sheets".to_owned());
            }
            let files = few(answer.files.ok_or("it answered `backend` without `files`")?, "files")?;
            files.iter().map(&mut file).collect()
        };
        asked.answer().and_then(read).map_err(|why| self.told(&why, &asked.heard.log))
    }

    /// The sheets of an answer to `sheet`.
    pub(super) fn given(&self, own: &OwnOutput, asked: &Asked) -> Result<Vec<GivenSheet>, String> {
        let read = |answer: Answer| {
            if answer.findings.is_some() || answer.files.is_some() {
                return Err("it answered `sheet` with findings or files".to_owned());
            }
            let sheets = few(answer.sheets.ok_or("it answered `sheet` without `sheets`")?, "sheets")?;
            sheets.iter().map(|wire| sheet(wire, own)).collect()
        };
        asked.answer().and_then(read).map_err(|why| self.told(&why, &asked.heard.log))
    }
}

fn few<T>(all: Vec<T>, what: &str) -> Result<Vec<T>, String> {
    if all.len() > MOST { Err(format!("it gave {} {what}, and {MOST} are the most", all.len())) } else { Ok(all) }
}

/// A file under the name of its plug-in.
fn file(plug_in: &str, wire: &FileWire) -> Result<OutputFile, String> {
    let FileWire { name, text, base64 } = wire;
    let shown = short(name);
    if name.contains(['/', '\\']) || name.contains("..") {
        return Err(format!(
            "it gave a file the name `{shown}`; files lie in the layout's folder, and a name has no folders"
        ));
    }
    let fits = |char: char| char.is_ascii_alphanumeric() || "-_.".contains(char);
    let full = format!("{plug_in}-{name}");
    if !name.chars().all(fits) || !name.starts_with(|char: char| char.is_ascii_alphanumeric()) || name.len() > 80 {
        return Err(format!(
            "it gave a file the name `{shown}`; a name has letters, digits, hyphens and dots, a letter or digit first"
        ));
    }
    if let Some(why) = refused_name(&full) {
        return Err(format!("it gave a file the name `{shown}`: {why}"));
    }
    let bytes = match (text, base64) {
        (Some(text), None) => text.clone().into_bytes(),
        (None, Some(data)) => {
            STANDARD.decode(data).map_err(|error| format!("the file `{shown}` is no base64: {error}"))?
        }
        _ => return Err(format!("the file `{shown}` has either `text` or `base64`")),
    };
    Ok(OutputFile { name: full, bytes })
}

/// A sheet of a plug-in.
struct OutsideSheet(Arc<PlugIn>, usize);

impl OutsideSheet {
    fn own(&self) -> Option<&OwnOutput> {
        self.0.sheets.get(self.1)
    }
}

impl SheetMaker for OutsideSheet {
    fn name(&self) -> &str {
        self.own().map_or("", |own| &own.name)
    }

    fn says(&self) -> &str {
        self.own().map_or("", |own| &own.says)
    }

    fn reads_sums(&self) -> bool {
        self.own().is_some_and(|own| !own.reading.report.none())
    }

    fn sheets(&self, product: &Product<'_>) -> Result<Vec<GivenSheet>, String> {
        let Some(own) = self.own() else { return Ok(Vec::new()) };
        self.0.given(own, &self.0.asked("sheet", own, product))
    }
}

fn sheet(wire: &SheetAnswer, own: &OwnOutput) -> Result<GivenSheet, String> {
    let SheetAnswer { title, tables, views } = wire;
    let title = text(title, 100)?;
    let wrong = |why: String| format!("its sheet `{title}` is wrong: {why}");
    if tables.is_empty() == views.is_empty() {
        return Err(wrong("a sheet has either `tables` or `views`".to_owned()));
    }
    if tables.len() > MOST || views.len() > MOST {
        return Err(wrong(format!("more than {MOST} tables or views")));
    }
    let tables = tables.iter().map(table).collect::<Result<_, _>>().map_err(wrong)?;
    let mut drawn = Vec::new();
    for wire in views {
        let view = wire.view().map_err(wrong)?;
        wire.texts().into_iter().try_for_each(|words| text(words, LONGEST).map(|_| ())).map_err(wrong)?;
        if drawn.iter().any(|known: &crate::drawing::View| known.id == view.id)
            || ["frame", "held"].contains(&view.id.as_str())
        {
            return Err(wrong(format!("the id `{}` of a view is taken", view.id)));
        }
        drawn.push(view);
    }
    Ok(GivenSheet { name: own.name.clone(), id: own.name.replace(':', "-"), title, tables, views: drawn })
}

fn table(wire: &TableWire) -> Result<GivenTable, String> {
    let TableWire { heading, columns, rows } = wire;
    if !(1..=MOST_COLUMNS).contains(&columns.len()) || rows.len() > MOST_ROWS {
        return Err(format!("a table has 1 to {MOST_COLUMNS} columns and up to {MOST_ROWS} rows"));
    }
    let column = |wire: &ColumnWire| {
        let ColumnWire { head, width, figures } = wire;
        if width.is_some_and(|width| !(5.0..=400.0).contains(&width)) {
            return Err("a column is 5 to 400 mm wide".to_owned());
        }
        Ok((text(head, LONGEST)?, width.unwrap_or(-1.0), *figures))
    };
    let cell = |words: &String| if words.trim().is_empty() { Ok(String::new()) } else { text(words, LONGEST) };
    let row = |row: &Vec<String>| {
        if row.len() != columns.len() {
            return Err(format!("a row has {} texts, and there are {} columns", row.len(), columns.len()));
        }
        row.iter().map(cell).collect::<Result<Vec<_>, _>>()
    };
    Ok(GivenTable {
        heading: text(heading, LONGEST)?,
        columns: columns.iter().map(column).collect::<Result<_, _>>()?,
        rows: rows.iter().map(row).collect::<Result<_, _>>()?,
    })
}

//! `boxwright mend`: suggestions as changes of the text, and those that are chosen written into the files.

mod change;

use super::arguments::Mend;
use super::check::outcome;
use super::console::Console;
use super::disk::{Changed, Disk, STDIN, replace_texts};
use super::outcome::Outcome;
use super::report::count;
use crate::compile::{Compiled, Options, Session};
use crate::diagnostic::{Edit, Finding, Severity, Suggestion};
use crate::registry::Registry;
use crate::source::{FileId, World};
use change::{changed, overlaps, unified, with_changes};
use std::io;

/// A change that clears errors and findings, which are told.
struct Change<'a> {
    clears: Vec<String>,
    suggestion: &'a Suggestion,
}

/// A layout and how it is compiled.
struct Layout<'a> {
    session: &'a Session,
    disk: &'a Disk,
    file: &'a str,
}

/// Shows the suggestions, or applies the chosen ones.
pub(super) fn run(mend: &Mend, registry: &Registry, options: Options, console: &mut Console) -> io::Result<Outcome> {
    if mend.file == STDIN && !mend.apply.is_empty() {
        console.complain("a change can't be written into standard input; name the file");
        return Ok(Outcome::Broken);
    }
    console.progress(&format!("checking {}", mend.file));
    let disk = Disk::new(&mend.file, options.allow_outside);
    let session = Session::new(registry.clone(), options);
    let layout = Layout { session: &session, disk: &disk, file: disk.layout() };
    let mut compiled = layout.checked(&disk);
    // Nobody else has the handle that would stop it.
    let _never_stopped = session.suggest(&mut compiled);
    console.progress("");
    if compiled.model.is_none() {
        super::report::refused(layout.file, &compiled, console)?;
        return Ok(Outcome::Broken);
    }
    let changes = changes(&compiled);
    if mend.apply.is_empty() {
        show(&layout, &compiled, &changes, console)?;
        return Ok(outcome(&compiled));
    }
    match apply(&layout, &compiled, &changes, &mend.apply) {
        Ok(told) => {
            told.iter().try_for_each(|line| console.say(line))?;
            Ok(Outcome::Clean)
        }
        Err(error) => {
            console.complain(&format!("{}: {error}", layout.file));
            Ok(Outcome::Broken)
        }
    }
}

impl Layout<'_> {
    fn checked(&self, world: &dyn World) -> Compiled {
        let mut compiled = self.session.read(world, self.file);
        // Nobody else has the handle that would stop it.
        let _never_stopped = self.session.check(&mut compiled);
        compiled
    }
}

/// The changes, each once, with all that they clear; those for errors first.
fn changes(compiled: &Compiled) -> Vec<Change<'_>> {
    let errors =
        compiled.errors.errors().iter().map(|error| (format!("error: {}", error.message), error.suggestion.as_deref()));
    let findings = compiled.findings.iter().filter(|one| one.accepted.is_none());
    let findings =
        findings.map(|one| (format!("{}: {}: {}", one.kind(), one.key, one.message), one.suggestion.as_ref()));
    let mut all: Vec<Change<'_>> = Vec::new();
    for (clears, suggestion) in errors.chain(findings) {
        let Some(suggestion) = suggestion else { continue };
        match all.iter_mut().find(|known| known.suggestion.edits == suggestion.edits) {
            Some(known) => known.clears.push(clears),
            None => all.push(Change { clears: vec![clears], suggestion }),
        }
    }
    all
}

/// Prints every change with its number, what it clears, and what it does to the text.
fn show(layout: &Layout<'_>, compiled: &Compiled, changes: &[Change<'_>], console: &mut Console) -> io::Result<()> {
    let mut told = String::new();
    for (number, change) in (1..).zip(changes) {
        told += &format!("{number}: {}\n", change.suggestion.words);
        for line in &change.clears {
            told += &format!("   {line}\n");
        }
        told += &unified(compiled, &change.suggestion.edits);
        told.push('\n');
    }
    console.report(&told)?;
    let without = |one: &&Finding| one.severity < Severity::Note && one.accepted.is_none() && one.suggestion.is_none();
    let left = compiled.errors.errors().iter().filter(|error| error.suggestion.is_none()).count()
        + compiled.findings.iter().filter(without).count();
    let left = match left {
        0 => String::new(),
        left => format!("; no change of one value clears {}", count(left, "other")),
    };
    let how =
        if changes.is_empty() { "" } else { "; `--apply 1` writes the first, `--apply all` as many as go together" };
    console.say(&format!("{}: {}{left}{how}", layout.file, count(changes.len(), "change")))
}

/// Writes the chosen changes, or none of them. What was done, in lines.
fn apply(
    layout: &Layout<'_>,
    compiled: &Compiled,
    changes: &[Change<'_>],
    wanted: &[String],
) -> Result<Vec<String>, String> {
    let all = wanted.iter().any(|word| word == "all");
    let chosen = if all { (1..=changes.len()).collect() } else { numbers(wanted, changes.len())? };
    if chosen.is_empty() {
        return Err("there is nothing to apply".to_owned());
    }
    let (mut kept, mut told): (Vec<usize>, Vec<String>) = (Vec::new(), Vec::new());
    let mut files: Option<Vec<Changed>> = None;
    for number in chosen {
        let mut more = kept.clone();
        more.push(number);
        match together(layout, compiled, changes, &more) {
            Ok(made) => (files, kept) = (Some(made), more),
            Err(why) if all => told.push(format!("{}: {number} is left out: {why}", layout.file)),
            Err(why) => return Err(format!("{number} can't be applied: {why}; nothing was written")),
        }
    }
    let files = files.ok_or("none of the changes can be applied; nothing was written")?;
    replace_texts(&files)?;
    let of = |number: &usize| Some(format!("{number}: {}", changes.get(number.checked_sub(1)?)?.suggestion.words));
    told.insert(0, format!("{}: applied {}", layout.file, kept.iter().filter_map(of).collect::<Vec<_>>().join("; ")));
    Ok(told)
}

/// The numbers that are asked for, each once.
fn numbers(wanted: &[String], most: usize) -> Result<Vec<usize>, String> {
    let mut all = Vec::new();
    for word in wanted {
        let number = word.parse::<usize>().ok().filter(|number| (1..=most).contains(number));
        let number = number.ok_or_else(|| match most {
            0 => format!("there is no change `{word}`: nothing here is cleared by a change of one value"),
            _ => format!("there is no change `{word}`; they are numbered from 1 to {most}, and `all` means all"),
        })?;
        if !all.contains(&number) {
            all.push(number);
        }
    }
    Ok(all)
}

/// The files with some changes, tried: they compile, what the changes clear is gone and nothing graver has come.
fn together(
    layout: &Layout<'_>,
    before: &Compiled,
    changes: &[Change<'_>],
    numbers: &[usize],
) -> Result<Vec<Changed>, String> {
    let chosen: Vec<&Change<'_>> = numbers.iter().filter_map(|number| changes.get(number.checked_sub(1)?)).collect();
    let edits: Vec<&Edit> = chosen.iter().flat_map(|change| &change.suggestion.edits).collect();
    if overlaps(&edits) {
        return Err("it changes what another one changes".to_owned());
    }
    let edits: Vec<Edit> = edits.into_iter().cloned().collect();
    let files = (0..).map(FileId).map_while(|id| before.sources.file(id).map(|file| (id, file)));
    let made: Vec<Changed> = files
        .filter(|(id, _)| edits.iter().any(|edit| edit.span.file == *id))
        .map(|(id, file)| changed(file, id, &edits))
        .collect();
    if let Some(other) = made.iter().find(|one| layout.disk.read(&one.path).as_deref() != Ok(one.before.as_str())) {
        return Err(format!("`{}` is another one than was checked", other.path));
    }
    let after = layout.checked(&with_changes(layout.disk, &made));
    let grave = |of: &Compiled| {
        let open = of.findings.iter().filter(|one| one.is_open_fault());
        open.map(|finding| finding.key.clone()).collect::<Vec<_>>()
    };
    let (was, is) = (grave(before), grave(&after));
    if after.model.is_none() || after.errors.errors().len() > before.errors.errors().len() {
        return Err("the layout would have errors that it has not".to_owned());
    }
    match is.iter().find(|key| !was.contains(key)) {
        Some(key) => Err(format!("there would be a new fault, `{key}`")),
        None => Ok(made),
    }
}

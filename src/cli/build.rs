//! `boxwright build`: writes the outputs of layouts, one folder for each.

use super::arguments::Build;
use super::check::outcome;
use super::console::Console;
use super::disk::{Disk, layout_path};
use super::outcome::Outcome;
use super::report;
use super::swap::{Swapped, swap};
use crate::backends::{Backend, OutputFile, Reads};
use crate::base::text::one_of;
use crate::compile::{Compiled, Options, Session, Wanted};
use crate::diagnostic::{Finding, Held};
use crate::registry::Registry;
use crate::source::{folded, layout_name};
use crate::views::Chosen;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::io;
use std::path::Path;
use std::sync::Arc;

/// Builds every file in the order given.
pub(super) fn run(build: &Build, registry: &Registry, options: Options, console: &mut Console) -> io::Result<Outcome> {
    if let Some(clash) = same_folder(&build.files) {
        console.complain(&clash);
        return Ok(Outcome::Broken);
    }
    let mut worst = Outcome::Clean;
    for file in &build.files {
        worst = worst.max(one(file, build, registry, options, console)?);
    }
    Ok(worst)
}

/// Two layouts that would write one folder, on this system or on one that ignores case.
fn same_folder(files: &[String]) -> Option<String> {
    let mut seen: BTreeMap<String, &str> = BTreeMap::new();
    files.iter().find_map(|file| {
        let path = layout_path(file);
        let stem = layout_name(&path);
        let other = seen.insert(folded(stem), file)?;
        if other == file {
            return Some(format!("`{file}` is named twice"));
        }
        let ignoring = if layout_name(&layout_path(other)) == stem { "" } else { ", where case is ignored" };
        Some(format!(
            "`{other}` and `{file}` would both write the folder `{stem}`{ignoring}; build them with different `--out`"
        ))
    })
}

fn one(file: &str, build: &Build, registry: &Registry, options: Options, console: &mut Console) -> io::Result<Outcome> {
    console.progress(&format!("checking {file}"));
    let disk = Disk::new(file, options.allow_outside);
    let file = disk.layout();
    let session = Session::new(registry.clone(), options);
    let mut compiled = session.read(&disk, file);
    // Nobody else has the handle that would stop it.
    let _never_stopped = session.check(&mut compiled).and_then(|()| session.suggest(&mut compiled));
    console.progress("");
    let Some(name) = compiled.model.as_ref().map(|model| model.name.as_str()) else {
        report::refused(file, &compiled, console)?;
        return Ok(Outcome::Broken);
    };
    report::held(&compiled, console)?;
    console.progress(&format!("drawing {file}"));
    let folder = Path::new(&build.out).join(name);
    compiled.sources.rename(|name| disk.name_in_outputs(name));
    match make(&session, &compiled, build).and_then(|made| Ok((swap(&folder, &made.files)?, made.failed))) {
        Ok((swapped, failed)) => {
            console.progress("");
            failed.iter().for_each(|why| console.complain(&format!("{file}: {why}")));
            console.say(&summary(&folder, &swapped, compiled.held(), &compiled.findings))?;
            Ok(if failed.is_empty() { outcome(&compiled) } else { Outcome::Broken })
        }
        Err(error) => {
            console.complain(&format!("{file}: {error}"));
            Ok(Outcome::Broken)
        }
    }
}

/// What a build has made.
pub(super) struct Made {
    /// The files.
    pub files: Vec<OutputFile>,
    /// What outside could not be made, and why; all else is there.
    pub failed: Vec<String>,
}

/// The files of the chosen back-ends.
pub(super) fn make(session: &Session, compiled: &Compiled, build: &Build) -> Result<Made, String> {
    const NOTHING: &str = "the layout gives no drawings; check it first";
    let backends: Vec<_> = compiled.registry.backends.iter().filter(|one| build.wants(one.as_ref())).collect();
    if let Some(name) = build.only.iter().find(|name| backends.iter().all(|one| one.name() != name.as_str())) {
        let known = compiled.registry.backends.iter().map(|one| one.name());
        return Err(format!("there is no output `{name}`; outputs are {}", one_of(known)));
    }
    let wanted = Wanted { reads: reads(&backends), sheets: Chosen(build.sheets.clone()) };
    let mut outputs = session.draw(compiled, &wanted).ok().flatten().ok_or(NOTHING)?;
    if let Some(id) = wanted.sheets.missing(&outputs.sheets).filter(|_| wanted.reads.contains(&Reads::Sheets)) {
        return Err(format!("the layout has no sheet `{id}`; build it without `--sheets` to see which it has"));
    }
    (outputs.picture, outputs.csv) = (build.picture(), build.csv());
    if build.outlines {
        outputs.outline_texts();
    }
    if build.transparent {
        outputs.leave_paper_out();
    }
    let product = outputs.product(compiled);
    let made: Vec<_> = backends.par_iter().map(|backend| backend.files(&product)).collect();
    let mut all = Made { files: Vec::new(), failed: outputs.failed.clone() };
    for (backend, made) in backends.iter().zip(made) {
        let told = |error: String| format!("the output `{}` can't be made: {error}", backend.name());
        match made.and_then(|files| beside(files, &all.files, backend.is_outside())) {
            Ok(files) => all.files.extend(files),
            Err(error) if backend.is_outside() => all.failed.push(told(error)),
            Err(error) => return Err(told(error)),
        }
    }
    Ok(all)
}

/// The files of an output that comes from outside may not have the names of others, in whatever case.
fn beside(files: Vec<OutputFile>, others: &[OutputFile], outside: bool) -> Result<Vec<OutputFile>, String> {
    let taken = |file: &&OutputFile| others.iter().any(|other| folded(&other.name) == folded(&file.name));
    match files.iter().find(taken).filter(|_| outside) {
        Some(file) => Err(format!("it gave a file called `{}`, which is another output's", file.name)),
        None => Ok(files),
    }
}

/// What some back-ends read, each once.
fn reads(backends: &[&Arc<dyn Backend>]) -> Vec<Reads> {
    let mut all: Vec<Reads> = Vec::new();
    let each = backends.iter().flat_map(|backend| backend.reads());
    each.for_each(|one| all.extend(Some(*one).filter(|one| !all.contains(one))));
    all
}

fn summary(folder: &Path, swapped: &Swapped, stamp: Held, findings: &[Finding]) -> String {
    let files = report::count(swapped.made, "file");
    let held = match stamp.any() {
        false => String::new(),
        true => format!(", stamped {} for {}", stamp.word(), stamp.reasons()),
    };
    let removed = match swapped.removed {
        0 => String::new(),
        removed => format!("; {} of an earlier build removed", report::count(removed, "file")),
    };
    let beside = match report::beside_faults(findings) {
        none if none.is_empty() => none,
        some => format!("; {some}"),
    };
    format!("{}: {files}{held}{removed}{beside}", folder.display())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::Severity;

    #[test]
    fn two_layouts_of_one_name_clash() {
        let files = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
        assert!(same_folder(&files(&["a/x.yaml", "b/x.yaml"])).is_some());
        assert!(same_folder(&files(&["a/x.yaml", "a/X.yml"])).is_some_and(|told| told.contains("case is ignored")));
        assert!(same_folder(&files(&["-", "-"])).is_some_and(|told| told.contains("twice")));
        assert!(same_folder(&files(&["a/x.yaml", "a/y.yaml"])).is_none());
    }

    #[test]
    fn the_summary_says_what_was_done() {
        let of = |severity| Finding::new("walkway", severity, "a", "b");
        let says = |made, removed, findings: &[Finding]| {
            summary(Path::new("out/a"), &Swapped { made, removed }, Held::new(0, findings), findings)
        };
        assert_eq!(says(7, 0, &[]), "out/a: 7 files");
        assert_eq!(says(7, 0, &[of(Severity::Caution)]), "out/a: 7 files; 1 caution");
        assert_eq!(
            says(1, 2, &[of(Severity::Fault)]),
            "out/a: 1 file, stamped HELD for 1 fault; 2 files of an earlier build removed"
        );
        let draft = summary(Path::new("out/a"), &Swapped { made: 2, removed: 0 }, Held { errors: 2, faults: 1 }, &[]);
        assert_eq!(draft, "out/a: 2 files, stamped DRAFT for 2 errors, 1 fault");
    }
}

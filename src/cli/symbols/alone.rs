//! `boxwright symbols --check`: symbols of one's own, each by itself.

use crate::cli::console::Console;
use crate::cli::disk::{Disk, read_text};
use crate::cli::outcome::Outcome;
use crate::cli::report::count;
use crate::compile::{Alone, Case, Options, Session, Tried};
use crate::diagnostic::{Finding, Severity, Sink, report};
use crate::language::{is_symbol_name, read_recipe};
use crate::registry::Registry;
use crate::source::SourceMap;
use std::fs;
use std::io;
use std::path::Path;

/// Where recipes stand in a folder of symbols.
const RECIPES: &str = "recipes";
/// A recipe's file is no longer than this, bytes.
const LARGEST: usize = 1 << 20;

/// Looks at every symbol and recipe of a folder.
pub(super) fn run(folder: &str, console: &mut Console) -> io::Result<Outcome> {
    let folder = folder.trim_end_matches('/');
    let (recipes, symbols): (Vec<_>, Vec<_>) = match names(folder) {
        Ok(names) => names.into_iter().partition(|(group, _)| group == RECIPES),
        Err(why) => {
            console.complain(&format!("{folder}: {why}"));
            return Ok(Outcome::Broken);
        }
    };
    if symbols.is_empty() && recipes.is_empty() {
        let example = format!("{folder}/own/bench.yaml");
        console.complain(&format!(
            "{folder}: there is no symbol; one stands in the folder of its group, as in `{example}`"
        ));
        return Ok(Outcome::Broken);
    }
    let mut worst = Outcome::Clean;
    for (_, name) in &recipes {
        worst = worst.max(recipe(folder, name, console)?);
    }
    let session = Session::new(Registry::of_furniture(), Options { allow_outside: true, ..Options::default() });
    let disk = Disk::new("", true);
    let (mut cases, mut unmade, mut all) = (0, 0, Vec::new());
    for (group, name) in &symbols {
        let name = format!("{group}/{name}");
        if !is_symbol_name(&name) {
            console.complain(&format!("{folder}/{name}.yaml: a symbol can't be named `{name}`; a name is a letter, then letters, digits and hyphens"));
            worst = Outcome::Broken;
            continue;
        }
        console.progress(&format!("checking {folder}/{name}"));
        let tried = session.alone(&disk, Alone { name: &name, folder: Some(folder), head: "" });
        console.progress("");
        worst = worst.max(tell(&format!("{folder}/{name}"), &tried, console)?);
        cases += tried.cases;
        unmade += usize::from(tried.broken.is_some());
        all.extend(kinds(&tried.found).iter().map(|(finding, ..)| finding.severity));
    }
    let made =
        format!("{}, {}", count(symbols.len(), "symbol"), count(cases, "way").replace("ways", "ways to make them"));
    let unmade = if unmade > 0 { format!("{unmade} can't be made; ") } else { String::new() };
    console.say(&format!("{made}: {unmade}{}", sums(all)))?;
    Ok(worst)
}

/// All files `group/name.yaml` of a folder, sorted.
fn names(folder: &str) -> Result<Vec<(String, String)>, String> {
    let listed = |path: &Path| -> Result<Vec<String>, String> {
        let entries = fs::read_dir(path).map_err(|why| format!("it can't be read as a folder: {why}"))?;
        let mut names: Vec<String> = entries.filter_map(|entry| entry.ok()?.file_name().into_string().ok()).collect();
        names.sort();
        Ok(names)
    };
    let mut all = Vec::new();
    for group in listed(Path::new(folder))? {
        let path = Path::new(folder).join(&group);
        for file in if path.is_dir() { listed(&path)? } else { Vec::new() } {
            let Some(name) = file.strip_suffix(".yaml") else { continue };
            all.push((group.clone(), name.to_owned()));
        }
    }
    Ok(all)
}

/// Reads a recipe; what is made of it shows where a symbol uses it.
fn recipe(folder: &str, name: &str, console: &mut Console) -> io::Result<Outcome> {
    let path = format!("{folder}/{RECIPES}/{name}.yaml");
    let (mut sources, mut errors) = (SourceMap::default(), Sink::default());
    let read = match read_text(&path, LARGEST) {
        Ok(text) => read_recipe(&path, &text, name, &mut sources, &mut errors),
        Err(why) => {
            console.complain(&format!("{path}: {why}"));
            return Ok(Outcome::Broken);
        }
    };
    console.report(&report::errors(&errors, &sources, console.colour))?;
    Ok(if read.is_some() { Outcome::Clean } else { Outcome::Broken })
}

/// Reports what came of one symbol.
fn tell(name: &str, tried: &Tried, console: &mut Console) -> io::Result<Outcome> {
    let kinds = kinds(&tried.found);
    for (finding, case, times) in &kinds {
        let more = if *times > 1 { format!("; and {} more", times - 1) } else { String::new() };
        let line = format!("{name}: {} {}: {}", finding.severity.word(), finding.key.check, finding.message);
        console.report(&format!("{line}\n    at {}{more}\n", case.told()))?;
    }
    if let Some((case, compiled)) = &tried.broken {
        console.report(&report::errors(&compiled.errors, &compiled.sources, console.colour))?;
        let at = if *case == Case::default() { "its usual sizes".to_owned() } else { case.told() };
        console.say(&format!("{name}: can't be made at {at}"))?;
        return Ok(Outcome::Broken);
    }
    console.say(&format!(
        "{name}: {}, {}",
        count(tried.cases, "way"),
        sums(kinds.iter().map(|(finding, ..)| finding.severity))
    ))?;
    Ok(if kinds.iter().any(|(one, ..)| one.severity == Severity::Fault) { Outcome::Faults } else { Outcome::Clean })
}

/// Findings that differ in nothing but figures are one kind: the first, its case, and how often it comes.
fn kinds(found: &[(Case, Finding)]) -> Vec<(&Finding, &Case, usize)> {
    let words = |one: &Finding| -> String { one.message.chars().filter(|letter| !letter.is_ascii_digit()).collect() };
    let mut kinds: Vec<(String, &Finding, &Case, usize)> = Vec::new();
    for (case, finding) in found {
        let says = format!("{} {}", finding.key.check, words(finding));
        match kinds.iter_mut().find(|(known, ..)| *known == says) {
            Some((.., times)) => *times += 1,
            None => kinds.push((says, finding, case, 1)),
        }
    }
    kinds.into_iter().map(|(_, finding, case, times)| (finding, case, times)).collect()
}

/// "no fault", "2 faults, 1 caution".
fn sums(severities: impl IntoIterator<Item = Severity>) -> String {
    let all: Vec<Severity> = severities.into_iter().collect();
    let number = |severity| all.iter().filter(|one| **one == severity).count();
    let faults = match number(Severity::Fault) {
        0 => "no fault".to_owned(),
        some => count(some, "fault"),
    };
    match number(Severity::Caution) {
        0 => faults,
        some => format!("{faults}, {}", count(some, "caution")),
    }
}

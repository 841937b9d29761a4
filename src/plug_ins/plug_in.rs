//! A plug-in that was loaded: what it says of itself, understood, and the ways to ask it.

use super::bounds::Bounds;
use super::findings::findings;
use super::program::{Heard, Program, sha256};
use super::schemas::published;
use super::wire::{Answer, CheckWire, Description, LimitWire, Question, Reading, ReadsWire, bound, class, unit};
use super::words::{short, text};
use crate::backends::Product;
use crate::base::content::{Content, Digest, Key};
use crate::checks::limits;
use crate::diagnostic::{Finding, Limit, Ran};
use crate::figures::Figures;
use crate::model::{SheetKind, Word};
use std::collections::BTreeSet;
use std::sync::Arc;

/// Longest name.
const LONGEST_NAME: usize = 40;
/// Longest line that says what something is, and longest manual page, characters.
const LONGEST_LINE: usize = 200;
const LONGEST_PAGE: usize = 20_000;
/// Most checks, outputs, sheets, and limits of a check.
const MOST: usize = 50;
/// Names that mean something else: what is built in writes files or has checks with them.
const TAKEN: [&str; 10] =
    ["rule", "boxwright", "model", "report", "findings", "cut-list", "labels", "sheets", "tiles", "plug-in"];

/// A plug-in.
pub struct PlugIn {
    /// What its checks, outputs and sheets are called by, before a colon.
    pub name: String,
    /// One line that says what it is.
    pub says: String,
    /// Its file, as it was named.
    pub file: String,
    /// SHA-256 of its bytes, in hexadecimal digits.
    pub sha256: String,
    /// Its checks.
    pub(super) checks: Vec<OwnCheck>,
    /// Its outputs.
    pub(super) backends: Vec<OwnOutput>,
    /// Its sheets.
    pub(super) sheets: Vec<OwnOutput>,
    reading: Reading,
    program: Program,
    bounds: Bounds,
}

/// A check of a plug-in, understood.
pub(super) struct OwnCheck {
    /// With the plug-in's name.
    pub name: String,
    pub says: String,
    pub manual: String,
    pub caution: Option<String>,
    pub limits: Vec<Limit>,
}

/// An output or a sheet of a plug-in, understood.
pub(super) struct OwnOutput {
    /// Without the plug-in's name.
    pub short: String,
    /// With it.
    pub name: String,
    pub says: String,
    pub when_asked: bool,
    pub reading: Reading,
}

impl PlugIn {
    /// Compiles the bytes of a plug-in's file and asks it what it is.
    ///
    /// # Errors
    /// What is wrong with it, as a sentence that names the file.
    pub fn load(file: &str, wasm: &[u8], bounds: Bounds) -> Result<Self, String> {
        let program = Program::compile(wasm, &bounds).map_err(|why| format!("the plug-in `{file}` {why}"))?;
        if !program.has("describe") {
            return Err(format!("the plug-in `{file}` exports no function `describe`, by which it says what it is"));
        }
        let heard = program.call("describe", None, &bounds);
        let stopped =
            |why: String| format!("the plug-in `{file}` could not say what it is: {why}{}", logged(&heard.log));
        let description = heard.answer.as_deref().map_err(Clone::clone).and_then(Description::read);
        let own = description.map_err(stopped)?;
        let named = format!("the plug-in `{}` in `{file}`", short(&own.name));
        Self::understood(file, wasm, (own, program), bounds).map_err(|why| format!("{named} {why}"))
    }

    /// A plug-in whose functions are linked into the program: the same forms, without WebAssembly in between.
    ///
    /// # Errors
    /// What is wrong with what it says of itself.
    #[cfg(feature = "plug-ins")]
    pub fn linked(file: &str, functions: fn(&str, &[u8]) -> Vec<u8>) -> Result<Self, String> {
        let own = Description::read(&functions("describe", &[]))?;
        Self::understood(file, file.as_bytes(), (own, Program::linked(functions)), Bounds::default())
    }

    fn understood(
        file: &str,
        wasm: &[u8],
        (own, program): (Description, Program),
        bounds: Bounds,
    ) -> Result<Self, String> {
        let Description { format: _, version: _, name, says, checks, backends, sheets } = own;
        named(&name)?;
        if TAKEN.contains(&name.as_str())
            || SheetKind::of_id(&format!("{name}-")).is_some()
            || SheetKind::of(&name).is_some()
        {
            return Err("has a name that means something else; give it another one".to_owned());
        }
        let lists = [("check", checks.is_empty()), ("backend", backends.is_empty()), ("sheet", sheets.is_empty())];
        if let Some((function, _)) = lists.iter().find(|(function, none)| !none && !program.has(function)) {
            return Err(format!("exports no function `{function}`, which what it describes asks for"));
        }
        if lists.iter().any(|(_, none)| !none) && !program.has("room") {
            return Err("exports no function `room`, which says where the question goes".to_owned());
        }
        if [checks.len(), backends.len(), sheets.len()].iter().any(|count| *count > MOST) {
            return Err(format!("describes more than {MOST} checks, outputs or sheets"));
        }
        let reading = Reading::of(checks.iter().map(|check| &check.reads), &published)?;
        let output = |(short, says, when_asked, reads): (String, String, bool, ReadsWire)| {
            named(&short)?;
            let full = format!("{name}:{short}");
            let says = line(&says, LONGEST_LINE)?;
            Ok::<_, String>(OwnOutput {
                name: full,
                short,
                says,
                when_asked,
                reading: Reading::of([&reads], &published)?,
            })
        };
        let backends = backends.into_iter().map(|one| output((one.name, one.says, one.when_asked, one.reads)));
        let backends = backends.collect::<Result<Vec<_>, _>>()?;
        let sheets = sheets.into_iter().map(|one| output((one.name, one.says, false, one.reads)));
        let sheets = sheets.collect::<Result<Vec<_>, _>>()?;
        let checks = checks.into_iter().map(|check| own_check(&name, check)).collect::<Result<Vec<_>, _>>()?;
        once(checks.iter().map(|check| check.name.as_str()))?;
        once(backends.iter().map(|one| one.name.as_str()))?;
        once(sheets.iter().map(|one| one.name.as_str()))?;
        let (says, file, sha256) = (line(&says, LONGEST_LINE)?, file.to_owned(), sha256(wasm));
        Ok(Self { name, says, file, sha256, checks, backends, sheets, reading, program, bounds })
    }

    /// What all its checks find in a layout, or why they could not be made. What is answered to one question is kept.
    pub(super) fn found(&self, figures: &Figures<'_>) -> Result<Vec<Finding>, String> {
        let asked = self.asked_checks(figures);
        let checks = self.ran(figures);
        let read = |answer: Answer| {
            if answer.files.is_some() || answer.sheets.is_some() {
                return Err("it answered `check` with files or sheets".to_owned());
            }
            let wires =
                answer.findings.ok_or("it answered `check` without `findings`; without any, give an empty list")?;
            findings(&wires, (&self.name, &checks), figures)
        };
        asked.answer().and_then(read).map_err(|why| self.told(&why, &asked.heard.log))
    }

    /// The question for all its checks, with what came of it.
    pub(super) fn asked_checks(&self, figures: &Figures<'_>) -> Asked {
        let question = Question::Checks(figures, &self.ran(figures)).text(&self.reading);
        let mut digest = Digest::default();
        self.sha256.feed(&mut digest);
        digest.bytes(&question);
        let key: Key = digest.key();
        let heard = figures.memo.get("plug-in", key, || self.program.call("check", Some(&question), &self.bounds));
        Asked { question: question.len(), heard }
    }

    /// Its checks with their limits as they hold for a layout.
    fn ran(&self, figures: &Figures<'_>) -> Vec<Ran> {
        let of = |check: &OwnCheck| {
            let [name, says] = [&check.name, &check.says].map(Clone::clone);
            let limits = limits((&check.name, &check.limits), figures.model);
            Ran { name, says, caution: check.caution.clone(), limits }
        };
        self.checks.iter().map(of).collect()
    }

    /// The question for an output or a sheet, with what came of it.
    pub(super) fn asked(&self, function: &str, output: &OwnOutput, product: &Product<'_>) -> Asked {
        let question = Question::Product(product, &output.short).text(&output.reading);
        let heard = Arc::new(self.program.call(function, Some(&question), &self.bounds));
        Asked { question: question.len(), heard }
    }

    /// A complaint that names it.
    pub(super) fn told(&self, why: &str, log: &str) -> String {
        format!("the plug-in `{}` in `{}` failed: {why}{}", self.name, self.file, logged(log))
    }
}

/// A question, and what came of it.
pub(super) struct Asked {
    /// Length of the question, bytes.
    pub question: usize,
    /// The answer.
    pub heard: Arc<Heard>,
}

impl Asked {
    /// The answer, read.
    pub fn answer(&self) -> Result<Answer, String> {
        self.heard.answer.as_ref().map_err(Clone::clone).and_then(|bytes| Answer::read(bytes))
    }
}

/// What a plug-in logged, behind a complaint.
fn logged(log: &str) -> String {
    let last: Vec<&str> = log.trim().lines().rev().take(3).collect();
    let last: Vec<&str> = last.into_iter().rev().collect();
    if last.is_empty() { String::new() } else { format!("; its log ends: {}", last.join(" / ")) }
}

fn own_check(plug_in: &str, wire: CheckWire) -> Result<OwnCheck, String> {
    let CheckWire { name, says, manual, caution, limits, reads: _ } = wire;
    named(&name)?;
    let full = format!("{plug_in}:{name}");
    let of = |why: String| format!("describes the check `{name}` wrongly: {why}");
    if limits.len() > MOST {
        return Err(of(format!("more than {MOST} limits")));
    }
    let limits = limits.iter().map(limit).collect::<Result<Vec<_>, _>>().map_err(of)?;
    once(limits.iter().map(|limit| limit.name.as_ref()))?;
    let caution = caution.map(|caution| line(&caution, LONGEST_LINE)).transpose().map_err(of)?;
    Ok(OwnCheck {
        name: full,
        says: line(&says, LONGEST_LINE).map_err(of)?,
        manual: page(&manual).map_err(of)?,
        caution: caution.map(|caution| caution.trim_end_matches('.').to_owned()),
        limits,
    })
}

fn limit(wire: &LimitWire) -> Result<Limit, String> {
    let LimitWire { name, value, to, unit: of, bound: word, class: sure, source } = wire;
    named(name)?;
    let default = bound(word, *value, *to)?;
    let (quantity, class) = (unit(of)?, class(sure)?);
    Ok(Limit { name: name.clone().into(), default, quantity, class, source: line(source, LONGEST_LINE)?.into() })
}

fn line(words: &str, longest: usize) -> Result<String, String> {
    text(words, longest)
}

/// A manual page: lines of text.
fn page(words: &str) -> Result<String, String> {
    if words.chars().count() > LONGEST_PAGE {
        return Err(format!("its manual page is longer than {LONGEST_PAGE} characters"));
    }
    if words.trim().is_empty() {
        return Err("it has no manual page".to_owned());
    }
    let lines = words.trim().lines().map(str::trim_end);
    let odd = words.chars().find(|char| char.is_control() && !['\n', '\r', '\t'].contains(char));
    odd.map_or(Ok(()), |odd| Err(format!("its manual page has the sign U+{:04X}", u32::from(odd))))?;
    Ok(lines.fold(String::new(), |page, line| page + line + "\n"))
}

/// Refuses what is no name.
fn named(name: &str) -> Result<(), String> {
    let fits = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
    let fine = name.len() <= LONGEST_NAME
        && name.bytes().all(fits)
        && name.starts_with(|char: char| char.is_ascii_lowercase())
        && !name.ends_with('-');
    if fine {
        return Ok(());
    }
    let name = short(name);
    Err(format!(
        "calls something `{name}`; a name has up to {LONGEST_NAME} lower case letters, digits and hyphens, a letter first"
    ))
}

fn once<'a>(names: impl Iterator<Item = &'a str>) -> Result<(), String> {
    let mut seen = BTreeSet::new();
    let mut names = names;
    names.find(|name| !seen.insert(*name)).map_or(Ok(()), |twice| Err(format!("describes `{twice}` twice")))
}

impl std::fmt::Debug for PlugIn {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "plug-in `{}` of {}", self.name, self.file)
    }
}

impl PartialEq for PlugIn {
    fn eq(&self, other: &Self) -> bool {
        (&self.name, &self.sha256, self.bounds) == (&other.name, &other.sha256, other.bounds)
    }
}

//! `boxwright accept`: writes into a layout that a finding of it stays, and why.

use super::arguments::Accept;
use super::console::Console;
use super::disk::{Disk, STDIN, replace_text};
use super::outcome::Outcome;
use crate::base::number::trimmed;
use crate::base::text::nearest;
use crate::compile::{Compiled, Options, Session};
use crate::diagnostic::{Finding, Key, Quantity, Severity};
use crate::language::add_accepted;
use crate::registry::Registry;
use crate::source::{MemoryWorld, Overlay, World};
use std::io;

/// Checks the layout, writes the entry, and says which.
pub(super) fn run(
    accept: &Accept,
    registry: &Registry,
    options: Options,
    console: &mut Console,
) -> io::Result<Outcome> {
    if accept.file == STDIN {
        console.complain("an entry can't be written into standard input; name the file");
        return Ok(Outcome::Broken);
    }
    let disk = Disk::new(&accept.file, options.allow_outside);
    let (file, key) = (disk.layout(), accept.key.join(" "));
    let session = Session::new(registry.clone(), options);
    let compiled = checked(&session, &disk, file);
    if compiled.model.is_none() {
        super::report::refused(file, &compiled, console)?;
        return Ok(Outcome::Broken);
    }
    let made = entries(&compiled, &key, &accept.because).and_then(|entries| {
        let text = written(&Layout { session: &session, disk: &disk, file }, &compiled, &key, &entries)?;
        replace_text(file, &text).map(|()| entries)
    });
    match made {
        Ok(entries) => {
            console.say(&format!("{file}: accepted is now {}", entries.join(" and ")))?;
            Ok(Outcome::Clean)
        }
        Err(error) => {
            console.complain(&format!("{file}: {error}"));
            Ok(Outcome::Broken)
        }
    }
}

fn checked(session: &Session, world: &dyn World, file: &str) -> Compiled {
    let mut compiled = session.read(world, file);
    // Nobody else has the handle that would stop it.
    let _never_stopped = session.check(&mut compiled);
    compiled
}

/// The entries that accept what a key means, each as YAML.
fn entries(compiled: &Compiled, key: &str, because: &str) -> Result<Vec<String>, String> {
    if because.trim().is_empty() {
        return Err("a finding is accepted for a reason; write it behind `--because`".to_owned());
    }
    let grave = || compiled.findings.iter().filter(|finding| finding.severity < Severity::Note);
    let key = meant(grave().map(|finding| &finding.key), key)?;
    let all: Vec<&Finding> = grave().filter(|finding| finding.key == *key).collect();
    let open: Vec<&Finding> = all.iter().filter(|finding| finding.accepted.is_none()).copied().collect();
    let known = all.iter().find_map(|finding| finding.accepted.as_deref());
    if let (true, Some(known)) = (open.is_empty(), known) {
        return Err(format!("`{key}` is accepted already, because: {known}"));
    }
    let names = compiled.model.iter().flat_map(|model| &model.arrangements).map(|one| one.name.as_str());
    let names: Vec<&str> = names.collect();
    Ok(open.into_iter().map(|finding| entry(finding, &names, because)).collect())
}

/// The key of a text, whole or without what tells it from others of the check on the subject.
fn meant<'a>(keys: impl Iterator<Item = &'a Key>, text: &str) -> Result<&'a Key, String> {
    let mut all: Vec<&Key> = keys.collect();
    all.dedup();
    if let Some(key) = all.iter().find(|key| key.to_string() == text) {
        return Ok(key);
    }
    let short = |key: &Key| format!("{} of {}", key.check, key.subject);
    let mut near: Vec<&Key> = all.iter().filter(|key| short(key) == text).copied().collect();
    near.sort();
    near.dedup();
    match near.as_slice() {
        [key] => Ok(key),
        [] => {
            let told: Vec<String> = all.iter().map(|key| key.to_string()).collect();
            Err(match nearest(text, told.iter().map(String::as_str)) {
                Some(near) => format!("there is no finding `{text}`; did you mean `{near}`?"),
                None => format!(
                    "there is no finding `{text}`; `boxwright check` prints them, as `swing of wardrobe / door`"
                ),
            })
        }
        several => {
            let told: Vec<String> = several.iter().map(|key| format!("`{key}`")).collect();
            Err(format!("`{text}` may mean {}", told.join(" or ")))
        }
    }
}

fn entry(finding: &Finding, arrangements: &[&str], because: &str) -> String {
    let Key { check, subject, about } = &finding.key;
    let mut entry = format!("{{ check: {check}, of: {}", quoted(&subject.to_string()));
    let list = |names: Vec<&str>| names.into_iter().map(quoted).collect::<Vec<_>>().join(", ");
    if !about.is_empty() {
        entry += &format!(", about: [{}]", list(about.iter().map(|about| about.name()).collect()));
    }
    let within: Vec<&str> = finding.arrangements.iter().map(String::as_str).collect();
    if !within.is_empty() && arrangements.iter().any(|name| !within.contains(name)) {
        entry += &format!(", in: [{}]", list(within));
    }
    if let (Some(measured), Some(_)) = (finding.measured, &finding.required) {
        let unit = if measured.quantity == Quantity::Length { " mm" } else { "" };
        entry += &format!(", up-to: {}{unit}", trimmed(measured.value, 1));
    }
    let because = serde_json::Value::from(because).to_string();
    format!("{entry}, because: {because} }}")
}

/// A text as YAML, in quotes unless it is plainly a name.
fn quoted(text: &str) -> String {
    let plain = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == ' ';
    let word = ["yes", "no", "true", "false", "null", "on", "off"].contains(&text.to_lowercase().as_str());
    let is_name = text.starts_with(|c: char| c.is_ascii_alphabetic()) && text.chars().all(plain);
    if is_name && !word && text.trim() == text { text.to_owned() } else { serde_json::Value::from(text).to_string() }
}

struct Layout<'a> {
    session: &'a Session,
    disk: &'a Disk,
    file: &'a str,
}

/// The text with the entries, tried: it compiles, the finding is accepted in it and so is all that was.
fn written(layout: &Layout<'_>, before: &Compiled, key: &str, entries: &[String]) -> Result<String, String> {
    let text = layout.disk.read(layout.file)?;
    let mut made = Some(text);
    for entry in entries {
        made = made.and_then(|text| add_accepted(&text, entry));
    }
    let by_hand = || format!("write it yourself, under `accepted`: - {}", entries.join(" and - "));
    let made = made.ok_or_else(|| format!("there is no plain place for the entry; {}", by_hand()))?;
    let edited = Overlay::new(layout.disk, MemoryWorld::default().with(layout.file, &made));
    let after = checked(layout.session, &edited, layout.file);
    let open = |of: &Compiled| {
        let grave = of.findings.iter().filter(|one| one.severity < Severity::Note && one.accepted.is_none());
        grave.map(|finding| (finding.key.clone(), finding.arrangements.clone())).collect::<Vec<_>>()
    };
    let (was, is) = (open(before), open(&after));
    let sound = after.model.is_some() && is.len() < was.len() && is.iter().all(|one| was.contains(one));
    if sound { Ok(made) } else { Err(format!("with the entry for `{key}` something else would change; {}", by_hand())) }
}

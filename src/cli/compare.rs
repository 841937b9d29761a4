//! `boxwright compare`: what differs between two versions of a layout.

use super::arguments::{Compare, CompareFormat};
use super::console::Console;
use super::disk::{Disk, STDIN, layout_path};
use super::outcome::Outcome;
use super::report;
use super::revision::Revision;
use crate::compare::{Side, compare, text, to_json};
use crate::compile::{Options, Session};
use crate::diagnostic::wire::json_text;
use crate::registry::Registry;
use std::io;

/// Compiles both versions and tells what differs.
pub(super) fn run(
    asked: &Compare,
    registry: &Registry,
    options: Options,
    console: &mut Console,
) -> io::Result<Outcome> {
    if asked.old == STDIN && asked.new == STDIN {
        console.complain("both versions can't be standard input");
        return Ok(Outcome::Broken);
    }
    let session = Session::new(registry.clone(), options);
    let sides = (side(&asked.old, &session, options, console)?, side(&asked.new, &session, options, console)?);
    let (Some(old), Some(new)) = sides else { return Ok(Outcome::Broken) };
    let (files, comparison) = ([asked.old.as_str(), asked.new.as_str()], compare(&old, &new));
    console.report(&match asked.format {
        CompareFormat::Text => text(files, &comparison),
        CompareFormat::Json => json_text(&to_json(files, &comparison)),
    })?;
    Ok(Outcome::Clean)
}

/// One version; its errors are told if it does not compile.
fn side(named: &str, session: &Session, options: Options, console: &mut Console) -> io::Result<Option<Side>> {
    console.progress(&format!("checking {named}"));
    let mut compiled = match Revision::named(named) {
        Some((revision, path)) => session.read(&revision, &layout_path(path)),
        None => {
            let disk = Disk::new(named, options.allow_outside);
            let mut compiled = session.read(&disk, disk.layout());
            compiled.sources.rename(|name| disk.name_in_outputs(name));
            compiled
        }
    };
    // Nobody else has the handle that would stop it.
    let _never_stopped = session.check(&mut compiled);
    console.progress("");
    let side = Side::of(session, &compiled);
    if side.is_none() {
        report::refused(named, &compiled, console)?;
    }
    Ok(side)
}

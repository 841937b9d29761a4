//! `boxwright check`: reports errors and findings of layouts.

use super::arguments::{Check, Format};
use super::console::Console;
use super::disk::Disk;
use super::{Outcome, report};
use crate::compile::{Compiled, Options, compile};
use crate::registry::Registry;
use std::io;

/// Checks every file and reports in the order given.
pub(super) fn run(check: &Check, registry: &Registry, options: Options, console: &mut Console) -> io::Result<Outcome> {
    let mut worst = Outcome::Clean;
    let mut layouts = Vec::new();
    for file in &check.files {
        console.progress(&format!("checking {file}"));
        let compiled = compile(&Disk::new(file, options.allow_outside), file, registry, &options);
        console.progress("");
        worst = worst.max(outcome(&compiled));
        match check.format {
            Format::Text => report::text(file, &compiled, console)?,
            Format::Json | Format::Sarif => layouts.push((file.as_str(), compiled)),
        }
    }
    match check.format {
        Format::Text => {}
        Format::Json => console.report(&report::json(&layouts))?,
        Format::Sarif => console.report(&report::sarif(&layouts, registry))?,
    }
    Ok(worst)
}

/// How a layout stands.
pub(super) fn outcome(compiled: &Compiled) -> Outcome {
    match (&compiled.model, compiled.faults()) {
        (None, _) => Outcome::Broken,
        (Some(_), 0) => Outcome::Clean,
        (Some(_), _) => Outcome::Faults,
    }
}

//! `boxwright check`: reports errors and findings of layouts.

use super::arguments::{Check, Format};
use super::console::Console;
use super::disk::{Disk, stdin_twice};
use super::outcome::Outcome;
use super::report::{self, Checked};
use crate::compile::{Compiled, Options, compile};
use crate::registry::Registry;
use std::io;

/// Checks every file and reports in the order given.
pub(super) fn run(check: &Check, registry: &Registry, options: Options, console: &mut Console) -> io::Result<Outcome> {
    if let Some(twice) = stdin_twice(&check.files) {
        console.complain(twice);
        return Ok(Outcome::Broken);
    }
    let mut worst = Outcome::Clean;
    let mut layouts = Vec::new();
    for named in &check.files {
        console.progress(&format!("checking {named}"));
        let disk = match check.format {
            Format::Text => Disk::new(named, options.allow_outside),
            Format::Json | Format::Sarif => Disk::at_home(named, options.allow_outside),
        };
        let mut compiled = compile(&disk, disk.layout(), registry, &options);
        console.progress("");
        let file = disk.layout().to_owned();
        worst = worst.max(outcome(&compiled));
        match check.format {
            Format::Text => report::text(&file, &compiled, check.detail, console)?,
            Format::Json | Format::Sarif => {
                compiled.sources.rename(|name| disk.name_in_outputs(name));
                layouts.push(Checked { file, home: disk.home(), compiled });
            }
        }
    }
    match check.format {
        Format::Text => {}
        Format::Json => console.report(&report::json(&layouts))?,
        Format::Sarif => console.report(&report::sarif(&layouts))?,
    }
    Ok(worst)
}

/// How a layout stands; a draft does not compile either.
pub(super) fn outcome(compiled: &Compiled) -> Outcome {
    match compiled.faults() {
        _ if !compiled.errors.is_empty() => Outcome::Broken,
        0 => Outcome::Clean,
        _ => Outcome::Faults,
    }
}

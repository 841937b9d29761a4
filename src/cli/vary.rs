//! `boxwright vary`: many versions of a layout, and which no other beats.

use super::arguments::{Vary, VaryFormat};
use super::console::Console;
use super::disk::{Disk, STDIN, create_text, folder_and_name};
use super::outcome::Outcome;
use super::report;
use crate::base::number::trimmed;
use crate::compile::{Options, Session};
use crate::registry::Registry;
use crate::vary::{Axis, Found, MOST_VERSIONS, Tried, text, try_all, versions};
use std::io;
use std::sync::atomic::{AtomicUsize, Ordering};

/// The last column: why a version does not compile.
const ERROR: &str = "error";

/// Tries the versions and tells what came of them.
pub(super) fn run(vary: &Vary, registry: &Registry, options: Options, console: &mut Console) -> io::Result<Outcome> {
    if vary.file == STDIN {
        console.complain("versions extend a file; standard input is none");
        return Ok(Outcome::Broken);
    }
    let disk = Disk::new(&vary.file, options.allow_outside);
    let session = Session::new(registry.clone(), options);
    let compiled = session.read(&disk, disk.layout());
    let Some(doc) = compiled.document().filter(|_| compiled.model.is_some()) else {
        report::refused(disk.layout(), &compiled, console)?;
        return Ok(Outcome::Broken);
    };
    let axes: Result<Vec<Axis>, String> = vary.set.iter().map(|asked| Axis::read(asked, doc)).collect();
    let sample = vary.sample.map(|many| (many, vary.seed));
    let planned = axes.and_then(|axes| Ok((versions(&axes, sample, MOST_VERSIONS)?, axes)));
    let (versions, axes) = match planned {
        Ok(planned) => planned,
        Err(why) => {
            console.complain(&why);
            return Ok(Outcome::Broken);
        }
    };
    if let (Some(number), Some(to)) = (vary.write, &vary.to) {
        return write(vary, (number, to), &axes, &versions, console);
    }
    let count = versions.len();
    console.progress(&format!("trying {count} versions of {}", vary.file));
    let done = AtomicUsize::new(0);
    let open = || -> Box<dyn crate::source::World> { Box::new(Disk::new(&vary.file, options.allow_outside)) };
    let told = || _ = done.fetch_add(1, Ordering::Relaxed);
    let tried = try_all(&session, &open, (disk.layout(), &axes), (versions, &vary.tell), &told);
    console.progress("");
    match vary.format {
        VaryFormat::Csv => console.report(&csv(vary, &axes, &tried)?)?,
        VaryFormat::Text => console.report(&table(vary, &axes, &tried))?,
    }
    Ok(if tried.iter().any(|one| one.found.is_ok()) { Outcome::Clean } else { Outcome::Broken })
}

/// Writes one version as a layout.
fn write(
    vary: &Vary,
    (number, to): (usize, &str),
    axes: &[Axis],
    versions: &[Vec<String>],
    console: &mut Console,
) -> io::Result<Outcome> {
    let version = number.checked_sub(1).and_then(|at| versions.get(at));
    let (folder, file) = folder_and_name(&vary.file);
    let written = match version {
        None => Err(format!("there is no version {number}; they are numbered from 1 to {}", versions.len())),
        Some(_) if folder_and_name(to).0 != folder => {
            Err(format!("a version stands in the folder of its layout; write `{}`", folder.join("NAME.yaml").display()))
        }
        Some(version) => create_text(to, &text(&file, axes, version)),
    };
    match written {
        Ok(()) => console.say(&format!("{to}: version {number} of {}", vary.file)).map(|()| Outcome::Clean),
        Err(why) => {
            console.complain(&why);
            Ok(Outcome::Broken)
        }
    }
}

/// Head and rows, as words.
fn rows(vary: &Vary, axes: &[Axis], tried: &[Tried], wanted: impl Fn(&Tried) -> bool) -> Vec<Vec<String>> {
    let head =
        ["no", "best"].into_iter().chain(axes.iter().map(|axis| axis.name.as_str())).chain(["faults", "cautions"]);
    let head = head.chain(vary.tell.iter().map(|one| one.name())).chain([ERROR]);
    let head: Vec<String> = head.map(str::to_owned).collect();
    let row = |(number, one): (usize, &Tried)| {
        let mut row = vec![(number + 1).to_string(), if one.best { "*" } else { "" }.to_owned()];
        row.extend(one.version.iter().cloned());
        match &one.found {
            Ok(Found { faults, cautions, figures }) => {
                row.extend([faults, cautions].map(usize::to_string));
                row.extend(figures.iter().map(|figure| figure.map_or_else(String::new, |figure| trimmed(figure, 1))));
                row.push(String::new());
            }
            Err(why) => {
                row.extend((0..vary.tell.len() + 2).map(|_| String::new()));
                row.push(why.clone());
            }
        }
        row
    };
    let rows = tried.iter().enumerate().filter(|(_, one)| wanted(one)).map(row);
    std::iter::once(head).chain(rows).collect()
}

/// Columns, the best only unless all are asked for, and a sum below.
fn table(vary: &Vary, axes: &[Axis], tried: &[Tried]) -> String {
    let rows = rows(vary, axes, tried, |one| vary.all || one.best);
    let broken = tried.iter().filter(|one| one.found.is_err()).count();
    let columns = rows.first().map_or(0, Vec::len);
    let wide = |at: usize| rows.iter().filter_map(|row| row.get(at)).map(|cell| cell.chars().count()).max();
    // What is wrong with a version stands last, without a width of its own.
    let widths: Vec<usize> = (0..columns.saturating_sub(1)).map(|at| wide(at).unwrap_or_default()).chain([0]).collect();
    let told = |cell: &String| if cell == ERROR && broken == 0 { String::new() } else { cell.clone() };
    let line = |row: &Vec<String>| {
        let cells = row.iter().zip(&widths).map(|(cell, width)| format!("{:>width$}", told(cell)));
        cells.collect::<Vec<_>>().join("  ").trim_end().to_owned() + "\n"
    };
    let (best, count) = (tried.iter().filter(|one| one.best).count(), tried.len());
    let versions = report::count(count, "version");
    let sum = format!("{versions}, {best} that no other beats, {broken} that do not compile\n");
    rows.iter().map(line).chain([sum]).collect()
}

fn csv(vary: &Vary, axes: &[Axis], tried: &[Tried]) -> io::Result<String> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    for row in rows(vary, axes, tried, |_| true) {
        writer.write_record(row)?;
    }
    let bytes = writer.into_inner().map_err(|error| error.into_error())?;
    String::from_utf8(bytes).map_err(io::Error::other)
}

//! `boxwright explain`: the manual pages of the checks.

use super::arguments::Explain;
use super::console::Console;
use super::disk::Disk;
use super::example::Example;
use super::outcome::Outcome;
use crate::base::text;
use crate::checks::{Check, Context};
use crate::compile::{Options, Session};
use crate::diagnostic::{Limit, Worked};
use crate::registry::Registry;
use std::fmt::Write;
use std::fs;
use std::io;
use std::path::Path;

/// Lists the checks, prints the page of one, draws its picture, works out its sums, or writes all pages.
pub(super) fn run(
    explain: &Explain,
    registry: &Registry,
    options: Options,
    console: &mut Console,
) -> io::Result<Outcome> {
    if let Some(folder) = &explain.manual {
        return done(manual(folder, registry), console);
    }
    if let Some(layout) = &explain.layout {
        return within(explain.name.as_deref(), layout, (registry, options), console);
    }
    let Some(name) = &explain.name else {
        return console.report(&list(registry)).map(|()| Outcome::Clean);
    };
    match (registry.check(name), &explain.picture) {
        (None, _) => refuse(&unknown(name, registry), console),
        (Some(check), Some(file)) => done(picture(check, file, registry), console),
        (Some(check), None) => console.report(&page(check)).map(|()| Outcome::Clean),
    }
}

/// Lists the checks of a layout, or tells of one of them what it comes to there.
fn within(
    name: Option<&str>,
    layout: &str,
    (registry, options): (&Registry, Options),
    console: &mut Console,
) -> io::Result<Outcome> {
    let session = Session::new(registry.clone(), options);
    let disk = Disk::new(layout, options.allow_outside);
    let layout = disk.layout();
    let compiled = session.read(&disk, layout);
    let Some(figures) = compiled.figures() else {
        super::report::refused(layout, &compiled, console)?;
        return Ok(Outcome::Broken);
    };
    let Some(name) = name else {
        return console.report(&list(&compiled.registry)).map(|()| Outcome::Clean);
    };
    let Some(check) = compiled.registry.check(name) else {
        return refuse(&unknown(name, &compiled.registry), console);
    };
    let worked = check.worked(&Context::new(check, &figures));
    if registry.check(name).is_none() {
        console.report(&page(check))?;
        if worked.is_empty() {
            return Ok(Outcome::Clean);
        }
    }
    sums(check, layout, &worked, console)
}

/// Prints the worked sums of a check for a layout.
fn sums(check: &dyn Check, layout: &str, worked: &[Worked], console: &mut Console) -> io::Result<Outcome> {
    if worked.is_empty() {
        let why = format!("`{}` has no sums for {layout}: it measures, or the layout says nothing of it", check.name());
        console.say(&why)?;
        return Ok(Outcome::Clean);
    }
    let texts: Vec<String> = worked.iter().map(ToString::to_string).collect();
    let caution = check.caution().map(|caution| format!("\nCaution: {caution}.\n")).unwrap_or_default();
    console.report(&format!("{}{caution}", texts.join("\n"))).map(|()| Outcome::Clean)
}

fn refuse(why: &str, console: &mut Console) -> io::Result<Outcome> {
    console.complain(why);
    Ok(Outcome::Broken)
}

/// Says what was written, or why it was not.
fn done(written: Result<String, String>, console: &mut Console) -> io::Result<Outcome> {
    match written {
        Ok(says) => console.say(&says).map(|()| Outcome::Clean),
        Err(error) => refuse(&error, console),
    }
}

fn picture(check: &dyn Check, file: &str, registry: &Registry) -> Result<String, String> {
    let drawn = Example::new(check.name(), registry).and_then(|example| example.picture(check.name()));
    let svg = drawn.ok_or_else(|| format!("`{}` has no example to draw", check.name()))?;
    write(Path::new(file), &svg)?;
    Ok(format!("{file}: what `{}` finds", check.name()))
}

/// Writes one page with its picture for each check, and the index.
pub(super) fn manual(folder: &str, registry: &Registry) -> Result<String, String> {
    let to = Path::new(folder);
    fs::create_dir_all(to).map_err(|error| format!("the folder `{folder}` can't be made: {error}"))?;
    let mut index = "# The checks\n\n".to_owned();
    for check in &registry.checks {
        let name = check.name();
        let example = Example::new(name, registry);
        let mut text = format!("# `{name}`\n\n");
        if let Some(svg) = example.as_ref().and_then(|example| example.picture(name)) {
            write(&to.join(format!("{name}.svg")), &svg)?;
            let _ = write!(text, "![what {name} finds]({name}.svg)\n\n");
        }
        text += &page(check.as_ref()).lines().skip(2).map(deeper).collect::<String>();
        if let Some(example) = example {
            let _ = write!(text, "\n## Example\n\n```yaml\n{}```\n", example.text);
        }
        write(&to.join(format!("{name}.md")), text.as_bytes())?;
        let _ = writeln!(index, "- [`{name}`]({name}.md): {}", check.says());
    }
    write(&to.join("README.md"), index.as_bytes())?;
    Ok(format!("{folder}: {} pages", registry.checks.len()))
}

/// A line of a page one heading deeper.
fn deeper(line: &str) -> String {
    if line.starts_with("# ") { format!("#{line}\n") } else { format!("{line}\n") }
}

fn write(file: &Path, bytes: &[u8]) -> Result<(), String> {
    fs::write(file, bytes).map_err(|error| format!("`{}` can't be written: {error}", file.display()))
}

pub(super) fn list(registry: &Registry) -> String {
    let width = registry.checks.iter().map(|check| check.name().len()).max().unwrap_or(0);
    registry.checks.iter().map(|check| format!("{:width$}  {}\n", check.name(), check.says())).collect()
}

fn unknown(name: &str, registry: &Registry) -> String {
    let names = || registry.checks.iter().map(|check| check.name());
    if name.contains(':') && names().all(|known| !known.contains(':')) {
        return format!("`{name}` is brought by layouts; name one that has it: `boxwright explain {name} --in FILE`");
    }
    match text::nearest(name, names()) {
        Some(near) => format!("there is no check `{name}`; did you mean `{near}`?"),
        None => format!("there is no check `{name}`; the checks are {}", text::one_of(names())),
    }
}

pub(super) fn page(check: &dyn Check) -> String {
    let mut page = format!("{}\n\n{}", check.name(), check.manual());
    if let Some(caution) = check.caution() {
        let _ = writeln!(page, "\n# Caution\n{caution}.");
    }
    if !check.limits().is_empty() {
        page.push_str("\nLimits that a layout may change:\n");
        for limit in check.limits() {
            let _ = writeln!(page, "  {}", line(check.name(), limit));
        }
    }
    page
}

fn line(check: &str, limit: &Limit) -> String {
    let required = limit.requirement(None);
    format!("{check}: {{ {}: {} }}    # {}; {}", limit.name, required.value(), required.words(), required.origin())
}

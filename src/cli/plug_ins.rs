//! `boxwright plug-ins`: lists the plug-ins of layouts, pins them to their files, or tries one; and `--plug-in`.

use super::arguments::{Global, PlugIns, PlugInsCommand};
use super::console::Console;
use super::disk::{Disk, STDIN, read_bytes, replace_text};
use super::outcome::Outcome;
use super::report;
use crate::backends::Reads;
use crate::compile::{Compiled, Options, Session, Wanted};
use crate::diagnostic::{Edit, Sink, edited, report as words};
use crate::language::{PlugInDoc, named_path, read_layout};
use crate::plug_ins::{PlugIn, Tried, sha256};
use crate::registry::Registry;
use crate::source::{FileId, SourceMap, Span, Spanned, World};
use crate::views::Chosen;
use std::io;
use std::sync::Arc;

/// The registry with the plug-ins that are named on the command line.
///
/// # Errors
/// What is wrong with one of them.
pub(super) fn joined(registry: &Registry, global: &Global) -> Result<Registry, String> {
    let load = |all: Registry, file: &String| all.with(&loaded(file, global.options())?);
    global.plug_in.iter().try_fold(registry.clone(), load)
}

fn loaded(file: &str, options: Options) -> Result<Arc<PlugIn>, String> {
    let bytes = read_bytes(file, options.bounds.code_bytes());
    let bytes = bytes.map_err(|why| format!("the plug-in `{file}` can't be read: {why}"))?;
    PlugIn::load(file, &bytes, options.bounds).map(Arc::new)
}

/// Does what is asked for.
pub(super) fn run(
    plug_ins: &PlugIns,
    registry: &Registry,
    options: Options,
    console: &mut Console,
) -> io::Result<Outcome> {
    match &plug_ins.what {
        PlugInsCommand::List { layouts } => {
            layouts.iter().try_fold(Outcome::Clean, |worst, layout| Ok(worst.max(list(layout, options, console)?)))
        }
        PlugInsCommand::Pin { layout } => pin(layout, options, console),
        PlugInsCommand::Try { file, layout } => attempt((file, layout), registry, options, console),
    }
}

/// A plug-in as a layout names it.
struct Named {
    name: String,
    doc: Spanned<PlugInDoc>,
    /// The bytes of its file, or why there are none.
    bytes: Result<Vec<u8>, String>,
}

/// The plug-ins that a layout names, with its files.
fn named(disk: &Disk, options: Options) -> Result<(Vec<Named>, SourceMap), (Sink, SourceMap)> {
    let (mut sources, mut errors) = (SourceMap::default(), Sink::default());
    let layout = disk.layout();
    let doc = read_layout(disk, layout, options.allow_outside, &mut sources, &mut errors);
    let Some(doc) = doc.filter(|_| errors.is_empty()) else { return Err((errors, sources)) };
    let of = |(name, doc): (String, Spanned<PlugInDoc>)| {
        let path =
            named_path(layout, &doc.value.file, &sources, options.allow_outside).map_err(|why| format!("`file` {why}"));
        let bytes = path.and_then(|path| disk.bytes(&path, options.bounds.code_bytes()));
        Named { name, doc, bytes }
    };
    let all = doc.plug_ins.into_iter().map(of).collect();
    Ok((all, sources))
}

/// Prints why a layout can't be read.
fn unread(layout: &str, (errors, sources): (Sink, SourceMap), console: &mut Console) -> io::Result<Outcome> {
    let mut compiled = Compiled::default();
    (compiled.errors, compiled.sources) = (errors, sources);
    report::refused(layout, &compiled, console)?;
    Ok(Outcome::Broken)
}

fn list(layout: &str, options: Options, console: &mut Console) -> io::Result<Outcome> {
    let disk = Disk::new(layout, options.allow_outside);
    let all = match named(&disk, options) {
        Ok((all, _)) => all,
        Err(errors) => return unread(disk.layout(), errors, console),
    };
    if all.is_empty() {
        console.say(&format!("{layout}: names no plug-ins"))?;
    }
    let mut worst = Outcome::Clean;
    for Named { name, doc, bytes } in &all {
        let file = &doc.value.file.value;
        let pinned = doc.value.sha256.as_ref().map(|sha256| sha256.value.to_lowercase());
        let told = bytes.as_ref().map_err(Clone::clone).and_then(|bytes| {
            let found = sha256(bytes);
            let state = match &pinned {
                Some(pinned) if *pinned == found => "pinned",
                Some(_) => "CHANGED since it was pinned",
                None => "NOT PINNED",
            };
            // What nobody has said to trust is not run, not even to ask what it is.
            let parts = if state == "pinned" { PlugIn::load(file, bytes, options.bounds)?.parts() } else { Vec::new() };
            Ok((state, found, parts))
        });
        match told {
            Ok((state, found, parts)) => {
                console.report(&format!("{name}: {file}, {state}, SHA-256 {found}\n"))?;
                parts.iter().try_for_each(|part| console.report(&format!("  {part}\n")))?;
                worst = worst.max(if state == "pinned" { Outcome::Clean } else { Outcome::Broken });
            }
            Err(why) => {
                console.complain(&format!("{name}: {file}: {why}"));
                worst = Outcome::Broken;
            }
        }
    }
    Ok(worst)
}

fn pin(layout: &str, options: Options, console: &mut Console) -> io::Result<Outcome> {
    if layout == STDIN {
        console.complain("nothing can be written into standard input; name the file");
        return Ok(Outcome::Broken);
    }
    let disk = Disk::new(layout, options.allow_outside);
    let (all, sources) = match named(&disk, options) {
        Ok(all) => all,
        Err(errors) => return unread(disk.layout(), errors, console),
    };
    if all.is_empty() {
        console.complain(&format!(
            "{layout}: names no plug-ins; write `plug-ins: {{ house: {{ file: house.wasm }} }}` first"
        ));
        return Ok(Outcome::Broken);
    }
    let edits = all.iter().map(|one| edit(one, &sources)).collect::<Result<Vec<_>, _>>();
    let written = edits.and_then(|edits| {
        let edits: Vec<Edit> = edits.into_iter().flatten().collect();
        write(&edits, &sources).map(|()| edits.len())
    });
    match written {
        Ok(changed) => {
            let pinned = report::count(all.len(), "plug-in");
            console.say(&format!("{layout}: {pinned} pinned, {changed} of them anew"))?;
            Ok(Outcome::Clean)
        }
        Err(why) => {
            console.complain(&format!("{layout}: {why}"));
            Ok(Outcome::Broken)
        }
    }
}

/// What to write for a plug-in; nothing where the text says it.
fn edit(one: &Named, sources: &SourceMap) -> Result<Option<Edit>, String> {
    let PlugInDoc { file, sha256: pinned } = &one.doc.value;
    let bytes = one.bytes.as_ref().map_err(|why| format!("the plug-in `{}` can't be read: {why}", file.value))?;
    let found = sha256(bytes);
    let Some(pinned) = pinned else {
        let text = sources.file(file.span.file).map_or("", |known| known.text.as_str());
        let line = text.get(..file.span.start as usize).and_then(|before| before.rsplit('\n').next()).unwrap_or("");
        let blanks: String = line.chars().take_while(|char| *char == ' ').collect();
        let between = if line.contains('{') { ", ".to_owned() } else { format!("\n{blanks}") };
        let end = Span { start: file.span.end, ..file.span };
        return Ok(Some(Edit { span: end, text: format!("{between}sha256: \"{found}\"") }));
    };
    let change = Edit { span: pinned.span, text: format!("\"{found}\"") };
    Ok((!pinned.value.eq_ignore_ascii_case(&found)).then_some(change))
}

/// Writes the edited files.
fn write(edits: &[Edit], sources: &SourceMap) -> Result<(), String> {
    let files = (0..).map(FileId).map_while(|id| sources.file(id).map(|file| (id, file)));
    for (id, file) in files.filter(|(id, _)| edits.iter().any(|edit| edit.span.file == *id)) {
        replace_text(&file.name, &edited(&file.text, id, edits)).map_err(|why| format!("`{}`: {why}", file.name))?;
    }
    Ok(())
}

/// Runs all that a plug-in has on a layout.
fn attempt(
    (file, layout): (&str, &str),
    registry: &Registry,
    options: Options,
    console: &mut Console,
) -> io::Result<Outcome> {
    let plug_in = match loaded(file, options).and_then(|plug_in| Ok((registry.with(&plug_in)?, plug_in))) {
        Ok(loaded) => loaded,
        Err(why) => {
            console.complain(&why);
            return Ok(Outcome::Broken);
        }
    };
    let (registry, plug_in) = plug_in;
    console.report(&format!("{}: {}, SHA-256 {}\n", plug_in.name, plug_in.says, plug_in.sha256))?;
    plug_in.parts().iter().try_for_each(|part| console.report(&format!("  {part}\n")))?;
    let disk = Disk::new(layout, options.allow_outside);
    let session = Session::new(registry, options);
    let mut compiled = session.read(&disk, disk.layout());
    if compiled.model.is_none() {
        report::refused(disk.layout(), &compiled, console)?;
        return Ok(Outcome::Broken);
    }
    // Nobody else has the handle that would stop it.
    let _never_stopped = session.check(&mut compiled).and_then(|()| session.suggest(&mut compiled));
    let mut all: Vec<Tried> = compiled.figures().and_then(|figures| plug_in.try_checks(&figures)).into_iter().collect();
    let wanted = Wanted { reads: vec![Reads::Sheets, Reads::Sums], sheets: Chosen::default() };
    if plug_in.draws()
        && let Ok(Some(outputs)) = session.draw(&compiled, &wanted)
    {
        all.extend(plug_in.try_outputs(&outputs.product(&compiled)));
    }
    let mut outcome = Outcome::Clean;
    for tried in &all {
        outcome = outcome.max(tell(tried, console)?);
    }
    let prefix = format!("{}:", plug_in.name);
    let own = compiled.findings.iter().filter(|finding| finding.key.check.starts_with(&prefix));
    console.report(&words::lines(own, &compiled.sources, console.colour))?;
    Ok(outcome)
}

/// Says what came of a call and what it took.
fn tell(tried: &Tried, console: &mut Console) -> io::Result<Outcome> {
    let Tried { what, made, question, answer, fuel, memory, log } = tried;
    let steps = fuel.div_ceil(10_000) as f64 / 100.0;
    let memory = memory.div_ceil(1 << 10);
    let cost =
        format!("asked with {question} bytes, answered with {answer}; {steps} million steps, {memory} KiB of memory");
    console.report(&format!("{what}: {cost}\n"))?;
    for line in log.lines() {
        console.report(&format!("  log: {}\n", crate::source::shown(line)))?;
    }
    match made {
        Ok(made) if made.is_empty() => console.report("  nothing\n").map(|()| Outcome::Clean),
        Ok(made) => {
            made.iter().try_for_each(|one| console.report(&format!("  {one}\n")))?;
            Ok(Outcome::Clean)
        }
        Err(why) => {
            console.complain(why);
            Ok(Outcome::Broken)
        }
    }
}

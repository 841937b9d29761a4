//! `boxwright nest`: lays a list of parts on sheets, and draws how they are cut.

use super::arguments::{Nest, NestFormat};
use super::console::Console;
use super::disk::{STDIN, STDIN_NAME, read_stdin, read_text};
use super::outcome::Outcome;
use super::report::count;
use super::swap::swap;
use crate::backends::{OutputFile, nest_json, pdf_file, svg_file};
use crate::diagnostic::report;
use crate::joinery::nesting::{self, CuttingPlan, Request};
use crate::joinery::{PartsJob, Saw, read_parts};
use crate::source::SourceMap;
use crate::views::{CuttingJob, cutting_set};
use rayon::prelude::*;
use std::io;
use std::path::Path;
use std::time::Instant;

/// Share of the time left that is used: a first, short search tells how much effort goes into it, not quite exactly.
const WITHIN: f64 = 0.7;
/// Times the effort of a layout that a list gets, and up to how many pieces it gets all of it: this many by as many times.
const USUAL: u32 = 18;
const WHOLE: u32 = 6_000;
/// Largest list that is read, bytes.
const LARGEST: usize = 16 << 20;

/// Lays the parts of one list.
pub(super) fn run(nest: &Nest, console: &mut Console) -> io::Result<Outcome> {
    let typed = nest.parts == STDIN;
    let name = if typed { STDIN_NAME } else { &nest.parts };
    let text = match if typed { read_stdin(LARGEST) } else { read_text(name, LARGEST) } {
        Ok(text) => text,
        Err(error) => return broken(console, &format!("`{name}` can't be read: {error}")),
    };
    let stem = Path::new(name).file_stem().and_then(|stem| stem.to_str()).unwrap_or("parts");
    let mut sources = SourceMap::default();
    let file = sources.add(name.to_owned(), text.clone());
    let jobs = match read_parts(stem, &text, file, &saw(nest)) {
        Ok(list) => {
            console.remark(&report::notes(&list.notes, &sources, false));
            list.jobs
        }
        Err(errors) => {
            console.report(&report::errors(&errors, &sources, console.colour))?;
            return broken(console, &format!("{name}: no parts were laid"));
        }
    };
    let too_many = |job: &&PartsJob| pieces(&job.request) as usize > nesting::MOST_PIECES;
    if let Some(job) = jobs.iter().find(too_many) {
        let (count, most) = (pieces(&job.request), nesting::MOST_PIECES);
        let says = format!("{}: {count} pieces; at most {most} are laid at once", job.id);
        return broken(console, &format!("{says}; check the counts, or split the list"));
    }
    console.progress(&format!("laying the parts of {name}"));
    let plans: Vec<CuttingPlan> = jobs.par_iter().map(|job| plan(&job.request, nest)).collect();
    console.progress("");
    if let Some(folder) = nest.folder() {
        match files(stem, &jobs, &plans).and_then(|files| swap(&Path::new(folder).join(stem), &files)) {
            Ok(swapped) if nest.format == NestFormat::Text => {
                let folder = Path::new(folder).join(stem);
                console.say(&format!("{}: {}", folder.display(), count(swapped.made, "file")))?;
            }
            Ok(_) => {}
            Err(error) => return broken(console, &error),
        }
    }
    match nest.format {
        NestFormat::Json => console.report(&nest_json(&jobs.iter().zip(&plans).collect::<Vec<_>>()))?,
        NestFormat::Text => {
            for (job, plan) in jobs.iter().zip(&plans) {
                console.say(&summary(job, plan))?;
            }
        }
    }
    for (job, plan) in jobs.iter().zip(&plans) {
        left_out(job, plan).iter().for_each(|message| console.complain(message));
    }
    let all = plans.iter().all(|plan| plan.too_large.is_empty() && plan.unplaced == 0);
    Ok(if all { Outcome::Clean } else { Outcome::Faults })
}

fn broken(console: &mut Console, message: &str) -> io::Result<Outcome> {
    console.complain(message);
    Ok(Outcome::Broken)
}

fn saw(nest: &Nest) -> Saw {
    Saw {
        sheets: nest.sheets(),
        kerf: nest.kerf,
        trim: nest.trim,
        useful: nest.useful.0,
        stages: nest.stages.limit(),
        grain: nest.grain.of_a_sheet(),
    }
}

/// How many pieces a request has.
fn pieces(request: &Request) -> u32 {
    request.pieces.iter().fold(0, |sum, piece| sum.saturating_add(piece.count))
}

/// The best plan within the effort, or within the time if one is given.
fn plan(request: &Request, nest: &Nest) -> CuttingPlan {
    let pieces = pieces(request);
    let with = |effort: u64| nesting::nest(&Request { effort, ..request.clone() });
    let usual = nesting::usual_effort(pieces);
    let usual_times = (WHOLE / pieces.max(1)).clamp(1, USUAL);
    let Some(seconds) = nest.seconds else {
        return with(usual.saturating_mul(nest.effort.unwrap_or(usual_times).into()));
    };
    let begun = Instant::now();
    let first = with(usual);
    let spent = begun.elapsed().as_secs_f64();
    let times = WITHIN * (seconds - spent) / spent;
    if times <= 1.0 || (first.unplaced == 0 && first.cost <= first.least_cost) {
        return first;
    }
    let second = with((usual as f64 * times) as u64);
    if (second.unplaced, second.cost) <= (first.unplaced, first.cost) { second } else { first }
}

fn files(stem: &str, jobs: &[PartsJob], plans: &[CuttingPlan]) -> Result<Vec<OutputFile>, String> {
    let job = |(job, plan)| drawn(job, plan);
    let sheets = cutting_set(stem, &jobs.iter().zip(plans).map(job).collect::<Vec<_>>());
    let mut files: Vec<OutputFile> = sheets.iter().map(svg_file).collect();
    files.push(OutputFile { name: "sheets.pdf".to_owned(), bytes: pdf_file(&sheets, stem)? });
    Ok(files)
}

fn drawn<'a>(job: &PartsJob, plan: &'a CuttingPlan) -> CuttingJob<'a> {
    CuttingJob {
        id: job.id.clone(),
        name: job.id.clone(),
        says: String::new(),
        grain: job.grain,
        kerf: job.request.kerf,
        trim: job.request.trim,
        parts: job.parts.clone(),
        plan,
    }
}

fn summary(job: &PartsJob, plan: &CuttingPlan) -> String {
    let area = |sizes: &mut dyn Iterator<Item = (f64, f64)>| sizes.map(|(length, width)| length * width).sum::<f64>();
    let bought = area(&mut plan.sheets.iter().map(|sheet| sheet.size));
    let used = area(&mut plan.sheets.iter().flat_map(|sheet| &sheet.pieces).map(|piece| (piece.length, piece.width)));
    let share = if bought > 0.0 { format!(", {:.0} % used", used / bought * 100.0) } else { String::new() };
    let cuts: usize = plan.sheets.iter().map(|sheet| sheet.cuts.len()).sum();
    format!("{}: {}, at least {}{share}, {}", job.id, count(plan.sheets.len(), "sheet"), plan.bound, count(cuts, "cut"))
}

/// What could not be laid.
fn left_out(job: &PartsJob, plan: &CuttingPlan) -> Vec<String> {
    let numbers = plan.too_large.iter().filter_map(|piece| job.parts.get(*piece)).map(|part| part.number.as_str());
    let large = (!plan.too_large.is_empty())
        .then(|| format!("{}: too large for every sheet: {}", job.id, numbers.collect::<Vec<_>>().join(", ")));
    let short =
        (plan.unplaced > 0).then(|| format!("{}: no sheet is left for {}", job.id, count(plan.unplaced, "part")));
    large.into_iter().chain(short).collect()
}

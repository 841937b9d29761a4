//! What may be written on the command line, with its help.

mod nest;
mod vary;

pub(super) use nest::{Nest, NestFormat};
pub(super) use vary::{Vary, VaryFormat};

use crate::backends::{Backend, CsvForm, Picture, Separator};
use crate::compile::Options;
use crate::plug_ins::Bounds;
use crate::views::Choice;
use clap::{Args, Parser, Subcommand, ValueEnum};

const AFTER: &str = "\
Exit code: 0 no fault, 1 faults found, 2 a layout does not compile, or the command failed or could not tell its report.

Examples:
  boxwright new layouts/first.yaml          start a layout
  boxwright check layouts/first.yaml        see what is wrong with it
  boxwright build layouts/first.yaml        draw it and make its cut list, in out/first/
  boxwright nest parts.csv                  lay a list of parts on sheets, and draw how they are cut
  boxwright explain walkway                 what a check measures, and why";

/// Compiles one layout file for a vehicle's living box into checked drawings and a cut list.
#[derive(Debug, Parser)]
#[command(name = "boxwright", version, after_help = AFTER, max_term_width = 100)]
pub(super) struct Arguments {
    #[command(flatten)]
    pub global: Global,
    #[command(subcommand)]
    pub command: Command,
}

/// Options of every command.
#[derive(Debug, Args)]
pub(super) struct Global {
    /// Print errors and faults only
    #[arg(long, short, global = true)]
    pub quiet: bool,
    /// Colour the report; `auto` colours on a terminal unless NO_COLOR is set
    #[arg(long, visible_alias = "color", global = true, value_name = "WHEN", default_value = "auto")]
    pub colour: Colour,
    /// Let `extends` and `symbols` leave the folder of the layout
    #[arg(long, global = true)]
    pub allow_outside: bool,
    /// Use a plug-in, whether a layout names it or not; the option may be given more than once
    #[arg(long = "plug-in", global = true, value_name = "FILE")]
    pub plug_in: Vec<String>,
    /// Let plug-ins go further: `fuel` (million steps, 500), `memory` (MiB, 64), `answer` (MiB, 16), `code` (MiB, 4)
    #[arg(long = "plug-in-bound", global = true, value_name = "NAME=N", value_parser = bound)]
    pub plug_in_bound: Vec<String>,
}

/// A bound that can be read.
fn bound(text: &str) -> Result<String, String> {
    Bounds::default().with(text).map(|_| text.to_owned())
}

impl Global {
    /// How to compile.
    pub fn options(&self) -> Options {
        let with = |bounds: Bounds, text: &String| bounds.with(text).unwrap_or(bounds);
        let bounds = self.plug_in_bound.iter().fold(Bounds::default(), with);
        Options { allow_outside: self.allow_outside, bounds }
    }
}

/// When to colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Colour {
    Auto,
    Always,
    Never,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    New(New),
    Check(Check),
    Compare(Compare),
    Mend(Mend),
    Accept(Accept),
    Build(Build),
    Desk(Desk),
    Nest(Nest),
    Explain(Explain),
    Symbols(Symbols),
    PlugIns(PlugIns),
    Schema(Schema),
    Vary(Vary),
}

/// Start a layout that compiles
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright new first                  writes first.yaml
  boxwright new layouts/first.yaml     writes it in a folder that is there

A file that is there already is left as it is.")]
pub(super) struct New {
    /// Name of the layout, or path of its file
    pub name: String,
}

/// Say what differs between two versions of a layout, and who must do what again
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright compare before.yaml after.yaml         two files
  boxwright compare HEAD:box.yaml box.yaml         since the last commit of a git repository
  boxwright compare v1:box.yaml v2:box.yaml        between two revisions of it
  boxwright compare --format json a.yaml b.yaml    for other programs

Exit code: 0 whatever differs, 2 when a version does not compile or can't be read.")]
pub(super) struct Compare {
    /// The version of before: a file, or REVISION:FILE of a git repository
    #[arg(value_name = "OLD")]
    pub old: String,
    /// The version of now: a file, or REVISION:FILE of a git repository
    #[arg(value_name = "NEW")]
    pub new: String,
    /// Form of the report
    #[arg(long, value_name = "FORM", default_value = "text")]
    pub format: CompareFormat,
}

/// Form of a comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum CompareFormat {
    /// Sections for people
    Text,
    /// One JSON document
    Json,
}

/// Show layouts in a browser of this machine, with every change of their files
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright desk layouts/first.yaml        opens the page; Ctrl+C ends it
  boxwright desk layouts/*.yaml            several layouts on one desk
  boxwright desk first.yaml --no-browser   only tells the address

The page is served to this machine alone, below an address that nobody can guess. It writes nothing: the text is the
master.")]
pub(super) struct Desk {
    /// Layout files
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,
    /// Port of the page; any that is free if it is left out
    #[arg(long, value_name = "PORT", default_value_t = 0, hide_default_value = true)]
    pub port: u16,
    /// Tell the address and open no browser
    #[arg(long)]
    pub no_browser: bool,
}

/// Check layouts and report what is wrong, where, and what would clear it
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright check layouts/first.yaml           one line for each fault and caution
  boxwright check layouts/first.yaml --notes   figures worth knowing, and what is accepted
  boxwright check layouts/first.yaml --full    all that is known of each finding
  boxwright check --format json layouts/*.yaml > findings.json
  boxwright check --quiet layouts/*.yaml && echo clean
  boxwright check - < layouts/first.yaml       a layout from standard input, called `stdin`")]
pub(super) struct Check {
    /// Layout files; `-` for standard input
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,
    /// Form of the report
    #[arg(long, value_name = "FORM", default_value = "text")]
    pub format: Format,
    #[command(flatten)]
    pub detail: Detail,
}

/// How much a report for people tells of each finding, and of which.
#[derive(Debug, Clone, Copy, Default, Args)]
pub(super) struct Detail {
    /// Show lines of the file, sources of limits and all advice, too, of every finding
    #[arg(long)]
    pub full: bool,
    /// List notes and accepted findings, too
    #[arg(long)]
    pub notes: bool,
}

/// Form of a report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// For people
    Text,
    /// For programs; `boxwright schema findings` describes it
    Json,
    /// For code hosts and editors: SARIF 2.1.0
    Sarif,
}

/// Show changes of the text that clear errors and findings, and write those that are chosen
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright mend layouts/first.yaml                 shows the changes with their numbers, as a unified diff
  boxwright mend layouts/first.yaml --apply 1,3     writes the first and the third, or neither
  boxwright mend layouts/first.yaml --apply all     writes as many as go together

Every change is tried: with it, what it clears is gone and there is no new fault. Comments stay. Several are tried \
together before anything is written.")]
pub(super) struct Mend {
    /// Layout file
    pub file: String,
    /// Numbers of changes to be written, as the command shows them, or `all`
    #[arg(long, value_name = "NUMBERS", value_delimiter = ',')]
    pub apply: Vec<String>,
}

/// Write into a layout that a finding of it stays, and why
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright accept layouts/first.yaml walkway of entry to bed --because \"the owner is slim\"
  boxwright accept layouts/first.yaml swing of wardrobe / door --because \"it opens wide enough\"

What stands between the severity and the second colon of a line of `boxwright check` names the finding. The entry has its \
figure: when that gets worse, the finding comes back.")]
pub(super) struct Accept {
    /// Layout file
    pub file: String,
    /// The finding, as `boxwright check` prints it
    #[arg(required = true, num_args = 1..)]
    pub key: Vec<String>,
    /// Why it may stay
    #[arg(long, value_name = "REASON")]
    pub because: String,
}

/// Draw layouts and make their cut lists
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright build layouts/first.yaml                 writes out/first/
  boxwright build layouts/*.yaml --out /srv/plans    one folder for each layout
  boxwright build layouts/first.yaml --only svg      only the plan pictures
  boxwright build layouts/first.yaml --png 2400      and the brochure as a picture of that width
  boxwright build layouts/first.yaml --csv-separator semicolon --csv-bom
                                                     CSV files for an office program set to decimal commas

The folder of a layout always belongs to one state of its file: outputs of an earlier build that this one does \
not make again are removed, other files in it stay. If the build fails or is stopped, the earlier outputs stay as \
they were. A layout from standard input is called `stdin` and finds its other files in the present folder. With faults the outputs are made all the same, stamped HELD; where a size or setting is out of range or a place is given too often, too, stamped DRAFT.")]
pub(super) struct Build {
    /// Layout files; `-` for standard input
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,
    /// Folder that gets one folder for each layout
    #[arg(long, value_name = "DIR", default_value = "out")]
    pub out: String,
    /// Make these outputs only
    #[arg(long, value_name = "NAMES", value_delimiter = ',')]
    pub only: Vec<String>,
    /// Draw these sheets only, by id or kind, such as `plan-day` or `plans`; what they do not show is not worked out
    #[arg(long, value_name = "SHEETS", value_delimiter = ',')]
    pub sheets: Vec<Choice>,
    /// Make the brochure a PNG file too, this many pixels wide (100 to 20000)
    #[arg(long, value_name = "WIDTH", value_parser = width)]
    pub png: Option<u32>,
    /// Sheets that become PNG files in place of the brochure, such as `plan-day`; `all` for every sheet
    #[arg(long, value_name = "SHEETS", value_delimiter = ',')]
    pub png_of: Vec<String>,
    /// Leave the paper out of SVG and PNG files, so that what is behind them shows
    #[arg(long)]
    pub transparent: bool,
    /// Write text as outlines of its letters in SVG and PDF files, for printers that want no fonts
    #[arg(long)]
    pub outlines: bool,
    /// What parts the fields of CSV files
    #[arg(long, value_name = "SEPARATOR", default_value = "comma")]
    pub csv_separator: CsvSeparator,
    /// Begin CSV files with a byte order mark, without which some programs take ü for two letters
    #[arg(long)]
    pub csv_bom: bool,
}

/// What parts the fields of CSV files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum CsvSeparator {
    /// `,`, and decimal points
    Comma,
    /// `;`, and decimal commas
    Semicolon,
    /// A tab, and decimal points
    Tab,
}

/// Width of pictures that are asked for without one, pixels.
const WIDTH: u32 = 2400;

/// Widths of pictures that can be made, pixels.
const WIDTHS: std::ops::RangeInclusive<u32> = 100..=20_000;

fn width(text: &str) -> Result<u32, String> {
    let width = text.parse().ok().filter(|width| WIDTHS.contains(width));
    width.ok_or_else(|| format!("write a whole number of pixels from {} to {}", WIDTHS.start(), WIDTHS.end()))
}

impl Build {
    /// Whether a back-end is to run: all but `png` and those that wait to be named run unless some are named.
    pub fn wants(&self, backend: &dyn Backend) -> bool {
        let named = self.only.iter().any(|name| name == backend.name());
        let usual = || self.only.is_empty() && !backend.when_asked();
        named || if backend.name() == "png" { self.picture().is_some() } else { usual() }
    }

    /// How CSV files are to be written.
    pub fn csv(&self) -> CsvForm {
        let separator = match self.csv_separator {
            CsvSeparator::Comma => Separator::Comma,
            CsvSeparator::Semicolon => Separator::Semicolon,
            CsvSeparator::Tab => Separator::Tab,
        };
        CsvForm { separator, mark: self.csv_bom }
    }

    /// The picture that is asked for, by its width, its sheets or the name of its back-end.
    pub fn picture(&self) -> Option<Picture> {
        let wanted = self.png.is_some() || !self.png_of.is_empty() || self.only.iter().any(|name| name == "png");
        wanted.then(|| Picture { width: self.png.unwrap_or(WIDTH), sheets: self.png_of.clone() })
    }
}

/// Say what a check measures, why, and how to change its limit
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright explain             lists the checks
  boxwright explain walkway     the page of one check
  boxwright explain walkway --picture walkway.svg
                                and a picture of what it finds
  boxwright explain axle-load --in layouts/marram.yaml
                                the sums of one check for a layout, with formulas and sources
  boxwright explain --in layouts/marram.yaml
                                lists the checks of a layout, with what it brings itself
  boxwright explain --manual out/manual
                                a page with a picture for each check")]
pub(super) struct Explain {
    /// Name of a check; without it all are listed
    pub name: Option<String>,
    /// Draw what the check finds in its example, as SVG
    #[arg(long, value_name = "FILE", requires = "name")]
    pub picture: Option<String>,
    /// Work out the sums of the check for a layout, or list the checks that it has
    #[arg(long = "in", value_name = "FILE", conflicts_with_all = ["picture", "manual"])]
    pub layout: Option<String>,
    /// Write the pages of all checks into a folder, with pictures and an index
    #[arg(long, value_name = "DIR", conflicts_with = "name")]
    pub manual: Option<String>,
}

/// List the furniture symbols and recipes, or show one
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright symbols                      lists all
  boxwright symbols galley/base-run      sizes, settings, poses and exports of one
  boxwright symbols mine/own/bench       the same of your own, in mine/own/bench.yaml
  boxwright symbols recipes/drawer       settings and parts of a recipe
  boxwright symbols --check mine         whether all symbols in the folder `mine` go together at all sizes")]
pub(super) struct Symbols {
    /// Name of a symbol, `group/name`, or of a recipe, `recipes/name`, or the path of a file of your own; without it all are listed
    pub name: Option<String>,
    /// Make each symbol of a folder at its least, usual and greatest sizes with each value of each setting, and look how it goes together
    #[arg(long, value_name = "FOLDER", conflicts_with = "name")]
    pub check: Option<String>,
}

/// List the plug-ins of layouts, pin them to their files, or try one
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright plug-ins list layouts/first.yaml                 what its plug-ins have, and whether their files are the pinned ones
  boxwright plug-ins pin layouts/first.yaml                  write the SHA-256 of their files into the layout
  boxwright plug-ins try house.wasm layouts/first.yaml       run all that a plug-in has on a layout, and write nothing

A plug-in is a file of WebAssembly with checks, outputs or sheets. It sees the layout and gives findings, files and drawings; \
it can't reach files, network or clock, and is stopped where it takes too long.")]
pub(super) struct PlugIns {
    #[command(subcommand)]
    pub what: PlugInsCommand,
}

/// What to do with plug-ins.
#[derive(Debug, Subcommand)]
pub(super) enum PlugInsCommand {
    /// Say what the plug-ins of layouts have, and whether their files are the pinned ones
    List {
        /// Layout files
        #[arg(required = true, value_name = "LAYOUT")]
        layouts: Vec<String>,
    },
    /// Write the SHA-256 of the plug-ins that a layout names into it: from then on other files are refused
    Pin {
        /// Layout file
        layout: String,
    },
    /// Run all that a plug-in has on a layout, say what comes of it and what it takes, and write nothing
    Try {
        /// File of the plug-in
        file: String,
        /// Layout file
        layout: String,
    },
}

/// Print the JSON Schema of a form that this command reads or writes
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright schema layout       for an editor: keys, words and figures of layout files
  boxwright schema findings     of findings.json, and of each entry of `check --format json`

All are JSON Schema 2020-12. Those of layouts, symbols, recipes and themes describe the YAML files: an expression may stand \
in the place of a number.")]
pub(super) struct Schema {
    /// Which form
    pub of: Form,
}

/// A form with a schema.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Form {
    /// The resolved layout, model.json
    Model,
    /// Masses, axle loads, insulation, services, report.json
    Report,
    /// Errors and findings of a layout, findings.json
    Findings,
    /// Cutting plans, `nest --format json`
    Nest,
    /// Layout files
    Layout,
    /// Symbol files
    Symbol,
    /// Recipe files
    Recipe,
    /// Theme files
    Theme,
    /// Files of house rules
    Rules,
    /// Drawings, as plug-ins read and give them
    Sheets,
    /// What a plug-in says of itself
    PlugIn,
    /// What a plug-in is asked
    PlugInQuestion,
    /// What a plug-in answers
    PlugInAnswer,
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_definition_is_sound() {
        Arguments::command().debug_assert();
    }
}

//! Arguments of `boxwright nest`.

use crate::base::tolerance::{GREATEST_LENGTH, SAME_LENGTH};
use crate::joinery::nesting::SheetKind;
use crate::model::Grain;
use crate::model::materials::USEFUL;
use clap::{Args, ValueEnum};

/// Lay a list of parts on sheets with cuts from edge to edge, and draw how they are cut
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright nest parts.csv                                   on sheets of 2440 x 1220, drawn in out/parts/
  boxwright nest parts.csv --sheet 2500x1250:84 --sheet 2440x1220:79 --offcut 900x600:2
  boxwright nest parts.csv --stages 3 --kerf 4 --trim 0
  boxwright nest jobs.json --format json > plans.json

A table (CSV) has a first row with the names of its columns: number, length, width, count, grain (length, width or \
free) and bands (thickness at front, back, left and right, taken off the size); length and width are needed. The \
README shows the form in JSON. Exit code: 0 all parts are laid, 1 some are not, 2 the list can't be read.")]
pub(in crate::cli) struct Nest {
    /// List of parts, a table or JSON; `-` for standard input
    #[arg(value_name = "PARTS")]
    pub parts: String,
    /// A sheet size that can be bought, in mm, perhaps with its price; several may be given [default: 2440x1220]
    #[arg(long, value_name = "LxW[:PRICE]", value_parser = bought)]
    pub sheet: Vec<Sized>,
    /// Sheets on hand, perhaps with their count: they cost nothing; several may be given
    #[arg(long, value_name = "LxW[:COUNT]", value_parser = on_hand)]
    pub offcut: Vec<Sized>,
    /// Width of the saw cut, mm [default: 3.2; 0 in JSON that says none]
    #[arg(long, value_name = "MM", value_parser = not_below_zero)]
    pub kerf: Option<f64>,
    /// Taken off each edge of a sheet, mm [default: 10; 0 in JSON that says none]
    #[arg(long, value_name = "MM", value_parser = not_below_zero)]
    pub trim: Option<f64>,
    /// Which way the grain of a sheet runs
    #[arg(long, value_name = "WAY", default_value = "long")]
    pub grain: SheetGrain,
    /// The smallest offcut worth keeping, mm
    #[arg(long, value_name = "LxW", default_value_t = Pair(USEFUL), value_parser = pair)]
    pub useful: Pair,
    /// How often the panels may be turned between cuts
    #[arg(long, value_name = "COUNT", default_value = "free")]
    pub stages: Stages,
    /// How hard to search: 0 for a quick preview, 1 as for a layout; 20 takes up to a second for 200 parts [default: 18; less for long lists]
    #[arg(long, value_name = "TIMES", value_parser = clap::value_parser!(u32).range(0..=10_000))]
    pub effort: Option<u32>,
    /// Search so long for each job in place of `--effort`; the result then depends on the machine
    #[arg(long, value_name = "SECONDS", value_parser = seconds, conflicts_with = "effort")]
    pub seconds: Option<f64>,
    /// Folder that gets one folder with the diagrams [default: out; none with `--format json`]
    #[arg(long, value_name = "DIR")]
    pub out: Option<String>,
    /// Form of the report
    #[arg(long, value_name = "FORM", default_value = "text")]
    pub format: NestFormat,
}

/// Form of the report on plans.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum NestFormat {
    /// For people
    Text,
    /// For programs: every sheet and where every part lies
    Json,
}

/// Grain of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum SheetGrain {
    /// Along its length
    Long,
    /// Along its width
    Short,
    /// None
    None,
}

impl SheetGrain {
    pub fn of_a_sheet(self) -> Grain {
        match self {
            Self::Long => Grain::Length,
            Self::Short => Grain::Width,
            Self::None => Grain::Free,
        }
    }
}

/// Limit of the cut stages.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum Stages {
    /// Strips, then parts
    #[value(name = "2")]
    Two,
    /// Once more
    #[value(name = "3")]
    Three,
    /// As often as serves
    Free,
}

impl Stages {
    pub fn limit(self) -> Option<u8> {
        match self {
            Self::Two => Some(2),
            Self::Three => Some(3),
            Self::Free => None,
        }
    }
}

/// Two lengths, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::cli) struct Pair(pub (f64, f64));

impl std::fmt::Display for Pair {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}x{}", self.0.0, self.0.1)
    }
}

/// A size with its price or count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::cli) struct Sized {
    size: (f64, f64),
    more: Option<f64>,
}

/// Where nothing is said, mm.
const USUAL: Sized = Sized { size: (2440.0, 1220.0), more: None };

impl Nest {
    /// All sheets: a size without a price costs as much for each square metre as the first that has one.
    pub fn sheets(&self) -> Vec<SheetKind> {
        let area = |one: &Sized| one.size.0 * one.size.1;
        let sizes = if self.sheet.is_empty() { &[USUAL][..] } else { &self.sheet };
        let rate = sizes.iter().find_map(|one| one.more.map(|price| price / area(one))).unwrap_or(1.0);
        let bought = sizes.iter().map(|one| {
            let cost = one.more.unwrap_or(area(one) * rate);
            SheetKind { size: one.size, cost, stock: None }
        });
        let on_hand = self.offcut.iter().map(|one| {
            let stock = Some(one.more.unwrap_or(1.0) as u32);
            SheetKind { size: one.size, cost: 0.0, stock }
        });
        bought.chain(on_hand).collect()
    }

    /// Where the diagrams go, if they are drawn.
    pub fn folder(&self) -> Option<&str> {
        let usual = (self.format == NestFormat::Text).then_some("out");
        self.out.as_deref().or(usual)
    }
}

fn pair(text: &str) -> Result<Pair, String> {
    let lengths = text.split_once('x').and_then(|(a, b)| a.trim().parse().ok().zip(b.trim().parse().ok()));
    let fits = |length: &f64| (SAME_LENGTH..=GREATEST_LENGTH).contains(length);
    let lengths = lengths.filter(|(a, b)| fits(a) && fits(b));
    lengths.map(Pair).ok_or_else(|| format!("write length and width in mm, each up to {GREATEST_LENGTH}: `2440x1220`"))
}

fn sized(text: &str, more: impl Fn(&str) -> Option<f64>, help: &str) -> Result<Sized, String> {
    let (size, said) = text.split_once(':').map_or((text, None), |(size, said)| (size, Some(said)));
    let size = pair(size)?.0;
    match said.map(more) {
        None => Ok(Sized { size, more: None }),
        Some(Some(value)) => Ok(Sized { size, more: Some(value) }),
        Some(None) => Err(help.to_owned()),
    }
}

fn bought(text: &str) -> Result<Sized, String> {
    let price = |said: &str| said.parse().ok().filter(|price: &f64| *price >= 0.0 && price.is_finite());
    sized(text, price, "write the price as a number after the size: `2440x1220:79.50`")
}

fn on_hand(text: &str) -> Result<Sized, String> {
    let count = |said: &str| said.parse::<u16>().ok().map(f64::from);
    sized(text, count, "write the count as a whole number after the size: `900x600:2`")
}

fn not_below_zero(text: &str) -> Result<f64, String> {
    let value = text.parse().ok().filter(|value: &f64| (0.0..=GREATEST_LENGTH).contains(value));
    value.ok_or_else(|| format!("write a number of millimetres, 0 to {GREATEST_LENGTH}"))
}

fn seconds(text: &str) -> Result<f64, String> {
    let value = text.parse().ok().filter(|value: &f64| (0.0..=100_000.0).contains(value));
    value.ok_or_else(|| "write a number of seconds".to_owned())
}

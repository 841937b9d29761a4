//! The arguments of `boxwright vary`.

use crate::vary::Measured;
use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use clap::{Args, ValueEnum};

/// Try many versions of a layout, check each, and tell which no other beats
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  boxwright vary first.yaml --set aisle=540..760/20
  boxwright vary first.yaml --set aisle=540..760/20 --set galley.depth=520..600/20 --tell mass,way,price
  boxwright vary first.yaml --set galley.sink=single,none --format csv > versions.csv
  boxwright vary first.yaml --set aisle=540..760/1 --set galley.depth=500..620/1 --sample 200
  boxwright vary first.yaml --set aisle=540..760/20 --write 7 --to seventh.yaml

What is set: a parameter; MODULE.run, MODULE.depth or MODULE.height; an edge of a module, such as MODULE.front; a setting of it;
or keys of the layout from its top, such as box.length.

Exit code: 0 when versions were tried, 2 when none could be.")]
pub(in crate::cli) struct Vary {
    /// Layout file
    #[arg(value_name = "FILE")]
    pub file: String,
    /// What is set to which values: NAME=LOW..HIGH/STEP or NAME=VALUE,VALUE; the option may be given more than once
    #[arg(long, value_name = "NAME=VALUES", required = true)]
    pub set: Vec<String>,
    /// Figures to choose by, beside faults and cautions
    #[arg(long, value_name = "FIGURES", value_delimiter = ',', default_value = "mass,way,storage", value_parser = figures())]
    pub tell: Vec<Measured>,
    /// Try only so many of all versions
    #[arg(long, value_name = "N")]
    pub sample: Option<usize>,
    /// Which of them
    #[arg(long, value_name = "SEED", default_value_t = 1, requires = "sample")]
    pub seed: u64,
    /// List every version, and not only those that no other beats
    #[arg(long)]
    pub all: bool,
    /// Form of the table
    #[arg(long, value_name = "FORM", default_value = "text")]
    pub format: VaryFormat,
    /// Write the version of this number as a layout that extends the file
    #[arg(long, value_name = "NUMBER", requires = "to")]
    pub write: Option<usize>,
    /// Where to; in the folder of the layout
    #[arg(long, value_name = "FILE", requires = "write")]
    pub to: Option<String>,
}

/// Form of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum VaryFormat {
    /// Columns for people
    Text,
    /// Every version, with commas
    Csv,
}

fn figures() -> impl TypedValueParser<Value = Measured> {
    let value = |one: Measured| PossibleValue::new(one.name()).help(one.says());
    PossibleValuesParser::new(Measured::ALL.map(value))
        .map(|name| Measured::ALL.into_iter().find(|one| one.name() == name).unwrap_or(Measured::Mass))
}

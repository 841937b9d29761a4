//! The command: arguments, one file for each command, and the only reader and writer of the disk.

mod arguments;
mod build;
mod check;
mod console;
mod disk;
mod example;
mod explain;
mod nest;
mod new;
mod report;
mod schema;
mod swap;
mod symbols;

use crate::registry::Registry;
use arguments::{Arguments, Command};
use clap::Parser;
use console::Console;
use std::io;
use std::process::ExitCode;

/// How a command ended; worse is greater.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Outcome {
    /// Nothing to mend.
    Clean,
    /// A layout has faults.
    Faults,
    /// A layout does not compile, or the command could not do its work.
    Broken,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Clean => Self::SUCCESS,
            Outcome::Faults => Self::from(1),
            Outcome::Broken => Self::from(2),
        }
    }
}

/// Runs the command with the arguments of the process: 0 clean, 1 faults found, 2 could not be done.
#[must_use]
pub fn run() -> ExitCode {
    let arguments = Arguments::parse();
    let mut console = Console::new(arguments.global.quiet, arguments.global.colour);
    match dispatch(&arguments, &mut console) {
        Ok(outcome) => outcome.into(),
        Err(error) => {
            console.complain(&format!("the report could not be written: {error}"));
            Outcome::Broken.into()
        }
    }
}

fn dispatch(arguments: &Arguments, console: &mut Console) -> io::Result<Outcome> {
    let registry = Registry::standard();
    let options = arguments.global.options();
    match &arguments.command {
        Command::New(new) => new::run(new, console),
        Command::Check(check) => check::run(check, &registry, options, console),
        Command::Build(build) => build::run(build, &registry, options, console),
        Command::Explain(explain) => explain::run(explain, &registry, options, console),
        Command::Nest(nest) => nest::run(nest, console),
        Command::Symbols(symbols) => symbols::run(symbols, console),
        Command::Schema(schema) => schema::run(schema, console),
    }
}

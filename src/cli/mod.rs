//! The command: arguments, one file for each command, and the only reader and writer of the disk.

mod accept;
mod arguments;
mod build;
mod check;
mod compare;
mod console;
mod desk;
mod disk;
mod example;
mod explain;
mod mend;
mod nest;
mod new;
mod outcome;
#[cfg(test)]
mod outside;
mod plug_ins;
mod report;
mod revision;
mod schema;
mod signals;
mod swap;
mod symbols;
mod vary;

use crate::backends::Backend;
use crate::registry::Registry;
use arguments::{Arguments, Colour, Command};
use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use clap::{Arg, CommandFactory, FromArgMatches};
use console::Console;
use outcome::Outcome;
use std::ffi::{OsStr, OsString};
use std::io::{self, Write};
use std::process::ExitCode;
use std::sync::Arc;

/// Runs the command with the arguments of the process: 0 clean, 1 faults found, 2 could not be done.
#[must_use]
pub fn run(registry: &Registry) -> ExitCode {
    let arguments = match parsed(registry, std::env::args_os()) {
        Ok(arguments) => arguments,
        Err(told) => return help(&told),
    };
    let mut console = Console::new(arguments.global.quiet, arguments.global.colour);
    let outcome = match plug_ins::joined(registry, &arguments.global) {
        Ok(registry) => dispatch(&arguments, &registry, &mut console),
        Err(why) => {
            console.complain(&why);
            Ok(Outcome::Broken)
        }
    };
    let outcome = outcome.and_then(|outcome| console.all_heard().map(|()| outcome));
    match outcome {
        Ok(outcome) => outcome.into(),
        Err(error) => {
            console.complain(&format!("standard output can't be written: {error}; its report is lost"));
            Outcome::Broken.into()
        }
    }
}

/// The command with all its options, as the help is made from it: for manual pages and completions of shells.
#[must_use]
pub fn definition(registry: &Registry) -> clap::Command {
    Arguments::command()
        .mut_subcommand("build", |build| build.mut_arg("only", |only| only.value_parser(outputs(registry))))
}

/// Reads the name of an output: one of those that are built in, or one that a plug-in of a layout may have, with a colon.
#[derive(Clone)]
struct OutputNames(PossibleValuesParser);

impl TypedValueParser for OutputNames {
    type Value = String;

    fn parse_ref(&self, command: &clap::Command, arg: Option<&Arg>, value: &OsStr) -> Result<String, clap::Error> {
        match value.to_str().filter(|name| name.contains(':')) {
            Some(name) => Ok(name.to_owned()),
            None => self.0.parse_ref(command, arg, value),
        }
    }

    fn possible_values(&self) -> Option<Box<dyn Iterator<Item = PossibleValue> + '_>> {
        self.0.possible_values()
    }
}

/// The names of all outputs.
fn outputs(registry: &Registry) -> OutputNames {
    let output = |one: &Arc<dyn Backend>| PossibleValue::new(one.name().to_owned()).help(one.says().to_owned());
    OutputNames(PossibleValuesParser::new(registry.backends.iter().map(output)))
}

fn parsed(registry: &Registry, words: impl IntoIterator<Item = OsString>) -> Result<Arguments, clap::Error> {
    let matches = definition(registry).try_get_matches_from(words)?;
    // What is missing or wrong in the values was told by the line before.
    Arguments::from_arg_matches(&matches)
}

/// Prints help, the version, or what is wrong with the arguments.
fn help(told: &clap::Error) -> ExitCode {
    let printed = told.print().and_then(|()| io::stdout().flush());
    match printed {
        Ok(()) if !told.use_stderr() => ExitCode::SUCCESS,
        Ok(()) => Outcome::Broken.into(),
        Err(error) => {
            Console::new(true, Colour::Never).complain(&format!("this can't be written: {error}"));
            Outcome::Broken.into()
        }
    }
}

fn dispatch(arguments: &Arguments, registry: &Registry, console: &mut Console) -> io::Result<Outcome> {
    let options = arguments.global.options();
    match &arguments.command {
        Command::New(new) => new::run(new, console),
        Command::Check(check) => check::run(check, registry, options, console),
        Command::Compare(compare) => compare::run(compare, registry, options, console),
        Command::Accept(accept) => accept::run(accept, registry, options, console),
        Command::Mend(mend) => mend::run(mend, registry, options, console),
        Command::Build(build) => build::run(build, registry, options, console),
        Command::Desk(desk) => desk::run(desk, registry, options, console),
        Command::Explain(explain) => explain::run(explain, registry, options, console),
        Command::Nest(nest) => nest::run(nest, console),
        Command::Symbols(symbols) => symbols::run(symbols, console),
        Command::PlugIns(plug_ins) => plug_ins::run(plug_ins, registry, options, console),
        Command::Schema(schema) => schema::run(schema, console),
        Command::Vary(vary) => vary::run(vary, registry, options, console),
    }
}

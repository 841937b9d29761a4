//! Stub.
use super::Outcome;
use super::arguments::Symbols;
use super::console::Console;
pub(super) fn run(_symbols: &Symbols, _console: &mut Console) -> std::io::Result<Outcome> {
    Ok(Outcome::Clean)
}

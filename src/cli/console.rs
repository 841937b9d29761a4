//! The terminal: reports on standard output, progress and complaints on standard error.

use super::arguments::Colour;
use std::io::{self, IsTerminal, Write};

/// Where the command speaks.
#[derive(Debug)]
pub(super) struct Console {
    /// Say errors and faults only.
    pub quiet: bool,
    /// Colour what goes to standard output.
    pub colour: bool,
    progress: bool,
}

impl Console {
    /// Looks at the terminal and at `NO_COLOR`.
    pub fn new(quiet: bool, colour: Colour) -> Self {
        let plain = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
        let colour = match colour {
            Colour::Always => true,
            Colour::Never => false,
            Colour::Auto => !plain && io::stdout().is_terminal(),
        };
        Self { quiet, colour, progress: !quiet && io::stderr().is_terminal() }
    }

    /// Writes a report as it is.
    ///
    /// # Errors
    /// When standard output can't be written, for example because its reader has gone.
    pub fn report(&mut self, text: &str) -> io::Result<()> {
        let mut out = io::stdout().lock();
        out.write_all(text.as_bytes())?;
        out.flush()
    }

    /// Writes one line that is no error or fault; nothing when quiet.
    ///
    /// # Errors
    /// As [`Console::report`].
    pub fn say(&mut self, line: &str) -> io::Result<()> {
        if self.quiet { Ok(()) } else { self.report(&format!("{line}\n")) }
    }

    /// Shows what is being done, on a terminal only, in place of the line before; an empty text clears it.
    pub fn progress(&mut self, doing: &str) {
        if self.progress {
            let _ = write!(io::stderr().lock(), "\r\x1b[K{doing}");
        }
    }

    /// Says that the command could not do something, and what to do about it.
    pub fn complain(&mut self, message: &str) {
        self.progress("");
        let _ = writeln!(io::stderr().lock(), "error: {message}");
    }
}

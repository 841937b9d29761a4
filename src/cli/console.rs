//! The terminal: reports on standard output, progress and complaints on standard error.

use super::arguments::Colour;
use crate::source::shown;
use std::io::{self, IsTerminal, Write};

/// Where the command speaks.
#[derive(Debug)]
pub(super) struct Console {
    /// Say errors and faults only.
    pub quiet: bool,
    /// Colour what goes to standard output.
    pub colour: bool,
    progress: bool,
    /// Why standard output can't be written any more; what is left to do is done all the same.
    unheard: Option<io::Error>,
}

impl Console {
    /// Looks at the terminal, at `NO_COLOR` and at `TERM`.
    pub fn new(quiet: bool, colour: Colour) -> Self {
        let set = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
        let dumb = std::env::var_os("TERM").is_some_and(|value| value == "dumb");
        let colour = match colour {
            Colour::Always => true,
            Colour::Never => false,
            Colour::Auto => !set("NO_COLOR") && !dumb && io::stdout().is_terminal(),
        };
        Self { quiet, colour, progress: !quiet && !dumb && io::stderr().is_terminal(), unheard: None }
    }

    /// Writes a report as it is. Once that has failed nothing more is written; the work goes on, and
    /// [`Console::all_heard`] tells at its end.
    ///
    /// # Errors
    /// None; commands pass it on as they do what else may fail.
    pub fn report(&mut self, text: &str) -> io::Result<()> {
        if self.unheard.is_none() {
            let mut out = io::stdout().lock();
            self.unheard = out.write_all(text.as_bytes()).and_then(|()| out.flush()).err();
        }
        Ok(())
    }

    /// Whether everything could be written to standard output.
    ///
    /// # Errors
    /// Why it could not.
    pub fn all_heard(&mut self) -> io::Result<()> {
        self.unheard.take().map_or(Ok(()), Err)
    }

    /// Writes one line that is no error or fault; nothing when quiet.
    ///
    /// # Errors
    /// As [`Console::report`].
    pub fn say(&mut self, line: &str) -> io::Result<()> {
        if self.quiet { Ok(()) } else { self.report(&format!("{}\n", shown(line))) }
    }

    /// Shows what is being done, on a terminal only, in place of the line before; an empty text clears it.
    pub fn progress(&mut self, doing: &str) {
        if self.progress {
            let _ = write!(io::stderr().lock(), "\r\x1b[K{}", shown(doing));
        }
    }

    /// Remarks on standard error, where they mix with no output; nothing when quiet.
    pub fn remark(&mut self, text: &str) {
        if !self.quiet {
            self.progress("");
            let _ = io::stderr().lock().write_all(text.as_bytes());
        }
    }

    /// Says that the command could not do something, and what to do about it.
    pub fn complain(&mut self, message: &str) {
        self.progress("");
        let _ = writeln!(io::stderr().lock(), "error: {}", shown(message));
    }
}

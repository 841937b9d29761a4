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
    /// The reader of standard output has gone; what is left to do is done all the same.
    unheard: bool,
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
        Self { quiet, colour, progress: !quiet && io::stderr().is_terminal(), unheard: false }
    }

    /// Writes a report as it is. Once the reader of standard output has gone, nothing more is written and that is no
    /// error: the work goes on and the exit code still tells how it went.
    ///
    /// # Errors
    /// When standard output can't be written for any other reason.
    pub fn report(&mut self, text: &str) -> io::Result<()> {
        if self.unheard {
            return Ok(());
        }
        let mut out = io::stdout().lock();
        match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => {
                self.unheard = true;
                Ok(())
            }
            result => result,
        }
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
        let _ = writeln!(io::stderr().lock(), "error: {message}");
    }
}

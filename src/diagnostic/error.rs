//! Errors in a layout or symbol file, collected rather than thrown one at a time.

use super::suggestion::Suggestion;
use crate::source::Span;

/// A second place that helps to understand an error.
#[derive(Debug, Clone, PartialEq)]
pub struct Note {
    /// The place.
    pub span: Span,
    /// What is there.
    pub says: String,
}

/// One error: a sentence of fact, where it is, and what to do.
#[derive(Debug, Clone, PartialEq)]
pub struct Diagnostic {
    /// One sentence of fact with figures and units, no full stop.
    pub message: String,
    /// The place the message points at.
    pub span: Span,
    /// A few words shown under the place; may be empty.
    pub label: String,
    /// Other places.
    pub notes: Vec<Note>,
    /// What to do about it.
    pub help: Option<String>,
    /// Whether the layout can be drawn in spite of it, as a draft.
    pub drawn: bool,
    /// The smallest single change that clears it, tried on the layout.
    pub suggestion: Option<Box<Suggestion>>,
}

impl Diagnostic {
    /// An error at a place.
    #[must_use]
    pub fn new(span: Span, message: impl Into<String>) -> Self {
        Self {
            message: message.into(),
            span,
            label: String::new(),
            notes: Vec::new(),
            help: None,
            drawn: false,
            suggestion: None,
        }
    }

    /// Adds the words under the place.
    #[must_use]
    pub fn label(mut self, label: impl Into<String>) -> Self {
        self.label = label.into();
        self
    }

    /// Adds another place.
    #[must_use]
    pub fn note(mut self, span: Span, says: impl Into<String>) -> Self {
        self.notes.push(Note { span, says: says.into() });
        self
    }

    /// Adds what to do.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }
}

impl Diagnostic {
    /// The same error, in spite of which the layout is drawn as a draft.
    #[must_use]
    pub fn drawn(self) -> Self {
        Self { drawn: true, ..self }
    }
}

/// Collects errors so that one run reports many; errors that say the same of one place are kept once, and past a bound only counted.
#[derive(Debug, Default)]
pub struct Sink {
    errors: Vec<Diagnostic>,
    dropped: usize,
    /// There is one in spite of which nothing can be drawn.
    bars: bool,
}

impl Sink {
    const MOST: usize = 50;

    /// Takes an error.
    pub fn push(&mut self, error: Diagnostic) {
        // The same mistake of a symbol comes from each module that uses it.
        if self.errors.iter().any(|known| known.span == error.span && known.message == error.message) {
            return;
        }
        self.bars |= !error.drawn;
        if self.errors.len() < Self::MOST {
            self.errors.push(error);
        } else {
            self.dropped += 1;
        }
    }

    /// Whether any error has come.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.errors.is_empty()
    }

    /// Whether there are errors in spite of which nothing can be drawn.
    #[must_use]
    pub fn bars(&self) -> bool {
        self.bars
    }

    /// Says what clears the error at a place in spite of which the layout is drawn.
    pub fn suggest(&mut self, span: Span, suggestion: &Suggestion) {
        for error in self.errors.iter_mut().filter(|error| error.drawn && error.span == span) {
            error.suggestion = Some(Box::new(suggestion.clone()));
        }
    }

    /// The errors so far.
    #[must_use]
    pub fn errors(&self) -> &[Diagnostic] {
        &self.errors
    }

    /// How many more came than are kept.
    #[must_use]
    pub fn dropped(&self) -> usize {
        self.dropped
    }
}

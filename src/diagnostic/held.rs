//! What keeps the outputs of a layout from use.

use super::finding::{Counts, Finding};

/// How many errors a draft has, and how many faults are open. With none of either, the outputs may be used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Held {
    /// Errors in spite of which the layout is drawn.
    pub errors: usize,
    /// Faults that are not accepted.
    pub faults: usize,
}

impl Held {
    /// By so many errors, and by the open faults among some findings.
    #[must_use]
    pub fn new(errors: usize, findings: &[Finding]) -> Self {
        Self { errors, faults: Counts::of(findings).faults }
    }

    /// Whether anything holds the outputs.
    #[must_use]
    pub fn any(self) -> bool {
        self.count() > 0
    }

    /// How many things hold them.
    #[must_use]
    pub fn count(self) -> usize {
        self.errors + self.faults
    }

    /// The word of the stamp.
    #[must_use]
    pub fn word(self) -> &'static str {
        if self.errors > 0 { "DRAFT" } else { "HELD" }
    }

    /// The stamp: "HELD: 2 faults", of a draft "DRAFT: 1 error".
    #[must_use]
    pub fn stamp(self) -> String {
        let gravest = if self.errors > 0 { (self.errors, "error") } else { (self.faults, "fault") };
        format!("{}: {}", self.word(), counted(gravest))
    }

    /// The stamp in a sentence: "Held: faults found".
    #[must_use]
    pub fn says(self) -> &'static str {
        if self.errors > 0 { "Draft: errors found" } else { "Held: faults found" }
    }

    /// "1 error, 2 faults".
    #[must_use]
    pub fn reasons(self) -> String {
        let all = [(self.errors, "error"), (self.faults, "fault")];
        let some: Vec<String> = all.into_iter().filter(|(number, _)| *number > 0).map(counted).collect();
        some.join(", ")
    }
}

fn counted((number, word): (usize, &str)) -> String {
    let end = if number == 1 { "" } else { "s" };
    format!("{number} {word}{end}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn errors_come_before_faults() {
        let held = |errors, faults| Held { errors, faults };
        assert_eq!((held(0, 1).stamp().as_str(), held(0, 12).stamp().as_str()), ("HELD: 1 fault", "HELD: 12 faults"));
        assert_eq!(
            (held(1, 2).stamp(), held(1, 2).reasons()),
            ("DRAFT: 1 error".to_owned(), "1 error, 2 faults".to_owned())
        );
        assert!(!Held::default().any());
    }
}

//! Findings that a layout accepts: what an entry is about, and how far it goes.

use crate::diagnostic::Finding;
use crate::source::Span;

/// A finding that stays, with its reason.
#[derive(Debug, Clone, PartialEq)]
pub struct Accepted {
    /// The check.
    pub check: String,
    /// The subject.
    pub of: String,
    /// What tells the finding from others of the check on the subject: moves, places, other things. Empty for all of them.
    pub about: Vec<String>,
    /// The arrangements it is accepted in; empty for all.
    pub arrangements: Vec<String>,
    /// The figure it was accepted at, in the unit of what is measured: a worse one is not accepted.
    pub up_to: Option<f64>,
    /// Why.
    pub because: String,
    /// Where it is written.
    pub span: Span,
}

impl Accepted {
    /// Whether it accepts a finding.
    #[must_use]
    pub fn fits(&self, finding: &Finding) -> bool {
        self.means(finding)
            && self.reaches(finding)
            && (self.arrangements.is_empty()
                || !finding.arrangements.is_empty()
                    && finding.arrangements.iter().all(|name| self.holds_in(Some(name))))
    }

    /// Whether it is about a finding, in whatever arrangement and whatever its figure; of two subjects, either may stand
    /// first.
    #[must_use]
    pub fn means(&self, finding: &Finding) -> bool {
        let key = &finding.key;
        let named = |name: &String| key.about.iter().any(|about| about.name() == name);
        self.check == key.check && key.subject.is(&self.of) && self.about.iter().all(named)
    }

    /// Whether it holds in an arrangement; `None` is for findings that depend on none.
    #[must_use]
    pub fn holds_in(&self, arrangement: Option<&str>) -> bool {
        self.arrangements.is_empty() || self.arrangements.iter().any(|name| Some(name.as_str()) == arrangement)
    }

    /// Whether the figure of a finding is no worse than the one it was accepted at; never, if it has none.
    #[must_use]
    pub fn reaches(&self, finding: &Finding) -> bool {
        let Some(value) = self.up_to else { return true };
        let (Some(measured), Some(required)) = (&finding.measured, &finding.required) else { return false };
        let at = crate::diagnostic::Measure { value, ..*measured };
        measured.shows_as(&at) || required.miss(measured.value) <= required.miss(value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::{Bound, Measure, Quantity, Requirement, Severity};

    fn entry() -> Accepted {
        let [check, of, because] = ["slide", "galley", "why"].map(str::to_owned);
        Accepted { check, of, about: Vec::new(), arrangements: Vec::new(), up_to: None, because, span: Span::default() }
    }

    fn finding(value: f64, bound: Bound) -> Finding {
        Finding {
            arrangements: vec!["day".to_owned(), "night".to_owned()],
            measured: Some(Measure { value, quantity: Quantity::Length }),
            required: Some(Requirement::geometry(bound, Quantity::Length)),
            ..Finding::new("slide", Severity::Fault, "galley", "slides").of_part("drawer 1").with_other("bed")
        }
    }

    #[test]
    fn it_is_about_what_it_names() {
        let found = finding(300.0, Bound::Least(400.0));
        let about = |names: &[&str]| Accepted { about: names.iter().map(|n| (*n).to_owned()).collect(), ..entry() };
        let fits = [about(&[]), about(&["drawer 1"]), about(&["bed", "drawer 1"]), about(&["drawer 2"])];
        assert_eq!(fits.map(|entry| entry.fits(&found)), [true, true, true, false]);
        assert!(!Accepted { of: "bed".to_owned(), ..entry() }.fits(&found));
        assert!(!Accepted { check: "swing".to_owned(), ..entry() }.fits(&found));
    }

    #[test]
    fn it_holds_in_its_arrangements() {
        let found = finding(300.0, Bound::Least(400.0));
        let within =
            |names: &[&str]| Accepted { arrangements: names.iter().map(|n| (*n).to_owned()).collect(), ..entry() };
        assert!(within(&["day", "night", "travel"]).fits(&found) && !within(&["day"]).fits(&found));
        let always = Finding { arrangements: Vec::new(), ..found };
        assert!(entry().fits(&always) && !within(&["day"]).fits(&always));
    }

    #[test]
    fn what_gets_worse_is_not_accepted() {
        let up_to = |value| Accepted { up_to: Some(value), ..entry() };
        let fits = |at, bound: Bound| [290.0, 299.97, 300.0, 390.0].map(|value| up_to(at).fits(&finding(value, bound)));
        assert_eq!(fits(300.0, Bound::Least(400.0)), [false, true, true, true]);
        assert_eq!(fits(300.0, Bound::Most(200.0)), [true, true, true, false]);
        assert_eq!(fits(300.0, Bound::Between(350.0, 370.0)), [false, true, true, true]);
        assert!(!up_to(300.0).fits(&Finding { measured: None, ..finding(300.0, Bound::Least(400.0)) }));
    }
}

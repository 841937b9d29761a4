//! A rule, typed: what it is about, what it needs, what it says.

use super::clauses::{Clause, clauses, limits};
use super::kinds::{Field, Kind};
use super::term::{Of, Term};
use super::typing::Typing;
use crate::diagnostic::{Diagnostic, Limit, Severity};
use crate::language::expression::Function;
use crate::language::{RuleDoc, SaysDoc};
use crate::source::{Span, Spanned};

/// What the names of house rules begin with, before a colon.
pub const PREFIX: &str = "rule";
/// A piece of the sentence about things that miss the rule.
pub(super) enum Say {
    Words(String),
    Value(Term, String),
}

/// How a rule depends on the arrangement.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Depends {
    No,
    /// Through figures that a symbol may export otherwise in each pose.
    Exports,
    Yes,
}

/// A house rule.
pub(super) struct HouseRule {
    pub name: String,
    /// The kinds of things it is about, in words.
    pub about: String,
    pub says_words: Vec<Say>,
    pub because: String,
    pub severity: Severity,
    /// Where its name is written.
    pub span: Span,
    pub clauses: Vec<Clause>,
    pub doc: RuleDoc,
    /// `each` and `needs` in one line.
    pub line: String,
    pub kinds: Vec<Kind>,
    pub filters: Vec<Term>,
    pub limits: Vec<Limit>,
    pub limit_names: Vec<String>,
    pub depends: Depends,
}

/// A rule of a layout; nothing where it has a mistake, which is reported.
pub(super) fn typed(mut typing: Typing<'_>, name: &str, entry: &Spanned<RuleDoc>) -> Option<HouseRule> {
    let doc = &entry.value;
    let kinds: Option<Vec<Kind>> = doc.each.of.iter().map(|ranged| typing.add_slot(ranged)).collect();
    let kinds = kinds?;
    let filter = doc.each.filter.as_ref().map(|filter| typing.truth(filter));
    let clauses = clauses(&mut typing, &doc.needs);
    let mut says_words = Vec::new();
    let mut sound = true;
    for piece in &doc.says {
        match piece {
            SaysDoc::Words(words) => says_words.push(Say::Words(words.clone())),
            SaysDoc::Value(expr, written) => match typing.term(expr) {
                Some((term, _)) => says_words.push(Say::Value(term, written.clone())),
                None => sound = false,
            },
        }
    }
    let filters = filter.map_or(Some(Vec::new()), |filter| filter.map(Term::conjuncts));
    let (clauses, filters) = (clauses?, filters?);
    let limits = limits(&mut typing, doc, &clauses)?;
    refuse_idle(&mut typing, doc, &clauses)?;
    let severity = match doc.severity.as_ref().map(|severity| severity.value.as_str()) {
        Some("note") => Severity::Note,
        Some("caution") => Severity::Caution,
        _ => Severity::Fault,
    };
    let mut rule = HouseRule {
        name: format!("{PREFIX}:{name}"),
        about: kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>().join(" and "),
        says_words,
        because: doc.because.value.clone(),
        severity,
        span: entry.span,
        clauses,
        doc: doc.clone(),
        line: format!("each {}: {}", doc.each_text, doc.needs_text),
        kinds,
        filters,
        limits,
        limit_names: typing.limits,
        depends: Depends::No,
    };
    rule.depends = depends(&rule);
    sound.then_some(rule)
}

/// A condition that speaks of nothing is the same for all.
fn refuse_idle(typing: &mut Typing<'_>, doc: &RuleDoc, clauses: &[Clause]) -> Option<()> {
    let speaks =
        |term: &Term| term.any(&|of| matches!(of, Of::Slot(_) | Of::Over(..) | Of::Named(..) | Of::Arrangement));
    let any = clauses.iter().any(|clause| match clause {
        Clause::Truth(term) => speaks(term),
        Clause::Figure { measured, .. } => speaks(measured),
    });
    if any {
        return Some(());
    }
    let error = Diagnostic::new(doc.needs.span, "this is the same for all that the rule is about");
    let name = doc.each.of.first().map_or("m", |ranged| ranged.name.value.as_str());
    typing.error(error.help(format!("ask something of `{name}`, as `{name}.height >= 900`")))
}

fn depends(rule: &HouseRule) -> Depends {
    let says = rule.says_words.iter().filter_map(|say| match say {
        Say::Value(term, _) => Some(term),
        Say::Words(_) => None,
    });
    let clauses = rule.clauses.iter().flat_map(|clause| match clause {
        Clause::Truth(term) => vec![term],
        Clause::Figure { measured, least, most, .. } => [measured].into_iter().chain(least).chain(most).collect(),
    });
    let moving = |of: &Of| match of {
        Of::Arrangement | Of::Tagged(..) | Of::Field(_, Field::Pose | Field::Sleepers) => true,
        Of::Between(function, _) => *function != Function::Inside,
        Of::Over(_, over) => over.kind.moves(),
        _ => false,
    };
    let of = |term: &Term| {
        let exports = term.any(&|of| matches!(of, Of::Export(..)));
        if term.any(&moving) {
            Depends::Yes
        } else if exports {
            Depends::Exports
        } else {
            Depends::No
        }
    };
    let kinds = if rule.kinds.iter().any(|kind| kind.moves()) { Depends::Yes } else { Depends::No };
    rule.filters.iter().chain(clauses).chain(says).map(of).fold(kinds, Depends::max)
}

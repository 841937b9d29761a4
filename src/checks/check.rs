//! The trait of checks and the narrow context they see.

use crate::base::memo::Memo;
use crate::diagnostic::{Finding, Limit, Limits, Ran, Worked};
use crate::figures::Figures;
use crate::figures::ways::Floor;
use crate::model::{Arrangement, Model};

/// The limits of a check, given with its name, as they hold for a layout.
#[must_use]
pub fn limits((check, limits): (&str, &[Limit]), model: &Model) -> Limits {
    Limits::new(limits, |name| {
        let change = model.limits.iter().find(|change| change.check == check && change.name == name)?;
        Some((change.value, change.because.as_str()))
    })
}

/// What is told of a check that was run over a model.
#[must_use]
pub fn ran(check: &dyn Check, model: &Model) -> Ran {
    let [name, says] = [check.name(), check.says()].map(str::to_owned);
    Ran {
        name,
        says,
        caution: check.caution().map(str::to_owned),
        limits: limits((check.name(), check.limits()), model),
    }
}

/// The manual page that is the leading doc comment of a source text.
#[must_use]
pub fn page_of(source: &str) -> String {
    let lines = source.lines().map_while(|line| line.strip_prefix("//!"));
    lines.map(|line| line.strip_prefix(' ').unwrap_or(line)).fold(String::new(), |page, line| page + line + "\n")
}

/// What a check sees: the model, the figures of the layout, and the check's own limits.
#[derive(Debug)]
pub struct Context<'a> {
    /// The resolved layout.
    pub model: &'a Model,
    /// The limits of this check.
    pub limits: Limits,
    /// What is known of the layout beyond its model.
    pub figures: &'a Figures<'a>,
}

impl<'a> Context<'a> {
    /// What this check sees of a layout; the figures are shared by all that look at it.
    #[must_use]
    pub fn new(check: &dyn Check, figures: &'a Figures<'a>) -> Self {
        Self { model: figures.model, limits: limits((check.name(), check.limits()), figures.model), figures }
    }

    /// The walkable floor of an arrangement.
    pub(crate) fn floor(&self, arrangement: &'a Arrangement) -> Floor<'a> {
        self.figures.floor(arrangement)
    }

    /// The table for what takes long.
    #[must_use]
    pub fn memo(&self) -> &'a Memo {
        self.figures.memo
    }

    /// The arrangements of the layout.
    #[must_use]
    pub fn arrangements(&self) -> &'a [Arrangement] {
        &self.model.arrangements
    }
}

/// A rule over the model.
pub trait Check: Send + Sync {
    /// Name, as in `explain NAME`.
    fn name(&self) -> &str;

    /// One line for lists.
    fn says(&self) -> &str;

    /// The manual page, as plain text; a built-in check takes it from its own doc comment ([`page_of`]).
    ///
    /// Its headings are `# Computes`, `# Why`, `# Limit`, `# Source` and `# Change it`, in this order.
    fn manual(&self) -> String;

    /// What a result on safety is worth, in one sentence without a full stop.
    fn caution(&self) -> Option<&str> {
        None
    }

    /// How many times the work of most checks a run takes; of changes to this layout fewer are tried by as much.
    fn work(&self, _model: &Model) -> usize {
        1
    }

    /// The limits that a layout may change.
    fn limits(&self) -> &[Limit];

    /// Looks at the model in every arrangement. Findings of several arrangements that are equal in all else may be
    /// given one by one; the caller merges them.
    fn run(&self, context: &Context<'_>) -> Vec<Finding>;

    /// The sums behind its figures for this layout, with formula, inputs and sources.
    fn worked(&self, _context: &Context<'_>) -> Vec<Worked> {
        Vec::new()
    }

    /// The findings that are graver than notes; a check whose notes take their time leaves them out here.
    fn grave(&self, context: &Context<'_>) -> Vec<Finding> {
        self.run(context)
    }

    /// Whether a finding of the layout before a change surely holds after it, told more quickly than by a run: `no` from a
    /// check that has no quick way, and where it cannot be told.
    fn surely_stays(&self, _context: &Context<'_>, _before: &Finding) -> bool {
        false
    }
}

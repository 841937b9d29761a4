//! Sums behind a figure, step by step: what, formula, the figures put in, result, source.

/// One sum, worked out.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Worked {
    /// What it is about.
    pub title: String,
    /// Its steps, in order.
    pub steps: Vec<Step>,
}

/// One step.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What is found.
    pub what: String,
    /// By which formula; empty for what the layout says.
    pub formula: String,
    /// The formula with its figures.
    pub figures: String,
    /// What comes out, with its unit.
    pub result: String,
    /// Where formula or figure come from.
    pub source: String,
}

impl Worked {
    /// A sum without steps.
    #[must_use]
    pub fn new(title: impl Into<String>) -> Self {
        Self { title: title.into(), steps: Vec::new() }
    }

    /// The sum with one step more.
    #[must_use]
    pub fn step(mut self, what: &str, [formula, figures]: [&str; 2], result: impl Into<String>, source: &str) -> Self {
        let [what, formula, figures, source] = [what, formula, figures, source].map(str::to_owned);
        self.steps.push(Step { what, formula, figures, result: result.into(), source });
        self
    }

    /// The sum with a figure that is given.
    #[must_use]
    pub fn given(self, what: &str, result: impl Into<String>, source: &str) -> Self {
        self.step(what, ["", ""], result, source)
    }
}

impl std::fmt::Display for Worked {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        writeln!(f, "{}", self.title)?;
        for step in &self.steps {
            write!(f, "  {}", step.what)?;
            for part in [&step.formula, &step.figures].into_iter().filter(|part| !part.is_empty()) {
                write!(f, "\n    = {part}")?;
            }
            let lead = if step.formula.is_empty() { ": " } else { "\n    = " };
            write!(f, "{lead}{}", step.result)?;
            if !step.source.is_empty() {
                write!(f, "    ({})", step.source)?;
            }
            writeln!(f)?;
        }
        Ok(())
    }
}

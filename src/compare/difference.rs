//! What differs, by who must know it.

/// What has become of something.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fate {
    /// It was not there.
    New,
    /// It is there no more.
    Gone,
    /// It is otherwise.
    Changed,
}

impl Fate {
    /// In a word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::New => "new",
            Self::Gone => "gone",
            Self::Changed => "changed",
        }
    }
}

/// One difference.
#[derive(Debug, Clone, PartialEq)]
pub struct Difference {
    /// What has become of it.
    pub fate: Fate,
    /// What it is about: a module, a part's number, the path of a value.
    pub about: String,
    /// In words, with the figures of both versions.
    pub says: String,
}

impl Difference {
    /// A difference.
    pub(super) fn new(fate: Fate, about: impl Into<String>, says: impl Into<String>) -> Self {
        Self { fate, about: about.into(), says: says.into() }
    }
}

/// What differs, by who must know it; nothing at all for two versions that come to the same.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Comparison {
    /// For the designer: findings.
    pub findings: Vec<Difference>,
    /// For the designer: masses and loads of the load cases.
    pub masses: Vec<Difference>,
    /// For the fitter: modules that are new, gone, moved or of another size.
    pub modules: Vec<Difference>,
    /// For the shell maker: openings.
    pub openings: Vec<Difference>,
    /// For the shell maker: inserts, by panel.
    pub inserts: Vec<Difference>,
    /// For the joiner: parts to cut again and parts that are not wanted any more.
    pub parts: Vec<Difference>,
    /// For the joiner: parts that are the same under another number.
    pub renumbered: Vec<Difference>,
    /// Parts that stay as they are, pieces.
    pub kept: u64,
    /// For whoever buys: sheets, bands and hardware.
    pub bought: Vec<Difference>,
    /// Every other value of the layout.
    pub values: Vec<Difference>,
}

impl Comparison {
    /// The sections with their names, in the order of the report.
    #[must_use]
    pub fn sections(&self) -> [(&'static str, &[Difference]); 9] {
        [
            ("findings", &self.findings),
            ("masses", &self.masses),
            ("modules", &self.modules),
            ("openings", &self.openings),
            ("inserts", &self.inserts),
            ("parts", &self.parts),
            ("renumbered", &self.renumbered),
            ("bought", &self.bought),
            ("values", &self.values),
        ]
    }

    /// Whether nothing differs.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.sections().iter().all(|(_, all)| all.is_empty())
    }
}

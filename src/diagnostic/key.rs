//! What tells a finding from the others of its layout, whatever its figures and words: by this it is the same finding in
//! another arrangement, in a trial, and after an edit.

use std::borrow::Cow;
use std::fmt;

/// Which finding it is. In one arrangement no two findings share one.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key {
    /// The check's name.
    pub check: Cow<'static, str>,
    /// What it is about.
    pub subject: Subject,
    /// What tells it from other findings of the check on the subject; often nothing.
    pub about: Vec<About>,
}

impl Key {
    /// Subject and what tells the finding apart: `wetroom / door-right`.
    #[must_use]
    pub fn thing(&self) -> String {
        let about = self.about.iter().map(|about| format!(" / {}", about.name()));
        std::iter::once(self.subject.to_string()).chain(about).collect()
    }
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} of {}", self.check, self.thing())
    }
}

/// What a finding is about.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Subject {
    /// A module, an opening, a zone, a route or a person, by name; or a word such as `box`.
    One(String),
    /// Two of them, in the order of the file.
    Two(String, String),
}

impl Subject {
    /// A pair.
    #[must_use]
    pub fn pair(first: &str, second: &str) -> Self {
        Self::Two(first.to_owned(), second.to_owned())
    }

    /// The one, or both.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        let (first, second) = match self {
            Self::One(one) => (one, None),
            Self::Two(first, second) => (first, Some(second.as_str())),
        };
        std::iter::once(first.as_str()).chain(second)
    }

    /// The words that may be names of things in the layout.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        self.names().flat_map(str::split_whitespace)
    }

    /// Whether a text means it; of a pair either may stand first.
    #[must_use]
    pub fn is(&self, text: &str) -> bool {
        match self {
            Self::One(one) => one == text,
            Self::Two(first, second) => {
                let pair = text.split_once(" and ");
                pair.is_some_and(|pair| pair == (first, second) || pair == (second, first))
            }
        }
    }
}

impl From<&str> for Subject {
    fn from(name: &str) -> Self {
        Self::One(name.to_owned())
    }
}

impl From<&String> for Subject {
    fn from(name: &String) -> Self {
        Self::One(name.clone())
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::One(one) => f.write_str(one),
            Self::Two(first, second) => write!(f, "{first} and {second}"),
        }
    }
}

/// One thing that tells findings on one subject apart.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum About {
    /// The question that is asked of the subject: a limit's name, or a word of the check's own.
    Asks(Cow<'static, str>),
    /// A part of the subject: a solid, a space, a move or a part, by name.
    Part(String),
    /// Something else in the layout, by name.
    Other(String),
}

impl About {
    /// Its kind, as programs read it.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Asks(_) => "question",
            Self::Part(_) => "part",
            Self::Other(_) => "other",
        }
    }

    /// The word or the name.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Asks(word) => word,
            Self::Part(name) | Self::Other(name) => name,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pair_is_meant_in_either_order() {
        let pair = Subject::pair("bed", "galley");
        assert!(pair.is("bed and galley") && pair.is("galley and bed") && !pair.is("bed") && !pair.is("bed and bed"));
        assert!(Subject::from("fresh water").is("fresh water") && !Subject::from("bed").is("galley"));
        assert_eq!(pair.to_string(), "bed and galley");
        assert_eq!(pair.words().collect::<Vec<_>>(), ["bed", "galley"]);
        assert_eq!(Subject::from("entry to bed").words().collect::<Vec<_>>(), ["entry", "to", "bed"]);
    }
}

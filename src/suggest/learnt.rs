//! What the search for one finding's change has learnt and the next one need not find out again.

use crate::base::lock::locked;
use crate::diagnostic::{Edit, Finding};
use std::sync::Mutex;

/// Checks of earlier searches that a search begins with.
const MOST_OBJECTORS: usize = 4;

/// What is learnt of one layout.
#[derive(Default)]
pub(super) struct Learnt {
    /// All findings of texts that were checked whole.
    checked: Mutex<Vec<(Vec<Edit>, Vec<Finding>)>>,
    /// Names of checks that found something worse with a change that cleared a finding, the last one last.
    objectors: Mutex<Vec<String>>,
}

impl Learnt {
    /// What is found in a text with these edits, if it was checked.
    pub fn checked(&self, edits: &[Edit]) -> Option<Vec<Finding>> {
        let known = locked(&self.checked);
        known.iter().find(|(other, _)| other == edits).map(|(_, findings)| findings.clone())
    }

    pub fn keep(&self, edits: &[Edit], findings: &[Finding]) {
        locked(&self.checked).push((edits.to_vec(), findings.to_vec()));
    }

    /// Keeps the name of a check that found something worse.
    pub fn object(&self, check: &str) {
        let mut known = locked(&self.objectors);
        known.retain(|other| other != check);
        known.push(check.to_owned());
    }

    /// Names of the checks that found something worse last, but for one.
    pub fn objectors(&self, but: &str) -> Vec<String> {
        let known = locked(&self.objectors);
        known.iter().rev().filter(|check| *check != but).take(MOST_OBJECTORS).cloned().collect()
    }
}

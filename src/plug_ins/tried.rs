//! What each part of a plug-in does on a layout and what it takes, for those who write one.

use super::plug_in::{Asked, PlugIn};
use crate::backends::Product;
use crate::figures::Figures;

/// One call of a plug-in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tried {
    /// What was asked for: `checks`, or an output or a sheet by its name.
    pub what: String,
    /// What came of it: files or sheets, or why there are none. Findings are told by those who run checks.
    pub made: Result<Vec<String>, String>,
    /// Length of the question, bytes.
    pub question: usize,
    /// Length of the answer, bytes.
    pub answer: usize,
    /// Units of fuel.
    pub fuel: u64,
    /// Memory in the end, bytes.
    pub memory: usize,
    /// What it logged.
    pub log: String,
}

impl PlugIn {
    /// Its checks, outputs and sheets, one line for each.
    #[must_use]
    pub fn parts(&self) -> Vec<String> {
        let check = self.checks.iter().map(|one| format!("check {}: {}", one.name, one.says));
        let output = self.backends.iter().map(|one| format!("output {}: {}", one.name, one.says));
        let sheet = self.sheets.iter().map(|one| format!("sheet {}: {}", one.name, one.says));
        check.chain(output).chain(sheet).collect()
    }

    /// Whether it has outputs or sheets.
    #[must_use]
    pub fn draws(&self) -> bool {
        !self.backends.is_empty() || !self.sheets.is_empty()
    }

    /// Makes all its checks.
    #[must_use]
    pub fn try_checks(&self, figures: &Figures<'_>) -> Option<Tried> {
        if self.checks.is_empty() {
            return None;
        }
        let made = self.found(figures).map(|findings| findings.iter().map(|one| one.key.to_string()).collect());
        Some(tried("checks", made, &self.asked_checks(figures)))
    }

    /// Makes all its outputs and sheets.
    #[must_use]
    pub fn try_outputs(&self, product: &Product<'_>) -> Vec<Tried> {
        let output = self.backends.iter().map(|own| {
            let asked = self.asked("backend", own, product);
            let files = self.files(&asked);
            let named = |file: &crate::backends::OutputFile| format!("{} ({} bytes)", file.name, file.bytes.len());
            tried(&format!("output {}", own.name), files.map(|files| files.iter().map(named).collect()), &asked)
        });
        let sheet = self.sheets.iter().map(|own| {
            let asked = self.asked("sheet", own, product);
            let sheets = self.given(own, &asked);
            let titles = sheets.map(|sheets| sheets.into_iter().map(|sheet| sheet.title).collect());
            tried(&format!("sheet {}", own.name), titles, &asked)
        });
        output.chain(sheet).collect()
    }
}

fn tried(what: &str, made: Result<Vec<String>, String>, asked: &Asked) -> Tried {
    let heard = &asked.heard;
    Tried {
        what: what.to_owned(),
        made,
        question: asked.question,
        answer: heard.answer.as_ref().map_or(0, Vec::len),
        fuel: heard.fuel,
        memory: heard.memory,
        log: heard.log.clone(),
    }
}

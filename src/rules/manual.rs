//! The manual page of a rule.

use super::rule::HouseRule;
use crate::language::SaysDoc;

/// Its page, with the headings that all checks have.
pub(super) fn page(rule: &HouseRule) -> String {
    let doc = &rule.doc;
    let because = doc.because.value.trim_end_matches('.');
    let says: String = doc.says.iter().map(said).collect();
    let limits = match doc.limits.as_slice() {
        [] => "None that a layout may change: the figures stand in the condition.".to_owned(),
        limits => {
            let named: Vec<String> = limits.iter().map(|(name, value)| format!("`{}`: {value}", name.value)).collect();
            format!("{}.", named.join(", "))
        }
    };
    let change = if doc.limits.is_empty() {
        "Change the rule where it is written, or accept a finding under `accepted`.".to_owned()
    } else {
        format!(
            "Set the limit under `limits: {{ {}: ... }}` with the reason, or accept a finding under `accepted`.",
            rule.name
        )
    };
    format!(
        "# Computes\nA house rule. It looks at each `{}` and needs:\n\n    {}\n\nWhat misses it is a {}: \"{says}\".\n\n# Why\n{}.\n\n\
         # Limit\n{limits}\n\n# Source\nHouse rule: {}. How sure it is, the house knows.\n\n# Change it\n{change}\n",
        doc.each_text,
        doc.needs_text,
        rule.severity.word(),
        because,
        because,
    )
}

fn said(piece: &SaysDoc) -> String {
    match piece {
        SaysDoc::Words(words) => words.clone(),
        SaysDoc::Value(_, written) => format!("{{{written}}}"),
    }
}

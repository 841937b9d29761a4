//! `boxwright explain`: the manual pages of the checks.

use super::Outcome;
use super::arguments::Explain;
use super::console::Console;
use crate::base::text;
use crate::checks::{Check, Limit, manual_page};
use crate::diagnostic::{Measure, Requirement};
use crate::registry::Registry;
use std::fmt::Write;
use std::io;

/// Lists the checks, or prints the page of one.
pub(super) fn run(explain: &Explain, registry: &Registry, console: &mut Console) -> io::Result<Outcome> {
    let Some(name) = &explain.name else {
        console.report(&list(registry))?;
        return Ok(Outcome::Clean);
    };
    let Some(check) = registry.check(name) else {
        console.complain(&unknown(name, registry));
        return Ok(Outcome::Broken);
    };
    console.report(&page(check))?;
    Ok(Outcome::Clean)
}

fn list(registry: &Registry) -> String {
    let width = registry.checks.iter().map(|check| check.name().len()).max().unwrap_or(0);
    registry.checks.iter().map(|check| format!("{:width$}  {}\n", check.name(), check.says())).collect()
}

fn unknown(name: &str, registry: &Registry) -> String {
    let names = || registry.checks.iter().map(|check| check.name());
    match text::nearest(name, names()) {
        Some(near) => format!("there is no check `{name}`; did you mean `{near}`?"),
        None => format!("there is no check `{name}`; the checks are {}", text::one_of(names())),
    }
}

fn page(check: &dyn Check) -> String {
    let mut page = format!("{}\n\n{}", check.name(), manual_page(check));
    if !check.limits().is_empty() {
        page.push_str("\nLimits that a layout may change:\n");
        for limit in check.limits() {
            let _ = writeln!(page, "  {}", line(check.name(), limit));
        }
    }
    page
}

fn line(check: &str, limit: &Limit) -> String {
    let measure = Measure { value: limit.default, quantity: limit.quantity };
    let origin = Requirement { measure, class: limit.class, source: limit.source.to_owned() }.origin();
    format!("{check}: {{ {}: {} }}    # {measure}; {origin}", limit.name, limit.default)
}

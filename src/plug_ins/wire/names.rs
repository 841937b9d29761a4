//! Words of the forms for units, bounds and sources, as in `findings.json`.

use crate::diagnostic::{Bound, Quantity, SourceClass};

/// The quantity of a unit.
///
/// # Errors
/// Which units there are.
pub fn unit(name: &str) -> Result<Quantity, String> {
    Quantity::ALL.into_iter().find(|one| one.unit() == name).ok_or_else(|| {
        let all: Vec<&str> = Quantity::ALL.into_iter().map(Quantity::unit).collect();
        format!("there is no unit `{name}`; units are {}", all.join(", "))
    })
}

/// A bound by its word.
///
/// # Errors
/// What is wrong with it.
pub fn bound(word: &str, value: f64, to: Option<f64>) -> Result<Bound, String> {
    if !value.is_finite() || to.is_some_and(|to| !to.is_finite()) {
        return Err("a limit is no number".to_owned());
    }
    match (word, to) {
        ("least", None) => Ok(Bound::Least(value)),
        ("most", None) => Ok(Bound::Most(value)),
        ("between", Some(to)) if to >= value => Ok(Bound::Between(value, to)),
        ("between", _) => Err("a bound `between` needs `to`, not less than `value`".to_owned()),
        ("least" | "most", Some(_)) => Err(format!("a bound `{word}` has no `to`")),
        _ => Err(format!("there is no bound `{word}`; bounds are least, most, between")),
    }
}

/// The class of a source by its word.
///
/// # Errors
/// Which classes there are.
pub fn class(word: &str) -> Result<SourceClass, String> {
    SourceClass::ALL.into_iter().find(|one| one.name() == word).ok_or_else(|| {
        let all: Vec<&str> = SourceClass::ALL.into_iter().map(SourceClass::name).collect();
        format!("there is no class of sources `{word}`; classes are {}", all.join(", "))
    })
}

//! What is changed from version to version, and by which values.

use crate::base::number::trimmed;
use crate::base::tolerance::SHARE_OF_RANGE;
use crate::language::LayoutDoc;
use std::collections::BTreeMap;

/// The most values of one axis.
const MOST_VALUES: usize = 1000;

/// A value of the layout with what it is set to, one after the other.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// As it was asked for: `galley.depth`.
    pub name: String,
    /// What it is set to.
    pub values: Vec<String>,
    /// Keys from the top of the layout.
    path: Vec<String>,
}

impl Axis {
    /// Reads `NAME=LOW..HIGH/STEP` or `NAME=VALUE,VALUE`. A name is a parameter; `MODULE.run`, `.depth` or `.height`;
    /// `MODULE.EDGE`; `MODULE.SETTING`; or keys of the layout from its top, such as `box.length`.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn read(asked: &str, doc: &LayoutDoc) -> Result<Self, String> {
        let (name, values) = asked
            .split_once('=')
            .ok_or_else(|| format!("`{asked}` sets nothing; write `NAME=520..620/20` or `NAME=520,560`"))?;
        Ok(Self { name: name.to_owned(), values: values_of(name, values)?, path: path_of(name, doc)? })
    }

    /// The value as a tree of one branch.
    pub(super) fn change(&self, value: &str) -> (Vec<String>, String) {
        (self.path.clone(), value.to_owned())
    }
}

fn values_of(name: &str, text: &str) -> Result<Vec<String>, String> {
    let Some((low, rest)) = text.split_once("..") else {
        let all: Vec<String> = text.split(',').map(|value| value.trim().to_owned()).collect();
        let fine = |value: &String| {
            !value.is_empty() && value.chars().all(|char| char.is_alphanumeric() || "-. +*/".contains(char))
        };
        return match all.iter().find(|value| !fine(value)) {
            Some(value) => Err(format!("`{value}` is no value for `{name}`; write numbers, words or names")),
            None => Ok(all),
        };
    };
    let wrong = || format!("`{text}` is no range for `{name}`; write `LOW..HIGH/STEP`, such as `520..620/20`");
    let (high, step) = rest.split_once('/').ok_or_else(wrong)?;
    let number = |text: &str| text.trim().parse::<f64>().ok().filter(|value| value.is_finite()).ok_or_else(wrong);
    let (low, high, step) = (number(low)?, number(high)?, number(step)?);
    if step <= 0.0 || high < low {
        return Err(wrong());
    }
    let count = ((high - low) / step * (1.0 + SHARE_OF_RANGE)).floor();
    if count >= MOST_VALUES as f64 {
        return Err(format!("`{name}` would have more than {MOST_VALUES} values; take a greater step"));
    }
    let value = |at: u32| trimmed(low + f64::from(at) * step, 3);
    Ok((0_u32..).take_while(|at| f64::from(*at) <= count).map(value).collect())
}

fn path_of(name: &str, doc: &LayoutDoc) -> Result<Vec<String>, String> {
    const EDGES: [&str; 8] = ["front", "rear", "left", "right", "floor", "top", "centre-x", "centre-y"];
    let steps: Vec<&str> = name.split('.').collect();
    let plain =
        |step: &&str| !step.is_empty() && step.chars().all(|char| char.is_alphanumeric() || char == '-' || char == '_');
    if !steps.iter().all(plain) {
        return Err(format!("`{name}` is no name of a value; write `aisle`, `galley.depth` or `box.length`"));
    }
    let path: Vec<&str> = match steps.as_slice() {
        [parameter] if doc.parameters.contains_key(*parameter) => vec!["parameters", parameter],
        [module, key] if doc.modules.contains_key(*module) => {
            let group = match *key {
                "run" | "depth" | "height" => Some("size"),
                edge if EDGES.contains(&edge) => Some("place"),
                "symbol" | "faces" | "mirror" | "zone" => None,
                _ => Some("set"),
            };
            ["modules", module].into_iter().chain(group).chain([*key]).collect()
        }
        [module, rest @ ..] if doc.modules.contains_key(*module) => {
            ["modules", module].into_iter().chain(rest.iter().copied()).collect()
        }
        [_, _, ..] => steps,
        _ => {
            let known = doc.parameters.keys().map(String::as_str).chain(["MODULE.depth", "box.length"]);
            return Err(format!("there is no parameter `{name}`; there are {}", crate::base::text::one_of(known)));
        }
    };
    Ok(path.into_iter().map(str::to_owned).collect())
}

/// A map of maps of values.
#[derive(Default)]
struct Tree {
    below: BTreeMap<String, Tree>,
    value: Option<String>,
}

/// Changes as the text of a layout, those of one entry together.
pub(super) fn merged(changes: Vec<(Vec<String>, String)>) -> String {
    let mut root = Tree::default();
    for (path, value) in changes {
        let leaf = path.into_iter().fold(&mut root, |tree, key| tree.below.entry(key).or_default());
        leaf.value = Some(value);
    }
    let mut text = String::new();
    write(&root, 0, &mut text);
    text
}

fn write(tree: &Tree, indent: usize, text: &mut String) {
    for (key, below) in &tree.below {
        let value = below.value.as_ref().map_or(String::new(), |value| format!(" {value}"));
        text.push_str(&format!("{}{key}:{value}\n", "  ".repeat(indent)));
        write(below, indent + 1, text);
    }
}

/// All versions of some axes, the last one changing first; or so many of them, drawn by a seed, each at most once.
///
/// # Errors
/// When there are more than `most`.
pub fn versions(axes: &[Axis], sample: Option<(usize, u64)>, most: usize) -> Result<Vec<Vec<String>>, String> {
    let count = axes.iter().try_fold(1_usize, |count, axis| count.checked_mul(axis.values.len()));
    let wanted = match (count, sample) {
        (Some(count), None) if count <= most => (0..count).collect(),
        (_, None) => {
            return Err(format!("there are more than {most} versions; take fewer values, or `--sample N` of them"));
        }
        (_, Some((many, _))) if many > most => return Err(format!("at most {most} versions are tried")),
        (Some(count), Some((many, seed))) => drawn(count, many, seed),
        (None, Some(_)) => return Err("there are more versions than can be counted; take fewer values".to_owned()),
    };
    let version = |mut number: usize| {
        let mut values: Vec<String> = Vec::new();
        for axis in axes.iter().rev() {
            values.extend(axis.values.get(number % axis.values.len()).cloned());
            number /= axis.values.len();
        }
        values.reverse();
        values
    };
    Ok(wanted.into_iter().map(version).collect())
}

/// Different numbers below `count`, in order: those whose hash with the seed is least (SplitMix64, Steele and others 2014).
fn drawn(count: usize, many: usize, seed: u64) -> Vec<usize> {
    let hash = |at: usize| {
        let mut z = seed.wrapping_add((at as u64 + 1).wrapping_mul(0x9e37_79b9_7f4a_7c15));
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    };
    // Of very many, a stretch of them is enough to draw from.
    let mut all: Vec<usize> = (0..count.min(1_000_000)).collect();
    if count > all.len() {
        let far = |at: &usize| (hash(*at) % count as u64) as usize;
        all = all.iter().map(far).collect();
        all.sort_unstable();
        all.dedup();
    }
    all.sort_by_key(|at| hash(*at));
    all.truncate(many);
    all.sort_unstable();
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_and_lists_are_read() {
        let values = |text| values_of("a", text).map(|all| all.join(" "));
        assert_eq!(values("520..620/20").as_deref(), Ok("520 540 560 580 600 620"));
        assert_eq!(values("0..0.3/0.1").as_deref(), Ok("0 0.1 0.2 0.3"));
        assert_eq!(values("520..545/20").as_deref(), Ok("520 540"));
        assert_eq!(values("5..5/1").as_deref(), Ok("5"));
        assert_eq!(values("single, none").as_deref(), Ok("single none"));
        for wrong in [
            "520..620",
            "620..520/20",
            "5..9/0",
            "5..9/-1",
            "a..b/1",
            "",
            "1,,2",
            "{a}",
            "0..1e9/1",
            "0..inf/1",
            "a: b",
        ] {
            assert!(values(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn samples_are_different_and_of_the_whole() {
        let axis = |many: usize| Axis {
            name: String::new(),
            values: (0..many).map(|at| at.to_string()).collect(),
            path: Vec::new(),
        };
        let all = versions(&[axis(3), axis(4)], None, 100).unwrap();
        assert_eq!((all.len(), all[1].join(" ").as_str(), all[11].join(" ").as_str()), (12, "0 1", "2 3"));
        let some = versions(&[axis(30), axis(40)], Some((50, 7)), 100).unwrap();
        let different: std::collections::BTreeSet<_> = some.iter().collect();
        assert_eq!((some.len(), different.len()), (50, 50));
        assert_ne!(some, versions(&[axis(30), axis(40)], Some((50, 8)), 100).unwrap());
        assert!(versions(&[axis(30), axis(40)], None, 100).is_err());
        assert_eq!(versions(&[axis(2)], Some((50, 7)), 100).unwrap().len(), 2);
        let many = versions(&[axis(1000), axis(1000), axis(1000)], Some((100, 1)), 100).unwrap();
        assert_eq!(many.len(), 100);
    }
}

//! `boxwright new`: starts a layout that compiles.

use super::arguments::New;
use super::console::Console;
use super::disk::create_text;
use super::outcome::Outcome;
use crate::source::refused_name;
use std::io;
use std::path::{Path, PathBuf};

/// What a new layout says; its title is put in place of the word below.
const START: &str = include_str!("new.yaml");
const TITLE: &str = "A first layout";

/// Writes the file, unless one is there.
pub(super) fn run(new: &New, console: &mut Console) -> io::Result<Outcome> {
    match start(&new.name) {
        Ok(path) => {
            console.say(&format!("{path}: started; next: boxwright build {path}"))?;
            Ok(Outcome::Clean)
        }
        Err(error) => {
            console.complain(&error);
            Ok(Outcome::Broken)
        }
    }
}

fn start(name: &str) -> Result<String, String> {
    let path = file_of(name)?;
    let shown = path.display().to_string();
    let title = path.file_stem().and_then(|stem| stem.to_str()).map(title).unwrap_or_default();
    create_text(&shown, &START.replacen(TITLE, &title, 1))?;
    Ok(shown)
}

/// The file of a name: `.yaml` is added where it lacks.
fn file_of(name: &str) -> Result<PathBuf, String> {
    let path = Path::new(name);
    let stem = path.file_stem().and_then(|stem| stem.to_str()).unwrap_or("");
    let fits = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    if stem.is_empty() || !stem.chars().all(fits) {
        return Err(format!("`{name}` is no name for a layout; use letters, digits and hyphens, such as `first-box`"));
    }
    if let Some(why) = refused_name(stem) {
        return Err(format!("`{name}` is no name for a layout: {why}"));
    }
    let named = path.extension().is_some_and(|ending| ending == "yaml" || ending == "yml");
    Ok(if named { path.to_owned() } else { path.with_file_name(format!("{stem}.yaml")) })
}

/// `first-box` becomes `First box`.
fn title(stem: &str) -> String {
    let words = stem.replace(['-', '_'], " ");
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_ascii_uppercase().to_string() + letters.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_become_files_and_titles() {
        assert_eq!(file_of("first-box"), Ok(PathBuf::from("first-box.yaml")));
        assert_eq!(file_of("a/first.yml"), Ok(PathBuf::from("a/first.yml")));
        for bad in ["", "..", "a b", "a:b", "x/", "first.txt/..", "nul", "a/COM1.yaml"] {
            assert!(file_of(bad).is_err() || bad == "x/", "{bad}");
        }
        assert_eq!(title("first-box"), "First box");
    }

    #[test]
    fn the_start_has_the_title_once() {
        assert_eq!(START.matches(TITLE).count(), 1);
    }
}

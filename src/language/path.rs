//! Paths that a layout names: relative to the file, with `/`, inside the layout's folder.

use crate::source::{SourceMap, Spanned};

/// The path of a file that a layout names, relative to the file in which it stands. It may not leave the layout's folder
/// unless `allow_outside`.
///
/// # Errors
/// The rest of a sentence: what is wrong with the path.
pub fn named_path(
    layout: &str,
    named: &Spanned<String>,
    sources: &SourceMap,
    allow_outside: bool,
) -> Result<String, String> {
    let from = sources.file(named.span.file).map_or(layout, |file| file.name.as_str());
    follow(folder_of(layout), folder_of(from), &named.value, allow_outside)
}

/// The folder of a file, empty for the present one.
pub(super) fn folder_of(path: &str) -> &str {
    path.rfind('/').map_or("", |at| if at == 0 { "/" } else { path.get(..at).unwrap_or("") })
}

/// Puts a folder before a path.
pub(super) fn join(folder: &str, path: &str) -> String {
    match folder {
        "" => path.to_owned(),
        "/" => format!("/{path}"),
        _ => format!("{folder}/{path}"),
    }
}

/// The path of `path` as written in a file of `folder`. It may not leave `root` unless `allow_outside`.
///
/// # Errors
/// The rest of a sentence: what is wrong with the path.
pub(super) fn follow(root: &str, folder: &str, path: &str, allow_outside: bool) -> Result<String, String> {
    if path.contains('\\') {
        return Err(format!("names `{path}`; write paths with `/`"));
    }
    let absolute = path.starts_with('/') || path.get(1..2) == Some(":");
    if absolute {
        return if allow_outside {
            Ok(tidy(path))
        } else {
            Err(format!("names `{path}`, which is not relative to the file"))
        };
    }
    let full = tidy(&join(folder, path));
    let inside = is_inside(&tidy(root), &full);
    if inside || allow_outside { Ok(full) } else { Err(format!("names `{path}`, which leaves the layout's folder")) }
}

/// Whether a tidy path lies in a tidy folder, step by step: `../..` is not in `..`.
fn is_inside(root: &str, path: &str) -> bool {
    let steps =
        |path: &str| -> Vec<String> { path.split('/').filter(|step| !step.is_empty()).map(str::to_owned).collect() };
    let (root_steps, path_steps) = (steps(root), steps(path));
    let rest = path_steps.strip_prefix(root_steps.as_slice());
    root.starts_with('/') == path.starts_with('/')
        && rest.is_some_and(|rest| rest.first().is_none_or(|step| step != ".."))
}

/// Removes `.` and `x/..`.
fn tidy(path: &str) -> String {
    let mut steps: Vec<&str> = Vec::new();
    for step in path.split('/') {
        match step {
            "" | "." => {}
            ".." if steps.last().is_some_and(|last| *last != "..") => {
                steps.pop();
            }
            ".." if path.starts_with('/') => {}
            _ => steps.push(step),
        }
    }
    let joined = steps.join("/");
    if path.starts_with('/') { format!("/{joined}") } else { joined }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folders() {
        for (path, folder) in [("a.yaml", ""), ("x/a.yaml", "x"), ("/a.yaml", "/"), ("../x/a.yaml", "../x")] {
            assert_eq!(folder_of(path), folder);
        }
    }

    #[test]
    fn paths_stay_inside() {
        assert_eq!(follow("l", "l", "b.yaml", false).unwrap(), "l/b.yaml");
        assert_eq!(follow("l", "l/sub", "../b.yaml", false).unwrap(), "l/b.yaml");
        assert_eq!(follow("", "", "x/./y/../b.yaml", false).unwrap(), "x/b.yaml");
        assert_eq!(follow("../l", "../l", "b.yaml", false).unwrap(), "../l/b.yaml");
        assert_eq!(follow("..", "..", "b.yaml", false).unwrap(), "../b.yaml");
        assert_eq!(follow("..", "../l", "../b.yaml", false).unwrap(), "../b.yaml");
        assert_eq!(follow("/", "/", "b.yaml", false).unwrap(), "/b.yaml");
        assert_eq!(follow("/l", "/l", "b.yaml", false).unwrap(), "/l/b.yaml");
        for (root, path) in [
            ("l", "../b.yaml"),
            ("l", "x/../../lx/b.yaml"),
            ("", "../b"),
            ("l", "/b"),
            ("l", "C:/b"),
            ("l", "a\\b"),
            ("", ".."),
            ("..", "../b.yaml"),
            ("..", ".."),
            ("../..", "x/../../b.yaml"),
            ("../l", "../lx/b.yaml"),
            ("/l", "../b.yaml"),
        ] {
            assert!(follow(root, root, path, false).is_err(), "{root} {path}");
        }
        assert_eq!(follow("l", "l", "../b.yaml", true).unwrap(), "b.yaml");
        assert_eq!(follow("l", "l", "/b.yaml", true).unwrap(), "/b.yaml");
    }
}

//! Names of layouts, and names that can't be those of files on every system.

/// Characters that some system does not allow in a name.
const REFUSED: [char; 9] = ['<', '>', ':', '"', '/', '\\', '|', '?', '*'];

/// Names that some systems keep for devices, whatever the case and the ending (Microsoft, "Naming files, paths, and
/// namespaces").
const DEVICES: [&str; 6] = ["CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$"];

/// Longest name, bytes: endings and the names beside a folder still fit into the 255 that most file systems allow.
const LONGEST: usize = 200;

/// Name of a layout: that of its file, without folder and ending.
#[must_use]
pub fn layout_name(path: &str) -> &str {
    let name = path.rsplit(if cfg!(windows) { &['/', '\\'][..] } else { &['/'][..] }).next().unwrap_or(path);
    name.strip_suffix(".yaml").or_else(|| name.strip_suffix(".yml")).unwrap_or(name)
}

/// Why a name can't be that of a file or folder on every system, as a sentence without its subject; `None` if it can.
#[must_use]
pub fn refused_name(name: &str) -> Option<String> {
    if name.is_empty() {
        return Some("nothing stands before the ending".to_owned());
    }
    if name.len() > LONGEST {
        return Some(format!("it is longer than {LONGEST} bytes"));
    }
    if name.starts_with('.') {
        return Some("it begins with a dot, which hides it".to_owned());
    }
    if let Some(character) = name.chars().find(|c| REFUSED.contains(c)) {
        return Some(format!("some systems don't allow `{character}` in names"));
    }
    if let Some(character) = name.chars().find(|c| !is_shown(*c)) {
        return Some(format!("the character U+{:04X} in it does not show", u32::from(character)));
    }
    if name.ends_with(['.', ' ']) || name.starts_with(' ') {
        return Some("some systems drop a dot or blank at its end, or a blank before it".to_owned());
    }
    is_device(name).then(|| "some systems keep this name for a device".to_owned())
}

fn is_device(name: &str) -> bool {
    let first = name.split('.').next().unwrap_or(name).trim_end().to_uppercase();
    let numbered = first.strip_prefix("COM").or_else(|| first.strip_prefix("LPT"));
    DEVICES.contains(&first.as_str())
        || numbered.is_some_and(|number| {
            let mut digits = number.chars();
            let digit = digits.next().is_some_and(|c| matches!(c, '0'..='9' | '¹' | '²' | '³'));
            digit && digits.next().is_none()
        })
}

/// Whether a character stands for itself on a terminal: neither a control character nor one that turns the direction
/// of the text around it or breaks its line.
#[must_use]
pub fn is_shown(character: char) -> bool {
    !character.is_control()
        && !matches!(character, '\u{200E}' | '\u{200F}' | '\u{061C}' | '\u{2028}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
}

/// A text with everything that does not show written as its number, such as `\u{1b}`.
#[must_use]
pub fn shown(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for character in text.chars() {
        if is_shown(character) { shown.push(character) } else { shown.extend(character.escape_unicode()) }
    }
    shown
}

/// A name as systems compare it that ignore case.
#[must_use]
pub fn folded(name: &str) -> String {
    name.to_uppercase().to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_layout_is_named_after_its_file() {
        for (path, name) in
            [("marram.yaml", "marram"), ("a/b.yml", "b"), ("/x.y/c", "c"), ("a/.yaml", ""), ("d.v2.yaml", "d.v2")]
        {
            assert_eq!(layout_name(path), name);
        }
    }

    /// The list of Microsoft, "Naming files, paths, and namespaces": characters, devices, ends.
    #[test]
    fn names_that_fit_nowhere_are_refused() {
        for bad in
            ["", ".", "..", ".a", "a.", "a ", " a", "a:b", "a*", "a\\b", "a/b", "a?", "a|b", "<a", "\"a", "a\u{7}"]
        {
            assert!(refused_name(bad).is_some(), "{bad:?}");
        }
        for bad in ["con", "NUL", "Aux", "prn", "com1", "LPT9", "lpt²", "con.v2", "nul .x", "COM0"] {
            assert!(refused_name(bad).is_some(), "{bad:?}");
        }
        for good in ["a", "first-box", "d.v2", "conn", "com", "com10", "lpt-1", "für uns", "a.con", &"x".repeat(200)] {
            assert_eq!(refused_name(good), None, "{good:?}");
        }
        assert!(refused_name(&"x".repeat(201)).is_some());
    }

    #[test]
    fn what_does_not_show_is_written_as_its_number() {
        assert_eq!(shown("a\u{1b}[31mb\u{202e}c\r\n"), "a\\u{1b}[31mb\\u{202e}c\\u{d}\\u{a}");
        assert_eq!(shown("für 40 × 20"), "für 40 × 20");
    }

    #[test]
    fn case_is_ignored() {
        assert_eq!(folded("Marram"), folded("mARRAM"));
        assert_eq!(folded("straße"), folded("STRASSE"));
    }
}

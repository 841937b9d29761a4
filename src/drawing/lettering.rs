//! Fitting texts into widths: by size, by cutting, by wrapping.

use super::font::text_width;

/// Letter heights of ISO 3098 that the sheets use, large to small, mm.
pub const HEIGHTS: [f64; 5] = [7.0, 5.0, 3.5, 2.5, 1.8];

/// The largest ISO 3098 height from `most` down at which the words fit `width`; at the least height they are cut with
/// an ellipsis. Heights and width in mm.
#[must_use]
pub fn fit(words: &str, most: f64, width: f64) -> (String, f64) {
    let fitting =
        HEIGHTS.into_iter().filter(|height| *height <= most).find(|height| text_width(words, *height) <= width);
    match fitting {
        Some(height) => (words.to_owned(), height),
        None => (cut(words, 1.8, width), 1.8),
    }
}

/// The words, cut with an ellipsis where they are wider than `width` at a letter height.
#[must_use]
pub fn cut(words: &str, height: f64, width: f64) -> String {
    if text_width(words, height) <= width {
        return words.to_owned();
    }
    let mut room = width - text_width("…", height);
    let kept: String = words
        .chars()
        .take_while(|char| {
            room -= text_width(char.encode_utf8(&mut [0; 4]), height);
            room >= 0.0
        })
        .collect();
    if kept.is_empty() && text_width("…", height) > width { String::new() } else { format!("{}…", kept.trim_end()) }
}

/// Breaks words into lines no wider than `width`; a word that is wider itself is broken where it has to be. At least
/// one line, empty for no words.
#[must_use]
pub fn wrap(words: &str, height: f64, width: f64) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in words.split_whitespace() {
        let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if text_width(&longer, height) <= width {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        line = break_word(word, height, width, &mut lines);
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// Pushes the full lines of one long word; what is left over goes on.
fn break_word(word: &str, height: f64, width: f64, lines: &mut Vec<String>) -> String {
    let mut line = String::new();
    let mut used = 0.0;
    for char in word.chars() {
        let wide = text_width(char.encode_utf8(&mut [0; 4]), height);
        if used + wide > width && !line.is_empty() {
            lines.push(std::mem::take(&mut line));
            used = 0.0;
        }
        used += wide;
        line.push(char);
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fit_shrinks_then_cuts() {
        assert_eq!(fit("HH", 3.5, 100.0), ("HH".into(), 3.5));
        assert_eq!(fit("HHHHHHHHHH", 3.5, 25.0).1, 2.5);
        let (words, height) = fit(&"Long owner name ".repeat(8), 3.5, 40.0);
        assert_eq!(height, 1.8);
        assert!(words.ends_with('…') && text_width(&words, height) <= 40.0, "{words}");
        assert_eq!(fit("HHH", 3.5, 0.1).0, "");
    }

    #[test]
    fn wrap_keeps_every_character_within_the_width() {
        let words = "A cupboard for the pantry and Donaudampfschifffahrtsgesellschaftskapitän beside it";
        let lines = wrap(words, 2.5, 30.0);
        assert!(lines.len() > 3);
        assert!(lines.iter().all(|line| text_width(line, 2.5) <= 30.0), "{lines:?}");
        let joined: String = lines.concat().split_whitespace().collect();
        assert_eq!(joined, words.split_whitespace().collect::<String>());
        assert_eq!(wrap("  ", 2.5, 30.0), vec![String::new()]);
    }
}

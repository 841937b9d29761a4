//! Where a value stands in a text that is known to be JSON.

use std::ops::Range;

/// One step into a value.
#[derive(Debug, Clone, Copy)]
pub(super) enum Step {
    Key(&'static str),
    At(usize),
}

/// The bytes of the value that the steps lead to; of the last one that is there, if they lead nowhere.
pub(super) fn place(text: &str, steps: &[Step]) -> Range<usize> {
    let mut walk = Walk { text: text.as_bytes(), at: 0 };
    let mut found = walk.clone().value();
    for step in steps {
        let inside = match step {
            Step::Key(key) => walk.enter_key(key),
            Step::At(index) => walk.enter_index(*index),
        };
        if !inside {
            break;
        }
        found = walk.clone().value();
    }
    found
}

#[derive(Clone)]
struct Walk<'a> {
    text: &'a [u8],
    at: usize,
}

impl Walk<'_> {
    fn byte(&self) -> Option<u8> {
        self.text.get(self.at).copied()
    }

    fn blanks(&mut self) {
        while self.byte().is_some_and(|byte| byte.is_ascii_whitespace()) {
            self.at += 1;
        }
    }

    /// Whether the byte comes next; it is passed then.
    fn passes(&mut self, byte: u8) -> bool {
        self.blanks();
        let is = self.byte() == Some(byte);
        self.at += usize::from(is);
        is
    }

    fn string(&mut self) {
        self.at += 1;
        while let Some(byte) = self.byte() {
            self.at += if byte == b'\\' { 2 } else { 1 };
            if byte == b'"' {
                break;
            }
        }
        self.at = self.at.min(self.text.len());
    }

    /// Passes a value and gives its bytes.
    fn value(&mut self) -> Range<usize> {
        self.blanks();
        let (start, mut depth) = (self.at, 0_usize);
        while let Some(byte) = self.byte() {
            match byte {
                b'"' => self.string(),
                b'{' | b'[' => {
                    depth += 1;
                    self.at += 1;
                }
                b'}' | b']' if depth > 0 => {
                    depth -= 1;
                    self.at += 1;
                }
                b'}' | b']' | b',' | b':' if depth == 0 => break,
                _ if depth == 0 && byte.is_ascii_whitespace() => break,
                _ => {
                    self.at += 1;
                    continue;
                }
            }
            if depth == 0 {
                break;
            }
        }
        start..self.at
    }

    /// From the start of an object to the value of a key.
    fn enter_key(&mut self, key: &str) -> bool {
        let begin = self.at;
        if self.passes(b'{') {
            loop {
                let name = self.value();
                if name.is_empty() || !self.passes(b':') {
                    break;
                }
                let text = self.text.get(name.start + 1..name.end.saturating_sub(1));
                if text == Some(key.as_bytes()) {
                    self.blanks();
                    return true;
                }
                self.value();
                if !self.passes(b',') {
                    break;
                }
            }
        }
        self.at = begin;
        false
    }

    /// From the start of a list to one of its values.
    fn enter_index(&mut self, index: usize) -> bool {
        let begin = self.at;
        if self.passes(b'[') {
            for _ in 0..index {
                self.value();
                if !self.passes(b',') {
                    self.at = begin;
                    return false;
                }
            }
            self.blanks();
            if self.byte().is_some_and(|byte| byte != b']') {
                return true;
            }
        }
        self.at = begin;
        false
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_are_found_where_they_stand() {
        let text = r#" {"a,\"}": "]", "b": [ {"c": -1.5e3 }, [[1], {}], true ] } "#;
        let at = |steps: &[Step]| &text[place(text, steps)];
        assert_eq!(at(&[Step::Key("b"), Step::At(0), Step::Key("c")]), "-1.5e3");
        assert_eq!(at(&[Step::Key("b"), Step::At(1)]), "[[1], {}]");
        assert_eq!(at(&[Step::Key("b"), Step::At(2)]), "true");
        assert_eq!(at(&[Step::Key("b"), Step::At(0), Step::Key("gone")]), r#"{"c": -1.5e3 }"#);
        assert_eq!(place("", &[Step::Key("b"), Step::At(0)]), 0..0);
    }
}

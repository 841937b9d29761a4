//! What readers have asked for, so that a test can hold it against the schemas.

use crate::source::Span;
use std::cell::RefCell;

/// A map with the keys, or a value with the words, that would have been taken there.
pub(in crate::language) type Heard = (Span, Vec<String>);

thread_local! {
    static KEYS: RefCell<Vec<Heard>> = const { RefCell::new(Vec::new()) };
    static WORDS: RefCell<Vec<Heard>> = const { RefCell::new(Vec::new()) };
}

fn owned(texts: &[&str]) -> Vec<String> {
    texts.iter().map(|text| (*text).to_owned()).collect()
}

pub(super) fn keys(of: Span, asked: &[&str]) {
    KEYS.with_borrow_mut(|all| all.push((of, owned(asked))));
}

pub(super) fn words(of: Span, allowed: &[&str]) {
    WORDS.with_borrow_mut(|all| all.push((of, owned(allowed))));
}

/// All keys and words since the last call on this thread.
pub(in crate::language) fn take() -> (Vec<Heard>, Vec<Heard>) {
    (KEYS.take(), WORDS.take())
}

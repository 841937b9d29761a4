//! Keys made of content: what is equal to the last bit has one key, whatever its place in memory.

use std::hash::Hasher as _;
use xxhash_rust::xxh3::Xxh3;

/// A key of 128 bits. Two contents that differ share one with a chance of 1 in 2^64 among 2^32 contents.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Key(u128);

impl Key {
    /// The key of one thing.
    #[must_use]
    pub fn of(content: &(impl Content + ?Sized)) -> Self {
        let mut digest = Digest::default();
        content.feed(&mut digest);
        digest.key()
    }

    /// The key of what `Debug` shows, which for derived ones is every field, figures to the last bit.
    #[must_use]
    pub fn shown(content: &dyn std::fmt::Debug) -> Self {
        let mut digest = Digest::default();
        // Taking in text cannot fail.
        let _always = std::fmt::Write::write_fmt(&mut digest, format_args!("{content:?}"));
        digest.key()
    }
}

/// Takes in contents, one after the other.
#[derive(Default)]
pub struct Digest(Xxh3);

impl Digest {
    /// Takes in a whole number.
    pub fn word(&mut self, word: u64) {
        self.0.write_u64(word);
    }

    /// Takes in bytes, with their number.
    pub fn bytes(&mut self, bytes: &[u8]) {
        self.word(bytes.len() as u64);
        self.0.update(bytes);
    }

    /// The key of all that was taken in.
    #[must_use]
    pub fn key(&self) -> Key {
        Key(self.0.digest128())
    }
}

impl std::fmt::Write for Digest {
    fn write_str(&mut self, text: &str) -> std::fmt::Result {
        self.0.update(text.as_bytes());
        Ok(())
    }
}

/// What has a key.
///
/// Implementations name every field, most simply by the macro `contents`, so that a new field is not forgotten.
pub trait Content {
    /// Puts all of it into a digest.
    fn feed(&self, digest: &mut Digest);
}

impl Content for f64 {
    fn feed(&self, digest: &mut Digest) {
        digest.word(self.to_bits());
    }
}

impl Content for bool {
    fn feed(&self, digest: &mut Digest) {
        digest.word(u64::from(*self));
    }
}

impl Content for str {
    fn feed(&self, digest: &mut Digest) {
        digest.bytes(self.as_bytes());
    }
}

impl Content for String {
    fn feed(&self, digest: &mut Digest) {
        self.as_str().feed(digest);
    }
}

impl Content for u32 {
    fn feed(&self, digest: &mut Digest) {
        digest.word(u64::from(*self));
    }
}

impl Content for usize {
    fn feed(&self, digest: &mut Digest) {
        digest.word(*self as u64);
    }
}

impl Content for Key {
    fn feed(&self, digest: &mut Digest) {
        digest.bytes(&self.0.to_le_bytes());
    }
}

impl<T: Content + ?Sized> Content for &T {
    fn feed(&self, digest: &mut Digest) {
        (**self).feed(digest);
    }
}

impl<T: Content> Content for Option<T> {
    fn feed(&self, digest: &mut Digest) {
        self.as_slice().feed(digest);
    }
}

impl<T: Content> Content for [T] {
    fn feed(&self, digest: &mut Digest) {
        digest.word(self.len() as u64);
        self.iter().for_each(|one| one.feed(digest));
    }
}

impl<T: Content> Content for Vec<T> {
    fn feed(&self, digest: &mut Digest) {
        self.as_slice().feed(digest);
    }
}

impl<T: Content, const N: usize> Content for [T; N] {
    fn feed(&self, digest: &mut Digest) {
        self.iter().for_each(|one| one.feed(digest));
    }
}

impl<A: Content, B: Content> Content for (A, B) {
    fn feed(&self, digest: &mut Digest) {
        self.0.feed(digest);
        self.1.feed(digest);
    }
}

impl<A: Content, B: Content, C: Content> Content for (A, B, C) {
    fn feed(&self, digest: &mut Digest) {
        self.0.feed(digest);
        self.1.feed(digest);
        self.2.feed(digest);
    }
}

impl Content for kurbo::Point {
    fn feed(&self, digest: &mut Digest) {
        (self.x, self.y).feed(digest);
    }
}

impl Content for kurbo::Rect {
    fn feed(&self, digest: &mut Digest) {
        [self.x0, self.y0, self.x1, self.y1].feed(digest);
    }
}

/// Implements [`Content`](crate::base::content::Content) for structs by naming all their fields: one that is left out does
/// not compile.
macro_rules! contents {
    ($($name:ident { $($field:ident),* $(,)? })*) => {
        $(impl $crate::base::content::Content for $name {
            fn feed(&self, digest: &mut $crate::base::content::Digest) {
                let Self { $($field),* } = self;
                $($crate::base::content::Content::feed($field, digest);)*
            }
        })*
    };
}
pub(crate) use contents;

#[cfg(test)]
mod tests {
    use super::*;

    fn key(content: &(impl Content + ?Sized)) -> Key {
        Key::of(content)
    }

    #[test]
    fn equal_contents_have_one_key_and_others_another() {
        assert_eq!(key("ab"), key(&"ab".to_owned()));
        assert_ne!(key(&["ab", "c"][..]), key(&["a", "bc"][..]), "where one ends counts");
        assert_ne!(key(&vec![vec![1.0], vec![]]), key(&vec![vec![], vec![1.0]]));
        assert_ne!(key(&Some(0.0)), key(&None::<f64>));
        assert_ne!(key(&0.0), key(&-0.0), "to the last bit");
    }
}

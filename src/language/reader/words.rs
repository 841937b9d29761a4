//! Words with one meaning each, and words that the author declares.

use super::Reader;
use super::own::{MOST_OWN, Own};
use crate::base::text::{nearest, one_of};
use crate::diagnostic::Diagnostic;
use crate::language::expression::is_name;
use crate::language::node::Node;
use crate::model::{Said, Word};
use crate::source::Spanned;

/// A text in the form of words: small letters, with hyphens for blanks and underscores.
fn plain(text: &str) -> String {
    let parts = text.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty());
    parts.collect::<Vec<_>>().join("-").to_lowercase()
}

/// The words that are likely meant by a text.
pub(super) fn meant<'a>(text: &str, words: &[&'a str]) -> Option<&'a str> {
    nearest(&plain(text), words.iter().copied()).or_else(|| nearest(text, words.iter().copied()))
}

impl Reader<'_> {
    /// A word of a list.
    pub(in crate::language) fn known<W: Word>(&mut self, node: &Node, key: &str) -> Option<Spanned<W>> {
        self.known_of(node, key, W::ALL)
    }

    /// A word of a part of a list.
    pub(in crate::language) fn known_of<W: Word>(&mut self, node: &Node, key: &str, of: &[W]) -> Option<Spanned<W>> {
        let names: Vec<&str> = of.iter().map(|word| word.name()).collect();
        let word = self.word(node, key, &names)?;
        W::of(&word.value).map(|known| Spanned::new(known, word.span))
    }

    /// Adds the words that a file declares.
    pub(in crate::language) fn declare<W: Word>(&mut self, node: &Node, own: &mut Own<W>) {
        let before = self.failures();
        let names = self.about(own.key, |reader| reader.names(node)).unwrap_or_default();
        for name in names.iter().filter(|name| W::of(&name.value).is_some()) {
            let error = Diagnostic::new(name.span, format!("`{}` is a known {} already", name.value, own.one));
            self.error(error.help(format!("leave it out: `{}` declares words of your own", own.key)));
        }
        if let Some(name) = names.get(MOST_OWN) {
            let message = format!("`{}` declares {} words; at most {MOST_OWN} are allowed", own.key, names.len());
            self.error(Diagnostic::new(name.span, message).label("one too many"));
        }
        own.broken = self.failures() > before;
        own.names = names.into_iter().take(MOST_OWN).map(|name| name.value.into()).collect();
    }

    /// A word of a list, or a declared one.
    pub(in crate::language) fn said<W: Word>(
        &mut self,
        written: &Spanned<String>,
        own: &Own<W>,
    ) -> Option<Spanned<Said<W>>> {
        #[cfg(test)]
        super::heard::words(written.span, &W::names());
        let text = &written.value;
        let declared = || own.names.iter().find(|name| ***name == **text).cloned().map(Said::Own);
        if let Some(said) = W::of(text).map(Said::Known).or_else(declared) {
            return Some(Spanned::new(said, written.span));
        }
        if own.broken {
            return Some(Spanned::new(Said::Own(text.as_str().into()), written.span));
        }
        let Own { key, one, file, .. } = own;
        let known = W::names();
        let words: Vec<&str> = known.iter().copied().chain(own.names.iter().map(|name| &**name)).collect();
        let name = plain(text);
        let declaring = if is_name(&name) { format!("`{key}: [{name}]`") } else { format!("`{key}`") };
        let declaring = format!("{one} of your own is declared first, with {declaring} at the top of {file}");
        let help = match meant(text, &words) {
            Some(word) if word == name => format!("write `{word}`: small letters, with hyphens for blanks"),
            Some(word) => format!("did you mean `{word}`? a {declaring}"),
            None => format!("write {}; a {declaring}", one_of(words)),
        };
        let error = Diagnostic::new(written.span, format!("unknown {one} `{text}`"));
        self.error(error.label("not known here").help(help));
        None
    }
}

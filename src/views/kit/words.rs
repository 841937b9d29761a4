//! Words and names as sheets have them.

/// A sentence as print has it: without the marks around names, with a capital.
pub(in crate::views) fn sentence(words: &str) -> String {
    let plain = words.replace('`', "");
    let mut chars = plain.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// A name as a customer reads it: `galley-locker` is `Galley locker`.
pub(in crate::views) fn words_of(name: &str) -> String {
    sentence(&name.replace('-', " "))
}

/// Letters, digits and single hyphens of a name.
pub(in crate::views) fn plain(name: &str) -> String {
    let kept = name.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' });
    let words: String = kept.collect();
    let plain = words.split('-').filter(|word| !word.is_empty()).collect::<Vec<_>>().join("-");
    if plain.is_empty() { "item".to_owned() } else { plain }
}

//! Small text helpers: "did you mean" and lists in a sentence.

/// The candidate nearest to `word`, if one is near enough to be a likely slip.
#[must_use]
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let length = word.chars().count();
    candidates
        .into_iter()
        .filter_map(|candidate| {
            let letters = candidate.chars().count();
            let most = 1.max(letters / 3);
            // The distance is never less than this, and long words take long.
            let near = |distance: usize| (distance <= most && distance < letters).then_some(distance);
            near(letters.abs_diff(length))?;
            Some((near(strsim::damerau_levenshtein(word, candidate))?, candidate))
        })
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

/// Joins words as in a sentence: "`a`, `b` or `c`".
#[must_use]
pub fn one_of<'a>(words: impl IntoIterator<Item = &'a str>) -> String {
    let quoted: Vec<String> = words.into_iter().map(|word| format!("`{word}`")).collect();
    match quoted.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
    }
}

//! Suggestions for a misspelt or shortened name, over names and their synonyms. In: a word and candidates. Out: the nearest, or none.

use strsim::osa_distance;

/// The candidate nearest to `word`, if near enough to be worth saying: one slip up to five letters, two beyond seven.
/// Silent below three letters: nearly anything is near a short word.
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let length = word.chars().count();
    if length < 3 {
        return None;
    }
    let allowed = match length {
        3..=5 => 1,
        6..=7 => 2,
        _ => 3,
    };
    let candidates: Vec<&str> = candidates.into_iter().collect();
    let near = candidates
        .iter()
        .copied()
        .filter(|c| c.chars().count().abs_diff(length) <= allowed)
        .map(|c| (osa_distance(&word.to_lowercase(), &c.to_lowercase()), c))
        .filter(|(d, _)| *d <= allowed)
        .min()
        .map(|(_, c)| c);
    near.or_else(|| only_beginning_with(word, &candidates))
}

/// The one candidate that begins with these words: "unplug" for "unplug-first".
fn only_beginning_with<'c>(words: &str, candidates: &[&'c str]) -> Option<&'c str> {
    let goes_on = |c: &&&str| c.strip_prefix(words).is_some_and(|rest| rest.starts_with([' ', '-']));
    let mut found = candidates.iter().filter(goes_on);
    match (found.next(), found.next()) {
        (Some(one), None) => Some(one),
        _ => None,
    }
}

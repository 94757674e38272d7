//! Plurals of names, by the rule of English spelling and a list of exceptions. In: a name. Out: its plural forms.
//! Knows no table but the list it is given.

use super::stock::Plural;

/// The plural forms of a name, made from its last word: "neon tetra" gives "neon tetras".
///
/// None where the last word already ends in a single `s`. Names of fish that end in "fish" keep the singular as well.
pub fn plurals(name: &str, exceptions: &[Plural]) -> Vec<String> {
    let start = name.rfind(' ').map_or(0, |n| n + 1);
    let (before, last) = name.split_at(start);
    if let Some(exception) = exceptions.iter().find(|e| e.word == last) {
        return exception.plural.iter().map(|p| format!("{before}{p}")).collect();
    }
    if !last.ends_with(|c: char| c.is_ascii_lowercase()) {
        return vec![];
    }
    let vowel_before_y = |w: &str| w.chars().rev().nth(1).is_some_and(|c| "aeiou".contains(c));
    let plural = if ["x", "sh", "ch", "ss", "z"].iter().any(|end| last.ends_with(end)) {
        format!("{last}es")
    } else if last.ends_with('s') {
        return vec![];
    } else if last.ends_with('y') && !vowel_before_y(last) {
        format!("{}ies", &last[..last.len() - 1])
    } else {
        format!("{last}s")
    };
    vec![format!("{before}{plural}")]
}

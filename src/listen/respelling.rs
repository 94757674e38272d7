//! What a slip of spelling may be corrected to: our single words by first letter, phrases written as one word, parts of
//! phrases. In: the lexicon's phrases. Out: look-ups. Made once, when the first unknown word is met. Corrects nothing.

use super::lexicon::{Entry, Sense};
use super::name::{self, Quick};
use crate::knowledge::language::Role;
use std::collections::{HashMap, HashSet};
use strsim::osa_distance;

/// A word that a misspelt one may stand for.
#[derive(Debug)]
pub struct Target {
    pub text: Box<str>,
    pub letters: u32,
}

#[derive(Debug, Default)]
pub struct Respellings {
    /// Phrases of several words written as one: "hangonback".
    joined: HashMap<Box<str>, Box<str>, Quick>,
    /// Words that stand inside a phrase of ours: "balls" of "bio balls".
    parts: HashSet<Box<str>, Quick>,
    targets: Vec<Vec<Target>>,
    /// Words that deny, long enough to be told from others when misspelt: nothing is corrected to one.
    denials: Vec<Target>,
}

impl Respellings {
    pub fn of(entries: &HashMap<Box<str>, Entry, Quick>) -> Self {
        let mut table = Self { targets: (0..26).map(|_| Vec::new()).collect(), ..Self::default() };
        let mut joined: Vec<&str> = Vec::new();
        // First words of phrases that name something: what is only listened for may begin with any word.
        let begins: HashSet<&str, Quick> = entries
            .iter()
            .filter(|(_, entry)| entry.senses.iter().any(names))
            .filter_map(|(key, _)| key.split_once(' ').map(|(first, _)| first))
            .collect();
        for (key, entry) in entries {
            if key.len() >= 4 && !key.contains(' ') && denies(entry) {
                table.denials.push(Target { text: key.clone(), letters: letters_of(key) });
            }
            if key.contains(' ') {
                table.parts.extend(key.split(' ').map(Box::from));
                if entry.senses.iter().any(|s| matches!(s, Sense::Named { .. })) {
                    joined.push(key);
                }
            } else if key.len() >= 4 && is_target(entry, begins.contains(key.as_ref())) {
                let first = key.as_bytes()[0];
                if first.is_ascii_lowercase() {
                    let target = Target { text: key.clone(), letters: letters_of(key) };
                    table.targets[(first - b'a') as usize].push(target);
                }
            }
        }
        // The map has no order of its own.
        joined.sort_unstable();
        for key in joined {
            table.joined.insert(key.replace(' ', "").into_boxed_str(), key.into());
        }
        table.denials.sort_by(|a, b| a.text.cmp(&b.text));
        table.targets.iter_mut().for_each(|t| t.sort_by(|a, b| a.text.cmp(&b.text)));
        table
    }

    /// Single words of ours that begin with a letter.
    pub fn targets(&self, first: u8) -> &[Target] {
        let at = first.checked_sub(b'a').map(usize::from);
        at.and_then(|n| self.targets.get(n)).map_or(&[], Vec::as_slice)
    }

    pub fn unjoined(&self, word: &str) -> Option<&str> {
        self.joined.get(word).map(|k| k.as_ref())
    }

    /// The denial that a word is one slip away from.
    pub fn near_denial(&self, word: &str) -> Option<&str> {
        let ours = word.len() >= 5 && word.bytes().all(|b| b.is_ascii_lowercase());
        let letters = letters_of(word);
        let near = |d: &&Target| {
            d.text.len().abs_diff(word.len()) <= 1
                && (d.letters ^ letters).count_ones() <= 2
                && osa_distance(word, &d.text) == 1
        };
        self.denials.iter().filter(|_| ours).find(near).map(|d| d.text.as_ref())
    }

    pub fn is_part(&self, word: &str) -> bool {
        self.parts.contains(word)
    }
}

/// "doesnt", "without": not "minus" or "lacking", which ordinary words are near to.
fn denies(entry: &Entry) -> bool {
    let has = |role| entry.senses.contains(&Sense::Role(role));
    has(Role::Not) || has(Role::Without) && entry.senses.len() == 1
}

/// Never a negation, a number, a unit, a medicine or something that happened.
fn is_target(entry: &Entry, begins_name: bool) -> bool {
    let ours = entry.senses.iter().any(names);
    let other = entry.senses.iter().any(|s| {
        matches!(
            s,
            Sense::Role(Role::No | Role::Not | Role::Without)
                | Sense::Number(_)
                | Sense::Unit(_)
                | Sense::Multiplier(_)
        )
    });
    ours && !other || begins_name && entry.senses.is_empty()
}

fn names(sense: &Sense) -> bool {
    match sense {
        Sense::Thing(thing) | Sense::Named { thing, .. } => *thing != name::TREATMENT,
        Sense::Label { thing, .. } | Sense::State { thing, .. } => *thing != name::EVENT,
        _ => false,
    }
}

/// A set of the letters of a word, for telling quickly that two words are far apart.
pub fn letters_of(word: &str) -> u32 {
    word.bytes().filter(u8::is_ascii_lowercase).fold(0, |set, b| set | 1 << (b - b'a'))
}

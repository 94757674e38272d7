//! Terms: words grouped into the longest phrases that the lexicon knows, with what each can mean. In: words, lexicon.
//! Out: terms in order, and the cues heard. Knows no grammar.

use super::lexicon::{Lexicon, Sense};
use super::name::Name;
use super::number::Numeral;
use super::spelling;
use super::words::{Sort, Word, folded, is_plural};
use crate::knowledge::language::{Bound, LevelWord, Role};
use crate::units::Unit;

/// A word, number, mark or phrase.
#[derive(Clone, Debug)]
pub struct Term<'l> {
    /// Indices of the first and the last word.
    pub first: usize,
    pub last: usize,
    pub senses: &'l [Sense],
    pub sort: Sort,
    /// How many letters its first word has.
    pub letters: usize,
    /// Its last word is a plural by form.
    pub plural: bool,
    /// Read through a correction of its spelling.
    pub corrected: bool,
    /// "fishless": the thing is said to be lacking.
    pub lacking: bool,
    /// Two words of ours are equally near to it.
    pub unsure: bool,
    pub tight: bool,
    pub hyphen: bool,
}

impl<'l> Term<'l> {
    pub fn is(&self, role: Role) -> bool {
        self.senses.iter().any(|s| matches!(s, Sense::Role(r) if *r == role))
    }

    pub fn is_mark(&self, mark: char) -> bool {
        self.sort == Sort::Mark(mark)
    }

    pub fn mark(&self) -> Option<char> {
        match self.sort {
            Sort::Mark(mark) => Some(mark),
            _ => None,
        }
    }

    pub fn numeral(&self) -> Option<Numeral> {
        match self.sort {
            Sort::Number(numeral) => Some(numeral),
            _ => None,
        }
    }

    pub fn units(&self) -> impl Iterator<Item = &'static Unit> + 'l {
        self.senses.iter().filter_map(|s| match s {
            Sense::Unit(unit) => Some(*unit),
            _ => None,
        })
    }

    /// "up to": the end of a way, as well as a bound.
    pub fn is_up_to(&self) -> bool {
        self.senses.iter().any(|s| matches!(s, Sense::Bound { bound: Bound::AtMost, after: false }))
    }

    pub fn level(&self) -> Option<LevelWord> {
        self.senses.iter().find_map(|s| match s {
            Sense::Level(level) => Some(*level),
            _ => None,
        })
    }

    pub fn labels(&self) -> impl Iterator<Item = (Name, Name)> + 'l {
        self.senses.iter().filter_map(|s| match s {
            Sense::Label { thing, attribute } => Some((*thing, *attribute)),
            _ => None,
        })
    }

    pub fn names_thing(&self, of: Name) -> bool {
        self.senses.iter().any(|s| matches!(s, Sense::Thing(thing) if *thing == of))
    }

    /// Says something of a thing of ours, not only of grammar.
    pub fn has_content(&self) -> bool {
        self.senses
            .iter()
            .any(|s| matches!(s, Sense::Thing(_) | Sense::Label { .. } | Sense::State { .. } | Sense::Named { .. }))
    }

    /// Names an entry of a table.
    pub fn has_content_named(&self) -> bool {
        self.senses.iter().any(|s| matches!(s, Sense::Named { .. } | Sense::Thing(_)))
    }

    /// A word that carries nothing by itself.
    pub fn is_noise(&self) -> bool {
        self.senses.iter().any(|s| {
            matches!(s, Sense::Role(role) if !steers(*role))
                || matches!(
                    s,
                    Sense::Ask(_) | Sense::Act(_) | Sense::Hedge { .. } | Sense::Bound { .. } | Sense::Level(_)
                )
        })
    }
}

/// The role tells how other words are to be read and makes no small word of its own: "heater", "lost", "dripped".
pub fn steers(role: Role) -> bool {
    matches!(
        role,
        Role::Nobody
            | Role::NoMore
            | Role::Noticed
            | Role::Part
            | Role::Fitting
            | Role::Water
            | Role::Lose
            | Role::Course
            | Role::Treat
            | Role::Runs
            | Role::Said
    )
}

/// A cue heard: which, and the words it covers.
#[derive(Clone, Copy, Debug)]
pub struct Heard {
    pub cue: u16,
    pub first: usize,
    pub last: usize,
    /// Through a correction of the spelling.
    pub corrected: bool,
}

/// Of the cues of a whole text, which stand in the order they begin, those that begin in words `first..=last`: whoever looks at
/// one clause must not go through a page.
pub fn within(heard: &[Heard], first: usize, last: usize) -> &[Heard] {
    let from = heard.partition_point(|h| h.first < first);
    let to = from + heard[from..].partition_point(|h| h.first <= last);
    &heard[from..to]
}

/// Groups words into terms and notes every cue.
pub fn group<'l>(words: &[Word], lexicon: &'l Lexicon) -> (Vec<Term<'l>>, Vec<Heard>) {
    let mut keys: Vec<String> =
        words.iter().map(|w| if w.sort == Sort::Word { folded(&w.text) } else { String::new() }).collect();
    let mends = spelling::mend(words, &mut keys, lexicon);
    let mut terms: Vec<Term<'l>> = Vec::with_capacity(words.len());
    let mut heard = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let word = &words[at];
        let mut count = 1;
        let mut senses: &'l [Sense] = &[];
        if word.sort == Sort::Word {
            if let Some((longest, found)) = longest_phrase(at, words, &keys, &mends, lexicon, &mut heard) {
                (count, senses) = (longest, found);
                // Cues may begin inside a phrase, too.
                for inner in at + 1..at + count {
                    longest_phrase(inner, words, &keys, &mends, lexicon, &mut heard);
                }
            }
            count = count.max(mends[at].words());
        }
        terms.push(Term {
            first: at,
            last: at + count - 1,
            senses,
            sort: word.sort,
            letters: word.text.len(),
            plural: is_plural(&words[at + count - 1].text),
            corrected: !senses.is_empty()
                && ((at..at + count).any(|w| mends[w].is_correction()) || spelling::is_odd_plural(&word.text, senses)),
            lacking: mends[at] == spelling::Mend::Lacking,
            unsure: mends[at] == spelling::Mend::Unsure,
            tight: word.tight,
            hyphen: word.hyphen,
        });
        at += count;
    }
    (terms, heard)
}

/// The longest phrase with a meaning that begins at one word; the cues that begin there are noted.
fn longest_phrase<'l>(
    at: usize,
    words: &[Word],
    keys: &[String],
    mends: &[spelling::Mend],
    lexicon: &'l Lexicon,
    heard: &mut Vec<Heard>,
) -> Option<(usize, &'l [Sense])> {
    let mut best = None;
    let mut phrase = String::new();
    let longest = lexicon.entry(&keys[at]).map_or(0, |e| e.longest.max(1) as usize);
    for count in 1..=longest {
        if words.get(at + count - 1).is_none_or(|w| w.sort != Sort::Word) {
            break;
        }
        let key = &keys[at + count - 1];
        if key.is_empty() {
            break;
        }
        if count > 1 {
            phrase.push(' ');
        }
        phrase.push_str(key);
        if let Some(entry) = lexicon.entry(&phrase) {
            let last = at + count - 1;
            let corrected = mends[at..=last].iter().any(|m| m.is_correction());
            heard.extend(entry.cues.iter().map(|cue| Heard { cue: *cue, first: at, last, corrected }));
            if !entry.senses.is_empty() {
                best = Some((count, entry.senses.as_slice()));
            }
        }
    }
    best
}

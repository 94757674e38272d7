//! Slips of spelling: joined words, split words, one or two letters off. In: words that the lexicon does not know.
//! Out: what they stand for, or nothing. Never turns a word into a negation, a number, a unit or a medicine.

use super::lexicon::{Lexicon, Sense};
use super::respelling::letters_of;
use super::words::{Sort, Word, is_plural};
use strsim::osa_distance;

/// One slip from five letters, two from eight: shorter words are near to everything.
fn allowed(length: usize) -> usize {
    match length {
        0..=4 => 0,
        5..=7 => 1,
        _ => 2,
    }
}

/// "guppys", "mollys": a plural as nobody prints it, of a name of ours.
pub fn is_odd_plural(word: &str, senses: &[Sense]) -> bool {
    let named = || senses.iter().any(|s| matches!(s, Sense::Named { .. } | Sense::State { .. }));
    word.strip_suffix("ys").is_some_and(|stem| !stem.ends_with(['a', 'e', 'i', 'o', 'u']) && stem.len() > 1) && named()
}

/// What became of the spelling of one word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mend {
    /// As written.
    None,
    /// Another spelling was taken for it.
    One,
    /// It and the word behind it are one word of ours.
    Two,
    /// "fishless": a name of ours and that it is lacking.
    Lacking,
    /// Two words of ours are equally near: neither is taken.
    Unsure,
}

impl Mend {
    pub fn is_correction(self) -> bool {
        matches!(self, Mend::One | Mend::Two)
    }

    pub fn words(self) -> usize {
        if self == Mend::Two { 2 } else { 1 }
    }
}

/// Puts the spelling of ours in the place of each word that the lexicon does not know; one mark a word.
pub fn mend(words: &[Word], keys: &mut [String], lexicon: &Lexicon) -> Vec<Mend> {
    let mut mends = vec![Mend::None; words.len()];
    misheard(words, keys, &mut mends, lexicon);
    for at in 0..words.len() {
        if words[at].sort != Sort::Word || keys[at].is_empty() {
            continue;
        }
        // A cue alone ("fishless cycle") gives the word no meaning of its own.
        let known = lexicon.entry(&keys[at]);
        let cue = known.is_some_and(|e| e.senses.is_empty()) && keys[at].ends_with("less");
        if known.is_some() && !cue {
            continue;
        }
        if let Some(stem) = keys[at].strip_suffix("less").filter(|s| lexicon.names_something(s)) {
            keys[at] = stem.to_string();
            mends[at] = Mend::Lacking;
            continue;
        }
        if let Some(phrase) = lexicon.unjoined(&keys[at]) {
            keys[at] = phrase.to_string();
            mends[at] = Mend::One;
            continue;
        }
        if let Some(joined) = joined_with_next(at, words, keys, lexicon) {
            keys[at] = joined;
            keys[at + 1].clear();
            mends[at] = Mend::Two;
            continue;
        }
        // "can ister": the first half is a word by itself.
        if at > 0 && words[at - 1].sort == Sort::Word && mends[at - 1] == Mend::None && !keys[at - 1].is_empty() {
            let joined = format!("{}{}", keys[at - 1], keys[at]);
            if joined.len() >= 6 && lexicon.names_something(&joined) {
                keys[at - 1] = joined;
                keys[at].clear();
                mends[at - 1] = Mend::Two;
                continue;
            }
        }
        // "balls" of "bio balls" is spelt as it should be.
        if lexicon.is_part(&keys[at]) {
            continue;
        }
        // So is "starting"; but who counts "2 angles" has fish.
        let ordinary = lexicon.is_ordinary(&words[at].text);
        let counted = is_plural(&words[at].text) && at > 0 && is_count(&words[at - 1], &keys[at - 1], lexicon);
        if ordinary && !counted {
            continue;
        }
        match nearest(&keys[at], words[at].text.len(), lexicon) {
            Near::One(target) if ordinary && !lexicon.names_fish(target) => {}
            Near::One(target) => {
                keys[at] = target.to_string();
                mends[at] = Mend::One;
            }
            Near::Several => mends[at] = Mend::Unsure,
            Near::None => {}
        }
    }
    mends
}

/// Puts what was meant in the place of words misheard: "neon tetris", "gal on".
fn misheard(words: &[Word], keys: &mut [String], mends: &mut [Mend], lexicon: &Lexicon) {
    for at in 0..words.len() {
        let mut phrase = String::new();
        for count in 1..=3 {
            if words.get(at + count - 1).is_none_or(|w| w.sort != Sort::Word) || keys[at + count - 1].is_empty() {
                break;
            }
            if count > 1 {
                phrase.push(' ');
            }
            phrase.push_str(&keys[at + count - 1]);
            let Some(meant) = lexicon.slip(&phrase) else { continue };
            let parts: Vec<&str> = meant.split(' ').collect();
            // As many words as before, or one in the place of two.
            if parts.len() == count {
                for (n, part) in parts.iter().enumerate() {
                    keys[at + n] = (*part).to_string();
                    mends[at + n] = Mend::One;
                }
            } else if count == 2 {
                keys[at] = meant.to_string();
                keys[at + 1].clear();
                mends[at] = Mend::Two;
            }
            break;
        }
    }
}

/// A number, in digits or as a word.
fn is_count(word: &Word, key: &str, lexicon: &Lexicon) -> bool {
    let number = |s: &Sense| matches!(s, Sense::Number(_) | Sense::Vague(_) | Sense::Group(_));
    matches!(word.sort, Sort::Number(_)) || lexicon.entry(key).is_some_and(|e| e.senses.iter().any(number))
}

/// Every word of ours equally near to a misspelt one.
pub fn candidates<'l>(word: &str, lexicon: &'l Lexicon) -> Vec<&'l str> {
    near(word, word.len(), lexicon).1
}

/// "can ister": the word and the next are one word of ours.
fn joined_with_next(at: usize, words: &[Word], keys: &[String], lexicon: &Lexicon) -> Option<String> {
    words.get(at + 1).filter(|w| w.sort == Sort::Word)?;
    let joined = format!("{}{}", keys[at], keys[at + 1]);
    (joined.len() >= 6 && lexicon.entry(&joined).is_some_and(|e| !e.senses.is_empty())).then_some(joined)
}

/// What lies near a misspelt word.
enum Near<'l> {
    None,
    One(&'l str),
    /// Several, equally near: never chosen between.
    Several,
}

/// The word of ours nearest to `word`, of those that begin with the same letter.
fn nearest<'l>(word: &str, typed: usize, lexicon: &'l Lexicon) -> Near<'l> {
    let (_, found) = near(word, typed, lexicon);
    match found[..] {
        [] => Near::None,
        [one] => Near::One(one),
        _ => Near::Several,
    }
}

/// `typed`: how many letters were typed, a plural's with them.
fn near<'l>(word: &str, typed: usize, lexicon: &'l Lexicon) -> (usize, Vec<&'l str>) {
    let allowed = allowed(typed);
    let mut found: Vec<&'l str> = Vec::new();
    let mut best = allowed + 1;
    let Some(first) = word.bytes().next().filter(u8::is_ascii_lowercase) else { return (best, found) };
    if allowed == 0 || !word.bytes().all(|b| b.is_ascii_lowercase()) {
        return (best, found);
    }
    let letters = letters_of(word);
    for target in lexicon.targets(first) {
        let far = target.text.len().abs_diff(word.len()) > best
            || (target.letters ^ letters).count_ones() as usize > 2 * allowed;
        if far || target.text.len() < 4 {
            continue;
        }
        let distance = osa_distance(word, &target.text);
        if distance < best {
            best = distance;
            found.clear();
        }
        if distance == best && distance <= allowed {
            found.push(&target.text);
        }
    }
    (best, found)
}

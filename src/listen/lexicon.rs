//! The lexicon: every word and phrase of the knowledge files with what it can mean. In: vocabulary, language, names of
//! the tables. Out: senses by phrase. Repeats nothing of the files; a new name there is understood here.

use super::name::{self, Name, Names, Quick};
use super::ordinary::{Ordinary, plain_forms};
use super::reading::{Act, Form};
use super::respelling::{Respellings, Target};
use super::words::folded;
use crate::knowledge::language::{Bound, Language, LevelWord, Role};
use crate::knowledge::vocabulary::Vocabulary;
use crate::units::{Unit, unit};
use std::collections::{HashMap, HashSet};
use std::sync::OnceLock;

/// One thing a word or phrase can mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sense {
    /// The thing as such: "filter".
    Thing(Name),
    /// An attribute by name: "nitrate", "gallons per hour printed".
    Label {
        thing: Name,
        attribute: Name,
    },
    /// A kind of an attribute: "cloudy" is tank looks.
    State {
        thing: Name,
        attribute: Name,
        kind: Name,
    },
    /// An entry of a table: a fish, a medium, a filter, a treatment. `leaned`: the table says what to take until told.
    Named {
        thing: Name,
        kind: Name,
        leaned: bool,
    },
    Unit(&'static Unit),
    Number(f64),
    Multiplier(f64),
    Fraction(f64),
    Group(f64),
    Hedge {
        index: u8,
        after: bool,
    },
    Bound {
        bound: Bound,
        after: bool,
    },
    Vague(u8),
    Uncounted,
    Moment(Name),
    Time(u8),
    Level(LevelWord),
    Role(Role),
    Ask(Form),
    Act(Act),
    /// An ordinary word that carries nothing of ours and is never a slip of one of ours.
    Common,
}

/// What stands under one phrase.
#[derive(Default, Debug)]
pub struct Entry {
    pub senses: Vec<Sense>,
    /// Topics, dangers and happenings that listen for the phrase.
    pub cues: Vec<u16>,
    /// The most words of any phrase that begins with this one as its first word.
    pub longest: u8,
}

/// A name of a table for the lexicon: `words` a caller may use, the thing and kind they stand for.
pub struct NameWords<'k> {
    pub words: &'k str,
    pub thing: &'k str,
    pub kind: &'k str,
    /// The word is ambiguous and `kind` is what is taken until told.
    pub leaned: bool,
}

#[derive(Default, Debug)]
pub struct Lexicon {
    pub names: Names,
    entries: HashMap<Box<str>, Entry, Quick>,
    /// Words misheard as others: "neon tetris"; the longest has so many words.
    slips: HashMap<Box<str>, Box<str>, Quick>,
    mistaken: HashMap<Box<str>, Box<str>, Quick>,
    alike: HashSet<Box<str>, Quick>,
    ordinary: Ordinary,
    /// What a slip may be corrected to: made when the first word is met that is none of ours.
    respellings: OnceLock<Respellings>,
    cues: HashMap<Box<str>, u16, Quick>,
    pub plain_unit: Option<&'static Unit>,
}

impl Lexicon {
    pub fn build<'k>(
        vocabulary: &'k Vocabulary,
        language: &'k Language,
        names: impl Iterator<Item = NameWords<'k>>,
    ) -> Self {
        let mut lexicon = Lexicon::default();
        lexicon.entries.reserve(8192);
        for word in names {
            lexicon.add_name(&word);
        }
        lexicon.add_vocabulary(vocabulary);
        lexicon.add_language(language);
        lexicon
    }

    /// Adds a sense to a phrase as people say it.
    pub fn add(&mut self, phrase: &str, sense: Sense) {
        let key = key_of(phrase);
        if key.is_empty() {
            return;
        }
        self.note_length(&key);
        let entry = self.entries.entry(key.into_boxed_str()).or_default();
        if !entry.senses.contains(&sense) {
            entry.senses.push(sense);
        }
    }

    /// A cue: a phrase that something listens for, whatever else its words mean.
    pub fn cue(&mut self, phrase: &str) -> u16 {
        let key = key_of(phrase);
        if let Some(cue) = self.cues.get(key.as_str()) {
            return *cue;
        }
        let cue = self.cues.len() as u16;
        self.cues.insert(key.clone().into_boxed_str(), cue);
        self.note_length(&key);
        self.entries.entry(key.into_boxed_str()).or_default().cues.push(cue);
        cue
    }

    fn note_length(&mut self, key: &str) {
        let count = key.bytes().filter(|b| *b == b' ').count() + 1;
        if count > 1 {
            let first = key.split(' ').next().unwrap_or("");
            match self.entries.get_mut(first) {
                Some(entry) => entry.longest = entry.longest.max(count as u8),
                None => {
                    self.entries.insert(first.into(), Entry { longest: count as u8, ..Default::default() });
                }
            }
        }
    }

    /// A word whose medium is not decided by its table takes that of the word it is short for.
    fn settle(&mut self, short: &str, senses: &[Sense]) {
        let Some(entry) = self.entries.get_mut(key_of(short).as_str()) else { return };
        let medium = |s: &Sense| matches!(s, Sense::Named { thing: name::MEDIUM, .. });
        if senses.iter().any(medium) {
            entry.senses.retain(|s| !medium(s));
        }
    }

    fn add_name(&mut self, word: &NameWords) {
        // A name that begins with a figure ("20 ppi") would hide the figure.
        if word.words.starts_with(|c: char| c.is_ascii_digit()) {
            return;
        }
        let sense =
            Sense::Named { thing: self.names.add(word.thing), kind: self.names.add(word.kind), leaned: word.leaned };
        self.add(word.words, sense);
        // "clown fish" for "clownfish".
        if let Some(stem) =
            word.words.strip_suffix("fish").filter(|s| s.len() > 2 && s.ends_with(|c: char| c.is_alphabetic()))
        {
            self.add(&format!("{stem} fish"), sense);
        }
    }

    fn add_vocabulary(&mut self, vocabulary: &Vocabulary) {
        for thing in &vocabulary.things {
            let thing_name = self.names.add(&thing.thing);
            for word in &thing.words {
                self.add(word, Sense::Thing(thing_name));
            }
            for attribute in &thing.attributes {
                let attribute_name = self.names.add(&attribute.attribute);
                if attribute.is_looked_up() {
                    continue;
                }
                for word in &attribute.words {
                    self.add(word, Sense::Label { thing: thing_name, attribute: attribute_name });
                }
                for kind in &attribute.kinds {
                    let kind_name = self.names.add(&kind.kind);
                    for word in &kind.words {
                        self.add(word, Sense::State { thing: thing_name, attribute: attribute_name, kind: kind_name });
                    }
                }
            }
        }
    }

    fn add_language(&mut self, language: &Language) {
        self.plain_unit = Some(unit::plain());
        let mut number = |words: &std::collections::BTreeMap<String, f64>, sense: fn(f64) -> Sense| {
            for (word, value) in words {
                self.add(word, sense(*value));
            }
        };
        number(&language.numbers, Sense::Number);
        number(&language.multipliers, Sense::Multiplier);
        number(&language.fractions, Sense::Fraction);
        number(&language.groups, Sense::Group);
        for (index, hedge) in language.hedges.iter().enumerate() {
            hedge.before.iter().for_each(|w| self.add(w, Sense::Hedge { index: index as u8, after: false }));
            hedge.after.iter().for_each(|w| self.add(w, Sense::Hedge { index: index as u8, after: true }));
        }
        for bound in &language.bounds {
            bound.before.iter().for_each(|w| self.add(w, Sense::Bound { bound: bound.bound, after: false }));
            bound.after.iter().for_each(|w| self.add(w, Sense::Bound { bound: bound.bound, after: true }));
        }
        for (index, vague) in language.vague.iter().enumerate() {
            vague.words.iter().for_each(|w| self.add(w, Sense::Vague(index as u8)));
        }
        language.uncounted.iter().for_each(|w| self.add(w, Sense::Uncounted));
        for entry in &language.units {
            if let Some(unit) = unit::by_name(&entry.unit) {
                entry.words.iter().for_each(|w| self.add(w, Sense::Unit(unit)));
            }
        }
        for (moment, words) in &language.moments {
            let moment = self.names.add(moment);
            words.iter().for_each(|w| self.add(w, Sense::Moment(moment)));
        }
        for (index, time) in language.times.iter().enumerate() {
            time.words.iter().for_each(|w| self.add(w, Sense::Time(index as u8)));
        }
        for (level, words) in &language.levels {
            words.iter().for_each(|w| self.add(w, Sense::Level(*level)));
        }
        for (role, words) in &language.roles {
            words.iter().for_each(|w| self.add(w, Sense::Role(*role)));
        }
        for (form, words) in &language.asks {
            if let Some(form) = Form::by_name(form) {
                words.iter().for_each(|w| self.add(w, Sense::Ask(form)));
            }
        }
        for (act, words) in &language.acts {
            if let Some(act) = Act::by_name(act) {
                words.iter().for_each(|w| self.add(w, Sense::Act(act)));
            }
        }
        language.common.iter().for_each(|w| self.add(w, Sense::Common));
        self.ordinary = Ordinary::new(&language.ordinary);
        for (word, ours) in &language.mistaken {
            self.mistaken.insert(word.as_str().into(), ours.as_str().into());
        }
        for (slip, meant) in &language.slips {
            self.slips.insert(key_of(slip).into_boxed_str(), key_of(meant).into_boxed_str());
        }
        self.alike.extend(language.alike.iter().map(|w| w.as_str().into()));
        for (short, long) in &language.short {
            if let Some(entry) = self.entries.get(key_of(long).as_str()) {
                let senses = entry.senses.clone();
                self.settle(short, &senses);
                senses.into_iter().for_each(|s| self.add(short, s));
            }
        }
    }

    fn respellings(&self) -> &Respellings {
        self.respellings.get_or_init(|| Respellings::of(&self.entries))
    }

    /// Single words of ours that begin with a letter.
    pub fn targets(&self, first: u8) -> &[Target] {
        self.respellings().targets(first)
    }

    pub fn entry(&self, key: &str) -> Option<&Entry> {
        self.entries.get(key)
    }

    /// Whether a word names a thing or a kind of ours.
    pub fn names_something(&self, word: &str) -> bool {
        self.entries
            .get(word)
            .is_some_and(|e| e.senses.iter().any(|s| matches!(s, Sense::Thing(_) | Sense::Named { .. })))
    }

    /// Whether a word names a fish of ours.
    pub fn names_fish(&self, word: &str) -> bool {
        let fish = |s: &Sense| matches!(s, Sense::Named { thing: name::STOCK, .. });
        self.entries.get(word).is_some_and(|e| e.senses.iter().any(fish))
    }

    /// Whether a spelling is a word of ours or the first of a phrase.
    pub fn knows(&self, word: &str) -> bool {
        self.entries.contains_key(word) || self.entries.contains_key(folded(word).as_str())
    }

    /// The phrase that is written here as one word.
    pub fn unjoined(&self, word: &str) -> Option<&str> {
        self.respellings().unjoined(word)
    }

    /// The noun of ours that an everyday word may stand for by mistake.
    pub fn mistaken(&self, word: &str) -> Option<&str> {
        self.mistaken.get(word).map(|m| m.as_ref())
    }

    /// What a run of words was misheard for.
    pub fn slip(&self, words: &str) -> Option<&str> {
        self.slips.get(words).map(|m| m.as_ref())
    }

    /// The denial that an unknown word is one slip away from.
    pub fn near_denial(&self, word: &str) -> Option<&str> {
        self.respellings().near_denial(word)
    }

    /// Whether a word is part of a phrase of ours.
    pub fn is_part(&self, word: &str) -> bool {
        self.respellings().is_part(word)
    }

    /// Whether a word is everyday English, or an inflection of such a word or of one of ours: spelt as it should be.
    pub fn is_ordinary(&self, word: &str) -> bool {
        let plain =
            |form: &str| self.ordinary.holds(form) || self.entries.get(form).is_some_and(|e| !e.senses.is_empty());
        word.is_ascii() && (self.ordinary.holds(word) || plain_forms(word).any(|form| plain(&form)))
    }

    /// Whether a name is the same for one and for many.
    pub fn is_alike(&self, word: &str) -> bool {
        self.alike.contains(word)
    }

    pub fn text(&self, name: Name) -> &str {
        self.names.text(name)
    }
}

/// The key of a phrase: lower case, hyphens as blanks, apostrophes dropped, each word in its singular form.
pub fn key_of(phrase: &str) -> String {
    let mut key = String::with_capacity(phrase.len());
    let mut start = 0;
    let plural = |key: &mut String, start: usize| {
        let word = &key[start..];
        if word.ends_with('s') {
            let singular = folded(word);
            key.truncate(start);
            key.push_str(&singular);
        }
    };
    for c in phrase.chars().filter(|c| !matches!(c, '\'' | '’')) {
        if c == '-' || c.is_whitespace() {
            if key.len() > start {
                plural(&mut key, start);
                key.push(' ');
                start = key.len();
            }
        } else {
            key.push(c.to_ascii_lowercase());
        }
    }
    plural(&mut key, start);
    let end = key.trim_end().len();
    key.truncate(end);
    key
}

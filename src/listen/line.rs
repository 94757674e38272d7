//! The way through: a line to words, terms, items, clauses, findings and a reading. In: text and context. Out: a reading.
//! Never fails; the time grows with the length of the text.

use super::amount::Grammar;
use super::attributes::Attributes;
use super::cues::{Cues, Happened, Weighed};
use super::lexicon::{Lexicon, NameWords, Sense, key_of};
use super::meaning::Preference;
use super::name::{self, Name, Quick};
use super::reading::{Context, Reading};
use super::state::State;
use super::term::{Heard, group};
use super::turn::Turn;
use super::words;
use crate::knowledge::Knowledge;
use crate::knowledge::facts::Facts;
use crate::knowledge::language::Language;
use crate::knowledge::table::{Entry, Table};
use std::collections::{HashMap, HashSet};

/// Reads what callers say. Built once from the knowledge; holds no call.
#[derive(Debug)]
pub struct Listener {
    pub lexicon: Lexicon,
    pub attributes: Attributes,
    pub cues: Cues,
    pub preference: Preference,
    /// Kinds of fish that are kept in groups: named in the singular they are not one fish.
    groups: HashSet<Name, Quick>,
    /// Kinds of filter that run beside another.
    pub beside_filters: Vec<String>,
    /// What a keeper may call a tank, and what it comes to.
    pub tank_names: HashMap<Box<str>, Box<str>, Quick>,
    /// Names of tanks that need no noun.
    pub tank_nouns: HashSet<Box<str>, Quick>,
    /// Hedges, vague numbers and times.
    pub figures: Language,
    /// Kinds of medium whose pieces are measured: "10-16 mm clay".
    pub grained: HashSet<Name, Quick>,
    /// Names that fish of very different sizes go by, with the question that tells them apart.
    pub kin: HashMap<Box<str>, Box<str>, Quick>,
}

impl Listener {
    /// The lexicon is made of every name and word of the book, so that a new one is understood at once.
    pub fn new(knowledge: &Knowledge) -> Self {
        let language = &knowledge.language;
        let vocabulary = &knowledge.vocabulary;
        let mut lexicon = Lexicon::build(vocabulary, language, names(knowledge).into_iter());
        let cues = Cues::build(language, &mut lexicon);
        let attributes = Attributes::build(vocabulary, language, &mut lexicon);
        let preference = Preference::new(&language.first, |text| lexicon.names.find(text));
        let figures = Language {
            hedges: language.hedges.clone(),
            vague: language.vague.clone(),
            times: language.times.clone(),
            equating: language.equating.clone(),
            ..Language::default()
        };
        let groups = knowledge
            .stock
            .iter()
            .filter(|s| lives_in_groups(s.facts()))
            .filter_map(|s| lexicon.names.find(s.name()))
            .collect();
        let pieces = |m: &crate::knowledge::media::Medium| {
            m.facts().is_some_and(|f| f.get("grain").or(f.get("piece")).is_some())
        };
        let grained =
            knowledge.media.iter().filter(|m| pieces(m)).filter_map(|m| lexicon.names.find(m.name())).collect();
        let named = |(name, words): (&String, &Vec<String>)| {
            let name = name.clone();
            words.clone().into_iter().map(move |w| (key_of(&w).into_boxed_str(), name.clone().into_boxed_str()))
        };
        Self {
            tank_names: language.tank_names.iter().flat_map(named).collect(),
            tank_nouns: language.tank_nouns.iter().map(|w| key_of(w).into_boxed_str()).collect(),
            kin: kin(knowledge),
            grained,
            groups,
            lexicon,
            attributes,
            cues,
            preference,
            beside_filters: language.beside_filters.clone(),
            figures,
        }
    }

    /// Reads one turn. Spans are byte offsets in `text`.
    pub fn read(&self, text: &str, context: &Context) -> Reading {
        let words = words::split(text, &|w| self.lexicon.knows(w));
        let (terms, heard) = group(&words, &self.lexicon);
        let items = super::items::items(&terms, Grammar { language: &self.figures });
        let clauses = super::clause::cut(&items, &terms);
        let turn = Turn::new(self, context, text, &words, &terms, &items, &heard);
        turn.read(&clauses)
    }

    /// What happened in words `first..=last`, by the cues heard, or is said not to have happened.
    pub fn weighed(&self, first: usize, last: usize, heard: &[Heard], denied: impl Fn(&Heard) -> bool) -> Vec<Weighed> {
        if heard.is_empty() {
            return Vec::new();
        }
        self.cues.happenings.iter().filter_map(|h| h.weigh(first, last, heard, &denied)).collect()
    }

    /// What happened in words `first..=last`, by the cues heard.
    pub fn happened(&self, first: usize, last: usize, heard: &[Heard]) -> Vec<Happened> {
        if heard.is_empty() {
            return Vec::new();
        }
        self.cues.happenings.iter().filter_map(|h| h.holds(first, last, heard)).collect()
    }

    pub fn volume_unit_of(&self, state: &State) -> Option<&'static str> {
        state.volume_unit
    }

    /// The kind that the tables have for a word: ("stock", "neons") is "neon tetra".
    pub fn kind(&self, thing: &str, word: &str) -> Option<String> {
        let thing = self.lexicon.names.find(thing)?;
        let entry = self.lexicon.entry(&key_of(word))?;
        let named = |thing| {
            entry.senses.iter().find_map(|s| match s {
                Sense::Named { thing: t, kind, .. } if *t == thing => Some(*kind),
                Sense::State { thing: t, attribute: name::KIND, kind } if *t == thing => Some(*kind),
                _ => None,
            })
        };
        // What is dosed is spoken of as a medium.
        let kind = named(thing).or_else(|| (thing == name::MEDIUM).then(|| named(name::TREATMENT)).flatten())?;
        Some(self.lexicon.text(kind).to_string())
    }

    /// The kind of an attribute that a word stands for: ("tank", "looks", "murky") is "cloudy".
    pub fn state(&self, thing: &str, attribute: &str, word: &str) -> Option<String> {
        let thing = self.lexicon.names.find(thing)?;
        let attribute = self.lexicon.names.find(attribute)?;
        let kind = self.lexicon.entry(&key_of(word))?.senses.iter().find_map(|s| match s {
            Sense::State { thing: t, attribute: a, kind } if *t == thing && *a == attribute => Some(*kind),
            _ => None,
        })?;
        Some(self.lexicon.text(kind).to_string())
    }

    /// Whether fish of the kind are kept in groups.
    pub fn lives_in_groups(&self, kind: Name) -> bool {
        self.groups.contains(&kind)
    }

    /// Whether a word is the same for one and for many: "shrimp".
    pub fn is_same_in_plural(&self, word: &str) -> bool {
        self.lexicon.is_alike(word)
    }
}

/// Of the animals that one name may mean the largest is so many times as long as the smallest, and at least so long (metres):
/// what they ask of a filter differs by more than any answer can bridge (settled choice).
const FAR_APART: f64 = 4.0;
const LONG: f64 = 0.1;

/// Every name that is too wide to compute with, and what to ask.
fn kin(knowledge: &Knowledge) -> HashMap<Box<str>, Box<str>, Quick> {
    let length = |name: &String| {
        let grown = knowledge.find(Table::Stock, name)?.facts()?.get("grown length")?;
        crate::units::parse::quantity(grown).ok()?.base().likely
    };
    let apart = |a: &crate::knowledge::stock::Ambiguous| {
        let lengths: Vec<f64> = a.could_be.iter().filter_map(length).collect();
        let smallest = lengths.iter().copied().fold(f64::INFINITY, f64::min);
        let largest = lengths.iter().copied().fold(0.0, f64::max);
        largest >= LONG && largest >= FAR_APART * smallest
    };
    let asked = knowledge.ambiguous.iter().filter(|a| a.ask_first || apart(a));
    asked.map(|a| (key_of(&a.ambiguous).into_boxed_str(), a.ask.as_str().into())).collect()
}

/// At least three are kept together.
fn lives_in_groups(facts: Option<&Facts>) -> bool {
    let least = facts.and_then(|f| f.get("least group"));
    least.and_then(|l| l.trim().parse::<f64>().ok()).is_some_and(|l| l >= 3.0)
}

/// Every word of the tables with the thing and kind it stands for.
fn names(knowledge: &Knowledge) -> Vec<NameWords<'_>> {
    let mut names = Vec::with_capacity(knowledge.words.len());
    let thing_of = |name: &str| {
        [Table::Stock, Table::Medium, Table::Filter, Table::Plant, Table::Treatment]
            .into_iter()
            .find(|t| knowledge.find(*t, name).is_some())
    };
    let of_a_thing: HashSet<&str> =
        knowledge.vocabulary.things.iter().flat_map(|t| t.words.iter().map(String::as_str)).collect();
    for (word, hits) in knowledge.words.iter().filter(|(w, _)| !of_a_thing.contains(w)) {
        for hit in hits {
            let entry = hit.entry as usize;
            match hit.table {
                Table::Stock | Table::Medium | Table::Filter | Table::Plant | Table::Treatment => {
                    if let Some(found) = knowledge.entry(hit.table, entry) {
                        names.push(NameWords {
                            words: word,
                            thing: hit.table.key(),
                            kind: found.name(),
                            leaned: false,
                        });
                    }
                }
                Table::Ambiguous => {
                    let Some(ambiguous) = knowledge.ambiguous.get(entry) else { continue };
                    match &ambiguous.until_told {
                        Some(kind) => {
                            if let Some(table) = thing_of(kind) {
                                let leaned = *kind != ambiguous.ambiguous;
                                names.push(NameWords { words: word, thing: table.key(), kind, leaned });
                            }
                        }
                        None => {
                            let could_be: Vec<(Table, &str)> =
                                ambiguous.could_be.iter().filter_map(|n| Some((thing_of(n)?, n.as_str()))).collect();
                            for (table, name) in &could_be {
                                // One filter of that name, but several foams: the foam keeps the word itself.
                                let only = could_be.iter().filter(|(t, _)| t == table).count() == 1;
                                let kind = if only { *name } else { &ambiguous.ambiguous };
                                names.push(NameWords { words: word, thing: table.key(), kind, leaned: true });
                            }
                        }
                    }
                }
                _ => {}
            }
        }
    }
    names
}

//! Mentions: which thing, kind, attribute or state each content word of a clause names. In: terms, items, the lexicon's
//! senses. Out: one meaning a word, chosen by what stands beside it. Says nothing of it yet.

use super::items::{Item, What};
use super::lexicon::Sense;
use super::name::{self, Name};
use super::term::Term;
use crate::knowledge::language::Role;

/// What a word names.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Noun {
    Stock {
        kind: Option<Name>,
        stage: Option<Name>,
    },
    Medium(Option<Name>),
    Filter(Option<Name>),
    Treatment(Name),
    Plant(Option<Name>),
    Tank,
    Source,
    Change,
    Feed,
    /// A test as such.
    Test,
    Label {
        thing: Name,
        attribute: Name,
    },
    State {
        thing: Name,
        attribute: Name,
        kind: Name,
    },
}

#[derive(Clone, Debug)]
pub struct Mention {
    /// Indices of its first and last item in the line.
    pub item: usize,
    pub last: usize,
    pub noun: Noun,
    pub plural: bool,
    pub corrected: bool,
    /// The table says what to take until told.
    pub leaned: bool,
    /// "my", "the", "our" stands before it.
    pub definite: bool,
    /// "a" stands before it.
    pub article: bool,
    pub negated: bool,
    /// A figure has gone to it.
    pub taken: bool,
}

impl Noun {
    pub fn thing(&self) -> Name {
        match self {
            Noun::Stock { .. } => name::STOCK,
            Noun::Medium(_) => name::MEDIUM,
            Noun::Filter(_) => name::FILTER,
            Noun::Treatment(_) => name::TREATMENT,
            Noun::Plant(_) => name::PLANT,
            Noun::Tank => name::TANK,
            Noun::Source => name::SOURCE,
            Noun::Change => name::CHANGE,
            Noun::Feed => name::FEED,
            Noun::Test => name::READING,
            Noun::Label { thing, .. } | Noun::State { thing, .. } => *thing,
        }
    }
}

/// The order in which meanings of one word are taken when nothing beside it decides.
#[derive(Debug, Default)]
pub struct Preference {
    order: Vec<(Name, Option<Name>)>,
}

impl Preference {
    pub fn new(first: &[String], find: impl Fn(&str) -> Option<Name>) -> Self {
        let order = first
            .iter()
            .filter_map(|entry| match entry.split_once('.') {
                Some((thing, attribute)) => Some((find(thing)?, Some(find(attribute)?))),
                None => Some((find(entry)?, None)),
            })
            .collect();
        Self { order }
    }

    fn rank(&self, noun: &Noun) -> usize {
        let attribute = match noun {
            Noun::Label { attribute, .. } | Noun::State { attribute, .. } => Some(*attribute),
            _ => None,
        };
        let thing = noun.thing();
        let exact = self.order.iter().position(|(t, a)| *t == thing && *a == attribute && a.is_some());
        let rough = self.order.iter().position(|(t, a)| *t == thing && a.is_none());
        let named = usize::from(matches!(noun, Noun::Label { .. } | Noun::State { .. }));
        exact.or(rough).map_or(1000, |r| r * 2) + named
    }
}

/// The mentions of the items `from..to`, left to right; neighbours that are one name are joined.
pub fn mentions(items: &[Item], terms: &[Term], from: usize, to: usize, preference: &Preference) -> Vec<Mention> {
    let labels: Vec<(Name, Name)> =
        items[from..to].iter().filter(|i| i.what == What::Term).flat_map(|i| terms[i.first].labels()).collect();
    let mut found: Vec<Mention> = Vec::new();
    for at in from..to {
        if items[at].what != What::Term {
            continue;
        }
        let term = &terms[items[at].first];
        if !term.has_content() {
            continue;
        }
        let before = (at > from).then(|| &items[at - 1]).filter(|i| i.what == What::Term).map(|i| &terms[i.first]);
        let beside_figure = at > from && matches!(items[at - 1].what, What::Amount(_))
            || at + 1 < to && matches!(items[at + 1].what, What::Amount(_));
        let things: Vec<Name> = found.iter().map(|m| m.noun.thing()).collect();
        let Some((noun, leaned)) = choose(term, &labels, &things, beside_figure, preference) else { continue };
        let mention = Mention {
            item: at,
            last: at,
            noun,
            plural: term.plural,
            corrected: term.corrected,
            leaned,
            definite: before.is_some_and(|t| t.is(Role::Definite)),
            article: before.is_some_and(|t| t.is(Role::A)),
            negated: false,
            taken: false,
        };
        match found.last_mut() {
            Some(last) if last.last + 1 == at || last.last + 2 == at && is_copula(items, terms, at - 1) => {
                if !join(last, &mention) {
                    found.push(mention);
                }
            }
            _ => found.push(mention),
        }
    }
    found
}

fn is_copula(items: &[Item], terms: &[Term], at: usize) -> bool {
    match items[at].what {
        What::Mark(c) => matches!(c, ':' | '='),
        What::Term => terms[items[at].first].is(Role::Be) || terms[items[at].first].is(Role::A),
        _ => false,
    }
}

/// Joins two neighbours that name one thing: "guppy fry", "canister filter", "filter: internal".
fn join(last: &mut Mention, next: &Mention) -> bool {
    let adjacent = last.last + 1 == next.item;
    let joined = match (last.noun, next.noun) {
        (Noun::Stock { kind: Some(k), stage: None }, Noun::Stock { kind: None, stage: Some(s) })
            if adjacent && !last.plural =>
        {
            Noun::Stock { kind: Some(k), stage: Some(s) }
        }
        (Noun::Stock { kind: None, stage: Some(s) }, Noun::Stock { kind: Some(k), stage: None })
            if adjacent && !last.plural =>
        {
            Noun::Stock { kind: Some(k), stage: Some(s) }
        }
        // "fish fry", "baby fish", "tetra fish".
        (Noun::Stock { kind: None, stage: None }, stock @ Noun::Stock { .. }) if adjacent && !last.plural => stock,
        (stock @ Noun::Stock { .. }, Noun::Stock { kind: None, stage: None }) if adjacent => stock,
        (Noun::Filter(Some(k)), Noun::Filter(None)) if adjacent => Noun::Filter(Some(k)),
        (Noun::Filter(None), Noun::Filter(Some(k))) => Noun::Filter(Some(k)),
        (Noun::Medium(Some(k)), Noun::Medium(None)) if adjacent => Noun::Medium(Some(k)),
        // "sponge filter" where the table has no such name.
        (Noun::Filter(None), Noun::Filter(None)) if adjacent => Noun::Filter(None),
        _ => return false,
    };
    last.noun = joined;
    last.plural = next.plural || last.plural;
    last.leaned |= next.leaned;
    last.corrected |= next.corrected;
    last.last = next.item;
    true
}

/// The meaning of one word, and whether the table leans.
fn choose(
    term: &Term,
    labels: &[(Name, Name)],
    things: &[Name],
    beside_figure: bool,
    preference: &Preference,
) -> Option<(Noun, bool)> {
    let weak = term.senses.iter().any(|s| {
        matches!(
            s,
            Sense::Role(_)
                | Sense::Common
                | Sense::Ask(_)
                | Sense::Level(_)
                | Sense::Act(_)
                | Sense::Unit(_)
                | Sense::Hedge { .. }
        )
    });
    let mut best: Option<(usize, Noun, bool)> = None;
    for sense in term.senses {
        let (noun, leaned) = match *sense {
            Sense::Named { thing, kind, leaned } => (named(thing, kind)?, leaned),
            Sense::Thing(thing) => (thing_noun(thing)?, false),
            Sense::Label { thing, attribute } => (Noun::Label { thing, attribute }, false),
            Sense::State { thing, attribute, kind } if thing == name::STOCK && attribute == name::STAGE => {
                (Noun::Stock { kind: None, stage: Some(kind) }, false)
            }
            Sense::State { thing, attribute, kind } => (Noun::State { thing, attribute, kind }, false),
            _ => continue,
        };
        let mut rank = preference.rank(&noun) + 10;
        match noun {
            Noun::State { thing, attribute, .. } => {
                let labelled = labels.contains(&(thing, attribute));
                if labelled {
                    rank = 1;
                } else if weak && !things.contains(&thing) {
                    continue;
                }
            }
            // "2 in gravel" is a bed, "2 kg gravel" a medium: the figure decides later; a label wants a figure.
            Noun::Label { .. } if weak && !beside_figure => continue,
            Noun::Tank | Noun::Filter(None) if weak => rank += 5,
            _ => {}
        }
        if best.as_ref().is_none_or(|(r, _, _)| rank < *r) {
            best = Some((rank, noun, leaned));
        }
    }
    best.map(|(_, noun, leaned)| (noun, leaned))
}

fn named(thing: Name, kind: Name) -> Option<Noun> {
    Some(match thing {
        name::STOCK => Noun::Stock { kind: Some(kind), stage: None },
        name::FILTER => Noun::Filter(Some(kind)),
        name::MEDIUM => Noun::Medium(Some(kind)),
        name::TREATMENT => Noun::Treatment(kind),
        name::PLANT => Noun::Plant(Some(kind)),
        _ => return None,
    })
}

fn thing_noun(thing: Name) -> Option<Noun> {
    Some(match thing {
        name::TANK => Noun::Tank,
        name::FILTER => Noun::Filter(None),
        name::STOCK => Noun::Stock { kind: None, stage: None },
        name::PLANT => Noun::Plant(None),
        name::MEDIUM => Noun::Medium(None),
        name::READING => Noun::Test,
        name::SOURCE => Noun::Source,
        name::CHANGE => Noun::Change,
        name::FEED => Noun::Feed,
        _ => return None,
    })
}

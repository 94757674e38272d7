//! Mentions: which thing, kind, attribute or state each content word of a clause names. In: terms, items, the lexicon's
//! senses. Out: one meaning a word, chosen by what stands beside it. Says nothing of it yet.

use super::items::{Item, What};
use super::lexicon::Sense;
use super::meaning::{Around, Place, Preference, choose};
use super::name::{self, Name, Names};
use super::term::Term;
use crate::knowledge::language::Role;
use crate::units::Dimension;

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

impl Mention {
    /// A mention that the words beside it made of one item: nothing else was said of it.
    pub fn of(item: usize, noun: Noun) -> Self {
        Self {
            item,
            last: item,
            noun,
            plural: false,
            corrected: false,
            leaned: false,
            definite: false,
            article: false,
            negated: false,
            taken: false,
        }
    }
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

/// What is known beside the words: the book's names, and what the line said so far.
#[derive(Clone, Copy, Debug)]
pub struct Known<'k> {
    pub preference: &'k Preference,
    pub names: &'k Names,
    pub asking: bool,
    /// The guard of the intake was spoken of last.
    pub guard: bool,
    /// The sentence speaks of a water test.
    pub reads: bool,
}

/// The mentions of the items `from..to`, left to right; neighbours that are one name are joined.
pub fn mentions(items: &[Item], terms: &[Term], from: usize, to: usize, known: Known) -> Vec<Mention> {
    let Known { preference, names, asking, .. } = known;
    let mut around = Around {
        labels: Vec::new(),
        states: Vec::new(),
        things: Vec::new(),
        named: Vec::new(),
        has_count: false,
        reads: known.reads,
        asking,
        guard: known.guard,
        washes: false,
    };
    for (at, item) in items[from..to].iter().enumerate().map(|(n, i)| (from + n, i)) {
        match &item.what {
            // "the 240's clear now": the size stands for the tank.
            What::Amount(_) if is_tank_by_size(items, terms, from, to, at) => around.things.push(name::TANK),
            What::Term => {
                let term = &terms[item.first];
                around.labels.extend(term.labels());
                around.washes |= term.is(Role::Washing) && !term.is(Role::Part)
                    || term.labels().any(|(_, a)| matches!(a, name::CLEANED | name::CLEAN_EVERY));
                if to - from <= 4 && !term.senses.contains(&Sense::Common) {
                    around.states.extend(term.senses.iter().filter_map(|s| match s {
                        Sense::State { thing, attribute: attribute @ name::SHAPE, .. } => Some((*thing, *attribute)),
                        _ => None,
                    }));
                }
                around.named.extend(term.senses.iter().filter_map(|s| match s {
                    Sense::Named { thing, .. } => Some(*thing),
                    _ => None,
                }));
                around.things.extend(term.senses.iter().filter_map(|s| match s {
                    Sense::Named { thing, .. } | Sense::Thing(thing) => Some(*thing),
                    Sense::Label { thing, .. } => Some(*thing),
                    Sense::State { thing: thing @ name::STOCK, attribute: name::STAGE, .. } => Some(*thing),
                    _ => None,
                }));
            }
            What::Amount(measure) => around.has_count |= measure.units.is_empty() && !measure.refused,
            What::Row(_) => around.reads = true,
            _ => {}
        }
    }
    around.reads |= around.things.contains(&name::READING);
    let counted =
        |s: &Sense| matches!(s, Sense::State { attribute: name::AMMONIA_AS | name::NITRITE_AS | name::NITRATE_AS, .. });
    let of_figures = items[from..to]
        .iter()
        .any(|i| i.what == What::Term && terms[i.first].letters > 2 && terms[i.first].senses.iter().any(counted));
    if of_figures {
        around.reads = true;
        around.things.push(name::READING);
    }
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
        let figure = |i: usize| {
            matches!(
                items[i].what,
                What::Amount(_) | What::Mark(':' | '=') | What::Sizes(_) | What::Timed(..) | What::Time(_)
            )
        };
        let mass = |i: usize| matches!(&items[i].what, What::Amount(m) if m.units.iter().any(|u| matches!(u.dimension, Dimension::MASS | Dimension::PER_LENGTH)));
        let volume = |i: usize| matches!(&items[i].what, What::Amount(m) if m.units.iter().any(|u| u.dimension == Dimension::VOLUME && u.name != "gal"));
        let stock = |i: usize| {
            i < to
                && items[i].what == What::Term
                && terms[items[i].first].senses.iter().any(|s| {
                    matches!(
                        s,
                        Sense::Named { thing: name::STOCK, .. }
                            | Sense::Thing(name::STOCK)
                            | Sense::State { thing: name::STOCK, attribute: name::STAGE, .. }
                    )
                })
        };
        let place = Place {
            beside_figure: at > from && figure(at - 1)
                || at + 1 < to && figure(at + 1)
                // "fill it two thirds".
                || at + 2 < to && figure(at + 2) && items[at + 1].what == What::Term && terms[items[at + 1].first].is(Role::It),
            beside_mass: at > from && mass(at - 1) || at + 1 < to && mass(at + 1) || at > from + 1 && mass(at - 2),
            beside_volume: at > from && volume(at - 1)
                || at > from + 1 && volume(at - 2) && terms[items[at - 1].first].is(Role::Of),
            short: to - from <= 3,
            before_article: at + 1 < to
                && items[at + 1].what == What::Term
                && (terms[items[at + 1].first].is(Role::A) || terms[items[at + 1].first].is(Role::Definite)),
            beside_stock: stock(at + 1) || at > from && stock(at - 1),
            ends: at + 1 == to,
            after_it: at > from
                && at + 1 == to
                && items[at - 1].what == What::Term
                && terms[items[at - 1].first].is(Role::It)
                && terms[items[at - 1].first].is(Role::Be),
            alone: at == from && at + 1 == to,
            hangs: before.is_some_and(|t| {
                [
                    Role::A,
                    Role::Definite,
                    Role::Have,
                    Role::With,
                    Role::Other,
                    Role::Or,
                    Role::And,
                    Role::For,
                    Role::Not,
                ]
                .iter()
                .any(|r| t.is(*r))
            }) || at > from && figure(at - 1)
                || at + 1 < to
                    && matches!(&items[at + 1].what, What::Amount(m) if m.unit_of(Dimension::TIME).is_none())
                || at + 1 < to
                    && items[at + 1].what == What::Term
                    && terms[items[at + 1].first].names_thing(name::FILTER),
            after_article: [1, 2].into_iter().filter(|n| at >= from + n).any(|n| {
                // "after a clean": heard as "I am after a ...".
                let wish = |t: &Term| t.is(Role::Wish) && t.last > t.first;
                let article = |t: &Term| t.is(Role::A) || t.is(Role::Definite) || t.is(Role::Order) || wish(t);
                let term = |i: usize| (items[i].what == What::Term).then(|| &terms[items[i].first]);
                // "a good clean".
                let small = || n == 1 || term(at - 1).is_some_and(|t| t.is(Role::Noise) && !t.is(Role::Be));
                small()
                    && (term(at - n).is_some_and(article)
                        || matches!(&items[at - n].what, What::Amount(m) if m.article && m.is_plain()))
            }),
        };
        let Some((noun, leaned)) = choose(term, &around, place, preference) else { continue };
        let mention = Mention {
            plural: term.plural,
            corrected: term.corrected,
            leaned,
            definite: before.is_some_and(|t| t.is(Role::Definite)) && !asks_that(items, terms, from, at),
            article: before.is_some_and(|t| t.is(Role::A)),
            negated: term.lacking,
            ..Mention::of(at, noun)
        };
        match found.last_mut() {
            Some(last) if last.last + 1 == at || last.last + 2 == at && is_copula(items, terms, at - 1) => {
                if !join(last, &mention, names) {
                    found.push(mention);
                }
            }
            _ => found.push(mention),
        }
    }
    found
}

/// "the 240 is", "the 60 litre has gone": a size behind "the", and what is so of it.
fn is_tank_by_size(items: &[Item], terms: &[Term], from: usize, to: usize, at: usize) -> bool {
    let What::Amount(measure) = &items[at].what else { return false };
    let role = |i: usize, role: Role| items[i].what == What::Term && terms[items[i].first].is(role);
    let size = measure.bare && measure.units.is_empty() || measure.unit_of(Dimension::VOLUME).is_some();
    size && at > from && role(at - 1, Role::Definite) && at + 1 < to && role(at + 1, Role::Be)
}

/// "is that carbon": "that" stands for something else.
fn asks_that(items: &[Item], terms: &[Term], from: usize, at: usize) -> bool {
    at >= from + 2
        && items[at - 2].what == What::Term
        && terms[items[at - 2].first].senses.iter().any(|s| matches!(s, Sense::Ask(_)))
        && terms[items[at - 1].first].is(Role::It)
}

fn is_copula(items: &[Item], terms: &[Term], at: usize) -> bool {
    match items[at].what {
        What::Mark(c) => matches!(c, ':' | '='),
        What::Term => terms[items[at].first].is(Role::Be) || terms[items[at].first].is(Role::A),
        _ => false,
    }
}

/// The second is the family of the first: "bristlenose pleco", "pleco".
fn is_family(kind: Name, family: Name, names: &Names) -> bool {
    kind != family && names.text(kind).ends_with(names.text(family))
}

/// Joins two neighbours that name one thing: "guppy fry", "canister filter", "filter: internal".
fn join(last: &mut Mention, next: &Mention, names: &Names) -> bool {
    let adjacent = last.last + 1 == next.item;
    let joined = match (last.noun, next.noun) {
        (Noun::Stock { kind: Some(k), stage: None }, Noun::Stock { kind: None, stage: Some(s) })
            if adjacent && (!last.plural || !matches!(s, name::FRY | name::EGG)) =>
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
        // "bn plec": the name and its family.
        (Noun::Stock { kind: Some(k), stage: None }, Noun::Stock { kind: Some(family), stage: None })
            if adjacent && !last.plural && is_family(k, family, names) =>
        {
            last.noun
        }
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

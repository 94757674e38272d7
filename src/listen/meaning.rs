//! Meaning: which of its senses a word has in its clause, by what stands beside it and by the order of preference of the
//! book. In: a term, its surroundings. Out: a noun, and whether the table leans. Reads no figure.

use super::lexicon::Sense;
use super::mention::Noun;
use super::name::{self, Name};
use super::term::{Term, steers};
use crate::knowledge::language::Role;

/// What a clause is about, for choosing between meanings.
pub struct Around {
    pub labels: Vec<(Name, Name)>,
    /// Attributes of which a kind is named by a word that is no everyday one, in a short clause.
    pub states: Vec<(Name, Name)>,
    pub things: Vec<Name>,
    /// Things of which an entry of a table is named.
    pub named: Vec<Name>,
    pub has_count: bool,
    /// A water test is spoken of.
    pub reads: bool,
    pub asking: bool,
    /// The guard of the intake was spoken of last.
    pub guard: bool,
    /// Something is washed.
    pub washes: bool,
}

/// Where a word stands.
#[derive(Clone, Copy)]
pub struct Place {
    pub beside_figure: bool,
    pub beside_mass: bool,
    /// A volume stands right before it.
    pub beside_volume: bool,
    /// The clause is no more than a name or two.
    pub short: bool,
    /// "a", "the" or a number stands behind it.
    pub before_article: bool,
    /// The word right before or behind names a fish.
    pub beside_stock: bool,
    pub ends: bool,
    /// "it's" stands right before it.
    pub after_it: bool,
    pub alone: bool,
    /// A word stands beside it that "hang on" as the name of a filter wants.
    pub hangs: bool,
    /// "a", "the" or "last" stands right before it.
    pub after_article: bool,
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

/// The meaning of one word, and whether the table leans.
pub fn choose(term: &Term, around: &Around, place: Place, preference: &Preference) -> Option<(Noun, bool)> {
    let weak = term.senses.iter().any(|s| {
        matches!(s, Sense::Role(role) if !steers(*role))
            || matches!(
                s,
                Sense::Common | Sense::Ask(_) | Sense::Level(_) | Sense::Act(_) | Sense::Unit(_) | Sense::Hedge { .. }
            )
    });
    let preposition =
        [Role::On, Role::In, Role::From, Role::Over, Role::Under, Role::Lacking].iter().any(|r| term.is(*r));
    // "the seal", "a hose": a part, unless something is washed with it.
    if term.is(Role::Part) && !term.has_content_named() && !around.washes {
        return None;
    }
    // A lamp or a heater is none of ours, nor is "hang on" said to make us wait.
    if term.is(Role::Elsewhere)
        || term.is(Role::Correct) && term.has_content_named() && !(place.hangs || place.after_article)
    {
        return None;
    }
    let mut best: Option<(usize, Noun, bool)> = None;
    // "the box filter has brushes": among the parts of a filter.
    let in_filter = term.plural && around.things.contains(&name::FILTER);
    for sense in term.senses {
        let (noun, leaned) = match *sense {
            // An ordinary word that is a medium only among media: "the glass says 125 litres".
            Sense::Named { thing: name::MEDIUM, .. }
                if term.senses.contains(&Sense::Common) && !place.short && !place.beside_mass && !in_filter =>
            {
                continue;
            }
            // "the front pane": a fish only in the plural or counted.
            Sense::Named { thing: name::STOCK, .. }
                if term.senses.contains(&Sense::Common) && !term.plural && !place.beside_figure && !place.alone =>
            {
                continue;
            }
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
        // "chlorine 0.5": the reading, not what the supplier uses.
        if place.beside_figure && matches!(noun, Noun::Label { .. }) && rank > 4 {
            rank = 4;
        }
        // "a foot long" is the fish's length where a fish is named, else the tank's.
        if let Noun::Label { thing, .. } = noun
            && place.beside_figure
            && matches!(thing, name::STOCK | name::TANK)
        {
            let fish = around.named.contains(&name::STOCK);
            rank = if (thing == name::STOCK) == fish { 3 } else { 5 };
        }
        // A conditioner without an amount says that the water is treated.
        if matches!(noun, Noun::State { thing: name::SOURCE, attribute: name::TREATED, .. }) && !place.beside_figure {
            rank = 3;
        }
        // "20 l coral": a filling, not an animal.
        if place.beside_volume && matches!(noun, Noun::Medium(Some(_))) {
            rank = 3;
        }
        match noun {
            // "med" is a size, "meds" are medicine.
            Noun::State { thing: name::EVENT, .. } if term.letters <= 3 && term.first == term.last && !term.plural => {
                continue;
            }
            Noun::State { thing: name::EVENT, .. }
                if !weak || around.things.contains(&name::STOCK) || around.has_count => {}
            Noun::State { thing: name::EVENT, .. } => continue,
            Noun::State { thing, attribute, kind } => {
                if preposition && !place.ends {
                    continue;
                }
                // "after a clean": what was done, no state.
                if (thing, attribute) == (name::FILTER, name::LOOKS) && term.is(Role::Washing) && place.after_article {
                    continue;
                }
                let wants_neighbour = attribute == name::SIZE && !place.beside_stock
                    || (thing, attribute, kind) == (name::PLANT, name::AMOUNT, name::FEW)
                        && !around.things.contains(&name::PLANT)
                    || attribute == name::ENTERS
                        && !around.labels.contains(&(thing, attribute))
                        && term.senses.len() > 1
                    || attribute == name::POSITION && !around.things.contains(&name::MEDIUM);
                // "we clean the filter": the verb, not a state.
                let verb = (term.is(Role::Doing) && !place.ends) || attribute == name::RUNNING && place.before_article;
                if wants_neighbour || verb {
                    continue;
                }
                if attribute == name::TREND && !around.reads {
                    continue;
                }
                if attribute == name::METHOD && !around.reads && !place.alone {
                    continue;
                }
                let ailing =
                    attribute == name::HEALTH && term.level().is_none() && around.things.contains(&name::STOCK);
                if weak && around.asking && !ailing && !around.labels.contains(&(thing, attribute)) {
                    continue;
                }
                let near = around.things.contains(&thing)
                    || around.states.contains(&(thing, attribute))
                    || attribute == name::RUNNING && place.after_it;
                if around.labels.contains(&(thing, attribute)) {
                    rank = 1;
                } else if attribute == name::INTAKE_GUARD {
                    // "nothing over the intake" names the guard itself.
                    if !around.guard && term.last < term.first + 3 {
                        continue;
                    }
                    rank = 2;
                } else if weak && !near {
                    continue;
                } else if attribute == name::SUBSTRATE && (around.asking || around.things.contains(&name::FILTER)) {
                    rank += 100;
                }
            }
            Noun::Label { .. } if weak && !place.beside_figure && !place.alone => continue,
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

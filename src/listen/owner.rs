//! Owners: whose a state or an event of a clause is. A bulb that died is no fish, a blocked hose no filter, a new lamp no new
//! tank. In: mentions of a clause. Out: the same without what is told of things that are none of ours. Knows no figure.

use super::bind::Binder;
use super::items::What;
use super::lexicon::Sense;
use super::mention::Noun;
use super::name;
use crate::knowledge::language::Role;

/// What a state belongs to.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Owner {
    /// A mention of ours, by its index.
    Ours(usize),
    /// "the water is green".
    Water,
    /// A part, a device, a thing of the house.
    Foreign,
    /// Nothing of the clause: what carries on.
    Unsaid,
}

impl Binder<'_, '_> {
    /// Takes out every state and event that belongs to something that is none of ours; "the filter died" is no death.
    pub fn states_of_others(&mut self) {
        self.ceased();
        let mut index = 0;
        while index < self.mentions.len() {
            let owner = match self.mentions[index].noun {
                Noun::State { thing, attribute, .. } if is_of_matter(thing, attribute) => self.owner(index),
                _ => {
                    index += 1;
                    continue;
                }
            };
            if self.is_loosely_gone(index, owner) {
                self.mentions.remove(index);
                continue;
            }
            let noun = self.mentions[index].noun;
            let of_device = matches!(noun, Noun::State { thing: name::FILTER | name::EVENT, .. });
            let died = matches!(noun, Noun::State { thing: name::EVENT, kind: name::FISH_DIED, .. });
            let takes_out = match owner {
                // A leak at a hose or a seal is a leak of the filter's.
                Owner::Foreign => !(is_leak(noun) && self.leaks_at(index)),
                Owner::Unsaid => {
                    self.state.foreign && of_device && self.carries_on(index)
                        || self.follows_plain_noun(index)
                        || is_standstill(noun) && self.stops_doing(index)
                }
                Owner::Ours(n) if died => match self.mentions[n].noun {
                    Noun::Filter(_) => {
                        let running = (name::FILTER, name::RUNNING, name::NO);
                        self.mentions[index].noun =
                            Noun::State { thing: running.0, attribute: running.1, kind: running.2 };
                        false
                    }
                    Noun::Stock { .. } => false,
                    _ => true,
                },
                Owner::Water => died,
                // "the mollies stopped flicking": no filter stands still.
                Owner::Ours(n) if is_standstill(noun) => !matches!(
                    self.mentions[n].noun,
                    Noun::Filter(_) | Noun::Label { thing: name::FILTER, .. } | Noun::Tank
                ),
                Owner::Ours(n) => {
                    let ails = matches!(noun, Noun::State { thing: name::STOCK, attribute: name::HEALTH, .. });
                    ails && matches!(self.mentions[n].noun, Noun::Plant(_) | Noun::Medium(_))
                }
            };
            if takes_out {
                self.mentions.remove(index);
            } else {
                index += 1;
            }
        }
        self.note_foreign();
    }

    /// "2 gone", "the tetras are gone", "they have gone"; but not "it has gone quiet", "I have gone over it twice".
    fn is_loosely_gone(&self, index: usize, owner: Owner) -> bool {
        let mention = &self.mentions[index];
        let died = matches!(mention.noun, Noun::State { thing: name::EVENT, kind: name::FISH_DIED, .. });
        if !died || !self.has_role(mention.item, Role::Gone) {
            return false;
        }
        let fish = matches!(owner, Owner::Ours(n) if matches!(self.mentions[n].noun, Noun::Stock { .. }));
        let before = mention.item.checked_sub(1).filter(|i| *i >= self.clause.from);
        let counted = before.is_some_and(|i| matches!(&self.items[i].what, What::Amount(m) if m.is_plain()));
        let ends = mention.last + 1 >= self.clause.to || self.is_verb(mention.last + 1);
        !((fish || counted) && ends || fish && self.has_role(mention.last + 1, Role::Course))
    }

    /// "algae growth has stopped": an everyday noun right before.
    fn follows_plain_noun(&self, index: usize) -> bool {
        let aux = |i: &usize| self.has_role(*i, Role::Have) || self.has_role(*i, Role::Be);
        let before = (self.clause.from..self.mentions[index].item).rev().find(|i| !aux(i));
        before.is_some_and(|i| {
            let noun = self.items[i].what == What::Term && !self.words[self.term(i).last].text.ends_with("ly");
            noun && self.term(i).senses.is_empty() && self.is_plain_word(i)
        })
    }

    /// "it stopped raining"; but "it stopped working".
    fn stops_doing(&self, index: usize) -> bool {
        let next = self.mentions[index].last + 1;
        next < self.clause.to
            && self.is_plain_word(next)
            && self.words[self.term(next).first].text.ends_with("ing")
            && !self.has_role(next, Role::Runs)
    }

    /// A fitting through which a filter's water runs is named before a leak.
    fn leaks_at(&self, index: usize) -> bool {
        (self.clause.from..self.mentions[index].item).any(|i| self.has_role(i, Role::Fitting))
    }

    /// The head noun before a state, or the noun right behind it that it describes.
    fn owner(&self, index: usize) -> Owner {
        let (first, last) = (self.mentions[index].item, self.mentions[index].last);
        // "dead bulb", "brand new bucket", "lost the receipt".
        if let Some(behind) = self.described(index, last) {
            return behind;
        }
        let mut owner = Owner::Unsaid;
        let mut item = first;
        while item > self.clause.from {
            item -= 1;
            let Some(noun) = self.noun_at(item) else { continue };
            owner = noun;
            let from = match noun {
                Owner::Ours(n) => self.mentions[n].item,
                _ => item,
            };
            // "the hose of the canister": the head stands before the preposition.
            let Some(before) = self.head_before(from) else { break };
            item = before;
        }
        owner
    }

    /// The item of a preposition before a noun, small words aside, when a noun may stand before it.
    fn head_before(&self, noun: usize) -> Option<usize> {
        for at in (self.clause.from..noun).rev() {
            let joins =
                [Role::Of, Role::On, Role::In, Role::At, Role::From, Role::For, Role::To, Role::With, Role::Under];
            if joins.iter().any(|r| self.has_role(at, *r)) && !self.is_content(at) {
                return (self.clause.from..at).any(|i| self.noun_at(i).is_some()).then_some(at);
            }
            let small =
                self.has_role(at, Role::Definite) || self.has_role(at, Role::A) || self.has_role(at, Role::Other);
            if !small && !self.is_adjective(at) {
                return None;
            }
        }
        None
    }

    fn is_content(&self, item: usize) -> bool {
        self.items[item].what == What::Term && self.term(item).has_content_named()
    }

    fn is_adjective(&self, item: usize) -> bool {
        self.mentions.iter().any(|m| m.item == item && matches!(m.noun, Noun::State { .. }))
    }

    /// "new hose": what a state right before it describes; "lost the receipt": what was lost.
    fn described(&self, index: usize, last: usize) -> Option<Owner> {
        let noun = self.mentions[index].noun;
        let lost = self.has_role(self.mentions[index].item, Role::Lose);
        let attributive = matches!(
            noun,
            Noun::State { thing: name::TANK | name::FILTER | name::MEDIUM, .. }
                | Noun::State { thing: name::EVENT, kind: name::FISH_DIED, .. }
        );
        let mut item = last + 1;
        if lost {
            while item < self.clause.to && (self.has_role(item, Role::Definite) || self.has_role(item, Role::A)) {
                item += 1;
            }
            let measured =
                matches!(self.items.get(item).map(|i| &i.what), Some(What::Amount(m)) if !m.units.is_empty());
            if item < self.clause.to && measured {
                return Some(Owner::Foreign);
            }
        }
        if item >= self.clause.to || !(attributive || lost) || !lost && self.is_predicate(index) {
            return None;
        }
        // "a grinding noise", "blanket weed everywhere": only of a new or a dead thing any noun will do.
        let any = lost
            || matches!(
                noun,
                Noun::State { thing: name::TANK, attribute: name::CYCLED, .. } | Noun::State { thing: name::EVENT, .. }
            );
        // "a new 16 mm hose", "new inlet pipe".
        let further = (item + 1 < self.clause.to && !self.is_verb(item)).then_some(item + 1);
        let near = self.noun_at(item);
        let part =
            further.filter(|i| self.is_part(*i) && near.is_none_or(|n| n != Owner::Foreign)).map(|_| Owner::Foreign);
        let owner = part
            .or(near)
            .or_else(|| (any && !self.is_verb(item) && self.is_plain_word(item)).then_some(Owner::Foreign))?;
        match owner {
            // "dirty filter", "lost 3 neons": as ever.
            Owner::Ours(n) if matches!(self.mentions[n].noun, Noun::Stock { .. }) => None,
            Owner::Ours(n) if lost => Some(Owner::Ours(n)),
            Owner::Ours(n) => {
                // "new plants", "new media": no new tank.
                let tank = matches!(noun, Noun::State { thing: name::TANK, attribute: name::CYCLED, .. });
                let other = !matches!(self.mentions[n].noun, Noun::Tank | Noun::State { .. });
                (tank && other).then_some(Owner::Foreign)
            }
            Owner::Water | Owner::Unsaid => None,
            Owner::Foreign => Some(Owner::Foreign),
        }
    }

    /// "is not working", "it's humming": told of what stands before, not of the word behind.
    fn is_predicate(&self, index: usize) -> bool {
        let before = self.mentions[index].item.checked_sub(1).filter(|i| *i >= self.clause.from);
        let is = |i: usize| self.has_role(i, Role::Be) || self.has_role(i, Role::Have) || self.has_role(i, Role::Not);
        before.is_some_and(|i| is(i) && !self.has_role(i, Role::Definite))
    }

    /// What noun stands at an item.
    fn noun_at(&self, item: usize) -> Option<Owner> {
        if self.items[item].what != What::Term {
            return None;
        }
        if self.is_part(item) {
            return Some(Owner::Foreign);
        }
        let named = self.mentions.iter().position(|m| m.item <= item && item <= m.last);
        if let Some(index) = named {
            return (!matches!(self.mentions[index].noun, Noun::State { .. })).then_some(Owner::Ours(index));
        }
        if self.has_role(item, Role::Water) {
            return Some(Owner::Water);
        }
        // "my phone", "the instructions": a noun that nothing reads.
        let marked = item > self.clause.from
            && (self.has_role(item - 1, Role::Definite) || self.has_role(item - 1, Role::A))
            && !self.has_role(item - 1, Role::It);
        // "condensation drips": right before what is told of it.
        let leads = item == self.clause.from
            && self.mentions.iter().any(|m| m.item == item + 1 && matches!(m.noun, Noun::State { .. }));
        ((marked || leads) && self.is_plain_word(item)).then_some(Owner::Foreign)
    }

    fn is_part(&self, item: usize) -> bool {
        (self.has_role(item, Role::Part) || self.has_role(item, Role::Elsewhere))
            && !self.mentions.iter().any(|m| m.item <= item && item <= m.last)
    }

    /// An everyday word that is none of ours, not a name that we do not know.
    fn is_plain_word(&self, item: usize) -> bool {
        if self.items[item].what != What::Term {
            return false;
        }
        let term = self.term(item);
        if !term.senses.is_empty() {
            // "the leak": no state where it stands; but "a slow drip".
            let describes = self.mentions.iter().any(|m| m.item == item + 1);
            let state = |s: &Sense| matches!(s, Sense::State { .. } | Sense::Label { .. });
            let mentioned = self.mentions.iter().any(|m| m.item <= item && item <= m.last);
            return term.senses.iter().all(|s| {
                matches!(s, Sense::Common | Sense::Role(Role::Code | Role::Vessel))
                    || state(s) && !mentioned && !describes
            });
        }
        let lexicon = &self.listener.lexicon;
        (term.first..=term.last).all(|w| {
            let word = &self.words[w].text;
            lexicon.is_ordinary(word) || lexicon.knows(word)
        })
    }

    fn is_verb(&self, item: usize) -> bool {
        self.items[item].what != What::Term
            || [Role::Be, Role::Have, Role::Because, Role::And, Role::But, Role::Then, Role::It, Role::Person]
                .iter()
                .any(|r| self.has_role(item, *r))
            || [Role::In, Role::On, Role::At, Role::For, Role::From, Role::To, Role::Of, Role::With, Role::By]
                .iter()
                .any(|r| self.has_role(item, *r))
    }

    /// The clause tells of something that is none of ours: "the bulb died last week", "it beeps every hour".
    pub fn is_of_others(&self) -> bool {
        (self.clause.from..self.clause.to).any(|i| {
            self.items[i].what == What::Term && {
                let term = self.term(i);
                let other = term.is(Role::Part) || term.is(Role::Elsewhere) || term.has_content() && !term.is_noise();
                other || term.senses.iter().all(|s| matches!(s, Sense::Common))
            }
        })
    }

    /// The clause has no subject of its own: "and died on Friday", "it stopped".
    fn carries_on(&self, index: usize) -> bool {
        let first = self.mentions[index].item;
        let it = self.has_role(self.clause.from, Role::It) && !self.has_role(self.clause.from, Role::Have);
        let goes_on =
            self.clause.joint.is_some() && (self.clause.from..first).all(|i| self.is_verb(i) || self.is_empty_word(i));
        (it || goes_on) && (self.clause.from..first).all(|i| self.noun_at(i).is_none())
    }

    /// Notes whether the noun named last is none of ours: what follows without a subject goes on with it.
    fn note_foreign(&mut self) {
        for item in self.clause.from..self.clause.to {
            match self.noun_at(item) {
                Some(Owner::Foreign) if self.head_before(item).is_none() => self.state.foreign = self.is_part(item),
                Some(Owner::Ours(_) | Owner::Water) if self.head_before(item).is_none() => self.state.foreign = false,
                _ => {}
            }
        }
    }
}

fn is_standstill(noun: Noun) -> bool {
    matches!(noun, Noun::State { thing: name::FILTER, attribute: name::RUNNING | name::FLOW_STATE, .. })
}

fn is_leak(noun: Noun) -> bool {
    matches!(noun, Noun::State { thing: name::FILTER, attribute: name::LOOKS, kind: name::LEAKING })
}

/// States and events that a thing of ours must be the subject of.
fn is_of_matter(thing: name::Name, attribute: name::Name) -> bool {
    match thing {
        name::FILTER => matches!(attribute, name::LOOKS | name::FLOW_STATE | name::RUNNING | name::NOISE),
        name::TANK => matches!(attribute, name::LOOKS | name::SMELL | name::CYCLED),
        name::STOCK => attribute == name::HEALTH,
        name::EVENT | name::MEDIUM => attribute == name::KIND || attribute == name::LOOKS,
        _ => false,
    }
}

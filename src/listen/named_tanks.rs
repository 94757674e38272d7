//! Tanks told apart by a name: "the big one", "the fry tank", "the other pond", "the display". In: mentions of a clause, what is
//! known. Out: the tank spoken of, a new one where no other can be meant. Gives no size.

use super::bind::Binder;
use super::found::Found;
use super::items::What;
use super::lexicon::key_of;
use super::mention::Noun;
use super::name;
use super::reading::Says;
use crate::knowledge::language::Role;
use crate::units::Dimension;

/// Names that only compare: which tank they mean follows from what is known.
const BIG: &str = "big";
const SMALL: &str = "small";
const MAIN: &str = "main";
const OTHER: &str = "other";

/// A name for a tank in a clause.
struct TankName {
    name: String,
    /// First and last item that it takes.
    first: usize,
    last: usize,
    /// A noun for the tank stands behind it: "the big tank", not "the big one".
    noun: bool,
}

impl Binder<'_, '_> {
    /// Finds the tanks that are named so: what the clause says is of them.
    pub fn tanks_by_name(&mut self) {
        for item in self.clause.from..self.clause.to {
            let Some(named) = self.tank_name(item) else { continue };
            let Some(number) = self.tank_of_name(&named) else { continue };
            if !matches!(named.name.as_str(), OTHER) {
                self.state.call("tank", &named.name, number);
            }
            self.refer_to_tank(number, named.first, named.last);
        }
        self.tanks_by_kind();
    }

    fn tank_name(&self, item: usize) -> Option<TankName> {
        if self.items[item].what != What::Term {
            return None;
        }
        let term = self.term(item);
        let definite = item > self.clause.from && self.has_role(item - 1, Role::Definite);
        let text = |t: usize| self.words[t].text.as_str();
        // "big tank", "main one", "the other one": phrases of their own.
        let phrase = term.last > term.first;
        let listed = |word: &str| self.listener.tank_names.get(key_of(word).as_str()).map(|n| n.to_string());
        let first = listed(text(term.first));
        let (name, one) = if self.has_role(item, Role::Larger) || self.has_role(item, Role::Smaller) {
            let own = if self.has_role(item, Role::Larger) { BIG } else { SMALL };
            (first.unwrap_or_else(|| own.to_string()), text(term.last).starts_with("one"))
        } else if self.has_role(item, Role::Other) && text(term.first) != "second" {
            (OTHER.to_string(), text(term.last) == "one")
        } else if let Some(name) = first.filter(|_| !phrase && !term.has_content_named()) {
            (name, false)
        } else {
            return None;
        };
        let comes = phrase && (name != OTHER || one);
        let article = definite || phrase && text(term.first) == "the";
        if !(article || comes && item == self.clause.from) {
            return None;
        }
        let mut last = item;
        let mut noun = comes && !one;
        if !comes {
            let next = self.mentions.iter().find(|m| m.item == item + 1);
            let tank = |m: &&super::mention::Mention| {
                m.noun == Noun::Tank || matches!(m.noun, Noun::State { thing: name::TANK, attribute: name::KIND, .. })
            };
            if let Some(mention) = next.filter(|m| tank(m) && !m.plural) {
                (last, noun) = (mention.last, true);
            } else if item + 1 < self.clause.to
                && self.items[item + 1].first == self.items[item + 1].last
                && self.terms[self.items[item + 1].first].is(Role::One)
            {
                last = item + 1;
            } else if self.listener.tank_nouns.contains(key_of(text(term.first)).as_str())
                && (item + 1 >= self.clause.to || self.is_empty_word(item + 1))
            {
                noun = true;
            } else {
                return None;
            }
        }
        // "the small one" of fish or filters is no tank.
        let of_filter = self.mentions.iter().any(|m| {
            matches!(
                m.noun,
                Noun::Filter(_) | Noun::State { thing: name::FILTER, .. } | Noun::Label { thing: name::FILTER, .. }
            )
        });
        let sized = matches!(name.as_str(), BIG | SMALL | MAIN);
        // "hob on the small one": where it stands.
        let placed = matches!(self.preposition(item), Some(Role::On | Role::In | Role::For));
        if !noun
            && (of_filter && !placed
                || !sized && self.state.tanks.len() < 2
                || name == OTHER && self.state.filters.len() > 1)
        {
            return None;
        }
        Some(TankName { name, first: item, last, noun })
    }

    /// The tank of that name: one called so, the one that it compares to, or a new one.
    fn tank_of_name(&self, named: &TankName) -> Option<u16> {
        if let Some(number) = self.state.called("tank", &named.name) {
            return Some(number);
        }
        let tanks = &self.state.tanks;
        let name = named.name.as_str();
        let mut known: Vec<u16> = tanks.iter().map(|t| t.number).collect();
        // Fish, a filter or a test were told of: they have a tank, though nobody named it.
        let implied = known.is_empty()
            && self.state.held.iter().any(|s| s.subject.thing != "keeper" && s.subject.thing != "source");
        if implied {
            known.push(1);
        }
        let next = known.iter().max().map_or(1, |n| n + 1);
        if name == OTHER {
            return match known[..] {
                [_] => Some(next),
                [one, two] => Some(if self.state.tank_in_talk() == one { two } else { one }),
                _ => None,
            };
        }
        let apart = |number: u16| {
            let tank = tanks.iter().find(|t| t.number == number);
            tank.is_some_and(|t| matches!(t.kind.as_deref(), Some("quarantine" | "breeding")))
                || self
                    .state
                    .called
                    .iter()
                    .any(|c| c.thing == "tank" && c.number == number && !matches!(c.name.as_str(), BIG | MAIN))
        };
        let mut sized: Vec<(f64, u16)> =
            tanks.iter().filter_map(|t| Some((t.size?.base().likely?, t.number))).collect();
        sized.sort_by(|a, b| a.0.total_cmp(&b.0));
        let all_sized = sized.len() == tanks.len();
        // "two tanks, the left one is 60 litres": the first that has neither a name nor a size.
        let volume = (self.clause.from..self.clause.to)
            .any(|i| matches!(&self.items[i].what, What::Amount(m) if m.unit_of(Dimension::VOLUME).is_some()));
        let is_unnamed = |n: u16| self.state.called.iter().all(|c| c.thing != "tank" || c.number != n);
        let unnamed = tanks
            .iter()
            .find(|t| t.size.is_none() && is_unnamed(t.number))
            .map(|t| t.number)
            .filter(|_| tanks.len() > 1 && (named.noun || volume));
        match (name, known.as_slice()) {
            (_, []) => named.noun.then_some(1),
            (BIG | MAIN, [_, _, ..]) if all_sized => sized.last().map(|(_, n)| *n),
            (SMALL, [_, _, ..]) if all_sized => sized.first().map(|(_, n)| *n),
            // Of two only one has a size: it was called the big one.
            (BIG | MAIN, [_, _]) if sized.len() == 1 => Some(sized[0].1),
            (SMALL, [one, two]) if sized.len() == 1 => Some(if sized[0].1 == *one { *two } else { *one }),
            (MAIN, [one]) if !apart(*one) => Some(*one),
            // Who speaks of the big tank has another one.
            (BIG | SMALL, [_]) if named.noun || tanks.iter().any(|t| t.here) => Some(next),
            (BIG | SMALL, _) => None,
            // "the kitchen tank", of the only tank that has no name yet: that one, unless it is set against it.
            (_, [one]) if !apart(*one) && !self.is_set_against(named) => Some(*one),
            _ => unnamed.or(named.noun.then_some(next)),
        }
    }

    /// "and for the frag tank", "what about the spare one": not the one spoken of so far.
    fn is_set_against(&self, named: &TankName) -> bool {
        let role = |i: usize| [Role::And, Role::About, Role::For].iter().any(|r| self.has_role(i, *r));
        let led = (self.clause.from..named.first).any(role) || self.clause.joint == Some(Role::And);
        let told = self.state.tanks.iter().any(|t| t.size.is_some() || t.kind.is_some());
        led && told
    }

    /// "the fry tank", "my quarantine tank", beside another one.
    fn tanks_by_kind(&mut self) {
        for index in 0..self.mentions.len() {
            let mention = self.mentions[index].clone();
            let Noun::State { thing: name::TANK, attribute: name::KIND, kind } = mention.noun else { continue };
            if mention.taken {
                continue;
            }
            let word = self.name(kind).to_string();
            let known = self.state.tanks.iter().find(|t| t.kind.as_deref() == Some(word.as_str())).map(|t| t.number);
            let other = || {
                let taken = self.state.tanks.iter().any(|t| t.number == self.state.tank && t.size.is_some() && t.here);
                let free = self.state.tanks.iter().find(|t| t.size.is_none() && t.number != self.state.tank);
                free.filter(|_| taken && mention.article).map(|t| t.number)
            };
            // A tank for a purpose beside one that has fish or a size, and was told of before.
            let apart = || {
                // "the qt": the article is part of the phrase.
                let own = matches!(self.words[self.term(mention.item).first].text.as_str(), "the" | "my" | "our");
                let purpose = matches!(word.as_str(), "quarantine" | "breeding") && (mention.definite || own);
                let [one] = self.state.tanks.as_slice() else { return None };
                let other = one.kind.is_none() && one.size.is_some() && (!one.here || self.clause.starts);
                (purpose && other).then(|| self.state.next_tank())
            };
            if let Some(number) = apart() {
                self.refer_to_tank(number, mention.item, mention.last);
            } else if let Some(number) = known.or_else(other)
                && self.state.tanks.len() > 1
            {
                self.refer_to_tank(number, mention.item, mention.last);
            }
        }
    }

    fn refer_to_tank(&mut self, number: u16, first: usize, last: usize) {
        self.state.tank = number;
        self.state.placed = true;
        let mut found = Found::new(self.tank(number), Says::Present, self.terms_of(first, last));
        (found.bare, found.definite, found.via) = (true, true, Some(Role::In));
        self.push(found);
        for index in 0..self.mentions.len() {
            let mention = self.mentions[index].clone();
            if mention.item < first || mention.last > last {
                continue;
            }
            match mention.noun {
                Noun::Tank => self.mentions[index].taken = true,
                // "the other pond": it is one, too.
                Noun::State { thing: name::TANK, attribute: name::KIND, kind } => {
                    self.mentions[index].taken = true;
                    let of = self.tank(number);
                    self.word(of, name::KIND, self.name(kind), self.terms_of(mention.item, mention.last), None);
                    self.found.iter_mut().rev().take(1).for_each(|f| f.definite = true);
                }
                _ => {}
            }
        }
    }
}

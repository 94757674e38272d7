//! Filters told apart by a name: "the other one", "the left hand one", "one of them", "the two together". In: mentions of a clause,
//! the filters known. Out: the filter spoken of, or the question which. Gives no figure.

use super::bind::Binder;
use super::found::{Doubt, Found, subject};
use super::items::What;
use super::lexicon::key_of;
use super::measure::Measure;
use super::mention::{Mention, Noun};
use super::name;
use super::reading::{Doubtful, Says, Subject};
use crate::knowledge::language::Role;

impl Binder<'_, '_> {
    /// Finds the filter that is named so: what the clause says of a filter is of it.
    pub fn filters_by_name(&mut self) {
        let mut numbers: Vec<u16> =
            self.state.filters.iter().filter(|f| !self.is_beside(f.kind.as_deref())).map(|f| f.number).collect();
        numbers.sort_unstable();
        if numbers.len() < 2 {
            return;
        }
        for item in self.clause.from..self.clause.to {
            if self.items[item].what == What::Term && self.is_other_filter(item) {
                if let [one, two] = numbers[..] {
                    let spoken = if self.state.filter == one { two } else { one };
                    self.speak_of_filter(spoken, item, item);
                } else {
                    self.ask_which_filter(item);
                }
            } else if let Some((name, last)) = self.side_of_filter(item) {
                match self.state.called("filter", &name) {
                    Some(number) => self.speak_of_filter(number, item, last),
                    // Nothing tells them apart so far: the one spoken of gets the name, and the other the other one.
                    None if self.are_alike(&numbers) => {
                        let number = self.unnamed_filter(&numbers);
                        self.state.call("filter", &name, number);
                        self.speak_of_filter(number, item, last);
                    }
                    None => self.ask_which_filter(item),
                }
            } else if self.is_one_of_them(item) && !self.are_alike(&numbers) {
                self.ask_which_filter(item);
            }
        }
    }

    fn is_beside(&self, kind: Option<&str>) -> bool {
        kind.is_some_and(|k| self.listener.beside_filters.iter().any(|b| b == k))
    }

    /// What the clause says of a filter, or that it speaks of one.
    fn speaks_of_filter(&self) -> bool {
        let of_filter = |m: &Mention| m.noun.thing() == name::FILTER;
        self.mentions.iter().any(of_filter)
            || (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Washing))
            || self
                .state
                .held
                .iter()
                .rev()
                .find(|s| s.subject.thing != "keeper")
                .is_some_and(|s| s.subject.thing == "filter")
            || self.state.subject.as_ref().is_some_and(|s| s.thing == "filter")
    }

    /// "the other one", "the other filter", "the other canister".
    fn is_other_filter(&self, item: usize) -> bool {
        if !self.has_role(item, Role::Other) {
            return false;
        }
        let next = self.mentions.iter().find(|m| m.item == item + 1);
        if let Some(mention) = next {
            return matches!(mention.noun, Noun::Filter(_)) && !mention.plural;
        }
        let last = self.words[self.term(item).last].text.as_str();
        let one = last == "one" || item + 1 < self.clause.to && self.terms[self.items[item + 1].first].is(Role::One);
        one && self.speaks_of_filter() && !self.mentions.iter().any(|m| m.noun == Noun::Tank)
    }

    /// "the left hand one", "the top filter": where it stands.
    fn side_of_filter(&self, item: usize) -> Option<(String, usize)> {
        if self.items[item].what != What::Term || !(item > self.clause.from && self.has_role(item - 1, Role::Definite))
        {
            return None;
        }
        let term = self.term(item);
        let name = self.listener.tank_names.get(key_of(&self.words[term.first].text).as_str())?;
        let mut next = item + 1;
        // "left hand": two words.
        if next < self.clause.to
            && self.items[next].what == What::Term
            && self.words[self.term(next).first].text == "hand"
        {
            next += 1;
        }
        let filter = self.mentions.iter().any(|m| m.item == next && matches!(m.noun, Noun::Filter(_)));
        let one = next < self.clause.to && self.terms[self.items[next].first].is(Role::One) && self.speaks_of_filter();
        (filter || one).then(|| (name.to_string(), next))
    }

    /// "one of them has started rattling".
    fn is_one_of_them(&self, item: usize) -> bool {
        let first = self.items[item].first;
        let phrase = self.has_role(item, Role::Of) && self.words[self.term(item).first].text == "one";
        (phrase || self.terms[first].is(Role::One))
            && (phrase
                || self.items[item].last > first && self.words[self.terms[self.items[item].last].last].text == "of"
                || self.has_role(item + 1, Role::Of))
            && self.mentions.iter().any(|m| matches!(m.noun, Noun::State { thing: name::FILTER, .. }))
            && !self.mentions.iter().any(|m| matches!(m.noun, Noun::Stock { .. } | Noun::Tank))
    }

    /// "the two together did 3000 an hour": of all of them, nobody said how much of each.
    pub fn flow_of_all(&mut self, item: usize, measure: &Measure) -> bool {
        let filters = self.state.filters.iter().filter(|f| !self.is_beside(f.kind.as_deref())).count();
        let role =
            |i: usize| self.has_role(i, Role::Altogether) || self.has_role(i, Role::Both) || self.is_pronoun_number(i);
        let all = measure.in_all || (self.clause.from..item).any(role);
        // "the two do 1500 lph each": every one of them.
        if measure.each && all && self.state.group.len() < 2 {
            let main = self.state.filters.iter().filter(|f| !self.is_beside(f.kind.as_deref()));
            (self.state.group, self.state.told) = (main.map(|f| f.number).collect(), 0);
            self.state.filter = self.state.group.first().copied().unwrap_or(self.state.filter);
        }
        let named = self.mentions.iter().any(|m| matches!(m.noun, Noun::Filter(Some(_))));
        if filters < 2 || !all || measure.each || named {
            return false;
        }
        let terms = self.terms_of(item, item);
        let said = self.said(&terms).to_string();
        self.doubts.push(Doubt::new(Doubtful::Ambiguous, format!("{said} in all: what does each of them do?"), terms));
        true
    }

    /// "the two", with no noun behind it: stands for things told of, and counts nothing.
    pub fn is_pronoun_number(&self, item: usize) -> bool {
        let What::Amount(measure) = &self.items[item].what else { return false };
        let few = measure.is_plain()
            && !measure.article
            && measure.value().is_some_and(|v| (2.0..=12.0).contains(&v) && v.fract() == 0.0);
        let noun = self.mentions.iter().any(|m| m.item > item && m.item <= item + 2);
        let word = self.term(item).numeral().is_none();
        few && word && item > self.clause.from && self.has_role(item - 1, Role::Definite) && !noun
    }

    /// Of one kind, and nothing else was told of one and not of the others but what goes wrong with it.
    fn are_alike(&self, numbers: &[u16]) -> bool {
        let told = |number: u16| -> Vec<(&str, &super::reading::Said)> {
            let of = |s: &&super::reading::Statement| s.subject.thing == "filter" && s.subject.number == number;
            let mut told: Vec<_> = self
                .state
                .held
                .iter()
                .filter(of)
                .filter_map(|s| match &s.says {
                    Says::Value { attribute, value, .. }
                        if matches!(attribute.as_str(), "kind" | "rated flow" | "claim" | "baskets") =>
                    {
                        Some((attribute.as_str(), value))
                    }
                    _ => None,
                })
                .collect();
            told.sort_by(|a, b| a.0.cmp(b.0));
            told
        };
        let kinds: Vec<_> =
            self.state.filters.iter().filter(|f| numbers.contains(&f.number)).map(|f| f.kind.as_deref()).collect();
        kinds.windows(2).all(|k| k[0] == k[1]) && numbers.windows(2).all(|n| told(n[0]) == told(n[1]))
    }

    /// The filter spoken of, when it has no name; else one that has none.
    fn unnamed_filter(&self, numbers: &[u16]) -> u16 {
        let has_name = |n: u16| self.state.called.iter().any(|c| c.thing == "filter" && c.number == n);
        let spoken = self.state.filter;
        if numbers.contains(&spoken) && !has_name(spoken) {
            return spoken;
        }
        numbers.iter().copied().find(|n| !has_name(*n)).unwrap_or(spoken)
    }

    fn speak_of_filter(&mut self, number: u16, first: usize, last: usize) {
        self.state.filter = number;
        let of = Subject { number, tank: self.state.tank, ..subject("filter", None) };
        let mut found = Found::new(of, Says::Present, self.terms_of(first, last));
        (found.bare, found.definite) = (true, true);
        self.push(found);
        if !self.state.group.contains(&number) {
            self.state.group.clear();
        }
        // "the left hand canister": the one named, and no new one.
        for mention in self.mentions.iter_mut().filter(|m| matches!(m.noun, Noun::Filter(_)) && m.item <= last + 1) {
            mention.taken = true;
        }
    }

    /// Which filter is meant cannot be told: nothing of the clause is given to one.
    fn ask_which_filter(&mut self, item: usize) {
        let kinds: Vec<String> = self
            .state
            .filters
            .iter()
            .filter(|f| !self.is_beside(f.kind.as_deref()))
            .map(|f| f.kind.clone().unwrap_or_else(|| "filter".into()))
            .collect();
        let said = self.said(&self.terms_of(item, item)).to_string();
        let mut terms = self.terms_of(item, item);
        for mention in self.mentions.iter_mut().filter(|m| m.noun.thing() == name::FILTER) {
            mention.taken = true;
            terms.extend(self.items[mention.item].first..=self.items[mention.last].last);
        }
        terms.sort_unstable();
        let ask = format!("Which filter is {said}: {}?", crate::source::words::or_list(&kinds));
        self.doubts.push(Doubt::new(Doubtful::Which, ask, terms));
    }
}

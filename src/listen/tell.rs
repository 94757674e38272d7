//! Telling: what one clause says of things: negation, states, things that are there or not. In: a binder on the clause.
//! Out: all its findings, figures included. Knows no question.

use super::bind::Binder;
use super::found::{Found, subject};
use super::items::What;
use super::lexicon::Sense;
use super::mention::{Mention, Noun};
use super::name::{self, Name};
use super::reading::{Level, Says, Subject};
use super::stock::mention_mark;
use crate::knowledge::language::{LevelWord, Role};

impl Binder<'_, '_> {
    /// Reads the whole clause.
    pub fn tell(&mut self) {
        self.leave_out_unfit();
        self.double_words();
        self.negations();
        self.reshape();
        self.announce_order();
        self.happenings();
        self.unsure_readings();
        self.reading_levels();
        self.never_yet();
        self.none_in_tank();
        self.figures();
        self.unknown_of_group();
        self.wishes();
        self.dosing();
        for index in 0..self.mentions.len() {
            if !self.mentions[index].taken {
                self.noun(index);
            }
        }
        self.they_are_in();
        self.hatched();
        self.note_places();
    }

    /// Marks every mention that a negation reaches: up to the end of the clause, over "or", not over "only".
    fn negations(&mut self) {
        let (from, to) = (self.clause.from, self.clause.to);
        let mut reach = false;
        let (mut thinks, mut only_acts) = (false, false);
        // "carbon no, floss yes" without its comma: each word behind its noun.
        let behind = to > from
            && self.items[to - 1].what == What::Term
            && self.term(to - 1).senses.iter().any(|s| matches!(s, Sense::Act(super::reading::Act::Agree)))
            && self.mentions.len() > 1;
        for item in from..to {
            if self.items[item].what != What::Term {
                continue;
            }
            let term = self.term(item);
            let no = term.is(Role::No) || term.is(Role::Without);
            if no || term.is(Role::Not) || term.is(Role::Thinking) {
                // "no sorry no fry": the first is an answer.
                let answers = item == from
                    && no
                    && item + 1 < to
                    && (self.has_role(item + 1, Role::Correct)
                        || self.has_role(item + 1, Role::No)
                        || self.has_role(item + 1, Role::Not));
                if answers {
                    self.correcting = true;
                    continue;
                }
                // "40 gal, no 50 gal": another figure for the one just said.
                let figure =
                    item == from && no && to == from + 2 && matches!(self.items[from + 1].what, What::Amount(_));
                if figure && self.clause.joint.is_none() && self.state.last.is_some() {
                    self.correcting = true;
                    continue;
                }
                // "hex? no box": the answer to the question before it.
                let state = |m: &Mention| match m.noun {
                    Noun::State { thing, attribute, .. } => Some((thing, attribute)),
                    _ => None,
                };
                if item == self.clause.answer && item > from && no {
                    let asked = self.mentions.iter().position(|m| m.last < item && state(m).is_some());
                    let told = self.mentions.iter().position(|m| m.item == item + 1 && state(m).is_some());
                    if let (Some(asked), Some(told)) = (asked, told)
                        && state(&self.mentions[asked]) == state(&self.mentions[told])
                    {
                        self.mentions[asked].taken = true;
                        continue;
                    }
                }
                // "no the fry": a correction, not a lack.
                if item == from && term.is(Role::No) && item + 1 < to && self.has_role(item + 1, Role::Definite) {
                    self.correcting = true;
                    continue;
                }
                if behind && no {
                    if let Some(last) = self.mentions.iter_mut().rev().find(|m| m.last + 1 == item) {
                        last.negated = true;
                    }
                } else if self.mentions.iter().any(|m| m.item > item) {
                    // "not without plants": twice negated is there; "no fry no plants" is neither.
                    reach = !(reach && item > from && self.has_role(item - 1, Role::Not));
                    thinks |= term.is(Role::Thinking);
                    only_acts = term.is(Role::Not) && !no;
                } else if (no || (item + 1..to).any(|i| self.has_role(i, Role::Have) || self.has_role(i, Role::Doing)))
                    && (item + 1..to).all(|i| self.is_empty_word(i) && !self.has_role(i, Role::Elsewhere))
                {
                    // "fry no", "plants: none": behind the noun.
                    let near = |m: &&mut Mention| m.last < item && m.last + 3 >= item;
                    if let Some(last) = self.mentions.iter_mut().rev().find(near) {
                        last.negated = !last.negated;
                    }
                }
                continue;
            }
            if term.is(Role::Lacking) && term.hyphen {
                if let Some(last) = self.mentions.iter_mut().find(|m| m.last + 1 == item) {
                    last.negated = true;
                }
                continue;
            }
            // "no carbon in the filter", "no money for a big filter": the place is not denied.
            let placed = [Role::In, Role::On, Role::For, Role::At, Role::From, Role::With].iter().any(|r| term.is(*r));
            if term.is(Role::Only) || placed && !term.has_content() {
                reach = false;
            }
            // "no light no co2": a phrase that denies for itself.
            if term.first < term.last && matches!(self.words[term.first].text.as_str(), "no" | "not" | "without") {
                reach = false;
            }
            only_acts &= !term.is(Role::Have) && !term.is(Role::In);
            if reach && let Some(mention) = self.mentions.iter_mut().find(|m| m.item == item) {
                // "the filter isn't on", "don't think the filter copes": the thing is there.
                let thing = matches!(
                    mention.noun,
                    Noun::Filter(_) | Noun::Stock { .. } | Noun::Medium(_) | Noun::Plant(_) | Noun::Tank
                );
                let kept = thing && (thinks || only_acts && mention.definite) && !self.asking;
                mention.negated ^= !kept;
            }
            // "didn't touch the rings": what was not done is denied, not the rings.
            if term.is(Role::Acts)
                || term.is(Role::Washing)
                || term.is(Role::Move)
                || term.labels().any(|(_, a)| a == name::CLEANED)
            {
                reach = false;
            }
        }
        self.not_spoken_of();
        self.denied_troubles();
        // "took the carbon out", "carbon out": gone.
        let gone = (from..to).any(|i| self.has_role(i, Role::Gone));
        let wish = (from..to).any(|i| self.has_role(i, Role::Wish));
        let undone = (from..to).any(|i| self.has_role(i, Role::Forgot) || self.has_role(i, Role::Not));
        if gone && !wish && !undone {
            let out = |m: &Mention| matches!(m.noun, Noun::Medium(Some(_)) | Noun::Treatment(_));
            if self.mentions.iter().filter(|m| out(m)).count() == 1 {
                self.mentions.iter_mut().filter(|m| out(m)).for_each(|m| m.negated = true);
            }
        }
    }

    /// Notes that what these terms tell was said not to be so; the word that denies it belongs to it.
    pub fn deny(&mut self, terms: &[usize]) {
        let (Some(first), Some(last)) = (terms.iter().min(), terms.iter().max()) else { return };
        let denies =
            |i: &usize| [Role::Not, Role::No, Role::Without, Role::Forgot].iter().any(|r| self.has_role(*i, *r));
        let word = (self.clause.from..self.clause.to).find(denies).map_or(*first, |i| self.items[i].first);
        self.denied.push((word.min(*first), word.max(*last)));
    }

    /// "not the fish I'm asking about": says nothing of the fish.
    fn not_spoken_of(&mut self) {
        let speaks = |i: &usize| self.has_role(*i, Role::Speaking);
        let Some(speaking) = (self.clause.from..self.clause.to).find(speaks) else { return };
        for mention in self.mentions.iter_mut().filter(|m| m.negated && m.last < speaking) {
            (mention.negated, mention.taken) = (false, true);
        }
    }

    /// A mention that no figure has taken.
    fn noun(&mut self, index: usize) {
        let mention = self.mentions[index].clone();
        // "no fry lost": neither the fry nor the loss is denied or told.
        if self.event_in_clause() == Some(name::FISH_DIED)
            && self.clause_negates()
            && matches!(mention.noun, Noun::Stock { .. } | Noun::State { thing: name::EVENT, .. })
        {
            self.deny(&self.terms_of(mention.item, mention.last));
            return;
        }
        match mention.noun {
            Noun::Stock { .. } => self.stock_present(index),
            Noun::Filter(_) => self.filter_present(index),
            Noun::Medium(Some(_)) => self.medium_present(index),
            Noun::Plant(_) => {
                let of = self.subject_for(name::PLANT, None, mention.item);
                let says = if mention.negated { Says::Absent } else { Says::Present };
                let mut found =
                    Found::new(of, says, self.terms_of(mention.item, mention.last)).marked(mention_mark(&mention));
                (found.bare, found.definite) = (!mention.negated, mention.definite);
                self.push(found);
            }
            Noun::State { thing, attribute, kind } => self.state_word(index, thing, attribute, kind),
            // "no change in the water": no talk of changing it.
            Noun::Change if mention.negated && self.has_role(mention.last + 1, Role::In) => {}
            Noun::Change if mention.negated => {
                let of = self.subject_for(name::CHANGE, None, mention.item);
                self.push(Found::new(of, Says::Absent, self.terms_of(mention.item, mention.last)));
            }
            Noun::Label { thing: name::FILTER, attribute } => self.filter_label(index, attribute),
            // "tanks" of nobody's: says nothing of this one.
            Noun::Tank if mention.plural && !mention.definite && self.clause.to <= mention.last + 1 => {}
            Noun::Tank => {
                let of = self.tank(self.state.tank);
                let mut found = Found::new(of, Says::Present, self.terms_of(mention.item, mention.last));
                (found.bare, found.definite) = (true, mention.definite);
                self.push(found);
            }
            Noun::Medium(None)
            | Noun::Treatment(_)
            | Noun::Source
            | Noun::Change
            | Noun::Feed
            | Noun::Test
            | Noun::Label { .. } => {}
        }
    }

    /// A label of the filter without figure: "flow unknown", "no guard".
    fn filter_label(&mut self, index: usize, attribute: Name) {
        let mention = self.mentions[index].clone();
        let terms = self.terms_of(mention.item, mention.last);
        let unknown = self.clause_has(|s| matches!(s, Sense::Level(LevelWord::Unknown)));
        if unknown && attribute == name::RATED_FLOW {
            let of = self.filter_subject(None, mention.item);
            return self.level(of, attribute, Level::Unknown, terms);
        }
        if mention.negated && attribute == name::INTAKE_GUARD {
            let of = self.filter_subject(None, mention.item);
            self.word(of, attribute, self.name(name::NONE), terms, None);
        }
    }

    /// A state: "cloudy", "bare", "gasping", "running".
    fn state_word(&mut self, index: usize, thing: Name, attribute: Name, kind: Name) {
        let mention = self.mentions[index].clone();
        let terms = self.terms_of(mention.item, mention.last);
        let mark = mention_mark(&mention);
        if thing == name::EVENT {
            let text = self.name(kind).to_string();
            let of = self.event(&text);
            let of_reading = self.mentions.iter().any(|m| matches!(m.noun, Noun::Label { thing: name::READING, .. }));
            if kind == name::MEDICATED && of_reading {
                return;
            }
            if kind == name::SPAWNED {
                self.spawned(index);
            }
            if mention.negated {
                self.deny(&terms);
            } else if !self.found.iter().any(|f| f.subject == of && f.says == Says::Present) {
                self.push(Found::new(of.clone(), Says::Present, terms.clone()).marked(mark));
            }
            // "the small one died": one of them.
            let one = |i: usize| {
                self.has_role(i, Role::One) || self.has_role(i, Role::Smaller) || self.has_role(i, Role::Larger)
            };
            if kind == name::FISH_DIED && !mention.negated && mention.item > self.clause.from && one(mention.item - 1) {
                let definite = (self.clause.from..mention.item).any(|i| self.has_role(i, Role::Definite));
                let counted = self.found.iter().any(|f| f.subject == of && f.attribute() == Some("count"));
                if definite && !counted {
                    let says = Says::Value {
                        attribute: self.name(name::COUNT).to_string(),
                        how: super::reading::How::Set,
                        value: super::reading::Said::Amount(crate::units::Amount::count(1.0)),
                    };
                    self.push(Found::new(of, says, terms).marked(Some(super::reading::Mark::Derived)));
                }
            }
            return;
        }
        // "humming really loud": how much of it, no other noise.
        if (thing, attribute) == (name::FILTER, name::NOISE)
            && self.found.iter().any(|f| f.attribute() == Some(self.name(name::NOISE)))
        {
            return;
        }
        // "ok 8 corys": a word of courtesy, not their health.
        let before_stock = self.mentions.get(index + 1).is_some_and(|m| matches!(m.noun, Noun::Stock { .. }));
        if thing == name::STOCK && self.term(mention.item).level().is_some() && before_stock {
            return;
        }
        // The event tells it already.
        if attribute == name::CLEANED_WITH && self.happened().is_some_and(|e| e.starts_with("washed")) {
            return;
        }
        if matches!(attribute, name::AMMONIA_AS | name::NITRITE_AS | name::NITRATE_AS) {
            return self.counted_as(index);
        }
        let mut terms = terms;
        if (thing, attribute) == (name::FILTER, name::INTAKE_GUARD) {
            let of_guard = |m: &&Mention| m.noun == Noun::Label { thing, attribute };
            let labels: Vec<Mention> = self.mentions.iter().filter(of_guard).cloned().collect();
            labels.iter().for_each(|m| terms.extend(self.terms_of(m.item, m.last)));
        }
        let mut kind = self.name(kind);
        // "dechlor forgot", "conditioner not used": denied behind the noun.
        let undone =
            |i: usize| i > mention.last && [Role::Forgot, Role::Not, Role::Never].iter().any(|r| self.has_role(i, *r));
        if attribute == name::TREATED && kind == "yes" && (self.clause.from..self.clause.to).any(undone) {
            kind = "no";
        } else if mention.negated {
            let Some(opposite) = self.opposite(thing, attribute, kind) else { return self.deny(&terms) };
            kind = opposite;
        }
        let of = match thing {
            name::STOCK => self.stock_of_state(index),
            name::TANK if attribute == name::SUBSTRATE && self.is_medium_here() => return,
            // "a bag of zeolite": what is behind it, not before.
            name::MEDIUM if attribute == name::BAGGED && self.has_role(mention.last + 1, Role::Of) => {
                let next = self.mentions.get(index + 1).filter(|m| m.item <= mention.last + 3).cloned();
                match next.filter(|m| matches!(m.noun, Noun::Medium(Some(_)))) {
                    Some(medium) => self.mention_subject(&medium),
                    None => return,
                }
            }
            // "coarse foam": the grade of the medium behind it.
            name::MEDIUM if attribute == name::GRADE => {
                let next = self.mentions.get(index + 1).filter(|m| m.item == mention.last + 1).cloned();
                let before =
                    index.checked_sub(1).map(|i| self.mentions[i].clone()).filter(|m| m.last + 1 == mention.item);
                let medium = |m: &Mention| matches!(m.noun, Noun::Medium(Some(_)));
                match next.filter(medium).or(before.filter(medium)) {
                    Some(medium) => self.mention_subject(&medium),
                    None => return,
                }
            }
            _ => self.subject_for(thing, None, mention.item),
        };
        self.word(of.clone(), attribute, kind, terms.clone(), mark);
        // "the canister stopped": neither running nor flowing.
        if thing == name::FILTER && matches!(attribute, name::RUNNING | name::FLOW_STATE) && !mention.negated {
            for (other_attribute, other) in self.other_states(mention.item, attribute) {
                let other = self.name(other).to_string();
                self.word(of.clone(), other_attribute, &other, terms.clone(), mark);
            }
        }
    }

    /// What else a word says of the filter's running.
    fn other_states(&self, item: usize, told: Name) -> Vec<(Name, Name)> {
        let of = |s: &Sense| match s {
            Sense::State { thing: name::FILTER, attribute, kind } => Some((*attribute, *kind)),
            _ => None,
        };
        let both = |a: &(Name, Name)| a.0 != told && matches!(a.0, name::RUNNING | name::FLOW_STATE);
        self.term(item).senses.iter().filter_map(of).filter(both).collect()
    }

    /// The other of two kinds, or "none" where the attribute has it.
    fn opposite(&self, thing: Name, attribute: Name, kind: &str) -> Option<&'static str> {
        match kind {
            "yes" => Some("no"),
            "no" => Some("yes"),
            _ if attribute == name::INTAKE_GUARD && thing == name::FILTER => Some("none"),
            "dirty" if thing == name::FILTER => Some("clean"),
            "clogged" => Some("clean"),
            _ => None,
        }
    }

    fn is_medium_here(&self) -> bool {
        self.mentions.iter().any(|m| matches!(m.noun, Noun::Medium(_) | Noun::Filter(_)))
    }

    /// The fish that a state word belongs to: the one behind it, before it, spoken of, or any.
    fn stock_of_state(&mut self, index: usize) -> Subject {
        let is_stock = |m: &Mention| matches!(m.noun, Noun::Stock { .. });
        let next =
            self.mentions.get(index + 1).filter(|m| is_stock(m) && m.item <= self.mentions[index].last + 2).cloned();
        let before = self.mentions[..index].iter().rev().find(|m| is_stock(m)).cloned();
        match next.or(before) {
            Some(mention) => self.mention_subject(&mention),
            None => match self.state.stock.clone().filter(|_| self.is_one_kind()) {
                Some(stock) => stock,
                None => Subject { tank: self.state.tank, ..subject("stock", None) },
            },
        }
    }

    /// Only one kind of fish is known, or fish were spoken of last.
    fn is_one_kind(&self) -> bool {
        let mut kinds: Vec<&Option<String>> =
            self.state.held.iter().filter(|s| s.subject.thing == "stock").map(|s| &s.subject.kind).collect();
        kinds.sort_unstable();
        kinds.dedup();
        kinds.len() == 1 || self.state.subject.as_ref().is_some_and(|s| s.thing == "stock")
    }

    /// First and last word of the clause.
    pub fn words_of_clause(&self) -> (usize, usize) {
        (self.terms[self.items[self.clause.from].first].first, self.terms[self.items[self.clause.to - 1].last].last)
    }
}

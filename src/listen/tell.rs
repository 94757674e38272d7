//! Telling: what one clause says of things: negation, states, things that are there or not. In: a binder on the clause.
//! Out: all its findings, figures included. Knows no question.

use super::bind::Binder;
use super::found::Found;
use super::items::What;
use super::lexicon::Sense;
use super::mention::{Mention, Noun};
use super::name::{self};
use super::reading::Says;
use super::stock::mention_mark;
use crate::knowledge::language::Role;

impl Binder<'_, '_> {
    /// Reads the whole clause.
    pub fn tell(&mut self) {
        self.leave_out_unfit();
        self.losing();
        self.double_words();
        self.negations();
        self.compounds();
        self.treated_whom();
        self.states_of_others();
        self.reshape();
        self.announce_order();
        self.happenings();
        self.unsure_readings();
        self.reading_levels();
        self.never_yet();
        self.none_in_tank();
        self.courses();
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
            if term.is(Role::Put) && only_acts
                || term.is(Role::Acts)
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
            && !(matches!(mention.noun, Noun::State { .. }) && self.denied_by(self.items[mention.item].first).is_some())
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

    /// First and last word of the clause.
    pub fn words_of_clause(&self) -> (usize, usize) {
        (self.terms[self.items[self.clause.from].first].first, self.terms[self.items[self.clause.to - 1].last].last)
    }
}

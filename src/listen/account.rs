//! Accounting: what became of every word. In: the claims of statements, questions, acts and doubts. Out: the word list and
//! the unread spans of the reading. Drops nothing in silence.

use super::clause::Clause;
use super::found::{Doubt, Found};
use super::items::What;
use super::lexicon::Sense;
use super::name;
use super::reading::{Act, Became, Reading};
use super::term::Term;
use super::turn::Turn;
use super::words::Sort;
use crate::knowledge::language::Role;
use crate::source::Span;

impl Turn<'_, '_> {
    pub fn doubt(&mut self, doubt: Doubt) {
        let index = self.reading.back.len();
        let span = self.span_of(&doubt.terms);
        self.claim(&doubt.terms, Became::AskedBack(index));
        self.reading.back.push(doubt.into_ask_back(span));
    }

    /// Marks the words of terms, first come first served.
    pub fn claim(&mut self, terms: &[usize], became: Became) {
        for term in terms {
            let Some(term) = self.terms.get(*term) else { continue };
            for word in term.first..=term.last {
                let slot = &mut self.became[word];
                if slot.is_none() || matches!(slot, Some(Became::Unread)) {
                    *slot = Some(became.clone());
                }
            }
        }
    }

    /// Notes an act, once a turn, and claims its terms for it; what is none of ours keeps its words to be shown.
    pub fn act(&mut self, act: Act, terms: &[usize]) {
        let known = self.reading.acts.iter().position(|(a, _)| *a == act);
        let index = known.unwrap_or_else(|| {
            let span = self.span_of(terms);
            self.reading.acts.push((act, span));
            self.reading.acts.len() - 1
        });
        self.claim(terms, if act == Act::OffTopic { Became::Unread } else { Became::Act(index) });
    }

    /// Gives each finding the words of its clause that name what it is of: "tap" in "tap nitrate 40", "on the intake" in "a
    /// sponge on the intake". They steered the reading though another word carries the value.
    pub fn names_of(&self, clause: Clause, found: &mut [Found]) {
        let text = |name| self.listener.lexicon.text(name);
        for item in &self.items[clause.from..clause.to] {
            let term = &self.terms[item.first];
            if item.what != What::Term || found.iter().any(|f| f.terms.contains(&item.first)) {
                continue;
            }
            let names = |f: &&mut Found| {
                let label = term
                    .labels()
                    .any(|(thing, attribute)| text(thing) == f.subject.thing && f.attribute() == Some(text(attribute)));
                label || self.is_called(f, term) || f.subject.thing == text(name::SOURCE) && is_of_source(term)
            };
            if let Some(finding) = found.iter_mut().find(names) {
                finding.terms.push(item.first);
            }
        }
    }

    /// "The water is cloudy": the look of the water is what is called cloudy.
    fn is_called(&self, found: &Found, term: &Term) -> bool {
        let names = &self.listener.lexicon.names;
        let known = || {
            let (thing, attribute) = (names.find(&found.subject.thing)?, names.find(found.attribute()?)?);
            self.listener.attributes.get(thing, attribute)
        };
        let word = &self.words[term.first].text;
        word.len() > 2 && known().is_some_and(|a| a.called.split(' ').any(|part| part == word))
    }

    pub fn span_of(&self, terms: &[usize]) -> Span {
        let mut span: Option<Span> = None;
        for term in terms.iter().filter_map(|t| self.terms.get(*t)) {
            let here = self.words[term.first].span.to(self.words[term.last].span);
            span = Some(span.map_or(here, |s| s.to(here)));
        }
        span.unwrap_or(Span::new(0, self.text.len()))
    }

    /// Accounts for every word and gives the reading.
    pub fn finish(mut self) -> Reading {
        self.reading.called = std::mem::take(&mut self.state.called);
        let mut noise = vec![false; self.words.len()];
        for (at, item) in self.items.iter().enumerate() {
            // "it's an internal one": the word stands for what was named.
            let names = |i: &super::items::Item| i.what == What::Term && self.terms[i.first].has_content();
            let stands_for = item.first == item.last
                && self.terms[item.first].is(Role::One)
                && at.checked_sub(1).is_some_and(|before| names(&self.items[before]));
            let plain = matches!(item.what, What::Term | What::Mark(_) | What::Spoken(_));
            // "the smell has gone"; but "the water has gone green".
            let ends = self.items.get(at + 1).is_none_or(|next| matches!(next.what, What::Mark(_)));
            let is_gone = ends && self.terms[item.last].is(Role::Gone) && self.terms[item.last].is(Role::Course);
            for term in item.first..=item.last {
                let t = &self.terms[term];
                let quiet = t.mark().is_some()
                    || stands_for
                    || matches!(item.what, What::Spoken(_))
                    || plain && t.is_noise() && !is_word_of_note(t) && !self.is_lost(term) && !is_gone;
                noise[t.first..=t.last].fill(quiet);
            }
        }
        for (at, word) in self.words.iter().enumerate() {
            let became = match self.became[at].take() {
                Some(became) => became,
                None if matches!(word.sort, Sort::Mark(_)) || noise[at] => Became::Noise,
                None => Became::Unread,
            };
            if became == Became::Unread {
                let joins = self.reading.unread.last().is_some_and(|last| {
                    at > 0
                        && self.words[at - 1].span.end == last.end
                        && self.text.get(last.end..word.span.start).is_some_and(|gap| !gap.contains('\n'))
                });
                match self.reading.unread.last_mut() {
                    Some(last) if joins => last.end = word.span.end,
                    _ => self.reading.unread.push(word.span),
                }
            }
            self.reading.words.push(super::reading::WordUse { span: word.span, became });
        }
        self.reading
    }
}

/// "tap", "rain water": the new water or a kind of it.
fn is_of_source(term: &Term) -> bool {
    let kind = |s: &Sense| matches!(s, Sense::State { thing, .. } if *thing == name::SOURCE);
    term.names_thing(name::SOURCE) || term.senses.iter().any(kind)
}

/// A word of a role that must be shown when nothing used it.
fn is_word_of_note(term: &Term) -> bool {
    let noted = [
        Role::Code,
        Role::Elsewhere,
        Role::Colour,
        Role::Other,
        Role::Vessel,
        Role::TradeSize,
        Role::Device,
        Role::Trouble,
        Role::Acts,
        Role::Forgot,
        Role::Past,
        Role::Unreal,
        Role::Aim,
        Role::Leaving,
    ];
    if term.is(Role::Said) {
        return true;
    }
    let washing = term.is(Role::Washing) && !term.is(Role::Doing);
    ((noted.iter().any(|r| term.is(*r)) || washing) && !term.is(Role::Noise))
        || term.senses.iter().any(|s| matches!(s, Sense::Act(Act::OffTopic)))
        || term.senses.iter().all(|s| matches!(s, Sense::Common))
}

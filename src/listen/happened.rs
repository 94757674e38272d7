//! What happened: events told by cues, when, and what they make so. In: a binder on the clause. Out: findings on events and on
//! what follows from them. Knows no danger.

use super::bind::Binder;
use super::cues::{Happened, Weighed};
use super::found::{Doubt, Found, subject};
use super::items::What;
use super::mention::Noun;
use super::name;
use super::reading::{Doubtful, How, Said, Says, Statement, Subject, TimeRelation};
use super::term::Heard;
use super::time_words::Time;
use crate::knowledge::language::Role;

impl Binder<'_, '_> {
    /// "no filter problems": the trouble is denied, not the filter.
    pub fn denied_troubles(&mut self) {
        for index in 0..self.mentions.len() {
            let mention = self.mentions[index].clone();
            let trouble = mention.last + 1;
            if !mention.negated || !self.has_role(trouble, Role::Trouble) {
                continue;
            }
            self.mentions[index].taken = true;
            if !matches!(mention.noun, Noun::Filter(_)) {
                continue;
            }
            let of = self.filter_subject(None, mention.item);
            let terms = self.terms_of(mention.item, trouble);
            let says = Says::Value {
                attribute: self.name(name::RUNNING).to_string(),
                how: How::Set,
                value: Said::Word(self.name(name::YES).to_string()),
            };
            let runs = Statement { span: Default::default(), subject: of, says, mark: None };
            let readings = vec![("yes".to_string(), vec![runs])];
            let ask = "So there is a filter, and it runs well?";
            self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
        }
    }

    /// "they are in 35 litres": the fish asked about are there.
    pub fn they_are_in(&mut self) {
        let tank = self.found.iter().any(|f| f.subject.thing == "tank" && f.via == Some(Role::In));
        let they = self.has_role(self.clause.from, Role::Person) && self.has_role(self.clause.from, Role::It);
        let Some(of) = self.state.stock.clone() else { return };
        let known = self.state.held.iter().any(|s| super::state::same_thing(&s.subject, &of));
        if !tank || !they || known || self.asking || self.found.iter().any(|f| f.subject.thing == "stock") {
            return;
        }
        let terms = self.terms_of(self.clause.from, self.clause.from);
        let mut found = Found::new(of, Says::Present, terms);
        found.bare = true;
        self.push(found);
    }

    /// "losing a tetra a day": deaths, and none of those that are there.
    pub fn losing(&mut self) {
        let losing = |i: &usize| {
            let term = self.term(*i);
            self.items[*i].what == What::Term && self.words[term.first].text == "losing"
        };
        let Some(at) = (self.clause.from..self.clause.to).find(losing) else { return };
        let stock = |m: &super::mention::Mention| matches!(m.noun, Noun::Stock { .. }) && m.item > at;
        let Some(index) = self.mentions.iter().position(stock) else { return };
        if self.clause_negates() || self.asking {
            return;
        }
        let last = self.mentions[index].last;
        self.mentions[index].taken = true;
        let of = self.event(self.name(name::FISH_DIED));
        let terms = self.terms_of(at, last);
        self.done.extend(at..=last);
        self.push(Found::new(of, Says::Present, terms));
    }

    /// "hatched now": the eggs told before are fry.
    pub fn hatched(&mut self) {
        let Some(at) = (self.clause.from..self.clause.to).find(|i| self.has_role(*i, Role::Hatched)) else { return };
        if self.asking || self.clause_negates() {
            return;
        }
        let eggs =
            |s: &&Statement| s.subject.thing == "stock" && s.subject.stage.as_deref() == Some(self.name(name::EGG));
        let eggs = self.state.held.iter().rev().find(eggs).map(|s| s.subject.clone());
        let kind = eggs.as_ref().and_then(|e| e.kind.clone());
        let fry = Subject {
            stage: Some(self.name(name::FRY).to_string()),
            tank: self.state.tank,
            ..subject(self.name(name::STOCK), kind.as_deref())
        };
        let terms = self.terms_of(at, at);
        if !self.found.iter().any(|f| super::state::same_thing(&f.subject, &fry)) {
            self.push(Found::new(fry, Says::Present, terms.clone()));
        }
        if let Some(eggs) = eggs {
            self.push(Found::new(eggs, Says::Dropped, terms));
        }
    }

    /// What happened, from cues that may stand apart.
    pub fn happenings(&mut self) {
        let (first, last) = self.words_of_clause();
        let denied = |h: &Heard| {
            let at = self.terms.partition_point(|t| t.last < h.first);
            self.denied_by(at).is_some()
        };
        for weighed in self.listener.weighed(first, last, self.heard, denied) {
            let found = match weighed {
                Weighed::So(found) => found,
                Weighed::Denied(found) => {
                    self.not_happened(&found);
                    continue;
                }
            };
            let terms: Vec<usize> = (0..self.terms.len())
                .filter(|t| found.words.iter().any(|(a, b)| self.terms[*t].first <= *b && self.terms[*t].last >= *a))
                .collect();
            let denied = self.mentions.iter().any(|m| m.negated)
                && self.clause_has(|s| matches!(s, super::lexicon::Sense::Role(Role::Not)));
            let of_another = found.event.starts_with("washed") && self.washes_another();
            if of_another {
                continue;
            }
            if denied || self.is_undone(&terms) {
                self.deny(&terms);
                continue;
            }
            let of = self.event(&found.event);
            for mention in &mut self.mentions {
                let own = matches!(mention.noun, Noun::State { thing: name::EVENT, kind, .. } if self.listener.lexicon.text(kind) == found.event);
                let inside = terms.contains(&self.items[mention.item].first) && !own;
                let taken =
                    matches!(mention.noun, Noun::State { .. } | Noun::Source | Noun::Label { .. } | Noun::Treatment(_));
                mention.taken |= inside && taken;
            }
            if !self.found.iter().any(|f| f.subject == of) {
                let mention_from = terms.clone();
                self.push(Found::new(of.clone(), Says::Present, terms));
                self.at_the_same_time(&of);
                self.off_since(&found.event, mention_from);
            }
        }
    }

    /// "hoses were cleaned", "cleaned an ornament in bleach": the only thing named is none of the filter's insides.
    fn washes_another(&self) -> bool {
        let strange = |i: usize| {
            self.items[i].what == What::Term
                && self.term(i).letters > 3
                && (self.term(i).is(Role::Part)
                    || self.term(i).senses.iter().all(|s| matches!(s, super::lexicon::Sense::Common)))
        };
        let ours = |m: &super::mention::Mention| matches!(m.noun, Noun::Medium(_) | Noun::Filter(_));
        let everything = |i: usize| self.has_role(i, Role::It) || self.has_role(i, Role::All);
        let mut items = self.clause.from..self.clause.to;
        items.clone().any(strange) && !self.mentions.iter().any(ours) && !items.any(everything)
    }

    /// "did not rinse it under the tap", "never been dosed": denied by a word before it, with nothing of weight between.
    fn is_undone(&self, terms: &[usize]) -> bool {
        let Some(first) = terms.iter().min() else { return false };
        let denies = |i: &usize| [Role::Not, Role::Forgot, Role::Never].iter().any(|r| self.has_role(*i, *r));
        let word = (self.clause.from..self.clause.to).rfind(|i| denies(i) && self.items[*i].last < *first);
        word.is_some_and(|w| {
            let between = (w + 1..self.clause.to).take_while(|i| self.items[*i].first < *first);
            between.into_iter().all(|i| self.is_empty_word(i))
        })
    }

    /// "I did not wash it under the tap": what was told before is taken back.
    fn not_happened(&mut self, found: &Happened) {
        let of = self.event(&found.event);
        let mut terms = Vec::new();
        for (first, last) in &found.words {
            for at in (0..self.terms.len()).filter(|t| self.terms[*t].first <= *last && self.terms[*t].last >= *first) {
                terms.push(at);
                terms.extend(self.denied_by(at));
            }
        }
        for mention in &mut self.mentions {
            mention.taken |= terms.contains(&self.items[mention.item].first)
                && matches!(mention.noun, Noun::State { .. } | Noun::Source | Noun::Label { .. });
        }
        self.deny_event(of, terms);
    }

    /// Something is said not to have happened: taken back where it was told before. "Not any more" says that it did.
    pub fn deny_event(&mut self, of: Subject, terms: Vec<usize>) {
        let (from, to) = (self.items[self.clause.from].first, self.items[self.clause.to - 1].last + 1);
        let told = self.found.iter().any(|f| f.subject == of);
        if self.asking || told || super::denial::was_so(self.terms, from, to) {
            return;
        }
        if self.state.held.iter().any(|s| s.subject == of) || self.state.event.as_ref() == Some(&of) {
            self.push(Found::new(of, Says::Absent, terms));
        } else {
            self.deny(&terms);
        }
    }

    /// The term that denies term `at` of this clause.
    pub fn denied_by(&self, at: usize) -> Option<usize> {
        let (from, to) = (self.items[self.clause.from].first, self.items[self.clause.to - 1].last + 1);
        super::denial::denied_by(self.terms, from, to, at)
    }

    /// "swapped all the media while I was at it": when the event told before happened.
    pub fn at_the_same_time(&mut self, of: &Subject) {
        let Some(at) = (self.clause.from..self.clause.to).find(|i| self.has_role(*i, Role::Same)) else { return };
        let when = self.state.when.clone();
        let Some(value) = when else { return };
        let attribute = self.name(name::WHEN).to_string();
        let says = Says::Value { attribute, how: How::Set, value };
        let terms = self.terms_of(at, at);
        self.push(Found::new(of.clone(), says, terms));
    }

    /// "filter off since 6am": it still is.
    pub fn off_since(&mut self, event: &str, terms: Vec<usize>) {
        let since = self.items[self.clause.from..self.clause.to]
            .iter()
            .any(|i| matches!(&i.what, What::Time(Time::Moment { relation: TimeRelation::Since, .. })));
        let over = (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Was));
        if event != self.name(name::FILTER_OFF) || !since || over || self.asking {
            return;
        }
        let of = self.filter_subject(None, self.clause.from);
        self.word(of, name::RUNNING, self.name(name::NO), terms, None);
    }
}

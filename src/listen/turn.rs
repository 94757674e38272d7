//! One turn: its clauses in order, each a statement, question or act; what carries on between them. In: clauses. Out:
//! the reading with every word accounted for. Knows no rule.

use super::acts;
use super::ask::{self, Asking};
use super::bind::Binder;
use super::clause::Clause;
use super::found::{Doubt, Found};
use super::items::{Item, What};
use super::lexicon::Sense;
use super::line::Listener;
use super::mention::mentions;
use super::reading::{Act, Became, Context, How, Reading, Says, Statement};
use super::state::State;
use super::term::{Heard, Term};
use super::words::{Sort, Word};
use super::{danger, lean, page};
use crate::source::Span;

pub struct Turn<'d, 'l> {
    pub listener: &'l Listener,
    pub context: &'d Context,
    pub text: &'d str,
    pub words: &'d [Word],
    pub terms: &'d [Term<'l>],
    pub items: &'d [Item],
    pub heard: &'d [Heard],
    pub state: State,
    pub reading: Reading,
    /// What became of each word.
    pub became: Vec<Option<Became>>,
    /// The question before, which a clause may go on with.
    asked: Option<Asking>,
}

impl<'d, 'l> Turn<'d, 'l> {
    pub fn new(
        listener: &'l Listener,
        context: &'d Context,
        text: &'d str,
        words: &'d [Word],
        terms: &'d [Term<'l>],
        items: &'d [Item],
        heard: &'d [Heard],
    ) -> Self {
        let reading = Reading { text: text.to_string(), ..Reading::default() };
        let state = State::new(context);
        Self {
            listener,
            context,
            text,
            words,
            terms,
            items,
            heard,
            state,
            reading,
            became: vec![None; words.len()],
            asked: None,
        }
    }

    pub fn read(mut self, clauses: &[Clause]) -> Reading {
        self.state.volume_unit = lean::volume_unit(self.context, self.items);
        if clauses.is_empty() {
            if self.words.iter().all(|w| matches!(w.sort, Sort::Mark(_))) {
                self.reading.acts.push((Act::Nothing, Span::new(0, self.text.len())));
            }
            return self.finish();
        }
        let body = page::body(self.text, self.words);
        for (word, is_body) in body.iter().enumerate() {
            if !is_body && self.words[word].sort != Sort::Mark('\n') {
                self.became[word] = Some(Became::Unread);
            }
        }
        danger::find(&mut self, clauses);
        for (n, clause) in clauses.iter().enumerate() {
            let first = self.terms[self.items[clause.from].first].first;
            if !body[first] {
                continue;
            }
            if clause.starts {
                self.asked = None;
            }
            self.clause(clause, clauses.get(n + 1));
        }
        lean::gallons(&mut self);
        self.finish()
    }

    fn clause(&mut self, clause: &Clause, next: Option<&Clause>) {
        if acts::read(self, clause) {
            return;
        }
        let asking = ask::asking(clause, self.items, self.terms, self.asked);
        let _ = next;
        let (found, doubts) = self.bind(*clause, asking.is_some());
        match asking {
            Some(asking) => {
                self.ask(clause, asking, found);
                self.asked = Some(asking);
            }
            None => {
                self.asked = None;
                for finding in found {
                    self.state_fact(finding);
                }
            }
        }
        for doubt in doubts {
            self.doubt(doubt);
        }
    }

    /// Reads a clause; a question leaves what is known as it was.
    fn bind(&mut self, clause: Clause, asking: bool) -> (Vec<Found>, Vec<Doubt>) {
        let mentions = mentions(self.items, self.terms, clause.from, clause.to, &self.listener.preference);
        let kept = asking.then(|| self.state.clone());
        let mut binder = Binder {
            listener: self.listener,
            text: self.text,
            words: self.words,
            terms: self.terms,
            items: self.items,
            heard: self.heard,
            clause,
            mentions,
            state: &mut self.state,
            found: Vec::new(),
            doubts: Vec::new(),
            asking,
        };
        binder.tell();
        let (found, doubts) = (binder.found, binder.doubts);
        if let Some(kept) = kept {
            self.state = kept;
        }
        (found, doubts)
    }

    /// Writes a finding down as a statement.
    pub fn state_fact(&mut self, found: Found) {
        let span = self.span_of(&found.terms);
        // A figure as vague as "some" gives way to one said later.
        if let Some(attribute) = found.attribute().map(str::to_string)
            && !found.vague
        {
            let earlier = self.reading.statements.iter().position(|s| {
                s.subject == found.subject
                    && matches!(&s.says, Says::Value { attribute: a, value: super::reading::Said::Amount(v), .. }
                        if *a == attribute && v.likely.is_some() && !v.is_exact() && v.unit.name.is_empty())
                    && attribute == "count"
            });
            if let Some(at) = earlier
                && let Says::Value { value, .. } = &found.says
            {
                self.reading.statements[at].says = Says::Value { attribute, how: How::Set, value: value.clone() };
                self.claim(&found.terms, Became::Statement(at));
                return;
            }
        }
        let statement = Statement { span, subject: found.subject, says: found.says, mark: found.mark };
        let index = match self
            .reading
            .statements
            .iter()
            .position(|s| s.subject == statement.subject && s.says == statement.says)
        {
            Some(at) => at,
            None => {
                self.reading.statements.push(statement);
                self.reading.statements.len() - 1
            }
        };
        self.claim(&found.terms, Became::Statement(index));
    }

    fn ask(&mut self, clause: &Clause, asking: Asking, found: Vec<Found>) {
        let first = self.terms[self.items[clause.from].first].first;
        let last = self.terms[self.items[clause.to - 1].last].last;
        let span = self.words[first].span.to(self.words[last].span);
        let (asks, presumed) = ask::ask_of(self.listener, asking, span, (first, last), self.heard, &found, &self.state);
        let index = self.reading.asks.len();
        if asks.is_empty() {
            for finding in &presumed {
                self.claim(&finding.terms, Became::Unread);
            }
        }
        for finding in presumed {
            self.state.take(&finding);
            self.state_fact(finding);
        }
        if !asks.is_empty() {
            for finding in &found {
                self.claim(&finding.terms, Became::Ask(index));
            }
            let terms: Vec<usize> = (0..self.terms.len())
                .filter(|t| self.terms[*t].first >= first && self.terms[*t].last <= last)
                .filter(|t| self.is_part_of_ask(*t))
                .collect();
            self.claim(&terms, Became::Ask(index));
            self.reading.asks.extend(asks);
        }
    }

    /// A word that makes the question: an opener, or a cue of a topic.
    fn is_part_of_ask(&self, term: usize) -> bool {
        let t = &self.terms[term];
        let opener = t.senses.iter().any(|s| matches!(s, Sense::Ask(_)));
        opener
            || self.heard.iter().any(|h| h.first >= t.first && h.last <= t.last && self.is_topic_cue(h.cue))
            || self.heard.iter().any(|h| h.first <= t.first && h.last >= t.last && self.is_topic_cue(h.cue))
    }

    fn is_topic_cue(&self, cue: u16) -> bool {
        self.listener.cues.topics.iter().any(|t| t.words.contains(&cue))
    }

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

    pub fn span_of(&self, terms: &[usize]) -> Span {
        let mut span: Option<Span> = None;
        for term in terms.iter().filter_map(|t| self.terms.get(*t)) {
            let here = self.words[term.first].span.to(self.words[term.last].span);
            span = Some(span.map_or(here, |s| s.to(here)));
        }
        span.unwrap_or(Span::new(0, self.text.len()))
    }

    /// Accounts for every word and gives the reading.
    fn finish(mut self) -> Reading {
        let mut noise = vec![false; self.words.len()];
        for item in self.items {
            let plain = matches!(item.what, What::Term | What::Mark(_) | What::Spoken(_));
            for term in item.first..=item.last {
                let t = &self.terms[term];
                let quiet = t.mark().is_some() || plain && t.is_noise() && !is_word_of_note(t);
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

/// A word of a role that must be shown when nothing used it.
fn is_word_of_note(term: &Term) -> bool {
    use crate::knowledge::language::Role;
    let noted = [Role::Code, Role::Elsewhere, Role::Colour, Role::Other];
    (noted.iter().any(|r| term.is(*r)) && !term.is(Role::Noise))
        || term.senses.iter().any(|s| matches!(s, Sense::Act(Act::OffTopic)))
        || term.senses.iter().all(|s| matches!(s, Sense::Common))
}

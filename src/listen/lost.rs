//! Questions without a topic of ours: they are kept and shown, and none of their words that carry anything counts as noise.
//! In: a clause that asks and found no topic. Out: its span. Answers nothing.

use super::clause::Clause;
use super::items::What;
use super::turn::Turn;
use super::words::Sort;
use crate::knowledge::language::Role;
use crate::source::Span;

impl Turn<'_, '_> {
    /// Notes a question that was not understood: "could that be it?".
    pub fn lose(&mut self, clause: &Clause) {
        // "right?", "... is that?": nothing is asked by that.
        let says = |i: &usize| matches!(self.items[*i].what, What::Amount(_)) || !self.is_grammar(self.items[*i].first);
        let goes_on = self.reach(clause) > self.terms[self.items[clause.to - 1].last].last;
        if !goes_on && !(clause.from..clause.to).any(|i| says(&i)) && clause.to - clause.from < LEAST {
            return;
        }
        let (first, last) = (self.items[clause.from].first, self.reach(clause));
        let span = self.words[self.terms[first].first].span.to(self.words[last].span);
        match self.reading.lost.last_mut().filter(|l| l.end <= span.start && !clause.starts) {
            Some(before) => before.end = span.end,
            None => self.reading.lost.push(span),
        }
    }

    /// A word of grammar, which carries nothing even in a question: an article, a pronoun, an auxiliary.
    fn is_grammar(&self, term: usize) -> bool {
        let term = &self.terms[term];
        term.mark().is_some() || term.is(Role::Small)
    }

    /// Whether a term stands in a question that was not understood and carries something there.
    pub fn is_lost(&self, term: usize) -> bool {
        let span = self.words[self.terms[term].first].span;
        self.terms[term].sort != Sort::Mark('\n')
            && self.reading.lost.iter().any(|l| holds(*l, span))
            && !self.is_grammar(term)
    }
}

/// Fewer words that are all of grammar ask nothing.
const LEAST: usize = 3;

fn holds(outer: Span, inner: Span) -> bool {
    outer.start <= inner.start && inner.end <= outer.end
}

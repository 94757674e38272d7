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
use super::mention::{Known, mentions};
use super::name;
use super::reading::{Act, Ask, Became, Context, Doubtful, Form, Reading, Said, Says};
use super::state::State;
use super::term::{Heard, Term, within};
use super::words::{Sort, Word};
use super::{answer, change, contradict, conversion, correct, danger, follow, lean, page, pair, place};
use crate::knowledge::language::Role;
use crate::source::Span;

/// No phrase of ours has more words.
const LONGEST_CUE: usize = 24;

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
    /// A word said that what follows corrects what was said.
    pub correcting: bool,
    /// What a question without a topic of ours named: "200 l/h then?".
    pub doubted: Vec<Found>,
    /// The sentence speaks of a water test.
    sentence_reads: bool,
    /// The sentence ends with a question mark.
    sentence_asks: bool,
    /// The sentence tells what others advise.
    told: bool,
    /// A wish was said in this sentence.
    wishing: bool,
    /// The sentence speaks of something that is none of ours.
    off_topic: bool,
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
        let state = State::new(context, &listener.beside_filters);
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
            correcting: false,
            off_topic: false,
            doubted: Vec::new(),
            told: false,
            sentence_reads: false,
            sentence_asks: false,
            wishing: false,
            asked: None,
        }
    }

    pub fn read(mut self, clauses: &[Clause]) -> Reading {
        self.state.volume_unit = lean::volume_unit(self.context, self.items, self.terms);
        self.state.gallon = lean::gallon_said(self.context, self.items, self.terms);
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
        let clauses = pair::answered(clauses, self.items, self.terms);
        let clauses = self.one_question(clauses);
        danger::find(&mut self, &clauses);
        for (n, clause) in clauses.iter().enumerate() {
            let first = self.terms[self.items[clause.from].first].first;
            if !body[first] {
                continue;
            }
            if clause.starts {
                self.asked = None;
                self.wishing = false;
            }
            self.told = (clause.from..clause.to).any(|i| self.has_role(i, Role::Told)) || self.told && !clause.starts;
            self.wishing |= (clause.from..clause.to).any(|i| self.has_role(i, Role::Wish));
            if clause.line {
                self.correcting = false;
            }
            let sentence_end = clauses[n + 1..].iter().position(|c| c.starts).map_or(clauses.len(), |p| n + 1 + p);
            if clause.starts {
                let sentence = &clauses[n..sentence_end];
                self.off_topic = acts::is_off_topic(&self, sentence);
                self.sentence_asks = sentence.last().is_some_and(|c| c.end == Some('?'));
                self.sentence_reads = sentence.iter().flat_map(|c| c.from..c.to).any(|i| self.is_of_test(i));
            }
            // "thirteen, sorry": the word that corrects comes behind.
            if clauses.get(n + 1).is_some_and(|c| !c.line && correct::is_lone_word(&self, c)) {
                self.correcting = true;
            }
            self.clause(clause);
        }
        self.along();
        contradict::there_and_not(&mut self);
        contradict::price_of_what(&mut self);
        contradict::deaths(&mut self);
        place::tell(&mut self);
        contradict::box_and_volume(&mut self);
        lean::gallons(&mut self);
        page::foreign(&mut self);
        self.finish()
    }

    pub fn clause(&mut self, clause: &Clause) {
        if conversion::read(self, clause)
            || answer::to_question(self, clause)
            || acts::read(self, clause)
            || self.off_topic
        {
            return;
        }
        if self.asked.is_none() && (follow::read(self, clause) || answer::read(self, clause)) {
            return;
        }
        let asking = ask::asking(clause, self.items, self.terms, self.asked, self.sentence_asks);
        if asking.is_none() && correct::read(self, clause) {
            return;
        }
        let mut clause = *clause;
        if let Some(asking) = asking
            && let Some(from) = asking.tells_from
        {
            // "what for 200 l canister": the question ends where the telegram begins.
            let question = Clause { to: from, ..clause };
            self.ask(&question, asking, Vec::new());
            clause.from = from;
            // "media, what for": the question is all there is.
            if clause.from >= clause.to {
                return;
            }
        } else if let Some(asking) = asking {
            let (found, doubts) = self.bind(clause, true);
            self.ask(&clause, asking, found);
            self.asked = Some(asking);
            doubts
                .into_iter()
                .filter(|d| matches!(d.why, Doubtful::Ambiguous | Doubtful::Which) && d.terms.is_empty())
                .for_each(|d| self.doubt(d));
            return;
        }
        self.asked = None;
        let (found, doubts) = self.bind(clause, self.told);
        // "he said to put coarse foam in": what others advise is no fact.
        if self.told {
            return;
        }
        if self.correcting && change::other_kind(self, &found) {
            return;
        }
        for finding in found {
            self.state_fact(finding);
        }
        for doubt in doubts {
            self.doubt(doubt);
        }
    }

    /// The guard of the intake is what was spoken of last.
    fn guard_last(&self) -> bool {
        let last = self.reading.statements.last().or(self.context.held.last());
        last.is_some_and(|s| correct::attribute_of(s) == Some("intake guard"))
    }

    /// More of the same line follows, and not as an addition.
    pub fn goes_on(&self, clause: &Clause) -> bool {
        let rest = &self.items[clause.to..];
        let line = rest.iter().take_while(|i| i.what != What::Mark('\n'));
        let mut words = line.filter(|i| !matches!(i.what, What::Mark(_)));
        words.next().is_some_and(|i| i.what != What::Term || !self.terms[i.first].is(Role::And))
    }

    /// "un-ionised ammonia at 1.2 ppm, pH 8.2, 26 C?": commas inside a question for a figure part nothing.
    fn one_question(&self, clauses: Vec<Clause>) -> Vec<Clause> {
        let figures = self.listener.cues.topics.iter().filter(|t| t.topic == "figures");
        let cues: Vec<u16> = figures.flat_map(|t| t.words.iter().copied()).collect();
        let mut out: Vec<Clause> = Vec::with_capacity(clauses.len());
        let mut at = 0;
        while at < clauses.len() {
            let end = clauses[at + 1..].iter().position(|c| c.starts).map_or(clauses.len(), |p| at + 1 + p);
            let (first, last) = (clauses[at], clauses[end - 1]);
            let word = |item: usize| self.terms[self.items[item].first].first;
            let sentence = within(self.heard, word(first.from), word(first.to - 1));
            let heard = sentence.iter().any(|h| cues.contains(&h.cue));
            let verb = (first.from..last.to).any(|i| self.has_role(i, Role::Have) && !self.has_role(i, Role::At));
            if clauses[at].starts && heard && !verb && last.end == Some('?') && end > at + 1 {
                out.push(Clause { to: last.to, end: last.end, tagged: true, ..first });
                at = end;
            } else {
                out.push(first);
                at += 1;
            }
        }
        out
    }

    /// A reading, or a test, is named.
    fn is_of_test(&self, item: usize) -> bool {
        let term = &self.terms[self.items[item].first];
        matches!(self.items[item].what, What::Row(_))
            || term.names_thing(name::READING)
            || term.labels().any(|(thing, _)| thing == name::READING)
    }

    /// What a clause would say, without saying it.
    pub fn probe(&mut self, clause: Clause) -> (Vec<Found>, Vec<Doubt>) {
        self.bind(clause, true)
    }

    /// Reads a clause; a question leaves what is known as it was.
    pub fn bind(&mut self, clause: Clause, asking: bool) -> (Vec<Found>, Vec<Doubt>) {
        let known = Known {
            preference: &self.listener.preference,
            names: &self.listener.lexicon.names,
            asking,
            guard: self.guard_last(),
            reads: self.sentence_reads,
        };
        let mentions = mentions(self.items, self.terms, clause.from, clause.to, known);
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
            correcting: self.correcting,
            wishing: self.wishing,
            cleaned_told: false,
            done: Vec::new(),
        };
        binder.tell();
        let (mut found, doubts, correcting) = (binder.found, binder.doubts, binder.correcting);
        self.names_of(clause, &mut found);
        self.correcting |= correcting && !asking;
        if let Some(kept) = kept {
            self.state = kept;
        }
        (found, doubts)
    }

    /// Questions that an event asks by itself: a power cut, fish at the surface.
    fn along(&mut self) {
        if !self.reading.asks.is_empty() {
            return;
        }
        let listener = self.listener;
        let said = |key: &String| {
            self.reading.statements.iter().find(|s| {
                s.subject.thing == "event" && s.subject.kind.as_ref() == Some(key)
                    || matches!(&s.says, Says::Value { value: Said::Word(word), .. } if word == key)
            })
        };
        for topic in &listener.cues.topics {
            if let Some(statement) = topic.along.iter().find_map(said) {
                let ask = Ask {
                    span: statement.span,
                    form: topic.form_given.unwrap_or(Form::What),
                    topic: topic.topic.clone(),
                    about: Vec::new(),
                    suppose: Vec::new(),
                    named: Vec::new(),
                };
                self.reading.asks.push(ask);
                return;
            }
        }
    }

    fn ask(&mut self, clause: &Clause, asking: Asking, found: Vec<Found>) {
        let first = self.terms[self.items[clause.from].first].first;
        let last = self.terms[self.items[clause.to - 1].last].last;
        let span = self.words[first].span.to(self.words[last].span);
        let hearing = ask::Hearing {
            listener: self.listener,
            span,
            words: (first, last),
            heard: self.heard,
            state: &self.state,
            before: self.context.last_ask.as_ref(),
        };
        let (mut asks, presumed) = ask::ask_of(asking, &found, &hearing);
        let figures = self.figures_named(first, last);
        asks.iter_mut().filter(|a| a.topic == "figures").for_each(|a| a.named.clone_from(&figures));
        let index = self.reading.asks.len();
        if asks.is_empty() {
            self.doubted = found.clone();
        }
        // "..., the porous ones": more on the question before.
        if asks.is_empty()
            && asking.opener.is_none()
            && let Some(last) = self.reading.asks.last_mut()
        {
            let about = found.iter().map(|f| f.subject.clone()).filter(|s| !last.about.contains(s)).collect::<Vec<_>>();
            last.about.extend(about);
            let index = self.reading.asks.len() - 1;
            for finding in &found {
                self.claim(&finding.terms, Became::Ask(index));
            }
            return;
        }
        if asks.is_empty() {
            for finding in &presumed {
                self.claim(&finding.terms, Became::Unread);
            }
        }
        for finding in presumed {
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
    pub fn is_part_of_ask(&self, term: usize) -> bool {
        let t = &self.terms[term];
        let opener = t.senses.iter().any(|s| matches!(s, Sense::Ask(_)));
        // A cue inside the term, or one that covers it.
        let near = within(self.heard, t.first.saturating_sub(LONGEST_CUE), t.last);
        let inside = |h: &Heard| h.first >= t.first && h.last <= t.last;
        let covers = |h: &Heard| h.first <= t.first && h.last >= t.last;
        opener || near.iter().any(|h| (inside(h) || covers(h)) && self.is_topic_cue(h.cue))
    }

    /// Where figures are named in words `first..=last`.
    fn figures_named(&self, first: usize, last: usize) -> Vec<Span> {
        let cues = |cue: u16| self.listener.cues.topics.iter().any(|t| t.topic == "figures" && t.words.contains(&cue));
        let heard = within(self.heard, first, last).iter().filter(|h| h.last <= last && cues(h.cue));
        heard.map(|h| self.words[h.first].span.to(self.words[h.last].span)).collect()
    }

    fn is_topic_cue(&self, cue: u16) -> bool {
        self.listener.cues.topics.iter().any(|t| t.words.contains(&cue))
    }
}

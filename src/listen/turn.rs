//! One turn: its clauses in order, each a statement, question or act; what carries on between them. In: clauses. Out:
//! the reading with every word accounted for. Knows no rule.

use super::acts;
use super::ask::{self, Asking};
use super::bind::Binder;
use super::clause::Clause;
use super::found::{Doubt, Found};
use super::frame::Frame;
use super::items::{Item, What};
use super::line::Listener;
use super::mention::{Known, mentions};
use super::name;
use super::reading::{Act, Aside, Ask, Became, Context, Doubtful, Form, Reading, Statement};
use super::state::State;
use super::term::{Heard, Term};
use super::words::{Sort, Word};
use super::{answer, change, contradict, conversion, correct, danger, follow, lean, page, pair, place, settle, taken};
use crate::knowledge::language::Role;
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
    /// A word said that what follows corrects what was said.
    pub correcting: bool,
    /// A value that was said to be wrong, with the words for it: the right one comes next.
    pub wrong_value: Option<(Statement, Vec<usize>)>,
    /// "it's the 120", with what is of it still to come.
    pub meant: Option<u16>,
    /// What a question without a topic of ours named: "200 l/h then?".
    pub doubted: Vec<Found>,
    /// Values held before with the other ones that this line says, unmarked.
    pub contradicted: Vec<(Statement, Statement)>,
    /// First word of the sentence, and of the one before it.
    pub sentence_from: usize,
    pub sentence_before: usize,
    /// The sentence speaks of a water test.
    sentence_reads: bool,
    /// The sentence ends with a question mark.
    sentence_asks: bool,
    /// What the clause is about, when it is not the caller's tank as it is now.
    frame: Option<Frame>,
    /// What the clause bound last says is not so.
    pub denied: Vec<(usize, usize)>,
    /// Somebody else's tank is the one that the call is about.
    pub adopted: bool,
    /// The size of a tank of the caller's own, or how many fish are in it, is known.
    pub own_tank: bool,
    /// The last item that says "mine".
    pub own_from: Option<usize>,
    /// A wish was said in this sentence.
    wishing: bool,
    /// What is wished for is a filter: fish told of behind it are there.
    wished_filter: bool,
    /// The sentence speaks of something that is none of ours.
    off_topic: bool,
    /// The question before, which a clause may go on with.
    pub asked: Option<Asking>,
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
        let state = State::new(context, &listener.beside_filters, |n| listener.lexicon.names.find(n));
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
            wrong_value: None,
            meant: None,
            doubted: Vec::new(),
            contradicted: Vec::new(),
            frame: None,
            denied: Vec::new(),
            adopted: false,
            own_tank: false,
            own_from: None,
            sentence_from: 0,
            sentence_before: 0,
            sentence_reads: false,
            sentence_asks: false,
            wishing: false,
            wished_filter: false,
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
        self.look_for_own();
        let body = page::body(self.text, self.words);
        for (word, is_body) in body.iter().enumerate() {
            if !is_body && self.words[word].sort != Sort::Mark('\n') {
                self.became[word] = Some(Became::Unread);
            }
        }
        let clauses = pair::answered(clauses, self.items, self.terms);
        let clauses = self.one_question(clauses);
        danger::find(&mut self, &clauses);
        settle::near_words(&mut self);
        for (n, clause) in clauses.iter().enumerate() {
            let first = self.terms[self.items[clause.from].first].first;
            if !body[first] {
                continue;
            }
            if clause.starts {
                (self.sentence_before, self.sentence_from) = (self.sentence_from, first);
                self.asked = None;
                (self.wishing, self.wished_filter) = (false, false);
            }
            self.frame = self.frame_of(clause, self.frame);
            self.wishing |= (clause.from..clause.to).any(|i| self.has_role(i, Role::Wish));
            // "wanted to save money so I've put ...": done, and wished no more.
            let person =
                |i: usize| self.has_role(i, Role::Person) && i + 1 < clause.to && self.has_role(i + 1, Role::Have);
            self.wishing &=
                !(clause.from..clause.to).any(|i| self.has_role(i, Role::So) || i > clause.from && person(i));
            // A correction holds for its sentence; a sentence that only corrects, for the next one.
            if clause.line || clause.starts && !correct::only_corrects(&self, &clauses[..n]) {
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
        super::clock::lasted(&mut self);
        self.along();
        contradict::there_and_not(&mut self);
        contradict::fry_without_fish(&mut self);
        contradict::price_of_what(&mut self);
        contradict::deaths(&mut self);
        super::by_post::tell(&mut self);
        place::tell(&mut self);
        contradict::box_and_volume(&mut self);
        lean::gallons(&mut self);
        page::foreign(&mut self);
        taken::ask(&mut self);
        settle::nothing_named(&mut self);
        self.finish()
    }

    pub fn clause(&mut self, clause: &Clause) {
        if conversion::read(self, clause)
            || settle::unit_asked(self, clause)
            || settle::all_wrong(self, clause)
            || settle::agreed_figure(self, clause)
            || answer::to_question(self, clause)
            || acts::read(self, clause)
            || self.off_topic
        {
            return;
        }
        if self.asked.is_none() && (follow::read(self, clause) || answer::read(self, clause)) {
            return;
        }
        if let Some((told, asked)) = self.telegram(clause) {
            self.clause(&told);
            return self.clause(&asked);
        }
        if settle::lone_figure(self, clause) {
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
            let asked = self.reading.asks.len();
            self.ask(&question, asking, Vec::new());
            // A telegram behind "what for" asks what to put in.
            if self.reading.asks.len() == asked && from < clause.to {
                let terms = self.terms_between(clause.from, from - 1);
                self.claim(&terms, Became::Ask(asked));
                let (span, topic) = (self.span_of(&terms), "media".to_string());
                let (about, suppose, named) = (Vec::new(), Vec::new(), Vec::new());
                self.reading.asks.push(Ask { span, form: Form::What, topic, about, suppose, named });
            }
            clause.from = from;
            // "media, what for": the question is all there is.
            if clause.from >= clause.to {
                return;
            }
        } else if let Some(asking) = asking {
            let (mut found, doubts) = self.bind(clause, true);
            // "nitrate should be under 20, right?": what it should be is no supposition.
            if let Some(frame) = self.frame.filter(|f| f.why == Aside::Aim) {
                found = self.set_aside(&clause, frame, found);
            }
            self.ask(&clause, asking, found);
            self.asked = Some(asking);
            doubts
                .into_iter()
                .filter(|d| {
                    matches!(d.why, Doubtful::Ambiguous | Doubtful::Which | Doubtful::Taken) && d.terms.is_empty()
                })
                .for_each(|d| self.doubt(d));
            return;
        }
        self.asked = None;
        let (found, doubts) = self.bind(clause, self.frame.is_some());
        std::mem::take(&mut self.denied).into_iter().for_each(|(from, to)| self.show_aside(from, to, Aside::Denied));
        let framed = self.frame.is_some();
        let found = match self.frame {
            Some(frame) => self.set_aside(&clause, frame, found),
            None => found,
        };
        if framed && found.is_empty() {
            return;
        }
        let found = self.without_denied(&clause, found);
        let found = self.upgraded(&clause, found);
        let found = self.wished_tank(&clause, found);
        let Err(found) = self.unclear_denial(&clause, found) else { return };
        if self.correcting && change::other_kind(self, &found) {
            return;
        }
        if found.is_empty() {
            self.wished_besides(clause);
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

    /// A reading, or a test, is named.
    pub fn is_of_test(&self, item: usize) -> bool {
        let term = &self.terms[self.items[item].first];
        matches!(self.items[item].what, What::Row(_))
            || term.names_thing(name::READING)
            || term.labels().any(|(thing, _)| thing == name::READING)
    }

    /// The term that a word belongs to.
    pub fn term_of_word(&self, word: usize) -> Option<usize> {
        let at = self.terms.partition_point(|t| t.last < word);
        (at < self.terms.len()).then_some(at)
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
            wished_filter: self.wished_filter,
            cleaned_told: false,
            denied: Vec::new(),
            done: Vec::new(),
        };
        binder.tell();
        let (mut found, doubts, correcting) = (binder.found, binder.doubts, binder.correcting);
        self.denied = binder.denied;
        self.names_of(clause, &mut found);
        self.wished_filter |= found.iter().any(|f| f.subject.thing == "filter" && f.attribute() == Some("wanted"));
        self.correcting |= correcting && !asking;
        if let Some(mut kept) = kept {
            let label = self.state.label;
            kept.called = std::mem::take(&mut self.state.called);
            self.state = kept;
            self.state.label = label.or(self.state.label);
        }
        (found, doubts)
    }
}

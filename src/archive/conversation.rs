//! A conversation: calls, each a ledger with its last answer, and what a line does to them. In: lines. Out: pages, and the
//! call as one object for machines. Owns no file and no terminal.

use super::aside::{Call, Shown, Walk};
use super::outcome::Reply;
use super::request::{self, Request};
use crate::case::Ledger;
use crate::doubt::{Assessment, assess};
use crate::knowledge::Knowledge;
use crate::listen::Listener;
use crate::listen::reading::{Act, Context, Form, Reading};
use crate::reply::page::{Page, Row, Tone};
use crate::reply::text::{Length, Part, rows};
use crate::reply::{Answer, Screen, Shape, brief, changes, compose, help, job, json, led};
use crate::rulebook::Book;
use std::sync::Arc;

/// Reads a line: the listener of a book.
pub trait Hear: Send + Sync {
    /// Reads one turn; `context` is what the call holds so far.
    fn hear(&self, line: &str, context: &Context) -> Reading;
}

impl Hear for Listener {
    fn hear(&self, line: &str, context: &Context) -> Reading {
        self.read(line, context)
    }
}

/// The listener for the words of a book.
pub fn listener(knowledge: &Knowledge) -> Arc<dyn Hear> {
    Arc::new(Listener::new(knowledge))
}

/// What a conversation is begun with.
#[derive(Clone, Debug, Default)]
pub struct Manner {
    pub shape: Shape,
    pub length: Length,
    /// Columns.
    pub width: usize,
    /// One call and no more: nothing can be said afterwards.
    pub once: bool,
}

pub struct Conversation {
    pub(super) book: Arc<Book>,
    pub(super) hear: Arc<dyn Hear>,
    pub(super) calls: Vec<Call>,
    pub(super) current: usize,
    pub(super) manner: Manner,
}

impl Conversation {
    pub fn new(book: Arc<Book>, hear: Arc<dyn Hear>, manner: Manner) -> Self {
        Self { book, hear, calls: vec![Call::default()], current: 0, manner }
    }

    pub fn book(&self) -> &Arc<Book> {
        &self.book
    }

    pub fn ledger(&self) -> &Ledger {
        &self.call().ledger
    }

    /// The last answer of the present call.
    pub fn answer(&self) -> Option<&Answer> {
        self.call().answer.as_ref()
    }

    pub(super) fn call(&self) -> &Call {
        &self.calls[self.current]
    }

    pub(super) fn call_mut(&mut self) -> &mut Call {
        &mut self.calls[self.current]
    }

    /// Goes on with another book, and says what that changes for the present call.
    pub fn change_book(&mut self, book: Arc<Book>, hear: Arc<dyn Hear>) -> Page {
        self.book = book;
        self.hear = hear;
        let before = self.call().answer.clone();
        // Everything worked out refers to the former book by number.
        self.calls.iter_mut().for_each(|call| (call.answer, call.assessment, call.walk) = (None, None, None));
        let mut page = Page::line("The book was changed and is used from here on.");
        if let Some(before) = before {
            self.work_out();
            let none = Answer::default();
            page.rows.extend(changes::between_books(&before, self.call().answer.as_ref().unwrap_or(&none)).rows);
        }
        page
    }

    /// Takes one line, which may hold line ends, and gives what is shown.
    pub fn take(&mut self, line: &str) -> Reply {
        if line.trim().is_empty() {
            return Page::line(format!("Nothing was said. Try: {}", help::EXAMPLE)).into();
        }
        match request::read(line, &self.book) {
            Some(request) => self.meet(request),
            None => self.listen(line).into(),
        }
    }

    /// The call as one object, as it stands.
    pub fn object(&self) -> serde_json::Value {
        let call = self.call();
        let nothing = (Assessment::default(), Answer::default());
        let assessment = call.assessment.as_ref().unwrap_or(&nothing.0);
        json::object(&self.book, &call.ledger, assessment, call.answer.as_ref().unwrap_or(&nothing.1))
    }

    fn listen(&mut self, line: &str) -> Page {
        let mut reading = self.hear.hear(line, &self.call().ledger.context());
        self.suppose(line, &mut reading);
        let has = |wanted: Act| reading.acts.iter().any(|(act, _)| *act == wanted);
        let says_nothing = reading.statements.is_empty() && reading.asks.is_empty() && reading.back.is_empty();
        if has(Act::Undo) && says_nothing {
            return self.undo();
        }
        if has(Act::Restart) {
            self.call_mut().forget();
            if says_nothing {
                return Page::line("Started again: nothing is held of this call.");
            }
        }
        if has(Act::NewCall) {
            let page = self.put_aside();
            if says_nothing {
                return page;
            }
        }
        if says_nothing && let Some(page) = self.answer_to_act(&reading) {
            self.call_mut().heard = Some(reading);
            return page;
        }
        self.call_mut().heard = None;
        let dont_know = has(Act::DontKnow);
        let asked = self.call().answer.as_ref().and_then(|a| a.next.clone());
        self.call_mut().ledger.take(reading);
        let special = self.special();
        let only_asks = self.last_reading().is_some_and(|r| r.statements.is_empty() && r.back.is_empty());
        if let Some(page) = special {
            if only_asks {
                return page;
            }
            // A question answered as if something were so holds what the call comes to already.
            if page.rows.iter().any(|row| row.label == "Say") {
                self.work_out();
                return page;
            }
            let answer = self.renew();
            return Page { rows: [page.rows, answer.rows].concat() };
        }
        let mut page = Page::default();
        if dont_know && let Some(next) = asked {
            match next.measure {
                Some(measure) => page.push(Row::new("To find out", Tone::Plain, measure)),
                None => page.push(Row::new("", Tone::Plain, "Then it goes on without.")),
            }
        }
        let answer = self.renew();
        page.rows.extend(answer.rows);
        if let Some(walk) = &self.call().walk {
            let steps = self.book.knowledge.jobs[walk.job].steps.len();
            page.push(Row::new(
                "Job",
                Tone::Quiet,
                format!("Step {} of {steps} is still open: say again, next or stop.", walk.step + 1),
            ));
        }
        page
    }

    pub(super) fn last_reading(&self) -> Option<&Reading> {
        self.call().ledger.turns().last().map(|t| &t.reading)
    }

    /// The line typed last, even when it left nothing in the call.
    pub(super) fn last_heard(&self) -> Option<&Reading> {
        self.call().heard.as_ref().or_else(|| self.last_reading())
    }

    /// Works the call out again and shows it.
    pub(super) fn renew(&mut self) -> Page {
        self.work_out();
        self.shown()
    }

    /// Works the call out again.
    pub(super) fn work_out(&mut self) {
        let assessment = assess(&self.book, &self.call().ledger);
        let open = self.call().open_question().cloned();
        let shape = Shape {
            units: self.manner.shape.units,
            shown: self.call().cautioned_before(),
            open: open.clone(),
            led: self.call().led,
        };
        let answer = compose(&self.book, &self.call().ledger, &assessment, &shape);
        let call = self.call_mut();
        let cautions = answer.advice.iter().flat_map(|a| &a.cautions).map(|c| c.caution.clone()).collect();
        let asking = call.ledger.turns().last().map(|t| t.reading.clone()).filter(|r| !r.asks.is_empty()).or(open);
        call.remember(Shown { cautions, open: asking.filter(|_| answer.is_open) });
        call.ledger.ask(answer.next.as_ref().map(|n| (n.subject.clone(), n.attribute.clone())));
        call.answer = Some(answer);
        call.assessment = Some(assessment);
    }

    /// The last answer in the length that is set.
    pub(super) fn shown(&self) -> Page {
        let Some(answer) = &self.call().answer else {
            return Page::line("Nothing was answered yet.");
        };
        if self.call().led {
            return led::led(answer, self.questions_to_follow(), self.manner.width, self.rest());
        }
        let mut page = match self.manner.length {
            Length::Brief => brief(answer, self.manner.width, self.screen(), self.rest()),
            Length::Full => rows(answer, &Part::all(answer)),
        };
        if page.rows.is_empty() {
            page = Page::line("Nothing in that was about a tank.");
        }
        page
    }

    pub(super) fn screen(&self) -> Screen {
        if self.manner.once { Screen::ONCE } else { Screen::CHAT }
    }

    /// How the rest of an answer is had.
    pub(super) fn rest(&self) -> &'static str {
        match self.manner.once {
            true => "--full gives the rest: reasons, figures, what they rest on.",
            false => "say more for the rest, why for the reasons.",
        }
    }

    pub(super) fn undo(&mut self) -> Page {
        self.call_mut().heard = None;
        let Some(text) = self.call_mut().ledger.undo() else {
            return Page::line("There is nothing to take back.");
        };
        let text = crate::reply::unread::cut(&crate::source::words::harmless(&text));
        let mut page = Page::line(format!("Taken back: \"{text}\"."));
        match self.call().ledger.is_empty() {
            true => self.call_mut().forget(),
            false => {
                // What was asked in the turn before is not asked again.
                let rest = self.renew();
                page.rows.extend(rest.rows);
            }
        }
        page
    }

    /// Puts the present call aside and begins another; an empty one is not kept.
    pub(super) fn put_aside(&mut self) -> Page {
        if self.call().ledger.is_empty() {
            return Page::line("A new call: nothing is held yet.");
        }
        self.calls.push(Call::default());
        self.current = self.calls.len() - 1;
        Page::line(format!(
            "A new call. The one before is put aside as call {}: say call {0} to take it up.",
            self.current
        ))
    }

    pub(super) fn walk(&mut self, words: &str) -> Page {
        let Some(found) = job::meant(&self.book, words) else {
            return job::list(&self.book);
        };
        self.call_mut().walk = Some(Walk { job: found, step: 0 });
        let job = &self.book.knowledge.jobs[found];
        let mut page = job::opening(job);
        page.rows.extend(job::step(&self.book, job, 0).rows);
        page
    }

    /// Goes to another step of the job under way.
    pub(super) fn step(&mut self, by: isize) -> Page {
        let Some(walk) = self.call().walk.clone() else {
            return Page::line("No job is under way. Say jobs for a list, or: walk me through cleaning a canister.");
        };
        let job = &self.book.knowledge.jobs[walk.job];
        let step = walk.step as isize + by;
        if step >= job.steps.len() as isize {
            let page = job::done(job);
            self.call_mut().walk = None;
            return page;
        }
        let step = step.max(0) as usize;
        let page = job::step(&self.book, job, step);
        self.call_mut().walk = Some(Walk { step, ..walk });
        page
    }

    /// What a question is that is not answered by advice: `None` when advice or figures answer it.
    fn special(&mut self) -> Option<Page> {
        let reading = self.last_reading()?.clone();
        let ask = reading.asks.first()?.clone();
        let words = ask.span.of(&reading.text).to_string();
        let topic = ask.topic.replace('_', " ");
        let plain = ask.suppose.is_empty() && reading.asks.len() == 1;
        match (ask.form, topic.as_str()) {
            // "what about the shrimp?" supposes nothing: the shrimp were said.
            (Form::WhatIf, _) if ask.suppose.is_empty() && !reading.statements.is_empty() => None,
            (Form::WhatIf, _) => Some(self.what_if(&reading)),
            _ if !ask.suppose.is_empty() => Some(self.supposing(&reading)),
            (Form::WhyNot, _) if plain => Some(self.why_not(&words)),
            (Form::Why, _) if plain => Some(self.why_words(&words)),
            (Form::HowSure, _) => Some(self.meet(Request::HowSure).page),
            (Form::Who, _) => Some(self.meet(Request::SaysWho).page),
            (_, "terms") => self.explain(&reading.text),
            (_, "known") => Some(self.meet(Request::Known).page),
            (_, "units") => Some(self.meet(Request::Units).page),
            (_, "scope") => Some(help::scope()),
            (_, "rule") => Some(self.meet(Request::Why(0)).page),
            _ => None,
        }
    }
}

//! Meets requests: why, how sure, what if, known, units, jobs. In: a request. Out: a page. Words nothing itself: `reply` does.

use super::conversation::Conversation;
use super::outcome::{Errand, Reply};
use super::request::Request;
use super::suppose::supposed;
use crate::doubt::next_question::statement;
use crate::doubt::what_if::compare;
use crate::doubt::{Assessment, assess_supposing};
use crate::engine::finding::Finding;
use crate::listen::reading::{Reading, Statement};
use crate::reply::assumed::meant;
use crate::reply::compose::wording;
use crate::reply::page::{Page, Paragraph, Row, Tone};
use crate::reply::text::{Length, Part, rows};
use crate::reply::{Answer, Shape, brief, changes, compose, heard, help, job, sure, terms};

/// How far ahead questions are counted for a caller who is led.
const FARTHEST: usize = 8;

impl Conversation {
    pub(super) fn meet(&mut self, request: Request) -> Reply {
        let page = match request {
            Request::Leave => return Reply { leaves: true, ..Reply::default() },
            Request::Save(name) => return Reply::errand(Errand::Save(name)),
            Request::Saved(words) => return Reply::errand(Errand::List(words)),
            Request::Open(name) => return Reply::errand(Errand::Open(name)),
            Request::Help => help::help(),
            Request::Known => self.known(),
            Request::Why(n) => self.why(n),
            Request::WhyRule(rule) => self.why_rule(rule),
            Request::WhyNot(words) => self.why_not(&words),
            Request::WhyAsk => self.why_ask(),
            Request::HowRead => match self.last_heard() {
                Some(reading) => heard::page(&self.book, reading),
                None => Page::line("Nothing was said yet."),
            },
            Request::HowSure => self.of_answer(sure::how_sure),
            Request::SaysWho => self.of_answer(sure::says_who),
            Request::More => self.of_answer(|answer| rows(answer, &Part::all(answer))),
            Request::Again => match &self.call().walk {
                Some(walk) => job::step(&self.book, &self.book.knowledge.jobs[walk.job], walk.step),
                None => self.shown(),
            },
            Request::Brief => self.set_length(Length::Brief),
            Request::Full => self.set_length(Length::Full),
            Request::Units => self.units(),
            Request::UseUnits(choice) => {
                self.manner.shape.units = choice;
                if self.call().answer.is_some() { self.renew() } else { self.units() }
            }
            Request::Lead(led) => self.lead(led),
            Request::Jobs => job::list(&self.book),
            Request::Walk(words) => self.walk(&words),
            Request::Next => self.step(1),
            Request::Back => self.step(-1),
            Request::Stop => self.stop(),
            Request::Undo => self.undo(),
            Request::Restart => {
                self.call_mut().forget();
                Page::line("Started again: nothing is held of this call.")
            }
            Request::NewCall => self.put_aside(),
            Request::Calls => self.list_calls(),
            Request::TakeUp(n) => self.take_up(n),
            Request::Explain(words) => self.explain(&words).unwrap_or_else(|| {
                Page::line(format!("The book does not explain \"{}\".", crate::reply::unread::cut(&words)))
            }),
        };
        page.into()
    }

    fn of_answer(&self, show: impl Fn(&Answer) -> Page) -> Page {
        match self.answer() {
            Some(answer) => match show(answer) {
                page if page.rows.is_empty() => Page::line("There is nothing more to it."),
                page => page,
            },
            None => Page::line("Nothing was answered yet."),
        }
    }

    fn set_length(&mut self, length: Length) -> Page {
        self.manner.length = length;
        match self.answer() {
            Some(_) => self.shown(),
            None => Page::line(match length {
                Length::Brief => "Answers are brief.",
                Length::Full => "Answers are given in full.",
            }),
        }
    }

    fn units(&self) -> Page {
        let none = crate::case::Case::default();
        let case = self.call().assessment.as_ref().and_then(|a| a.tanks.first()).map_or(&none, |t| &t.case);
        help::units(&crate::reply::own_units::OwnUnits::of(case, &self.book.schema, self.manner.shape.units))
    }

    fn lead(&mut self, led: bool) -> Page {
        self.call_mut().led = led;
        if self.call().ledger.is_empty() {
            return Page::line(match led {
                true => "Tell me what you have, in your own words: the tank, the fish, the filter. I ask for the rest.",
                false => "No questions, then: say the tank, the fish and the filter.",
            });
        }
        // Led, questions are put that were not worth the caller's time before.
        self.renew()
    }

    fn stop(&mut self) -> Page {
        if self.call_mut().walk.take().is_some() {
            return Page::line("The job is put down.");
        }
        if self.call().led {
            return self.lead(false);
        }
        Page::line("Nothing is under way. Say bye to leave.")
    }

    fn known(&self) -> Page {
        let Some(assessment) = &self.call().assessment else {
            return Page::line("Nothing was said yet.");
        };
        let several = assessment.tanks.len() > 1;
        let pages = assessment
            .tanks
            .iter()
            .map(|view| wording(&self.book, view, several, self.manner.shape.units).known(&self.call().ledger));
        Page { rows: pages.flat_map(|p| p.rows).collect() }
    }

    /// Why the n-th advice is given, in the order shown.
    fn why(&self, n: usize) -> Page {
        if let Some(walk) = &self.call().walk {
            return job::why(&self.book.knowledge.jobs[walk.job], walk.step);
        }
        let Some(answer) = self.answer() else { return Page::line("Nothing was answered yet.") };
        let Some(advice) = answer.advice.get(n) else {
            return Page::line(match answer.advice.len() {
                0 => "Nothing is advised yet, so there is no reason to give.".to_string(),
                count => format!("There are {count} pieces of advice: say why 1 to why {count}."),
            });
        };
        let (rule, instance) = advice.finding;
        let mut page = self.why_finding(advice.tank, Finding { rule, instance });
        if n == 0 && answer.advice.len() > 1 {
            page.push(Row::new(
                "",
                Tone::Quiet,
                format!("This was the first of {}: say why 2 for the next.", answer.advice.len()),
            ));
        }
        page
    }

    fn why_finding(&self, tank: u16, finding: Finding) -> Page {
        let view = self.call().assessment.as_ref().and_then(|a| a.tanks.iter().find(|t| t.tank == tank));
        match view {
            Some(view) => wording(&self.book, view, false, self.manner.shape.units).why(finding, &self.call().ledger),
            None => Page::line("Nothing was answered yet."),
        }
    }

    fn why_rule(&mut self, rule: u16) -> Page {
        let speaking = self
            .call()
            .assessment
            .iter()
            .flat_map(|a| &a.tanks)
            .find_map(|view| view.findings.speaking.iter().find(|f| f.rule == rule).map(|f| (view.tank, *f)));
        match speaking {
            Some((tank, finding)) => self.why_finding(tank, finding),
            None => self.why_not_rule(rule),
        }
    }

    /// "why do I need foam?": the shown advice whose words fit, else the first.
    pub(super) fn why_words(&mut self, words: &str) -> Page {
        let wanted = crate::reply::why_not::content_words(words);
        let score = |text: &str| {
            let own = crate::reply::why_not::content_words(text);
            wanted.iter().filter(|w| own.contains(w)).count()
        };
        let best = self.answer().and_then(|answer| {
            let each = answer.advice.iter().enumerate();
            let scored = each.map(|(n, a)| (score(&format!("{} {}", a.say, a.rule.replace('-', " "))), n));
            scored.filter(|(score, _)| *score > 0).max_by_key(|(score, n)| (*score, usize::MAX - n))
        });
        self.why(best.map_or(0, |(_, n)| n))
    }

    pub(super) fn why_not(&mut self, words: &str) -> Page {
        let Some(view) = self.call().assessment.as_ref().and_then(|a| a.tanks.first()) else {
            return Page::line("Nothing was answered yet.");
        };
        let rule = wording(&self.book, view, false, None).meant_rules(words).first().copied();
        match rule {
            Some(rule) => self.why_not_rule(rule),
            None => {
                Page::line("No rule of this book goes by those words. Say why not and a word of the advice you miss.")
            }
        }
    }

    fn why_not_rule(&self, rule: u16) -> Page {
        match self.call().assessment.as_ref().and_then(|a| a.tanks.first()) {
            Some(view) => wording(&self.book, view, false, self.manner.shape.units).why_not(rule),
            None => Page::line("Nothing was answered yet."),
        }
    }

    fn why_ask(&self) -> Page {
        let Some(next) = self.answer().and_then(|a| a.next.as_ref()) else {
            return Page::line("Nothing is asked: no answer would change the advice.");
        };
        let mut page = Page::default();
        page.push(Row::new("Ask", Tone::Ask, next.ask.clone()));
        page.push(Row::list("If", Tone::Plain, next.why.iter().map(|w| Paragraph::led("- ", w.clone())).collect()));
        page
    }

    /// What would change if what the last turn supposes were so.
    pub(super) fn what_if(&mut self, reading: &Reading) -> Page {
        let suppose = supposed(&self.call().ledger, reading);
        if suppose.is_empty() {
            return Page::line("Say what is to be different: what if 40 tetras");
        }
        let before = assess_supposing(&self.book, &self.call().ledger, &[]);
        let after = assess_supposing(&self.book, &self.call().ledger, &suppose);
        self.changes(&before, &after, &suppose)
    }

    fn changes(&self, before: &Assessment, after: &Assessment, suppose: &[Statement]) -> Page {
        let found = compare(&self.book, before, after);
        let words: Vec<String> = suppose.iter().map(|s| meant(&self.book, s)).collect();
        changes::changes(&self.book, before, after, &found, &words, self.manner.shape.units)
    }

    /// The question of the last turn, answered as if what it supposes were so.
    pub(super) fn supposing(&mut self, reading: &Reading) -> Page {
        let suppose = supposed(&self.call().ledger, reading);
        let before = assess_supposing(&self.book, &self.call().ledger, &[]);
        let after = assess_supposing(&self.book, &self.call().ledger, &suppose);
        let shape = Shape { units: self.manner.shape.units, ..Shape::default() };
        let answer = compose(&self.book, &self.call().ledger, &after, &shape);
        let is_answered =
            answer.is_open || answer.advice.iter().any(|a| a.asked) || answer.figures.iter().any(|f| f.asked);
        let mut page = self.changes(&before, &after, &suppose);
        if is_answered {
            let next = answer.next.clone().filter(|_| answer.is_open);
            let mut answered = brief(&Answer { next, ..answer }, self.manner.width, self.screen(), self.rest());
            answered.rows.retain(|r| r.label != "More");
            let head: Vec<Row> = page.rows.iter().filter(|r| r.label == "If").cloned().collect();
            page.rows = [head, answered.rows].concat();
        }
        page
    }

    pub(super) fn explain(&self, words: &str) -> Option<Page> {
        let (table, name) = terms::meant(&self.book, words)?;
        terms::explain(&self.book, table, &name)
    }

    fn list_calls(&self) -> Page {
        let lines = self.calls.iter().enumerate().map(|(n, call)| {
            let here = if n == self.current { " (this one)" } else { "" };
            Paragraph::led(format!("{:<2} ", n + 1), format!("{}{here}", call.title()))
        });
        Page { rows: vec![Row::list("Calls", Tone::Plain, lines.collect())] }
    }

    fn take_up(&mut self, n: usize) -> Page {
        if n >= self.calls.len() {
            return Page::line(format!("There are {} calls: say calls to see them.", self.calls.len()));
        }
        self.current = n;
        let mut page = Page::line(format!("Call {}: {}", n + 1, self.call().title()));
        if self.call().answer.is_some() {
            page.rows.extend(self.shown().rows);
        }
        page
    }

    /// How many questions would follow the next one, whether each is answered in the first or the last of its ways.
    pub(super) fn questions_to_follow(&self) -> usize {
        let Some(next) = self.call().assessment.as_ref().and_then(|a| a.next.as_ref()) else { return 0 };
        let count = |last: bool| {
            let mut suppose: Vec<Statement> = Vec::new();
            let mut next = next.clone();
            for n in 0..FARTHEST {
                let answer = if last { next.answers.last() } else { next.answers.first() };
                let entry = self.book.knowledge.vocabulary.attribute(&next.subject.thing, &next.attribute);
                let Some(said) = answer.zip(entry).and_then(|(a, e)| statement(&next.subject, e, &a.said)) else {
                    return n;
                };
                suppose.push(said);
                match assess_supposing(&self.book, &self.call().ledger, &suppose).next {
                    Some(following) => next = following,
                    None => return n,
                }
            }
            FARTHEST
        };
        count(false).max(count(true))
    }
}

//! Suppositions: "what if 60 tetras", "and for 40?". In: a line, how it was read. Out: the reading with everything behind
//! such words supposed and nothing of it held. Knows no answer.

use super::conversation::Conversation;
use super::request;
use crate::case::Ledger;
use crate::listen::reading::{Ask, Context, Form, How, Reading, Said, Says, Statement, Subject};
use crate::source::Span;

impl Conversation {
    /// Makes a supposition of a line that begins like one, however it was read.
    pub(super) fn suppose(&self, line: &str, reading: &mut Reading) {
        self.suppose_what_is_asked_of(reading);
        if reading.asks.iter().any(|a| !a.suppose.is_empty()) {
            return;
        }
        let Some((offset, goes_on)) = request::supposition(line) else { return };
        if self.goes_to_another_tank(reading, goes_on) {
            return;
        }
        // What was asked back is not meant: nothing of a supposition answers it.
        let context = Context { asked: None, pending: None, waiting: vec![], ..self.call().ledger.context() };
        let behind = self.hear.hear(line[offset..].trim_end_matches(['?', '!', ' ']), &context);
        if behind.statements.is_empty() {
            return;
        }
        let moved = |span: Span| Span::new(span.start + offset, span.end + offset);
        let shifted = |s: Statement| Statement { span: moved(s.span), ..s };
        let suppose: Vec<Statement> = behind.statements.into_iter().map(shifted).collect();
        let span = Span::new(0, line.len());
        let last = context.last_ask.filter(|last| goes_on && last.suppose.is_empty());
        let ask = match last {
            Some(last) => Ask { suppose, span, ..last },
            None => {
                let (form, topic) = (Form::WhatIf, "last".to_string());
                Ask { span, form, topic, about: vec![], suppose, named: vec![] }
            }
        };
        reading.statements.clear();
        reading.unread = behind.unread.into_iter().map(moved).collect();
        reading.asks = vec![ask];
    }
}

impl Conversation {
    /// "And for the frag tank, that's only 60 litres": another tank, which is there; the question goes on with it.
    fn goes_to_another_tank(&self, reading: &mut Reading, goes_on: bool) -> bool {
        let other = |s: &&Statement| s.subject.thing == "tank" && s.subject.number > 1 && s.says == Says::Present;
        let Some(tank) = reading.statements.iter().find(other).map(|s| s.subject.clone()) else { return false };
        let last = self.call().ledger.context().last_ask.filter(|_| goes_on && reading.asks.is_empty());
        if let Some(last) = last {
            let span = Span::new(0, reading.text.len());
            reading.asks.push(Ask { span, about: vec![tank], suppose: vec![], named: vec![], ..last });
        }
        true
    }

    /// "How do I clean a canister?" is asked of one, whatever stands on a tank of which nothing was said yet.
    fn suppose_what_is_asked_of(&self, reading: &mut Reading) {
        let is_filter = |s: &Statement| s.subject.thing == "filter";
        if self.call().ledger.statements().any(|(_, s)| is_filter(s)) || reading.statements.iter().any(is_filter) {
            return;
        }
        for ask in reading.asks.iter_mut().filter(|a| a.suppose.is_empty()) {
            if !matches!(ask.form, Form::How | Form::HowOften | Form::HowLong) {
                continue;
            }
            let of_filter = ask.about.iter().find(|s| s.thing == "filter" && s.kind.is_some());
            if let Some((subject, kind)) = of_filter.and_then(|s| Some((s.clone(), s.kind.clone()?))) {
                let subject = Subject { kind: None, ..subject };
                let says = Says::Value { attribute: "kind".into(), how: How::Set, value: Said::Word(kind) };
                ask.suppose.push(Statement { span: ask.span, subject, says, mark: None });
            }
        }
    }
}

/// What a turn supposes. It takes the place of what is held: that is no contradiction, and "40 gallons" is this tank at
/// another size, not a second one that was never spoken of.
pub fn supposed(ledger: &Ledger, reading: &Reading) -> Vec<Statement> {
    let tanks: Vec<u16> = ledger.statements().map(|(_, s)| s.subject.tank.max(1)).collect();
    let each = reading.asks.iter().flat_map(|a| a.suppose.clone());
    each.map(|mut statement| {
        if let Says::Value { how: how @ How::Set, .. } = &mut statement.says {
            *how = How::Replace;
        }
        if !tanks.contains(&statement.subject.tank) {
            statement.subject.tank = 1;
            if statement.subject.thing == "tank" {
                statement.subject.number = 1;
            }
        }
        statement
    })
    .collect()
}

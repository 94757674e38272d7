//! What a turn leaves for the next: the context after it. In: the context before and the reading. Out: a context.

use super::reading::{Act, Context, How, Mark, Reading, Said, Says, Statement};
use super::state::same_thing;
use crate::units::Dimension;

impl Context {
    /// The context for the next turn: statements in force, the question asked last, what is waiting for an answer.
    pub fn after(mut self, reading: &Reading) -> Context {
        if reading.acts.iter().any(|(a, _)| matches!(a, Act::NewCall | Act::Restart)) {
            self = Context::default();
        }
        for statement in &reading.statements {
            hold(&mut self.held, statement);
            self.gallon = statement.gallon().or(self.gallon);
            if let Says::Value { value: Said::Amount(a), .. } = &statement.says
                && a.unit.dimension == Dimension::VOLUME
                && statement.subject.thing == "tank"
            {
                self.volume_unit = Some(a.unit.name);
            }
        }
        for called in &reading.called {
            self.called.retain(|c| !(c.thing == called.thing && c.name == called.name));
            self.called.push(called.clone());
        }
        if let Some(ask) = reading.asks.last() {
            self.last_ask = Some(ask.clone());
        }
        // A turn that says nothing of ours leaves the question open.
        if !reading.back.is_empty() || !reading.statements.is_empty() || !reading.asks.is_empty() {
            self.pending = reading.back.first().cloned();
            self.waiting = reading.back.iter().skip(1).cloned().collect();
        }
        self.asked = None;
        self
    }
}

impl Statement {
    /// Whose gallon it counts in, where it says so: in so many words, or by its unit. A lean on hints says nothing.
    pub fn gallon(&self) -> Option<&'static str> {
        let Says::Value { attribute, value, .. } = &self.says else { return None };
        match value {
            Said::Amount(amount) => match amount.unit.name {
                name if name.starts_with("usgal") => Some("usgal"),
                name if name.starts_with("impgal") => Some("impgal"),
                _ => None,
            },
            Said::Word(word) if attribute == "gallon" && self.mark != Some(Mark::Hint) => {
                Some(if word == "imperial" { "impgal" } else { "usgal" })
            }
            _ => None,
        }
    }
}

/// Puts a statement into those in force, in place of what it replaces or withdraws.
fn hold(held: &mut Vec<Statement>, statement: &Statement) {
    match &statement.says {
        Says::Dropped => held.retain(|h| !same_thing(&h.subject, &statement.subject)),
        Says::DroppedValue { attribute } => held.retain(|h| {
            !(same_thing(&h.subject, &statement.subject)
                && matches!(&h.says, Says::Value { attribute: a, .. } if a == attribute))
        }),
        Says::Present | Says::Absent | Says::Unsure => {
            held.retain(|h| {
                // No fry in one tank says nothing of another.
                let elsewhere = h.subject.thing == "stock" && h.subject.tank != statement.subject.tank;
                !(same_thing(&h.subject, &statement.subject)
                    && !elsewhere
                    && matches!(h.says, Says::Present | Says::Absent | Says::Unsure))
            });
            held.push(statement.clone());
        }
        Says::Value { attribute, how, value } => {
            let mut new = statement.clone();
            let old = held.iter().position(|h| {
                same_thing(&h.subject, &statement.subject)
                    && matches!(&h.says, Says::Value { attribute: a, .. } if a == attribute)
            });
            if let Some(at) = old {
                if let (How::Add | How::Take, Said::Amount(by)) = (how, value)
                    && let Says::Value { value: Said::Amount(had), .. } = &held[at].says
                {
                    let by = if *how == How::Add { by.likely } else { by.likely.map(|v| -v) };
                    let sum = |v: Option<f64>| v.zip(by).map(|(v, b)| v + b);
                    let mut total = *had;
                    (total.low, total.likely, total.high) = (sum(had.low), sum(had.likely), sum(had.high));
                    new.says = Says::Value { attribute: attribute.clone(), how: How::Set, value: Said::Amount(total) };
                }
                held.remove(at);
            }
            held.push(new);
        }
    }
}

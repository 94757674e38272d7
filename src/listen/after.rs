//! What a turn leaves for the next: the context after it. In: the context before and the reading. Out: a context. A case
//! that holds more may build its own.

use super::line::Listener;
use super::reading::{Act, Context, How, Reading, Said, Says, Statement};
use super::state::same_thing;
use crate::units::Dimension;

impl Listener {
    /// The context for the next turn: statements in force, the question asked last, what is waiting for an answer.
    pub fn after(&self, before: &Context, reading: &Reading) -> Context {
        let mut context = before.clone();
        if reading.acts.iter().any(|(a, _)| matches!(a, Act::NewCall | Act::Restart)) {
            context = Context::default();
        }
        for statement in &reading.statements {
            hold(&mut context.held, statement);
            if let Says::Value { attribute, value, .. } = &statement.says {
                if let Said::Amount(a) = value {
                    if a.unit.dimension == Dimension::VOLUME && statement.subject.thing == "tank" {
                        context.volume_unit = Some(a.unit.name);
                    }
                    if a.unit.name.starts_with("usgal") {
                        context.gallon = Some("usgal");
                    } else if a.unit.name.starts_with("impgal") {
                        context.gallon = Some("impgal");
                    }
                }
                match value {
                    Said::Word(word) if attribute == "gallon" && statement.mark.is_none() => {
                        context.gallon = Some(if word == "imperial" { "impgal" } else { "usgal" })
                    }
                    _ => {}
                }
            }
        }
        if let Some(ask) = reading.asks.last() {
            context.last_ask = Some(ask.clone());
        }
        context.pending = reading.back.first().cloned();
        context.asked = None;
        context
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
                !(same_thing(&h.subject, &statement.subject)
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

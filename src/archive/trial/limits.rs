//! threshold-untried: a limit in a condition that the rule's own examples try on one side only, or not at all.

use super::{Call, Trial};
use crate::engine::value::Truth;
use crate::engine::world::Bound;
use crate::engine::{Engine, State, World};
use crate::knowledge::schema::ThingId;
use crate::rulebook::Book;
use crate::rulebook::book::Condition;
use crate::rulebook::check::comparisons;
use crate::rulebook::code::Code;
use crate::rulebook::expr::parse::parse_with;
use crate::source::{Fault, Span};

/// A comparison of quantities in a condition.
#[derive(Clone, Debug)]
pub struct Limit<'b> {
    pub condition: usize,
    /// Where it stands in the condition's text.
    pub span: Span,
    pub code: &'b Code,
    /// Things that `any`, `every` and the like range over around it, the outermost first.
    within: Vec<ThingId>,
}

/// The limits of a rule, in the order written. `phrases`: those of the book's names.
pub fn limits<'b>(book: &'b Book, phrases: &[String], rule: u16) -> Vec<Limit<'b>> {
    let mut out = Vec::new();
    for (n, condition) in book.rules.rules[rule as usize].conditions.iter().enumerate() {
        let mut codes = Vec::new();
        gather(&condition.code, &mut vec![], &mut codes);
        let spans = spans(book, phrases, condition);
        for (m, (code, within)) in codes.into_iter().enumerate() {
            if matches!(code, Code::Compare(..)) {
                let span = spans.get(m).copied().unwrap_or(Span::new(0, condition.text.len()));
                out.push(Limit { condition: n, span, code, within });
            }
        }
    }
    out
}

/// Every comparison of a condition, of quantities and kinds, with where it stands in the text.
pub fn comparisons_of<'b>(book: &Book, phrases: &[String], condition: &'b Condition) -> Vec<(Span, &'b Code)> {
    let mut codes = Vec::new();
    gather(&condition.code, &mut vec![], &mut codes);
    let spans = spans(book, phrases, condition);
    let span = |n: usize| spans.get(n).copied().unwrap_or(Span::new(0, condition.text.len()));
    codes.into_iter().enumerate().map(|(n, (code, _))| (span(n), code)).collect()
}

fn spans(book: &Book, phrases: &[String], condition: &Condition) -> Vec<Span> {
    match parse_with(&condition.text, phrases) {
        Ok(tree) => comparisons(&tree, &book.schema, &[]).iter().map(|c| c.whole.span).collect(),
        Err(_) => vec![],
    }
}

/// The parts of code in the order in which `check::comparisons` walks a tree, with the thing that they range over.
macro_rules! parts {
    ($code:expr, $part:ident, $thing:ident => $see:expr) => {
        match $code {
            Code::Number(_) | Code::Quantity(..) | Code::Fact(_) | Code::Figure(_) | Code::Conclusion(_) => {}
            Code::Call(_, parts) | Code::All(parts) | Code::Any(parts) => {
                let $thing: Option<ThingId> = None;
                for $part in parts {
                    $see
                }
            }
            Code::IsKind($part, ..) | Code::Not($part) | Code::Known($part) | Code::Negate($part) => {
                let $thing: Option<ThingId> = None;
                $see
            }
            Code::Compare(_, a, b) | Code::SameKind(a, b, _) | Code::Arithmetic(_, a, b) => {
                let $thing: Option<ThingId> = None;
                for $part in [a, b] {
                    $see
                }
            }
            Code::Exists { thing, with, .. } => {
                let $thing = Some(*thing);
                if let Some($part) = with {
                    $see
                }
            }
            Code::Fold { thing, of, with, .. } => {
                let $thing = Some(*thing);
                for $part in of.into_iter().chain(with) {
                    $see
                }
            }
            Code::Choice(branches) => {
                let $thing: Option<ThingId> = None;
                for (condition, value) in branches {
                    {
                        let $part = value;
                        $see
                    }
                    if let Some($part) = condition {
                        $see
                    }
                }
            }
        }
    };
}

/// Comparisons of quantities and kinds, in the order written.
fn gather<'b>(code: &'b Code, within: &mut Vec<ThingId>, out: &mut Vec<(&'b Code, Vec<ThingId>)>) {
    parts!(code, part, thing => {
        within.extend(thing);
        gather(part, within, out);
        within.truncate(within.len() - usize::from(thing.is_some()));
    });
    if is_comparison(code) {
        out.push((code, within.clone()));
    }
}

fn is_comparison(code: &Code) -> bool {
    matches!(code, Code::Compare(..) | Code::IsKind(..) | Code::SameKind(..))
}

/// The n-th comparison of a condition, to be changed.
pub fn compared_mut<'c>(code: &'c mut Code, n: &mut usize) -> Option<&'c mut Code> {
    if !holds(code, *n) {
        *n -= count(code);
        return None;
    }
    if is_comparison(code) && count(code) == *n + 1 {
        return Some(code);
    }
    parts!(code, part, _thing => {
        if holds(part, *n) {
            return compared_mut(part, n);
        }
        *n -= count(part);
    });
    None
}

fn holds(code: &Code, n: usize) -> bool {
    n < count(code)
}

fn count(code: &Code) -> usize {
    let mut found = Vec::new();
    gather(code, &mut vec![], &mut found);
    found.len()
}

/// On which sides a limit was tried: true, false.
pub fn sides<'c>(book: &Book, rule: u16, limit: &Limit, calls: impl Iterator<Item = &'c Call>) -> (bool, bool) {
    let engine = Engine { schema: &book.schema, book: &book.rules };
    let (mut met, mut missed) = (false, false);
    for call in calls {
        for (world, state, _) in &call.tanks {
            let thing = book.rules.rules[rule as usize].for_thing;
            for instance in 0..thing.map_or(1, |t| world.count(t)) {
                let mut bound = Bound::to(thing, instance);
                each(&engine, world, state, limit, &limit.within, &mut bound, &mut |truth| match truth {
                    Truth::True => met = true,
                    Truth::False => missed = true,
                    Truth::Unknown => {}
                });
            }
        }
        if met && missed {
            break;
        }
    }
    (met, missed)
}

fn each(
    engine: &Engine,
    world: &World,
    state: &State,
    limit: &Limit,
    within: &[ThingId],
    bound: &mut Bound,
    see: &mut impl FnMut(Truth),
) {
    let Some((thing, rest)) = within.split_first() else {
        return see(engine.evaluation(world, state).truth(limit.code, bound));
    };
    let before = bound.of(*thing);
    for instance in 0..world.count(*thing) {
        if world.belongs(*thing, instance, bound) {
            bound.set(*thing, instance);
            each(engine, world, state, limit, rest, bound, see);
            bound.free(*thing, before);
        }
    }
}

pub fn faults(trial: &Trial, out: &mut Vec<Fault>) {
    for (n, (raw, spot)) in trial.entries.rules.iter().enumerate() {
        // A rule without any example is told already.
        if raw.examples.speaks.is_empty() && raw.examples.silent.is_empty() {
            continue;
        }
        let own = || trial.examples.iter().filter(|e| e.rule as usize == n).map(|e| &trial.calls[e.call]);
        for limit in limits(trial.book, &trial.phrases, n as u16) {
            let text = &raw.when[limit.condition];
            let (met, missed) = sides(trial.book, n as u16, &limit, own());
            let what = match (met, missed) {
                (true, true) => continue,
                (true, false) => "the examples try this limit on one side only: none lies beyond it",
                (false, true) => "the examples try this limit on one side only: none meets it",
                (false, false) => "no example tries this limit",
            };
            let place = spot.get("when").item(limit.condition).inside(text, limit.span);
            let cure = if missed || !met { "`speaks`" } else { "`silent`" };
            out.push(
                Fault::warning("threshold-untried", place, what)
                    .cure(format!("a line under {cure} that lies just on the other side")),
            );
        }
    }
}

//! The next question worth asking: each unknown that some rule waits for is answered in every plausible way, and the
//! advice compared. In: a book, a call, one assessed tank. Out: the question that changes the most urgent advice most, at
//! the least trouble; none when no answer would change anything. Knows no wording but the vocabulary's own.

use super::assessment::{TankView, case_of, plain_from};
use crate::case::Ledger;
use crate::case::fact::Origin;
use crate::engine::Findings;
use crate::engine::finding::Finding;
use crate::engine::waiting::waiting;
use crate::knowledge::schema::ThingId;
use crate::knowledge::vocabulary::{Attribute, Sort, Unsaid};
use crate::listen::reading::{How, Said, Says, Statement, Subject};
use crate::rulebook::Book;
use crate::rulebook::raw::Urgency;
use crate::source::Span;
use crate::units::parse;
use std::collections::BTreeSet;

/// A question worth asking.
#[derive(Clone, Debug, PartialEq)]
pub struct NextQuestion {
    pub subject: Subject,
    pub attribute: String,
    pub ask: String,
    pub measure: Option<String>,
    /// For each plausible answer (as said), the rules that would start and stop to speak.
    pub answers: Vec<Answer>,
    pub worth: f64,
}

/// What one answer would change.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    pub said: String,
    pub starts: Vec<u16>,
    pub stops: Vec<u16>,
}

/// Weights of a changed finding; the ratios say how many changes of a lesser urgency weigh as much as one of a greater.
fn weight(urgency: Urgency) -> f64 {
    match urgency {
        Urgency::Danger => 1000.0,
        Urgency::Now => 300.0,
        Urgency::Today => 100.0,
        Urgency::ThisWeek => 25.0,
        Urgency::InTime => 6.0,
        Urgency::GoodToKnow => 1.0,
    }
}

/// Below this a question is not worth the caller's time: less than a good chance of moving something due this week.
const LEAST_WORTH: f64 = 15.0;
/// While nothing is advised that is due this week, there is time for questions that only move what is good to know.
const LEAST_WORTH_AT_LEISURE: f64 = 0.9;

/// The questions worth putting for this tank, the one to put next first.
pub fn questions(book: &Book, ledger: &Ledger, view: &TankView, said: &[(u16, &Statement)]) -> Vec<NextQuestion> {
    let pressing = view.findings.speaking.iter().any(|f| urgency(book, *f) <= Urgency::ThisWeek);
    let least = if pressing { LEAST_WORTH } else { LEAST_WORTH_AT_LEISURE };
    let each = candidates(book, ledger, view).into_iter();
    let mut worthy: Vec<NextQuestion> = each
        .map(|(subject, attribute)| worth(book, view, said, subject, attribute))
        .filter(|q| q.worth >= least)
        .collect();
    // Of equals the vocabulary's first.
    worthy.sort_by(|a, b| b.worth.total_cmp(&a.worth));
    worthy
}

/// Unknown or assumed attributes that can be asked for and that some rule reads, in the vocabulary's order.
fn candidates<'b>(book: &'b Book, ledger: &Ledger, view: &TankView) -> Vec<(Subject, &'b Attribute)> {
    let schema = &book.schema;
    let waited: BTreeSet<(u16, u16)> =
        waiting(schema, &book.rules, &view.world, &view.state).into_iter().map(|(a, i)| (a.0, i)).collect();
    let mut out = Vec::new();
    for (n, thing) in book.knowledge.vocabulary.things.iter().enumerate() {
        let id = ThingId(n as u8);
        let instances = view.case.facts.instances(id);
        if instances.is_empty() && thing.is_several() && thing.unsaid == Unsaid::Unknown && !view.world.is_closed(id) {
            // Nothing was said of any: the attribute that brings one in.
            let subject = Subject { thing: thing.thing.clone(), number: 1, tank: view.tank, ..Subject::default() };
            if let Some(kind) = thing.attribute("kind").filter(|a| a.ask.is_some() && !a.answers.is_empty()) {
                out.push((subject, kind));
            }
            continue;
        }
        for (m, instance) in instances.iter().enumerate() {
            for attribute in thing.attributes.iter().filter(|a| a.ask.is_some()) {
                let Some(attribute_id) = schema.attribute(id, &attribute.attribute) else { continue };
                let fact = instance.facts.get(&attribute_id);
                let open = match fact {
                    None => waited.contains(&(attribute_id.0, m as u16)),
                    Some(fact) => fact.origin == Origin::Assumed,
                };
                if open {
                    out.push((Subject { tank: view.tank, ..instance.subject.clone() }, attribute));
                }
            }
        }
    }
    out.retain(|(s, a)| !ledger.was_put(s, &a.attribute));
    out
}

/// What an answer could plausibly be, as said, and how likely each is against the others. A list of kinds without
/// plausible answers is not asked about unprompted: most of such kinds are rare, and the caller would have said so.
fn answers(attribute: &Attribute) -> Vec<(String, f64)> {
    if !attribute.answers.is_empty() {
        return attribute.plausible_answers().into_iter().map(|(said, weight)| (said.to_string(), weight)).collect();
    }
    let once = |said: String| (said, 1.0);
    match (attribute.is.as_str(), &attribute.assume) {
        ("yes or no", Some(assumed)) => {
            let other = if assumed == "yes" { "no" } else { "yes" };
            vec![(assumed.clone(), 3.0), once(other.to_string())]
        }
        ("yes or no", None) => vec![once("yes".into()), once("no".into())],
        ("kind", Some(assumed)) => {
            attribute.kinds.iter().map(|k| (k.kind.clone(), if k.kind == *assumed { 12.0 } else { 0.2 })).collect()
        }
        (_, Some(text)) => {
            let Ok(amount) = parse::quantity(text) else { return vec![] };
            let unit = amount.unit.name;
            let ends = [amount.low, amount.high].into_iter().flatten();
            ends.map(|v| once(format!("{v} {unit}").trim().to_string())).collect()
        }
        _ => vec![],
    }
}

fn worth(
    book: &Book,
    view: &TankView,
    said: &[(u16, &Statement)],
    subject: Subject,
    attribute: &Attribute,
) -> NextQuestion {
    let mut question = NextQuestion {
        ask: attribute.ask.clone().unwrap_or_default(),
        measure: attribute.measure.clone(),
        attribute: attribute.attribute.clone(),
        answers: vec![],
        worth: 0.0,
        subject,
    };
    let mut total = 0.0;
    let answers = answers(attribute);
    let all: f64 = answers.iter().map(|(_, weight)| weight).sum();
    for (answer, likely) in answers {
        let Some(statement) = statement(&question.subject, attribute, &answer) else { continue };
        let mut with: Vec<(u16, &Statement)> = said.to_vec();
        with.push((u16::MAX, &statement));
        let case = case_of(book, view.tank, &with);
        let findings = plain_from(book, &case, &view.world, &view.state);
        let (starts, stops) = changed(&view.findings, &findings);
        let moved = [&starts, &stops].into_iter().flatten().map(|f| urgency(book, *f)).map(weight).sum::<f64>();
        total += moved * likely / all;
        let rules = |found: Vec<Finding>| found.into_iter().map(|f| f.rule).collect();
        question.answers.push(Answer { said: answer, starts: rules(starts), stops: rules(stops) });
    }
    let trouble = f64::from(attribute.trouble.unwrap_or(2).max(1));
    question.worth = total / (1.0 + 0.35 * (trouble - 1.0));
    question
}

fn urgency(book: &Book, finding: Finding) -> Urgency {
    book.rules.rules[finding.rule as usize].advice.as_ref().map_or(Urgency::GoodToKnow, |a| a.urgency)
}

/// Findings that only one of two has; a rule counts once, whatever the instance.
pub fn changed(before: &Findings, after: &Findings) -> (Vec<Finding>, Vec<Finding>) {
    let only = |a: &Findings, b: &Findings| {
        let mut out: Vec<Finding> = a.speaking.iter().filter(|f| !b.speaks(f.rule)).copied().collect();
        out.dedup_by_key(|f| f.rule);
        out
    };
    (only(after, before), only(before, after))
}

/// The statement an answer amounts to.
pub fn statement(subject: &Subject, attribute: &Attribute, answer: &str) -> Option<Statement> {
    let value = match attribute.sort() {
        Sort::Quantity(_) => Said::Amount(parse::quantity(answer).ok()?),
        _ => Said::Word(answer.to_string()),
    };
    // A kind names the thing itself: another kind is another group.
    let subject = match attribute.attribute == "kind" && subject.thing != "filter" {
        true => Subject { kind: Some(answer.to_string()), ..subject.clone() },
        false => subject.clone(),
    };
    let says = Says::Value { attribute: attribute.attribute.clone(), how: How::Replace, value };
    Some(Statement { span: Span::default(), subject, says, mark: None })
}

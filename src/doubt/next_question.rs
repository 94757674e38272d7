//! The next question worth asking: each unknown that some rule waits for is answered in every plausible way, and the
//! advice compared. In: a book, a call, one assessed tank. Out: the question that changes the most urgent advice most, at
//! the least trouble; none when no answer would change anything. Knows no wording but the vocabulary's own.

use super::assessment::{TankView, case_of, completed, plain_from};
use crate::case::Ledger;
use crate::case::fact::{FactValue, Origin};
use crate::engine::finding::{Finding, findings};
use crate::engine::waiting::waiting;
use crate::engine::{Engine, Findings, State, Value, World};
use crate::knowledge::schema::{AttributeId, ThingId};
use crate::knowledge::vocabulary::{Attribute, Sort, Unsaid};
use crate::listen::reading::{How, Said, Says, Statement, Subject};
use crate::rulebook::Book;
use crate::rulebook::book::TROUBLE;
use crate::rulebook::code::Read;
use crate::rulebook::raw::Urgency;
use crate::rulebook::topics::ONLY_ASKED;
use crate::source::Span;
use crate::units::{Amount, parse};
use std::borrow::Cow;
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
    let trouble = is_in_trouble(book, view);
    let mut answering = Answering::of(book, view, said);
    let each = candidates(book, ledger, view, trouble).into_iter();
    let mut worthy: Vec<NextQuestion> =
        each.map(|candidate| worth(&mut answering, candidate, trouble)).filter(|q| q.worth >= least).collect();
    // Of equals the vocabulary's first.
    worthy.sort_by(|a, b| b.worth.total_cmp(&a.worth));
    worthy
}

/// Whether bad readings are likelier than elsewhere.
fn is_in_trouble(book: &Book, view: &TankView) -> bool {
    let found = book.rules.conclusions.iter().position(|c| c.name == TROUBLE);
    found.is_some_and(|n| view.state.conclusion(&book.rules, n as u16, 0).is_true())
}

/// Everything that could be asked now, in the vocabulary's order, whatever it is worth.
pub fn askable(book: &Book, ledger: &Ledger, view: &TankView) -> Vec<(Subject, String)> {
    let each = candidates(book, ledger, view, is_in_trouble(book, view)).into_iter();
    each.map(|c| (c.subject, c.attribute.attribute.clone())).collect()
}

/// What could be asked.
struct Candidate<'b> {
    subject: Subject,
    attribute: &'b Attribute,
    /// What is taken for it until then.
    assumed: Option<Amount>,
}

/// Unknown or assumed attributes that can be asked for and that some rule reads, in the vocabulary's order.
fn candidates<'b>(book: &'b Book, ledger: &Ledger, view: &TankView, trouble: bool) -> Vec<Candidate<'b>> {
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
                out.push(Candidate { subject: subject.clone(), attribute: kind, assumed: None });
            }
            // In trouble what worries is asked for at once: "is it running?" brings the filter in as well.
            let worries =
                thing.attributes.iter().filter(|a| trouble && a.worry && a.ask.is_some() && !a.answers.is_empty());
            out.extend(worries.map(|attribute| Candidate { subject: subject.clone(), attribute, assumed: None }));
            continue;
        }
        for (m, instance) in instances.iter().enumerate() {
            for attribute in thing.attributes.iter().filter(|a| a.ask.is_some()) {
                let Some(attribute_id) = schema.attribute(id, &attribute.attribute) else { continue };
                // Of young beside named fish nobody asks what fish they are: they are taken for those.
                let kind = attribute.attribute == "kind" && !instance.facts.contains_key(&attribute_id);
                if kind && instances.iter().any(|other| other.facts.contains_key(&attribute_id)) {
                    continue;
                }
                let fact = instance.facts.get(&attribute_id);
                let open = match fact {
                    None => waited.contains(&(attribute_id.0, m as u16)),
                    Some(fact) => fact.origin == Origin::Assumed,
                };
                if open {
                    let assumed = fact.and_then(|f| match f.value {
                        FactValue::Amount(amount) => Some(amount),
                        _ => None,
                    });
                    let subject = Subject { tank: view.tank, ..instance.subject.clone() };
                    out.push(Candidate { subject, attribute, assumed });
                }
            }
        }
    }
    out.retain(|c| !ledger.was_put(&c.subject, &c.attribute.attribute));
    // What comes after a thing waits while that thing can still be asked for, unless the tank is in trouble.
    let asked_for: Vec<String> = out.iter().map(|c| c.subject.thing.clone()).collect();
    let nothing_of = |name: &String| schema.thing(name).is_some_and(|id| view.case.facts.instances(id).is_empty());
    out.retain(|c| {
        trouble || !c.attribute.after.as_ref().is_some_and(|thing| nothing_of(thing) && asked_for.contains(thing))
    });
    out
}

/// What an answer could plausibly be, as said, and how likely each is against the others. A list of kinds without
/// plausible answers is not asked about unprompted: most of such kinds are rare, and the caller would have said so.
fn answers(attribute: &Attribute, assumed: Option<Amount>, trouble: bool) -> Vec<(String, f64)> {
    if !attribute.answers.is_empty() {
        let weighed = if trouble { attribute.answers_in_trouble() } else { attribute.plausible_answers() };
        return weighed.into_iter().map(|(said, weight)| (said.to_string(), weight)).collect();
    }
    let once = |said: String| (said, 1.0);
    match (attribute.is.as_str(), &attribute.assume) {
        ("yes or no", Some(assumed)) => {
            let other = if assumed == "yes" { "no" } else { "yes" };
            vec![(assumed.clone(), 3.0), once(other.to_string())]
        }
        ("yes or no", None) => vec![once("yes".into()), once("no".into())],
        ("kind", Some(assumed)) => {
            attribute.kinds.iter().map(|k| (k.kind.clone(), if k.kind == *assumed { 12.0 } else { 0.01 })).collect()
        }
        (_, Some(_)) => {
            let Some(amount) = assumed else { return vec![] };
            let unit = amount.unit.name;
            let ends = [amount.low, amount.high].into_iter().flatten();
            ends.map(|v| once(format!("{v} {unit}").trim().to_string())).collect()
        }
        _ => vec![],
    }
}

fn worth(answering: &mut Answering, candidate: Candidate, trouble: bool) -> NextQuestion {
    let (book, view) = (answering.book, answering.view);
    let Candidate { subject, attribute, assumed } = candidate;
    let mut question = NextQuestion {
        ask: attribute.ask.clone().unwrap_or_default(),
        measure: attribute.measure.clone(),
        attribute: attribute.attribute.clone(),
        answers: vec![],
        worth: 0.0,
        subject,
    };
    let mut total = 0.0;
    let answers = answers(attribute, assumed, trouble);
    let all: f64 = answers.iter().map(|(_, weight)| weight).sum();
    for (answer, likely) in answers {
        let Some(statement) = statement(&question.subject, attribute, &answer) else { continue };
        let findings = answering.findings(&statement);
        let (mut starts, mut stops) = changed(&view.findings, &findings);
        // What speaks only when it is asked for is no reason to ask.
        for list in [&mut starts, &mut stops] {
            list.retain(|f| !ONLY_ASKED.contains(&book.rules.rules[f.rule as usize].topic.as_str()));
        }
        let moved = [&starts, &stops].into_iter().flatten().map(|f| urgency(book, *f)).map(weight).sum::<f64>();
        total += moved * likely / all;
        let rules = |found: Vec<Finding>| found.into_iter().map(|f| f.rule).collect();
        question.answers.push(Answer { said: answer, starts: rules(starts), stops: rules(stops) });
    }
    let trouble = f64::from(attribute.trouble.unwrap_or(2).max(1));
    question.worth = total / (1.0 + 0.35 * (trouble - 1.0));
    question
}

/// The findings with one answer more.
pub fn answered(book: &Book, view: &TankView, said: &[(u16, &Statement)], answer: &Statement) -> Findings {
    Answering::of(book, view, said).findings(answer).into_owned()
}

/// Tries one answer after the other on one tank.
struct Answering<'t> {
    book: &'t Book,
    view: &'t TankView,
    said: &'t [(u16, &'t Statement)],
    /// The tank's own but while an answer is tried.
    world: World,
    state: State,
}

impl<'t> Answering<'t> {
    fn of(book: &'t Book, view: &'t TankView, said: &'t [(u16, &'t Statement)]) -> Self {
        Self { book, view, said, world: view.world.clone(), state: view.state.clone() }
    }

    /// The findings with that answer more.
    fn findings(&mut self, answer: &Statement) -> Cow<'t, Findings> {
        let Some((attribute, instance, value)) = plainly_set(self.book, self.view, answer) else {
            return Cow::Owned(afresh(self.book, self.view, self.said, answer));
        };
        let engine = Engine { schema: &self.book.schema, book: &self.book.rules };
        let before = self.world.value(attribute, instance);
        self.world.set(attribute, instance, value);
        let found = match engine.update(&self.world, &mut self.state, &[Read::Fact(attribute)]) {
            true => Cow::Owned(findings(&self.book.rules, &self.state)),
            false => Cow::Borrowed(&self.view.findings),
        };
        self.world.set(attribute, instance, before);
        self.state.copy_from(&self.view.state);
        found
    }
}

/// The findings with one answer more, of the whole case.
fn afresh(book: &Book, view: &TankView, said: &[(u16, &Statement)], answer: &Statement) -> Findings {
    let of_gallons = answer.gallon().is_some() || answer.subject.thing == "keeper";
    let case = match answer.subject.tank == view.tank && !of_gallons {
        true => completed(book, view.said.with(&book.schema, u16::MAX, answer)),
        false => case_of(book, view.tank, &[said, &[(u16::MAX, answer)]].concat()),
    };
    plain_from(book, &case, &view.world, &view.state)
}

/// An answer that sets one value and nothing else: no kind, stage or size, by which other facts are looked up, and of one
/// thing that is there already.
fn plainly_set(book: &Book, view: &TankView, answer: &Statement) -> Option<(AttributeId, u16, Value)> {
    let Says::Value { attribute, value, .. } = &answer.says else { return None };
    let thing = book.schema.thing(&answer.subject.thing)?;
    let of_kind = answer.subject.kind.as_deref().is_some_and(|k| k != "any");
    if ["kind", "stage", "size"].contains(&attribute.as_str()) || answer.subject.thing == "stock" && !of_kind {
        return None;
    }
    let id = book.schema.attribute(thing, attribute)?;
    let instances = view.case.facts.instances(thing);
    let instance = instances.iter().position(|i| Subject { tank: view.tank, ..i.subject.clone() } == answer.subject)?;
    let value = match (value, book.schema.dimension(id)) {
        (Said::Amount(amount), Some(_)) if amount.unit.name != "gal" && amount.unit.name != "gal/h" => {
            Value::Number(amount.base().likely?)
        }
        (Said::Word(word), None) => Value::Kind(book.schema.symbol(word)?),
        _ => return None,
    };
    Some((id, instance as u16, value))
}

fn urgency(book: &Book, finding: Finding) -> Urgency {
    book.rules.rules[finding.rule as usize].advice.as_ref().map_or(Urgency::GoodToKnow, |a| a.urgency)
}

/// Findings that only one of two has; a rule counts once, whatever the instance.
pub fn changed(before: &Findings, after: &Findings) -> (Vec<Finding>, Vec<Finding>) {
    // Both are in order.
    let speaks = |found: &Findings, rule: u16| {
        let at = found.speaking.partition_point(|f| f.rule < rule);
        found.speaking.get(at).is_some_and(|f| f.rule == rule)
    };
    let only = |a: &Findings, b: &Findings| {
        let mut out: Vec<Finding> = a.speaking.iter().filter(|f| !speaks(b, f.rule)).copied().collect();
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

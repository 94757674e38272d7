//! The question put to the caller, and what each answer would decide. In: a question worth asking. Out: words. Computes
//! nothing: what would change was tried before.

use super::answer::Answer;
use super::answer::Next;
use super::compose::act_of;
use super::wording::kind_called;
use crate::doubt::NextQuestion;
use crate::rulebook::Book;
use crate::rulebook::raw::Urgency;
use crate::rulebook::topics::OF_THE_WATER;
use std::collections::BTreeSet;

/// How many pieces of advice are named for one answer, the most urgent first.
const MOST: usize = 3;

/// Whether an answer to a question would move what the call is about: what was asked, else what is advised soonest. While
/// people are in danger nothing is asked.
pub fn is_to_the_point(book: &Book, next: &NextQuestion, answer: &Answer, asked: &[String]) -> bool {
    if answer.urgency() == Some(Urgency::Danger) {
        return false;
    }
    let topic = |rule: &u16| book.rules.rules[*rule as usize].topic.as_str();
    let mut topics: BTreeSet<&str> = asked.iter().map(String::as_str).filter(|t| *t != "first step").collect();
    if topics.is_empty() {
        let soonest = answer.advice.iter().filter(|a| a.urgency <= Urgency::ThisWeek || a.worry);
        topics.extend(soonest.map(|a| topic(&a.finding.0)));
    }
    if topics.is_empty() {
        return true;
    }
    if OF_THE_WATER.iter().any(|t| topics.contains(t)) {
        topics.extend(OF_THE_WATER);
    }
    // In an emergency only what cannot wait either; after an answer to a question nothing that is only good to know.
    let pressing = answer.advice.iter().any(|a| a.asked || a.urgency <= Urgency::Today);
    let least = match answer.is_emergency() {
        true => Urgency::Today,
        false if pressing => Urgency::InTime,
        false => Urgency::GoodToKnow,
    };
    let urgency = |rule: &u16| book.rules.rules[*rule as usize].advice.as_ref().map(|a| a.urgency);
    // What may have to be done today is never beside the point, but where a question was answered and nothing else presses.
    let answered = answer.advice.iter().any(|a| a.asked)
        && (answer.asked_only || answer.advice.iter().all(|a| a.urgency > Urgency::Today));
    let mut started = next.answers.iter().flat_map(|a| &a.starts);
    if !answered && started.any(|rule| urgency(rule).is_some_and(|u| u <= Urgency::Today)) {
        return true;
    }
    let mut moved = next.answers.iter().flat_map(|a| a.starts.iter().chain(&a.stops));
    moved.any(|rule| topics.contains(topic(rule)) && urgency(rule).is_some_and(|u| u <= least))
}

/// The question in words.
pub fn next(book: &Book, next: &NextQuestion, several_tanks: bool) -> Next {
    // What every answer brings separates none of them.
    let common = |of: fn(&crate::doubt::next_question::Answer) -> &Vec<u16>, rule: &u16| {
        next.answers.len() > 1 && next.answers.iter().all(|a| of(a).contains(rule))
    };
    let why = next.answers.iter().filter_map(|answer| {
        let starts: Vec<u16> = answer.starts.iter().copied().filter(|r| !common(|a| &a.starts, r)).collect();
        let stops: Vec<u16> = answer.stops.iter().copied().filter(|r| !common(|a| &a.stops, r)).collect();
        let mut parts = Vec::new();
        if !starts.is_empty() {
            parts.push(named(book, starts));
        }
        if !stops.is_empty() {
            parts.push(format!("no longer: {}", named(book, stops)));
        }
        let said = answer_called(book, next, &answer.said);
        (!parts.is_empty()).then(|| format!("{said}: {}", parts.join("; ")))
    });
    Next {
        subject: next.subject.clone(),
        attribute: next.attribute.clone(),
        ask: match several_tanks {
            true => format!("Tank {}: {}", next.subject.tank.max(1), next.ask),
            false => next.ask.clone(),
        },
        why: why.collect(),
        measure: next.measure.clone(),
    }
}

fn named(book: &Book, mut rules: Vec<u16>) -> String {
    let urgency = |n: &u16| book.rules.rules[*n as usize].advice.as_ref().map(|a| a.urgency);
    rules.sort_by_key(|n| (urgency(n), *n));
    let mut acts: Vec<String> = Vec::new();
    for rule in rules {
        let act = act_of(book, rule);
        if !acts.contains(&act) {
            acts.push(act);
        }
    }
    let more = acts.len().saturating_sub(MOST);
    acts.truncate(MOST);
    if more > 0 {
        acts.push(format!("and {more} more"));
    }
    acts.join(", ")
}

fn answer_called(book: &Book, next: &NextQuestion, said: &str) -> String {
    match book.schema.path(&next.subject.thing, &next.attribute) {
        Some(id) if book.schema.dimension(id).is_none() => kind_called(book, id, said),
        _ => said.to_string(),
    }
}

//! Invented callers with hidden facts who answer only what they are asked: the advice they end with must be that of the
//! full facts, after few questions.

use super::{BOOK, LISTENER};
use std::collections::{BTreeMap, BTreeSet};
use weirline::case::Ledger;
use weirline::doubt::{assess, next_question};
use weirline::listen::reading::Subject;
use weirline::reply::{Shape, compose};
use weirline::rulebook::raw::Urgency;

#[derive(serde::Deserialize)]
struct Caller {
    says: String,
    knows: BTreeMap<String, String>,
    /// What the caller says when a word of the first line is asked back.
    #[serde(default)]
    clears: Option<String>,
}

/// More than anybody would bear to be asked.
const PATIENCE: usize = 20;

fn hear(ledger: &mut Ledger, line: &str) {
    let reading = LISTENER.read(line, &ledger.context());
    if std::env::var("TALK").is_ok() {
        println!(
            "   {line:?} -> {:?} acts {:?}",
            reading
                .statements
                .iter()
                .map(|s| format!("{}({:?}/{:?}) {:?}", s.subject.thing, s.subject.kind, s.subject.stage, s.says))
                .collect::<Vec<_>>(),
            reading.acts
        );
    }
    ledger.take(reading);
}

/// The advice that is more than good to know.
fn advice(ledger: &Ledger) -> BTreeSet<String> {
    let assessment = assess(&BOOK, ledger);
    let speaking = assessment.tanks.iter().flat_map(|t| &t.findings.speaking);
    let rules = speaking.map(|f| &BOOK.rules.rules[f.rule as usize]);
    let matters = |r: &&weirline::rulebook::book::Rule| r.advice.as_ref().is_some_and(|a| a.urgency < Urgency::InTime);
    rules.filter(matters).map(|r| r.name.clone()).collect()
}

/// Asks what is worth asking until nothing is; gives how many questions were answered with a fact, and how many put.
fn play(caller: &Caller) -> (Ledger, usize, usize) {
    let mut ledger = Ledger::default();
    hear(&mut ledger, &caller.says);
    let (mut told, mut put) = (0, 0);
    let mut asked: BTreeSet<(Subject, String)> = BTreeSet::new();
    while put < PATIENCE {
        // The question as the caller is put it: worth asking, and to the point.
        let assessment = assess(&BOOK, &ledger);
        let answer = compose(&BOOK, &ledger, &assessment, &Shape::default());
        if let (false, Some(cleared), true) = (answer.asked_back.is_empty(), &caller.clears, put == 0) {
            (put, told) = (1, 1);
            hear(&mut ledger, cleared);
            continue;
        }
        let Some(question) = answer.next else { break };
        let key = (question.subject.clone(), question.attribute.clone());
        assert!(asked.insert(key.clone()), "asked twice: {key:?} of {}", caller.says);
        put += 1;
        if std::env::var("TALK").is_ok() {
            println!("  ask {key:?}");
        }
        ledger.ask(Some(key));
        match caller.knows.get(&format!("{}.{}", question.subject.thing, question.attribute)) {
            Some(answer) => {
                told += 1;
                hear(&mut ledger, answer);
            }
            None => hear(&mut ledger, "don't know"),
        }
        ledger.ask(None);
    }
    (ledger, told, put)
}

/// The call with everything the caller knows said, each fact as the answer to its question.
fn full(caller: &Caller) -> Ledger {
    let mut ledger = Ledger::default();
    hear(&mut ledger, &caller.says);
    // Kinds first: they bring in the things that other facts are about.
    let mut facts: Vec<(&String, &String)> = caller.knows.iter().collect();
    facts.sort_by_key(|(path, _)| !path.ends_with(".kind"));
    for (path, answer) in facts {
        let (thing, attribute) = path.split_once('.').unwrap_or_default();
        let view = assess(&BOOK, &ledger);
        let instances = BOOK.schema.thing(thing).map(|id| view.tanks[0].case.facts.instances(id).to_vec());
        let own = instances.and_then(|i| i.first().map(|i| i.subject.clone()));
        let subject = own.unwrap_or(Subject { thing: thing.to_string(), number: 1, tank: 1, ..Subject::default() });
        ledger.ask(Some((subject, attribute.to_string())));
        hear(&mut ledger, answer);
        ledger.ask(None);
    }
    ledger
}

/// How many questions are put until the advice is that of the full facts, or until nobody would bear more: the one worth
/// most first, or in the vocabulary's order. Either stops as soon as it is there, though neither could know.
fn questions_needed(caller: &Caller, in_order: bool) -> usize {
    let wanted = advice(&full(caller));
    let mut ledger = Ledger::default();
    hear(&mut ledger, &caller.says);
    for put in 0..PATIENCE {
        if advice(&ledger) == wanted {
            return put;
        }
        let assessment = assess(&BOOK, &ledger);
        let next = match in_order {
            true => next_question::askable(&BOOK, &ledger, &assessment.tanks[0]).into_iter().next(),
            false => assessment.next.map(|q| (q.subject, q.attribute)),
        };
        let Some(key) = next else { return PATIENCE };
        let answer = caller.knows.get(&format!("{}.{}", key.0.thing, key.1));
        ledger.ask(Some(key));
        hear(&mut ledger, answer.map_or("don't know", String::as_str));
        ledger.ask(None);
    }
    PATIENCE
}

#[test]
fn asking_what_is_worth_most_saves_questions_against_a_fixed_order() {
    let callers: Vec<Caller> = serde_yaml::from_str(include_str!("callers.yaml")).expect("the callers are shipped");
    let count = |in_order| callers.iter().map(|c| questions_needed(c, in_order)).sum::<usize>();
    let (worth, order) = (count(false), count(true));
    println!("questions until the advice is right: {worth} by worth, {order} in fixed order");
    assert!(worth * 2 < order, "{worth} by worth, {order} in fixed order");
}

#[test]
fn callers_who_answer_only_what_is_asked_get_the_advice_of_their_full_facts() {
    let callers: Vec<Caller> = serde_yaml::from_str(include_str!("callers.yaml")).expect("the callers are shipped");
    let (mut right, mut counts, mut puts) = (0, Vec::new(), Vec::new());
    for caller in &callers {
        let (ledger, told, put) = play(caller);
        let (got, wanted) = (advice(&ledger), advice(&full(caller)));
        if got == wanted {
            right += 1;
        } else {
            let missing: Vec<_> = wanted.difference(&got).collect();
            let extra: Vec<_> = got.difference(&wanted).collect();
            println!("{}: {put} put, {told} told; missing {missing:?}, extra {extra:?}", caller.says);
        }
        if std::env::var("TALK").is_ok() {
            println!("{put} put, {told} told: {}", caller.says);
        }
        counts.push(told);
        puts.push(put);
    }
    counts.sort_unstable();
    puts.sort_unstable();
    let median = counts[counts.len() / 2];
    let known: usize = callers.iter().map(|c| c.knows.len()).sum();
    println!(
        "{right} of {} right; answered: median {median}, {} in all of {known} known; put: median {}",
        callers.len(),
        counts.iter().sum::<usize>(),
        puts[puts.len() / 2]
    );
    assert!(right + 1 >= callers.len(), "{right} of {}", callers.len());
    assert!(median <= 4 && puts[puts.len() / 2] <= 4, "{counts:?} {puts:?}");
}

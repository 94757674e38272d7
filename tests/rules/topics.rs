//! What people call about: every topic is answered by a rule that belongs to it, near the top of the answer; every fact asked
//! for can be measured at home, every trade word is explained.

use crate::reply::{shipped, talk};
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use weirline::archive::call::SavedCall;
use weirline::archive::replay::manner;
use weirline::archive::{Conversation, listener};
use weirline::reply::terms;
use weirline::reply::text::Length;

#[derive(Deserialize)]
struct Topic {
    topic: String,
    said: String,
    /// Empty where the answer can only ask.
    rule: String,
    /// The call of transcripts-demo/ in which it is answered.
    call: String,
}

fn topics() -> Vec<Topic> {
    let topics: Vec<Topic> = serde_yaml::from_str(include_str!("topics.yaml")).expect("the table of topics");
    assert!(topics.len() >= 125, "{} topics", topics.len());
    topics
}

/// The rules a caller is read first; none where only a question is put.
fn told_first(conversation: &Conversation) -> Vec<String> {
    let Some(answer) = conversation.answer() else { return Vec::new() };
    match answer.advice.is_empty() && answer.next.is_some() {
        true => vec![String::new()],
        false => answer.advice.iter().take(FIRST).map(|a| a.rule.clone()).collect(),
    }
}

/// How many pieces of advice the caller is read at most before losing patience.
const FIRST: usize = 4;

#[test]
fn every_topic_is_answered_by_its_rule() {
    let book = shipped();
    let mut failures = String::new();
    for Topic { topic, said, rule, .. } in &topics() {
        let mut conversation = talk(&book, Length::Brief);
        conversation.take(said);
        let told = told_first(&conversation);
        if !told.contains(rule) {
            failures += &format!("{topic}: \"{said}\" must be told `{rule}`, is told {told:?}\n");
        }
    }
    assert!(failures.is_empty(), "{failures}");
}

/// Every call of transcripts-demo/ with the rules that some turn of it is told first.
fn demo_calls() -> BTreeMap<String, BTreeSet<String>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("transcripts-demo");
    let book = shipped();
    let mut calls = BTreeMap::new();
    for entry in std::fs::read_dir(folder).expect("the demo calls are there") {
        let path = entry.expect("a demo call").path();
        let text = std::fs::read_to_string(&path).expect("a demo call is text");
        let call = SavedCall::read(&text).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
        let mut conversation = Conversation::new(book.clone(), listener(&book.knowledge), manner(&call));
        let mut told = BTreeSet::new();
        for exchange in &call.exchanges {
            conversation.take(&exchange.typed);
            told.extend(told_first(&conversation));
        }
        calls.insert(path.file_stem().unwrap_or_default().to_string_lossy().into_owned(), told);
    }
    calls
}

#[test]
fn every_topic_is_shown_by_a_call() {
    let calls = demo_calls();
    let mut failures = String::new();
    for Topic { topic, rule, call, .. } in &topics() {
        if !calls.get(call).is_some_and(|told| told.contains(rule)) {
            let others: Vec<&String> = calls.iter().filter(|(_, told)| told.contains(rule)).map(|(c, _)| c).collect();
            failures += &format!("{topic}: `{rule}` is not told near the top of {call:?}; it is in {others:?}\n");
        }
    }
    assert!(failures.is_empty(), "{failures}");
}

#[test]
fn every_fact_that_is_asked_for_says_how_it_is_found_out() {
    let book = shipped();
    for thing in &book.knowledge.vocabulary.things {
        for attribute in thing.attributes.iter().filter(|a| a.ask.is_some()) {
            let name = format!("{}.{}", thing.thing, attribute.attribute);
            assert!(attribute.measure.is_some(), "{name} is asked for, and nothing says how it is found out");
        }
    }
}

/// Words of the trade that the answers use.
const WORDS: &str = "strainer, impeller, dechlorinator, KH, biological media, floss, air stone, prefilter, spray bar, baffle, \
    check valve, diaphragm, weir, sump, overflow, sock, skimmer, carriers, sieve, settling bay, ammonia binder, \
    residual-current device, GFCI, un-ionised ammonia, sintered glass, chloramine, coarse foam, ppi, refractometer, \
    hydrometer, priming, silicone grease, sealing ring, shaft, quarantine, ripe, seed, hang-on, canister, trickle tower, \
    drip plate, undergravel, air lift, powerhead, turnover, swept surface, reverse osmosis, drip loop, moving bed, \
    fluidised sand, denitrator, zeolite, crushed coral, carbonate hardness, head, bypass, cartridge, basket, siphon, \
    dissolved oxygen, nitrite, nitrate, load, livebearer, brackish, UV unit, drop kit, bushes, hospital tank, binder, \
    pump cage, denitrifying, diffusivity, dry drain, face, film, fleece, gauge, packing, waste port, clamp, slots, suction side, \
    shut-off tap, valve, tariff, tower, treated water, wormer, flat worm, zoanthids, live rock, silicate, bay, chamber, \
    bottom drain, kilowatt-hour, young, room for media, petroleum jelly, breaker, fuse board, power strip, cable gland, \
    fishless, seeded, stalled, crash, bicarbonate, rain water, plant food, un-ionised, chloride, ripple, mud, bed, ring, \
    grown length, recharge, brine, porous media, nozzle, tank water, joist, acid, iron oxide, carbon insert, quartz sleeve, \
    standpipe, backwash, hydrogen sulphide, tannins, salinity, alkalinity, specific surface, pump curve, venturi, scourers";

#[test]
fn every_word_of_the_trade_is_explained() {
    let book = shipped();
    for word in WORDS.split(", ").map(str::trim) {
        let question = format!("what does {word} mean?");
        let found = terms::meant(&book, &question).and_then(|(table, name)| terms::explain(&book, table, &name));
        assert!(found.is_some(), "{word} is used and not explained");
    }
}

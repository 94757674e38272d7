//! What people call about: every topic is answered by a rule that belongs to it, near the top of the answer; every fact asked
//! for can be measured at home, every trade word is explained.

use crate::reply::{shipped, talk};
use serde::Deserialize;
use weirline::reply::terms;
use weirline::reply::text::Length;

#[derive(Deserialize)]
struct Topic {
    topic: String,
    said: String,
    /// Empty where the answer can only ask.
    rule: String,
}

/// How many pieces of advice the caller is read at most before losing patience.
const FIRST: usize = 4;

#[test]
fn every_topic_is_answered_by_its_rule() {
    let topics: Vec<Topic> = serde_yaml::from_str(include_str!("topics.yaml")).expect("the table of topics");
    assert!(topics.len() >= 125, "{} topics", topics.len());
    let book = shipped();
    let mut failures = String::new();
    for Topic { topic, said, rule } in &topics {
        let mut conversation = talk(&book, Length::Brief);
        conversation.take(said);
        let answer = conversation.answer();
        let told: Vec<&str> = answer.iter().flat_map(|a| &a.advice).take(FIRST).map(|a| a.rule.as_str()).collect();
        let holds = match rule.as_str() {
            "" => told.is_empty() && answer.is_some_and(|a| a.next.is_some()),
            rule => told.contains(&rule),
        };
        if !holds {
            failures += &format!("{topic}: \"{said}\" must be told `{rule}`, is told {told:?}\n");
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
    dissolved oxygen, nitrite, nitrate, load, livebearer, brackish, UV unit, drop kit, bushes, hospital tank";

#[test]
fn every_word_of_the_trade_is_explained() {
    let book = shipped();
    for word in WORDS.split(", ").map(str::trim) {
        let question = format!("what does {word} mean?");
        let found = terms::meant(&book, &question).and_then(|(table, name)| terms::explain(&book, table, &name));
        assert!(found.is_some(), "{word} is used and not explained");
    }
}

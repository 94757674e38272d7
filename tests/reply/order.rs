//! The order of advice: danger to people, danger to fish, then what was asked, then by day; a worry before generalities.

use super::{MADE_UP, book_of, talk};
use weirline::reply::text::Length;

fn rules(lines: &[&str]) -> Vec<String> {
    let mut conversation = talk(&book_of(MADE_UP), Length::Full);
    for line in lines {
        conversation.take(line);
    }
    conversation.answer().unwrap().advice.iter().map(|a| a.rule.clone()).collect()
}

#[test]
fn people_then_fish_then_the_rest() {
    let all = rules(&["100 litres, canister 200 l/h, 6 guppies gasping at the surface, got a shock from the water"]);
    assert_eq!(all, ["tingle-felt", "fish-gasp", "flow-is-weak", "tank-told"]);
}

#[test]
fn a_quiet_tank_has_quiet_advice() {
    assert_eq!(rules(&["100 litres"]), ["tank-told"]);
}

#[test]
fn one_act_is_shown_once_with_the_cautions_of_both() {
    let twice = MADE_UP.replace(
        "- rule: flow-is-strong",
        "- rule: flow-is-very-weak
  topic: flow
  for: filter
  when:
  - turnover < 2 per hour
  advise:
    urgency: today
    act: raise the flow
    say: Far too slow.
    because: It is.
  cautions: [unplug-first]
  basis: [worked out]
- rule: flow-is-strong",
    );
    let book = book_of(&twice);
    let mut conversation = talk(&book, Length::Full);
    conversation.take("100 litres, canister 100 l/h");
    let advice = &conversation.answer().unwrap().advice;
    let names: Vec<&str> = advice.iter().map(|a| a.rule.as_str()).collect();
    assert_eq!(names, ["flow-is-very-weak", "tank-told"]);
    assert_eq!(advice[0].cautions.len(), 1);
}

#[test]
fn what_is_asked_comes_behind_what_cannot_wait_for_another_day() {
    let more = MADE_UP.replace(
        "- rule: tank-told",
        "- rule: too-dear
  topic: cost
  when:
  - water > 1 L
  advise: {urgency: good to know, say: It costs little., because: So it is., figures: [water]}
  basis: [common practice]
- rule: tank-told",
    );
    let book = book_of(&more);
    let order = |lines: &[&str]| {
        let mut conversation = talk(&book, Length::Full);
        lines.iter().for_each(|l| {
            conversation.take(l);
        });
        conversation.answer().unwrap().advice.iter().map(|a| a.rule.clone()).collect::<Vec<_>>()
    };
    assert_eq!(order(&["100 litres, canister 200 l/h"]), ["flow-is-weak", "tank-told", "too-dear"]);
    let asked = order(&["100 litres, canister 200 l/h", "what does it cost?"]);
    assert_eq!(asked, ["too-dear", "flow-is-weak", "tank-told"]);
    let urgent = order(&["100 litres, canister 200 l/h, 6 guppies gasping", "what does it cost?"]);
    assert_eq!(urgent, ["fish-gasp", "too-dear", "flow-is-weak", "tank-told"]);
}

#[test]
fn a_worry_that_was_told_comes_before_what_holds_of_any_tank() {
    let more = MADE_UP.replace(
        "- rule: tank-told",
        "- rule: water-is-green
  topic: cloudy
  when:
  - tank.looks = green
  advise: {urgency: good to know, say: Less light., because: Algae live on it.}
  basis: [common practice]
- rule: a-general-figure
  topic: volume
  when:
  - water > 1 L
  advise: {urgency: good to know, say: Count on it., because: So it is., figures: [water]}
  basis: [common practice]
- rule: tank-told",
    );
    let book = book_of(&more);
    let mut conversation = talk(&book, Length::Brief);
    let page = weirline::archive::replay::plain(&conversation.take("100 litres, green water").page);
    let names: Vec<&str> = conversation.answer().unwrap().advice.iter().map(|a| a.rule.as_str()).collect();
    assert_eq!(names[0], "water-is-green");
    assert!(page.contains("Less light."), "{page}");
    assert!(!page.contains("Count on it."), "a generality beside a worry: {page}");
}

#[test]
fn a_bare_yes_or_no_is_answered_by_a_rule_that_names_the_thing() {
    let more = MADE_UP.replace(
        "- rule: tank-told",
        "- rule: carbon-is-spent
  topic: replace
  when:
  - water > 1 L
  advise: {urgency: good to know, say: Carbon is spent within weeks., because: It fills.}
  basis: [common practice]
- rule: salt-needs
  topic: need
  when:
  - any medium with age > 3 wk
  advise: {urgency: good to know, say: Salt is not needed., because: So it is.}
  basis: [common practice]
- rule: tank-told",
    );
    let book = book_of(&more);
    let said = |line: &str| super::shown(&book, Length::Brief, &["100 litres", line]);
    assert!(said("do I need carbon?").contains("Carbon is spent"), "{}", said("do I need carbon?"));
    let lamp = said("do I need UV?");
    assert!(lamp.contains("No rule of this book"), "asks for what would not answer it: {lamp}");
}

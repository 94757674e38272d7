//! The order of advice: danger to people, danger to fish, then by day; what was asked first within its urgency.

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
fn what_is_asked_stands_first_only_within_its_urgency() {
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
    assert_eq!(asked, ["flow-is-weak", "too-dear", "tank-told"]);
}

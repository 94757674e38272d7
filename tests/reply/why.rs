//! Why, why not, how sure, says who, what if: from advice down to the caller's words.

use super::{MADE_UP, book_of, shown, talk};
use weirline::reply::text::Length;

#[test]
fn why_goes_down_to_the_callers_words() {
    let text = shown(&book_of(MADE_UP), Length::Brief, &["100 litres, canister 200 l/h", "why?"]);
    assert_eq!(
        text,
        "\
Advice     The filter turns about 80 L over about 2.5 per hour: too slow.
Why        It turns over about 2.5 per hour.
Holds      - turnover < 4 per hour: 2.5 per hour < 4 per hour
Figures    - turnover = flow / water = 200 L/h / 80 L = about 2.5 per hour
             (2.3 to 2.7); worked out
           - water in the tank = tank size x share of it that is water = 100 L
             x 80 % = about 80 L (73 to 87); worked out
           - share of the tank that is water = about 80 % (73 to 87); assumed,
             common practice
Facts      - tank size: 100 L; you said \"100 litres\"
           - flow printed on the filter: 200 L/h; you said \"200 l/h\"
Rests on   Worked out.
Rule       flow-is-weak, rules/made-up.yaml:44
This was the first of 2: say why 2 for the next.
"
    );
}

#[test]
fn why_not_tells_by_how_much() {
    let book = book_of(MADE_UP);
    let text = shown(&book, Length::Brief, &["100 litres, canister 400 l/h", "why not flow is strong"]);
    // 400 L/h in 80 L of water are 5 per hour; the rule speaks from 10.
    assert!(text.contains("would speak at or above 10 per hour; yours"), "{text}");
    let waits = shown(&book, Length::Brief, &["100 litres, canister", "why not raise the flow"]);
    assert!(waits.contains("waits for flow printed on the filter"), "{waits}");
    let speaks = shown(&book, Length::Brief, &["100 litres, canister 200 l/h", "why not raise the flow"]);
    assert!(speaks.contains("that is advised"), "{speaks}");
}

#[test]
fn less_than_sure_names_the_fact_it_hangs_on() {
    // About 380 L/h in 80 L: the limit of 4 per hour lies inside the spread.
    let book = book_of(MADE_UP);
    let mut conversation = talk(&book, Length::Full);
    conversation.take("about 100 litres, canister about 310 l/h");
    let advice = conversation.answer().unwrap().advice.iter().find(|a| a.rule == "flow-is-weak").unwrap().clone();
    assert!(advice.sure > 0.2 && advice.sure < 0.95, "{}", advice.sure);
    assert!(advice.hangs_on.is_some());
    let text = weirline::archive::replay::plain(&conversation.take("how sure").page);
    assert!(text.contains("in 100") && text.contains("This hangs on"), "{text}");
}

#[test]
fn what_if_changes_nothing_that_is_held() {
    let book = book_of(MADE_UP);
    let mut conversation = talk(&book, Length::Brief);
    conversation.take("100 litres, canister 200 l/h");
    let before = conversation.object()["facts"].clone();
    let text = weirline::archive::replay::plain(&conversation.take("what if canister 1200 l/h").page);
    assert!(text.contains("Turn it down.") && text.contains("No longer"), "{text}");
    assert!(text.contains("Turnover: about 15 per hour instead of about 2.5 per hour"), "{text}");
    assert_eq!(conversation.object()["facts"], before);
    let again = weirline::archive::replay::plain(&conversation.take("known").page);
    assert!(again.contains("200 L/h") && !again.contains("1200"), "{again}");
}

#[test]
fn and_for_answers_the_last_question_again() {
    let book = book_of(MADE_UP);
    let lines = ["100 litres, canister 200 l/h", "how many litres is that?", "and for 50 litres?"];
    let text = shown(&book, Length::Brief, &lines);
    assert!(text.contains("Water in the tank: about 40 L"), "{text}");
    let mut conversation = talk(&book, Length::Brief);
    lines.iter().for_each(|l| {
        conversation.take(l);
    });
    assert!(conversation.take("known").page.words().contains("100 L"));
}

#[test]
fn says_who_names_the_ground() {
    let text = shown(&book_of(MADE_UP), Length::Brief, &["100 litres, canister 200 l/h", "says who"]);
    assert!(text.contains("(worked out)") && text.contains("(common practice)"), "{text}");
}

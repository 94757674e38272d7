//! Pages: whole answers as text, at any width the same words, brief within its screen, colour that only repeats.

use super::{MADE_UP, book_of, shipped, shown, talk};
use proptest::prelude::*;
use weirline::archive::replay::plain;
use weirline::reply::brief::{Screen, brief};
use weirline::reply::lines::set;
use weirline::reply::page::{Page, Paragraph, Row, Tone};
use weirline::reply::paint::{decide, paint};
use weirline::reply::text::Length;

const LINES: [&str; 8] = [
    "55 gallon, 30 small tetras, fry present",
    "55 gallon, 30 small tetras, fry present, hang-on filter 400 gph, basket 2 litres",
    "200 l, 40 guppies, canister 1000 l/h, nitrate 80, nitrite 0, ammonia 0.5, ph 8.2, 27C",
    "got a shock from the water, 100 litre tank, 6 guppies",
    "power cut for 6 hours, 120 l, canister, 10 neons",
    "pond 5000 litres, 6 koi, green water",
    "20 gallon, set up 1 week ago, sponge filter, 10 guppies gasping",
    "pH 74, 20 guppies, blah frobnicate",
];

#[test]
fn a_whole_answer() {
    let text = shown(&book_of(MADE_UP), Length::Brief, &["100 litres, canister 200 l/h, wibble"]);
    assert_eq!(
        text,
        "\
Say        The filter turns about 80 litres over about 2.5 times an hour: too
           slow.
This week  1  Look for 200 L/h or more.
To know    -  It holds about 80 litres.
Why        It turns over about 2.5 per hour.
Figures    - turnover = flow / water = 200 L/h / 80 L = about 2.5 per hour
             (2.3 to 2.7); worked out
           - water in the tank = tank size x share of it that is water = 100 L
             x 80 % = about 80 L (73 to 87); worked out
Not understood  wibble
More       say more for the rest, why for the reasons.
",
        "{text}"
    );
}

#[test]
fn the_first_screen_in_a_chat_has_sixteen_lines() {
    let book = shipped();
    for line in LINES {
        let mut conversation = talk(&book, Length::Brief);
        let text = plain(&conversation.take(line).page);
        assert!(text.lines().count() <= Screen::CHAT.lines, "{line}\n{text}");
        assert!(text.lines().all(|l| unicode_width::UnicodeWidthStr::width(l) <= 80), "{text}");
    }
}

#[test]
fn an_emergency_shows_nothing_that_can_wait() {
    let text = shown(
        &book_of(MADE_UP),
        Length::Brief,
        &["100 litres, canister 200 l/h, 6 guppies gasping at the surface, got a shock from the water"],
    );
    assert!(text.contains("Danger") && text.contains("Now"), "{text}");
    assert!(!text.contains("This week") && !text.contains("To know"), "{text}");
    assert!(text.contains("More"), "{text}");
}

#[test]
fn more_holds_everything_and_brief_says_that_there_is_more() {
    let book = shipped();
    for line in LINES {
        let mut conversation = talk(&book, Length::Brief);
        conversation.take(line);
        let full = conversation.take("more").page.words();
        for advice in &conversation.answer().unwrap().advice {
            assert!(full.contains(&advice.say.replace('\u{a0}', " ")), "{line}: {}", advice.say);
        }
    }
}

#[test]
fn the_same_words_at_any_width() {
    let book = shipped();
    for line in LINES {
        let mut conversation = talk(&book, Length::Full);
        let page = conversation.take(line).page;
        let words = |width: usize| {
            let text = paint(&set(&page, width), false);
            text.split_whitespace().map(String::from).collect::<Vec<_>>()
        };
        let wide = words(200);
        // Narrower than this the longest rule names no longer fit beside a label.
        for width in [50, 60, 80, 100] {
            assert_eq!(words(width), wide, "{line} at {width}");
        }
    }
}

#[test]
fn colour_only_repeats_what_the_words_say() {
    let book = shipped();
    let mut conversation = talk(&book, Length::Full);
    let page = conversation.take(LINES[2]).page;
    let lines = set(&page, 80);
    decide(true);
    let coloured = paint(&lines, true);
    assert!(coloured.contains('\u{1b}'));
    assert_eq!(without_escapes(&coloured), paint(&lines, false));
}

fn without_escapes(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(start) = rest.find('\u{1b}') {
        out.push_str(&rest[..start]);
        let end = rest[start..].find('m').map_or(rest.len(), |n| start + n + 1);
        rest = &rest[end..];
    }
    out + rest
}

#[test]
fn the_same_answer_a_hundred_times() {
    let book = shipped();
    let first = shown(&book, Length::Full, &[LINES[1]]);
    for _ in 0..20 {
        assert_eq!(shown(&book, Length::Full, &[LINES[1]]), first);
    }
}

#[test]
fn a_narrow_screen_still_fits_the_most_urgent() {
    let book = shipped();
    let mut conversation = talk(&book, Length::Brief);
    conversation.take(LINES[1]);
    let page = brief(conversation.answer().unwrap(), 40, Screen::CHAT, "more");
    let text = paint(&set(&page, 40), false);
    assert!(text.starts_with("Say"), "{text}");
    assert!(text.lines().all(|l| l.chars().count() <= 40), "{text}");
}

proptest! {
    #![proptest_config(crate::tries(256))]

    /// Setting never loses or adds a word, whatever the words are.
    #[test]
    fn setting_keeps_every_word(words in proptest::collection::vec("[a-z]{1,12}", 1..60), width in 30usize..120) {
        let text = words.join(" ");
        let rows = vec![Row::list("Label", Tone::Plain, vec![Paragraph::led("1  ", text.clone())])];
        let out = paint(&set(&Page { rows }, width), false);
        let got: Vec<&str> = out.split_whitespace().skip(2).collect();
        prop_assert_eq!(got.join(" "), text);
        prop_assert!(out.lines().all(|l| l.len() <= width));
    }
}

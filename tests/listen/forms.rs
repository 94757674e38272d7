//! The common forms of a call, line by line.

use super::notation::{ask, statement};
use weirline::listen::reading::{Became, Context, Reading};

fn read(text: &str) -> Reading {
    super::listener().read(text, &Context::default())
}

/// Statements and asks as text, marks and the leaned gallon left out.
fn said(text: &str) -> Vec<String> {
    let reading = read(text);
    let facts = reading.statements.iter().filter(|s| s.subject.thing != "keeper").map(|s| {
        let text = statement(s);
        text.split(" (hint)").next().unwrap_or("").split(" (derived)").next().unwrap_or("").to_string()
    });
    facts.chain(reading.asks.iter().map(ask)).collect()
}

#[test]
fn the_common_forms() {
    let cases: &[(&str, &[&str])] = &[
        (
            "55 gallon, 30 neon tetras, fry present",
            &["tank.nominal = 55 gal", "stock(neon tetra).count = 30", "stock(any/fry) present"],
        ),
        (
            "hang-on filter 400 gph, basket 2 litres",
            &["filter.kind = hob", "filter.rated flow = 400 gal/h", "filter.basket volume = 2 L"],
        ),
        (
            "200 l, 40 guppies, canister 1000 l/h, nitrate 80, nitrite 0, ammonia 0.5, ph 8.2, 27C",
            &[
                "tank.nominal = 200 L",
                "stock(guppy).count = 40",
                "filter.kind = canister",
                "filter.rated flow = 1000 L/h",
                "reading.nitrate = 80 mg/L",
                "reading.nitrite = 0 mg/L",
                "reading.ammonia = 0.5 mg/L",
                "reading.ph = 8.2 pH",
                "tank.temperature = 27 C",
            ],
        ),
        ("no fry", &["stock(any/fry) absent"]),
        ("do I need carbon?", &["whether need medium(carbon)"]),
        ("30 g of salt", &["medium(salt).mass = 30 g"]),
        ("no2 0", &["reading.nitrite = 0 mg/L"]),
        (
            "20g hob 10 guppies fry no2 0",
            &[
                "filter.kind = hob",
                "stock(any/fry) present",
                "tank.nominal = 20 gal",
                "stock(guppy).count = 10",
                "reading.nitrite = 0 mg/L",
            ],
        ),
    ];
    for (text, expected) in cases {
        let mut read = said(text);
        let mut expected: Vec<String> = expected.iter().map(|s| s.to_string()).collect();
        read.sort();
        expected.sort();
        assert_eq!(read, expected, "{text}");
    }
}

#[test]
fn what_cannot_be_is_asked_and_not_used() {
    for text in ["pH 74", "-5 guppies", "1e9 gallons", "0 gallons", "NaN litres", "30 g"] {
        let reading = read(text);
        let values =
            reading.statements.iter().filter(|s| matches!(s.says, weirline::listen::reading::Says::Value { .. }));
        assert_eq!(values.count(), 0, "{text}: {:?}", reading.statements);
        assert!(text == "NaN litres" || !reading.back.is_empty(), "{text}");
    }
}

#[test]
fn nothing_is_dropped_in_silence() {
    let long = "a".repeat(1_000_000);
    for text in ["", "   \t ", "?!...,,,;;--", "asdf jkl; qwertz", "\u{1b}[31m\u{7}", "🐟🐟🐟", long.as_str()] {
        let reading = read(text);
        for use_of in &reading.words {
            if use_of.became == Became::Unread {
                assert!(
                    reading.unread.iter().any(|u| u.start <= use_of.span.start && u.end >= use_of.span.end),
                    "{text:.40}"
                );
            }
        }
    }
    assert_eq!(read("asdf qwertz").unread.len(), 1);
    assert_eq!(read(&long).unread.len(), 1);
    assert_eq!(read("").acts.len(), 1);
}

#[test]
fn a_question_that_ends_where_a_telegram_would_begin_is_read() {
    for line in ["what for", "media, what for", "55 gallon, 6 guppies, what for?", "what for for"] {
        let reading = super::listener().read(line, &Default::default());
        assert!(!reading.words.is_empty(), "{line}");
    }
}

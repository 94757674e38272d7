//! Every word of the tables is found, in any spelling of blanks and hyphens, and in the plural.

use super::book;
use weirline::knowledge::index::{Hit, normal};
use weirline::knowledge::plural::plurals;
use weirline::knowledge::table::Table;

fn names(words: &str) -> Vec<(Table, &'static str)> {
    let name = |h: &Hit| (h.table, book().entry(h.table, h.entry as usize).expect("a hit is an entry").name());
    book().words.find(words).iter().map(name).collect()
}

#[test]
fn every_name_and_other_word_is_found() {
    for table in Table::ALL.into_iter().filter(|t| t.is_spoken()) {
        for n in 0..book().count(table) {
            let entry = book().entry(table, n).expect("counted");
            for word in std::iter::once(entry.name()).chain(entry.also().iter().map(String::as_str)) {
                let hit = Hit { table, entry: n as u32 };
                assert!(book().words.find(word).contains(&hit), "{table:?} {}: `{word}`", entry.name());
                assert!(
                    book().words.find(&word.to_uppercase().replace(' ', "-")).contains(&hit),
                    "`{word}` in capitals"
                );
            }
        }
    }
    assert!(book().words.len() > 4000, "{}", book().words.len());
}

#[test]
fn plurals_are_made_by_rule_and_by_exception() {
    let made = |name| plurals(name, &book().plurals);
    assert_eq!(made("neon tetra"), ["neon tetras"]);
    assert_eq!(made("clown loach"), ["clown loaches"]);
    assert_eq!(made("guppy"), ["guppies"]);
    assert_eq!(made("ray"), ["rays"]);
    assert_eq!(made("fire fish"), ["fire fishes"]);
    assert_eq!(made("clown knife"), ["clown knives"]);
    assert_eq!(made("koi"), ["koi"]);
    assert_eq!(made("10 ppi"), ["10 ppi"]);
    assert!(made("discus").is_empty());
    assert_eq!(names("black neon tetras"), [(Table::Stock, "black neon tetra")]);
    assert_eq!(names("clown knives"), [(Table::Stock, "clown knifefish")]);
}

#[test]
fn a_word_with_several_meanings_gives_the_question_first() {
    let sharks = names("sharks");
    assert_eq!(sharks[0], (Table::Ambiguous, "shark"));
    assert!(sharks.contains(&(Table::Stock, "shark")));
    let shark = book().ambiguous.iter().find(|a| a.ambiguous == "shark").expect("listed");
    assert_eq!(shark.until_told.as_deref(), Some("shark"));
    assert!(shark.ask.ends_with('?') || shark.ask.ends_with("now?"));
}

#[test]
fn the_longest_run_of_words_wins() {
    let line = ["red", "tailed", "black", "shark", "in", "the", "tank"];
    let (count, hits) = book().words.longest(&line).expect("a shark");
    assert_eq!(count, 4);
    assert_eq!(hits[0].table, Table::Stock);
    assert!(book().words.longest(&["frobnicate", "tetra"]).is_none());
}

#[test]
fn words_are_compared_without_case_hyphens_and_apostrophes() {
    assert_eq!(normal("  Hang-On  Back "), "hang on back");
    assert_eq!(normal("Reeves\u{2019} Turtle"), "reeves turtle");
    assert_eq!(normal("wet/dry"), "wet dry");
    assert_eq!(normal(" - "), "");
    assert!(book().words.find("").is_empty());
}

/// They are looked up by halves.
#[test]
fn ordinary_words_stand_in_order_each_once() {
    let words: Vec<&str> = book().language.ordinary.split(' ').collect();
    assert!(words.len() > 5000, "{} words", words.len());
    for pair in words.windows(2) {
        assert!(pair[0] < pair[1], "{} before {}", pair[0], pair[1]);
    }
}

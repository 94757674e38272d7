//! Rules of thumb that the book contradicts, and rules that pull in two directions: what must be told, and what must not speak
//! beside it.

use crate::reply::{shipped, talk};
use serde::Deserialize;
use weirline::reply::text::Length;

#[derive(Deserialize)]
struct Row {
    row: String,
    said: String,
    told: String,
    #[serde(default)]
    never: Vec<String>,
}

/// How many pieces of advice the caller is read at most before losing patience.
const FIRST: usize = 4;

#[test]
fn rules_of_thumb_are_contradicted_and_conflicts_decided() {
    let rows: Vec<Row> = serde_yaml::from_str(include_str!("contradicted.yaml")).expect("the table of contradictions");
    assert!(rows.len() >= 50, "{} rows", rows.len());
    let book = shipped();
    let mut failures = String::new();
    for Row { row, said, told, never } in &rows {
        let mut conversation = talk(&book, Length::Brief);
        conversation.take(said);
        let advice = conversation.answer().map(|a| a.advice.as_slice()).unwrap_or_default();
        if !advice.iter().take(FIRST).any(|a| a.rule == *told) {
            let found: Vec<&str> = advice.iter().take(FIRST).map(|a| a.rule.as_str()).collect();
            failures += &format!("{row}: \"{said}\" must be told `{told}`, is told {found:?}\n");
        }
        for rule in never {
            assert!(book.rules.rules.iter().any(|r| r.name == *rule), "{row}: there is no rule `{rule}`");
            if advice.iter().any(|a| a.rule == *rule) {
                failures += &format!("{row}: `{rule}` must not speak beside `{told}`\n");
            }
        }
    }
    assert!(failures.is_empty(), "{failures}");
}

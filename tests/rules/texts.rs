//! What rules say: short enough to be read out, and never a figure that is unknown when they speak.

use super::call::{BOOK, line};
use std::collections::BTreeMap;
use weirline::engine::Value;
use weirline::rulebook::template::{Piece, Template};

fn words(template: &Template) -> (usize, usize, String) {
    let (mut text, mut figures) = (String::new(), 0);
    for piece in template {
        match piece {
            Piece::Text(t) => text += t,
            _ => {
                figures += 1;
                text += "figure";
            }
        }
    }
    (text.split_whitespace().count(), figures, text)
}

#[test]
fn sentences_can_be_read_out() {
    let mut faults = String::new();
    for rule in &BOOK.rules.rules {
        let Some(advice) = &rule.advice else { continue };
        let (count, figures, text) = words(&advice.say);
        if count > 25 {
            faults += &format!("{}: {count} words: {text}\n", rule.name);
        }
        if figures > 2 {
            faults += &format!("{}: {figures} figures: {text}\n", rule.name);
        }
        if text.contains(['/', '%', '(', ')', '+', '=', '<', '>', '"']) {
            faults += &format!("{}: a sign that nobody can say: {text}\n", rule.name);
        }
        for part in advice.steps.iter().chain([&advice.say, &advice.because]) {
            if matches!(part.first(), Some(Piece::Figure(_) | Piece::Fact(_))) {
                faults += &format!("{}: begins with a figure: {}\n", rule.name, words(part).2);
            }
        }
    }
    assert!(faults.is_empty(), "{faults}");
}

#[test]
fn no_text_names_an_unknown_figure() {
    let examples = BOOK.rules.rules.iter().map(|r| BOOK.examples(r)).flat_map(|e| e.speaks.iter().chain(&e.silent));
    let mut faults = BTreeMap::new();
    for example in examples {
        let call = line(example);
        for finding in &call.findings.speaking {
            let rule = &BOOK.rules.rules[finding.rule as usize];
            let Some(advice) = &rule.advice else { continue };
            let shown = advice.figures.iter().map(|f| Piece::Figure(*f));
            for piece in advice.steps.iter().flatten().chain(&advice.say).chain(&advice.because).cloned().chain(shown) {
                let (name, value) = match piece {
                    Piece::Figure(n) => {
                        let figure = &BOOK.rules.figures[n as usize];
                        let instance = if figure.for_thing.is_some() { finding.instance } else { 0 };
                        (figure.name.clone(), call.state.figure(n, instance))
                    }
                    Piece::Fact(id) => {
                        let owner = BOOK.schema.thing_of(BOOK.schema.of(id).thing);
                        let instance = if owner.several { finding.instance } else { 0 };
                        (BOOK.schema.path_name(id), call.world.value(id, instance))
                    }
                    Piece::Text(_) => continue,
                };
                if value == Value::Unknown {
                    faults.entry((rule.name.as_str(), name)).or_insert(example);
                }
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

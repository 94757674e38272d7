//! What a caller says and takes back was never said: through the listener, the ledger and the engine, on the shipped book.

use std::sync::LazyLock;
use weirline::case::Ledger;
use weirline::doubt::assessment::{case_of, plain, statements, tanks};
use weirline::engine::{Findings, State};
use weirline::listen::Listener;
use weirline::rulebook::Book;

static BOOK: LazyLock<Book> = LazyLock::new(|| match Book::built_in() {
    Ok(book) => book,
    Err(faults) => panic!("{faults:?}"),
});

fn outcome(ledger: &Ledger) -> Vec<(State, Findings)> {
    let said = statements(ledger, &[]);
    let each = tanks(&said).into_iter().map(|tank| plain(&BOOK, &case_of(&BOOK, tank, &said)));
    each.map(|(_, state, findings)| (state, findings)).collect()
}

#[test]
fn taken_back_is_never_said() {
    let listener = Listener::new(&BOOK.knowledge);
    // Lines of rules far apart, each after the next: facts, kinds, absences, events, questions.
    let rules = BOOK.rules.rules.iter().step_by(7);
    let lines: Vec<&str> = rules.flat_map(|r| BOOK.examples(r).speaks.first()).map(String::as_str).collect();
    assert!(lines.len() > 20, "too few examples");
    let mut changed = 0;
    for pair in lines.windows(2) {
        let mut ledger = Ledger::default();
        ledger.take(listener.read(pair[0], &ledger.context()));
        let before = outcome(&ledger);
        ledger.take(listener.read(pair[1], &ledger.context()));
        changed += usize::from(outcome(&ledger) != before);
        ledger.undo();
        assert_eq!(outcome(&ledger), before, "after \"{}\" and back", pair[1]);
    }
    assert!(changed * 2 > lines.len(), "most second lines change something, or nothing is tried");
}

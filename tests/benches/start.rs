//! How long the parts of one answer take: reading the built-in book, making the listener, listening, assessing, wording.
//! Run: `cargo bench --bench start`. Prints medians; asserts nothing.

mod timing;

use timing::median;
use weirline::reply::lines::set;
use weirline::reply::{Screen, Shape, brief, compose};
use weirline::{case::Ledger, doubt, listen::Listener, rulebook::Book};

/// Some twenty facts.
const LINE: &str = "200 l tank 100 x 40 x 50 cm, 40 guppies, 6 corydoras 5 cm, fry, canister 1000 l/h, 3 litres of media, \
    sponge on the intake, cleaned 6 weeks ago, nitrate 80, nitrite 0, ammonia 0.5, ph 8.2, 27C, kh 6, tap nitrate 10, \
    plants, I change 25% every week, set up 2 years";

fn main() {
    let Ok(book) = Book::built_in() else { return println!("the built-in book is broken") };
    let listener = Listener::new(&book.knowledge);
    let ledger = || {
        let mut ledger = Ledger::default();
        ledger.take(listener.read(LINE, &ledger.context()));
        ledger
    };
    let said = ledger();
    let statements = doubt::assessment::statements(&said, &[]);
    println!("book           {:>10.1?}", median(50, || drop(Book::built_in())));
    println!("listener       {:>10.1?}", median(50, || drop(Listener::new(&book.knowledge))));
    println!("listen         {:>10.1?}", median(500, || drop(ledger())));
    println!("case           {:>10.1?}", median(500, || drop(doubt::assessment::case_of(&book, 1, &statements))));
    let case = doubt::assessment::case_of(&book, 1, &statements);
    println!("one pass       {:>10.1?}", median(500, || drop(doubt::assessment::plain(&book, &case))));
    println!("assessment     {:>10.1?}", median(100, || drop(doubt::assess(&book, &said))));
    let assessment = doubt::assess(&book, &said);
    let shape = Shape::default();
    println!("wording        {:>10.1?}", median(100, || drop(compose(&book, &said, &assessment, &shape))));
    let answer = compose(&book, &said, &assessment, &shape);
    println!("first screen   {:>10.1?}", median(100, || drop(set(&brief(&answer, 80, Screen::CHAT, ""), 80))));
}

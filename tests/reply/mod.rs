//! Replies: digits, units, order, pages, JSON, and the conversation. Made-up rules where the shipped ones would move.

mod asked;
mod conversation;
mod conversions;
mod digits;
mod json;
mod open_call;
mod order;
mod pages;
mod units;
mod why;

use std::sync::{Arc, LazyLock};
use weirline::archive::{Conversation, Manner, listener, replay::plain};
use weirline::reply::Shape;
use weirline::reply::text::Length;
use weirline::rulebook::Book;
use weirline::rulebook::library::built_in_texts;

/// The shipped book.
pub fn shipped() -> Arc<Book> {
    static BOOK: LazyLock<Arc<Book>> =
        LazyLock::new(|| Arc::new(Book::built_in().unwrap_or_else(|_| panic!("the shipped book has faults"))));
    BOOK.clone()
}

/// The shipped tables with made-up rules.
pub fn book_of(rules: &str) -> Arc<Book> {
    let mut files: Vec<(String, String)> =
        built_in_texts().into_iter().filter(|(path, _)| path.starts_with("knowledge/")).collect();
    files.push(("rules/made-up.yaml".to_string(), rules.to_string()));
    match Book::from_texts(files.clone(), "made up") {
        Ok((book, _)) => Arc::new(book),
        Err(faults) => {
            let find = |file: &str| files.iter().find(|(p, _)| p == file).map(|(_, t)| t.clone());
            let shown: String = faults.iter().map(|f| weirline::source::draw::draw(f, &find)).collect();
            panic!("{shown}")
        }
    }
}

/// A conversation with a book.
pub fn talk(book: &Arc<Book>, length: Length) -> Conversation {
    let manner = Manner { shape: Shape::default(), length, width: 80, once: false };
    Conversation::new(book.clone(), listener(&book.knowledge), manner)
}

/// What a conversation shows for the last of some lines.
pub fn shown(book: &Arc<Book>, length: Length, lines: &[&str]) -> String {
    let mut conversation = talk(book, length);
    let mut last = String::new();
    for line in lines {
        last = plain(&conversation.take(line).page);
    }
    last
}

/// Rules for tests: one of each urgency, some figures.
pub const MADE_UP: &str = "
about: Made-up rules for tests.
figures:
- figure: share
  called: share of the tank that is water
  is: 80 %
  between: 70 to 90 %
  basis: [common practice]
- figure: water
  called: water in the tank
  is: tank.nominal * share
  formula: tank size x share of it that is water
  shown in: L
  basis: [worked out]
- figure: turnover
  for: filter
  is: filter.rated flow / water
  formula: flow / water
  shown in: per hour
  words: [turnover]
  basis: [worked out]
rules:
- rule: tingle-felt
  topic: safety
  when:
  - any event with kind = shock
  advise:
    urgency: danger
    say: Switch off at the fuse board.
    because: The water carries current.
  cautions: [tingle]
  basis: [common practice]
- rule: fish-gasp
  topic: oxygen
  when:
  - any stock with health = gasping
  advise:
    urgency: now
    act: bring air in
    say: Bring air into the water at once.
    steps: [Point the outlet up., Add an air stone.]
    because: They gasp.
  basis: [common practice]
- rule: flow-is-weak
  topic: flow
  for: filter
  when:
  - turnover < 4 per hour
  advise:
    urgency: this week
    act: raise the flow
    say: \"The filter turns {water} over {turnover}: too slow.\"
    steps: [\"Look for {filter.rated flow} or more.\"]
    because: \"It turns over {turnover}.\"
    figures: [turnover]
  basis: [worked out]
- rule: flow-is-strong
  topic: flow
  for: filter
  when:
  - turnover >= 10 per hour
  advise:
    urgency: in time
    say: Turn it down.
    because: \"It turns over {turnover}.\"
    figures: [turnover]
  basis: [worked out]
- rule: tank-told
  topic: volume
  when:
  - water > 1 L
  advise:
    urgency: good to know
    say: \"It holds {water}.\"
    because: \"A share of {share} is water.\"
    figures: [water]
  basis: [common practice]
";

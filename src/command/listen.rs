//! Shows how a line is read, word by word. In: words. Out: what became of each, then the facts and questions made of them.

use super::book::open_or_tell;
use super::outcome::{Outcome, show};
use super::settings::Settings;
use crate::archive::Hear;
use crate::listen::Listener;
use crate::listen::reading::Context;
use crate::reply::heard::{page, words};
use crate::reply::lines::set;
use crate::reply::paint::paint;
use crate::reply::reading_json::turn;

/// Reads and shows.
pub fn listen(line: &str, settings: &Settings) -> Outcome {
    let book = match open_or_tell(settings) {
        Ok(book) => book,
        Err(outcome) => return outcome,
    };
    let book = &book;
    let reading = Listener::new(&book.knowledge).hear(line, &Context::default());
    let text = match settings.json {
        true => {
            let mut object = turn(&reading);
            let questions: Vec<_> =
                reading.asks.iter().map(|a| crate::reply::reading_json::question(a, &reading.text, 1)).collect();
            object["questions"] = serde_json::json!(questions);
            object["words"] = serde_json::json!(words(&reading));
            format!("{object}\n")
        }
        false => paint(&set(&page(book, &reading), settings.width), settings.colour),
    };
    let _ = show(&text);
    Outcome::Fine
}

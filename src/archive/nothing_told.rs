//! Lines that tell and ask nothing: greetings, thanks, orders to the program, words that were not understood. In: a reading.
//! Out: a page, or nothing: then the call is worked out. Reads no words itself.

use super::conversation::Conversation;
use super::request::Request;
use crate::listen::reading::{Act, Reading};
use crate::reply::help;
use crate::reply::page::{Page, Row, Tone};
use crate::reply::unread::{aside, is_ours, lost, unread};

impl Conversation {
    /// A page for a line that only greets, thanks, or speaks of something else; `None` when it must be worked out.
    pub(super) fn answer_to_act(&mut self, reading: &Reading) -> Option<Page> {
        let acts: Vec<Act> = reading.acts.iter().map(|(act, _)| *act).collect();
        let has = |act: Act| acts.contains(&act);
        let asked = self.call().ledger.asked().is_some();
        if has(Act::DontKnow) {
            return match asked {
                true => None,
                false => Some(Page::line(format!("Nothing was asked yet. Say what there is, like: {}", help::EXAMPLE))),
            };
        }
        if has(Act::More) {
            return Some(self.meet(Request::More).page);
        }
        if has(Act::Next) || has(Act::Back) {
            return Some(self.meet(if has(Act::Next) { Request::Next } else { Request::Back }).page);
        }
        if has(Act::Stop) {
            return Some(self.meet(Request::Stop).page);
        }
        // "ok, lights off tonight then": the word at the head does not stand for the rest.
        let open = !self.call().ledger.is_empty();
        let words = unread(reading);
        // In an open call every question is meant, even where no word of it is known.
        if let Some(lost) = lost(reading).filter(|_| (open || is_ours(&self.book, reading)) && !has(Act::OffTopic)) {
            let mut page = Page::line(lost);
            page.rows.extend(self.not_understood(words, true).rows);
            return Some(page);
        }
        // Understood, but nothing of it holds of the caller's tank: that is said, not that nothing was.
        if !reading.aside.is_empty() && !has(Act::OffTopic) {
            let mut page = Page::default();
            page.push(Row::new("Set aside", Tone::Quiet, aside(reading).join(", ")));
            page.rows.extend(self.not_understood(words, true).rows);
            return Some(page);
        }
        let act = [Act::OffTopic, Act::Save, Act::Swear, Act::Bye].into_iter().any(has);
        if open && !words.is_empty() && !act {
            return Some(self.not_understood(words, false));
        }
        let line = if has(Act::OffTopic) {
            "That is not about filters, so this book has nothing on it.".to_string()
        } else if has(Act::Save) {
            "Say save and a name for the call: save mrs hall".to_string()
        } else if has(Act::Agree) || has(Act::Deny) {
            match asked {
                true => "That does not say which: give the answer in a word or a figure.".to_string(),
                false => "Nothing was asked that yes or no would answer.".to_string(),
            }
        } else if has(Act::Greet) {
            format!("Hello. Say the tank, the fish, the filter and the worry, like: {}", help::EXAMPLE)
        } else if has(Act::Thank) || has(Act::Confirm) || has(Act::Apology) {
            "All right.".to_string()
        } else if has(Act::Bye) {
            "Goodbye.".to_string()
        } else if has(Act::Swear) {
            "Say the tank, the fish, the filter and what is wrong.".to_string()
        } else {
            // What was asked is still open, and is worth more to the caller than an example.
            if asked {
                return Some(self.not_understood(words, false));
            }
            match words.is_empty() && reading.lost.is_empty() {
                true => format!("Nothing in that was about a tank. Try: {}", help::EXAMPLE),
                false if !is_ours(&self.book, reading) => {
                    "That is not about tanks or their filters, and this book has nothing else.".to_string()
                }
                false => return Some(self.not_understood(words, false)),
            }
        };
        Some(Page::line(line))
    }

    /// The words that nothing came of, and what is still to be told.
    fn not_understood(&self, words: Vec<String>, asked: bool) -> Page {
        let mut page = Page::default();
        let told = asked || !words.is_empty();
        page.push(Row::new("Not understood", Tone::Quiet, words.join(", ")));
        if let Some(next) = self.answer().and_then(|a| a.next.as_ref()).filter(|_| self.call().ledger.asked().is_some())
        {
            if !told {
                page.push(Row::new("", Tone::Plain, "That does not tell."));
            }
            page.push(Row::new("Ask", Tone::Ask, next.ask.clone()));
            if let Some(measure) = &next.measure {
                page.push(Row::new("To find out", Tone::Plain, measure.clone()));
            }
            return page;
        }
        let line = match self.call().ledger.is_empty() {
            true => format!("Try: {}", help::EXAMPLE),
            false => "Say it in other words, or say known for what is held of this call.".to_string(),
        };
        page.push(Row::new("", Tone::Plain, line));
        page
    }
}

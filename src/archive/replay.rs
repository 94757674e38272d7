//! Replays a saved call: the typed lines again, through the book in use. In: a saved call, a book. Out: the call as it would
//! be now, and the lines that differ. Reads and writes no file.

use super::call::{Exchange, SavedCall, WIDTH};
use super::conversation::{Conversation, Hear, Manner};
use crate::reply::Shape;
use crate::reply::lines::set;
use crate::reply::page::Page;
use crate::reply::paint::paint;
use crate::rulebook::Book;
use std::sync::Arc;

/// The text of a page as it is saved: plain, at the width of saved calls.
pub fn plain(page: &Page) -> String {
    paint(&set(page, WIDTH), false)
}

/// How a saved call was held.
pub fn manner(call: &SavedCall) -> Manner {
    Manner {
        shape: Shape { units: call.head.units, ..Shape::default() },
        length: call.head.length,
        width: WIDTH,
        once: false,
    }
}

/// The call as it would be answered now.
pub fn replay(call: &SavedCall, book: &Arc<Book>, hear: &Arc<dyn Hear>) -> SavedCall {
    let mut conversation = Conversation::new(book.clone(), hear.clone(), manner(call));
    let exchanges = call.exchanges.iter().map(|exchange| {
        let shown = plain(&conversation.take(&exchange.typed).page);
        Exchange {
            typed: exchange.typed.clone(),
            shown,
            told: Some(conversation.told()),
            stamp: exchange.stamp.clone(),
        }
    });
    SavedCall { head: call.head.clone(), exchanges: exchanges.collect() }
}

/// A line of a comparison.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Difference {
    Same(String),
    Gone(String),
    New(String),
}

/// Lines of two texts beside each other, by their longest common part.
pub fn differences(before: &str, after: &str) -> Vec<Difference> {
    let (a, b): (Vec<&str>, Vec<&str>) = (before.lines().collect(), after.lines().collect());
    // Length of the longest common part of the two tails that begin at each pair of lines.
    let mut common = vec![vec![0u32; b.len() + 1]; a.len() + 1];
    for n in (0..a.len()).rev() {
        for m in (0..b.len()).rev() {
            common[n][m] = match a[n] == b[m] {
                true => common[n + 1][m + 1] + 1,
                false => common[n + 1][m].max(common[n][m + 1]),
            };
        }
    }
    let (mut n, mut m, mut out) = (0, 0, Vec::new());
    while n < a.len() || m < b.len() {
        if n < a.len() && m < b.len() && a[n] == b[m] {
            out.push(Difference::Same(a[n].to_string()));
            (n, m) = (n + 1, m + 1);
        } else if n < a.len() && (m == b.len() || common[n + 1][m] >= common[n][m + 1]) {
            out.push(Difference::Gone(a[n].to_string()));
            n += 1;
        } else {
            out.push(Difference::New(b[m].to_string()));
            m += 1;
        }
    }
    out
}

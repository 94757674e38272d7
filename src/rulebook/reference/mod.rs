//! The reference of a book, as Markdown: everything that may be written in a rule, and everything that is. In: a book.
//! Out: pages by file name. The same book always gives the same bytes.

mod calculations;
mod constructs;
mod faults;
mod figures;
mod language;
mod rules;
mod units;
mod vocabulary;

pub use constructs::{CONSTRUCTS, Construct, Example};

use super::Book;

/// One page.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ReferencePage {
    /// "rules.md".
    pub file: &'static str,
    pub text: String,
}

/// All pages, in the order in which they are best read.
pub fn pages(book: &Book) -> Vec<ReferencePage> {
    let page = |file, text| ReferencePage { file, text };
    vec![
        page("language.md", language::page()),
        page("vocabulary.md", vocabulary::page(book)),
        page("units.md", units::page()),
        page("calculations.md", calculations::page()),
        page("figures.md", figures::page(book)),
        page("rules.md", rules::page(book)),
        page("faults.md", faults::page()),
    ]
}

/// A text that stands in a table or a list: on one line, its bars harmless.
fn cell(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").replace('|', "\\|")
}

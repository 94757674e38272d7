//! The page of faults. In: the pages of `check`. Out: Markdown.

use crate::rulebook::check::pages;
use std::fmt::Write;

pub fn page() -> String {
    let mut out = String::from(
        "# Faults\n\nWhat `check` may find, by the name that stands in brackets in its message. An error keeps the book from being used; a\nwarning asks for a look.\n",
    );
    for page in pages() {
        let _ = write!(out, "\n## {}\n\n{}", page.name, page.says);
        if !page.why.is_empty() {
            let _ = write!(out, " {}", page.why);
        }
        out.push('\n');
        for (title, text) in [("Wrong", page.wrong), ("Right", page.right)] {
            if !text.is_empty() {
                let _ = write!(out, "\n{title}:\n\n```yaml\n{text}\n```\n");
            }
        }
    }
    out
}

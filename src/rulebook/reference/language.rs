//! The page of the rule language: every construct with an example and what it gives. In: the constructs. Out: Markdown.

use super::constructs::{CONSTRUCTS, Example};
use std::fmt::Write;

pub fn page() -> String {
    let mut out = String::from(
        "# The language of rules\n\nA rule file holds figures and rules. Conditions and formulae are made of the few constructs below; every example here\nis run.\n",
    );
    for construct in CONSTRUCTS {
        let _ = write!(out, "\n## {}\n\n{}\n", construct.name, construct.says);
        for example in construct.examples {
            match example {
                Example::Gives { write, where_, gives } => {
                    let facts = if where_.is_empty() { "nothing said".into() } else { where_.join(", ") };
                    let _ = write!(out, "\n    {write}\n\nWith {facts}: {gives}.\n");
                }
                Example::Entry { yaml } => {
                    let _ = write!(out, "\n```yaml\n{yaml}\n```\n");
                }
            }
        }
    }
    out
}

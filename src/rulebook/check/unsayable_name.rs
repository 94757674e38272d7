//! unsayable-name: a figure or conclusion has a name that no condition can say.

use super::Checking;
use crate::rulebook::expr::parse::KEYWORDS;
use crate::rulebook::expr::token::{Token, tokens};
use crate::source::Fault;
use crate::source::words::ticked;

pub fn faults(checking: &Checking, out: &mut Vec<Fault>) {
    let figures = checking.entries.figures.iter().map(|(f, s)| (f.figure.as_str(), s.get("figure")));
    let conclusions = checking.entries.rules.iter().flat_map(|(r, s)| {
        let list = s.get("conclude");
        r.conclude.iter().enumerate().map(move |(n, c)| (c.as_str(), list.item(n)))
    });
    for (name, spot) in figures.chain(conclusions) {
        let Some(why) = unsayable(name) else { continue };
        out.push(Fault::error("unsayable-name", spot.place(), format!("no condition can say {}: {why}", ticked(name))));
    }
}

fn unsayable(name: &str) -> Option<String> {
    let Ok(found) = tokens(name) else { return Some("it holds a sign that is no letter".into()) };
    let mut words = Vec::new();
    for (token, _) in &found {
        match token {
            Token::Word(word) if KEYWORDS.contains(&word.as_str()) => {
                return Some(format!("`{word}` is a word of conditions"));
            }
            Token::Word(word) if word.contains('.') => return Some("a point parts a thing from its attribute".into()),
            Token::Word(word) => words.push(word.as_str()),
            Token::Number { .. } => return Some("it holds a number".into()),
            Token::Sign(sign) => return Some(format!("it holds `{sign}`")),
        }
    }
    if words.len() > 1 && matches!((words[0], words[1]), ("count" | "sum" | "least" | "greatest", "of")) {
        return Some(format!("`{} of` counts or adds things up", words[0]));
    }
    (words.join(" ") != name).then(|| "between its words stands more than one blank".to_string())
}

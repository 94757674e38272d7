//! Pasted pages: quoted lines, headers of letters, signatures. In: text and words. Out: which words are the caller's own.
//! Knows no meaning.

use super::found::Doubt;
use super::reading::{Doubtful, Mark};
use super::turn::Turn;
use super::words::{Sort, Word};
use crate::knowledge::language::Role;

/// Heads of the lines that a mail program puts before a letter.
const HEADS: [&str; 7] = ["from", "to", "date", "subject", "sent", "cc", "reply"];

/// For each word whether it stands in the body of the text.
pub fn body(text: &str, words: &[Word]) -> Vec<bool> {
    let mut body = vec![true; words.len()];
    if !text.contains('\n') {
        return body;
    }
    let mut start = 0;
    let mut closed = false;
    while start < words.len() {
        let mut end = start;
        while end < words.len() && !words[end].is_mark('\n') {
            end += 1;
        }
        let line = &words[start..end];
        let quoted = line.first().is_some_and(|w| w.is_mark('>') || w.is_mark('|'));
        let head = line.len() > 2
            && line[0].sort == Sort::Word
            && HEADS.contains(&line[0].text.as_str())
            && line[1].is_mark(':')
            && line[1].tight;
        let rule = line.len() >= 2 && line.iter().all(|w| w.is_mark('-')) && end < words.len();
        closed |= rule;
        let sent_from = line.len() >= 3 && line[0].text == "sent" && line[1].text == "from";
        // A rule of a book typed in is text, not speech.
        let rule_text = line.len() > 2
            && matches!(line[0].text.as_str(), "rule" | "figure" | "advise" | "conclude")
            && line[1].is_mark(':')
            && line[1].tight;
        closed |= rule_text && start == 0;
        if quoted || head || closed || sent_from {
            body[start..end].fill(false);
        }
        start = end + 1;
    }
    body
}

/// Fewer than one small word of ours in so many, and more words not known than known: another language.
const SMALL_WORDS: usize = 5;

/// Text of another language: what was read of it is only a guess, and is asked about.
pub fn foreign(turn: &mut Turn) {
    let words = turn.words.iter().filter(|w| w.sort == Sort::Word).count();
    let unknown = turn.terms.iter().filter(|t| t.sort == Sort::Word && t.senses.is_empty()).count();
    let small = turn
        .terms
        .iter()
        .filter(|t| t.is(Role::Noise) && t.first == t.last && turn.words[t.first].text.len() > 1)
        .count();
    if words < 4 || unknown * 3 < words || small * SMALL_WORDS > words || turn.reading.statements.is_empty() {
        return;
    }
    for statement in &mut turn.reading.statements {
        statement.mark = statement.mark.or(Some(Mark::Hint));
    }
    turn.doubt(Doubt::new(Doubtful::Ambiguous, "I read only a part of that: is it right?", Vec::new()));
}

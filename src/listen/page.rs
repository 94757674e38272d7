//! Pasted pages: quoted lines, headers of letters, signatures. In: text and words. Out: which words are the caller's own.
//! Knows no meaning.

use super::words::{Sort, Word};

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
        if quoted || head || closed || sent_from {
            body[start..end].fill(false);
        }
        start = end + 1;
    }
    body
}

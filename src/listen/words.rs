//! Words: a text cut into words, numbers and marks, each with its place. In: text, and whether a spelling is known.
//! Out: words in lower case without apostrophes. Knows no meaning.

use super::number::Numeral;
use crate::source::Span;

/// One word, number or mark of the text.
#[derive(Clone, Debug, PartialEq)]
pub struct Word {
    pub span: Span,
    /// Lower case, apostrophes dropped: "isnt", "no3", "l/h"; empty for marks.
    pub text: String,
    pub sort: Sort,
    /// Touches the word before it.
    pub tight: bool,
    /// Joined to the word before it by a hyphen.
    pub hyphen: bool,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sort {
    Word,
    Number(Numeral),
    Mark(char),
    /// Letters that are no word: pictures, control codes, a run of letters too long to be speech.
    Other,
}

impl Word {
    pub fn is_mark(&self, mark: char) -> bool {
        self.sort == Sort::Mark(mark)
    }
}

/// Nobody says a longer word; what is longer is kept whole and not looked at.
const LONGEST_WORD: usize = 40;
/// The rest of a longer text is kept as one piece and not looked at: two hundred pages of talk fit in.
pub const LONGEST_TEXT: usize = 400_000;

/// Cuts `text` into words. `known` says whether a spelling such as "l/h" or "no3" is one word of ours.
pub fn split(text: &str, known: &dyn Fn(&str) -> bool) -> Vec<Word> {
    let mut cutter = Cutter { text, known, at: 0, words: Vec::with_capacity(text.len() / 5 + 4), end: 0 };
    let limit = floor_boundary(text, LONGEST_TEXT);
    while cutter.at < limit {
        cutter.step();
    }
    if cutter.at < text.len() {
        let start = cutter.at;
        cutter.push(start, text.len(), String::new(), Sort::Other);
    }
    cutter.words
}

fn floor_boundary(text: &str, at: usize) -> usize {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

struct Cutter<'t> {
    text: &'t str,
    known: &'t dyn Fn(&str) -> bool,
    at: usize,
    words: Vec<Word>,
    /// Where the word before ended.
    end: usize,
}

impl Cutter<'_> {
    fn peek(&self, offset: usize) -> Option<char> {
        self.text.get(offset..)?.chars().next()
    }

    fn push(&mut self, start: usize, end: usize, text: String, sort: Sort) {
        let tight = start == self.end && start > 0;
        self.words.push(Word { span: Span::new(start, end), text, sort, tight, hyphen: false });
        self.end = end;
        self.at = end;
    }

    fn step(&mut self) {
        let start = self.at;
        let Some(c) = self.peek(start) else {
            self.at = self.text.len();
            return;
        };
        let next = start + c.len_utf8();
        match c {
            '\n' => self.push(start, next, String::new(), Sort::Mark('\n')),
            '\r' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}' => {
                self.at = next
            }
            '\u{1b}' => {
                let end = escape_end(self.text, start);
                self.push(start, end, String::new(), Sort::Other);
            }
            c if c.is_whitespace() => self.at = next,
            '0'..='9' => self.number(start),
            '.' | ',' if self.peek(next).is_some_and(|d| d.is_ascii_digit()) && !self.after_digit(start) => {
                self.number(start)
            }
            '½' | '¼' | '¾' | '⅓' | '⅔' => {
                let value = match c {
                    '½' => 0.5,
                    '¼' => 0.25,
                    '¾' => 0.75,
                    '⅓' => 1.0 / 3.0,
                    _ => 2.0 / 3.0,
                };
                self.push(start, next, String::new(), Sort::Number(Numeral::fraction(value)));
            }
            '°' | 'º' => {
                // "°C", "° F", "°d": the sign belongs to the letters behind it.
                let letters = self.text[next..].trim_start_matches(' ');
                let from = self.text.len() - letters.len();
                let end = from + letters.bytes().take_while(|b| b.is_ascii_alphabetic()).count();
                if end > from && end - from <= 3 {
                    let text = format!("°{}", self.text[from..end].to_ascii_lowercase());
                    self.push(start, end, text, Sort::Word);
                } else {
                    self.push(start, next, "°".into(), Sort::Word);
                }
            }
            c if c.is_alphabetic() => self.letters(start),
            '\'' | '’' | '‘' | '`' | '´' => {
                if self.after_digit(start) && self.is_short_is(next) {
                    // "the 240's clear": a short "is", no sign for feet.
                    self.push(start, next + 1, "is".into(), Sort::Word);
                } else if self.after_digit(start) && c != '`' {
                    let double = self.peek(next).is_some_and(|d| matches!(d, '\'' | '’'));
                    let (end, mark) = if double {
                        (self.text[next..].chars().next().map_or(next, |d| next + d.len_utf8()), '"')
                    } else {
                        (next, '\'')
                    };
                    self.push(start, end, String::new(), Sort::Mark(mark));
                } else {
                    self.at = next;
                }
            }
            '"' | '”' | '“' | '″' => {
                if self.after_digit(start) {
                    self.push(start, next, String::new(), Sort::Mark('"'));
                } else {
                    self.at = next;
                }
            }
            '–' | '—' | '−' | '-' => {
                // A dash inside a word is no mark of its own.
                let joins = start == self.end
                    && self.words.last().is_some_and(|w| w.sort == Sort::Word)
                    && self.peek(next).is_some_and(char::is_alphanumeric)
                    && c == '-';
                let before_digit = self.peek(next).is_some_and(|d| d.is_ascii_digit());
                if joins && !before_digit {
                    self.end = next;
                    self.at = next;
                    let count = self.words.len();
                    self.step();
                    if let Some(word) = self.words.get_mut(count) {
                        word.hyphen = true;
                    }
                } else {
                    self.push(start, next, String::new(), Sort::Mark('-'));
                }
            }
            '×' | '✕' => self.push(start, next, String::new(), Sort::Mark('x')),
            '•' | '·' | '*' | '▪' => self.push(start, next, String::new(), Sort::Mark('*')),
            '…' => self.push(start, next, String::new(), Sort::Mark(',')),
            '<' if markup_end(self.text, start).is_some() => {
                let end = markup_end(self.text, start).unwrap_or(next);
                self.push(start, end, String::new(), Sort::Other);
            }
            '(' if self.is_call(start) => {
                let end = self.text[start..].find(')').map_or(next, |n| start + n + 1);
                self.push(start, end, String::new(), Sort::Other);
            }
            ',' | ';' | '.' | ':' | '!' | '?' | '/' | '(' | ')' | '[' | ']' | '{' | '}' | '<' | '>' | '=' | '+'
            | '&' | '@' | '%' | '~' | '±' | '£' | '$' | '€' | '|' | '#' | '_' | '\\' | '≥' | '≤' | '^' => {
                self.push(start, next, String::new(), Sort::Mark(c))
            }
            _ => {
                // Pictures and whatever else: one piece as long as it lasts.
                let mut end = next;
                while let Some(d) = self.peek(end) {
                    if d.is_ascii() || d.is_alphanumeric() || d.is_whitespace() {
                        break;
                    }
                    end += d.len_utf8();
                }
                self.push(start, end, String::new(), Sort::Other);
            }
        }
    }

    /// An "s" stands at `at`, and no letter behind it.
    fn is_short_is(&self, at: usize) -> bool {
        matches!(self.peek(at), Some('s' | 'S')) && !self.peek(at + 1).is_some_and(char::is_alphanumeric)
    }

    /// "alert('x')": a piece of a program, not speech in brackets.
    fn is_call(&self, start: usize) -> bool {
        start == self.end
            && self.words.last().is_some_and(|w| w.sort == Sort::Word)
            && self.peek(start + 1).is_some_and(|c| matches!(c, '\'' | '"' | ')'))
    }

    /// A digit or a fraction stands right before.
    fn after_digit(&self, start: usize) -> bool {
        start == self.end && self.words.last().is_some_and(|w| matches!(w.sort, Sort::Number(_)))
    }

    fn number(&mut self, start: usize) {
        let bytes = self.text.as_bytes();
        let mut end = start;
        while end < bytes.len() {
            let digit_next = bytes.get(end + 1).is_some_and(u8::is_ascii_digit);
            let exponent = matches!(bytes[end], b'e' | b'E') && end > start && digit_next;
            if bytes[end].is_ascii_digit() || (matches!(bytes[end], b'.' | b',') && digit_next) || exponent {
                end += 1;
            } else {
                break;
            }
        }
        let literal = &self.text[start..end];
        // "1st", "2nd": a place in a row, one word.
        if let Some(tail) = self.text.get(end..).map(|t| t.get(..2).unwrap_or("")) {
            let ends = !self.text.get(end + 2..).is_some_and(|t| t.starts_with(|c: char| c.is_alphanumeric()));
            if ends && matches!(tail.to_ascii_lowercase().as_str(), "st" | "nd" | "rd" | "th") {
                let text = format!("{literal}{}", tail.to_ascii_lowercase());
                return self.push(start, end + 2, text, Sort::Word);
            }
        }
        if end - start > LONGEST_WORD {
            return self.push(start, end, String::new(), Sort::Other);
        }
        self.push(start, end, String::new(), Sort::Number(Numeral::read(literal)));
        // "2x", "12x8": the multiplying letter.
        if matches!(self.peek(end), Some('x' | 'X'))
            && !self.text.get(end + 1..).is_some_and(|t| t.starts_with(|c: char| c.is_alphabetic()))
        {
            self.push(end, end + 1, String::new(), Sort::Mark('x'));
        }
    }

    fn letters(&mut self, start: usize) {
        let end = self.run_end(start);
        if end - start > LONGEST_WORD * 2 {
            return self.push(start, end, String::new(), Sort::Other);
        }
        let piece = &self.text[start..end];
        let text = plain(piece);
        if text == "x" {
            return self.push(start, end, String::new(), Sort::Mark('x'));
        }
        // "l/h", "mg/l", "w/o", "n/t": a slash inside a spelling of ours.
        if matches!(self.peek(end), Some('/')) {
            let after = self.run_end(end + 1);
            let joined = if after > end + 1 {
                format!("{text}/{}", plain(&self.text[end + 1..after]))
            } else {
                format!("{text}/")
            };
            if (self.known)(&joined) {
                return self.push(start, after.max(end + 1), joined, Sort::Word);
            }
        }
        // "s.glass": a shortened word.
        if self.peek(end) == Some('.') && text.len() == 1 && !self.after_digit(start) {
            let more = self.peek(end + 1);
            if more.is_some_and(|c| c.is_alphabetic() || c == ' ')
                && !self.words.last().is_some_and(|w| matches!(w.sort, Sort::Number(_)))
            {
                self.push(start, end, text, Sort::Word);
                self.at = end + 1;
                self.end = end + 1;
                return;
            }
        }
        // Letters with digits behind them: "no3" is a name, "x4" a count, "ph7.4" a label and its figure.
        if let Some(digits) = text.find(|c: char| c.is_ascii_digit()) {
            let letters = &text[..digits];
            let rest_is_digits = text[digits..].bytes().all(|b| b.is_ascii_digit());
            if piece.is_ascii() && piece.len() == text.len() && rest_is_digits {
                if letters == "x" {
                    self.push(start, start + 1, String::new(), Sort::Mark('x'));
                    return self.number(start + 1);
                }
                if !(self.known)(&text) && letters.len() > 1 && (self.known)(letters) {
                    let letters = letters.to_string();
                    self.push(start, start + digits, letters, Sort::Word);
                    return self.number(start + digits);
                }
            }
        }
        self.push(start, end, text, Sort::Word);
    }

    /// The end of a run of letters and digits, with apostrophes inside it.
    fn run_end(&self, start: usize) -> usize {
        let mut end = start;
        for c in self.text[start.min(self.text.len())..].chars() {
            let apostrophe = matches!(c, '\'' | '’')
                && end > start
                && self.text[end + c.len_utf8()..].starts_with(|d: char| d.is_alphabetic());
            let combining = matches!(c, '\u{300}'..='\u{36f}');
            if !(c.is_alphanumeric() || apostrophe || combining) {
                break;
            }
            end += c.len_utf8();
        }
        end
    }
}

/// Lower case without apostrophes.
fn plain(piece: &str) -> String {
    if piece.is_ascii() {
        let mut text = String::with_capacity(piece.len());
        text.extend(piece.bytes().filter(|b| *b != b'\'').map(|b| b.to_ascii_lowercase() as char));
        text
    } else {
        piece.chars().filter(|c| !matches!(c, '\'' | '’')).flat_map(char::to_lowercase).collect()
    }
}

/// The end of a tag of markup that begins at `start`: "<script>".
fn markup_end(text: &str, start: usize) -> Option<usize> {
    let rest = &text[start + 1..];
    let name = rest.strip_prefix('/').unwrap_or(rest);
    if !name.starts_with(|c: char| c.is_ascii_alphabetic()) {
        return None;
    }
    let end = rest.bytes().take(80).position(|b| b == b'>')?;
    Some(start + 1 + end + 1)
}

/// The end of a terminal's control code that begins at `start`: "\u{1b}[31m".
fn escape_end(text: &str, start: usize) -> usize {
    let rest = &text.as_bytes()[start + 1..];
    if rest.first() != Some(&b'[') {
        return start + 1;
    }
    let body = rest[1..].iter().take(16).take_while(|b| b.is_ascii_digit() || **b == b';').count();
    let end = start + 2 + body;
    if text.as_bytes().get(end).is_some_and(u8::is_ascii_alphabetic) { end + 1 } else { end }
}

/// The singular form by three endings; names and words are both folded so, so no list of plurals is needed.
pub fn fold(word: &str) -> &str {
    let n = word.len();
    if matches!(word, "says" | "does" | "means" | "perhaps" | "always" | "yes" | "lens")
        || n <= 3
        || !word.ends_with('s')
        || !word.is_ascii()
    {
        return word;
    }
    let stem = &word[..n - 1];
    if stem.ends_with('s') || stem.ends_with('u') || stem.ends_with('i') {
        return word;
    }
    if let Some(stem) = word.strip_suffix("es")
        && (stem.ends_with('x') || stem.ends_with("sh") || stem.ends_with("ch") || stem.ends_with("ss"))
    {
        return stem;
    }
    stem
}

/// As `fold`, with "guppies" and "guppy" both as "guppy".
pub fn folded(word: &str) -> String {
    match word.strip_suffix("ies") {
        Some(stem) if stem.len() > 1 && word.is_ascii() => format!("{stem}y"),
        _ => fold(word).to_string(),
    }
}

/// Whether the word is a plural by its form.
pub fn is_plural(word: &str) -> bool {
    fold(word).len() < word.len()
}

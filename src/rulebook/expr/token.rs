//! Cuts an expression into tokens. In: text. Out: numbers with their units, words, signs, each with its span; or the
//! place of the first thing that is none of these.

use crate::source::Span;
use crate::units::{Unit, parse, unit};

#[derive(Clone, Debug, PartialEq)]
pub enum Token {
    Number { value: f64, unit: Option<&'static Unit> },
    Word(String),
    Sign(&'static str),
}

/// A fault inside one expression; `span` is relative to the expression's text.
#[derive(Clone, Debug, PartialEq)]
pub struct ExprFault {
    pub name: &'static str,
    pub span: Span,
    pub what: String,
    pub notes: Vec<String>,
    pub cure: Option<String>,
}

impl ExprFault {
    pub fn new(name: &'static str, span: Span, what: impl Into<String>) -> Self {
        Self { name, span, what: what.into(), notes: vec![], cure: None }
    }

    pub fn note(mut self, note: impl Into<String>) -> Self {
        self.notes.push(note.into());
        self
    }

    pub fn cure(mut self, cure: impl Into<String>) -> Self {
        self.cure = Some(cure.into());
        self
    }
}

const SIGNS: &[&str] = &["<=", ">=", "!=", "<", ">", "=", "+", "*", "/", "^", "(", ")", ","];

/// Signs that people write for others.
const SLIPS: &[(&str, &str)] = &[
    ("==", "="),
    ("=<", "<="),
    ("=>", ">="),
    ("<>", "!="),
    ("&&", "and"),
    ("&", "and"),
    ("||", "or"),
    ("|", "or"),
    ("≤", "<="),
    ("≥", ">="),
    ("≠", "!="),
    ("×", "*"),
    ("÷", "/"),
    ("–", "-"),
    ("−", "-"),
];

/// All tokens of `text`.
pub fn tokens(text: &str) -> Result<Vec<(Token, Span)>, ExprFault> {
    let mut out: Vec<(Token, Span)> = Vec::new();
    let mut at = 0;
    while at < text.len() {
        let rest = &text[at..];
        let Some(c) = rest.chars().next() else { break };
        if c.is_whitespace() {
            at += c.len_utf8();
        } else if c.is_ascii_digit() || (c == '.' && rest[1..].starts_with(|d: char| d.is_ascii_digit())) {
            let (token, length) = number(text, at)?;
            out.push((token, Span::new(at, at + length)));
            at += length;
        } else if c.is_alphabetic() {
            let length = word_length(rest);
            out.push((Token::Word(rest[..length].to_string()), Span::new(at, at + length)));
            at += length;
        } else if let Some((written, meant)) = SLIPS.iter().find(|(s, _)| rest.starts_with(s)) {
            let what = format!("`{written}` means nothing here");
            return Err(ExprFault::new("strange-sign", Span::new(at, at + written.len()), what).cure(*meant));
        } else if let Some(sign) = SIGNS.iter().find(|s| rest.starts_with(**s)) {
            out.push((Token::Sign(sign), Span::new(at, at + sign.len())));
            at += sign.len();
        } else if c == '-' {
            out.push((Token::Sign("-"), Span::new(at, at + 1)));
            at += 1;
        } else {
            let fault =
                ExprFault::new("strange-sign", Span::new(at, at + c.len_utf8()), format!("`{c}` means nothing here"));
            return Err(match c {
                '"' | '\'' => fault.cure("write the kind without quotes"),
                '{' | '}' => fault.cure("write the name without braces: they are for texts"),
                '°' => fault.cure("write C or F for degrees, as in `25 C`"),
                _ => fault,
            });
        }
    }
    Ok(out)
}

/// Letters and digits, and inside a word `-`, `_`, `.` and `'`, so that `hang-on` and `tank.water` are one word.
fn word_length(text: &str) -> usize {
    let mut end = 0;
    let mut letters = text.char_indices().peekable();
    while let Some((n, c)) = letters.next() {
        let joins = matches!(c, '-' | '_' | '.' | '\'') && letters.peek().is_some_and(|(_, d)| d.is_alphanumeric());
        if c.is_alphanumeric() || joins {
            end = n + c.len_utf8();
        } else {
            break;
        }
    }
    end
}

/// A number and the longest unit name that follows it.
fn number(text: &str, at: usize) -> Result<(Token, usize), ExprFault> {
    let rest = &text[at..];
    let mut length = rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
    // "2,5" is a slip of the hand; "f(2, 5)" has a space behind its comma.
    if rest[length..].starts_with(',') && rest[length + 1..].starts_with(|c: char| c.is_ascii_digit()) {
        let end = rest[length + 1..].find(|c: char| !c.is_ascii_digit()).map_or(rest.len(), |n| length + 1 + n);
        let written = &rest[..end];
        return Err(ExprFault::new(
            "comma-decimal",
            Span::new(at, at + end),
            format!("`{written}` has a comma in a number"),
        )
        .cure(written.replace(',', ".")));
    }
    let exponent = rest[length..]
        .strip_prefix(['e', 'E'])
        .map(|r| (r.strip_prefix(['-', '+']).unwrap_or(r), 1 + usize::from(r.starts_with(['-', '+']))))
        .filter(|(digits, _)| digits.starts_with(|c: char| c.is_ascii_digit()));
    if let Some((digits, sign)) = exponent {
        length += sign + digits.find(|c: char| !c.is_ascii_digit()).unwrap_or(digits.len());
    }
    let value = parse::parse_number(&rest[..length])
        .map_err(|why| ExprFault::new("bad-number", Span::new(at, at + length), why.to_string()))?;
    let gap = rest[length..].len() - rest[length..].trim_start_matches(' ').len();
    let tail = &rest[length + gap..];
    Ok(match unit::at_front(tail) {
        Some(unit) => (Token::Number { value, unit: Some(unit) }, length + gap + unit.name.len()),
        None => (Token::Number { value, unit: None }, length),
    })
}

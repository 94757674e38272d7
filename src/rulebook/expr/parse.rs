//! Reads an expression. In: text. Out: its tree, or the first place where it stops making sense and what was expected
//! there. Grammar, loosest first:
//!   choice     = given ("else" given)*          given   = any ("if" any)?
//!   any        = all ("or" all)*                all     = denial ("and" denial)*
//!   denial     = "not" denial | comparison
//!   comparison = sum (("<"|"<="|">"|">="|"="|"!=") sum | "between" sum "and" sum | "is" "not"? "known")?
//!   sum        = product (("+"|"-") product)*   product = power (("*"|"/") power)*     power = value ("^" value)?
//!   value      = number unit? | name | name "(" choice ("," choice)* ")" | "(" choice ")" | "-" value
//!              | ("any"|"every") thing ("with" any)?
//!              | "count of" thing ("with" any)? | ("sum"|"least"|"greatest") "of" sum "over" thing ("with" any)?

use super::token::{ExprFault, Token, tokens};
use super::tree::{Arithmetic, Comparison, Expr, Fold, Node};
use crate::source::Span;

/// Words that cannot be part of a name.
pub const KEYWORDS: &[&str] =
    &["and", "or", "not", "is", "between", "any", "every", "with", "over", "if", "else", "known"];

/// The tree of `text`.
pub fn parse(text: &str) -> Result<Expr, ExprFault> {
    parse_with(text, &[])
}

/// The tree of `text`. `phrases` are names that hold one of the keywords ("cleaned with"), and are names all the same.
pub fn parse_with(text: &str, phrases: &[String]) -> Result<Expr, ExprFault> {
    let mut tokens = tokens(text)?;
    if !phrases.is_empty() {
        join_phrases(&mut tokens, phrases);
    }
    let mut parser = Parser { tokens: &tokens, at: 0, end: text.len(), depth: 0 };
    let expr = parser.choice()?;
    match parser.peek() {
        None => Ok(expr),
        Some(_) => Err(parser.expected("`and`, `or`, or the end")),
    }
}

/// Makes one word of the words of a phrase, with the thing before its point.
fn join_phrases(tokens: &mut Vec<(Token, Span)>, phrases: &[String]) {
    let word = |token: &(Token, Span)| if let Token::Word(w) = &token.0 { Some(w.clone()) } else { None };
    let mut at = 0;
    while at < tokens.len() {
        for phrase in phrases {
            let Token::Word(first) = &tokens[at].0 else { break };
            let mut parts = phrase.split(' ');
            // The first word may stand behind its thing: "filter.cleaned with".
            if parts.next() != Some(first.rsplit_once('.').map_or(first.as_str(), |(_, last)| last)) {
                continue;
            }
            let count = 1 + parts.clone().count();
            let Some(run) = tokens.get(at..at + count) else { continue };
            if !run[1..].iter().zip(parts).all(|((t, _), part)| matches!(t, Token::Word(w) if w == part)) {
                continue;
            }
            let name = run.iter().filter_map(word).collect::<Vec<_>>().join(" ");
            let span = run[0].1.to(run[count - 1].1);
            tokens.splice(at..at + count, [(Token::Word(name), span)]);
            break;
        }
        at += 1;
    }
}

struct Parser<'t> {
    tokens: &'t [(Token, Span)],
    at: usize,
    end: usize,
    depth: usize,
}

type Parsed = Result<Expr, ExprFault>;

impl Parser<'_> {
    fn peek(&self) -> Option<&Token> {
        self.tokens.get(self.at).map(|(t, _)| t)
    }

    fn span(&self) -> Span {
        self.tokens.get(self.at).map_or(Span::new(self.end.saturating_sub(1), self.end), |(_, s)| *s)
    }

    fn last_end(&self) -> usize {
        self.at.checked_sub(1).and_then(|n| self.tokens.get(n)).map_or(0, |(_, s)| s.end)
    }

    fn expected(&self, what: &str) -> ExprFault {
        let found = match self.peek() {
            None => "the text ends".to_string(),
            Some(Token::Word(w)) => format!("`{w}` stands"),
            Some(Token::Sign(s)) => format!("`{s}` stands"),
            Some(Token::Number { .. }) => "a number stands".to_string(),
        };
        ExprFault::new("unreadable", self.span(), format!("{found} where {what} belongs"))
    }

    fn takes_word(&mut self, word: &str) -> bool {
        let yes = matches!(self.peek(), Some(Token::Word(w)) if w == word);
        self.at += usize::from(yes);
        yes
    }

    fn sees_words(&self, first: &str, second: &str) -> bool {
        let word = |n: usize, w: &str| matches!(self.tokens.get(self.at + n), Some((Token::Word(x), _)) if x == w);
        word(0, first) && word(1, second)
    }

    fn takes_sign(&mut self, sign: &str) -> bool {
        let yes = matches!(self.peek(), Some(Token::Sign(s)) if *s == sign);
        self.at += usize::from(yes);
        yes
    }

    fn deeper(&mut self) -> Result<(), ExprFault> {
        self.depth += 1;
        if self.depth > 60 {
            return Err(ExprFault::new("nested-too-deep", self.span(), "this expression is nested too deep"));
        }
        Ok(())
    }

    fn choice(&mut self) -> Parsed {
        self.deeper()?;
        let mut left = self.given()?;
        while self.takes_word("else") {
            let right = self.given()?;
            left = join(left, right, Node::Else);
        }
        self.depth -= 1;
        Ok(left)
    }

    fn given(&mut self) -> Parsed {
        let value = self.any()?;
        if self.takes_word("if") {
            let condition = self.any()?;
            return Ok(join(value, condition, |value, condition| Node::If { value, condition }));
        }
        Ok(value)
    }

    fn any(&mut self) -> Parsed {
        let mut left = self.all()?;
        while self.takes_word("or") {
            let right = self.all()?;
            left = join(left, right, Node::Or);
        }
        Ok(left)
    }

    fn all(&mut self) -> Parsed {
        let mut left = self.denial()?;
        while self.takes_word("and") {
            let right = self.denial()?;
            left = join(left, right, Node::And);
        }
        Ok(left)
    }

    fn denial(&mut self) -> Parsed {
        let start = self.span().start;
        if self.takes_word("not") {
            self.deeper()?;
            let inner = self.denial()?;
            self.depth -= 1;
            let span = Span::new(start, inner.span.end);
            return Ok(Expr { span, node: Node::Not(Box::new(inner)) });
        }
        self.comparison()
    }

    fn comparison(&mut self) -> Parsed {
        let left = self.sum()?;
        let how = match self.peek() {
            Some(Token::Sign("<")) => Some(Comparison::Less),
            Some(Token::Sign("<=")) => Some(Comparison::LessOrEqual),
            Some(Token::Sign(">")) => Some(Comparison::Greater),
            Some(Token::Sign(">=")) => Some(Comparison::GreaterOrEqual),
            Some(Token::Sign("=")) => Some(Comparison::Equal),
            Some(Token::Sign("!=")) => Some(Comparison::NotEqual),
            _ => None,
        };
        if let Some(how) = how {
            self.at += 1;
            let right = self.sum()?;
            return Ok(join(left, right, |left, right| Node::Compare { how, left, right }));
        }
        if self.takes_word("between") {
            let low = self.sum()?;
            if !self.takes_word("and") {
                return Err(self.expected("`and` with the upper end"));
            }
            let high = self.sum()?;
            let compare = |how, edge: Expr| join(left.clone(), edge, |left, right| Node::Compare { how, left, right });
            let (low, high) = (compare(Comparison::GreaterOrEqual, low), compare(Comparison::LessOrEqual, high));
            return Ok(join(low, high, Node::And));
        }
        if self.takes_word("is") {
            let not = self.takes_word("not");
            if !self.takes_word("known") {
                let cure = match self.peek() {
                    Some(Token::Word(w)) if ["less", "smaller", "lower", "below", "under"].contains(&w.as_str()) => "<",
                    Some(Token::Word(w))
                        if ["more", "greater", "larger", "higher", "above", "over"].contains(&w.as_str()) =>
                    {
                        ">"
                    }
                    _ => "=",
                };
                return Err(self.expected("`known`").cure(format!("write `{cure}` in place of these words")));
            }
            let span = Span::new(left.span.start, self.last_end());
            let known = Expr { span, node: Node::Known(Box::new(left)) };
            return Ok(if not { Expr { span, node: Node::Not(Box::new(known)) } } else { known });
        }
        Ok(left)
    }

    fn sum(&mut self) -> Parsed {
        let mut left = self.product()?;
        loop {
            let how = match self.peek() {
                Some(Token::Sign("+")) => Arithmetic::Add,
                Some(Token::Sign("-")) => Arithmetic::Subtract,
                _ => return Ok(left),
            };
            self.at += 1;
            let right = self.product()?;
            left = join(left, right, |left, right| Node::Arithmetic { how, left, right });
        }
    }

    fn product(&mut self) -> Parsed {
        let mut left = self.power()?;
        loop {
            let how = match self.peek() {
                Some(Token::Sign("*")) => Arithmetic::Multiply,
                Some(Token::Sign("/")) => Arithmetic::Divide,
                _ => return Ok(left),
            };
            self.at += 1;
            let right = self.power()?;
            left = join(left, right, |left, right| Node::Arithmetic { how, left, right });
        }
    }

    fn power(&mut self) -> Parsed {
        let left = self.value()?;
        if self.takes_sign("^") {
            let right = self.value()?;
            return Ok(join(left, right, |left, right| Node::Arithmetic { how: Arithmetic::Power, left, right }));
        }
        Ok(left)
    }

    fn value(&mut self) -> Parsed {
        let span = self.span();
        match self.peek() {
            Some(Token::Number { value, unit }) => {
                let node = Node::Number { value: *value, unit: *unit };
                let bare = unit.is_none();
                self.at += 1;
                if let Some(Token::Word(word)) = self.peek()
                    && bare
                    && !KEYWORDS.contains(&word.as_str())
                {
                    let what = format!("nothing is measured in `{word}`");
                    return Err(ExprFault::new("unknown-unit", self.span(), what));
                }
                Ok(Expr { span, node })
            }
            Some(Token::Sign("(")) => {
                self.at += 1;
                let inner = self.choice()?;
                if !self.takes_sign(")") {
                    return Err(self.expected("`)`"));
                }
                Ok(Expr { span: Span::new(span.start, self.last_end()), ..inner })
            }
            Some(Token::Sign("-")) => {
                self.at += 1;
                self.deeper()?;
                let inner = self.value()?;
                self.depth -= 1;
                Ok(Expr { span: span.to(inner.span), node: Node::Negate(Box::new(inner)) })
            }
            Some(Token::Word(w)) if w == "any" || w == "every" => self.exists(),
            Some(Token::Word(_)) => {
                for (word, how) in
                    [("count", Fold::Count), ("sum", Fold::Sum), ("least", Fold::Least), ("greatest", Fold::Greatest)]
                {
                    if self.sees_words(word, "of") {
                        return self.fold(how);
                    }
                }
                self.name()
            }
            _ => Err(self.expected("a name or a number")),
        }
    }

    /// A run of words up to a keyword, a sign or a number.
    fn words(&mut self) -> Option<(String, Span)> {
        let start = self.at;
        while matches!(self.peek(), Some(Token::Word(w)) if !KEYWORDS.contains(&w.as_str())) {
            self.at += 1;
        }
        let taken = &self.tokens[start..self.at];
        let (first, last) = (taken.first()?, taken.last()?);
        let words: Vec<&str> =
            taken.iter().filter_map(|(t, _)| if let Token::Word(w) = t { Some(w.as_str()) } else { None }).collect();
        Some((words.join(" "), first.1.to(last.1)))
    }

    fn name(&mut self) -> Parsed {
        let Some((name, name_span)) = self.words() else { return Err(self.expected("a name or a number")) };
        if !self.takes_sign("(") {
            return Ok(Expr { span: name_span, node: Node::Name(name) });
        }
        let mut arguments = vec![self.choice()?];
        while self.takes_sign(",") {
            arguments.push(self.choice()?);
        }
        if !self.takes_sign(")") {
            return Err(self.expected("`,` or `)`"));
        }
        let span = Span::new(name_span.start, self.last_end());
        Ok(Expr { span, node: Node::Call { name, name_span, arguments } })
    }

    fn with(&mut self) -> Result<Option<Box<Expr>>, ExprFault> {
        if !self.takes_word("with") {
            return Ok(None);
        }
        self.deeper()?;
        let condition = self.any()?;
        self.depth -= 1;
        Ok(Some(Box::new(condition)))
    }

    fn exists(&mut self) -> Parsed {
        let start = self.span().start;
        let every = self.takes_word("every");
        if !every {
            self.takes_word("any");
        }
        let Some((thing, thing_span)) = self.words() else { return Err(self.expected("a thing, such as `stock`")) };
        let with = self.with()?;
        let span = Span::new(start, self.last_end());
        Ok(Expr { span, node: Node::Exists { every, thing, thing_span, with } })
    }

    fn fold(&mut self, how: Fold) -> Parsed {
        let start = self.span().start;
        self.at += 2;
        let mut of = None;
        if how != Fold::Count {
            of = Some(Box::new(self.sum()?));
            if !self.takes_word("over") {
                return Err(self.expected("`over` and a thing"));
            }
        }
        let Some((thing, thing_span)) = self.words() else { return Err(self.expected("a thing, such as `stock`")) };
        let with = self.with()?;
        let span = Span::new(start, self.last_end());
        Ok(Expr { span, node: Node::Fold { how, of, thing, thing_span, with } })
    }
}

fn join(left: Expr, right: Expr, node: impl FnOnce(Box<Expr>, Box<Expr>) -> Node) -> Expr {
    let span = left.span.to(right.span);
    Expr { span, node: node(Box::new(left), Box::new(right)) }
}

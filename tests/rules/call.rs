//! A call made by hand: facts written as `stock(small tetra).count = 30`, `stock(any/fry) present`; and what the built-in
//! book makes of it.

use std::sync::LazyLock;
use weirline::case::facts::Facts;
use weirline::case::{Case, Ledger};
use weirline::engine::finding::{Findings, findings};
use weirline::engine::{Engine, State, Value, World, load};
use weirline::listen::reading::{How, Said, Says, Statement, Subject};
use weirline::rulebook::Book;
use weirline::source::Span;
use weirline::units::{parse, unit};

pub static BOOK: LazyLock<Book> = LazyLock::new(|| match Book::from_texts(super::book::texts(), "on disk") {
    Ok((book, _)) => book,
    Err(_) => panic!("the book has faults; `compiles_without_faults` shows them"),
});

/// One evaluated call.
pub struct Call {
    pub statements: Vec<Statement>,
    pub world: World,
    pub state: State,
    pub findings: Findings,
}

/// The facts, one a line, through the tables and the engine.
pub fn call(facts: &str) -> Call {
    of(facts.lines().map(str::trim).filter(|l| !l.is_empty()).map(statement).collect())
}

/// A caller's line through the listener; turns of one call are parted by ` | `.
pub fn line(text: &str) -> Call {
    let mut ledger = Ledger::default();
    for turn in text.split(" | ") {
        let reading = crate::listen::listener().read(turn, &ledger.context());
        ledger.take(reading);
    }
    of(ledger.statements().map(|(_, s)| s.clone()).collect())
}

/// What the engine makes of statements.
fn of(statements: Vec<Statement>) -> Call {
    let book = &*BOOK;
    let said = Facts::said(&book.schema, 1, statements.iter().map(|s| (1, s)));
    let case = Case::complete(said, &book.knowledge, &book.schema, &book.look_ups);
    let world = load::world(&case, &book.schema, &book.rules);
    let state = Engine { schema: &book.schema, book: &book.rules }.run(&world);
    let findings = findings(&book.rules, &state);
    Call { statements, world, state, findings }
}

impl Call {
    /// A figure in a unit; nothing if it is unknown.
    pub fn maybe(&self, name: &str, shown: &str, instance: u16) -> Option<f64> {
        let n = BOOK.rules.figures.iter().position(|f| f.name == name).unwrap_or_else(|| panic!("no figure `{name}`"));
        let unit = unit::by_name(shown).unwrap_or_else(|| panic!("no unit `{shown}`"));
        assert_eq!(unit.dimension, BOOK.rules.figures[n].dimension, "`{name}` is not measured in {shown}");
        match self.state.figure(n as u16, instance) {
            Value::Number(base) => Some(unit.from_base(base)),
            _ => None,
        }
    }

    pub fn figure(&self, name: &str, shown: &str) -> f64 {
        self.maybe(name, shown, 0).unwrap_or_else(|| panic!("`{name}` is unknown"))
    }

    pub fn speaks(&self, rule: &str) -> bool {
        let n = BOOK.rules.rules.iter().position(|r| r.name == rule).unwrap_or_else(|| panic!("no rule `{rule}`"));
        self.findings.speaks(n as u16)
    }

    /// Names of the rules that advise, most urgent first.
    pub fn advice(&self) -> Vec<(&'static str, &'static str)> {
        let mut out: Vec<_> = self
            .findings
            .speaking
            .iter()
            .map(|f| &BOOK.rules.rules[f.rule as usize])
            .filter_map(|r| r.advice.as_ref().map(|a| (a.urgency, r.name.as_str())))
            .collect();
        out.sort();
        out.into_iter().map(|(u, name)| (u.word(), name)).collect()
    }
}

fn statement(line: &str) -> Statement {
    let (left, says) = if let Some(left) = line.strip_suffix(" present") {
        (left, Says::Present)
    } else if let Some(left) = line.strip_suffix(" absent") {
        (left, Says::Absent)
    } else {
        let (path, value) = line.split_once(" = ").unwrap_or_else(|| panic!("unreadable fact `{line}`"));
        let (left, attribute) = split_path(path);
        let said = match parse::quantity(value) {
            Ok(amount) if value.starts_with(|c: char| c.is_ascii_digit()) => Said::Amount(amount),
            _ => Said::Word(value.to_string()),
        };
        (left, Says::Value { attribute: attribute.to_string(), how: How::Set, value: said })
    };
    Statement { span: Span::default(), subject: subject(left), says, mark: None }
}

fn split_path(path: &str) -> (&str, &str) {
    let after = path.rfind(')').unwrap_or(0);
    let dot = path[after..].find('.').map(|n| after + n).unwrap_or_else(|| panic!("no attribute in `{path}`"));
    (&path[..dot], &path[dot + 1..])
}

fn subject(text: &str) -> Subject {
    let (head, inside) = match text.split_once('(') {
        Some((head, inside)) => (head, Some(inside.trim_end_matches(')'))),
        None => (text, None),
    };
    let (thing, number) = match head.split_once('#') {
        Some((thing, number)) => (thing, number.parse().unwrap()),
        None => (head, 1),
    };
    let (kind, stage) = match inside.map(|i| i.split_once('/').map_or((i, None), |(k, s)| (k, Some(s)))) {
        Some((kind, stage)) => (Some(kind.to_string()), stage.map(String::from)),
        None => (None, None),
    };
    Subject { thing: thing.to_string(), kind, stage, number, tank: 1 }
}

//! Compares what was read of a call with what is written for it: what is missing (said so, or not) and what is wrong.

use super::notation::{ask, statement};
use super::written::{Written, named, parts, written};
use serde::Deserialize;
use weirline::listen::Listener;
use weirline::listen::reading::{Ask, Became, Context, Reading, Subject};

#[derive(Deserialize, Clone, Debug)]
#[serde(deny_unknown_fields)]
pub struct Call {
    pub call: String,
    pub turns: Vec<Said>,
    #[serde(default)]
    pub never: Vec<String>,
    #[serde(default)]
    pub either: Vec<Vec<Fact>>,
    /// Why it is not yet read whole.
    #[serde(default)]
    pub open: Option<String>,
}

#[derive(Deserialize, Clone, Debug)]
#[serde(deny_unknown_fields)]
pub struct Said {
    pub said: String,
    /// What the program had asked before this turn: "stock(guppy).count".
    #[serde(default)]
    pub asked: String,
    #[serde(default)]
    pub facts: Vec<String>,
    #[serde(default)]
    pub asks: Vec<AskWritten>,
    #[serde(default)]
    pub acts: Vec<String>,
    #[serde(default)]
    pub unread: Vec<String>,
    #[serde(default)]
    pub back: Vec<String>,
}

#[derive(Deserialize, Clone, Debug)]
#[serde(deny_unknown_fields)]
pub struct AskWritten {
    /// "form / topic".
    pub ask: String,
    #[serde(default)]
    pub about: Vec<String>,
    #[serde(default, rename = "if")]
    pub suppose: Vec<String>,
}

#[derive(Deserialize, Clone, Debug)]
#[serde(untagged)]
pub enum Fact {
    Text(String),
    Ask { ask: AskWritten },
}

/// What came of one call.
#[derive(Default, Debug)]
pub struct Outcome {
    /// Written, not read.
    pub missing: Vec<String>,
    /// Read, not written: a misreading.
    pub wrong: Vec<String>,
}

impl Outcome {
    pub fn is_whole(&self) -> bool {
        self.missing.is_empty() && self.wrong.is_empty()
    }
}

/// Plays a call through the listener.
pub fn play(call: &Call, listener: &Listener) -> Outcome {
    let mut outcome = Outcome::default();
    let mut context = Context::default();
    // What was held before each turn: the case takes turns back, the listener only hears that it is to.
    let mut earlier: Vec<Context> = Vec::new();
    for (n, turn) in call.turns.iter().enumerate() {
        context.asked = asked(&turn.asked);
        let reading = listener.read(&turn.said, &context);
        let at = if call.turns.len() > 1 { format!("{}> ", n + 1) } else { String::new() };
        if call.either.is_empty() {
            compare(&at, turn, &reading, &context, listener, &mut outcome);
        } else {
            one_of(&call.either, turn, &reading, listener, &mut outcome);
            unread(&at, turn, &reading, &mut outcome);
        }
        never(&at, &call.never, &reading, listener, &mut outcome);
        if reading.acts.iter().any(|(a, _)| a.name() == "undo") {
            context = earlier.pop().unwrap_or_default();
        } else {
            let next = context.clone().after(&reading);
            earlier.push(std::mem::replace(&mut context, next));
        }
    }
    outcome
}

/// "stock(guppy).count": the attribute asked for, with whose it is.
fn asked(text: &str) -> Option<(Subject, String)> {
    let (of, attribute) = text.rsplit_once('.')?;
    let (thing, kind) = of.split_once('(').map_or((of, None), |(t, k)| (t, Some(k.trim_end_matches(')'))));
    let (thing, number) = thing.split_once('#').map_or((thing, 1), |(t, n)| (t, n.parse().expect("a number")));
    let of_tank = matches!(thing, "reading" | "tank" | "change" | "feed" | "plant");
    let tank = if of_tank { number } else { 1 };
    let subject = Subject { thing: thing.into(), kind: kind.map(Into::into), number, tank, ..Subject::default() };
    Some((subject, attribute.to_string()))
}

fn compare(at: &str, turn: &Said, reading: &Reading, context: &Context, listener: &Listener, outcome: &mut Outcome) {
    let expected: Vec<Written> = turn.facts.iter().map(|f| written(f, listener)).collect();
    let read: Vec<Written> = reading.statements.iter().map(parts).collect();
    for (fact, text) in expected.iter().zip(&turn.facts) {
        let found = read.iter().find(|r| same(fact, r));
        match found {
            // Two values for one thing: the former is shown beside the new one and asked about.
            None if is_offered(fact, reading, context) => {}
            None => outcome.missing.push(format!("{at}{text}")),
            // A mark must not be dropped: what is assumed must be shown as such.
            Some(r) if !fact.mark.is_empty() && r.mark.is_empty() => {
                outcome.missing.push(format!("{at}mark of {text}"))
            }
            Some(_) => {}
        }
    }
    for (r, s) in read.iter().zip(&reading.statements) {
        let again = context
            .held
            .iter()
            .any(|h| parts(h).subject == r.subject && parts(h).value == r.value && parts(h).attribute == r.attribute);
        if !expected.iter().any(|e| same(e, r)) && !is_implied(r, &expected) && !again {
            outcome.wrong.push(format!("{at}{}", statement(s)));
        }
    }
    for expected in &turn.asks {
        if !reading.asks.iter().any(|a| same_ask(expected, a, listener)) {
            let read: Vec<String> = reading.asks.iter().map(ask).collect();
            outcome.missing.push(format!(
                "{at}ask {} {:?} if {:?}; read {read:?}",
                expected.ask, expected.about, expected.suppose
            ));
        }
    }
    for act in &turn.acts {
        if !reading.acts.iter().any(|(a, _)| a.name() == act) {
            outcome.missing.push(format!("{at}act {act}"));
        }
    }
    unread(at, turn, reading, outcome);
    if reading.back.len() < turn.back.len().min(1) {
        outcome.missing.push(format!("{at}back {:?}", turn.back));
    }
}

/// Held before, and offered in a question beside what was said now.
fn is_offered(fact: &Written, reading: &Reading, context: &Context) -> bool {
    let mut offered = reading.back.iter().flat_map(|b| &b.readings).flat_map(|(_, s)| s);
    context.held.iter().any(|h| same(fact, &parts(h)))
        && offered.any(|s| same(fact, &Written { how: "=".into(), ..parts(s) }))
}

/// Two facts that say the same; a first value and one that replaces are told apart.
pub fn same(expected: &Written, read: &Written) -> bool {
    let value = expected.value == read.value
        || near(&expected.value, &read.value)
        || expected.attribute.as_deref() == Some("measured flow") && near(&expected.value, &read.value);
    expected.subject == read.subject && expected.attribute == read.attribute && expected.how == read.how && value
}

/// Figures that agree to a part in a hundred, in the same unit.
fn near(one: &str, other: &str) -> bool {
    let split = |t: &str| -> Option<(Vec<f64>, String)> {
        let (figures, unit) = t.split_once(' ').unwrap_or((t, ""));
        let numbers: Option<Vec<f64>> = figures.split("..").map(|n| n.parse().ok()).collect();
        Some((numbers?, unit.to_string()))
    };
    match (split(one), split(other)) {
        (Some((a, u)), Some((b, v))) => {
            u == v && a.len() == b.len() && a.iter().zip(&b).all(|(x, y)| (x - y).abs() <= 0.01 * x.abs().max(1e-9))
        }
        _ => false,
    }
}

/// Goes without saying: that a thing with a value is there; which gallon is leaned on.
pub fn is_implied(read: &Written, expected: &[Written]) -> bool {
    let gallon = read.subject == "keeper" && read.attribute.as_deref() == Some("gallon");
    let there = read.how == "present" && expected.iter().any(|e| e.subject == read.subject && e.how != "absent");
    let general = read.how == "present" && matches!(read.subject.as_str(), "tank" | "filter" | "stock(any)" | "medium");
    let reference = read.how == "present" && read.subject.starts_with("tank#");
    gallon || there || general || reference
}

fn same_ask(expected: &AskWritten, read: &Ask, listener: &Listener) -> bool {
    let form_topic = format!("{} / {}", read.form.name(), read.topic);
    let abouts: Vec<String> = read.about.iter().map(super::notation::subject).collect();
    let suppose: Vec<Written> = read.suppose.iter().map(parts).collect();
    let wanted: Vec<Written> = expected.suppose.iter().map(|f| written(f, listener)).collect();
    form_topic == expected.ask
        && expected.about.iter().all(|a| {
            let a = named(a, listener);
            abouts.contains(&a)
                || a.starts_with("filter#") && abouts.iter().any(|b| b.starts_with("filter#"))
                || is_kind_of_filter(&a, &abouts)
        })
        && wanted.iter().all(|w| suppose.iter().any(|s| same(w, s)))
        && suppose.len()
            <= wanted.len().max(expected.suppose.len()) + usize::from(suppose.iter().any(|s| s.how == "present"))
}

fn is_kind_of_filter(about: &str, read: &[String]) -> bool {
    about == "filter" && read.iter().any(|r| r.starts_with("filter"))
}

/// Every listed word must be shown as not used, or be asked back.
fn unread(at: &str, turn: &Said, reading: &Reading, outcome: &mut Outcome) {
    // The text with everything that was used blanked out.
    let mut shown: Vec<u8> = vec![b' '; reading.text.len()];
    for word in &reading.words {
        if matches!(word.became, Became::Unread | Became::AskedBack(_)) {
            shown[word.span.start..word.span.end]
                .copy_from_slice(&reading.text.as_bytes()[word.span.start..word.span.end]);
        }
    }
    let shown = String::from_utf8_lossy(&shown).to_lowercase();
    let noise: String = reading
        .words
        .iter()
        .filter(|w| w.became == Became::Noise)
        .map(|w| format!(" {} ", w.span.of(&reading.text).to_lowercase()))
        .collect();
    for phrase in &turn.unread {
        for word in phrase.split(|c: char| c.is_whitespace() || "/.,@%-".contains(c)).filter(|w| !w.is_empty()) {
            let word = word.to_lowercase();
            let is_shown = shown.contains(&word);
            let small = noise.contains(&format!(" {word} ")) && phrase.contains(' ');
            if !is_shown && !small {
                outcome.missing.push(format!("{at}unread {word:?} of {phrase:?}"));
            }
        }
    }
}

fn never(at: &str, never: &[String], reading: &Reading, listener: &Listener, outcome: &mut Outcome) {
    for text in never {
        let never = written(text, listener);
        let any = never.subject == "medium" || text.contains("(any)");
        let hit = reading.statements.iter().map(parts).any(|r| {
            let subject = r.subject == never.subject
                || any && r.subject.split(['(', '#']).next() == never.subject.split(['(', '#']).next();
            subject
                && r.attribute == never.attribute
                && (r.how == never.how || r.how == ":=" && never.how == "=")
                && r.value == never.value
        });
        if hit {
            outcome.wrong.push(format!("{at}never {text}"));
        }
    }
}

/// Nothing may be read that is in none of the readings, and it must be asked where that is written.
fn one_of(either: &[Vec<Fact>], turn: &Said, reading: &Reading, listener: &Listener, outcome: &mut Outcome) {
    let all: Vec<Written> = either
        .iter()
        .flatten()
        .filter_map(|f| match f {
            Fact::Text(text) => Some(written(text, listener)),
            Fact::Ask { ask } => {
                let _ = &ask.ask;
                None
            }
        })
        .collect();
    for s in &reading.statements {
        let read = parts(s);
        if !all.iter().any(|e| same(e, &read)) && !is_implied(&read, &all) {
            outcome.wrong.push(statement(s));
        }
    }
    if reading.back.len() < turn.back.len().min(1) {
        outcome.missing.push("back".to_string());
    }
}

//! A reading for machines: statements, questions, acts and words with their spans. In: a reading. Out: JSON. Knows no case.

use crate::listen::reading::{
    Act, Ask, AskBack, Became, Doubtful, Form, How, Mark, Reading, Said, Says, Statement, Subject, TimeRelation,
};
use crate::source::Span;
use crate::units::Amount;
use serde_json::{Map, Value, json};

/// One turn: what was said and how it was read.
pub fn turn(reading: &Reading) -> Value {
    json!({
        "said": reading.text,
        "reading": reading.statements.iter().map(|s| statement(s, &reading.text)).collect::<Vec<_>>(),
        "questions not understood": reading.lost.iter().map(|s| json!({ "words": s.of(&reading.text), "span": pair(*s) })).collect::<Vec<_>>(),
        "acts": reading.acts.iter().map(|(act, span)| json!({ "act": act_word(*act), "span": pair(*span) })).collect::<Vec<_>>(),
        "aside": reading.aside.iter().map(|(s, why)| json!({ "words": s.of(&reading.text), "span": pair(*s), "why": why.called() })).collect::<Vec<_>>(),
        "unread": reading.unread.iter().map(|s| json!({ "words": s.of(&reading.text), "span": pair(*s) })).collect::<Vec<_>>(),
        "asked back": reading.back.iter().map(|b| asked_back(b, &reading.text)).collect::<Vec<_>>(),
    })
}

/// A question or request.
pub fn question(ask: &Ask, text: &str, turn: usize) -> Value {
    json!({
        "form": form_word(ask.form),
        "topic": ask.topic.replace('_', " "),
        "words": ask.span.of(text),
        "span": pair(ask.span),
        "turn": turn,
        "about": ask.about.iter().map(subject).collect::<Vec<_>>(),
        "suppose": ask.suppose.iter().map(|s| statement(s, text)).collect::<Vec<_>>(),
    })
}

/// One statement.
pub fn statement(statement: &Statement, text: &str) -> Value {
    let mut out = Map::new();
    out.insert("subject".into(), subject(&statement.subject));
    match &statement.says {
        Says::Present => put(&mut out, "says", json!("present")),
        Says::Absent => put(&mut out, "says", json!("absent")),
        Says::Unsure => put(&mut out, "says", json!("unsure")),
        Says::Dropped => put(&mut out, "says", json!("dropped")),
        Says::DroppedValue { attribute } => {
            put(&mut out, "says", json!("dropped"));
            put(&mut out, "attribute", json!(attribute));
        }
        Says::Value { attribute, how, value } => {
            put(&mut out, "says", json!(how_word(*how)));
            put(&mut out, "attribute", json!(attribute));
            put(&mut out, "value", said(value));
        }
    }
    if let Some(mark) = statement.mark {
        put(&mut out, "mark", json!(mark_word(mark)));
    }
    put(&mut out, "words", json!(statement.span.of(text)));
    put(&mut out, "span", pair(statement.span));
    Value::Object(out)
}

fn put(out: &mut Map<String, Value>, key: &str, value: Value) {
    out.insert(key.to_string(), value);
}

fn pair(span: Span) -> Value {
    json!([span.start, span.end])
}

fn subject(subject: &Subject) -> Value {
    let mut out = Map::new();
    put(&mut out, "thing", json!(subject.thing));
    if let Some(kind) = &subject.kind {
        put(&mut out, "kind", json!(kind));
    }
    if let Some(stage) = &subject.stage {
        put(&mut out, "stage", json!(stage));
    }
    put(&mut out, "number", json!(subject.number.max(1)));
    put(&mut out, "tank", json!(subject.tank.max(1)));
    Value::Object(out)
}

fn amount(amount: &Amount) -> Value {
    json!({
        "low": amount.low, "likely": amount.likely, "high": amount.high, "unit": amount.unit.name, "strict": amount.strict,
    })
}

fn said(value: &Said) -> Value {
    match value {
        Said::Amount(a) => amount(a),
        Said::Word(word) => json!(word),
        Said::Time { relation, amount: a } => json!({ "relation": relation_word(*relation), "time": amount(a) }),
        Said::Moment { relation, name } => json!({ "relation": relation_word(*relation), "moment": name }),
        Said::Thing(thing) => subject(thing),
        Said::Level(level) => json!({ "level": super::wording::level_word(*level) }),
    }
}

fn asked_back(back: &AskBack, text: &str) -> Value {
    json!({
        "words": back.span.of(text),
        "span": pair(back.span),
        "ask": back.ask,
        "why": doubtful_word(back.why),
        "readings": back.readings.iter().map(|(name, _)| name.clone()).collect::<Vec<_>>(),
    })
}

/// What became of a word, in one word, for `listen`.
pub fn became_word(became: &Became) -> &'static str {
    match became {
        Became::Statement(_) => "fact",
        Became::Ask(_) => "question",
        Became::Act(_) => "act",
        Became::Noise => "noise",
        Became::Unread => "not understood",
        Became::AskedBack(_) => "asked back",
        Became::Aside(_) => "set aside",
    }
}

fn relation_word(relation: TimeRelation) -> &'static str {
    match relation {
        TimeRelation::Ago => "ago",
        TimeRelation::For => "for",
        TimeRelation::Every => "every",
        TimeRelation::Since => "since",
        TimeRelation::Old => "old",
        TimeRelation::In => "in",
    }
}

fn how_word(how: How) -> &'static str {
    match how {
        How::Set => "is",
        How::Replace => "replaces",
        How::Add => "adds",
        How::Take => "takes",
    }
}

/// The mark of a statement as a word.
pub fn mark_word(mark: Mark) -> &'static str {
    match mark {
        Mark::Derived => "derived",
        Mark::Hint => "hint",
        Mark::Presumed => "presumed",
        Mark::Spelling => "spelling",
    }
}

fn doubtful_word(why: Doubtful) -> &'static str {
    match why {
        Doubtful::Implausible => "implausible",
        Doubtful::Ambiguous => "ambiguous",
        Doubtful::WrongUnit => "wrong unit",
        Doubtful::NoFigure => "no figure",
        Doubtful::Which => "which",
        Doubtful::Loose => "loose",
        Doubtful::Taken => "taken",
    }
}

/// The form of a question as words.
pub fn form_word(form: Form) -> &'static str {
    match form {
        Form::What => "what",
        Form::Which => "which",
        Form::How => "how",
        Form::HowMuch => "how much",
        Form::HowMany => "how many",
        Form::HowBig => "how big",
        Form::HowOften => "how often",
        Form::HowLong => "how long",
        Form::HowSure => "how sure",
        Form::Whether => "whether",
        Form::Why => "why",
        Form::WhyNot => "why not",
        Form::WhatIf => "what if",
        Form::When => "when",
        Form::Who => "who",
        Form::Where => "where",
        Form::Again => "again",
        Form::Show => "show",
    }
}

/// An act as a word.
pub fn act_word(act: Act) -> &'static str {
    match act {
        Act::Greet => "greeting",
        Act::Thank => "thanks",
        Act::Bye => "goodbye",
        Act::Agree => "yes",
        Act::Deny => "no",
        Act::DontKnow => "does not know",
        Act::Undo => "undo",
        Act::Restart => "start again",
        Act::NewCall => "new call",
        Act::Swear => "swearing",
        Act::OffTopic => "off topic",
        Act::Nothing => "nothing",
        Act::Confirm => "confirms",
        Act::Save => "save",
        Act::Apology => "apology",
        Act::More => "more",
        Act::Next => "next",
        Act::Back => "back",
        Act::Stop => "stop",
    }
}

//! Lines in other voices than those the grammar was tried on. What is read must be right; the share read whole only grows.

use super::notation::{ask, statement, subject};
use super::written::{Written, named, parts, written};
use serde::Deserialize;
use weirline::listen::Listener;
use weirline::listen::reading::{Became, Context};

#[derive(Deserialize, Debug, Clone)]
#[serde(deny_unknown_fields)]
pub struct Voice {
    pub say: String,
    #[serde(default)]
    pub reads: String,
    #[serde(default)]
    pub asks: String,
    #[serde(default)]
    pub acts: String,
    #[serde(default)]
    pub unread: String,
    #[serde(default)]
    pub never: String,
    #[serde(default)]
    pub back: bool,
    /// Why it is not yet read whole.
    #[serde(default)]
    pub open: Option<String>,
}

fn list(text: &str) -> impl Iterator<Item = &str> {
    text.split(';').map(str::trim).filter(|t| !t.is_empty())
}

/// What is missing, and what is wrong.
pub fn hear(voice: &Voice, listener: &Listener) -> (Vec<String>, Vec<String>) {
    let reading = listener.read(&voice.say, &Context::default());
    let (mut missing, mut wrong) = (Vec::new(), Vec::new());
    let expected: Vec<Written> = list(&voice.reads).map(|f| written(f, listener)).collect();
    let read: Vec<Written> = reading.statements.iter().map(parts).collect();
    for (fact, text) in expected.iter().zip(list(&voice.reads)) {
        if !read.iter().any(|r| super::compare::same(fact, r)) {
            missing.push(text.to_string());
        }
    }
    for (r, s) in read.iter().zip(&reading.statements) {
        let known = expected.iter().any(|e| super::compare::same(e, r)) || super::compare::is_implied(r, &expected);
        if !known {
            wrong.push(statement(s));
        }
        if list(&voice.never).any(|n| super::compare::same(&written(n, listener), r)) {
            wrong.push(format!("never {}", statement(s)));
        }
    }
    for text in list(&voice.asks) {
        let mut words = text.splitn(2, " / ");
        let (form, rest) = (words.next().unwrap_or(""), words.next().unwrap_or(""));
        let at = rest.find('(').map_or(rest.len(), |n| rest[..n].rfind(' ').unwrap_or(n));
        let (topic, about) = (rest[..at].trim(), rest[at..].trim());
        // A bare thing behind the topic: "need filter".
        let (topic, about) = match topic.rsplit_once(' ') {
            Some((t, thing)) if about.is_empty() && matches!(thing, "filter") && t != "filter" => (t, thing),
            _ => (topic, about),
        };
        let abouts: Vec<String> = about
            .split(") ")
            .map(|a| named(&format!("{})", a.trim_end_matches(')')), listener))
            .filter(|a| a.contains('('))
            .filter(|a| !a.starts_with(')'))
            .collect();
        let found = reading.asks.iter().any(|a| {
            let have: Vec<String> = a.about.iter().map(subject).collect();
            a.form.name() == form && a.topic == topic && abouts.iter().filter(|a| a.len() > 2).all(|w| have.contains(w))
        });
        if !found {
            let have: Vec<String> = reading.asks.iter().map(ask).collect();
            missing.push(format!("ask {text}; read {have:?}"));
        }
    }
    for act in list(&voice.acts) {
        if !reading.acts.iter().any(|(a, _)| a.name() == act) {
            missing.push(format!("act {act}"));
        }
    }
    for word in voice.unread.split_whitespace() {
        let shown = reading.words.iter().any(|w| {
            matches!(w.became, Became::Unread | Became::AskedBack(_))
                && word.to_lowercase().contains(&w.span.of(&reading.text).to_lowercase())
        });
        if !shown {
            missing.push(format!("unread {word}"));
        }
    }
    if voice.back && reading.back.is_empty() {
        missing.push("back".to_string());
    }
    (missing, wrong)
}

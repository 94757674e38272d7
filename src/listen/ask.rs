//! Questions: whether a clause asks, in which form, of which topic, and what holds for the question only. In: a clause
//! with its findings. Out: an ask, presumed facts, what-ifs. Knows no answer.

use super::clause::Clause;
use super::found::Found;
use super::items::{Item, What};
use super::lexicon::Sense;
use super::line::Listener;
use super::reading::{Ask, Form, Mark, Says, Statement, Subject};
use super::state::State;
use super::term::{Heard, Term};
use crate::knowledge::language::Role;
use crate::source::Span;

/// How a clause asks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asking {
    pub form: Form,
    /// The item of the opener; none for a statement with a question mark.
    pub opener: Option<usize>,
    /// Says "if", "suppose": nothing in it is a fact.
    pub supposes: bool,
}

/// Whether the clause asks something.
pub fn asking(clause: &Clause, items: &[Item], terms: &[Term], before: Option<Asking>) -> Option<Asking> {
    let role = |i: usize, role: Role| items[i].what == What::Term && terms[items[i].first].is(role);
    let term = |i: usize| &terms[items[i].first];
    let form_at = |i: usize| match items[i].what {
        What::Term => term(i).senses.iter().find_map(|s| match s {
            Sense::Ask(form) => Some(*form),
            _ => None,
        }),
        _ => None,
    };
    let (from, to) = (clause.from, clause.to);
    let mark = clause.end == Some('?');
    let supposes = (from..to).find(|i| role(*i, Role::Suppose));
    if let Some(at) = supposes {
        return Some(Asking { form: Form::WhatIf, opener: Some(at), supposes: true });
    }
    // "if I had 20 guppies would it cope".
    let conditional = (from..to).any(|i| role(i, Role::If)) && (from..to).any(|i| form_at(i).is_some());
    let first = (from..to).find(|i| !is_lead(&items[*i], terms));
    if let Some(at) = first
        && let Some(form) = form_at(at)
    {
        let lone = to == at + 1;
        let really = match form {
            // "what", "when", "which" inside a sentence may only join: "when I put my hand in".
            Form::When | Form::Where | Form::Who => {
                mark || lone && clause.starts
                    || !(at + 1 < to && role(at + 1, Role::Person)) && (clause.starts || before.is_some())
            }
            Form::What if lone && !mark && !clause.starts => false,
            Form::Whether => is_inverted(at, to, items, terms, mark) || conditional,
            _ => true,
        };
        if really {
            return Some(Asking { form, opener: Some(at), supposes: conditional && form == Form::Whether });
        }
    }
    if let Some(at) = (from..to).find(|i| role(*i, Role::Wonder)) {
        return Some(Asking { form: Form::Whether, opener: Some(at), supposes: false });
    }
    // "clean how", "order?", "guard needed?"
    if let Some(form) = (to > from).then(|| form_at(to - 1)).flatten()
        && to - from > 1
        && matches!(form, Form::How | Form::What | Form::Why | Form::When | Form::Where)
    {
        return Some(Asking { form, opener: Some(to - 1), supposes: false });
    }
    if conditional {
        let form = (from..to).find_map(form_at).unwrap_or(Form::Whether);
        return Some(Asking { form, opener: (from..to).find(|i| form_at(*i).is_some()), supposes: true });
    }
    if mark {
        return Some(Asking { form: Form::Whether, opener: None, supposes: false });
    }
    // "..., or both": goes on with the question before.
    if let Some(before) = before
        && !clause.starts
        && (from..to).any(|i| role(i, Role::Or))
        && !(from..to).any(|i| role(i, Role::Have))
    {
        return Some(Asking { opener: None, ..before });
    }
    None
}

/// Words that may stand before the opener of a question.
fn is_lead(item: &Item, terms: &[Term]) -> bool {
    match item.what {
        What::Term => {
            let term = &terms[item.first];
            let asks = term.senses.iter().any(|s| matches!(s, Sense::Ask(_)));
            !asks
                && !term.has_content()
                && (term.senses.iter().any(|s| matches!(s, Sense::Act(_)))
                    || term.is(Role::Noise)
                    || term.is(Role::And)
                    || term.is(Role::Correct))
                && !term.is(Role::Person)
                && !term.is(Role::It)
                && !term.is(Role::Have)
                && !term.is(Role::Definite)
        }
        What::Spoken(_) => true,
        What::Mark(_) => true,
        _ => false,
    }
}

/// "is it", "do I", "would 2 kg", but not "don't want", "has two filters", "did clean".
fn is_inverted(at: usize, to: usize, items: &[Item], terms: &[Term], mark: bool) -> bool {
    let Some(next) = (at + 1 < to).then(|| &items[at + 1]) else { return mark };
    let opener = &terms[items[at].first];
    let negative = opener.is(Role::Not);
    match next.what {
        What::Term => {
            let term = &terms[next.first];
            let subject = term.is(Role::Person) || term.is(Role::It) || term.is(Role::Definite) || term.is(Role::A);
            let have = opener.is(Role::Have) || opener.is(Role::Wish);
            if negative || have {
                return mark && !negative
                    || subject && term.is(Role::Person)
                    || subject && !have && (term.is(Role::Definite) || term.is(Role::It));
            }
            subject || mark || term.has_content() || term.is(Role::Fish)
        }
        What::Amount(_) => !opener.is(Role::Have),
        _ => mark,
    }
}

/// The ask of a clause, with the facts that it presumes.
pub fn ask_of(
    listener: &Listener,
    asking: Asking,
    span: Span,
    words: (usize, usize),
    heard: &[Heard],
    found: &[Found],
    state: &State,
) -> (Vec<Ask>, Vec<Found>) {
    let mut presumed = Vec::new();
    let mut suppose: Vec<Statement> = Vec::new();
    let mut about: Vec<Subject> = Vec::new();
    let mut add_about = |subject: &Subject, kind: Option<String>| {
        let mut subject = subject.clone();
        if let Some(kind) = kind {
            subject.kind = Some(kind);
        }
        if !about.contains(&subject) && !matches!(subject.thing.as_str(), "tank" | "reading" | "keeper") {
            about.push(subject);
        }
    };
    for finding in found {
        let kind = match (&finding.says, finding.subject.thing.as_str()) {
            (Says::Value { attribute, value: super::reading::Said::Word(word), .. }, "filter")
                if attribute == "kind" =>
            {
                Some(word.clone())
            }
            _ => None,
        };
        add_about(&finding.subject, kind);
        let tank_volume = finding.subject.thing == "tank" && finding.attribute() == Some("nominal");
        let placed = matches!(finding.via, Some(Role::For | Role::On | Role::In)) && tank_volume;
        let definite = finding.definite;
        if asking.supposes {
            if !finding.bare || finding.attribute().is_some() {
                suppose.push(statement(finding, span));
            }
            continue;
        }
        let known = state.value(&finding.subject, finding.attribute().unwrap_or(""));
        if definite || placed && known.is_none() {
            let mut fact = finding.clone();
            fact.mark = fact.mark.or(Some(Mark::Presumed));
            if fact.mark == Some(Mark::Hint) {
                fact.mark = Some(Mark::Presumed);
            }
            presumed.push(fact);
        } else if !finding.bare || matches!(finding.says, Says::Absent) {
            suppose.push(statement(finding, span));
        }
    }
    let mut things: Vec<&str> = found.iter().map(|f| f.subject.thing.as_str()).collect();
    things.dedup();
    let topics = topics_of(listener, asking.form, words, heard, &things);
    let asks = topics
        .into_iter()
        .map(|(topic, form)| Ask {
            span,
            form: form.unwrap_or(asking.form),
            topic,
            about: about.clone(),
            suppose: suppose.clone(),
            named: Vec::new(),
        })
        .collect();
    (asks, presumed)
}

fn statement(found: &Found, span: Span) -> Statement {
    Statement { span, subject: found.subject.clone(), says: found.says.clone(), mark: found.mark }
}

/// The topic of a question: the first of the list that fits; none: the question asked last goes on, or the first step.
fn topics_of(
    listener: &Listener,
    form: Form,
    (first, last): (usize, usize),
    heard: &[Heard],
    things: &[&str],
) -> Vec<(String, Option<Form>)> {
    let here = |cues: &[u16]| heard.iter().any(|h| h.first >= first && h.last <= last && cues.contains(&h.cue));
    let found = listener.cues.topics.iter().find(|t| {
        (t.words.is_empty() || here(&t.words))
            && (t.form.is_empty() || t.form.contains(&form))
            && (t.with.is_empty() || t.with.iter().any(|w| things.contains(&w.as_str())))
    });
    match found {
        Some(topic) => vec![(topic.topic.clone(), topic.form_given)],
        None => Vec::new(),
    }
}

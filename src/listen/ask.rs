//! Questions: whether a clause asks, in which form, of which topic, and what holds for the question only. In: a clause
//! with its findings. Out: an ask, presumed facts, what-ifs. Knows no answer.

use super::clause::Clause;
use super::found::Found;
use super::items::{Item, What};
use super::lexicon::Sense;
use super::line::Listener;
use super::reading::{Ask, Form, Mark, Said, Says, Statement, Subject};
use super::state::State;
use super::term::{Heard, Term};
use super::topics::topics_of;
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
    /// Begins with "with": what it names is asked about.
    pub part: bool,
    /// A named medium stands right behind the opener: "what foam".
    pub kind_behind: bool,
    /// A statement begins at this item: "what for 200 l canister 3 trays".
    pub tells_from: Option<usize>,
}

/// Whether the clause asks something.
pub fn asking(
    clause: &Clause,
    items: &[Item],
    terms: &[Term],
    before: Option<Asking>,
    sentence_asks: bool,
) -> Option<Asking> {
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
    let of = |form: Form, opener: Option<usize>| Asking {
        form,
        opener,
        supposes: false,
        tells_from: None,
        kind_behind: false,
        part: clause.joint == Some(Role::With),
    };
    let supposes = (from..to).find(|i| role(*i, Role::Suppose));
    if let Some(at) = supposes {
        return Some(Asking { supposes: true, ..of(Form::WhatIf, Some(at)) });
    }
    if clause.tagged {
        return Some(of(Form::Whether, None));
    }
    // "so litres is": a gap to be filled.
    if to - from <= 4
        && to > from + 1
        && role(to - 1, Role::Be)
        && !role(to - 1, Role::Doing)
        && !(from..to).any(|i| matches!(items[i].what, What::Amount(_)))
    {
        return Some(of(Form::HowMuch, Some(to - 1)));
    }
    // "is it too strong": more than a tag.
    if role(from, Role::Tag) && to > from + 1 && terms[items[from].first].last > terms[items[from].first].first {
        return Some(of(Form::Whether, Some(from)));
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
            // "... and is green": goes on telling.
            Form::Whether
                if terms[items[at].first].is(Role::Be)
                    && clause.joint == Some(Role::And)
                    && !mark
                    && before.is_none() =>
            {
                false
            }
            Form::Whether if terms[items[at].first].is(Role::Be) && clause.starts && to > at + 1 => true,
            Form::Whether => is_inverted(at, to, items, terms, mark) || conditional,
            _ => true,
        };
        // "what for 200 l canister": a telegram behind the question.
        if form == Form::What && at + 1 < to && role(at + 1, Role::For) && !clause_asks_more(at + 2, to, items, terms) {
            return Some(Asking {
                form,
                opener: Some(at),
                supposes: false,
                tells_from: Some(at + 2),
                kind_behind: false,
                part: clause.joint == Some(Role::With),
            });
        }
        if really {
            return Some(Asking {
                form,
                opener: Some(at),
                supposes: conditional && form == Form::Whether,
                tells_from: None,
                kind_behind: named_behind(at + 1, to, items, terms),
                part: false,
            });
        }
    }
    if let Some(at) = (from..to).find(|i| role(*i, Role::Wonder)) {
        return Some(of(Form::Whether, Some(at)));
    }
    // "clean how", "order?", "guard needed?"
    if let Some(form) = (to > from).then(|| form_at(to - 1)).flatten()
        && to - from > 1
        && matches!(form, Form::How | Form::What | Form::Why | Form::When | Form::Where)
    {
        return Some(of(form, Some(to - 1)));
    }
    if conditional {
        let form = (from..to).find_map(form_at).unwrap_or(Form::Whether);
        return Some(Asking {
            form,
            opener: (from..to).find(|i| form_at(*i).is_some()),
            supposes: true,
            tells_from: None,
            kind_behind: false,
            part: clause.joint == Some(Role::With),
        });
    }
    if mark {
        // "media?", "flow?": only a name.
        let verb = (from..to).any(|i| {
            role(i, Role::Be) || role(i, Role::Have) || role(i, Role::Tag) || role(i, Role::Person) || role(i, Role::It)
        });
        let form = if to - from <= 3 && !verb && !(from..to).any(|i| matches!(items[i].what, What::Amount(_))) {
            Form::What
        } else {
            Form::Whether
        };
        return Some(of(form, None));
    }
    // "can I wash it with soap", "would stones help, the porous ones": goes on with the question before.
    if let Some(before) = before
        && !clause.starts
    {
        let said = (from..to).any(|i| {
            role(i, Role::Have)
                || role(i, Role::Be)
                || role(i, Role::No)
                || role(i, Role::Not)
                || role(i, Role::It) && !role(i, Role::One)
        }) || (from..to).any(|i| !matches!(items[i].what, What::Term | What::Mark(_)));
        let one = |i: usize| terms[items[i].first].is(Role::One);
        let names_one = role(from, Role::Definite) && (from..to).any(one);
        if (clause.joint == Some(Role::With) || sentence_asks) && !said || names_one {
            return Some(Asking { opener: None, part: true, ..before });
        }
    }
    // "the difference between foam and floss": bare names behind the question belong to it.
    if let Some(before) = before
        && clause.joint == Some(Role::And)
        && !clause.starts
        && (from..to).all(|i| {
            items[i].what == What::Term
                && (terms[items[i].first].has_content_named() || terms[items[i].first].is(Role::Noise))
                && !terms[items[i].first].senses.iter().any(|s| matches!(s, Sense::State { .. }))
        })
    {
        return Some(Asking { opener: None, part: true, ..before });
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

/// A kind of medium, by name, right behind the opener.
fn named_behind(at: usize, to: usize, items: &[Item], terms: &[Term]) -> bool {
    at < to
        && items[at].what == What::Term
        && terms[items[at].first].senses.iter().any(|s| matches!(s, Sense::Named { thing: super::name::MEDIUM, .. }))
}

/// A verb behind "what for ...": "what for do I need it".
fn clause_asks_more(from: usize, to: usize, items: &[Item], terms: &[Term]) -> bool {
    (from..to).any(|i| items[i].what == What::Term && terms[items[i].first].is(Role::Person))
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
            subject || mark || term.has_content() || term.is(Role::Fish) || term.senses.is_empty()
        }
        What::Amount(_) => !opener.is(Role::Have),
        _ => mark,
    }
}

/// What an ask is made of besides its findings.
pub struct Hearing<'a> {
    pub listener: &'a Listener,
    pub span: Span,
    /// First and last word of the clause.
    pub words: (usize, usize),
    pub heard: &'a [Heard],
    pub state: &'a State,
    /// The question before this one.
    pub before: Option<&'a Ask>,
}

/// The ask of a clause, with the facts that it presumes.
pub fn ask_of(asking: Asking, found: &[Found], heard: &Hearing) -> (Vec<Ask>, Vec<Found>) {
    let (state, span) = (heard.state, heard.span);
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
    for (n, finding) in found.iter().enumerate() {
        let kind = match (&finding.says, finding.subject.thing.as_str()) {
            (Says::Value { attribute, value: Said::Word(word), .. }, "filter") if attribute == "kind" => {
                Some(word.clone())
            }
            _ => None,
        };
        add_about(&finding.subject, kind);
        // A wish is a wish, asked about or not.
        if finding.attribute() == Some("wanted") {
            presumed.push(finding.clone());
            continue;
        }
        let tank_volume = finding.subject.thing == "tank" && matches!(finding.attribute(), Some("nominal" | "length"));
        let placed = matches!(finding.via, Some(Role::For | Role::On | Role::In)) && tank_volume;
        let known = state.value(&finding.subject, finding.attribute().unwrap_or(""));
        // "20 guppies instead of 8": the second is what is there now.
        let now = finding.instead;
        let only_asked =
            matches!(asking.form, Form::WhyNot | Form::Which) && finding.subject.thing == "medium" || asking.part;
        let negated = matches!(finding.says, Says::Absent);
        if negated && finding.definite && !asking.supposes {
            // "shouldn't the foam go first?" says nothing of whether there is any.
            continue;
        }
        if (only_asked || negated) && finding.definite {
            continue;
        }
        if now || finding.definite || placed && known.is_none() && !asking.supposes {
            let mut fact = finding.clone();
            if fact.mark != Some(Mark::Spelling) {
                fact.mark = Some(Mark::Presumed);
            }
            presumed.push(fact);
        } else if matches!(finding.says, Says::Absent) && finding.via.is_none() && !asking.supposes {
            // A negated question ("don't I need carbon?") says nothing of what is there.
        } else if !finding.bare
            || finding.attribute().is_some() && asking.supposes
            || matches!(finding.says, Says::Absent)
            || asking.supposes && n > 0
        {
            suppose.push(statement(finding, span));
        }
    }
    // "what foam": one of several of a kind.
    let names_kind = asking.kind_behind;
    let asked_form = if names_kind && asking.form == Form::What { Form::Which } else { asking.form };
    let mut things: Vec<&str> = found.iter().map(|f| f.subject.thing.as_str()).collect();
    things.dedup();
    if found.iter().any(|f| f.subject.stage.as_deref() == Some("fry")) {
        things.push("fry");
    }
    let topics = topics_of(heard, asked_form, &things);

    // "is that enough": what was spoken of last.
    if about.is_empty()
        && let Some(subject) =
            state.subject.clone().filter(|s| matches!(s.thing.as_str(), "filter" | "medium" | "stock"))
    {
        about.push(subject);
    }
    let form = match asking.form {
        Form::What if names_kind => Form::Which,
        form => form,
    };
    let asks = topics
        .into_iter()
        .map(|(topic, given)| Ask {
            span,
            form: given.unwrap_or(form),
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

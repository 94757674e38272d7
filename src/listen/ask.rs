//! Questions: whether a clause asks, and how: its opener, what it supposes, where it goes on with the question before. In: a
//! clause. Out: how it asks. Knows no topic and no answer.

use super::clause::Clause;
use super::items::{Item, What};
use super::lexicon::Sense;
use super::reading::Form;
use super::term::Term;
use crate::knowledge::language::Role;

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
    // "without the sponge what then".
    let without = (from..to).find(|i| role(*i, Role::Without));
    let supposes =
        supposes.or(without.filter(|w| role(to - 1, Role::Then) && (*w..to).any(|i| form_at(i) == Some(Form::What))));
    if let Some(at) = supposes {
        return Some(Asking { supposes: true, ..of(Form::WhatIf, Some(at)) });
    }
    if clause.tagged {
        let opener = form_at(from).filter(|f| matches!(f, Form::What | Form::HowMuch | Form::HowMany | Form::Which));
        return Some(of(opener.unwrap_or(Form::Whether), opener.map(|_| from)));
    }
    // "so litres is": a gap to be filled.
    if to - from <= 4
        && to > from + 1
        && clause.end.is_some()
        && role(to - 1, Role::Be)
        && (from..to).any(|i| {
            items[i].what == What::Term
                && (term(i).units().next().is_some()
                    || term(i).labels().next().is_some()
                    || term(i).is_noise() && to - from == 2)
        })
        && !role(to - 1, Role::Doing)
        && !(from..to).any(|i| {
            matches!(items[i].what, What::Amount(_)) || items[i].what == What::Term && term(i).level().is_some()
        })
    {
        return Some(of(Form::HowMuch, Some(to - 1)));
    }
    // "is it too strong": more than a tag.
    let goes_on = to > from + 1 || clause.starts && to < items.len() && role(to, Role::With);
    if role(from, Role::Tag) && goes_on && terms[items[from].first].last > terms[items[from].first].first {
        return Some(of(Form::Whether, Some(from)));
    }
    // "if I had 20 guppies would it cope".
    let conditional = (from..to).any(|i| role(i, Role::If)) && (from..to).any(|i| form_at(i).is_some());
    // "on which tank": a preposition may stand before the opener.
    let before_opener = |i: usize| {
        let place = role(i, Role::On) || role(i, Role::In) || role(i, Role::For) || role(i, Role::At);
        place && i + 1 < to && matches!(form_at(i + 1), Some(Form::Which | Form::What))
    };
    let first = (from..to).find(|i| !is_lead(&items[*i], terms) && !before_opener(*i));
    // "can you tell me how much": the question is the second opener's.
    let told = first.filter(|at| form_at(*at) == Some(Form::Whether)).and_then(|at| {
        let wonder = (at..to).find(|i| role(*i, Role::Wonder))?;
        (wonder + 1 < to).then_some(wonder + 1)
    });
    let first =
        match told.filter(|i| form_at(*i).is_some_and(|f| !matches!(f, Form::Whether | Form::When | Form::Where))) {
            Some(second) => Some(second),
            None => first,
        };
    // "was it the heater": only in front of a question.
    let was = |i: usize| (clause.starts && role(i, Role::Was)).then_some(Form::Whether);
    if let Some(at) = first
        && let Some(form) = form_at(at).or(was(at))
    {
        let lone = to == at + 1;
        let really = match form {
            // "what", "when", "which" inside a sentence may only join: "when I put my hand in".
            Form::When | Form::Where | Form::Who => {
                // "when will it": turned round, so it asks.
                let turned = at + 1 < to && form_at(at + 1) == Some(Form::Whether) && !role(at + 1, Role::Not);
                mark || lone && clause.starts
                    || turned
                    || !(at + 1 < to && role(at + 1, Role::Person)) && (clause.starts || before.is_some())
            }
            Form::What if lone && !mark && !clause.starts => false,
            // "... and is green": goes on telling.
            Form::Whether
                if terms[items[at].first].is(Role::Be)
                    && matches!(clause.joint, Some(Role::And | Role::But))
                    && !mark
                    && before.is_none() =>
            {
                false
            }
            // "was off all night" tells, "was it off" asks.
            Form::Whether if role(at, Role::Was) => {
                is_inverted(at, to, items, terms, mark)
                    && !matches!(items.get(at + 1).map(|i| &i.what), Some(What::Amount(_)))
                    || mark
            }
            Form::Whether if terms[items[at].first].is(Role::Be) && clause.starts && to > at + 1 => true,
            // "inside is 8 neon tetra", "my fish, is 4 silver dollars": a learner's order.
            Form::Whether
                if terms[items[at].first].is(Role::Be)
                    && !mark
                    && (at > from && (from..at).any(|i| role(i, Role::In))
                        || !clause.starts && matches!(items.get(at + 1).map(|i| &i.what), Some(What::Amount(_)))) =>
            {
                false
            }
            // "any point in a second filter".
            Form::Whether if terms[items[at].first].last > terms[items[at].first].first => true,
            // "has my canister arrived".
            Form::Whether
                if clause.starts
                    && to > at + 2
                    && role(at, Role::Have)
                    && role(at + 1, Role::Definite)
                    && items[to - 1].what == What::Term
                    && !terms[items[to - 1].first].has_content() =>
            {
                true
            }
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
    // "because it clogs?"
    if mark && clause.starts && clause.joint == Some(Role::Because) && first.is_some_and(|i| form_at(i).is_none()) {
        return Some(of(Form::Why, None));
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
        let form = if to - from <= 3
            && clause.joint != Some(Role::With)
            && !verb
            && !(from..to).any(|i| matches!(items[i].what, What::Amount(_)))
        {
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
            let act = term.senses.iter().any(|s| matches!(s, Sense::Act(_)));
            !asks
                && (act || !term.has_content())
                && (act || term.is(Role::Noise) || term.is(Role::And) || term.is(Role::Correct))
                && !term.is(Role::Person)
                && !term.is(Role::It)
                && !term.is(Role::Have)
                && !term.is(Role::Definite)
                && !term.is(Role::Was)
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
            // "did a water change on Sunday": told, with the person left out.
            // "did the tap water do that": what has someone else for its doer asks.
            let done = items[to - 1].what == What::Term && terms[items[to - 1].first].is(Role::It) && to > at + 3;
            if opener.is(Role::Did)
                && !mark
                && !done
                && (term.is(Role::A) || term.is(Role::Definite) && !term.is(Role::It))
            {
                return false;
            }
            subject || mark || term.has_content() || term.is(Role::Fish) || term.senses.is_empty()
        }
        What::Amount(_) if opener.is(Role::Did) => mark,
        What::Amount(_) => !opener.is(Role::Have),
        What::Time(_) => opener.is(Role::Modal) || mark,
        _ => mark,
    }
}

//! Acts: greetings, thanks, yes and no, undo, next caller. In: a clause. Out: acts, when it holds nothing else. Knows no
//! things.

use super::clause::Clause;
use super::items::What;
use super::lexicon::Sense;
use super::reading::Act;
use super::turn::Turn;
use crate::knowledge::language::Role;

/// Reads a clause that is an act and nothing else, or takes the greeting off its front; true when nothing is left.
pub fn read(turn: &mut Turn, clause: &Clause) -> bool {
    let mut acts: Vec<(Act, usize)> = Vec::new();
    let mut rest = false;
    for item in clause.from..clause.to {
        let greeting = |t: &super::term::Term| t.senses.iter().any(|s| matches!(s, Sense::Act(Act::Greet)));
        // "Morning, pond person here": no time of anything.
        let first = clause.to == clause.from + 1 && clause.line && clause.end == Some(',');
        let moment =
            matches!(turn.items[item].what, What::Time(_)) && first && greeting(&turn.terms[turn.items[item].first]);
        if turn.items[item].what != What::Term && !moment {
            rest |= !matches!(turn.items[item].what, What::Mark(_));
            continue;
        }
        let term = &turn.terms[turn.items[item].first];
        let act = term.senses.iter().find_map(|s| match s {
            Sense::Act(act) => Some(*act),
            _ => None,
        });
        match act {
            Some(_) if turn.became[term.first].is_some() => rest = true,
            // "it won't restart", "how do I stop it": told of the filter, no order to us.
            Some(act) if is_order(act) && is_told_of(turn, clause) => rest = true,
            // "how do I stop it": no order to us.
            Some(Act::Stop) if item > clause.from => rest = true,
            Some(act) => acts.push((act, turn.items[item].first)),
            None => rest |= !(term.is_noise() || term.is(Role::Noise)) || term.has_content(),
        }
    }
    if acts.is_empty() {
        return false;
    }
    // "ok when will it be ready": a question behind the act.
    let asks = super::ask::asking(clause, turn.items, turn.terms, None, false);
    rest |= asks.and_then(|a| a.opener).is_some_and(|opener| opener + LEAST <= clause.to);
    let whole = !rest && clause.end != Some('?');
    // "no, honey gouramis": the rest of the line corrects; with a question open it is the answer.
    let denies = whole && acts.len() == 1 && acts[0].0 == Act::Deny && clause.line;
    let open = turn.context.pending.as_ref().is_some_and(|p| p.readings.len() > 1);
    if denies && turn.context.asked.is_none() && !open && turn.goes_on(clause) {
        turn.correcting = true;
        return true;
    }
    let mut any = false;
    for (n, (act, term)) in acts.iter().enumerate() {
        // Inside a clause that says something else only courtesy, anger and subjects off the point count.
        let courtesy = matches!(
            act,
            Act::Greet
                | Act::Thank
                | Act::Bye
                | Act::Apology
                | Act::Swear
                | Act::OffTopic
                | Act::NewCall
                | Act::DontKnow
                | Act::Confirm
        );
        let small = |i: usize| turn.items[i].what == What::Term && turn.terms[turn.items[i].first].is(Role::Noise);
        let before = (clause.from..clause.to).take_while(|i| turn.items[*i].first < *term);
        let leads = n == 0 && clause.starts && before.into_iter().all(small);
        let counts = whole && (courtesy || acts.len() <= 2 || is_order(*act))
            || courtesy
                && (leads
                    || matches!(
                        act,
                        Act::Swear | Act::OffTopic | Act::Thank | Act::NewCall | Act::DontKnow | Act::Confirm
                    ));
        // "yes it's running": the answer before what it tells.
        if !whole && leads && *act == Act::Agree && clause.line && is_yes(turn, *term) {
            turn.act(*act, &[*term]);
            continue;
        }
        if !counts {
            continue;
        }
        let alone = whole && !(matches!(act, Act::Agree | Act::Deny) && is_filler(turn, clause));
        if !alone && !courtesy {
            continue;
        }
        turn.act(*act, &[*term]);
        any = true;
    }
    whole && any
}

/// Items from its opener on that a question of its own has at the least.
const LEAST: usize = 3;

/// "yes", not "ok" or "right", which only begin a line; something was told or asked before.
fn is_yes(turn: &Turn, term: usize) -> bool {
    let before = !turn.context.held.is_empty() || turn.context.asked.is_some() || turn.context.pending.is_some();
    before && turn.terms[term].is(Role::Yes)
}

/// Somebody or something does it, or does not: no order.
fn is_told_of(turn: &Turn, clause: &Clause) -> bool {
    let told = |t: &super::term::Term| {
        t.is(Role::Not)
            || t.is(Role::Never)
            || t.is(Role::Person)
            || t.is(Role::It) && t.first == t.last && !t.is(Role::Please)
    };
    let orders = |t: &super::term::Term| t.senses.iter().any(|s| matches!(s, Sense::Act(a) if is_order(*a)));
    let terms = (clause.from..clause.to).filter(|i| turn.items[*i].what == What::Term);
    let mut terms = terms.map(|i| &turn.terms[turn.items[i].first]);
    terms.any(|t| told(t) && !orders(t))
}

fn is_order(act: Act) -> bool {
    matches!(act, Act::Undo | Act::Restart | Act::NewCall | Act::Save | Act::Stop)
}

/// "ok", "right", "no" inside a longer line are fillers unless they begin it.
fn is_filler(turn: &Turn, clause: &Clause) -> bool {
    clause.from > 0 && !clause.starts
        || turn.items.len() > clause.to + 1 && {
            // "no, sorry, 45": a correction follows.
            let next = clause.to + 1;
            let item = &turn.items[next.min(turn.items.len() - 1)];
            item.what == What::Term && turn.terms[item.first].is(Role::Correct)
        }
}

/// The sentence speaks of something off the point ("the oil filter on my van"): nothing in it is ours.
pub fn is_off_topic(turn: &Turn, sentence: &[Clause]) -> bool {
    sentence.iter().any(|c| {
        (c.from..c.to).any(|i| {
            turn.items[i].what == What::Term
                && turn.terms[turn.items[i].first].senses.iter().any(|s| matches!(s, Sense::Act(Act::OffTopic)))
        })
    })
}

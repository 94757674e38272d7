//! Changes to what is there: dropped, more, fewer, swapped, another kind. In: a clause and what is held. Out: statements
//! that withdraw, add, take or replace. Knows no question.

use super::clause::Clause;
use super::correct::{amount_of, attribute_of};
use super::found::{Found, subject};
use super::items::What;
use super::lexicon::Sense;
use super::name;
use super::reading::{How, Said, Says, Subject};
use super::state::same_thing;
use super::turn::Turn;
use crate::knowledge::language::Role;
use crate::units::Amount;

/// "scrap the goldfish", "no angels after all"; with a figure fewer of them.
pub fn drop_things(turn: &mut Turn, clause: &Clause) -> bool {
    let Some(at) = (clause.from..clause.to).find(|i| turn.has_role(*i, Role::Drop)) else { return false };
    let (found, _) = turn.probe(*clause);
    let figure = (clause.from..clause.to).find_map(|i| match &turn.items[i].what {
        What::Amount(m) if m.is_plain() => Some((i, m.count())),
        _ => None,
    });
    let mut any = false;
    for finding in found.into_iter().filter(|f| matches!(f.subject.thing.as_str(), "stock" | "medium" | "filter")) {
        let held = turn.latest(|s| same_thing(&s.subject, &finding.subject));
        if held.is_none() || any {
            continue;
        }
        let mut terms = finding.terms.clone();
        terms.extend(turn.terms_between(at, at));
        let says = match &figure {
            Some((_, count)) if finding.subject.thing == "stock" => {
                Says::Value { attribute: "count".into(), how: How::Take, value: Said::Amount(*count) }
            }
            _ => Says::Dropped,
        };
        turn.state_fact(Found::new(finding.subject, says, terms));
        any = true;
    }
    any
}

/// "add another 6", "2 less": a sum on the fish spoken of.
pub fn more_or_fewer(turn: &mut Turn, clause: &Clause) -> bool {
    let role = |turn: &Turn, role: Role| (clause.from..clause.to).find(|i| turn.has_role(*i, role));
    let (how, at) = match (role(turn, Role::More), role(turn, Role::Fewer)) {
        (Some(at), _) => (How::Add, at),
        (None, Some(at)) => (How::Take, at),
        _ => return false,
    };
    let wish = [Role::Wish, Role::Suppose, Role::If, Role::To, Role::Future]
        .iter()
        .any(|r| (clause.from..clause.to).any(|i| turn.has_role(i, *r)));
    let figure = (clause.from..clause.to).find_map(|i| match &turn.items[i].what {
        What::Amount(m) if m.is_plain() && !m.refused => Some((i, m.count())),
        _ => None,
    });
    let (Some((item, count)), false) = (figure, wish || clause.end == Some('?')) else { return false };
    let asks = (clause.from..clause.to).any(|i| {
        turn.items[i].what == What::Term
            && turn.terms[turn.items[i].first]
                .senses
                .iter()
                .any(|s| matches!(s, Sense::Ask(f) if *f != super::reading::Form::Whether))
    });
    if asks {
        return false;
    }
    let (found, _) = turn.probe(*clause);
    let named =
        found.iter().find(|f| f.subject.thing == "stock" && f.subject.kind.is_some()).map(|f| f.subject.clone());
    let others = found.iter().any(|f| !matches!(f.subject.thing.as_str(), "stock" | "tank" | "event"));
    let of = named.or_else(|| turn.state.stock.clone());
    let Some(of) = of.filter(|_| !others) else { return false };
    if turn.latest(|s| same_thing(&s.subject, &of) && attribute_of(s) == Some("count")).is_none() {
        return false;
    }
    let says = Says::Value { attribute: "count".into(), how, value: Said::Amount(count) };
    let mut terms = turn.terms_between(item, item);
    terms.extend(turn.terms_between(at, at));
    found.iter().for_each(|f| terms.extend(&f.terms));
    turn.state_fact(Found::new(of, says, terms));
    true
}

/// "swap the angels for gouramis": another kind, the same number.
pub fn swap(turn: &mut Turn, clause: &Clause) -> bool {
    let verb = (clause.from..clause.to).any(|i| turn.has_role(i, Role::Swap));
    let joint = (clause.from..clause.to).find(|i| turn.has_role(*i, Role::For) || turn.has_role(*i, Role::With));
    let (true, Some(joint)) = (verb && clause.end != Some('?'), joint) else { return false };
    let (found, _) = turn.probe(*clause);
    let at = |f: &Found| f.terms.first().copied().unwrap_or(0);
    let middle = turn.items[joint].first;
    let stock = |f: &&Found| f.subject.thing == "stock" && f.subject.kind.is_some();
    let old = found.iter().filter(stock).find(|f| at(f) < middle).cloned();
    let new = found.iter().filter(stock).find(|f| at(f) > middle).cloned();
    let (Some(old), Some(new)) = (old, new) else { return false };
    replace_kind(turn, old.subject, new)
}

/// "other way round", "swap those": the two values told last change places.
pub fn swap_values(turn: &mut Turn, clause: &Clause) -> bool {
    let verb = (clause.from..clause.to).any(|i| turn.has_role(i, Role::Swap));
    let bare = (clause.from..clause.to)
        .all(|i| turn.items[i].what == What::Term && !turn.terms[turn.items[i].first].has_content());
    if !verb || !bare || clause.end == Some('?') {
        return false;
    }
    let figures: Vec<super::reading::Statement> =
        turn.context.held.iter().filter(|s| amount_of(s).is_some()).cloned().collect();
    let Some(last) = figures.last() else { return false };
    let twin = |s: &&super::reading::Statement| {
        let (a, b) = (amount_of(s), amount_of(last));
        let alike = attribute_of(s) == attribute_of(last) || s.subject == last.subject;
        s.subject.thing == last.subject.thing
            && alike
            && a.zip(b).is_some_and(|(a, b)| a.unit.dimension == b.unit.dimension)
    };
    let Some(other) = figures[..figures.len() - 1].iter().rev().find(twin) else { return false };
    let terms = turn.terms_between(clause.from, clause.to - 1);
    for (of, from) in [(other, last), (last, other)] {
        let (Says::Value { attribute, .. }, Some(had), Some(new)) = (&of.says, amount_of(of), amount_of(from)) else {
            continue;
        };
        // "swap kh and gh": the number moves, the degree is its own.
        let value = Said::Amount(Amount { unit: had.unit, ..new });
        turn.replace(of.subject.clone(), attribute.clone(), value, terms.clone());
    }
    true
}

/// "that's the other tank": what was told last holds for the other of two.
pub fn other_tank(turn: &mut Turn, clause: &Clause) -> bool {
    let role = |role: Role| (clause.from..clause.to).any(|i| turn.has_role(i, role));
    let tank = |i: usize| turn.items[i].what == What::Term && turn.terms[turn.items[i].first].names_thing(name::TANK);
    let bare = (clause.from..clause.to)
        .all(|i| turn.items[i].what == What::Term && (tank(i) || !turn.terms[turn.items[i].first].has_content()));
    let said = role(Role::It) && role(Role::Other) && (clause.from..clause.to).any(tank);
    if !said || !bare || clause.end == Some('?') || turn.state.tanks.len() != 2 {
        return false;
    }
    let of_tank = |s: &super::reading::Statement| matches!(s.subject.thing.as_str(), "reading" | "change" | "stock");
    let Some(held) = turn.latest(|s| of_tank(s) && attribute_of(s).is_some()) else { return false };
    let Some(other) = turn.state.tanks.iter().map(|t| t.number).find(|n| *n != held.subject.tank) else { return false };
    let Says::Value { attribute, value, .. } = held.says.clone() else { return false };
    let terms = turn.terms_between(clause.from, clause.to - 1);
    let says = Says::Value { attribute: attribute.clone(), how: How::Set, value };
    let of = Subject { tank: other, ..held.subject.clone() };
    turn.state_fact(Found::new(held.subject, Says::DroppedValue { attribute }, terms.clone()));
    turn.state_fact(Found::new(of, says, terms));
    true
}

/// "no it's alive": nothing died after all; "the small one died" is one.
pub fn alive_after_all(turn: &mut Turn, clause: &Clause) -> bool {
    let alive = (clause.from..clause.to).any(|i| {
        turn.items[i].what == What::Term && {
            let term = &turn.terms[turn.items[i].first];
            let fine = |s: &Sense| match s {
                Sense::State { thing: name::STOCK, attribute: name::HEALTH, kind } => turn.name(*kind) == "fine",
                _ => false,
            };
            term.senses.iter().any(fine) && term.level().is_none()
        }
    });
    let no = turn.has_role(clause.from, Role::No);
    let died = turn
        .context
        .held
        .iter()
        .rev()
        .find(|s| s.subject.thing == "event" && s.subject.kind.as_deref() == Some(turn.name(name::FISH_DIED)));
    let Some(died) = died.filter(|_| alive && no).map(|s| s.subject.clone()) else { return false };
    let terms = turn.terms_between(clause.from, clause.to - 1);
    turn.state_fact(Found::new(died, Says::Dropped, terms));
    true
}

/// "no, honey gouramis": the fish told last are another kind.
pub fn other_kind(turn: &mut Turn, found: &[Found]) -> bool {
    let [new] = found else { return false };
    if new.subject.thing != "stock" || new.subject.kind.is_none() || new.says != Says::Present {
        return false;
    }
    if they_are(turn, new) {
        return true;
    }
    let last = turn.latest(|s| s.subject.thing == "stock" && attribute_of(s) == Some("count"));
    let Some(last) =
        last.filter(|s| s.subject.kind != new.subject.kind && s.mark == Some(super::reading::Mark::Derived))
    else {
        return false;
    };
    let known = turn.context.held.iter().any(|s| same_thing(&s.subject, &new.subject));
    !known && replace_kind(turn, last.subject, new.clone())
}

/// "my tetras, no wait, they are rasboras": the fish named just before, or told last, are these.
fn they_are(turn: &mut Turn, new: &Found) -> bool {
    let first = new.terms.first().copied().unwrap_or(0);
    let they = |t: usize| turn.terms[t].is(Role::It) || turn.terms[t].is(Role::Person);
    let short = |t: usize| matches!(turn.words[turn.terms[t].last].text.as_str(), "theyre" | "its" | "thats");
    let be = |t: usize| turn.terms[t].is(Role::Be);
    let are = first > 1 && be(first - 1) && they(first - 2)
        || first > 0 && (short(first - 1) || be(first - 1) && they(first - 1));
    let fish = |s: &super::reading::Statement| {
        s.subject.thing == "stock" && s.subject.kind.is_some() && s.subject.stage.is_none()
    };
    let Some(old) = turn.latest(fish).filter(|s| are && s.subject.kind != new.subject.kind) else { return false };
    let here = turn.reading.statements.iter().any(|s| same_thing(&s.subject, &old.subject));
    let held = turn.context.held.iter().any(|s| same_thing(&s.subject, &old.subject));
    if here && !held {
        turn.state_fact(new.clone());
        while let Some(at) = turn.reading.statements.iter().position(|s| same_thing(&s.subject, &old.subject)) {
            turn.forget(at);
        }
        return true;
    }
    if !replace_kind(turn, old.subject.clone(), new.clone()) {
        turn.state_fact(Found::new(old.subject, Says::Dropped, new.terms.clone()));
        turn.state_fact(new.clone());
    }
    true
}

/// One kind in the place of another, with its number.
pub fn replace_kind(turn: &mut Turn, old: Subject, new: Found) -> bool {
    let held = turn.latest(|s| same_thing(&s.subject, &old) && attribute_of(s) == Some("count"));
    let Some(count) = held.as_ref().and_then(amount_of) else { return false };
    turn.state_fact(Found::new(old, Says::Dropped, new.terms.clone()));
    let says = Says::Value { attribute: "count".into(), how: How::Set, value: Said::Amount(count) };
    let found = Found::new(new.subject, says, new.terms).marked(Some(super::reading::Mark::Derived));
    turn.state_fact(found);
    true
}

/// "just one canister, sorry": fewer of a kind than were told.
pub fn fewer_filters(turn: &mut Turn, clause: &Clause) -> bool {
    if !turn.correcting {
        return false;
    }
    let count = (clause.from..clause.to).find_map(|i| match &turn.items[i].what {
        What::Amount(m) if m.is_plain() => m.likely,
        _ => None,
    });
    let kind = (clause.from..clause.to).find_map(|i| match turn.items[i].what {
        What::Term => turn.terms[turn.items[i].first].senses.iter().find_map(|s| match s {
            Sense::Named { thing: name::FILTER, kind, .. } => Some(*kind),
            _ => None,
        }),
        _ => None,
    });
    let (Some(count), Some(kind)) = (count, kind) else { return false };
    let kind = turn.name(kind).to_string();
    let mut known: Vec<u16> =
        turn.state.filters.iter().filter(|f| f.kind.as_deref() == Some(kind.as_str())).map(|f| f.number).collect();
    known.sort_unstable();
    if known.len() as f64 <= count {
        return false;
    }
    let terms = turn.terms_between(clause.from, clause.to - 1);
    for number in known.split_off(count as usize) {
        let of = Subject { number, ..subject("filter", None) };
        turn.state_fact(Found::new(of, Says::Dropped, terms.clone()));
    }
    true
}

/// "seven goldfish, or eight": the second figure makes a range of the first.
pub fn or_more(turn: &mut Turn, clause: &Clause) -> bool {
    let [first, second] = [clause.from, clause.from + 1];
    if clause.to != second + 1 || clause.starts || !turn.has_role(first, Role::Or) {
        return false;
    }
    let What::Amount(measure) = &turn.items[second].what else { return false };
    let (Some(value), true) = (measure.likely, measure.is_plain()) else { return false };
    let Some(last) = turn.reading.statements.last().cloned() else { return false };
    let (Some(amount), Says::Value { attribute, .. }) = (amount_of(&last), &last.says) else { return false };
    let Some(low) = amount.likely.filter(|l| *l < value) else { return false };
    let range = Amount { decimals: amount.decimals, ..Amount::range(low, value, amount.unit) };
    let terms = turn.terms_between(first, second);
    turn.replace(last.subject.clone(), attribute.clone(), Said::Amount(range), terms);
    true
}

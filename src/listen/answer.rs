//! Answers: a bare number, a unit, yes or no, to what was asked last. In: a short clause and what waits for an answer.
//! Out: the reading that it picks. Knows no grammar of longer lines.

use super::clause::Clause;
use super::found::Found;
use super::items::What;
use super::lexicon::Sense;
use super::measure::Measure;
use super::reading::{Act, Became, How, Said, Says, Statement, Subject, TimeRelation};
use super::turn::Turn;
use crate::knowledge::language::Role;
use crate::units::{Dimension, Unit, unit};

/// Reads a clause that answers the question put to the caller, whatever else its words mean.
pub fn to_question(turn: &mut Turn, clause: &Clause) -> bool {
    clause.starts
        && clause.end != Some('?')
        && (agreed(turn, clause)
            || asked_yes_or_no(turn, clause)
            || asked_kind(turn, clause)
            || asked_time(turn, clause))
}

/// "bare", "nothing", "no" to an attribute that is one of a list.
fn asked_kind(turn: &mut Turn, clause: &Clause) -> bool {
    let Some((of, attribute)) = turn.context.asked.clone() else { return false };
    let names = &turn.listener.lexicon.names;
    let Some((thing, name)) = names.find(&of.thing).zip(names.find(&attribute)) else { return false };
    let mut kinds: Vec<super::name::Name> = Vec::new();
    for item in clause.from..clause.to {
        let What::Term = turn.items[item].what else { return false };
        let term = &turn.terms[turn.items[item].first];
        let of_asked = |s: &Sense| match s {
            Sense::State { thing: t, attribute: a, kind } if *t == thing && *a == name => Some(*kind),
            _ => None,
        };
        let mut own = term.senses.iter().filter_map(of_asked);
        match (own.next(), own.next()) {
            (Some(kind), None) => kinds.push(kind),
            (None, _) if term.is_noise() && !term.has_content() && !term.is(Role::Not) && !term.is(Role::No) => {}
            (None, _) if term.labels().any(|l| l == (thing, name)) => {}
            _ => return false,
        }
    }
    kinds.dedup();
    let none = || match lone_act(turn, clause) {
        Some(Act::Deny) if !super::correct::leads_a_correction(turn, clause) => {
            turn.listener.state(&of.thing, &attribute, "none")
        }
        _ => None,
    };
    let kind = match kinds[..] {
        [kind] => turn.name(kind).to_string(),
        [] => match none() {
            Some(kind) => kind,
            None => return false,
        },
        _ => return false,
    };
    let terms = turn.terms_between(clause.from, clause.to - 1);
    let says = Says::Value { attribute, how: How::Set, value: Said::Word(kind) };
    turn.state_fact(Found::new(of, says, terms));
    true
}

/// Reads a clause that answers; true when nothing of it is left.
pub fn read(turn: &mut Turn, clause: &Clause) -> bool {
    if clause.end == Some('?') || !clause.starts {
        return false;
    }
    bare_figure(turn, clause) || by_words(turn, clause)
}

/// "yes" to what was asked back with one reading.
fn agreed(turn: &mut Turn, clause: &Clause) -> bool {
    if turn.context.asked.is_some() {
        return false;
    }
    if let Some(act) = lone_act(turn, clause)
        && matches!(act, Act::Agree)
        && let Some(pending) = turn.context.pending.clone()
        && let [(_, statements)] = pending.readings.as_slice()
    {
        let terms = turn.terms_between(clause.from, clause.to - 1);
        turn.act(Act::Agree, &terms);
        adopt(turn, statements, &terms);
        return true;
    }
    false
}

/// "yes", "no" to an attribute that is one or the other.
fn asked_yes_or_no(turn: &mut Turn, clause: &Clause) -> bool {
    let Some((of, attribute)) = turn.context.asked.clone() else { return false };
    let value = match lone_act(turn, clause) {
        Some(Act::Agree) => "yes",
        Some(Act::Deny) if !super::correct::leads_a_correction(turn, clause) => "no",
        _ => return false,
    };
    let names = &turn.listener.lexicon.names;
    let known = names.find(&of.thing).zip(names.find(&attribute)).and_then(|(t, a)| turn.listener.attributes.get(t, a));
    if !known.is_some_and(|k| k.is_yes_or_no) {
        return false;
    }
    let terms = turn.terms_between(clause.from, clause.to - 1);
    let act = if value == "yes" { Act::Agree } else { Act::Deny };
    turn.reading.acts.push((act, turn.span_of(&terms)));
    let says = Says::Value { attribute, how: How::Set, value: Said::Word(value.to_string()) };
    turn.state_fact(Found::new(of, says, terms));
    true
}

/// "1 week ago", "every 2 weeks", "since Monday" to an attribute that is a time.
fn asked_time(turn: &mut Turn, clause: &Clause) -> bool {
    use super::time_words::Time;
    let Some((of, attribute)) = turn.context.asked.clone() else { return false };
    let names = &turn.listener.lexicon.names;
    let known = names.find(&of.thing).zip(names.find(&attribute)).and_then(|(t, a)| turn.listener.attributes.get(t, a));
    if known.is_none_or(|k| k.dimension != Some(Dimension::TIME)) {
        return false;
    }
    let mut time = None;
    for item in clause.from..clause.to {
        match &turn.items[item].what {
            What::Time(t) if time.is_none() => time = Some((item, t.clone())),
            What::Term
                if turn.terms[turn.items[item].first].is_noise()
                    && !turn.terms[turn.items[item].first].has_content() => {}
            _ => return false,
        }
    }
    let Some((item, time)) = time else { return false };
    let past = matches!(attribute.as_str(), "set up" | "cleaned" | "when" | "last" | "changed" | "added" | "taken");
    let value = match time {
        Time::Span { relation, measure } => {
            let Some(unit) = measure.unit_of(Dimension::TIME) else { return false };
            let relation = match relation {
                TimeRelation::For | TimeRelation::Old if past => TimeRelation::Ago,
                other => other,
            };
            Said::Time { relation, amount: measure.amount(unit) }
        }
        Time::Moment { relation, name } => Said::Moment { relation, name: turn.name(name).to_string() },
        Time::Rate { count, per } => match count.value().filter(|n| *n > 0.0) {
            Some(n) => Said::Time { relation: TimeRelation::Every, amount: crate::units::Amount::exact(1.0 / n, per) },
            None => return false,
        },
    };
    let terms = turn.terms_between(item, item);
    turn.state_fact(Found::new(of, Says::Value { attribute, how: How::Set, value }, terms));
    true
}

/// The act that is all of a clause.
fn lone_act(turn: &Turn, clause: &Clause) -> Option<Act> {
    if clause.to != clause.from + 1 || turn.items[clause.from].what != What::Term {
        return None;
    }
    turn.terms[turn.items[clause.from].first].senses.iter().find_map(|s| match s {
        Sense::Act(act) => Some(*act),
        _ => None,
    })
}

/// So many words back a line may have named another thing than was asked for.
const WITHIN: usize = 30;

/// "120": the attribute asked for, in the unit asked for.
fn bare_figure(turn: &mut Turn, clause: &Clause) -> bool {
    // What was asked back comes before what was asked.
    if turn.context.pending.as_ref().is_some_and(|p| p.wants.is_some()) {
        return false;
    }
    let Some((of, attribute)) = turn.context.asked.clone() else { return false };
    // "nitrate should be under 20 right? mine is 60": of what this line spoke of, not of what we asked.
    let first = turn.items[clause.from].first;
    let other =
        |t: &super::term::Term| t.labels().any(|(thing, a)| thing == super::name::READING && turn.name(a) != attribute);
    if turn.terms[first.saturating_sub(WITHIN)..first].iter().any(other) {
        return false;
    }
    let mut figure: Option<(usize, Measure)> = None;
    for item in clause.from..clause.to {
        // "make it 12": what was told before, not what was asked; "not 12" answers nothing.
        if turn.corrects_outright(item) || turn.has_role(item, Role::Not) || turn.has_role(item, Role::Instead) {
            return false;
        }
        match &turn.items[item].what {
            What::Amount(m) if figure.is_none() && !m.refused => figure = Some((item, m.clone())),
            What::Term
                if turn.terms[turn.items[item].first].is_noise()
                    && !turn.terms[turn.items[item].first].has_content() => {}
            _ => return false,
        }
    }
    let Some((item, measure)) = figure else { return false };
    let names = &turn.listener.lexicon.names;
    let (Some(thing), Some(name)) = (names.find(&of.thing), names.find(&attribute)) else { return false };
    let Some(known) = turn.listener.attributes.get(thing, name) else { return false };
    let Some(dimension) = known.dimension else { return false };
    let said = measure.units.iter().find(|u| u.dimension == dimension).copied();
    let asked = turn.context.volume_unit.and_then(unit::by_name).filter(|u| u.dimension == dimension);
    let unit = match (said, measure.is_plain()) {
        (Some(unit), _) => unit,
        (None, true) if known.is_count => unit::plain(),
        // "1200" of one who counts in gallons: an hour of them, or litres?
        (None, true)
            if dimension == Dimension::FLOW
                && turn.state.flow_unit.is_none()
                && turn.context.volume_unit.is_some_and(|u| u != "L") =>
        {
            return false;
        }
        (None, true) => match asked.or(known.unit.filter(|_| dimension != crate::units::Dimension::VOLUME)) {
            Some(unit) => unit,
            None => return false,
        },
        _ => return false,
    };
    let amount = if known.is_count { measure.count() } else { measure.amount(unit) };
    if !super::value::is_plausible(known, &amount) {
        return false;
    }
    let terms = turn.terms_between(item, item);
    let says = Says::Value { attribute, how: How::Set, value: Said::Amount(amount) };
    let guessed = said.is_none() && !known.is_count;
    let found = Found::new(of, says, terms).marked(guessed.then_some(super::reading::Mark::Hint));
    turn.state_fact(found);
    true
}

/// "gallons", "inches": picks the reading that has the unit.
pub fn by_unit(turn: &mut Turn, units: &[&'static Unit], terms: &[usize]) -> bool {
    let has = |statements: &[Statement]| {
        statements.iter().any(|s| match &s.says {
            Says::Value { value: Said::Amount(a), .. } => units.iter().any(|u| u.name == a.unit.name),
            _ => false,
        })
    };
    // Asked in this very line: "a 600 an hour one ... litres".
    let here = turn.reading.back.iter().position(|b| b.readings.iter().any(|(_, s)| has(s)));
    if let Some(at) = here {
        let readings = turn.reading.back[at].readings.clone();
        if let Some((_, statements)) = readings.iter().find(|(_, s)| has(s)) {
            let span = turn.reading.back[at].span;
            turn.reading.back.remove(at);
            turn.unask(at);
            let mut terms = terms.to_vec();
            terms.extend(turn.terms_in(span));
            adopt(turn, &hinted(statements), &terms);
            return true;
        }
    }
    // Whatever waits for a unit gets it: "300 and 80 in the sump" ... "litres both".
    let waiting: Vec<Vec<Statement>> = turn
        .context
        .pending
        .iter()
        .chain(&turn.context.waiting)
        .filter_map(|p| p.readings.iter().find(|(_, s)| has(s)).map(|(_, s)| hinted(s)))
        .collect();
    waiting.iter().for_each(|statements| adopt(turn, statements, terms));
    !waiting.is_empty()
}

/// The unit was said apart from its figure: shown as such.
fn hinted(statements: &[Statement]) -> Vec<Statement> {
    let mark = |s: &Statement| Statement { mark: s.mark.or(Some(super::reading::Mark::Hint)), ..s.clone() };
    statements.iter().map(mark).collect()
}

/// A word of the label of one reading: "the canister", "in all", "rings".
fn by_words(turn: &mut Turn, clause: &Clause) -> bool {
    let Some(pending) = turn.context.pending.clone() else { return false };
    if pending.readings.len() < 2 || clause.to - clause.from > 4 {
        return false;
    }
    let terms = turn.terms_between(clause.from, clause.to - 1);
    let content: Vec<String> = terms
        .iter()
        .filter(|t| !turn.terms[**t].is_noise() || turn.terms[**t].has_content())
        .map(|t| turn.span_of(&[*t]).of(turn.text).to_lowercase())
        .collect();
    if content.is_empty() {
        return false;
    }
    let hit = |label: &str| {
        // "over the intake" is one phrase of ours.
        content.iter().flat_map(|phrase| phrase.split(' ')).all(|w| {
            label.to_lowercase().split(' ').any(|l| l == w || super::words::folded(l) == super::words::folded(w))
        })
    };
    let fits: Vec<&(String, Vec<Statement>)> = pending.readings.iter().filter(|(label, _)| hit(label)).collect();
    let [(_, statements)] = fits[..] else { return false };
    let unit_only = terms.iter().all(|t| turn.terms[*t].units().next().is_some() || turn.terms[*t].is_noise());
    let units: Vec<&'static Unit> = terms.iter().flat_map(|t| turn.terms[*t].units()).collect();
    // A unit alone is the unit of all that waits for one, and of all tanks whose unit was a guess.
    if unit_only && by_unit(turn, &units, &terms) {
        super::unit_told::other_tanks_in(turn, clause, &units, &terms);
        return true;
    }
    let statements = if unit_only { hinted(statements) } else { statements.clone() };
    adopt(turn, &statements, &terms);
    true
}

/// Takes a reading that was offered.
pub fn adopt(turn: &mut Turn, statements: &[Statement], terms: &[usize]) {
    for statement in statements {
        let mut found =
            Found::new(statement.subject.clone(), statement.says.clone(), terms.to_vec()).marked(statement.mark);
        found.replaces = turn.holds_other(&statement.subject, &statement.says);
        turn.state_fact(found);
    }
}

impl Turn<'_, '_> {
    /// Another value is held for the same attribute.
    pub fn holds_other(&self, of: &Subject, says: &Says) -> bool {
        let Says::Value { attribute, value, .. } = says else { return false };
        self.context.held.iter().any(|s| {
            super::state::same_thing(&s.subject, of)
                && matches!(&s.says, Says::Value { attribute: a, value: v, .. } if a == attribute && v != value)
        })
    }

    /// The terms that lie in a span of the text.
    pub fn terms_in(&self, span: crate::source::Span) -> Vec<usize> {
        (0..self.terms.len())
            .filter(|t| {
                let here = self.words[self.terms[*t].first].span;
                here.start >= span.start && here.end <= span.end
            })
            .collect()
    }

    /// "make it", "should be", not "well" or "actually", which only begin a line.
    fn corrects_outright(&self, item: usize) -> bool {
        let term = &self.terms[self.items[item].first];
        self.items[item].what == What::Term && term.is(Role::Correct) && !term.is(Role::Noise) && term.last > term.first
    }

    /// An ask-back has been answered: its words are free, later ones move up.
    pub fn unask(&mut self, index: usize) {
        for became in &mut self.became {
            match became {
                Some(Became::AskedBack(n)) if *n == index => *became = None,
                Some(Became::AskedBack(n)) if *n > index => *n -= 1,
                _ => {}
            }
        }
    }
}

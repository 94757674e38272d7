//! One measure in two units: asked for ("900 l/h in gallons?") or said ("1200 litres an hour, that's 290 gallons"). In: a
//! clause. Out: a conversion to answer or to check. Computes nothing.

use super::clause::Clause;
use super::items::What;
use super::lexicon::{Sense, key_of};
use super::measure::Measure;
use super::reading::{Ask, Became, Conversion, Converted, Form};
use super::turn::Turn;
use crate::knowledge::language::Role;
use crate::units::{Amount, Dimension, Unit, unit};

/// The topic of a question for another unit.
pub const TOPIC: &str = "conversion";
/// Between a measure and the same in another unit stand at most so many items.
const FARTHEST: usize = 5;

/// Reads a conversion in the clause, and what stands around it; true when nothing of it is left.
pub fn read(turn: &mut Turn, clause: &Clause) -> bool {
    asked(turn, clause) || told(turn, clause)
}

/// "900 l/h in gallons?", "what's 82 F in C", "how many litres is 55 gallons".
fn asked(turn: &mut Turn, clause: &Clause) -> bool {
    let (mut measure, mut unit_at, mut leads, mut asks) = (None, None, false, clause.end == Some('?'));
    for item in clause.from..clause.to {
        match &turn.items[item].what {
            What::Amount(m) if measure.is_none() => measure = Some(m.clone()),
            What::Mark(_) | What::Spoken(_) | What::Uncounted => {}
            What::Term => {
                let term = &turn.terms[turn.items[item].first];
                // "how many litres is 55 gallons": the unit asked for stands first.
                leads |= measure.is_none() && unit_at.is_some();
                let preposition = term.is(Role::In) || term.is(Role::To);
                asks |= turn.is_part_of_ask(turn.items[item].first);
                leads |=
                    preposition || term.senses.iter().any(|s| matches!(s, Sense::Ask(Form::HowMuch | Form::HowMany)));
                if !preposition && term.units().next().is_some() && unit_at.is_none() {
                    unit_at = Some(item);
                } else if term.has_content() && !preposition && !(item == clause.from && term.last > term.first) {
                    return false;
                }
            }
            _ => return false,
        }
    }
    let Some(measure) = measure.filter(|_| asks) else { return false };
    let behind = unit_at.filter(|_| leads).map(|at| turn.terms[turn.items[at].first].units().collect());
    let units: Vec<&'static Unit> = behind.unwrap_or_else(|| units_of_opener(turn, clause));
    let Some((from, into)) = units.into_iter().find_map(|into| pair(&measure, into)) else { return false };
    let terms = turn.terms_between(clause.from, clause.to - 1);
    let span = turn.span_of(&terms);
    turn.claim(&terms, Became::Ask(turn.reading.asks.len()));
    let topic = TOPIC.to_string();
    turn.reading.asks.push(Ask { span, form: Form::HowMuch, topic, about: vec![], suppose: vec![], named: vec![] });
    turn.reading.conversions.push(Conversion { span, from, says: Converted::Asked(into) });
    true
}

/// "how many litres is": the unit that an opener of several words holds.
fn units_of_opener(turn: &Turn, clause: &Clause) -> Vec<&'static Unit> {
    let first = &turn.terms[turn.items[clause.from].first];
    // "the qt is 60 litres": a tank, no quart.
    if first.has_content() {
        return Vec::new();
    }
    let words = &turn.words[first.first..=first.last];
    let senses = words.iter().filter_map(|w| turn.listener.lexicon.entry(&key_of(&w.text))).flat_map(|e| &e.senses);
    senses.filter_map(|s| if let Sense::Unit(unit) = s { Some(*unit) } else { None }).collect()
}

/// "1200 litres an hour, that's 290 gallons", "75 gallon (284 l)", "1200 lph = 317 gph".
fn told(turn: &mut Turn, clause: &Clause) -> bool {
    let found = (clause.from..clause.to).find_map(|second| {
        let What::Amount(measure) = &turn.items[second].what else { return None };
        let nearest = second.saturating_sub(FARTHEST);
        let first = (nearest..second).rev().find(|i| !matches!(turn.items[*i].what, What::Term | What::Mark(_)))?;
        let What::Amount(before) = &turn.items[first].what else { return None };
        if !equates(turn, first, second) {
            return None;
        }
        let (from, said) = measure.units.iter().find_map(|unit| pair(before, unit))?;
        let told = Amount { unit: said, ..measure.amount(said) };
        Some((first, second, from, told))
    });
    let Some((first, second, from, told)) = found else { return false };
    if first >= clause.from {
        turn.clause(&Clause { to: first + 1, end: None, ..*clause });
    }
    let terms = turn.terms_between(first + 1, second);
    let span = turn.span_of(&terms);
    let statement = turn.reading.statements.len().checked_sub(1);
    turn.claim(&terms, statement.map_or(Became::Noise, Became::Statement));
    turn.reading.conversions.push(Conversion { span, from, says: Converted::Told(told) });
    if second + 1 < clause.to {
        turn.clause(&Clause { from: second + 1, starts: false, joint: None, line: false, ..*clause });
    }
    true
}

/// Whether what stands between two measures says that they are the same: a word or sign that does, and nothing else of
/// weight.
fn equates(turn: &Turn, first: usize, second: usize) -> bool {
    let words = turn.terms[turn.items[first].last].last + 1..turn.terms[turn.items[second].first].first;
    let between: Vec<String> = turn.words[words].iter().map(|w| w.span.of(turn.text).to_lowercase()).collect();
    let text = between.join(" ");
    let equating = &turn.listener.figures.equating;
    let Some(found) = equating.iter().filter(|e| contains_words(&text, e)).max_by_key(|e| e.len()) else {
        return false;
    };
    let rest = text.replacen(found.as_str(), " ", 1);
    rest.split_whitespace().all(|w| [",", "(", "so", "and", "or", "about", "roughly", "-"].contains(&w))
}

fn contains_words(text: &str, words: &str) -> bool {
    format!(" {text} ").contains(&format!(" {words} "))
}

/// The measure in a unit of its own, and the other unit; gallons beside a flow are gallons an hour.
fn pair(measure: &Measure, other: &'static Unit) -> Option<(Amount, &'static Unit)> {
    measure.value()?;
    if measure.refused {
        return None;
    }
    measure.units.iter().find_map(|own| {
        let flows = own.dimension == Dimension::FLOW && other.dimension == Dimension::VOLUME;
        let other = if flows { unit::by_name(&format!("{}/h", other.name))? } else { other };
        (own.dimension == other.dimension && own.name != other.name && own.dimension != Dimension::NUMBER)
            .then(|| (measure.amount(own), other))
    })
}

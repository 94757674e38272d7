//! Changes that no caller could notice, proven: wherever the rule holds, it holds after the change, and the other way
//! round; or a limit lies between the same two entries of the tables. In: a rule's conditions and the changed ones.
//! Out: yes, if that is certain.

use super::change::Change;
use crate::archive::trial::Trial;
use crate::knowledge::facts::Value;
use crate::knowledge::table::Table;
use crate::rulebook::code::Code;
use crate::rulebook::logic::formula::{Formulas, constant};
use crate::rulebook::logic::solve::Solver;
use crate::rulebook::logic::{Bindings, Formula, Ground, Interval};
use std::rc::Rc;

/// Whether it is certain that the rule holds in exactly the same cases after the change.
pub fn is_equivalent(trial: &Trial, change: &Change) -> bool {
    let Some(changed) = &change.conditions else { return false };
    if is_between_the_same_entries(trial, change) {
        return true;
    }
    let book = trial.book;
    let rule = &book.rules.rules[change.rule as usize];
    let ground = Ground::new(&book.knowledge, &book.schema, &book.rules, vec![false; book.rules.figures.len()]);
    let mut formulas = Formulas::new(&ground);
    let bindings = rule.for_thing.map_or(Bindings::default(), |t| Bindings::default().with(t, 0));
    let before: Vec<Rc<Formula>> = rule.conditions.iter().map(|c| formulas.of(&c.code, true, &bindings)).collect();
    let after: Vec<Rc<Formula>> = changed.iter().map(|c| formulas.of(&c.code, true, &bindings)).collect();
    let mut apart = |holds: &[Rc<Formula>], fails: &[Rc<Formula>]| {
        let fails = Rc::new(Formula::Any(fails.iter().map(|f| denied(f)).collect()));
        let both: Vec<Rc<Formula>> = holds.iter().cloned().chain([fails]).collect();
        Solver::new(&mut formulas, false).possible(&both)
    };
    !apart(&before, &after) && !apart(&after, &before)
}

/// Whether the limit of a fact that only tables tell is moved past no value of theirs.
fn is_between_the_same_entries(trial: &Trial, change: &Change) -> bool {
    let Some((Code::Compare(how, value, limit), Code::Compare(after, _, moved))) =
        change.at.as_ref().map(|at| (&at.compared, &at.changed))
    else {
        return false;
    };
    let (Code::Fact(id), Some(limit), Some(moved)) = (value.as_ref(), constant(limit), constant(moved)) else {
        return false;
    };
    let (book, attribute) = (trial.book, trial.book.schema.of(*id));
    let thing = &book.schema.thing_of(attribute.thing).name;
    let declared = book.knowledge.vocabulary.attribute(thing, &attribute.name);
    if !declared.is_some_and(|a| a.is_looked_up() && a.words.is_empty()) {
        return false;
    }
    let tables = [Table::Stock, Table::Plant, Table::Medium, Table::Filter, Table::Treatment];
    let entries = tables.into_iter().flat_map(|t| book.knowledge.names(t).into_iter().map(move |name| (t, name)));
    let told = entries.filter_map(|(table, name)| book.knowledge.fact(table, name, &attribute.name));
    told.filter_map(|fact| match fact.value {
        Value::Amount(amount) => Some(amount.base()),
        Value::Kinds(_) => None,
    })
    // The engine takes the likely value; of an open end, whatever is known.
    .flat_map(|spread| {
        [spread.low, spread.likely, spread.high]
            .into_iter()
            .filter(move |v| spread.likely.is_none() || *v == spread.likely)
    })
    .flatten()
    .all(|told| how.holds(told, limit) == after.holds(told, moved))
}

/// The formula of the cases in which another does not hold: what is not known counts as not holding.
fn denied(formula: &Formula) -> Rc<Formula> {
    let each = |parts: &[Rc<Formula>]| parts.iter().map(|p| denied(p)).collect();
    Rc::new(match formula {
        Formula::Always => Formula::Never,
        Formula::Never => Formula::Always,
        Formula::Within(term, interval) => {
            Formula::Any(interval.outside().into_iter().map(|i| Rc::new(Formula::Within(*term, i))).collect())
        }
        Formula::Other(term, number) => Formula::Within(*term, Interval::exactly(*number)),
        Formula::Kind(term, symbol, is) => Formula::Kind(*term, *symbol, !is),
        Formula::Holds(term, is) => Formula::Holds(*term, !is),
        Formula::All(parts) => Formula::Any(each(parts)),
        Formula::Any(parts) => Formula::All(each(parts)),
    })
}

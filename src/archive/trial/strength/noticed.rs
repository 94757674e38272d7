//! Whether a call notices a change of a rule. In: a call that was run, a change. Out: who would speak. Knows no search.

use super::change::Change;
use crate::archive::trial::run::Call;
use crate::archive::trial::{Example, Trial};
use crate::engine::finding::{Findings, findings};
use crate::engine::{Engine, State, Truth, World, world::Bound};
use crate::rulebook::book::Condition;
use crate::rulebook::code::Read;

/// Who speaks in each tank of a call after a change; nothing when the rule comes out the same.
pub fn after(trial: &Trial, call: &Call, change: &Change) -> Option<Vec<Findings>> {
    let book = &trial.book.rules;
    let engine = Engine { schema: &trial.book.schema, book };
    let states: Vec<Option<State>> =
        call.tanks.iter().map(|(world, state, _)| changed(&engine, world, state, change)).collect();
    if states.iter().all(Option::is_none) {
        return None;
    }
    let rule = &book.rules[change.rule as usize];
    let reads: Vec<Read> = rule.concludes.iter().map(|c| Read::Conclusion(*c)).collect();
    let each = states.into_iter().zip(&call.tanks).map(|(changed, (world, _, before))| match changed {
        None => before.clone(),
        Some(mut state) => {
            engine.update(world, &mut state, &reads);
            findings(book, &state)
        }
    });
    Some(each.collect())
}

/// The state with the rule's truths as they would be, if they differ.
fn changed(engine: &Engine, world: &World, state: &State, change: &Change) -> Option<State> {
    let mut out: Option<State> = None;
    let for_thing = engine.book.rules[change.rule as usize].for_thing;
    for instance in 0..for_thing.map_or(1, |t| world.count(t)) {
        let mut bound = Bound::to(for_thing, instance);
        let truth = match &change.conditions {
            Some(conditions) => truth_of(engine, world, state, conditions, &mut bound),
            None => Truth::False,
        };
        if truth != state.rule(change.rule, instance) {
            out.get_or_insert_with(|| state.clone()).set_rule(change.rule, instance, truth);
        }
    }
    out
}

fn truth_of(engine: &Engine, world: &World, state: &State, conditions: &[Condition], bound: &mut Bound) -> Truth {
    let evaluation = engine.evaluation(world, state);
    let mut all = Truth::True;
    for condition in conditions {
        match evaluation.truth(&condition.code, bound) {
            Truth::False => return Truth::False,
            Truth::Unknown => all = Truth::Unknown,
            Truth::True => {}
        }
    }
    all
}

/// Whether a rule speaks in the call as the book is, if it would not do the same after the change.
pub fn turns(trial: &Trial, call: &Call, change: &Change, rule: u16) -> Option<bool> {
    let now = call.speaks(rule);
    let after = after(trial, call, change)?;
    (after.iter().any(|f| f.speaks(rule)) != now).then_some(now)
}

/// The examples that notice a change, one by one.
pub fn noticing<'t>(trial: &'t Trial, change: &'t Change) -> impl Iterator<Item = usize> + 't {
    trial.calls.iter().enumerate().flat_map(move |(c, call)| {
        let after = after(trial, call, change);
        let own = after.map_or(vec![], |after| {
            let turned = |e: &usize| {
                let Example { rule, speaks, .. } = trial.examples[*e];
                call.speaks(rule) == speaks && after.iter().any(|f| f.speaks(rule)) != speaks
            };
            trial.of_call[c].iter().copied().filter(turned).collect()
        });
        own.into_iter()
    })
}

/// Whether a saved call would be answered otherwise.
pub fn is_seen_in(trial: &Trial, saved: &[Call], change: &Change) -> bool {
    saved.iter().any(|call| {
        after(trial, call, change)
            .is_some_and(|after| after.iter().zip(&call.tanks).any(|(a, (_, _, b))| a.speaking != b.speaking))
    })
}

//! Units told apart from their figures: "litres, sorry", "litres, all of them", "C not F". In: a clause that is a unit, what is
//! held. Out: the same numbers in that unit. Knows no number.

use super::clause::Clause;
use super::correct::{Part, amount_of, attribute_of};
use super::found::Found;
use super::items::What;
use super::reading::{How, Said, Says, Statement};
use super::turn::Turn;
use crate::knowledge::language::Role;
use crate::units::{Amount, Dimension, Unit};

/// "litres, sorry", "months", "C no F": the same number in another unit.
pub fn unit_alone(turn: &mut Turn, clause: &Clause, parts: &[Part]) -> bool {
    let last = parts.iter().rev().find_map(|p| match p {
        Part::Unit(item, units) => Some((*item, units)),
        _ => None,
    });
    let Some((item, units)) = last else { return false };
    if parts.iter().any(|p| matches!(p, Part::Figure(..) | Part::Label(..))) || clause.end == Some('?') {
        return false;
    }
    let terms: Vec<usize> = turn.terms_between(clause.from, clause.to - 1);
    // Waiting for just this word.
    if super::answer::by_unit(turn, units, &terms) {
        other_tanks_in(turn, clause, units, &terms);
        return true;
    }
    let fits = |s: &Statement| match &s.says {
        Says::Value { value: Said::Amount(a), .. } => units.iter().any(|u| u.dimension == a.unit.dimension),
        Says::Value { value: Said::Time { amount, .. }, .. } => {
            units.iter().any(|u| u.dimension == amount.unit.dimension)
        }
        _ => false,
    };
    let Some(held) = turn.latest(fits) else { return false };
    other_tanks_in(turn, clause, units, &terms);
    let told = |s: &Statement| {
        let in_unit = |o: &Statement| amount_of(o).is_some_and(|a| units.iter().any(|u| u.name == a.unit.name));
        let same = |o: &&Statement| o.subject == s.subject && attribute_of(o) == attribute_of(s);
        turn.reading.statements.iter().filter(same).any(in_unit)
    };
    let mut targets = turn.same_breath(&held);
    targets.retain(|s| !(s.subject.thing == "tank" && attribute_of(s) == Some("nominal") && told(s)));
    for held in targets {
        let Says::Value { attribute, value, .. } = held.says.clone() else { continue };
        let new = |a: Amount| {
            let unit = units.iter().find(|u| u.dimension == a.unit.dimension)?;
            Some((a.unit.name == unit.name, a.in_unit(unit)))
        };
        let (is_same, value) = match value {
            Said::Amount(a) => match new(a) {
                Some((same, a)) => (same, Said::Amount(a)),
                None => continue,
            },
            Said::Time { relation, amount } => match new(amount) {
                Some((same, amount)) => (same, Said::Time { relation, amount }),
                None => continue,
            },
            other => (true, other),
        };
        let claimed = turn.terms_between(item, item);
        if is_same && held.mark.is_some() {
            let says = Says::Value { attribute, how: How::Set, value };
            turn.state_fact(Found::new(held.subject, says, claimed));
        } else if is_same {
            turn.confirm(&terms);
        } else {
            turn.replace(held.subject, attribute, value, claimed);
        }
    }
    true
}

/// "litres, all of them": the sizes of all tanks whose unit was a guess, or of all that there are.
pub fn other_tanks_in(turn: &mut Turn, clause: &Clause, units: &[&'static Unit], terms: &[usize]) {
    let Some(unit) = units.iter().find(|u| u.dimension == Dimension::VOLUME).copied() else { return };
    let all = (clause.from..turn.items.len())
        .take_while(|i| !matches!(turn.items[*i].what, What::Mark('.' | '!' | '?' | '\n')))
        .any(|i| turn.has_role(i, Role::All) || turn.has_role(i, Role::Both));
    let numbers: Vec<u16> = turn.state.tanks.iter().map(|t| t.number).collect();
    for number in numbers {
        let size = |s: &Statement| {
            s.subject.thing == "tank" && s.subject.number == number && attribute_of(s) == Some("nominal")
        };
        let Some(held) = turn.latest(size) else { continue };
        let (Some(amount), true) = (amount_of(&held), all || held.mark == Some(super::reading::Mark::Hint)) else {
            continue;
        };
        if amount.unit.name == unit.name {
            continue;
        }
        let Says::Value { attribute, .. } = held.says else { continue };
        turn.replace(held.subject, attribute, Said::Amount(amount.in_unit(unit)), terms.to_vec());
    }
}

impl Turn<'_, '_> {
    /// The statements that share a figure's breath: three sizes are told together.
    fn same_breath(&self, of: &Statement) -> Vec<Statement> {
        let sizes = ["length", "width", "height"];
        if attribute_of(of).is_some_and(|a| sizes.contains(&a)) && of.subject.thing == "tank" {
            let all: Vec<Statement> = sizes
                .iter()
                .filter_map(|a| self.latest(|s| s.subject == of.subject && attribute_of(s) == Some(a)))
                .collect();
            if all.len() == 3 {
                return all;
            }
        }
        vec![of.clone()]
    }
}

//! Statements told of the wrong tank: "it's the 120 with the ammonia", "that was the 90", "it's the 200 that's cloudy". In: a
//! clause that names a tank by its size, what is held. Out: the statement on the tank meant. Knows no figure.

use super::clause::Clause;
use super::correct::{amount_of, attribute_of};
use super::found::Found;
use super::items::What;
use super::lexicon::Sense;
use super::name;
use super::reading::{How, Said, Says, Statement, Subject};
use super::turn::Turn;
use crate::knowledge::language::Role;

/// Reads a clause that says of which tank something told before is; true when nothing of it is left.
pub fn read(turn: &mut Turn, clause: &Clause) -> bool {
    // "with the ammonia", behind "it's the 120".
    if clause.joint == Some(Role::With)
        && let Some(tank) = turn.meant.take()
    {
        return move_named(turn, clause, tank);
    }
    let Some((item, tank)) = turn.tank_named(clause) else { return false };
    let it = (clause.from..item).any(|i| turn.has_role(i, Role::It));
    let was = (clause.from..clause.to).any(|i| turn.has_role(i, Role::Was) || turn.has_role(i, Role::Correct));
    let others = (clause.from..clause.to).any(|i| i != item && turn.is_other_content(i));
    let points = it && (clause.from..clause.to).any(|i| turn.has_role(i, Role::Be));
    if !others {
        let with =
            turn.items.get(clause.to).is_some_and(|i| i.what == What::Term && turn.terms[i.first].is(Role::With));
        if with && (points || turn.correcting) {
            turn.meant = Some(tank);
            turn.state.tank = tank;
            let mut found = Found::new(of_tank(tank), Says::Present, turn.terms_between(clause.from, clause.to - 1));
            found.bare = true;
            turn.state_fact(found);
            return true;
        }
        return (was || turn.correcting) && !turn.denies_before(item) && move_last(turn, clause, tank);
    }
    // "it's the 100 that has the ammonia", "the ammonia was in the 100".
    let pointed = points || was || turn.correcting;
    pointed && (move_named(turn, clause, tank) || take_look(turn, clause, tank))
}

fn of_tank(number: u16) -> Subject {
    Subject { number, tank: number, ..super::found::subject("tank", None) }
}

/// Readings named without a figure: the value goes over from the only other tank that has one.
fn move_named(turn: &mut Turn, clause: &Clause, tank: u16) -> bool {
    let figure = |i: usize| matches!(&turn.items[i].what, What::Amount(m) if !turn.names_tank(i) && !m.article);
    if (clause.from..clause.to).any(figure) {
        return false;
    }
    let labels: Vec<(usize, String)> = (clause.from..clause.to)
        .filter(|i| turn.items[*i].what == What::Term)
        .filter_map(|i| {
            let (_, attribute) = turn.terms[turn.items[i].first].labels().find(|(t, _)| *t == name::READING)?;
            Some((i, turn.name(attribute).to_string()))
        })
        .collect();
    let [(_, attribute)] = labels.as_slice() else { return false };
    let held: Vec<Statement> = turn
        .context
        .held
        .iter()
        .filter(|s| s.subject.thing == "reading" && attribute_of(s) == Some(attribute))
        .filter(|s| s.subject.tank != tank)
        .cloned()
        .collect();
    let [held] = held.as_slice() else { return false };
    go_over(turn, clause, held, Subject { tank, ..held.subject.clone() });
    true
}

/// "I meant the 90": what was told last.
fn move_last(turn: &mut Turn, clause: &Clause, tank: u16) -> bool {
    let of_a_tank = |s: &Statement| matches!(s.subject.thing.as_str(), "reading" | "change") && amount_of(s).is_some();
    let look = |s: &Statement| s.subject.thing == "tank" && attribute_of(s) == Some("looks");
    let Some(held) = turn.latest(|s| (of_a_tank(s) || look(s)) && !matches!(s.says, Says::Present)) else {
        return false;
    };
    if held.subject.tank == tank {
        return false;
    }
    let number = if held.subject.thing == "tank" { tank } else { held.subject.number };
    let to = Subject { number, tank, ..held.subject.clone() };
    go_over(turn, clause, &held, to);
    true
}

fn go_over(turn: &mut Turn, clause: &Clause, held: &Statement, to: Subject) {
    let Says::Value { attribute, value, .. } = held.says.clone() else { return };
    let terms = turn.terms_between(clause.from, clause.to - 1);
    turn.state.tank = to.tank;
    turn.correcting = true;
    turn.state_fact(Found::new(
        held.subject.clone(),
        Says::DroppedValue { attribute: attribute.clone() },
        terms.clone(),
    ));
    let mut found = Found::new(to, Says::Value { attribute, how: How::Set, value }, terms).marked(held.mark);
    found.replaces = true;
    turn.state_fact(found);
}

/// "it's the 200 that's cloudy": the other one is not.
fn take_look(turn: &mut Turn, clause: &Clause, tank: u16) -> bool {
    let (found, _) = turn.probe(*clause);
    let look = |f: &&Found| f.subject.thing == "tank" && f.subject.number == tank && f.attribute() == Some("looks");
    let Some(Says::Value { value: Said::Word(word), .. }) = found.iter().find(look).map(|f| f.says.clone()) else {
        return false;
    };
    let other = turn.latest(|s| {
        s.subject.thing == "tank"
            && s.subject.number != tank
            && matches!(&s.says, Says::Value { attribute, value: Said::Word(w), .. } if attribute == "looks" && *w == word)
    });
    let Some(other) = other else { return false };
    let terms = turn.terms_between(clause.from, clause.to - 1);
    turn.state_fact(Found::new(other.subject, Says::DroppedValue { attribute: "looks".into() }, terms));
    // What the clause says is read as it stands.
    false
}

impl Turn<'_, '_> {
    /// The tank that the clause names by its size, and where: "the 120".
    fn tank_named(&self, clause: &Clause) -> Option<(usize, u16)> {
        let named = (clause.from..clause.to).filter(|i| self.names_tank(*i) && !self.denies_before(*i));
        let mut tanks = named.filter_map(|i| match &self.items[i].what {
            What::Amount(m) => Some((i, self.state.tank_of_size(m.value()?, None)?)),
            _ => None,
        });
        let first = tanks.next()?;
        tanks.next().is_none().then_some(first)
    }

    /// "the 120", of a tank of that size.
    pub fn names_tank(&self, item: usize) -> bool {
        let What::Amount(measure) = &self.items[item].what else { return false };
        let definite = item > 0 && self.has_role(item - 1, Role::Definite);
        definite && measure.bare && measure.value().is_some_and(|v| self.state.tank_of_size(v, None).is_some())
    }

    /// "not the 60".
    fn denies_before(&self, item: usize) -> bool {
        item > 1 && (self.has_role(item - 2, Role::Not) || self.has_role(item - 2, Role::No))
    }

    /// A word that says something, or nothing that we know.
    fn is_other_content(&self, item: usize) -> bool {
        match self.items[item].what {
            What::Term => {
                let term = &self.terms[self.items[item].first];
                let said = |s: &Sense| matches!(s, Sense::Act(_));
                term.senses.is_empty()
                    || term.has_content()
                        && !term.is(Role::Noise)
                        && !term.is(Role::Correct)
                        && !term.senses.iter().any(said)
            }
            What::Mark(_) | What::Spoken(_) => false,
            _ => true,
        }
    }
}

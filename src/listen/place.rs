//! Places: which fish and which filter belong to which tank, when there are several. In: the statements of a turn. Out:
//! statements `in` and `serves`. Knows no words.

use super::found::{Doubt, Found};
use super::reading::{Doubtful, How, Said, Says, Subject};
use super::state::same_thing;
use super::turn::Turn;

/// Says for every filter and group of fish of the turn in which tank it is, once two tanks are known.
pub fn tell(turn: &mut Turn) {
    let mut numbers: Vec<u16> = turn.state.tanks.iter().map(|t| t.number).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let spoken =
        turn.reading.statements.iter().any(|s| s.subject.thing == "tank" && s.subject.number > 1) || turn.state.placed;
    if numbers.len() < 2 || !spoken {
        return;
    }
    let mut placed: Vec<Subject> = Vec::new();
    let mut unplaced: Option<Subject> = None;
    for statement in turn.reading.statements.clone() {
        let of = &statement.subject;
        let attribute = match of.thing.as_str() {
            "stock" => "in",
            "filter" => "serves",
            _ => continue,
        };
        let gone = matches!(statement.says, Says::Dropped | Says::Absent);
        if !gone && !turn.state.places.iter().any(|p| same_thing(p, of)) {
            let told =
                turn.reading.statements.iter().filter(|s| s.subject.thing == "tank" && s.subject.number > 1).count()
                    > 0
                    && of.thing == "stock"
                    && !turn.context.held.iter().any(|s| same_thing(&s.subject, of));
            unplaced = unplaced.or(told.then(|| of.clone()));
            continue;
        }
        if gone || placed.iter().any(|p| same_thing(p, of)) {
            continue;
        }
        placed.push(of.clone());
        let tank = Subject { number: of.tank, tank: of.tank, ..super::found::subject("tank", None) };
        let known = turn.context.held.iter().find_map(|s| match &s.says {
            Says::Value { attribute: a, value: Said::Thing(t), .. } if a == attribute && same_thing(&s.subject, of) => {
                Some(t)
            }
            _ => None,
        });
        match known {
            Some(t) if t.number == tank.number => continue,
            Some(_) if !turn.state.moved && !turn.correcting => continue,
            _ => {}
        }
        let says = Says::Value { attribute: attribute.into(), how: How::Set, value: Said::Thing(tank) };
        let mut found = Found::new(of.clone(), says, Vec::new());
        found.replaces = known.is_some();
        turn.state_fact(found);
    }
    if let Some(of) = unplaced {
        let word = of.stage.or(of.kind).unwrap_or_else(|| "fish".to_string());
        turn.doubt(Doubt::new(Doubtful::Which, format!("Which tank are the {word} in?"), Vec::new()));
    }
}

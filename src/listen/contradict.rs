//! Contradictions inside one turn: sizes that do not hold the volume said. In: the statements of the turn. Out: the
//! volume of the box, and what to ask. Settles nothing.

use super::correct::amount_of;
use super::found::{Doubt, Found};
use super::reading::{Became, Doubtful, How, Mark, Said, Says, Wanted};
use super::state::same_thing;
use super::turn::Turn;
use crate::units::{Amount, unit};

/// Beyond this ratio a box and its volume do not belong together: glass and rim take less (settled choice).
const FAR: f64 = 1.35;

/// Compares the three sizes of a tank with its volume.
pub fn box_and_volume(turn: &mut Turn) {
    let of = |turn: &Turn, number: u16, attribute: &str| {
        turn.latest(|s| {
            s.subject.thing == "tank"
                && s.subject.number == number
                && matches!(&s.says, Says::Value { attribute: a, .. } if a == attribute)
        })
        .and_then(|s| amount_of(&s))
        .and_then(|a| a.base().likely.map(|v| (v, a)))
    };
    let number = turn.state.tank;
    let fresh = turn.reading.statements.iter().any(|s| {
        s.subject.thing == "tank"
            && matches!(&s.says, Says::Value { attribute, .. } if matches!(attribute.as_str(), "nominal" | "length"))
    });
    if !fresh {
        return;
    }
    let (Some((l, _)), Some((w, _)), Some((h, _)), Some((volume, said))) = (
        of(turn, number, "length"),
        of(turn, number, "width"),
        of(turn, number, "height"),
        of(turn, number, "nominal"),
    ) else {
        return;
    };
    let holds = l * w * h;
    let ratio = volume / holds;
    if (1.0 / FAR..=FAR).contains(&ratio) {
        return;
    }
    let Some(litre) = unit::by_name("L") else { return };
    let amount = Amount::exact((holds * 1000.0).round(), litre);
    let tank = super::reading::Subject { number, tank: number, ..super::found::subject("tank", None) };
    let says = Says::Value { attribute: "nominal".into(), how: How::Set, value: Said::Amount(amount) };
    turn.state_fact(Found::new(tank, says, Vec::new()).marked(Some(Mark::Derived)));
    let figure = said.likely.map(super::value::plain_number).unwrap_or_default();
    let ask = format!(
        "A box of that size holds about {} litres. Which is right, the sizes or the {figure} {}?",
        (holds * 1000.0).round(),
        said.unit.shown
    );
    turn.doubt(Doubt::new(Doubtful::Ambiguous, ask, Vec::new()));
}

/// Fish died, or were added, beside a count: what is left is not worked out but asked.
pub fn deaths(turn: &mut Turn) {
    let died = turn.reading.statements.iter().any(|s| {
        s.subject.thing == "event"
            && s.subject.kind.as_deref() == Some(turn.name(super::name::FISH_DIED))
            && matches!(&s.says, Says::Value { attribute, .. } if attribute == "count")
    });
    // "25 left": told in the same breath.
    let left = turn.terms.iter().any(|t| t.is(crate::knowledge::language::Role::Left))
        && turn.reading.statements.iter().any(|s| {
            s.subject.thing == "stock"
                && matches!(&s.says, Says::Value { attribute, value: Said::Amount(_), .. } if attribute == "count")
        });
    if !died || left {
        return;
    }
    // "lost two, the other eighteen are fine": said already.
    if turn.state.left_told {
        return;
    }
    let counted = turn.latest(|s| {
        s.subject.thing == "stock"
            && matches!(&s.says, Says::Value { attribute, value: Said::Amount(_), .. } if attribute == "count")
    });
    let group = counted.as_ref().map(|s| s.subject.clone()).or_else(|| turn.state.stock.clone());
    let wants = group.map(|of| Wanted::of(of, "count"));
    let ask = match counted {
        Some(s) => format!("So how many {} are there now?", s.subject.kind.unwrap_or_else(|| "fish".to_string())),
        None => "How many of which fish are left?".to_string(),
    };
    turn.doubt(Doubt::new(Doubtful::NoFigure, ask, Vec::new()).wanting(wants));
}

/// "no fish with fry": only fry, or none at all?
pub fn fry_without_fish(turn: &mut Turn) {
    let bare = |s: &super::reading::Statement, stage: bool| {
        s.subject.thing == "stock" && s.subject.kind.is_none() && s.subject.stage.is_some() == stage
    };
    let none = turn.reading.statements.iter().any(|s| bare(s, false) && s.says == Says::Absent);
    let fry = turn.reading.statements.iter().find(|s| bare(s, true) && s.says == Says::Present).cloned();
    let joined = turn.terms.iter().any(|t| t.is(crate::knowledge::language::Role::With));
    let (Some(fry), true) = (fry, none && joined) else { return };
    let gone = super::reading::Statement { says: Says::Absent, ..fry.clone() };
    let readings = vec![("only fry".to_string(), vec![fry]), ("no fry".to_string(), vec![gone])];
    let ask = "Only fry in the tank, or no fry at all?";
    turn.doubt(Doubt { readings, ..Doubt::new(Doubtful::Taken, ask, Vec::new()) });
}

/// The same fish said to be there and not to be there in one breath: neither is taken.
pub fn there_and_not(turn: &mut Turn) {
    let of = turn.reading.statements.iter().find(|s| {
        s.says == Says::Absent
            && turn.reading.statements.iter().any(|o| o.says == Says::Present && same_thing(&o.subject, &s.subject))
    });
    let Some(of) = of.map(|s| s.subject.clone()) else { return };
    let word = of.stage.clone().or(of.kind.clone()).unwrap_or_else(|| of.thing.clone());
    let mut first = true;
    turn.reading.statements.iter_mut().filter(|s| same_thing(&s.subject, &of)).for_each(|s| {
        if matches!(s.says, Says::Present | Says::Absent) {
            s.says = if first { Says::Unsure } else { Says::DroppedValue { attribute: String::new() } };
            first = false;
        }
    });
    turn.drop_blanks();
    turn.doubt(Doubt::new(Doubtful::Ambiguous, format!("Is there {word} in the tank, yes or no?"), Vec::new()));
}

/// "10 kg lava, kg price?": only the price is asked; nobody said that there is any.
pub fn price_of_what(turn: &mut Turn) {
    let [ask] = turn.reading.asks.as_slice() else { return };
    let bulk = |s: &super::reading::Statement| {
        s.subject.thing == "medium"
            && matches!(&s.says, Says::Value { attribute, .. } if matches!(attribute.as_str(), "mass" | "volume"))
    };
    if ask.topic != "cost" || turn.reading.statements.is_empty() || !turn.reading.statements.iter().all(bulk) {
        return;
    }
    let moved = std::mem::take(&mut turn.reading.statements);
    for became in &mut turn.became {
        if matches!(became, Some(Became::Statement(_))) {
            *became = Some(Became::Ask(0));
        }
    }
    turn.reading.asks[0].suppose.extend(moved);
}

//! What was taken though a second reading is near: a fish of a vague name, layers without an order, a second value. In: the
//! statements of a turn. Out: ask-backs with both readings, for when nothing more pressing is open. Changes no statement.

use super::correct::{amount_of, attribute_of};
use super::found::Doubt;
use super::lexicon::Sense;
use super::name;
use super::reading::{Became, Doubtful, How, Mark, Said, Says, Statement};
use super::state::same_thing;
use super::turn::Turn;
use super::words::folded;
use crate::source::words::or_list;

/// A nitrate under this, from a laboratory or a meter, is often nitrogen (mg/L; settled choice).
const LOW_NITRATE: f64 = 25.0;
/// A box that holds more is seldom a tank in a room (cubic metres; settled choice).
const LARGE_BOX: f64 = 1.5;

/// Asks about everything that was taken.
pub fn ask(turn: &mut Turn) {
    second_values(turn);
    counted_as(turn);
    large_box(turn);
    slips(turn);
    kinds_of_fish(turn);
    sump_besides(turn);
    layers(turn);
}

/// "it's 45 gal" after 55: both, and a short answer picks one.
fn second_values(turn: &mut Turn) {
    for (held, new) in std::mem::take(&mut turn.contradicted) {
        let Says::Value { attribute, .. } = &new.says else { continue };
        let names = &turn.listener.lexicon.names;
        let called = names
            .find(&new.subject.thing)
            .zip(names.find(attribute))
            .and_then(|(t, a)| turn.listener.attributes.get(t, a))
            .map_or(attribute.clone(), |a| a.called.to_string());
        let of = new.subject.stage.clone().or(new.subject.kind.clone()).map(|k| format!(", {k}")).unwrap_or_default();
        let (Some(former), Some(later)) = (shown(&held), shown(&new)) else { continue };
        let ask = match (amount_of(&held), amount_of(&new)) {
            (Some(a), Some(b)) if b.likely.is_none() && a.likely.is_some() => {
                format!("{called}{of}: {former} before, {later} now. Is that the most, or the least, there will be?")
            }
            _ => format!("{called}{of}: {former} before, {later} now. Which is right?"),
        };
        let settled = |s: Statement| match s.says {
            Says::Value { attribute, value, .. } => {
                Statement { says: Says::Value { attribute, how: How::Replace, value }, ..s }
            }
            _ => s,
        };
        let readings = vec![(later, vec![settled(new)]), (former, vec![settled(held)])];
        turn.doubt(Doubt { readings, ..Doubt::new(Doubtful::Taken, crate::source::words::capital(&ask), Vec::new()) });
    }
}

/// So many words of one line read as others: is it right?
const MANY_SLIPS: usize = 3;

/// "one guppy fried and eleven neon tetris in a fifty-five gal on tank".
fn slips(turn: &mut Turn) {
    let used = |t: &&super::term::Term| t.corrected && matches!(turn.became[t.first], Some(Became::Statement(_)));
    if turn.terms.iter().filter(used).count() < MANY_SLIPS {
        return;
    }
    let spelt = turn.reading.statements.iter().filter(|s| s.mark == Some(Mark::Spelling));
    let words: Vec<String> = spelt
        .filter_map(|s| {
            let of = s.subject.kind.clone().unwrap_or_else(|| s.subject.thing.clone());
            let stage = s.subject.stage.clone().map(|s| format!(" {s}")).unwrap_or_default();
            Some(format!("{} {of}{stage}", shown(s)?))
        })
        .collect();
    let ask = format!("I read: {}. Right?", words.join(", "));
    turn.doubt(Doubt::new(Doubtful::Taken, ask, Vec::new()));
}

/// A value as a short label: "45 gal", "hob".
fn shown(statement: &Statement) -> Option<String> {
    let Says::Value { value, .. } = &statement.says else { return None };
    match value {
        Said::Amount(a) => {
            let figure = a.likely.or(a.high).or(a.low).map(super::value::plain_number)?;
            let bound = match (a.low, a.likely, a.high) {
                (None, None, Some(_)) => "at most ",
                (Some(_), None, None) => "at least ",
                _ => "",
            };
            Some(format!("{bound}{figure} {}", a.unit.shown).trim().to_string())
        }
        Said::Word(word) => Some(word.clone()),
        _ => None,
    }
}

/// "nitrate 10 from the lab": the ion, or the nitrogen in it?
fn counted_as(turn: &mut Turn) {
    let method = |m: &str| {
        turn.reading.statements.iter().any(|s| {
            attribute_of(s) == Some("method") && matches!(&s.says, Says::Value { value: Said::Word(w), .. } if w == m)
        })
    };
    if !(method("lab") || method("meter"))
        || turn.reading.statements.iter().any(|s| attribute_of(s) == Some("nitrate as"))
    {
        return;
    }
    let low = |s: &&Statement| {
        s.subject.thing == "reading"
            && attribute_of(s) == Some("nitrate")
            && amount_of(s).and_then(|a| a.likely).is_some_and(|v| v > 0.0 && v < LOW_NITRATE)
    };
    let Some(reading) = turn.reading.statements.iter().find(low).cloned() else { return };
    let counted = |kind: &str| Statement {
        says: Says::Value { attribute: "nitrate as".into(), how: How::Set, value: Said::Word(kind.into()) },
        ..reading.clone()
    };
    let readings = vec![("NO3-N".to_string(), vec![counted("N")]), ("NO3".to_string(), vec![counted("ion")])];
    let ask = "Does the slip or the meter say nitrate (NO3), or nitrate nitrogen (NO3-N)?";
    turn.doubt(Doubt { readings, ..Doubt::new(Doubtful::Taken, ask, Vec::new()) });
}

/// Sizes whose unit came later or was guessed, of a box that no room holds.
fn large_box(turn: &mut Turn) {
    let fresh = |a: &str| {
        turn.reading
            .statements
            .iter()
            .find(|s| s.subject.thing == "tank" && attribute_of(s) == Some(a) && s.mark.is_some())
    };
    let size = |a: &str| fresh(a).and_then(amount_of).and_then(|a| a.base().likely);
    let (Some(l), Some(w), Some(h)) = (size("length"), size("width"), size("height")) else { return };
    let pond = turn.state.tanks.iter().any(|t| t.kind.as_deref() == Some("pond"));
    if l * w * h < LARGE_BOX || pond {
        return;
    }
    let litres = (l * w * h / 0.001 / 100.0).round() * 100.0;
    let unit = fresh("length").and_then(amount_of).map_or("", |a| a.unit.shown);
    let ask = format!("In {unit} that is about {litres} litres: are you sure?");
    turn.doubt(Doubt::new(Doubtful::Taken, ask, Vec::new()));
}

/// A name that fish of very different sizes go by, without a length: the question that tells them apart.
fn kinds_of_fish(turn: &mut Turn) {
    for at in 0..turn.terms.len() {
        let term = &turn.terms[at];
        let fish = |s: &Sense| matches!(s, Sense::Named { thing: name::STOCK, .. });
        if !term.senses.iter().any(fish) {
            continue;
        }
        let Some(Became::Statement(index)) = turn.became[term.first] else { continue };
        let words: Vec<String> = (term.first..=term.last).map(|w| folded(&turn.words[w].text)).collect();
        let Some(ask) = turn.listener.kin.get(words.join(" ").as_str()) else { continue };
        let Some(of) = turn.reading.statements.get(index).map(|s| s.subject.clone()) else { continue };
        let told = |s: &Statement| {
            same_thing(&s.subject, &of) && matches!(attribute_of(s), Some("length" | "biggest" | "size"))
        };
        let before = turn.context.held.iter().any(|s| same_thing(&s.subject, &of));
        if of.thing == "stock" && of.stage.is_none() && !before && !turn.reading.statements.iter().any(told) {
            let said = turn.span_of(&[at]).of(turn.text).to_string();
            turn.doubt(Doubt::new(
                Doubtful::Taken,
                format!("{}: {ask}", crate::source::words::capital(&said)),
                Vec::new(),
            ));
        }
    }
}

/// "300 l, sump 80 l under": is the sump counted in?
fn sump_besides(turn: &mut Turn) {
    let volume = |attribute: &str| {
        turn.reading.statements.iter().find(|s| attribute_of(s) == Some(attribute)).and_then(amount_of)
    };
    let (Some(tank), Some(sump)) = (volume("nominal"), volume("sump volume")) else { return };
    let figure = |a: crate::units::Amount| {
        format!("{} {}", a.likely.map(super::value::plain_number).unwrap_or_default(), a.unit.shown)
    };
    let ask = format!("Do the {} include the {} in the sump?", figure(tank), figure(sump));
    turn.doubt(Doubt::new(Doubtful::Taken, ask, Vec::new()));
}

/// Three media in one breath without a direction: which does the water meet first?
fn layers(turn: &mut Turn) {
    let there = |s: &&Statement| s.subject.thing == "medium" && s.says == Says::Present && s.subject.kind.is_some();
    let media: Vec<Statement> = turn.reading.statements.iter().filter(there).cloned().collect();
    let placed = turn.reading.statements.iter().any(|s| attribute_of(s) == Some("position"));
    let stacked = turn.reading.statements.iter().any(|s| {
        s.subject.thing == "filter"
            && (attribute_of(s) == Some("baskets")
                || matches!(&s.says, Says::Value { value: Said::Word(w), .. } if w == "canister" || w == "sump"))
    });
    let held = turn.context.held.iter().any(|s| attribute_of(s) == Some("position"));
    if media.len() < 3 || placed || held || !stacked {
        return;
    }
    let position = |s: &Statement, place: usize| Statement {
        says: Says::Value {
            attribute: "position".into(),
            how: How::Set,
            value: Said::Word(super::medium_words::PLACES.get(place).copied().unwrap_or("last").to_string()),
        },
        mark: Some(Mark::Derived),
        ..s.clone()
    };
    let in_order = media.iter().enumerate().map(|(n, s)| position(s, n)).collect();
    let reversed = media.iter().rev().enumerate().map(|(n, s)| position(s, n)).collect();
    let word = |s: &Statement| s.span.of(turn.text).to_string();
    let words: Vec<String> = media.iter().map(word).collect();
    let named: Vec<&str> = words.iter().map(String::as_str).collect();
    let ask = format!("Which does the water meet first: {}?", or_list(&named));
    let readings = vec![(words[0].clone(), in_order), (words[words.len() - 1].clone(), reversed)];
    turn.doubt(Doubt { readings, ..Doubt::new(Doubtful::Taken, ask, Vec::new()) });
}

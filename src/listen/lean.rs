//! Which gallon: said, or leaned on by words of one country, and always shown. In: cues and figures of a turn. Out: the
//! unit in which bare volumes count, a statement on the keeper's gallon. Converts nothing.

use super::found::{Found, subject};
use super::items::{Item, What};
use super::reading::{Context, How, Mark, Said, Says};
use super::turn::Turn;
use crate::units::Dimension;

/// The unit in which the call counts volumes: said before, or in this line.
pub fn volume_unit(context: &Context, items: &[Item]) -> Option<&'static str> {
    let here = items.iter().find_map(|i| match &i.what {
        What::Amount(m) => m
            .units
            .iter()
            .find(|u| u.dimension == Dimension::VOLUME && u.name != "mL" && u.name != "floz")
            .map(|u| u.name)
            .or_else(|| m.units.iter().find(|u| u.dimension == Dimension::FLOW).and_then(|u| u.name.split('/').next())),
        _ => None,
    });
    context.volume_unit.or(here)
}

/// Leans on hints when gallons were said without their kind.
pub fn gallons(turn: &mut Turn) {
    if turn.context.gallon.is_some() || turn.state.value(&subject("keeper", None), "gallon").is_some() {
        return;
    }
    let mut plain = Vec::new();
    let mut said: Option<&str> = None;
    for item in turn.items {
        let What::Amount(measure) = &item.what else { continue };
        for unit in &measure.units {
            match unit.name {
                "gal" | "gal/h" => plain.push((measure.value(), item.first)),
                name if name.starts_with("usgal") => said = Some("us"),
                name if name.starts_with("impgal") => said = Some("imperial"),
                _ => {}
            }
        }
    }
    if plain.is_empty() {
        return;
    }
    let lean = said.map(str::to_string).or_else(|| leaned(turn, &plain));
    let Some(gallon) = lean else { return };
    let says = Says::Value { attribute: "gallon".into(), how: How::Set, value: Said::Word(gallon) };
    let found = Found::new(subject("keeper", None), says, Vec::new()).marked(Some(Mark::Hint));
    turn.state_fact(found);
}

fn leaned(turn: &Turn, plain: &[(Option<f64>, usize)]) -> Option<String> {
    let leans = &turn.listener.cues.leans;
    let word = |cues: &[u16]| turn.heard.iter().any(|h| cues.contains(&h.cue));
    let sign = |signs: &[char]| turn.terms.iter().any(|t| t.mark().is_some_and(|m| signs.contains(&m)));
    let by_words: Vec<&str> =
        leans.iter().filter(|l| word(&l.words) || sign(&l.signs)).map(|l| l.gallon.as_str()).collect();
    match by_words[..] {
        [one] => return Some(one.to_string()),
        [_, _, ..] => return None,
        [] => {}
    }
    leans.iter().find(|l| plain.iter().any(|(v, _)| v.is_some_and(|v| l.sizes.contains(&v)))).map(|l| l.gallon.clone())
}

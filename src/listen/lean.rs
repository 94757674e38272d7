//! Which gallon: said, or leaned on by words of one country, and always shown. In: cues and figures of a turn. Out: the
//! unit in which bare volumes count, a statement on the keeper's gallon. Converts nothing.

use super::cues::LeanCues;
use super::found::{Doubt, Found, subject};
use super::items::{Item, What};
use super::lexicon::Sense;
use super::name;
use super::reading::{Context, Converted, Doubtful, How, Mark, Said, Says};
use super::term::Term;
use super::turn::Turn;
use crate::units::{Dimension, gallon};

/// The unit in which the call counts volumes: said before, or in this line.
pub fn volume_unit(context: &Context, items: &[Item], terms: &[Term]) -> Option<&'static str> {
    let here = items.iter().find_map(|i| match &i.what {
        What::Amount(m) => m
            .units
            .iter()
            .find(|u| u.dimension == Dimension::VOLUME && u.name != "mL" && u.name != "floz")
            .map(|u| u.name)
            .or_else(|| m.units.iter().find(|u| u.dimension == Dimension::FLOW).and_then(|u| u.name.split('/').next())),
        // "75 with discus, 20 with shrimp, both gal".
        What::Term => terms[i.first]
            .units()
            .find(|u| u.dimension == Dimension::VOLUME && matches!(u.name, "gal" | "L" | "usgal" | "impgal"))
            .map(|u| u.name),
        _ => None,
    });
    context.volume_unit.or(here)
}

/// The kind of gallon said in so many words, in this line or before: it holds for all gallons of the call.
pub fn gallon_said(context: &Context, items: &[Item], terms: &[Term]) -> Option<&'static str> {
    let kind = |name: &str| whose(name).map(|w| if w == "imperial" { "imp" } else { w });
    let here = items.iter().find_map(|i| match &i.what {
        What::Amount(m) => m.units.iter().find_map(|u| kind(u.name)),
        What::Term => terms[i.first].senses.iter().find_map(|s| match s {
            Sense::State { thing: name::KEEPER, attribute: name::GALLON, kind: name::US } => Some("us"),
            Sense::State { thing: name::KEEPER, attribute: name::GALLON, kind: name::IMPERIAL } => Some("imp"),
            _ => None,
        }),
        _ => None,
    });
    here.or_else(|| context.gallon.and_then(kind))
}

/// Whose gallon a unit counts, as the keeper's attribute calls it.
fn whose(unit: &str) -> Option<&'static str> {
    match unit {
        name if name.starts_with("usgal") => Some("us"),
        name if name.starts_with("impgal") => Some("imperial"),
        _ => None,
    }
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
                name => said = whose(name).or(said),
            }
        }
    }
    // "20 long": a size of the trade, in the gallons of its country.
    for statement in &turn.reading.statements {
        if let Says::Value { value: Said::Amount(a), .. } = &statement.says
            && a.unit.name == "gal"
            && plain.is_empty()
        {
            plain.push((a.likely, 0));
        }
    }
    // "200 litres, that's 44 gallons": a figure in both says whose gallons they are.
    let mut worked_out: Option<&str> = None;
    for conversion in &turn.reading.conversions {
        if let Converted::Told(told) = &conversion.says
            && let Some((a, b)) = gallon::between(&conversion.from, told)
        {
            worked_out = worked_out.or([a, b].into_iter().find_map(|u| whose(u.name)));
        }
    }
    if plain.is_empty() {
        return;
    }
    // What follows from the figures is no mere leaning.
    let (lean, mark) = match (worked_out, said) {
        (Some(gallon), _) => (Some(gallon.to_string()), Mark::Derived),
        (None, said) => (said.map(str::to_string).or_else(|| leaned(turn, &plain)), Mark::Hint),
    };
    let Some(gallon) = lean else { return };
    // Hints of a country that counts in neither, against the size of a tank: nobody knows.
    if gallon == "none" {
        return either_gallon(turn);
    }
    let says = Says::Value { attribute: "gallon".into(), how: How::Set, value: Said::Word(gallon) };
    let found = Found::new(subject("keeper", None), says, Vec::new()).marked(Some(mark));
    turn.state_fact(found);
}

/// US or imperial: a fifth of the volume hangs on it.
fn either_gallon(turn: &mut Turn) {
    let plain = |s: &super::reading::Statement| {
        s.subject.thing == "tank" && super::correct::amount_of(s).is_some_and(|a| a.unit.name == "gal")
    };
    let Some(held) = turn.reading.statements.iter().find(|s| plain(s)).cloned() else { return };
    let Some(amount) = super::correct::amount_of(&held) else { return };
    let mut readings = Vec::new();
    for name in ["usgal", "impgal"] {
        let (Some(unit), Says::Value { attribute, .. }) = (crate::units::unit::by_name(name), &held.says) else {
            return;
        };
        let value = Said::Amount(amount.in_unit(unit));
        let says = Says::Value { attribute: attribute.clone(), how: How::Replace, value };
        let litres = unit.to_base(amount.likely.unwrap_or_default()) * 1000.0;
        let exact = super::reading::Statement { says, mark: None, ..held.clone() };
        readings.push((format!("{} ({} litres)", unit.shown, litres.round()), vec![exact]));
    }
    let ask = format!("{}, or {}?", readings[0].0, readings[1].0);
    turn.doubt(Doubt { readings, ..Doubt::new(Doubtful::Taken, ask, Vec::new()) });
}

fn leaned(turn: &Turn, plain: &[(Option<f64>, usize)]) -> Option<String> {
    let leans = &turn.listener.cues.leans;
    let word = |cues: &[u16]| turn.heard.iter().any(|h| cues.contains(&h.cue));
    let sign = |signs: &[char]| turn.terms.iter().any(|t| t.mark().is_some_and(|m| signs.contains(&m)));
    let by_words: Vec<&LeanCues> = leans.iter().filter(|l| word(&l.words) || sign(&l.signs)).collect();
    match by_words[..] {
        [one] => return Some(one.gallon.clone()),
        // Hints of two countries are none.
        [_, _, ..] => return None,
        [] => {}
    }
    let sold = |l: &&LeanCues| plain.iter().any(|(v, _)| v.is_some_and(|v| l.sizes.contains(&v)));
    let spelt = |l: &&LeanCues| word(&l.spellings);
    leans.iter().find(sold).or_else(|| leans.iter().find(spelt)).map(|l| l.gallon.clone())
}

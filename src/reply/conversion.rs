//! A measure in another unit: worked out when asked, checked when said. In: conversions of a turn. Out: plain lines and
//! figures. The factors are the unit table's exact definitions (NIST SP 811 appendix B).

use super::amounts::{Voice, with_unit};
use super::answer::{Answer, FigureLine};
use super::digits;
use crate::listen::reading::{Conversion, Converted};
use crate::source::words::or_list;
use crate::units::{Amount, Spread, Unit, unit};

/// Two callers' figures for one measure agree when they differ by no more: both are rounded.
const AGREES: f64 = 0.025;

/// Answers and checks every conversion of the turn; gives the sentence that answers the first one asked for.
pub fn answer_conversions(conversions: &[Conversion], answer: &mut Answer) -> Option<String> {
    let mut say = None;
    for conversion in conversions {
        let from = &conversion.from;
        match &conversion.says {
            Converted::Asked(into) => {
                let ways: Vec<String> =
                    meanings(into).iter().map(|unit| with_unit(&number(from, unit), unit, Voice::Written)).collect();
                let given = with_unit(&said(from), from.unit, Voice::Written);
                say.get_or_insert_with(|| format!("{given} is {}.", or_list(&ways)));
                answer.figures.extend(meanings(into).into_iter().filter_map(|unit| line(from, unit)));
            }
            Converted::Told(told) => answer.remarks.push(checked(from, told)),
        }
    }
    say
}

/// What a unit may mean: a gallon of which nobody said whose it is may be either.
fn meanings(unit: &'static Unit) -> Vec<&'static Unit> {
    let both = match unit.name {
        "gal" => ["usgal", "impgal"],
        "gal/h" => ["usgal/h", "impgal/h"],
        _ => return vec![unit],
    };
    both.into_iter().filter_map(unit::by_name).collect()
}

fn likely(amount: &Amount) -> Option<f64> {
    amount.likely.or(amount.high).or(amount.low)
}

fn said(amount: &Amount) -> String {
    likely(amount).map_or(String::new(), |v| digits::at(v, i32::from(amount.decimals)))
}

/// In the other unit, with three digits: enough to check a label by.
fn number(from: &Amount, unit: &Unit) -> String {
    likely(from).map_or(String::new(), |v| digits::significant(unit.from_base(from.unit.to_base(v)), 3))
}

fn line(from: &Amount, into: &'static Unit) -> Option<FigureLine> {
    let value = into.from_base(from.unit.to_base(likely(from)?));
    let given = with_unit(&said(from), from.unit, Voice::Written);
    let (formula, numbers) = if from.unit.offset == 0.0 && into.offset == 0.0 {
        let factor = digits::significant(from.unit.factor / into.factor, 6);
        (format!("what is said x {factor}"), format!("{given} x {factor}"))
    } else if into.name == "F" {
        ("degrees C x 9/5 + 32".to_string(), format!("{} x 9/5 + 32", said(from)))
    } else {
        ("(degrees F - 32) x 5/9".to_string(), format!("({} - 32) x 5/9", said(from)))
    };
    Some(FigureLine {
        figure: "conversion".into(),
        called: format!("{given} in {}", with_unit("", into, Voice::Written).trim()),
        tank: 1,
        formula: Some(formula),
        numbers: Some(numbers),
        result: with_unit(&number(from, into), into, Voice::Written),
        values: Spread::exact(value),
        unit: into.name.to_string(),
        inputs: vec![],
        origin: "worked out",
        basis: vec!["published".into()],
        assumed: vec![],
        asked: true,
    })
}

/// Says whether a second figure is the first one, and in whose gallons.
fn checked(from: &Amount, told: &Amount) -> String {
    let given = with_unit(&said(from), from.unit, Voice::Written);
    let ways: Vec<&Unit> = meanings(told.unit);
    let text = |unit: &Unit| with_unit(&number(from, unit), unit, Voice::Written);
    let agrees = |unit: &&&Unit| {
        let (Some(own), Some(theirs)) = (likely(from), likely(told)) else { return false };
        let exact = unit.from_base(from.unit.to_base(own));
        (exact - theirs).abs() <= AGREES * exact.abs()
    };
    if let Some(fits) = ways.iter().find(agrees) {
        return format!("Right: {given} is {}.", text(fits));
    }
    let all: Vec<String> = ways.iter().map(|unit| text(unit)).collect();
    let not = if all.len() > 1 { "neither" } else { "not that" };
    format!("{given} is {}; {} is {not}. I go on with {given}.", or_list(&all), said(told))
}

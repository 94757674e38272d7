//! A measure in another unit: worked out when asked, checked when said. In: conversions of a turn, whose gallons the caller
//! counts in. Out: plain lines and figures. The factors are the unit table's exact definitions (NIST SP 811 appendix B).

use super::amounts::{Voice, with_unit};
use super::answer::{Answer, FigureLine};
use super::digits;
use crate::case::Ledger;
use crate::case::facts::Gallon;
use crate::listen::reading::{Conversion, Converted};
use crate::source::words::or_list;
use crate::units::gallon::{agree, meanings};
use crate::units::{Amount, Spread, Unit};

/// A unit in which something was said, and one it is turned into.
type Way = (&'static Unit, &'static Unit);

/// Answers and checks every conversion of the turn; gives the sentence that answers the first one asked for.
pub fn answer_conversions(conversions: &[Conversion], ledger: &Ledger, answer: &mut Answer) -> Option<String> {
    let settled = settled(ledger);
    let mut say = None;
    for Conversion { from, says, .. } in conversions {
        match says {
            Converted::Asked(into) => {
                let ways = ways(from, into, settled);
                say.get_or_insert_with(|| sentence(from, &ways) + ".");
                answer.figures.extend(ways.into_iter().filter_map(|way| line(from, way)));
            }
            Converted::Told(told) => answer.remarks.push(checked(from, told, &ways(from, told.unit, settled))),
        }
    }
    say
}

/// Whose gallons were said, or follow from what was said; a gallon leaned on by words of one country is not settled.
fn settled(ledger: &Ledger) -> Option<Gallon> {
    let said = ledger.statements().filter_map(|(_, s)| s.gallon()).last();
    said.map(|gallon| if gallon == "impgal" { Gallon::Imperial } else { Gallon::Us })
}

/// Each way to read both units; a gallon that was settled for the call is that one.
fn ways(from: &Amount, into: &'static Unit, settled: Option<Gallon>) -> Vec<Way> {
    let meant = |unit: &'static Unit| {
        let mut meanings = meanings(unit);
        if let (Some(gallon), [us, imperial]) = (settled, &meanings[..]) {
            meanings = vec![if gallon == Gallon::Us { us } else { imperial }];
        }
        meanings
    };
    meant(from.unit).into_iter().flat_map(|own| meant(into).into_iter().map(move |other| (own, other))).collect()
}

fn said(amount: &Amount, unit: &Unit) -> String {
    let number = amount.middle().map_or(String::new(), |v| digits::at(v, i32::from(amount.decimals)));
    with_unit(&number, unit, Voice::Written)
}

/// In the other unit, with three digits: enough to check a label by.
fn turned(from: &Amount, (own, other): Way) -> String {
    let number = from.middle().map_or(String::new(), |v| digits::significant(other.from_base(own.to_base(v)), 3));
    with_unit(&number, other, Voice::Written)
}

/// "900 L/h is 238 US gal/h or 198 imp gal/h"; "55 US gal is 208 L, 55 imp gal is 250 L".
fn sentence(from: &Amount, ways: &[Way]) -> String {
    let mut owns: Vec<&Unit> = ways.iter().map(|(own, _)| *own).collect();
    owns.dedup_by_key(|u| u.name);
    let of = |own: &&Unit| {
        let others: Vec<String> = ways.iter().filter(|w| w.0.name == own.name).map(|w| turned(from, *w)).collect();
        format!("{} is {}", said(from, own), or_list(&others))
    };
    owns.iter().map(of).collect::<Vec<_>>().join(", ")
}

fn line(from: &Amount, way: Way) -> Option<FigureLine> {
    let (own, other) = way;
    let given = said(from, own);
    let (formula, numbers) = if own.offset == 0.0 && other.offset == 0.0 {
        let factor = digits::significant(own.factor / other.factor, 6);
        (format!("what is said x {factor}"), format!("{given} x {factor}"))
    } else if other.name == "F" {
        ("degrees C x 9/5 + 32".to_string(), format!("{given} x 9/5 + 32"))
    } else {
        ("(degrees F - 32) x 5/9".to_string(), format!("({given} - 32) x 5/9"))
    };
    Some(FigureLine {
        figure: "conversion".into(),
        called: format!("{given} in {}", other.shown),
        tank: 1,
        formula: Some(formula),
        numbers: Some(numbers),
        result: turned(from, way),
        values: Spread::exact(other.from_base(own.to_base(from.middle()?))),
        unit: other.name.to_string(),
        inputs: vec![],
        origin: "worked out",
        basis: vec!["published".into()],
        assumed: vec![],
        asked: true,
    })
}

/// Says whether a second figure is the first one, and in whose gallons.
fn checked(from: &Amount, told: &Amount, ways: &[Way]) -> String {
    let (Some(own), Some(theirs)) = (from.middle(), told.middle()) else { return String::new() };
    if let Some(fits) = ways.iter().find(|(a, b)| agree((own, a), (theirs, b))) {
        return format!("Right: {} is {}.", said(from, fits.0), turned(from, *fits));
    }
    let not = if ways.len() > 1 { "neither" } else { "not that" };
    let number = said(told, crate::units::unit::plain());
    format!("{}; {number} is {not}. I go on with {}.", sentence(from, ways), said(from, from.unit))
}

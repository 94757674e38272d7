//! Values: a measure made into an amount of one attribute: its unit, its second reading, whether it is plausible. In: a
//! measure and the attribute it goes to. Out: an amount with its mark, or what to ask. Knows no grammar.

use super::attributes::Attribute;
use super::bind::Binder;
use super::found::{Doubt, Found};
use super::measure::Measure;
use super::name::Name;
use super::reading::{Doubtful, How, Mark, Said, Says, Statement, Subject};
use crate::units::{Amount, Dimension, Unit, unit};

/// Without a letter, a figure in the first range is meant in Celsius, in the second in Fahrenheit (settled choice).
const CELSIUS: std::ops::RangeInclusive<f64> = 18.0..=34.0;
const FAHRENHEIT: std::ops::RangeInclusive<f64> = 60.0..=95.0;

impl Binder<'_, '_> {
    /// The amount that a measure is of an attribute, with the mark it must carry; `None` when it cannot be used.
    pub fn amount_for(
        &mut self,
        thing: Name,
        attribute: Name,
        measure: &Measure,
        item: usize,
    ) -> Option<(Amount, Option<Mark>)> {
        let known = self.listener.attributes.get(thing, attribute)?.clone();
        let dimension = known.dimension?;
        let mut mark = measure.leaned.then_some(Mark::Derived);
        let unit = match self.unit_for(&known, dimension, measure) {
            Some((unit, guessed)) => {
                if guessed {
                    mark = mark.or(Some(Mark::Hint));
                }
                unit
            }
            None => return None,
        };
        let mut amount = if known.is_count { measure.count() } else { measure.amount(unit) };
        // "2.000": two thousand or two; the plausible one, and said so.
        if let Some(other) = measure.other.filter(|_| measure.likely.is_some()) {
            let second = Amount { decimals: 0, ..Amount::exact(other, unit) };
            // Nobody keeps a pond of a few litres.
            let pond =
                attribute == super::name::NOMINAL && self.is_pond() && amount.base().likely.is_some_and(|v| v < 0.05);
            match (is_plausible(&known, &amount) && !pond, is_plausible(&known, &second)) {
                (false, true) => {
                    amount = second;
                    mark = Some(Mark::Hint);
                    let said = self.said(&self.terms_of(item, item));
                    let ask = format!("Read {said} as {}: right?", plain_number(other));
                    let doubt = Doubt::new(Doubtful::Ambiguous, ask, self.terms_of(item, item));
                    self.doubts.push(doubt);
                }
                (true, true) => return None,
                _ => {}
            }
        }
        if !is_plausible(&known, &amount) {
            return None;
        }
        // A share said as a part of one: "a quarter of the water".
        if known.is_share && unit.name.is_empty() {
            let percent = unit::by_name("%")?;
            mark = mark.or(Some(Mark::Derived));
            let times = |v: Option<f64>| v.map(|v| (v * 100.0).round());
            amount = Amount {
                low: times(amount.low),
                likely: times(amount.likely),
                high: times(amount.high),
                unit: percent,
                decimals: 0,
                ..amount
            };
        }
        Some((amount, mark))
    }

    /// The unit, and whether it was guessed.
    fn unit_for(&self, known: &Attribute, dimension: Dimension, measure: &Measure) -> Option<(&'static Unit, bool)> {
        if dimension == Dimension::TEMPERATURE {
            let said: Vec<&'static Unit> = measure.units.iter().filter(|u| u.dimension == dimension).copied().collect();
            if let [one] = said[..] {
                return Some((one, false));
            }
            let value = measure.value()?;
            let name = if CELSIUS.contains(&value) {
                "C"
            } else if FAHRENHEIT.contains(&value) {
                "F"
            } else {
                return None;
            };
            return Some((unit::by_name(name)?, true));
        }
        if !measure.is_plain() {
            // A hardness said in plain degrees keeps the degree of its attribute.
            if measure.has_unit("dH") && dimension == Dimension::CONCENTRATION {
                return Some((known.unit?, false));
            }
            let fits = |u: &&&'static Unit| u.dimension == dimension && (u.name != "%" || known.is_share);
            let unit = measure.units.iter().find(fits)?;
            // The kind of gallon said once holds for all.
            if let (Some(kind), "gal" | "gal/h") = (self.state.gallon, unit.name)
                && let Some(exact) = unit::by_name(&format!("{kind}{}", unit.name))
            {
                return Some((exact, !self.says_gallon()));
            }
            return Some((unit, false));
        }
        if known.is_count || known.is_share {
            return Some((unit::plain(), false));
        }
        if dimension == Dimension::VOLUME {
            return Some((self.volume_unit()?, true));
        }
        if dimension == Dimension::LENGTH
            && let Some(unit) = self.state.size_unit
        {
            return Some((unit, true));
        }
        if dimension == Dimension::FLOW {
            return Some((self.state.flow_unit?, true));
        }
        let unit = known.unit.filter(|u| u.dimension == dimension)?;
        let scale_of_its_own = matches!(unit.name, "dKH" | "dGH");
        if dimension == Dimension::NUMBER && unit.name.is_empty() {
            return Some((unit::by_name("SG")?, false));
        }
        Some((unit, scale_of_its_own))
    }

    /// Whether the attribute can have such a value: a bare figure is never given to one that cannot.
    pub fn can_be(&self, thing: Name, attribute: Name, measure: &Measure) -> bool {
        let Some(known) = self.listener.attributes.get(thing, attribute) else { return false };
        let unit = known.dimension.and_then(|d| self.unit_for(known, d, measure)).map(|(unit, _)| unit);
        unit.is_some_and(|u| is_plausible(known, &measure.amount(u)))
    }

    /// A pond is spoken of.
    pub fn is_pond(&self) -> bool {
        let here = self.items.iter().any(|i| {
            i.what == super::items::What::Term
                && self.terms[i.first].senses.iter().any(|s| {
                    matches!(
                        s,
                        super::lexicon::Sense::State { attribute: super::name::KIND, kind: super::name::POND, .. }
                    )
                })
        });
        here || self.state.tanks.iter().any(|t| t.kind.as_deref() == Some("pond"))
    }

    /// The clause itself, or the one behind it, says which gallon.
    fn says_gallon(&self) -> bool {
        let end = (self.clause.to + 4).min(self.items.len());
        self.items[self.clause.from..end].iter().filter(|i| i.what == super::items::What::Term).any(|i| {
            self.terms[i.first]
                .senses
                .iter()
                .any(|s| matches!(s, super::lexicon::Sense::State { thing: super::name::KEEPER, .. }))
        })
    }

    /// The unit of volume that the call counts in; gallons of a guess when none was said.
    pub fn volume_unit(&self) -> Option<&'static Unit> {
        let from_context = self.listener.volume_unit_of(self.state);
        unit::by_name(from_context.unwrap_or("gal"))
    }

    /// What to ask when a figure cannot be used: too much, too little, or of two readings.
    pub fn implausible(
        &self,
        thing: Name,
        attribute: Name,
        measure: &Measure,
        of: &Subject,
        called: &str,
        terms: Vec<usize>,
    ) -> Doubt {
        let said = self.said(&terms);
        let known = self.listener.attributes.get(thing, attribute);
        let candidates: Vec<f64> = match (measure.other, measure.likely) {
            (Some(other), Some(likely)) => vec![other, likely],
            // "pH 74": the point was forgotten.
            (None, Some(likely)) if measure.decimals == 0 => vec![likely / 10.0, likely / 100.0],
            _ => vec![],
        };
        let mut readings = Vec::new();
        if let Some(known) = known
            && let Some(dimension) = known.dimension
            && let Some((unit, _)) = self.unit_for(known, dimension, measure)
        {
            for value in candidates {
                let amount = Amount { decimals: u8::from(value.fract() != 0.0), ..Amount::exact(value, unit) };
                if is_plausible(known, &amount) {
                    let says = Says::Value {
                        attribute: self.name(attribute).to_string(),
                        how: How::Set,
                        value: Said::Amount(amount),
                    };
                    let statement =
                        Statement { span: Default::default(), subject: of.clone(), says, mark: Some(Mark::Hint) };
                    readings.push((
                        format!("{called} {} {}", plain_number(value), unit.shown).trim().to_string(),
                        vec![statement],
                    ));
                }
                if measure.other.is_none() && !readings.is_empty() {
                    break;
                }
            }
        }
        let why = if measure.other.is_some() { Doubtful::Ambiguous } else { Doubtful::Implausible };
        let ask = match readings.as_slice() {
            [] => format!("{said}: what does {called} really read?"),
            [(one, _)] => format!("{one}?"),
            [(one, _), (two, _), ..] => format!("{one}, or {two}?"),
        };
        Doubt { readings, ..Doubt::new(why, ask, terms) }
    }

    /// A reading to offer in a question: one value of one attribute.
    pub fn offer(&self, of: Subject, attribute: Name, amount: Amount) -> Statement {
        let says =
            Says::Value { attribute: self.name(attribute).to_string(), how: How::Set, value: Said::Amount(amount) };
        Statement { span: Default::default(), subject: of, says, mark: None }
    }

    /// Sets a value without looking at its plausibility again.
    pub fn set(&mut self, of: Subject, attribute: Name, amount: Amount, terms: Vec<usize>, mark: Option<Mark>) {
        let says =
            Says::Value { attribute: self.name(attribute).to_string(), how: How::Set, value: Said::Amount(amount) };
        self.push(Found::new(of, says, terms).marked(mark));
    }
}

/// Every end of the amount lies in the plausible range; a bound need not reach to its open end.
pub fn is_plausible(known: &Attribute, amount: &Amount) -> bool {
    let Some((low, high)) = known.plausible else { return true };
    let base = amount.base();
    let within = |v: Option<f64>| v.is_none_or(|v| v.is_finite() && v >= low * 0.999_999 && v <= high * 1.000_001);
    let likely = within(base.likely);
    // "under 1": the bound may lie below the plausible range, a value may not.
    let open = amount.low.is_none() || amount.high.is_none();
    if open {
        base.high.or(base.low).is_none_or(|v| v <= high * 1.000_001 && v >= 0.0)
    } else {
        likely && within(base.low) && within(base.high)
    }
}

/// Without digits that were not said.
pub fn plain_number(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}

//! The changes that are tried of a rule. In: a rule. Out: for each change the conditions as they would be, and what was
//! changed in words. Runs nothing.

use crate::archive::trial::Trial;
use crate::archive::trial::limits::{compared_mut, comparisons_of};
use crate::rulebook::book::Condition;
use crate::rulebook::code::Code;
use crate::rulebook::expr::tree::{Arithmetic, Fold};
use crate::rulebook::logic::formula::constant;
use crate::source::Place;
use crate::units::Dimension;

/// Limits are moved by this share: rules of thumb are not known better. Temperatures and pH, whose zero means nothing, are
/// moved by a step of their own scale, and what is counted by one.
const SHARE: f64 = 0.25;
const STEP_CELSIUS: f64 = 2.0;
const STEP_PH: f64 = 0.5;

/// One change of one rule.
pub struct Change {
    pub rule: u16,
    pub place: Place,
    /// What could be done: "the limit could be a quarter higher".
    pub words: String,
    /// The changed conditions; none: the rule is out.
    pub conditions: Option<Vec<Condition>>,
    /// What was changed in them; none: the rule is out.
    pub at: Option<Turned>,
}

/// A comparison, before and after.
pub struct Turned {
    pub compared: Code,
    pub changed: Code,
}

/// Every change of a rule, in the order of its conditions.
pub fn changes(trial: &Trial, n: u16) -> Vec<Change> {
    let rule = &trial.book.rules.rules[n as usize];
    let (raw, spot) = &trial.entries.rules[n as usize];
    let mut out = vec![Change {
        rule: n,
        place: spot.get("rule").place(),
        words: "the rule could be taken out".into(),
        conditions: None,
        at: None,
    }];
    for (c, condition) in rule.conditions.iter().enumerate() {
        for (m, (span, code)) in comparisons_of(trial.book, &trial.phrases, condition).into_iter().enumerate() {
            let place = spot.get("when").item(c).inside(&raw.when[c], span);
            let mut with = |words: String, to: Code| {
                let mut conditions = rule.conditions.clone();
                if let Some(found) = compared_mut(&mut conditions[c].code, &mut { m }) {
                    *found = to.clone();
                    let at = Some(Turned { compared: code.clone(), changed: to });
                    let conditions = Some(conditions);
                    out.push(Change { rule: n, place: place.clone(), words, conditions, at });
                }
            };
            let turned = || "the comparison could be turned round".to_string();
            match code {
                Code::IsKind(a, symbol, equal) => with(turned(), Code::IsKind(a.clone(), *symbol, !equal)),
                Code::Compare(how, a, b) => {
                    with(turned(), Code::Compare(how.denied(), a.clone(), b.clone()));
                    let Some(step) = Step::of(trial, a, b) else { continue };
                    for (word, up) in [("higher", true), ("lower", false)] {
                        let moved = Code::Compare(*how, a.clone(), Box::new(step.moved(b, up)));
                        with(format!("the limit could be {} {word}", step.words()), moved);
                    }
                }
                _ => {}
            }
        }
    }
    out
}

/// How far a limit is moved.
enum Step {
    Share,
    By(f64),
}

impl Step {
    /// None: the limit is nought, of which a share is nothing.
    fn of(trial: &Trial, value: &Code, limit: &Code) -> Option<Self> {
        match limit {
            Code::Quantity(_, unit) if unit.dimension == Dimension::TEMPERATURE => Some(Self::By(STEP_CELSIUS)),
            Code::Quantity(_, unit) if unit.dimension == Dimension::ACIDITY => Some(Self::By(STEP_PH)),
            _ if is_counted(trial, value) => Some(Self::By(1.0)),
            _ if constant(limit) == Some(0.0) => None,
            _ => Some(Self::Share),
        }
    }

    fn moved(&self, limit: &Code, up: bool) -> Code {
        let (how, by) = match self {
            Self::By(step) => (Arithmetic::Add, if up { *step } else { -step }),
            Self::Share => (Arithmetic::Multiply, if up { 1.0 + SHARE } else { 1.0 / (1.0 + SHARE) }),
        };
        Code::Arithmetic(how, Box::new(limit.clone()), Box::new(Code::Number(by)))
    }

    fn words(&self) -> String {
        match self {
            Self::By(step) => format!("{step}"),
            Self::Share => "a quarter".into(),
        }
    }
}

/// Whether code gives a number of things.
fn is_counted(trial: &Trial, code: &Code) -> bool {
    match code {
        Code::Fold { how: Fold::Count, .. } => true,
        Code::Fact(id) => {
            let attribute = trial.book.schema.of(*id);
            let thing = &trial.book.schema.thing_of(attribute.thing).name;
            let declared = trial.book.knowledge.vocabulary.attribute(thing, &attribute.name);
            declared.is_some_and(|a| a.is == "count")
        }
        _ => false,
    }
}

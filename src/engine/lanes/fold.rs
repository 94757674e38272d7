//! Conditions and figures over all things of a sort, in every lane at once. In: code, what is bound. Out: lanes.

use super::evaluate::LaneEvaluation;
use super::value::{LANES, Lanes, Truths};
use crate::engine::value::Value;
use crate::engine::world::Bound;
use crate::knowledge::schema::ThingId;
use crate::rulebook::code::Code;
use crate::rulebook::expr::tree::Fold;

impl LaneEvaluation<'_> {
    /// Whether any, or every, thing of a sort meets a condition.
    pub(super) fn exists(&self, every: bool, thing: ThingId, with: Option<&Code>, bound: &mut Bound) -> Truths {
        let world = self.pass.world;
        let before = bound.of(thing);
        let mut met = false;
        let mut truths = if every { Truths::YES } else { Truths::NO };
        for instance in 0..world.count(thing) {
            if !world.belongs(thing, instance, bound) {
                continue;
            }
            met = true;
            bound.set(thing, instance);
            let truth = with.map_or(Truths::YES, |w| self.truth(w, bound));
            bound.free(thing, before);
            truths = if every { truths.and(truth) } else { truths.or(truth) };
        }
        match met || world.is_closed(thing) {
            true => truths,
            false => Truths::default(),
        }
    }

    /// The number, sum, least or greatest over all things of a sort that meet a condition.
    pub(super) fn fold(
        &self,
        how: Fold,
        of: Option<&Code>,
        thing: ThingId,
        with: Option<&Code>,
        bound: &mut Bound,
    ) -> Lanes {
        let world = self.pass.world;
        let before = bound.of(thing);
        let (mut met, mut unknown, mut any) = (0u128, 0u128, false);
        let mut result = [0.0f64; LANES];
        for instance in 0..world.count(thing) {
            if !world.belongs(thing, instance, bound) {
                continue;
            }
            any = true;
            bound.set(thing, instance);
            let truths = with.map_or(Truths::YES, |w| self.truth(w, bound));
            let value = match of {
                Some(of) if truths.yes != 0 => self.value(of, bound),
                _ => Lanes::One(Value::Number(1.0)),
            };
            bound.free(thing, before);
            unknown |= !truths.yes & !truths.no;
            for (lane, result) in result.iter_mut().enumerate().filter(|(n, _)| truths.yes >> n & 1 == 1) {
                let Value::Number(number) = value.at(lane) else {
                    unknown |= 1 << lane;
                    continue;
                };
                *result = match how {
                    Fold::Count | Fold::Sum => *result + number,
                    Fold::Least if met >> lane & 1 == 1 => result.min(number),
                    Fold::Greatest if met >> lane & 1 == 1 => result.max(number),
                    Fold::Least | Fold::Greatest => number,
                };
            }
            met |= truths.yes;
        }
        if !any && !world.is_closed(thing) {
            return Lanes::One(Value::Unknown);
        }
        if matches!(how, Fold::Least | Fold::Greatest) {
            unknown |= !met;
        }
        Lanes::numbers(std::array::from_fn(|n| if unknown >> n & 1 == 1 { f64::NAN } else { result[n] }))
    }
}

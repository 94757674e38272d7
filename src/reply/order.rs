//! The order of advice: danger to people, danger to fish, today, this week, in time, good to know. In: pieces of advice.
//! Out: the same, sorted, each act once, generalities left out. Computes nothing.

use super::answer::Advice;
use crate::rulebook::raw::Urgency;

/// Sorts: urgency first; within it what was asked about; then the surer; then by name, so that the order never wavers.
pub fn order(advice: &mut [Advice]) {
    advice.sort_by(|a, b| {
        let sure = |x: &Advice| (x.sure * 100.0).round() as i64;
        a.urgency
            .cmp(&b.urgency)
            .then(b.asked.cmp(&a.asked))
            .then(sure(b).cmp(&sure(a)))
            .then(a.tank.cmp(&b.tank))
            .then(a.rule.cmp(&b.rule))
            .then(a.finding.cmp(&b.finding))
    });
}

/// Of pieces that come to the same act, or say the same sentence, the first stays; the cautions of the others join it.
pub fn merge(advice: Vec<Advice>) -> Vec<Advice> {
    let mut out: Vec<Advice> = Vec::new();
    for next in advice {
        let same = |a: &&mut Advice| {
            a.tank == next.tank
                && ((a.act.is_some() && a.act == next.act && a.about == next.about) || a.say == next.say)
        };
        match out.iter_mut().find(same) {
            Some(first) => {
                for caution in next.cautions {
                    if !first.cautions.contains(&caution) {
                        first.cautions.push(caution);
                    }
                }
                first.asked |= next.asked;
            }
            None => out.push(next),
        }
    }
    out
}

/// What is only good to know, has no figures of its own to show and was not asked about is left out where anything else is
/// said.
pub fn leave_out_general(advice: &mut Vec<Advice>, shows_figures: impl Fn(&Advice) -> bool) {
    let general = |a: &Advice| a.urgency == Urgency::GoodToKnow && !a.asked && !shows_figures(a);
    if advice.iter().any(|a| !general(a)) {
        advice.retain(|a| !general(a));
    }
}

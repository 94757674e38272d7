//! The order of advice: danger to people, danger to fish, today, this week, in time, good to know. In: pieces of advice.
//! Out: the same, sorted, each act once, generalities left out. Computes nothing.

use super::answer::Advice;
use crate::rulebook::raw::Urgency;

/// Sorts: urgency first; within it what was asked about, then what the last turn brought, then what answers a worry; then the
/// surer; then by name, so that the order never wavers. What was asked comes up behind the first piece that cannot wait for another day.
pub fn order(advice: &mut Vec<Advice>) {
    advice.sort_by(|a, b| {
        // What holds in most plausible tanks first; finer differences say little.
        let sure = |x: &Advice| x.sure >= 0.5;
        a.urgency
            .cmp(&b.urgency)
            .then(b.asked.cmp(&a.asked))
            .then(b.fresh.cmp(&a.fresh))
            .then(b.worry.cmp(&a.worry))
            .then(sure(b).cmp(&sure(a)))
            .then(a.tank.cmp(&b.tank))
            .then(a.rule.cmp(&b.rule))
            .then(a.finding.cmp(&b.finding))
    });
    let at_once = advice.iter().take_while(|a| a.urgency <= Urgency::Now).count();
    let urgent = advice.iter().take_while(|a| a.urgency <= Urgency::Today).count();
    let before = if at_once == 0 { urgent.min(1) } else { at_once };
    let rest = advice.split_off(before);
    let (asked, others): (Vec<Advice>, Vec<Advice>) = rest.into_iter().partition(|a| a.asked);
    advice.extend(asked);
    advice.extend(others);
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

/// What holds of any tank: only good to know, neither asked about nor an answer to a worry.
pub fn is_general(advice: &Advice) -> bool {
    advice.urgency == Urgency::GoodToKnow && !advice.asked && !advice.worry
}

/// What is only good to know and has no figures of its own to show is left out where anything else is said; what holds of
/// any tank whatever is left out unless it is asked for.
pub fn leave_out_general(advice: &mut Vec<Advice>, shows_figures: impl Fn(&Advice) -> bool) {
    advice.retain(|a| a.of_call || !is_general(a));
    let general = |a: &Advice| is_general(a) && !shows_figures(a);
    if advice.iter().any(|a| !general(a)) {
        advice.retain(|a| !general(a));
    }
}

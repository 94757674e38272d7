//! no-reason: advice without a reason, or an order of two rules without one.

use super::Checking;
use crate::source::Fault;
use crate::source::words::ticked;

pub fn faults(checking: &Checking, out: &mut Vec<Fault>) {
    for (rule, spot) in &checking.entries.rules {
        if let Some(advice) = &rule.advise
            && advice.because.trim().is_empty()
        {
            let place = spot.get("advise").key("because").place();
            let what = format!("{} gives advice and no reason", ticked(&rule.rule));
            out.push(Fault::error("no-reason", place, what).cure("because: and the reason, as you would say it"));
        }
        for (n, outranked) in rule.outranks.iter().enumerate() {
            if outranked.because.trim().is_empty() {
                let place = spot.get("outranks").item(n).key("because").place();
                let what = format!("nothing says why this wins over {}", ticked(&outranked.rule));
                out.push(Fault::error("no-reason", place, what).cure("because: and the reason, as you would say it"));
            }
        }
    }
}

//! always-true: a condition that holds of everything, so that it tells nothing apart.

use super::Reason;
use crate::rulebook::expr::parse::parse_with;
use crate::rulebook::expr::tree::{Expr, Node};
use crate::source::Fault;
use std::rc::Rc;

pub fn faults(reason: &mut Reason, out: &mut Vec<Fault>) {
    for n in reason.speaking() {
        for c in 0..reason.rules[n as usize].holds.len() {
            if reason.blamed.contains(&(n, c)) || !holds(reason, n, c) {
                continue;
            }
            reason.blamed.insert((n, c));
            let checking = reason.checking;
            let place = checking.condition(n, c);
            let text = &checking.entries.rules[n as usize].0.when[c];
            let fault = Fault::warning("always-true", place, "this holds of everything, so it tells nothing apart");
            let tree = parse_with(text, &checking.names.phrases).ok();
            out.push(match tree.as_ref().and_then(compared) {
                Some(name) => fault
                    .note(format!("whatever {name} is, as long as it is known"))
                    .cure(format!("{name} is known     (if that is what is meant; else take the line out)")),
                None => fault.cure("take this line out"),
            });
        }
    }
}

/// Whether a condition can never be false.
pub fn holds(reason: &mut Reason, rule: u16, condition: usize) -> bool {
    let denied = Rc::clone(&reason.rules[rule as usize].denied[condition]);
    let is_known = matches!(
        reason.checking.book.rules[rule as usize].conditions[condition].code,
        crate::rulebook::code::Code::Known(_)
    );
    // "Is known" can be false of whatever is not always known: `solve` sees that too.
    !reason.possible(&[denied]) || (is_known && certainly_known(reason, rule, condition))
}

fn certainly_known(reason: &Reason, rule: u16, condition: usize) -> bool {
    use crate::rulebook::code::Code;
    use crate::rulebook::logic::{Bindings, known::Certain};
    let Code::Known(inner) = &reason.checking.book.rules[rule as usize].conditions[condition].code else {
        return false;
    };
    let (given, there) = Default::default();
    let certain = Certain { ground: reason.ground, given: &given, there: &there };
    certain.value(inner, &Bindings::default())
}

/// The name that is compared with a number or a kind.
fn compared(tree: &Expr) -> Option<&str> {
    match &tree.node {
        Node::Compare { left, right, .. } => match (&left.node, &right.node) {
            (Node::Name(name), Node::Number { .. }) | (Node::Number { .. }, Node::Name(name)) => Some(name),
            _ => None,
        },
        Node::And(a, b) => compared(a).filter(|n| compared(b) == Some(n)),
        _ => None,
    }
}

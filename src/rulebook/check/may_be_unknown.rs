//! may-be-unknown: a text names a figure or fact that nobody may have said when the rule speaks.

use super::Reason;
use crate::rulebook::book::Advice;
use crate::rulebook::code::Code;
use crate::rulebook::entries::Spot;
use crate::rulebook::logic::known::{self, Certain, Leaf};
use crate::rulebook::logic::{Bindings, Ground};
use crate::rulebook::template::Piece;
use crate::source::words::{or_list, ticked};
use crate::source::{Fault, Span};
use std::collections::BTreeSet;

pub fn faults(reason: &mut Reason, out: &mut Vec<Fault>) {
    let checking = reason.checking;
    for n in reason.speaking() {
        let rule = &checking.book.rules[n as usize];
        let Some(advice) = &rule.advice else { continue };
        let bindings = rule.for_thing.map_or(Bindings::default(), |t| Bindings::default().with(t, 0));
        let (mut given, mut there) = (BTreeSet::new(), BTreeSet::new());
        for condition in &rule.conditions {
            given.extend(known::when(reason.ground, &condition.code, true, &bindings));
            known::there(&condition.code, &mut there);
        }
        there.extend(rule.for_thing);
        let certain = Certain { ground: reason.ground, given: &given, there: &there };
        let spot = checking.entries.rules[n as usize].1.get("advise");
        // A name that stands in several texts of one rule is one slip.
        let mut told: Vec<String> = Vec::new();
        for (text, spot) in texts(advice, checking.entries.rules[n as usize].0.advise.as_ref(), &spot) {
            let (pieces, raw) = text;
            for piece in pieces {
                let (code, name) = match piece {
                    Piece::Figure(f) => (Code::Figure(*f), checking.book.figures[*f as usize].name.clone()),
                    Piece::Fact(id) => (Code::Fact(*id), checking.schema.path_name(*id)),
                    Piece::Text(_) => continue,
                };
                if told.contains(&name) || certain.value(&code, &bindings) {
                    continue;
                }
                let span = named(raw, &name);
                let written = span.of(raw);
                let place = spot.inside(raw, span);
                let mut fault = Fault::error(
                    "may-be-unknown",
                    place,
                    format!("{} may be unknown when this rule speaks", ticked(written.trim())),
                );
                let lacking = lacking(reason.ground, &certain, &code, &bindings);
                if !lacking.is_empty()
                    && let Piece::Figure(_) = piece
                {
                    let names: Vec<String> = lacking.iter().take(4).map(|l| ticked(l)).collect();
                    fault = fault.note(format!("nobody may have said {}", or_list(&names)));
                }
                out.push(fault.cure(format!("- {} is known     (as one more line under `when`)", written.trim())));
                told.push(name);
            }
        }
    }
}

type Text<'t> = (&'t Vec<Piece>, &'t str);

/// Every text of an advice, compiled and as written, with its spot.
fn texts<'t>(
    advice: &'t Advice,
    raw: Option<&'t crate::rulebook::raw::RawAdvice>,
    spot: &Spot<'t>,
) -> Vec<(Text<'t>, Spot<'t>)> {
    let Some(raw) = raw else { return vec![] };
    let mut out = vec![((&advice.say, raw.say.trim()), spot.get("say"))];
    for (n, (pieces, text)) in advice.steps.iter().zip(&raw.steps).enumerate() {
        out.push(((pieces, text.trim()), spot.get("steps").item(n)));
    }
    out.push(((&advice.because, raw.because.trim()), spot.get("because")));
    out
}

/// Where a name stands between braces.
fn named(raw: &str, name: &str) -> Span {
    let mut at = 0;
    for (n, part) in raw.split(['{', '}']).enumerate() {
        if n % 2 == 1 && ends_like(part.trim(), name) {
            return Span::new(at, at + part.len());
        }
        at += part.len() + 1;
    }
    Span::new(0, raw.len())
}

/// A bare attribute stands for its path.
fn ends_like(written: &str, name: &str) -> bool {
    written == name || name.rsplit('.').next() == Some(written)
}

/// Facts that a value hangs on and that nobody may have said, as their paths.
fn lacking(ground: &Ground, certain: &Certain, code: &Code, bindings: &Bindings) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    let mut seen = BTreeSet::new();
    gather(ground, certain, code, bindings, &mut seen, &mut out);
    out
}

fn gather(
    ground: &Ground,
    certain: &Certain,
    code: &Code,
    bindings: &Bindings,
    seen: &mut BTreeSet<Leaf>,
    out: &mut Vec<String>,
) {
    code.walk(&mut |part| {
        if certain.value(part, bindings) {
            return;
        }
        match known::leaf(ground, part, bindings) {
            Some(leaf @ Leaf::Figure(n, binding)) if seen.insert(leaf) => {
                let figure = &ground.book.figures[n as usize];
                gather(ground, certain, &figure.code, &ground.inner(figure.for_thing, binding), seen, out);
            }
            Some(leaf @ Leaf::Fact(id, _)) if seen.insert(leaf) => {
                let path = ground.schema.path_name(id);
                if !out.contains(&path) {
                    out.push(path);
                }
            }
            _ => {}
        }
    });
}

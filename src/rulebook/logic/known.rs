//! What is known: which facts and figures must be known for a value to be known, and which always are when a rule speaks.
//! In: compiled code. Out: leaves; yes or no. Where it cannot tell, something counts as perhaps unknown.

use super::{Binding, Bindings, Ground};
use crate::knowledge::schema::{AttributeId, ThingId};
use crate::rulebook::code::Code;
use crate::rulebook::expr::tree::Fold;
use std::collections::BTreeSet;

/// A fact, figure or conclusion, with the binding of its thing.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub enum Leaf {
    Fact(AttributeId, Binding),
    Figure(u16, Binding),
    /// Whether a conclusion holds.
    Conclusion(u16, Binding),
}

/// The leaf that a piece of code is, if it is one.
pub fn leaf(ground: &Ground, code: &Code, bindings: &Bindings) -> Option<Leaf> {
    match code {
        Code::Fact(id) => Some(Leaf::Fact(*id, ground.binding(*id, bindings))),
        Code::Figure(n) => {
            Some(Leaf::Figure(*n, ground.binding_of(ground.book.figures[*n as usize].for_thing, bindings)))
        }
        _ => None,
    }
}

/// Leaves that are known whenever `code`, a value, is known.
pub fn needed(ground: &Ground, code: &Code, bindings: &Bindings) -> BTreeSet<Leaf> {
    let mut out = BTreeSet::new();
    value(ground, code, bindings, &mut out);
    out
}

fn value(ground: &Ground, code: &Code, bindings: &Bindings, out: &mut BTreeSet<Leaf>) {
    match code {
        Code::Fact(_) => out.extend(leaf(ground, code, bindings)),
        Code::Figure(n) => {
            let Some(found @ Leaf::Figure(_, binding)) = leaf(ground, code, bindings) else { return };
            let figure = &ground.book.figures[*n as usize];
            if out.insert(found) && !ground.broken[*n as usize] {
                value(ground, &figure.code, &ground.inner(figure.for_thing, binding), out);
            }
        }
        Code::Call(_, parts) => parts.iter().for_each(|p| value(ground, p, bindings, out)),
        Code::Negate(a) => value(ground, a, bindings, out),
        Code::Arithmetic(_, a, b) => {
            value(ground, a, bindings, out);
            value(ground, b, bindings, out);
        }
        // One of the branches gave the value.
        Code::Choice(branches) => {
            let each = branches.iter().map(|(_, v)| needed(ground, v, bindings));
            out.extend(each.reduce(|a, b| &a & &b).unwrap_or_default());
        }
        Code::Fold { of, thing, .. } => {
            let inner = bindings.with(*thing, Binding::MAX);
            let of = of.iter().flat_map(|of| needed(ground, of, &inner));
            out.extend(of.filter(|l| !belongs(ground, *l, *thing, Binding::MAX)));
        }
        _ => {}
    }
}

fn belongs(ground: &Ground, leaf: Leaf, thing: ThingId, binding: Binding) -> bool {
    match leaf {
        Leaf::Fact(id, b) => b == binding && ground.schema.of(id).thing == thing,
        Leaf::Figure(n, b) => b == binding && ground.book.figures[n as usize].for_thing == Some(thing),
        Leaf::Conclusion(n, b) => b == binding && ground.book.conclusions[n as usize].for_thing == Some(thing),
    }
}

/// Leaves that are known whenever `code`, a condition, is true (or false, if `wanted` is so).
pub fn when(ground: &Ground, code: &Code, wanted: bool, bindings: &Bindings) -> BTreeSet<Leaf> {
    when_within(ground, code, wanted, bindings, 0)
}

/// How many conclusions are followed.
const DEEPEST: usize = 6;

fn when_within(ground: &Ground, code: &Code, wanted: bool, bindings: &Bindings, depth: usize) -> BTreeSet<Leaf> {
    let again = |code: &Code, wanted: bool| when_within(ground, code, wanted, bindings, depth);
    match code {
        Code::Not(a) => again(a, !wanted),
        Code::All(parts) | Code::Any(parts) => {
            let each = parts.iter().map(|p| again(p, wanted));
            match matches!(code, Code::All(_)) == wanted {
                true => each.flatten().collect(),
                false => each.reduce(|a, b| &a & &b).unwrap_or_default(),
            }
        }
        Code::Compare(_, a, b) | Code::SameKind(a, b, _) => &needed(ground, a, bindings) | &needed(ground, b, bindings),
        Code::IsKind(a, ..) => needed(ground, a, bindings),
        Code::Known(a) if wanted => match a.as_ref() {
            Code::Conclusion(n) => BTreeSet::from([conclusion(ground, *n, bindings)]),
            Code::Not(_) | Code::All(_) | Code::Any(_) | Code::Compare(..) => BTreeSet::new(),
            a => needed(ground, a, bindings),
        },
        Code::Exists { thing, with: Some(with), every } if *every != wanted => {
            let inner = bindings.with(*thing, Binding::MAX);
            let of = when_within(ground, with, wanted, &inner, depth);
            of.into_iter().filter(|l| !belongs(ground, *l, *thing, Binding::MAX)).collect()
        }
        Code::Conclusion(n) if depth < DEEPEST => {
            let itself = conclusion(ground, *n, bindings);
            let conclusion = &ground.book.conclusions[*n as usize];
            let inner = ground.inner(conclusion.for_thing, ground.binding_of(conclusion.for_thing, bindings));
            let each = conclusion.by.iter().map(|rule| {
                let conditions = &ground.book.rules[*rule as usize].conditions;
                let each = conditions.iter().map(|c| when_within(ground, &c.code, wanted, &inner, depth + 1));
                match wanted {
                    true => each.flatten().collect::<BTreeSet<_>>(),
                    false => each.reduce(|a, b| &a & &b).unwrap_or_default(),
                }
            });
            let mut out: BTreeSet<Leaf> = match wanted {
                true => each.reduce(|a, b| &a & &b).unwrap_or_default(),
                false => each.flatten().collect(),
            };
            out.insert(itself);
            out
        }
        _ => BTreeSet::new(),
    }
}

fn conclusion(ground: &Ground, n: u16, bindings: &Bindings) -> Leaf {
    Leaf::Conclusion(n, ground.binding_of(ground.book.conclusions[n as usize].for_thing, bindings))
}

/// What is certainly known, given leaves that are.
pub struct Certain<'k, 'b> {
    pub ground: &'k Ground<'b>,
    pub given: &'k BTreeSet<Leaf>,
    /// Things of which there certainly is one.
    pub there: &'k BTreeSet<ThingId>,
}

impl Certain<'_, '_> {
    /// Whether a value is certainly known.
    pub fn value(&self, code: &Code, bindings: &Bindings) -> bool {
        match code {
            Code::Number(n) | Code::Quantity(n, _) => n.is_finite(),
            Code::Fact(id) => {
                self.ground.assumed[id.0 as usize]
                    || leaf(self.ground, code, bindings).is_some_and(|l| self.given.contains(&l))
            }
            Code::Figure(n) => {
                let Some(found @ Leaf::Figure(_, binding)) = leaf(self.ground, code, bindings) else { return false };
                let figure = &self.ground.book.figures[*n as usize];
                self.given.contains(&found)
                    || figure.given.is_some()
                    || self.ground.broken[*n as usize]
                    || self.value(&figure.code, &self.ground.inner(figure.for_thing, binding))
            }
            // A calculation may refuse what it is given, and nothing can be divided by nothing: examples show that.
            Code::Call(_, parts) => parts.iter().all(|p| self.value(p, bindings)),
            Code::Negate(a) => self.value(a, bindings),
            Code::Arithmetic(_, a, b) => self.value(a, bindings) && self.value(b, bindings),
            Code::Choice(branches) => self.choice(branches, bindings),
            Code::Fold { how, of, thing, with } => {
                let inner = bindings.with(*thing, Binding::MAX);
                self.is_there(*thing)
                    && with.iter().all(|w| self.truth(w, &inner))
                    && of.iter().all(|of| self.value(of, &inner))
                    && (matches!(how, Fold::Count | Fold::Sum) || with.is_none() && self.there.contains(thing))
            }
            _ => false,
        }
    }

    /// "x if c else y": where `c` holds, what it needs is known, and where it does not, too.
    fn choice(&self, branches: &[(Option<Code>, Code)], bindings: &Bindings) -> bool {
        let mut given = self.given.clone();
        for (condition, value) in branches {
            let here = Certain { ground: self.ground, given: &given, there: self.there };
            let Some(condition) = condition else {
                // Without a condition, a value that is unknown leaves the choice to the next.
                if here.value(value, bindings) {
                    return true;
                }
                continue;
            };
            if !here.truth(condition, bindings) {
                return false;
            }
            let met = &given | &when(self.ground, condition, true, bindings);
            if !(Certain { ground: self.ground, given: &met, there: self.there }).value(value, bindings) {
                return false;
            }
            given.extend(when(self.ground, condition, false, bindings));
        }
        false
    }

    /// Whether a condition is certainly true or false, not unknown.
    pub fn truth(&self, code: &Code, bindings: &Bindings) -> bool {
        match code {
            Code::Not(a) => self.truth(a, bindings),
            Code::All(parts) | Code::Any(parts) => self.parts(parts, matches!(code, Code::All(_)), bindings),
            Code::Compare(_, a, b) | Code::SameKind(a, b, _) => self.value(a, bindings) && self.value(b, bindings),
            Code::IsKind(a, ..) => self.value(a, bindings),
            Code::Known(_) => true,
            Code::Exists { thing, with, .. } => {
                let inner = bindings.with(*thing, Binding::MAX);
                self.is_there(*thing) && with.iter().all(|w| self.truth(w, &inner))
            }
            Code::Conclusion(n) => {
                if self.given.contains(&conclusion(self.ground, *n, bindings)) {
                    return true;
                }
                let conclusion = &self.ground.book.conclusions[*n as usize];
                let inner =
                    self.ground.inner(conclusion.for_thing, self.ground.binding_of(conclusion.for_thing, bindings));
                let mut rules = conclusion.by.iter().map(|r| &self.ground.book.rules[*r as usize]);
                rules.all(|r| r.conditions.iter().all(|c| self.truth(&c.code, &inner)))
            }
            _ => false,
        }
    }

    /// "x is known and x < 4" is never unknown: where the first is false, the second does not matter.
    fn parts(&self, parts: &[Code], all: bool, bindings: &Bindings) -> bool {
        let (decided, rest): (Vec<&Code>, Vec<&Code>) = parts.iter().partition(|p| self.truth(p, bindings));
        if rest.is_empty() {
            return true;
        }
        let mut given = self.given.clone();
        decided.iter().for_each(|p| given.extend(when(self.ground, p, all, bindings)));
        let more = Certain { ground: self.ground, given: &given, there: self.there };
        given.len() > self.given.len() && rest.iter().all(|p| more.truth(p, bindings))
    }

    /// How many there are of it is known.
    fn is_there(&self, thing: ThingId) -> bool {
        self.ground.is_closed(thing) || self.there.contains(&thing)
    }
}

/// Things of which there certainly is one when `code` is true.
pub fn there(code: &Code, out: &mut BTreeSet<ThingId>) {
    match code {
        Code::All(parts) => parts.iter().for_each(|p| there(p, out)),
        Code::Exists { every: false, thing, .. } => {
            out.insert(*thing);
        }
        _ => {}
    }
}

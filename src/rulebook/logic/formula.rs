//! Conditions as formulae over atoms: code that must be true, or must be false, turned into "all of", "any of" and atoms
//! on numbered terms. In: code and what is bound. Out: formulae, and the terms they are about. Knows no value.

use super::known::Leaf;
use super::{Binding, Bindings, Ground, Interval, known};
use crate::knowledge::schema::{Kinds, Symbol};
use crate::rulebook::code::Code;
use crate::rulebook::expr::tree::Comparison;
use std::collections::HashMap;
use std::rc::Rc;

/// A term by its number.
pub type TermId = u32;

#[derive(Clone, Debug)]
pub enum Formula {
    Always,
    Never,
    /// A quantity lies in an interval.
    Within(TermId, Interval),
    /// A quantity is not this number.
    Other(TermId, f64),
    /// A kind is this one, or is not.
    Kind(TermId, Symbol, bool),
    /// Something holds, or does not.
    Holds(TermId, bool),
    All(Vec<Rc<Formula>>),
    Any(Vec<Rc<Formula>>),
}

/// What a term is about.
#[derive(Clone, Debug)]
pub enum Term<'b> {
    /// A quantity that is compared with a number.
    Value(&'b Code, Bindings),
    /// The difference of two quantities that are compared.
    Difference(&'b Code, &'b Code, Bindings),
    /// A fact that has one kind out of a list of so many.
    Kind(usize),
    Conclusion(u16, Binding),
    /// Whether a leaf is known.
    Known,
    /// Anything else that holds or not.
    Opaque,
}

/// Formulae and their terms; the same words always give the same term.
pub struct Formulas<'b> {
    pub ground: &'b Ground<'b>,
    pub terms: Vec<Term<'b>>,
    by_key: HashMap<String, TermId>,
    /// Terms of facts and figures, to find what is said of them while a formula is evaluated.
    pub of_leaf: HashMap<Leaf, TermId>,
    next_binding: Binding,
}

impl<'b> Formulas<'b> {
    pub fn new(ground: &'b Ground<'b>) -> Self {
        Self { ground, terms: vec![], by_key: HashMap::new(), of_leaf: HashMap::new(), next_binding: 1 }
    }

    fn term(&mut self, key: String, make: impl FnOnce() -> Term<'b>) -> TermId {
        if let Some(id) = self.by_key.get(&key) {
            return *id;
        }
        let id = self.terms.len() as TermId;
        self.terms.push(make());
        self.by_key.insert(key, id);
        id
    }

    /// The formula that says: `code` is true (or false, if `wanted` is so).
    pub fn of(&mut self, code: &'b Code, wanted: bool, bindings: &Bindings) -> Rc<Formula> {
        Rc::new(match code {
            Code::Not(inner) => return self.of(inner, !wanted, bindings),
            Code::All(parts) | Code::Any(parts) => {
                let parts: Vec<_> = parts.iter().map(|p| self.of(p, wanted, bindings)).collect();
                match matches!(code, Code::All(_)) == wanted {
                    true => Formula::All(parts),
                    false => Formula::Any(parts),
                }
            }
            Code::Compare(how, left, right) => self.compare(*how, left, right, wanted, bindings),
            Code::IsKind(fact, symbol, equal) => self.is_kind(fact, *symbol, *equal == wanted, bindings),
            Code::Conclusion(n) => {
                let binding = self.ground.binding_of(self.ground.book.conclusions[*n as usize].for_thing, bindings);
                let term = self.term(format!("conclusion {n} {binding}"), || Term::Conclusion(*n, binding));
                Formula::Holds(term, wanted)
            }
            Code::Known(inner) => self.known(inner, wanted, bindings),
            Code::Exists { every, thing, with } => {
                let key = key(self.ground, code, bindings);
                let holds = Formula::Holds(self.term(key, || Term::Opaque), wanted);
                // "Any" is true of one that is not named: what must hold of it, must be possible together.
                match with {
                    Some(with) if *every != wanted => {
                        let binding = self.next_binding;
                        self.next_binding += 1;
                        let inner = self.of(with, wanted, &bindings.with(*thing, binding));
                        Formula::All(vec![Rc::new(holds), inner])
                    }
                    _ => holds,
                }
            }
            other => {
                let key = key(self.ground, other, bindings);
                Formula::Holds(self.term(key, || Term::Opaque), wanted)
            }
        })
    }

    fn compare(
        &mut self,
        how: Comparison,
        left: &'b Code,
        right: &'b Code,
        wanted: bool,
        bindings: &Bindings,
    ) -> Formula {
        let how = if wanted { how } else { how.denied() };
        let (value, how, number) = match (constant(left), constant(right)) {
            (Some(a), Some(b)) => return if how.holds(a, b) { Formula::Always } else { Formula::Never },
            (None, Some(number)) => (left, how, number),
            (Some(number), None) => (right, how.mirrored(), number),
            (None, None) => return self.compare_two(how, left, right, bindings),
        };
        let term = self.term(key(self.ground, value, bindings), || Term::Value(value, bindings.clone()));
        self.note_leaf(value, term, bindings);
        let mut parts = vec![Rc::new(within(how, term, number))];
        self.knows(value, bindings, &mut parts);
        Formula::All(parts)
    }

    fn compare_two(&mut self, how: Comparison, left: &'b Code, right: &'b Code, bindings: &Bindings) -> Formula {
        let (a, b) = (key(self.ground, left, bindings), key(self.ground, right, bindings));
        if a == b {
            return if how.holds(0.0, 0.0) { Formula::Always } else { Formula::Never };
        }
        let (left, right, how, a, b) =
            if a < b { (left, right, how, a, b) } else { (right, left, how.mirrored(), b, a) };
        let term = self.term(format!("{a} - {b}"), || Term::Difference(left, right, bindings.clone()));
        let mut parts = vec![Rc::new(within(how, term, 0.0))];
        self.knows(left, bindings, &mut parts);
        self.knows(right, bindings, &mut parts);
        Formula::All(parts)
    }

    /// A value that was compared is known, and so is everything that it needs.
    fn knows(&mut self, value: &'b Code, bindings: &Bindings, parts: &mut Vec<Rc<Formula>>) {
        for leaf in known::needed(self.ground, value, bindings) {
            parts.push(Rc::new(self.leaf_known(leaf, true)));
        }
    }

    fn leaf_known(&mut self, leaf: Leaf, wanted: bool) -> Formula {
        if let Leaf::Fact(id, _) = leaf
            && self.ground.assumed[id.0 as usize]
        {
            return if wanted { Formula::Always } else { Formula::Never };
        }
        Formula::Holds(self.term(format!("known {leaf:?}"), || Term::Known), wanted)
    }

    fn note_leaf(&mut self, value: &Code, term: TermId, bindings: &Bindings) {
        if let Some(leaf) = known::leaf(self.ground, value, bindings) {
            self.of_leaf.insert(leaf, term);
        }
    }

    fn is_kind(&mut self, fact: &'b Code, symbol: Symbol, wanted: bool, bindings: &Bindings) -> Formula {
        let Code::Fact(id) = fact else {
            let key = format!("{} ~ {}", key(self.ground, fact, bindings), symbol.0);
            return Formula::Holds(self.term(key, || Term::Opaque), wanted);
        };
        let attribute = self.ground.schema.of(*id);
        let name = key(self.ground, fact, bindings);
        let kind = match &attribute.kinds {
            Kinds::List(list) if !attribute.looked_up => {
                let term = self.term(name, || Term::Kind(list.len()));
                self.note_leaf(fact, term, bindings);
                Formula::Kind(term, symbol, wanted)
            }
            // A table may hold several kinds at once.
            _ => Formula::Holds(self.term(format!("{name} ~ {}", symbol.0), || Term::Opaque), wanted),
        };
        let mut parts = vec![Rc::new(kind)];
        self.knows(fact, bindings, &mut parts);
        Formula::All(parts)
    }

    fn known(&mut self, inner: &'b Code, wanted: bool, bindings: &Bindings) -> Formula {
        if wanted {
            let mut parts: Vec<Rc<Formula>> = Vec::new();
            if known::leaf(self.ground, inner, bindings).is_none() {
                let key = format!("known {}", key(self.ground, inner, bindings));
                parts.push(Rc::new(Formula::Holds(self.term(key, || Term::Opaque), true)));
            }
            self.knows(inner, bindings, &mut parts);
            return Formula::All(parts);
        }
        match known::leaf(self.ground, inner, bindings) {
            Some(leaf) => self.leaf_known(leaf, false),
            None => {
                let key = format!("known {}", key(self.ground, inner, bindings));
                Formula::Holds(self.term(key, || Term::Opaque), false)
            }
        }
    }
}

fn within(how: Comparison, term: TermId, number: f64) -> Formula {
    match how {
        Comparison::Less => Formula::Within(term, Interval::below(number, true)),
        Comparison::LessOrEqual => Formula::Within(term, Interval::below(number, false)),
        Comparison::Greater => Formula::Within(term, Interval::above(number, true)),
        Comparison::GreaterOrEqual => Formula::Within(term, Interval::above(number, false)),
        Comparison::Equal => Formula::Within(term, Interval::exactly(number)),
        Comparison::NotEqual => Formula::Other(term, number),
    }
}

/// The number that a piece of code always gives.
pub fn constant(code: &Code) -> Option<f64> {
    use crate::rulebook::expr::tree::Arithmetic;
    match code {
        Code::Number(n) | Code::Quantity(n, _) => Some(*n),
        Code::Negate(a) => constant(a).map(|n| -n),
        Code::Arithmetic(how, a, b) => {
            let (a, b) = (constant(a)?, constant(b)?);
            Some(match how {
                Arithmetic::Add => a + b,
                Arithmetic::Subtract => a - b,
                Arithmetic::Multiply => a * b,
                Arithmetic::Divide => a / b,
                Arithmetic::Power => a.powf(b),
            })
        }
        _ => None,
    }
}

/// Parts without "x is known" where another part compares x: whenever that one is true, x is known.
fn without_known<'p>(ground: &Ground, parts: &'p [Code], bindings: &Bindings) -> Vec<&'p Code> {
    let asks = |part: &Code| match part {
        Code::Known(inner) => known::leaf(ground, inner, bindings),
        _ => None,
    };
    let told: Vec<known::Leaf> =
        parts.iter().filter(|p| asks(p).is_none()).flat_map(|p| known::when(ground, p, true, bindings)).collect();
    parts.iter().filter(|p| asks(p).is_none_or(|leaf| !told.contains(&leaf))).collect()
}

/// A text that is the same for code that means the same.
pub fn key(ground: &Ground, code: &Code, bindings: &Bindings) -> String {
    let of = |code: &Code| key(ground, code, bindings);
    let list = |parts: &[Code]| parts.iter().map(of).collect::<Vec<_>>().join(",");
    match code {
        Code::Number(n) | Code::Quantity(n, _) => format!("{n:?}"),
        Code::Fact(id) => format!("fact {} {}", id.0, ground.binding(*id, bindings)),
        Code::Figure(n) => {
            format!("figure {n} {}", ground.binding_of(ground.book.figures[*n as usize].for_thing, bindings))
        }
        Code::Conclusion(n) => {
            format!("conclusion {n} {}", ground.binding_of(ground.book.conclusions[*n as usize].for_thing, bindings))
        }
        Code::Call(signature, arguments) => format!("{}({})", signature.name, list(arguments)),
        Code::Not(a) => format!("not({})", of(a)),
        Code::All(parts) => match &without_known(ground, parts, bindings)[..] {
            [one] => of(one),
            parts => format!("all({})", parts.iter().map(|p| of(p)).collect::<Vec<_>>().join(",")),
        },
        Code::Any(parts) => format!("any({})", list(parts)),
        Code::Compare(how, a, b) => format!("({} {} {})", of(a), how.sign(), of(b)),
        Code::IsKind(a, symbol, equal) => format!("({} is {} {equal})", of(a), symbol.0),
        Code::SameKind(a, b, equal) => format!("({} same {} {equal})", of(a), of(b)),
        Code::Known(a) => format!("known({})", of(a)),
        Code::Negate(a) => format!("-({})", of(a)),
        Code::Arithmetic(how, a, b) => format!("({} {} {})", of(a), how.sign(), of(b)),
        Code::Exists { every, thing, with } => {
            let inner = bindings.with(*thing, Binding::MAX);
            let with = with.as_ref().map_or(String::new(), |w| key(ground, w, &inner));
            format!("exists {every} {} ({with}) {}", thing.0, ground.owner(*thing, bindings))
        }
        Code::Fold { how, of, thing, with } => {
            let inner = bindings.with(*thing, Binding::MAX);
            let part = |code: &Option<Box<Code>>| code.as_ref().map_or(String::new(), |c| key(ground, c, &inner));
            let owner = ground.owner(*thing, bindings);
            format!("{how:?} {} ({}) ({}) {owner}", thing.0, part(of), part(with))
        }
        Code::Choice(branches) => {
            let branch = |(condition, value): &(Option<Code>, Code)| {
                format!("{} if {}", of(value), condition.as_ref().map_or(String::new(), of))
            };
            format!("choice({})", branches.iter().map(branch).collect::<Vec<_>>().join(";"))
        }
    }
}

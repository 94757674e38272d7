//! Whether formulae can be true together. In: formulae. Out: no, if certainly not; yes otherwise. Alternatives are tried
//! one by one, up to a limit beyond which everything counts as possible.

use super::eval::{Evaluation, Said};
use super::formula::{Formula, Formulas, Term, TermId};
use super::known::Leaf;
use super::{Binding, Bindings, Interval};
use crate::knowledge::schema::Symbol;
use std::collections::{BTreeMap, HashMap};
use std::rc::Rc;

/// How many alternatives are tried before giving up.
const MOST: usize = 400;
/// How far conclusions are followed to the rules that conclude them.
const DEEPEST: usize = 5;

/// What formulae say of one term.
#[derive(Clone, Debug, Default)]
struct Domain {
    within: Option<Interval>,
    not: Vec<f64>,
    only: Option<Symbol>,
    except: Vec<Symbol>,
    holds: Option<bool>,
}

type Context = BTreeMap<TermId, Domain>;

/// Tries formulae of one book.
pub struct Solver<'f, 'b> {
    pub formulas: &'f mut Formulas<'b>,
    /// Conclusions are followed to the rules that conclude them.
    pub follow: bool,
    concluded: HashMap<(u16, Binding, bool), Rc<Formula>>,
    tried: usize,
}

impl<'f, 'b> Solver<'f, 'b> {
    pub fn new(formulas: &'f mut Formulas<'b>, follow: bool) -> Self {
        Self { formulas, follow, concluded: HashMap::new(), tried: 0 }
    }

    /// Whether all of `formulas` may be true at once.
    pub fn possible(&mut self, formulas: &[Rc<Formula>]) -> bool {
        self.tried = 0;
        let open = formulas.iter().map(|f| (f.clone(), 0)).collect();
        self.search(open, vec![], Context::new())
    }

    fn search(
        &mut self,
        mut open: Vec<(Rc<Formula>, usize)>,
        mut choices: Vec<(Rc<Formula>, usize)>,
        mut context: Context,
    ) -> bool {
        self.tried += 1;
        if self.tried > MOST {
            return true;
        }
        while let Some((formula, depth)) = open.pop() {
            match formula.as_ref() {
                Formula::Always => {}
                Formula::Never => return false,
                Formula::All(parts) => open.extend(parts.iter().map(|p| (p.clone(), depth))),
                Formula::Any(parts) if parts.len() == 1 => open.push((parts[0].clone(), depth)),
                Formula::Any(_) => choices.push((formula, depth)),
                Formula::Holds(term, wanted) => {
                    let domain = context.entry(*term).or_default();
                    match domain.holds {
                        Some(before) if before != *wanted => return false,
                        Some(_) => {}
                        None => {
                            domain.holds = Some(*wanted);
                            open.extend(self.follow(*term, *wanted, depth));
                        }
                    }
                }
                atom => {
                    if !self.take(atom, &mut context) {
                        return false;
                    }
                }
            }
        }
        if !self.consistent(&context) {
            return false;
        }
        let Some((choice, depth)) = choices.pop() else { return true };
        let Formula::Any(parts) = choice.as_ref() else { return true };
        parts.iter().any(|part| self.search(vec![(part.clone(), depth)], choices.clone(), context.clone()))
    }

    /// Adds an atom to what is said; false when it contradicts.
    fn take(&self, atom: &Formula, context: &mut Context) -> bool {
        match atom {
            Formula::Within(term, interval) => {
                let domain = context.entry(*term).or_default();
                let within = domain.within.map_or(*interval, |w| w.meet(*interval));
                domain.within = Some(within);
                !(within.is_empty() || within.is_point() && domain.not.contains(&within.low))
            }
            Formula::Other(term, number) => {
                let domain = context.entry(*term).or_default();
                domain.not.push(*number);
                !domain.within.is_some_and(|w| w.is_point() && w.low == *number)
            }
            Formula::Kind(term, symbol, true) => {
                let domain = context.entry(*term).or_default();
                let fits = domain.only.is_none_or(|o| o == *symbol) && !domain.except.contains(symbol);
                domain.only = Some(*symbol);
                fits
            }
            Formula::Kind(term, symbol, false) => {
                let domain = context.entry(*term).or_default();
                if !domain.except.contains(symbol) {
                    domain.except.push(*symbol);
                }
                let count = match self.formulas.terms[*term as usize] {
                    Term::Kind(count) => count,
                    _ => usize::MAX,
                };
                domain.only != Some(*symbol) && domain.except.len() < count
            }
            _ => true,
        }
    }

    /// Whether every quantity that something is said of may have such a value, given what is said of the others.
    fn consistent(&self, context: &Context) -> bool {
        let said = Saying { formulas: self.formulas, context };
        let evaluation = Evaluation::new(self.formulas.ground, &said);
        context.iter().all(|(term, domain)| {
            if domain.within.is_none() && domain.not.is_empty() {
                return true;
            }
            let possible = match &self.formulas.terms[*term as usize] {
                Term::Value(code, bindings) => evaluation.value(code, bindings),
                Term::Difference(a, b, bindings) => evaluation.value(a, bindings).minus(evaluation.value(b, bindings)),
                _ => return true,
            };
            let left = domain.within.map_or(possible, |w| w.meet(possible));
            !(left.is_empty() || left.is_point() && domain.not.contains(&left.low))
        })
    }

    /// What follows from a conclusion that holds, or does not: one of its rules holds, or none.
    fn follow(&mut self, term: TermId, wanted: bool, depth: usize) -> Option<(Rc<Formula>, usize)> {
        let Term::Conclusion(n, binding) = self.formulas.terms[term as usize] else { return None };
        if !self.follow || depth >= DEEPEST {
            return None;
        }
        if let Some(formula) = self.concluded.get(&(n, binding, wanted)) {
            return Some((formula.clone(), depth + 1));
        }
        let book = self.formulas.ground.book;
        let conclusion = &book.conclusions[n as usize];
        let bindings = self.formulas.ground.inner(conclusion.for_thing, binding);
        let each: Vec<Rc<Formula>> = conclusion
            .by
            .iter()
            .map(|rule| {
                let conditions = &book.rules[*rule as usize].conditions;
                let each = conditions.iter().map(|c| self.formulas.of(&c.code, wanted, &bindings)).collect();
                Rc::new(if wanted { Formula::All(each) } else { Formula::Any(each) })
            })
            .collect();
        let formula = Rc::new(if wanted { Formula::Any(each) } else { Formula::All(each) });
        self.concluded.insert((n, binding, wanted), formula.clone());
        Some((formula, depth + 1))
    }
}

/// What a context says of leaves.
struct Saying<'c, 'b> {
    formulas: &'c Formulas<'b>,
    context: &'c Context,
}

impl Saying<'_, '_> {
    fn domain(&self, leaf: Leaf) -> Option<&Domain> {
        self.context.get(self.formulas.of_leaf.get(&leaf)?)
    }
}

impl Said for Saying<'_, '_> {
    fn interval(&self, leaf: Leaf) -> Option<Interval> {
        self.domain(leaf)?.within
    }

    fn kind(&self, leaf: Leaf, symbol: Symbol) -> (bool, bool) {
        match self.domain(leaf) {
            Some(domain) => match domain.only {
                Some(only) => (only == symbol, only != symbol),
                None => (!domain.except.contains(&symbol), true),
            },
            None => (true, true),
        }
    }

    fn conclusion(&self, n: u16, binding: Binding) -> (bool, bool) {
        let found = self.context.iter().find(|(term, domain)| {
            domain.holds.is_some()
                && matches!(self.formulas.terms[**term as usize], Term::Conclusion(m, b) if (m, b) == (n, binding))
        });
        match found.and_then(|(_, d)| d.holds) {
            Some(holds) => (holds, !holds),
            None => (true, true),
        }
    }
}

/// Formulae of all conditions of one rule, true and false.
pub struct RuleFormulas {
    pub holds: Vec<Rc<Formula>>,
    pub denied: Vec<Rc<Formula>>,
}

impl RuleFormulas {
    pub fn of(formulas: &mut Formulas, rule: u16) -> Self {
        let book = formulas.ground.book;
        let rule = &book.rules[rule as usize];
        let bindings = rule.for_thing.map_or(Bindings::default(), |t| Bindings::default().with(t, 0));
        let holds = rule.conditions.iter().map(|c| formulas.of(&c.code, true, &bindings)).collect();
        let denied = rule.conditions.iter().map(|c| formulas.of(&c.code, false, &bindings)).collect();
        Self { holds, denied }
    }
}

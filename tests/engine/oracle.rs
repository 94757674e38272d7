//! The oracle: a slow, obvious evaluator. It walks the trees of the rules as they are written, knows everything by its
//! name, and repeats until nothing changes. It shares the reader of expressions with the program and nothing else.

use super::made::{Facts, Outcome};
use std::collections::BTreeMap;
use weirline::engine::Truth;
use weirline::knowledge::vocabulary::{Sort, Vocabulary};
use weirline::rulebook::expr::parse::parse;
use weirline::rulebook::expr::tree::{Arithmetic, Expr, Fold, Node};
use weirline::rulebook::raw::RuleFile;
use weirline::units::parse as quantity;

/// A value: nothing is known, a number, or a kind.
#[derive(Clone, Debug, PartialEq)]
enum Known {
    Nothing,
    Number(f64),
    Kind(String),
    Truth(Truth),
}

/// Rules by name, each with the instance it is for.
type Spoken = Vec<(String, u16)>;

/// Which instance of each thing is meant.
type Meant = BTreeMap<String, u16>;

pub struct Oracle<'o> {
    vocabulary: &'o Vocabulary,
    files: &'o [RuleFile],
    facts: &'o Facts,
    figures: BTreeMap<(String, u16), Known>,
    rules: BTreeMap<(String, u16), Truth>,
}

/// Works everything out.
pub fn outcome(vocabulary: &Vocabulary, files: &[RuleFile], facts: &Facts) -> Outcome {
    let mut oracle = Oracle { vocabulary, files, facts, figures: BTreeMap::new(), rules: BTreeMap::new() };
    loop {
        let before = (oracle.figures.clone(), oracle.rules.clone());
        oracle.pass();
        if before == (oracle.figures.clone(), oracle.rules.clone()) {
            return oracle.told();
        }
    }
}

impl Oracle<'_> {
    fn count(&self, thing: &str) -> u16 {
        match self.vocabulary.thing(thing).is_some_and(|t| t.is_several()) {
            true => self.facts.counts.get(thing).copied().unwrap_or(0),
            false => 1,
        }
    }

    /// Instances of what a figure or rule is for; one when it is for the whole.
    fn instances(&self, thing: Option<&String>) -> u16 {
        thing.map_or(1, |t| self.count(t))
    }

    fn meant(&self, thing: Option<&String>, instance: u16) -> Meant {
        thing.map(|t| (t.clone(), instance)).into_iter().collect()
    }

    fn pass(&mut self) {
        for file in self.files {
            for figure in &file.figures {
                let tree = parse(&figure.is).expect("a formula");
                for n in 0..self.instances(figure.for_thing.as_ref()) {
                    let value = self.value(&tree, &self.meant(figure.for_thing.as_ref(), n));
                    self.figures.insert((figure.figure.clone(), n), value);
                }
            }
            for rule in &file.rules {
                for n in 0..self.instances(rule.for_thing.as_ref()) {
                    let meant = self.meant(rule.for_thing.as_ref(), n);
                    let all = rule.when.iter().map(|text| self.truth(&parse(text).expect("a condition"), &meant));
                    let truth = all.fold(Truth::True, and);
                    self.rules.insert((rule.rule.clone(), n), truth);
                }
            }
        }
    }

    fn conclusion(&self, name: &str, instance: u16) -> Truth {
        let rules = self.files.iter().flat_map(|f| &f.rules).filter(|r| r.conclude.iter().any(|c| c == name));
        let each = rules.map(|r| self.rules.get(&(r.rule.clone(), instance)).copied().unwrap_or(Truth::Unknown));
        each.fold(Truth::False, or)
    }

    /// The thing that something named belongs to.
    fn thing_of(&self, name: &str) -> Option<&String> {
        let figures = self.files.iter().flat_map(|f| &f.figures).filter(|f| f.figure == name);
        let rules = self.files.iter().flat_map(|f| &f.rules).filter(|r| r.conclude.iter().any(|c| c == name));
        figures.map(|f| f.for_thing.as_ref()).chain(rules.map(|r| r.for_thing.as_ref())).next().flatten()
    }

    fn named(&self, name: &str, meant: &Meant) -> Known {
        if let Some((thing, attribute)) = name.split_once('.') {
            return self.fact(thing, attribute, meant);
        }
        let instance = self.thing_of(name).map_or(0, |t| meant[t]);
        if let Some(value) = self.figures.get(&(name.to_string(), instance)) {
            return value.clone();
        }
        if self.files.iter().flat_map(|f| &f.figures).any(|f| f.figure == name) {
            return Known::Nothing;
        }
        if self.files.iter().flat_map(|f| &f.rules).any(|r| r.conclude.iter().any(|c| c == name)) {
            return Known::Truth(self.conclusion(name, instance));
        }
        let bound = meant.keys().find(|t| self.vocabulary.attribute(t, name).is_some()).expect("a bound attribute");
        self.fact(bound, name, meant)
    }

    fn fact(&self, thing: &str, attribute: &str, meant: &Meant) -> Known {
        let instance = meant.get(thing).copied().unwrap_or(0);
        let said = self.facts.values.iter().rev().find(|(t, n, a, _)| t == thing && *n == instance && a == attribute);
        match (said, self.vocabulary.attribute(thing, attribute).expect("an attribute").sort()) {
            (None, _) => Known::Nothing,
            (Some((.., text)), Sort::Quantity(_)) => {
                Known::Number(quantity::quantity(text).expect("a quantity").base().likely.expect("a value"))
            }
            (Some((.., text)), _) => Known::Kind(text.clone()),
        }
    }

    fn number(&self, expr: &Expr, meant: &Meant) -> Option<f64> {
        match self.value(expr, meant) {
            Known::Number(n) => Some(n),
            _ => None,
        }
    }

    fn value(&self, expr: &Expr, meant: &Meant) -> Known {
        let finite = |n: Option<f64>| n.filter(|n| n.is_finite()).map_or(Known::Nothing, Known::Number);
        match &expr.node {
            Node::Number { value, unit } => Known::Number(unit.map_or(*value, |u| u.to_base(*value))),
            Node::Name(name) => self.named(name, meant),
            Node::Negate(a) => finite(self.number(a, meant).map(|n| -n)),
            Node::Arithmetic { how, left, right } => {
                let (Some(a), Some(b)) = (self.number(left, meant), self.number(right, meant)) else {
                    return Known::Nothing;
                };
                finite(Some(match how {
                    Arithmetic::Add => a + b,
                    Arithmetic::Subtract => a - b,
                    Arithmetic::Multiply => a * b,
                    Arithmetic::Divide => a / b,
                    Arithmetic::Power => a.powf(b),
                }))
            }
            Node::Else(..) | Node::If { .. } => self.choice(expr, meant),
            Node::Fold { how, of, thing, with, .. } => self.fold(*how, of.as_deref(), thing, with.as_deref(), meant),
            Node::Call { .. } => panic!("made-up worlds call no calculation"),
            _ => Known::Truth(self.truth(expr, meant)),
        }
    }

    /// `a if c else b else d`: the first whose condition holds; without a condition, the first that is known.
    fn choice(&self, expr: &Expr, meant: &Meant) -> Known {
        let mut branches = vec![];
        let mut rest = expr;
        while let Node::Else(first, last) = &rest.node {
            branches.insert(0, last.as_ref());
            rest = first;
        }
        branches.insert(0, rest);
        for branch in branches {
            match &branch.node {
                Node::If { value, condition } => match self.truth(condition, meant) {
                    Truth::True => return self.value(value, meant),
                    Truth::Unknown => return Known::Nothing,
                    Truth::False => {}
                },
                _ => match self.value(branch, meant) {
                    Known::Nothing => {}
                    known => return known,
                },
            }
        }
        Known::Nothing
    }

    /// Instances of a thing that may be meant: those that belong to another owner are not.
    fn all_of(&self, thing: &str, meant: &Meant) -> Vec<u16> {
        let belongs = |n: &u16| {
            let owner = self.facts.owners.iter().find(|(t, m, ..)| t == thing && m == n);
            owner.is_none_or(|(_, _, owner, own)| meant.get(owner).is_none_or(|asked| asked == own))
        };
        (0..self.count(thing)).filter(belongs).collect()
    }

    fn each(&self, thing: &str, with: Option<&Expr>, meant: &Meant) -> Vec<(Meant, Truth)> {
        let all = self.all_of(thing, meant).into_iter().map(|n| {
            let mut inner = meant.clone();
            inner.insert(thing.to_string(), n);
            let truth = with.map_or(Truth::True, |w| self.truth(w, &inner));
            (inner, truth)
        });
        all.collect()
    }

    fn fold(&self, how: Fold, of: Option<&Expr>, thing: &str, with: Option<&Expr>, meant: &Meant) -> Known {
        let each = self.each(thing, with, meant);
        if each.is_empty() && !self.facts.closed.iter().any(|t| t == thing) {
            return Known::Nothing;
        }
        let mut numbers = Vec::new();
        for (inner, truth) in each {
            match truth {
                Truth::False => {}
                Truth::Unknown => return Known::Nothing,
                Truth::True => match of.map_or(Some(1.0), |of| self.number(of, &inner)) {
                    Some(number) => numbers.push(number),
                    None => return Known::Nothing,
                },
            }
        }
        match how {
            Fold::Count | Fold::Sum => Known::Number(numbers.iter().sum()),
            Fold::Least => numbers.into_iter().reduce(f64::min).map_or(Known::Nothing, Known::Number),
            Fold::Greatest => numbers.into_iter().reduce(f64::max).map_or(Known::Nothing, Known::Number),
        }
    }

    fn truth(&self, expr: &Expr, meant: &Meant) -> Truth {
        match &expr.node {
            Node::Not(a) => not(self.truth(a, meant)),
            Node::And(a, b) => and(self.truth(a, meant), self.truth(b, meant)),
            Node::Or(a, b) => or(self.truth(a, meant), self.truth(b, meant)),
            Node::Known(a) => Truth::of(!matches!(self.value(a, meant), Known::Nothing | Known::Truth(Truth::Unknown))),
            Node::Compare { how, left, right } => {
                let a = self.value(left, meant);
                // A kind is compared with a word, not with what the word might mean elsewhere.
                let b = match (&a, &right.node, left_is_kind(self, left)) {
                    (_, Node::Name(word), true) if !word.contains('.') => Known::Kind(word.clone()),
                    _ => self.value(right, meant),
                };
                match (a, b) {
                    (Known::Number(a), Known::Number(b)) => Truth::of(how.holds(a, b)),
                    (Known::Kind(a), Known::Kind(b)) => Truth::of((a == b) == (how.sign() == "=")),
                    _ => Truth::Unknown,
                }
            }
            Node::Exists { every, thing, with, .. } => {
                let each = self.each(thing, with.as_deref(), meant);
                if each.is_empty() && !self.facts.closed.iter().any(|t| t == thing) {
                    return Truth::Unknown;
                }
                match every {
                    true => each.into_iter().map(|(_, t)| t).fold(Truth::True, and),
                    false => each.into_iter().map(|(_, t)| t).fold(Truth::False, or),
                }
            }
            _ => match self.value(expr, meant) {
                Known::Truth(truth) => truth,
                _ => Truth::Unknown,
            },
        }
    }

    fn told(&self) -> Outcome {
        let number = |known: &Known| if let Known::Number(n) = known { Some(*n) } else { None };
        let mut conclusions = BTreeMap::new();
        for rule in self.files.iter().flat_map(|f| &f.rules) {
            for name in &rule.conclude {
                for n in 0..self.instances(rule.for_thing.as_ref()) {
                    conclusions.insert((name.clone(), n), self.conclusion(name, n));
                }
            }
        }
        let (speaking, outranked) = self.ranked();
        Outcome {
            figures: self.figures.iter().map(|(key, value)| (key.clone(), number(value))).collect(),
            rules: self.rules.clone(),
            conclusions,
            speaking,
            outranked,
        }
    }

    /// A rule that holds speaks unless one that outranks it, for the same thing, speaks. Repeated from the top down.
    fn ranked(&self) -> (Spoken, Spoken) {
        let rules: Vec<_> = self.files.iter().flat_map(|f| &f.rules).collect();
        let holds: Spoken = self.rules.iter().filter(|(_, t)| t.is_true()).map(|(key, _)| key.clone()).collect();
        let raw = |name: &str| rules.iter().find(|r| r.rule == name).expect("a rule");
        let mut decided: BTreeMap<(String, u16), bool> = BTreeMap::new();
        while decided.len() < holds.len() {
            for own in &holds {
                let above: Vec<&(String, u16)> = holds
                    .iter()
                    .filter(|other| {
                        let (upper, lower) = (raw(&other.0), raw(&own.0));
                        let same = upper.for_thing != lower.for_thing || lower.for_thing.is_none() || other.1 == own.1;
                        same && upper.outranks.iter().any(|o| o.rule == own.0)
                    })
                    .collect();
                if above.iter().all(|a| decided.contains_key(*a)) {
                    let silenced = above.iter().any(|a| decided[*a]);
                    decided.insert(own.clone(), !silenced);
                }
            }
        }
        let of = |wanted: bool| decided.iter().filter(|(_, s)| **s == wanted).map(|(key, _)| key.clone()).collect();
        (of(true), of(false))
    }
}

fn left_is_kind(oracle: &Oracle, left: &Expr) -> bool {
    let Node::Name(name) = &left.node else { return false };
    let attribute = name.rsplit_once('.').map_or(name.as_str(), |(_, a)| a);
    let thing = name.split_once('.').map(|(t, _)| t);
    let mut things = oracle.vocabulary.things.iter().filter(|t| thing.is_none_or(|n| t.thing == n));
    things.any(|t| t.attribute(attribute).is_some_and(|a| a.sort() == Sort::Kind))
}

fn not(a: Truth) -> Truth {
    match a {
        Truth::True => Truth::False,
        Truth::False => Truth::True,
        Truth::Unknown => Truth::Unknown,
    }
}

fn and(a: Truth, b: Truth) -> Truth {
    match (a, b) {
        (Truth::False, _) | (_, Truth::False) => Truth::False,
        (Truth::True, Truth::True) => Truth::True,
        _ => Truth::Unknown,
    }
}

fn or(a: Truth, b: Truth) -> Truth {
    not(and(not(a), not(b)))
}

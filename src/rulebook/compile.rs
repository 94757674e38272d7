//! Checks and compiles one expression. In: its tree, the schema, the names of figures and conclusions, what is bound.
//! Out: code with its type, and every fault of names, kinds and dimensions in it. Knows no file.

use super::code::Code;
use super::expr::token::ExprFault;
use super::expr::tree::{Arithmetic, Comparison, Expr, Fold, Node};
use super::mismatch::{missing_unit, other_unit, wrong_dimension};
use super::names::{Meaning, Names};
use crate::knowledge::schema::{AttributeId, Schema, ThingId};
use crate::knowledge::vocabulary::Sort;
use crate::source::Span;
use crate::source::words::ticked;
use crate::units::Dimension;
use crate::water::signatures;

/// What sort of value an expression gives.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Type {
    Quantity(Dimension),
    /// One of the kinds of that attribute.
    Kind(AttributeId),
    Truth,
    /// Already reported as a fault: nothing more is said of it.
    Broken,
}

impl Type {
    pub fn words(self) -> String {
        match self {
            Self::Quantity(dimension) => dimension.words(),
            Self::Kind(_) => "a kind".into(),
            Self::Truth => "a condition".into(),
            Self::Broken => "nothing".into(),
        }
    }
}

/// Compiles one expression.
pub struct Compiler<'b> {
    pub schema: &'b Schema,
    pub names: &'b Names,
    /// Things bound around it: the `for` of the rule, then `any ... with` from the outside in.
    pub bound: Vec<ThingId>,
    pub faults: Vec<ExprFault>,
}

impl<'b> Compiler<'b> {
    pub fn new(schema: &'b Schema, names: &'b Names, for_thing: Option<ThingId>) -> Self {
        Self { schema, names, bound: for_thing.into_iter().collect(), faults: vec![] }
    }

    /// A condition: gives a truth.
    pub fn condition(&mut self, expr: &Expr) -> Code {
        let (code, ty) = self.expr(expr);
        self.wants_truth(expr.span, ty);
        code
    }

    fn wants_truth(&mut self, span: Span, ty: Type) {
        if !matches!(ty, Type::Truth | Type::Broken) {
            let words = ty.words();
            let fault = ExprFault::new("not-a-condition", span, format!("this is {words}, not a condition"));
            self.faults.push(match ty {
                Type::Kind(_) => fault.cure("compare it: `= ...`"),
                _ => fault.cure("compare it with a quantity, or write `is known`"),
            });
        }
    }

    fn wants_quantity(&mut self, span: Span, ty: Type) -> Option<Dimension> {
        match ty {
            Type::Quantity(dimension) => Some(dimension),
            Type::Broken => None,
            other => {
                let words = other.words();
                self.faults.push(ExprFault::new("not-a-quantity", span, format!("this is {words}, not a quantity")));
                None
            }
        }
    }

    /// Code and type of any expression.
    pub fn expr(&mut self, expr: &Expr) -> (Code, Type) {
        let nothing = (Code::Number(0.0), Type::Broken);
        match &expr.node {
            Node::Number { value, unit } => match unit {
                Some(unit) => (Code::Quantity(unit.to_base(*value), unit), Type::Quantity(unit.dimension)),
                None => (Code::Number(*value), Type::Quantity(Dimension::NUMBER)),
            },
            Node::Name(name) => self.name(name, expr.span),
            Node::Call { name, name_span, arguments } => self.call(name, *name_span, arguments),
            Node::Not(inner) => (Code::Not(Box::new(self.condition(inner))), Type::Truth),
            Node::And(..) => {
                let mut parts = Vec::new();
                self.flatten(expr, true, &mut parts);
                (Code::All(parts), Type::Truth)
            }
            Node::Or(..) => {
                let mut parts = Vec::new();
                self.flatten(expr, false, &mut parts);
                (Code::Any(parts), Type::Truth)
            }
            Node::Compare { how, left, right } => self.compare(*how, left, right),
            Node::Known(inner) => (Code::Known(Box::new(self.expr(inner).0)), Type::Truth),
            Node::Negate(inner) => {
                let (code, ty) = self.expr(inner);
                match self.wants_quantity(inner.span, ty) {
                    Some(d) => (Code::Negate(Box::new(code)), Type::Quantity(d)),
                    None => nothing,
                }
            }
            Node::Arithmetic { how, left, right } => self.arithmetic(*how, left, right, expr.span),
            Node::Exists { every, thing, thing_span, with } => {
                let Some(id) = self.thing(thing, *thing_span) else { return nothing };
                let with = self.within(id, with.as_deref(), Self::condition);
                (Code::Exists { every: *every, thing: id, with }, Type::Truth)
            }
            Node::Fold { how, of, thing, thing_span, with } => {
                let Some(id) = self.thing(thing, *thing_span) else { return nothing };
                self.bound.push(id);
                let of = of.as_ref().map(|of| (self.expr(of), of.span));
                self.bound.pop();
                let with = self.within(id, with.as_deref(), Self::condition);
                let ty = match (*how, &of) {
                    (Fold::Count, _) => Type::Quantity(Dimension::NUMBER),
                    (_, Some(((_, ty), span))) => match self.wants_quantity(*span, *ty) {
                        Some(dimension) => Type::Quantity(dimension),
                        None => return nothing,
                    },
                    (_, None) => return nothing,
                };
                (Code::Fold { how: *how, of: of.map(|((code, _), _)| Box::new(code)), thing: id, with }, ty)
            }
            Node::If { .. } | Node::Else(..) => self.choice(expr),
        }
    }

    fn within(
        &mut self,
        thing: ThingId,
        expr: Option<&Expr>,
        compile: impl FnOnce(&mut Self, &Expr) -> Code,
    ) -> Option<Box<Code>> {
        self.bound.push(thing);
        let code = expr.map(|e| Box::new(compile(self, e)));
        self.bound.pop();
        code
    }

    fn flatten(&mut self, expr: &Expr, and: bool, parts: &mut Vec<Code>) {
        match (&expr.node, and) {
            (Node::And(a, b), true) | (Node::Or(a, b), false) => {
                self.flatten(a, and, parts);
                self.flatten(b, and, parts);
            }
            _ => parts.push(self.condition(expr)),
        }
    }

    fn thing(&mut self, name: &str, span: Span) -> Option<ThingId> {
        match self.schema.thing(name) {
            Some(id) if self.schema.thing_of(id).several => Some(id),
            Some(_) => {
                let what =
                    format!("there is only one {name}; `any` and `of` go with things of which there are several");
                self.faults.push(ExprFault::new("only-one", span, what).cure(format!("`{name}.` and an attribute")));
                None
            }
            None => {
                let several: Vec<&str> =
                    self.schema.things.iter().filter(|t| t.several).map(|t| t.name.as_str()).collect();
                let mut fault = ExprFault::new("unknown-name", span, format!("nothing is called `{name}`"))
                    .note(format!("things of which there are several: {}", several.join(", ")));
                fault.cure = crate::source::suggest::nearest(name, several.iter().copied()).map(String::from);
                self.faults.push(fault);
                None
            }
        }
    }

    fn name(&mut self, name: &str, span: Span) -> (Code, Type) {
        match self.names.find(self.schema, name, &self.bound) {
            Ok(Meaning::Fact(id)) => {
                let ty = match self.schema.of(id).sort {
                    Sort::Quantity(dimension) => Type::Quantity(dimension),
                    Sort::Kind => Type::Kind(id),
                    Sort::Text | Sort::Thing => {
                        let what = format!("`{name}` is a text, which no rule can compare");
                        self.faults.push(ExprFault::new("not-a-quantity", span, what));
                        Type::Broken
                    }
                };
                (Code::Fact(id), ty)
            }
            Ok(Meaning::Figure(n, dimension)) => (Code::Figure(n), dimension.map_or(Type::Broken, Type::Quantity)),
            Ok(Meaning::Conclusion(n)) => (Code::Conclusion(n), Type::Truth),
            Err(mut fault) => {
                fault.span = span;
                self.faults.push(*fault);
                (Code::Number(0.0), Type::Broken)
            }
        }
    }

    fn call(&mut self, name: &str, span: Span, arguments: &[Expr]) -> (Code, Type) {
        let compiled: Vec<(Code, Type)> = arguments.iter().map(|a| self.expr(a)).collect();
        let Some(signature) = signatures::by_name(name) else {
            let mut fault = ExprFault::new("unknown-calculation", span, format!("no calculation is called `{name}`"));
            fault.cure = crate::source::suggest::nearest(name, signatures::all().map(|s| s.name)).map(String::from);
            self.faults.push(fault);
            return (Code::Number(0.0), Type::Broken);
        };
        if signature.inputs.len() != arguments.len() {
            let inputs: Vec<&str> = signature.inputs.iter().map(|(n, _)| *n).collect();
            let what = format!("`{name}` takes {} values, here are {}", inputs.len(), arguments.len());
            self.faults
                .push(ExprFault::new("wrong-arguments", span, what).cure(format!("{name}({})", inputs.join(", "))));
            return (Code::Number(0.0), Type::Broken);
        }
        for (((_, ty), argument), (input, dimension)) in compiled.iter().zip(arguments).zip(signature.inputs) {
            if let Some(given) = self.wants_quantity(argument.span, *ty)
                && given != *dimension
            {
                let what = format!("`{name}` wants {} for {input}, but this is {}", dimension.words(), given.words());
                self.faults.push(ExprFault::new("wrong-dimension", argument.span, what));
            }
        }
        let code = Code::Call(signature, compiled.into_iter().map(|(c, _)| c).collect());
        (code, Type::Quantity(signature.output))
    }

    fn compare(&mut self, how: Comparison, left: &Expr, right: &Expr) -> (Code, Type) {
        let (left_code, left_type) = self.expr(left);
        if let Type::Kind(id) = left_type {
            return self.compare_kind(how, left_code, id, left, right);
        }
        // What is beside a name that is at fault may well be right: one slip, one message.
        if left_type == Type::Broken && matches!(right.node, Node::Name(_)) {
            return (left_code, Type::Broken);
        }
        let (right_code, right_type) = self.expr(right);
        let span = left.span.to(right.span);
        let dimensions = (self.wants_quantity(left.span, left_type), self.wants_quantity(right.span, right_type));
        if let (Some(a), Some(b)) = dimensions
            && a != b
        {
            self.mismatch(left, a, right, b, span);
        }
        (Code::Compare(how, Box::new(left_code), Box::new(right_code)), Type::Truth)
    }

    fn mismatch(&mut self, left: &Expr, a: Dimension, right: &Expr, b: Dimension, span: Span) {
        for (number, other, dimension) in [(right, left, a), (left, right, b)] {
            if let Node::Number { value, unit: None } = number.node
                && !matches!(other.node, Node::Number { .. })
            {
                self.faults.push(missing_unit(number.span, value, dimension));
                return;
            }
        }
        let what = format!("{} is compared with {}", a.words(), b.words());
        let mut fault = wrong_dimension(span, what, a, b);
        let unit = other_unit(right, a).or_else(|| other_unit(left, b));
        fault.cure = unit.or(fault.cure);
        self.faults.push(fault);
    }

    fn compare_kind(
        &mut self,
        how: Comparison,
        left_code: Code,
        id: AttributeId,
        left: &Expr,
        right: &Expr,
    ) -> (Code, Type) {
        let equal = match how {
            Comparison::Equal => true,
            Comparison::NotEqual => false,
            _ => {
                let what = format!("kinds are the same or not; `{}` does not order them", how.sign());
                self.faults.push(ExprFault::new("kinds-have-no-order", left.span.to(right.span), what).cure("= or !="));
                return (Code::Number(0.0), Type::Broken);
            }
        };
        let Node::Name(word) = &right.node else {
            let what = format!("{} is a kind; this is none", ticked(&self.schema.path_name(id)));
            self.faults.push(ExprFault::new("not-a-kind", right.span, what));
            return (Code::Number(0.0), Type::Broken);
        };
        use crate::knowledge::schema::Kinds;
        let symbol = self.schema.symbol(word).filter(|s| match &self.schema.of(id).kinds {
            Kinds::List(list) => list.contains(s),
            Kinds::Open => true,
            Kinds::None => false,
        });
        if let Some(symbol) = symbol {
            return (Code::IsKind(Box::new(left_code), symbol, equal), Type::Truth);
        }
        if word.contains('.')
            && let (code, Type::Kind(_)) = self.name(word, right.span)
        {
            return (Code::SameKind(Box::new(left_code), Box::new(code), equal), Type::Truth);
        }
        let listed: Vec<&str> = match &self.schema.of(id).kinds {
            Kinds::List(list) => list.iter().map(|s| self.schema.word(*s)).collect(),
            _ => vec![],
        };
        let what = format!("`{word}` is not a kind of {}", ticked(&self.schema.path_name(id)));
        let mut fault = ExprFault::new("unknown-kind", right.span, what);
        if !listed.is_empty() && listed.len() <= 14 {
            fault.notes.push(format!("it may be: {}", listed.join(", ")));
        }
        let said = self.names.kind_called(&self.schema.path_name(id), word);
        fault.cure = said.or_else(|| crate::source::suggest::nearest(word, listed)).map(String::from);
        self.faults.push(fault);
        (Code::Number(0.0), Type::Broken)
    }

    fn arithmetic(&mut self, how: Arithmetic, left: &Expr, right: &Expr, span: Span) -> (Code, Type) {
        let (left_code, left_type) = self.expr(left);
        let (right_code, right_type) = self.expr(right);
        let (a, b) = (self.wants_quantity(left.span, left_type), self.wants_quantity(right.span, right_type));
        let code = Code::Arithmetic(how, Box::new(left_code), Box::new(right_code));
        let (Some(a), Some(b)) = (a, b) else { return (code, Type::Broken) };
        let dimension = match how {
            Arithmetic::Multiply => a * b,
            Arithmetic::Divide => a / b,
            Arithmetic::Add | Arithmetic::Subtract => {
                if a != b {
                    let what = format!(
                        "{} and {} cannot be {}",
                        a.words(),
                        b.words(),
                        if how == Arithmetic::Add { "added" } else { "subtracted" }
                    );
                    let bare = [(right, a), (left, b)].into_iter().find_map(|(side, other)| match side.node {
                        Node::Number { value, unit: None } => Some(missing_unit(side.span, value, other)),
                        _ => None,
                    });
                    self.faults.push(bare.unwrap_or_else(|| wrong_dimension(span, what, a, b)));
                }
                a
            }
            Arithmetic::Power => match right.node {
                Node::Number { value, unit: None } if value.fract() == 0.0 && value.abs() <= 8.0 => {
                    a.power(value as i8)
                }
                _ if a == Dimension::NUMBER && b == Dimension::NUMBER => a,
                _ => {
                    let what = "a quantity with a unit can only be raised to a whole number";
                    self.faults.push(ExprFault::new("wrong-dimension", right.span, what));
                    a
                }
            },
        };
        (code, Type::Quantity(dimension))
    }

    /// `a if c else b else d`, flattened to branches in order.
    fn choice(&mut self, expr: &Expr) -> (Code, Type) {
        let mut values: Vec<&Expr> = Vec::new();
        let mut rest = expr;
        while let Node::Else(first, last) = &rest.node {
            values.push(last);
            rest = first;
        }
        values.push(rest);
        values.reverse();
        let (mut branches, mut ty) = (Vec::new(), Type::Broken);
        for value in values {
            let (condition, value) = match &value.node {
                Node::If { value, condition } => (Some(self.condition(condition)), value.as_ref()),
                _ => (None, value),
            };
            let (code, branch) = self.expr(value);
            if ty == Type::Broken {
                ty = branch;
            } else if branch != Type::Broken && branch != ty {
                let what = format!("this is {}, but the first choice is {}", branch.words(), ty.words());
                self.faults.push(ExprFault::new("wrong-dimension", value.span, what));
            }
            branches.push((condition, code));
        }
        (Code::Choice(branches), ty)
    }
}

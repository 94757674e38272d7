//! The tree of an expression, as written. Spans are byte offsets in the expression's own text. Knows no names' meanings.

use crate::source::Span;
use crate::units::Unit;

#[derive(Clone, Debug, PartialEq)]
pub struct Expr {
    pub span: Span,
    pub node: Node,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Node {
    /// A number with its unit, or none written.
    Number {
        value: f64,
        unit: Option<&'static Unit>,
    },
    /// A run of words: `tank.water`, `approach velocity`, `canister`.
    Name(String),
    /// `name(argument, ...)`: a calculation.
    Call {
        name: String,
        name_span: Span,
        arguments: Vec<Expr>,
    },
    Not(Box<Expr>),
    And(Box<Expr>, Box<Expr>),
    Or(Box<Expr>, Box<Expr>),
    Compare {
        how: Comparison,
        left: Box<Expr>,
        right: Box<Expr>,
    },
    /// `x is known`.
    Known(Box<Expr>),
    Negate(Box<Expr>),
    Arithmetic {
        how: Arithmetic,
        left: Box<Expr>,
        right: Box<Expr>,
    },
    /// `any stock with ...`, `every stock with ...`.
    Exists {
        every: bool,
        thing: String,
        thing_span: Span,
        with: Option<Box<Expr>>,
    },
    /// `count of stock with ...`, `sum of x over stock with ...`, `least of`, `greatest of`.
    Fold {
        how: Fold,
        of: Option<Box<Expr>>,
        thing: String,
        thing_span: Span,
        with: Option<Box<Expr>>,
    },
    /// `x if condition`: x where the condition holds, else nothing.
    If {
        value: Box<Expr>,
        condition: Box<Expr>,
    },
    /// `x else y`: x where it is known, else y.
    Else(Box<Expr>, Box<Expr>),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comparison {
    Less,
    LessOrEqual,
    Greater,
    GreaterOrEqual,
    Equal,
    NotEqual,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arithmetic {
    Add,
    Subtract,
    Multiply,
    Divide,
    Power,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fold {
    Count,
    Sum,
    Least,
    Greatest,
}

impl Comparison {
    pub fn sign(self) -> &'static str {
        match self {
            Self::Less => "<",
            Self::LessOrEqual => "<=",
            Self::Greater => ">",
            Self::GreaterOrEqual => ">=",
            Self::Equal => "=",
            Self::NotEqual => "!=",
        }
    }

    /// What holds when this does not.
    pub fn denied(self) -> Self {
        match self {
            Self::Less => Self::GreaterOrEqual,
            Self::LessOrEqual => Self::Greater,
            Self::Greater => Self::LessOrEqual,
            Self::GreaterOrEqual => Self::Less,
            Self::Equal => Self::NotEqual,
            Self::NotEqual => Self::Equal,
        }
    }

    /// The same with its sides exchanged.
    pub fn mirrored(self) -> Self {
        match self {
            Self::Less => Self::Greater,
            Self::LessOrEqual => Self::GreaterOrEqual,
            Self::Greater => Self::Less,
            Self::GreaterOrEqual => Self::LessOrEqual,
            same => same,
        }
    }

    pub fn holds(self, left: f64, right: f64) -> bool {
        match self {
            Self::Less => left < right,
            Self::LessOrEqual => left <= right,
            Self::Greater => left > right,
            Self::GreaterOrEqual => left >= right,
            Self::Equal => left == right,
            Self::NotEqual => left != right,
        }
    }
}

impl Arithmetic {
    pub fn sign(self) -> &'static str {
        match self {
            Self::Add => "+",
            Self::Subtract => "-",
            Self::Multiply => "*",
            Self::Divide => "/",
            Self::Power => "^",
        }
    }
}

impl Expr {
    /// Calls `see` for this node and every one below it.
    pub fn walk<'e>(&'e self, see: &mut impl FnMut(&'e Expr)) {
        see(self);
        match &self.node {
            Node::Number { .. } | Node::Name(_) => {}
            Node::Call { arguments, .. } => arguments.iter().for_each(|a| a.walk(see)),
            Node::Not(a) | Node::Known(a) | Node::Negate(a) => a.walk(see),
            Node::And(a, b) | Node::Or(a, b) | Node::Else(a, b) => {
                a.walk(see);
                b.walk(see);
            }
            Node::Compare { left, right, .. } | Node::Arithmetic { left, right, .. } => {
                left.walk(see);
                right.walk(see);
            }
            Node::Exists { with, .. } => with.iter().for_each(|w| w.walk(see)),
            Node::Fold { of, with, .. } => {
                of.iter().for_each(|o| o.walk(see));
                with.iter().for_each(|w| w.walk(see));
            }
            Node::If { value, condition } => {
                value.walk(see);
                condition.walk(see);
            }
        }
    }
}

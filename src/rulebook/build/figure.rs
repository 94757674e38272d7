//! Compiles figures, each after those it names. In: entries with their spots. Out: figures with dimensions, given numbers
//! and units; faults of each. Knows no rule.

use super::Builder;
use crate::knowledge::schema::AttributeId;
use crate::rulebook::book::Figure;
use crate::rulebook::code::Code;
use crate::rulebook::compile::{Compiler, Type};
use crate::rulebook::entries::Spot;
use crate::rulebook::expr::token::ExprFault;
use crate::rulebook::expr::{parse, tree::Expr, tree::Node};
use crate::rulebook::order;
use crate::rulebook::raw::RawFigure;
use crate::source::{Fault, suggest};
use crate::units::{Dimension, Spread, parse as quantity, unit};
use std::sync::OnceLock;

impl Builder<'_> {
    /// Compiles figures, each after those it names, so that every dimension is known when it is needed.
    pub(super) fn figures(&mut self, figures: &[(&RawFigure, Spot)]) {
        let trees: Vec<Option<Expr>> = figures
            .iter()
            .map(|(figure, at)| match parse::parse_with(&figure.is, &self.names.phrases) {
                Ok(tree) => Some(tree),
                Err(fault) => {
                    self.faults.push(at.get("is").fault(&figure.is, fault));
                    None
                }
            })
            .collect();
        let needs: Vec<Vec<usize>> = trees
            .iter()
            .map(|tree| {
                let mut needs = Vec::new();
                if let Some(tree) = tree {
                    tree.walk(&mut |e| {
                        if let Node::Name(name) = &e.node {
                            needs.extend(self.names.figure(name).map(usize::from));
                        }
                    });
                }
                needs
            })
            .collect();
        let (sorted, circle) = order::sorted(figures.len(), |n| &needs[n]);
        if let Some(circle) = circle {
            let names: Vec<&str> = circle.iter().map(|n| figures[*n].0.figure.as_str()).collect();
            let place = figures[circle[0]].1.get("is").place();
            let what = format!("these figures go round in a circle: {}", names.join(", "));
            self.faults.push(Fault::error("circle", place, what).cure("let one of them stand on facts alone"));
        }
        let mut compiled: Vec<Option<Figure>> = vec![None; figures.len()];
        for n in sorted {
            let (raw, at) = &figures[n];
            compiled[n] = Some(self.figure(raw, at, trees[n].as_ref()));
        }
        // A figure of a circle is never worked out; it keeps its place so that numbers stay right.
        self.book.figures = compiled
            .into_iter()
            .enumerate()
            .map(|(n, f)| f.unwrap_or_else(|| self.figure(figures[n].0, &figures[n].1, None)))
            .collect();
    }

    fn figure(&mut self, raw: &RawFigure, at: &Spot, tree: Option<&Expr>) -> Figure {
        let for_thing =
            raw.for_thing.as_ref().and_then(|t| self.schema.thing(t)).filter(|t| self.schema.thing_of(*t).several);
        let (mut code, mut dimension) = (Code::Number(f64::NAN), Dimension::NUMBER);
        if let Some(tree) = tree {
            let mut compiler = Compiler::new(self.schema, &self.names, for_thing);
            let (compiled, ty) = compiler.expr(tree);
            let mut faults = std::mem::take(&mut compiler.faults);
            match ty {
                Type::Quantity(d) => (code, dimension) = (compiled, d),
                Type::Broken => {}
                other => faults.push(ExprFault::new(
                    "not-a-quantity",
                    tree.span,
                    format!("a figure is a quantity; this is {}", other.words()),
                )),
            }
            // What leans on a figure at fault is not blamed as well.
            if faults.is_empty() && matches!(ty, Type::Quantity(_)) {
                self.names.set_dimension(&raw.figure, dimension);
            }
            let at = at.get("is");
            self.faults.extend(faults.into_iter().map(|f| at.fault(&raw.is, f)));
        }
        let reads = code.reads();
        Figure {
            name: raw.figure.clone(),
            called: raw.called.clone().unwrap_or_else(|| raw.figure.clone()),
            for_thing,
            given: self.given(raw, at, &code, dimension),
            shown_in: self.shown_in(raw, at, dimension),
            read_off: self.read_off(raw, at),
            code,
            dimension,
            formula: raw.formula.clone().unwrap_or_else(|| raw.is.clone()),
            words: raw.words.clone(),
            spoken: OnceLock::new(),
            means: raw.means.clone(),
            basis: raw.basis.clone(),
            source: raw.source.clone(),
            place: at.place(),
            reads,
        }
    }

    fn read_off(&mut self, raw: &RawFigure, at: &Spot) -> Option<AttributeId> {
        let path = raw.read_off.as_ref()?;
        let found = path.split_once('.').and_then(|(thing, attribute)| self.schema.path(thing, attribute));
        if found.is_none() {
            let paths: Vec<String> =
                (0..self.schema.attributes.len()).map(|n| self.schema.path_name(AttributeId(n as u16))).collect();
            let place = at.get("read off").place();
            let mut fault = Fault::error("unknown-name", place, format!("no fact is called `{path}`"));
            fault.cure = suggest::nearest(path, paths.iter().map(String::as_str)).map(String::from);
            self.faults.push(fault);
        }
        found
    }

    fn given(&mut self, raw: &RawFigure, at: &Spot, code: &Code, dimension: Dimension) -> Option<Spread> {
        let between = raw.between.as_ref()?;
        let place = at.get("between").place();
        let (Code::Number(likely) | Code::Quantity(likely, _)) = code else {
            let what = "`between` goes with a plain number, and `is` is a formula here";
            self.faults.push(
                Fault::error("between-beside-formula", place, what)
                    .cure("give the range where the uncertain number stands"),
            );
            return None;
        };
        match quantity::quantity(between) {
            Err(why) => self.faults.push(
                Fault::error("bad-quantity", place, why.to_string()).note("a range is written as in `75 to 95 %`"),
            ),
            Ok(amount) if amount.unit.dimension != dimension => {
                let what =
                    format!("`between` is {}, but the number is {}", amount.unit.dimension.words(), dimension.words());
                self.faults.push(Fault::error("wrong-dimension", place, what));
            }
            Ok(amount) => {
                let base = amount.base();
                let (Some(low), Some(high)) = (base.low, base.high) else { return None };
                let slack = 1e-9 * likely.abs();
                if *likely < low - slack || *likely > high + slack {
                    let what = format!("`{}` does not lie between the two ends", raw.is);
                    self.faults.push(Fault::error("outside-its-range", place, what));
                }
                return Some(Spread::between(low, *likely, high));
            }
        }
        None
    }

    fn shown_in(&mut self, raw: &RawFigure, at: &Spot, dimension: Dimension) -> Option<&'static crate::units::Unit> {
        let name = raw.shown_in.as_ref()?;
        match unit::by_name(name) {
            Some(unit) if unit.dimension == dimension || self.names_broken(&raw.figure) => Some(unit),
            Some(unit) => {
                let what = format!("`{name}` is {}, but the figure is {}", unit.dimension.words(), dimension.words());
                self.faults.push(Fault::error("wrong-dimension", at.get("shown in").place(), what));
                None
            }
            None => {
                let mut fault = Fault::error(
                    "unknown-unit",
                    at.get("shown in").place(),
                    format!("nothing is measured in `{name}`"),
                );
                fault.cure = suggest::nearest(name, unit::UNITS.iter().map(|u| u.name)).map(String::from);
                self.faults.push(fault);
                None
            }
        }
    }

    /// A figure whose formula was already at fault is not blamed for its unit as well.
    fn names_broken(&self, figure: &str) -> bool {
        self.names.dimension(figure).is_none()
    }
}

//! Builds a rulebook: names first, then figures in the order they need, then rules. In: rule files with their places, the
//! schema. Out: the compiled book and every fault. Knows no case.

use super::book::{Advice, Conclusion, Condition, Figure, Picture, Rule, Rulebook, Step};
use super::compile::{Compiler, Type};
use super::expr::token::ExprFault;
use super::expr::{parse, tree::Expr, tree::Node};
use super::names::Names;
use super::order;
use super::raw::{RawAdvice, RawFigure, RawPicture, RawRule, RuleFile};
use super::template::{Template, template};
use crate::knowledge::schema::{Schema, ThingId};
use crate::source::yaml;
use crate::source::{Fault, Place, Span};
use crate::units::{Dimension, Spread, parse as quantity, unit};

/// A rule file with its places; the built-in book, checked before it was built in, has none.
pub struct RuleSource {
    pub file: String,
    pub text: String,
    pub tree: Option<yaml::Node>,
    /// Spans of its entries, figures then rules, where there is no tree.
    pub starts: Vec<Span>,
    pub value: RuleFile,
}

/// Where a piece of a rule file stands.
#[derive(Clone, Copy)]
struct Where<'s> {
    source: &'s RuleSource,
    node: Option<&'s yaml::Node>,
    /// The entry's place, where there is no tree.
    start: Span,
}

impl<'s> Where<'s> {
    fn get(&self, key: &str) -> Where<'s> {
        Where { node: self.node.and_then(|n| n.get(key)).or(self.node), ..*self }
    }

    fn item(&self, n: usize) -> Where<'s> {
        Where { node: self.node.and_then(|x| x.item(n)).or(self.node), ..*self }
    }

    fn place(&self) -> Place {
        Place::new(self.source.file.clone(), self.node.map_or(self.start, |n| n.span))
    }

    /// The place of `span` of the text `value` that stands at this node.
    fn inside(&self, value: &str, span: Span) -> Place {
        let Some(node) = self.node else { return self.place() };
        let written = node.span.of(&self.source.text);
        let fragment = value.get(span.start..span.end).unwrap_or("");
        let offset = match written.find(value) {
            Some(start) => start + span.start,
            // A folded text: look for the fragment itself.
            None => written.find(fragment).unwrap_or(0),
        };
        let start = node.span.start + offset;
        Place::new(self.source.file.clone(), Span::new(start, (start + fragment.len()).max(start + 1)))
    }

    fn fault(&self, value: &str, fault: ExprFault) -> Fault {
        let mut out = Fault::error(fault.name, self.inside(value, fault.span), fault.what);
        out.notes = fault.notes;
        out.cure = fault.cure;
        out
    }
}

struct Builder<'b> {
    schema: &'b Schema,
    names: Names,
    book: Rulebook,
    faults: Vec<Fault>,
}

/// Compiles all files together.
pub fn build(sources: &[RuleSource], schema: &Schema, synonyms: Vec<(String, String)>) -> (Rulebook, Vec<Fault>) {
    let names = Names { synonyms, ..Names::default() };
    let mut builder = Builder { schema, names, book: Rulebook::default(), faults: vec![] };
    let mut figures: Vec<(&RawFigure, Where)> = Vec::new();
    let mut rules: Vec<(&RawRule, Where)> = Vec::new();
    for source in sources {
        let root = Where { source, node: source.tree.as_ref(), start: Span::default() };
        let start = |n: usize| source.starts.get(n).copied().unwrap_or_default();
        for (n, figure) in source.value.figures.iter().enumerate() {
            figures.push((figure, Where { start: start(n), ..root.get("figures").item(n) }));
        }
        for (n, rule) in source.value.rules.iter().enumerate() {
            let start = start(source.value.figures.len() + n);
            rules.push((rule, Where { start, ..root.get("rules").item(n) }));
        }
    }
    // The order of files and entries never matters: everything is numbered by name.
    figures.sort_by(|a, b| a.0.figure.cmp(&b.0.figure));
    rules.sort_by(|a, b| a.0.rule.cmp(&b.0.rule));
    builder.twice(figures.iter().map(|(f, w)| (f.figure.as_str(), w.get("figure").place())), "figure");
    builder.twice(rules.iter().map(|(r, w)| (r.rule.as_str(), w.get("rule").place())), "rule");
    builder.declare(&figures, &rules);
    builder.figures(&figures);
    for (rule, at) in &rules {
        builder.rule(rule, at);
    }
    builder.outranks(&rules);
    let mut pictures: Vec<(&RawPicture, Where)> = Vec::new();
    for source in sources {
        let root = Where { source, node: source.tree.as_ref(), start: Span::default() };
        pictures.extend(source.value.pictures.iter().enumerate().map(|(n, p)| (p, root.get("pictures").item(n))));
    }
    pictures.sort_by(|a, b| a.0.picture.cmp(&b.0.picture));
    pictures.iter().for_each(|(picture, at)| builder.picture(picture, at));
    let Builder { mut book, mut faults, .. } = builder;
    order::order(&mut book, &mut faults);
    crate::source::fault::sort(&mut faults);
    (book, faults)
}

impl Builder<'_> {
    fn twice<'n>(&mut self, names: impl Iterator<Item = (&'n str, Place)>, what: &str) {
        let mut last: Option<(&str, Place)> = None;
        for (name, place) in names {
            if let Some((before, first)) = &last
                && *before == name
            {
                let fault = Fault::error("name-twice", place.clone(), format!("there are two {what}s called `{name}`"));
                self.faults.push(fault.other(first.clone(), "the other one"));
            }
            last = Some((name, place));
        }
    }

    fn thing(&mut self, name: Option<&String>, at: &Where) -> Option<ThingId> {
        let name = name?;
        match self.schema.thing(name) {
            Some(id) => self.schema.thing_of(id).several.then_some(id),
            None => {
                let things: Vec<&str> = self.schema.things.iter().map(|t| t.name.as_str()).collect();
                let mut fault =
                    Fault::error("unknown-name", at.get("for").place(), format!("nothing is called `{name}`"));
                fault.cure = crate::source::suggest::nearest(name, things).map(String::from);
                self.faults.push(fault);
                None
            }
        }
    }

    fn declare(&mut self, figures: &[(&RawFigure, Where)], rules: &[(&RawRule, Where)]) {
        for (n, (figure, at)) in figures.iter().enumerate() {
            let thing = self.thing(figure.for_thing.as_ref(), at);
            self.names.add_figure(&figure.figure, n as u16, thing);
        }
        let mut concluded: Vec<(&str, Option<ThingId>, u16, Place)> = Vec::new();
        for (n, (rule, at)) in rules.iter().enumerate() {
            let thing =
                rule.for_thing.as_ref().and_then(|t| self.schema.thing(t)).filter(|t| self.schema.thing_of(*t).several);
            for (m, name) in rule.conclude.iter().enumerate() {
                concluded.push((name, thing, n as u16, at.get("conclude").item(m).place()));
            }
        }
        concluded.sort_by(|a, b| (a.0, a.2).cmp(&(b.0, b.2)));
        for (name, thing, rule, place) in concluded {
            if let Some(last) = self.book.conclusions.last_mut()
                && last.name == name
            {
                if last.for_thing != thing {
                    let what = format!("`{name}` is concluded of different things by different rules");
                    self.faults.push(
                        Fault::error("concluded-of-two-things", place, what).cure("give one of them another name"),
                    );
                } else {
                    last.by.push(rule);
                }
                continue;
            }
            if self.names.figure(name).is_some() {
                let what = format!("`{name}` is a figure and a conclusion");
                self.faults.push(Fault::error("name-twice", place, what).cure("give one of them another name"));
            }
            self.names.add_conclusion(name, self.book.conclusions.len() as u16, thing);
            self.book.conclusions.push(Conclusion { name: name.to_string(), for_thing: thing, by: vec![rule] });
        }
    }

    /// Compiles figures, each after those it names, so that every dimension is known when it is needed.
    fn figures(&mut self, figures: &[(&RawFigure, Where)]) {
        let trees: Vec<Option<Expr>> = figures
            .iter()
            .map(|(figure, at)| match parse::parse(&figure.is) {
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

    fn figure(&mut self, raw: &RawFigure, at: &Where, tree: Option<&Expr>) -> Figure {
        let for_thing =
            raw.for_thing.as_ref().and_then(|t| self.schema.thing(t)).filter(|t| self.schema.thing_of(*t).several);
        let (mut code, mut dimension) = (super::code::Code::Number(f64::NAN), Dimension::NUMBER);
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
                    format!("a figure is a quantity; this is {}", other.words(self.schema)),
                )),
            }
            if faults.is_empty() {
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
            code,
            dimension,
            formula: raw.formula.clone().unwrap_or_else(|| raw.is.clone()),
            words: raw.words.clone(),
            means: raw.means.clone(),
            basis: raw.basis.clone(),
            source: raw.source.clone(),
            place: at.place(),
            reads,
        }
    }

    fn given(&mut self, raw: &RawFigure, at: &Where, code: &super::code::Code, dimension: Dimension) -> Option<Spread> {
        let between = raw.between.as_ref()?;
        let place = at.get("between").place();
        let (super::code::Code::Number(likely) | super::code::Code::Quantity(likely, _)) = code else {
            let what = "`between` goes with a plain number, and `is` is a formula here";
            self.faults.push(
                Fault::error("between-beside-formula", place, what)
                    .cure("give the range where the uncertain number stands"),
            );
            return None;
        };
        match quantity::quantity(between) {
            Err(why) => self.faults.push(Fault::error("bad-quantity", place, why.to_string())),
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

    fn shown_in(&mut self, raw: &RawFigure, at: &Where, dimension: Dimension) -> Option<&'static crate::units::Unit> {
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
                fault.cure =
                    crate::source::suggest::nearest(name, unit::UNITS.iter().map(|u| u.name)).map(String::from);
                self.faults.push(fault);
                None
            }
        }
    }

    /// A figure whose formula was already at fault is not blamed for its unit as well.
    fn names_broken(&self, figure: &str) -> bool {
        matches!(self.names.find(self.schema, figure, &[]), Ok(super::names::Meaning::Figure(_, None)))
    }

    fn rule(&mut self, raw: &RawRule, at: &Where) {
        let for_thing = self.thing(raw.for_thing.as_ref(), at);
        let mut conditions = Vec::new();
        for (n, text) in raw.when.iter().enumerate() {
            let at = at.get("when").item(n);
            match parse::parse(text) {
                Err(fault) => self.faults.push(at.fault(text, fault)),
                Ok(tree) => {
                    let mut compiler = Compiler::new(self.schema, &self.names, for_thing);
                    let code = compiler.condition(&tree);
                    let faults = std::mem::take(&mut compiler.faults);
                    self.faults.extend(faults.into_iter().map(|f| at.fault(text, f)));
                    conditions.push(Condition { text: text.clone(), code, place: at.place() });
                }
            }
        }
        let mut reads: Vec<_> = conditions.iter().flat_map(|c| c.code.reads()).collect();
        reads.sort();
        reads.dedup();
        let advice = raw.advise.as_ref().map(|advice| self.advice(advice, &at.get("advise"), for_thing));
        self.book.rules.push(Rule {
            name: raw.rule.clone(),
            topic: raw.topic.clone(),
            for_thing,
            conditions,
            concludes: raw.conclude.iter().filter_map(|c| self.names.conclusion(c)).collect(),
            advice,
            basis: raw.basis.clone(),
            source: raw.source.clone(),
            cautions: raw.cautions.clone(),
            outranks: vec![],
            examples: raw.examples.clone(),
            place: at.place(),
            reads,
        });
    }

    fn advice(&mut self, raw: &RawAdvice, at: &Where, for_thing: Option<ThingId>) -> Advice {
        let mut figures = Vec::new();
        for (n, name) in raw.figures.iter().enumerate() {
            match self.names.figure(name) {
                Some(figure) => figures.push(figure),
                None => {
                    let place = at.get("figures").item(n).place();
                    let mut fault = Fault::error("unknown-name", place, format!("no figure is called `{name}`"));
                    let names: Vec<&str> = self.book.figures.iter().map(|f| f.name.as_str()).collect();
                    fault.cure = crate::source::suggest::nearest(name, names).map(String::from);
                    self.faults.push(fault);
                }
            }
        }
        Advice {
            urgency: raw.urgency,
            act: raw.act.clone(),
            say: self.text(&raw.say, &at.get("say"), for_thing),
            steps: raw
                .steps
                .iter()
                .enumerate()
                .map(|(n, s)| self.text(s, &at.get("steps").item(n), for_thing))
                .collect(),
            because: self.text(&raw.because, &at.get("because"), for_thing),
            figures,
        }
    }

    fn text(&mut self, text: &str, at: &Where, for_thing: Option<ThingId>) -> Template {
        let (pieces, faults) = template(text.trim(), self.schema, &self.names, for_thing);
        self.faults.extend(faults.into_iter().map(|f| at.fault(text.trim(), f)));
        pieces
    }

    fn picture(&mut self, raw: &RawPicture, at: &Where) {
        let Some(shown_in) = unit::by_name(&raw.shown_in) else {
            let what = format!("nothing is measured in `{}`", raw.shown_in);
            self.faults.push(Fault::error("unknown-unit", at.get("shown in").place(), what));
            return;
        };
        let over = match quantity::quantity(&raw.over) {
            Ok(amount) if amount.unit.dimension == Dimension::TIME => amount.base().likely.unwrap_or(0.0),
            _ => {
                let what = format!("`{}` is not a time", raw.over);
                self.faults.push(Fault::error("bad-quantity", at.get("over").place(), what).cure("8 wk"));
                return;
            }
        };
        let mut lines = Vec::new();
        for (n, line) in raw.lines.iter().enumerate() {
            let at = at.get("lines").item(n).get("is");
            match parse::parse(&line.is) {
                Err(fault) => self.faults.push(at.fault(&line.is, fault)),
                Ok(tree) => {
                    let mut compiler = Compiler::new(self.schema, &self.names, None);
                    let (code, ty) = compiler.expr(&tree);
                    let mut faults = std::mem::take(&mut compiler.faults);
                    if !matches!(ty, Type::Quantity(d) if d == shown_in.dimension) && ty != Type::Broken {
                        let what = format!(
                            "this is {}, but the picture shows {}",
                            ty.words(self.schema),
                            shown_in.dimension.words()
                        );
                        faults.push(ExprFault::new("wrong-dimension", tree.span, what));
                    }
                    self.faults.extend(faults.into_iter().map(|f| at.fault(&line.is, f)));
                    lines.push((line.called.clone(), code));
                }
            }
        }
        let (name, topic, place) = (raw.picture.clone(), raw.topic.clone(), at.place());
        self.book.pictures.push(Picture { name, topic, over, shown_in, lines, place });
    }

    fn outranks(&mut self, rules: &[(&RawRule, Where)]) {
        for (n, (raw, at)) in rules.iter().enumerate() {
            for (m, outranked) in raw.outranks.iter().enumerate() {
                match rules.binary_search_by(|(r, _)| r.rule.as_str().cmp(&outranked.rule)) {
                    Ok(found) => self.book.rules[n].outranks.push((found as u16, outranked.because.clone())),
                    Err(_) => {
                        let place = at.get("outranks").item(m).get("rule").place();
                        let mut fault = Fault::error(
                            "outranks-nothing",
                            place,
                            format!("there is no rule called `{}`", outranked.rule),
                        );
                        fault.cure = crate::source::suggest::nearest(
                            &outranked.rule,
                            rules.iter().map(|(r, _)| r.rule.as_str()),
                        )
                        .map(String::from);
                        self.faults.push(fault);
                    }
                }
            }
        }
    }
}

/// The step that works out a figure or a rule: what order.rs sorts.
pub fn steps(book: &Rulebook) -> Vec<Step> {
    let figures = (0..book.figures.len()).map(|n| Step::Figure(n as u16));
    figures.chain((0..book.rules.len()).map(|n| Step::Rule(n as u16))).collect()
}

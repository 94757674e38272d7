//! Compiles rules and pictures. In: entries with their spots, the names of figures and conclusions. Out: conditions,
//! advice, order of rank; faults of each. Knows no case.

use super::Builder;
use crate::knowledge::schema::ThingId;
use crate::rulebook::book::{Advice, Condition, Picture, Rule};
use crate::rulebook::compile::{Compiler, Type};
use crate::rulebook::entries::Spot;
use crate::rulebook::expr::parse;
use crate::rulebook::expr::token::ExprFault;
use crate::rulebook::raw::{RawAdvice, RawPicture, RawRule};
use crate::rulebook::template::{Template, template};
use crate::source::{Fault, suggest};
use crate::units::{Dimension, parse as quantity, unit};

impl Builder<'_> {
    pub(super) fn rule(&mut self, raw: &RawRule, at: &Spot) {
        let for_thing = self.thing(raw.for_thing.as_ref(), at);
        let mut conditions = Vec::new();
        for (n, text) in raw.when.iter().enumerate() {
            let at = at.get("when").item(n);
            match parse::parse_with(text, &self.names.phrases) {
                Err(fault) => self.faults.push(at.fault(text, fault)),
                Ok(tree) => {
                    let mut compiler = Compiler::new(self.schema, &self.names, for_thing);
                    let code = compiler.condition(&tree);
                    let faults = std::mem::take(&mut compiler.faults);
                    self.faults.extend(faults.into_iter().map(|f| at.fault(text, f)));
                    conditions.push(Condition { text: text.clone(), reads: code.reads(), code, place: at.place() });
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
            outranked_by: vec![],
            examples: raw.examples.clone(),
            place: at.place(),
            reads,
        });
    }

    fn advice(&mut self, raw: &RawAdvice, at: &Spot, for_thing: Option<ThingId>) -> Advice {
        let mut figures = Vec::new();
        for (n, name) in raw.figures.iter().enumerate() {
            match self.names.figure(name) {
                Some(figure) => figures.push(figure),
                None => {
                    let place = at.get("figures").item(n).place();
                    let mut fault = Fault::error("unknown-name", place, format!("no figure is called `{name}`"));
                    let names: Vec<&str> = self.book.figures.iter().map(|f| f.name.as_str()).collect();
                    fault.cure = suggest::nearest(name, names).map(String::from);
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

    fn text(&mut self, text: &str, at: &Spot, for_thing: Option<ThingId>) -> Template {
        let (pieces, faults) = template(text.trim(), self.schema, &self.names, for_thing);
        self.faults.extend(faults.into_iter().map(|f| at.fault(text.trim(), f)));
        pieces
    }

    pub(super) fn picture(&mut self, raw: &RawPicture, at: &Spot) {
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
            match parse::parse_with(&line.is, &self.names.phrases) {
                Err(fault) => self.faults.push(at.fault(&line.is, fault)),
                Ok(tree) => {
                    let mut compiler = Compiler::new(self.schema, &self.names, None);
                    let (code, ty) = compiler.expr(&tree);
                    let mut faults = std::mem::take(&mut compiler.faults);
                    if !matches!(ty, Type::Quantity(d) if d == shown_in.dimension) && ty != Type::Broken {
                        let what =
                            format!("this is {}, but the picture shows {}", ty.words(), shown_in.dimension.words());
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

    pub(super) fn outranks(&mut self, rules: &[(&RawRule, Spot)]) {
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
                        fault.cure = suggest::nearest(&outranked.rule, rules.iter().map(|(r, _)| r.rule.as_str()))
                            .map_or_else(
                                || Some("name the rule that took its place, or take this entry out".into()),
                                |n| Some(n.into()),
                            );
                        self.faults.push(fault);
                    }
                }
            }
        }
    }
}

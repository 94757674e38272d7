//! Builds a rulebook: names first, then figures in the order they need, then rules. In: rule files with their places, the
//! schema. Out: the compiled book and every fault. Knows no case.

use super::book::{Conclusion, Rulebook, Step};
use super::entries::{Entries, RuleSource, Spot};
use super::names::Names;
use super::order;
use super::raw::{RawFigure, RawRule};
use crate::knowledge::schema::{Schema, ThingId};
use crate::source::{Fault, Place};

mod figure;
mod rule;

struct Builder<'b> {
    schema: &'b Schema,
    names: Names,
    book: Rulebook,
    faults: Vec<Fault>,
}

/// Compiles all files together.
pub fn build<'s>(
    sources: impl IntoIterator<Item = &'s RuleSource>,
    schema: &Schema,
    synonyms: Vec<(String, String)>,
) -> (Rulebook, Vec<Fault>) {
    let (book, _, mut faults) = compile(&Entries::of(sources), schema, synonyms);
    crate::source::fault::sort(&mut faults);
    (book, faults)
}

/// Compiles entries; also gives what each name means, for whoever reads expressions again.
pub fn compile(entries: &Entries, schema: &Schema, synonyms: Vec<(String, String)>) -> (Rulebook, Names, Vec<Fault>) {
    let names = Names::new(schema, synonyms);
    let mut builder = Builder { schema, names, book: Rulebook::default(), faults: vec![] };
    builder.twice(entries.figures.iter().map(|(f, s)| (f.figure.as_str(), s.get("figure").place())), "figure");
    builder.twice(entries.rules.iter().map(|(r, s)| (r.rule.as_str(), s.get("rule").place())), "rule");
    builder.declare(&entries.figures, &entries.rules);
    builder.figures(&entries.figures);
    for (rule, at) in &entries.rules {
        builder.rule(rule, at);
    }
    builder.outranks(&entries.rules);
    entries.pictures.iter().for_each(|(picture, at)| builder.picture(picture, at));
    let Builder { mut book, names, mut faults, .. } = builder;
    order::order(&mut book, &mut faults);
    (book, names, faults)
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

    fn thing(&mut self, name: Option<&String>, at: &Spot) -> Option<ThingId> {
        let name = name?;
        match self.schema.thing(name) {
            Some(id) => self.schema.thing_of(id).several.then_some(id),
            None => {
                let things: Vec<&str> = self.schema.things.iter().map(|t| t.name.as_str()).collect();
                let mut fault =
                    Fault::error("unknown-name", at.get("for").place(), format!("nothing is called `{name}`"));
                let several = self.schema.things.iter().filter(|t| t.several).map(|t| t.name.as_str());
                let several = several.collect::<Vec<_>>().join(", ");
                fault.notes.push(format!("things of which there are several: {several}"));
                fault.cure = crate::source::suggest::nearest(name, things).map(String::from);
                self.faults.push(fault);
                None
            }
        }
    }

    fn declare(&mut self, figures: &[(&RawFigure, Spot)], rules: &[(&RawRule, Spot)]) {
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
}

/// The step that works out a figure or a rule: what order.rs sorts.
pub fn steps(book: &Rulebook) -> Vec<Step> {
    let figures = (0..book.figures.len()).map(|n| Step::Figure(n as u16));
    figures.chain((0..book.rules.len()).map(|n| Step::Rule(n as u16))).collect()
}

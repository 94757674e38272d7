//! Advice worded: one finding to one piece of advice. In: a finding, the wording of its tank. Out: sentence, steps, reason,
//! cautions, basis, how sure. Knows no other advice.

use super::amounts::Voice;
use super::answer::{Advice, Caution, HangsOn};
use super::wording::Wording;
use crate::case::fact::Origin;
use crate::case::fact::{Fact, FactValue};
use crate::engine::finding::Finding;
use crate::knowledge::basis::Seen;
use crate::knowledge::schema::AttributeId;
use crate::rulebook::book::{Advice as RuleAdvice, Rule};
use crate::rulebook::code::{Code, Read};
use crate::rulebook::template::Piece;
use crate::rulebook::topics::{ON_THE_BENCH, ONLY_ASKED};
use crate::source::words::capital;
use std::collections::BTreeSet;

/// Below this share of the plausible tanks, advice says what it hangs on.
const SURE: f64 = 0.95;

impl<'w> Wording<'w> {
    /// The advice of a finding; `None` for a rule that only concludes. `asked`: the rules that the last turn asked for.
    /// `turn`: the last turn, where there were others before it.
    pub fn advice(&self, finding: Finding, asked: &[u16], turn: Option<u16>) -> Option<Advice> {
        let rule = &self.book.rules.rules[finding.rule as usize];
        let advice = rule.advice.as_ref()?;
        let sure = self.view.sure.get(&finding).copied().unwrap_or(1.0);
        let several = rule.for_thing.filter(|t| self.view.world.count(*t) > 1);
        let hangs_on = self.view.hangs_on.get(&finding).filter(|_| sure < SURE);
        let mut leaves = self.evaluation().leaves_of_rule(finding.rule, finding.instance, &self.view.grounds).clone();
        if !ON_THE_BENCH.contains(&rule.topic.as_str()) && self.rests_on_one_away(&leaves.facts) {
            return None;
        }
        if !asked.contains(&finding.rule) && ONLY_ASKED.contains(&rule.topic.as_str()) {
            return None;
        }
        let figures = figures_of(advice);
        for figure in &figures {
            leaves.add(self.leaves_of(*figure, self.instance_of(*figure, finding.instance)));
        }
        Some(Advice {
            rule: rule.name.clone(),
            about: self.about(several.map(|thing| self.thing(thing, finding.instance))),
            tank: self.view.tank,
            urgency: advice.urgency,
            say: capital(&self.fill(&advice.say, finding.instance, Voice::Spoken)),
            steps: advice.steps.iter().map(|s| capital(&self.fill(s, finding.instance, Voice::Written))).collect(),
            because: capital(&self.fill(&advice.because, finding.instance, Voice::Written)),
            cautions: self.cautions(rule),
            basis: rule.basis.iter().map(|b| b.to_string()).collect(),
            sources: self.read_sources(&rule.source),
            sure,
            hangs_on: hangs_on.map(|(id, instance)| self.hangs_on(*id, *instance)),
            asked: asked.contains(&finding.rule),
            of_call: leaves
                .facts
                .iter()
                .any(|(id, instance)| self.fact(*id, *instance).is_some_and(|f| f.origin != Origin::Assumed)),
            fresh: leaves.facts.iter().any(|(id, n)| self.turn_of(*id, *n).is_some_and(|said| Some(said) == turn)),
            worry: self.answers_worry(finding.rule),
            act: advice.act.clone(),
            assumed: self.assumed(&leaves),
            figures: figures.iter().map(|n| self.book.rules.figures[*n as usize].name.clone()).collect(),
            finding: (finding.rule, finding.instance),
        })
    }

    /// Whether what it rests on holds of a filter that was sent in, which does not run on any tank.
    fn rests_on_one_away(&self, facts: &BTreeSet<(AttributeId, u16)>) -> bool {
        let schema = &self.book.schema;
        let Some(away) = schema.path("filter", "away") else { return false };
        let filter = schema.of(away).thing;
        let yes = FactValue::Kind(schema.yes());
        let is_away = |instance: u16| self.fact(away, instance).is_some_and(|f| f.value == yes);
        facts.iter().any(|(id, instance)| schema.of(*id).thing == filter && is_away(*instance))
    }

    /// The turn that said a fact, or that first spoke of the thing whose kind it is.
    fn turn_of(&self, id: AttributeId, instance: u16) -> Option<u16> {
        let fact = self.fact(id, instance)?;
        let attribute = self.book.schema.of(id);
        match fact.origin {
            Origin::Said { turn, .. } => Some(turn),
            Origin::WorkedOut if attribute.name == "kind" => {
                self.view.case.facts.instances(attribute.thing).get(instance as usize).map(|i| i.since)
            }
            _ => None,
        }
    }

    /// Whether a rule, or a figure in its conditions, reads something said that the vocabulary calls a worry.
    fn answers_worry(&self, rule: u16) -> bool {
        // What must not be so is no worry.
        let told = self.book.rules.rules[rule as usize].conditions.iter().filter(|c| !matches!(c.code, Code::Not(_)));
        let figures = &self.book.rules.figures;
        let through = |read: &'w Read| match read {
            Read::Figure(n) => &figures[*n as usize].reads[..],
            read => std::slice::from_ref(read),
        };
        told.flat_map(|c| &c.reads).flat_map(through).any(|read| {
            let Read::Fact(id) = *read else { return false };
            let attribute = self.book.schema.of(id);
            let thing = &self.book.schema.thing_of(attribute.thing).name;
            let entry = self.book.knowledge.vocabulary.attribute(thing, &attribute.name);
            let said = |n| attribute.name == "kind" || self.fact(id, n).is_some_and(Fact::is_said);
            entry.is_some_and(|a| a.worry) && (0..self.view.world.count(attribute.thing)).any(said)
        })
    }

    /// What advice is for, where there are several: the tank, the thing, or both.
    fn about(&self, thing: Option<String>) -> Option<String> {
        let tank = self.several_tanks.then(|| format!("tank {}", self.view.tank));
        match (tank, thing) {
            (Some(tank), Some(thing)) => Some(format!("{tank}, {thing}")),
            (tank, thing) => tank.or(thing),
        }
    }

    /// "2 is 10 gal": a tank by its size, if that was said.
    pub fn tank_called(&self) -> Option<String> {
        let id = self.book.schema.path("tank", "nominal")?;
        Some(format!("{} is {}", self.view.tank, self.value(id, self.fact(id, 0)?, Voice::Written)))
    }

    /// A figure's own instance where a rule names it: of the tank there is one.
    pub fn instance_of(&self, figure: u16, instance: u16) -> u16 {
        if self.book.rules.figures[figure as usize].for_thing.is_some() { instance } else { 0 }
    }

    fn hangs_on(&self, id: AttributeId, instance: u16) -> HangsOn {
        let attribute = self.book.schema.of(id);
        let thing = &self.book.schema.thing_of(attribute.thing).name;
        let entry = self.book.knowledge.vocabulary.attribute(thing, &attribute.name);
        HangsOn {
            fact: self.book.schema.path_name(id),
            called: self.attribute(id, instance),
            measure: entry.and_then(|a| a.measure.clone().or(a.ask.clone())),
        }
    }

    /// The cautions of a rule, dangers to people first.
    fn cautions(&self, rule: &Rule) -> Vec<Caution> {
        let entries = &self.book.knowledge.cautions;
        let found = rule.cautions.iter().filter_map(|name| entries.iter().find(|c| c.caution == *name));
        let mut cautions: Vec<Caution> =
            found.map(|c| Caution { caution: c.caution.clone(), danger: c.danger, says: c.says.clone() }).collect();
        cautions.sort_by_key(|c| c.danger);
        cautions
    }

    /// Citations of the documents among `keys` that were read: only those may be shown as a reference.
    pub fn read_sources(&self, keys: &[String]) -> Vec<String> {
        let sources = &self.book.knowledge.sources;
        let found = keys.iter().filter_map(|key| sources.iter().find(|s| s.source == *key));
        found.filter(|s| s.seen == Seen::Read).map(|s| s.cite.clone()).collect()
    }
}

/// The figures that advice names beside it and in its texts, each once.
pub fn figures_of(advice: &RuleAdvice) -> Vec<u16> {
    let texts = advice.steps.iter().chain([&advice.say, &advice.because]).flatten();
    let inside = texts.filter_map(|piece| match piece {
        Piece::Figure(n) => Some(*n),
        _ => None,
    });
    let mut figures: Vec<u16> = Vec::new();
    for figure in advice.figures.iter().copied().chain(inside) {
        if !figures.contains(&figure) {
            figures.push(figure);
        }
    }
    figures
}

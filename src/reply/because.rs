//! Why: from advice down to the caller's words. In: a finding, the wording of its tank, the turns. Out: a page: reason,
//! conditions with their numbers, figures, facts with who said them, the ground, the rule's place. Computes nothing.

use super::amounts::Voice;
use super::page::{Page, Paragraph, Row, Tone};
use super::wording::Wording;
use crate::case::Ledger;
use crate::case::fact::{Fact, Origin};
use crate::engine::Leaves;
use crate::engine::finding::Finding;
use crate::engine::why::Proof;
use crate::knowledge::basis::Seen;
use crate::knowledge::schema::AttributeId;
use crate::rulebook::code::Code;
use crate::source::span::line_and_column;
use crate::source::words::{and_list, capital, harmless};

impl Wording<'_> {
    /// The page of one piece of advice.
    pub fn why(&self, finding: Finding, ledger: &Ledger) -> Page {
        let rule = &self.book.rules.rules[finding.rule as usize];
        let mut page = Page::default();
        if let Some(advice) = &rule.advice {
            page.push(Row::new(
                "Advice",
                Tone::Say,
                capital(&self.fill(&advice.say, finding.instance, Voice::Written)),
            ));
            page.push(Row::new(
                "Why",
                Tone::Plain,
                capital(&self.fill(&advice.because, finding.instance, Voice::Written)),
            ));
        }
        let proofs = self.evaluation().prove_rule(finding.rule, finding.instance);
        let mut holds = Vec::new();
        for (condition, proof) in rule.conditions.iter().zip(&proofs) {
            holds.push(Paragraph::led("- ", self.condition(&condition.text, proof)));
        }
        page.push(Row::list("Holds", Tone::Plain, holds));
        let leaves = self.evaluation().leaves_of_rule(finding.rule, finding.instance, &self.view.grounds);
        page.push(Row::list("Figures", Tone::Plain, self.figures_behind(finding, leaves)));
        page.push(Row::list("Facts", Tone::Plain, self.facts_behind(finding, leaves, ledger)));
        page.push(Row::new("Rests on", Tone::Plain, self.ground(finding)));
        page.push(Row::new("Rule", Tone::Quiet, self.place_of(finding.rule)));
        page
    }

    /// A condition with the numbers put in, and the rule that concluded what it reads.
    pub fn condition(&self, text: &str, proof: &Proof) -> String {
        let mut out = text.to_string();
        if let Some(numbers) = self.comparison(proof)
            && numbers != text
        {
            out.push_str(&format!(": {numbers}"));
        }
        if let Some(rule) = self.concluding(proof) {
            out.push_str(&format!(" (by {rule})"));
        }
        out
    }

    /// The rule by which a condition that reads a conclusion holds.
    fn concluding(&self, proof: &Proof) -> Option<String> {
        match proof.code {
            Code::Conclusion(n) => {
                let by = self.evaluation().concluded_by(*n, proof.instance)?;
                Some(self.book.rules.rules[by as usize].name.clone())
            }
            Code::All(_) | Code::Any(_) | Code::Exists { .. } => proof.parts.iter().find_map(|p| self.concluding(p)),
            _ => None,
        }
    }

    fn figures_behind(&self, finding: Finding, leaves: &Leaves) -> Vec<Paragraph> {
        let rule = &self.book.rules.rules[finding.rule as usize];
        let named = rule.advice.iter().flat_map(super::advise::figures_of);
        let mut figures: Vec<(u16, u16)> = named.map(|n| (n, self.instance_of(n, finding.instance))).collect();
        figures.extend(leaves.figures.iter().copied());
        // What those figures rest on in turn, one level down: beyond it lies every estimate of the book.
        for (figure, instance) in figures.clone() {
            let proof = self.evaluation().prove_figure(figure, instance);
            // Given numbers and sums of nothing stand in the formulae above already.
            let telling = |(n, m): &(u16, u16)| {
                let given = self.book.rules.figures[*n as usize].given.is_some();
                !given && self.view.state.figure(*n, *m).number() != Some(0.0)
            };
            figures.extend(self.read_by(&proof).into_iter().filter(telling));
        }
        let mut seen = Vec::new();
        let mut out = Vec::new();
        for (figure, instance) in figures {
            if seen.contains(&(figure, instance)) {
                continue;
            }
            seen.push((figure, instance));
            out.extend(self.figure_line(figure, instance, false).map(|line| Paragraph::led("- ", line.text())));
        }
        out
    }

    /// The figures that a formula reads itself.
    fn read_by(&self, proof: &Proof) -> Vec<(u16, u16)> {
        match proof.code {
            Code::Figure(n) => vec![(*n, proof.instance)],
            _ => proof.parts.iter().flat_map(|p| self.read_by(p)).collect(),
        }
    }

    fn facts_behind(&self, finding: Finding, leaves: &Leaves, ledger: &Ledger) -> Vec<Paragraph> {
        let mut leaves = leaves.clone();
        if let Some(advice) = &self.book.rules.rules[finding.rule as usize].advice {
            for figure in super::advise::figures_of(advice) {
                leaves.add(self.leaves_of(figure, self.instance_of(figure, finding.instance)));
            }
        }
        let mut facts: Vec<(u8, String)> = Vec::new();
        for (id, instance) in &leaves.facts {
            if let Some(fact) = self.fact(*id, *instance) {
                facts.push((rank(fact.origin), self.fact_line(*id, *instance, fact, ledger)));
            }
        }
        facts.sort_by_key(|(rank, _)| *rank);
        facts.into_iter().map(|(_, line)| Paragraph::led("- ", line)).collect()
    }

    /// "tank size 55 gal, said (turn 1: "55 gallon")".
    pub fn fact_line(&self, id: AttributeId, instance: u16, fact: &Fact, ledger: &Ledger) -> String {
        let thing = self.book.schema.of(id).thing;
        let called = &self.book.schema.of(id).called;
        // Of filters there is mostly one; animals and media are always named.
        let named = self.view.case.count(thing) > 1 || self.book.schema.thing_of(thing).name != "filter";
        let name = match self.book.schema.thing_of(thing).several && named {
            true => format!("{}, {called}", self.thing(thing, instance)),
            false => called.clone(),
        };
        let value = self.value(id, fact, Voice::Written);
        let value = value.strip_prefix(name.as_str()).unwrap_or(&value).trim_start_matches([' ', super::amounts::TIED]);
        let origin = match fact.origin {
            Origin::Said { turn, span } => {
                let text = ledger.turns().get(usize::from(turn).saturating_sub(1)).map(|t| span.of(&t.reading.text));
                match text.map(|t| super::unread::cut(&harmless(t))) {
                    Some(words) if !words.is_empty() => format!("you said \"{words}\""),
                    _ => "you said".to_string(),
                }
            }
            Origin::Assumed => match &fact.because {
                Some(because) => format!("assumed: {because}"),
                None => "assumed".to_string(),
            },
            other => other.word().to_string(),
        };
        format!("{name}: {value}; {origin}")
    }

    /// Basis and sources of a rule; a document that was not read is not shown as a reference.
    pub fn ground(&self, finding: Finding) -> String {
        let rule = &self.book.rules.rules[finding.rule as usize];
        let basis: Vec<String> = rule.basis.iter().map(|b| b.to_string()).collect();
        format!("{}.{}", capital(&and_list(&basis)), self.cited(&rule.source))
    }

    /// " See: ..." for sources that were read; for the others how they are known.
    pub fn cited(&self, keys: &[String]) -> String {
        let mut out = String::new();
        for key in keys {
            let Some(source) = self.book.knowledge.sources.iter().find(|s| s.source == *key) else { continue };
            match source.seen {
                Seen::Read => out.push_str(&format!(" {}", source.cite)),
                Seen::SecondHand => out.push_str(&format!(" ({key}: known at second hand, not read for this book.)")),
                Seen::Memory => out.push_str(&format!(" ({key}: cited from memory, not read for this book.)")),
            }
        }
        out
    }

    /// "fry-with-open-intake, rules/intake.yaml:14".
    pub fn place_of(&self, rule: u16) -> String {
        let rule = &self.book.rules.rules[rule as usize];
        let line = self.book.text_of(&rule.place.file).map(|text| line_and_column(&text, rule.place.span.start).0);
        match line {
            Some(line) => format!("{}, {}:{line}", rule.name, rule.place.file),
            None => format!("{}, {}", rule.name, rule.place.file),
        }
    }
}

/// What was said comes first, then what was worked out and looked up, then what was assumed.
fn rank(origin: Origin) -> u8 {
    match origin {
        Origin::Said { .. } => 0,
        Origin::WorkedOut => 1,
        Origin::LookedUp => 2,
        Origin::Assumed => 3,
    }
}

//! Why not: the condition that keeps a rule silent and by how much. In: a silent rule, the wording of a tank. Out: a page.
//! Computes nothing.

use super::amounts::{Voice, quantity, with_unit};
use super::compose::act_of;
use super::formula::comparison_words;
use super::page::{Page, Paragraph, Row, Tone};
use super::wording::Wording;
use crate::engine::value::Truth;
use crate::engine::why::Proof;
use crate::engine::why_not::{Miss, margin};
use crate::rulebook::code::Code;
use crate::rulebook::topics::ONLY_ASKED;
use crate::source::words::{and_list, capital};
use crate::units::Spread;

impl Wording<'_> {
    /// Why a rule that speaks says what it says.
    fn reason(&self, rule: u16) -> String {
        let finding = self.view.findings.speaking.iter().find(|f| f.rule == rule);
        finding.and_then(|f| self.advice(*f, &[], None)).map(|a| a.because).unwrap_or_default()
    }

    /// The page of a silent rule; for one that speaks, that it does.
    pub fn why_not(&self, rule: u16) -> Page {
        let entry = &self.book.rules.rules[rule as usize];
        let mut page = Page::default();
        let act = capital(&act_of(self.book, rule));
        let Some(silence) = self.evaluation().silence(rule, &self.view.findings) else {
            page.push(Row::new(
                "",
                Tone::Plain,
                match self.view.findings.speaks(rule) {
                    true => format!("{act}: that is advised. {}", self.reason(rule)),
                    false => format!("{act}: there is nothing in this call it could be for."),
                },
            ));
            return page;
        };
        page.push(Row::new("Not said", Tone::Say, act));
        if let Some(above) = silence.outranked_by.filter(|_| silence.misses.is_empty()) {
            let above = &self.book.rules.rules[above as usize];
            let reason = above.outranks.iter().find(|(n, _)| *n == rule).map_or("", |(_, because)| because);
            page.push(Row::new("Because", Tone::Plain, format!("{} outranks it. {reason}", above.name)));
        }
        let misses = silence
            .misses
            .iter()
            .map(|miss| Paragraph::led("- ", self.miss(&entry.conditions[miss.condition].text, miss)));
        page.push(Row::list("Because", Tone::Plain, misses.collect()));
        page.push(Row::new("Rule", Tone::Quiet, self.place_of(rule)));
        page
    }

    fn miss(&self, text: &str, miss: &Miss) -> String {
        if miss.proof.truth() == Truth::Unknown {
            let unknown = self.unknown_in(&miss.proof);
            return match unknown.is_empty() {
                true => format!("{text}: not known"),
                false => format!("{text}: waits for {}", and_list(&unknown)),
            };
        }
        if let Some(line) = self.near_miss(&miss.proof) {
            return format!("{text}: {line}");
        }
        match self.actual(&miss.proof) {
            Some(actual) => format!("{text}: it is {actual}"),
            None => format!("{text}: not so"),
        }
    }

    /// "would speak below 4 per hour; yours is 5.6 per hour".
    fn near_miss(&self, proof: &Proof) -> Option<String> {
        let margin = margin(proof)?;
        let compared = compared(proof)?;
        let [value, limit] = &compared.parts[..] else { return None };
        let dimension = self.dimension(value).or_else(|| self.dimension(limit))?;
        let shown_in = match (value.code, limit.code) {
            (Code::Figure(n), _) | (_, Code::Figure(n)) => self.book.rules.figures[*n as usize].shown_in,
            (_, Code::Quantity(_, unit)) => Some(*unit),
            _ => None,
        };
        let show = |v: f64| {
            let shown = quantity(&self.own, Spread::exact(v), dimension, shown_in, 3);
            with_unit(&shown.likely, shown.unit, Voice::Written)
        };
        Some(format!(
            "would speak {} {}; yours is {}",
            comparison_words(margin.how),
            show(margin.limit),
            show(margin.value)
        ))
    }

    /// What a kind is instead.
    fn actual(&self, proof: &Proof) -> Option<String> {
        match proof.code {
            Code::IsKind(..) => match proof.parts.first()?.code {
                Code::Fact(id) => Some(self.fact_phrase(*id, proof.parts.first()?.instance, Voice::Written)),
                _ => None,
            },
            Code::All(_) | Code::Any(_) | Code::Not(_) => match &proof.parts[..] {
                [one] => self.actual(one),
                _ => None,
            },
            _ => None,
        }
    }

    /// The unknown facts below a proof.
    fn unknown_in(&self, proof: &Proof) -> Vec<String> {
        let mut out = Vec::new();
        if let Some(thing) = self.unsaid_thing(proof) {
            out.push(format!("what {} there is", thing));
        }
        for (id, instance) in self.evaluation().leaves(proof, &self.view.grounds).facts {
            if self.fact(id, instance).is_none() {
                let called = self.attribute(id, instance);
                if !out.contains(&called) {
                    out.push(called);
                }
            }
        }
        out
    }

    /// The thing of which nothing was said, so that "any" cannot be decided.
    fn unsaid_thing(&self, proof: &Proof) -> Option<String> {
        match proof.code {
            Code::Exists { thing, .. } | Code::Fold { thing, .. } if self.view.world.count(*thing) == 0 => {
                Some(self.book.schema.thing_of(*thing).called.clone())
            }
            _ => proof.parts.iter().find_map(|p| self.unsaid_thing(p)),
        }
    }

    /// The rules with advice that the words of a question may mean, the best fit and the nearest first.
    pub fn meant_rules(&self, question: &str) -> Vec<u16> {
        let words = content_words(question);
        let mut found: Vec<(usize, f64, u16)> = Vec::new();
        for (n, rule) in self.book.rules.rules.iter().enumerate() {
            let Some(advice) = rule.advice.as_ref().filter(|_| !ONLY_ASKED.contains(&rule.topic.as_str())) else {
                continue;
            };
            if question.trim() == rule.name {
                return vec![n as u16];
            }
            let called = format!("{} {}", rule.name.replace('-', " "), advice.act.as_deref().unwrap_or(""));
            let (called, text) = (content_words(&called), content_words(&plain_text(&advice.say)));
            // A word of the rule's own name or act counts for more than one of its sentence.
            let weigh = |w: &&String| usize::from(text.contains(w)) + 2 * usize::from(called.contains(w));
            let score: usize = words.iter().map(|w| weigh(&w)).sum();
            if score > 0 {
                let distance = self.evaluation().silence(n as u16, &self.view.findings).map_or(0.0, |s| s.distance());
                found.push((score, distance, n as u16));
            }
        }
        found.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)));
        found.into_iter().map(|(_, _, n)| n).collect()
    }
}

/// The comparison inside a proof that alone made it false.
fn compared<'p, 'c>(proof: &'p Proof<'c>) -> Option<&'p Proof<'c>> {
    match (proof.code, &proof.parts[..]) {
        (Code::Compare(..), _) => Some(proof),
        (_, [one]) => compared(one),
        _ => None,
    }
}

fn plain_text(template: &crate::rulebook::template::Template) -> String {
    let texts = template.iter().filter_map(|piece| match piece {
        crate::rulebook::template::Piece::Text(text) => Some(text.as_str()),
        _ => None,
    });
    texts.collect()
}

/// The words of a text that carry its sense, without endings that only bend them.
pub fn content_words(text: &str) -> Vec<String> {
    const EMPTY: [&str; 44] = [
        "why", "not", "no", "the", "a", "an", "you", "your", "it", "its", "is", "are", "do", "did", "didn", "didnt",
        "t", "say", "said", "to", "of", "in", "on", "and", "or", "for", "with", "my", "i", "me", "that", "this", "at",
        "be", "as", "by", "so", "what", "was", "has", "have", "any", "some", "should",
    ];
    let words = text.to_lowercase();
    let words = words.split(|c: char| !c.is_alphanumeric()).filter(|w| w.len() > 1 && !EMPTY.contains(w));
    words
        .map(|w| {
            let stem = w.strip_suffix("ing").or(w.strip_suffix("es")).or(w.strip_suffix('s')).filter(|s| s.len() > 2);
            stem.unwrap_or(w).to_string()
        })
        .collect()
}

//! What is known so far: every fact with where it came from. In: an assessed call. Out: a page, a row a thing. Computes
//! nothing.

use super::page::{Page, Paragraph, Row, Tone};
use super::wording::{Wording, subject};
use crate::case::Ledger;
use crate::case::fact::Origin;
use crate::knowledge::schema::ThingId;
use crate::source::words::{capital, or_list};

impl Wording<'_> {
    /// What was said and worked out of one tank, then in one line what is assumed.
    pub fn known(&self, ledger: &Ledger) -> Page {
        let mut page = Page::default();
        if self.several_tanks {
            page.push(Row::new("", Tone::Say, format!("Tank {}:", self.view.tank)));
        }
        let mut assumed = Vec::new();
        for (n, instances) in self.view.case.facts.things.iter().enumerate() {
            let thing = ThingId(n as u8);
            for (m, instance) in instances.iter().enumerate() {
                let mut said = Vec::new();
                for (id, fact) in &instance.facts {
                    let name = self.book.schema.of(*id).name.as_str();
                    let kind_is_named = matches!(name, "kind" | "stage") && fact.origin == Origin::WorkedOut;
                    match fact.origin {
                        // Which gallon is told with the assumptions of every answer.
                        _ if name == "gallon" => {}
                        Origin::Said { .. } => said.push(self.fact_line(*id, m as u16, fact, ledger)),
                        Origin::WorkedOut if !kind_is_named => said.push(self.fact_line(*id, m as u16, fact, ledger)),
                        Origin::Assumed => assumed.push(self.assumed_fact(*id, m as u16, fact)),
                        _ => {}
                    }
                }
                let is_several = self.book.schema.thing_of(thing).several;
                if said.is_empty() && is_several {
                    said.push("there".to_string());
                }
                let name = capital(&self.thing(thing, m as u16));
                let lines = said.into_iter().map(|line| shortened(&line, &self.thing(thing, m as u16)));
                page.push(Row::list(name, Tone::Plain, lines.map(Paragraph::new).collect()));
            }
        }
        let absent: Vec<String> = self.view.case.facts.absent.iter().map(|a| subject(self.book, a, false)).collect();
        if !absent.is_empty() {
            page.push(Row::new("Not there", Tone::Plain, format!("no {}", or_list(&absent))));
        }
        if !assumed.is_empty() {
            page.push(Row::new("Assumed", Tone::Quiet, format!("{}.", assumed.join("; "))));
        }
        if page.rows.iter().all(|r| r.label == "Assumed" || r.label.is_empty()) {
            page.rows.insert(0, Row::new("", Tone::Plain, "Nothing was said yet."));
        }
        page
    }
}

/// The label names the thing already.
fn shortened(line: &str, thing: &str) -> String {
    line.strip_prefix(&format!("{thing}, ")).unwrap_or(line).to_string()
}

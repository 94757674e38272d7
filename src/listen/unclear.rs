//! Words spelt nearly like a denial: "dosent", "havnt". In: a clause with what it was found to say. Out: a question in the
//! place of every fact that such a word may turn round. No slip is corrected to a denial, and none is passed over.

use super::clause::Clause;
use super::found::{Doubt, Found};
use super::reading::{Doubtful, How, Said, Says, Statement};
use super::turn::Turn;

impl Turn<'_, '_> {
    /// Asks whether a word of the clause was meant as a denial. `Err` gives back what was found when there is no such word.
    pub fn unclear_denial(&mut self, clause: &Clause, found: Vec<Found>) -> Result<(), Vec<Found>> {
        if found.is_empty() {
            return Err(found);
        }
        let near = (clause.from..clause.to).find_map(|item| {
            let at = self.items[item].first;
            let term = &self.terms[at];
            let unknown = term.first == term.last && term.senses.is_empty() && term.mark().is_none();
            let word = self.words[term.first].text.as_str();
            let denial = self.listener.lexicon.near_denial(word).filter(|_| unknown)?;
            Some((at, word, denial))
        });
        let Some((at, word, denial)) = near else { return Err(found) };
        let ask = format!("\u{201c}{word}\u{201d}: did you mean \u{201c}{}\u{201d}?", printed(denial));
        let denied: Vec<Statement> = found.iter().filter_map(denied).collect();
        let readings = if denied.is_empty() { Vec::new() } else { vec![("yes".to_string(), denied)] };
        let mut terms = vec![at];
        found.iter().for_each(|f| terms.extend(&f.terms));
        terms.sort_unstable();
        terms.dedup();
        self.doubt(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
        Ok(())
    }
}

/// The contrary of a finding, where it has one.
fn denied(found: &Found) -> Option<Statement> {
    let says = match &found.says {
        Says::Present => Says::Absent,
        Says::Value { attribute, how: How::Set, value: Said::Word(word) } => {
            let other = match word.as_str() {
                "yes" => "no",
                "no" => "yes",
                _ => return None,
            };
            Says::Value { attribute: attribute.clone(), how: How::Set, value: Said::Word(other.into()) }
        }
        _ => return None,
    };
    Some(Statement { span: Default::default(), subject: found.subject.clone(), says, mark: None })
}

/// With its apostrophe: "doesn't".
fn printed(denial: &str) -> String {
    denial.strip_suffix("nt").map_or_else(|| denial.to_string(), |stem| format!("{stem}n't"))
}

//! Facts of a turn: how a finding meets what was said before, in this line or earlier. In: findings. Out: statements of
//! the reading. Knows no grammar.

use super::found::Found;
use super::lexicon::Sense;
use super::reading::{Became, How, Mark, Said, Says, Statement};
use super::state::same_thing;
use super::turn::Turn;
use crate::units::Amount;

impl Turn<'_, '_> {
    /// Writes a finding down as a statement.
    pub fn state_fact(&mut self, mut found: Found) {
        if found.renames && self.rename_stock(&found) {
            return;
        }
        let span = self.span_of(&found.terms);
        if let Some(attribute) = found.attribute().map(str::to_string) {
            self.set_how(&mut found, &attribute);
        }
        self.state.take(&found);
        let statement = Statement { span, subject: found.subject, says: found.says, mark: found.mark };
        let same = |s: &Statement| s.subject == statement.subject && s.says == statement.says;
        let index = match self.reading.statements.iter().position(same) {
            Some(at) => at,
            None => {
                self.own_tank |= self.is_own_size(&statement);
                self.reading.statements.push(statement);
                self.reading.statements.len() - 1
            }
        };
        self.claim(&found.terms, Became::Statement(index));
    }

    /// "6 fish, all embers": what was said of fish is said of them.
    fn rename_stock(&mut self, found: &Found) -> bool {
        let generic =
            |s: &Statement| s.subject.thing == "stock" && s.subject.kind.is_none() && s.subject.stage.is_none();
        let Some(first) = self.reading.statements.iter().position(generic) else { return false };
        for statement in self.reading.statements.iter_mut().filter(|s| generic(s)) {
            statement.subject = found.subject.clone();
        }
        self.state.stock = Some(found.subject.clone());
        self.claim(&found.terms, Became::Statement(first));
        true
    }

    /// How a value meets what was said before, in this line or earlier.
    fn set_how(&mut self, found: &mut Found, attribute: &str) {
        let Says::Value { how: how @ How::Set, value, .. } = &mut found.says else { return };
        let earlier = self.reading.statements.iter().position(|s| {
            same_thing(&s.subject, &found.subject)
                && matches!(&s.says, Says::Value { attribute: a, .. } if a == attribute)
        });
        if let Some(at) = earlier
            && let Says::Value { value: old, .. } = &self.reading.statements[at].says
        {
            let vague = matches!(old, Said::Amount(a) if attribute == "count" && a.likely.is_some() && !a.is_exact())
                && !found.vague;
            let joins = found.joins && attribute == "length";
            if let (true, Said::Amount(a), Said::Amount(b)) = (joins, old, &*value)
                && a.unit == b.unit
            {
                let ends = |x: &Amount| (x.low.or(x.likely), x.high.or(x.likely));
                if let ((Some(l), _), (_, Some(h))) = (ends(a), ends(b)) {
                    *value = Said::Amount(Amount {
                        decimals: a.decimals.max(b.decimals),
                        ..Amount::range(l.min(h), l.max(h), a.unit)
                    });
                    self.forget(at);
                    return;
                }
            }
            // "12 ok, two gasping": the worse of two states counts.
            let worse = attribute == "health" && matches!(old, Said::Word(w) if w == "fine")
                || attribute == "noise" && matches!(old, Said::Word(w) if w == "loud");
            if found.replaces && old != value {
                // Told again and put right in one breath: what was held before gives way, too.
                let held = |s: &Statement| {
                    same_thing(&s.subject, &found.subject)
                        && matches!(&s.says, Says::Value { attribute: a, value: v, .. } if a == attribute && v != value)
                };
                if self.context.held.iter().any(held) {
                    *how = How::Replace;
                }
            }
            if (found.replaces || vague || worse) && old != value {
                // "55, no wait, 45": only the later one.
                self.forget(at);
            }
            return;
        }
        let held = self.context.held.iter().rev().find(|s| {
            same_thing(&s.subject, &found.subject)
                && matches!(&s.says, Says::Value { attribute: a, .. } if a == attribute)
        });
        let Some(held) = held else { return };
        let Says::Value { value: old, .. } = &held.says else { return };
        let was_guessed = matches!(held.mark, Some(Mark::Derived)) && found.mark.is_none();
        // One of two values told again: that one is right.
        let open = self.context.pending.iter().flat_map(|p| &p.readings).flat_map(|(_, s)| s).any(|s| {
            same_thing(&s.subject, &found.subject)
                && matches!(&s.says, Says::Value { attribute: a, how: How::Replace, .. } if a == attribute)
        });
        if old == value && open && (found.replaces || self.correcting) {
            *how = How::Replace;
        } else if old == value {
            let terms = found.terms.clone();
            let agrees =
                |t: &super::term::Term| t.senses.iter().any(|s| matches!(s, Sense::Act(super::reading::Act::Agree)));
            if found.replaces || self.correcting || self.terms.first().is_some_and(agrees) {
                self.confirm(&terms);
            }
        } else if found.replaces || was_guessed {
            *how = How::Replace;
        } else if matches!(value, Said::Amount(_) | Said::Word(_)) {
            let span = Default::default();
            let new = Statement { span, subject: found.subject.clone(), says: found.says.clone(), mark: found.mark };
            self.contradicted.push((held.clone(), new));
        }
    }

    /// Takes back a statement of this very line; the words that made it are free again.
    pub fn forget(&mut self, index: usize) {
        self.reading.statements.remove(index);
        for became in &mut self.became {
            match became {
                Some(Became::Statement(n)) if *n == index => *became = Some(Became::Noise),
                Some(Became::Statement(n)) if *n > index => *n -= 1,
                _ => {}
            }
        }
    }

    /// Takes out statements that were emptied.
    pub fn drop_blanks(&mut self) {
        let blank = |s: &Statement| matches!(&s.says, Says::DroppedValue { attribute } if attribute.is_empty());
        while let Some(at) = self.reading.statements.iter().position(blank) {
            self.forget(at);
        }
    }
}

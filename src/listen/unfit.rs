//! Words that only look like ours where they stand: "a green box", "the glass", "the level is down", "soap in the tank".
//! In: mentions of a clause. Out: the same without them; their words are shown as not understood.

use super::bind::Binder;
use super::items::What;
use super::lexicon::Sense;
use super::mention::{Mention, Noun};
use super::name;
use crate::knowledge::language::Role;

/// Colours that water and things alike may have.
const COLOURS: [&str; 6] = ["green", "brown", "yellow", "white", "black", "clear"];

impl Binder<'_, '_> {
    pub fn leave_out_unfit(&mut self) {
        self.trends_on_the_way();
        let unfit: Vec<bool> = self.mentions.iter().map(|m| self.is_unfit(m)).collect();
        let mut each = unfit.into_iter();
        self.mentions.retain(|_| !each.next().unwrap_or(false));
    }

    /// "nitrite's back up at 2": the figure goes to the reading, past the word that tells where it goes.
    fn trends_on_the_way(&mut self) {
        for index in (1..self.mentions.len()).rev() {
            let (before, mention) = (self.mentions[index - 1].clone(), self.mentions[index].clone());
            let Noun::State { thing: name::READING, attribute: name::TREND, kind } = mention.noun else { continue };
            let Noun::Label { thing: name::READING, .. } = before.noun else { continue };
            let figure = (mention.last + 1..self.clause.to.min(mention.last + 4))
                .any(|i| matches!(self.items[i].what, What::Amount(_)));
            if figure {
                let of = self.subject_for(name::READING, None, mention.item);
                let terms = self.terms_of(mention.item, mention.last);
                self.mentions.remove(index);
                if !self.asking {
                    let kind = self.name(kind);
                    self.word(of, name::TREND, kind, terms, None);
                }
            }
        }
    }

    fn is_unfit(&self, mention: &Mention) -> bool {
        match mention.noun {
            // "since last autumn", "spring before last": when it was, not what time of year it is.
            Noun::State { thing: name::TANK, attribute: name::SEASON, .. } => {
                let word = |i: usize, w: &str| i < self.clause.to && self.words[self.term(i).first].text == w;
                mention.item > self.clause.from && word(mention.item - 1, "last")
                    || word(mention.last + 1, "before")
                    || mention.item > self.clause.from && self.has_role(mention.item - 1, Role::Since)
            }
            Noun::State { thing: name::TANK, attribute: name::LOOKS, .. } => self.is_colour_of_another(mention),
            // "took the level down": of no reading.
            Noun::State { thing: name::READING, attribute: name::TREND, .. } => {
                let reads = |m: &Mention| matches!(m.noun, Noun::Label { thing: name::READING, .. });
                !self.mentions.iter().any(reads) && self.state.label.is_none()
            }
            Noun::State { thing: name::FILTER, attribute: name::CLEANED_WITH, .. } => {
                let hoses = self.words[self.term(mention.item).last].text == "hoses";
                hoses || self.is_agent(mention) && !self.asking && !self.tells_of_washing()
            }
            // "the level drops": nothing is tested with drops.
            Noun::State { thing: name::READING, attribute: name::METHOD, .. } => {
                let word = self.words[self.term(mention.item).first].text.as_str();
                let reads = |m: &Mention| matches!(m.noun, Noun::Label { thing: name::READING, .. } | Noun::Test);
                let alone = self.term(mention.item).first == self.term(mention.item).last;
                alone
                    && matches!(word, "drops" | "drop")
                    && !self.mentions.iter().any(reads)
                    && !self.state.line_readings
            }
            // "the level": of the water, no test.
            Noun::Test => {
                let reads = |m: &Mention| matches!(m.noun, Noun::Label { thing: name::READING, .. });
                self.words[self.term(mention.item).first].text == "level" && !self.mentions.iter().any(reads)
            }
            Noun::Medium(Some(_)) => self.is_pane(mention),
            // "the frog is an african one": of what was named before.
            Noun::Stock { kind: Some(_), stage: None } => {
                mention.leaned
                    && self.has_role(mention.last + 1, Role::One)
                    && self.state.subject.as_ref().is_some_and(|s| s.thing == "stock")
            }
            _ => false,
        }
    }

    /// "a big green box", "a brown sponge": the colour of something else than the water.
    fn is_colour_of_another(&self, mention: &Mention) -> bool {
        let term = self.term(mention.item);
        let coloured = term.first == term.last && COLOURS.contains(&self.words[term.first].text.as_str());
        let next = mention.last + 1;
        if !coloured || next >= self.clause.to || self.items[next].what != What::Term {
            return false;
        }
        let term = self.term(next);
        let of_tank = |s: &Sense| {
            matches!(
                s,
                Sense::Thing(name::TANK | name::SOURCE)
                    | Sense::State { thing: name::TANK, .. }
                    | Sense::Label { thing: name::TANK, .. }
            )
        };
        let strange = term.senses.iter().any(|s| matches!(s, Sense::Common)) || term.senses.is_empty();
        strange || term.has_content() && !term.senses.iter().any(of_tank)
    }

    /// Soap or bleach, by whatever word.
    fn is_agent(&self, mention: &Mention) -> bool {
        let kind = |s: &Sense| match s {
            Sense::State { attribute: name::CLEANED_WITH, kind, .. } => Some(self.name(*kind)),
            _ => None,
        };
        self.term(mention.item).senses.iter().filter_map(kind).any(|k| k == "soap" || k == "bleach")
    }

    /// Media, a filter or the act of washing stand in the clause.
    fn tells_of_washing(&self) -> bool {
        let ours = |m: &Mention| {
            matches!(m.noun, Noun::Medium(_) | Noun::Filter(_) | Noun::Label { thing: name::FILTER, .. })
                || matches!(m.noun, Noun::State { thing: name::EVENT, .. })
        };
        let washing = (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Washing));
        // "cleaned an ornament in bleach": of something that is none of ours.
        let strange = |i: usize| {
            self.items[i].what == What::Term
                && self.term(i).letters > 3
                && self.term(i).senses.iter().all(|s| matches!(s, Sense::Common))
        };
        let medium = |m: &Mention| matches!(m.noun, Noun::Medium(_) | Noun::Filter(_));
        if (self.clause.from..self.clause.to).any(strange) && !self.mentions.iter().any(medium) {
            return false;
        }
        washing || self.mentions.iter().any(ours) || self.state.subject.as_ref().is_some_and(|s| s.thing == "medium")
    }

    /// "scrubbed the glass": the pane, no medium.
    fn is_pane(&self, mention: &Mention) -> bool {
        let word = mention.item == mention.last
            && self.term(mention.item).first == self.term(mention.item).last
            && self.words[self.term(mention.item).first].text == "glass";
        // "a white ring on the glass": a mark of lime.
        let ring = self.words[self.term(mention.item).last].text == "ring" && self.has_role(mention.last + 1, Role::On);
        ring || word
            && (mention.definite
                || mention.item == self.clause.to - 1 && self.has_role(mention.item.saturating_sub(1), Role::On))
    }
}

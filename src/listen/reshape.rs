//! Reshaping: mentions that mean another thing by what stands beside them. In: mentions of a clause. Out: the same,
//! reshaped, or what to ask. Gives no figure.

use super::bind::Binder;
use super::found::{Doubt, Found, subject};
use super::mention::Noun;
use super::name;
use super::reading::{Doubtful, How, Mark, Said, Says, Statement, Subject};
use crate::knowledge::language::Role;

impl Binder<'_, '_> {
    pub fn reshape(&mut self) {
        self.tanks_by_size();
        self.changed_medium();
        self.cartridges();
        self.tap_for_washing();
        self.stock_of_tank();
        self.newborn();
        self.perhaps();
        self.filter_or_cartridge();
        self.vessels();
        self.fish_spoken_of();
        self.graded_layers();
        self.box_of_a_pond();
        self.filters_by_name();
        self.which_of_two();
        self.tanks_by_name();
    }

    /// "a cup of gravel": nobody knows how large the cup is.
    fn vessels(&mut self) {
        for item in self.clause.from..self.clause.to {
            let filled = self.has_role(item, Role::Vessel) && self.has_role(item + 1, Role::Of);
            let counted = item > self.clause.from && matches!(self.items[item - 1].what, super::items::What::Amount(_));
            if !filled || counted {
                continue;
            }
            self.vessel(item);
            let terms = self.terms_of(item, (item + 2).min(self.clause.to - 1));
            let said = self.said(&terms).to_string();
            self.doubts.push(Doubt::new(Doubtful::NoFigure, format!("{said}: how many litres is that?"), terms));
        }
    }

    /// "I change the cartridge every month": the medium, not the water.
    fn changed_medium(&mut self) {
        let change = self.mentions.iter().position(|m| m.noun == Noun::Change);
        let Some(change) = change else { return };
        let at = self.mentions[change].last;
        let medium = |m: &super::mention::Mention| {
            m.item > at
                && m.item <= at + 4
                && matches!(
                    m.noun,
                    Noun::Medium(Some(_)) | Noun::State { thing: name::FILTER, attribute: name::USES, .. }
                )
        };
        if self.mentions.iter().any(medium) {
            self.mentions.remove(change);
        }
    }

    /// "no cartridges", "rings not cartridge": the medium; "hob with cartridge": what the filter is filled with.
    fn cartridges(&mut self) {
        let wish =
            (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Wish) || self.has_role(i, Role::Shun));
        let filter = self.mentions.iter().any(|m| matches!(m.noun, Noun::Filter(_)));
        for index in 0..self.mentions.len() {
            let mention = &self.mentions[index];
            let Noun::State { thing: name::FILTER, attribute: name::USES, kind } = mention.noun else { continue };
            let medium = kind == name::CARTRIDGE && (mention.negated || wish || self.asking || !filter);
            if medium {
                self.mentions[index].noun = Noun::Medium(Some(kind));
            }
        }
    }

    /// "cleaned a month ago, in tap water": what it was washed in, not the source.
    fn tap_for_washing(&mut self) {
        let washing = |m: &super::mention::Mention| {
            matches!(m.noun, Noun::Label { attribute: name::CLEANED | name::CLEAN_EVERY, .. })
        };
        let washed = self.mentions.iter().any(washing)
            || self.state.last.as_ref().is_some_and(|(_, a)| a == "cleaned") && self.mentions.len() == 1;
        if !washed {
            return;
        }
        for index in 0..self.mentions.len() {
            let mention = self.mentions[index].clone();
            if mention.noun == Noun::Source {
                self.mentions[index].taken = true;
                let (first, last) = self.words_of_clause();
                if !self.listener.happened(first, last, self.heard).is_empty() {
                    continue;
                }
                let terms = self.terms_of(mention.item, mention.last);
                let of = self.subject_for(name::FILTER, None, mention.item);
                let tap = self.listener.state("filter", "cleaned with", "tap").unwrap_or_default();
                self.word(of, name::CLEANED_WITH, &tap, terms.clone(), None);
                let event = self.event(self.name(name::WASHED_IN_TAP));
                self.push(Found::new(event, Says::Present, terms));
            }
        }
    }

    /// "my goldfish tank", "koi pond": the fish are there; "goldfish bowl" is a shape.
    fn stock_of_tank(&mut self) {
        for index in 0..self.mentions.len().saturating_sub(1) {
            let (one, two) = (self.mentions[index].clone(), self.mentions[index + 1].clone());
            let Noun::Stock { kind: Some(_), stage: None } = one.noun else { continue };
            if one.plural || one.last + 1 != two.item {
                continue;
            }
            let vessel = match two.noun {
                Noun::Tank => true,
                Noun::State { thing: name::TANK, attribute: name::KIND, .. } => true,
                Noun::State { thing: name::TANK, attribute: name::SHAPE, .. } => {
                    self.mentions[index].taken = true;
                    false
                }
                _ => false,
            };
            if vessel {
                self.mentions[index].taken = true;
                let of = self.mention_subject(&one);
                let mut found =
                    Found::new(of, Says::Present, self.terms_of(one.item, one.last)).marked(Some(Mark::Hint));
                (found.bare, found.definite) = (true, one.definite);
                self.push(found);
            }
        }
    }

    /// "the guppies dropped fry": fry of the guppies.
    fn newborn(&mut self) {
        let (first, last) = self.words_of_clause();
        let cued = self.listener.happened(first, last, self.heard);
        let born = cued.iter().any(|h| h.event == self.name(name::SPAWNED))
            || self.happened().is_some_and(|e| e == self.name(name::SPAWNED))
            || self.event_in_clause() == Some(name::SPAWNED);
        if !born {
            return;
        }
        let parent = self.mentions.iter().find_map(|m| match m.noun {
            Noun::Stock { kind: Some(kind), stage: None } => Some(kind),
            _ => None,
        });
        let Some(parent) = parent else { return };
        for mention in &mut self.mentions {
            if let Noun::Stock { kind: None, stage: Some(stage) } = mention.noun {
                mention.noun = Noun::Stock { kind: Some(parent), stage: Some(stage) };
            }
        }
    }

    /// "I can't say there's no fry": neither there nor not.
    fn perhaps(&mut self) {
        let Some(at) = (self.clause.from..self.clause.to).find(|i| self.has_role(*i, Role::Maybe)) else { return };
        for index in 0..self.mentions.len() {
            let mention = self.mentions[index].clone();
            if mention.item < at || !matches!(mention.noun, Noun::Stock { .. } | Noun::Medium(Some(_)) | Noun::Plant(_))
            {
                continue;
            }
            self.mentions[index].taken = true;
            let of = self.mention_subject(&mention);
            let mut terms = self.terms_of(mention.item, mention.last);
            terms.extend(self.terms_of(at, at));
            let said = self.said(&self.terms_of(mention.item, mention.last)).to_string();
            self.push(Found::new(of.clone(), Says::Unsure, terms));
            let there = Statement { span: Default::default(), subject: of.clone(), says: Says::Present, mark: None };
            let gone = Statement { says: Says::Absent, ..there.clone() };
            let readings = vec![("yes".to_string(), vec![there]), ("no".to_string(), vec![gone])];
            let ask = format!("Treat it as if there were {said}?");
            self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, Vec::new()) });
        }
    }

    /// "I change the filter every month": the whole of it, or the pad inside?
    fn filter_or_cartridge(&mut self) {
        let (from, to) = (self.clause.from, self.clause.to);
        let Some(index) = self.mentions.iter().position(|m| m.noun == Noun::Filter(None)) else { return };
        let item = self.mentions[index].item;
        let verb = (from..item).rev().take(3).find(|i| {
            self.has_role(*i, Role::Swap)
                || self.mentions.iter().any(|m| {
                    let changed = Noun::Label { thing: name::MEDIUM, attribute: name::CHANGED };
                    m.item == *i && (m.noun == Noun::Change || m.noun == changed)
                })
        });
        let Some(verb) = verb else { return };
        if self.asking || self.mentions.iter().any(|m| matches!(m.noun, Noun::Medium(_))) {
            return;
        }
        self.mentions.iter_mut().for_each(|m| m.taken = true);
        self.done.extend(from..to);
        let terms = self.terms_of(verb, to - 1);
        let of_medium = subject("medium", Some(self.name(name::CARTRIDGE)));
        let event = |kind: &str| Statement {
            span: Default::default(),
            subject: subject("event", Some(kind)),
            says: Says::Present,
            mark: None,
        };
        let used = Statement {
            span: Default::default(),
            subject: Subject { number: self.state.filter, ..subject("filter", None) },
            says: Says::Value {
                attribute: self.name(name::USES).to_string(),
                how: How::Set,
                value: Said::Word(self.name(name::CARTRIDGE).to_string()),
            },
            mark: None,
        };
        let there = Statement { span: Default::default(), subject: of_medium, says: Says::Present, mark: None };
        let readings = vec![
            ("the pad or cartridge inside".to_string(), vec![used, there]),
            ("the whole filter".to_string(), vec![event("new filter")]),
        ];
        let ask = "Do you mean the pad or cartridge inside, or the whole filter?";
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
    }

    /// "salt 30 g added", "I put 30 g of salt in": a dose.
    pub fn dosing(&mut self) {
        let treated = self.mentions.iter().any(|m| matches!(m.noun, Noun::Treatment(_)));
        let put = (self.clause.from..self.clause.to)
            .any(|i| self.has_role(i, Role::Put) || self.has_role(i, Role::Treat))
            || self.treats_with();
        if !(treated && put) || self.asking {
            return;
        }
        let medicated = self.name(name::MEDICATED).to_string();
        let event = self.event(&medicated);
        let added = self.name(name::FISH_ADDED).to_string();
        let mut terms = Vec::new();
        for found in &mut self.found {
            let dose = found.subject.thing == "medium" && found.attribute() == Some("mass");
            let time = found.subject.kind.as_deref() == Some(added.as_str());
            if dose || time {
                found.subject = event.clone();
                terms.extend(found.terms.clone());
            }
            if let (true, Says::Value { attribute, .. }) = (dose, &mut found.says) {
                *attribute = self.listener.lexicon.text(name::DOSE).to_string();
            }
        }
        for mention in self.mentions.iter().filter(|m| matches!(m.noun, Noun::Treatment(_)) && !m.negated) {
            terms.extend(self.terms_of(mention.item, mention.last));
        }
        if terms.is_empty() {
            return;
        }
        for mention in &mut self.mentions {
            mention.taken |= matches!(mention.noun, Noun::Treatment(_) | Noun::State { thing: name::EVENT, .. });
        }
        // What is dosed is a medium as well.
        for mention in self.mentions.clone() {
            if matches!(mention.noun, Noun::Treatment(_)) {
                let of = self.mention_subject(&mention);
                let mut found = Found::new(of, Says::Present, self.terms_of(mention.item, mention.last));
                found.bare = true;
                self.push(found);
            }
        }
        if !self.found.iter().any(|f| f.subject == event && f.says == Says::Present) {
            self.found.insert(0, Found::new(event, Says::Present, terms));
        }
    }

    /// "dropped fry", "spawned": the young of the fish named, or spoken of.
    pub fn spawned(&mut self, index: usize) {
        let mention = self.mentions[index].clone();
        let parent = self.mentions.iter().position(|m| matches!(m.noun, Noun::Stock { kind: Some(_), stage: None }));
        let kind = match parent.map(|p| self.mentions[p].noun) {
            Some(Noun::Stock { kind: Some(kind), .. }) => Some(self.name(kind).to_string()),
            _ => self.state.stock.as_ref().and_then(|s| s.kind.clone()),
        };
        let terms = self.terms_of(mention.item, mention.last);
        let said = self.said(&terms).to_lowercase();
        let eggs = said.contains("spawn") || said.contains("egg");
        let stage = if eggs { name::EGG } else { name::FRY };
        let of = Subject {
            stage: Some(self.name(stage).to_string()),
            tank: self.state.tank,
            ..subject("stock", kind.as_deref())
        };
        let mut found = Found::new(of, Says::Present, terms).marked(eggs.then_some(Mark::Hint));
        found.bare = true;
        // The parents first, then the young: what is counted next are the young.
        if let Some(parent) = parent
            && !self.mentions[parent].taken
        {
            self.mentions[parent].taken = true;
            self.stock_present(parent);
        }
        self.push(found);
    }
}

//! Events: what happened, when, for how long, to how many. In: cues heard in a clause, times and counts. Out: findings on
//! events, and times of attributes ("cleaned a month ago"). Knows no danger by itself; `danger.rs` does.

use super::attributes::Is;
use super::bind::Binder;
use super::found::{Found, subject};
use super::items::What;
use super::mention::{Mention, Noun};
use super::name::{self, Name};
use super::reading::{How, Said, Says, Subject, TimeRelation};
use super::time_words::Time;
use crate::knowledge::language::Role;
use crate::units::Dimension;

impl Binder<'_, '_> {
    pub fn event(&self, kind: &str) -> Subject {
        Subject { tank: self.state.tank, ..subject(self.name(name::EVENT), Some(kind)) }
    }

    /// The event of the clause, named by a state word: "died", "power cut".
    pub fn event_in_clause(&self) -> Option<Name> {
        self.mentions.iter().find_map(|m| match m.noun {
            Noun::State { thing: name::EVENT, attribute: name::KIND, kind } => Some(kind),
            _ => None,
        })
    }

    /// A time: of the attribute named beside it, of an event, of the noun it touches.
    pub fn time(&mut self, item: usize, time: Time) {
        let (relation, value) = match time {
            Time::Span { relation, measure } => {
                let Some(unit) = measure.unit_of(Dimension::TIME) else { return };
                (relation, Said::Time { relation, amount: measure.amount(unit) })
            }
            Time::Moment { relation, name } => (relation, Said::Moment { relation, name: self.name(name).to_string() }),
            Time::Rate { count, per } => return self.rate(item, &count, per),
        };
        // "lost seven in ten days": so long it lasted.
        let value = match value {
            Said::Time { relation: TimeRelation::In, amount } if self.event_in_clause() == Some(name::FISH_DIED) => {
                let says = Says::Value {
                    attribute: self.name(name::LASTED).to_string(),
                    how: How::Set,
                    value: Said::Time { relation: TimeRelation::For, amount },
                };
                let of = self.event(self.name(name::FISH_DIED));
                return self.push(Found::new(of, says, self.terms_of(item, item)));
            }
            other => other,
        };
        if self.after_future(item) {
            return;
        }
        // "the week before I did nothing": when nothing was done.
        if self.happened().is_none() && (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Nothing)) {
            return;
        }
        let wish = (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Wish));
        let terms = self.terms_of(item, item);
        if wish && self.mentions.iter().any(|m| matches!(m.noun, Noun::Stock { .. })) {
            return;
        }
        if self.time_answers(item, relation, &value) {
            return;
        }
        if let Some((of, attribute, extra)) = self.target_of_time(item, relation) {
            let mut terms = terms;
            terms.extend(extra);
            let value = self.related(value, attribute);
            let says = Says::Value { attribute: self.name(attribute).to_string(), how: How::Set, value };
            let carried = relation == TimeRelation::Old && self.mentions.is_empty() && of.thing == "filter";
            let again = self.cleaned_told && of.thing == "filter" && attribute == name::CLEANED;
            let mut found = Found::new(of, says, terms.clone());
            found.replaces = self.correcting;
            self.push(found);
            if again && let What::Time(time) = self.items[item].what.clone() {
                self.time(item, time);
            }
            if carried {
                let said = self.said(&terms).to_string();
                let ask = format!("Is it the filter that is {said}?");
                self.doubts.push(super::found::Doubt::new(super::reading::Doubtful::Which, ask, Vec::new()));
            }
        } else if relation == TimeRelation::Old && self.clause.to - self.clause.from <= 2 {
            let said = self.said(&terms).to_string();
            let ask = format!("What is {said}?");
            self.doubts.push(super::found::Doubt::new(super::reading::Doubtful::Which, ask, terms));
        } else if self.items.len() <= 4
            && relation != TimeRelation::In
            && self.mentions.is_empty()
            && self.state.subject.is_none()
            && !self.is_of_others()
        {
            let said = self.said(&terms).to_string();
            let ask = format!("{said} since what: set up, the last clean, the last water change?");
            self.doubts.push(super::found::Doubt::new(super::reading::Doubtful::Which, ask, terms));
        }
    }

    /// "next week", "tomorrow": a plan, no fact of today.
    fn after_future(&self, item: usize) -> bool {
        matches!(&self.items[item].what, What::Time(Time::Span { relation: TimeRelation::In, .. }))
            || (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Future))
    }

    /// A tank that is "3 weeks old" was set up 3 weeks ago; a filter not touched "for six months" was cleaned then.
    fn related(&self, value: Said, attribute: Name) -> Said {
        let ago = matches!(attribute, name::SET_UP | name::CLEANED | name::WHEN | name::LAST);
        match value {
            Said::Time { relation: TimeRelation::Old | TimeRelation::For, amount } if ago => {
                Said::Time { relation: TimeRelation::Ago, amount }
            }
            Said::Time { relation: TimeRelation::For, amount } if attribute == name::AGE => {
                Said::Time { relation: TimeRelation::Old, amount }
            }
            other => other,
        }
    }

    fn target_of_time(&mut self, item: usize, relation: TimeRelation) -> Option<(Subject, Name, Vec<usize>)> {
        let is = match relation {
            TimeRelation::Ago | TimeRelation::Since => Is::Ago,
            TimeRelation::Every => Is::Every,
            TimeRelation::Old => Is::Old,
            TimeRelation::For => Is::For,
            TimeRelation::In => return None,
        };
        // A label that is measured in time: "cleaned", "set up".
        {
            let every = |a: Name| matches!(a, name::CLEAN_EVERY | name::EVERY | name::CHANGE_EVERY);
            let labelled = self.mentions.iter().position(|m| match m.noun {
                Noun::Label { thing, attribute } => {
                    !m.taken
                        && every(attribute) == (is == Is::Every)
                        && self
                            .listener
                            .attributes
                            .get(thing, attribute)
                            .is_some_and(|a| a.dimension == Some(Dimension::TIME))
                }
                _ => false,
            });
            if let Some(index) = labelled
                && let Noun::Label { thing, attribute } = self.mentions[index].noun
            {
                // "I changed a third of the water on Sunday".
                let named = self.mentions.iter().find(|m| matches!(m.noun, Noun::Medium(Some(_)))).cloned();
                let told = self.state.subject.clone().filter(|s| s.thing == "medium" && self.mentions.len() == 1);
                let medium = self.mentions.iter().any(|m| matches!(m.noun, Noun::Medium(_) | Noun::Filter(_)));
                if (thing, attribute) == (name::MEDIUM, name::CHANGED)
                    && let Some(of) = named.map(|m| self.mention_subject(&m)).or(told)
                {
                    self.mentions[index].taken = true;
                    let mention = self.mentions[index].clone();
                    return Some((of, attribute, self.terms_of(mention.item, mention.last)));
                }
                if (thing, attribute) == (name::MEDIUM, name::CHANGED) && !medium {
                    self.mentions[index].taken = true;
                    let water = self.found.iter().any(|f| f.subject.thing == "change");
                    return water.then(|| (self.subject_for(name::CHANGE, None, item), name::LAST, Vec::new()));
                }
                self.mentions[index].taken = true;
                let mention = self.mentions[index].clone();
                let of = self.subject_for(thing, None, item);
                return Some((of, attribute, self.terms_of(mention.item, mention.last)));
            }
        }
        // "salt 30 g added yesterday": no fish was added.
        let dosed = self.mentions.iter().any(|m| matches!(m.noun, Noun::Treatment(_)))
            && !self.mentions.iter().any(|m| matches!(m.noun, Noun::Stock { .. }));
        let told = self.event_in_clause();
        if dosed
            && is == Is::Ago
            && told.is_none_or(|e| e == name::FISH_ADDED)
            && (self.has_put() || self.treats_with())
        {
            return Some((self.event(self.name(name::MEDICATED)), name::WHEN, Vec::new()));
        }
        // "it stopped three hours ago": since when it stands still.
        if self.tells_stopped() && is != Is::Every && is != Is::Old && self.event_in_clause().is_none() {
            let off = self.event(self.name(name::FILTER_OFF));
            if !self.found.iter().any(|f| f.subject == off) {
                let terms = self.terms_of(item, item);
                self.push(Found::new(off.clone(), Says::Present, terms));
            }
            return Some((off, if is == Is::For { name::LASTED } else { name::WHEN }, Vec::new()));
        }
        if self.event_in_clause().is_some() && self.clause_negates() {
            return None;
        }
        if let Some(kind) = self.event_in_clause()
            && is != Is::Every
            && is != Is::Old
        {
            let kind = self.name(kind).to_string();
            let attribute = if is == Is::For { name::LASTED } else { name::WHEN };
            return Some((self.event(&kind), attribute, Vec::new()));
        }
        // "cleaned 3 weeks ago in the sink": when it was washed is when it was cleaned.
        let washed = self.happened().is_some_and(|e| e.starts_with("washed"));
        let cleaned = self.mentions.iter().any(|m| matches!(m.noun, Noun::Label { attribute: name::CLEANED, .. }));
        if washed && cleaned && is == Is::Ago && !self.cleaned_told {
            self.cleaned_told = true;
            return Some((self.subject_for(name::FILTER, None, item), name::CLEANED, Vec::new()));
        }
        if let Some(kind) = self.happened()
            && is != Is::Every
            && is != Is::Old
        {
            let attribute = if is == Is::For { name::LASTED } else { name::WHEN };
            return Some((self.event(&kind), attribute, Vec::new()));
        }
        // "I hose the foam every fortnight", "I rinse it every week".
        let washing = (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Washing));
        let of_filter = self.mentions.iter().all(|m| {
            matches!(
                m.noun,
                Noun::Medium(_)
                    | Noun::Filter(_)
                    | Noun::Source
                    | Noun::State { .. }
                    | Noun::Label { thing: name::FILTER, .. }
            )
        });
        if washing && of_filter && is == Is::Every {
            return Some((self.subject_for(name::FILTER, None, item), name::CLEAN_EVERY, Vec::new()));
        }
        // "cleaned monthly": of the filter, whatever was spoken of before.
        let cleaned = |m: &super::mention::Mention| matches!(m.noun, Noun::Label { attribute: name::CLEANED, .. });
        if is == Is::Every && self.mentions.iter().any(cleaned) {
            self.mentions.iter_mut().filter(|m| cleaned(m)).for_each(|m| m.taken = true);
            return Some((self.subject_for(name::FILTER, None, item), name::CLEAN_EVERY, Vec::new()));
        }
        // "wc 50% wkly": a change or a feeding anywhere in the clause.
        let habit = self.mentions.iter().find(|m| matches!(m.noun, Noun::Change | Noun::Feed)).map(|m| m.noun.thing());
        let habit = habit.or_else(|| {
            let told = |thing: &str| self.found.iter().any(|f| f.subject.thing == thing);
            if told("change") { Some(name::CHANGE) } else { told("feed").then_some(name::FEED) }
        });
        if let Some(thing) = habit
            && let Some((of, attribute)) = self.listener.attributes.beside(thing, None, is)
        {
            let subject = self.subject_for(of, None, item);
            self.take_mentions(Noun::Change);
            return Some((subject, attribute, Vec::new()));
        }
        // "shop tested it mon", "0-0-40 yesterday".
        let tested = self.mentions.iter().any(|m| {
            m.noun == Noun::Test || matches!(m.noun, Noun::State { thing: name::READING, attribute: name::METHOD, .. })
        });
        if tested && is == Is::Ago {
            return Some((self.subject_for(name::READING, None, item), name::TAKEN, Vec::new()));
        }
        // "day 19": of the tank.
        if self.terms[self.items[item].first].units().any(|u| u.dimension == Dimension::TIME) && is == Is::Ago {
            return Some((self.tank(self.state.tank), name::SET_UP, Vec::new()));
        }
        // The noun it touches.
        let near: Vec<usize> = self.right(item).into_iter().chain(self.left(item)).collect();
        for index in near {
            let mention = self.mentions[index].clone();
            // "green for three weeks" is not the age of the tank, nor "overflows every hour" a cleaning.
            let state = |m: &Mention| {
                matches!(
                    m.noun,
                    Noun::State {
                        thing: name::FILTER,
                        attribute: name::LOOKS | name::RUNNING | name::NOISE | name::FLOW_STATE,
                        ..
                    }
                )
            };
            if matches!(mention.noun, Noun::State { thing: name::TANK, attribute: name::LOOKS, .. })
                || is == Is::Every && mention.noun.thing() == name::FILTER && self.mentions.iter().any(state)
            {
                continue;
            }
            let (thing, attribute) = match mention.noun {
                Noun::Label { thing, attribute } => (thing, Some(attribute)),
                noun => (noun.thing(), None),
            };
            if let Some((of, attribute)) = self.listener.attributes.beside(thing, attribute, is) {
                let subject =
                    if of == thing { self.mention_subject(&mention) } else { self.subject_for(of, None, item) };
                let named = matches!(mention.noun, Noun::Tank | Noun::Filter(None) | Noun::Change | Noun::Feed)
                    || is == Is::Old && !matches!(mention.noun, Noun::Filter(Some(_)));
                if named {
                    self.mentions[index].taken = true;
                }
                return Some((subject, attribute, self.terms_of(mention.item, mention.last)));
            }
        }
        // The subject that carries on.
        if !self.mentions.is_empty() {
            return None;
        }
        // "gave us drops for the pond, seven days ago".
        if is == Is::Ago
            && self.state.when.is_none()
            && self.clause.to - self.clause.from <= 2
            && let Some(event) = self.state.event.clone()
        {
            return Some((event, name::WHEN, Vec::new()));
        }
        let subject = self.state.subject.clone()?;
        let thing = self.listener.lexicon.names.find(&subject.thing)?;
        let (of, attribute) = self.listener.attributes.beside(thing, None, is)?;
        let person = (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Person));
        if (self.clause.to - self.clause.from > 4 || person) && is != Is::Old {
            return None;
        }
        // "seven days ago" behind a tank is not its age, nor anybody's but an event's.
        // "20 guppies, no more than 3 years old": the fish or the tank?
        if thing == name::STOCK && subject.stage.is_none() {
            return None;
        }
        let habit = matches!(thing, name::CHANGE | name::FEED) && is != Is::Old;
        if !(is == Is::Old || thing == name::EVENT || habit) {
            return None;
        }
        if of != thing || is == Is::For && thing != name::EVENT {
            return None;
        }
        Some((subject, attribute, Vec::new()))
    }

    /// The clause says that the filter does not run.
    fn tells_stopped(&self) -> bool {
        let stands = |m: &super::mention::Mention| {
            matches!(m.noun, Noun::State { thing: name::FILTER, attribute: name::RUNNING, kind: name::NO })
        };
        self.mentions.iter().any(|m| stands(m) && !m.negated) && !self.asking
    }

    /// "added", "put in": something was.
    fn has_put(&self) -> bool {
        (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::Put))
    }

    /// What happened in the sentence, from cues.
    pub fn happened(&self) -> Option<String> {
        self.found.iter().rev().find(|f| f.subject.thing == "event").and_then(|f| f.subject.kind.clone())
    }

    pub fn take_mentions(&mut self, noun: Noun) {
        self.mentions.iter_mut().filter(|m| m.noun == noun).for_each(|m| m.taken = true);
    }

    /// A negation stands in the clause: "none of the tetras died".
    pub fn clause_negates(&self) -> bool {
        (self.clause.from..self.clause.to).any(|i| self.has_role(i, Role::No) || self.has_role(i, Role::Not))
    }
}

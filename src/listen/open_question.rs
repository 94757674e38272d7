//! Open questions: the figure or the time that was asked for, wherever in a line the answer stands. In: a figure that nothing
//! beside it takes. Out: a finding on what was asked. Knows no short answers; `answer.rs` does.

use super::bind::Binder;
use super::found::Found;
use super::items::What;
use super::lexicon::Sense;
use super::measure::Measure;
use super::mention::{Mention, Noun};
use super::name;
use super::reading::{Context, How, Said, Says, Subject, TimeRelation};
use crate::knowledge::language::Role;
use crate::units::Dimension;

/// A figure that a question waits for.
#[derive(Clone, Debug, PartialEq)]
pub struct Wanted {
    pub of: Subject,
    pub attribute: String,
    /// The figure is the top of a scale, and the value above it.
    pub at_least: bool,
}

impl Wanted {
    pub fn of(of: Subject, attribute: &str) -> Self {
        Self { of, attribute: attribute.to_string(), at_least: false }
    }
}

/// What the call waits for: asked back first, then asked.
pub fn wanted(context: &Context) -> Vec<Wanted> {
    let back = context.pending.iter().chain(&context.waiting).filter_map(|p| p.wants.clone());
    let asked = context.asked.iter().map(|(of, attribute)| Wanted::of(of.clone(), attribute));
    back.chain(asked).collect()
}

impl Binder<'_, '_> {
    /// "56 then", "160 on mine, deepest colour": the figure asked for.
    pub fn answers(&mut self, item: usize, measure: &Measure) -> bool {
        if self.asking || self.correcting || measure.refused || measure.article || self.is_pronoun_one(item) {
            return false;
        }
        let denied = (self.clause.from..item).any(|i| {
            [Role::Not, Role::Instead, Role::Was, Role::Wish, Role::Code].iter().any(|r| self.has_role(i, *r))
        });
        if denied || self.is_history(item) || measure.is_plain() && !self.stands_alone(item) {
            return false;
        }
        let wanted = self.state.wanted.clone();
        let Some((at, target)) = wanted.iter().enumerate().find_map(|(n, w)| Some((n, self.takes(w, measure)?))) else {
            return false;
        };
        // "1200 on the box": litres an hour, or gallons?
        let no_unit = measure.is_plain() && self.state.flow_unit.is_none();
        if target.0 == name::FILTER && no_unit && wanted[at].attribute.ends_with("flow") {
            return self.flow_without_unit(item, measure, wanted[at].of.clone());
        }
        let bounded = Measure { low: measure.value(), likely: None, high: None, hedged: true, ..measure.clone() };
        let measure = if wanted[at].at_least { &bounded } else { measure };
        let Some((amount, mark)) = self.amount_for(target.0, target.1, measure, item) else { return false };
        self.state.wanted.remove(at);
        let says = Says::Value { attribute: wanted[at].attribute.clone(), how: How::Set, value: Said::Amount(amount) };
        let mut found = Found::new(wanted[at].of.clone(), says, self.terms_of(item, item)).marked(mark);
        // A count told anew, or the top of the scale for "off the chart", takes the place of what made us ask.
        found.replaces = true;
        self.push(found);
        true
    }

    /// The attribute that is wanted, when it can take such a figure and the clause speaks of nothing else.
    fn takes(&self, wanted: &Wanted, measure: &Measure) -> Option<(super::name::Name, super::name::Name)> {
        let names = &self.listener.lexicon.names;
        let (thing, attribute) = (names.find(&wanted.of.thing)?, names.find(&wanted.attribute)?);
        let known = self.listener.attributes.get(thing, attribute)?;
        let dimension = known.dimension?;
        let same = |m: &Mention| match m.noun {
            // "1200 on the box": where the figure stands.
            Noun::Label { thing: t, attribute: a } => (t, a) == (thing, attribute) || t == thing && t == name::FILTER,
            Noun::State { .. } => true,
            noun => noun.thing() == thing,
        };
        if dimension == Dimension::TIME || !self.mentions.iter().all(|m| m.taken || same(m)) {
            return None;
        }
        let fits = match measure.is_plain() {
            true => known.is_count || dimension != Dimension::VOLUME || self.state.volume_unit.is_some(),
            false => !known.is_count && measure.unit_of(dimension).is_some(),
        };
        fits.then_some((thing, attribute))
    }

    /// The figure is a whole answer: it begins the line, or is said to be what a thing is, and counts no word behind it.
    fn stands_alone(&self, item: usize) -> bool {
        let begins = (0..item).all(|i| matches!(self.items[i].what, What::Mark(_)) || self.is_small_word(i));
        let said =
            item > self.clause.from && (self.has_role(item - 1, Role::Be) || self.has_role(item - 1, Role::Have));
        let behind = item + 1;
        // "7.2 last time I looked", "20 to 40 depending on the day": a figure that counts nothing.
        let What::Amount(measure) = &self.items[item].what else { return false };
        let uncounting = measure.decimals > 0 || measure.hedged;
        let ends = behind >= self.clause.to
            || match self.items[behind].what {
                What::Term => {
                    let term = self.term(behind);
                    let places = [Role::On, Role::In, Role::At, Role::From, Role::By];
                    let small = [Role::Then, Role::Now, Role::Left, Role::Please, Role::Altogether];
                    places.iter().any(|r| term.is(*r))
                        || small.iter().any(|r| term.is(*r)) && !term.has_content()
                        || uncounting
                            && !self.mentions.iter().any(|m| m.item == behind && !matches!(m.noun, Noun::State { .. }))
                }
                What::Mark(_) | What::Time(_) => true,
                _ => false,
            };
        (begins || said) && ends
    }

    fn is_small_word(&self, item: usize) -> bool {
        self.items[item].what == What::Term && {
            let term = &self.terms[self.items[item].first];
            term.is_noise() && !term.has_content() && !term.is(Role::Not) && !term.is(Role::Instead)
        }
    }

    /// "six hours off", "about a week, I think": the time asked for.
    pub fn time_answers(&mut self, item: usize, relation: TimeRelation, value: &Said) -> bool {
        if self.asking || !self.is_answer(item) {
            return false;
        }
        let names = &self.listener.lexicon.names;
        let of_time = |m: &Mention| match m.noun {
            Noun::Label { thing, attribute } => {
                self.listener.attributes.get(thing, attribute).is_some_and(|a| a.dimension == Some(Dimension::TIME))
            }
            Noun::Change | Noun::Feed => true,
            Noun::State { thing: name::EVENT, .. } => true,
            _ => false,
        };
        if self.mentions.iter().any(of_time) {
            return false;
        }
        let fits = |w: &Wanted| {
            let known = names
                .find(&w.of.thing)
                .zip(names.find(&w.attribute))
                .and_then(|(t, a)| self.listener.attributes.get(t, a));
            let habit = matches!(w.attribute.as_str(), "every" | "clean every" | "change every");
            known.is_some_and(|k| k.dimension == Some(Dimension::TIME)) && habit == (relation == TimeRelation::Every)
        };
        let Some(at) = self.state.wanted.iter().position(fits) else {
            return self.off_so_long(item, relation, value);
        };
        let wanted = self.state.wanted.remove(at);
        let past =
            matches!(wanted.attribute.as_str(), "set up" | "cleaned" | "when" | "last" | "changed" | "added" | "taken");
        let value = match value {
            Said::Time { relation: TimeRelation::For | TimeRelation::Old, amount } if past => {
                Said::Time { relation: TimeRelation::Ago, amount: *amount }
            }
            // "for ten minutes" lasted so long; a moment does not.
            Said::Time { relation: TimeRelation::For | TimeRelation::Old, amount } if wanted.attribute == "lasted" => {
                Said::Time { relation: TimeRelation::For, amount: *amount }
            }
            Said::Time { .. } if wanted.attribute == "lasted" => return self.put_back(at, wanted),
            Said::Moment { .. } if !past => return self.put_back(at, wanted),
            other => other.clone(),
        };
        let says = Says::Value { attribute: wanted.attribute.clone(), how: How::Set, value };
        self.push(Found::new(wanted.of, says, self.terms_of(item, item)));
        true
    }

    /// Nothing before the time that we do not know: "I took the shelf out last year" answers nothing.
    fn is_answer(&self, item: usize) -> bool {
        (self.clause.from..item).all(|i| match self.items[i].what {
            What::Term => self.term(i).senses.iter().any(|s| *s != Sense::Common),
            _ => true,
        })
    }

    /// "six hours off" after a power cut: how long it lasted, asked for or not.
    fn off_so_long(&mut self, item: usize, relation: TimeRelation, value: &Said) -> bool {
        let off = self.has_role(item + 1, Role::From) || self.has_role(item + 1, Role::Without);
        let lasts = matches!((relation, value), (TimeRelation::For, Said::Time { .. }));
        let stopped =
            |of: &Subject| matches!(of.kind.as_deref(), Some("power cut" | "filter off")) && of.thing == "event";
        let held = self.state.held.iter().rev().find(|s| stopped(&s.subject)).map(|s| s.subject.clone());
        let lasted = |of: &Subject| {
            self.state
                .held
                .iter()
                .any(|s| s.subject == *of && matches!(&s.says, Says::Value { attribute, .. } if attribute == "lasted"))
        };
        let Some(of) = held.filter(|of| off && lasts && !lasted(of)) else { return false };
        let says = Says::Value { attribute: "lasted".into(), how: How::Set, value: value.clone() };
        self.push(Found::new(of, says, self.terms_of(item, item)));
        true
    }

    fn put_back(&mut self, at: usize, wanted: Wanted) -> bool {
        self.state.wanted.insert(at, wanted);
        false
    }
}

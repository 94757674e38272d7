//! Stock: counts of fish, sizes said with them, many without a figure. In: figures and mentions of a clause. Out:
//! findings on stock groups. Knows no plausible range.

use super::bind::Binder;
use super::found::{Doubt, Found};
use super::items::What;
use super::measure::Measure;
use super::mention::Noun;
use super::name;
use super::reading::{Doubtful, How, Level, Mark, Said, Says, Subject, Wanted};
use crate::knowledge::language::Role;
use crate::units::Amount;

/// Behind a count these tell where the fish are, of whom there are so many.
const PLACED: [Role; 10] =
    [Role::In, Role::On, Role::At, Role::For, Role::From, Role::Old, Role::Each, Role::Both, Role::Left, Role::Now];

impl Binder<'_, '_> {
    /// A number that counts what stands beside it.
    pub fn count(&mut self, item: usize, measure: &Measure) -> bool {
        // "the big one has mollies": no count.
        let one = self.terms[self.items[item].first].is(Role::One) && self.items[item].first == self.items[item].last;
        if one
            && item > self.clause.from
            && self.items[item - 1].what == What::Term
            && !self.has_role(item - 1, Role::Have)
        {
            let behind = self.term(item - 1);
            let describes = behind.is(Role::Definite)
                || behind.is(Role::Other)
                || behind.is(Role::Noise) && !behind.is(Role::And) && !behind.is(Role::Only) && !behind.is(Role::Be)
                || behind.is(Role::Colour)
                || behind.has_content()
                    && !self.right(item).is_some_and(|r| matches!(self.mentions[r].noun, Noun::Stock { .. }));
            if describes {
                return true;
            }
        }
        // "the two together": stands for what was told of.
        if self.is_pronoun_number(item) {
            return true;
        }
        // "2 of 3 baskets", "3 of the guppies did": a part, not the number there is.
        let of = self.has_role(item + 1, Role::Of) && item + 2 < self.clause.to;
        if of
            && (matches!(self.items[item + 2].what, What::Amount(_)) || self.has_role(item + 2, Role::Definite))
            && !measure.article
        {
            return !self.has_role(item + 2, Role::It);
        }
        let right = self.right_noun(item);
        if let Some(index) = right
            && self.can_count(index, item, measure)
        {
            return self.count_of(item, measure, index);
        }
        let Some(index) = self.left(item) else { return self.count_alone(item, measure) };
        let mention = &self.mentions[index];
        let signed = (mention.last + 1..item).any(|i| matches!(self.items[i].what, What::Mark('x' | ':' | '=' | '@')));
        let behind = matches!(mention.noun, Noun::Stock { .. }) && !mention.taken
            || signed && matches!(mention.noun, Noun::Stock { .. } | Noun::Filter(_) | Noun::Medium(_));
        if behind && (self.length_again(item, measure, index) || self.number_or_length(item, measure, index)) {
            return true;
        }
        if behind {
            return self.count_of(item, measure, index);
        }
        self.count_alone(item, measure)
    }

    fn can_count(&self, index: usize, item: usize, measure: &Measure) -> bool {
        let mention = &self.mentions[index];
        match mention.noun {
            Noun::Stock { .. } => true,
            // "2 hobs", "one canister", but not "the 75 canister".
            Noun::Filter(_) => measure.value().is_some_and(|v| v <= 12.0) && mention.item <= item + 2,
            Noun::Tank => measure.value().is_some_and(|v| (1.0..=20.0).contains(&v)) && mention.item == item + 1,
            Noun::Plant(_) => mention.item == item + 1,
            _ => false,
        }
    }

    pub fn count_of(&mut self, item: usize, measure: &Measure, index: usize) -> bool {
        self.mentions[index].taken = true;
        let mention = self.mentions[index].clone();
        let terms = self.joined_terms(item, &mention);
        match mention.noun {
            Noun::Stock { .. } => {
                let subject = self.mention_subject(&mention);
                // "6,2 angels", "1/2 danios": nobody has a part of a fish.
                if measure.value().is_some_and(|v| v.fract() != 0.0) && !measure.hedged {
                    let said = self.said(&terms).to_string();
                    self.doubts.push(Doubt::new(Doubtful::Implausible, format!("{said}: how many is that?"), terms));
                    return true;
                }
                if measure.likely == Some(0.0) && !measure.hedged {
                    self.push(Found::new(subject, Says::Absent, terms));
                    return true;
                }
                // "5 guppies ... two guppies are at the top": two of them.
                let told = match self.state.value(&subject, self.name(name::COUNT)) {
                    Some(Said::Amount(a)) => a.likely.zip(measure.value()).is_some_and(|(had, some)| some < had),
                    _ => false,
                };
                let told_here = self.found.iter().any(|f| super::state::same_thing(&f.subject, &subject))
                    || self.state.here.iter().any(|(s, had)| {
                        super::state::same_thing(s, &subject) && measure.value().is_some_and(|v| v < *had)
                    });
                // "... one koi jumps": what some of them do.
                let goes_on = mention.last + 1 < self.clause.to
                    && self.items[mention.last + 1].what == What::Term
                    && !PLACED.iter().any(|r| self.has_role(mention.last + 1, *r));
                let are = goes_on && !self.has_role(mention.last + 1, Role::Was);
                if (told || told_here)
                    && are
                    && !self.correcting
                    && measure.is_plain()
                    && mention.last + 2 < self.clause.to
                {
                    let mut found = Found::new(subject, Says::Present, terms).marked(mention_mark(&mention));
                    found.bare = true;
                    self.push(found);
                    return true;
                }
                let mut measure = measure.clone();
                let mut mark = None;
                if let Some(times) = measure.times {
                    measure = measure.map(|v| v * times);
                    mark = Some(Mark::Derived);
                }
                if mention.leaned {
                    mark = mark.or(Some(Mark::Hint));
                }
                // "six peacocks arriving on Saturday": not there yet.
                let told = if self.has_role(mention.last + 1, Role::Future) { name::WANTED } else { name::COUNT };
                self.value(item, subject, (name::STOCK, told), &measure, terms, mention.corrected);
                if let (Some(mark), Some(last)) = (mark, self.found.last_mut()) {
                    last.mark = last.mark.or(Some(mark));
                }
                let recounted = self.state.recounted.take();
                if let (Some(of), Some(last)) = (recounted, self.found.last_mut()) {
                    last.replaces |= super::state::same_thing(&of, &last.subject);
                }
                true
            }
            // "I want 2 more filters": none of them is there.
            Noun::Filter(_) if (self.clause.from..item).any(|i| self.has_role(i, Role::Wish)) => {
                let wanted = &mut self.mentions[index];
                (wanted.taken, wanted.article) = (false, true);
                true
            }
            Noun::Filter(kind) => {
                let many = measure.times.unwrap_or(1.0) * measure.value().unwrap_or(1.0);
                let kind = kind.map(|k| self.name(k).to_string());
                self.filters(many.min(12.0) as u16, kind, terms, &mention);
                true
            }
            Noun::Tank => {
                for number in 1..=measure.value().unwrap_or(1.0) as u16 {
                    let subject =
                        super::reading::Subject { number, tank: number, ..super::found::subject("tank", None) };
                    let mut found = Found::new(subject, Says::Present, terms.clone());
                    found.bare = true;
                    self.push(found);
                }
                true
            }
            Noun::Plant(_) => {
                let subject = self.subject_for(name::PLANT, None, item);
                if measure.vague {
                    let mut found = Found::new(subject, Says::Present, terms);
                    found.bare = true;
                    self.push(found);
                    return true;
                }
                self.value(item, subject, (name::PLANT, name::COUNT), measure, terms, false);
                true
            }
            _ => false,
        }
    }

    /// "loads of guppies": there, but without a figure.
    pub fn uncounted(&mut self, item: usize) {
        let Some(index) = self.right(item).or_else(|| self.left(item)) else {
            // "loads of them".
            if self.state.stock.is_some() && self.has_role(item + 1, Role::It) {
                let terms = self.terms_of(item, item);
                let ask = "About how many: ten, thirty, a hundred?";
                self.doubts.push(Doubt::new(Doubtful::NoFigure, ask, terms));
            }
            return;
        };
        let mention = self.mentions[index].clone();
        match mention.noun {
            Noun::Stock { .. } => {
                let terms = self.joined_terms(item, &mention);
                let said = self.said(&self.terms_of(mention.item, mention.last));
                let ask = format!("About how many {said}: ten, thirty, a hundred?");
                let wants = Wanted::of(self.mention_subject(&mention), self.name(name::COUNT));
                self.doubts.push(Doubt::new(Doubtful::NoFigure, ask, terms).wanting(Some(wants)));
            }
            Noun::Plant(_) => {
                self.mentions[index].taken = true;
                let terms = self.joined_terms(item, &mention);
                let subject = self.subject_for(name::PLANT, None, item);
                let mut found = Found::new(subject.clone(), Says::Present, terms.clone());
                found.bare = true;
                self.push(found);
                self.word(subject, name::AMOUNT, "many", terms, None);
            }
            _ => {}
        }
    }

    /// A fish or group that has no figure: there; one, when the word is a singular whose plural differs.
    pub fn stock_present(&mut self, index: usize) {
        let mention = self.mentions[index].clone();
        let terms = self.terms_of(mention.item, mention.last);
        let subject = self.mention_subject(&mention);
        let mark = mention_mark(&mention);
        let Noun::Stock { kind, stage } = mention.noun else { return };
        // "no worries about fry": spoken about, not there.
        let about = mention.item.checked_sub(1).filter(|i| *i > self.clause.from && self.has_role(*i, Role::About));
        if about.is_some() && !mention.definite {
            return;
        }
        // "fry coming": a plan, not a fish.
        let near = mention.item.saturating_sub(3)..mention.last + 3;
        if near.into_iter().any(|i| self.has_role(i, Role::Future)) {
            return;
        }
        if mention.negated {
            // "they're endlers, not fry": what it is not, not what is lacking.
            let instead = self.mentions[..index].iter().any(|m| matches!(m.noun, Noun::Stock { .. }) && !m.negated)
                && (self.mentions[index - 1].last + 1..mention.item)
                    .all(|i| self.is_empty_word(i) || self.has_role(i, Role::Not))
                && (self.mentions[index - 1].last + 1..mention.item).any(|i| self.has_role(i, Role::Not));
            if !instead {
                self.push(Found::new(subject, Says::Absent, terms).marked(mark));
            }
            return;
        }
        // "guppy" without an article may be any number of a fish that is kept in groups.
        let school = !mention.article && kind.is_some_and(|k| self.listener.lives_in_groups(k));
        // "one of my angel laid eggs": some of many.
        let one_of = mention.item > self.clause.from + 1
            && self.has_role(mention.item - 1, Role::Definite)
            && self.has_role(mention.item - 2, Role::Of);
        let single = !school
            && !one_of
            && kind.is_some()
            && stage.is_none()
            && !mention.plural
            && (mention.article && self.ends_name(mention.last) || self.has_plural(mention.last));
        if kind.is_none() && stage.is_none() {
            // "fish" alone says nothing that is not known.
            let mut found = Found::new(subject, Says::Present, terms).marked(mark);
            (found.bare, found.definite) = (true, mention.definite);
            self.push(found);
            return;
        }
        // "all embers": the fish counted before.
        let all = mention.item > self.clause.from && self.has_role(mention.item - 1, Role::All);
        if all && kind.is_some() && !self.asking {
            let mut found = Found::new(subject, Says::Present, terms).marked(mark);
            (found.bare, found.renames) = (true, true);
            self.found.push(found);
            return;
        }
        // "12 guppies, a guppy is stuck": one of those told of.
        if single && !self.asking && !self.is_told_of_more(&subject) {
            let one = Amount::count(1.0);
            let mark = if mention.article { mark } else { mark.or(Some(Mark::Derived)) };
            let says =
                Says::Value { attribute: self.name(name::COUNT).into(), how: How::Set, value: Said::Amount(one) };
            let mut found = Found::new(subject, says, terms).marked(mark);
            found.definite = mention.definite;
            self.push(found);
            return;
        }
        let mut found = Found::new(subject, Says::Present, terms).marked(mark);
        (found.bare, found.definite) = (true, mention.definite);
        self.push(found);
    }

    /// More than one of them were told of, in this line or before.
    fn is_told_of_more(&self, subject: &Subject) -> bool {
        let told = match self.state.value(subject, self.name(name::COUNT)) {
            Some(Said::Amount(a)) => a.likely.is_some_and(|n| n > 1.0),
            _ => false,
        };
        told || self.state.here.iter().any(|(s, n)| super::state::same_thing(s, subject) && *n > 1.0)
    }

    /// "a shrimp", not "a shrimp rack": no other noun follows.
    fn ends_name(&self, item: usize) -> bool {
        item + 1 >= self.clause.to || self.items[item + 1].what != What::Term || self.is_empty_word(item + 1)
    }

    /// "20 guppies instead of 8": what there is now.
    pub fn instead_of(&mut self, item: usize, measure: &Measure) -> bool {
        if !(item > self.clause.from && self.has_role(item - 1, Role::Instead)) {
            return false;
        }
        let count = |f: &&Found| f.subject.thing == "stock" && f.attribute() == Some("count");
        let Some(of) = self.found.iter().rev().find(count).map(|f| f.subject.clone()) else { return false };
        let says = Says::Value {
            attribute: self.name(name::COUNT).into(),
            how: How::Set,
            value: Said::Amount(measure.count()),
        };
        let mut found = Found::new(of, says, self.terms_of(item, item));
        found.instead = true;
        self.found.push(found);
        true
    }

    /// Whether the word would look different in the plural.
    fn has_plural(&self, item: usize) -> bool {
        let term = self.term(item);
        let word = self.words[term.last].text.as_str();
        !word.ends_with("fish") && !word.ends_with('s') && !self.listener.is_same_in_plural(word)
    }

    /// A level in words of a reading or a filter.
    pub fn level(&mut self, subject: super::reading::Subject, attribute: name::Name, level: Level, terms: Vec<usize>) {
        let says = Says::Value { attribute: self.name(attribute).into(), how: How::Set, value: Said::Level(level) };
        self.push(Found::new(subject, says, terms));
    }
}

/// The mark that the mention itself calls for.
pub fn mention_mark(mention: &super::mention::Mention) -> Option<Mark> {
    if mention.corrected {
        Some(Mark::Spelling)
    } else if mention.leaned {
        Some(Mark::Hint)
    } else {
        None
    }
}

//! Filters: which one is meant, how many, flows rated and measured, room in sumps. In: figures and mentions. Out:
//! findings on filters. Knows no fish.

use super::bind::Binder;
use super::found::{Doubt, Found, subject};
use super::items::What;
use super::lexicon::Sense;
use super::measure::Measure;
use super::mention::{Mention, Noun};
use super::name;
use super::reading::{Doubtful, How, Mark, Said, Says, Subject};
use crate::knowledge::language::Role;
use crate::units::{Dimension, Unit, unit};

impl Binder<'_, '_> {
    /// The filter that a kind, or none, speaks of: one already known of that kind, one without a kind, or a new one.
    pub fn filter_subject(&mut self, kind: Option<&str>, item: usize) -> Subject {
        let number = match kind {
            None => self.filter_spoken_of(item),
            Some(kind) => {
                // A filter of that kind on another tank is another filter.
                let tank = self.state.tank;
                let known =
                    self.state.filters.iter().find(|f| f.kind.as_deref() == Some(kind) && (!f.here || f.tank == tank));
                let unnamed = self.state.filters.iter().find(|f| f.kind.is_none());
                let also_before =
                    self.clause.from.checked_sub(1).is_some_and(|i| {
                        self.items[i].what == super::items::What::Term && self.term(i).is(Role::Another)
                    });
                let another = also_before
                    || (self.clause.from..item)
                        .any(|i| self.has_role(i, Role::Another) || self.has_role(i, Role::Other));
                let more = matches!(self.clause.joint, Some(Role::And | Role::With)) || another;
                let beside = |kind: &str| self.listener.beside_filters.iter().any(|b| b == kind);
                let main: Vec<u16> = self
                    .state
                    .filters
                    .iter()
                    .filter(|f| !f.kind.as_deref().is_some_and(beside))
                    .map(|f| f.number)
                    .collect();
                match (known, unnamed) {
                    (Some(known), _) => known.number,
                    // A lamp or a skimmer is no other word for the filter told before, nor the other way round.
                    (None, _) if beside(kind) && !self.state.filters.is_empty() => self.state.next_filter(),
                    (None, None) if main.is_empty() && !self.state.filters.is_empty() => self.state.next_filter(),
                    (None, Some(unnamed)) if another && unnamed.here => self.state.next_filter(),
                    (None, Some(unnamed)) => unnamed.number,
                    (None, None) if self.state.filters.is_empty() => 1,
                    // Another kind in the same line, or one that is said to be there as well.
                    (None, None) if more || self.state.filters.iter().any(|f| f.here) => self.state.next_filter(),
                    (None, None) => self.state.filter,
                }
            }
        };
        self.state.filter = number;
        if !self.state.group.contains(&number) {
            self.state.group.clear();
        }
        Subject { number, tank: self.state.tank, ..subject("filter", None) }
    }

    /// The filter spoken of; a lamp beside it has no flow and no head.
    fn filter_spoken_of(&self, item: usize) -> u16 {
        let is_lamp = |number: u16| {
            let known = self.state.filters.iter().find(|f| f.number == number).and_then(|f| f.kind.as_deref());
            known.is_some_and(|k| self.listener.beside_filters.iter().any(|b| b == k))
        };
        let power =
            matches!(&self.items[item].what, super::items::What::Amount(m) if m.unit_of(Dimension::POWER).is_some());
        let main = self.state.filters.iter().map(|f| f.number).find(|n| !is_lamp(*n));
        match main {
            Some(main) if is_lamp(self.state.filter) && !power => main,
            _ => self.state.filter,
        }
    }

    /// Several filters of a kind: "2 canisters", "canister x2".
    pub fn filters(&mut self, count: u16, kind: Option<String>, terms: Vec<usize>, mention: &Mention) {
        let mark = super::stock::mention_mark(mention);
        // "not hob, internal": the filter that was a hob is told anew.
        let wrong = self.state.not_kind.clone();
        let told_anew = wrong
            .as_deref()
            .and_then(|w| self.state.filters.iter().find(|f| f.kind.as_deref() == Some(w)))
            .map(|f| f.number);
        let first = match told_anew {
            Some(number) => number,
            None => self.filter_subject(kind.as_deref(), mention.item).number,
        };
        let numbers: Vec<u16> =
            (0..count.max(1)).map(|n| if n == 0 { first } else { self.state.next_filter().max(first + n) }).collect();
        for number in &numbers {
            let of = Subject { number: *number, tank: self.state.tank, ..subject("filter", None) };
            let says = match &kind {
                Some(kind) => Says::Value { attribute: "kind".into(), how: How::Set, value: Said::Word(kind.clone()) },
                None => Says::Present,
            };
            let mut found = Found::new(of, says, terms.clone()).marked(mark);
            found.bare = true;
            found.definite = mention.definite;
            found.replaces = told_anew.is_some() || self.correcting;
            self.push(found);
        }
        self.state.group = if numbers.len() > 1 { numbers } else { Vec::new() };
        self.state.told = 0;
        self.state.filter = first;
    }

    /// Figures that words of the clause give to a filter: a measured flow, a claim, a sump, room for media.
    pub fn filter_figure(&mut self, item: usize, measure: &Measure) -> bool {
        if measure.unit_of(Dimension::FLOW).is_some() && !self.is_water_moved(item) {
            if self.flow_of_all(item, measure) {
                return true;
            }
            let measured = self.clause_has(|s| matches!(s, Sense::Label { attribute: name::MEASURED_FLOW, .. }));
            let attribute = if measured { name::MEASURED_FLOW } else { name::RATED_FLOW };
            if self
                .right(item)
                .is_some_and(|r| self.mentions[r].noun == Noun::Tank && self.mentions[r].item == item + 1)
            {
                return self.wrong_unit(item, "the size of a tank");
            }
            let near = self
                .right(item)
                .into_iter()
                .chain(self.left(item))
                .find(|i| matches!(self.mentions[*i].noun, Noun::Filter(_)));
            let of = match near {
                Some(index) => {
                    let mention = self.mentions[index].clone();
                    self.filter_named(&mention)
                }
                None => self.filter_subject(None, item),
            };
            let terms = self.terms_of(item, item);
            let before = self.found.len();
            self.value(item, of, (name::FILTER, attribute), measure, terms.clone(), false);
            // "2 hobs 200 gph": each, or the two together?
            if self.found.len() > before + 1 && !measure.each && attribute == name::RATED_FLOW {
                self.found[before..].iter_mut().for_each(|f| f.mark = f.mark.or(Some(Mark::Hint)));
                let said = self.said(&terms).to_string();
                self.doubts.push(Doubt::new(Doubtful::Ambiguous, format!("{said} each, or together?"), Vec::new()));
            }
            return true;
        }
        if measure.unit_of(Dimension::VOLUME).is_none() {
            return false;
        }
        self.claim(item, measure)
            || self.sump(item, measure)
            || self.media_room(item, measure)
            || self.basket_room(item, measure)
    }

    /// The filter of a mention, with the mention said when it names a kind.
    pub fn filter_named(&mut self, mention: &Mention) -> Subject {
        if let Some(index) = self.mentions.iter().position(|m| m.item == mention.item && !m.taken)
            && let Noun::Filter(Some(kind)) = mention.noun
        {
            self.mentions[index].taken = true;
            let kind = self.name(kind).to_string();
            let terms = self.terms_of(mention.item, mention.last);
            self.filters(1, Some(kind), terms, mention);
        }
        match mention.noun {
            Noun::Filter(Some(kind)) => {
                let kind = self.name(kind).to_string();
                self.filter_subject(Some(&kind), mention.item)
            }
            _ => self.filter_subject(None, mention.item),
        }
    }

    fn is_water_moved(&self, _item: usize) -> bool {
        self.mentions.iter().any(|m| m.noun == Noun::Change)
    }

    /// "rated for 75 gal", "for tanks up to 200 l": what the maker says.
    fn claim(&mut self, item: usize, measure: &Measure) -> bool {
        // "what flow for 200 litres?" asks; it tells of no box.
        let asking = self.asking;
        let claims = self.mentions.iter().any(|m| {
            matches!(m.noun, Noun::Label { attribute, .. } if attribute == name::CLAIM || attribute == name::RATED_FLOW && !asking)
                && m.last < item
                && m.last + 5 > item
        });
        if !claims {
            return false;
        }
        // "skimmer rated for 600": of something else that is rated.
        let strange = |i: usize| {
            self.items[i].what == What::Term
                && (self.term(i).is(Role::Part) || self.term(i).senses.iter().all(|s| matches!(s, Sense::Common)))
                && self.term(i).letters > 3
        };
        let ours = self.mentions.iter().any(|m| m.item < item && matches!(m.noun, Noun::Filter(_)));
        if !ours && (self.clause.from..item).any(strange) {
            self.loose(item, measure);
            return true;
        }
        for mention in self
            .mentions
            .iter_mut()
            .filter(|m| matches!(m.noun, Noun::Label { attribute: name::CLAIM | name::RATED_FLOW, .. }))
        {
            mention.taken = true;
        }
        for mention in self.mentions.iter_mut().filter(|m| m.noun == Noun::Tank && m.item < item) {
            mention.taken = true;
        }
        let of = self.filter_subject(None, item);
        let terms = self.terms_of(item, item);
        self.value(item, of, (name::FILTER, name::CLAIM), measure, terms, false);
        true
    }

    /// "sump 20 gal under 90 gal": the sump's own volume, when the tank's is said besides.
    fn sump(&mut self, item: usize, measure: &Measure) -> bool {
        // "30 gallon sump", the tank's size being known.
        let right = self
            .right(item)
            .filter(|r| self.mentions[*r].item == item + 1 && self.state.size_of(self.state.tank).is_some());
        let Some(left) = right.or_else(|| self.left(item)) else { return false };
        let sump = matches!(self.mentions[left].noun, Noun::Filter(Some(kind)) if kind == name::SUMP);
        let under = self.has_role(item + 1, Role::Under);
        if !sump || !(under || self.state.size_of(self.state.tank).is_some()) {
            return false;
        }
        let mention = self.mentions[left].clone();
        let of = self.filter_named(&mention);
        let terms = self.joined_terms(item, &mention);
        self.value(item, of, (name::FILTER, name::SUMP_VOLUME), measure, terms, false);
        true
    }

    /// "3.2 l media": room, not a medium.
    fn media_room(&mut self, item: usize, measure: &Measure) -> bool {
        let near = self.right(item).filter(|r| self.mentions[*r].noun == Noun::Medium(None));
        let Some(index) = near else { return false };
        self.mentions[index].taken = true;
        let mention = self.mentions[index].clone();
        let of = self.filter_subject(None, item);
        let terms = self.joined_terms(item, &mention);
        self.value(item, of, (name::FILTER, name::MEDIA_VOLUME), measure, terms, false);
        true
    }

    /// "4 trays, 2 l each": the room of one basket; "4 trays 6 l" may be all of them.
    fn basket_room(&mut self, item: usize, measure: &Measure) -> bool {
        let is_basket = |m: &Mention| matches!(m.noun, Noun::Label { attribute: name::BASKETS, .. });
        let beside = self.left(item).or_else(|| self.right(item)).filter(|i| is_basket(&self.mentions[*i]));
        let carried = self.mentions.is_empty()
            && (measure.each || measure.in_all || (self.clause.from..item).any(|i| self.has_role(i, Role::Each)))
            && self.state.last.as_ref().is_some_and(|(_, a)| a == "baskets");
        if beside.is_none() && !carried {
            return false;
        }
        let of = self.filter_subject(None, item);
        let mut terms = self.terms_of(item, item);
        if measure.in_all {
            beside.into_iter().for_each(|index| self.mentions[index].taken = true);
            self.value(item, of, (name::FILTER, name::MEDIA_VOLUME), measure, terms, false);
            return true;
        }
        if let Some(index) = beside {
            let mention = self.mentions[index].clone();
            let counted = mention.taken;
            self.mentions[index].taken = true;
            terms = self.joined_terms(item, &mention);
            let several = self.found.iter().any(|f| {
                f.attribute() == Some("baskets")
                    && matches!(&f.says, Says::Value { value: Said::Amount(a), .. } if a.likely.is_some_and(|v| v > 1.0))
            });
            let each = measure.each || item > self.clause.from && self.has_role(item - 1, Role::Of);
            if counted && several && !each && self.clause.to == item + 1 {
                return self.each_or_all(item, measure, of);
            }
        }
        self.value(item, of, (name::FILTER, name::BASKET_VOLUME), measure, terms, false);
        true
    }

    fn each_or_all(&mut self, item: usize, measure: &Measure, of: Subject) -> bool {
        let terms = self.terms_of(item, item);
        let said = self.said(&terms).to_string();
        let Some(unit) = measure.unit_of(Dimension::VOLUME) else { return false };
        let each = self.offer(of.clone(), name::BASKET_VOLUME, measure.amount(unit));
        let all = self.offer(of, name::MEDIA_VOLUME, measure.amount(unit));
        let readings = vec![("a tray".to_string(), vec![each]), ("in all".to_string(), vec![all])];
        let ask = format!("{said} a tray, or {said} in all?");
        self.doubts.push(Doubt { readings, ..Doubt::new(Doubtful::Ambiguous, ask, terms) });
        true
    }

    /// "10 litres in 45 seconds": measured, whatever is printed.
    pub fn timed_flow(&mut self, item: usize, volume: &Measure, time: &Measure) {
        let (Some(v), Some(t)) = (volume.value(), time.value()) else { return };
        let (Some(of_volume), Some(of_time)) = (volume.unit_of(Dimension::VOLUME), time.unit_of(Dimension::TIME))
        else {
            return;
        };
        let Some(unit) = flow_unit(of_volume) else { return };
        if t <= 0.0 || v <= 0.0 {
            return;
        }
        let per_second = of_volume.to_base(v) / of_time.to_base(t);
        let figure = unit.from_base(per_second);
        let measure = Measure { units: vec![unit], ..Measure::exact((figure * 10.0).round() / 10.0, 0) };
        let of = self.filter_subject(None, item);
        let terms = self.terms_of(item, item);
        self.value(item, of, (name::FILTER, name::MEASURED_FLOW), &measure, terms, false);
    }

    /// "400 gph tank": a unit that cannot measure the thing beside it.
    pub fn wrong_unit(&mut self, item: usize, what: &str) -> bool {
        let terms = self.terms_of(item, item);
        let said = self.said(&terms);
        let ask = format!("{said} cannot be {what}: is that the filter's flow?");
        self.doubts.push(Doubt::new(Doubtful::WrongUnit, ask, terms));
        true
    }

    /// A filter named without any figure.
    pub fn filter_present(&mut self, index: usize) {
        let mention = self.mentions[index].clone();
        let terms = self.terms_of(mention.item, mention.last);
        let Noun::Filter(kind) = mention.noun else { return };
        if mention.negated {
            let of = self.filter_subject(None, mention.item);
            // "no filter" speaks of any; "not a canister" only says what the filter is not.
            match kind {
                // "UV and a light, no filter": the lamp is there all the same.
                None if self.state.filters.iter().any(|f| f.here && f.kind.is_some()) => {}
                None => self.push(Found::new(of, Says::Absent, terms)),
                Some(kind) => self.state.not_kind = Some(self.name(kind).to_string()),
            }
            return;
        }
        match kind {
            Some(kind) => {
                let kind = self.name(kind).to_string();
                // "both filters are hobs".
                let both = (self.clause.from..mention.item).any(|i| self.has_role(i, Role::Both));
                self.filters(if both { 2 } else { 1 }, Some(kind), terms, &mention);
            }
            None => {
                let of = self.filter_subject(None, mention.item);
                let mut found = Found::new(of, Says::Present, terms).marked(super::stock::mention_mark(&mention));
                (found.bare, found.definite) = (true, mention.definite);
                self.push(found);
            }
        }
    }
}

fn flow_unit(volume: &Unit) -> Option<&'static Unit> {
    let name = match volume.name {
        "mL" | "m3" => "L/h".to_string(),
        "quart" | "floz" => "usgal/h".to_string(),
        "pint" => "impgal/h".to_string(),
        name => format!("{name}/h"),
    };
    unit::by_name(&name)
}

//! Frames: whether a clause speaks of the caller's own tank as it is now, or of what was, of somebody else's, of what is
//! advised, aimed at or only thought of. In: a clause and what carries on. Out: why it is set aside. Reads no fact.

use super::clause::Clause;
use super::found::{Doubt, Found};
use super::items::What;
use super::lexicon::Sense;
use super::name;
use super::reading::{Aside, Became, Doubtful, Mark, Said, Says, Statement, Subject, TimeRelation};
use super::term::Term;
use super::time_words::Time;
use super::turn::Turn;
use crate::knowledge::language::Role;
use crate::units::Dimension;

/// Told behind "in" of what happened; "may" and "march" are common words otherwise.
const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// From here on what was is no more (seconds; two months, settled choice).
const LONG_AGO: f64 = 60.0 * 86_400.0;

/// A frame and the item from which it holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    pub why: Aside,
    pub from: usize,
    /// "last summer": what happened then did happen.
    pub once: bool,
}

impl Turn<'_, '_> {
    /// The frame of a clause; `carried` holds on from the clause before until something brings the talk back.
    pub fn frame_of(&self, clause: &Clause, carried: Option<Frame>) -> Option<Frame> {
        let mut frame = carried.map(|f| Frame { from: clause.from, ..f });
        if !self.carries_on(clause, frame) {
            frame = None;
        }
        for item in clause.from..clause.to {
            if self.is_once(clause, item) {
                frame = Some(Frame { why: Aside::Past, from: item, once: true });
                continue;
            }
            if self.items[item].what != What::Term {
                continue;
            }
            // "flow was fine till they added a spray bar", "was clear, now it's green".
            if self.has_role(item, Role::Was) && self.is_over(clause, item) {
                frame = Some(Frame { why: Aside::Past, from: clause.from, once: true });
                continue;
            }
            let term = &self.terms[self.items[item].first];
            let cue = [
                (Role::Past, Aside::Past),
                (Role::Told, Aside::Told),
                (Role::Unreal, Aside::Unreal),
                (Role::Aim, Aside::Aim),
                (Role::Leaving, Aside::Planned),
                (Role::Unsure, Aside::Unsure),
            ];
            if let Some((_, why)) = cue.into_iter().find(|(role, _)| term.is(*role)) {
                let holds = match why {
                    Aside::Aim => self.aims(clause, item),
                    // "sky high according to the shop": somebody tested it.
                    Aside::Told => !(clause.from..clause.to).any(|i| self.is_of_test(i)),
                    _ => true,
                };
                frame = if holds { Some(Frame { why, from: item, once: false }) } else { frame };
            } else if let Some(why) = self.is_strangers(clause, item) {
                frame = Some(Frame { why, from: item, once: false });
            } else if self.nearly_happened(clause, item) {
                frame = Some(Frame { why: Aside::Unreal, from: item, once: false });
            } else if self.is_own(clause, item) {
                // "told by the shop that our tank is cycled": still what the shop says.
                frame = frame.filter(|f| f.why == Aside::Told && item > clause.from);
            } else if term.is(Role::Now) {
                frame = frame.filter(|f| f.why != Aside::Past);
            }
        }
        frame
    }

    /// "nitrate was 100 last year", "last summer I had green water": too long ago to be so still.
    fn is_once(&self, clause: &Clause, item: usize) -> bool {
        let long = match &self.items[item].what {
            What::Time(Time::Span { relation: TimeRelation::Ago, measure }) => {
                let days = measure.unit_of(Dimension::TIME).and_then(|u| measure.amount(u).base().likely);
                days.is_some_and(|seconds| seconds >= LONG_AGO)
            }
            What::Term => {
                let season = |s: &Sense| matches!(s, Sense::State { attribute: name::SEASON, .. });
                // "took it out in March": a month gone by, whatever year it was.
                if item > clause.from && self.is_word(item - 1, "in") && MONTHS.iter().any(|m| self.is_word(item, m)) {
                    return true;
                }
                let named = self.terms[self.items[item].first].senses.iter().any(season);
                named && (self.is_word(item, "in") || item > clause.from && self.is_word(item - 1, "last"))
            }
            _ => false,
        };
        long && (clause.from..clause.to).any(|i| self.has_role(i, Role::Was) || self.is_word(i, "had"))
    }

    /// Whether a clause still stands in the frame of the one before.
    fn carries_on(&self, clause: &Clause, frame: Option<Frame>) -> bool {
        let Some(Frame { why, once, .. }) = frame else { return false };
        if clause.line || clause.starts {
            return !clause.line && self.goes_on_about(clause, frame);
        }
        match why {
            Aside::Told | Aside::Others => true,
            // "my old tank was a 30, 55 gallon now": behind a comma something else may begin.
            _ if once => false,
            _ => matches!(clause.joint, Some(Role::And | Role::With | Role::Plus)),
        }
    }

    /// What was, until something came: told by "till", or by what is so now.
    fn is_over(&self, clause: &Clause, item: usize) -> bool {
        let till = |i: usize| self.is_word(i, "till") || self.is_word(i, "until");
        let tested = (clause.from..clause.to).any(|i| self.is_of_test(i));
        let ends = clause.to < self.items.len() && till(clause.to) || (item..clause.to).any(till);
        ends && !tested
    }

    /// "It had guppies" behind "my old tank was a 30": the same tank; "he feeds them" behind "my friend has a 55".
    fn goes_on_about(&self, clause: &Clause, frame: Option<Frame>) -> bool {
        let Some(frame) = frame else { return false };
        let role = |item: usize, role| item < clause.to && self.has_role(item, role);
        let it = role(clause.from, Role::It) || role(clause.from, Role::Person) && !self.is_first_person(clause.from);
        match frame.why {
            Aside::Past => it && (role(clause.from + 1, Role::Was) || self.is_word(clause.from + 1, "had")),
            Aside::Others => it,
            Aside::Told
            | Aside::Unreal
            | Aside::Aim
            | Aside::Denied
            | Aside::Wished
            | Aside::Planned
            | Aside::Unsure => false,
        }
    }

    /// "mine", "I have", "my tank": what follows is the caller's.
    fn is_own(&self, clause: &Clause, item: usize) -> bool {
        let next = (item + 1 < clause.to).then(|| &self.terms[self.items[item + 1].first]);
        let has = |t: &&Term| t.is(Role::Have);
        let holds = |t: &&Term| t.names_thing(name::TANK) || t.names_thing(name::FILTER) || self.is_pond(t);
        let my = ["my", "our"].iter().any(|w| self.is_word(item, w));
        self.has_role(item, Role::Own)
            || ["ive", "weve"].iter().any(|w| self.is_word(item, w))
            || self.is_first_person(item) && next.as_ref().is_some_and(has) && !self.is_word(item + 1, "had")
            || my && next.as_ref().is_some_and(holds)
    }

    fn is_word(&self, item: usize, word: &str) -> bool {
        self.items.get(item).is_some_and(|i| self.words[self.terms[i.first].first].text == word)
    }

    fn is_first_person(&self, item: usize) -> bool {
        ["i", "we", "im", "ive", "weve", "id", "ill", "me", "us"].iter().any(|w| self.is_word(item, w))
    }

    /// "my friend has", "neighbour's pond": somebody else with something of their own, or something to say.
    fn is_strangers(&self, clause: &Clause, item: usize) -> Option<Aside> {
        let term = &self.terms[self.items[item].first];
        if !term.is(Role::Stranger) {
            return None;
        }
        let next = |n: usize| (item + n < clause.to).then(|| &self.terms[self.items[item + n].first]);
        let of_tank = |t: &&Term| t.names_thing(name::TANK) || t.names_thing(name::FILTER) || self.is_pond(t);
        if term.plural && next(1).as_ref().is_some_and(of_tank) {
            return Some(Aside::Others);
        }
        // "a bloke at the club keeps", "my mate says".
        let verb = (1..=4).map_while(next).find(|t| t.is(Role::Keeps) || t.is(Role::Says) || t.has_content())?;
        if verb.is(Role::Says) {
            // "the shop says nitrate 40": they tested it.
            if (clause.from..clause.to).any(|i| self.is_of_test(i)) {
                return None;
            }
            return Some(Aside::Told);
        }
        verb.is(Role::Keeps).then_some(Aside::Others)
    }

    fn is_pond(&self, term: &Term) -> bool {
        term.senses.iter().any(|s| matches!(s, Sense::State { thing: name::TANK, attribute: name::KIND, .. }))
    }

    /// "nearly lost three": an event that did not happen.
    fn nearly_happened(&self, clause: &Clause, item: usize) -> bool {
        let nearly = self.is_word(item, "nearly") || self.is_word(item, "almost");
        let next = (item + 1 < clause.to).then(|| &self.terms[self.items[item + 1].first]);
        let event = |s: &Sense| matches!(s, Sense::State { thing: name::EVENT, .. });
        nearly && next.is_some_and(|t| t.senses.iter().any(event))
    }

    /// "nitrate should be under 20": an aim, and no figure put right. Only of tests and of warmth, and only where no old
    /// figure is named ("should be 20 not 40").
    fn aims(&self, clause: &Clause, item: usize) -> bool {
        let of_water = |t: &Term| {
            t.names_thing(name::READING)
                || t.labels().any(|(thing, a)| thing == name::READING || (thing, a) == (name::TANK, name::TEMPERATURE))
        };
        let not = (item..clause.to).any(|i| self.has_role(i, Role::Not));
        !not && !self.correcting && (clause.from..clause.to).any(|i| of_water(&self.terms[self.items[i].first]))
    }

    /// Takes out of what was found what does not hold of the caller's tank now, and shows it as set aside.
    pub fn set_aside(&mut self, clause: &Clause, frame: Frame, found: Vec<Found>) -> Vec<Found> {
        let cue = self.items[frame.from].first;
        // "55g used to have goldfish": the size stands before the word that turns the rest.
        let before = |f: &Found| f.terms.iter().all(|t| *t < cue);
        let some_behind = found.iter().any(|f| !before(f));
        self.adopted |= frame.why == Aside::Others && !self.has_own_tank(clause);
        let others = frame.why == Aside::Others && self.adopted;
        // "3000 gal, 6 koi" behind "my mate says": the tank that the call is about, when there is no other.
        let carried = frame.why == Aside::Told && frame.from == clause.from && !self.has_own_tank(clause);
        let sized = |f: &Found| carried && !self.terms[cue].is(Role::Told) && is_size(&f.subject, &f.says);
        let time = |f: &Found| matches!(&f.says, Says::Value { value: Said::Time { .. }, .. });
        // "the canister was cleaned 12 months ago": the date of what still holds.
        if frame.once && found.iter().any(time) {
            return found;
        }
        // "not sure, about 200 litres": a figure is told all the same.
        let figure = |f: &Found| {
            frame.why == Aside::Unsure
                && matches!(&f.says, Says::Value { value: Said::Amount(_) | Said::Time { .. }, .. })
        };
        let kept = |f: &Found| {
            !frame.once && some_behind && before(f)
                || f.subject.kind.as_deref() == Some("donor sick")
                || others
                || sized(f)
                || figure(f)
        };
        let (mut kept, aside): (Vec<Found>, Vec<Found>) = found.into_iter().partition(kept);
        if others || carried {
            // Whose tank it is that the call is about, is a guess.
            kept.iter_mut().filter(|f| f.mark.is_none()).for_each(|f| f.mark = Some(Mark::Presumed));
        }
        if !aside.is_empty() {
            let from = if kept.is_empty() { self.items[clause.from].first } else { cue };
            self.show_aside(from, self.items[clause.to - 1].last, frame.why);
        }
        kept
    }

    /// "upgraded from a 20 gallon to a 55": what it was before is no more.
    pub fn upgraded(&mut self, clause: &Clause, found: Vec<Found>) -> Vec<Found> {
        let changed = |i: &usize| self.has_role(*i, Role::Upgraded);
        let Some(_) = (clause.from..clause.to).find(changed) else { return found };
        let former = |f: &Found| f.via == Some(Role::From) && is_size(&f.subject, &f.says);
        let (aside, mut kept): (Vec<Found>, Vec<Found>) = found.into_iter().partition(former);
        for finding in &aside {
            let (from, to) = (finding.terms.iter().min(), finding.terms.iter().max());
            if let (Some(from), Some(to)) = (from, to) {
                self.show_aside(*from, *to, Aside::Past);
            }
        }
        // What it is now is the tank of the call, no second one.
        if let (Some(former), 1) = (aside.first(), aside.len()) {
            let of = former.subject.clone();
            kept.iter_mut().filter(|f| f.subject.thing == of.thing && is_size(&f.subject, &f.says)).for_each(|f| {
                f.subject = of.clone();
            });
        }
        kept
    }

    /// "want to upgrade to a 55": the tank wished for is the one of the call only where there is no other.
    pub fn wished_tank(&mut self, clause: &Clause, found: Vec<Found>) -> Vec<Found> {
        let Some(wish) = (clause.from..clause.to).find(|i| self.has_role(*i, Role::Wish)) else { return found };
        let cue = self.items[wish].first;
        let of_tank = |f: &Found| {
            f.subject.thing == "tank"
                && f.terms.iter().any(|t| *t > cue)
                && (f.bare || matches!(f.attribute(), Some("nominal" | "water" | "length" | "kind")))
        };
        if !self.has_own_tank(clause) || !found.iter().any(|f| of_tank(f) && !f.bare) {
            let mut found = found;
            found.iter_mut().filter(|f| of_tank(f) && f.mark.is_none()).for_each(|f| f.mark = Some(Mark::Presumed));
            return found;
        }
        let (aside, kept): (Vec<Found>, Vec<Found>) = found.into_iter().partition(of_tank);
        if !aside.is_empty() {
            let to = aside.iter().flat_map(|f| &f.terms).copied().max().unwrap_or(cue);
            self.show_aside(cue, to, Aside::Wished);
        }
        kept
    }

    /// Marks terms `from..=to` as understood and no fact.
    pub fn show_aside(&mut self, from: usize, to: usize, why: Aside) {
        let terms: Vec<usize> = (from..=to).collect();
        let index = self.reading.aside.len();
        self.reading.aside.push((self.span_of(&terms), why));
        self.claim(&terms, Became::Aside(index));
    }

    /// "nitrite is not 0", "I don't have 12 tetras": a figure that is denied is none of what is there.
    pub fn without_denied(&mut self, clause: &Clause, found: Vec<Found>) -> Vec<Found> {
        let items = clause.from..clause.to;
        let Some(not) = items.clone().find(|i| self.has_role(*i, Role::Not) && !self.has_role(*i, Role::No)) else {
            return found;
        };
        let figure = (not + 1..clause.to).find(|i| matches!(self.items[*i].what, What::Amount(_)));
        let Some(figure) = figure.filter(|f| (not + 1..*f).all(|i| self.says_nothing(i))) else { return found };
        let term = self.items[figure].first;
        let denied = |f: &Found| {
            f.terms.contains(&term) && matches!(&f.says, Says::Value { value: Said::Amount(_), .. }) && !f.replaces
        };
        let (denied, kept): (Vec<Found>, Vec<Found>) = found.into_iter().partition(denied);
        if let Some(first) = denied.first() {
            // "... I have 10": the figure that follows is of the same thing.
            self.state.unsay(first);
            self.show_aside(self.items[clause.from].first, self.items[clause.to - 1].last, Aside::Denied);
            if clause.to >= self.items.len() {
                let words: Vec<usize> = (self.items[figure].first..=self.items[figure].last).collect();
                let said = self.span_of(&words).of(self.text).to_string();
                self.doubt(Doubt::new(Doubtful::NoFigure, format!("Not {said}: what is it?"), Vec::new()));
            }
        }
        kept
    }

    fn says_nothing(&self, item: usize) -> bool {
        let term = &self.terms[self.items[item].first];
        self.items[item].what == What::Term && !term.has_content() && term.is_noise()
    }

    /// A tank of the caller's own is known, or spoken of further on.
    fn has_own_tank(&self, clause: &Clause) -> bool {
        self.own_tank || self.own_from.is_some_and(|last| last >= clause.to)
    }

    /// Looks once through the call and the line for what is the caller's own.
    pub fn look_for_own(&mut self) {
        self.own_tank = self.context.held.iter().any(|s| self.is_own_size(s));
        let own = |i: &usize| self.items[*i].what == What::Term && self.terms[self.items[*i].first].is(Role::Own);
        self.own_from = (0..self.items.len()).rfind(own);
    }

    pub fn is_own_size(&self, statement: &Statement) -> bool {
        statement.mark != Some(Mark::Presumed) && is_size(&statement.subject, &statement.says)
    }
}

/// How large a tank is, or how many fish there are.
pub fn is_size(subject: &Subject, says: &Says) -> bool {
    let Says::Value { attribute, .. } = says else { return false };
    match subject.thing.as_str() {
        "tank" => matches!(attribute.as_str(), "nominal" | "water" | "length"),
        "stock" => attribute == "count",
        _ => false,
    }
}

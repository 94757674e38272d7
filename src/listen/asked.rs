//! Questions of a turn: what a clause asks, of what it goes on with, what it asks besides. In: clauses and findings. Out:
//! asks of the reading, with the words they use. Knows no answer.

use super::ask::Asking;
use super::clause::Clause;
use super::found::Found;
use super::items::What;
use super::lexicon::Sense;
use super::reading::{Ask, Became, Form, Mark, Said, Says, Statement};
use super::supposed;
use super::term::{Heard, within};
use super::turn::Turn;
use crate::knowledge::language::Role;
use crate::source::Span;

/// Topics of the list: room for fish, and whether two kinds of them go together.
const ROOM: &str = "stock room";
const TOGETHER: &str = "compatible";
/// No phrase of ours has more words.
const LONGEST_CUE: usize = 24;

impl Turn<'_, '_> {
    /// "un-ionised ammonia at 1.2 ppm, pH 8.2, 26 C?": commas inside a question for a figure part nothing.
    pub fn one_question(&self, clauses: Vec<Clause>) -> Vec<Clause> {
        let figures = self.listener.cues.topics.iter().filter(|t| t.topic == "figures");
        let cues: Vec<u16> = figures.flat_map(|t| t.words.iter().copied()).collect();
        let mut out: Vec<Clause> = Vec::with_capacity(clauses.len());
        let mut at = 0;
        while at < clauses.len() {
            let end = clauses[at + 1..].iter().position(|c| c.starts).map_or(clauses.len(), |p| at + 1 + p);
            let (first, last) = (clauses[at], clauses[end - 1]);
            let word = |item: usize| self.terms[self.items[item].first].first;
            let sentence = within(self.heard, word(first.from), word(first.to - 1));
            let heard = sentence.iter().any(|h| cues.contains(&h.cue));
            let verb = (first.from..last.to).any(|i| self.has_role(i, Role::Have) && !self.has_role(i, Role::At));
            if clauses[at].starts && heard && !verb && last.end == Some('?') && end > at + 1 {
                out.push(Clause { to: last.to, end: last.end, tagged: true, ..first });
                at = end;
            } else {
                out.push(first);
                at += 1;
            }
        }
        out
    }

    pub fn ask(&mut self, clause: &Clause, asking: Asking, found: Vec<Found>) {
        let mut first = self.terms[self.items[clause.from].first].first;
        let last = self.terms[self.items[clause.to - 1].last].last;
        let span = self.words[first].span.to(self.words[last].span);
        // "..., is that right?": of what stands before it; "with the carbon in?": the joint word belongs to it.
        if self.is_lone_tag(clause) {
            first = if clause.starts { self.sentence_before } else { self.sentence_from };
        } else if clause.joint == Some(Role::With) {
            first = first.saturating_sub(1);
        }
        let mut found = found;
        if found.is_empty() {
            found.extend(self.figure_of_last_ask(clause));
        } else if asking.supposes {
            self.supposed_of_what(clause, &mut found);
        }
        let reach = self.reach(clause).max(last);
        let (measured, alternatives) = (self.figures_of(clause), self.alternatives(clause));
        let hearing = supposed::Hearing {
            listener: self.listener,
            span,
            words: (first, last),
            reach,
            away: super::by_post::is_away(self),
            strange: asking.opener.is_some() && self.is_strange(first, reach),
            alternatives: &alternatives,
            heard: self.heard,
            figures: &measured,
            state: &self.state,
            before: self.reading.asks.last().or(self.context.last_ask.as_ref()),
        };
        let (mut asks, presumed) = supposed::ask_of(asking, &found, &hearing);
        let figures = self.figures_named(first, last);
        asks.iter_mut().filter(|a| a.topic == "figures").for_each(|a| a.named.clone_from(&figures));
        let index = self.reading.asks.len();
        if asks.is_empty() {
            self.doubted = found.clone();
        }
        // "..., the porous ones": more on the question before.
        if asks.is_empty()
            && asking.opener.is_none()
            && let Some(last) = self.reading.asks.last_mut()
        {
            let about = found.iter().map(|f| f.subject.clone()).filter(|s| !last.about.contains(s)).collect::<Vec<_>>();
            // "can I keep goldfish with tetras?"
            let fish = |s: &super::reading::Subject| s.thing == "stock" && s.kind.is_some();
            if clause.joint == Some(Role::With)
                && last.topic == ROOM
                && last.about.iter().any(fish)
                && about.iter().any(fish)
            {
                last.topic = TOGETHER.to_string();
            }
            last.about.extend(about);
            let index = self.reading.asks.len() - 1;
            // "do I need two for a 500 litre with 6 oscars?": as presumed as the tank they are in.
            let from = self.words[self.terms[self.items[clause.from].first].first].span.start;
            let tank =
                |s: &Statement| s.mark == Some(Mark::Presumed) && s.subject.thing == "tank" && s.span.end <= from;
            let presumed = clause.joint == Some(Role::With) && self.reading.statements.iter().any(tank);
            for finding in found {
                let fish = finding.subject.thing == "stock" && finding.attribute() == Some("count");
                self.claim(&finding.terms, Became::Ask(index));
                if presumed && fish {
                    self.state_fact(finding.marked(Some(Mark::Presumed)));
                }
            }
            return;
        }
        if asks.is_empty() {
            for finding in &presumed {
                self.claim(&finding.terms, Became::Unread);
            }
            if !self.is_lone_tag(clause) {
                self.lose(clause);
            }
        }
        for finding in presumed {
            // "what about the other one, its flow's dropped": what follows is of it, too.
            match finding.subject.thing.as_str() {
                "tank" => self.state.tank = finding.subject.number,
                "filter" => self.state.filter = finding.subject.number,
                _ => {}
            }
            self.state_fact(finding);
        }
        if !asks.is_empty() {
            for finding in &found {
                self.claim(&finding.terms, Became::Ask(index));
            }
            let terms: Vec<usize> = (0..self.terms.len())
                .filter(|t| self.terms[*t].first >= first && self.terms[*t].last <= reach)
                .filter(|t| self.terms[*t].last <= last && self.is_part_of_ask(*t) || self.found_topic(*t, &asks))
                .collect();
            self.claim(&terms, Became::Ask(index));
            self.reading.asks.extend(asks.into_iter().flat_map(supposed::one_value_each));
        }
    }

    /// First and last word of each figure of a clause.
    fn figures_of(&self, clause: &Clause) -> Vec<(usize, usize)> {
        let figures = self.items[clause.from..clause.to].iter().filter(|i| matches!(i.what, What::Amount(_)));
        figures.map(|i| (self.terms[i.first].first, self.terms[i.last].last)).collect()
    }

    /// "is that right?" and nothing else.
    fn is_lone_tag(&self, clause: &Clause) -> bool {
        // "is it with you?"
        let goes_on = clause.starts && clause.to < self.items.len() && self.has_role(clause.to, Role::With);
        !goes_on
            && (clause.from..clause.to).any(|i| self.has_role(i, Role::Tag))
            && (clause.from..clause.to).all(|i| {
                self.items[i].what == What::Term
                    && !self.terms[self.items[i].first].has_content()
                    && self.terms[self.items[i].first].is_noise()
            })
    }

    /// "so 2 kilos then?": a figure alone measures what was spoken of with such a figure.
    fn figure_of_last_ask(&self, clause: &Clause) -> Option<Found> {
        let (at, measure) = (clause.from..clause.to).find_map(|i| match &self.items[i].what {
            What::Amount(m) if !m.refused && !m.units.is_empty() => Some((i, m)),
            _ => None,
        })?;
        let named = (clause.from..clause.to).any(|i| {
            self.items[i].what == What::Term && {
                let term = &self.terms[self.items[i].first];
                term.has_content() && !term.is_noise()
            }
        });
        let mass = measure.unit_of(crate::units::Dimension::MASS).filter(|_| !named)?;
        let of = self.context.last_ask.as_ref()?.about.iter().find(|s| s.thing == "medium" && s.kind.is_some())?;
        let value = Said::Amount(measure.amount(mass));
        let says = Says::Value { attribute: "mass".into(), how: super::reading::How::Set, value };
        Some(Found::new(of.clone(), says, self.terms_between(at, at)))
    }

    /// "sump 100 gal, moving bed 10 l", "suppose 20 l": of what was told in that unit last.
    fn supposed_of_what(&self, clause: &Clause, found: &mut [Found]) {
        let bare = (clause.from..clause.to).all(|i| match self.items[i].what {
            What::Term => !self.terms[self.items[i].first].has_content_named(),
            _ => true,
        });
        let [only] = found else { return };
        let Says::Value { attribute, value: Said::Amount(a), .. } = &only.says else { return };
        if !bare || only.subject.thing != "tank" || attribute != "nominal" || only.via.is_some() {
            return;
        }
        let unit = a.unit.name;
        let same = |s: &&Statement| {
            matches!(&s.says, Says::Value { value: Said::Amount(h), .. } if h.unit.name == unit)
                && matches!(s.subject.thing.as_str(), "tank" | "medium")
        };
        let Some(held) = self.context.held.iter().rev().find(same) else { return };
        if let (Says::Value { attribute, how, .. }, "medium") = (&held.says, held.subject.thing.as_str()) {
            let says = Says::Value { attribute: attribute.clone(), how: *how, value: Said::Amount(*a) };
            (only.says, only.subject) = (says, held.subject.clone());
        }
    }

    /// "ph 6.4 kh <1 co2?": readings told, and a bare name that is asked for.
    pub fn telegram(&self, clause: &Clause) -> Option<(Clause, Clause)> {
        let last = clause.to.checked_sub(1).filter(|l| *l > clause.from + 2 && clause.end == Some('?'))?;
        let term = |i: usize| (self.items[i].what == What::Term).then(|| &self.terms[self.items[i].first]);
        let label = |i: usize| term(i).is_some_and(|t| t.labels().next().is_some());
        let figure = |i: usize| matches!(self.items[i].what, What::Amount(_));
        let pairs =
            (last - clause.from).is_multiple_of(2) && (clause.from..last).step_by(2).all(|i| label(i) && figure(i + 1));
        let name = term(last).is_some_and(|t| t.has_content());
        (pairs && name).then(|| {
            let told = Clause { to: last, end: Some(','), ..*clause };
            (told, Clause { from: last, starts: false, joint: None, ..*clause })
        })
    }

    /// "how big a tank will it run, and I'd like nitrate sorted as well": the question, with what it is to do besides.
    pub fn wished_besides(&mut self, clause: Clause) {
        let wish = (clause.from..clause.to).any(|i| self.has_role(i, Role::Wish));
        let Some(last) = self.reading.asks.last().filter(|_| wish).cloned() else { return };
        let terms = self.terms_between(clause.from, clause.to - 1);
        let (first, end) = (self.terms[terms[0]].first, self.terms[terms[terms.len() - 1]].last);
        let heard = within(self.heard, first, end);
        let fits = |t: &&super::cues::TopicCues| {
            t.beside_others
                && t.topic.starts_with(&last.topic)
                && heard.iter().any(|h| h.last <= end && t.words.contains(&h.cue))
        };
        let Some(topic) = self.listener.cues.topics.iter().find(fits).map(|t| t.topic.clone()) else { return };
        let span = self.span_of(&terms);
        self.claim(&terms, Became::Ask(self.reading.asks.len()));
        self.reading.asks.push(Ask { span, topic, ..last });
    }

    /// A word that makes the question: an opener, or a cue of a topic.
    pub fn is_part_of_ask(&self, term: usize) -> bool {
        let t = &self.terms[term];
        let opener = t.senses.iter().any(|s| matches!(s, Sense::Ask(_)));
        // A cue inside the term, or one that covers it.
        let near = within(self.heard, t.first.saturating_sub(LONGEST_CUE), t.last);
        let inside = |h: &Heard| h.first >= t.first && h.last <= t.last;
        let covers = |h: &Heard| h.first <= t.first && h.last >= t.last;
        opener || near.iter().any(|h| (inside(h) || covers(h)) && self.is_topic_cue(h.cue))
    }

    /// A word that found one of these topics by standing beside another.
    fn found_topic(&self, term: usize, asks: &[Ask]) -> bool {
        let t = &self.terms[term];
        let topics = || self.listener.cues.topics.iter().filter(|c| asks.iter().any(|a| a.topic == c.topic));
        within(self.heard, t.first.saturating_sub(LONGEST_CUE), t.last).iter().any(|h| {
            let here = h.first <= t.last && h.last >= t.first;
            here && topics().any(|c| c.words.contains(&h.cue) || c.all.iter().any(|list| list.contains(&h.cue)))
        })
    }

    /// Where figures are named in words `first..=last`.
    fn figures_named(&self, first: usize, last: usize) -> Vec<Span> {
        let cues = |cue: u16| self.listener.cues.topics.iter().any(|t| t.topic == "figures" && t.words.contains(&cue));
        let heard = within(self.heard, first, last).iter().filter(|h| h.last <= last && cues(h.cue));
        heard.map(|h| self.words[h.first].span.to(self.words[h.last].span)).collect()
    }

    fn is_topic_cue(&self, cue: u16) -> bool {
        self.listener.cues.topics.iter().any(|t| t.words.contains(&cue))
    }

    /// Questions that an event asks by itself: a power cut, fish at the surface.
    pub fn along(&mut self) {
        if !self.reading.asks.is_empty() {
            return;
        }
        let listener = self.listener;
        let said = |key: &String| {
            self.reading.statements.iter().find(|s| {
                s.subject.thing == "event" && s.subject.kind.as_ref() == Some(key) && s.says != Says::Absent
                    || matches!(&s.says, Says::Value { value: Said::Word(word), .. } if word == key)
            })
        };
        for topic in &listener.cues.topics {
            if let Some(statement) = topic.along.iter().find_map(said) {
                let ask = Ask {
                    span: statement.span,
                    form: topic.form_given.unwrap_or(Form::What),
                    topic: topic.topic.clone(),
                    about: Vec::new(),
                    suppose: Vec::new(),
                    named: Vec::new(),
                };
                self.reading.asks.push(ask);
                return;
            }
        }
    }
}

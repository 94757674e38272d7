//! Cues: topics, dangers and happenings by the phrases that give them away. In: the cues heard in a line. Out: which of
//! them hold in a stretch of it. Knows no grammar.

use super::lexicon::Lexicon;
use super::reading::Form;
use super::term::{Heard, within};
use crate::knowledge::language::Language;

/// Phrases of which one of each list must be heard.
#[derive(Debug)]
pub struct AllOf {
    pub gives: String,
    all: Vec<Vec<u16>>,
    not: Vec<u16>,
}

/// A topic with its cues.
#[derive(Debug)]
pub struct TopicCues {
    pub topic: String,
    pub words: Vec<u16>,
    /// One of each list must be heard.
    pub all: Vec<Vec<u16>>,
    pub not: Vec<u16>,
    pub form: Vec<Form>,
    pub with: Vec<String>,
    pub form_given: Option<Form>,
    pub along: Vec<String>,
    /// One of these must be heard anywhere in the line; empty: nothing more is asked.
    pub line: Vec<u16>,
    /// Fits a what-if.
    pub answers_what_if: bool,
    /// Asked besides another topic of the same breath.
    pub beside_others: bool,
}

#[derive(Debug, Default)]
pub struct Cues {
    pub topics: Vec<TopicCues>,
    pub dangers: Vec<AllOf>,
    pub happenings: Vec<AllOf>,
    pub leans: Vec<LeanCues>,
}

#[derive(Debug)]
pub struct LeanCues {
    pub gallon: String,
    pub words: Vec<u16>,
    pub sizes: Vec<f64>,
    pub units: Vec<String>,
    /// Spellings that lean only where no size of a tank says otherwise.
    pub spellings: Vec<u16>,
    /// Signs of money count as words.
    pub signs: Vec<char>,
}

/// Something heard, with the words it was heard in (first, last).
#[derive(Debug, Clone)]
pub struct Happened {
    pub event: String,
    pub words: Vec<(usize, usize)>,
}

/// What came of listening for something.
#[derive(Debug)]
pub enum Weighed {
    So(Happened),
    /// It is said not to be so.
    Denied(Happened),
}

impl Cues {
    pub fn build(language: &Language, lexicon: &mut Lexicon) -> Self {
        let mut cue =
            |words: &[String]| -> Vec<u16> { language.written_out(words).iter().map(|w| lexicon.cue(w)).collect() };
        let topics = language
            .topics
            .iter()
            .map(|t| TopicCues {
                topic: t.topic.clone(),
                words: cue(&t.words),
                all: t.all.iter().map(|list| cue(list)).collect(),
                not: cue(&t.not),
                line: cue(&t.line),
                form: t.form.iter().filter_map(|f| Form::by_name(f)).collect(),
                with: t.with.clone(),
                form_given: t.form_given.as_deref().and_then(Form::by_name),
                along: t.along.clone(),
                answers_what_if: t.what_if,
                beside_others: t.besides,
            })
            .collect();
        let dangers = language
            .dangers
            .iter()
            .map(|d| AllOf { gives: d.event.clone(), all: d.all.iter().map(|w| cue(w)).collect(), not: cue(&d.not) })
            .collect();
        let happenings = language
            .happenings
            .iter()
            .filter_map(|h| {
                let gives = h.gives.first()?.strip_prefix("event ")?.to_string();
                Some(AllOf { gives, all: h.all.iter().map(|w| cue(w)).collect(), not: cue(&h.not) })
            })
            .collect();
        let leans = language
            .leans
            .iter()
            .map(|l| LeanCues {
                gallon: l.gallon.clone(),
                words: cue(&l.words),
                sizes: l.sizes.clone(),
                units: l.units.clone(),
                spellings: cue(&l.spellings),
                signs: l.words.iter().filter_map(|w| w.chars().next().filter(|c| "£$€".contains(*c))).collect(),
            })
            .collect();
        Self { topics, dangers, happenings, leans }
    }
}

impl Cues {
    /// Whether tanks are sold by that number of gallons somewhere.
    pub fn is_sold_size(&self, value: Option<f64>) -> bool {
        value.is_some_and(|v| self.leans.iter().any(|l| l.sizes.contains(&v)))
    }
}

impl AllOf {
    /// Whether it holds among the cues heard in words `first..=last`, and in which words.
    pub fn holds(&self, first: usize, last: usize, heard: &[Heard]) -> Option<Happened> {
        match self.weigh(first, last, heard, |_| false)? {
            Weighed::So(happened) | Weighed::Denied(happened) => Some(happened),
        }
    }

    /// Whether a word is heard that shows it to be something else.
    pub fn excuses(&self, first: usize, last: usize, heard: &[Heard]) -> bool {
        within(heard, first, last).iter().any(|h| h.last <= last && self.not.contains(&h.cue))
    }

    /// The same where a word may be `denied`: it holds where each list has a word that is not; where only denied ones are heard
    /// of a list, the whole is denied.
    pub fn weigh(
        &self,
        first: usize,
        last: usize,
        heard: &[Heard],
        denied: impl Fn(&Heard) -> bool,
    ) -> Option<Weighed> {
        let here = within(heard, first, last);
        let of = |cues: &[u16]| {
            let cues = cues.to_vec();
            here.iter().filter(move |h| h.last <= last && cues.contains(&h.cue))
        };
        if self.excuses(first, last, heard) {
            return None;
        }
        let (mut words, mut is_denied) = (Vec::with_capacity(self.all.len()), false);
        for list in &self.all {
            let found = of(list).find(|h| !denied(h));
            is_denied |= found.is_none();
            words.push(found.or_else(|| of(list).next()).map(|h| (h.first, h.last))?);
        }
        // Whatever else of the lists was heard tells of it, too.
        for heard in self.all.iter().flat_map(|list| of(list)) {
            let word = (heard.first, heard.last);
            if !words.contains(&word) {
                words.push(word);
            }
        }
        let happened = Happened { event: self.gives.clone(), words };
        Some(if is_denied { Weighed::Denied(happened) } else { Weighed::So(happened) })
    }
}

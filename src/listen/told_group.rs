//! Groups of fish told of before and named by half: "the rams", "56 shrimp" of about sixty bees. In: mentions of a clause, what
//! is known. Out: mentions of the kind told before. Gives no figure.

use super::bind::Binder;
use super::found::subject;
use super::items::What;
use super::mention::Noun;
use super::name::{self, Name};
use super::reading::Said;
use super::state::same_thing;

impl Binder<'_, '_> {
    /// "the rams" after "two bolivian rams": those.
    pub fn fish_spoken_of(&mut self) {
        for index in 0..self.mentions.len() {
            let mention = &self.mentions[index];
            let Noun::Stock { kind: Some(kind), stage: None } = mention.noun else { continue };
            let word = super::words::folded(&self.words[self.term(mention.item).last].text);
            let name = self.name(kind);
            let told = |k: &str| {
                let ends = |with: &str| k.ends_with(with) && k[..k.len() - with.len()].ends_with(' ');
                k != name && (ends(&word) || ends(name))
            };
            let mut kinds: Vec<&str> = self.state.fish.iter().map(String::as_str).filter(|k| told(k)).collect();
            kinds.dedup();
            let known = self.state.fish.iter().any(|k| k == name);
            let ([one], false) = (kinds.as_slice(), known) else { continue };
            let Some(one) = self.listener.lexicon.names.find(one) else { continue };
            if mention.definite || self.counts_again(index, one) {
                self.mentions[index].noun = Noun::Stock { kind: Some(one), stage: None };
            }
        }
    }

    /// "56 shrimp" after "about sixty taiwan bees", or after we asked how many there are now: the same ones, counted.
    fn counts_again(&mut self, index: usize, kind: Name) -> bool {
        let Some(item) = self.mentions[index].item.checked_sub(1).filter(|i| *i >= self.clause.from) else {
            return false;
        };
        let What::Amount(measure) = &self.items[item].what else { return false };
        let Some(value) = measure.value().filter(|_| measure.is_plain()) else { return false };
        let of = subject(self.name(name::STOCK), Some(self.name(kind)));
        let asked = self.state.wanted.iter().any(|w| same_thing(&w.of, &of) && w.attribute == self.name(name::COUNT));
        let within = match self.state.value(&of, self.name(name::COUNT)) {
            Some(Said::Amount(a)) => {
                a.likely == Some(value) || a.low.is_some_and(|l| l <= value) && a.high.is_some_and(|h| value <= h)
            }
            _ => false,
        };
        let again = asked || within || self.correcting;
        if again {
            self.state.recounted = Some(of);
        }
        again
    }
}

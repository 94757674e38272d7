//! Ordinary words: everyday English and its inflections, which no correction of spelling may turn into a word of ours. In: a
//! sorted list of plain forms. Out: whether a word is one of them. Knows no meaning.

/// Plain forms in the order of the alphabet, a blank between two.
#[derive(Debug, Default)]
pub struct Ordinary {
    words: Box<str>,
}

impl Ordinary {
    pub fn new(words: &str) -> Self {
        Self { words: words.into() }
    }

    /// Whether the word stands in the list. Halves the list at each step, so that nothing has to be built for it.
    pub fn holds(&self, word: &str) -> bool {
        let list = self.words.as_bytes();
        let (mut low, mut high) = (0, list.len());
        while low < high {
            let middle = low + (high - low) / 2;
            let start = list[low..middle].iter().rposition(|b| b.is_ascii_whitespace()).map_or(low, |n| low + n + 1);
            let end = list[middle..high].iter().position(|b| b.is_ascii_whitespace()).map_or(high, |n| middle + n);
            // The middle may fall on the blank behind a word.
            match list[start..end].cmp(word.as_bytes()) {
                std::cmp::Ordering::Equal => return true,
                std::cmp::Ordering::Less => low = end + 1,
                std::cmp::Ordering::Greater => high = start.saturating_sub(1),
            }
        }
        false
    }
}

/// Endings of English verbs, nouns, adjectives and adverbs.
const ENDINGS: [&str; 19] = [
    "s", "es", "ed", "ing", "ings", "er", "ers", "est", "y", "ly", "ness", "ment", "ments", "able", "ful", "ier",
    "iest", "ish", "less",
];

/// The forms that a word may be an inflection of: "starting" of "start", "stopped" of "stop", "dried" of "dry", "baking" of
/// "bake". Some of them are no words. The word must be of plain letters.
pub fn plain_forms(word: &str) -> impl Iterator<Item = String> + '_ {
    ENDINGS.into_iter().filter_map(|ending| word.strip_suffix(ending)).filter(|stem| stem.len() >= 3).flat_map(|stem| {
        let with_e = format!("{stem}e");
        let bytes = stem.as_bytes();
        let doubled = bytes[bytes.len() - 1] == bytes[bytes.len() - 2];
        let single = doubled.then(|| stem[..stem.len() - 1].to_string());
        let with_y = stem.strip_suffix('i').map(|s| format!("{s}y"));
        [Some(stem.to_string()), Some(with_e), single, with_y].into_iter().flatten()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_is_found_wherever_it_stands() {
        let list = Ordinary::new("absorb baking\ncup dry stop");
        for word in ["absorb", "baking", "cup", "dry", "stop"] {
            assert!(list.holds(word), "{word}");
        }
        for word in ["", "abs", "absorbs", "baki", "cupp", "zoo", "aa", "stops"] {
            assert!(!list.holds(word), "{word}");
        }
        assert!(!Ordinary::default().holds("cup"));
    }

    #[test]
    fn inflections_lead_to_the_plain_form() {
        for (word, plain) in
            [("starting", "start"), ("stopped", "stop"), ("baked", "bake"), ("dried", "dry"), ("happiness", "happy")]
        {
            assert!(plain_forms(word).any(|form| form == plain), "{word}");
        }
    }
}

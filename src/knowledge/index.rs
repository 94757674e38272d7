//! The word index: every word that callers use for an entry, to the entries it may mean. In: names, other words,
//! plurals. Out: hits by word or by the longest run of words. Knows no grammar.

use super::Knowledge;
use super::plural::plurals;
use super::table::Table;
use serde::{Deserialize, Serialize};

/// One meaning of a word: the n-th entry of a table.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
pub struct Hit {
    pub table: Table,
    pub entry: u32,
}

/// Words in normal form, sorted, in one text; each with its meanings in the order of `Table`.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct WordIndex {
    text: String,
    /// End of each word in `text`, and end of its run in `hits`; each run starts where the one before ends.
    ends: Vec<(u32, u32)>,
    hits: Vec<Hit>,
    most_words: u8,
}

/// The form in which words are compared: lower case, hyphens and strokes as blanks, no apostrophes, single blanks.
pub fn normal(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for c in words.chars() {
        match c {
            '\'' | '\u{2019}' => {}
            c if c.is_whitespace() || matches!(c, '-' | '/' | '\u{2010}'..='\u{2014}') => {
                if !out.is_empty() && !out.ends_with(' ') {
                    out.push(' ');
                }
            }
            c => out.extend(c.to_lowercase()),
        }
    }
    out.truncate(out.trim_end().len());
    out
}

impl WordIndex {
    /// The index of all spoken tables. A plural that another entry claims as its own word is left to that entry.
    pub fn new(knowledge: &Knowledge) -> Self {
        let mut said: Vec<(String, Hit)> = Vec::with_capacity(8192);
        let mut plural: Vec<(String, Hit)> = Vec::with_capacity(4096);
        for table in Table::ALL.into_iter().filter(|t| t.is_spoken()) {
            for n in 0..knowledge.count(table) {
                let Some(entry) = knowledge.entry(table, n) else { continue };
                let hit = Hit { table, entry: n as u32 };
                for word in std::iter::once(entry.name()).chain(entry.also().iter().map(String::as_str)) {
                    let word = normal(word);
                    if table.has_plurals() {
                        plural.extend(plurals(&word, &knowledge.plurals).into_iter().map(|p| (p, hit)));
                    }
                    said.push((word, hit));
                }
            }
        }
        said.sort_unstable();
        said.dedup();
        let is_claimed = |word: &String| {
            let from = said.partition_point(|(w, _)| w < word);
            said[from..].iter().take_while(|(w, _)| w == word).any(|(_, h)| h.table.names_things())
        };
        plural.retain(|(word, hit)| !(hit.table.names_things() && is_claimed(word)));
        said.append(&mut plural);
        said.sort_unstable();
        said.dedup();
        Self::of_sorted(&said)
    }

    fn of_sorted(words: &[(String, Hit)]) -> Self {
        let mut index = WordIndex::default();
        for (n, (word, hit)) in words.iter().enumerate() {
            index.hits.push(*hit);
            if words.get(n + 1).is_some_and(|(next, _)| next == word) {
                continue;
            }
            index.text.push_str(word);
            index.ends.push((index.text.len() as u32, index.hits.len() as u32));
            let count = word.split(' ').count().min(u8::MAX.into()) as u8;
            index.most_words = index.most_words.max(count);
        }
        index
    }

    /// How many words the index holds.
    pub fn len(&self) -> usize {
        self.ends.len()
    }

    pub fn is_empty(&self) -> bool {
        self.ends.is_empty()
    }

    /// The most words that one name has.
    pub fn most_words(&self) -> usize {
        self.most_words.into()
    }

    /// The meanings of a word or run of words, put into normal form first; empty when there are none.
    pub fn find(&self, words: &str) -> &[Hit] {
        self.find_normal(&normal(words))
    }

    /// The same for words already in normal form.
    pub fn find_normal(&self, words: &str) -> &[Hit] {
        let (mut low, mut high) = (0, self.ends.len());
        while low < high {
            let middle = (low + high) / 2;
            match self.word(middle).cmp(words) {
                std::cmp::Ordering::Equal => return self.hits_of(middle),
                std::cmp::Ordering::Less => low = middle + 1,
                std::cmp::Ordering::Greater => high = middle,
            }
        }
        &[]
    }

    /// The longest run of words, from the front, that the index holds: how many words, and their meanings.
    pub fn longest(&self, words: &[&str]) -> Option<(usize, &[Hit])> {
        (1..=words.len().min(self.most_words())).rev().find_map(|n| {
            let hits = self.find(&words[..n].join(" "));
            (!hits.is_empty()).then_some((n, hits))
        })
    }

    /// Every word with its meanings, in order.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &[Hit])> {
        (0..self.ends.len()).map(|n| (self.word(n), self.hits_of(n)))
    }

    fn word(&self, n: usize) -> &str {
        let start = if n == 0 { 0 } else { self.ends[n - 1].0 };
        &self.text[start as usize..self.ends[n].0 as usize]
    }

    fn hits_of(&self, n: usize) -> &[Hit] {
        let start = if n == 0 { 0 } else { self.ends[n - 1].1 };
        &self.hits[start as usize..self.ends[n].1 as usize]
    }
}

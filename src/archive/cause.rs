//! What caused a difference: the edits without which it vanishes, found by really taking them back. In: two books, a call,
//! what differs. Out: for each difference its edits. Knows no file system.

use super::call::SavedCall;
use super::compare::{Change, Subject, compare};
use super::conversation::{Hear, listener};
use super::replay::replay;
use crate::rulebook::Book;
use crate::rulebook::edition::{Edition, TABLES, Texts};
use crate::rulebook::edits::{Edit, edits, taken_back};
use crate::source::Fault;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::sync::{Arc, Mutex, OnceLock};

/// What was found.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// Taking back these edits (by number) makes it vanish, and taking back fewer of them does not.
    Edits(BTreeSet<usize>),
    /// The book of then says now what this one says: it was not the book that changed, but the program or the transcript.
    NotTheBook,
}

/// A book ready to answer.
#[derive(Clone)]
pub struct Reader {
    pub book: Arc<Book>,
    pub hear: Arc<dyn Hear>,
}

/// The edits between two books, and the books in which some of them are taken back.
pub struct Causes {
    pub edits: Vec<Edit>,
    new: Edition,
    new_hear: Arc<dyn Hear>,
    old: Reader,
    made: Mutex<HashMap<BTreeSet<usize>, Made>>,
}

/// A book that is made once, when it is first needed; `None`: those edits cannot be taken back without others.
type Made = Arc<OnceLock<Option<Reader>>>;

/// While there are no more edits than this, each is tried, and every one that alone makes the difference vanish is named.
const ALL_TRIED: usize = 8;

impl Causes {
    /// Compares two books. Errors: one of them cannot be compiled.
    pub fn between(old: Texts, new: Texts, name: &str) -> Result<Self, Vec<Fault>> {
        let edits = edits(&old, &new);
        let new = Edition::new(new, name)?;
        let new_hear = listener(&new.book.knowledge);
        let old = reader(&new, &new_hear, new.with(old)?);
        Ok(Self { edits, new, new_hear, old, made: Mutex::default() })
    }

    /// The cause of each difference of a call.
    pub fn of(&self, call: &SavedCall, changes: &[&Change]) -> Vec<Cause> {
        let mut trial = Trial { causes: self, call, left: BTreeMap::new() };
        changes.iter().map(|change| trial.cause(change)).collect()
    }

    /// The newer book with some edits taken back.
    fn reader(&self, without: &BTreeSet<usize>) -> Option<Reader> {
        if without.len() == self.edits.len() {
            return Some(self.old.clone());
        }
        // The lock is held only to find the place; two that need the same book wait for one of them to make it.
        let made = {
            let mut all = self.made.lock().unwrap_or_else(|poisoned| poisoned.into_inner());
            all.entry(without.clone()).or_default().clone()
        };
        made.get_or_init(|| {
            let texts = taken_back(&self.new.texts, without.iter().map(|n| &self.edits[*n]));
            Some(reader(&self.new, &self.new_hear, self.new.with(texts).ok()?))
        })
        .clone()
    }
}

/// The listener is made anew only where the tables, which hold the words, are others.
fn reader(of: &Edition, hear: &Arc<dyn Hear>, edition: Edition) -> Reader {
    let tables =
        |e: &Edition| e.texts.range(TABLES.to_string()..).map(|(p, t)| (p.clone(), t.clone())).collect::<Texts>();
    let is_table = |texts: Texts| texts.into_iter().filter(|(p, _)| p.starts_with(TABLES)).collect::<Texts>();
    let hear = match is_table(tables(of)) == is_table(tables(&edition)) {
        true => hear.clone(),
        false => listener(&edition.book.knowledge),
    };
    Reader { book: edition.book, hear }
}

/// One call under several books.
struct Trial<'t> {
    causes: &'t Causes,
    call: &'t SavedCall,
    /// For edits taken back, what still differs from what was told; `None` where there is no such book.
    left: BTreeMap<BTreeSet<usize>, Option<Vec<(usize, Subject)>>>,
}

impl Trial<'_> {
    /// Whether a difference vanishes when these edits are taken back.
    fn vanishes(&mut self, change: &Change, without: &BTreeSet<usize>) -> bool {
        let (causes, call) = (self.causes, self.call);
        let left = self.left.entry(without.clone()).or_insert_with(|| {
            let Reader { book, hear } = causes.reader(without)?;
            let changes = compare(call, &replay(call, &book, &hear));
            Some(changes.into_iter().map(|c| (c.turn, c.subject)).collect())
        });
        left.as_ref().is_some_and(|left| !left.contains(&(change.turn, change.subject.clone())))
    }

    fn cause(&mut self, change: &Change) -> Cause {
        let count = self.causes.edits.len();
        let all: BTreeSet<usize> = (0..count).collect();
        if count == 0 || !self.vanishes(change, &all) {
            return Cause::NotTheBook;
        }
        if count == 1 {
            return Cause::Edits(all);
        }
        let mut alone = BTreeSet::new();
        for n in self.nearest_first(change) {
            if self.vanishes(change, &BTreeSet::from([n])) {
                alone.insert(n);
                if count > ALL_TRIED {
                    break;
                }
            }
        }
        if !alone.is_empty() {
            return Cause::Edits(alone);
        }
        // Several are needed together: leave out one after the other as long as the rest suffices.
        let mut needed = all;
        for n in self.nearest_first(change).into_iter().rev() {
            let mut fewer = needed.clone();
            fewer.remove(&n);
            if !fewer.is_empty() && self.vanishes(change, &fewer) {
                needed = fewer;
            }
        }
        Cause::Edits(needed)
    }

    /// The edit of the rule that speaks, then other rules and figures, then the tables.
    fn nearest_first(&self, change: &Change) -> Vec<usize> {
        let own = |edit: &Edit| matches!(&change.subject, Subject::Advice { rule, .. } if *rule == edit.name);
        let edits = &self.causes.edits;
        let mut order: Vec<usize> = (0..edits.len()).collect();
        order.sort_by_key(|n| (!own(&edits[*n]), edits[*n].file.starts_with(TABLES), *n));
        order
    }
}

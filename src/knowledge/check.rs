//! Checks across the tables: every name that an entry uses must exist, every fact must be of the right kind, no word
//! may name two things. In: tables and places. Out: faults. Words nothing for callers.

use super::Knowledge;
use super::check_facts;
use super::facts::value;
use super::index::normal;
use super::places::Places;
use super::table::{Entry, Table};
use crate::source::words::ticked;
use crate::source::{Fault, suggest};
use crate::units::parse::quantity;
use std::collections::{BTreeSet, HashMap, HashSet};

/// All faults that show only when the tables are together.
pub fn faults(knowledge: &Knowledge, places: &Places) -> Vec<Fault> {
    let names = Table::ALL.map(|t| (t, knowledge.names(t).into_iter().collect::<HashSet<_>>())).into_iter().collect();
    let mut check = Check { knowledge, places, names, faults: Vec::new() };
    for table in Table::ALL {
        check.names_once(table);
        for n in 0..knowledge.count(table) {
            if let Some(entry) = knowledge.entry(table, n) {
                check.entry(n, entry);
            }
        }
    }
    check.references();
    check.circles();
    if check.faults.is_empty() {
        check.faults.extend(check_facts::faults(knowledge, places));
        check.words();
    }
    check.faults
}

struct Check<'k> {
    knowledge: &'k Knowledge,
    places: &'k Places,
    names: HashMap<Table, HashSet<&'k str>>,
    faults: Vec<Fault>,
}

impl<'k> Check<'k> {
    /// A name that two entries of one table have.
    fn names_once(&mut self, table: Table) {
        let mut first: HashMap<&str, usize> = HashMap::new();
        for (n, name) in self.knowledge.names(table).into_iter().enumerate() {
            if let Some(before) = first.insert(name, n) {
                let fault = Fault::error(
                    "name-twice",
                    self.places.of(table, n, table.key(), name),
                    format!("there are two entries called {}", ticked(name)),
                );
                self.faults.push(fault.other(self.places.of(table, before, table.key(), name), "the first"));
            }
        }
    }

    /// What every entry has: classes that exist, a basis that says something, facts that can be read.
    fn entry(&mut self, n: usize, entry: &dyn Entry) {
        let table = entry.table();
        self.known(table, n, "like", entry.like(), &[Table::Class]);
        if let Some(basis) = entry.basis() {
            if basis.is_empty() {
                self.faults.push(
                    Fault::error(
                        "no-basis",
                        self.places.of(table, n, "basis", ""),
                        format!("nothing says what {} rests on", ticked(entry.name())),
                    )
                    .cure("basis: {from memory: true}"),
                );
            }
            self.known(table, n, "basis", &basis.published, &[Table::Source]);
            self.known(table, n, "basis", &basis.worked_out, &[Table::Working]);
        }
        for (attribute, text) in entry.facts().into_iter().flat_map(|f| f.iter()) {
            if let Err(why) = value(text) {
                let place = self.places.of(table, n, "facts", text);
                self.faults.push(Fault::error(
                    "bad-quantity",
                    place,
                    format!("{} of {}: {why}", attribute, entry.name()),
                ));
            }
        }
    }

    /// Names that entries of particular tables use.
    fn references(&mut self) {
        let knowledge = self.knowledge;
        let things: Vec<Table> = Table::ALL.into_iter().filter(|t| t.names_things()).collect();
        for (n, e) in knowledge.ambiguous.iter().enumerate() {
            self.known(Table::Ambiguous, n, "could be", &e.could_be, &things);
            self.known(Table::Ambiguous, n, "until told", e.until_told.as_slice(), &things);
        }
        for (n, e) in knowledge.stock.iter().enumerate() {
            self.known(Table::Stock, n, "group", std::slice::from_ref(&e.group), &[Table::Group]);
        }
        for (n, e) in knowledge.groups.iter().enumerate() {
            self.known(Table::Group, n, "generic", std::slice::from_ref(&e.generic), &[Table::Stock]);
        }
        for (n, e) in knowledge.media.iter().enumerate() {
            self.known(Table::Medium, n, "unsuited filters", &e.unsuited_filters, &[Table::Filter]);
        }
        for (n, e) in knowledge.filters.iter().enumerate() {
            for layer in &e.order {
                self.known(Table::Filter, n, "order", std::slice::from_ref(&layer.medium), &[Table::Medium]);
                if let Err(why) = quantity(&layer.share) {
                    let place = self.places.of(Table::Filter, n, "order", &layer.share);
                    self.faults.push(Fault::error("bad-quantity", place, why.to_string()));
                }
            }
        }
        for (n, e) in knowledge.treatments.iter().enumerate() {
            self.known(Table::Treatment, n, "cautions", &e.cautions, &[Table::Caution]);
        }
        for (n, e) in knowledge.symptoms.iter().enumerate() {
            self.known(Table::Symptom, n, "questions", &e.questions, &[Table::Question]);
            self.known(Table::Symptom, n, "cautions", &e.cautions, &[Table::Caution]);
        }
        for (n, e) in knowledge.terms.iter().enumerate() {
            self.known(Table::Term, n, "see", &e.see, &[Table::Term]);
        }
        for (n, e) in knowledge.jobs.iter().enumerate() {
            self.known(Table::Job, n, "filters", &e.filters, &[Table::Filter]);
            for step in &e.steps {
                self.known(Table::Job, n, "steps", &step.cautions, &[Table::Caution]);
            }
        }
    }

    fn known(&mut self, table: Table, n: usize, key: &str, used: &[String], targets: &[Table]) {
        for name in used {
            if targets.iter().any(|t| self.names[t].contains(name.as_str())) {
                continue;
            }
            let what = targets.iter().map(|t| t.key()).collect::<Vec<_>>().join(", ");
            let place = self.places.of(table, n, key, name);
            let fault = Fault::error("unknown-name", place, format!("nothing is called {} ({what})", ticked(name)));
            let known = targets.iter().flat_map(|t| self.names[t].iter().copied()).collect::<BTreeSet<_>>();
            self.faults.push(match suggest::nearest(name, known) {
                Some(near) => fault.cure(near),
                None => fault,
            });
        }
    }

    /// Classes that are like themselves by way of others.
    fn circles(&mut self) {
        let classes = &self.knowledge.classes;
        for (n, class) in classes.iter().enumerate() {
            let mut reached: BTreeSet<&str> = BTreeSet::new();
            let mut next: Vec<&str> = class.like.iter().map(String::as_str).collect();
            while let Some(name) = next.pop() {
                if reached.insert(name) {
                    next.extend(
                        classes.iter().filter(|c| c.class == name).flat_map(|c| c.like.iter().map(String::as_str)),
                    );
                }
            }
            if reached.contains(class.class.as_str()) {
                let place = self.places.of(Table::Class, n, "like", "");
                let what = format!("{} is like itself, by way of the classes it is like", ticked(&class.class));
                self.faults.push(Fault::error("circle", place, what));
            }
        }
    }

    /// Words that two entries claim: in one table, or in two tables that name things, and not listed as ambiguous.
    fn words(&mut self) {
        let knowledge = self.knowledge;
        let ambiguous: HashSet<String> = knowledge.ambiguous.iter().map(|a| normal(&a.ambiguous)).collect();
        let mut claimed: HashMap<String, Vec<(Table, usize)>> = HashMap::new();
        for table in Table::ALL.into_iter().filter(|t| t.is_spoken() && *t != Table::Ambiguous) {
            for n in 0..knowledge.count(table) {
                let Some(entry) = knowledge.entry(table, n) else { continue };
                for word in std::iter::once(entry.name()).chain(entry.also().iter().map(String::as_str)) {
                    let key = normal(word);
                    let before = claimed.entry(key.clone()).or_default();
                    let rival = before.iter().find(|(t, m)| {
                        (*t, *m) != (table, n) && (*t == table || t.names_things() && table.names_things())
                    });
                    if let Some((t, m)) = rival
                        && !ambiguous.contains(&key)
                    {
                        let at = |t: Table, m: usize, e: &dyn Entry| match e.also().iter().find(|a| normal(a) == key) {
                            Some(a) => self.places.of(t, m, "also", a),
                            None => self.places.of(t, m, t.key(), e.name()),
                        };
                        let mut fault = Fault::error(
                            "word-twice",
                            at(table, n, entry),
                            format!("two entries claim the word {}", ticked(word)),
                        );
                        if let Some(other) = knowledge.entry(*t, *m) {
                            fault = fault.other(at(*t, *m, other), "the first");
                        }
                        self.faults
                            .push(fault.cure("take it out of one of the two, or list it as ambiguous with a question"));
                    }
                    before.push((table, n));
                }
            }
        }
    }
}

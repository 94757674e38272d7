//! The cause of a difference: fifty random edits of the shipped book (thresholds, words, deletions, table entries, figures),
//! five at a time, each found again with its line. What an edit does is established the other way round, by making it alone.

use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use weirline::archive::call::{Exchange, SavedCall};
use weirline::archive::cause::{Cause, Causes};
use weirline::archive::compare::{Subject, compare};
use weirline::archive::{Hear, listener, replay::replay};
use weirline::rulebook::edition::{Edition, Texts};
use weirline::rulebook::edits::{edits, taken_back};
use weirline::rulebook::library::built_in_texts;

const EDITS: usize = 50;
const AT_ONCE: usize = 5;
/// Calls on which five edits are tried.
const TRIED: usize = 3;

/// Calls that many different rules speak on.
const CALLS: [&str; 8] = [
    "55 gallon, 30 small tetras, fry present, hang-on filter 400 gph",
    "180 litres, 40 guppies, canister 1000 l/h, nitrate 80, ammonia 0.5, ph 8.2",
    "20 gallon, 2 fancy goldfish, hob 200 gph with cartridges, cloudy water",
    "60 l, 1 betta, sponge filter, set up 2 weeks ago, nitrite 0.5",
    "2000 gallon pond, 12 koi, pond filter 5000 l/h, green water",
    "canister, basket 2 litres, washed the media under the tap, 240 l, 10 rummynose",
    "120 l, 20 cherry shrimp, internal filter 300 l/h, nothing over the intake",
    "power was out for 8 hours, canister 1400 l/h, 400 l, 4 angelfish",
];

struct Chance(u64);

impl Chance {
    fn pick(&mut self, many: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % many.max(1)
    }
}

/// One edit: a file's text before and after, what is edited, and which of the lines.
#[derive(Clone, Debug)]
struct Made {
    sort: &'static str,
    name: String,
    file: String,
    /// The block as it was, and as it is; nothing when it is deleted.
    from: String,
    to: String,
}

impl Made {
    fn make(&self, texts: &Texts) -> Texts {
        let mut texts = texts.clone();
        let text = texts.get_mut(&self.file).unwrap();
        assert_eq!(text.matches(&self.from).count(), 1, "{self:?}");
        *text = text.replacen(&self.from, &self.to, 1);
        texts
    }

    /// The line that an editor was put on: the first that differs, or the first of what was deleted.
    fn line(&self, old: &Texts, new: &Texts) -> usize {
        let line_of = |text: &str, at: usize| text[..at].matches('\n').count() + 1;
        if self.to.is_empty() {
            return line_of(&old[&self.file], old[&self.file].find(&self.from).unwrap());
        }
        let within = self.from.lines().zip(self.to.lines()).take_while(|(a, b)| a == b).count();
        line_of(&new[&self.file], new[&self.file].find(&self.to).unwrap()) + within
    }
}

/// The entry that begins with this line, to the next one of its list.
fn block<'t>(texts: &'t Texts, head: &str) -> Option<(&'t String, &'t str)> {
    for (file, text) in texts {
        let line = format!("{head}\n");
        let Some(start) = text.find(&line).filter(|at| *at == 0 || text[..*at].ends_with('\n')) else { continue };
        let rest = &text[start + line.len()..];
        let ends =
            |from: usize| rest[from..].starts_with("- ") || rest[from..].starts_with(|c: char| c.is_alphabetic());
        let mut at = 0;
        while at < rest.len() && !ends(at) {
            at += rest[at..].find('\n').map_or(rest.len() - at, |n| n + 1);
        }
        return Some((file, &text[start..start + line.len() + at]));
    }
    None
}

/// Replaces the numbers of the first line that holds `mark`, behind it.
fn with_other_numbers(block: &str, mark: &str, times: f64) -> Option<String> {
    let at = block.find(mark)? + mark.len();
    let end = at + block[at..].find('\n')?;
    let words = block[at..end].split(' ').map(|word| match word.trim_end_matches(',').parse::<f64>() {
        Ok(n) if n != 0.0 => {
            word.replace(word.trim_end_matches(','), &format!("{}", (n * times * 1000.0).round() / 1000.0))
        }
        _ => word.to_string(),
    });
    let changed = format!("{}{}{}", &block[..at], words.collect::<Vec<_>>().join(" "), &block[end..]);
    (changed != block).then_some(changed)
}

/// A random edit of something that speaks in one of the calls.
fn random(chance: &mut Chance, texts: &Texts, rules: &[String], figures: &[String]) -> Option<Made> {
    let made = |sort: &'static str, name: &str, change: &mut dyn FnMut(&str) -> Option<String>| -> Option<Made> {
        let (file, from) = block(texts, &format!("- {sort}: {name}"))?;
        let to = change(from)?;
        let once = texts[file].matches(from).count() == 1;
        once.then(|| Made { sort, name: name.to_string(), file: file.clone(), from: from.to_string(), to })
    };
    let times = [0.2, 0.5, 3.0, 8.0][chance.pick(4)];
    match chance.pick(5) {
        0 => {
            let mark = [" < ", " > ", " <= ", " >= "][chance.pick(4)];
            made("rule", &rules[chance.pick(rules.len())], &mut |b| {
                let conditions = b.find("  when:").map_or(0, |at| at);
                let changed = with_other_numbers(&b[conditions..], mark, times)?;
                Some(format!("{}{changed}", &b[..conditions]))
            })
        }
        1 => {
            let key = ["    say: ", "    because: ", "    - "][chance.pick(3)];
            made("rule", &rules[chance.pick(rules.len())], &mut |b| {
                let advice = b.find("  advise:")?;
                let at = advice + b[advice..].find(key)? + key.len();
                let plain = b[at..].starts_with(|c: char| c.is_ascii_uppercase());
                plain.then(|| format!("{}Mind this and {}", &b[..at], &b[at..]))
            })
        }
        2 => made("rule", &rules[chance.pick(rules.len())], &mut |_| Some(String::new())),
        3 => {
            let stock =
                ["small tetra", "guppy", "fancy goldfish", "betta", "koi", "cherry shrimp", "angelfish", "oscar"];
            let fact =
                ["    grown length: ", "    mass coefficient: ", "    fry length: ", "    highest temperature: "];
            let name = stock[chance.pick(stock.len())];
            made("stock", name, &mut |b| with_other_numbers(b, fact[chance.pick(4)], times))
        }
        _ => made("figure", &figures[chance.pick(figures.len())], &mut |b| with_other_numbers(b, "  is: ", times)),
    }
}

struct Shipped {
    texts: Texts,
    edition: Edition,
    hear: Arc<dyn Hear>,
    calls: Vec<SavedCall>,
}

fn shipped() -> Shipped {
    let texts: Texts = built_in_texts().into_iter().collect();
    let edition = Edition::new(texts.clone(), "shipped").unwrap_or_else(|_| panic!("the shipped book has faults"));
    let hear = listener(&edition.book.knowledge);
    let calls = CALLS.par_iter().map(|line| {
        let exchange = Exchange { typed: line.to_string(), ..Exchange::default() };
        replay(&SavedCall { exchanges: vec![exchange], ..SavedCall::default() }, &edition.book, &hear)
    });
    Shipped { calls: calls.collect(), texts, edition, hear }
}

type Differences = BTreeSet<(usize, Subject)>;

impl Shipped {
    /// What differs in which call with other texts; `None`: that is no book.
    fn differences(&self, texts: &Texts, calls: &[usize]) -> Option<Differences> {
        let edition = self.edition.with(texts.clone()).ok()?;
        let mut tables = texts.iter().filter(|(path, _)| path.starts_with("knowledge/"));
        let hear = if tables.all(|(path, text)| self.texts.get(path) == Some(text)) {
            self.hear.clone()
        } else {
            listener(&edition.book.knowledge)
        };
        let found = calls.iter().map(|n| {
            let (n, call) = (*n, &self.calls[*n]);
            let after = replay(call, &edition.book, &hear);
            compare(call, &after).into_iter().map(|c| (n, c.subject)).collect::<Differences>()
        });
        Some(found.flatten().collect())
    }
}

#[test]
fn fifty_random_edits_are_found_with_their_lines() {
    let shipped = shipped();
    let given = shipped.edition.book.rules.figures.iter().filter(|f| f.given.is_some());
    let figures: Vec<String> = given.map(|f| f.name.clone()).collect();
    let mut chance = Chance(8);
    let (mut found, mut sorts) = (0, BTreeMap::<String, usize>::new());
    // Until every sort of edit was among them, too.
    while found < EDITS || sorts.len() < 4 {
        // Some of the calls, and edits that do something to them, of different entries.
        let first = chance.pick(CALLS.len());
        let calls: Vec<usize> = (0..TRIED).map(|n| (first + 3 * n) % CALLS.len()).collect();
        let told = calls.iter().flat_map(|n| shipped.calls[*n].exchanges[0].told.iter());
        let rules: BTreeSet<String> = told.flat_map(|t| &t.advice).map(|a| a.rule.clone()).collect();
        let rules: Vec<String> = rules.into_iter().collect();
        let mut made: Vec<(Made, Differences)> = Vec::new();
        while made.len() < AT_ONCE {
            let mut drawn: Vec<Made> = Vec::new();
            while drawn.len() < AT_ONCE - made.len() {
                let Some(edit) = random(&mut chance, &shipped.texts, &rules, &figures) else { continue };
                if made.iter().map(|(m, _)| m).chain(&drawn).all(|m| m.name != edit.name) {
                    drawn.push(edit);
                }
            }
            let tried: Vec<(Made, Option<Differences>)> = drawn
                .into_par_iter()
                .map(|edit| {
                    let differs = shipped.differences(&edit.make(&shipped.texts), &calls);
                    (edit, differs)
                })
                .collect();
            made.extend(
                tried.into_iter().filter_map(|(edit, differs)| Some((edit, differs.filter(|d| !d.is_empty())?))),
            );
        }
        let all = made.iter().fold(shipped.texts.clone(), |texts, (edit, _)| edit.make(&texts));
        let Ok(causes) = Causes::between(shipped.texts.clone(), all.clone(), "edited") else { continue };
        assert_eq!(causes.edits.len(), AT_ONCE, "{:#?}", causes.edits);
        // What one of them does and no other: there the cause is certain.
        let own: Vec<Differences> = made
            .iter()
            .map(|(edit, differs)| {
                let others = made.iter().filter(|(m, _)| m.name != edit.name).flat_map(|(_, d)| d);
                let others: BTreeSet<&(usize, Subject)> = others.collect();
                differs.iter().filter(|d| !others.contains(d)).cloned().collect()
            })
            .collect();
        let edition = shipped.edition.with(all.clone()).unwrap_or_else(|_| panic!("no book"));
        let hear = listener(&edition.book.knowledge);
        let named: Vec<((usize, Subject), Cause)> = shipped
            .calls
            .par_iter()
            .enumerate()
            .flat_map(|(n, call)| {
                let changes = compare(call, &replay(call, &edition.book, &hear));
                let asked: Vec<_> =
                    changes.iter().filter(|c| own.iter().any(|o| o.contains(&(n, c.subject.clone())))).collect();
                let found = causes.of(call, &asked);
                asked.iter().map(|c| (n, c.subject.clone())).zip(found).collect::<Vec<_>>()
            })
            .collect();
        for ((edit, _), own) in made.iter().zip(&own) {
            let mine: Vec<_> = named.iter().filter(|(difference, _)| own.contains(difference)).collect();
            if mine.is_empty() {
                // Another edit of the five hides it: it does nothing here.
                continue;
            }
            let line = edit.line(&shipped.texts, &all);
            for (difference, cause) in mine {
                let Cause::Edits(numbers) = cause else { panic!("{difference:?}: {cause:?} of {edit:#?}") };
                let numbers: Vec<_> = numbers.iter().map(|n| &causes.edits[*n]).collect();
                assert!(
                    numbers
                        .iter()
                        .any(|e| (e.sort.as_str(), &e.name, &e.file, e.line)
                            == (edit.sort, &edit.name, &edit.file, line)),
                    "{difference:?} of\n{edit:#?}\nin line {line}\nis said to come of {numbers:#?}"
                );
                assert!(numbers.len() == 1, "{difference:?} of {edit:#?} is laid to more: {numbers:#?}");
            }
            found += 1;
            *sorts
                .entry(format!("{} {}", edit.sort, if edit.to.is_empty() { "deleted" } else { "changed" }))
                .or_default() += 1;
        }
    }
    println!("{sorts:?}");
}

#[test]
fn edits_are_told_apart_and_taken_back_exactly() {
    let texts = |files: &[(&str, &str)]| files.iter().map(|(p, t)| (p.to_string(), t.to_string())).collect::<Texts>();
    let old = texts(&[
        (
            "rules/a.yaml",
            "about: A.\nrules:\n- rule: one\n  topic: x\n- rule: two\n  topic: y\n# kept\n- rule: three\n  topic: z\n",
        ),
        ("knowledge/b.yaml", "- stock: guppy\n  facts:\n    length: 4 cm\n- stock: tetra\n"),
        (
            "knowledge/vocabulary.yaml",
            "things:\n- thing: tank\n  called: tank\n  attributes:\n  - attribute: water\n    is: volume\n  - attribute: kind\n    is: kind\n",
        ),
    ]);
    let new = texts(&[
        // Moved, laid out anew, with other examples: no edits. One is gone, one is new, one is another.
        (
            "rules/a.yaml",
            "about: Another.\nrules:\n- rule: three\n  # here\n  topic: \"z\"\n  examples: {speaks: [x]}\n- rule: two\n  topic: other\n- rule: four\n  topic: y\n",
        ),
        ("knowledge/b.yaml", "- stock: guppy\n  facts:\n    length: 5 cm\n- stock: tetra\n"),
        (
            "knowledge/vocabulary.yaml",
            "things:\n- thing: tank\n  called: tank\n  attributes:\n  - attribute: water\n    is: volume\n    assume: 5 L\n  - attribute: kind\n    is: kind\n",
        ),
    ]);
    let found = edits(&old, &new);
    let told: Vec<String> = found
        .iter()
        .map(|e| format!("{}:{} {} {} {:?} {} {}", e.file, e.line, e.sort, e.name, e.how, e.from, e.to))
        .collect();
    assert_eq!(
        told,
        [
            "knowledge/b.yaml:3 stock guppy Changed 4 cm 5 cm",
            "knowledge/vocabulary.yaml:7 attribute tank.water Changed is assume",
            "rules/a.yaml:3 rule one Removed  ",
            "rules/a.yaml:8 rule two Changed y other",
            "rules/a.yaml:9 rule four Added  ",
        ]
    );
    for edit in &found {
        let back = taken_back(&new, [edit].into_iter());
        let left: Vec<String> = edits(&old, &back).into_iter().map(|e| e.name).collect();
        let rest: Vec<String> = found.iter().filter(|e| *e != edit).map(|e| e.name.clone()).collect();
        assert_eq!(left, rest, "taking back {}", edit.name);
    }
    assert_eq!(edits(&old, &taken_back(&new, found.iter())), vec![]);
}

//! What a question needs: the rules it asks for, and what keeps them from answering. In: a question, an assessment. Out: one
//! plain line, and the fact to ask back. Computes nothing.

use super::answer::{Answer, Next};
use super::why_not::content_words;
use super::wording::{Wording, entry_called};
use crate::doubt::{Assessment, TankView};
use crate::engine::waiting::{self, Waits};
use crate::knowledge::schema::{AttributeId, ThingId};
use crate::knowledge::table::Table;
use crate::listen::reading::{Form, Reading, Subject};
use crate::rulebook::Book;
use crate::rulebook::template::Piece;
use crate::source::words::{and_list, or_list};

/// How many lacking facts are named: any one of them may do.
const MOST: usize = 3;

/// The rules that a turn asks for: those of its topics, and of these the ones that speak of what it names ("do I need
/// *carbon*?"), if any does; a bare "do I need it" is answered by any rule that speaks of the thing.
pub fn asked_rules(book: &Book, reading: &Reading, topics: &[String]) -> Vec<u16> {
    let all = || 0..book.rules.rules.len() as u16;
    let of_topic: Vec<u16> = all().filter(|n| topics.contains(&book.rules.rules[*n as usize].topic)).collect();
    let named = named(book, reading);
    let of_need = topics.iter().any(|t| YES_OR_NO.contains(&t.as_str()));
    // "What lamp do I need?" is answered by a rule whose sentence names it; "do I need one?" only by one that is about it.
    if of_need && !named.is_empty() && reading.asks.iter().all(|a| a.form != Form::Whether) {
        return all().filter(|n| speaks_of(book, *n, &named)).collect();
    }
    // "Is glass better than foam?": of those that name anything, the ones that name the most.
    let most = of_topic.iter().map(|n| names(book, *n, &named)).max().unwrap_or(0);
    if most > 0 {
        return of_topic.into_iter().filter(|n| names(book, *n, &named) == most).collect();
    }
    match !named.is_empty() && of_need {
        true => {
            let most = all().map(|n| named_for(book, n, &named)).max().unwrap_or(0);
            all().filter(|n| most > 0 && named_for(book, *n, &named) == most).collect()
        }
        // A rule of a thing that was not named is no answer to "do I need it?".
        false if named.is_empty() && topics == ["need"] => Vec::new(),
        false => of_topic,
    }
}

/// The same of the rules that speak: where none of those that name what was asked for does ("2 L of glass: what does the
/// parcel weigh?"), the others of the topic answer. A yes or no to one thing is never answered with another.
pub fn asked_of(book: &Book, reading: &Reading, topics: &[String], speaking: &[u16]) -> Vec<u16> {
    let asked = asked_rules(book, reading, topics);
    if asked.iter().any(|rule| speaking.contains(rule)) {
        return asked;
    }
    if topics.iter().any(|t| YES_OR_NO.contains(&t.as_str())) {
        let named = named(book, reading);
        let about = speaking.iter().copied().filter(|rule| named_for(book, *rule, &named) > 0);
        return asked.into_iter().chain(about).collect();
    }
    let of_topic = |rule: &u16| topics.contains(&book.rules.rules[*rule as usize].topic);
    speaking.iter().copied().filter(of_topic).collect()
}

/// Topics that ask for a yes or no to the thing they name.
const YES_OR_NO: [&str; 3] = ["need", "add", "remove"];

/// The words of everything that a turn's questions name and that narrows what they ask for.
fn named(book: &Book, reading: &Reading) -> Vec<String> {
    reading.asks.iter().flat_map(|a| &a.about).flat_map(|s| named_words(book, s)).collect()
}

/// The words of a medium, of something dosed, or of a device beside the filter; other things do not narrow a question.
fn named_words(book: &Book, subject: &Subject) -> Vec<String> {
    let beside = &book.knowledge.language.beside_filters;
    let kind = subject.kind.as_deref().filter(|k| match subject.thing.as_str() {
        "medium" => *k != "any",
        "filter" => beside.iter().any(|b| b == k),
        _ => false,
    });
    let table = if subject.thing == "medium" { Table::Medium } else { Table::Filter };
    kind.map(|kind| content_words(&format!("{kind} {}", entry_called(book, table, kind)))).unwrap_or_default()
}

/// How many of the named words a rule's name and act are about: a sentence may name them in passing.
fn named_for(book: &Book, rule: u16, named: &[String]) -> usize {
    let rule = &book.rules.rules[rule as usize];
    let act = rule.advice.as_ref().and_then(|a| a.act.as_deref()).unwrap_or("");
    let own = content_words(&format!("{} {act}", rule.name));
    named.iter().filter(|word| own.contains(word)).count()
}

fn speaks_of(book: &Book, rule: u16, named: &[String]) -> bool {
    names(book, rule, named) > 0
}

/// How many of the named words a rule says.
fn names(book: &Book, rule: u16, named: &[String]) -> usize {
    let rule = &book.rules.rules[rule as usize];
    let Some(advice) = &rule.advice else { return 0 };
    let say = advice.say.iter().filter_map(|piece| match piece {
        Piece::Text(text) => Some(text.as_str()),
        _ => None,
    });
    let act = advice.act.as_deref().unwrap_or("");
    let own = content_words(&format!("{} {act} {}", rule.name, say.collect::<String>()));
    named.iter().filter(|word| own.contains(word)).count()
}

/// What could be asked back: whom it is of, the attribute, the question, how it is called.
struct Need {
    subject: Subject,
    attribute: String,
    called: String,
    ask: String,
    measure: Option<String>,
    /// Asked unprompted, too; and how hard it is to find out.
    rank: (bool, u8),
}

impl Need {
    fn next(&self) -> Next {
        Next {
            subject: self.subject.clone(),
            attribute: self.attribute.clone(),
            ask: self.ask.clone(),
            why: vec!["it is what your question hangs on".to_string()],
            measure: self.measure.clone(),
        }
    }
}

/// A fact as something to ask for, if the vocabulary can ask for it.
fn need(book: &Book, view: &TankView, id: AttributeId, instance: u16) -> Option<Need> {
    let entry = book.schema.of(id);
    let thing = &book.schema.thing_of(entry.thing).name;
    let attribute = book.knowledge.vocabulary.attribute(thing, &entry.name)?;
    let found = view.case.facts.instances(entry.thing).get(instance as usize)?;
    Some(Need {
        subject: Subject { tank: view.tank, ..found.subject.clone() },
        attribute: attribute.attribute.clone(),
        called: attribute.called.clone(),
        ask: attribute.ask.clone()?,
        measure: attribute.measure.clone(),
        rank: (attribute.answers.is_empty(), attribute.trouble.unwrap_or(u8::MAX)),
    })
}

/// A thing of which nothing was said, as something to ask for.
fn need_thing(book: &Book, view: &TankView, thing: ThingId) -> Option<Need> {
    let entry = &book.knowledge.vocabulary.things[thing.0 as usize];
    let kind = entry.attribute("kind");
    Some(Need {
        subject: Subject { thing: entry.thing.clone(), number: 1, tank: view.tank, ..Subject::default() },
        attribute: "kind".to_string(),
        called: format!("which {}", entry.called),
        ask: entry.ask.clone().or(kind.and_then(|k| k.ask.clone()))?,
        measure: kind.and_then(|k| k.measure.clone()),
        rank: (false, 1),
    })
}

fn needs_of(book: &Book, view: &TankView, waits: &Waits) -> Vec<Need> {
    let facts = waits.facts.iter().filter_map(|(id, instance)| need(book, view, *id, *instance));
    facts.chain(waits.things.iter().filter_map(|thing| need_thing(book, view, *thing))).collect()
}

/// Says what a figure lacks, and asks for the first of it.
pub fn lacking(wording: &Wording, figure: u16, waits: &Waits, answer: &mut Answer) {
    let mut needs = needs_of(wording.book, wording.view, waits);
    // Of several ways to the same figure the usual one is named.
    if needs.iter().any(|n| !n.rank.0) {
        needs.retain(|n| !n.rank.0);
    }
    let called = &wording.book.rules.figures[figure as usize].called;
    if !ask_back(needs, &format!("To work out {called} I need"), and_list, answer) {
        answer.remarks.push(format!("What was said does not give {called}."));
    }
}

fn ask_back(mut needs: Vec<Need>, lead: &str, list: fn(&[String]) -> String, answer: &mut Answer) -> bool {
    // Several ways may lead to the same: first what is asked unprompted, too, then what is the least trouble.
    needs.sort_by_key(|n| n.rank);
    let mut called: Vec<String> = Vec::new();
    for need in &needs {
        if !called.contains(&need.called) {
            called.push(need.called.clone());
        }
    }
    called.truncate(MOST);
    let Some(first) = needs.first() else { return false };
    answer.remarks.push(format!("{lead}: {}.", list(&called)));
    answer.next = Some(first.next());
    answer.is_open = true;
    true
}

/// Plain lines where there is nothing to advise or nothing that answers a question.
pub fn remarks(book: &Book, assessment: &Assessment, reading: &Reading, topics: &[String], answer: &mut Answer) {
    let answered = answer.advice.iter().any(|a| a.asked) || answer.figures.iter().any(|f| f.asked);
    let general =
        |topic: &String| matches!(topic.as_str(), "first step" | "last" | "list" | "figures" | "conversion" | "");
    // In an emergency what must be done is the answer.
    let asks = !topics.is_empty() && !topics.iter().all(general) && !answer.is_emergency();
    if !answered && asks && answer.remarks.is_empty() {
        let rules = asked_rules(book, reading, topics);
        // "Do I need a lamp?" where no rule speaks of lamps: what rules of other things lack would not answer it.
        let named = named(book, reading);
        let in_vain = !named.is_empty() && !rules.iter().any(|n| speaks_of(book, *n, &named));
        let needs = if in_vain { Vec::new() } else { waiting_for(book, assessment, &rules) };
        if !ask_back(needs, "To answer that I need", or_list, answer) {
            answer.remarks.push(match reading.asks.iter().any(|a| a.form == Form::Whether) {
                true => "No rule of this book speaks for or against that in this tank.".to_string(),
                false => "No rule of this book answers that for this tank.".to_string(),
            });
        }
    }
    let said = assessment.tanks.iter().any(|t| !t.case.facts.things.iter().all(|i| i.iter().all(unsaid)));
    let nothing = answer.advice.is_empty() && answer.remarks.is_empty() && answer.say.is_none();
    if nothing && answer.asked_back.is_empty() {
        answer.remarks.push(match said {
            true => "Nothing to advise yet on what was said.".to_string(),
            false => "Say how large it is, which fish, which filter, and what you see that worries you.".to_string(),
        });
    }
}

fn unsaid(instance: &crate::case::fact::Instance) -> bool {
    !instance.facts.values().any(crate::case::fact::Fact::is_said)
}

/// What these rules wait for and a caller can be asked.
fn waiting_for(book: &Book, assessment: &Assessment, rules: &[u16]) -> Vec<Need> {
    let mut out: Vec<Need> = Vec::new();
    for view in &assessment.tanks {
        for rule in rules.iter().filter(|n| book.rules.rules[**n as usize].advice.is_some()) {
            let waits = waiting::waiting_for(&book.schema, &book.rules, &view.world, &view.state, *rule);
            out.extend(needs_of(book, view, &waits));
        }
    }
    out
}

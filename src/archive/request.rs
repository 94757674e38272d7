//! Requests: lines that speak to the program, not about a tank ("why", "known", "units litres"). In: a line, a book. Out: a
//! request, or nothing: then the line is listened to. Knows no call.

use super::folder::is_path;
use crate::knowledge::index::{Hit, normal};
use crate::knowledge::table::Table;
use crate::reply::own_units::Choice;
use crate::rulebook::Book;

/// What is wanted.
#[derive(Clone, Debug, PartialEq)]
pub enum Request {
    Help,
    Known,
    /// The n-th advice shown, from 0.
    Why(usize),
    WhyRule(u16),
    WhyNot(String),
    WhyAsk,
    /// How the last line was read, word by word.
    HowRead,
    HowSure,
    SaysWho,
    More,
    Again,
    Brief,
    Full,
    /// Which units are in use.
    Units,
    /// Units for the whole call; `None`: as said.
    UseUnits(Option<Choice>),
    Lead(bool),
    Jobs,
    Walk(String),
    Next,
    Back,
    Stop,
    Undo,
    Restart,
    NewCall,
    Calls,
    TakeUp(usize),
    Explain(String),
    /// Save the call under a name; empty: under the one it has.
    Save(String),
    /// List the saved calls that hold these words; empty: all.
    Saved(String),
    /// Go on with a saved call.
    Open(String),
    Leave,
}

/// Lines that are a request as they stand, in normal form.
const WHOLE: &[(&[&str], Request)] = &[
    (&["help", "commands", "requests", "what can i type", "how do i use this"], Request::Help),
    (&["known", "facts", "what is known", "what do you know", "what do you know so far", "so far"], Request::Known),
    (&["why", "why is that", "why that", "how come", "explain", "because", "reason", "reasons"], Request::Why(0)),
    (&["why do you ask", "why do you ask that", "why ask", "why the question", "what for"], Request::WhyAsk),
    (
        &["listen", "how did you read that", "how was that read", "how did you hear that", "what did you hear"],
        Request::HowRead,
    ),
    (&["how sure", "how sure are you", "how certain", "are you sure", "is that certain", "sure"], Request::HowSure),
    (&["says who", "who says", "who says so", "where is that from", "wheres that from", "sources"], Request::SaysWho),
    (&["more", "the rest", "show more", "tell me more"], Request::More),
    (&["again", "repeat", "say again", "say that again", "same again"], Request::Again),
    (&["brief", "short", "shorter"], Request::Brief),
    (&["full", "long", "longer", "in full"], Request::Full),
    (&["units", "which units"], Request::Units),
    (
        &["lead me", "led", "guide me", "ask me", "one question at a time", "step me through", "i am a beginner"],
        Request::Lead(true),
    ),
    (&["just answer", "enough", "dont lead me", "stop asking", "the plan"], Request::Lead(false)),
    (&["jobs", "list jobs", "what jobs"], Request::Jobs),
    (&["next", "next step", "done", "ok next"], Request::Next),
    (&["back", "previous", "step back", "go back"], Request::Back),
    (&["stop"], Request::Stop),
    (&["undo", "undo that", "take that back", "scratch that"], Request::Undo),
    (&["start again", "start over", "restart", "forget all", "reset"], Request::Restart),
    (
        &["new call", "next caller", "next call", "another call", "put aside", "put this aside", "hold"],
        Request::NewCall,
    ),
    (&["calls", "list calls", "which calls"], Request::Calls),
    (&["bye", "quit", "exit", "leave", "goodbye", "q"], Request::Leave),
];

/// What a request makes of the words behind its beginning.
type Behind = fn(&str) -> Option<Request>;

/// Beginnings of requests that take something behind them.
const LEADING: &[(&[&str], Behind)] = &[
    (&["why not", "why no", "why didnt you say", "why dont you say"], |rest| Some(Request::WhyNot(rest.to_string()))),
    (&["why"], |rest| number(rest).map(Request::Why)),
    (&["units", "in", "answer in", "show in", "use"], |rest| match rest {
        "as said" | "my own" | "mine" => Some(Request::UseUnits(None)),
        word => Choice::by_word(word).map(|choice| Request::UseUnits(Some(choice))),
    }),
    (&["call", "take up call", "take up", "back to call"], |rest| number(rest).map(Request::TakeUp)),
    (
        &[
            "walk me through",
            "talk me through",
            "take me through",
            "step by step",
            "guide me through",
            "show me how to",
        ],
        |rest| Some(Request::Walk(rest.to_string())),
    ),
    (
        &["what does", "whats", "what is", "what is a", "what is an", "whats a", "whats an", "define", "meaning of"],
        |rest| rest.ends_with(" mean").then(|| Request::Explain(rest.trim_end_matches(" mean").to_string())),
    ),
    (&["explain"], |rest| Some(Request::Explain(rest.to_string()))),
];

/// The request a line makes, if it makes one.
pub fn read(line: &str, book: &Book) -> Option<Request> {
    let trimmed = line.trim();
    if let Some(request) = errand(trimmed) {
        return Some(request);
    }
    if trimmed == "?" {
        return Some(Request::Help);
    }
    let plain = normal(trimmed.trim_end_matches(['?', '!', '.']));
    if let Some((_, request)) = WHOLE.iter().find(|(lines, _)| lines.contains(&plain.as_str())) {
        return Some(request.clone());
    }
    if let Some(rest) = strip_word(trimmed.trim_end_matches('?'), "why")
        && let Some((rule, _)) = book.rules.rule(rest.trim())
    {
        return Some(Request::WhyRule(rule));
    }
    if let Some(word) = named_alone(&plain, book) {
        return Some(Request::Explain(word));
    }
    for (beginnings, request) in LEADING {
        let rest = beginnings.iter().filter_map(|b| strip_word(&plain, b)).min_by_key(|rest| rest.len());
        if let Some(found) = rest.and_then(request) {
            return Some(found);
        }
    }
    None
}

/// "What is ppi?": a word that the book explains, and nothing else.
fn named_alone(plain: &str, book: &Book) -> Option<String> {
    let rest = ["what is", "what are", "whats"].iter().find_map(|front| strip_word(plain, front))?;
    let rest = ["a", "an", "the"].iter().find_map(|article| strip_word(rest, article)).unwrap_or(rest);
    let is_explained = |hit: &Hit| matches!(hit.table, Table::Term | Table::Medium | Table::Filter);
    book.knowledge.words.find(rest).iter().any(is_explained).then(|| rest.to_string())
}

/// What stands behind a word or words at the front.
fn strip_word<'l>(line: &'l str, word: &str) -> Option<&'l str> {
    let rest = line.get(..word.len()).filter(|front| front.eq_ignore_ascii_case(word)).map(|_| &line[word.len()..])?;
    let rest = rest.strip_prefix(' ')?.trim();
    (!rest.is_empty()).then_some(rest)
}

/// Requests about saved calls keep their words as typed: they may be a path.
fn errand(line: &str) -> Option<Request> {
    if line.contains('\n') {
        return None;
    }
    let plain = normal(line.trim_end_matches(['?', '!', '.']));
    match plain.as_str() {
        "save" | "save it" | "save this" | "save call" | "save the call" | "save this call" => {
            return Some(Request::Save(String::new()));
        }
        "saved" | "saved calls" | "list saved calls" | "list saved" | "which calls are saved" | "show saved calls" => {
            return Some(Request::Saved(String::new()));
        }
        _ => {}
    }
    let behind = |words: &[&str]| words.iter().find_map(|w| strip_word(line, w)).map(str::to_string);
    if let Some(name) = behind(&["save call as", "save this call as", "save it as", "save as", "save call"]) {
        return Some(Request::Save(name));
    }
    if let Some(name) = strip_word(line, "save").filter(|name| is_name(name)) {
        return Some(Request::Save(name.to_string()));
    }
    let find = ["find calls with", "find calls about", "find calls", "find call", "find saved calls", "find saved"];
    if let Some(words) = behind(&find).or_else(|| behind(&["saved calls with", "saved calls about", "saved calls"])) {
        return Some(Request::Saved(words));
    }
    if let Some(name) = behind(&["open saved call", "open the call", "open call", "open saved"]) {
        return Some(Request::Open(name));
    }
    strip_word(line, "open")
        .filter(|n| is_path(n) || (!n.contains(' ') && n.contains('-')))
        .map(|name| Request::Open(name.to_string()))
}

/// "save mrs hall" names a call; "save the fish, 40 gallon" and "save my shrimp" are callers' lines.
fn is_name(text: &str) -> bool {
    const SPOKEN: [&str; 18] = [
        "it", "me", "us", "them", "him", "her", "my", "the", "this", "these", "that", "those", "his", "their", "our",
        "some", "all", "a",
    ];
    let first = normal(text.split_whitespace().next().unwrap_or(""));
    if is_path(text) {
        return !text.ends_with('.');
    }
    let plain = !text.contains([',', ';', ':', '?', '!', '.', '\\']);
    plain && text.split_whitespace().count() <= 4 && !SPOKEN.contains(&first.as_str())
}

/// "2", "number 2", "the second one": counted from 0.
fn number(text: &str) -> Option<usize> {
    const ORDINALS: [&str; 9] = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"];
    let word = text.trim_start_matches("the ").trim_start_matches("number ").trim_end_matches(" one");
    let counted = ORDINALS.iter().position(|o| *o == word);
    counted.or_else(|| word.parse::<usize>().ok().and_then(|n| n.checked_sub(1)))
}

/// Words behind which everything is supposed; with `true` the last question goes on with it.
const SUPPOSING: &[(&str, bool)] = &[
    ("what if i had", false),
    ("what if it was", false),
    ("what if it were", false),
    ("what if there are", false),
    ("what if", false),
    ("suppose", false),
    ("and if", false),
    ("and for", true),
    ("and with", true),
    ("same for", true),
];

/// Where in a line that supposes something the supposed words begin, and whether the last question is meant.
pub fn supposition(line: &str) -> Option<(usize, bool)> {
    let start = line.len() - line.trim_start().len();
    SUPPOSING.iter().find_map(|(words, goes_on)| {
        let rest = strip_word(line.trim_start(), words)?;
        line[start..].find(rest).map(|at| (start + at, *goes_on))
    })
}

//! What a caller was told: advice and figures of each turn, as lines that a person reads and git merges. In: answers. Out:
//! those lines, and back. Knows no book and no file.

use crate::reply::Answer;
use crate::reply::amounts::TIED;
use crate::rulebook::raw::Urgency;
use std::collections::BTreeSet;

/// The advice and the figures of one turn, in a fixed order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Told {
    pub advice: BTreeSet<ToldAdvice>,
    pub figures: BTreeSet<ToldFigure>,
}

/// One piece of advice as it was told.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ToldAdvice {
    pub urgency: Urgency,
    pub rule: String,
    /// Which of several things it is for.
    pub about: Option<String>,
    pub say: String,
    pub steps: Vec<String>,
    pub because: String,
    pub cautions: Vec<String>,
}

/// One figure as it was told: "bare speed", "about 21 in/s (12 to 26)".
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ToldFigure {
    pub called: String,
    pub result: String,
}

/// One line, without the blanks that only keep a line together.
fn line(text: &str) -> String {
    text.replace(TIED, " ").split_whitespace().collect::<Vec<_>>().join(" ")
}

fn lines(texts: &[String]) -> Vec<String> {
    texts.iter().map(|t| line(t)).filter(|t| !t.is_empty()).collect()
}

impl Told {
    /// What an answer tells.
    pub fn of(answer: &Answer) -> Self {
        let advice = answer.advice.iter().map(|a| ToldAdvice {
            urgency: a.urgency,
            rule: a.rule.clone(),
            about: a.about.as_deref().map(line).filter(|a| !a.is_empty()),
            say: line(&a.say),
            steps: lines(&a.steps),
            because: line(&a.because),
            cautions: a.cautions.iter().map(|c| c.caution.clone()).collect(),
        });
        let figures = answer.figures.iter().map(|f| ToldFigure { called: line(&f.called), result: line(&f.result) });
        Self { advice: advice.collect(), figures: figures.collect() }
    }
}

/// The lines of several turns: each piece once, with the turns in which it held.
pub fn write(turns: &[&Told]) -> String {
    let mut out = String::new();
    let all = |n: usize| turns.get(n).map(|t| t.advice.iter()).into_iter().flatten();
    for (piece, numbers) in once(turns.len(), all) {
        out.push_str(&format!("advice {} {}: {}", ranges(&numbers), piece.urgency.word(), piece.rule));
        if let Some(about) = &piece.about {
            out.push_str(&format!(" [{about}]"));
        }
        out.push('\n');
        let mut field = |key: &str, text: &str| {
            if !text.is_empty() {
                out.push_str(&format!("  {key}: {text}\n"));
            }
        };
        field("say", &piece.say);
        piece.steps.iter().for_each(|step| field("do", step));
        field("because", &piece.because);
        piece.cautions.iter().for_each(|caution| field("caution", caution));
    }
    let all = |n: usize| turns.get(n).map(|t| t.figures.iter()).into_iter().flatten();
    for (figure, numbers) in once(turns.len(), all) {
        out.push_str(&format!("figure {}: {} = {}\n", ranges(&numbers), figure.called, figure.result));
    }
    out
}

/// Each of the items of all turns once, in the order of their first turns, with the numbers of its turns from 1.
fn once<'t, T: Ord + 't, I: Iterator<Item = &'t T>>(turns: usize, of: impl Fn(usize) -> I) -> Vec<(&'t T, Vec<usize>)> {
    let mut out: Vec<(&T, Vec<usize>)> = Vec::new();
    for n in 0..turns {
        for item in of(n) {
            match out.iter_mut().find(|(known, _)| *known == item) {
                Some((_, numbers)) => numbers.push(n + 1),
                None => out.push((item, vec![n + 1])),
            }
        }
    }
    out
}

/// "1, 3-5".
fn ranges(numbers: &[usize]) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for n in numbers {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == *n => *last = *n,
            _ => runs.push((*n, *n)),
        }
    }
    let run =
        |(first, last): (usize, usize)| if first == last { format!("{first}") } else { format!("{first}-{last}") };
    runs.into_iter().map(run).collect::<Vec<_>>().join(",")
}

fn read_ranges(text: &str, turns: usize) -> Option<Vec<usize>> {
    let mut out = Vec::new();
    for run in text.split(',') {
        let (first, last) = run.split_once('-').unwrap_or((run, run));
        let (first, last): (usize, usize) = (first.parse().ok()?, last.parse().ok()?);
        if first == 0 || first > last || last > turns {
            return None;
        }
        out.extend(first..=last);
    }
    Some(out)
}

/// Reads the lines of `turns` turns; `Err` gives the index of the line that is not of this form.
pub fn read(lines: &[&str], turns: usize) -> Result<Vec<Told>, usize> {
    let mut out = vec![Told::default(); turns];
    let mut open: Option<(Vec<usize>, ToldAdvice)> = None;
    let close = |open: &mut Option<(Vec<usize>, ToldAdvice)>, out: &mut Vec<Told>| {
        if let Some((numbers, piece)) = open.take() {
            for n in numbers {
                out[n - 1].advice.insert(piece.clone());
            }
        }
    };
    for (at, line) in lines.iter().enumerate() {
        if line.trim().is_empty() {
            continue;
        }
        if let Some((key, text)) = line.strip_prefix("  ").and_then(|rest| rest.split_once(": ")) {
            let (_, piece) = open.as_mut().ok_or(at)?;
            match key {
                "say" => piece.say = text.to_string(),
                "do" => piece.steps.push(text.to_string()),
                "because" => piece.because = text.to_string(),
                "caution" => piece.cautions.push(text.to_string()),
                _ => return Err(at),
            }
            continue;
        }
        close(&mut open, &mut out);
        if let Some(rest) = line.strip_prefix("advice ") {
            open = Some(read_advice(rest, turns).ok_or(at)?);
        } else if let Some(rest) = line.strip_prefix("figure ") {
            let (numbers, rest) = rest.split_once(": ").ok_or(at)?;
            let (called, result) = rest.split_once(" = ").ok_or(at)?;
            let figure = ToldFigure { called: called.to_string(), result: result.to_string() };
            let numbers = read_ranges(numbers, turns).ok_or(at)?;
            for n in numbers {
                out[n - 1].figures.insert(figure.clone());
            }
        } else {
            return Err(at);
        }
    }
    close(&mut open, &mut out);
    Ok(out)
}

/// "1-2 today: fry-with-open-intake [filter 2]".
fn read_advice(text: &str, turns: usize) -> Option<(Vec<usize>, ToldAdvice)> {
    let (numbers, rest) = text.split_once(' ')?;
    let (urgency, rest) = rest.split_once(": ")?;
    let urgency = Urgency::ALL.into_iter().find(|u| u.word() == urgency)?;
    let (rule, about) = match rest.split_once(" [") {
        Some((rule, about)) => (rule, Some(about.strip_suffix(']')?.to_string())),
        None => (rest, None),
    };
    let rule = rule.to_string();
    let (say, because) = (String::new(), String::new());
    let piece = ToldAdvice { urgency, rule, about, say, steps: vec![], because, cautions: vec![] };
    Some((read_ranges(numbers, turns)?, piece))
}

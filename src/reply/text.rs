//! The answer in rows: brief for the first screen, full for everything. In: an `Answer`. Out: a page. Computes nothing.

use super::answer::{Advice, Answer};
use super::compose::{labelled, merged};
use super::page::{Page, Paragraph, Row, Tone};
use super::why_not::content_words;
use crate::knowledge::advice::Danger;
use crate::rulebook::raw::Urgency;
use crate::source::words::{and_list, capital};

/// Brief or full.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Length {
    #[default]
    Brief,
    Full,
}

/// Which parts of an answer are shown.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Part {
    /// How many pieces of advice, and of how many of them the steps.
    pub advice: usize,
    pub with_steps: usize,
    /// Of how many the reason.
    pub reasons: usize,
    pub figures: usize,
    /// Something is left out: how it is had.
    pub more: Option<&'static str>,
    /// Cautions that are not for people; those for people are always shown.
    pub cautions: bool,
    /// The small print that explains how sure and on what ground.
    pub grounds: bool,
}

impl Part {
    pub fn all(answer: &Answer) -> Self {
        let advice = answer.advice.len();
        Self {
            advice,
            with_steps: advice,
            reasons: advice,
            figures: answer.figures.len(),
            more: None,
            cautions: true,
            grounds: true,
        }
    }
}

/// The word of an urgency as a label.
pub fn urgency_label(urgency: Urgency) -> &'static str {
    match urgency {
        Urgency::Danger => "Danger",
        Urgency::Now => "Now",
        Urgency::Today => "Today",
        Urgency::ThisWeek => "This week",
        Urgency::InTime => "In time",
        Urgency::GoodToKnow => "To know",
    }
}

fn tone(urgency: Urgency) -> Tone {
    match urgency {
        Urgency::Danger | Urgency::Now => Tone::Danger,
        Urgency::Today => Tone::Soon,
        _ => Tone::Plain,
    }
}

/// The rows of the chosen parts.
pub fn rows(answer: &Answer, part: &Part) -> Page {
    let mut page = Page::default();
    if let Some(say) = &answer.say {
        page.push(Row::new("Say", Tone::Say, say.clone()));
    }
    if !answer.tanks.is_empty() {
        page.push(Row::new("Tanks", Tone::Quiet, format!("{}.", answer.tanks.join(", "))));
    }
    for remark in &answer.remarks {
        page.push(Row::new("", Tone::Plain, remark.clone()));
    }
    steps(answer, part, &mut page);
    reasons(answer, part, &mut page);
    let figures = answer.figures.iter().take(part.figures).map(|f| Paragraph::led("- ", f.text())).collect();
    page.push(Row::list("Figures", Tone::Plain, figures));
    if part.grounds {
        for picture in &answer.pictures {
            let text = super::curve::text(&picture.title, &picture.course, picture.unit, picture.time, 68);
            let fixed = Paragraph { text, fixed: true, ..Paragraph::default() };
            page.push(Row::list("Picture", Tone::Plain, vec![fixed]));
        }
    }
    small_print(answer, part, &mut page);
    page
}

/// Advice by urgency: the first piece's sentence is already said, so only its steps follow.
fn steps(answer: &Answer, part: &Part, page: &mut Page) {
    let mut number = 0;
    let mut row: Option<(Urgency, Row)> = None;
    for (n, advice) in answer.advice.iter().take(part.advice).enumerate() {
        if row.as_ref().is_none_or(|(u, _)| *u != advice.urgency) {
            if let Some((_, row)) = row.take() {
                page.push(row);
            }
            row = Some((advice.urgency, Row::list(urgency_label(advice.urgency), tone(advice.urgency), vec![])));
        }
        let Some((_, row)) = &mut row else { continue };
        let with_steps = n < part.with_steps;
        let sentence = labelled(advice);
        let said = answer.say.as_ref() == Some(&sentence);
        if !said {
            row.paragraphs.push(Paragraph::led("-  ", sentence));
        }
        if with_steps {
            let people = advice.cautions.iter().filter(|c| c.danger == Danger::People);
            for caution in people.filter(|c| part.grounds || !is_told(&c.says, advice)) {
                row.paragraphs.push(Paragraph::led("!  ", caution.says.clone()));
            }
            for step in &advice.steps {
                number += 1;
                row.paragraphs.push(Paragraph::led(format!("{number:<2} "), step.clone()));
            }
            for caution in advice.cautions.iter().filter(|c| part.cautions && c.danger != Danger::People) {
                row.paragraphs.push(Paragraph::led("!  ", caution.says.clone()));
            }
        }
        if let Some(line) = doubtful(advice) {
            row.paragraphs.push(Paragraph::led("?  ", line));
        }
    }
    if let Some((_, row)) = row {
        page.push(row);
    }
}

/// A caution whose words stand in the sentence or the steps already need not take the first screen as well.
fn is_told(caution: &str, advice: &Advice) -> bool {
    let told = content_words(&format!("{} {}", advice.say, advice.steps.join(" ")));
    let words = content_words(caution);
    let known = words.iter().filter(|w| told.contains(w)).count();
    !words.is_empty() && known * 10 >= words.len() * 7
}

/// The first sentence of a reason, or its first half where that stands by itself.
fn short(because: &str) -> String {
    let end = because.find(". ").map_or(because.len(), |n| n + 1);
    let sentence = &because[..end];
    match sentence.find("; ") {
        Some(half) if sentence.len() > SHORT => format!("{}.", &sentence[..half]),
        _ => sentence.to_string(),
    }
}

/// Letters of a reason that is short enough for the first screen.
const SHORT: usize = 110;

/// On what advice hangs that is less than sure, and how to settle it.
pub fn doubtful(advice: &Advice) -> Option<String> {
    let hangs = advice.hangs_on.as_ref()?;
    let measure = hangs.measure.as_ref().map(|m| format!(" {m}")).unwrap_or_default();
    Some(format!("This hangs on the {}.{measure}", hangs.called))
}

fn reasons(answer: &Answer, part: &Part, page: &mut Page) {
    let shown = answer.advice.iter().take(part.advice);
    // The piece that was said comes first, whatever stands before it by urgency.
    let said = |a: &&Advice| answer.say.as_ref() == Some(&labelled(a));
    let mut order: Vec<&Advice> = shown.clone().filter(said).collect();
    order.extend(shown.filter(|a| !said(a)));
    let paragraphs = order.into_iter().take(part.reasons).map(|advice| {
        Paragraph::new(match part.grounds {
            true => format!("{} ({}; {})", advice.because, advice.rule, and_list(&advice.basis)),
            false => short(&advice.because),
        })
    });
    page.push(Row::list("Why", Tone::Plain, paragraphs.collect()));
}

fn small_print(answer: &Answer, part: &Part, page: &mut Page) {
    let shown: Vec<&str> =
        answer.advice.iter().take(part.advice).flat_map(|a| &a.figures).map(String::as_str).collect();
    let figures =
        answer.figures.iter().take(part.figures).filter(|f| part.grounds || shown.contains(&f.figure.as_str()));
    let lists = answer.advice.iter().take(part.advice).map(|a| &a.assumed).chain(figures.map(|f| &f.assumed));
    let assumed = [answer.read_as.clone(), merged(lists)].concat();
    if !assumed.is_empty() {
        page.push(Row::new("Assumed", Tone::Quiet, format!("{}.", capital(&assumed.join("; ")))));
    }
    page.push(Row::new("Set aside", Tone::Quiet, answer.aside.join(", ")));
    page.push(Row::new("Not understood", Tone::Quiet, answer.unread.join(", ")));
    let back = |list: &[String]| list.iter().map(|l| Paragraph::new(l.clone())).collect::<Vec<_>>();
    page.push(Row::list("Not used yet", Tone::Ask, back(&answer.asked_back)));
    page.push(Row::list("Two values", Tone::Ask, back(&answer.contradictions)));
    if let Some(next) = &answer.next {
        page.push(Row::new("Ask", Tone::Ask, next.ask.clone()));
    } else if let Some(taken) = &answer.taken {
        page.push(Row::new("Ask", Tone::Ask, taken.clone()));
    }
    if let Some(rest) = part.more {
        page.push(Row::new("More", Tone::Quiet, rest));
    }
}

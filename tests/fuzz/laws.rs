//! What holds for every reading, whatever was said. In: a reading. Out: the law that is broken. Knows no expected reading.

use weirline::listen::reading::{Became, Reading, Said, Says};

/// Every word is accounted for once and in order; what is unread is listed; figures are numbers.
pub fn kept(reading: &Reading) -> Result<(), String> {
    let text = &reading.text;
    let mut end = 0;
    for word in &reading.words {
        let (start, stop) = (word.span.start, word.span.end);
        if start < end || stop < start || text.get(start..stop).is_none() {
            return Err(format!("a word lies at {start}..{stop} behind {end}"));
        }
        end = stop;
        let there = match word.became {
            Became::Statement(n) => n < reading.statements.len(),
            Became::Ask(n) => n < reading.asks.len(),
            Became::Act(n) => n < reading.acts.len(),
            Became::AskedBack(n) => n < reading.back.len(),
            Became::Noise => true,
            Became::Aside(n) => reading.aside.get(n).is_some_and(|(a, _)| a.start <= start && a.end >= stop),
            Became::Unread => reading.unread.iter().any(|u| u.start <= start && u.end >= stop),
        };
        if !there {
            return Err(format!("the word at {start}..{stop} became {:?}, which is not there", word.became));
        }
    }
    // Letters and digits are words: none may be passed over.
    let mut covered = vec![false; text.len()];
    reading.words.iter().for_each(|w| covered[w.span.start..w.span.end].fill(true));
    if let Some((at, lost)) = text.char_indices().find(|(at, c)| c.is_ascii_alphanumeric() && !covered[*at]) {
        return Err(format!("{lost:?} at {at} is in no word"));
    }
    for statement in &reading.statements {
        if let Says::Value { value: Said::Amount(a) | Said::Time { amount: a, .. }, attribute, .. } = &statement.says {
            let all = [a.low, a.likely, a.high];
            if all.iter().flatten().any(|v| !v.is_finite()) {
                return Err(format!("{attribute} is {a:?}"));
            }
            if let (Some(low), Some(high)) = (a.low, a.high)
                && low > high
            {
                return Err(format!("{attribute} runs backwards: {a:?}"));
            }
        }
    }
    Ok(())
}

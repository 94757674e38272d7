//! Numbers of a caller's line, moved until a rule changes its mind. In: a line, one of its numbers, something that tells
//! whether the rule speaks. Out: lines on either side of the place where it does. Knows no rule.

use crate::source::Span;

/// A line with one number that can be another.
#[derive(Clone, Debug)]
pub struct Movable {
    before: String,
    after: String,
    pub value: f64,
    /// Only whole numbers make sense: fish are not halved.
    pub whole: bool,
}

/// The number is tried at these multiples of itself first.
const MULTIPLES: [f64; 17] =
    [0.02, 0.05, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9, 1.0, 1.1, 1.25, 1.5, 2.0, 3.5, 7.0, 20.0];
/// A number that is nought has no multiples.
const FROM_NOUGHT: [f64; 11] = [0.0, 0.02, 0.1, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 30.0, 100.0];
/// How often a stretch between two numbers is halved.
const HALVINGS: usize = 9;
/// Spans of time with how many of a shorter one go into them.
const TIMES: [(&str, f64, &str); 6] = [
    ("year", 12.0, "month"),
    ("month", 30.0, "day"),
    ("week", 7.0, "day"),
    ("day", 24.0, "hour"),
    ("hour", 60.0, "minute"),
    ("minute", 1.0, ""),
];
/// Spans of time that are said without a figure, and with one.
const WITHOUT_FIGURES: [(&str, &str); 14] = [
    ("half an hour", "30 minutes"),
    ("an hour", "1 hour"),
    ("yesterday", "1 day ago"),
    ("monthly", "every 30 days"),
    ("weekly", "every 7 days"),
    ("daily", "every 1 day"),
    ("every month", "every 30 days"),
    ("every week", "every 7 days"),
    ("every day", "every 1 day"),
    ("last week", "7 days ago"),
    ("one", "1"),
    ("two", "2"),
    ("three", "3"),
    ("five", "5"),
];
/// Digits a number that is read out may have.
const MOST_DIGITS: i32 = 3;

impl Movable {
    pub fn new(line: &str, span: Span, whole: bool) -> Option<Self> {
        let value = span.of(line).parse().ok()?;
        Some(Self { before: line[..span.start].into(), after: line[span.end..].into(), value, whole })
    }

    /// A line with a clause more: what is said, a number, its unit.
    pub fn added(line: &str, words: &str, value: f64, unit: &str) -> Self {
        Self { before: format!("{line}, {words} "), after: unit.into(), value, whole: false }
    }

    pub fn line(&self, value: f64) -> String {
        let after = self.after.trim_start();
        let word = after.split(|c: char| !c.is_alphabetic()).next().unwrap_or("");
        let is_time = |time: &&(&str, f64, &str)| word.strip_suffix('s').unwrap_or(word) == time.0;
        if let Some((long, ..)) = TIMES.iter().find(is_time) {
            return format!("{}{}{}", self.before, span_of_time(value, long), &after[word.len()..]);
        }
        format!("{}{}{}", self.before, spoken(value), self.after)
    }

    /// Values to try first, rising.
    pub fn ladder(&self) -> Vec<f64> {
        let mut out: Vec<f64> = match self.value == 0.0 {
            true => FROM_NOUGHT.to_vec(),
            false => MULTIPLES.iter().map(|m| self.value * m).collect(),
        };
        if self.whole || self.value.fract() == 0.0 && self.value > 0.0 && self.value <= 3.0 {
            out.extend([self.value + 1.0, self.value + 2.0, (self.value - 1.0).max(1.0)]);
        }
        for value in &mut out {
            *value = if self.whole { value.round().max(1.0) } else { with_digits(*value, MOST_DIGITS, f64::round) };
        }
        out.sort_unstable_by(f64::total_cmp);
        out.dedup();
        out
    }

    /// Two values close beside the place between `low` and `high` where the answer changes, one on either side.
    pub fn close_in(&self, low: f64, high: f64, mut speaks: impl FnMut(&str) -> bool) -> (f64, f64) {
        let (mut low, mut high) = (low, high);
        let at_low = speaks(&self.line(low));
        for _ in 0..HALVINGS {
            // Nobody says a number of more digits, and it might not be understood.
            let mut middle = with_digits((low + high) / 2.0, MOST_DIGITS + 1, f64::round);
            if self.whole {
                middle = middle.round();
            }
            if middle <= low || middle >= high {
                break;
            }
            match speaks(&self.line(middle)) == at_low {
                true => low = middle,
                false => high = middle,
            }
        }
        (low, high)
    }

    /// Rounder numbers at or below (or above) a value, the roundest first.
    pub fn rounder(&self, value: f64, down: bool) -> Vec<f64> {
        let round = if down { f64::floor } else { f64::ceil };
        let mut out: Vec<f64> = (1..=MOST_DIGITS + 1).map(|digits| with_digits(value, digits, round)).collect();
        // Halves and fives read as well as whole tens.
        out.insert(1, with_digits(value * 2.0, 1, round) / 2.0);
        if self.whole {
            out.iter_mut().for_each(|v| *v = round(*v).max(1.0));
        }
        out.dedup();
        out
    }
}

/// A span of time as one says it: "0.3 weeks" is two days.
fn span_of_time(value: f64, unit: &str) -> String {
    let (mut value, mut unit) = (value, unit);
    while let Some((_, many, smaller)) = TIMES.iter().find(|(long, ..)| *long == unit && value > 0.0 && value < 1.0)
        && !smaller.is_empty()
    {
        (value, unit) = (with_digits(value * many, 2, f64::round), smaller);
    }
    let ending = if value == 1.0 { "" } else { "s" };
    format!("{} {unit}{ending}", spoken(value))
}

/// The value with so many digits.
fn with_digits(value: f64, digits: i32, round: fn(f64) -> f64) -> f64 {
    if value == 0.0 {
        return 0.0;
    }
    let scale = 10f64.powi(digits - 1 - value.abs().log10().floor() as i32);
    // What arithmetic adds in the sixteenth digit must not be rounded up to a whole one.
    let scaled = value * scale;
    let near = scaled.round();
    let rounded = if (scaled - near).abs() < 1e-9 { near } else { round(scaled) };
    rounded / scale
}

/// A number as a caller says it.
fn spoken(value: f64) -> String {
    let text = format!("{value:.6}");
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}

/// A line with figures in place of words.
pub fn in_figures(line: &str) -> String {
    let mut out = format!(" {line} ");
    for (words, figures) in WITHOUT_FIGURES {
        for end in [' ', ','] {
            out = out.replace(&format!(" {words}{end}"), &format!(" {figures}{end}"));
        }
    }
    out.trim().to_string()
}

/// The numbers of a line that stand alone: not part of a word, a fraction or a range.
pub fn numbers(line: &str) -> Vec<Span> {
    let bytes = line.as_bytes();
    let mut out = Vec::new();
    let mut at = 0;
    while at < bytes.len() {
        if !bytes[at].is_ascii_digit() {
            at += 1;
            continue;
        }
        let start = at;
        while at < bytes.len()
            && (bytes[at].is_ascii_digit() || bytes[at] == b'.' && bytes.get(at + 1).is_some_and(u8::is_ascii_digit))
        {
            at += 1;
        }
        let joined = |b: Option<&u8>| b.is_some_and(|b| matches!(b, b'/' | b'.' | b':' | b'-'));
        let before = start.checked_sub(1).and_then(|n| bytes.get(n));
        if !joined(before) && !before.is_some_and(u8::is_ascii_alphabetic) && !joined(bytes.get(at)) {
            out.push(Span::new(start, at));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_that_stand_alone_are_found() {
        let line = "55g, 3/4 hose, pH 7.4, no3 40-80, 2 cm";
        let found: Vec<&str> = numbers(line).iter().map(|s| s.of(line)).collect();
        assert_eq!(found, ["55", "7.4", "2"]);
    }

    #[test]
    fn values_close_to_a_limit_are_found_and_rounded() {
        let movable = Movable::new("ammonia 2", Span::new(8, 9), false);
        let speaks = |line: &str| line[8..].parse::<f64>().is_ok_and(|n| n > 1.1);
        let ends = movable.as_ref().map(|m| m.close_in(1.0, 2.0, speaks));
        assert!(ends.is_some_and(|(low, high)| low <= 1.1 && 1.1 < high && high - low < 0.01), "{ends:?}");
        assert_eq!(movable.as_ref().map(|m| m.rounder(1.1234, false)[..3].to_vec()), Some(vec![2.0, 1.5, 1.2]));
        assert_eq!(movable.map(|m| m.line(1.25)).as_deref(), Some("ammonia 1.25"));
    }

    #[test]
    fn spans_of_time_are_said_as_one_says_them() {
        let line = |text, span, value| Movable::new(text, span, false).map(|m| m.line(value));
        let weeks = |value| line("set up 2 weeks ago", Span::new(7, 8), value);
        assert_eq!(weeks(0.29).as_deref(), Some("set up 2 days ago"));
        assert_eq!(weeks(1.5).as_deref(), Some("set up 1.5 weeks ago"));
        assert_eq!(line("1 day ago", Span::new(0, 1), 2.0).as_deref(), Some("2 days ago"));
        assert_eq!(line("2 years old", Span::new(0, 1), 0.05).as_deref(), Some("18 days old"));
        assert_eq!(
            in_figures("power was off half an hour, 80% monthly"),
            "power was off 30 minutes, 80% every 30 days"
        );
    }
}

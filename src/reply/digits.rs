//! Digits: never more than a range bears or than the inputs carry. In: numbers in the unit they are shown in. Out: text.
//! Knows no unit.

/// A number cut to a decimal place, without zeros behind the point that say nothing.
pub fn at(value: f64, decimals: i32) -> String {
    let scale = 10f64.powi(decimals);
    let whole = (value * scale).round();
    if decimals >= 0 && whole.abs() < MOST_WHOLE {
        return pointed(whole as i64, decimals as u32);
    }
    let rounded = whole / scale;
    let text = format!("{:.*}", decimals.max(0) as usize, if rounded == 0.0 { 0.0 } else { rounded });
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').to_string(),
        false => text,
    }
}

/// Up to here numbers without a fraction are exact.
const MOST_WHOLE: f64 = 1e15;

/// A whole number with a point so many places from its end, without zeros behind the point that say nothing.
fn pointed(whole: i64, decimals: u32) -> String {
    let (sign, digits) = (if whole < 0 { "-" } else { "" }, whole.unsigned_abs().to_string());
    let width = decimals as usize + 1;
    let digits = format!("{sign}{digits:0>width$}");
    let (front, behind) = digits.split_at(digits.len() - decimals as usize);
    match behind.trim_end_matches('0') {
        "" => front.to_string(),
        behind => format!("{front}.{behind}"),
    }
}

/// Decimal places that show `value` with so many significant digits; may be negative ("470" of two digits).
pub fn decimals(value: f64, significant: i32) -> i32 {
    if value == 0.0 || !value.is_finite() {
        return 0;
    }
    significant - 1 - value.abs().log10().floor() as i32
}

/// A number with so many significant digits.
pub fn significant(value: f64, digits: i32) -> String {
    // 99.6 of two digits is 100: the place is that of the rounded value.
    let first = decimals(value, digits);
    let scale = 10f64.powi(first);
    at(value, first.min(decimals((value * scale).round() / scale, digits)))
}

/// A likely value and the ends of its range, as text.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    pub likely: String,
    /// `None` where the range is too narrow to be seen at these digits.
    pub ends: Option<(String, String)>,
}

/// Shows a value with its range. A range wider than a twelfth of the value bears two digits, a narrower one three;
/// `most` is how many the inputs carry.
pub fn range(low: f64, likely: f64, high: f64, most: i32) -> Shown {
    let width = (high - low).abs();
    let size = likely.abs().max(f64::MIN_POSITIVE);
    let bears = if width / size > 1.0 / 12.0 { 2 } else { 3 };
    let digits = bears.min(most).max(1);
    let shown = significant(likely, digits);
    let place = decimals(likely, digits);
    // An end is never finer than the value between, except that a small one keeps one digit and does not become zero.
    let end = |value: f64| match value {
        0.0 => "0".to_string(),
        v if decimals(v, 1) > place => at(v, decimals(v, 1)),
        v => at(v, place.min(decimals(v, digits))),
    };
    let (low, high) = (end(low), end(high));
    let ends = (low != shown || high != shown).then_some((low, high));
    Shown { likely: shown, ends }
}

/// How many digits a caller's number carries: "55" two, "0.25" two, "1000" one, "7.40" three; never fewer than two,
/// since round numbers are mostly meant as such.
pub fn carried(value: f64, decimals: u8) -> i32 {
    let text = format!("{:.*}", decimals as usize, value.abs());
    let digits: String = text.chars().filter(char::is_ascii_digit).collect();
    let digits = digits.trim_start_matches('0');
    let digits = if text.contains('.') { digits } else { digits.trim_end_matches('0') };
    (digits.len() as i32).max(2)
}

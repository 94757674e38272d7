//! Reads quantities as tables and rules write them: "55 gal", "0.6 / 0.75 / 0.9", "2 to 4 per hour", "30 %".
//! In: text. Out: an `Amount`, or what is wrong with it. Callers' speech is read elsewhere; this form is strict.

use super::amount::Amount;
use super::unit::{self, Unit};

/// Why a written quantity cannot be read.
#[derive(Clone, PartialEq, Debug)]
pub enum NotAQuantity {
    Number(String),
    CommaDecimal(String),
    Unit(String),
    Order,
}

impl std::fmt::Display for NotAQuantity {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Number(text) => write!(f, "`{text}` is not a number"),
            Self::CommaDecimal(text) => write!(f, "`{text}` has a comma; write `{}`", text.replace(',', ".")),
            Self::Unit(text) => write!(f, "nothing is measured in `{text}`"),
            Self::Order => write!(f, "the numbers must rise: low, likely, high"),
        }
    }
}

/// "55 gal" (exact), "2 to 4 per hour" (a range), "0.6 / 0.75 / 0.9 L" (low, likely, high).
pub fn quantity(text: &str) -> Result<Amount, NotAQuantity> {
    let text = text.trim();
    // Most are one number: the search for a separator costs more than all the rest.
    let has = |separator: &[u8]| text.as_bytes().windows(separator.len()).any(|w| w == separator);
    let parts: Vec<&str> = if has(b" / ") {
        text.split(" / ").collect()
    } else if has(b" to ") {
        text.split(" to ").collect()
    } else {
        vec![text]
    };
    let (mut written, mut decimals) = (Vec::new(), 0);
    for part in &parts {
        let (number, rest) = split_number(part);
        decimals = decimals.max(number.split('.').nth(1).map_or(0, str::len) as u8);
        written.push((parse_number(number)?, if rest.is_empty() { None } else { Some(by_written(rest)?) }));
    }
    // "1 mm to 3 m": each number in its own unit, all kept in the last one; a number without a unit takes the last.
    let unit = written.last().and_then(|(_, u)| *u).unwrap_or_else(unit::plain);
    let mut numbers = Vec::new();
    for (number, own) in written {
        let own = own.unwrap_or(unit);
        if own.dimension != unit.dimension {
            return Err(NotAQuantity::Unit(text.to_string()));
        }
        numbers.push(if own.name == unit.name { number } else { unit.from_base(own.to_base(number)) });
    }
    if numbers.windows(2).any(|w| w[0] > w[1]) {
        return Err(NotAQuantity::Order);
    }
    let amount = match numbers[..] {
        [one] => Amount::exact(one, unit),
        [low, high] => Amount::range(low, high, unit),
        [low, likely, high] => Amount::spread(low, likely, high, unit),
        _ => return Err(NotAQuantity::Number(text.to_string())),
    };
    Ok(Amount { decimals, ..amount })
}

/// The unit of that written name.
pub fn by_written(text: &str) -> Result<&'static Unit, NotAQuantity> {
    unit::by_name(text.trim()).ok_or_else(|| NotAQuantity::Unit(text.trim().to_string()))
}

/// A plain decimal number: digits, at most one point, a sign, an exponent.
pub fn parse_number(text: &str) -> Result<f64, NotAQuantity> {
    let text = text.trim();
    if text.contains(',') {
        return Err(NotAQuantity::CommaDecimal(text.to_string()));
    }
    match text.parse::<f64>() {
        Ok(value) if value.is_finite() && text.contains(|c: char| c.is_ascii_digit()) => Ok(value),
        _ => Err(NotAQuantity::Number(text.to_string())),
    }
}

fn split_number(text: &str) -> (&str, &str) {
    let text = text.trim();
    let mut end = 0;
    let bytes = text.as_bytes();
    while end < bytes.len() {
        let exponent = matches!(bytes[end], b'e' | b'E')
            && bytes.get(end + 1).is_some_and(|b| {
                b.is_ascii_digit() || (matches!(b, b'-' | b'+') && bytes.get(end + 2).is_some_and(u8::is_ascii_digit))
            });
        if bytes[end].is_ascii_digit()
            || matches!(bytes[end], b'.' | b',')
            || exponent
            || (matches!(bytes[end], b'-' | b'+') && (end == 0 || matches!(bytes[end - 1], b'e' | b'E')))
        {
            end += 1;
        } else {
            break;
        }
    }
    (&text[..end], text[end..].trim())
}

//! Numbers as they are written: decimal points and commas, thousands, exponents. In: the digits of one word.
//! Out: a value, a second one where two are meant by people. Words for numbers are read by `amount.rs`.

/// A number as written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Numeral {
    pub value: f64,
    /// The other thing it may mean: "2.000" is two thousand or two.
    pub other: Option<f64>,
    /// Digits after the point as written.
    pub decimals: u8,
    /// Digits before the point.
    pub digits: u8,
    /// A number of a telephone or an order ("0113"), not a figure; or one that no tank could hold.
    pub is_figure: bool,
    /// Only digits stand in it.
    pub is_whole: bool,
}

impl Numeral {
    pub fn fraction(value: f64) -> Self {
        Self { value, other: None, decimals: 0, digits: 0, is_figure: true, is_whole: false }
    }

    /// Reads digits with `.`, `,` and `e` among them. What cannot be a figure comes back with `is_figure` false.
    pub fn read(literal: &str) -> Self {
        let mut numeral = Self { value: 0.0, other: None, decimals: 0, digits: 0, is_figure: true, is_whole: false };
        if literal.contains(['e', 'E']) {
            numeral.value = literal.replace(',', ".").parse().unwrap_or(f64::INFINITY);
            numeral.is_figure = false;
            return numeral;
        }
        let points = literal.matches('.').count();
        let commas = literal.matches(',').count();
        let last = literal.rfind(['.', ',']);
        let before = last.map_or(literal, |at| &literal[..at]);
        let after = last.map_or("", |at| &literal[at + 1..]);
        let lead: String = before.chars().filter(char::is_ascii_digit).collect();
        numeral.digits = lead.len().min(255) as u8;
        let decimal =
            |tail: &str| format!("{}.{}", if lead.is_empty() { "0" } else { &lead }, tail).parse().unwrap_or(0.0);
        let thousand = || format!("{lead}{after}").parse().unwrap_or(0.0);
        let groups_of_three = literal.split(['.', ',']).skip(1).all(|g| g.len() == 3);
        match (points, commas) {
            (0, 0) => {
                numeral.is_whole = true;
                numeral.value = literal.parse().unwrap_or(f64::INFINITY);
                let leading_zero = literal.len() > 1 && literal.starts_with('0');
                numeral.is_figure = numeral.value.is_finite() && literal.len() <= 15 && !leading_zero;
            }
            // Several marks of one sort, or both sorts: the last is the decimal unless all groups are of three.
            (p, c) if p + c > 1 => {
                if (p == 0 || c == 0) && groups_of_three {
                    numeral.value = thousand();
                } else if p == 0 || c == 0 {
                    numeral.value = thousand();
                    numeral.is_figure = false;
                } else {
                    numeral.value = decimal(after);
                    numeral.decimals = after.len().min(9) as u8;
                }
            }
            // Comma and exactly three digits behind it: thousands, unless a zero leads.
            (0, 1) if after.len() == 3 && !lead.is_empty() && !lead.starts_with('0') => numeral.value = thousand(),
            // Point and exactly three digits: both are in use; the plausible one is taken later.
            (1, 0) if after.len() == 3 && !lead.is_empty() && !lead.starts_with('0') && lead.len() <= 3 => {
                numeral.value = decimal(after);
                numeral.other = Some(thousand());
                numeral.decimals = 3;
            }
            _ => {
                numeral.value = decimal(after);
                numeral.decimals = after.len().min(9) as u8;
            }
        }
        numeral
    }
}

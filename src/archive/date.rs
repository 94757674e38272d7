//! Today as it is written into a call. In: seconds since 1970. Out: "2026-11-25" (UTC). Knows no call.

/// The day of a moment, by the Gregorian calendar. `seconds` since 1970-01-01 00:00 UTC.
///
/// Source: worked out from the lengths of the calendar's cycles (146,097 days in 400 years). Check: 951,782,400 is 2000-02-29.
pub fn day(seconds: u64) -> String {
    // Years begin in March, so that the leap day is a year's last.
    let days = seconds / 86_400 + 719_468;
    let (era, of_era) = (days / 146_097, days % 146_097);
    let year = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year + year / 4 - year / 100);
    let month = (5 * of_year + 2) / 153;
    let day = of_year - (153 * month + 2) / 5 + 1;
    let month = if month < 10 { month + 3 } else { month - 9 };
    format!("{:04}-{month:02}-{day:02}", era * 400 + year + u64::from(month <= 2))
}

/// Today; `None` on a machine whose clock stands before 1970.
pub fn today() -> Option<String> {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).ok()?;
    Some(day(since.as_secs()))
}

#[cfg(test)]
mod tests {
    /// Known days: the epoch, a leap day, the day of 1,000,000,000 seconds (2001-09-09), a century that is no leap year.
    #[test]
    fn known_days() {
        let days = [
            (0, "1970-01-01"),
            (951_782_400, "2000-02-29"),
            (1_000_000_000, "2001-09-09"),
            (4_107_542_400, "2100-03-01"),
            (4_107_542_399, "2100-02-28"),
        ];
        days.iter().for_each(|(seconds, day)| assert_eq!(super::day(*seconds), *day));
    }
}

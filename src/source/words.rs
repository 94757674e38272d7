//! Wording of counts, lists and quoted names. In: words. Out: text that reads well in one sentence. Knows nothing of ours.

/// "1 filter", "2 filters"; an irregular plural is given by the caller.
pub fn counted(n: usize, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}

/// "a", "a and b", "a, b and c".
pub fn and_list<S: AsRef<str>>(items: &[S]) -> String {
    list(items, "and")
}

/// "a", "a or b", "a, b or c".
pub fn or_list<S: AsRef<str>>(items: &[S]) -> String {
    list(items, "or")
}

fn list<S: AsRef<str>>(items: &[S], word: &str) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().to_string(),
        [rest @ .., last] => {
            let rest = rest.iter().map(|s| s.as_ref()).collect::<Vec<_>>().join(", ");
            format!("{rest} {word} {}", last.as_ref())
        }
    }
}

/// A name as it stands in a file: in backticks.
pub fn ticked(name: &str) -> String {
    format!("`{name}`")
}

/// First letter in upper case, the rest as it is.
pub fn capital(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut letters = text.chars();
    out.extend(letters.next().into_iter().flat_map(char::to_uppercase));
    out.push_str(letters.as_str());
    out
}

/// What differs between two texts, each with a word or two of what stands around it; short ones are left whole.
pub fn differing(a: &str, b: &str) -> (String, String) {
    const SHORT: usize = 60;
    const AROUND: usize = 2;
    const MOST: usize = 14;
    let (x, y): (Vec<&str>, Vec<&str>) = (a.split_whitespace().collect(), b.split_whitespace().collect());
    if a.chars().count().max(b.chars().count()) <= SHORT {
        return (x.join(" "), y.join(" "));
    }
    let front = x.iter().zip(&y).take_while(|(a, b)| a == b).count();
    let left = x.len().min(y.len()) - front;
    let back = x.iter().rev().zip(y.iter().rev()).take(left).take_while(|(a, b)| a == b).count();
    let part = |words: &[&str]| {
        let start = front.saturating_sub(AROUND);
        let end = (words.len() - back + AROUND).min(words.len()).min(start + MOST);
        let before = if start > 0 { "..." } else { "" };
        let after = if end < words.len() { "..." } else { "" };
        format!("{before}{}{after}", words[start..end].join(" "))
    };
    (part(&x), part(&y))
}

/// Control characters made visible, so that hostile text cannot move a cursor.
pub fn harmless(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '\n' | '\t' => ' ',
            c if c.is_control()
                || matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}') =>
            {
                '\u{fffd}'
            }
            c => c,
        })
        .collect()
}

//! act-said-two-ways: two rules name what is nearly the same act in different words, so that neither the sameness nor the
//! contradiction of their advice is seen.

use super::Checking;
use crate::source::words::ticked;
use crate::source::{Fault, suggest};
use std::collections::BTreeMap;

pub fn faults(checking: &Checking, out: &mut Vec<Fault>) {
    // Each act as first written, with how often it is used and where it stands first.
    let mut acts: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    for (n, (rule, spot)) in checking.entries.rules.iter().enumerate() {
        let Some(act) = rule.advise.as_ref().and_then(|a| a.act.as_deref()) else { continue };
        if let Some(rest) = ["not ", "do not ", "don't ", "never "].iter().find_map(|w| act.strip_prefix(w)) {
            let place = spot.get("advise").get("act").place();
            let what = format!("{} is not seen as the opposite of {}", ticked(act), ticked(rest));
            out.push(Fault::warning("act-said-two-ways", place, what).cure(format!("\"not: {rest}\"")));
            continue;
        }
        acts.entry(positive(act)).or_insert((0, n)).0 += 1;
    }
    let list: Vec<(&str, usize, usize)> = acts.into_iter().map(|(act, (count, rule))| (act, count, rule)).collect();
    let keys: Vec<Vec<String>> = list.iter().map(|(act, ..)| key(act)).collect();
    for (n, (act, count, rule)) in list.iter().enumerate() {
        // The rarer of two is blamed; of two as rare, the later in the alphabet.
        let same = list.iter().enumerate().find(|(m, (_, often, _))| {
            *m != n && (often > count || (often == count && *m < n)) && alike(&keys[n], &keys[*m])
        });
        let Some((_, (other, _, first))) = same else { continue };
        let spot = |rule: &usize| checking.entries.rules[*rule].1.get("advise").get("act").place();
        let what = format!("{} and {} look like one act in two wordings", ticked(act), ticked(other));
        out.push(
            Fault::warning("act-said-two-ways", spot(rule), what).other(spot(first), "the other wording").cure(*other),
        );
    }
}

/// The act without the word that turns it round.
pub fn positive(act: &str) -> &str {
    act.strip_prefix("not:").map_or(act, str::trim)
}

/// The words that tell one act from another, in the order of the alphabet.
fn key(act: &str) -> Vec<String> {
    let text = act.to_lowercase().replace('-', " ");
    let mut words: Vec<String> = text
        .split_whitespace()
        .filter(|w| !matches!(*w, "the" | "a" | "an" | "your" | "its" | "of" | "in" | "to" | "some"))
        .map(|w| w.trim_end_matches('s').to_string())
        .collect();
    words.sort();
    words
}

/// The same words, or one letter off: another word is another act.
fn alike(a: &[String], b: &[String]) -> bool {
    if a.len() != b.len() {
        return false;
    }
    let mut differing = a.iter().zip(b).filter(|(x, y)| x != y);
    match (differing.next(), differing.next()) {
        (None, _) => true,
        (Some((x, y)), None) => x.len() > 4 && suggest::nearest(x, [y.as_str()]).is_some(),
        _ => false,
    }
}

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
    for (n, (act, count, rule)) in list.iter().enumerate() {
        // The rarer of two is blamed; of two as rare, the later in the alphabet.
        let same = list.iter().enumerate().find(|(m, (other, often, _))| {
            *m != n && alike(act, other) && (often > count || (often == count && *m < n))
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

fn alike(a: &str, b: &str) -> bool {
    let key = |text: &str| {
        let text = text.to_lowercase().replace('-', " ");
        let mut words: Vec<String> = text
            .split_whitespace()
            .filter(|w| !matches!(*w, "the" | "a" | "an" | "your" | "its" | "of" | "in" | "to" | "some"))
            .map(|w| w.trim_end_matches('s').to_string())
            .collect();
        words.sort();
        words.join(" ")
    };
    let (a, b) = (key(a), key(b));
    // One letter off is a slip; another word is another act.
    a == b
        || (a.split(' ').count() == b.split(' ').count()
            && suggest::nearest(&a, [b.as_str()]).is_some()
            && one_word_off(&a, &b))
}

fn one_word_off(a: &str, b: &str) -> bool {
    let differing: Vec<(&str, &str)> = a.split(' ').zip(b.split(' ')).filter(|(x, y)| x != y).collect();
    matches!(differing[..], [(x, y)] if x.len() > 4 && suggest::nearest(x, [y]).is_some())
}

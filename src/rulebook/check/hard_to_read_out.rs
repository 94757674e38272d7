//! hard-to-read-out: a sentence to say that is too long, or holds signs that cannot be spoken.

use super::Checking;
use crate::rulebook::template::Piece;
use crate::source::{Fault, Span};

const MOST_WORDS: usize = 25;
const MOST_FIGURES: usize = 2;
/// Signs that a mouth has no word for in the middle of a sentence.
const SIGNS: &[char] = &['/', '<', '>', '=', '*', '_', '(', ')', '[', ']', '~', '^', '→', '×', '≥', '≤', '±'];

pub fn faults(checking: &Checking, out: &mut Vec<Fault>) {
    for (n, rule) in checking.sound_rules() {
        let (raw, spot) = &checking.entries.rules[n as usize];
        let (Some(advice), Some(written)) = (&rule.advice, &raw.advise) else { continue };
        let spot = spot.get("advise").get("say");
        let mut words = 0;
        let mut figures = 0;
        for piece in &advice.say {
            match piece {
                Piece::Text(text) => {
                    words += text.split_whitespace().filter(|w| w.chars().any(char::is_alphanumeric)).count()
                }
                // A figure and its unit.
                Piece::Figure(_) | Piece::Fact(_) => (words, figures) = (words + 2, figures + 1),
            }
        }
        let text = written.say.trim();
        let outside = text.split('{').flat_map(|part| part.rsplit('}').next()).collect::<String>();
        let sign = outside.chars().find(|c| SIGNS.contains(c));
        let fault = |what: String| Fault::warning("hard-to-read-out", spot.place(), what);
        if words > MOST_WORDS {
            out.push(
                fault(format!("this sentence has {words} words; {MOST_WORDS} can be said in one breath"))
                    .cure("say the first thing to do, and leave the rest to the steps and the reason"),
            );
        } else if figures > MOST_FIGURES {
            out.push(
                fault(format!("this sentence has {figures} figures; nobody remembers more than {MOST_FIGURES}"))
                    .cure("leave the others to the reason"),
            );
        } else if let Some(sign) = sign {
            let at = text.find(sign).unwrap_or(0);
            let place = spot.inside(text, Span::new(at, at + sign.len_utf8()));
            out.push(Fault { place, ..fault(format!("`{sign}` cannot be read out")).cure("say it in words") });
        }
    }
}

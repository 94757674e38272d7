//! Plain replies to what is no question about a tank: help, greetings, empty lines. In: nothing. Out: pages.

use super::own_units::{Choice, OwnUnits};
use super::page::{Page, Paragraph, Row, Tone};

/// A line that shows how to speak to the program.
pub const EXAMPLE: &str = "55 gallon, 30 small tetras, fry present, hang-on filter 400 gph";

/// Three lines to type, then the requests.
pub fn help() -> Page {
    let led = |a: &str, b: &str| Paragraph::led(format!("{a:<26} "), b);
    let mut page = Page::default();
    page.push(Row::list(
        "Type",
        Tone::Say,
        vec![
            Paragraph::new(EXAMPLE),
            Paragraph::new("200 l, 40 guppies, canister 1000 l/h, nitrate 80, ammonia 0.5, ph 8.2"),
            Paragraph::new("no, sorry, 45 gallon"),
        ],
    ));
    page.push(Row::list(
        "Then",
        Tone::Plain,
        vec![
            led("more", "the rest of the answer"),
            led("why / why 2", "the reason, down to your words"),
            led("why not foam", "which condition fails, by how much"),
            led("how sure / says who", "in how many tanks it holds; what it rests on"),
            led("what if 40 tetras", "what would change; also: and for 40?"),
            led("why do you ask", "what your answer would decide"),
            led("listen", "how the last line was read, word by word"),
            led("don't know", "how to find out, or go on without"),
            led("known", "what is known so far"),
            led("undo / start again", "take the last line back; forget all"),
            led("new call / calls / call 1", "put this call aside; take one up again"),
            led("units litres", "also: units us, units imperial, units as said"),
            led("lead me / just answer", "one question at a time; or not"),
            led("walk me through ...", "a job step by step: next, back, stop; jobs lists them"),
            led("what does ppi mean", "a word explained"),
            led("brief / full", "how long answers are"),
            led("save mrs hall", "keep the call under a name"),
            led("saved calls / find call koi", "list them; those that hold a word"),
            led("open call mrs hall", "go on with one"),
            led("bye", "leave"),
        ],
    ));
    page
}

/// What may be asked here.
pub fn scope() -> Page {
    Page::line(format!(
        "Ask about aquarium and pond filters: which media, how much, in which order, what a filter carries, fry, cleaning, readings. Say the tank, the fish, the filter: {EXAMPLE}."
    ))
}

/// Which units are in use, and how to change that.
pub fn units(own: &OwnUnits) -> Page {
    let mut page = Page::default();
    let length = if own.inches { "inches" } else { "centimetres" };
    let mass = if own.pounds { "pounds" } else { "kilograms" };
    let degrees = if own.fahrenheit { "degrees F" } else { "degrees C" };
    let small = match own.small_volume == own.volume {
        true => String::new(),
        false if own.small_volume == Choice::Litres => " (media in litres)".to_string(),
        false => " (media in quarts or pints)".to_string(),
    };
    page.push(Row::new("Units", Tone::Plain, format!("{}{small}, {length}, {mass}, {degrees}.", own.volume.word())));
    page.push(Row::new("", Tone::Quiet, "Say units litres, units us, units imperial, or units as said."));
    page
}

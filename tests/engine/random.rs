//! Random books and cases. In: a list of small numbers, drawn by the property tests. Out: rule files as text and facts.

use super::made::Facts;
use std::fmt::Write;

/// The made-up world: a room, pots of which there are several, lids that belong to pots, bells of which silence says none.
pub const VOCABULARY: &str = "
things:
- thing: room
  called: room
  many: no
  unsaid: unknown
  attributes:
  - {attribute: a, called: a, is: number}
  - {attribute: b, called: b, is: number}
  - {attribute: size, called: size, is: volume}
  - {attribute: kind, called: kind, is: kind, kinds: [{kind: red}, {kind: blue}, {kind: green}]}
- thing: pot
  called: pot
  many: yes
  unsaid: unknown
  attributes:
  - {attribute: heat, called: heat, is: number}
  - {attribute: load, called: load, is: volume}
  - {attribute: make, called: make, is: kind, kinds: [{kind: iron}, {kind: clay}]}
- thing: lid
  called: lid
  many: yes
  unsaid: unknown
  attributes:
  - {attribute: weight, called: weight, is: number}
  - {attribute: colour, called: colour, is: kind, kinds: [{kind: red}, {kind: blue}]}
";

/// Draws numbers; when they run out, zeros, so that every list is a book.
pub struct Draw<'d> {
    numbers: std::slice::Iter<'d, u8>,
}

impl<'d> Draw<'d> {
    pub fn new(numbers: &'d [u8]) -> Self {
        Self { numbers: numbers.iter() }
    }

    fn below(&mut self, n: usize) -> usize {
        self.numbers.next().map_or(0, |x| *x as usize % n)
    }

    fn pick<'l>(&mut self, list: &[&'l str]) -> &'l str {
        list[self.below(list.len())]
    }
}

/// An entry: its text, and what others may call it by.
pub struct Entry {
    pub text: String,
    pub is_rule: bool,
}

/// What may be named so far: figures that are numbers, and conclusions; each of the whole or of a pot.
#[derive(Default)]
struct Named {
    figures: Vec<(String, bool)>,
    conclusions: Vec<(String, bool)>,
    rules: Vec<(String, bool)>,
}

/// Entries, each naming only those before it.
pub fn entries(draw: &mut Draw) -> Vec<Entry> {
    let mut named = Named::default();
    let mut out = Vec::new();
    for n in 0..3 + draw.below(8) {
        let of_pot = draw.below(2) == 1;
        let for_thing = if of_pot { "  for: pot\n" } else { "" };
        if draw.below(3) == 0 {
            let name = format!("fig{}", letter(n));
            let formula = number(draw, &named, of_pot, 3);
            out.push(Entry {
                text: format!("- figure: {name}\n{for_thing}  is: \"{formula}\"\n  basis: [worked out]\n"),
                is_rule: false,
            });
            named.figures.push((name, of_pot));
        } else {
            let name = format!("rule-{}", letter(n));
            let mut text = format!("- rule: {name}\n  topic: flow\n{for_thing}  basis: [worked out]\n  when:\n");
            for _ in 0..1 + draw.below(3) {
                let _ = writeln!(text, "  - \"{}\"", condition(draw, &named, of_pot, 3));
            }
            if draw.below(2) == 0 {
                // Two rules of the same sort may conclude the same.
                let old: Vec<String> =
                    named.conclusions.iter().filter(|(_, pot)| *pot == of_pot).map(|(c, _)| c.clone()).collect();
                let conclusion = match draw.below(3) {
                    0 if !old.is_empty() && !text.contains(&old[0]) && fresh(&out, &old[0]) => old[0].clone(),
                    _ => format!("holds{}", letter(n)),
                };
                let _ = writeln!(text, "  conclude: [{conclusion}]");
                named.conclusions.push((conclusion, of_pot));
            }
            if draw.below(3) > 0 && !named.rules.is_empty() {
                let (below, _) = &named.rules[draw.below(named.rules.len())];
                let _ = writeln!(text, "  outranks: [{{rule: {below}, because: made up}}]");
            }
            out.push(Entry { text, is_rule: true });
            named.rules.push((name, of_pot));
        }
    }
    out
}

/// Nothing so far reads the conclusion: a later rule may conclude it without a circle.
fn fresh(entries: &[Entry], conclusion: &str) -> bool {
    entries.iter().map(|e| e.text.matches(conclusion).count()).sum::<usize>() <= 1
}

fn letter(n: usize) -> char {
    (b'a' + n as u8) as char
}

fn number(draw: &mut Draw, named: &Named, of_pot: bool, depth: usize) -> String {
    if depth == 0 || draw.below(3) == 0 {
        let figures: Vec<&String> = named.figures.iter().filter(|(_, pot)| of_pot || !pot).map(|(f, _)| f).collect();
        return match draw.below(5) {
            0 => format!("{}", draw.below(7)),
            1 if of_pot => "pot.heat".into(),
            2 if !figures.is_empty() => figures[draw.below(figures.len())].clone(),
            3 => "room.b".into(),
            _ => "room.a".into(),
        };
    }
    let one = |draw: &mut Draw| number(draw, named, of_pot, depth - 1);
    match draw.below(7) {
        0 => format!("({} + {})", one(draw), one(draw)),
        1 => format!("({} - {})", one(draw), one(draw)),
        2 => format!("({} * {})", one(draw), one(draw)),
        3 => format!("({} / {})", one(draw), one(draw)),
        4 => format!("({} else {})", one(draw), one(draw)),
        5 => {
            let condition = condition(draw, named, of_pot, depth - 1);
            format!("({} if {condition} else {})", one(draw), one(draw))
        }
        _ => match draw.below(4) {
            0 => format!("(count of pot with {})", inner(draw)),
            1 => format!("(sum of heat over pot with {})", inner(draw)),
            2 => format!("(least of pot.load / room.size over pot with {})", inner(draw)),
            _ => "(greatest of weight over lid)".into(),
        },
    }
}

/// A condition on the bound pot.
fn inner(draw: &mut Draw) -> String {
    match draw.below(4) {
        0 => format!("heat {} {}", draw.pick(&["<", ">=", "!="]), draw.below(7)),
        1 => format!("make {} {}", draw.pick(&["=", "!="]), draw.pick(&["iron", "clay"])),
        2 => "heat is known".into(),
        _ => "load < room.size".into(),
    }
}

fn condition(draw: &mut Draw, named: &Named, of_pot: bool, depth: usize) -> String {
    let one = |draw: &mut Draw| condition(draw, named, of_pot, depth - 1);
    if depth > 0 && draw.below(3) == 0 {
        return match draw.below(3) {
            0 => format!("({} and {})", one(draw), one(draw)),
            1 => format!("({} or {})", one(draw), one(draw)),
            _ => format!("(not {})", one(draw)),
        };
    }
    let conclusions: Vec<&String> =
        named.conclusions.iter().filter(|(_, pot)| of_pot || !pot).map(|(c, _)| c).collect();
    match draw.below(8) {
        0 => format!("room.kind {} {}", draw.pick(&["=", "!="]), draw.pick(&["red", "blue", "green"])),
        1 => format!("room.size {} {} L", draw.pick(&["<", "<=", ">"]), draw.below(5)),
        2 if of_pot => format!("pot.make = {}", draw.pick(&["iron", "clay"])),
        3 if !conclusions.is_empty() => conclusions[draw.below(conclusions.len())].clone(),
        4 => format!("({} pot with {})", draw.pick(&["any", "every"]), inner(draw)),
        5 => format!("(any lid with colour = {})", draw.pick(&["red", "blue"])),
        6 => format!("({} is {}known)", draw.pick(&["room.a", "room.kind"]), draw.pick(&["", "not "])),
        _ => {
            let how = draw.pick(&["<", "<=", ">", ">=", "=", "!="]);
            format!("{} {how} {}", number(draw, named, of_pot, depth.min(1)), number(draw, named, of_pot, 0))
        }
    }
}

/// A file of some of the entries; `keep` says which.
pub fn file(entries: &[&Entry]) -> String {
    let of =
        |rules: bool| -> String { entries.iter().filter(|e| e.is_rule == rules).map(|e| e.text.as_str()).collect() };
    let mut text = String::from("about: made up\n");
    for (key, part) in [("figures", of(false)), ("rules", of(true))] {
        if !part.is_empty() {
            let _ = write!(text, "{key}:\n{part}");
        }
    }
    text
}

/// Facts of a case.
pub fn facts(draw: &mut Draw) -> Facts {
    let mut facts = Facts::default();
    let mut say = |draw: &mut Draw, thing: &str, n: u16, attribute: &str, value: String| {
        if draw.below(4) > 0 {
            facts.values.push((thing.into(), n, attribute.into(), value));
        }
    };
    let a = format!("{}", draw.below(7));
    say(draw, "room", 0, "a", a);
    let b = format!("{}", draw.below(7));
    say(draw, "room", 0, "b", b);
    let size = format!("{} L", draw.below(5));
    say(draw, "room", 0, "size", size);
    let kind = draw.pick(&["red", "blue", "green"]).to_string();
    say(draw, "room", 0, "kind", kind);
    let (pots, lids) = (draw.below(4) as u16, draw.below(3) as u16);
    for n in 0..pots {
        let heat = format!("{}", draw.below(7));
        say(draw, "pot", n, "heat", heat);
        let load = format!("{} L", draw.below(5));
        say(draw, "pot", n, "load", load);
        let make = draw.pick(&["iron", "clay"]).to_string();
        say(draw, "pot", n, "make", make);
    }
    for n in 0..lids {
        let weight = format!("{}", draw.below(7));
        say(draw, "lid", n, "weight", weight);
        let colour = draw.pick(&["red", "blue"]).to_string();
        say(draw, "lid", n, "colour", colour);
    }
    for n in 0..lids {
        if pots > 0 && draw.below(2) == 0 {
            facts.owners.push(("lid".into(), n, "pot".into(), draw.below(pots as usize) as u16));
        }
    }
    facts.counts.insert("pot".into(), pots);
    facts.counts.insert("lid".into(), lids);
    for thing in ["pot", "lid"] {
        if draw.below(2) == 0 {
            facts.closed.push(thing.into());
        }
    }
    facts
}

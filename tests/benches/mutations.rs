//! Mutated lines said to the listener: a million by default, in turns of up to four, always the same ones. Stable Rust's
//! stand-in for the coverage-guided target of `tests/fuzz`. Run: `cargo bench --bench mutations [-- HOW_MANY [SEED]]`.

#[path = "../fuzz/laws.rs"]
mod laws;

use std::path::Path;
use std::time::{Duration, Instant};
use weirline::listen::Listener;
use weirline::listen::reading::Context;
use weirline::rulebook::Book;

/// Pieces that the grammar turns on; put in anywhere.
const PIECES: [&str; 44] = [
    "0",
    "1e9",
    "-5",
    "½",
    "1/0",
    "2.000",
    "1.250,5",
    ",",
    ".",
    "?",
    "!",
    ":",
    ";",
    " / ",
    "\n",
    "\n> ",
    " no ",
    " not ",
    " and ",
    " but ",
    " if ",
    " sorry ",
    " no wait ",
    " point ",
    "'",
    "\"",
    "x",
    "@",
    "°",
    "l/h",
    " gal",
    " g ",
    "%",
    "£",
    " in ",
    " of ",
    " each ",
    " the other ",
    "\u{200b}",
    "\u{1b}[31m",
    "é",
    "🐟",
    "\0",
    "NaN",
];

struct Numbers(u64);

impl Numbers {
    fn below(&mut self, n: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as usize % n.max(1)
    }
}

/// Everything that the corpora have callers say, one a line of their files.
fn seeds(folder: &Path, out: &mut Vec<String>) {
    let Ok(files) = std::fs::read_dir(folder) else { return };
    let mut paths: Vec<_> = files.flatten().map(|f| f.path()).collect();
    paths.sort();
    for path in paths {
        if path.is_dir() {
            seeds(&path, out);
        } else if let Ok(text) = std::fs::read_to_string(&path) {
            let said = |line: &str| {
                let line = line.trim_start_matches(['-', ' ', '{']);
                let rest = line.strip_prefix("say: ").or_else(|| line.strip_prefix("said: "))?;
                Some(rest.split("\", reads").next().unwrap_or(rest).trim_matches(['"', '\'', '}']).to_string())
            };
            out.extend(text.lines().filter_map(said).filter(|l| l.len() > 2));
        }
    }
}

/// One to five changes to a line, some with a piece of another.
fn mutate(line: &str, other: &str, numbers: &mut Numbers) -> String {
    let mut letters: Vec<char> = line.chars().collect();
    for _ in 0..1 + numbers.below(5) {
        let at = numbers.below(letters.len() + 1);
        match numbers.below(8) {
            0 if at < letters.len() => drop(letters.remove(at)),
            1 if at + 1 < letters.len() => letters.swap(at, at + 1),
            2 => {
                let piece = PIECES[numbers.below(PIECES.len())];
                letters.splice(at..at, piece.chars());
            }
            3 => {
                let tail: Vec<char> = other.chars().skip(numbers.below(other.len())).take(40).collect();
                letters.splice(at..at, tail);
            }
            4 => letters.truncate(at),
            5 => {
                let end = (at + numbers.below(12)).min(letters.len());
                let twice: Vec<char> = letters[at..end].to_vec();
                letters.splice(at..at, twice);
            }
            6 => {
                let from = letters.len() - at.min(letters.len());
                letters.rotate_left(from);
            }
            _ if at < letters.len() => letters[at] = char::from_u32(numbers.below(0x2500) as u32).unwrap_or(' '),
            _ => {}
        }
    }
    letters.truncate(600);
    letters.into_iter().collect()
}

fn main() {
    let figures: Vec<u64> = std::env::args().filter_map(|a| a.parse().ok()).collect();
    let count = figures.first().copied().unwrap_or(1_000_000);
    let mut numbers = Numbers(figures.get(1).copied().unwrap_or(88_172_645_463_325_252).max(1));
    let Ok(book) = Book::built_in() else { return println!("the built-in book is broken") };
    let listener = Listener::new(&book.knowledge);
    let mut lines = Vec::new();
    seeds(Path::new("tests/listen"), &mut lines);
    if lines.is_empty() {
        return println!("no lines under tests/listen: run it from the folder of Cargo.toml");
    }
    let (start, mut slowest, mut worst) = (Instant::now(), Duration::ZERO, String::new());
    let mut context = Context::default();
    let (mut broken, mut letters) = (0, 0);
    for n in 0..count {
        if n % 4 == 0 {
            context = Context::default();
        }
        let (one, other) = (numbers.below(lines.len()), numbers.below(lines.len()));
        let line = mutate(&lines[one], &lines[other], &mut numbers);
        letters += line.len();
        let before = Instant::now();
        let reading = listener.read(&line, &context);
        let took = before.elapsed();
        if took > slowest {
            (slowest, worst) = (took, line.clone());
        }
        if let Err(law) = laws::kept(&reading) {
            broken += 1;
            if broken <= 20 {
                println!("{law}: {line:?}");
            }
        }
        context = context.after(&reading);
    }
    println!(
        "{count} inputs from {} lines, {letters} bytes, in {:.1?}: no panic, {broken} laws broken",
        lines.len(),
        start.elapsed()
    );
    println!("slowest {slowest:.1?}: {worst:?}");
    if broken > 0 {
        std::process::exit(1);
    }
}

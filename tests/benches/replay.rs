//! How long a replay of many calls takes, and how much memory: generated calls, answered with the built-in book, then one rule
//! of a copy edited. In: how many calls (10,000 unless an argument says else). Run with `cargo bench --bench replay`.

use rayon::prelude::*;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::time::{Duration, Instant};
use weirline::archive::call::{Exchange, Head, SavedCall, Stamp};
use weirline::archive::{listener, replay::replay};
use weirline::rulebook::Book;
use weirline::rulebook::library::built_in_texts;

const CALLS: usize = 10_000;
const TANKS: [&str; 16] = [
    "55 gallon",
    "20 gallon long",
    "180 litres",
    "60 l",
    "240 L tank",
    "about 100 litres",
    "10 gal",
    "75g",
    "29 gallon",
    "two foot tank",
    "125 l",
    "40 breeder",
    "4ft tank",
    "30 litres",
    "450 litre",
    "2000 gallon pond",
];
const STOCK: [&str; 20] = [
    "30 small tetras",
    "12 platies",
    "40 guppies",
    "6 neon tetras and 6 corydoras",
    "2 fancy goldfish",
    "1 betta",
    "10 zebra danios",
    "5 koi",
    "20 cherry shrimp",
    "8 rasboras, 1 gourami",
    "4 angelfish",
    "2 oscars",
    "15 cardinals",
    "3 mollies with fry",
    "a pair of kribensis",
    "6 clown loaches",
    "10 mbuna",
    "a common pleco",
    "no fish yet",
    "24 rummynose",
];
const FILTERS: [&str; 16] = [
    "hang-on filter 400 gph",
    "canister 1000 l/h",
    "sponge filter",
    "internal filter 300 l/h",
    "hob 250 gph with cartridges",
    "canister 1400 l/h, 3 baskets",
    "undergravel filter",
    "canister 700 l/h, basket 2 litres",
    "hang on back 150 gph",
    "sump",
    "canister, flow has dropped",
    "internal 600 l/h",
    "filter 200 gph",
    "no filter yet",
    "two canisters 800 l/h",
    "pond filter 5000 l/h",
];
const WORRIES: [&str; 20] = [
    "fry present",
    "nitrate 80",
    "ammonia 0.5, ph 8.2",
    "nitrite 0.25",
    "cloudy water",
    "the flow has dropped",
    "how often do I clean it?",
    "which media and in which order?",
    "filter is noisy",
    "set up 2 weeks ago",
    "washed the media under the tap",
    "green water",
    "fish gasping",
    "power was out for 8 hours",
    "bare intake",
    "ammonia 0, nitrite 0, nitrate 20",
    "smells",
    "26 C",
    "what if I add 6 more?",
    "a shock when I touch the water",
];
const MORE: [&str; 10] = [
    "no, sorry, 45 gallon",
    "nothing over the intake",
    "why?",
    "ph 7.8",
    "last cleaned 3 months ago",
    "change a quarter a week",
    "ammonia 1",
    "live plants",
    "which media?",
    "set up a year ago",
];

/// The lines of the n-th call.
fn lines(n: u64) -> Vec<String> {
    let mut seed = n.wrapping_mul(0x9e37_79b9_7f4a_7c15).wrapping_add(1);
    let mut pick = |many: usize| {
        seed ^= seed >> 12;
        seed ^= seed << 25;
        seed ^= seed >> 27;
        (seed.wrapping_mul(0x2545_f491_4f6c_dd1d) >> 33) as usize % many
    };
    let first = format!("{}, {}, {}, {}", TANKS[pick(16)], STOCK[pick(20)], FILTERS[pick(16)], WORRIES[pick(20)]);
    let mut lines = vec![first];
    // Half of the calls are one line, a third two, the rest three.
    for _ in 0..[0, 0, 0, 1, 1, 2][pick(6)] {
        lines.push(MORE[pick(10)].to_string());
    }
    lines
}

fn write_calls(folder: &Path, count: usize) {
    let Ok(book) = Book::built_in() else { return println!("the built-in book is broken") };
    let (version, book) = (book.version(), Arc::new(book));
    let hear = listener(&book.knowledge);
    let stamp = Stamp { book: None, version: Some(version), date: None };
    (0..count).into_par_iter().for_each(|n| {
        let exchanges = lines(n as u64).into_iter().map(|typed| Exchange { typed, ..Exchange::default() });
        let call = SavedCall { head: Head { stamp: stamp.clone(), ..Head::default() }, exchanges: exchanges.collect() };
        let text = replay(&call, &book, &hear).write();
        if let Err(why) = std::fs::write(folder.join(format!("call-{n:05}.txt")), text) {
            println!("call {n}: {why}");
        }
    });
}

/// Runs the program and gives how long it took, its greatest memory in MB, and its last lines.
fn run(arguments: &[&str]) -> Option<(Duration, f64, String)> {
    let start = Instant::now();
    let mut command = Command::new(env!("CARGO_BIN_EXE_weirline"));
    let mut child = command.args(arguments).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().ok()?;
    let status = format!("/proc/{}/status", child.id());
    let mut most = 0.0f64;
    let mut out = child.stdout.take()?;
    let text = std::thread::spawn(move || std::io::read_to_string(&mut out).unwrap_or_default());
    while child.try_wait().ok()?.is_none() {
        let about = std::fs::read_to_string(&status).unwrap_or_default();
        let line = about.lines().find_map(|l| l.strip_prefix("VmHWM:"));
        let kilobytes = line.and_then(|l| l.split_whitespace().next()?.parse::<f64>().ok());
        most = most.max(kilobytes.unwrap_or(0.0) / 1024.0);
        std::thread::sleep(Duration::from_millis(20));
    }
    Some((start.elapsed(), most, text.join().ok()?))
}

fn main() {
    let count = std::env::args().filter_map(|a| a.parse().ok()).next().unwrap_or(CALLS);
    let Ok(folder) = tempfile::tempdir() else { return println!("no folder for calls") };
    let (calls, book) = (folder.path().join("calls"), folder.path().join("book"));
    if std::fs::create_dir(&calls).is_err() {
        return println!("no folder for calls");
    }
    let start = Instant::now();
    write_calls(&calls, count);
    println!("{count} calls answered and written   {:>7.1} s", start.elapsed().as_secs_f64());
    for (path, text) in built_in_texts() {
        let file = book.join(&path);
        let made = std::fs::create_dir_all(file.parent().unwrap_or(&book)).and_then(|()| std::fs::write(file, text));
        if let Err(why) = made {
            return println!("{path}: {why}");
        }
    }
    let (calls, book_name) = (calls.to_string_lossy().into_owned(), book.to_string_lossy().into_owned());
    let measure = |what: &str, arguments: &[&str]| match run(arguments) {
        Some((took, memory, text)) => {
            let last = text.lines().rev().find(|l| l.contains(" calls: ")).unwrap_or("").to_string();
            println!("{what:<34} {:>7.1} s {memory:>6.0} MB   {last}", took.as_secs_f64());
        }
        None => println!("{what}: the program does not run"),
    };
    measure("same book", &["replay", &calls]);
    measure("a copy of it, unchanged", &["--book", &book_name, "replay", &calls]);
    for (what, file, from, to) in [
        ("a threshold of one rule edited", "rules/cleaning.yaml", "filter.cleaned > 13 wk", "filter.cleaned > 20 wk"),
        (
            "a sentence of one rule edited",
            "rules/intake.yaml",
            "Look at the intake first. Bare",
            "Look at the intake first; bare",
        ),
        (
            "a table entry edited",
            "knowledge/livestock/tetras.yaml",
            "grown length: 2 / 3.5 / 4.5 cm",
            "grown length: 2 / 4 / 5 cm",
        ),
    ] {
        let path = book.join(file);
        let Ok(text) = std::fs::read_to_string(&path) else { continue };
        if !text.contains(from) {
            println!("{what}: nothing to edit");
            continue;
        }
        let _ = std::fs::write(&path, text.replacen(from, to, 1));
        measure(what, &["--book", &book_name, "replay", &calls]);
        let _ = std::fs::write(&path, text);
    }
}

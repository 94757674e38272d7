//! How long a check takes: 300 rules read from YAML and checked without running, and with all their examples run.
//! In: the shipped book. Out: milliseconds, as measured and in proportion for 300 rules. Run with `cargo bench --bench check`.

use std::path::Path;
use std::time::Instant;
use weirline::archive::trial;
use weirline::knowledge::Knowledge;
use weirline::rulebook::Book;
use weirline::rulebook::read::{Gaps, read};

const RULES: f64 = 300.0;
const ROUNDS: usize = 21;

/// Path and text of every YAML file below a folder of the project.
fn texts(folder: &str, out: &mut Vec<(String, String)>) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut entries: Vec<_> =
        std::fs::read_dir(root.join(folder)).into_iter().flatten().flatten().map(|e| e.file_name()).collect();
    entries.sort();
    for name in entries {
        let path = format!("{folder}/{}", name.to_string_lossy());
        if root.join(&path).is_dir() {
            texts(&path, out);
        } else if path.ends_with(".yaml")
            && let Ok(text) = std::fs::read_to_string(root.join(&path))
        {
            out.push((path, text));
        }
    }
}

/// The median of some runs, in milliseconds.
fn median(mut run: impl FnMut()) -> f64 {
    let mut took: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            run();
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    took.sort_unstable_by(f64::total_cmp);
    took[ROUNDS / 2]
}

fn main() {
    let (mut knowledge, mut rules) = (vec![], vec![]);
    texts("knowledge", &mut knowledge);
    texts("rules", &mut rules);
    let borrowed = |list: &[(String, String)]| -> Vec<(String, String)> { list.to_vec() };
    let files: Vec<(String, String)> = borrowed(&knowledge).into_iter().chain(borrowed(&rules)).collect();
    let tables: Vec<(&str, &str)> = knowledge.iter().map(|(p, t)| (p.as_str(), t.as_str())).collect();
    let rules: Vec<(&str, &str)> = rules.iter().map(|(p, t)| (p.as_str(), t.as_str())).collect();
    let report = trial::check(files.clone(), vec![], "bench", None);
    let faults = report.faults.len();
    println!("{} rules, {} figures, {} examples, {faults} faults", report.rules, report.figures, report.examples);
    let share = RULES / report.rules as f64;
    let tables_read = median(|| drop(Knowledge::from_texts(&tables)));
    let rules_read = median(|| drop(read(&rules, &mut vec![], &mut Gaps::default())));
    let whole = median(|| drop(Book::check(files.clone(), "bench", false))) - tables_read;
    let run = median(|| drop(trial::check(files.clone(), vec![], "bench", None))) - tables_read;
    println!("the tables read                     {tables_read:7.1} ms");
    println!("the rules read                      {rules_read:7.1} ms   for {RULES}: {:6.1}", rules_read * share);
    println!(
        "the rules read and checked          {whole:7.1} ms   for {RULES}: {:6.1}   (wanted: below 50)",
        whole * share
    );
    println!(
        "the same with all examples run      {run:7.1} ms   for {RULES}: {:6.1}   (wanted: below 500)",
        run * share
    );
}

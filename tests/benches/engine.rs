//! How long the engine takes for a case: generated worlds of 60 rules on 25 facts and 300 on 100, always the same.
//! In: nothing. Out: microseconds a case. Run with `cargo bench --bench engine`; with `-- --write DIR` the worlds are also
//! written as JSON in a plain form, for timing another rule system on them.

use std::fmt::Write;
use std::hint::black_box;
use std::path::PathBuf;
use std::time::Instant;
use weirline::engine::finding::findings;
use weirline::engine::{Engine, State, Value, World};
use weirline::knowledge::schema::Schema;
use weirline::knowledge::vocabulary::Vocabulary;
use weirline::rulebook::build::build;
use weirline::rulebook::read::{Gaps, read};
use weirline::source::yaml;

const CASES: usize = 500;
const WORDS: [&str; 3] = ["low", "mid", "high"];

/// Numbers that differ but are the same on every run.
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, n: usize) -> usize {
        self.0 = self.0.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        (self.0 >> 33) as usize % n
    }
}

/// One condition: what, how, and with what it is compared.
type Test = (String, &'static str, String);

struct Rule {
    name: String,
    when: Vec<Test>,
    then: String,
    advice: bool,
}

/// Rules over numbers `a0`..., words `s0`... and what other rules conclude, `d0`...: each rule reads only earlier ones.
struct Generated {
    numbers: usize,
    words: usize,
    rules: Vec<Rule>,
    cases: Vec<Vec<usize>>,
}

fn generate(rules: usize, facts: usize) -> Generated {
    let mut draw = Numbers((rules * 1000 + facts) as u64);
    let numbers = facts * 3 / 5;
    let words = facts - numbers;
    let mut made: Vec<Rule> = Vec::new();
    for n in 0..rules {
        let mut when: Vec<Test> = Vec::new();
        for _ in 0..2 + draw.below(3) {
            when.push(match draw.below(5) {
                0 | 1 => (format!("a{}", draw.below(numbers)), [">", "<"][draw.below(2)], draw.below(100).to_string()),
                2 | 3 => (format!("s{}", draw.below(words)), ["=", "!="][draw.below(2)], WORDS[draw.below(3)].into()),
                _ if n > 4 => (made[draw.below(n)].then.clone(), "=", "yes".into()),
                _ => (format!("a{}", draw.below(numbers)), ">", draw.below(60).to_string()),
            });
        }
        let advice = draw.below(3) == 0;
        made.push(Rule { name: format!("r{n}"), when, then: format!("d{n}"), advice });
    }
    let cases = (0..CASES).map(|_| (0..facts).map(|f| draw.below(if f < numbers { 100 } else { 3 })).collect());
    Generated { numbers, words, rules: made, cases: cases.collect() }
}

impl Generated {
    fn vocabulary(&self) -> String {
        let mut text =
            "things:\n- thing: world\n  called: world\n  many: no\n  unsaid: unknown\n  attributes:\n".to_string();
        for n in 0..self.numbers {
            let _ = writeln!(text, "  - {{attribute: a{n}, called: a{n}, is: number}}");
        }
        for n in 0..self.words {
            let kinds = "[{kind: low}, {kind: mid}, {kind: high}]";
            let _ = writeln!(text, "  - {{attribute: s{n}, called: s{n}, is: kind, kinds: {kinds}}}");
        }
        text
    }

    fn rules(&self) -> String {
        let mut text = "about: generated\nrules:\n".to_string();
        for rule in &self.rules {
            let _ = writeln!(text, "- rule: {}\n  topic: flow\n  basis: [worked out]\n  when:", rule.name);
            for (what, how, with) in &rule.when {
                let _ = match what.starts_with('d') {
                    true => writeln!(text, "  - {what}"),
                    false => writeln!(text, "  - world.{what} {how} {with}"),
                };
            }
            let _ = writeln!(text, "  conclude: [{}]", rule.then);
        }
        text
    }

    /// The plain form: rules with their conditions, and cases.
    fn json(&self) -> serde_json::Value {
        let value = |text: &str| text.parse::<i64>().map_or_else(|_| text.into(), serde_json::Value::from);
        let rules = self.rules.iter().map(|r| {
            let when: Vec<_> = r.when.iter().map(|(a, how, b)| serde_json::json!([a, how, value(b)])).collect();
            serde_json::json!({"name": r.name, "when": when, "then": [r.then, "yes"], "advice": r.advice})
        });
        let cases = self.cases.iter().map(|case| {
            let fact = |(n, x): (usize, &usize)| match n < self.numbers {
                true => (format!("a{n}"), serde_json::Value::from(*x)),
                false => (format!("s{}", n - self.numbers), WORDS[*x].into()),
            };
            case.iter().enumerate().map(fact).collect::<serde_json::Map<_, _>>()
        });
        serde_json::json!({"rules": rules.collect::<Vec<_>>(), "cases": cases.collect::<Vec<_>>()})
    }
}

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    let folder = arguments.iter().position(|a| a == "--write").and_then(|n| arguments.get(n + 1)).map(PathBuf::from);
    for (rules, facts) in [(60, 25), (300, 100)] {
        let made = generate(rules, facts);
        if let Some(folder) = &folder {
            let file = folder.join(format!("world-{rules}x{facts}.json"));
            match std::fs::write(&file, made.json().to_string()) {
                Ok(()) => println!("written: {}", file.display()),
                Err(why) => println!("not written: {}: {why}", file.display()),
            }
        }
        time(rules, facts, &made);
    }
}

fn time(rules: usize, facts: usize, made: &Generated) {
    let Ok(vocabulary) = yaml::read::<Vocabulary>("vocabulary", &made.vocabulary()) else { return };
    let schema = Schema::new(&vocabulary.value, [], []);
    let mut faults = Vec::new();
    let sources = read(&[("rules/made.yaml", &made.rules())], &mut faults, &mut Gaps::default());
    let (book, found) = build(&sources, &schema, vec![]);
    if let Some(fault) = faults.iter().chain(&found).find(|f| f.is_error()) {
        println!("the generated rules have a fault: {}", fault.what);
        return;
    }
    let engine = Engine { schema: &schema, book: &book };
    let symbols: Vec<Value> = WORDS.iter().filter_map(|w| schema.symbol(w)).map(Value::Kind).collect();
    let attributes: Vec<_> = (0..facts).map(|n| weirline::knowledge::schema::AttributeId(n as u16)).collect();
    let put = |world: &mut World, case: &[usize]| {
        for (n, x) in case.iter().enumerate() {
            let value = if n < made.numbers { Value::Number(*x as f64) } else { symbols[*x] };
            world.set(attributes[n], 0, value);
        }
    };
    let mut world = World::new(&schema, &book, vec![1], vec![false]);
    let mut state = State::new(&book, &world);
    let mut fired = 0;
    let mut best = f64::INFINITY;
    for _ in 0..11 {
        fired = 0;
        let start = Instant::now();
        for case in &made.cases {
            put(&mut world, case);
            engine.run_steps(&book.order, &world, &mut state);
            let found = findings(&book, &state);
            fired += found.speaking.len();
            black_box(&found);
        }
        best = best.min(start.elapsed().as_secs_f64() * 1e6 / made.cases.len() as f64);
    }
    println!("{rules} rules on {facts} facts: {best:6.2} us a case, {fired} firings in {} cases", made.cases.len());
}

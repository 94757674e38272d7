//! The answer for machines: one JSON object. In: a call, its assessment, its answer. Out: the keys described at `object`.
//! Later keys may be added, none renamed. Computes nothing.

use super::answer::{Advice, Answer, FigureLine};
use super::reading_json::{question, turn};
use crate::case::Ledger;
use crate::case::fact::{Fact, FactValue, Instance, Origin};
use crate::doubt::{Assessment, TankView};
use crate::knowledge::schema::{AttributeId, ThingId};
use crate::rulebook::Book;
use crate::units::Dimension;
use serde_json::{Map, Value, json};

/// The object of a call:
///
/// * `book`: name of the book in use.
/// * `turns`: `said`, `reading` (statements with `span` in bytes of `said`), `unread`, `asked back`, `questions not understood`.
/// * `facts`: `thing` (numbered where there are several: "filter 2"), `attribute`, `value`, `low`, `high`, `unit` (as said),
///   `si` (`value`, `unit`), `origin` (said, assumed, looked up, worked out), `turn`, `span`; a kind stands as `value`.
///   What is said to be there or not has the attribute `there` and the value `yes` or `no`.
/// * `questions`: what the caller asked: `form`, `topic`, `words`, `span`, `turn`.
/// * `advice`: `rule`, `urgency`, `say`, `steps`, `because`, `cautions`, `basis`, `sources`, `sure` (0 to 1), `hangs on`,
///   `thing`, `tank`, `asked`.
/// * `figures`: `name`, `called`, `value`, `low`, `high`, `unit`, `formula`, `numbers`, `inputs`, `origin`, `basis`, `tank`.
/// * `assumed`, `read as`, `contradictions`, `remarks`: lists of phrases. `say`: the sentence to say first.
/// * `replies` (added by the commands): what was typed and, as text, what was shown: `said`, `text`.
/// * `next`: `attribute`, `ask`, `why`, `measure`; null when no answer would change anything.
pub fn object(book: &Book, ledger: &Ledger, assessment: &Assessment, answer: &Answer) -> Value {
    let turns: Vec<Value> = ledger.turns().iter().map(|t| turn(&t.reading)).collect();
    let several = assessment.tanks.len() > 1;
    let facts: Vec<Value> = assessment.tanks.iter().flat_map(|view| tank_facts(book, view, several)).collect();
    let questions: Vec<Value> = ledger
        .turns()
        .iter()
        .enumerate()
        .flat_map(|(n, t)| t.reading.asks.iter().map(move |ask| question(ask, &t.reading.text, n + 1)))
        .collect();
    json!({
        "book": book.name,
        "turns": turns,
        "facts": facts,
        "questions": questions,
        "say": answer.say.as_deref().map(plain),
        "remarks": plain_list(&answer.remarks),
        "advice": answer.advice.iter().map(advice).collect::<Vec<_>>(),
        "figures": answer.figures.iter().map(figure).collect::<Vec<_>>(),
        "assumed": plain_list(&answer.assumed),
        "read as": plain_list(&answer.read_as),
        "contradictions": plain_list(&answer.contradictions),
        "next": answer.next.as_ref().map(|next| json!({
            "attribute": format!("{}.{}", next.subject.thing, next.attribute),
            "ask": next.ask,
            "why": plain_list(&next.why),
            "measure": next.measure,
        })),
    })
}

/// Text without the blanks that only keep a line together.
fn plain(text: &str) -> String {
    text.replace(super::amounts::TIED, " ")
}

fn plain_list(list: &[String]) -> Vec<String> {
    list.iter().map(|s| plain(s)).collect()
}

fn advice(advice: &Advice) -> Value {
    json!({
        "rule": advice.rule,
        "urgency": advice.urgency.word(),
        "say": plain(&advice.say),
        "steps": plain_list(&advice.steps),
        "because": plain(&advice.because),
        "cautions": advice.cautions.iter().map(|c| json!({
            "caution": c.caution, "danger": c.danger, "says": c.says,
        })).collect::<Vec<_>>(),
        "basis": advice.basis,
        "sources": advice.sources,
        "sure": (advice.sure * 100.0).round() / 100.0,
        "hangs on": advice.hangs_on.as_ref().map(|h| json!({ "fact": h.fact, "called": h.called, "measure": h.measure })),
        "thing": advice.about,
        "tank": advice.tank,
        "asked": advice.asked,
    })
}

fn figure(figure: &FigureLine) -> Value {
    json!({
        "name": figure.figure,
        "called": figure.called,
        "value": rounded(figure.values.likely),
        "low": rounded(figure.values.low),
        "high": rounded(figure.values.high),
        "unit": figure.unit,
        "shown": plain(&figure.result),
        "formula": figure.formula,
        "numbers": figure.numbers.as_deref().map(plain),
        "inputs": figure.inputs.iter().map(|i| json!({
            "name": i.name, "value": plain(&i.value), "origin": i.origin,
        })).collect::<Vec<_>>(),
        "origin": figure.origin,
        "basis": figure.basis,
        "tank": figure.tank,
    })
}

/// Six digits: what is beyond them is noise of the machine's arithmetic, not of the tank.
pub fn rounded(value: Option<f64>) -> Option<f64> {
    let value = value?;
    let text = format!("{value:.5e}");
    text.parse().ok()
}

fn tank_facts(book: &Book, view: &TankView, several: bool) -> Vec<Value> {
    let mut out = Vec::new();
    for (n, instances) in view.case.facts.things.iter().enumerate() {
        let thing = ThingId(n as u8);
        for (m, instance) in instances.iter().enumerate() {
            let name = match (book.schema.thing_of(thing).several, several) {
                (true, _) if instances.len() > 1 => format!("{} {}", book.schema.thing_of(thing).name, m + 1),
                (false, true) => format!("{} {}", book.schema.thing_of(thing).name, view.tank),
                _ => book.schema.thing_of(thing).name.clone(),
            };
            out.extend(instance_facts(book, view.tank, &name, instance));
        }
    }
    for absent in &view.case.facts.absent {
        let name = super::wording::subject(book, absent, false);
        out.push(json!({ "thing": name, "attribute": "there", "value": "no", "origin": "said", "tank": view.tank }));
    }
    for present in &view.case.facts.present {
        let name = super::wording::subject(book, present, false);
        out.push(json!({ "thing": name, "attribute": "there", "value": "yes", "origin": "said", "tank": view.tank }));
    }
    out
}

fn instance_facts(book: &Book, tank: u16, name: &str, instance: &Instance) -> Vec<Value> {
    instance.facts.iter().map(|(id, fact)| fact_object(book, tank, name, *id, fact)).collect()
}

fn fact_object(book: &Book, tank: u16, name: &str, id: AttributeId, fact: &Fact) -> Value {
    let mut out = Map::new();
    out.insert("thing".into(), json!(name));
    out.insert("tank".into(), json!(tank));
    out.insert("attribute".into(), json!(book.schema.of(id).name));
    match &fact.value {
        FactValue::Amount(amount) => {
            let middle = amount.likely.or(amount.base().likely.map(|v| amount.unit.from_base(v)));
            out.insert("value".into(), json!(rounded(middle)));
            out.insert("low".into(), json!(rounded(amount.low)));
            out.insert("high".into(), json!(rounded(amount.high)));
            out.insert("unit".into(), json!(amount.unit.name));
            let si = json!({ "value": rounded(fact.spread.likely), "unit": si_unit(amount.unit.dimension) });
            out.insert("si".into(), si);
        }
        FactValue::Kind(symbol) => {
            out.insert("value".into(), json!(book.schema.word(*symbol)));
        }
        FactValue::Kinds(symbols) => {
            let words: Vec<&str> = symbols.iter().map(|s| book.schema.word(*s)).collect();
            out.insert("value".into(), json!(words));
        }
        FactValue::Text(text) => {
            out.insert("value".into(), json!(text));
        }
        FactValue::Level(level) => {
            out.insert("value".into(), json!(super::wording::level_word(*level)));
        }
    }
    out.insert("origin".into(), json!(fact.origin.word()));
    if let Origin::Said { turn, span } = fact.origin {
        out.insert("turn".into(), json!(turn));
        out.insert("span".into(), json!([span.start, span.end]));
    }
    Value::Object(out)
}

/// A dimension in base units: "m3/s", "kg/m3", "1/s"; empty for a plain number.
pub fn si_unit(dimension: Dimension) -> String {
    let factors = |sign: i8| -> Vec<String> {
        let powers = [
            ("kg", dimension.mass),
            ("m", dimension.length),
            ("s", dimension.time),
            ("C", dimension.temperature),
            ("coins", dimension.money),
            ("pH", dimension.acidity),
        ];
        let kept = powers.into_iter().filter(|(_, n)| n.signum() == sign);
        kept.map(|(u, n)| if n.abs() == 1 { u.to_string() } else { format!("{u}{}", n.abs()) }).collect()
    };
    let (over, under) = (factors(1).join(" "), factors(-1).join(" "));
    match (over.is_empty(), under.is_empty()) {
        (_, true) => over,
        (true, false) => format!("1/{under}"),
        (false, false) => format!("{over}/{under}"),
    }
}

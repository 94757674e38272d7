//! The object for machines, pinned: keys may be added, none renamed.

use super::{MADE_UP, book_of, talk};
use serde_json::{Value, json};
use weirline::reply::text::Length;

fn object(lines: &[&str]) -> Value {
    let mut conversation = talk(&book_of(MADE_UP), Length::Full);
    for line in lines {
        conversation.take(line);
    }
    conversation.object()
}

#[test]
fn the_whole_object_of_a_small_call() {
    let object = object(&["100 litres, canister 200 l/h"]);
    let advice = &object["advice"][0];
    assert_eq!(
        *advice,
        json!({
            "rule": "flow-is-weak",
            "urgency": "this week",
            "say": "The filter turns about 80 litres over about 2.5 times an hour: too slow.",
            "steps": ["Look for 200 L/h or more."],
            "because": "It turns over about 2.5 per hour.",
            "cautions": [],
            "basis": ["worked out"],
            "sources": [],
            "sure": 1.0,
            "hangs on": null,
            "thing": null,
            "tank": 1,
            "asked": false,
        })
    );
    let figure = &object["figures"][0];
    assert_eq!(figure["name"], "turnover");
    assert_eq!(figure["value"], 2.5);
    assert_eq!(figure["unit"], "per hour");
    assert_eq!(figure["formula"], "flow / water");
    assert_eq!(figure["numbers"], "200 L/h / 80 L");
    assert_eq!(figure["origin"], "worked out");
    assert_eq!(
        figure["inputs"][0],
        json!({ "name": "flow printed on the filter", "value": "200 L/h", "origin": "said" })
    );
    let turn = &object["turns"][0];
    assert_eq!(turn["said"], "100 litres, canister 200 l/h");
    let nominal = turn["reading"].as_array().unwrap().iter().find(|s| s["attribute"] == "nominal").unwrap();
    assert_eq!(nominal["value"]["likely"], 100.0);
    assert_eq!(nominal["value"]["unit"], "L");
    assert_eq!(nominal["says"], "is");
    let fact = object["facts"].as_array().unwrap().iter().find(|f| f["attribute"] == "nominal").unwrap();
    assert_eq!(fact["thing"], "tank");
    assert_eq!(fact["origin"], "said");
    assert_eq!(fact["turn"], 1);
    assert_eq!(fact["si"], json!({ "value": 0.1, "unit": "m3" }));
    let assumed = object["facts"].as_array().unwrap().iter().find(|f| f["attribute"] == "temperature").unwrap();
    assert_eq!((assumed["origin"].as_str(), assumed["unit"].as_str()), (Some("assumed"), Some("C")));
}

#[test]
fn every_promised_key_is_there() {
    let object = object(&["55 gallon, 30 small tetras, no fry, pH 74, wibble", "turnover?"]);
    for key in ["book", "turns", "facts", "questions", "say", "remarks", "advice", "figures", "assumed", "next"] {
        assert!(object.get(key).is_some(), "{key}");
    }
    let turn = &object["turns"][0];
    for key in ["said", "reading", "unread", "asked back"] {
        assert!(turn.get(key).is_some(), "{key}");
    }
    assert_eq!(turn["unread"][0]["words"], "wibble");
    assert!(turn["asked back"][0]["ask"].as_str().unwrap().contains("7.4"), "{turn}");
    assert_eq!(object["questions"][0]["words"], "turnover");
    let spans = turn["reading"].as_array().unwrap().iter().map(|s| s["span"].clone());
    for span in spans {
        let (start, end) = (span[0].as_u64().unwrap() as usize, span[1].as_u64().unwrap() as usize);
        assert!(start < end && end <= turn["said"].as_str().unwrap().len());
    }
}

#[test]
fn the_next_question_says_what_it_decides() {
    let mut conversation = talk(&super::shipped(), Length::Full);
    conversation.take("55 gallon, 30 small tetras, fry present");
    let next = conversation.object()["next"].clone();
    for key in ["attribute", "ask", "why", "measure"] {
        assert!(next.get(key).is_some(), "{key}");
    }
    assert!(next["why"].as_array().is_some_and(|w| !w.is_empty()), "{next}");
}

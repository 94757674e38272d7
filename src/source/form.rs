//! The form of a file: which keys may stand where, and what belongs behind them. In: a tree of places and the form as a
//! JSON Schema. Out: every slip of form in the file, not only the first. Knows no meaning of a key.

use super::fault::{Fault, Place};
use super::suggest::nearest;
use super::words::{capital, or_list, ticked};
use super::yaml::{Kind, Node};
use serde_json::Value;

/// Words that people write for keys of a rule file.
const OTHER_WORDS: &[(&str, &str)] = &[
    ("if", "when"),
    ("condition", "when"),
    ("conditions", "when"),
    ("then", "conclude"),
    ("concludes", "conclude"),
    ("conclusion", "conclude"),
    ("advice", "advise"),
    ("advises", "advise"),
    ("reason", "because"),
    ("reasons", "because"),
    ("why", "because"),
    ("text", "say"),
    ("says", "say"),
    ("sentence", "say"),
    ("do", "steps"),
    ("step", "steps"),
    ("how", "steps"),
    ("name", "rule"),
    ("name", "figure"),
    ("thing", "for"),
    ("each", "for"),
    ("caution", "cautions"),
    ("danger", "cautions"),
    ("warning", "cautions"),
    ("sources", "source"),
    ("example", "examples"),
    ("tests", "examples"),
    ("priority", "outranks"),
    ("beats", "outranks"),
    ("overrides", "outranks"),
    ("formula", "is"),
    ("value", "is"),
    ("range", "between"),
    ("unit", "shown in"),
    ("question", "topic"),
    ("when", "urgency"),
    ("soon", "urgency"),
];

/// Every slip of form below `node`.
pub fn faults(file: &str, text: &str, node: &Node, schema: &Value) -> Vec<Fault> {
    let mut walk = Walk { file, text, root: schema, faults: vec![] };
    walk.value(node, schema, &mut vec![]);
    walk.faults
}

/// What belongs at a place.
enum Form<'s> {
    Text,
    Number,
    YesOrNo,
    Words(Vec<&'s str>),
    List(&'s Value),
    Keys(&'s Value),
    Anything,
}

struct Walk<'s> {
    file: &'s str,
    text: &'s str,
    root: &'s Value,
    faults: Vec<Fault>,
}

/// A key on the way down, with the form that it stands in.
type Above<'s> = Vec<(&'s str, &'s Value)>;

impl<'s> Walk<'s> {
    fn form(&self, schema: &'s Value) -> Form<'s> {
        let schema = self.resolve(schema);
        if let Some(choices) = schema.get("anyOf").or(schema.get("oneOf")).and_then(Value::as_array) {
            let words = words_of(schema);
            if !words.is_empty() {
                return Form::Words(words);
            }
            let real = choices.iter().find(|c| c.get("type").and_then(Value::as_str) != Some("null"));
            return real.map_or(Form::Anything, |c| self.form(c));
        }
        if schema.get("enum").is_some() || schema.get("const").is_some() {
            return Form::Words(words_of(schema));
        }
        let types: Vec<&str> = match schema.get("type") {
            Some(Value::String(one)) => vec![one],
            Some(Value::Array(several)) => several.iter().filter_map(Value::as_str).collect(),
            _ => vec![],
        };
        match types.iter().find(|t| **t != "null") {
            Some(&"string") => Form::Text,
            Some(&"integer" | &"number") => Form::Number,
            Some(&"boolean") => Form::YesOrNo,
            Some(&"array") => schema.get("items").map_or(Form::Anything, Form::List),
            Some(&"object") => Form::Keys(schema),
            _ => Form::Anything,
        }
    }

    fn resolve(&self, schema: &'s Value) -> &'s Value {
        match schema.get("$ref").and_then(Value::as_str) {
            Some(path) => self.root.pointer(path.trim_start_matches('#')).unwrap_or(schema),
            None => schema,
        }
    }

    fn place(&self, node: &Node) -> Place {
        Place::new(self.file, node.span)
    }

    fn value(&mut self, node: &Node, schema: &'s Value, above: &mut Above<'s>) {
        let form = self.form(schema);
        match (&form, &node.kind) {
            (Form::Anything, _) | (Form::Text, Kind::Text { .. }) => {}
            (_, Kind::Empty) => {} // Told by the traps already.
            (Form::Words(words), Kind::Text { text, .. }) if words.contains(&text.as_str()) => {}
            (Form::Words(words), Kind::Text { text, .. }) => {
                let fault =
                    Fault::error("unknown-word", self.place(node), format!("{} cannot stand here", ticked(text)))
                        .note(format!("it may be {}", or_list(&words.iter().map(|w| ticked(w)).collect::<Vec<_>>())));
                let near = nearest(text, words.iter().copied());
                self.faults.push(match near {
                    Some(near) => fault.cure(near),
                    None => fault,
                });
            }
            (Form::Number, Kind::Text { text, .. }) if text.parse::<f64>().is_ok() => {}
            (Form::YesOrNo, Kind::Text { text, .. }) if matches!(text.as_str(), "true" | "false") => {}
            (Form::YesOrNo, Kind::Text { text, .. }) => {
                let fault = Fault::error(
                    "unknown-word",
                    self.place(node),
                    format!("{} cannot stand here; it is `true` or left out", ticked(text)),
                );
                self.faults.push(match text.to_lowercase().as_str() {
                    "yes" | "y" | "on" => fault.cure("true"),
                    _ => fault,
                });
            }
            (Form::List(item), Kind::List(items)) => items.iter().for_each(|i| self.value(i, item, above)),
            (Form::Keys(keys), Kind::Map(pairs)) => self.keys(node, pairs, keys, above),
            _ => {
                let fault = self.wrong_form(node, &form);
                self.faults.push(fault);
            }
        }
    }

    fn keys(&mut self, node: &Node, pairs: &[(Node, Node)], schema: &'s Value, above: &mut Above<'s>) {
        let properties = schema.get("properties").and_then(Value::as_object);
        let open = schema.get("additionalProperties").filter(|a| a.is_object());
        for (key, value) in pairs {
            let known = properties.and_then(|p| p.get_key_value(key.text()));
            match (known, open) {
                (Some((name, schema_of_value)), _) => {
                    above.push((name, schema));
                    self.value(value, schema_of_value, above);
                    above.pop();
                }
                (None, Some(open)) => self.value(value, open, above),
                (None, None) => {
                    let fault = self.unknown_key(key, schema, above);
                    self.faults.push(fault);
                }
            }
        }
        let required = schema.get("required").and_then(Value::as_array).into_iter().flatten();
        for name in required.filter_map(Value::as_str) {
            if !pairs.iter().any(|(k, _)| k.text() == name) {
                // A misspelt key is one slip, not two.
                let misspelt = self.faults.iter().any(|f| {
                    f.name == "unknown-key"
                        && f.cure.as_deref() == Some(name)
                        && node.span.start <= f.place.span.start
                        && f.place.span.end <= node.span.end
                });
                if !misspelt {
                    let place = pairs.first().map_or(self.place(node), |(k, _)| self.place(k));
                    let fault = Fault::error("missing-key", place, format!("the key `{name}` is missing here"));
                    self.faults.push(match meaning(schema, name) {
                        Some(meaning) => fault.note(format!("`{name}`: {meaning}")),
                        None => fault,
                    });
                }
            }
        }
    }

    fn unknown_key(&self, key: &Node, schema: &'s Value, above: &Above<'s>) -> Fault {
        let name = key.text();
        let allowed = names(schema);
        let fault =
            Fault::error("unknown-key", self.place(key), format!("there is no key called {} here", ticked(name)));
        if let Some((_, known)) = OTHER_WORDS.iter().find(|(w, k)| *w == name && allowed.contains(k)) {
            return fault.cure(*known);
        }
        if let Some(near) = nearest(name, allowed.iter().copied()) {
            return fault.cure(near);
        }
        let meant = OTHER_WORDS.iter().filter(|(_, k)| allowed.contains(k));
        if let Some(near) = nearest(name, meant.clone().map(|(w, _)| *w)) {
            return fault.cure_if(meant.clone().find(|(w, _)| *w == near).map(|(_, k)| *k));
        }
        let below = |k: &&&str| self.child(schema, k).is_some_and(|child| names(child).contains(&name));
        if let Some(parent) = allowed.iter().find(below) {
            return fault.cure(format!("move it under `{parent}:`, two spaces further right than `{parent}`"));
        }
        if let Some((beside, _)) = above.iter().rev().find(|(_, form)| names(form).contains(&name)) {
            return fault.cure(format!("move it to the left until it stands under `{beside}`"));
        }
        fault.note(format!("keys that may stand here: {}", allowed.join(", ")))
    }

    fn child(&self, schema: &'s Value, key: &str) -> Option<&'s Value> {
        match self.form(schema.get("properties")?.get(key)?) {
            Form::Keys(keys) => Some(keys),
            _ => None,
        }
    }

    fn wrong_form(&self, node: &Node, form: &Form) -> Fault {
        let place = self.place(node);
        let written = node.span.of(self.text);
        let found = match &node.kind {
            Kind::Text { .. } => "one text",
            Kind::List(_) => "a list",
            Kind::Map(_) => "keys with values",
            Kind::Empty => "nothing",
        };
        let wanted = match form {
            Form::Text | Form::Words(_) => "one text",
            Form::Number => "a number",
            Form::YesOrNo => "`true`",
            Form::List(_) => "a list",
            Form::Keys(_) => "keys with values",
            Form::Anything => "a value",
        };
        if matches!(form, Form::Text | Form::Words(_)) && written.starts_with(['{', '[']) {
            return Fault::error("brace-at-start", place, "a text that begins with `{` or `[` is not read as text")
                .cure("put quotes round the whole text");
        }
        if let (Form::Text, Kind::Map(pairs)) = (form, &node.kind) {
            let place = pairs.first().map_or(place, |(k, _)| self.place(k));
            return Fault::error("colon-in-text", place, "a colon followed by a space starts a new key here")
                .cure("put quotes round the whole text");
        }
        let fault = Fault::error("wrong-form", place, format!("{wanted} should stand here, and this is {found}"));
        match (form, &node.kind) {
            (Form::List(_), Kind::Text { text, .. }) => fault.cure(format!("[{text}]")),
            (Form::Text, Kind::List(items)) if items.len() == 1 => fault.cure(items[0].text()),
            (Form::Keys(keys), Kind::Text { .. }) => {
                fault.note(format!("keys that may stand here: {}", names(keys).join(", ")))
            }
            _ => fault,
        }
    }
}

fn names(schema: &Value) -> Vec<&str> {
    schema.get("properties").and_then(Value::as_object).map_or(vec![], |p| p.keys().map(String::as_str).collect())
}

/// All words that a list of choices allows.
fn words_of(schema: &Value) -> Vec<&str> {
    let mut words: Vec<&str> = Vec::new();
    words.extend(schema.get("const").and_then(Value::as_str));
    words.extend(schema.get("enum").and_then(Value::as_array).into_iter().flatten().filter_map(Value::as_str));
    for choice in schema.get("oneOf").or(schema.get("anyOf")).and_then(Value::as_array).into_iter().flatten() {
        words.extend(words_of(choice));
    }
    words
}

/// What the form says of a key.
fn meaning(schema: &Value, key: &str) -> Option<String> {
    let text = schema.get("properties")?.get(key)?.get("description")?.as_str()?;
    Some(capital(text.trim_end_matches('.')))
}

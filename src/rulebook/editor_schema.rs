//! The form of rule and knowledge files for editors, with the names of one book in it, so that they complete and underline.
//! In: a book. Out: two JSON Schemas. The same book always gives the same bytes.

use super::Book;
use super::raw::RuleFile;
use super::topics;
use crate::knowledge::advice::{Caution, Job, Question, Symptom, Term};
use crate::knowledge::basis::{Source, Working};
use crate::knowledge::language::Language;
use crate::knowledge::media::{Filter, Medium, Treatment};
use crate::knowledge::schema::{AttributeId, Kinds};
use crate::knowledge::stock::{Ambiguous, Class, Group, Plant, Plural, Stage, Stock};
use crate::knowledge::table::Table;
use crate::knowledge::vocabulary::Vocabulary;
use crate::units::Dimension;
use crate::units::unit::UNITS;
use crate::water::signatures;
use schemars::{JsonSchema, schema_for};
use serde_json::{Map, Value, json};
use std::collections::BTreeSet;

/// The schema of the files in `rules/`.
pub fn of_rules(book: &Book) -> String {
    let mut schema = plain(schema_for!(RuleFile).to_value());
    let several = book.schema.things.iter().filter(|t| t.several).map(|t| t.name.as_str());
    let things: Vec<&str> = several.collect();
    let figures: Vec<&str> = book.rules.figures.iter().map(|f| f.name.as_str()).collect();
    let units: Vec<&str> = UNITS.iter().map(|u| u.name).filter(|n| !n.is_empty()).collect();
    let sources = book.knowledge.names(Table::Source);
    for (entry, key, words) in [
        ("RawRule", "topic", topics::names().collect::<Vec<_>>()),
        ("RawPicture", "topic", topics::names().collect()),
        ("RawRule", "for", things.clone()),
        ("RawFigure", "for", things),
        ("RawRule", "cautions", book.knowledge.names(Table::Caution)),
        ("RawRule", "source", sources.clone()),
        ("RawFigure", "source", sources.clone()),
        ("RawPicture", "source", sources),
        ("RawAdvice", "figures", figures),
        ("RawFigure", "shown in", units.clone()),
        ("RawPicture", "shown in", units),
    ] {
        only(&mut schema, &format!("/$defs/{entry}/properties/{key}"), words);
    }
    // A condition is any text; its names are offered.
    let names = names(book);
    for (entry, key) in [("RawRule", "when"), ("RawFigure", "is")] {
        offer(&mut schema, &format!("/$defs/{entry}/properties/{key}"), &names);
    }
    text("A rule file", schema)
}

/// The schema of the files in `knowledge/`: each kind of entry by the key that begins it.
pub fn of_knowledge(book: &Book) -> String {
    let mut definitions = Map::new();
    let schemas: Vec<(Table, Value)> = Table::ALL.into_iter().map(|table| (table, entry(table))).collect();
    let mut entries = Vec::new();
    for (table, schema) in &schemas {
        let mut schema = adopted(schema.clone(), table.key(), &mut definitions);
        if schema.pointer("/properties/facts").is_some() {
            let value = json!({"type": ["string", "number", "boolean"]});
            let facts: Map<String, Value> = attributes(book, *table).into_iter().map(|a| (a, value.clone())).collect();
            schema["properties"]["facts"] = json!({"type": "object", "properties": facts});
        }
        for (key, of) in [("like", Table::Class), ("group", Table::Group), ("cautions", Table::Caution)] {
            if key != table.key() {
                only(&mut schema, &format!("/properties/{key}"), book.knowledge.names(of));
            }
        }
        let key = table.key();
        definitions.insert(key.to_string(), schema);
        // The key that begins an entry may also stand inside entries of another table: a kind of stock has a group.
        let inside = |(other, schema): &&(Table, Value)| {
            other != table && schema.pointer("/properties").and_then(|p| p.get(key)).is_some()
        };
        let others: Vec<Value> =
            schemas.iter().filter(inside).map(|(other, _)| json!({"required": [other.key()]})).collect();
        let condition = match others.is_empty() {
            true => json!({"required": [key]}),
            false => json!({"required": [key], "not": {"anyOf": others}}),
        };
        entries.push(json!({"if": condition, "then": {"$ref": format!("#/$defs/{key}")}}));
    }
    for (name, schema) in [
        ("vocabulary", plain(schema_for!(Vocabulary).to_value())),
        ("language", any_word(plain(schema_for!(Language).to_value()))),
    ] {
        let schema = adopted(schema, name, &mut definitions);
        definitions.insert(name.to_string(), schema);
    }
    let mut schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$defs": definitions,
        "if": {"type": "array"},
        "then": {"items": {"type": "object", "allOf": entries}},
        "else": {
            "if": {"required": ["things"]},
            "then": {"$ref": "#/$defs/vocabulary"},
            "else": {"$ref": "#/$defs/language"},
        },
    });
    let words = ["kind", "yes or no", "text", "thing"];
    let measures: Vec<&str> = Dimension::NAMED.iter().map(|(name, _)| *name).chain(words).collect();
    only(&mut schema, "/$defs/Attribute/properties/is", measures);
    let tables: Vec<&str> = Table::ALL.iter().map(|t| t.key()).collect();
    only(&mut schema, "/$defs/Attribute/properties/kinds from", tables);
    only(&mut schema, "/$defs/Basis/properties/published", book.knowledge.names(Table::Source));
    only(&mut schema, "/$defs/Basis/properties/worked out", book.knowledge.names(Table::Working));
    text("A file of the tables, the vocabulary or the words of everyday speech", schema)
}

/// A schema whose definitions have gone to the common ones; one that is another thing of the same name is renamed.
fn adopted(mut schema: Value, prefix: &str, definitions: &mut Map<String, Value>) -> Value {
    let Some(Value::Object(own)) = schema.as_object_mut().and_then(|o| o.remove("$defs")) else { return schema };
    let clashes: Vec<String> = own
        .iter()
        .filter(|(name, of)| definitions.get(*name).is_some_and(|d| d != *of))
        .map(|(n, _)| n.clone())
        .collect();
    for (name, mut of) in own {
        let renamed = if clashes.contains(&name) { format!("{prefix} {name}") } else { name };
        clashes.iter().for_each(|clash| rename(&mut of, clash, prefix));
        definitions.insert(renamed, of);
    }
    clashes.iter().for_each(|clash| rename(&mut schema, clash, prefix));
    schema
}

/// Points every reference to a definition at the renamed one.
fn rename(value: &mut Value, name: &str, prefix: &str) {
    match value {
        Value::Array(list) => list.iter_mut().for_each(|v| rename(v, name, prefix)),
        Value::Object(object) => {
            if object.get("$ref").and_then(Value::as_str) == Some(&format!("#/$defs/{name}")) {
                object.insert("$ref".into(), format!("#/$defs/{prefix} {name}").into());
            }
            object.values_mut().for_each(|v| rename(v, name, prefix));
        }
        _ => {}
    }
}

fn entry(table: Table) -> Value {
    fn of<T: JsonSchema>() -> Value {
        plain(schema_for!(T).to_value())
    }
    match table {
        Table::Ambiguous => of::<Ambiguous>(),
        Table::Stock => of::<Stock>(),
        Table::Plant => of::<Plant>(),
        Table::Medium => of::<Medium>(),
        Table::Filter => of::<Filter>(),
        Table::Treatment => of::<Treatment>(),
        Table::Stage => of::<Stage>(),
        Table::Group => of::<Group>(),
        Table::Symptom => of::<Symptom>(),
        Table::Caution => of::<Caution>(),
        Table::Job => of::<Job>(),
        Table::Term => of::<Term>(),
        Table::Class => of::<Class>(),
        Table::Question => of::<Question>(),
        Table::Source => of::<Source>(),
        Table::Working => of::<Working>(),
        Table::Plural => of::<Plural>(),
    }
}

/// Attributes that entries of a table state, and those that the vocabulary declares of the thing.
fn attributes(book: &Book, table: Table) -> BTreeSet<String> {
    let mut out: BTreeSet<String> = BTreeSet::new();
    for n in 0..book.knowledge.count(table) {
        let facts = book.knowledge.entry(table, n).and_then(|e| e.facts());
        out.extend(facts.into_iter().flat_map(|f| f.iter()).map(|(attribute, _)| attribute.to_string()));
    }
    let thing = book.knowledge.vocabulary.thing(table.key());
    out.extend(thing.into_iter().flat_map(|t| &t.attributes).map(|a| a.attribute.clone()));
    out
}

/// What a condition may name: facts, with a kind where they have few, figures, conclusions, calculations.
fn names(book: &Book) -> Vec<String> {
    let mut out = BTreeSet::new();
    for id in (0..book.schema.attributes.len()).map(|n| AttributeId(n as u16)) {
        let path = book.schema.path_name(id);
        if let Kinds::List(list) = &book.schema.of(id).kinds
            && list.len() <= 12
        {
            out.extend(list.iter().map(|s| format!("{path} = {}", book.schema.word(*s))));
        }
        out.insert(path);
    }
    out.extend(book.rules.figures.iter().map(|f| f.name.clone()));
    out.extend(book.rules.conclusions.iter().map(|c| c.name.clone()));
    for signature in signatures::all() {
        let inputs: Vec<&str> = signature.inputs.iter().map(|(name, _)| *name).collect();
        out.insert(format!("{}({})", signature.name, inputs.join(", ")));
    }
    out.into_iter().collect()
}

/// Lists of everyday words hold some that YAML takes for more than a word: true, 2.
fn any_word(mut value: Value) -> Value {
    match &mut value {
        Value::Array(list) => list.iter_mut().for_each(|v| *v = any_word(v.take())),
        Value::Object(object) => {
            if object.get("type").is_some_and(|t| t == "string") && object.len() == 1 {
                object.insert("type".into(), json!(["string", "number", "boolean"]));
            }
            object.values_mut().for_each(|v| *v = any_word(v.take()));
        }
        _ => {}
    }
    value
}

/// Takes out what editors stumble over: a key that may be left out may not be empty instead.
fn plain(mut schema: Value) -> Value {
    tidy(&mut schema);
    schema
}

fn tidy(value: &mut Value) {
    match value {
        Value::Array(list) => list.iter_mut().for_each(tidy),
        Value::Object(object) => {
            object.remove("default");
            object.remove("format");
            if let Some(Value::Array(types)) = object.get_mut("type") {
                types.retain(|t| t != "null");
                if let [one] = &types[..] {
                    let one = one.clone();
                    object.insert("type".into(), one);
                }
            }
            if let Some(Value::Array(choices)) = object.get_mut("anyOf") {
                choices.retain(|c| c.get("type").is_none_or(|t| t != "null"));
                if let [one] = &choices[..] {
                    let one = one.clone();
                    object.remove("anyOf");
                    if let Value::Object(one) = one {
                        object.extend(one);
                    }
                }
            }
            object.values_mut().for_each(tidy);
        }
        _ => {}
    }
}

/// The text, or each text of the list, at `path` must be one of `words`.
fn only(schema: &mut Value, path: &str, words: Vec<&str>) {
    let Some(found) = schema.pointer_mut(path) else { return };
    match found.get_mut("items") {
        Some(items) => items["enum"] = json!(words),
        None => found["enum"] = json!(words),
    }
}

/// The text, or each text of the list, at `path` may be anything; `words` are offered.
fn offer(schema: &mut Value, path: &str, words: &[String]) {
    let Some(found) = schema.pointer_mut(path) else { return };
    let offered = json!({"anyOf": [{"type": ["string", "number"]}, {"enum": words}]});
    match found.get_mut("items") {
        Some(items) => *items = offered,
        None => {
            if let Value::Object(object) = found {
                object.remove("type");
                object.insert("anyOf".into(), offered["anyOf"].clone());
            }
        }
    }
}

fn text(title: &str, mut schema: Value) -> String {
    schema["title"] = title.into();
    let text = serde_json::to_string_pretty(&schema).unwrap_or_default();
    format!("{text}\n")
}

//! Listening: a line of text to a reading. In: text, lexicon, what the call holds. Out: statements, questions, acts, and
//! every word that was not used. Knows no rule and no engine.

mod acts;
mod after;
mod amount;
mod ask;
mod attributes;
mod bind;
mod clause;
mod cues;
mod danger;
mod event;
mod filter_words;
mod found;
mod items;
mod lean;
mod lexicon;
mod line;
mod measure;
mod mention;
mod name;
mod neighbour;
mod number;
mod page;
mod quantity_words;
pub mod reading;
mod reading_words;
mod sizes;
mod spelling;
mod state;
mod stock;
mod stream;
mod subjects;
mod tank_words;
mod tell;
mod term;
mod time_words;
mod turn;
mod value;
mod words;

pub use line::Listener;

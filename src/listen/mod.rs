//! Listening: a line of text to a reading. In: text, lexicon, what the call holds. Out: statements, questions, acts, and
//! every word that was not used. Knows no rule and no engine.

pub mod reading;

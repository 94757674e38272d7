//! Knowledge: what a fish, a medium or a filter is, and the vocabulary that callers and rules share.
//! In: the YAML under `knowledge/`. Out: typed tables and look-ups. Knows no rule.

pub mod vocabulary;

//! rulebook

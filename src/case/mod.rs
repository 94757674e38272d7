//! case

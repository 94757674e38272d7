//! reply

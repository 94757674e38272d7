//! archive

//! Saved calls: text and back, files and folders, what differs, and every call of transcripts-demo answered again.

mod files;
mod form;
mod kill;
mod transcripts;

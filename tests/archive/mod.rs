//! Saved calls: text and back, files and folders, what differs, and every call of transcripts-demo answered again.

mod causes;
mod command;
mod compare;
mod files;
mod form;
mod kill;
mod sheet;
mod transcripts;

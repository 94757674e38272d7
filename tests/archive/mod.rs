//! Saved calls: text and back, files and folders, what differs, and every call of transcripts-demo answered again.

mod causes;
mod command;
mod compare;
mod files;
mod form;
mod kill;
mod sheet;
mod transcripts;

#[test]
fn the_built_in_book_knows_its_version_without_hashing_itself() {
    use weirline::rulebook::{Book, library::built_in_texts, version::version};
    let book = Book::built_in().unwrap_or_else(|faults| panic!("{faults:?}"));
    assert_eq!(book.version(), version(&built_in_texts()));
}

//! The pages of all faults, in the order a book is read: files, expressions, entries, reasoning, examples.

mod entries;
mod examples;
mod expressions;
mod files;
mod reasoning;

use super::Page;

/// Every fault that `check` may find, each once.
pub fn pages() -> impl Iterator<Item = &'static Page> {
    [files::PAGES, expressions::PAGES, entries::PAGES, reasoning::PAGES, examples::PAGES].into_iter().flatten()
}

/// The page of a fault's name.
pub fn page(name: &str) -> Option<&'static Page> {
    pages().find(|p| p.name == name)
}

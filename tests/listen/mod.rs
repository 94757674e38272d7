//! Listening: what callers say and what is made of it.

mod calls;
mod compare;
mod forms;
pub mod notation;
mod properties;
mod voices;
mod written;

use std::sync::OnceLock;
use weirline::listen::Listener;

/// The listener of the shipped book.
pub fn listener() -> &'static Listener {
    static LISTENER: OnceLock<Listener> = OnceLock::new();
    LISTENER.get_or_init(|| Listener::new(crate::knowledge::book()))
}

//! What the chat, piped lines and the single call share: a conversation, its book, the saved calls. In: lines. Out: text.

use super::book::{Look, NoBook, Opened, open_to_hear};
use super::keep::Keep;
use super::outcome::{Closed, Outcome, show, tell, tell_text};
use super::settings::Settings;
use crate::archive::Conversation;
use crate::reply::lines::set;
use crate::reply::page::{Page, Row, Tone};
use crate::reply::paint::paint;
use serde_json::json;
use std::sync::Arc;

/// A conversation with what is around it.
pub struct Talk {
    pub conversation: Conversation,
    settings: Settings,
    look: Look,
    keep: Keep,
    /// What was typed and shown, for the JSON object.
    replies: Vec<(String, String)>,
    /// The page named its book already.
    named: bool,
}

impl Talk {
    /// Opens the book in use; its faults are told when it cannot be.
    pub fn open(settings: &Settings, once: bool) -> Result<Self, Outcome> {
        // Looked at before it is read: an edit made meanwhile is seen at the next turn.
        let look = settings.book.as_deref().map(Look::at).unwrap_or_default();
        let Opened { book, hear, warnings } = open_to_hear(settings.book.as_deref()).map_err(|no_book| {
            no_book.tell();
            Outcome::Wrong
        })?;
        if !warnings.is_empty() {
            tell_text(&super::book::drawn(&warnings, &book.files));
        }
        let conversation = Conversation::new(Arc::new(book), hear, settings.manner(once));
        let keep = Keep::new(settings);
        Ok(Self { conversation, settings: settings.clone(), look, keep, replies: vec![], named: false })
    }

    /// Goes on with a saved call; `Err` tells why it cannot be.
    pub fn go_on(&mut self, name: &str) -> Result<(), String> {
        let page = self.keep.open(name, &mut self.conversation)?;
        if !self.settings.json {
            // A reader that has gone away is noticed at the next turn.
            let _ = show(&paint(&set(&page, self.settings.width), self.settings.colour));
        }
        Ok(())
    }

    /// Takes a line and shows the reply; `true` when the caller leaves.
    pub fn turn(&mut self, line: &str) -> Result<bool, Closed> {
        let changed = self.watch();
        let before = self.conversation.current();
        let reply = self.conversation.take(line);
        let mut page = Page::default();
        if !self.named && self.settings.book.is_some() {
            page.push(Row::new("Book", Tone::Quiet, self.conversation.book().name.clone()));
        }
        self.named = true;
        page.rows.extend(changed.rows);
        let leaves = reply.leaves;
        if self.settings.json {
            self.replies.push((line.to_string(), reply.page.words()));
        }
        page.rows.extend(reply.page.rows.clone());
        match &reply.errand {
            Some(errand) => page.rows.extend(self.keep.run(errand, &mut self.conversation).rows),
            None if leaves => {}
            None => self.keep.note(line, &reply, before, &self.conversation),
        }
        if !self.settings.json && !page.rows.is_empty() {
            show(&paint(&set(&page, self.settings.width), self.settings.colour))?;
        }
        Ok(leaves)
    }

    /// The call as one JSON object, with what each line was answered in words.
    pub fn show_object(&self) -> Result<(), Closed> {
        let mut object = self.conversation.object();
        object["replies"] = self.replies.iter().map(|(said, text)| json!({ "said": said, "text": text })).collect();
        show(&format!("{object}\n"))
    }

    /// Looks whether the book on disk was changed, and takes the new one if it is sound.
    fn watch(&mut self) -> Page {
        let Some(folder) = self.settings.book.clone() else { return Page::default() };
        let look = Look::at(&folder);
        if look == self.look {
            return Page::default();
        }
        self.look = look;
        match open_to_hear(Some(&folder)) {
            Ok(Opened { book, hear, .. }) => self.conversation.change_book(Arc::new(book), hear),
            Err(no_book) => {
                no_book.tell();
                if matches!(no_book, NoBook::Faults(..)) {
                    tell("the book was changed and has faults; the one before is used on");
                }
                Page::default()
            }
        }
    }
}

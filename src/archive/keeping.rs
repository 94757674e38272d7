//! What whoever keeps calls in files asks of a conversation: which call it is, what it told, to begin another. Knows no file.

use super::aside::Call;
use super::conversation::{Conversation, Hear, Manner};
use super::told::Told;
use std::sync::Arc;

impl Conversation {
    /// What reads its lines.
    pub fn hear(&self) -> &Arc<dyn Hear> {
        &self.hear
    }

    /// Which of the calls of this conversation is the present one.
    pub fn current(&self) -> usize {
        self.current
    }

    /// Begins another call, and puts the present one aside if anything was said in it.
    pub fn begin(&mut self) {
        if !self.call().ledger.is_empty() || !self.call().shown.is_empty() {
            self.calls.push(Call::default());
            self.current = self.calls.len() - 1;
        }
    }

    pub fn manner_mut(&mut self) -> &mut Manner {
        &mut self.manner
    }

    /// What was told so far in the present call.
    pub fn told(&self) -> Told {
        self.answer().map(Told::of).unwrap_or_default()
    }
}

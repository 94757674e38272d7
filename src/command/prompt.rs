//! The chat at a terminal. In: keys. Out: answers; the call is saved after every turn when a file is named.

use super::keys::Keys;
use super::outcome::{Outcome, show, tell};
use super::settings::Settings;
use super::talk::Talk;
use crate::archive::history::History;
use crate::reply::paint;
use rustyline::error::ReadlineError;
use rustyline::history::DefaultHistory;
use rustyline::{ColorMode, CompletionType, Config, Editor};

const PROMPT: &str = "call> ";
/// Lines of history kept.
const KEPT: usize = 1000;
const WELCOME: &str = "Say the tank, the fish, the filter and the worry. help shows how, bye leaves.\n";

/// Talks until the caller leaves; goes on with a saved call where one is named.
pub fn chat(settings: &Settings, call: Option<&str>) -> Outcome {
    let mut talk = match Talk::open(settings, false) {
        Ok(talk) => talk,
        Err(outcome) => return outcome,
    };
    let colours = if settings.colour { ColorMode::Enabled } else { ColorMode::Disabled };
    let config = Config::builder()
        .completion_type(CompletionType::List)
        .color_mode(colours)
        .auto_add_history(true)
        .max_history_size(KEPT)
        .map(|builder| builder.build());
    let editor = config.and_then(Editor::<Keys, DefaultHistory>::with_config);
    let mut editor = match editor {
        Ok(editor) => editor,
        Err(why) => {
            tell(&format!("this terminal cannot be used: {why}"));
            return Outcome::Wrong;
        }
    };
    editor.set_helper(Some(Keys::new(talk.conversation.book().clone(), settings.colour)));
    let history = settings.history.as_deref().map(History::at);
    for line in history.iter().flat_map(History::lines) {
        // What cannot be kept in memory only cannot be called up again.
        let _ = editor.add_history_entry(line);
    }
    if show(WELCOME).is_err() {
        return Outcome::Fine;
    }
    if let Some(why) = call.and_then(|name| talk.go_on(name).err()) {
        tell(&why);
        return Outcome::Wrong;
    }
    let prompt = paint::prompt(PROMPT);
    let mut told = false;
    loop {
        let read = match settings.colour {
            true => editor.readline(&prompt),
            false => editor.readline(PROMPT),
        };
        match read {
            Ok(line) => {
                if let Some(Err(why)) = history.as_ref().map(|h| h.add(&line)) {
                    tell(&why.to_string());
                }
                match talk.turn(&line) {
                    Ok(false) => {}
                    Ok(true) | Err(_) => return Outcome::Fine,
                }
                if let Some(keys) = editor.helper_mut() {
                    keys.held(talk.conversation.book().clone(), talk.conversation.ledger().context());
                }
            }
            Err(ReadlineError::Interrupted) => {
                if !told && show("The line is dropped. Ctrl-D or bye leaves.\n").is_err() {
                    return Outcome::Fine;
                }
                told = true;
            }
            Err(ReadlineError::Eof) => return Outcome::Fine,
            Err(why) => {
                tell(&format!("the terminal cannot be read: {why}"));
                return Outcome::Wrong;
            }
        }
    }
}

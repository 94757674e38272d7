//! Writes the sheet of a saved call: HTML beside it, or text. In: the call's name or file. Out: a file, or standard output.

use super::book::{Opened, open_to_hear};
use super::outcome::{Outcome, show, tell};
use super::settings::Settings;
use crate::archive::disk::{Rights, write_whole};
use crate::archive::{folder, sheet};
use crate::reply::lines::set;
use crate::reply::paint::paint;
use crate::reply::{sheet_html, sheet_text};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// By this a file is known as a sheet, which may be written anew.
const MARK: &str = "content=\"weirline sheet\"";

/// `out`: the file; `-` is standard output.
pub fn sheet(name: &str, as_text: bool, out: Option<&str>, settings: &Settings) -> Outcome {
    let named = folder::place(Path::new(&settings.calls), name).filter(|p| p.is_file());
    let Some(path) = named.or_else(|| Some(PathBuf::from(name)).filter(|p| p.is_file())) else {
        tell(&format!("no saved call in {} is called \"{name}\", and there is no such file", settings.calls));
        return Outcome::Wrong;
    };
    let call = match folder::read(&path) {
        Ok(call) => call,
        Err(why) => {
            tell(&why);
            return Outcome::Wrong;
        }
    };
    let Opened { book, hear, .. } = match open_to_hear(settings.book.as_deref()) {
        Ok(opened) => opened,
        Err(no_book) => {
            no_book.tell();
            return Outcome::Wrong;
        }
    };
    let stem = path.file_stem().map_or(String::new(), |s| s.to_string_lossy().into_owned());
    let Some(sheet) = sheet::of_call(&call, &stem, &Arc::new(book), &hear) else {
        tell(&format!("{} says nothing of a tank or a filter, so there is nothing for a sheet", path.display()));
        return Outcome::Wrong;
    };
    if as_text {
        let _ = show(&paint(&set(&sheet_text::page(&sheet), settings.width), settings.colour));
        return Outcome::Fine;
    }
    let html = sheet_html::html(&sheet);
    if out == Some("-") {
        let _ = show(&html);
        return Outcome::Fine;
    }
    let file = out.map_or_else(|| path.with_extension("html"), PathBuf::from);
    // Whatever else is there is not a sheet of ours to be written over.
    if std::fs::read_to_string(&file).is_ok_and(|there| !there.contains(MARK)) {
        tell(&format!("{} is there already and is no sheet; name another file with --out", file.display()));
        return Outcome::Wrong;
    }
    match write_whole(&file, &html, Rights::Private) {
        Ok(()) => {
            let _ = show(&format!("The sheet is in {}: open it in a browser and print it.\n", file.display()));
            Outcome::Fine
        }
        Err(why) => {
            tell(&format!("cannot write {}: {why}", file.display()));
            Outcome::Wrong
        }
    }
}

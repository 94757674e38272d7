//! The books that saved calls were answered with, kept beside them: each file once, by its hash, and a list a version.
//! In: a folder of calls, a book's files. Out: the same files again. Knows no rule.

use super::disk::{Rights, write_whole};
use crate::rulebook::version::{hash, version};
use std::io::{Error, ErrorKind, Result};
use std::path::{Path, PathBuf};

const SHELF: &str = "books";
const FILES: &str = "files";
/// The first line of a list.
const FIRST: &str = "weirline book 1";

fn list_of(folder: &Path, version: &str) -> PathBuf {
    folder.join(SHELF).join(format!("{version}.list"))
}

fn file_of(folder: &Path, hash: &str) -> PathBuf {
    folder.join(SHELF).join(FILES).join(format!("{hash}.yaml"))
}

/// Keeps a book beside the calls of `folder`; what is there already is not written again.
pub fn keep(folder: &Path, files: &[(String, String)]) -> Result<()> {
    let list = list_of(folder, &version(files));
    if list.exists() {
        return Ok(());
    }
    std::fs::create_dir_all(folder.join(SHELF).join(FILES))?;
    let mut lines = format!("{FIRST}\n");
    for (path, text) in files {
        let hash = hash(text);
        let file = file_of(folder, &hash);
        if !file.exists() {
            write_whole(&file, text, Rights::Usual)?;
        }
        lines.push_str(&format!("{hash} {path}\n"));
    }
    // The list last: where it stands, every file of it does.
    write_whole(&list, &lines, Rights::Usual)
}

/// The files of a version. Errors: it is not kept here, or what is kept is not what it was.
pub fn take(folder: &Path, wanted: &str) -> Result<Vec<(String, String)>> {
    let broken = |what: String| Error::new(ErrorKind::InvalidData, what);
    // A version comes out of a file that anybody may have written: it names a list here and nothing else.
    if wanted.is_empty() || !wanted.chars().all(|c| c.is_ascii_alphanumeric()) {
        return Err(broken(format!("\"{wanted}\" is no version")));
    }
    let list = std::fs::read_to_string(list_of(folder, wanted))?;
    let mut lines = list.lines();
    if lines.next() != Some(FIRST) {
        return Err(broken(format!("the list of version {wanted} is of another form")));
    }
    let mut files = Vec::new();
    for line in lines {
        let (hash, path) = line.split_once(' ').ok_or_else(|| broken(format!("no file: {line}")))?;
        if !hash.chars().all(|c| c.is_ascii_hexdigit()) {
            return Err(broken(format!("no hash: {hash}")));
        }
        files.push((path.to_string(), std::fs::read_to_string(file_of(folder, hash))?));
    }
    match version(&files) == wanted {
        true => Ok(files),
        false => Err(broken(format!("the files of version {wanted} were changed"))),
    }
}

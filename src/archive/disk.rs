//! Files written whole or not at all, by one writer at a time. In: a path, a text. Out: the file, or why not. Knows no call.

use std::fs::{File, TryLockError};
use std::io::{Error, ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// How long another writer is waited for.
const PATIENCE: Duration = Duration::from_secs(3);
const BETWEEN_TRIES: Duration = Duration::from_millis(10);

/// Who may read a file that was not there before; one that was there keeps its rights.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rights {
    /// The owner alone: calls and history.
    Private,
    /// What is usual: books.
    Usual,
}

/// Why something was not saved. The call is still in memory then.
#[derive(Debug)]
pub enum NotSaved {
    /// Another call is there.
    Taken(PathBuf),
    /// Somebody changed the file since it was last written or read here.
    Changed(PathBuf),
    /// Somebody else is writing in that folder.
    Busy(PathBuf),
    /// The folder is not there.
    NoFolder(PathBuf),
    Failed(PathBuf, Error),
}

impl std::fmt::Display for NotSaved {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Taken(path) => write!(f, "{} is there already and holds something else", path.display()),
            Self::Changed(path) => write!(f, "{} was changed by somebody else", path.display()),
            Self::Busy(folder) => write!(f, "somebody else is writing in {}", folder.display()),
            Self::NoFolder(folder) => write!(f, "there is no folder {}", folder.display()),
            Self::Failed(path, why) => {
                // What follows is the name of the file beside it, which is gone again.
                let why = why.to_string();
                let why = why.split(" at path ").next().unwrap_or("");
                write!(f, "cannot write {}: {why}", path.display())
            }
        }
    }
}

/// The folder a file stands in.
pub fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// Writes a file whole or not at all: into a new file beside it, which then takes its name. Replaces what was there.
pub fn write_whole(path: &Path, text: &str, rights: Rights) -> std::io::Result<()> {
    let new = written_beside(path, text, rights)?;
    new.persist(path).map_err(|e| e.error)?;
    sync_folder(folder_of(path));
    Ok(())
}

/// The text in a file of another name in the same folder, on the disk; it vanishes unless it is given its name.
fn written_beside(path: &Path, text: &str, rights: Rights) -> std::io::Result<tempfile::NamedTempFile> {
    // Such a file is the owner's alone from the beginning.
    let mut file = tempfile::Builder::new().prefix(".weirline-").tempfile_in(folder_of(path))?;
    file.write_all(text.as_bytes())?;
    let rights = match std::fs::metadata(path) {
        Ok(there) => Some(there.permissions()),
        Err(_) => (rights == Rights::Usual).then(usual_rights).flatten(),
    };
    if let Some(rights) = rights {
        file.as_file().set_permissions(rights)?;
    }
    file.as_file().sync_all()?;
    Ok(file)
}

/// A new name must reach the disk, too; a folder that cannot be synced has done so itself or never will.
fn sync_folder(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

#[cfg(unix)]
fn usual_rights() -> Option<std::fs::Permissions> {
    use std::os::unix::fs::PermissionsExt;
    Some(std::fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn usual_rights() -> Option<std::fs::Permissions> {
    None
}

/// Holds a folder for one writer until it is dropped.
#[derive(Debug)]
pub struct Hold(#[allow(dead_code)] Option<File>);

/// Waits a while for the folder to be free. A file system that knows no locks is used without.
pub fn hold(folder: &Path) -> Result<Hold, NotSaved> {
    let file = lock_file(folder).map_err(|why| match why.kind() {
        ErrorKind::NotFound | ErrorKind::NotADirectory => NotSaved::NoFolder(folder.to_path_buf()),
        _ => NotSaved::Failed(folder.to_path_buf(), why),
    })?;
    let began = Instant::now();
    loop {
        match file.try_lock() {
            Ok(()) => return Ok(Hold(Some(file))),
            Err(TryLockError::WouldBlock) if began.elapsed() < PATIENCE => std::thread::sleep(BETWEEN_TRIES),
            Err(TryLockError::WouldBlock) => return Err(NotSaved::Busy(folder.to_path_buf())),
            Err(TryLockError::Error(_)) => return Ok(Hold(None)),
        }
    }
}

/// The folder itself is what is locked, so that no other file is left behind.
#[cfg(unix)]
fn lock_file(folder: &Path) -> std::io::Result<File> {
    if folder.is_dir() { File::open(folder) } else { Err(Error::from(ErrorKind::NotFound)) }
}

#[cfg(not(unix))]
fn lock_file(folder: &Path) -> std::io::Result<File> {
    File::options().create(true).write(true).truncate(false).open(folder.join(".weirline-lock"))
}

/// A file that belongs to one call: it is never written over what somebody else put there.
#[derive(Clone, Debug)]
pub struct OwnFile {
    pub path: PathBuf,
    /// What was last written or read here; `None` as long as nothing was.
    last: Option<String>,
}

impl OwnFile {
    /// A file that is to be new.
    pub fn new(path: PathBuf) -> Self {
        Self { path, last: None }
    }

    /// A file that was read.
    pub fn read(path: PathBuf) -> std::io::Result<(Self, String)> {
        let text = std::fs::read_to_string(&path)?;
        Ok((Self { path, last: Some(text.clone()) }, text))
    }

    /// Writes the text, if the file is as it was left; a file that was deleted meanwhile is written anew.
    pub fn write(&mut self, text: &str) -> Result<(), NotSaved> {
        let failed = |why| NotSaved::Failed(self.path.clone(), why);
        let _held = hold(folder_of(&self.path))?;
        match (std::fs::read(&self.path), &self.last) {
            (Err(why), _) if why.kind() == ErrorKind::NotFound => {
                let new = written_beside(&self.path, text, Rights::Private).map_err(failed)?;
                // Somebody who heeds no lock may have been quicker.
                new.persist_noclobber(&self.path).map_err(|e| match e.error.kind() {
                    ErrorKind::AlreadyExists => NotSaved::Taken(self.path.clone()),
                    _ => failed(e.error),
                })?;
                sync_folder(folder_of(&self.path));
            }
            (Err(why), _) => return Err(failed(why)),
            (Ok(_), None) => return Err(NotSaved::Taken(self.path.clone())),
            (Ok(there), Some(last)) if there != last.as_bytes() => return Err(NotSaved::Changed(self.path.clone())),
            (Ok(_), Some(_)) => write_whole(&self.path, text, Rights::Private).map_err(failed)?,
        }
        self.last = Some(text.to_string());
        Ok(())
    }
}

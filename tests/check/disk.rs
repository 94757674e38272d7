//! What can be wrong with the files of a book before anything is read in them.

use std::fs;
use weirline::archive::trial;
use weirline::command::book::read_folder;

/// Names of the faults of a folder made of these files, each with its file.
fn found(make: impl Fn(&std::path::Path)) -> Vec<(String, &'static str)> {
    let folder = tempfile::tempdir().expect("a folder");
    for (path, text) in crate::rules::book::texts() {
        let path = folder.path().join(path);
        fs::create_dir_all(path.parent().expect("a parent")).expect("made");
        fs::write(path, text).expect("written");
    }
    make(folder.path());
    let files = read_folder(folder.path()).expect("a book");
    let report = trial::check(files.texts, files.faults, "test", None);
    let errors = report.faults.into_iter().filter(|f| f.is_error() && f.name != "example-fails");
    errors.map(|f| (f.place.file, f.name)).collect()
}

#[test]
fn files_that_are_no_files_of_a_book() {
    let found = found(|folder| {
        fs::create_dir(folder.join("rules/aside.yaml")).expect("made");
        fs::write(folder.join("rules/latin.yaml"), b"about: caf\xe9\n").expect("written");
        fs::write(folder.join("rules/large.yaml"), "# a line of ten MB\n".repeat(600_000)).expect("written");
        fs::write(folder.join("rules/intake.yaml.bak"), "not read").expect("written");
        fs::write(folder.join("rules/.hidden.yaml"), "\tnot read").expect("written");
        #[cfg(unix)]
        std::os::unix::fs::symlink("nowhere", folder.join("rules/lost.yaml")).expect("made");
    });
    let mut expected = vec![
        ("rules/aside.yaml".to_string(), "folder-like-file"),
        ("rules/large.yaml".to_string(), "file-too-large"),
        ("rules/latin.yaml".to_string(), "not-utf8"),
    ];
    if cfg!(unix) {
        expected.push(("rules/lost.yaml".to_string(), "unreadable-file"));
    }
    expected.sort();
    assert_eq!(found, expected);
}

#[test]
fn a_book_without_its_vocabulary() {
    let found = found(|folder| fs::remove_file(folder.join("knowledge/vocabulary.yaml")).expect("there"));
    assert!(found.contains(&(String::new(), "no-vocabulary")), "{found:?}");
}

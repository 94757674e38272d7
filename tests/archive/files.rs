//! Calls as files: written whole, by one writer, never over another call; names, lists; the books beside them; the history.

use std::path::Path;
use std::process::Command;
use weirline::archive::disk::{NotSaved, OwnFile, Rights, hold, write_whole};
use weirline::archive::folder::{file_name, list};
use weirline::archive::history::History;
use weirline::archive::shelf;
use weirline::rulebook::version::version;

#[cfg(unix)]
fn rights(path: &Path) -> u32 {
    use std::os::unix::fs::PermissionsExt;
    std::fs::metadata(path).unwrap().permissions().mode() & 0o777
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        std::fs::read_dir(folder).unwrap().flatten().map(|e| e.file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn a_file_is_written_whole_and_keeps_its_rights() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("call.txt");
    write_whole(&path, "one", Rights::Private).unwrap();
    #[cfg(unix)]
    assert_eq!(rights(&path), 0o600);
    write_whole(&path, "two", Rights::Usual).unwrap();
    #[cfg(unix)]
    assert_eq!(rights(&path), 0o600, "a file that was there keeps its rights");
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "two");
    assert_eq!(names(folder.path()), ["call.txt"]);
    assert!(write_whole(&folder.path().join("nowhere/call.txt"), "x", Rights::Private).is_err());
}

#[test]
fn a_call_is_never_written_over_another() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("call.txt");
    let mut first = OwnFile::new(path.clone());
    first.write("one").unwrap();
    first.write("one and more").unwrap();
    let mut second = OwnFile::new(path.clone());
    assert!(matches!(second.write("two"), Err(NotSaved::Taken(_))));
    let (mut third, text) = OwnFile::read(path.clone()).unwrap();
    assert_eq!(text, "one and more");
    third.write("three").unwrap();
    assert!(matches!(first.write("one again"), Err(NotSaved::Changed(_))));
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "three");
    std::fs::remove_file(&path).unwrap();
    third.write("three anew").unwrap();
    std::fs::remove_dir_all(folder.path()).unwrap();
    let gone = third.write("lost?").unwrap_err();
    assert!(matches!(gone, NotSaved::NoFolder(_)), "{gone}");
}

/// A folder in which nobody may write, whoever asks.
#[cfg(target_os = "linux")]
#[test]
fn a_folder_that_takes_no_files_is_told_of() {
    let refused = OwnFile::new("/proc/call.txt".into()).write("one").unwrap_err();
    assert!(matches!(refused, NotSaved::Failed(..)), "{refused}");
    assert!(refused.to_string().starts_with("cannot write /proc/call.txt: "), "{refused}");
}

#[test]
fn a_second_writer_waits_and_then_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let held = hold(folder.path()).unwrap();
    let mut file = OwnFile::new(folder.path().join("call.txt"));
    let busy = file.write("one").unwrap_err();
    assert!(matches!(busy, NotSaved::Busy(_)) && busy.to_string().contains("somebody else"), "{busy}");
    drop(held);
    file.write("one").unwrap();
}

/// Writing breaks off after a kilobyte, as on a full disk: what was there stays whole, nothing half is left behind.
#[cfg(unix)]
#[test]
fn a_full_disk_leaves_the_former_call_whole() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("call.txt");
    let line = "trap '' XFSZ; ulimit -f 1; exec \"$0\" --save \"$1\"";
    let mut child = Command::new("sh")
        .args(["-c", line, env!("CARGO_BIN_EXE_weirline"), path.to_str().unwrap()])
        .stdin(std::process::Stdio::piped())
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    use std::io::Write;
    // A short answer fits; the long one does not.
    child.stdin.take().unwrap().write_all(b"hello\n55 gallon, 30 small tetras, fry present\n").unwrap();
    let output = child.wait_with_output().unwrap();
    let (out, err) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert!(output.status.success() && out.contains("Today"), "the call goes on: {out}");
    assert!(err.contains("cannot write") && err.contains("the call is not saved"), "{err}");
    let left = std::fs::read_to_string(&path).unwrap();
    assert!(left.contains("call> hello") && !left.contains("call> 55"), "{left}");
    assert_eq!(names(folder.path()), ["call.txt"]);
}

#[test]
fn names_become_file_names() {
    let cases = [
        ("Mrs Hall's koi", Some("mrs-halls-koi.txt")),
        ("  55 gallon / fry ", Some("55-gallon-fry.txt")),
        ("../../etc/passwd", Some("etc-passwd.txt")),
        ("Größe", Some("größe.txt")),
        ("call.txt", Some("call.txt")),
        ("--", None),
        ("", None),
    ];
    for (name, file) in cases {
        assert_eq!(file_name(name).as_deref(), file, "{name}");
    }
}

#[test]
fn a_list_names_what_cannot_be_read_and_goes_on() {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &[u8]| std::fs::write(folder.path().join(name), text).unwrap();
    write("a.txt", b"weirline call 2\nbook: built in\ndate: 2026-11-25\n\ncall> Koi pond, 2000 gallon\nSay hello.\n");
    write("b.txt", b"\xff\xfe");
    write("c.txt", b"weirline call 1\n\ncall> 20 gallon, guppies\n");
    write("d.md", b"no call");
    let all = list(folder.path(), "").unwrap();
    assert_eq!(all.iter().map(|e| e.name.as_str()).collect::<Vec<_>>(), ["a", "b", "c"]);
    assert_eq!((all[0].date(), all[2].date()), (Some("2026-11-25"), None));
    assert!(all[1].call.as_ref().unwrap_err().contains("b.txt"));
    let found = |words: &str| list(folder.path(), words).unwrap().into_iter().map(|e| e.name).collect::<Vec<_>>();
    assert_eq!(found("koi"), ["a"]);
    assert_eq!(found("gallon GUPPIES"), ["c"]);
    assert_eq!(found("koi guppies"), Vec::<String>::new());
}

#[test]
fn a_book_is_kept_once_and_given_back_as_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let file = |path: &str, text: &str| (path.to_string(), text.to_string());
    let one = vec![file("knowledge/x.yaml", "same\n"), file("rules/a.yaml", "one\n")];
    let two = vec![file("knowledge/x.yaml", "same\n"), file("rules/a.yaml", "two\n")];
    shelf::keep(folder.path(), &one).unwrap();
    shelf::keep(folder.path(), &two).unwrap();
    shelf::keep(folder.path(), &one).unwrap();
    assert_eq!(names(&folder.path().join("books/files")).len(), 3, "the file that both have is kept once");
    assert_eq!(shelf::take(folder.path(), &version(&one)).unwrap(), one);
    assert_eq!(shelf::take(folder.path(), &version(&two)).unwrap(), two);
    for wrong in ["", "../../x", "ffffffffffff"] {
        assert!(shelf::take(folder.path(), wrong).is_err());
    }
    let kept = folder.path().join("books/files");
    for name in names(&kept) {
        std::fs::write(kept.join(name), "changed\n").unwrap();
    }
    assert!(shelf::take(folder.path(), &version(&one)).is_err());
}

#[test]
fn the_history_keeps_the_last_thousand_lines() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("history");
    let history = History::at(path.to_str().unwrap());
    assert_eq!(history.lines(), Vec::<String>::new());
    std::fs::write(&path, (0..1000).map(|n| format!("line {n}\n")).collect::<String>()).unwrap();
    history.add("two\nlines and a \\ sign").unwrap();
    history.add("two\nlines and a \\ sign").unwrap();
    let lines = history.lines();
    assert_eq!((lines.len(), lines[0].as_str()), (1000, "line 1"));
    assert_eq!(lines[999], "two\nlines and a \\ sign");
    #[cfg(unix)]
    {
        let new = History::at(folder.path().join("new").to_str().unwrap());
        new.add("one").unwrap();
        assert_eq!(rights(&folder.path().join("new")), 0o600);
    }
}

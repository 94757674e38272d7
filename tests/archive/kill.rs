//! Killed at random moments while saving: what is left is one of the calls that were written, whole, or none yet.

use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;
use weirline::archive::call::{Exchange, SavedCall};
use weirline::archive::disk::OwnFile;

const KILLS: u64 = 500;
const WHERE: &str = "WEIRLINE_TEST_SAVES_TO";

/// The n-th state of a call that grows.
fn state(turns: usize) -> SavedCall {
    let exchange = |n: usize| Exchange {
        typed: format!("turn {n}"),
        shown: format!("Say        {}\n", "word ".repeat(40 + n % 7).trim_end()),
        ..Exchange::default()
    };
    SavedCall { exchanges: (0..turns).map(exchange).collect(), ..SavedCall::default() }
}

/// Runs in a process of its own, until it is killed: saves a growing call over and over.
#[test]
fn saver() {
    let Some(path) = std::env::var_os(WHERE) else { return };
    let (mut file, turns) = match OwnFile::read(path.clone().into()) {
        Ok((file, text)) => (file, SavedCall::read(&text).map_or(0, |c| c.exchanges.len())),
        Err(_) => (OwnFile::new(path.into()), 0),
    };
    println!("saves");
    for n in turns + 1.. {
        // Never so long that reading it takes the time in which it should be killed.
        if let Err(why) = file.write(&state(n % 60 + 1).write()) {
            println!("failed: {why}");
            return;
        }
        println!("saved");
    }
}

#[test]
fn five_hundred_kills_leave_no_half_written_call() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("call.txt");
    // A fixed sequence of moments; what the machine is doing then differs anyway.
    let mut seed: u64 = 20_261_125;
    let mut next = move || {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        seed >> 33
    };
    let mut saved = 0;
    for n in 0..KILLS {
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["archive::kill::saver", "--exact", "--nocapture", "--test-threads=1"])
            .env(WHERE, &path)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let began = lines.by_ref().map_while(Result::ok).any(|line| line.ends_with("saves"));
        assert!(began, "the saver never began");
        std::thread::sleep(Duration::from_micros(next() % 8_000));
        child.kill().unwrap();
        child.wait().unwrap();
        let said: Vec<String> = lines.map_while(Result::ok).collect();
        assert!(!said.iter().any(|line| line.contains("failed")), "{said:?}");
        saved += said.iter().filter(|line| line.ends_with("saved")).count();
        whole(&path, n, saved);
    }
    assert!(saved > KILLS as usize / 10, "only {saved} saves were tried");
}

/// The file is a state of the call to the last letter. Once one was saved it never vanishes.
fn whole(path: &Path, kill: u64, saved: usize) {
    match std::fs::read_to_string(path) {
        Ok(text) => {
            let call = SavedCall::read(&text).unwrap_or_else(|why| panic!("kill {kill}: {why}\n{text}"));
            assert_eq!(text, state(call.exchanges.len()).write(), "kill {kill}");
        }
        Err(why) => assert!(saved == 0, "kill {kill}: {why}"),
    }
}

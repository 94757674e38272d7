//! Runs callers' lines. In: a book, lines whose turns are parted by ` | `. Out: for each tank of the call the facts, what
//! was worked out, who speaks; and what was not understood.

use crate::case::Ledger;
use crate::doubt::assessment::{case_of, plain, statements, tanks};
use crate::engine::{Findings, State, World};
use crate::listen::Listener;
use crate::listen::reading::Reading;
use crate::rulebook::Book;

/// What parts the turns of a line.
pub const TURNS: &str = " | ";

/// One line, run.
#[derive(Clone, Debug)]
pub struct Call {
    pub line: String,
    /// World, state and findings of each tank.
    pub tanks: Vec<(World, State, Findings)>,
    /// Words that were not understood.
    pub unread: Vec<String>,
    /// Something had to be asked back before it could be used.
    pub asked_back: bool,
}

impl Call {
    /// Whether a rule speaks in some tank.
    pub fn speaks(&self, rule: u16) -> bool {
        self.tanks.iter().any(|(_, _, findings)| findings.speaks(rule))
    }
}

/// Runs lines through one listener.
pub struct Runner<'b> {
    book: &'b Book,
    listener: Listener,
}

/// How many lines a thread takes at once: fewer are not worth starting one.
const LEAST_A_THREAD: usize = 32;

impl<'b> Runner<'b> {
    pub fn new(book: &'b Book) -> Self {
        Self { book, listener: Listener::new(&book.knowledge) }
    }

    pub fn run(&self, line: &str) -> Call {
        let mut ledger = Ledger::default();
        let (mut unread, mut asked_back) = (Vec::new(), false);
        for turn in line.split(TURNS) {
            let reading = self.listener.read(turn, &ledger.context());
            unread.extend(reading.unread.iter().map(|span| span.of(&reading.text).to_string()));
            asked_back |= !reading.back.is_empty();
            ledger.take(reading);
        }
        let said = statements(&ledger, &[]);
        let tanks = tanks(&said).into_iter().map(|tank| plain(self.book, &case_of(self.book, tank, &said))).collect();
        Call { line: line.to_string(), tanks, unread, asked_back }
    }

    /// How each turn of a line is read.
    pub fn readings(&self, line: &str) -> Vec<Reading> {
        let mut ledger = Ledger::default();
        let mut out = Vec::new();
        for turn in line.split(TURNS) {
            let reading = self.listener.read(turn, &ledger.context());
            out.push(reading.clone());
            ledger.take(reading);
        }
        out
    }

    /// Runs all lines, on as many threads as there are processors; the result is in the order of the lines.
    pub fn all(&self, lines: &[&str]) -> Vec<Call> {
        let processors = std::thread::available_parallelism().map_or(1, usize::from);
        let threads = processors.min(lines.len() / LEAST_A_THREAD).max(1);
        let share = lines.len().div_ceil(threads).max(1);
        std::thread::scope(|scope| {
            let parts: Vec<_> = lines
                .chunks(share)
                .map(|part| scope.spawn(move || part.iter().map(|line| self.run(line)).collect::<Vec<Call>>()))
                .collect();
            parts.into_iter().flat_map(|part| part.join().unwrap_or_default()).collect()
        })
    }
}

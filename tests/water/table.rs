//! A check table: its rows, its tolerance, and the tally of what was tried.
//! In: a CSV file with `# ` lines before its header. Out: rows that compare what they are given. Knows no formula.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::path::Path;
use weirline::water::signatures;

/// The name of a table and what tries one row of it.
pub type Check = (&'static str, fn(&Row));

/// What a run has tried, and what failed.
#[derive(Default)]
pub struct Tally {
    pub rows: usize,
    pub functions: BTreeSet<String>,
    pub signatures: BTreeSet<&'static str>,
    pub failures: Vec<String>,
}

pub struct Table {
    pub name: String,
    columns: Vec<String>,
    rows: Vec<Vec<String>>,
    /// Relative tolerance of a table whose rows carry none.
    relative: Option<f64>,
}

impl Table {
    /// Reads a table. A table must tell what it rests on: a table of several columns of results its tolerance, the others an origin
    /// on each row.
    pub fn read(path: &Path) -> Self {
        let name = path.file_stem().unwrap().to_str().unwrap().to_string();
        let text = std::fs::read_to_string(path).unwrap();
        let relative = text
            .lines()
            .filter_map(|line| line.strip_prefix("# tolerance: relative "))
            .next_back()
            .map(|figure| figure.parse().unwrap());
        let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
        let columns: Vec<String> = reader.headers().unwrap().iter().map(str::to_string).collect();
        assert!(
            relative.is_some() || columns.iter().any(|c| c == "origin"),
            "{name} has neither a tolerance nor an origin"
        );
        let rows = reader.records().map(|row| row.unwrap().iter().map(str::to_string).collect()).collect::<Vec<_>>();
        assert!(!rows.is_empty(), "{name} has no rows");
        Self { name, columns, rows, relative }
    }

    /// Tries every row; a column that the check neither reads nor compares is a failure.
    pub fn try_with(&self, check: fn(&Row), tally: &RefCell<Tally>) {
        for (index, cells) in self.rows.iter().enumerate() {
            let row = Row { table: self, index, cells, touched: RefCell::default(), compared: RefCell::new(0), tally };
            check(&row);
            row.finish();
        }
    }
}

pub struct Row<'t> {
    table: &'t Table,
    index: usize,
    cells: &'t [String],
    touched: RefCell<BTreeSet<usize>>,
    compared: RefCell<usize>,
    tally: &'t RefCell<Tally>,
}

impl Row<'_> {
    pub fn text(&self, column: &str) -> &str {
        let at = self.table.columns.iter().position(|c| c == column);
        let at = at.unwrap_or_else(|| panic!("{}: no column {column}", self.place()));
        self.touched.borrow_mut().insert(at);
        &self.cells[at]
    }

    pub fn number(&self, column: &str) -> f64 {
        let text = self.text(column);
        text.parse().unwrap_or_else(|_| panic!("{}: {text:?} is no number", self.place()))
    }

    /// Compares with a column, at the tolerance of the table.
    pub fn check(&self, column: &str, got: f64) {
        let relative = self.table.relative.expect("a tolerance of the table");
        self.check_within(column, got, relative);
    }

    /// Compares with a column at a tolerance of its own (a library's value beside the formula's).
    pub fn check_within(&self, column: &str, got: f64, relative: f64) {
        let expected = self.number(column);
        // What must be nothing may be floating-point dust.
        let tolerance = if expected == 0.0 { 1e-12 } else { relative * expected.abs() };
        self.compare(column, got, expected, tolerance);
    }

    /// Compares with the column `expected`, at the row's own tolerances.
    pub fn expect(&self, got: f64) {
        let expected = self.number("expected");
        let tolerance = self.number("tol_abs").max(self.number("tol_rel") * expected.abs());
        assert!(!self.text("origin").is_empty(), "{}: no origin", self.place());
        self.compare("expected", got, expected, tolerance);
    }

    pub fn same(&self, column: &str, got: &str) {
        *self.compared.borrow_mut() += 1;
        let expected = self.text(column);
        if got != expected {
            self.fail(format!("{column} is {got}, expected {expected}"));
        }
    }

    fn compare(&self, column: &str, got: f64, expected: f64, tolerance: f64) {
        *self.compared.borrow_mut() += 1;
        // Not-a-number must not pass.
        let close = (got - expected).abs() <= tolerance;
        if !close {
            self.fail(format!("{column} is {got}, expected {expected} within {tolerance:e}"));
        }
    }

    pub fn fail(&self, what: String) {
        self.tally.borrow_mut().failures.push(format!("{}: {what}", self.place()));
    }

    /// Notes that a function was tried.
    pub fn tried(&self, function: &str) {
        self.tally.borrow_mut().functions.insert(function.to_string());
    }

    /// Calls a signature with numbers in base units and demands the very number that the function gave.
    pub fn signature(&self, name: &'static str, inputs: &[f64], given: f64) {
        let found = signatures::by_name(name).unwrap_or_else(|| panic!("no signature {name}"));
        match (found.call)(inputs) {
            Ok(got) if got == given => {}
            other => self.fail(format!("signature {name} gives {other:?}, the function {given}")),
        }
        self.tally.borrow_mut().signatures.insert(found.name);
    }

    fn finish(&self) {
        if *self.compared.borrow() == 0 {
            self.fail("nothing was compared".into());
        }
        let touched = self.touched.borrow();
        for (at, column) in self.table.columns.iter().enumerate() {
            if !touched.contains(&at) {
                self.fail(format!("column {column} was neither read nor compared"));
            }
        }
        self.tally.borrow_mut().rows += 1;
    }

    pub fn place(&self) -> String {
        format!("{} row {}", self.table.name, self.index + 1)
    }
}

/// Calls a function, demands a result, and demands the same of its signature.
macro_rules! both {
    ($row:expr, $signature:literal, $($path:ident)::+ ($($input:expr),* $(,)?)) => {{
        let given = had!($row, $($path)::+($($input),*));
        $row.signature($signature, &[$($input.in_base()),*], given.in_base());
        given
    }};
}

/// Calls a function and demands a result.
macro_rules! had {
    ($row:expr, $($path:ident)::+ ($($input:expr),* $(,)?)) => {{
        $row.tried(stringify!($($path)::+));
        $($path)::+($($input),*).unwrap_or_else(|refused| panic!("{}: {refused}", $row.place()))
    }};
}

//! A page as rows: a label and paragraphs, each with a tone. In: nothing; the text writers make it. Out: the shape that
//! `lines.rs` sets and `paint.rs` colours. Knows no width and no colour.

/// What a row is, so that colour can repeat what its words say.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tone {
    #[default]
    Plain,
    /// The sentence to say.
    Say,
    Danger,
    Soon,
    /// Assumed, not understood, the rest of the page's small print.
    Quiet,
    Ask,
}

/// One paragraph; `lead` stands before it ("1  ") and its lines hang under its text.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Paragraph {
    pub lead: String,
    pub text: String,
    /// Kept line by line, as it is: pictures.
    pub fixed: bool,
}

impl Paragraph {
    pub fn new(text: impl Into<String>) -> Self {
        Self { text: text.into(), ..Self::default() }
    }

    pub fn led(lead: impl Into<String>, text: impl Into<String>) -> Self {
        Self { lead: lead.into(), text: text.into(), fixed: false }
    }
}

/// A label and what stands beside it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    pub label: String,
    pub tone: Tone,
    pub paragraphs: Vec<Paragraph>,
}

impl Row {
    pub fn new(label: impl Into<String>, tone: Tone, text: impl Into<String>) -> Self {
        Self { label: label.into(), tone, paragraphs: vec![Paragraph::new(text)] }
    }

    pub fn list(label: impl Into<String>, tone: Tone, paragraphs: Vec<Paragraph>) -> Self {
        Self { label: label.into(), tone, paragraphs }
    }
}

/// Everything that is shown at once.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Page {
    pub rows: Vec<Row>,
}

impl Page {
    /// A page of one plain line.
    pub fn line(text: impl Into<String>) -> Self {
        Self { rows: vec![Row::new("", Tone::Plain, text)] }
    }

    pub fn push(&mut self, row: Row) {
        if row.paragraphs.iter().any(|p| !p.text.is_empty()) {
            self.rows.push(row);
        }
    }

    /// All words of the page without layout, a line a paragraph.
    pub fn words(&self) -> String {
        let mut out = String::new();
        for row in &self.rows {
            for (n, paragraph) in row.paragraphs.iter().enumerate() {
                let label = if n == 0 && !row.label.is_empty() { format!("{}: ", row.label) } else { String::new() };
                out.push_str(&format!("{label}{}{}\n", paragraph.lead, paragraph.text));
            }
        }
        out.replace(super::amounts::TIED, " ")
    }
}

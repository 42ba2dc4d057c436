use crate::source::Span;

/// One statement, or one fact in braces, ready to be laid out.
#[derive(Clone, Debug)]
pub(super) struct Entry {
    /// Where it stands in the source.
    pub span: Span,
    /// Entries of the same kind that follow one another are aligned; an empty word aligns nothing.
    pub kind: String,
    /// What stands before its braces, column by column.
    pub cells: Vec<Cell>,
    /// What comes after the columns, aligned by itself: a note for people.
    pub tail: Option<String>,
    /// What stands in its braces; none without braces.
    pub block: Option<Vec<Entry>>,
    /// Never shares a line with its neighbours, unless all the braces hold is on one.
    pub alone: bool,
}

/// One column of an entry.
#[derive(Clone, Debug)]
pub(super) struct Cell {
    pub text: String,
    /// Spaces before it, at least.
    pub gap: usize,
    pub align: Align,
}

/// Where a cell's text stands in its column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Align {
    Left,
    Right,
    /// It runs over the columns and does not count for their width.
    Over,
}

impl Entry {
    /// One column.
    pub(super) fn line(span: Span, text: impl Into<String>) -> Self {
        Entry::of("", span, text)
    }

    /// A first column, aligned with those of the same kind.
    pub(super) fn of(kind: &str, span: Span, text: impl Into<String>) -> Self {
        let cells = vec![Cell { text: text.into(), gap: 0, align: Align::Left }];
        Entry { span, kind: kind.to_owned(), cells, tail: None, block: None, alone: false }
    }

    /// One more column.
    pub(super) fn then(mut self, gap: usize, text: impl Into<String>) -> Self {
        self.cells.push(Cell { text: text.into(), gap, align: Align::Left });
        self
    }

    pub(super) fn cell(mut self, gap: usize, text: impl Into<String>, align: Align) -> Self {
        self.cells.push(Cell { text: text.into(), gap, align });
        self
    }

    pub(super) fn tail(mut self, text: Option<String>) -> Self {
        self.tail = text;
        self
    }

    pub(super) fn block(mut self, entries: Vec<Entry>) -> Self {
        self.block = Some(entries);
        self
    }

    /// The same with words before it.
    pub(super) fn after(mut self, words: &str, span: Span) -> Self {
        if let Some(first) = self.cells.first_mut() {
            first.text.insert_str(0, words);
        }
        self.kind = if self.kind.is_empty() { String::new() } else { format!("{words}{}", self.kind) };
        self.span = span;
        self
    }
}

//! Entries, notes and blank lines in the order of the source, in lines and columns.

use super::entry::{Align, Cell, Entry};
use crate::syntax::tree::Note;

/// What was written on one line in braces is broken when it would be longer, in characters.
const LINE: usize = 110;
/// A cell that is wider goes over its column and does not widen it.
const CELL: usize = 44;
/// A note for people is not aligned behind what is wider.
const BEFORE_TAIL: usize = 56;
/// A `# note` is not aligned behind what is wider.
const BEFORE_NOTE: usize = 76;
const INDENT: usize = 2;

/// Lays out one file.
pub(super) fn laid_out(text: &str, base: u32, notes: &[Note], entries: Vec<Entry>) -> String {
    let local = |at: u32| (at - base) as usize;
    let notes = notes.iter().map(|note| (local(note.span.lo), local(note.span.hi))).collect();
    let mut layout = Layout { text, base, notes, next_note: 0, lines: Vec::new() };
    layout.block(entries, 0, text.len(), 0);
    joined(layout.lines)
}

/// Lays out what stands in no one file: with neither notes nor shared lines, and a blank line
/// before and after what has braces over several lines, and between kinds.
pub(super) fn gathered(entries: Vec<Entry>) -> String {
    let mut lines = Vec::new();
    let mut before = String::new();
    for entry in entries {
        let kind = kind_of(&entry);
        let from = lines.len();
        if let Some(rest) = in_braces(&entry) {
            let (open, items) = rest;
            lines.push(open);
            standing(items, 1, &mut lines);
            lines.push(Line::bare(0, "}"));
        } else {
            lines.push(Line::of(0, entry));
        }
        if from > 0
            && before != kind
            && let Some(first) = lines.get_mut(from)
        {
            first.blank_before = true;
        }
        before = kind;
    }
    joined(lines)
}

/// The first word, by which statements are gathered; the short facts of a header go together.
fn kind_of(entry: &Entry) -> String {
    let first = entry.cells.first().map_or("", |cell| cell.text.split(' ').next().unwrap_or(""));
    match first {
        "about" | "maker" | "edition" | "licence" | "level" | "units" | "allowance" | "tolerance"
        | "stitch" | "wearer" | "sizes" | "body" | "pick" => "header".to_owned(),
        other => other.to_owned(),
    }
}

/// The opening line and the items of braces that are written over several lines.
fn in_braces(entry: &Entry) -> Option<(Line, Vec<Entry>)> {
    let items = entry.block.clone()?;
    if items.len() < 2 && items.iter().all(|item| item.block.is_none()) && width(&flat(entry)) <= LINE {
        return None;
    }
    let mut open = Line::of(0, Entry { block: None, ..entry.clone() });
    open.close = " {";
    Some((open, items))
}

/// Braces stand in braces no deeper than steps or an outline do.
fn standing(items: Vec<Entry>, depth: usize, lines: &mut Vec<Line>) {
    for item in items {
        let one_line = item.kind == "step" && width(&flat(&item)) <= LINE;
        match item.block.clone().filter(|_| !one_line) {
            Some(inner) => {
                let mut open = Line::of(depth, Entry { block: None, ..item });
                open.close = " {";
                lines.push(open);
                standing(inner, depth + 1, lines);
                lines.push(Line::bare(depth, "}"));
            }
            None => lines.push(Line::of(depth, item)),
        }
    }
}

/// One line to be printed.
#[derive(Clone, Debug)]
struct Line {
    depth: usize,
    blank_before: bool,
    /// Entries that share a line are one cell.
    cells: Vec<Cell>,
    tail: Option<String>,
    /// ` {`, or what one line of braces holds.
    braces: String,
    close: &'static str,
    kind: String,
    /// A `# note` behind it.
    note: Option<String>,
    /// It is a `# note` by itself.
    is_note: bool,
}

impl Line {
    fn of(depth: usize, entry: Entry) -> Self {
        let mut braces = entry.block.as_ref().map_or(String::new(), |items| format!(" {}", braced(items)));
        let Entry { mut cells, tail, kind, .. } = entry;
        // What is done in each step of the work stands in a column.
        if kind == "step" && !braces.is_empty() {
            let text = std::mem::take(&mut braces);
            cells.push(Cell { text, gap: 1, align: Align::Left });
        }
        Line { depth, blank_before: false, cells, tail, braces, close: "", kind, note: None, is_note: false }
    }

    fn bare(depth: usize, text: impl Into<String>) -> Self {
        Line::of(depth, Entry::line(Default::default(), text))
    }
}

struct Layout<'t> {
    text: &'t str,
    base: u32,
    notes: Vec<(usize, usize)>,
    next_note: usize,
    lines: Vec<Line>,
}

impl Layout<'_> {
    /// Everything between two offsets. Braces stand in braces no deeper than the grammar has them.
    fn block(&mut self, entries: Vec<Entry>, from: usize, to: usize, depth: usize) {
        let mut last = from;
        let first_line = self.lines.len();
        let mut entries = entries.into_iter().peekable();
        while let Some(entry) = entries.next() {
            let (lo, mut hi) = self.place(&entry);
            last = self.notes_before(lo, last, depth);
            let blank = self.line_ends(last, lo) > 1;
            let begins = self.lines.len();
            self.hoist(&entry, depth);
            let mut sharing = vec![entry];
            while let Some(next) = entries.peek() {
                let next_lo = self.place(next).0;
                if self.line_ends(hi, next_lo) > 0 || !may_share(&sharing, next) {
                    break;
                }
                hi = self.place(next).1;
                sharing.extend(entries.next());
            }
            self.shared(sharing, depth);
            if blank
                && begins > first_line
                && let Some(first) = self.lines.get_mut(begins)
            {
                first.blank_before = true;
            }
            last = self.trailing_note(hi);
        }
        self.notes_before(to, last, depth);
        // Neither the first line of braces nor that of the file has a blank line before it.
        if let Some(first) = self.lines.get_mut(first_line) {
            first.blank_before = false;
        }
    }

    /// Entries that stand on one line.
    fn shared(&mut self, entries: Vec<Entry>, depth: usize) {
        let together: Vec<String> = entries.iter().map(flat).collect();
        let length = depth * INDENT + width(&together.join("; "));
        if entries.len() > 1 && length <= LINE {
            return self.lines.push(Line::bare(depth, together.join("; ")));
        }
        for entry in entries {
            self.entry(entry, depth);
        }
    }

    fn entry(&mut self, mut entry: Entry, depth: usize) {
        let (lo, hi) = self.place(&entry);
        let Some(items) = entry.block.take() else { return self.lines.push(Line::of(depth, entry)) };
        let on_one_line = self.line_ends(lo, hi) == 0;
        let whole = Entry { block: Some(items.clone()), ..entry.clone() };
        if on_one_line && depth * INDENT + width(&flat(&whole)) <= LINE {
            return self.lines.push(Line::of(depth, whole));
        }
        let empty = items.is_empty();
        let mut open = Line::of(depth, entry);
        open.close = " {";
        self.lines.push(open);
        let opened = self.lines.len();
        let end = hi.saturating_sub(1);
        let from = items.first().map_or(end, |first| self.place(first).0);
        let inside = self.opening_note(lo, from, end);
        self.block(items, inside, end, depth + 1);
        if empty
            && self.lines.len() == opened
            && let Some(open) = self.lines.last_mut()
            && open.note.is_none()
        {
            open.close = " { }";
            return;
        }
        self.lines.push(Line::bare(depth, "}"));
    }

    /// Notes in the words of an entry, where no line can be ended, go before it.
    fn hoist(&mut self, entry: &Entry, depth: usize) {
        let (lo, hi) = self.place(entry);
        let to = match &entry.block {
            None => hi,
            Some(items) => self.brace(lo, items.first().map_or(hi, |first| self.place(first).0)),
        };
        while let Some(&(from, end)) = self.notes.get(self.next_note).filter(|note| note.0 < to) {
            self.note_line(from, end, depth);
            self.next_note += 1;
        }
    }

    /// Where the braces open whose first item stands there: the last `{` outside of notes.
    fn brace(&self, lo: usize, before: usize) -> usize {
        let mut end = before;
        loop {
            let Some(at) = self.text.get(lo..end).and_then(|head| head.rfind('{')) else { return lo };
            let at = lo + at;
            match self.notes.iter().find(|note| (note.0..note.1).contains(&at)) {
                Some(&(from, _)) if from > lo => end = from,
                _ => return at,
            }
        }
    }

    /// A note behind `{`; gives where the inside begins for the count of blank lines.
    fn opening_note(&mut self, lo: usize, first: usize, end: usize) -> usize {
        let open = self.brace(lo, first.min(end)) + 1;
        match self.notes.get(self.next_note) {
            Some(&(from, to)) if from < end && self.line_ends(open, from) == 0 => {
                let note = self.note_text(from, to);
                if let Some(line) = self.lines.last_mut() {
                    line.note = Some(note);
                }
                self.next_note += 1;
                to
            }
            _ => open,
        }
    }

    /// Notes that stand before an offset, each on a line of its own.
    fn notes_before(&mut self, to: usize, mut last: usize, depth: usize) -> usize {
        while let Some(&(from, end)) = self.notes.get(self.next_note).filter(|note| note.0 < to) {
            let blank = self.line_ends(last, from) > 1;
            self.note_line(from, end, depth);
            if let Some(line) = self.lines.last_mut() {
                line.blank_before = blank;
            }
            self.next_note += 1;
            last = end;
        }
        last
    }

    fn note_line(&mut self, from: usize, end: usize, depth: usize) {
        let mut line = Line::bare(depth, self.note_text(from, end));
        line.is_note = true;
        self.lines.push(line);
    }

    /// A note behind what ends there goes behind the last line.
    fn trailing_note(&mut self, hi: usize) -> usize {
        match self.notes.get(self.next_note) {
            Some(&(from, end)) if from >= hi && self.only_ends(hi, from) && self.line_ends(hi, from) == 0 => {
                let note = self.note_text(from, end);
                if let Some(line) = self.lines.last_mut() {
                    line.note = Some(note);
                }
                self.next_note += 1;
                end
            }
            _ => hi,
        }
    }

    /// Whether nothing stands between but blanks and `;`.
    fn only_ends(&self, from: usize, to: usize) -> bool {
        let between = self.text.get(from..to).unwrap_or("");
        between.chars().all(|character| character.is_whitespace() || character == ';')
    }

    fn note_text(&self, from: usize, end: usize) -> String {
        self.text.get(from..end).unwrap_or("").trim_end().to_owned()
    }

    fn place(&self, entry: &Entry) -> (usize, usize) {
        ((entry.span.lo - self.base) as usize, (entry.span.hi - self.base) as usize)
    }

    /// Ends of lines between two offsets.
    fn line_ends(&self, from: usize, to: usize) -> usize {
        let between = self.text.as_bytes().get(from..to).unwrap_or_default();
        let pairs = between.windows(2).filter(|both| *both == b"\r\n").count();
        between.iter().filter(|byte| matches!(byte, b'\n' | b'\r')).count() - pairs
    }
}

/// Only short facts without braces share a line.
fn may_share(sharing: &[Entry], next: &Entry) -> bool {
    let plain = |entry: &Entry| entry.block.is_none() && !entry.alone;
    sharing.iter().all(plain) && plain(next)
}

fn braced(items: &[Entry]) -> String {
    match items.is_empty() {
        true => "{ }".to_owned(),
        false => format!("{{ {} }}", items.iter().map(flat).collect::<Vec<_>>().join("; ")),
    }
}

/// An entry in one line, without columns. Braces stand in braces no deeper than the grammar has
/// them.
fn flat(entry: &Entry) -> String {
    let mut text = String::new();
    for cell in &entry.cells {
        text.push_str(if cell.gap > 0 { " " } else { "" });
        text.push_str(&cell.text);
    }
    if let Some(tail) = &entry.tail {
        text = format!("{text}  {tail}");
    }
    match &entry.block {
        None => text,
        Some(items) => format!("{text} {}", braced(items)),
    }
}

fn width(text: &str) -> usize {
    text.chars().count()
}

fn joined(lines: Vec<Line>) -> String {
    let widths = columns(&lines);
    let mut printed: Vec<String> =
        lines.iter().zip(&widths).map(|(line, widths)| padded(line, widths)).collect();
    behind(
        &lines,
        &mut printed,
        |line| line.tail.clone().map(|tail| (line.kind.clone(), tail)),
        "row",
        BEFORE_TAIL,
    );
    for (line, text) in lines.iter().zip(&mut printed) {
        text.push_str(&line.braces);
        text.push_str(line.close);
    }
    behind(&lines, &mut printed, |line| line.note.clone().map(|note| (String::new(), note)), "", BEFORE_NOTE);
    let mut text = String::new();
    for (line, printed) in lines.iter().zip(printed) {
        if line.blank_before {
            text.push('\n');
        }
        text.push_str(printed.trim_end());
        text.push('\n');
    }
    text
}

/// Puts something behind the lines that have it, in one column where lines of one kind follow one
/// another. Blank lines end a column, but not one of the kind `through`.
fn behind(
    lines: &[Line],
    printed: &mut [String],
    what: impl Fn(&Line) -> Option<(String, String)>,
    through: &str,
    widest: usize,
) {
    let mut run: Vec<(usize, String)> = Vec::new();
    let mut kind: Option<(String, usize)> = None;
    let close = |run: &mut Vec<(usize, String)>, printed: &mut [String]| {
        let widths = run.iter().filter_map(|(at, _)| printed.get(*at)).map(|text| width(text));
        let column = widths.filter(|&width| width <= widest).max().unwrap_or(0);
        for (at, words) in run.drain(..) {
            let Some(text) = printed.get_mut(at) else { continue };
            let pad = column.saturating_sub(width(text));
            text.push_str(&format!("{}  {words}", " ".repeat(pad)));
        }
    };
    for (at, line) in lines.iter().enumerate() {
        let own = what(line);
        let same = match (&kind, &own) {
            (Some((kind, depth)), Some((own, _))) => kind == own && *depth == line.depth,
            // Lines of the same kind without one do not end the column of those that have one.
            (Some((kind, depth)), None) => {
                *depth == line.depth && (line.is_note || !kind.is_empty() && *kind == line.kind)
            }
            (None, _) => true,
        };
        let ends = !same
            || line.blank_before
                && kind.as_ref().is_none_or(|(kind, _)| kind != through || through.is_empty());
        if ends {
            close(&mut run, printed);
            kind = None;
        }
        if let Some((own, words)) = own {
            run.push((at, words));
            kind = Some((own, line.depth));
        }
    }
    close(&mut run, printed);
}

/// For each line the widths of its columns: the widest of the lines of its kind that follow one
/// another. What stands in braces between two of them, and notes, do not end the run.
fn columns(lines: &[Line]) -> Vec<Vec<usize>> {
    let mut widths = vec![Vec::new(); lines.len()];
    // By depth: the kind and the lines of the run there.
    let mut runs: Vec<(String, Vec<usize>)> = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        for (_, run) in runs.drain((line.depth + 1).min(runs.len())..) {
            close_columns(lines, &run, &mut widths);
        }
        runs.resize_with(line.depth + 1, Default::default);
        let Some((kind, run)) = runs.get_mut(line.depth) else { continue };
        let passes = line.is_note || line.cells.first().is_some_and(|cell| cell.text == "}");
        if line.blank_before && kind != "row" || !passes && *kind != line.kind {
            close_columns(lines, run, &mut widths);
            run.clear();
            kind.clear();
        }
        if !passes && !line.kind.is_empty() {
            line.kind.clone_into(kind);
            run.push(at);
        }
    }
    for (_, run) in runs {
        close_columns(lines, &run, &mut widths);
    }
    widths
}

fn close_columns(lines: &[Line], run: &[usize], widths: &mut [Vec<usize>]) {
    let mut common: Vec<usize> = Vec::new();
    for cells in run.iter().filter_map(|&at| lines.get(at)).map(|line| &line.cells) {
        for (column, cell) in cells.iter().enumerate() {
            let wide = width(&cell.text);
            if common.len() <= column {
                common.resize(column + 1, 0);
            }
            // What nothing follows pads nothing, but a number in a table.
            let counts = cell.align == Align::Right || cell.align == Align::Left && column + 1 < cells.len();
            if counts
                && wide <= CELL
                && let Some(widest) = common.get_mut(column)
            {
                *widest = wide.max(*widest);
            }
        }
    }
    for &at in run {
        if let Some(own) = widths.get_mut(at) {
            own.clone_from(&common);
        }
    }
}

fn padded(line: &Line, widths: &[usize]) -> String {
    let mut text = " ".repeat(line.depth * INDENT);
    let last = line.cells.len().saturating_sub(1);
    for (column, cell) in line.cells.iter().enumerate() {
        text.push_str(&" ".repeat(cell.gap));
        let pad = widths.get(column).copied().unwrap_or(0).saturating_sub(width(&cell.text));
        let pad = " ".repeat(pad);
        match cell.align {
            Align::Right => text.extend([pad.as_str(), &cell.text]),
            Align::Left if column < last => text.extend([&cell.text, pad.as_str()]),
            _ => text.push_str(&cell.text),
        }
    }
    text
}

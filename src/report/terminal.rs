use super::view::{SourceView, harmless};
use super::{Diagnostic, Severity, SizeTable};
use crate::limits::MESSAGES_OF_SLUG;
use crate::source::SourceMap;
use indexmap::IndexMap;
use miette::{GraphicalReportHandler, GraphicalTheme, LabeledSpan, ThemeCharacters, ThemeStyles};
use std::fmt;

/// Lines shown before and after a place.
const CONTEXT_LINES: usize = 1;
/// A figure in a table that is longer than this is no figure; the table's columns stay readable.
const CELL: usize = 60;

/// How messages are rendered for a terminal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RenderOptions {
    /// In colours; without, the words tell severities apart.
    pub colour: bool,
    /// With box-drawing characters; without, with ASCII ones.
    pub unicode: bool,
    /// Columns.
    pub width: usize,
}

impl Default for RenderOptions {
    fn default() -> Self {
        RenderOptions { colour: false, unicode: true, width: 100 }
    }
}

/// All messages, one below the other, drawn over their sources. After a number of one slug the
/// rest are counted.
pub fn render(map: &SourceMap, diagnostics: &[Diagnostic], options: RenderOptions) -> String {
    let mut drawn = String::new();
    if diagnostics.is_empty() {
        return drawn;
    }
    let view = SourceView::new(map);
    let mut counts: IndexMap<&str, usize> = IndexMap::new();
    for diagnostic in diagnostics {
        let count = counts.entry(diagnostic.slug()).or_insert(0);
        *count += 1;
        if *count <= MESSAGES_OF_SLUG {
            render_one(&mut drawn, &view, diagnostic, options);
        }
    }
    for (slug, count) in counts {
        if let Some(more @ 1..) = count.checked_sub(MESSAGES_OF_SLUG) {
            drawn.push_str(&format!("and {more} more of {slug}\n\n"));
        }
    }
    drawn
}

/// "3 mistakes, 1 warning"; nothing when there is nothing to tell.
pub fn summary<'a>(diagnostics: impl IntoIterator<Item = &'a Diagnostic>) -> Option<String> {
    let mut counts = [0usize; 4];
    let order = [Severity::Mistake, Severity::Warning, Severity::Advice, Severity::Caution];
    for diagnostic in diagnostics {
        counts[diagnostic.severity() as usize] += 1;
    }
    let words: Vec<String> = order
        .iter()
        .zip(counts)
        .filter(|(_, count)| *count > 0)
        .map(|(kind, count)| kind.counted(count))
        .collect();
    (!words.is_empty()).then(|| words.join(", "))
}

fn render_one(drawn: &mut String, view: &SourceView, diagnostic: &Diagnostic, options: RenderOptions) {
    let handler = GraphicalReportHandler::new_themed(theme(diagnostic.severity(), options))
        .with_width(options.width)
        .with_context_lines(CONTEXT_LINES)
        .with_links(false)
        .without_syntax_highlighting();
    let rendering = Rendering::new(view, diagnostic);
    if handler.render_report(drawn, &rendering).is_err() {
        // miette gives up only where a place cannot be read; the words must still be seen.
        drawn.push_str(&format!("{}\n\n  {}\n", diagnostic.slug(), rendering.title));
    }
    if let Some(table) = &diagnostic.table {
        drawn.push('\n');
        for line in aligned(table) {
            drawn.push_str(&format!("        {line}\n"));
        }
    }
    drawn.push('\n');
}

/// A table of sizes, a line each, with its heading; every column as wide as its widest figure.
fn aligned(table: &SizeTable) -> Vec<String> {
    let heading = std::iter::once("size").chain(table.columns.iter().map(String::as_str));
    let mut rows: Vec<Vec<String>> = vec![heading.map(cell).collect()];
    for (size, figures) in &table.rows {
        rows.push(std::iter::once(size).chain(figures).map(|text| cell(text)).collect());
    }
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let wide =
        |column: usize| rows.iter().filter_map(|row| row.get(column)).map(|text| text.chars().count()).max();
    let widths: Vec<usize> = (0..columns).map(|column| wide(column).unwrap_or(0)).collect();
    let line = |row: &Vec<String>| {
        let cells: Vec<String> =
            row.iter().zip(&widths).map(|(text, &width)| format!("{text:<width$}")).collect();
        cells.join("   ").trim_end().to_owned()
    };
    rows.iter().map(line).collect()
}

fn cell(text: &str) -> String {
    let text = harmless(text).replace('\n', " ");
    match text.char_indices().nth(CELL) {
        Some((at, _)) => format!("{}…", &text[..at]),
        None => text,
    }
}

fn theme(severity: Severity, options: RenderOptions) -> GraphicalTheme {
    let mut characters = if options.unicode { ThemeCharacters::unicode() } else { ThemeCharacters::ascii() };
    // miette knows three severities and we have four: all are reported to it as an error that looks
    // like ours.
    characters.error = match (severity, options.unicode) {
        (Severity::Mistake, true) => "×".to_owned(),
        (Severity::Mistake, false) => "x".to_owned(),
        (other, _) => format!("{}:", other.word()),
    };
    let mut styles = if options.colour { ThemeStyles::ansi() } else { ThemeStyles::none() };
    styles.error = match severity {
        Severity::Mistake => styles.error,
        Severity::Warning => styles.warning,
        Severity::Advice => styles.advice,
        Severity::Caution => styles.highlights.first().copied().unwrap_or(styles.error),
    };
    GraphicalTheme { characters, styles }
}

/// A message as miette wants it.
struct Rendering<'a> {
    view: &'a SourceView,
    slug: &'a str,
    title: String,
    help: Option<String>,
    labels: Vec<LabeledSpan>,
}

impl<'a> Rendering<'a> {
    fn new(view: &'a SourceView, diagnostic: &'a Diagnostic) -> Self {
        let label = |(at, label): (usize, &super::Label)| {
            // Of a file that could not be read there is nothing to show; the title names it.
            if view.empty_file(label.span).is_some_and(|name| diagnostic.title.contains(name)) {
                return None;
            }
            let text = Some(harmless(&label.text)).filter(|text| !text.is_empty());
            let span = view.pointed(label.span)?;
            Some(match at {
                0 => LabeledSpan::new_primary_with_span(text, span),
                _ => LabeledSpan::new_with_span(text, span),
            })
        };
        let labels: Vec<LabeledSpan> = diagnostic.labels.iter().enumerate().filter_map(label).collect();
        Rendering {
            view,
            slug: diagnostic.slug(),
            title: harmless(&diagnostic.title),
            help: diagnostic.help_words().as_deref().map(harmless),
            labels: apart(together(labels)),
        }
    }
}

/// One and the same place is pointed at once, with all that is said of it.
fn together(labels: Vec<LabeledSpan>) -> Vec<LabeledSpan> {
    let mut kept: Vec<LabeledSpan> = Vec::with_capacity(labels.len());
    for label in labels {
        let same = |one: &&mut LabeledSpan| one.offset() == label.offset() && one.len() == label.len();
        match kept.iter_mut().find(same) {
            Some(one) => {
                let said = [one.label(), label.label()].into_iter().flatten().collect::<Vec<_>>().join(", ");
                one.set_label(Some(said).filter(|said| !said.is_empty()));
            }
            None => kept.push(label),
        }
    }
    kept
}

/// Places drawn under one line must not lie on each other: one that holds another is pointed at
/// only as far as the other's start, and not at all where nothing is said of it.
fn apart(labels: Vec<LabeledSpan>) -> Vec<LabeledSpan> {
    let starts: Vec<usize> = labels.iter().map(LabeledSpan::offset).collect();
    let shortened = |label: LabeledSpan| {
        let (lo, hi) = (label.offset(), label.offset() + label.len());
        let Some(next) = starts.iter().copied().filter(|start| (lo + 1..hi).contains(start)).min() else {
            return Some(label);
        };
        let text = Some(label.label()?.to_owned());
        Some(match label.primary() {
            true => LabeledSpan::new_primary_with_span(text, (lo, next - lo)),
            false => LabeledSpan::new_with_span(text, (lo, next - lo)),
        })
    };
    labels.into_iter().filter_map(shortened).collect()
}

impl fmt::Display for Rendering<'_> {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.title)
    }
}

impl fmt::Debug for Rendering<'_> {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.slug)
    }
}

impl std::error::Error for Rendering<'_> {}

impl miette::Diagnostic for Rendering<'_> {
    fn code<'b>(&'b self) -> Option<Box<dyn fmt::Display + 'b>> {
        Some(Box::new(self.slug))
    }

    fn help<'b>(&'b self) -> Option<Box<dyn fmt::Display + 'b>> {
        self.help.as_ref().map(|help| Box::new(help) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn miette::SourceCode> {
        (!self.labels.is_empty()).then_some(self.view as &dyn miette::SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        (!self.labels.is_empty())
            .then(|| Box::new(self.labels.iter().cloned()) as Box<dyn Iterator<Item = _>>)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::catalogue;
    use crate::source::Span;

    fn span_of(map: &SourceMap, file: usize, words: &str) -> Span {
        let file = &map.files()[file];
        let at = file.text.find(words).unwrap() as u32 + file.base;
        Span::new(at, at + words.len() as u32)
    }

    /// Two files in one message, the opened one first, with the tables and the way out.
    #[test]
    fn a_mistake_in_the_base_seen_from_a_variation_shows_both_files() {
        let mut map = SourceMap::default();
        map.add(
            "deck-jacket.fus",
            "variation \"Jacket\" of \"deck-smock.fus\"\n\nlengthen front at waist by 16\n",
        );
        map.add("deck-smock.fus", "garment \"Smock\"\n\n\n\n\n\nseam side  front.side to back.side\n");
        let mut message = Diagnostic::new(
            &catalogue::SEAM_UNEQUAL,
            span_of(&map, 0, "lengthen front at waist"),
            "the side seam does not match in any size: Front is 16 cm longer than Back",
        )
        .label("only Front was lengthened")
        .also(span_of(&map, 1, "front.side"), "61 cm (M)")
        .also(span_of(&map, 1, "back.side"), "45 cm (M)")
        .help("lengthen back at waist by 16 too");
        message.table = Some(SizeTable {
            columns: vec!["Front".into(), "Back".into()],
            rows: vec![
                ("M".into(), vec!["61 cm".into(), "45 cm".into()]),
                ("2XL".into(), vec!["63.5 cm".into(), "47.5 cm".into()]),
            ],
        });
        let drawn = render(&map, &[message], RenderOptions::default());
        let expected = "\
seam/unequal

  × the side seam does not match in any size: Front is 16 cm longer than Back
   ╭─[deck-jacket.fus:3:1]
 2 │ 
 3 │ lengthen front at waist by 16
   · ───────────┬───────────
   ·            ╰── only Front was lengthened
   ╰────
   ╭─[deck-smock.fus:7:12]
 6 │ 
 7 │ seam side  front.side to back.side
   ·            ─────┬────    ────┬────
   ·                 │            ╰── 45 cm (M)
   ·                 ╰── 61 cm (M)
   ╰────
  help: lengthen back at waist by 16 too

        size   Front     Back
        M      61 cm     45 cm
        2XL    63.5 cm   47.5 cm

";
        assert_eq!(drawn, expected);
    }

    #[test]
    fn a_place_within_a_place_is_drawn_beside_it() {
        let mut map = SourceMap::default();
        map.add("jacket.fus", "outline strip of front along neckline width 6\n");
        let whole = span_of(&map, 0, "outline strip of front along neckline width 6");
        let message = Diagnostic::new(&catalogue::STRIP_BROKEN, whole, "too wide");
        let width = span_of(&map, 0, "6");
        let said = render(
            &map,
            &[message.clone().label("this strip").also(width, "this wide")],
            RenderOptions::default(),
        );
        let expected = "
   ╭─[jacket.fus:1:1]
 1 │ outline strip of front along neckline width 6
   · ──────────────────────┬─────────────────────┬
   ·                       │                     ╰── this wide
   ·                       ╰── this strip
   ╰────
";
        assert!(said.contains(expected), "{said}");
        let unsaid = render(&map, &[message.also(width, "this wide")], RenderOptions::default());
        let expected = "
   ╭─[jacket.fus:1:45]
 1 │ outline strip of front along neckline width 6
   ·                                             ┬
   ·                                             ╰── this wide
   ╰────
";
        assert!(unsaid.contains(expected), "{unsaid}");
    }

    #[test]
    fn any_place_can_be_drawn() {
        let mut map = SourceMap::default();
        let long = format!("garment \"{}\" é¼ \u{1b}[31m\0\r x\n", "a\u{202e}".repeat(4000));
        map.add("long.fus", long);
        map.add("empty.fus", "");
        map.add("one.fus", "é");
        map.add("tall.fus", "piece front {\n  cut 1\n  cut 2\n  cut 3\n  cut 4\n  cut 5\n}\n\n\n");
        let end = map.files().last().unwrap().span().hi;
        let mut messages = Vec::new();
        for lo in (0..end + 3).step_by(7).chain(end.saturating_sub(60)..end + 3) {
            for len in [0, 1, 5, 40, 30_000] {
                messages.push(
                    Diagnostic::new(&catalogue::SYNTAX_EXPECTED, Span::new(lo, lo + len), "something\u{7}")
                        .label("here\u{1b}")
                        .also(Span::new(lo / 2, lo / 2 + len), "there"),
                );
            }
        }
        let view = SourceView::new(&map);
        for message in messages {
            let mut drawn = String::new();
            render_one(&mut drawn, &view, &message, RenderOptions::default());
            assert!(drawn.contains("something"), "{drawn}");
            assert!(!drawn.contains(['\u{1b}', '\u{7}', '\0', '\r', '\u{202e}']), "{drawn}");
            assert!(!drawn.contains("Failed to read"), "{drawn}");
            assert!(drawn.len() < 10_000, "{}", drawn.len());
        }
    }

    #[test]
    fn the_rest_of_many_are_counted() {
        let mut map = SourceMap::default();
        map.add("apron.fus", "garment \"Apron\"\n");
        let one = Diagnostic::new(&catalogue::SYNTAX_EXPECTED, Span::new(0, 7), "a word is missing");
        let drawn = render(&map, &vec![one.clone(); MESSAGES_OF_SLUG + 12], RenderOptions::default());
        assert_eq!(drawn.matches("a word is missing").count(), MESSAGES_OF_SLUG);
        assert!(drawn.ends_with("and 12 more of syntax/expected\n\n"));
        let warning = Diagnostic { kind: &catalogue::SIZE_IRREGULAR, ..one.clone() };
        assert_eq!(summary([&one, &warning, &one]), Some("2 mistakes, 1 warning".to_owned()));
        assert_eq!(summary([]), None);
    }
}

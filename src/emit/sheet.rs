/// A plain table: a heading and rows of as many cells.
#[derive(Clone, Debug, Default)]
pub(super) struct Sheet {
    pub(super) heading: Vec<String>,
    pub(super) rows: Vec<Vec<String>>,
}

impl Sheet {
    pub(super) fn new(heading: &[&str]) -> Self {
        Sheet { heading: heading.iter().map(|&title| title.to_owned()).collect(), rows: Vec::new() }
    }

    fn lines(&self) -> impl Iterator<Item = &Vec<String>> {
        std::iter::once(&self.heading).chain(&self.rows)
    }

    /// Columns aligned with blanks.
    pub(super) fn text(&self) -> String {
        let lines: Vec<Vec<String>> =
            self.lines().map(|line| line.iter().map(|cell| plain(cell)).collect()).collect();
        let widths = widths(&lines);
        let mut text = String::new();
        for line in &lines {
            let cells: Vec<String> = padded(line, &widths).collect();
            text.push_str(cells.join("   ").trim_end());
            text.push('\n');
        }
        text
    }

    /// A table of GitHub Flavored Markdown (its specification, 4.10).
    pub(super) fn markdown(&self) -> String {
        let lines: Vec<Vec<String>> =
            self.lines().map(|line| line.iter().map(|cell| in_markdown(cell)).collect()).collect();
        let widths = widths(&lines);
        let mut text = String::new();
        for (at, line) in lines.iter().enumerate() {
            let cells: Vec<String> = padded(line, &widths).collect();
            text.push_str(&format!("| {} |\n", cells.join(" | ")));
            if at == 0 {
                let rules: Vec<String> = widths.iter().map(|&width| "-".repeat(width.max(3))).collect();
                text.push_str(&format!("| {} |\n", rules.join(" | ")));
            }
        }
        text
    }

    /// Comma-separated values (RFC 4180).
    pub(super) fn csv(&self) -> String {
        let mut text = String::new();
        for line in self.lines() {
            let cells: Vec<String> = line.iter().map(|cell| quoted(&no_formula(cell))).collect();
            text.push_str(&cells.join(","));
            text.push_str("\r\n");
        }
        text
    }
}

fn widths(lines: &[Vec<String>]) -> Vec<usize> {
    let columns = lines.iter().map(Vec::len).max().unwrap_or(0);
    let widest = |column: usize| {
        lines.iter().filter_map(|line| line.get(column)).map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    (0..columns).map(widest).collect()
}

fn padded(line: &[String], widths: &[usize]) -> impl Iterator<Item = String> {
    line.iter().zip(widths).map(|(cell, &width)| format!("{cell:<width$}"))
}

/// On one line, and with nothing in it that a terminal would obey.
fn plain(cell: &str) -> String {
    cell.chars().map(|character| if character.is_control() { ' ' } else { character }).collect()
}

/// Words as GitHub Flavored Markdown shows them: a backslash before each sign that would mean something else there
/// (CommonMark 0.31.2, 2.4). An underscore within a word means nothing (6.2), and names are full of them.
pub(super) fn in_markdown(words: &str) -> String {
    let words: Vec<char> = plain(words).chars().collect();
    let mut text = String::with_capacity(words.len());
    for (at, &letter) in words.iter().enumerate() {
        let is_within = |letter: Option<&char>| letter.is_some_and(|letter| letter.is_alphanumeric());
        let means = match letter {
            '\\' | '|' | '*' | '[' | ']' | '`' | '~' | '<' | '&' => true,
            '_' => !(at > 0 && is_within(words.get(at - 1)) && is_within(words.get(at + 1))),
            '#' => at == 0,
            _ => false,
        };
        if means {
            text.push('\\');
        }
        text.push(letter);
    }
    text
}

/// A field that a spreadsheet would take for a formula gets a `'` before it, which makes it text there (the OWASP
/// Foundation's advice on CSV injection). A number stays one.
fn no_formula(cell: &str) -> String {
    let is_formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r']) && cell.parse::<f64>().is_err();
    if is_formula { format!("'{cell}") } else { cell.to_owned() }
}

fn quoted(cell: &str) -> String {
    match cell.contains([',', '"', '\r', '\n']) {
        true => format!("\"{}\"", cell.replace('"', "\"\"")),
        false => cell.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::{Sheet, in_markdown};

    fn sheet() -> Sheet {
        let mut sheet = Sheet::new(&["piece", "note"]);
        sheet.rows.push(vec!["Pocket, \"deep\"".into(), "a|b".into()]);
        sheet.rows.push(vec!["Cuff".into(), "two\nlines".into()]);
        sheet
    }

    /// RFC 4180, 2.5 to 2.7: fields with quotes, commas and line ends are quoted, quotes doubled.
    #[test]
    fn csv_is_quoted() {
        let expected = "piece,note\r\n\"Pocket, \"\"deep\"\"\",a|b\r\nCuff,\"two\nlines\"\r\n";
        assert_eq!(sheet().csv(), expected);
    }

    #[test]
    fn markdown_keeps_its_columns() {
        let text = sheet().markdown();
        assert!(text.contains("| Pocket, \"deep\" | a\\|b      |"), "{text}");
        assert!(text.lines().all(|line| line.starts_with("| ") && line.ends_with(" |")), "{text}");
    }

    /// Each sign before which CommonMark has a backslash stands for itself; names stay as they are.
    #[test]
    fn markdown_means_nothing_else() {
        assert_eq!(in_markdown("*[x](y)* <b>`c` & ~~d~~"), r"\*\[x\](y)\* \<b>\`c\` \& \~\~d\~\~");
        assert_eq!(in_markdown("front.waist_cf _so_ # 1"), r"front.waist_cf \_so\_ # 1");
        assert_eq!(in_markdown("# 1"), r"\# 1");
    }

    /// The signs that OWASP names at the start of a field.
    #[test]
    fn no_field_is_a_formula() {
        let mut sheet = Sheet::new(&["piece"]);
        for cell in ["=1+1", "+A1", "-A1", "@SUM(A1)", "-2.5", "+3", "a=b"] {
            sheet.rows.push(vec![cell.into()]);
        }
        assert_eq!(sheet.csv(), "piece\r\n'=1+1\r\n'+A1\r\n'-A1\r\n'@SUM(A1)\r\n-2.5\r\n+3\r\na=b\r\n");
    }

    #[test]
    fn text_is_aligned() {
        assert_eq!(
            sheet().text(),
            "piece            note\nPocket, \"deep\"   a|b\nCuff             two lines\n"
        );
    }
}

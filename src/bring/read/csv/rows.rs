//! Rows of a table in text (RFC 4180), with the line that each begins in.

/// One row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Row {
    /// Its first line, counted from 1.
    pub line: usize,
    /// Its fields, spaces round them taken off.
    pub fields: Vec<String>,
}

/// What is wrong with the text of a table, and in which line.
pub(super) type Wrong = (usize, String);

/// What stands between fields: whichever of `;`, tab and `,` the first row has outside quotes, in this order, since a
/// comma may be a decimal one.
pub(super) fn separator(text: &str) -> char {
    let mut quoted = false;
    let mut found = ',';
    for letter in text.chars() {
        match letter {
            '"' => quoted = !quoted,
            '\n' if !quoted => break,
            ';' if !quoted => return ';',
            '\t' if !quoted => found = '\t',
            _ => {}
        }
    }
    found
}

/// The rows of a table; empty ones are passed over.
pub(super) fn rows(text: &str, separator: char, wrong: &mut Vec<Wrong>) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    let mut row = Row { line: 1, fields: Vec::new() };
    let mut field = String::new();
    let (mut line, mut was_quoted) = (1, false);
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        match letter {
            '"' if field.trim().is_empty() && !was_quoted => {
                field.clear();
                was_quoted = true;
                let begun = line;
                loop {
                    match letters.next() {
                        Some('"') if letters.peek() == Some(&'"') => {
                            letters.next();
                            field.push('"');
                        }
                        Some('"') => break,
                        Some(inner) => {
                            line += usize::from(inner == '\n');
                            field.push(inner);
                        }
                        None => {
                            wrong.push((begun, "a quotation mark opens here and none closes it".to_owned()));
                            break;
                        }
                    }
                }
            }
            '\r' | '\n' => {
                if letter == '\r' && letters.peek() == Some(&'\n') {
                    letters.next();
                }
                row.fields.push(taken(&mut field));
                was_quoted = false;
                line += 1;
                let whole = std::mem::replace(&mut row, Row { line, fields: Vec::new() });
                rows.extend(Some(whole).filter(is_filled));
            }
            other if other == separator => {
                row.fields.push(taken(&mut field));
                was_quoted = false;
            }
            other if was_quoted && !other.is_whitespace() => {
                wrong.push((line, "letters stand after a closing quotation mark".to_owned()));
                was_quoted = false;
                field.push(other);
            }
            other => field.push(other),
        }
    }
    row.fields.push(taken(&mut field));
    rows.extend(Some(row).filter(is_filled));
    rows
}

fn taken(field: &mut String) -> String {
    let own = std::mem::take(field);
    own.trim().chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect()
}

fn is_filled(row: &Row) -> bool {
    row.fields.iter().any(|field| !field.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The examples of RFC 4180, section 2, and a field over two lines.
    #[test]
    fn rows_are_those_of_the_standard() {
        let text = "aaa,\"b\r\nbb\",\"c\"\"cc\"\r\n\r\nzzz,yyy , xxx";
        let mut wrong = Vec::new();
        let all = rows(text, ',', &mut wrong);
        assert_eq!(
            all,
            [
                Row { line: 1, fields: vec!["aaa".into(), "b  bb".into(), "c\"cc".into()] },
                Row { line: 4, fields: vec!["zzz".into(), "yyy".into(), "xxx".into()] },
            ]
        );
        assert!(wrong.is_empty());
        rows("a\n\"b", ',', &mut wrong);
        assert_eq!(wrong, [(2, "a quotation mark opens here and none closes it".to_owned())]);
        assert_eq!(separator("piece;x,y\n"), ';');
        assert_eq!(separator("\"a;b\",x\n"), ',');
    }
}

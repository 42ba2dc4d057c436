use super::arguments::Explain;
use super::outcome::{Outcome, Trouble};
use super::output;
use fustian::report::catalogue::{Entry, entries, entry};
use fustian::report::nearest;

/// Lines of a reason are no longer than this, in characters.
const LINE: usize = 80;

/// Tells the reason of one slug, or lists all, or those of one family (`seam`).
pub fn run(command: &Explain) -> Result<Outcome, Trouble> {
    let text = match command.slug.as_deref() {
        None => listed(entries()),
        Some(slug) => match entry(slug) {
            Some(entry) => reason(entry),
            None => family(slug).ok_or_else(|| unknown(slug))?,
        },
    };
    output::put(&text)?;
    Ok(Outcome::Good)
}

fn reason(entry: &Entry) -> String {
    format!("{} ({})\n{}\n\n{}", entry.slug, entry.severity.word(), entry.title, wrapped(entry.reason))
}

fn family(name: &str) -> Option<String> {
    let name = name.trim_end_matches('/');
    let mut members = entries()
        .filter(|entry| entry.slug.split_once('/').is_some_and(|(family, _)| family == name))
        .peekable();
    members.peek()?;
    Some(listed(members))
}

fn unknown(slug: &str) -> Trouble {
    let meant = match nearest(slug, entries().map(|entry| entry.slug)) {
        Some(meant) => format!("; did you mean {meant}?"),
        None => "; fustian explain lists all".to_owned(),
    };
    Trouble::Message(format!("there is no message {slug:?}{meant}"))
}

fn listed(members: impl Iterator<Item = &'static Entry>) -> String {
    let members: Vec<&Entry> = members.collect();
    let widest = members.iter().map(|entry| entry.slug.len()).max().unwrap_or(0);
    let line =
        |entry: &&Entry| format!("{:<widest$}  {:<8} {}\n", entry.slug, entry.severity.word(), entry.title);
    members.iter().map(line).collect()
}

fn wrapped(text: &str) -> String {
    let mut wrapped = String::new();
    let mut width = 0;
    for word in text.split_whitespace() {
        let letters = word.chars().count();
        if width > 0 && width + 1 + letters > LINE {
            wrapped.push('\n');
            width = 0;
        } else if width > 0 {
            wrapped.push(' ');
            width += 1;
        }
        wrapped.push_str(word);
        width += letters;
    }
    wrapped.push('\n');
    wrapped
}

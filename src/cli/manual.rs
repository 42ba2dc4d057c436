use super::arguments::{Arguments, Manual};
use super::outcome::{Outcome, Trouble};
use super::output;
use clap::CommandFactory;

/// Prints a manual page, in the form that `man` reads.
pub fn run(command: &Manual) -> Result<Outcome, Trouble> {
    let mut all = Arguments::command();
    // So that a command's page has the options' full names.
    all.build();
    let page = match &command.command {
        None => all,
        Some(name) => {
            let found = all.find_subcommand(name).cloned();
            found.ok_or_else(|| Trouble::Message(format!("there is no command {name:?}")))?
        }
    };
    let mut text = Vec::new();
    let title = page.get_display_name().unwrap_or(page.get_name()).to_owned();
    let man = clap_mangen::Man::new(page);
    let heading =
        format!(".TH {} 1 \"{DAY}\" \"fustian {}\"", title.to_uppercase(), env!("CARGO_PKG_VERSION"));
    let rendered = man.render(&mut text);
    rendered.map_err(|error| Trouble::Message(format!("the page could not be made: {error}")))?;
    output::put(&page_of(&String::from_utf8_lossy(&text), &heading))?;
    Ok(Outcome::Good)
}

/// The day of the manual: a page is the same bytes on every day.
const DAY: &str = "2026-11-26";
/// So long may a line of a page be.
const LINE: usize = 80;

/// The page as formatters of manuals take it without a word: a heading with a day, no line longer than a terminal's, and
/// no blank line among the macros.
fn page_of(rendered: &str, heading: &str) -> String {
    let mut lines: Vec<String> = Vec::new();
    for line in rendered.lines().map(str::trim_end) {
        let is_macro = line.starts_with(['.', '\'']);
        match line {
            _ if line.starts_with(".TH ") => lines.push(heading.to_owned()),
            // A blank line is a gap already.
            "" | ".br" if lines.last().is_some_and(|last| last == ".sp" || last.is_empty()) => {}
            "" => {
                if lines.last().is_some_and(|last| last == ".br") {
                    lines.pop();
                }
                lines.push(".sp".to_owned());
            }
            _ if is_macro => lines.push(line.to_owned()),
            _ => wrapped(line, &mut lines),
        }
    }
    // A gap before a heading or a list is made by that.
    let gap = |at: usize| {
        let next = lines.get(at + 1).map_or(".SH", String::as_str);
        let makes_one = [".SH", ".SS", ".TP", ".RS", ".RE", ".sp"].iter().any(|one| next.starts_with(one));
        lines.get(at).is_some_and(|line| line == ".sp") && makes_one
    };
    let kept = lines.iter().enumerate().filter(|(at, _)| !gap(*at)).map(|(_, line)| format!("{line}\n"));
    kept.collect()
}

/// Parts text at blanks, which a page may do anywhere; no part begins like a macro.
fn wrapped(line: &str, lines: &mut Vec<String>) {
    let mut part = String::new();
    for word in line.split(' ') {
        if !part.is_empty() && part.chars().count() + word.chars().count() >= LINE {
            lines.push(std::mem::take(&mut part));
        }
        if !part.is_empty() {
            part.push(' ');
        } else if word.starts_with(['.', '\'']) {
            part.push_str("\\&");
        }
        part.push_str(word);
    }
    lines.push(part);
}

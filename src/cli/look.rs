use fustian::report::RenderOptions;
use std::io::{IsTerminal, stderr};

/// Narrower than this nothing can be drawn.
const NARROWEST: usize = 40;
/// Wider than this a line of words is hard to follow.
const WIDEST: usize = 140;

/// How messages on standard error are drawn: in colour only on a terminal that takes it, or where `CLICOLOR_FORCE` asks
/// for it (bixense.com/clicolors), and never where `NO_COLOR` (no-color.org) is set; in ASCII where the terminal or the
/// locale says it can do nothing else; as wide as `COLUMNS` says, else as the terminal is.
pub fn of_messages() -> RenderOptions {
    let on_terminal = stderr().is_terminal();
    let dumb = said("TERM").is_some_and(|term| term == "dumb");
    let forced = said("CLICOLOR_FORCE").is_some_and(|value| value != "0");
    let wanted = on_terminal && !dumb && said("CLICOLOR").is_none_or(|value| value != "0");
    let colour = (wanted || forced) && said("NO_COLOR").is_none();
    let asked = said("COLUMNS").and_then(|columns| columns.parse().ok());
    let width = match (asked, terminal_size::terminal_size_of(stderr())) {
        (Some(columns), _) => columns,
        (None, Some((width, _))) if on_terminal => usize::from(width.0),
        (None, _) => RenderOptions::default().width,
    };
    RenderOptions { colour, unicode: !dumb && !is_plain_locale(), width: width.clamp(NARROWEST, WIDEST) }
}

/// Whether letters are said to be those of ASCII alone (POSIX.1-2017, 8.2). Only where it is said of everything: `LANG`
/// is left so on many machines whose terminals show more.
fn is_plain_locale() -> bool {
    said("LC_ALL").is_some_and(|locale| locale == "C" || locale == "POSIX")
}

/// A variable of the environment that is set and not empty.
fn said(name: &str) -> Option<String> {
    std::env::var(name).ok().filter(|value| !value.is_empty())
}

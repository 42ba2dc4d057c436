use fustian::report::RenderOptions;
use std::io::{IsTerminal, stderr};

/// Narrower than this nothing can be drawn.
const NARROWEST: usize = 40;
/// Wider than this a line of words is hard to follow.
const WIDEST: usize = 140;

/// How messages on standard error are drawn: in colour only on a terminal that takes it and where
/// `NO_COLOR` (no-color.org) is not set; in ASCII where the terminal says it can do nothing else.
pub fn of_messages() -> RenderOptions {
    let on_terminal = stderr().is_terminal();
    let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
    let unwanted = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
    let width = match terminal_size::terminal_size_of(stderr()) {
        Some((width, _)) if on_terminal => usize::from(width.0).clamp(NARROWEST, WIDEST),
        _ => RenderOptions::default().width,
    };
    RenderOptions { colour: on_terminal && !dumb && !unwanted, unicode: !dumb, width }
}

use super::output;
use std::io::{IsTerminal, stderr};
use std::time::{Duration, Instant};

/// What takes longer is reported of.
const PATIENCE: Duration = Duration::from_secs(1);
/// Once reported, it is reported again no more often than this.
const AGAIN: Duration = Duration::from_millis(100);

/// One line on standard error that says how far slow work has come, and that is wiped out at the
/// end. There is none where standard error is no terminal: a log wants no such lines.
pub struct Progress {
    next: Option<Instant>,
    shown: usize,
}

impl Progress {
    /// Work begins now.
    pub fn begin() -> Self {
        Progress { next: stderr().is_terminal().then(|| Instant::now() + PATIENCE), shown: 0 }
    }

    /// How far it has come.
    pub fn report(&mut self, words: impl FnOnce() -> String) {
        let now = Instant::now();
        if self.next.is_some_and(|next| now >= next) {
            self.next = Some(now + AGAIN);
            let words = words();
            let long = words.chars().count();
            output::show(&format!("\r{words}{}", " ".repeat(self.shown.saturating_sub(long))));
            self.shown = long;
        }
    }
}

impl Drop for Progress {
    /// Whatever came of it: the line makes room for what is said next.
    fn drop(&mut self) {
        if self.shown > 0 {
            output::show(&format!("\r{}\r", " ".repeat(self.shown)));
        }
    }
}

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
    line: Line,
}

impl Progress {
    /// Work begins now.
    pub fn begin() -> Self {
        Progress { line: Line::begun(Instant::now(), stderr().is_terminal()) }
    }

    /// How far it has come.
    pub fn report(&mut self, words: impl FnOnce() -> String) {
        if let Some(words) = self.line.at(Instant::now(), words) {
            output::show(&words);
        }
    }
}

impl Drop for Progress {
    /// Whatever came of it: the line makes room for what is said next.
    fn drop(&mut self) {
        if let Some(words) = self.line.wiped() {
            output::show(&words);
        }
    }
}

/// What is written on the line, and when: it reads no clock, so that a test may say what time it is.
struct Line {
    /// When it is written next; never where nobody looks.
    next: Option<Instant>,
    /// How much stands there.
    shown: usize,
}

impl Line {
    fn begun(now: Instant, is_seen: bool) -> Self {
        Line { next: is_seen.then(|| now + PATIENCE), shown: 0 }
    }

    /// What is written over what stands there; none before its time.
    fn at(&mut self, now: Instant, words: impl FnOnce() -> String) -> Option<String> {
        self.next.filter(|next| now >= *next)?;
        self.next = Some(now + AGAIN);
        let words = words();
        let long = words.chars().count();
        let over = " ".repeat(self.shown.saturating_sub(long));
        self.shown = long;
        Some(format!("\r{words}{over}"))
    }

    /// What wipes it out; none where nothing stands there.
    fn wiped(&self) -> Option<String> {
        (self.shown > 0).then(|| format!("\r{}\r", " ".repeat(self.shown)))
    }
}

#[cfg(test)]
mod tests {
    use super::Line;
    use std::time::{Duration, Instant};

    #[test]
    fn slow_work_is_told_of_after_a_second_and_the_line_wiped_out() {
        let begun = Instant::now();
        let after = |millis: u64| begun + Duration::from_millis(millis);
        let mut line = Line::begun(begun, true);
        let mut at = |millis: u64, words: &str| line.at(after(millis), || words.to_owned());
        assert_eq!(at(999, "98 of 1000 pages"), None);
        assert_eq!(at(1000, "100 of 1000 pages").as_deref(), Some("\r100 of 1000 pages"));
        // No more often than ten times a second, and what was longer is written over.
        assert_eq!(at(1099, "109 of 1000 pages"), None);
        assert_eq!(at(1100, "done").as_deref(), Some("\rdone             "));
        assert_eq!(line.wiped().as_deref(), Some("\r    \r"));
    }

    #[test]
    fn nothing_is_told_where_nobody_looks_or_nothing_is_slow() {
        let begun = Instant::now();
        let hour = begun + Duration::from_secs(3600);
        let mut unseen = Line::begun(begun, false);
        assert_eq!((unseen.at(hour, || "1 of 2 pages".to_owned()), unseen.wiped()), (None, None));
        assert_eq!(Line::begun(begun, true).wiped(), None);
    }
}

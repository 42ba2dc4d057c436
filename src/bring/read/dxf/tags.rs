//! A DXF file as what it is made of: pairs of lines, a group code and its value.

use crate::bring::BringError;
use crate::bring::read::letters::{letters, shown};
use std::borrow::Cow;

/// A group code and its value.
#[derive(Debug, Clone)]
pub(super) struct Tag<'a> {
    /// What the value means.
    pub code: i32,
    /// The value as it stands there, without spaces round it.
    pub value: Cow<'a, str>,
    /// The line of the value, counted from 1.
    pub line: usize,
}

impl Tag<'_> {
    /// The value as a number.
    ///
    /// # Errors
    /// Where it is none, or not a finite one.
    pub fn number(&self, file: &str) -> Result<f64, BringError> {
        self.value.parse::<f64>().ok().filter(|number| number.is_finite()).ok_or_else(|| {
            let why = format!("“{}” stands where a number must stand", shown(&self.value));
            BringError::new(file, why).at_line(self.line)
        })
    }

    /// The value as a whole number; nought where it is none, since it is only asked for flags and counts.
    pub fn whole(&self) -> i64 {
        self.value.parse().unwrap_or(0)
    }
}

/// The pairs of a file, one after the other.
pub(super) struct Tags<'a> {
    rest: &'a [u8],
    line: usize,
    file: &'a str,
}

impl<'a> Tags<'a> {
    pub fn new(bytes: &'a [u8], file: &'a str) -> Self {
        Tags { rest: bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes), line: 0, file }
    }

    /// The line read last, counted from 1.
    pub fn line(&self) -> usize {
        self.line
    }

    /// The next pair, notes (999) passed over; none at the end.
    ///
    /// # Errors
    /// Where a group code must stand and something else does.
    pub fn next(&mut self) -> Result<Option<Tag<'a>>, BringError> {
        loop {
            let Some(code) = self.text() else { return Ok(None) };
            if code.is_empty() && self.rest.iter().all(u8::is_ascii_whitespace) {
                return Ok(None);
            }
            let at = self.line;
            let code: i32 = code.parse().map_err(|_| {
                let why = format!(
                    "“{}” stands where a group code must stand, a whole number: a line is lost or doubled before it, \
                     or this is no DXF file",
                    shown(&code)
                );
                BringError::new(self.file, why).at_line(at)
            })?;
            let Some(value) = self.text() else { return Ok(None) };
            if code != 999 {
                return Ok(Some(Tag { code, value, line: self.line }));
            }
        }
    }

    fn text(&mut self) -> Option<Cow<'a, str>> {
        if self.rest.is_empty() {
            return None;
        }
        let end = self.rest.iter().position(|&byte| byte == b'\n').unwrap_or(self.rest.len());
        let (line, rest) = self.rest.split_at(end);
        self.rest = rest.get(1..).unwrap_or_default();
        self.line += 1;
        Some(letters(line.trim_ascii()))
    }
}

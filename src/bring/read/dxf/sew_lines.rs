//! Open lines on the layer of sew lines: the sew line of a half, one that breaks off, or stitches.

use crate::bring::read::open_sew::{OpenSewLine, Told, judged};
use crate::bring::traced::{TracedLine, TracedPath, TracedSize};

/// A line on the layer of sew lines that does not close.
#[derive(Debug)]
pub(super) struct Open {
    /// Where it begins in the file.
    pub line: usize,
    /// It.
    pub path: TracedPath,
    judged: OpenSewLine,
}

/// Puts the open lines where they belong: where no sew line closes, one that ends at both ends of the fold is the piece's.
/// What is to be said of others is given back.
pub(super) fn of_open(sized: &mut TracedSize, open: Vec<(usize, TracedPath)>) -> Vec<Open> {
    let mut told = Vec::new();
    for (line, path) in open {
        let judged = match sized.sew_line {
            Some(_) => OpenSewLine::Line,
            None => judged(&path, &sized.outline, sized.fold, Told::Said),
        };
        match judged {
            OpenSewLine::AlongFold(whole) => {
                sized.sew_line = Some(whole);
                continue;
            }
            OpenSewLine::Line => {}
            judged => told.push(Open { line, path: path.clone(), judged }),
        }
        sized.lines.push(TracedLine { name: "stitching".to_owned(), path });
    }
    // Beside the sew line all others are stitches.
    if sized.sew_line.is_some() {
        told.clear();
    }
    told
}

impl Open {
    /// What is said of it: a doubt.
    ///
    /// # Errors
    /// What has to be mended first.
    pub fn words(&self, whose: &str) -> Result<String, String> {
        match &self.judged {
            OpenSewLine::BreaksOff(gap, start, end) => Err(format!(
                "the sew line of {whose} is open: its ends, ({:.1}, {:.1}) and ({:.1}, {:.1}) mm, lie {gap:.1} mm apart; close it, or let \
                 both ends reach the fold, which layer 6 says; stitches that are no sew line belong on layer 8",
                start.x, start.y, end.x, end.y
            )),
            _ => Ok(format!(
                "{whose}: the sew line in line {} is open and ends on the outline, and no fold is drawn there: it is taken for \
                 stitches, and the outline for where the piece is sewn; a fold is drawn on layer 6",
                self.line
            )),
        }
    }
}

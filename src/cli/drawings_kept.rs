use super::outcome::Trouble;
use fustian::bring::LOOK_MARK;
use std::fs;
use std::io::Read;
use std::path::Path;

/// Endings of drawings and of tables of points.
const ENDINGS: [&str; 4] = ["dxf", "dwg", "csv", "tsv"];

/// Refuses an output that would take the place of a drawing, which somebody has drawn, whatever is forced: a text or a picture is
/// soon made again, a drawing is not. A picture that is like what is written is none.
pub fn keep_drawings(output: &Path) -> Result<(), Trouble> {
    if !is_drawing(output) {
        return Ok(());
    }
    let words = format!(
        "{} is there already and is a drawing, which is never written over: name another file",
        output.display()
    );
    Err(Trouble::Message(words))
}

fn is_drawing(output: &Path) -> bool {
    if !fs::metadata(output).is_ok_and(|found| found.is_file()) {
        return false;
    }
    let ending = output.extension().and_then(|ending| ending.to_str()).unwrap_or_default().to_lowercase();
    if ENDINGS.contains(&ending.as_str()) {
        return true;
    }
    let mut begin = Vec::new();
    let read = fs::File::open(output).and_then(|file| file.take(2_000).read_to_end(&mut begin));
    let begin = String::from_utf8_lossy(&begin);
    read.is_ok()
        && begin.trim_start_matches('\u{feff}').trim_start().starts_with('<')
        && begin.contains("<svg")
        && !begin.contains(LOOK_MARK)
}

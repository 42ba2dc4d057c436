//! What must hold of any bytes that are brought in as a drawing.

use fustian::bring::traced::{Traced, TracedPath};
use fustian::bring::{BringError, BringOptions, ReadOptions, bring, read, sketch};
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::{parse, tidy::tidy};
use fustian::{Severity, compile};
use kurbo::ParamCurve;

/// What a draft may be told: that nothing is sewn yet, and what the drawing itself has wrong for cloth.
const OF_MAKERS: [&str; 4] = ["piece/unsewn", "piece/tiny", "pair/same", "cloth/narrow"];

/// The names under which bytes are brought, one a format.
pub const NAMES: [&str; 3] = ["drawing.svg", "drawing.dxf", "drawing.csv"];

fn is_whole(path: &TracedPath) {
    let nexts = path.segments.iter().skip(1);
    assert!(
        path.segments.iter().zip(nexts).all(|(one, next)| one.course.end() == next.course.start()),
        "segments that do not meet: {path:?}"
    );
    if let (true, Some(first), Some(last)) = (path.closed, path.segments.first(), path.segments.last()) {
        assert_eq!(last.course.end(), first.course.start(), "an outline that does not close");
    }
    assert!(
        !path.segments.is_empty() && path.segments.iter().all(|segment| segment.course.is_finite()),
        "a path of nothing, or of no numbers: {path:?}"
    );
}

/// What is read is whole and finite; what is refused has words. Whether it was read.
///
/// # Panics
/// Where that does not hold.
pub fn judged(read: Result<Traced, BringError>) -> bool {
    match read {
        Ok(traced) => {
            assert!(!traced.pieces.is_empty() || !traced.wrong.is_empty(), "nothing, and no word of it");
            for piece in &traced.pieces {
                assert!(
                    !piece.sizes.is_empty() && !piece.name.contains(char::is_control),
                    "{:?}",
                    piece.name
                );
                for size in piece.sizes.values() {
                    assert!(size.outline.closed, "an open outline");
                    let paths = size.lines.iter().map(|line| &line.path).chain(&size.sew_line);
                    std::iter::once(&size.outline).chain(paths).for_each(is_whole);
                    assert!(size.marks.iter().all(|mark| mark.at.is_finite()), "a mark nowhere");
                    assert!(size.notches.iter().all(|notch| notch.at.is_finite()), "a notch nowhere");
                }
            }
            traced.wrong.iter().for_each(is_worded);
            true
        }
        Err(error) => {
            is_worded(&error);
            false
        }
    }
}

fn is_worded(error: &BringError) {
    assert!(!error.why.is_empty() && !error.why.ends_with('.') && error.why.len() < 4000, "{error}");
    assert!(error.why.chars().all(|letter| !letter.is_control() || letter == '\n'), "{error:?}");
}

/// The reader of a format takes any bytes, or refuses them with words.
///
/// # Panics
/// Where it does neither.
pub fn is_read(bytes: &[u8], name: &str) -> bool {
    judged(read::read(bytes, name, &ReadOptions::default()))
}

/// Any bytes are refused with words, or come in as a text that is tidy and, where `compiled` asks for it, compiles as a
/// draft: nothing is wrong with it but what is a maker's matter.
///
/// # Panics
/// Where they are neither.
pub fn comes_in(bytes: &[u8], name: &str, compiled: bool) -> bool {
    let files = [(name, bytes)];
    let options = BringOptions::default();
    let brought = match bring(&files, &options) {
        Ok(brought) => brought,
        Err(why) => {
            assert!(!why.to_string().is_empty(), "it is refused without a word");
            sketch(&files, &options);
            return false;
        }
    };
    let mut map = SourceMap::default();
    let file = map.add("brought.fus", brought.text.as_str());
    let mistakes = parse(&map, file).mistakes;
    let worst = mistakes.iter().find(|one| one.severity() == Severity::Mistake);
    assert!(worst.is_none(), "{worst:?}\n{}", brought.text);
    assert_eq!(tidy(&map, file).ok().as_ref(), Some(&brought.text), "it is not tidy");
    assert!(brought.remarks.iter().all(|words| !words.is_empty()), "{:?}", brought.remarks);
    if compiled {
        let draft = compile(&MemoryLoader::new().with("brought.fus", brought.text.as_str()), "brought.fus");
        let wrong = draft.diagnostics.iter().filter(|one| one.severity() == Severity::Mistake);
        let wrong = wrong.filter(|one| !OF_MAKERS.contains(&one.slug()));
        let wrong: Vec<&str> = wrong.map(|one| one.title.as_str()).collect();
        assert!(wrong.is_empty(), "what came in is no draft: {wrong:?}\n{}", brought.text);
    }
    true
}

//! Any bytes are read: a tree and mistakes, whose spans are places in the text.
#![no_main]

use fustian::source::{FileId, SourceMap};
use fustian::syntax::parse;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let text = String::from_utf8_lossy(bytes);
    let mut map = SourceMap::default();
    let file: FileId = map.add("fuzzed.fus", text.as_ref());
    let parsed = parse(&map, file);
    let whole = map.file(file).span();
    for mistake in &parsed.mistakes {
        let span = mistake.span();
        assert!(whole.lo <= span.lo && span.lo <= span.hi && span.hi <= whole.hi, "{mistake:?}");
        assert!(text.is_char_boundary((span.lo - whole.lo) as usize), "{mistake:?}");
        assert!(text.is_char_boundary((span.hi - whole.lo) as usize), "{mistake:?}");
    }
});

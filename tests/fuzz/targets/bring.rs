//! Any bytes are brought in as a drawing of every format: refused in words, or a text that can be read and is tidy.
#![no_main]

use fustian::bring::{BringOptions, bring, sketch};
use fustian::report::Severity;
use fustian::source::SourceMap;
use fustian::syntax::{parse, tidy::tidy};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    for name in ["fuzzed.svg", "fuzzed.dxf", "fuzzed.csv"] {
        let files = [(name, bytes)];
        let options = BringOptions::default();
        let brought = match bring(&files, &options) {
            Ok(brought) => brought,
            Err(why) => {
                assert!(!why.to_string().is_empty());
                sketch(&files, &options);
                continue;
            }
        };
        let mut map = SourceMap::default();
        let file = map.add("brought.fus", brought.text.as_str());
        let mistakes = parse(&map, file).mistakes;
        assert!(mistakes.iter().all(|one| one.severity() != Severity::Mistake), "{}", brought.text);
        assert_eq!(tidy(&map, file).ok().as_ref(), Some(&brought.text));
    }
});

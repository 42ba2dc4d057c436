//! Any bytes, read as a drawing and as a table of points, come in whole or are refused with words.
#![no_main]

use fustian::bring::ReadOptions;
use fustian::bring::read::{csv, dxf};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let options = ReadOptions::default();
    for read in [dxf::read, csv::read] {
        match read(bytes, "fuzzed", &options) {
            Ok(traced) => {
                for size in traced.pieces.iter().flat_map(|piece| piece.sizes.values()) {
                    assert!(size.outline.closed && !size.outline.segments.is_empty());
                    assert!(size.outline.segments.iter().all(|segment| segment.course.is_finite()));
                }
            }
            Err(error) => assert!(!error.why.is_empty()),
        }
    }
});

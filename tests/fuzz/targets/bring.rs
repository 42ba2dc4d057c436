//! Any bytes are brought in as a drawing of every format: refused in words, or a text that can be read and is tidy.
#![no_main]

use fustian_fuzz::readers::{NAMES, comes_in};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    for name in NAMES {
        comes_in(bytes, name, false);
    }
});

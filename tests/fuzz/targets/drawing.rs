//! Any bytes, read as a drawing of every format, come in whole or are refused with words.
#![no_main]

use fustian_fuzz::readers::{NAMES, is_read};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    for name in NAMES {
        is_read(bytes, name);
    }
});

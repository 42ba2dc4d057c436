//! Twice the work takes about twice the time. Only what would be felt is caught here, so that a busy
//! machine cannot fail it; `cargo bench --bench ratios` measures.

#[path = "../benches/big.rs"]
mod big;

use fustian::compile;
use fustian::source::MemoryLoader;
use std::time::{Duration, Instant};

fn time(text: &str) -> Duration {
    let loader = MemoryLoader::new().with("awning.fus", text);
    let once = || {
        let start = Instant::now();
        let compiled = compile(&loader, "awning.fus");
        assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics.first());
        start.elapsed()
    };
    (0..3).map(|_| once()).min().unwrap_or_default()
}

/// What is quadratic takes 64 times as long.
fn is_about_linear(eight_times: Duration, once: Duration) {
    let ratio = eight_times.as_secs_f64() / once.as_secs_f64();
    assert!(ratio < 24.0, "8 times the work took {ratio:.1} times as long ({once:?}, {eight_times:?})");
}

#[test]
fn more_pieces_take_longer_in_proportion() {
    is_about_linear(time(&big::garment(160, 2)), time(&big::garment(20, 2)));
}

#[test]
fn more_sizes_take_longer_in_proportion() {
    is_about_linear(time(&big::garment(4, 64)), time(&big::garment(4, 8)));
}

#[test]
fn a_big_file_is_as_big_as_it_says() {
    let bytes = big::garment_of_bytes(300_000, 1).len();
    assert!((290_000..310_000).contains(&bytes), "{bytes}");
}

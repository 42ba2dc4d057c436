//! Twice the work takes about twice the time. Only what would be felt is caught here, so that a busy
//! machine cannot fail it; `cargo bench --bench ratios` measures.

#[path = "../benches/big.rs"]
pub mod big;

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

/// Panels in a row, and straps that pass over two of them.
fn strapped(panels: usize) -> String {
    use std::fmt::Write;
    let names: Vec<String> = (0..panels).map(|at| format!("p{at}")).collect();
    let mut text =
        "garment \"Awning\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" { width 150 }\n".to_owned();
    let mut line = |words: String| writeln!(text, "{words}").expect("a string takes all");
    line(format!("layer outer in canvas {{ {} }}", names.join(", ")));
    for at in &names {
        line(format!("piece {at} \"Panel\" {{ cut 1; outline rectangle 30 by 60 }}"));
        line(format!("finish {at}.top, {at}.bottom  hem 1"));
    }
    for (at, pair) in names.windows(2).enumerate() {
        let (one, next) = (&pair[0], &pair[1]);
        line(format!(
            "seam s{at} {one}.right to {next}.left {{ matching {one}.top_right with {next}.top_left }}"
        ));
    }
    for (at, four) in names.windows(4).enumerate().step_by(2) {
        let (from, to) = (&four[0], &four[3]);
        line(format!(
            "strap t{at} 12 by 2 in outer folded in four {{ from {from}.top in the middle to {to}.bottom in the middle }}"
        ));
    }
    line(format!("finish p0.left, p{}.right  hem 1", panels - 1));
    text
}

#[test]
fn more_straps_take_longer_in_proportion() {
    is_about_linear(time(&strapped(320)), time(&strapped(40)));
}

//! Drawings and tables of points after slips and bad links. Whatever comes, it is read or refused with words, soon and without a
//! panic; what is read is whole and finite, and what is brought in is tidy and compiles.
//!
//! The same each time. More of them: `MUTANTS=20000 SEED=7 cargo test --release --test it damaged_drawings`, and many more as
//! `tests/fuzz/README.md` says.

use crate::fuzzed_readers::{NAMES, comes_in, is_read};
use crate::fuzzed_seeds::{WORDS, drawings};
use crate::mutations::asked;
use crate::mutator::Mutator;
use crate::watched::{Bounds, run, smaller};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::Duration;

#[test]
fn no_damage_brings_a_reader_down() {
    survive(asked("MUTANTS", 900), is_read);
}

#[test]
fn what_damaged_drawings_bring_in_is_a_draft() {
    survive(asked("MUTANTS", 240), |bytes, name| comes_in(bytes, name, true));
}

fn survive(count: u64, tried: fn(&[u8], &str) -> bool) {
    let seed = asked("SEED", 1);
    let bounds = Bounds { time: Duration::from_secs(20), megabytes: usize::MAX };
    for (name, seeds) in NAMES.into_iter().zip(drawings()) {
        let sound = seeds.iter().filter(|sound| tried(sound, name)).count();
        assert!(2 * sound > seeds.len(), "{name}: {sound} of {} seeds come in", seeds.len());
        let mut mutator = Mutator::new(seeds, &WORDS, seed);
        let hangs = |bytes: &[u8]| {
            eprintln!("this takes too long:\n{}", String::from_utf8_lossy(bytes));
            std::process::exit(1);
        };
        let report = run(&mut mutator, count.div_ceil(3), bounds, |bytes| tried(bytes, name), hangs);
        println!(
            "{name}: {} mutants, {} came in; the slowest took {:?}",
            report.runs, report.sound, report.slowest
        );
        if let Some((bytes, why)) = report.broken {
            let breaks = |bytes: &[u8]| catch_unwind(AssertUnwindSafe(|| tried(bytes, name))).is_err();
            let bytes = if breaks(&bytes) { smaller(&bytes, breaks) } else { bytes };
            panic!("{name}, seed {seed}: {why}\n{}", String::from_utf8_lossy(&bytes));
        }
        assert!(report.sound > 0, "{name}: none came in");
    }
}

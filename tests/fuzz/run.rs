//! Tries damaged files in this process, with the stable compiler: `run WHAT COUNT [SEED]`. See the README beside it.

use fustian_fuzz::mutator::Mutator;
use fustian_fuzz::watched::{Bounds, run, smaller, words};
use fustian_fuzz::{garments, readers, seeds};
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// What may be tried.
const TRIED: [(&str, Trial); 5] = [
    ("read", Trial::Read),
    ("bring", Trial::Bring),
    ("draft", Trial::Draft),
    ("text", Trial::Text),
    ("garment", Trial::Garment),
];

#[derive(Clone, Copy)]
enum Trial {
    /// Bytes are read, no more.
    Read,
    /// They are brought in as a text.
    Bring,
    /// And the text is compiled.
    Draft,
    /// A garment's text is parsed and tidied.
    Text,
    /// It is compiled, and all is written that comes of it.
    Garment,
}

impl Trial {
    fn of(self, bytes: &[u8], name: &str) -> bool {
        match self {
            Trial::Read => readers::is_read(bytes, name),
            Trial::Bring => readers::comes_in(bytes, name, false),
            Trial::Draft => readers::comes_in(bytes, name, true),
            Trial::Text => garments::is_read(bytes),
            Trial::Garment => garments::is_worked_out(bytes),
        }
    }

    /// What is damaged: what it is called, sound files of it and words that mean something in them.
    fn damaged(self) -> Vec<(&'static str, Vec<Vec<u8>>, &'static [&'static str])> {
        match self {
            Trial::Read | Trial::Bring | Trial::Draft => {
                let all = readers::NAMES.into_iter().zip(seeds::drawings());
                all.map(|(name, seeds)| (name, seeds, seeds::WORDS.as_slice())).collect()
            }
            Trial::Text | Trial::Garment => vec![("own.fus", garments::seeds(), garments::WORDS.as_slice())],
        }
    }
}

fn main() -> ExitCode {
    let given: Vec<String> = std::env::args().skip(1).collect();
    let [what, count, rest @ ..] = given.as_slice() else {
        eprintln!("run WHAT COUNT [SEED]; WHAT is read, bring, draft, text or garment");
        return ExitCode::FAILURE;
    };
    let trial = TRIED.iter().find(|(name, _)| name == what).map(|(_, trial)| *trial);
    let (Some(trial), Ok(count)) = (trial, count.parse::<u64>()) else {
        eprintln!("{what} {count}: WHAT is read, bring, draft, text or garment, COUNT a number");
        return ExitCode::FAILURE;
    };
    let seed = rest.first().and_then(|seed| seed.parse().ok()).unwrap_or(1);
    std::panic::set_hook(Box::new(|_| {}));
    let bounds = Bounds { time: Duration::from_secs(5), megabytes: 1024 };
    let all = trial.damaged();
    let count = count.div_ceil(all.len() as u64);
    let begun = Instant::now();
    let mut is_sound = true;
    for (name, seeds, words_of_it) in all {
        let mut mutator = Mutator::new(seeds, words_of_it, seed);
        let hung = format!("hung-{name}");
        let hangs = move |bytes: &[u8]| {
            eprintln!("{hung} holds what takes too long: {:?}", std::fs::write(&hung, bytes));
            std::process::exit(1);
        };
        let report = run(&mut mutator, count, bounds, |bytes| trial.of(bytes, name), hangs);
        println!(
            "{what} {name}, seed {seed}: {} runs, {} sound; the slowest took {:?}; {} MB at most; {:?} since the beginning",
            report.runs,
            report.sound,
            report.slowest,
            report.megabytes,
            begun.elapsed()
        );
        let Some((bytes, why)) = report.broken else { continue };
        is_sound = false;
        let breaks = |bytes: &[u8]| {
            let told = std::panic::catch_unwind(|| trial.of(bytes, name));
            told.is_err_and(|told| words(&*told).get(..20) == why.get(..20))
        };
        let bytes = if breaks(&bytes) { smaller(&bytes, breaks) } else { bytes };
        let file = format!("broken-{what}-{seed}-{name}");
        println!("{file} ({:?}): {why}", std::fs::write(&file, bytes));
    }
    if is_sound { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

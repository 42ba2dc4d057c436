//! Runs something on many damaged files and watches it: no panic, no hang, no more memory than is allowed.

use crate::mutator::Mutator;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

/// After how many runs they are counted aloud, so that those of a process that is ended are known.
const COUNTED: u64 = 50_000;

/// What one run may take.
#[derive(Clone, Copy)]
pub struct Bounds {
    /// How long.
    pub time: Duration,
    /// The most memory that the whole process may come to, in megabytes; looked at where the system tells it.
    pub megabytes: usize,
}

/// What came of many runs.
#[derive(Default)]
pub struct Report {
    /// How many runs there were.
    pub runs: u64,
    /// Of how many the tried thing said that it took the file for sound.
    pub sound: u64,
    /// The longest that one took.
    pub slowest: Duration,
    /// The most memory that the process came to, in megabytes; 0 where nothing tells it.
    pub megabytes: usize,
    /// The first file that broke a bound or a promise, and why.
    pub broken: Option<(Vec<u8>, String)>,
}

/// What is being tried: since when, and on which file.
type Trying = Arc<Mutex<Option<(Instant, Vec<u8>)>>>;

/// Tries damaged files until so many ran or one breaks. `tried` says whether it took a file for sound; it panics where a
/// promise is broken. `hangs` is called, on another thread, with a file that takes ten times what it may.
pub fn run(
    mutator: &mut Mutator,
    count: u64,
    bounds: Bounds,
    tried: impl Fn(&[u8]) -> bool,
    hangs: impl Fn(&[u8]) + Send + 'static,
) -> Report {
    let trying = Trying::default();
    let over = Arc::downgrade(&trying);
    std::thread::spawn(move || {
        while let Some(trying) = over.upgrade() {
            if let Ok(now) = trying.lock()
                && let Some((since, bytes)) = &*now
                && since.elapsed() > bounds.time * 10
            {
                return hangs(bytes);
            }
            drop(trying);
            std::thread::sleep(Duration::from_millis(200));
        }
    });
    let mut report = Report::default();
    while report.runs < count && report.broken.is_none() {
        let bytes = mutator.mutant();
        let since = Instant::now();
        if let Ok(mut now) = trying.lock() {
            *now = Some((since, bytes.clone()));
        }
        let told = catch_unwind(AssertUnwindSafe(|| tried(&bytes)));
        let mut took = since.elapsed();
        // A machine that does much else makes anything slow once: what is slow three times is slow by itself.
        for _ in 0..2 {
            if told.is_ok() && took > bounds.time {
                let since = Instant::now();
                let again = catch_unwind(AssertUnwindSafe(|| tried(&bytes)));
                took = if again.is_ok() { took.min(since.elapsed()) } else { took };
            }
        }
        if let Ok(mut now) = trying.lock() {
            *now = None;
        }
        report.runs += 1;
        if report.runs.is_multiple_of(COUNTED) {
            eprintln!("{} runs", report.runs);
        }
        report.slowest = report.slowest.max(took);
        report.megabytes = most_memory();
        let why = match told {
            Err(why) => Some(words(&*why)),
            Ok(_) if took > bounds.time => Some(format!("it took {took:?}")),
            Ok(_) if report.megabytes > bounds.megabytes => Some(format!("it took {} MB", report.megabytes)),
            Ok(is_sound) => {
                report.sound += u64::from(is_sound);
                None
            }
        };
        report.broken = why.map(|why| (bytes, why));
    }
    report
}

/// What a panic said.
pub fn words(why: &(dyn std::any::Any + Send)) -> String {
    let text = why.downcast_ref::<String>().cloned();
    text.or_else(|| why.downcast_ref::<&str>().map(|text| (*text).to_owned())).unwrap_or_default()
}

/// The most memory that this process has held, in megabytes, as Linux tells it.
fn most_memory() -> usize {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let row = status.lines().find_map(|row| row.strip_prefix("VmHWM:"));
    row.and_then(|row| row.split_whitespace().next()?.parse::<usize>().ok()).unwrap_or(0) / 1024
}

/// The file made smaller, as long as it still breaks what it broke: stretches are left out, the long ones first.
pub fn smaller(bytes: &[u8], breaks: impl Fn(&[u8]) -> bool) -> Vec<u8> {
    let mut kept = bytes.to_vec();
    let mut stretch = kept.len() / 2;
    let until = Instant::now() + Duration::from_secs(30);
    while stretch > 0 && Instant::now() < until {
        let mut at = 0;
        while at < kept.len() {
            let end = (at + stretch).min(kept.len());
            let less = [kept.get(..at).unwrap_or_default(), kept.get(end..).unwrap_or_default()].concat();
            match breaks(&less) {
                true => kept = less,
                false => at = end,
            }
        }
        stretch /= 2;
    }
    kept
}

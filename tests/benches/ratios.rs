//! What Fustian costs, as ratios measured in one run, beside their targets:
//! `cargo bench --bench ratios`. Ratios, so that they mean the same on every machine.

mod big;
mod take_ups;
mod typing;

use fustian::check::{CHECKS, Check, run};
use fustian::emit::drawing::Look;
use fustian::emit::{Paper, document, pdf, to_text};
use fustian::resolve::resolve;
use fustian::sewing::assemble;
use fustian::sewing::order::plan;
use fustian::source::MemoryLoader;
use fustian::syntax::bare_parse;
use fustian::{Compiled, compile, packed};
use mimalloc::MiMalloc;
use rayon::prelude::*;
use std::alloc::{GlobalAlloc, Layout};
use std::hint::black_box;
use std::process::Command;
use std::sync::atomic::{AtomicBool, AtomicIsize, Ordering::Relaxed};
use std::time::{Duration, Instant};

/// Hands memory out as the program does, and counts what is held, and the most that was, while that is asked for: counting
/// takes time.
struct Counting;

static COUNTS: AtomicBool = AtomicBool::new(false);
static HELD: AtomicIsize = AtomicIsize::new(0);
static MOST: AtomicIsize = AtomicIsize::new(0);

// SAFETY: every call goes to the program's allocator unchanged; only sizes are counted beside it.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        if COUNTS.load(Relaxed) {
            let size = layout.size().cast_signed();
            MOST.fetch_max(HELD.fetch_add(size, Relaxed) + size, Relaxed);
        }
        // SAFETY: the caller's promises are that allocator's.
        unsafe { MiMalloc.alloc(layout) }
    }

    unsafe fn dealloc(&self, pointer: *mut u8, layout: Layout) {
        if COUNTS.load(Relaxed) {
            HELD.fetch_sub(layout.size().cast_signed(), Relaxed);
        }
        // SAFETY: as above.
        unsafe { MiMalloc.dealloc(pointer, layout) }
    }
}

#[global_allocator]
static COUNTING: Counting = Counting;

/// The shortest of several runs, so that whatever else the machine does counts least.
fn time<T>(runs: usize, mut work: impl FnMut() -> T) -> Duration {
    let mut best = Duration::MAX;
    for _ in 0..runs {
        let start = Instant::now();
        let made = black_box(work());
        best = best.min(start.elapsed());
        drop(made);
    }
    best
}

/// Several works timed by turns, each as often, and the shortest of each: whatever slows the machine for a while slows
/// all of them.
fn by_turns<const N: usize>(rounds: usize, timed: [&dyn Fn() -> Duration; N]) -> [Duration; N] {
    let mut best = [Duration::MAX; N];
    for _ in 0..rounds {
        for (least, work) in best.iter_mut().zip(timed) {
            *least = (*least).min(work());
        }
    }
    best
}

/// So many runs one after the other before another work has its turn.
const TURN: usize = 10;

/// The most memory that was held at once beyond what was held before, in bytes.
fn memory<T>(work: impl FnOnce() -> T) -> usize {
    HELD.store(0, Relaxed);
    MOST.store(0, Relaxed);
    COUNTS.store(true, Relaxed);
    drop(black_box(work()));
    COUNTS.store(false, Relaxed);
    MOST.load(Relaxed).max(0).cast_unsigned()
}

fn told(name: &str, ratio: f64, target: f64) {
    let verdict = if ratio <= target { "met" } else { "MISSED" };
    println!("{name:<58} {ratio:>7.2} ×   target {target:>3} ×   {verdict}");
}

fn per(this: Duration, that: Duration) -> f64 {
    this.as_secs_f64() / that.as_secs_f64()
}

fn loader(files: &[(&str, &str)]) -> MemoryLoader {
    files.iter().fold(MemoryLoader::new(), |loader, (path, text)| loader.with(path, *text))
}

fn jacket() {
    let files = [
        ("deck-jacket.fus", include_str!("../../examples/deck-jacket.fus")),
        ("deck-zip.fus", include_str!("../../examples/deck-zip.fus")),
        ("deck-lined.fus", include_str!("../../examples/deck-lined.fus")),
        ("deck-smock.fus", include_str!("../../examples/deck-smock.fus")),
        ("crew-library.fus", include_str!("../../examples/crew-library.fus")),
    ];
    let loader = loader(&files);
    let bare = time(200, || files.iter().map(|(_, text)| bare_parse(text)).sum::<usize>());
    let resolved = time(200, || {
        let compiled = compile(&loader, "deck-jacket.fus");
        to_text(&document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics))
    });
    println!("deck jacket: bare parse {bare:?}, resolve in six sizes to JSON {resolved:?}");
    told("resolving the jacket in all sizes, to its bare parse", per(resolved, bare), 10.0);
}

fn printing() {
    let files = [
        ("deck-jacket.fus", include_str!("../../examples/deck-jacket.fus")),
        ("deck-zip.fus", include_str!("../../examples/deck-zip.fus")),
        ("deck-lined.fus", include_str!("../../examples/deck-lined.fus")),
        ("deck-smock.fus", include_str!("../../examples/deck-smock.fus")),
        ("crew-library.fus", include_str!("../../examples/crew-library.fus")),
    ];
    let loader = loader(&files);
    let compiled = compile(&loader, "deck-jacket.fus");
    let print = || {
        // Copied before anything has asked how it is cut, so that this is worked out each time.
        let sizes = compiled.sizes.clone();
        let cuts: Vec<_> = sizes.iter().map(|size| size.cut(&compiled.garment).clone()).collect();
        pdf(&compiled.garment, &cuts, Paper::A4, &Look::printing(), &mut |_, _| {})
    };
    let (resolved, printed) = (time(50, || compile(&loader, "deck-jacket.fus")), time(20, print));
    let most = memory(print) as f64 / 1e6;
    println!(
        "deck jacket: resolve {resolved:?}, print six sizes nested on A4 {printed:?}, {most:.1} MB of 200 MB"
    );
    told("printing six sizes nested on A4, to resolving them", per(printed, resolved), 20.0);
}

fn growing() {
    let timed = |pieces: usize, sizes: usize| {
        let loader = loader(&[("awning.fus", &big::garment(pieces, sizes))]);
        assert!(!compile(&loader, "awning.fus").has_mistakes(), "the awning is sound");
        time(5, || compile(&loader, "awning.fus"))
    };
    told("100 pieces to 10, in six sizes", per(timed(100, 6), timed(10, 6)), 12.0);
    told("1000 pieces to 100, in six sizes", per(timed(1000, 6), timed(100, 6)), 12.0);
    told("10 sizes to 1, of 50 pieces", per(timed(50, 10), timed(50, 1)), 12.0);
    told("100 sizes to 10, of 50 pieces", per(timed(50, 100), timed(50, 10)), 12.0);
}

/// Five files combined over the smock, beside what they say in one file.
fn combined() {
    let five = [
        (
            "five.fus",
            "variation \"Five\" of \"deck-smock.fus\" with \"deck-zip.fus\", \"deck-lined.fus\", \"crew-badge.fus\", \"strict.fus\", \"told.fus\"\nin steps before \"Shell\" add \"Badge\" { place badge }\n",
        ),
        ("strict.fus", "variation \"Strict\" of \"deck-smock.fus\"\nset sleeve_length = arm - 4\n"),
        ("told.fus", "variation \"Told\" of \"deck-smock.fus\"\nmeasure arm_told \"Arm\" = sleeve_length\n"),
        ("crew-badge.fus", include_str!("../../examples/crew-badge.fus")),
        ("deck-zip.fus", include_str!("../../examples/deck-zip.fus")),
        ("deck-lined.fus", include_str!("../../examples/deck-lined.fus")),
        ("deck-smock.fus", include_str!("../../examples/deck-smock.fus")),
        ("crew-library.fus", include_str!("../../examples/crew-library.fus")),
    ];
    let five = loader(&five);
    let one = loader(&[("one.fus", &packed(&five, "five.fus"))]);
    assert!(!compile(&five, "five.fus").has_mistakes() && !compile(&one, "one.fus").has_mistakes());
    let (several, alone) = (time(60, || compile(&five, "five.fus")), time(60, || compile(&one, "one.fus")));
    told("five files combined, to what they say in one", per(several, alone), 1.2);
}

/// The first slugs of the checks that look at pieces, cloth and cutting lines, not at sewing.
const OF_CUTTING: [&str; 9] = [
    "size/irregular",
    "size/lines-cross",
    "piece/uncut",
    "place/outside",
    "alter/through-mark",
    "zipper/sides",
    "cloth/narrow",
    "cloth/unused",
    "cutting/too-wide",
];

/// Putting together and checking, beside resolving the same garment.
fn sewing() {
    let measured = |loader: &MemoryLoader, path: &str| {
        let compiled = compile(loader, path);
        assert!(!compiled.has_mistakes(), "{path} is sound");
        let of_sewing: Vec<&Check> =
            CHECKS.iter().filter(|one| !OF_CUTTING.contains(&one.kinds[0].slug)).copied().collect();
        // Sizes side by side, as `resolve`, `compile` and the checks work them out.
        let [resolved, assembled, checked, all] = by_turns(
            20,
            [
                &|| time(TURN, || resolve(&compiled.garment, &compiled.plan)),
                &|| {
                    time(TURN, || {
                        let sizes = compiled.sizes.par_iter();
                        sizes.map(|size| assemble(&compiled.garment, &size.drawn)).collect::<Vec<_>>()
                    })
                },
                &|| time(TURN, || run(&of_sewing, &compiled.garment, &compiled.sizes)),
                &|| time(TURN, || run(CHECKS, &compiled.garment, &compiled.sizes)),
            ],
        );
        println!(
            "{path}: resolve {resolved:?}, put together {assembled:?}, checks of it {checked:?}, all checks {all:?}"
        );
        let mut each: Vec<(Duration, &str)> = CHECKS
            .iter()
            .map(|one| {
                let alone = || run(&[*one], &compiled.garment, &compiled.sizes);
                (time(20, alone), one.kinds.first().map_or("", |kind| kind.slug))
            })
            .collect();
        each.sort_by(|one, other| other.cmp(one));
        let most: Vec<String> = each.iter().take(6).map(|(took, slug)| format!("{slug} {took:?}")).collect();
        println!("  the most of all checks: {}", most.join(", "));
        (resolved, assembled + checked, assembled + all)
    };
    let files = [
        ("deck-jacket.fus", include_str!("../../examples/deck-jacket.fus")),
        ("deck-zip.fus", include_str!("../../examples/deck-zip.fus")),
        ("deck-lined.fus", include_str!("../../examples/deck-lined.fus")),
        ("deck-smock.fus", include_str!("../../examples/deck-smock.fus")),
        ("crew-library.fus", include_str!("../../examples/crew-library.fus")),
    ];
    let jacket = loader(&files);
    let (resolved, sewn, all) = measured(&jacket, "deck-jacket.fus");
    let compiled = compile(&jacket, "deck-jacket.fus");
    let of_steps: Vec<&Check> =
        CHECKS.iter().filter(|one| one.kinds[0].slug.starts_with("step")).copied().collect();
    let steps = time(50, || run(&of_steps, &compiled.garment, &compiled.sizes));
    let whole = time(50, || compile(&jacket, "deck-jacket.fus"));
    println!("deck jacket: compiled {whole:?}, its steps checked {steps:?}");
    told("percent that checking steps takes of compiling the jacket", 100.0 * per(steps, whole), 3.0);
    told("seams, fates and steps checked, to resolving the jacket", per(sewn, resolved), 1.0);
    told("the same and all other checks, to resolving the jacket", per(all, resolved), 1.0);
    let before = whole.saturating_sub(all);
    told("all of it, to working the jacket's sizes out from its text", per(all, before), 1.0);
    let awning = |pieces: usize| {
        let text = big::garment(pieces, 2);
        measured(&loader(&[("awning.fus", &text)]), "awning.fus").1
    };
    told("the same of 1000 seams to 100", per(awning(1000), awning(100)), 12.0);
}

/// A piece with ten take-ups beside the same piece without them: from its text on, and drawing it alone, where what more
/// there is to be read does not count.
fn taking_up() {
    let text_of = |taken: take_ups::TakenOut| loader(&[("skirt.fus", &take_ups::garment(taken))]);
    let panel = |taken: take_ups::TakenOut| {
        let compiled = compile(&text_of(taken), "skirt.fus");
        assert!(!compiled.has_mistakes(), "the panel with {} is sound", taken.words());
        compiled
    };
    let plain_text = text_of(take_ups::TakenOut::Nothing);
    let plain = panel(take_ups::TakenOut::Nothing);
    for taken in take_ups::TakenOut::ALL {
        let with = panel(taken);
        let resolving = |of: &Compiled| time(TURN, || resolve(&of.garment, &of.plan));
        let [plain, with] = by_turns(50, [&|| resolving(&plain), &|| resolving(&with)]);
        let name = format!("drawing a piece with {} to the plain piece", taken.words());
        told(&name, per(with, plain), 2.0);
        let text = text_of(taken);
        let compiling = |text: &MemoryLoader| time(TURN, || compile(text, "skirt.fus"));
        let [plain, with] = by_turns(50, [&|| compiling(&plain_text), &|| compiling(&text)]);
        let name = format!("a piece with {}, from its text on, to the plain piece", taken.words());
        told(&name, per(with, plain), 2.0);
    }
}

/// An order for 200 seams of which no step says anything.
fn order_of_work() {
    let text = big::garment(200, 1);
    let compiled = compile(&loader(&[("awning.fus", &text)]), "awning.fus");
    assert!(!compiled.has_mistakes() && compiled.garment.seams.len() >= 199, "200 seams");
    let size = &compiled.sizes[0];
    let took = time(20, || plan(&compiled.garment, &size.drawn, &size.sewn).groups.len());
    told("milliseconds to work out the order of 200 seams", took.as_secs_f64() * 1000.0, 50.0);
}

/// A keystroke in the text of a big garment, beside compiling it anew.
fn typing_in() {
    let text = big::garment(1000, 6);
    let (told, shown) = typing::keystroke(&text, 1000, "outline from foot {\n    centre", 10);
    let (drawn, _) = typing::keystroke(&text, 1000, "point head     = (0, -7.5", 10);
    let awning = loader(&[("awning.fus", &text)]);
    let anew = time(5, || compile(&awning, "awning.fus"));
    println!(
        "1000 pieces in six sizes: a name broken {told:?}, a figure {drawn:?}, outline and colours {shown:?}, compiled anew {anew:?}"
    );
    told_of_keystroke(drawn.max(told), anew);
}

fn told_of_keystroke(typed: Duration, anew: Duration) {
    told("milliseconds until a keystroke is answered", typed.as_secs_f64() * 1000.0, 100.0);
    told("a keystroke answered, to compiling the garment anew", per(typed, anew), 0.3);
}

fn megabyte() {
    for sizes in [1, 6] {
        let text = big::garment_of_bytes(1_000_000, sizes);
        let loader = loader(&[("awning.fus", &text)]);
        assert!(!compile(&loader, "awning.fus").has_mistakes(), "the awning is sound");
        let (bare, bare_memory) = (time(5, || bare_parse(&text)), memory(|| bare_parse(&text)));
        let checked = time(5, || compile(&loader, "awning.fus"));
        let checked_memory = memory(|| compile(&loader, "awning.fus"));
        let (bare_mb, checked_mb) = (bare_memory as f64 / 1e6, checked_memory as f64 / 1e6);
        println!(
            "{} bytes, sizes {sizes}: bare parse {bare:?} and {bare_mb:.1} MB, check {checked:?} and {checked_mb:.1} MB",
            text.len(),
        );
        told(&format!("checking 1 MB to its bare parse, time, sizes {sizes}"), per(checked, bare), 4.0);
        told(&format!("checking 1 MB to its bare parse, memory, sizes {sizes}"), checked_mb / bare_mb, 4.0);
    }
}

fn process() {
    let run = |arguments: &[&str]| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_fustian"));
        command.args(arguments).current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/examples"));
        let output = command.output().expect("fustian can be run");
        assert!(output.status.success(), "fustian {arguments:?} found something to mend");
    };
    let version = time(40, || run(&["--version"]));
    let check = time(40, || run(&["check", "deck-jacket.fus"]));
    println!("process: --version {version:?}, check deck-jacket.fus {check:?}");
    told("process `check` of the jacket, to `--version`", per(check, version), 8.0);
}

/// All of them, or those that are named: `cargo bench --bench ratios -- taking_up`.
fn main() {
    let named: Vec<String> = std::env::args().skip(1).filter(|word| !word.starts_with('-')).collect();
    let all: [(&str, fn()); 10] = [
        ("jacket", jacket),
        ("printing", printing),
        ("growing", growing),
        ("combined", combined),
        ("sewing", sewing),
        ("taking_up", taking_up),
        ("order_of_work", order_of_work),
        ("typing_in", typing_in),
        ("megabyte", megabyte),
        ("process", process),
    ];
    for (name, measure) in all {
        if named.is_empty() || named.iter().any(|one| one == name) {
            measure();
        }
    }
}

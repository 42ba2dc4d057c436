//! Drawings and tables of points after slips: lines and fields lost, doubled, swapped, numbers out of all measure. Whatever
//! comes, it is read or refused with words, soon and without a panic; what is read is whole and finite.
//!
//! The same each time. More of them: `MUTANTS=20000 SEED=7 cargo test --release --test it damaged_drawings`.

use crate::cutting_lines::{cut_all, example};
use crate::mutations::{Dice, asked};
use crate::reading_dxf;
use fustian::bring::read::{csv, dxf};
use fustian::bring::traced::{Traced, TracedPath};
use fustian::bring::{BringError, ReadOptions};
use fustian::emit::dxf as write;
use kurbo::ParamCurve;
use std::panic::catch_unwind;
use std::time::{Duration, Instant};

/// Values that no program writes, and some that it does in another place.
const WILD: [&str; 24] = [
    "",
    "0",
    "-1",
    "1",
    "1e308",
    "-1e-308",
    "nan",
    "inf",
    "1e9",
    "99999999999999999999",
    "\u{7}",
    "“",
    "SECTION",
    "ENDSEC",
    "ENDBLK",
    "EOF",
    "INSERT",
    "SPLINE",
    "LWPOLYLINE",
    "10",
    "42",
    "71",
    "\\U+D800",
    "%%%%",
];

fn mutant(text: &str, part: char, dice: &mut Dice) -> String {
    let mut words: Vec<&str> = text.split(part).collect();
    for _ in 0..1 + dice.roll(6) {
        let (at, other) = (dice.roll(words.len()), dice.roll(words.len()));
        match dice.roll(8) {
            0 => drop(words.remove(at)),
            1 => words.insert(at, words[other]),
            2 => words.swap(at, other),
            3 => words[at] = words[other],
            4 => words.truncate(at.max(1)),
            _ => words[at] = WILD[dice.roll(WILD.len())],
        }
        if words.is_empty() {
            words.push("");
        }
    }
    words.join(&part.to_string())
}

fn is_whole(path: &TracedPath) {
    let nexts = path.segments.iter().skip(1);
    assert!(
        path.segments.iter().zip(nexts).all(|(one, next)| one.course.end() == next.course.start()),
        "{path:?}"
    );
    if let (true, Some(first), Some(last)) = (path.closed, path.segments.first(), path.segments.last()) {
        assert_eq!(last.course.end(), first.course.start());
    }
    assert!(
        !path.segments.is_empty() && path.segments.iter().all(|segment| segment.course.is_finite()),
        "{path:?}"
    );
}

/// What is read is whole; what is refused has words.
fn judged(read: Result<Traced, BringError>) -> bool {
    match read {
        Ok(traced) => {
            assert!(!traced.pieces.is_empty() || !traced.wrong.is_empty());
            for piece in &traced.pieces {
                assert!(
                    !piece.sizes.is_empty() && !piece.name.contains(char::is_control),
                    "{:?}",
                    piece.name
                );
                for size in piece.sizes.values() {
                    assert!(size.outline.closed);
                    let paths = size.lines.iter().map(|line| &line.path).chain(&size.sew_line);
                    std::iter::once(&size.outline).chain(paths).for_each(is_whole);
                    assert!(size.marks.iter().all(|mark| mark.at.is_finite()));
                    assert!(size.notches.iter().all(|notch| notch.at.is_finite()));
                }
            }
            true
        }
        Err(error) => {
            assert!(!error.why.is_empty() && !error.why.ends_with('.') && error.why.len() < 4000, "{error}");
            assert!(error.why.chars().all(|letter| !letter.is_control() || letter == '\n'), "{error:?}");
            false
        }
    }
}

#[test]
fn no_damage_brings_a_reader_down() {
    let (count, seed) = (asked("MUTANTS", 1500), asked("SEED", 1));
    let compiled = example("galley-apron.fus");
    let apron = String::from_utf8(write(&compiled.garment, &cut_all(&compiled)[..1])).unwrap();
    let by_hand = reading_dxf::of_everything();
    let points = "piece,size,point,x,y,kind\nBib,S,1,0,0,corner\nBib,S,2,200,0,curve\nBib,S,3,210,150,\n\
        Bib,S,1,50,50,notch\nBib,S,1,20,40,line hem\nBib,S,2,180,40,line hem\nBib,S,1,9,9,grain\nBib,S,2,9,99,grain\n\
        \"Strap, \"\"long\"\"\",M,,0,0,\n\"Strap, \"\"long\"\"\",M,,5,0,\n\"Strap, \"\"long\"\"\",M,,5,9,\n";
    let options = ReadOptions::default();
    for sound in [&apron, &by_hand] {
        assert!(judged(dxf::read(sound.as_bytes(), "a.dxf", &options)));
    }
    assert!(judged(csv::read(points.as_bytes(), "a.csv", &options)));
    let mut dice = Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1);
    let (mut came_in, mut slowest) = (0, Duration::ZERO);
    for number in 0..count {
        let which = dice.roll(8);
        let mutant = match which {
            0 => mutant(&apron, '\n', &mut dice),
            1..5 => mutant(&by_hand, '\n', &mut dice),
            5 => mutant(points, '\n', &mut dice),
            _ => mutant(points, ',', &mut dice),
        };
        let start = Instant::now();
        let told = catch_unwind(|| {
            judged(match which {
                0..5 => dxf::read(mutant.as_bytes(), "a.dxf", &options),
                _ => csv::read(mutant.as_bytes(), "a.csv", &options),
            })
        });
        slowest = slowest.max(start.elapsed());
        came_in += usize::from(told.unwrap_or_else(|_| panic!("mutant {number} of seed {seed}:\n{mutant}")));
    }
    println!("{count} mutants, {came_in} came in; the slowest took {slowest:?}");
    assert!(came_in > 0 && slowest < Duration::from_secs(5), "{came_in} of {count} came in, {slowest:?}");
}

//! Ten thousand seams and the steps that sew them: sound, soon, and each of them there.

use fustian::compile;
use fustian::source::MemoryLoader;
use std::fmt::Write;
use std::time::{Duration, Instant};

const SEAMS: usize = 10_000;
/// Generous: a debug build on a busy machine takes some ten seconds. What is quadratic in ten thousand
/// seams takes hours.
const LONGEST: Duration = Duration::from_secs(120);

/// The deck awning as one row of strips, each sewn to the next.
fn awning() -> String {
    let strips: Vec<String> = (0..=SEAMS).map(|at| format!("strip{at}")).collect();
    let mut text = format!(
        "garment \"Deck awning\"\nunits cm\nallowance 1\nfabric canvas \"sail canvas\" {{ width 150 }}\n\
         layer outer in canvas {{ {} }}\n",
        strips.join(", ")
    );
    let (mut sewn, mut hemmed) = (Vec::new(), vec!["strip0.left".to_owned(), format!("strip{SEAMS}.right")]);
    for at in 0..=SEAMS {
        writeln!(text, "piece strip{at} \"Strip {at}\" {{ cut 1; outline rectangle 20 by 300 }}").unwrap();
        hemmed.extend([format!("strip{at}.top"), format!("strip{at}.bottom")]);
        if let Some(before) = at.checked_sub(1) {
            writeln!(
                text,
                "seam seam{at} strip{before}.right to strip{at}.left {{ matching strip{before}.top_right with strip{at}.top_left; notch 80 from strip{at}.top_left }}"
            )
            .unwrap();
            sewn.push(format!("seam{at}"));
        }
    }
    let (sewn, hemmed) = (sewn.join(", "), hemmed.join(", "));
    writeln!(
        text,
        "finish {hemmed}  hem 3\nsteps {{\n\"Strips\" {{ sew {sewn} }}\n\"Hems\" {{ hem {hemmed} }}\n}}"
    )
    .unwrap();
    text
}

#[test]
fn ten_thousand_seams_are_sound_and_soon_done() {
    let loader = MemoryLoader::new().with("awning.fus", awning());
    let started = Instant::now();
    let compiled = compile(&loader, "awning.fus");
    let taken = started.elapsed();
    assert!(compiled.diagnostics.is_empty(), "{:#?}", compiled.diagnostics.first());
    let [size] = compiled.sizes.as_slice() else { panic!("{} sizes", compiled.sizes.len()) };
    let sewing = &size.sewn;
    assert_eq!(sewing.seams.len(), SEAMS);
    for seam in &sewing.seams {
        // Drawn 300 cm long, with a notch 80 cm from the upper end.
        let (first, second) = (seam.first.plies[0].length, seam.second.plies[0].length);
        assert_eq!((first, second, seam.sewings, seam.ends.len()), (3000.0, 3000.0, 1, 2));
        assert_eq!(seam.notches.len(), 1);
    }
    assert!(taken < LONGEST, "it took {taken:?}");
}

//! `stitch/breaks`: seams of cloth that stretches which are sewn in a stitch that does not, said or taken where none is said.

use super::sides::each;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Seam};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::{LOCKSTITCH, SewnSeam, give};
use crate::syntax::tree::{ClothKind, FitKind};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::STITCH_BREAKS], run: Run::PerSize(run) };

/// A lockstitch goes along with about so much, as a share, before its thread breaks (common practice).
const GOES_ALONG: f64 = 0.25;
/// A seam that is shorter than this, in millimetres, as the ends of a band have one, does not stretch far enough to break.
const SHORT: f64 = 150.0;
/// So many seams are named, and the others counted.
const NAMED: usize = 2;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    // A stitch that is misspelt is said all the same, and which it is cannot be asked yet.
    if garment.incomplete.stitches {
        return;
    }
    let mut found: Vec<&Seam> = Vec::new();
    for (seam, sewn) in each(garment, &size.sewn) {
        let is_new = !found.iter().any(|known| std::ptr::eq(*known, seam));
        if is_new && is_plain(seam) && is_stretchy(garment, size, sewn) {
            found.push(seam);
        }
    }
    let Some(&first) = found.first() else { return };
    let mut names: Vec<String> = found.iter().take(NAMED).map(|seam| seam.words()).collect();
    match found.len() - names.len() {
        0 => {}
        1 => names.extend(found.last().map(|seam| seam.words())),
        more => names.push(format!("{more} more")),
    }
    let names = words::listed(&names);
    let said = found.iter().find_map(|seam| seam.stitch.as_ref());
    let (place, title) = match said {
        Some(stitch) => {
            (stitch.span, format!("a lockstitch has no give, and the cloth stretches along {names}"))
        }
        None => (
            first.name_span,
            format!("no stitch is said for {names}: a lockstitch has no give, and the cloth stretches there"),
        ),
    };
    let advice = Diagnostic::new(&catalogue::STITCH_BREAKS, place, title)
        .label("its thread breaks in wear")
        .help(
            "take a stitch that gives: `stitch 504` (overlock), 401 (two-thread chainstitch) or 304 (zigzag), in the header for \
             every seam, in a seam's braces for that; or a `tape`, where nothing is to stretch",
        );
    findings.push(Finding::new(size.id(), 0.0, advice));
}

/// Whether it is sewn in a lockstitch, or in none that is said, and nothing else holds it. What is stretched as it is sewn is
/// told of by itself where its stitch is said.
fn is_plain(seam: &Seam) -> bool {
    let is_told =
        seam.fit.as_ref().is_some_and(|fit| fit.kind == FitKind::Stretching) && seam.stitch.is_some();
    !seam.poisoned
        && seam.tape.is_none()
        && !is_told
        && seam.stitch.as_ref().is_none_or(|stitch| stitch.number == LOCKSTITCH)
}

/// Whether everything in it is knitted and stretches along it.
fn is_stretchy(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam) -> bool {
    let plies = || sewn.first.plies.iter().chain(&sewn.second.plies);
    if plies().all(|ply| ply.length < SHORT) {
        return false;
    }
    let mut runs = plies().flat_map(|ply| &ply.runs).peekable();
    runs.peek().is_some()
        && runs.all(|run| {
            let part = size.sewn.part(run.part).part;
            let cloth = garment.layer(part.layer).fabric.map(|fabric| garment.fabric(fabric));
            cloth.is_some_and(|cloth| cloth.kind == Some(ClothKind::Knit))
                && give(garment, &size.drawn, &part, run.edge)
                    .share()
                    .is_some_and(|share| share >= GOES_ALONG)
        })
}

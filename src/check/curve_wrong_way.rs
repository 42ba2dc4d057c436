//! `edge/wrong-way`: a rise that stands out where the body needs it hollow, and a cap that goes in where it is to stand out.
//!
//! Both are known by the trade's words in their names, the cap on a sleeve, and drawn so by a curve that leaves the wrong way or a sign that was lost.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdge, DrawnPiece};
use crate::shape::Point;
use crate::shape::outline::is_anticlockwise;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::EDGE_WRONG_WAY], run: Run::PerSize(run) };

const RISES: [&str; 2] = ["rise", "crotch"];
const CAPS: [&str; 1] = ["cap"];
const SLEEVE: &str = "sleeve";
/// What stands out or goes in by less than this, in millimetres, is as good as straight.
const FLAT: f64 = 8.0;
/// Curves are followed within this, in millimetres.
const FOLLOWED: f64 = 0.5;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut seen = IdSet::default();
    for part in size.sewn.parts.iter().filter(|part| !part.fused) {
        let Some(drawn) = size.drawn.paper(part.part.paper) else { continue };
        if !seen.insert(part.part.paper) {
            continue;
        }
        findings.extend(told(garment, size, drawn, &RISES, false));
        // A hat has a cap as well, whose edges may go in.
        if garment.piece(drawn.piece).name.contains(SLEEVE) {
            findings.extend(told(garment, size, drawn, &CAPS, true));
        }
    }
}

/// The first row of edges with one of those words in their names that lies on the wrong side of the straight line between its ends.
fn told(
    garment: &Garment,
    size: &WorkedSize,
    drawn: &DrawnPiece,
    names: &[&str],
    stands_out: bool,
) -> Option<Finding> {
    let is_named = |edge: &DrawnEdge| {
        let name = &garment.edge(garment.whole_edge(edge.edge)).name;
        name.split('_').any(|word| names.contains(&word))
    };
    let outline = drawn.outline();
    let is_left = is_anticlockwise(outline.iter().map(|edge| &edge.path));
    let count = outline.len();
    let at = |place: usize| outline.get(place % count.max(1)).filter(|edge| is_named(edge));
    let firsts = (0..count).filter(|&place| at(place).is_some() && at(place + count - 1).is_none());
    firsts.into_iter().find_map(|first| {
        let row: Vec<&DrawnEdge> = (first..first + count).map_while(at).collect();
        let (start, end) = (row.first()?.path.start(), row.last()?.path.end());
        let chord = end - start;
        let long = chord.hypot();
        if long <= FLAT {
            return None;
        }
        // To the right of an outline that runs anticlockwise lies what is not the piece.
        let out = |at: Point| {
            let off = chord.cross(at - start) / long;
            if is_left { -off } else { off }
        };
        let off = row.iter().flat_map(|edge| edge.path.flatten(FOLLOWED)).map(out);
        let (most_in, most_out) = off.fold((0.0_f64, 0.0_f64), |(low, high), off| (low.min(off), high.max(off)));
        let (wrong, right) = if stands_out { (-most_in, most_out) } else { (most_out, -most_in) };
        let edge = garment.edge(garment.whole_edge(row.first()?.edge));
        (wrong > FLAT && right < FLAT).then(|| {
            let piece = words::piece(garment, drawn.piece);
            let by = amount(wrong, garment.unit);
            let (how, wanted) = match stands_out {
                true => ("goes in", "a cap stands out, and is set in so"),
                false => ("stands out", "a rise is hollow, so that it lies round the body"),
            };
            let title = Title::new(format!("the {} of {piece} {how} by {by}", edge.name)).in_sizes();
            let advice = Diagnostic::new(&catalogue::EDGE_WRONG_WAY, edge.span, title)
                .label(wanted)
                .help("look at the ways in which its curve leaves and arrives, and at the signs of the points that it joins");
            Finding::new(size.id(), wrong, advice).about(format!("{} {}", garment.piece(drawn.piece).name, edge.name)).figure("off", by)
        })
    })
}

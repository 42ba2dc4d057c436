//! `seam/end-for-end`: an edge that is sewn end for end to its own twin in another layer.

use super::runs::{corner_of, facing, is_at, is_same_from_both_ends};
use super::sides::corner;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Seam, SewnPoint, SewnSpot};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::CornerName;
use crate::sewing::{SeamEnd, SewnPly, SewnRun, SewnSeam, seam_edges};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_END_FOR_END], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    // What is twisted is reported by itself, and turns what it is sewn to.
    if size.sewn.surface.as_ref().is_none_or(|surface| !surface.twists.is_empty()) {
        return;
    }
    // Only edges in two layers can be twins.
    for sewn in size.sewn.seams.iter().filter(|sewn| sewn.layers.len() > 1) {
        let all: Vec<&SewnPly> = sewn.first.plies.iter().chain(&sewn.second.plies).collect();
        let pairs =
            all.iter().enumerate().flat_map(|(at, &one)| all.iter().skip(at + 1).map(move |&two| (one, two)));
        let twins = pairs.flat_map(|(one, two)| facing(one, two)).find(|&(one, other)| {
            is_crosswise(garment, size, one, other)
                && (seam_edges(garment.seam(sewn.seam)).any(|edge| garment.is_portion(edge.edge))
                    && is_sewn_straight(garment, size, [one, other])
                    || !is_same_from_both_ends(garment, size, &[*one])
                        && !is_same_from_both_ends(garment, size, &[*other]))
        });
        if let Some((one, other)) = twins {
            findings.extend(reported(garment, size, sewn, one, other));
        }
    }
}

/// Whether another seam sews both parts to one another corner on corner: then it is no matter that the piece is its own
/// mirror image.
fn is_sewn_straight(garment: &Garment, size: &WorkedSize, runs: [&SewnRun; 2]) -> bool {
    let parts = runs.map(|run| run.part);
    let is_pair = |one: &SewnRun, other: &SewnRun| {
        let own = [one.part, other.part];
        own == parts || own == [parts[1], parts[0]]
    };
    let beside = size.sewn.seams.iter().filter(|sewn| sewn.unmet.is_none() && sewn.unpaired.is_none());
    beside.flat_map(facing_plies).any(|(one, other)| {
        is_pair(one, other)
            && (one.part, one.edge) != (parts[0], runs[0].edge)
            && (one.part, one.edge) != (parts[1], runs[1].edge)
            && size.sewn.part(one.part).part.paper == size.sewn.part(other.part).part.paper
            && one.edge == other.edge
            && one.hand == other.hand
            && !is_crosswise(garment, size, one, other)
    })
}

/// The runs of both sides of a seam that lie on one another.
fn facing_plies(sewn: &SewnSeam) -> impl Iterator<Item = (&SewnRun, &SewnRun)> {
    let sides = sewn.first.plies.iter().flat_map(|one| sewn.second.plies.iter().map(move |two| (one, two)));
    sides.flat_map(|(one, two)| facing(one, two))
}

/// Whether two runs are one edge of one drawing in two layers, each end on the other's other end.
fn is_crosswise(garment: &Garment, size: &WorkedSize, one: &SewnRun, other: &SewnRun) -> bool {
    let (part, other_part) = (size.sewn.part(one.part).part, size.sewn.part(other.part).part);
    if part.layer == other_part.layer || one.hand != other.hand {
        return false;
    }
    if part.paper == other_part.paper {
        return one.edge == other.edge && one.reversed != other.reversed;
    }
    let point = |run: &SewnRun, is_end: bool| match corner_of(size, run, is_end)?.corner {
        CornerName::Named(point) => Some(garment.point_origin(point)),
        CornerName::Between(..) => None,
    };
    let ends = |run: &SewnRun| point(run, false).zip(point(run, true));
    let (Some((start, end)), Some((other_start, other_end))) = (ends(one), ends(other)) else { return false };
    start != end && start == other_end && end == other_start
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnSeam,
    one: &SewnRun,
    other: &SewnRun,
) -> Option<Finding> {
    let seam = garment.seam(sewn.seam);
    let layer = |run: &SewnRun| &garment.layer(size.sewn.part(run.part).part.layer).name;
    let piece = |run: &SewnRun| words::piece(garment, size.sewn.part(run.part).part.piece);
    let title = format!(
        "{} sews {} in {} end for end to {} in {}",
        seam.words(),
        piece(one),
        layer(one),
        if piece(one) == piece(other) { "its own twin".to_owned() } else { piece(other) },
        layer(other)
    );
    let word =
        |run: &SewnRun, is_end: bool| corner(garment, &size.sewn, &corner_of(size, run, is_end)?, true);
    let (start, other_start, other_end) = (word(one, false), word(other, false), word(other, true));
    let matched = matched(garment, size, seam, one, other);
    let span = matched.unwrap_or(seam.name_span);
    let mut mistake = Diagnostic::new(&catalogue::SEAM_END_FOR_END, span, title);
    if let (Some(start), Some(other_start)) = (&start, &other_start) {
        mistake = mistake.label(format!("{start} on {other_start}"));
    }
    if matched.is_some() {
        mistake = mistake.also(seam.name_span, "in this seam");
    }
    let help = match (matched, start, other_end) {
        (Some(_), Some(start), Some(end)) => {
            format!("match the same corner of both: matching {start} with {end}")
        }
        (Some(_), ..) => "match the same corner of both".to_owned(),
        (None, ..) if let Some(pairs) = matched_below(garment, size, seam, one, other) => {
            for (first, second) in pairs {
                mistake = mistake.also(first.span.to(second.span), "matched here");
            }
            "the same corner of both lies there: match it in both lines".to_owned()
        }
        (None, ..) => {
            for (other_seam, span) in others(garment, size, sewn, one, other) {
                mistake = mistake.also(span, format!("{other_seam} goes the other way round"));
            }
            "what is sewn before settles which way round both lie: one of the seams that are matched takes the wrong \
             end"
                .to_owned()
        }
    };
    Some(Finding::new(size.drawn.size, 0.0, mistake.help(help)).about(&*seam.name))
}

/// Where the seam's braces match corners that are not the same one of both.
fn matched(
    garment: &Garment,
    size: &WorkedSize,
    seam: &Seam,
    one: &SewnRun,
    other: &SewnRun,
) -> Option<crate::source::Span> {
    let is_at = |end: Option<SeamEnd>, spot: SewnSpot| match (end.map(|end| end.corner), spot.point()) {
        (Some(CornerName::Named(own)), Some(point)) => garment.is_point_of(own, point),
        _ => false,
    };
    let ends = [false, true];
    seam.matching.iter().find_map(|(first, second)| {
        let crosswise = ends.into_iter().any(|end| {
            let (own, others) = (corner_of(size, one, end), corner_of(size, other, end));
            (is_at(own, first.point) && is_at(others, second.point))
                || (is_at(own, second.point) && is_at(others, first.point))
        });
        crosswise.then(|| first.span.to(second.span))
    })
}

/// Of two edges that are caught in one place the two lines that match an end of each with what they lie on.
fn matched_below<'a>(
    garment: &Garment,
    size: &WorkedSize,
    seam: &'a Seam,
    one: &SewnRun,
    other: &SewnRun,
) -> Option<[&'a (SewnPoint, SewnPoint); 2]> {
    let names = |run: &SewnRun, (first, second): &(SewnPoint, SewnPoint)| {
        let ends = [false, true];
        ends.into_iter()
            .any(|end| is_at(garment, size, (run, end), first) || is_at(garment, size, (run, end), second))
    };
    let line = |run: &SewnRun| seam.matching.iter().find(|pair| names(run, pair));
    Some([line(one)?, line(other)?])
}

/// Other seams of the same pieces whose ends are matched.
fn others(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnSeam,
    one: &SewnRun,
    other: &SewnRun,
) -> Vec<(String, crate::source::Span)> {
    let pieces = [one, other].map(|run| size.sewn.part(run.part).part.piece);
    let is_of = |seam: &&Seam| {
        let mut own: Vec<_> = seam_edges(seam).map(|sewn| sewn.piece).collect();
        once_each(&mut own);
        seam.name_span != garment.seam(sewn.seam).name_span
            && !seam.matching.is_empty()
            && own.len() > 1
            && own.iter().any(|piece| pieces.contains(piece))
    };
    garment.seams.iter().filter(is_of).map(|seam| (seam.name.to_string(), seam.name_span)).collect()
}

//! `seam/matching` of an end that is matched with what is no end: with a corner beside the run on which an edge is caught,
//! or with a joint inside the other side.

use super::runs::{caught_runs, corner_of, drawn, is_at, run_end};
use super::sides::corner;
use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{Garment, SewnPoint};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::{SewnPly, SewnRun, SewnSeam, seam_edges};

/// What is wrong with what a seam matches.
pub(in crate::check) struct Off<'a> {
    /// The corner that is named, and the one that it is matched with, which lies elsewhere.
    points: [&'a SewnPoint; 2],
    kind: Kind<'a>,
}

enum Kind<'a> {
    /// An edge that is caught, and the run on which it lies.
    Beside([&'a SewnRun; 2]),
    /// The two edges that join where the second corner lies, and the ply that they are of.
    Inside([&'a SewnRun; 2], &'a SewnPly),
}

/// The first such pair of a seam's braces.
pub(in crate::check) fn matched_off<'a>(
    garment: &'a Garment,
    size: &'a WorkedSize,
    sewn: &'a SewnSeam,
) -> Option<Off<'a>> {
    let matching = &garment.seam(sewn.seam).matching;
    let both = || matching.iter().flat_map(|(one, other)| [[one, other], [other, one]]);
    both().find_map(|points| beside(garment, size, sewn, points)).or_else(|| {
        // Where it is known which ends meet, something else has said it, and the braces are right too.
        sewn.unmet.as_ref().filter(|unmet| !unmet.joint)?;
        both().find_map(|points| inside(garment, size, sewn, points))
    })
}

/// Corners that are matched and do not meet as the seam is laid, since the one lies inside its side and the other is an end.
pub(super) fn matched_inside<'a>(
    garment: &'a Garment,
    size: &'a WorkedSize,
    sewn: &'a SewnSeam,
    (one, other): &'a (SewnPoint, SewnPoint),
) -> Option<Off<'a>> {
    [[one, other], [other, one]].into_iter().find_map(|points| inside(garment, size, sewn, points))
}

fn ends_at(garment: &Garment, size: &WorkedSize, run: &SewnRun, point: &SewnPoint) -> bool {
    [false, true].into_iter().any(|is_end| is_at(garment, size, (run, is_end), point))
}

/// The corner of an edge that is caught, matched with one on the edge below it that is no end of its run.
fn beside<'a>(
    garment: &'a Garment,
    size: &'a WorkedSize,
    sewn: &'a SewnSeam,
    points: [&'a SewnPoint; 2],
) -> Option<Off<'a>> {
    let host_of = |under: &SewnRun| {
        let mut plies = sewn.first.plies.iter().chain(&sewn.second.plies);
        plies.find(|ply| ply.runs.iter().any(|run| std::ptr::eq(run, under)))
    };
    let mut off = None;
    for (own, under) in caught_runs(sewn).filter(|(own, _)| ends_at(garment, size, own, points[0])) {
        let host = host_of(under)?;
        if places_at(host, under).any(|place| is_at(garment, size, place, points[1])) {
            return None;
        }
        let is_there = host.runs.iter().any(|run| ends_at(garment, size, run, points[1]));
        off = off.or(is_there.then_some(Off { points, kind: Kind::Beside([own, under]) }));
    }
    off
}

/// The ends of a run of a ply, and those of the runs beside it that meet them.
fn places_at<'a>(ply: &'a SewnPly, run: &'a SewnRun) -> impl Iterator<Item = (&'a SewnRun, bool)> {
    let at = ply.runs.iter().position(|own| std::ptr::eq(own, run)).unwrap_or(0);
    let before = at.checked_sub(1).and_then(|before| ply.runs.get(before));
    [(Some(run), false), (Some(run), true), (before, true), (ply.runs.get(at + 1), false)]
        .into_iter()
        .filter_map(|(run, is_end)| Some((run?, is_end)))
}

/// An end of one side, matched with what lies inside the other.
fn inside<'a>(
    garment: &'a Garment,
    size: &'a WorkedSize,
    sewn: &'a SewnSeam,
    points: [&'a SewnPoint; 2],
) -> Option<Off<'a>> {
    let (one, other) = (sewn.first.plies.first()?, sewn.second.plies.first()?);
    let ends = |ply: &'a SewnPly| Some([(ply.runs.first()?, false), (ply.runs.last()?, true)]);
    let is_end = |ply: &'a SewnPly, point: &SewnPoint| {
        ends(ply).is_some_and(|ends| ends.into_iter().any(|end| is_at(garment, size, end, point)))
    };
    [(one, other), (other, one)].into_iter().find_map(|(own, their)| {
        if !is_end(own, points[0]) || is_end(their, points[1]) {
            return None;
        }
        their.runs.iter().zip(their.runs.iter().skip(1)).find_map(|(before, after)| {
            let meet = [(before, true), (after, false)];
            let is_here = meet.into_iter().any(|place| is_at(garment, size, place, points[1]));
            is_here.then_some(Off { points, kind: Kind::Inside([before, after], their) })
        })
    })
}

/// What is said of it.
pub(super) fn reported(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam, off: &Off) -> Finding {
    let seam = garment.seam(sewn.seam);
    let [own, their] = off.points;
    let says_layer = seam_edges(seam).any(|edge| edge.layer.is_some());
    let word = |run: &SewnRun, is_end: bool| {
        let end = corner_of(size, run, is_end)?;
        corner(garment, &size.sewn, &end, says_layer).or_else(|| run_end(garment, size, &end, says_layer))
    };
    let either = |ends: [(Option<&SewnRun>, bool); 2]| -> String {
        let mut words: Vec<String> =
            ends.into_iter().filter_map(|(run, is_end)| word(run?, is_end)).collect();
        // From the left round to the right one it ends at one name.
        words.dedup();
        words.join(" or ")
    };
    let (own_word, their_word) = (words::point(garment, own), words::point(garment, their));
    let edge = |run: &SewnRun| {
        let edge = drawn(size, run).and_then(|drawn| drawn.edge_at(run.edge));
        edge.map_or_else(String::new, |edge| words::edge(garment, garment.whole_edge(edge.edge)))
    };
    let mistake = match &off.kind {
        Kind::Beside([caught, under]) => {
            let title = format!(
                "{their_word} is no end of the run of {} on which {} is caught",
                edge(under),
                edge(caught)
            );
            let piece = size.sewn.part(caught.part).part.piece;
            let chains = seam.first.iter().chain(&seam.second);
            let mut caught_there = chains
                .filter(|chain| chain.over.is_some() && chain.edges.iter().any(|edge| edge.piece == piece));
            let mistake =
                Diagnostic::new(&catalogue::SEAM_MATCHING, their.span, title).label("elsewhere on the edge");
            let mistake = match caught_there.next() {
                Some(chain) => mistake.also(chain.span, "caught from here on"),
                None => mistake,
            };
            mistake.help(format!(
                "match {own_word} with an end of the run, {}; or let the run begin elsewhere",
                either([(Some(under), false), (Some(under), true)])
            ))
        }
        Kind::Inside([before, after], ply) => {
            let title = format!(
                "{their_word} lies inside {}, and {own_word} is an end of it: they cannot meet",
                seam.words()
            );
            Diagnostic::new(&catalogue::SEAM_MATCHING, their.span, title)
                .label(format!("{} and {} join there", edge(before), edge(after)))
                .also(own.span, "an end")
                .help(format!(
                    "match {own_word} with an end of the other side: {}",
                    either([(ply.runs.first(), false), (ply.runs.last(), true)])
                ))
        }
    };
    Finding::new(size.drawn.size, 0.0, mistake).about(&*seam.name)
}

//! `seam/segment`: the seam matches as a whole, but not between two notches.

use super::lengths::subject;
use super::runs::corner_of;
use super::sides::{Sides, corner, each, in_size, length, ply_span};
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, CutHow, Garment, Seam, SewnEdge};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{CornerName, SizedGarment};
use crate::sewing::{SeamEnd, Sewing, SewnPly, SewnRun, SewnSeam, Stretch, StretchEnd};
use crate::syntax::tree::{FitKind, Hand};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_SEGMENT], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for (seam, sewn) in each(garment, &size.sewn) {
        if sewn.stretches.len() < 2 || !matches_as_a_whole(garment, sewn) {
            continue;
        }
        let off = |stretch: &Stretch| out_by(sewn, stretch);
        let worst = sewn.stretches.iter().max_by(|a, b| off(a).total_cmp(&off(b)));
        if let Some(stretch) = worst.filter(|stretch| off(stretch) > garment.tolerance) {
            findings.push(finding(garment, size, seam, sewn, stretch));
        }
    }
}

fn matches_as_a_whole(garment: &Garment, sewn: &SewnSeam) -> bool {
    let all = Stretch {
        first: (0.0, length(&sewn.first)),
        second: (0.0, length(&sewn.second)),
        fitted: sewn.fit.is_some(),
        from: None,
        to: None,
    };
    let (first, second) = (long(all.first), long(all.second));
    let is_eased_enough = match sewn.fit {
        Some(fit) if fit.kind == FitKind::Easing => first - second >= fit.low - garment.tolerance,
        _ => true,
    };
    is_eased_enough && out_by(sewn, &all) <= garment.tolerance
}

fn long((from, to): (f64, f64)) -> f64 {
    to - from
}

/// By how much a stretch is out of its range, in millimetres. Any part of a seam may have none of the
/// ease or all of it.
fn out_by(sewn: &SewnSeam, stretch: &Stretch) -> f64 {
    let (first, second) = (long(stretch.first), long(stretch.second));
    match sewn.fit.filter(|_| stretch.fitted) {
        None => (first - second).abs(),
        Some(fit) if fit.kind == FitKind::Easing => (second - first).max(first - second - fit.high.max(0.0)),
        Some(fit) => (fit.low * second - first).max(first - fit.high * second),
    }
}

/// "a notch and the joint at sleeve.crown".
fn ends_words(garment: &Garment, sewing: &Sewing, stretch: &Stretch) -> String {
    let word = |end: Option<StretchEnd>, edge: &str| match end {
        None => edge.to_owned(),
        Some(StretchEnd::Notch(..)) => "a notch".to_owned(),
        Some(StretchEnd::Joint(end)) => match corner(garment, sewing, &end, false) {
            Some(corner) => format!("the joint at {corner}"),
            None => "a joint".to_owned(),
        },
        Some(StretchEnd::Confined(_)) => "where the ease ends".to_owned(),
    };
    let (from, to) = (word(stretch.from, "one end"), word(stretch.to, "the other end"));
    let to = if stretch.from.is_some() && stretch.to.is_none() { "the end".to_owned() } else { to };
    let from = if stretch.from.is_none() && stretch.to.is_some() { "the end".to_owned() } else { from };
    format!("{from} and {to}")
}

/// The stretch beyond a joint, where that is off too: what is too much on one side of it is too little on the other.
fn beside<'a>(garment: &Garment, sewn: &'a SewnSeam, stretch: &Stretch) -> Option<&'a Stretch> {
    let is_joint = |end: Option<StretchEnd>| matches!(end, Some(StretchEnd::Joint(_)));
    let mut others = sewn.stretches.iter().filter(|other| out_by(sewn, other) > garment.tolerance);
    others.find(|other| {
        is_joint(stretch.from) && other.second.1 == stretch.second.0
            || is_joint(stretch.to) && other.second.0 == stretch.second.1
    })
}

/// The second side of a seam that names the edges of a piece cut alike on both sides in one order, as it lies once one copy
/// is turned over; none of other seams.
fn turned_over(garment: &Garment, sized: &SizedGarment, seam: &Seam) -> Option<String> {
    let ([one], [other]) = (seam.first.as_slice(), seam.second.as_slice()) else { return None };
    let named =
        |chain: &Chain| -> Vec<_> { chain.edges.iter().map(|sewn| (sewn.layer, sewn.edge)).collect() };
    let (first, rest) = other.edges.split_first()?;
    let is_alike = || {
        let mut papers = garment.piece(first.piece).papers.iter().filter_map(|&paper| sized.paper(paper));
        papers.all(|drawn| drawn.cut == CutHow::Alike)
    };
    if rest.len() < 2 || named(one) != named(other) || !is_alike() {
        return None;
    }
    let word = |sewn: &SewnEdge| {
        format!("{}.{}", garment.part_name(sewn.layer, sewn.piece), garment.edge(sewn.edge).name)
    };
    let all: Vec<String> = std::iter::once(first).chain(rest.iter().rev()).map(word).collect();
    Some(all.join(" + "))
}

/// Of a ring that is said to match at a corner: the other corners of it that may lie there so that all joints of the other side lie
/// on its own, face to face, and the corner that is to lie there. None where none does.
fn matched_elsewhere(
    garment: &Garment,
    size: &WorkedSize,
    seam: &Seam,
    sewn: &SewnSeam,
) -> Option<(Vec<String>, String)> {
    // Plies on one another are as long as one another.
    let (one, other) = (sewn.first.plies.first()?, sewn.second.plies.first()?);
    let (first, begin) = (one.runs.first()?, other.runs.first()?);
    let is_against = |run: &SewnRun| run.reversed != (run.hand == Some(Hand::Right));
    let is_ring = corner_of(size, first, false)? == corner_of(size, one.runs.last()?, true)?;
    if seam.matching.is_empty() || sewn.fit.is_some() || !is_ring || other.runs.len() > one.runs.len() {
        return None;
    }
    // Where each edge begins, and the corners that lie there.
    let joints = |ply: &SewnPly| -> Vec<(f64, Vec<SeamEnd>)> {
        let before = ply.runs.iter().cycle().skip(ply.runs.len().saturating_sub(1));
        let mut found = Vec::new();
        let mut at = 0.0;
        for (run, before) in ply.runs.iter().zip(before) {
            let corners = [corner_of(size, run, false), corner_of(size, before, true)];
            found.push((at, corners.into_iter().flatten().collect()));
            at += run.length;
        }
        found
    };
    let (own, mut their) = (joints(one), joints(other));
    if is_against(first) == is_against(begin) {
        their.iter_mut().for_each(|(at, _)| *at = -*at);
    }
    let is_matched = |end: &SeamEnd| {
        let CornerName::Named(point) = end.corner else { return false };
        let mut said = seam.matching.iter().flat_map(|(a, b)| [a, b]);
        said.any(|said| said.point.point() == Some(point))
    };
    let (from, corners) =
        their.iter().find(|(_, corners)| corners.iter().any(is_matched)).or(their.first())?;
    let begin = corners.iter().find(|end| is_matched(end)).or(corners.first())?;
    let fits = |(place, _): &&(f64, Vec<SeamEnd>)| {
        their.iter().all(|(joint, _)| {
            own.iter().any(|(at, _)| {
                let apart = (place + joint - from - at).rem_euclid(one.length);
                apart.min(one.length - apart) <= garment.tolerance
            })
        })
    };
    let word = |end: &SeamEnd| corner(garment, &size.sewn, end, false);
    let found: Vec<String> =
        own.iter().filter(fits).filter_map(|(_, corners)| word(corners.first()?)).collect();
    Some((found, word(begin)?)).filter(|(found, _)| !found.is_empty())
}

/// Of two chains of which a match lays one end for end, so that their joints do not meet: the corners at the start of the one and at
/// the other end of the other, if all joints meet the other way round.
fn matched_the_other_way(
    garment: &Garment,
    size: &WorkedSize,
    seam: &Seam,
    sewn: &SewnSeam,
) -> Option<(String, String)> {
    let (one, other) = (sewn.first.plies.first()?, sewn.second.plies.first()?);
    if seam.matching.is_empty() || sewn.fit.is_some() || one.runs.len() != other.runs.len() {
        return None;
    }
    let mut pairs = one.runs.iter().zip(other.runs.iter().rev());
    let are_alike = pairs.all(|(own, its)| (own.length - its.length).abs() <= garment.tolerance);
    let word =
        |run: &SewnRun, is_end: bool| corner(garment, &size.sewn, &corner_of(size, run, is_end)?, false);
    let ends = (word(one.runs.first()?, false)?, word(other.runs.last()?, true)?);
    are_alike.then_some(ends)
}

fn finding(
    garment: &Garment,
    worked: &WorkedSize,
    seam: &Seam,
    sewn: &SewnSeam,
    stretch: &Stretch,
) -> Finding {
    let (sized, sewing) = (&worked.drawn, &worked.sewn);
    let unit = garment.unit;
    let sides = Sides::of(garment, seam);
    let (first, second) = (long(stretch.first), long(stretch.second));
    let by = (first - second).abs();
    let told = |stretch: &Stretch| {
        let (first, second) = (long(stretch.first), long(stretch.second));
        let longer = sides.longer(first > second, &amount((first - second).abs(), unit));
        format!("between {} {longer}", ends_words(garment, sewing, stretch))
    };
    let title = Title::new(format!("{} matches as a whole", seam.words())).in_sizes();
    let title = match beside(garment, sewn, stretch) {
        None => title.then(format!(", but {}", told(stretch))),
        Some(other) => title.then(format!(", but {}, and {}", told(stretch), told(other))),
    };
    let size = in_size(garment, sized);
    let mut places = Vec::new();
    for end in [stretch.from, stretch.to].into_iter().flatten() {
        match end {
            StretchEnd::Notch(said, other) => places.extend([Some(said), other].into_iter().flatten()),
            StretchEnd::Confined(span) => places.push(span),
            StretchEnd::Joint(_) => {}
        }
    }
    let (one, other) =
        (format!("{} there{size}", amount(first, unit)), format!("{} there{size}", amount(second, unit)));
    let mut mistake = match places.first() {
        Some(&place) => Diagnostic::new(&catalogue::SEAM_SEGMENT, place, title)
            .label("this notch")
            .also(ply_span(seam, false, 0), one),
        None => Diagnostic::new(&catalogue::SEAM_SEGMENT, ply_span(seam, false, 0), title).label(one),
    };
    mistake = mistake.also(ply_span(seam, true, 0), other);
    for &place in places.iter().skip(1) {
        mistake = mistake.also(place, "and this");
    }
    if places.is_empty() {
        for (own, _) in &seam.matching {
            mistake = mistake.also(own.span, "matched here");
        }
    }
    let at_joint = matches!(stretch.from, Some(StretchEnd::Joint(_)))
        || matches!(stretch.to, Some(StretchEnd::Joint(_)));
    let help = match places.is_empty() || at_joint && sewn.fit.is_some() {
        true if let Some(turned) = turned_over(garment, sized, seam) => format!(
            "of two copies that are cut alike one is turned over, so that its edges follow one another the other way \
             round: to {turned}"
        ),
        true if sewn.fit.is_some() => {
            "move the corner where the edges join, so that each part has its share of the ease, or allow more; or leave \
             matching out, if nothing is to meet there"
                .to_owned()
        }
        true if let Some((own, other)) = matched_elsewhere(garment, worked, seam, sewn) => {
            format!("match another corner, so that all joints meet: matching {} with {other}", own.join(" or "))
        }
        true if let Some((own, other)) = matched_the_other_way(garment, worked, seam, sewn) => {
            format!("what is matched lays it end for end: match the other end, matching {own} with {other}")
        }
        true => {
            let moved = format!(
                "move the corner where the edges join by {}, so that what meets there lies together",
                amount(by, unit)
            );
            match seam.matching.is_empty() {
                true => moved,
                false => format!("match other corners there, if these are not meant; or {moved}"),
            }
        }
        false => {
            format!("move one of the notches by {}, or draw the edges alike between them", amount(by, unit))
        }
    };
    Finding::new(sized.size, by, mistake.help(help))
        .about(subject(garment, seam, sewn))
        .figure(&sides.first, amount(first, unit))
        .figure(&sides.second, amount(second, unit))
}

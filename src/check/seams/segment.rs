//! `seam/segment`: the seam matches as a whole, but not between two notches.

use super::lengths::subject;
use super::runs::corner_of;
use super::sides::{Sides, corner, each, in_size, length, ply_span};
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, CutHow, Garment, Seam, SewnEdge};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::{Sewing, SewnPly, SewnRun, SewnSeam, Stretch, StretchEnd};
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

/// Of a ring that is said to match at a corner: the other corners of it at which the other side may begin so that all joints of
/// that lie on its own, and the one that is to lie there. None where none does.
fn matched_elsewhere(
    garment: &Garment,
    size: &WorkedSize,
    seam: &Seam,
    sewn: &SewnSeam,
) -> Option<(Vec<String>, String)> {
    let ([one], [other]) = (sewn.first.plies.as_slice(), sewn.second.plies.as_slice()) else { return None };
    let (first, begin) = (one.runs.first()?, other.runs.first()?);
    let is_against = |run: &SewnRun| run.reversed != (run.hand == Some(Hand::Right));
    let many = other.runs.len();
    let is_ring = corner_of(size, first, false)? == corner_of(size, one.runs.last()?, true)?;
    let is_other_way = is_against(first) == is_against(begin);
    if seam.matching.is_empty() || sewn.fit.is_some() || !is_ring || is_other_way || many > one.runs.len() {
        return None;
    }
    let joints = |ply: &SewnPly| -> Vec<f64> {
        let mut at = 0.0;
        let mut begin = |run: &SewnRun| {
            at += run.length;
            at - run.length
        };
        ply.runs.iter().map(&mut begin).collect()
    };
    let (own, their) = (joints(one), joints(other));
    let lies_on = |place: f64| {
        own.iter().any(|joint| {
            let apart = (place - joint).rem_euclid(one.length);
            apart.min(one.length - apart) <= garment.tolerance
        })
    };
    let word = |run: &SewnRun| corner(garment, &size.sewn, &corner_of(size, run, false)?, false);
    let fits = |(_, from): &(&SewnRun, &f64)| their.iter().all(|joint| lies_on(*from + joint));
    let found: Vec<String> =
        one.runs.iter().zip(&own).filter(fits).filter_map(|(run, _)| word(run)).collect();
    Some((found, word(begin)?)).filter(|(found, _)| !found.is_empty())
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
        true => format!(
            "move the corner where the edges join by {}, so that what meets there lies together",
            amount(by, unit)
        ),
        false => {
            format!("move one of the notches by {}, or draw the edges alike between them", amount(by, unit))
        }
    };
    Finding::new(sized.size, by, mistake.help(help))
        .about(subject(garment, seam, sewn))
        .figure(&sides.first, amount(first, unit))
        .figure(&sides.second, amount(second, unit))
}

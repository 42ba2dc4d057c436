//! `gap/nothing`, `gap/small`, `gap/long`, `gap/place` and `gap/needless`: the gaps that things are turned through.

use super::surface::gap_open::{Open, open_at};
use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Gap, Garment, LayerId, Seam, SeamId};
use crate::id_hash::{IdMap, IdSet};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{SizedGarment, extents};
use crate::sewing::surface::{Bag, FaceId, JoinedBy, Surface};
use crate::sewing::{GapLost, Sewing, SewnSeam, amount_of};
use crate::source::Span;
use std::cell::OnceCell;

pub(super) static CHECK: Check = Check {
    kinds: &[
        &catalogue::GAP_NOTHING,
        &catalogue::GAP_SMALL,
        &catalogue::GAP_LONG,
        &catalogue::GAP_PLACE,
        &catalogue::GAP_NEEDLESS,
    ],
    run: Run::PerSize(run),
};

/// The least gap that a garment is turned through without ado, in millimetres: makers leave 5 to
/// 6 in, 13 to 15 cm (common practice).
const GAP: f64 = 130.0;
/// The same for a thick pile.
const GAP_OF_PILE: f64 = 150.0;
/// So much of a seam is left beside a gap, in millimetres, that both its ends are held.
const ENDS: f64 = 30.0;
/// So thick a cloth is a thick pile, in millimetres.
const PILE: f64 = 5.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    findings.extend(small_gaps(garment, size));
    findings.extend(long_gaps(garment, sized, sewing));
    findings.extend(sideless_gaps(garment, sized, sewing));
    findings.extend(misplaced_gaps(garment, sized, sewing));
}

/// What is turned through a gap is gathered up as it is pulled through: a third of how wide it lies flat is enough for what is
/// small, as makers leave 7 to 10 cm for a mitten or a small bag (common practice).
const GATHERED: f64 = 3.0;
/// Through less than this, in millimetres, no hand reaches.
const SMALLEST: f64 = 50.0;

/// The least gap through which the largest piece behind it comes: of what is small less than of a coat.
fn least_for(garment: &Garment, size: &WorkedSize, bags: &[Bag], id: SeamId) -> Option<f64> {
    let surface = size.sewn.surface.as_ref()?;
    let is_behind = |bag: &&Bag| {
        let stretches = bag.faces.iter().flat_map(|&face| surface.stretches_of(face));
        let mut joins = stretches.filter_map(|stretch| surface.stretch(stretch).join);
        joins.any(|join| matches!(surface.join(join).by, JoinedBy::Seam { seam, .. } if seam == id))
    };
    let faces = bags.iter().filter(is_behind).flat_map(|bag| bag.faces.iter());
    let narrower = |face: &FaceId| {
        let drawn = size.drawn.paper(size.sewn.part(surface.face(*face).part).part.paper)?;
        let bounds = extents(drawn)?;
        let (mut wide, mut high) = (bounds.width(), bounds.height());
        if let CutHow::OnFold(fold) = drawn.cut {
            let path = &drawn.outline().iter().find(|edge| garment.is_run_of(edge.edge, fold))?.path;
            let along = path.end() - path.start();
            let folded = if along.x.abs() > along.y.abs() { &mut high } else { &mut wide };
            *folded *= 2.0;
        }
        Some(wide.min(high))
    };
    let widest = faces.filter_map(narrower).reduce(f64::max)?;
    Some((widest / GATHERED).max(SMALLEST))
}

/// What closes a space off; nothing where that cannot be told.
fn bags_of(size: &WorkedSize) -> Vec<Bag> {
    let surface = size.sewn.surface.as_ref();
    surface.and_then(|surface| surface.bags(&surface.shutting(), |_| 0).ok()).unwrap_or_default()
}

fn small_gaps(garment: &Garment, size: &WorkedSize) -> Vec<Finding> {
    let sized = &size.drawn;
    let thickest = garment.layers.iter().filter(|layer| !layer.fused).filter_map(|layer| layer.fabric);
    let thickest = thickest
        .filter_map(|fabric| amount_of(garment, sized, garment.fabric(fabric).thickness.as_ref()?))
        .fold(0.0, f64::max);
    let (usual, why) = match thickest >= PILE {
        true => (GAP_OF_PILE, " in thick cloth"),
        false => (GAP, ""),
    };
    let mut found = Vec::new();
    // Worked out of the whole garment, and only where a gap is short.
    let bags = OnceCell::new();
    for (id, seam) in SeamId::enumerate(&garment.seams) {
        for gap in &seam.gaps {
            let small = amount_of(garment, sized, &gap.length).filter(|length| (0.0..usual).contains(length));
            let Some(length) = small else { continue };
            let bags = bags.get_or_init(|| bags_of(size));
            let least = least_for(garment, size, bags, id).map_or(usual, |own| own.min(usual));
            if length >= least {
                continue;
            }
            let (is, needed) = (amount(length, garment.unit), amount(least, garment.unit));
            if (0.0..=garment.tolerance).contains(&length) {
                let title = Title::new(format!("a gap of {is} in {} is none", seam.words())).in_sizes();
                let mistake = Diagnostic::new(&catalogue::GAP_NOTHING, gap.span, title)
                    .label("nothing is turned through this")
                    .help(format!("makers leave {needed} or more; or take the gap out"));
                found.push(Finding::new(sized.size, least - length, mistake).figure("gap", is));
                continue;
            }
            let title = Title::new(format!(
                "a gap of {is} in {} is small to turn a garment through{why}",
                seam.words()
            ))
            .in_sizes();
            let advice = Diagnostic::new(&catalogue::GAP_SMALL, gap.span, title)
                .label(is.clone())
                .help(format!("makers leave {needed} or more"));
            found.push(Finding::new(sized.size, least - length, advice).figure("gap", is));
        }
    }
    found
}

/// The longest that each seam with a gap is in any of its layers.
fn longest(garment: &Garment, sewing: &Sewing) -> IdMap<SeamId, f64> {
    let mut longest: IdMap<SeamId, f64> = IdMap::default();
    let has_gap = |sewn: &&SewnSeam| !garment.seam(sewn.seam).gaps.is_empty();
    let known = |sewn: &&SewnSeam| sewn.known && sewn.unpaired.is_none();
    for sewn in sewing.seams.iter().filter(has_gap).filter(known) {
        let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
        let long = plies.map(|ply| ply.length).fold(0.0, f64::max);
        let known = longest.entry(sewn.seam).or_insert(0.0);
        *known = known.max(long);
    }
    longest
}

/// Whether a gap is longer than the seam it is left in, which is told as that.
pub(super) fn is_too_long(garment: &Garment, size: &WorkedSize, seam: &Seam, gap: &Gap) -> bool {
    let own = size.sewn.seams.iter().filter(|sewn| std::ptr::eq(garment.seam(sewn.seam), seam));
    let plies = own.flat_map(|sewn| sewn.first.plies.iter().chain(&sewn.second.plies));
    let long = plies.map(|ply| ply.length).fold(0.0, f64::max);
    amount_of(garment, &size.drawn, &gap.length).is_some_and(|length| length > long)
}

/// A gap that is longer than the seam it is left in; of several layers the longest counts.
fn long_gaps(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<Finding> {
    let longest = longest(garment, sewing);
    let mut found = Vec::new();
    for (id, seam) in SeamId::enumerate(&garment.seams).filter(|(_, seam)| !seam.gaps.is_empty()) {
        let Some(&long) = longest.get(&id) else { continue };
        for gap in &seam.gaps {
            let Some(length) = amount_of(garment, sized, &gap.length).filter(|length| *length > long) else {
                continue;
            };
            let (is, of) = (amount(length, garment.unit), amount(long, garment.unit));
            let title =
                Title::new(format!("a gap of {is} has no room in {}, which is {of} long", seam.words()))
                    .in_sizes();
            let mistake = Diagnostic::new(&catalogue::GAP_LONG, gap.span, title)
                .label(is.clone())
                .also(seam.name_span, of.clone())
                .help(format!("leave less than {of}, so that both its ends are held, or take a longer seam"));
            found.push(Finding::new(sized.size, length - long, mistake).figure("gap", is).figure("seam", of));
        }
    }
    found
}

/// What a seam, in the layer of one of its gaps, lacks of the side of the body that this is left on.
enum Sideless {
    /// It joins nothing that is on the left or on the right.
    Alike,
    /// It is sewn on the other side alone.
    Other,
}

/// Whether a gap is left on a side of the body on which its seam is not.
fn sideless(sewing: &Sewing, id: SeamId, gap: &Gap) -> Option<Sideless> {
    let hand = gap.hand?;
    let is_own =
        |sewn: &&SewnSeam| sewn.seam == id && gap.layer.is_none_or(|layer| sewn.layers.contains(&layer));
    let mut own = sewing.seams.iter().filter(is_own).peekable();
    own.peek()?;
    let mut lacks = Sideless::Alike;
    for sewn in own {
        if !sewn.known || sewn.unpaired.is_some() || sewn.unmet.is_some() {
            return None;
        }
        let mut runs = sewn.first.plies.iter().chain(&sewn.second.plies).flat_map(|ply| &ply.runs);
        match sewn.reach.hand() {
            Some(other) if other != hand => lacks = Sideless::Other,
            _ if runs.any(|run| run.hand.is_some()) => return None,
            _ => {}
        }
    }
    Some(lacks)
}

/// Gaps of a side that their seam does not have: nobody could tell where to leave them.
fn sideless_gaps(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<Finding> {
    let mut found = Vec::new();
    for (id, seam) in SeamId::enumerate(&garment.seams) {
        for gap in &seam.gaps {
            let (Some(hand), Some(lacks)) = (gap.hand, sideless(sewing, id, gap)) else { continue };
            let (words, side, other) = (seam.words(), hand.word(), hand.other().word());
            let (title, label, help) = match lacks {
                Sideless::Alike => (
                    format!("what {words} joins is cut alike: there is no {side} side to leave its gap on"),
                    "neither left nor right",
                    format!(
                        "leave out , {side}; say where along the seam it lies, if that matters: in the middle"
                    ),
                ),
                Sideless::Other => (
                    format!("{words} is sewn on the {other} alone, and its gap is left on the {side}"),
                    "not on this side",
                    format!("write , {other}, or leave the side out"),
                ),
            };
            let mistake = Diagnostic::new(&catalogue::GAP_PLACE, gap.span, Title::new(title));
            let mistake = mistake.label(label).also(seam.name_span, "the seam").help(help);
            found.push(Finding::new(sized.size, 0.0, mistake).about(&*seam.name));
        }
    }
    found
}

/// Gaps that do not lie where they are said to: in no piece of their seam. One that is too long for it, or no gap, is
/// told as that.
fn misplaced_gaps(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<Finding> {
    let mut lost: Vec<(SeamId, usize, Option<GapLost>)> = Vec::new();
    for sewn in &sewing.seams {
        for own in &sewn.gaps {
            match lost.iter_mut().find(|(id, gap, _)| (*id, *gap) == (sewn.seam, own.gap)) {
                Some((.., why)) => *why = nearer(*why, own.at.err()),
                None => lost.push((sewn.seam, own.gap, own.at.err())),
            }
        }
    }
    let longest = longest(garment, sewing);
    let told = lost.into_iter().filter_map(|(id, gap, why)| {
        let (seam, why) = (garment.seam(id), why?);
        let gap = seam.gaps.get(gap)?;
        let at = gap.at.as_ref().filter(|_| sideless(sewing, id, gap).is_none())?;
        let length = amount_of(garment, sized, &gap.length).filter(|length| *length > garment.tolerance)?;
        longest.get(&id).filter(|long| length <= **long)?;
        let words = seam.words();
        let left = amount(length, garment.unit);
        let (title, label, help) = match why {
            GapLost::Beyond(beyond) => {
                let over = amount(beyond, garment.unit);
                let of = match &at.along {
                    Some(edge) => garment.edge_words(edge.edge),
                    None => words.clone(),
                };
                let title =
                    Title::new(format!("the gap in {words} goes {over} beyond the end of {of}")).in_sizes();
                let help = format!(
                    "begin it at least {over} nearer to the other end, leave less, or say in the middle"
                );
                return Some(
                    told(sized, gap, seam.name_span, title, "ends beyond it", help).figure("beyond", over),
                );
            }
            GapLost::EitherWay => (
                format!("the gap in {words} may lie on either side of what it is counted from"),
                "which way from here?",
                "say which edge it lies on: … from PLACE along PIECE.EDGE; or count from an end of the seam"
                    .to_owned(),
            ),
            GapLost::Sides => (
                format!("what the gap in {words} is counted from is there on the left and on the right"),
                "on which side?",
                format!("say which: leaving gap {left} …, left"),
            ),
            GapLost::Seamed => (
                format!("the gap in {words} lies where that begins, which goes round"),
                "both ends of the seam lie here",
                "name the edges of both its sides the other way round, last first: it then begins elsewhere"
                    .to_owned(),
            ),
            GapLost::Elsewhere => (
                format!("what the gap in {words} is counted from does not lie on that seam"),
                "not on the seam",
                "count from an end of the seam, or from a corner, a mark or a notch on it".to_owned(),
            ),
        };
        Some(told(sized, gap, seam.name_span, Title::new(title).in_sizes(), label, help))
    });
    told.collect()
}

/// Of two reasons the one that tells more; none where it lies somewhere.
fn nearer(one: Option<GapLost>, other: Option<GapLost>) -> Option<GapLost> {
    let rank = |why: &GapLost| match why {
        GapLost::Sides => 0,
        GapLost::EitherWay => 1,
        GapLost::Seamed => 2,
        GapLost::Beyond(_) => 3,
        GapLost::Elsewhere => 4,
    };
    one.zip(other).map(|(one, other)| if rank(&other) < rank(&one) { other } else { one })
}

fn told(sized: &SizedGarment, gap: &Gap, seam: Span, title: Title, label: &str, help: String) -> Finding {
    let place = gap.at.as_ref().map_or(gap.span, |at| at.span);
    let mistake = Diagnostic::new(&catalogue::GAP_PLACE, place, title);
    Finding::new(sized.size, 0.0, mistake.label(label).also(seam, "the seam").help(help))
}

/// Gaps in seams that close nothing off, where these are all that is closed. One that is reported as too long or as
/// nothing is not looked at.
pub(super) fn needless_gaps(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    bags: &[Bag],
) -> Vec<Finding> {
    let mut with_gaps =
        SeamId::enumerate(&garment.seams).filter(|(_, seam)| !seam.gaps.is_empty()).peekable();
    if with_gaps.peek().is_none() || garment.incomplete.sewing {
        return Vec::new();
    }
    let of_bags: IdSet<SeamId> = bags
        .iter()
        .flat_map(|bag| bag.faces.iter().flat_map(|&face| surface.stretches_of(face)))
        .filter_map(|stretch| surface.stretch(stretch).join)
        .filter_map(|join| match surface.join(join).by {
            JoinedBy::Seam { seam, .. } => Some(seam),
            _ => None,
        })
        .collect();
    let longest = longest(garment, &size.sewn);
    let has_room = |id: SeamId, gap: &Gap| {
        let length = amount_of(garment, &size.drawn, &gap.length);
        length
            .zip(longest.get(&id))
            .is_some_and(|(length, long)| length > garment.tolerance && length <= *long)
    };
    let needless = with_gaps.filter(|(id, _)| !of_bags.contains(id));
    needless
        .filter_map(|(id, seam)| {
            let gap = seam.gaps.first().filter(|gap| has_room(id, gap))?;
            let open = open_at(garment, size, surface, id);
            if let Open::Along(edges, at) = open {
                let title =
                    format!("the gap in {} is there to turn what it closes, and that is open at {at}", seam.words());
                let mut warning = Diagnostic::new(&catalogue::GAP_NEEDLESS, gap.span, title).label("left for turning");
                for edge in edges {
                    warning = warning.also(garment.edge(edge).span, "open here");
                }
                let warning = warning.help(
                    "sew what was forgotten; or, if it stays open, take the gap out, and the steps that turn through it and close it",
                );
                return Some(Finding::new(size.id(), 0.0, warning).about(seam.name.to_string()));
            }
            if matches!(open, Open::Odd) {
                return None;
            }
            let title = format!("nothing is turned through the gap in {}", seam.words());
            let warning = Diagnostic::new(&catalogue::GAP_NEEDLESS, gap.span, title)
                .label("no closed space lies behind it")
                .also(seam.name_span, "sewn to no second layer that closes one")
                .help("take the gap out, and the steps that turn through it and close it; or, if a lining is to be turned through it, sew that in");
            Some(Finding::new(size.id(), 0.0, warning).about(seam.name.to_string()))
        })
        .collect()
}

/// Gaps in a seam of the outside alone, where a lining that is closed in with it has a seam of its own that is long
/// enough: what is closed by hand shows.
pub(super) fn outside_gaps(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    bags: &[Bag],
) -> Vec<Finding> {
    let mut found = Vec::new();
    for (id, seam) in SeamId::enumerate(&garment.seams) {
        let Some(gap) = seam.gaps.first() else { continue };
        let Some(length) = amount_of(garment, &size.drawn, &gap.length) else { continue };
        let own = size
            .sewn
            .seams
            .iter()
            .filter(|sewn| sewn.seam == id && gap.layer.is_none_or(|layer| sewn.layers.contains(&layer)));
        let is_by_layer = own.clone().all(|sewn| sewn.layers.len() == 1);
        let mut layers: Vec<LayerId> = own.flat_map(|sewn| sewn.layers.iter().copied()).collect();
        layers.sort_unstable();
        layers.dedup();
        if let ([outside, .., inner], true) = (layers.as_slice(), is_by_layer) {
            found.extend(left_in_each(garment, size, surface, bags, (seam, gap), [*outside, *inner]));
            continue;
        }
        // In a seam of two layers it is closed at the edge between them.
        let &[outside] = layers.as_slice() else { continue };
        let inner = bags.iter().find_map(|bag| {
            let faces = || bag.faces.iter().map(|&face| surface.face(face).layer);
            let is_outermost = faces().min() == Some(outside) && faces().any(|layer| layer != outside);
            let inner = faces().filter(|layer| *layer != outside).max().filter(|_| is_outermost)?;
            let has_room = |sewn: &&SewnSeam| {
                sewn.layers.iter().all(|layer| *layer == inner)
                    && sewn.first.plies.first().is_some_and(|ply| ply.length > length + ENDS)
            };
            let all = size.sewn.seams.iter().filter(|sewn| sewn.known);
            let longest = all.filter(has_room).max_by(|one, other| {
                let long = |sewn: &SewnSeam| sewn.first.plies.first().map_or(0.0, |ply| ply.length);
                long(one).total_cmp(&long(other))
            })?;
            Some((inner, longest.seam))
        });
        let Some((inner, instead)) = inner else { continue };
        let (inner, instead) = (&garment.layer(inner).name, &garment.seam(instead).name);
        let title = format!(
            "the gap in {} is left in {}, and is closed by hand there",
            seam.name,
            garment.layer(outside).name
        );
        let advice = Diagnostic::new(&catalogue::GAP_OUTSIDE, gap.span, title)
            .label("its stitches show")
            .help(format!(
                "leave it where nobody sees it, in {instead}: leaving gap {} in {inner}",
                super::words::written(&amount(length, garment.unit))
            ));
        found.push(Finding::new(size.id(), 0.0, advice).about(seam.name.to_string()));
    }
    found
}

/// A gap of which no layer is said, in a seam that is sewn in several layers which lie in one bag: it is left in each.
fn left_in_each(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    bags: &[Bag],
    (seam, gap): (&Seam, &Gap),
    [outside, inner]: [LayerId; 2],
) -> Option<Finding> {
    let has = |bag: &Bag, layer| bag.faces.iter().any(|&face| surface.face(face).layer == layer);
    bags.iter().find(|bag| has(bag, outside) && has(bag, inner))?;
    let length = amount_of(garment, &size.drawn, &gap.length)?;
    let [outside, inner] = [outside, inner].map(|layer| &garment.layer(layer).name);
    let title = format!("the gap in {} is left in {outside} and in {inner}, and one is enough", seam.name);
    let advice = Diagnostic::new(&catalogue::GAP_OUTSIDE, gap.span, title)
        .label("in each layer that the seam is sewn in")
        .also(seam.name_span, "sewn in each by itself")
        .help(format!(
            "leave it where nobody sees it: leaving gap {} in {inner}",
            super::words::written(&amount(length, garment.unit))
        ));
    Some(Finding::new(size.id(), 0.0, advice).about(seam.name.to_string()))
}

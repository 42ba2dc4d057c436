//! `place/over-pocket`: the stitching of one placed piece goes through another that has an opening.

use super::{Steps, clearing, put};
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::sewing::patches::{Patch, THROUGH, well_inside};
use crate::shape::outline::{Region, extents, is_on};
use crate::shape::path::Path;
use crate::shape::{Point, fold};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::PLACE_OVER_POCKET], run: Run::PerSize(run) };

/// Nearer than this, in millimetres, an open edge lies along the outline of what covers it.
const ALONG: f64 = 2.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if size.drawn.placed.is_empty() {
        return;
    }
    let patches = Patch::all(garment, &size.drawn);
    let mut order: Option<Option<Steps>> = None;
    for (at, one) in patches.iter().enumerate() {
        findings.extend(twin(garment, size, one));
        for other in patches.iter().skip(at + 1).filter(|other| one.lies_beside(other)) {
            if one.lies_on(other) {
                findings.push(same_place(garment, size, one, other));
                continue;
            }
            // The rows of the one, through the other: unless it lay there before the other was placed.
            let pairs = [(one, other), (other, one)];
            let crossing: Vec<_> =
                pairs.into_iter().filter(|(over, under)| over.stitches_through(under)).collect();
            if crossing.is_empty() {
                let covers = pairs.into_iter().find(|(over, under)| covers(over, under));
                if let Some((over, under)) = covers {
                    let order = order.get_or_insert_with(|| Steps::of(garment, size));
                    if !lay_there(order.as_ref(), over, under) {
                        findings.push(finding(garment, size, over, under));
                    }
                }
                continue;
            }
            // What hangs over something is placed after it, which the order of work sees to.
            if one.hangs_under(other) || other.hangs_under(one) {
                continue;
            }
            let order = order.get_or_insert_with(|| Steps::of(garment, size));
            let found = crossing.into_iter().find(|(over, under)| !lay_there(order.as_ref(), over, under));
            if let Some((over, under)) = found {
                findings.push(finding(garment, size, over, under));
            }
        }
    }
}

/// Whether the steps place the one before the other.
fn lay_there(order: Option<&Steps>, over: &Patch, under: &Patch) -> bool {
    let times = order.and_then(|order| order.placed(over.id).zip(order.placed(under.id)));
    times.is_some_and(|(over, under)| over < under)
}

/// Whether what is stitched down all round lies over all that another leaves open, to its outline at the most.
fn covers(over: &Patch, under: &Patch) -> bool {
    let region = Region::of(&over.outline);
    let is_over = |at: Point| region.contains(at) || is_on(&over.outline, at, ALONG);
    let is_covered = |path: &Path| {
        [0.0, 0.5, 1.0].iter().all(|share| is_over(path.point_at_length(share * path.length())))
    };
    over.open.is_empty() && !under.open.is_empty() && under.open.iter().all(|(_, path)| is_covered(path))
}

/// A pocket beside the fold that reaches over it, and so over the one on the other side.
fn twin(garment: &Garment, size: &WorkedSize, patch: &Patch) -> Option<Finding> {
    let CutHow::OnFold(edge) = patch.host.cut else { return None };
    if patch.placement.hand.is_some() || patch.own.count < 2 && patch.own.cut != CutHow::Mirrored {
        return None;
    }
    let middle = &patch.host.edge(edge)?.path;
    let mirror = fold::mirror_across(middle).ok()?;
    let other: Vec<Path> = patch.outline.iter().map(|path| path.transform(mirror)).collect();
    let over: f64 = patch.rows.iter().map(|(_, path)| well_inside(path, &other)).sum();
    if over <= THROUGH {
        return None;
    }
    let unit = garment.unit;
    let own = words::piece(garment, patch.placement.piece);
    let points = patch.rows.iter().flat_map(|(_, path)| [path.start(), path.end()]);
    let region = Region::of(&other);
    let within = points.filter(|point| region.contains(*point));
    let far = within.map(|point| middle.nearest(point).distance).fold(0.0, f64::max);
    let by = amount(far, unit);
    let title = Title::new(format!("{own} reaches {by} over the fold, onto the other {own}")).in_sizes();
    let mistake = Diagnostic::new(&catalogue::PLACE_OVER_POCKET, put(patch), title)
        .label("one lies here, its mirror image beyond the fold")
        .also(garment.edge(edge).span, "the fold")
        .help(format!(
            "move it {} away from the fold; or, if one in the middle is meant, cut 1 and place it across the fold",
            at_least(far, unit)
        ));
    Some(Finding::new(size.id(), far, mistake).about(own).figure("too far by", by))
}

/// Two of one outline in one place, as when the mark of the first is named for the second too.
fn same_place(garment: &Garment, size: &WorkedSize, under: &Patch, over: &Patch) -> Finding {
    let [one, other] = [over, under].map(|patch| words::piece(garment, patch.placement.piece));
    let title = Title::new(format!("{one} lies on {other}, and both are stitched down along the same edges"))
        .in_sizes();
    let mistake = Diagnostic::new(&catalogue::PLACE_OVER_POCKET, put(over), title)
        .label("in the same place")
        .also(put(under), format!("{other} lies here"))
        .help("name another mark for one of them; two plies of one pocket are sewn to one another first, and placed as one");
    Finding::new(size.id(), 0.0, mistake).about(format!("{one} {other}"))
}

fn finding(garment: &Garment, size: &WorkedSize, over: &Patch, under: &Patch) -> Finding {
    let unit = garment.unit;
    let [one, other] = [over, under].map(|patch| words::piece(garment, patch.placement.piece));
    let pairs = [(over, under), (under, over)];
    let low = pairs.into_iter().find_map(|(flap, pocket)| low_flap(garment, size, flap, pocket));
    if let Some(low) = low {
        return low;
    }
    let title = Title::new(format!("the stitching of {one} goes through {other} and shuts it")).in_sizes();
    let away = extents(&over.outline).zip(extents(&under.outline)).map(|(own, other)| clearing(own, other));
    let (far, clear) = away.map_or_else(
        || (0.0, format!("move it clear of {other}")),
        |(by, way)| (by, format!("move it {} {way}, clear of {other}", at_least(by, unit))),
    );
    let [own, pocket] = [over, under].map(|patch| &garment.piece(patch.placement.piece).name);
    let mistake = Diagnostic::new(&catalogue::PLACE_OVER_POCKET, put(over), title)
        .label("placed over it")
        .also(put(under), format!("{other} lies here"))
        .help(match over.open.is_empty() {
            true => format!(
                "{clear}; or, if it lies behind it, say in the steps that it is placed before: place {own}, {pocket}"
            ),
            false => format!("{clear}; or, if it belongs on it, place it there: place {own} on {pocket}"),
        });
    Finding::new(size.id(), far, mistake)
        .about(format!("{one} {other}"))
        .figure("to clear it", amount(far, unit))
}

/// A flap that hangs over a pocket, and is stitched down below its mouth.
fn low_flap(garment: &Garment, size: &WorkedSize, flap: &Patch, pocket: &Patch) -> Option<Finding> {
    if !flap.hangs() || pocket.hangs() {
        return None;
    }
    let unit = garment.unit;
    let [name, other] = [flap, pocket].map(|patch| words::piece(garment, patch.placement.piece));
    let rows: Vec<Path> = flap.rows.iter().map(|(_, path)| path.clone()).collect();
    let (own, rows) = (extents(&pocket.outline)?, extents(&rows)?);
    let low = own.y1 - rows.y0;
    // In the lower half of a pocket it was meant for another one.
    if !(0.0..0.5 * own.height()).contains(&low) {
        return None;
    }
    let by = amount(low, unit);
    let title = Title::new(format!("{name} is stitched down {by} below the top of {other}, and shuts it"));
    let mistake = Diagnostic::new(&catalogue::PLACE_OVER_POCKET, put(flap), title.in_sizes())
        .label("its row goes through both")
        .also(put(pocket), format!("{other} lies here"))
        .help(format!(
            "move {name} at least {} up, and it hangs over the mouth from above",
            at_least(low, unit)
        ));
    Some(Finding::new(size.id(), low, mistake).about(format!("{name} {other}")).figure("too low by", by))
}

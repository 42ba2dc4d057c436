//! `join`: two pieces laid edge to edge become one.

use super::beyond::report_no_line;
use super::split::{own_point, own_run, report_nameless};
use crate::garment::{Alteration, AlterationId, CutHow, EdgeId, PaperId, PieceId, PointId, Target};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::{CornerName, DrawnEdge, DrawnLine, DrawnNotch, DrawnPiece, DrawnSpot};
use crate::resolve::drawn_take_up::Mouth;
use crate::resolve::outline::sound;
use crate::resolve::sketch::ring;
use crate::resolve::sketch::{bare, corners_of};
use crate::resolve::take_ups::carry::{moved_over, report_through};
use crate::resolve::take_ups::carry_slits::renamed_slits;
use crate::resolve::work::{Drawn, Work};
use crate::shape::Affine;
use crate::shape::outline::Region;
use crate::shape::path::Path;
use crate::shape::place::{Joining, Meeting, lay_against};
use std::sync::Arc;

/// Lays the second piece against the first, for one paper of what they become.
pub(super) fn join(
    work: &Work,
    id: AlterationId,
    alteration: &Alteration,
    into: PieceId,
    made: PaperId,
) -> Drawn {
    let [first, second] = alteration.targets.as_slice() else { return None };
    let garment = work.garment;
    let before = |piece: PieceId| {
        let paper = garment.paper_of(garment.paper(made).layer, piece)?;
        let before = garment.paper(paper).alterations.iter().position(|&own| own == id)?;
        work.version(paper, before)
    };
    let (fixed, moving) = (before(first.piece)?, before(second.piece)?);
    let fixed_at = the_edge(work, first, fixed);
    let moving_at = the_edge(work, second, moving);
    let (fixed_at, moving_at) = (fixed_at?, moving_at?);
    for (target, drawn) in [(first, fixed), (second, moving)] {
        let on_it = |mouth: &Mouth| work.garment.is_run_of(mouth.edge, target.edge);
        let torn = drawn.take_ups.iter().find(|placed| placed.mouth.as_ref().is_some_and(on_it));
        let slit =
            || drawn.slits.iter().find(|slit| slit.mouth.as_ref().is_some_and(on_it)).map(|slit| slit.name);
        if let Some(name) = torn.map(|placed| placed.name).or_else(slit) {
            report_through(work, drawn, name, target.span);
            return None;
        }
    }
    let laid = lay(work, alteration, (first, fixed, fixed_at), (second, moving, moving_at))?;
    let whole = Whole { work, id, into };
    let Some(mut drawn) = whole.edges(fixed, fixed_at, moving, moving_at, laid.motion) else {
        report_nameless(work, into, alteration.span);
        return None;
    };
    if let CutHow::OnFold(second) = moving.cut
        && !whole.run_on(&mut drawn, fixed, second)
    {
        report_fold(work, alteration, moving);
        return None;
    }
    drawn.count = fixed.count;
    drawn.grain = fixed.grain;
    drawn.cut = match fixed.cut {
        CutHow::OnFold(fold) => CutHow::OnFold(own_run(work, into, fold)?),
        other => other,
    };
    whole.carry(&mut drawn, fixed, Affine::IDENTITY);
    whole.carry(&mut drawn, moving, laid.motion);
    let outline = ring(&drawn);
    let (region, before) = (Region::of(&outline), Some((&**fixed, alteration)));
    sound::is_sound(work, &drawn, &region, alteration.span, before, &|| false).then(|| Arc::new(drawn))
}

fn the_edge(work: &Work, target: &Target, drawn: &DrawnPiece) -> Option<usize> {
    let at = drawn.edges.iter().position(|edge| work.garment.is_run_of(edge.edge, target.edge));
    if at.is_none() {
        report_no_line(work, target, drawn);
    }
    at
}

type Side<'a> = (&'a Target, &'a DrawnPiece, usize);

/// Lays the pieces together, ends of the same name meeting; without such, so that neither is
/// turned over. Reported if the edges do not fit.
fn lay(work: &Work, alteration: &Alteration, fixed: Side, moving: Side) -> Option<Joining> {
    let (old, new) = (ring(fixed.1), ring(moving.1));
    let try_as = |meeting| lay_against(&new, moving.2, &old, fixed.2, meeting);
    let laid = match by_names(work, fixed, moving) {
        Some(meeting) => try_as(meeting),
        None => match (try_as(Meeting::StartWithEnd), try_as(Meeting::StartWithStart)) {
            (Ok(one), Ok(other)) if one.flipped && !other.flipped => Ok(other),
            (one, _) => one,
        },
    };
    let lengths = (old.get(fixed.2)?.length(), new.get(moving.2)?.length());
    let tolerance = work.garment.tolerance;
    let (apart, gap) = match &laid {
        Ok(laid) => (laid.longer_by.abs(), laid.gap),
        Err(_) => (f64::INFINITY, 0.0),
    };
    if apart <= tolerance && gap <= tolerance {
        return laid.ok();
    }
    work.report(|size| {
        let title = |side: Side| work.title(side.1.piece);
        let name = |side: Side| work.garment.edge(side.0.edge).name.as_ref();
        let (one, other) = (work.amount(lengths.0), work.amount(lengths.1));
        let (what, help) = match apart > tolerance {
            true => (
                Title::new(format!(
                    "{} of {} is {one} and {} of {} is {other}",
                    name(fixed),
                    title(fixed),
                    name(moving),
                    title(moving)
                ))
                .in_sizes()
                .then(", so they cannot be joined"),
                "make both edges equally long first".to_owned(),
            ),
            false => (
                Title::new(format!(
                    "{} of {} and {} of {} lie up to {} apart",
                    name(fixed),
                    title(fixed),
                    name(moving),
                    title(moving),
                    work.amount(gap)
                ))
                .in_sizes()
                .then(" when they are laid edge to edge"),
                "only edges that curve alike leave no gap: redraw one of them, or sew a seam".to_owned(),
            ),
        };
        let message = Diagnostic::new(&catalogue::ALTER_JOIN_APART, alteration.span, what)
            .also(work.garment.edge(fixed.0.edge).span, one.clone())
            .also(work.garment.edge(moving.0.edge).span, other.clone())
            .help(help);
        let weight = if apart.is_finite() { apart.max(gap) } else { f64::MAX };
        Finding::new(size, weight, message).figure(title(fixed), one).figure(title(moving), other)
    });
    None
}

/// Which ends meet: those of the same name.
fn by_names(work: &Work, fixed: Side, moving: Side) -> Option<Meeting> {
    let (fixed_start, fixed_end) = corners_of(fixed.1, fixed.2)?;
    let (start, end) = corners_of(moving.1, moving.2)?;
    let name = |corner: CornerName| match corner {
        CornerName::Named(point) => Some(&work.garment.point(point).name),
        CornerName::Between(..) => None,
    };
    let same = |a: CornerName, b: CornerName| name(a).is_some() && name(a) == name(b);
    if same(start, fixed_start) || same(end, fixed_end) {
        return Some(Meeting::StartWithStart);
    }
    (same(start, fixed_end) || same(end, fixed_start)).then_some(Meeting::StartWithEnd)
}

fn report_fold(work: &Work, alteration: &Alteration, moving: &DrawnPiece) {
    let title = work.title(moving.piece);
    work.mistake(1.0, title, || {
        let message = format!("{title} lies on the fold, and no longer would once it is joined");
        let message = Diagnostic::new(&catalogue::ALTER_JOIN_FOLD, alteration.span, message)
            .also(work.garment.piece(moving.piece).cut.span, "how it is cut");
        match moving.cut {
            CutHow::OnFold(fold) => {
                let fold = &work.garment.edge(fold).name;
                message.help(format!(
                    "open {title} at {fold} first, or name it first in the join; two halves are joined where their folds run on in one \
                     line"
                ))
            }
            _ => message,
        }
    });
}

/// The piece that the two become.
struct Whole<'w, 'g> {
    work: &'w Work<'g>,
    id: AlterationId,
    into: PieceId,
}

impl Whole<'_, '_> {
    /// The first piece's edges from the one after the joined edge on, then the second's likewise,
    /// turned so that they go round the same way.
    fn edges(
        &self,
        fixed: &DrawnPiece,
        fixed_at: usize,
        moving: &DrawnPiece,
        moving_at: usize,
        motion: Affine,
    ) -> Option<DrawnPiece> {
        let mut parts: Vec<(EdgeId, Path, Option<CornerName>, Vec<AlterationId>)> = Vec::new();
        for edge in after(fixed, fixed_at) {
            parts.push((edge.edge, edge.path.clone(), Some(edge.corner), edge.touched.clone()));
        }
        let joined = &fixed.edges.get(fixed_at)?.path;
        let moved = moving.edges.get(moving_at)?.path.transform(motion);
        let same_way = moved.start().distance(joined.start()) < moved.start().distance(joined.end());
        let others: Vec<&DrawnEdge> = after(moving, moving_at).collect();
        if same_way {
            for (at, edge) in others.iter().enumerate().rev() {
                let corner = match others.get(at + 1) {
                    Some(next) => Some(next.corner),
                    None => moving.edges.get(moving_at).map(|edge| edge.corner),
                };
                parts.push((edge.edge, edge.path.transform(motion).reversed(), corner, edge.touched.clone()));
            }
        } else {
            for edge in others {
                parts.push((edge.edge, edge.path.transform(motion), Some(edge.corner), edge.touched.clone()));
            }
        }
        let names: Option<Vec<EdgeId>> =
            parts.iter().map(|part| own_run(self.work, self.into, part.0)).collect();
        let names = names?;
        let before = names.iter().cycle().skip(names.len().saturating_sub(1));
        let edges = parts.into_iter().zip(names.iter().zip(before)).map(|(part, (&edge, &before))| {
            let (_, path, corner, touched) = part;
            let named = match corner {
                Some(CornerName::Named(point)) => self.point(point),
                _ => None,
            };
            let corner = named.map_or(CornerName::Between(before, edge), CornerName::Named);
            DrawnEdge { edge, path, corner, touched }
        });
        let mut drawn = bare(self.into, edges.collect());
        close_gaps(&mut drawn, self.id);
        Some(drawn)
    }

    /// Makes one edge of the folds of two halves, where they run on in one line; whether they do.
    fn run_on(&self, drawn: &mut DrawnPiece, fixed: &DrawnPiece, second: EdgeId) -> bool {
        let CutHow::OnFold(first) = fixed.cut else { return false };
        let own = |fold: EdgeId| {
            let own = own_run(self.work, self.into, fold)?;
            drawn.edges.iter().position(|edge| edge.edge == own)
        };
        let (Some(first), Some(second)) = (own(first), own(second)) else { return false };
        let count = drawn.edges.len();
        let (from, to) = match (first + 1) % count == second {
            true => (first, second),
            false if (second + 1) % count == first => (second, first),
            false => return false,
        };
        let (Some(one), Some(other)) = (drawn.edges.get(from), drawn.edges.get(to)) else { return false };
        let whole = Path::straight(one.path.start(), other.path.end());
        if whole.nearest(other.path.start()).distance > self.work.garment.tolerance {
            return false;
        }
        let (corner, touched) = (one.corner, [&*one.touched, &*other.touched].concat());
        if let Some(kept) = drawn.edges.get_mut(first) {
            (kept.path, kept.corner, kept.touched) = (whole, corner, touched);
        }
        drawn.edges.remove(second);
        true
    }

    fn point(&self, point: PointId) -> Option<PointId> {
        own_point(self.work, self.into, point)
    }

    /// Points, marks, lines and notches of one of the two.
    fn carry(&self, drawn: &mut DrawnPiece, from: &DrawnPiece, motion: Affine) {
        for spot in &from.spots {
            if let Some(point) = self.point(spot.point)
                && drawn.spot(point).is_none()
            {
                drawn.spots.push(DrawnSpot { point, at: motion * spot.at });
            }
        }
        for line in &from.lines {
            if let Some(edge) = own_run(self.work, self.into, line.edge) {
                drawn.lines.push(DrawnLine { edge, path: line.path.transform(motion) });
            }
        }
        for notch in &from.notches {
            let Some(edge) = own_run(self.work, self.into, notch.edge) else { continue };
            let Some(run) = drawn.edges.iter().find(|own| own.edge == edge) else { continue };
            let nearest = run.path.nearest(motion * notch.at);
            let (along, at) = (nearest.at, nearest.point);
            drawn.notches.push(DrawnNotch { edge, along, at, ..*notch });
        }
        let own = |edge: EdgeId| own_run(self.work, self.into, edge);
        for placed in &from.take_ups {
            let Some(name) = own(placed.name) else { continue };
            let moved = moved_over(placed, motion, name, &own, &drawn.edges);
            drawn.take_ups.extend(moved);
        }
        let slits = renamed_slits(&from.slits, motion, &own, &drawn.edges);
        drawn.slits.extend(slits);
        drawn.missing.edges.extend(from.missing.edges.iter().copied());
        drawn.missing.points.extend(from.missing.points.iter().copied());
    }
}

/// The edges after one, round the ring.
fn after(drawn: &DrawnPiece, edge: usize) -> impl Iterator<Item = &DrawnEdge> {
    let count = drawn.edges.len();
    drawn.edges.iter().cycle().skip(edge + 1).take(count.saturating_sub(1))
}

/// Edges that fit within the tolerance are brought together where the pieces meet.
fn close_gaps(drawn: &mut DrawnPiece, by: AlterationId) {
    let count = drawn.edges.len();
    for at in 0..count {
        let Some(end) = drawn.edges.get((at + count - 1) % count).map(|edge| edge.path.end()) else {
            continue;
        };
        let Some(edge) = drawn.edges.get_mut(at) else { continue };
        let gap = end - edge.path.start();
        if gap.hypot() > 0.0 {
            edge.path = crate::shape::place::move_ends(&edge.path, gap, crate::shape::Vec2::ZERO);
            if gap.hypot() > crate::shape::tolerance::SAME_POINT {
                edge.touched.push(by);
            }
        }
    }
}

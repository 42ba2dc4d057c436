//! Whether take-ups can be sewn where they lie: inside their piece, off its fold and clear of one another.

use super::sound_slits::{around, sides};
use crate::garment::{Alteration, CutHow};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::{DrawnEdge, DrawnPiece};
use crate::resolve::drawn_take_up::{Corners, DrawnPleat, DrawnTakeUp, Mouth, TuckEnd};
use crate::resolve::model::DrawnEdgeId;
use crate::resolve::work::Work;
use crate::shape::line::{meet_outline, meet_segment};
use crate::shape::outline::{Region, contains_strictly};
use crate::shape::path::Path;
use crate::shape::taken::Taken;
use crate::shape::tolerance::{AT_CORNER, ON_OUTLINE, SAME_POINT};
use crate::shape::{Point, Rect};
use crate::source::Span;
use std::cell::OnceCell;

/// Whether every take-up lies where it can be sewn; reported if not, after an alteration at its words. How
/// the piece is `cut` tells its fold.
pub(in crate::resolve) fn is_sound(
    work: &Work,
    drawn: &DrawnPiece,
    region: &Region,
    cut: CutHow,
    altered: Option<&Alteration>,
) -> bool {
    if drawn.take_ups.is_empty() && drawn.slits.is_empty() {
        return true;
    }
    if !drawn.slits.is_empty() && !super::sound_slits::are_sound(work, drawn, region, cut, altered) {
        return false;
    }
    let sewn = vec![OnceCell::new(); drawn.edges.len()];
    let judging = Judging { work, drawn, region, sewn, cut, altered };
    let mut sound = true;
    for placed in &drawn.take_ups {
        sound &= judging.lies_inside(placed);
    }
    if !sound {
        return false;
    }
    // The two ends of a tuck are one fold.
    let is_second = |placed: &DrawnTakeUp| placed.pleat.is_some_and(|one| one.tuck == Some(TuckEnd::Second));
    let cloth = |placed: &DrawnTakeUp| if is_second(placed) { Corners::new() } else { judged_cloth(placed) };
    let cloths: Vec<(Option<Rect>, Corners)> =
        drawn.take_ups.iter().map(cloth).map(|corners| (around(&corners), corners)).collect();
    for (at, (one, (a, corners))) in drawn.take_ups.iter().zip(&cloths).enumerate() {
        for (other, (b, other_corners)) in drawn.take_ups.iter().zip(&cloths).skip(at + 1) {
            let apart = match (a, b) {
                (Some(a), Some(b)) => are_apart(a, b),
                // Two ends of tucks may lie over each other on one edge only.
                _ => one.mouth.map(|mouth| mouth.edge) != other.mouth.map(|mouth| mouth.edge),
            };
            let own_row = one.name == other.name && one.pleat.is_some();
            let over = || {
                let (a, b) = (sides(corners), sides(other_corners));
                match own_row {
                    true => judging.run_together((one, &a), (other, &b)),
                    false => {
                        judging.mouths_overlap(one, other) || judging.cloth_overlaps((one, &a), (other, &b))
                    }
                }
            };
            if !apart && over() {
                sound = false;
                // One pair is enough: of a hundred darts on one place all would cross.
                return sound;
            }
        }
    }
    sound
}

/// Whether all take-ups of a piece that was altered lie where they lay, and what was changed of its outline lies clear of
/// them: then they are as sound as they were. It is only told of an outline that does not cross itself, which lies on
/// the same side of each edge that did not change.
pub(in crate::resolve) fn lie_as_before(before: &DrawnPiece, after: &DrawnPiece) -> bool {
    let same_edges = before.edges.len() == after.edges.len()
        && before.edges.iter().zip(&after.edges).all(|(was, is)| was.edge == is.edge);
    if !same_edges
        || before.cut != after.cut
        || before.take_ups.len() != after.take_ups.len()
        || !(before.slits.is_empty() && after.slits.is_empty())
    {
        return false;
    }
    let stays = |(was, is): (&DrawnTakeUp, &DrawnTakeUp)| was.lies_as(is) && is.mouth.is_some();
    if !before.take_ups.iter().zip(&after.take_ups).all(stays) {
        return false;
    }
    let changed: Vec<(&DrawnEdge, Rect)> = before
        .edges
        .iter()
        .zip(&after.edges)
        .filter(|(was, is)| was.path != is.path)
        .map(|(_, is)| (is, is.path.hull().inflate(AT_CORNER, AT_CORNER)))
        .collect();
    after.take_ups.iter().all(|placed| {
        let around = around(&placed.corners()).map(|around| around.union_pt(placed.apex));
        around.is_some_and(|around| {
            changed.iter().all(|(edge, hull)| {
                placed.mouth.is_none_or(|mouth| mouth.edge != edge.edge) && are_apart(&around, hull)
            })
        })
    })
}

/// Whether two upright rectangles have nothing in common.
fn are_apart(a: &Rect, b: &Rect) -> bool {
    a.x1 < b.x0 || b.x1 < a.x0 || a.y1 < b.y0 || b.y1 < a.y0
}

fn overlap(one: &DrawnTakeUp, other: &DrawnTakeUp) -> &'static catalogue::Entry {
    match one.pleat.or(other.pleat) {
        Some(_) => &catalogue::PLEAT_OVERLAP,
        None => &catalogue::DART_OVERLAP,
    }
}

/// The cloth of a take-up that must be clear of others: of a pleat that hangs open as far down as it is deep.
fn judged_cloth(placed: &DrawnTakeUp) -> Corners {
    match placed.pleat {
        Some(pleat) if pleat.sewn <= 0.0 => {
            let [one, other] = placed.wedge.sides;
            let down = pleat.into * placed.depth();
            Corners::from([one, one + down, other + down, other])
        }
        _ => placed.corners(),
    }
}

/// The cosine up to which a tuck is square to a fold.
const SQUARE: f64 = 1e-3;

struct Judging<'j, 'g> {
    work: &'j Work<'g>,
    drawn: &'j DrawnPiece,
    region: &'j Region<'j>,
    /// How each edge is sewn, once that is asked for.
    sewn: Vec<OnceCell<Taken>>,
    cut: CutHow,
    altered: Option<&'j Alteration>,
}

impl Judging<'_, '_> {
    fn name(&self, placed: &DrawnTakeUp) -> &str {
        &self.work.garment.edge(placed.name).name
    }

    /// Where something is reported: at the alteration, or where the take-up is declared.
    fn span(&self, placed: &DrawnTakeUp) -> Span {
        self.altered.map_or(placed.said, |alteration| alteration.span)
    }

    fn message(&self, kind: &'static catalogue::Entry, placed: &DrawnTakeUp, title: String) -> Diagnostic {
        let message = Diagnostic::new(kind, self.span(placed), Title::new(title).in_sizes());
        match self.altered {
            Some(_) => message.also(self.work.garment.edge(placed.name).span, "declared here"),
            None => message,
        }
    }

    fn lies_inside(&self, placed: &DrawnTakeUp) -> bool {
        let (work, name) = (self.work, self.name(placed));
        let title = work.title(self.drawn.piece);
        if let (CutHow::OnFold(fold), Some(mouth)) = (self.cut, placed.mouth)
            && work.garment.is_run_of(mouth.edge, fold)
            && !self.crosses_fold_square(placed, mouth)
        {
            work.mistake(1.0, name, || {
                let edge = work.garment.edge(fold);
                self.message(
                    &catalogue::DART_FOLD,
                    placed,
                    format!("{name} is taken from {}, where {title} lies on the fold", edge.name),
                )
                .also(work.garment.piece(self.drawn.piece).cut.span, "how it is cut")
                .help(format!(
                    "a fold is no edge: take the {} from another edge, or cut the piece with a seam there",
                    placed.word()
                ))
            });
            return false;
        }
        if let (Some(pleat), Some(mouth)) = (placed.pleat, placed.mouth) {
            return self.pleat_is_inside(placed, &pleat) && self.has_room(placed, mouth);
        }
        // Where a leg ended that is no more to be said of: both legs end there.
        let mut sound: Option<Point> = None;
        for (side, end) in placed.legs() {
            let whole = side.distance(end);
            let near = AT_CORNER.min(whole / 2.0);
            let from_inside = placed.mouth.is_none();
            let from = if from_inside { side } else { side.lerp(end, near / (2.0 * whole)) };
            let hits = meet_outline(side, end, [from, end], self.region);
            let crossing = hits.iter().find(|hit| from_inside || hit.along > near);
            let fold_hit =
                crossing.and_then(|hit| self.drawn.edges.get(hit.edge)).filter(|edge| match self.cut {
                    CutHow::OnFold(fold) => work.garment.is_run_of(edge.edge, fold),
                    _ => false,
                });
            if let Some(edge) = fold_hit {
                work.mistake(1.0, name, || {
                    let fold = work.garment.edge(edge.edge);
                    let what = format!("{name} goes over {}, where {title} lies on the fold", fold.name);
                    self.message(&catalogue::DART_FOLD, placed, what)
                        .also(fold.span, "the fold")
                        .help("end it before the fold: its other half would lie over it")
                });
                return false;
            }
            if crossing.is_none() && sound == Some(end) {
                continue;
            }
            let outside = crossing.is_some() || !self.region.contains_strictly(end);
            let is_apex = end == placed.apex;
            if outside || !(is_apex || self.region.contains(placed.apex)) {
                let off = self
                    .region
                    .ring()
                    .iter()
                    .map(|edge| edge.nearest(end).distance)
                    .fold(f64::INFINITY, f64::min);
                let beyond = if self.region.contains(end) { 0.0 } else { off };
                work.report(|size| {
                    let far = work.amount(beyond);
                    let what = match beyond > 0.0 {
                        true => format!("{name} ends {far} outside {title}"),
                        false if outside => format!("{name} leaves {title} on the way to its point"),
                        false => format!("{name} is directed to a place outside {title}"),
                    };
                    let mut message = self.message(&catalogue::DART_OUTSIDE, placed, what);
                    if let Some(edge) = crossing.and_then(|hit| self.drawn.edges.get(hit.edge)) {
                        let edge = work.garment.edge(edge.edge);
                        message = message.also(edge.span, format!("it meets {}", edge.name));
                    }
                    let message =
                        message.help("a dart ends in the cloth: let its point lie inside the piece");
                    Finding::new(size, beyond, message).about(name).figure("outside by", far)
                });
                return false;
            }
            sound = Some(end);
        }
        true
    }

    /// Whether a tuck comes to the fold of its piece square to that: it goes on over the other half as it came.
    fn crosses_fold_square(&self, placed: &DrawnTakeUp, mouth: Mouth) -> bool {
        let Some(pleat) = placed.pleat.filter(|pleat| pleat.tuck.is_some()) else { return false };
        let Some(edge) = self.drawn.edge(mouth.edge) else { return false };
        let way = edge.path.end() - edge.path.start();
        pleat.into.dot(way).abs() <= SQUARE * way.hypot()
    }

    /// Whether the lines along which a pleat is sewn lie in the piece.
    fn pleat_is_inside(&self, placed: &DrawnTakeUp, pleat: &DrawnPleat) -> bool {
        let work = self.work;
        for (side, end) in placed.legs() {
            let whole = side.distance(end);
            // A tuck ends on an edge.
            let last = if pleat.tuck.is_some() { whole - AT_CORNER } else { whole };
            let within = AT_CORNER.min(whole) / (2.0 * whole);
            let until = if pleat.tuck.is_some() { side.lerp(end, 1.0 - within) } else { end };
            let hits = meet_outline(side, end, [side.lerp(end, within), until], self.region);
            let on_fold = |edge: &DrawnEdge| match self.cut {
                CutHow::OnFold(fold) => work.garment.is_run_of(edge.edge, fold),
                _ => false,
            };
            let crossed = hits.iter().filter(|hit| hit.along > AT_CORNER && hit.along < last);
            let crossed = crossed.filter_map(|hit| self.drawn.edges.get(hit.edge)).find(|edge| {
                // A fold in the middle of the piece is its fold.
                !on_fold(edge) || edge.path.nearest(side).distance > ON_OUTLINE
            });
            let Some(edge) = crossed else { continue };
            work.mistake(1.0, self.name(placed), || {
                let (name, title) = (self.name(placed), work.title(self.drawn.piece));
                let edge = work.garment.edge(edge.edge);
                let far = work.amount(pleat.sewn);
                let what = match pleat.tuck {
                    None => format!("{name} is stitched down {far} and leaves {title} through {}", edge.name),
                    Some(_) => format!("{name} leaves {title} through {} on its way", edge.name),
                };
                self.message(&catalogue::PLEAT_SEWN, placed, what)
                    .also(edge.span, "it meets this edge")
                    .help("sew it less far down; what is sewn from edge to edge is a tuck: `tuck … to`, and which edge")
            });
            return false;
        }
        true
    }

    /// Whether the cloth under a fold ends before the edge does, once all is folded.
    fn has_room(&self, placed: &DrawnTakeUp, mouth: Mouth) -> bool {
        let work = self.work;
        let on = DrawnEdgeId::enumerate(&self.drawn.edges).find(|(_, edge)| {
            edge.edge == mouth.edge
                && edge.path.point_at_length(mouth.from).distance(placed.wedge.sides[0]) <= ON_OUTLINE
        });
        let Some((at, edge)) = on else { return true };
        let Some(sewn) = self.sewn.get(at.index()) else { return true };
        let sewn = sewn.get_or_init(|| {
            let stretches = self.drawn.taken_from(edge).into_iter().map(|(_, mouth)| (mouth.from, mouth.to));
            Taken::new(edge.path.length(), stretches, 1.0)
        });
        let forward = placed.pressed == Some(0);
        let end = if forward { sewn.sewn() - sewn.as_sewn(mouth.to) } else { sewn.as_sewn(mouth.from) };
        // A slit ends an edge too.
        let slits = self.drawn.slits_on(edge).into_iter().filter_map(|(slit, own)| {
            let room = match forward {
                true => sewn.as_sewn(own.from) - sewn.as_sewn(mouth.to),
                false => sewn.as_sewn(mouth.from) - sewn.as_sewn(own.to),
            };
            (room >= -ON_OUTLINE).then_some((slit, room))
        });
        let nearest = slits.min_by(|(_, a), (_, b)| a.total_cmp(b)).filter(|(_, room)| *room < end);
        let room = nearest.map_or(end, |(_, room)| room);
        let depth = placed.depth();
        if room >= depth - ON_OUTLINE {
            return true;
        }
        work.report(|size| {
            let (name, of) = (self.name(placed), &work.garment.edge(mouth.edge).name);
            let (deep, left) = (work.amount(depth), work.amount(room.max(0.0)));
            let what = match nearest {
                None => format!("the cloth under {name} is {deep} deep, and {of} ends {left} from its fold"),
                Some((slit, _)) => {
                    let slit = &work.garment.edge(slit.name).name;
                    format!("the cloth under {name} is {deep} deep, and {slit} is cut {left} from its fold")
                }
            };
            let message = self
                .message(&catalogue::PLEAT_CORNER, placed, what)
                .also(work.garment.edge(mouth.edge).span, of.to_string())
                .help("move it in, fold it less deep, or lay it the other way, toward that end");
            Finding::new(size, depth - room, message).about(name).figure("deep", deep).figure("room", left)
        });
        false
    }

    fn mouths_overlap(&self, one: &DrawnTakeUp, other: &DrawnTakeUp) -> bool {
        let (Some(a), Some(b)) = (one.mouth, other.mouth) else { return false };
        let over = a.to.min(b.to) - a.from.max(b.from);
        if a.edge != b.edge || over < -SAME_POINT {
            return false;
        }
        let (work, name, second) = (self.work, self.name(one), self.name(other));
        work.report(|size| {
            let by = work.amount(over.max(0.0));
            let edge = &work.garment.edge(a.edge).name;
            let what = match over > SAME_POINT {
                true => format!("{name} and {second} overlap by {by} on {edge}"),
                false => format!("nothing of {edge} is left between {name} and {second}"),
            };
            let message = self
                .message(overlap(one, other), other, what)
                .also(work.garment.edge(one.name).span, format!("{name} is here"))
                .help("move one of them, or make them narrower: the same cloth is not taken twice");
            Finding::new(size, over, message).about(name).figure("overlap", by)
        });
        true
    }

    /// Whether two folds of one row, which lie apart where they are placed, do not do so further on.
    fn run_together(&self, one: (&DrawnTakeUp, &[Path]), other: (&DrawnTakeUp, &[Path])) -> bool {
        let over = match (one.0.mouth, other.0.mouth) {
            (Some(a), Some(b)) if a.edge == b.edge => a.to.min(b.to) - a.from.max(b.from),
            _ => 0.0,
        };
        let is_sewn = one.0.pleat.is_some_and(|pleat| pleat.sewn > 0.0);
        if over <= SAME_POINT && !(is_sewn && lie_over(one, other)) {
            return false;
        }
        let name = self.name(one.0);
        self.work.mistake(1.0, name, || {
            let what = format!("the folds of {name} run into one another");
            self.message(&catalogue::PLEAT_OVERLAP, one.0, what)
                .help("lay them further apart, or let all of them run along one line: along …")
        });
        true
    }

    fn cloth_overlaps(&self, one: (&DrawnTakeUp, &[Path]), other: (&DrawnTakeUp, &[Path])) -> bool {
        if !lie_over(one, other) {
            return false;
        }
        let (work, name, second) = (self.work, self.name(one.0), self.name(other.0));
        work.mistake(1.0, name, || {
            let what = format!("{name} and {second} lie over each other");
            self.message(overlap(one.0, other.0), other.0, what)
                .also(work.garment.edge(one.0.name).span, format!("{name} is here"))
                .help("let each stop before the other: the same cloth is not taken twice")
        });
        true
    }
}

/// Whether the cloth of two take-ups lies over each other inside the piece.
fn lie_over(one: (&DrawnTakeUp, &[Path]), other: (&DrawnTakeUp, &[Path])) -> bool {
    let proper = |side: &Path| {
        let long = side.start().distance(side.end());
        // Darts that share their point meet there alone.
        meet_segment(side.start(), side.end(), other.1).iter().any(|hit| {
            let on_other = other.1.get(hit.edge).map_or(0.0, |edge| edge.start().distance(edge.end()));
            hit.along > AT_CORNER
                && hit.along < long - AT_CORNER
                && hit.at > AT_CORNER
                && hit.at < on_other - AT_CORNER
        })
    };
    let middle = |corners: Corners| {
        let sum = corners.iter().fold(crate::shape::Vec2::ZERO, |sum, corner| sum + corner.to_vec2());
        (sum / corners.len() as f64).to_point()
    };
    let inside = contains_strictly(other.1, middle(one.0.corners()))
        || contains_strictly(one.1, middle(other.0.corners()));
    inside || one.1.iter().any(proper)
}

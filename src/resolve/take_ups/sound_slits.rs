//! Whether slits can be cut where they lie: inside their piece, off its fold and clear of one another and of darts.

use crate::garment::{Alteration, CutHow, EdgeId};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::drawn_take_up::{DrawnSlit, DrawnTakeUp, Mouth};
use crate::resolve::work::Work;
use crate::shape::line::{meet_outline, meet_segment};
use crate::shape::outline::{Region, contains_strictly};
use crate::shape::path::Path;
use crate::shape::tolerance::{AT_CORNER, ON_OUTLINE, SAME_POINT};
use crate::shape::{Point, Rect};

/// Whether every slit lies where it can be cut; reported if not, after an alteration at its words.
pub(super) fn are_sound(
    work: &Work,
    drawn: &DrawnPiece,
    region: &Region,
    cut: CutHow,
    altered: Option<&Alteration>,
) -> bool {
    let judging = Judging { work, drawn, region, cut, altered };
    let mut sound = true;
    for slit in &drawn.slits {
        sound &= judging.lies_inside(slit);
    }
    if !sound {
        return false;
    }
    let slits = drawn.slits.iter().map(|slit| Lying {
        name: slit.name,
        mouth: slit.mouth,
        around: around(&slit.corners()),
        what: What::Slit(slit),
    });
    let darts = drawn.take_ups.iter().map(|dart| Lying {
        name: dart.name,
        mouth: dart.mouth,
        around: around(&dart.corners()),
        what: What::Other(dart),
    });
    let all: Vec<Lying> = slits.chain(darts).collect();
    for (at, (slit, own)) in drawn.slits.iter().zip(&all).enumerate() {
        // One pair is enough: of a hundred slits on one place all would cross.
        if all.iter().skip(at + 1).any(|other| judging.overlap(slit, own, other)) {
            return false;
        }
    }
    true
}

/// A slit or another take-up where it lies: its mouth and the rectangle round it.
struct Lying<'d> {
    name: EdgeId,
    mouth: Option<Mouth>,
    around: Option<Rect>,
    what: What<'d>,
}

enum What<'d> {
    Slit(&'d DrawnSlit),
    Other(&'d DrawnTakeUp),
}

impl Lying<'_> {
    /// Its sides.
    fn paths(&self) -> Vec<Path> {
        match self.what {
            What::Slit(slit) => paths(slit),
            What::Other(take_up) => sides(&take_up.corners()),
        }
    }

    /// Whether it lies so far from another that neither touches the other.
    fn is_clear_of(&self, other: &Lying) -> bool {
        self.around.zip(other.around).is_some_and(|(a, b)| {
            let far = |one: f64, other: f64| other - one > AT_CORNER;
            far(a.x1, b.x0) || far(b.x1, a.x0) || far(a.y1, b.y0) || far(b.y1, a.y0)
        })
    }

    fn crosses(&self, other: &Lying) -> bool {
        let others = other.paths();
        self.paths().iter().any(|side| !meet_segment(side.start(), side.end(), &others).is_empty())
    }

    /// Whether one of the two lies within the other.
    fn is_one_in(&self, other: &Lying) -> bool {
        let holds = |ring: &[Path], other: &[Path]| {
            ring.len() > 2 && other.first().is_some_and(|side| contains_strictly(ring, side.start()))
        };
        let (own, others) = (self.paths(), other.paths());
        holds(&closed(&own), &others) || holds(&closed(&others), &own)
    }
}

/// The upright rectangle round corners; none where there are none.
pub(super) fn around(corners: &[Point]) -> Option<Rect> {
    let each = corners.iter().map(|corner| Rect::from_points(*corner, *corner));
    each.reduce(|whole, own| whole.union(own))
}

/// Its two sides, and its ends if it has some.
fn paths(slit: &DrawnSlit) -> Vec<Path> {
    let [start, turn, leave, back] = slit.corners();
    let across = slit.mouth.is_none().then_some((back, start));
    let all = [(start, turn), (turn, leave), (leave, back)].into_iter().chain(across);
    let long = all.into_iter().filter(|(from, to)| from.distance(*to) > SAME_POINT);
    long.map(|(from, to)| Path::straight(from, to)).collect()
}

struct Judging<'j, 'g> {
    work: &'j Work<'g>,
    drawn: &'j DrawnPiece,
    region: &'j Region<'j>,
    cut: CutHow,
    altered: Option<&'j Alteration>,
}

impl Judging<'_, '_> {
    fn name(&self, take_up: EdgeId) -> &str {
        &self.work.garment.edge(take_up).name
    }

    fn message(&self, kind: &'static catalogue::Entry, slit: &DrawnSlit, title: String) -> Diagnostic {
        let declared = self.work.garment.edge(slit.name).span;
        let message = |span| Diagnostic::new(kind, span, Title::new(title).in_sizes());
        match self.altered {
            Some(alteration) => message(alteration.span).also(declared, "declared here"),
            None => message(slit.said),
        }
    }

    fn is_fold(&self, edge: EdgeId) -> bool {
        matches!(self.cut, CutHow::OnFold(fold) if self.work.garment.is_run_of(edge, fold))
    }

    fn lies_inside(&self, slit: &DrawnSlit) -> bool {
        let (work, name) = (self.work, self.name(slit.name));
        let title = work.title(self.drawn.piece);
        let help = match slit.mouth {
            Some(_) => {
                "a slit in the middle begins at an edge that ends at the fold: slit NAME on EDGE at the fold …"
            }
            None => {
                "each half has a slit of its own: move it clear of the fold; for one across the middle draw the whole piece \
                 instead of a half"
            }
        };
        let report_fold = |edge: EdgeId, what: String| {
            work.mistake(1.0, name, || {
                self.message(&catalogue::SLIT_FOLD, slit, what)
                    .also(work.garment.edge(edge).span, "the fold")
                    .help(help)
            });
        };
        if let Some(mouth) = slit.mouth.filter(|mouth| self.is_fold(mouth.edge)) {
            let edge = self.name(mouth.edge);
            report_fold(mouth.edge, format!("{name} is cut from {edge}, where {title} lies on the fold"));
            return false;
        }
        if slit.mouth.is_none() {
            return self.lies_clear(slit, &report_fold);
        }
        if slit.fold.is_some() && !self.ends_on_fold(slit) {
            return false;
        }
        // Without a window both sides are one.
        let count = if slit.sides[0] == slit.sides[1] && slit.ends[0] == slit.ends[1] { 1 } else { 2 };
        let all = slit.sides.into_iter().zip(slit.ends).enumerate().take(count);
        // On the fold there is no side; without a window the near one lies there as well.
        let all = all.filter(|(at, _)| slit.fold.is_none_or(|fold| fold != *at && count == 2));
        for (_, (side, end)) in all {
            let long = side.distance(end);
            let near = AT_CORNER.min(long / 2.0);
            let hits = meet_outline(side, end, [side.lerp(end, near / (2.0 * long)), end], self.region);
            let crossing = hits.iter().find(|hit| hit.along > near);
            let met = crossing.and_then(|hit| self.drawn.edges.get(hit.edge));
            if let Some(edge) = met.filter(|edge| self.is_fold(edge.edge)) {
                let fold = self.name(edge.edge);
                report_fold(edge.edge, format!("{name} goes over {fold}, where {title} lies on the fold"));
                return false;
            }
            if crossing.is_none() && self.region.contains_strictly(end) {
                continue;
            }
            let off = self.off(end);
            work.report(|size| {
                let far = work.amount(off);
                let what = match self.region.contains_strictly(end) {
                    false => format!("{name} ends {far} outside {title}"),
                    true => format!("{name} leaves {title} on the way to its end"),
                };
                let message = self.message(&catalogue::SLIT_OUTSIDE, slit, what);
                let message = match met {
                    Some(edge) => message.also(
                        work.garment.edge(edge.edge).span,
                        format!("it meets {}", self.name(edge.edge)),
                    ),
                    None => message,
                };
                let message = message.help(
                    "cut it the other way, up, down, left or right, or less far: a slit ends in the cloth",
                );
                Finding::new(size, off, message).about(name).figure("outside by", far)
            });
            return false;
        }
        true
    }

    /// Whether a slit in the middle ends above the end of the fold that it runs along; reported if not.
    fn ends_on_fold(&self, slit: &DrawnSlit) -> bool {
        let beside = self.drawn.fold_beside(slit).and_then(|at| self.drawn.edges.get(at));
        let (Some(fold), (_, end)) = (beside, slit.middle()) else { return true };
        let nearest = fold.path.nearest(end);
        let over = (fold.path.length() - nearest.at).min(nearest.at);
        if nearest.distance <= ON_OUTLINE && over > SAME_POINT {
            return true;
        }
        let (work, name, title) = (self.work, self.name(slit.name), self.work.title(self.drawn.piece));
        let own = self.name(fold.edge);
        let (long, fold_long) = (slit.middle().0.distance(end), fold.path.length());
        work.report(|size| {
            let (long_words, of) = (work.amount(long), work.amount(fold_long));
            let what = format!("{name} is {long_words} long, and {own} of {title} lies {of} on the fold");
            let message = self
                .message(&catalogue::SLIT_OUTSIDE, slit, what)
                .also(work.garment.edge(fold.edge).span, format!("{of} long"))
                .help("cut it less far: a slit ends in the cloth");
            Finding::new(size, (long - fold_long).max(0.0), message).about(name).figure("long", long_words)
        });
        false
    }

    /// Whether a slit inside the piece lies clear of its outline, so that cloth is left all round it.
    fn lies_clear(&self, slit: &DrawnSlit, report_fold: &dyn Fn(EdgeId, String)) -> bool {
        let (work, name, title) = (self.work, self.name(slit.name), self.work.title(self.drawn.piece));
        let sides = paths(slit);
        let met = sides.iter().find_map(|side| {
            let hit = meet_segment(side.start(), side.end(), self.region.ring()).into_iter().next()?;
            self.drawn.edges.get(hit.edge)
        });
        if let Some(edge) = met.filter(|edge| self.is_fold(edge.edge)) {
            let fold = self.name(edge.edge);
            report_fold(edge.edge, format!("{name} goes over {fold}, where {title} lies on the fold"));
            return false;
        }
        let corners = slit.corners();
        let outside = corners.iter().filter(|corner| !self.region.contains_strictly(**corner));
        let off = outside.map(|corner| self.off(*corner)).reduce(f64::max);
        if met.is_none() && off.is_none() {
            return true;
        }
        let off = off.unwrap_or(0.0);
        work.report(|size| {
            let far = work.amount(off);
            let what = match off > SAME_POINT {
                true => format!("{name} reaches {far} out of {title}"),
                false => format!("{name} meets the outline of {title}"),
            };
            let message = self.message(&catalogue::SLIT_OUTSIDE, slit, what);
            let message = match met {
                Some(edge) => {
                    message.also(work.garment.edge(edge.edge).span, format!("it meets {}", self.name(edge.edge)))
                }
                None => message,
            };
            let message = message.help(
                "a slit from a place to a place lies in the cloth with both its ends: move them in; one that is to open \
                 an edge is cut from it, slit NAME on EDGE at …",
            );
            Finding::new(size, off, message).about(name).figure("outside by", far)
        });
        false
    }

    /// How far a place lies off the outline.
    fn off(&self, at: Point) -> f64 {
        self.region.ring().iter().map(|edge| edge.nearest(at).distance).fold(f64::INFINITY, f64::min)
    }

    /// Whether a slit lies over another take-up; reported if so.
    fn overlap(&self, slit: &DrawnSlit, own: &Lying, other: &Lying) -> bool {
        let shared = slit.mouth.zip(other.mouth).filter(|(own, other)| {
            other.edge == own.edge && other.to.min(own.to) - other.from.max(own.from) >= -SAME_POINT
        });
        if shared.is_none() && (own.is_clear_of(other) || !(own.crosses(other) || own.is_one_in(other))) {
            return false;
        }
        let (work, name, second) = (self.work, self.name(slit.name), self.name(other.name));
        work.mistake(1.0, name, || {
            let what = match shared {
                Some((own, _)) => {
                    format!("{name} and {second} lie on the same stretch of {}", self.name(own.edge))
                }
                None if own.crosses(other) => format!("{name} and {second} cross"),
                None => format!("{name} and {second} lie in one another"),
            };
            self.message(&catalogue::SLIT_OVERLAP, slit, what)
                .also(work.garment.edge(other.name).span, format!("{second} is here"))
                .help("move one of them, or make it shorter: cloth is cut only where it lies single")
        });
        true
    }
}

/// The sides with a way back to where they begin.
fn closed(sides: &[Path]) -> Vec<Path> {
    let mut ring = sides.to_vec();
    if let (Some(first), Some(last)) = (sides.first(), sides.last())
        && first.start().distance(last.end()) > SAME_POINT
    {
        ring.push(Path::straight(last.end(), first.start()));
    }
    ring
}

/// The sides of what lies between corners.
pub(super) fn sides(corners: &[Point]) -> Vec<Path> {
    // The corners of a contour dart go round by its lower end, its second side and its upper end.
    let ends = corners.iter().cycle().skip(1);
    corners.iter().zip(ends).map(|(a, b)| Path::straight(*a, *b)).collect()
}

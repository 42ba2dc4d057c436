//! `split … from a dart to a dart`: along both legs of each, so that what the darts took lies in the seam.

use super::dart::dart_with_mouth;
use super::halves::{Lying, side};
use super::split::{half, named};
use super::turning::gap;
use crate::garment::{Alteration, AlterationId, DartSplit, Target};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::{DrawnNotch, DrawnPiece};
use crate::resolve::drawn_take_up::DrawnTakeUp;
use crate::resolve::model::Why;
use crate::resolve::sketch::ring;
use crate::resolve::take_ups::carry::report_through;
use crate::resolve::take_ups::true_edges;
use crate::resolve::work::Work;
use crate::shape::Point;
use crate::shape::cut::{CutEdge, Origin, cut_between, rounded};
use crate::shape::line::meet_segment;
use crate::shape::outline::{Region, contains_strictly, is_anticlockwise};
use crate::shape::path::Path;
use crate::shape::tolerance::{AT_CORNER, ON_OUTLINE, SAME_POINT};
use crate::source::Span;
use std::sync::Arc;

/// How far from the point of a dart the notches above and below it are, in millimetres (common practice: 5 cm).
const NOTCHES: f64 = 50.0;

/// What lies to the left, as one goes from the first dart to the second, then what lies to the right.
pub(super) fn split_darts(
    work: &Work,
    id: AlterationId,
    alteration: &Alteration,
    change: &DartSplit,
    whole: &DrawnPiece,
) -> Option<[Arc<DrawnPiece>; 2]> {
    let ([target], [left, right]) = (alteration.targets.as_slice(), alteration.makes.as_slice()) else {
        return None;
    };
    let (to, span) = change.to;
    let other = Target { edge: to, span, ..target.clone() };
    let (first, second) = (dart_with_mouth(work, target, whole), dart_with_mouth(work, &other, whole));
    let ((first_at, first, _), (second_at, second, _)) = (first?, second?);
    let radius = match &change.rounded {
        Some(radius) => work.scalar(radius, None)?,
        None => 0.0,
    };
    let through: Option<Vec<Point>> = change.through.iter().map(|point| work.place(point, None)).collect();
    let through = through?;
    // Without stopping short: sewn to the very point, the edges are trued for that.
    let mut whole = whole.clone();
    for at in [first_at, second_at] {
        if let Some(dart) = whole.take_ups.get_mut(at) {
            (dart.wedge.point, dart.stopping) = (dart.apex, 0.0);
        }
    }
    let mouths = [first, second].map(|dart| dart.mouth.map(|mouth| mouth.edge));
    if !true_edges(work, &mut whole, |edge| mouths.contains(&Some(edge.edge))) {
        return None;
    }
    let (first, second) = (*whole.take_ups.get(first_at)?, *whole.take_ups.get(second_at)?);
    let gaps = (gap(&whole, &first)?, gap(&whole, &second)?);
    let mut way = vec![first.apex];
    for point in through.iter().copied().chain([second.apex]) {
        if way.last().is_some_and(|last| last.distance(point) > ON_OUTLINE) {
            way.push(point);
        }
    }
    let splitting = Splitting { work, alteration, whole: &whole, way: &way };
    if !splitting.stays_inside((&first, &second), span) {
        return None;
    }
    let after = splitting.way(first.wedge.sides[1], second.wedge.sides[0], radius)?;
    let before = splitting.way(first.wedge.sides[0], second.wedge.sides[1], radius)?;
    let old = ring(&whole);
    let parts = cut_between(&old, gaps.0, gaps.1, &after, &before);
    // Walked anticlockwise, what comes after the first dart lies to the right of the way from it to the second.
    let [after, before] = parts;
    let (of_left, of_right) = if is_anticlockwise(&old) { (before, after) } else { (after, before) };
    let darts = [first.name, second.name];
    let make = |made: &crate::garment::MadePiece, parts: &[CutEdge]| {
        let drawn = named(work, alteration, made, |naming| {
            let mut rest = whole.clone();
            rest.take_ups.retain(|one| !darts.contains(&one.name));
            let round: Vec<Path> = parts.iter().map(|part| part.path.clone()).collect();
            let cut: Vec<Path> = parts
                .iter()
                .filter(|part| part.origin == Origin::Cut)
                .map(|part| part.path.clone())
                .collect();
            let off = |point: Point| off(&round, &cut, point);
            let line = |line: &Path, now: &[Path]| longest_inside(line, now);
            let mut drawn = side(&rest, parts, &Lying { off: &off, line: &line }, id, naming)?;
            drawn.missing.edges.extend(darts.iter().map(|&dart| (dart, Why::By(id))));
            Some(drawn)
        })?;
        let mut drawn = half(work, alteration, &whole, drawn)?;
        splitting.notch(&mut drawn, made.cut_edge?);
        let outline = ring(&drawn);
        let region = Region::of(&outline);
        crate::resolve::take_ups::is_sound(work, &drawn, &region, drawn.cut, Some(alteration))
            .then(|| Arc::new(drawn))
    };
    let (left, right) = (make(left, &of_left), make(right, &of_right));
    Some([left?, right?])
}

/// How far a point lies inside a part: on its new edge nothing, outside less.
fn off(round: &[Path], cut: &[Path], point: Point) -> f64 {
    let near =
        |paths: &[Path]| paths.iter().map(|path| path.nearest(point).distance).fold(f64::INFINITY, f64::min);
    if near(cut) <= SAME_POINT {
        return 0.0;
    }
    let away = near(round);
    if away <= ON_OUTLINE || Region::of(round).winding(point) != 0 { away.max(SAME_POINT) } else { -away }
}

/// The longest stretch of a line inside an outline; none where nothing of it is.
fn longest_inside(line: &Path, round: &[Path]) -> Option<Path> {
    let corners: Vec<Point> =
        round.iter().flat_map(|edge| edge.flatten(ON_OUTLINE).into_iter().skip(1)).collect();
    let inside = crate::shape::taken::inside(line, &corners);
    let mut joined: Vec<(f64, f64)> = Vec::new();
    for (from, to) in inside {
        match joined.last_mut() {
            Some(last) if from - last.1 <= ON_OUTLINE => last.1 = to,
            _ => joined.push((from, to)),
        }
    }
    let longest = joined.into_iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))?;
    (longest.1 - longest.0 > ON_OUTLINE).then(|| line.part(longest.0, longest.1))
}

struct Splitting<'s, 'g> {
    work: &'s Work<'g>,
    alteration: &'s Alteration,
    whole: &'s DrawnPiece,
    /// From the place that the first dart is directed to, to that of the second.
    way: &'s [Point],
}

impl Splitting<'_, '_> {
    /// Whether the way lies inside the piece and goes through no other dart; reported if not.
    fn stays_inside(&self, darts: (&DrawnTakeUp, &DrawnTakeUp), span: Span) -> bool {
        let (work, whole) = (self.work, self.whole);
        let old = ring(whole);
        let title = work.title(whole.piece);
        let ends: Vec<(Point, Point)> =
            self.way.windows(2).filter_map(|two| Some((*two.first()?, *two.last()?))).collect();
        let outside = self.way.iter().find(|&&point| !contains_strictly(&old, point));
        let crossing = ends.iter().find_map(|&(from, to)| {
            let hits = meet_segment(from, to, &old);
            hits.into_iter()
                .find(|hit| hit.point.distance(from) > AT_CORNER && hit.point.distance(to) > AT_CORNER)
        });
        if outside.is_some() || crossing.is_some() {
            work.mistake(1.0, title, || {
                let what = format!("the way of the split leaves {title} between the two darts");
                let message = Diagnostic::new(
                    &catalogue::DART_REACH,
                    self.alteration.span,
                    Title::new(what).in_sizes(),
                );
                let message = message.also(darts.0.said, "from here").also(darts.1.said, "to here");
                match crossing.and_then(|hit| whole.edges.get(hit.edge)) {
                    Some(edge) => {
                        let edge = work.garment.edge(edge.edge);
                        message.also(edge.span, format!("it meets {}", edge.name))
                    }
                    None => message,
                }
                .help("let it go through points inside the piece")
            });
            return false;
        }
        let torn = whole.take_ups.iter().filter(|one| one.name != darts.0.name && one.name != darts.1.name);
        let legs = [darts.0, darts.1].map(|dart| dart.wedge.sides.map(|side| (side, dart.apex)));
        let cuts: Vec<(Point, Point)> = ends.iter().copied().chain(legs.into_iter().flatten()).collect();
        for other in torn {
            let corners = other.corners();
            let next = corners.iter().cycle().skip(1);
            let sides: Vec<Path> = corners.iter().zip(next).map(|(a, b)| Path::straight(*a, *b)).collect();
            let through = cuts.iter().any(|&(from, to)| {
                let hits = meet_segment(from, to, &sides);
                // A dart that ends at the same point only touches the way.
                hits.iter()
                    .any(|hit| hit.point.distance(from) > AT_CORNER && hit.point.distance(to) > AT_CORNER)
            });
            if through {
                report_through(work, whole, other.name, span);
                return false;
            }
        }
        true
    }

    /// The new edge of one piece, from a side of the first dart to a side of the second; reported if its corners
    /// cannot be rounded so much.
    fn way(&self, from: Point, to: Point, radius: f64) -> Option<Path> {
        let corners: Vec<Point> = [from].into_iter().chain(self.way.iter().copied()).chain([to]).collect();
        let work = self.work;
        let most = match rounded(&corners, radius.max(0.0)) {
            Ok(path) if radius >= 0.0 => return Some(path),
            Ok(_) => 0.0,
            Err(most) => most,
        };
        let title = work.title(self.whole.piece);
        work.report(|size| {
            let (asked, most_of_it) = (work.amount(radius), work.amount(most));
            let what = match radius < 0.0 {
                true => format!("the corners of this split are rounded by {asked}, which is below 0"),
                false => {
                    format!("there is {most_of_it} for a corner to be taken off, and {asked} is asked for")
                }
            };
            let message = Diagnostic::new(
                &catalogue::ALTER_TOO_MUCH,
                self.alteration.span,
                Title::new(what).in_sizes(),
            )
            .help(match radius < 0.0 {
                true => "give 0 or more, or leave `rounded` out".to_owned(),
                false => format!("round it by less than {most_of_it}"),
            });
            Finding::new(size, radius - most, message).about(title).figure("there is", most_of_it)
        });
        None
    }

    /// Notches that are to meet: where the darts were directed to, and 5 cm beyond that on either side.
    fn notch(&self, drawn: &mut DrawnPiece, cut_edge: crate::garment::EdgeId) {
        let Some(edge) = drawn.edges.iter().find(|edge| edge.edge == cut_edge) else { return };
        let length = edge.path.length();
        let ends = [self.way.first(), self.way.last()].into_iter().flatten();
        let at: Vec<f64> = ends.map(|point| edge.path.nearest(*point).at).collect();
        let (low, high) =
            (at.iter().copied().fold(f64::INFINITY, f64::min), at.iter().copied().fold(0.0, f64::max));
        let mut places = vec![low - NOTCHES, low, high, high + NOTCHES];
        places.dedup_by(|one, other| (*one - *other).abs() <= AT_CORNER);
        let declared = self.work.garment.piece(drawn.piece).drawing.notches.len() + drawn.notches.len();
        let made = places.into_iter().filter(|along| (AT_CORNER..length - AT_CORNER).contains(along));
        let path = edge.path.clone();
        let made = made.enumerate().map(|(nth, along)| DrawnNotch {
            edge: cut_edge,
            along,
            at: path.point_at_length(along),
            double: false,
            declared: declared + nth,
        });
        drawn.notches.extend(made.collect::<Vec<DrawnNotch>>());
    }
}

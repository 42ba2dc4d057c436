//! Whether an outline can be cut at all.

use crate::garment::{Alteration, PointId};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::report::{DisplayUnit, INCH};
use crate::resolve::drawn_piece::{CornerName, DrawnPiece};
use crate::resolve::sketch::{corners_of, ring};
use crate::resolve::work::Work;
use crate::resolve::work::plain;
use crate::shape::Point;
use crate::shape::outline::{self, Collapse, Region};
use crate::source::Span;

/// Whether the outline, made ready, can be cut; reports where it has collapsed or crosses itself, unless it did
/// before it was altered, or `crossed_before` finds that what it is made of did. While an amount is
/// only tried, crossings are not looked for.
pub(in crate::resolve) fn is_sound(
    work: &Work,
    drawn: &DrawnPiece,
    region: &Region,
    span: Span,
    altered: Option<(&DrawnPiece, &Alteration)>,
    crossed_before: &dyn Fn() -> bool,
) -> bool {
    let now = region.ring();
    let title = work.title(drawn.piece);
    let by = match altered {
        Some((_, Alteration { kind: Some(kind), .. })) => format!(" after {}", kind.doing("it")),
        Some((_, Alteration { kind: None, .. })) | None => String::new(),
    };
    let name =
        |edge: usize| drawn.edges.get(edge).map_or("", |edge| work.garment.edge(edge.edge).name.as_ref());
    // Lobes that go round opposite ways cancel out, like those of a bow-tie: it crosses itself.
    let collapse = outline::collapse(now).filter(|collapse| match collapse {
        Collapse::NoArea { .. } => work.is_muted() || !outline::has_lobes(now),
        Collapse::EdgeWithoutLength { .. } => true,
    });
    if let Some(collapse) = collapse {
        work.mistake(1.0, title, || {
            let message = match collapse {
                Collapse::EdgeWithoutLength { edge } => {
                    let title = Title::new(format!("{} of {title} is left with no length", name(edge)))
                        .in_sizes()
                        .then(&by);
                    without_length(work, drawn, edge, span, title)
                }
                Collapse::NoArea { .. } => Diagnostic::new(
                    &catalogue::OUTLINE_COLLAPSES,
                    span,
                    Title::new(format!("{title} is left with no cloth in it")).in_sizes().then(&by),
                )
                .help("its edges lie on one another: look at the corners"),
            };
            match drawn.edges.first() {
                Some(edge) if altered.is_some() => {
                    message.also(work.garment.edge(edge.edge).span, "the outline begins here")
                }
                _ => message,
            }
        });
        return false;
    }
    if work.is_muted() {
        return true;
    }
    let area = |drawn: &DrawnPiece| outline::signed_area(drawn.edges.iter().map(|edge| &edge.path));
    if let Some((before, _)) = altered
        && area(before) * outline::signed_area(now) < 0.0
    {
        work.mistake(1.0, title, || {
            let title = Title::new(format!("{title} is turned inside out")).in_sizes().then(&by);
            Diagnostic::new(&catalogue::OUTLINE_COLLAPSES, span, title).help(match altered {
                Some((_, Alteration { path: Some(_), .. })) => {
                    "let the edge stay on its own side of the piece: look at the points that it goes through"
                }
                _ => "there is not so much of it: use a smaller amount",
            })
        });
        return false;
    }
    let is_changed = |at: usize| {
        let was =
            altered.and_then(|(before, _)| before.edges.get(at).filter(|_| before.edges.len() == now.len()));
        was.is_none_or(|was| now.get(at) != Some(&was.path))
    };
    if let Some(crossing) = region.crossing_of(is_changed)
        && altered.is_none_or(|(before, _)| outline::crossings(&ring(before)).is_none())
        && !crossed_before()
    {
        work.mistake(1.0, title, || {
            let (first, second) = (name(crossing.first), name(crossing.second));
            let where_it_is = place(work, crossing.point);
            let what = match crossing.first == crossing.second {
                true => format!("{first} of {title} crosses itself"),
                false => format!("{first} and {second} of {title} cross"),
            };
            let kind = if altered.is_some() { &catalogue::ALTER_LOST } else { &catalogue::OUTLINE_CROSSES };
            let mut message =
                Diagnostic::new(kind, span, Title::new(what).in_sizes().then(format!("{by}, at {where_it_is}")));
            let both = [crossing.first, crossing.second];
            for edge in both.iter().take(if crossing.first == crossing.second { 1 } else { 2 }) {
                if let Some(edge) = drawn.edges.get(*edge) {
                    let known = work.garment.edge(edge.edge);
                    message = message.also(known.span, format!("{} crosses", known.name));
                }
            }
            message.help("a piece can be cut only if its outline never crosses itself: move a corner, or ease the curve")
        });
        return false;
    }
    true
}

/// A place in the file's unit, as it would be written.
pub(in crate::resolve) fn place(work: &Work, place: Point) -> String {
    format!("({}, {})", number(work, place.x), number(work, place.y))
}

/// A coordinate in the file's unit, without the unit.
fn number(work: &Work, millimetres: f64) -> String {
    let unit = match work.garment.unit {
        DisplayUnit::Millimetre => 1.0,
        DisplayUnit::Centimetre => 10.0,
        DisplayUnit::Inch => INCH,
    };
    plain(libm::round(10.0 * millimetres / unit) / 10.0)
}

/// Of more marks than this an outline is made ready to be asked.
const FEW_MARKS: usize = 3;

/// Reports marks that do not lie on their piece. `place` says where a mark is reported to be; marks
/// for which it has none are passed over.
pub(in crate::resolve) fn marks_inside(
    work: &Work,
    drawn: &DrawnPiece,
    region: &Region,
    place: impl Fn(PointId) -> Option<Span>,
) {
    let marks = drawn.spots.iter().filter(|spot| work.garment.point(spot.point).mark);
    for (at, mark) in marks.enumerate() {
        let is_inside = if at < FEW_MARKS { region.contains_one(mark.at) } else { region.contains(mark.at) };
        if is_inside {
            continue;
        }
        let Some(span) = place(mark.point) else { continue };
        let off =
            region.ring().iter().map(|edge| edge.nearest(mark.at).distance).fold(f64::INFINITY, f64::min);
        let name = &work.garment.point(mark.point).name;
        work.report(|size| {
            let far = work.amount(off);
            let title =
                Title::new(format!("{name} lies {far} outside {}", work.title(drawn.piece))).in_sizes();
            let message = Diagnostic::new(&catalogue::MARK_OUTSIDE, span, title)
                .help("a mark is drawn on the piece: move it in, or write `point` for a help point");
            Finding::new(size, off, message).about(name.as_ref()).figure("outside by", far)
        });
    }
}

/// An edge that has shrunk to a point: at its own words, where the span holds them, with its corners.
fn without_length(work: &Work, drawn: &DrawnPiece, at: usize, span: Span, title: Title) -> Diagnostic {
    let own = drawn.edges.get(at).map(|edge| work.garment.edge(edge.edge).span);
    let place = own.filter(|own| span.lo <= own.lo && own.hi <= span.hi).unwrap_or(span);
    let mut message = Diagnostic::new(&catalogue::OUTLINE_COLLAPSES, place, title);
    if place != span {
        let (start, end) = corners_of(drawn, at).unzip();
        for corner in [start, end].into_iter().flatten() {
            if let CornerName::Named(point) = corner {
                message = message.also(work.garment.point(point).span, "one of its corners");
            }
        }
    }
    message.help("its two corners fall on one point: move one of them, or leave the edge out")
}

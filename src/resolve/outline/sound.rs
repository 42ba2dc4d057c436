//! Whether an outline can be cut at all.

use crate::garment::{Alteration, PointId};
use crate::report::DisplayUnit;
use crate::report::{Diagnostic, Finding};
use crate::resolve::model::DrawnPiece;
use crate::resolve::sketch::ring;
use crate::resolve::work::Work;
use crate::resolve::work::plain;
use crate::shape::outline::{self, Collapse};
use crate::source::Span;

/// Whether the outline has not collapsed; tells that, and whether it crosses itself, unless it did
/// before it was altered. While an amount is only tried, crossings are not looked for.
pub(in crate::resolve) fn is_sound(
    work: &Work,
    drawn: &DrawnPiece,
    span: Span,
    altered: Option<(&DrawnPiece, &Alteration)>,
) -> bool {
    let now = ring(drawn);
    let title = work.title(drawn.piece);
    let by = match altered {
        Some((_, alteration)) => format!(" by {}", gerund(alteration.node.word())),
        None => String::new(),
    };
    let name =
        |edge: usize| drawn.edges.get(edge).map_or("", |edge| work.garment.edge(edge.edge).name.as_ref());
    if let Some(collapse) = outline::collapse(&now) {
        work.mistake(1.0, title, || {
            let message = match collapse {
                Collapse::EdgeWithoutLength { edge } => Diagnostic::mistake(
                    "outline/collapses",
                    span,
                    format!("{} of {title} is left with no length{by} {{sizes}}", name(edge)),
                )
                .help("its two corners fall on one point: move one of them, or leave the edge out"),
                Collapse::NoArea { .. } => Diagnostic::mistake(
                    "outline/collapses",
                    span,
                    format!("{title} is left with no cloth in it{by} {{sizes}}"),
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
    let before = altered.map(|(before, _)| ring(before));
    if let Some(before) = &before
        && outline::turned_inside_out(before, &now)
    {
        work.mistake(1.0, title, || {
            let title = format!("{title} is turned inside out{by} {{sizes}}");
            Diagnostic::mistake("outline/collapses", span, title)
                .help("there is not so much of it: use a smaller amount")
        });
        return false;
    }
    if let Some(crossing) = outline::crossings(&now)
        && before.is_none_or(|before| outline::crossings(&before).is_none())
    {
        work.mistake(1.0, title, || {
            let (first, second) = (name(crossing.first), name(crossing.second));
            let where_it_is = format!(
                "({}, {})",
                number(work, crossing.point.x),
                number(work, crossing.point.y)
            );
            let what = match crossing.first == crossing.second {
                true => format!("{first} of {title} crosses itself"),
                false => format!("{first} and {second} of {title} cross"),
            };
            let slug = if altered.is_some() { "alter/lost" } else { "outline/crosses" };
            let mut message =
                Diagnostic::mistake(slug, span, format!("{what}{by} {{sizes}}, at {where_it_is}"));
            for edge in [crossing.first, crossing.second] {
                if let Some(edge) = drawn.edges.get(edge) {
                    let known = work.garment.edge(edge.edge);
                    if message.labels.iter().all(|label| label.span != known.span) {
                        message = message.also(known.span, format!("{} crosses", known.name));
                    }
                }
            }
            message.help("a piece can be cut only if its outline never crosses itself: move a corner, or ease the curve")
        });
    }
    true
}

/// A coordinate in the file's unit, without the unit.
fn number(work: &Work, millimetres: f64) -> String {
    let unit = match work.garment.unit {
        DisplayUnit::Millimetre => 1.0,
        DisplayUnit::Centimetre => 10.0,
        DisplayUnit::Inch => 25.4,
    };
    plain(libm::round(10.0 * millimetres / unit) / 10.0)
}

/// What was done, of an alteration's word.
fn gerund(word: &str) -> &str {
    match word {
        "lengthen" => "lengthening it",
        "shorten" => "shortening it",
        "cut off" => "cutting it off",
        "extend" => "extending it",
        "trim" => "trimming it",
        "split" => "splitting",
        "join" => "joining",
        "redraw" => "redrawing",
        "flare" => "flaring it",
        "spread" => "spreading it",
        _ => "trimming it for the zip",
    }
}

/// Tells of marks that do not lie on their piece. `place` says where a mark is told to be; marks
/// for which it has none are passed over.
pub(in crate::resolve) fn marks_inside(
    work: &Work,
    drawn: &DrawnPiece,
    place: impl Fn(PointId) -> Option<Span>,
) {
    let marks = drawn.spots.iter().filter(|spot| work.garment.point(spot.point).mark);
    let mut now = None;
    for mark in marks {
        let Some(span) = place(mark.point) else { continue };
        let now = now.get_or_insert_with(|| ring(drawn));
        if outline::contains(now, mark.at) {
            continue;
        }
        let off = now.iter().map(|edge| edge.nearest(mark.at).distance).fold(f64::INFINITY, f64::min);
        let name = &work.garment.point(mark.point).name;
        work.tell(|size| {
            let far = work.amount(off);
            let title = format!("{name} lies {far} outside {} {{sizes}}", work.title(drawn.piece));
            let message = Diagnostic::mistake("mark/outside", span, title)
                .help("a mark is drawn on the piece: move it in, or write `point` for a help point");
            Finding::new(size, off, message).about(name.as_ref()).figure("outside by", far)
        });
    }
}

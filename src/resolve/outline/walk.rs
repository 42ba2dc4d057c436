//! A walk round the piece, one named edge at a time.

use super::sound;
use crate::garment::{Direction, EdgeId, EdgePath, Expression, PieceId, WalkEdge};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::{CornerName, DrawnEdge, DrawnPiece};
use crate::resolve::sketch::{self, Sketch};
use crate::resolve::work::Work;
use crate::shape::arc::{ArcError, Turning, arc_about};
use crate::shape::curve::{CurveError, smooth_curve, turns_back};
use crate::shape::path::Path;
use crate::shape::tolerance::SAME_POINT;
use crate::shape::{Point, Vec2};
use crate::source::Span;

/// The walk's edges end to end.
pub(super) fn close(piece: PieceId, edges: &[WalkEdge], sketch: &mut Sketch) -> Option<DrawnPiece> {
    let drawn: Option<Vec<DrawnEdge>> = edges
        .iter()
        .map(|edge| {
            let path = sketch.take(edge.edge)?;
            Some(DrawnEdge {
                edge: edge.edge,
                path,
                corner: CornerName::Named(edge.from),
                touched: Vec::new(),
            })
        })
        .collect();
    Some(sketch::bare(piece, drawn.filter(|edges| !edges.is_empty())?))
}

/// Finds the way of another edge.
pub(in crate::resolve) type Known<'k> = &'k dyn Fn(EdgeId) -> Option<Path>;

/// The way of one edge between its corners. `known` finds other edges' ways, for directions.
pub(in crate::resolve) fn edge_path(
    work: &Work,
    path: &EdgePath,
    from: Point,
    to: Point,
    span: Span,
    known: Known,
    sketch: Option<&Sketch>,
) -> Option<Path> {
    match path {
        EdgePath::Straight => Some(Path::straight(from, to)),
        EdgePath::Curve { leaving, arriving, through, span } => {
            let ends = Ends { from, to, span: *span, known, sketch };
            let leaving = ends.heading(work, leaving.as_ref(), End::Leaving);
            let arriving = ends.heading(work, arriving.as_ref(), End::Arriving);
            let passed: Vec<Option<Point>> = through.iter().map(|place| work.place(place, sketch)).collect();
            let mut points = vec![from];
            points.extend(passed.into_iter().collect::<Option<Vec<Point>>>()?);
            points.push(to);
            let (leaving, arriving) = (leaving?, arriving?);
            smooth_curve(&points, leaving, arriving)
                .map_err(|error| report_curve(work, error, *span, through))
                .ok()
        }
        EdgePath::Handles { first, second, span } => {
            let (first, second) = (work.place(first, sketch), work.place(second, sketch));
            let path = Path::cubic(from, first?, second?, to);
            match turns_back(&path) {
                Some(place) => report_cusp(work, *span, place),
                None => return Some(path),
            }
            None
        }
        EdgePath::Arc { about, clockwise, .. } => {
            let centre = work.place(about, sketch)?;
            let turning = if *clockwise { Turning::Clockwise } else { Turning::Anticlockwise };
            arc_about(centre, from, to, turning).map_err(|error| report_arc(work, error, span, about)).ok()
        }
    }
}

#[derive(Clone, Copy, PartialEq)]
enum End {
    Leaving,
    Arriving,
}

/// A curve's ends, and where to look for what its directions name.
struct Ends<'k> {
    from: Point,
    to: Point,
    span: Span,
    known: Known<'k>,
    sketch: Option<&'k Sketch>,
}

impl Ends<'_> {
    /// The heading at one end: none within where nothing is said, none without where it is unknown.
    fn heading(&self, work: &Work, said: Option<&Direction>, end: End) -> Option<Option<Vec2>> {
        let Some(said) = said else { return Some(None) };
        let heading = match said {
            Direction::Angle(angle) => {
                let (sine, cosine) = libm::sincos(work.scalar(angle, self.sketch)?);
                Some(Vec2::new(cosine, sine))
            }
            Direction::SquareTo(edge, _) => {
                self.tangent(*edge, end)?.map(|way| self.onward(Vec2::new(-way.y, way.x)))
            }
            Direction::Along(edge, _) => self.tangent(*edge, end)?.map(|way| self.onward(way)),
            Direction::Toward(place) => {
                let place = work.place(place, self.sketch)?;
                let way = place - if end == End::Leaving { self.from } else { self.to };
                Some(way).filter(|way| way.hypot() > SAME_POINT)
            }
        };
        if heading.is_none() {
            let at = match said {
                Direction::SquareTo(_, span) | Direction::Along(_, span) => *span,
                Direction::Angle(place) | Direction::Toward(place) => place.span,
            };
            work.mistake(1.0, "", || {
                Diagnostic::new(
                    &catalogue::CURVE_NO_DIRECTION,
                    at,
                    Title::new("this gives the curve no direction").in_sizes(),
                )
                .label("no direction")
                .also(self.span, "the curve")
                .help(match said {
                    Direction::Toward(_) => {
                        "the point lies on the end of the curve: name another, or give an angle"
                    }
                    _ => "that edge has no length there: give an angle, or `toward` a point",
                })
            });
            return None;
        }
        Some(heading)
    }

    /// The other edge's direction at the corner it shares with this end, or else at its nearer end.
    fn tangent(&self, edge: EdgeId, end: End) -> Option<Option<Vec2>> {
        let other = (self.known)(edge)?;
        let corner = if end == End::Leaving { self.from } else { self.to };
        let at_start = corner.distance(other.start()) <= corner.distance(other.end());
        Some(if at_start { other.tangent_at_start() } else { other.tangent_at_end() })
    }

    /// Of the two ways the one that leads more towards the curve's other end.
    fn onward(&self, way: Vec2) -> Vec2 {
        if way.dot(self.to - self.from) < 0.0 { -way } else { way }
    }
}

fn report_curve(work: &Work, error: CurveError, span: Span, through: &[Expression]) {
    work.mistake(1.0, "", || match error {
        CurveError::SamePoint { index } => {
            let message = Diagnostic::new(
                &catalogue::OUTLINE_COLLAPSES,
                span,
                Title::new("two points of this curve are one and the same").in_sizes(),
            );
            let place = through.get(index).or(through.last());
            let message = match place {
                Some(place) => message.also(place.span, "at the point before it, or at the end"),
                None => message.label("it starts and ends at the same point"),
            };
            message.help("leave one of them out, or move it")
        }
        CurveError::NoDirection => Diagnostic::new(
            &catalogue::CURVE_NO_DIRECTION,
            span,
            Title::new("a direction of this curve leads nowhere").in_sizes(),
        )
        .help("give an angle, or `toward` another point"),
        CurveError::TooFewPoints { .. } | CurveError::NotFinite => Diagnostic::new(
            &catalogue::VALUE_NOT_FINITE,
            span,
            Title::new("this curve cannot be drawn").in_sizes(),
        )
        .help("a number in it is too large"),
    });
}

fn report_cusp(work: &Work, span: Span, place: Point) {
    work.mistake(1.0, "", || {
        let title = Title::new("the handles turn this edge back on itself")
            .in_sizes()
            .then(format!(", at {}", sound::place(work, place)));
        Diagnostic::new(&catalogue::CURVE_CUSP, span, title)
            .label("it comes to a point and goes back")
            .help("shorten the handles, or make two edges of it with a named corner where it turns")
    });
}

fn report_arc(work: &Work, error: ArcError, span: Span, about: &Expression) {
    let kind = &catalogue::ARC_RADII;
    match error {
        ArcError::RadiiDiffer { from_radius, to_radius } => work.report(|size| {
            let (from, to) = (work.amount(from_radius), work.amount(to_radius));
            let title = Title::new("the ends of this arc are not equally far from its centre")
                .in_sizes()
                .then(format!(": {from} and {to}"));
            let message = Diagnostic::new(kind, span, title)
                .label(format!("it starts {from} from the centre and ends {to} from it"))
                .also(about.span, "the centre")
                .help("move a corner or the centre until both are as far, or draw a `curve`");
            crate::report::Finding::new(size, (from_radius - to_radius).abs(), message)
                .figure("radius at its start", from)
                .figure("radius at its end", to)
        }),
        ArcError::FullCircle { radius } => work.mistake(radius, "", || {
            Diagnostic::new(kind, span, Title::new("this arc starts and ends at the same corner").in_sizes())
                .help("a full circle takes two arcs, with a corner where they meet")
        }),
        ArcError::NoRadius => work.mistake(1.0, "", || {
            Diagnostic::new(kind, span, Title::new("this arc's centre is at one of its ends").in_sizes())
                .also(about.span, "the centre")
                .help("move the centre away from both corners")
        }),
        ArcError::NotFinite => work.mistake(1.0, "", || {
            Diagnostic::new(
                &catalogue::VALUE_NOT_FINITE,
                span,
                Title::new("this arc cannot be drawn").in_sizes(),
            )
            .help("a number in it is too large")
        }),
    }
}

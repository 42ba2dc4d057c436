//! A strip of another piece along some of its edges: a facing.

use super::carried::{own_corner, own_edge, own_point};
use super::copy::{base, carried_notches, carry_missing, report_nameless};
use super::shut_strip::with_edges_shut;
use super::strip_runs::{laid_runs, lies_inside};
use crate::garment::{EdgeId, Expression, PaperUse, PieceId, StripRun};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::{CornerName, DrawnEdge, DrawnPiece, DrawnSpot};
use crate::resolve::sketch::ring;
use crate::resolve::sketch::{self, Sketch};
use crate::resolve::work::Work;
use crate::shape::offset::{InnerRun, OffsetError, inner_run};
use crate::shape::outline::{contains, contains_strictly};
use crate::shape::path::Path;
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::source::Span;
use std::borrow::Cow;

/// The words of a strip, and of a rest.
pub(super) struct Given<'g> {
    pub(super) of: PaperUse,
    pub(super) along: &'g [EdgeId],
    pub(super) runs: &'g [StripRun],
    pub(super) width: &'g Expression,
    pub(super) inner: EdgeId,
    pub(super) span: Span,
}

/// Where a strip lies on the piece it is taken from.
pub(super) struct Strip<'w> {
    pub(super) from: Cow<'w, DrawnPiece>,
    /// The first of its edges.
    pub(super) first: usize,
    /// How many.
    pub(super) count: usize,
    pub(super) inner: InnerRun,
}

/// An edge before it has its own name: what it is a part of, its way, the corner it starts at.
pub(super) struct Part {
    pub(super) of: Option<EdgeId>,
    pub(super) path: Path,
    pub(super) corner: Option<CornerName>,
}

/// Finds the strip on the other piece, with what is folded away from its edges shut if that is asked for; reported if
/// there is none.
pub(super) fn lay_out<'w>(
    work: &'w Work,
    sketch: &Sketch,
    given: &Given,
    is_shut: bool,
) -> Option<Strip<'w>> {
    let width = work.scalar(given.width, Some(sketch));
    let from: &DrawnPiece = base(work, &given.of)?;
    let width = width?;
    let in_it = |edge: EdgeId| given.along.iter().any(|&along| work.garment.is_run_of(edge, along));
    for &along in given.along {
        if !from.edges.iter().any(|edge| work.garment.is_run_of(edge.edge, along)) {
            if !work.edge_is_reported(from, along) {
                report_broken(
                    work,
                    given,
                    from,
                    &format!("no longer has an edge {}", work.garment.edge(along).name),
                );
            }
            return None;
        }
    }
    let on_it = from.take_ups.iter().find(|placed| placed.mouth.is_some_and(|mouth| in_it(mouth.edge)));
    if let Some(placed) = on_it.filter(|_| !is_shut) {
        report_dart(work, given, from, work.garment.edge(placed.name));
        return None;
    }
    let count = from.edges.len();
    let taken: Vec<bool> = from.edges.iter().map(|edge| in_it(edge.edge)).collect();
    let is = |at: usize| taken.get(at % count).copied().unwrap_or(false);
    let starts: Vec<usize> = (0..count).filter(|&at| is(at) && !is(at + count - 1)).collect();
    let &[first] = starts.as_slice() else {
        let why =
            if starts.is_empty() { "is taken all the way round" } else { "has other edges between these" };
        report_broken(work, given, from, why);
        return None;
    };
    let run = (0..count).take_while(|step| is(first + step)).count();
    if width <= 0.0 {
        work.mistake(-width, "", || {
            let title = Title::new(format!("this strip is {} wide", work.amount(width))).in_sizes();
            Diagnostic::new(&catalogue::OUTLINE_COLLAPSES, given.width.span, title)
                .help("a strip must be wider than 0")
        });
        return None;
    }
    let runs = laid_runs(work, sketch, given, from, (first, run))?;
    let (from, first) = match on_it {
        Some(placed) => match with_edges_shut(from, first, run) {
            Some(shut) => (Cow::Owned(shut), 1),
            None => {
                report_dart(work, given, from, work.garment.edge(placed.name));
                return None;
            }
        },
        None => (Cow::Borrowed(from), first),
    };
    let whole = from.clone();
    let (from, first) = match runs.is_whole() {
        true => (from, first),
        false => (Cow::Owned(runs.ended(&from, (first, run), width, on_it.is_some())?), runs.first()),
    };
    match inner_run(&ring(&from), first, run, width) {
        Ok(inner) => {
            let strip = Strip { from, first, count: run, inner };
            // Where it ends on edges beside it, it was looked whether it meets them.
            let is_checked = runs.is_whole() || on_it.is_some();
            let is_inside = is_checked || lies_inside(work, given, &whole, &strip.inner_path()?, width);
            is_inside.then_some(strip)
        }
        Err(error) => {
            report_no_inner(work, given, &from, width, error);
            None
        }
    }
}

/// Whether the strip goes over a dart, or a part of one; reported if so.
pub(super) fn goes_over_dart(work: &Work, given: &Given, from: &DrawnPiece, strip: &[Path]) -> bool {
    let places = 1..DART_PLACES;
    let over = from.take_ups.iter().find(|placed| {
        placed.legs().iter().any(|(side, end)| {
            places
                .clone()
                .any(|at| contains_strictly(strip, side.lerp(*end, f64::from(at) / f64::from(DART_PLACES))))
        })
    });
    if let Some(placed) = over {
        report_dart(work, given, from, work.garment.edge(placed.name));
    }
    over.is_some()
}

/// In so many steps the legs of a dart are looked at.
const DART_PLACES: u32 = 64;

fn report_dart(work: &Work, given: &Given, from: &DrawnPiece, dart: &crate::garment::EdgeName) {
    work.mistake(1.0, "", || {
        let title = work.title(from.piece);
        let title = format!("a strip of {title} goes over {}, where the cloth is folded away", dart.name);
        Diagnostic::new(&catalogue::DART_STRIP, given.span, title)
            .also(dart.span, "declared here")
            .help("make it narrower, or draw the facing by itself, as the cloth lies with the dart shut")
    });
}

pub(super) fn report_broken(work: &Work, given: &Given, from: &DrawnPiece, why: &str) {
    work.mistake(1.0, "", || {
        let title = Title::new(format!(
            "a strip cannot be taken along these edges in one: {} {why}",
            work.title(from.piece)
        ))
        .in_sizes();
        let mut message = Diagnostic::new(&catalogue::STRIP_BROKEN, given.span, title);
        for &along in given.along {
            let known = work.garment.edge(along);
            message = message.also(known.span, known.name.to_string());
        }
        message.help("name edges that follow one another round the piece, and leave at least one out")
    });
}

fn report_no_inner(work: &Work, given: &Given, from: &DrawnPiece, width: f64, error: OffsetError) {
    let name =
        |edge: usize| from.edges.get(edge).map_or("", |edge| work.garment.edge(edge.edge).name.as_ref());
    let is_along = |edge: usize| {
        let edge = from.edges.get(edge);
        edge.is_some_and(|edge| given.along.iter().any(|&along| work.garment.is_run_of(edge.edge, along)))
    };
    work.mistake(width, "", || {
        let wide = work.amount(width);
        let (title, help) = match error {
            OffsetError::TooTight { radius, .. } => (
                Title::new(format!("a strip {wide} wide does not go round the curve"))
                    .in_sizes()
                    .then(format!(", whose radius is {}", work.amount(radius))),
                format!("make it narrower than {}, or ease the curve", work.amount(radius)),
            ),
            OffsetError::MissesNeighbour { edge, neighbour } if is_along(neighbour) => (
                Title::new(format!(
                    "a strip {wide} wide does not go round from {} to {}",
                    name(edge),
                    name(neighbour)
                ))
                .in_sizes(),
                "make it narrower, so that it can turn at every corner on its way".to_owned(),
            ),
            OffsetError::MissesNeighbour { neighbour, .. } => (
                Title::new(format!(
                    "a strip {wide} wide does not end on {} of {}",
                    name(neighbour),
                    work.title(from.piece)
                ))
                .in_sizes(),
                "make it narrower, or take that edge into the strip".to_owned(),
            ),
            OffsetError::NothingLeft { edge } => (
                Title::new(format!("a strip {wide} wide leaves nothing of {} inside it", name(edge)))
                    .in_sizes(),
                "make it narrower".to_owned(),
            ),
            OffsetError::NoSuchEdge | OffsetError::NotFinite | OffsetError::Ring(_) => {
                (Title::new("this strip cannot be drawn").in_sizes(), "make it narrower".to_owned())
            }
        };
        Diagnostic::new(&catalogue::STRIP_BROKEN, given.span, title)
            .also(given.width.span, "this wide")
            .help(help)
    });
}

impl Strip<'_> {
    /// The edge at a place counted from the strip's first, round the ring.
    pub(super) fn edge(&self, step: usize) -> Option<&DrawnEdge> {
        self.from.edges.get((self.first + step) % self.from.edges.len())
    }

    /// The edge before the strip.
    pub(super) fn previous(&self) -> Option<&DrawnEdge> {
        self.edge(self.from.edges.len() - 1)
    }

    /// The parallels as one way, in the direction of the ring.
    pub(super) fn inner_path(&self) -> Option<Path> {
        self.inner.parallels.iter().cloned().reduce(|before, next| before.then(&next))
    }
}

/// The strip as a piece: the ends of the edges beside it, its edges, and the inner edge.
pub(super) fn strip(work: &Work, piece: PieceId, sketch: &Sketch, given: &Given) -> Option<DrawnPiece> {
    let laid = lay_out(work, sketch, given, true)?;
    let previous = laid.previous()?;
    let end = previous.path.length();
    let mut parts = Vec::new();
    parts.push(Part {
        of: Some(previous.edge),
        path: previous.path.part(laid.inner.on_previous, end),
        corner: None,
    });
    for step in 0..laid.count {
        let edge = laid.edge(step)?;
        parts.push(Part { of: Some(edge.edge), path: edge.path.clone(), corner: Some(edge.corner) });
    }
    let next = laid.edge(laid.count)?;
    parts.push(Part {
        of: Some(next.edge),
        path: next.path.part(0.0, laid.inner.on_next),
        corner: Some(next.corner),
    });
    parts.push(Part { of: None, path: laid.inner_path()?.reversed(), corner: None });
    let drawn = assemble(work, piece, &laid.from, given, parts)?;
    (!goes_over_dart(work, given, &laid.from, &ring(&drawn))).then_some(drawn)
}

/// Gives parts their own names, and carries over points, marks and notches that lie on them.
pub(super) fn assemble(
    work: &Work,
    piece: PieceId,
    from: &DrawnPiece,
    given: &Given,
    mut parts: Vec<Part>,
) -> Option<DrawnPiece> {
    parts.retain(|part| part.path.length() > SAME_POINT);
    let garment = work.garment;
    let ids: Option<Vec<EdgeId>> = parts
        .iter()
        .map(|part| match part.of {
            // The end of a run is the strip's own.
            Some(edge) if garment.edge(edge).piece == piece => Some(edge),
            Some(edge) => own_edge(garment, piece, edge),
            None => Some(given.inner),
        })
        .collect();
    let Some(ids) = ids else {
        report_nameless(work, piece, given.span);
        return None;
    };
    let before = ids.iter().cycle().skip(ids.len().saturating_sub(1));
    let edges = parts.into_iter().zip(ids.iter().zip(before)).map(|(part, (&edge, &before))| {
        let corner = match part.corner {
            Some(CornerName::Named(own)) if garment.point(own).piece == piece => CornerName::Named(own),
            Some(corner) => own_corner(garment, piece, corner, before, edge),
            None => CornerName::Between(before, edge),
        };
        DrawnEdge { edge, path: part.path, corner, touched: Vec::new() }
    });
    let mut drawn = sketch::bare(piece, edges.collect());
    let now = ring(&drawn);
    let spots = from.spots.iter().filter(|spot| contains(&now, spot.at));
    drawn.spots = spots
        .filter_map(|spot| Some(DrawnSpot { point: own_point(garment, piece, spot.point)?, at: spot.at }))
        .collect();
    let mut notches = carried_notches(work, piece, from);
    notches.retain_mut(|notch| {
        let Some(edge) = drawn.edges.iter().find(|edge| edge.edge == notch.edge) else { return false };
        let nearest = edge.path.nearest(notch.at);
        notch.along = nearest.at;
        nearest.distance <= ON_OUTLINE
    });
    drawn.notches = notches;
    carry_missing(work, piece, from, &mut drawn);
    Some(drawn)
}

//! What one figure does in many places is told in one of them, which says that there are more.

use crate::garment::{Expression, Garment, PaperUse, PieceId, Used, ValueId};
use crate::id_hash::{IdMap, IdSet};
use crate::report::catalogue::{self, Entry};
use crate::report::{Diagnostic, Label};
use crate::source::Span;
use indexmap::IndexMap;

/// From so many on, messages that one figure is behind are gathered.
const MANY: usize = 3;
/// What tells that an edge does not grow as its neighbours do.
const JUMPING: [&Entry; 2] = [&catalogue::SIZE_IRREGULAR, &catalogue::SIZE_LINES_CROSS];
/// So many places are shown.
const SHOWN: usize = 6;

/// Gathers them: of a cloth too narrow for most pieces, an allowance too wide in many places, sizes that jump.
pub(super) fn gathered(garment: &Garment, found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let found = of_cloth(garment, found);
    let found = of_allowance(found);
    let found = of_one_change(found);
    let found = of_stitch(garment, found);
    of_sizes(garment, found)
}

/// A width that hardly any piece fits into was mistyped.
fn of_cloth(garment: &Garment, found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let widths: Vec<Span> =
        garment.fabrics.iter().filter_map(|fabric| fabric.width.as_ref()).map(|width| width.span).collect();
    widths.into_iter().fold(found, |found, width| {
        let is_of = |one: &Diagnostic| {
            one.is(&catalogue::CLOTH_NARROW) && one.places().any(|place| place == width)
        };
        one_of(found, MANY, is_of, |first, others| {
            add_places(first, others, |other| other.labels.first().map(|label| label.span), "too wide as well");
            first.help = Some(format!(
                "look at the width of the cloth first, which {} more pieces do not fit into either: a figure or its unit may be \
                 wrong; else give them seams",
                others.len()
            ));
        })
    })
}

/// An allowance is said once, and too wide at many edges.
fn of_allowance(found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let mut places: Vec<Span> =
        found.iter().filter(|one| one.is(&catalogue::CUTTING_TOO_WIDE)).map(Diagnostic::span).collect();
    places.sort_unstable_by_key(|place| (place.lo, place.hi));
    places.dedup();
    places.into_iter().fold(found, |found, place| {
        let is_of = |one: &Diagnostic| one.is(&catalogue::CUTTING_TOO_WIDE) && one.span() == place;
        let found = one_of(found, 2, is_of, |first, others| {
            let help = first.help.take().unwrap_or_default();
            let more = match others.len() {
                1 => "so it is at one more edge".to_owned(),
                many => format!("so it is at {many} more edges"),
            };
            first.help = Some(format!("{help}; {more}"));
        });
        // That nobody lets out so much is said of the same figure.
        let is_told = |one: &Diagnostic| one.is(&catalogue::ALLOWANCE_WIDE) && one.span() == place;
        found.into_iter().filter(|one| !is_told(one)).collect()
    })
}

/// One change makes one side of several seams longer, or shorter, and one way out mends all of them.
fn of_one_change(found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let mut ways: Vec<(Span, Option<String>)> = found
        .iter()
        .filter(|one| one.is(&catalogue::ALTER_ONE_SIDE))
        .map(|one| (one.span(), one.help.clone()))
        .collect();
    ways.sort_unstable_by_key(|(place, _)| (place.lo, place.hi));
    ways.dedup();
    ways.into_iter().fold(found, |found, (place, help)| {
        let is_of =
            |one: &Diagnostic| one.is(&catalogue::ALTER_ONE_SIDE) && one.span() == place && one.help == help;
        one_of(found, 2, is_of, |first, others| {
            let seam = |other: &Diagnostic| other.labels.get(1).map(|label| label.span);
            add_places(first, others, seam, "nor does this match");
        })
    })
}

/// A stitch that the header says, and no seam can be sewn with.
fn of_stitch(garment: &Garment, found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let Some(place) = garment.stitch.as_ref().map(|stitch| stitch.span) else { return found };
    one_of(found, 2, |one| one.is(&catalogue::STITCH_UNFIT) && one.span() == place, |_, _| {})
}

/// An edge that jumps takes along all that are drawn to its piece, and their lines cross.
fn of_sizes(garment: &Garment, found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    if found.iter().filter(|one| one.is_any(&JUMPING)).count() < MANY {
        return found;
    }
    let mut drawn: IndexMap<Span, Vec<PieceId>> = IndexMap::new();
    for edge in &garment.edges {
        drawn.entry(edge.span).or_default().push(edge.piece);
    }
    let pieces = |one: &Diagnostic| drawn.get(&one.span()).map_or(&[][..], Vec::as_slice);
    let is_jump = |one: &Diagnostic| one.is(&catalogue::SIZE_IRREGULAR) && !pieces(one).is_empty();
    let drawing = Drawing::of(garment);
    let (mut found, mut told): (Vec<Diagnostic>, IdSet<Span>) = (found, IdSet::default());
    // Each time the first that is not told yet, with what is drawn to its piece.
    while let Some(first) = found.iter().find(|one| is_jump(one) && !told.contains(&one.span())) {
        told.insert(first.span());
        let (sizes, related) = (first.sizes.clone(), drawing.with(pieces(first)));
        let is_of = |one: &Diagnostic| {
            let jumps = is_jump(one) || one.is(&catalogue::SIZE_LINES_CROSS);
            jumps
                && one.sizes.iter().any(|size| sizes.contains(size))
                && pieces(one).iter().any(|piece| related.contains(piece))
        };
        found = one_of(found, MANY, is_of, |first, others| {
            add_places(first, others, |other| Some(other.span()), "jumps or crosses too");
            first.help = Some(format!(
                "look at the figures of the points that it goes to, of each size: {} more edges of the same piece, and of those \
                 that are drawn to it, jump or cross there; if it is meant so, nothing needs to change",
                others.len()
            ));
        });
    }
    found
}

/// What is drawn or worked out from what.
struct Drawing {
    users: IdMap<Source, Vec<Source>>,
}

impl Drawing {
    fn of(garment: &Garment) -> Drawing {
        let mut users: IdMap<Source, Vec<Source>> = IdMap::default();
        let mut add = |own: Source, expressions: &mut dyn Iterator<Item = &Expression>| {
            for used in expressions.flat_map(Expression::uses) {
                let piece = |of: &PaperUse| Source::Piece(garment.paper(of.paper).piece);
                let source = match used {
                    Used::Value(value) => Source::Value(value),
                    Used::Point(point) => piece(&point.paper),
                    Used::Edge(edge) => piece(&edge.paper),
                    Used::Paper(paper) => piece(paper),
                };
                users.entry(source).or_default().push(own);
            }
        };
        for (id, value) in ValueId::enumerate(&garment.values) {
            add(Source::Value(id), &mut value.kind.expressions().into_iter());
        }
        for (id, piece) in PieceId::enumerate(&garment.pieces) {
            add(Source::Piece(id), &mut piece.drawing.expressions());
        }
        for (id, _) in PieceId::enumerate(&garment.pieces) {
            for origin in garment.origins(id).into_iter().filter(|origin| *origin != id) {
                users.entry(Source::Piece(origin)).or_default().push(Source::Piece(id));
            }
        }
        Drawing { users }
    }

    /// Those pieces and all that are drawn to them: by their edges, points and sizes, by values that are measured on them, or as
    /// their copies.
    fn with(&self, pieces: &[PieceId]) -> IdSet<PieceId> {
        let mut open: Vec<Source> = pieces.iter().map(|&piece| Source::Piece(piece)).collect();
        let mut met: IdSet<Source> = open.iter().copied().collect();
        while let Some(source) = open.pop() {
            let next = self.users.get(&source).into_iter().flatten();
            open.extend(next.filter(|own| met.insert(**own)));
        }
        let piece = |source: Source| if let Source::Piece(piece) = source { Some(piece) } else { None };
        met.into_iter().filter_map(piece).collect()
    }
}

/// What something is drawn from.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
enum Source {
    Value(ValueId),
    Piece(PieceId),
}

/// Of messages that are alike so, at least so many, the first, told about the others.
fn one_of(
    found: Vec<Diagnostic>,
    least: usize,
    is_of: impl Fn(&Diagnostic) -> bool,
    tell: impl FnOnce(&mut Diagnostic, &[Diagnostic]),
) -> Vec<Diagnostic> {
    if found.iter().filter(|one| is_of(one)).count() < least {
        return found;
    }
    let Some(at) = found.iter().position(&is_of) else { return found };
    let (others, mut kept): (Vec<Diagnostic>, Vec<Diagnostic>) = {
        let mut nth = 0;
        found.into_iter().partition(|one| {
            nth += 1;
            nth != at + 1 && is_of(one)
        })
    };
    if let Some(first) = kept.get_mut(at) {
        tell(first, &others);
    }
    kept
}

fn add_places(
    first: &mut Diagnostic,
    others: &[Diagnostic],
    place: impl Fn(&Diagnostic) -> Option<Span>,
    words: &str,
) {
    for span in others.iter().filter_map(place) {
        if first.places().any(|known| known == span) {
            continue;
        }
        match first.labels.len() < SHOWN {
            true => first.labels.push(Label { span, text: words.to_owned() }),
            false => first.unshown.push(span),
        }
    }
}

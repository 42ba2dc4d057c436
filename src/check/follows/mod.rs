//! One cause, one message: what only follows from a mistake that is told is held back, and what one cause does in
//! several places is told once.
//!
//! It is looked for only where something is wrong, and then the cause itself always stays told: nothing that was
//! wrong passes.

mod about;
mod alike;
mod awry;
mod exchanged;
mod forgotten;
mod gathered;
mod hung;
mod lacking;
mod misfolded;
mod misnamed;
mod narrowed;
mod overcounted;
mod short_straps;
mod waiting;
mod wrong_ends;

use crate::cutting::WorkedSize;
use crate::garment::{Catcher, EdgeId, Garment, PieceId, StrapId};
use crate::report::catalogue::{self, Entry};
use crate::report::{Diagnostic, Severity};
use crate::source::Span;
use about::{About, Looking};
use indexmap::IndexSet;

/// What is told of how copies and ends meet, and is not to be looked at while copies are missing or of the wrong hand.
const OF_COPIES: [&Entry; 8] = [
    &catalogue::SEAM_ENDS,
    &catalogue::SEAM_JUMPS,
    &catalogue::SEAM_CROSSED,
    &catalogue::SEAM_TWISTED,
    &catalogue::GAP_NEEDLESS,
    &catalogue::STEP_EARLY,
    &catalogue::STEP_SHUT,
    &catalogue::STEP_CIRCLE,
];
/// What besides is wrong of a piece without a left and a right one of which a side is named.
const OF_HANDS: [&Entry; 4] =
    [&catalogue::SIDE_NONE, &catalogue::SEAM_UNEQUAL, &catalogue::EDGE_TWICE, &catalogue::CLOSURE_PAIRING];
/// What is wrong of edges of which a part is not sewn.
const OF_EDGES: [&Entry; 2] = [&catalogue::SEAM_UNEQUAL, &catalogue::SEAM_ENDS];
/// What tells that too much is turned up: two mistakes, and one that may be meant.
const TOO_DEEP: [&Entry; 3] = [&catalogue::HEM_DEEP, &catalogue::HEM_CROSSES, &catalogue::HEM_HALF];

/// What is looked at once nothing is wrong: a mistake may be why one layer is longer.
const OF_WHAT_IS_RIGHT: [&Entry; 2] = [&catalogue::LINING_LONG, &catalogue::LINING_LEVEL];

/// What is behind a gap is known once all is sewn as it is meant.
const OF_GAPS: [&Entry; 3] = [&catalogue::GAP_NEEDLESS, &catalogue::GAP_SMALL, &catalogue::GAP_OUTSIDE];

/// Holds messages back, but for the one in that place.
type Hold<'h> = &'h mut dyn FnMut(&dyn Fn(&Diagnostic) -> bool, usize);

/// What is left to be said of all that was found, by checks and before.
pub fn told_once(garment: &Garment, sizes: &[WorkedSize], found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let found = alike::each_once(found);
    if !found.iter().any(|one| one.severity() != Severity::Advice && one.severity() != Severity::Caution) {
        return found;
    }
    let found = gathered::gathered(garment, alike::merged(found));
    let found = wrong_ends::instead(garment, sizes, found);
    let found = exchanged::instead(garment, sizes, found);
    let found = overcounted::instead(garment, sizes, found);
    let found = misfolded::instead(garment, found);
    let found = short_straps::told_once(garment, found);
    let found = misnamed::instead(garment, found);
    let found = lacking::told_once(garment, found);
    let found = forgotten::told_once(garment, sizes, found);
    let looking = Looking { garment };
    let mut follows = vec![false; found.len()];
    let mut hold = |is_it: &dyn Fn(&Diagnostic) -> bool, but: usize| {
        for (at, (one, follows)) in found.iter().zip(&mut follows).enumerate() {
            *follows |= at != but && is_it(one);
        }
    };
    let waiting = waiting::waiting(&found);
    hold(&|one| one.is_any(&waiting), usize::MAX);
    of_copies(&looking, &found, &mut hold);
    of_layers(&looking, &found, &mut hold);
    of_shapes(&looking, &found, &mut hold);
    of_places(&looking, &found, &mut hold);
    of_what_is_right(&found, &mut hold);
    let kept = found.into_iter().zip(follows).filter(|(_, follows)| !follows);
    kept.map(|(one, _)| one).collect()
}

/// What is wrong of copies that are missing, or there too often.
fn of_copies(looking: &Looking, found: &[Diagnostic], hold: Hold) {
    let garment = looking.garment;
    for (at, piece, are_alike) in miscounted(garment, found) {
        let sides =
            are_alike && found.iter().any(|one| one.is(&catalogue::SIDE_NONE) && cuts(garment, one, piece));
        let has = |about: About| looking.edges(about).any(|sewn| sewn.piece == piece);
        hold(
            &|one| {
                let is_of = one.is_any(&OF_COPIES) || sides && one.is_any(&OF_HANDS);
                is_of && looking.about(one).into_iter().any(has)
                    || one.is(&catalogue::PLACE_COUNT) && is_placed_on(garment, one, piece)
            },
            at,
        );
    }
    // Where a pair is missing, the edges of its other half are, and what is placed on that.
    let alone = alone(garment, found);
    let is_led_to = |one: &Diagnostic| {
        let is_of = |piece: PieceId| alone.contains(&piece);
        let has = |about: About| looking.edges(about).any(|sewn| is_of(sewn.piece));
        let is_placed_there = || {
            let mut placed = garment.placements.iter().filter(|placed| is_of(placed.on));
            placed.any(|placed| one.places().any(|at| at == placed.span))
        };
        one.is(&catalogue::RUN_UNEVEN) && looking.about(one).into_iter().any(has)
            || one.is(&catalogue::PLACE_COUNT) && is_placed_there()
            || one.is(&catalogue::SIDE_NONE) && alone.iter().any(|&piece| cuts(garment, one, piece))
    };
    if !alone.is_empty() {
        hold(&is_led_to, usize::MAX);
    }
    if found.iter().any(|one| one.is(&catalogue::SEAM_PAIRING)) || !miscounted(garment, found).is_empty() {
        hold(&|one| one.is(&catalogue::OPENING_UNSAID), usize::MAX);
    }
    // Copies that are placed nowhere are loose, and which of them is drawn is no question then.
    let unplaced: Vec<PieceId> = found
        .iter()
        .filter(|one| one.is(&catalogue::PLACE_COUNT))
        .flat_map(|one| garment.placements.iter().filter(|placed| is_within(one.span(), placed.span)))
        .map(|placed| placed.piece)
        .collect();
    let is_led_to = |one: &Diagnostic| {
        let is_of = |piece: PieceId| unplaced.contains(&piece);
        one.is(&catalogue::EDGE_LOOSE)
            && misnamed::loose_edge(garment, one).is_some_and(|edge| is_of(garment.edge(edge).piece))
            || one.is(&catalogue::SIDE_DRAWN)
                && garment
                    .placements
                    .iter()
                    .any(|placed| is_of(placed.piece) && is_within(one.span(), placed.span))
    };
    if !unplaced.is_empty() {
        hold(&is_led_to, usize::MAX);
    }
}

/// What is wrong of edges in the wrong layer, of pieces that a layer lacks, and of edges that are not sewn.
fn of_layers(looking: &Looking, found: &[Diagnostic], hold: Hold) {
    let garment = looking.garment;
    // A seam in the wrong layer leaves one edge loose, takes another twice, and compares pieces that do not belong together.
    let crossed = found.iter().filter(|one| one.is(&catalogue::SEAM_CROSSED));
    let crossed: Vec<About> = crossed.flat_map(|one| looking.about(one)).collect();
    let edges: IndexSet<Span> = crossed
        .iter()
        .flat_map(|&about| looking.edges(about))
        .map(|sewn| garment.edge(sewn.edge).span)
        .collect();
    let is_led_to = |one: &Diagnostic| {
        one.is(&catalogue::EDGE_LOOSE) && edges.contains(&one.span())
            || one.is_any(&[&catalogue::EDGE_TWICE, &catalogue::ALTER_ONE_SIDE])
                && looking.about(one).iter().any(|about| crossed.contains(about))
    };
    if !crossed.is_empty() {
        hold(&is_led_to, usize::MAX);
    }
    // A piece that a layer is told to lack is never cut for that alone.
    let lacked: Vec<PieceId> = lacked(garment, found);
    let are_lacked = |one: &Diagnostic| {
        let is_it = |place: Span| lacked.iter().any(|&piece| garment.piece(piece).span == place);
        one.is(&catalogue::PIECE_UNCUT) && one.places().all(is_it)
    };
    if !lacked.is_empty() {
        hold(&are_lacked, usize::MAX);
    }
    let unsewn = Unsewn::of(looking, found);
    if !unsewn.all.is_empty() || !unsewn.edges.is_empty() {
        hold(&|one| unsewn.explains(looking, one), usize::MAX);
    }
}

/// What is drawn awry, and ways in that are told to be too small.
fn of_shapes(looking: &Looking, found: &[Diagnostic], hold: Hold) {
    let garment = looking.garment;
    let awry = awry::pieces(garment, found);
    if !awry.is_empty() {
        hold(&|one| awry::follows(garment, &awry, one), usize::MAX);
    }
    // Of runs that lie over one another it is not to be asked which is meant.
    let over = found.iter().filter(|one| one.is(&catalogue::RUN_OVERLAP));
    let over: Vec<About> = over.flat_map(|one| looking.about(one)).collect();
    if !over.is_empty() {
        hold(
            &|one| {
                one.is(&catalogue::NAME_UNKNOWN)
                    && looking.about(one).iter().any(|about| over.contains(about))
            },
            usize::MAX,
        );
    }
    let zips: Vec<Span> = garment.closures.iter().map(|closure| closure.name_span).collect();
    if found.iter().any(|one| one.is(&catalogue::OPENING_PASSES)) {
        hold(&|one| one.is(&catalogue::OPENING_BEHIND) && zips.contains(&one.span()), usize::MAX);
    }
    // A way in that is told to be too small is none that is wide enough.
    if found.iter().any(|one| one.is(&catalogue::OPENING_PASSES)) {
        hold(&|one| one.is(&catalogue::OPENING_NO_WAY) && one.span() == garment.heading, usize::MAX);
    }
}

/// What lies where something is told.
fn of_places(looking: &Looking, found: &[Diagnostic], hold: Hold) {
    let garment = looking.garment;
    for at in matched_so(looking, found) {
        hold(&|one| std::ptr::eq(one, at), usize::MAX);
    }
    // A hem that is said to be too deep is what is to be mended: what is placed on it lies where it should, and its curve
    // and its cutting line are not to be looked at yet.
    let shows = |one: &Diagnostic, told: &[&'static Entry]| {
        let labels = found.iter().filter(|other| other.is_any(told)).flat_map(|other| &other.labels);
        labels.into_iter().any(|label| one.labels.iter().any(|own| own.span == label.span))
    };
    let is_of_hem = |one: &Diagnostic| {
        one.is_any(&[&catalogue::PLACE_IN_HEM, &catalogue::HEM_SHORT]) && shows(one, &TOO_DEEP)
            || one.is_any(&[&catalogue::CUTTING_TOO_WIDE, &catalogue::BIND_CURVE])
                && shows(one, &TOO_DEEP[..1])
    };
    hold(&is_of_hem, usize::MAX);
    // A binding too wide for its edge, and a facing too narrow for its buttons, are told as that.
    let is_in_place = |one: &Diagnostic, told: &[&'static Entry]| {
        let mut places = found.iter().filter(|other| other.is_any(told)).flat_map(Diagnostic::places);
        places.any(|place| place.lo <= one.span().lo && one.span().hi <= place.hi)
    };
    let is_of_width = |one: &Diagnostic| {
        one.is(&catalogue::LENGTH_OUT_OF_USE)
            && is_in_place(one, &[&catalogue::HEM_DEEP, &catalogue::HEM_CROSSES, &catalogue::BIND_CURVE])
            || one.is(&catalogue::HEM_TINY)
                && is_in_place(one, &[&catalogue::BUTTON_FACING, &catalogue::BUTTON_FACING_SHORT])
    };
    hold(&is_of_width, usize::MAX);
    // A figure that is off in its row moves the corners of all that is drawn to it.
    let is_row = |one: &&Diagnostic| {
        let shown = |span: Span| garment.values.iter().any(|value| value.span == span);
        one.is(&catalogue::SIZE_IRREGULAR) && one.labels.iter().any(|label| shown(label.span))
    };
    let rows: Vec<&Diagnostic> = found.iter().filter(is_row).collect();
    let is_of_row = |one: &Diagnostic| {
        let is_in = |row: &&Diagnostic| one.sizes.iter().all(|size| row.sizes.contains(size));
        one.is(&catalogue::SIZE_LINES_CROSS) && !one.sizes.is_empty() && rows.iter().any(is_in)
    };
    hold(&is_of_row, usize::MAX);
    for at in narrowed::led_to(looking, found) {
        hold(&|one| std::ptr::eq(one, at), usize::MAX);
    }
    for at in misdrawn(looking, found) {
        hold(&|one| std::ptr::eq(one, at), usize::MAX);
    }
    // A row that nothing beside opens for is fastened on its own cloth, too.
    let is_out_of_reach = |one: &Diagnostic| {
        let mut others = found.iter().filter(|other| other.is(&catalogue::CLOSURE_OUT_OF_REACH));
        one.is(&catalogue::CLOSURE_OWN_EDGE) && others.any(|other| other.span().lo == one.span().lo)
    };
    hold(&is_out_of_reach, usize::MAX);
    hold(&|one| hung::follows(garment, found, one), usize::MAX);
}

/// What is looked at once nothing is wrong.
fn of_what_is_right(found: &[Diagnostic], hold: Hold) {
    // What is wrong is to be mended first, and may be why nothing is drawn.
    hold(&|one| one.is(&catalogue::PIECE_NONE), usize::MAX);
    if found.iter().any(|one| one.severity() == Severity::Mistake) {
        hold(&|one| one.is_any(&OF_WHAT_IS_RIGHT), usize::MAX);
        hold(&|one| one.is_any(&OF_GAPS), usize::MAX);
    }
    // A gap that nothing is turned through is not to be made longer.
    let needless: Vec<Span> =
        found.iter().filter(|one| one.is(&catalogue::GAP_NEEDLESS)).map(Diagnostic::span).collect();
    hold(&|one| one.is(&catalogue::GAP_SMALL) && needless.contains(&one.span()), usize::MAX);
}

/// Whether a message is about what is placed on a piece.
fn is_placed_on(garment: &Garment, one: &Diagnostic, piece: PieceId) -> bool {
    let mut placed = garment.placements.iter().filter(|placed| placed.on == piece);
    placed.any(|placed| one.places().any(|at| is_within(at, placed.span)))
}

fn is_within(place: Span, whole: Span) -> bool {
    whole.lo <= place.lo && place.hi <= whole.hi
}

/// Whether a message shows where a piece says how often it is cut.
fn cuts(garment: &Garment, one: &Diagnostic, piece: PieceId) -> bool {
    one.places().any(|place| place == garment.piece(piece).cut.span)
}

/// Pieces of which it is told that they are cut too seldom, or all alike: where, which, and whether alike.
fn miscounted(garment: &Garment, found: &[Diagnostic]) -> Vec<(usize, PieceId, bool)> {
    let mut all = Vec::new();
    for (at, one) in found.iter().enumerate() {
        let are_alike = one.is(&catalogue::PAIR_SAME);
        if !are_alike && !one.is(&catalogue::SEAM_UNEQUAL) {
            continue;
        }
        let pieces = PieceId::enumerate(&garment.pieces).map(|(piece, _)| piece);
        all.extend(pieces.filter(|&piece| cuts(garment, one, piece)).map(|piece| (at, piece, are_alike)));
    }
    all
}

/// Pieces of which an edge is told to be sewn to itself, though it is cut once.
fn alone(garment: &Garment, found: &[Diagnostic]) -> Vec<PieceId> {
    let told: Vec<&Diagnostic> = found.iter().filter(|one| one.is(&catalogue::SEAM_PAIRING)).collect();
    let pieces = PieceId::enumerate(&garment.pieces).map(|(piece, _)| piece);
    pieces.filter(|&piece| told.iter().any(|one| cuts(garment, one, piece))).collect()
}

/// Of corners that are told not to meet and what comes of it in the same seam, one: a fold on a free end says which it is, as what
/// is closed round by itself does, and that a hood seems to be set in back to front only follows.
fn matched_so<'a>(looking: &Looking, found: &'a [Diagnostic]) -> Vec<&'a Diagnostic> {
    let are_of_one_seam = |one: &Diagnostic, other: &Diagnostic| {
        let matched = looking.about(one);
        looking.about(other).iter().any(|about| matched.contains(about))
    };
    let beside = |what: &'static Entry, told: &'static Entry| {
        let of = move |kind: &'static Entry| found.iter().filter(move |one| one.is(kind));
        of(what).filter(move |one| of(told).any(|other| are_of_one_seam(one, other)))
    };
    let follows = beside(&catalogue::SEAM_MATCHING, &catalogue::SEAM_FOLD_END);
    let follows = follows.chain(beside(&catalogue::SEAM_MATCHING, &catalogue::SEAM_PINCHED));
    follows.chain(beside(&catalogue::SEAM_BACK_TO_FRONT, &catalogue::SEAM_MATCHING)).collect()
}

/// What is told of pieces and edges that a seam joins of which it is told that its edges do not match or are taken twice: it
/// names the wrong edge. So pieces seem to be drawn for the other side.
fn misdrawn<'a>(looking: &Looking, found: &'a [Diagnostic]) -> Vec<&'a Diagnostic> {
    let of_one_seam = |one: &Diagnostic, told: &[&'static Entry]| {
        let joined = looking.about(one);
        let mut others = found.iter().filter(|other| other.is_any(told));
        others.any(|other| looking.about(other).iter().any(|about| joined.contains(about)))
    };
    let is_led_to = |one: &&Diagnostic| {
        let turned = one.is(&catalogue::SIDE_TURNED);
        // Of an edge that something else takes as well neither allowance nor grain are those of the edge that was meant.
        let beside = one.is_any(&[&catalogue::SEAM_ALLOWANCE, &catalogue::SEAM_GRAIN]);
        turned && of_one_seam(one, &[&catalogue::SEAM_UNEQUAL, &catalogue::EDGE_TWICE])
            || beside && of_one_seam(one, &[&catalogue::EDGE_TWICE])
    };
    found.iter().filter(is_led_to).collect()
}

/// Pieces that layers are told to lack: such a message is about the piece too.
fn lacked(garment: &Garment, found: &[Diagnostic]) -> Vec<PieceId> {
    let told: IndexSet<Span> =
        found.iter().filter(|one| one.is(&catalogue::PART_MISSING)).flat_map(Diagnostic::places).collect();
    let pieces = PieceId::enumerate(&garment.pieces);
    pieces.filter(|(_, piece)| told.contains(&piece.span)).map(|(piece, _)| piece).collect()
}

/// What is sewn nowhere, since a layer lacks one of its pieces, or a piece is never cut.
struct Unsewn {
    all: Vec<About>,
    /// Their edges, as whole ones.
    edges: Vec<EdgeId>,
}

impl Unsewn {
    fn of(looking: &Looking, found: &[Diagnostic]) -> Unsewn {
        let garment = looking.garment;
        let mut unsewn = Unsewn { all: Vec::new(), edges: Vec::new() };
        for one in found {
            if one.is(&catalogue::PART_MISSING) {
                unsewn.all.extend(looking.about(one));
            } else if one.is(&catalogue::PIECE_UNCUT) {
                let uncut: IndexSet<Span> = one.places().collect();
                let is_uncut = |piece: PieceId| uncut.contains(&garment.piece(piece).span);
                let all =
                    looking.all().filter(|&about| looking.edges(about).any(|sewn| is_uncut(sewn.piece)));
                unsewn.all.extend(all);
            }
        }
        let edges = unsewn.all.iter().flat_map(|&about| looking.edges(about)).map(|sewn| sewn.edge);
        let edges = edges.chain(garment.half_sewn.iter().copied());
        unsewn.edges = edges.map(|edge| garment.whole_edge(edge)).collect();
        unsewn
    }

    /// Whether a message only follows from it.
    fn explains(&self, looking: &Looking, one: &Diagnostic) -> bool {
        let garment = looking.garment;
        if one.is(&catalogue::STRAP_PLACE) {
            let ends = StrapId::enumerate(&garment.straps)
                .flat_map(|(_, strap)| &strap.runs)
                .flat_map(|run| run.ends());
            return ends.filter(|end| one.places().any(|place| place == end.span)).any(|end| {
                end.caught.is_some_and(|catcher| {
                    self.all.contains(&match catcher {
                        Catcher::Seam(id) => About::Seam(id),
                        Catcher::Closure(id) => About::Closure(id),
                    })
                })
            });
        }
        one.is_any(&OF_EDGES)
            && looking.about(one).into_iter().filter(|about| !self.all.contains(about)).any(|about| {
                looking.edges(about).any(|sewn| self.edges.contains(&garment.whole_edge(sewn.edge)))
            })
    }
}

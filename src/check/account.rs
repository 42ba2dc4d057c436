//! `lost/unreported`: nothing is missing at the end without a mistake that accounts for it.
//!
//! Whoever meets something unknown is silent, because it has been reported. Here that is looked at from
//! the other side: each thing that is declared is there in each size, or is accounted for.

use super::{gone, words};
use crate::cutting::WorkedSize;
use crate::few::Few;
use crate::garment::{
    Amount, Chain, ClosureKind, CordId, Expression, FinishId, FinishKind, Garment, Incomplete, Made,
    NotionId, Outline, PaperId, Part, PieceId, PieceOrigin, SeamId, SewnEdge, TackSpot, ValueId,
};
use crate::report::{Diagnostic, Finding, Severity, SizeId, group};
use crate::resolve::{SizedGarment, lost};
use crate::sewing::{NotionSource, Sewing};
use crate::source::Span;
use crate::syntax::tree::SeamKind;
use rayon::prelude::*;
use std::collections::HashSet;

/// What could not be made sense of, if nothing that was reported while the garment was read and made
/// says why.
pub fn account_for_garment(garment: &Garment, reported: &[Diagnostic]) -> Vec<Diagnostic> {
    if reported.iter().any(|one| one.severity() == Severity::Mistake) {
        return Vec::new();
    }
    let poisoned = poisoned(garment);
    poisoned.into_iter().map(|(what, span)| lost(SizeId::from_index(0), span, &what).diagnostic).collect()
}

/// Everything in a garment that could not be made sense of.
fn poisoned(garment: &Garment) -> Vec<(String, Span)> {
    let mut found: Vec<(String, Span)> = Vec::new();
    for value in &garment.values {
        if value.kind.expressions().into_iter().any(Expression::is_poison) {
            found.push((format!("the value {}", value.name), value.span));
        }
    }
    for piece in &garment.pieces {
        let drawing = &piece.drawing;
        let undrawn = matches!(drawing.outline, Outline::None) || drawing.order.is_empty();
        let own = drawing.expressions().chain([&piece.cut.count]).any(Expression::is_poison);
        if own || undrawn && piece.origin == PieceOrigin::Drawn {
            found.push((format!("the piece {}", piece.title), piece.span));
        }
    }
    for alteration in &garment.alterations {
        let by = match &alteration.amount {
            Some(Amount::By(by)) => Some(by),
            Some(Amount::Until(_)) | None => None,
        };
        let path = alteration.path.iter().flat_map(|path| path.expressions());
        let dart = alteration.dart.iter().flat_map(|change| change.expressions());
        let ends = alteration.tapered.iter().flat_map(|tapered| &tapered.by);
        if alteration.kind.is_none()
            || by.into_iter().chain(path).chain(dart).chain(ends).any(Expression::is_poison)
        {
            found.push(("this alteration".to_owned(), alteration.span));
        }
    }
    let facts = garment.facts().into_iter().filter(|fact| fact.is_poison());
    found.extend(facts.map(|fact| ("this amount".to_owned(), fact.span)));
    let layers = garment.layers.iter().filter(|layer| layer.fabric.is_none());
    found.extend(layers.map(|layer| (format!("the cloth of {}", layer.name), layer.span)));
    let seams = garment.seams.iter().filter(|seam| seam.poisoned);
    found.extend(seams.map(|seam| (seam.words(), seam.name_span)));
    let closures = garment.closures.iter().filter(|closure| closure.kind.is_none());
    found.extend(closures.map(|closure| (format!("the closure {}", closure.name), closure.name_span)));
    let placements = garment.placements.iter().filter(|placement| placement.poisoned);
    found.extend(placements.map(|placement| (words::piece(garment, placement.piece), placement.span)));
    let Incomplete { layers, sewing, steps, stitches } = garment.incomplete;
    let flags = [
        (layers, "something of the layers"),
        (sewing, "something that is sewn"),
        (steps, "some of the steps"),
        (stitches, "some of the stitches"),
    ];
    let incomplete = flags.into_iter().filter(|(is_incomplete, _)| *is_incomplete);
    found.extend(incomplete.map(|(_, what)| (what.to_owned(), garment.heading)));
    found
}

/// What is missing in a size, if no mistake that was reported accounts for it.
pub fn account_for_sizes(
    garment: &Garment,
    sizes: &[WorkedSize],
    reported: &[Diagnostic],
) -> Vec<Diagnostic> {
    let names = words::size_names(garment);
    let mistakes: Vec<&Diagnostic> =
        reported.iter().filter(|one| one.severity() == Severity::Mistake).collect();
    let of_size = |size: &WorkedSize| {
        let name = names.get(size.id().index());
        let of_size =
            |one: &&&Diagnostic| one.sizes.is_empty() || name.is_some_and(|name| one.sizes.contains(name));
        let account = Account {
            garment,
            sized: &size.drawn,
            sewing: &size.sewn,
            missing: size.drawn.missing.iter().copied().collect(),
            mistakes: mistakes.iter().filter(of_size).copied().collect(),
            lost: Vec::new(),
            explained: false,
        };
        account.run()
    };
    let found: Vec<Vec<Finding>> = sizes.par_iter().map(of_size).collect();
    group(found.into_iter().flatten().collect(), &names)
}

/// One size, held against what was reported of it.
struct Account<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    sewing: &'a Sewing,
    /// What could not be worked out and has its account.
    missing: HashSet<Made>,
    mistakes: Vec<&'a Diagnostic>,
    lost: Vec<Finding>,
    /// Something is missing because an alteration has taken away what it is about, and that is told.
    explained: bool,
}

/// Something that is missing.
struct Missing<'a> {
    what: String,
    /// Where it is named.
    span: Span,
    /// Where a mistake would account for it, beside that.
    places: Vec<Span>,
    /// The pieces that it is on.
    pieces: Vec<PieceId>,
    /// The amounts that it needs.
    amounts: Vec<&'a Expression>,
    /// It names an edge that is not drawn: beside a mistake that follows from it, as where an edge is divided that the
    /// piece has not.
    undrawn: bool,
}

impl<'a> Account<'a> {
    fn run(mut self) -> Vec<Finding> {
        self.values_and_papers();
        self.parts();
        self.seams();
        self.finishes();
        self.closures();
        self.rows();
        self.placements();
        self.openings();
        self.notions();
        self.surface();
        self.lost
    }

    fn lose(&mut self, span: Span, what: &str) {
        self.lost.push(lost(self.sized.size, span, what));
    }

    /// What is listed as missing has been reported, or needs what has; what is not listed is lost.
    fn values_and_papers(&mut self) {
        let garment = self.garment;
        let is_accounted = |made: Made| self.missing.contains(&made) && !self.mistakes.is_empty();
        let mut gone: Vec<(String, Span)> = Vec::new();
        for (at, value) in garment.values.iter().enumerate() {
            let is_known = self.sized.values.get(at).is_some_and(Option::is_some);
            if !is_known && !is_accounted(Made::Value(ValueId::from_index(at))) {
                gone.push((format!("the value {}", value.name), value.span));
            }
        }
        for (at, paper) in garment.papers.iter().enumerate() {
            let is_drawn = self.sized.papers.get(at).is_some_and(Option::is_some);
            let last = Made::Version(PaperId::from_index(at), paper.alterations.len());
            if paper.becomes.is_empty() && !is_drawn && !is_accounted(last) {
                let piece = garment.piece(paper.piece);
                gone.push((format!("the piece {}", piece.title), piece.span));
            }
        }
        gone.into_iter().for_each(|(what, span)| self.lose(span, &what));
    }

    fn parts(&mut self) {
        // The cut list is in the order of the parts; only where one is missing it is looked for.
        let rows = &self.sized.cut_list;
        let mut next = 0;
        let mut is_cut = |part: Part| {
            if rows.get(next).is_some_and(|row| row.part == part) {
                next += 1;
                return true;
            }
            rows.iter().any(|row| row.part == part)
        };
        for part in self.garment.parts() {
            let is_drawn = self.sized.papers.get(part.paper.index()).is_some_and(Option::is_some);
            if is_drawn && !(is_cut(part) && self.sewing.index.of(part).is_some()) {
                let name = self.garment.part_name(Some(part.layer), part.piece);
                self.lose(self.garment.piece(part.piece).span, &name);
            }
        }
    }

    fn seams(&mut self) {
        let garment = self.garment;
        let seams = &self.sewing.seams;
        // Whether each is sewn, and all that is sewn of it is known.
        let mut known: Vec<Option<bool>> = vec![None; garment.seams.len()];
        for sewn in seams {
            *known[sewn.seam.index()].get_or_insert(true) &= sewn.known;
        }
        for (at, seam) in garment.seams.iter().enumerate() {
            let is_there = known[at] == Some(true) || seam.across_fold;
            if seam.poisoned || is_there || garment.joined_away(seam).is_some() {
                continue;
            }
            let mut edges = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
            if edges.any(|sewn| self.is_taken_away(sewn, "sewn", "drop this seam")) {
                continue;
            }
            let mut missing = self.on(seam.first.iter().chain(&seam.second));
            (missing.what, missing.span) = (seam.words(), seam.name_span);
            missing.places.push(seam.span);
            missing.amounts.extend(seam.fit.iter().flat_map(|fit| [&fit.low, &fit.high]));
            missing.amounts.extend(seam.notches.iter().map(crate::garment::SeamNotch::amount));
            missing.amounts.extend(seam.work.iter().map(|work| &work.width));
            self.hold(missing);
        }
    }

    fn finishes(&mut self) {
        let garment = self.garment;
        for finish in &garment.finishes {
            for sewn in &finish.edges {
                let mut is_there = false;
                self.sized.each_run(garment, sewn.layer, sewn.edge, &mut |_| is_there = true);
                if is_there {
                    continue;
                }
                if self.is_taken_away(sewn, "finished", "drop this finish") {
                    continue;
                }
                let chain = Chain {
                    edges: Few::one(*sewn),
                    over: None,
                    caught: false,
                    only: None,
                    ring: false,
                    span: sewn.span,
                };
                let mut missing = self.on([&chain]);
                missing.what = format!("the finish of {}", garment.edge(sewn.edge).name);
                missing.span = sewn.span;
                missing.places.push(finish.span);
                self.hold(missing);
            }
        }
    }

    fn rows(&mut self) {
        let garment = self.garment;
        let (layer, on, user) = (None, None, None);
        for (tack, end) in garment.tacks.iter().flat_map(|tack| tack.ends.iter().map(move |end| (tack, end)))
        {
            let (done, otherwise) = match tack.sets {
                Some(_) => ("set at", "drop this set"),
                None => ("tacked", "drop this tack"),
            };
            match end.spot {
                TackSpot::Edge(edge, _) => {
                    let sewn =
                        SewnEdge { layer: end.layer, piece: end.piece, edge, on, user, span: end.span };
                    self.is_taken_away(&sewn, done, otherwise);
                }
                TackSpot::Point(_) => {
                    let found = gone::held(garment, self.sized, end, done, otherwise);
                    self.explain(found);
                }
            }
        }
        for placed in &garment.placed_points {
            let (point, Some(&edge)) = (garment.point(placed.point), placed.edges.first()) else { continue };
            let sewn = SewnEdge { layer, piece: point.piece, edge, on, user, span: point.span };
            self.is_taken_away(&sewn, "sewn at", "drop what is sewn there");
        }
        for edge in garment.rows.iter().flat_map(|row| &row.edges) {
            let span = edge.sewn.span;
            let mut is_there =
                self.sewing.parts.iter().flat_map(|part| &part.line_rows).any(|row| row.span == span);
            self.sized.each_run(garment, edge.sewn.layer, edge.sewn.edge, &mut |_| is_there = true);
            if !is_there && !self.is_taken_away(&edge.sewn, "stitched", "drop this row") {
                let edges = Few::one(edge.sewn);
                let mut missing = self.on([&Chain {
                    edges,
                    over: None,
                    caught: false,
                    only: None,
                    ring: false,
                    span: edge.sewn.span,
                }]);
                missing.what = format!("the row beside {}", garment.edge(edge.sewn.edge).name);
                missing.span = edge.sewn.span;
                self.hold(missing);
            }
        }
    }

    /// Whether an alteration has taken an edge away that something is done to; that is then reported.
    fn is_taken_away(&mut self, sewn: &SewnEdge, done: &str, otherwise: &str) -> bool {
        let found = gone::edge(self.garment, self.sized, sewn, done, otherwise);
        self.explain(found)
    }

    /// Takes up what was found, and says whether it was anything.
    fn explain(&mut self, found: Option<Finding>) -> bool {
        let is_explained = found.is_some();
        self.explained |= is_explained;
        self.lost.extend(found);
        is_explained
    }

    fn closures(&mut self) {
        let garment = self.garment;
        for (at, closure) in garment.closures.iter().enumerate() {
            let (is_there, amounts) = match &closure.kind {
                None => continue,
                Some(ClosureKind::Zipper { lengths, .. }) => {
                    (self.sized.zips.get(at).is_some_and(Option::is_some), lengths.iter().collect())
                }
                Some(ClosureKind::Fasteners(row)) => (
                    row.are_pieces() || self.sewing.fasteners.iter().any(|row| row.closure.index() == at),
                    row.amounts().collect(),
                ),
            };
            let mut edges = closure.first.edges.iter().chain(&closure.second.edges);
            if is_there || edges.any(|sewn| self.is_taken_away(sewn, "closed", "drop this closure")) {
                continue;
            }
            let mut missing = self.on([&closure.first, &closure.second]);
            (missing.what, missing.span) = (format!("the closure {}", closure.name), closure.name_span);
            missing.places.push(closure.span);
            missing.amounts = amounts;
            self.hold(missing);
        }
    }

    fn placements(&mut self) {
        let garment = self.garment;
        for (at, placement) in garment.placements.iter().enumerate() {
            if placement.poisoned || self.sized.placed.get(at).is_some_and(Option::is_some) {
                continue;
            }
            let found = gone::mark(garment, self.sized, placement)
                .or_else(|| gone::placed_piece(garment, self.sized, placement));
            if self.explain(found) {
                continue;
            }
            let mut places = vec![placement.span];
            places.extend(placement.corners.iter().map(|corner| corner.span));
            let pieces = vec![placement.piece, placement.on];
            places.extend(pieces.iter().map(|&piece| garment.piece(piece).span));
            let (placed, on) = (words::piece(garment, placement.piece), words::piece(garment, placement.on));
            let what = format!("the place of {placed} on {on}");
            self.hold(Missing {
                what,
                span: placement.span,
                places,
                pieces,
                amounts: Vec::new(),
                undrawn: false,
            });
        }
    }

    fn openings(&mut self) {
        let garment = self.garment;
        for (at, opening) in garment.openings.iter().enumerate() {
            if self.sewing.openings.get(at).is_some_and(Option::is_some) {
                continue;
            }
            // Without the whole surface, or on a twisted one, no ring is known: that has been reported.
            let is_sound = self.sewing.surface.as_ref().is_some_and(|surface| surface.twists.is_empty());
            let ring = &opening.ring.edges;
            let is_off = !is_sound && !self.mistakes.is_empty();
            if is_off || ring.iter().any(|sewn| self.is_taken_away(sewn, "an opening", "drop this opening")) {
                continue;
            }
            let mut missing = self.on([&opening.ring]);
            (missing.what, missing.span) = ("this opening".to_owned(), opening.ring.span);
            missing.places.push(opening.span);
            self.hold(missing);
        }
    }

    /// What is bought beside cloth: zips and buttons have their account as closures.
    fn notions(&mut self) {
        let garment = self.garment;
        // Without the surface it is not known where cords, elastic and bindings run: that has been reported.
        if self.sewing.surface.is_none() && !self.mistakes.is_empty() {
            return;
        }
        let needs: HashSet<NotionSource> = self.sewing.notions.iter().map(|need| need.source).collect();
        for (id, notion) in NotionId::enumerate(&garment.notions) {
            if needs.contains(&NotionSource::Listed(id)) {
                continue;
            }
            // Without a number as many are bought as are set somewhere.
            let mut sets = garment.sets_of(id).peekable();
            if notion.amount.is_none() && sets.peek().is_none() {
                continue;
            }
            let what = notion.title.to_string();
            let places = sets.map(|tack| tack.span).chain([notion.span]).collect();
            let amounts = notion.amount.iter().collect();
            self.hold(Missing {
                what,
                span: notion.span,
                places,
                pieces: Vec::new(),
                amounts,
                undrawn: false,
            });
        }
        for (id, cord) in CordId::enumerate(&garment.cords) {
            if !needs.contains(&NotionSource::Cord(id)) {
                let mut missing = self.on([&Chain {
                    edges: cord.through.clone().into(),
                    over: None,
                    caught: false,
                    only: None,
                    ring: false,
                    span: cord.span,
                }]);
                (missing.what, missing.span) = (format!("the cord {}", cord.name), cord.span);
                missing.places.push(cord.span);
                missing.amounts = vec![&cord.length];
                self.hold(missing);
            }
        }
        for (id, seam) in SeamId::enumerate(&garment.seams) {
            let bound = seam.work.as_ref().filter(|work| work.kind == SeamKind::EdgesBound);
            let bound = bound.map(|work| ("the binding of a seam", work.span, vec![&work.width]));
            let taped = || {
                let tape = seam.tape.as_ref()?;
                Some(("the tape of a seam", tape.span, tape.width.iter().collect()))
            };
            let wanted = bound.or_else(taped).filter(|_| !needs.contains(&NotionSource::Seam(id)));
            let Some((what, span, amounts)) = wanted else { continue };
            let mut missing = self.on(seam.first.iter().chain(&seam.second));
            (missing.what, missing.span) = (what.to_owned(), span);
            missing.places.push(seam.span);
            missing.amounts = amounts;
            self.hold(missing);
        }
        for (id, finish) in FinishId::enumerate(&garment.finishes) {
            let (what, amounts): (&str, Vec<&Expression>) = match &finish.kind {
                FinishKind::Casing(_, Some((width, long))) | FinishKind::Elastic(width, long) => {
                    ("the elastic", vec![width, long])
                }
                FinishKind::Tape(width) => ("the tape", width.iter().collect()),
                FinishKind::Bound(binding) => ("the binding", binding.amounts().collect()),
                _ => continue,
            };
            if !needs.contains(&NotionSource::Finish(id)) {
                let mut missing = self.on([&Chain {
                    edges: finish.edges.clone().into(),
                    over: None,
                    caught: false,
                    only: None,
                    ring: false,
                    span: finish.span,
                }]);
                (missing.what, missing.span) = (what.to_owned(), finish.kind_span);
                missing.places.push(finish.span);
                missing.amounts = amounts;
                self.hold(missing);
            }
        }
    }

    /// The sewn surface, which many checks look at, is there unless a mistake says why not.
    fn surface(&mut self) {
        if self.sewing.surface.is_none() && self.mistakes.is_empty() && !self.explained {
            self.lose(self.garment.heading, "the sewn surface");
        }
    }

    /// Something on those edges.
    fn on<'c>(&self, chains: impl IntoIterator<Item = &'c Chain>) -> Missing<'a> {
        let garment = self.garment;
        let edges: Vec<_> = chains.into_iter().flat_map(|chain| chain.edges.iter().copied()).collect();
        let mut places: Vec<Span> = edges.iter().map(|sewn| garment.edge(sewn.edge).span).collect();
        places.extend(edges.iter().map(|sewn| garment.piece(sewn.piece).span));
        let pieces = edges.iter().map(|sewn| sewn.piece).collect();
        let is_drawn = |sewn: &SewnEdge| {
            let mut found = false;
            self.sized.each_run(garment, sewn.layer, sewn.edge, &mut |_| found = true);
            found
        };
        let undrawn = !edges.iter().all(is_drawn);
        Missing { what: String::new(), span: Span::default(), places, pieces, amounts: Vec::new(), undrawn }
    }

    /// Holds what is missing to its account.
    fn hold(&mut self, missing: Missing) {
        let Missing { what, span, places, pieces, amounts, undrawn } = missing;
        let touches =
            |one: &&&Diagnostic| one.places().any(|told| places.iter().any(|place| overlap(told, *place)));
        // What layers hold is not all known: the piece may be in one.
        let is_cut = |piece: PieceId| self.garment.layers.iter().any(|layer| layer.pieces.contains(&piece));
        let is_uncut = self.garment.incomplete.layers && pieces.iter().any(|&piece| !is_cut(piece));
        let is_accounted = is_uncut
            || undrawn && !self.mistakes.is_empty()
            || pieces.iter().any(|&piece| self.is_undrawn(piece))
            // What stands on a piece may be counted from any name of it.
            || !self.mistakes.is_empty()
                && pieces.iter().any(|&piece| self.sized.lacks_a_name(self.garment, piece))
            || amounts
                .into_iter()
                .any(|amount| crate::sewing::amount_of(self.garment, self.sized, amount).is_none())
            || self.mistakes.iter().any(|one| touches(&one));
        if !is_accounted {
            self.lose(span, &what);
        }
    }

    /// Whether a piece, or one that it was made into, could not be drawn, which has its own account.
    fn is_undrawn(&self, piece: PieceId) -> bool {
        let mut open: Vec<PaperId> = self.garment.piece(piece).papers.clone();
        while let Some(at) = open.pop() {
            let paper = self.garment.paper(at);
            let last = Made::Version(at, paper.alterations.len());
            if paper.becomes.is_empty() && self.missing.contains(&last) {
                return true;
            }
            open.extend(&paper.becomes);
        }
        false
    }
}

fn overlap(one: Span, other: Span) -> bool {
    one.lo < other.hi.max(other.lo + 1) && other.lo < one.hi.max(one.lo + 1)
}

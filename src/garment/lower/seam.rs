//! Seams, and those that `split` declares.

use super::Lowering;
use super::declare::empty_seam;
use super::expression::Wanted;
use super::papers::When;
use super::sought::Sought;
use crate::few::Few;
use crate::garment::{
    Chain, EdgeId, Fit, NotchSpacing, PieceId, Seam, SeamId, SeamNotch, SeamNotches, SeamTape, SewnEdge,
    SewnPoint, SewnSpot, Stitch, Symbol, User,
};
use crate::report::{Diagnostic, catalogue, nearest};
use crate::source::Span;
use crate::syntax::tree::{self, FitKind, SeamItemNode};
use std::ops::RangeInclusive;
use std::sync::Arc;

/// Stitches by the trade's word, with the number of ISO 4915:1991 (numbers beyond those of the
/// published thread equations from memory).
const STITCHES: [(&str, u16); 8] = [
    ("chainstitch", 101),
    ("lockstitch", 301),
    ("zigzag", 304),
    ("two_thread_chainstitch", 401),
    ("overlock", 504),
    ("four_thread_overlock", 514),
    ("coverstitch", 602),
    ("handstitch", 209),
];

/// The stitches that ISO 4915:1991 numbers, class by class (from memory).
const KNOWN: [RangeInclusive<u16>; 6] = [101..=108, 201..=220, 301..=329, 401..=417, 501..=522, 601..=609];

impl Lowering<'_> {
    pub(super) fn sewn_point(&self, dotted: &tree::Dotted, seam: &Seam) -> Option<SewnPoint> {
        if let Some(found) = self.run_end(dotted, seam) {
            return found;
        }
        let (part, point) = self.find_dotted_point(dotted)?;
        Some(SewnPoint { layer: part.layer, point: SewnSpot::Point(point), span: dotted.span })
    }

    /// A point of a seam: `piece.point`, or a name alone that one of the seam's pieces has.
    pub(super) fn seam_point(&self, dotted: &tree::Dotted, seam: &Seam) -> Option<SewnPoint> {
        let [alone] = dotted.parts.as_slice() else { return self.sewn_point(dotted, seam) };
        let edges = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
        let mut among: Vec<Arc<str>> = Vec::new();
        for edge in edges {
            let points = &self.piece_points[edge.piece.index()];
            if let Some(&point) = points.get(&alone.text) {
                self.used(Symbol::Point(point), alone.span);
                let point = SewnSpot::Point(point);
                return Some(SewnPoint { layer: edge.layer, point, span: dotted.span });
            }
            among.extend(points.keys().cloned());
        }
        self.unknown(Sought::PointOfSeam, &alone.text, alone.span, &among);
        None
    }

    pub(super) fn lower_seam(&mut self, tree: &tree::Seam, span: Span) {
        let Some(&id) = self.names.seams.get(&tree.name.text) else { return };
        if self.garment.seam(id).name_span != tree.name.span {
            return; // a second one of that name, reported elsewhere
        }
        let mut seam = self.garment.seam(id).clone();
        seam.poisoned = self.is_damaged(span);
        let user = User::Seam(id);
        match (self.lower_side(&tree.first, user), self.lower_side(&tree.second, user)) {
            (Some(first), Some(second)) => (seam.first, seam.second) = (first, second),
            (first, second) => {
                seam.poisoned = true;
                let known = [first, second].into_iter().flatten().flatten();
                let named = known.flat_map(|chain| chain.edges).map(|sewn| sewn.edge);
                self.garment.half_sewn.extend(named);
            }
        }
        seam.across_fold = tree.across_fold;
        seam.label = tree.label.as_ref().map(|label| label.text.clone());
        let mut caught_there = Vec::new();
        for item in &tree.items {
            if let SeamItemNode::Caught { ply, on, place } = &item.node
                && !seam.poisoned
            {
                let caught = self.catch_ply(&mut seam, user, (ply, on, place), item.span, &mut caught_there);
                seam.poisoned |= caught.is_none();
            }
        }
        for name in &tree.enclosing {
            if let Some(closure) = self.find_closure(name) {
                seam.enclosing.push((closure, name.span));
            }
        }
        if let Some(fit) = &tree.fit {
            seam.fit = self.lower_fit(fit, &seam);
            seam.poisoned |= seam.fit.is_none();
        }
        let mut stitch_said: Option<Span> = None;
        let mut kind_said: Option<Span> = None;
        for item in &tree.items {
            match &item.node {
                SeamItemNode::Allowance(allowance) => {
                    if let Some((_, first)) = &seam.allowance {
                        self.report_said_twice("seam", "allowance", *first, item.span);
                    }
                    let lowered = self.lower(allowance, When::Fact, None, Wanted::Length);
                    seam.allowance = Some((lowered, item.span));
                }
                SeamItemNode::Stitch(stitch) => {
                    match stitch_said {
                        Some(first) => self.report_said_twice("seam", "stitch", first, item.span),
                        None => stitch_said = Some(item.span),
                    }
                    seam.stitch = self.lower_stitch(stitch);
                }
                SeamItemNode::Tape(width) => {
                    if let Some(tape) = &seam.tape {
                        self.report_said_twice("seam", "tape", tape.span, item.span);
                    }
                    let width =
                        width.as_ref().map(|width| self.lower(width, When::Fact, None, Wanted::Length));
                    seam.tape = Some(SeamTape { width, span: item.span });
                }
                SeamItemNode::Notch { place, double } => {
                    if !seam.poisoned
                        && let Some(at) = self.notch_at(place, &seam)
                    {
                        seam.notches.push(SeamNotch { at, double: *double, span: item.span });
                    }
                }
                SeamItemNode::Notches { apart, double } => {
                    let apart = match apart {
                        tree::NotchesApart::Quarters => NotchSpacing::Parts(4),
                        tree::NotchesApart::Thirds => NotchSpacing::Parts(3),
                        tree::NotchesApart::Every(length) => {
                            NotchSpacing::AtMost(self.lower(length, When::Fact, None, Wanted::Length))
                        }
                    };
                    seam.divided.push(SeamNotches { apart, double: *double, span: item.span });
                }
                SeamItemNode::Gap { begins, length, at, layer, hand } => {
                    let said = (begins.as_ref(), length, at.as_ref());
                    let gap = self.lower_gap(said, (layer.as_ref(), *hand), item.span, &seam);
                    seam.gaps.push(gap);
                }
                SeamItemNode::Kind { kind, width, over } => match kind_said {
                    Some(first) => self.report_said_twice("seam", "kind", first, item.span),
                    None => {
                        kind_said = Some(item.span);
                        seam.work = self.lower_work(*kind, width, over.as_ref(), item.span, &seam);
                    }
                },
                SeamItemNode::Caught { .. } => {}
                SeamItemNode::Matching(one, other) => {
                    if let (Some(one), Some(other)) =
                        (self.sewn_point(one, &seam), self.sewn_point(other, &seam))
                    {
                        seam.matching.push((one, other));
                    }
                }
            }
        }
        if seam.across_fold {
            let is_kept = |item: &&tree::SeamItem| {
                matches!(item.node, SeamItemNode::Allowance(_) | SeamItemNode::Stitch(_))
            };
            if let Some(odd) = tree.items.iter().find(|item| !is_kept(item)) {
                let title = format!("{} sews ends to themselves, and has no other side", seam.words());
                let mistake = Diagnostic::new(&catalogue::SEAM_ACROSS, odd.span, title);
                let help = "only an allowance and a stitch may be said of it: take this out";
                self.report(mistake.also(seam.name_span, "across the fold").help(help));
            }
        }
        self.garment.seams[id.index()] = seam;
    }

    pub(super) fn lower_fit(&mut self, fit: &tree::Fit, seam: &Seam) -> Option<Fit> {
        let wanted = match fit.kind {
            FitKind::Easing => Wanted::Length,
            FitKind::Gathering | FitKind::Stretching => Wanted::Number,
        };
        let low = self.lower(&fit.low, When::Fact, None, wanted);
        let high = match &fit.high {
            Some(high) => self.lower(high, When::Fact, None, wanted),
            None => low.clone(),
        };
        let between = match &fit.between {
            Some((from, to)) if !seam.poisoned => {
                Some((self.place_in_seam(from, seam)?, self.place_in_seam(to, seam)?))
            }
            _ => None,
        };
        Some(Fit { kind: fit.kind, low, high, between, span: fit.span })
    }

    pub(super) fn lower_stitch(&mut self, stitch: &tree::StitchWord) -> Option<Stitch> {
        let by_word = STITCHES.iter().find(|(word, _)| *word == &*stitch.word).map(|&(_, number)| number);
        let by_number =
            stitch.word.parse::<u16>().ok().filter(|number| KNOWN.iter().any(|class| class.contains(number)));
        if let Some(number) = by_word.or(by_number) {
            return Some(Stitch { number, span: stitch.span });
        }
        self.garment.incomplete.stitches = true;
        let title = format!("there is no stitch called {}", stitch.word);
        let words = STITCHES.map(|(word, _)| word);
        let diagnostic =
            Diagnostic::new(&catalogue::NAME_UNKNOWN, stitch.span, title).label("no such stitch");
        self.report(match nearest(&stitch.word, words) {
            Some(near) => diagnostic.did_you_mean(stitch.span, near),
            None => {
                let words = words.join(", ");
                diagnostic.help(format!("write its number in ISO 4915, for example 301, or one of {words}"))
            }
        });
        None
    }

    /// The seam that each split leaves between its pieces.
    pub(super) fn add_split_seams(&mut self) {
        for at in 0..self.garment.alterations.len() {
            let alteration = self.garment.alterations[at].clone();
            let ([target], [near, far]) = (alteration.targets.as_slice(), alteration.makes.as_slice()) else {
                continue;
            };
            let (Some(near_edge), Some(far_edge)) = (near.cut_edge, far.cut_edge) else { continue };
            // Who says how it is sewn has declared the seam.
            let names = |seam: &Seam, edge: EdgeId| {
                let mut edges = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
                edges.any(|sewn| sewn.edge == edge)
            };
            if self.garment.seams.iter().any(|seam| names(seam, near_edge) && names(seam, far_edge)) {
                continue;
            }
            let name = self.garment.edge(near_edge).name.clone();
            let span = alteration.span;
            let id = SeamId::from_index(self.garment.seams.len());
            let side = |piece: PieceId, edge| {
                let user = Some(User::Seam(id));
                let sewn = SewnEdge { layer: target.layer, piece, edge, on: None, user, span };
                Few::one(Chain {
                    edges: Few::one(sewn),
                    over: None,
                    caught: false,
                    only: None,
                    ring: false,
                    span,
                })
            };
            self.names.seams.entry(name.clone()).or_insert(id);
            self.garment.seams.push(Seam {
                first: side(near.piece, near_edge),
                second: side(far.piece, far_edge),
                by_split: true,
                ..empty_seam(name, span, span)
            });
        }
    }
}

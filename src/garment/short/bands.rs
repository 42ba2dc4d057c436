//! A band becomes its piece, and the seams that close it and sew it on.

use super::known::{edges_of, has_edge, is_edge, last, words};
use super::writing::{Writing, grouped, twice};
use super::{Written, cloth};
use crate::report::{Diagnostic, catalogue};
use crate::syntax::tree::{
    Band, Chain, Closure, ClosureItemNode, Cut, CutHow, Dotted, Expr, ExprKind, Fit, FitKind, Grain, Name,
    Outline, Piece, PieceItemNode, Quantity, RunWords, Seam, SeamItem, SeamItemNode, SewnWords,
    StatementNode, Underlap, Unit,
};
use std::sync::Arc;

/// What a band stands for; where its ends are not told, only why.
pub(super) fn written(writing: Writing, band: &Band) -> Written {
    let in_layer = in_layer_inside(band);
    let band = in_layer.as_ref().unwrap_or(band);
    let of = OfEdges { writing, band };
    let mut mistakes: Vec<Diagnostic> = of.without_share().into_iter().collect();
    mistakes.extend(cloth::wrong_layers(writing, &band.layer, band.stiffened.as_ref()));
    let ends = match of.ends() {
        Ok(ends) => ends,
        Err(mistake) => {
            mistakes.push(*mistake);
            return Written { mistakes, ..Written::default() };
        }
    };
    let mut parts = vec![of.piece()];
    let seams = [of.seam_of_ends(), Some(of.near(&ends)), of.far(&ends), of.underlap(&ends)];
    parts.extend(seams.into_iter().flatten().map(StatementNode::Seam));
    let layers = [Some(&band.layer), band.stiffened.as_ref()].into_iter().flatten();
    let layers = layers.map(|layer| (layer.text.clone(), band.name.clone())).collect();
    Written { parts, layers, mistakes }
}

/// The band whose far edge goes to the same edges in another layer, where that alone is named: `inside lining`.
fn in_layer_inside(band: &Band) -> Option<Band> {
    let inside = band.inside.as_ref()?;
    let [sewn] = inside.edges.as_slice() else { return None };
    let [layer] = sewn.edge.parts.as_slice() else { return None };
    let mut edges = band.edges.edges.clone();
    for own in &mut edges {
        let skip = own.edge.parts.len().saturating_sub(2);
        own.edge.parts.drain(..skip);
        own.edge.parts.insert(0, layer.clone());
    }
    Some(Band { inside: Some(Chain { edges, ..inside.clone() }), ..band.clone() })
}

/// A band that is being written out.
struct OfEdges<'a> {
    writing: Writing<'a>,
    band: &'a Band,
}

/// Where the ends of a band lie.
#[derive(Default)]
struct Ends {
    /// Which of its ends is spoken of: where it begins, or where the underlap does not lie.
    from_right: bool,
    /// What that end meets.
    meets: Option<Dotted>,
}

type Told<T> = Result<T, Box<Diagnostic>>;

impl OfEdges<'_> {
    /// Where its ends lie, or why that cannot be told.
    fn ends(&self) -> Told<Ends> {
        let (band, name) = (self.band, &self.band.name);
        let told = |at: crate::source::Span, title: String, label: &str, help: String| {
            let mistake = Diagnostic::new(&catalogue::BAND_ENDS, at, title);
            Err(Box::new(mistake.label(label).help(help)))
        };
        match (band.round, &band.joined, &band.opening) {
            (true, _, Some(opening)) => told(
                opening.span,
                format!("{} goes round and has no opening: its ends are sewn to each other", name.text),
                "no opening in a ring",
                "write along for a band with two ends, or leave the opening out".to_owned(),
            ),
            (true, None, None) => told(
                name.span,
                format!("{} goes round, and nothing says where its ends meet", name.text),
                "joined where?",
                match self.some_corner() {
                    Some(corner) => format!("say at which corner, for example joined at {corner}"),
                    None => "say at which corner: joined at piece.corner".to_owned(),
                },
            ),
            (true, Some(joined), None) => match &band.underlap {
                Some(underlap) => told(
                    underlap.length.span,
                    format!("{} goes round and has no end that could lie under the other", name.text),
                    "beyond which end?",
                    "write along and opening at … for a band with two ends".to_owned(),
                ),
                None => Ok(Ends { from_right: false, meets: Some(self.writing.layered(joined)) }),
            },
            (false, Some(joined), _) => told(
                joined.span,
                format!("{} goes along and has two ends, which are not joined", name.text),
                "joined here",
                "write round for a band whose ends meet, or leave this out".to_owned(),
            ),
            (false, None, None) => match &band.underlap {
                Some(underlap) => told(
                    underlap.length.span,
                    format!(
                        "nothing says where the ends of {} lie, so that one could lie under the other",
                        name.text
                    ),
                    "beyond which end?",
                    "say what lies between them: opening at …".to_owned(),
                ),
                None => Ok(Ends::default()),
            },
            (false, None, Some(opening)) => match opening.parts.as_slice() {
                [closure] => self.at_closure(closure),
                _ => self.at_slit(opening),
            },
        }
    }

    /// The corners where the band meets what a closure closes, by piece.
    fn at_closure(&self, named: &Name) -> Told<Ends> {
        let known = self.writing.known;
        let Some(closure) = known.closure(&named.text) else {
            let title = format!("there is no closure called {}", named.text);
            let mistake =
                Diagnostic::new(&catalogue::NAME_UNKNOWN, named.span, title).label("no such closure");
            let help = "an opening is at a closure or at a slit: opening at back_zip, or opening at sleeve.wrist_slit";
            return Err(Box::new(mistake.help(help)));
        };
        let mut corners: Vec<(Arc<str>, Dotted)> = Vec::new();
        for closed in edges_of(&closure.first).chain(edges_of(&closure.second)) {
            let Some((_, piece, edge)) = words(&closed.edge) else { continue };
            let own = edges_of(&self.band.edges).find(|own| {
                words(&own.edge).is_some_and(|(_, of, along)| {
                    let beside = known.beside(&of.text, &along.text);
                    of.text == piece.text
                        && beside.into_iter().flatten().any(|beside| beside.edge == edge.text)
                })
            });
            let Some((layer, of, along)) = own.and_then(|own| words(&own.edge)) else { continue };
            let beside = known.beside(&of.text, &along.text).into_iter().flatten();
            let corner = beside.filter(|beside| beside.edge == edge.text).find_map(|beside| beside.corner);
            if let Some(corner) = corner
                && !corners.iter().any(|(piece, _)| *piece == of.text)
            {
                let parts = layer.into_iter().chain([of]).cloned().chain([self.writing.given(&corner)]);
                let corner = Dotted { parts: parts.collect(), on: None, span: named.span };
                corners.push((of.text.clone(), self.writing.layered(&corner)));
            }
        }
        let Some(underlap) = &self.band.underlap else {
            let meets = corners.into_iter().next().map(|(_, corner)| corner);
            return Ok(Ends { from_right: false, meets });
        };
        match (corners.as_slice(), &*underlap.at.text) {
            ([(_, corner)], hand @ ("left" | "right")) => {
                // Right side out and sewn on by its lower edge, a band begins on the wearer's right of an opening.
                Ok(Ends { from_right: hand == "right", meets: Some(corner.clone()) })
            }
            ([(piece, first), (_, second)], at) => {
                let named = corners.iter().any(|(piece, _)| **piece == *at);
                let other = if **piece == *at { second } else { first };
                match named {
                    true => Ok(Ends { from_right: false, meets: Some(other.clone()) }),
                    false => self.no_such_end(underlap, &corners, &closure.name),
                }
            }
            _ => self.no_such_end(underlap, &corners, &closure.name),
        }
    }

    fn no_such_end(&self, underlap: &Underlap, corners: &[(Arc<str>, Dotted)], closure: &Name) -> Told<Ends> {
        let title = format!("no end of {} lies at {}", self.band.name.text, underlap.at.text);
        let help = match corners {
            [] => format!("{} closes no edge beside those that the band is sewn to", closure.text),
            [(piece, _)] if !self.is_on_both_sides(closure, piece) => {
                format!(
                    "at {} the band is sewn to {piece} alone: name the edge on its other side too",
                    closure.text
                )
            }
            [(piece, _)] => {
                format!("{} has {piece} on both sides: say underlap … at left, or at right", closure.text)
            }
            [(one, _), (other, _), ..] => format!("its ends lie at {one} and at {other}"),
        };
        let mistake = Diagnostic::new(&catalogue::BAND_ENDS, underlap.at.span, title);
        Err(Box::new(mistake.label("at neither end").also(closure.span, "the opening").help(help)))
    }

    /// Whether both sides of a closure are of that piece.
    fn is_on_both_sides(&self, closure: &Name, piece: &str) -> bool {
        let has = |chain: &Chain| {
            edges_of(chain).any(|sewn| words(&sewn.edge).is_some_and(|(_, of, _)| *of.text == *piece))
        };
        self.writing.known.closure(&closure.text).is_some_and(|own| has(&own.first) && has(&own.second))
    }

    /// Whether a closure closes an edge beside those that the band is sewn to.
    fn is_beside(&self, closure: &Closure) -> bool {
        let closed = edges_of(&closure.first).chain(edges_of(&closure.second));
        let mut closed = closed.filter_map(|sewn| words(&sewn.edge));
        closed.any(|(_, piece, edge)| {
            edges_of(&self.band.edges).filter_map(|own| words(&own.edge)).any(|(_, of, along)| {
                let mut beside = self.writing.known.beside(&of.text, &along.text).into_iter().flatten();
                of.text == piece.text && beside.any(|beside| beside.edge == edge.text)
            })
        })
    }

    fn at_slit(&self, slit: &Dotted) -> Told<Ends> {
        let side = |side: &str| {
            let parts = slit.parts.iter().cloned().chain([self.writing.given(side)]).collect();
            let mut corner = Dotted { parts, on: None, span: slit.span };
            if let [piece, _, _] = corner.parts.as_slice()
                && let Some(layer) = self.writing.known.layer_of(&piece.text)
            {
                corner.parts.insert(0, self.writing.given(&layer));
            }
            corner
        };
        let other = match &self.band.underlap {
            Some(underlap) => match &*underlap.at.text {
                "near" => "far",
                "far" => "near",
                _ => {
                    let title = format!("no end of {} lies at {}", self.band.name.text, underlap.at.text);
                    let mistake = Diagnostic::new(&catalogue::BAND_ENDS, underlap.at.span, title);
                    let help = "of a slit say which side: underlap … at near, or at far";
                    return Err(Box::new(mistake.label("at neither end").help(help)));
                }
            },
            None => "near",
        };
        Ok(Ends { from_right: false, meets: Some(side(other)) })
    }

    /// A corner that could be where its ends meet.
    fn some_corner(&self) -> Option<String> {
        edges_of(&self.band.edges).find_map(|sewn| {
            let (_, piece, edge) = words(&sewn.edge)?;
            let beside = self.writing.known.beside(&piece.text, &edge.text)?;
            let corner = beside.into_iter().find_map(|beside| beside.corner)?;
            Some(format!("{}.{corner}", piece.text))
        })
    }

    /// Of a knitted cloth the share has to be said.
    fn without_share(&self) -> Option<Diagnostic> {
        let share = self.band.share.as_ref();
        if share.is_some_and(|share| percent(share).is_none_or(|percent| percent <= 100.0)) {
            return None;
        }
        let fabric = cloth::knit_of(self.writing.known, &self.band.layer.text)?;
        let name = &self.band.name.text;
        if let Some(share) = share {
            let title = format!(
                "{name} is cut from {}, which is knit, and longer than what it is sewn to",
                fabric.text
            );
            let mistake = Diagnostic::new(&catalogue::BAND_SHARE, share.span, title);
            let help = "a knitted band is stretched onto its edge: say a share under 100%";
            return Some(mistake.label("more than all of it").also(fabric.span, "knit").help(help));
        }
        let title = format!(
            "{name} is cut from {}, which is knit, and nothing says how far it is stretched",
            fabric.text
        );
        let help = "say its share of what it is sewn to: at 85% for a rib, at 100% if it is not stretched";
        let mistake = Diagnostic::new(&catalogue::BAND_SHARE, self.band.name.span, title);
        Some(mistake.label("at which share?").also(fabric.span, "knit").help(help))
    }

    /// Whether it goes round all copies of a piece, end to end: that is said, or else a seam joins each of them to the next.
    fn goes_round_a_ring(&self) -> bool {
        if self.band.edges.ring || !self.band.round {
            return self.band.edges.ring;
        }
        let mut edges = edges_of(&self.band.edges);
        let (Some(Some((layer, piece, _))), None) =
            (edges.next().map(|sewn| words(&sewn.edge)), edges.next())
        else {
            return false;
        };
        self.writing.known.nodes().any(|node| {
            let StatementNode::Seam(seam) = node else { return false };
            let chains = || seam.first.plies.iter().chain(&seam.second.plies);
            let is_own = |sewn: &SewnWords| {
                words(&sewn.edge).is_some_and(|(in_layer, of, _)| {
                    of.text == piece.text
                        && layer.zip(in_layer).is_none_or(|(one, other)| one.text == other.text)
                })
            };
            chains().any(|chain| chain.ring) && chains().flat_map(edges_of).all(is_own)
        })
    }

    /// Whether it goes over the middle of the body, so that one does for both sides.
    fn goes_round_the_body(&self) -> bool {
        let known = self.writing.known;
        self.goes_round_a_ring()
            || edges_of(&self.band.edges).any(|sewn| {
                let Some((_, piece, edge)) = words(&sewn.edge) else { return false };
                let Some((cut, _)) = known.cut_at_last(&piece.text) else { return true };
                let beside = known.beside(&piece.text, &edge.text);
                match &cut.how {
                    CutHow::Alike => is_one(&cut),
                    CutHow::OnFold(fold) => {
                        beside.is_none_or(|both| both.iter().any(|beside| beside.edge == fold.text))
                    }
                    CutHow::Mirrored => {
                        let mut beside = beside.into_iter().flatten();
                        beside.any(|beside| self.joins_both(&piece.text, &beside.edge))
                    }
                }
            })
    }

    /// Whether a seam or a closure joins that edge of the left copy to that of the right one.
    fn joins_both(&self, piece: &str, edge: &str) -> bool {
        let has = |chains: &[Chain]| chains.iter().any(|chain| has_edge(chain, piece, edge));
        self.writing.known.nodes().any(|node| match node {
            StatementNode::Seam(seam) => has(&seam.first.plies) && has(&seam.second.plies),
            StatementNode::Closure(closure) => {
                has_edge(&closure.first, piece, edge) && has_edge(&closure.second, piece, edge)
            }
            _ => false,
        })
    }

    /// How long what it is sewn to is, as sewn, times its share.
    fn sewn_length(&self) -> Expr {
        let writing = self.writing;
        let edges = edges_of(&self.band.edges).map(|sewn| writing.edge_expr(&writing.layered(&sewn.edge)));
        let length = match self.goes_round_the_body() {
            true => writing.call("total", writing.sum(edges.collect())),
            false => writing.sum(edges.map(|edge| writing.call("finished", edge)).collect()),
        };
        match &self.band.share {
            Some(share) => writing.times(share.clone(), length),
            None => length,
        }
    }

    fn piece(&self) -> StatementNode {
        let (writing, band) = (self.writing, self.band);
        let mut items = vec![match self.goes_round_the_body() {
            true => writing.cut(1.0, CutHow::Alike),
            false => writing.item(PieceItemNode::Cut(self.cut_for_each())),
        }];
        if band.across.is_some() {
            items.push(writing.item(PieceItemNode::Grain(Grain::Across)));
        }
        let width = match &band.underlap {
            Some(underlap) => {
                writing.sum(vec![grouped(self.sewn_length()), grouped(underlap.length.clone())])
            }
            None => self.sewn_length(),
        };
        let height = if band.folded { twice(&band.depth) } else { band.depth.clone() };
        items.push(writing.item(PieceItemNode::Outline(Outline::Rectangle { width, height })));
        if band.folded {
            let (edge, onto) = (writing.given("top"), writing.given("bottom"));
            items.push(writing.item(PieceItemNode::Folded { edge, onto, in_four: false }));
        }
        let title = Some(writing.title(band.title.as_ref(), ""));
        StatementNode::Piece(Piece { name: band.name.clone(), like: None, title, block: false, items })
    }

    /// As many as there are of what it is sewn to.
    fn cut_for_each(&self) -> Cut {
        let writing = self.writing;
        let host = edges_of(&self.band.edges).find_map(|sewn| words(&sewn.edge).map(|(_, piece, _)| piece));
        let cut = host.and_then(|host| writing.known.cut_at_last(&host.text));
        match cut {
            Some((Cut { count, how: CutHow::OnFold(_), .. }, _) | (Cut { count, .. }, true)) => {
                Cut { count: writing.doubled(count), how: CutHow::Mirrored, loose: false }
            }
            Some((cut, false)) => Cut { loose: false, ..cut },
            None => Cut { count: writing.number(2.0), how: CutHow::Mirrored, loose: false },
        }
    }

    fn of(&self, word: &str) -> Dotted {
        self.writing.of(&self.band.layer, &self.band.name, word)
    }

    fn edge(&self, edge: &str) -> Chain {
        self.writing.chain(vec![self.of(edge)])
    }

    /// A long edge; with an underlap as much of it as is sewn on.
    fn long_edge(&self, edge: &str, ends: &Ends) -> Chain {
        let mut chain = self.edge(edge);
        if self.band.underlap.is_some()
            && let Some(sewn) = chain.edges.first_mut()
        {
            let counted = self.writing.given(&corner_of(edge, ends));
            let counted = Dotted { span: counted.span, on: None, parts: vec![counted] };
            sewn.run =
                Some(RunWords { from: None, to: self.sewn_length(), counted, span: self.writing.span });
        }
        chain
    }

    /// Its ends, sewn to each other or each to itself; none where a closure takes them or the maker says else.
    fn seam_of_ends(&self) -> Option<Seam> {
        let (writing, name) = (self.writing, self.writing.named("_ends"));
        if self.band.round {
            let mut seam = writing.seam(name, vec![self.edge("left")], vec![self.edge("right")]);
            seam.items.push(writing.matching(self.of("bottom_left"), self.of("bottom_right")));
            return Some(seam);
        }
        let closed = self.band.folded && self.band.inside.is_none() && !self.ends_are_taken();
        closed.then(|| writing.seam(name, vec![self.edge("left"), self.edge("right")], Vec::new()))
    }

    /// Whether something else is made of its ends.
    fn ends_are_taken(&self) -> bool {
        let piece = &*self.band.name.text;
        let is_end = |edge: &Dotted| is_edge(edge, piece, "left") || is_edge(edge, piece, "right");
        let has_end = |chain: &Chain| edges_of(chain).any(|sewn| is_end(&sewn.edge));
        let opening = self.band.opening.as_ref().and_then(last);
        self.writing.known.nodes().any(|node| match node {
            StatementNode::Seam(seam) => seam.first.plies.iter().chain(&seam.second.plies).any(has_end),
            StatementNode::Finish(finish) => finish.edges.iter().any(|sewn| is_end(&sewn.edge)),
            StatementNode::Closure(closure) => {
                let at_it = match &opening {
                    Some(name) => *name == closure.name.text,
                    None => self.is_beside(closure),
                };
                let takes = closure.items.iter().any(|item| match &item.node {
                    ClosureItemNode::Zipper(_) => true,
                    ClosureItemNode::Fasteners(row) => row.is_lapped(),
                });
                takes
                    && (closure.end_to_end.is_some() && at_it
                        || has_end(&closure.first)
                        || has_end(&closure.second))
            }
            _ => false,
        })
    }

    /// The seam that sews it on.
    fn near(&self, ends: &Ends) -> Seam {
        let (writing, band) = (self.writing, self.band);
        let mut plies = vec![self.long_edge("bottom", ends)];
        if band.folded && band.inside.is_none() {
            plies.push(self.long_edge("top", ends));
        }
        let ring = self.goes_round_a_ring();
        let chain = Chain { ring, ..writing.layered_chain(&band.edges) };
        let mut seam = writing.seam(band.name.clone(), plies, vec![chain]);
        seam.fit = self.fit();
        seam.items = band.items.clone();
        if let Some(meets) = &ends.meets {
            seam.items.push(writing.matching(self.of(&corner_of("bottom", ends)), meets.clone()));
        }
        seam
    }

    /// The seam of its far edge, where that goes to the inside.
    fn far(&self, ends: &Ends) -> Option<Seam> {
        let (writing, inside) = (self.writing, self.band.inside.as_ref()?);
        let chain = writing.layered_chain(inside);
        // The corner of the same name, in the layer inside.
        let meets = ends.meets.as_ref().and_then(|meets| {
            let (_, piece, corner) = words(meets)?;
            let same = edges_of(&chain).find_map(|sewn| {
                let (layer, of, _) = words(&sewn.edge)?;
                (of.text == piece.text).then_some((layer, of))
            });
            let (layer, piece) = same?;
            let parts = layer.into_iter().chain([piece, corner]).cloned().collect();
            Some(Dotted { parts, on: None, span: meets.span })
        });
        let mut seam = writing.seam(writing.named("_inside"), vec![self.long_edge("top", ends)], vec![chain]);
        seam.fit = self.fit();
        seam.items = self.band.items.iter().filter(|item| is_of_both(item)).cloned().collect();
        if let Some(meets) = meets {
            seam.items.push(writing.matching(self.of(&corner_of("top", ends)), meets));
        }
        Some(seam)
    }

    /// What it has beyond its seam is sewn to what lies on it.
    fn underlap(&self, ends: &Ends) -> Option<Seam> {
        self.band.underlap.as_ref().filter(|_| self.band.folded && self.band.inside.is_none())?;
        ends.meets.as_ref()?;
        let name = self.writing.named("_underlap");
        Some(self.writing.seam(name, vec![self.edge("bottom")], vec![self.edge("top")]))
    }

    /// By which share it is stretched, if it is.
    fn fit(&self) -> Option<Fit> {
        let share = self.band.share.as_ref()?;
        let kind = match percent(share) {
            Some(100.0) => return None,
            Some(number) if number > 100.0 => FitKind::Gathering,
            _ => FitKind::Stretching,
        };
        Some(Fit { kind, low: share.clone(), high: None, between: None, span: share.span })
    }
}

/// Whether what the maker says of the seam holds for the one inside too.
fn is_of_both(item: &SeamItem) -> bool {
    matches!(item.node, SeamItemNode::Allowance(_) | SeamItemNode::Stitch(_) | SeamItemNode::Notches { .. })
}

fn corner_of(edge: &str, ends: &Ends) -> String {
    format!("{edge}_{}", if ends.from_right { "right" } else { "left" })
}

/// The number of a share that is written in percent.
fn percent(share: &Expr) -> Option<f64> {
    match &share.kind {
        ExprKind::Quantity(Quantity { number, unit: Some(word), .. }) if word.unit == Unit::Percent => {
            Some(*number)
        }
        _ => None,
    }
}

fn is_one(cut: &Cut) -> bool {
    matches!(cut.count.kind, ExprKind::Quantity(Quantity { number, .. }) if number == 1.0)
}

//! Seams, finishes, placements, closures and cords.

use super::expression::Wanted;
use super::papers::When;
use super::place::SewnPlaceAt;
use super::sought::Sought;
use super::{Lowering, NamedPiece};
use crate::few::Few;
use crate::garment::{
    Alteration, Anchor, AnchorAt, Binding, BindingLoop, Catcher, Caught, Chain, ClosureKind, Cord, EdgeId,
    Fasteners, Finish, FinishId, FinishKind, Fit, Hem, HemEdge, LineFate, NotchSpacing, Over, PieceId,
    PlacedCorner, Placement, RunningOn, Seam, SeamId, SeamNotch, SeamNotches, SewnEdge, SewnPoint, SewnSpot,
    Stitch, Symbol, User,
};
use crate::report::{Diagnostic, catalogue, nearest};
use crate::source::Span;
use crate::syntax::tree::{
    self, ClosureItemNode, Fastener, FitKind, HostPlace, PlaceItemNode, SeamItemNode, StatementNode,
};
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

impl Lowering<'_> {
    pub(super) fn lower_sewing(&mut self) {
        let merged = self.merged;
        for declaration in &merged.declarations {
            let span = declaration.statement.span;
            match &declaration.statement.node {
                StatementNode::Seam(seam) => self.lower_seam(seam, span),
                StatementNode::Finish(finish) => self.lower_finish(finish, span),
                StatementNode::Place(place) => self.lower_place(place, span),
                StatementNode::Closure(closure) => self.lower_closure(closure),
                StatementNode::Opening(opening) => self.lower_opening(opening, span),
                StatementNode::StitchedRow(row) => self.lower_stitched_row(row, span),
                StatementNode::Tack(tack) => self.lower_tack(tack, span),
                StatementNode::Cord(cord) => {
                    let length = self.lower(&cord.length, When::Fact, None, Wanted::Length);
                    let ends =
                        cord.ends.as_ref().map(|ends| self.lower(ends, When::Fact, None, Wanted::Length));
                    let through =
                        cord.through.iter().filter_map(|edge| self.named_edge(edge, false, None)).collect();
                    self.garment.cords.push(Cord {
                        name: cord.name.text.clone(),
                        length,
                        through,
                        ends,
                        span,
                    });
                }
                _ => {}
            }
        }
        self.add_split_seams();
        self.check_untils();
        self.check_followers();
    }

    /// An edge, or, where `lines` may be named too, a line: buttons stand on a centre line.
    pub(super) fn named_edge(
        &self,
        dotted: &tree::Dotted,
        lines: bool,
        user: Option<User>,
    ) -> Option<SewnEdge> {
        let (part, edge) = self.find_dotted_edge(dotted)?;
        if self.garment.edge(edge).line && !lines && !self.is_cut_along(edge) {
            let name = self.garment.edge(edge).name.clone();
            let diagnostic = Diagnostic::new(
                &catalogue::NAME_UNKNOWN,
                dotted.span,
                format!("{name} is a line inside the piece, not an edge"),
            )
            .label("a line")
            .also(self.garment.edge(edge).span, "drawn here")
            .help("only edges are sewn: name an edge, or split the piece at this line");
            self.report(diagnostic);
            return None;
        }
        if self.is_in_layer(part, dotted.span) {
            let (NamedPiece { layer, piece }, on) = (part, dotted.on);
            return Some(SewnEdge { layer, piece, edge, on, user, span: dotted.span });
        }
        None
    }

    /// After a `cut off` the cut is an edge with the line's name.
    pub(super) fn is_cut_along(&self, line: EdgeId) -> bool {
        let cuts_off = |alteration: &&Alteration| {
            let becomes_edge = alteration.form().is_some_and(|form| form.line == LineFate::BecomesEdge);
            becomes_edge && alteration.makes.is_empty()
        };
        let cut = self.garment.alterations.iter().filter(cuts_off).flat_map(|alteration| &alteration.targets);
        cut.into_iter().any(|target| self.garment.is_run_of(line, target.edge))
    }

    /// Whether the layer that is named really has that piece, or what became of it.
    fn is_in_layer(&self, part: NamedPiece, span: Span) -> bool {
        let Some(layer) = part.layer else { return true };
        let mut open = vec![part.piece];
        let mut made = 0;
        while let Some(piece) = open.get(made).copied() {
            made += 1;
            if self.garment.layer(layer).pieces.contains(&piece) {
                return true;
            }
            let children = self
                .garment
                .piece(piece)
                .papers
                .first()
                .map(|&paper| self.garment.paper(paper).becomes.clone());
            open.extend(
                children.unwrap_or_default().into_iter().map(|paper| self.garment.paper(paper).piece),
            );
        }
        if self.garment.incomplete.layers {
            return false;
        }
        let (layer_name, piece_name) =
            (self.garment.layer(layer).name.clone(), self.garment.piece(part.piece).name.clone());
        let diagnostic =
            Diagnostic::new(&catalogue::PART_MISSING, span, self.garment.layer_lacks(layer, part.piece))
                .label("no such part")
                .also(self.garment.layer(layer).span, "the layer is declared here")
                .help(format!("add {piece_name} to the layer {layer_name}, or name another layer"));
        self.report(diagnostic);
        false
    }

    pub(super) fn lower_chain(
        &mut self,
        chain: &tree::Chain,
        lines: bool,
        user: Option<User>,
    ) -> Option<Chain> {
        let edges: Vec<Option<SewnEdge>> =
            chain.edges.iter().map(|sewn| self.named_portion(sewn, lines, user)).collect();
        let edges: Option<Few<SewnEdge>> = edges.into_iter().collect();
        Some(Chain { edges: edges?, over: None, ring: chain.ring, span: chain.span })
    }

    fn lower_side(&mut self, side: &tree::Side, user: User) -> Option<Few<Chain>> {
        let mut plies: Vec<Chain> = Vec::with_capacity(side.plies.len());
        for chain in &side.plies {
            let ply = plies.len();
            let lowered = self.lower_chain(chain, false, Some(user))?;
            plies.push(lowered);
            for (edge, first) in chain.edges.iter().enumerate() {
                for words in &first.over {
                    let sewn = self.named_portion(words, false, Some(user))?;
                    let over = Some(Over { ply, edge });
                    plies.push(Chain { edges: Few::one(sewn), over, ring: false, span: words.span });
                }
            }
        }
        Some(plies.into())
    }

    fn sewn_point(&self, dotted: &tree::Dotted, seam: &Seam) -> Option<SewnPoint> {
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

    fn lower_seam(&mut self, tree: &tree::Seam, span: Span) {
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

    fn lower_fit(&mut self, fit: &tree::Fit, seam: &Seam) -> Option<Fit> {
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

    pub(super) fn lower_stitch(&self, stitch: &tree::StitchWord) -> Option<Stitch> {
        let by_word = STITCHES.iter().find(|(word, _)| *word == &*stitch.word).map(|&(_, number)| number);
        let by_number = stitch.word.parse::<u16>().ok().filter(|number| (101..=699).contains(number));
        if let Some(number) = by_word.or(by_number) {
            return Some(Stitch { number, span: stitch.span });
        }
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

    fn lower_finish(&mut self, tree: &tree::Finish, span: Span) {
        let user = Some(User::Finish(FinishId::from_index(self.garment.finishes.len())));
        let edges: Vec<SewnEdge> =
            tree.edges.iter().filter_map(|sewn| self.named_portion(sewn, false, user)).collect();
        self.said_round(&tree.edges, "finish");
        let length = |expr: &tree::Expr| self.lower(expr, When::Fact, None, Wanted::Length);
        let kind = match &tree.kind {
            tree::FinishKind::Hem(hem) => FinishKind::Hem(Hem {
                depth: length(&hem.depth),
                raw_edge: match &hem.raw_edge {
                    tree::HemEdge::TurnedOnce => HemEdge::TurnedOnce,
                    tree::HemEdge::TurnedUnder(under) => HemEdge::TurnedUnder(length(under)),
                    tree::HemEdge::TurnedTwice => HemEdge::TurnedTwice,
                },
                turn_up: hem.turn_up.as_ref().map(length),
            }),
            tree::FinishKind::Bound(binding) => FinishKind::Bound(self.lower_binding(binding)),
            tree::FinishKind::Casing { depth, elastic } => {
                let depth = length(depth);
                let elastic = elastic.as_ref().map(|(width, of)| (length(width), length(of)));
                FinishKind::Casing(depth, elastic)
            }
            tree::FinishKind::Elastic { width, length: of } => FinishKind::Elastic(length(width), length(of)),
            tree::FinishKind::Tape(width) => FinishKind::Tape(width.as_ref().map(length)),
            tree::FinishKind::TurnedUnderOnto(seam) => match self.find_catcher(seam) {
                Some(Catcher::Seam(seam)) => FinishKind::TurnedUnderOnto(seam),
                Some(Catcher::Closure(_)) => {
                    let title = format!("{} is a closure, and nothing is felled onto it", seam.text);
                    let help = "name the seam whose stitching the edge is sewn down onto";
                    self.report(
                        Diagnostic::new(&catalogue::FINISH_ONTO, seam.span, title)
                            .label("no seam")
                            .help(help),
                    );
                    FinishKind::Poison
                }
                None => FinishKind::Poison,
            },
            tree::FinishKind::Overlocked => FinishKind::Overlocked,
            tree::FinishKind::Raw => FinishKind::Raw,
        };
        let share = |expr: &tree::Expr| self.lower(expr, When::Fact, None, Wanted::Number);
        let binding_stretch = tree.binding_stretch.as_ref().map(share);
        let stitch = tree.stitch.as_ref().and_then(|stitch| self.lower_stitch(stitch));
        let kind_span = tree.kind_span;
        self.garment.finishes.push(Finish { edges, kind, kind_span, span, binding_stretch, stitch });
    }

    /// What closes along a ring has no ends: whether that is so.
    fn may_go_round(&self, tree: &tree::Closure, kind: &ClosureKind, kind_span: Span) -> bool {
        let Some(ring) = [&tree.first, &tree.second].into_iter().find(|chain| chain.ring) else {
            return true;
        };
        let name = &tree.name.text;
        let (span, title, help) = match (tree.end_to_end, kind) {
            (Some(span), _) => {
                let title = format!("{name} goes round in a ring, which has no ends");
                (span, title, "leave out from end to end".to_owned())
            }
            (None, ClosureKind::Zipper { .. }) => {
                let title = format!("{name} is a zip, which has two ends, and a ring has none");
                let help = "take snaps, hooks, toggles or ties; or name the edge of a single piece";
                (kind_span, title, help.to_owned())
            }
            (None, ClosureKind::Fasteners(said)) => {
                let Some((from, to)) = &said.between else { return true };
                let many = said.kind.many();
                let title = format!("{many} in a ring stand evenly all round it, from no place to another");
                let help = match said.kind {
                    Fastener::Button => {
                        "take snaps, hooks, toggles or ties, of which no first and last are said"
                    }
                    _ => "leave out from … to …",
                };
                (from.span.to(to.span), title, help.to_owned())
            }
        };
        let mistake = Diagnostic::new(&catalogue::SEAM_RING, span, title).also(ring.span, "a ring");
        self.report(mistake.help(help));
        false
    }

    /// Keeps which of the edges are said to lie in a ring.
    pub(super) fn said_round(&mut self, edges: &[tree::SewnWords], what: &str) {
        for words in edges.iter().filter(|words| words.ring) {
            if let Some(sewn) = self.attempt(|reading| reading.named_edge(&words.edge, true, None)).forget() {
                let portion = words.run.as_ref().map(|run| run.span);
                let span = portion.map_or(words.span, |run| run.to(words.span));
                let chain = Chain { edges: Few::one(sewn), over: None, ring: true, span };
                self.garment.rounds.push((chain, what.into()));
            }
        }
    }

    fn lower_binding(&mut self, tree: &tree::Binding) -> Binding {
        let length = |expr: &tree::Expr| self.lower(expr, When::Fact, None, Wanted::Length);
        let mut running_on: Vec<RunningOn> = Vec::new();
        for (long, end) in &tree.running_on {
            match running_on.iter().find(|one| one.end == *end) {
                Some(first) => self.report_said_twice("binding", "end", first.length.span, long.span),
                None => running_on.push(RunningOn { length: length(long), end: *end }),
            }
        }
        let cut_from = tree.cut_from.as_ref().and_then(|name| self.find_cloth_named(name));
        let width = length(&tree.width);
        let mut loops = Vec::new();
        for (long, at) in &tree.loops {
            let length = self.lower(long, When::Fact, None, Wanted::Length);
            if let Some((_, point)) = self.sewn_place(&at.at, at.place.as_ref(), false) {
                loops.push(BindingLoop { length, at: point, span: at.span });
            }
        }
        Binding { width, cut_from, running_on, loops }
    }

    fn lower_place(&mut self, tree: &tree::Place, whole: Span) {
        let span = tree.piece.span.to(tree.on.span);
        let (Some(placed), Some(on)) = (self.find_part(&tree.piece), self.find_part(&tree.on)) else {
            return;
        };
        let has_parts = self.is_in_layer(placed, tree.piece.span) & self.is_in_layer(on, tree.on.span);
        let mut placement = Placement {
            layer: placed.layer,
            piece: placed.piece,
            on_layer: on.layer,
            on: on.piece,
            hand: tree.on.on,
            corners: Vec::new(),
            topstitched: Vec::new(),
            all_round: None,
            caught: Vec::new(),
            span,
            poisoned: !has_parts || self.is_damaged(whole),
        };
        for item in &tree.items {
            match &item.node {
                PlaceItemNode::Corner { corner, at } => {
                    let host = match at {
                        HostPlace::Point(at) => self.find_point(on.piece, at),
                        HostPlace::Edge(edge, place) => self
                            .find_edge(on.piece, edge)
                            .and_then(|found| self.point_on_edge(found, place, edge.span, true)),
                    };
                    match (self.find_point(placed.piece, corner), host) {
                        (Some(corner), Some(at)) => {
                            placement.corners.push(PlacedCorner { corner, at, span: item.span });
                        }
                        _ => placement.poisoned = true,
                    }
                }
                PlaceItemNode::Topstitch(edges) => {
                    for name in edges {
                        if let Some(edge) = self.find_edge(placed.piece, name) {
                            placement.topstitched.push((edge, name.span));
                        }
                    }
                }
                PlaceItemNode::TopstitchAllRound => placement.all_round = Some(item.span),
                PlaceItemNode::Caught { edges, in_seam } => {
                    let by = self.find_catcher(in_seam);
                    for name in edges {
                        if let (Some(edge), Some(by)) = (self.find_edge(placed.piece, name), by) {
                            placement.caught.push(Caught { edge, span: name.span, by });
                        }
                    }
                }
            }
        }
        if placement.corners.is_empty() && !placement.poisoned {
            let title = format!(
                "no place on {} is given for {}",
                self.garment.piece(on.piece).name,
                self.garment.piece(placed.piece).name
            );
            let help = "name a corner and a mark: corner bottom_left at pocket_corner";
            self.report(Diagnostic::new(&catalogue::PLACE_NOWHERE, span, title).label("where?").help(help));
            placement.poisoned = true;
        }
        self.garment.placements.push(placement);
    }

    pub(super) fn find_catcher(&self, name: &tree::Name) -> Option<Catcher> {
        if let Some(&seam) = self.names.seams.get(&name.text) {
            self.used(Symbol::Seam(seam), name.span);
            return Some(Catcher::Seam(seam));
        }
        if let Some(&closure) = self.names.closures.get(&name.text) {
            self.used(Symbol::Closure(closure), name.span);
            return Some(Catcher::Closure(closure));
        }
        let among = self.offered(self.names.seams.keys().chain(self.names.closures.keys()));
        self.unknown(Sought::SeamOrClosure, &name.text, name.span, &among);
        None
    }

    fn lower_closure(&mut self, tree: &tree::Closure) {
        let Some(&id) = self.names.closures.get(&tree.name.text) else { return };
        if self.garment.closure(id).name_span != tree.name.span {
            return; // a second one of that name, reported elsewhere
        }
        // What could not be read may stand on lines.
        let damaged = tree.items.is_empty() && self.is_damaged(self.garment.closure(id).span);
        let lines =
            damaged || tree.items.iter().any(|item| matches!(item.node, ClosureItemNode::Fasteners(_)));
        let user = Some(User::Closure(id));
        let (first, second) =
            (self.lower_chain(&tree.first, lines, user), self.lower_chain(&tree.second, lines, user));
        let named: Vec<SewnEdge> =
            [&first, &second].into_iter().flatten().flat_map(|chain| &chain.edges).copied().collect();
        let mut kind = None;
        let mut kind_span = tree.name.span;
        for item in &tree.items {
            if kind.is_some() {
                let diagnostic = Diagnostic::new(
                    &catalogue::NAME_DECLARED_TWICE,
                    item.span,
                    "a closure closes in one way",
                )
                .label("again here")
                .also(kind_span, "first here")
                .help("make two closures of it");
                self.report(diagnostic);
                break;
            }
            kind_span = item.span;
            kind = match &item.node {
                ClosureItemNode::Zipper(zipper) => Some(ClosureKind::Zipper {
                    kind: zipper.kind,
                    lengths: zipper
                        .lengths
                        .iter()
                        .map(|length| self.lower(length, When::Fact, None, Wanted::Length))
                        .collect(),
                    stocked: zipper.stocked,
                    showing: zipper
                        .showing
                        .as_ref()
                        .map(|showing| self.lower(showing, When::Fact, None, Wanted::Length)),
                    clear: zipper
                        .clear
                        .as_ref()
                        .map(|clear| self.lower(clear, When::Fact, None, Wanted::Length)),
                }),
                ClosureItemNode::Fasteners(row) => {
                    self.lower_fasteners(row, &named).map(|row| ClosureKind::Fasteners(Box::new(row)))
                }
            };
        }
        if tree.items.is_empty() && !self.is_damaged(self.garment.closure(id).span) {
            let title = format!("{} does not say how it closes", tree.name.text);
            let help = "say it in braces: { zipper separating 65 } or { buttons 6 of 15mm from … to … }; also \
                        snaps, hooks, toggles, buckle, ties";
            self.report(
                Diagnostic::new(&catalogue::CLOSURE_HOW, tree.name.span, title)
                    .label("a zip, buttons, snaps, hooks?")
                    .help(help),
            );
        }
        let kind = kind.filter(|_| !self.is_damaged(self.garment.closure(id).span));
        let kind = kind.filter(|kind| self.may_go_round(tree, kind, kind_span));
        let chains = first.zip(second).and_then(|(first, second)| match tree.end_to_end {
            Some(span) => self.with_rim(id, span, [first, second]),
            None => Some([first, second]),
        });
        let closure = &mut self.garment.closures[id.index()];
        closure.kind_span = kind_span;
        if let Some([first, second]) = chains {
            (closure.first, closure.second, closure.kind) = (first, second, kind);
        }
    }

    fn lower_fasteners(&mut self, tree: &tree::Fasteners, edges: &[SewnEdge]) -> Option<Fasteners> {
        let length = |said: &Option<tree::Expr>| {
            said.as_ref().map(|said| self.lower(said, When::Fact, None, Wanted::Length))
        };
        let count = tree.count.as_ref().map(|count| self.lower(count, When::Fact, None, Wanted::Number));
        let (size, stand) = (length(&tree.size), length(&tree.stand));
        let between = match &tree.between {
            Some((from, to)) => {
                let (from, to) = (self.lower_anchor(from, edges), self.lower_anchor(to, edges));
                Some((from?, to?))
            }
            None => None,
        };
        Some(Fasteners { kind: tree.kind, count, size, between, stand, over: tree.over })
    }

    fn lower_anchor(&mut self, anchor: &tree::Anchor, edges: &[SewnEdge]) -> Option<Anchor> {
        let span = anchor.span;
        let (distance, below, named) = match &anchor.at {
            tree::AnchorAt::Beside { distance, below, point } => (distance, *below, point),
            tree::AnchorAt::Place(_) if edges.is_empty() => return None,
            tree::AnchorAt::Place(place) => {
                let at = match self.place_along(edges, place, Sought::PointOfClosure)? {
                    SewnPlaceAt::Point(_, point) => AnchorAt::Point(point),
                    SewnPlaceAt::Share(share) => AnchorAt::Share(share),
                    SewnPlaceAt::From(..) => AnchorAt::Point(self.counted_on(edges, place)?),
                };
                return Some(Anchor { at, span });
            }
        };
        let distance = self.lower(distance, When::Fact, None, Wanted::Length);
        let mut among: Vec<Arc<str>> = Vec::new();
        for sewn in edges {
            let points = &self.piece_points[sewn.piece.index()];
            if let Some(&point) = points.get(&named.text) {
                self.used(Symbol::Point(point), named.span);
                return Some(Anchor { at: AnchorAt::Beside { distance, below, point }, span });
            }
            among.extend(points.keys().cloned());
        }
        if !edges.is_empty() {
            self.unknown(Sought::PointOfClosure, &named.text, named.span, &among);
        }
        None
    }

    /// The seam that each split leaves between its pieces.
    fn add_split_seams(&mut self) {
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
                Few::one(Chain { edges: Few::one(sewn), over: None, ring: false, span })
            };
            self.names.seams.entry(name.clone()).or_insert(id);
            self.garment.seams.push(Seam {
                name,
                name_span: span,
                label: None,
                span,
                first: side(near.piece, near_edge),
                second: side(far.piece, far_edge),
                fit: None,
                enclosing: Vec::new(),
                allowance: None,
                stitch: None,
                work: None,
                notches: Vec::new(),
                divided: Vec::new(),
                gaps: Vec::new(),
                matching: Vec::new(),
                poisoned: false,
                by_split: true,
                across_fold: false,
            });
        }
    }
}

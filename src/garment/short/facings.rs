//! A facing becomes its strips, the seams that join them as what they face is joined, and the seam that sews them on.

use super::known::{Beside, edges_of, has_edge, is_edge, last, words};
use super::writing::Writing;
use super::{Written, cloth};
use crate::report::{Diagnostic, catalogue};
use crate::syntax::tree::{
    Chain, Cut, CutHow, Dotted, ExprKind, Facing, Finish, FinishKind, Hand, Name, Outline, Piece, PieceItem,
    PieceItemNode, RowKind, RunWords, Seam, SeamItemNode, SewnWords, StatementNode, StitchedRow, StripEdge,
};
use std::sync::Arc;

/// How far from its edge a facing is understitched, in centimetres: common practice.
const UNDERSTITCHED: f64 = 0.2;

/// What a facing stands for.
pub(super) fn written(writing: Writing, facing: &Facing) -> Written {
    let mut of = OfEdges { writing, facing, hosts: Vec::new() };
    of.find_hosts();
    let slips = of.slips();
    if !slips.is_empty() {
        // What such a strip would be sewn to is told by nothing else.
        return Written { mistakes: slips, ..Written::default() };
    }
    let mut parts: Vec<StatementNode> = of.hosts.iter().map(|host| of.strip(host)).collect();
    let (joints, mut mistakes) = of.joints();
    mistakes.extend(cloth::wrong_layers(writing, &facing.layer, facing.stiffened.as_ref()));
    parts.extend(joints.into_iter().map(StatementNode::Seam));
    parts.push(StatementNode::Seam(of.seam()));
    parts.extend(of.neatened());
    parts.extend(of.understitching());
    let layers = [Some(&facing.layer), facing.stiffened.as_ref()].into_iter().flatten();
    let layers =
        layers.flat_map(|layer| of.hosts.iter().map(|host| (layer.text.clone(), host.strip.clone())));
    let layers = layers.collect();
    Written { parts, layers, mistakes }
}

/// A facing that is being written out.
struct OfEdges<'a> {
    writing: Writing<'a>,
    facing: &'a Facing,
    hosts: Vec<Host<'a>>,
}

/// An end of a strip: the piece that it lies behind, its edge, and the corner at what is faced.
type End<'h> = (&'h Host<'h>, Arc<str>, Option<Arc<str>>);

/// A piece that is faced.
struct Host<'a> {
    layer: Option<&'a Name>,
    piece: &'a Name,
    /// Its edges that are faced, and of which of them only runs are.
    edges: Vec<(&'a Name, Option<&'a RunWords>)>,
    /// The name of the strip.
    strip: Name,
    /// The one side of the body that is faced.
    on: Option<Hand>,
    /// What lies beside the strip on the piece: an edge, and the corner where it meets the faced ones.
    ends: Vec<(Arc<str>, Option<Arc<str>>)>,
    /// Where the strip ends inside an edge: the edge, and whether at the end of the run that is farther from what it is
    /// counted from.
    inside: Vec<(&'a Name, bool)>,
}

impl Host<'_> {
    /// What the strip's own end inside an edge is called, and the corner there.
    fn end_inside(edge: &Name, far: bool) -> String {
        format!("{}_{}", edge.text, if far { "far" } else { "near" })
    }
}

impl<'a> OfEdges<'a> {
    fn find_hosts(&mut self) {
        for sewn in edges_of(&self.facing.edges) {
            let Some((layer, piece, edge)) = words(&sewn.edge) else { continue };
            let faced = (edge, sewn.run.as_ref());
            match self.hosts.iter_mut().find(|host| host.piece.text == piece.text) {
                Some(host) => host.edges.push(faced),
                None => {
                    let strip = self.writing.named(&format!("_{}", piece.text));
                    let (on, ends, inside) = (sewn.edge.on, Vec::new(), Vec::new());
                    self.hosts.push(Host { layer, piece, edges: vec![faced], strip, on, ends, inside });
                }
            }
        }
        let known = self.writing.known;
        for host in &mut self.hosts {
            for &(edge, run) in &host.edges {
                let beside = known.beside(&host.piece.text, &edge.text);
                if let Some(run) = run {
                    let is_at = |one: &Beside| is_counted_at(run, one);
                    let at_corner = beside.as_ref().is_some_and(|both| both.iter().any(is_at));
                    if begins_beyond(run) || !at_corner {
                        host.inside.push((edge, false));
                    }
                    host.inside.push((edge, true));
                }
                for beside in beside.into_iter().flatten() {
                    let reaches = run.is_none_or(|run| !begins_beyond(run) && is_counted_at(run, &beside));
                    if reaches && !host.edges.iter().any(|(own, _)| own.text == beside.edge) {
                        host.ends.push((beside.edge, beside.corner));
                    }
                }
            }
        }
    }

    /// What no strip can be made of: two runs of one edge, and edges of one strip on different sides of the body.
    fn slips(&self) -> Vec<Diagnostic> {
        let mut slips = Vec::new();
        let all: Vec<&SewnWords> = edges_of(&self.facing.edges).collect();
        for (at, sewn) in all.iter().enumerate() {
            let before = all.iter().take(at);
            let is_of = |one: &Dotted| words(one).map(|(_, piece, _)| piece.text.clone());
            let of = is_of(&sewn.edge);
            let Some(other) = before.into_iter().find(|one| of.is_some() && is_of(&one.edge) == of) else {
                continue;
            };
            let (piece, name) = (of.unwrap_or_default(), &self.facing.name.text);
            if other.edge.on != sewn.edge.on {
                let title = format!(
                    "{name} has one strip behind {piece}, and its edges lie on different sides of the body"
                );
                let mistake = Diagnostic::new(&catalogue::STRIP_BROKEN, sewn.span, title);
                slips.push(
                    mistake.label(side_words(sewn.edge.on)).also(other.span, side_words(other.edge.on)).help(
                        "write on left, or on right, behind each of them; or make a facing for each side",
                    ),
                );
            } else if last(&other.edge) == last(&sewn.edge) {
                let title =
                    format!("{name} goes twice along {} of {piece}", last(&sewn.edge).unwrap_or_default());
                let mistake = Diagnostic::new(&catalogue::STRIP_BROKEN, sewn.span, title);
                slips.push(
                    mistake
                        .label("again here")
                        .also(other.span, "first here")
                        .help("make a facing for each run"),
                );
            }
        }
        slips.extend(self.sides_apart());
        slips
    }

    /// Strips of one facing that lie on different sides of the body, behind pieces that are there on both: they cannot run
    /// on in one another.
    fn sides_apart(&self) -> Option<Diagnostic> {
        let known = self.writing.known;
        let has_both = |piece: &Name| {
            let cut = known.cut_at_last(&piece.text);
            cut.is_some_and(|(cut, _)| matches!(cut.how, CutHow::OnFold(_) | CutHow::Mirrored))
        };
        let sides = edges_of(&self.facing.edges)
            .filter_map(|sewn| Some((sewn, words(&sewn.edge)?.1)))
            .filter(|(_, piece)| has_both(piece));
        let mut sides = sides.map(|(sewn, _)| sewn);
        let first = sides.next()?;
        let other = sides.find(|sewn| sewn.edge.on != first.edge.on)?;
        let of = |sewn: &SewnWords| words(&sewn.edge).map(|(_, piece, _)| piece.text.clone());
        if of(first) == of(other) {
            return None; // told already
        }
        let title = format!(
            "{} is one facing, and its edges lie on different sides of the body",
            self.facing.name.text
        );
        let mistake = Diagnostic::new(&catalogue::STRIP_BROKEN, other.span, title);
        Some(
            mistake
                .label(side_words(other.edge.on))
                .also(first.span, side_words(first.edge.on))
                .help("write on left, or on right, behind each of them; or make a facing for each side"),
        )
    }

    /// Whether the strip is the mirror image of the piece as that is drawn: right sides together, a single one is. Of pairs
    /// and halves on the fold both are there.
    fn is_turned(&self, host: &Host) -> bool {
        let known = self.writing.known;
        let items = known.piece(&host.piece.text).into_iter().flat_map(|piece| &piece.items);
        let Some(on) = host.on else {
            // A half that is unfolded is its own mirror image.
            let is_half = |item: &PieceItem| match &item.node {
                PieceItemNode::Cut(cut) => matches!(cut.how, CutHow::OnFold(_)),
                _ => false,
            };
            let cut = known.cut_at_last(&host.piece.text);
            let is_single = cut.is_some_and(|(cut, opened)| matches!(cut.how, CutHow::Alike) && !opened);
            return is_single && !items.into_iter().any(is_half);
        };
        let mut drawn = items.filter_map(|item| match &item.node {
            PieceItemNode::Drawn(hand) => Some(*hand),
            _ => None,
        });
        drawn.next().is_none_or(|drawn| drawn == on)
    }

    /// The words of the piece as the maker says them.
    fn host_words(&self, host: &Host) -> Dotted {
        let parts: Vec<Name> = host.layer.into_iter().chain([host.piece]).cloned().collect();
        let span = host.layer.map_or(host.piece.span, |layer| layer.span.to(host.piece.span));
        Dotted { parts, on: None, span }
    }

    fn strip(&self, host: &Host) -> StatementNode {
        let (writing, facing) = (self.writing, self.facing);
        let outline = Outline::Strip {
            of: self.host_words(host),
            along: host
                .edges
                .iter()
                .map(|&(edge, run)| StripEdge { edge: edge.clone(), run: run.cloned() })
                .collect(),
            width: facing.width.clone(),
            mirrored: self.is_turned(host),
        };
        let cut = writing.item(PieceItemNode::Cut(self.cut(host)));
        let items = vec![cut, writing.item(PieceItemNode::Outline(outline))];
        let named = writing.known.piece(&host.piece.text).and_then(|piece| piece.title.as_ref());
        let whose = named.map_or_else(|| host.piece.text.replace('_', " "), |title| within(&title.text));
        let title = Some(writing.title(facing.title.as_ref(), &format!(", {whose}")));
        StatementNode::Piece(Piece { name: host.strip.clone(), like: None, title, block: false, items })
    }

    /// As the piece is cut; on its fold if the strip goes to there.
    fn cut(&self, host: &Host) -> Cut {
        let writing = self.writing;
        if host.on.is_some() {
            return Cut { count: writing.number(1.0), how: CutHow::Alike, loose: false };
        }
        let pair = |count| Cut { count, how: CutHow::Mirrored, loose: false };
        match writing.known.cut_at_last(&host.piece.text) {
            Some((Cut { count, how: CutHow::OnFold(fold), .. }, _)) => {
                let is_unknown = host.ends.is_empty() && host.inside.is_empty();
                let reaches = is_unknown || host.ends.iter().any(|(edge, _)| *edge == fold.text);
                match reaches {
                    true => Cut { count, how: CutHow::OnFold(fold), loose: false },
                    false => pair(writing.doubled(count)),
                }
            }
            Some((cut, true)) => pair(writing.doubled(cut.count)),
            Some((cut, false)) => Cut { loose: false, ..cut },
            None => Cut { count: writing.number(1.0), how: CutHow::Alike, loose: false },
        }
    }

    fn of(&self, host: &Host, word: &str) -> Dotted {
        self.writing.of(&self.facing.layer, &host.strip, word)
    }

    /// The seams that join the strips as the pieces behind which they lie are joined.
    fn joints(&self) -> (Vec<Seam>, Vec<Diagnostic>) {
        let (mut joints, mut mistakes) = (Vec::new(), Vec::new());
        for node in self.writing.known.nodes() {
            let StatementNode::Seam(seam) = node else { continue };
            // A seam that goes round, as that of a bag, joins both ends of each strip.
            let times = self.times_faced(&seam.first.plies).min(self.times_faced(&seam.second.plies));
            for nth in 0..times {
                let (first, second) =
                    (self.faced(&seam.first.plies, nth), self.faced(&seam.second.plies, nth));
                let behind = if nth == 0 { String::new() } else { format!("_{}", nth + 1) };
                let name = self.writing.named(&format!("_{}{behind}", seam.name.text));
                if let Some(taken) = self.taken(&name.text) {
                    let title = format!(
                        "{} joins its strips by a seam {}, and that name is taken",
                        self.facing.name.text, name.text
                    );
                    let span = self.facing.name.span;
                    let mistake = Diagnostic::new(&catalogue::NAME_DECLARED_TWICE, span, title);
                    mistakes.push(
                        mistake
                            .label("this facing")
                            .also(taken.span, "taken here")
                            .help("give one of them another name"),
                    );
                    continue;
                }
                let meeting = match (first.as_slice(), second.as_slice()) {
                    ([(one, _, Some(a))], [(other, _, Some(b))]) if one.strip.text != other.strip.text => {
                        Some(self.writing.matching(self.of(one, a), self.of(other, b)))
                    }
                    _ => None,
                };
                let side = |ends: Vec<End>| {
                    vec![self.writing.chain(ends.iter().map(|(host, edge, _)| self.of(host, edge)).collect())]
                };
                let mut joint = self.writing.seam(name, side(first), side(second));
                joint.items.extend(meeting);
                joints.push(joint);
            }
        }
        (joints, mistakes)
    }

    /// How many ends of each strip that side of a seam has, of the one that it has fewest of.
    fn times_faced(&self, plies: &[Chain]) -> usize {
        let many = self.hosts.iter().map(|host| self.ends_in(host, plies).len()).filter(|many| *many > 0);
        many.min().unwrap_or(0)
    }

    /// Of each piece of which edges beside the strip are in that side of a seam the nth of them, with the corner at the
    /// strip.
    fn faced(&self, plies: &[Chain], nth: usize) -> Vec<End<'_>> {
        let mut found = Vec::new();
        for host in &self.hosts {
            if let Some(edge) = self.ends_in(host, plies).into_iter().nth(nth) {
                let corner =
                    host.ends.iter().find(|(own, _)| *own == edge).and_then(|(_, corner)| corner.clone());
                found.push((host, edge, corner));
            }
        }
        found
    }

    /// The edges beside the strip that are in that side of a seam, in its order.
    fn ends_in(&self, host: &Host, plies: &[Chain]) -> Vec<Arc<str>> {
        let mut found: Vec<Arc<str>> = Vec::new();
        for sewn in plies.iter().flat_map(edges_of) {
            let own = host.ends.iter().find(|(edge, _)| is_edge(&sewn.edge, &host.piece.text, edge));
            if let Some((edge, _)) = own.filter(|(edge, _)| !found.contains(edge)) {
                found.push(edge.clone());
            }
        }
        found
    }

    fn taken(&self, name: &str) -> Option<&Name> {
        self.writing.known.nodes().find_map(|node| match node {
            StatementNode::Seam(seam) if *seam.name.text == *name => Some(&seam.name),
            StatementNode::Closure(closure) if *closure.name.text == *name => Some(&closure.name),
            _ => None,
        })
    }

    /// The strips to what they face, edge for edge.
    fn seam(&self) -> Seam {
        let (writing, facing) = (self.writing, self.facing);
        let edges = edges_of(&facing.edges).filter_map(|sewn| {
            let (_, piece, edge) = words(&sewn.edge)?;
            let host = self.hosts.iter().find(|host| host.piece.text == piece.text)?;
            let parts = vec![facing.layer.clone(), host.strip.clone(), edge.clone()];
            Some(Dotted { parts, on: None, span: sewn.span })
        });
        let second = vec![writing.layered_chain(&facing.edges)];
        let mut seam = writing.seam(facing.name.clone(), vec![writing.chain(edges.collect())], second);
        seam.items = facing.items.clone();
        if facing.items.iter().any(|item| matches!(item.node, SeamItemNode::Matching(..))) {
            return seam;
        }
        // A run's end is where its piece and the strip are sure to meet.
        let run_end = self.hosts.iter().find_map(|host| Some((host, *host.inside.first()?)));
        let corner = self.hosts.first().and_then(|host| Some((host, host.ends.first()?.1.clone()?)));
        if let Some((host, (edge, far))) = run_end {
            let mut own = self.host_words(host);
            own.parts.push(edge.clone());
            // Two words before it, as an edge has them, tell the layer.
            own = writing.layered(&own);
            own.parts.push(writing.given(if far { "far" } else { "near" }));
            seam.items.push(writing.matching(self.of(host, &Host::end_inside(edge, far)), own));
        } else if let Some((host, corner)) = corner {
            let mut own = self.host_words(host);
            own.parts.push(writing.given(&corner));
            seam.items.push(writing.matching(self.of(host, &corner), writing.layered(&own)));
        }
        seam
    }

    /// Its inner edges, where nothing else is made of them.
    fn neatened(&self) -> Option<StatementNode> {
        let ends = |host: &Host| {
            let ends = host.inside.iter().map(|&(edge, far)| Host::end_inside(edge, far));
            ends.chain(["inner".to_owned()]).collect::<Vec<String>>()
        };
        let mut edges: Vec<Dotted> = Vec::new();
        for host in &self.hosts {
            let free = ends(host).into_iter().filter(|edge| !self.is_taken(host, edge));
            edges.extend(free.map(|edge| self.of(host, &edge)));
        }
        if edges.is_empty() {
            return None;
        }
        let edges = self.writing.chain(edges).edges;
        Some(StatementNode::Finish(match &self.facing.neatened {
            Some(said) => Finish {
                edges,
                kind: said.kind.clone(),
                kind_span: said.span,
                binding_stretch: said.binding_stretch.clone(),
                stitch: None,
            },
            None => Finish {
                edges,
                kind: FinishKind::Overlocked,
                kind_span: self.writing.span,
                binding_stretch: None,
                stitch: None,
            },
        }))
    }

    /// Whether the garment says itself what becomes of that edge of the strip.
    fn is_taken(&self, host: &Host, edge: &str) -> bool {
        let strip = &*host.strip.text;
        let has = |chain: &Chain| has_edge(chain, strip, edge);
        self.writing.known.nodes().any(|node| match node {
            StatementNode::Seam(seam) => seam.first.plies.iter().chain(&seam.second.plies).any(has),
            StatementNode::Finish(finish) => finish.edges.iter().any(|sewn| {
                last(&sewn.edge).is_some_and(|own| *own == *edge)
                    && words(&sewn.edge).is_some_and(|(_, piece, _)| *piece.text == *strip)
            }),
            _ => false,
        })
    }

    fn understitching(&self) -> Option<StatementNode> {
        let span = self.facing.understitched?;
        let edges = self
            .hosts
            .iter()
            .flat_map(|host| host.edges.iter().map(move |(edge, _)| self.of(host, &edge.text)));
        Some(StatementNode::StitchedRow(StitchedRow {
            name: Name { span, ..self.writing.named("_under") },
            kind: RowKind::Understitch,
            distance: Some(self.writing.centimetres(UNDERSTITCHED)),
            edges: self.writing.chain(edges.collect()).edges,
            rows: None,
            stitch: None,
        }))
    }
}

/// Whether a run begins elsewhere than where it is counted from: `3..19`, and not `0..19`.
fn begins_beyond(run: &RunWords) -> bool {
    run.from.as_ref().is_some_and(|from| match &from.kind {
        ExprKind::Quantity(quantity) => quantity.number != 0.0,
        _ => true,
    })
}

/// Whether a run is counted from the corner that its edge shares with that one.
fn is_counted_at(run: &RunWords, beside: &Beside) -> bool {
    let counted = last(&run.counted);
    run.counted.parts.len() == 1 && (counted == beside.corner || counted.as_deref() == Some(&*beside.edge))
}

fn side_words(on: Option<Hand>) -> &'static str {
    match on {
        Some(Hand::Left) => "on the left",
        Some(Hand::Right) => "on the right",
        None => "on both",
    }
}

/// A title inside another: "Front" is "front", "CB panel" stays.
fn within(title: &str) -> String {
    let mut letters = title.chars();
    let first = letters.next();
    let rest = letters.as_str();
    match first {
        Some(first) if rest.chars().next().is_some_and(char::is_lowercase) => {
            first.to_lowercase().chain(rest.chars()).collect()
        }
        _ => title.to_owned(),
    }
}

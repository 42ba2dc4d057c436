//! `opening/passes`: a closed neck, waist or cuff must go over head, hips or hand; `opening/ring`: what
//! is called an opening must be one.

use super::opening_layers;
use super::opening_lines::{self, chain_words};
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, ClosureKind, FinishId, FinishKind, Garment, Opening, Outline, SewnEdge};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::{CornerName, DrawnEdgeId};
use crate::sewing::{
    ELASTIC_STRETCH, Holder, OpeningRing, PartId, PassedRing, RingBreak, SeamEnd, TakenBy, amount_of,
};
use crate::source::Span;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::OPENING_PASSES, &catalogue::OPENING_RING], run: Run::PerSize(run) };

/// More edges that are missing are named without being shown.
const MOST_SHOWN: usize = 3;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let looking = Looking { garment, size };
    for (opening, found) in garment.openings.iter().zip(&size.sewn.openings) {
        let Some(found) = found else { continue };
        if let Some(first) = found.breaks.first() {
            findings.push(looking.broken(opening, first, found));
        } else if let Some(first) = opening_lines::plainest(&found.line_breaks) {
            findings.push(opening_lines::broken(garment, size, opening, first));
        } else if let Some((first, others)) = found.apart.split_first() {
            findings.push(looking.apart(opening, first, others));
        }
        let (Some(ring), Some(needed)) = (found.narrowest(), size.drawn.scalar(opening.passes)) else {
            continue;
        };
        let short = needed - ring.opens();
        if short.is_finite() && short > garment.tolerance {
            findings.push(looking.too_small(opening, ring, needed));
        }
    }
}

/// An edge of a ring.
type RingEdge = (PartId, DrawnEdgeId);

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
}

impl Looking<'_> {
    fn amount(&self, long: f64) -> String {
        amount(long, self.garment.unit)
    }

    fn too_small(&self, opening: &Opening, ring: &PassedRing, needed: f64) -> Finding {
        let garment = self.garment;
        let body = &garment.value(opening.passes).name;
        let short = needed - ring.opens();
        let (edges, by) = (chain_words(garment, &opening.ring), self.amount(short));
        let title = match ring.lines.is_empty() {
            true => format!("the opening of {edges} is {by} too small for the {body}"),
            false => format!("round {edges} it is {by} too small for the {body} to pass"),
        };
        let title = Title::new(title).in_sizes();
        let mut how = format!("{} round", self.amount(ring.length));
        if ring.reached {
            how = format!("{how} at {}", words::listed(&self.edges(ring)));
        }
        match ring.held_by {
            Some(Holder::Elastic(_)) => {
                let stretched = self.amount(ring.stretched);
                how = format!("{how}, {stretched} with its elastic stretched {ELASTIC_STRETCH} times");
            }
            _ if ring.stretched > ring.length + garment.tolerance => {
                how = format!("{how}, {} stretched", self.amount(ring.stretched));
            }
            _ => {}
        }
        for (closure, adds) in &ring.closures {
            how = format!("{how}, {} more with {} open", self.amount(*adds), garment.closure(*closure).name);
        }
        let mut mistake = Diagnostic::new(&catalogue::OPENING_PASSES, opening.ring.span, title)
            .label(how)
            .also(opening.passes_span, self.amount(needed));
        if let Some((span, words)) = ring.held_by.map(|by| self.holder(by)) {
            mistake = mistake.also(span, words);
        }
        let mistake = mistake.help(self.way_out(ring, short));
        Finding::new(self.size.id(), short, mistake)
            .about(opening.span.lo.to_string())
            .figure("opens to", self.amount(ring.opens()))
            .figure(body, self.amount(needed))
    }

    /// The edges that a ring runs along: "the neckline of Front", "the fold of Collar".
    fn edges(&self, ring: &PassedRing) -> Vec<String> {
        let Some(surface) = self.size.sewn.surface.as_ref() else { return Vec::new() };
        let mut found: Vec<String> = Vec::new();
        for part in &ring.parts {
            let side = surface.side_of(part.stretch);
            let at = side.part;
            let drawn = self.size.drawn.paper(self.size.sewn.part(at).part.paper);
            let edge = match drawn.and_then(|drawn| drawn.edge_at(side.edge)) {
                Some(drawn) if !side.fold => words::edge(self.garment, drawn.edge),
                _ => format!("the fold of {}", self.piece(at)),
            };
            if !found.contains(&edge) {
                found.push(edge);
            }
        }
        found
    }

    fn piece(&self, part: PartId) -> String {
        words::piece(self.garment, self.size.sewn.part(part).part.piece)
    }

    fn holder(&self, by: Holder) -> (Span, &'static str) {
        let garment = self.garment;
        match by {
            Holder::Elastic(at) => (garment.finish(at).kind_span, "held by this elastic"),
            Holder::Binding(at) => (garment.finish(at).kind_span, "held by this binding"),
            Holder::Tape(at) => (garment.finish(at).kind_span, "held by this tape"),
            Holder::FinishStitch(at) => {
                let finish = garment.finish(at);
                (finish.stitch.as_ref().map_or(finish.kind_span, |stitch| stitch.span), "held by this stitch")
            }
            Holder::RowStitch(at) => {
                let row = garment.row(at);
                (row.stitch.as_ref().map_or(row.name_span, |stitch| stitch.span), "held by this stitch")
            }
            Holder::SeamStitch(at) => {
                let seam = garment.seam(at);
                (seam.stitch.as_ref().map_or(seam.name_span, |stitch| stitch.span), "held by this stitch")
            }
            Holder::SeamTape(at) => {
                let seam = garment.seam(at);
                (seam.tape.as_ref().map_or(seam.name_span, |tape| tape.span), "held by this tape")
            }
            Holder::Fused(layer) => (garment.layer(layer).span, "held by what is fused on"),
            Holder::Ply(part) => {
                let piece = self.size.sewn.part(part).part.piece;
                (garment.piece(piece).span, "held by this, which is sewn to it")
            }
        }
    }

    fn way_out(&self, ring: &PassedRing, short: f64) -> String {
        let garment = self.garment;
        let by = at_least(short, garment.unit);
        let it = if ring.reached { words::listed(&self.edges(ring)) } else { "it".to_owned() };
        if let Some(&(id, _)) = ring.closures.first() {
            let closure = garment.closure(id);
            let what = match closure.kind {
                Some(ClosureKind::Zipper { .. }) => "the zip",
                _ => "the closure",
            };
            return format!(
                "make {what} of {} {} longer, or the opening {by} wider",
                closure.name,
                at_least(short / 2.0, garment.unit)
            );
        }
        match ring.held_by {
            // Wider alone does not help: the elastic would be stretched further.
            Some(Holder::Elastic(_)) => {
                let longer = at_least(short / ELASTIC_STRETCH, garment.unit);
                match ring.stretched < ring.length {
                    true => format!("take elastic that is at least {longer} longer, or give it a closure"),
                    false => format!("make {it} {by} wider and its elastic longer, or give it a closure"),
                }
            }
            Some(Holder::Binding(at)) if garment.finish(at).binding_stretch.is_none() => format!(
                "bought binding is counted as woven: of one that stretches say how far, {} stretch 50%; or make {it} \
                 {by} wider, or give it a closure",
                self.bound(at)
            ),
            Some(Holder::Binding(_)) => {
                format!("take a binding that stretches further, make {it} {by} wider, or give it a closure")
            }
            Some(Holder::Tape(_)) => {
                format!("tape gives nothing: finish {it} otherwise, make it {by} wider, or give it a closure")
            }
            Some(Holder::FinishStitch(_) | Holder::RowStitch(_) | Holder::SeamStitch(_)) => format!(
                "take a stitch that gives: 504 (overlock), 401 (two-thread chainstitch) or 304 (zigzag); or make \
                 {it} {by} wider, or give it a closure"
            ),
            Some(Holder::SeamTape(_)) => {
                format!("tape gives nothing: sew {it} without it, make it {by} wider, or give it a closure")
            }
            Some(Holder::Fused(_)) => format!(
                "fuse it with something that stretches, or not at all; or make {it} {by} wider, or give it a closure"
            ),
            Some(Holder::Ply(part)) => {
                let held = self.piece(part);
                format!(
                    "make {held} {by} longer, give it a closure, or take a cloth for it that stretches more"
                )
            }
            None if !ring.lines.is_empty() => opening_lines::way_out(garment, short),
            None => format!("make {it} {by} wider, give it a closure, or take a cloth that stretches more"),
        }
    }

    /// A binding as it is written: "bound 1cm".
    fn bound(&self, at: FinishId) -> String {
        let width = match &self.garment.finish(at).kind {
            FinishKind::Bound(binding) => amount_of(self.garment, &self.size.drawn, &binding.width),
            _ => None,
        };
        width.map_or_else(
            || "bound …".to_owned(),
            |width| format!("bound {}", words::written(&self.amount(width))),
        )
    }

    fn broken(&self, opening: &Opening, first: &RingBreak, found: &OpeningRing) -> Finding {
        let (garment, breaks) = (self.garment, &found.breaks);
        let open = opening_layers::open_alone(garment, self.size, opening, found);
        let says_layer = open.is_some() || opening.ring.edges.iter().any(|sewn| sewn.layer.is_some());
        let edges = chain_words(garment, &opening.ring);
        let ends: Vec<String> = breaks.iter().map(|one| self.corner(&one.at, says_layer)).collect();
        let (are, end) = if opening.ring.edges.len() > 1 { ("are", "they end") } else { ("is", "it ends") };
        let in_layer =
            open.as_ref().map_or_else(String::new, |open| format!(" in {}", garment.layer(open.layer).name));
        let title =
            format!("{edges} {are} no ring{in_layer}: {end} at {}", self.corner(&first.at, says_layer));
        let mut mistake = Diagnostic::new(&catalogue::OPENING_RING, opening.ring.span, title)
            .label(format!("ends at {}", words::listed(&ends)));
        let mut missing: Vec<(PartId, DrawnEdgeId)> = Vec::new();
        for edge in breaks.iter().flat_map(|one| &one.missing) {
            if !missing.contains(edge) {
                missing.push(*edge);
            }
        }
        let mut named: Vec<String> = Vec::new();
        for &(part, edge) in &missing {
            let part = self.size.sewn.part(part).part;
            let drawn = self.size.drawn.paper(part.paper).and_then(|drawn| drawn.edge_at(edge));
            let Some(edge) = drawn.map(|drawn| garment.edge(garment.whole_edge(drawn.edge))) else {
                continue;
            };
            // A copy's edges are written where the piece is that it is a copy of.
            let piece = garment.piece(part.piece);
            let is_copy = matches!(piece.drawing.outline, Outline::Copy { .. });
            let span = if is_copy { piece.span } else { edge.span };
            if missing.len() <= MOST_SHOWN {
                mistake = mistake.also(span, "leads on from there");
            }
            let name = garment.part_name(says_layer.then_some(part.layer), part.piece);
            named.push(format!("{name}.{}", edge.name));
        }
        once_each(&mut named);
        let layers = || opening.ring.edges.iter().map(|sewn| sewn.layer);
        let help = match named.is_empty() {
            _ if let Some(open) = &open => open.way_out(garment, opening),
            // What names no layer is meant in all of them.
            _ if layers().any(|layer| layer.is_none())
                && let Some(layer) = layers().flatten().next() =>
            {
                let of_one = |sewn: &SewnEdge| {
                    let name = garment.part_name(sewn.layer.or(Some(layer)), sewn.piece);
                    format!("{name}.{}", garment.edge(sewn.edge).name)
                };
                let edges: Vec<String> = opening.ring.edges.iter().map(of_one).collect();
                format!(
                    "some of its edges name a layer, and some none: opening {}  passes {}",
                    edges.join(" + "),
                    garment.value(opening.passes).name
                )
            }
            true => {
                "sew together the edges that end there, or give the opening a closure there; the edges of \
                     an opening run on into one another all round"
                    .to_owned()
            }
            false => format!(
                "say all of it: opening {} + {}  passes {}; or sew together the edges that end there",
                said(garment, &opening.ring),
                named.join(" + "),
                garment.value(opening.passes).name
            ),
        };
        Finding::new(self.size.id(), 0.0, mistake.help(help)).about(opening.span.lo.to_string())
    }

    /// Several rings of different edges: the one with the fewest goes round by itself, because of what is
    /// sewn beside it.
    fn apart(&self, opening: &Opening, first: &[RingEdge], others: &[Vec<RingEdge>]) -> Finding {
        let garment = self.garment;
        let rings = || std::iter::once(first).chain(others.iter().map(Vec::as_slice));
        let alone = rings().min_by_key(|ring| ring.len()).unwrap_or_default();
        let named = |ring: &[RingEdge]| -> Vec<String> {
            let drawn = |&(part, edge): &RingEdge| {
                let part = self.size.sewn.part(part).part;
                Some(self.size.drawn.paper(part.paper)?.edge_at(edge)?.edge)
            };
            ring.iter().filter_map(drawn).map(|edge| words::edge(garment, edge)).collect()
        };
        let by_itself = words::listed(&named(alone));
        let go = if alone.len() > 1 { "go" } else { "goes" };
        let are = if opening.ring.edges.len() > 1 { "are" } else { "is" };
        let edges = chain_words(garment, &opening.ring);
        let title = format!("{edges} {are} not one ring: {by_itself} {go} round alone");
        let each: Vec<String> = rings().map(|ring| words::listed(&named(ring))).collect();
        let mut mistake = Diagnostic::new(&catalogue::OPENING_RING, opening.ring.span, title).label(format!(
            "{} rings: {}",
            each.len(),
            each.join("; ")
        ));
        let mut seams: Vec<String> = Vec::new();
        for &(part, edge) in alone {
            let sewn = self.size.sewn.part(part);
            let Some(drawn) = self.size.drawn.paper(sewn.part.paper) else { continue };
            for beside in [drawn.before(edge), drawn.after(edge)] {
                let takers = sewn.fate(beside).into_iter().flat_map(|fate| &fate.takers);
                for taker in takers {
                    let TakenBy::Seam(id, _) = taker.what else { continue };
                    let seam = garment.seam(id);
                    if !seams.contains(&seam.name.to_string()) {
                        mistake = mistake.also(seam.name_span, "ends there");
                        seams.push(seam.name.to_string());
                    }
                }
            }
        }
        let help = match seams.is_empty() {
            true => "speak of each ring in an opening of its own".to_owned(),
            false => format!(
                "look which ends meet in {}: its edges are to run on into the others; or, if there are to be several \
                 rings, speak of each in an opening of its own",
                words::listed(&seams)
            ),
        };
        Finding::new(self.size.id(), 0.0, mistake.help(help)).about(opening.span.lo.to_string())
    }

    /// "front.neck_side"; of a corner without a name "the corner of side and hem of Front".
    fn corner(&self, end: &SeamEnd, says_layer: bool) -> String {
        let garment = self.garment;
        let part = self.size.sewn.part(end.part).part;
        match end.corner {
            CornerName::Named(point) => {
                let name = garment.part_name(says_layer.then_some(part.layer), part.piece);
                format!("{name}.{}", garment.point(point).name)
            }
            CornerName::Between(one, other) => format!(
                "the corner of {} and {} of {}",
                garment.edge(one).name,
                garment.edge(other).name,
                words::piece(garment, part.piece)
            ),
        }
    }
}

/// A chain as it is written: "front.neckline + back.neckline".
fn said(garment: &Garment, chain: &Chain) -> String {
    let edges = chain.edges.iter().map(|sewn| {
        format!("{}.{}", garment.part_name(sewn.layer, sewn.piece), garment.edge(sewn.edge).name)
    });
    edges.collect::<Vec<_>>().join(" + ")
}

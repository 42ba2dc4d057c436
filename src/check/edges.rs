//! `edge/loose`, `edge/twice` and `piece/unsewn`: every edge of what is sewn has just one fate.

use super::{Check, Run, partners, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    Catcher, Chain, Closure, ClosureKind, CutHow, EdgeId, Finish, FinishKind, Garment, PieceId, Seam,
    SewnEdge,
};
use crate::id_hash::IdMap;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::{DrawnPiece, SizedGarment};
use crate::sewing::{EdgeFate, SewnLayers, SewnPart, TakenBy, Taker, may_share, seam_edges};
use crate::source::Span;
use crate::syntax::tree::{Fastener, Hand};
use smallvec::SmallVec;
use std::sync::Arc;

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::EDGE_LOOSE, &catalogue::EDGE_TWICE, &catalogue::PIECE_UNSEWN],
    run: Run::PerSizeThenOver(run, partners::told),
};

/// How the title of a loose edge ends.
pub(super) const LOOSE: &str = " is neither sewn nor finished";

/// One edge in the layers in which the same is wrong with it.
struct Odd<'a> {
    edge: EdgeId,
    fate: &'a EdgeFate,
    parts: Vec<&'a SewnPart>,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let (mut loose, mut twice): (Vec<Odd>, Vec<Odd>) = (Vec::new(), Vec::new());
    let finder = size.finder(garment);
    let undrawn = |piece: PieceId| !finder.is_whole() && sized.is_partly_undrawn(garment, piece);
    let awaited = in_unsewn_seams(garment, finder.layers, &undrawn);
    let mut unsewn: Vec<(PieceId, Vec<&SewnPart>)> = Vec::new();
    let mut before: Option<PieceId> = None;
    let mut in_order: Vec<&SewnPart> = sewing.parts.iter().filter(|part| !part.fused).collect();
    in_order.sort_by_key(|part| part.part.piece);
    let (mut loose_from, mut twice_from) = (0, 0);
    for part in in_order {
        let Some(drawn) = sized.paper(part.part.paper) else { continue };
        if before.replace(part.part.piece) != Some(part.part.piece) {
            (loose_from, twice_from) = (loose.len(), twice.len());
        }
        if is_unsewn(part, drawn) {
            match unsewn.last_mut() {
                Some((piece, parts)) if *piece == part.part.piece => parts.push(part),
                _ => unsewn.push((part.part.piece, vec![part])),
            }
            continue;
        }
        let origins = if awaited.is_empty() { SmallVec::new() } else { garment.origins(part.part.piece) };
        for (edge, fate) in drawn.edges.iter().zip(&part.edges) {
            // What is loose of a slit is told of it as a whole.
            if fate.folded_in || fate.takers.is_empty() && garment.edge(edge.edge).side_of.is_some() {
                continue;
            }
            let is_awaited = || {
                let own = origins.iter().filter_map(|piece| awaited.get(piece)).flatten();
                own.into_iter().any(|&of| garment.is_run_of(edge.edge, of))
            };
            if fate.takers.is_empty() && is_awaited() {
                continue;
            }
            if fate.takers.is_empty() {
                add(&mut loose, loose_from, edge.edge, fate, part, |_| true);
            } else if !may_share(garment, &fate.takers) {
                add(&mut twice, twice_from, edge.edge, fate, part, |other| other.takers == fate.takers);
            }
        }
    }
    if !garment.incomplete.sewing {
        findings.extend(unsewn.iter().map(|(piece, parts)| finding_of_unsewn(garment, sized, *piece, parts)));
        findings.extend(loose.iter().map(|odd| finding_of_loose(garment, sized, odd)));
    }
    findings.extend(twice.iter().filter_map(|odd| finding_of_twice(garment, sized, odd)));
}

/// The edges of seams that no layer can sew, which is reported by `part/missing`, as are those that they name where they
/// are fused on; or of which a piece could not be drawn. By what the pieces that have them were drawn as.
fn in_unsewn_seams(
    garment: &Garment,
    layers: &SewnLayers,
    undrawn: &dyn Fn(PieceId) -> bool,
) -> IdMap<PieceId, Vec<EdgeId>> {
    let unsewn = garment
        .seams
        .iter()
        .filter(|seam| layers.of_seam(seam).is_empty() || seam_edges(seam).any(|sewn| undrawn(sewn.piece)));
    let is_fused = |sewn: &&SewnEdge| sewn.layer.is_some_and(|layer| garment.layer(layer).fused);
    let fused = garment.seams.iter().flat_map(seam_edges).filter(is_fused);
    let mut all: IdMap<PieceId, Vec<EdgeId>> = IdMap::default();
    for sewn in unsewn.flat_map(seam_edges).chain(fused) {
        for origin in garment.origins(garment.edge(sewn.edge).piece) {
            all.entry(origin).or_default().push(sewn.edge);
        }
    }
    all
}

fn add<'a>(
    all: &mut Vec<Odd<'a>>,
    from: usize,
    edge: EdgeId,
    fate: &'a EdgeFate,
    part: &'a SewnPart,
    same: impl Fn(&EdgeFate) -> bool,
) {
    match all.iter_mut().skip(from).find(|odd| odd.edge == edge && same(odd.fate)) {
        Some(odd) => odd.parts.push(part),
        None => all.push(Odd { edge, fate, parts: vec![part] }),
    }
}

/// Nothing takes any of its edges; where it is cut on the fold is no taking up.
fn is_unsewn(part: &SewnPart, drawn: &DrawnPiece) -> bool {
    !drawn.edges.is_empty()
        && part.edges.iter().flat_map(|fate| &fate.takers).all(|taker| taker.what == TakenBy::Fold)
}

/// "outer.front", "outer.front and lining.front"; without its layer where only one has the piece.
fn part_names(garment: &Garment, piece: PieceId, parts: &[&SewnPart]) -> Vec<String> {
    let layers = garment.layers.iter().filter(|layer| !layer.fused && layer.pieces.contains(&piece)).count();
    match layers {
        0 | 1 => vec![garment.piece(piece).name.to_string()],
        _ => once_each(parts).iter().map(|part| garment.part_name(Some(part.part.layer), piece)).collect(),
    }
}

/// The parts, without the right ones of those that are there with their left ones.
fn once_each<'a>(parts: &[&'a SewnPart]) -> Vec<&'a SewnPart> {
    let mut all: Vec<&SewnPart> = parts.to_vec();
    all.dedup_by(|later, earlier| later.part == earlier.part);
    all
}

/// The side of the body that all of them are on, where left and right are told apart and not both are there.
fn one_side(parts: &[&SewnPart]) -> Option<Hand> {
    let first = parts.first()?.hand?;
    parts.iter().all(|part| part.hand == Some(first)).then_some(first)
}

/// "Front", "Front in lining".
fn where_it_is(garment: &Garment, piece: PieceId, parts: &[&SewnPart]) -> String {
    let layers = garment.layers.iter().filter(|layer| !layer.fused && layer.pieces.contains(&piece)).count();
    let on = one_side(parts).map_or(String::new(), |hand| format!(" on the {}", hand.word()));
    let title = words::piece(garment, piece) + &on;
    let parts = once_each(parts);
    match layers > parts.len() {
        true => {
            let names: Vec<String> =
                parts.iter().map(|part| garment.layer(part.part.layer).name.to_string()).collect();
            format!("{title} in {}", words::listed(&names))
        }
        false => title,
    }
}

fn finding_of_unsewn(
    garment: &Garment,
    sized: &SizedGarment,
    piece: PieceId,
    parts: &[&SewnPart],
) -> Finding {
    let at = garment.piece(piece).span;
    let title =
        format!("{} is cut, but none of its edges is sewn or finished", where_it_is(garment, piece, parts));
    let names = part_names(garment, piece, parts);
    let mut mistake = Diagnostic::new(&catalogue::PIECE_UNSEWN, at, title).label("sewn to nothing");
    for part in once_each(parts) {
        mistake = mistake.also(garment.layer(part.part.layer).span, "cut in this layer");
    }
    let mistake = mistake.help(format!(
        "sew, finish or place the edges of {}; or leave it out of the layer",
        words::listed(&names)
    ));
    Finding::new(sized.size, parts.len() as f64, mistake)
}

fn finding_of_loose(garment: &Garment, sized: &SizedGarment, odd: &Odd) -> Finding {
    let own = odd.parts.first().map_or(odd.edge, |part| garment.edge_in(odd.edge, part.cloth()));
    let named = garment.edge(own);
    let piece = named.piece;
    let title = format!("the {} of {}{LOOSE}", named.name, where_it_is(garment, piece, &odd.parts));
    let names: Vec<String> = part_names(garment, piece, &odd.parts);
    let on = one_side(&odd.parts).map_or(String::new(), |hand| format!(" on {}", hand.word()));
    let edges: Vec<String> = names.iter().map(|part| format!("{part}.{}{on}", named.name)).collect();
    let mut mistake = Diagnostic::new(&catalogue::EDGE_LOOSE, named.span, title).label("left loose");
    let cut_in = once_each(&odd.parts);
    let all_layers =
        cut_in.len() >= garment.layers.iter().filter(|layer| layer.pieces.contains(&piece)).count();
    if !all_layers {
        for part in cut_in {
            mistake = mistake.also(garment.layer(part.part.layer).span, "in this layer");
        }
    }
    let is_of = |(of, edge): &(Arc<str>, Arc<str>)| *of == garment.piece(piece).name && *edge == named.name;
    if let Some(gone) = garment.dropped.iter().rev().find(|gone| gone.edges.iter().any(is_of)) {
        mistake = mistake.also(gone.dropped, format!("{} is dropped here", gone.what));
    }
    let line = format!("finish {} raw", edges.join(", "));
    mistake = mistake.fix(format!("leave it as it is cut: {line}"), vec![one_more_fact(garment, &line)]);
    let mistake = mistake.help(format!(
        "sew it, finish it, or write finish {} raw if it stays as it is cut; if only some of it is sewn \
         elsewhere, divide it in two",
        edges.join(", ")
    ));
    Finding::new(sized.size, 0.0, mistake).about(words::edge(garment, odd.edge))
}

/// One more line in the file that the maker is at work in: before its last finish or seam, which
/// begins a line of its own, and else at the file's end.
fn one_more_fact(garment: &Garment, line: &str) -> (Span, String) {
    let file = garment.first_file;
    let seams = garment.seams.iter().filter(|seam| !seam.by_split).map(|seam| seam.span);
    let finishes = garment.finishes.iter().map(|finish| finish.span);
    let last = |spans: &mut dyn Iterator<Item = Span>| {
        spans.filter(|span| file.lo <= span.lo && span.hi <= file.hi && !span.is_empty()).max()
    };
    match last(&mut finishes.into_iter()).or_else(|| last(&mut seams.into_iter())) {
        Some(last) => (Span::new(last.lo, last.lo), format!("{line}\n")),
        None => (Span::new(file.hi, file.hi), format!("\n{line}\n")),
    }
}

fn finding_of_twice(garment: &Garment, sized: &SizedGarment, odd: &Odd) -> Option<Finding> {
    let named = garment.edge(odd.edge);
    let (first, second) = match clashing(garment, &odd.fate.takers)? {
        // What takes up a fold is what the maker would change.
        (first, second) if second.what == TakenBy::Fold => (second, first),
        as_said => as_said,
    };
    let place = where_it_is(garment, named.piece, &odd.parts);
    let edge = format!("{}.{}", garment.piece(named.piece).name, named.name);
    let (one, other) = (taker_words(garment, first), taker_words(garment, second));
    let of = format!("the {} of {place}", named.name);
    let (title, help) = match (first.what, second.what) {
        (TakenBy::Seam(a, _), TakenBy::Seam(b, _)) if a == b && first.span == second.span => (
            format!("{of} is used twice by {one}, which is sewn in more than one layer"),
            format!(
                "{edge} is in one layer only: name the layer of the other side too, for example outer.front"
            ),
        ),
        (TakenBy::Seam(a, _), TakenBy::Seam(b, _)) if a == b => (
            format!("{of} is named twice on one side of {one}"),
            out_of_twice(garment, sized, garment.seam(a), odd, [first.span, second.span]),
        ),
        (TakenBy::Fold, _) | (_, TakenBy::Fold) => {
            let other = if first.what == TakenBy::Fold { &other } else { &one };
            let piece = &garment.piece(named.piece).name;
            (
                format!("{of} is cut on the fold, but {other} uses it too"),
                format!("open {piece} at {}, if it is to be an edge; or else remove the other", named.name),
            )
        }
        (TakenBy::Seam(seam, _), TakenBy::Closure(closure))
        | (TakenBy::Closure(closure), TakenBy::Seam(seam, _)) => {
            let (seam, closure) = (&garment.seam(seam).name, garment.closure(closure));
            // Buttons and snaps are never caught: they need cloth beyond their line.
            let is_caught = !matches!(&closure.kind, Some(ClosureKind::Fasteners(said)) if matches!(said.kind, Fastener::Button | Fastener::Snap));
            let closure = &closure.name;
            let help = match is_caught {
                true => format!(
                    "write enclosing {closure} in the seam {seam}, if the closure is caught in it; else \
                     divide {edge}"
                ),
                false => format!(
                    "draw a line inside the piece, where they are to lie, and name that in {closure}; or divide {edge}"
                ),
            };
            (format!("{of} is used twice: by {one} and by {other}"), help)
        }
        (TakenBy::Seam(seam, _), TakenBy::Finish(finish))
        | (TakenBy::Finish(finish), TakenBy::Seam(seam, _))
            if let Some(band) =
                elastic_band(garment, garment.seam(seam), garment.finish(finish), named.piece) =>
        {
            (
                format!("{of} is used twice: by {one} and by {other}"),
                format!(
                    "elastic lies in an edge that is turned over for it: take folded out of {0}, and say the casing of its free \
                     edge, finish {0}.top casing …",
                    garment.piece(band).name
                ),
            )
        }
        (TakenBy::Finish(_), TakenBy::Closure(closure)) | (TakenBy::Closure(closure), TakenBy::Finish(_))
            if laps(garment.closure(closure)) =>
        {
            let closure = &garment.closure(closure).name;
            (
                format!("{of} is used twice: by {one} and by {other}"),
                format!(
                    "leave {edge} out of the finish, since it goes on by the stand of {closure}; or draw a line inside the \
                     piece, where they are to lie, name that in {closure}, and finish the edge"
                ),
            )
        }
        _ => (
            format!("{of} is used twice: by {one} and by {other}"),
            format!("drop one of them, or divide {edge} so that each has its own run of it"),
        ),
    };
    let mistake = Diagnostic::new(&catalogue::EDGE_TWICE, second.span, title)
        .label(format!("by {other}"))
        .also(first.span, format!("by {one}"))
        .help(help);
    Some(Finding::new(sized.size, 0.0, mistake).about(words::edge(garment, odd.edge)))
}

/// The folded band that elastic was to run through: the piece itself, or what a seam sews to its edge.
fn elastic_band(garment: &Garment, seam: &Seam, finish: &Finish, piece: PieceId) -> Option<PieceId> {
    finish.kind.elastic()?;
    let is_folded = |piece: PieceId| !garment.piece(piece).folds.is_empty();
    let mut edges = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
    match is_folded(piece) {
        true => Some(piece),
        false => edges.find(|sewn| is_folded(sewn.piece)).map(|sewn| sewn.piece),
    }
}

/// Whether the edges that a closure lies on go on beyond it.
fn laps(closure: &Closure) -> bool {
    matches!(&closure.kind, Some(ClosureKind::Fasteners(said)) if said.stand.is_some())
}

/// The way out where a seam names an edge twice on one side.
fn out_of_twice(
    garment: &Garment,
    sized: &SizedGarment,
    seam: &Seam,
    odd: &Odd,
    [one, other]: [Span; 2],
) -> String {
    let plain = "remove one of them: all copies are meant by one name";
    let ply = |at: Span| {
        let holds = |chain: &Chain| chain.edges.iter().any(|sewn| sewn.span == at);
        seam.first.iter().chain(&seam.second).position(holds)
    };
    let named = garment.edge(odd.edge);
    let piece = garment.piece(named.piece);
    let paper = piece.papers.iter().find_map(|&paper| sized.paper(paper));
    let cut_in_all = paper.map_or(0, |paper| paper.count);
    let in_plies = ply(one) != ply(other);
    let plies = seam.first.iter().chain(&seam.second);
    let takes = |chain: &&Chain| chain.edges.iter().any(|sewn| sewn.edge == odd.edge);
    let count = plies.filter(takes).count();
    let Some(cut) = paper.map(|paper| paper.cut).filter(|_| in_plies) else { return plain.to_owned() };
    let mut layers =
        garment.layers.iter().filter(|layer| !layer.fused && layer.pieces.contains(&named.piece));
    let layer = layers.find_map(|layer| Some((&layer.name, layer.fabric?)));
    let (piece, edge) = (&piece.name, &named.name);
    let two = match cut {
        CutHow::Alike => {
            return format!("{plain}; or cut {count} of {piece}, if so many lie on one another there");
        }
        CutHow::OnFold(_) => format!("draw {piece} whole and cut {count} of it"),
        // Two pairs or more: which two lie on one another is told by their layers.
        CutHow::Mirrored if count == 2 && cut_in_all > 2 => String::new(),
        CutHow::Mirrored => format!("cut {count} of {piece} alike, not in pairs"),
    };
    let layer = layer.map_or_else(String::new, |(name, cloth)| {
        let cloth = &garment.fabric(cloth).name;
        let (one, cut) = match two.is_empty() {
            true => ("one pair", format!(", cut {} mirrored", cut_in_all / 2)),
            false => (", or one", String::new()),
        };
        format!(
            "{one} in each of two layers: layer under in {cloth} {{ {piece} }}{cut}, {name}.{piece}.{edge} and \
             under.{piece}.{edge}"
        )
    });
    match two.is_empty() && layer.is_empty() {
        true => plain.to_owned(),
        false => format!("{plain}; if {count} lie on one another there, {two}{layer}"),
    }
}

/// The first two that may not share the edge.
fn clashing<'a>(garment: &Garment, takers: &'a [Taker]) -> Option<(&'a Taker, &'a Taker)> {
    let pairs = takers
        .iter()
        .enumerate()
        .flat_map(|(at, one)| takers.iter().skip(at + 1).map(move |other| (one, other)));
    let mut clashes = pairs.filter(|(one, other)| !may_share(garment, &[**one, **other]));
    clashes.next()
}

fn taker_words(garment: &Garment, taker: &Taker) -> String {
    match taker.what {
        TakenBy::Seam(id, _) => garment.seam(id).words(),
        TakenBy::Closure(id) => format!("the closure {}", garment.closure(id).name),
        TakenBy::Finish(id) => finish_words(garment.finish(id)).to_owned(),
        TakenBy::Fold => "the fold".to_owned(),
        TakenBy::Strap(id) => format!("the strap {}", garment.strap(id).name),
        TakenBy::Topstitched(id) | TakenBy::Caught(id, _) => {
            format!("the placing on {}", garment.piece(garment.placement(id).on).name)
        }
    }
}

fn finish_words(finish: &Finish) -> &'static str {
    match finish.kind {
        FinishKind::Hem(_) => "a hem",
        FinishKind::Bound(_) => "a binding",
        FinishKind::Casing(..) => "a casing",
        FinishKind::Elastic(..) => "elastic",
        FinishKind::Tape(_) => "tape",
        FinishKind::TurnedUnderOnto(Catcher::Seam(_)) => "being turned under onto a seam",
        FinishKind::TurnedUnderOnto(Catcher::Closure(_)) => "being turned under onto a zip",
        FinishKind::Overlocked => "overlocking",
        FinishKind::Raw => "being left raw",
        FinishKind::Poison => "a finish",
    }
}

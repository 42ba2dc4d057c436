//! `piece/apart` and `piece/loose`: pieces that are sewn to one another, but not to the rest of the
//! garment; and the other way round, pieces that say they are joined to nothing, and are not.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Catcher, FinishKind, Garment, LayerId, PieceId};
use crate::id_hash::IdIndexMap;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::PartId;
use crate::sewing::surface::{FaceId, JoinedBy, Stretch, Surface, Union};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::PIECE_APART, &catalogue::PIECE_LOOSE], run: Run::PerForm(run) };

/// So many things that hang together by themselves are reported one by one; more, all at once.
const MOST_TOLD: usize = 4;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let Some(surface) = sewing.surface.as_ref() else { return };
    let components = felled_on(garment, surface, surface.components());
    if components.len() < 2 && !garment.pieces.iter().any(|piece| piece.cut.loose) {
        return;
    }
    // A left one and a right one of the same are one thing: mittens, gaiters.
    let mut things: IdIndexMap<Vec<PartId>, usize> = IdIndexMap::default();
    for component in components {
        let mut parts: Vec<PartId> = component.iter().map(|&face| surface.face(face).part).collect();
        parts.sort_unstable();
        parts.dedup();
        let large = things.entry(parts).or_insert(0);
        *large = (*large).max(component.len());
    }
    // What is loose hangs together with what is sewn to it.
    let is_loose = |parts: &[PartId]| parts.iter().any(|&part| loose(garment, sewing.part(part).part.piece));
    let main = things
        .iter()
        .enumerate()
        .max_by_key(|(at, (parts, large))| (!is_loose(parts.as_slice()), **large, std::cmp::Reverse(*at)));
    let Some((main, (own, _))) = main else { return };
    if let Some(at) = own.iter().position(|&part| !loose(garment, sewing.part(part).part.piece)) {
        let rest = own.get(at).map(|&part| sewing.part(part).part.piece);
        for piece in own.iter().map(|&part| sewing.part(part).part.piece) {
            // A strap has no such word that could be taken away.
            let is_strap = garment.straps.iter().any(|strap| strap.piece == piece);
            if let Some(rest) = rest.filter(|_| loose(garment, piece) && !is_strap) {
                findings.push(joined(garment, sized, piece, rest));
            }
        }
    }
    let layer = |parts: &[PartId]| -> Option<LayerId> {
        let mut layers = parts.iter().map(|&part| sewing.part(part).part.layer);
        let first = layers.next()?;
        let is_elsewhere = |part: &PartId| {
            let own = sewing.part(*part).part;
            sewing
                .parts
                .iter()
                .any(|other| other.part.piece == own.piece && other.part.layer != own.layer && !other.fused)
        };
        (layers.all(|layer| layer == first) && parts.iter().any(is_elsewhere)).then_some(first)
    };
    let pieces = |parts: &[PartId]| -> Vec<PieceId> {
        let mut pieces: Vec<PieceId> = parts.iter().map(|&part| sewing.part(part).part.piece).collect();
        pieces.sort();
        pieces.dedup();
        pieces
    };
    // What is placed and still hangs on nothing is one too many, or placed in a circle: that is reported.
    let is_placed = |piece: &PieceId| garment.placements.iter().any(|placement| placement.piece == *piece);
    let others = things.keys().enumerate().filter(|(at, parts)| *at != main && !is_loose(parts.as_slice()));
    let others = others.map(|(_, parts)| (pieces(parts), parts));
    let rest: Vec<(Vec<PieceId>, &Vec<PartId>)> =
        others.filter(|(own, _)| !own.iter().all(is_placed)).collect();
    let others: Vec<PieceId> = things.get_index(main).map(|(parts, _)| pieces(parts)).unwrap_or_default();
    if rest.len() > MOST_TOLD {
        let title = format!("the garment falls into {} things that nothing joins", rest.len() + 1);
        let warning = Diagnostic::new(&catalogue::PIECE_APART, garment.heading, title)
            .label("one garment")
            .help("sew them together; or say of what comes off on purpose: cut … loose");
        findings.push(Finding::new(sized.size, rest.len() as f64, warning));
        return;
    }
    for (own, parts) in rest {
        findings.extend(finding(garment, sized, (&own, layer(parts)), &others));
    }
}

/// The components with those in one that are felled onto a seam or a zip of another: a lining that is sewn in by hand.
fn felled_on(garment: &Garment, surface: &Surface, components: Vec<Vec<FaceId>>) -> Vec<Vec<FaceId>> {
    let onto = |stretch: &Stretch| match garment.finish(stretch.finish?).kind {
        FinishKind::TurnedUnderOnto(onto) => Some((stretch.face, onto)),
        _ => None,
    };
    let felled: Vec<(FaceId, Catcher)> = match components.len() {
        0 | 1 => Vec::new(),
        _ => surface.stretches.iter().filter_map(onto).collect(),
    };
    if felled.is_empty() {
        return components;
    }
    let mut of_face = vec![0; surface.faces.len()];
    for (at, component) in components.iter().enumerate() {
        component.iter().for_each(|face| of_face[face.index()] = at);
    }
    let mut together = Union::new(components.len());
    for (face, onto) in felled {
        // The left one hangs on the left one.
        let hosts = faces_of(surface, onto);
        let hand = surface.face(face).hand;
        let is_near =
            |at: &FaceId| hand.is_none_or(|hand| surface.face(*at).hand.is_none_or(|other| other == hand));
        if let Some(on) = hosts.iter().copied().find(is_near).or_else(|| hosts.first().copied()) {
            together.join(of_face[face.index()], of_face[on.index()]);
        }
    }
    let mut found: IdIndexMap<usize, Vec<FaceId>> = IdIndexMap::default();
    for (at, component) in components.into_iter().enumerate() {
        found.entry(together.root(at)).or_default().extend(component);
    }
    found.into_values().collect()
}

/// What a seam joins, or a zip is sewn to.
fn faces_of(surface: &Surface, onto: Catcher) -> Vec<FaceId> {
    match onto {
        Catcher::Seam(seam) => {
            let is_of = |by: &JoinedBy| matches!(by, JoinedBy::Seam { seam: own, .. } if *own == seam);
            let joins = surface.joins.iter().filter(|join| is_of(&join.by));
            joins.flat_map(|join| &join.plies).map(|ply| surface.face_of(ply.stretch)).collect()
        }
        Catcher::Closure(zip) => {
            let lines = surface.closures.iter().filter(|line| line.closure == zip);
            lines.flat_map(|line| line.faces.iter().flatten().copied()).collect()
        }
    }
}

/// Whether a piece is taken to be joined to nothing.
fn loose(garment: &Garment, piece: PieceId) -> bool {
    garment.piece(piece).cut.loose
}

fn joined(garment: &Garment, sized: &SizedGarment, piece: PieceId, rest: PieceId) -> Finding {
    let own = words::piece(garment, piece);
    let title = format!("{own} is cut loose, and yet it is joined to the rest of the garment");
    let advice = Diagnostic::new(&catalogue::PIECE_LOOSE, garment.piece(piece).cut.span, title)
        .label("joined to nothing, it says")
        .also(garment.piece(rest).span, "what it hangs on")
        .help("take the word loose away; or do not sew it on");
    Finding::new(sized.size, 0.0, advice)
}

fn finding(
    garment: &Garment,
    sized: &SizedGarment,
    (own, layer): (&[PieceId], Option<LayerId>),
    others: &[PieceId],
) -> Option<Finding> {
    let (first, more) = own.split_first()?;
    let names: Vec<String> = own.iter().map(|&piece| words::piece(garment, piece)).collect();
    let verb = if own.len() > 1 { "are" } else { "is" };
    let within = layer.map_or(String::new(), |layer| format!(" in {}", garment.layer(layer).name));
    let title = format!("{}{within} {verb} joined to nothing else of the garment", words::listed(&names));
    let mut warning = Diagnostic::new(&catalogue::PIECE_APART, garment.piece(*first).span, title)
        .label("comes away by itself");
    for &piece in more {
        warning = warning.also(garment.piece(piece).span, "hangs on it");
    }
    if let Some(&other) = others.iter().find(|piece| !own.contains(piece)) {
        warning = warning.also(garment.piece(other).span, "the rest hangs on this");
    }
    let warning = warning.help(format!(
        "sew {} on: a seam, a placement or a closure with the rest; or, if it comes off on purpose, say so: cut … loose",
        names.first()?
    ));
    Some(Finding::new(sized.size, own.len() as f64, warning))
}

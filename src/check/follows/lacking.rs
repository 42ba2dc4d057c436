//! A piece that was left out of a layer leaves all that would be sewn to it there loose: it is told once.

use crate::check::words;
use crate::garment::{Garment, LayerId, PieceId, Seam, SewnEdge};
use crate::report::Diagnostic;
use crate::report::catalogue;

/// Of a layer in which so many edges and pieces are sewn to nothing one piece may lack.
const LEAST: usize = 3;
/// So many seams are named.
const NAMED: usize = 3;

/// In place of the loose edges and unsewn pieces of a layer, the piece that all of them would be sewn to is told, where it is cut in
/// another layer and not there.
pub(super) fn told_once(garment: &Garment, mut found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    for (layer, declared) in LayerId::enumerate(&garment.layers).filter(|(_, layer)| !layer.fused) {
        let is_of_layer = |one: &Diagnostic| {
            one.is_any(&[&catalogue::EDGE_LOOSE, &catalogue::PIECE_UNSEWN])
                && one.places().any(|place| place == declared.span)
        };
        if found.iter().filter(|one| is_of_layer(one)).count() < LEAST {
            continue;
        }
        let elsewhere =
            |piece: PieceId| garment.layers.iter().any(|other| !other.fused && other.pieces.contains(&piece));
        let lacking = PieceId::enumerate(&garment.pieces).map(|(piece, _)| piece).filter(|&piece| {
            !declared.pieces.contains(&piece)
                && elsewhere(piece)
                && found.iter().filter(|one| is_of_layer(one)).all(|one| {
                    garment
                        .seams
                        .iter()
                        .any(|seam| may_lie_in(seam, layer) && has(garment, seam, one) && names(seam, piece))
                })
        });
        let lacking: Vec<PieceId> = lacking.collect();
        let [piece] = lacking[..] else { continue };
        let message = message(garment, layer, piece);
        found.retain(|one| !is_of_layer(one));
        found.push(message);
    }
    found
}

fn edges(seam: &Seam) -> impl Iterator<Item = &SewnEdge> {
    seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges)
}

/// Whether no other layer is named in it.
fn may_lie_in(seam: &Seam, layer: LayerId) -> bool {
    edges(seam).all(|sewn| sewn.layer.is_none_or(|own| own == layer))
}

fn names(seam: &Seam, piece: PieceId) -> bool {
    edges(seam).any(|sewn| sewn.piece == piece)
}

/// Whether a seam takes the edge or the piece that a message is about.
fn has(garment: &Garment, seam: &Seam, one: &Diagnostic) -> bool {
    let place = one.span();
    edges(seam).any(|sewn| match one.is(&catalogue::PIECE_UNSEWN) {
        true => garment.piece(sewn.piece).span == place,
        false => garment.edge(garment.whole_edge(sewn.edge)).span == place,
    })
}

/// How a seam would catch the piece in another layer that has it.
fn caught_in_one(garment: &Garment, seam: &Seam, layer: LayerId, piece: PieceId) -> Option<String> {
    [&seam.first, &seam.second].into_iter().find_map(|plies| {
        let caught =
            plies.iter().find(|chain| chain.caught && chain.edges.iter().any(|own| own.piece == piece))?;
        let over = caught.over?;
        let (own, host) = (caught.edges.first()?, plies.get(over.ply)?.edges.get(over.edge)?);
        let other = garment.layers.iter().enumerate().find(|(at, other)| {
            LayerId::from_index(*at) != layer
                && !other.fused
                && [own.piece, host.piece].iter().all(|piece| other.pieces.contains(piece))
        });
        let name = |edge| &garment.edge(garment.whole_edge(edge)).name;
        let (on, (_, other)) = (garment.piece(host.piece), other?);
        Some(format!(
            "caught {}.{} on {}.{}.{} …",
            garment.piece(own.piece).name,
            name(own.edge),
            other.name,
            on.name,
            name(host.edge)
        ))
    })
}

fn message(garment: &Garment, layer: LayerId, piece: PieceId) -> Diagnostic {
    let declared = garment.layer(layer);
    let seams = garment.seams.iter().filter(|seam| {
        may_lie_in(seam, layer)
            && names(seam, piece)
            && edges(seam).any(|sewn| declared.pieces.contains(&sewn.piece))
    });
    let seams: Vec<&Seam> = seams.collect();
    let mut named: Vec<String> = seams.iter().take(NAMED).map(|seam| seam.words()).collect();
    if seams.len() > NAMED {
        named.push(format!("{} more", seams.len() - NAMED));
    }
    let own = garment.piece(piece);
    let title = format!(
        "{} is not cut in {}, and what {} would sew to it there is loose",
        words::piece(garment, piece),
        declared.name,
        words::listed(&named)
    );
    Diagnostic::new(&catalogue::PART_MISSING, declared.span, title)
        .label(format!("{} is not among its pieces", own.name))
        .also(own.span, words::piece(garment, piece))
        .help(match seams.iter().find_map(|seam| caught_in_one(garment, seam, layer, piece)) {
            Some(said) => format!(
                "say in which layer it is caught: {said}; or cut it there too: add {} to layer {}",
                own.name, declared.name
            ),
            None => format!(
                "cut it there too: add {} to layer {}; or say in which layer those seams are sewn, and what becomes of the edges",
                own.name, declared.name
            ),
        })
}

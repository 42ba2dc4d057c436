//! `seam/crossed`: a seam between two layers that takes another piece than the one that it lies on.

use crate::check::seams::runs::facing_mostly;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, LayerId, PieceId, Seam, SeamId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::{Sewing, SewnPly, SewnRun, SewnSeam, seam_edges};
use crate::source::Span;
use smallvec::SmallVec;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_CROSSED], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut reported: IdSet<[PieceId; 2]> = IdSet::default();
    for crossing in crossings(garment, &size.sewn) {
        let pieces = [crossing.one.0, crossing.other.0];
        if reported.insert([pieces[0].min(pieces[1]), pieces[0].max(pieces[1])]) {
            let mistake = match crossing.with {
                Some(with) => exchanged(garment, &size.sewn, &crossing, with),
                None => off_its_twin(garment, &crossing),
            };
            let name = garment.seam(crossing.sewn.seam).name.to_string();
            findings.push(Finding::new(size.drawn.size, 0.0, mistake).about(name));
        }
    }
}

/// The seams that are crossed, which `seam/crossed` reports.
pub(in crate::check) fn crossed_seams(garment: &Garment, sewing: &Sewing) -> Vec<SeamId> {
    let mut seams = Vec::new();
    for crossing in crossings(garment, sewing) {
        seams.extend(crossing.with.into_iter().chain([crossing.sewn]).map(|sewn| sewn.seam));
    }
    seams
}

/// A seam from one layer to another that takes another piece there than it should.
struct Crossing<'a> {
    sewn: &'a SewnSeam,
    /// The seam that takes what this one should.
    with: Option<&'a SewnSeam>,
    /// A piece of each side, and its layer.
    one: PieceIn,
    other: PieceIn,
}

/// A piece in a layer.
type PieceIn = (PieceId, LayerId);

fn crossings<'a>(garment: &Garment, sewing: &'a Sewing) -> Vec<Crossing<'a>> {
    let mut found = Vec::new();
    // With one layer alone nothing goes to another.
    if garment.layers.iter().filter(|layer| !layer.fused).count() < 2 {
        return found;
    }
    // Seams of two single edges that join one layer to another.
    let mut between: Vec<Between> = Vec::new();
    for sewn in sewing.seams.iter().filter(|sewn| sewn.known && sewn.unpaired.is_none()) {
        let ([first], [second]) = (sewn.first.plies.as_slice(), sewn.second.plies.as_slice()) else {
            continue;
        };
        if (first.runs.len() > 1 || second.runs.len() > 1)
            && let Some((one, other)) = crossed_runs(garment, sewing, first, second)
        {
            found.push(Crossing { sewn, with: None, one, other });
            continue;
        }
        let (Some(layer), Some(other_layer)) = (only_layer(sewing, first), only_layer(sewing, second)) else {
            continue;
        };
        if layer == other_layer {
            continue;
        }
        let (pieces, other_pieces) = (pieces_of(sewing, first), pieces_of(sewing, second));
        let (origins, other_origins) = (all_origins(garment, &pieces), all_origins(garment, &other_pieces));
        let has = |layer: LayerId, origin: PieceId| {
            let of = &garment.layer(layer).pieces;
            !garment.layer(layer).fused && of.iter().any(|&piece| garment.origins(piece).contains(&origin))
        };
        let strangers = |own: &[PieceId], others: &[PieceId]| -> Option<PieceId> {
            own.iter().copied().find(|piece| garment.origins(*piece).iter().all(|one| !others.contains(one)))
        };
        let (Some(one), Some(other)) =
            (strangers(&pieces, &other_origins), strangers(&other_pieces, &origins))
        else {
            continue;
        };
        let crossed = garment.origins(one).iter().any(|&origin| has(other_layer, origin))
            && garment.origins(other).iter().any(|&origin| has(layer, origin));
        let sides = [(one, layer), (other, other_layer)];
        if crossed {
            found.push(Crossing { sewn, with: None, one: sides[0], other: sides[1] });
        } else if let [_] = first.runs.as_slice()
            && let [_] = second.runs.as_slice()
        {
            between.push(Between { sewn, sides });
        }
    }
    found.extend(between.iter().enumerate().filter_map(|(at, one)| {
        let later = between.iter().skip(at + 1);
        later.clone().find(|other| are_exchanged(garment, one, other)).map(|other| Crossing {
            sewn: one.sewn,
            with: Some(other.sewn),
            one: one.sides[0],
            other: one.sides[1],
        })
    }));
    found
}

/// Of edges in a row two that lie on one another, each with most of its length, in two layers that both
/// have the pieces of both.
fn crossed_runs(
    garment: &Garment,
    sewing: &Sewing,
    first: &SewnPly,
    second: &SewnPly,
) -> Option<(PieceIn, PieceIn)> {
    let of = |run: &SewnRun| {
        let part = sewing.part(run.part).part;
        (part.piece, part.layer)
    };
    facing_mostly(first, second).into_iter().find_map(|(run, other)| {
        let (one, other) = (of(run), of(other));
        if one.1 == other.1 || is_twin(garment, one.0, other.0) {
            return None;
        }
        let has = |layer: LayerId, piece: PieceId| {
            garment.layer(layer).pieces.iter().any(|&own| is_twin(garment, own, piece))
        };
        (has(other.1, one.0) && has(one.1, other.0)).then_some((one, other))
    })
}

/// Whether two pieces are one, or copies, strips or rests of one.
fn is_twin(garment: &Garment, one: PieceId, other: PieceId) -> bool {
    let origins = garment.origins(other);
    garment.origins(one).iter().any(|origin| origins.contains(origin))
}

/// A seam of two edges from one layer to another.
struct Between<'a> {
    sewn: &'a SewnSeam,
    sides: [PieceIn; 2],
}

/// Whether two seams sew the same edges of the same two pieces, each across layers, though with their
/// second edges exchanged one of them would stay in its layer.
fn are_exchanged(garment: &Garment, one: &Between, other: &Between) -> bool {
    if one.sewn.seam == other.sewn.seam {
        return false;
    }
    let name = |sewn: &SewnSeam, second: bool| -> Option<&str> {
        let side = if second { &garment.seam(sewn.seam).second } else { &garment.seam(sewn.seam).first };
        Some(&*garment.edge(side.first()?.edges.first()?.edge).name)
    };
    [false, true].into_iter().any(|turned| {
        let other_sides = if turned { [other.sides[1], other.sides[0]] } else { other.sides };
        let [(first, first_layer), (second, second_layer)] = one.sides;
        let [(twin, twin_layer), (second_twin, second_twin_layer)] = other_sides;
        first_layer != twin_layer
            && second_layer != second_twin_layer
            && (first_layer == second_twin_layer || second_layer == twin_layer)
            && name(one.sewn, false) == name(other.sewn, turned)
            && name(one.sewn, true) == name(other.sewn, !turned)
            && is_twin(garment, first, twin)
            && is_twin(garment, second, second_twin)
    })
}

/// "Front in lining".
fn word(garment: &Garment, (piece, layer): (PieceId, LayerId)) -> String {
    format!("{} in {}", words::piece(garment, piece), garment.layer(layer).name)
}

/// Where a seam names a piece.
fn span(seam: &Seam, piece: PieceId) -> Span {
    seam_edges(seam).find(|sewn| sewn.piece == piece).map_or(seam.name_span, |sewn| sewn.span)
}

fn off_its_twin(garment: &Garment, crossing: &Crossing) -> Diagnostic {
    let seam = garment.seam(crossing.sewn.seam);
    let (one, other) = (crossing.one, crossing.other);
    let title = format!(
        "{} sews {} to {}, though each layer has both",
        seam.words(),
        word(garment, one),
        word(garment, other)
    );
    Diagnostic::new(&catalogue::SEAM_CROSSED, span(seam, other.0), title)
        .label(format!("lies on {}", word(garment, one)))
        .also(span(seam, one.0), "on this")
        .help(format!(
            "layers lie on one another piece by piece: sew {} to its own twin in {}",
            garment.part_name(Some(one.1), one.0),
            garment.layer(other.1).name
        ))
}

fn exchanged(garment: &Garment, sewing: &Sewing, crossing: &Crossing, with: &SewnSeam) -> Diagnostic {
    let (seam, other_seam) = (garment.seam(crossing.sewn.seam), garment.seam(with.seam));
    let title = format!(
        "{} sews {} to {}, and {} the other way across: each layer has its own",
        seam.words(),
        word(garment, crossing.one),
        word(garment, crossing.other),
        other_seam.name
    );
    // Of the other seam the edge of the piece that this one should take.
    let origins = garment.origins(crossing.other.0);
    let plies = with.first.plies.iter().chain(&with.second.plies);
    let mut parts = plies.flat_map(|ply| &ply.runs).map(|run| sewing.part(run.part).part);
    let twin = parts.find(|part| garment.origins(part.piece).iter().any(|one| origins.contains(one)));
    let mut mistake = Diagnostic::new(&catalogue::SEAM_CROSSED, span(seam, crossing.other.0), title)
        .label(format!("lies on {}", word(garment, crossing.one)))
        .also(span(seam, crossing.one.0), "on this");
    if let Some(twin) = twin {
        mistake = mistake
            .also(
                span(other_seam, twin.piece),
                format!("{} is taken here", word(garment, (twin.piece, twin.layer))),
            )
            .help(format!(
                "exchange them: {} here, and {} in {}",
                garment.part_name(Some(twin.layer), twin.piece),
                garment.part_name(Some(crossing.other.1), crossing.other.0),
                other_seam.name
            ));
    }
    mistake
}

/// The layer of a ply that lies in one layer.
fn only_layer(sewing: &Sewing, ply: &SewnPly) -> Option<LayerId> {
    let mut layers = ply.runs.iter().map(|run| sewing.part(run.part).part.layer);
    let first = layers.next()?;
    layers.all(|layer| layer == first).then_some(first)
}

fn pieces_of(sewing: &Sewing, ply: &SewnPly) -> SmallVec<[PieceId; 4]> {
    ply.runs.iter().map(|run| sewing.part(run.part).part.piece).collect()
}

fn all_origins(garment: &Garment, pieces: &[PieceId]) -> SmallVec<[PieceId; 4]> {
    pieces.iter().flat_map(|&piece| garment.origins(piece)).collect()
}

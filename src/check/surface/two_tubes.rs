//! `seam/two-tubes`: front and back each closed on themselves, and joined to each other only here and there.
//!
//! Pieces that go round the body side by side are sewn to each other at both sides. Each sewn to itself there,
//! they are tubes beside one another, or a tube and what wraps round it; tubes above one another, as the tiers of
//! a skirt, are joined all round.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, LayerId, PieceId, Seam, SeamId};
use crate::id_hash::{IdIndexMap, IdMap, IdSet};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{FaceId, Gluing, JoinedBy, StretchId, Surface};
use std::collections::{BTreeMap, BTreeSet};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_TWO_TUBES], run: Run::PerSize(run) };

/// A piece in one layer.
type Own = (PieceId, LayerId);

/// The seam that closes a piece on itself: its left to its right, by one edge.
#[derive(Clone, Copy, PartialEq)]
struct OnItself {
    seam: SeamId,
    edge: EdgeId,
    long: f64,
}

/// Copies of a piece that are sewn to one another.
struct Closed {
    own: Own,
    faces: Vec<FaceId>,
    by: Vec<OnItself>,
    /// It has two rims or more.
    is_tube: bool,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    let own = |face: FaceId| {
        let part = size.sewn.part(surface.face(face).part).part;
        (part.piece, part.layer)
    };
    let closed = on_themselves(size, surface, &own);
    if closed.len() < 2 {
        return;
    }
    let gluing = Gluing::of(surface, |_, one, other| {
        own(surface.face_of(one.stretch)) == own(surface.face_of(other.stretch))
    });
    let sheets = gluing.sheets(surface).into_iter();
    let all: Vec<Closed> = sheets
        .filter_map(|sheet| {
            let own = own(*sheet.faces.first()?);
            let by = closed.get(&own)?.clone();
            Some(Closed { own, by, is_tube: sheet.rims > 1, faces: sheet.faces })
        })
        .collect();
    // Of two that are both no tubes nothing is told.
    if !all.iter().any(|closed| closed.is_tube) {
        return;
    }
    let mut told: IdSet<(PieceId, PieceId)> = IdSet::default();
    for ([one, other], between) in joined_in_places(surface, &gluing, &all) {
        if lie_side_by_side(garment, one.own, other.own)
            && let Some(by) = instead_of_each_other(garment, one, other)
            && told.insert((one.own.0, other.own.0))
        {
            findings.push(reported(garment, size, [one, other], by, between));
        }
    }
}

/// The edges by which two pieces are closed on themselves, and not on each other: of a tube and what is none
/// those that would fit each other.
fn instead_of_each_other(garment: &Garment, one: &Closed, other: &Closed) -> Option<[OnItself; 2]> {
    let fit = one.by.iter().find_map(|&own| {
        let far = other.by.iter().find(|far| (own.long - far.long).abs() <= garment.tolerance)?;
        Some([own, *far])
    });
    match (one.is_tube, other.is_tube) {
        (false, false) => None,
        (true, true) => fit.or(Some([*one.by.first()?, *other.by.first()?])),
        _ => fit,
    }
}

/// The pieces that seams close on themselves.
fn on_themselves(
    size: &WorkedSize,
    surface: &Surface,
    own: &impl Fn(FaceId) -> Own,
) -> IdIndexMap<Own, Vec<OnItself>> {
    let mut closed: IdIndexMap<Own, Vec<OnItself>> = IdIndexMap::default();
    for join in &surface.joins {
        let (JoinedBy::Seam { seam, .. }, [one, other]) = (join.by, join.plies.as_slice()) else { continue };
        let (one, other) = (surface.side_of(one.stretch), surface.side_of(other.stretch));
        if own(one.face) != own(other.face)
            || one.edge != other.edge
            || (one.face, one.mirrored) == (other.face, other.mirrored)
        {
            continue;
        }
        let drawn = size.drawn.paper(size.sewn.part(one.part).part.paper);
        if let Some(edge) = drawn.and_then(|drawn| drawn.edge_at(one.edge)) {
            let by = OnItself { seam, edge: edge.edge, long: one.length };
            let known = closed.entry(own(one.face)).or_default();
            if !known.iter().any(|known| (known.seam, known.edge) == (by.seam, by.edge)) {
                known.push(by);
            }
        }
    }
    closed
}

/// In one layer, and not two copies of one piece, of which the one lies in the other.
fn lie_side_by_side(garment: &Garment, one: Own, other: Own) -> bool {
    let others = garment.origins(other.0);
    one.1 == other.1 && !garment.origins(one.0).iter().any(|origin| others.contains(origin))
}

/// Each two such pieces that are joined, with the seam between them where it takes some of a rim and leaves some of it;
/// not those that are joined round a whole rim. Every rim is walked once, however many pieces there are.
fn joined_in_places<'a>(
    surface: &Surface,
    gluing: &Gluing,
    all: &'a [Closed],
) -> Vec<([&'a Closed; 2], SeamId)> {
    let mut of_face: IdMap<FaceId, usize> = IdMap::default();
    for (at, closed) in all.iter().enumerate() {
        of_face.extend(closed.faces.iter().map(|&face| (face, at)));
    }
    let owner = |stretch: StretchId| of_face.get(&surface.face_of(stretch)).copied();
    // By their places in `all`, the lower first: the seam, or none where it goes round a whole rim.
    let mut pairs: BTreeMap<(usize, usize), Option<SeamId>> = BTreeMap::new();
    for rim in gluing.rims(surface) {
        let Some(own) = rim.parts.first().and_then(|part| owner(part.stretch)) else { continue };
        let mut met: BTreeMap<usize, (usize, SeamId)> = BTreeMap::new();
        for part in &rim.parts {
            let Some(join) = surface.stretch(part.stretch).join.map(|join| surface.join(join)) else {
                continue;
            };
            let JoinedBy::Seam { seam, .. } = join.by else { continue };
            let far: BTreeSet<usize> =
                join.plies.iter().filter_map(|ply| owner(ply.stretch)).filter(|&far| far != own).collect();
            for far in far {
                met.entry(far).or_insert((0, seam)).0 += 1;
            }
        }
        for (far, (count, seam)) in met {
            let between = pairs.entry((own.min(far), own.max(far))).or_insert(Some(seam));
            if count == rim.parts.len() {
                *between = None;
            }
        }
    }
    pairs
        .into_iter()
        .filter_map(|((one, other), seam)| Some(([all.get(one)?, all.get(other)?], seam?)))
        .collect()
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    tubes: [&Closed; 2],
    by: [OnItself; 2],
    between: SeamId,
) -> Finding {
    let titles = tubes.map(|tube| words::piece(garment, tube.own.0));
    let between = garment.seam(between);
    let title = match tubes.iter().all(|tube| tube.is_tube) {
        true => format!(
            "{} and {} are each closed on themselves: two tubes, joined only at the {} seam",
            titles[0], titles[1], between.name
        ),
        false => format!(
            "{} and {} are each closed on themselves, and joined only at the {} seam",
            titles[0], titles[1], between.name
        ),
    };
    let name = |at: usize| {
        let (piece, edge) = (garment.piece(tubes[at].own.0), garment.edge(by[at].edge));
        format!("{}.{}", piece.name, edge.name)
    };
    let seams = by.map(|by| garment.seam(by.seam));
    let span = |seam: &Seam| seam.second.first().map_or(seam.name_span, |chain| chain.span);
    let mut mistake = Diagnostic::new(&catalogue::SEAM_TWO_TUBES, span(seams[0]), title)
        .label(format!("named on both sides: sews {} to itself", titles[0]));
    if by[0].seam != by[1].seam {
        mistake = mistake.also(span(seams[1]), format!("sews {} to itself", titles[1]));
    }
    let mistake = mistake.also(between.name_span, "all that joins them").help(format!(
        "a body goes into one tube: sew them to each other there, {} to {}, on the left and on the right",
        name(0),
        name(1)
    ));
    Finding::new(size.id(), 0.0, mistake).about(&*seams[0].name)
}

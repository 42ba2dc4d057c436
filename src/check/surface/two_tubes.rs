//! `seam/two-tubes`: front and back each closed on themselves, and joined to each other only here and there.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, LayerId, PieceId, Seam, SeamId};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{FaceId, Gluing, JoinedBy, StretchId, Surface};
use indexmap::IndexMap;
use std::collections::HashSet;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_TWO_TUBES], run: Run::PerSize(run) };

/// A piece in one layer.
type Own = (PieceId, LayerId);

/// The seam that closes a piece on itself: its left to its right, by one edge.
#[derive(Clone, Copy)]
struct OnItself {
    seam: SeamId,
    edge: EdgeId,
}

/// All copies of a piece, with two rims or more.
struct Tube {
    own: Own,
    faces: HashSet<FaceId>,
    by: OnItself,
}

/// Pieces that go round the body side by side are sewn to each other at both sides. Each sewn to itself there,
/// they are tubes beside one another; tubes above one another, as the tiers of a skirt, are joined all round.
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
    let sheets = gluing.sheets(surface).into_iter().filter(|sheet| sheet.rims > 1);
    let tubes: Vec<Tube> = sheets
        .filter_map(|sheet| {
            let own = own(*sheet.faces.first()?);
            Some(Tube { own, by: *closed.get(&own)?, faces: sheet.faces.into_iter().collect() })
        })
        .collect();
    let mut told: HashSet<(PieceId, PieceId)> = HashSet::new();
    for (at, one) in tubes.iter().enumerate() {
        for other in tubes.iter().skip(at + 1).filter(|other| lie_side_by_side(garment, one.own, other.own)) {
            if let Some(between) = joined_in_places(surface, &gluing, one, other)
                && told.insert((one.own.0, other.own.0))
            {
                findings.push(reported(garment, size, [one, other], between));
            }
        }
    }
}

/// The pieces that a seam closes on themselves.
fn on_themselves(
    size: &WorkedSize,
    surface: &Surface,
    own: &impl Fn(FaceId) -> Own,
) -> IndexMap<Own, OnItself> {
    let mut closed = IndexMap::new();
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
            closed.entry(own(one.face)).or_insert(OnItself { seam, edge: edge.edge });
        }
    }
    closed
}

/// In one layer, and not two copies of one piece, of which the one lies in the other.
fn lie_side_by_side(garment: &Garment, one: Own, other: Own) -> bool {
    let others = garment.origins(other.0);
    one.1 == other.1 && !garment.origins(one.0).iter().any(|origin| others.contains(origin))
}

/// The seam between two tubes, where it takes some of a rim and leaves some of it; none where they are not
/// joined, or round a whole rim.
fn joined_in_places(surface: &Surface, gluing: &Gluing, one: &Tube, other: &Tube) -> Option<SeamId> {
    let beyond = |stretch: StretchId, faces: &HashSet<FaceId>| -> Option<SeamId> {
        let join = surface.join(surface.stretch(stretch).join?);
        let JoinedBy::Seam { seam, .. } = join.by else { return None };
        join.plies.iter().any(|ply| faces.contains(&surface.face_of(ply.stretch))).then_some(seam)
    };
    let mut between = None;
    for rim in gluing.rims(surface) {
        let is_of = |tube: &Tube| {
            rim.parts.first().is_some_and(|part| tube.faces.contains(&surface.face_of(part.stretch)))
        };
        let far = if is_of(one) {
            &other.faces
        } else if is_of(other) {
            &one.faces
        } else {
            continue;
        };
        let joined: Vec<SeamId> = rim.parts.iter().filter_map(|part| beyond(part.stretch, far)).collect();
        if joined.len() == rim.parts.len() {
            return None;
        }
        between = between.or(joined.first().copied());
    }
    between
}

fn reported(garment: &Garment, size: &WorkedSize, tubes: [&Tube; 2], between: SeamId) -> Finding {
    let [one, other] = tubes;
    let titles = tubes.map(|tube| words::piece(garment, tube.own.0));
    let between = garment.seam(between);
    let title = format!(
        "{} and {} are each closed on themselves: two tubes, joined only at the {} seam",
        titles[0], titles[1], between.name
    );
    let name =
        |tube: &Tube| format!("{}.{}", garment.piece(tube.own.0).name, garment.edge(tube.by.edge).name);
    let seams = tubes.map(|tube| garment.seam(tube.by.seam));
    let span = |seam: &Seam| seam.second.first().map_or(seam.name_span, |chain| chain.span);
    let mut mistake = Diagnostic::new(&catalogue::SEAM_TWO_TUBES, span(seams[0]), title)
        .label(format!("named on both sides: sews {} to itself", titles[0]));
    if one.by.seam != other.by.seam {
        mistake = mistake.also(span(seams[1]), format!("sews {} to itself", titles[1]));
    }
    let mistake = mistake.also(between.name_span, "all that joins them").help(format!(
        "a body goes into one tube: sew them to each other there, {} to {}, on the left and on the right",
        name(one),
        name(other)
    ));
    Finding::new(size.id(), 0.0, mistake).about(&*seams[0].name)
}

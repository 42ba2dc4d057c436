//! `closure/own-edge`: a flap that hangs from the one side of a mouth, and is fastened on that side; a row on both halves of a
//! piece that is cut on the fold, between which nothing opens.

use super::out_of_reach::laps;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureId, ClosureKind, CutHow, Garment, PieceId, SeamId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{ClosureLine, FaceId, JoinedBy, StretchId, Surface};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::CLOSURE_OWN_EDGE], run: Run::PerForm(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if !garment.closures.iter().any(|closure| matches!(closure.kind, Some(ClosureKind::Fasteners(_)))) {
        return;
    }
    let closures = ClosureId::enumerate(&garment.closures);
    findings.extend(closures.filter_map(|(id, _)| across_fold(garment, size, id)));
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let Some(surface) = surface else { return };
    let mut known: IdSet<ClosureId> = IdSet::default();
    for line in &surface.closures {
        if let Some((seam, flap, host, mouth)) = hung(garment, size, surface, line)
            && known.insert(line.closure)
        {
            findings.push(reported(garment, size, line.closure, seam, [flap, host, mouth]));
        }
    }
}

/// The seam that a flap hangs from, the flap, what that seam sews it to and it is fastened on, and what lies on the
/// other side of the mouth.
fn hung(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    line: &ClosureLine,
) -> Option<(SeamId, PieceId, PieceId, PieceId)> {
    let closure = garment.closure(line.closure);
    let (Some(ClosureKind::Fasteners(_)), [one], [other]) =
        (&closure.kind, line.faces[0].as_slice(), line.faces[1].as_slice())
    else {
        return None;
    };
    // Two that lie inside their pieces: an edge that is closed is a mouth's own.
    if one == other || line.sides.iter().any(|side| !side.is_empty()) {
        return None;
    }
    let piece = |face: FaceId| size.sewn.part(surface.face(face).part).part.piece;
    [(*one, *other), (*other, *one)].into_iter().find_map(|(flap, host)| {
        if let Some((seam, beyond)) = over_a_zip(garment, surface, flap, host) {
            return Some((seam, piece(flap), piece(host), piece(beyond)));
        }
        // All of what is sewn of a flap is sewn to that piece.
        let sewn = || surface.stretches_of(flap).filter(|&at| surface.stretch(at).join.is_some());
        let partner = |at: StretchId| size.sewn.gluing.partner(at).map(|partner| partner.stretch);
        let first = sewn().next()?;
        let is_to_host = |at: StretchId| partner(at).is_some_and(|beside| surface.face_of(beside) == host);
        if !sewn().all(is_to_host) {
            return None;
        }
        let JoinedBy::Seam { seam, .. } = surface.join(surface.stretch(first).join?).by else { return None };
        let is_cut = |at: StretchId| {
            partner(at).is_some_and(|beside| surface.face_of(at) == flap || surface.face_of(beside) == flap)
        };
        // Without the flap the mouth is a rim: the edge that the flap hangs from, and other edges than that piece's.
        let begin = partner(first)?;
        let (mut at, mut against) = (begin, false);
        let mut beyond: Option<FaceId> = None;
        for _ in 0..surface.stretches.len() {
            (at, against) = size.sewn.gluing.turn_cut(surface, &is_cut, at, !against);
            if at == begin {
                break;
            }
            let face = surface.face_of(at);
            match face == host {
                true if !is_cut(at) => return None,
                true => {}
                false if surface.stretch(at).join.is_some() => return None,
                false => beyond = Some(face),
            }
        }
        let beyond = beyond.filter(|_| at == begin)?;
        Some((seam, piece(flap), piece(host), piece(beyond)))
    })
}

/// A flap that is caught along the one side of a zip, between that side and its facing: its seam, and what lies on the zip's other
/// side, which it is there to reach.
fn over_a_zip(garment: &Garment, surface: &Surface, flap: FaceId, host: FaceId) -> Option<(SeamId, FaceId)> {
    let mut joined = surface.stretches_of(flap).filter_map(|at| surface.stretch(at).join);
    let first = joined.next()?;
    let JoinedBy::Seam { seam, .. } = surface.join(first).by else { return None };
    let is_of_it = |by: JoinedBy| matches!(by, JoinedBy::Seam { seam: own, .. } if own == seam);
    if !joined.all(|join| is_of_it(surface.join(join).by)) {
        return None;
    }
    let beside: Vec<StretchId> = surface.join(first).plies.iter().map(|ply| ply.stretch).collect();
    if !beside.iter().any(|&at| surface.face_of(at) == host) {
        return None;
    }
    let is_zip =
        |line: &&ClosureLine| matches!(garment.closure(line.closure).kind, Some(ClosureKind::Zipper { .. }));
    surface.closures.iter().filter(is_zip).find_map(|line| {
        let is_side = |side: &[(StretchId, bool)]| side.iter().any(|(at, _)| beside.contains(at));
        let own = line.sides.iter().position(|side| is_side(side))?;
        let (far, _) = line.sides.get(1 - own)?.first()?;
        let beyond = surface.face_of(*far);
        (beyond != host).then_some((seam, beyond))
    })
}

/// Buttons, snaps or hooks on a line that is closed to itself, of a piece that is whole between its left and its right. Ties
/// and straps there draw it in, as those at a back do.
fn across_fold(garment: &Garment, size: &WorkedSize, id: ClosureId) -> Option<Finding> {
    let closure = garment.closure(id);
    let Some(ClosureKind::Fasteners(said)) = &closure.kind else { return None };
    let ([one], [other]) = (closure.first.edges.as_slice(), closure.second.edges.as_slice()) else {
        return None;
    };
    let is_to_itself =
        one.edge == other.edge && one.layer == other.layer && closure.first.ring == closure.second.ring;
    if !laps(said) || !is_to_itself || !garment.edge(garment.whole_edge(one.edge)).line {
        return None;
    }
    let mut own = size.sewn.parts.iter().filter(|part| part.part.piece == one.piece);
    let drawn = own.find_map(|part| size.drawn.paper(part.part.paper))?;
    let CutHow::OnFold(fold) = drawn.cut else { return None };
    // A slit may open it.
    if !drawn.uncut().slits.is_empty() {
        return None;
    }
    let (piece, cut) = (words::piece(garment, one.piece), garment.piece(one.piece).cut.span);
    let (line, fold) = (words::edge(garment, one.edge), words::edge(garment, fold));
    let title = format!(
        "{} fastens {piece} on itself: to the left and to the right of its fold it is one cloth",
        closure.name
    );
    let warning = Diagnostic::new(&catalogue::CLOSURE_OWN_EDGE, closure.first.span.to(closure.second.span), title)
        .label(format!("{line}, on both halves"))
        .also(cut, "nothing opens here")
        .help(format!(
            "open it: cut 2 mirrored, which makes an edge of {fold}, or draw a slit at the fold; else name the other piece that it is \
             to be fastened on"
        ));
    Some(Finding::new(size.id(), 0.0, warning).about(&*closure.name))
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    closure: ClosureId,
    seam: SeamId,
    [flap, host, mouth]: [PieceId; 3],
) -> Finding {
    let (closure, seam) = (garment.closure(closure), garment.seam(seam));
    let [flap, on, beyond] = [flap, host, mouth].map(|piece| words::piece(garment, piece));
    let between = match host == mouth {
        true => format!("the left and the right {on}"),
        false => format!("{on} and {beyond}"),
    };
    let title = format!(
        "{} fastens {flap} on {on}, to which it is sewn: the mouth between {between} stays open",
        closure.name
    );
    let help = match host == mouth {
        true => format!("fasten it on the other {on}: say on left or on right behind its line"),
        false => format!(
            "fasten it on the other side of the mouth: draw the line in {}, and name that",
            garment.piece(mouth).name
        ),
    };
    let warning =
        Diagnostic::new(&catalogue::CLOSURE_OWN_EDGE, closure.first.span.to(closure.second.span), title)
            .label("only folded back")
            .also(seam.name_span, format!("{flap} hangs from {on}"))
            .help(help);
    Finding::new(size.id(), 0.0, warning).about(&*closure.name)
}

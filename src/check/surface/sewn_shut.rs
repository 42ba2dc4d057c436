//! `closure/sewn-shut`: a closure between edges that a seam sews to each other; or one across the end of which the facing goes on.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Closure, ClosureId, CutHow, Garment, Part, PieceId, SeamId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{ClosureLine, FaceId, JoinedBy, StretchId, Surface};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::CLOSURE_SEWN_SHUT], run: Run::PerForm(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref() else { return };
    let mut known: IdSet<ClosureId> = IdSet::default();
    for line in &surface.closures {
        if let Some((seam, stretches)) = sewn_by(surface, line)
            && known.insert(line.closure)
        {
            findings.push(reported(garment, size, surface, line.closure, seam, stretches));
        } else if let Some(layers) = between_layers(garment, size, surface, line)
            && known.insert(line.closure)
        {
            findings.push(through_one_ply(garment, size, garment.closure(line.closure), layers));
        } else if let Some(held) = held_at_an_end(garment, size, surface, line)
            && known.insert(line.closure)
        {
            findings.push(held_by(garment, size, garment.closure(line.closure), held));
        }
    }
}

/// The seam that joins a place of the one side to the same place of the other.
fn sewn_by(surface: &Surface, line: &ClosureLine) -> Option<(SeamId, [StretchId; 2])> {
    let [first, second] = &line.sides;
    first.iter().zip(second).find_map(|(&(one, _), &(other, _))| {
        let join = surface.stretch(one).join.filter(|join| surface.stretch(other).join == Some(*join))?;
        match surface.join(join).by {
            JoinedBy::Seam { seam, .. } if one != other => Some((seam, [one, other])),
            _ => None,
        }
    })
}

/// Beyond an end of a closure: the piece that lies there behind both of its sides, which is cut after one of them, as a facing on
/// the fold is, and the seam that sews it on.
fn held_at_an_end(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    line: &ClosureLine,
) -> Option<(PieceId, SeamId)> {
    let beyond = |&(stretch, against): &(StretchId, bool), at_end: bool| match against == at_end {
        true => surface.before(stretch),
        false => surface.next(stretch),
    };
    let [first, second] = &line.sides;
    let ends = [(first.first(), second.first(), false), (first.last(), second.last(), true)];
    ends.into_iter().find_map(|(one, other, at_end)| {
        let [one, other] = [beyond(one?, at_end), beyond(other?, at_end)];
        let faces = [one, other].map(|stretch| surface.face_of(stretch));
        let behind = |stretch: StretchId| {
            let join = surface.stretch(stretch).join.map(|join| surface.join(join));
            let plies = join.into_iter().flat_map(|join| &join.plies).map(|ply| ply.stretch);
            plies.filter(|&ply| !faces.contains(&surface.face_of(ply)))
        };
        let held = behind(one).find(|&ply| {
            behind(other).any(|beside| surface.next(ply) == beside || surface.next(beside) == ply)
        })?;
        let piece = |face: FaceId| size.sewn.part(surface.face(face).part).part.piece;
        let (holds, of) = (piece(surface.face_of(held)), piece(surface.face_of(one)));
        let origins = garment.origins(of);
        let is_of_it = holds != of && garment.origins(holds).iter().any(|origin| origins.contains(origin));
        match surface.join(surface.stretch(held).join?).by {
            JoinedBy::Seam { seam, .. } if is_of_it => Some((holds, seam)),
            _ => None,
        }
    })
}

fn held_by(
    garment: &Garment,
    size: &WorkedSize,
    closure: &Closure,
    (piece, seam): (PieceId, SeamId),
) -> Finding {
    let (name, seam) = (words::piece(garment, piece), garment.seam(seam));
    let title = format!("{name} goes on across the end of {}, and holds it shut", closure.name);
    let opened = match garment.piece(piece).cut.how {
        CutHow::OnFold(fold) => format!(
            "open {} at {}, or cut 2 mirrored without its fold",
            garment.piece(piece).name,
            garment.edge(fold).name
        ),
        _ => "cut 2 mirrored".to_owned(),
    };
    let mistake = Diagnostic::new(&catalogue::CLOSURE_SEWN_SHUT, garment.piece(piece).span, title)
        .label("one piece, from side to side")
        .also(closure.name_span, "ends where it lies")
        .also(seam.name_span, "sews it to both sides")
        .help(format!(
            "open it where the piece in front of it is open, {opened}, and sew or finish the edge that it has there; or let {} end \
             below it",
            closure.name
        ));
    Finding::new(size.drawn.size, 0.0, mistake).about(&*closure.name)
}

/// The twins, in two layers, that a row inside pieces closes on one another.
pub(super) fn between_layers(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    line: &ClosureLine,
) -> Option<[Part; 2]> {
    if line.sides.iter().any(|side| !side.is_empty()) {
        return None;
    }
    let part = |face: &FaceId| size.sewn.part(surface.face(*face).part).part;
    let (one, other) = (part(line.faces[0].first()?), part(line.faces[1].first()?));
    let origins = garment.origins(other.piece);
    let is_twin = garment.origins(one.piece).iter().any(|origin| origins.contains(origin));
    (is_twin && one.layer != other.layer).then_some([one, other])
}

fn through_one_ply(garment: &Garment, size: &WorkedSize, closure: &Closure, parts: [Part; 2]) -> Finding {
    let [one, other] = parts
        .map(|part| format!("{} in {}", words::piece(garment, part.piece), garment.layer(part.layer).name));
    let title = format!("{} lies between {one} and {other}, which lie on one another", closure.name);
    let mistake = Diagnostic::new(
        &catalogue::CLOSURE_SEWN_SHUT,
        closure.first.span.to(closure.second.span),
        title,
    )
    .label("from here to there")
    .help(
        "an opening is closed from its one edge to its other, both in one layer: name the same layer on both \
                 sides",
    );
    Finding::new(size.drawn.size, 0.0, mistake).about(&*closure.name)
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    closure: ClosureId,
    seam: SeamId,
    stretches: [StretchId; 2],
) -> Finding {
    let (closure, seam) = (garment.closure(closure), garment.seam(seam));
    let parts = stretches.map(|stretch| size.sewn.part(surface.face(surface.face_of(stretch)).part).part);
    let word = |part: crate::garment::Part| {
        format!("{} in {}", words::piece(garment, part.piece), garment.layer(part.layer).name)
    };
    let is_twin = parts[0].piece == parts[1].piece;
    let title = match parts[0].layer == parts[1].layer {
        true => format!(
            "{} cannot close what {} sews together: {} and {}",
            closure.name,
            seam.words(),
            words::piece(garment, parts[0].piece),
            words::piece(garment, parts[1].piece)
        ),
        false => format!(
            "{} lies between {} and {}, which {} sews together",
            closure.name,
            word(parts[0]),
            word(parts[1]),
            seam.words()
        ),
    };
    let help = match is_twin && parts[0].layer != parts[1].layer {
        true => "an opening is closed from its one edge to its other, both in one layer: name the same layer on both \
                 sides"
            .to_owned(),
        false => format!("name the two edges that are open, or drop one of {} and {}", closure.name, seam.name),
    };
    let mistake =
        Diagnostic::new(&catalogue::CLOSURE_SEWN_SHUT, closure.first.span.to(closure.second.span), title)
            .label("from here to there")
            .also(seam.name_span, "sews the same two edges together")
            .help(help);
    Finding::new(size.drawn.size, 0.0, mistake).about(&*closure.name)
}

//! `seam/twisted` of folded bands: ends that are sewn with the one long edge on the other, so that the
//! band has a half turn in it before it is folded.

use crate::check::seams::sides::corner;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::union::Signed;
use crate::sewing::surface::{JoinedBy, JoinedPly, PlyAt, StretchId, Surface};
use crate::sewing::{Sewing, SewnRun, SewnSeam, seam_edges};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_TWISTED], run: Run::PerForm(run) };

/// As a flap a folded piece has one long edge and a fold, and on the surface its ends meet edge on
/// edge. Spread out it has two long edges, and these must go on in one another without a turn.
fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let Some(surface) = sewing.surface.as_ref() else { return };
    let mut signs: Option<Signed> = None;
    let mut last = None;
    for join in &surface.joins {
        let (JoinedBy::Seam { sewn: at, .. }, [one, other]) = (join.by, join.plies.as_slice()) else {
            continue;
        };
        let (Some(sewn), false) = (sewing.seams.get(at), last == Some(at)) else { continue };
        let is_end = |ply: &JoinedPly| is_end_of_band(garment, size, surface, ply.stretch);
        let runs = run_of(sewn, one.at).zip(run_of(sewn, other.at));
        let Some((run, other_run)) = runs.filter(|_| is_end(one) && is_end(other)) else { continue };
        let against = |ply: &JoinedPly, run: &SewnRun| run.reversed != surface.side_of(ply.stretch).mirrored;
        let faces = [one, other].map(|ply| surface.face_of(ply.stretch).index());
        let signs = signs.get_or_insert_with(|| Signed::new(surface.faces.len()));
        if !signs.join(faces[0], faces[1], against(one, run) == against(other, other_run)) {
            last = Some(at);
            findings.push(Finding::new(sized.size, 0.0, reported(garment, sewing, sewn, run)));
        }
    }
}

/// The one edge of a ply of one edge.
fn run_of(sewn: &SewnSeam, at: PlyAt) -> Option<&SewnRun> {
    let plies = match at {
        PlyAt::First(_) => &sewn.first.plies,
        PlyAt::Second(_) => &sewn.second.plies,
        PlyAt::Caught => return None,
    };
    match plies.as_slice() {
        [ply] if ply.runs.len() == 1 => ply.runs.first(),
        _ => None,
    }
}

/// Whether a stretch lies between the long edges of a piece that is folded over a seam.
fn is_end_of_band(garment: &Garment, size: &WorkedSize, surface: &Surface, stretch: StretchId) -> bool {
    let side = surface.side_of(stretch);
    let face = surface.face(side.face);
    if !face.flap || side.fold {
        return false;
    }
    let part = size.sewn.part(face.part).part;
    let edge = size.drawn.paper(part.paper).and_then(|drawn| drawn.edge_at(side.edge));
    edge.is_some_and(|edge| {
        let is = |of| garment.is_run_of(edge.edge, of) || garment.is_run_of(of, edge.edge);
        !garment.piece(part.piece).folds.iter().any(|over| is(over.edge) || is(over.onto))
    })
}

fn reported(garment: &Garment, sewing: &Sewing, sewn: &SewnSeam, run: &SewnRun) -> Diagnostic {
    let seam = garment.seam(sewn.seam);
    let part = sewing.part(run.part).part;
    let says_layer = seam_edges(seam).any(|edge| edge.layer.is_some());
    let word = |end| corner(garment, sewing, end, says_layer);
    let title = format!("{} twists {} before it is folded", seam.words(), words::piece(garment, part.piece));
    let matched = seam.matching.first().map(|(one, other)| one.span.to(other.span));
    let mut mistake = Diagnostic::new(&catalogue::SEAM_TWISTED, matched.unwrap_or(seam.name_span), title);
    let pairs: Vec<(String, String)> =
        sewn.ends.iter().filter_map(|(one, other)| word(one).zip(word(other))).collect();
    if let Some((one, other)) = pairs.first() {
        mistake = mistake.label(format!("{one} on {other}"));
    }
    for over in garment.piece(part.piece).folds.iter().take(1) {
        let (edge, onto) = (garment.edge(over.edge), garment.edge(over.onto));
        mistake =
            mistake.also(over.span, format!("{} and {} lie on one another later", edge.name, onto.name));
    }
    mistake.help(match pairs.as_slice() {
        [(one, _), (_, other), ..] => format!(
            "spread out, each long edge goes on in itself: matching {one} with {other}; the fold then lies on the fold"
        ),
        _ => "match the other end: spread out, each long edge goes on in itself".to_owned(),
    })
}

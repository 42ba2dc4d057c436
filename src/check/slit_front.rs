//! `slit/front`: a sleeve whose slit lies on the front half of the arm.
//!
//! Which half is which the armhole tells: the end of the cap that is sewn to a front, and the end that is sewn to a back.
//! Pieces are told by their names, in English; of others nothing is said.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{JoinedBy, StretchId, Surface};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::SLIT_FRONT], run: Run::PerSize(run) };

/// What is sewn at one end of a sleeve's cap.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Half {
    Front,
    Back,
}

/// A side of a slit, and the way from it round the sleeve's outline.
struct Way {
    /// From the slit to the end of the edge that it is cut into, in millimetres.
    far: f64,
    half: Half,
    edge: EdgeId,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if !garment.edges.iter().any(|edge| edge.side_of.is_some()) {
        return;
    }
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    let looking = Looking { garment, size, surface };
    let mut told: Vec<EdgeId> = Vec::new();
    for face in surface.face_ids() {
        let mut ends: [Option<Way>; 2] = [None, None];
        for stretch in surface.stretches_of(face) {
            for (end, back) in ends.iter_mut().zip([false, true]) {
                *end = end.take().or_else(|| looking.way(stretch, back));
            }
        }
        let [Some(one), Some(other)] = ends else { continue };
        let (near, far) = if one.far <= other.far { (one, other) } else { (other, one) };
        if near.half == Half::Front
            && far.half == Half::Back
            && far.far - near.far > garment.tolerance
            && let Some(slit) = garment.edge(near.edge).side_of
            && !told.contains(&slit)
        {
            told.push(slit);
            let (slit, piece) = (garment.edge(slit), words::piece(garment, garment.edge(near.edge).piece));
            let title = format!("{} of {piece} lies on the front half of the arm", slit.name);
            let advice = Diagnostic::new(&catalogue::SLIT_FRONT, slit.span, title)
                .label("nearer to the front")
                .help("count it from the other end of the edge: on the back half it lies in line with the little finger");
            findings.push(Finding::new(size.id(), 0.0, advice).about(&*slit.name));
        }
    }
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
}

impl Looking<'_> {
    fn edge(&self, stretch: StretchId) -> Option<EdgeId> {
        self.size.sewn.edge_of(&self.size.drawn, self.surface, stretch).map(|(_, edge)| edge)
    }

    /// From a side of a slit along the edge that it is cut into, past the long edge beside that, to the cap.
    fn way(&self, slit: StretchId, back: bool) -> Option<Way> {
        let surface = self.surface;
        let edge = self.edge(slit)?;
        self.garment.edge(edge).side_of?;
        let step = |at: StretchId| if back { surface.before(at) } else { surface.next(at) };
        let mut at = step(slit);
        let cut_into = surface.stretch(at).side;
        if self.garment.edge(self.edge(at)?).side_of.is_some() {
            return None;
        }
        let mut far = 0.0;
        while surface.stretch(at).side == cut_into {
            far += surface.length(at);
            at = step(at);
        }
        let (long, beside_slit) = (surface.stretch(at).side, at);
        while surface.stretch(at).side == long {
            at = step(at);
        }
        let join = surface.join(surface.stretch(at).join?);
        let JoinedBy::Seam { .. } = join.by else { return None };
        let beside = join.plies.iter().find(|ply| ply.stretch != at)?;
        let part = self.size.sewn.part(surface.face(surface.face_of(beside.stretch)).part).part;
        let name = &self.garment.piece(part.piece).name;
        let is = |word: &str| name.split('_').any(|part| part == word);
        let half = match (is("front"), is("back")) {
            (true, false) => Half::Front,
            (false, true) => Half::Back,
            _ => return None,
        };
        // A sleeve whose own back is set in at the front is told by itself.
        let own = self.edge(beside_slit)?;
        let is_back = self.garment.edge(own).name.split('_').any(|part| part == "back");
        (!is_back || half == Half::Back).then_some(Way { far, half, edge })
    }
}

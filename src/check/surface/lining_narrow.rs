//! `opening/passes` of what hangs in an opening by the same seam: a slip whose slit is shorter than the zip of its skirt.

use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, LayerId, Opening, OpeningId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::PassedRing;
use crate::sewing::surface::{Gluing, JoinedPly, Rim, StretchId, Surface};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::OPENING_PASSES], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let Some(surface) = surface.filter(|_| garment.layers.iter().filter(|layer| !layer.fused).count() > 1)
    else {
        return;
    };
    let rings =
        || OpeningId::enumerate(&size.sewn.openings).filter_map(|(id, ring)| Some((id, ring.as_ref()?)));
    if rings().next().is_none() {
        return;
    }
    let layer = |ply: &JoinedPly| layer_of(surface, ply.stretch);
    let by_layer = Gluing::of(surface, |_, one, other| layer(one) == layer(other)).rims(surface);
    for (id, ring) in rings() {
        let opening = garment.opening(id);
        let Some(needed) = size.drawn.scalar(opening.passes) else { continue };
        // What lets nothing through in front is told.
        if ring.narrowest().is_none_or(|passed| passed.opens() < needed - garment.tolerance) {
            continue;
        }
        let found = ring.rings.iter().find_map(|passed| {
            let (inner, rim) = hanging_in(surface, &by_layer, passed)?;
            let looking = Looking { garment, size, surface, opening, inner, rim };
            looking.narrow(needed)
        });
        findings.extend(found);
    }
}

fn layer_of(surface: &Surface, stretch: StretchId) -> LayerId {
    surface.face(surface.face_of(stretch)).layer
}

/// The layer that hangs all round in a ring by the seams along it, and its own rim there: with its slits.
fn hanging_in<'r>(surface: &Surface, by_layer: &'r [Rim], passed: &PassedRing) -> Option<(LayerId, &'r Rim)> {
    let first = passed.parts.first()?.stretch;
    let outer = layer_of(surface, first);
    let plies = |stretch: StretchId| {
        let join = surface.stretch(stretch).join.map(|join| surface.join(join));
        join.into_iter().flat_map(|join| &join.plies).map(|ply| ply.stretch)
    };
    plies(first).filter(|&ply| layer_of(surface, ply) > outer).find_map(|ply| {
        let inner = layer_of(surface, ply);
        let rim = by_layer.iter().find(|rim| rim.parts.iter().any(|part| part.stretch == ply))?;
        let is_on_rim = |ply: StretchId| rim.parts.iter().any(|part| part.stretch == ply);
        // A bib that is faced hangs in a part of the waist.
        let goes_round = passed.parts.iter().all(|part| plies(part.stretch).any(is_on_rim));
        goes_round.then_some((inner, rim))
    })
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
    opening: &'a Opening,
    inner: LayerId,
    rim: &'a Rim,
}

impl Looking<'_> {
    fn finding(&self, weight: f64, diagnostic: Diagnostic) -> Finding {
        Finding::new(self.size.id(), weight, diagnostic).about(&*self.garment.layer(self.inner).name)
    }

    /// With its slits open it lets less through than must pass. Cloth that stretches may.
    fn narrow(&self, needed: f64) -> Option<Finding> {
        let garment = self.garment;
        let fabric = garment.fabric(garment.layer(self.inner).fabric?);
        let stretches = fabric.stretch.across.is_some() || fabric.stretch.along.is_some();
        let opens = self.rim.length(self.surface);
        let by = needed - opens;
        if stretches || by <= garment.tolerance {
            return None;
        }
        let (name, passes) = (&garment.layer(self.inner).name, &garment.value(self.opening.passes).name);
        let [opens, needs, by_shown] = [opens, needed, by].map(|length| amount(length, garment.unit));
        let title = Title::new(format!("{name} lets no {passes} through behind this opening")).in_sizes();
        let mistake = Diagnostic::new(&catalogue::OPENING_PASSES, self.opening.span, title)
            .label(format!("in {name} it opens to {opens}; the {passes} is {needs}"))
            .help(format!(
                "let the slit of {name} go down as far as what closes the opening in front of it: {by_shown} more all round, half of \
                 that for each side of a slit"
            ));
        Some(self.finding(by, mistake).figure("opens", opens).figure(passes, needs))
    }
}

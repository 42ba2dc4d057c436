//! `opening/behind`: an opening of the shell, as an arm slit or a zip, behind which a seam shuts the lining.

use super::rim_words::RimWords;
use crate::check::seams::on_edge::OnEdge;
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureId, ClosureKind, Garment, LayerId, PointId, SeamId};
use crate::id_hash::{IdMap, IdSet};
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::resolve::DrawnPiece;
use crate::sewing::GarmentRim;
use crate::sewing::surface::{ClosureLine, JoinedBy, SideId, StretchId, Surface};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::OPENING_BEHIND], run: Run::PerSize(run) };

/// Less all round, in millimetres, is the way out of a cord, and no hand or arm goes through (common practice: a child's hand
/// has 15 cm).
const HAND: f64 = 150.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let Some(surface) = surface.filter(|_| garment.layers.iter().filter(|layer| !layer.fused).count() > 1)
    else {
        return;
    };
    let is_open = |rim: &&GarmentRim| {
        let mut parts = rim.ring.parts.iter();
        rim.ring.length >= HAND && parts.all(|part| surface.stretch(part.stretch).join.is_none())
    };
    let rims = size.rims(garment).unwrap_or_default();
    let words = RimWords { garment, size, surface };
    let mut looking: Option<Looking> = None;
    let mut told: Vec<String> = Vec::new();
    for rim in rims.iter().filter(is_open) {
        let looking = looking.get_or_insert_with(|| Looking::new(garment, size, surface));
        let Some((seam, layers)) = looking.shut_behind(rim) else { continue };
        let name = words.words(rim);
        if !told.contains(&name) {
            findings.push(reported(garment, size, surface, (rim, &name, &words), seam, layers));
            told.push(name);
        }
    }
    let mut told: IdSet<ClosureId> = IdSet::default();
    for line in surface.closures.iter().filter(|line| is_zip(garment, line)) {
        let looking = looking.get_or_insert_with(|| Looking::new(garment, size, surface));
        if let Some((seam, layers)) = looking.shut_behind_zip(line)
            && told.insert(line.closure)
        {
            findings.push(zip_reported(garment, size, line, seam, layers));
        }
    }
}

/// Whether it is a zip that lies between edges.
fn is_zip(garment: &Garment, line: &ClosureLine) -> bool {
    matches!(garment.closure(line.closure).kind, Some(ClosureKind::Zipper { .. }))
        && line.sides.iter().all(|side| !side.is_empty())
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
    /// The sides of each edge and of its copies, by where the whole of it begins and ends.
    of_edge: IdMap<(PointId, PointId), Vec<SideId>>,
}

impl<'a> Looking<'a> {
    fn new(garment: &'a Garment, size: &'a WorkedSize, surface: &'a Surface) -> Self {
        let mut looking = Looking { garment, size, surface, of_edge: IdMap::default() };
        let faces = surface.face_ids().filter(|&face| !surface.face(face).flap);
        for side in faces.flat_map(|face| surface.sides_of(face)).filter(|&side| !surface.side(side).fold) {
            if let Some(on) = looking.on_edge(side) {
                looking.of_edge.entry(on.whole()).or_default().push(side);
            }
        }
        looking
    }

    /// The seam that shuts another layer all along a rim, with both layers; none where that is open there too, or hangs by itself.
    fn shut_behind(&self, rim: &GarmentRim) -> Option<(SeamId, [LayerId; 2])> {
        let surface = self.surface;
        let stretches: Vec<StretchId> = rim.ring.parts.iter().map(|part| part.stretch).collect();
        let layer = surface.face(surface.face_of(*stretches.first()?)).layer;
        self.shut_along(layer, &stretches)
    }

    /// The same of both sides of a zip.
    fn shut_behind_zip(&self, line: &ClosureLine) -> Option<(SeamId, [LayerId; 2])> {
        let stretches: Vec<StretchId> = line.sides.iter().flatten().map(|&(stretch, _)| stretch).collect();
        let layer = self.surface.face(self.surface.face_of(*stretches.first()?)).layer;
        // Where it goes on below what is lined, nothing lies behind it.
        let lined: Vec<StretchId> =
            stretches.into_iter().filter(|&stretch| !self.behind(layer, stretch).is_empty()).collect();
        self.shut_along(layer, &lined)
    }

    fn shut_along(&self, layer: LayerId, stretches: &[StretchId]) -> Option<(SeamId, [LayerId; 2])> {
        let surface = self.surface;
        let behind: Vec<Vec<SideId>> = stretches.iter().map(|&stretch| self.behind(layer, stretch)).collect();
        let all: Vec<SideId> = behind.iter().flatten().copied().collect();
        if behind.iter().any(Vec::is_empty) {
            return None;
        }
        let seams: Vec<(SeamId, LayerId)> =
            all.iter().map(|&side| self.sewn_among(side, &all)).collect::<Option<_>>()?;
        let &(seam, inner) = seams.first()?;
        let is_of = |at: StretchId, layer: LayerId| surface.face(surface.face_of(at)).layer == layer;
        // What is sewn together nowhere is worn one over the other, and each as it opens.
        let are_joined =
            surface.joins.iter().filter(|join| matches!(join.by, JoinedBy::Seam { .. })).any(|join| {
                let has = |layer: LayerId| join.plies.iter().any(|ply| is_of(ply.stretch, layer));
                has(layer) && has(inner)
            });
        let is_one = seams.iter().all(|own| own.1 == inner);
        (are_joined && is_one && layer < inner).then_some((seam, [layer, inner]))
    }

    fn drawn(&self, side: SideId) -> Option<&'a DrawnPiece> {
        let part = self.surface.side(side).part;
        self.size.drawn.paper(self.size.sewn.part(part).part.paper)
    }

    fn on_edge(&self, side: SideId) -> Option<OnEdge> {
        OnEdge::of(self.garment, self.drawn(side)?, self.surface.side(side).edge)
    }

    /// Where the same edge lies in other layers, on both sides of the body: which of them is the left one hangs on how the
    /// lining is drawn.
    fn behind(&self, layer: LayerId, stretch: StretchId) -> Vec<SideId> {
        let surface = self.surface;
        let own = surface.stretch(stretch).side;
        let is_asked = surface.face(surface.face_of(stretch)).layer == layer && !surface.side(own).fold;
        let Some(on) = self.on_edge(own).filter(|_| is_asked) else { return Vec::new() };
        let of_it = self.of_edge.get(&on.whole()).into_iter().flatten().copied();
        let is_other = |&other: &SideId| surface.face(surface.side(other).face).layer != layer;
        let lies_there = |&other: &SideId| self.on_edge(other).is_some_and(|other| on.lies_on(&other));
        of_it.filter(is_other).filter(lies_there).collect()
    }

    /// The seam that sews a side to others of its layer among those. What lies beside them is another stretch of a longer one.
    fn sewn_among(&self, side: SideId, all: &[SideId]) -> Option<(SeamId, LayerId)> {
        let surface = self.surface;
        let layer_of = |side: SideId| surface.face(surface.side(side).face).layer;
        let layer = layer_of(side);
        surface.stretches_on(side).find_map(|stretch| {
            let join = surface.join(surface.stretch(stretch).join?);
            let JoinedBy::Seam { seam, .. } = join.by else { return None };
            let mut others = join.plies.iter().map(|ply| surface.stretch(ply.stretch).side);
            let is_among =
                others.any(|other| other != side && all.contains(&other) && layer_of(other) == layer);
            is_among.then_some((seam, layer))
        })
    }
}

fn zip_reported(
    garment: &Garment,
    size: &WorkedSize,
    line: &ClosureLine,
    seam: SeamId,
    [outer, inner]: [LayerId; 2],
) -> Finding {
    let (closure, seam) = (garment.closure(line.closure), garment.seam(seam));
    let [outer, inner] = [outer, inner].map(|layer| &garment.layer(layer).name);
    let title = format!("{} opens {outer} alone: {} shuts {inner} behind it", closure.name, seam.words());
    let warning = Diagnostic::new(&catalogue::OPENING_BEHIND, closure.name_span, title)
        .label("opens onto a lining that is sewn shut")
        .also(seam.name_span, format!("sewn through in {inner}"))
        .help(format!(
            "let {inner} end at the zip as well: sew {outer} to it along those edges, enclosing {}, or turn its edges under; and sew \
             {} below it alone",
            closure.name,
            seam.words()
        ));
    Finding::new(size.id(), line.lengths[0], warning).about(&*closure.name)
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    (rim, name, words): (&GarmentRim, &str, &RimWords),
    seam: SeamId,
    layers: [LayerId; 2],
) -> Finding {
    let [outer, inner] = layers.map(|layer| &garment.layer(layer).name);
    let seam = garment.seam(seam);
    let title =
        format!("what goes in at {name} in {outer} ends in {inner}: {} shuts it behind", seam.words());
    let first = rim.ring.parts.first().and_then(|part| {
        let (_, edge) = size.sewn.edge_of(&size.drawn, surface, part.stretch)?;
        garment
            .edge(edge)
            .portion
            .map(|own| garment.portion(own.portion).span)
            .or(Some(garment.edge(edge).span))
    });
    let round = amount(rim.ring.length, garment.unit);
    let warning = Diagnostic::new(&catalogue::OPENING_BEHIND, first.unwrap_or(garment.heading), title)
        .label(format!("{round} round"))
        .also(seam.name_span, format!("sewn through in {inner}"))
        .help(format!(
            "let {inner} open there as well: finish the same run of it, or sew both layers to each other along {}, each \
         side to its own",
            words.chain(&rim.ring.parts)
        ));
    Finding::new(size.id(), rim.ring.length, warning).about(name)
}

//! `name/alike`: two names of one group that look the same.

use super::{Check, Run};
use crate::garment::Garment;
use crate::report::{Diagnostic, catalogue, look_alike, skeleton};
use crate::source::Span;
use indexmap::IndexMap;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::NAME_ALIKE], run: Run::Once(run) };

/// Names that are told apart from one another: the group, the name, and where it is declared.
type Named<'a> = (Option<usize>, &'a str, Span);

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    let values = garment.values.iter().map(|value| (None, &*value.name, value.span));
    let pieces = garment.pieces.iter().map(|piece| (None, &*piece.name, piece.span));
    let layers = garment.layers.iter().map(|layer| (None, &*layer.name, layer.span));
    let seams = garment.seams.iter().map(|seam| (None, &*seam.name, seam.name_span));
    let closures = garment.closures.iter().map(|closure| (None, &*closure.name, closure.name_span));
    let fabrics = garment.fabrics.iter().map(|fabric| (None, &*fabric.name, fabric.span));
    let edges = garment.edges.iter().filter(|edge| edge.copied_from.is_none() && edge.same_run_as.is_none());
    let edges = edges.map(|edge| (Some(edge.piece.index()), &*edge.name, edge.span));
    let points = garment.points.iter().filter(|point| point.copied_from.is_none() && point.same_as.is_none());
    let points = points.map(|point| (Some(point.piece.index()), &*point.name, point.span));
    alike(values, diagnostics);
    alike(pieces.chain(layers), diagnostics);
    alike(seams.chain(closures), diagnostics);
    alike(fabrics, diagnostics);
    alike(edges, diagnostics);
    alike(points, diagnostics);
}

fn alike<'a>(names: impl Iterator<Item = Named<'a>> + Clone, diagnostics: &mut Vec<Diagnostic>) {
    // Letters that pass for Latin ones are of other alphabets; most garments have none.
    if names.clone().all(|(_, name, _)| name.is_ascii()) {
        return;
    }
    let mut seen: IndexMap<(Option<usize>, String), (&str, Span)> = IndexMap::new();
    for (group, name, span) in names {
        let &mut (first, declared) = seen.entry((group, skeleton(name))).or_insert((name, span));
        if first == name {
            continue;
        }
        let Some((_, how)) = look_alike(name, [first]) else { continue };
        let title = format!("{name} looks the same as another name, and is written with other letters");
        diagnostics.push(
            Diagnostic::new(&catalogue::NAME_ALIKE, span, title)
                .label(how)
                .also(declared, "the other one")
                .help("give one of them another name, or write both with the same letters if they are one"),
        );
    }
}

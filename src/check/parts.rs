//! `piece/uncut` and `part/missing`: pieces that a layer ought to have.

use super::{Check, Run, words};
use crate::garment::{Garment, LayerId, Piece, Seam, SewnEdge};
use crate::report::{Diagnostic, catalogue};

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::PIECE_UNCUT, &catalogue::PART_MISSING], run: Run::Once(run) };

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    if garment.incomplete.layers {
        return;
    }
    let mut listed = vec![false; garment.pieces.len()];
    for piece in garment.layers.iter().flat_map(|layer| &layer.pieces) {
        if let Some(place) = listed.get_mut(piece.index()) {
            *place = true;
        }
    }
    let uncut = garment.pieces.iter().zip(listed);
    let uncut: Vec<&Piece> = uncut
        .filter(|(piece, listed)| !listed && !piece.block && piece.ended_by.is_none())
        .map(|(piece, _)| piece)
        .collect();
    diagnostics.extend(report_uncut(&uncut));
    let cut = Cut::of(garment);
    for seam in garment.seams.iter().filter(|seam| !seam.poisoned && !seam.by_split) {
        diagnostics.extend(unqualified(garment, &cut, seam));
    }
    diagnostics.extend(garment.closures.iter().filter_map(|closure| {
        let edges = closure.first.edges.iter().chain(&closure.second.edges);
        names_fused(garment, (&format!("the closure {}", closure.name), "close"), edges)
    }));
    let seams = garment.seams.iter().filter(|seam| !seam.poisoned && !seam.by_split);
    diagnostics.extend(seams.filter_map(|seam| names_fused(garment, (&seam.words(), "sew"), edges(seam))));
}

/// A seam or a closure that names a layer that is fused on: what is sewn and closed is the cloth below, which is a
/// layer by itself.
fn names_fused<'a>(
    garment: &Garment,
    (what, does): (&str, &str),
    mut edges: impl Iterator<Item = &'a SewnEdge>,
) -> Option<Diagnostic> {
    let (sewn, layer) = edges.find_map(|sewn| {
        let layer = garment.layer(sewn.layer?);
        layer.fused.then_some((sewn, layer))
    })?;
    let piece = garment.piece(sewn.piece);
    let mut cloth = garment.layers.iter().filter(|other| !other.fused && other.pieces.contains(&sewn.piece));
    let title = format!(
        "{what} cannot {does} {} in {}, which is fused on and not sewn",
        words::piece(garment, sewn.piece),
        layer.name
    );
    let help = match cloth.next() {
        Some(cloth) => {
            format!(
                "name the cloth that it is fused to: {}.{}.{}",
                cloth.name,
                piece.name,
                garment.edge(sewn.edge).name
            )
        }
        None => format!("add {} to a layer that is sewn, and name that", piece.name),
    };
    let mistake = Diagnostic::new(&catalogue::PART_MISSING, sewn.span, title);
    Some(mistake.label("only stiffens").also(layer.span, "fused").help(help))
}

/// One message for all of them: often a whole layer was forgotten.
fn report_uncut(pieces: &[&Piece]) -> Option<Diagnostic> {
    const SHOWN: usize = 6;
    let (first, others) = pieces.split_first()?;
    let titles: Vec<String> = pieces.iter().take(SHOWN).map(|piece| piece.title.to_string()).collect();
    let title = match pieces.len().checked_sub(SHOWN) {
        None | Some(0) if others.is_empty() => format!("{} is never cut", first.title),
        None | Some(0) => format!("{} are never cut", words::listed(&titles)),
        Some(more) => format!("{} and {more} more are never cut", titles.join(", ")),
    };
    let help = match others.is_empty() {
        true => format!(
            "name {} in a layer, or write block piece if it is only there for others to be made from",
            first.name
        ),
        false => {
            "name them in a layer, or write block piece where one is only there for others to be made from"
                .to_owned()
        }
    };
    let mut mistake =
        Diagnostic::new(&catalogue::PIECE_UNCUT, first.span, title).label("in no layer").help(help);
    let (shown, unshown) = others.split_at(others.len().min(SHOWN - 1));
    for other in shown {
        mistake = mistake.also(other.span, "nor this one");
    }
    mistake.unshown.extend(unshown.iter().map(|other| other.span));
    Some(mistake)
}

fn edges(seam: &Seam) -> impl Iterator<Item = &SewnEdge> {
    seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges)
}

/// Which layers have which edges, with those that they were before a split, a join or a divide.
struct Cut {
    /// By edge.
    layers: Vec<Vec<LayerId>>,
}

impl Cut {
    fn of(garment: &Garment) -> Cut {
        let mut layers: Vec<Vec<LayerId>> = vec![Vec::new(); garment.edges.len()];
        // The layer that last came by an edge, and so by all that it was: of a long chain of splits each is walked once.
        let mut come_by: Vec<Option<LayerId>> = vec![None; garment.edges.len()];
        for (at, layer) in garment.layers.iter().enumerate() {
            let id = LayerId::from_index(at);
            for &edge in layer.pieces.iter().flat_map(|&piece| &garment.piece(piece).edges) {
                let mut before = Some(edge);
                while let Some(edge) = before {
                    if come_by.get_mut(edge.index()).is_none_or(|last| last.replace(id) == Some(id)) {
                        break;
                    }
                    let named = garment.edge(edge);
                    for edge in [Some(edge), named.part_of].into_iter().flatten() {
                        match layers.get_mut(edge.index()) {
                            Some(have) if have.last() != Some(&id) => have.push(id),
                            _ => {}
                        }
                    }
                    before = named.same_run_as;
                }
            }
        }
        Cut { layers }
    }

    fn has(&self, layer: LayerId, sewn: &SewnEdge) -> bool {
        self.layers.get(sewn.edge.index()).is_some_and(|have| have.contains(&layer))
    }

    /// Whether any layer has it; of a piece that none has, `piece/uncut` reports.
    fn somewhere(&self, sewn: &SewnEdge) -> bool {
        self.layers.get(sewn.edge.index()).is_some_and(|have| !have.is_empty())
    }
}

/// A seam without a layer: one sewn layer must have all its pieces. (Of a seam that names a layer,
/// the part is looked up when names are.)
fn unqualified(garment: &Garment, cut: &Cut, seam: &Seam) -> Option<Diagnostic> {
    let open: Vec<&SewnEdge> = edges(seam).filter(|sewn| sewn.layer.is_none()).collect();
    if open.is_empty() || !open.iter().all(|sewn| cut.somewhere(sewn)) {
        return None;
    }
    let sewn_layers: Vec<LayerId> =
        (0..garment.layers.len()).map(LayerId::from_index).filter(|&id| !garment.layer(id).fused).collect();
    let count = |layer: LayerId| open.iter().filter(|sewn| cut.has(layer, sewn)).count();
    if sewn_layers.iter().any(|&layer| count(layer) == open.len()) {
        return None;
    }
    // The layer that comes nearest is the one that was meant.
    let mut best = *sewn_layers.first()?;
    for &layer in &sewn_layers {
        if count(layer) > count(best) {
            best = layer;
        }
    }
    let missing = open.iter().find(|sewn| !cut.has(best, sewn))?;
    let (layer, piece) = (garment.layer(best), garment.piece(missing.piece));
    let mut names: Vec<String> = Vec::new();
    for sewn in &open {
        let name = words::piece(garment, sewn.piece);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let title = format!("no layer has all of {}, so {} is sewn in none", words::listed(&names), seam.words());
    let having = |sewn: &SewnEdge| -> Vec<&str> {
        let own = sewn_layers.iter().filter(|&&layer| cut.has(layer, sewn));
        own.map(|&layer| &*garment.layer(layer).name).collect()
    };
    let other = sewn_layers.iter().find(|&&layer| cut.has(layer, missing)).map(|&id| garment.layer(id));
    // Of what lies in one layer that one is meant; it is another that leaves it open.
    let doubtful = open.iter().find(|sewn| having(missing).len() == 1 && having(sewn).len() > 1);
    let help = match (doubtful, other) {
        (Some(doubtful), _) => {
            let (own, layers) = (garment.piece(doubtful.piece), having(doubtful));
            let named: Vec<String> = layers.iter().map(|layer| format!("{layer}.{}", own.name)).collect();
            format!(
                "say which layer's {} is meant, {}; or add {} to layer {}",
                own.name,
                named.join(" or "),
                piece.name,
                layer.name
            )
        }
        (None, Some(other)) => format!(
            "add {0} to layer {1}, or say which layer's is meant: {2}.{0}",
            piece.name, layer.name, other.name
        ),
        (None, None) => format!("add {} to layer {}", piece.name, layer.name),
    };
    let mistake = Diagnostic::new(&catalogue::PART_MISSING, missing.span, title)
        .label(format!("{} is not in {}", piece.name, layer.name))
        .also(layer.span, "the layer that has most of them")
        .help(help);
    Some(mistake)
}

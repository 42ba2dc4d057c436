//! `casing/empty`: a casing with neither elastic nor cord.

use super::{Check, Run, words};
use crate::garment::{FinishKind, Garment, SewnEdge};
use crate::report::{Diagnostic, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CASING_EMPTY], run: Run::Once(run) };

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    if garment.incomplete.sewing {
        return;
    }
    for finish in &garment.finishes {
        let FinishKind::Casing(_, None) = &finish.kind else { continue };
        let is_threaded = |sewn: &SewnEdge| {
            let mut channels = garment.cords.iter().flat_map(|cord| &cord.through);
            channels.any(|through| through.edge == sewn.edge)
        };
        let empty: Vec<&SewnEdge> = finish.edges.iter().filter(|sewn| !is_threaded(sewn)).collect();
        let Some(first) = empty.first() else { continue };
        let edge = words::edge(garment, first.edge);
        let (piece, name) = (&garment.piece(first.piece).name, &garment.edge(first.edge).name);
        let title = format!("nothing runs through the casing of {edge}");
        diagnostics.push(
            Diagnostic::new(&catalogue::CASING_EMPTY, finish.kind_span, title)
                .label("neither elastic nor a cord")
                .help(format!(
                    "say what does: casing … for elastic 2 of 70, or cord tie 160 through {piece}.{name}; or make \
                     it a hem"
                )),
        );
    }
}

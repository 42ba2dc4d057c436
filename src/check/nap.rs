//! `cloth/nap`: a cloth with a raised surface of which it is not said that it has a nap, or has none.

use super::{Check, Run};
use crate::garment::{FabricId, Garment};
use crate::report::{Diagnostic, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CLOTH_NAP], run: Run::Once(run) };

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    for (at, fabric) in garment.fabrics.iter().enumerate() {
        let Some(raised) = fabric.raised.filter(|_| !fabric.nap_said) else { continue };
        if !garment.layers.iter().any(|layer| layer.fabric == Some(FabricId::from_index(at))) {
            continue;
        }
        let title = format!("{} has a raised surface, and nothing is said of its nap", fabric.name);
        diagnostics.push(
            Diagnostic::new(&catalogue::CLOTH_NAP, raised, title)
                .label("pieces may lie either way up on it")
                .also(fabric.span, "declared here")
                .help("write nap one-way if it looks darker from one end than from the other; else nap none"),
        );
    }
}

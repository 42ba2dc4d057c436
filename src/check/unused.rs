//! `cloth/unused`: a fabric that no layer is cut from.

use super::{Check, Run};
use crate::garment::{FabricId, FinishKind, Garment};
use crate::report::{Diagnostic, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CLOTH_UNUSED], run: Run::Once(run) };

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    // A layer whose fabric is not known may mean any of them.
    if garment.layers.iter().any(|layer| layer.fabric.is_none()) {
        return;
    }
    for (at, fabric) in garment.fabrics.iter().enumerate() {
        let cut = garment.layers.iter().any(|layer| layer.fabric == Some(FabricId::from_index(at)));
        let bound = garment.finishes.iter().any(|finish| {
            matches!(&finish.kind, FinishKind::Bound(binding) if binding.cut_from == Some(FabricId::from_index(at)))
        });
        if cut || bound || fabric.from_library {
            continue;
        }
        let warning = Diagnostic::new(
            &catalogue::CLOTH_UNUSED,
            fabric.span,
            format!("nothing is cut from {}", fabric.name),
        )
        .label("no layer is in this fabric")
        .help(format!("name it in a layer (layer outer in {} {{ … }}), or remove it", fabric.name));
        diagnostics.push(warning);
    }
}

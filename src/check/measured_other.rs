//! `measure/other`: a measure that is called after one girth of the body, and compared with a smaller one. With a larger one it
//! is compared on purpose: a waist that lets the hip through.

use super::surface::TRUNK;
use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, ValueId, ValueKind};
use crate::report::{Diagnostic, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::MEASURE_OTHER], run: Run::OverSizes(run) };

fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    for value in &garment.values {
        let ValueKind::Measure { value: said, against: Some(against) } = &value.kind else { continue };
        let compared = garment.value(*against);
        let has = |girth: &str| value.name.split('_').any(|word| word == girth);
        let is_larger = |row: ValueId| {
            let girths =
                sizes.iter().map(|size| Some((size.drawn.scalar(row)?, size.drawn.scalar(*against)?)));
            girths.into_iter().all(|girths| girths.is_some_and(|(own, compared)| own > compared))
        };
        let mut rows = ValueId::enumerate(&garment.values);
        if !TRUNK.contains(&&*compared.name) || has(&compared.name) {
            continue;
        }
        let named = rows.find(|(id, row)| {
            let is_girth = matches!(row.kind, ValueKind::Body(_)) && TRUNK.contains(&&*row.name);
            is_girth && has(&row.name) && is_larger(*id)
        });
        let Some((_, named)) = named else { continue };
        let (own, other) = (&compared.name, &named.name);
        let title = format!("{} is called after the {other}, and compared with the {own}", value.name);
        diagnostics.push(
            Diagnostic::new(&catalogue::MEASURE_OTHER, value.span, title)
                .label(format!("against {own}"))
                .also(said.span, "measured so")
                .help(format!(
                    "compare it with what it measures: against {other}; or call it after the {own}; if it is meant so, nothing needs \
                     to change"
                )),
        );
    }
}

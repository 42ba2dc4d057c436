//! `name/unread`: a value, or a row of the body, that nothing is reckoned from.
//!
//! A table of the body is also there to choose a size by. Only where it is said by which rows that is done, and the
//! row is none of them, does it stand there for nothing; the height tells what a body is like, and is no figure of
//! the garment. What another file declares may be meant for others.

use super::{Check, Run};
use crate::garment::{Garment, Symbol, ValueId, ValueKind};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::NAME_UNREAD], run: Run::Once(run) };

/// Rows that tell the size of the whole body.
const OF_THE_WHOLE: [&str; 3] = ["height", "stature", "age"];

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    let incomplete = &garment.incomplete;
    // A piece or a line that is missing may be what reads it.
    if incomplete.sewing || incomplete.layers || incomplete.steps || garment.pieces.is_empty() {
        return;
    }
    let read: IdSet<ValueId> = garment
        .name_uses
        .iter()
        .filter_map(|one| match one.symbol {
            // Where it is declared its name stands too.
            Symbol::Value(value) if garment.value(value).span != one.span => Some(value),
            _ => None,
        })
        .collect();
    let file = garment.first_file;
    for (id, value) in ValueId::enumerate(&garment.values) {
        let is_own = file.lo <= value.span.lo && value.span.hi <= file.hi;
        if read.contains(&id) || garment.pick.contains(&id) || !is_own {
            continue;
        }
        let name = &value.name;
        let advice = match &value.kind {
            ValueKind::Let(_) | ValueKind::Solved { .. } => Diagnostic::new(
                &catalogue::NAME_UNREAD,
                value.span,
                format!("nothing is reckoned from {name}"),
            )
            .label("never read")
            .help(format!("use {name} where it was meant, or remove the line")),
            ValueKind::Body(_) if !garment.pick.is_empty() && !OF_THE_WHOLE.contains(&&**name) => {
                let title = format!("nothing is drawn to {name}, and no size is picked by it");
                Diagnostic::new(&catalogue::NAME_UNREAD, value.span, title).label("never read").help(format!(
                    "draw what {name} goes through by it, or measure the finished garment against it; or remove the row"
                ))
            }
            _ => continue,
        };
        diagnostics.push(advice);
    }
}

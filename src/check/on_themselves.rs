//! `button/itself`: buttons and buttonholes of one piece that lie on one another while it lies flat.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, Closure, ClosureId, ClosureKind, EdgeId, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::lay_fasteners;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::BUTTON_ITSELF], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let closures = ClosureId::enumerate(&garment.closures);
    let mut own = closures.filter(|(_, closure)| is_on_itself(garment, closure)).peekable();
    if own.peek().is_none() {
        return;
    }
    let finder = size.finder(garment);
    for (id, closure) in own {
        let Ok(laid) = lay_fasteners(garment, &size.drawn, &finder, id) else { continue };
        let Some(row) = &laid.row else { continue };
        let Some(wide) = row.size else { continue };
        // As many on the one line as on the other, the first line's first.
        let (first, second) = laid.places.split_at(laid.places.len() / 2);
        let near = first.iter().zip(second).filter(|(one, other)| one.0 == other.0);
        let near = near.map(|(one, other)| (one.1 - other.1).hypot()).min_by(f64::total_cmp);
        let Some(apart) = near.filter(|apart| *apart < wide) else { continue };
        let (is, wide) = (amount(apart, garment.unit), amount(wide, garment.unit));
        let title = Title::new(format!(
            "both sides of {} lie {is} apart on one piece, and its {} are {wide} wide",
            closure.name,
            row.kind.many()
        ))
        .in_sizes();
        let mistake = Diagnostic::new(&catalogue::BUTTON_ITSELF, closure.second.span, title)
            .label("would lie on the first side's")
            .also(closure.first.span, "the first side")
            .help(
                "a piece that closes on itself closes its one end on its other: draw the second line near the \
                 opposite edge",
            );
        findings
            .push(Finding::new(size.drawn.size, -apart, mistake).about(&*closure.name).figure("apart", is));
    }
}

/// Whether both sides are on one piece, along different lines.
fn is_on_itself(garment: &Garment, closure: &Closure) -> bool {
    let edges = |chain: &Chain| -> Vec<EdgeId> { chain.edges.iter().map(|sewn| sewn.edge).collect() };
    let on = |chain: &Chain, other: &Chain| {
        chain.edges.iter().all(|sewn| other.edges.iter().any(|beside| beside.piece == sewn.piece))
    };
    matches!(closure.kind, Some(ClosureKind::Fasteners(_)))
        && on(&closure.first, &closure.second)
        && edges(&closure.first) != edges(&closure.second)
        && closure.first.edges.iter().all(|sewn| garment.edge(sewn.edge).line)
}

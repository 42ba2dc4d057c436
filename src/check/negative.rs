//! `value/negative`: amounts of cloth, thread and trimmings that come to less than nothing.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureKind, Dimension, Expression, FinishKind, Garment, HemEdge, NotchSpacing};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::sewing::amount_of;
use crate::syntax::tree::Fastener;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::VALUE_NEGATIVE], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    let mut look = |expression: Option<&Expression>, what: &dyn Fn() -> String| {
        let Some(expression) = expression else { return };
        let Some(value) = amount_of(garment, sized, expression).filter(|value| *value < 0.0) else { return };
        let reported = match expression.dimension {
            // A share.
            Dimension::Number => words::value(garment, value * 100.0, Dimension::Number) + " %",
            dimension => words::value(garment, value, dimension),
        };
        let title = Title::new(format!("{} is below 0", what())).in_sizes();
        let mistake = Diagnostic::new(&catalogue::VALUE_NEGATIVE, expression.span, title)
            .label(reported.clone())
            .help("leave the minus out, or look at what is subtracted from what: 0 is the least");
        findings.push(Finding::new(sized.size, -value, mistake).figure("comes to", reported));
    };
    of_allowances(garment, &mut look);
    of_cloth(garment, &mut look);
    of_finishes(garment, &mut look);
    of_closures(garment, &mut look);
}

/// Looks at an amount, if it is said; the other tells what it is the amount of.
type Look<'a> = dyn FnMut(Option<&Expression>, &dyn Fn() -> String) + 'a;

fn of_allowances(garment: &Garment, look: &mut Look) {
    look(garment.allowance.as_ref(), &|| "the allowance".to_owned());
    for piece in &garment.pieces {
        look(piece.allowance.as_ref(), &|| format!("the allowance of {}", piece.title));
    }
    for seam in &garment.seams {
        let allowance = seam.allowance.as_ref().map(|(allowance, _)| allowance);
        look(allowance, &|| format!("the allowance of the {} seam", seam.name));
        let width = seam.work.as_ref().map(|work| &work.width);
        look(width, &|| format!("the width of the {} seam", seam.name));
        for notches in &seam.divided {
            if let NotchSpacing::AtMost(length) = &notches.apart {
                look(Some(length), &|| format!("how far apart the notches of the {} seam are", seam.name));
            }
        }
        for gap in &seam.gaps {
            look(Some(&gap.length), &|| format!("the gap in {}", seam.name));
        }
    }
}

fn of_cloth(garment: &Garment, look: &mut Look) {
    for fabric in &garment.fabrics {
        let facts = [
            ("width", &fabric.width),
            ("selvage", &fabric.selvage),
            ("thickness", &fabric.thickness),
            ("stretch along", &fabric.stretch.along),
            ("stretch across", &fabric.stretch.across),
            ("shrinking along", &fabric.shrink.along),
            ("shrinking across", &fabric.shrink.across),
            ("repeat along", &fabric.repeat.along),
            ("repeat across", &fabric.repeat.across),
        ];
        for (fact, value) in facts {
            look(value.as_ref(), &|| format!("the {fact} of {}", fabric.name));
        }
    }
}

fn of_finishes(garment: &Garment, look: &mut Look) {
    for finish in &garment.finishes {
        let edge = || finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
        match &finish.kind {
            FinishKind::Hem(hem) => {
                look(Some(&hem.depth), &|| format!("the hem of {}", edge()));
                if let HemEdge::TurnedUnder(under) = &hem.raw_edge {
                    look(Some(under), &|| format!("what is turned under at {}", edge()));
                }
                look(hem.turn_up.as_ref(), &|| format!("the turn-up of {}", edge()));
            }
            FinishKind::Bound(binding) => {
                look(Some(&binding.width), &|| format!("the binding of {}", edge()));
                for one in &binding.running_on {
                    look(Some(&one.length), &|| format!("what the binding of {} runs on", edge()));
                }
                for one in &binding.loops {
                    look(Some(&one.length), &|| format!("the loop of the binding of {}", edge()));
                }
                look(finish.binding_stretch.as_ref(), &|| {
                    format!("the stretch of the binding of {}", edge())
                });
            }
            FinishKind::Casing(depth, elastic) => {
                look(Some(depth), &|| format!("the casing of {}", edge()));
                let elastic = elastic.as_ref();
                let width = elastic.map(|(width, _)| width);
                look(width, &|| format!("the width of the elastic in {}", edge()));
                let length = elastic.map(|(_, length)| length);
                look(length, &|| format!("the length of the elastic in {}", edge()));
            }
            FinishKind::Elastic(width, length) => {
                look(Some(width), &|| format!("the width of the elastic of {}", edge()));
                look(Some(length), &|| format!("the length of the elastic of {}", edge()));
            }
            FinishKind::Tape(width) => look(width.as_ref(), &|| format!("the tape of {}", edge())),
            FinishKind::TurnedUnderOnto(_)
            | FinishKind::Overlocked
            | FinishKind::Raw
            | FinishKind::Poison => {}
        }
    }
}

fn of_closures(garment: &Garment, look: &mut Look) {
    for closure in &garment.closures {
        let name = &closure.name;
        match &closure.kind {
            Some(ClosureKind::Zipper { lengths, showing, .. }) => {
                for length in lengths {
                    look(Some(length), &|| format!("the zip of {name}"));
                }
                look(showing.as_ref(), &|| format!("what shows of the zip of {name}"));
            }
            Some(ClosureKind::Fasteners(row)) => {
                let what = if row.kind == Fastener::Tie { "length" } else { "width" };
                look(row.size.as_ref(), &|| format!("the {what} of the {} of {name}", row.kind.many()));
                look(row.stand.as_ref(), &|| format!("the stand of {name}"));
            }
            None => {}
        }
    }
    for strap in &garment.straps {
        look(Some(&strap.length), &|| format!("the length of the strap {}", strap.name));
        look(Some(&strap.width), &|| format!("the width of the strap {}", strap.name));
        look(strap.sewn.as_ref(), &|| format!("what is sewn on of the strap {}", strap.name));
    }
    for cord in &garment.cords {
        look(Some(&cord.length), &|| format!("the length of the cord {}", cord.name));
        look(cord.ends.as_ref(), &|| format!("what hangs out of the cord {}", cord.name));
    }
}

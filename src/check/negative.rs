//! `value/negative`: amounts of cloth, thread and trimmings, and measures of the body, that come to less than nothing;
//! and `value/nothing`: hems, bindings and fasteners of no size.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    ClosureKind, Dimension, Expression, FinishKind, Garment, HemEdge, NotchSpacing, ValueId, ValueKind,
};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::sewing::amount_of;
use crate::syntax::tree::Fastener;

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::VALUE_NEGATIVE, &catalogue::VALUE_NOTHING], run: Run::PerSize(run) };

/// Less than this, in millimetres, is nothing.
const NOTHING: f64 = 0.1;

/// Whether an amount may come to nothing.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Least {
    /// It may: what has none of it is sewn all the same, or another check speaks of it.
    Nothing,
    /// What it is the size of would not be there.
    Something,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    let mut look = |expression: Option<&Expression>, least: Least, what: &dyn Fn() -> String| {
        let Some(expression) = expression else { return };
        let Some(value) = amount_of(garment, sized, expression) else { return };
        if value < 0.0 {
            findings.push(negative(garment, size, expression, value, &what()));
        } else if least == Least::Something && value < NOTHING {
            findings.push(nothing(size, expression, &what()));
        }
    };
    of_allowances(garment, &mut look);
    of_cloth(garment, &mut look);
    of_finishes(garment, &mut look);
    of_closures(garment, &mut look);
    of_the_body(garment, size, findings);
}

fn negative(
    garment: &Garment,
    size: &WorkedSize,
    expression: &Expression,
    value: f64,
    what: &str,
) -> Finding {
    let reported = match expression.dimension {
        // A share.
        Dimension::Number => words::value(garment, value * 100.0, Dimension::Number) + " %",
        dimension => words::value(garment, value, dimension),
    };
    let title = Title::new(format!("{what} is below 0")).in_sizes();
    let mistake = Diagnostic::new(&catalogue::VALUE_NEGATIVE, expression.span, title)
        .label(reported.clone())
        .help("leave the minus out, or look at what is subtracted from what: 0 is the least");
    Finding::new(size.id(), -value, mistake).figure("comes to", reported)
}

fn nothing(size: &WorkedSize, expression: &Expression, what: &str) -> Finding {
    let title = Title::new(format!("{what} comes to nothing")).in_sizes();
    let mistake = Diagnostic::new(&catalogue::VALUE_NOTHING, expression.span, title)
        .label("there is nothing of this size")
        .help("write how much it is; or, if it is not meant to be there, take it out of the file");
    Finding::new(size.id(), 0.0, mistake).about(what)
}

/// A measure of the body is more than nothing in every size.
fn of_the_body(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for (id, value) in ValueId::enumerate(&garment.values) {
        let ValueKind::Body(row) = &value.kind else { continue };
        let Some(measured) = size.drawn.scalar(id).filter(|_| row.dimension == Dimension::Length) else {
            continue;
        };
        if measured < 0.0 {
            let is = words::value(garment, measured, Dimension::Length);
            let title = Title::new(format!(
                "the {} of the body comes to less than nothing",
                value.name.replace('_', " ")
            ))
            .in_sizes();
            let mistake = Diagnostic::new(&catalogue::VALUE_NEGATIVE, value.span, title)
                .label(is.clone())
                .help("look for a slip in its row: a list says every size, `grade` the step from each size to the next");
            findings.push(Finding::new(size.id(), -measured, mistake).figure("comes to", is));
        }
    }
}

/// Looks at an amount, if it is said; the last tells what it is the amount of.
type Look<'a> = dyn FnMut(Option<&Expression>, Least, &dyn Fn() -> String) + 'a;

fn of_allowances(garment: &Garment, look: &mut Look) {
    look(garment.allowance.as_ref(), Least::Nothing, &|| "the allowance".to_owned());
    for piece in &garment.pieces {
        look(piece.allowance.as_ref(), Least::Nothing, &|| format!("the allowance of {}", piece.title));
    }
    for seam in &garment.seams {
        let allowance = seam.allowance.as_ref().map(|(allowance, _)| allowance);
        look(allowance, Least::Nothing, &|| format!("the allowance of {}", seam.words()));
        let width = seam.work.as_ref().map(|work| &work.width);
        look(width, Least::Nothing, &|| format!("the width of {}", seam.words()));
        let tape = seam.tape.as_ref().and_then(|tape| tape.width.as_ref());
        look(tape, Least::Something, &|| format!("the tape of {}", seam.words()));
        for notches in &seam.divided {
            if let NotchSpacing::AtMost(length) = &notches.apart {
                look(Some(length), Least::Nothing, &|| {
                    format!("how far apart the notches of {} are", seam.words())
                });
            }
        }
        for gap in &seam.gaps {
            look(Some(&gap.length), Least::Nothing, &|| format!("the gap in {}", seam.words()));
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
            look(value.as_ref(), Least::Nothing, &|| format!("the {fact} of {}", fabric.name));
        }
    }
}

fn of_finishes(garment: &Garment, look: &mut Look) {
    for finish in &garment.finishes {
        let edge = || finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
        match &finish.kind {
            FinishKind::Hem(hem) => {
                look(Some(&hem.depth), Least::Something, &|| format!("the hem of {}", edge()));
                if let HemEdge::TurnedUnder(under) = &hem.raw_edge {
                    look(Some(under), Least::Something, &|| format!("what is turned under at {}", edge()));
                }
                look(hem.turn_up.as_ref(), Least::Nothing, &|| format!("the turn-up of {}", edge()));
            }
            FinishKind::Bound(binding) => {
                look(Some(&binding.width), Least::Something, &|| format!("the binding of {}", edge()));
                for one in &binding.running_on {
                    look(Some(&one.length), Least::Something, &|| {
                        format!("what the binding of {} runs on", edge())
                    });
                }
                for one in &binding.loops {
                    look(Some(&one.length), Least::Something, &|| {
                        format!("the loop of the binding of {}", edge())
                    });
                }
                look(finish.binding_stretch.as_ref(), Least::Nothing, &|| {
                    format!("the stretch of the binding of {}", edge())
                });
            }
            FinishKind::Casing(depth, elastic) => {
                look(Some(depth), Least::Something, &|| format!("the casing of {}", edge()));
                let elastic = elastic.as_ref();
                let width = elastic.map(|(width, _)| width);
                look(width, Least::Something, &|| format!("the width of the elastic in {}", edge()));
                let length = elastic.map(|(_, length)| length);
                look(length, Least::Nothing, &|| format!("the length of the elastic in {}", edge()));
            }
            FinishKind::Elastic(width, length) => {
                look(Some(width), Least::Something, &|| format!("the width of the elastic of {}", edge()));
                look(Some(length), Least::Nothing, &|| format!("the length of the elastic of {}", edge()));
            }
            FinishKind::Tape(width) => {
                look(width.as_ref(), Least::Something, &|| format!("the tape of {}", edge()))
            }
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
                    look(Some(length), Least::Nothing, &|| format!("the zip of {name}"));
                }
                look(showing.as_ref(), Least::Nothing, &|| format!("what shows of the zip of {name}"));
            }
            Some(ClosureKind::Fasteners(row)) => {
                let what = if row.kind == Fastener::Tie { "length" } else { "width" };
                look(row.size.as_ref(), Least::Something, &|| {
                    format!("the {what} of the {} of {name}", row.kind.many())
                });
                look(row.stand.as_ref(), Least::Nothing, &|| format!("the stand of {name}"));
            }
            None => {}
        }
    }
    for strap in &garment.straps {
        look(Some(&strap.length), Least::Something, &|| format!("the length of the strap {}", strap.name));
        look(Some(&strap.width), Least::Something, &|| format!("the width of the strap {}", strap.name));
        look(strap.sewn.as_ref(), Least::Nothing, &|| format!("what is sewn on of the strap {}", strap.name));
    }
    for row in &garment.rows {
        look(row.distance.as_ref(), Least::Nothing, &|| format!("how far {} lies from its edges", row.name));
        look(row.rows.as_ref().map(|(count, _)| count), Least::Nothing, &|| {
            format!("the number of rows of {}", row.name)
        });
        look(row.rows.as_ref().map(|(_, apart)| apart), Least::Nothing, &|| {
            format!("how far apart the rows of {} are", row.name)
        });
    }
    for tack in &garment.tacks {
        look(tack.bar.as_ref(), Least::Something, &|| format!("the bar of {}", tack.name));
    }
    for cord in &garment.cords {
        look(Some(&cord.length), Least::Nothing, &|| format!("the length of the cord {}", cord.name));
        look(cord.ends.as_ref(), Least::Nothing, &|| format!("what hangs out of the cord {}", cord.name));
    }
}

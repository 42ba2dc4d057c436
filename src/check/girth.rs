//! `measure/tight`: a finished girth below the body's, in cloth that does not stretch so far.
//!
//! A girth is told by how it is measured: over all copies (`total`) or across the piece opened out
//! (`width`), along edges that go across the body.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Expression, Garment, Geometry, Node, Part, Value, ValueId, ValueKind};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue, percent};
use crate::resolve::SizedGarment;
use crate::sewing::give_along;
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::MEASURE_TIGHT], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    let parts = garment.parts();
    for (at, value) in garment.values.iter().enumerate() {
        let ValueKind::Measure { value: measured, against: Some(body) } = &value.kind else { continue };
        let (Some(finished), Some(wearer)) = (sized.scalar(ValueId::from_index(at)), sized.scalar(*body))
        else {
            continue;
        };
        if finished <= 0.0 || wearer - finished <= garment.tolerance {
            continue;
        }
        let Some(share) = gives(garment, sized, &parts, measured) else { continue };
        if finished * (1.0 + share) < wearer - garment.tolerance {
            let body = garment.values.get(body.index());
            findings.extend(body.map(|body| finding(garment, sized, value, body, (finished, wearer, share))));
        }
    }
}

/// How far the cloth of a girth stretches round the body, as a share; none where that is not known, or
/// where it is no girth.
fn gives(garment: &Garment, sized: &SizedGarment, parts: &[Part], measured: &Expression) -> Option<f64> {
    let mut sums = (0.0, 0.0);
    let mut add = |part: &Part, path: &Path| {
        let share = give_along(garment, sized, part, path).share()?;
        sums.0 += path.length();
        sums.1 += path.length() * share;
        Some(())
    };
    let of_paper = |paper| parts.iter().find(|part| part.paper == paper && !garment.layer(part.layer).fused);
    for inner in measured.walk() {
        let Node::Geometry(geometry) = &inner.node else { continue };
        match &**geometry {
            Geometry::Total(uses) => {
                for (_, used) in uses {
                    let part = of_paper(used.paper.paper)?;
                    let drawn = sized.papers.get(part.paper.index())?.as_ref()?;
                    let edges = drawn.edges.iter().map(|edge| (edge.edge, &edge.path));
                    let lines = drawn.lines.iter().map(|line| (line.edge, &line.path));
                    let (_, path) = edges.chain(lines).find(|(id, _)| garment.is_run_of(*id, used.edge))?;
                    let way: Vec2 = path.end() - path.start();
                    if way.y.abs() > way.x.abs() {
                        return None;
                    }
                    add(part, path)?;
                }
            }
            Geometry::Width(paper) => {
                let part = of_paper(paper.paper)?;
                add(part, &Path::straight(Point::ZERO, Point::new(1.0, 0.0)))?;
            }
            Geometry::Length(_)
            | Geometry::Finished(_)
            | Geometry::Height(_)
            | Geometry::X(_)
            | Geometry::Y(_)
            | Geometry::Distance(..) => return None,
        }
    }
    (sums.0 > 0.0).then(|| sums.1 / sums.0)
}

fn finding(
    garment: &Garment,
    sized: &SizedGarment,
    value: &Value,
    body: &Value,
    (finished, wearer, share): (f64, f64, f64),
) -> Finding {
    let unit = garment.unit;
    let (is, needs) = (amount(finished, unit), amount(wearer, unit));
    let title = Title::new(format!(
        "{} comes to {is}, less than the {} of {needs}",
        value.label.as_deref().unwrap_or(&value.name),
        words::listed(&[body.name.replace('_', " ")])
    ))
    .in_sizes();
    let advice = Diagnostic::new(&catalogue::MEASURE_TIGHT, value.span, title)
        .label(match share > 0.005 {
            true => format!("its cloth stretches by {}, to {}", percent(share), amount(finished * (1.0 + share), unit)),
            false => "its cloth does not stretch".to_owned(),
        })
        .help(format!(
            "make it at least {}, and more to breathe and move in; or take a cloth that stretches; if it is worn \
             open, nothing needs to change",
            at_least(wearer - finished, unit) + " wider"
        ));
    Finding::new(sized.size, wearer - finished, advice).figure("finished", is).figure(&body.name, needs)
}

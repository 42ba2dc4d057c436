//! `measure/tight`: a finished girth below the body's, in cloth that does not stretch so far; and `measure/wide`: one so large that
//! something is counted twice.
//!
//! A girth is told by how it is measured: over all copies (`total`), across the piece opened out (`width`), or by
//! lengths and places that the maker adds up; along edges that go across the body. What is added up by hand and
//! comes to much less than the body is a half or a quarter of it, and is not compared.

use super::surface::TRUNK;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeUse, Expression, Garment, Geometry, Node, Part, Value, ValueId, ValueKind};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue, percent};
use crate::resolve::SizedGarment;
use crate::sewing::{amount_of, give_along};
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::MEASURE_TIGHT, &catalogue::MEASURE_WIDE], run: Run::PerSize(run) };

/// A sum of lengths that comes to less than this share of the body's measure goes only part of the way round.
const ROUND: f64 = 2.0 / 3.0;

/// The one girth along which edges go up and down: necklines are hollowed out.
const NECK: &str = "neck";

/// What measures so many times the body's girth counts something twice: no garment but a gathered one has as much.
const TWICE: f64 = 1.9;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    let parts = garment.parts();
    for (at, value) in garment.values.iter().enumerate() {
        let ValueKind::Measure { value: measured, against: Some(body) } = &value.kind else { continue };
        let (Some(finished), Some(wearer)) = (sized.scalar(ValueId::from_index(at)), sized.scalar(*body))
        else {
            continue;
        };
        let compared = garment.values.get(body.index());
        let is_of_all = measured.walk().any(|inner| match &inner.node {
            Node::Geometry(geometry) => matches!(**geometry, Geometry::Total(_) | Geometry::Width(_)),
            _ => false,
        });
        if let Some(body) = compared.filter(|body| is_of_all && TRUNK.contains(&&*body.name))
            && wearer > 0.0
            && finished >= TWICE * wearer
        {
            findings.push(wide(garment, sized, (value, measured), body, [finished, wearer]));
        }
        if finished <= 0.0 || wearer - finished <= garment.tolerance {
            continue;
        }
        let is_added_up = measured.walk().any(|inner| match &inner.node {
            Node::Geometry(geometry) => !matches!(**geometry, Geometry::Total(_) | Geometry::Width(_)),
            _ => false,
        });
        if is_added_up && finished < wearer * ROUND {
            continue;
        }
        let is_drawn = measured.walk().any(|inner| matches!(inner.node, Node::Geometry(_)));
        // A figure that is not measured on a piece is held against the cloth that stretches most.
        let share = match is_drawn {
            true => gives(garment, sized, &parts, measured, compared.is_some_and(|body| &*body.name == NECK)),
            false if finished < wearer * ROUND => None,
            false => most_stretch(garment, sized),
        };
        let Some(share) = share else { continue };
        if finished * (1.0 + share) < wearer - garment.tolerance {
            let body = garment.values.get(body.index());
            findings.extend(body.map(|body| finding(garment, sized, value, body, (finished, wearer, share))));
        }
    }
}

fn wide(
    garment: &Garment,
    sized: &SizedGarment,
    (value, measured): (&Value, &Expression),
    body: &Value,
    [finished, wearer]: [f64; 2],
) -> Finding {
    let [is, has] = [finished, wearer].map(|girth| amount(girth, garment.unit));
    let name = value.label.as_deref().unwrap_or(&value.name);
    let title = Title::new(format!("{name} comes to {is}, nearly twice the {} of {has} or more", body.name));
    let advice = Diagnostic::new(&catalogue::MEASURE_WIDE, measured.span, title.in_sizes())
        .label(is.clone())
        .also(body.span, has.clone())
        .help(
            "total counts every copy and both halves of what is cut on the fold, width a half opened out: look for what is counted \
             twice; if the garment is gathered or flared as wide as that, nothing needs to change",
        );
    Finding::new(sized.size, finished - wearer, advice)
        .about(&*value.name)
        .figure("finished", is)
        .figure(&body.name, has)
}

/// How far the cloth of a girth stretches round the body, as a share; none where that is not known, or
/// where it is no girth.
fn gives(
    garment: &Garment,
    sized: &SizedGarment,
    parts: &[Part],
    measured: &Expression,
    is_neck: bool,
) -> Option<f64> {
    let mut sums = (0.0, 0.0);
    let mut add = |part: &Part, path: &Path| {
        let share = give_along(garment, sized, part, path).share()?;
        sums.0 += path.length();
        sums.1 += path.length() * share;
        Some(())
    };
    let of_paper = |paper| parts.iter().find(|part| part.paper == paper && !garment.layer(part.layer).fused);
    let across = Path::straight(Point::ZERO, Point::new(1.0, 0.0));
    for inner in measured.walk() {
        let Node::Geometry(geometry) = &inner.node else { continue };
        let used: Vec<EdgeUse> = match &**geometry {
            Geometry::Total(uses) => uses.iter().map(|(_, used)| *used).collect(),
            Geometry::Length(used) | Geometry::Finished(used) => vec![*used],
            Geometry::Width(paper) => {
                add(of_paper(paper.paper)?, &across)?;
                continue;
            }
            Geometry::X(place) => {
                let paper = place.walk().find_map(|inner| match &inner.node {
                    Node::Point(used) => Some(used.paper.paper),
                    _ => None,
                });
                add(of_paper(paper?)?, &across)?;
                continue;
            }
            Geometry::Height(_) | Geometry::Y(_) | Geometry::Distance(..) => return None,
        };
        for used in used {
            let mut found = false;
            // What was split lives on in what it became.
            let mut open = vec![used.paper.paper];
            while let Some(paper) = open.pop() {
                open.extend(&garment.paper(paper).becomes);
                let Some(drawn) = sized.paper(paper) else { continue };
                let edges = drawn.edges.iter().map(|edge| (edge.edge, &edge.path));
                let lines = drawn.lines.iter().map(|line| (line.edge, &line.path));
                for (_, path) in edges.chain(lines).filter(|(id, _)| garment.is_run_of(*id, used.edge)) {
                    let way: Vec2 = path.end() - path.start();
                    if way.y.abs() > way.x.abs() && !is_neck {
                        return None;
                    }
                    add(of_paper(paper)?, path)?;
                    found = true;
                }
            }
            found.then_some(())?;
        }
    }
    (sums.0 > 0.0).then(|| sums.1 / sums.0)
}

/// How far the cloth that stretches most does; none where that is not known of one of them.
fn most_stretch(garment: &Garment, sized: &SizedGarment) -> Option<f64> {
    let layers = garment.layers.iter().filter(|layer| !layer.fused);
    let mut most: Option<f64> = None;
    for layer in layers {
        let stretch = &garment.fabric(layer.fabric?).stretch;
        for way in [&stretch.across, &stretch.along].into_iter().flatten() {
            most = Some(amount_of(garment, sized, way)?.max(most.unwrap_or(0.0)));
        }
        most = most.or(Some(0.0));
    }
    most
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

//! `cloth/thick`: a thick lining eats the wearing ease.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Expression, Garment, LayerId, PieceId, Used, ValueKind};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::amount_of;
use std::f64::consts::PI;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CLOTH_THICK], run: Run::PerSize(run) };

/// Cloth no thicker than this, in millimetres, is within the ease that every maker allows (common
/// practice).
const THIN: f64 = 1.0;
/// A lining may eat this share of the ease without a word.
const UNNOTICED: f64 = 0.25;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    for (at, value) in garment.values.iter().enumerate() {
        let ValueKind::Measure { value: expression, against: Some(against) } = &value.kind else { continue };
        let (Some(measured), Some(body)) =
            (sized.scalar(crate::garment::ValueId::from_index(at)), sized.scalar(*against))
        else {
            continue;
        };
        let layers = size.finder(garment).layers;
        let pieces = pieces_in(garment, expression);
        let has = |layer: &&LayerId| pieces.iter().any(|&piece| layers.has(**layer, piece));
        // The first layer that has them is the outermost: what is inside of it eats.
        let inside: Vec<LayerId> = layers.layers.iter().filter(has).skip(1).copied().collect();
        let thick = inside.iter().filter_map(|&layer| {
            let fabric = garment.fabric(garment.layer(layer).fabric?);
            let said = fabric.thickness.as_ref()?;
            Some((layer, said.span, amount_of(garment, sized, said).filter(|thick| *thick > THIN)?))
        });
        let thick: Vec<_> = thick.collect();
        let eaten: f64 = thick.iter().map(|(_, _, thick)| 2.0 * PI * thick).sum();
        let ease = measured - body;
        if thick.is_empty() || !ease.is_finite() || eaten <= UNNOTICED * ease.max(0.0) {
            continue;
        }
        let unit = garment.unit;
        let name = value.label.as_deref().unwrap_or(&value.name);
        let title = Title::new(format!(
            "what lies inside takes {} of the {} of ease that {name} has",
            amount(eaten, unit),
            amount(ease, unit)
        ))
        .in_sizes();
        let mut warning = Diagnostic::new(&catalogue::CLOTH_THICK, value.span, title)
            .label(format!("{} of ease on paper", amount(ease, unit)));
        for (layer, span, thickness) in &thick {
            let text = format!(
                "{} is {} thick: 2π times that is {}",
                garment.layer(*layer).name,
                amount(*thickness, unit),
                amount(2.0 * PI * thickness, unit)
            );
            warning = warning.also(*span, text);
        }
        let warning = warning
            .help(format!("add {} to the ease, or line it with something thinner", amount(eaten, unit)));
        findings.push(
            Finding::new(sized.size, eaten / ease.max(1.0), warning)
                .about(&*value.name)
                .figure("ease", amount(ease, unit))
                .figure("left", amount(ease - eaten, unit)),
        );
    }
}

/// The pieces that an expression measures.
fn pieces_in(garment: &Garment, expression: &Expression) -> Vec<PieceId> {
    let papers = expression.uses().filter_map(|used| match used {
        Used::Edge(edge) => Some(edge.paper.paper),
        Used::Paper(paper) => Some(paper.paper),
        Used::Value(_) | Used::Point(_) => None,
    });
    papers.map(|paper| garment.paper(paper).piece).collect()
}

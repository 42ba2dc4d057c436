//! Where gaps for turning lie, for whoever cuts and notches.

use crate::cutting::WorkedSize;
use crate::garment::{Dimension, Expression, Garment, NotchAt, SewnPoint, SewnSpot};
use crate::report::amount;
use crate::sewing::amount_of;

/// A line for each gap whose place is said: its seam, how long it is and where it lies. What differs from size to size is told
/// from the least to the most.
pub(super) fn left_open(garment: &Garment, sizes: &[&WorkedSize]) -> Vec<String> {
    let shown = |said: &Expression| -> Option<String> {
        let values: Option<Vec<f64>> =
            sizes.iter().map(|size| amount_of(garment, &size.drawn, said)).collect();
        let values = values.filter(|values| !values.is_empty())?;
        let written = |value: f64| match said.dimension {
            Dimension::Number => format!("{} %", libm::round(value * 1e4) / 1e2),
            _ => amount(value, garment.unit),
        };
        let least = written(values.iter().copied().fold(f64::INFINITY, f64::min));
        let most = written(values.iter().copied().fold(f64::NEG_INFINITY, f64::max));
        Some(if least == most { least } else { format!("{least} to {most}") })
    };
    let gaps = garment.seams.iter().flat_map(|seam| seam.gaps.iter().map(move |gap| (seam, gap)));
    let lines = gaps.filter_map(|(seam, gap)| {
        let at = gap.at.as_ref()?;
        let place = match &at.between {
            Some([NotchAt::From(begin, from), NotchAt::From(end, _)]) => {
                format!("from {} to {} from {}", shown(begin)?, shown(end)?, spot(garment, from))
            }
            _ => "in the middle".to_owned(),
        };
        let along = at.along.map_or_else(String::new, |sewn| {
            let edge = &garment.edge(garment.whole_edge(sewn.edge)).name;
            format!(" along {}.{edge}", garment.part_name(sewn.layer, sewn.piece))
        });
        let layer = gap.layer.map(|layer| format!(" in {}", garment.layer(layer).name)).unwrap_or_default();
        let hand = gap.hand.map(|hand| format!(" on the {}", hand.word())).unwrap_or_default();
        Some(format!("leave open in {}{layer}{hand}: {}, {place}{along}", seam.words(), shown(&gap.length)?))
    });
    lines.collect()
}

fn spot(garment: &Garment, point: &SewnPoint) -> String {
    match point.point {
        SewnSpot::Point(id) => {
            let named = garment.point(id);
            format!("{}.{}", garment.piece(named.piece).name, named.name)
        }
        SewnSpot::RunEnd { run, .. } => {
            let edge = garment.edge(garment.whole_edge(run));
            format!("an end of {}.{}", garment.piece(edge.piece).name, edge.name)
        }
    }
}
